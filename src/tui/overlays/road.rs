//! The road from a thing back to everything behind it, or on to everything that came of it.

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use crate::export::shown::{pad, shown_line, width};
use crate::logbook::{Kind, Thing};
use crate::store::StoreError;
use crate::store::rows::{Fact, TraceStep};
use crate::tui::bench::Bench;
use crate::tui::ink::{cells, line_of, rest_of, wrap};
use crate::tui::look::Look;
use crate::tui::theme::Role;
use crate::tui::timeline::word;
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
    /// First line in view.
    offset: usize,
    /// Cells and lines inside the frame, as last told.
    size: (u16, u16),
}

/// One drawn line: the step it belongs to, whether it names it, its indent, its pieces.
struct Line {
    of: usize,
    head: bool,
    indent: u16,
    pieces: Vec<(String, Role)>,
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
            offset: 0,
            size: (0, 0),
        };
        road.load(bench)?;
        Ok(road)
    }

    fn load(&mut self, bench: &Bench) -> Result<(), StoreError> {
        self.cursor = 0;
        self.offset = 0;
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

    /// Moves the cursor by things. A thing that has more lines than are in view is read to its end
    /// before the next one.
    pub fn step(&mut self, step: Step) {
        let last = self.steps.len().saturating_sub(1);
        let lines = self.lines(self.size.0);
        let tall = usize::from(self.size.1).max(1);
        let (start, end) = extent(&lines, self.cursor);
        let leap = tall.saturating_sub(2).max(1);
        self.cursor = match step {
            Step::Down(_) if end > self.offset + tall => {
                self.offset = (self.offset + leap).min(end - tall);
                return;
            }
            Step::Up(_) if start < self.offset => {
                self.offset = self.offset.saturating_sub(leap).max(start);
                return;
            }
            Step::Up(by) => self.cursor.saturating_sub(by),
            Step::Down(by) => self.cursor.saturating_add(by),
            Step::PageUp => self.cursor.saturating_sub(5),
            Step::PageDown => self.cursor.saturating_add(5),
            Step::First => 0,
            Step::Last => last,
            Step::To(to) => to,
        }
        .min(last);
        self.follow(&lines);
    }

    /// Moves the window so that the thing under the cursor is in view with what belongs to it, or
    /// its beginning, if that is too much.
    fn follow(&mut self, lines: &[Line]) {
        let tall = usize::from(self.size.1).max(1);
        let (start, end) = extent(lines, self.cursor);
        self.offset = self
            .offset
            .max(end.saturating_sub(tall))
            .min(start)
            .min(lines.len().saturating_sub(tall));
    }

    /// Tells how large the screen is.
    pub fn settle(&mut self, area: Rect) {
        let inner = self.frame("", area).inner(area);
        let size = (inner.width, inner.height);
        if self.size != size {
            self.size = size;
            let lines = self.lines(inner.width);
            self.follow(&lines);
        }
    }

    /// The thing under the cursor.
    pub fn selected(&self) -> Option<Thing> {
        self.steps.get(self.cursor).map(|step| step.thing)
    }

    fn lines(&self, wide: u16) -> Vec<Line> {
        let mut lines = Vec::new();
        for (of, step) in self.steps.iter().enumerate() {
            let indent = cells(usize::try_from(step.depth).unwrap_or(0) * 2).min(wide / 3);
            let mut head = Vec::new();
            if !step.role.is_empty() {
                head.push((format!("{}  ", step.role), Role::Quiet));
            }
            head.push((format!("{}  ", step.reference), Role::Heading));
            let summary = if step.repeated {
                "as above"
            } else {
                step.summary.as_str()
            };
            push(&mut lines, of, true, indent, wide, head, summary);
            if step.repeated {
                continue;
            }
            let facts: Vec<&Fact> = step.facts.iter().filter(|fact| tells(step, fact)).collect();
            let labels = facts.iter().map(|fact| width(&shown_line(label(fact))));
            let labels = labels.max().unwrap_or(0).min(16);
            for fact in facts {
                let when = fact.happened.format("%d %b %Y  ").to_string();
                let head = vec![
                    (when, Role::Quiet),
                    (format!("{}  ", pad(label(fact), labels)), Role::Text),
                ];
                push(&mut lines, of, false, indent + 2, wide, head, &fact.value);
            }
        }
        lines
    }

    fn frame<'f>(&self, title: &'f str, area: Rect) -> Overlay<'f> {
        Overlay {
            title,
            foot: "",
            inner: (area.width.saturating_sub(6), area.height.saturating_sub(4)),
        }
    }

    fn title(&self) -> String {
        if self.onwards {
            format!("what came of {}", self.name)
        } else {
            format!("the road back from {}", self.name)
        }
    }

    /// Puts the cursor on the thing drawn at `at`; returns whether it was on it already.
    pub fn click(&mut self, area: Rect, at: Position) -> Option<bool> {
        let inner = self.frame("", area).inner(area);
        if !inner.contains(at) {
            return None;
        }
        let lines = self.lines(inner.width);
        let of = lines.get(self.offset + usize::from(at.y - inner.y))?.of;
        let was = self.cursor == of;
        self.cursor = of;
        Some(was)
    }

    /// Draws the road.
    pub fn render(&self, area: Rect, buf: &mut Buffer, look: &Look) -> Option<Position> {
        let title = self.title();
        let inner = self.frame(&title, area).render(area, buf, look);
        if self.steps.len() <= 1 {
            let text = if self.onwards {
                "nothing came of it yet"
            } else {
                "nothing is known behind it"
            };
            let under = inner.height.saturating_sub(1);
            look.put(buf, line_of(inner, under), text, Role::Quiet);
        }
        let lines = self.lines(inner.width);
        let tall = usize::from(inner.height);
        let first = self.offset.min(lines.len().saturating_sub(tall));
        let mut cursor = None;
        for (at, line) in lines.iter().skip(first).take(tall).enumerate() {
            let place = line_of(inner, cells(at));
            let rest = rest_of(place, line.indent + 1);
            let pieces = line.pieces.iter();
            look.put_all(buf, rest, pieces.map(|(text, role)| (text.as_str(), *role)));
            // Where the line that names it is out of view, the first one of it in view is marked.
            if line.of == self.cursor && cursor.is_none() {
                look.put(buf, place, look.symbols.marker, Role::Accent);
                if line.head {
                    look.tint(buf, place, Role::Selected);
                }
                cursor = Some(place.as_position());
            }
        }
        for (more, at) in [
            (first > 0, 0),
            (first + tall < lines.len(), inner.height.saturating_sub(1)),
        ] {
            if more {
                let place = line_of(inner, at);
                if cursor != Some(place.as_position()) {
                    look.put(buf, place, look.symbols.cut, Role::Accent);
                }
            }
        }
        cursor
    }
}

