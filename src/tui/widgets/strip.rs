//! The life of one thing, running down the page.
//!
//! For: every entry of a sheet, a print, a holder or a bath: when it happened, the word for it, its
//! figures, and a mark at the end of the line. The latest line is where the hand is.
//!
//! Promises: figures that find no room go to the next line, and only a text of more than
//! [`FIGURE_LINES`] lines is cut; a date stands only where the day changes, a year where the year
//! changes; a struck entry is crossed out, stays legible and says "struck".

use chrono::{Datelike, NaiveDate, NaiveDateTime, Timelike};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::Modifier;

use crate::export::shown::{fit, shown_line, width};
use crate::tui::ink::{below, cells, line_of, rest_of, wrap};
use crate::tui::look::Look;
use crate::tui::theme::Role;

/// One entry of the strip.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Happening {
    /// When it happened, in the zone it is shown in.
    pub when: NaiveDateTime,
    /// Whether the time of day is known, or only the day.
    pub timed: bool,
    /// The word for what happened: "exposed".
    pub word: String,
    /// Its figures, each a piece that stays together.
    pub figures: Vec<String>,
    /// A word at the end of the line: "slide dark out", "override".
    pub mark: Option<String>,
    /// What the mark is.
    pub mark_role: Role,
    /// The reason it was struck for, if it was.
    pub struck: Option<String>,
    /// Lines under it: a word and its figures.
    pub details: Vec<(String, Vec<String>)>,
}

impl Happening {
    /// An entry with its word, nothing else.
    pub fn new(when: NaiveDateTime, word: impl Into<String>) -> Self {
        Self {
            when,
            timed: true,
            word: word.into(),
            figures: Vec::new(),
            mark: None,
            mark_role: Role::Quiet,
            struck: None,
            details: Vec::new(),
        }
    }

    fn is_struck(&self) -> bool {
        self.struck.is_some()
    }
}

/// What can come after the last entry, and the entries themselves.
#[derive(Debug, Clone, Copy)]
pub struct Strip<'s> {
    /// The entries, oldest first.
    pub happenings: &'s [Happening],
    /// What can come next, in words; shown under the last entry.
    pub next: &'s [String],
    /// Today, so that the year is written only where it is another one.
    pub today: NaiveDate,
}

/// Which entry the cursor is on, and the first line in view.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct StripView {
    /// Number of the entry, from 0.
    pub cursor: usize,
    offset: usize,
}

/// One drawn line.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Line {
    /// Number of the entry it belongs to.
    of: Option<usize>,
    kind: LineKind,
}

#[derive(Debug, Clone, PartialEq, Eq)]
enum LineKind {
    Year(i32),
    Text {
        day: String,
        time: String,
        word: String,
        figures: String,
        mark: Option<(String, Role)>,
        struck: bool,
        quiet: bool,
    },
}

/// Cells before the word: mark of the cursor, day, time, and the spaces between.
const WHEN: u16 = 1 + 6 + 1 + 5 + 2;
/// Cells of a word at most.
const WORD: usize = 11;
/// Lines of figures of one entry or detail, before the rest is cut.
pub const FIGURE_LINES: usize = 6;

impl StripView {
    /// The cursor on the last of `count` entries.
    pub fn at_last(count: usize) -> Self {
        Self {
            cursor: count.saturating_sub(1),
            offset: 0,
        }
    }

    /// Moves the cursor by entries; returns whether it moved.
    pub fn step(&mut self, count: usize, by: isize) -> bool {
        let before = self.cursor;
        let last = count.saturating_sub(1);
        self.cursor = self.cursor.saturating_add_signed(by).min(last);
        self.cursor != before
    }

    /// Tells the size of the area after something changed, so that the window follows the cursor.
    pub fn settle(&mut self, strip: &Strip<'_>, area: Rect) {
        let lines = strip.lines(area.width);
        self.offset = self.first_line(&lines, usize::from(area.height));
    }

    /// Puts the cursor on the entry drawn at `at`; returns which, if there is one.
    pub fn click(&mut self, strip: &Strip<'_>, area: Rect, at: Position) -> Option<usize> {
        if !area.contains(at) {
            return None;
        }
        let lines = strip.lines(area.width);
        let first = self.first_line(&lines, usize::from(area.height));
        let entry = lines.get(first + usize::from(at.y - area.y))?.of?;
        self.cursor = entry;
        Some(entry)
    }

