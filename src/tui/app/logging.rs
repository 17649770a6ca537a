//! What is confirmed: entries, strikes, amendments, the first set-up. And what is kept when it is
//! not: drafts.

use chrono::{DateTime, FixedOffset};

use super::App;
use crate::logbook::draft::{Drafted, HAPPENED};
use crate::logbook::{Amended, Deed, EntryId, FieldProblem, Kind, Struck, Thing, ThingKind};
use crate::store::{AppendError, Receipt, SavedDraft, StoreError};
use crate::tui::event::Effect;
use crate::tui::overlays::Overlay;
use crate::tui::overlays::reason::Reason;
use crate::tui::pane::{Pane, typed_time};
use crate::tui::timeline::word;
use crate::tui::widgets::message::Notice;

impl App {
    /// Confirms what is open.
    pub(super) fn confirm(&mut self) -> Result<Vec<Effect<()>>, StoreError> {
        if let Some(menu) = self.overlays.last().and_then(Overlay::menu) {
            let picked = menu.pick();
            self.picked(picked)?;
            return Ok(Vec::new());
        }
        if let Some(Overlay::Plan(_)) = self.overlays.last() {
            self.develop_as_planned()?;
            return Ok(Vec::new());
        }
        match self.overlays.pop() {
            Some(Overlay::Pane(pane)) => self.log_pane(*pane)?,
            Some(Overlay::Reason(reason)) => self.log_strikes(reason)?,
            Some(Overlay::Search(search)) => match search.selected() {
                Some((thing, row)) => {
                    self.go_to(thing)?;
                    self.select_entry(row);
                }
                None => self.overlays.push(Overlay::Search(search)),
            },
            Some(Overlay::Road(road)) => match road.selected() {
                Some(thing) => self.go_to(thing)?,
                None => self.overlays.push(Overlay::Road(road)),
            },
            Some(Overlay::Leave(_)) => return Ok(vec![Effect::Quit]),
            Some(Overlay::Welcome(welcome)) => self.set_up(welcome)?,
            Some(other) => self.overlays.push(other),
            None => match self.browse_mut() {
                Some((browse, _, _)) => browse.finding = false,
                None => self.rack.finding = false,
            },
        }
        Ok(Vec::new())
    }

    /// Strikes what the question is about; without a reason, or refused, the question stays.
    fn log_strikes(&mut self, mut reason: Reason) -> Result<(), StoreError> {
        if reason.reason().is_empty() {
            reason.refusal = Some("say why: it is kept beside the struck line".to_owned());
            self.overlays.push(Overlay::Reason(reason));
            return Ok(());
        }
        let strikes = reason
            .entries
            .iter()
            .map(|entry| self.strike(*entry, reason.reason()))
            .collect();
        if let Err(error) = self.bench.log(strikes) {
            reason.refusal = Some(error.to_string());
            self.overlays.push(Overlay::Reason(reason));
            return Ok(());
        }
        self.reload()?;
        self.tell(Notice::good(
            "struck: the line stays legible, and striking the strike brings it back",
        ));
        Ok(())
    }

    fn strike(&self, entry: EntryId, reason: &str) -> Drafted {
        Drafted {
            deed: Deed::Struck(Struck {
                entry,
                reason: reason.to_owned(),
                touches: Vec::new(),
            }),
            happened: self.bench.now(),
            over: None,
            note: None,
        }
    }

    fn log_pane(&mut self, mut pane: Pane) -> Result<(), StoreError> {
        if !pane.take_file(&self.bench) {
            self.overlays.push(Overlay::Pane(Box::new(pane)));
            return Ok(());
        }
        let drafted = match self.drafted(&pane) {
            Ok(drafted) => drafted,
            Err(problems) => {
                pane.show_problems(&problems);
                if let Some(problem) = problems.iter().find(|problem| problem.key.is_empty()) {
                    self.tell(Notice::bad(problem.to_string()));
                }
                self.overlays.push(Overlay::Pane(Box::new(pane)));
                return Ok(());
            }
        };
        if pane.amending.is_some() && pane.why().is_empty() {
            pane.ask_why();
            self.overlays.push(Overlay::Pane(Box::new(pane)));
            return Ok(());
        }
        match self.bench.log(drafted) {
            Ok(receipt) => {
                self.bench.store.drop_draft(pane.draft_name())?;
                self.count_drafts()?;
                self.draft_waits = false;
                let said = self.said(&receipt)?;
                self.after_logging(&receipt)?;
                if let Some(Overlay::Pane(under)) = self.overlays.last_mut() {
                    under.look_again(&self.bench);
                }
                self.plan_anew()?;
                self.tell(Notice::good(said));
            }
            Err(AppendError::Refused(refusal)) => {
                pane.refusal = Some(refusal);
                self.overlays.push(Overlay::Pane(Box::new(pane)));
            }
            Err(AppendError::Store(error)) => {
                self.overlays.push(Overlay::Pane(Box::new(pane)));
                self.tell_error(&error);
            }
        }
        Ok(())
    }

