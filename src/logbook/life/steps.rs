//! The steps of a run or a print as they were timed, the one under way last.
//!
//! Only what was logged stands here: when a step began, when its time stood still, when it ended. What a
//! clock shows at some moment is reckoned from that ([`StepTaken::given_at`]), so it is the same in every
//! program that reads the logbook.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use crate::craft::{Celsius, Seconds};
use crate::logbook::{Change, Deed, EntryId, Objection, StepBegun, StepChanged, ThingId};

use super::Happening;

/// A step that was begun.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StepTaken {
    /// The entry that began it.
    pub entry: EntryId,
    /// The id of the step, or words for it.
    pub step: String,
    /// When it began.
    pub begun: DateTime<FixedOffset>,
    /// The time planned when it began.
    pub first_plan: Option<Seconds>,
    /// The time planned now.
    pub planned: Option<Seconds>,
    /// The bath.
    pub bath: Option<ThingId>,
    /// How warm it was when it began.
    pub first_temperature: Option<Celsius>,
    /// How warm it was when that was read last.
    pub temperature: Option<Celsius>,
    /// How it is moved.
    pub agitation: Option<String>,
    /// Since when its time stands still, if it does.
    pub paused: Option<DateTime<FixedOffset>>,
    /// For how many seconds its time stood still before that.
    pub stood_still: f64,
    /// When it ended.
    pub ended: Option<DateTime<FixedOffset>>,
    /// How long was given, once it has ended.
    pub given: Option<Seconds>,
}

impl StepTaken {
    /// For how many seconds it was given up to a moment; never less than none.
    pub fn given_at(&self, now: DateTime<FixedOffset>) -> f64 {
        if let Some(given) = self.given {
            return given.value();
        }
        let until = [self.paused, self.ended]
            .into_iter()
            .flatten()
            .fold(now, std::cmp::Ord::min);
        (seconds(self.begun, until) - self.stood_still).max(0.0)
    }

    /// Whether it is under way, its time standing still or not.
    pub const fn is_under_way(&self) -> bool {
        self.ended.is_none()
    }

    fn end(&mut self, at: DateTime<FixedOffset>, given: Option<Seconds>) {
        let counted = Seconds::new(self.given_at(at)).ok();
        self.given = given.or(counted);
        self.ended = Some(at);
        self.paused = None;
    }
}

fn seconds(from: DateTime<FixedOffset>, to: DateTime<FixedOffset>) -> f64 {
    // A microsecond is nothing to a clock.
    (to - from).num_milliseconds().max(0) as f64 / 1000.0
}

/// All steps of a run or a print, in the order in which they began.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Steps(Vec<StepTaken>);

impl Steps {
    /// All of them.
    pub fn all(&self) -> &[StepTaken] {
        &self.0
    }

    /// Whether none was begun.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The one that is under way.
    pub fn current(&self) -> Option<&StepTaken> {
        self.0.last().filter(|step| step.is_under_way())
    }

    /// The one that began last.
    pub fn last(&self) -> Option<&StepTaken> {
        self.0.last()
    }

    /// What the table of a life cannot say of the deeds at the clock.
    pub(super) fn guard(&self, deed: &Deed) -> Result<(), Objection> {
        let current = || self.current().ok_or(Objection::NoStep);
        match deed {
            Deed::StepEnded(_) => current().map(|_| ()),
            Deed::StepChanged(changed) => {
                let step = current()?;
                match (changed.change, step.paused) {
                    (Change::Pause, Some(since)) => Err(Objection::StandsStill { since }),
                    (Change::GoOn, None) => Err(Objection::GoesOn),
                    _ => Ok(()),
                }
            }
            _ => Ok(()),
        }
    }

    /// Takes in what happens at the clock; every other deed leaves it as it is.
    pub(super) fn take_in(&mut self, happening: &Happening<'_>) {
        let at = happening.happened;
        match happening.deed {
            Deed::StepBegun(begun) => {
                self.end(at, None);
                self.0.push(taken(begun, happening));
            }
            Deed::StepChanged(changed) => {
                if let Some(step) = self.0.last_mut().filter(|step| step.is_under_way()) {
                    change(step, changed, at);
                }
            }
            Deed::StepEnded(ended) => {
                if let Some(step) = self.0.last_mut() {
                    step.temperature = ended.temperature.or(step.temperature);
                }
                self.end(at, ended.time);
            }
            _ => {}
        }
    }

    /// Ends the step that is under way, if one is.
    pub(super) fn end(&mut self, at: DateTime<FixedOffset>, given: Option<Seconds>) {
        if let Some(step) = self.0.last_mut().filter(|step| step.is_under_way()) {
            step.end(at, given);
        }
    }
}

fn taken(begun: &StepBegun, happening: &Happening<'_>) -> StepTaken {
    StepTaken {
        entry: happening.entry,
        step: begun.step.clone(),
        begun: happening.happened,
        first_plan: begun.time,
        planned: begun.time,
        bath: begun.bath,
        first_temperature: begun.temperature,
        temperature: begun.temperature,
        agitation: begun.agitation.clone(),
        paused: None,
        stood_still: 0.0,
        ended: None,
        given: None,
    }
}

fn change(step: &mut StepTaken, changed: &StepChanged, at: DateTime<FixedOffset>) {
    match changed.change {
        Change::Pause => step.paused = Some(at),
        Change::GoOn => {
            if let Some(since) = step.paused.take() {
                step.stood_still += seconds(since, at);
            }
        }
        Change::MoreTime => {
            let so_far = step
                .planned
                .map_or_else(|| step.given_at(at), Seconds::value);
            let longer = changed
                .more
                .and_then(|more| Seconds::new(so_far + more.value()).ok());
            step.planned = longer.or(step.planned);
        }
        Change::Temperature => {}
    }
    step.temperature = changed.temperature.or(step.temperature);
    step.planned = changed.time.or(step.planned);
}
