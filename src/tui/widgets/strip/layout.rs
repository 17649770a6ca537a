//! Laying the entries of a strip out in lines.

use chrono::Timelike;

use super::{FIGURE_LINES, Happening, Line, LineKind, Text, line};
use crate::export::shown::{fit, shown_line, width};
use crate::tui::ink::wrap;
use crate::tui::theme::Role;

pub(super) fn push_happening(
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
pub(super) fn push_text(
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
    lines.push(line(of, LineKind::Text(first)));
    lines.extend(figures.map(|figures| {
        let text = Text {
            figures,
            ..rest.clone()
        };
        line(of, LineKind::Text(text))
    }));
}

/// Figures with their labels, as many on a line as fit.
pub(super) fn push_more<'p>(
    lines: &mut Vec<Line>,
    at: usize,
    pairs: impl Iterator<Item = (&'p str, &'p str)>,
    room: usize,
) {
    let mut pieces: Vec<(String, Role)> = Vec::new();
    let mut used = 0;
    let mut flowed = Vec::new();
    for (label, value) in pairs {
        let (label, value) = (shown_line(label), shown_line(value));
        let gap = usize::from(!label.is_empty());
        let wide = width(&label) + gap + width(&value);
        let between = if pieces.is_empty() { 0 } else { 3 };
        if used + between + wide > room && !pieces.is_empty() {
            flowed.push(std::mem::take(&mut pieces));
            used = 0;
        }
        if used > 0 {
            pieces.push(("   ".to_owned(), Role::Text));
            used += 3;
        }
        let role = if label.is_empty() {
            Role::Quiet
        } else {
            Role::Text
        };
        if !label.is_empty() {
            pieces.push((format!("{label} "), Role::Quiet));
            used += width(&label) + 1;
        }
        if used + width(&value) <= room {
            used += width(&value);
            pieces.push((value.into_owned(), role));
            continue;
        }
        // A value that is longer than the line goes on under its label.
        let mut parts = wrap_after(&value, room.saturating_sub(used), room).into_iter();
        pieces.extend(parts.next().map(|part| (part, role)));
        for part in parts {
            flowed.push(std::mem::take(&mut pieces));
            used = width(&part);
            pieces.push((part, role));
        }
    }
    if !pieces.is_empty() {
        flowed.push(pieces);
    }
    let flowed = flowed.into_iter().map(LineKind::More);
    lines.extend(flowed.map(|kind| line(Some(at), kind)));
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
pub(super) fn flow(pieces: &[String], between: &str, room: usize) -> Vec<String> {
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
