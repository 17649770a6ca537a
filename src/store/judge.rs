//! Questions to the logbook that write nothing: would an act be taken, and what does an entry say
//! by now.

use super::append::{NewAct, numbered};
use super::error::{AppendError, Fault};
use super::records::{Ledger, history};
use super::{Store, StoreError, entries};
use crate::logbook::{EntryId, Settled, Stop, Verdict, propose, settle};
use crate::reference::Reference;

impl Store {
    /// Judges an act as [`Store::append`] would, and writes nothing. The references of what would
    /// come into being are those it would get now.
    ///
    /// # Errors
    /// [`AppendError::Refused`] when the logbook says no, [`AppendError::Store`] when the file
    /// cannot be read.
    pub fn judge(&self, act: NewAct, reference: &Reference) -> Result<Verdict, AppendError> {
        let at = |fault: Fault| AppendError::Store(fault.at(self.path()));
        // One view of the file, whoever writes meanwhile.
        let view = self.db.unchecked_transaction();
        let view = view.map_err(|source| at(source.into()))?;
        let entries = numbered(&view, act, self.machine()).map_err(at)?;
        propose(&Ledger::new(&view), entries, reference).map_err(|stop| match stop {
            Stop::Refused(refusal) => AppendError::Refused(refusal),
            Stop::Records(fault) => at(fault),
        })
    }

    /// An entry with what later entries say of it: whether it is struck, and with which figures it
    /// counts.
    ///
    /// # Errors
    /// When the file cannot be read.
    pub fn as_it_counts(&self, id: EntryId) -> Result<Option<Settled>, StoreError> {
        self.read(|db| {
            let Some(found) = entries::by_id(db, id)? else {
                return Ok(None);
            };
            // Whatever is said about an entry touches all that it touches.
            let all = match found.row.entry()?.deed.touches().first() {
                Some(thing) => history(db, thing.id)?,
                None => Vec::new(),
            };
            Ok(settle(all).into_iter().find(|one| one.entry.id == id))
        })
    }
}
