//! Shutters: what a mark really gives, and what the blades add at small stops.
//!
//! A mark timed several times gives its mean, its error in stops and how far single exposures spread.
//! The blades of a leaf shutter take time to open and close, and a small stop is uncovered sooner
//! than a large one, so at fast marks and small stops the film gets more than the mark says. Both
//! are differences in exposure; taking them into a reckoning is left to whoever reckons. The error of a
//! mark is counted from the time it stands for, 1/256 s for 1/250, because everything that is reckoned
//! counts on that series; a measured time is taken at its word.

use std::borrow::Cow;

use chrono::NaiveDate;

use super::exposure::{stands_for, time_value};
use super::numeral::trimmed;
use super::{
    Amount, Aperture, Concern, Figure, Grounds, Impossible, Seconds, Standing, Step, Stops,
};

/// Error of a mark in stops.
pub(crate) const TESTED: Grounds = Grounds {
    standing: Standing::Own,
    source: Cow::Borrowed("your own timings"),
};
/// Over-exposure of leaf shutters at small stops.
pub(crate) const SMALL_STOPS: Grounds = Grounds::published(
    "Kodak Professional Photoguide, 1979, quoted in Large Format Photography Forum post 1693666 \
     (second-hand)",
);
/// The smooth curve through the three points.
const CURVE: Grounds = Grounds {
    standing: Standing::Usual,
    source: Cow::Borrowed(
        "derived: log2(1 + t_o / t), a curve through Kodak's three points and no more than an aid \
         between them",
    ),
};

/// Marks and stops of the rule for f/16 and smaller.
const RULE: [(f64, f64); 3] = [
    (1.0 / 125.0, 1.0 / 3.0),
    (1.0 / 250.0, 2.0 / 3.0),
    (1.0 / 500.0, 1.0),
];
/// The aperture from which the rule holds, in stops from f/1: f/16.
const SMALL: f64 = 8.0;
/// The time blades are reckoned to take where nothing else is known, in seconds: by the three points.
const BLADES: f64 = 0.002;
/// How far a time may lie from a mark and still be that mark, as a part of it.
const NEAR: f64 = 0.03;
/// A mark further out than this was more likely mistyped, in stops.
const FAR_OUT: f64 = 2.0;
/// Single exposures that spread further than this cannot be relied on, in stops.
const UNSTEADY: f64 = 1.0 / 6.0;

/// What a tested mark gives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tested {
    /// The mean of the times.
    pub mean: Seconds,
    /// The mean against the time the mark stands for; plus is more light than the mark says.
    pub error: Stops,
    /// The standard deviation of single exposures; nothing from a single one.
    pub spread: Option<Stops>,
    /// How many times it was timed.
    pub count: usize,
}

impl Tested {
    /// The spread as a part of the time, in per cent: `2^spread - 1`.
    #[must_use]
    pub fn spread_in_percent(&self) -> Option<f64> {
        Some((self.spread?.value().exp2() - 1.0) * 100.0)
    }
}

/// What a mark gives, from times that were measured: the mean, and `log2(mean / exact)`, where `exact`
/// is the time the mark [stands for](stands_for).
///
/// ```
/// use notchbook::craft::Seconds;
/// use notchbook::craft::shutter::test;
/// let figure = test(Seconds::parse("1/250")?, &[Seconds::parse("1/160")?]).unwrap();
/// assert_eq!(figure.value.error.to_string(), "+0.68 stop");
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
///
/// # Errors
/// If nothing was timed.
pub fn test(mark: Seconds, timings: &[Seconds]) -> Result<Figure<Tested>, Impossible> {
    if timings.is_empty() {
        return Err(Impossible::new(
            "a mark that was never timed has no error: time it several times, such as 1/160 1/155 \
             1/165",
        ));
    }
    let count = timings.len() as f64;
    let mean = timings.iter().map(|time| time.value()).sum::<f64>() / count;
    let mean = Seconds::new(mean)?;
    let exact = stands_for(mark);
    let error = Stops::from_factor(mean.value() / exact.value())?;
    let spread = spread(timings)?;
    let value = Tested {
        mean,
        error,
        spread,
        count: timings.len(),
    };
    let shown = in_fractions(mean);
    let mut figure = Figure::new(value, TESTED).step(
        Step::new("mean", Amount::Time(mean))
            .working(format!("of {}, near {shown}", exposures(timings.len()))),
    );
    if exact != mark {
        let step = Step::new("the mark stands for", Amount::Time(exact));
        figure = figure.step(step.working(format!(
            "{mark} on the ring, {} halvings of a second in the series",
            trimmed(time_value(mark), 0)
        )));
    }
    figure = figure
        .step(Step::new("error", Amount::Stops(error)).working(format!("log2({shown} / {exact})")));
    match spread {
        Some(spread) => {
            figure = figure.step(Step::new("spread", Amount::Stops(spread)).working(format!(
                "standard deviation of single exposures, {} %",
                trimmed(value.spread_in_percent().unwrap_or_default(), 1)
            )));
            if spread.value() > UNSTEADY {
                figure = figure.remark(
                    Concern::Warning,
                    "single exposures differ by more than a sixth of a stop: the mark is not steady",
                );
            }
        }
        None => {
            figure = figure.remark(
                Concern::Note,
                "one timing tells nothing of how steady the mark is: time it a few times more",
            );
        }
    }
    if error.value().abs() > FAR_OUT {
        figure = figure.remark(
            Concern::Warning,
            "more than two stops from its mark: check that mark and times are in the same unit",
        );
    }
    Ok(figure)
}

