//! Entries as rows of the table `entry`, and rows as entries.
//!
//! A [`Row`] is the stored form, field by field; its hash is taken over exactly these. Times are
//! kept to the microsecond and offsets to the minute, which is what [`settle_time`] brings a time
//! to before it enters the logbook, so that what is read equals what was written.

use chrono::{DateTime, FixedOffset, Timelike};
use rusqlite::{Connection, params};
use uuid::Uuid;

use super::error::{Fault, LONGEST_ENTRY};
use super::hash::{EntryHash, hash};
use crate::logbook::{ActId, Deed, Entry, EntryId, Kind, MachineId};

/// The form the bodies are written in.
const BODY_FORM: u32 = 1;

/// The columns of `entry` that say what the entry says, in the order [`Row::read`] reads them.
macro_rules! columns {
    () => {
        "entry.row, entry.id, entry.act, entry.machine, entry.seq, entry.happened_us, \
         entry.happened_offset, entry.written_us, entry.written_offset, entry.kind, entry.v, \
         entry.body, entry.strikes, entry.amends, entry.over, entry.note, entry.hash"
    };
}
pub(crate) use columns;

/// An entry as it is stored.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Row {
    pub(crate) id: [u8; 16],
    pub(crate) act: [u8; 16],
    pub(crate) machine: [u8; 16],
    pub(crate) seq: i64,
    pub(crate) happened_us: i64,
    pub(crate) happened_offset: i32,
    pub(crate) written_us: i64,
    pub(crate) written_offset: i32,
    pub(crate) kind: String,
    pub(crate) v: u32,
    pub(crate) body: String,
    pub(crate) strikes: Option<[u8; 16]>,
    pub(crate) amends: Option<[u8; 16]>,
    pub(crate) over: Option<String>,
    pub(crate) note: Option<String>,
}

/// A row as it was found: its number, what it says, and the hash that stands beside it.
pub(crate) struct Found {
    pub(crate) number: i64,
    pub(crate) row: Row,
    pub(crate) hash: EntryHash,
}

/// Brings a time to the fineness the logbook keeps: microseconds, and offsets of whole minutes.
pub(crate) fn settle_time(at: DateTime<FixedOffset>) -> DateTime<FixedOffset> {
    let micros = at.with_nanosecond(at.nanosecond() % 1_000_000_000 / 1000 * 1000);
    let at = micros.unwrap_or(at);
    let offset = at.offset().local_minus_utc();
    match FixedOffset::east_opt(offset / 60 * 60) {
        Some(whole) if offset % 60 != 0 => at.with_timezone(&whole),
        _ => at,
    }
}

fn time(us: i64, offset: i32) -> Option<DateTime<FixedOffset>> {
    let offset = FixedOffset::east_opt(offset.checked_mul(60)?)?;
    Some(DateTime::from_timestamp_micros(us)?.with_timezone(&offset))
}

impl Row {
    /// The stored form of an entry.
    pub(crate) fn of(entry: &Entry) -> Result<Row, Fault> {
        let body = entry
            .deed
            .to_json()
            .map_err(|source| Fault::Damaged(source.to_string()))?;
        let length = body.len()
            + entry.note.as_ref().map_or(0, String::len)
            + entry.over.as_ref().map_or(0, String::len);
        if length > LONGEST_ENTRY {
            return Err(Fault::TooLong(length));
        }
        let about = |id: EntryId| *id.0.as_bytes();
        let (strikes, amends) = match &entry.deed {
            Deed::Struck(struck) => (Some(about(struck.entry)), None),
            Deed::Amended(amended) => (None, Some(about(amended.entry))),
            _ => (None, None),
        };
        Ok(Row {
            id: *entry.id.0.as_bytes(),
            act: *entry.act.0.as_bytes(),
            machine: *entry.machine.0.as_bytes(),
            seq: i64::try_from(entry.seq).unwrap_or(i64::MAX),
            happened_us: entry.happened.timestamp_micros(),
            happened_offset: entry.happened.offset().local_minus_utc() / 60,
            written_us: entry.written.timestamp_micros(),
            written_offset: entry.written.offset().local_minus_utc() / 60,
            kind: entry.kind().name().to_owned(),
            v: BODY_FORM,
            body,
            strikes,
            amends,
            over: entry.over.clone(),
            note: entry.note.clone(),
        })
    }

