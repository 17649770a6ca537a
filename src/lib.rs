//! notchbook: a logbook for sheet film and the prints made from it.
//!
//! The house has floors, and a floor uses only the floors above it in this list:
//!
//! - [`craft`]: figures of the trade, pure functions and typed quantities.
//! - [`mod@reference`]: what the trade has published, read from `assets/` and the user's own additions.
//! - [`figures`]: the figures a person can ask for by name, each with its questions.
//! - [`logbook`]: the domain: entries, the life of each thing, the order of states, the refusals.
//! - [`store`]: SQLite: append, fold, query, trace, search, rebuild.
//!
//! On all five stand, beside each other, [`export`] (text that leaves the program), [`cli`] (the
//! command line) and [`tui`] (the front end). The last two may call `export`, never each other.
//! [`demo`], an invented year to look around in, stands on `logbook` and `store`; `cli` opens it.
//! The clock and new ids come in from the edges, as a [`world::World`].

// The logbook in memory that the tests of the domain share is written as if from outside.
#[cfg(test)]
extern crate self as notchbook;

pub mod cli;
pub mod craft;
pub mod demo;
pub mod export;
pub mod figures;
pub mod logbook;
pub mod reference;
pub mod store;
pub mod tui;
mod words;
pub mod world;
