//! The application: which screen is open, what lies over it, and what a key does.
//!
//! [`App`] is plain data over a [`Bench`]. [`App::handle`] answers one event; queries and entries are
//! made there, because each takes less than the time of a frame. [`App::render`] is a pure function
//! of the data into a buffer. Keys go to the top overlay, then to the words being typed, then to the
//! screen, then to what works everywhere; what they mean is said by the table in [`deeds`].

use std::time::Duration;

use crossterm::event::KeyEvent;
use ratatui::layout::{Position, Rect};

use super::actions::{KeyMap, Place, Pressed, Rebinding};
use super::bench::Bench;
use super::browse::{Browse, Half, Source};
use super::event::{Application, Effect, Event};
use super::keys::Chord;
use super::look::Look;
use super::overlays::Overlay;
use super::overlays::step_clock::StepClock;
use super::reckoning::Kept;
use super::screens::bench::Clocks;
use super::screens::curves::Curves;
use super::screens::prints::Prints;
use super::screens::rack::Rack;
use super::screens::sheets::Sheets;
use super::screens::shelf::Board;
use super::timeline::Timeline;
use super::widgets::message::Notice;
use crate::logbook::Life;
use crate::store::StoreError;

mod acting;
mod allowed;
mod at_the_bench;
mod begun;
mod curving;
pub mod deeds;
mod draw;
mod going;
mod logging;
mod opening;
mod planning;
mod pointer;
mod reckoning;
mod timing;
mod typing;

use deeds::{ACTIONS, Act};
use going::Visit;

/// The screens, from the left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tab {
    /// Sheets and their timelines.
    Sheets,
    /// The rack of holders.
    Rack,
    /// What is being counted, and what waits for its next step.
    Bench,
    /// Prints and their timelines.
    Prints,
    /// What stands on the shelf.
    Shelf,
    /// Strips of steps and what they tell.
    Curves,
}

impl Tab {
    /// Every screen, from the left.
    pub const ALL: [Tab; 6] = [
        Tab::Sheets,
        Tab::Rack,
        Tab::Bench,
        Tab::Prints,
        Tab::Shelf,
        Tab::Curves,
    ];

    const fn place(self) -> Place {
        match self {
            Tab::Sheets => deeds::SHEETS,
            Tab::Rack => deeds::RACK,
            Tab::Bench => deeds::BENCH,
            Tab::Prints => deeds::PRINTS,
            Tab::Shelf => deeds::SHELF,
            Tab::Curves => deeds::CURVES,
        }
    }
}

/// The front end.
#[derive(Debug)]
pub struct App {
    bench: Bench,
    look: Look,
    keys: KeyMap<App, Act>,
    tab: Tab,
    sheets: Browse,
    prints: Browse,
    shelf: Browse,
    board: Board,
    rack: Rack,
    /// The timeline of the side under the cursor of the rack, and whether it has the focus.
    side: Timeline,
    rack_half: Half,
    /// The clocks of runs and prints, and the timeline of the one at hand.
    clocks: Clocks,
    clock_line: Timeline,
    curves: Curves,
    /// The timeline of the strip under the cursor of the curves, and whether it has the focus.
    strip: Timeline,
    curves_half: Half,
    /// Where one was before something was followed, the last one last.
    trail: Vec<Visit>,
    overlays: Vec<Overlay>,
    /// What was typed to reckon with in this session.
    reckoned: Kept,
    notice: Option<Notice>,
    begun: Option<Chord>,
    area: Rect,
    changed: bool,
    drafts: usize,
    /// How the clock is liked, and where that is remembered.
    habits: timing::Kept,
    /// What is typed could not be kept yet, because another program is writing.
    draft_waits: bool,
    version: i64,
}

/// How soon it is tried again to keep what is typed.
const KEEP_AGAIN: Duration = Duration::from_millis(250);

