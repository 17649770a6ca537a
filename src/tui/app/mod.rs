//! The application: which screen is open, what lies over it, and what a key does.
//!
//! [`App`] is plain data over a [`Bench`]. [`App::handle`] answers one event; queries and entries are
//! made there, because each takes less than the time of a frame. [`App::render`] is a pure function
//! of the data into a buffer. Keys go to the top overlay, then to the words being typed, then to the
//! screen, then to what works everywhere; what they mean is said by the table in [`deeds`].

use crossterm::event::{KeyEvent, MouseButton, MouseEvent, MouseEventKind};
use ratatui::layout::{Position, Rect};

use super::actions::{Availability, KeyMap, Place, Pressed, Rebinding};
use super::bench::Bench;
use super::browse::{Browse, Half, Source};
use super::event::{Application, Effect, Event};
use super::keys::Chord;
use super::look::Look;
use super::overlays::Overlay;
use super::overlays::reason::Reason;
use super::screens::prints::Prints;
use super::screens::rack::Rack;
use super::screens::sheets::Sheets;
use super::screens::shelf::Board;
use super::timeline::Timeline;
use super::widgets::grid::Way;
use super::widgets::listing::Step;
use super::widgets::message::Notice;
use crate::logbook::{Kind, Life, Thing, ThingKind};
use crate::store::StoreError;

pub mod deeds;
mod draw;
mod logging;
mod opening;

use deeds::{ACTIONS, Act};

/// The screens, from the left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tab {
    /// Sheets and their timelines.
    Sheets,
    /// The rack of holders.
    Rack,
    /// Prints and their timelines.
    Prints,
    /// What stands on the shelf.
    Shelf,
}

impl Tab {
    /// Every screen, from the left.
    pub const ALL: [Tab; 4] = [Tab::Sheets, Tab::Rack, Tab::Prints, Tab::Shelf];

