//! Lives as rows: one in `life` with everything, and one in the table of its kind that any SQL tool
//! can read.
//!
//! The row of a thing's kind is there as long as the thing is; the row in `life` stays when every
//! entry that brought it into being is struck, for a strike may be struck.

use rusqlite::{Connection, params};

use super::error::Fault;
use super::traces::key;
use crate::logbook::life::{
    BathLife, BoxLife, HolderLife, PaperLife, PrintLife, RunLife, SetLife, SheetLife, SideLife,
    ToolLife,
};
use crate::logbook::{Life, Particulars, ThingKind};

/// Writes a row over the one with the same key, each column beside its value.
macro_rules! put {
    (
        $db:expr, $table:literal, $key:ident: $key_value:expr,
        $first:ident: $first_value:expr $(, $column:ident: $value:expr)* $(,)?
    ) => {
        $db.prepare_cached(concat!(
            "INSERT INTO ", $table, " (", stringify!($key), ", ", stringify!($first),
            $(", ", stringify!($column),)*
            ") VALUES (?, ?", $(put!(@place $column),)*
            ") ON CONFLICT (", stringify!($key), ") DO UPDATE SET ",
            stringify!($first), " = excluded.", stringify!($first),
            $(", ", stringify!($column), " = excluded.", stringify!($column),)*
        ))?
        .execute(params![$key_value, $first_value $(, $value)*])
    };
    (@place $column:ident) => { ", ?" };
}

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
    }
}

/// What the tables of all kinds say in the same way.
struct Common<'a> {
    id: [u8; 16],
    reference: &'a str,
    state: &'static str,
    born: Option<String>,
    since: Option<String>,
}

/// Writes a life as it now stands.
pub(crate) fn write(db: &Connection, life: &Life) -> Result<(), Fault> {
    let body = serde_json::to_string(life)
        .map_err(|source| Fault::Damaged(format!("the life of {}: {source}", life.thing.id)))?;
    let common = Common {
        id: *life.thing.id.0.as_bytes(),
        reference: &life.reference,
        state: life.state_word(),
        born: life.born.map(|at| at.to_rfc3339()),
        since: life.since.map(|at| at.to_rfc3339()),
    };
    put!(db, "life", thing: common.id,
        kind: life.thing.kind.name(),
        reference: common.reference,
        state: common.state,
        born: common.born,
        since: common.since,
        last_us: life.last.map(|(happened, ..)| happened),
        entries: life.entries,
        overrides: life.overrides,
        body: body,
    )?;
    if life.is_new() {
        return forget(db, life);
    }
    match &life.particulars {
        Particulars::Box(film_box) => write_box(db, &common, film_box),
        Particulars::Holder(holder) => write_holder(db, &common, holder),
        Particulars::Side(side) => write_side(db, &common, side),
        Particulars::Sheet(sheet) => write_sheet(db, &common, sheet),
        Particulars::Set(set) => write_set(db, &common, set),
        Particulars::Run(run) => write_run(db, &common, run),
        Particulars::Bath(bath) => write_bath(db, &common, bath),
        Particulars::Paper(paper) => write_paper(db, &common, paper),
        Particulars::Print(print) => write_print(db, &common, print),
        Particulars::Lens(lens) => write_lens(db, &common, lens),
        Particulars::Camera(camera) => write_camera(db, &common, camera),
    }
}

/// Takes a thing that is not there any more out of the table of its kind.
fn forget(db: &Connection, life: &Life) -> Result<(), Fault> {
    let id = life.thing.id.0.as_bytes();
    let table = table(life.thing.kind);
    db.execute(&format!("DELETE FROM {table} WHERE id = ?1"), [id])?;
    if life.thing.kind == ThingKind::Run {
        db.execute("DELETE FROM run_sheet WHERE run = ?1", [id])?;
    }
    Ok(())
}

fn write_box(db: &Connection, common: &Common<'_>, film_box: &BoxLife) -> Result<(), Fault> {
    put!(db, "film_box", id: common.id,
        reference: common.reference,
        state: common.state,
        film: film_box.film,
        size: film_box.size.map(|size| size.to_string()),
        speed: film_box.speed.map(|speed| speed.value()),
        emulsion: film_box.emulsion,
        expiry: film_box.expiry.map(|date| date.to_string()),
        kept: film_box.kept,
        sheets: film_box.sheets,
        remaining: film_box.left,
        born: common.born,
        since: common.since,
    )?;
    Ok(())
}

fn write_holder(db: &Connection, common: &Common<'_>, holder: &HolderLife) -> Result<(), Fault> {
    put!(db, "holder", id: common.id,
        reference: common.reference,
        state: common.state,
        size: holder.size.map(|size| size.to_string()),
        sides: i64::try_from(holder.sides.len()).unwrap_or(i64::MAX),
        make: holder.make,
        born: common.born,
        since: common.since,
    )?;
    Ok(())
}

fn write_side(db: &Connection, common: &Common<'_>, side: &SideLife) -> Result<(), Fault> {
    put!(db, "side", id: common.id,
        reference: common.reference,
        holder: key(side.holder),
        label: side.label,
        nth: side.index,
        state: common.state,
        size: side.size.map(|size| size.to_string()),
        sheet: key(side.sheet),
        slide: side.slide.map(|slide| slide.word()),
        exposed: side.exposed.map(|at| at.to_rfc3339()),
        doubt: side.doubt.map(|doubt| doubt.seen.word()),
        doubted: side.doubt.map(|doubt| doubt.at.to_rfc3339()),
        since: common.since,
    )?;
    Ok(())
}

