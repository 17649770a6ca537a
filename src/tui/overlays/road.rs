//! The road from a thing back to everything behind it, or on to everything that came of it.

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use crate::logbook::Thing;
use crate::store::StoreError;
use crate::store::rows::TraceStep;
use crate::tui::bench::Bench;
use crate::tui::ink::{below, cells, line_of, rest_of, wrap};
use crate::tui::look::Look;
use crate::tui::theme::Role;
use crate::tui::widgets::listing::Step;
use crate::tui::widgets::overlay::Overlay;

/// The steps of a road and which one the cursor is on.
#[derive(Debug)]
pub struct Road {
    from: Thing,
    name: String,
    onwards: bool,
    steps: Vec<TraceStep>,
    cursor: usize,
}

/// One drawn line: the step it belongs to, its indent, its text.
struct Line {
    of: usize,
    indent: u16,
    text: String,
    role: Role,
}

impl Road {
    /// The road behind a thing.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn behind(from: Thing, name: &str, bench: &Bench) -> Result<Road, StoreError> {
        let mut road = Road {
            from,
            name: name.to_owned(),
            onwards: false,
            steps: Vec::new(),
            cursor: 0,
        };
        road.load(bench)?;
        Ok(road)
    }

    fn load(&mut self, bench: &Bench) -> Result<(), StoreError> {
        self.cursor = 0;
        self.steps = if self.onwards {
            bench.store.trace_down(self.from.id, &bench.reference)?
        } else {
            bench.store.trace_up(self.from.id, &bench.reference)?
        };
        Ok(())
    }

    /// Turns round: what came of it instead of where it came from, and back.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn turn(&mut self, bench: &Bench) -> Result<(), StoreError> {
        self.onwards = !self.onwards;
        self.load(bench)
    }

    /// Moves the cursor by things.
    pub fn step(&mut self, step: Step) -> bool {
        let before = self.cursor;
        let last = self.steps.len().saturating_sub(1);
        self.cursor = match step {
            Step::Up(by) => self.cursor.saturating_sub(by),
            Step::Down(by) => self.cursor.saturating_add(by),
            Step::PageUp => self.cursor.saturating_sub(5),
            Step::PageDown => self.cursor.saturating_add(5),
            Step::First => 0,
            Step::Last => last,
            Step::To(to) => to,
        }
        .min(last);
        self.cursor != before
    }

    /// The thing under the cursor.
    pub fn selected(&self) -> Option<Thing> {
        self.steps.get(self.cursor).map(|step| step.thing)
    }

    fn lines(&self, wide: u16) -> Vec<Line> {
        let mut lines = Vec::new();
        for (of, step) in self.steps.iter().enumerate() {
            let indent = cells(usize::try_from(step.depth).unwrap_or(0) * 2).min(wide / 3);
            let role = if step.role.is_empty() {
                String::new()
            } else {
                format!("{}  ", step.role)
            };
            let head = format!("{role}{}  {}", step.reference, step.summary);
            let room = usize::from(wide.saturating_sub(indent + 1)).max(1);
            for (at, text) in wrap(&head, room).into_iter().enumerate() {
                lines.push(Line {
                    of,
                    indent: indent + u16::from(at > 0) * 2,
                    text,
                    role: if at == 0 { Role::Heading } else { Role::Text },
                });
            }
            if step.repeated {
                lines.push(Line {
                    of,
                    indent: indent + 2,
                    text: "as above".to_owned(),
                    role: Role::Quiet,
                });
                continue;
            }
            for fact in &step.facts {
                let when = fact.happened.format("%-d %b %Y");
                let text = format!("{when}  {}  {}", fact.label, fact.value);
                let room = usize::from(wide.saturating_sub(indent + 5)).max(1);
                for (at, text) in wrap(&text, room).into_iter().enumerate() {
                    lines.push(Line {
                        of,
                        indent: indent + 2 + u16::from(at > 0) * 2,
                        text,
                        role: Role::Text,
                    });
                }
            }
        }
        lines
    }

    /// Draws the road.
    pub fn render(&self, area: Rect, buf: &mut Buffer, look: &Look) -> Option<Position> {
        let title = if self.onwards {
            format!("what came of {}", self.name)
        } else {
            format!("the road back from {}", self.name)
        };
        let frame = Overlay {
            title: &title,
            foot: "enter goes there, tab turns round, esc closes",
            inner: (area.width.saturating_sub(6), area.height.saturating_sub(4)),
        };
        let inner = frame.render(area, buf, look);
        if self.steps.len() <= 1 {
            let text = if self.onwards {
                "nothing came of it yet"
            } else {
                "nothing is known behind it"
            };
            look.put(buf, line_of(inner, 1), text, Role::Quiet);
        }
        let lines = self.lines(inner.width);
        let tall = usize::from(inner.height);
        let on = lines
            .iter()
            .position(|line| line.of == self.cursor)
            .unwrap_or(0);
        let end = lines
            .iter()
            .rposition(|line| line.of == self.cursor)
            .map_or(0, |at| at + 1);
        let first = end
            .saturating_sub(tall)
            .min(on)
            .max(on.saturating_sub(tall / 2));
        let mut cursor = None;
        for (at, line) in lines.iter().skip(first).take(tall).enumerate() {
            let place = line_of(inner, cells(at));
            if line.of == self.cursor {
                look.put(buf, place, look.symbols.marker, Role::Accent);
                cursor = cursor.or(Some(place.as_position()));
            }
            look.put(buf, rest_of(place, line.indent + 1), &line.text, line.role);
        }
        if first + tall < lines.len() {
            let foot = below(inner, inner.height.saturating_sub(1));
            look.put_end(buf, line_of(foot, 0), " more ", Role::Quiet);
        }
        cursor
    }
}
