//! At the clock: steps of runs and prints begin, change and end.

use notchbook::logbook::*;

use super::super::deeds::{begin_step, change_step, end_step};
use super::super::world::PrintIs;
use super::Hand;

impl Hand<'_, '_, '_> {
    pub(super) fn at_the_clock(&mut self, kind: Kind) -> Deed {
        let running = self.world.runs.iter().filter(|(_, run)| !run.ended);
        let running: Vec<ThingId> = running.map(|(id, _)| *id).collect();
        let timed: Vec<Thing> = self.world.timed().collect();
        let thing = match self.dice.weighed(&[(55, 0), (25, 1), (17, 2), (3, 3)]) {
            0 if kind != Kind::StepBegun && !timed.is_empty() => {
                self.dice.one_of(&timed).expect("some")
            }
            0 | 1 => Thing::new(ThingKind::Run, self.pick(&running, ThingKind::Run)),
            2 => Thing::new(
                ThingKind::Print,
                self.print(&[PrintIs::InProcess, PrintIs::Dry]),
            ),
            _ => Thing::new(ThingKind::Bath, self.any(ThingKind::Bath)),
        };
        match kind {
            Kind::StepBegun => {
                let step = match thing.kind {
                    ThingKind::Print => self.next_step(thing.id),
                    _ => ["develop", "stop", "fix", "a second rinse", " "][self.dice.below(5)]
                        .to_owned(),
                };
                let bath = self.dice.percent(35).then(|| self.any(ThingKind::Bath));
                Deed::StepBegun(begin_step(thing, &step, bath))
            }
            Kind::StepChanged => {
                let changes = [
                    Change::Pause,
                    Change::Pause,
                    Change::GoOn,
                    Change::MoreTime,
                    Change::Temperature,
                ];
                let change = changes[self.dice.below(changes.len())];
                let mut changed = change_step(thing, change);
                if self.dice.percent(4) {
                    changed.more = None;
                    changed.temperature = None;
                }
                Deed::StepChanged(changed)
            }
            _ => end_step(thing),
        }
    }
}
