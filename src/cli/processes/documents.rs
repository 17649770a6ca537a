//! The documents of `processes --json`: the same as the words, for programs.

use super::*;
use crate::reference::{ContrastRow, Part, Scale, Substance};

pub(super) fn process(process: &Process, cautions: &[&Caution], closing: &str) -> Value {
    let cautions = cautions.iter().map(|caution| {
        json!({
            "id": caution.id,
            "title": caution.title,
            "words": caution.words,
            "source": caution.source,
            "standing": caution.standing,
        })
    });
    let keeping = process.keeping().iter().map(|it| {
        json!({
            "what": it.what,
            "from": it.time.map(|((from, _), _)| from),
            "to": it.time.map(|((_, to), _)| to),
            "unit": it.time.map(|(_, unit)| unit),
            "note": it.note,
            "source": it.source,
            "standing": it.standing,
        })
    });
    let capacities = process.capacities().iter().map(|it| {
        json!({
            "what": it.what,
            "from": it.amount.0,
            "to": it.amount.1,
            "unit": it.unit,
            "per_ml": it.per.value(),
            "note": it.note,
            "source": it.source,
            "standing": it.standing,
        })
    });
    json!({
        "id": process.id,
        "name": process.name,
        "summary": process.summary,
        "light": process.light,
        "own": process.origin.is_own(),
        "cautions": cautions.collect::<Value>(),
        "closing": closing,
        "usual": process.usual.iter().map(usual).collect::<Value>(),
        "scales": process.scales().iter().map(scale).collect::<Value>(),
        "mixes": process.mixes().iter().map(mix).collect::<Value>(),
        "contrasts": process.contrasts().iter().map(contrast).collect::<Value>(),
        "keeping": keeping.collect::<Value>(),
        "capacities": capacities.collect::<Value>(),
        "steps": process.steps.iter().map(step).collect::<Value>(),
    })
}

pub(super) fn scale(scale: &Scale) -> Value {
    json!({
        "of": scale.of,
        "from": scale.range.0,
        "to": scale.range.1,
        "paper": scale.paper,
        "note": scale.note,
        "source": scale.source,
        "standing": scale.standing,
    })
}

fn usual(usual: &Usual) -> Value {
    json!({
        "what": usual.what,
        "from": usual.range.map(|(from, _)| from),
        "to": usual.range.map(|(_, to)| to),
        "unit": usual.unit,
        "paper": usual.paper,
        "note": usual.note,
        "source": usual.source,
        "standing": usual.standing,
    })
}

fn substance(held: &Substance) -> Value {
    json!({
        "of": held.of,
        "formula": held.formula,
        "from": held.strength.map(|(from, _)| from),
        "to": held.strength.map(|(_, to)| to),
        "unit": held.strength.map(|_| held.unit),
        "note": held.note,
        "source": held.source,
        "standing": held.standing,
    })
}

fn part(part: &Part) -> Value {
    json!({
        "key": part.key,
        "label": part.label,
        "role": part.role,
        "share": part.share,
        "figure": part.figure,
        "holds": part.holds.iter().map(substance).collect::<Value>(),
        "note": part.note,
    })
}

fn mix(mix: &Mix) -> Value {
    json!({
        "id": mix.id,
        "name": mix.name,
        "step": mix.step,
        "measure": mix.measure,
        "area": mix.area.map(|area| area.to_string()),
        "parts": mix.parts.iter().map(part).collect::<Value>(),
        "note": mix.note,
        "source": mix.source,
        "standing": mix.standing,
    })
}

fn row(row: &ContrastRow) -> Value {
    let shares = row
        .shares
        .iter()
        .map(|(key, share)| (key.clone(), json!(share)));
    json!({
        "at": row.at,
        "name": row.name,
        "from": row.scale.map(|(from, _)| from),
        "to": row.scale.map(|(_, to)| to),
        "exposure": row.exposure,
        "shares": shares.collect::<serde_json::Map<String, Value>>(),
        "paper": row.paper,
        "note": row.note,
        "source": row.source,
        "standing": row.standing,
    })
}

fn contrast(contrast: &Contrast) -> Value {
    json!({
        "id": contrast.id,
        "label": contrast.label,
        "step": contrast.step,
        "figure": contrast.figure,
        "unit": contrast.unit,
        "mix": contrast.mix,
        "rows": contrast.rows.iter().map(row).collect::<Value>(),
        "note": contrast.note,
        "source": contrast.source,
        "standing": contrast.standing,
    })
}

fn bath(bath: &Solution) -> Value {
    json!({
        "name": bath.name,
        "formula": bath.formula,
        "holds": bath.holds.iter().map(substance).collect::<Value>(),
        "paper": bath.paper,
        "note": bath.note,
        "source": bath.source,
        "standing": bath.standing,
    })
}

fn step(step: &Step) -> Value {
    let figures = step.figures.iter().map(|figure| {
        json!({
            "key": figure.key,
            "label": figure.label,
            "kind": figure.kind,
            "unit": figure.unit,
            "hint": figure.hint,
            "choices": figure.choices,
        })
    });
    json!({
        "id": step.id,
        "label": step.label,
        "work": step.work,
        "need": step.need,
        "repeat": step.repeat,
        "after": step.after,
        "not_after": step.not_after,
        "reopens": step.reopens,
        "bath": step.bath,
        "solutions": step.solutions.iter().map(bath).collect::<Value>(),
        "cautions": step.cautions,
        "figures": figures.collect::<Value>(),
        "usual": step.usual.iter().map(usual).collect::<Value>(),
    })
}
