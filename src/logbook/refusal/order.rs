//! A refusal drawn from the life of a thing, put into a sentence.
//!
//! First what is the case and since when, then, behind a colon, what to do about it. Words of the
//! trade; the word of a command stands in parentheses where it is not the plain one.

use std::fmt;

use chrono::{DateTime, FixedOffset};

use super::day_and_time;
use crate::craft::{Area, Capacity};
use crate::logbook::life::{Life, day_said};
use crate::logbook::{Kind, Objection, ThingKind};
use crate::reference::StepProblem;

/// What does not fit the life of a thing.
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
    /// What people call the other thing that the objection mentions.
    pub other: Option<String>,
    /// When the thing comes in, if that is only later.
    pub comes: Option<DateTime<FixedOffset>>,
    /// Whether what does not fit is an earlier-logged entry that rests on what is being changed.
    pub rests: bool,
}

impl fmt::Display for OutOfOrder {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let problem = self.problem();
        if self.rests {
            let only_counted = matches!(
                self.objection,
                Objection::NoneLeft { .. }
                    | Objection::Exhausted { .. }
                    | Objection::Spent { .. }
                    | Objection::TooOld { .. }
                    | Objection::TooLittle { .. }
                    | Objection::ClearsSlowly { .. }
            );
            let amend = if only_counted {
                "amend that entry with a reason why it holds all the same, or strike it"
            } else {
                "amend or strike that entry"
            };
            write!(
                f,
                "\"{}\" of {}, which is logged already, would no longer fit, for then {problem}: \
                 {amend} first",
                self.kind.title(),
                day_and_time(self.happened),
            )
        } else {
            write!(f, "{problem}: {}", self.remedy())
        }
    }
}

impl OutOfOrder {
    /// What is the case, and since when.
    fn problem(&self) -> String {
        let name = &self.reference;
        let other = self.other.as_deref().unwrap_or("something else");
        match &self.objection {
            Objection::NotYet if self.rests => format!("{name} would not be in the logbook"),
            Objection::NotYet => {
                let then = day_and_time(self.happened);
                match self.comes {
                    Some(comes) => format!(
                        "{name} is not in the logbook on {then}; it came in on {}",
                        day_and_time(comes)
                    ),
                    None => format!("{name} is not in the logbook on {then}"),
                }
            }
            Objection::Twice => match self.life.born {
                Some(born) => format!(
                    "{name} came into the logbook on {} already",
                    day_and_time(born)
                ),
                None => format!("{name} is in the logbook already"),
            },
            Objection::NotNext if self.rests => self.what_is(),
            Objection::NotNext => {
                let cannot = cannot(self.kind, self.life.thing.kind);
                format!("{}, so {cannot}", self.what_is())
            }
            Objection::AlreadyExposed { at } => {
                format!("{name} was already exposed on {}", day_and_time(*at))
            }
            Objection::InDoubt { seen, at } => format!(
                "{name} is in doubt, for the log says {}, and on {} its slide was seen {} side out",
                self.life.state_word(),
                day_and_time(*at),
                seen.word(),
            ),
            Objection::NoDoubt => {
                format!("{name} is not in doubt, its slide agrees with the log")
            }
            Objection::NotBegun => {
                format!("{}, and no exposure was begun on it", self.what_is())
            }
            Objection::NoStep => format!("no step of {name} is being counted"),
            Objection::StandsStill { since } => {
                format!(
                    "the time of {name} stands still since {}",
                    day_and_time(*since)
                )
            }
            Objection::GoesOn => format!("the time of {name} goes on already"),
            Objection::NothingInIt => self.what_is(),
            Objection::OtherSheet { .. } => format!("{name} holds {other} and no other sheet"),
            Objection::OtherSide { side: Some(_) } => {
                format!("{name} is in {other} and in no other side")
            }
            Objection::OtherSide { side: None } => {
                format!("{}, and in no holder", self.what_is())
            }
            Objection::OtherBox { .. } => match self.life.since {
                Some(since) => format!("{name} went back into {other} on {}", day_and_time(since)),
                None => format!("{name} lies in {other}"),
            },
            Objection::OtherRun { run: Some(_) } => {
                format!("{name} is in {other} and in no other run")
            }
            Objection::OtherRun { run: None } => {
                format!("{}, and in no run", self.what_is())
            }
            Objection::AlreadyLinked { .. } => {
                format!("{name} is linked with its companions in {other} already")
            }
            Objection::OtherSides => {
                format!("{name} goes out of use with its own sides and no others")
            }
            Objection::WrongSize { takes, sheet } => {
                format!("{name} takes {takes}, and the sheet is {sheet}")
            }
            Objection::NoneLeft { left: 0, .. } => format!("no sheet is left of {name}"),
            Objection::NoneLeft { left, asked } => {
                let is = if *left == 1 { "is" } else { "are" };
                format!(
                    "only {} {is} left of {name}, and it takes {asked}",
                    sheets(*left)
                )
            }
            Objection::Exhausted {
                uses,
                more,
                capacity,
            } => format!(
                "{name} is good for {} and has had {uses}, so that {more} more would be too many",
                sheets(*capacity),
            ),
            Objection::Spent {
                used,
                more,
                capacity,
            } => {
                let told = Said(*capacity);
                format!(
                    "{name} is good for {capacity} and has had {}, so that {} more would be too much",
                    told.area(*used),
                    told.area(*more),
                )
            }
            Objection::TooOld { last } => {
                format!("{name} was good until {} and not longer", day_said(*last))
            }
            Objection::TooLittle { holds, needs } => {
                format!("{name} holds {holds} of stock, and so much film takes at least {needs}")
            }
            Objection::ClearsSlowly { fresh, last } => format!(
                "film took {fresh} to clear in {name} when it was fresh and takes {last} now, twice \
                 as long or more"
            ),
            Objection::Pours { holds: None, .. } => {
                format!(
                    "how much there is of {name} is not in the logbook, so its share cannot be told"
                )
            }
            Objection::Pours {
                holds: Some(holds),
                asked,
            } => format!("{name} holds {holds}, so that {asked} cannot be poured off"),
            Objection::NoSecond => format!("no second bath stands behind {name}"),
            Objection::ChangedOften { changes } => format!(
                "{name} and its second have been changed {changes} times, after which both are thrown \
                 away"
            ),
            Objection::Step(problem) => self.step_problem(problem),
            Objection::Away { whereabouts, place } => {
                let place = place.as_deref().map(|place| format!(", {place}"));
                let placement = self.life.print().and_then(|print| print.placement.as_ref());
                let away = match placement {
                    Some(placement) => {
                        let since = day_and_time(placement.since);
                        format!("has been out of your hands since {since}")
                    }
                    None => "is out of your hands".to_owned(),
                };
                let place = place.unwrap_or_default();
                format!("{name} {away} ({}{place})", whereabouts.word())
            }
            Objection::NotAway => format!("{name} is not away, so it cannot have come back"),
        }
    }

