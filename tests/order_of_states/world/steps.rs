//! What happens at the clock of a run or a print.

use notchbook::logbook::{Change, Deed, Thing, ThingId, ThingKind};

use super::{BathIs, Can, Load, PrintIs, World, must, there};

/// What was timed: how many steps were begun, and the one that is under way.
#[derive(Clone, Debug, Default)]
pub(crate) struct Timed {
    pub(crate) begun: usize,
    pub(crate) under_way: Option<String>,
    pub(crate) still: bool,
}

impl Timed {
    pub(super) fn end(&mut self) {
        self.under_way = None;
        self.still = false;
    }

    pub(crate) fn told(&self) -> String {
        Timed::in_words(self.begun, self.under_way.as_deref(), self.still)
    }

    pub(crate) fn in_words(begun: usize, under_way: Option<&str>, still: bool) -> String {
        format!("{begun} steps, {} {still}", under_way.unwrap_or("none"))
    }
}

impl PrintIs {
    pub(super) const fn can_be_wet(self) -> bool {
        matches!(
            self,
            PrintIs::InProcess | PrintIs::Dry | PrintIs::Pressed | PrintIs::Mounted
        )
    }
}

impl World<'_> {
    /// Whatever has a step under way.
    pub(crate) fn timed(&self) -> impl Iterator<Item = Thing> + '_ {
        let runs = self
            .runs
            .iter()
            .filter(|(_, run)| run.timed.under_way.is_some());
        let runs = runs.map(|(id, _)| Thing::new(ThingKind::Run, *id));
        let prints = self.prints.iter();
        let prints = prints.filter(|(_, print)| print.timed.under_way.is_some());
        runs.chain(prints.map(|(id, _)| Thing::new(ThingKind::Print, *id)))
    }

    fn timed_of(&mut self, thing: Thing) -> Result<&mut Timed, super::No> {
        match thing.kind {
            ThingKind::Run => there(&mut self.runs, thing.id).map(|run| &mut run.timed),
            _ => there(&mut self.prints, thing.id).map(|print| &mut print.timed),
        }
    }

    /// Whether anything may happen at the clock of a thing.
    fn may_be_timed(&mut self, thing: Thing, over: bool) -> Can {
        let usual = match thing.kind {
            ThingKind::Run => !there(&mut self.runs, thing.id)?.ended,
            _ => {
                let print = there(&mut self.prints, thing.id)?;
                print.is.can_be_wet() && !print.away
            }
        };
        must(usual || over, "it is not under way")
    }

    pub(super) fn step_happens(&mut self, deed: &Deed, over: bool) -> Can {
        match deed {
            Deed::StepBegun(what) => {
                if let Some(bath) = what.bath {
                    let load = Load {
                        sheets: what.uses.unwrap_or(0),
                        area: what.area.map(|area| area.value()),
                        develops: false,
                    };
                    self.bath_of_a_step(bath, load, over)?;
                }
                self.may_be_timed(what.thing, over)?;
                if what.thing.kind == ThingKind::Print {
                    self.may_be_done(what.thing.id, &what.step, over)?;
                } else if let Some(bath) = what.bath {
                    let run = there(&mut self.runs, what.thing.id)?;
                    if !run.baths.contains(&bath) {
                        run.baths.push(bath);
                    }
                }
                let timed = self.timed_of(what.thing)?;
                timed.begun += 1;
                timed.under_way = Some(what.step.clone());
                timed.still = false;
                Ok(())
            }
            Deed::StepChanged(what) => {
                self.may_be_timed(what.thing, over)?;
                let timed = self.timed_of(what.thing)?;
                must(timed.under_way.is_some(), "no step is under way")?;
                match what.change {
                    Change::Pause => {
                        must(!timed.still, "it stands still already")?;
                        timed.still = true;
                    }
                    Change::GoOn => {
                        must(timed.still, "it goes on already")?;
                        timed.still = false;
                    }
                    Change::MoreTime | Change::Temperature => {}
                }
                Ok(())
            }
            Deed::StepEnded(what) => {
                self.may_be_timed(what.thing, over)?;
                let timed = self.timed_of(what.thing)?;
                must(timed.under_way.is_some(), "no step is under way")?;
                timed.end();
                Ok(())
            }
            _ => unreachable!("not at the clock"),
        }
    }

    /// A bath is used by a step; sheets that went through it before are not counted again.
    fn bath_of_a_step(&mut self, bath: ThingId, load: Load, over: bool) -> Can {
        if load.sheets > 0 {
            return self.goes_through(bath, load, over);
        }
        let bath = there(&mut self.baths, bath)?;
        let usable = matches!(bath.is, BathIs::Fresh | BathIs::InUse);
        must(over || usable, "the bath is gone")?;
        bath.is = BathIs::InUse;
        Ok(())
    }
}
