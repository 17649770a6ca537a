//! The picture of a pane.

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use super::Pane;
use crate::logbook::follows::{Follow, Weight};
use crate::reference::Standing;
use crate::tui::ink::{below, cells, line_of, rest_of, wrap};
use crate::tui::look::Look;
use crate::tui::theme::Role;

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
                form: Rect { width: wide, ..upper },
                follows: rest_of(upper, wide + 1),
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
            look.put_upright(buf, Rect { width: 1, ..parts.follows });
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
        let labels = self
            .follows
            .iter()
            .filter(|follow| follow.weight == Weight::Plain)
            .map(|follow| crate::export::shown::width(&follow.label))
            .max()
            .unwrap_or(0)
            .min(usize::from(area.width / 3));
        let mut rest = area;
        // What there is to do and to beware of comes before the figures, which can be long.
        let order = |follow: &&Follow| match follow.weight {
            Weight::Warning => 0,
            Weight::Caution => 1,
            Weight::Plain => 2,
            Weight::Act => 3,
        };
        let mut follows: Vec<&Follow> = self.follows.iter().collect();
        follows.sort_by_key(order);
        for follow in follows {
            rest = render_follow(follow, labels, rest, buf, look);
            if rest.is_empty() {
                return;
            }
        }
    }
}

fn rest_of_all(area: Rect, used: u16) -> Rect {
    let used = used.min(area.width);
    Rect {
        x: area.x + used,
        width: area.width - used,
        ..area
    }
}

const fn short_standing(standing: Standing) -> &'static str {
    match standing {
        Standing::Published => "published",
        Standing::Usual => "usual",
        Standing::Remembered => "remembered",
        Standing::Own => "own",
    }
}

fn render_follow(follow: &Follow, labels: usize, area: Rect, buf: &mut Buffer, look: &Look) -> Rect {
    let (sign, role) = match follow.weight {
        Weight::Plain => ("", Role::Text),
        Weight::Act => ("> ", Role::Accent),
        Weight::Warning => ("! ", Role::Warn),
        Weight::Caution => ("! ", Role::Warn),
    };
    let value = match follow.standing {
        Some(standing) if follow.weight == Weight::Plain => {
            format!("{}  ({})", follow.value, short_standing(standing))
        }
        _ => follow.value.clone(),
    };
    let indent = if follow.weight == Weight::Plain { cells(labels) + 2 } else { 0 };
    let text = match follow.weight {
        Weight::Caution if !follow.label.is_empty() => format!("{sign}{}: {value}", follow.label),
        _ => format!("{sign}{value}"),
    };
    let room = usize::from(area.width.saturating_sub(indent));
    let mut rest = area;
    for (at, line) in wrap(&text, room.max(1)).iter().enumerate() {
        if rest.is_empty() {
            break;
        }
        let first = line_of(rest, 0);
        if at == 0 && follow.weight == Weight::Plain {
            let label = Rect { width: cells(labels).min(first.width), ..first };
            look.put(buf, label, &follow.label, Role::Quiet);
        }
        look.put(buf, rest_of(first, indent), line, role);
        rest = below(rest, 1);
    }
    rest
}