    /// What a pane says: its draft, which may hold several strips, or the amendment it makes of an entry.
    fn drafted(&mut self, pane: &Pane) -> Result<Vec<Drafted>, Vec<FieldProblem>> {
        let Some(amending) = &pane.amending else {
            let each = self.bench.at_desk(|desk| pane.draft.each_strip(desk));
            return each.iter().map(|draft| self.bench.read(draft)).collect();
        };
        let read = self.bench.read(&pane.draft)?;
        let happened = self.amended_time(pane, amending.entry, read.happened);
        let deed = self.bench.amended(&amending.deed, &pane.draft)?;
        Ok(vec![Drafted {
            deed: Deed::Amended(Amended {
                entry: amending.entry,
                deed: Box::new(deed),
                happened,
                reason: pane.why().to_owned(),
                touches: Vec::new(),
            }),
            happened: self.bench.now(),
            over: read.over,
            note: read.note,
        }])
    }

    /// When an amended entry counts as having happened: as typed, but exactly as before if the time
    /// was left as it stood in the pane, which shows only seconds.
    fn amended_time(
        &self,
        pane: &Pane,
        entry: EntryId,
        typed: DateTime<FixedOffset>,
    ) -> Option<DateTime<FixedOffset>> {
        let settled = self.bench.store.as_it_counts(entry).ok().flatten();
        let before = settled.map(|settled| settled.happened);
        let untouched =
            |before: &DateTime<FixedOffset>| typed_time(*before) == pane.draft.get(HAPPENED).trim();
        before.filter(untouched).or(Some(typed))
    }

    /// What was logged, in a sentence.
    pub(super) fn said(&self, receipt: &Receipt) -> Result<String, StoreError> {
        let Some(first) = receipt.entries.first() else {
            return Ok("logged".to_owned());
        };
        let line = self.bench.line_of(first.id)?;
        if let Some(about) = line.as_ref().and_then(|line| line.about) {
            return Ok(format!(
                "logged #{}: {} #{about}",
                first.row,
                word(first.kind)
            ));
        }
        let headline = line.map(|line| line.telling.headline).unwrap_or_default();
        let made = first
            .created
            .as_ref()
            .map(|(_, reference)| reference.as_str())
            .filter(|reference| !headline.contains(reference))
            .map(|reference| format!("{reference} "))
            .unwrap_or_default();
        Ok(format!(
            "#{} {}  {made}{headline}",
            first.row,
            word(first.kind)
        ))
    }

    /// Where the hand goes after an entry: to what came into being and has steps of its own; from a
    /// run that ended to its first negative; else it stays where it is.
    fn after_logging(&mut self, receipt: &Receipt) -> Result<(), StoreError> {
        if let Some(Overlay::Plan(_)) = self.overlays.last() {
            // Who logs from the plan goes on with it.
            return self.reload();
        }
        let begun = receipt.entries.iter().find_map(|entry| {
            let goes_on = matches!(
                entry.kind,
                Kind::PrintBegun
                    | Kind::BoxAdded
                    | Kind::HolderAdded
                    | Kind::BathMixed
                    | Kind::PaperAdded
                    | Kind::LensAdded
                    | Kind::CameraAdded
                    | Kind::FilterFound
                    | Kind::TimeFound
                    | Kind::FilmFound
                    | Kind::FormatFound
                    | Kind::DevelopmentFound
                    | Kind::LightFound
                    | Kind::MeterSet
                    | Kind::PlaceKept
                    | Kind::TabletFound
                    | Kind::LimitsSet
                    | Kind::RunBegun
            );
            entry.created.as_ref().filter(|_| goes_on)
        });
        let ended = receipt
            .entries
            .iter()
            .find(|entry| entry.kind == Kind::RunEnded);
        let developed = match ended {
            Some(entry) => self.bench.line_of(entry.id)?.and_then(|line| {
                let mut things = line.things.iter().map(|named| named.thing);
                things.find(|thing| thing.kind == ThingKind::Sheet)
            }),
            None => None,
        };
        let read = receipt.entries.iter().find_map(|entry| {
            let made = entry.created.as_ref()?;
            (entry.kind == Kind::StripRead).then_some(made.0)
        });
        match begun.map(|(thing, _)| *thing).or(developed) {
            // The first step of a run that began just now is the next thing to do.
            Some(thing) if thing.kind == ThingKind::Run && self.began_just_now(thing) => {
                self.show_on_the_bench(thing)
            }
            Some(thing) => self.go_to(thing),
            None => {
                self.reload()?;
                if let Some(thing) = read.filter(|_| self.tab == super::Tab::Curves) {
                    self.curves.select(thing);
                    self.reload()?;
                }
                Ok(())
            }
        }
    }

