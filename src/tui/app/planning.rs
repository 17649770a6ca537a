//! The plan of what to develop next, and the panes it opens filled in.

use super::App;
use crate::store::StoreError;
use crate::tui::overlays::Overlay;
use crate::tui::overlays::plan::Planning;
use crate::tui::widgets::message::Notice;

impl App {
    /// Opens the plan.
    pub(super) fn open_plan(&mut self) -> Result<(), StoreError> {
        let plan = Planning::new(&self.bench)?;
        self.overlays.push(Overlay::Plan(Box::new(plan)));
        Ok(())
    }

    /// Plans anew if the plan is on top again: what was logged meanwhile changes it.
    pub(super) fn plan_anew(&mut self) -> Result<(), StoreError> {
        match self.overlays.last_mut() {
            Some(Overlay::Plan(plan)) => plan.look_again(&self.bench),
            _ => Ok(()),
        }
    }

    /// Opens the pane of a run for the group under the cursor; in the fields, goes to the groups.
    pub(super) fn develop_as_planned(&mut self) -> Result<(), StoreError> {
        let Some(Overlay::Plan(plan)) = self.overlays.last_mut() else {
            return Ok(());
        };
        if plan.leave_fields() {
            return plan.look_again(&self.bench);
        }
        match plan.run(&self.bench)? {
            Ok((draft, last)) => self.open_drafted(draft, last),
            Err(why) => {
                self.tell(Notice::plain(why));
                Ok(())
            }
        }
    }

    /// Opens the pane of a bath with what lacks for the plan.
    pub(super) fn mix_what_lacks(&mut self) -> Result<(), StoreError> {
        let Some(Overlay::Plan(plan)) = self.overlays.last() else {
            return Ok(());
        };
        match plan.mix() {
            Ok(draft) => {
                let (_, last) = self.bench.draft_for(draft.kind, None)?;
                self.open_drafted(draft, last)
            }
            Err(why) => {
                self.tell(Notice::plain(why));
                Ok(())
            }
        }
    }
}
