//! The clock of a long exposure, between the pane it was opened from and the logbook.
//!
//! The shutter opens first and the log is told then, so that a slow disk or another program that is
//! writing delays no exposure. What was given comes into the draft of the pane the moment the shutter
//! closes, and is kept there.

use std::path::PathBuf;
use std::time::Duration;

use crossterm::event::KeyEvent;
use ratatui::layout::Position;

use super::{App, deeds, draw};
use crate::craft::{Aperture, Seconds};
use crate::logbook::{Kind, Names, ThingKind, tidy_reference};
use crate::store::StoreError;
use crate::tui::actions::{Availability, Place};
use crate::tui::clock::habits::Habits;
use crate::tui::clock::{Heard, Stage, counted};
use crate::tui::config::remember::remember;
use crate::tui::event::Effect;
use crate::tui::keys::Chord;
use crate::tui::overlays::Overlay;
use crate::tui::overlays::clock::{About, Clock, ClockKey, Now, Told, Touch};
use crate::tui::pane::Pane;
use crate::tui::widgets::message::Notice;

/// How the clock is liked, and the file where that is remembered.
#[derive(Debug, Default)]
pub(super) struct Kept {
    habits: Habits,
    path: Option<PathBuf>,
}

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

/// What is planned in a pane.
struct Plan {
    time: Option<Seconds>,
    aperture: Option<Aperture>,
}

impl Plan {
    fn of(pane: &Pane) -> Plan {
        Plan {
            time: Seconds::parse(pane.draft.get("time")).ok(),
            aperture: Aperture::parse(pane.draft.get("aperture")).ok(),
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

impl App {
    /// Sets how the clock is liked, and where that is remembered.
    pub fn like_the_clock(&mut self, habits: Habits, path: Option<PathBuf>) {
        self.habits = Kept { habits, path };
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
            steady: world.steady(),
            wall: world.now(),
            counts_sleep: world.counts_sleep(),
        }
    }

    /// The clock, wherever it is: the help page may lie over it.
    fn clock_mut(&mut self) -> Option<&mut Clock> {
        self.overlays
            .iter_mut()
            .rev()
            .find_map(|overlay| match overlay {
                Overlay::Clock(clock) => Some(clock.as_mut()),
                _ => None,
            })
    }

    /// The pane that is open, wherever it is: the clock may lie over it.
    pub(super) fn pane(&self) -> Option<&Pane> {
        self.overlays
            .iter()
            .rev()
            .find_map(|overlay| match overlay {
                Overlay::Pane(pane) => Some(pane.as_ref()),
                _ => None,
            })
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
        if key == ClockKey::Open {
            self.open_clock();
            return Ok(Vec::new());
        }
        self.touch_clock(Touch::Act(key))
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
        self.touch_clock(key.map_or(Touch::Click, Touch::Act))
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
        let Some(pane) = self.pane() else {
            return;
        };
        let plan = Plan::of(pane);
        let about = self.about_clock(pane, &plan);
        let clock = Clock::new(plan.time(), about, self.habits.habits, now);
        self.overlays.push(Overlay::Clock(Box::new(clock)));
    }

    fn about_clock(&self, pane: &Pane, plan: &Plan) -> About {
        let (_, side, film) = pane.title();
        let store = &self.bench.store;
        let life = store
            .find(&[ThingKind::Side], &tidy_reference(&side))
            .and_then(|thing| self.bench.life(thing));
        let sheet = life.and_then(|life| life.side()?.sheet);
        let sheet = sheet.map(|sheet| store.reference_of(sheet));
        let what = match &sheet {
            Some(sheet) => format!("{sheet} in {side}"),
            None => side,
        };
        // The words on a side begin with the sheet that is in it.
        let film = match sheet
            .and_then(|sheet| film.strip_prefix(&format!("{sheet}, ")).map(str::to_owned))
        {
            Some(rest) => rest,
            None => film,
        };
        About {
            what,
            film,
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
        let several = match openings.len() {
            0 | 1 => String::new(),
            _ => {
                let each: Vec<String> = openings
                    .iter()
                    .map(|opening| format!("{opening}s"))
                    .collect();
                each.join(" ")
            }
        };
        let bench = &self.bench;
        let pane = self
            .overlays
            .iter_mut()
            .rev()
            .find_map(|overlay| match overlay {
                Overlay::Pane(pane) => Some(pane),
                _ => None,
            });
        if let Some(pane) = pane {
            pane.fill(&[("time", total.to_string()), ("openings", several)], bench);
        }
        self.save_draft()
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
