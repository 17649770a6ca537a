//! Deeds of baths: mixed, replenished, poured into two, tested with a scrap of film, changed round.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::{Body, Descent, descend, touch};
use crate::craft::{Area, Capacity, Celsius, Dilution, Keeping, Millilitres, Seconds};
use crate::logbook::{Thing, ThingId, ThingKind};
use crate::words::words;

words! {
    /// What a bath is for.
    Purpose {
        /// Develops film or prints.
        Developer = "developer",
        /// Stops development.
        Stop = "stop",
        /// Fixes.
        Fixer = "fixer",
        /// Clears iron or stain from a print.
        Clearing = "clearing",
        /// Helps washing.
        WashAid = "wash-aid",
        /// Tones.
        Toner = "toner",
        /// A part of a sensitizer.
        Sensitizer = "sensitizer",
        /// Anything else.
        Other = "other",
    }
}

/// The body of [`Deed::BathMixed`](super::Deed::BathMixed).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BathMixed {
    /// The bath that came into being.
    pub bath: ThingId,
    /// Its reference; empty for the next free one.
    #[serde(default)]
    pub reference: String,
    /// What is in it: the formula or the maker's name.
    pub name: String,
    /// What it is for.
    pub purpose: Purpose,
    /// How far the stock was diluted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dilution: Option<Dilution>,
    /// How much was mixed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub volume: Option<Millilitres>,
    /// The stock bath it was drawn from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stock: Option<ThingId>,
    /// How warm it was mixed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature: Option<Celsius>,
    /// The formula it was mixed from, as the reference or the user's own folder names it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub formula: Option<String>,
    /// The salts that went in in another form than the formula's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub have: Option<String>,
    /// The supplier's concentrate it was mixed from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub concentrate: Option<String>,
    /// What it is trusted with: so many sheets, sheets of one size, or an area.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub capacity: Option<Capacity>,
    /// How long it keeps.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub keeps: Option<Keeping>,
    /// The least stock that develops 80 square inches, one 8x10.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub least: Option<Millilitres>,
    /// The bath it stands behind, when it is the second of two fixing baths.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub behind: Option<ThingId>,
    /// The batch numbers of what went into it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub batch: Option<String>,
}

/// The body of [`Deed::BathReplenished`](super::Deed::BathReplenished).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BathReplenished {
    /// Which bath.
    pub bath: ThingId,
    /// With how much.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub volume: Option<Millilitres>,
    /// How much of the bath was taken out and thrown away for it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bleed: Option<Millilitres>,
    /// With what.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub with: Option<String>,
}

/// What a part of a bath brings with it: what it is, its age, and its share of what went through.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Poured {
    /// What is in it.
    pub name: String,
    /// What it is for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub purpose: Option<Purpose>,
    /// The formula it was mixed from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub formula: Option<String>,
    /// The concentrate it was mixed from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub concentrate: Option<String>,
    /// How far it was diluted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dilution: Option<Dilution>,
    /// The part of the capacity that goes with it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub capacity: Option<Capacity>,
    /// How long it keeps.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub keeps: Option<Keeping>,
    /// The least stock that develops one 8x10.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub least: Option<Millilitres>,
    /// When it was mixed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mixed: Option<DateTime<FixedOffset>>,
    /// Its share of the sheets since it was mixed or last replenished.
    pub uses: u32,
    /// Its share of their area.
    pub area: Area,
    /// Its share of those of no known size.
    pub unmeasured: u32,
    /// Its share of the sheets since it was mixed.
    pub total_uses: u32,
    /// Its share of their area.
    pub total_area: Area,
    /// How film cleared in it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub clearings: Vec<Clearing>,
}

/// How long film took to clear in a fixer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Clearing {
    /// When it was timed.
    pub at: DateTime<FixedOffset>,
    /// The film.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub film: Option<String>,
    /// How long it took.
    pub time: Seconds,
    /// Whether it is the time of the fresh bath.
    pub fresh: bool,
}

/// The body of [`Deed::BathSplit`](super::Deed::BathSplit).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BathSplit {
    /// The bath it was poured out of.
    pub bath: ThingId,
    /// The bath that came into being.
    pub part: ThingId,
    /// Its reference; empty for the next free one.
    #[serde(default)]
    pub reference: String,
    /// How much was poured.
    pub volume: Millilitres,
    /// What it brings with it; known from the bath.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub poured: Option<Poured>,
}

/// The body of [`Deed::ClearingTested`](super::Deed::ClearingTested).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ClearingTested {
    /// The fixer.
    pub bath: ThingId,
    /// How long a scrap of undeveloped film took to clear.
    pub time: Seconds,
    /// The film.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub film: Option<String>,
    /// Whether the bath was fresh; without a word, the first test of all is of the fresh bath.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fresh: Option<bool>,
    /// How warm it was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature: Option<Celsius>,
}

/// The body of [`Deed::BathsRotated`](super::Deed::BathsRotated): the first of two fixing baths is
/// thrown away and the second becomes the first.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BathsRotated {
    /// The first bath, which is thrown away.
    pub first: ThingId,
    /// The second, which becomes the first; known from the first.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub second: Option<ThingId>,
    /// The new second.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub next: Option<ThingId>,
    /// How many times this pair was changed, this time with it; known from the first.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub changes: Option<u32>,
}

impl Body for BathMixed {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(Thing::new(ThingKind::Bath, self.bath));
        touch(out, ThingKind::Bath, self.stock);
        touch(out, ThingKind::Bath, self.behind);
    }
    fn descents(&self, out: &mut Vec<Descent>) {
        let child = Thing::new(ThingKind::Bath, self.bath);
        descend(out, child, "stock bath", ThingKind::Bath, self.stock);
    }
    fn creates(&self) -> Option<(Thing, &str)> {
        Some((Thing::new(ThingKind::Bath, self.bath), &self.reference))
    }
    fn name_created(&mut self, reference: String) {
        self.reference = reference;
    }
}

impl Body for BathReplenished {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(Thing::new(ThingKind::Bath, self.bath));
    }
}

impl Body for BathSplit {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(Thing::new(ThingKind::Bath, self.bath));
        out.push(Thing::new(ThingKind::Bath, self.part));
    }
    fn descents(&self, out: &mut Vec<Descent>) {
        let child = Thing::new(ThingKind::Bath, self.part);
        descend(out, child, "poured from", ThingKind::Bath, Some(self.bath));
    }
    fn creates(&self) -> Option<(Thing, &str)> {
        Some((Thing::new(ThingKind::Bath, self.part), &self.reference))
    }
    fn name_created(&mut self, reference: String) {
        self.reference = reference;
    }
}

impl Body for ClearingTested {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(Thing::new(ThingKind::Bath, self.bath));
    }
}

impl BathsRotated {
    /// The baths it names.
    pub fn named(&self) -> impl Iterator<Item = ThingId> {
        let all = [Some(self.first), self.second, self.next];
        all.into_iter().flatten()
    }
}

impl Body for BathsRotated {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(Thing::new(ThingKind::Bath, self.first));
        touch(out, ThingKind::Bath, self.second);
        touch(out, ThingKind::Bath, self.next);
    }
}
