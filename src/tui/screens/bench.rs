//! The bench: every clock that runs, the next act in words, and what waits for its next step.
//!
//! For: developing and washing with both hands busy. One line is one run or print: what is done to it,
//! how much is left, what comes next. What is over stands out by a mark and a word.
//!
//! Promises: everything shown is reckoned from the logbook and a moment, so nothing is lost when the
//! program is ended; a tick changes only the digits.
//!
//! Leaves to others: what a key does, and the bell ([`crate::tui::app`]).

use std::collections::BTreeMap;
use std::time::Duration;

use chrono::{DateTime, FixedOffset};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use crate::logbook::counting::words::next_in_words;
use crate::logbook::counting::{self, Counting, Passed, ahead};
use crate::logbook::{EntryId, Life, Names, Thing, ThingId};
use crate::store::StoreError;
use crate::tui::bench::Bench;
use crate::tui::browse::KeyNames;
use crate::tui::clock::habits::Bell;
use crate::tui::ink::{line_of, rest_of, wrap};
use crate::tui::look::Look;
use crate::tui::theme::Role;
use crate::tui::widgets::listing::Step;

/// One line of the bench.
#[derive(Debug, Clone)]
struct Row {
    life: Life,
    /// The sheets in a run, the title of a print.
    about: String,
}

/// What stands on the bench, and the line the cursor is on.
#[derive(Debug, Default)]
pub struct Clocks {
    rows: Vec<Row>,
    at: usize,
    /// What was told of each step by the bell: seconds given.
    told: BTreeMap<ThingId, (EntryId, f64)>,
}

/// Cells of a reference.
const REFERENCE: u16 = 9;
/// Cells of the step in words, in a window of eighty columns.
const STEP: u16 = 28;
/// Cells of the time that is left.
const TIME: u16 = 14;

