//! The fields of deeds of baths.

use super::FieldKind as F;
use super::{Field, Need, carried, may, must};
use crate::logbook::ThingKind as T;
use crate::logbook::deed::Purpose;

pub(super) const BATH_MIXED: &[Field] = &[
    must(
        "name",
        "solution",
        F::Text,
        "the formula, or the maker's name",
    ),
    must("purpose", "for", F::Choice(Purpose::WORDS), "developer"),
    may(
        "formula",
        "formula",
        F::Formula,
        "to weigh it out: D-76, or one of your own",
    ),
    may("volume", "volume", F::Volume, "1 l"),
    may(
        "have",
        "on hand",
        F::Text,
        "salts in another form, carbonate monohydrate",
    ),
    may("dilution", "dilution", F::Dilution, "1+31"),
    may(
        "concentrate",
        "concentrate",
        F::Text,
        "the bottle it is thinned from",
    ),
    may("stock", "drawn from", F::Thing(T::Bath), "B-0003"),
    may("temperature", "temperature", F::Temperature, "20 C"),
    may(
        "capacity",
        "good for",
        F::Capacity,
        "12 8x10, 24 4x5, 960 sq in or 12 sheets",
    ),
    may(
        "keeps",
        "keeps",
        F::Keeping,
        "60 days, 2 months, or the last day",
    ),
    may(
        "least",
        "least stock",
        F::Volume,
        "of stock for one 8x10, 250 ml",
    ),
    may(
        "behind",
        "second to",
        F::Thing(T::Bath),
        "B-0012, if it is the second of two fixers",
    ),
    may("batch", "batch", F::Text, "the numbers on the bottles"),
    may(
        "reference",
        "reference",
        F::Reference(T::Bath),
        "empty: the next free one",
    ),
];

pub(super) const BATH_REPLENISHED: &[Field] = &[
    must("bath", "bath", F::Thing(T::Bath), "B-0012"),
    may("volume", "with how much", F::Volume, "70 ml"),
    may("bleed", "taken out", F::Volume, "70 ml, thrown away"),
    may("with", "with what", F::Text, "the replenisher"),
];

pub(super) const BATH_SPLIT: &[Field] = &[
    must("bath", "bath", F::Thing(T::Bath), "B-0012"),
    must("volume", "pour off", F::Volume, "500 ml"),
    may(
        "reference",
        "reference",
        F::Reference(T::Bath),
        "empty: the next free one",
    ),
];

pub(super) const CLEARING_TESTED: &[Field] = &[
    must("bath", "fixer", F::Thing(T::Bath), "B-0014"),
    must("time", "clear after", F::Duration, "45 s"),
    carried("film", "film", F::Film, Need::May, "FP4 Plus"),
    may(
        "fresh",
        "bath is fresh",
        F::YesNo,
        "empty: yes at its first test",
    ),
    may("temperature", "temperature", F::Temperature, "20 C"),
];

pub(super) const BATHS_ROTATED: &[Field] = &[
    must(
        "first",
        "first bath",
        F::Thing(T::Bath),
        "B-0014, which is thrown away",
    ),
    may(
        "second",
        "second bath",
        F::Thing(T::Bath),
        "empty: the one that stands behind it",
    ),
    may(
        "next",
        "new second",
        F::Thing(T::Bath),
        "B-0021, freshly mixed",
    ),
];
