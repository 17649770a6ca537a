//! The one way in: an act is judged, written, read back and committed, or nothing is written.
//!
//! Everything happens in one transaction that takes its turn among writers at its beginning, so the
//! domain judges what it will really be written on. An act whose first entry is in the logbook
//! already is not written twice: after a failure nobody knows the outcome of, it may simply be
//! offered again.

use chrono::{DateTime, FixedOffset};
use rusqlite::{Connection, TransactionBehavior};

use super::entries::{self, Row, settle_time};
use super::error::{AppendError, Fault};
use super::hash::{EntryHash, hash};
use super::records::Ledger;
use super::{Store, lives, traces, words};
use crate::logbook::draft::Drafted;
use crate::logbook::{ActId, Deed, Entry, EntryId, Kind, MachineId, Stop, Thing, Verdict, propose};
use crate::reference::Reference;
use crate::world::World;

/// An entry to be written.
#[derive(Clone, Debug, PartialEq)]
pub struct NewEntry {
    /// Its id, made before it is written.
    pub id: EntryId,
    /// When it happened.
    pub happened: DateTime<FixedOffset>,
    /// What happened.
    pub deed: Deed,
    /// Why the usual order does not hold here.
    pub over: Option<String>,
    /// Whatever else is worth remembering.
    pub note: Option<String>,
}

/// An act of the user: entries that are written together or not at all.
#[derive(Clone, Debug, PartialEq)]
pub struct NewAct {
    /// Its id.
    pub id: ActId,
    /// When it is written down.
    pub written: DateTime<FixedOffset>,
    /// Its entries, in order.
    pub entries: Vec<NewEntry>,
}

/// What was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Receipt {
    /// The act.
    pub act: ActId,
    /// Its entries, in order.
    pub entries: Vec<Written>,
}

/// One entry that was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written {
    /// The number people use: `#57`.
    pub row: i64,
    /// Its id.
    pub id: EntryId,
    /// What kind of thing happened.
    pub kind: Kind,
    /// What came into being, and what it is called.
    pub created: Option<(Thing, String)>,
}

/// Writes down what drafts said, as one act.
///
/// # Errors
/// As [`Store::append`].
pub fn write_down(
    store: &mut Store,
    world: &mut dyn World,
    reference: &Reference,
    drafted: Vec<Drafted>,
) -> Result<Receipt, AppendError> {
    let act = NewAct::now(world, drafted);
    store.append(act, reference)
}

impl NewAct {
    /// What drafts said, as one act that is written now.
    pub fn now(world: &mut dyn World, drafted: Vec<Drafted>) -> NewAct {
        NewAct {
            id: ActId(world.fresh_id()),
            written: world.now(),
            entries: drafted
                .into_iter()
                .map(|drafted| NewEntry {
                    id: EntryId(world.fresh_id()),
                    happened: drafted.happened,
                    deed: drafted.deed,
                    over: drafted.over,
                    note: drafted.note,
                })
                .collect(),
        }
    }
}

impl Store {
    /// Writes an act, if the logbook takes it. When this returns, it survives a power cut.
    ///
    /// # Errors
    /// [`AppendError::Refused`] when the logbook says no, [`AppendError::Store`] when the file
    /// cannot be written. In both cases nothing was written, but for one: after a failure of the
    /// disk in the very last step the act may be there; offering it again is safe.
    pub fn append(&mut self, act: NewAct, reference: &Reference) -> Result<Receipt, AppendError> {
        self.writable()?;
        let machine = self.machine;
        let path = &self.path;
        let at = |fault: Fault| AppendError::Store(fault.at(path));
        let change = self
            .db
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(|source| at(source.into()))?;
        if let Some(receipt) = already_there(&change, &act).map_err(at)? {
            return Ok(receipt);
        }
        let act_id = act.id;
        let entries = numbered(&change, act, machine).map_err(at)?;
        let ledger = Ledger::new(&change);
        let verdict = propose(&ledger, entries, reference).map_err(|stop| match stop {
            Stop::Refused(refusal) => AppendError::Refused(refusal),
            Stop::Records(fault) => at(fault),
        })?;
        let entries = write(&change, &ledger, &verdict, reference).map_err(at)?;
        change.commit().map_err(|source| at(source.into()))?;
        Ok(Receipt {
            act: act_id,
            entries,
        })
    }
}

