//! What comes in: boxes, holders, tools, findings, paper and baths.

use notchbook::logbook::*;

use super::super::deeds;
use super::Hand;

impl Hand<'_, '_, '_> {
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
            | Kind::LightFound
            | Kind::MeterSet
            | Kind::PlaceKept => {
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
                let capacity = self.dice.percent(50).then_some(few);
                deeds::bath(id, &self.name(ThingKind::Bath), stock, capacity)
            }
        }
    }
}
