//! What follows from what is being typed: the lines that stand beside an entry pane.
//!
//! [`what_follows`] is pure and total: from a draft and the lives it names it draws the sheet in the
//! side, the exposure value, the stops from the last exposure, the sheets left, the borders of a
//! mat, the published range of a step with its source, what is published of a filter whose factor the
//! user has found. A field that cannot be read yet only leaves
//! out its own lines. The same lines serve the front end and the command line. Cautions come first.

use chrono::{DateTime, FixedOffset};

use super::cautions::{Work, of_work};
use super::draft::{Desk, several};
use super::reckoning::Outcome;
use super::{Deed, Draft, Kind, Life, Thing, ThingKind, tidy_reference};
use crate::craft::{Concern, Grounds, Remark, Seconds};
use crate::reference::{Caution, Standing};

mod bath;
mod developing;
mod exposing;
mod film;
mod finding;
mod mixing;
mod negative;
mod print;
mod step;
mod strip;

pub use mixing::offers;

/// How a line is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// A figure or a fact.
    Plain,
    /// What the figures come to.
    Result,
    /// Another way to the same end, or what else follows.
    Also,
    /// What to do with the hands now: turn the slide.
    Act,
    /// Something to look at before going on.
    Warning,
    /// A caution for the body.
    Caution,
}

/// One line of what follows.
#[derive(Clone, Debug, PartialEq)]
pub struct Follow {
    /// What it is; empty for a sentence of its own.
    pub label: String,
    /// The figure or the sentence.
    pub value: String,
    /// What its source is worth, where it comes from one.
    pub standing: Option<Standing>,
    /// The source, where there is one.
    pub source: String,
    /// A few quiet words behind the figure; empty where there are none.
    pub note: String,
    /// How it is meant.
    pub weight: Weight,
}

impl Follow {
    fn fact(label: &str, value: impl Into<String>) -> Follow {
        Follow {
            label: label.to_owned(),
            value: value.into(),
            standing: None,
            source: String::new(),
            note: String::new(),
            weight: Weight::Plain,
        }
    }

    fn weighed(weight: Weight, value: impl Into<String>) -> Follow {
        Follow {
            weight,
            ..Follow::fact("", value)
        }
    }

    fn result(label: &str, value: impl Into<String>) -> Follow {
        Follow {
            weight: Weight::Result,
            ..Follow::fact(label, value)
        }
    }

    fn also(self) -> Follow {
        Follow {
            weight: Weight::Also,
            ..self
        }
    }

    /// The same line with what it rests on.
    fn on(self, grounds: &Grounds) -> Follow {
        Follow {
            standing: Some(grounds.standing),
            source: grounds.source.to_string(),
            ..self
        }
    }

    fn remark(remark: &Remark) -> Follow {
        match remark.concern {
            Concern::Note => Follow::fact("", remark.words.clone()).also(),
            Concern::Warning | Concern::Beyond => Follow::warning(remark.words.clone()),
        }
    }

    fn act(value: impl Into<String>) -> Follow {
        Follow::weighed(Weight::Act, value)
    }

    fn warning(value: impl Into<String>) -> Follow {
        Follow::weighed(Weight::Warning, value)
    }

    fn caution(caution: &Caution) -> Follow {
        Follow {
            standing: Some(caution.standing),
            source: caution.source.clone(),
            weight: Weight::Caution,
            ..Follow::fact(&caution.title, caution.words.clone())
        }
    }
}

