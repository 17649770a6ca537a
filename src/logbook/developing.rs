//! The developing time of a run as it is reckoned while the run is typed.
//!
//! For: the entry pane of a run, the entry itself, and planning. A draft names sheets and baths; the
//! logbook knows the film in the ones, what their exposures ask of the development, and what is in the
//! others. [`reckoned`] puts them together with what was typed and asks the figures; the entry keeps the
//! steps, as an exposure does. Promises: what the sheets ask for is taken where nothing was typed, and
//! sheets that ask for different things are never averaged; a draft without sheets or without a developer
//! reckons nothing and is no problem.

use std::collections::BTreeMap;

use serde_json::{Map, Value};

use super::draft::{Desk, several};
use super::life::{Exposure, SheetLife};
use super::reckoning::{insert, kept_step};
use super::{Draft, Kind, Life, Names, ReckonedStep, Reckoning, ThingKind, tidy_reference};
use crate::craft::development::agitation::Agitation;
use crate::craft::development::asked::Asked;
use crate::craft::{Concern, FilmSpeed, Grounds, moment};
use crate::figures::development::{ASKS, Reckoned, Situation, reckon};
use crate::figures::{self, Given, Problem};
use crate::reference::Reference;

/// The keys of the fields a time depends on. The time itself is not one: it is held against what was
/// reckoned.
pub(super) const INPUTS: &[&str] = &[
    "sheets",
    "developer",
    "dilution",
    "contrast",
    "temperature",
    "vessel",
    "agitation",
];

/// What the exposures of a sheet ask of its development.
#[derive(Clone, Debug, PartialEq)]
pub struct Wish {
    /// In the words of the entry.
    pub words: String,
    /// As it can be reckoned with; nothing if the words say no change a rule goes with.
    pub asked: Option<Asked>,
    /// What the change for a long exposure rests on.
    pub long: Option<Grounds>,
    /// What the reckoning of the exposure asked for, where the words are another's.
    pub instead_of: Option<String>,
}

/// What the exposures of a sheet ask of its development; nothing if they ask for nothing.
pub fn wish_of(sheet: &SheetLife, reference: &Reference) -> Option<Wish> {
    sheet
        .exposures
        .iter()
        .rev()
        .find_map(|exposure| wish(exposure, reference))
}

fn wish(exposure: &Exposure, reference: &Reference) -> Option<Wish> {
    let reckoned = exposure.asks.as_ref();
    let on = |step: &ReckonedStep| {
        step.standing
            .map(|standing| Grounds::new(standing, step.source.clone()))
    };
    let Some(typed) = exposure.development.as_deref() else {
        let step = reckoned?;
        return Some(Wish {
            words: step.amount.clone(),
            asked: read(&step.amount, reference),
            long: on(step),
            instead_of: None,
        });
    };
    let asked = read(typed, reference);
    // A percentage asked for by a long exposure is nothing that N-1 could mean to contain.
    let long = reckoned.and_then(|step| Some((step, read(&step.amount, reference)?.percent?)));
    let both = match (&asked, long) {
        (Some(asked), Some((step, percent))) if asked.percent.is_none() => {
            let percent = Asked {
                percent: Some(percent),
                ..Asked::default()
            };
            asked.and(&percent).ok().map(|both| (both, step))
        }
        _ => None,
    };
    let instead_of = reckoned
        .filter(|step| read(&step.amount, reference) != asked && both.is_none())
        .map(|step| step.amount.clone());
    Some(match both {
        Some((both, step)) => Wish {
            words: format!(
                "{typed}; {}",
                Asked {
                    percent: both.percent,
                    ..Asked::default()
                }
            ),
            asked: Some(both),
            long: on(step),
            instead_of: None,
        },
        None => Wish {
            words: typed.to_owned(),
            asked,
            long: None,
            instead_of,
        },
    })
}

/// Reads what is asked for; nothing if it is no change, or nothing but a way of printing that nobody
/// knows. Beside a way of printing that is not known a change stands.
fn read(text: &str, reference: &Reference) -> Option<Asked> {
    let mut asked = Asked::parse(text).ok()?;
    let known = |process: &String| reference.process_named(process).is_some();
    if !asked.printed_as.as_ref().is_none_or(known) {
        asked.printed_as = None;
        if asked == Asked::default() {
            return None;
        }
    }
    Some(asked)
}

/// A sheet of a run with what has to be known of it.
#[derive(Clone, Debug)]
pub struct Waiting {
    /// Its reference.
    pub reference: String,
    /// The film, as it stands on its box.
    pub film: Option<String>,
    /// The index it was exposed at.
    pub speed: Option<FilmSpeed>,
    /// What it asks of its development.
    pub wish: Option<Wish>,
}

impl Waiting {
    /// What is known of a sheet.
    pub fn of(life: &Life, names: &dyn Names, reference: &Reference) -> Option<Waiting> {
        let sheet = life.sheet()?;
        let film_box = sheet.film_box.and_then(|it| names.life_of(it));
        let film_box = film_box.as_ref().and_then(Life::film_box);
        let exposed = sheet.exposures.iter().rev().find_map(|one| one.speed);
        Some(Waiting {
            reference: life.reference.clone(),
            film: film_box.map(|it| it.film.clone()),
            speed: exposed.or(film_box.and_then(|it| it.speed)),
            wish: wish_of(sheet, reference),
        })
    }

