//! What stands beside a run that is to begin and needs more than the draft: a developer that is mixed, and
//! the other sheets that wait.

use crate::logbook::follows::{Follow, Weight};
use crate::logbook::life::SheetState;
use crate::logbook::{Draft, Kind, Purpose};
use crate::store::rows::{BathRow, SheetQuery, SheetRow};
use crate::tui::bench::Bench;

/// Most sheets named as waiting.
const MOST: usize = 8;

/// Adds what the logbook knows of the sheets of a run.
pub(super) fn complete(follows: &mut Vec<Follow>, draft: &Draft, bench: &Bench) {
    if draft.kind != Kind::RunBegun {
        return;
    }
    let developers = bench.store.baths_in_use().unwrap_or_default();
    let developer = |row: &BathRow| row.purpose == Some(Purpose::Developer);
    if !developers.iter().any(developer) {
        let words = "no developer is mixed yet: mix a bath first, or log the run without it";
        follows.push(of_weight(Weight::Act, "", words.to_owned()));
    }
    let typed = draft.get("sheets").to_uppercase();
    let mut waiting: Vec<SheetRow> = Vec::new();
    for state in [SheetState::Exposed, SheetState::Held] {
        let query = SheetQuery {
            state: Some(state),
            ..SheetQuery::default()
        };
        waiting.extend(bench.store.sheets(&query).unwrap_or_default());
    }
    waiting.retain(|row| {
        let named = |name: &str| typed.contains(&name.to_uppercase());
        !row.doubt && !named(&row.reference) && !row.side.as_deref().is_some_and(named)
    });
    if waiting.is_empty() {
        return;
    }
    let more = waiting.len().saturating_sub(MOST);
    let mut words: Vec<String> = waiting
        .iter()
        .take(MOST)
        .map(|row| match &row.side {
            Some(side) => format!("{} ({side}) {}", row.reference, row.film),
            None => format!("{} {}", row.reference, row.film),
        })
        .collect();
    if more > 0 {
        words.push(format!("{more} more"));
    }
    follows.push(of_weight(Weight::Plain, "also waiting", words.join("; ")));
}

fn of_weight(weight: Weight, label: &str, value: String) -> Follow {
    Follow {
        label: label.to_owned(),
        value,
        standing: None,
        source: String::new(),
        note: String::new(),
        weight,
    }
}
