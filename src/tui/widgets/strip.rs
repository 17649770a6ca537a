//! The life of one thing, running down the page.
//!
//! For: every entry of a sheet, a print, a holder or a bath: when it happened, the word for it, its
//! figures, and a mark at the end of the line. The latest line is where the hand is.
//!
//! Promises: figures that find no room go to the next line, and only a text of more than
//! [`FIGURE_LINES`] lines is cut; a date stands only where the day changes, a year where the year
//! changes; a struck entry is crossed out, stays legible and says "struck". The entry under the
//! cursor tells everything it says; the others do where there is room for all of it.

use std::ops::Range;

use chrono::{Datelike, NaiveDate, NaiveDateTime};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use crate::export::shown::{shown_line, width};
use crate::tui::ink::{cells, line_of, rest_of};
use crate::tui::look::Look;
use crate::tui::theme::Role;

mod layout;

use layout::{flow, push_happening, push_more, push_text};

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
    /// Lines under it that are always there: a word and its figures.
    pub details: Vec<(String, Vec<String>)>,
    /// The figures that matter less, each with its label.
    pub more: Vec<(String, String)>,
    /// What is told only under the cursor: the number of the entry, when it was written.
    pub foot: String,
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
            more: Vec::new(),
            foot: String::new(),
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
    first: Anchor,
}

/// A line, by the entry it stands with and its number there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
struct Anchor {
    entry: usize,
    nth: usize,
}

/// One drawn line.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Line {
    /// Number of the entry it belongs to.
    of: Option<usize>,
    /// Where it stands.
    at: Anchor,
    kind: LineKind,
}

#[derive(Debug, Clone, PartialEq, Eq)]
enum LineKind {
    Year(i32),
    Text(Text),
    /// Figures with their labels, from the column of the figures on.
    More(Vec<(String, Role)>),
}

#[derive(Debug, Clone, Default, PartialEq, Eq)]
struct Text {
    day: String,
    time: String,
    word: String,
    figures: String,
    mark: Option<(String, Role)>,
    struck: bool,
    /// A line under the entry, not the entry itself.
    under: bool,
    /// What can come next.
    next: bool,
}

/// How wide the parts are.
#[derive(Debug, Clone, Copy)]
struct Measures {
    /// Cells of the word and the gap behind it.
    word: u16,
    /// Cells for figures.
    room: usize,
    /// Cells between the word's column and labelled figures.
    more_indent: u16,
    /// Cells for labelled figures.
    more_room: usize,
}

/// Cells before the word: mark of the cursor, day, time, and the spaces between.
const WHEN: u16 = 1 + 6 + 1 + 5 + 2;
/// Cells of a word at most.
const WORD: usize = 11;
/// Lines of figures of one entry or detail, before the rest is cut.
pub const FIGURE_LINES: usize = 6;
/// Cells for figures from which every entry may tell everything.
const WIDE: usize = 44;
/// Cells for figures below which labelled figures begin under the word.
const NARROW: usize = 30;

impl StripView {
    /// The cursor on the last of `count` entries.
    pub fn at_last(count: usize) -> Self {
        Self {
            cursor: count.saturating_sub(1),
            first: Anchor::default(),
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
        let lines = strip.lines(area, self.cursor);
        let first = self.first_line(&lines, usize::from(area.height));
        self.first = lines.get(first).map_or(Anchor::default(), |line| line.at);
    }

    /// Puts the cursor on the entry drawn at `at`; returns which, if there is one.
    pub fn click(&mut self, strip: &Strip<'_>, area: Rect, at: Position) -> Option<usize> {
        if !area.contains(at) {
            return None;
        }
        let lines = strip.lines(area, self.cursor);
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
        lines
            .partition_point(|line| line.at < self.first)
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
        let lines = strip.lines(area, self.cursor);
        let first = self.first_line(&lines, usize::from(area.height));
        let measures = strip.measures(area.width);
        let mut cursor = None;
        for (place, line) in area.rows().zip(lines.iter().skip(first)) {
            draw_line(line, place, buf, look, measures);
            if line.of == Some(self.cursor) && cursor.is_none() {
                look.put(buf, place, look.symbols.marker, Role::Accent);
                cursor = Some(place.as_position());
                if focused {
                    look.tint(buf, place, Role::Selected);
                }
            }
        }
        // That there is more above or below is told where the mark of the cursor would stand.
        let in_view = usize::from(area.height);
        for (more, at) in [
            (first > 0, 0),
            (lines.len() > first + in_view, area.height - 1),
        ] {
            let place = line_of(area, at);
            if more && cursor != Some(place.as_position()) {
                look.put(buf, place, look.symbols.cut, Role::Accent);
            }
        }
        cursor.filter(|_| focused)
    }
}

impl Strip<'_> {
    fn measures(&self, wide: u16) -> Measures {
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
        let widest = cells(widest.unwrap_or(0).clamp(4, WORD));
        let gap = if wide < WHEN + widest + cells(NARROW) {
            1
        } else {
            2
        };
        let word = widest + gap;
        let room = usize::from(wide.saturating_sub(WHEN + word));
        let more_indent = if room < NARROW { 0 } else { word };
        Measures {
            word,
            room,
            more_indent,
            more_room: usize::from(wide.saturating_sub(WHEN + more_indent)),
        }
    }

