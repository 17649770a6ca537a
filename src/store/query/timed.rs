//! What stands on the bench: runs under way, prints on their way, and whatever has a step that is being
//! counted.

use rusqlite::Row;

use super::cells::id;
use crate::logbook::counting::steps_of;
use crate::logbook::life::{PrintState, State};
use crate::logbook::{Life, Names, ThingId};
use crate::store::{Store, StoreError};

impl Store {
    /// The lives of everything that stands on the bench: first what is being counted, what began first
    /// before what began later; then what waits, the newest first.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn on_the_bench(&self) -> Result<Vec<Life>, StoreError> {
        let things: Vec<ThingId> = self.read(|db| {
            let mut runs = db.prepare_cached(
                "SELECT id FROM run WHERE ended IS NULL
                 UNION SELECT id FROM run WHERE timing IS NOT NULL ORDER BY id DESC",
            )?;
            let mut prints = db.prepare_cached(
                "SELECT id FROM print WHERE state = ?1
                 UNION SELECT id FROM print WHERE timing IS NOT NULL ORDER BY id DESC",
            )?;
            let thing = |row: &Row<'_>| id(row, "id");
            let runs = runs.query_map([], thing)?.collect::<Vec<_>>();
            let prints = prints.query_map([PrintState::InProcess.word()], thing)?;
            let all = runs.into_iter().chain(prints);
            Ok(all.collect::<rusqlite::Result<Vec<ThingId>>>()?)
        })?;
        let lives = things.into_iter().filter_map(|thing| self.life_of(thing));
        let mut lives: Vec<Life> = lives.collect();
        let begun = |life: &Life| {
            let steps = steps_of(life)?;
            steps.current().map(|step| step.begun)
        };
        lives.sort_by_key(|life| (begun(life).is_none(), begun(life)));
        Ok(lives)
    }
}
