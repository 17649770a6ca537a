//! The timeline of one thing: every entry, struck ones legible, with what can come next.
//!
//! For: the right half of the lists and the detail of a side in the rack. The lines are the store's;
//! here they become the [`strip`](super::widgets::strip).

use chrono::{DateTime, FixedOffset, NaiveDate};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use super::bench::Bench;
use super::ink::{below, line_of, rest_of};
use super::look::Look;
use super::theme::Role;
use super::widgets::listing::Step;
use super::widgets::strip::{Happening, Strip, StripView};
use crate::logbook::follows::ago;
use crate::logbook::life::SheetLife;
use crate::logbook::{Kind, Life, Names, Thing, ThingId, ThingKind};
use crate::store::StoreError;
use crate::store::rows::Line;

/// The entries of a thing, and which one the cursor is on.
#[derive(Debug, Default)]
pub struct Timeline {
    life: Option<Life>,
    lines: Vec<Line>,
    happenings: Vec<Happening>,
    /// What its life allows next.
    pub possible: Vec<Kind>,
    next: Vec<String>,
    heading: String,
    view: StripView,
}

/// Lines above the strip: the name of the thing, and a rule.
const HEAD: u16 = 2;

impl Timeline {
    /// Shows a thing, the cursor on its last entry.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn show(&mut self, thing: Option<Thing>, bench: &Bench) -> Result<(), StoreError> {
        let same = self.life.as_ref().map(|life| life.thing) == thing;
        let cursor = self.view.cursor;
        let was = self.lines.len();
        *self = Timeline::default();
        let Some(thing) = thing else {
            return Ok(());
        };
        let Some(life) = bench.life(thing) else {
            return Ok(());
        };
        self.lines = bench.store.timeline(thing.id, &bench.reference)?;
        self.possible = bench.possible(&life);
        self.next = self
            .possible
            .iter()
            .map(|kind| kind.word().to_owned())
            .collect();
        self.heading = heading(&life, bench);
        self.life = Some(life);
        self.view = StripView::at_last(self.lines.len());
        if same && was == self.lines.len() {
            self.view.cursor = cursor;
        }
        self.unfold();
        Ok(())
    }

    /// The life of the thing that is shown.
    pub fn life(&self) -> Option<&Life> {
        self.life.as_ref()
    }

    /// The entry under the cursor.
    pub fn selected(&self) -> Option<&Line> {
        self.lines.get(self.view.cursor)
    }

    /// Only the entry under the cursor tells everything it says; the others keep to their line.
    fn unfold(&mut self) {
        let cursor = self.view.cursor;
        self.happenings = self
            .lines
            .iter()
            .enumerate()
            .map(|(at, line)| happening(line, at == cursor))
            .collect();
    }

    /// Moves the cursor by entries.
    pub fn step(&mut self, step: Step) -> bool {
        let moved = self.step_view(step);
        if moved {
            self.unfold();
        }
        moved
    }

    fn step_view(&mut self, step: Step) -> bool {
        let count = self.lines.len();
        let by = |lines: usize| isize::try_from(lines).unwrap_or(isize::MAX);
        match step {
            Step::Up(lines) => self.view.step(count, -by(lines)),
            Step::Down(lines) => self.view.step(count, by(lines)),
            Step::PageUp => self.view.step(count, -8),
            Step::PageDown => self.view.step(count, 8),
            Step::First => self.view.step(count, -by(count)),
            Step::Last => self.view.step(count, by(count)),
            Step::To(line) => {
                let by = by(line) - by(self.view.cursor);
                self.view.step(count, by)
            }
        }
    }

    fn strip(&self, today: NaiveDate) -> Strip<'_> {
        Strip {
            happenings: &self.happenings,
            next: &self.next,
            today,
        }
    }

    /// Tells how large the area is.
    pub fn settle(&mut self, area: Rect, today: NaiveDate) {
        let mut view = self.view;
        view.settle(&self.strip(today), below(area, HEAD));
        self.view = view;
    }

    /// Puts the cursor on the entry drawn at `at`.
    pub fn click(&mut self, area: Rect, at: Position, today: NaiveDate) -> bool {
        let mut view = self.view;
        let hit = view.click(&self.strip(today), below(area, HEAD), at);
        self.view = view;
        self.unfold();
        hit.is_some()
    }

    /// Draws the heading and the strip.
    pub fn render(
        &self,
        area: Rect,
        buf: &mut Buffer,
        look: &Look,
        focused: bool,
        now: DateTime<FixedOffset>,
    ) -> Option<Position> {
        let life = self.life.as_ref()?;
        let line = line_of(area, 0);
        let rest = look.put(buf, line, &life.reference, Role::Heading);
        let state = match life.since {
            Some(since) => format!("{} {}", life.state_word(), ago(since, now)),
            None => life.state_word().to_owned(),
        };
        let in_doubt = life.side().is_some_and(|side| side.doubt.is_some());
        let (state, role) = if in_doubt {
            ("IN DOUBT".to_owned(), Role::Doubt)
        } else {
            (state, Role::Accent)
        };
        let rest = look.put_end(buf, rest, &state, role);
        look.put(buf, rest_of(rest, 2), &self.heading, Role::Text);
        look.put_rule(buf, line_of(area, 1));
        let strip = self.strip(now.date_naive());
        self.view
            .render(&strip, below(area, HEAD), buf, look, focused)
    }
}

