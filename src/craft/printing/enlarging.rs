//! Silver gelatin: what changes the time when the print, the lens, the filter or the negative changes.
//!
//! Each change is a factor of the time, told in stops as well; they multiply. Promises: an enlargement
//! is reckoned by the distance the light goes, never by the area of the print; marked apertures count
//! as the stops they stand for; nothing here knows a paper.

use super::{four, within};
use crate::craft::{
    Amount, Aperture, Concern, Density, Figure, Grounds, Impossible, Seconds, Step, Stops,
};

/// `((m2 + 1) / (m1 + 1))^2`.
const ENLARGEMENT: Grounds = Grounds::published(
    "Way Beyond Monochrome as quoted on Photrio; Kingslake and Ray as cited on APUG, with the example of \
     2x to 4x (second-hand)",
);

/// One click of the aperture doubles or halves the light.
const CLICK: Grounds = Grounds::published("R. W. Lambrecht, f/stop Timing");

/// Speed of a paper: twice the speed is half the time.
const SPEED: Grounds =
    Grounds::remembered("ISO 6846: the speed of a paper is inverse to its exposure");

/// Drying darkens.
const DRYING: Grounds = Grounds::published(
    "R. Hicks and F. Schultz, rogerandfrances.com, paper grades: about 10 % less, about half a grade harder",
);

/// The same tone through another density.
const DENSITY: Grounds = Grounds::usual();

/// One change.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Change {
    /// Another enlargement: image over negative, the same side of both.
    Enlargement {
        /// Before.
        from: f64,
        /// Now.
        to: f64,
    },
    /// Another aperture of the enlarging lens.
    Aperture {
        /// Before.
        from: Aperture,
        /// Now.
        to: Aperture,
    },
    /// A paper, or a paper under a filter, of another speed ISO(P).
    Speed {
        /// Before.
        from: f64,
        /// Now.
        to: f64,
    },
    /// A factor of the time before and after, as sets of filters have.
    Filter {
        /// Before.
        from: f64,
        /// Now.
        to: f64,
    },
    /// Another density of the negative, in the tone that shall print alike.
    Density {
        /// Before.
        from: Density,
        /// Now.
        to: Density,
    },
    /// A change in stops, as decided by eye.
    Stops(Stops),
    /// The print was judged wet, and dries darker by so many percent of the time.
    DryDown(f64),
}

impl Change {
    /// The factor of the time, with its working and what it rests on.
    fn factor(self) -> Result<(&'static str, f64, String, Grounds), Impossible> {
        match self {
            Change::Enlargement { from, to } => {
                for enlargement in [from, to] {
                    within("an enlargement", enlargement, 0.01..=100.0, "times")?;
                }
                let factor = ((to + 1.0) / (from + 1.0)).powi(2);
                let working = format!("(({} + 1) / ({} + 1))\u{b2}", four(to), four(from));
                Ok(("enlargement", factor, working, ENLARGEMENT))
            }
            Change::Aperture { from, to } => {
                let factor = (to.stops() - from.stops()).exp2();
                Ok(("aperture", factor, format!("{from} to {to}"), CLICK))
            }
            Change::Speed { from, to } => {
                for speed in [from, to] {
                    within("a paper speed", speed, 0.1..=10_000.0, "")?;
                }
                let working = format!("P {} / P {}", four(from), four(to));
                Ok(("paper speed", from / to, working, SPEED))
            }
            Change::Filter { from, to } => {
                for factor in [from, to] {
                    within("a filter factor", factor, 0.05..=200.0, "")?;
                }
                let working = format!("{} / {}", four(to), four(from));
                Ok(("filter", to / from, working, Grounds::usual()))
            }
            Change::Density { from, to } => {
                let log = to.value() - from.value();
                let working = format!("10^({to} - {from})");
                Ok(("negative density", 10_f64.powf(log), working, DENSITY))
            }
            Change::Stops(stops) => Ok((
                "by eye",
                stops.factor(),
                stops.to_string(),
                Grounds::own("as decided"),
            )),
            Change::DryDown(percent) => {
                let percent = within("a dry-down", percent, 0.0..=50.0, "%")?;
                let working = format!("1 - {} / 100", four(percent));
                Ok(("dry-down", 1.0 - percent / 100.0, working, DRYING))
            }
        }
    }
}

