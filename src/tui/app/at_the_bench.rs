//! The bench: its keys, its bell, and what is logged from there at once.
//!
//! A step begins, stands still, gets more time and ends with one key and is logged then; what has to be
//! typed opens its pane. The moment of such an entry is told by the counter that nobody sets, so setting
//! the machine's clock changes no time.

use std::time::Duration;

use ratatui::layout::{Position, Rect};

use super::{App, Tab};
use crate::logbook::counting::{self, Counting, ahead, steps_of};
use crate::logbook::{Draft, Kind, Life, Thing, ThingKind};
use crate::store::StoreError;
use crate::tui::actions::Availability;
use crate::tui::clock::habits::Bell;
use crate::tui::event::Effect;
use crate::tui::overlays::Overlay;
use crate::tui::overlays::step_clock::StepClock;
use crate::tui::screens::bench::rings;
use crate::tui::theme::{Theme, ThemeName};
use crate::tui::widgets::listing::Step;
use crate::tui::widgets::message::Notice;

/// A key of the bench.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BenchKey {
    /// Open the pane of the next step.
    Next,
    /// Begin the next step at once, as planned.
    Begin,
    /// Let the time stand still, or go on.
    Pause,
    /// Give half a minute more.
    More,
    /// Open the pane for a temperature or another time.
    Change,
    /// End the step.
    End,
    /// Show the clock in large digits, or no longer.
    Large,
    /// Show nothing at all.
    Dark,
    /// The next choice of the bell.
    Bell,
}

impl App {
    /// The run or print at hand on the bench, or whose clock fills the screen.
    fn on_the_bench(&self) -> Option<&Life> {
        match self.under_help() {
            Some(Overlay::StepClock(StepClock::Large(thing))) => self.clocks.life(*thing),
            None if self.tab == Tab::Bench => self.clocks.selected(),
            _ => None,
        }
    }

    /// Loads the timeline of the one at hand, from which its life and what can come next are known.
    pub(super) fn show_clock_line(&mut self) -> Result<(), StoreError> {
        let thing = self.clocks.selected().map(|life| life.thing);
        self.clock_line.show(thing, &self.bench)
    }

    /// Moves the cursor of the bench.
    pub(super) fn step_bench(&mut self, step: Step) -> Result<(), StoreError> {
        self.clocks.step(step);
        self.show_clock_line()
    }

    /// A click on the bench; a second one on the same line opens its next step.
    pub(super) fn click_on_bench(&mut self, body: Rect, at: Position) -> Result<(), StoreError> {
        if self.clocks.click(body, at) {
            self.bench_key(BenchKey::Next)?;
            return Ok(());
        }
        self.show_clock_line()
    }

    fn counted_here(&self) -> Option<Counting> {
        let life = self.on_the_bench()?;
        counting::of(
            life,
            &self.bench.reference,
            &self.bench.store,
            self.bench.counted_now(),
        )
    }

    /// Whether something at hand can begin its next step.
    pub(super) fn can_begin_step(&self) -> Availability {
        match self.on_the_bench() {
            Some(_) => self.can_write(),
            None => Availability::Hidden,
        }
    }

    /// Whether a step at hand is being counted.
    pub(super) fn can_change_step(&self) -> Availability {
        match self.counted_here() {
            Some(_) => self.can_write(),
            None => Availability::Hidden,
        }
    }

    /// Whether anything is being counted.
    pub(super) fn can_be_dark(&self) -> Availability {
        match self.clocks.running() {
            0 => Availability::Hidden,
            _ => Availability::Yes,
        }
    }

    /// Does what a key of the bench says.
    pub(super) fn bench_key(&mut self, key: BenchKey) -> Result<Vec<Effect<()>>, StoreError> {
        let life = self.on_the_bench().cloned();
        match (key, &life) {
            (BenchKey::Dark, _) => return Ok(self.go_dark()),
            (BenchKey::Bell, _) => self.next_bell(),
            (BenchKey::Large, Some(life)) => match self.overlays.last() {
                Some(Overlay::StepClock(_)) => {
                    self.overlays.pop();
                }
                _ => {
                    let large = StepClock::Large(life.thing);
                    self.overlays.push(Overlay::StepClock(large));
                }
            },
            (BenchKey::Next, Some(life)) => self.open_next_step(life)?,
            (BenchKey::Begin, Some(life)) => self.begin_next_step(life)?,
            (BenchKey::End, Some(life)) => self.end_step(life)?,
            (BenchKey::Change, Some(life)) => self.open_pane(Kind::StepChanged, Some(life))?,
            (BenchKey::Pause, Some(life)) => {
                let current = steps_of(life).and_then(|steps| steps.current());
                let stands = current.is_some_and(|step| step.paused.is_some());
                let change = if stands { "go-on" } else { "pause" };
                self.change_step(life, &[("change", change)])?;
            }
            (BenchKey::More, Some(life)) => {
                self.change_step(life, &[("change", "more-time"), ("more", "30 s")])?;
            }
            (_, None) => {}
        }
        Ok(Vec::new())
    }

    /// Opens what comes next: the pane of the next step, or the step of a print's process that is over.
    fn open_next_step(&mut self, life: &Life) -> Result<(), StoreError> {
        if life.thing.kind == ThingKind::Print
            && steps_of(life).is_some_and(|steps| steps.current().is_some())
        {
            return self.end_step(life);
        }
        self.open_pane(Kind::StepBegun, Some(life))
    }

