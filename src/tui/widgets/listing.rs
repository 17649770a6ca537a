//! A list of which only a window is in memory.
//!
//! For: lists of sheets, prints, entries that may have a million lines. [`Listing`] knows how many
//! there are, which one the cursor is on and which ones are in view; the rows themselves belong to
//! the screen, which loads what [`Listing::needed`] asks for.
//!
//! Promises: the cursor is always on a line that exists and always in view; drawing costs as much
//! as the window, not as the list.
//!
//! Leaves to others: fetching rows, by key or by number.

use std::ops::Range;

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::Modifier;

use crate::export::shown::{shown_line, width};
use crate::tui::ink::{below, cells, line_of, rest_of, wrap};
use crate::tui::look::Look;
use crate::tui::theme::Role;

use super::columns::{Align, Column, DecimalRoom, Span, spread};

/// Where the cursor goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step {
    /// Lines up.
    Up(usize),
    /// Lines down.
    Down(usize),
    /// One window up.
    PageUp,
    /// One window down.
    PageDown,
    /// To the first line.
    First,
    /// To the last line.
    Last,
    /// To this line.
    To(usize),
}

/// Cursor and window over a list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Listing {
    total: usize,
    cursor: usize,
    offset: usize,
    height: usize,
}

/// One piece of a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Piece {
    /// What is shown.
    pub text: String,
    /// What it is.
    pub role: Role,
}

impl Piece {
    /// A piece in a role.
    pub fn new(text: impl Into<String>, role: Role) -> Self {
        Self {
            text: text.into(),
            role,
        }
    }
}

impl<T: Into<String>> From<T> for Piece {
    fn from(text: T) -> Self {
        Self::new(text, Role::Text)
    }
}

/// One line: a piece for each column.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Row {
    /// The pieces, in the order of the columns.
    pub pieces: Vec<Piece>,
    /// The whole line was crossed out; a word in it must say so too.
    pub struck: bool,
}

impl Row {
    /// A line from its pieces.
    pub fn new(pieces: Vec<Piece>) -> Self {
        Self {
            pieces,
            struck: false,
        }
    }
}

/// The rows that are in memory: their number in the list, and themselves.
#[derive(Debug, Clone, Copy)]
pub struct Loaded<'r> {
    /// Number of the first of them, from 0.
    pub first: usize,
    /// The rows, without a gap.
    pub rows: &'r [Row],
}

/// Room before the line for the cursor's mark.
const MARGIN: u16 = 1;

impl Listing {
    /// A list of so many lines, the cursor on the first.
    pub fn new(total: usize) -> Self {
        Self {
            total,
            ..Self::default()
        }
    }

    /// How many lines there are.
    pub const fn total(&self) -> usize {
        self.total
    }

    /// The line the cursor is on; none if the list is empty.
    pub fn cursor(&self) -> Option<usize> {
        (self.total > 0).then_some(self.cursor)
    }

    /// Tells how many lines there are now; the cursor stays in the list.
    pub fn set_total(&mut self, total: usize) {
        self.total = total;
        self.cursor = self.cursor.min(total.saturating_sub(1));
        self.settle();
    }

    /// Tells how many lines are in view. Where the window grows, it shows more of what is above.
    pub fn set_height(&mut self, height: u16) {
        let height = usize::from(height);
        self.offset = self
            .offset
            .saturating_sub(height.saturating_sub(self.height));
        self.height = height;
        self.settle();
    }

    /// Tells that lines came in before the first one: the cursor stays on the same thing.
    pub fn shift(&mut self, lines: usize) {
        if self.total == 0 {
            return self.set_total(lines);
        }
        self.total += lines;
        self.cursor += lines;
        self.offset += lines;
        self.settle();
    }

