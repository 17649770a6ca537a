//! The fields of deeds of an exposure, in the order a hand needs them at the camera: what was
//! metered and what is on the lens first, then the setting, then what is worth remembering.

use super::FieldKind as F;
use super::{Field, Need, carried, may, must};
use crate::logbook::ThingKind as T;

pub(super) const EXPOSURE_BEGUN: &[Field] = &[
    must("side", "side", F::Thing(T::Side), "H-07 A"),
    may("planned_aperture", "aperture", F::Aperture, "f/32"),
    may("planned_time", "planned time", F::Duration, "2m30"),
    AGAIN,
];

pub(super) const EXPOSURE_DROPPED: &[Field] = &[
    must("side", "side", F::Thing(T::Side), "H-07 A"),
    must("reason", "why", F::Text, "the cap was still on the lens"),
];

const AGAIN: Field = may(
    "again",
    "one more on it",
    F::YesNo,
    "yes, if a further exposure on the same sheet is meant",
);

pub(super) const EXPOSED: &[Field] = &[
    must("side", "side", F::Thing(T::Side), "H-07 A"),
    carried("subject", "subject", F::Text, Need::May, "north wall, thaw"),
    carried("lens", "lens", F::Thing(T::Lens), Need::May, "L-02"),
    carried(
        "readings",
        "readings",
        F::Text,
        Need::May,
        "III 8.7  V 10.3  VIII 13.9",
    ),
    carried("filter", "filter", F::Text, Need::May, "orange"),
    carried("draw", "draw", F::Length, Need::May, "294 mm"),
    may(
        "magnification",
        "magnification",
        F::Magnification,
        "1:4, of something near, instead of the draw",
    ),
    may(
        "distance",
        "distance",
        F::Length,
        "2.4 m, from lens to subject, instead of the draw",
    ),
    carried("aperture", "aperture", F::Aperture, Need::May, "f/22+1/3"),
    carried("time", "time", F::Duration, Need::May, "1/15 or 6s or 2m30"),
    may(
        "openings",
        "openings",
        F::Durations,
        "20s 25s 15s, if it was open several times",
    ),
    carried("speed", "exposed at", F::Speed, Need::May, "80"),
    carried("camera", "camera", F::Thing(T::Camera), Need::May, "C-01"),
    carried(
        "movements",
        "movements",
        F::Text,
        Need::May,
        "front rise 12 mm",
    ),
    may(
        "in_front",
        "in front",
        F::Text,
        "diffusion screen; empty when plain",
    ),
    carried(
        "flash",
        "flash",
        F::Text,
        Need::May,
        "GN 32 m, 4 m, 1/2 power, 2 pops",
    ),
    carried("light", "light", F::Text, Need::May, "daylight, overcast"),
    carried(
        "facing",
        "facing",
        F::Text,
        Need::May,
        "214 or SW, where the camera looks",
    ),
    carried(
        "place",
        "place",
        F::Text,
        Need::May,
        "the quarry, upper ledge",
    ),
    carried("weather", "weather", F::Text, Need::May, "thaw, no wind"),
    carried("development", "develop", F::Text, Need::May, "N-1"),
    AGAIN,
];
