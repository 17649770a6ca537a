//! Figures of printing by hand: coating, its solutions, exposure, silver gelatin, and which process
//! suits a negative.
//!
//! What can hurt is said before the figure, from the cautions of what was named.

mod coating;
mod contact;
mod contrast;
mod cost;
mod drops;
mod enlarger;
mod light;
mod metals;
mod paper;
mod suits;
#[cfg(test)]
mod tests;
mod time;

use super::{Answer, Given, Line, Problem, Recipe};
use crate::craft::{Amount, Unreadable, number};

/// Areas and droppers.
pub(super) const AREAS: &[Recipe] = coating::RECIPES;
/// Parts in drops.
pub(super) const DROPS: &[Recipe] = drops::RECIPES;
/// Contrast by additions.
pub(super) const AGENTS: &[Recipe] = contrast::RECIPES;
/// Metal and iron solutions.
pub(super) const METALS: &[Recipe] = metals::RECIPES;
/// Costs and stocks.
pub(super) const COSTS: &[Recipe] = cost::RECIPES;
/// Times from tablets and strips.
pub(super) const TIMES: &[Recipe] = time::RECIPES;
/// Lamps, sun and air.
pub(super) const LIGHT: &[Recipe] = light::RECIPES;
/// Silver gelatin under the enlarger.
pub(super) const ENLARGER: &[Recipe] = enlarger::RECIPES;
/// Which process suits a negative.
pub(super) const SUITS: &[Recipe] = suits::RECIPES;
/// Contact prints and safelights.
pub(super) const CONTACT: &[Recipe] = contact::RECIPES;
/// Grades, filters and speeds of paper.
pub(super) const PAPER: &[Recipe] = paper::RECIPES;

/// The same answer with these cautions first.
fn warned(given: &Given<'_>, answer: Answer, ids: &[&str]) -> Answer {
    let reference = given.desk().reference;
    let found = ids.iter().filter_map(|id| reference.caution(id));
    super::solutions::cautioned(answer, reference, found)
}

/// A number with `unit` behind it or without: `20`, `20 drops`.
fn with_unit(text: &str, units: &[&str]) -> Result<f64, Unreadable> {
    let trimmed = text.trim();
    let lower = trimmed.to_lowercase();
    let bare = units.iter().find_map(|unit| lower.strip_suffix(unit));
    number(bare.map_or(trimmed, str::trim))
}

/// Drops to a millilitre that were typed, or twenty; and whether they were typed.
fn dropper(given: &Given<'_>) -> Result<(f64, bool), Problem> {
    let typed = given.may("dropper", |text| {
        with_unit(text, &["drops/ml", "drops per ml", "drops"])
    })?;
    match typed {
        Some(drops) if (5.0..=100.0).contains(&drops) => Ok((drops, true)),
        Some(_) => Err(given.problem(
            "dropper",
            "droppers give from 5 to 100 drops a millilitre: \"reckon dropper\" tells yours",
        )),
        None => Ok((crate::craft::printing::dropper::CONVENTION, false)),
    }
}

/// What is said where twenty drops to the millilitre were taken because none were typed.
const UNCALIBRATED: &str = "20 drops a millilitre are a convention, 10 % more or less: calibrate the dropper \
    with the solution itself";

/// A number that must be there.
fn need(given: &Given<'_>, key: &'static str) -> Result<f64, Problem> {
    given.number(key)?.ok_or_else(|| given.missing(key))
}

/// A result that is a plain number of a unit, to four figures.
fn measured(name: &'static str, value: f64, unit: &'static str) -> Line {
    Line::new(name, Amount::measured(value, unit))
}
