//! What a deed must say to mean anything, whatever has happened before.
//!
//! The lives say what may come next; this says what can never be meant: a run without a sheet, a
//! mat whose window is larger than the mat. A draft is checked here so that the word stands beside
//! the field, and the one way in checks again, because entries also come from files.

use std::collections::HashSet;
use std::hash::Hash;

use super::{Deed, HolderAdded, LensAdded, Matted, Measured, MeterSet};
use crate::craft::{Millimetres, magnification};

/// What makes a deed mean nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{problem}")]
pub struct Nonsense {
    /// The key of the field where it shows.
    pub key: &'static str,
    /// What is wrong and what to do.
    pub problem: &'static str,
}

const fn nonsense(key: &'static str, problem: &'static str) -> Result<(), Nonsense> {
    Err(Nonsense { key, problem })
}

/// Checks that a deed can be meant.
///
/// # Errors
/// The first thing that cannot be meant, with the field it stands in.
pub fn check(deed: &Deed) -> Result<(), Nonsense> {
    if reason(deed).is_some_and(|reason| reason.trim().is_empty()) {
        return nonsense(
            "reason",
            "say why, so that it can be understood years from now",
        );
    }
    match deed {
        Deed::HolderAdded(added) => check_sides(added),
        Deed::BathMixed(mixed) if mixed.stock == Some(mixed.bath) => nonsense(
            "stock",
            "a bath is not drawn from itself: name the stock, or none",
        ),
        Deed::BathMixed(mixed) if mixed.behind == Some(mixed.bath) => nonsense(
            "behind",
            "a bath does not stand behind itself: name the first of the two, or none",
        ),
        Deed::BathSplit(split) if split.bath == split.part => nonsense(
            "bath",
            "a bath is not poured into itself: name the one it is poured out of",
        ),
        Deed::BathsRotated(rotated) if repeats(rotated.named()) => nonsense(
            "next",
            "first, second and new second are three baths: name each once",
        ),
        Deed::Exposed(exposed) if exposed.side.is_none() && exposed.sheet.is_none() => nonsense(
            "side",
            "an exposure is made on a sheet: name the side it is in",
        ),
        Deed::Exposed(exposed) if !exposed.magnification.is_none_or(magnification::is_one) => {
            nonsense(
                "magnification",
                "a magnification is above zero: write 1:4, 0.25 or 2:1",
            )
        }
        Deed::LensAdded(added) => check_lens(added),
        Deed::ShutterTested(tested) if tested.timings.is_empty() => nonsense(
            "timings",
            "a mark that was not timed was not tested: write 1/52 1/55 1/54",
        ),
        Deed::FilterFound(found) if found.stops.value() < 0.0 => nonsense(
            "stops",
            "a filter takes light and gives none: write +2, or x4",
        ),
        Deed::TimeFound(found) if found.needed.value() < found.metered.value() => nonsense(
            "needed",
            "a film never needs less than was metered: exchange the times, or measure again",
        ),
        Deed::MeterSet(set) => check_meter(set),
        Deed::Companions(companions) if companions.sheets.len() < 2 => nonsense(
            "sheets",
            "companions are two sheets or more: name the other one, too",
        ),
        Deed::Companions(companions) if repeats(&companions.sheets) => {
            nonsense("sheets", "a sheet is named twice: name each once")
        }
        Deed::RunBegun(run) if run.sheets.is_empty() => {
            nonsense("sheets", "a run develops a sheet or more: name them")
        }
        Deed::RunBegun(run) if repeats(run.sheets.iter().map(|each| each.sheet)) => {
            nonsense("sheets", "a sheet is named twice: name each once")
        }
        Deed::RunBegun(run) if repeats(run.sheets.iter().filter_map(|each| each.side)) => nonsense(
            "sheets",
            "two sheets came out of one side: name the side of each",
        ),
        Deed::RunEnded(ended) if repeats(&ended.sheets) => {
            nonsense("sheets", "a sheet is named twice: name each once")
        }
        Deed::Measured(measured) => check_densities(measured),
        Deed::PrintBegun(begun) if begun.negatives.is_empty() => nonsense(
            "negatives",
            "a print is made from a negative: name the sheet",
        ),
        Deed::PrintBegun(begun) if repeats(&begun.negatives) => {
            nonsense("negatives", "a negative is named twice: name each once")
        }
        Deed::PrintBegun(begun) if begun.paper_sheets == 0 => {
            nonsense("paper_sheets", "a print takes a sheet of paper or more")
        }
        Deed::Matted(matted) => check_mat(matted),
        Deed::Amended(amended) => check(&amended.deed),
        _ => Ok(()),
    }
}

