//! Why a life does not allow something, before anybody has put it into a sentence.

use chrono::{DateTime, FixedOffset, NaiveDate};

use super::{Slide, ThingId, Whereabouts};
use crate::craft::{Area, Capacity, Millilitres, Seconds, Size};
use crate::reference::StepProblem;

/// Why a life does not allow something.
#[derive(Clone, Debug, PartialEq)]
pub enum Objection {
    /// It is not there at that time.
    NotYet,
    /// It would come into being a second time.
    Twice,
    /// In this state, this cannot come next.
    NotNext,
    /// The sheet was exposed already, and another exposure was not meant.
    AlreadyExposed {
        /// When.
        at: DateTime<FixedOffset>,
    },
    /// The dark slide contradicts the log.
    InDoubt {
        /// What it showed.
        seen: Slide,
        /// When it was seen.
        at: DateTime<FixedOffset>,
    },
    /// The dark slide agrees with the log.
    NoDoubt,
    /// No step is under way by the clock.
    NoStep,
    /// The time of the step stands still already.
    StandsStill {
        /// Since when.
        since: DateTime<FixedOffset>,
    },
    /// The time of the step does not stand still.
    GoesOn,
    /// No exposure was begun, so that none can be dropped.
    NotBegun,
    /// There is no sheet in the side.
    NothingInIt,
    /// There is another sheet in the side.
    OtherSheet {
        /// The sheet that is in it.
        inside: ThingId,
    },
    /// The sheet is not in the side that is named, or not in any.
    OtherSide {
        /// The side it is in, if it is in one.
        side: Option<ThingId>,
    },
    /// The sheet lies in another box.
    OtherBox {
        /// The box it went back to.
        film_box: ThingId,
    },
    /// The sheet is not in the run that is named.
    OtherRun {
        /// The run it is in now, if it is in one.
        run: Option<ThingId>,
    },
    /// The sheet belongs to a set of companions already.
    AlreadyLinked {
        /// The set.
        set: ThingId,
    },
    /// What goes out of use has other sides than those that are named.
    OtherSides,
    /// The sheet does not fit the holder.
    WrongSize {
        /// What the holder takes.
        takes: Size,
        /// What the sheet is.
        sheet: Size,
    },
    /// Not enough sheets are left.
    NoneLeft {
        /// How many are left.
        left: u32,
        /// How many were asked for.
        asked: u32,
    },
    /// The bath would be used beyond what it is trusted with.
    Exhausted {
        /// How many sheets went through it.
        uses: u32,
        /// How many more were asked for.
        more: u32,
        /// How many it is trusted with.
        capacity: u32,
    },
    /// The bath would be used beyond the area it is trusted with.
    Spent {
        /// The area that went through it.
        used: Area,
        /// How much more was asked for.
        more: Area,
        /// What it is trusted with.
        capacity: Capacity,
    },
    /// The bath is past its keeping.
    TooOld {
        /// The last day on which it was good.
        last: NaiveDate,
    },
    /// The developer holds less stock than the area of the sheets takes.
    TooLittle {
        /// The stock in it.
        holds: Millilitres,
        /// The stock the area takes.
        needs: Millilitres,
    },
    /// Film takes twice as long to clear in the fixer as it did when that was fresh.
    ClearsSlowly {
        /// How long it took in the fresh bath.
        fresh: Seconds,
        /// How long it took last.
        last: Seconds,
    },
    /// There is not so much in the bath, or it is not known how much there is.
    Pours {
        /// What it holds.
        holds: Option<Millilitres>,
        /// How much was asked for.
        asked: Millilitres,
    },
    /// The bath is the first of no two.
    NoSecond,
    /// The two baths have been changed as often as is told to be safe.
    ChangedOften {
        /// How often.
        changes: u32,
    },
    /// The step is out of its order in the process.
    Step(StepProblem),
    /// The print is out of one's hands.
    Away {
        /// What became of it.
        whereabouts: Whereabouts,
        /// With whom or where.
        place: Option<String>,
    },
    /// The print cannot come back, because it is not away.
    NotAway,
}

impl From<StepProblem> for Objection {
    fn from(problem: StepProblem) -> Objection {
        Objection::Step(problem)
    }
}

impl Objection {
    /// Whether a reason given by the user makes it possible all the same. What has no meaning at
    /// all, such as exposing a sheet nobody knows of, stays impossible.
    pub fn can_be_overridden(&self) -> bool {
        match self {
            Objection::NotYet
            | Objection::Twice
            | Objection::NoDoubt
            | Objection::NotBegun
            | Objection::NoStep
            | Objection::StandsStill { .. }
            | Objection::GoesOn
            | Objection::NothingInIt
            | Objection::OtherSheet { .. }
            | Objection::OtherSide { .. }
            | Objection::OtherRun { .. }
            | Objection::OtherSides
            | Objection::Pours { .. }
            | Objection::NoSecond
            | Objection::NotAway => false,
            Objection::Step(problem) => !matches!(problem, StepProblem::Unknown { .. }),
            Objection::NotNext
            | Objection::AlreadyExposed { .. }
            | Objection::InDoubt { .. }
            | Objection::WrongSize { .. }
            | Objection::NoneLeft { .. }
            | Objection::Exhausted { .. }
            | Objection::Spent { .. }
            | Objection::TooOld { .. }
            | Objection::TooLittle { .. }
            | Objection::ClearsSlowly { .. }
            | Objection::ChangedOften { .. }
            | Objection::OtherBox { .. }
            | Objection::AlreadyLinked { .. }
            | Objection::Away { .. } => true,
        }
    }

    /// Another thing that the objection is about, so that a sentence can call it by its reference.
    pub fn mentions(&self) -> Option<ThingId> {
        match self {
            Objection::OtherSheet { inside } => Some(*inside),
            Objection::OtherSide { side } => *side,
            Objection::OtherBox { film_box } => Some(*film_box),
            Objection::OtherRun { run } => *run,
            Objection::AlreadyLinked { set } => Some(*set),
            _ => None,
        }
    }
}
