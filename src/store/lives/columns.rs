//! What the table of each kind of thing says of a life, column by column.

use rusqlite::types::Value;

use crate::craft::{Capacity, FilmSpeed};
use crate::logbook::life::{
    BathLife, BoxLife, CameraLife, FindingLife, Found, HolderLife, LensLife, PaperLife, PrintLife,
    RunLife, SetLife, SheetLife, SideLife,
};
use crate::logbook::{Life, Particulars, ThingId};
use crate::reference::FilmKind;
use crate::store::error::Fault;

/// Columns with their values.
pub(super) type Columns = Vec<(&'static str, Value)>;

/// Something that can stand in a column.
trait Cell {
    fn cell(self) -> Value;
}

impl Cell for String {
    fn cell(self) -> Value {
        Value::Text(self)
    }
}

impl Cell for &str {
    fn cell(self) -> Value {
        Value::Text(self.to_owned())
    }
}

impl Cell for f64 {
    fn cell(self) -> Value {
        Value::Real(self)
    }
}

impl Cell for i64 {
    fn cell(self) -> Value {
        Value::Integer(self)
    }
}

impl Cell for u32 {
    fn cell(self) -> Value {
        Value::Integer(self.into())
    }
}

impl Cell for usize {
    fn cell(self) -> Value {
        Value::Integer(i64::try_from(self).unwrap_or(i64::MAX))
    }
}

impl Cell for ThingId {
    fn cell(self) -> Value {
        Value::Blob(self.0.as_bytes().to_vec())
    }
}

impl<T: Cell> Cell for Option<T> {
    fn cell(self) -> Value {
        self.map_or(Value::Null, Cell::cell)
    }
}

/// Each column beside its value.
macro_rules! columns {
    ($($column:ident: $value:expr),+ $(,)?) => {
        vec![$((stringify!($column), Cell::cell($value))),+]
    };
}

/// What the tables of all kinds say in the same way.
struct Common<'a> {
    reference: &'a str,
    state: &'static str,
    born: Option<String>,
    since: Option<String>,
}

/// What the table of all lives says of a life; `body` is all of it.
pub(super) fn of_any(life: &Life, body: Value) -> Columns {
    let mut columns = columns! {
        kind: life.thing.kind.name(),
        reference: life.reference.as_str(),
        state: life.state_word(),
        born: life.born.map(|at| at.to_rfc3339()),
        since: life.since.map(|at| at.to_rfc3339()),
        last_us: life.last.map(|(happened, ..)| happened),
        entries: life.entries,
        overrides: life.overrides,
    };
    columns.push(("body", body));
    columns
}

/// What the table of its kind says of a life.
pub(super) fn of_its_kind(life: &Life) -> Columns {
    let common = Common {
        reference: &life.reference,
        state: life.state_word(),
        born: life.born.map(|at| at.to_rfc3339()),
        since: life.since.map(|at| at.to_rfc3339()),
    };
    match &life.particulars {
        Particulars::Box(film_box) => of_box(common, film_box),
        Particulars::Holder(holder) => of_holder(common, holder),
        Particulars::Side(side) => of_side(common, side),
        Particulars::Sheet(sheet) => of_sheet(common, sheet),
        Particulars::Set(set) => of_set(common, set),
        Particulars::Run(run) => of_run(common, run),
        Particulars::Bath(bath) => of_bath(common, bath),
        Particulars::Paper(paper) => of_paper(common, paper),
        Particulars::Print(print) => of_print(common, print),
        Particulars::Lens(lens) => of_lens(common, lens),
        Particulars::Camera(camera) => of_camera(common, camera),
        Particulars::Finding(finding) => of_finding(common, finding),
    }
}

fn of_box(common: Common<'_>, film_box: &BoxLife) -> Columns {
    columns! {
        reference: common.reference,
        state: common.state,
        film: film_box.film.as_str(),
        size: film_box.size.map(|size| size.to_string()),
        speed: film_box.speed.map(|speed| speed.value()),
        emulsion: film_box.emulsion.as_deref(),
        expiry: film_box.expiry.map(|date| date.to_string()),
        kept: film_box.kept.as_deref(),
        sheets: film_box.sheets,
        remaining: film_box.left,
        born: common.born,
        since: common.since,
    }
}

