//! Everything that can happen.
//!
//! [`Deed`] is one closed enum, and [`Kind`] is its list of names; both come from the table at the
//! foot of this file, so a new deed is one line there and one struct. The structs are grouped by
//! the stage they belong to: [`stock`] (boxes, holders, lenses, papers), [`bath`], [`exposure`], [`film`]
//! (sheets and runs), [`negative`] (faults and scans), [`finding`] (what the user has found out),
//! [`strip`] (strips of steps that were read), [`step`] (the clock of a run or a print), [`mod@print`]
//! (prints and their finish) and [`remark`] (notes, strikes, amendments).
//! Each is exactly the body that is written to the logbook. What a deed touches, what it descends
//! from and what it creates is said here; whether it may happen is said by the lives.

use serde::{Deserialize, Serialize};

use super::{Thing, ThingId, ThingKind};

pub mod bath;
pub mod exposure;
pub mod film;
pub mod finding;
pub mod negative;
pub mod print;
pub mod remark;
pub mod step;
pub mod stock;
pub mod strip;

pub use bath::*;
pub use exposure::*;
pub use film::*;
pub use finding::*;
pub use negative::*;
pub use print::*;
pub use remark::*;
pub use step::*;
pub use stock::*;
pub use strip::*;

/// One line of descent: `child` could not be what it is without `parent`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Descent {
    /// The thing that came of it.
    pub child: Thing,
    /// What it came from.
    pub parent: Thing,
    /// How, in a word: `film box`, `lens`, `developer`, `negative`.
    pub role: &'static str,
}

/// What a body must be able to say of itself.
pub(super) trait Body: Serialize + for<'de> Deserialize<'de> {
    /// Every thing the deed is part of the story of.
    fn touches(&self, out: &mut Vec<Thing>);

    /// What descends from what because of it.
    fn descents(&self, _out: &mut Vec<Descent>) {}

    /// The thing that comes into being by it, with the reference it is given.
    fn creates(&self) -> Option<(Thing, &str)> {
        None
    }

    /// Gives the created thing its reference.
    fn name_created(&mut self, _reference: String) {}
}

/// A body that could not be read.
#[derive(Debug, thiserror::Error)]
pub enum UnreadableBody {
    /// The kind is not one this version knows.
    #[error("the kind \"{0}\" is not known to this version: a newer version may have written it")]
    UnknownKind(String),
    /// The body does not have the fields its kind asks for.
    #[error("the body of \"{kind}\" cannot be read: {source}")]
    Malformed {
        /// The kind it claims to be.
        kind: String,
        /// What serde found.
        source: serde_json::Error,
    },
}

macro_rules! deeds {
    ($( $(#[$doc:meta])* $variant:ident = $name:literal, $word:literal, $title:literal; )*) => {
        /// Something that can happen to the things a logbook follows.
        #[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
        #[serde(tag = "kind", content = "body")]
        pub enum Deed {
            $( $(#[$doc])* #[serde(rename = $name)] $variant($variant), )*
        }

        /// The name of a deed without its figures.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Kind {
            $( $(#[$doc])* $variant, )*
        }

        impl Kind {
            /// Every kind, in the order a picture meets them.
            pub const ALL: &'static [Kind] = &[ $( Kind::$variant, )* ];

            /// What it is called in the logbook file: a word for something that happened.
            pub const fn name(self) -> &'static str {
                match self { $( Kind::$variant => $name, )* }
            }

            /// What it is called on the command line: a word for something to do.
            pub const fn word(self) -> &'static str {
                match self { $( Kind::$variant => $word, )* }
            }

            /// What it is called in menus and help, a few words.
            pub const fn title(self) -> &'static str {
                match self { $( Kind::$variant => $title, )* }
            }
        }

        impl Deed {
            /// The name of the deed without its figures.
            pub const fn kind(&self) -> Kind {
                match self { $( Deed::$variant(_) => Kind::$variant, )* }
            }

            fn body(&self) -> &dyn DynBody {
                match self { $( Deed::$variant(body) => body, )* }
            }

            fn body_mut(&mut self) -> &mut dyn DynBody {
                match self { $( Deed::$variant(body) => body, )* }
            }

            /// Reads the body of a deed of `kind` from its JSON text.
            ///
            /// # Errors
            /// When a field is missing or out of its range.
            pub fn from_json(kind: Kind, json: &str) -> Result<Deed, UnreadableBody> {
                let read = match kind {
                    $( Kind::$variant => serde_json::from_str(json).map(Deed::$variant), )*
                };
                read.map_err(|source| UnreadableBody::Malformed {
                    kind: kind.name().to_owned(),
                    source,
                })
            }
        }
    };
}

/// [`Body`] without the parts that need a concrete type.
trait DynBody {
    fn touches(&self, out: &mut Vec<Thing>);
    fn descents(&self, out: &mut Vec<Descent>);
    fn creates(&self) -> Option<(Thing, &str)>;
    fn name_created(&mut self, reference: String);
    fn json(&self) -> serde_json::Result<String>;
}

impl<B: Body> DynBody for B {
    fn touches(&self, out: &mut Vec<Thing>) {
        Body::touches(self, out);
    }
    fn descents(&self, out: &mut Vec<Descent>) {
        Body::descents(self, out);
    }
    fn creates(&self) -> Option<(Thing, &str)> {
        Body::creates(self)
    }
    fn name_created(&mut self, reference: String) {
        Body::name_created(self, reference);
    }
    fn json(&self) -> serde_json::Result<String> {
        serde_json::to_string(self)
    }
}

impl Kind {
    /// The kind with this name in the logbook file.
    pub fn named(name: &str) -> Option<Kind> {
        Kind::ALL.iter().copied().find(|kind| kind.name() == name)
    }

    /// The kind with this word on the command line.
    pub fn worded(word: &str) -> Option<Kind> {
        Kind::ALL.iter().copied().find(|kind| kind.word() == word)
    }
}

impl std::fmt::Display for Kind {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.name())
    }
}

