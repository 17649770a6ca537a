//! The clock of a long exposure: how long the shutter was open, told by a counter that no one sets.
//!
//! For: counting an exposure of seconds or minutes aloud, with a lead-in, pauses while the shutter is
//! closed, and several openings that add up. [`Timer`] is the counting, [`digits`] the large figures,
//! [`plan`] what was given against what was planned, [`habits`] how a person likes it.
//!
//! Promises: the timer is fed with moments of [`World::steady`](crate::world::World::steady) and with
//! nothing else, so that setting the machine's clock changes nothing and sleep is counted where the
//! system counts it. It reads no clock, rings no bell and draws nothing by itself. A moment that lies
//! before an earlier one counts as that earlier one.
//!
//! Leaves to others: keys and the picture ([`crate::tui::overlays::clock`]), the log
//! ([`crate::tui::app`]).

use std::time::Duration;

use crate::craft::Seconds;

pub mod digits;
pub mod habits;
pub mod plan;

/// A moment on the steady counter.
pub type Moment = Duration;

const SECOND: Duration = Duration::from_secs(1);

/// A lead-in that was over for longer than this when it was noticed: the machine slept, and nobody
/// opened a shutter.
const TOO_LATE: Duration = Duration::from_secs(2);

/// Where an exposure is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stage {
    /// Nothing has begun.
    Ready,
    /// The seconds before the first opening are counted.
    LeadIn {
        /// When the shutter opens.
        opens: Moment,
    },
    /// The shutter is open.
    Open {
        /// Since when.
        since: Moment,
    },
    /// The shutter is closed for a while.
    Closed,
    /// The exposure is over, unless the shutter is opened once more.
    Ended,
}

/// What happened on the clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Heard {
    /// A second of the lead-in passed.
    LeadSecond,
    /// The lead-in ran out while nobody watched, and the shutter was not opened.
    CalledOff,
    /// The shutter was opened, for the first time or again.
    Opened {
        /// Whether it was the first time.
        first: bool,
    },
    /// The shutter was closed.
    Closed,
    /// A second passed with the shutter open.
    Second,
    /// Ten seconds passed with the shutter open.
    Ten,
    /// The planned time was given.
    Planned,
    /// The exposure is over.
    Ended,
}

/// Which way the digits count.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Count {
    /// The seconds given.
    Up,
    /// The seconds left of the plan; beyond it the seconds over.
    #[default]
    Down,
}

/// What the digits show.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Shown {
    /// Before the opening, or beyond the plan.
    pub sign: Option<char>,
    /// Whole seconds.
    pub seconds: u64,
}

/// The counting of one exposure.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Timer {
    plan: Option<Duration>,
    lead_in: Duration,
    stage: Stage,
    /// The openings that are over.
    openings: Vec<Duration>,
    /// Whole seconds told already: of the lead-in that are left, of the exposure that were given.
    lead_told: u64,
    told: u64,
    plan_told: bool,
    /// The latest moment it was told.
    latest: Moment,
}

impl Timer {
    /// A timer for so long an exposure, if one is planned, with so many seconds before it.
    pub const fn new(plan: Option<Duration>, lead_in: Duration) -> Timer {
        Timer {
            plan,
            lead_in,
            stage: Stage::Ready,
            openings: Vec::new(),
            lead_told: 0,
            told: 0,
            plan_told: false,
            latest: Duration::ZERO,
        }
    }

    /// A timer of an exposure that began before it was made, with the shutter still open.
    pub fn going_on(plan: Option<Duration>, since: Moment, now: Moment) -> Timer {
        let mut timer = Timer::new(plan, Duration::ZERO);
        timer.latest = now;
        timer.stage = Stage::Open { since };
        let given = timer.given(now);
        timer.told = given.as_secs();
        timer.plan_told = plan.is_some_and(|plan| given >= plan);
        timer
    }

