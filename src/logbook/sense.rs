//! What a deed must say to mean anything, whatever has happened before.
//!
//! The lives say what may come next; this says what can never be meant: a run without a sheet, a
//! mat whose window is larger than the mat. A draft is checked here so that the word stands beside
//! the field, and the one way in checks again, because entries also come from files.

use std::collections::HashSet;
use std::hash::Hash;

use super::{
    Change, Deed, FilmFound, FormatFound, HolderAdded, LensAdded, LimitsSet, Matted, Measured,
    MeterSet, StepBegun, StepChanged, StepEnded, StripRead, TabletFound, ThingKind,
};
use crate::craft::{Millimetres, Size, magnification};

/// Temperatures of developers, in degrees Celsius.
const DEVELOPED_AT: std::ops::RangeInclusive<f64> = 5.0..=45.0;
/// Average gradients of negatives.
const GRADIENTS: std::ops::RangeInclusive<f64> = 0.1..=4.0;

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
        Deed::FilmFound(found) => check_film(found),
        Deed::FormatFound(found) => check_format(found),
        Deed::DevelopmentFound(found) if !DEVELOPED_AT.contains(&found.temperature.value()) => {
            nonsense(
                "temperature",
                "film is not developed at this temperature: give one from 5 to 45 C",
            )
        }
        Deed::DevelopmentFound(found)
            if found.gradient.is_some_and(|it| !GRADIENTS.contains(&it)) =>
        {
            nonsense(
                "gradient",
                "an average gradient lies between 0.1 and 4: write 0.58",
            )
        }
        Deed::MeterSet(set) => check_meter(set),
        Deed::StripRead(read) => check_strip(read),
        Deed::TabletFound(found) => check_tablet(found),
        Deed::LimitsSet(set) => check_limits(set),
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
        Deed::StepBegun(begun) if begun.step.trim().is_empty() => {
            nonsense("step", "say which step begins")
        }
        Deed::StepBegun(StepBegun { thing, .. })
        | Deed::StepChanged(StepChanged { thing, .. })
        | Deed::StepEnded(StepEnded { thing, .. })
            if !matches!(thing.kind, ThingKind::Run | ThingKind::Print) =>
        {
            nonsense(
                "thing",
                "the steps of a run or of a print are counted: name one",
            )
        }
        Deed::StepChanged(changed) => check_change(changed),
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

fn check_film(found: &FilmFound) -> Result<(), Nonsense> {
    let has_maker = found.maker.as_ref().is_some_and(|it| !it.trim().is_empty());
    if !found.film.chars().any(char::is_alphanumeric) {
        nonsense(
            "film",
            "a film has a name with letters or digits in it: write it as it stands on the box",
        )
    } else if found.speed.is_none() && found.kind.is_none() && !has_maker {
        nonsense(
            "speed",
            "something was found out about the film: write its speed, its maker or its kind",
        )
    } else {
        Ok(())
    }
}

/// By how much a sheet may be larger than its name says, in millimetres; none is known that is.
const OVER: f64 = 2.0;

fn check_format(found: &FormatFound) -> Result<(), Nonsense> {
    let nothing = |length: Option<Millimetres>| length.is_some_and(|it| it.value() <= 0.0);
    let larger = |one: Size, than: Size| {
        let (one, than) = (sides(one), sides(than));
        one.0 > than.0 + OVER || one.1 > than.1 + OVER
    };
    let sheet = found.cut.unwrap_or(found.size);
    if found
        .name
        .as_ref()
        .is_some_and(|name| !name.chars().any(char::is_alphanumeric))
    {
        nonsense(
            "name",
            "a name has letters or digits in it; leave it empty if it goes by its size",
        )
    } else if found.image.is_none() && found.cut.is_none() && found.depth.is_none() {
        nonsense(
            "image",
            "something was measured: write the image area, the cut sheet or the holder depth",
        )
    } else if found.cut.is_some_and(|cut| larger(cut, found.size)) {
        nonsense(
            "cut",
            "a sheet is not cut larger than the size in its name: write 101x126 mm, with the unit",
        )
    } else if found.image.is_some_and(|image| larger(image, sheet)) {
        nonsense(
            "image",
            "the picture is not larger than its sheet: write 96x120 mm, with the unit",
        )
    } else if nothing(found.depth) {
        nonsense("depth", "from face to septum it is more than nothing")
    } else if found.tolerance.is_some() && found.depth.is_none() {
        nonsense("depth", "holders differ from a depth: write that, too")
    } else if found.depth < found.tolerance && found.tolerance.is_some() {
        nonsense(
            "tolerance",
            "holders do not differ by more than they are deep: exchange the two",
        )
    } else {
        Ok(())
    }
}

