//! Taking in entries that were written elsewhere, or earlier, as they are.
//!
//! For: imports, and everything that carries entries from one logbook file to another. Each act goes
//! the one way in: the domain judges it as it judges what is typed, and what it would make of the
//! act must be to the byte what was carried, or it is not taken. Entries keep their ids, acts,
//! machines, numbers and times.
//!
//! Promises: an entry that is there already is passed over; one that is there with other content is
//! never overwritten, and listed; either everything fits and is written in one transaction, or
//! nothing is, unless it was asked to keep what fits. Everything that was not taken is listed with
//! the line it stood on and the reason.

use rusqlite::{Connection, OptionalExtension, TransactionBehavior, params};

use super::append::write;
use super::entries::{self, Row};
use super::error::Fault;
use super::hash::hash;
use super::records::Ledger;
use super::stored::Stored;
use super::{Store, StoreError, settings};
use crate::logbook::{Entry, Stop, propose};
use crate::reference::Reference;

/// What is kept of what is taken in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Manner {
    /// Everything, or nothing if not everything fits.
    AllOrNothing,
    /// What fits is kept, act by act, and the rest is listed.
    KeepWhatFits,
    /// Nothing: it is only said what would be kept of what fits.
    OnlyJudge,
}

/// An entry with the line of the file it was read from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Carried {
    /// The number of the line, from 1.
    pub line: u64,
    /// The entry.
    pub stored: Stored,
}

/// A line that was not taken in, and why.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotTaken {
    /// The number of the line, from 1.
    pub line: u64,
    /// Why, in a sentence.
    pub why: String,
}

/// What was taken in.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct TakenIn {
    /// How many entries were written, or would be; none, if all or nothing was asked for and
    /// something did not fit.
    pub taken: u64,
    /// How many were there already.
    pub known: u64,
    /// What was not taken.
    pub not_taken: Vec<NotTaken>,
}

impl Store {
    /// Takes in acts in the order they come. What could not even be read as an act comes as
    /// [`NotTaken`] and counts as not fitting.
    ///
    /// # Errors
    /// When the file cannot be written. Nothing was written then.
    pub fn take_in(
        &mut self,
        acts: impl IntoIterator<Item = Result<Vec<Carried>, NotTaken>>,
        manner: Manner,
        reference: &Reference,
    ) -> Result<TakenIn, StoreError> {
        self.writable()?;
        self.read(|db| Ok(settings::room_for_pages(db, settings::WHOLE)?))?;
        let taken_in = self.take_in_at_once(acts, manner, reference);
        self.read(|db| Ok(settings::room_for_pages(db, settings::SESSION)?))?;
        taken_in
    }

    fn take_in_at_once(
        &mut self,
        acts: impl IntoIterator<Item = Result<Vec<Carried>, NotTaken>>,
        manner: Manner,
        reference: &Reference,
    ) -> Result<TakenIn, StoreError> {
        let path = &self.path;
        let take_all = || -> Result<TakenIn, Fault> {
            let change = self
                .db
                .transaction_with_behavior(TransactionBehavior::Immediate)?;
            let mut outcome = TakenIn::default();
            for act in acts {
                match act {
                    Err(not_taken) => outcome.not_taken.push(not_taken),
                    Ok(act) => take_act(&change, act, reference, &mut outcome)?,
                }
            }
            match manner {
                Manner::AllOrNothing if !outcome.not_taken.is_empty() => {
                    outcome.taken = 0;
                    change.rollback()?;
                }
                Manner::OnlyJudge => change.rollback()?,
                Manner::AllOrNothing | Manner::KeepWhatFits => change.commit()?,
            }
            Ok(outcome)
        };
        take_all().map_err(|fault| fault.at(path))
    }
}

/// Takes in one act. Nothing is written before all of it is known to fit.
fn take_act(
    db: &Connection,
    act: Vec<Carried>,
    reference: &Reference,
    outcome: &mut TakenIn,
) -> Result<(), Fault> {
    let mut lines = Vec::new();
    let mut entries = Vec::new();
    let mut hashes = Vec::new();
    let mut faulty: Option<NotTaken> = None;
    for carried in act {
        let line = carried.line;
        match look_at(db, &carried.stored)? {
            Looked::Known => {
                outcome.known += 1;
                continue;
            }
            Looked::Fits(entry) => entries.push(*entry),
            Looked::Not(why) => {
                faulty.get_or_insert(NotTaken { line, why });
            }
        }
        lines.push(line);
        hashes.push(carried.stored.hash);
    }
    if lines.is_empty() {
        return Ok(());
    }
    if let Some(faulty) = faulty {
        refuse(outcome, &lines, faulty);
        return Ok(());
    }
    let ledger = Ledger::new(db);
    let first = lines.first().copied().unwrap_or_default();
    let verdict = match propose(&ledger, entries, reference) {
        Ok(verdict) => verdict,
        Err(Stop::Records(fault)) => return Err(fault),
        Err(Stop::Refused(refusal)) => {
            let why = refusal.to_string();
            refuse(outcome, &lines, NotTaken { line: first, why });
            return Ok(());
        }
    };
    for ((entry, wanted), line) in verdict.entries.iter().zip(&hashes).zip(&lines) {
        let why = match Row::of(entry) {
            Ok(row) if hash(&row) == *wanted => continue,
            Ok(_) => {
                "this logbook knows more about it than the one it comes from, and would write \
                      it differently: log it here by hand"
                    .to_owned()
            }
            Err(fault) => fault.to_string(),
        };
        refuse(outcome, &lines, NotTaken { line: *line, why });
        return Ok(());
    }
    write(db, &ledger, &verdict, reference)?;
    outcome.taken += verdict.entries.len() as u64;
    Ok(())
}

/// Lists an act that was not taken: the line at fault with its reason, the others with that line.
fn refuse(outcome: &mut TakenIn, lines: &[u64], faulty: NotTaken) {
    for line in lines {
        let why = if *line == faulty.line {
            faulty.why.clone()
        } else {
            format!("it belongs to one act with line {}", faulty.line)
        };
        outcome.not_taken.push(NotTaken { line: *line, why });
    }
}

/// What there is to say about an entry before the domain is asked.
enum Looked {
    /// It is here already.
    Known,
    /// The domain may judge it.
    Fits(Box<Entry>),
    /// It cannot be taken, and why.
    Not(String),
}

fn look_at(db: &Connection, stored: &Stored) -> Result<Looked, Fault> {
    if !stored.is_intact() {
        return Ok(Looked::Not(
            "its hash is not that of what it says: it was changed or damaged on the way".to_owned(),
        ));
    }
    if let Some(found) = entries::by_id(db, stored.id)? {
        return Ok(if found.hash == stored.hash {
            Looked::Known
        } else {
            Looked::Not(format!(
                "this logbook has another entry with the same id, #{}: compare the two; neither was changed",
                found.number
            ))
        });
    }
    let mut select = db.prepare_cached("SELECT row FROM entry WHERE machine = ?1 AND seq = ?2")?;
    let machine = *stored.machine.0.as_bytes();
    let seq = i64::try_from(stored.seq).unwrap_or(i64::MAX);
    let taken: Option<i64> = select
        .query_row(params![machine, seq], |row| row.get(0))
        .optional()?;
    if let Some(row) = taken {
        return Ok(Looked::Not(format!(
            "entry #{row} here has the same number of the same machine: one of the two logbooks was copied from the other, and both went on"
        )));
    }
    Ok(match stored.entry() {
        Ok(entry) => Looked::Fits(Box::new(entry)),
        Err(why) => Looked::Not(why),
    })
}
