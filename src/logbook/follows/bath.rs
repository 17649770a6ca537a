//! What follows of the baths: how each stands, what it has left, and what would be too much for it.
//!
//! The same warnings stand beside every pane that names a bath; what goes beyond is refused when it is
//! logged, with the same numbers.

use super::{Follow, cautions, named, sheets_named, since};
use crate::craft::{Area, Capacity};
use crate::logbook::cautions::Work;
use crate::logbook::draft::{Desk, several};
use crate::logbook::life::{BathLife, PrintLife};
use crate::logbook::{Draft, Life, Purpose, ThingKind};

/// How a bath stands: what is in it, how old it is, what went through it, what it has left.
fn bath(label: &str, life: &Life, bath: &BathLife, desk: &Desk<'_>) -> Vec<Follow> {
    let today = desk.now.date_naive();
    let wear = bath.wear();
    let reference = &life.reference;
    let mut words = format!("{reference} {}", bath.name);
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

/// How the bath stands that is about to be replenished.
pub(super) fn replenishing(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let Some(life) = named(draft, "bath", ThingKind::Bath, desk) else {
        return Vec::new();
    };
    let Some(one) = life.bath() else {
        return Vec::new();
    };
    let mut lines = bath("bath", &life, one, desk);
    if one.wear().is_exhausted() {
        lines.push(Follow::warning(
            "a replenisher keeps a bath as it is; it does not revive one that is exhausted",
        ));
    }
    lines
}

/// What is told of the solution that is mixed, and the stock it is drawn from.
pub(super) fn mixing(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let purpose = Purpose::worded(draft.get("purpose").trim());
    let mut lines = purpose
        .map(|purpose| cautions(desk, Work::Mixing(purpose)))
        .unwrap_or_default();
    if let Some(stock) = named(draft, "stock", ThingKind::Bath, desk)
        && let Some(one) = stock.bath()
    {
        lines.extend(bath("drawn from", &stock, one, desk));
    }
    if let Ok(capacity) = Capacity::parse(draft.get("capacity"))
        && let Some(area) = capacity.area()
    {
        lines.push(Follow::fact("good for", format!("{capacity}, {area}")));
    }
    lines
}
