//! How a sequence is counted: what the clock of a run or a print shows at a moment.
//!
//! For: the bench of the front end, the `bench` command, and whoever asks what comes next. [`of`] is pure:
//! from the steps in a life, the sequence or process they belong to and a moment it says how long was
//! given, what is left or over, the next cue and the next step. Nothing is kept beside the logbook, so a
//! program that was killed, another one on the same file and another machine show the same.
//!
//! Promises: no figure is less than nothing; a moment before the beginning counts as the beginning; a
//! step that nothing is known of is still counted. [`ahead`] says what comes next and with which plan,
//! [`drift`] what is left when the developer became warmer or cooler.
//!
//! Leaves to others: which clock the moment comes from, and the bell.

use chrono::{DateTime, FixedOffset};

use super::life::{Life, PrintLife, RunLife, StepTaken, Steps};
use super::{Names, Thing};
use crate::craft::Celsius;
use crate::craft::development::rhythm::{Moves, Rhythm};
use crate::reference::{Process, Reference, RoomLight, Sequence, SequenceStep};

pub mod ahead;
pub mod drift;
pub mod words;

pub use ahead::Ahead;

/// The clock of one step at one moment.
#[derive(Debug, Clone, PartialEq)]
pub struct Counting {
    /// The run or the print.
    pub thing: Thing,
    /// What people call it.
    pub reference: String,
    /// The step in words.
    pub label: String,
    /// Which step of how many, if it belongs to a sequence.
    pub place: Option<(usize, usize)>,
    /// The light it is done in, if that is known.
    pub light: Option<RoomLight>,
    /// Seconds given so far.
    pub given: f64,
    /// Seconds planned.
    pub planned: Option<f64>,
    /// Whether its time stands still.
    pub paused: bool,
    /// How warm it is, as it was read last.
    pub temperature: Option<Celsius>,
    /// What comes next.
    pub next: Option<Ahead>,
    /// How it is moved.
    rhythm: Option<Rhythm>,
    /// What the hand does at a cue.
    cue: String,
    /// How long before the end it is poured out, in seconds.
    pour: Option<f64>,
}

/// What the hand does, and when, in seconds given.
#[derive(Debug, Clone, PartialEq)]
pub struct Cue {
    /// When.
    pub at: f64,
    /// What: `turn the sheet`.
    pub words: String,
}

/// What the hand does at a moment.
#[derive(Debug, Clone, PartialEq)]
pub enum Hand {
    /// It moves the film, all the time or until so many seconds given.
    Moves(Option<f64>),
    /// It rests until the next cue.
    Rests(Cue),
}

/// What was passed between two moments.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Passed {
    /// A cue.
    pub cue: bool,
    /// The end of the planned time, or another minute beyond it, for ten minutes.
    pub end: bool,
    /// A whole second.
    pub second: bool,
}

/// The clock of the step of a thing that is under way; nothing if none is.
pub fn of(
    life: &Life,
    reference: &Reference,
    names: &dyn Names,
    now: DateTime<FixedOffset>,
) -> Option<Counting> {
    let step = steps_of(life)?.current()?;
    let known = match (life.run(), life.print()) {
        (Some(run), _) => of_run(run, step, reference),
        (_, Some(print)) => of_print(print, step, reference),
        _ => return None,
    };
    Some(Counting {
        thing: life.thing,
        reference: life.reference.clone(),
        label: known.label,
        place: known.place,
        light: known.light,
        given: step.given_at(now),
        planned: step.planned.map(crate::craft::Seconds::value),
        paused: step.paused.is_some(),
        temperature: step.temperature,
        next: ahead::of(life, reference, names).into_iter().next(),
        rhythm: known.moved.as_ref().and_then(|moved| moved.rhythm),
        cue: known.moved.map(|moved| moved.cue).unwrap_or_default(),
        pour: known.pour,
    })
}

/// The timed steps of a run or a print.
pub fn steps_of(life: &Life) -> Option<&Steps> {
    match (life.run(), life.print()) {
        (Some(run), _) => Some(&run.steps),
        (_, Some(print)) => Some(&print.timed),
        _ => None,
    }
}

