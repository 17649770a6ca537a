//! The life of a lens: in use until it is not, with what figures need to know of it.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::{Happening, Row, State, Story, goes, stays};
use crate::craft::{Aperture, Millimetres, Seconds, shutter};
use crate::logbook::{Deed, EntryId, Kind, ThingId};
use crate::reference::Reference;

/// The states of a lens.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum LensState {
    /// Not there yet.
    #[default]
    New,
    /// In use.
    InUse,
    /// Out of use.
    Retired,
}

impl State for LensState {
    const NEW: Self = LensState::New;
    const TABLE: &'static [Row<Self>] = &[
        goes(LensState::New, Kind::LensAdded, LensState::InUse),
        stays(LensState::InUse, Kind::Exposed),
        stays(LensState::InUse, Kind::ShutterTested),
        goes(LensState::InUse, Kind::Retired, LensState::Retired),
    ];
    fn word(self) -> &'static str {
        match self {
            LensState::New => "not there yet",
            LensState::InUse => "in use",
            LensState::Retired => "out of use",
        }
    }
}

/// One mark of its shutter, timed several times.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ShutterSession {
    /// The entry that logged it.
    pub entry: EntryId,
    /// When.
    pub at: DateTime<FixedOffset>,
    /// The mark that was set.
    pub mark: Seconds,
    /// The times that were measured, in the order they were taken.
    pub timings: Vec<Seconds>,
    /// The aperture that was set.
    pub aperture: Option<Aperture>,
    /// What it was timed with.
    pub instrument: Option<String>,
}

impl ShutterSession {
    /// The mark and what it gives, in a few words: `1/60 s gives 1/54 s, +0.15 stop, 5 shots`.
    pub fn in_words(&self) -> String {
        shutter_in_words(self.mark, &self.timings)
    }
}

/// What a mark gives, in a few words.
pub(in crate::logbook) fn shutter_in_words(mark: Seconds, timings: &[Seconds]) -> String {
    let shots = match timings.len() {
        1 => "1 shot".to_owned(),
        many => format!("{many} shots"),
    };
    match shutter::test(mark, timings) {
        Ok(figure) => {
            let mean = figure.value.mean;
            // Near 1/8 s and longer, the next fraction is too far away to say it well.
            let mean = if mean.value() < 0.1 {
                shutter::in_fractions(mean)
            } else {
                mean.to_string()
            };
            format!("{mark} gives {mean}, {}, {shots}", figure.value.error)
        }
        Err(_) => format!("{mark}, {shots}"),
    }
}

/// What is known of a lens.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct LensLife {
    /// The state it is in.
    pub state: LensState,
    /// What it is called.
    pub name: String,
    /// How many exposures were made with it.
    pub exposures: u32,
    /// When the last one was made.
    pub used: Option<DateTime<FixedOffset>>,
    /// Its focal length.
    pub focal_length: Option<Millimetres>,
    /// Its widest aperture.
    pub widest: Option<Aperture>,
    /// Its smallest aperture.
    pub smallest: Option<Aperture>,
    /// Its shutter.
    pub shutter: Option<String>,
    /// Its serial number.
    pub serial: Option<String>,
    /// The diameter of its image circle, focused at infinity.
    pub image_circle: Option<Millimetres>,
    /// Exit pupil over entrance pupil.
    pub pupil_ratio: Option<f64>,
    /// From its flange to the film, focused at infinity.
    pub flange: Option<Millimetres>,
    /// Tests of its shutter, oldest first.
    #[serde(default)]
    pub tests: Vec<ShutterSession>,
}

impl Story for LensLife {
    type S = LensState;

    fn state(&self) -> LensState {
        self.state
    }

    fn take_in(&mut self, _me: ThingId, happening: &Happening<'_>, to: LensState, _: &Reference) {
        match happening.deed {
            Deed::LensAdded(added) => {
                self.name.clone_from(&added.name);
                self.focal_length = added.focal_length;
                self.widest = added.widest;
                self.smallest = added.smallest;
                self.shutter.clone_from(&added.shutter);
                self.serial.clone_from(&added.serial);
                self.image_circle = added.image_circle;
                self.pupil_ratio = added.pupil_ratio;
                self.flange = added.flange;
            }
            Deed::ShutterTested(tested) => self.tests.push(ShutterSession {
                entry: happening.entry,
                at: happening.happened,
                mark: tested.mark,
                timings: tested.timings.clone(),
                aperture: tested.aperture,
                instrument: tested.instrument.clone(),
            }),
            Deed::Exposed(_) => {
                self.exposures += 1;
                self.used = self.used.max(Some(happening.happened));
            }
            _ => {}
        }
        self.state = to;
    }

    // A lens sees thousands of exposures, of which only the number and the last matter.

    fn takes_late(&self, deed: &Deed) -> bool {
        self.state == LensState::InUse && matches!(deed, Deed::Exposed(_))
    }

    fn are_alike(was: &Deed, now: &Deed) -> bool {
        was == now || matches!((was, now), (Deed::Exposed(_), Deed::Exposed(_)))
    }
}
