//! What follows at the mixing bench: cautions first, then what is weighed out or thinned, then what is
//! told of how much the bath does and how long it keeps.
//!
//! The weighing and the thinning are those of the figures `weigh` and `dilute`; nothing is reckoned
//! here a second time. What is told is shown with its standing and never taken by itself.

use std::collections::BTreeMap;

use super::bath::bath;
use super::{Follow, Weight, cautions, named};
use crate::craft::{Capacity, Concern, Keeping, Millilitres, trimmed};
use crate::figures::{self, Answer, Given, Problem};
use crate::logbook::cautions::Work;
use crate::logbook::draft::Desk;
use crate::logbook::{Draft, Purpose, ThingKind};
use crate::reference::{Formula, Usual};

pub(super) fn mixing(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let formula = formula(draft, desk);
    let purpose = Purpose::worded(draft.get("purpose").trim());
    let weighed = formula.map(|formula| weighed(draft, formula, desk));
    let thinned = match weighed {
        None => thinned(draft, desk),
        Some(_) => None,
    };
    let mut lines = Vec::new();
    // What is in the bottles is known better than what such a bath mostly holds.
    match &weighed {
        Some(Ok(answer)) => lines.extend(beware(answer)),
        _ => lines.extend(
            purpose
                .map(|purpose| cautions(desk, Work::Mixing(purpose)))
                .unwrap_or_default(),
        ),
    }
    for (key, label) in [("stock", "drawn from"), ("behind", "the first of two")] {
        if let Some(life) = named(draft, key, ThingKind::Bath, desk)
            && let Some(one) = life.bath()
        {
            lines.extend(bath(label, &life, one, desk));
        }
    }
    match weighed.or(thinned) {
        Some(Ok(answer)) => lines.extend(figures_of(&answer)),
        Some(Err(problem)) => lines.push(Follow::warning(problem.says)),
        None => {}
    }
    if let Ok(capacity) = Capacity::parse(draft.get("capacity"))
        && let Some(area) = capacity.area()
    {
        lines.push(Follow::fact("good for", format!("{capacity}, {area}")));
    }
    lines.extend(told(draft, formula, purpose, desk));
    lines
}

/// The formula that is named; the solution itself where it has the name of one.
fn formula<'a>(draft: &Draft, desk: &Desk<'a>) -> Option<&'a Formula> {
    let typed = draft.get("formula").trim();
    match typed.is_empty() {
        true => None,
        false => desk.reference.formula(typed),
    }
}

/// Asks a figure what was typed into the pane.
fn asked(word: &str, typed: &[(&str, &str)], desk: &Desk<'_>) -> Option<Result<Answer, Problem>> {
    let recipe = figures::named(word)?;
    let typed: BTreeMap<String, String> = typed
        .iter()
        .map(|(key, text)| ((*key).to_owned(), (*text).to_owned()))
        .collect();
    let kit = desk.kit();
    let at = figures::Desk::new(desk.reference, &kit, desk.now).in_zone(desk.zone);
    Some((recipe.answer)(&Given::new(recipe.asks, &typed, &at)))
}

fn weighed(draft: &Draft, formula: &Formula, desk: &Desk<'_>) -> Result<Answer, Problem> {
    let typed = [
        ("formula", formula.id.as_str()),
        ("volume", draft.get("volume")),
        ("have", draft.get("have")),
    ];
    asked("weigh", &typed, desk).unwrap_or_else(|| Err(Problem::of_all("it cannot be weighed out")))
}

/// A concentrate or a stock and its water, once the volume and the dilution are there.
fn thinned(draft: &Draft, desk: &Desk<'_>) -> Option<Result<Answer, Problem>> {
    let (dilution, volume) = (draft.get("dilution").trim(), draft.get("volume").trim());
    let plain = dilution.is_empty() || dilution.eq_ignore_ascii_case("stock");
    if plain || volume.is_empty() {
        return None;
    }
    let typed = [
        ("dilution", dilution),
        ("volume", volume),
        ("colon", "plus"),
    ];
    // What cannot be read yet is said beside its field.
    asked("dilute", &typed, desk).filter(Result::is_ok)
}

/// What is to be read before anything is opened.
fn beware(answer: &Answer) -> impl Iterator<Item = Follow> {
    let warnings = answer.remarks.iter();
    let warnings = warnings.filter(|remark| remark.concern == Concern::Warning);
    warnings.map(|remark| match remark.words.split_once(": ") {
        Some((title, words)) => Follow {
            weight: Weight::Caution,
            ..Follow::fact(title, words)
        },
        None => Follow::weighed(Weight::Caution, remark.words.clone()),
    })
}

