//! The life of a bath: mixed, used, replenished, used up, thrown away.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::{Happening, Row, State, Story, goes, stays};
use crate::craft::{Area, Capacity, Dilution, Keeping, Millilitres};
use crate::logbook::{Deed, Kind, Objection, Purpose, ThingId};
use crate::reference::Reference;

mod wear;

pub(in crate::logbook) use wear::said as day_said;
pub use wear::{SOON_DAYS, Wear};

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
        goes(Fresh, Kind::StepBegun, InUse),
        stays(InUse, Kind::StepBegun),
        goes(Fresh, Kind::PrintStep, InUse),
        stays(InUse, Kind::PrintStep),
        goes(Fresh, Kind::BathReplenished, InUse),
        stays(InUse, Kind::BathReplenished),
        goes(UsedUp, Kind::BathReplenished, InUse),
        // A strip that was developed in it tells of it, long after it is gone.
        stays(Fresh, Kind::StripRead),
        stays(InUse, Kind::StripRead),
        stays(UsedUp, Kind::StripRead),
        stays(Discarded, Kind::StripRead),
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
    /// The formula it was mixed from, as the reference names it.
    pub formula: Option<String>,
    /// The concentrate it was mixed from.
    pub concentrate: Option<String>,
    /// How far it was diluted.
    pub dilution: Option<Dilution>,
    /// How much was mixed.
    pub volume: Option<Millilitres>,
    /// The stock it was drawn from.
    pub stock: Option<ThingId>,
    /// What it is trusted with, since it was mixed or last replenished.
    pub capacity: Option<Capacity>,
    /// How long it keeps.
    pub keeps: Option<Keeping>,
    /// The least stock that develops 80 square inches, one 8x10.
    pub least: Option<Millilitres>,
    /// When it was mixed.
    pub mixed: Option<DateTime<FixedOffset>>,
    /// How many sheets and prints went through it since it was mixed or last replenished.
    pub uses: u32,
    /// Their area, as far as it is known.
    pub area: Area,
    /// How many of them are of a size that is not known.
    pub unmeasured: u32,
    /// How many sheets and prints went through it since it was mixed.
    pub total_uses: u32,
    /// Their area, as far as it is known.
    pub total_area: Area,
}

impl BathLife {
    /// How far it is worn.
    pub fn wear(&self) -> Wear {
        let last_day = self.keeps.zip(self.mixed);
        Wear {
            capacity: self.capacity,
            uses: self.uses,
            area: self.area,
            unmeasured: self.unmeasured,
            last_day: last_day.map(|(keeps, mixed)| keeps.last_day(mixed.date_naive())),
        }
    }

    /// How much stock it holds: its volume without the water it was thinned with.
    pub fn stock_in_it(&self) -> Option<Millilitres> {
        let parts = self.dilution.unwrap_or(Dilution::STOCK).parts();
        let share = parts.first()? / parts.iter().sum::<f64>();
        Millilitres::new(self.volume?.value() * share).ok()
    }

    /// The least stock that an area takes, where it is known.
    pub fn stock_for(&self, area: Area) -> Option<Millilitres> {
        Millilitres::new(self.least?.value() * area.units()).ok()
    }

    /// Whether its capacity stands against so much more going through it.
    fn is_spent(&self, more: More) -> Result<(), Objection> {
        let wear = self.wear();
        let (capacity, whole) = match self.capacity {
            Some(Capacity::Sheets(most)) if self.uses.saturating_add(more.sheets) > most => {
                return Err(Objection::Exhausted {
                    uses: self.uses,
                    more: more.sheets,
                    capacity: most,
                });
            }
            Some(capacity) => match capacity.area() {
                Some(whole) => (capacity, whole),
                None => return Ok(()),
            },
            None => return Ok(()),
        };
        let used = wear.used();
        let area = more.area.unwrap_or_else(|| wear.guessed(more.sheets));
        if used.and(area).without(whole) > Area::NONE || wear.is_exhausted() {
            return Err(Objection::Spent {
                used,
                more: area,
                capacity,
            });
        }
        Ok(())
    }

    /// Whether what a run develops finds stock enough in it.
    fn is_rich_enough(&self, area: Area) -> Result<(), Objection> {
        match (self.stock_in_it(), self.stock_for(area)) {
            (Some(holds), Some(needs)) if holds.value() + 1e-6 < needs.value() => {
                Err(Objection::TooLittle { holds, needs })
            }
            _ => Ok(()),
        }
    }
}

