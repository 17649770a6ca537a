//! One value, from the text of its field and back.

use chrono::NaiveDate;
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;

use super::named::{any_of, one_thing, several};
use super::strip;
use super::{Desk, Draft};
use crate::craft::development::asked::Asked;
use crate::craft::development::contrast::Expansion;
use crate::craft::sensitometry::{log_exposure, said_densities};
use crate::craft::sun::Coordinates;
use crate::craft::{
    Aperture, Capacity, Celsius, Density, Dilution, ExposureValue, FilmSpeed, Keeping, Millilitres,
    Millimetres, Seconds, Size, Stops, TimeZone, Unreadable, magnification, moment, number,
    patches, timings,
};
use crate::logbook::counting::sequence_of;
use crate::logbook::fields::FieldKind;
use crate::logbook::life::tablet_used_in_words;
use crate::logbook::{Kind, Names, TabletUsed, Thing, ThingId, ThingKind, tidy_reference};

/// The most sides a holder or magazine may have.
const MOST_SIDES: u32 = 100;
/// The most sheets a count may say.
const MOST_SHEETS: u32 = 10_000;

pub(super) fn read_value(
    draft: &Draft,
    kind: FieldKind,
    typed: &str,
    desk: &Desk<'_>,
) -> Result<Value, String> {
    let names = desk.names;
    match kind {
        FieldKind::Text
        | FieldKind::Film
        | FieldKind::Developer
        | FieldKind::Paper
        | FieldKind::Formula
        | FieldKind::Cause => Ok(Value::String(typed.to_owned())),
        FieldKind::Contrast => quantity(Expansion::parse(typed)),
        FieldKind::Development => development(typed, desk),
        FieldKind::Count => count(draft.kind, typed),
        FieldKind::Duration => quantity(Seconds::parse(typed)),
        FieldKind::Durations => quantity(timings::read(typed)),
        FieldKind::Aperture => quantity(Aperture::parse(typed)),
        FieldKind::Speed => quantity(FilmSpeed::parse(typed)),
        FieldKind::Length => quantity(Millimetres::parse(typed)),
        FieldKind::Magnification => quantity(magnification::read(typed)),
        FieldKind::Number => above_zero(typed),
        FieldKind::Size => quantity(Size::parse(typed)),
        FieldKind::Temperature => quantity(Celsius::parse(typed)),
        FieldKind::Volume => quantity(Millilitres::parse(typed)),
        FieldKind::Density => quantity(Density::parse(typed)),
        FieldKind::Dilution => quantity(Dilution::parse(typed)),
        FieldKind::Capacity => quantity(Capacity::parse(typed)),
        FieldKind::Keeping => keeping(typed, desk),
        FieldKind::Densities => strip::tablet_densities(typed),
        FieldKind::Readings => strip::strip(draft, desk),
        FieldKind::Tablet => quantity(Ok(strip::tablet(typed, desk)?)),
        FieldKind::LogExposure => quantity(log_exposure(typed)),
        FieldKind::Stops => stops(typed),
        FieldKind::Ev => quantity(ExposureValue::parse(typed)),
        FieldKind::Coordinates => quantity(Coordinates::parse(typed)),
        FieldKind::Zone => quantity(TimeZone::parse(typed).map(|zone| zone.to_string())),
        FieldKind::Date => {
            quantity(moment::parse(typed, desk.now, desk.zone).map(|at| at.date_naive()))
        }
        FieldKind::Choice(words) => choice(words, typed),
        FieldKind::YesNo => match typed.to_lowercase().as_str() {
            "y" | "yes" | "true" | "1" => Ok(Value::Bool(true)),
            "n" | "no" | "false" | "0" => Ok(Value::Bool(false)),
            _ => Err(format!("\"{typed}\" is neither yes nor no")),
        },
        FieldKind::Thing(kind) => one_thing(kind, typed, names).map(|id| json(&id)),
        FieldKind::AnyOf(kinds) => any_of(kinds, typed, names).map(|thing| json(&thing)),
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
        FieldKind::Sequence => match desk.reference.sequence_named(typed) {
            Some(sequence) => Ok(Value::String(sequence.id.clone())),
            None => {
                let known = desk.reference.sequences().iter();
                let known: Vec<&str> = known.map(|sequence| sequence.id.as_str()).collect();
                Err(format!(
                    "\"{typed}\" is no sequence of steps: {}",
                    known.join(", ")
                ))
            }
        },
        FieldKind::Step => read_step(draft, typed, desk),
        FieldKind::Patches => quantity(patches::read(typed)),
        // The same fault is called the same for years; a word that is not known is the user's own.
        FieldKind::Fault => {
            let known = desk.reference.fault(typed);
            let name = known.map_or_else(|| typed.to_owned(), |fault| fault.name.clone());
            Ok(Value::String(name))
        }
    }
}

pub(super) fn quantity<T: Serialize>(read: Result<T, Unreadable>) -> Result<Value, String> {
    let value = read.map_err(|problem| problem.to_string())?;
    serde_json::to_value(value).map_err(|problem| problem.to_string())
}