    fn begin_next_step(&mut self, life: &Life) -> Result<(), StoreError> {
        if life.thing.kind == ThingKind::Print
            && steps_of(life).is_some_and(|steps| steps.current().is_some())
        {
            return self.end_step(life);
        }
        if ahead::of(life, &self.bench.reference, &self.bench.store).is_empty() {
            let key = self.key_of("log.end-run");
            self.tell(Notice::plain(format!(
                "every step of {} was begun: end the run ({key}), or begin a step again by its pane",
                life.reference
            )));
            return Ok(());
        }
        let (draft, _) = self.bench.draft_for(Kind::StepBegun, Some(life))?;
        self.log_at_once(&draft)
    }

    fn change_step(&mut self, life: &Life, typed: &[(&str, &str)]) -> Result<(), StoreError> {
        let mut draft = Draft::new(Kind::StepChanged).about(&life.reference);
        for (key, text) in typed {
            draft.set(key, *text);
        }
        self.log_at_once(&draft)
    }

    /// Ends the step that is being counted; of a print, the pane of that step is opened with its time.
    fn end_step(&mut self, life: &Life) -> Result<(), StoreError> {
        if steps_of(life).is_some_and(|steps| steps.current().is_some()) {
            self.log_at_once(&Draft::new(Kind::StepEnded).about(&life.reference))?;
        }
        if life.thing.kind == ThingKind::Print
            && let Some(life) = self.bench.life(life.thing)
            && steps_of(&life).is_some_and(|steps| steps.current().is_none())
        {
            self.open_pane(Kind::PrintStep, Some(&life))?;
        }
        Ok(())
    }

    /// Logs what one key says.
    fn log_at_once(&mut self, draft: &Draft) -> Result<(), StoreError> {
        let drafted = match self.bench.read(draft) {
            Ok(drafted) => drafted,
            Err(problems) => {
                let why = problems.first().map(ToString::to_string);
                self.tell(Notice::bad(why.unwrap_or_default()));
                return Ok(());
            }
        };
        match self.bench.log(vec![drafted]) {
            Ok(receipt) => {
                let said = self.said(&receipt)?;
                self.reload()?;
                self.tell(Notice::good(said));
            }
            Err(error) => self.tell(Notice::bad(error.to_string())),
        }
        Ok(())
    }

    /// Shows the bench with a run on it, whose first step is ready.
    pub(super) fn show_on_the_bench(&mut self, thing: Thing) -> Result<(), StoreError> {
        self.overlays.clear();
        self.tab = Tab::Bench;
        self.clocks.reload(&self.bench)?;
        self.clocks.select(thing);
        self.reload()
    }

    fn next_bell(&mut self) {
        let mut habits = self.habits.habits();
        let at = Bell::ALL.iter().position(|bell| *bell == habits.bell);
        let next = at.map_or(0, |at| (at + 1) % Bell::ALL.len());
        habits.bell = Bell::ALL.get(next).copied().unwrap_or_default();
        let words = match habits.bell {
            Bell::Off => "no bell",
            Bell::Marks => "bell at each cue, twice when a step is over",
            Bell::Seconds => "bell each second, twice when a step is over",
        };
        self.keep_habits(habits);
        self.tell(Notice::plain(words));
    }

    /// Nothing is lit from now on but black; whatever theme there was comes back with the next key.
    fn go_dark(&mut self) -> Vec<Effect<()>> {
        let before = self.look.theme;
        let mut dark = before;
        for _ in ThemeName::ALL {
            if dark.name() != ThemeName::Safelight {
                dark = dark.next();
            }
        }
        self.overlays
            .push(Overlay::StepClock(StepClock::Dark(before)));
        self.notice = None;
        self.in_theme(dark)
    }

    /// Lights the screen again.
    pub(super) fn come_back(&mut self, before: Theme) -> Vec<Effect<()>> {
        self.overlays.pop();
        self.changed = true;
        self.in_theme(before)
    }

    fn in_theme(&mut self, theme: Theme) -> Vec<Effect<()>> {
        self.look.theme = theme;
        vec![Effect::Theme(theme)]
    }

    /// Whether nothing may be lit.
    pub(super) fn is_dark(&self) -> bool {
        matches!(
            self.overlays.last(),
            Some(Overlay::StepClock(StepClock::Dark(_)))
        )
    }

    /// Whether the digits of a step are in view.
    fn digits_in_view(&self) -> bool {
        let large = matches!(
            self.overlays.last(),
            Some(Overlay::StepClock(StepClock::Large(_)))
        );
        let over = matches!(self.overlays.last(), Some(Overlay::Clock(_)));
        !self.is_dark() && !over && (large || self.tab == Tab::Bench)
    }

    pub(super) fn until_bench(&self) -> Option<Duration> {
        let bell = self.habits.habits().bell;
        let now = self.bench.counted_now();
        self.clocks
            .until_tick(self.digits_in_view(), bell, &self.bench, now)
    }

    /// Time passed: the bell rings for what was reached, and the digits change where they are seen.
    pub(super) fn tick_bench(&mut self) -> Vec<Effect<()>> {
        if self.clocks.running() == 0 {
            return Vec::new();
        }
        let now = self.bench.counted_now();
        let passed = self.clocks.pass(&self.bench, now);
        let ended = passed.iter().any(|one| one.end);
        // That one is over stands in the bar of every screen.
        self.changed |= !self.is_dark() && (ended || self.digits_in_view());
        vec![Effect::Bell; rings(self.habits.habits().bell, &passed)]
    }

    /// The clocks that run, for the bar.
    pub(super) fn clocks_in_words(&self) -> String {
        let running = self.clocks.running();
        if running == 0 {
            return String::new();
        }
        let now = self.bench.counted_now();
        let over = self.clocks.over(&self.bench, now);
        let clock = self.look.symbols.clock;
        match over {
            0 => format!("{clock} {running} "),
            over => format!("{clock} {running}, {over} over! "),
        }
    }
}