    /// What it asks for, as it can be reckoned with: N where it asks for nothing.
    pub fn asked(&self) -> Option<Asked> {
        match &self.wish {
            None => Some(Asked::default()),
            Some(wish) => wish.asked.clone(),
        }
    }
}

/// The sheets of a draft, as far as they can be read yet.
pub fn sheets_of(draft: &Draft, desk: &Desk<'_>) -> Vec<Waiting> {
    several(ThingKind::Sheet, draft.get("sheets"), desk.names)
        .unwrap_or_default()
        .into_iter()
        .filter_map(|sheet| desk.names.life_of(sheet))
        .filter_map(|life| Waiting::of(&life, desk.names, desk.reference))
        .collect()
}

/// What all sheets of a run ask for together.
///
/// # Errors
/// That they ask for different things, or for something no rule goes with, in a sentence.
pub fn asked_by(sheets: &[Waiting]) -> Result<Asked, String> {
    if let Some(odd) = sheets.iter().find(|sheet| sheet.asked().is_none()) {
        let words = odd.wish.as_ref().map(|wish| wish.words.as_str());
        return Err(format!(
            "{} asks for \"{}\", which no rule goes with: say what this run is for, N-2 or N",
            odd.reference,
            words.unwrap_or_default()
        ));
    }
    let mut wishes: Vec<(Asked, &str)> = Vec::new();
    for sheet in sheets {
        let asked = sheet.asked().unwrap_or_default();
        if wishes.iter().all(|(other, _)| *other != asked) {
            wishes.push((asked, &sheet.reference));
        }
    }
    let several = wishes.len() > 1;
    let said: Vec<String> = wishes
        .iter()
        .map(|(asked, who)| format!("{who} {asked}"))
        .collect();
    match wishes.into_iter().next() {
        Some(_) if several => Err(format!(
            "the sheets ask for different developments, {}: develop them in several runs, or say what \
             this one is for",
            said.join(", ")
        )),
        Some((asked, _)) => Ok(asked),
        None => Ok(Asked::default()),
    }
}

/// Reckons the time of a run that is being typed; nothing without sheets or without a developer.
///
/// # Errors
/// What cannot be read or reckoned, beside its question.
pub fn reckoned(draft: &Draft, desk: &Desk<'_>) -> Result<Option<Reckoned>, Problem> {
    reckoned_with(draft, desk, false)
}

/// The same, with an estimate where the tables say nothing for the temperature, if one is wanted.
///
/// # Errors
/// As [`reckoned`].
pub fn reckoned_with(
    draft: &Draft,
    desk: &Desk<'_>,
    estimate: bool,
) -> Result<Option<Reckoned>, Problem> {
    if draft.kind != Kind::RunBegun {
        return Ok(None);
    }
    let sheets = sheets_of(draft, desk);
    let bath = desk
        .names
        .find(&[ThingKind::Bath], &tidy_reference(draft.get("developer")))
        .and_then(|bath| desk.names.life_of(bath.id));
    let Some(bath) = bath
        .as_ref()
        .and_then(Life::bath)
        .filter(|_| !sheets.is_empty())
    else {
        return Ok(None);
    };
    let dilution = match draft.get("dilution").trim() {
        "" => bath.dilution.map(|it| it.to_string()),
        typed => Some(typed.to_owned()),
    };
    let contrast = match draft.get("contrast").trim() {
        "" => asked_by(&sheets).map_err(Problem::of_all)?.to_string(),
        typed => typed.to_owned(),
    };
    let run = Run {
        sheets: &sheets,
        developer: bath.name.clone(),
        dilution,
        contrast,
        temperature: draft.get("temperature").to_owned(),
        agitation: agitation(draft),
        estimate,
    };
    let now = match draft.get(super::draft::HAPPENED).trim() {
        "" => desk.now,
        typed => moment::parse(typed, desk.now, desk.zone).unwrap_or(desk.now),
    };
    let kit = desk.kit();
    run.reckon(&figures::Desk::new(desk.reference, &kit, now))
        .map(Some)
}

/// How the film of a draft is moved: by what is written of it, else by the vessel.
fn agitation(draft: &Draft) -> Option<Agitation> {
    ["agitation", "vessel"]
        .into_iter()
        .find_map(|key| Agitation::told(draft.get(key)))
}

/// A run whose time is wanted.
#[derive(Clone, Debug)]
pub struct Run<'s> {
    /// Its sheets.
    pub sheets: &'s [Waiting],
    /// What the developer is called.
    pub developer: String,
    /// Its dilution.
    pub dilution: Option<String>,
    /// What is asked of the development.
    pub contrast: String,
    /// The temperature as it was typed; empty for that of the room.
    pub temperature: String,
    /// How the film is moved, if it is known.
    pub agitation: Option<Agitation>,
    /// Whether an estimate will do where the tables say nothing for the temperature.
    pub estimate: bool,
}

