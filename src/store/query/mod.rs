//! All the reading: lists, the rack, timelines, the trace both ways, search, and what the panes ask.
//!
//! For: every screen and every command that shows something. Each public query is a method of
//! [`Store`] in the file named after what it reads, and hands out the plain rows of
//! [`rows`](super::rows).
//!
//! Promises: lists come newest first and by pages that are found by key, so the hundredth page costs
//! what the first does; a query that takes several statements sees one state of the logbook, even
//! when another program is writing; no text that a user types is ever read as SQL or as a search
//! expression.
//!
//! Leaves to others: what an entry means (the domain tells it), and how text is made safe to show.

use rusqlite::Connection;

use super::error::Fault;
use super::{Store, StoreError};

mod cells;
mod counts;
mod entry;
mod found;
mod listed;
mod names;
mod prints;
mod rack;
mod search;
mod sheets;
mod shelf;
mod strips;
mod timed;
mod timeline;
mod trace;
mod waiting;
mod words;

#[cfg(test)]
mod plan;

impl Store {
    /// Asks the file several things of one and the same state.
    fn ask_at_once<T>(
        &self,
        question: impl FnOnce(&Connection) -> Result<T, Fault>,
    ) -> Result<T, StoreError> {
        self.read(|db| {
            let moment = db.unchecked_transaction()?;
            let answer = question(&moment)?;
            moment.finish()?;
            Ok(answer)
        })
    }
}
