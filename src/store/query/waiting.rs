//! What planning asks of the logbook: the sheets that wait for development, and the baths that stand on
//! the shelf.

use crate::logbook::life::SheetState;
use crate::logbook::planning::{Bath, Sheet};
use crate::logbook::{Names, ThingId};
use crate::reference::Reference;
use crate::store::rows::SheetQuery;
use crate::store::{Store, StoreError};

/// Sheets that are asked for at once.
const AT_ONCE: usize = 500;

impl Store {
    /// The sheets that wait for development, the one that came first of all first.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn waiting(&self, reference: &Reference) -> Result<Vec<Sheet>, StoreError> {
        let mut ids: Vec<ThingId> = Vec::new();
        for state in [SheetState::Exposed, SheetState::Held] {
            let mut before = None;
            loop {
                let page = self.sheets(&SheetQuery {
                    state: Some(state),
                    before,
                    limit: AT_ONCE,
                    ..SheetQuery::default()
                })?;
                before = page.last().map(|row| row.thing);
                let whole = page.len() == AT_ONCE;
                ids.extend(page.into_iter().map(|row| row.thing));
                if !whole {
                    break;
                }
            }
        }
        ids.sort_unstable();
        let lives = ids.into_iter().filter_map(|id| self.life_of(id));
        Ok(lives
            .filter_map(|life| Sheet::of(&life, self, reference))
            .collect())
    }

    /// The baths that something can still go through, newest first.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn shelf(&self) -> Result<Vec<Bath>, StoreError> {
        let rows = self.baths_in_use()?.into_iter();
        let lives = rows.filter_map(|row| self.life_of(row.thing));
        Ok(lives.filter_map(|life| Bath::of(&life)).collect())
    }
}