    /// First line in view, so that the entry under the cursor is in view with its details, or as
    /// much of it as fits.
    fn first_line(&self, lines: &[Line], height: usize) -> usize {
        let of_cursor = |line: &Line| line.of == Some(self.cursor);
        let top = lines.iter().position(of_cursor).unwrap_or(0);
        let mut end = lines.iter().rposition(of_cursor).map_or(0, |at| at + 1);
        // Under the last entry stands what comes next.
        if lines
            .get(end..)
            .is_some_and(|rest| rest.iter().all(|line| line.of.is_none()))
        {
            end = lines.len();
        }
        self.offset
            .min(lines.len().saturating_sub(height))
            .max(end.saturating_sub(height))
            .min(top)
    }

    /// Draws the strip and returns where the cursor belongs.
    pub fn render(
        &self,
        strip: &Strip<'_>,
        area: Rect,
        buf: &mut Buffer,
        look: &Look,
        focused: bool,
    ) -> Option<Position> {
        if area.is_empty() {
            return None;
        }
        let lines = strip.lines(area.width);
        let first = self.first_line(&lines, usize::from(area.height));
        let word_cells = strip.word_cells();
        let mut cursor = None;
        for (place, line) in area.rows().zip(lines.iter().skip(first)) {
            draw_line(line, place, buf, look, word_cells);
            if line.of == Some(self.cursor) {
                if cursor.is_none() {
                    look.put(buf, place, look.symbols.marker, Role::Accent);
                    cursor = Some(place.as_position());
                }
                if focused {
                    select(look, buf, place);
                }
            }
        }
        let in_view = usize::from(area.height);
        if first > 0 {
            more(look, buf, line_of(area, 0));
        }
        if lines.len() > first + in_view {
            more(look, buf, line_of(below(area, area.height - 1), 0));
        }
        cursor.filter(|_| focused)
    }
}

impl Strip<'_> {
    fn word_cells(&self) -> u16 {
        let details = self
            .happenings
            .iter()
            .flat_map(|happening| &happening.details);
        let words = self
            .happenings
            .iter()
            .map(|happening| happening.word.as_str())
            .chain(details.map(|(word, _)| word.as_str()));
        let widest = words.map(|word| width(&shown_line(word))).max();
        cells(widest.unwrap_or(0).clamp(4, WORD)) + 2
    }

    fn lines(&self, wide: u16) -> Vec<Line> {
        let room = usize::from(wide.saturating_sub(WHEN + self.word_cells()));
        let mut lines = Vec::new();
        let mut day = None;
        let mut year = self.today.year();
        for (at, happening) in self.happenings.iter().enumerate() {
            let date = happening.when.date();
            if date.year() != year {
                year = date.year();
                lines.push(Line {
                    of: None,
                    kind: LineKind::Year(year),
                });
            }
            let written_day = if day == Some(date) {
                String::new()
            } else {
                date.format("%d %b").to_string()
            };
            day = Some(date);
            push_happening(&mut lines, at, happening, written_day, room);
        }
        if !self.next.is_empty() {
            let joined = flow(self.next, ", ", room);
            push_text(&mut lines, None, ("next", joined), None, (false, true));
        }
        lines
    }
}

fn push_happening(
    lines: &mut Vec<Line>,
    at: usize,
    happening: &Happening,
    day: String,
    room: usize,
) {
    let mark = match &happening.struck {
        Some(reason) if reason.is_empty() => Some(("struck".to_owned(), Role::Warn)),
        Some(reason) => Some((format!("struck: {reason}"), Role::Warn)),
        None => happening
            .mark
            .as_ref()
            .map(|mark| (mark.clone(), happening.mark_role)),
    };
    let mark = mark.map(|(text, role)| (fit(&shown_line(&text), room.max(6)).into_owned(), role));
    // The mark stands at the end of the first line if the figures leave it room there.
    let taken = mark.as_ref().map_or(0, |(text, _)| width(text) + 2);
    let beside = flow(&happening.figures, "   ", room.saturating_sub(taken));
    let fits = taken <= room && beside.len() == usize::from(!happening.figures.is_empty());
    let (figures, mark, under) = if fits {
        (beside, mark, None)
    } else {
        (flow(&happening.figures, "   ", room), None, mark)
    };
    let first = lines.len();
    let struck = happening.is_struck();
    push_text(
        lines,
        Some(at),
        (&happening.word, figures),
        mark,
        (struck, false),
    );
    if let Some(LineKind::Text { day: d, time, .. }) =
        lines.get_mut(first).map(|line| &mut line.kind)
    {
        *d = day;
        if happening.timed {
            *time = format!(
                "{:02}:{:02}",
                happening.when.hour(),
                happening.when.minute()
            );
        }
    }
    if under.is_some() {
        push_text(lines, Some(at), ("", Vec::new()), under, (false, false));
    }
    for (word, figures) in &happening.details {
        let figures = flow(figures, "   ", room);
        push_text(lines, Some(at), (word, figures), None, (struck, true));
    }
}