    /// Where the exposure is.
    pub const fn stage(&self) -> Stage {
        self.stage
    }

    /// The planned time.
    pub const fn plan(&self) -> Option<Duration> {
        self.plan
    }

    /// The lead-in.
    pub const fn lead_in(&self) -> Duration {
        self.lead_in
    }

    /// Sets the lead-in, as long as nothing has begun.
    pub fn set_lead_in(&mut self, lead_in: Duration) {
        if self.stage == Stage::Ready {
            self.lead_in = lead_in;
        }
    }

    /// Whether the shutter was open at any time.
    pub const fn was_opened(&self) -> bool {
        !self.openings.is_empty() || matches!(self.stage, Stage::Open { .. })
    }

    /// Whether something is being counted.
    pub const fn runs(&self) -> bool {
        matches!(self.stage, Stage::LeadIn { .. } | Stage::Open { .. })
    }

    /// The openings up to a moment, the last of which may go on.
    pub fn openings(&self, now: Moment) -> Vec<Duration> {
        let mut openings = self.openings.clone();
        if let Stage::Open { since } = self.stage {
            openings.push(self.at(now).saturating_sub(since));
        }
        openings
    }

    /// How long the shutter was open up to a moment, all openings together.
    pub fn given(&self, now: Moment) -> Duration {
        self.openings(now).iter().sum()
    }

    /// Time does not go back.
    fn at(&self, now: Moment) -> Moment {
        now.max(self.latest)
    }

    /// Any key: begins the lead-in or opens the shutter, calls the lead-in off, ends the exposure.
    pub fn press(&mut self, now: Moment) -> Vec<Heard> {
        let mut heard = self.advance(now);
        let now = self.at(now);
        match self.stage {
            Stage::Ready if self.lead_in.is_zero() => self.open(now, &mut heard),
            Stage::Ready => {
                let opens = now + self.lead_in;
                self.lead_told = whole_up(self.lead_in);
                self.stage = Stage::LeadIn { opens };
            }
            Stage::LeadIn { .. } => self.stage = Stage::Ready,
            Stage::Open { .. } => {
                self.close(now, &mut heard);
                self.finish(&mut heard);
            }
            Stage::Closed => self.finish(&mut heard),
            Stage::Ended => {}
        }
        heard
    }

    /// The key that closes the shutter for a while and opens it again, after the end as well.
    pub fn pause(&mut self, now: Moment) -> Vec<Heard> {
        let mut heard = self.advance(now);
        let now = self.at(now);
        match self.stage {
            Stage::Open { .. } => self.close(now, &mut heard),
            Stage::Closed | Stage::Ended => self.open(now, &mut heard),
            Stage::LeadIn { .. } => self.stage = Stage::Ready,
            Stage::Ready => {}
        }
        heard
    }

    /// Closes the shutter, if it is open, and ends the exposure.
    pub fn end(&mut self, now: Moment) -> Vec<Heard> {
        match self.stage {
            Stage::Open { .. } | Stage::Closed => self.press(now),
            _ => Vec::new(),
        }
    }

    fn open(&mut self, at: Moment, heard: &mut Vec<Heard>) {
        heard.push(Heard::Opened {
            first: self.openings.is_empty(),
        });
        self.stage = Stage::Open { since: at };
    }

    fn close(&mut self, at: Moment, heard: &mut Vec<Heard>) {
        if let Stage::Open { since } = self.stage {
            self.openings.push(at.saturating_sub(since));
            self.stage = Stage::Closed;
            heard.push(Heard::Closed);
        }
    }

    fn finish(&mut self, heard: &mut Vec<Heard>) {
        self.stage = Stage::Ended;
        heard.push(Heard::Ended);
    }

