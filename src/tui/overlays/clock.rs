//! The clock of a long exposure, over the whole screen.
//!
//! For: the [`Timer`] with the hand on it. Any key begins, any key ends: in the dark, with wet fingers
//! or in gloves nobody looks for a key. One key closes the shutter for a while, Esc asks before
//! anything is thrown away.
//!
//! Promises: a key that is still held down, or that bounces, does nothing a second time; a question
//! never stops the counting; what could make the digits doubtful is said in words.
//!
//! Leaves to others: logging, ringing and what becomes of the figures ([`crate::tui::app`]).

use std::time::Duration;

use chrono::{DateTime, FixedOffset};

use crate::logbook::draft::Drafted;
use crate::tui::clock::habits::{Bell, Habits};
use crate::tui::clock::plan::AgainstPlan;
use crate::tui::clock::{Count, Heard, Moment, Shown, Stage, Timer, in_words};
use crate::tui::keys::Chord;

mod draw;

/// What is exposed, in words.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct About {
    /// The sheet and the side it is in.
    pub what: String,
    /// The film.
    pub film: String,
    /// The plan: `35 s at f/32`.
    pub plan: String,
}

/// A moment: on the counter, and on the machine's clock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Now {
    /// On the steady counter.
    pub steady: Moment,
    /// On the clock that can be set.
    pub wall: DateTime<FixedOffset>,
    /// Whether the counter goes on in sleep.
    pub counts_sleep: bool,
}

/// A key that means something by itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ClockKey {
    /// Open the clock.
    Open,
    /// Count the other way.
    Count,
    /// The next choice of the bell.
    Bell,
    /// A longer or a shorter lead-in.
    LeadIn(i8),
    /// More or fewer cells lit.
    Cloth,
    /// Close the shutter for a while, open it again.
    Pause,
    /// Ask whether to leave; leave the question.
    Ask,
    /// Say that no light fell on the sheet.
    Drop,
}

/// What touched the clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Touch {
    /// A key that means nothing by itself.
    Key(Chord),
    /// The mouse.
    Click,
    /// A key that means something.
    Act(ClockKey),
}

/// What the application has to do after a touch or a tick.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Told {
    /// What happened on the timer.
    pub heard: Vec<Heard>,
    /// Whether the hand goes back to the pane.
    pub back: bool,
    /// Whether the picture is another one.
    pub changed: bool,
}

/// What the digits and the words beside them show.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Face {
    shown: Shown,
    stage: &'static str,
    off: String,
}

/// The hand: what it touched last, and when.
#[derive(Debug, Clone, Copy)]
struct Hand {
    touch: Touch,
    last: Moment,
    /// When a touch of it did something.
    did: Moment,
}

/// A key that is held down comes again after this long at the latest.
const HELD: Duration = Duration::from_millis(700);

/// And then again and again, at least as often as this.
const AGAIN: Duration = Duration::from_millis(150);

/// Nobody looked at the counter for so long: the machine slept.
const SLEPT: Duration = Duration::from_secs(5);

/// The longest a picture lags behind when the machine wakes up.
const LONGEST_TICK: Duration = Duration::from_millis(250);

/// The clock.
#[derive(Debug)]
pub struct Clock {
    timer: Timer,
    habits: Habits,
    about: About,
    asks: bool,
    hand: Option<Hand>,
    face: Face,
    /// When the shutter opened first, on both clocks.
    opened: Option<Now>,
    latest: Moment,
    /// When it was last looked at with the shutter open.
    watched: Option<Moment>,
    /// What makes the digits doubtful.
    doubt: Option<String>,
    /// That the shutter opened, as long as another program's writing keeps it out of the log.
    pub waits: Option<Box<Drafted>>,
}

impl Clock {
    /// A clock for a planned time, if there is one.
    pub fn new(plan: Option<Duration>, about: About, habits: Habits, now: Now) -> Clock {
        let timer = Timer::new(plan, habits.lead_in());
        Clock::over(timer, about, habits, now)
    }

    /// A clock for an exposure whose shutter was opened before, `since` so long.
    pub fn going_on(
        plan: Option<Duration>,
        since: Duration,
        about: About,
        habits: Habits,
        now: Now,
    ) -> Clock {
        // The counter may have begun after the shutter opened.
        let began = now.steady.saturating_sub(since);
        let timer = Timer::going_on(plan, began, now.steady);
        let mut clock = Clock::over(timer, about, habits, now);
        clock.opened = Some(now);
        clock
    }

