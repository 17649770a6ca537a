//! What stands on the shelf: boxes, papers, baths, lenses, cameras, findings, and the runs and sets.

use chrono::{DateTime, FixedOffset};

use crate::logbook::follows::ago;
use crate::logbook::{Thing, ThingId, ThingKind};
use crate::store::StoreError;
use crate::store::rows::{BathRow, BoxRow, FindingRow, PaperRow, RunRow, SetRow, ToolRow};
use crate::tui::bench::Bench;
use crate::tui::browse::{Item, KeyNames, PAGE, Source};
use crate::tui::theme::Role;
use crate::tui::widgets::columns::Column;
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
    /// What the user has found out.
    Findings,
    /// Development runs.
    Runs,
    /// Sets of companion sheets.
    Sets,
}

impl Board {
    /// Every board, from the left.
    pub const ALL: [Board; 8] = [
        Board::Boxes,
        Board::Papers,
        Board::Baths,
        Board::Lenses,
        Board::Cameras,
        Board::Findings,
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
            Board::Findings => "findings",
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
            Board::Findings => &Board::Findings,
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
            ThingKind::Finding => Some(Board::Findings),
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

/// What a thing is called, what it is, and what there is of it; then what matters less.
const BOXES: &[Column] = &[
    Column::new("", 5),
    Column::new("", 13).growing(1),
    Column::new("", 8),
    Column::new("", 7).ranked(1),
    Column::new("", 10).growing(1).ranked(2),
    Column::new("", 12).growing(1).ranked(3),
];
const PAPERS: &[Column] = &[
    Column::new("", 6),
    Column::new("", 12).growing(2),
    Column::new("", 8),
    Column::new("", 8).ranked(1),
    Column::new("", 12).growing(2).ranked(2),
    Column::new("", 8).growing(1).ranked(3),
];
const BATHS: &[Column] = &[
    Column::new("", 6),
    Column::new("", 12).growing(2),
    Column::new("", 13).growing(1),
    Column::new("", 10).ranked(2),
    Column::new("", 9).ranked(1),
    Column::new("", 7).ranked(3),
];
const TOOLS: &[Column] = &[
    Column::new("", 5),
    Column::new("", 14).growing(2),
    Column::new("", 8),
    Column::new("", 8).ranked(1),
    Column::new("", 10).ranked(2),
];
const FINDINGS: &[Column] = &[
    Column::new("", 6),
    Column::new("", 14).growing(2),
    Column::new("", 12).growing(3),
    Column::new("", 11).ranked(1),
    Column::new("", 8).ranked(2),
    Column::new("", 10).ranked(3),
];
const RUNS: &[Column] = &[
    Column::new("", 6),
    Column::new("", 11),
    Column::new("", 9).growing(2),
    Column::new("", 8).ranked(1),
    Column::new("", 8).ranked(2),
    Column::new("", 10).growing(1).ranked(3),
];
const SETS: &[Column] = &[
    Column::new("", 6),
    Column::new("", 11),
    Column::new("", 9).growing(2),
    Column::new("", 8).ranked(1),
];

impl Source for Board {
    fn columns(&self) -> &'static [Column] {
        match self {
            Board::Boxes => BOXES,
            Board::Papers => PAPERS,
            Board::Baths => BATHS,
            Board::Lenses | Board::Cameras => TOOLS,
            Board::Findings => FINDINGS,
            Board::Runs => RUNS,
            Board::Sets => SETS,
        }
    }

    fn noun(&self) -> &'static str {
        match self {
            Board::Boxes => "box",
            Board::Papers => "paper",
            Board::Baths => "bath",
            Board::Lenses => "lens",
            Board::Cameras => "camera",
            Board::Findings => "finding",
            Board::Runs => "run",
            Board::Sets => "set",
        }
    }

