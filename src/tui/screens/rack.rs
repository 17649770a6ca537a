//! The rack: every holder drawn as its sides, forty on one page.
//!
//! For: seeing at one glance which sides are empty, loaded (with which film), exposed (and since
//! when), fogged or in doubt. Words first, marks second; nothing is said by colour alone.
//!
//! Promises: a holder is one line as long as it has two sides; magazines take as many lines as they
//! need; the cursor is on a side and always in view; forty double holders stand on one page of 80 by
//! 24.

use chrono::{DateTime, FixedOffset};
use crossterm::event::KeyEvent;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use crate::export::shown::{shown_line, width};
use crate::logbook::{Thing, ThingKind};
use crate::store::StoreError;
use crate::store::rows::{HolderRow, SideRow};
use crate::tui::bench::Bench;
use crate::tui::browse::KeyNames;
use crate::tui::ink::{below, cells, line_of, rest_of, rest_of_all, wrap};
use crate::tui::look::Look;
use crate::tui::theme::Role;
use crate::tui::widgets::Reaction;
use crate::tui::widgets::grid::{Grid, Shape, Way};
use crate::tui::widgets::input::TextInput;

mod words;

use words::{counts, in_full, in_words, is_meant};

/// The least cells of a side with its label.
const SIDE: u16 = 16;
/// Cells of a size behind a reference.
const SIZE: u16 = 11;
/// Cells of a line from which it says the size of the holder.
const ROOMY: u16 = 64;

/// One line of the rack: a holder with two sides, or two septums of a magazine.
#[derive(Debug, Clone)]
struct Line {
    /// The holder.
    reference: String,
    /// The size it takes.
    size: String,
    /// What it is.
    make: String,
    /// Whether it goes on with the holder of the line before.
    goes_on: bool,
    /// One or two sides.
    sides: Vec<SideRow>,
}

/// The holders, and the side the cursor is on.
#[derive(Debug, Default)]
pub struct Rack {
    holders: Vec<HolderRow>,
    lines: Vec<Line>,
    grid: Grid,
    area: Rect,
    find: TextInput,
    /// Whether the words that narrow the rack are being typed.
    pub finding: bool,
}

/// Where the parts of the rack are.
struct Parts {
    find: Rect,
    rack: Rect,
    foot: Rect,
}

