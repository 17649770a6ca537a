//! Deeds of what the user has found out: what a filter takes, how long a film needs, how long it is
//! developed, films and formats, the light of a scene, the constants of the meter, places, and what a
//! shutter really gives.

use serde::{Deserialize, Serialize};

use super::{Body, touch};
use crate::craft::development::agitation::Agitation;
use crate::craft::development::contrast::Expansion;
use crate::craft::sun::Coordinates;
use crate::craft::{
    Aperture, Celsius, Dilution, ExposureValue, FilmSpeed, Millimetres, Seconds, Size, Stops,
};
use crate::logbook::{Thing, ThingId, ThingKind};
use crate::reference::FilmKind;

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

/// The body of [`Deed::FilmFound`](super::Deed::FilmFound): a film of one's own, or what was found of a
/// known one.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FilmFound {
    /// The finding that came into being.
    pub finding: ThingId,
    /// Its reference; empty for the next free one.
    #[serde(default)]
    pub reference: String,
    /// The film.
    pub film: String,
    /// Its speed, or the index it proved to have.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub speed: Option<FilmSpeed>,
    /// Its maker.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub maker: Option<String>,
    /// To what colours it answers.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kind: Option<FilmKind>,
}

/// The body of [`Deed::FormatFound`](super::Deed::FormatFound): a format of one's own, or what was
/// measured of a known one.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FormatFound {
    /// The finding that came into being.
    pub finding: ThingId,
    /// Its reference; empty for the next free one.
    #[serde(default)]
    pub reference: String,
    /// The size in its name, 4x5.
    pub size: Size,
    /// What it is called, if not by its size.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// What the holder leaves open.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub image: Option<Size>,
    /// The size the sheets are cut to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cut: Option<Size>,
    /// How deep the back of the film lies, from the face of the holder to its septum.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub depth: Option<Millimetres>,
    /// By how much holders differ from that either way.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tolerance: Option<Millimetres>,
}

/// The body of [`Deed::DevelopmentFound`](super::Deed::DevelopmentFound): a time that gives the negatives
/// the user wants.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DevelopmentFound {
    /// The finding that came into being.
    pub finding: ThingId,
    /// Its reference; empty for the next free one.
    #[serde(default)]
    pub reference: String,
    /// The film.
    pub film: String,
    /// The developer.
    pub developer: String,
    /// Its dilution.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dilution: Option<Dilution>,
    /// Its temperature.
    pub temperature: Celsius,
    /// The time.
    pub time: Seconds,
    /// How the film was agitated.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub agitation: Option<Agitation>,
    /// The exposure index the film was exposed at; the speed on its box if nothing is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub speed: Option<FilmSpeed>,
    /// The contrast it is for; N if nothing is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub contrast: Option<Expansion>,
    /// The average gradient the negatives came to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gradient: Option<f64>,
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

is_found!(
    FilterFound,
    TimeFound,
    FilmFound,
    FormatFound,
    DevelopmentFound,
    LightFound,
    MeterSet,
    PlaceKept
);
