//! What follows of the baths: how each stands, what it has left, and what would be too much for it.
//!
//! The same warnings stand beside every pane that names a bath; what goes beyond is refused when it is
//! logged, with the same numbers.

use super::{Follow, Weight, named, sheets_named, since};
use crate::craft::solutions::fixing::{MOST_CHANGES, SLOW, fixing};
use crate::craft::{Area, Millilitres, Seconds};
use crate::logbook::deed::Clearing;
use crate::logbook::draft::{Desk, several};
use crate::logbook::life::{BathLife, PrintLife};
use crate::logbook::{Draft, Kind, Life, Purpose, ThingKind};
use crate::reference::{self, Usual};

/// How a bath stands: what is in it, how old it is, what went through it, what it has left.
pub(super) fn bath(label: &str, life: &Life, bath: &BathLife, desk: &Desk<'_>) -> Vec<Follow> {
    let today = desk.now.date_naive();
    let wear = bath.wear();
    let reference = &life.reference;
    let mut words = format!("{reference} {}", bath.name);
    match (bath.first, bath.second) {
        (Some(_), _) => words.push_str(", second of two"),
        (None, Some(_)) => words.push_str(", first of two"),
        (None, None) => {}
    }
    if let Some(dilution) = &bath.dilution {
        words.push_str(&format!(" {dilution}"));
    }
    if let Some(mixed) = bath.mixed {
        words.push_str(&format!(", mixed {}", since(mixed, desk.now)));
    }
    let left = wear.left();
    if left.is_none() && bath.uses > 0 {
        words.push_str(&format!(", {}", wear.gone_through()));
    }
    for more in [left, wear.age(today)].into_iter().flatten() {
        words.push_str(&format!(", {more}"));
    }
    let mut lines = vec![Follow::fact(label, words)];
    if !matches!(life.state_word(), "fresh" | "in use") {
        let state = life.state_word();
        lines.push(Follow::warning(format!("{reference} is {state}")));
    }
    let warnings = wear.warnings(today).into_iter();
    lines.extend(warnings.map(|words| Follow::warning(format!("{reference}: {words}"))));
    lines
}

/// What so much more would do to it.
fn after(life: &Life, bath: &BathLife, sheets: u32, area: Option<Area>) -> Option<Follow> {
    let mut wear = bath.wear();
    if sheets == 0 || wear.is_exhausted() {
        return None;
    }
    wear.uses = wear.uses.saturating_add(sheets);
    match area {
        Some(area) => wear.area = wear.area.and(area),
        None => wear.unmeasured = wear.unmeasured.saturating_add(sheets),
    }
    let share = wear.share()?;
    (share > 1.0 + 1e-9).then(|| {
        Follow::warning(format!(
            "{}: too much for it, {} after this",
            life.reference,
            wear.gone_through()
        ))
    })
}

/// The baths of a run, with what its sheets would do to them.
pub(super) fn of_run(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let sheets = sheets_named(draft, "sheets", desk);
    let area = area_of(&sheets, desk);
    let count = u32::try_from(sheets.len()).unwrap_or(u32::MAX);
    let mut lines = Vec::new();
    let mut seen = |label: &str, life: &Life| {
        let Some(one) = life.bath() else {
            return;
        };
        lines.extend(bath(label, life, one, desk));
        lines.extend(after(life, one, count, area));
        if label == "developer" {
            lines.extend(area.and_then(|area| stock_for(life, one, area, desk)));
        }
    };
    for (key, label) in [
        ("developer", "developer"),
        ("stop", "stop bath"),
        ("fixer", "fixer"),
    ] {
        if let Some(life) = named(draft, key, ThingKind::Bath, desk) {
            seen(label, &life);
        }
    }
    for life in baths_named(draft, "other_baths", desk) {
        seen("bath", &life);
    }
    lines
}