fn of_holder(common: Common<'_>, holder: &HolderLife) -> Columns {
    columns! {
        reference: common.reference,
        state: common.state,
        size: holder.size.map(|size| size.to_string()),
        sides: holder.sides.len(),
        make: holder.make.as_deref(),
        born: common.born,
        since: common.since,
    }
}

fn of_side(common: Common<'_>, side: &SideLife) -> Columns {
    columns! {
        reference: common.reference,
        holder: side.holder,
        label: side.label.as_str(),
        nth: side.index,
        state: common.state,
        size: side.size.map(|size| size.to_string()),
        sheet: side.sheet,
        slide: side.slide.map(|slide| slide.word()),
        exposed: side.exposed.map(|at| at.to_rfc3339()),
        doubt: side.doubt.map(|doubt| doubt.seen.word()),
        doubted: side.doubt.map(|doubt| doubt.at.to_rfc3339()),
        since: common.since,
    }
}

fn of_sheet(common: Common<'_>, sheet: &SheetLife) -> Columns {
    let last = sheet.exposures.last();
    let densities = sheet.densities.as_ref();

    columns! {
        reference: common.reference,
        state: common.state,
        film_box: sheet.film_box,
        side: sheet.side,
        run: sheet.run,
        companion_set: sheet.set,
        exposures: sheet.exposures.len(),
        exposed: last.map(|last| last.at.to_rfc3339()),
        subject: last.and_then(|last| last.subject.as_deref()),
        place: last.and_then(|last| last.place.as_deref()),
        camera: last.and_then(|last| last.camera),
        lens: last.and_then(|last| last.lens),
        aperture: last.and_then(|last| last.aperture).map(|aperture| aperture.to_string()),
        seconds: last.and_then(|last| last.time).map(|time| time.value()),
        low: densities.map(|densities| densities.low.value()),
        high: densities.map(|densities| densities.high.value()),
        density_range: densities.map(|densities| densities.high.value() - densities.low.value()),
        base_fog: densities.and_then(|densities| densities.base_fog).map(|density| density.value()),
        channel: densities.and_then(|densities| densities.channel).map(|channel| channel.word()),
        file_place: sheet.file_place.as_deref(),
        scan: sheet.scan.as_deref(),
        faults: sheet.faults.len(),
        prints: sheet.prints,
        ending: sheet.end.as_deref(),
        born: common.born,
        since: common.since,
    }
}

fn of_set(common: Common<'_>, set: &SetLife) -> Columns {
    columns! {
        reference: common.reference,
        state: common.state,
        bond: set.bond.map(|bond| bond.word()),
        sheets: set.sheets.len(),
        born: common.born,
    }
}

fn of_run(common: Common<'_>, run: &RunLife) -> Columns {
    columns! {
        reference: common.reference,
        state: common.state,
        sheets: run.sheets.len(),
        developer: run.developer,
        vessel: run.vessel.as_deref(),
        seconds: run.time.map(|time| time.value()),
        planned: run.planned.map(|time| time.value()),
        contrast: run.contrast.as_ref().map(|asked| asked.to_string()),
        temperature: run.temperature.map(|temperature| temperature.value()),
        ended: run.ended.map(|at| at.to_rfc3339()),
        sequence: run.sequence.as_deref(),
        timing: run.steps.current().map(|step| step.step.as_str()),
        born: common.born,
        since: common.since,
    }
}

