//! Going about: between screens, halves, rows and sides, to a thing that was followed and back.

use super::{App, Tab};
use crate::logbook::{Thing, ThingKind};
use crate::store::StoreError;
use crate::store::rows::SideRow;
use crate::tui::browse::{Browse, Half};
use crate::tui::overlays::Overlay;
use crate::tui::screens::shelf::Board;
use crate::tui::widgets::grid::Way;
use crate::tui::widgets::listing::Step;
use crate::tui::widgets::message::Notice;

/// Most places that are remembered.
const TRAIL: usize = 50;

/// Where one was.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Visit {
    tab: Tab,
    board: Board,
    thing: Option<Thing>,
    half: Half,
}

impl App {
    /// Which half of the screen has the focus.
    pub(super) fn half(&self) -> Half {
        match self.browse() {
            Some(browse) => browse.half,
            None if self.tab == Tab::Bench => Half::List,
            None if self.tab == Tab::Curves => self.curves_half,
            None => self.rack_half,
        }
    }

    pub(super) fn set_half(&mut self, half: Half) {
        let on_curves = self.tab == Tab::Curves;
        let on_bench = self.tab == Tab::Bench;
        match self.browse_mut() {
            Some((browse, _, _)) => browse.half = half,
            None if on_bench => {}
            None if on_curves => self.curves_half = half,
            None => self.rack_half = half,
        }
    }

    pub(super) fn rack_is_finding(&self) -> bool {
        self.tab == Tab::Rack && self.rack.finding
    }

    /// Whether words are being typed that narrow the list.
    pub(super) fn is_finding(&self) -> bool {
        match self.browse() {
            Some(browse) => browse.finding,
            None => self.rack_is_finding(),
        }
    }

    /// Begins to narrow what is on top by words.
    pub(super) fn find(&mut self) {
        if let Some(menu) = self.overlays.last_mut().and_then(Overlay::menu_mut) {
            menu.find_by_letters();
            return;
        }
        self.set_half(Half::List);
        let on_curves = self.tab == Tab::Curves;
        let on_bench = self.tab == Tab::Bench;
        match self.browse_mut() {
            Some((browse, _, _)) => browse.finding = true,
            None if on_bench => {}
            None if on_curves => {}
            None => self.rack.finding = true,
        }
    }

    /// Takes the narrowing words away.
    pub(super) fn show_all(&mut self) -> Result<(), StoreError> {
        let on_curves = self.tab == Tab::Curves;
        let on_bench = self.tab == Tab::Bench;
        match self.browse_mut() {
            Some((browse, source, bench)) => browse.find_nothing(source, bench),
            None if on_bench => Ok(()),
            None if on_curves => {
                self.curves.mark_nothing();
                Ok(())
            }
            None => {
                self.rack.find_nothing();
                self.side.show(self.rack.selected(), &self.bench)
            }
        }
    }

    /// From the timeline to the list; from a narrowed list to the whole one.
    pub(super) fn go_back(&mut self) -> Result<(), StoreError> {
        if self.half() == Half::Strip {
            self.set_half(Half::List);
            return Ok(());
        }
        self.show_all()
    }

    pub(super) fn next_side(
        &mut self,
        what: &str,
        wanted: impl Fn(&SideRow) -> bool,
    ) -> Result<(), StoreError> {
        if self.rack.next_in(wanted) {
            self.side.show(self.rack.selected(), &self.bench)?;
        } else {
            self.tell(Notice::plain(format!("no side here is {what}")));
        }
        Ok(())
    }

    /// Moves the cursor of what is on top.
    pub(super) fn step(&mut self, step: Step) -> Result<(), StoreError> {
        match self.overlays.last_mut() {
            Some(Overlay::Road(road)) => road.step(step),
            Some(Overlay::Plan(plan)) => plan.step(step),
            Some(Overlay::Search(search)) => search.step(step, &self.bench)?,
            Some(Overlay::Help(help)) => help.step(step),
            Some(Overlay::Pane(pane)) => pane.scroll(step),
            Some(Overlay::Reckon(reckoning)) => reckoning.scroll(step),
            Some(other) => {
                if let Some(menu) = other.menu_mut() {
                    menu.step(step);
                }
            }
            None => self.step_screen(step)?,
        }
        Ok(())
    }