/// What follows from a draft. `last` is the last deed of the same kind, for comparison; `reckoned` is
/// what [`reckoned`](super::reckoning::reckoned) said of this draft, which is not reckoned again here.
pub fn what_follows(
    draft: &Draft,
    desk: &Desk<'_>,
    last: Option<&Deed>,
    reckoned: &Outcome,
) -> Vec<Follow> {
    match draft.kind {
        Kind::BoxAdded | Kind::FilmFound => film::known(draft, desk),
        Kind::FormatFound => film::a_format(draft, desk),
        Kind::Loaded => film::loading(draft, desk),
        Kind::Unloaded => film::unloading(draft, desk),
        Kind::Exposed => exposing::exposing(draft, desk, last, reckoned),
        Kind::ExposureBegun | Kind::ExposureDropped => film::in_the_camera(draft, desk),
        Kind::SlideSeen | Kind::SlideRighted => film::slide(draft, desk),
        Kind::RunBegun => developing::developing(draft, desk),
        Kind::StepBegun => step::beginning(draft, desk),
        Kind::StepChanged => step::changing(draft, desk),
        Kind::StepEnded => step::ending(draft, desk),
        Kind::RunEnded => developing::ending_run(draft, desk),
        Kind::Measured => negative::measuring(draft, desk),
        Kind::FaultSeen => negative::fault(draft, desk),
        Kind::PrintBegun => print::beginning(draft, desk),
        Kind::PrintStep => print::step(draft, desk),
        Kind::Matted => print::matting(draft, desk),
        Kind::ShutterTested => finding::shutter(draft, desk),
        Kind::FilterFound => finding::filter(draft, desk),
        Kind::TimeFound => finding::reciprocity(draft, desk),
        Kind::LightFound => finding::light(draft, desk),
        Kind::MeterSet => finding::meter(draft),
        Kind::PlaceKept => finding::place(draft, desk),
        Kind::BathMixed => mixing::mixing(draft, desk),
        Kind::BathReplenished | Kind::BathSplit | Kind::ClearingTested => bath::at_one(draft, desk),
        Kind::BathsRotated => bath::changing(draft, desk),
        Kind::StripRead => strip::reading(draft, desk),
        kind => cautions(desk, Work::Other(kind)),
    }
}

/// The cautions of a piece of work, with the sentence that follows every caution.
fn cautions(desk: &Desk<'_>, work: Work<'_>) -> Vec<Follow> {
    let mut lines: Vec<Follow> = of_work(work, desk.reference)
        .into_iter()
        .map(Follow::caution)
        .collect();
    if !lines.is_empty() {
        lines.push(Follow::weighed(Weight::Caution, desk.reference.closing()));
    }
    lines
}

/// The life of the thing a field names.
fn named(draft: &Draft, key: &str, kind: ThingKind, desk: &Desk<'_>) -> Option<Life> {
    let thing: Thing = desk.names.find(&[kind], &tidy_reference(draft.get(key)))?;
    desk.names.life_of(thing.id)
}

/// The sheets a field names, as far as it can be read yet.
fn sheets_named(draft: &Draft, key: &str, desk: &Desk<'_>) -> Vec<Life> {
    several(ThingKind::Sheet, draft.get(key), desk.names)
        .unwrap_or_default()
        .into_iter()
        .filter_map(|sheet| desk.names.life_of(sheet))
        .collect()
}

/// How long ago something was, as a sentence says it: `just now`, `3 h ago`.
pub fn since(then: DateTime<FixedOffset>, now: DateTime<FixedOffset>) -> String {
    match ago(then, now).as_str() {
        "now" => "just now".to_owned(),
        age => format!("{age} ago"),
    }
}

/// How much time passed, to the second within the hour: `35 s`, `4 min 10 s`, `2 h 5 min`.
pub fn passed(then: DateTime<FixedOffset>, now: DateTime<FixedOffset>) -> String {
    let seconds = (now - then).num_seconds().max(0);
    let whole = match seconds {
        0..3600 => seconds,
        3600..86_400 => seconds / 60 * 60,
        _ => return ago(then, now),
    };
    let time = u32::try_from(whole).ok().map(f64::from).map(Seconds::new);
    match time {
        Some(Ok(time)) => time.to_string(),
        _ => "0 s".to_owned(),
    }
}

/// How long ago something was, in the largest unit that says it well.
pub fn ago(then: DateTime<FixedOffset>, now: DateTime<FixedOffset>) -> String {
    let minutes = (now - then).num_minutes();
    match minutes {
        i64::MIN..1 => "now".to_owned(),
        1..60 => format!("{minutes} min"),
        60..1440 => format!("{} h", minutes / 60),
        1440..2880 => "1 day".to_owned(),
        _ => format!("{} days", minutes / 1440),
    }
}
