//! The rack: every holder drawn as its sides, forty on one page.
//!
//! For: seeing at one glance which sides are empty, loaded (with which film), exposed (and since
//! when), fogged or in doubt. Words first, marks second; nothing is said by colour alone.
//!
//! Promises: a holder is one line as long as it has two sides; magazines take as many lines as they
//! need; the cursor is on a side and always in view.

use chrono::{DateTime, FixedOffset};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use crate::logbook::follows::ago;
use crate::logbook::{Thing, ThingKind};
use crate::store::StoreError;
use crate::store::rows::{HolderRow, SideRow};
use crate::tui::bench::Bench;
use crate::tui::ink::{below, cells, line_of, rest_of, wrap};
use crate::tui::look::Look;
use crate::tui::theme::Role;
use crate::tui::widgets::listing::Step;

/// Cells of one side: its label, a space and its words.
const SIDE: u16 = 17;
/// Cells of one column of holders: the reference and two sides.
const HOLDER: u16 = 6 + 2 * SIDE;

/// One line of a column: part of a holder.
#[derive(Debug, Clone)]
struct Line {
    /// What stands at its left; empty on the further lines of a magazine.
    reference: String,
    /// Up to two sides, by their number among all sides.
    sides: Vec<usize>,
}

/// The holders, and the side the cursor is on.
#[derive(Debug, Default)]
pub struct Rack {
    holders: Vec<HolderRow>,
    sides: Vec<SideRow>,
    lines: Vec<Line>,
    cursor: usize,
    first: usize,
}