    fn over(timer: Timer, about: About, habits: Habits, now: Now) -> Clock {
        let face = face_of(&timer, habits, now.steady);
        Clock {
            timer,
            habits,
            about,
            asks: false,
            hand: None,
            face,
            opened: None,
            latest: now.steady,
            watched: None,
            doubt: None,
            waits: None,
        }
    }

    /// How it is liked.
    pub const fn habits(&self) -> Habits {
        self.habits
    }

    /// The timer.
    pub const fn timer(&self) -> &Timer {
        &self.timer
    }

    /// The openings up to now, in seconds as they are logged.
    pub fn openings(&self) -> Vec<Duration> {
        self.timer.openings(self.latest)
    }

    /// Whether it asks before leaving.
    pub const fn asks(&self) -> bool {
        self.asks
    }

    /// How long until it shows something else.
    pub fn until_tick(&self, now: Now) -> Option<Duration> {
        let wait = self.timer.until_change(now.steady, self.habits.count)?;
        // A little later, so that the moment has passed when it is looked at.
        Some((wait + Duration::from_millis(1)).min(LONGEST_TICK))
    }

    /// Time passed.
    pub fn tick(&mut self, now: Now) -> Told {
        let heard = self.timer.advance(now.steady);
        self.seen(heard, now)
    }

    /// Something touched it.
    pub fn touch(&mut self, touch: Touch, now: Now) -> Told {
        let held = self.is_held(touch, now.steady);
        self.hand = Some(Hand {
            touch,
            last: now.steady,
            did: match &self.hand {
                Some(hand) if held => hand.did,
                _ => now.steady,
            },
        });
        if held {
            return self.tick(now);
        }
        let mut told = match touch {
            Touch::Act(key) => self.act(key, now),
            Touch::Key(_) | Touch::Click => self.any_key(now),
        };
        told.changed = true;
        told
    }

    fn is_held(&self, touch: Touch, now: Moment) -> bool {
        // What is chosen step by step may be held.
        if matches!(touch, Touch::Act(key) if key != ClockKey::Pause) {
            return false;
        }
        self.hand.is_some_and(|hand| {
            let same = hand.touch == touch;
            same && (now.saturating_sub(hand.did) < HELD || now.saturating_sub(hand.last) < AGAIN)
        })
    }

    fn any_key(&mut self, now: Now) -> Told {
        if std::mem::take(&mut self.asks) {
            let heard = self.timer.end(now.steady);
            let ended = self.timer.stage() == Stage::Ended && heard.is_empty();
            let mut told = self.seen(heard, now);
            told.back = ended;
            return told;
        }
        let back = self.timer.stage() == Stage::Ended;
        let heard = self.timer.press(now.steady);
        let mut told = self.seen(heard, now);
        told.back = back;
        told
    }

    fn act(&mut self, key: ClockKey, now: Now) -> Told {
        let mut heard = Vec::new();
        match key {
            ClockKey::Open => {}
            ClockKey::Count => self.habits.count = next(&Count::ALL, self.habits.count),
            ClockKey::Bell => self.habits.bell = next(&Bell::ALL, self.habits.bell),
            ClockKey::Cloth => self.habits.cloth = !self.habits.cloth,
            ClockKey::LeadIn(by) => {
                let lead_in = self.habits.lead_in.saturating_add_signed(by);
                self.habits.lead_in = lead_in.min(Habits::LONGEST_LEAD_IN);
                self.timer.set_lead_in(self.habits.lead_in());
            }
            ClockKey::Pause => {
                self.asks = false;
                heard = self.timer.pause(now.steady);
            }
            ClockKey::Ask => match self.timer.stage() {
                Stage::LeadIn { .. } => heard = self.timer.press(now.steady),
                _ => self.asks = !self.asks,
            },
            ClockKey::Drop => {
                self.asks = false;
                heard = self.timer.end(now.steady);
            }
        }
        self.seen(heard, now)
    }

