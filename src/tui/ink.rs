//! Putting text into the picture.
//!
//! For: every piece of text that is drawn passes [`Look::put`] or one of its siblings here, which
//! make hidden characters visible and cut at the width they are given.
//!
//! Promises: nothing is drawn outside the line it was given, nor outside the picture; a cut is
//! marked; no area is too small.

use std::borrow::Cow;

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};

use crate::export::shown::{shown_line, take, width};
pub use crate::export::wrap;

use super::look::Look;
use super::theme::Role;

impl Look {
    /// Draws one line of text at the left of `line` and returns what is left of the line.
    pub fn put(&self, buf: &mut Buffer, line: Rect, text: &str, role: Role) -> Rect {
        self.put_styled(buf, line, text, self.style(role))
    }

    /// Like [`Look::put`], with a style that was put together elsewhere.
    #[expect(
        clippy::disallowed_methods,
        reason = "the one place where text is drawn"
    )]
    pub fn put_styled(&self, buf: &mut Buffer, line: Rect, text: &str, style: Style) -> Rect {
        let line = line.intersection(buf.area);
        if line.is_empty() {
            return line;
        }
        let text = self.fitted(text, line.width);
        // What was drawn there before leaves nothing of its looks behind.
        let style = Style::reset().patch(style);
        let (end, _) = buf.set_stringn(line.x, line.y, &text, usize::from(line.width), style);
        let used = end.saturating_sub(line.x);
        rest_of(line, used)
    }

    /// Draws text at the right end of `line` and returns what is left before it.
    pub fn put_end(&self, buf: &mut Buffer, line: Rect, text: &str, role: Role) -> Rect {
        let line = line.intersection(buf.area);
        if line.is_empty() {
            return line;
        }
        let text = self.fitted(text, line.width);
        let used = cells(width(&text)).min(line.width);
        let before = line.width - used;
        let at = Rect {
            x: line.x + before,
            width: used,
            ..line
        };
        self.put_styled(buf, at, &text, self.style(role));
        Rect {
            width: before,
            ..line
        }
    }

    /// Draws several pieces one after the other, each in its role.
    pub fn put_all<'t>(
        &self,
        buf: &mut Buffer,
        line: Rect,
        pieces: impl IntoIterator<Item = (&'t str, Role)>,
    ) -> Rect {
        pieces
            .into_iter()
            .fold(line, |rest, (text, role)| self.put(buf, rest, text, role))
    }

    /// Draws a thin line over the whole width of `line`.
    pub fn put_rule(&self, buf: &mut Buffer, line: Rect) {
        let text = self.symbols.rule.repeat(usize::from(line.width));
        self.put(buf, line, &text, Role::Rule);
    }

    /// Draws a thin upright line down the first column of `area`.
    pub fn put_upright(&self, buf: &mut Buffer, area: Rect) {
        for line in area.rows() {
            self.put(buf, line, self.symbols.upright, Role::Rule);
        }
    }

    /// Gives every cell of `line` the looks of a role, in place of the looks of what is drawn there;
    /// crossed-out text stays crossed out.
    pub fn tint(&self, buf: &mut Buffer, line: Rect, role: Role) {
        let style = Style::reset().patch(self.style(role));
        for at in line.intersection(buf.area).positions() {
            if let Some(cell) = buf.cell_mut(at) {
                let struck = cell.modifier & Modifier::CROSSED_OUT;
                cell.set_style(style.add_modifier(struck));
            }
        }
    }

    fn fitted<'t>(&self, text: &'t str, room: u16) -> Cow<'t, str> {
        let text = shown_line(text);
        let room = usize::from(room);
        if width(&text) <= room {
            return text;
        }
        let mut out = take(&text, room.saturating_sub(1)).to_owned();
        if room > 0 {
            out.push_str(self.symbols.cut);
        }
        Cow::Owned(out)
    }
}

/// What is left of `line` after `used` cells.
pub fn rest_of(line: Rect, used: u16) -> Rect {
    let used = used.min(line.width);
    Rect {
        x: line.x + used,
        width: line.width - used,
        ..line
    }
}

