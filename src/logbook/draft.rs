//! What was typed, on its way to becoming a deed.
//!
//! A [`Draft`] holds only what the user typed, field by field, as text. [`Draft::read`] turns it into
//! a deed, or says beside which field what is wrong; nothing typed is ever lost or changed. A pane
//! fills a draft from key strokes, the command line from flags, and an amendment from the entry it
//! amends ([`Draft::of`]), so there is one reading for all of them.

use std::collections::BTreeMap;

use chrono::{DateTime, FixedOffset, NaiveDate};
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Map, Value};
use uuid::Uuid;

use super::fields::{Field, FieldKind, Need};
use super::{Deed, Kind, Life, Thing, ThingId, ThingKind, tidy_reference};
use crate::craft::{
    Aperture, Celsius, Density, Dilution, FilmSpeed, Millilitres, Millimetres, Seconds, Size,
    Unreadable, moment,
};
use crate::reference::{FigureKind, Reference};

/// What a draft may ask of the logbook to turn references into things and back.
pub trait Names {
    /// The thing of one of these kinds that is called so.
    fn find(&self, kinds: &[ThingKind], reference: &str) -> Option<Thing>;
    /// The life of a thing.
    fn life_of(&self, thing: ThingId) -> Option<Life>;

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
    /// Where new ids come from.
    pub ids: &'a mut dyn FnMut() -> Uuid,
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
        let print = names.find(&[ThingKind::Print], &tidy_reference(self.get("print")))?;
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
        for field in self.fields(desk.names, desk.reference) {
            match self.value(&field, desk) {
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
        let happened = self.happened(desk.now).unwrap_or_else(|problem| {
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

    fn happened(&self, now: DateTime<FixedOffset>) -> Result<DateTime<FixedOffset>, Unreadable> {
        match self.some(HAPPENED) {
            None => Ok(now),
            Some(text) => moment::parse(&text, now),
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
                Need::Must => Err(format!("this is needed: {}", field.hint)),
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

/// The most sides a holder or magazine may have.
const MOST_SIDES: u32 = 100;
/// The most sheets a count may say.
const MOST_SHEETS: u32 = 10_000;

fn read_value(
    draft: &Draft,
    kind: FieldKind,
    typed: &str,
    desk: &Desk<'_>,
) -> Result<Value, String> {
    let names = desk.names;
    match kind {
        FieldKind::Text | FieldKind::Film | FieldKind::Paper => Ok(Value::String(typed.to_owned())),
        FieldKind::Count => count(draft.kind, typed),
        FieldKind::Duration => quantity(Seconds::parse(typed)),
        FieldKind::Aperture => quantity(Aperture::parse(typed)),
        FieldKind::Speed => quantity(FilmSpeed::parse(typed)),
        FieldKind::Length => quantity(Millimetres::parse(typed)),
        FieldKind::Size => quantity(Size::parse(typed)),
        FieldKind::Temperature => quantity(Celsius::parse(typed)),
        FieldKind::Volume => quantity(Millilitres::parse(typed)),
        FieldKind::Density => quantity(Density::parse(typed)),
        FieldKind::Dilution => quantity(Dilution::parse(typed)),
        FieldKind::Date => quantity(moment::parse(typed, desk.now).map(|at| at.date_naive())),
        FieldKind::Choice(words) => choice(words, typed),
        FieldKind::YesNo => match typed.to_lowercase().as_str() {
            "y" | "yes" | "true" | "1" => Ok(Value::Bool(true)),
            "n" | "no" | "false" | "0" => Ok(Value::Bool(false)),
            _ => Err(format!("\"{typed}\" is neither yes nor no")),
        },
        FieldKind::Thing(kind) => one_thing(kind, typed, names).map(|id| json(&id)),
        FieldKind::AnyOf(kinds) => names
            .find(kinds, &tidy_reference(typed))
            .map(|thing| json(&thing))
            .ok_or_else(|| unknown(kinds, typed)),
        FieldKind::Things(kind) => {
            let things = several(kind, typed, names)?;
            Ok(Value::Array(things.iter().map(json).collect()))
        }
        FieldKind::RunSheets => {
            let sheets = several(ThingKind::Sheet, typed, names)?;
            let in_run = |id: &ThingId| serde_json::json!({ "sheet": id });
            Ok(Value::Array(sheets.iter().map(in_run).collect()))
        }
        FieldKind::Reference(_) => Ok(Value::String(tidy_reference(typed))),
        FieldKind::Process => match desk.reference.process_named(typed) {
            Some(process) => Ok(Value::String(process.id.clone())),
            None => {
                let known: Vec<&str> = desk
                    .reference
                    .processes()
                    .iter()
                    .map(|process| process.id.as_str())
                    .collect();
                Err(format!(
                    "\"{typed}\" is not a process: {}",
                    known.join(", ")
                ))
            }
        },
        FieldKind::Step => read_step(draft, typed, desk),
    }
}

fn quantity<T: Serialize>(read: Result<T, Unreadable>) -> Result<Value, String> {
    let value = read.map_err(|problem| problem.to_string())?;
    serde_json::to_value(value).map_err(|problem| problem.to_string())
}

fn json<T: Serialize>(value: &T) -> Value {
    serde_json::to_value(value).unwrap_or(Value::Null)
}

fn count(kind: Kind, typed: &str) -> Result<Value, String> {
    let most = if kind == Kind::HolderAdded {
        MOST_SIDES
    } else {
        MOST_SHEETS
    };
    let least = u32::from(!matches!(kind, Kind::Counted));
    match typed.parse::<u32>() {
        Ok(number) if (least..=most).contains(&number) => Ok(Value::from(number)),
        _ => Err(format!(
            "\"{typed}\" is not a count: a whole number from {least} to {most}"
        )),
    }
}

fn choice(words: &[&'static str], typed: &str) -> Result<Value, String> {
    let wanted = typed.to_lowercase();
    let exact = words.iter().find(|word| **word == wanted);
    let mut begun = words.iter().filter(|word| word.starts_with(&wanted));
    let found = exact.or_else(|| match (begun.next(), begun.next()) {
        (Some(word), None) => Some(word),
        _ => None,
    });
    found
        .map(|word| Value::String((*word).to_owned()))
        .ok_or_else(|| format!("\"{typed}\" is none of: {}", words.join(", ")))
}

fn read_step(draft: &Draft, typed: &str, desk: &Desk<'_>) -> Result<Value, String> {
    let process = draft.process(desk.names);
    let Some(process) = process.and_then(|id| desk.reference.process(&id)) else {
        return Ok(Value::String(typed.to_owned()));
    };
    match process.step(typed) {
        Some(step) => Ok(Value::String(step.id.clone())),
        None => {
            let known: Vec<&str> = process.steps.iter().map(|step| step.id.as_str()).collect();
            Err(format!(
                "{} has no step \"{typed}\": {}",
                process.name,
                known.join(", ")
            ))
        }
    }
}

fn unknown(kinds: &[ThingKind], typed: &str) -> String {
    let kinds: Vec<&str> = kinds.iter().map(|kind| kind.name()).collect();
    let what = if kinds.len() > 4 {
        "thing".to_owned()
    } else {
        kinds.join(" or ")
    };
    format!("there is no {what} called \"{typed}\" in this logbook")
}

fn one_thing(kind: ThingKind, typed: &str, names: &dyn Names) -> Result<ThingId, String> {
    let reference = tidy_reference(typed);
    if let Some(thing) = names.find(&[kind], &reference) {
        return Ok(thing.id);
    }
    if kind == ThingKind::Sheet
        && let Some(side) = names.find(&[ThingKind::Side], &reference)
    {
        let inside = names.life_of(side.id);
        return inside
            .and_then(|life| life.side().and_then(|side| side.sheet))
            .ok_or_else(|| format!("there is no sheet in {reference} now"));
    }
    if kind == ThingKind::Side
        && let Some(holder) = names.find(&[ThingKind::Holder], &reference)
    {
        let sides = names
            .life_of(holder.id)
            .and_then(|life| life.holder().map(|holder| holder.sides.clone()))
            .unwrap_or_default();
        if let [only] = sides[..] {
            return Ok(only);
        }
        let called: Vec<String> = sides.iter().map(|side| names.reference_of(*side)).collect();
        return Err(format!(
            "which side of {reference}: {}?",
            called.join(" or ")
        ));
    }
    Err(unknown(&[kind], typed))
}

/// Reads references that stand beside each other. A side has a space in it, so two words are tried
/// as one reference where one alone does not do.
pub(super) fn several(
    kind: ThingKind,
    typed: &str,
    names: &dyn Names,
) -> Result<Vec<ThingId>, String> {
    let words: Vec<&str> = typed
        .split(|c: char| c.is_whitespace() || c == ',' || c == ';' || c == '+')
        .filter(|word| !word.is_empty())
        .collect();
    let mut found = Vec::new();
    let mut rest = words.as_slice();
    while let [first, after @ ..] = rest {
        rest = after;
        let alone = one_thing(kind, first, names);
        let id = match (alone, after) {
            (Ok(id), _) => id,
            (Err(problem), [second, beyond @ ..]) => {
                let id =
                    one_thing(kind, &format!("{first} {second}"), names).map_err(|_| problem)?;
                rest = beyond;
                id
            }
            (Err(problem), []) => return Err(problem),
        };
        if !found.contains(&id) {
            found.push(id);
        }
    }
    Ok(found)
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

fn shown<T: DeserializeOwned + std::fmt::Display>(value: &Value) -> Option<String> {
    serde_json::from_value::<T>(value.clone())
        .ok()
        .map(|value| value.to_string())
}

/// A value of a body as it would be typed.
pub(super) fn in_words(kind: FieldKind, value: &Value, names: &dyn Names) -> Option<String> {
    let called = |value: &Value| {
        serde_json::from_value::<ThingId>(value.clone())
            .ok()
            .map(|id| names.reference_of(id))
    };
    let list = |value: &Value, each: &dyn Fn(&Value) -> Option<String>| {
        let all: Option<Vec<String>> = value.as_array()?.iter().map(each).collect();
        all.map(|all| all.join(", "))
    };
    match kind {
        FieldKind::Text
        | FieldKind::Film
        | FieldKind::Paper
        | FieldKind::Process
        | FieldKind::Step
        | FieldKind::Choice(_)
        | FieldKind::Reference(_) => value.as_str().map(str::to_owned),
        FieldKind::Count => value.as_u64().map(|number| number.to_string()),
        FieldKind::Duration => shown::<Seconds>(value),
        FieldKind::Aperture => shown::<Aperture>(value),
        FieldKind::Speed => shown::<FilmSpeed>(value),
        FieldKind::Length => shown::<Millimetres>(value),
        FieldKind::Size => shown::<Size>(value),
        FieldKind::Temperature => shown::<Celsius>(value),
        FieldKind::Volume => shown::<Millilitres>(value),
        FieldKind::Density => shown::<Density>(value),
        FieldKind::Dilution => shown::<Dilution>(value),
        FieldKind::Date => shown::<NaiveDate>(value),
        FieldKind::YesNo => value
            .as_bool()
            .map(|yes| if yes { "yes" } else { "no" }.to_owned()),
        FieldKind::Thing(_) => called(value),
        FieldKind::AnyOf(_) => serde_json::from_value::<Thing>(value.clone())
            .ok()
            .map(|thing| names.reference_of(thing.id)),
        FieldKind::Things(_) => list(value, &called),
        FieldKind::RunSheets => list(value, &|each| called(each.get("sheet")?)),
    }
}
