//! Droppers: how many drops make a millilitre of a solution.
//!
//! A drop depends on the tip, the solution and the hand, so a dropper is calibrated with the solution
//! it is for. Promises: without a calibration twenty drops to the millilitre is said to be a
//! convention and no more.

use super::{four, within};
use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Step};

/// Drops to a millilitre of a dropper of which nothing is known.
pub const CONVENTION: f64 = 20.0;

/// Where twenty drops come from.
pub const OFFICIAL: Grounds = Grounds::published(
    "UNC School of Pharmacy, calibrated droppers: 1 ml of water in 20 drops, 10 % more or fewer",
);

/// Counting drops into a measure.
const BY_COUNT: Grounds = Grounds::published(
    "J. D. Mathias, Guide to Platinum Palladium Photographic Printmaking, Coating Coverage, 1999/2000",
);

/// How far a dropper may be from the convention and still be called an official one.
const TOLERANCE: f64 = 0.1;

/// Drops that make a calibration by weight worth trusting.
const ENOUGH: u32 = 50;

/// Drops to a millilitre that a tip can give.
const POSSIBLE: std::ops::RangeInclusive<f64> = 5.0..=100.0;

/// What was done to calibrate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Calibrated {
    /// So many drops filled a measure to so many millilitres.
    Count {
        /// The drops.
        drops: u32,
        /// What they filled, in millilitres.
        ml: f64,
    },
    /// So many drops weighed so many grams.
    Weight {
        /// The drops.
        drops: u32,
        /// What they weighed, in grams.
        grams: f64,
        /// The density of the solution in grams a millilitre; 1 for water.
        density: f64,
    },
}

/// Drops to a millilitre: `N / V`, or `N density / m`.
///
/// ```
/// use notchbook::craft::printing::dropper::{Calibrated, drops_per_ml};
/// let found = drops_per_ml(Calibrated::Count { drops: 35, ml: 2.0 }).unwrap();
/// assert_eq!(found.value, 17.5);
/// ```
///
/// # Errors
/// If a number cannot be, or gives drops that no dropper has.
pub fn drops_per_ml(done: Calibrated) -> Result<Figure<f64>, Impossible> {
    let (drops, value, working, grounds) = match done {
        Calibrated::Count { drops, ml } => {
            let ml = within("a filled volume", ml, 0.05..=100.0, "ml")?;
            let working = format!("{drops} / {} ml", four(ml));
            (drops, f64::from(drops) / ml, working, BY_COUNT)
        }
        Calibrated::Weight {
            drops,
            grams,
            density,
        } => {
            let grams = within("a weight", grams, 0.01..=200.0, "g")?;
            let density = within("a density", density, 0.5..=3.0, "g/ml")?;
            let working = format!("{drops} x {} / {} g", four(density), four(grams));
            let value = f64::from(drops) * density / grams;
            (drops, value, working, Grounds::usual())
        }
    };
    if drops == 0 || !POSSIBLE.contains(&value) {
        return Err(Impossible::new(format!(
            "{} drops a millilitre is no dropper: they give from 5 to 100; count the drops again",
            four(value)
        )));
    }
    let step = Step::new("drops a millilitre", Amount::number(value, "", 2)).working(working);
    let mut figure = Figure::new(value, grounds)
        .step(step)
        .within("this dropper, this solution, held upright");
    if drops < ENOUGH {
        figure = figure.remark(
            Concern::Note,
            format!(
                "{drops} drops: one miscounted is {} %; 50 or more tell better",
                four(100.0 / f64::from(drops))
            ),
        );
    }
    Ok(conventional(figure))
}

/// The same figure, warned where it is far from the convention.
fn conventional(figure: Figure<f64>) -> Figure<f64> {
    let off = figure.value / CONVENTION - 1.0;
    if off.abs() <= TOLERANCE + 1e-9 {
        return figure;
    }
    figure.remark(
        Concern::Warning,
        format!(
            "{} % from the 20 drops that recipes count with: recipes in drops give another volume from \
             this dropper, so go by volume and by parts",
            Amount::number(off * 100.0, "", 0)
        ),
    )
}

/// The share of a mix that a drop left behind in the vessel takes: 0.1 of 10 drops.
#[must_use]
pub fn lost_with_one_drop(drops: f64) -> f64 {
    if drops > 1.0 { 1.0 / drops } else { 1.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_denser_solution_gives_more_drops_for_its_weight() {
        let found = |density| {
            let done = Calibrated::Weight {
                drops: 60,
                grams: 3.0,
                density,
            };
            drops_per_ml(done).unwrap().value
        };
        assert_eq!(found(1.0), 20.0);
        assert!((found(1.2) - 24.0).abs() < 1e-9);
    }

    #[test]
    fn what_is_no_dropper_is_refused() {
        for (drops, ml) in [(0, 2.0), (1, 100.0), (40, 0.0), (5000, 1.0), (20, f64::NAN)] {
            let done = Calibrated::Count { drops, ml };
            assert!(drops_per_ml(done).is_err(), "{drops} {ml}");
        }
    }
}