/// The standard deviation in stops, of the sample; nothing from one timing.
fn spread(timings: &[Seconds]) -> Result<Option<Stops>, Impossible> {
    if timings.len() < 2 {
        return Ok(None);
    }
    let count = timings.len() as f64;
    let stops: Vec<f64> = timings.iter().map(|time| time.value().log2()).collect();
    let mean = stops.iter().sum::<f64>() / count;
    let squares: f64 = stops.iter().map(|one| (one - mean).powi(2)).sum();
    Ok(Some(Stops::new((squares / (count - 1.0)).sqrt())?))
}

/// A short time as the nearest fraction, the way shutters are marked: `1/158 s`.
#[must_use]
pub fn in_fractions(time: Seconds) -> String {
    if time.value() >= 0.3 {
        return format!("{} s", trimmed(time.value(), 2));
    }
    format!("1/{} s", trimmed(1.0 / time.value(), 0))
}

fn exposures(count: usize) -> String {
    match count {
        1 => "1 timing".to_owned(),
        count => format!("{count} timings"),
    }
}

/// How a mark has moved from one day to another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drift {
    /// The first day.
    pub from: NaiveDate,
    /// The last day.
    pub to: NaiveDate,
    /// The error on the last day less the error on the first; plus is slower now.
    pub change: Stops,
}

/// How the error of a mark has moved over its sessions, given in the order of their days; nothing
/// from sessions of one day.
///
/// # Errors
/// If a change is beyond what can be reckoned, which no shutter is.
pub fn drift(sessions: &[(NaiveDate, Stops)]) -> Result<Option<Figure<Drift>>, Impossible> {
    let (Some((from, first)), Some((to, last))) = (sessions.first(), sessions.last()) else {
        return Ok(None);
    };
    if from == to {
        return Ok(None);
    }
    let change = Stops::new(last.value() - first.value())?;
    let value = Drift {
        from: *from,
        to: *to,
        change,
    };
    let step = Step::new("drift", Amount::Stops(change))
        .working(format!("{last} on {to}, {first} on {from}"));
    let mut figure = Figure::new(value, TESTED).step(step);
    if change.value().abs() > 1.0 / 3.0 {
        figure = figure.remark(
            Concern::Warning,
            format!(
                "a third of a stop {} than on {from}: a shutter that moves wants cleaning",
                if change.value() > 0.0 {
                    "slower"
                } else {
                    "faster"
                }
            ),
        );
    }
    Ok(Some(figure))
}

/// What a leaf shutter gives beyond its mark at f/16 and smaller: a third of a stop at 1/125 s, two
/// thirds at 1/250 s, a stop at 1/500 s; nothing at other marks and at larger stops.
///
/// Not for focal-plane shutters.
#[must_use]
pub fn efficiency(aperture: Aperture, time: Seconds) -> Option<(Stops, Grounds)> {
    if aperture.stops() < SMALL - 1e-6 {
        return None;
    }
    let near = |mark: f64| (time.value() / mark - 1.0).abs() < NEAR;
    let (_, stops) = RULE.into_iter().find(|(mark, _)| near(*mark))?;
    Some((Stops::reckoned(stops), SMALL_STOPS))
}

