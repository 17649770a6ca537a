//! The life of each thing: what state it is in, and what may happen to it next.
//!
//! Every kind of thing has one file here with one readable table of (state, what happens, state).
//! Refusals, the list of what can come next, the generated documentation and the property tests are
//! all drawn from those tables. Beside the table stand the guards a table cannot express: no sheets
//! left, a second exposure that was not meant, a step of a process out of its order.
//!
//! A [`Life`] is a pure fold of the entries that touch a thing, in the order they happened. It
//! knows no clock and no database, and the same fold serves a new entry, a late one, a strike, an
//! amendment and a rebuild.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::{Deed, EntryId, Kind, Objection, OrderKey, Thing, ThingId, ThingKind};
use crate::reference::Reference;

mod bath;
mod camera;
mod film_box;
mod finding;
mod holder;
mod lens;
mod paper;
mod print;
mod run;
mod set;
mod sheet;
mod side;
mod steps;
mod strip;

pub(in crate::logbook) use bath::day_said;
pub use bath::{BathLife, BathState, SOON_DAYS, Wear};
pub use camera::{CameraLife, CameraState};
pub use film_box::{BoxLife, BoxState};
pub use finding::{FindingLife, FindingState, Found, FoundDevelopment};
pub use holder::{HolderLife, HolderState};
pub(in crate::logbook) use lens::shutter_in_words;
pub use lens::{LensLife, LensState, ShutterSession};
pub use paper::{PaperLife, PaperState};
pub use print::{Placement, PrintLife, PrintState, StepDone};
pub use run::{RunLife, RunState};
pub use set::{SetLife, SetState};
pub use sheet::{Begun, Densities, Exposure, Fault, SheetLife, SheetState};
pub use side::{Doubt, SideLife, SideState};
pub use steps::{StepTaken, Steps};
pub(in crate::logbook) use strip::{
    limits_in_words, strip_in_words, tablet_in_words, tablet_used_in_words,
};

/// One row of a life's table: in this state this may happen, and leads to that state.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Row<S: 'static> {
    /// The state before.
    pub from: S,
    /// What happens.
    pub kind: Kind,
    /// The state after.
    pub to: S,
}

/// A row that leads from one state to another.
const fn goes<S>(from: S, kind: Kind, to: S) -> Row<S> {
    Row { from, kind, to }
}

/// A row that leaves the state as it is.
const fn stays<S: Copy>(state: S, kind: Kind) -> Row<S> {
    Row {
        from: state,
        kind,
        to: state,
    }
}

/// The states of one kind of thing, with the table that orders them.
pub trait State: Copy + Eq + std::fmt::Debug + 'static {
    /// The state of a thing that is not there yet.
    const NEW: Self;
    /// What may happen in which state.
    const TABLE: &'static [Row<Self>];
    /// The word people read.
    fn word(self) -> &'static str;
    /// Where `kind` leads from here, if the table allows it.
    fn after(self, kind: Kind) -> Option<Self> {
        if kind == Kind::Noted {
            return (self != Self::NEW).then_some(self);
        }
        Self::TABLE
            .iter()
            .find(|row| row.from == self && row.kind == kind)
            .map(|row| row.to)
    }
    /// Where `kind` leads when it is logged against the order: to the state it usually leads to,
    /// or nowhere else if it never leads anywhere.
    fn forced(self, kind: Kind) -> Option<Self> {
        let mut rows = Self::TABLE.iter().filter(|row| row.kind == kind).peekable();
        rows.peek()?;
        rows.find(|row| row.from != row.to)
            .map(|row| row.to)
            .or_else(|| (self != Self::NEW).then_some(self))
    }
    /// What may happen here, in the order of the table.
    fn possible(self) -> Vec<Kind> {
        let mut kinds = Vec::new();
        for row in Self::TABLE.iter().filter(|row| row.from == self) {
            if !kinds.contains(&row.kind) {
                kinds.push(row.kind);
            }
        }
        if self != Self::NEW {
            kinds.push(Kind::Noted);
        }
        kinds
    }
}

/// One effective entry, as a life sees it.
#[derive(Clone, Copy, Debug)]
pub struct Happening<'a> {
    /// The entry.
    pub entry: EntryId,
    /// What happened, after amendments.
    pub deed: &'a Deed,
    /// When, after amendments.
    pub happened: DateTime<FixedOffset>,
    /// Where it stands among others.
    pub order: OrderKey,
    /// Why the usual order does not hold here.
    pub over: Option<&'a str>,
}

