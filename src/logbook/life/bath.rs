//! The life of a bath: mixed, used, replenished, used up, thrown away.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::{Happening, Row, State, Story, goes, stays};
use crate::craft::{Dilution, Millilitres};
use crate::logbook::{Deed, Kind, Objection, Purpose, ThingId};
use crate::reference::Reference;

/// The states of a bath.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum BathState {
    /// Not there yet.
    #[default]
    New,
    /// Mixed and not used yet.
    Fresh,
    /// In use.
    InUse,
    /// Used up.
    UsedUp,
    /// Thrown away.
    Discarded,
}

use BathState::{Discarded, Fresh, InUse, New, UsedUp};

impl State for BathState {
    const NEW: Self = New;
    const TABLE: &'static [Row<Self>] = &[
        goes(New, Kind::BathMixed, Fresh),
        // Another bath is drawn from this one.
        stays(Fresh, Kind::BathMixed),
        stays(InUse, Kind::BathMixed),
        goes(Fresh, Kind::RunBegun, InUse),
        stays(InUse, Kind::RunBegun),
        goes(Fresh, Kind::PrintStep, InUse),
        stays(InUse, Kind::PrintStep),
        goes(Fresh, Kind::BathReplenished, InUse),
        stays(InUse, Kind::BathReplenished),
        goes(UsedUp, Kind::BathReplenished, InUse),
        goes(Fresh, Kind::UsedUp, UsedUp),
        goes(InUse, Kind::UsedUp, UsedUp),
        goes(Fresh, Kind::Discarded, Discarded),
        goes(InUse, Kind::Discarded, Discarded),
        goes(UsedUp, Kind::Discarded, Discarded),
    ];
    fn word(self) -> &'static str {
        match self {
            New => "not there yet",
            Fresh => "fresh",
            InUse => "in use",
            UsedUp => "used up",
            Discarded => "thrown away",
        }
    }
}

/// What is known of a bath.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct BathLife {
    /// The state it is in.
    pub state: BathState,
    /// What is in it.
    pub name: String,
    /// What it is for.
    pub purpose: Option<Purpose>,
    /// How far it was diluted.
    pub dilution: Option<Dilution>,
    /// How much was mixed.
    pub volume: Option<Millilitres>,
    /// The stock it was drawn from.
    pub stock: Option<ThingId>,
    /// How many sheets it is trusted with, since it was mixed or last replenished.
    pub capacity: Option<u32>,
    /// When it was mixed.
    pub mixed: Option<DateTime<FixedOffset>>,
    /// How many sheets and prints went through it since it was mixed or last replenished.
    pub uses: u32,
}

impl Story for BathLife {
    type S = BathState;

    fn state(&self) -> BathState {
        self.state
    }

    fn rules_out(&self, kind: Kind) -> bool {
        matches!(kind, Kind::RunBegun | Kind::PrintStep)
            && self.capacity.is_some_and(|capacity| self.uses >= capacity)
    }

    fn guard(
        &self,
        me: ThingId,
        happening: &Happening<'_>,
        _reference: &Reference,
    ) -> Result<(), Objection> {
        let more = uses_of(me, happening.deed);
        match self.capacity {
            Some(capacity) if more > 0 && self.uses.saturating_add(more) > capacity => {
                Err(Objection::Exhausted {
                    uses: self.uses,
                    more,
                    capacity,
                })
            }
            _ => Ok(()),
        }
    }

    fn take_in(&mut self, me: ThingId, happening: &Happening<'_>, to: BathState, _: &Reference) {
        match happening.deed {
            Deed::BathMixed(mixed) if mixed.bath == me => {
                self.state = to;
                self.name.clone_from(&mixed.name);
                self.purpose = Some(mixed.purpose);
                self.dilution.clone_from(&mixed.dilution);
                self.volume = mixed.volume;
                self.stock = mixed.stock;
                self.capacity = mixed.capacity;
                self.mixed = Some(happening.happened);
            }
            // Drawing from a stock leaves the stock in the state it is in, override or not.
            Deed::BathMixed(_) => {}
            Deed::BathReplenished(_) => {
                self.state = to;
                self.uses = 0;
            }
            deed => {
                self.state = to;
                self.uses = self.uses.saturating_add(uses_of(me, deed));
            }
        }
    }
}

/// How many sheets or prints go through the bath `me` by this deed.
fn uses_of(me: ThingId, deed: &Deed) -> u32 {
    match deed {
        Deed::RunBegun(run) => u32::try_from(run.sheets.len()).unwrap_or(u32::MAX),
        Deed::PrintStep(step) if step.baths.contains(&me) => 1,
        _ => 0,
    }
}