impl Rack {
    /// Loads the rack anew; the cursor stays on its side.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn reload(&mut self, bench: &Bench) -> Result<(), StoreError> {
        self.holders = bench.store.rack()?;
        self.holders.retain(|holder| holder.state == "in use");
        self.lay_out();
        Ok(())
    }

    /// Puts the holders that the typed words mean into lines.
    fn lay_out(&mut self) {
        let on = self.selected();
        self.lines.clear();
        let words = self.find.text().to_lowercase();
        let meant = |holder: &&HolderRow| is_meant(holder, &words);
        for holder in self.holders.iter().filter(meant) {
            let size = holder.size.map(|size| size.to_string());
            for (at, pair) in holder.sides.chunks(2).enumerate() {
                self.lines.push(Line {
                    reference: holder.reference.clone(),
                    size: size.clone().unwrap_or_default(),
                    make: holder.make.clone().unwrap_or_default(),
                    goes_on: at > 0,
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

    /// Puts the cursor on a side, or on the first side of a holder.
    pub fn select(&mut self, thing: Thing) -> bool {
        let side = match thing.kind {
            ThingKind::Holder => self
                .holders
                .iter()
                .find(|holder| holder.thing == thing.id)
                .and_then(|holder| holder.sides.first())
                .map(|side| side.thing),
            _ => Some(thing.id),
        };
        let at = self
            .sides()
            .find(|(_, _, one)| Some(one.thing) == side)
            .map(|(line, part, _)| (line, part));
        if let Some((line, part)) = at {
            self.grid.select(line, part);
        }
        at.is_some()
    }

    /// Moves the cursor.
    pub fn step(&mut self, way: Way) -> bool {
        let shape = self.shape(self.parts(self.area).rack);
        let moved = self.grid.step(shape, way);
        // A line with one side has no other to be on.
        if let Some((line, part)) = self.grid.cursor()
            && let Some(sides) = self.lines.get(line).map(|line| line.sides.len())
            && part >= sides
        {
            self.grid.select(line, sides.saturating_sub(1));
        }
        moved
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

    /// Takes a key into the words that narrow the rack.
    pub fn find_key(&mut self, key: &KeyEvent) -> Reaction {
        let reaction = self.find.key(key);
        if reaction == Reaction::Changed {
            self.lay_out();
        }
        reaction
    }

    /// Takes a paste into the words that narrow the rack.
    pub fn find_paste(&mut self, text: &str) {
        self.find.paste(text);
        self.lay_out();
    }

    /// Takes the narrowing words away.
    pub fn find_nothing(&mut self) {
        self.finding = false;
        self.find = TextInput::default();
        self.lay_out();
    }

    /// Whether words narrow the rack.
    pub fn is_narrowed(&self) -> bool {
        !self.find.is_empty()
    }

    /// The rack gets the lines it needs; of the foot, the side under the cursor stays longest.
    fn parts(&self, area: Rect) -> Parts {
        let find = u16::from(self.finding || self.is_narrowed()).min(area.height);
        let body = below(area, find);
        let fits = |foot: u16| {
            let rack = Rect {
                height: body.height.saturating_sub(foot),
                ..rest_of_all(body, 1)
            };
            let shape = self.shape(rack);
            shape.rows <= shape.in_view
        };
        let most = 4.min(body.height / 3);
        let foot = (1..=most).rev().find(|foot| fits(*foot));
        let foot = foot.unwrap_or(most.min(3));
        let rack = Rect {
            height: body.height - foot,
            ..rest_of_all(body, 1)
        };
        Parts {
            find: line_of(area, 0),
            rack,
            foot: below(body, body.height - foot),
        }
    }

    fn name_cells(&self) -> u16 {
        let widest = self.lines.iter().map(|line| width(&line.reference)).max();
        cells(widest.unwrap_or(4)).clamp(4, 8) + 1
    }

    fn shape(&self, rack: Rect) -> Shape {
        self.grid.shape(rack, self.name_cells() + 2 * SIDE)
    }

    /// Where the sides of a line begin, and the cells of each with the gap behind it.
    fn side_places(&self, place: Rect) -> (u16, u16) {
        let name = self.name_cells();
        let name = if place.width >= ROOMY {
            name + SIZE
        } else {
            name
        };
        (name, place.width.saturating_sub(name) / 2)
    }

    /// Tells how large the screen is, so that the window follows the cursor.
    pub fn settle(&mut self, area: Rect) {
        self.area = area;
        let shape = self.shape(self.parts(area).rack);
        self.grid.settle(shape);
    }

    /// Puts the cursor on the side drawn at `at`.
    pub fn click(&mut self, area: Rect, at: Position) -> bool {
        let rack = self.parts(area).rack;
        let shape = self.shape(rack);
        let (name, room) = self.side_places(Rect {
            width: shape.cells,
            ..rack
        });
        let hit = self
            .grid
            .click(rack, shape, at, |_, x| usize::from(x >= name + room));
        if hit
            && let Some((line, part)) = self.grid.cursor()
            && let Some(sides) = self.lines.get(line).map(|line| line.sides.len())
        {
            self.grid.select(line, part.min(sides.saturating_sub(1)));
        }
        hit
    }

    /// Draws the rack with its count under it, and the side under the cursor in full.
    pub fn render(
        &self,
        area: Rect,
        buf: &mut Buffer,
        look: &Look,
        keys: &KeyNames<'_>,
        now: DateTime<FixedOffset>,
    ) -> Option<Position> {
        let parts = self.parts(area);
        let mut cursor = self.render_find(parts.find, buf, look);
        if self.lines.is_empty() {
            let text = self.nothing(keys);
            let room = usize::from(area.width.saturating_sub(2));
            for (line, text) in parts.rack.rows().zip(wrap(&text, room)) {
                look.put(buf, line, &text, Role::Quiet);
            }
            return cursor;
        }
        let shape = self.shape(parts.rack);
        for (at, place) in self.grid.places(parts.rack, shape) {
            if let Some(line) = self.lines.get(at) {
                let first = place.y == parts.rack.y;
                let on = self.render_line(line, place, first, buf, look, now);
                cursor = cursor.or(on.filter(|_| !self.finding));
            }
        }
        self.render_foot(parts.foot, buf, look, keys, now);
        let (above, under) = self.grid.out_of_view(shape);
        for (out, line) in [(above, 0), (under, parts.rack.height.saturating_sub(1))] {
            if out > 0 {
                let line = line_of(parts.rack, line);
                let end = rest_of(line, line.width.saturating_sub(1));
                look.put(buf, end, look.symbols.cut, Role::Accent);
            }
        }
        cursor
    }

    fn nothing(&self, keys: &KeyNames<'_>) -> String {
        if self.is_narrowed() {
            let all = keys(if self.finding { "find.end" } else { "back" });
            return format!(
                "No holder here has all these words: {all} shows the whole rack again."
            );
        }
        format!(
            "No holder yet. A holder has sides, and a side takes a sheet: {} adds a holder, and a box of film to load from. Then choose a side with the arrows, load it ({}), and log what you expose ({}).",
            keys("new"),
            keys("log.load"),
            keys("log.expose"),
        )
    }

    fn render_find(&self, line: Rect, buf: &mut Buffer, look: &Look) -> Option<Position> {
        if !self.finding && !self.is_narrowed() {
            return None;
        }
        let line = rest_of(line, 1);
        let count = format!(" {} sides", self.sides().count());
        let line = look.put_end(buf, line, &count, Role::Quiet);
        let line = look.put(buf, line, "find ", Role::Accent);
        let empty = "7, FP4, exposed, in doubt, a subject";
        self.find.render(line, buf, look, self.finding, empty)
    }

    /// Draws one line; returns where the cursor is, if it is on it.
    fn render_line(
        &self,
        line: &Line,
        place: Rect,
        first: bool,
        buf: &mut Buffer,
        look: &Look,
        now: DateTime<FixedOffset>,
    ) -> Option<Position> {
        let (name, room) = self.side_places(place);
        if !line.goes_on {
            look.put(buf, place, &line.reference, Role::Heading);
            if name >= self.name_cells() + SIZE {
                let size = Rect {
                    width: SIZE - 1,
                    ..rest_of(place, self.name_cells())
                };
                look.put(buf, size, &line.size, Role::Quiet);
            }
        } else if first {
            // A magazine that goes on over a column begins it with its name once more.
            look.put(buf, place, &line.reference, Role::Quiet);
        }
        let mut cursor = None;
        for (part, side) in line.sides.iter().enumerate() {
            let place = Rect {
                x: place.x + name + cells(part) * room,
                width: room.saturating_sub(1),
                ..place
            }
            .intersection(place);
            let label = format!("{} ", side.label);
            let left = usize::from(place.width).saturating_sub(width(&shown_line(&label)));
            let (words, role) = in_words(side, now, left);
            let rest = look.put(buf, place, &label, Role::Quiet);
            look.put(buf, rest, &words, role);
            if self.side().is_some_and(|on| on.thing == side.thing) {
                look.tint(buf, place, Role::Selected);
                cursor = Some(place.as_position());
            }
        }
        cursor
    }

    /// The side under the cursor in full, then what there is in all; a rule before them where there
    /// is room.
    fn render_foot(
        &self,
        foot: Rect,
        buf: &mut Buffer,
        look: &Look,
        keys: &KeyNames<'_>,
        now: DateTime<FixedOffset>,
    ) {
        let mut foot = foot;
        let line = self.grid.cursor().and_then(|(at, _)| self.lines.get(at));
        let told = self.side().map(|side| {
            let holder = line.map(|line| [line.size.as_str(), line.make.as_str()]);
            let text = in_full(side, holder.unwrap_or_default(), now);
            (format!("{}  ", side.reference), text)
        });
        let (reference, text) = told.unwrap_or_default();
        let indent = width(&shown_line(&reference));
        let room = usize::from(foot.width.saturating_sub(2)).saturating_sub(indent);
        let lines = wrap(&text, room);
        if foot.height == 4 && lines.len() < 2 {
            foot = below(foot, 1);
        }
        if foot.height >= 3 {
            look.put_rule(buf, line_of(foot, 0));
            foot = below(foot, 1);
        }
        let counts_at = foot.height.saturating_sub(1);
        let rest = look.put(buf, rest_of(line_of(foot, 0), 1), &reference, Role::Heading);
        if counts_at > 1 {
            let (first, others) = lines.split_at(1.min(lines.len()));
            look.put(buf, rest, &first.concat(), Role::Text);
            let line = rest_of(line_of(foot, 1), 1 + cells(indent));
            look.put(buf, line, &others.join(" "), Role::Text);
        } else {
            look.put(buf, rest, &text, Role::Text);
        }
        if counts_at > 0 {
            let line = rest_of(line_of(foot, counts_at), 1);
            let sides = self.sides().map(|(_, _, side)| side);
            look.put(buf, line, &counts(sides, now, keys), Role::Quiet);
        }
    }
}
