//! What each deed asks for: its fields, with their labels, kinds and hints.
//!
//! Panes, command-line flags, imports and the telling of entries are all built from these tables;
//! nothing else in the program lists the fields of a deed. The keys are those of the body structs in
//! [`deed`](super::deed), and a test holds the two together.

use std::borrow::Cow;

use super::deed::{Bond, Channel, Hold, Purpose, Whereabouts};
use super::{Kind, ThingKind};

/// Whether a field has to be filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Need {
    /// The deed makes no sense without it.
    Must,
    /// It may stay empty.
    May,
}

/// What kind of value a field holds, and so how it is typed, checked and shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FieldKind {
    /// A line of text.
    Text,
    /// A whole number.
    Count,
    /// A span of time.
    Duration,
    /// An aperture.
    Aperture,
    /// A film speed.
    Speed,
    /// A length.
    Length,
    /// A size, width by height.
    Size,
    /// A temperature.
    Temperature,
    /// A volume.
    Volume,
    /// A density.
    Density,
    /// A dilution.
    Dilution,
    /// A day.
    Date,
    /// One of a few words.
    Choice(&'static [&'static str]),
    /// Yes or no.
    YesNo,
    /// A thing of one kind, by its reference.
    Thing(ThingKind),
    /// A thing of any of these kinds, by its reference.
    AnyOf(&'static [ThingKind]),
    /// Several things of one kind, by their references. Sheets may be named by the side they are in.
    Things(ThingKind),
    /// The sheets of a run, named as in [`FieldKind::Things`].
    RunSheets,
    /// The reference of what comes into being; empty for the next free one.
    Reference(ThingKind),
    /// A film, by its maker's name.
    Film,
    /// A paper, by its maker's name.
    Paper,
    /// A printing process.
    Process,
    /// A step of the process of a print.
    Step,
}

/// One field of a deed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Field {
    /// Its key in the body.
    pub key: Cow<'static, str>,
    /// Its label in a pane; with dashes, its flag on the command line.
    pub label: Cow<'static, str>,
    /// What kind of value it holds.
    pub kind: FieldKind,
    /// Whether it has to be filled.
    pub need: Need,
    /// How to write it, by an example.
    pub hint: Cow<'static, str>,
    /// Whether it is taken over from the last similar entry.
    pub carried: bool,
}

impl Field {
    /// The flag it has on the command line, without the dashes in front.
    pub fn flag(&self) -> String {
        self.key.replace('_', "-")
    }
}

const fn field(
    key: &'static str,
    label: &'static str,
    kind: FieldKind,
    need: Need,
    hint: &'static str,
) -> Field {
    Field {
        key: Cow::Borrowed(key),
        label: Cow::Borrowed(label),
        kind,
        need,
        hint: Cow::Borrowed(hint),
        carried: false,
    }
}

const fn must(
    key: &'static str,
    label: &'static str,
    kind: FieldKind,
    hint: &'static str,
) -> Field {
    field(key, label, kind, Need::Must, hint)
}

const fn may(key: &'static str, label: &'static str, kind: FieldKind, hint: &'static str) -> Field {
    field(key, label, kind, Need::May, hint)
}

/// A field that is taken over from the last similar entry.
const fn carried(
    key: &'static str,
    label: &'static str,
    kind: FieldKind,
    need: Need,
    hint: &'static str,
) -> Field {
    Field {
        key: Cow::Borrowed(key),
        label: Cow::Borrowed(label),
        kind,
        need,
        hint: Cow::Borrowed(hint),
        carried: true,
    }
}

use FieldKind as F;
use ThingKind as T;

const REASON: Field = must(
    "reason",
    "why",
    F::Text,
    "what was seen, in words that hold for years",
);