impl Deed {
    /// Every thing the deed is part of the story of, without repeats, in a fixed order.
    pub fn touches(&self) -> Vec<Thing> {
        let mut things = Vec::new();
        self.body().touches(&mut things);
        things.sort_unstable();
        things.dedup();
        things
    }

    /// Whether the deed is part of the story of `thing`.
    pub fn is_about(&self, thing: ThingId) -> bool {
        let mut things = Vec::new();
        self.body().touches(&mut things);
        things.iter().any(|touched| touched.id == thing)
    }

    /// What descends from what because of it.
    pub fn descents(&self) -> Vec<Descent> {
        let mut descents = Vec::new();
        self.body().descents(&mut descents);
        descents
    }

    /// The thing that comes into being by it, and the reference it is given (empty when the next
    /// free one is to be taken).
    pub fn creates(&self) -> Option<(Thing, &str)> {
        self.body().creates()
    }

    /// Gives the created thing its reference.
    pub fn name_created(&mut self, reference: String) {
        self.body_mut().name_created(reference);
    }

    /// The body as the JSON text that is stored and hashed.
    ///
    /// # Errors
    /// Only when a value has no JSON form, which the quantities rule out.
    pub fn to_json(&self) -> serde_json::Result<String> {
        self.body().json()
    }
}