/// The entries of an act with their numbers on this machine.
pub(super) fn numbered(
    db: &Connection,
    act: NewAct,
    machine: MachineId,
) -> Result<Vec<Entry>, Fault> {
    let mut select =
        db.prepare_cached("SELECT coalesce(max(seq), 0) FROM entry WHERE machine = ?1")?;
    let last: i64 = select.query_row([machine.0.as_bytes()], |row| row.get(0))?;
    let written = settle_time(act.written);
    let entries = act.entries.into_iter().zip(last.unsigned_abs() + 1..);
    Ok(entries
        .map(|(entry, seq)| Entry {
            id: entry.id,
            act: act.id,
            machine,
            seq,
            happened: settle_time(entry.happened),
            written,
            deed: entry.deed,
            over: entry.over,
            note: entry.note,
        })
        .collect())
}

/// The receipt of an act that was written before. Only the ids are compared: what the domain filled
/// in makes the rest differ.
fn already_there(db: &Connection, act: &NewAct) -> Result<Option<Receipt>, Fault> {
    let mut written = Vec::new();
    for entry in &act.entries {
        match entries::by_id(db, entry.id)? {
            Some(found) if found.row.act == *act.id.0.as_bytes() => {
                written.push(receipt_of(found.number, &found.row.entry()?));
            }
            Some(found) => return Err(Fault::IdTaken(found.row.uuid())),
            None if written.is_empty() => return Ok(None),
            None => return Err(Fault::IdTaken(entry.id.0)),
        }
    }
    Ok((!written.is_empty()).then_some(Receipt {
        act: act.id,
        entries: written,
    }))
}

fn receipt_of(row: i64, entry: &Entry) -> Written {
    Written {
        row,
        id: entry.id,
        kind: entry.kind(),
        created: entry
            .deed
            .creates()
            .map(|(thing, reference)| (thing, reference.to_owned())),
    }
}

/// Writes what the domain has taken: entries first, then everything that is made from them.
pub(super) fn write(
    db: &Connection,
    ledger: &Ledger<'_>,
    verdict: &Verdict,
    reference: &Reference,
) -> Result<Vec<Written>, Fault> {
    let mut written = Vec::with_capacity(verdict.entries.len());
    for entry in &verdict.entries {
        let row = Row::of(entry)?;
        let number = row.insert(db)?;
        read_back(db, entry.id, hash(&row))?;
        traces::write_touches(db, number, entry)?;
        traces::write_count(db, entry)?;
        written.push(receipt_of(number, entry));
    }
    for (entry, written) in verdict.entries.iter().zip(&written) {
        // An entry of this act that is struck or amended by a later one of it is among the
        // resettled.
        if !verdict
            .resettled
            .iter()
            .any(|settled| settled.entry.id == entry.id)
        {
            traces::write_effects(db, written.row, entry.id, &entry.deed, entry.happened)?;
        }
    }
    for settled in &verdict.resettled {
        traces::rewrite_effects(db, settled)?;
    }
    for life in &verdict.lives {
        let before = ledger.stored_life(life.thing.id)?;
        lives::write(db, before.as_ref(), life)?;
    }
    words::write(db, ledger, verdict, &written, reference)?;
    Ok(written)
}

/// Makes sure that an entry can be read back as it was written, before it is committed.
pub(super) fn read_back(db: &Connection, id: EntryId, wanted: EntryHash) -> Result<(), Fault> {
    match entries::by_id(db, id)? {
        Some(found) if found.is_intact() && found.hash == wanted => Ok(()),
        _ => Err(Fault::NotReadBack),
    }
}
