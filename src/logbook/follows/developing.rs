//! What follows while a run is typed and ended: what its sheets ask for, the chain to the time, and what a
//! time that was not as planned leaves to the print.

use super::exposing::{in_columns, remembered, resting_on, step};
use super::film::film_of;
use super::{Follow, Weight, bath, cautions, named, sheets_named, since};
use crate::craft::development::contrast::{Grain, zones_of};
use crate::craft::{Concern, Seconds};
use crate::figures::development::Reckoned;
use crate::logbook::cautions::Work;
use crate::logbook::developing::{asked_by, reckoned, reckoned_with, sheets_of, wish_of};
use crate::logbook::draft::Desk;
use crate::logbook::life::RunLife;
use crate::logbook::telling::percent_off;
use crate::logbook::{Draft, Kind, Life, ThingKind};

/// A change of contrast below this is lost in the print, in zones.
const LOST_IN_THE_PRINT: f64 = 0.25;

pub(super) fn developing(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let mut lines = cautions(desk, Work::Other(Kind::RunBegun));
    for sheet in sheets_named(draft, "sheets", desk) {
        lines.extend(a_sheet(&sheet, desk));
    }
    lines.extend(bath::of_run(draft, desk));
    match reckoned(draft, desk) {
        Ok(Some(reckoned)) => {
            lines.extend(chain(&reckoned, draft));
            lines.extend(other_wishes(draft, &reckoned, desk));
        }
        Ok(None) => {}
        Err(problem) => {
            lines.push(Follow::warning(format!("not reckoned: {problem}")));
            if problem.key == Some("temperature") {
                lines.extend(estimated(draft, desk));
            }
        }
    }
    lines
}

/// The film of a sheet, its subject, and what it asks for.
fn a_sheet(sheet: &Life, desk: &Desk<'_>) -> Vec<Follow> {
    let mut words = Vec::new();
    let mut lines = Vec::new();
    if let Some(life) = sheet.sheet() {
        let film_box = life.film_box.and_then(|it| desk.names.life_of(it));
        words.extend(film_box.as_ref().and_then(Life::film_box).map(film_of));
        words.extend(life.exposures.last().and_then(|one| one.subject.clone()));
        if let Some(wish) = wish_of(life, desk.reference) {
            words.push(format!("asks for {}", wish.words));
            if let Some(other) = wish.instead_of {
                lines.push(Follow {
                    weight: Weight::Also,
                    ..Follow::fact("", format!("its exposure was reckoned to ask for {other}"))
                });
            }
        }
    }
    lines.insert(0, Follow::fact(&sheet.reference, words.join(", ")));
    if !matches!(sheet.state_word(), "exposed" | "held exposed") {
        let words = format!("{} is {}", sheet.reference, sheet.state_word());
        lines.push(Follow::warning(words));
    }
    lines
}

/// The steps, what they come to, and what to look at.
fn chain(reckoned: &Reckoned, draft: &Draft) -> Vec<Follow> {
    let answer = &reckoned.answer;
    let mut lines: Vec<Follow> = answer.steps.iter().map(step).collect();
    lines.push(Follow {
        standing: remembered(&answer.steps),
        ..Follow::result("develop", reckoned.time.to_string())
    });
    if let Ok(typed) = Seconds::parse(draft.get("time")) {
        let off = percent_off(typed, reckoned.time);
        let said = if off == "as planned" {
            "as reckoned".to_owned()
        } else {
            format!("{off} of the reckoned")
        };
        lines.push(Follow {
            weight: Weight::Also,
            ..Follow::fact("typed", said)
        });
    }
    // The time and its temperature are the first of the results.
    for line in answer.results.iter().skip(2) {
        let follow = Follow {
            weight: Weight::Also,
            ..Follow::fact(&line.name, in_columns(&line.amount))
        };
        lines.push(resting_on(follow, line.grounds.as_ref()));
    }
    lines.extend(answer.remarks.iter().map(Follow::remark));
    lines
}

