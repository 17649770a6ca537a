//! What was typed, on its way to becoming a deed.
//!
//! A [`Draft`] holds only what the user typed, field by field, as text. [`Draft::read`] turns it into
//! a deed, or says beside which field what is wrong; nothing typed is ever lost or changed. A pane
//! fills a draft from key strokes, the command line from flags, and an amendment from the entry it
//! amends ([`Draft::of`]), so there is one reading for all of them.

use std::collections::BTreeMap;

use chrono::{DateTime, FixedOffset};
use serde_json::{Map, Value};
use uuid::Uuid;

use super::counting::drift;
use super::fields::{Field, FieldKind, Need};
use super::kit::OwnKit;
use super::sense::check;
use super::{Deed, Kind, Life, Thing, ThingId, ThingKind, developing, reckoning, tidy_reference};
use crate::craft::{TimeZone, Unreadable, moment};
use crate::reference::{FigureKind, Reference};

mod named;
mod strip;
mod value;

pub(super) use named::several;
pub(super) use strip::strips;
pub(super) use value::in_words;
use value::read_value;

/// What a draft may ask of the logbook to turn references into things and back.
pub trait Names {
    /// The thing of one of these kinds that is called so.
    fn find(&self, kinds: &[ThingKind], reference: &str) -> Option<Thing>;
    /// The life of a thing.
    fn life_of(&self, thing: ThingId) -> Option<Life>;

    /// The lives of everything the user has found out, in any order, for those who reckon with it.
    fn findings(&self) -> Vec<Life> {
        Vec::new()
    }

    /// What a thing is called.
    fn reference_of(&self, thing: ThingId) -> String {
        self.life_of(thing)
            .map(|life| life.reference)
            .filter(|reference| !reference.is_empty())
            .unwrap_or_else(|| "something not in this logbook".to_owned())
    }
}

/// What is at hand when a draft is read.
pub struct Desk<'a> {
    /// The logbook's names.
    pub names: &'a dyn Names,
    /// What the trade has published.
    pub reference: &'a Reference,
    /// The time now, in the zone the user is in.
    pub now: DateTime<FixedOffset>,
    /// That zone, in which a time is read that was typed without its offset.
    pub zone: TimeZone,
    /// Where new ids come from.
    pub ids: &'a mut dyn FnMut() -> Uuid,
}

impl<'a> Desk<'a> {
    /// The user's own records, as figures ask for them.
    pub fn kit(&self) -> OwnKit<'a> {
        OwnKit::new(self.names)
    }
}

/// What is wrong with one field.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{label}: {problem}")]
pub struct FieldProblem {
    /// The key of the field.
    pub key: String,
    /// Its label.
    pub label: String,
    /// What is wrong and how to write it.
    pub problem: String,
}

/// A draft that could be read.
#[derive(Clone, Debug, PartialEq)]
pub struct Drafted {
    /// What happened.
    pub deed: Deed,
    /// When.
    pub happened: DateTime<FixedOffset>,
    /// Why the usual order does not hold here, if it was said.
    pub over: Option<String>,
    /// The note.
    pub note: Option<String>,
}

/// Before the key of a figure that a step of a process asks for.
pub const FIGURE_PREFIX: &str = "figures.";
/// The key of the time it happened.
pub const HAPPENED: &str = "happened";
/// The key of the reason for an override.
pub const OVER: &str = "over";
/// The key of the note.
pub const NOTE: &str = "note";

/// What was typed.
#[derive(Clone, Debug, PartialEq)]
pub struct Draft {
    /// What it is to become.
    pub kind: Kind,
    /// The text of each field by its key; figures of a step by [`FIGURE_PREFIX`] and their key.
    pub typed: BTreeMap<String, String>,
    /// What a field held before, with the text it was shown as. Text rounds, so a field that still
    /// reads the same keeps the value it had, to the last digit.
    before: BTreeMap<String, (String, Value)>,
}

impl Draft {
    /// An empty draft.
    pub const fn new(kind: Kind) -> Draft {
        Draft {
            kind,
            typed: BTreeMap::new(),
            before: BTreeMap::new(),
        }
    }

    /// A draft filled with what a deed says, as it would be typed.
    pub fn of(deed: &Deed, names: &dyn Names) -> Draft {
        let mut draft = Draft::new(deed.kind());
        let body = body_of(deed);
        for field in deed.kind().fields() {
            if let Some(value) = body.get(field.key.as_ref())
                && let Some(text) = in_words(field.kind, value, names)
            {
                draft.set(&field.key, text.clone());
                let before = (text, value.clone());
                draft.before.insert(field.key.to_string(), before);
            }
        }
        if let Deed::PrintStep(step) = deed {
            for (key, text) in &step.figures {
                draft.set(&format!("{FIGURE_PREFIX}{key}"), text.clone());
            }
        }
        if let Deed::Loaded(loaded) = deed
            && !loaded.again
        {
            draft.typed.remove("sheet");
        }
        draft
    }

