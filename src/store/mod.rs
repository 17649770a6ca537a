//! The logbook file: SQLite.
//!
//! One file is one logbook. Its table `entry` is the truth, written once and never changed; all
//! other tables are made from it in the same transaction and can be made again at any time. Read it
//! in this order: `open` (creating, opening, closing), `append` (the one way in), `entries` and
//! `hash` (how an entry is stored), `lives`, `traces` and `words` (what is made from it),
//! [`query`] and [`rows`] (all the reading), `stored` and `take_in` (entries carried from file to
//! file), `rebuild` and `check` (making it again, and comparing), `error` (what can go wrong, and what
//! to do then).
//!
//! What it promises: an entry that was reported as written survives a power cut; a refused act
//! writes nothing; two programs may use one file; a file of a newer version is never written.

use std::path::{Path, PathBuf};

use rusqlite::Connection;

use crate::logbook::MachineId;

mod append;
mod check;
mod drafts;
mod entries;
mod error;
mod hash;
mod judge;
mod lives;
mod migrate;
mod open;
pub mod query;
mod rebuild;
mod records;
pub mod rows;
mod settings;
mod stored;
mod take_in;
mod traces;
mod words;

#[cfg(test)]
mod tests;

pub use append::{NewAct, NewEntry, Receipt, Written, write_down};
pub use check::{Checked, Finding};
pub use drafts::SavedDraft;
pub use error::{AppendError, StoreError};
pub use rebuild::Rebuilt;
pub use stored::{Stored, Whole};
pub use take_in::{Carried, Manner, NotTaken, TakenIn};

use error::Fault;

/// An open logbook.
#[derive(Debug)]
pub struct Store {
    db: Connection,
    path: PathBuf,
    machine: MachineId,
    read_only: bool,
}

impl Store {
    /// Whether it can only be read.
    pub const fn is_read_only(&self) -> bool {
        self.read_only
    }

    /// The file.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// The machine that entries written here are written under.
    pub const fn machine(&self) -> MachineId {
        self.machine
    }

    /// A number that changes when another program writes to the file.
    ///
    /// # Errors
    /// When the file cannot be read.
    pub fn data_version(&self) -> Result<i64, StoreError> {
        self.read(|db| Ok(db.pragma_query_value(None, "data_version", |row| row.get(0))?))
    }

    /// Reads something, and says with which file it went wrong if it does.
    pub(crate) fn read<T>(
        &self,
        ask: impl FnOnce(&Connection) -> Result<T, Fault>,
    ) -> Result<T, StoreError> {
        ask(&self.db).map_err(|fault| fault.at(&self.path))
    }

    /// Fails if nothing can be written.
    fn writable(&self) -> Result<(), StoreError> {
        if self.read_only {
            return Err(StoreError::ReadOnly {
                path: self.path.clone(),
            });
        }
        Ok(())
    }
}
