//! Silver gelatin paper: its speed and range, its grades, and the contrast a negative wants.
//!
//! Promises: a range is read along the filters of a paper and never beyond them; what ISO 6846 says is
//! known here from memory in part, and says so.

use super::contrast::{Between, Contrasts};
use super::{four, within};
use crate::craft::{Amount, Concern, Density, Figure, Grounds, Impossible, Seconds, Step};

/// A good print generally follows when the range of the paper equals that of the negative.
const MATCH: Grounds = Grounds::published(
    "ISO 6846:1992, introduction (read in a Japanese preview): a good print generally follows when the log \
     exposure range of the paper equals the effective density range of the negative",
);

/// The two ends of the range.
const ENDS: Grounds = Grounds::published(
    "Focal Encyclopedia of Photography, 4th ed., p. 679: from 0.04 above the paper white to 90 % of the \
     blackest black",
);

/// `P = 1000 / Hm`.
const SPEED: Grounds = Grounds::remembered(
    "ISO 6846: P is 1000 over the exposure in lux seconds for a density of 0.60 above the paper",
);

/// The condenser factor.
const CALLIER: Grounds =
    Grounds::remembered("a condenser head makes silver negatives 1.2 to 1.5 times as contrasty");

/// What lights the negative.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Head {
    /// A diffuser, a cold light, a colour head.
    Diffuser,
    /// A condenser, with the factor by which it widens the range of the negative.
    Condenser(f64),
}

/// The log exposure range a negative wants.
///
/// # Errors
/// If the range or the factor cannot be.
pub fn wanted(range: f64, head: Head) -> Result<Figure<f64>, Impossible> {
    let range = within("a density range", range, 0.05..=4.0, "")?;
    match head {
        Head::Diffuser => Ok(Figure::new(range, MATCH)
            .step(Step::new("range wanted", Amount::number(range, "", 2)).on(MATCH))),
        Head::Condenser(q) => {
            let q = within("a condenser factor", q, 1.0..=2.0, "")?;
            Ok(Figure::new(range * q, MATCH).step(
                Step::new("range wanted", Amount::number(range * q, "", 2))
                    .working(format!("{} x {}", four(range), four(q)))
                    .on(CALLIER),
            ))
        }
    }
}

/// The range of a negative between two densities.
///
/// # Errors
/// If the one is not denser than the other.
pub fn range_of(thin: Density, dense: Density) -> Result<f64, Impossible> {
    let range = dense.value() - thin.value();
    if range <= 0.0 {
        return Err(Impossible::new(format!(
            "{dense} is not denser than {thin}: the shadows of a negative are its thin parts"
        )));
    }
    Ok(range)
}

/// The filters of a paper as a table from filter to log exposure range.
///
/// # Errors
/// If the ranges do not run one way.
pub fn filters(rows: &[(f64, f64)], grounds: Grounds) -> Result<Contrasts, Impossible> {
    let rows: Vec<(f64, f64)> = rows
        .iter()
        .map(|(at, range)| (*at, range / 100.0))
        .collect();
    Contrasts::new(&rows, Between::Straight, grounds)
}

/// How a filter is marked, or between which two it stands: `2.25`, `between 00 and 0`.
#[must_use]
pub fn filter_said(at: f64) -> String {
    if (at + 1.0).abs() < 0.005 {
        return "00".to_owned();
    }
    if at < -0.005 {
        return "between 00 and 0".to_owned();
    }
    Amount::number(at, "", 2).to_string()
}

/// Log exposure range from its two ends, and ISO(R), a hundred times that to the nearest ten.
///
/// # Errors
/// If the dark end needs no more exposure than the light one.
pub fn range(light: f64, dark: f64) -> Result<Figure<(f64, f64)>, Impossible> {
    let ler = within("a log exposure range", dark - light, 0.05..=4.0, "")?;
    let iso = (10.0 * ler).round() * 10.0;
    let rounded = Grounds::remembered("ISO 6846: a hundred times the range, to the nearest ten");
    Ok(Figure::new((ler, iso), ENDS)
        .step(
            Step::new("log exposure range", Amount::number(ler, "", 2))
                .working(format!("{} - {}", four(dark), four(light)))
                .on(ENDS),
        )
        .step(
            Step::new("ISO(R)", Amount::number(iso, "", 0))
                .working(format!("100 x {}", four(ler)))
                .on(rounded),
        ))
}