/// The sides of a size in millimetres, the short one first.
fn sides(size: Size) -> (f64, f64) {
    let (one, other) = size.mm();
    (one.min(other), one.max(other))
}

/// A strip that passes makes a curve.
fn check_strip(strip: &StripRead) -> Result<(), Nonsense> {
    if strip.sheet.is_none() && strip.film.is_none() {
        return nonsense("film", "name the film, or the sheet the strip is on");
    }
    let Ok(tablet) = strip.through() else {
        return nonsense(
            "tablet",
            "a tablet has 11, 21 or 31 steps, or the density of each is given, from the clearest on",
        );
    };
    if strip.readings.len() != tablet.count() {
        return nonsense(
            "readings",
            "there is a place for every step of the tablet and for no other",
        );
    }
    if strip.readings.iter().flatten().count() < 4 {
        return nonsense(
            "readings",
            "fewer than four steps make no curve: read four at least, and better all of them",
        );
    }
    if strip
        .bare
        .is_some_and(|bare| !(-10.0..=10.0).contains(&bare))
    {
        return nonsense(
            "bare",
            "that is beyond any lamp: write log10 of the lux seconds, 0.35",
        );
    }
    if strip.time.is_some_and(|time| time.value() <= 0.0) {
        return nonsense(
            "time",
            "no time develops nothing: write 8m, or leave it empty",
        );
    }
    match strip.curve() {
        Ok(_) => Ok(()),
        Err(_) => nonsense(
            "base_fog",
            "base plus fog is below the densest step: read it where no light came",
        ),
    }
}

fn check_tablet(found: &TabletFound) -> Result<(), Nonsense> {
    if found.name.trim().is_empty() || found.name.chars().all(|c| !c.is_alphabetic()) {
        return nonsense(
            "name",
            "a tablet is called by a word, so that it is no number of steps",
        );
    }
    match crate::craft::sensitometry::Tablet::measured(&found.densities, "") {
        Ok(_) => Ok(()),
        Err(_) => nonsense(
            "densities",
            "a tablet has four steps or more, each denser than the one before",
        ),
    }
}

fn check_limits(set: &LimitsSet) -> Result<(), Nonsense> {
    let nothing = |number: Option<f64>| number.is_some_and(|it| !(it.is_finite() && it > 0.0));
    if set.series.trim().is_empty() {
        return nonsense("series", "name the series of control strips");
    }
    for (key, number) in [
        ("gradient", set.gradient),
        ("gradient_within", set.gradient_within),
        ("speed", set.speed),
        ("speed_within", set.speed_within.map(|stops| stops.value())),
        ("base_fog_within", set.base_fog_within.map(|it| it.value())),
    ] {
        if nothing(number) {
            return nonsense(key, "it is above zero, or left empty");
        }
    }
    let first = set.first.map(f64::from);
    let other = [set.gradient, set.gradient_within, set.speed, first];
    let says = other.iter().any(Option::is_some)
        || set.speed_within.is_some()
        || set.base_fog.is_some()
        || set.base_fog_within.is_some();
    if set.first == Some(0) {
        nonsense("first", "limits are taken from one strip or more")
    } else if says {
        Ok(())
    } else {
        nonsense(
            "gradient",
            "limits say one thing at least: write 0.58, or how far it may be off",
        )
    }
}

fn check_change(changed: &StepChanged) -> Result<(), Nonsense> {
    match changed.change {
        Change::MoreTime if changed.more.is_none() && changed.time.is_none() => nonsense(
            "more",
            "say how much longer, 30 s, or the whole time of the step",
        ),
        Change::Temperature if changed.temperature.is_none() => {
            nonsense("temperature", "say how warm it is now: 20.5 C")
        }
        _ => Ok(()),
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
