//! Strips of steps, as they were read: one list, the newest first.

use rusqlite::Row;
use rusqlite::types::Type;
use serde::de::DeserializeOwned;

use super::cells::{id, maybe_id, moment, quantity};
use crate::logbook::StripRead;
use crate::logbook::life::{FindingState, State};
use crate::logbook::strips::KeptStrip;
use crate::store::rows::StripRow;
use crate::store::{Store, StoreError};

const STRIPS: &str = "SELECT strip.*, finding.reference, finding.state,
        on_sheet.reference AS sheet_reference, in_run.reference AS run_reference,
        in_bath.reference AS bath_reference
    FROM strip JOIN finding ON finding.id = strip.id
    LEFT JOIN sheet AS on_sheet ON on_sheet.id = strip.sheet
    LEFT JOIN run AS in_run ON in_run.id = strip.run
    LEFT JOIN bath AS in_bath ON in_bath.id = strip.bath";

impl Store {
    /// Every strip that is kept, newest first.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn strips(&self) -> Result<Vec<StripRow>, StoreError> {
        let sql = format!("{STRIPS} WHERE finding.state = ?1 ORDER BY strip.id DESC");
        let mut rows = self.read(|db| {
            let mut statement = db.prepare_cached(&sql)?;
            let rows = statement.query_map([FindingState::Kept.word()], strip_row)?;
            Ok(rows.collect::<rusqlite::Result<Vec<StripRow>>>()?)
        })?;
        // One that was read on an earlier day may have been written down later.
        rows.sort_by_key(|row| std::cmp::Reverse(row.kept.at));
        Ok(rows)
    }
}

/// A column that holds JSON.
fn json<T: DeserializeOwned>(row: &Row<'_>, column: &str) -> rusqlite::Result<T> {
    let text: String = row.get(column)?;
    serde_json::from_str(&text)
        .map_err(|why| rusqlite::Error::FromSqlConversionFailure(0, Type::Text, Box::new(why)))
}

fn strip_row(row: &Row<'_>) -> rusqlite::Result<StripRow> {
    let thing = id(row, "id")?;
    let strip = StripRead {
        finding: thing,
        reference: row.get("reference")?,
        sheet: maybe_id(row, "sheet")?,
        film: row.get("film")?,
        bath: maybe_id(row, "bath")?,
        run: maybe_id(row, "run")?,
        developer: row.get("developer")?,
        dilution: quantity(row, "dilution")?,
        time: quantity(row, "seconds")?,
        temperature: quantity(row, "temperature")?,
        series: row.get("series")?,
        tablet: Some(json(row, "tablet")?),
        bare: row.get("bare")?,
        readings: json(row, "readings")?,
        base_fog: quantity(row, "base_fog")?,
        channel: quantity(row, "channel")?,
        instrument: row.get("instrument")?,
        joined: quantity(row, "joined")?,
    };
    let at = moment(row, "read")?
        .ok_or_else(|| rusqlite::Error::InvalidColumnType(0, "read".to_owned(), Type::Null))?;
    Ok(StripRow {
        thing,
        state: row.get("state")?,
        kept: KeptStrip {
            reference: strip.reference.clone(),
            at,
            strip,
        },
        sheet: row.get("sheet_reference")?,
        run: row.get("run_reference")?,
        bath: row.get("bath_reference")?,
    })
}
