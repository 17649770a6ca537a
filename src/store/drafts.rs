//! What was typed and not yet logged, kept so that nothing typed is lost.
//!
//! A draft is not part of the log: it may be changed and dropped. It is kept with every letter, and
//! a slow disk must not be felt in the fingers, so keeping one does not wait for the disk: it
//! survives whatever happens to the program, and a power cut takes the last seconds of it at most.
//! Entries wait as ever.

use std::time::Duration;

use chrono::{DateTime, FixedOffset};
use rusqlite::{Connection, params};

use super::error::Fault;
use super::settings::{PATIENCE, Wait, commits_wait};
use super::{Store, StoreError};
use crate::logbook::{Draft, Kind};

/// A draft that is kept.
#[derive(Clone, Debug, PartialEq)]
pub struct SavedDraft {
    /// What it is kept under.
    pub name: String,
    /// The reference of the thing at hand, if there was one.
    pub about: Option<String>,
    /// What was typed.
    pub draft: Draft,
    /// When it was last changed.
    pub changed: DateTime<FixedOffset>,
}

/// How long something waits for another writer that a hand must not feel: no longer than a hand notices between two
/// letters.
const LETTER: Duration = Duration::from_millis(50);

impl Store {
    /// Keeps a draft, in the place of the one with the same name. It is asked for with every letter
    /// that is typed, so it does not wait for another program that is writing.
    ///
    /// # Errors
    /// When the file cannot be written; [`StoreError::Locked`] when another program is writing: ask
    /// again a little later.
    pub fn save_draft(&mut self, saved: &SavedDraft) -> Result<(), StoreError> {
        self.writable()?;
        self.at_once(|store| store.put_draft(saved))?
    }

    /// Does something that a hand must not feel: it does not wait for another program that is writing
    /// and fails with [`StoreError::Locked`] then.
    ///
    /// # Errors
    /// When the file cannot be read.
    pub fn at_once<T>(&mut self, work: impl FnOnce(&mut Store) -> T) -> Result<T, StoreError> {
        self.read(|db| Ok(db.busy_timeout(LETTER)?))?;
        let done = work(self);
        self.read(|db| Ok(db.busy_timeout(PATIENCE)?))?;
        Ok(done)
    }

    fn put_draft(&mut self, saved: &SavedDraft) -> Result<(), StoreError> {
        self.without_the_disk(|db| {
            let typed = serde_json::to_string(&saved.draft.typed)
                .map_err(|source| Fault::Damaged(source.to_string()))?;
            db.prepare_cached(
                "INSERT INTO draft (name, kind, about, typed, changed) VALUES (?1, ?2, ?3, ?4, ?5) \
                 ON CONFLICT (name) DO UPDATE SET kind = excluded.kind, about = excluded.about, \
                 typed = excluded.typed, changed = excluded.changed",
            )?
            .execute(params![
                saved.name,
                saved.draft.kind.name(),
                saved.about,
                typed,
                saved.changed.to_rfc3339(),
            ])?;
            Ok(())
        })
    }

    /// The drafts that are kept, the last changed first. One that this version cannot read is left
    /// out, and left where it is.
    ///
    /// # Errors
    /// When the file cannot be read.
    pub fn drafts(&self) -> Result<Vec<SavedDraft>, StoreError> {
        let mut drafts = self.read(|db| {
            let mut select =
                db.prepare_cached("SELECT name, kind, about, typed, changed FROM draft")?;
            let mut rows = select.query([])?;
            let mut drafts = Vec::new();
            while let Some(row) = rows.next()? {
                let kind: String = row.get(1)?;
                let typed: String = row.get(3)?;
                let changed: String = row.get(4)?;
                if let (Some(kind), Ok(typed), Ok(changed)) = (
                    Kind::named(&kind),
                    serde_json::from_str(&typed),
                    DateTime::parse_from_rfc3339(&changed),
                ) {
                    let mut draft = Draft::new(kind);
                    draft.typed = typed;
                    drafts.push(SavedDraft {
                        name: row.get(0)?,
                        about: row.get(2)?,
                        draft,
                        changed,
                    });
                }
            }
            Ok(drafts)
        })?;
        drafts.sort_by_key(|draft| std::cmp::Reverse(draft.changed));
        Ok(drafts)
    }

    /// Drops a draft. It is no error if there is none.
    ///
    /// # Errors
    /// When the file cannot be written.
    pub fn drop_draft(&mut self, name: &str) -> Result<(), StoreError> {
        self.without_the_disk(|db| {
            db.prepare_cached("DELETE FROM draft WHERE name = ?1")?
                .execute([name])?;
            Ok(())
        })
    }

    /// Writes something that a power cut may take.
    fn without_the_disk(
        &mut self,
        write: impl FnOnce(&Connection) -> Result<(), Fault>,
    ) -> Result<(), StoreError> {
        self.writable()?;
        let written = self.read(|db| {
            commits_wait(db, Wait::Order)?;
            write(db)
        });
        let waits_again = self.read(|db| Ok(commits_wait(db, Wait::Disk)?));
        if waits_again.is_err() {
            // Nothing else may be written that would not be safe when it says so.
            self.read_only = true;
        }
        written.and(waits_again)
    }
}
