//! The input of each field, with what can be offered to fill it.

use crate::logbook::{Draft, Field, FieldKind, Kind, Names, ThingKind, tidy_reference};
use crate::tui::bench::Bench;
use crate::tui::widgets::choice::{Choice, Pick};
use crate::tui::widgets::field::Field as Widget;

/// A field of plain text.
pub(super) fn plain(key: &str, label: &str, empty: &str, draft: &Draft) -> Widget {
    Widget::text(key, label)
        .with_empty(empty)
        .with(draft.get(key))
}

/// The input for a field of a draft.
pub(super) fn widget(field: &Field, draft: &Draft, bench: &Bench) -> Widget {
    let key = field.key.as_ref();
    let widget = match picks(field, draft, bench) {
        Some(picks) => Widget::choice(key, field.label.as_ref(), picks),
        None => Widget::text(key, field.label.as_ref()),
    };
    let widget = widget.with_empty(field.hint.as_ref()).with(draft.get(key));
    if is_figure(field.kind) {
        widget.giving_way()
    } else {
        widget
    }
}

/// Whether a field holds a figure: one that was taken over is typed anew, not added to. Words and
/// names are often only mended, so they stay.
const fn is_figure(kind: FieldKind) -> bool {
    matches!(
        kind,
        FieldKind::Count
            | FieldKind::Duration
            | FieldKind::Aperture
            | FieldKind::Speed
            | FieldKind::Length
            | FieldKind::Size
            | FieldKind::Temperature
            | FieldKind::Volume
            | FieldKind::Density
            | FieldKind::Dilution
    )
}

/// What is offered for a field: closed for words the program knows, open for names.
fn picks(field: &Field, draft: &Draft, bench: &Bench) -> Option<Choice> {
    let words = |words: &[&str]| words.iter().map(|word| Pick::word(word)).collect();
    match field.kind {
        FieldKind::Choice(choices) => Some(Choice::new(words(choices))),
        FieldKind::YesNo => Some(Choice::new(words(&["yes", "no"]))),
        FieldKind::Film => {
            let films = bench.reference.films().iter();
            let picks = films.map(|film| Pick::word(&film.name)).collect();
            Some(Choice::new(picks).open())
        }
        FieldKind::Paper => {
            let papers = bench.reference.papers().iter();
            let picks = papers.map(|paper| Pick::word(&paper.name)).collect();
            Some(Choice::new(picks).open())
        }
        FieldKind::Process => {
            let processes = bench.reference.processes().iter();
            let picks = processes
                .map(|process| Pick::new(&process.id, &process.name))
                .collect();
            Some(Choice::new(picks))
        }
        FieldKind::Step => Some(Choice::new(steps(draft, bench)).open()),
        FieldKind::Thing(kind) => {
            let picks = things(kind, field, bench);
            (!picks.is_empty()).then(|| Choice::new(picks).open())
        }
        _ => None,
    }
}

fn steps(draft: &Draft, bench: &Bench) -> Vec<Pick> {
    let print = bench
        .store
        .find(&[ThingKind::Print], &tidy_reference(draft.get("print")))
        .and_then(|thing| bench.life(thing));
    let steps = print.as_ref().and_then(|life| {
        let print = life.print()?;
        let process = bench.reference.process(&print.process)?;
        let next = process.next(&print.done());
        let rest = process
            .steps
            .iter()
            .filter(|step| next.iter().all(|other| other.id != step.id));
        Some(
            next.iter()
                .copied()
                .chain(rest)
                .map(|step| Pick::word(&step.id))
                .collect(),
        )
    });
    steps.unwrap_or_default()
}

/// The things of a kind that can be named here, those at hand first.
fn things(kind: ThingKind, field: &Field, bench: &Bench) -> Vec<Pick> {
    let store = &bench.store;
    let references: Vec<String> = match kind {
        ThingKind::Box => store
            .boxes()
            .unwrap_or_default()
            .into_iter()
            .filter(|row| row.left > 0)
            .map(|row| row.reference)
            .collect(),
        ThingKind::Lens => in_use(store.lenses().unwrap_or_default()),
        ThingKind::Camera => in_use(store.cameras().unwrap_or_default()),
        ThingKind::Paper => store
            .papers()
            .unwrap_or_default()
            .into_iter()
            .filter(|row| row.left > 0)
            .map(|row| row.reference)
            .collect(),
        ThingKind::Bath => store
            .baths()
            .unwrap_or_default()
            .into_iter()
            .filter(|row| matches!(row.state.as_str(), "fresh" | "in use"))
            .filter(|row| match field.key.as_ref() {
                "developer" | "stop" | "fixer" => row
                    .purpose
                    .is_none_or(|purpose| purpose.word() == field.key),
                _ => true,
            })
            .map(|row| row.reference)
            .collect(),
        _ => Vec::new(),
    };
    references
        .iter()
        .map(|reference| Pick::word(reference))
        .collect()
}

fn in_use(tools: Vec<crate::store::rows::ToolRow>) -> Vec<String> {
    tools
        .into_iter()
        .filter(|row| row.state == "in use")
        .map(|row| row.reference)
        .collect()
}

/// A few words on the thing a field names, to stand behind it.
pub(super) fn word_on(field: &Field, draft: &Draft, bench: &Bench) -> Option<String> {
    let FieldKind::Thing(kind) = field.kind else {
        return None;
    };
    let thing = bench
        .store
        .find(&[kind], &tidy_reference(draft.get(&field.key)))?;
    let life = bench.life(thing)?;
    match kind {
        ThingKind::Box => {
            let film_box = life.film_box()?;
            Some(format!("{}, {} left", film_box.film, film_box.left))
        }
        ThingKind::Lens => Some(life.lens()?.name.clone()),
        ThingKind::Camera => Some(life.camera()?.name.clone()),
        ThingKind::Bath => Some(life.bath()?.name.clone()),
        ThingKind::Paper => {
            let paper = life.paper()?;
            Some(format!("{}, {} left", paper.name, paper.left))
        }
        ThingKind::Side | ThingKind::Sheet if draft.kind != Kind::Loaded => {
            Some(life.state_word().to_owned())
        }
        _ => None,
    }
}
