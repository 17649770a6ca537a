//! Single entries: by their number, the last similar one, and the last act, which undo strikes.

use std::collections::HashMap;

use rusqlite::{Connection, OptionalExtension, ToSql};

use super::names::Cached;
use crate::logbook::telling::tell;
use crate::logbook::{Deed, Entry, EntryId, Kind, Settled, ThingId, settle};
use crate::reference::Reference;
use crate::store::entries::{Found, columns};
use crate::store::error::Fault;
use crate::store::rows::{ActEntry, ActSummary};
use crate::store::{Store, StoreError};

impl Store {
    /// The entry with this number.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn entry_by_row(&self, row: i64) -> Result<Option<Entry>, StoreError> {
        self.read(|db| by_row(db, row))
    }

    /// The number people use for an entry.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn row_of(&self, entry: EntryId) -> Result<Option<i64>, StoreError> {
        self.read(|db| {
            let mut select = db.prepare_cached("SELECT row FROM entry WHERE id = ?1")?;
            let row = select.query_row([entry.0.as_bytes()], |row| row.get(0));
            Ok(row.optional()?)
        })
    }

    /// The figures of the newest entry of a kind that still counts, for prefilling the next one.
    /// An entry about the thing at hand is preferred, but for exposures, where the last one made is
    /// the best guess whichever side it was in.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn last_similar(
        &self,
        kind: Kind,
        about: Option<ThingId>,
    ) -> Result<Option<Deed>, StoreError> {
        self.ask_at_once(|db| {
            if let Some(thing) = about
                && kind != Kind::Exposed
            {
                let sql = concat!(
                    "SELECT ",
                    columns!(),
                    " FROM touch CROSS JOIN entry ON entry.row = touch.entry
                      WHERE touch.thing = ?1 AND entry.kind = ?2 ORDER BY touch.entry DESC"
                );
                let similar = newest(db, sql, &[&thing.0.as_bytes(), &kind.name()], |deed| {
                    deed.is_about(thing)
                })?;
                if similar.is_some() {
                    return Ok(similar);
                }
            }
            let sql = concat!(
                "SELECT ",
                columns!(),
                " FROM entry WHERE kind = ?1 ORDER BY row DESC"
            );
            newest(db, sql, &[&kind.name()], |_| true)
        })
    }

    /// The figures of the newest step of this name that still counts, on any print of the process;
    /// of another process, if this one has none yet.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn last_step(&self, process: &str, step: &str) -> Result<Option<Deed>, StoreError> {
        self.ask_at_once(|db| {
            // Each walks back from the newest step and ends at the first it finds.
            let mut same = db.prepare_cached(
                "SELECT print_step.entry FROM print_step
                 CROSS JOIN print ON print.id = print_step.print
                 WHERE print_step.step = ?2 AND print.process = ?1
                 ORDER BY print_step.entry DESC LIMIT 1",
            )?;
            let mut any = db.prepare_cached(
                "SELECT entry FROM print_step WHERE step = ?1 ORDER BY entry DESC LIMIT 1",
            )?;
            let row: Option<i64> = match same
                .query_row([process, step], |row| row.get(0))
                .optional()?
            {
                Some(row) => Some(row),
                None => any.query_row([step], |row| row.get(0)).optional()?,
            };
            let Some(row) = row else {
                return Ok(None);
            };
            let Some(entry) = by_row(db, row)? else {
                return Ok(None);
            };
            Ok(Some(settled(db, row, entry)?.0.deed))
        })
    }

    /// The newest act written on this machine that has entries to be struck, which is what undo
    /// strikes. Acts that only struck something, and acts that are struck themselves, are passed
    /// over.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn last_act(&self, reference: &Reference) -> Result<Option<ActSummary>, StoreError> {
        let machine = self.machine();
        self.ask_at_once(|db| {
            let names = Cached::new(db);
            let mut select = db.prepare_cached(concat!(
                "SELECT ",
                columns!(),
                " FROM entry WHERE machine = ?1 ORDER BY seq DESC"
            ))?;
            let mut rows = select.query([machine.0.as_bytes()])?;
            let mut summary: Option<ActSummary> = None;
            while let Some(row) = rows.next()? {
                let found = Found::read(row)?;
                let number = found.number;
                let entry = found.row.entry()?;
                if summary.as_ref().is_some_and(|act| act.act != entry.act) {
                    break;
                }
                if matches!(entry.deed, Deed::Struck(_)) {
                    continue;
                }
                let (settled, _) = settled(db, number, entry)?;
                if settled.struck.is_some() {
                    continue;
                }
                let entry = ActEntry {
                    row: number,
                    entry: settled.entry.id,
                    kind: settled.deed.kind(),
                    headline: tell(&settled.deed, &names, reference).headline,
                };
                match &mut summary {
                    Some(act) => act.entries.insert(0, entry),
                    None => {
                        summary = Some(ActSummary {
                            act: settled.entry.act,
                            written: settled.entry.written,
                            entries: vec![entry],
                        });
                    }
                }
            }
            names.finish(summary)
        })
    }
}

/// The number people use for each entry.
pub(super) type Numbers = HashMap<EntryId, i64>;

/// The entry with this number.
pub(super) fn by_row(db: &Connection, row: i64) -> Result<Option<Entry>, Fault> {
    let mut select = db.prepare_cached(concat!(
        "SELECT ",
        columns!(),
        " FROM entry WHERE entry.row = ?1"
    ))?;
    let mut rows = select.query([row])?;
    match rows.next()? {
        Some(row) => Ok(Some(Found::read(row)?.row.entry()?)),
        None => Ok(None),
    }
}

