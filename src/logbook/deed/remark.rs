//! Deeds about anything: endings, notes, and entries about other entries.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::{Body, Deed, touch};
use crate::logbook::{EntryId, Thing, ThingId, ThingKind};

/// The body of [`Deed::Lost`].
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Lost {
    /// The sheet or the print.
    pub thing: Thing,
    /// The side a sheet was in; known from the sheet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side: Option<ThingId>,
    /// How it came about.
    pub reason: String,
}

/// The body of [`Deed::Discarded`].
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Discarded {
    /// The sheet, the print or the bath.
    pub thing: Thing,
    /// The side a sheet was in; known from the sheet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side: Option<ThingId>,
    /// Why.
    pub reason: String,
}

/// The body of [`Deed::Noted`].
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Noted {
    /// What the note is about.
    pub thing: Thing,
    /// The note.
    pub text: String,
}

/// The body of [`Deed::Struck`].
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Struck {
    /// The entry that is crossed out. It may itself be a strike or an amendment, which is then
    /// taken back.
    pub entry: EntryId,
    /// Why.
    pub reason: String,
    /// What the crossed-out entry touched.
    pub touches: Vec<Thing>,
}

/// The body of [`Deed::Amended`].
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Amended {
    /// The entry whose figures are replaced.
    pub entry: EntryId,
    /// What it should have said.
    pub deed: Box<Deed>,
    /// When it happened, if that was wrong too.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub happened: Option<DateTime<FixedOffset>>,
    /// Why.
    pub reason: String,
    /// What the entry touched before.
    pub touches: Vec<Thing>,
}

impl Body for Lost {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(self.thing);
        touch(out, ThingKind::Side, self.side);
    }
}

impl Body for Discarded {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(self.thing);
        touch(out, ThingKind::Side, self.side);
    }
}

impl Body for Noted {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(self.thing);
    }
}

impl Body for Struck {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.extend_from_slice(&self.touches);
    }
}

impl Body for Amended {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.extend_from_slice(&self.touches);
        out.extend(self.deed.touches());
    }
}
