//! Baths: poured into two, tested with a scrap of film, changed round.

use notchbook::craft::{Area, Capacity, Millilitres};
use notchbook::logbook::{Clearing, Deed, Poured, Purpose, ThingId};

use super::{Bath, BathIs, Can, World, comes_in, must, there};

/// A thousandth, as areas and parts of sheets are kept.
fn kept(value: f64, places: f64) -> f64 {
    (value * places).round() / places
}

fn area(value: f64) -> Area {
    Area::new(kept(value, 1e6)).expect("an area")
}

impl Bath {
    /// Whether film takes twice as long to clear in it as it did when it was fresh. All tests here are
    /// of one film.
    pub(crate) fn is_slow(&self) -> bool {
        let fresh = self.clearings.iter().rfind(|test| test.fresh);
        match (fresh, self.clearings.last()) {
            (Some(fresh), Some(last)) => last.time.value() >= 2.0 * fresh.time.value(),
            _ => false,
        }
    }

    /// What so many millilitres of it bring with them.
    pub(crate) fn pour(&self, volume: f64) -> Option<Poured> {
        let share = (volume / self.volume?).min(1.0);
        let of = |count: u32| (f64::from(count) * share + 1e-9).floor() as u32;
        Some(Poured {
            name: "plain developer".to_owned(),
            purpose: Some(Purpose::Developer),
            formula: None,
            concentrate: None,
            dilution: None,
            capacity: self.capacity.map(|capacity| match capacity {
                Capacity::Sheets(sheets) => Capacity::Sheets(of(sheets)),
                Capacity::Of { sheets, size } => Capacity::Of {
                    sheets: kept(sheets * share, 1e3),
                    size,
                },
                Capacity::Area(whole) => Capacity::Area(area(whole.value() * share)),
            }),
            keeps: self.keeps,
            least: self.least.and_then(|least| Millilitres::new(least).ok()),
            mixed: self.mixed,
            uses: of(self.uses),
            area: area(self.area * share),
            unmeasured: of(self.unmeasured),
            total_uses: of(self.total_uses),
            total_area: area(self.total_area * share),
            clearings: self.clearings.clone(),
        })
    }
}

impl World<'_> {
    pub(super) fn bath_happens(&mut self, deed: &Deed, over: bool) -> Can {
        let need = |is_so: bool, why: &'static str| must(is_so || over, why);
        let now = self.now;
        match deed {
            Deed::BathSplit(what) => {
                let bath = there(&mut self.baths, what.bath)?;
                let usable = matches!(bath.is, BathIs::Fresh | BathIs::InUse);
                if usable {
                    let enough = bath.volume.is_some_and(|holds| what.volume.value() < holds);
                    must(enough, "there is not so much of it")?;
                }
                need(usable, "the bath is gone")?;
                let mut part = bath.clone();
                part.second = None;
                part.changes = 0;
                if what.poured.is_none() {
                    part = Bath {
                        capacity: None,
                        uses: 0,
                        area: 0.0,
                        unmeasured: 0,
                        last_day: None,
                        volume: None,
                        least: None,
                        keeps: None,
                        mixed: None,
                        total_uses: 0,
                        total_area: 0.0,
                        clearings: Vec::new(),
                        ..part
                    };
                }
                if let Some(poured) = &what.poured {
                    part.volume = Some(what.volume.value());
                    part.capacity = poured.capacity;
                    part.uses = poured.uses;
                    part.area = poured.area.value();
                    part.unmeasured = poured.unmeasured;
                    part.total_uses = poured.total_uses;
                    part.total_area = poured.total_area.value();
                    part.keeps = poured.keeps;
                    part.mixed = poured.mixed;
                    part.least = poured.least.map(|least| least.value());
                    part.last_day = poured
                        .keeps
                        .zip(poured.mixed)
                        .map(|(keeps, mixed)| keeps.last_day(mixed.date_naive()));
                    part.clearings.clone_from(&poured.clearings);
                    bath.volume = bath
                        .volume
                        .map(|holds| holds - what.volume.value())
                        .filter(|left| *left >= 0.001);
                    bath.capacity = match (bath.capacity, poured.capacity) {
                        (Some(all), Some(part)) => Some(all.without(part)),
                        (all, _) => all,
                    };
                    bath.uses = bath.uses.saturating_sub(poured.uses);
                    bath.area = kept(bath.area - poured.area.value(), 1e6).max(0.0);
                    bath.unmeasured = bath.unmeasured.saturating_sub(poured.unmeasured);
                    bath.total_uses = bath.total_uses.saturating_sub(poured.total_uses);
                    let total = bath.total_area - poured.total_area.value();
                    bath.total_area = kept(total, 1e6).max(0.0);
                }
                part.is = match part.total_uses {
                    0 => BathIs::Fresh,
                    _ => BathIs::InUse,
                };
                comes_in(&mut self.baths, what.part, part)
            }
            Deed::ClearingTested(what) => {
                let bath = there(&mut self.baths, what.bath)?;
                need(bath.is != BathIs::Discarded, "it was thrown away")?;
                let fresh = what.fresh.unwrap_or(bath.clearings.is_empty());
                bath.clearings.push(Clearing {
                    at: now,
                    film: None,
                    time: what.time,
                    fresh,
                });
                Ok(())
            }
            Deed::BathsRotated(what) => {
                let usable = |world: &mut Self, id: Option<ThingId>| match id {
                    Some(id) => {
                        let bath = there(&mut world.baths, id)?;
                        let usable = matches!(bath.is, BathIs::Fresh | BathIs::InUse);
                        must(usable || over, "the bath is gone")
                    }
                    None => Ok(()),
                };
                let first = there(&mut self.baths, what.first)?;
                if first.is != BathIs::Discarded {
                    must(what.second.is_some(), "no second bath stands behind it")?;
                    need(
                        what.changes.is_none_or(|changes| changes <= 3),
                        "changed too often",
                    )?;
                }
                need(first.is != BathIs::Discarded, "it was thrown away")?;
                first.is = BathIs::Discarded;
                usable(self, what.second)?;
                usable(self, what.next)?;
                if let Some(second) = what.second {
                    let second = there(&mut self.baths, second)?;
                    second.second = what.next;
                    second.changes = what.changes.unwrap_or(0);
                }
                Ok(())
            }
            _ => unreachable!("not about a bath alone"),
        }
    }
}
