//! The life of a set of companion sheets, which is made once.

use serde::{Deserialize, Serialize};

use super::{Happening, Row, State, Story, goes};
use crate::logbook::{Bond, Deed, Kind, ThingId};
use crate::reference::Reference;

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
