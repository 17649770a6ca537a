//! The life of a stock of paper: sheets leave it, it is counted, it is used up.

use serde::{Deserialize, Serialize};

use super::{Happening, Row, State, Story, goes, stays};
use crate::craft::Size;
use crate::logbook::{Deed, Kind, Objection, ThingId};
use crate::reference::Reference;

/// The states of a stock of paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PaperState {
    /// Not there yet.
    #[default]
    New,
    /// In stock.
    InStock,
    /// Used up.
    UsedUp,
}

impl State for PaperState {
    const NEW: Self = PaperState::New;
    const TABLE: &'static [Row<Self>] = &[
        goes(PaperState::New, Kind::PaperAdded, PaperState::InStock),
        stays(PaperState::InStock, Kind::PrintBegun),
        stays(PaperState::InStock, Kind::Counted),
        goes(PaperState::InStock, Kind::UsedUp, PaperState::UsedUp),
        goes(PaperState::UsedUp, Kind::Counted, PaperState::InStock),
    ];
    fn word(self) -> &'static str {
        match self {
            PaperState::New => "not there yet",
            PaperState::InStock => "in stock",
            PaperState::UsedUp => "used up",
        }
    }
}

/// What is known of a stock of paper.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct PaperLife {
    /// The state it is in.
    pub state: PaperState,
    /// The paper.
    pub name: String,
    /// What it is.
    pub sort: Option<String>,
    /// The size of its sheets.
    pub size: Option<Size>,
    /// The batch number.
    pub batch: Option<String>,
    /// How many sheets there were.
    pub sheets: u32,
    /// How many are left.
    pub left: u32,
}

impl Story for PaperLife {
    type S = PaperState;

    fn state(&self) -> PaperState {
        self.state
    }

    fn rules_out(&self, kind: Kind) -> bool {
        kind == Kind::PrintBegun && self.left == 0
    }

    fn guard(
        &self,
        _me: ThingId,
        happening: &Happening<'_>,
        _reference: &Reference,
    ) -> Result<(), Objection> {
        match happening.deed {
            Deed::PrintBegun(begun)
                if self.state == PaperState::InStock && begun.paper_sheets > self.left =>
            {
                Err(Objection::NoneLeft {
                    left: self.left,
                    asked: begun.paper_sheets,
                })
            }
            _ => Ok(()),
        }
    }

    fn take_in(&mut self, _me: ThingId, happening: &Happening<'_>, to: PaperState, _: &Reference) {
        self.state = to;
        match happening.deed {
            Deed::PaperAdded(added) => {
                self.name.clone_from(&added.name);
                self.sort.clone_from(&added.sort);
                self.size = Some(added.size);
                self.batch.clone_from(&added.batch);
                self.sheets = added.sheets;
                self.left = added.sheets;
            }
            Deed::PrintBegun(begun) => self.left = self.left.saturating_sub(begun.paper_sheets),
            Deed::Counted(counted) => self.left = counted.sheets,
            Deed::UsedUp(_) => self.left = 0,
            _ => {}
        }
    }
}
