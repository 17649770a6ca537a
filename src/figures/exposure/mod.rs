//! From the meter to the shutter: one reckoning over readings, filters, bellows, film and lens.
//!
//! For: the entry pane of an exposure, the command of the same name, and what an entry keeps of how
//! its figure came about. The order is always the same: the reading and its placement, then what
//! stands in front of the film (filters, bellows), then what the shutter does, and the film's own
//! slowness in long exposures last, because it depends on the time all the others have led to.
//! Promises: every step is shown with its stops and with the time it brings; what is missing leaves
//! out its step and is never guessed; what cannot be read is told beside its question. Leaves to
//! others: the single figures (`craft`), the published numbers (`reference`), logging (`logbook`).

mod chain;
mod flash;
mod offers;
mod situation;
mod warnings;

pub use offers::Offer;
pub use situation::Situation;

use super::{Answer, Ask, Book, Chapter, Given, Line, Problem, Recipe};
use crate::craft::exposure::Setting;
use crate::craft::{Amount, ExposureValue, Grounds, Remark, Step, Stops, trimmed};

/// What a reckoning came to.
#[derive(Debug, Clone, PartialEq)]
pub struct Reckoned {
    /// Results, steps and remarks, to be shown.
    pub answer: Answer,
    /// The exposure value at ISO 100 the readings were set to; nothing with flash alone.
    pub value: Option<ExposureValue>,
    /// The setting to be given: what was reckoned for the aperture or the time that was typed, rounded
    /// to what can be set; nothing if no setting can be reckoned.
    pub planned: Option<Setting>,
    /// Settings the lens offers, the planned one first.
    pub offers: Vec<Offer>,
    /// How far the typed aperture and time together are from the plan, with what the film loses in
    /// long exposures counted; nothing if not both were typed.
    pub off: Option<Stops>,
    /// What development the readings and the long exposure ask for, in words; empty if nothing
    /// special.
    pub development: String,
    /// What the development for the long exposure rests on, where one is asked for.
    pub development_on: Option<Grounds>,
}

/// The recipe.
pub(super) const RECIPES: &[Recipe] = &[Recipe {
    word: "exposure",
    title: "from the meter to the shutter",
    chapter: Chapter::Light,
    about: "Readings with the zones they are placed on, then filters, bellows, the shutter and the \
            film's slowness in long exposures, step by step to the settings the lens offers. Give \
            the aperture to get the time, or the time to get the aperture; give both to see how far \
            they are off.",
    asks: ASKS,
    example: &[
        ("readings", "III 8.7 VIII 13.9"),
        ("film", "HP5"),
        ("filter", "x4"),
        ("aperture", "f/32"),
    ],
    answer: answered,
}];

/// What it asks.
pub const ASKS: &[Ask] = &[
    Ask::typed(
        "readings",
        "readings",
        "exposure values at ISO 100 with their zones, III 8.7  V 10.3  VIII 13.9",
    ),
    Ask::typed(
        "film",
        "film",
        "the film, for long exposures and filters, HP5 Plus",
    )
    .from(Book::Films),
    Ask::typed("speed", "exposed at", "the speed it is exposed at, 200"),
    Ask::typed("aperture", "aperture", "the aperture wanted, f/32"),
    Ask::typed(
        "time",
        "time",
        "the time wanted instead, or given, 1/15 or 6s",
    ),
    Ask::typed(
        "filter",
        "filter",
        "the filters on the lens, orange + polariser",
    )
    .from(Book::Filters),
    Ask::typed("light", "light", "daylight or tungsten light, daylight"),
    Ask::typed("lens", "lens", "a lens of the logbook, L-02").from(Book::Lenses),
    Ask::typed("camera", "camera", "a camera of the logbook, C-01").from(Book::Cameras),
    Ask::typed(
        "focal_length",
        "focal length",
        "focal length if no lens is named, 240 mm",
    ),
    Ask::typed("draw", "draw", "from lens board to ground glass, 294 mm"),
    Ask::typed(
        "magnification",
        "magnification",
        "size on the ground glass over real size, 1/4",
    ),
    Ask::typed(
        "distance",
        "distance",
        "from the lens to the subject, 1.2 m",
    ),
    Ask::typed(
        "flash",
        "flash",
        "guide number, distance, power, pops, GN 32 m, 4 m, 1/2 power",
    ),
    Ask::typed(
        "movements",
        "movements",
        "from the middle, front rise 20 mm",
    ),
    Ask::typed("format", "format", "size of the sheet, 4x5").from(Book::Formats),
    Ask::typed(
        "place",
        "place",
        "where, for the sun in the picture, 46.5 N 8.2 E",
    )
    .from(Book::Places),
    Ask::typed("facing", "facing", "where the camera looks, WSW or 240"),
];