/// The sequence a run follows: the one that was said, else that of its vessel, else the first.
pub fn sequence_of<'r>(run: &RunLife, reference: &'r Reference) -> Option<&'r Sequence> {
    let all = reference.sequences();
    let said = run.sequence.as_deref();
    let said = said.and_then(|id| all.iter().find(|it| it.id == id));
    let by_vessel = || reference.sequence_for(run.vessel.as_deref()?);
    said.or_else(by_vessel).or_else(|| all.first())
}

/// What is known of a step beside its figures.
struct Known {
    label: String,
    place: Option<(usize, usize)>,
    light: Option<RoomLight>,
    moved: Option<Moved>,
    pour: Option<f64>,
}

/// How something is moved.
struct Moved {
    rhythm: Option<Rhythm>,
    cue: String,
}

fn of_run(run: &RunLife, taken: &StepTaken, reference: &Reference) -> Known {
    let sequence = sequence_of(run, reference);
    let step = sequence.and_then(|sequence| sequence.step_named(&taken.step));
    let place = sequence.zip(step).and_then(|(sequence, step)| {
        let place = sequence.place_of(&step.id)?;
        Some((place, sequence.steps.len()))
    });
    let said = taken.agitation.as_deref();
    let of_the_run = || {
        run.agitation
            .as_deref()
            .filter(|_| develops(step, &taken.step))
    };
    let of_the_step = || step.and_then(|step| step.agitation.as_deref());
    let moved = said.or_else(of_the_run).or_else(of_the_step);
    let pour = step.and_then(|step| step.pour.as_ref()?.seconds());
    Known {
        label: step.map_or_else(|| taken.step.clone(), |step| step.label.clone()),
        place,
        light: step.map(|step| step.light),
        moved: moved.map(|text| moved_as(text, reference)),
        pour: pour.map(|(least, _)| least),
    }
}

/// Whether a step is the one in the developer.
fn develops(step: Option<&SequenceStep>, id: &str) -> bool {
    match step {
        Some(step) => step.bath == Some(crate::reference::Purpose::Developer),
        None => id.to_lowercase().starts_with("develop"),
    }
}

fn of_print(print: &PrintLife, taken: &StepTaken, reference: &Reference) -> Known {
    let process = reference.process(&print.process);
    let step = process.and_then(|process| process.step(&taken.step));
    let moved = taken.agitation.as_deref();
    Known {
        label: step.map_or_else(|| taken.step.clone(), |step| step.label.clone()),
        place: process.and_then(|process| place_in(process, &taken.step)),
        light: None,
        moved: moved.map(|text| moved_as(text, reference)),
        pour: None,
    }
}

/// Which of the required steps of its process a step is.
fn place_in(process: &Process, id: &str) -> Option<(usize, usize)> {
    let at = process.required().position(|step| step.id == id)?;
    Some((at + 1, process.required().count()))
}

/// How film is moved by the id of a scheme, or by words.
fn moved_as(text: &str, reference: &Reference) -> Moved {
    if let Some(scheme) = reference.agitation_scheme(text) {
        return Moved {
            rhythm: scheme.rhythm,
            cue: scheme.cue.clone(),
        };
    }
    let lower = text.to_lowercase();
    let before = ["every", "each"]
        .into_iter()
        .find_map(|word| lower.split_once(word))
        .map_or("", |(before, _)| before.trim().trim_end_matches(','));
    // "5 s each minute" says how long and not what.
    let says_what = !before.is_empty() && !before.chars().any(|c| c.is_ascii_digit());
    Moved {
        rhythm: Rhythm::parse(text),
        cue: if says_what { before } else { "agitate" }.to_owned(),
    }
}

/// So many minutes beyond its plan a step is told to be over once more.
const TOLD_AGAIN: u8 = 10;

/// Seconds as a clock shows them: `6:48`, `41:05`, `1:05:00`.
///
/// ```
/// use notchbook::logbook::counting::clock;
/// assert_eq!((clock(48), clock(408), clock(3900)), ("0:48".into(), "6:48".into(), "1:05:00".into()));
/// ```
pub fn clock(seconds: u64) -> String {
    let (hours, minutes, seconds) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    if hours > 0 {
        format!("{hours}:{minutes:02}:{seconds:02}")
    } else {
        format!("{minutes}:{seconds:02}")
    }
}

