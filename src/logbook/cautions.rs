//! Which cautions are to be shown before something is done and logged.
//!
//! Pane and command line ask here, so both say the same. A caution never stands in the way of an
//! entry; it is said, and the closing sentence of the reference follows it.

use super::{Deed, Names, Purpose};
use crate::reference::{Caution, Reference};

/// The cautions that belong to a deed, in the order in which they are to be shown.
pub fn cautions<'a>(deed: &Deed, names: &dyn Names, reference: &'a Reference) -> Vec<&'a Caution> {
    let known = |ids: &[&str]| -> Vec<&'a Caution> {
        ids.iter().filter_map(|id| reference.caution(id)).collect()
    };
    match deed {
        Deed::BathMixed(mixed) => known(of_mixing(mixed.purpose)),
        Deed::RunBegun(_) => known(&["developers", "fixer"]),
        Deed::PrintBegun(begun) => reference
            .process(&begun.process)
            .map(|process| reference.cautions_of(&process.cautions).collect())
            .unwrap_or_default(),
        Deed::PrintStep(step) => names
            .life_of(step.print)
            .and_then(|life| {
                let process = reference.process(&life.print()?.process)?;
                let step = process.step(&step.step)?;
                Some(reference.cautions_of(&step.cautions).collect())
            })
            .unwrap_or_default(),
        Deed::Pressed(_) | Deed::Mounted(_) => known(&["press-heat"]),
        Deed::Matted(_) => known(&["blades"]),
        Deed::Framed(_) | Deed::Unframed(_) => known(&["glass"]),
        _ => Vec::new(),
    }
}

const fn of_mixing(purpose: Purpose) -> &'static [&'static str] {
    match purpose {
        Purpose::Developer => &["developers", "powders"],
        Purpose::Stop => &["acetic-acid", "acid-into-water"],
        Purpose::Fixer => &["fixer"],
        Purpose::Clearing => &["powders", "acid-into-water"],
        Purpose::Toner => &[
            "selenium-toner",
            "sulfide-toner",
            "sulfide-and-acid",
            "gold-and-ammonia",
        ],
        Purpose::Sensitizer => &["powders", "ferricyanide-and-acid", "silver-nitrate"],
        Purpose::WashAid | Purpose::Other => &["powders"],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_caution_that_is_named_for_mixing_is_known() {
        let reference = Reference::built_in().expect("the built-in reference");
        for purpose in [
            Purpose::Developer,
            Purpose::Stop,
            Purpose::Fixer,
            Purpose::Clearing,
            Purpose::WashAid,
            Purpose::Toner,
            Purpose::Sensitizer,
            Purpose::Other,
        ] {
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
