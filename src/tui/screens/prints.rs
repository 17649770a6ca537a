//! Every print, newest first.

use crate::logbook::{Thing, ThingId, ThingKind};
use crate::store::StoreError;
use crate::store::rows::{PrintQuery, PrintRow};
use crate::tui::bench::Bench;
use crate::tui::browse::{Item, KeyNames, PAGE, Source};
use crate::tui::theme::Role;
use crate::tui::widgets::columns::Column;
use crate::tui::widgets::listing::{Piece, Row};

/// Prints.
#[derive(Debug, Clone, Copy)]
pub struct Prints;

const COLUMNS: &[Column] = &[
    Column::new("", 6),
    Column::new("", 9).ranked(1),
    Column::new("", 11).ranked(0),
    Column::new("", 12).growing(2).ranked(3),
    Column::new("", 7).ranked(4),
    Column::new("", 12).growing(1).ranked(5),
];

impl Source for Prints {
    fn columns(&self) -> &'static [Column] {
        COLUMNS
    }

    fn noun(&self) -> &'static str {
        "print"
    }

    fn empty(&self, keys: &KeyNames<'_>) -> String {
        format!(
            "No print yet. A print begins from a negative: choose one among the sheets ({}) and begin it ({}). Once a sheet is developed it is a negative.",
            keys("sheets"),
            keys("log.print"),
        )
    }

    fn page(
        &self,
        bench: &Bench,
        find: &str,
        before: Option<ThingId>,
    ) -> Result<Vec<Item>, StoreError> {
        let rows = bench.store.prints(&PrintQuery {
            find,
            state: None,
            before,
            limit: PAGE,
        })?;
        Ok(rows.iter().map(|row| item(row, bench)).collect())
    }
}

fn item(row: &PrintRow, bench: &Bench) -> Item {
    let ended = matches!(row.state.as_str(), "spoiled" | "lost" | "thrown away");
    let role = if ended { Role::Quiet } else { Role::Text };
    let process = bench.reference.process(&row.process);
    let process = process.map_or(row.process.as_str(), |process| process.short.as_str());
    // The step that was done last says how far a print has come.
    let (now, now_role) = match (row.whereabouts, row.state.as_str()) {
        (Some(whereabouts), _) if !ended => (whereabouts.word(), Role::Text),
        (_, "in process") => match &row.last_step {
            Some(step) => (step.as_str(), Role::Accent),
            None => ("begun", Role::Accent),
        },
        (_, "thrown away") => ("discarded", role),
        (_, state) => (state, role),
    };
    let title = row.title.as_ref().or(row.subject.as_ref()).cloned();
    Item {
        thing: Thing::new(ThingKind::Print, row.thing),
        row: Row::new(vec![
            Piece::new(&row.reference, role),
            Piece::new(process, Role::Quiet),
            Piece::new(now, now_role),
            Piece::new(title.unwrap_or_default(), role),
            Piece::new(row.negatives.join(" "), Role::Quiet),
            Piece::new(row.place.clone().unwrap_or_default(), Role::Quiet),
        ]),
    }
}