/// ISO(P) from the exposure that gives 0.60 above the paper, before it is rounded to a step.
///
/// # Errors
/// If the exposure cannot be.
pub fn speed(lux_seconds: f64) -> Result<Figure<f64>, Impossible> {
    let exposure = within("an exposure", lux_seconds, 0.01..=10_000.0, "lx s")?;
    let speed = 1000.0 / exposure;
    Ok(Figure::new(speed, SPEED).step(
        Step::new("ISO(P)", Amount::measured(speed, ""))
            .working(format!("1000 / {} lx s", four(exposure))),
    ))
}

/// The time that prints a density of the negative as the middle tone of 0.60 above the paper, under a
/// light of so many lux without the negative: `1000 10^D / (P E)`.
///
/// # Errors
/// If a number or the time cannot be.
pub fn time_under(lux: f64, speed: f64, through: Density) -> Result<Figure<Seconds>, Impossible> {
    let lux = within("a light", lux, 0.001..=100_000.0, "lx")?;
    let speed = within("a paper speed", speed, 0.1..=10_000.0, "")?;
    let needed = 1000.0 / speed;
    let time = Seconds::new(needed * 10_f64.powf(through.value()) / lux)?;
    Ok(Figure::new(time, SPEED)
        .step(
            Step::new("at the paper", Amount::measured(needed, "lx s"))
                .working(format!("1000 / P {}", four(speed)))
                .on(SPEED),
        )
        .step(
            Step::new("time", Amount::Time(time))
                .working(format!("{} x 10^{through} / {} lx", four(needed), four(lux))),
        )
        .within("a light meter that reads the paper's light: blue-sensitive paper, warm lamp, so a test")
        .remark(
            Concern::Note,
            "the speed point is a middle tone; black and white lie half the range to either side of it, \
             more or less",
        ))
}

/// A time under another light: `t E1 / E2`.
///
/// # Errors
/// If a number or the time cannot be.
pub fn by_lux(time: Seconds, from: f64, to: f64) -> Result<Figure<Seconds>, Impossible> {
    for lux in [from, to] {
        within("a light", lux, 0.001..=100_000.0, "lx")?;
    }
    let moved = Seconds::new(time.value() * from / to)?;
    Ok(Figure::new(moved, Grounds::usual()).step(
        Step::new("light", Amount::Factor(from / to))
            .working(format!("{} lx / {} lx", four(from), four(to)))
            .brings(Amount::Time(moved)),
    ))
}

/// How long paper may lie under a safelight: half the geometric mean of the shortest time that shows
/// and the longest that does not.
///
/// # Errors
/// If the one is not longer than the other.
pub fn safe_time(shows: Seconds, shows_not: Seconds) -> Result<Figure<Seconds>, Impossible> {
    if shows.value() <= shows_not.value() {
        return Err(Impossible::new(format!(
            "{shows} shows and {shows_not} does not: the time that shows is the longer one"
        )));
    }
    let safe = Seconds::new(0.5 * (shows.value() * shows_not.value()).sqrt())?;
    let grounds = Grounds::published("ANSI IT2.26-1998, definitions 3.6 to 3.14");
    Ok(Figure::new(safe, grounds).step(
        Step::new("safe time", Amount::Time(safe))
            .working(format!("0.5 x \u{221a}({shows} x {shows_not})")),
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn filters_are_said_as_they_are_marked() {
        assert_eq!(filter_said(-1.0), "00");
        assert_eq!(filter_said(-0.4), "between 00 and 0");
        assert_eq!(filter_said(0.0), "0");
        assert_eq!(filter_said(2.25), "2.25");
    }

    #[test]
    fn what_cannot_be_is_refused() {
        assert!(wanted(0.0, Head::Diffuser).is_err());
        assert!(wanted(1.0, Head::Condenser(0.5)).is_err());
        assert!(range(-0.1, -1.2).is_err());
        assert!(speed(0.0).is_err());
        let density = |value| Density::new(value).unwrap();
        assert!(range_of(density(1.2), density(0.3)).is_err());
        assert!(time_under(f64::NAN, 200.0, density(0.3)).is_err());
        let seconds = |value| Seconds::new(value).unwrap();
        assert!(safe_time(seconds(300.0), seconds(420.0)).is_err());
    }
}