    /// What to do about it.
    fn remedy(&self) -> String {
        let plain = match &self.objection {
            Objection::NotYet if self.comes.is_some() => {
                "correct the time, or amend the entry by which it came in to an earlier one"
            }
            Objection::NotYet => "correct the time, or log first how it came in",
            Objection::Twice if self.life.thing.kind == ThingKind::Sheet => {
                "to load this very sheet again, say so (loaded again)"
            }
            Objection::Twice => "amend that entry, or log a new one with a reference of its own",
            Objection::NotNext => {
                return match self.alternatives() {
                    Some(kinds) => format!(
                        "log first what was missed, with its own time; as it is, it allows {kinds}"
                    ),
                    None => "nothing more happens to it; if the entry that ended it is wrong, \
                             strike that"
                        .to_owned(),
                };
            }
            Objection::AlreadyExposed { .. } => {
                "for one more exposure on the same sheet, say so (again); if it was another side, \
                 choose that; if the sheet was changed in between, log first how it was unloaded \
                 and the other loaded, with their own times"
            }
            Objection::InDoubt { .. } => {
                "log the entry that was missed, with its own time; amend or strike the one that is \
                 wrong; or, if the log is right, turn the slide (right-slide)"
            }
            Objection::NoDoubt => "if it shows something else, say so first (see-slide)",
            Objection::NotBegun => {
                "nothing has to be dropped; if an exposure was logged that was not made, strike it"
            }
            Objection::NoStep => "begin one (begin-step)",
            Objection::StandsStill { .. } => "let it go on first (change-step: go-on)",
            Objection::GoesOn => "let it stand still first (change-step: pause)",
            Objection::NothingInIt => {
                "if a sheet was in it, log first how it was loaded, with its own time; if it was \
                 another side, choose that"
            }
            Objection::OtherSheet { .. } => {
                "choose that sheet, or the side the other one is in; if they were changed, log \
                 first how one was unloaded and the other loaded, with their own times"
            }
            Objection::OtherSide { side: Some(_) } => {
                "choose that side, or log first how it came out of there, with its own time"
            }
            Objection::OtherSide { side: None } => {
                "name no side, or log first how it was loaded, with its own time"
            }
            Objection::OtherBox { .. } => "choose that box, or say why it lay in the other",
            Objection::OtherRun { .. } => "leave it out, or amend the sheets the run began with",
            Objection::AlreadyLinked { .. } => {
                "amend that entry to add a sheet to them, or strike it to link it anew"
            }
            Objection::OtherSides => "name none, they go with it",
            Objection::WrongSize { .. } => "choose another holder or box, or say why it fits",
            Objection::NoneLeft { .. } => "count what is left (count), or choose another",
            Objection::Exhausted { .. } => {
                "mix a fresh one, replenish it, or say why it still works"
            }
            Objection::Spent { .. } => "mix a fresh one, replenish it, or say why it still works",
            Objection::TooOld { .. } => "mix a fresh one, or test it and say why it is still good",
            Objection::TooLittle { .. } => {
                "mix more of it, develop fewer sheets at once, or say why it is enough"
            }
            Objection::ClearsSlowly { .. } => {
                "mix a fresh one and collect this for its silver, or say why it still fixes"
            }
            Objection::Pours { holds: None, .. } => "amend the entry that mixed it with its volume",
            Objection::Pours { .. } => {
                "pour less, or amend the entry that mixed it if there is more"
            }
            Objection::NoSecond => "name the second bath, or mix one (mix: second to)",
            Objection::ChangedOften { .. } => {
                "throw both away and mix two fresh ones, or say why they still fix"
            }
            Objection::Step(StepProblem::Unknown { known, .. }) => {
                return format!("its steps are {known}");
            }
            Objection::Step(StepProblem::Missing { needs, first, .. }) => {
                let then = if needs == first {
                    ""
                } else {
                    ", then on from there"
                };
                return format!("log \"{first}\" first{then}, with its own time");
            }
            Objection::Step(StepProblem::Forbidden { .. }) => {
                "if that was logged by mistake, strike it first"
            }
            Objection::Step(StepProblem::Repeated { .. }) => "amend that entry, or strike it first",
            Objection::Away { .. } => "log first that it came back (place: returned)",
            Objection::NotAway => "say where it is now, or log first where it went",
        };
        plain.to_owned()
    }

