//! Parts of a print that get more or less: burning and dodging, and the two exposures of a split print.
//!
//! Promises: seconds follow from the time of the very exposure they belong to; nothing is held back
//! for as long as the exposure itself or longer.

use super::within;
use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Seconds, Step, Stops};

/// `t (2^n - 1)` more, `t (1 - 2^-n)` held back.
const PARTS: Grounds = Grounds::published(
    "Photrio, thread 209811, f-stop timing in enlarging, with worked examples; R. W. Lambrecht, f/stop \
     Timing Table",
);

/// Soft for the lights, hard for the darks.
pub const SPLIT: Grounds = Grounds::published(
    "D. Lingham, davidlingham.uk, and grainmag.com, split grade printing method: soft filter for the \
     highlights first, then hard for the blacks",
);

/// One part of a print.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// What it is: `sky`, `left corner`.
    pub name: String,
    /// Stops more, or less.
    pub stops: Stops,
    /// Which exposure it belongs to, where there are two.
    pub filter: Option<Exposure>,
}

/// Which exposure of a split print.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Exposure {
    /// Through the soft filter.
    Soft,
    /// Through the hard filter.
    Hard,
}

impl Exposure {
    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Exposure::Soft => "soft",
            Exposure::Hard => "hard",
        }
    }
}

/// Seconds for a part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seen {
    /// Seconds more where positive, held back where negative.
    pub seconds: f64,
    /// What the part gets in all.
    pub whole: f64,
}

/// The seconds of a part whose exposure takes `time`: `t (2^n - 1)`, negative where it is held back.
///
/// # Errors
/// If the change is not from -6 to 6 stops.
pub fn seconds(time: Seconds, stops: Stops) -> Result<Seen, Impossible> {
    let stops = within("a change of a part", stops.value(), -6.0..=6.0, "stops")?;
    let whole = time.value() * stops.exp2();
    Ok(Seen {
        seconds: whole - time.value(),
        whole,
    })
}

/// The seconds of all parts, each on the exposure it belongs to; rounded to `timer` seconds if given.
///
/// # Errors
/// If there are no parts, a part belongs to an exposure that is not there, or a change cannot be.
pub fn plan(
    soft: Seconds,
    hard: Option<Seconds>,
    parts: &[Part],
    timer: Option<f64>,
) -> Result<Figure<Vec<Seen>>, Impossible> {
    if parts.is_empty() {
        return Err(Impossible::new(
            "no part is named: write sky +1/2, face -1/3",
        ));
    }
    let timer = timer
        .map(|timer| within("a step of the timer", timer, 0.001..=60.0, "s"))
        .transpose()?;
    let mut figure = Figure::new((), PARTS);
    let mut seen = Vec::with_capacity(parts.len());
    for part in parts {
        let time = match (part.filter, hard) {
            (None, None) | (Some(Exposure::Soft), Some(_)) => soft,
            (Some(Exposure::Hard), Some(hard)) => hard,
            (Some(_), None) => {
                return Err(Impossible::new(format!(
                    "{} names a filter and there is one exposure: give the time of the hard one too",
                    part.name
                )));
            }
            (None, Some(_)) => {
                return Err(Impossible::new(format!(
                    "{} belongs to the soft or the hard exposure: say which, {} hard {}",
                    part.name, part.name, part.stops
                )));
            }
        };
        let mut one = seconds(time, part.stops)?;
        if let Some(timer) = timer {
            one.seconds = (one.seconds / timer).round() * timer;
            one.whole = time.value() + one.seconds;
        }
        let working = if part.stops.value() < 0.0 {
            format!("{time} x (1 - 2^{})", part.stops.value())
        } else {
            format!("{time} x (2^{} - 1)", part.stops.value())
        };
        figure = figure.step(
            Step::new(part.name.clone(), Amount::number(one.seconds, "s", 1))
                .working(working)
                .brings(Amount::number(one.whole, "s", 1)),
        );
        seen.push(one);
    }
    let held: f64 = seen.iter().map(|one| (-one.seconds).max(0.0)).sum();
    if held > soft.value() {
        figure = figure.remark(
            Concern::Warning,
            "more is held back than the exposure lasts: parts have to be dodged at the same time, or from \
             a longer exposure at a smaller aperture",
        );
    }
    Ok(figure.map(|()| seen))
}

