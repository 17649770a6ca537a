//! What stands on the shelf: boxes, papers, baths, lenses and cameras; and runs and sets. Each list
//! is whole and has the newest first.

use rusqlite::Row;

use super::cells::{id, moment, quantity};
use crate::store::rows::{BathRow, BoxRow, PaperRow, RunRow, SetRow, ToolRow};
use crate::store::{Store, StoreError};

const RUNS: &str = "SELECT run.*, developer.reference AS developer_reference,
        (SELECT group_concat(called, char(10)) FROM
            (SELECT life.reference AS called FROM run_sheet JOIN life ON life.thing = run_sheet.sheet
             WHERE run_sheet.run = run.id ORDER BY run_sheet.nth)) AS sheet_references
    FROM run LEFT JOIN bath AS developer ON developer.id = run.developer
    ORDER BY run.id DESC";

const SETS: &str = "SELECT companion_set.*,
        (SELECT group_concat(reference, char(10)) FROM
            (SELECT reference FROM sheet WHERE sheet.companion_set = companion_set.id
             ORDER BY sheet.id)) AS sheet_references
    FROM companion_set ORDER BY companion_set.id DESC";

impl Store {
    /// Every box of film, newest first.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn boxes(&self) -> Result<Vec<BoxRow>, StoreError> {
        self.every("SELECT * FROM film_box ORDER BY id DESC", |row| {
            Ok(BoxRow {
                thing: id(row, "id")?,
                reference: row.get("reference")?,
                state: row.get("state")?,
                born: moment(row, "born")?,
                film: row.get("film")?,
                size: quantity(row, "size")?,
                speed: quantity(row, "speed")?,
                emulsion: row.get("emulsion")?,
                expiry: quantity(row, "expiry")?,
                kept: row.get("kept")?,
                sheets: row.get("sheets")?,
                left: row.get("remaining")?,
            })
        })
    }

    /// Every stock of paper, newest first.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn papers(&self) -> Result<Vec<PaperRow>, StoreError> {
        self.every("SELECT * FROM paper ORDER BY id DESC", |row| {
            Ok(PaperRow {
                thing: id(row, "id")?,
                reference: row.get("reference")?,
                state: row.get("state")?,
                born: moment(row, "born")?,
                name: row.get("name")?,
                sort: row.get("sort")?,
                size: quantity(row, "size")?,
                batch: row.get("batch")?,
                sheets: row.get("sheets")?,
                left: row.get("remaining")?,
            })
        })
    }

    /// Every bath, newest first.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn baths(&self) -> Result<Vec<BathRow>, StoreError> {
        let sql = "SELECT bath.*, stock.reference AS stock_reference
            FROM bath LEFT JOIN bath AS stock ON stock.id = bath.stock ORDER BY bath.id DESC";
        self.every(sql, |row| {
            Ok(BathRow {
                thing: id(row, "id")?,
                reference: row.get("reference")?,
                state: row.get("state")?,
                since: moment(row, "since")?,
                name: row.get("name")?,
                purpose: quantity(row, "purpose")?,
                dilution: quantity(row, "dilution")?,
                volume: quantity(row, "volume")?,
                stock: row.get("stock_reference")?,
                mixed: moment(row, "mixed")?,
                uses: row.get("uses")?,
                capacity: row.get("capacity")?,
            })
        })
    }

    /// Every lens, newest first.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn lenses(&self) -> Result<Vec<ToolRow>, StoreError> {
        self.every("SELECT * FROM lens ORDER BY id DESC", tool_row)
    }

    /// Every camera, newest first.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn cameras(&self) -> Result<Vec<ToolRow>, StoreError> {
        self.every("SELECT * FROM camera ORDER BY id DESC", tool_row)
    }

    /// Every development run, newest first.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn runs(&self) -> Result<Vec<RunRow>, StoreError> {
        self.every(RUNS, |row| {
            Ok(RunRow {
                thing: id(row, "id")?,
                reference: row.get("reference")?,
                state: row.get("state")?,
                begun: moment(row, "born")?,
                ended: moment(row, "ended")?,
                sheets: references(row)?,
                developer: row.get("developer_reference")?,
                time: quantity(row, "seconds")?,
                temperature: quantity(row, "temperature")?,
                vessel: row.get("vessel")?,
            })
        })
    }

    /// Every set of companion sheets, newest first.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn sets(&self) -> Result<Vec<SetRow>, StoreError> {
        self.every(SETS, |row| {
            Ok(SetRow {
                thing: id(row, "id")?,
                reference: row.get("reference")?,
                born: moment(row, "born")?,
                bond: quantity(row, "bond")?,
                sheets: references(row)?,
            })
        })
    }

    fn every<T>(
        &self,
        sql: &str,
        read: impl FnMut(&Row<'_>) -> rusqlite::Result<T>,
    ) -> Result<Vec<T>, StoreError> {
        self.read(|db| {
            let mut statement = db.prepare_cached(sql)?;
            let rows = statement.query_map([], read)?;
            Ok(rows.collect::<rusqlite::Result<Vec<T>>>()?)
        })
    }
}

fn tool_row(row: &Row<'_>) -> rusqlite::Result<ToolRow> {
    Ok(ToolRow {
        thing: id(row, "id")?,
        reference: row.get("reference")?,
        state: row.get("state")?,
        name: row.get("name")?,
        exposures: row.get("exposures")?,
        used: moment(row, "used")?,
    })
}

fn references(row: &Row<'_>) -> rusqlite::Result<Vec<String>> {
    let joined: Option<String> = row.get("sheet_references")?;
    Ok(joined
        .map(|all| all.lines().map(str::to_owned).collect())
        .unwrap_or_default())
}
