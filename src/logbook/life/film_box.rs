//! The life of a box of film: it is opened, sheets leave it and come back, it is used up.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::{Happening, Row, State, Story, goes, stays};
use crate::craft::{FilmSpeed, Size};
use crate::logbook::{Deed, Kind, Objection, ThingId};
use crate::reference::Reference;

/// The states of a box.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum BoxState {
    /// Not there yet.
    #[default]
    New,
    /// In stock.
    InStock,
    /// Used up.
    UsedUp,
}

impl State for BoxState {
    const NEW: Self = BoxState::New;
    const TABLE: &'static [Row<Self>] = &[
        goes(BoxState::New, Kind::BoxAdded, BoxState::InStock),
        stays(BoxState::InStock, Kind::Loaded),
        stays(BoxState::InStock, Kind::Unloaded),
        stays(BoxState::InStock, Kind::Counted),
        goes(BoxState::InStock, Kind::UsedUp, BoxState::UsedUp),
        goes(BoxState::UsedUp, Kind::Counted, BoxState::InStock),
        goes(BoxState::UsedUp, Kind::Unloaded, BoxState::InStock),
    ];
    fn word(self) -> &'static str {
        match self {
            BoxState::New => "not there yet",
            BoxState::InStock => "in stock",
            BoxState::UsedUp => "used up",
        }
    }
}

/// What is known of a box.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct BoxLife {
    /// The state it is in.
    pub state: BoxState,
    /// The film.
    pub film: String,
    /// The size of its sheets.
    pub size: Option<Size>,
    /// The speed it is exposed at unless said otherwise.
    pub speed: Option<FilmSpeed>,
    /// The emulsion number.
    pub emulsion: Option<String>,
    /// The date to use it by.
    pub expiry: Option<NaiveDate>,
    /// Where it is kept.
    pub kept: Option<String>,
    /// How many sheets it held.
    pub sheets: u32,
    /// How many are left.
    pub left: u32,
}

impl Story for BoxLife {
    type S = BoxState;

    fn state(&self) -> BoxState {
        self.state
    }

    fn rules_out(&self, kind: Kind) -> bool {
        kind == Kind::Loaded && self.left == 0
    }

    fn guard(
        &self,
        _me: ThingId,
        happening: &Happening<'_>,
        _reference: &Reference,
    ) -> Result<(), Objection> {
        match happening.deed {
            Deed::Loaded(_) if self.state == BoxState::InStock && self.left == 0 => {
                Err(Objection::NoneLeft { left: 0, asked: 1 })
            }
            _ => Ok(()),
        }
    }

    fn take_in(&mut self, _me: ThingId, happening: &Happening<'_>, to: BoxState, _: &Reference) {
        self.state = to;
        match happening.deed {
            Deed::BoxAdded(added) => {
                self.film.clone_from(&added.film);
                self.size = Some(added.size);
                self.speed = added.speed;
                self.emulsion.clone_from(&added.emulsion);
                self.expiry = added.expiry;
                self.kept.clone_from(&added.kept);
                self.sheets = added.sheets;
                self.left = added.sheets;
            }
            // An override may load from a box that counts as empty: then the count was wrong.
            Deed::Loaded(_) => self.left = self.left.saturating_sub(1),
            Deed::Unloaded(_) => self.left = self.left.saturating_add(1),
            Deed::Counted(counted) => self.left = counted.sheets,
            Deed::UsedUp(_) => self.left = 0,
            _ => {}
        }
    }
}