/// The first line of a thing, and the one behind its last.
fn extent(lines: &[Line], of: usize) -> (usize, usize) {
    let start = lines.iter().position(|line| line.of == of);
    let end = lines.iter().rposition(|line| line.of == of);
    (start.unwrap_or(0), end.map_or(0, |at| at + 1))
}

/// The word for what a fact is about.
fn label(fact: &Fact) -> &str {
    match Kind::named(&fact.label) {
        Some(kind) => word(kind),
        None => &fact.label,
    }
}

/// Whether a fact says more than the line over it: how a thing came in is told there already.
fn tells(step: &TraceStep, fact: &Fact) -> bool {
    let came_in = matches!(
        Kind::named(&fact.label),
        Some(
            Kind::BoxAdded
                | Kind::HolderAdded
                | Kind::LensAdded
                | Kind::CameraAdded
                | Kind::PaperAdded
                | Kind::BathMixed
        )
    );
    step.depth == 0 || !came_in
}

/// A text behind its head, going on under itself where there is room for that.
fn push(
    lines: &mut Vec<Line>,
    of: usize,
    head: bool,
    indent: u16,
    wide: u16,
    mut pieces: Vec<(String, Role)>,
    text: &str,
) {
    let room = usize::from(wide.saturating_sub(indent + 2)).max(1);
    let taken: usize = pieces
        .iter()
        .map(|(text, _)| width(&shown_line(text)))
        .sum();
    let hanging = if taken * 2 <= room { taken } else { 2 };
    let mut rest = text;
    if taken < room {
        let first = wrap(text, room - taken).into_iter().next();
        let first = first.unwrap_or_default();
        rest = text.get(first.len()..).unwrap_or_default().trim_start();
        pieces.push((first, Role::Text));
    }
    lines.push(Line {
        of,
        head,
        indent,
        pieces,
    });
    if rest.is_empty() {
        return;
    }
    for text in wrap(rest, room.saturating_sub(hanging).max(1)) {
        lines.push(Line {
            of,
            head: false,
            indent: indent + cells(hanging),
            pieces: vec![(text, Role::Text)],
        });
    }
}
