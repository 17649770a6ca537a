//! Deeds of a negative: what is wrong with it, and its scan.

use serde::{Deserialize, Serialize};

use super::Body;
use super::film::sheet;
use crate::logbook::{Thing, ThingId};
use crate::words::words;

words! {
    /// What a fault does to the picture.
    Harm {
        /// It does not show in a print.
        Harmless = "harmless",
        /// It shows, and can be spotted, burned or washed away.
        Mends = "can be mended",
        /// The picture is spoiled by it.
        Spoils = "spoils it",
    }
}

/// The body of [`Deed::FaultSeen`](super::Deed::FaultSeen).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FaultSeen {
    /// The sheet.
    pub sheet: ThingId,
    /// What it is called, by the vocabulary or in a word of one's own.
    pub fault: String,
    /// Which cause it is put down to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cause: Option<String>,
    /// Where on the sheet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<String>,
    /// What it does to the picture.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub harm: Option<Harm>,
}

/// The body of [`Deed::Scanned`](super::Deed::Scanned).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Scanned {
    /// The sheet.
    pub sheet: ThingId,
    /// Where the file of the scan is.
    pub scan: String,
    /// Samples an inch.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub resolution: Option<u32>,
    /// What it was scanned with.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub instrument: Option<String>,
}

impl Body for FaultSeen {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(sheet(self.sheet));
    }
}

impl Body for Scanned {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(sheet(self.sheet));
    }
}