fn answered(given: &Given<'_>) -> Result<Answer, Problem> {
    Ok(reckon(&Situation::typed(given)?)?.answer)
}

/// Reckons an exposure.
///
/// # Errors
/// What is missing or cannot be read, beside its question.
pub fn reckon(at: &Situation<'_>) -> Result<Reckoned, Problem> {
    let taken = chain::taken(at)?;
    let flashed = flash::of(at, &taken)?;
    if at.given.text("readings").is_none()
        && let Some(flashed) = flashed
    {
        return Ok(by_flash_alone(taken, flashed));
    }
    let placed = chain::placed(at)?;
    let walked = chain::walk(at, &placed, &taken)?;
    let offers = offers::of(at, &walked)?;
    let mut results: Vec<Line> = Vec::new();
    for (index, offer) in offers.offers.iter().enumerate() {
        let wider = offers
            .planned
            .is_some_and(|planned| offer.aperture.stops() < planned.aperture.stops());
        let name = match (index, wider) {
            (0, _) => "give",
            (_, true) => "or wider",
            (_, false) => "or smaller",
        };
        results.push(Line::new(name, Amount::words(offer.words())));
    }
    results.extend(offers.others.iter().cloned());
    let mut remarks = placed.remarks.clone();
    remarks.extend(offers.remarks.iter().cloned());
    let mut steps = placed.steps.clone();
    steps.extend(walked.steps.iter().cloned());
    steps.extend(offers.steps.iter().cloned());
    if let Some(flashed) = flashed {
        let (lines, said) = flash::beside(&flashed, &offers);
        results.extend(lines);
        remarks.extend(said);
        steps.extend(flashed.steps);
    }
    if let Some(off) = offers.off {
        results.push(Line::new("typed", Amount::words(against_the_plan(off))));
    }
    remarks.extend(warnings::of(at, &walked, &offers));
    let development = chain::development(&placed, &offers);
    if placed.several {
        let range = Amount::words(format!("{} stops", trimmed(placed.range, 2)));
        results.push(Line::new("range", range).on(placed.grounds.clone()));
    }
    if !development.is_empty() {
        let develop = Line::new("develop", Amount::words(development.clone()));
        results.push(develop.on(placed.grounds.clone()));
    }
    Ok(Reckoned {
        answer: answer(results, steps, remarks, placed.grounds.clone()),
        value: Some(placed.set),
        planned: offers.planned,
        offers: offers.offers,
        off: offers.off,
        development,
        development_on: offers.development_on,
    })
}

/// An exposure that the flash makes alone: the time matters only to the light there is besides.
fn by_flash_alone(taken: chain::Taken, flashed: flash::Flashed) -> Reckoned {
    let grounds = flashed
        .steps
        .iter()
        .find_map(|step| step.grounds.clone())
        .unwrap_or_else(Grounds::usual);
    let mut steps: Vec<Step> = taken.steps.into_iter().map(|(step, _)| step).collect();
    steps.extend(flashed.steps);
    let give = Line::new("give by flash alone", Amount::Aperture(flashed.aperture));
    Reckoned {
        answer: answer(vec![give], steps, flashed.remarks, grounds),
        value: None,
        planned: None,
        offers: Vec::new(),
        off: None,
        development: String::new(),
        development_on: None,
    }
}

fn answer(results: Vec<Line>, steps: Vec<Step>, remarks: Vec<Remark>, grounds: Grounds) -> Answer {
    Answer {
        results,
        steps,
        remarks,
        domain: "",
        grounds,
        table: None,
        chart: None,
    }
}

/// How what was typed stands to the plan.
fn against_the_plan(off: Stops) -> String {
    let stops = off.value();
    if stops.abs() < 0.05 {
        "as planned".to_owned()
    } else {
        let over = if stops > 0.0 { "over" } else { "under" };
        let word = if stops.abs() > 1.0 { "stops" } else { "stop" };
        format!("{} {word} {over} the plan", trimmed(stops.abs(), 2))
    }
}

#[cfg(test)]
mod tests;