impl Story for BathLife {
    type S = BathState;

    fn state(&self) -> BathState {
        self.state
    }

    /// A bath past its keeping is not ruled out here: a life knows no clock.
    fn rules_out(&self, kind: Kind) -> bool {
        matches!(kind, Kind::RunBegun | Kind::PrintStep) && self.wear().is_exhausted()
    }

    fn guard(
        &self,
        me: ThingId,
        happening: &Happening<'_>,
        _reference: &Reference,
    ) -> Result<(), Objection> {
        if self.state.after(happening.deed.kind()).is_none() {
            return Ok(());
        }
        match happening.deed {
            // An old stock makes no fresh bath.
            Deed::BathMixed(mixed) if mixed.bath != me => self.is_too_old(happening),
            deed => {
                let Some(more) = More::through(me, deed) else {
                    return Ok(());
                };
                self.is_too_old(happening)?;
                self.is_spent(more)?;
                match (deed, more.area) {
                    (Deed::RunBegun(run), Some(area)) if run.developer == Some(me) => {
                        self.is_rich_enough(area)
                    }
                    _ => Ok(()),
                }
            }
        }
    }

    fn take_in(&mut self, me: ThingId, happening: &Happening<'_>, to: BathState, _: &Reference) {
        match happening.deed {
            Deed::BathMixed(mixed) if mixed.bath == me => {
                self.state = to;
                self.name.clone_from(&mixed.name);
                self.purpose = Some(mixed.purpose);
                self.formula.clone_from(&mixed.formula);
                self.concentrate.clone_from(&mixed.concentrate);
                self.dilution = mixed.dilution;
                self.volume = mixed.volume;
                self.stock = mixed.stock;
                self.capacity = mixed.capacity;
                self.keeps = mixed.keeps;
                self.least = mixed.least;
                self.mixed = Some(happening.happened);
            }
            // Drawing from a stock leaves the stock in the state it is in, override or not.
            Deed::BathMixed(_) => {}
            Deed::BathReplenished(_) => {
                self.state = to;
                self.uses = 0;
                self.area = Area::NONE;
                self.unmeasured = 0;
            }
            deed => {
                self.state = to;
                if let Some(more) = More::through(me, deed) {
                    self.count(more);
                }
            }
        }
    }
}

impl BathLife {
    fn is_too_old(&self, happening: &Happening<'_>) -> Result<(), Objection> {
        let wear = self.wear();
        match wear.last_day {
            Some(last) if wear.is_too_old(happening.happened.date_naive()) => {
                Err(Objection::TooOld { last })
            }
            _ => Ok(()),
        }
    }

    fn count(&mut self, more: More) {
        self.uses = self.uses.saturating_add(more.sheets);
        self.total_uses = self.total_uses.saturating_add(more.sheets);
        match more.area {
            Some(area) => {
                self.area = self.area.and(area);
                self.total_area = self.total_area.and(area);
            }
            None => self.unmeasured = self.unmeasured.saturating_add(more.sheets),
        }
    }
}

/// What goes through a bath at once.
#[derive(Clone, Copy, Debug)]
struct More {
    sheets: u32,
    /// `None` where a size is not known.
    area: Option<Area>,
}

impl More {
    /// What goes through the bath `me` by this deed, if anything does.
    fn through(me: ThingId, deed: &Deed) -> Option<More> {
        match deed {
            Deed::RunBegun(run) => Some(More {
                sheets: u32::try_from(run.sheets.len()).unwrap_or(u32::MAX),
                area: run.area,
            }),
            Deed::StepBegun(step) if step.bath == Some(me) => {
                let sheets = step.uses.filter(|uses| *uses > 0)?;
                Some(More {
                    sheets,
                    area: step.area,
                })
            }
            Deed::PrintStep(step) if step.baths.contains(&me) => Some(More {
                sheets: 1,
                area: step.area,
            }),
            _ => None,
        }
    }
}

/// A count of sheets as sentences say it.
fn sheets_said(count: u32) -> String {
    match count {
        1 => "1 sheet".to_owned(),
        _ => format!("{count} sheets"),
    }
}
