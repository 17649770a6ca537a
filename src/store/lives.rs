//! Lives as rows: one in `life` with everything, and one in the table of its kind that any SQL tool
//! can read.
//!
//! The row of a thing's kind is there as long as the thing is; the row in `life` stays when every
//! entry that brought it into being is struck, for a strike may be struck. Most entries change few
//! columns of few things, and a row's indexes are only touched when their columns are, so a row is
//! compared with what it was and only what differs is written.

use rusqlite::types::Value;
use rusqlite::{Connection, params, params_from_iter};

use super::error::Fault;
use crate::craft::{Celsius, Seconds};
use crate::logbook::counting::steps_of;
use crate::logbook::life::Steps;
use crate::logbook::{Life, ThingId, ThingKind};

mod columns;

use columns::Columns;

/// The table of a kind of thing.
pub(crate) const fn table(kind: ThingKind) -> &'static str {
    match kind {
        ThingKind::Box => "film_box",
        ThingKind::Holder => "holder",
        ThingKind::Side => "side",
        ThingKind::Sheet => "sheet",
        ThingKind::Set => "companion_set",
        ThingKind::Run => "run",
        ThingKind::Bath => "bath",
        ThingKind::Paper => "paper",
        ThingKind::Print => "print",
        ThingKind::Lens => "lens",
        ThingKind::Camera => "camera",
        ThingKind::Finding => "finding",
    }
}

/// Writes a life as it now stands over what it was `before`; without that, over whatever is there.
pub(crate) fn write(db: &Connection, before: Option<&Life>, life: &Life) -> Result<(), Fault> {
    if before == Some(life) {
        return Ok(());
    }
    let id = life.thing.id;
    // The whole of a life is different when anything is.
    let was = before.map(|before| columns::of_any(before, Value::Null));
    let now = columns::of_any(life, Value::Text(json(life)?));
    put(db, "life", "thing", id, was, now)?;
    if life.is_new() {
        return forget(db, life);
    }
    let before = before.filter(|before| !before.is_new());
    let was = before.map(columns::of_its_kind);
    let now = columns::of_its_kind(life);
    put(db, table(life.thing.kind), "id", id, was, now)?;
    if life.thing.kind == ThingKind::Finding {
        return write_strip(db, before, life);
    }
    let steps = |life: &Life| steps_of(life).cloned().unwrap_or_default();
    let (had, has) = (before.map(steps).unwrap_or_default(), steps(life));
    if had != has {
        write_steps(db, id, &has)?;
    }
    let sheets = |life: &Life| life.run().map(|run| run.sheets.clone());
    match sheets(life) {
        Some(now) if before.and_then(sheets).as_ref() != Some(&now) => write_run(db, id, &now),
        _ => Ok(()),
    }
}

fn json(life: &Life) -> Result<String, Fault> {
    serde_json::to_string(life)
        .map_err(|source| Fault::Damaged(format!("the life of {}: {source}", life.thing.id)))
}

/// Writes what differs between a row as it was and as it is.
fn put(
    db: &Connection,
    table: &str,
    key: &str,
    id: ThingId,
    was: Option<Columns>,
    now: Columns,
) -> Result<(), Fault> {
    let id = Value::Blob(id.0.as_bytes().to_vec());
    if let Some(was) = was {
        let differs = now.iter().zip(&was).filter(|(now, was)| now != was);
        let (sets, mut values): (Vec<String>, Vec<&Value>) = differs
            .map(|((column, value), _)| (format!("{column} = ?"), value))
            .unzip();
        if values.is_empty() {
            return Ok(());
        }
        values.push(&id);
        let update = format!("UPDATE {table} SET {} WHERE {key} = ?", sets.join(", "));
        let there = db
            .prepare_cached(&update)?
            .execute(params_from_iter(values))?;
        if there > 0 {
            return Ok(());
        }
    }
    let columns = now.iter().map(|(column, _)| *column);
    let names: Vec<&str> = std::iter::once(key).chain(columns).collect();
    let places = vec!["?"; names.len()].join(", ");
    let sets: Vec<String> = names
        .iter()
        .skip(1)
        .map(|column| format!("{column} = excluded.{column}"))
        .collect();
    let upsert = format!(
        "INSERT INTO {table} ({}) VALUES ({places}) ON CONFLICT ({key}) DO UPDATE SET {}",
        names.join(", "),
        sets.join(", "),
    );
    let values = std::iter::once(&id).chain(now.iter().map(|(_, value)| value));
    db.prepare_cached(&upsert)?
        .execute(params_from_iter(values))?;
    Ok(())
}

/// Takes a thing that is not there any more out of the table of its kind.
fn forget(db: &Connection, life: &Life) -> Result<(), Fault> {
    let id = life.thing.id.0.as_bytes();
    let table = table(life.thing.kind);
    db.execute(&format!("DELETE FROM {table} WHERE id = ?1"), [id])?;
    if life.thing.kind == ThingKind::Finding {
        db.execute("DELETE FROM strip WHERE id = ?1", [id])?;
    }
    if matches!(life.thing.kind, ThingKind::Run | ThingKind::Print) {
        db.execute("DELETE FROM timed_step WHERE thing = ?1", [id])?;
    }
    if life.thing.kind == ThingKind::Run {
        db.execute("DELETE FROM run_sheet WHERE run = ?1", [id])?;
    }
    Ok(())
}

/// Writes what was read of a strip, if the finding is one. What a finding is never changes.
fn write_strip(db: &Connection, before: Option<&Life>, life: &Life) -> Result<(), Fault> {
    let columns = |life: &Life| life.finding().map(columns::of_strip);
    let Some(now) = columns(life).transpose()?.flatten() else {
        return Ok(());
    };
    let was = before.and_then(columns).transpose()?.flatten();
    put(db, "strip", "id", life.thing.id, was, now)
}

/// Writes the steps of a run or a print by the clock.
fn write_steps(db: &Connection, thing: ThingId, steps: &Steps) -> Result<(), Fault> {
    let thing = thing.0.as_bytes();
    db.prepare_cached("DELETE FROM timed_step WHERE thing = ?1")?
        .execute([thing])?;
    let mut insert = db.prepare_cached(
        "INSERT INTO timed_step (thing, nth, step, begun, ended, planned, given, bath, temperature)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)",
    )?;
    for (step, nth) in steps.all().iter().zip(0_i64..) {
        insert.execute(params![
            thing,
            nth,
            step.step,
            step.begun.to_rfc3339(),
            step.ended.map(|at| at.to_rfc3339()),
            step.planned.map(Seconds::value),
            step.given.map(Seconds::value),
            step.bath.map(|bath| bath.0.as_bytes().to_vec()),
            step.temperature.map(Celsius::value),
        ])?;
    }
    Ok(())
}

/// Writes which sheets are in a run.
fn write_run(db: &Connection, run: ThingId, sheets: &[ThingId]) -> Result<(), Fault> {
    let run = run.0.as_bytes();
    db.prepare_cached("DELETE FROM run_sheet WHERE run = ?1")?
        .execute([run])?;
    let mut insert =
        db.prepare_cached("INSERT INTO run_sheet (run, nth, sheet) VALUES (?1, ?2, ?3)")?;
    for (sheet, nth) in sheets.iter().zip(0_i64..) {
        insert.execute(params![run, nth, sheet.0.as_bytes()])?;
    }
    Ok(())
}
