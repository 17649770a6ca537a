//! The picture of a pane.

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use super::Pane;
use crate::logbook::follows::{Follow, Weight};
use crate::tui::browse::KeyNames;
use crate::tui::ink::{below, cells, line_of, rest_of, rest_of_all, wrap};
use crate::tui::look::Look;
use crate::tui::theme::Role;
use crate::tui::widgets::ledger::{self, Figure, Line};
use crate::tui::widgets::listing::Step;

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
        let refusal = self.refusal_lines(body.width, &|_| String::new());
        let refused = cells(refusal.len()).min(body.height * 2 / 3);
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
            let wide = (area.width * 11 / 20).min(80);
            return Parts {
                title,
                form: Rect {
                    width: wide,
                    ..upper
                },
                follows: rest_of_all(upper, wide + 1),
                refusal,
            };
        }
        // Under the form what follows gets what the fields leave, and a third at least.
        let fields = cells(self.form.fields().len());
        let lines = (upper.height / 3).max(upper.height.saturating_sub(fields));
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

    /// What follows, without the line that parts it from the form.
    fn follows_area(parts: &Parts) -> Rect {
        if parts.follows.x > parts.form.x {
            rest_of_all(parts.follows, 2)
        } else {
            below(parts.follows, 1)
        }
    }

    /// Puts the focus on the field drawn at `at`.
    pub fn click(&mut self, area: Rect, at: Position) -> bool {
        let form = self.parts(area).form;
        self.form.click(form, at)
    }

    /// Whether what follows is drawn at `at`.
    pub fn is_on_follows(&self, area: Rect, at: Position) -> bool {
        self.parts(area).follows.contains(at)
    }

    /// Scrolls what follows.
    pub fn scroll(&mut self, step: Step) {
        self.from = match step {
            Step::Up(lines) => self.from.saturating_sub(lines),
            Step::Down(lines) => self.from.saturating_add(lines),
            Step::PageUp => self.from.saturating_sub(10),
            Step::PageDown => self.from.saturating_add(10),
            Step::First => 0,
            Step::Last => usize::MAX,
            Step::To(line) => line,
        };
    }

    /// Tells how large the screen is, so that what follows does not scroll beyond its end.
    pub fn settle(&mut self, area: Rect, look: &Look) {
        let place = Self::follows_area(&self.parts(area));
        let lines = self.ledger(place.height);
        let tall = ledger::height(&lines, place.width, look);
        self.too_long = tall > place.height;
        let most = usize::from(tall.saturating_sub(place.height));
        self.from = self.from.min(most);
    }

    /// Draws the pane and returns where the cursor belongs.
    pub fn render(
        &self,
        area: Rect,
        buf: &mut Buffer,
        look: &Look,
        keys: &KeyNames<'_>,
    ) -> Option<Position> {
        look.theme.paint_ground(area, buf);
        let parts = self.parts(area);
        let mut line = rest_of(parts.title, 1);
        if self.brought_back {
            line = look.put_end(buf, line, " brought back as you left it", Role::Accent);
        }
        let (what, to_what, more) = self.title();
        let rest = look.put(buf, line, &what, Role::Heading);
        let rest = look.put(buf, rest_of(rest, 2), &to_what, Role::Heading);
        look.put(buf, rest_of(rest, 2), &more, Role::Text);
        look.put_rule(buf, line_of(area, 1));
        let cursor = self.form.render(parts.form, buf, look, true);
        let follows = Self::follows_area(&parts);
        if parts.follows.x > parts.form.x {
            let upright = Rect {
                width: 1,
                ..parts.follows
            };
            look.put_upright(buf, upright);
        } else {
            look.put_rule(buf, line_of(parts.follows, 0));
        }
        ledger::render(&self.ledger(follows.height), self.from, follows, buf, look);
        let refusal = self.refusal_lines(area.width, keys);
        for (at, (line, text)) in parts.refusal.rows().zip(refusal).enumerate() {
            if at == 0 {
                look.put_rule(buf, line);
                continue;
            }
            let way_on = !text.starts_with(['!', ' ']);
            let role = if way_on { Role::Accent } else { Role::Error };
            look.put(buf, rest_of(line, 1), &text, role);
        }
        cursor
    }

    /// A rule, the refusal in full, and the way on where there is one.
    fn refusal_lines(&self, wide: u16, keys: &KeyNames<'_>) -> Vec<String> {
        let Some(refusal) = &self.refusal else {
            return Vec::new();
        };
        let room = usize::from(wide.saturating_sub(2));
        let mut lines = vec![String::new()];
        let told = wrap(&refusal.to_string(), room.saturating_sub(2));
        lines.extend(told.into_iter().enumerate().map(|(at, line)| {
            let sign = if at == 0 { "! " } else { "  " };
            format!("{sign}{line}")
        }));
        if refusal.can_be_overridden() {
            let key = keys("pane.override");
            lines.push(format!("{key} logs it all the same, with a reason"));
        }
        lines
    }

    /// What follows, for an area of this height. What to beware of comes before the figures, and what
    /// the hands do now after them. Cautions are said in full the first time a step is done and
    /// wherever there is room; else their names stand first and their words last.
    fn ledger(&self, high: u16) -> Vec<Line> {
        let of = |weight: Weight| {
            self.follows
                .iter()
                .filter(move |follow| follow.weight == weight)
        };
        let mut lines: Vec<Line> = of(Weight::Warning).map(line_of_ledger).collect();
        let cautions: Vec<&Follow> = of(Weight::Caution).collect();
        let short = self.last.is_some() && cautions.len() > 2 && high < 34;
        if short {
            let names: Vec<&str> = cautions
                .iter()
                .map(|caution| caution.label.as_str())
                .filter(|name| !name.is_empty())
                .collect();
            let names = format!("beware of: {}; in full further down", names.join("; "));
            lines.push(Line::Figure(Figure::new("", names).with_role(Role::Warn)));
        } else {
            lines.extend(cautions.iter().map(|caution| line_of_ledger(caution)));
        }
        lines.extend(of(Weight::Plain).map(line_of_ledger));
        if of(Weight::Result).next().is_some() {
            lines.push(Line::Part);
        }
        lines.extend(of(Weight::Result).map(line_of_ledger));
        lines.extend(of(Weight::Also).map(line_of_ledger));
        lines.extend(of(Weight::Act).map(line_of_ledger));
        if short {
            lines.push(Line::Rule);
            lines.extend(cautions.iter().map(|caution| line_of_ledger(caution)));
        }
        lines
    }
}

fn line_of_ledger(follow: &Follow) -> Line {
    let figure = match follow.weight {
        Weight::Plain | Weight::Also => Figure::new(&follow.label, &follow.value),
        Weight::Result => Figure::new(&follow.label, &follow.value).with_role(Role::Heading),
        Weight::Act => Figure::new("", &follow.value).with_role(Role::Accent),
        Weight::Warning => Figure::new("", &follow.value).with_role(Role::Warn),
        Weight::Caution if follow.label.is_empty() => {
            Figure::new("", &follow.value).with_role(Role::Warn)
        }
        Weight::Caution => {
            Figure::new("", format!("{}: {}", follow.label, follow.value)).with_role(Role::Warn)
        }
    };
    let standing = follow
        .standing
        .filter(|_| follow.weight != Weight::Caution)
        .map(|standing| standing.word());
    let notes: Vec<&str> = [standing, Some(follow.note.as_str())]
        .into_iter()
        .flatten()
        .filter(|note| !note.is_empty())
        .collect();
    Line::Figure(figure.with_note(notes.join(", ")))
}
