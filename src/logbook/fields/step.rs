//! The fields of deeds at the clock of a run or a print.

use super::FieldKind as F;
use super::{Field, may, must};
use crate::logbook::ThingKind as T;
use crate::logbook::deed::Change;

const THING: Field = must(
    "thing",
    "run or print",
    F::AnyOf(&[T::Run, T::Print]),
    "R-0017",
);

pub(super) const STEP_BEGUN: &[Field] = &[
    THING,
    must("step", "step", F::Step, "stop"),
    may("time", "time", F::Duration, "30 s"),
    may("bath", "bath", F::Thing(T::Bath), "B-0013"),
    may("temperature", "temperature", F::Temperature, "20 C"),
    may("agitation", "agitation", F::Text, "turn every 30 s"),
];

pub(super) const STEP_CHANGED: &[Field] = &[
    THING,
    must("change", "change", F::Choice(Change::WORDS), "more-time"),
    may("more", "how much longer", F::Duration, "30 s"),
    may("temperature", "temperature now", F::Temperature, "21 C"),
    may(
        "time",
        "whole time now",
        F::Duration,
        "empty: as it is reckoned",
    ),
];

pub(super) const STEP_ENDED: &[Field] = &[
    THING,
    may("time", "time given", F::Duration, "empty: as counted"),
    may("temperature", "at the end", F::Temperature, "20.5 C"),
    may("seen", "seen", F::Text, "clear after 1 min"),
];
