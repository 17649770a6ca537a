//! What an entry leaves behind beside itself: which things it touches, what descends from what
//! because of it, and the exposure or the step it logs.
//!
//! Touches are for ever: a struck entry is still part of the story. Lines of descent, exposures and
//! steps are only there while their entry counts, and with its amended figures.

use chrono::{DateTime, FixedOffset};
use rusqlite::{Connection, OptionalExtension, params};

use super::error::Fault;
use crate::craft::shutter;
use crate::logbook::history::is_remark;
use crate::logbook::{
    Deed, Entry, EntryId, Exposed, FaultSeen, PrintStep, Settled, ShutterTested, Thing, ThingId,
};

/// The entries about one entry, and that entry: from any of them up to the one that is about a
/// thing, and down again.
const FAMILY: &str = "\
    up (id, about) AS ( \
        SELECT id, coalesce(strikes, amends) FROM entry WHERE row = ?1 \
        UNION \
        SELECT entry.id, coalesce(entry.strikes, entry.amends) \
        FROM up CROSS JOIN entry ON entry.id = up.about \
    ), \
    family (row, id) AS ( \
        SELECT entry.row, entry.id FROM up CROSS JOIN entry ON entry.id = up.id WHERE up.about IS NULL \
        UNION \
        SELECT entry.row, entry.id FROM family CROSS JOIN entry ON entry.strikes = family.id \
        UNION \
        SELECT entry.row, entry.id FROM family CROSS JOIN entry ON entry.amends = family.id \
    )";

/// Writes which things an entry touches, and with an entry about an entry, that they touch the same.
pub(crate) fn write_touches(db: &Connection, row: i64, entry: &Entry) -> Result<(), Fault> {
    write_touches_of(db, row, &entry.deed.touches())?;
    if is_remark(&entry.deed) {
        share_touches(db, row)?;
    }
    Ok(())
}

/// Writes which things an entry touches by itself.
pub(crate) fn write_touches_of<'a>(
    db: &Connection,
    row: i64,
    touches: impl IntoIterator<Item = &'a Thing>,
) -> Result<(), Fault> {
    let mut insert = db.prepare_cached(
        "INSERT INTO touch (thing, entry, kind) VALUES (?1, ?2, ?3) ON CONFLICT DO NOTHING",
    )?;
    for thing in touches {
        insert.execute(params![thing.id.0.as_bytes(), row, thing.kind.name()])?;
    }
    Ok(())
}

/// Lets an entry and all that is said about it touch what any of them touches, so that whoever
/// follows one of these things sees the whole of it.
fn share_touches(db: &Connection, row: i64) -> Result<(), Fault> {
    let mut share = db.prepare_cached(&format!(
        "WITH RECURSIVE {FAMILY}, \
         touched (thing, kind) AS ( \
             SELECT DISTINCT touch.thing, touch.kind \
             FROM family CROSS JOIN touch ON touch.entry = family.row \
         ) \
         INSERT INTO touch (thing, entry, kind) \
         SELECT touched.thing, family.row, touched.kind FROM touched, family WHERE true \
         ON CONFLICT DO NOTHING"
    ))?;
    share.execute([row])?;
    Ok(())
}

/// Remembers the number in a reference that is given, so that it is not given again.
pub(crate) fn write_count(db: &Connection, entry: &Entry) -> Result<(), Fault> {
    let deed = match &entry.deed {
        Deed::Amended(amended) => &amended.deed,
        deed => deed,
    };
    let Some((thing, reference)) = deed.creates() else {
        return Ok(());
    };
    // A reference with a number beyond all counting is a name, and nothing is counted from it.
    let counted = |number: &u32| *number < 1_000_000_000;
    let Some(number) = thing.kind.number(reference).filter(counted) else {
        return Ok(());
    };
    let mut upsert = db.prepare_cached(
        "INSERT INTO counter (kind, highest) VALUES (?1, ?2) \
         ON CONFLICT (kind) DO UPDATE SET highest = max(highest, excluded.highest)",
    )?;
    upsert.execute(params![thing.kind.name(), number])?;
    Ok(())
}

/// Writes what an entry that counts leaves behind.
pub(crate) fn write_effects(
    db: &Connection,
    row: i64,
    entry: EntryId,
    deed: &Deed,
    happened: DateTime<FixedOffset>,
) -> Result<(), Fault> {
    let descents = deed.descents();
    if !descents.is_empty() {
        let mut insert = db.prepare_cached(
            "INSERT INTO link (child, parent, role, entry) VALUES (?1, ?2, ?3, ?4) \
             ON CONFLICT DO NOTHING",
        )?;
        for line in descents {
            insert.execute(params![
                line.child.id.0.as_bytes(),
                line.parent.id.0.as_bytes(),
                line.role,
                row
            ])?;
        }
    }
    match deed {
        Deed::Exposed(exposed) => write_exposure(db, row, entry, exposed, happened),
        Deed::PrintStep(step) => write_step(db, row, entry, step, happened),
        Deed::ShutterTested(tested) => write_test(db, row, entry, tested, happened),
        Deed::FaultSeen(seen) => write_fault(db, row, seen, happened),
        _ => Ok(()),
    }
}