fn write_sheet(db: &Connection, common: &Common<'_>, sheet: &SheetLife) -> Result<(), Fault> {
    let last = sheet.exposures.last();
    let densities = sheet.densities.as_ref();
    put!(db, "sheet", id: common.id,
        reference: common.reference,
        state: common.state,
        film_box: key(sheet.film_box),
        side: key(sheet.side),
        run: key(sheet.run),
        companion_set: key(sheet.set),
        exposures: i64::try_from(sheet.exposures.len()).unwrap_or(i64::MAX),
        exposed: last.map(|last| last.at.to_rfc3339()),
        subject: last.and_then(|last| last.subject.as_deref()),
        place: last.and_then(|last| last.place.as_deref()),
        camera: key(last.and_then(|last| last.camera)),
        lens: key(last.and_then(|last| last.lens)),
        aperture: last.and_then(|last| last.aperture).map(|aperture| aperture.to_string()),
        seconds: last.and_then(|last| last.time).map(|time| time.value()),
        low: densities.map(|densities| densities.low.value()),
        high: densities.map(|densities| densities.high.value()),
        density_range: densities.map(|densities| densities.high.value() - densities.low.value()),
        base_fog: densities.and_then(|densities| densities.base_fog).map(|density| density.value()),
        channel: densities.and_then(|densities| densities.channel).map(|channel| channel.word()),
        file_place: sheet.file_place,
        prints: sheet.prints,
        ending: sheet.end,
        born: common.born,
        since: common.since,
    )?;
    Ok(())
}

fn write_set(db: &Connection, common: &Common<'_>, set: &SetLife) -> Result<(), Fault> {
    put!(db, "companion_set", id: common.id,
        reference: common.reference,
        state: common.state,
        bond: set.bond.map(|bond| bond.word()),
        sheets: i64::try_from(set.sheets.len()).unwrap_or(i64::MAX),
        born: common.born,
    )?;
    Ok(())
}

fn write_run(db: &Connection, common: &Common<'_>, run: &RunLife) -> Result<(), Fault> {
    put!(db, "run", id: common.id,
        reference: common.reference,
        state: common.state,
        sheets: i64::try_from(run.sheets.len()).unwrap_or(i64::MAX),
        developer: key(run.developer),
        vessel: run.vessel,
        seconds: run.time.map(|time| time.value()),
        temperature: run.temperature.map(|temperature| temperature.value()),
        ended: run.ended.map(|at| at.to_rfc3339()),
        born: common.born,
        since: common.since,
    )?;
    db.prepare_cached("DELETE FROM run_sheet WHERE run = ?1")?
        .execute([common.id])?;
    let mut insert =
        db.prepare_cached("INSERT INTO run_sheet (run, nth, sheet) VALUES (?1, ?2, ?3)")?;
    for (sheet, nth) in run.sheets.iter().zip(0_i64..) {
        insert.execute(params![common.id, nth, sheet.0.as_bytes()])?;
    }
    Ok(())
}

fn write_bath(db: &Connection, common: &Common<'_>, bath: &BathLife) -> Result<(), Fault> {
    put!(db, "bath", id: common.id,
        reference: common.reference,
        state: common.state,
        name: bath.name,
        purpose: bath.purpose.map(|purpose| purpose.word()),
        dilution: bath.dilution.as_ref().map(|dilution| dilution.to_string()),
        volume: bath.volume.map(|volume| volume.value()),
        stock: key(bath.stock),
        capacity: bath.capacity,
        uses: bath.uses,
        mixed: bath.mixed.map(|at| at.to_rfc3339()),
        born: common.born,
        since: common.since,
    )?;
    Ok(())
}

fn write_paper(db: &Connection, common: &Common<'_>, paper: &PaperLife) -> Result<(), Fault> {
    put!(db, "paper", id: common.id,
        reference: common.reference,
        state: common.state,
        name: paper.name,
        sort: paper.sort,
        size: paper.size.map(|size| size.to_string()),
        batch: paper.batch,
        sheets: paper.sheets,
        remaining: paper.left,
        born: common.born,
        since: common.since,
    )?;
    Ok(())
}

fn write_print(db: &Connection, common: &Common<'_>, print: &PrintLife) -> Result<(), Fault> {
    let placement = print.placement.as_ref();
    put!(db, "print", id: common.id,
        reference: common.reference,
        state: common.state,
        title: print.title,
        process: print.process,
        negative: key(print.negatives.first().copied()),
        negatives: i64::try_from(print.negatives.len()).unwrap_or(i64::MAX),
        paper: key(print.paper),
        size: print.size.map(|size| size.to_string()),
        steps: i64::try_from(print.steps.len()).unwrap_or(i64::MAX),
        last_step: print.steps.last().map(|step| step.step.as_str()),
        number: print.number,
        whereabouts: placement.map(|placement| placement.whereabouts.word()),
        place: placement.and_then(|placement| placement.place.as_deref()),
        due: placement.and_then(|placement| placement.due).map(|date| date.to_string()),
        placed: placement.map(|placement| placement.since.to_rfc3339()),
        ending: print.end,
        born: common.born,
        since: common.since,
    )?;
    Ok(())
}

fn write_lens(db: &Connection, common: &Common<'_>, lens: &ToolLife) -> Result<(), Fault> {
    put!(db, "lens", id: common.id,
        reference: common.reference,
        state: common.state,
        name: lens.name,
        exposures: lens.exposures,
        used: lens.used.map(|at| at.to_rfc3339()),
        born: common.born,
        since: common.since,
    )?;
    Ok(())
}

fn write_camera(db: &Connection, common: &Common<'_>, camera: &ToolLife) -> Result<(), Fault> {
    put!(db, "camera", id: common.id,
        reference: common.reference,
        state: common.state,
        name: camera.name,
        exposures: camera.exposures,
        used: camera.used.map(|at| at.to_rfc3339()),
        born: common.born,
        since: common.since,
    )?;
    Ok(())
}