    fn step_problem(&self, problem: &StepProblem) -> String {
        let done = |id: &str| {
            let steps = self.life.print().map(|print| print.steps.as_slice());
            let done = steps
                .unwrap_or_default()
                .iter()
                .rfind(|done| done.step == id);
            done.map(|done| format!(" on {}", day_and_time(done.at)))
                .unwrap_or_default()
        };
        let name = &self.reference;
        match problem {
            StepProblem::Unknown { process, step, .. } => {
                format!("{process}, the process of {name}, has no step \"{step}\"")
            }
            StepProblem::Missing { step, needs, .. } => {
                format!("on {name}, \"{step}\" comes after \"{needs}\", which is not done yet")
            }
            StepProblem::Forbidden { step, by } => {
                format!(
                    "on {name} it is too late for \"{step}\", since \"{by}\" was done{}",
                    done(by)
                )
            }
            StepProblem::Repeated { step } => {
                format!(
                    "on {name}, \"{step}\" was done{} and is done once only",
                    done(step)
                )
            }
        }
    }

    /// "H-07 B has been exposed since 4 Mar 2026 at 16:02", or "H-07 B would be exposed".
    fn what_is(&self) -> String {
        let name = &self.reference;
        if self.life.state_word() == "being exposed" {
            return match self.life.since {
                _ if self.rests => format!("the shutter would be open on {name}"),
                Some(since) => format!("{name} is being exposed, since {}", day_and_time(since)),
                None => format!("{name} is being exposed"),
            };
        }
        let state = match self.life.state_word() {
            "negative" => "a negative",
            "in box" => "in its box",
            "ended" => "over",
            word => word,
        };
        match self.life.since {
            _ if self.rests => format!("{name} would be {state}"),
            Some(since) => format!("{name} has been {state} since {}", day_and_time(since)),
            None => format!("{name} is {state}"),
        }
    }

    /// The commands that can be given instead, the note that is always possible left out.
    fn alternatives(&self) -> Option<String> {
        let kinds = self.life.possible().into_iter();
        let words: Vec<&str> = kinds
            .filter(|kind| *kind != Kind::Noted)
            .map(Kind::word)
            .collect();
        match words.split_last() {
            None => None,
            Some((only, [])) => Some((*only).to_owned()),
            Some((last, others)) => Some(format!("{} or {last}", others.join(", "))),
        }
    }
}

/// An area in the words a capacity is told in.
struct Said(Capacity);

impl Said {
    fn area(&self, area: Area) -> String {
        match self.0 {
            Capacity::Of { size, .. } => {
                let sheets = area.value() / size.area_sq_in();
                crate::craft::trimmed(sheets, 2)
            }
            _ => format!("{} sq in", crate::craft::trimmed(area.value(), 1)),
        }
    }
}

fn sheets(count: u32) -> String {
    match count {
        1 => "1 sheet".to_owned(),
        _ => format!("{count} sheets"),
    }
}

