//! Deeds of sensitometry: a strip of steps that was read, a tablet that was measured, the limits of a
//! series of control strips.
//!
//! A strip keeps what was read and what it was read behind, and nothing that is reckoned from it: the
//! curve and its measures are made anew wherever they are shown.

use serde::{Deserialize, Serialize};

use super::film::sheet;
use super::{Body, Channel, Descent, descend, touch};
use crate::craft::sensitometry::readings::Reading;
use crate::craft::sensitometry::{Curve, Joined, Tablet};
use crate::craft::{Celsius, Density, Dilution, Impossible, Seconds, Stops};
use crate::logbook::{Thing, ThingId, ThingKind};

/// Steps of a tablet of which nothing is said.
const USUAL_STEPS: usize = 21;

/// The tablet a strip was exposed through.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum TabletUsed {
    /// One of the usual ones, by its number of steps.
    Steps(usize),
    /// One that was measured, from its clearest step on.
    Measured {
        /// What it is called, if it was kept under a name.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        name: Option<String>,
        /// The density of every step.
        densities: Vec<Density>,
    },
}

impl Default for TabletUsed {
    fn default() -> TabletUsed {
        TabletUsed::Steps(USUAL_STEPS)
    }
}

impl TabletUsed {
    /// The tablet with what its densities rest on.
    ///
    /// # Errors
    /// If there is no usual tablet of that many steps, or the measured ones are none of a tablet.
    pub fn tablet(&self) -> Result<Tablet, Impossible> {
        match self {
            TabletUsed::Steps(steps) => Tablet::nominal(*steps),
            TabletUsed::Measured { name, densities } => {
                let source = match name {
                    Some(name) => format!("the tablet as it was measured: {name}"),
                    None => "the tablet as it was measured".to_owned(),
                };
                Tablet::measured(densities, source)
            }
        }
    }
}

/// The body of [`Deed::StripRead`](super::Deed::StripRead).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StripRead {
    /// The finding that came into being.
    pub finding: ThingId,
    /// Its reference; empty for the next free one.
    #[serde(default)]
    pub reference: String,
    /// The sheet it is on, if that is in the logbook.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sheet: Option<ThingId>,
    /// The film; known from the sheet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub film: Option<String>,
    /// The bath it was developed in; known from the sheet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bath: Option<ThingId>,
    /// The run it was developed in; known from the sheet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub run: Option<ThingId>,
    /// The developer by its name; known from the bath.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub developer: Option<String>,
    /// How far it was diluted; known from the run or the bath.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dilution: Option<Dilution>,
    /// How long it was developed; known from the run.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub time: Option<Seconds>,
    /// How warm; known from the run.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature: Option<Celsius>,
    /// The series of control strips it belongs to, if it is one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub series: Option<String>,
    /// The tablet; one of 21 steps if nothing is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tablet: Option<TabletUsed>,
    /// The light without the tablet, in log10 lux seconds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bare: Option<f64>,
    /// The density behind each step from the clearest on; empty where it was not read.
    pub readings: Vec<Option<Density>>,
    /// Base plus fog, read on film that got no light.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub base_fog: Option<Density>,
    /// The light it was read with.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub channel: Option<Channel>,
    /// The densitometer.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub instrument: Option<String>,
    /// How its readings are joined; smoothly if nothing is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub joined: Option<Joined>,
}

impl StripRead {
    /// The tablet it was exposed through.
    ///
    /// # Errors
    /// As [`TabletUsed::tablet`].
    pub fn through(&self) -> Result<Tablet, Impossible> {
        self.tablet.clone().unwrap_or_default().tablet()
    }

    /// What was read, step by step.
    pub fn read(&self) -> Vec<Reading> {
        let steps = self.readings.iter().zip(1..);
        let read =
            steps.filter_map(|(density, step)| density.map(|density| Reading { step, density }));
        read.collect()
    }

    /// The curve of what was read.
    ///
    /// # Errors
    /// If what was read makes no curve, which entries that were taken do not.
    pub fn curve(&self) -> Result<Curve, Impossible> {
        let joined = self.joined.unwrap_or(Joined::Smooth);
        Curve::new(
            &self.read(),
            &self.through()?,
            self.bare,
            self.base_fog,
            joined,
        )
    }
}

/// The body of [`Deed::TabletFound`](super::Deed::TabletFound): the steps of one tablet, measured.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TabletFound {
    /// The finding that came into being.
    pub finding: ThingId,
    /// Its reference; empty for the next free one.
    #[serde(default)]
    pub reference: String,
    /// What the tablet is called.
    pub name: String,
    /// The density of every step, from the clearest on.
    pub densities: Vec<Density>,
    /// The light they were read with.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub channel: Option<Channel>,
    /// The densitometer.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub instrument: Option<String>,
}

/// The body of [`Deed::LimitsSet`](super::Deed::LimitsSet): what a series of control strips is measured
/// against. What is left out is taken from the first strips of the series.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LimitsSet {
    /// The finding that came into being.
    pub finding: ThingId,
    /// Its reference; empty for the next free one.
    #[serde(default)]
    pub reference: String,
    /// The series.
    pub series: String,
    /// From how many of the first strips what is not set is taken.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub first: Option<u32>,
    /// The average gradient it is meant to have.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gradient: Option<f64>,
    /// How far the gradient may be off.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gradient_within: Option<f64>,
    /// The effective speed it is meant to have.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub speed: Option<f64>,
    /// How far the speed may be off.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub speed_within: Option<Stops>,
    /// The base plus fog it is meant to have.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub base_fog: Option<Density>,
    /// How far base plus fog may be off.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub base_fog_within: Option<Density>,
}

impl Body for StripRead {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(Thing::new(ThingKind::Finding, self.finding));
        touch(out, ThingKind::Sheet, self.sheet);
        touch(out, ThingKind::Bath, self.bath);
    }
    fn descents(&self, out: &mut Vec<Descent>) {
        let child = Thing::new(ThingKind::Finding, self.finding);
        out.extend(self.sheet.map(|id| Descent {
            child,
            parent: sheet(id),
            role: "negative",
        }));
        descend(out, child, "developer", ThingKind::Bath, self.bath);
    }
    fn creates(&self) -> Option<(Thing, &str)> {
        let made = Thing::new(ThingKind::Finding, self.finding);
        Some((made, &self.reference))
    }
    fn name_created(&mut self, reference: String) {
        self.reference = reference;
    }
}

super::finding::is_found!(TabletFound, LimitsSet);