/// The reason of a deed that is kept with one.
fn reason(deed: &Deed) -> Option<&str> {
    match deed {
        Deed::Retired(retired) => Some(&retired.reason),
        Deed::SlideRighted(righted) => Some(&righted.reason),
        Deed::Fogged(fogged) => Some(&fogged.reason),
        Deed::Spoiled(spoiled) => Some(&spoiled.reason),
        Deed::Lost(lost) => Some(&lost.reason),
        Deed::Discarded(discarded) => Some(&discarded.reason),
        Deed::ExposureDropped(dropped) => Some(&dropped.reason),
        _ => None,
    }
}

fn repeats<T: Eq + Hash>(all: impl IntoIterator<Item = T>) -> bool {
    let mut seen = HashSet::new();
    all.into_iter().any(|one| !seen.insert(one))
}

fn check_sides(added: &HolderAdded) -> Result<(), Nonsense> {
    let matches = usize::try_from(added.sides).is_ok_and(|sides| sides == added.side_ids.len());
    if added.side_ids.is_empty() {
        nonsense("sides", "a holder has a side or more")
    } else if !matches || repeats(&added.side_ids) || added.side_ids.contains(&added.holder) {
        nonsense(
            "sides",
            "as many sides come into being as the holder has, each its own",
        )
    } else {
        Ok(())
    }
}

/// Figures are reckoned from these, so none of them is nothing. Only what no released version took
/// without asking is refused here, for every entry of an older file has to be taken in again.
fn check_lens(added: &LensAdded) -> Result<(), Nonsense> {
    let nothing = |length: Option<Millimetres>| length.is_some_and(|it| it.value() <= 0.0);
    if nothing(added.image_circle) {
        nonsense("image_circle", "an image circle is above zero across")
    } else if added.pupil_ratio.is_some_and(|ratio| ratio <= 0.0) {
        nonsense(
            "pupil_ratio",
            "a pupil ratio is above zero; leave it empty if it is not known",
        )
    } else if nothing(added.flange) {
        nonsense("flange", "from flange to film it is more than nothing")
    } else {
        Ok(())
    }
}

fn check_meter(set: &MeterSet) -> Result<(), Nonsense> {
    let above_zero = |number: Option<f64>| number.is_none_or(|number| number > 0.0);
    if !above_zero(set.reflected) {
        nonsense("reflected", "K is above zero, mostly near 12.5")
    } else if !above_zero(set.incident) {
        nonsense("incident", "C is above zero, mostly near 250 or 330")
    } else if set.reflected.is_none() && set.incident.is_none() {
        nonsense(
            "reflected",
            "a meter is set by one of its constants: write K, C, or both",
        )
    } else {
        Ok(())
    }
}

fn check_densities(measured: &Measured) -> Result<(), Nonsense> {
    if measured.low.value() > measured.high.value() {
        nonsense(
            "high",
            "the densest is not denser than the thinnest: exchange them, or read again",
        )
    } else {
        Ok(())
    }
}

fn check_mat(matted: &Matted) -> Result<(), Nonsense> {
    let ((outer_w, outer_h), (w, h)) = (matted.outer.mm(), matted.window.mm());
    if w < outer_w && h < outer_h {
        Ok(())
    } else {
        nonsense(
            "window",
            "the window is not smaller than the mat: exchange width and height, or measure again",
        )
    }
}
