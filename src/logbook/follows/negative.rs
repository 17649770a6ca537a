//! What follows from a negative in the hand: its range against the processes, the gradient between its
//! patches, what a fault may come from.

use super::{Follow, named};
use crate::craft::Density;
use crate::craft::development::gradient::of_stops;
use crate::craft::patches::{self, Patch};
use crate::craft::zones::Zone;
use crate::logbook::draft::Desk;
use crate::logbook::{Channel, Draft, ThingKind};
use crate::reference::{NegativeFault, Process, Scale};

/// The range of a negative against the exposure scales that are told of each process, a line a
/// process: the scale that holds it, or else the nearest.
pub(super) fn range_against_processes<'a>(
    range: f64,
    processes: impl Iterator<Item = &'a Process>,
) -> Vec<Follow> {
    let off = |scale: &Scale| {
        let (least, most) = scale.range;
        (least - range).max(range - most).max(0.0)
    };
    let line = |process: &Process| {
        let scales = process.scales().iter();
        let scale = scales.min_by(|one, other| off(one).total_cmp(&off(other)))?;
        let by = off(scale);
        let mut words = if range < scale.range.0 {
            format!("{by:.2} short of its {scale}")
        } else if range > scale.range.1 {
            format!("{by:.2} beyond its {scale}")
        } else {
            format!("within its {scale}")
        };
        if !scale.of.is_empty() {
            words = format!("{words}, {}", scale.of);
        }
        Some(Follow {
            standing: Some(scale.standing),
            source: scale.source.clone(),
            ..Follow::fact(&process.short, words)
        })
    };
    processes.filter_map(line).collect()
}

pub(super) fn measuring(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let mut lines = before(draft, desk);
    let low = Density::parse(draft.get("low")).ok();
    let high = Density::parse(draft.get("high")).ok();
    if let (Some(low), Some(high)) = (low, high) {
        let range = high.value() - low.value();
        lines.push(Follow::fact(
            "range",
            format!("{high} - {low} = {range:.2}"),
        ));
        if range <= 0.0 {
            lines.push(Follow::warning(
                "the densest is not denser than the thinnest",
            ));
            return lines;
        }
    }
    if let Ok(read) = patches::read(draft.get("patches")) {
        lines.extend(gradient(&read));
    }
    if let (Some(low), Some(high)) = (low, high) {
        let range = high.value() - low.value();
        let processes = desk.reference.processes();
        lines.extend(range_against_processes(range, processes.iter()));
    }
    lines
}

/// What was measured before, in each light; and which light is missing where the negative is stained.
fn before(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let Some(life) = named(draft, "sheet", ThingKind::Sheet, desk) else {
        return Vec::new();
    };
    let Some(sheet) = life.sheet() else {
        return Vec::new();
    };
    let mut lines: Vec<Follow> = sheet
        .measured
        .iter()
        .map(|one| {
            let channel = one.channel.map_or("light not said", Channel::word);
            let range = one.high.value() - one.low.value();
            let words = format!("{} .. {}, range {range:.2}, {channel}", one.low, one.high);
            Follow::fact("before", words)
        })
        .collect();
    let run = sheet.run.and_then(|run| desk.names.life_of(run));
    let developer = run
        .as_ref()
        .and_then(|life| desk.names.life_of(life.run()?.developer?));
    let name = developer.as_ref().and_then(|life| life.bath());
    if let Some(bath) = name
        && desk
            .reference
            .developer(&bath.name)
            .is_some_and(|it| it.stains)
        && draft.get("channel").trim() != Channel::Ultraviolet.word()
    {
        lines.push(Follow::warning(format!(
            "{} stains: in ultraviolet or blue the negative holds back more than the eye sees, so read it \
             in the light it will be printed with",
            bath.name
        )));
    }
    lines
}

/// The gradient between the outermost patches that are named by a zone: how much denser a zone more is.
fn gradient(patches: &[Patch]) -> Vec<Follow> {
    let mut placed: Vec<(f64, &Patch)> = patches
        .iter()
        .filter_map(|patch| Some((Zone::parse(&patch.name).ok()?.value(), patch)))
        .collect();
    placed.sort_by(|one, other| one.0.total_cmp(&other.0));
    let (Some((from, thin)), Some((to, dense))) = (placed.first(), placed.last()) else {
        return Vec::new();
    };
    let zones = to - from;
    if zones <= 0.0 {
        return Vec::new();
    }
    let rise = dense.density.value() - thin.density.value();
    let log = of_stops(zones);
    vec![Follow::fact(
        "gradient",
        format!(
            "{} to {}: {rise:.2} / ({zones} x 0.301) = {:.2}",
            thin.name,
            dense.name,
            rise / log
        ),
    )]
}

/// How a fault looks, what may cause it, what to do another time; and what is known of the sheet.
pub(super) fn fault(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let mut lines = Vec::new();
    if let Some(fault) = desk.reference.fault(draft.get("fault")) {
        lines.extend(told(fault));
    }
    let Some(life) = named(draft, "sheet", ThingKind::Sheet, desk) else {
        return lines;
    };
    let Some(sheet) = life.sheet() else {
        return lines;
    };
    let side = sheet.exposures.last().and_then(|exposure| exposure.side);
    if let Some(side) = side {
        let holder = desk.names.reference_of(side);
        lines.push(Follow::fact("it was in", holder));
    }
    if let Some(run) = sheet.run {
        lines.push(Follow::fact("developed in", desk.names.reference_of(run)));
    }
    for seen in &sheet.faults {
        let place = seen.place.as_ref().map(|place| format!(", {place}"));
        let words = format!("{}{}", seen.fault, place.unwrap_or_default());
        lines.push(Follow::fact("seen before", words));
    }
    lines
}

fn told(fault: &NegativeFault) -> Vec<Follow> {
    let resting = |follow: Follow| Follow {
        standing: Some(fault.standing),
        source: fault.source.clone(),
        ..follow
    };
    let mut lines = vec![resting(Follow::fact("looks", fault.looks.clone()))];
    lines.extend(
        fault
            .causes
            .iter()
            .map(|cause| Follow::fact("may be", cause.clone())),
    );
    lines.push(Follow::act(format!("another time: {}", fault.instead)));
    lines
}
