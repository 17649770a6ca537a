//! The fields of deeds of a sheet of film, from the holder to the files.

use super::FieldKind as F;
use super::{Field, Need, REASON, carried, may, must};
use crate::logbook::ThingKind as T;
use crate::logbook::deed::{Bond, Slide};

pub(super) const LOADED: &[Field] = &[
    must("side", "side", F::Thing(T::Side), "H-07 A"),
    carried("film_box", "box", F::Thing(T::Box), Need::Must, "F-03"),
    may(
        "sheet",
        "loaded again",
        F::Thing(T::Sheet),
        "only for a sheet that went back to its box",
    ),
    may(
        "reference",
        "reference",
        F::Reference(T::Sheet),
        "empty: the next free one",
    ),
];

pub(super) const UNLOADED: &[Field] = &[
    must("side", "side", F::Thing(T::Side), "H-07 A"),
    may("kept", "kept", F::Text, "box of exposed sheets, marked N-1"),
];

pub(super) const SLIDE_SEEN: &[Field] = &[
    must("side", "side", F::Thing(T::Side), "H-07 A"),
    must(
        "shows",
        "slide shows",
        F::Choice(Slide::WORDS),
        "what is outwards",
    ),
];

pub(super) const SLIDE_RIGHTED: &[Field] =
    &[must("side", "side", F::Thing(T::Side), "H-07 A"), REASON];

pub(super) const COMPANIONS: &[Field] = &[
    must("sheets", "sheets", F::Things(T::Sheet), "S-0042 S-0043"),
    must(
        "bond",
        "they are",
        F::Choice(Bond::WORDS),
        "effect: one plain, one with an effect",
    ),
    may(
        "reference",
        "reference",
        F::Reference(T::Set),
        "empty: the next free one",
    ),
];

pub(super) const FOGGED: &[Field] = &[must("sheet", "sheet", F::Thing(T::Sheet), "S-0042"), REASON];

pub(super) const RUN_BEGUN: &[Field] = &[
    must(
        "sheets",
        "sheets",
        F::RunSheets,
        "S-0042 S-0043, or the sides they are in",
    ),
    carried(
        "developer",
        "developer",
        F::Thing(T::Bath),
        Need::May,
        "B-0012",
    ),
    carried(
        "dilution",
        "dilution",
        F::Dilution,
        Need::May,
        "1+1, if not as mixed",
    ),
    may(
        "contrast",
        "contrast",
        F::Development,
        "N-1; empty: what the sheets ask for",
    ),
    carried("time", "time", F::Duration, Need::May, "empty: as reckoned"),
    carried(
        "temperature",
        "temperature",
        F::Temperature,
        Need::May,
        "20 C",
    ),
    carried("vessel", "vessel", F::Text, Need::May, "tray"),
    may(
        "sequence",
        "steps",
        F::Sequence,
        "tray, or what its vessel says",
    ),
    carried(
        "agitation",
        "agitation",
        F::Text,
        Need::May,
        "turn every 30 s",
    ),
    carried("stop", "stop bath", F::Thing(T::Bath), Need::May, "B-0013"),
    carried("fixer", "fixer", F::Thing(T::Bath), Need::May, "B-0014"),
    may(
        "other_baths",
        "other baths",
        F::Things(T::Bath),
        "B-0015 B-0016",
    ),
    may(
        "reference",
        "reference",
        F::Reference(T::Run),
        "empty: the next free one",
    ),
];

pub(super) const RUN_ENDED: &[Field] = &[
    must("run", "run", F::Thing(T::Run), "R-0017"),
    may(
        "sheets",
        "sheets",
        F::Things(T::Sheet),
        "empty: all that are in it",
    ),
    may("time", "time given", F::Duration, "11m30"),
    may("temperature", "at the end", F::Temperature, "20.5 C"),
    carried("wash", "washed", F::Duration, Need::May, "20 min"),
    may("seen", "seen", F::Text, "even, no marks"),
];