deeds! {
    /// A box of film came into the house.
    BoxAdded = "box-added", "add-box", "a new box of film";
    /// A holder or magazine came into use.
    HolderAdded = "holder-added", "add-holder", "a new holder";
    /// A lens came into use.
    LensAdded = "lens-added", "add-lens", "a new lens";
    /// A camera came into use.
    CameraAdded = "camera-added", "add-camera", "a new camera";
    /// A mark of a shutter was timed.
    ShutterTested = "shutter-tested", "test-shutter", "test the shutter";
    /// It was found out what a filter takes.
    FilterFound = "filter-found", "find-filter", "found: what a filter takes";
    /// It was found out how long a film needs.
    TimeFound = "time-found", "find-reciprocity", "found: the time a film needs";
    /// It was found out what a film is: its speed, its maker, what colours it answers to.
    FilmFound = "film-found", "find-film", "found: a film and its speed";
    /// A format was found out: what its holders leave open, how deep the film lies in them.
    FormatFound = "format-found", "find-format", "found: a format and its holders";
    /// A developing time was found out.
    DevelopmentFound = "development-found", "find-development", "found: a developing time";
    /// The light of a scene was found out.
    LightFound = "light-found", "find-light", "found: the light of a scene";
    /// The constants of the meter were set.
    MeterSet = "meter-set", "set-meter", "the constants of the meter";
    /// A place is kept for later.
    PlaceKept = "place-kept", "keep-place", "keep a place";
    /// A strip of steps was read.
    StripRead = "strip-read", "read-strip", "read a strip of steps";
    /// The steps of a tablet were measured.
    TabletFound = "tablet-found", "find-tablet", "found: the steps of a tablet";
    /// The limits of a series of control strips were set.
    LimitsSet = "limits-set", "set-limits", "limits of a control series";
    /// A stock of paper came into the house.
    PaperAdded = "paper-added", "add-paper", "a new stock of paper";
    /// A solution was mixed.
    BathMixed = "bath-mixed", "mix", "mix a bath";
    /// A bath was replenished.
    BathReplenished = "bath-replenished", "replenish", "replenish the bath";
    /// A part of a bath was poured into a bath of its own.
    BathSplit = "bath-split", "split", "pour part of a bath off";
    /// A scrap of film was timed in a fixer until it was clear.
    ClearingTested = "clearing-tested", "test-clearing", "time how film clears";
    /// The first of two fixing baths was thrown away, and the second became the first.
    BathsRotated = "baths-rotated", "rotate", "change the two fixing baths";
    /// Sheets left in a box or a stock of paper were counted.
    Counted = "counted", "count", "count what is left";
    /// A box, a paper or a bath is used up.
    UsedUp = "used-up", "use-up", "used up";
    /// A holder or one of its sides, a lens, a camera or a finding is out of use.
    Retired = "retired", "retire", "take out of use";
    /// A sheet was loaded into a side.
    Loaded = "loaded", "load", "load a sheet";
    /// A sheet was taken out of a side.
    Unloaded = "unloaded", "unload", "unload the sheet";
    /// The shutter opens on a sheet.
    ExposureBegun = "exposure-begun", "begin-exposure", "begin an exposure";
    /// An exposure that was begun was not made after all.
    ExposureDropped = "exposure-dropped", "drop-exposure", "no exposure was made after all";
    /// A sheet was exposed in a side.
    Exposed = "exposed", "expose", "expose";
    /// Someone looked at a dark slide.
    SlideSeen = "slide-seen", "see-slide", "report what the dark slide shows";
    /// The log was right and the dark slide was wrong; it has been turned.
    SlideRighted = "slide-righted", "right-slide", "the log is right: turn the slide";
    /// Sheets of one subject were linked as companions.
    Companions = "companions", "pair", "link companion sheets";
    /// A sheet was fogged.
    Fogged = "fogged", "fog", "fogged";
    /// A development began.
    RunBegun = "run-begun", "develop", "develop";
    /// A step of a run or a print began, by the clock.
    StepBegun = "step-begun", "begin-step", "begin a step, by the clock";
    /// A step got more time, stood still, went on, or became warmer or cooler.
    StepChanged = "step-changed", "change-step", "more time, a pause, the temperature";
    /// A step ended.
    StepEnded = "step-ended", "end-step", "end the step";
    /// A development ended.
    RunEnded = "run-ended", "end-run", "end the run";
    /// A negative was measured.
    Measured = "measured", "measure", "measure densities";
    /// A fault of a negative was seen.
    FaultSeen = "fault-seen", "see-fault", "a fault of the negative";
    /// A negative was scanned.
    Scanned = "scanned", "scan", "scan the negative";
    /// A negative was filed.
    Filed = "filed", "file", "file the negative";
    /// A print was begun.
    PrintBegun = "print-begun", "print", "begin a print";
    /// A step of a print's process was done.
    PrintStep = "print-step", "step", "a step of the process";
    /// A print was spoiled.
    Spoiled = "spoiled", "spoil", "spoiled";
    /// A print was pressed flat.
    Pressed = "pressed", "press", "press";
    /// A print was mounted.
    Mounted = "mounted", "mount", "mount";
    /// A mat was cut for a print.
    Matted = "matted", "mat", "mat";
    /// A print was attached to its back mat.
    Attached = "attached", "attach", "hinges or corners";
    /// A print was signed or numbered.
    Signed = "signed", "sign", "sign and number";
    /// A print was framed.
    Framed = "framed", "frame", "frame";
    /// A print was taken out of its frame.
    Unframed = "unframed", "unframe", "take out of the frame";
    /// A print was labelled.
    Labelled = "labelled", "label", "label";
    /// A print went somewhere.
    Placed = "placed", "place", "where it goes";
    /// A thing was lost.
    Lost = "lost", "lose", "lost";
    /// A thing was thrown away.
    Discarded = "discarded", "discard", "throw away";
    /// Something worth remembering.
    Noted = "noted", "note", "a note";
    /// An entry was crossed out.
    Struck = "struck", "strike", "strike an entry";
    /// The figures of an entry were replaced.
    Amended = "amended", "amend", "amend an entry";
}

/// Adds `id` to what a deed touches, when there is one.
pub(super) fn touch(out: &mut Vec<Thing>, kind: ThingKind, id: Option<ThingId>) {
    out.extend(id.map(|id| Thing::new(kind, id)));
}

/// Adds a line of descent, when there is a parent.
pub(super) fn descend(
    out: &mut Vec<Descent>,
    child: Thing,
    role: &'static str,
    kind: ThingKind,
    parent: Option<ThingId>,
) {
    out.extend(parent.map(|id| Descent {
        child,
        parent: Thing::new(kind, id),
        role,
    }));
}