impl Run<'_> {
    /// Reckons its time.
    ///
    /// # Errors
    /// That the sheets are of several films, and what the figures refuse.
    pub fn reckon(&self, desk: &figures::Desk<'_>) -> Result<Reckoned, Problem> {
        let film = one_film(self.sheets, desk.reference).map_err(Problem::of_all)?;
        let mut typed: BTreeMap<String, String> = BTreeMap::new();
        let mut set = |key: &str, text: String| {
            if !text.trim().is_empty() {
                typed.insert(key.to_owned(), text);
            }
        };
        set("film", film);
        set(
            "developer",
            developer_named(&self.developer, desk.reference),
        );
        set("dilution", self.dilution.clone().unwrap_or_default());
        set("contrast", self.contrast.clone());
        set("temperature", self.temperature.clone());
        set(
            "agitation",
            self.agitation.map(|it| it.to_string()).unwrap_or_default(),
        );
        set(
            "estimate",
            if self.estimate { "yes" } else { "" }.to_owned(),
        );
        let long = self
            .sheets
            .iter()
            .find_map(|sheet| sheet.wish.as_ref()?.long.clone());
        reckon(&Situation {
            exposed_at: one_speed(self.sheets),
            sheets: true,
            long,
            ..Situation::typed(Given::new(ASKS, &typed, desk))
        })
    }
}

/// The film of all sheets.
fn one_film(sheets: &[Waiting], reference: &Reference) -> Result<String, String> {
    let mut films: Vec<(String, String)> = Vec::new();
    for sheet in sheets {
        let Some(film) = &sheet.film else {
            return Err(format!(
                "the box of {} is not known, and so not its film",
                sheet.reference
            ));
        };
        let id = reference
            .film(film)
            .map_or_else(|| film.to_lowercase(), |it| it.id.clone());
        if films.iter().all(|(other, _)| *other != id) {
            films.push((id, film.clone()));
        }
    }
    let names: Vec<&str> = films.iter().map(|(_, name)| name.as_str()).collect();
    match names[..] {
        [one] => Ok(one.to_owned()),
        _ => Err(format!(
            "the sheets are of several films, {}: each has its own time, so develop them in several runs",
            names.join(" and ")
        )),
    }
}

/// The index all sheets were exposed at, if it is one.
fn one_speed(sheets: &[Waiting]) -> Option<FilmSpeed> {
    let first = sheets.first()?.speed?;
    sheets
        .iter()
        .all(|sheet| sheet.speed == Some(first))
        .then_some(first)
}

/// The developer that a bath is called after: a name of the reference at the beginning of the bath's own
/// name, else that name.
pub(super) fn developer_named(bath: &str, reference: &Reference) -> String {
    let mut name = bath.trim();
    loop {
        if let Some(developer) = reference.developer(name) {
            return developer.name.clone();
        }
        match name.rfind([' ', ',']) {
            Some(end) => name = name.get(..end).unwrap_or("").trim_end_matches([' ', ',']),
            None => return bath.trim().to_owned(),
        }
    }
}

/// Adds to the body of a run what was reckoned. Who leaves the time empty means the one that is shown. An
/// entry that is amended keeps what it says: there an empty field means that it is not known.
pub(super) fn add(draft: &Draft, body: &mut Map<String, Value>, desk: &Desk<'_>) {
    let Ok(Some(reckoned)) = reckoned(draft, desk) else {
        return;
    };
    if !draft.is_of_an_entry() {
        if !body.contains_key("time") {
            insert(body, "time", &reckoned.time);
        }
        if !body.contains_key("contrast") && reckoned.asked != Asked::default() {
            insert(body, "contrast", &reckoned.asked);
        }
    }
    insert(body, "reckoning", &kept(&reckoned, &sheets_of(draft, desk)));
}

/// What an entry keeps of a reckoning: what the sheets asked for, and the steps.
fn kept(reckoned: &Reckoned, sheets: &[Waiting]) -> Reckoning {
    let asks = sheets.iter().filter_map(|sheet| {
        let wish = sheet.wish.as_ref()?;
        let long = wish.long.as_ref();
        Some(ReckonedStep {
            name: format!("{} asks for", sheet.reference),
            amount: wish.words.clone(),
            standing: long.map(|grounds| grounds.standing),
            source: long
                .map(|grounds| grounds.source.to_string())
                .unwrap_or_default(),
            ..ReckonedStep::default()
        })
    });
    let remarks = reckoned.answer.remarks.iter();
    Reckoning {
        planned_time: Some(reckoned.time),
        steps: asks
            .chain(reckoned.answer.steps.iter().map(kept_step))
            .collect(),
        remarks: remarks
            .filter(|remark| remark.concern != Concern::Note)
            .map(|remark| remark.words.clone())
            .collect(),
        ..Reckoning::default()
    }
}

/// Whether a run was given the time that was reckoned for it.
pub fn as_reckoned(run: &super::RunBegun) -> bool {
    let planned = run.reckoning.as_ref().and_then(|it| it.planned_time);
    planned.is_some() && planned == run.time
}
