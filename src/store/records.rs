//! What the domain asks of the file while it judges an act, and the names of things.
//!
//! A [`Ledger`] reads through one connection, inside the transaction that will write, and keeps the
//! lives and histories it has read, for the domain asks for the same few again and again. It is made
//! anew for each act.

use std::cell::RefCell;
use std::collections::HashMap;

use rusqlite::{Connection, OptionalExtension, params};
use uuid::Uuid;

use super::Store;
use super::entries::{self, Found, columns};
use super::error::Fault;
use crate::logbook::kit::in_figures;
use crate::logbook::life::{FindingState, State};
use crate::logbook::{Entry, EntryId, Life, Names, Records, Thing, ThingId, ThingKind};
use crate::reference::Reference;

/// The file as the domain sees it.
pub(crate) struct Ledger<'a> {
    db: &'a Connection,
    lives: RefCell<HashMap<ThingId, Option<Life>>>,
    references: RefCell<HashMap<ThingId, Option<String>>>,
    histories: RefCell<HashMap<ThingId, Vec<Entry>>>,
}

impl<'a> Ledger<'a> {
    /// A ledger of the file behind `db`.
    pub(crate) fn new(db: &'a Connection) -> Ledger<'a> {
        Ledger {
            db,
            lives: RefCell::new(HashMap::new()),
            references: RefCell::new(HashMap::new()),
            histories: RefCell::new(HashMap::new()),
        }
    }

    /// The life of a thing as the file has it.
    pub(crate) fn stored_life(&self, thing: ThingId) -> Result<Option<Life>, Fault> {
        if let Some(life) = self.lives.borrow().get(&thing) {
            return Ok(life.clone());
        }
        let life = life(self.db, thing)?;
        self.lives.borrow_mut().insert(thing, life.clone());
        Ok(life)
    }

    /// What a thing is called, as the file has it. Its life is not read for that: most things that
    /// are named are only named.
    pub(crate) fn stored_reference(&self, thing: ThingId) -> Result<Option<String>, Fault> {
        if let Some(life) = self.lives.borrow().get(&thing) {
            return Ok(life.as_ref().map(|life| life.reference.clone()));
        }
        if let Some(reference) = self.references.borrow().get(&thing) {
            return Ok(reference.clone());
        }
        let mut select = self
            .db
            .prepare_cached("SELECT reference FROM life WHERE thing = ?1")?;
        let reference: Option<String> = select
            .query_row([thing.0.as_bytes()], |row| row.get(0))
            .optional()?;
        let mut known = self.references.borrow_mut();
        known.insert(thing, reference.clone());
        Ok(reference)
    }
}

impl Records for Ledger<'_> {
    type Error = Fault;

    fn life(&self, thing: ThingId) -> Result<Option<Life>, Fault> {
        self.stored_life(thing)
    }

    fn history(&self, thing: ThingId) -> Result<Vec<Entry>, Fault> {
        if let Some(history) = self.histories.borrow().get(&thing) {
            return Ok(history.clone());
        }
        let history = history(self.db, thing)?;
        let mut known = self.histories.borrow_mut();
        known.insert(thing, history.clone());
        Ok(history)
    }

    fn entry(&self, id: EntryId) -> Result<Option<Entry>, Fault> {
        entries::by_id(self.db, id)?
            .map(|found| found.row.entry())
            .transpose()
    }

    fn called(&self, kind: ThingKind, reference: &str) -> Result<Option<ThingId>, Fault> {
        Ok(called(self.db, kind, reference)?.map(|thing| thing.id))
    }

    fn next_number(&self, kind: ThingKind) -> Result<u32, Fault> {
        let mut select = self
            .db
            .prepare_cached("SELECT highest FROM counter WHERE kind = ?1")?;
        let highest: Option<u32> = select
            .query_row([kind.name()], |row| row.get(0))
            .optional()?;
        Ok(highest.unwrap_or(0).saturating_add(1))
    }
}

/// The life of a thing as the file has it.
pub(crate) fn life(db: &Connection, thing: ThingId) -> Result<Option<Life>, Fault> {
    let mut select = db.prepare_cached("SELECT body FROM life WHERE thing = ?1")?;
    let body: Option<String> = select
        .query_row([thing.0.as_bytes()], |row| row.get(0))
        .optional()?;
    body.map(|body| {
        serde_json::from_str(&body).map_err(|source| {
            Fault::Damaged(format!("what is known of {thing}: {source}; rebuild it"))
        })
    })
    .transpose()
}

/// The lives of all findings that are kept.
const KEPT: &str = "SELECT life.body FROM finding CROSS JOIN life ON life.thing = finding.id \
     WHERE finding.state = ?1";

/// The lives of those among them that are about films and formats.
const KEPT_OF_FILM: &str = "SELECT life.body FROM finding CROSS JOIN life ON life.thing = finding.id \
     WHERE finding.state = ?1 AND finding.sort IN ('film', 'format')";

/// The lives of findings that one of the questions above asks for.
fn findings(db: &Connection, which: &str) -> Result<Vec<Life>, Fault> {
    let mut select = db.prepare_cached(which)?;
    let mut rows = select.query([FindingState::Kept.word()])?;
    let mut lives = Vec::new();
    while let Some(row) = rows.next()? {
        let body: String = row.get(0)?;
        let life = serde_json::from_str(&body)
            .map_err(|source| Fault::Damaged(format!("a finding: {source}; rebuild it")))?;
        lives.push(life);
    }
    Ok(lives)
}

/// Every entry that touches a thing, and those that say something of such an entry.
pub(crate) fn history(db: &Connection, thing: ThingId) -> Result<Vec<Entry>, Fault> {
    let mut select = db.prepare_cached(concat!(
        "SELECT ",
        columns!(),
        " FROM touch CROSS JOIN entry ON entry.row = touch.entry WHERE touch.thing = ?1"
    ))?;
    let mut rows = select.query([thing.0.as_bytes()])?;
    let mut entries = Vec::new();
    while let Some(row) = rows.next()? {
        entries.push(Found::read(row)?.row.entry()?);
    }
    Ok(entries)
}

/// The thing of a kind that is called so; the oldest, if a merge brought several.
pub(crate) fn called(
    db: &Connection,
    kind: ThingKind,
    reference: &str,
) -> Result<Option<Thing>, Fault> {
    if reference.is_empty() {
        return Ok(None);
    }
    let mut select = db.prepare_cached(
        "SELECT thing FROM life WHERE reference = ?1 AND kind = ?2 ORDER BY thing LIMIT 1",
    )?;
    let id: Option<[u8; 16]> = select
        .query_row(params![reference, kind.name()], |row| row.get(0))
        .optional()?;
    Ok(id.map(|id| Thing::new(kind, ThingId(Uuid::from_bytes(id)))))
}

impl Names for Store {
    fn find(&self, kinds: &[ThingKind], reference: &str) -> Option<Thing> {
        kinds
            .iter()
            .find_map(|kind| called(&self.db, *kind, reference).ok().flatten())
    }

    fn life_of(&self, thing: ThingId) -> Option<Life> {
        life(&self.db, thing).ok().flatten()
    }

    fn findings(&self) -> Vec<Life> {
        findings(&self.db, KEPT).unwrap_or_default()
    }
}

impl Store {
    /// Lays the films and formats the user has found out over those of `reference`, in place of what
    /// was laid over them before. Findings that cannot be read are none, so that a damaged file can be
    /// opened and mended.
    pub fn lay_over(&self, reference: &mut Reference) {
        let lives = findings(&self.db, KEPT_OF_FILM).unwrap_or_default();
        in_figures(lives).lay_over(reference);
    }
}