    const fn place(self) -> Place {
        match self {
            Tab::Sheets => deeds::SHEETS,
            Tab::Rack => deeds::RACK,
            Tab::Prints => deeds::PRINTS,
            Tab::Shelf => deeds::SHELF,
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
    /// The timeline of the side under the cursor of the rack; it is not drawn, but asked.
    side: Timeline,
    overlays: Vec<Overlay>,
    notice: Option<Notice>,
    begun: Option<Chord>,
    area: Rect,
    changed: bool,
    drafts: usize,
    version: i64,
}

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
            overlays: Vec::new(),
            notice: None,
            begun: None,
            area: Rect::ZERO,
            changed: true,
        };
        app.tab = app.first_screen()?;
        app.reload()?;
        app.greet(&problems)?;
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
        self.drafts = self.bench.store.drafts()?.len();
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
            let key = self.keys.key_of("drafts").unwrap_or_default();
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
            Tab::Sheets | Tab::Rack => &Sheets,
        }
    }

    fn browse(&self) -> Option<&Browse> {
        match self.tab {
            Tab::Sheets => Some(&self.sheets),
            Tab::Prints => Some(&self.prints),
            Tab::Shelf => Some(&self.shelf),
            Tab::Rack => None,
        }
    }

    fn browse_mut(&mut self) -> Option<(&mut Browse, &'static dyn Source, &Bench)> {
        let source = self.source();
        let browse = match self.tab {
            Tab::Sheets => &mut self.sheets,
            Tab::Prints => &mut self.prints,
            Tab::Shelf => &mut self.shelf,
            Tab::Rack => return None,
        };
        Some((browse, source, &self.bench))
    }

    /// Loads what is on the screen anew.
    fn reload(&mut self) -> Result<(), StoreError> {
        self.version = self.bench.store.data_version()?;
        if let Some((browse, source, bench)) = self.browse_mut() {
            browse.reload(source, bench)?;
        } else {
            self.rack.reload(&self.bench)?;
            self.side.show(self.rack.selected(), &self.bench)?;
        }
        self.changed = true;
        self.settle();
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
            None => &self.side,
        }
    }

    /// The thing at hand, with its life.
    fn at_hand(&self) -> Option<&Life> {
        self.timeline().life()
    }

    fn can_log(&self, kind: Kind) -> Availability {
        let Some(life) = self.at_hand() else {
            return Availability::Hidden;
        };
        if self.bench.store.is_read_only() {
            return Availability::No("the logbook is open read only".into());
        }
        if self.timeline().possible.contains(&kind) {
            return Availability::Yes;
        }
        let doubtful = life.side().is_some_and(|side| side.doubt.is_some());
        if doubtful && matches!(kind, Kind::Exposed | Kind::Unloaded) {
            let key = self.keys.key_of("resolve").unwrap_or_default();
            return Availability::No(
                format!(
                    "{} is in doubt: find out first what happened ({key})",
                    life.reference
                )
                .into(),
            );
        }
        Availability::No(
            format!(
                "{} is {}: what can come next is under enter",
                life.reference,
                life.state_word()
            )
            .into(),
        )
    }

    fn can_resolve(&self) -> Availability {
        let doubtful = |life: &Life| life.side().is_some_and(|side| side.doubt.is_some());
        match self.side_at_hand() {
            Some(life) if doubtful(&life) => Availability::Yes,
            _ => Availability::Hidden,
        }
    }

    /// The side at hand, or the side the sheet at hand is in.
    fn side_at_hand(&self) -> Option<Life> {
        let life = self.at_hand()?;
        match life.thing.kind {
            ThingKind::Side => Some(life.clone()),
            ThingKind::Sheet => {
                let side = life.sheet()?.side?;
                self.bench.life(Thing::new(ThingKind::Side, side))
            }
            _ => None,
        }
    }

    fn has_thing(&self) -> Availability {
        match self.at_hand() {
            Some(_) => Availability::Yes,
            None => Availability::Hidden,
        }
    }

    fn has_entry(&self) -> Availability {
        match self.timeline().selected() {
            Some(_) if self.bench.store.is_read_only() => {
                Availability::No("the logbook is open read only".into())
            }
            Some(_) => Availability::Yes,
            None => Availability::Hidden,
        }
    }

    fn has_drafts(&self) -> Availability {
        if self.drafts > 0 {
            Availability::Yes
        } else {
            Availability::Hidden
        }
    }

    fn can_override(&self) -> Availability {
        match self.overlays.last() {
            Some(Overlay::Pane(pane)) => match &pane.refusal {
                Some(refusal) if refusal.can_be_overridden() => Availability::Yes,
                Some(_) => Availability::No("no reason makes this possible".into()),
                None => Availability::Hidden,
            },
            _ => Availability::Hidden,
        }
    }

    /// The places that have the focus, the innermost first.
    fn places(&self) -> Vec<Place> {
        match self.overlays.last() {
            Some(Overlay::Pane(_)) => vec![deeds::PANE],
            Some(Overlay::Reason(_)) => vec![deeds::REASON],
            Some(Overlay::Search(_)) => vec![deeds::SEARCH],
            Some(Overlay::Road(_)) => vec![deeds::ROAD],
            Some(Overlay::Help(_)) => vec![deeds::HELP],
            Some(Overlay::Leave(_)) => vec![deeds::LEAVE],
            Some(Overlay::Welcome(_)) => vec![deeds::WELCOME],
            Some(
                Overlay::Next { .. } | Overlay::Links(_) | Overlay::Drafts(_) | Overlay::Doubt(_),
            ) => vec![deeds::CHOICE],
            None if self.browse().is_some_and(|browse| browse.finding) => vec![deeds::FIND],
            None => vec![self.tab.place(), Place::GLOBAL],
        }
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
            Pressed::Nothing => self.key_to_overlay(key)?,
        }
        Ok(Vec::new())
    }

    fn act(&mut self, act: Act) -> Result<Vec<Effect<()>>, StoreError> {
        match act {
            Act::Quit => return self.leave(),
            Act::Suspend => return Ok(vec![Effect::Suspend]),
            Act::Confirm => return self.confirm(),
            Act::Screen(number) => {
                if let Some(tab) = Tab::ALL.get(number) {
                    self.go_to_tab(*tab)?;
                }
            }
            Act::Move(step) => self.step(step)?,
            Act::Side(way) => self.step_rack(way)?,
            Act::NextWaiting => self.next_side(|side| side.state == "exposed")?,
            Act::NextEmpty => self.next_side(|side| side.state == "empty")?,
            Act::Half(strip) => {
                if let Some((browse, _, _)) = self.browse_mut() {
                    browse.half = if strip { Half::Strip } else { Half::List };
                }
            }
            Act::Board(by) => {
                self.board = self.board.step(by);
                self.shelf = Browse::default();
                self.reload()?;
            }
            Act::Open => self.open_next()?,
            Act::New => self.open_new(),
            Act::Log(kind) => self.open_pane_at_hand(kind)?,
            Act::Resolve => self.open_doubt()?,
            Act::Strike => self.open_strike(),
            Act::Amend => self.open_amend()?,
            Act::Undo => self.open_undo()?,
            Act::Road => self.open_road()?,
            Act::Turn => {
                if let Some(Overlay::Road(road)) = self.overlays.last_mut() {
                    road.turn(&self.bench)?;
                }
            }
            Act::Find => {
                if let Some((browse, _, _)) = self.browse_mut() {
                    browse.finding = true;
                    browse.half = Half::List;
                }
            }
            Act::Search => self.overlays.push(Overlay::Search(Default::default())),
            Act::Drafts => self.open_drafts()?,
            Act::Help => self.overlays.push(Overlay::Help(Default::default())),
            Act::Theme => return Ok(self.next_theme()),
            Act::Close => self.close()?,
            Act::Override => {
                if let Some(Overlay::Pane(pane)) = self.overlays.last_mut() {
                    pane.open_override(&self.bench);
                }
            }
            Act::Clear => self.clear_pane()?,
        }
        self.settle();
        Ok(Vec::new())
    }

    fn next_side(
        &mut self,
        wanted: impl Fn(&crate::store::rows::SideRow) -> bool,
    ) -> Result<(), StoreError> {
        if self.rack.next_in(wanted) {
            self.side.show(self.rack.selected(), &self.bench)?;
        }
        Ok(())
    }

    fn step(&mut self, step: Step) -> Result<(), StoreError> {
        if let Some(Overlay::Road(road)) = self.overlays.last_mut() {
            road.step(step);
            return Ok(());
        }
        if let Some((browse, source, bench)) = self.browse_mut() {
            browse.step(step, source, bench)?;
        } else {
            self.step_rack(match step {
                Step::Up(_) => Way::Up,
                Step::Down(_) | Step::To(_) => Way::Down,
                Step::PageUp => Way::PageUp,
                Step::PageDown => Way::PageDown,
                Step::First => Way::First,
                Step::Last => Way::Last,
            })?;
        }
        Ok(())
    }

    fn step_rack(&mut self, way: Way) -> Result<(), StoreError> {
        if self.rack.step(way) {
            self.side.show(self.rack.selected(), &self.bench)?;
        }
        Ok(())
    }

    fn go_to_tab(&mut self, tab: Tab) -> Result<(), StoreError> {
        self.tab = tab;
        self.reload()
    }

    /// Goes to a thing, wherever it is listed.
    fn go_to(&mut self, thing: Thing) -> Result<(), StoreError> {
        self.overlays.clear();
        self.tab = match thing.kind {
            ThingKind::Sheet => Tab::Sheets,
            ThingKind::Print => Tab::Prints,
            ThingKind::Side | ThingKind::Holder => Tab::Rack,
            _ => Tab::Shelf,
        };
        if let Some(board) = Board::of(thing.kind)
            && board != self.board
        {
            self.board = board;
            self.shelf = Browse::default();
        }
        if self.tab == Tab::Rack {
            self.rack.reload(&self.bench)?;
            if !self.rack.select(thing) {
                self.tell(Notice::warn(
                    "that holder is out of use and not in the rack",
                ));
            }
        } else if let Some((browse, source, bench)) = self.browse_mut() {
            browse.find_nothing(source, bench)?;
            browse.reload(source, bench)?;
            browse.half = Half::List;
            browse.select(thing, source, bench)?;
        }
        self.reload()
    }

    fn next_theme(&mut self) -> Vec<Effect<()>> {
        let theme = self.look.theme.next();
        self.look.theme = theme;
        self.tell(Notice::plain(format!("theme: {}", theme.name().word())));
        vec![Effect::Theme(theme)]
    }

    fn leave(&mut self) -> Result<Vec<Effect<()>>, StoreError> {
        let drafts = self.bench.store.drafts()?;
        if drafts.is_empty() {
            return Ok(vec![Effect::Quit]);
        }
        self.overlays
            .push(Overlay::Leave(opening::leave_question(&drafts)));
        Ok(Vec::new())
    }

    fn close(&mut self) -> Result<(), StoreError> {
        match self.overlays.pop() {
            None => {
                if let Some((browse, source, bench)) = self.browse_mut() {
                    browse.find_nothing(source, bench)?;
                }
            }
            Some(Overlay::Pane(pane)) => self.keep_draft(&pane)?,
            Some(Overlay::Welcome(_)) => self.tell(Notice::plain(
                "an empty logbook: n adds a holder or a box, ? shows the keys",
            )),
            Some(_) => {}
        }
        Ok(())
    }

    fn paste(&mut self, text: &str) -> Result<(), StoreError> {
        self.changed = true;
        match self.overlays.last_mut() {
            Some(Overlay::Pane(pane)) => {
                if pane.paste(text, &self.bench) == super::pane::Told::Typed {
                    self.save_draft()?;
                }
            }
            Some(Overlay::Reason(reason)) => reason.paste(text),
            Some(Overlay::Search(search)) => search.paste(text, &self.bench)?,
            Some(Overlay::Welcome(welcome)) => welcome.paste(text),
            Some(_) => {}
            None => {
                if let Some((browse, source, bench)) = self.browse_mut()
                    && browse.finding
                {
                    browse.find_paste(text, source, bench)?;
                }
            }
        }
        Ok(())
    }

    fn mouse(&mut self, mouse: MouseEvent) -> Result<(), StoreError> {
        let at = Position::new(mouse.column, mouse.row);
        let wheel: Option<isize> = match mouse.kind {
            MouseEventKind::ScrollUp => Some(-3),
            MouseEventKind::ScrollDown => Some(3),
            MouseEventKind::Down(MouseButton::Left) => None,
            _ => return Ok(()),
        };
        self.changed = true;
        let parts = self.parts(self.area);
        if !self.overlays.is_empty() {
            return self.mouse_on_overlay(at, wheel);
        }
        match wheel {
            Some(lines) => {
                if let Some((browse, source, bench)) = self.browse_mut() {
                    browse.wheel(parts.body, at, lines, source, bench)?;
                } else {
                    self.step_rack(if lines < 0 { Way::Up } else { Way::Down })?;
                }
            }
            None => {
                if let Some(number) = self.click_on_bar(parts.bar, at)
                    && let Some(tab) = Tab::ALL.get(number)
                {
                    return self.go_to_tab(*tab);
                }
                if self.tab == Tab::Rack {
                    let before = self.rack.selected();
                    if self.rack.click(parts.body, at) {
                        self.side.show(self.rack.selected(), &self.bench)?;
                        if self.rack.selected() == before {
                            self.open_next()?;
                        }
                    }
                } else if let Some((browse, source, bench)) = self.browse_mut() {
                    browse.click(parts.body, at, source, bench)?;
                }
            }
        }
        self.settle();
        Ok(())
    }
}

