//! The mouse: clicks put the focus where they land, a second click on the same thing opens it, the
//! wheel moves what is under it.

use crossterm::event::{MouseButton, MouseEvent, MouseEventKind};
use ratatui::layout::Position;

use super::{App, Tab, deeds, timing};
use crate::store::StoreError;
use crate::tui::browse::Half;
use crate::tui::event::Effect;
use crate::tui::overlays::Overlay;
use crate::tui::overlays::clock::ClockKey;
use crate::tui::overlays::step_clock::StepClock;
use crate::tui::screens::curves::Curves;
use crate::tui::widgets::grid::Way;
use crate::tui::widgets::listing::Step;

/// Lines for one notch of the wheel.
const NOTCH: usize = 3;

impl App {
    pub(super) fn mouse(&mut self, mouse: MouseEvent) -> Result<Vec<Effect<()>>, StoreError> {
        let at = Position::new(mouse.column, mouse.row);
        let up = match mouse.kind {
            MouseEventKind::ScrollUp => true,
            MouseEventKind::ScrollDown => false,
            MouseEventKind::Down(MouseButton::Left) => {
                self.changed = true;
                self.notice = None;
                return self.click(at);
            }
            _ => return Ok(Vec::new()),
        };
        self.changed = true;
        if let Some(Overlay::Clock(clock)) = self.overlays.last() {
            // Only before the start; a sleeve that brushes the wheel ends no exposure.
            let ready = timing::place_of(clock) == deeds::CLOCK_READY;
            let key = ClockKey::LeadIn(if up { 1 } else { -1 });
            return if ready {
                self.clock_key(key)
            } else {
                Ok(Vec::new())
            };
        }
        if self.is_dark() {
            return Ok(Vec::new());
        }
        if self.overlays.is_empty() {
            self.wheel_on_screen(at, up)?;
        } else {
            self.wheel_on_overlay(at, up)?;
        }
        Ok(Vec::new())
    }

    fn wheel_on_overlay(&mut self, at: Position, up: bool) -> Result<(), StoreError> {
        let body = self.parts(self.area).body;
        let lines = match self.overlays.last() {
            Some(Overlay::Help(_)) => NOTCH,
            Some(Overlay::Pane(pane)) if pane.is_on_follows(body, at) => NOTCH,
            Some(Overlay::Reckon(reckoning)) if reckoning.is_on_answer(body, at) => NOTCH,
            Some(Overlay::Reckon(_)) => {
                if let Some(Overlay::Reckon(reckoning)) = self.overlays.last_mut() {
                    reckoning.go_on(!up, &self.bench);
                }
                return Ok(());
            }
            Some(Overlay::Pane(_)) => {
                if let Some(Overlay::Pane(pane)) = self.overlays.last_mut() {
                    pane.go_on(!up, &self.bench);
                }
                return Ok(());
            }
            _ => 1,
        };
        self.step(if up {
            Step::Up(lines)
        } else {
            Step::Down(lines)
        })
    }

    fn wheel_on_screen(&mut self, at: Position, up: bool) -> Result<(), StoreError> {
        let body = self.parts(self.area).body;
        let list = self.list_area(body);
        let lines = isize::try_from(NOTCH).unwrap_or(1);
        let lines = if up { -lines } else { lines };
        if let Some((browse, source, bench)) = self.browse_mut() {
            browse.wheel(list, at, lines, source, bench)?;
            return Ok(());
        }
        if self.tab == Tab::Bench {
            return self.step_bench(if up { Step::Up(1) } else { Step::Down(1) });
        }
        if self.tab == Tab::Curves {
            let on_strip = self.half() == Half::Strip && Curves::page(body).contains(at);
            let step = if up { Step::Up(1) } else { Step::Down(1) };
            if !on_strip {
                self.set_half(Half::List);
            }
            return self.step_curves(step);
        }
        let (_, strip) = self.rack_parts(body);
        if strip.contains(at) {
            let step = if up { Step::Up(1) } else { Step::Down(1) };
            self.side.step(step, &self.bench)?;
            return Ok(());
        }
        self.step_rack(if up { Way::Up } else { Way::Down })
    }

