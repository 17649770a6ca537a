//! More and less contrast by developing longer and shorter: N-2 to N+2.
//!
//! The percentages are common practice without a source, and wide: they say where to begin. A test of
//! one's own with the film, the developer and the paper goes before them.

use std::fmt;

use crate::craft::numeral::{Cursor, in_thirds, plain, trimmed};
use crate::craft::{
    Amount, Concern, Figure, Grounds, Impossible, Seconds, Step, Stops, Unreadable,
};
use crate::words::words;

use serde::{Deserialize, Serialize};

/// Development shorter than this becomes uneven.
const EVEN_FROM: f64 = 300.0;

const KODAK_SLIGHT: Grounds = Grounds::published(
    "Kodak F-4016, T-MAX 100 Film, February 2016: 10 to 15 % more or less time for a small correction",
);
const THORNTON_START: Grounds = Grounds::published(
    "B. Thornton, development times: begin a test at 20 % less than the maker's time, and cut a further \
     10 % if Zone IX prints white",
);
const THORNTON_SPEED: Grounds = Grounds::published(
    "B. Thornton, development times, second part: N+1 and N+2 may allow about half a stop less exposure",
);

/// What each rule cuts or adds, in percent, for whole zones: N-2, N-1, N, N+1, N+2.
const RULE: [(f64, f64); 5] = [
    (-40.0, -30.0),
    (-25.0, -15.0),
    (0.0, 0.0),
    (25.0, 40.0),
    (60.0, 100.0),
];

/// How far contrast shall change, in zones from -2 to +2: N-1 for a subject with one zone too many.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Expansion(f64);

impl Expansion {
    /// Normal development.
    pub const NORMAL: Expansion = Expansion(0.0);

    /// So many zones more, less than 0 for a contraction.
    ///
    /// # Errors
    /// Outside -2 to +2.
    pub fn new(zones: f64) -> Result<Expansion, Unreadable> {
        let wanted = "a change from N-2 to N+2: further than that no rule goes";
        (-2.0..=2.0)
            .contains(&zones)
            .then_some(Expansion(zones + 0.0))
            .ok_or_else(|| Unreadable::new(&zones.to_string(), wanted))
    }

    /// Reads `N`, `N-1`, `n+1 1/2`, `-2`, `+1`.
    ///
    /// # Errors
    /// If the text is no such change.
    pub fn parse(text: &str) -> Result<Expansion, Unreadable> {
        let unreadable =
            || Unreadable::new(text, "a change of contrast: write N-1, N, N+1 or N+1 1/2");
        let plain = plain(text);
        let rest = plain.strip_prefix('n').unwrap_or(&plain).trim();
        if rest.is_empty() {
            return if plain.is_empty() {
                Err(unreadable())
            } else {
                Ok(Expansion::NORMAL)
            };
        }
        let mut cursor = Cursor::new(rest);
        let sign = cursor.sign();
        let zones = cursor
            .number()
            .filter(|_| cursor.at_end())
            .ok_or_else(unreadable)?;
        Expansion::new(sign * zones)
    }

    /// The zones, less than 0 for a contraction.
    #[must_use]
    pub const fn zones(self) -> f64 {
        self.0
    }
}

impl fmt::Display for Expansion {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.0 == 0.0 {
            return f.write_str("N");
        }
        let zones = trimmed(self.0.abs(), 2);
        let zones = if zones.ends_with(".5") || zones == "0.5" {
            format!("{} 1/2", self.0.abs().floor()).replace("0 1/2", "1/2")
        } else {
            in_thirds(self.0.abs())
        };
        write!(f, "N{}{zones}", if self.0 < 0.0 { '-' } else { '+' })
    }
}

impl TryFrom<String> for Expansion {
    type Error = Unreadable;

    fn try_from(text: String) -> Result<Expansion, Unreadable> {
        Expansion::parse(&text)
    }
}

impl From<Expansion> for String {
    fn from(by: Expansion) -> String {
        by.to_string()
    }
}

words! {
    /// The make of the emulsion, as far as development asks for it.
    Grain {
        /// Cubic grain.
        Classic = "classic",
        /// Flat grain, which answers to development more sharply.
        Tabular = "tabular",
    }
}

/// From the least to the most that a rule leaves open.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// The shorter time.
    pub least: Seconds,
    /// The longer time.
    pub most: Seconds,
}

impl Span {
    /// The time in the middle.
    ///
    /// # Errors
    /// Never for a span of times; the type does not say so.
    pub fn middle(self) -> Result<Seconds, Unreadable> {
        Seconds::new((self.least.value() + self.most.value()) / 2.0)
    }
}