/// Whether the developer holds the least stock that so much film takes: by what was logged with the
/// bath, else by what the reference tells of its developer.
fn stock_for(life: &Life, bath: &BathLife, area: Area, desk: &Desk<'_>) -> Option<Follow> {
    let holds = bath.stock_in_it()?;
    if let Some(needs) = bath.stock_for(area) {
        return (holds < needs).then(|| {
            Follow::warning(format!(
                "{}: {holds} of stock in it, and so much film takes at least {needs}",
                life.reference
            ))
        });
    }
    let told = desk
        .reference
        .usage(bath.formula.as_deref().unwrap_or(&bath.name))?;
    let needs = told.least * area.units();
    (told.of == "stock" && holds.value() < needs).then(|| Follow {
        standing: Some(told.standing),
        source: told.source.clone(),
        ..Follow::warning(format!(
            "{}: {holds} of stock in it, and so much film takes at least {} ml of {}",
            life.reference,
            crate::craft::trimmed(needs, 1),
            told.name
        ))
    })
}

/// The area of sheets, from their boxes; `None` when a size is not known.
fn area_of(sheets: &[Life], desk: &Desk<'_>) -> Option<Area> {
    let mut all = Area::NONE;
    for life in sheets {
        let film_box = desk.names.life_of(life.sheet()?.film_box?)?;
        all = all.and(Area::of(film_box.film_box()?.size?, 1.0).ok()?);
    }
    Some(all)
}

fn baths_named(draft: &Draft, key: &str, desk: &Desk<'_>) -> Vec<Life> {
    several(ThingKind::Bath, draft.get(key), desk.names)
        .unwrap_or_default()
        .into_iter()
        .filter_map(|bath| desk.names.life_of(bath))
        .collect()
}

/// The baths a print goes through in a step, with what it would do to them.
pub(super) fn of_step(draft: &Draft, print: &PrintLife, desk: &Desk<'_>) -> Vec<Follow> {
    let paper = print.paper.and_then(|paper| desk.names.life_of(paper));
    let size = print.size.or_else(|| paper.as_ref()?.paper()?.size);
    let area = size.and_then(|size| Area::of(size, f64::from(print.paper_sheets)).ok());
    let mut lines = Vec::new();
    for life in baths_named(draft, "baths", desk) {
        if let Some(one) = life.bath() {
            lines.extend(bath("bath", &life, one, desk));
            lines.extend(after(&life, one, 1, area));
        }
    }
    lines
}

/// How the bath stands that something is about to be done with.
pub(super) fn at_one(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let Some(life) = named(draft, "bath", ThingKind::Bath, desk) else {
        return Vec::new();
    };
    let Some(one) = life.bath() else {
        return Vec::new();
    };
    let mut lines = bath("bath", &life, one, desk);
    match draft.kind {
        Kind::BathReplenished => lines.extend(replenishing(one)),
        Kind::BathSplit => lines.extend(splitting(draft, one)),
        _ => lines.extend(clearing(draft, one)),
    }
    lines
}

fn replenishing(bath: &BathLife) -> Vec<Follow> {
    let mut lines = vec![Follow::act(
        "take some out, add the replenisher, restore the level with what was taken out",
    )];
    if bath.total_uses > bath.uses {
        let all = bath.total_uses;
        lines.push(Follow::fact("since it was mixed", format!("{all} sheets")));
    }
    if bath.wear().is_exhausted() {
        lines.push(Follow::warning(
            "a replenisher keeps a bath as it is; it does not revive one that is exhausted",
        ));
    }
    lines
}

/// What the part takes with it, and what stays.
fn splitting(draft: &Draft, bath: &BathLife) -> Vec<Follow> {
    let Some(holds) = bath.volume else {
        return vec![Follow::warning(
            "how much there is of it is not in the logbook: amend its mixing first",
        )];
    };
    let Ok(asked) = Millilitres::parse(draft.get("volume")) else {
        return vec![Follow::fact("holds", holds.to_string())];
    };
    if asked >= holds {
        return vec![Follow::warning(format!("it holds {holds} and no more"))];
    }
    let poured = bath.pour(asked.value() / holds.value());
    let rest = Millilitres::new(holds.value() - asked.value());
    let mut lines = vec![Follow::fact(
        "the part has had",
        format!("{} sheets, {}", poured.uses, poured.area),
    )];
    if let Some(capacity) = poured.capacity {
        lines.push(Follow::fact("and is good for", capacity.to_string()));
    }
    lines.extend(
        rest.ok()
            .map(|rest| Follow::fact("stays", rest.to_string())),
    );
    lines
}