impl Counting {
    /// Seconds left of the plan; nothing without a plan, none beyond it.
    pub fn left(&self) -> Option<f64> {
        self.planned.map(|planned| (planned - self.given).max(0.0))
    }

    /// Seconds beyond the plan; none before its end.
    pub fn over(&self) -> f64 {
        self.planned
            .map_or(0.0, |planned| (self.given - planned).max(0.0))
    }

    /// Whether the planned time was given.
    pub fn is_over(&self) -> bool {
        self.planned.is_some_and(|planned| self.given >= planned)
    }

    /// What the hand does now; nothing where nothing is known of it, and when the time is over.
    pub fn hand(&self) -> Option<Hand> {
        let moves = self.rhythm?.at(self.given);
        if self.is_over() {
            return None;
        }
        Some(match moves {
            Moves::Always => Hand::Moves(None),
            Moves::Until(until) => Hand::Moves(Some(until)),
            Moves::RestsUntil(_) => Hand::Rests(self.next_cue()?),
        })
    }

    /// What is done at a cue.
    pub fn cue_words(&self) -> &str {
        &self.cue
    }

    /// The next thing the hand has to do before the end.
    pub fn next_cue(&self) -> Option<Cue> {
        self.cue_after(self.given)
    }

    fn cue_after(&self, given: f64) -> Option<Cue> {
        let moved = self
            .rhythm
            .and_then(|rhythm| rhythm.next(given))
            .map(|at| Cue {
                at,
                words: self.cue.clone(),
            });
        let poured = self.planned.zip(self.pour).map(|(planned, pour)| Cue {
            at: planned - pour,
            words: "begin to pour out".to_owned(),
        });
        let poured = poured.filter(|cue| cue.at > given);
        let before_the_end = |cue: &Cue| self.planned.is_none_or(|planned| cue.at < planned);
        [poured, moved]
            .into_iter()
            .flatten()
            .filter(before_the_end)
            .min_by(|one, other| one.at.total_cmp(&other.at))
    }

    /// What was passed since so many seconds were given.
    pub fn passed_since(&self, given: f64) -> Passed {
        if self.paused {
            return Passed::default();
        }
        let between = |at: f64| given < at && at <= self.given;
        Passed {
            cue: self.cue_after(given).is_some_and(|cue| between(cue.at)),
            end: self.ends().any(between),
            second: self.given.floor() > given.floor(),
        }
    }

    /// What the digits show: whole seconds left, a begun one in full; beyond the plan those over, with
    /// `+`; those given where nothing is planned.
    pub fn shown(&self) -> (Option<char>, u64) {
        let whole = |seconds: f64| seconds.max(0.0) as u64;
        match self.left() {
            // Milliseconds come and go with the machine's clock.
            Some(left) if !self.is_over() => (None, whole((left - 1e-6).ceil())),
            Some(_) => (Some('+'), whole(self.over())),
            None => (None, whole(self.given)),
        }
    }

    /// The moments at which a step is told to be over, in seconds given.
    fn ends(&self) -> impl Iterator<Item = f64> + use<> {
        let planned = self.planned.into_iter();
        planned.flat_map(|planned| {
            (0..=TOLD_AGAIN).map(move |minute| planned + 60.0 * f64::from(minute))
        })
    }

    /// Seconds until the next cue or until it is told to be over; nothing while its time stands still,
    /// and when nothing more is told.
    pub fn until_mark(&self) -> Option<f64> {
        if self.paused {
            return None;
        }
        let cue = self.next_cue().map(|cue| cue.at);
        let end = self.ends().find(|at| *at > self.given);
        let next = [cue, end].into_iter().flatten().min_by(f64::total_cmp)?;
        Some((next - self.given).max(0.001))
    }

    /// Seconds until the digits show something else; nothing while its time stands still.
    pub fn until_change(&self) -> Option<f64> {
        if self.paused {
            return None;
        }
        let fraction = |seconds: f64| seconds - seconds.floor();
        let wait = match self.left() {
            Some(left) if left > 1e-6 => match fraction(left) {
                rest if rest < 1e-6 => 1.0,
                rest => rest,
            },
            Some(_) => 1.0 - fraction(self.over()),
            None => 1.0 - fraction(self.given),
        };
        let cue = self.next_cue().map_or(wait, |cue| cue.at - self.given);
        Some(wait.min(cue).max(0.001))
    }
}