    /// Goes on to a moment: opens the shutter when the lead-in is over, to the very moment, and tells
    /// the seconds and marks that passed. Of several that passed unseen the last one is told.
    pub fn advance(&mut self, now: Moment) -> Vec<Heard> {
        let now = self.at(now);
        self.latest = now;
        let mut heard = Vec::new();
        if let Stage::LeadIn { opens } = self.stage {
            if now >= opens + TOO_LATE {
                self.stage = Stage::Ready;
                return vec![Heard::CalledOff];
            }
            if now >= opens {
                self.open(opens, &mut heard);
            } else {
                let left = whole_up(opens - now);
                if left < self.lead_told {
                    self.lead_told = left;
                    heard.push(Heard::LeadSecond);
                }
            }
        }
        if matches!(self.stage, Stage::Open { .. }) {
            let given = self.given(now);
            let whole = given.as_secs();
            let planned = !self.plan_told && self.plan.is_some_and(|plan| given >= plan);
            if planned {
                self.plan_told = true;
                heard.push(Heard::Planned);
            } else if whole > self.told {
                heard.push(if whole / 10 > self.told / 10 {
                    Heard::Ten
                } else {
                    Heard::Second
                });
            }
            self.told = whole.max(self.told);
        }
        heard
    }

    /// What the digits show at a moment.
    pub fn shown(&self, now: Moment, count: Count) -> Shown {
        if let Stage::LeadIn { opens } = self.stage {
            return Shown {
                sign: Some('-'),
                seconds: whole_up(opens.saturating_sub(self.at(now))),
            };
        }
        let given = self.given(now);
        match (self.plan, count) {
            (Some(plan), Count::Down) if given < plan => Shown {
                sign: None,
                seconds: whole_up(plan - given),
            },
            (Some(plan), Count::Down) => {
                let over = (given - plan).as_secs();
                Shown {
                    sign: (over > 0).then_some('+'),
                    seconds: over,
                }
            }
            _ => Shown {
                sign: None,
                seconds: given.as_secs(),
            },
        }
    }

    /// How long until the digits show something else or a mark is reached; nothing if nothing runs.
    pub fn until_change(&self, now: Moment, count: Count) -> Option<Duration> {
        let now = self.at(now);
        match self.stage {
            Stage::LeadIn { opens } => Some(to_whole(opens.saturating_sub(now))),
            Stage::Open { .. } => {
                let given = self.given(now);
                let next_second = SECOND - fraction(given);
                let left = self.plan.map(|plan| plan.saturating_sub(given));
                let wait = match left.filter(|left| !left.is_zero()) {
                    Some(left) if count == Count::Down => to_whole(left).min(next_second),
                    Some(left) => left.min(next_second),
                    None => match (self.plan, count) {
                        (Some(plan), Count::Down) => {
                            (SECOND - fraction(given - plan)).min(next_second)
                        }
                        _ => next_second,
                    },
                };
                Some(wait)
            }
            Stage::Ready | Stage::Closed | Stage::Ended => None,
        }
    }
}

/// A time the clock counted, to the tenth of a second, which is about as exact as a finger; none for
/// less than that.
pub fn counted(time: Duration) -> Option<Seconds> {
    let tenths = (time.as_secs_f64() * 10.0).round();
    (tenths >= 1.0)
        .then(|| Seconds::new(tenths / 10.0).ok())
        .flatten()
}

/// The same in words: `5.1 s`, `2 min 30 s`.
pub fn in_words(time: Duration) -> String {
    counted(time).map_or_else(|| "0 s".to_owned(), |time| time.to_string())
}

fn fraction(time: Duration) -> Duration {
    Duration::from_nanos(u64::from(time.subsec_nanos()))
}

/// Whole seconds, a begun one counted in full.
fn whole_up(time: Duration) -> u64 {
    time.as_secs() + u64::from(time.subsec_nanos() > 0)
}

/// From a time that is left to its next lower whole second.
fn to_whole(left: Duration) -> Duration {
    match fraction(left) {
        fraction if fraction.is_zero() => SECOND.min(left),
        fraction => fraction,
    }
}

#[cfg(test)]
mod tests;