const BOX_ADDED: &[Field] = &[
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
const HOLDER_ADDED: &[Field] = &[
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
const LENS_ADDED: &[Field] = &[
    must("name", "name", F::Text, "240 mm, front board"),
    may("focal_length", "focal length", F::Length, "240 mm"),
    may("widest", "widest", F::Aperture, "f/5.6"),
    may("smallest", "smallest", F::Aperture, "f/64"),
    may("shutter", "shutter", F::Text, "leaf, size 3"),
    may("serial", "serial number", F::Text, "as engraved"),
    may(
        "reference",
        "reference",
        F::Reference(T::Lens),
        "empty: the next free one",
    ),
];
const CAMERA_ADDED: &[Field] = &[
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
const PAPER_ADDED: &[Field] = &[
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
const BATH_MIXED: &[Field] = &[
    must(
        "name",
        "solution",
        F::Text,
        "the formula, or the maker's name",
    ),
    must("purpose", "for", F::Choice(Purpose::WORDS), "developer"),
    may("dilution", "dilution", F::Dilution, "1+31"),
    may("volume", "volume", F::Volume, "1 l"),
    may("stock", "drawn from", F::Thing(T::Bath), "B-0003"),
    may("temperature", "temperature", F::Temperature, "20 C"),
    may("capacity", "good for", F::Count, "12 sheets"),
    may("batch", "batch", F::Text, "the numbers on the bottles"),
    may(
        "reference",
        "reference",
        F::Reference(T::Bath),
        "empty: the next free one",
    ),
];
const BATH_REPLENISHED: &[Field] = &[
    must("bath", "bath", F::Thing(T::Bath), "B-0012"),
    may("volume", "with how much", F::Volume, "70 ml"),
    may("with", "with what", F::Text, "the replenisher"),
];
const COUNTED: &[Field] = &[
    must(
        "thing",
        "box or paper",
        F::AnyOf(&[T::Box, T::Paper]),
        "F-03",
    ),
    must("sheets", "sheets left", F::Count, "14"),
];
const USED_UP: &[Field] = &[
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
const RETIRED: &[Field] = &[
    must(
        "thing",
        "what",
        F::AnyOf(&[T::Holder, T::Lens, T::Camera]),
        "H-07",
    ),
    REASON,
];
const LOADED: &[Field] = &[
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
const UNLOADED: &[Field] = &[
    must("side", "side", F::Thing(T::Side), "H-07 A"),
    may("kept", "kept", F::Text, "box of exposed sheets, marked N-1"),
];
const EXPOSED: &[Field] = &[
    must("side", "side", F::Thing(T::Side), "H-07 A"),
    carried("subject", "subject", F::Text, Need::May, "north wall, thaw"),
    carried("lens", "lens", F::Thing(T::Lens), Need::May, "L-02"),
    carried("aperture", "aperture", F::Aperture, Need::May, "f/22+1/3"),
    carried("time", "time", F::Duration, Need::May, "1/15 or 6s or 2m30"),
    carried("filter", "filter", F::Text, Need::May, "orange"),
    carried(
        "readings",
        "readings",
        F::Text,
        Need::May,
        "III 8.7  V 10.3  VIII 13.9",
    ),
    carried("draw", "draw", F::Length, Need::May, "294 mm"),
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
    carried("light", "light", F::Text, Need::May, "daylight, overcast"),
    carried(
        "place",
        "place",
        F::Text,
        Need::May,
        "the quarry, upper ledge",
    ),
    carried("weather", "weather", F::Text, Need::May, "thaw, no wind"),
    carried("development", "develop", F::Text, Need::May, "N-1"),
    may(
        "again",
        "one more on it",
        F::YesNo,
        "yes, if a further exposure on the same sheet is meant",
    ),
];
const SLIDE_SEEN: &[Field] = &[
    must("side", "side", F::Thing(T::Side), "H-07 A"),
    must(
        "shows",
        "slide shows",
        F::Choice(&["bright", "dark"]),
        "what is outwards",
    ),
];
const SLIDE_RIGHTED: &[Field] = &[must("side", "side", F::Thing(T::Side), "H-07 A"), REASON];
const COMPANIONS: &[Field] = &[
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
const FOGGED: &[Field] = &[must("sheet", "sheet", F::Thing(T::Sheet), "S-0042"), REASON];
const RUN_BEGUN: &[Field] = &[
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
    carried("time", "time", F::Duration, Need::May, "11m30"),
    carried(
        "temperature",
        "temperature",
        F::Temperature,
        Need::May,
        "20 C",
    ),
    carried("vessel", "vessel", F::Text, Need::May, "tray"),
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
const RUN_ENDED: &[Field] = &[
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
const MEASURED: &[Field] = &[
    must("sheet", "negative", F::Thing(T::Sheet), "S-0042"),
    must("low", "thinnest", F::Density, "0.31"),
    must("high", "densest", F::Density, "1.86"),
    carried("base_fog", "base and fog", F::Density, Need::May, "0.08"),
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
const FILED: &[Field] = &[
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
const PRINT_BEGUN: &[Field] = &[
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
const PRINT_STEP: &[Field] = &[
    must("print", "print", F::Thing(T::Print), "P-0031"),
    must("step", "step", F::Step, "coat"),
    may("baths", "baths", F::Things(T::Bath), "B-0021 B-0022"),
    may("time", "time", F::Duration, "5 min"),
    may("temperature", "temperature", F::Temperature, "20 C"),
];
const SPOILED: &[Field] = &[must("print", "print", F::Thing(T::Print), "P-0031"), REASON];
const PRESSED: &[Field] = &[
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
const MOUNTED: &[Field] = &[
    must("print", "print", F::Thing(T::Print), "P-0031"),
    carried("board", "board", F::Text, Need::Must, "4-ply cotton"),
    carried("adhesive", "with", F::Text, Need::May, "heat tissue"),
    carried("temperature", "press at", F::Temperature, Need::May, "82 C"),
    carried("dwell", "for", F::Duration, Need::May, "60 s"),
];
const MATTED: &[Field] = &[
    must("print", "print", F::Thing(T::Print), "P-0031"),
    carried("outer", "outer size", F::Size, Need::Must, "16x20"),
    carried("window", "window", F::Size, Need::Must, "7 1/2 x 9 1/2 in"),
    carried("raised", "raised by", F::Length, Need::May, "1/2 in"),
    carried("board", "board", F::Text, Need::May, "4-ply cotton, ivory"),
];
const ATTACHED: &[Field] = &[
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
const SIGNED: &[Field] = &[
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
const FRAMED: &[Field] = &[
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
const UNFRAMED: &[Field] = &[
    must("print", "print", F::Thing(T::Print), "P-0031"),
    may("reason", "why", F::Text, "broken glass"),
];
const LABELLED: &[Field] = &[
    must("print", "print", F::Thing(T::Print), "P-0031"),
    must("text", "label says", F::Text, "what is written on it"),
    carried("written_on", "where", F::Text, Need::May, "back of the mat"),
];
const PLACED: &[Field] = &[
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
const LOST: &[Field] = &[
    must("thing", "what", F::AnyOf(&[T::Sheet, T::Print]), "S-0042"),
    REASON,
];
const DISCARDED: &[Field] = &[
    must(
        "thing",
        "what",
        F::AnyOf(&[T::Sheet, T::Print, T::Bath]),
        "B-0012",
    ),
    REASON,
];
const NOTED: &[Field] = &[
    must("thing", "about", F::AnyOf(&ThingKind::ALL), "S-0042"),
    must("text", "note", F::Text, "a dark line at the left edge"),
];

impl Kind {
    /// The fields it asks for, in the order a pane shows them. A strike and an amendment are about
    /// an entry and have panes of their own.
    pub const fn fields(self) -> &'static [Field] {
        match self {
            Kind::BoxAdded => BOX_ADDED,
            Kind::HolderAdded => HOLDER_ADDED,
            Kind::LensAdded => LENS_ADDED,
            Kind::CameraAdded => CAMERA_ADDED,
            Kind::PaperAdded => PAPER_ADDED,
            Kind::BathMixed => BATH_MIXED,
            Kind::BathReplenished => BATH_REPLENISHED,
            Kind::Counted => COUNTED,
            Kind::UsedUp => USED_UP,
            Kind::Retired => RETIRED,
            Kind::Loaded => LOADED,
            Kind::Unloaded => UNLOADED,
            Kind::Exposed => EXPOSED,
            Kind::SlideSeen => SLIDE_SEEN,
            Kind::SlideRighted => SLIDE_RIGHTED,
            Kind::Companions => COMPANIONS,
            Kind::Fogged => FOGGED,
            Kind::RunBegun => RUN_BEGUN,
            Kind::RunEnded => RUN_ENDED,
            Kind::Measured => MEASURED,
            Kind::Filed => FILED,
            Kind::PrintBegun => PRINT_BEGUN,
            Kind::PrintStep => PRINT_STEP,
            Kind::Spoiled => SPOILED,
            Kind::Pressed => PRESSED,
            Kind::Mounted => MOUNTED,
            Kind::Matted => MATTED,
            Kind::Attached => ATTACHED,
            Kind::Signed => SIGNED,
            Kind::Framed => FRAMED,
            Kind::Unframed => UNFRAMED,
            Kind::Labelled => LABELLED,
            Kind::Placed => PLACED,
            Kind::Lost => LOST,
            Kind::Discarded => DISCARDED,
            Kind::Noted => NOTED,
            Kind::Struck | Kind::Amended => &[],
        }
    }

    /// The key of the thing that comes into being by it, and what kind of thing that is.
    pub const fn creates(self) -> Option<(&'static str, ThingKind)> {
        match self {
            Kind::BoxAdded => Some(("film_box", T::Box)),
            Kind::HolderAdded => Some(("holder", T::Holder)),
            Kind::LensAdded => Some(("lens", T::Lens)),
            Kind::CameraAdded => Some(("camera", T::Camera)),
            Kind::PaperAdded => Some(("paper", T::Paper)),
            Kind::BathMixed => Some(("bath", T::Bath)),
            Kind::Loaded => Some(("sheet", T::Sheet)),
            Kind::Companions => Some(("set", T::Set)),
            Kind::RunBegun => Some(("run", T::Run)),
            Kind::PrintBegun => Some(("print", T::Print)),
            _ => None,
        }
    }

    /// The key of the field that says what it is about, for deeds that are offered for a thing at
    /// hand.
    pub const fn about(self) -> Option<&'static str> {
        match self {
            Kind::BathReplenished => Some("bath"),
            Kind::Counted
            | Kind::UsedUp
            | Kind::Retired
            | Kind::Lost
            | Kind::Discarded
            | Kind::Noted => Some("thing"),
            Kind::Loaded
            | Kind::Unloaded
            | Kind::Exposed
            | Kind::SlideSeen
            | Kind::SlideRighted => Some("side"),
            Kind::Companions | Kind::RunBegun => Some("sheets"),
            Kind::Fogged | Kind::Measured | Kind::Filed => Some("sheet"),
            Kind::RunEnded => Some("run"),
            Kind::PrintBegun => Some("negatives"),
            Kind::PrintStep
            | Kind::Spoiled
            | Kind::Pressed
            | Kind::Mounted
            | Kind::Matted
            | Kind::Attached
            | Kind::Signed
            | Kind::Framed
            | Kind::Unframed
            | Kind::Labelled
            | Kind::Placed => Some("print"),
            _ => None,
        }
    }
}