    /// A draft that takes over from the last similar deed what usually stays the same.
    pub fn after(deed: &Deed, names: &dyn Names) -> Draft {
        let mut draft = Draft::of(deed, names);
        let fields = deed.kind().fields();
        draft.typed.retain(|key, _| {
            key.starts_with(FIGURE_PREFIX)
                || fields
                    .iter()
                    .any(|field| field.carried && field.key == *key)
        });
        draft
    }

    /// What stands in a field.
    pub fn get(&self, key: &str) -> &str {
        self.typed.get(key).map_or("", String::as_str)
    }

    /// Puts text into a field.
    pub fn set(&mut self, key: &str, text: impl Into<String>) {
        self.typed.insert(key.to_owned(), text.into());
    }

    /// Whether it is what an entry said already, typed anew.
    pub(super) fn is_of_an_entry(&self) -> bool {
        !self.before.is_empty()
    }

    /// Names what the draft is about, if its kind says where.
    pub fn about(mut self, reference: &str) -> Draft {
        if let Some(key) = self.kind.about() {
            self.set(key, reference);
        }
        self
    }

    /// Its fields: those of its kind, and for a step of a process the figures that step asks for.
    pub fn fields(&self, names: &dyn Names, reference: &Reference) -> Vec<Field> {
        let mut fields = self.kind.fields().to_vec();
        if self.kind == Kind::PrintStep {
            fields.extend(self.figures(names, reference));
        }
        fields
    }

    fn figures(&self, names: &dyn Names, reference: &Reference) -> Vec<Field> {
        let process = self
            .process(names)
            .and_then(|id| reference.process(&id).cloned());
        let Some(step) = process
            .as_ref()
            .and_then(|process| process.step(self.get("step").trim()))
        else {
            return Vec::new();
        };
        let asked_anyway = |key: &str| self.kind.fields().iter().any(|field| field.key == key);
        step.figures
            .iter()
            .filter(|figure| !asked_anyway(&figure.key))
            .map(|figure| Field {
                key: format!("{FIGURE_PREFIX}{}", figure.key).into(),
                label: figure.label.clone().into(),
                kind: kind_of_figure(figure.kind),
                // Figures are asked for and never forced: an unknown one is left empty.
                need: Need::May,
                hint: figure.hint.clone().into(),
                carried: true,
            })
            .collect()
    }

    /// The process of the print a step is about.
    fn process(&self, names: &dyn Names) -> Option<String> {
        let key = self.kind.about().unwrap_or("print");
        let print = names.find(&[ThingKind::Print], &tidy_reference(self.get(key)))?;
        let life = names.life_of(print.id)?;
        life.print().map(|print| print.process.clone())
    }

    /// Reads one field, for the word beside it while it is typed.
    ///
    /// # Errors
    /// What is wrong with it and how to write it.
    pub fn check(&self, field: &Field, desk: &Desk<'_>) -> Result<(), FieldProblem> {
        self.value(field, desk)
            .map(|_| ())
            .map_err(|problem| FieldProblem {
                key: field.key.to_string(),
                label: field.label.to_string(),
                problem,
            })
    }

