//! The life of a holder as a whole; what is in it is the life of its sides.

use serde::{Deserialize, Serialize};

use super::{Happening, Row, State, Story, goes};
use crate::craft::Size;
use crate::logbook::{Deed, Kind, Objection, ThingId};
use crate::reference::Reference;

/// The states of a holder.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum HolderState {
    /// Not there yet.
    #[default]
    New,
    /// In use.
    InUse,
    /// Out of use.
    Retired,
}

impl State for HolderState {
    const NEW: Self = HolderState::New;
    const TABLE: &'static [Row<Self>] = &[
        goes(HolderState::New, Kind::HolderAdded, HolderState::InUse),
        goes(HolderState::InUse, Kind::Retired, HolderState::Retired),
    ];
    fn word(self) -> &'static str {
        match self {
            HolderState::New => "not there yet",
            HolderState::InUse => "in use",
            HolderState::Retired => "out of use",
        }
    }
}

/// What is known of a holder.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct HolderLife {
    /// The state it is in.
    pub state: HolderState,
    /// The size of sheet it takes.
    pub size: Option<Size>,
    /// Its sides, in order.
    pub sides: Vec<ThingId>,
    /// What it is.
    pub make: Option<String>,
}

impl Story for HolderLife {
    type S = HolderState;

    fn state(&self) -> HolderState {
        self.state
    }

    fn guard(
        &self,
        _me: ThingId,
        happening: &Happening<'_>,
        _reference: &Reference,
    ) -> Result<(), Objection> {
        match happening.deed {
            Deed::Retired(retired) if !same_sides(&retired.sides, &self.sides) => {
                Err(Objection::OtherSides)
            }
            _ => Ok(()),
        }
    }

    fn take_in(&mut self, _me: ThingId, happening: &Happening<'_>, to: HolderState, _: &Reference) {
        self.state = to;
        if let Deed::HolderAdded(added) = happening.deed {
            self.size = Some(added.size);
            self.sides.clone_from(&added.side_ids);
            self.make.clone_from(&added.make);
        }
    }
}

/// Whether these are the same sides, in whatever order.
fn same_sides(named: &[ThingId], own: &[ThingId]) -> bool {
    named.len() == own.len() && own.iter().all(|side| named.contains(side))
}
