//! Digits so large that they are read at arm's length, made of seven strokes each.
//!
//! For: the figures of a running clock. They are drawn as rows of ordinary text, in ASCII where the
//! signs are ASCII, in thin lines where few cells may be lit.
//!
//! Promises: digits of one figure stand in places of one width, so that only the strokes that change
//! are drawn anew; whatever the area, something readable is drawn or nothing; nothing is drawn
//! outside it.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use crate::export::shown::width;
use crate::tui::ink::{cells, line_of, rest_of};
use crate::tui::look::Look;
use crate::tui::theme::Role;

/// A figure in large digits.
#[derive(Debug, Clone, Copy)]
pub struct Digits<'d> {
    /// Digits, colons, plus and minus.
    pub text: &'d str,
    /// Thin lines instead of blocks.
    pub thin: bool,
}

/// The size of a digit, in cells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Scale {
    wide: u16,
    high: u16,
    /// Thickness of upright strokes, in columns.
    stroke: u16,
    /// Thickness of flat strokes, in lines.
    flat: u16,
}

/// Sizes, the largest first. A cell is about twice as high as it is wide.
const SCALES: [Scale; 7] = [
    scale(24, 25, 4, 2),
    scale(20, 21, 4, 2),
    scale(16, 17, 3, 1),
    scale(12, 13, 2, 1),
    scale(10, 11, 2, 1),
    scale(7, 7, 2, 1),
    scale(5, 5, 1, 1),
];

const fn scale(wide: u16, high: u16, stroke: u16, flat: u16) -> Scale {
    Scale {
        wide,
        high,
        stroke,
        flat,
    }
}

/// Strokes: top, right above, right below, bottom, left below, left above, middle.
const STROKES: [&str; 10] = [
    "abcdef", "bc", "abged", "abgcd", "fgbc", "afgcd", "afgedc", "abc", "abcdefg", "abfgcd",
];

impl Scale {
    /// Cells of a sign.
    const fn cells_of(self, sign: char) -> u16 {
        match sign {
            ':' => self.stroke,
            '+' | '-' => self.wide / 2 + 1,
            _ => self.wide,
        }
    }

    const fn gap(self) -> u16 {
        1 + self.wide / 8
    }

    fn cells_of_all(self, text: &str) -> u16 {
        let mut signs = text.chars().map(|sign| self.cells_of(sign) + self.gap());
        let all = signs.try_fold(0_u16, |sum, cells| sum.checked_add(cells));
        all.unwrap_or(u16::MAX).saturating_sub(self.gap())
    }

    /// What of a sign is lit in a row, as runs of cells from its left.
    fn row_of(self, sign: char, row: u16) -> Vec<(u16, u16, Line)> {
        let middle = self.high / 2;
        let (wide, stroke) = (self.cells_of(sign), self.stroke);
        match sign {
            ':' => {
                let third = self.high / 4;
                let dots = [middle - third, middle + third];
                let lit = dots.contains(&row);
                lit.then_some((0, stroke, Line::Dot)).into_iter().collect()
            }
            '-' => {
                let lit = row == middle;
                lit.then_some((0, wide, Line::Flat)).into_iter().collect()
            }
            '+' => {
                let arm = (self.high / 5).max(1);
                let at = (wide - stroke.min(wide)) / 2;
                match row.abs_diff(middle) {
                    0 => vec![(0, wide, Line::Flat)],
                    off if off <= arm => vec![(at, stroke, Line::Upright)],
                    _ => Vec::new(),
                }
            }
            _ => {
                let digit = sign
                    .to_digit(10)
                    .and_then(|digit| usize::try_from(digit).ok());
                let strokes = digit.and_then(|digit| STROKES.get(digit)).unwrap_or(&"g");
                let has = |stroke: char| strokes.contains(stroke);
                let over = (self.high - self.flat) / 2;
                let (is_over, is_under) = (row < over, row >= over + self.flat);
                let flat = match row {
                    row if row < self.flat => has('a'),
                    row if row >= self.high - self.flat => has('d'),
                    _ => !is_over && !is_under && has('g'),
                };
                if flat {
                    return vec![(0, wide, Line::Flat)];
                }
                let left = (!is_under && has('f')) || (!is_over && has('e'));
                let right = (!is_under && has('b')) || (!is_over && has('c'));
                let mut runs = Vec::new();
                if left {
                    runs.push((0, stroke, Line::Upright));
                }
                if right {
                    runs.push((wide - stroke, stroke, Line::Upright));
                }
                runs
            }
        }
    }
}

/// What a run of lit cells belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Line {
    Flat,
    Upright,
    Dot,
}

