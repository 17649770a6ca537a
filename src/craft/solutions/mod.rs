//! Solutions: thinning, strengths, salts and their water, temperatures, volumes, capacity, fixing,
//! washing, and weighing out.
//!
//! Pure arithmetic on what the maker, a book or the user gives. Promises: what goes in comes out again
//! (parts add up to the whole, a solute is never lost or made), a strength is never taken by weight
//! where it is by volume, and what cannot be mixed is an [`Impossible`] with the reason. Which formula
//! has how many grams, and what a bath has been through, is left to the reference and the logbook. So
//! is what can hurt: a figure here knows no substances, the caller says the caution first.

pub mod capacity;
pub mod crossing;
pub mod fixing;
pub mod molar;
pub mod percent;
pub mod salts;
pub mod thinning;
pub mod volume;
pub mod warmth;
pub mod washing;
pub mod weighing;

use super::numeral::{four_figures, trimmed};
use super::{Amount, Impossible};

/// The largest amount that is reckoned, in grams or millilitres: a ton, a cubic metre.
const MOST: f64 = 1e6;

/// Checks an amount called `what`.
fn some(what: &str, value: f64, unit: &str) -> Result<f64, Impossible> {
    if value > 0.0 && value <= MOST {
        return Ok(value);
    }
    Err(Impossible::new(format!(
        "{what} of {value} {unit} cannot be: it is more than 0 and at most {MOST} {unit}"
    )))
}

/// Checks an amount called `what` that may be nothing.
fn some_or_none(what: &str, value: f64, unit: &str) -> Result<f64, Impossible> {
    if value == 0.0 {
        return Ok(0.0);
    }
    some(what, value, unit)
}

/// To four figures.
fn four(value: f64) -> String {
    trimmed(value, four_figures(value).min(6))
}

/// Millilitres, as a step or a result shows them.
#[must_use]
pub fn millilitres(value: f64) -> Amount {
    in_unit(value, "ml")
}

/// Grams, as a step or a result shows them.
#[must_use]
pub fn grams(value: f64) -> Amount {
    in_unit(value, "g")
}

/// Hundredths are as fine as people weigh and measure, but for what is smaller than a tenth.
fn in_unit(value: f64, unit: &'static str) -> Amount {
    let places = match value {
        small if small < 0.1 => four_figures(small).min(6),
        middling if middling < 100.0 => 2,
        _ => 1,
    };
    Amount::number(value, unit, places)
}