/// What is left of `area` at the right of `used` columns.
pub fn rest_of_all(area: Rect, used: u16) -> Rect {
    let used = used.min(area.width);
    Rect {
        x: area.x + used,
        width: area.width - used,
        ..area
    }
}

/// The `at`-th line of `area`, empty if the area is not that high.
pub fn line_of(area: Rect, at: u16) -> Rect {
    if at >= area.height {
        return Rect {
            width: 0,
            height: 0,
            ..area
        };
    }
    Rect {
        y: area.y + at,
        height: 1,
        ..area
    }
}

/// `area` without its first `lines` lines.
pub fn below(area: Rect, lines: u16) -> Rect {
    let lines = lines.min(area.height);
    Rect {
        y: area.y + lines,
        height: area.height - lines,
        ..area
    }
}

/// A count of cells as the screen counts them.
pub fn cells(count: usize) -> u16 {
    u16::try_from(count).unwrap_or(u16::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tui::theme::{Depth, Theme, ThemeName};

    fn buffer(width: u16) -> Buffer {
        Buffer::empty(Rect::new(0, 0, width, 1))
    }

    #[test]
    fn pieces_follow_each_other_and_the_last_is_cut_with_a_mark() {
        let look = Look::plain();
        let mut buf = buffer(12);
        let area = buf.area;
        let rest = look.put_all(
            &mut buf,
            area,
            [("S-0042 ", Role::Text), ("exposed", Role::Text)],
        );
        assert_eq!(rest.width, 0);
        assert_eq!(buf, Buffer::with_lines(["S-0042 expo…"]));
    }

    #[test]
    fn text_at_the_end_leaves_the_beginning() {
        let look = Look::plain();
        let mut buf = buffer(10);
        let area = buf.area;
        let rest = look.put_end(&mut buf, area, "1.55", Role::Text);
        assert_eq!((rest.x, rest.width), (0, 6));
        assert_eq!(buf, Buffer::with_lines(["      1.55"]));
    }

    #[test]
    fn what_is_drawn_over_something_has_its_own_looks_alone() {
        let look = Look::new(Theme::new(ThemeName::Dark, Depth::Many));
        let mut buf = buffer(6);
        let area = buf.area;
        look.put(&mut buf, area, "------", Role::Rule);
        look.put(&mut buf, area, "sheets", Role::Heading);
        let mut alone = buffer(6);
        look.put(&mut alone, area, "sheets", Role::Heading);
        assert_eq!(buf, alone);
    }

    #[test]
    fn a_tint_keeps_what_is_crossed_out_crossed_out() {
        let look = Look::plain();
        let mut buf = buffer(3);
        let area = buf.area;
        look.put(&mut buf, area, "6 s", Role::Struck);
        look.tint(&mut buf, area, Role::Selected);
        let modifier = buf.content[0].modifier;
        assert!(modifier.contains(Modifier::CROSSED_OUT | Modifier::REVERSED));
        look.tint(&mut buf, area, Role::Text);
        assert_eq!(buf.content[0].modifier, Modifier::CROSSED_OUT);
    }

    #[test]
    fn a_line_outside_the_picture_draws_nothing() {
        let look = Look::plain();
        let mut buf = buffer(4);
        look.put(&mut buf, Rect::new(0, 7, 9, 1), "lost", Role::Text);
        look.put(&mut buf, Rect::new(9, 0, 9, 1), "lost", Role::Text);
        look.put_end(&mut buf, Rect::new(2, 0, 0, 0), "lost", Role::Text);
        assert_eq!(buf, Buffer::with_lines(["    "]));
    }

    #[test]
    fn hidden_characters_become_visible_on_the_way() {
        let look = Look::plain();
        let mut buf = buffer(20);
        let area = buf.area;
        look.put(&mut buf, area, "a\u{202e}b\nc", Role::Text);
        assert_eq!(buf, Buffer::with_lines(["a<U+202E>b↵c        "]));
    }
}