    /// Moves the cursor; returns whether it moved.
    pub fn step(&mut self, step: Step) -> bool {
        let before = self.cursor;
        let page = self.height.saturating_sub(1).max(1);
        let last = self.total.saturating_sub(1);
        self.cursor = match step {
            Step::Up(lines) => self.cursor.saturating_sub(lines),
            Step::Down(lines) => self.cursor.saturating_add(lines),
            Step::PageUp => {
                self.offset = self.offset.saturating_sub(page);
                self.cursor.saturating_sub(page)
            }
            Step::PageDown => {
                self.offset = self.offset.saturating_add(page);
                self.cursor.saturating_add(page)
            }
            Step::First => 0,
            Step::Last => last,
            Step::To(line) => line,
        }
        .min(last);
        self.settle();
        self.cursor != before
    }

    /// Moves the window, as a mouse wheel does, and takes the cursor along only where it would be
    /// left behind. Returns whether anything moved.
    pub fn scroll(&mut self, lines: isize) -> bool {
        let before = (self.offset, self.cursor);
        let most = self.total.saturating_sub(self.height);
        self.offset = self.offset.saturating_add_signed(lines).min(most);
        let last_in_view = (self.offset + self.height).saturating_sub(1);
        self.cursor = self
            .cursor
            .clamp(self.offset, last_in_view.max(self.offset))
            .min(self.total.saturating_sub(1));
        self.settle();
        (self.offset, self.cursor) != before
    }

    /// Puts the cursor on the line drawn at `at`; returns which, if there is one.
    pub fn click(&mut self, area: Rect, columns: &[Column], at: Position) -> Option<usize> {
        let body = body_of(area, columns);
        if !body.contains(at) {
            return None;
        }
        let line = self.window(body.height).start + usize::from(at.y - body.y);
        if line >= self.total {
            return None;
        }
        self.cursor = line;
        self.settle();
        Some(line)
    }

    /// The lines in view in a window of this height.
    pub fn window(&self, height: u16) -> Range<usize> {
        let offset = window_start(self.offset, self.cursor, self.total, usize::from(height));
        offset..self.total.min(offset + usize::from(height))
    }

    /// The lines to load when `loaded` are in memory: those in view and a window before and behind
    /// them. Nothing, as long as everything in view is there.
    pub fn needed(&self, loaded: &Range<usize>) -> Option<Range<usize>> {
        let view = self.offset..self.total.min(self.offset + self.height);
        if view.is_empty() || (loaded.start <= view.start && loaded.end >= view.end) {
            return None;
        }
        let margin = self.height.max(1);
        Some(view.start.saturating_sub(margin)..self.total.min(view.end + margin))
    }

    fn settle(&mut self) {
        self.offset = window_start(self.offset, self.cursor, self.total, self.height);
    }

    /// Lines of rows that an area of this size shows, to tell [`Listing::set_height`].
    pub fn rows_in(area: Rect, columns: &[Column]) -> u16 {
        body_of(area, columns).height
    }

    /// Draws the list. `empty` is written where there is nothing to list.
    #[expect(clippy::too_many_arguments, reason = "a picture has that many parts")]
    pub fn render(
        &self,
        area: Rect,
        buf: &mut Buffer,
        look: &Look,
        columns: &[Column],
        loaded: Loaded<'_>,
        focused: bool,
        empty: &str,
    ) -> Option<Position> {
        if area.is_empty() {
            return None;
        }
        if self.total == 0 {
            let lines = wrap(empty, usize::from(area.width.saturating_sub(2 * MARGIN)));
            for (line, text) in area.rows().zip(lines) {
                look.put(buf, rest_of(line, MARGIN), &text, Role::Quiet);
            }
            return None;
        }
        let body = body_of(area, columns);
        let scrolls = self.total > usize::from(body.height);
        let room = area.width.saturating_sub(MARGIN + u16::from(scrolls));
        let spans = spread(columns, room);
        if body.y > area.y {
            for (column, span) in columns.iter().zip(&spans) {
                if let Some(span) = span {
                    let at = cell_of(line_of(area, 0), *span);
                    put_aligned(look, buf, at, column.heading, column.align, Role::Quiet);
                }
            }
        }
        let window = self.window(body.height);
        let decimals = decimal_rooms(columns, loaded, &window);
        let mut cursor = None;
        for (line, number) in body.rows().zip(window.clone()) {
            let row = number
                .checked_sub(loaded.first)
                .and_then(|at| loaded.rows.get(at));
            let text = Rect {
                width: line.width.saturating_sub(u16::from(scrolls)),
                ..line
            };
            match row {
                Some(row) => draw_row(look, buf, text, row, columns, &spans, &decimals),
                None => {
                    look.put(buf, rest_of(text, MARGIN), look.symbols.cut, Role::Quiet);
                }
            }
            if number == self.cursor {
                look.put(buf, text, look.symbols.marker, Role::Accent);
                if focused {
                    look.tint(buf, text, Role::Selected);
                }
                cursor = Some(line.as_position());
            }
        }
        if scrolls {
            draw_thumb(look, buf, body, &window, self.total);
        }
        cursor.filter(|_| focused)
    }
}

