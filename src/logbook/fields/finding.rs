//! The fields of deeds of what the user has found out.

use super::FieldKind as F;
use super::{Field, Need, carried, may, must};
use crate::craft::development::agitation::Agitation;
use crate::logbook::ThingKind as T;
use crate::reference::FilmKind;

pub(super) const REFERENCE: Field = may(
    "reference",
    "reference",
    F::Reference(T::Finding),
    "empty: the next free one",
);

pub(super) const SHUTTER_TESTED: &[Field] = &[
    must("lens", "lens", F::Thing(T::Lens), "L-02"),
    must("mark", "mark", F::Duration, "1/60, what the shutter says"),
    must(
        "timings",
        "timings",
        F::Durations,
        "1/52 1/55 1/54, what it gives, five shots or more",
    ),
    carried(
        "aperture",
        "aperture",
        F::Aperture,
        Need::May,
        "f/5.6, wide open",
    ),
    carried(
        "instrument",
        "timed with",
        F::Text,
        Need::May,
        "the photodiode on the bench",
    ),
];

pub(super) const FILTER_FOUND: &[Field] = &[
    must("filter", "filter", F::Text, "orange, second-hand glass"),
    must("stops", "takes", F::Stops, "+2 1/3, or x5"),
    may("film", "on film", F::Film, "FP4 Plus; empty: on any"),
    may("light", "in light", F::Text, "daylight; empty: in any"),
    REFERENCE,
];

pub(super) const TIME_FOUND: &[Field] = &[
    must("film", "film", F::Film, "FP4 Plus"),
    must(
        "metered",
        "metered time",
        F::Duration,
        "10s, as reckoned from the light",
    ),
    must(
        "needed",
        "needed time",
        F::Duration,
        "20s, what gave the same density",
    ),
    may(
        "development",
        "develop",
        F::Text,
        "N-1, if it had to change",
    ),
    REFERENCE,
];

pub(super) const FILM_FOUND: &[Field] = &[
    must("film", "film", F::Film, "FP4 Plus, or the name of another"),
    may(
        "speed",
        "speed",
        F::Speed,
        "80, its speed or the index it proved to have",
    ),
    may("maker", "maker", F::Text, "as on the box"),
    may(
        "kind",
        "kind",
        F::Choice(FilmKind::WORDS),
        "orthochromatic; empty: as known, else panchromatic",
    ),
    REFERENCE,
];

pub(super) const FORMAT_FOUND: &[Field] = &[
    must("size", "size", F::Size, "4x5, the size in its name"),
    may("name", "name", F::Text, "empty: it goes by its size"),
    may(
        "image",
        "image area",
        F::Size,
        "96x120 mm, what the holder leaves open",
    ),
    may("cut", "cut sheet", F::Size, "101x126 mm"),
    may(
        "depth",
        "holder depth",
        F::Length,
        "5.0 mm, from its face to the septum",
    ),
    may(
        "tolerance",
        "depth differs by",
        F::Length,
        "0.1 mm either way, from holder to holder",
    ),
    REFERENCE,
];

pub(super) const DEVELOPMENT_FOUND: &[Field] = &[
    must("film", "film", F::Film, "FP4 Plus"),
    must("developer", "developer", F::Developer, "Ilfotec DD-X"),
    may("dilution", "dilution", F::Dilution, "1+4, or stock"),
    must(
        "temperature",
        "temperature",
        F::Temperature,
        "20 C, of the developer",
    ),
    must(
        "time",
        "time",
        F::Duration,
        "9m30, what gave the negatives you want",
    ),
    may(
        "agitation",
        "agitation",
        F::Choice(Agitation::WORDS),
        "intermittent as in a tank, continuous as in a tray",
    ),
    may(
        "speed",
        "exposed at",
        F::Speed,
        "80; empty: the speed on its box",
    ),
    may("contrast", "contrast", F::Contrast, "N-1; empty: N"),
    may(
        "gradient",
        "gradient",
        F::Number,
        "0.58, the average gradient of the negatives, if measured",
    ),
    REFERENCE,
];

pub(super) const LIGHT_FOUND: &[Field] = &[
    must("scene", "scene", F::Text, "the weir, open shade, noon"),
    must("value", "light at ISO 100", F::Ev, "EV 11 1/3"),
    REFERENCE,
];

pub(super) const METER_SET: &[Field] = &[
    may(
        "reflected",
        "K, reflected",
        F::Number,
        "12.5, from its manual or a known light",
    ),
    may(
        "incident",
        "C, incident",
        F::Number,
        "250, of the dome of this meter",
    ),
    REFERENCE,
];

pub(super) const PLACE_KEPT: &[Field] = &[
    must("name", "name", F::Text, "the ford below the mill"),
    must(
        "coordinates",
        "where",
        F::Coordinates,
        "46.5 N 8.2 E; a hundredth of a degree is near enough",
    ),
    may(
        "zone",
        "time zone",
        F::Zone,
        "Europe/Oslo or +01:00; empty: as here",
    ),
    REFERENCE,
];