    fn step_screen(&mut self, step: Step) -> Result<(), StoreError> {
        if let Some((browse, source, bench)) = self.browse_mut() {
            browse.step(step, source, bench)?;
            return Ok(());
        }
        if self.tab == Tab::Bench {
            return self.step_bench(step);
        }
        if self.tab == Tab::Curves {
            return self.step_curves(step);
        }
        if self.rack_half == Half::Strip {
            self.side.step(step, &self.bench)?;
            return Ok(());
        }
        self.step_rack(match step {
            Step::Up(_) => Way::Up,
            Step::Down(_) | Step::To(_) => Way::Down,
            Step::PageUp => Way::PageUp,
            Step::PageDown => Way::PageDown,
            Step::First => Way::First,
            Step::Last => Way::Last,
        })
    }

    pub(super) fn step_rack(&mut self, way: Way) -> Result<(), StoreError> {
        if self.rack.step(way) {
            self.side.show(self.rack.selected(), &self.bench)?;
        }
        Ok(())
    }

    pub(super) fn go_to_tab(&mut self, tab: Tab) -> Result<(), StoreError> {
        self.tab = tab;
        self.set_half(Half::List);
        self.reload()
    }

    pub(super) fn go_to_board(&mut self, board: Board) -> Result<(), StoreError> {
        if board != self.board {
            self.board = board;
            self.shelf = Browse::default();
        }
        self.reload()
    }

    /// Goes to a thing, wherever it is listed, and remembers the way back.
    pub(super) fn go_to(&mut self, thing: Thing) -> Result<(), StoreError> {
        let here = Visit {
            tab: self.tab,
            board: self.board,
            thing: self.at_hand().map(|life| life.thing),
            half: self.half(),
        };
        if here.thing != Some(thing) && self.trail.last() != Some(&here) {
            if self.trail.len() == TRAIL {
                self.trail.remove(0);
            }
            self.trail.push(here);
        }
        self.show(thing)
    }

    /// Puts the cursor of the timeline on the entry with this number.
    pub(super) fn select_entry(&mut self, row: i64) {
        let on_curves = self.tab == Tab::Curves;
        let selected = match self.browse_mut() {
            Some((browse, _, bench)) => browse.timeline.select(row, bench),
            None if on_curves => self.strip.select(row, &self.bench),
            None => self.side.select(row, &self.bench),
        };
        if let Err(error) = selected {
            self.tell_error(&error);
        }
    }

    /// Goes back to where one was before something was followed.
    pub(super) fn go_back_on_trail(&mut self) -> Result<(), StoreError> {
        let Some(visit) = self.trail.pop() else {
            return Ok(());
        };
        self.tab = visit.tab;
        self.board = visit.board;
        match visit.thing {
            Some(thing) if visit.tab == Tab::Bench => return self.show_on_the_bench(thing),
            Some(thing) => self.show(thing)?,
            None => self.reload()?,
        }
        self.set_half(visit.half);
        Ok(())
    }

    fn show(&mut self, thing: Thing) -> Result<(), StoreError> {
        self.overlays.clear();
        self.tab = match thing.kind {
            ThingKind::Sheet => Tab::Sheets,
            ThingKind::Print => Tab::Prints,
            ThingKind::Side | ThingKind::Holder => Tab::Rack,
            ThingKind::Finding if self.is_a_strip(thing)? => Tab::Curves,
            _ => Tab::Shelf,
        };
        if let Some(board) = Board::of(thing.kind)
            && board != self.board
        {
            self.board = board;
            self.shelf = Browse::default();
        }
        self.set_half(Half::List);
        if self.tab == Tab::Rack {
            self.rack.find_nothing();
            self.rack.reload(&self.bench)?;
            if !self.rack.select(thing) {
                self.tell(Notice::warn(
                    "that holder is out of use and not in the rack",
                ));
            }
        } else if let Some((browse, source, bench)) = self.browse_mut() {
            browse.find_nothing(source, bench)?;
            browse.reload(source, bench)?;
            browse.select(thing, source, bench)?;
        }
        self.reload()
    }
}