impl Rack {
    /// Loads the rack anew; the cursor stays on its side.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn reload(&mut self, bench: &Bench) -> Result<(), StoreError> {
        let on = self.selected();
        self.holders = bench.store.rack()?;
        self.holders.retain(|holder| holder.state == "in use");
        self.sides.clear();
        self.lines.clear();
        for holder in &self.holders {
            let first = self.sides.len();
            self.sides.extend(holder.sides.iter().cloned());
            let numbers: Vec<usize> = (first..self.sides.len()).collect();
            for (at, pair) in numbers.chunks(2).enumerate() {
                self.lines.push(Line {
                    reference: if at == 0 { holder.reference.clone() } else { String::new() },
                    sides: pair.to_vec(),
                });
            }
        }
        if let Some(on) = on {
            self.select(on);
        }
        self.cursor = self.cursor.min(self.sides.len().saturating_sub(1));
        Ok(())
    }

    /// The side under the cursor.
    pub fn selected(&self) -> Option<Thing> {
        self.side().map(|side| Thing::new(ThingKind::Side, side.thing))
    }

    fn side(&self) -> Option<&SideRow> {
        self.sides.get(self.cursor)
    }

    /// Puts the cursor on a side, or on the first side of a holder.
    pub fn select(&mut self, thing: Thing) -> bool {
        let at = match thing.kind {
            ThingKind::Holder => self
                .holders
                .iter()
                .find(|holder| holder.thing == thing.id)
                .and_then(|holder| holder.sides.first())
                .and_then(|first| self.sides.iter().position(|side| side.thing == first.thing)),
            _ => self.sides.iter().position(|side| side.thing == thing.id),
        };
        if let Some(at) = at {
            self.cursor = at;
        }
        at.is_some()
    }

    fn line_of_cursor(&self) -> usize {
        self.lines
            .iter()
            .position(|line| line.sides.contains(&self.cursor))
            .unwrap_or(0)
    }

    /// Moves up and down by lines, keeping to A or B.
    pub fn step(&mut self, step: Step) -> bool {
        let before = self.cursor;
        let at = self.line_of_cursor();
        let within = self
            .lines
            .get(at)
            .and_then(|line| line.sides.iter().position(|side| *side == self.cursor))
            .unwrap_or(0);
        let last = self.lines.len().saturating_sub(1);
        let to = match step {
            Step::Up(lines) => at.saturating_sub(lines),
            Step::Down(lines) => at.saturating_add(lines),
            Step::PageUp => at.saturating_sub(10),
            Step::PageDown => at.saturating_add(10),
            Step::First => 0,
            Step::Last => last,
            Step::To(line) => line,
        }
        .min(last);
        if let Some(line) = self.lines.get(to)
            && let Some(side) = line.sides.get(within).or(line.sides.last())
        {
            self.cursor = *side;
        }
        self.cursor != before
    }

    /// Moves to the neighbouring side in the order of the rack.
    pub fn step_side(&mut self, by: isize) -> bool {
        let before = self.cursor;
        let last = self.sides.len().saturating_sub(1);
        self.cursor = self.cursor.saturating_add_signed(by).min(last);
        self.cursor != before
    }

    /// Moves to the next side in one of these states, around the end.
    pub fn next_in(&mut self, wanted: impl Fn(&SideRow) -> bool) -> bool {
        let count = self.sides.len();
        let found = (1..=count)
            .map(|by| (self.cursor + by) % count.max(1))
            .find(|at| self.sides.get(*at).is_some_and(&wanted));
        match found {
            Some(at) => {
                self.cursor = at;
                true
            }
            None => false,
        }
    }

    fn parts(area: Rect) -> (Rect, Rect) {
        let foot = 4.min(area.height / 3);
        let rack = Rect {
            height: area.height - foot,
            ..area
        };
        (rack, below(area, rack.height))
    }

    fn columns(area: Rect) -> u16 {
        ((area.width.saturating_sub(1)) / (HOLDER + 2)).max(1)
    }

    /// The first line in view and the lines of one column, so that the cursor is in view.
    fn window(&self, area: Rect) -> (usize, usize) {
        let tall = usize::from(area.height).max(1);
        let columns = usize::from(Self::columns(area));
        let room = tall * columns;
        let on = self.line_of_cursor();
        let most = self.lines.len().saturating_sub(room);
        let first = self.first.min(most).clamp((on + 1).saturating_sub(room), on);
        // Lines are spread evenly, so that forty holders do not leave one column half empty.
        let shown = self.lines.len().min(room);
        let even = shown.div_ceil(columns).max(1);
        (first, if first == 0 { even } else { tall })
    }

    /// Tells how large the screen is, so that the window follows the cursor.
    pub fn settle(&mut self, area: Rect) {
        let (rack, _) = Self::parts(area);
        self.first = self.window(rack).0;
    }

    /// Where each side in view is drawn.
    fn places(&self, area: Rect) -> Vec<(usize, Rect)> {
        let (first, tall) = self.window(area);
        let columns = usize::from(Self::columns(area));
        let wide = area.width.saturating_sub(1) / Self::columns(area);
        let mut places = Vec::new();
        for (at, line) in self.lines.iter().skip(first).take(tall * columns).enumerate() {
            let x = area.x + 1 + cells(at / tall) * wide;
            let y = area.y + cells(at % tall);
            if y >= area.bottom() {
                continue;
            }
            let room = (wide.saturating_sub(6 + 2) / 2).max(1);
            for (number, side) in line.sides.iter().enumerate() {
                let place = Rect {
                    x: x + 6 + cells(number) * room,
                    y,
                    width: room,
                    height: 1,
                };
                places.push((*side, place.intersection(area)));
            }
        }
        places
    }

    /// Puts the cursor on the side drawn at `at`.
    pub fn click(&mut self, area: Rect, at: Position) -> bool {
        let (rack, _) = Self::parts(area);
        let hit = self.places(rack).into_iter().find(|(_, place)| place.contains(at));
        if let Some((side, _)) = hit {
            self.cursor = side;
        }
        hit.is_some()
    }

    /// Draws the rack with its count under it, and the side under the cursor in full.
    pub fn render(
        &self,
        area: Rect,
        buf: &mut Buffer,
        look: &Look,
        now: DateTime<FixedOffset>,
    ) -> Option<Position> {
        if self.sides.is_empty() {
            let text = "no holder yet: n adds one; a holder has sides, and a side takes a sheet";
            for (line, text) in area.rows().zip(wrap(text, usize::from(area.width.saturating_sub(2)))) {
                look.put(buf, rest_of(line, 1), &text, Role::Quiet);
            }
            return None;
        }
        let (rack, foot) = Self::parts(area);
        let (first, tall) = self.window(rack);
        let columns = usize::from(Self::columns(rack));
        let wide = rack.width.saturating_sub(1) / Self::columns(rack);
        for (at, line) in self.lines.iter().skip(first).take(tall * columns).enumerate() {
            let place = Rect {
                x: rack.x + 1 + cells(at / tall) * wide,
                y: rack.y + cells(at % tall),
                width: 6,
                height: 1,
            };
            look.put(buf, place.intersection(rack), &line.reference, Role::Heading);
        }
        let mut cursor = None;
        for (side, place) in self.places(rack) {
            let Some(row) = self.sides.get(side) else {
                continue;
            };
            let (words, role) = side_in_words(row, now);
            let line = look.put(buf, place, &format!("{} ", row.label), Role::Quiet);
            look.put(buf, line, &words, role);
            if side == self.cursor {
                look.tint(buf, Rect { width: place.width.saturating_sub(1), ..place }, Role::Selected);
                cursor = Some(place.as_position());
            }
        }
        self.render_foot(foot, buf, look, now);
        cursor
    }

    fn render_foot(&self, foot: Rect, buf: &mut Buffer, look: &Look, now: DateTime<FixedOffset>) {
        look.put_rule(buf, line_of(foot, 0));
        if let Some(side) = self.side() {
            let line = rest_of(line_of(foot, 1), 1);
            let rest = look.put(buf, line, &side.reference, Role::Heading);
            look.put(buf, rest_of(rest, 2), &side_in_full(side, now), Role::Text);
        }
        let line = rest_of(line_of(foot, 2), 1);
        look.put(buf, line, &self.counts(now), Role::Quiet);
    }

    fn counts(&self, now: DateTime<FixedOffset>) -> String {
        let count = |state: &str| self.sides.iter().filter(|side| side.state == state).count();
        let oldest = self.sides.iter().filter_map(|side| side.exposed).min();
        let doubtful = self.sides.iter().filter(|side| side.doubt.is_some()).count();
        let mut words = vec![format!("{} loaded", count("loaded"))];
        words.push(match oldest {
            Some(oldest) => format!("{} exposed, oldest {}", count("exposed"), ago(oldest, now)),
            None => format!("{} exposed", count("exposed")),
        });
        if count("fogged") > 0 {
            words.push(format!("{} fogged", count("fogged")));
        }
        if doubtful > 0 {
            words.push(format!("{doubtful} IN DOUBT"));
        }
        words.push(format!("{} empty", count("empty")));
        words.join("   ")
    }
}