/// The part of a life that is particular to its kind of thing.
trait Story: Default {
    /// Its states.
    type S: State;
    /// The state it is in.
    fn state(&self) -> Self::S;
    /// What the table cannot express. Asked only about a thing that is there, or that comes into
    /// being by this very deed. Most things have no sides that could be named with them.
    fn guard(
        &self,
        _me: ThingId,
        happening: &Happening<'_>,
        _reference: &Reference,
    ) -> Result<(), Objection> {
        match happening.deed {
            Deed::Retired(retired) if !retired.sides.is_empty() => Err(Objection::OtherSides),
            _ => Ok(()),
        }
    }
    /// Takes in what happened; `to` is the state it leads to.
    fn take_in(
        &mut self,
        me: ThingId,
        happening: &Happening<'_>,
        to: Self::S,
        reference: &Reference,
    );
    /// What cannot come next although the state allows it, whatever is said of it: loading from a
    /// box that counts as empty.
    fn rules_out(&self, _kind: Kind) -> bool {
        false
    }
    /// Whether a deed that happened after the last change of state, and was logged late, may be
    /// taken in as if it were the newest: nothing that came after it is another for it.
    fn takes_late(&self, _deed: &Deed) -> bool {
        false
    }
    /// Whether it is all the same to this life which of two deeds happened.
    fn are_alike(was: &Deed, now: &Deed) -> bool {
        was == now
    }
    /// Whether the thing comes into being by this deed.
    fn comes_by(me: ThingId, deed: &Deed) -> bool {
        deed.creates().is_some_and(|(thing, _)| thing.id == me)
    }
    /// What the thing is called from now on, if this deed names it.
    fn named_by(me: ThingId, deed: &Deed) -> Option<String> {
        match deed.creates() {
            Some((thing, reference)) if thing.id == me => Some(reference.to_owned()),
            _ => None,
        }
    }

    /// Table, guards and overrides, in that order.
    fn step(
        &mut self,
        me: ThingId,
        happening: &Happening<'_>,
        reference: &Reference,
    ) -> Result<bool, Objection> {
        let kind = happening.deed.kind();
        match (
            self.state() == Self::S::NEW,
            Self::comes_by(me, happening.deed),
        ) {
            (true, false) => return Err(Objection::NotYet),
            (false, true) => return Err(Objection::Twice),
            _ => {}
        }
        let allowed = self.state().after(kind);
        // A guard may know better than the table why something cannot be, so it is asked first.
        let verdict = self
            .guard(me, happening, reference)
            .and_then(|()| allowed.ok_or(Objection::NotNext));
        let (to, forced) = match verdict {
            Ok(to) => (to, false),
            Err(objection) if happening.over.is_some() && objection.can_be_overridden() => {
                match allowed.or_else(|| self.state().forced(kind)) {
                    Some(to) => (to, true),
                    None => return Err(objection),
                }
            }
            Err(objection) => return Err(objection),
        };
        self.take_in(me, happening, to, reference);
        Ok(forced)
    }
}

macro_rules! stories {
    ($($kind:ident => $life:ident),* $(,)?) => {
        /// What is particular to each kind of thing.
        #[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
        #[serde(rename_all = "kebab-case")]
        pub enum Particulars {
            $(
                #[doc = concat!("Of a ", stringify!($kind), ".")]
                $kind($life),
            )*
        }

        impl Particulars {
            fn new(kind: ThingKind) -> Particulars {
                match kind {
                    $( ThingKind::$kind => Particulars::$kind($life::default()), )*
                }
            }

            /// The word for the state it is in.
            pub fn state_word(&self) -> &'static str {
                match self {
                    $( Particulars::$kind(life) => life.state().word(), )*
                }
            }

            fn possible(&self) -> Vec<Kind> {
                match self {
                    $( Particulars::$kind(life) => {
                        let mut kinds = life.state().possible();
                        kinds.retain(|kind| !life.rules_out(*kind));
                        kinds
                    } )*
                }
            }

            fn is_new(&self) -> bool {
                match self {
                    $( Particulars::$kind(life) => {
                        life.state() == <<$life as Story>::S as State>::NEW
                    } )*
                }
            }

            fn step(
                &mut self,
                me: ThingId,
                happening: &Happening<'_>,
                reference: &Reference,
            ) -> Result<bool, Objection> {
                match self {
                    $( Particulars::$kind(life) => life.step(me, happening, reference), )*
                }
            }

            fn takes_late(&self, deed: &Deed) -> bool {
                match self {
                    $( Particulars::$kind(life) => life.takes_late(deed), )*
                }
            }

            fn are_alike(&self, was: &Deed, now: &Deed) -> bool {
                match self {
                    $( Particulars::$kind(_) => $life::are_alike(was, now), )*
                }
            }

            fn named_by(&self, me: ThingId, deed: &Deed) -> Option<String> {
                match self {
                    $( Particulars::$kind(_) => $life::named_by(me, deed), )*
                }
            }
        }

        /// The table of one kind of thing in words: (state, what happens, state after), for help
        /// and documentation.
        pub fn table_in_words(kind: ThingKind) -> Vec<(&'static str, Kind, &'static str)> {
            match kind {
                $( ThingKind::$kind => <<$life as Story>::S as State>::TABLE
                    .iter()
                    .map(|row| (row.from.word(), row.kind, row.to.word()))
                    .collect(), )*
            }
        }
    };
}

