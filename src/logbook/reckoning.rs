//! The exposure as it is reckoned while it is typed.
//!
//! For: the entry pane of an exposure and the entry itself. A draft names a side and a lens; the
//! logbook knows the film in the one and the shutter of the other. [`reckoned`] puts both together
//! with what was typed and asks the figures; `kept` is what the entry keeps of it, so that years
//! later the timeline can show how the figure came about, whatever has been published since.
//! Promises: a draft without readings and without flash reckons nothing and is no problem.

use serde::Serialize;
use serde_json::{Map, Value};

use super::draft::{Desk, HAPPENED};
use super::{Draft, Kind, Life, ReckonedStep, Reckoning, ThingKind, tidy_reference};
use crate::craft::{Amount, Concern, FilmSpeed, Step, moment};
use crate::figures::exposure::{ASKS, Reckoned, Situation, reckon};
use crate::figures::{self, Given, Problem};

/// The keys of the fields a plan depends on. The time that was given is not one: it is held against the
/// plan.
const INPUTS: &[&str] = &[
    "side",
    "sheet",
    "lens",
    "camera",
    "aperture",
    "speed",
    "readings",
    "filter",
    "draw",
    "magnification",
    "distance",
    "flash",
    "movements",
    "light",
    "place",
    "facing",
];

/// What the reckoning of a draft came to: nothing if there is nothing to reckon in it, and what cannot
/// be read or reckoned, beside its field.
pub type Outcome = Result<Option<Reckoned>, Problem>;

/// The keys of the fields that what was reckoned for a deed of this kind depends on.
pub(super) const fn inputs(kind: Kind) -> &'static [&'static str] {
    match kind {
        Kind::Exposed => INPUTS,
        Kind::RunBegun => super::developing::INPUTS,
        _ => &[],
    }
}

/// Reckons the exposure of a draft; nothing if there are no readings in it.
///
/// # Errors
/// What cannot be read or reckoned, beside its field.
pub fn reckoned(draft: &Draft, desk: &Desk<'_>) -> Outcome {
    let empty = |key| draft.get(key).trim().is_empty();
    if draft.kind != Kind::Exposed || (empty("readings") && empty("flash")) {
        return Ok(None);
    }
    let now = match draft.get(HAPPENED).trim() {
        "" => desk.now,
        typed => moment::parse(typed, desk.now, desk.zone).unwrap_or(desk.now),
    };
    let kit = desk.kit();
    let at = figures::Desk::new(desk.reference, &kit, now);
    let given = Given::new(ASKS, &draft.typed, &at);
    let film_box = film_box(draft, desk);
    let film_box = film_box.as_ref().and_then(Life::film_box);
    let film = film_box.map(|film_box| film_box.film.clone());
    let said = given
        .may("speed", FilmSpeed::parse)?
        .or_else(|| film_box.and_then(|film_box| film_box.speed));
    let (speed, rests) = match said {
        Some(speed) => (speed, None),
        None => {
            let rated = film
                .as_deref()
                .and_then(|film| desk.reference.film(film)?.rated());
            let (speed, rests) = rated.ok_or_else(|| given.missing("speed"))?;
            (speed, Some(rests))
        }
    };
    let lens = given.text("lens").and_then(|lens| at.kit.lens(lens));
    let camera = given
        .text("camera")
        .and_then(|camera| at.kit.camera(camera));
    let size = film_box.and_then(|film_box| film_box.size);
    let lens = lens.unwrap_or_default();
    let situation = Situation {
        speed_rests: rests,
        ..Situation::of(given, film, speed, lens, camera, size)?
    };
    reckon(&situation).map(Some)
}

/// The box the sheet in the side came from.
fn film_box(draft: &Draft, desk: &Desk<'_>) -> Option<Life> {
    let side = desk
        .names
        .find(&[ThingKind::Side], &tidy_reference(draft.get("side")))?;
    let sheet = desk.names.life_of(side.id)?.side()?.sheet?;
    let film_box = desk.names.life_of(sheet)?.sheet()?.film_box?;
    desk.names.life_of(film_box)
}

/// Adds to the body of an exposure what was reckoned. Who leaves the time empty beside a reading means
/// the time that is shown; the same holds for the aperture. An entry that is amended keeps what it
/// says: there an empty field means that it is not known.
pub(super) fn add(draft: &Draft, body: &mut Map<String, Value>, desk: &Desk<'_>) {
    let Ok(Some(reckoned)) = reckoned(draft, desk) else {
        return;
    };
    if let Some(planned) = reckoned.planned.filter(|_| !draft.is_of_an_entry()) {
        let (aperture, time) = (body.contains_key("aperture"), body.contains_key("time"));
        if aperture && !time {
            insert(body, "time", &planned.time);
        } else if time && !aperture {
            insert(body, "aperture", &planned.aperture);
        }
    }
    insert(body, "reckoning", &kept(&reckoned));
}

pub(super) fn insert<T: Serialize>(body: &mut Map<String, Value>, key: &str, value: &T) {
    if let Ok(value) = serde_json::to_value(value) {
        body.insert(key.to_owned(), value);
    }
}

/// What an entry keeps of a reckoning.
pub(super) fn kept(reckoned: &Reckoned) -> Reckoning {
    let remarks = reckoned.answer.remarks.iter();
    let mut steps: Vec<ReckonedStep> = reckoned.answer.steps.iter().map(kept_step).collect();
    if !reckoned.development.is_empty() {
        let on = reckoned.development_on.as_ref();
        steps.push(ReckonedStep {
            name: Reckoning::ASKS.to_owned(),
            amount: reckoned.development.clone(),
            standing: on.map(|grounds| grounds.standing),
            source: on
                .map(|grounds| grounds.source.to_string())
                .unwrap_or_default(),
            ..ReckonedStep::default()
        });
    }
    Reckoning {
        planned_aperture: reckoned.planned.map(|planned| planned.aperture),
        planned_time: reckoned.planned.map(|planned| planned.time),
        value: reckoned.value,
        steps,
        remarks: remarks
            .filter(|remark| remark.concern != Concern::Note)
            .map(|remark| remark.words.clone())
            .collect(),
    }
}

pub(super) fn kept_step(step: &Step) -> ReckonedStep {
    let seconds = match &step.brings {
        Some(Amount::Time(time)) => Some(time.value()),
        _ => None,
    };
    let stops = match &step.amount {
        Amount::Stops(stops) => Some(stops.value()),
        _ => None,
    };
    ReckonedStep {
        name: step.name.to_string(),
        amount: step.amount.to_string(),
        stops,
        seconds,
        standing: step.grounds.as_ref().map(|grounds| grounds.standing),
        source: step
            .grounds
            .as_ref()
            .map(|grounds| grounds.source.to_string())
            .unwrap_or_default(),
    }
}
