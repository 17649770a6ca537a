//! Every sheet, newest first.

use crate::logbook::follows::ago;
use crate::logbook::{Thing, ThingId, ThingKind};
use crate::store::StoreError;
use crate::store::rows::{SheetQuery, SheetRow};
use crate::tui::bench::Bench;
use crate::tui::browse::{Item, KeyNames, PAGE, Source};
use crate::tui::theme::Role;
use crate::tui::widgets::columns::Column;
use crate::tui::widgets::listing::{Piece, Row};

/// Sheets of film.
#[derive(Debug, Clone, Copy)]
pub struct Sheets;

const COLUMNS: &[Column] = &[
    Column::new("", 6),
    Column::new("", 9).ranked(1),
    Column::new("", 10).ranked(2),
    Column::new("", 6).growing(1).ranked(3),
    Column::new("", 7).ranked(4),
    Column::new("", 12).growing(2).ranked(5),
];

impl Source for Sheets {
    fn columns(&self) -> &'static [Column] {
        COLUMNS
    }

    fn noun(&self) -> &'static str {
        "sheet"
    }

    fn empty(&self, keys: &KeyNames<'_>) -> String {
        format!(
            "No sheet yet. A sheet begins when it is loaded: go to the rack ({}), choose a side with the arrows and load it ({}).",
            keys("rack"),
            keys("log.load"),
        )
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
        "being exposed" | "exposed" | "held exposed" | "developing"
    ) {
        (row.state.as_str(), Role::Accent)
    } else {
        (row.state.as_str(), Role::Text)
    };
    let size = row.size.map(|size| size.to_string()).unwrap_or_default();
    let what = if ended { &row.end } else { &row.subject };
    let what = what.as_ref().or(row.place.as_ref()).cloned();
    let (matters, place) = where_it_is(row, bench);
    let plain = if ended { Role::Quiet } else { Role::Text };
    Item {
        thing: Thing::new(ThingKind::Sheet, row.thing),
        row: Row::new(vec![
            Piece::new(&row.reference, plain),
            Piece::new(short_state(state), role),
            Piece::new(matters, plain),
            Piece::new(place, Role::Quiet),
            Piece::new(size, Role::Quiet),
            Piece::new(what.unwrap_or_default(), plain),
        ]),
    }
}

/// A state in the width of its column.
fn short_state(state: &str) -> &str {
    match state {
        "being exposed" => "open",
        "held exposed" => "waiting",
        "developing" => "in a run",
        "thrown away" => "discarded",
        other => other,
    }
}

/// What matters most of a sheet in its state, and what matters next: the side it is in, how long it
/// has waited, its range, how many prints were made, where it lies.
fn where_it_is(row: &SheetRow, bench: &Bench) -> (String, String) {
    let age = row.exposed.map(|at| ago(at, bench.now()));
    let age = age.unwrap_or_default();
    let side = row.side.clone().unwrap_or_default();
    let file = row.file_place.clone().unwrap_or_default();
    if row.doubt {
        return (side, age);
    }
    match row.state.as_str() {
        "loaded" | "being exposed" => (side, String::new()),
        "exposed" => (age, side),
        "held exposed" => (age, String::new()),
        "developing" => (row.run.clone().unwrap_or_default(), String::new()),
        "in box" => (row.film_box.clone().unwrap_or_default(), String::new()),
        "negative" | "filed" => {
            let range = row.range().map(|range| format!("range {range:.2}"));
            let known = match row.prints {
                0 => range.unwrap_or_else(|| "unmeasured".to_owned()),
                1 => "1 print".to_owned(),
                prints => format!("{prints} prints"),
            };
            (known, file)
        }
        _ => (String::new(), String::new()),
    }
}