/// Sheets that ask for something else than the run is for.
fn other_wishes(draft: &Draft, reckoned: &Reckoned, desk: &Desk<'_>) -> Vec<Follow> {
    let sheets = sheets_of(draft, desk);
    let others: Vec<String> = sheets
        .iter()
        .filter(|sheet| sheet.asked().is_none_or(|asked| asked != reckoned.asked))
        .map(|sheet| match (&sheet.wish, sheet.asked()) {
            (_, Some(asked)) => format!("{} asks for {asked}", sheet.reference),
            (Some(wish), None) => format!("{} asks for {}", sheet.reference, wish.words),
            (None, None) => sheet.reference.clone(),
        })
        .collect();
    if others.is_empty() {
        return Vec::new();
    }
    let mut words = format!("this run is for {}: {}", reckoned.asked, others.join(", "));
    if asked_by(&sheets).is_err() && sheets.len() > 1 {
        words.push_str("; sheets that ask for different things belong into several runs");
    }
    vec![Follow::warning(words)]
}

/// The general law, where the tables say nothing for the temperature.
fn estimated(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let Ok(Some(reckoned)) = reckoned_with(draft, desk, true) else {
        return Vec::new();
    };
    let line = reckoned.answer.results.first();
    let follow = Follow {
        weight: Weight::Also,
        ..Follow::fact("an estimate", reckoned.time.to_string())
    };
    let mut lines = vec![resting_on(follow, line.and_then(|it| it.grounds.as_ref()))];
    let beyond = reckoned.answer.remarks.iter();
    lines.extend(
        beyond
            .filter(|it| it.concern == Concern::Beyond)
            .map(Follow::remark),
    );
    lines
}

pub(super) fn ending_run(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let Some(life) = named(draft, "run", ThingKind::Run, desk) else {
        return Vec::new();
    };
    let mut lines = Vec::new();
    if let Some(run) = life.run() {
        let sheets: Vec<String> = run
            .sheets
            .iter()
            .map(|id| desk.names.reference_of(*id))
            .collect();
        lines.push(Follow::fact("sheets", sheets.join(", ")));
        if let Some(asked) = &run.contrast {
            lines.push(Follow::fact("developed for", asked.to_string()));
        }
        if let Some(planned) = run.planned {
            lines.push(Follow::fact("planned", planned.to_string()));
            if let Ok(given) = Seconds::parse(draft.get("time")) {
                lines.extend(against(given, planned, grain_of(run, desk)));
            }
        }
        if let Some(began) = life.born {
            lines.push(Follow::fact("began", since(began, desk.now)));
        }
    }
    lines
}

fn grain_of(run: &RunLife, desk: &Desk<'_>) -> Grain {
    let film = run.sheets.first().and_then(|sheet| {
        let film_box = desk.names.life_of(*sheet)?.sheet()?.film_box?;
        let film = desk.names.life_of(film_box)?.film_box()?.film.clone();
        Some(desk.reference.film(&film)?.grain)
    });
    film.unwrap_or(Grain::Classic)
}

/// What was given against what was planned, and what the print can do about it.
fn against(given: Seconds, planned: Seconds, grain: Grain) -> Vec<Follow> {
    let off = percent_off(given, planned);
    let mut lines = vec![Follow::result("given", format!("{given}, {off}"))];
    let words = match zones_of(given.value() / planned.value(), grain) {
        Some(zones) if zones.abs() < LOST_IN_THE_PRINT => return lines,
        Some(zones) if zones > 0.0 => format!(
            "more contrast, about as N{zones:+.1} beside what was meant: a softer grade of paper, or a \
             process with a longer scale, takes it up; lights may need burning in"
        ),
        Some(zones) => format!(
            "less contrast, about as N{zones:+.1} beside what was meant: a harder grade of paper, or a \
             process with a shorter scale, takes it up"
        ),
        None if given > planned => {
            "far more development than meant: dense lights and grain; print on \
                                    the softest grade, or reduce the negative"
                .to_owned()
        }
        None => {
            "far less development than meant: thin lights; print on the hardest grade, or for a \
                 process with a short scale"
                .to_owned()
        }
    };
    lines.push(Follow {
        weight: Weight::Also,
        standing: Some(crate::reference::Standing::Usual),
        ..Follow::fact("", words)
    });
    lines
}