/// What a thing is, in a few words beside its name.
fn heading(life: &Life, bench: &Bench) -> String {
    let words = |id: ThingId| bench.store.life_of(id);
    let film_of = |sheet: &SheetLife| -> Option<String> {
        let film_box = words(sheet.film_box?)?;
        let film_box = film_box.film_box()?;
        let size = film_box
            .size
            .map(|size| size.to_string())
            .unwrap_or_default();
        let speed = film_box
            .speed
            .map(|speed| format!(" @{speed}"))
            .unwrap_or_default();
        let subject = sheet
            .exposures
            .iter()
            .rev()
            .find_map(|one| one.subject.clone());
        let subject = subject
            .map(|subject| format!("  {subject}"))
            .unwrap_or_default();
        Some(format!("{size}  {}{speed}{subject}", film_box.film))
    };
    let text = match life.thing.kind {
        ThingKind::Sheet => life.sheet().and_then(film_of),
        ThingKind::Print => life.print().map(|print| {
            let process = bench.reference.process(&print.process);
            let process = process.map_or(print.process.as_str(), |process| process.name.as_str());
            match &print.title {
                Some(title) => format!("{process}  {title}"),
                None => process.to_owned(),
            }
        }),
        ThingKind::Side => life
            .side()
            .and_then(|side| words(side.sheet?))
            .map(|sheet| {
                let film = sheet.sheet().and_then(film_of).unwrap_or_default();
                format!("{}  {film}", sheet.reference)
            }),
        ThingKind::Box => life
            .film_box()
            .map(|one| format!("{}, {} left", one.film, one.left)),
        ThingKind::Paper => life
            .paper()
            .map(|one| format!("{}, {} left", one.name, one.left)),
        ThingKind::Bath => life.bath().map(|one| one.name.clone()),
        ThingKind::Lens => life.lens().map(|one| one.name.clone()),
        ThingKind::Camera => life.camera().map(|one| one.name.clone()),
        _ => None,
    };
    text.unwrap_or_default()
}

/// A line of the timeline as the strip draws it.
fn happening(line: &Line, unfolded: bool) -> Happening {
    let mut one = Happening::new(line.happened.naive_local(), line.kind.name());
    if !line.telling.headline.is_empty() {
        one.figures.push(line.telling.headline.clone());
    }
    if let Some(outcome) = &line.outcome {
        one.figures.push(outcome.clone());
    }
    one.struck = line.struck.as_ref().map(|remark| remark.reason.clone());
    let mark = if line.over.is_some() {
        Some(("override", Role::Warn))
    } else if !line.amended.is_empty() {
        Some(("amended", Role::Warn))
    } else if line.late {
        Some(("late", Role::Quiet))
    } else {
        None
    };
    if let Some((word, role)) = mark {
        one.mark = Some(word.to_owned());
        one.mark_role = role;
    }
    if let Some(over) = &line.over {
        one.details
            .push(("all the same".to_owned(), vec![over.clone()]));
    }
    if let Some(was) = &line.was {
        let why = line.amended.last().map(|remark| remark.reason.clone());
        let mut words = vec![was.headline.clone()];
        words.extend(why);
        one.details.push(("before".to_owned(), words));
    }
    if let Some(note) = &line.note {
        one.details.push(("note".to_owned(), vec![note.clone()]));
    }
    if !unfolded {
        return one;
    }
    let headline = &line.telling.headline;
    for (label, value) in &line.telling.details {
        if !headline.contains(value.as_str()) {
            one.details.push((label.clone(), vec![value.clone()]));
        }
    }
    let entry = format!("#{}", line.row);
    let written = line.written.format("written %-d %b %Y %H:%M").to_string();
    one.details.push(("entry".to_owned(), vec![entry, written]));
    one
}
