//! What a run of random sequences has met, so that a quiet test is known to have had something to
//! say.

use std::collections::BTreeMap;

use notchbook::logbook::{Kind, Objection, Refusal};
use notchbook::reference::StepProblem;

#[derive(Clone, Default)]
pub(crate) struct Coverage {
    pub(crate) sequences: u64,
    pub(crate) acts: u64,
    pub(crate) taken: u64,
    pub(crate) accepted: BTreeMap<Kind, u64>,
    pub(crate) refused: BTreeMap<Kind, u64>,
    pub(crate) refusals: BTreeMap<&'static str, u64>,
    pub(crate) objections: BTreeMap<&'static str, u64>,
    pub(crate) resting: u64,
    pub(crate) overridden: u64,
    pub(crate) late: u64,
    pub(crate) offered: u64,
    pub(crate) not_offered: u64,
}

/// Every name that [`refusal`] can give.
pub(crate) const REFUSALS: [&str; 12] = [
    "order",
    "taken",
    "no-reference",
    "nonsense",
    "unknown",
    "future",
    "no-such-entry",
    "already-struck",
    "other-kind",
    "amended-remark",
    "no-reason",
    "wrong-thing",
];

pub(crate) const fn refusal(refusal: &Refusal) -> &'static str {
    match refusal {
        Refusal::Order(_) => "order",
        Refusal::Taken { .. } => "taken",
        Refusal::NoReference { .. } => "no-reference",
        Refusal::Nonsense(_) => "nonsense",
        Refusal::Unknown { .. } => "unknown",
        Refusal::Future { .. } => "future",
        Refusal::NoSuchEntry => "no-such-entry",
        Refusal::AlreadyStruck => "already-struck",
        Refusal::OtherKind { .. } => "other-kind",
        Refusal::AmendedRemark => "amended-remark",
        Refusal::NoReason => "no-reason",
        Refusal::WrongThing { .. } => "wrong-thing",
    }
}

/// Every name that [`objection`] can give.
pub(crate) const OBJECTIONS: [&str; 33] = [
    "not-yet",
    "twice",
    "not-next",
    "already-exposed",
    "in-doubt",
    "no-doubt",
    "not-begun",
    "no-step",
    "stands-still",
    "goes-on",
    "nothing-in-it",
    "other-sheet",
    "other-side",
    "other-box",
    "other-run",
    "already-linked",
    "other-sides",
    "wrong-size",
    "none-left",
    "exhausted",
    "spent",
    "too-old",
    "too-little",
    "clears-slowly",
    "pours",
    "no-second",
    "changed-often",
    "step-unknown",
    "step-missing",
    "step-forbidden",
    "step-repeated",
    "away",
    "not-away",
];

pub(crate) const fn objection(objection: &Objection) -> &'static str {
    match objection {
        Objection::NotYet => "not-yet",
        Objection::Twice => "twice",
        Objection::NotNext => "not-next",
        Objection::AlreadyExposed { .. } => "already-exposed",
        Objection::InDoubt { .. } => "in-doubt",
        Objection::NoDoubt => "no-doubt",
        Objection::NotBegun => "not-begun",
        Objection::NoStep => "no-step",
        Objection::StandsStill { .. } => "stands-still",
        Objection::GoesOn => "goes-on",
        Objection::NothingInIt => "nothing-in-it",
        Objection::OtherSheet { .. } => "other-sheet",
        Objection::OtherSide { .. } => "other-side",
        Objection::OtherBox { .. } => "other-box",
        Objection::OtherRun { .. } => "other-run",
        Objection::AlreadyLinked { .. } => "already-linked",
        Objection::OtherSides => "other-sides",
        Objection::WrongSize { .. } => "wrong-size",
        Objection::NoneLeft { .. } => "none-left",
        Objection::Exhausted { .. } => "exhausted",
        Objection::Spent { .. } => "spent",
        Objection::TooOld { .. } => "too-old",
        Objection::TooLittle { .. } => "too-little",
        Objection::ClearsSlowly { .. } => "clears-slowly",
        Objection::Pours { .. } => "pours",
        Objection::NoSecond => "no-second",
        Objection::ChangedOften { .. } => "changed-often",
        Objection::Step(StepProblem::Unknown { .. }) => "step-unknown",
        Objection::Step(StepProblem::Missing { .. }) => "step-missing",
        Objection::Step(StepProblem::Forbidden { .. }) => "step-forbidden",
        Objection::Step(StepProblem::Repeated { .. }) => "step-repeated",
        Objection::Away { .. } => "away",
        Objection::NotAway => "not-away",
    }
}

impl Coverage {
    pub(crate) fn refuse(&mut self, with: &Refusal) {
        *self.refusals.entry(refusal(with)).or_default() += 1;
        if let Refusal::Order(order) = with {
            let name = objection(&order.objection);
            *self.objections.entry(name).or_default() += 1;
            self.resting += u64::from(order.rests);
        }
    }

    pub(crate) fn add(&mut self, other: Coverage) {
        fn sum<K: Ord>(into: &mut BTreeMap<K, u64>, from: BTreeMap<K, u64>) {
            for (key, count) in from {
                *into.entry(key).or_default() += count;
            }
        }
        self.sequences += other.sequences;
        self.acts += other.acts;
        self.taken += other.taken;
        self.resting += other.resting;
        self.overridden += other.overridden;
        self.late += other.late;
        self.offered += other.offered;
        self.not_offered += other.not_offered;
        sum(&mut self.accepted, other.accepted);
        sum(&mut self.refused, other.refused);
        sum(&mut self.refusals, other.refusals);
        sum(&mut self.objections, other.objections);
    }
}