stories! {
    Box => BoxLife,
    Holder => HolderLife,
    Side => SideLife,
    Sheet => SheetLife,
    Set => SetLife,
    Run => RunLife,
    Bath => BathLife,
    Paper => PaperLife,
    Print => PrintLife,
    Lens => LensLife,
    Camera => CameraLife,
    Finding => FindingLife,
}

/// The life of one thing so far.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Life {
    /// The thing.
    pub thing: Thing,
    /// What people call it; empty until it is there.
    pub reference: String,
    /// When it came into being.
    pub born: Option<DateTime<FixedOffset>>,
    /// When its state last changed.
    pub since: Option<DateTime<FixedOffset>>,
    /// Where its last entry stands among others.
    pub last: Option<OrderKey>,
    /// How many entries it has, notes included, struck ones not.
    pub entries: u32,
    /// How many of them were logged against the order, with a reason.
    pub overrides: u32,
    /// What is particular to its kind.
    pub particulars: Particulars,
}

impl Life {
    /// The life of a thing to which nothing has happened yet.
    pub fn new(thing: Thing) -> Life {
        Life {
            thing,
            reference: String::new(),
            born: None,
            since: None,
            last: None,
            entries: 0,
            overrides: 0,
            particulars: Particulars::new(thing.kind),
        }
    }

    /// Whether nothing has happened to it yet.
    pub fn is_new(&self) -> bool {
        self.particulars.is_new()
    }

    /// The word for the state it is in.
    pub fn state_word(&self) -> &'static str {
        self.particulars.state_word()
    }

    /// What its life allows next, in the order of its table: whatever is listed can be logged now,
    /// as far as this thing is concerned. A side in doubt allows only what does not make the doubt
    /// worse.
    pub fn possible(&self) -> Vec<Kind> {
        self.particulars.possible()
    }

    /// Whether [`Life::step`] may take in this happening although later ones are in it already: the
    /// life is then the same as if it had been taken in at its time.
    pub(super) fn takes_late(&self, happening: &Happening<'_>) -> bool {
        self.since.is_some_and(|since| since < happening.happened)
            && self.particulars.takes_late(happening.deed)
    }

    /// Whether the life is the same when, at the same time, one deed happened or the other.
    pub(super) fn is_the_same_with(&self, was: &Deed, now: &Deed) -> bool {
        let me = self.thing.id;
        match (was.is_about(me), now.is_about(me)) {
            (false, false) => true,
            (true, true) => self.particulars.are_alike(was, now),
            _ => false,
        }
    }

    /// Takes in one more happening.
    ///
    /// # Errors
    /// When its life does not allow it. The life is then as it was before.
    pub fn step(
        &mut self,
        happening: &Happening<'_>,
        reference: &Reference,
    ) -> Result<(), Objection> {
        let before = self.state_word();
        let forced = self.particulars.step(self.thing.id, happening, reference)?;
        if let Some(name) = self.particulars.named_by(self.thing.id, happening.deed) {
            self.reference = name;
        }
        self.born = self.born.or(Some(happening.happened));
        if self.since.is_none() || before != self.state_word() {
            self.since = Some(happening.happened);
        }
        self.last = self.last.max(Some(happening.order));
        self.entries += 1;
        self.overrides += u32::from(forced);
        Ok(())
    }
}

/// Gives typed access to the particulars of a life.
macro_rules! access {
    ($($fn:ident: $kind:ident => $life:ident),* $(,)?) => {
        impl Life {
            $(
                #[doc = concat!("The particulars, if it is the life of a ", stringify!($kind), ".")]
                pub fn $fn(&self) -> Option<&$life> {
                    match &self.particulars {
                        Particulars::$kind(life) => Some(life),
                        _ => None,
                    }
                }
            )*
        }
    };
}

access! {
    film_box: Box => BoxLife,
    holder: Holder => HolderLife,
    side: Side => SideLife,
    sheet: Sheet => SheetLife,
    set: Set => SetLife,
    run: Run => RunLife,
    bath: Bath => BathLife,
    paper: Paper => PaperLife,
    print: Print => PrintLife,
    lens: Lens => LensLife,
    camera: Camera => CameraLife,
    finding: Finding => FindingLife,
}
