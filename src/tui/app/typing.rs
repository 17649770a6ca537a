//! What is typed or pasted and is no action: it goes to what has the focus.

use crossterm::event::KeyEvent;

use super::App;
use crate::store::StoreError;
use crate::tui::event::Effect;
use crate::tui::overlays::Overlay;
use crate::tui::overlays::step_clock::StepClock;
use crate::tui::pane::Told;

impl App {
    /// Gives a key that is no action to what has the focus.
    pub(super) fn key_to_overlay(&mut self, key: &KeyEvent) -> Result<Vec<Effect<()>>, StoreError> {
        match self.overlays.last() {
            Some(Overlay::Clock(_)) => return self.any_key(key),
            Some(Overlay::StepClock(StepClock::Dark(before))) => {
                let before = *before;
                return Ok(self.come_back(before));
            }
            _ => {}
        }
        self.key_to_field(key)?;
        Ok(Vec::new())
    }

    fn key_to_field(&mut self, key: &KeyEvent) -> Result<(), StoreError> {
        if self.rack_is_finding() && self.overlays.is_empty() {
            self.rack.find_key(key);
            return self.side.show(self.rack.selected(), &self.bench);
        }
        match self.overlays.last_mut() {
            Some(Overlay::Pane(pane)) => {
                if pane.key(key, &self.bench) == Told::Typed {
                    self.typed()?;
                }
            }
            Some(Overlay::Reckon(reckoning)) => reckoning.key(key, &self.bench),
            Some(Overlay::Plan(plan)) => plan.key(key, &self.bench)?,
            Some(Overlay::Reason(reason)) => {
                reason.key(key);
            }
            Some(Overlay::Search(search)) => {
                search.key(key, &self.bench)?;
            }
            Some(Overlay::Help(help)) => {
                help.key(key);
            }
            Some(Overlay::Welcome(welcome)) => {
                welcome.key(key);
            }
            Some(
                Overlay::Road(_) | Overlay::Leave(_) | Overlay::Clock(_) | Overlay::StepClock(_),
            ) => {}
            Some(other) => {
                if let Some(menu) = other.menu_mut() {
                    let picked = menu.key(key);
                    self.picked(picked)?;
                }
            }
            None => {
                if let Some((browse, source, bench)) = self.browse_mut()
                    && browse.finding
                {
                    browse.find_key(key, source, bench)?;
                }
            }
        }
        Ok(())
    }

    /// Puts pasted text where text is typed, and nowhere else.
    pub(super) fn paste(&mut self, text: &str) -> Result<(), StoreError> {
        self.changed = true;
        if self.overlays.is_empty() {
            return self.paste_on_screen(text);
        }
        match self.overlays.last_mut() {
            Some(Overlay::Pane(pane)) => {
                let told = pane.paste(text, &self.bench);
                if told == Told::Typed {
                    self.typed()?;
                }
            }
            Some(Overlay::Reckon(reckoning)) => reckoning.paste(text, &self.bench),
            Some(Overlay::Plan(plan)) => plan.paste(text, &self.bench)?,
            Some(Overlay::Reason(reason)) => reason.paste(text),
            Some(Overlay::Search(search)) => search.paste(text, &self.bench)?,
            Some(Overlay::Welcome(welcome)) => welcome.paste(text),
            Some(other) => {
                if let Some(menu) = other.menu_mut() {
                    menu.paste(text);
                }
            }
            None => {}
        }
        Ok(())
    }

    fn paste_on_screen(&mut self, text: &str) -> Result<(), StoreError> {
        if self.rack_is_finding() {
            self.rack.find_paste(text);
            return self.side.show(self.rack.selected(), &self.bench);
        }
        if let Some((browse, source, bench)) = self.browse_mut()
            && browse.finding
        {
            browse.find_paste(text, source, bench)?;
        }
        Ok(())
    }
}