/// The water to begin with, what goes in after another, and the rest.
fn figures_of(answer: &Answer) -> Vec<Follow> {
    let mut lines = Vec::new();
    let first = ["begin with water", "as warm as"];
    for step in answer
        .steps
        .iter()
        .filter(|step| first.contains(&step.name.as_ref()))
    {
        lines.push(Follow {
            weight: Weight::Result,
            standing: step.grounds.as_ref().map(|grounds| grounds.standing),
            source: step
                .grounds
                .as_ref()
                .map_or(String::new(), |it| it.source.to_string()),
            ..Follow::fact(&step.name, step.amount.to_string())
        });
    }
    for line in &answer.results {
        let grounds = line.grounds.as_ref().unwrap_or(&answer.grounds);
        lines.push(Follow {
            weight: Weight::Result,
            standing: Some(grounds.standing),
            source: grounds.source.to_string(),
            ..Follow::fact(&line.name, line.amount.to_string())
        });
    }
    let notes = answer.remarks.iter();
    let notes = notes.filter(|remark| remark.concern != Concern::Warning);
    lines.extend(notes.map(|remark| Follow {
        weight: Weight::Also,
        ..Follow::fact("", remark.words.clone())
    }));
    lines
}

/// What texts tell of its capacity, its keeping and the least stock, for fields that are empty.
fn told<'a>(
    draft: &Draft,
    formula: Option<&'a Formula>,
    purpose: Option<Purpose>,
    desk: &Desk<'a>,
) -> Vec<Follow> {
    let empty = |key: &str| draft.get(key).trim().is_empty();
    let mut lines = Vec::new();
    for (key, what) in [("capacity", "capacity"), ("keeps", "keeping")] {
        if !empty(key) {
            continue;
        }
        let usual = usual_of(formula, purpose, desk);
        let usual = usual.filter(|usual| usual.what.starts_with(what));
        lines.extend(usual.map(|usual| Follow {
            standing: Some(usual.standing),
            source: usual.source.clone(),
            weight: Weight::Also,
            ..Follow::fact(&usual.what, usual.value())
        }));
    }
    let named = [draft.get("formula"), draft.get("name")];
    let usage = named.iter().find_map(|name| desk.reference.usage(name));
    if let Some(usage) = usage
        && empty("least")
    {
        lines.push(Follow {
            standing: Some(usage.standing),
            source: usage.source.clone(),
            weight: Weight::Also,
            ..Follow::fact(
                "least stock for 8x10",
                format!("{} ml of {}", usage.least, usage.of),
            )
        });
    }
    lines
}

/// What is told of a formula itself, then of baths of its purpose.
fn usual_of<'a>(
    formula: Option<&'a Formula>,
    purpose: Option<Purpose>,
    desk: &Desk<'a>,
) -> impl Iterator<Item = &'a Usual> + use<'a> {
    let of_formula = formula.map_or(&[][..], |formula| &formula.usual);
    let kind = purpose.and_then(|purpose| crate::reference::Purpose::worded(purpose.word()));
    let kind = kind.and_then(|purpose| desk.reference.bath(purpose));
    let of_kind = kind.map_or(&[][..], |kind| &kind.usual);
    of_formula.iter().chain(of_kind)
}

/// What can be put into an empty field of a bath that is mixed: the text, and a few words on where it
/// comes from. It is offered and never taken by itself.
pub fn offers(key: &str, draft: &Draft, desk: &Desk<'_>) -> Vec<(String, String)> {
    let formula = formula(draft, desk);
    let purpose = Purpose::worded(draft.get("purpose").trim());
    let mut offers = Vec::new();
    match key {
        "formula" => {
            let meant = |formula: &&Formula| {
                purpose.is_none_or(|purpose| purpose.word() == formula.purpose.word())
            };
            let all = desk.reference.formulas().iter();
            let first = all.clone().filter(meant);
            let rest = all.filter(|formula| !meant(formula));
            offers.extend(first.chain(rest).map(|formula| {
                let words = format!("{} ({})", formula.purpose.word(), formula.standing.word());
                (formula.name.clone(), words)
            }));
        }
        "capacity" => {
            let litres = Millilitres::parse(draft.get("volume")).map(|it| it.value() / 1000.0);
            for usual in usual_of(formula, purpose, desk) {
                if let (Some((from, _)), Ok(litres)) = (usual.range, &litres)
                    && usual.what.starts_with("capacity")
                    && usual.unit == "8x10 per l"
                {
                    let sheets = trimmed((from * litres * 10.0).floor() / 10.0, 1);
                    offers.push((format!("{sheets} 8x10"), told_words(usual)));
                }
            }
        }
        "keeps" => {
            for usual in usual_of(formula, purpose, desk) {
                if let Some((from, _)) = usual.range
                    && usual.what.starts_with("keeping")
                    && let Ok(keeping) =
                        Keeping::parse(&format!("{} {}", trimmed(from, 1), usual.unit))
                {
                    offers.push((keeping.to_string(), told_words(usual)));
                }
            }
        }
        "least" => {
            let named = [draft.get("formula"), draft.get("name")];
            let usage = named.iter().find_map(|name| desk.reference.usage(name));
            offers.extend(usage.map(|usage| {
                let words = format!("{} of {} ({})", usage.name, usage.of, usage.standing.word());
                (format!("{} ml", usage.least), words)
            }));
        }
        _ => {}
    }
    offers
}

/// `acid, unknown maker (published)`
fn told_words(usual: &Usual) -> String {
    let what = usual.what.split_once(", ").map_or("", |(_, what)| what);
    format!("{what} ({})", usual.standing.word())
}
