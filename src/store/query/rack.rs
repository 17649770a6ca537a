//! The rack: every holder with its sides, in one query.

use rusqlite::Row;

use super::cells::{id, maybe_id, moment, quantity};
use crate::logbook::ThingId;
use crate::logbook::life::{SideState, State};
use crate::store::rows::{HolderRow, SideDoubt, SideRow};
use crate::store::{Store, StoreError};

/// References of the usual form sort by their numbers once the shorter ones come first.
const RACK: &str = "SELECT h.id, h.reference, h.state, h.size, h.make,
        side.id AS side, side.reference AS side_reference, side.label, side.state AS side_state,
        side.since AS side_since, side.slide, side.doubt, side.doubted,
        side.exposed AS side_exposed, side.sheet,
        sheet.reference AS sheet_reference, sheet.exposures, sheet.subject,
        film_box.film,
        coalesce((SELECT speed FROM exposure WHERE exposure.sheet = sheet.id AND speed IS NOT NULL
                  ORDER BY entry DESC LIMIT 1), film_box.speed) AS speed
    FROM holder AS h
    LEFT JOIN side ON side.holder = h.id
    LEFT JOIN sheet ON sheet.id = side.sheet
    LEFT JOIN film_box ON film_box.id = sheet.film_box
    ORDER BY length(h.reference), h.reference, h.id, side.nth";

impl Store {
    /// Every holder with its sides, in the order of their references.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn rack(&self) -> Result<Vec<HolderRow>, StoreError> {
        self.read(|db| {
            let mut statement = db.prepare_cached(RACK)?;
            let mut rows = statement.query([])?;
            let mut holders: Vec<HolderRow> = Vec::new();
            while let Some(row) = rows.next()? {
                let holder = id(row, "id")?;
                if holders.last().is_none_or(|last| last.thing != holder) {
                    holders.push(holder_row(row, holder)?);
                }
                if let (Some(last), Some(side)) = (holders.last_mut(), maybe_id(row, "side")?) {
                    last.sides.push(side_row(row, side)?);
                }
            }
            Ok(holders)
        })
    }
}

fn holder_row(row: &Row<'_>, holder: ThingId) -> rusqlite::Result<HolderRow> {
    Ok(HolderRow {
        thing: holder,
        reference: row.get("reference")?,
        state: row.get("state")?,
        size: quantity(row, "size")?,
        make: row.get("make")?,
        sides: Vec::new(),
    })
}

fn side_row(row: &Row<'_>, side: ThingId) -> rusqlite::Result<SideRow> {
    let state: String = row.get("side_state")?;
    let seen = quantity(row, "doubt")?;
    let at = moment(row, "doubted")?;
    Ok(SideRow {
        thing: side,
        reference: row.get("side_reference")?,
        label: row.get("label")?,
        fogged: state == SideState::Fogged.word(),
        state,
        since: moment(row, "side_since")?,
        slide: quantity(row, "slide")?,
        doubt: seen.zip(at).map(|(seen, at)| SideDoubt { seen, at }),
        sheet: maybe_id(row, "sheet")?,
        sheet_reference: row.get("sheet_reference")?,
        film: row.get("film")?,
        speed: quantity(row, "speed")?,
        exposed: moment(row, "side_exposed")?,
        exposures: row.get::<_, Option<u32>>("exposures")?.unwrap_or_default(),
        subject: row.get("subject")?,
    })
}
