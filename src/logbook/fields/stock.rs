//! The fields of deeds of what stands on the shelf.

use super::FieldKind as F;
use super::{Field, Need, REASON, carried, may, must};
use crate::logbook::ThingKind as T;

pub(super) const BOX_ADDED: &[Field] = &[
    carried("film", "film", F::Film, Need::Must, "FP4 Plus"),
    carried("size", "size", F::Size, Need::Must, "8x10"),
    carried("sheets", "sheets", F::Count, Need::Must, "25"),
    carried("speed", "exposed at", F::Speed, Need::May, "80"),
    may("emulsion", "emulsion", F::Text, "the number on the box"),
    may("expiry", "use by", F::Date, "2028-06-01"),
    carried(
        "kept",
        "kept",
        F::Text,
        Need::May,
        "refrigerator, top shelf",
    ),
    may(
        "reference",
        "reference",
        F::Reference(T::Box),
        "empty: the next free one",
    ),
];

pub(super) const HOLDER_ADDED: &[Field] = &[
    carried("size", "size", F::Size, Need::Must, "8x10"),
    carried(
        "sides",
        "sides",
        F::Count,
        Need::Must,
        "2; 1 for a single holder, 6 for a six-sheet magazine",
    ),
    carried(
        "make",
        "what it is",
        F::Text,
        Need::May,
        "wood, brass corners",
    ),
    may(
        "reference",
        "reference",
        F::Reference(T::Holder),
        "empty: the next free one",
    ),
];

pub(super) const LENS_ADDED: &[Field] = &[
    must("name", "name", F::Text, "240 mm, front board"),
    may("focal_length", "focal length", F::Length, "240 mm"),
    may("widest", "widest", F::Aperture, "f/5.6"),
    may("smallest", "smallest", F::Aperture, "f/64"),
    may("shutter", "shutter", F::Text, "leaf, size 3"),
    may(
        "image_circle",
        "image circle",
        F::Length,
        "340 mm across at infinity, stopped down",
    ),
    may(
        "pupil_ratio",
        "pupil ratio",
        F::Number,
        "0.95: width of the rear pupil over that of the front",
    ),
    may(
        "flange",
        "flange to film",
        F::Length,
        "235 mm at infinity; it differs most on telephoto lenses",
    ),
    may("serial", "serial number", F::Text, "as engraved"),
    may(
        "reference",
        "reference",
        F::Reference(T::Lens),
        "empty: the next free one",
    ),
];

pub(super) const CAMERA_ADDED: &[Field] = &[
    must("name", "name", F::Text, "field camera, cherry"),
    may("size", "size", F::Size, "8x10"),
    may("shortest_draw", "shortest draw", F::Length, "90 mm"),
    may("longest_draw", "longest draw", F::Length, "760 mm"),
    may(
        "reference",
        "reference",
        F::Reference(T::Camera),
        "empty: the next free one",
    ),
];

pub(super) const PAPER_ADDED: &[Field] = &[
    must("name", "paper", F::Paper, "as its maker names it"),
    carried("size", "size", F::Size, Need::Must, "11x14"),
    must("sheets", "sheets", F::Count, "25"),
    may("sort", "what it is", F::Text, "cotton, unbuffered, 300 g"),
    may("batch", "batch", F::Text, "the number on the packet"),
    may(
        "reference",
        "reference",
        F::Reference(T::Paper),
        "empty: the next free one",
    ),
];

pub(super) const COUNTED: &[Field] = &[
    must(
        "thing",
        "box or paper",
        F::AnyOf(&[T::Box, T::Paper]),
        "F-03",
    ),
    must("sheets", "sheets left", F::Count, "14"),
];

pub(super) const USED_UP: &[Field] = &[
    must(
        "thing",
        "what",
        F::AnyOf(&[T::Box, T::Paper, T::Bath]),
        "B-0012",
    ),
    may(
        "reason",
        "why",
        F::Text,
        "the last sheet took too long to clear",
    ),
];

pub(super) const RETIRED: &[Field] = &[
    must(
        "thing",
        "what",
        F::AnyOf(&[T::Holder, T::Side, T::Lens, T::Camera, T::Finding]),
        "H-07",
    ),
    REASON,
];
