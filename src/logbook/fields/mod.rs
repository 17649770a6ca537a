//! What each deed asks for: its fields, with their labels, kinds and hints.
//!
//! Panes, command-line flags, imports and the telling of entries are all built from these tables;
//! nothing else in the program lists the fields of a deed. The keys are those of the body structs in
//! [`deed`](super::deed), and a test holds the two together.

use std::borrow::Cow;

use super::{Kind, ThingKind};

mod bath;
mod exposure;
mod film;
mod finding;
mod negative;
mod print;
mod step;
mod stock;
mod strip;

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
    /// Several spans of time beside each other.
    Durations,
    /// An aperture.
    Aperture,
    /// A film speed.
    Speed,
    /// A length.
    Length,
    /// How large something is on the film against what it is.
    Magnification,
    /// A plain number above zero.
    Number,
    /// A size, width by height.
    Size,
    /// A temperature.
    Temperature,
    /// A volume.
    Volume,
    /// A density.
    Density,
    /// Several densities beside each other.
    Densities,
    /// The densities of a strip of steps.
    Readings,
    /// A step tablet: its steps, its name, or the density of each step.
    Tablet,
    /// A log exposure.
    LogExposure,
    /// A dilution.
    Dilution,
    /// What a bath is trusted with: sheets, sheets of a size, or an area.
    Capacity,
    /// How long a solution keeps: days, or the last day.
    Keeping,
    /// A formula, by its name in the reference or in the user's own folder.
    Formula,
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
    /// A change of exposure, in stops or as a factor.
    Stops,
    /// An exposure value.
    Ev,
    /// A place on the earth.
    Coordinates,
    /// A time zone.
    Zone,
    /// A film, by its maker's name.
    Film,
    /// A developer, by its maker's name.
    Developer,
    /// A change of contrast by development: N-1.
    Contrast,
    /// All that is asked of a development: a change of contrast, of the time, a gradient.
    Development,
    /// A paper, by its maker's name.
    Paper,
    /// A printing process.
    Process,
    /// A sequence of steps of development.
    Sequence,
    /// A step of the process of a print, or of the sequence of a run.
    Step,
    /// Several densities, each with the name of its patch.
    Patches,
    /// A fault of a negative, by the vocabulary or in a word of one's own.
    Fault,
    /// A cause of that fault.
    Cause,
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
    carried: bool,
) -> Field {
    Field {
        key: Cow::Borrowed(key),
        label: Cow::Borrowed(label),
        kind,
        need,
        hint: Cow::Borrowed(hint),
        carried,
    }
}

const fn must(
    key: &'static str,
    label: &'static str,
    kind: FieldKind,
    hint: &'static str,
) -> Field {
    field(key, label, kind, Need::Must, hint, false)
}

const fn may(key: &'static str, label: &'static str, kind: FieldKind, hint: &'static str) -> Field {
    field(key, label, kind, Need::May, hint, false)
}

/// A field that is taken over from the last similar entry.
const fn carried(
    key: &'static str,
    label: &'static str,
    kind: FieldKind,
    need: Need,
    hint: &'static str,
) -> Field {
    field(key, label, kind, need, hint, true)
}

use FieldKind as F;
use ThingKind as T;