/// What a time of clearing says: how long to fix, and how the bath stands against its fresh time.
fn clearing(draft: &Draft, bath: &BathLife) -> Vec<Follow> {
    let mut lines = Vec::new();
    if bath
        .purpose
        .is_some_and(|purpose| purpose != Purpose::Fixer)
    {
        lines.push(Follow::warning("only a fixer clears film"));
    }
    for test in &bath.clearings {
        let film = test.film.as_deref().unwrap_or("film");
        let fresh = if test.fresh { ", fresh" } else { "" };
        let at = test.at.format("%-d %b");
        lines.push(Follow::fact(
            &at.to_string(),
            format!("{film} {}{fresh}", test.time),
        ));
    }
    if bath.clearings.is_empty() && bath.total_uses > 0 {
        lines.push(Follow::warning(
            "it has been used already: say no at \"bath is fresh\" unless this is its fresh time",
        ));
    }
    let Ok(time) = Seconds::parse(draft.get("time")) else {
        lines.push(Follow::act(
            "move a scrap of undeveloped film in it, lights on, until no milkiness is left",
        ));
        return lines;
    };
    let film = draft.get("film").trim();
    let same = |test: &&Clearing| {
        let other = test.film.as_deref().unwrap_or("");
        test.fresh && (film.is_empty() || other.is_empty() || other.eq_ignore_ascii_case(film))
    };
    let fresh = bath.clearings.iter().rfind(same).map(|test| test.time);
    let Ok(figure) = fixing(time, fresh, false) else {
        return lines;
    };
    lines.push(Follow {
        weight: Weight::Result,
        standing: Some(figure.grounds.standing),
        source: figure.grounds.source.to_string(),
        note: "three times as long as it clears in an alkaline fixer".to_owned(),
        ..Follow::fact("fix for", figure.value.time.to_string())
    });
    if let (Some(fresh), Some(end)) = (fresh, figure.value.exhausted_at) {
        lines.push(Follow::fact("when fresh", fresh.to_string()));
        lines.push(Follow::fact("thrown away at", end.to_string()));
        if figure.value.exhausted {
            let words = "twice as long as when fresh: mix a new one, collect this for its silver";
            lines.push(Follow::warning(words));
        } else if time.value() > fresh.value() * SLOW {
            lines.push(Follow::warning("it nears its end"));
        }
    }
    lines
}

/// How the two baths stand that are about to be changed.
pub(super) fn changing(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let first = named(draft, "first", ThingKind::Bath, desk);
    let Some(one) = first.as_ref().and_then(Life::bath) else {
        return Vec::new();
    };
    let mut lines = Vec::new();
    let second =
        named(draft, "second", ThingKind::Bath, desk).or_else(|| desk.names.life_of(one.second?));
    let next = named(draft, "next", ThingKind::Bath, desk);
    for (label, life) in [
        ("thrown away", &first),
        ("becomes the first", &second),
        ("new second", &next),
    ] {
        if let Some(life) = life
            && let Some(one) = life.bath()
        {
            lines.extend(bath(label, life, one, desk));
        }
    }
    if second.is_none() {
        lines.push(Follow::warning("no second bath stands behind it: name it"));
    }
    let changes = one.changes + 1;
    lines.push(Follow::fact(
        "changes",
        format!("this is the {} of {MOST_CHANGES}", nth(changes)),
    ));
    if changes > MOST_CHANGES {
        lines.push(Follow::warning("throw both away and mix two fresh ones"));
    }
    let fixer = desk.reference.bath(reference::Purpose::Fixer);
    let rule = fixer.and_then(|kind| kind.usual.iter().find(|usual| usual.what == "two baths"));
    lines.extend(rule.map(told));
    lines
}

fn nth(count: u32) -> String {
    match count {
        1 => "first".to_owned(),
        2 => "second".to_owned(),
        3 => "third".to_owned(),
        more => format!("{more}th"),
    }
}

/// What a text tells of a bath, with what it is worth.
fn told(usual: &Usual) -> Follow {
    Follow {
        standing: Some(usual.standing),
        source: usual.source.clone(),
        ..Follow::fact(&usual.what, usual.value())
    }
}
