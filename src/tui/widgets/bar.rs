//! The line at the top: where one is, and where one can go.
//!
//! For: the name of the logbook, the screens, and a word at the right end (running clocks, "read
//! only").

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use crate::export::shown::{shown_line, width};
use crate::tui::ink::{cells, rest_of};
use crate::tui::look::Look;
use crate::tui::theme::Role;

/// What stands in the line.
#[derive(Debug, Clone, Copy)]
pub struct Bar<'b> {
    /// Name of the program and the logbook.
    pub title: &'b str,
    /// Names of the screens.
    pub screens: &'b [&'b str],
    /// Which of them is open.
    pub open: usize,
    /// A word at the right end.
    pub end: &'b str,
}

impl Bar<'_> {
    /// Draws the line. The open screen keeps its room longest, the title gives way first.
    pub fn render(&self, line: Rect, buf: &mut Buffer, look: &Look) {
        let (title, tabs, end) = self.layout(line);
        look.put(buf, title, self.title, Role::Heading);
        for (at, place) in tabs {
            let name = self.screens.get(at).copied().unwrap_or_default();
            if at == self.open {
                let rest = look.put(buf, place, look.symbols.marker, Role::Accent);
                look.put(buf, rest, name, Role::Heading);
            } else {
                look.put(buf, rest_of(place, 1), name, Role::Quiet);
            }
        }
        look.put(buf, end, self.end, Role::Accent);
    }

    /// The screen whose name is drawn at `at`.
    pub fn click(&self, line: Rect, at: Position) -> Option<usize> {
        let (_, tabs, _) = self.layout(line);
        tabs.into_iter()
            .find(|(_, place)| place.contains(at))
            .map(|(at, _)| at)
    }

    fn layout(&self, line: Rect) -> (Rect, Vec<(usize, Rect)>, Rect) {
        let empty = Rect { width: 0, ..line };
        if line.is_empty() {
            return (empty, Vec::new(), empty);
        }
        let end_cells = cells(width(&shown_line(self.end)));
        let name_cells = |name: &str| cells(width(name)) + 1;
        let all: u16 = self.screens.iter().map(|name| name_cells(name) + 1).sum();
        let open = self
            .screens
            .get(self.open)
            .map_or(0, |name| name_cells(name));
        let end_cells = if open + end_cells + 2 <= line.width {
            end_cells
        } else {
            0
        };
        let inner = line
            .width
            .saturating_sub(end_cells + u16::from(end_cells > 0));
        let end = rest_of(line, line.width - end_cells);
        let mut tabs = Vec::new();
        let mut start = inner.saturating_sub(all);
        let title = Rect {
            x: line.x + u16::from(line.width > 1),
            width: start.saturating_sub(2),
            ..line
        };
        let fits = all <= inner;
        for (at, name) in self.screens.iter().enumerate() {
            if !fits && at != self.open {
                continue;
            }
            let place = rest_of(line, start);
            let wide = name_cells(name).min(inner.saturating_sub(start));
            tabs.push((
                at,
                Rect {
                    width: wide,
                    ..place
                },
            ));
            start = start.saturating_add(wide + 1);
        }
        (title, tabs, end)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const BAR: Bar<'_> = Bar {
        title: "notchbook · winter quarry",
        screens: &["Sheets", "Rack", "Prints"],
        open: 1,
        end: "◷ 2",
    };

    fn drawn(wide: u16) -> String {
        let area = Rect::new(0, 0, wide, 1);
        let mut buf = Buffer::empty(area);
        BAR.render(area, &mut buf, &Look::plain());
        buf.content().iter().map(|cell| cell.symbol()).collect()
    }

    #[test]
    fn the_title_gives_way_and_the_open_screen_stays() {
        assert_eq!(
            drawn(60),
            " notchbook · winter quarry         Sheets ▸Rack  Prints  ◷ 2"
        );
        assert_eq!(drawn(40), " notchbook ·…  Sheets ▸Rack  Prints  ◷ 2");
        assert_eq!(drawn(14), "▸Rack      ◷ 2");
        assert_eq!(drawn(5), "▸Rack");
    }

    #[test]
    fn a_click_finds_the_screen_under_it() {
        let line = Rect::new(0, 0, 60, 1);
        let drawn = drawn(60);
        let at = drawn.chars().position(|c| c == 'P').unwrap() as u16;
        assert_eq!(BAR.click(line, Position::new(at, 0)), Some(2));
        assert_eq!(BAR.click(line, Position::new(2, 0)), None);
    }
}