/// Writes anew what an entry leaves behind whose standing has changed.
pub(crate) fn rewrite_effects(db: &Connection, settled: &Settled) -> Result<(), Fault> {
    let id = settled.entry.id;
    let row: Option<i64> = db
        .prepare_cached("SELECT row FROM entry WHERE id = ?1")?
        .query_row([id.0.as_bytes()], |row| row.get(0))
        .optional()?;
    let Some(row) = row else {
        return Err(Fault::Damaged(format!("the entry {id} is not there")));
    };
    for delete in [
        "DELETE FROM link WHERE entry = ?1 \
         AND child IN (SELECT thing FROM touch WHERE touch.entry = ?1)",
        "DELETE FROM exposure WHERE entry = ?1",
        "DELETE FROM print_step WHERE entry = ?1",
        "DELETE FROM shutter_test WHERE entry = ?1",
        "DELETE FROM fault WHERE entry = ?1",
    ] {
        db.prepare_cached(delete)?.execute([row])?;
    }
    if settled.counts() {
        write_effects(db, row, id, &settled.deed, settled.happened)?;
    }
    Ok(())
}

fn write_exposure(
    db: &Connection,
    row: i64,
    entry: EntryId,
    exposed: &Exposed,
    happened: DateTime<FixedOffset>,
) -> Result<(), Fault> {
    let openings = (!exposed.openings.is_empty()).then_some(&exposed.openings);
    let openings = openings.map(|times| json(entry, times)).transpose()?;
    let reckoning = exposed.reckoning.as_ref();
    let mut insert = db.prepare_cached(
        "INSERT INTO exposure (entry, sheet, side, camera, lens, happened, again, subject, \
         aperture, f_number, seconds, speed, readings, filters, draw, movements, in_front, light, \
         place, weather, development, openings, magnification, distance, flash, facing, \
         planned_aperture, planned_seconds, reckoning) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, \
         ?10, ?11, ?12, ?13, ?14, ?15, ?16, ?17, ?18, ?19, ?20, ?21, ?22, ?23, ?24, ?25, ?26, ?27, \
         ?28, ?29)",
    )?;
    insert.execute(params![
        row,
        key(exposed.sheet),
        key(exposed.side),
        key(exposed.camera),
        key(exposed.lens),
        happened.to_rfc3339(),
        exposed.again,
        exposed.subject,
        exposed.aperture.map(|aperture| aperture.to_string()),
        exposed.aperture.map(|aperture| aperture.number()),
        exposed.time.map(|time| time.value()),
        exposed.speed.map(|speed| speed.value()),
        exposed.readings,
        exposed.filter,
        exposed.draw.map(|draw| draw.value()),
        exposed.movements,
        exposed.in_front,
        exposed.light,
        exposed.place,
        exposed.weather,
        exposed.development,
        openings,
        exposed.magnification,
        exposed.distance.map(|distance| distance.value()),
        exposed.flash,
        exposed.facing,
        reckoning
            .and_then(|it| it.planned_aperture)
            .map(|aperture| aperture.to_string()),
        reckoning
            .and_then(|it| it.planned_time)
            .map(|time| time.value()),
        reckoning.map(|it| json(entry, it)).transpose()?,
    ])?;
    Ok(())
}

/// Part of an entry as JSON.
fn json<T: serde::Serialize>(entry: EntryId, part: &T) -> Result<String, Fault> {
    serde_json::to_string(part).map_err(|source| Fault::Damaged(format!("entry {entry}: {source}")))
}

fn write_step(
    db: &Connection,
    row: i64,
    entry: EntryId,
    step: &PrintStep,
    happened: DateTime<FixedOffset>,
) -> Result<(), Fault> {
    let figures = json(entry, &step.figures)?;
    let mut insert = db.prepare_cached(
        "INSERT INTO print_step (entry, print, step, happened, seconds, temperature, figures) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
    )?;
    insert.execute(params![
        row,
        step.print.0.as_bytes(),
        step.step,
        happened.to_rfc3339(),
        step.time.map(|time| time.value()),
        step.temperature.map(|temperature| temperature.value()),
        figures,
    ])?;
    Ok(())
}

fn write_test(
    db: &Connection,
    row: i64,
    entry: EntryId,
    tested: &ShutterTested,
    happened: DateTime<FixedOffset>,
) -> Result<(), Fault> {
    let mean = shutter::test(tested.mark, &tested.timings).map(|figure| figure.value.mean);
    let mut insert = db.prepare_cached(
        "INSERT INTO shutter_test (entry, lens, happened, mark, timings, shots, mean, aperture, \
         instrument) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)",
    )?;
    insert.execute(params![
        row,
        tested.lens.0.as_bytes(),
        happened.to_rfc3339(),
        tested.mark.value(),
        json(entry, &tested.timings)?,
        i64::try_from(tested.timings.len()).unwrap_or(i64::MAX),
        mean.ok().map(|mean| mean.value()),
        tested.aperture.map(|aperture| aperture.to_string()),
        tested.instrument,
    ])?;
    Ok(())
}

fn write_fault(
    db: &Connection,
    row: i64,
    seen: &FaultSeen,
    happened: DateTime<FixedOffset>,
) -> Result<(), Fault> {
    let mut insert = db.prepare_cached(
        "INSERT INTO fault (entry, sheet, happened, fault, cause, place, harm) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
    )?;
    insert.execute(params![
        row,
        seen.sheet.0.as_bytes(),
        happened.to_rfc3339(),
        seen.fault,
        seen.cause,
        seen.place,
        seen.harm.map(|harm| harm.word()),
    ])?;
    Ok(())
}

/// An id as it is stored, if there is one.
pub(crate) fn key(id: Option<ThingId>) -> Option<[u8; 16]> {
    id.map(|id| *id.0.as_bytes())
}