    fn began_just_now(&self, run: Thing) -> bool {
        let began = self.bench.life(run).and_then(|life| life.born);
        began.is_some_and(|began| (self.bench.now() - began).num_hours() < 1)
    }

    fn set_up(
        &mut self,
        mut welcome: crate::tui::overlays::welcome::Welcome,
    ) -> Result<(), StoreError> {
        let Some(drafts) = welcome.drafts() else {
            self.overlays.push(Overlay::Welcome(welcome));
            return Ok(());
        };
        let mut drafted = Vec::new();
        for draft in &drafts {
            match self.bench.read(draft) {
                Ok(read) => drafted.push(read),
                Err(problems) => {
                    for problem in &problems {
                        welcome.show(&problem.key, problem.problem.clone());
                    }
                    self.overlays.push(Overlay::Welcome(welcome));
                    return Ok(());
                }
            }
        }
        if drafted.is_empty() {
            self.overlays.push(Overlay::Welcome(welcome));
            return self.close();
        }
        match self.bench.log(drafted) {
            Ok(receipt) => {
                self.reload()?;
                let count = receipt.entries.len();
                let key = self.key_of("log.load");
                self.tell(Notice::good(format!(
                    "{count} entries logged: choose a side with the arrows and load it ({key})"
                )));
            }
            Err(error) => {
                self.overlays.push(Overlay::Welcome(welcome));
                self.tell(Notice::bad(error.to_string()));
            }
        }
        Ok(())
    }

    /// Opens the first words on a new logbook.
    pub fn welcome(&mut self) {
        let welcome = crate::tui::overlays::welcome::Welcome::new(&self.bench);
        self.overlays.push(Overlay::Welcome(welcome));
        self.changed = true;
    }

    /// Something was typed into the pane on top: it is kept at once, or with the next tick as long as
    /// another program is writing. The hand is not held up by that.
    pub(super) fn typed(&mut self) -> Result<(), StoreError> {
        if self.draft_waits {
            return Ok(());
        }
        self.save_draft()
    }

    /// Keeps what is typed in the pane on top, so that neither Esc nor a crash loses it; if another
    /// program is writing, it is to be tried again.
    pub(super) fn save_draft(&mut self) -> Result<(), StoreError> {
        match self.keep_what_is_typed() {
            Err(StoreError::Locked { .. }) => {
                self.draft_waits = true;
                Ok(())
            }
            kept => kept,
        }
    }

    pub(super) fn keep_what_is_typed(&mut self) -> Result<(), StoreError> {
        let Some(pane) = self.pane() else {
            return Ok(());
        };
        let saved = SavedDraft {
            name: pane.draft_name().to_owned(),
            about: pane.about().map(str::to_owned),
            draft: pane.draft.clone(),
            changed: self.bench.now(),
        };
        self.bench.store.save_draft(&saved)?;
        // The count in the bar may change without a key.
        self.changed |= std::mem::take(&mut self.draft_waits);
        Ok(())
    }

    /// Counts the drafts that are kept, but for those of panes that are open.
    pub(super) fn count_drafts(&mut self) -> Result<(), StoreError> {
        let open: Vec<String> = self
            .overlays
            .iter()
            .filter_map(|overlay| match overlay {
                Overlay::Pane(pane) => Some(pane.draft_name().to_owned()),
                _ => None,
            })
            .collect();
        let kept = self.bench.store.drafts()?;
        let others = kept.iter().filter(|draft| !open.contains(&draft.name));
        self.drafts = others.count();
        Ok(())
    }

    pub(super) fn keep_draft(&mut self, pane: &Pane) -> Result<(), StoreError> {
        self.count_drafts()?;
        if pane.changed {
            self.tell(Notice::plain(
                "not logged; what you typed is kept and comes back when you open this again",
            ));
        }
        Ok(())
    }

    /// Takes another setting that is offered for the exposure.
    pub(super) fn take_offer(&mut self, wider: bool) -> Result<(), StoreError> {
        if let Some(Overlay::Pane(pane)) = self.overlays.last_mut() {
            pane.take_offer(wider, &self.bench);
        }
        self.save_draft()
    }

    pub(super) fn clear_pane(&mut self) -> Result<(), StoreError> {
        if let Some(Overlay::Reckon(reckoning)) = self.overlays.last_mut() {
            reckoning.clear(&self.bench);
            return Ok(());
        }
        if let Some(Overlay::Pane(pane)) = self.overlays.last_mut() {
            pane.clear(&self.bench);
            self.bench.store.drop_draft(pane.draft_name())?;
            self.draft_waits = false;
        }
        self.count_drafts()
    }
}
