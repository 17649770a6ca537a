//! Every sheet, newest first.

use crate::logbook::follows::ago;
use crate::logbook::{Thing, ThingId, ThingKind};
use crate::store::StoreError;
use crate::store::rows::{SheetQuery, SheetRow};
use crate::tui::bench::Bench;
use crate::tui::browse::{Item, PAGE, Source};
use crate::tui::theme::Role;
use crate::tui::widgets::columns::Column;
use crate::tui::widgets::listing::{Piece, Row};

/// Sheets of film.
#[derive(Debug, Clone, Copy)]
pub struct Sheets;

const COLUMNS: &[Column] = &[
    Column::new("", 6),
    Column::new("", 9).ranked(1),
    Column::new("", 8).growing(1).ranked(2),
    Column::new("", 7).ranked(4),
    Column::new("", 12).growing(1).ranked(5),
];

impl Source for Sheets {
    fn columns(&self) -> &'static [Column] {
        COLUMNS
    }

    fn empty(&self) -> &'static str {
        "no sheet yet: go to the rack (2), choose a side and load it"
    }

    fn page(
        &self,
        bench: &Bench,
        find: &str,
        before: Option<ThingId>,
    ) -> Result<Vec<Item>, StoreError> {
        let rows = bench.store.sheets(&SheetQuery {
            find,
            state: None,
            before,
            limit: PAGE,
        })?;
        Ok(rows.iter().map(|row| item(row, bench)).collect())
    }
}

fn item(row: &SheetRow, bench: &Bench) -> Item {
    let ended = matches!(row.state.as_str(), "fogged" | "lost" | "thrown away");
    let (state, role) = if row.doubt {
        ("IN DOUBT", Role::Doubt)
    } else if ended {
        (row.state.as_str(), Role::Quiet)
    } else if matches!(
        row.state.as_str(),
        "exposed" | "held exposed" | "developing"
    ) {
        (row.state.as_str(), Role::Accent)
    } else {
        (row.state.as_str(), Role::Text)
    };
    let size = row.size.map(|size| size.to_string()).unwrap_or_default();
    let what = row.subject.as_ref().or(row.place.as_ref()).cloned();
    let reference = if ended { Role::Quiet } else { Role::Text };
    Item {
        thing: Thing::new(ThingKind::Sheet, row.thing),
        row: Row::new(vec![
            Piece::new(&row.reference, reference),
            Piece::new(short_state(state), role),
            Piece::new(where_it_is(row, bench), Role::Quiet),
            Piece::new(size, Role::Quiet),
            Piece::new(what.unwrap_or_default(), Role::Text),
        ]),
    }
}

/// A state in the width of its column.
fn short_state(state: &str) -> &str {
    match state {
        "held exposed" => "waiting",
        "developing" => "in a run",
        "thrown away" => "discarded",
        other => other,
    }
}

/// What matters most of a sheet in its state: the side it is in, how long it has waited, how many
/// prints were made.
fn where_it_is(row: &SheetRow, bench: &Bench) -> String {
    let age = |at: Option<_>| at.map(|at| ago(at, bench.now())).unwrap_or_default();
    match row.state.as_str() {
        "loaded" => row.side.clone().unwrap_or_default(),
        "exposed" => match &row.side {
            Some(side) => format!("{side}  {}", age(row.exposed)),
            None => age(row.exposed),
        },
        "held exposed" => age(row.exposed),
        "developing" => row.run.clone().unwrap_or_default(),
        _ => match row.prints {
            0 => row.file_place.clone().unwrap_or_default(),
            1 => "1 print".to_owned(),
            prints => format!("{prints} prints"),
        },
    }
}
