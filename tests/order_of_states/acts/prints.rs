//! Prints: begun, and brought on by the steps of their process.

use notchbook::logbook::*;
use notchbook::reference::Need;

use super::super::deeds::{begin_print, step};
use super::super::steps::{Says, is_complete, may_follow};
use super::super::world::{Print, PrintIs};
use super::{Hand, is_negative};

impl Hand<'_, '_, '_> {
    pub(super) fn print_begun(&mut self) -> Deed {
        let processes = self.world.reference.processes();
        let process = processes[self.dice.below(processes.len())].id.clone();
        let mut negatives = vec![self.sheet(is_negative)];
        match self.dice.below(20) {
            19 => negatives.clear(),
            16..19 => negatives.push(self.sheet(is_negative)),
            _ => {}
        }
        let mut begun = begin_print(self.new_id(ThingKind::Print), negatives, &process);
        begun.reference = self.name(ThingKind::Print);
        begun.paper = self.dice.percent(50).then(|| self.any(ThingKind::Paper));
        begun.paper_sheets = u32::try_from([1, 1, 1, 1, 2, 0][self.dice.below(6)]).expect("few");
        Deed::PrintBegun(begun)
    }

    /// Everything a print still needs, one step after the other.
    pub(super) fn work_through(&mut self) -> Vec<Deed> {
        let print = self.print(&[PrintIs::InProcess]);
        let Some(life) = self.world.prints.get(&print) else {
            return vec![self.deed()];
        };
        let process = self.world.process(life);
        let mut done = life.steps.clone();
        let mut deeds = Vec::new();
        while !is_complete(process, &done) {
            let next = process.steps.iter().find(|step| {
                !done.contains(&step.id)
                    && step.need == Need::Required
                    && may_follow(process, &done, &step.id) == Says::Fine
            });
            let next = next.or_else(|| {
                let mut steps = process.steps.iter();
                steps.find(|step| may_follow(process, &done, &step.id) == Says::Fine)
            });
            let Some(next) = next.filter(|_| deeds.len() < 20) else {
                break;
            };
            done.push(next.id.clone());
            deeds.push(step(print, &next.id, Vec::new()));
        }
        if deeds.is_empty() {
            deeds.push(self.deed());
        }
        deeds
    }

    /// A step for a print: mostly the one whose turn it is.
    pub(super) fn next_step(&mut self, print: ThingId) -> String {
        let Some(print) = self.world.prints.get(&print) else {
            return "coat".to_owned();
        };
        let print: Print = print.clone();
        let process = self.world.process(&print);
        let fine: Vec<&str> = process
            .steps
            .iter()
            .map(|step| step.id.as_str())
            .filter(|id| may_follow(process, &print.steps, id) == Says::Fine)
            .collect();
        let fresh = fine.iter().find(|id| {
            let required = process
                .step(id)
                .is_some_and(|step| step.need == Need::Required);
            required && !print.steps.iter().any(|done| done == *id)
        });
        match (
            self.dice.weighed(&[(70, 0), (15, 1), (13, 2), (2, 3)]),
            fresh,
        ) {
            (0, Some(fresh)) => (*fresh).to_owned(),
            (2, _) => process.steps[self.dice.below(process.steps.len())]
                .id
                .clone(),
            (3, _) => "polish".to_owned(),
            _ => self.dice.one_of(&fine).unwrap_or("dry").to_owned(),
        }
    }
}