/// A time after all changes, with the stops of each.
///
/// ```
/// use notchbook::craft::Seconds;
/// use notchbook::craft::printing::enlarging::{Change, changed};
/// let larger = Change::Enlargement { from: 2.0, to: 4.0 };
/// let time = changed(Seconds::new(10.0)?, &[larger]).unwrap().value;
/// assert!((time.value() - 27.78).abs() < 0.01);
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
///
/// # Errors
/// If nothing changes, or a number or the time cannot be.
pub fn changed(time: Seconds, changes: &[Change]) -> Result<Figure<Seconds>, Impossible> {
    if changes.is_empty() {
        return Err(Impossible::new(
            "nothing changes: give the enlargement, aperture, filter, paper or density before and now",
        ));
    }
    let mut now = time;
    let mut steps = Vec::with_capacity(changes.len());
    for change in changes {
        let (name, factor, working, grounds) = change.factor()?;
        now = Seconds::new(now.value() * factor)?;
        let step = Step::new(name, Amount::Stops(Stops::from_factor(factor)?))
            .working(format!("{working} = {}", Amount::Factor(factor)))
            .brings(Amount::Time(now))
            .on(grounds);
        steps.push(step);
    }
    let grounds = steps
        .first()
        .and_then(|step| step.grounds.clone())
        .unwrap_or(DENSITY);
    let mut figure = Figure::new(now, grounds);
    figure.steps = steps;
    let larger = changes
        .iter()
        .any(|change| matches!(change, Change::Enlargement { .. }));
    if larger {
        figure = figure.remark(
            Concern::Note,
            "papers lose speed in long exposures and large prints lose contrast: a test strip settles it",
        );
    }
    Ok(figure.within("the same enlarger, height scale and head; times of some seconds to minutes"))
}

/// The enlargement of a projected side: `image / negative`.
///
/// # Errors
/// If a length is nothing.
pub fn enlargement(image: f64, negative: f64) -> Result<f64, Impossible> {
    for side in [image, negative] {
        within("a side", side, 1.0..=10_000.0, "mm")?;
    }
    Ok(image / negative)
}

/// Dry-down in stops: `log2(1 - p / 100)`.
///
/// # Errors
/// If the percentage is not from 0 to 50.
pub fn dry_down_stops(percent: f64) -> Result<Stops, Impossible> {
    let percent = within("a dry-down", percent, 0.0..=50.0, "%")?;
    Ok(Stops::from_factor(1.0 - percent / 100.0)?)
}

/// Stops of drying darker as a percentage of the time: `100 (1 - 2^-n)`.
///
/// # Errors
/// If it is more than one stop.
pub fn dry_down_percent(stops: f64) -> Result<f64, Impossible> {
    let stops = within("a dry-down", stops.abs(), 0.0..=1.0, "stops")?;
    Ok(100.0 * (1.0 - (-stops).exp2()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn time(seconds: f64) -> Seconds {
        Seconds::new(seconds).unwrap()
    }

    #[test]
    fn what_cannot_be_is_refused() {
        for change in [
            Change::Enlargement { from: 0.0, to: 2.0 },
            Change::Speed {
                from: 0.0,
                to: 100.0,
            },
            Change::Filter {
                from: f64::NAN,
                to: 1.0,
            },
            Change::DryDown(100.0),
        ] {
            assert!(changed(time(10.0), &[change]).is_err(), "{change:?}");
        }
        assert!(changed(time(10.0), &[]).is_err());
    }

    proptest! {
        #[test]
        fn there_and_back_is_the_same_time(from in 0.5..20.0_f64, to in 0.5..20.0_f64, seconds in 1.0..300.0_f64) {
            let there = changed(time(seconds), &[Change::Enlargement { from, to }]).unwrap().value;
            let back = changed(there, &[Change::Enlargement { from: to, to: from }]).unwrap().value;
            prop_assert!((back.value() - seconds).abs() < 1e-6 * seconds);
        }

        #[test]
        fn dry_down_goes_both_ways(percent in 0.0..50.0_f64) {
            let stops = dry_down_stops(percent).unwrap();
            prop_assert!((dry_down_percent(stops.value()).unwrap() - percent).abs() < 1e-6);
        }
    }
}
