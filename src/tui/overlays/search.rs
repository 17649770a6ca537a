//! The whole logbook, searched as you type, newest first.

use crossterm::event::KeyEvent;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use crate::logbook::{Thing, ThingKind};
use crate::store::StoreError;
use crate::store::rows::{Hit, Named};
use crate::tui::bench::Bench;
use crate::tui::ink::{below, line_of, rest_of};
use crate::tui::look::Look;
use crate::tui::theme::Role;
use crate::tui::timeline::word;
use crate::tui::widgets::Reaction;
use crate::tui::widgets::columns::Column;
use crate::tui::widgets::input::TextInput;
use crate::tui::widgets::listing::{Listing, Loaded, Piece, Row, Step};
use crate::tui::widgets::overlay::Overlay;

/// Hits that are asked for at once.
const HITS: usize = 50;

const COLUMNS: &[Column] = &[
    Column::new("", 11),
    Column::new("", 11).ranked(1),
    Column::new("", 20).growing(1),
];

/// The words and what was found.
#[derive(Debug, Default)]
pub struct Search {
    typed: TextInput,
    hits: Vec<Hit>,
    rows: Vec<Row>,
    listing: Listing,
    more: bool,
}

impl Search {
    /// Moves the cursor, loading further hits where it comes near the end.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn step(&mut self, step: Step, bench: &Bench) -> Result<(), StoreError> {
        self.listing.step(step);
        let near_end = self
            .listing
            .cursor()
            .is_some_and(|at| at + 5 >= self.hits.len());
        if near_end && self.more {
            self.load(bench)?;
        }
        Ok(())
    }

    /// Puts the cursor on the hit drawn at `at`; returns whether it was on it already.
    pub fn click(&mut self, area: Rect, at: Position) -> Option<bool> {
        let inner = frame(area).inner(area);
        let before = self.listing.cursor();
        let hit = self.listing.click(below(inner, 2), COLUMNS, at)?;
        Some(before == Some(hit))
    }

    /// Tells how large the screen is.
    pub fn settle(&mut self, area: Rect) {
        let inner = frame(area).inner(area);
        self.listing.set_height(below(inner, 2).height);
    }

    /// Takes a key.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn key(&mut self, key: &KeyEvent, bench: &Bench) -> Result<Reaction, StoreError> {
        let reaction = self.typed.key(key);
        if reaction == Reaction::Changed {
            self.begin(bench)?;
        }
        Ok(reaction)
    }

    /// Takes a paste.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn paste(&mut self, text: &str, bench: &Bench) -> Result<(), StoreError> {
        self.typed.paste(text);
        self.begin(bench)
    }

    fn begin(&mut self, bench: &Bench) -> Result<(), StoreError> {
        self.hits.clear();
        self.rows.clear();
        self.listing = Listing::default();
        self.more = !self.typed.text().trim().is_empty();
        if self.more { self.load(bench) } else { Ok(()) }
    }

    fn load(&mut self, bench: &Bench) -> Result<(), StoreError> {
        let before = self.hits.last().map(|hit| hit.row);
        let found = bench
            .store
            .search(self.typed.text(), before, HITS, &bench.reference)?;
        self.more = found.len() == HITS;
        self.rows.extend(found.iter().map(row));
        self.hits.extend(found);
        self.listing.set_total(self.hits.len());
        Ok(())
    }

    /// Where the hit under the cursor leads to: the print or sheet it is about, else the first thing
    /// it touches; and the number of its entry.
    pub fn selected(&self) -> Option<(Thing, i64)> {
        let hit = self.hits.get(self.listing.cursor()?)?;
        let named = about(hit)?;
        Some((named.thing, hit.row))
    }

    /// Draws words and hits and returns where the cursor belongs.
    pub fn render(&self, area: Rect, buf: &mut Buffer, look: &Look) -> Option<Position> {
        let inner = frame(area).render(area, buf, look);
        let line = line_of(inner, 0);
        let rest = look.put(buf, line, "find ", Role::Accent);
        let cursor = self.typed.render(
            rest,
            buf,
            look,
            true,
            "a word, a name, a place, a reference",
        );
        look.put_rule(buf, line_of(inner, 1));
        let empty = if self.typed.is_empty() {
            "every entry and every note, the newest first; the beginning of a word is enough"
        } else {
            "no entry has all these words"
        };
        let loaded = Loaded {
            first: 0,
            rows: &self.rows,
        };
        self.listing
            .render(below(inner, 2), buf, look, COLUMNS, loaded, false, empty);
        if let Some(at) = self.listing.cursor() {
            let body = below(inner, 2);
            let window = self.listing.window(body.height);
            let y = at.saturating_sub(window.start);
            let line = line_of(body, crate::tui::ink::cells(y));
            look.tint(buf, rest_of(line, 1), Role::Selected);
        }
        cursor
    }
}

/// What a hit is about: a print, else a sheet, else the first thing it touches.
fn about(hit: &Hit) -> Option<&Named> {
    let of_kind = |kind: ThingKind| hit.things.iter().find(|named| named.thing.kind == kind);
    of_kind(ThingKind::Print)
        .or_else(|| of_kind(ThingKind::Sheet))
        .or(hit.things.first())
}

fn frame(area: Rect) -> Overlay<'static> {
    Overlay {
        title: "search the logbook",
        foot: "",
        inner: (area.width.saturating_sub(6), area.height.saturating_sub(4)),
    }
}

fn row(hit: &Hit) -> Row {
    // What the figures name already is not named before them.
    let thing = about(hit).map(|named| named.reference.as_str());
    let mut text = match thing.filter(|reference| !hit.headline.contains(reference)) {
        Some(reference) => format!("{reference}  {}", hit.headline),
        None => hit.headline.clone(),
    };
    if let Some(note) = &hit.note {
        text.push_str("  ");
        text.push_str(note);
    }
    let word = if hit.struck { "struck" } else { word(hit.kind) };
    let mut row = Row::new(vec![
        Piece::new(hit.happened.format("%d %b %Y").to_string(), Role::Quiet),
        Piece::new(word, Role::Accent),
        Piece::new(text, Role::Text),
    ]);
    row.struck = hit.struck;
    row
}
