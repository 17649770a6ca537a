//! Deeds at the clock: a step of a run or of a print begins, changes on the way, and ends.
//!
//! They are written when they happen, so that the clock of every step can be told from the logbook alone,
//! after a crash or on another machine.

use serde::{Deserialize, Serialize};

use super::exposure::ReckonedStep;
use super::{Body, Descent, descend, touch};
use crate::craft::{Area, Celsius, Seconds};
use crate::logbook::{Thing, ThingId, ThingKind};
use crate::words::words;

/// The body of [`Deed::StepBegun`](super::Deed::StepBegun). The step that was under way ends with it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StepBegun {
    /// The run or the print.
    pub thing: Thing,
    /// The id of the step in the sequence of the run or the process of the print, or words for one that
    /// is in neither.
    pub step: String,
    /// The time planned.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub time: Option<Seconds>,
    /// The bath.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bath: Option<ThingId>,
    /// How warm it is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature: Option<Celsius>,
    /// How it is moved, in words or by the id of a scheme.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub agitation: Option<String>,
    /// How many sheets go through the bath for the first time in this run; known from the run. A bath
    /// that was named when the run began is counted there, one of a print with the step that is logged.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub uses: Option<u32>,
    /// Their area; known from the run.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub area: Option<Area>,
}

words! {
    /// What changes while a step is under way.
    Change {
        /// It gets more time.
        MoreTime = "more-time",
        /// Its time stands still: the film is out of the bath.
        Pause = "pause",
        /// Its time goes on.
        GoOn = "go-on",
        /// It is warmer or cooler now.
        Temperature = "temperature",
    }
}

/// The body of [`Deed::StepChanged`](super::Deed::StepChanged).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StepChanged {
    /// The run or the print.
    pub thing: Thing,
    /// What changes.
    pub change: Change,
    /// How much longer.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub more: Option<Seconds>,
    /// How warm it is now.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature: Option<Celsius>,
    /// The whole time of the step from now on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub time: Option<Seconds>,
    /// How that time was reckoned from the temperature. Nobody types it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub steps: Vec<ReckonedStep>,
}

/// The body of [`Deed::StepEnded`](super::Deed::StepEnded).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StepEnded {
    /// The run or the print.
    pub thing: Thing,
    /// The time really given; without a word, what the clock counted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub time: Option<Seconds>,
    /// How warm it was at the end.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature: Option<Celsius>,
    /// What was seen.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seen: Option<String>,
}

impl Body for StepBegun {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(self.thing);
        touch(out, ThingKind::Bath, self.bath);
    }
    fn descents(&self, out: &mut Vec<Descent>) {
        if self.uses.is_some_and(|uses| uses > 0) {
            descend(out, self.thing, "bath", ThingKind::Bath, self.bath);
        }
    }
}

impl Body for StepChanged {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(self.thing);
    }
}

impl Body for StepEnded {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(self.thing);
    }
}
