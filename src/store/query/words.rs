//! What a thing is, on one line: the figures and dates that say most about it.
//!
//! Drawn from lives alone, for the trace and for the lines that tell what became of something.

use chrono::{DateTime, FixedOffset};

use super::names::Cached;
use crate::craft::Seconds;
use crate::logbook::life::{
    Found, PrintLife, PrintState, RunLife, RunState, SheetLife, State, StepTaken,
};
use crate::logbook::{Life, Names, Particulars, Whereabouts};
use crate::reference::Reference;

/// A day as summaries write it.
pub(super) fn day(at: DateTime<FixedOffset>) -> String {
    at.format("%-d %b %Y").to_string()
}

/// Joins what is there with commas.
fn list(parts: impl IntoIterator<Item = Option<String>>) -> String {
    let parts: Vec<String> = parts
        .into_iter()
        .flatten()
        .filter(|part| !part.trim().is_empty())
        .collect();
    parts.join(", ")
}

fn said<T: ToString>(value: Option<T>) -> Option<String> {
    value.map(|value| value.to_string())
}

/// The short name of a process, or its id when the process is not known here.
pub(super) fn process(id: &str, reference: &Reference) -> String {
    reference
        .process(id)
        .map_or_else(|| id.to_owned(), |process| process.short.clone())
}

/// What became of a print: where it is, how it ended, or how far it has come.
pub(super) fn fate(print: &PrintLife) -> String {
    let ended = matches!(
        print.state,
        PrintState::Spoiled | PrintState::Lost | PrintState::Discarded
    );
    if ended {
        let why = print.end.as_deref().unwrap_or_default();
        let word = print.state.word();
        return if why.is_empty() {
            word.to_owned()
        } else {
            format!("{word}: {why}")
        };
    }
    match &print.placement {
        Some(placement) => {
            let word = match placement.whereabouts {
                Whereabouts::Wall => "on the wall",
                Whereabouts::Drawer => "in a drawer",
                other => other.word(),
            };
            match &placement.place {
                Some(place) => format!("{}, {word}, {place}", print.state.word()),
                None => format!("{}, {word}", print.state.word()),
            }
        }
        None => print.state.word().to_owned(),
    }
}

/// How far a run has come.
pub(super) fn run_so_far(run: &RunLife) -> String {
    match (run.state, run.time) {
        (RunState::Ended, Some(time)) => format!("ended, {time}"),
        (RunState::Ended, None) => "ended".to_owned(),
        (RunState::Running, Some(time)) => format!("under way, {time} planned"),
        _ => run.state.word().to_owned(),
    }
}

/// A step by the clock: what was given against what was planned, and how warm it was.
pub(super) fn step_taken(step: &StepTaken) -> String {
    let given = match (step.given, step.ended) {
        // By hand at the tank a second is as near as it gets.
        (Some(given), _) => Seconds::new(given.value().round())
            .unwrap_or(given)
            .to_string(),
        (None, Some(_)) => "time not known".to_owned(),
        (None, None) => "under way".to_owned(),
    };
    let planned = step.first_plan.map(|time| format!("{time} planned"));
    let warmth = match (step.first_temperature, step.temperature) {
        (Some(first), Some(last)) if first != last => Some(format!("{first} to {last}")),
        (first, last) => last.or(first).map(|it| it.to_string()),
    };
    list([Some(given), planned, warmth])
}

/// The steps of a run that were counted, each by its name.
pub(super) fn steps_taken(run: &RunLife) -> Vec<(String, String)> {
    let steps = run.steps.all().iter();
    steps
        .map(|step| (step.step.clone(), step_taken(step)))
        .collect()
}

/// What a thing is, on one line.
pub(super) fn summary(life: &Life, names: &Cached<'_>, reference: &Reference) -> String {
    let called = |id| names.reference_of(id);
    match &life.particulars {
        Particulars::Box(film) => list([
            Some(film.film.clone()),
            said(film.size),
            film.emulsion.as_ref().map(|it| format!("emulsion {it}")),
            film.expiry.map(|day| format!("use by {day}")),
            life.born.map(|at| format!("came in {}", day(at))),
        ]),
        Particulars::Holder(holder) => list([said(holder.size), holder.make.clone()]),
        Particulars::Side(side) => list([
            side.holder
                .map(|holder| format!("side {} of {}", side.label, called(holder))),
            said(side.size),
        ]),
        Particulars::Sheet(sheet) => sheet_summary(sheet, names),
        Particulars::Set(set) => list(
            std::iter::once(life.born.map(|at| format!("linked {}", day(at))))
                .chain(set.sheets.iter().map(|sheet| Some(called(*sheet)))),
        ),
        Particulars::Run(run) => {
            let setting = match (run.time, run.temperature) {
                (Some(time), Some(temperature)) => Some(format!("{time} at {temperature}")),
                (time, temperature) => said(time).or(said(temperature)),
            };
            list([
                life.born.map(day),
                setting,
                run.vessel.clone(),
                Some(match run.sheets.len() {
                    1 => "1 sheet".to_owned(),
                    many => format!("{many} sheets"),
                }),
            ])
        }
        Particulars::Bath(bath) => list([
            Some(match bath.dilution {
                Some(dilution) => format!("{} {dilution}", bath.name),
                None => bath.name.clone(),
            }),
            said(bath.volume),
            bath.mixed.map(|at| format!("mixed {}", day(at))),
        ]),
        Particulars::Paper(paper) => list([
            Some(paper.name.clone()),
            paper.sort.clone(),
            said(paper.size),
            paper.batch.as_ref().map(|it| format!("batch {it}")),
        ]),
        Particulars::Print(print) => list([
            Some(process(&print.process, reference)),
            print.title.as_ref().map(|title| format!("\"{title}\"")),
            print.number.clone(),
            life.born.map(|at| format!("begun {}", day(at))),
            Some(fate(print)),
        ]),
        Particulars::Lens(lens) => lens.name.clone(),
        Particulars::Camera(camera) => camera.name.clone(),
        Particulars::Finding(finding) => list([
            finding.found.as_ref().map(|found| found.about().to_owned()),
            finding.found.as_ref().map(Found::says),
            finding.at.map(day),
        ]),
    }
}

fn sheet_summary(sheet: &SheetLife, names: &Cached<'_>) -> String {
    let film = sheet.film_box.and_then(|id| names.life_of(id));
    let film = film.as_ref().and_then(Life::film_box);
    let densities = sheet.densities.map(|it| {
        let range = it.high.value() - it.low.value();
        format!("{} .. {} range {range:.2}", it.low, it.high)
    });
    let exposures = sheet.exposures.iter().map(|it| {
        let setting = match (it.aperture, it.time) {
            (Some(aperture), Some(time)) => format!("{aperture} at {time}"),
            (aperture, time) => said(aperture).or(said(time)).unwrap_or_default(),
        };
        let when = day(it.at);
        Some(if setting.is_empty() {
            format!("exposed {when}")
        } else {
            format!("{setting}, {when}")
        })
    });
    let subject = sheet
        .exposures
        .iter()
        .rev()
        .find_map(|it| it.subject.clone());
    let end = sheet
        .end
        .as_ref()
        .map(|why| format!("{}: {why}", sheet.state.word()));
    list(
        [
            film.map(|film| match film.size {
                Some(size) => format!("{} {size}", film.film),
                None => film.film.clone(),
            }),
            subject,
        ]
        .into_iter()
        .chain(exposures)
        .chain([densities, sheet.file_place.clone(), end]),
    )
}
