//! Words about entries: strikes, and what an entry should have said.

use notchbook::logbook::*;

use super::super::deeds;
use super::super::world::{SheetIs, SideIs};
use super::{Hand, Moment, is_negative, when};

impl Hand<'_, '_, '_> {
    pub(super) fn strike(&mut self) -> Deed {
        let recent = self.dice.percent(70);
        let entry = self.some_entry(if recent { 5 } else { 200 });
        Deed::Struck(Struck {
            entry,
            reason: self.reason(),
            touches: Vec::new(),
        })
    }

    pub(super) fn some_entry(&mut self, back: usize) -> EntryId {
        let entries = &self.model.entries;
        if entries.is_empty() || self.dice.percent(3) {
            return self.ids.entry();
        }
        let back = back.min(entries.len());
        entries[entries.len() - 1 - self.dice.below(back)].id
    }

    pub(super) fn amendment(&mut self, now: Moment) -> Deed {
        let recent = self.dice.percent(60);
        let entry = self.some_entry(if recent { 6 } else { 200 });
        let model = self.model;
        let counting = model.counting();
        let was = match counting.iter().find(|one| one.id == entry) {
            Some(one) => deeds::unsaid(one.deed),
            None => self.deed(),
        };
        let deed = if self.dice.percent(3) {
            self.deed()
        } else {
            self.changed(was)
        };
        let happened = self.dice.percent(35).then(|| when(self.dice, model, now));
        Deed::Amended(Amended {
            entry,
            deed: Box::new(deed),
            happened,
            reason: self.reason(),
            touches: Vec::new(),
        })
    }

    /// What an entry should have said.
    pub(super) fn changed(&mut self, mut deed: Deed) -> Deed {
        if deed.creates().is_some() && self.dice.percent(25) {
            let kind = deed.creates().map(|(thing, _)| thing.kind);
            let name = self.name(kind.expect("it creates something"));
            deed.name_created(name);
        }
        match &mut deed {
            Deed::BoxAdded(what) => what.sheets = u32::try_from(self.dice.below(6)).expect("few"),
            Deed::PaperAdded(what) => what.sheets = u32::try_from(self.dice.below(4)).expect("few"),
            Deed::HolderAdded(what) => match self.dice.below(4) {
                0 => what.size = deeds::size("4x5"),
                1 => {
                    what.side_ids.push(self.ids.thing());
                    what.sides += 1;
                }
                2 => {
                    what.side_ids.pop();
                    what.sides = u32::try_from(what.side_ids.len()).expect("few");
                }
                _ => what.make = Some("wood".to_owned()),
            },
            Deed::BathMixed(what) => match self.dice.below(4) {
                0 => what.capacity = Some(self.capacity()),
                1 => what.keeps = Some(self.keeping()),
                2 => what.stock = Some(self.any(ThingKind::Bath)),
                _ => what.capacity = None,
            },
            Deed::Counted(what) => what.sheets = u32::try_from(self.dice.below(4)).expect("few"),
            Deed::Loaded(what) => match self.dice.below(3) {
                0 => what.side = self.side(|is| is == SideIs::Empty),
                1 => what.film_box = self.any(ThingKind::Box),
                _ => {}
            },
            Deed::Unloaded(what) => what.side = self.side(|is| is != SideIs::Empty),
            Deed::Exposed(what) => match self.dice.below(4) {
                0 => {
                    what.side = Some(self.side(|is| is == SideIs::Loaded));
                    what.sheet = None;
                }
                1 => what.again = !what.again,
                2 => what.lens = Some(self.any(ThingKind::Lens)),
                _ => what.subject = Some("thaw".to_owned()),
            },
            Deed::ExposureBegun(what) => match self.dice.below(3) {
                0 => what.side = self.side(|is| is == SideIs::Loaded),
                1 => what.again = !what.again,
                _ => {}
            },
            Deed::ExposureDropped(what) => what.side = self.side(|is| is == SideIs::Open),
            Deed::SlideSeen(what) => what.shows = Slide::Bright,
            Deed::Fogged(what) => what.sheet = self.any(ThingKind::Sheet),
            Deed::Companions(what) => what.sheets.push(self.any(ThingKind::Sheet)),
            Deed::RunBegun(what) => match self.dice.below(3) {
                0 => {
                    let sheet = self.sheet(|is| matches!(is, SheetIs::Exposed | SheetIs::Held));
                    what.sheets.push(SheetInRun { sheet, side: None });
                }
                1 => {
                    what.sheets.pop();
                }
                _ => what.developer = self.bath(),
            },
            Deed::StripRead(what) => match self.dice.below(3) {
                0 => what.sheet = Some(self.sheet(is_negative)),
                1 if what.sheet.is_none() => what.bath = Some(self.any(ThingKind::Bath)),
                _ => what.base_fog = Some(deeds::density(0.12)),
            },
            Deed::PrintBegun(what) => what.negatives = vec![self.sheet(is_negative)],
            Deed::PrintStep(what) => what.step = self.next_step(what.print),
            Deed::Placed(what) => what.whereabouts = Whereabouts::Lent,
            _ => {}
        }
        deed
    }
}
