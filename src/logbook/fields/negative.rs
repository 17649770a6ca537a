//! The fields of deeds of a negative.

use super::FieldKind as F;
use super::{Field, Need, carried, may, must};
use crate::logbook::ThingKind as T;
use crate::logbook::deed::{Channel, Harm};

pub(super) const MEASURED: &[Field] = &[
    must("sheet", "negative", F::Thing(T::Sheet), "S-0042"),
    must("low", "thinnest", F::Density, "0.31"),
    must("high", "densest", F::Density, "1.86"),
    carried("base_fog", "base and fog", F::Density, Need::May, "0.08"),
    may(
        "patches",
        "single patches",
        F::Patches,
        "III 0.35, V 0.72, sky 1.31",
    ),
    carried(
        "channel",
        "read in",
        F::Choice(Channel::WORDS),
        Need::May,
        "visual",
    ),
    carried(
        "instrument",
        "densitometer",
        F::Text,
        Need::May,
        "the one on the bench",
    ),
];

pub(super) const FILED: &[Field] = &[
    must("sheet", "negative", F::Thing(T::Sheet), "S-0042"),
    carried(
        "file_place",
        "place",
        F::Text,
        Need::Must,
        "binder 4, page 11",
    ),
    may("scan", "scan", F::Text, "where its file is"),
];

pub(super) const FAULT_SEEN: &[Field] = &[
    must("sheet", "negative", F::Thing(T::Sheet), "S-0042"),
    must("fault", "fault", F::Fault, "air bells"),
    may("cause", "put down to", F::Cause, "not tapped at the start"),
    may("place", "where", F::Text, "upper left, in the sky"),
    may(
        "harm",
        "what it does",
        F::Choice(Harm::WORDS),
        "can be mended",
    ),
];

pub(super) const SCANNED: &[Field] = &[
    must("sheet", "negative", F::Thing(T::Sheet), "S-0042"),
    must("scan", "file", F::Text, "scans/north-wall-2.tif"),
    carried("resolution", "samples an inch", F::Count, Need::May, "2400"),
    carried(
        "instrument",
        "scanned with",
        F::Text,
        Need::May,
        "the flatbed in the hall",
    ),
];
