//! The life of one thing, running down the page.
//!
//! For: every entry of a sheet, a print, a holder or a bath: when it happened, the word for it, its
//! figures, and a mark at the end of the line. The latest line is where the hand is.
//!
//! Promises: figures that find no room go to the next line, and only a text of more than
//! [`FIGURE_LINES`] lines is cut; a date stands only where the day changes, a year where the year
//! changes; a struck entry is crossed out, stays legible and says "struck". The entry under the
//! cursor tells everything it says; the others do where there is room for all of it.

use chrono::{Datelike, NaiveDate, NaiveDateTime, Timelike};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

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
        let lines = strip.lines(area, self.cursor);
        self.offset = self.first_line(&lines, usize::from(area.height));
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
    fn lines(&self, area: Rect, cursor: usize) -> Vec<Line> {
        let measures = self.measures(area.width);
        if measures.room >= WIDE {
            let lines = self.lines_with(measures, cursor, true);
            if lines.len() <= usize::from(area.height) {
                return lines;
            }
        }
        self.lines_with(measures, cursor, false)
    }

    fn lines_with(&self, measures: Measures, cursor: usize, unfold_all: bool) -> Vec<Line> {
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
            push_happening(&mut lines, at, happening, written_day, measures.room);
            if unfold_all || at == cursor {
                let pairs = happening.more.iter();
                let pairs = pairs.map(|(label, value)| (label.as_str(), value.as_str()));
                let foot = (at == cursor && !happening.foot.is_empty())
                    .then_some(("", happening.foot.as_str()));
                push_more(&mut lines, at, pairs.chain(foot), measures.more_room);
            }
        }
        if !self.next.is_empty() {
            let joined = flow(self.next, ", ", measures.room);
            let next = Text {
                next: true,
                ..Text::default()
            };
            push_text(&mut lines, None, "next", joined, next);
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
    // The mark stands at the end of the first line if the figures leave it room there.
    let taken = mark
        .as_ref()
        .map_or(0, |(text, _)| width(&shown_line(text)) + 2);
    let beside = flow(&happening.figures, ", ", room.saturating_sub(taken));
    let fits = taken <= room && beside.len() == usize::from(!happening.figures.is_empty());
    let (figures, mark, under) = if fits {
        (beside, mark, None)
    } else {
        (flow(&happening.figures, ", ", room), None, mark)
    };
    let time = if happening.timed {
        format!(
            "{:02}:{:02}",
            happening.when.hour(),
            happening.when.minute()
        )
    } else {
        String::new()
    };
    let struck = happening.is_struck();
    let head = Text {
        day,
        time,
        mark,
        struck,
        ..Text::default()
    };
    push_text(lines, Some(at), &happening.word, figures, head);
    let under_it = Text {
        under: true,
        ..Text::default()
    };
    if let Some((text, role)) = under {
        for text in wrap(&text, room.max(6)) {
            let mark = Text {
                mark: Some((text, role)),
                ..under_it.clone()
            };
            push_text(lines, Some(at), "", Vec::new(), mark);
        }
    }
    for (word, figures) in &happening.details {
        let figures = flow(figures, ", ", room);
        push_text(lines, Some(at), word, figures, under_it.clone());
    }
}

/// A line of text, and further ones for figures that find no room in it.
fn push_text(
    lines: &mut Vec<Line>,
    of: Option<usize>,
    word: &str,
    figures: Vec<String>,
    first: Text,
) {
    let rest = Text {
        struck: first.struck,
        under: first.under,
        next: first.next,
        ..Text::default()
    };
    let mut figures = figures.into_iter();
    let first = Text {
        word: word.to_owned(),
        figures: figures.next().unwrap_or_default(),
        ..first
    };
    lines.push(Line {
        of,
        kind: LineKind::Text(first),
    });
    lines.extend(figures.map(|figures| Line {
        of,
        kind: LineKind::Text(Text {
            figures,
            ..rest.clone()
        }),
    }));
}

/// Figures with their labels, as many on a line as fit.
fn push_more<'p>(
    lines: &mut Vec<Line>,
    at: usize,
    pairs: impl Iterator<Item = (&'p str, &'p str)>,
    room: usize,
) {
    let mut line: Vec<(String, Role)> = Vec::new();
    let mut used = 0;
    let mut flowed = Vec::new();
    for (label, value) in pairs {
        let (label, value) = (shown_line(label), shown_line(value));
        let gap = usize::from(!label.is_empty());
        let wide = width(&label) + gap + width(&value);
        let between = if line.is_empty() { 0 } else { 3 };
        if used + between + wide > room && !line.is_empty() {
            flowed.push(std::mem::take(&mut line));
            used = 0;
        }
        if used > 0 {
            line.push(("   ".to_owned(), Role::Text));
            used += 3;
        }
        let role = if label.is_empty() {
            Role::Quiet
        } else {
            Role::Text
        };
        if !label.is_empty() {
            line.push((format!("{label} "), Role::Quiet));
            used += width(&label) + 1;
        }
        if used + width(&value) <= room {
            used += width(&value);
            line.push((value.into_owned(), role));
            continue;
        }
        // A value that is longer than the line goes on under its label.
        let mut parts = wrap_after(&value, room.saturating_sub(used), room).into_iter();
        line.extend(parts.next().map(|part| (part, role)));
        for part in parts {
            flowed.push(std::mem::take(&mut line));
            used = width(&part);
            line.push((part, role));
        }
    }
    if !line.is_empty() {
        flowed.push(line);
    }
    lines.extend(flowed.into_iter().map(|pieces| Line {
        of: Some(at),
        kind: LineKind::More(pieces),
    }));
}

/// Wraps a text whose first line has less room than the others.
fn wrap_after(text: &str, first: usize, room: usize) -> Vec<String> {
    let mut lines = Vec::new();
    let head = wrap(text, first).into_iter().next().unwrap_or_default();
    let rest = text.get(head.len()..).unwrap_or_default().trim_start();
    lines.push(head);
    if !rest.is_empty() {
        lines.extend(wrap(rest, room));
    }
    if lines.len() > FIGURE_LINES {
        lines.truncate(FIGURE_LINES);
        if let Some(last) = lines.last_mut() {
            *last = fit(&format!("{last} …"), room).into_owned();
        }
    }
    lines
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

/// A sign at the right end that there is more above or below.
fn more(look: &Look, buf: &mut Buffer, line: Rect) {
    let at = rest_of(line, line.width.saturating_sub(1));
    look.put(buf, at, look.symbols.cut, Role::Quiet);
}

#[cfg(test)]
mod tests;
