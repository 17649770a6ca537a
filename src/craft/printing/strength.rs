//! The same amount of a thing out of another strength, and the same strength for another volume.
//!
//! Printers count small additions in drop-percent: drops times the percent of the solution. Two drops
//! of 2.5 % and one of 5 % are the same. Promises: what is in the mix stays the same, and drops that
//! cannot be counted (less than half a drop) are said to be so.

use super::{four, within};
use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Step};

/// Drops times percent, kept in proportion to the volume.
const DROP_PERCENT: Grounds = Grounds::published(
    "P. Mumford, alt-photo-process list, 22 March 1996: additions counted in drops times percent, kept \
     in proportion to the volume",
);

/// An addition moved to another strength and another volume.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moved {
    /// Drops of the other strength, before rounding.
    pub drops: f64,
    /// Drops times percent.
    pub drop_percent: f64,
}

/// How many drops of `to` percent do what `drops` of `from` percent do, in a mix that is `scale` times
/// as large.
///
/// # Errors
/// If a number cannot be.
pub fn moved(drops: f64, from: f64, to: f64, scale: f64) -> Result<Figure<Moved>, Impossible> {
    let drops = within("an addition", drops, 0.01..=10_000.0, "drops")?;
    let from = within("a strength", from, 0.001..=250.0, "%")?;
    let to = within("a strength", to, 0.001..=250.0, "%")?;
    let scale = within("a change of volume", scale, 0.001..=1000.0, "times")?;
    let drop_percent = drops * from * scale;
    let value = Moved {
        drops: drop_percent / to,
        drop_percent,
    };
    let mut working = format!("{} drops x {} %", four(drops), four(from));
    if scale != 1.0 {
        working.push_str(&format!(" x {}", four(scale)));
    }
    let mut figure = Figure::new(value, DROP_PERCENT)
        .step(Step::new("drop-percent", Amount::measured(drop_percent, "")).working(working))
        .step(
            Step::new("drops", Amount::measured(value.drops, "drops")).working(format!(
                "{} / {} %",
                four(drop_percent),
                four(to)
            )),
        )
        .within("one thing in two strengths, one size of drop");
    if value.drops < 0.5 {
        figure = figure.remark(
            Concern::Warning,
            "that is less than half a drop and cannot be counted: take a weaker solution",
        );
    } else if (value.drops - value.drops.round()).abs() / value.drops > 0.1 {
        figure = figure.remark(
            Concern::Note,
            "whole drops are more than a tenth off: a weaker solution comes nearer",
        );
    }
    Ok(figure)
}
