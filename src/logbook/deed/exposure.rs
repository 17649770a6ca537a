//! Deeds of an exposure: the shutter opens, the sheet is exposed, or it was not after all.

use serde::{Deserialize, Serialize};

use super::film::{sheet, side};
use super::{Body, Descent, descend, touch};
use crate::craft::{Aperture, ExposureValue, FilmSpeed, Millimetres, Seconds, Standing};
use crate::logbook::{Thing, ThingId, ThingKind};

/// The body of [`Deed::ExposureBegun`](super::Deed::ExposureBegun). It is written before the shutter
/// opens, so that an exposure that takes minutes is known of although nobody is left to close it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ExposureBegun {
    /// The side the sheet is in.
    pub side: ThingId,
    /// The sheet; known from the side.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sheet: Option<ThingId>,
    /// Whether this is meant as one more exposure on a sheet that has one.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub again: bool,
    /// The aperture that is set.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub planned_aperture: Option<Aperture>,
    /// The time that is planned.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub planned_time: Option<Seconds>,
}

/// The body of [`Deed::ExposureDropped`](super::Deed::ExposureDropped).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ExposureDropped {
    /// The side the sheet is in.
    pub side: ThingId,
    /// The sheet; known from the side.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sheet: Option<ThingId>,
    /// Why no light fell on it.
    pub reason: String,
}

/// One step of a reckoning, as it was shown.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct ReckonedStep {
    /// What it was: `orange filter`, `draw 294 mm`.
    pub name: String,
    /// What it added or came to, as it was shown: `+2 stops`, `6 s`.
    pub amount: String,
    /// The stops it added, where it added any.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stops: Option<f64>,
    /// What the time had come to after it, in seconds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seconds: Option<f64>,
    /// How far its number was trusted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub standing: Option<Standing>,
    /// Where its number was read; empty for plain arithmetic.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub source: String,
}

/// How a setting was reckoned before the exposure, or a time before the development: what was planned, by
/// which steps. It is kept with the entry as it was shown then, whatever the tables say later.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Reckoning {
    /// The aperture it led to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub planned_aperture: Option<Aperture>,
    /// The time it led to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub planned_time: Option<Seconds>,
    /// The exposure value it began with.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub value: Option<ExposureValue>,
    /// The steps from there to the setting, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub steps: Vec<ReckonedStep>,
    /// What there was to look at.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub remarks: Vec<String>,
}

impl Reckoning {
    /// The name of the step that says what development an exposure asks for.
    pub const ASKS: &'static str = "asks for";

    /// What development it asks for, if it asks for any.
    pub fn asks(&self) -> Option<&ReckonedStep> {
        self.steps.iter().find(|step| step.name == Reckoning::ASKS)
    }
}

/// The body of [`Deed::Exposed`](super::Deed::Exposed). Every figure may be missing: a sheet found
/// exposed is logged with what is known.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Exposed {
    /// The side the sheet was in.
    pub side: Option<ThingId>,
    /// The sheet; known from the side.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sheet: Option<ThingId>,
    /// Whether this is meant as one more exposure on a sheet that has one.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub again: bool,
    /// What is in the picture.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub subject: Option<String>,
    /// The camera.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub camera: Option<ThingId>,
    /// The lens.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lens: Option<ThingId>,
    /// The aperture given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub aperture: Option<Aperture>,
    /// The time given, of all openings together.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub time: Option<Seconds>,
    /// How long the shutter was open each time, where it was several times.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub openings: Vec<Seconds>,
    /// The film speed reckoned with.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub speed: Option<FilmSpeed>,
    /// What the meter said, with the zones the readings were placed on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub readings: Option<String>,
    /// The filters on the lens.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub filter: Option<String>,
    /// The draw of the bellows, from lens board to ground glass.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub draw: Option<Millimetres>,
    /// How large the subject is on the film against what it is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub magnification: Option<f64>,
    /// How far the subject was from the lens.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub distance: Option<Millimetres>,
    /// Rise, shift, tilt and swing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub movements: Option<String>,
    /// What was held in front of the lens for its effect.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub in_front: Option<String>,
    /// The flash: how many, how strong, how far away, how often.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub flash: Option<String>,
    /// The other light.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub light: Option<String>,
    /// Where the camera looked: a bearing or a quarter of the sky.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub facing: Option<String>,
    /// Where it was taken.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<String>,
    /// What the weather was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weather: Option<String>,
    /// The development it asks for, such as N-1.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub development: Option<String>,
    /// How the setting was reckoned, if it was reckoned here. Nobody types it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reckoning: Option<Reckoning>,
}

impl Body for ExposureBegun {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(side(self.side));
        touch(out, ThingKind::Sheet, self.sheet);
    }
}

impl Body for ExposureDropped {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(side(self.side));
        touch(out, ThingKind::Sheet, self.sheet);
    }
}

impl Body for Exposed {
    fn touches(&self, out: &mut Vec<Thing>) {
        touch(out, ThingKind::Side, self.side);
        touch(out, ThingKind::Sheet, self.sheet);
        touch(out, ThingKind::Camera, self.camera);
        touch(out, ThingKind::Lens, self.lens);
    }
    fn descents(&self, out: &mut Vec<Descent>) {
        if let Some(id) = self.sheet {
            descend(out, sheet(id), "lens", ThingKind::Lens, self.lens);
            descend(out, sheet(id), "camera", ThingKind::Camera, self.camera);
        }
    }
}
