//! An entry exactly as it is stored, for carrying it from one logbook to another.
//!
//! A [`Stored`] has every field that the hash is taken over, the body as the very text that was
//! hashed, and the hash. Nothing is read into it and nothing left out, so what is carried can be
//! checked at the other end ([`take_in`](super::take_in)).

use chrono::{DateTime, FixedOffset};

use super::entries::{Found, Row, columns};
use super::error::Fault;
use super::hash::hash;
use super::{Store, StoreError};
use crate::logbook::{ActId, Entry, EntryId, MachineId};

/// An entry as a logbook stores it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stored {
    /// Which entry.
    pub id: EntryId,
    /// The act it is part of.
    pub act: ActId,
    /// The machine it was written on.
    pub machine: MachineId,
    /// Its number on that machine.
    pub seq: u64,
    /// When it happened.
    pub happened: DateTime<FixedOffset>,
    /// When it was written.
    pub written: DateTime<FixedOffset>,
    /// What kind of thing happened, by its name.
    pub kind: String,
    /// The version of the body's form.
    pub form: u32,
    /// The body, the JSON text as it was hashed.
    pub body: String,
    /// The entry it strikes.
    pub strikes: Option<EntryId>,
    /// The entry it amends.
    pub amends: Option<EntryId>,
    /// Why the usual order does not hold.
    pub over: Option<String>,
    /// The note.
    pub note: Option<String>,
    /// The hash over all of this.
    pub hash: [u8; 32],
}

impl Stored {
    fn of(found: Found) -> Result<Stored, Fault> {
        let id = uuid::Uuid::from_bytes;
        let row = found.row;
        let (happened, written) = row.times()?;
        Ok(Stored {
            id: EntryId(id(row.id)),
            act: ActId(id(row.act)),
            machine: MachineId(id(row.machine)),
            seq: u64::try_from(row.seq).unwrap_or_default(),
            happened,
            written,
            kind: row.kind,
            form: row.v,
            body: row.body,
            strikes: row.strikes.map(|it| EntryId(id(it))),
            amends: row.amends.map(|it| EntryId(id(it))),
            over: row.over,
            note: row.note,
            hash: found.hash,
        })
    }

    pub(super) fn row(&self) -> Row {
        let offset = |at: DateTime<FixedOffset>| at.offset().local_minus_utc() / 60;
        Row {
            id: *self.id.0.as_bytes(),
            act: *self.act.0.as_bytes(),
            machine: *self.machine.0.as_bytes(),
            seq: i64::try_from(self.seq).unwrap_or(i64::MAX),
            happened_us: self.happened.timestamp_micros(),
            happened_offset: offset(self.happened),
            written_us: self.written.timestamp_micros(),
            written_offset: offset(self.written),
            kind: self.kind.clone(),
            v: self.form,
            body: self.body.clone(),
            strikes: self.strikes.map(|it| *it.0.as_bytes()),
            amends: self.amends.map(|it| *it.0.as_bytes()),
            over: self.over.clone(),
            note: self.note.clone(),
        }
    }

    /// Whether it says what it said when it was written: its hash is that of its fields.
    pub fn is_intact(&self) -> bool {
        hash(&self.row()) == self.hash
    }

    /// The entry it says, or why it cannot be read, in a sentence.
    pub(super) fn entry(&self) -> Result<Entry, String> {
        self.row().entry().map_err(|fault| fault.to_string())
    }
}

/// What there is to say about a whole logbook.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Whole {
    /// The schema number of the file.
    pub schema: i64,
    /// The machine that entries written in it are written under.
    pub machine: MachineId,
    /// How many entries it has.
    pub entries: u64,
}

impl Store {
    /// Shows every entry as it is stored, with its number here, in the order they were written down,
    /// all of one state of the file even when another program is writing. `begin` comes first and is
    /// told what there is.
    ///
    /// # Errors
    /// When the file cannot be read, or what `begin` or `each` came back with.
    pub fn walk<E: From<StoreError>>(
        &self,
        begin: impl FnOnce(Whole) -> Result<(), E>,
        mut each: impl FnMut(i64, Stored) -> Result<(), E>,
    ) -> Result<(), E> {
        let mut stopped = Ok(());
        let walked = self.read(|db| {
            let moment = db.unchecked_transaction()?;
            let entries: i64 =
                moment.query_row("SELECT count(*) FROM entry", [], |row| row.get(0))?;
            stopped = begin(Whole {
                entries: u64::try_from(entries).unwrap_or_default(),
                schema: moment.pragma_query_value(None, "user_version", |row| row.get(0))?,
                machine: self.machine(),
            });
            let sql = concat!("SELECT ", columns!(), " FROM entry ORDER BY row");
            let mut select = moment.prepare_cached(sql)?;
            let mut rows = select.query([])?;
            while stopped.is_ok()
                && let Some(row) = rows.next()?
            {
                let found = Found::read(row)?;
                let number = found.number;
                stopped = each(number, Stored::of(found)?);
            }
            Ok(())
        });
        stopped?;
        Ok(walked?)
    }
}
