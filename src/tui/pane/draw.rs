//! The picture of a pane.

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use super::Pane;
use crate::logbook::follows::{Follow, Weight};
use crate::tui::ink::{below, cells, line_of, rest_of, rest_of_all, wrap};
use crate::tui::look::Look;
use crate::tui::theme::Role;
use crate::tui::widgets::ledger::{self, Figure, Line};

/// Width from which what follows stands beside the form instead of under it.
const BESIDE: u16 = 72;

/// Where the parts of a pane are.
struct Parts {
    title: Rect,
    form: Rect,
    follows: Rect,
    refusal: Rect,
}

impl Pane {
    fn parts(&self, area: Rect) -> Parts {
        let title = line_of(area, 0);
        let body = below(area, 2);
        let refusal = self.refusal_lines(body.width);
        let refused = cells(refusal.len()).min(body.height / 2);
        let upper = Rect {
            height: body.height - refused,
            ..body
        };
        let refusal = Rect {
            y: upper.bottom(),
            height: refused,
            ..body
        };
        if area.width >= BESIDE {
            let wide = (area.width * 11 / 20).min(76);
            Parts {
                title,
                form: Rect {
                    width: wide,
                    ..upper
                },
                follows: rest_of_all(upper, wide + 1),
                refusal,
            }
        } else {
            let lines = upper.height / 3;
            let form = Rect {
                height: upper.height - lines,
                ..upper
            };
            Parts {
                title,
                form,
                follows: below(upper, form.height),
                refusal,
            }
        }
    }

    /// Puts the focus on the field drawn at `at`.
    pub fn click(&mut self, area: Rect, at: Position) -> bool {
        let form = self.parts(area).form;
        self.form.click(form, at)
    }

    /// Draws the pane and returns where the cursor belongs.
    pub fn render(&self, area: Rect, buf: &mut Buffer, look: &Look) -> Option<Position> {
        look.theme.paint_ground(area, buf);
        let parts = self.parts(area);
        let line = rest_of(parts.title, 1);
        let rest = look.put(buf, line, &self.title(), Role::Heading);
        if self.brought_back {
            look.put_end(buf, rest, "brought back as you left it", Role::Accent);
        }
        look.put_rule(buf, line_of(area, 1));
        let cursor = self.form.render(parts.form, buf, look, true);
        if parts.follows.x > parts.form.x {
            look.put_upright(
                buf,
                Rect {
                    width: 1,
                    ..parts.follows
                },
            );
            self.render_follows(rest_of_all(parts.follows, 2), buf, look);
        } else {
            look.put_rule(buf, line_of(parts.follows, 0));
            self.render_follows(below(parts.follows, 1), buf, look);
        }
        for (line, text) in parts.refusal.rows().zip(self.refusal_lines(area.width)) {
            look.put(buf, rest_of(line, 1), &text, Role::Error);
        }
        cursor
    }

    fn refusal_lines(&self, wide: u16) -> Vec<String> {
        let Some(refusal) = &self.refusal else {
            return Vec::new();
        };
        wrap(&format!("! {refusal}"), usize::from(wide.saturating_sub(2)))
    }

    fn render_follows(&self, area: Rect, buf: &mut Buffer, look: &Look) {
        // What to beware of comes before the figures, and what the hands do now after them.
        let order = |follow: &&Follow| match follow.weight {
            Weight::Warning => 0,
            Weight::Caution => 1,
            Weight::Plain => 2,
            Weight::Act => 3,
        };
        let mut follows: Vec<&Follow> = self.follows.iter().collect();
        follows.sort_by_key(order);
        let lines: Vec<Line> = follows.into_iter().map(line_of_ledger).collect();
        ledger::render(&lines, area, buf, look);
    }
}

fn line_of_ledger(follow: &Follow) -> Line {
    let figure = match follow.weight {
        Weight::Plain => Figure::new(&follow.label, &follow.value),
        Weight::Act => Figure::new("", &follow.value).with_role(Role::Accent),
        Weight::Warning => Figure::new("", &follow.value).with_role(Role::Warn),
        Weight::Caution if follow.label.is_empty() => {
            Figure::new("", &follow.value).with_role(Role::Warn)
        }
        Weight::Caution => {
            Figure::new("", format!("{}: {}", follow.label, follow.value)).with_role(Role::Warn)
        }
    };
    match follow.standing {
        Some(standing) if follow.weight == Weight::Plain => {
            Line::Figure(figure.with_note(standing.word()))
        }
        _ => Line::Figure(figure),
    }
}
