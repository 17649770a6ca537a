//! Which cautions are to be shown before something is done and logged.
//!
//! Pane and command line ask here, so both say the same. A caution never stands in the way of an
//! entry; it is said, and the closing sentence of the reference follows it.

use super::counting::sequence_of;
use super::{Deed, Kind, Names, Purpose, StepBegun};
use crate::reference::{Caution, Process, Reference, Step};

/// A piece of work, as far as its cautions go.
#[derive(Clone, Copy, Debug)]
pub enum Work<'a> {
    /// Mixing a solution for something.
    Mixing(Purpose),
    /// Beginning a print in a process.
    Beginning(&'a Process),
    /// A step of a process.
    Step(&'a Step),
    /// Anything else that is logged.
    Other(Kind),
}

/// The cautions that belong to a piece of work, in the order in which they are to be shown.
pub fn of_work<'a>(work: Work<'_>, reference: &'a Reference) -> Vec<&'a Caution> {
    let known = |ids: &[&str]| -> Vec<&'a Caution> {
        ids.iter().filter_map(|id| reference.caution(id)).collect()
    };
    let named = |ids: &[String]| -> Vec<&'a Caution> {
        ids.iter().filter_map(|id| reference.caution(id)).collect()
    };
    match work {
        Work::Mixing(purpose) => known(of_mixing(purpose)),
        Work::Beginning(process) => named(&process.cautions),
        Work::Step(step) => named(&step.cautions),
        Work::Other(Kind::RunBegun) => known(&["developers", "fixer"]),
        Work::Other(Kind::Pressed | Kind::Mounted) => known(&["press-heat"]),
        Work::Other(Kind::Matted) => known(&["blades"]),
        Work::Other(Kind::Framed | Kind::Unframed) => known(&["glass"]),
        Work::Other(_) => Vec::new(),
    }
}

/// The cautions that belong to a deed, in the order in which they are to be shown.
pub fn cautions<'a>(deed: &Deed, names: &dyn Names, reference: &'a Reference) -> Vec<&'a Caution> {
    let work = match deed {
        Deed::BathMixed(mixed) => Some(Work::Mixing(mixed.purpose)),
        Deed::PrintBegun(begun) => reference.process(&begun.process).map(Work::Beginning),
        Deed::PrintStep(step) => names.life_of(step.print).and_then(|life| {
            let process = reference.process(&life.print()?.process)?;
            process.step(&step.step).map(Work::Step)
        }),
        Deed::StepBegun(begun) => return of_timed(begun, names, reference),
        deed => Some(Work::Other(deed.kind())),
    };
    work.map(|work| of_work(work, reference))
        .unwrap_or_default()
}

/// The cautions of a step by the clock: those of its sequence, or of its process.
pub fn of_timed<'a>(
    begun: &StepBegun,
    names: &dyn Names,
    reference: &'a Reference,
) -> Vec<&'a Caution> {
    let Some(life) = names.life_of(begun.thing.id) else {
        return Vec::new();
    };
    let ids = if let Some(run) = life.run() {
        let step = sequence_of(run, reference).and_then(|it| it.step_named(&begun.step));
        step.map(|step| step.cautions.clone())
    } else {
        let process = life
            .print()
            .and_then(|print| reference.process(&print.process));
        let step = process.and_then(|process| process.step(&begun.step));
        step.map(|step| step.cautions.clone())
    };
    let ids = ids.unwrap_or_default();
    ids.iter().filter_map(|id| reference.caution(id)).collect()
}

const fn of_mixing(purpose: Purpose) -> &'static [&'static str] {
    match purpose {
        Purpose::Developer => &["developers", "powders"],
        Purpose::Stop => &["acetic-acid", "acid-into-water"],
        Purpose::Fixer => &["fixer"],
        Purpose::Clearing => &["powders", "hydrochloric-acid", "acid-into-water"],
        Purpose::Toner => &[
            "selenium-toner",
            "sulfide-toner",
            "sulfide-and-acid",
            "gold-chloride",
            "gold-and-ammonia",
        ],
        Purpose::Sensitizer => &[
            "silver-nitrate",
            "ferric-oxalate",
            "platinum-salts",
            "potassium-ferricyanide",
            "ferricyanide-and-acid",
            "potassium-dichromate",
            "powders",
        ],
        Purpose::WashAid | Purpose::Other => &["powders", "acid-into-water"],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_caution_that_is_named_for_mixing_is_known() {
        let reference = Reference::built_in().expect("the built-in reference");
        for purpose in Purpose::ALL.iter().copied() {
            let ids = of_mixing(purpose);
            assert!(!ids.is_empty());
            for id in ids {
                assert!(reference.caution(id).is_some(), "{id}");
            }
        }
        for id in ["developers", "fixer", "press-heat", "blades", "glass"] {
            assert!(reference.caution(id).is_some(), "{id}");
        }
    }
}
