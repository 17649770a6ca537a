//! An exposure in the log from the moment its shutter opens, until it is said how it ended.
//!
//! The beginning is an entry of its own, so that neither a crash nor an empty battery hides that light
//! fell on the sheet. Whoever opens the program again, or comes to the side in the rack, is asked what
//! became of it.

use super::App;
use super::timing::Plan;
use crate::logbook::draft::Drafted;
use crate::logbook::life::{Begun as BegunLife, SheetState};
use crate::logbook::{Draft, FieldProblem, Kind, Life, Thing, ThingKind};
use crate::store::rows::SheetQuery;
use crate::store::{AppendError, StoreError};
use crate::tui::clock::Heard;
use crate::tui::overlays::Overlay;
use crate::tui::overlays::begun::{Begun, Ending};
use crate::tui::widgets::message::Notice;

impl App {
    /// The sheet in a side, if an exposure of it was begun and not ended.
    pub(super) fn sheet_being_exposed(&self, side: &Life) -> Option<Life> {
        let sheet = Thing::new(ThingKind::Sheet, side.side()?.sheet?);
        let life = self.bench.life(sheet)?;
        life.sheet()?.begun.is_some().then_some(life)
    }

    fn begun_in(&self, side: &Life) -> Option<BegunLife> {
        self.sheet_being_exposed(side)?.sheet()?.begun
    }

    /// Logs that the shutter was opened, if it was; tries again what had to wait. The shutter is open
    /// by now, so nothing that goes wrong here stops the clock.
    pub(super) fn follow_beginning(&mut self, heard: &[Heard]) {
        let drafted = if heard.contains(&Heard::Opened { first: true }) {
            match self.beginning() {
                Ok(drafted) => drafted,
                Err(problems) => {
                    let why = problems.first().map(ToString::to_string);
                    self.tell(not_in_the_log(&why.unwrap_or_default()));
                    None
                }
            }
        } else {
            let waits = self.clock_mut().and_then(|clock| clock.waits.take());
            waits.map(|waits| *waits)
        };
        if let Some(drafted) = drafted {
            self.log_beginning(drafted);
        }
    }

    /// That the shutter was opened, as an entry; none if the log knows already.
    fn beginning(&mut self) -> Result<Option<Drafted>, Vec<FieldProblem>> {
        let Some(pane) = self.pane() else {
            return Ok(None);
        };
        let side = self.side_of(pane);
        if side.is_some_and(|side| self.begun_in(&side).is_some()) {
            return Ok(None);
        }
        let plan = Plan::of(pane);
        let mut draft = Draft::new(Kind::ExposureBegun);
        draft.set("side", pane.draft.get("side"));
        draft.set("again", pane.draft.get("again"));
        if let Some(time) = plan.time {
            draft.set("planned_time", time.to_string());
        }
        if let Some(aperture) = plan.aperture {
            draft.set("planned_aperture", aperture.to_string());
        }
        self.bench.read(&draft).map(Some)
    }

    fn log_beginning(&mut self, drafted: Drafted) {
        let logged = self.bench.log_at_once(vec![drafted.clone()]);
        let told = match logged {
            Ok(_) => {
                if let Some((pane, bench)) = self.pane_mut() {
                    pane.look_again(bench);
                }
                // What is typed has to be there as well when the program is ended now.
                self.save_draft().and_then(|()| self.reload())
            }
            Err(AppendError::Store(StoreError::Locked { .. })) => {
                // The next tick tries again.
                if let Some(clock) = self.clock_mut() {
                    clock.waits = Some(Box::new(drafted));
                }
                Ok(())
            }
            Err(error) => {
                self.tell(not_in_the_log(&error.to_string()));
                Ok(())
            }
        };
        if let Err(error) = told {
            self.tell_error(&error);
        }
    }

    /// Ends the exposure and asks why no light fell on the sheet.
    pub(super) fn drop_exposure(&mut self) -> Result<(), StoreError> {
        self.end_clock();
        let side = self.pane().and_then(|pane| self.side_of(pane));
        match side.filter(|side| self.begun_in(side).is_some()) {
            Some(side) => self.open_pane(Kind::ExposureDropped, Some(&side)),
            None => {
                self.tell(Notice::plain(
                    "nothing was logged of it, so nothing has to be dropped",
                ));
                Ok(())
            }
        }
    }

    /// Asks how an exposure ended that was begun and not closed, if there is one.
    pub(super) fn ask_about_begun(&mut self) -> Result<(), StoreError> {
        if self.bench.store.is_read_only() {
            return Ok(());
        }
        let open = self.bench.store.sheets(&SheetQuery {
            state: Some(SheetState::Open),
            ..SheetQuery::default()
        })?;
        // The list begins with the newest sheet; the one that was begun last is asked for first.
        let Some(row) = open.iter().max_by_key(|row| row.since) else {
            return Ok(());
        };
        let sheet = self.bench.life(Thing::new(ThingKind::Sheet, row.thing));
        let side = sheet.and_then(|sheet| sheet.sheet()?.side);
        let side = side.and_then(|side| self.bench.life(Thing::new(ThingKind::Side, side)));
        if let Some(side) = side {
            self.open_begun(&side);
        }
        Ok(())
    }

    /// Asks how the exposure in a side ended, if there is one.
    fn open_begun(&mut self, side: &Life) {
        let begun = self
            .sheet_being_exposed(side)
            .and_then(|sheet| Begun::about(&sheet, side, self.bench.now()));
        self.overlays.extend(begun.map(Overlay::Begun));
    }

    /// What is unsure at hand: a side in doubt, or else an exposure that was begun.
    pub(super) fn resolve_at_hand(&mut self) -> Result<(), StoreError> {
        let Some(side) = self.side_at_hand() else {
            return Ok(());
        };
        if side.side().is_some_and(|side| side.doubt.is_some()) {
            return self.open_doubt();
        }
        self.open_begun(&side);
        Ok(())
    }

    /// What the answer to the question about a begun exposure means.
    pub(super) fn end_begun(&mut self, side: Thing, id: &str) -> Result<(), StoreError> {
        let (Some(ending), Some(side)) = (Begun::ending(id), self.bench.life(side)) else {
            return Ok(());
        };
        match ending {
            Ending::Exposed => self.open_pane(Kind::Exposed, Some(&side)),
            Ending::Dropped => self.open_pane(Kind::ExposureDropped, Some(&side)),
            Ending::StillOpen => {
                self.open_pane(Kind::Exposed, Some(&side))?;
                if let Some(begun) = self.begun_in(&side) {
                    self.count_on(&begun);
                }
                Ok(())
            }
        }
    }
}

fn not_in_the_log(why: &str) -> Notice {
    Notice::warn(format!(
        "the clock counts all the same, but the log does not know that the shutter opened: {why}"
    ))
}
