//! How much there is in the logbook, for the line at the foot of a screen.

use std::collections::BTreeMap;

use chrono::{DateTime, FixedOffset};
use rusqlite::Connection;

use super::cells::moment;
use crate::logbook::life::{SideState, State};
use crate::store::rows::Counts;
use crate::store::{Store, StoreError};

impl Store {
    /// How many there are of everything.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn counts(&self) -> Result<Counts, StoreError> {
        self.ask_at_once(|db| {
            let number = |sql: &str| db.prepare_cached(sql)?.query_row([], |row| row.get(0));
            Ok(Counts {
                entries: number("SELECT count(*) FROM entry")?,
                boxes: number("SELECT count(*) FROM film_box")?,
                holders: number("SELECT count(*) FROM holder")?,
                sides: by_state(db, "side")?,
                in_doubt: number("SELECT count(*) FROM side WHERE doubt IS NOT NULL")?,
                oldest_exposed: oldest_exposed(db)?,
                sheets: by_state(db, "sheet")?,
                prints: by_state(db, "print")?,
                runs: number("SELECT count(*) FROM run")?,
                baths: number("SELECT count(*) FROM bath")?,
                papers: number("SELECT count(*) FROM paper")?,
                lenses: number("SELECT count(*) FROM lens")?,
                cameras: number("SELECT count(*) FROM camera")?,
                findings: number("SELECT count(*) FROM finding")?,
                sets: number("SELECT count(*) FROM companion_set")?,
            })
        })
    }
}

fn by_state(db: &Connection, table: &'static str) -> rusqlite::Result<BTreeMap<String, u32>> {
    let sql = format!("SELECT state, count(*) FROM {table} GROUP BY state");
    let mut select = db.prepare_cached(&sql)?;
    let rows = select.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?;
    rows.collect()
}

fn oldest_exposed(db: &Connection) -> rusqlite::Result<Option<DateTime<FixedOffset>>> {
    // With min() SQLite takes the other columns from the row that has the least.
    let sql = "SELECT min(julianday(exposed)), exposed FROM side WHERE state = ?1";
    db.prepare_cached(sql)?
        .query_row([SideState::Exposed.word()], |row| moment(row, "exposed"))
}
