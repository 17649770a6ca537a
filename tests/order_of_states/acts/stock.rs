//! What comes in: boxes, holders, tools, findings, paper and baths.

use chrono::Days;
use notchbook::craft::{Area, Capacity, Keeping, Millilitres};
use notchbook::logbook::*;

use super::super::deeds;
use super::super::world::BathIs;
use super::{Hand, is_negative};

impl Hand<'_, '_, '_> {
    pub(super) fn capacity(&mut self) -> Capacity {
        let few = u32::try_from(1 + self.dice.below(4)).expect("few");
        let size = deeds::size(if self.dice.percent(50) { "4x5" } else { "8x10" });
        match self.dice.below(3) {
            0 => Capacity::Sheets(few),
            1 => Capacity::Of {
                sheets: f64::from(few),
                size,
            },
            _ => Capacity::Area(Area::of(size, f64::from(few)).expect("an area")),
        }
    }

    pub(super) fn keeping(&mut self) -> Keeping {
        match self.dice.below(3) {
            0 => Keeping::Days(1),
            1 => Keeping::Until(deeds::first_day() - Days::new(1)),
            _ => Keeping::Until(self.world.today.max(deeds::first_day())),
        }
    }

    pub(super) fn comes_in(&mut self, kind: Kind) -> Deed {
        let few = u32::try_from(1 + self.dice.below(4)).expect("few");
        let of = if self.dice.percent(25) { "4x5" } else { "8x10" };
        match kind {
            Kind::BoxAdded => {
                let id = self.new_id(ThingKind::Box);
                deeds::film_box(id, &self.name(ThingKind::Box), of, few)
            }
            Kind::HolderAdded => {
                let id = self.new_id(ThingKind::Holder);
                let mut sides = vec![self.ids.thing(), self.ids.thing()];
                match self.dice.below(40) {
                    39 => sides.clear(),
                    38 => sides[1] = self.any(ThingKind::Side),
                    37 => sides[1] = sides[0],
                    36 => sides[1] = self.any(ThingKind::Sheet),
                    30..36 => sides.truncate(1),
                    _ => {}
                }
                deeds::holder(id, &self.name(ThingKind::Holder), of, sides)
            }
            Kind::LensAdded => {
                let id = self.new_id(ThingKind::Lens);
                deeds::lens(id, &self.name(ThingKind::Lens))
            }
            Kind::CameraAdded => {
                let id = self.new_id(ThingKind::Camera);
                deeds::camera(id, &self.name(ThingKind::Camera))
            }
            Kind::FilterFound
            | Kind::TimeFound
            | Kind::FilmFound
            | Kind::FormatFound
            | Kind::DevelopmentFound
            | Kind::LightFound
            | Kind::MeterSet
            | Kind::PlaceKept
            | Kind::TabletFound
            | Kind::LimitsSet => {
                let id = self.new_id(ThingKind::Finding);
                let mut found = deeds::found(kind, id, &self.name(ThingKind::Finding));
                if self.dice.percent(8) {
                    deeds::spoil(&mut found);
                }
                found
            }
            Kind::PaperAdded => {
                let id = self.new_id(ThingKind::Paper);
                deeds::paper(id, &self.name(ThingKind::Paper), few)
            }
            _ => {
                let id = self.new_id(ThingKind::Bath);
                let stock = self.dice.percent(30).then(|| self.any(ThingKind::Bath));
                let stock = if self.dice.percent(3) {
                    Some(id)
                } else {
                    stock
                };
                let capacity = self.dice.percent(60).then(|| self.capacity());
                let mut mixed = deeds::bath(id, &self.name(ThingKind::Bath), stock, capacity);
                if let Deed::BathMixed(what) = &mut mixed {
                    what.keeps = self.dice.percent(20).then(|| self.keeping());
                    what.behind = self.dice.percent(25).then(|| self.any(ThingKind::Bath));
                    if self.dice.percent(40) {
                        what.volume = Millilitres::new(100.0).ok();
                        what.least = Millilitres::new(250.0).ok();
                    }
                }
                mixed
            }
        }
    }

    /// A strip on a sheet, or one of a bath, or one of which the logbook knows nothing.
    pub(super) fn strip(&mut self) -> Deed {
        let id = self.new_id(ThingKind::Finding);
        let mut strip = deeds::strip(id, &self.name(ThingKind::Finding));
        match self.dice.below(4) {
            0 | 1 => strip.sheet = Some(self.sheet(is_negative)),
            2 => {
                strip.bath = Some(self.any(ThingKind::Bath));
                strip.film = Some(deeds::FILM.to_owned());
            }
            _ => {
                strip.film = Some("Other Pan".to_owned());
                strip.developer = Some("another developer".to_owned());
            }
        }
        let mut strip = Deed::StripRead(strip);
        if self.dice.percent(8) {
            deeds::spoil(&mut strip);
        }
        strip
    }
}

impl Hand<'_, '_, '_> {
    /// What is done with baths that are there.
    pub(super) fn at_baths(&mut self, kind: Kind) -> Deed {
        let whole: Vec<ThingId> = self
            .world
            .baths
            .iter()
            .filter(|(_, bath)| bath.volume.is_some() && bath.is != BathIs::Discarded)
            .map(|(id, _)| *id)
            .collect();
        let paired: Vec<ThingId> = self
            .world
            .baths
            .iter()
            .filter(|(_, bath)| bath.second.is_some() && bath.is != BathIs::Discarded)
            .map(|(id, _)| *id)
            .collect();
        match kind {
            Kind::BathSplit => {
                let bath = self.pick(&whole, ThingKind::Bath);
                let part = if self.dice.percent(3) {
                    bath
                } else {
                    self.new_id(ThingKind::Bath)
                };
                let volume = if self.dice.percent(15) { 400.0 } else { 30.0 };
                deeds::split(bath, part, &self.name(ThingKind::Bath), volume)
            }
            Kind::ClearingTested => {
                let bath = self.any(ThingKind::Bath);
                let seconds = if self.dice.percent(30) { 60.0 } else { 30.0 };
                deeds::clear(bath, seconds)
            }
            _ => {
                let first = self.pick(&paired, ThingKind::Bath);
                let second = self.dice.percent(15).then(|| self.any(ThingKind::Bath));
                let next = self.dice.percent(60).then(|| self.any(ThingKind::Bath));
                deeds::rotate(first, second, next)
            }
        }
    }
}
