//! The lives that have no order to speak of: lenses and cameras, which are in use until they are
//! not, and sets of companion sheets, which are made once.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::{Happening, Row, State, Story, goes, stays};
use crate::logbook::{Bond, Deed, Kind, Objection, ThingId};
use crate::reference::Reference;

/// The states of a lens or a camera.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ToolState {
    /// Not there yet.
    #[default]
    New,
    /// In use.
    InUse,
    /// Out of use.
    Retired,
}

impl State for ToolState {
    const NEW: Self = ToolState::New;
    const TABLE: &'static [Row<Self>] = &[
        goes(ToolState::New, Kind::LensAdded, ToolState::InUse),
        goes(ToolState::New, Kind::CameraAdded, ToolState::InUse),
        stays(ToolState::InUse, Kind::Exposed),
        goes(ToolState::InUse, Kind::Retired, ToolState::Retired),
    ];
    fn word(self) -> &'static str {
        match self {
            ToolState::New => "not there yet",
            ToolState::InUse => "in use",
            ToolState::Retired => "out of use",
        }
    }
}

/// What is known of a lens or a camera.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct ToolLife {
    /// The state it is in.
    pub state: ToolState,
    /// What it is called.
    pub name: String,
    /// How many exposures were made with it.
    pub exposures: u32,
    /// When the last one was made.
    pub used: Option<DateTime<FixedOffset>>,
}

impl Story for ToolLife {
    type S = ToolState;

    fn state(&self) -> ToolState {
        self.state
    }

    fn guard(
        &self,
        _me: ThingId,
        happening: &Happening<'_>,
        _reference: &Reference,
    ) -> Result<(), Objection> {
        match happening.deed {
            Deed::Retired(retired) if !retired.sides.is_empty() => Err(Objection::OtherSides),
            _ => Ok(()),
        }
    }

    fn take_in(&mut self, _me: ThingId, happening: &Happening<'_>, to: ToolState, _: &Reference) {
        match happening.deed {
            Deed::LensAdded(added) => self.name.clone_from(&added.name),
            Deed::CameraAdded(added) => self.name.clone_from(&added.name),
            Deed::Exposed(_) => {
                self.exposures += 1;
                self.used = self.used.max(Some(happening.happened));
            }
            _ => {}
        }
        self.state = to;
    }

    // A lens or a camera sees thousands of exposures, of which only the number and the last matter.

    fn takes_late(&self, deed: &Deed) -> bool {
        self.state == ToolState::InUse && matches!(deed, Deed::Exposed(_))
    }

    fn are_alike(was: &Deed, now: &Deed) -> bool {
        was == now || matches!((was, now), (Deed::Exposed(_), Deed::Exposed(_)))
    }
}

/// The states of a set of companion sheets.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SetState {
    /// Not there yet.
    #[default]
    New,
    /// Linked.
    Linked,
}

impl State for SetState {
    const NEW: Self = SetState::New;
    const TABLE: &'static [Row<Self>] = &[goes(SetState::New, Kind::Companions, SetState::Linked)];
    fn word(self) -> &'static str {
        match self {
            SetState::New => "not there yet",
            SetState::Linked => "linked",
        }
    }
}

/// What is known of a set of companion sheets.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct SetLife {
    /// The state it is in.
    pub state: SetState,
    /// The sheets in it.
    pub sheets: Vec<ThingId>,
    /// What they are to each other.
    pub bond: Option<Bond>,
}

impl Story for SetLife {
    type S = SetState;

    fn state(&self) -> SetState {
        self.state
    }

    fn take_in(&mut self, _me: ThingId, happening: &Happening<'_>, to: SetState, _: &Reference) {
        self.state = to;
        if let Deed::Companions(companions) = happening.deed {
            self.sheets.clone_from(&companions.sheets);
            self.bond = Some(companions.bond);
        }
    }
}
