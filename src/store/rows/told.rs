//! Entries in words: lines of a timeline, steps and facts of a trace, hits of a search, and the act
//! that undo strikes.

use chrono::{DateTime, FixedOffset};
use serde::{Serialize, Serializer};

use super::Named;
use crate::logbook::telling::Telling;
use crate::logbook::{ActId, EntryId, Kind, MachineId, Remark, Thing, ThingId};

/// One entry in words, as the timeline shows it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Line {
    /// The number people use for the entry.
    pub row: i64,
    /// The entry.
    pub entry: EntryId,
    /// The act it is part of.
    pub act: ActId,
    /// The machine it was written on.
    pub machine: MachineId,
    /// What kind of thing happened.
    #[serde(serialize_with = "kind_name")]
    pub kind: Kind,
    /// When it counts as having happened.
    pub happened: DateTime<FixedOffset>,
    /// When it was written.
    pub written: DateTime<FixedOffset>,
    /// Whether it was written well after it happened, or after later things had been logged.
    pub late: bool,
    /// What counts, in words: its own figures, or those of its last amendment.
    pub telling: Telling,
    /// What it said before it was amended.
    pub was: Option<Telling>,
    /// Whether it is crossed out, and why.
    pub struck: Option<Remark>,
    /// Its amendments, in the order they were written; the last one counts.
    pub amended: Vec<Remark>,
    /// Why it was logged against the order.
    pub over: Option<String>,
    /// Whatever else was worth remembering.
    pub note: Option<String>,
    /// What else it touches.
    pub things: Vec<Named>,
    /// Whether its amendment moved it to other things, so that it counts no longer for this one.
    pub elsewhere: bool,
    /// Whether it is a strike or an amendment.
    pub is_remark: bool,
    /// The number of the entry a strike or an amendment is about.
    pub about: Option<i64>,
    /// What became of what was begun here: the fate of a print, the end of a run.
    pub outcome: Option<String>,
}

/// One thing on the road from a print to where it came from, or from a box to what became of it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TraceStep {
    /// How far from the start; the start itself is 0.
    pub depth: u32,
    /// The thing.
    #[serde(flatten)]
    pub thing: Thing,
    /// What it is called.
    pub reference: String,
    /// What it is to the thing it was reached from: `negative`, `developer`, `film box`.
    pub role: String,
    /// The thing it was reached from; the start itself for the start.
    pub via: ThingId,
    /// The figures and dates that matter most, on one line.
    pub summary: String,
    /// What was done to it or with it, in order.
    pub facts: Vec<Fact>,
    /// Whether it stands further up already, with its facts and what is behind it.
    pub repeated: bool,
}

/// One thing that is known of a thing in a trace.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Fact {
    /// What it is: `exposed`, `coat`, `mat`.
    pub label: String,
    /// Its figures, on one line.
    pub value: String,
    /// When.
    pub happened: DateTime<FixedOffset>,
}

/// An entry that was found.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Hit {
    /// The number people use for the entry.
    pub row: i64,
    /// When it counts as having happened.
    pub happened: DateTime<FixedOffset>,
    /// What kind of thing happened.
    #[serde(serialize_with = "kind_name")]
    pub kind: Kind,
    /// Its figures, on one line.
    pub headline: String,
    /// Its note.
    pub note: Option<String>,
    /// Whether it is crossed out.
    pub struck: bool,
    /// What it touches.
    pub things: Vec<Named>,
}

/// The newest act that can be undone.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ActSummary {
    /// Which act.
    pub act: ActId,
    /// When it was written.
    pub written: DateTime<FixedOffset>,
    /// Its entries that still count, in the order they were written.
    pub entries: Vec<ActEntry>,
}

/// An entry of an act that can be undone.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ActEntry {
    /// The number people use for the entry.
    pub row: i64,
    /// The entry.
    pub entry: EntryId,
    /// What kind of thing happened.
    #[serde(serialize_with = "kind_name")]
    pub kind: Kind,
    /// Its figures, on one line.
    pub headline: String,
}

fn kind_name<S: Serializer>(kind: &Kind, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(kind.name())
}