/// First line in view so that the cursor is in view and no room is wasted at the end.
fn window_start(offset: usize, cursor: usize, total: usize, height: usize) -> usize {
    if height == 0 {
        return offset.min(cursor);
    }
    offset
        .min(total.saturating_sub(height))
        .min(cursor)
        .max((cursor + 1).saturating_sub(height))
}

fn body_of(area: Rect, columns: &[Column]) -> Rect {
    let headed = columns.iter().any(|column| !column.heading.is_empty());
    below(area, u16::from(headed && area.height > 2))
}

fn cell_of(line: Rect, span: Span) -> Rect {
    let at = rest_of(line, MARGIN + span.start);
    Rect {
        width: span.cells.min(at.width),
        ..at
    }
}

fn put_aligned(look: &Look, buf: &mut Buffer, at: Rect, text: &str, align: Align, role: Role) {
    let fits = width(&shown_line(text)) <= usize::from(at.width);
    if align == Align::Left || !fits {
        look.put(buf, at, text, role);
    } else {
        look.put_end(buf, at, text, role);
    }
}

fn decimal_rooms(
    columns: &[Column],
    loaded: Loaded<'_>,
    window: &Range<usize>,
) -> Vec<Option<DecimalRoom>> {
    let from = window.start.saturating_sub(loaded.first);
    let upto = window
        .end
        .saturating_sub(loaded.first)
        .min(loaded.rows.len());
    let rows = loaded.rows.get(from..upto).unwrap_or_default();
    columns
        .iter()
        .enumerate()
        .map(|(at, column)| {
            (column.align == Align::Decimal).then(|| {
                let figures = rows.iter().filter_map(|row| row.pieces.get(at));
                DecimalRoom::of(figures.map(|piece| piece.text.as_str()))
            })
        })
        .collect()
}

fn draw_row(
    look: &Look,
    buf: &mut Buffer,
    line: Rect,
    row: &Row,
    columns: &[Column],
    spans: &[Option<Span>],
    decimals: &[Option<DecimalRoom>],
) {
    for (at, piece) in row.pieces.iter().enumerate() {
        let (Some(column), Some(Some(span))) = (columns.get(at), spans.get(at)) else {
            continue;
        };
        let room = cell_of(line, *span);
        match decimals.get(at) {
            Some(Some(decimal)) => {
                let placed = decimal.place(&piece.text);
                put_aligned(look, buf, room, &placed, Align::Right, piece.role);
            }
            _ => put_aligned(look, buf, room, &piece.text, column.align, piece.role),
        }
    }
    if row.struck {
        let struck = look.style(Role::Struck).add_modifier(Modifier::CROSSED_OUT);
        buf.set_style(rest_of(line, MARGIN).intersection(buf.area), struck);
    }
}

fn draw_thumb(look: &Look, buf: &mut Buffer, body: Rect, window: &Range<usize>, total: usize) {
    let height = usize::from(body.height);
    if height == 0 || total == 0 {
        return;
    }
    let size = (height * height / total).max(1);
    let most = total.saturating_sub(height).max(1);
    let top = (height - size.min(height)) * window.start.min(most) / most;
    let column = Rect {
        x: body.right().saturating_sub(1),
        y: body.y + cells(top),
        width: 1,
        height: cells(size),
    };
    for line in column.intersection(body).rows() {
        look.put(buf, line, look.symbols.thumb, Role::Rule);
    }
}

#[cfg(test)]
mod tests;