/// Every entry that touches a thing, with the numbers people use for them.
pub(super) fn numbered_history(
    db: &Connection,
    thing: ThingId,
) -> Result<(Vec<Entry>, Numbers), Fault> {
    let mut select = db.prepare_cached(concat!(
        "SELECT ",
        columns!(),
        " FROM touch CROSS JOIN entry ON entry.row = touch.entry WHERE touch.thing = ?1"
    ))?;
    numbered(select.query([thing.0.as_bytes()])?)
}

/// The entries that touch a thing and were written last, with the numbers people use for them; and
/// whether there are more than these.
pub(super) fn newest_history(
    db: &Connection,
    thing: ThingId,
    limit: usize,
) -> Result<(Vec<Entry>, Numbers, bool), Fault> {
    let mut select = db.prepare_cached(concat!(
        "SELECT ",
        columns!(),
        " FROM touch CROSS JOIN entry ON entry.row = touch.entry
          WHERE touch.thing = ?1 ORDER BY touch.entry DESC LIMIT ?2"
    ))?;
    let one_more = i64::try_from(limit).map_or(i64::MAX, |limit| limit.saturating_add(1));
    let (mut entries, mut rows) = numbered(select.query((thing.0.as_bytes(), one_more))?)?;
    let more = entries.len() > limit;
    if more && let Some(oldest) = entries.pop() {
        rows.remove(&oldest.id);
    }
    Ok((entries, rows, more))
}

/// The entries of these kinds that touch a thing, with all strikes and amendments that do.
pub(super) fn history_of(
    db: &Connection,
    thing: ThingId,
    kinds: &[Kind],
) -> Result<Vec<Entry>, Fault> {
    let names: Vec<&str> = kinds.iter().map(|kind| kind.name()).collect();
    let mut select = db.prepare_cached(concat!(
        "SELECT ",
        columns!(),
        " FROM touch CROSS JOIN entry ON entry.row = touch.entry WHERE touch.thing = ?1
          AND (entry.kind IN (SELECT value FROM json_each(?2))
               OR entry.strikes IS NOT NULL OR entry.amends IS NOT NULL)"
    ))?;
    let names = serde_json::Value::from(names).to_string();
    Ok(numbered(select.query((thing.0.as_bytes(), names))?)?.0)
}

/// The entry of a kind that touches a thing, the first that was written, with what is said of it. For
/// what comes into being once and is touched by thousands of entries afterwards.
pub(super) fn first_of(
    db: &Connection,
    thing: ThingId,
    kind: Kind,
) -> Result<Option<Settled>, Fault> {
    let mut select = db.prepare_cached(concat!(
        "SELECT ",
        columns!(),
        " FROM touch CROSS JOIN entry ON entry.row = touch.entry
          WHERE touch.thing = ?1 AND entry.kind = ?2 ORDER BY touch.entry LIMIT 1"
    ))?;
    let mut rows = select.query((thing.0.as_bytes(), kind.name()))?;
    let Some(row) = rows.next()? else {
        return Ok(None);
    };
    let found = Found::read(row)?;
    let (settled, _) = settled(db, found.number, found.row.entry()?)?;
    Ok(Some(settled))
}

fn numbered(mut rows: rusqlite::Rows<'_>) -> Result<(Vec<Entry>, Numbers), Fault> {
    let mut entries = Vec::new();
    let mut numbers = HashMap::new();
    while let Some(row) = rows.next()? {
        let found = Found::read(row)?;
        let entry = found.row.entry()?;
        numbers.insert(entry.id, found.number);
        entries.push(entry);
    }
    Ok((entries, numbers))
}

/// An entry with what later entries say of it, found without the history of anything it touches;
/// and the numbers of all these entries.
pub(super) fn settled(
    db: &Connection,
    row: i64,
    entry: Entry,
) -> Result<(Settled, Numbers), Fault> {
    let mut select = db.prepare_cached(concat!(
        "WITH RECURSIVE later (row, id) AS (
             SELECT NULL, ?1
             UNION SELECT entry.row, entry.id FROM later CROSS JOIN entry ON entry.strikes = later.id
             UNION SELECT entry.row, entry.id FROM later CROSS JOIN entry ON entry.amends = later.id
         ) SELECT ",
        columns!(),
        " FROM later CROSS JOIN entry ON entry.row = later.row WHERE later.row IS NOT NULL"
    ))?;
    let id = entry.id;
    let (mut entries, mut rows) = numbered(select.query([id.0.as_bytes()])?)?;
    rows.insert(id, row);
    entries.push(entry);
    match settle(entries).into_iter().find(|one| one.entry.id == id) {
        Some(settled) => Ok((settled, rows)),
        None => Err(Fault::Damaged(format!("entry {id}"))),
    }
}

/// The first deed of a query, newest first, that still counts and is of use.
fn newest(
    db: &Connection,
    sql: &str,
    values: &[&dyn ToSql],
    is_of_use: impl Fn(&Deed) -> bool,
) -> Result<Option<Deed>, Fault> {
    let mut select = db.prepare_cached(sql)?;
    let mut rows = select.query(values)?;
    while let Some(row) = rows.next()? {
        let found = Found::read(row)?;
        let (settled, _) = settled(db, found.number, found.row.entry()?)?;
        if settled.counts() && is_of_use(&settled.deed) {
            return Ok(Some(settled.deed));
        }
    }
    Ok(None)
}
