//! One line of the logbook.
//!
//! An [`Entry`] says what happened, when, on which machine it was written and as part of which act.
//! It is written once and never changed: a later [`Struck`](super::Deed::Struck) or
//! [`Amended`](super::Deed::Amended) entry crosses it out or replaces its figures, and the old line
//! stays legible. Entries are ordered by when they happened, so one written late takes its place.

use chrono::{DateTime, FixedOffset};

use super::{ActId, Deed, EntryId, Kind, MachineId};

/// Something that happened, with its time.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// Which entry.
    pub id: EntryId,
    /// The act of the user it is part of.
    pub act: ActId,
    /// The machine it was written on.
    pub machine: MachineId,
    /// Its number on that machine, from 1, without gaps.
    pub seq: u64,
    /// When it happened, in the zone it happened in.
    pub happened: DateTime<FixedOffset>,
    /// When it was written down.
    pub written: DateTime<FixedOffset>,
    /// What happened.
    pub deed: Deed,
    /// Why the usual order does not hold here, if the user said so.
    pub over: Option<String>,
    /// Whatever else is worth remembering.
    pub note: Option<String>,
}

/// What entries are sorted by: when it happened, when it was written, machine, number there.
pub type OrderKey = (i64, i64, MachineId, u64);

impl Entry {
    /// The kind of thing that happened.
    pub fn kind(&self) -> Kind {
        self.deed.kind()
    }

    /// Where the entry stands among others, if it happened at `happened`.
    pub fn order_at(&self, happened: DateTime<FixedOffset>) -> OrderKey {
        (
            happened.timestamp_micros(),
            self.written.timestamp_micros(),
            self.machine,
            self.seq,
        )
    }
}
