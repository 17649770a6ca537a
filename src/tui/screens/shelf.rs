//! What stands on the shelf: boxes, papers, baths, lenses, cameras, and the runs and sets.

use crate::logbook::follows::ago;
use crate::logbook::{Thing, ThingId, ThingKind};
use crate::store::StoreError;
use crate::tui::bench::Bench;
use crate::tui::browse::{Item, Source};
use crate::tui::theme::Role;
use crate::tui::widgets::columns::{Align, Column};
use crate::tui::widgets::listing::{Piece, Row};

/// One board of the shelf.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Board {
    /// Boxes of film.
    #[default]
    Boxes,
    /// Stocks of paper.
    Papers,
    /// Baths.
    Baths,
    /// Lenses.
    Lenses,
    /// Cameras.
    Cameras,
    /// Development runs.
    Runs,
    /// Sets of companion sheets.
    Sets,
}

impl Board {
    /// Every board, from the left.
    pub const ALL: [Board; 7] = [
        Board::Boxes,
        Board::Papers,
        Board::Baths,
        Board::Lenses,
        Board::Cameras,
        Board::Runs,
        Board::Sets,
    ];

    /// Its name.
    pub const fn word(self) -> &'static str {
        match self {
            Board::Boxes => "boxes",
            Board::Papers => "papers",
            Board::Baths => "baths",
            Board::Lenses => "lenses",
            Board::Cameras => "cameras",
            Board::Runs => "runs",
            Board::Sets => "sets",
        }
    }

    /// Itself, for as long as the program runs.
    pub const fn source(self) -> &'static dyn Source {
        match self {
            Board::Boxes => &Board::Boxes,
            Board::Papers => &Board::Papers,
            Board::Baths => &Board::Baths,
            Board::Lenses => &Board::Lenses,
            Board::Cameras => &Board::Cameras,
            Board::Runs => &Board::Runs,
            Board::Sets => &Board::Sets,
        }
    }

    /// The board a kind of thing stands on.
    pub const fn of(kind: ThingKind) -> Option<Board> {
        match kind {
            ThingKind::Box => Some(Board::Boxes),
            ThingKind::Paper => Some(Board::Papers),
            ThingKind::Bath => Some(Board::Baths),
            ThingKind::Lens => Some(Board::Lenses),
            ThingKind::Camera => Some(Board::Cameras),
            ThingKind::Run => Some(Board::Runs),
            ThingKind::Set => Some(Board::Sets),
            _ => None,
        }
    }

    /// The board `by` places to the right.
    pub fn step(self, by: isize) -> Board {
        let count = Board::ALL.len();
        let at = Board::ALL
            .iter()
            .position(|board| *board == self)
            .unwrap_or(0);
        let by = by
            .rem_euclid(isize::try_from(count).unwrap_or(1))
            .unsigned_abs();
        Board::ALL[(at + by) % count]
    }
}

const COLUMNS: &[Column] = &[
    Column::new("", 6),
    Column::new("", 14).growing(2).ranked(1),
    Column::new("", 9).ranked(2),
    Column::new("", 8).aligned(Align::Right).ranked(3),
    Column::new("", 10).growing(1).ranked(4),
];

impl Source for Board {
    fn columns(&self) -> &'static [Column] {
        COLUMNS
    }

    fn empty(&self) -> &'static str {
        match self {
            Board::Boxes => "no box of film yet: n adds one",
            Board::Papers => "no paper yet: n adds a stock",
            Board::Baths => "no bath yet: n mixes one",
            Board::Lenses => "no lens yet: n adds one",
            Board::Cameras => "no camera yet: n adds one",
            Board::Runs => "no run yet: choose exposed sheets and develop them",
            Board::Sets => "no companion sheets yet: choose a sheet and link it to another",
        }
    }

    fn page(
        &self,
        bench: &Bench,
        find: &str,
        before: Option<ThingId>,
    ) -> Result<Vec<Item>, StoreError> {
        // A shelf is short enough to be read whole.
        if before.is_some() {
            return Ok(Vec::new());
        }
        let words: Vec<String> = find.split_whitespace().map(str::to_lowercase).collect();
        let mut items = self.items(bench)?;
        items.retain(|item| {
            let text: Vec<String> = item
                .row
                .pieces
                .iter()
                .map(|piece| piece.text.to_lowercase())
                .collect();
            words
                .iter()
                .all(|word| text.iter().any(|text| text.contains(word.as_str())))
        });
        Ok(items)
    }
}