    fn click(&mut self, at: Position) -> Result<Vec<Effect<()>>, StoreError> {
        if !self.overlays.is_empty() {
            return self.click_on_overlay(at);
        }
        let parts = self.parts(self.area);
        if let Some(number) = self.click_on_bar(parts.bar, at)
            && let Some(tab) = Tab::ALL.get(number)
        {
            self.go_to_tab(*tab)?;
            return Ok(Vec::new());
        }
        if let Some(board) = self.click_on_boards(parts.body, at) {
            self.go_to_board(board)?;
            return Ok(Vec::new());
        }
        let list = self.list_area(parts.body);
        if self.browse().is_some() {
            let before = (self.half(), self.at_hand().map(|life| life.thing));
            let entry = self.timeline().selected().map(|line| line.entry);
            if let Some((browse, source, bench)) = self.browse_mut()
                && browse.click(list, at, source, bench)?
            {
                let after = (self.half(), self.at_hand().map(|life| life.thing));
                let same_entry = self.timeline().selected().map(|line| line.entry) == entry;
                match after.0 {
                    Half::List if before == after => self.open_next()?,
                    Half::Strip if before == after && same_entry => self.open_links()?,
                    _ => {}
                }
            }
            return Ok(Vec::new());
        }
        if self.tab == Tab::Bench {
            self.click_on_bench(parts.body, at)?;
            return Ok(Vec::new());
        }
        if self.tab == Tab::Curves {
            self.click_on_curves(at)?;
        } else {
            self.click_on_rack(at)?;
        }
        Ok(Vec::new())
    }

    fn click_on_rack(&mut self, at: Position) -> Result<(), StoreError> {
        let (rack, strip) = self.rack_parts(self.parts(self.area).body);
        let today = self.bench.now().date_naive();
        if strip.contains(at) {
            let entry = self.timeline().selected().map(|line| line.entry);
            let was = self.rack_half;
            if self.side.click(super::draw::strip_inner(strip), at, today) {
                self.rack_half = Half::Strip;
                let same = self.timeline().selected().map(|line| line.entry) == entry;
                if was == Half::Strip && same {
                    self.open_links()?;
                }
            }
            return Ok(());
        }
        let before = self.rack.selected();
        if self.rack.click(rack, at) {
            let was = std::mem::take(&mut self.rack_half);
            self.side.show(self.rack.selected(), &self.bench)?;
            if was == Half::List && self.rack.selected() == before {
                self.open_next()?;
            }
        }
        Ok(())
    }

    fn click_on_overlay(&mut self, at: Position) -> Result<Vec<Effect<()>>, StoreError> {
        let area = self.area;
        let body = self.parts(area).body;
        if let Some(menu) = self.overlays.last_mut().and_then(Overlay::menu_mut) {
            let picked = menu.click(area, at);
            self.picked(picked)?;
            return Ok(Vec::new());
        }
        match self.overlays.last() {
            Some(Overlay::Clock(_)) => return self.click_on_clock(at),
            Some(Overlay::StepClock(StepClock::Dark(before))) => {
                let before = *before;
                return Ok(self.come_back(before));
            }
            _ => {}
        }
        let again = match self.overlays.last_mut() {
            Some(Overlay::Pane(pane)) => {
                pane.click(body, at);
                None
            }
            Some(Overlay::Reckon(reckoning)) => {
                reckoning.click(body, at, &self.bench);
                None
            }
            Some(Overlay::Welcome(welcome)) => {
                welcome.click(area, at);
                None
            }
            Some(Overlay::Plan(plan)) => {
                plan.click(body, at);
                None
            }
            Some(Overlay::Road(road)) => road.click(area, at),
            Some(Overlay::Search(search)) => search.click(area, at),
            _ => None,
        };
        // A second click on the same line goes there.
        if again == Some(true) {
            return self.confirm();
        }
        Ok(Vec::new())
    }
}