/// What cannot come next, as one says it of a thing of this kind.
const fn cannot(kind: Kind, thing: ThingKind) -> &'static str {
    use ThingKind as T;
    match (kind, thing) {
        (Kind::BathMixed, _) => "nothing can be drawn from it",
        (Kind::BathReplenished, _) => "it cannot be replenished",
        (Kind::BathSplit, _) => "nothing can be poured off",
        (Kind::ClearingTested, _) => "film cannot be cleared in it",
        (Kind::BathsRotated, _) => "it cannot be changed round",
        (Kind::Counted, _) => "it cannot be counted",
        (Kind::UsedUp, _) => "it cannot be used up",
        (Kind::ShutterTested, _) => "its shutter cannot be tested",
        (Kind::Retired, _) => "it cannot go out of use",
        (Kind::Loaded, T::Box) => "no sheet can be loaded from it",
        (Kind::Loaded, T::Side) => "no sheet can be loaded into it",
        (Kind::Loaded, _) => "it cannot be loaded",
        (Kind::Unloaded, T::Side) => "no sheet can be taken out of it",
        (Kind::Unloaded, T::Box) => "no sheet can go back into it",
        (Kind::Unloaded, _) => "it cannot be taken out of a holder",
        (Kind::ExposureBegun, T::Side) => "no exposure can begin in it",
        (Kind::ExposureBegun, _) => "no exposure can begin on it",
        (Kind::ExposureDropped, _) => "there is no exposure to drop",
        (Kind::Exposed, T::Side) => "no sheet can be exposed in it",
        (Kind::Exposed, T::Lens | T::Camera) => "no sheet can be exposed with it",
        (Kind::Exposed, _) => "it cannot be exposed",
        (Kind::SlideSeen, _) => "its slide says nothing",
        (Kind::SlideRighted, _) => "its slide cannot be righted",
        (Kind::Companions, _) => "it cannot be linked with companions",
        (Kind::Fogged, T::Side) => "no sheet can be fogged in it",
        (Kind::Fogged, _) => "it cannot be fogged",
        (Kind::RunBegun, T::Side) => "no sheet can be developed from it",
        (Kind::RunBegun, T::Bath) => "no sheet can be developed in it",
        (Kind::RunBegun, _) => "it cannot be developed",
        (Kind::StepBegun, T::Bath) => "nothing can go into it",
        (Kind::StepBegun, _) => "no step of it can begin",
        (Kind::StepChanged, _) => "no step of it can change",
        (Kind::StepEnded, _) => "no step of it can end",
        (Kind::RunEnded, T::Run) => "it cannot end",
        (Kind::RunEnded, _) => "its development cannot end",
        (Kind::Measured, _) => "it cannot be measured",
        (Kind::FaultSeen, _) => "no fault of it can be seen",
        (Kind::Scanned, _) => "it cannot be scanned",
        (Kind::StripRead, T::Sheet) => "no strip can be read on it",
        (Kind::StripRead, _) => "no strip can tell of it",
        (Kind::Filed, _) => "it cannot be filed",
        (Kind::PrintBegun, T::Paper) => "no print can be begun on it",
        (Kind::PrintBegun, _) => "it cannot be printed",
        (Kind::PrintStep, T::Bath) => "no print can go through it",
        (Kind::PrintStep, _) => "that step cannot follow",
        (Kind::Spoiled, _) => "it cannot be spoiled",
        (Kind::Pressed, _) => "it cannot be pressed",
        (Kind::Mounted, _) => "it cannot be mounted",
        (Kind::Matted, _) => "no mat can be cut for it",
        (Kind::Attached, _) => "it cannot be attached to a mat",
        (Kind::Signed, _) => "it cannot be signed",
        (Kind::Framed, _) => "it cannot be framed",
        (Kind::Unframed, _) => "it cannot be taken out of a frame",
        (Kind::Labelled, _) => "it cannot be labelled",
        (Kind::Placed, _) => "it cannot go anywhere",
        (Kind::Lost, T::Side) => "no sheet can be lost from it",
        (Kind::Lost, _) => "it cannot be lost",
        (Kind::Discarded, T::Side) => "no sheet can be thrown away from it",
        (Kind::Discarded, _) => "it cannot be thrown away",
        (
            Kind::BoxAdded
            | Kind::HolderAdded
            | Kind::LensAdded
            | Kind::CameraAdded
            | Kind::PaperAdded
            | Kind::FilterFound
            | Kind::TimeFound
            | Kind::FilmFound
            | Kind::FormatFound
            | Kind::DevelopmentFound
            | Kind::LightFound
            | Kind::MeterSet
            | Kind::PlaceKept
            | Kind::TabletFound
            | Kind::LimitsSet
            | Kind::Noted
            | Kind::Struck
            | Kind::Amended,
            _,
        ) => "this cannot come next",
    }
}
