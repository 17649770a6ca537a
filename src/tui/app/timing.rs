//! The clock of a long exposure, between the pane it was opened from and the logbook.
//!
//! The shutter opens first and the log is told then ([`super::begun`]), so that a slow disk or another
//! program that is writing delays no exposure. What was given comes into the draft of the pane the
//! moment the shutter closes, and is kept there.

use std::path::PathBuf;
use std::time::Duration;

use crossterm::event::KeyEvent;
use ratatui::layout::Position;

use super::{App, deeds, draw};
use crate::craft::{Aperture, Seconds};
use crate::logbook::life::Begun;
use crate::logbook::{Kind, Life, Names, ThingKind, tidy_reference};
use crate::store::StoreError;
use crate::tui::actions::{Availability, Place};
use crate::tui::bench::Bench;
use crate::tui::clock::habits::Habits;
use crate::tui::clock::{Heard, Stage, counted};
use crate::tui::config::remember::remember;
use crate::tui::event::Effect;
use crate::tui::keys::Chord;
use crate::tui::overlays::Overlay;
use crate::tui::overlays::begun::since;
use crate::tui::overlays::clock::{About, Clock, ClockKey, Now, Told, Touch};
use crate::tui::pane::Pane;
use crate::tui::widgets::message::Notice;

/// How the clock is liked and the file where that is remembered, and the clock that was used last.
#[derive(Debug, Default)]
pub(super) struct Kept {
    habits: Habits,
    path: Option<PathBuf>,
    /// With the name of its draft: as long as the exposure is not logged, it can be gone on with.
    last: Option<(String, Box<Clock>)>,
}

/// Moments are counted from so long before the machine was started, so that an exposure that was
/// begun before that can be counted on.
const BEFORE: Duration = Duration::from_secs(365 * 86_400);

/// Where the keys of the clock are pressed.
pub(super) const fn place_of(clock: &Clock) -> Place {
    if clock.asks() {
        return deeds::CLOCK_ASKS;
    }
    match clock.timer().stage() {
        Stage::Ready => deeds::CLOCK_READY,
        Stage::Ended => deeds::CLOCK_ENDED,
        Stage::LeadIn { .. } | Stage::Open { .. } | Stage::Closed => deeds::CLOCK_RUNS,
    }
}

/// What is planned.
pub(super) struct Plan {
    pub(super) time: Option<Seconds>,
    pub(super) aperture: Option<Aperture>,
}

impl Plan {
    /// What a pane says: the time that was typed goes before the one that is reckoned.
    pub(super) fn of(pane: &Pane) -> Plan {
        let reckoned = pane.planned();
        let typed = Seconds::parse(pane.draft.get("time")).ok();
        let aperture = Aperture::parse(pane.draft.get("aperture")).ok();
        Plan {
            time: typed.or(reckoned.map(|setting| setting.time)),
            aperture: aperture.or(reckoned.map(|setting| setting.aperture)),
        }
    }

    fn time(&self) -> Option<Duration> {
        let time = self.time.map(Seconds::value)?;
        Duration::try_from_secs_f64(time).ok()
    }

    fn in_words(&self) -> String {
        match (self.time, self.aperture) {
            (Some(time), Some(aperture)) => format!("{time} at {aperture}"),
            (Some(time), None) => time.to_string(),
            (None, _) => String::new(),
        }
    }
}

impl Kept {
    /// How the clock is liked.
    pub(super) const fn habits(&self) -> Habits {
        self.habits
    }
}

impl App {
    /// Sets how the clock is liked, and where that is remembered.
    pub fn like_the_clock(&mut self, habits: Habits, path: Option<PathBuf>) {
        self.habits = Kept {
            habits,
            path,
            last: None,
        };
    }

    /// The clock counts exposures that are being logged.
    pub(super) fn can_clock(&self) -> Availability {
        match self.under_help() {
            Some(Overlay::Pane(pane))
                if pane.kind() == Kind::Exposed && pane.amending.is_none() =>
            {
                Availability::Yes
            }
            _ => Availability::Hidden,
        }
    }

    fn moment(&self) -> Now {
        let world = &self.bench.world;
        Now {
            steady: BEFORE + world.steady(),
            wall: world.now(),
            counts_sleep: world.counts_sleep(),
        }
    }

