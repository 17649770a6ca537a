//! The fields of deeds of sensitometry.

use super::finding::REFERENCE;
use super::{Field, FieldKind as F, Need, carried, may, must};
use crate::craft::sensitometry::Joined;
use crate::logbook::{Channel, ThingKind as T};

pub(super) const STRIP_READ: &[Field] = &[
    may(
        "sheet",
        "sheet",
        F::Thing(T::Sheet),
        "S-0042; empty: what is not in the logbook is typed",
    ),
    must(
        "readings",
        "readings",
        F::Readings,
        "1.61 1.51 1.42, from step 1, the clearest, on; or with steps, 14 0.38 15 0.30",
    ),
    carried(
        "tablet",
        "tablet",
        F::Tablet,
        Need::May,
        "21, 31 or 11 steps, a name, or the density of each; empty: 21",
    ),
    carried(
        "bare",
        "light without tablet",
        F::LogExposure,
        Need::May,
        "0.35, log10 of lux seconds, or 2.24 lx s; empty: no speed",
    ),
    may(
        "base_fog",
        "base plus fog",
        F::Density,
        "0.12, where no light came; empty: the last step",
    ),
    carried(
        "film",
        "film",
        F::Film,
        Need::May,
        "FP4 Plus; empty: as the sheet",
    ),
    carried(
        "bath",
        "bath",
        F::Thing(T::Bath),
        Need::May,
        "B-0012, if it is in the logbook",
    ),
    carried(
        "developer",
        "developer",
        F::Text,
        Need::May,
        "pyro two parts; empty: as the bath",
    ),
    carried(
        "dilution",
        "dilution",
        F::Dilution,
        Need::May,
        "1+31; empty: as the bath",
    ),
    may("time", "time", F::Duration, "8m, 11m30; empty: as the run"),
    carried(
        "temperature",
        "temperature",
        F::Temperature,
        Need::May,
        "20.5 C; empty: as the run",
    ),
    carried(
        "series",
        "control series",
        F::Text,
        Need::May,
        "tank line, if it is a control strip",
    ),
    carried(
        "channel",
        "channel",
        F::Choice(Channel::WORDS),
        Need::May,
        "the light it was read with",
    ),
    carried(
        "instrument",
        "instrument",
        F::Text,
        Need::May,
        "the densitometer",
    ),
    carried(
        "joined",
        "joined",
        F::Choice(Joined::WORDS),
        Need::May,
        "smooth, or straight as with a ruler; empty: smooth",
    ),
    REFERENCE,
];

pub(super) const TABLET_FOUND: &[Field] = &[
    must("name", "name", F::Text, "the tablet in the drawer"),
    must(
        "densities",
        "densities",
        F::Densities,
        "0.05 0.21 0.35, of every step from the clearest on",
    ),
    may(
        "channel",
        "channel",
        F::Choice(Channel::WORDS),
        "the light it was read with",
    ),
    may("instrument", "instrument", F::Text, "the densitometer"),
    REFERENCE,
];

pub(super) const LIMITS_SET: &[Field] = &[
    must("series", "control series", F::Text, "tank line"),
    may(
        "first",
        "first strips",
        F::Count,
        "5, from how many what is not set is taken",
    ),
    may("gradient", "gradient", F::Number, "0.58; empty: their mean"),
    may(
        "gradient_within",
        "gradient within",
        F::Number,
        "0.04; empty: from their spread",
    ),
    may(
        "speed",
        "effective speed",
        F::Number,
        "64; empty: their mean",
    ),
    may(
        "speed_within",
        "speed within",
        F::Stops,
        "1/3; empty: from their spread",
    ),
    may(
        "base_fog",
        "base plus fog",
        F::Density,
        "0.12; empty: their mean",
    ),
    may(
        "base_fog_within",
        "fog within",
        F::Density,
        "0.03; empty: from their spread",
    ),
    REFERENCE,
];
