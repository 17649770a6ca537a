//! The fields of deeds of a print, from the first coat to the wall.

use super::FieldKind as F;
use super::{Field, Need, REASON, carried, may, must};
use crate::logbook::ThingKind as T;
use crate::logbook::deed::{Hold, Whereabouts};

pub(super) const PRINT_BEGUN: &[Field] = &[
    must("negatives", "negative", F::Things(T::Sheet), "S-0042"),
    carried("process", "process", F::Process, Need::Must, "palladium"),
    carried("paper", "paper", F::Thing(T::Paper), Need::May, "Q-0004"),
    carried("size", "printed on", F::Size, Need::May, "11x14"),
    may("paper_sheets", "sheets of paper", F::Count, "1"),
    may("title", "title", F::Text, "North Wall"),
    may(
        "reference",
        "reference",
        F::Reference(T::Print),
        "empty: the next free one",
    ),
];

pub(super) const PRINT_STEP: &[Field] = &[
    must("print", "print", F::Thing(T::Print), "P-0031"),
    must("step", "step", F::Step, "coat"),
    may("baths", "baths", F::Things(T::Bath), "B-0021 B-0022"),
    may("time", "time", F::Duration, "5 min"),
    may("temperature", "temperature", F::Temperature, "20 C"),
];

pub(super) const SPOILED: &[Field] =
    &[must("print", "print", F::Thing(T::Print), "P-0031"), REASON];

pub(super) const PRESSED: &[Field] = &[
    must("print", "print", F::Thing(T::Print), "P-0031"),
    carried("temperature", "press at", F::Temperature, Need::May, "82 C"),
    carried("dwell", "for", F::Duration, Need::May, "45 s"),
    carried(
        "between",
        "between",
        F::Text,
        Need::May,
        "two sheets of mat board",
    ),
];

pub(super) const MOUNTED: &[Field] = &[
    must("print", "print", F::Thing(T::Print), "P-0031"),
    carried("board", "board", F::Text, Need::Must, "4-ply cotton"),
    carried("adhesive", "with", F::Text, Need::May, "heat tissue"),
    carried("temperature", "press at", F::Temperature, Need::May, "82 C"),
    carried("dwell", "for", F::Duration, Need::May, "60 s"),
];

pub(super) const MATTED: &[Field] = &[
    must("print", "print", F::Thing(T::Print), "P-0031"),
    carried("outer", "outer size", F::Size, Need::Must, "16x20"),
    carried("window", "window", F::Size, Need::Must, "7 1/2 x 9 1/2 in"),
    carried("raised", "raised by", F::Length, Need::May, "1/2 in"),
    carried("board", "board", F::Text, Need::May, "4-ply cotton, ivory"),
];

pub(super) const ATTACHED: &[Field] = &[
    must("print", "print", F::Thing(T::Print), "P-0031"),
    carried(
        "hold",
        "held by",
        F::Choice(Hold::WORDS),
        Need::Must,
        "hinges",
    ),
    carried(
        "material",
        "of",
        F::Text,
        Need::May,
        "tissue and wheat paste",
    ),
];

pub(super) const SIGNED: &[Field] = &[
    must("print", "print", F::Thing(T::Print), "P-0031"),
    may(
        "inscription",
        "inscription",
        F::Text,
        "what is written on it, letter by letter",
    ),
    may("number", "number", F::Text, "3/20, or AP 1"),
    carried(
        "written_on",
        "where",
        F::Text,
        Need::May,
        "lower margin, pencil",
    ),
];

pub(super) const FRAMED: &[Field] = &[
    must("print", "print", F::Thing(T::Print), "P-0031"),
    carried("frame", "frame", F::Text, Need::Must, "ash, 16x20"),
    carried(
        "glazing",
        "glazing",
        F::Text,
        Need::May,
        "glass with a UV filter",
    ),
];

pub(super) const UNFRAMED: &[Field] = &[
    must("print", "print", F::Thing(T::Print), "P-0031"),
    may("reason", "why", F::Text, "broken glass"),
];

pub(super) const LABELLED: &[Field] = &[
    must("print", "print", F::Thing(T::Print), "P-0031"),
    must("text", "label says", F::Text, "what is written on it"),
    carried("written_on", "where", F::Text, Need::May, "back of the mat"),
];

pub(super) const PLACED: &[Field] = &[
    must("print", "print", F::Thing(T::Print), "P-0031"),
    must(
        "whereabouts",
        "now",
        F::Choice(Whereabouts::WORDS),
        "drawer",
    ),
    may("place", "where, to whom", F::Text, "drawer 3"),
    may("due", "due back", F::Date, "2027-01-15"),
    may("price", "price", F::Text, "400 EUR"),
];
