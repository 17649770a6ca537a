//! The field of each question, with the words that can be offered for it.

use crate::figures::{Ask, Book, Recipe};
use crate::logbook::tidy_reference;
use crate::store::rows::ToolRow;
use crate::tui::bench::Bench;
use crate::tui::widgets::choice::{Choice, Pick};
use crate::tui::widgets::field::Field;

/// The field of a question, filled with what was typed.
pub(super) fn widget(ask: &Ask, recipe: &Recipe, typed: &str, bench: &Bench) -> Field {
    let field = match choice(ask.book, bench) {
        Some(choice) => Field::choice(ask.key, ask.label, choice),
        None => Field::text(ask.key, ask.label),
    };
    let example = recipe.example.iter().find(|(key, _)| *key == ask.key);
    // A hint ends with an example of its own.
    let in_hint = || {
        ask.hint
            .rsplit_once(", ")
            .map_or(ask.hint, |(_, last)| last)
    };
    let shown = example.map_or_else(in_hint, |(_, text)| *text);
    field.with_empty(shown).with(typed).giving_way()
}

/// What is offered. Names of the reference and of the logbook are found by their letters, and what
/// finds nothing stays as it is typed, for the figure to judge.
fn choice(book: Book, bench: &Bench) -> Option<Choice> {
    let lower: fn(&str) -> String = |text| text.trim().to_lowercase();
    let reference = &bench.reference;
    let (picks, tidy): (Vec<Pick>, fn(&str) -> String) = match book {
        Book::None => return None,
        Book::Choice(words) => {
            let picks = words.iter().map(|word| Pick::word(word));
            return Some(Choice::new(picks.collect()));
        }
        Book::Films => {
            let films = reference.films().iter();
            (films.map(|film| Pick::word(&film.name)).collect(), lower)
        }
        Book::Developers => {
            let developers = reference.developers().iter();
            let picks = developers.map(|developer| Pick::word(&developer.name));
            (picks.collect(), lower)
        }
        Book::Formats => {
            let formats = reference.formats().iter();
            let picks = formats.map(|format| Pick::word(&format.id));
            (picks.collect(), lower)
        }
        Book::Lenses => (
            tools(bench.store.lenses().unwrap_or_default()),
            tidy_reference,
        ),
        Book::Cameras => (
            tools(bench.store.cameras().unwrap_or_default()),
            tidy_reference,
        ),
        Book::Filters => {
            let own = bench.findings().filters.into_iter().map(|one| one.filter);
            let printed = reference.filters().iter().map(|one| one.name.clone());
            (distinct(own.chain(printed)), lower)
        }
        Book::Scenes => {
            let own = bench.findings().scenes.into_iter().map(|one| one.scene);
            let printed = reference.scenes().iter().map(|one| one.name.clone());
            (distinct(own.chain(printed)), lower)
        }
        Book::Places => {
            let places = bench.findings().places.into_iter();
            (distinct(places.map(|place| place.name)), lower)
        }
    };
    (!picks.is_empty()).then(|| Choice::new(picks).found_by(tidy))
}

/// Names, each once, in the order in which they come.
fn distinct(names: impl Iterator<Item = String>) -> Vec<Pick> {
    let mut picks: Vec<Pick> = Vec::new();
    for name in names {
        if picks.iter().all(|pick| pick.value != name) {
            picks.push(Pick::word(&name));
        }
    }
    picks
}

fn tools(rows: Vec<ToolRow>) -> Vec<Pick> {
    rows.iter()
        .filter(|row| row.state == "in use")
        .map(|row| Pick::new(&row.reference, format!("{}  {}", row.reference, row.name)))
        .collect()
}