impl App {
    /// The front end over a bench. `own_keys` are the user's; what is wrong with them is shown.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn new(
        bench: Bench,
        look: Look,
        own_keys: &[Rebinding],
        problems: Vec<String>,
    ) -> Result<App, StoreError> {
        let (keys, key_problems) = KeyMap::new(ACTIONS, own_keys);
        let mut problems = problems;
        problems.extend(key_problems.iter().map(ToString::to_string));
        let mut app = App {
            version: bench.store.data_version()?,
            drafts: 0,
            habits: timing::Kept::default(),
            draft_waits: false,
            bench,
            look,
            keys,
            tab: Tab::Rack,
            sheets: Browse::default(),
            prints: Browse::default(),
            shelf: Browse::default(),
            board: Board::default(),
            rack: Rack::default(),
            side: Timeline::default(),
            rack_half: Half::List,
            clocks: Clocks::default(),
            clock_line: Timeline::default(),
            curves: Curves::default(),
            strip: Timeline::default(),
            curves_half: Half::List,
            trail: Vec::new(),
            overlays: Vec::new(),
            reckoned: Kept::default(),
            notice: None,
            begun: None,
            area: Rect::ZERO,
            changed: true,
        };
        app.tab = app.first_screen()?;
        app.reload()?;
        app.greet(&problems)?;
        app.ask_about_begun()?;
        Ok(app)
    }

    /// The sheets when there are any, else the rack, where the first one is loaded.
    fn first_screen(&self) -> Result<Tab, StoreError> {
        let any = self.bench.store.sheets(&crate::store::rows::SheetQuery {
            limit: 1,
            ..Default::default()
        })?;
        Ok(if any.is_empty() {
            Tab::Rack
        } else {
            Tab::Sheets
        })
    }

    fn greet(&mut self, problems: &[String]) -> Result<(), StoreError> {
        self.count_drafts()?;
        if let Some(first) = problems.first() {
            let more = match problems.len() {
                1 => String::new(),
                count => format!(" (and {} more: notchbook keys)", count - 1),
            };
            self.notice = Some(Notice::warn(format!("{first}{more}")));
        } else if self.bench.store.is_read_only() {
            self.notice = Some(Notice::warn(
                "read only: everything can be looked at, nothing can be logged",
            ));
        } else if self.drafts > 0 {
            let key = self.key_of("drafts");
            let what = if self.drafts == 1 {
                "entry was"
            } else {
                "entries were"
            };
            self.notice = Some(Notice::plain(format!(
                "{} {what} typed and not logged: {key} shows them",
                self.drafts
            )));
        }
        Ok(())
    }

    /// The bench, for tests that look at the logbook behind the screen.
    pub fn bench(&self) -> &Bench {
        &self.bench
    }

    /// Closes the logbook, so that the file at rest is one file.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn close_logbook(self) -> Result<(), StoreError> {
        self.bench.store.close()
    }

    /// The look, as it is now.
    pub fn look(&self) -> &Look {
        &self.look
    }

    /// The keys, for the key table.
    pub fn keys(&self) -> &KeyMap<App, Act> {
        &self.keys
    }

    fn source(&self) -> &'static dyn Source {
        match self.tab {
            Tab::Prints => &Prints,
            Tab::Shelf => self.board.source(),
            Tab::Sheets | Tab::Rack | Tab::Bench | Tab::Curves => &Sheets,
        }
    }

    fn browse(&self) -> Option<&Browse> {
        match self.tab {
            Tab::Sheets => Some(&self.sheets),
            Tab::Prints => Some(&self.prints),
            Tab::Shelf => Some(&self.shelf),
            Tab::Rack | Tab::Bench | Tab::Curves => None,
        }
    }

    fn browse_mut(&mut self) -> Option<(&mut Browse, &'static dyn Source, &Bench)> {
        let source = self.source();
        let browse = match self.tab {
            Tab::Sheets => &mut self.sheets,
            Tab::Prints => &mut self.prints,
            Tab::Shelf => &mut self.shelf,
            Tab::Rack | Tab::Bench | Tab::Curves => return None,
        };
        Some((browse, source, &self.bench))
    }

    /// Loads what is on the screen anew.
    fn reload(&mut self) -> Result<(), StoreError> {
        self.version = self.bench.store.data_version()?;
        self.bench.look_up_own();
        self.clocks.reload(&self.bench)?;
        if let Some((browse, source, bench)) = self.browse_mut() {
            browse.reload(source, bench)?;
        } else if self.tab == Tab::Bench {
            self.show_clock_line()?;
        } else if self.tab == Tab::Curves {
            self.curves.reload(&self.bench)?;
            self.strip.show(self.curves.selected(), &self.bench)?;
        } else {
            self.rack.reload(&self.bench)?;
            self.side.show(self.rack.selected(), &self.bench)?;
        }
        self.changed = true;
        Ok(())
    }

    /// Looks whether another program wrote into the logbook, and shows what it wrote.
    fn look_for_others(&mut self) -> Result<(), StoreError> {
        if self.bench.store.data_version()? != self.version {
            self.reload()?;
        }
        Ok(())
    }

    fn timeline(&self) -> &Timeline {
        match self.browse() {
            Some(browse) => &browse.timeline,
            None if self.tab == Tab::Bench => &self.clock_line,
            None if self.tab == Tab::Curves => &self.strip,
            None => &self.side,
        }
    }

    /// The thing at hand, with its life.
    fn at_hand(&self) -> Option<&Life> {
        self.timeline().life()
    }

    /// The places that have the focus, the innermost first.
    fn places(&self) -> Vec<Place> {
        let Some(top) = self.overlays.last() else {
            return self.places_of_screen();
        };
        let place = match top {
            Overlay::Pane(_) => deeds::PANE,
            Overlay::Reason(_) => deeds::REASON,
            Overlay::Search(_) => deeds::SEARCH,
            Overlay::Road(_) => deeds::ROAD,
            Overlay::Plan(plan) if plan.is_asking() => deeds::PLAN_ASKS,
            Overlay::Plan(_) => deeds::PLAN,
            Overlay::Help(_) => deeds::HELP,
            Overlay::Leave(_) => deeds::LEAVE,
            Overlay::Welcome(_) => deeds::WELCOME,
            Overlay::Clock(clock) => timing::place_of(clock),
            Overlay::Reckon(_) => deeds::RECKON,
            Overlay::StepClock(StepClock::Large(_)) => deeds::STEP_CLOCK,
            Overlay::StepClock(StepClock::Dark(_)) => deeds::DARKNESS,
            Overlay::Next { .. }
            | Overlay::Links(_)
            | Overlay::Drafts(_)
            | Overlay::Figures(_)
            | Overlay::Doubt(_)
            | Overlay::Begun(_) => match top.menu() {
                Some(menu) if menu.finds() => deeds::LIST,
                _ => deeds::CHOICE,
            },
        };
        vec![place]
    }

    fn places_of_screen(&self) -> Vec<Place> {
        if self.is_finding() {
            return vec![deeds::FIND];
        }
        let strip = (self.half() == Half::Strip).then_some(deeds::STRIP);
        let mut places: Vec<Place> = strip.into_iter().collect();
        places.extend([self.tab.place(), Place::GLOBAL]);
        places
    }

    /// The key of an action, to be told in a sentence.
    fn key_of(&self, id: &str) -> String {
        let key = self.keys.key_of(id);
        key.unwrap_or_else(|| format!("(no key: \"{id}\")"))
    }

    fn tell(&mut self, notice: Notice) {
        self.notice = Some(notice);
        self.changed = true;
    }

    fn tell_error(&mut self, error: &StoreError) {
        self.tell(Notice::bad(error.to_string()));
    }

    fn key(&mut self, key: &KeyEvent) -> Result<Vec<Effect<()>>, StoreError> {
        self.notice = None;
        self.changed = true;
        let mut begun = self.begun.take();
        let pressed = self
            .keys
            .press(&self.places(), &mut begun, Chord::of(key), self);
        self.begun = begun;
        match pressed {
            Pressed::Do(act) => return self.act(act),
            Pressed::Cannot(why) => self.tell(Notice::warn(why)),
            Pressed::Begun => {}
            Pressed::Nothing => return self.key_to_overlay(key),
        }
        Ok(Vec::new())
    }

    /// Time passed: for a draft that could not be kept, or for a clock.
    fn tick(&mut self) -> Result<Vec<Effect<()>>, StoreError> {
        if self.draft_waits {
            self.save_draft()?;
        }
        let mut effects = self.tick_clock()?;
        effects.extend(self.tick_bench());
        Ok(effects)
    }
}

