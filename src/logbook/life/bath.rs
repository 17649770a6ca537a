//! The life of a bath: mixed, used, replenished, used up, thrown away.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::{Happening, Row, State, Story, goes, stays};
use crate::craft::solutions::fixing::{EXHAUSTED, MOST_CHANGES};
use crate::craft::{Area, Capacity, Dilution, Keeping, Millilitres, Seconds};
use crate::logbook::deed::{BathsRotated, Clearing, ClearingTested, Poured};
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
        // It is poured off: as fresh as the bath it comes from, or in use as that is.
        goes(New, Kind::BathSplit, Fresh),
        goes(New, Kind::BathSplit, InUse),
        // Another bath is drawn from this one, or stands behind it as the second.
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
        stays(Fresh, Kind::BathSplit),
        stays(InUse, Kind::BathSplit),
        stays(Fresh, Kind::ClearingTested),
        stays(InUse, Kind::ClearingTested),
        stays(UsedUp, Kind::ClearingTested),
        // The first of two is thrown away.
        goes(Fresh, Kind::BathsRotated, Discarded),
        goes(InUse, Kind::BathsRotated, Discarded),
        goes(UsedUp, Kind::BathsRotated, Discarded),
        // The second becomes the first, and a new one the second.
        stays(Fresh, Kind::BathsRotated),
        stays(InUse, Kind::BathsRotated),
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
    /// How long film took to clear in it, test by test.
    pub clearings: Vec<Clearing>,
    /// The bath that stands behind it, when it is the first of two fixing baths.
    pub second: Option<ThingId>,
    /// The bath it stands behind, when it is the second.
    pub first: Option<ThingId>,
    /// How many times the pair was changed of which it is the first.
    pub changes: u32,
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
            clearing: self.clearing(),
        }
    }

    /// How long film cleared in the fresh bath and last, by the film that now takes longest against
    /// its fresh time; `None` where no fresh time is known.
    pub fn clearing(&self) -> Option<(Seconds, Seconds)> {
        let times = self.clearings.iter().enumerate().filter_map(|(at, last)| {
            let newer = self.clearings.get(at + 1..)?;
            if newer.iter().any(|test| same_film(test, last)) {
                return None;
            }
            let tests = self.clearings.get(..=at)?;
            let fresh = tests
                .iter()
                .rfind(|test| test.fresh && same_film(test, last))?;
            Some((fresh.time, last.time))
        });
        let slower = |(fresh, last): &(Seconds, Seconds)| last.value() / fresh.value();
        times.max_by(|one, other| slower(one).total_cmp(&slower(other)))
    }

    /// What a share of it, from 0 to 1, brings with it into a bath of its own.
    pub(in crate::logbook) fn pour(&self, share: f64) -> Poured {
        let of = |count: u32| share_of(count, share);
        Poured {
            name: self.name.clone(),
            purpose: self.purpose,
            formula: self.formula.clone(),
            concentrate: self.concentrate.clone(),
            dilution: self.dilution,
            capacity: self.capacity.map(|capacity| capacity.share(share)),
            keeps: self.keeps,
            least: self.least,
            mixed: self.mixed,
            uses: of(self.uses),
            area: self.area.share(share),
            unmeasured: of(self.unmeasured),
            total_uses: of(self.total_uses),
            total_area: self.total_area.share(share),
            clearings: self.clearings.clone(),
        }
    }

    /// What came out of another bath.
    fn fill(&mut self, volume: Millilitres, poured: &Poured) {
        self.name.clone_from(&poured.name);
        self.purpose = poured.purpose;
        self.formula.clone_from(&poured.formula);
        self.concentrate.clone_from(&poured.concentrate);
        self.dilution = poured.dilution;
        self.volume = Some(volume);
        self.capacity = poured.capacity;
        self.keeps = poured.keeps;
        self.least = poured.least;
        self.mixed = poured.mixed;
        self.uses = poured.uses;
        self.area = poured.area;
        self.unmeasured = poured.unmeasured;
        self.total_uses = poured.total_uses;
        self.total_area = poured.total_area;
        self.clearings.clone_from(&poured.clearings);
    }

    /// What stays when some of it was poured off.
    fn lose(&mut self, volume: Millilitres, poured: &Poured) {
        self.volume = self.less(Some(volume));
        self.capacity = match (self.capacity, poured.capacity) {
            (Some(all), Some(part)) => Some(all.without(part)),
            (all, _) => all,
        };
        self.uses = self.uses.saturating_sub(poured.uses);
        self.area = self.area.without(poured.area);
        self.unmeasured = self.unmeasured.saturating_sub(poured.unmeasured);
        self.total_uses = self.total_uses.saturating_sub(poured.total_uses);
        self.total_area = self.total_area.without(poured.total_area);
    }

    /// Its volume without so much of it.
    fn less(&self, volume: Option<Millilitres>) -> Option<Millilitres> {
        let taken = volume.map_or(0.0, Millilitres::value);
        Millilitres::new(self.volume?.value() - taken).ok()
    }

    fn take_in_test(&mut self, tested: &ClearingTested, at: DateTime<FixedOffset>) {
        let mut test = Clearing {
            at,
            film: tested.film.clone(),
            time: tested.time,
            fresh: false,
        };
        let is_first = match self.total_uses {
            0 => !self.clearings.iter().any(|other| same_film(other, &test)),
            _ => self.clearings.is_empty(),
        };
        test.fresh = tested.fresh.unwrap_or(is_first);
        self.clearings.push(test);
    }

    fn take_in_change(&mut self, me: ThingId, rotated: &BathsRotated) {
        if me == rotated.first {
            self.state = Discarded;
        } else if Some(me) == rotated.second {
            self.first = None;
            self.second = rotated.next;
            self.changes = rotated.changes.unwrap_or(0);
        } else {
            self.first = rotated.second;
        }
    }

    /// Whether so much can be poured off it.
    fn holds(&self, asked: Millilitres) -> Result<(), Objection> {
        match self.volume {
            Some(holds) if asked.value() < holds.value() => Ok(()),
            holds => Err(Objection::Pours { holds, asked }),
        }
    }

    /// Whether it can have its part in a change of two baths.
    fn can_change(&self, me: ThingId, rotated: &BathsRotated) -> Result<(), Objection> {
        if me != rotated.first {
            return match self.state {
                Fresh | InUse => Ok(()),
                _ => Err(Objection::NotNext),
            };
        }
        match (rotated.second, rotated.changes) {
            (None, _) => Err(Objection::NoSecond),
            (_, Some(changes)) if changes > MOST_CHANGES => Err(Objection::ChangedOften {
                changes: changes - 1,
            }),
            _ => Ok(()),
        }
    }

    /// Whether film still clears in it fast enough.
    fn clears(&self) -> Result<(), Objection> {
        match self.clearing() {
            Some((fresh, last)) if last.value() >= fresh.value() * EXHAUSTED - 1e-9 => {
                Err(Objection::ClearsSlowly { fresh, last })
            }
            _ => Ok(()),
        }
    }

    /// How much stock it holds: its volume without the water it was thinned with.
    pub fn stock_in_it(&self) -> Option<Millilitres> {
        stock_in(self.volume, self.dilution)
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
        match kind {
            Kind::RunBegun | Kind::PrintStep => {
                self.wear().is_exhausted() || self.clears().is_err()
            }
            Kind::BathSplit => self.volume.is_none(),
            Kind::BathsRotated => self.second.is_none() || self.changes >= MOST_CHANGES,
            _ => false,
        }
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
            Deed::BathMixed(mixed) if mixed.stock == Some(me) => self.is_too_old(happening),
            Deed::BathSplit(split) if split.bath == me => self.holds(split.volume),
            Deed::BathReplenished(replenished) => match (self.volume, replenished.bleed) {
                (Some(_), Some(bleed)) => self.holds(bleed),
                _ => Ok(()),
            },
            Deed::BathsRotated(rotated) => self.can_change(me, rotated),
            deed => {
                let Some(more) = More::through(me, deed) else {
                    return Ok(());
                };
                self.is_too_old(happening)?;
                self.is_spent(more)?;
                self.clears()?;
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
                self.first = mixed.behind;
            }
            // Drawing from a stock leaves the stock in the state it is in, override or not, and so does
            // a second bath behind it. When more is drawn than there should be, what is left is not known.
            Deed::BathMixed(mixed) => {
                if mixed.stock == Some(me)
                    && let Some(drawn) = stock_in(mixed.volume, mixed.dilution)
                {
                    self.volume = self.less(Some(drawn));
                }
                if mixed.behind == Some(me) {
                    self.second = Some(mixed.bath);
                }
            }
            Deed::BathSplit(split) if split.part == me => {
                self.state = to;
                if let Some(poured) = &split.poured {
                    self.fill(split.volume, poured);
                }
                if self.total_uses > 0 {
                    self.state = InUse;
                }
            }
            Deed::BathSplit(split) => {
                if let Some(poured) = &split.poured {
                    self.lose(split.volume, poured);
                }
            }
            Deed::ClearingTested(tested) => self.take_in_test(tested, happening.happened),
            Deed::BathsRotated(rotated) => self.take_in_change(me, rotated),
            Deed::BathReplenished(replenished) => {
                self.state = to;
                // Without a word on what was taken out, the level was restored.
                if replenished.bleed.is_some()
                    && let Some(left) = self.less(replenished.bleed)
                {
                    let added = replenished.volume.map_or(0.0, Millilitres::value);
                    self.volume = Millilitres::new(left.value() + added).ok();
                }
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

/// Whether two tests can be compared: one film, or one of them does not say.
fn same_film(one: &Clearing, other: &Clearing) -> bool {
    match (&one.film, &other.film) {
        (Some(one), Some(other)) => one.eq_ignore_ascii_case(other),
        _ => true,
    }
}

/// A share of a count, from 0 to 1, rounded down.
fn share_of(count: u32, share: f64) -> u32 {
    match Capacity::Sheets(count).share(share) {
        Capacity::Sheets(part) => part,
        _ => 0,
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

/// How much stock is in so much of a solution.
fn stock_in(volume: Option<Millilitres>, dilution: Option<Dilution>) -> Option<Millilitres> {
    let parts = dilution.unwrap_or(Dilution::STOCK).parts();
    let share = parts.first()? / parts.iter().sum::<f64>();
    Millilitres::new(volume?.value() * share).ok()
}

/// A count of sheets as sentences say it.
fn sheets_said(count: u32) -> String {
    match count {
        1 => "1 sheet".to_owned(),
        _ => format!("{count} sheets"),
    }
}
