//! Film: in a side, before the lens, in a run of development.

use notchbook::logbook::*;

use super::super::deeds::{self, begin_run, expose};
use super::super::world::{SheetIs, SideIs};
use super::Hand;

impl Hand<'_, '_, '_> {
    pub(super) fn at_a_side(&mut self, kind: Kind) -> Deed {
        match kind {
            Kind::Loaded => {
                let side = self.side(|is| is == SideIs::Empty);
                let takes = self.world.sides.get(&side).map(|side| side.takes);
                let boxes = self.world.boxes.iter().filter(|(_, film_box)| {
                    film_box.left > 0 && takes.is_none_or(|takes| takes == film_box.size)
                });
                let boxes: Vec<ThingId> = boxes.map(|(id, _)| *id).collect();
                let film_box = self.pick(&boxes, ThingKind::Box);
                let back = self
                    .world
                    .sheets
                    .values()
                    .any(|sheet| sheet.is == SheetIs::InBox);
                if self.dice.percent(if back { 40 } else { 4 }) {
                    let sheet = self.sheet(|is| is == SheetIs::InBox);
                    let own = self.world.sheets.get(&sheet).map(|sheet| sheet.film_box);
                    let own = own.filter(|_| !self.dice.percent(35)).unwrap_or(film_box);
                    return deeds::load_again(sheet, own, side);
                }
                let sheet = self.new_id(ThingKind::Sheet);
                deeds::load(sheet, &self.name(ThingKind::Sheet), film_box, side)
            }
            Kind::Unloaded => {
                deeds::unload(self.side(|is| matches!(is, SideIs::Loaded | SideIs::Exposed)))
            }
            Kind::SlideSeen => {
                let side = self.side(|is| matches!(is, SideIs::Loaded | SideIs::Exposed));
                let exposed = self.world.sides.get(&side).map(|side| side.is);
                let as_logged = exposed == Some(SideIs::Exposed);
                let shows = if as_logged != self.dice.percent(60) {
                    Slide::Dark
                } else {
                    Slide::Bright
                };
                Deed::SlideSeen(SlideSeen { side, shows })
            }
            Kind::SlideRighted => {
                let doubts = self.world.sides.iter().filter(|(_, side)| side.in_doubt);
                let doubts: Vec<ThingId> = doubts.map(|(id, _)| *id).collect();
                Deed::SlideRighted(SlideRighted {
                    side: self.pick(&doubts, ThingKind::Side),
                    reason: self.reason(),
                })
            }
            Kind::ExposureBegun => {
                let once_more = self.dice.percent(25);
                let side = self.side(|is| match is {
                    SideIs::Loaded => !once_more,
                    SideIs::Exposed => once_more,
                    _ => false,
                });
                let again = once_more && !self.dice.percent(20);
                let mut begun = deeds::begin_exposure(side, again);
                if self.dice.percent(3) {
                    begun.sheet = Some(self.any(ThingKind::Sheet));
                }
                Deed::ExposureBegun(begun)
            }
            Kind::ExposureDropped => {
                let mut dropped = deeds::drop_exposure(self.side(|is| is == SideIs::Open));
                dropped.reason = self.reason();
                Deed::ExposureDropped(dropped)
            }
            _ => {
                let once_more = self.dice.percent(15);
                let side = self.side(|is| match is {
                    SideIs::Loaded | SideIs::Open => !once_more,
                    SideIs::Exposed => once_more,
                    _ => false,
                });
                let mut exposed = expose(side, once_more && !self.dice.percent(30));
                exposed.lens = self.dice.percent(40).then(|| self.any(ThingKind::Lens));
                exposed.camera = self.dice.percent(20).then(|| self.any(ThingKind::Camera));
                match self.dice.below(30) {
                    29 => exposed.sheet = Some(self.any(ThingKind::Sheet)),
                    28 => {
                        exposed.side = None;
                        exposed.sheet = Some(self.sheet(|is| is == SheetIs::Loaded));
                    }
                    27 => exposed.side = None,
                    _ => {}
                }
                Deed::Exposed(exposed)
            }
        }
    }

    pub(super) fn run(&mut self) -> Deed {
        let waits = |is| matches!(is, SheetIs::Exposed | SheetIs::Held);
        let mut sheets = Vec::new();
        for _ in 0..=self.dice.below(3) {
            let sheet = self.sheet(waits);
            if !sheets.contains(&sheet) || self.dice.percent(3) {
                sheets.push(sheet);
            }
        }
        if self.dice.percent(2) {
            sheets.clear();
        }
        let developer = self.bath();
        let mut run = begin_run(self.ids.thing(), &sheets, developer);
        run.reference = self.name(ThingKind::Run);
        if self.dice.percent(4)
            && let Some(first) = run.sheets.first_mut()
        {
            first.side = self.world.sides.keys().next().copied();
        }
        run.fixer = self.bath();
        run.other_baths = self
            .dice
            .percent(5)
            .then(|| self.any(ThingKind::Bath))
            .into_iter()
            .collect();
        Deed::RunBegun(run)
    }
}
