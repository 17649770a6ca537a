//! Deeds of what the user has found out: what a filter takes, how long a film needs, the light of a
//! scene, the constants of the meter, places, and what a shutter really gives.

use serde::{Deserialize, Serialize};

use super::{Body, touch};
use crate::craft::sun::Coordinates;
use crate::craft::{Aperture, ExposureValue, Seconds, Stops};
use crate::logbook::{Thing, ThingId, ThingKind};

/// The body of [`Deed::ShutterTested`](super::Deed::ShutterTested): one mark, timed several times.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ShutterTested {
    /// The lens the shutter belongs to.
    pub lens: ThingId,
    /// The mark that was set.
    pub mark: Seconds,
    /// The times that were measured, in the order they were taken.
    pub timings: Vec<Seconds>,
    /// The aperture that was set, if it was noted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub aperture: Option<Aperture>,
    /// What it was timed with.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub instrument: Option<String>,
}

/// The body of [`Deed::FilterFound`](super::Deed::FilterFound).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FilterFound {
    /// The finding that came into being.
    pub finding: ThingId,
    /// Its reference; empty for the next free one.
    #[serde(default)]
    pub reference: String,
    /// The filter.
    pub filter: String,
    /// What it takes.
    pub stops: Stops,
    /// The film it was found on; any film if nothing is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub film: Option<String>,
    /// The light it was found in; any light if nothing is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub light: Option<String>,
}

/// The body of [`Deed::TimeFound`](super::Deed::TimeFound): one point of the reciprocity of a film.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TimeFound {
    /// The finding that came into being.
    pub finding: ThingId,
    /// Its reference; empty for the next free one.
    #[serde(default)]
    pub reference: String,
    /// The film.
    pub film: String,
    /// The time that was reckoned from the light.
    pub metered: Seconds,
    /// The time that gave the same density.
    pub needed: Seconds,
    /// How development had to change, in words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub development: Option<String>,
}

/// The body of [`Deed::LightFound`](super::Deed::LightFound).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LightFound {
    /// The finding that came into being.
    pub finding: ThingId,
    /// Its reference; empty for the next free one.
    #[serde(default)]
    pub reference: String,
    /// What it is the light of.
    pub scene: String,
    /// Its exposure value at ISO 100.
    pub value: ExposureValue,
}

/// The body of [`Deed::MeterSet`](super::Deed::MeterSet).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct MeterSet {
    /// The finding that came into being.
    pub finding: ThingId,
    /// Its reference; empty for the next free one.
    #[serde(default)]
    pub reference: String,
    /// K, for reflected light in cd/m2.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reflected: Option<f64>,
    /// C, for incident light in lux.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub incident: Option<f64>,
}

/// The body of [`Deed::PlaceKept`](super::Deed::PlaceKept).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PlaceKept {
    /// The finding that came into being.
    pub finding: ThingId,
    /// Its reference; empty for the next free one.
    #[serde(default)]
    pub reference: String,
    /// What it is called.
    pub name: String,
    /// Where it is.
    pub coordinates: Coordinates,
    /// Its time zone, by name or offset.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub zone: Option<String>,
}

impl Body for ShutterTested {
    fn touches(&self, out: &mut Vec<Thing>) {
        touch(out, ThingKind::Lens, Some(self.lens));
    }
}

/// Implements [`Body`] for a deed whose whole effect is that a finding comes into being.
macro_rules! is_found {
    ($($body:ident),*) => {
        $(impl Body for $body {
            fn touches(&self, out: &mut Vec<Thing>) {
                out.push(Thing::new(ThingKind::Finding, self.finding));
            }
            fn creates(&self) -> Option<(Thing, &str)> {
                Some((Thing::new(ThingKind::Finding, self.finding), &self.reference))
            }
            fn name_created(&mut self, reference: String) {
                self.reference = reference;
            }
        })*
    };
}

pub(super) use is_found;

is_found!(FilterFound, TimeFound, LightFound, MeterSet, PlaceKept);
