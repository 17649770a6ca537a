//! Figures of what the lens takes: bellows, filters, flash, shutter.

use super::{Answer, Ask, Chapter, Given, Line, Problem, Recipe};
use crate::craft::{Amount, Millimetres, bellows};

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[Recipe {
    word: "bellows",
    title: "what the bellows takes",
    chapter: Chapter::Exposure,
    about: "How many stops more a lens needs that is racked out for something near.",
    asks: &[
        Ask::typed(
            "focal_length",
            "focal length",
            "focal length of the lens, 240 mm",
        ),
        Ask::typed("draw", "draw", "from lens board to ground glass, 294 mm"),
    ],
    example: &[("focal_length", "240 mm"), ("draw", "294 mm")],
    answer: bellows,
}];

fn bellows(given: &Given<'_>) -> Result<Answer, Problem> {
    let focal_length = given.must("focal_length", Millimetres::parse)?;
    let draw = given.must("draw", Millimetres::parse)?;
    let figure = bellows::bellows(&bellows::Draw {
        focal_length: Some(focal_length),
        by: bellows::By::Draw(draw),
        pupil_ratio: None,
        flange: None,
        reversed: false,
    })?;
    Ok(Answer::of(figure, |bellows| {
        vec![
            Line::new("more exposure", Amount::Stops(bellows.stops)),
            Line::new("factor", Amount::Factor(bellows.factor)),
        ]
    }))
}
