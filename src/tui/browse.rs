//! A list of things beside the life of the one under the cursor.
//!
//! For: sheets, prints and everything on the shelf. A [`Browse`] holds the rows that are loaded, the
//! words that narrow them, the timeline of the selected thing and what can come next for it. Where
//! the rows come from is said by a [`Source`].
//!
//! Promises: rows are loaded a page at a time, so the first picture costs the same however long the
//! list is; the strip always belongs to the row under the cursor.

use crossterm::event::KeyEvent;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use super::bench::Bench;
use super::ink::{below, line_of, rest_of, rest_of_all};
use super::look::Look;
use super::theme::Role;
use super::timeline::Timeline;
use super::widgets::Reaction;
use super::widgets::columns::Column;
use super::widgets::input::TextInput;
use super::widgets::listing::{Listing, Loaded, Row, Step};
use crate::logbook::{Life, Thing, ThingId};
use crate::store::StoreError;

/// How many rows are asked for at once.
pub const PAGE: usize = 100;

/// Rows before the end of what is loaded from which the next page is asked for.
const AHEAD: usize = 20;

/// One row: the thing and how it is listed.
#[derive(Debug, Clone)]
pub struct Item {
    /// The thing.
    pub thing: Thing,
    /// Its line in the list.
    pub row: Row,
}

/// The key of an action by its name, to be told in a sentence.
pub type KeyNames<'k> = dyn Fn(&str) -> String + 'k;

/// Where rows come from.
pub trait Source {
    /// The columns of the list.
    fn columns(&self) -> &'static [Column];
    /// What one row is.
    fn noun(&self) -> &'static str;
    /// What is written where there is nothing to list: how to come to the first one.
    fn empty(&self, keys: &KeyNames<'_>) -> String;
    /// A page of rows: those that hold every word of `find`, after the thing `before`.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    fn page(
        &self,
        bench: &Bench,
        find: &str,
        before: Option<ThingId>,
    ) -> Result<Vec<Item>, StoreError>;
}

/// Which half has the focus.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Half {
    /// The list.
    #[default]
    List,
    /// The timeline.
    Strip,
}

/// The list and the timeline beside it.
#[derive(Debug, Default)]
pub struct Browse {
    items: Vec<Item>,
    rows: Vec<Row>,
    listing: Listing,
    more: bool,
    find: TextInput,
    /// Whether the words are being typed.
    pub finding: bool,
    /// Which half has the focus.
    pub half: Half,
    /// The timeline of the selected thing.
    pub timeline: Timeline,
}

/// Width from which list and strip stand beside each other.
const BESIDE: u16 = 64;
/// Width from which the list keeps its room while the hand is on the strip.
const ROOMY: u16 = 100;
/// Cells of the list while the hand is on the strip and room is short: reference and state.
const LEAST_LIST: u16 = 20;

