//! What each action of the table does.

use super::deeds::Act;
use super::{App, Tab, opening};
use crate::store::StoreError;
use crate::tui::browse::{Browse, Half};
use crate::tui::event::Effect;
use crate::tui::overlays::Overlay;
use crate::tui::widgets::message::Notice;

impl App {
    /// Does what an action says.
    pub(super) fn act(&mut self, act: Act) -> Result<Vec<Effect<()>>, StoreError> {
        match act {
            Act::Quit => return self.leave(),
            Act::Suspend => return Ok(vec![Effect::Suspend]),
            Act::Confirm => return self.confirm(),
            Act::Theme => return Ok(self.next_theme()),
            Act::Screen(number) => {
                if let Some(tab) = Tab::ALL.get(number) {
                    self.go_to_tab(*tab)?;
                }
            }
            Act::Move(step) => self.step(step)?,
            Act::Side(way) => self.step_rack(way)?,
            Act::NextWaiting => self.next_side("exposed", |side| side.state == "exposed")?,
            Act::NextEmpty => self.next_side("empty", |side| side.state == "empty")?,
            Act::NextDoubt => self.next_side("in doubt", |side| side.doubt.is_some())?,
            Act::Half(strip) => self.set_half(if strip { Half::Strip } else { Half::List }),
            Act::Back => self.go_back()?,
            Act::Trail => self.go_back_on_trail()?,
            Act::Board(by) => {
                self.board = self.board.step(by);
                self.shelf = Browse::default();
                self.reload()?;
            }
            Act::Curves(key) => self.curves_key(key)?,
            Act::Open => self.open_next()?,
            Act::Follow => self.open_links()?,
            Act::New => self.open_new(),
            Act::Log(kind) => self.open_pane_at_hand(kind)?,
            Act::Resolve => self.resolve_at_hand()?,
            Act::Strike => self.open_strike(),
            Act::Amend => self.open_amend()?,
            Act::Undo => self.open_undo()?,
            Act::Road => self.open_road()?,
            Act::Turn => {
                if let Some(Overlay::Road(road)) = self.overlays.last_mut() {
                    road.turn(&self.bench)?;
                }
            }
            Act::Find => self.find(),
            Act::Search => self.overlays.push(Overlay::Search(Default::default())),
            Act::Drafts => self.open_drafts()?,
            Act::Help => self.open_help(),
            Act::Close => self.close()?,
            Act::Field(forwards) => match self.overlays.last_mut() {
                Some(Overlay::Pane(pane)) => pane.go_on(forwards, &self.bench),
                Some(Overlay::Reckon(reckoning)) => reckoning.go_on(forwards, &self.bench),
                Some(Overlay::Welcome(welcome)) => welcome.go_on(forwards),
                Some(Overlay::Plan(plan)) => {
                    plan.go_on(forwards);
                    plan.look_again(&self.bench)?;
                }
                _ => {}
            },
            Act::Figures => self.open_figures(),
            Act::Plan => self.open_plan()?,
            Act::MixLacking => self.mix_what_lacks()?,
            Act::Example => self.show_example(),
            Act::Copy => return Ok(self.copy_result()),
            Act::Override => {
                if let Some(Overlay::Pane(pane)) = self.overlays.last_mut() {
                    pane.open_override(&self.bench);
                }
            }
            Act::Offer(wider) => self.take_offer(wider)?,
            Act::Clear => self.clear_pane()?,
            Act::Clock(key) => return self.clock_key(key),
            Act::Bench(key) => return self.bench_key(key),
        }
        Ok(Vec::new())
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

    /// Closes what lies on top, and keeps what is typed there.
    pub(super) fn close(&mut self) -> Result<(), StoreError> {
        // The first Esc in a list that finds takes the letters away.
        if let Some(menu) = self.overlays.last_mut().and_then(Overlay::menu_mut)
            && menu.clear()
        {
            return Ok(());
        }
        if let Some(Overlay::Help(help)) = self.overlays.last_mut()
            && help.clear()
        {
            return Ok(());
        }
        if let Some(Overlay::Plan(plan)) = self.overlays.last_mut()
            && plan.leave_fields()
        {
            return plan.look_again(&self.bench);
        }
        if self.draft_waits {
            // It stays open rather than lose what is typed.
            self.keep_what_is_typed()?;
        }
        match self.overlays.pop() {
            None => self.show_all()?,
            Some(Overlay::Pane(pane)) => self.keep_draft(&pane)?,
            Some(Overlay::Clock(clock)) => self.put_clock_away(clock),
            Some(Overlay::Reckon(reckoning)) => self.reckoned.keep(&reckoning),
            Some(Overlay::Welcome(_)) => {
                let (new, help) = (self.key_of("new"), self.key_of("help"));
                self.tell(Notice::plain(format!(
                    "an empty logbook: {new} adds a holder or a box of film, {help} shows the keys"
                )));
            }
            Some(_) => {}
        }
        self.plan_anew()
    }
}