    /// The clock, wherever it is: the help page may lie over it.
    pub(super) fn clock_mut(&mut self) -> Option<&mut Clock> {
        let mut overlays = self.overlays.iter_mut().rev();
        overlays.find_map(|overlay| match overlay {
            Overlay::Clock(clock) => Some(clock.as_mut()),
            _ => None,
        })
    }

    /// The pane that is open, wherever it is: the clock may lie over it.
    pub(super) fn pane(&self) -> Option<&Pane> {
        let mut overlays = self.overlays.iter().rev();
        overlays.find_map(|overlay| match overlay {
            Overlay::Pane(pane) => Some(pane.as_ref()),
            _ => None,
        })
    }

    /// The pane that is open, and the bench beside it.
    pub(super) fn pane_mut(&mut self) -> Option<(&mut Pane, &Bench)> {
        let mut overlays = self.overlays.iter_mut().rev();
        let pane = overlays.find_map(|overlay| match overlay {
            Overlay::Pane(pane) => Some(pane.as_mut()),
            _ => None,
        })?;
        Some((pane, &self.bench))
    }

    /// The side a pane is about.
    pub(super) fn side_of(&self, pane: &Pane) -> Option<Life> {
        let side = tidy_reference(pane.draft.get("side"));
        let thing = self.bench.store.find(&[ThingKind::Side], &side)?;
        self.bench.life(thing)
    }

    pub(super) fn until_clock(&self) -> Option<Duration> {
        let clock = self
            .overlays
            .iter()
            .rev()
            .find_map(|overlay| match overlay {
                Overlay::Clock(clock) => Some(clock),
                _ => None,
            })?;
        clock.until_tick(self.moment())
    }

    pub(super) fn tick_clock(&mut self) -> Result<Vec<Effect<()>>, StoreError> {
        let now = self.moment();
        match self.clock_mut().map(|clock| clock.tick(now)) {
            Some(told) => self.follow_clock(told),
            None => Ok(Vec::new()),
        }
    }

    /// A key that means something at the clock.
    pub(super) fn clock_key(&mut self, key: ClockKey) -> Result<Vec<Effect<()>>, StoreError> {
        match key {
            ClockKey::Open => self.open_clock(),
            ClockKey::Drop => self.drop_exposure()?,
            key => return self.touch_clock(Touch::Act(key)),
        }
        Ok(Vec::new())
    }

    /// Any other key.
    pub(super) fn any_key(&mut self, key: &KeyEvent) -> Result<Vec<Effect<()>>, StoreError> {
        let chord = Chord::of(key);
        // The key that opened the clock may still be held down.
        let opened = self.keys.keys_of("pane.clock");
        if opened.contains(&chord.to_string()) {
            return Ok(Vec::new());
        }
        self.touch_clock(Touch::Key(chord))
    }

    pub(super) fn click_on_clock(&mut self, at: Position) -> Result<Vec<Effect<()>>, StoreError> {
        let area = draw::over(self.area, self.parts(self.area).body);
        let key = match self.overlays.last() {
            Some(Overlay::Clock(clock)) => clock.key_at(area, at, &|id| self.key_of(id)),
            _ => None,
        };
        match key {
            Some(key) => self.clock_key(key),
            None => self.touch_clock(Touch::Click),
        }
    }

    fn touch_clock(&mut self, touch: Touch) -> Result<Vec<Effect<()>>, StoreError> {
        let now = self.moment();
        match self.clock_mut().map(|clock| clock.touch(touch, now)) {
            Some(told) => self.follow_clock(told),
            None => Ok(Vec::new()),
        }
    }

    fn open_clock(&mut self) {
        let now = self.moment();
        let last = self.habits.last.take();
        let Some(pane) = self.pane() else {
            return;
        };
        let side = self.side_of(pane);
        let begun = side.and_then(|side| self.sheet_being_exposed(&side));
        // What was counted of this exposure stays, and further openings add up.
        let last = last.filter(|(name, _)| begun.is_some() && name == pane.draft_name());
        let clock = match last {
            Some((_, clock)) => clock,
            None => {
                let plan = Plan::of(pane);
                let about = self.about_clock(pane, &plan);
                let habits = self.habits.habits;
                Box::new(Clock::new(plan.time(), about, habits, now))
            }
        };
        self.overlays.push(Overlay::Clock(clock));
    }

