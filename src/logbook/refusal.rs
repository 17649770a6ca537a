//! The logbook's "no", in a sentence a person can act on.
//!
//! A [`Refusal`] names the thing, says what is the case and since when, and what can be logged
//! instead. One kind of refusal for every rule; nothing is refused in any other way.

use chrono::{DateTime, FixedOffset};
use thiserror::Error;

use super::sense::Nonsense;
use super::{Kind, ThingKind};

mod order;
pub use order::OutOfOrder;

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
    /// No thing of this kind may be called so.
    #[error(
        "a {kind} cannot be called \"{reference}\": leave the reference empty to get the next free one, or choose a short name of letters and digits that is not what another kind of thing is called"
    )]
    NoReference {
        /// The reference.
        reference: String,
        /// What was to have it.
        kind: ThingKind,
    },
    /// It cannot be meant, whatever has happened.
    #[error("{0}")]
    Nonsense(Nonsense),
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
        "an amendment changes the figures of an entry, and \"{title}\" would become something else: strike it and log the right one",
        title = .kind.title()
    )]
    OtherKind {
        /// What the entry is.
        kind: Kind,
    },
    /// Strikes and amendments are struck, not amended.
    #[error("a strike or an amendment cannot be amended: strike it, then say it anew")]
    AmendedRemark,
    /// No reason was given where one is needed.
    #[error(
        "say why: a strike, an amendment or an override is kept with its reason, so that it can be understood years from now"
    )]
    NoReason,
    /// A thing was named where another kind of thing is meant.
    #[error("{reference} is a {kind}, and \"{title}\" is about something else: choose another", title = .deed.title())]
    WrongThing {
        /// The reference.
        reference: String,
        /// What it is.
        kind: ThingKind,
        /// What was to be logged.
        deed: Kind,
    },
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
            Refusal::Order(order) if !order.rests => order.life.possible(),
            _ => Vec::new(),
        }
    }
}

/// A day and time as the logbook writes it in sentences.
pub(crate) fn day_and_time(at: DateTime<FixedOffset>) -> String {
    at.format("%-d %b %Y at %H:%M").to_string()
}