impl Clocks {
    /// Loads what stands on the bench anew; the cursor stays on its line.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn reload(&mut self, bench: &Bench) -> Result<(), StoreError> {
        let on = self.selected().map(|life| life.thing);
        let lives = bench.store.on_the_bench()?;
        self.rows = lives.into_iter().map(|life| row(life, bench)).collect();
        self.at = self.at.min(self.rows.len().saturating_sub(1));
        if let Some(on) = on {
            self.select(on);
        }
        let now = bench.counted_now();
        let mut told = std::mem::take(&mut self.told);
        for row in &self.rows {
            if let Some(step) = counting::steps_of(&row.life).and_then(|steps| steps.current()) {
                let thing = row.life.thing.id;
                let was = told
                    .remove(&thing)
                    .filter(|(entry, _)| *entry == step.entry);
                // What went by while nobody counted is not rung.
                let told = was.unwrap_or_else(|| (step.entry, step.given_at(now)));
                self.told.insert(thing, told);
            }
        }
        Ok(())
    }

    /// The life of the line the cursor is on.
    pub fn selected(&self) -> Option<&Life> {
        self.rows.get(self.at).map(|row| &row.life)
    }

    /// The life of a thing that stands here.
    pub fn life(&self, thing: Thing) -> Option<&Life> {
        let mut rows = self.rows.iter();
        rows.find(|row| row.life.thing == thing)
            .map(|row| &row.life)
    }

    /// Puts the cursor on a thing, if it stands here.
    pub fn select(&mut self, thing: Thing) -> bool {
        let at = self.rows.iter().position(|row| row.life.thing == thing);
        self.at = at.unwrap_or(self.at);
        at.is_some()
    }

    /// Moves the cursor.
    pub fn step(&mut self, step: Step) {
        let last = self.rows.len().saturating_sub(1);
        self.at = match step {
            Step::Up(by) => self.at.saturating_sub(by),
            Step::Down(by) => self.at.saturating_add(by).min(last),
            Step::To(at) => at.min(last),
            Step::PageUp | Step::First => 0,
            Step::PageDown | Step::Last => last,
        };
    }

    /// How many steps are being counted.
    pub fn running(&self) -> usize {
        let is_timed = |row: &&Row| {
            counting::steps_of(&row.life).is_some_and(|steps| steps.current().is_some())
        };
        self.rows.iter().filter(is_timed).count()
    }

    fn counted<'c>(
        &'c self,
        bench: &'c Bench,
        now: DateTime<FixedOffset>,
    ) -> impl Iterator<Item = Counting> + 'c {
        let of = move |row: &Row| counting::of(&row.life, &bench.reference, &bench.store, now);
        self.rows.iter().filter_map(of)
    }

    /// How many of the steps that are counted are over.
    pub fn over(&self, bench: &Bench, now: DateTime<FixedOffset>) -> usize {
        self.counted(bench, now).filter(Counting::is_over).count()
    }

    /// What was passed since this was asked last.
    pub fn pass(&mut self, bench: &Bench, now: DateTime<FixedOffset>) -> Vec<Passed> {
        let counted: Vec<Counting> = self.counted(bench, now).collect();
        let mut passed = Vec::new();
        for one in counted {
            if let Some((_, told)) = self.told.get_mut(&one.thing.id) {
                passed.push(one.passed_since(*told));
                *told = told.max(one.given);
            }
        }
        passed
    }

    /// How long until something has to be drawn, if the digits are in view, or rung.
    pub fn until_tick(
        &self,
        in_view: bool,
        bell: Bell,
        bench: &Bench,
        now: DateTime<FixedOffset>,
    ) -> Option<Duration> {
        let each_second = in_view || bell == Bell::Seconds;
        let waits = self.counted(bench, now).filter_map(|one| {
            if each_second {
                one.until_change()
            } else {
                one.until_mark()
            }
        });
        let wait = waits.min_by(f64::total_cmp)?;
        // A little later, so that the moment has passed when it is looked at.
        let wait = Duration::try_from_secs_f64(wait).ok()?;
        Some(wait + Duration::from_millis(1))
    }

    /// The line at a place on the screen.
    pub fn click(&mut self, area: Rect, at: Position) -> bool {
        let (top, lines) = self.lines(area);
        let hit = lines.iter().zip(area.rows().skip(top));
        let mut hit = hit.filter_map(|(line, place)| match line {
            Line::Row(row) if place.contains(at) => Some(*row),
            _ => None,
        });
        match hit.next() {
            Some(row) => {
                let same = self.at == row;
                self.at = row;
                same
            }
            None => false,
        }
    }

    /// What stands in which line: the number of lines above, and the lines from there, as far as they
    /// are in view.
    fn lines(&self, area: Rect) -> (usize, Vec<Line>) {
        let running = self.running();
        let mut lines: Vec<Line> = (0..running).map(Line::Row).collect();
        if self.rows.len() > running {
            if running > 0 {
                lines.push(Line::Blank);
            }
            lines.push(Line::Waiting);
            lines.extend((running..self.rows.len()).map(Line::Row));
        }
        let room = usize::from(area.height.saturating_sub(FOOT));
        let on = lines.iter().position(|line| *line == Line::Row(self.at));
        let skipped = on.map_or(0, |on| (on + 1).saturating_sub(room.max(1)));
        let lines = lines.into_iter().skip(skipped).take(room.max(1)).collect();
        (0, lines)
    }

    /// Draws the bench.
    pub fn render(
        &self,
        area: Rect,
        buf: &mut Buffer,
        look: &Look,
        keys: &KeyNames<'_>,
        bench: &Bench,
    ) {
        if self.rows.is_empty() {
            nothing_here(area, buf, look, keys);
            return;
        }
        let now = bench.counted_now();
        let (_, lines) = self.lines(area);
        for (line, place) in lines.into_iter().zip(area.rows()) {
            match line {
                Line::Blank => {}
                Line::Waiting => {
                    look.put(
                        buf,
                        rest_of(place, 1),
                        "waiting for the next step",
                        Role::Heading,
                    );
                }
                Line::Row(at) => {
                    if let Some(row) = self.rows.get(at) {
                        self.render_row(at, row, place, buf, look, bench, now);
                    }
                }
            }
        }
        self.render_foot(area, buf, look, bench, now);
    }

    #[expect(
        clippy::too_many_arguments,
        reason = "a line is drawn from all of these"
    )]
    fn render_row(
        &self,
        at: usize,
        row: &Row,
        place: Rect,
        buf: &mut Buffer,
        look: &Look,
        bench: &Bench,
        now: DateTime<FixedOffset>,
    ) {
        let chosen = at == self.at;
        let mark = if chosen { look.symbols.marker } else { " " };
        let rest = look.put(buf, place, mark, Role::Accent);
        let role = if chosen { Role::Heading } else { Role::Text };
        put_in(look, buf, rest, REFERENCE, &row.life.reference, role);
        let rest = rest_of(rest, REFERENCE);
        let roomy = place.width.saturating_sub(80) / 2;
        let counting = counting::of(&row.life, &bench.reference, &bench.store, now);
        let step = match &counting {
            Some(counting) => format!("{}  {}", counting.step_in_words(), row.about),
            None => row.about.clone(),
        };
        let wide = STEP + roomy;
        put_in(look, buf, rest, wide, step.trim(), Role::Text);
        let rest = rest_of(rest, wide);
        let Some(counting) = counting else {
            let next = ahead::of(&row.life, &bench.reference, &bench.store);
            let rest = rest_of(rest, 2);
            look.put(buf, rest, &next_in_words("next", next.first()), Role::Text);
            return;
        };
        let role = match () {
            () if counting.is_over() => Role::Warn,
            () if counting.paused => Role::Quiet,
            () => Role::Text,
        };
        let time = Rect {
            width: TIME.min(rest.width),
            ..rest
        };
        look.put_end(buf, time, &counting.time_in_words(), role);
        let rest = rest_of(rest, TIME + 2);
        look.put(buf, rest, &counting.act_in_words(), role);
    }

    /// Two lines about the chosen one.
    fn render_foot(
        &self,
        area: Rect,
        buf: &mut Buffer,
        look: &Look,
        bench: &Bench,
        now: DateTime<FixedOffset>,
    ) {
        if area.height < FOOT + 2 {
            return;
        }
        let rule = line_of(area, area.height - FOOT);
        look.put_rule(buf, rule);
        let Some(row) = self.rows.get(self.at) else {
            return;
        };
        let told = match counting::of(&row.life, &bench.reference, &bench.store, now) {
            Some(counting) => counting.told(),
            None => match ahead::of(&row.life, &bench.reference, &bench.store).first() {
                Some(next) => [
                    format!("{}: nothing is being counted", row.life.reference),
                    next.told(),
                ],
                None => [
                    format!("{}: nothing is being counted", row.life.reference),
                    "every step of its sequence was begun".to_owned(),
                ],
            },
        };
        for (at, words) in (1..FOOT).zip(told) {
            let line = line_of(area, area.height - FOOT + at);
            look.put(buf, rest_of(line, 1), &words, Role::Quiet);
        }
    }
}