    /// The lines for an area: every entry unfolded where they all fit, else the one at the cursor.
    ///
    /// Of a long life only what can be in view is laid out, so that a thousand entries cost no more
    /// than a page.
    fn lines(&self, area: Rect, cursor: usize) -> Vec<Line> {
        let measures = self.measures(area.width);
        let height = usize::from(area.height);
        let all = 0..self.happenings.len();
        if measures.room >= WIDE && all.len() <= height {
            let lines = self.lines_of(all.clone(), measures, cursor, true);
            if lines.len() <= height {
                return lines;
            }
        }
        let near = cursor.saturating_sub(height)..all.end.min(cursor + height + 1);
        self.lines_of(near, measures, cursor, false)
    }

    fn lines_of(
        &self,
        range: Range<usize>,
        measures: Measures,
        cursor: usize,
        unfold_all: bool,
    ) -> Vec<Line> {
        let mut lines = Vec::new();
        let before = range
            .start
            .checked_sub(1)
            .and_then(|at| self.happenings.get(at));
        let mut day = before.map(|one| one.when.date());
        let mut year = day.map_or(self.today.year(), |day| day.year());
        let end = range.end;
        for (at, happening) in self.happenings.iter().enumerate().take(end) {
            if at < range.start {
                continue;
            }
            let from = lines.len();
            let date = happening.when.date();
            if date.year() != year {
                year = date.year();
                lines.push(line(None, LineKind::Year(year)));
            }
            let written_day = if day == Some(date) {
                String::new()
            } else {
                date.format("%d %b").to_string()
            };
            day = Some(date);
            push_happening(&mut lines, at, happening, written_day, measures.room);
            if unfold_all || at == cursor {
                let pairs = happening.more.iter();
                let pairs = pairs.map(|(label, value)| (label.as_str(), value.as_str()));
                let foot = (at == cursor && !happening.foot.is_empty())
                    .then_some(("", happening.foot.as_str()));
                push_more(&mut lines, at, pairs.chain(foot), measures.more_room);
            }
            number(&mut lines, from, at);
        }
        if !self.next.is_empty() && end >= self.happenings.len() {
            let from = lines.len();
            let joined = flow(self.next, ", ", measures.room);
            let next = Text {
                next: true,
                ..Text::default()
            };
            push_text(&mut lines, None, "next", joined, next);
            number(&mut lines, from, end);
        }
        lines
    }
}

/// A line that has not got its number yet.
const fn line(of: Option<usize>, kind: LineKind) -> Line {
    let at = Anchor { entry: 0, nth: 0 };
    Line { of, at, kind }
}

/// Numbers the lines that stand with an entry.
fn number(lines: &mut [Line], from: usize, entry: usize) {
    for (nth, line) in lines.iter_mut().skip(from).enumerate() {
        line.at = Anchor { entry, nth };
    }
}

fn draw_line(line: &Line, place: Rect, buf: &mut Buffer, look: &Look, measures: Measures) {
    match &line.kind {
        LineKind::Year(year) => {
            let rest = look.put(buf, rest_of(place, 1), &format!("{year} "), Role::Quiet);
            look.put_rule(buf, rest);
        }
        LineKind::More(pieces) => {
            let rest = rest_of(place, WHEN + measures.more_indent);
            let pieces = pieces.iter().map(|(text, role)| (text.as_str(), *role));
            look.put_all(buf, rest, pieces);
        }
        LineKind::Text(text) => draw_text(text, place, buf, look, measures.word),
    }
}

fn draw_text(line: &Text, place: Rect, buf: &mut Buffer, look: &Look, word_cells: u16) {
    look.put(buf, rest_of(place, 1), &line.day, Role::Quiet);
    look.put(buf, rest_of(place, 8), &line.time, Role::Quiet);
    let text = rest_of(place, WHEN);
    let (word_role, figure_role) = if line.struck {
        (Role::Struck, Role::Struck)
    } else if line.next {
        (Role::Accent, Role::Text)
    } else if line.under {
        (Role::Quiet, Role::Text)
    } else {
        (Role::Heading, Role::Text)
    };
    let word = Rect {
        width: word_cells.saturating_sub(1).min(text.width),
        ..text
    };
    let figures = rest_of(text, word_cells);
    look.put(buf, word, &line.word, word_role);
    look.put(buf, figures, &line.figures, figure_role);
    if let Some((mark, role)) = &line.mark {
        look.put_end(buf, figures, mark, *role);
    }
}

#[cfg(test)]
mod tests;
