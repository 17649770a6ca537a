//! The picture of a plan.

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use super::Planning;
use crate::tui::ink::{below, line_of, rest_of, rest_of_all, wrap};
use crate::tui::look::Look;
use crate::tui::theme::Role;
use crate::tui::widgets::ledger;
use crate::tui::widgets::listing::Step;

/// Width from which the needs stand beside the groups instead of under them.
const BESIDE: u16 = 72;

/// Most lines of the fields.
const MOST_LINES: u16 = 6;

impl Planning {
    fn parts(&self, area: Rect) -> (Rect, Rect, Rect) {
        let labels = self.form.label_cells(area.width);
        // What is wrong with a field stands in a line of its own.
        let high = self
            .form
            .fields()
            .iter()
            .map(|field| field.height(area.width, labels));
        let fields = below(area, 2);
        let fields = Rect {
            height: fields.height.min(high.sum::<u16>().min(MOST_LINES)),
            ..fields
        };
        let body = below(area, 3 + fields.height);
        if area.width >= BESIDE {
            let wide = (area.width * 2 / 5).max(30);
            let left = Rect {
                width: wide,
                ..body
            };
            return (fields, left, rest_of_all(body, wide + 1));
        }
        let high = (body.height / 3).max(2).min(body.height);
        let left = Rect {
            height: high,
            ..body
        };
        (fields, left, below(body, high))
    }

    /// Tells how large the screen is.
    pub fn settle(&mut self, area: Rect, look: &Look) {
        let right = right_of(self.parts(area));
        let tall = ledger::height(&self.lines(), right.width, look);
        self.too_long = tall > right.height;
        let most = usize::from(tall.saturating_sub(right.height));
        self.from = self.from.min(most);
    }

    /// Puts the cursor on what is drawn at `at`.
    pub fn click(&mut self, area: Rect, at: Position) {
        let (fields, left, _) = self.parts(area);
        if fields.contains(at) {
            self.asking = self.form.click(fields, at) || self.asking;
        } else if left.contains(at) {
            self.asking = false;
            let line = usize::from(at.y - left.y);
            let mut first = 0;
            for index in 0..self.groups().len() {
                let high = self.group_lines(index, left.width).len();
                if (first..first + high).contains(&line) {
                    self.step(Step::To(index));
                    return;
                }
                first += high;
            }
        }
    }

    /// Draws the plan and returns where the cursor belongs.
    pub fn render(&self, area: Rect, buf: &mut Buffer, look: &Look) -> Option<Position> {
        look.theme.paint_ground(area, buf);
        let (fields, left, right) = self.parts(area);
        let line = rest_of(line_of(area, 0), 1);
        let line = look.put_end(buf, line, &format!("  {}", self.whole()), Role::Text);
        let rest = look.put(buf, line, "plan", Role::Heading);
        look.put(buf, rest_of(rest, 2), "what to develop next", Role::Text);
        look.put_rule(buf, line_of(area, 1));
        let cursor = self.form.render(fields, buf, look, self.asking);
        look.put_rule(buf, line_of(area, 2 + fields.height));
        self.render_groups(left, buf, look);
        if right.x > left.x {
            let upright = Rect {
                x: right.x.saturating_sub(1),
                width: 1,
                ..right
            };
            look.put_upright(buf, upright);
        } else {
            look.put_rule(buf, line_of(right, 0));
        }
        let place = right_of((fields, left, right));
        ledger::render(&self.lines(), self.from, place, buf, look);
        cursor.filter(|_| self.asking)
    }

    /// Runs and time in all.
    fn whole(&self) -> String {
        let Some(plan) = &self.plan else {
            return String::new();
        };
        let clock = plan
            .clock
            .as_ref()
            .map(|clock| format!(", {} on the clock", clock.value));
        match plan.runs {
            0 => String::new(),
            1 => format!("1 run{}", clock.unwrap_or_default()),
            runs => format!("{runs} runs{}", clock.unwrap_or_default()),
        }
    }

    fn render_groups(&self, area: Rect, buf: &mut Buffer, look: &Look) {
        if self.groups().is_empty() {
            let words = match self.plan {
                Some(_) => "no sheet waits for development",
                None => "say above in what, and in which developer",
            };
            look.put(buf, rest_of(line_of(area, 0), 1), words, Role::Quiet);
            return;
        }
        let mut lines: Vec<(usize, String, Role)> = Vec::new();
        for index in 0..self.groups().len() {
            let of_group = self.group_lines(index, area.width);
            lines.extend(of_group.into_iter().map(|(text, role)| (index, text, role)));
        }
        let last = lines
            .iter()
            .rposition(|(index, ..)| *index == self.cursor)
            .unwrap_or(0);
        let from = (last + 1).saturating_sub(usize::from(area.height));
        let first = lines
            .iter()
            .position(|(index, ..)| *index == self.cursor)
            .unwrap_or(0);
        let from = from.min(first);
        let mut before = None;
        for (place, (index, text, role)) in area.rows().zip(lines.iter().skip(from)) {
            let here = *index == self.cursor;
            if here && before != Some(*index) {
                let mark = if self.asking {
                    " "
                } else {
                    look.symbols.marker
                };
                look.put(buf, place, mark, Role::Accent);
            }
            before = Some(*index);
            look.put(buf, rest_of(place, 2), text, *role);
        }
    }

    /// A group: its film and time, its sheets by runs.
    fn group_lines(&self, index: usize, wide: u16) -> Vec<(String, Role)> {
        let Some(group) = self.groups().get(index) else {
            return Vec::new();
        };
        let size = group
            .size
            .map(|size| format!(" {size}"))
            .unwrap_or_default();
        let asked = group
            .asked
            .as_ref()
            .map(|asked| format!("  {asked}"))
            .unwrap_or_default();
        let time = match &group.time {
            Ok(reckoned) => reckoned.time.to_string(),
            Err(_) => "no time".to_owned(),
        };
        let role = if index == self.cursor {
            Role::Heading
        } else {
            Role::Text
        };
        let runs = match group.runs.len() {
            0 => "no run".to_owned(),
            1 => "1 run".to_owned(),
            runs => format!("{runs} runs"),
        };
        let mut lines = vec![
            (format!("{}{size}{asked}", group.film), role),
            (format!("{time}, {runs}"), role),
        ];
        let runs: Vec<String> = match group.runs.is_empty() {
            true => vec![
                group
                    .sheets
                    .iter()
                    .map(|it| it.reference())
                    .collect::<Vec<_>>()
                    .join(" "),
            ],
            false => group.runs.iter().map(|run| run.join(" ")).collect(),
        };
        let room = usize::from(wide.saturating_sub(4)).max(8);
        for run in runs {
            let wrapped = wrap(&run, room);
            lines.extend(wrapped.into_iter().map(|line| (line, Role::Quiet)));
        }
        lines
    }
}

/// The right part without the line that parts it from the left one.
fn right_of((_, left, right): (Rect, Rect, Rect)) -> Rect {
    if right.x > left.x {
        rest_of_all(right, 1)
    } else {
        below(right, 1)
    }
}