impl Digits<'_> {
    /// The largest size that fits.
    fn scale(&self, area: Rect) -> Option<Scale> {
        SCALES
            .into_iter()
            .map(|scale| self.thinned(scale))
            .find(|scale| scale.high <= area.height && scale.cells_of_all(self.text) <= area.width)
    }

    const fn thinned(&self, scale: Scale) -> Scale {
        Scale {
            stroke: if self.thin { 1 } else { scale.stroke },
            flat: if self.thin { 1 } else { scale.flat },
            ..scale
        }
    }

    /// Draws the figure in the middle of `area`; in ordinary text where no size fits.
    pub fn render(&self, area: Rect, buf: &mut Buffer, look: &Look, role: Role) {
        let Some(scale) = self.scale(area) else {
            let at = area.width.saturating_sub(cells(width(self.text))) / 2;
            let line = line_of(area, area.height.saturating_sub(1) / 2);
            look.put(buf, rest_of(line, at), self.text, role);
            return;
        };
        let from = (area.width - scale.cells_of_all(self.text)) / 2;
        let top = (area.height - scale.high) / 2;
        for row in 0..scale.high {
            let text = self.row(scale, row, look);
            look.put(buf, rest_of(line_of(area, top + row), from), &text, role);
        }
    }

    /// One row of all signs.
    fn row(&self, scale: Scale, row: u16, look: &Look) -> String {
        let mut text = String::new();
        for (at, sign) in self.text.chars().enumerate() {
            if at > 0 {
                text.extend(std::iter::repeat_n(' ', usize::from(scale.gap())));
            }
            let mut done = 0;
            for (from, long, line) in scale.row_of(sign, row) {
                let mark = match (self.thin, line) {
                    (false, _) => look.symbols.block,
                    (true, Line::Flat) => look.symbols.rule,
                    (true, Line::Upright) => look.symbols.upright,
                    (true, Line::Dot) => look.symbols.dot,
                };
                text.extend(std::iter::repeat_n(' ', usize::from(from - done)));
                text.extend(std::iter::repeat_n(mark, usize::from(long)));
                done = from + long;
            }
            let rest = scale.cells_of(sign) - done;
            text.extend(std::iter::repeat_n(' ', usize::from(rest)));
        }
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tui::look::SymbolSet;

    fn drawn(text: &str, wide: u16, high: u16, thin: bool, symbols: SymbolSet) -> Vec<String> {
        let area = Rect::new(0, 0, wide, high);
        let mut buf = Buffer::empty(area);
        let mut look = Look::plain();
        look.symbols = symbols.symbols();
        Digits { text, thin }.render(area, &mut buf, &look, Role::Text);
        let rows = area.rows().map(|row| {
            let cells = row.columns().map(|at| buf[at.as_position()].symbol());
            cells.collect::<String>().trim_end().to_owned()
        });
        rows.collect()
    }

    #[test]
    fn digits_are_made_of_strokes() {
        assert_eq!(
            drawn("2:05", 23, 5, false, SymbolSet::Ascii),
            [
                "#####   ##### #####",
                "    # # #   # #",
                "#####   #   # #####",
                "#     # #   #     #",
                "#####   ##### #####",
            ]
            .map(|row| format!("  {row}"))
        );
        assert_eq!(
            drawn("-1", 12, 5, true, SymbolSet::Box),
            [
                "         │",
                "         │",
                " ───     │",
                "         │",
                "         │"
            ]
        );
    }

    #[test]
    fn the_largest_size_that_fits_is_taken_and_the_signs_keep_their_places() {
        for (wide, high, tall) in [(80, 24, 21), (80, 12, 11), (80, 8, 7), (12, 5, 5)] {
            let lit = drawn("38", wide, high, false, SymbolSet::Box);
            let lit = lit.iter().filter(|row| row.contains('█')).count();
            assert_eq!(lit, tall, "{wide} by {high}");
        }
        let edge = |text: &str| {
            let rows = drawn(text, 80, 11, false, SymbolSet::Ascii);
            rows.first().map(|row| row.len() - row.trim_start().len())
        };
        assert_eq!(edge("08"), edge("58"));
    }

    #[test]
    fn where_no_size_fits_the_figure_is_written() {
        assert_eq!(
            drawn("1:25", 10, 3, false, SymbolSet::Box),
            ["", "   1:25", ""]
        );
        assert_eq!(
            drawn("35", 0, 0, false, SymbolSet::Box),
            Vec::<String>::new()
        );
    }

    #[test]
    fn every_digit_is_another_picture() {
        for thin in [false, true] {
            let pictures: std::collections::BTreeSet<Vec<String>> = ('0'..='9')
                .map(|digit| drawn(&digit.to_string(), 5, 5, thin, SymbolSet::Ascii))
                .collect();
            assert_eq!(pictures.len(), 10);
        }
    }
}
