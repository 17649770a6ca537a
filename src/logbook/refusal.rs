//! The logbook's "no", in a sentence a person can act on.
//!
//! A [`Refusal`] names the thing, says what is the case and since when, and what can be logged
//! instead. One kind of refusal for every rule; nothing is refused in any other way.

use chrono::{DateTime, FixedOffset};
use thiserror::Error;

use super::life::Life;
use super::{Kind, Objection, ThingKind};

/// Why something cannot be logged.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum Refusal {
    /// The life of a thing does not allow it.
    #[error("{0}")]
    Order(Box<OutOfOrder>),
    /// The reference is taken.
    #[error(
        "{reference} is taken by another {kind}: leave the reference empty to get the next free one, or choose another"
    )]
    Taken {
        /// The reference.
        reference: String,
        /// What has it.
        kind: ThingKind,
    },
    /// A thing that is named is not in this logbook.
    #[error(
        "there is no such {kind} in this logbook (\"{called}\"): log it first, or look up its reference"
    )]
    Unknown {
        /// What was named.
        kind: ThingKind,
        /// How it was called.
        called: String,
    },
    /// It would happen in the future.
    #[error("{happened} is still to come: log it when it has happened, or correct the time", happened = day_and_time(*.happened))]
    Future {
        /// When it would happen.
        happened: DateTime<FixedOffset>,
    },
    /// The entry to strike or amend is not there.
    #[error("there is no such entry in this logbook: look up its number in the timeline")]
    NoSuchEntry,
    /// The entry is struck already.
    #[error("that entry is struck already: to bring it back, strike the strike")]
    AlreadyStruck,
    /// An amendment that is not of the same kind, or is about another new thing.
    #[error(
        "an amendment can change the figures of \"{kind}\", not what it is: strike it and log the right one"
    )]
    OtherKind {
        /// What the entry is.
        kind: Kind,
    },
    /// Strikes and amendments are struck, not amended.
    #[error("a strike or an amendment cannot be amended: strike it, then say it anew")]
    AmendedRemark,
    /// No reason was given where one is needed.
    #[error("say why: a strike, an amendment or an override is kept with its reason")]
    NoReason,
    /// A thing was named where another kind of thing is meant.
    #[error("{reference} is a {kind}: \"{deed}\" is not about such a thing")]
    WrongThing {
        /// The reference.
        reference: String,
        /// What it is.
        kind: ThingKind,
        /// What was to be logged.
        deed: Kind,
    },
}

/// A refusal drawn from the life of a thing.
#[derive(Clone, Debug, PartialEq)]
pub struct OutOfOrder {
    /// The thing, as it was just before.
    pub life: Life,
    /// What people call it.
    pub reference: String,
    /// What does not fit.
    pub kind: Kind,
    /// When it happened or would happen.
    pub happened: DateTime<FixedOffset>,
    /// Why it does not fit.
    pub objection: Objection,
    /// Whether what does not fit is an earlier-logged entry that rests on what is being changed.
    pub rests: bool,
}

impl Refusal {
    /// Whether a reason makes it possible all the same.
    pub fn can_be_overridden(&self) -> bool {
        match self {
            Refusal::Order(order) => !order.rests && order.objection.can_be_overridden(),
            _ => false,
        }
    }

    /// What can be logged instead, if the refusal is about the life of a thing.
    pub fn possible(&self) -> Vec<Kind> {
        match self {
            Refusal::Order(order) => order.life.possible(),
            _ => Vec::new(),
        }
    }
}

/// A day and time as the logbook writes it in sentences.
pub(crate) fn day_and_time(at: DateTime<FixedOffset>) -> String {
    at.format("%-d %b %Y at %H:%M").to_string()
}

impl std::fmt::Display for OutOfOrder {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let name = &self.reference;
        if self.rests {
            write!(
                f,
                "what was logged after would no longer fit: \"{}\" of {} rests on this, for {name} ",
                self.kind,
                day_and_time(self.happened),
            )?;
            self.what_is(f)?;
            return write!(f, " then; strike that first");
        }
        match &self.objection {
            Objection::NotYet => {
                write!(
                    f,
                    "{name} is not in the logbook at {}",
                    day_and_time(self.happened)
                )?;
                return f.write_str(": correct the time, or log first how it came in");
            }
            Objection::Twice => {
                return write!(
                    f,
                    "{name} is in the logbook already: say that it is loaded again"
                );
            }
            Objection::AlreadyExposed { at } => {
                return write!(
                    f,
                    "{name} was already exposed on {}: if this is one more exposure on the same sheet, say so (again); if it was another side, choose that side; or log {}",
                    day_and_time(*at),
                    self.alternatives(),
                );
            }
            Objection::InDoubt { seen } => {
                return write!(
                    f,
                    "{name} is in doubt: the log says {}, but its slide was seen {} side out: find out which entry was missed and log it with its own time, strike or amend the wrong one, or confirm the log (right-slide)",
                    self.life.state_word(),
                    seen.word(),
                );
            }
            Objection::NoDoubt => {
                return write!(f, "{name} is not in doubt: its slide agrees with the log");
            }
            Objection::NothingInIt => {
                return write!(
                    f,
                    "{name} is empty at {}: if a sheet was in it, log the loading first, with its own time",
                    day_and_time(self.happened),
                );
            }
            Objection::OtherSheet => {
                return write!(
                    f,
                    "{name} holds another sheet: choose the sheet that is in it, or the side it is in"
                );
            }
            Objection::WrongSize { takes, sheet } => {
                return write!(
                    f,
                    "{name} takes {takes}, and the sheet is {sheet}: choose another holder or box, or say why it fits"
                );
            }
            Objection::NoneLeft { left, asked } => {
                let (are, sheets) = if *left == 1 {
                    ("is", "sheet")
                } else {
                    ("are", "sheets")
                };
                return write!(
                    f,
                    "there {are} {left} {sheets} left of {name}, and {asked} asked for: count what is left, or choose another"
                );
            }
            Objection::Exhausted {
                uses,
                more,
                capacity,
            } => {
                return write!(
                    f,
                    "{name} is trusted with {capacity} and has had {uses}: {more} more would be too many; mix a fresh one, replenish it, or say why it still works"
                );
            }
            Objection::TooFew => {
                return f.write_str("companions are two sheets or more: name the other one");
            }
            Objection::NoNegative => {
                return f.write_str("a print is made from a negative: name the sheet");
            }
            Objection::Step(problem) => return write!(f, "{name}: {problem}"),
            Objection::Away { whereabouts, place } => {
                write!(f, "{name} is out of your hands ({}", whereabouts.word())?;
                if let Some(place) = place {
                    write!(f, ", {place}")?;
                }
                return f.write_str("): log its return first");
            }
            Objection::NotNext => {}
        }
        write!(f, "{name} ")?;
        self.what_is(f)?;
        write!(
            f,
            ", so \"{}\" cannot come next; what can: {}",
            self.kind,
            self.alternatives()
        )
    }
}

impl OutOfOrder {
    /// "is exposed since 4 Mar 2026 at 16:02"
    fn what_is(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        if self.life.is_new() {
            return f.write_str("would not be in the logbook");
        }
        write!(f, "is {}", self.life.state_word())?;
        match self.life.since {
            Some(since) => write!(f, " since {}", day_and_time(since)),
            None => Ok(()),
        }
    }

    fn alternatives(&self) -> String {
        let words: Vec<&str> = self.life.possible().into_iter().map(Kind::word).collect();
        if words.is_empty() {
            "nothing".to_owned()
        } else {
            words.join(", ")
        }
    }
}