/// What the rule says for any part of a zone, in percent, least and most.
fn percent(by: Expansion, grain: Grain) -> (f64, f64) {
    let place = by.0 + 2.0;
    let at = |index: f64| {
        // Both ends of the range are in the table; a cast of what is no number gives 0.
        RULE.get(index as usize).copied().unwrap_or((0.0, 0.0))
    };
    let (below, above, part) = (at(place.floor()), at(place.ceil()), place.fract());
    let half = match grain {
        Grain::Classic => 1.0,
        Grain::Tabular => 0.5,
    };
    let between = |one: f64, other: f64| half * (one + (other - one) * part);
    (between(below.0, above.0), between(below.1, above.1))
}

/// The middle of what the rule leaves open, as a factor of the time for N.
#[must_use]
pub fn factor(by: Expansion, grain: Grain) -> f64 {
    let (least, most) = percent(by, grain);
    1.0 + (least + most) / 200.0
}

/// The change of contrast that a time of `factor` times the one meant comes to by the middle of the rule,
/// in zones; nothing beyond N-2 and N+2.
#[must_use]
pub fn zones_of(factor: f64, grain: Grain) -> Option<f64> {
    let whole = |zones: i8| {
        let zones = f64::from(zones);
        (zones, self::factor(Expansion(zones), grain))
    };
    let pairs = (-2..2).map(|zones| (whole(zones), whole(zones + 1)));
    let around =
        |((_, low), (_, high)): &((f64, f64), (f64, f64))| (*low..=*high).contains(&factor);
    let ((zones, low), (_, high)) = pairs.into_iter().find(around)?;
    Some(zones + (factor - low) / (high - low))
}

fn signed(percent: f64) -> String {
    let sign = if percent > 0.0 { "+" } else { "" };
    format!("{sign}{} %", trimmed(percent, 1))
}

fn span(time: Seconds, (least, most): (f64, f64)) -> Result<Span, Impossible> {
    let changed = |percent: f64| Seconds::new(time.value() * (1.0 + percent / 100.0));
    Ok(Span {
        least: changed(least)?,
        most: changed(most)?,
    })
}

fn even<T>(figure: Figure<T>, shortest: Seconds) -> Figure<T> {
    if shortest.value() >= EVEN_FROM {
        return figure;
    }
    figure.remark(
        Concern::Warning,
        "shorter than 5 min development becomes uneven: dilute the developer further or work cooler, \
         and take the time that is told for that",
    )
}

/// The time for more or less contrast from the time for N, by the rule of percentages.
///
/// # Errors
/// If the result is no time.
pub fn changed(time: Seconds, by: Expansion, grain: Grain) -> Result<Figure<Span>, Impossible> {
    let percent = percent(by, grain);
    let span = span(time, percent)?;
    let name = match grain {
        Grain::Classic => format!("{by}"),
        Grain::Tabular => format!("{by}, half the percentages for flat grain"),
    };
    let amount = format!("{} to {}", signed(percent.0), signed(percent.1));
    let figure = Figure::new(span, Grounds::usual())
        .within("N-2 to N+2; where to begin a test, not where it ends")
        .step(Step::new("time for N", Amount::Time(time)))
        .step(
            Step::new(name, Amount::words(amount))
                .working(format!("{} to {}", span.least, span.most))
                .on(Grounds::usual()),
        );
    let figure = if by.0.fract() == 0.0 {
        figure
    } else {
        figure.remark(
            Concern::Note,
            "the rule speaks of whole zones: this lies in proportion between two of them",
        )
    };
    Ok(even(figure, span.least))
}

/// A small correction, a little more or a little less contrast: 10 to 15 % of the time.
///
/// # Errors
/// If the result is no time.
pub fn slightly(time: Seconds, more: bool) -> Result<Figure<Span>, Impossible> {
    let percent = if more { (10.0, 15.0) } else { (-15.0, -10.0) };
    let span = span(time, percent)?;
    let amount = format!("{} to {}", signed(percent.0), signed(percent.1));
    let figure = Figure::new(span, KODAK_SLIGHT)
        .step(Step::new("time now", Amount::Time(time)))
        .step(
            Step::new("a small correction", Amount::words(amount))
                .working(format!("{} to {}", span.least, span.most))
                .on(KODAK_SLIGHT),
        );
    Ok(even(figure, span.least))
}

/// What exposure has to change with development, where something is told of it: more for a
/// contraction, less for an expansion of one or two zones.
#[must_use]
pub fn exposure_with(by: Expansion) -> Option<Figure<Stops>> {
    if by.0 < 0.0 {
        let stops = Stops::new(-by.0 / 3.0).ok()?;
        let step = Step::new("speed lost", Amount::Stops(stops))
            .working("1/3 stop for each zone of contraction")
            .on(Grounds::usual());
        return Some(Figure::new(stops, Grounds::usual()).step(step));
    }
    if by.0 < 1.0 {
        return None;
    }
    let stops = Stops::new(-0.5).ok()?;
    let step = Step::new("speed gained, at most", Amount::Stops(stops))
        .working("about half a stop for N+1 and N+2, a factor of 1.41 in speed")
        .on(THORNTON_SPEED);
    Some(Figure::new(stops, THORNTON_SPEED).step(step))
}