impl Board {
    fn items(self, bench: &Bench) -> Result<Vec<Item>, StoreError> {
        let store = &bench.store;
        let age = |at: Option<_>| at.map(|at| ago(at, bench.now())).unwrap_or_default();
        let items = match self {
            Board::Boxes => {
                let row = |row: crate::store::rows::BoxRow| {
                    let size = row.size.map(|size| size.to_string()).unwrap_or_default();
                    let left = format!("{} left", row.left);
                    let emulsion = row.emulsion.unwrap_or_default();
                    line(
                        ThingKind::Box,
                        row.thing,
                        &row.reference,
                        [row.film, size, left, emulsion],
                        row.left == 0,
                    )
                };
                store.boxes()?.into_iter().map(row).collect()
            }
            Board::Papers => {
                let row = |row: crate::store::rows::PaperRow| {
                    let size = row.size.map(|size| size.to_string()).unwrap_or_default();
                    let left = format!("{} left", row.left);
                    let sort = row.sort.unwrap_or_default();
                    line(
                        ThingKind::Paper,
                        row.thing,
                        &row.reference,
                        [row.name, size, left, sort],
                        row.left == 0,
                    )
                };
                store.papers()?.into_iter().map(row).collect()
            }
            Board::Baths => {
                let row = |row: crate::store::rows::BathRow| {
                    let used = match row.capacity {
                        Some(capacity) => format!("{} of {capacity}", row.uses),
                        None => format!("{} used", row.uses),
                    };
                    let dilution = row
                        .dilution
                        .as_ref()
                        .map(ToString::to_string)
                        .unwrap_or_default();
                    let over = matches!(row.state.as_str(), "used up" | "thrown away");
                    let name = format!("{} {dilution}", row.name);
                    let state = format!("{}, {}", row.state, age(row.mixed));
                    let purpose = row
                        .purpose
                        .map(|purpose| purpose.word().to_owned())
                        .unwrap_or_default();
                    line(
                        ThingKind::Bath,
                        row.thing,
                        &row.reference,
                        [name, purpose, used, state],
                        over,
                    )
                };
                store.baths()?.into_iter().map(row).collect()
            }
            Board::Lenses => tools(ThingKind::Lens, store.lenses()?, &age),
            Board::Cameras => tools(ThingKind::Camera, store.cameras()?, &age),
            Board::Runs => {
                let row = |row: crate::store::rows::RunRow| {
                    let time = row.time.map(|time| time.to_string()).unwrap_or_default();
                    let developer = row.developer.unwrap_or_default();
                    let state = format!("{}, {}", row.state, age(row.begun));
                    line(
                        ThingKind::Run,
                        row.thing,
                        &row.reference,
                        [row.sheets.join(" "), developer, time, state],
                        false,
                    )
                };
                store.runs()?.into_iter().map(row).collect()
            }
            Board::Sets => {
                let row = |row: crate::store::rows::SetRow| {
                    let bond = row
                        .bond
                        .and_then(|bond| serde_json::to_value(bond).ok())
                        .and_then(|bond| bond.as_str().map(str::to_owned))
                        .unwrap_or_default();
                    line(
                        ThingKind::Set,
                        row.thing,
                        &row.reference,
                        [row.sheets.join(" "), bond, String::new(), age(row.born)],
                        false,
                    )
                };
                store.sets()?.into_iter().map(row).collect()
            }
        };
        Ok(items)
    }
}

fn tools(
    kind: ThingKind,
    rows: Vec<crate::store::rows::ToolRow>,
    age: &dyn Fn(Option<chrono::DateTime<chrono::FixedOffset>>) -> String,
) -> Vec<Item> {
    let row = |row: crate::store::rows::ToolRow| {
        let exposures = format!("{} exp.", row.exposures);
        let over = row.state != "in use";
        line(
            kind,
            row.thing,
            &row.reference,
            [row.name, row.state, exposures, age(row.used)],
            over,
        )
    };
    rows.into_iter().map(row).collect()
}

fn line(kind: ThingKind, thing: ThingId, reference: &str, rest: [String; 4], over: bool) -> Item {
    let role = if over { Role::Quiet } else { Role::Text };
    let mut pieces = vec![Piece::new(reference, role)];
    let roles = [role, Role::Quiet, role, Role::Quiet];
    pieces.extend(
        rest.into_iter()
            .zip(roles)
            .map(|(text, role)| Piece::new(text, role)),
    );
    Item {
        thing: Thing::new(kind, thing),
        row: Row::new(pieces),
    }
}