impl Application for App {
    type Effect = ();
    type Outcome = ();

    fn handle(&mut self, event: Event<()>) -> Vec<Effect<()>> {
        let answered = match event {
            Event::Key(key) => self.look_for_others().and_then(|()| self.key(&key)),
            Event::Paste(text) => self.paste(&text).map(|()| Vec::new()),
            Event::Mouse(mouse) => self.mouse(mouse).map(|()| Vec::new()),
            Event::Resize(columns, rows) => {
                self.area = Rect::new(0, 0, columns, rows);
                self.changed = true;
                self.settle();
                Ok(Vec::new())
            }
            Event::Tick | Event::Outcome(()) => Ok(Vec::new()),
        };
        answered.unwrap_or_else(|error| {
            self.tell_error(&error);
            Vec::new()
        })
    }

    fn take_changed(&mut self) -> bool {
        std::mem::take(&mut self.changed)
    }

    fn render(&self, area: Rect, buf: &mut ratatui::buffer::Buffer) -> Option<Position> {
        self.draw(area, buf)
    }

    fn until_tick(&self) -> Option<std::time::Duration> {
        None
    }
}

#[cfg(test)]
pub(crate) mod stand;
#[cfg(test)]
mod tests;

/// Asks why these entries are struck.
fn ask_why(
    title: &'static str,
    reason: &str,
    entries: Vec<(crate::logbook::EntryId, String)>,
) -> Overlay {
    let (ids, what) = entries.into_iter().unzip();
    Overlay::Reason(Reason::new(title, ids, what, reason))
}