    /// Goes on with the clock of an exposure that was begun before.
    pub(super) fn count_on(&mut self, begun: &Begun) {
        let now = self.moment();
        let Some(pane) = self.pane() else {
            return;
        };
        let plan = Plan {
            time: begun.time,
            aperture: begun.aperture,
        };
        let about = self.about_clock(pane, &plan);
        let passed = since(begun, now.wall);
        let clock = Clock::going_on(plan.time(), passed, about, self.habits.habits, now);
        self.overlays.push(Overlay::Clock(Box::new(clock)));
    }

    fn about_clock(&self, pane: &Pane, plan: &Plan) -> About {
        let (_, side, film) = pane.title();
        let sheet = self.side_of(pane).and_then(|life| life.side()?.sheet);
        let sheet = sheet.map(|sheet| self.bench.store.reference_of(sheet));
        let what = match &sheet {
            Some(sheet) => format!("{sheet} in {side}"),
            None => side,
        };
        // The words on a side begin with the sheet that is in it.
        let rest = sheet.and_then(|sheet| {
            let rest = film.strip_prefix(&format!("{sheet}, "))?;
            Some(rest.to_owned())
        });
        About {
            what,
            film: rest.unwrap_or(film),
            plan: plan.in_words(),
        }
    }

    /// Does what follows from a touch or a tick.
    fn follow_clock(&mut self, told: Told) -> Result<Vec<Effect<()>>, StoreError> {
        self.changed |= told.changed;
        let bell = self.clock_mut().map(|clock| clock.habits().bell);
        let rings = told
            .heard
            .iter()
            .map(|heard| bell.map_or(0, |bell| bell.rings(*heard)))
            .sum();
        self.follow_beginning(&told.heard);
        if told.heard.contains(&Heard::Ended)
            && let Err(error) = self.take_over_what_was_given()
        {
            self.tell_error(&error);
        }
        if told.back {
            self.close()?;
        }
        Ok(vec![Effect::Bell; rings])
    }

    /// Puts what was given into the pane, and keeps it there.
    fn take_over_what_was_given(&mut self) -> Result<(), StoreError> {
        let openings = match self.clock_mut() {
            Some(clock) => clock.openings(),
            None => return Ok(()),
        };
        // Rounded each by itself, so that what is logged adds up.
        let openings: Vec<f64> = openings
            .into_iter()
            .filter_map(|opening| counted(opening).map(Seconds::value))
            .collect();
        let total: f64 = openings.iter().sum();
        let Ok(total) = Seconds::new((total * 10.0).round() / 10.0) else {
            self.tell(Notice::warn(
                "less than a tenth of a second was counted: nothing is filled in",
            ));
            return Ok(());
        };
        let each: Vec<String> = openings
            .iter()
            .map(|opening| format!("{opening}s"))
            .collect();
        let several = match each.len() {
            0 | 1 => String::new(),
            _ => each.join(" "),
        };
        if let Some((pane, bench)) = self.pane_mut() {
            let given = [("time", total.to_string()), ("openings", several)];
            pane.fill(&given, bench);
        }
        self.save_draft()
    }

    /// Puts a clock away that is closed; it is gone on with as long as its exposure is not logged.
    pub(super) fn put_clock_away(&mut self, clock: Box<Clock>) {
        self.keep_habits(clock.habits());
        let name = self.pane().map(|pane| pane.draft_name().to_owned());
        if let Some(name) = name.filter(|_| clock.timer().was_opened()) {
            self.habits.last = Some((name, clock));
        }
    }

    /// Ends the exposure and puts its clock away for good.
    pub(super) fn end_clock(&mut self) {
        let now = self.moment();
        if let Some(Overlay::Clock(mut clock)) = self.overlays.pop() {
            clock.touch(Touch::Act(ClockKey::Drop), now);
            self.keep_habits(clock.habits());
        }
    }

    /// Remembers how the clock is liked now.
    pub(super) fn keep_habits(&mut self, habits: Habits) {
        if habits == self.habits.habits {
            return;
        }
        self.habits.habits = habits;
        let Some(path) = &self.habits.path else {
            return;
        };
        if let Err(why) = remember(path, "clock", &habits.settings()) {
            self.tell(Notice::warn(format!(
                "how you like the clock is kept until you leave, but not in the settings: {why}"
            )));
        }
    }
}
