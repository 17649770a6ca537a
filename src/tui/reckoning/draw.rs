//! The picture of a reckoning pane.

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use super::Reckoning;
use crate::tui::bench::Bench;
use crate::tui::ink::{below, cells, line_of, rest_of, rest_of_all, wrap};
use crate::tui::look::Look;
use crate::tui::theme::Role;
use crate::tui::widgets::ledger;
use crate::tui::widgets::listing::Step;

/// Width from which the answer stands beside the questions instead of under them.
const BESIDE: u16 = 72;
/// Cells for what is typed, beside the labels.
const VALUE: u16 = 22;
/// The fewest cells of the questions beside an answer, and the most.
const FORM: (u16, u16) = (34, 64);
/// Most lines of the hint under the questions.
const HINT: usize = 4;

/// Where the parts of a pane are.
struct Parts {
    title: Rect,
    form: Rect,
    hint: Rect,
    /// The answer with the line that parts it from the questions.
    answer: Rect,
}

impl Parts {
    const fn is_beside(&self) -> bool {
        self.answer.x > self.form.x
    }

    /// The answer without the line that parts it from the questions.
    fn page(&self) -> Rect {
        if self.is_beside() {
            rest_of_all(self.answer, 2)
        } else {
            below(self.answer, 1)
        }
    }
}

impl Reckoning {
    fn parts(&self, area: Rect) -> Parts {
        let title = line_of(area, 0);
        let body = below(area, 2);
        let roomy = area.width.saturating_sub(80) / 4;
        let wide = (self.form.label_cells(area.width) + VALUE + roomy)
            .clamp(FORM.0, FORM.1)
            .min(area.width * 11 / 20);
        let page = area.width.saturating_sub(wide + 5);
        if area.width >= BESIDE && self.table_cells <= usize::from(page) {
            let column = Rect {
                width: wide,
                ..body
            };
            let hint = cells(self.hint(wide).len() + 1);
            let fields = body.height.saturating_sub(hint);
            return Parts {
                title,
                form: Rect {
                    height: fields,
                    ..column
                },
                hint: below(column, fields),
                answer: rest_of_all(body, wide + 1),
            };
        }
        // Under the questions the answer gets what they leave, and half at least. The hint stands in
        // the title's line.
        let asks: u16 = cells(self.form.fields().len());
        let form = Rect {
            height: asks.max(3).min(body.height / 2),
            ..body
        };
        Parts {
            title,
            form,
            hint: Rect { height: 0, ..body },
            answer: below(body, form.height),
        }
    }

    /// What the focused question means, in lines.
    fn hint(&self, wide: u16) -> Vec<String> {
        let focused = self.form.focused();
        let ask =
            focused.and_then(|field| self.recipe.asks.iter().find(|ask| ask.key == field.key));
        let hint = ask.map_or("", |ask| ask.hint);
        let mut lines = wrap(hint, usize::from(wide.saturating_sub(3)));
        lines.truncate(HINT);
        lines
    }

    /// Puts the focus on the field drawn at `at`.
    pub fn click(&mut self, area: Rect, at: Position, bench: &Bench) {
        let form = self.parts(area).form;
        self.leave_field();
        self.form.click(form, at);
        self.reckon(bench);
    }

    /// Whether the answer is drawn at `at`.
    pub fn is_on_answer(&self, area: Rect, at: Position) -> bool {
        self.parts(area).answer.contains(at)
    }

    /// Scrolls the answer.
    pub fn scroll(&mut self, step: Step) {
        // Two lines stay in view, to find one's place by.
        let page = usize::from(self.high.saturating_sub(2).max(1));
        self.from = match step {
            Step::Up(lines) => self.from.saturating_sub(lines),
            Step::Down(lines) => self.from.saturating_add(lines),
            Step::PageUp => self.from.saturating_sub(page),
            Step::PageDown => self.from.saturating_add(page),
            Step::First => 0,
            Step::Last => usize::MAX,
            Step::To(line) => line,
        };
    }

    /// Tells how large the screen is, so that the answer does not scroll beyond its end.
    pub fn settle(&mut self, area: Rect, look: &Look) {
        let place = self.parts(area).page();
        let lines = self.page((place.width, place.height), look);
        let tall = ledger::height(&lines, place.width, look);
        self.too_long = tall > place.height;
        self.high = place.height;
        let most = usize::from(tall.saturating_sub(place.height));
        self.from = self.from.min(most);
    }

    /// Draws the pane and returns where the cursor belongs.
    pub fn render(&self, area: Rect, buf: &mut Buffer, look: &Look) -> Option<Position> {
        look.theme.paint_ground(area, buf);
        let parts = self.parts(area);
        let line = rest_of(parts.title, 1);
        let chapter = format!("  {}", self.recipe.chapter);
        let line = look.put_end(buf, line, &chapter, Role::Quiet);
        let rest = look.put(buf, line, self.recipe.word, Role::Heading);
        look.put(buf, rest_of(rest, 2), self.recipe.title, Role::Text);
        look.put_rule(buf, line_of(area, 1));
        let cursor = self.form.render(parts.form, buf, look, true);
        if parts.is_beside() {
            look.put_rule(buf, line_of(parts.hint, 0));
            let hint = self.hint(parts.hint.width);
            for (line, text) in below(parts.hint, 1).rows().zip(hint) {
                look.put(buf, rest_of(line, 2), &text, Role::Quiet);
            }
            let upright = Rect {
                width: 1,
                ..parts.answer
            };
            look.put_upright(buf, upright);
        } else {
            // What the question means stands in the line under the questions.
            let line = line_of(parts.answer, 0);
            look.put_rule(buf, line);
            if let Some(hint) = self.hint(u16::MAX).first() {
                let line = rest_of(line, 1);
                let line = Rect {
                    width: line.width.saturating_sub(2),
                    ..line
                };
                look.put(buf, line, &format!(" {hint} "), Role::Quiet);
            }
        }
        let page = parts.page();
        let lines = self.page((page.width, page.height), look);
        ledger::render(&lines, self.from, page, buf, look);
        cursor
    }
}