/// Reads parts: `sky +1/2, face -1/3`, with the filter before the stops in a split print, `sky soft
/// +1/2, rock hard +1`.
///
/// # Errors
/// If the text does not name parts with their stops.
pub fn read_parts(text: &str) -> Result<Vec<Part>, Impossible> {
    let parts = text.split([',', ';', '\n']).map(str::trim);
    parts
        .filter(|part| !part.is_empty())
        .map(|part| {
            read_part(part).ok_or_else(|| {
                Impossible::new(format!(
                    "\"{part}\" is no part: write its name and the stops, sky +1/2; in a split print the \
                     filter too, sky soft +1/2"
                ))
            })
        })
        .collect()
}

fn read_part(text: &str) -> Option<Part> {
    // "sky +1 1/3": the stops begin at the sign.
    let (name, stops) = match text.find(" +").or_else(|| text.find(" -")) {
        Some(at) => text.split_at_checked(at)?,
        None => text.rsplit_once(char::is_whitespace)?,
    };
    let stops = Stops::parse(stops.trim()).ok()?;
    let name = name.trim();
    let (name, filter) = match name.rsplit_once(char::is_whitespace) {
        Some((rest, "soft")) => (rest.trim(), Some(Exposure::Soft)),
        Some((rest, "hard")) => (rest.trim(), Some(Exposure::Hard)),
        _ => (name, None),
    };
    (!name.is_empty()).then(|| Part {
        name: name.to_owned(),
        stops,
        filter,
    })
}

/// The two exposures of a split print.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Split {
    /// Through the soft filter.
    pub soft: Seconds,
    /// Through the hard filter.
    pub hard: Seconds,
}

/// A split print made darker or lighter as a whole, and each exposure by itself.
///
/// # Errors
/// If a time cannot be.
pub fn split(
    from: Split,
    both: Stops,
    soft: Stops,
    hard: Stops,
) -> Result<Figure<Split>, Impossible> {
    let one = |name: &'static str, time: Seconds, own: Stops| {
        let stops = both.value() + own.value();
        let changed = Seconds::new(time.value() * stops.exp2())?;
        let step = Step::new(name, Amount::Time(changed))
            .working(format!("{time} x 2^{}", super::four(stops)));
        Ok::<_, Impossible>((changed, step))
    };
    let (new_soft, soft_step) = one("soft", from.soft, soft)?;
    let (new_hard, hard_step) = one("hard", from.hard, hard)?;
    let value = Split {
        soft: new_soft,
        hard: new_hard,
    };
    let figure = Figure::new(value, SPLIT).step(soft_step).step(hard_step);
    let turn = hard.value() - soft.value();
    Ok(if turn.abs() < 1e-9 {
        figure
    } else {
        let way = if turn > 0.0 { "more" } else { "less" };
        figure.remark(
            Concern::Note,
            format!("{way} contrast: the hard exposure has moved against the soft one"),
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn time(seconds: f64) -> Seconds {
        Seconds::new(seconds).unwrap()
    }

    #[test]
    fn parts_are_read_with_their_stops_and_filters() {
        let parts = read_parts("sky +1 1/3, left face -1/3; rock hard +1, foot 1/2").unwrap();
        let told: Vec<(&str, f64, Option<Exposure>)> = parts
            .iter()
            .map(|it| (it.name.as_str(), it.stops.value(), it.filter))
            .collect();
        assert_eq!(told[0], ("sky", 4.0 / 3.0, None));
        assert_eq!(told[1], ("left face", -1.0 / 3.0, None));
        assert_eq!(told[2], ("rock", 1.0, Some(Exposure::Hard)));
        assert_eq!(told[3], ("foot", 0.5, None));
        for text in ["sky", "+1", "sky much"] {
            assert!(read_parts(text).is_err(), "{text}");
        }
    }

    #[test]
    fn a_part_of_a_split_print_says_which_exposure_it_belongs_to() {
        let parts = read_parts("sky +1/2").unwrap();
        let why = plan(time(10.0), Some(time(8.0)), &parts, None).unwrap_err();
        assert!(why.to_string().contains("soft or the hard"), "{why}");
        let parts = read_parts("sky hard +1/2").unwrap();
        assert!(plan(time(10.0), None, &parts, None).is_err());
        assert!(plan(time(10.0), None, &[], None).is_err());
    }

    #[test]
    fn dodging_never_takes_the_whole_exposure() {
        for stops in [-0.1, -1.0, -6.0] {
            let seen = seconds(time(10.0), Stops::new(stops).unwrap()).unwrap();
            assert!(seen.seconds > -10.0 && seen.whole > 0.0);
        }
        assert!(seconds(time(10.0), Stops::new(-7.0).unwrap()).is_err());
        let parts = read_parts("a -1, b -1, c -1").unwrap();
        let figure = plan(time(10.0), None, &parts, None).unwrap();
        assert_eq!(figure.remarks[0].concern, Concern::Warning);
    }
}