fn of_bath(common: Common<'_>, bath: &BathLife) -> Columns {
    columns! {
        reference: common.reference,
        state: common.state,
        name: bath.name.as_str(),
        purpose: bath.purpose.map(|purpose| purpose.word()),
        dilution: bath.dilution.as_ref().map(|dilution| dilution.to_string()),
        volume: bath.volume.map(|volume| volume.value()),
        stock: bath.stock,
        formula: bath.formula.as_deref(),
        concentrate: bath.concentrate.as_deref(),
        capacity: match bath.capacity {
            Some(Capacity::Sheets(sheets)) => Some(sheets),
            _ => None,
        },
        good_for: bath.capacity.map(|capacity| capacity.to_string()),
        good_for_area: bath.capacity.and_then(Capacity::area).map(|area| area.value()),
        keeps: bath.keeps.map(|keeps| keeps.to_string()),
        last_day: bath.wear().last_day.map(|day| day.to_string()),
        least: bath.least.map(|least| least.value()),
        uses: bath.uses,
        area: bath.area.value(),
        unmeasured: bath.unmeasured,
        total_uses: bath.total_uses,
        total_area: bath.total_area.value(),
        fresh_clearing: bath.clearing().map(|(fresh, _)| fresh.value()),
        clearing: bath.clearing().map(|(_, last)| last.value()),
        first_bath: bath.first,
        second_bath: bath.second,
        changes: bath.changes,
        mixed: bath.mixed.map(|at| at.to_rfc3339()),
        born: common.born,
        since: common.since,
    }
}

fn of_paper(common: Common<'_>, paper: &PaperLife) -> Columns {
    columns! {
        reference: common.reference,
        state: common.state,
        name: paper.name.as_str(),
        sort: paper.sort.as_deref(),
        size: paper.size.map(|size| size.to_string()),
        batch: paper.batch.as_deref(),
        sheets: paper.sheets,
        remaining: paper.left,
        born: common.born,
        since: common.since,
    }
}

fn of_print(common: Common<'_>, print: &PrintLife) -> Columns {
    let placement = print.placement.as_ref();

    columns! {
        reference: common.reference,
        state: common.state,
        title: print.title.as_deref(),
        process: print.process.as_str(),
        negative: print.negatives.first().copied(),
        negatives: print.negatives.len(),
        paper: print.paper,
        size: print.size.map(|size| size.to_string()),
        steps: print.steps.len(),
        timing: print.timed.current().map(|step| step.step.as_str()),
        last_step: print.steps.last().map(|step| step.step.as_str()),
        number: print.number.as_deref(),
        whereabouts: placement.map(|placement| placement.whereabouts.word()),
        place: placement.and_then(|placement| placement.place.as_deref()),
        due: placement.and_then(|placement| placement.due).map(|date| date.to_string()),
        placed: placement.map(|placement| placement.since.to_rfc3339()),
        ending: print.end.as_deref(),
        born: common.born,
        since: common.since,
    }
}

fn of_lens(common: Common<'_>, lens: &LensLife) -> Columns {
    columns! {
        reference: common.reference,
        state: common.state,
        name: lens.name.as_str(),
        focal_length: lens.focal_length.map(|length| length.value()),
        widest: lens.widest.map(|aperture| aperture.to_string()),
        smallest: lens.smallest.map(|aperture| aperture.to_string()),
        shutter: lens.shutter.as_deref(),
        serial: lens.serial.as_deref(),
        image_circle: lens.image_circle.map(|length| length.value()),
        pupil_ratio: lens.pupil_ratio,
        flange: lens.flange.map(|length| length.value()),
        exposures: lens.exposures,
        used: lens.used.map(|at| at.to_rfc3339()),
        born: common.born,
        since: common.since,
    }
}

fn of_camera(common: Common<'_>, camera: &CameraLife) -> Columns {
    columns! {
        reference: common.reference,
        state: common.state,
        name: camera.name.as_str(),
        size: camera.size.map(|size| size.to_string()),
        shortest_draw: camera.shortest_draw.map(|length| length.value()),
        longest_draw: camera.longest_draw.map(|length| length.value()),
        exposures: camera.exposures,
        used: camera.used.map(|at| at.to_rfc3339()),
        born: common.born,
        since: common.since,
    }
}