    fn empty(&self, keys: &KeyNames<'_>) -> String {
        let new = keys("new");
        match self {
            Board::Boxes => format!("No box of film yet: {new} adds one."),
            Board::Papers => format!("No paper yet: {new} adds a stock of it."),
            Board::Baths => format!(
                "No bath yet: {new} mixes one. Developer, stop bath and fixer, sensitizers and clearing baths are baths."
            ),
            Board::Lenses => format!("No lens yet: {new} adds one."),
            Board::Cameras => format!("No camera yet: {new} adds one."),
            Board::Findings => format!(
                "Nothing found out yet: {new} keeps what a filter takes, the time a film needs, a film or a format of your own, the light of a scene, the meter, a place. Figures go by it before anything published."
            ),
            Board::Runs => format!(
                "No run yet. Sheets are developed in a run: choose an exposed sheet ({}) or side ({}) and begin one ({}).",
                keys("sheets"),
                keys("rack"),
                keys("log.develop"),
            ),
            Board::Sets => format!(
                "No companion sheets yet. Two sheets of one subject are linked from one of them ({}, then {}).",
                keys("sheets"),
                keys("next"),
            ),
        }
    }

    fn page(
        &self,
        bench: &Bench,
        find: &str,
        before: Option<ThingId>,
    ) -> Result<Vec<Item>, StoreError> {
        if find.trim().is_empty()
            && let Some(page) = self.items_before(before, bench)?
        {
            return Ok(page);
        }
        // What is left is short enough to be read whole, or has to be to be narrowed.
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
    /// A page of what becomes long in some years.
    fn items_before(
        self,
        before: Option<ThingId>,
        bench: &Bench,
    ) -> Result<Option<Vec<Item>>, StoreError> {
        let store = &bench.store;
        let now = bench.now();
        Ok(match self {
            Board::Baths => {
                let rows = store.baths_before(before, PAGE)?.into_iter();
                Some(rows.map(|row| a_bath(row, now)).collect())
            }
            Board::Runs => {
                let rows = store.runs_before(before, PAGE)?.into_iter();
                Some(rows.map(|row| a_run(row, now)).collect())
            }
            Board::Sets => {
                let rows = store.sets_before(before, PAGE)?.into_iter();
                Some(rows.map(|row| a_set(row, now)).collect())
            }
            Board::Boxes | Board::Papers | Board::Lenses | Board::Cameras | Board::Findings => None,
        })
    }

    fn items(self, bench: &Bench) -> Result<Vec<Item>, StoreError> {
        let store = &bench.store;
        let now = bench.now();
        Ok(match self {
            Board::Boxes => store.boxes()?.into_iter().map(a_box).collect(),
            Board::Papers => store.papers()?.into_iter().map(a_paper).collect(),
            Board::Baths => {
                let rows = store.baths()?.into_iter();
                rows.map(|row| a_bath(row, now)).collect()
            }
            Board::Lenses => {
                let rows = store.lenses()?.into_iter();
                rows.map(|row| a_tool(ThingKind::Lens, row, now)).collect()
            }
            Board::Cameras => {
                let rows = store.cameras()?.into_iter();
                rows.map(|row| a_tool(ThingKind::Camera, row, now))
                    .collect()
            }
            Board::Findings => {
                let rows = store.found()?.into_iter();
                rows.map(|row| a_finding(row, now)).collect()
            }
            Board::Runs => {
                let rows = store.runs()?.into_iter();
                rows.map(|row| a_run(row, now)).collect()
            }
            Board::Sets => {
                let rows = store.sets()?.into_iter();
                rows.map(|row| a_set(row, now)).collect()
            }
        })
    }
}

type Moment = DateTime<FixedOffset>;

fn said<T: ToString>(value: Option<T>) -> String {
    value.map(|value| value.to_string()).unwrap_or_default()
}

fn age(then: Option<Moment>, now: Moment) -> String {
    then.map(|then| ago(then, now)).unwrap_or_default()
}

/// A line: reference, what it is, what there is of it, and the rest quietly. What is over steps back
/// as a whole.
fn line(kind: ThingKind, thing: ThingId, pieces: Vec<(String, Role)>, over: bool) -> Item {
    let pieces = pieces.into_iter().map(|(text, role)| {
        let role = if over { Role::Quiet } else { role };
        Piece::new(text, role)
    });
    Item {
        thing: Thing::new(kind, thing),
        row: Row::new(pieces.collect()),
    }
}

fn left(count: u32) -> String {
    match count {
        0 => "none".to_owned(),
        count => format!("{count} left"),
    }
}

fn a_box(row: BoxRow) -> Item {
    let film = match row.speed {
        Some(speed) => format!("{} @{speed}", row.film),
        None => row.film,
    };
    let pieces = vec![
        (row.reference, Role::Text),
        (film, Role::Text),
        (left(row.left), Role::Text),
        (said(row.size), Role::Quiet),
        (row.emulsion.unwrap_or_default(), Role::Quiet),
        (row.kept.unwrap_or_default(), Role::Quiet),
    ];
    line(ThingKind::Box, row.thing, pieces, row.left == 0)
}

fn a_paper(row: PaperRow) -> Item {
    let pieces = vec![
        (row.reference, Role::Text),
        (row.name, Role::Text),
        (left(row.left), Role::Text),
        (said(row.size), Role::Quiet),
        (row.sort.unwrap_or_default(), Role::Quiet),
        (row.batch.unwrap_or_default(), Role::Quiet),
    ];
    line(ThingKind::Paper, row.thing, pieces, row.left == 0)
}

fn a_bath(row: BathRow, now: Moment) -> Item {
    let over = matches!(row.state.as_str(), "used up" | "thrown away");
    let wear = row.wear();
    let today = now.date_naive();
    let role = match wear.warnings(today).is_empty() {
        true => Role::Text,
        false => Role::Warn,
    };
    let used = match row.state.as_str() {
        "thrown away" => "gone".to_owned(),
        "used up" => "used up".to_owned(),
        _ => {
            let bar = wear.bar().map(|bar| format!("{bar} ")).unwrap_or_default();
            format!("{bar}{}", wear.in_short())
        }
    };
    let days = match wear.days_left(today) {
        _ if over => age(row.mixed, now),
        None => age(row.mixed, now),
        Some(..=0) => "too old".to_owned(),
        Some(1) => "last day".to_owned(),
        Some(days) => format!("{days} d left"),
    };
    let name = match &row.dilution {
        Some(dilution) => format!("{} {dilution}", row.name),
        None => row.name.clone(),
    };
    let purpose = row.purpose.map(|purpose| purpose.word().to_owned());
    let pieces = vec![
        (row.reference, Role::Text),
        (name, Role::Text),
        (used, role),
        (purpose.unwrap_or_default(), Role::Quiet),
        (days, if over { Role::Quiet } else { role }),
        (said(row.volume), Role::Quiet),
    ];
    line(ThingKind::Bath, row.thing, pieces, over)
}

fn a_tool(kind: ThingKind, row: ToolRow, now: Moment) -> Item {
    let over = row.state != "in use";
    let used = match row.exposures {
        0 => "unused".to_owned(),
        1 => "1 sheet".to_owned(),
        more => format!("{more} exp."),
    };
    let pieces = vec![
        (row.reference, Role::Text),
        (row.name, Role::Text),
        (used, Role::Text),
        (age(row.used, now), Role::Quiet),
        (row.state, Role::Quiet),
    ];
    line(kind, row.thing, pieces, over)
}

fn a_finding(row: FindingRow, now: Moment) -> Item {
    let over = row.state != "kept";
    let age = age(row.found, now);
    let pieces = vec![
        (row.reference, Role::Text),
        (row.about, Role::Text),
        (row.says, Role::Text),
        (row.sort, Role::Quiet),
        (age, Role::Quiet),
        (row.state, Role::Quiet),
    ];
    line(ThingKind::Finding, row.thing, pieces, over)
}

fn a_run(row: RunRow, now: Moment) -> Item {
    let (now_is, role) = if row.ended.is_some() {
        (said(row.time), Role::Text)
    } else {
        (row.state.clone(), Role::Accent)
    };
    let pieces = vec![
        (row.reference, Role::Text),
        (now_is, role),
        (row.sheets.join(" "), Role::Text),
        (age(row.begun, now), Role::Quiet),
        (said(row.developer), Role::Quiet),
        (row.vessel.unwrap_or_default(), Role::Quiet),
    ];
    line(ThingKind::Run, row.thing, pieces, false)
}

fn a_set(row: SetRow, now: Moment) -> Item {
    let bond = row.bond.map(|bond| bond.word().to_owned());
    let pieces = vec![
        (row.reference, Role::Text),
        (bond.unwrap_or_default(), Role::Quiet),
        (row.sheets.join(" "), Role::Text),
        (age(row.born, now), Role::Quiet),
    ];
    line(ThingKind::Set, row.thing, pieces, false)
}
