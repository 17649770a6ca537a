//! The life of a camera: in use until it is not, with what figures need to know of it.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::{Happening, Row, State, Story, goes, stays};
use crate::craft::{Millimetres, Size};
use crate::logbook::{Deed, Kind, ThingId};
use crate::reference::Reference;

/// The states of a camera.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CameraState {
    /// Not there yet.
    #[default]
    New,
    /// In use.
    InUse,
    /// Out of use.
    Retired,
}

impl State for CameraState {
    const NEW: Self = CameraState::New;
    const TABLE: &'static [Row<Self>] = &[
        goes(CameraState::New, Kind::CameraAdded, CameraState::InUse),
        stays(CameraState::InUse, Kind::Exposed),
        goes(CameraState::InUse, Kind::Retired, CameraState::Retired),
    ];
    fn word(self) -> &'static str {
        match self {
            CameraState::New => "not there yet",
            CameraState::InUse => "in use",
            CameraState::Retired => "out of use",
        }
    }
}

/// What is known of a camera.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct CameraLife {
    /// The state it is in.
    pub state: CameraState,
    /// What it is called.
    pub name: String,
    /// How many exposures were made with it.
    pub exposures: u32,
    /// When the last one was made.
    pub used: Option<DateTime<FixedOffset>>,
    /// The size of sheet it takes.
    pub size: Option<Size>,
    /// The shortest draw of its bellows.
    pub shortest_draw: Option<Millimetres>,
    /// The longest draw of its bellows.
    pub longest_draw: Option<Millimetres>,
}

impl Story for CameraLife {
    type S = CameraState;

    fn state(&self) -> CameraState {
        self.state
    }

    fn take_in(&mut self, _me: ThingId, happening: &Happening<'_>, to: CameraState, _: &Reference) {
        match happening.deed {
            Deed::CameraAdded(added) => {
                self.name.clone_from(&added.name);
                self.size = added.size;
                self.shortest_draw = added.shortest_draw;
                self.longest_draw = added.longest_draw;
            }
            Deed::Exposed(_) => {
                self.exposures += 1;
                self.used = self.used.max(Some(happening.happened));
            }
            _ => {}
        }
        self.state = to;
    }

    // A camera sees thousands of exposures, of which only the number and the last matter.

    fn takes_late(&self, deed: &Deed) -> bool {
        self.state == CameraState::InUse && matches!(deed, Deed::Exposed(_))
    }

    fn are_alike(was: &Deed, now: &Deed) -> bool {
        was == now || matches!((was, now), (Deed::Exposed(_), Deed::Exposed(_)))
    }
}