/// Where a test of one's own begins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trial {
    /// The first time to try: 20 % less than the maker's.
    pub first: Seconds,
    /// The next if Zone IX prints white, 10 % less than the first.
    pub next: Seconds,
    /// The next if the further 10 % are taken of the maker's time.
    pub next_of_maker: Seconds,
}

/// The times a test of one's own begins with, from the maker's time.
///
/// # Errors
/// If a result is no time.
pub fn trial(maker: Seconds) -> Result<Figure<Trial>, Impossible> {
    let part = |part: f64| Seconds::new(maker.value() * part);
    let trial = Trial {
        first: part(0.8)?,
        next: part(0.8 * 0.9)?,
        next_of_maker: part(0.7)?,
    };
    let step = |name, working, time| {
        Step::new(name, Amount::Time(time))
            .working(working)
            .on(THORNTON_START)
    };
    let figure = Figure::new(trial, THORNTON_START)
        .step(step("first", format!("{maker} x 0.8"), trial.first))
        .step(step("next", format!("{} x 0.9", trial.first), trial.next))
        .remark(
            Concern::Note,
            format!(
                "the text does not say of which time the further 10 % are taken: of the maker's it is {}",
                trial.next_of_maker
            ),
        );
    Ok(even(figure, trial.next_of_maker))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn by(text: &str) -> Expansion {
        Expansion::parse(text).unwrap()
    }

    #[test]
    fn changes_are_read_and_shown_as_people_write_them() {
        for (text, shown) in [
            ("N", "N"),
            ("n-1", "N-1"),
            ("N + 2", "N+2"),
            ("N+1 1/2", "N+1 1/2"),
            ("-0.5", "N-1/2"),
            ("+1/3", "N+1/3"),
            ("0", "N"),
        ] {
            assert_eq!(by(text).to_string(), shown, "{text}");
        }
        for text in ["", "N-", "N-3", "Z", "N+1x", "nan"] {
            assert!(Expansion::parse(text).is_err(), "{text}");
        }
    }

    #[test]
    fn the_rule_cuts_and_adds_what_is_usual() {
        let ten = Seconds::new(600.0).unwrap();
        for (text, least, most) in [
            ("N-2", 360.0, 420.0),
            ("N-1", 450.0, 510.0),
            ("N", 600.0, 600.0),
            ("N+1", 750.0, 840.0),
            ("N+2", 960.0, 1200.0),
        ] {
            let span = changed(ten, by(text), Grain::Classic).unwrap().value;
            assert!((span.least.value() - least).abs() < 1e-9, "{text}");
            assert!((span.most.value() - most).abs() < 1e-9, "{text}");
        }
        let flat = changed(ten, by("N+1"), Grain::Tabular).unwrap().value;
        assert!((flat.least.value() - 675.0).abs() < 1e-9);
    }

    #[test]
    fn short_development_is_warned_of() {
        let six = Seconds::new(360.0).unwrap();
        let figure = changed(six, by("N-1"), Grain::Classic).unwrap();
        assert!(
            figure
                .remarks
                .iter()
                .any(|it| it.concern == Concern::Warning)
        );
    }

    #[test]
    fn exposure_changes_only_where_something_is_told() {
        let stops = |text| exposure_with(by(text)).map(|it| it.value.value());
        assert!((stops("N-2").unwrap() - 2.0 / 3.0).abs() < 1e-6);
        assert_eq!(stops("N"), None);
        assert_eq!(stops("N+1/2"), None);
        assert_eq!(stops("N+1"), Some(-0.5));
    }

    proptest! {
        #[test]
        fn more_contrast_never_takes_less_time(
            one in -2.0..=2.0_f64, other in -2.0..=2.0_f64, seconds in 60.0..2000.0_f64,
        ) {
            let time = Seconds::new(seconds).unwrap();
            let (less, more) = (one.min(other), one.max(other));
            for grain in Grain::ALL {
                let span = |zones| changed(time, Expansion::new(zones).unwrap(), *grain).unwrap().value;
                let (less, more) = (span(less), span(more));
                prop_assert!(less.least.value() <= more.least.value() + 1e-9);
                prop_assert!(less.most.value() <= more.most.value() + 1e-9);
                prop_assert!(less.least.value() <= less.most.value() + 1e-9);
            }
        }

        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            if let Ok(by) = Expansion::parse(&text) {
                prop_assert!(Expansion::parse(&by.to_string()).is_ok());
            }
        }
    }
}
