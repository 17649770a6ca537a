//! What stands on the shelf: boxes, papers, baths, lenses, cameras and findings; and runs and sets. Each list
//! has the newest first. Baths, runs and sets become thousands in some years, so they can be had by
//! pages as well, and those that are in use can be had alone.

use rusqlite::{Params, Row, params};

use super::cells::{id, maybe_id, moment, quantity};
use crate::logbook::ThingId;
use crate::logbook::life::{BathState, State};
use crate::store::rows::{BathRow, BoxRow, FindingRow, PaperRow, RunRow, SetRow, ToolRow};
use crate::store::{Store, StoreError};

const RUNS: &str = "SELECT run.*, developer.reference AS developer_reference,
        (SELECT group_concat(called, char(10)) FROM
            (SELECT life.reference AS called FROM run_sheet JOIN life ON life.thing = run_sheet.sheet
             WHERE run_sheet.run = run.id ORDER BY run_sheet.nth)) AS sheet_references
    FROM run LEFT JOIN bath AS developer ON developer.id = run.developer";

const SETS: &str = "SELECT companion_set.*,
        (SELECT group_concat(reference, char(10)) FROM
            (SELECT reference FROM sheet WHERE sheet.companion_set = companion_set.id
             ORDER BY sheet.id)) AS sheet_references
    FROM companion_set";

const BATHS: &str = "SELECT bath.*, stock.reference AS stock_reference
    FROM bath LEFT JOIN bath AS stock ON stock.id = bath.stock";

/// What comes after every id.
const END: [u8; 17] = [0xFF; 17];

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
        self.baths_before(None, usize::MAX)
    }

    /// A page of the baths, newest first: those that are older than `before`.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn baths_before(
        &self,
        before: Option<ThingId>,
        limit: usize,
    ) -> Result<Vec<BathRow>, StoreError> {
        self.page(BATHS, "bath", before, limit, bath_row)
    }

    /// Every bath that can be used, newest first.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn baths_in_use(&self) -> Result<Vec<BathRow>, StoreError> {
        let [fresh, in_use] = [BathState::Fresh, BathState::InUse].map(State::word);
        let sql = format!("{BATHS} WHERE bath.state IN (?1, ?2) ORDER BY bath.id DESC");
        self.those(&sql, [fresh, in_use], bath_row)
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

    /// Everything the user has found out, newest first.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn found(&self) -> Result<Vec<FindingRow>, StoreError> {
        self.every("SELECT * FROM finding ORDER BY id DESC", |row| {
            Ok(FindingRow {
                thing: id(row, "id")?,
                reference: row.get("reference")?,
                state: row.get("state")?,
                sort: row.get("sort")?,
                about: row.get("about")?,
                says: row.get("says")?,
                found: moment(row, "found")?,
            })
        })
    }

    /// Every development run, newest first.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn runs(&self) -> Result<Vec<RunRow>, StoreError> {
        self.runs_before(None, usize::MAX)
    }

    /// A page of the runs, newest first: those that are older than `before`.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn runs_before(
        &self,
        before: Option<ThingId>,
        limit: usize,
    ) -> Result<Vec<RunRow>, StoreError> {
        self.page(RUNS, "run", before, limit, run_row)
    }

    /// Every run that has not ended, newest first.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn runs_under_way(&self) -> Result<Vec<RunRow>, StoreError> {
        let sql = format!("{RUNS} WHERE run.ended IS NULL ORDER BY run.id DESC");
        self.every(&sql, run_row)
    }

    /// Every set of companion sheets, newest first.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn sets(&self) -> Result<Vec<SetRow>, StoreError> {
        self.sets_before(None, usize::MAX)
    }

    /// A page of the sets, newest first: those that are older than `before`.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn sets_before(
        &self,
        before: Option<ThingId>,
        limit: usize,
    ) -> Result<Vec<SetRow>, StoreError> {
        self.page(SETS, "companion_set", before, limit, set_row)
    }

    /// A page of a table, found by key.
    fn page<T>(
        &self,
        select: &str,
        table: &str,
        before: Option<ThingId>,
        limit: usize,
        read: impl FnMut(&Row<'_>) -> rusqlite::Result<T>,
    ) -> Result<Vec<T>, StoreError> {
        let sql = format!("{select} WHERE {table}.id < ?1 ORDER BY {table}.id DESC LIMIT ?2");
        let before = before.as_ref().map(|thing| thing.0.as_bytes().as_slice());
        let limit = i64::try_from(limit).unwrap_or(i64::MAX);
        self.those(&sql, params![before.unwrap_or(&END), limit], read)
    }

    fn every<T>(
        &self,
        sql: &str,
        read: impl FnMut(&Row<'_>) -> rusqlite::Result<T>,
    ) -> Result<Vec<T>, StoreError> {
        self.those(sql, [], read)
    }

    fn those<T>(
        &self,
        sql: &str,
        values: impl Params,
        read: impl FnMut(&Row<'_>) -> rusqlite::Result<T>,
    ) -> Result<Vec<T>, StoreError> {
        self.read(|db| {
            let mut statement = db.prepare_cached(sql)?;
            let rows = statement.query_map(values, read)?;
            Ok(rows.collect::<rusqlite::Result<Vec<T>>>()?)
        })
    }
}

fn bath_row(row: &Row<'_>) -> rusqlite::Result<BathRow> {
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
        capacity: quantity(row, "good_for")?,
        formula: row.get("formula")?,
        concentrate: row.get("concentrate")?,
        area: quantity(row, "area")?.unwrap_or_default(),
        unmeasured: row.get("unmeasured")?,
        last_day: quantity(row, "last_day")?,
        fresh_clearing: quantity(row, "fresh_clearing")?,
        clearing: quantity(row, "clearing")?,
        of_two: match (maybe_id(row, "first_bath")?, maybe_id(row, "second_bath")?) {
            (Some(_), _) => Some("second"),
            (None, Some(_)) => Some("first"),
            (None, None) => None,
        },
    })
}

fn run_row(row: &Row<'_>) -> rusqlite::Result<RunRow> {
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
}

fn set_row(row: &Row<'_>) -> rusqlite::Result<SetRow> {
    Ok(SetRow {
        thing: id(row, "id")?,
        reference: row.get("reference")?,
        born: moment(row, "born")?,
        bond: quantity(row, "bond")?,
        sheets: references(row)?,
    })
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
