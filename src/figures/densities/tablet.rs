//! What each step of a tablet lets through.

use super::typed::{bare, tablet};
use crate::craft::sensitometry::{Tablet, transmission};
use crate::craft::{Amount, Density, Figure, Step};
use crate::figures::{Answer, Given, Line, Problem, Table};

/// Log exposure of one stop.
const STOP: f64 = std::f64::consts::LOG10_2;

/// The tablet as a step of a figure.
pub(super) fn step(tablet: &Tablet) -> Step {
    // Some hundreds of steps at most, which a float counts exactly.
    let count = Amount::number(tablet.count() as f64, "steps", 0);
    let ends = (tablet.density(1), tablet.density(tablet.count()));
    let step = Step::new("tablet", count).on(tablet.grounds.clone());
    match ends {
        (Some(clear), Some(dense)) => step.working(format!("density {clear:.2} to {dense:.2}")),
        _ => step,
    }
}

pub(super) fn answer(given: &Given<'_>) -> Result<Answer, Problem> {
    let found = match tablet(given)? {
        Some(tablet) => tablet,
        None => Tablet::nominal(21)?,
    };
    let bare = bare(given)?;
    let first = found.density(1).unwrap_or(0.0);
    let range = found.density(found.count()).unwrap_or(first) - first;
    let mut heads = vec!["step", "density", "passes"];
    if bare.is_some() {
        heads.push("log H");
    }
    let mut rows = Vec::new();
    for at in 1..=found.count() {
        let Some(density) = found.density(at) else {
            continue;
        };
        let passes = transmission(Density::new(density)?) * 100.0;
        let mut row = vec![
            Amount::number(at as f64, "", 0),
            Amount::number(density, "", 3),
            Amount::measured(passes, "%"),
        ];
        if let Some(log) = bare.and_then(|bare| found.log_exposure(at, bare)) {
            row.push(Amount::number(log, "", 2));
        }
        rows.push(row);
    }
    let figure = Figure::new(found.count(), found.grounds.clone());
    let answer = Answer::of(figure.step(step(&found)), |count| {
        vec![
            Line::new("density range", Amount::number(range, "", 2)),
            Line::new("range of light", Amount::number(range / STOP, "stops", 1)),
            Line::new("steps", Amount::number(count as f64, "", 0)),
        ]
    });
    Ok(answer.table(Table {
        heads: heads.into_iter().map(Into::into).collect(),
        rows,
    }))
}