    /// Writes the row; the answer is its number.
    pub(crate) fn insert(&self, db: &Connection) -> Result<i64, Fault> {
        let mut insert = db.prepare_cached(
            "INSERT INTO entry (id, act, machine, seq, happened_us, happened_offset, written_us, \
             written_offset, kind, v, body, strikes, amends, over, note, hash) \
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16)",
        )?;
        Ok(insert.insert(params![
            self.id,
            self.act,
            self.machine,
            self.seq,
            self.happened_us,
            self.happened_offset,
            self.written_us,
            self.written_offset,
            self.kind,
            self.v,
            self.body,
            self.strikes,
            self.amends,
            self.over,
            self.note,
            hash(self),
        ])?)
    }

    /// The entry it says.
    pub(crate) fn entry(&self) -> Result<Entry, Fault> {
        let damaged = |what: &str| Fault::Damaged(format!("entry {}: {what}", self.uuid()));
        let kind = Kind::named(&self.kind)
            .ok_or_else(|| damaged(&format!("the kind \"{}\" is not known", self.kind)))?;
        let deed =
            Deed::from_json(kind, &self.body).map_err(|source| damaged(&source.to_string()))?;
        let (happened, written) = self.times()?;
        let id = Uuid::from_bytes;
        Ok(Entry {
            id: EntryId(id(self.id)),
            act: ActId(id(self.act)),
            machine: MachineId(id(self.machine)),
            seq: u64::try_from(self.seq).map_err(|_| damaged("its number is negative"))?,
            happened,
            written,
            deed,
            over: self.over.clone(),
            note: self.note.clone(),
        })
    }

    /// When it happened, and when it was written.
    pub(crate) fn times(&self) -> Result<(DateTime<FixedOffset>, DateTime<FixedOffset>), Fault> {
        let read = |us, offset| {
            time(us, offset).ok_or_else(|| {
                Fault::Damaged(format!("entry {}: a time is out of range", self.uuid()))
            })
        };
        Ok((
            read(self.happened_us, self.happened_offset)?,
            read(self.written_us, self.written_offset)?,
        ))
    }

    /// Its id.
    pub(crate) const fn uuid(&self) -> Uuid {
        Uuid::from_bytes(self.id)
    }
}

impl Found {
    /// Reads the [`columns`] of a query's row, beginning with the first.
    pub(crate) fn read(from: &rusqlite::Row<'_>) -> rusqlite::Result<Found> {
        Ok(Found {
            number: from.get(0)?,
            row: Row {
                id: from.get(1)?,
                act: from.get(2)?,
                machine: from.get(3)?,
                seq: from.get(4)?,
                happened_us: from.get(5)?,
                happened_offset: from.get(6)?,
                written_us: from.get(7)?,
                written_offset: from.get(8)?,
                kind: from.get(9)?,
                v: from.get(10)?,
                body: from.get(11)?,
                strikes: from.get(12)?,
                amends: from.get(13)?,
                over: from.get(14)?,
                note: from.get(15)?,
            },
            hash: from.get(16)?,
        })
    }

    /// Whether it still says what it said when it was written.
    pub(crate) fn is_intact(&self) -> bool {
        hash(&self.row) == self.hash
    }
}

/// The row with this id.
pub(crate) fn by_id(db: &Connection, id: EntryId) -> Result<Option<Found>, Fault> {
    let mut select = db.prepare_cached(concat!(
        "SELECT ",
        columns!(),
        " FROM entry WHERE entry.id = ?1"
    ))?;
    let mut rows = select.query([id.0.as_bytes()])?;
    Ok(rows.next()?.map(Found::read).transpose()?)
}