/// What a side holds, in the width of its place.
fn side_in_words(side: &SideRow, now: DateTime<FixedOffset>) -> (String, Role) {
    if side.doubt.is_some() {
        return ("IN DOUBT".to_owned(), Role::Doubt);
    }
    match side.state.as_str() {
        "empty" => ("empty".to_owned(), Role::Quiet),
        "loaded" => {
            let film = side.film.as_deref().map(short_film).unwrap_or_default();
            let speed = side.speed.map(|speed| format!(" {speed}")).unwrap_or_default();
            (format!("{film}{speed}"), Role::Text)
        }
        "exposed" => {
            let age = side.exposed.map(|at| ago(at, now)).unwrap_or_default();
            let times = if side.exposures > 1 { format!(" x{}", side.exposures) } else { String::new() };
            (format!("exposed{times} {age}"), Role::Accent)
        }
        "fogged" => ("fogged".to_owned(), Role::Warn),
        other => (other.to_owned(), Role::Quiet),
    }
}

/// A film's name without what every one of its makers writes behind it.
fn short_film(film: &str) -> String {
    let words: Vec<&str> = film
        .split_whitespace()
        .filter(|word| !matches!(*word, "Plus" | "Professional" | "Film"))
        .collect();
    words.join(" ")
}

/// Everything known of a side, on one line.
fn side_in_full(side: &SideRow, now: DateTime<FixedOffset>) -> String {
    let mut words = vec![side.state.clone()];
    words.extend(side.sheet_reference.clone());
    if let Some(film) = &side.film {
        let speed = side.speed.map(|speed| format!(" @{speed}")).unwrap_or_default();
        words.push(format!("{film}{speed}"));
    }
    if let Some(exposed) = side.exposed {
        words.push(format!("{} ago", ago(exposed, now)));
    }
    words.extend(side.subject.clone());
    match (&side.doubt, side.slide) {
        (Some(doubt), _) => words.push(format!(
            "IN DOUBT: slide seen {} side out {} ago",
            doubt.seen.word(),
            ago(doubt.at, now)
        )),
        (None, Some(slide)) => words.push(format!("slide {} out", slide.word())),
        (None, None) => {}
    }
    words.join("  ")
}
