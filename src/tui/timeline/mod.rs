//! The timeline of one thing: every entry, struck ones legible, with what can come next.
//!
//! For: the right half of the lists. The lines are the store's; `entry` makes of each what the
//! [`strip`](super::widgets::strip) draws, and `heading` says over it what the thing is now.
//!
//! Promises: a thing is shown in the same time whatever it has seen. A lens has thousands of
//! entries; the last ones are read, and the rest when the hand reaches back to where they begin.

use chrono::{DateTime, FixedOffset, NaiveDate};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use super::bench::Bench;
use super::ink::below;
use super::look::Look;
use super::widgets::listing::Step;
use super::widgets::strip::{Happening, Strip, StripView};
use crate::logbook::{Kind, Life, Thing};
use crate::store::StoreError;
use crate::store::rows::Line;

mod entry;
mod heading;

pub use entry::word;
use heading::Heading;

/// The entries of a thing, and which one the cursor is on.
#[derive(Debug, Default)]
pub struct Timeline {
    life: Option<Life>,
    lines: Vec<Line>,
    /// Whether there are entries before those that were read.
    older: bool,
    happenings: Vec<Happening>,
    /// What its life allows next.
    pub possible: Vec<Kind>,
    next: Vec<String>,
    heading: Heading,
    view: StripView,
}

/// How many entries are read at first.
const LAST: usize = 200;

/// Lines above the strip: the name of the thing, and a rule.
const HEAD: u16 = 2;

impl Timeline {
    /// Shows a thing, the cursor on its last entry.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn show(&mut self, thing: Option<Thing>, bench: &Bench) -> Result<(), StoreError> {
        let same = self.life.as_ref().map(|life| life.thing) == thing;
        let was = std::mem::take(self);
        let Some(thing) = thing else {
            return Ok(());
        };
        let Some(life) = bench.life(thing) else {
            return Ok(());
        };
        // Whoever has reached back stays there.
        let reached_back = same && was.lines.len() > LAST;
        let limit = if reached_back { usize::MAX } else { LAST };
        let store = &bench.store;
        (self.lines, self.older) = store.end_of_timeline(thing.id, limit, &bench.reference)?;
        self.possible = bench.possible(&life);
        self.next = self
            .possible
            .iter()
            .map(|kind| kind.word().replace('-', " "))
            .collect();
        self.put_happenings(&life);
        self.heading = Heading::of(&life, bench);
        self.life = Some(life);
        self.view = StripView::at_last(self.lines.len());
        let rows = |lines: &[Line]| lines.iter().map(|line| line.row).collect::<Vec<_>>();
        if same && rows(&was.lines) == rows(&self.lines) {
            self.view.cursor = was.view.cursor;
        }
        Ok(())
    }

    fn put_happenings(&mut self, life: &Life) {
        let lines = self.lines.iter();
        self.happenings = lines.map(|line| entry::happening(line, life)).collect();
    }

    /// Reads the entries before those that were read; the cursor stays on its entry.
    fn reach_back(&mut self, bench: &Bench) -> Result<(), StoreError> {
        if let Some(life) = self.life.clone().filter(|_| self.older) {
            let on = self.selected().map(|line| line.row);
            self.lines = bench.store.timeline(life.thing.id, &bench.reference)?;
            self.older = false;
            self.put_happenings(&life);
            if let Some(at) = on.and_then(|row| self.at(row)) {
                self.view.cursor = at;
            }
        }
        Ok(())
    }

    fn at(&self, row: i64) -> Option<usize> {
        self.lines.iter().position(|line| line.row == row)
    }

    /// The life of the thing that is shown.
    pub fn life(&self) -> Option<&Life> {
        self.life.as_ref()
    }

    /// The entry under the cursor.
    pub fn selected(&self) -> Option<&Line> {
        self.lines.get(self.view.cursor)
    }

    /// Puts the cursor on the entry with this number, if it is here.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn select(&mut self, row: i64, bench: &Bench) -> Result<(), StoreError> {
        if self.at(row).is_none() {
            self.reach_back(bench)?;
        }
        if let Some(at) = self.at(row) {
            self.view.cursor = at;
        }
        Ok(())
    }

    /// Moves the cursor by entries.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn step(&mut self, step: Step, bench: &Bench) -> Result<bool, StoreError> {
        if step == Step::First {
            self.reach_back(bench)?;
        }
        let moved = self.step_view(step);
        if self.view.cursor == 0 {
            self.reach_back(bench)?;
        }
        Ok(moved)
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
        self.life.as_ref()?;
        self.heading.render(area, buf, look, now);
        let strip = self.strip(now.date_naive());
        self.view
            .render(&strip, below(area, HEAD), buf, look, focused)
    }
}
