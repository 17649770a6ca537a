//! The time of a development that became warmer or cooler on the way, from what was typed about it.
//!
//! The plan runs along the table that is told of the film in the developer: whose film, developer and
//! dilution they are is known from the run. Without a table the general law gives an estimate, and says
//! that it is one.

use serde_json::{Map, Value};

use super::{develops, sequence_of};
use crate::craft::development::drift::{Course, UnderWay, left};
use crate::craft::development::temperature::Cell;
use crate::craft::{Celsius, Figure, Seconds, moment};
use crate::logbook::draft::{Desk, HAPPENED};
use crate::logbook::life::RunLife;
use crate::logbook::reckoning::kept_step;
use crate::logbook::{Change, Draft, Kind, Life, Names, ReckonedStep, ThingKind, tidy_reference};
use crate::reference::{PublishedTimes, Reference, TimesRow};

/// What is left, reckoned anew.
#[derive(Debug, Clone, PartialEq)]
pub struct Drifted {
    /// How it came about; its value is what is left.
    pub figure: Figure<Seconds>,
    /// The whole time of the step, what was given already with it.
    pub whole: Seconds,
}

/// The change a draft is of, as far as it is typed.
pub fn change_of(draft: &Draft) -> Option<Change> {
    let typed = draft.get("change").trim().to_lowercase();
    let mut meant = Change::ALL
        .iter()
        .filter(|change| !typed.is_empty() && change.word().starts_with(&typed));
    match (meant.next(), meant.next()) {
        (Some(change), None) => Some(*change),
        _ => None,
    }
}

/// The life of the run or print a draft is about.
pub fn life_at(draft: &Draft, names: &dyn Names) -> Option<Life> {
    let kinds = [ThingKind::Run, ThingKind::Print];
    let thing = names.find(&kinds, &tidy_reference(draft.get("thing")))?;
    names.life_of(thing.id)
}

/// Reckons what is left from the temperature in a draft; nothing if the draft says none, or the step is
/// not the one in the developer.
///
/// # Errors
/// Why nothing can be reckoned, in a sentence.
pub fn reckoned(draft: &Draft, desk: &Desk<'_>) -> Result<Option<Drifted>, String> {
    if draft.kind != Kind::StepChanged || change_of(draft) != Some(Change::Temperature) {
        return Ok(None);
    }
    let Ok(now) = Celsius::parse(draft.get("temperature")) else {
        return Ok(None);
    };
    let Some(life) = life_at(draft, desk.names) else {
        return Ok(None);
    };
    let Some((run, step)) = life.run().and_then(|run| Some((run, run.steps.current()?))) else {
        return Ok(None);
    };
    let sequence = sequence_of(run, desk.reference);
    let of_sequence = sequence.and_then(|sequence| sequence.step_named(&step.step));
    if !develops(of_sequence, &step.step) {
        return Ok(None);
    }
    let (Some(planned), Some(first)) = (step.planned, step.first_plan.or(step.planned)) else {
        return Err(
            "no time was planned for this step, so there is none to reckon anew".to_owned(),
        );
    };
    let Some(first_at) = step.first_temperature.or(run.temperature) else {
        return Err(
            "nothing says how warm it was when it began: amend that entry with the temperature"
                .to_owned(),
        );
    };
    let at = match draft.get(HAPPENED).trim() {
        "" => desk.now,
        typed => moment::parse(typed, desk.now, desk.zone).unwrap_or(desk.now),
    };
    let given = step.given_at(at);
    let Ok(rest) = Seconds::new(planned.value() - given) else {
        return Err("the planned time was given already: nothing is left to reckon".to_owned());
    };
    let under_way = UnderWay {
        planned: Cell {
            at: first_at,
            time: first,
        },
        left: rest,
        was: step.temperature.unwrap_or(first_at),
        now,
    };
    let told = told_of(run, desk);
    let course = match told {
        Some((table, row)) => Course::Told {
            times: &row.times,
            grounds: &table.grounds,
        },
        None => Course::General,
    };
    let figure = left(under_way, course).map_err(|why| why.to_string())?;
    let whole =
        Seconds::new((given + figure.value.value()).round()).map_err(|why| why.to_string())?;
    Ok(Some(Drifted { figure, whole }))
}

/// The table that tells of the film of a run in its developer, the user's own before others, sheets
/// before rolls; one cell says nothing of a course.
fn told_of<'r>(run: &RunLife, desk: &Desk<'r>) -> Option<(&'r PublishedTimes, &'r TimesRow)> {
    let reference: &'r Reference = desk.reference;
    let sheet = desk.names.life_of(*run.sheets.first()?)?;
    let film_box = desk.names.life_of(sheet.sheet()?.film_box?)?;
    let film = reference.film(&film_box.film_box()?.film)?;
    let bath = desk.names.life_of(run.developer?)?;
    let bath = bath.bath()?;
    let developer = reference.developer(&bath.name)?;
    let dilution = run.dilution.or(bath.dilution);
    let fits = |row: &&TimesRow| {
        let same_film = reference.film(&row.film).is_some_and(|it| it.id == film.id);
        let same_bath = reference
            .developer(&row.developer)
            .is_some_and(|it| it.id == developer.id);
        let same_dilution =
            dilution.is_none() || row.dilution.is_none() || row.dilution == dilution;
        same_film && same_bath && same_dilution && row.times.cells().count() > 1
    };
    let tables = reference.times().iter();
    let rows = tables.flat_map(|table| table.rows.iter().map(move |row| (table, row)));
    // A row for the index the film was exposed at goes before one for the speed on the box.
    let exposed_at = film_box.film_box()?.speed.map(|speed| speed.value());
    let index = |row: &TimesRow| match row.speed.map(|speed| speed.value()) {
        of if of.is_some() && of == exposed_at => 0,
        of if of.is_none() || of == film.speed => 1,
        _ => 2,
    };
    rows.filter(|(_, row)| fits(row))
        .min_by_key(|(table, row)| (!table.origin.is_own(), index(row), row.size != "sheets"))
}

/// Adds to the body of a change of temperature the time that was reckoned from it, where none was typed.
/// An entry that is amended keeps what it says.
pub(in crate::logbook) fn add(draft: &Draft, body: &mut Map<String, Value>, desk: &Desk<'_>) {
    if body.contains_key("time") || draft.is_of_an_entry() {
        return;
    }
    let Ok(Some(drifted)) = reckoned(draft, desk) else {
        return;
    };
    let steps: Vec<ReckonedStep> = drifted.figure.steps.iter().map(kept_step).collect();
    for (key, value) in [
        ("time", serde_json::to_value(drifted.whole)),
        ("steps", serde_json::to_value(steps)),
    ] {
        if let Ok(value) = value {
            body.insert(key.to_owned(), value);
        }
    }
}
