//! What follows at the printing bench and in finishing.

use super::negative::range_against_processes;
use super::{Follow, bath, cautions, named, sheets_named};
use crate::craft::mat::{Placing, borders};
use crate::craft::{Millimetres, Size};
use crate::logbook::cautions::Work;
use crate::logbook::draft::Desk;
use crate::logbook::{Draft, Kind, ThingKind};
use crate::reference::{ContrastRow, Process, Step};

pub(super) fn beginning(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let mut lines = Vec::new();
    let process = desk.reference.process_named(draft.get("process"));
    for life in sheets_named(draft, "negatives", desk) {
        let Some(densities) = life.sheet().and_then(|sheet| sheet.densities) else {
            lines.push(Follow::fact(&life.reference, "not measured"));
            continue;
        };
        let range = densities.high.value() - densities.low.value();
        let words = format!("{} .. {}, range {range:.2}", densities.low, densities.high);
        lines.push(Follow::fact(&life.reference, words));
        lines.extend(range_against_processes(range, process.into_iter()));
    }
    if let Some(life) = named(draft, "paper", ThingKind::Paper, desk)
        && let Some(paper) = life.paper()
    {
        lines.push(Follow::fact(
            "paper",
            format!("{}, {} left", paper.name, paper.left),
        ));
    }
    if let Some(process) = process {
        let steps: Vec<&str> = process.required().map(|step| step.label.as_str()).collect();
        lines.push(Follow::fact("steps", steps.join(", ")));
        lines.splice(0..0, cautions(desk, Work::Beginning(process)));
    }
    lines
}

pub(super) fn step(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let Some(life) = named(draft, "print", ThingKind::Print, desk) else {
        return Vec::new();
    };
    let Some(print) = life.print() else {
        return Vec::new();
    };
    let Some(process) = desk.reference.process(&print.process) else {
        return Vec::new();
    };
    let mut lines = Vec::new();
    let typed = draft.get("step").trim();
    if let Some(step) = process.step(typed) {
        lines.extend(cautions(desk, Work::Step(step)));
        lines.extend(recipes(process, step));
        for usual in &step.usual {
            lines.push(Follow {
                standing: Some(usual.standing),
                source: usual.source.clone(),
                ..Follow::fact(&usual.what, usual.value())
            });
        }
        if let Err(problem) = process.may_follow(&print.done(), typed) {
            lines.push(Follow::warning(problem.to_string()));
        }
    }
    lines.extend(bath::of_step(draft, print, desk));
    let next: Vec<&str> = print
        .next_steps(process)
        .into_iter()
        .map(|step| step.id.as_str())
        .collect();
    if !next.is_empty() {
        lines.push(Follow::fact("can come now", next.join(", ")));
    }
    let done: Vec<&str> = print.done();
    if !done.is_empty() {
        lines.push(Follow::fact("done", done.join(", ")));
    }
    lines
}

/// What a step is mixed of and how its contrast is set, as far as it is told.
fn recipes(process: &Process, step: &Step) -> Vec<Follow> {
    let told = |label: &str, words: String, standing, source: &str| Follow {
        standing: Some(standing),
        source: source.to_owned(),
        ..Follow::fact(label, words)
    };
    let mixes = process.mixes_of(&step.id);
    let mixes = mixes.map(|it| told(&it.name, it.to_string(), it.standing, &it.source));
    let contrasts = process.contrasts_of(&step.id).map(|it| {
        let row = |row: &ContrastRow| format!("{}: {}", row.value(&it.unit), row.gives());
        let rows: Vec<String> = it.rows.iter().map(row).collect();
        told(&it.label, rows.join("; "), it.standing, &it.source)
    });
    let baths = step.solutions.iter();
    let baths = baths.map(|it| told(&it.name, it.contents(), it.standing, &it.source));
    mixes.chain(contrasts).chain(baths).collect()
}

pub(super) fn matting(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let mut lines = cautions(desk, Work::Other(Kind::Matted));
    let outer = Size::parse(draft.get("outer")).ok();
    let window = Size::parse(draft.get("window")).ok();
    let (Some(outer), Some(window)) = (outer, window) else {
        return lines;
    };
    let raised = Millimetres::parse(draft.get("raised")).ok();
    // A window raised by so much has a foot wider than its head by twice that.
    let placing = match raised.and_then(|raised| Millimetres::new(raised.value() * 2.0).ok()) {
        Some(wider) => Placing::Foot(wider),
        None => Placing::Centred,
    };
    match borders(outer, window, placing) {
        Ok(borders) => lines.push(Follow::fact("borders", borders.to_string())),
        Err(misfit) => lines.push(Follow::warning(misfit.to_string())),
    }
    if raised.is_none()
        && let Ok(borders) = borders(outer, window, Placing::OpticalCentre)
    {
        lines.push(Follow::fact("at the optical centre", borders.to_string()));
    }
    lines
}