    /// Brings the face up to date and looks whether the counter can be trusted.
    fn seen(&mut self, heard: Vec<Heard>, now: Now) -> Told {
        if heard.contains(&Heard::Opened { first: true }) {
            self.opened = Some(now);
            self.doubt = None;
        }
        if heard.contains(&Heard::CalledOff) {
            self.doubt = Some(
                "the machine slept in the lead-in: nothing was counted and nothing was logged"
                    .to_owned(),
            );
        }
        let doubt = self.doubt.clone();
        self.look_at_the_counter(now);
        self.latest = self.latest.max(now.steady);
        let mut face = face_of(&self.timer, self.habits, now.steady);
        if face.shown == self.face.shown && face.stage == self.face.stage {
            // Words change together with the digits, so that a second is one picture.
            face.off.clone_from(&self.face.off);
        }
        let changed = face != self.face || self.doubt != doubt;
        self.face = face;
        Told {
            changed: changed || !heard.is_empty() && !only_seconds(&heard),
            heard,
            back: false,
        }
    }

    fn look_at_the_counter(&mut self, now: Now) {
        let Some(opened) = self.opened else {
            return;
        };
        let open = matches!(self.timer.stage(), Stage::Open { .. });
        let before = std::mem::replace(&mut self.watched, open.then_some(now.steady));
        let unseen = before.map(|before| now.steady.saturating_sub(before));
        if let Some(unseen) = unseen.filter(|unseen| *unseen > SLEPT) {
            self.doubt = Some(format!(
                "the machine slept for {}; the shutter counts as open all the while",
                in_words(Duration::from_secs(unseen.as_secs()))
            ));
        }
        if now.counts_sleep || !open {
            return;
        }
        let by_wall = (now.wall - opened.wall).num_milliseconds();
        let steady = now.steady.saturating_sub(opened.steady).as_millis();
        let ahead = by_wall - i64::try_from(steady).unwrap_or(by_wall);
        if ahead.unsigned_abs() > 2000 {
            let apart = in_words(Duration::from_millis(ahead.unsigned_abs()));
            self.doubt = Some(if ahead > 0 {
                format!(
                    "the machine's clock is {apart} ahead of the counter: it was set, or the \
                     machine slept and the digits are short by that much"
                )
            } else {
                format!("the machine's clock was set back by {apart}; the digits are right")
            });
        }
    }

    /// What was given against the plan.
    pub fn against_plan(&self) -> Option<AgainstPlan> {
        AgainstPlan::new(self.timer.given(self.latest), self.timer.plan())
    }
}

/// Seconds that are only rung change nothing to be seen by themselves.
fn only_seconds(heard: &[Heard]) -> bool {
    heard
        .iter()
        .all(|heard| matches!(heard, Heard::Second | Heard::LeadSecond | Heard::Ten))
}

fn next<T: Copy + PartialEq>(all: &[T], one: T) -> T {
    let mut round = all.iter().chain(all).copied();
    round.find(|it| *it == one);
    round.next().unwrap_or(one)
}

fn face_of(timer: &Timer, habits: Habits, now: Moment) -> Face {
    let (stage, count) = match timer.stage() {
        Stage::Ready => ("ready", habits.count),
        Stage::LeadIn { .. } => ("the shutter opens in", habits.count),
        Stage::Open { .. } => ("the shutter is open", habits.count),
        Stage::Closed => ("closed for a while", habits.count),
        // What was given is what counts then, to the nearest second.
        Stage::Ended => ("given", Count::Up),
    };
    let mut shown = timer.shown(now, count);
    if timer.stage() == Stage::Ended {
        shown.seconds = timer.given(now).as_secs_f64().round() as u64;
    }
    let off = AgainstPlan::new(timer.given(now), timer.plan());
    Face {
        shown,
        stage,
        off: off.map(AgainstPlan::in_short).unwrap_or_default(),
    }
}

/// A figure as the digits show it; `with` is the longest time that has to fit beside it.
fn figure(shown: Shown, with: Duration) -> String {
    let longest = shown.seconds.max(with.as_secs());
    let seconds = shown.seconds;
    let text = match longest {
        0..100 => seconds.to_string(),
        100..3600 => format!("{}:{:02}", seconds / 60, seconds % 60),
        _ => format!(
            "{}:{:02}:{:02}",
            seconds / 3600,
            seconds / 60 % 60,
            seconds % 60
        ),
    };
    match shown.sign {
        Some(sign) => format!("{sign}{text}"),
        None => text,
    }
}

#[cfg(test)]
mod tests;