/// What is asked of a development. A way of printing has to be one there is.
fn development(typed: &str, desk: &Desk<'_>) -> Result<Value, String> {
    let asked = Asked::parse(typed).map_err(|problem| problem.to_string())?;
    if let Some(process) = &asked.printed_as
        && desk.reference.process_named(process).is_none()
    {
        return Err(format!(
            "\"{typed}\" is neither a change of contrast nor a way of printing: write N-1, N-1; -10 %, \
             gradient 0.62 or cyanotype"
        ));
    }
    Ok(json(&asked))
}

/// `+2 1/3`, or a factor: `x5`.
fn stops(typed: &str) -> Result<Value, String> {
    let factor = typed.trim().strip_prefix(['x', 'X', '\u{d7}']);
    match factor {
        Some(factor) => quantity(number(factor).and_then(Stops::from_factor)),
        None => quantity(Stops::parse(typed)),
    }
}

/// A span, or a day as days are written everywhere: `1 March`, `tomorrow`.
fn keeping(typed: &str, desk: &Desk<'_>) -> Result<Value, String> {
    let read = Keeping::parse(typed).or_else(|unreadable| {
        moment::parse(typed, desk.now, desk.zone)
            .map(|at| Keeping::Until(at.date_naive()))
            .map_err(|_| unreadable)
    });
    quantity(read)
}

fn above_zero(typed: &str) -> Result<Value, String> {
    match number(typed) {
        Ok(value) if value > 0.0 => Ok(Value::from(value)),
        _ => Err(format!(
            "\"{typed}\" is not a number above zero: write 0.95 or 12.5"
        )),
    }
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
    // "12 sheets" is how people say it.
    let digits = typed
        .trim_end_matches(|c: char| c.is_alphabetic())
        .trim_end();
    match digits.parse::<u32>() {
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

/// The id of a step of the sequence of the run a draft is about. Another step may be done as well, so
/// words that name none of them are taken as they are.
fn step_of_sequence(draft: &Draft, typed: &str, desk: &Desk<'_>) -> Option<String> {
    let run = draft.get(draft.kind.about()?);
    let run = desk.names.find(&[ThingKind::Run], &tidy_reference(run))?;
    let life = desk.names.life_of(run.id)?;
    let sequence = sequence_of(life.run()?, desk.reference)?;
    let step = sequence.step_named(typed)?;
    Some(step.id.clone())
}

fn read_step(draft: &Draft, typed: &str, desk: &Desk<'_>) -> Result<Value, String> {
    if let Some(id) = step_of_sequence(draft, typed, desk) {
        return Ok(Value::String(id));
    }
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

fn shown<T: DeserializeOwned + std::fmt::Display>(value: &Value) -> Option<String> {
    serde_json::from_value::<T>(value.clone())
        .ok()
        .map(|value| value.to_string())
}

/// A value of a body as it would be typed.
pub(in crate::logbook) fn in_words(
    kind: FieldKind,
    value: &Value,
    names: &dyn Names,
) -> Option<String> {
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
        | FieldKind::Developer
        | FieldKind::Contrast
        | FieldKind::Development
        | FieldKind::Paper
        | FieldKind::Formula
        | FieldKind::Process
        | FieldKind::Sequence
        | FieldKind::Step
        | FieldKind::Zone
        | FieldKind::Fault
        | FieldKind::Cause
        | FieldKind::Choice(_)
        | FieldKind::Reference(_) => value.as_str().map(str::to_owned),
        FieldKind::Count => value.as_u64().map(|number| number.to_string()),
        FieldKind::Duration => shown::<Seconds>(value),
        FieldKind::Durations => serde_json::from_value::<Vec<Seconds>>(value.clone())
            .ok()
            .map(|times| timings::said(&times)),
        FieldKind::Patches => serde_json::from_value::<Vec<patches::Patch>>(value.clone())
            .ok()
            .map(|read| patches::said(&read)),
        FieldKind::Aperture => shown::<Aperture>(value),
        FieldKind::Speed => shown::<FilmSpeed>(value),
        FieldKind::Length => shown::<Millimetres>(value),
        FieldKind::Magnification => value.as_f64().map(magnification::said),
        FieldKind::Number => value.as_f64().map(|number| number.to_string()),
        FieldKind::Size => shown::<Size>(value),
        FieldKind::Temperature => shown::<Celsius>(value),
        FieldKind::Volume => shown::<Millilitres>(value),
        FieldKind::Density => shown::<Density>(value),
        FieldKind::Dilution => shown::<Dilution>(value),
        FieldKind::Capacity => shown::<Capacity>(value),
        FieldKind::Keeping => shown::<Keeping>(value),
        FieldKind::Densities => serde_json::from_value::<Vec<Density>>(value.clone())
            .ok()
            .map(|densities| said_densities(&densities)),
        FieldKind::Readings => serde_json::from_value::<Vec<Option<Density>>>(value.clone())
            .ok()
            .map(|read| strip::said(&read)),
        FieldKind::Tablet => serde_json::from_value::<TabletUsed>(value.clone())
            .ok()
            .map(|tablet| tablet_used_in_words(&tablet)),
        FieldKind::LogExposure => value.as_f64().map(|number| number.to_string()),
        FieldKind::Stops => shown::<Stops>(value),
        FieldKind::Ev => shown::<ExposureValue>(value),
        FieldKind::Coordinates => shown::<Coordinates>(value),
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