/// A smooth curve through the rule of [`efficiency`]: `log2(1 + t_o / t)`, where `t_o` is the time the
/// blades take, 2 ms where nothing else is known. An aid between the three marks of the rule, and
/// marked as such.
///
/// # Errors
/// If the aperture is larger than f/16, of which the rule does not speak.
pub fn between_marks(
    aperture: Aperture,
    time: Seconds,
    blades_take: Option<Seconds>,
) -> Result<Figure<Stops>, Impossible> {
    if aperture.stops() < SMALL - 1e-6 {
        return Err(Impossible::new(format!(
            "the rule speaks of f/16 and smaller, and nothing is known for {aperture}: time your own \
             shutter at that aperture"
        )));
    }
    let taken = blades_take.map_or(BLADES, Seconds::value);
    let stops = Stops::from_factor(1.0 + taken / time.value())?;
    let grounds = match blades_take {
        Some(_) => Grounds::own("the time of the blades as you gave it"),
        None => CURVE,
    };
    let working = format!(
        "log2(1 + {} ms / {} ms)",
        trimmed(taken * 1000.0, 2),
        trimmed(time.value() * 1000.0, 2)
    );
    let figure = Figure::new(stops, grounds.clone())
        .within("leaf shutters at f/16 and smaller, 1/60 s to 1/500 s; not focal-plane shutters")
        .step(
            Step::new("small stop", Amount::Stops(stops))
                .working(working)
                .on(grounds),
        )
        .remark(
            Concern::Note,
            "a curve between the marks of the rule, not a measurement: time your own shutter at a \
             small stop",
        );
    Ok(if (0.0019..=0.0175).contains(&time.value()) {
        figure
    } else {
        figure.remark(
            Concern::Beyond,
            "outside 1/60 s to 1/500 s the curve has nothing to rest on",
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn time(text: &str) -> Seconds {
        Seconds::parse(text).unwrap()
    }

    fn day(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    #[test]
    fn a_mark_that_was_never_timed_has_no_error() {
        let why = test(time("1/60"), &[]).unwrap_err().to_string();
        assert!(why.contains("never timed"), "{why}");
    }

    #[test]
    fn a_mark_is_told_by_mean_error_and_spread() {
        let times = [time("1/100"), time("1/110"), time("1/120")];
        let figure = test(time("1/125"), &times).unwrap();
        assert_eq!(figure.value.count, 3);
        assert!((1.0 / figure.value.mean.value() - 109.39).abs() < 0.01);
        // log2(128 / 109.39): 1/125 stands for 1/128.
        assert!((figure.value.error.value() - 0.227).abs() < 0.001);
        let steps: Vec<String> = figure
            .steps
            .iter()
            .map(|it| it.amount.to_string())
            .collect();
        assert_eq!(steps[1], "1/128 s");
        assert!((figure.value.spread_in_percent().unwrap() - 9.5).abs() < 0.1);
        assert!((figure.value.spread.unwrap().value() - 0.1315).abs() < 0.001);
        assert!(figure.remarks.is_empty());
    }

    #[test]
    fn one_timing_has_no_spread_and_says_so() {
        let figure = test(time("1/60"), &[time("1/50")]).unwrap();
        assert_eq!(figure.value.spread, None);
        assert_eq!(figure.remarks[0].concern, Concern::Note);
    }

    #[test]
    fn a_shutter_that_moved_between_two_days_is_named() {
        let stops = |value| Stops::new(value).unwrap();
        let sessions = [
            (day("2025-03-01"), stops(0.1)),
            (day("2026-03-01"), stops(0.6)),
        ];
        let figure = drift(&sessions).unwrap().unwrap();
        assert!((figure.value.change.value() - 0.5).abs() < 1e-9);
        assert!(
            figure.remarks[0]
                .words
                .contains("slower than on 2025-03-01")
        );
        assert!(drift(&sessions[..1]).unwrap().is_none());
        assert!(drift(&[]).unwrap().is_none());
    }

    #[test]
    fn the_rule_speaks_of_three_marks_and_of_small_stops() {
        let f = |text| Aperture::parse(text).unwrap();
        assert_eq!(efficiency(f("f/16"), time("1/60")), None);
        assert_eq!(efficiency(f("f/11"), time("1/500")), None);
        assert_eq!(efficiency(f("f/16-1/3"), time("1/500")), None);
        assert!(efficiency(f("f/45"), time("1/256")).is_some());
        let why = between_marks(f("f/8"), time("1/500"), None).unwrap_err();
        assert!(
            why.to_string().contains("nothing is known for f/8"),
            "{why}"
        );
    }

    proptest! {
        #[test]
        fn the_mean_lies_between_the_times_it_is_of(
            times in proptest::collection::vec(0.001..1.0_f64, 1..9),
        ) {
            let timings: Vec<Seconds> = times.iter().map(|t| Seconds::new(*t).unwrap()).collect();
            let value = test(time("1/60"), &timings).unwrap().value;
            let low = times.iter().copied().fold(f64::MAX, f64::min);
            let high = times.iter().copied().fold(0.0, f64::max);
            prop_assert!((low - 1e-9..=high + 1e-9).contains(&value.mean.value()));
        }

        #[test]
        fn slower_blades_and_faster_marks_never_give_less(
            t in 0.001..0.02_f64, faster in 0.5..1.0_f64, blade in 0.0001..0.01_f64,
        ) {
            let f16 = Aperture::parse("f/16").unwrap();
            let of = |t: f64, b: f64| {
                let blades = Some(Seconds::new(b).unwrap());
                between_marks(f16, Seconds::new(t).unwrap(), blades).unwrap().value.value()
            };
            prop_assert!(of(t * faster, blade) >= of(t, blade));
            prop_assert!(of(t, blade * 1.5) >= of(t, blade));
        }
    }
}