/// A finding of one sort leaves the columns of the others empty.
fn of_finding(common: Common<'_>, finding: &FindingLife) -> Columns {
    let found = finding.found.as_ref();
    let (film, light) = match found {
        Some(Found::Filter { film, light, .. }) => (film.as_deref(), light.as_deref()),
        Some(Found::Time { film, .. } | Found::Film { film, .. }) => (Some(film.as_str()), None),
        Some(Found::Strip(strip)) => (strip.film.as_deref(), None),
        Some(Found::Development(found)) => (Some(found.film.as_str()), None),
        _ => (None, None),
    };
    let stops = match found {
        Some(Found::Filter { stops, .. }) => Some(stops.value()),
        _ => None,
    };
    let (metered, needed) = match found {
        Some(Found::Time {
            metered, needed, ..
        }) => (Some(metered.value()), Some(needed.value())),
        _ => (None, None),
    };
    let developed = match found {
        Some(Found::Development(found)) => Some(found),
        _ => None,
    };
    let value = match found {
        Some(Found::Light { value, .. }) => Some(value.value()),
        _ => None,
    };
    let (reflected, incident) = match found {
        Some(Found::Meter {
            reflected,
            incident,
        }) => (*reflected, *incident),
        _ => (None, None),
    };
    let place = match found {
        Some(Found::Place {
            coordinates, zone, ..
        }) => Some((*coordinates, zone.as_deref())),
        _ => None,
    };
    let (speed, maker, kind) = match found {
        Some(Found::Film {
            speed, maker, kind, ..
        }) => (*speed, maker.as_deref(), *kind),
        _ => (None, None, None),
    };
    let (size, image, cut) = match found {
        Some(Found::Format {
            size, image, cut, ..
        }) => (Some(*size), *image, *cut),
        _ => (None, None, None),
    };
    let (depth, tolerance) = match found {
        Some(Found::Format {
            depth, tolerance, ..
        }) => (*depth, *tolerance),
        _ => (None, None),
    };
    columns! {
        reference: common.reference,
        state: common.state,
        sort: found.map_or("", Found::sort),
        about: found.map_or("", Found::about),
        says: found.map(Found::says).unwrap_or_default(),
        film: film,
        light: light,
        stops: stops,
        metered: metered,
        needed: needed,
        developer: developed.map(|it| it.developer.as_str()),
        dilution: developed.and_then(|it| it.dilution).map(|it| it.to_string()),
        developed: developed.map(|it| it.time.value()),
        temperature: developed.map(|it| it.temperature.value()),
        contrast: developed.map(|it| it.contrast.to_string()),
        gradient: developed.and_then(|it| it.gradient),
        exposure_value: value,
        reflected: reflected,
        incident: incident,
        latitude: place.map(|(place, _)| place.latitude()),
        longitude: place.map(|(place, _)| place.longitude()),
        zone: place.and_then(|(_, zone)| zone),
        speed: speed.map(FilmSpeed::value),
        maker: maker,
        kind: kind.map(FilmKind::word),
        size: size.map(|size| size.to_string()),
        image: image.map(|size| size.to_string()),
        cut: cut.map(|size| size.to_string()),
        depth: depth.map(|length| length.value()),
        tolerance: tolerance.map(|length| length.value()),
        found: finding.at.map(|at| at.to_rfc3339()),
        born: common.born,
        since: common.since,
    }
}

/// What was read of a strip, if the finding is one. When it was read may change with an amendment.
pub(super) fn of_strip(finding: &FindingLife) -> Result<Option<Columns>, Fault> {
    let Some(Found::Strip(strip)) = &finding.found else {
        return Ok(None);
    };
    let damaged = |source: serde_json::Error| Fault::Damaged(format!("a strip: {source}"));
    let tablet = strip.tablet.clone().unwrap_or_default();
    Ok(Some(columns! {
        read: finding.at.map(|at| at.to_rfc3339()),
        film: strip.film.as_deref(),
        developer: strip.developer.as_deref(),
        dilution: strip.dilution.as_ref().map(|dilution| dilution.to_string()),
        seconds: strip.time.map(|time| time.value()),
        temperature: strip.temperature.map(|temperature| temperature.value()),
        sheet: strip.sheet,
        run: strip.run,
        bath: strip.bath,
        series: strip.series.as_deref(),
        tablet: serde_json::to_string(&tablet).map_err(damaged)?,
        bare: strip.bare,
        base_fog: strip.base_fog.map(|density| density.value()),
        readings: serde_json::to_string(&strip.readings).map_err(damaged)?,
        channel: strip.channel.map(|channel| channel.word()),
        instrument: strip.instrument.as_deref(),
        joined: strip.joined.map(|joined| joined.word()),
    }))
}