fn push_text(
    lines: &mut Vec<Line>,
    of: Option<usize>,
    (word, figures): (&str, Vec<String>),
    mut mark: Option<(String, Role)>,
    (struck, quiet): (bool, bool),
) {
    let mut word = word.to_owned();
    let count = figures.len().max(1);
    let mut figures = figures.into_iter();
    for _ in 0..count {
        lines.push(Line {
            of,
            kind: LineKind::Text {
                day: String::new(),
                time: String::new(),
                word: std::mem::take(&mut word),
                figures: figures.next().unwrap_or_default(),
                mark: mark.take(),
                struck,
                quiet,
            },
        });
    }
}

/// Joins pieces into lines; a piece is broken only if it is longer than a line.
fn flow(pieces: &[String], between: &str, room: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for piece in pieces {
        let piece = shown_line(piece);
        let joined = lines
            .last()
            .map(|line| width(line) + width(between) + width(&piece));
        match lines.last_mut() {
            Some(line) if joined.is_some_and(|joined| joined <= room) => {
                line.push_str(between);
                line.push_str(&piece);
            }
            last => {
                // A comma stays with what it follows.
                if let Some(line) = last.filter(|line| width(line) < room) {
                    line.push_str(between.trim_end());
                }
                lines.extend(wrap(&piece, room));
            }
        }
    }
    if lines.len() > FIGURE_LINES {
        lines.truncate(FIGURE_LINES);
        if let Some(last) = lines.last_mut() {
            *last = fit(&format!("{last} …"), room).into_owned();
        }
    }
    lines
}

fn draw_line(line: &Line, place: Rect, buf: &mut Buffer, look: &Look, word_cells: u16) {
    match &line.kind {
        LineKind::Year(year) => {
            let rest = look.put(buf, rest_of(place, 1), &format!("{year} "), Role::Quiet);
            look.put_rule(buf, rest);
        }
        LineKind::Text {
            day,
            time,
            word,
            figures,
            mark,
            struck,
            quiet,
        } => {
            look.put(buf, rest_of(place, 1), day, Role::Quiet);
            look.put(buf, rest_of(place, 8), time, Role::Quiet);
            let text = rest_of(place, WHEN);
            let (word_role, figure_role) = if *struck {
                (Role::Struck, Role::Struck)
            } else if *quiet {
                (Role::Quiet, Role::Text)
            } else {
                (Role::Heading, Role::Text)
            };
            let word_place = Rect {
                width: word_cells.saturating_sub(2).min(text.width),
                ..text
            };
            let figure_place = rest_of(text, word_cells);
            look.put(buf, word_place, word, word_role);
            look.put(buf, figure_place, figures, figure_role);
            if let Some((mark, role)) = mark {
                look.put_end(buf, figure_place, mark, *role);
            }
        }
    }
}

/// Marks the line under the cursor; crossed-out text stays crossed out.
fn select(look: &Look, buf: &mut Buffer, place: Rect) {
    let place = place.intersection(buf.area);
    for at in place.positions() {
        if let Some(cell) = buf.cell_mut(at) {
            let struck = cell.modifier & Modifier::CROSSED_OUT;
            cell.set_style(look.style(Role::Selected).add_modifier(struck));
        }
    }
}

/// A sign at the right end that there is more above or below.
fn more(look: &Look, buf: &mut Buffer, line: Rect) {
    let at = rest_of(line, line.width.saturating_sub(1));
    look.put(buf, at, look.symbols.cut, Role::Quiet);
}

#[cfg(test)]
mod tests;
