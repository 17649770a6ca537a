//! The logbook's names for the length of one query.
//!
//! A timeline asks for the same few references again and again; each life is read once. The trait
//! served here cannot fail, so a failure is kept and comes out at the end, instead of a list in
//! which things silently have no names.

use std::cell::Cell;

use rusqlite::Connection;

use crate::logbook::{Life, Names, Records, Thing, ThingId, ThingKind};
use crate::store::error::Fault;
use crate::store::records::Ledger;

/// The names in a logbook, each read once.
pub(super) struct Cached<'a> {
    ledger: Ledger<'a>,
    failure: Cell<Option<Fault>>,
}

impl<'a> Cached<'a> {
    pub(super) fn new(db: &'a Connection) -> Cached<'a> {
        Cached {
            ledger: Ledger::new(db),
            failure: Cell::new(None),
        }
    }

    /// Ends the query: what it found, or what went wrong in looking up names.
    pub(super) fn finish<T>(self, found: T) -> Result<T, Fault> {
        match self.failure.into_inner() {
            Some(fault) => Err(fault),
            None => Ok(found),
        }
    }

    fn keep<T>(&self, looked_up: Result<Option<T>, Fault>) -> Option<T> {
        looked_up.unwrap_or_else(|fault| {
            self.failure.set(Some(fault));
            None
        })
    }
}

impl Names for Cached<'_> {
    fn find(&self, kinds: &[ThingKind], reference: &str) -> Option<Thing> {
        kinds.iter().find_map(|kind| {
            self.keep(self.ledger.called(*kind, reference))
                .map(|id| Thing::new(*kind, id))
        })
    }

    fn life_of(&self, thing: ThingId) -> Option<Life> {
        self.keep(self.ledger.stored_life(thing))
    }

    fn reference_of(&self, thing: ThingId) -> String {
        self.keep(self.ledger.stored_reference(thing))
            .filter(|reference| !reference.is_empty())
            .unwrap_or_else(|| "something not in this logbook".to_owned())
    }
}