impl Browse {
    /// Loads the rows anew and keeps the cursor on the thing it was on, if it is still listed.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn reload(&mut self, source: &dyn Source, bench: &Bench) -> Result<(), StoreError> {
        let on = self.selected();
        let wanted = self.items.len().max(1);
        self.items.clear();
        self.more = true;
        while self.more && self.items.len() < wanted {
            self.load_page(source, bench)?;
        }
        self.put_rows();
        if let Some(at) = on.and_then(|on| self.items.iter().position(|item| item.thing == on)) {
            self.listing.step(Step::To(at));
        }
        self.timeline.show(self.selected(), bench)
    }

    fn load_page(&mut self, source: &dyn Source, bench: &Bench) -> Result<(), StoreError> {
        let before = self.items.last().map(|item| item.thing.id);
        let page = source.page(bench, self.find.text(), before)?;
        self.more = page.len() >= PAGE;
        self.items.extend(page);
        Ok(())
    }

    fn put_rows(&mut self) {
        self.rows = self.items.iter().map(|item| item.row.clone()).collect();
        self.listing.set_total(self.items.len());
    }

    /// The thing under the cursor.
    pub fn selected(&self) -> Option<Thing> {
        let at = self.listing.cursor()?;
        self.items.get(at).map(|item| item.thing)
    }

    /// Puts the cursor on a thing, loading further rows until it is found.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn select(
        &mut self,
        thing: Thing,
        source: &dyn Source,
        bench: &Bench,
    ) -> Result<bool, StoreError> {
        loop {
            if let Some(at) = self.items.iter().position(|item| item.thing == thing) {
                self.put_rows();
                self.listing.step(Step::To(at));
                self.timeline.show(Some(thing), bench)?;
                return Ok(true);
            }
            if !self.more {
                self.put_rows();
                return Ok(false);
            }
            self.load_page(source, bench)?;
        }
    }

    /// Moves in the half that has the focus.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn step(
        &mut self,
        step: Step,
        source: &dyn Source,
        bench: &Bench,
    ) -> Result<bool, StoreError> {
        if self.half == Half::Strip {
            return self.timeline.step(step, bench);
        }
        if step == Step::Last {
            while self.more {
                self.load_page(source, bench)?;
            }
            self.put_rows();
        }
        let moved = self.listing.step(step);
        self.go_on_loading(source, bench)?;
        if moved {
            self.timeline.show(self.selected(), bench)?;
        }
        Ok(moved)
    }

    fn go_on_loading(&mut self, source: &dyn Source, bench: &Bench) -> Result<(), StoreError> {
        let near_end = self
            .listing
            .cursor()
            .is_some_and(|at| at + AHEAD >= self.items.len());
        if near_end && self.more {
            self.load_page(source, bench)?;
            self.put_rows();
        }
        Ok(())
    }

    /// Takes a key into the words that narrow the list.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn find_key(
        &mut self,
        key: &KeyEvent,
        source: &dyn Source,
        bench: &Bench,
    ) -> Result<Reaction, StoreError> {
        let reaction = self.find.key(key);
        if reaction == Reaction::Changed {
            self.narrow(source, bench)?;
        }
        Ok(reaction)
    }

    /// Takes a paste into the words that narrow the list.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn find_paste(
        &mut self,
        text: &str,
        source: &dyn Source,
        bench: &Bench,
    ) -> Result<(), StoreError> {
        self.find.paste(text);
        self.narrow(source, bench)
    }

    /// Takes the narrowing words away.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn find_nothing(&mut self, source: &dyn Source, bench: &Bench) -> Result<(), StoreError> {
        self.finding = false;
        if self.find.is_empty() {
            return Ok(());
        }
        self.find = TextInput::default();
        self.reload(source, bench)
    }

    /// Whether words narrow the list.
    pub fn is_narrowed(&self) -> bool {
        !self.find.is_empty()
    }

    fn narrow(&mut self, source: &dyn Source, bench: &Bench) -> Result<(), StoreError> {
        self.items.clear();
        self.listing = Listing::default();
        self.reload(source, bench)
    }

    /// The line over the list, the list, and the strip. Where room is short, the half that has the
    /// focus gets the better part of it.
    fn parts(&self, area: Rect) -> (Rect, Rect, Rect) {
        if area.width < BESIDE {
            let (list, strip) = match self.half {
                Half::List => (area, Rect { height: 0, ..area }),
                Half::Strip => (Rect { height: 0, ..area }, area),
            };
            return (line_of(list, 0), below(list, 1), strip);
        }
        let wide = if self.half == Half::Strip && area.width < ROOMY {
            LEAST_LIST
        } else {
            (area.width * 2 / 5).clamp(32, 84)
        };
        let list = Rect {
            width: wide,
            ..area
        };
        let strip = rest_of_all(area, wide);
        (line_of(list, 0), below(list, 1), strip)
    }

    /// Tells how large the screen is, so that the windows follow the cursor.
    pub fn settle(&mut self, area: Rect, columns: &[Column], today: chrono::NaiveDate) {
        let (_, list, strip) = self.parts(area);
        self.listing.set_height(Listing::rows_in(list, columns));
        self.timeline.settle(strip_inner(strip), today);
    }

    /// Answers a click: on a row or on an entry.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn click(
        &mut self,
        area: Rect,
        at: Position,
        source: &dyn Source,
        bench: &Bench,
    ) -> Result<bool, StoreError> {
        let (_, list, strip) = self.parts(area);
        if self.listing.click(list, source.columns(), at).is_some() {
            self.half = Half::List;
            self.timeline.show(self.selected(), bench)?;
            return Ok(true);
        }
        if self
            .timeline
            .click(strip_inner(strip), at, bench.now().date_naive())
        {
            self.half = Half::Strip;
            return Ok(true);
        }
        Ok(false)
    }

    /// Answers a turn of the wheel over one of the halves.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn wheel(
        &mut self,
        area: Rect,
        at: Position,
        lines: isize,
        source: &dyn Source,
        bench: &Bench,
    ) -> Result<bool, StoreError> {
        let (_, list, strip) = self.parts(area);
        if strip.contains(at) {
            let step = if lines < 0 {
                Step::Up(1)
            } else {
                Step::Down(1)
            };
            return self.timeline.step(step, bench);
        }
        if !list.contains(at) {
            return Ok(false);
        }
        let before = self.selected();
        let moved = self.listing.scroll(lines);
        self.go_on_loading(source, bench)?;
        if self.selected() != before {
            self.timeline.show(self.selected(), bench)?;
        }
        Ok(moved)
    }

    fn count(&self) -> String {
        match self.more {
            true => format!("{}+", self.items.len()),
            false => self.items.len().to_string(),
        }
    }

    fn noun(&self, source: &dyn Source) -> String {
        match (source.noun(), self.items.len()) {
            (noun, 1) => noun.to_owned(),
            (noun, _) if noun.ends_with(['s', 'x']) => format!("{noun}es"),
            (noun, _) => format!("{noun}s"),
        }
    }

    /// The life of the selected thing.
    pub fn life(&self) -> Option<&Life> {
        self.timeline.life()
    }

    /// Draws list and strip.
    pub fn render(
        &self,
        area: Rect,
        buf: &mut Buffer,
        look: &Look,
        source: &dyn Source,
        keys: &KeyNames<'_>,
        now: chrono::DateTime<chrono::FixedOffset>,
    ) -> Option<Position> {
        let (find, list, strip) = self.parts(area);
        let mut cursor = None;
        if find.height > 0 && list.width > 0 {
            let line = rest_of(find, 1);
            if self.finding || self.is_narrowed() {
                let count = format!(" {}", self.count());
                let line = look.put_end(buf, line, &count, Role::Quiet);
                let line = look.put(buf, line, "find ", Role::Accent);
                cursor = self.find.render(line, buf, look, self.finding, "");
            } else if !self.items.is_empty() {
                let count = format!("{} {}", self.count(), self.noun(source));
                look.put(buf, line, &count, Role::Quiet);
            }
        }
        let loaded = Loaded {
            first: 0,
            rows: &self.rows,
        };
        let focused = self.half == Half::List && !self.finding;
        let empty = if self.is_narrowed() {
            format!(
                "Nothing here has all these words: {} shows everything again.",
                keys(if self.finding { "find.end" } else { "back" })
            )
        } else {
            source.empty(keys)
        };
        // Before anything is there, the words have the whole width.
        let place = if self.items.is_empty() && strip.x > area.x {
            below(area, 1)
        } else {
            list
        };
        let at = self
            .listing
            .render(place, buf, look, source.columns(), loaded, focused, &empty);
        cursor = cursor.or(at);
        if strip.area() > 0 && !self.items.is_empty() {
            if strip.x > area.x {
                look.put_upright(buf, Rect { width: 1, ..strip });
            }
            let focused = self.half == Half::Strip;
            let at = self
                .timeline
                .render(strip_inner(strip), buf, look, focused, now);
            cursor = if focused { at } else { cursor };
        }
        cursor
    }
}

fn strip_inner(strip: Rect) -> Rect {
    rest_of_all(strip, 2.min(strip.width))
}