    /// Reads the whole draft.
    ///
    /// # Errors
    /// Every field that cannot be read, with what is wrong and how to write it.
    pub fn read(&self, desk: &mut Desk<'_>) -> Result<Drafted, Vec<FieldProblem>> {
        let mut body = Map::new();
        let mut figures = Map::new();
        let mut problems = Vec::new();
        let fields = self.fields(desk.names, desk.reference);
        for field in &fields {
            match self.value(field, desk) {
                Ok(None) => {}
                Ok(Some(value)) => match field.key.strip_prefix(FIGURE_PREFIX) {
                    Some(key) => {
                        figures.insert(key.to_owned(), value);
                    }
                    None => {
                        body.insert(field.key.to_string(), value);
                    }
                },
                Err(problem) => problems.push(FieldProblem {
                    key: field.key.to_string(),
                    label: field.label.to_string(),
                    problem,
                }),
            }
        }
        let happened = self.happened(desk).unwrap_or_else(|problem| {
            problems.push(FieldProblem {
                key: HAPPENED.to_owned(),
                label: "when".to_owned(),
                problem: problem.to_string(),
            });
            desk.now
        });
        if self.kind == Kind::PrintStep {
            // Figures that were typed for a step are kept under their keys even when the process
            // does not ask for them.
            for (key, text) in &self.typed {
                if let Some(key) = key.strip_prefix(FIGURE_PREFIX)
                    && !text.trim().is_empty()
                    && !figures.contains_key(key)
                    && problems
                        .iter()
                        .all(|p| p.key.strip_prefix(FIGURE_PREFIX) != Some(key))
                {
                    figures.insert(key.to_owned(), Value::String(text.trim().to_owned()));
                }
            }
            body.insert("figures".to_owned(), Value::Object(figures));
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        match self.kind {
            Kind::Exposed => reckoning::add(self, &mut body, desk),
            Kind::StepChanged => drift::add(self, &mut body, desk),
            Kind::RunBegun => developing::add(self, &mut body, desk),
            _ => {}
        }
        if self.kind == Kind::StripRead {
            strip::add(self, &mut body, desk);
        }
        self.bring_into_being(&mut body, desk);
        let deed = serde_json::to_string(&body)
            .map_err(|error| error.to_string())
            .and_then(|json| Deed::from_json(self.kind, &json).map_err(|error| error.to_string()))
            .map_err(|problem| {
                vec![FieldProblem {
                    key: String::new(),
                    label: self.kind.title().to_owned(),
                    problem,
                }]
            })?;
        check(&deed).map_err(|nonsense| {
            let label = fields
                .iter()
                .find(|field| field.key == nonsense.key)
                .map_or_else(
                    || self.kind.title().to_owned(),
                    |field| field.label.to_string(),
                );
            vec![FieldProblem {
                key: nonsense.key.to_owned(),
                label,
                problem: nonsense.problem.to_owned(),
            }]
        })?;
        Ok(Drafted {
            deed,
            happened,
            over: self.some(OVER),
            note: self.some(NOTE),
        })
    }

    fn some(&self, key: &str) -> Option<String> {
        let text = self.get(key).trim();
        (!text.is_empty()).then(|| text.to_owned())
    }

    fn happened(&self, desk: &Desk<'_>) -> Result<DateTime<FixedOffset>, Unreadable> {
        match self.some(HAPPENED) {
            None => Ok(desk.now),
            Some(text) => moment::parse(&text, desk.now, desk.zone),
        }
    }

    /// Gives new ids to what comes into being by the deed.
    fn bring_into_being(&self, body: &mut Map<String, Value>, desk: &mut Desk<'_>) {
        if self.kind == Kind::Loaded && body.contains_key("sheet") {
            body.insert("again".to_owned(), Value::Bool(true));
            return;
        }
        let mut fresh = || Value::String((desk.ids)().to_string());
        if let Some((key, _)) = self.kind.creates() {
            body.insert(key.to_owned(), fresh());
        }
        if self.kind == Kind::HolderAdded {
            let sides = body.get("sides").and_then(Value::as_u64).unwrap_or(0);
            let ids = (0..sides).map(|_| fresh()).collect();
            body.insert("side_ids".to_owned(), Value::Array(ids));
        }
    }

    fn value(&self, field: &Field, desk: &Desk<'_>) -> Result<Option<Value>, String> {
        let typed = self.get(&field.key).trim();
        if typed.is_empty() {
            return match field.need {
                Need::Must => Err(format!("this is needed, say {}", field.hint)),
                Need::May => Ok(None),
            };
        }
        if let Some((text, value)) = self.before.get(field.key.as_ref())
            && text == typed
        {
            return Ok(Some(value.clone()));
        }
        read_value(self, field.kind, typed, desk).map(|value| {
            // Figures of a step are kept as they were written, once they are known to be readable.
            if field.key.starts_with(FIGURE_PREFIX) {
                Some(Value::String(typed.to_owned()))
            } else {
                Some(value)
            }
        })
    }
}

const fn kind_of_figure(kind: FigureKind) -> FieldKind {
    match kind {
        FigureKind::Duration => FieldKind::Duration,
        FigureKind::Temperature => FieldKind::Temperature,
        FigureKind::Aperture => FieldKind::Aperture,
        FigureKind::Density => FieldKind::Density,
        FigureKind::Volume => FieldKind::Volume,
        FigureKind::Length => FieldKind::Length,
        FigureKind::Size => FieldKind::Size,
        FigureKind::Dilution => FieldKind::Dilution,
        FigureKind::YesNo => FieldKind::YesNo,
        FigureKind::Text
        | FigureKind::Count
        | FigureKind::Drops
        | FigureKind::Percent
        | FigureKind::Stops => FieldKind::Text,
    }
}

/// The body of a deed as a JSON object.
pub(super) fn body_of(deed: &Deed) -> Map<String, Value> {
    deed.to_json()
        .ok()
        .and_then(|json| serde_json::from_str(&json).ok())
        .unwrap_or_default()
}
