//! Why a life does not allow something, before anybody has put it into a sentence.

use chrono::{DateTime, FixedOffset};

use super::{Slide, Whereabouts};
use crate::craft::Size;
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
    },
    /// The dark slide agrees with the log.
    NoDoubt,
    /// There is no sheet in the side.
    NothingInIt,
    /// There is another sheet in the side.
    OtherSheet,
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
    /// A set needs two sheets.
    TooFew,
    /// A print needs a negative.
    NoNegative,
    /// The step is out of its order in the process.
    Step(StepProblem),
    /// The print is out of one's hands.
    Away {
        /// What became of it.
        whereabouts: Whereabouts,
        /// With whom or where.
        place: Option<String>,
    },
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
            | Objection::NothingInIt
            | Objection::OtherSheet
            | Objection::TooFew
            | Objection::NoNegative => false,
            Objection::Step(problem) => !matches!(problem, StepProblem::Unknown { .. }),
            Objection::NotNext
            | Objection::AlreadyExposed { .. }
            | Objection::InDoubt { .. }
            | Objection::WrongSize { .. }
            | Objection::NoneLeft { .. }
            | Objection::Exhausted { .. }
            | Objection::Away { .. } => true,
        }
    }
}
