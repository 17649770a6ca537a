//! Which thing an act is about: mostly an apt one, now and then any, rarely one nobody knows.

use notchbook::logbook::{ThingId, ThingKind};

use super::super::deeds::reason;
use super::super::world::{BathIs, PrintIs, SheetIs, SideIs};
use super::Hand;

impl Hand<'_, '_, '_> {
    pub(super) fn of_kind(&self, kind: ThingKind) -> Vec<ThingId> {
        let world = &self.world;
        match kind {
            ThingKind::Box => world.boxes.keys().copied().collect(),
            ThingKind::Holder => world.holders.keys().copied().collect(),
            ThingKind::Side => world.sides.keys().copied().collect(),
            ThingKind::Lens => world.lenses.keys().copied().collect(),
            ThingKind::Camera => world.cameras.keys().copied().collect(),
            ThingKind::Finding => world.findings.keys().copied().collect(),
            ThingKind::Sheet => world.sheets.keys().copied().collect(),
            ThingKind::Set => world.sets.iter().copied().collect(),
            ThingKind::Run => world.runs.keys().copied().collect(),
            ThingKind::Bath => world.baths.keys().copied().collect(),
            ThingKind::Paper => world.papers.keys().copied().collect(),
            ThingKind::Print => world.prints.keys().copied().collect(),
        }
    }

    pub(super) fn kind(&mut self, usual: &[ThingKind], odd: ThingKind) -> ThingKind {
        if self.dice.percent(3) {
            return odd;
        }
        self.dice.one_of(usual).expect("some")
    }

    /// One of the apt things, mostly; now and then any of the kind, and rarely one nobody knows.
    pub(super) fn pick(&mut self, apt: &[ThingId], kind: ThingKind) -> ThingId {
        if self.dice.percent(2) {
            return self.ids.thing();
        }
        if !self.dice.percent(12)
            && let Some(id) = self.dice.one_of(apt)
        {
            return id;
        }
        let all = self.of_kind(kind);
        match self.dice.one_of(&all) {
            Some(id) => id,
            None => self.ids.thing(),
        }
    }

    pub(super) fn any(&mut self, kind: ThingKind) -> ThingId {
        let all = self.of_kind(kind);
        self.pick(&all, kind)
    }

    pub(super) fn side(&mut self, apt: impl Fn(SideIs) -> bool) -> ThingId {
        let sides = self.world.sides.iter().filter(|(_, side)| apt(side.is));
        let sides: Vec<ThingId> = sides.map(|(id, _)| *id).collect();
        self.pick(&sides, ThingKind::Side)
    }

    pub(super) fn sheet(&mut self, apt: impl Fn(SheetIs) -> bool) -> ThingId {
        let sheets = self.world.sheets.iter().filter(|(_, sheet)| apt(sheet.is));
        let sheets: Vec<ThingId> = sheets.map(|(id, _)| *id).collect();
        self.pick(&sheets, ThingKind::Sheet)
    }

    pub(super) fn print(&mut self, apt: &[PrintIs]) -> ThingId {
        let prints = self
            .world
            .prints
            .iter()
            .filter(|(_, print)| apt.contains(&print.is));
        let prints: Vec<ThingId> = prints.map(|(id, _)| *id).collect();
        self.pick(&prints, ThingKind::Print)
    }

    pub(super) fn bath(&mut self) -> Option<ThingId> {
        if self.dice.percent(40) {
            return None;
        }
        let good = |is| matches!(is, BathIs::Fresh | BathIs::InUse);
        let baths = self.world.baths.iter().filter(|(_, bath)| good(bath.is));
        let baths: Vec<ThingId> = baths.map(|(id, _)| *id).collect();
        Some(self.pick(&baths, ThingKind::Bath))
    }

    pub(super) fn baths(&mut self) -> Vec<ThingId> {
        if self.dice.percent(30) {
            self.bath().into_iter().collect()
        } else {
            Vec::new()
        }
    }

    /// An id for what comes into being; rarely one that is taken.
    pub(super) fn new_id(&mut self, kind: ThingKind) -> ThingId {
        match self.dice.below(50) {
            49 => self.any(kind),
            48 => self.any(ThingKind::Lens),
            _ => self.ids.thing(),
        }
    }

    /// A name for what comes into being: mostly none.
    pub(super) fn name(&mut self, kind: ThingKind) -> String {
        let name = match self.dice.below(40) {
            39 | 38 => "MINE",
            37 => "THE OTHER",
            36 => "A, B",
            35 => "H-07 A",
            34 => "S-0003",
            33 => "F-01",
            32 => return kind.reference(2).unwrap_or_default(),
            _ => "",
        };
        name.to_owned()
    }

    pub(super) fn reason(&mut self) -> String {
        if self.dice.percent(3) {
            "  ".to_owned()
        } else {
            reason()
        }
    }
}
