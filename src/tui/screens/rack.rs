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

use crate::logbook::follows::{ago, since};
use crate::logbook::{Thing, ThingKind};
use crate::store::StoreError;
use crate::store::rows::SideRow;
use crate::tui::bench::Bench;
use crate::tui::ink::{below, cells, line_of, rest_of, rest_of_all, wrap};
use crate::tui::look::Look;
use crate::tui::theme::Role;
use crate::tui::widgets::grid::{Grid, Way};

/// Cells of a holder's reference.
const NAME: u16 = 7;
/// The least cells of a line: the reference and two sides.
const LEAST: u16 = NAME + 2 * 16;

/// One line of the rack: a holder with two sides, or two septums of a magazine.
#[derive(Debug, Clone)]
struct Line {
    /// What stands at its left; empty on the further lines of a magazine.
    reference: String,
    /// One or two sides.
    sides: Vec<SideRow>,
}

/// The holders, and the side the cursor is on.
#[derive(Debug, Default)]
pub struct Rack {
    lines: Vec<Line>,
    grid: Grid,
    area: Rect,
}

impl Rack {
    /// Loads the rack anew; the cursor stays on its side.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn reload(&mut self, bench: &Bench) -> Result<(), StoreError> {
        let on = self.selected();
        self.lines.clear();
        let holders = bench.store.rack()?;
        for holder in holders
            .into_iter()
            .filter(|holder| holder.state == "in use")
        {
            for (at, pair) in holder.sides.chunks(2).enumerate() {
                let first = at == 0;
                self.lines.push(Line {
                    reference: if first {
                        holder.reference.clone()
                    } else {
                        String::new()
                    },
                    sides: pair.to_vec(),
                });
            }
        }
        if self.grid.cursor().is_none() {
            self.grid = Grid::new(self.lines.len(), 2);
        }
        self.grid.set_count(self.lines.len());
        if let Some(on) = on {
            self.select(on);
        }
        Ok(())
    }

    /// The side under the cursor.
    pub fn selected(&self) -> Option<Thing> {
        self.side()
            .map(|side| Thing::new(ThingKind::Side, side.thing))
    }

    fn side(&self) -> Option<&SideRow> {
        let (line, part) = self.grid.cursor()?;
        let sides = &self.lines.get(line)?.sides;
        sides.get(part).or(sides.last())
    }

    fn sides(&self) -> impl Iterator<Item = (usize, usize, &SideRow)> {
        self.lines.iter().enumerate().flat_map(|(at, line)| {
            line.sides
                .iter()
                .enumerate()
                .map(move |(part, side)| (at, part, side))
        })
    }

    /// Puts the cursor on a side.
    pub fn select(&mut self, thing: Thing) -> bool {
        let at = self
            .sides()
            .find(|(_, _, side)| side.thing == thing.id)
            .map(|(line, part, _)| (line, part));
        if let Some((line, part)) = at {
            self.grid.select(line, part);
        }
        at.is_some()
    }

    /// Moves the cursor.
    pub fn step(&mut self, way: Way) -> bool {
        let shape = self.grid.shape(Self::parts(self.area).0, LEAST);
        self.grid.step(shape, way)
    }

    /// Moves to the next side for which `wanted` holds, around the end.
    pub fn next_in(&mut self, wanted: impl Fn(&SideRow) -> bool) -> bool {
        let sides: Vec<(usize, usize, bool)> = self
            .sides()
            .map(|(line, part, side)| (line, part, wanted(side)))
            .collect();
        let cursor = self.grid.cursor();
        let on = sides
            .iter()
            .position(|(line, part, _)| Some((*line, *part)) == cursor)
            .unwrap_or(0);
        let (before, after) = sides.split_at((on + 1).min(sides.len()));
        let found = after.iter().chain(before).find(|(_, _, wanted)| *wanted);
        if let Some((line, part, _)) = found {
            self.grid.select(*line, *part);
        }
        found.is_some()
    }

    fn parts(area: Rect) -> (Rect, Rect) {
        let foot = 3.min(area.height / 3);
        let rack = Rect {
            height: area.height - foot,
            ..area
        };
        (rest_of_all(rack, 1), below(area, rack.height))
    }

    /// Tells how large the screen is, so that the window follows the cursor.
    pub fn settle(&mut self, area: Rect) {
        self.area = area;
        let shape = self.grid.shape(Self::parts(area).0, LEAST);
        self.grid.settle(shape);
    }

    /// Puts the cursor on the side drawn at `at`.
    pub fn click(&mut self, area: Rect, at: Position) -> bool {
        let rack = Self::parts(area).0;
        let shape = self.grid.shape(rack, LEAST);
        self.grid.click(rack, shape, at, |place, x| {
            usize::from(x >= NAME + (place.width.saturating_sub(NAME)) / 2)
        })
    }

    /// Draws the rack with its count under it, and the side under the cursor in full.
    pub fn render(
        &self,
        area: Rect,
        buf: &mut Buffer,
        look: &Look,
        now: DateTime<FixedOffset>,
    ) -> Option<Position> {
        if self.lines.is_empty() {
            let text = "no holder yet: n adds one; a holder has sides, and a side takes a sheet";
            let room = usize::from(area.width.saturating_sub(2));
            for (line, text) in area.rows().zip(wrap(text, room)) {
                look.put(buf, rest_of(line, 1), &text, Role::Quiet);
            }
            return None;
        }
        let (rack, foot) = Self::parts(area);
        let shape = self.grid.shape(rack, LEAST);
        let mut cursor = None;
        for (at, place) in self.grid.places(rack, shape) {
            let Some(line) = self.lines.get(at) else {
                continue;
            };
            look.put(buf, place, &line.reference, Role::Heading);
            let room = place.width.saturating_sub(NAME) / 2;
            for (part, side) in line.sides.iter().enumerate() {
                let place = Rect {
                    x: place.x + NAME + cells(part) * room,
                    width: room.saturating_sub(1),
                    ..place
                }
                .intersection(place);
                let (words, role) = side_in_words(side, now);
                let rest = look.put(buf, place, &format!("{} ", side.label), Role::Quiet);
                look.put(buf, rest, &words, role);
                if self.side().is_some_and(|on| on.thing == side.thing) {
                    look.tint(buf, place, Role::Selected);
                    cursor = Some(place.as_position());
                }
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
        let sides: Vec<&SideRow> = self.sides().map(|(_, _, side)| side).collect();
        let count = |state: &str| sides.iter().filter(|side| side.state == state).count();
        let oldest = sides.iter().filter_map(|side| side.exposed).min();
        let doubtful = sides.iter().filter(|side| side.doubt.is_some()).count();
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
            let speed = side
                .speed
                .map(|speed| format!(" {speed}"))
                .unwrap_or_default();
            (format!("{film}{speed}"), Role::Text)
        }
        "exposed" => {
            let age = side.exposed.map(|at| ago(at, now)).unwrap_or_default();
            let times = if side.exposures > 1 {
                format!(" x{}", side.exposures)
            } else {
                String::new()
            };
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
        let speed = side
            .speed
            .map(|speed| format!(" @{speed}"))
            .unwrap_or_default();
        words.push(format!("{film}{speed}"));
    }
    if let Some(exposed) = side.exposed {
        words.push(format!("exposed {}", since(exposed, now)));
    }
    words.extend(side.subject.clone());
    match (&side.doubt, side.slide) {
        (Some(doubt), _) => words.push(format!(
            "IN DOUBT: slide seen {} side out {}",
            doubt.seen.word(),
            since(doubt.at, now)
        )),
        (None, Some(slide)) => words.push(format!("slide {} out", slide.word())),
        (None, None) => {}
    }
    words.join("  ")
}