impl Application for App {
    type Effect = ();
    type Outcome = ();

    fn handle(&mut self, event: Event<()>) -> Vec<Effect<()>> {
        let answered = match event {
            Event::Key(key) => self.look_for_others().and_then(|()| self.key(&key)),
            Event::Paste(text) => self.paste(&text).map(|()| Vec::new()),
            Event::Mouse(mouse) => self.mouse(mouse),
            Event::Resize(columns, rows) => {
                self.area = Rect::new(0, 0, columns, rows);
                self.changed = true;
                Ok(Vec::new())
            }
            Event::Tick => self.tick(),
            Event::Outcome(()) => return Vec::new(),
        };
        let effects = answered.unwrap_or_else(|error| {
            self.tell_error(&error);
            Vec::new()
        });
        // A notice takes a line, so the windows are told after whatever was said.
        self.settle();
        effects
    }

    fn take_changed(&mut self) -> bool {
        std::mem::take(&mut self.changed)
    }

    fn render(&self, area: Rect, buf: &mut ratatui::buffer::Buffer) -> Option<Position> {
        self.draw(area, buf)
    }

    fn until_tick(&self) -> Option<Duration> {
        let draft = self.draft_waits.then_some(KEEP_AGAIN);
        let clocks = self.until_clock().into_iter().chain(self.until_bench());
        draft.into_iter().chain(clocks).min()
    }
}

#[cfg(test)]
mod pictures;
#[cfg(test)]
pub(crate) mod stand;
#[cfg(test)]
mod tests;