/// Lines at the foot.
const FOOT: u16 = 3;

/// What stands in a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Line {
    Row(usize),
    Blank,
    Waiting,
}

fn row(life: Life, bench: &Bench) -> Row {
    let about = match (life.run(), life.print()) {
        (Some(run), _) => match run.sheets.as_slice() {
            [] => String::new(),
            [one] => bench.store.reference_of(*one),
            [first, others @ ..] => {
                let first = bench.store.reference_of(*first);
                format!("{first} and {} more", others.len())
            }
        },
        (_, Some(print)) => print.title.clone().unwrap_or_default(),
        _ => String::new(),
    };
    Row { life, about }
}

/// Puts text into so many cells of a line.
fn put_in(look: &Look, buf: &mut Buffer, line: Rect, wide: u16, text: &str, role: Role) {
    // A cell stays free between the columns.
    let place = Rect {
        width: wide.saturating_sub(1).min(line.width),
        ..line
    };
    look.put(buf, place, text, role);
}

fn nothing_here(area: Rect, buf: &mut Buffer, look: &Look, keys: &KeyNames<'_>) {
    let words = format!(
        "Nothing stands on the bench. A run begins at a sheet that waits for development ({} among the \
         sheets or in the rack), a print at a negative ({}); their steps are counted here.",
        keys("log.develop"),
        keys("log.print"),
    );
    let room = usize::from(area.width.saturating_sub(2));
    for (line, words) in area.rows().skip(1).zip(wrap(&words, room)) {
        look.put(buf, rest_of(line, 1), &words, Role::Text);
    }
}

/// How often the bell rings for what was passed, of all clocks together.
pub fn rings(bell: Bell, passed: &[Passed]) -> usize {
    let marks = if passed.iter().any(|one| one.end) {
        2
    } else {
        usize::from(passed.iter().any(|one| one.cue))
    };
    match bell {
        Bell::Off => 0,
        Bell::Marks => marks,
        Bell::Seconds => marks.max(usize::from(passed.iter().any(|one| one.second))),
    }
}