const REASON: Field = must(
    "reason",
    "why",
    F::Text,
    "what was seen, in words that hold for years",
);

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
            Kind::BoxAdded => stock::BOX_ADDED,
            Kind::HolderAdded => stock::HOLDER_ADDED,
            Kind::LensAdded => stock::LENS_ADDED,
            Kind::CameraAdded => stock::CAMERA_ADDED,
            Kind::ShutterTested => finding::SHUTTER_TESTED,
            Kind::FilterFound => finding::FILTER_FOUND,
            Kind::TimeFound => finding::TIME_FOUND,
            Kind::FilmFound => finding::FILM_FOUND,
            Kind::FormatFound => finding::FORMAT_FOUND,
            Kind::DevelopmentFound => finding::DEVELOPMENT_FOUND,
            Kind::LightFound => finding::LIGHT_FOUND,
            Kind::MeterSet => finding::METER_SET,
            Kind::PlaceKept => finding::PLACE_KEPT,
            Kind::StripRead => strip::STRIP_READ,
            Kind::TabletFound => strip::TABLET_FOUND,
            Kind::LimitsSet => strip::LIMITS_SET,
            Kind::PaperAdded => stock::PAPER_ADDED,
            Kind::BathMixed => bath::BATH_MIXED,
            Kind::BathReplenished => bath::BATH_REPLENISHED,
            Kind::BathSplit => bath::BATH_SPLIT,
            Kind::ClearingTested => bath::CLEARING_TESTED,
            Kind::BathsRotated => bath::BATHS_ROTATED,
            Kind::Counted => stock::COUNTED,
            Kind::UsedUp => stock::USED_UP,
            Kind::Retired => stock::RETIRED,
            Kind::Loaded => film::LOADED,
            Kind::Unloaded => film::UNLOADED,
            Kind::ExposureBegun => exposure::EXPOSURE_BEGUN,
            Kind::ExposureDropped => exposure::EXPOSURE_DROPPED,
            Kind::Exposed => exposure::EXPOSED,
            Kind::SlideSeen => film::SLIDE_SEEN,
            Kind::SlideRighted => film::SLIDE_RIGHTED,
            Kind::Companions => film::COMPANIONS,
            Kind::Fogged => film::FOGGED,
            Kind::RunBegun => film::RUN_BEGUN,
            Kind::StepBegun => step::STEP_BEGUN,
            Kind::StepChanged => step::STEP_CHANGED,
            Kind::StepEnded => step::STEP_ENDED,
            Kind::RunEnded => film::RUN_ENDED,
            Kind::Measured => negative::MEASURED,
            Kind::FaultSeen => negative::FAULT_SEEN,
            Kind::Scanned => negative::SCANNED,
            Kind::Filed => negative::FILED,
            Kind::PrintBegun => print::PRINT_BEGUN,
            Kind::PrintStep => print::PRINT_STEP,
            Kind::Spoiled => print::SPOILED,
            Kind::Pressed => print::PRESSED,
            Kind::Mounted => print::MOUNTED,
            Kind::Matted => print::MATTED,
            Kind::Attached => print::ATTACHED,
            Kind::Signed => print::SIGNED,
            Kind::Framed => print::FRAMED,
            Kind::Unframed => print::UNFRAMED,
            Kind::Labelled => print::LABELLED,
            Kind::Placed => print::PLACED,
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
            Kind::FilterFound
            | Kind::TimeFound
            | Kind::FilmFound
            | Kind::FormatFound
            | Kind::DevelopmentFound
            | Kind::LightFound
            | Kind::MeterSet
            | Kind::PlaceKept
            | Kind::StripRead
            | Kind::TabletFound
            | Kind::LimitsSet => Some(("finding", T::Finding)),
            Kind::PaperAdded => Some(("paper", T::Paper)),
            Kind::BathMixed => Some(("bath", T::Bath)),
            Kind::BathSplit => Some(("part", T::Bath)),
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
            Kind::ShutterTested => Some("lens"),
            Kind::BathReplenished | Kind::BathSplit | Kind::ClearingTested => Some("bath"),
            Kind::BathsRotated => Some("first"),
            Kind::Counted
            | Kind::UsedUp
            | Kind::Retired
            | Kind::Lost
            | Kind::Discarded
            | Kind::StepBegun
            | Kind::StepChanged
            | Kind::StepEnded
            | Kind::Noted => Some("thing"),
            Kind::Loaded
            | Kind::Unloaded
            | Kind::ExposureBegun
            | Kind::ExposureDropped
            | Kind::Exposed
            | Kind::SlideSeen
            | Kind::SlideRighted => Some("side"),
            Kind::Companions | Kind::RunBegun => Some("sheets"),
            Kind::Fogged
            | Kind::Measured
            | Kind::FaultSeen
            | Kind::Scanned
            | Kind::Filed
            | Kind::StripRead => Some("sheet"),
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
