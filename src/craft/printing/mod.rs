//! Printing by hand: what is coated, how it is mixed, how long it is exposed, and which process suits a
//! negative.
//!
//! Pure arithmetic on what was measured or typed. Promises: drops are never fewer than none, a volume
//! is kept within half a drop of every part when it is counted out, nothing is read beyond the ends of
//! a table, and what no formula covers (a broad lamp moved, iron in damp air) is an [`Impossible`] that
//! names the test which would tell. What a process or a paper is known to do, and what of it can hurt,
//! is left to the reference and the callers.

pub mod air;
pub mod burning;
pub mod coating;
pub mod contrast;
pub mod cost;
pub mod dropper;
pub mod enlarging;
pub mod fit;
pub mod lamp;
pub mod metals;
pub mod mixing;
pub mod paper;
pub mod scale;
pub mod strength;
pub mod strips;
pub mod ultraviolet;

use super::Impossible;
use super::numeral::{four_figures, trimmed};

/// To four figures.
fn four(value: f64) -> String {
    trimmed(value, four_figures(value).min(6))
}

/// Checks that `what` lies within a range of `unit`, the ends allowed.
fn within(
    what: &str,
    value: f64,
    range: std::ops::RangeInclusive<f64>,
    unit: &str,
) -> Result<f64, Impossible> {
    if range.contains(&value) {
        return Ok(value);
    }
    let space = if unit.is_empty() { "" } else { " " };
    Err(Impossible::new(format!(
        "{what} of {}{space}{unit} cannot be: it lies from {} to {}{space}{unit}",
        four(value),
        four(*range.start()),
        four(*range.end()),
    )))
}
