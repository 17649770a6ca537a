//! A box over the screen.
//!
//! For: whatever opens over a screen draws its frame here, so that all of them look alike.

use ratatui::buffer::Buffer;
use ratatui::layout::{Margin, Rect};

use crate::export::shown::shown_line;
use crate::tui::ink::{line_of, rest_of};
use crate::tui::look::Look;
use crate::tui::theme::Role;

/// A centred box with a title.
#[derive(Debug, Clone, Copy)]
pub struct Overlay<'o> {
    /// What stands in its upper edge.
    pub title: &'o str,
    /// What stands in its lower edge: keys, usually.
    pub foot: &'o str,
    /// Cells and lines inside, if the screen has them.
    pub inner: (u16, u16),
}

impl Overlay<'_> {
    /// Where the inside will be.
    pub fn inner(&self, area: Rect) -> Rect {
        inner_of(self.outer(area))
    }

    /// Draws the empty box and returns its inside.
    pub fn render(&self, area: Rect, buf: &mut Buffer, look: &Look) -> Rect {
        let outer = self.outer(area).intersection(buf.area);
        if outer.is_empty() {
            return outer;
        }
        look.theme.paint_ground(outer, buf);
        if outer.width < 5 || outer.height < 3 {
            return outer;
        }
        let [top_left, top_right, bottom_left, bottom_right] = look.symbols.corners;
        let edge = |text: &str, left: &str, right: &str, room: u16| {
            let text = shown_line(text);
            let text = crate::export::shown::fit(&text, usize::from(room.saturating_sub(6)));
            let text = if text.is_empty() {
                String::new()
            } else {
                format!(" {text} ")
            };
            (
                format!("{left}{}", look.symbols.rule),
                text,
                right.to_owned(),
            )
        };
        let bottom = outer.height - 1;
        for (at, text, left, right, role) in [
            (0, self.title, top_left, top_right, Role::Heading),
            (bottom, self.foot, bottom_left, bottom_right, Role::Quiet),
        ] {
            let line = line_of(outer, at);
            look.put_rule(buf, line);
            let (start, text, end) = edge(text, left, right, outer.width);
            look.put_all(buf, line, [(&*start, Role::Rule), (&*text, role)]);
            look.put_end(buf, line, &end, Role::Rule);
        }
        let sides = Rect {
            y: outer.y + 1,
            height: outer.height - 2,
            ..outer
        };
        look.put_upright(buf, sides);
        look.put_upright(buf, rest_of(sides, sides.width - 1));
        inner_of(outer)
    }

    fn outer(&self, area: Rect) -> Rect {
        let (wide, high) = self.inner;
        let wide = wide.saturating_add(4).min(area.width);
        let high = high.saturating_add(2).min(area.height);
        Rect {
            x: area.x + (area.width - wide) / 2,
            y: area.y + (area.height - high) / 2,
            width: wide,
            height: high,
        }
    }
}

fn inner_of(outer: Rect) -> Rect {
    if outer.width < 5 || outer.height < 3 {
        outer
    } else {
        outer.inner(Margin::new(2, 1))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_box_stands_in_the_middle_and_hides_what_is_under_it() {
        let area = Rect::new(0, 0, 16, 5);
        let mut buf = Buffer::with_lines(["xxxxxxxxxxxxxxxx"; 5]);
        let overlay = Overlay {
            title: "strike\x1b",
            foot: "esc",
            inner: (10, 1),
        };
        let inner = overlay.render(area, &mut buf, &Look::plain());
        assert_eq!(inner, Rect::new(3, 2, 10, 1));
        assert_eq!(overlay.inner(area), inner);
        let rows: Vec<String> = area
            .rows()
            .map(|row| {
                row.columns()
                    .map(|at| buf[at.as_position()].symbol())
                    .collect()
            })
            .collect();
        assert_eq!(
            rows,
            [
                "xxxxxxxxxxxxxxxx",
                "x┌─ strike^[ ─┐x",
                "x│            │x",
                "x└─ esc ──────┘x",
                "xxxxxxxxxxxxxxxx",
            ]
        );
    }
}
