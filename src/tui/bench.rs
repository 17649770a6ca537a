//! What the front end works at: the logbook, the reference, the clock.
//!
//! For: every screen and pane that asks the logbook something or writes into it. The queries take
//! well under the time of a frame, so they are asked directly and not on a thread.
//!
//! Promises: an entry gets into the logbook by [`Bench::log`] and by nothing else.

use std::time::Duration;

use chrono::{DateTime, FixedOffset, NaiveDate};

use crate::craft::Seconds;
use crate::craft::development::asked::Asked;
use crate::figures::{self, Findings, Kit};
use crate::logbook::amending::amended;
use crate::logbook::counting::{ahead, steps_of};
use crate::logbook::developing::{as_reckoned, asked_by, sheets_of};
use crate::logbook::draft::{Desk, Drafted};
use crate::logbook::fields::FieldKind;
use crate::logbook::follows::{Follow, what_follows};
use crate::logbook::life::PrintLife;
use crate::logbook::reckoning::{Outcome, reckoned};
use crate::logbook::{
    Deed, Draft, EntryId, Exposed, FieldProblem, Kind, Life, Names, OwnKit, Thing, ThingId,
    ThingKind, tidy_reference,
};
use crate::reference::Reference;
use crate::store::rows::{BathRow, BoxRow, Line};
use crate::store::{AppendError, Receipt, Store, StoreError, write_down};
use crate::world::World;

/// The logbook, the reference and the clock.
pub struct Bench {
    /// The logbook.
    pub store: Store,
    /// What the trade has published, with the films and formats of the user's own over it.
    pub reference: Reference,
    /// The clock and new ids.
    pub world: Box<dyn World>,
    /// The machine's clock and the steady counter, as they stood when the session began.
    began: (DateTime<FixedOffset>, Duration),
}

impl std::fmt::Debug for Bench {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Bench({})", self.store.path().display())
    }
}

impl Bench {
    /// A bench with its logbook, reference and clock.
    pub fn new(store: Store, reference: Reference, world: Box<dyn World>) -> Bench {
        let began = (world.now(), world.steady());
        Bench {
            store,
            reference,
            world,
            began,
        }
    }

    /// The time now as the counter has it that nobody sets: the machine's clock as it stood when the
    /// session began, and what has passed since. Where sleep stops the counter, the machine's clock
    /// goes before it once it is ahead.
    pub fn counted_now(&self) -> DateTime<FixedOffset> {
        let (wall, steady) = self.began;
        let counted = wall + self.world.steady().saturating_sub(steady);
        if self.world.counts_sleep() {
            counted
        } else {
            counted.max(self.world.now())
        }
    }

    /// The time at which a draft is read: where it is about a step that is being counted, that of the
    /// counter.
    fn now_for(&self, draft: &Draft) -> DateTime<FixedOffset> {
        let kinds = [ThingKind::Run, ThingKind::Print];
        let timed = matches!(
            draft.kind,
            Kind::StepBegun
                | Kind::StepChanged
                | Kind::StepEnded
                | Kind::RunEnded
                | Kind::PrintStep
        );
        let about = draft.kind.about().filter(|_| timed);
        let thing = about.and_then(|key| self.store.find(&kinds, &tidy_reference(draft.get(key))));
        let life = thing.and_then(|thing| self.life(thing));
        let steps = life.as_ref().and_then(steps_of);
        if steps.is_some_and(|steps| !steps.is_empty()) {
            self.counted_now()
        } else {
            self.now()
        }
    }

    /// The time now.
    pub fn now(&self) -> DateTime<FixedOffset> {
        self.world.now()
    }

    /// Reads a whole draft.
    ///
    /// # Errors
    /// Every field that cannot be read.
    pub fn read(&mut self, draft: &Draft) -> Result<Drafted, Vec<FieldProblem>> {
        let (now, zone) = (self.now_for(draft), self.world.zone());
        let world = &mut self.world;
        let mut ids = || world.fresh_id();
        draft.read(&mut Desk {
            names: &self.store,
            reference: &self.reference,
            now,
            zone,
            ids: &mut ids,
        })
    }

    /// Lets `look` look at the desk on which drafts are read, without making ids.
    pub fn at_desk<T>(&self, look: impl FnOnce(&Desk<'_>) -> T) -> T {
        self.at_desk_at(self.now(), look)
    }

    fn at_desk_at<T>(&self, now: DateTime<FixedOffset>, look: impl FnOnce(&Desk<'_>) -> T) -> T {
        let mut no_ids = uuid::Uuid::nil;
        look(&Desk {
            names: &self.store,
            reference: &self.reference,
            now,
            zone: self.world.zone(),
            ids: &mut no_ids,
        })
    }

    /// Lets `reckon` reckon figures with the reference, the user's own records and the clock.
    pub fn at_figures<T>(&self, reckon: impl FnOnce(&figures::Desk<'_>) -> T) -> T {
        let kit = OwnKit::new(&self.store);
        let desk = figures::Desk::new(&self.reference, &kit, self.now());
        reckon(&desk.in_zone(self.world.zone()))
    }

    /// What the user has found out.
    pub fn findings(&self) -> Findings {
        OwnKit::new(&self.store).findings()
    }

    /// Lays the films and formats of the logbook, as it stands now, over the reference.
    pub fn look_up_own(&mut self) {
        self.store.lay_over(&mut self.reference);
    }

    /// Reads what an entry should have said.
    ///
    /// # Errors
    /// Every field that cannot be read.
    pub fn amended(&mut self, old: &Deed, draft: &Draft) -> Result<Deed, Vec<FieldProblem>> {
        let (now, zone) = (self.world.now(), self.world.zone());
        let world = &mut self.world;
        let mut ids = || world.fresh_id();
        amended(
            old,
            draft,
            &mut Desk {
                names: &self.store,
                reference: &self.reference,
                now,
                zone,
                ids: &mut ids,
            },
        )
    }

    /// What the exposure of a draft comes to, if it is of one.
    pub fn reckoned(&self, draft: &Draft) -> Outcome {
        self.at_desk(|desk| reckoned(draft, desk))
    }

    /// What follows from a draft and from what [`Bench::reckoned`] said of it.
    pub fn follows(&self, draft: &Draft, last: Option<&Deed>, reckoned: &Outcome) -> Vec<Follow> {
        self.at_desk_at(self.now_for(draft), |desk| {
            what_follows(draft, desk, last, reckoned)
        })
    }

    /// Writes one act.
    ///
    /// # Errors
    /// A refusal of the logbook, or why it could not be written.
    pub fn log(&mut self, drafted: Vec<Drafted>) -> Result<Receipt, AppendError> {
        write_down(
            &mut self.store,
            self.world.as_mut(),
            &self.reference,
            drafted,
        )
    }

    /// Writes one act, unless another program is writing at this moment: a clock runs meanwhile.
    ///
    /// # Errors
    /// A refusal of the logbook, or why it could not be written; [`StoreError::Locked`] when another
    /// program is writing.
    pub fn log_at_once(&mut self, drafted: Vec<Drafted>) -> Result<Receipt, AppendError> {
        let (world, reference) = (self.world.as_mut(), &self.reference);
        self.store
            .at_once(|store| write_down(store, world, reference, drafted))?
    }

    /// What a thing's life allows next. A sheet in a holder and the side it is in speak for each
    /// other: what can be done with one is offered on the other.
    ///
    /// What a thing on the shelf is merely used for is offered where it is done: an exposure on the
    /// side, a step on the print.
    pub fn possible(&self, life: &Life) -> Vec<Kind> {
        let own = life.possible();
        let mut kinds = own.clone();
        kinds.retain(|kind| !done_elsewhere(*kind, life.thing.kind));
        if let Some(partner) = self.partner(life) {
            let its = partner.possible();
            for kind in &its {
                if !kinds.contains(kind) {
                    kinds.push(*kind);
                }
            }
            // What moves both has to be allowed by both.
            kinds.retain(|kind| !moves_both(*kind) || (own.contains(kind) && its.contains(kind)));
        }
        kinds
    }

    fn partner(&self, life: &Life) -> Option<Life> {
        let id = match life.thing.kind {
            ThingKind::Side => life.side()?.sheet,
            ThingKind::Sheet => life.sheet()?.side,
            _ => None,
        };
        self.store.life_of(id?)
    }

    /// A draft of `kind` for the thing at hand, prefilled from the last similar entry.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn draft_for(
        &self,
        kind: Kind,
        life: Option<&Life>,
    ) -> Result<(Draft, Option<Deed>), StoreError> {
        match (kind, life) {
            (Kind::StepBegun, Some(life)) => {
                let draft = ahead::draft(life, None, &self.reference, &self.store);
                return Ok((draft, None));
            }
            (Kind::StepChanged | Kind::StepEnded, Some(life)) => {
                return Ok((Draft::new(kind).about(&life.reference), None));
            }
            _ => {}
        }
        let last = self
            .store
            .last_similar(kind, life.map(|life| life.thing.id))?;
        let mut draft = match &last {
            Some(deed) => Draft::after(deed, &self.store),
            None => Draft::new(kind),
        };
        draft.kind = kind;
        let Some(life) = life else {
            return Ok((draft, last));
        };
        let partner = self.partner(life);
        if kind == Kind::RunEnded
            && let Some(run) = life.sheet().and_then(|sheet| sheet.in_run)
        {
            // Whoever ends the development of a sheet ends the run, with all that is in it.
            draft.set("run", self.store.reference_of(run));
            return Ok((draft, last));
        }
        for one in [Some(life), partner.as_ref()].into_iter().flatten() {
            if let Some(field) = kind.fields().iter().find(|field| {
                takes(field.kind, one.thing.kind) && !is_only_for_again(kind, &field.key, one)
            }) {
                draft.set(&field.key, one.reference.clone());
            }
        }
        if kind == Kind::StripRead {
            strip_at_hand(&mut draft, life);
        }
        if kind == Kind::Exposed {
            let lives = [Some(life), partner.as_ref()];
            self.speed_of_the_film(&mut draft, lives);
            if let Some(Deed::Exposed(last)) = &last
                && as_planned(last)
            {
                // The time was left to the reckoning, so it is again: the light may be another.
                draft.typed.remove("time");
            }
            as_begun(&mut draft, lives);
        }
        if kind == Kind::Loaded {
            self.box_that_fits(&mut draft, life)?;
        }
        if kind == Kind::RunEnded && draft.get("time").is_empty() {
            developed(&mut draft, life);
        }
        if kind == Kind::RunBegun {
            self.as_the_sheets_ask(&mut draft, last.as_ref());
            for key in ["developer", "stop", "fixer"] {
                self.bath_at_hand(&mut draft, key)?;
            }
        }
        if kind == Kind::PrintStep {
            return self.draft_of_step(draft, life, None);
        }
        Ok((draft, last))
    }

    /// A run is for what its sheets ask for, and its time is left to the reckoning if it was so before.
    fn as_the_sheets_ask(&self, draft: &mut Draft, last: Option<&Deed>) {
        if let Some(Deed::RunBegun(last)) = last
            && as_reckoned(last)
        {
            draft.typed.remove("time");
        }
        let asked = self.at_desk(|desk| asked_by(&sheets_of(draft, desk)));
        if let Ok(asked) = asked
            && asked != Asked::default()
        {
            draft.set("contrast", asked.to_string());
        }
    }

    /// A bath that was used last is used again as long as something can go through it; then the newest
    /// one of the same name and dilution.
    fn bath_at_hand(&self, draft: &mut Draft, key: &str) -> Result<(), StoreError> {
        let last = tidy_reference(draft.get(key));
        let last = self.store.find(&[ThingKind::Bath], &last);
        let Some(last) = last.and_then(|thing| self.life(thing)) else {
            return Ok(());
        };
        let Some(used) = last.bath() else {
            return Ok(());
        };
        let baths = self.store.baths_in_use()?;
        let today = self.now().date_naive();
        let is_last = |row: &BathRow| row.thing == last.thing.id && usable(row, today);
        if baths.iter().any(is_last) {
            return Ok(());
        }
        let same = |row: &&BathRow| {
            usable(row, today) && row.name == used.name && row.dilution == used.dilution
        };
        match baths.iter().find(same) {
            Some(row) => draft.set(key, row.reference.clone()),
            None => {
                draft.typed.remove(key);
            }
        }
        Ok(())
    }

    /// A side is loaded from the box that was loaded from last, if its sheets fit and it has some
    /// left; else from the newest box of which that is true.
    fn box_that_fits(&self, draft: &mut Draft, life: &Life) -> Result<(), StoreError> {
        let Some(side) = life.side() else {
            return Ok(());
        };
        let fits = |row: &BoxRow| row.left > 0 && row.size == side.size;
        let boxes = self.store.boxes()?;
        let last = draft.get("film_box");
        if boxes.iter().any(|row| row.reference == last && fits(row)) {
            return Ok(());
        }
        match boxes.iter().find(|row| fits(row)) {
            Some(row) => draft.set("film_box", row.reference.clone()),
            None => {
                draft.typed.remove("film_box");
            }
        }
        Ok(())
    }

    /// An exposure is reckoned with the speed of the film in the side, not of the last film.
    fn speed_of_the_film(&self, draft: &mut Draft, lives: [Option<&Life>; 2]) {
        let speed = lives.into_iter().flatten().find_map(|life| {
            let film_box = self.store.life_of(life.sheet()?.film_box?)?;
            film_box.film_box()?.speed
        });
        if let Some(speed) = speed {
            draft.set("speed", speed.to_string());
        }
    }

    /// A draft of a step: the one named, or the next one of the print's process, with the figures of
    /// the last time this step was done in this process.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn draft_of_step(
        &self,
        mut draft: Draft,
        life: &Life,
        step: Option<&str>,
    ) -> Result<(Draft, Option<Deed>), StoreError> {
        let Some(print) = life.print() else {
            return Ok((draft, None));
        };
        let next = self.reference.process(&print.process).and_then(|process| {
            let next = print.next_steps(process);
            next.first().map(|step| step.id.clone())
        });
        let Some(step) = step.map(str::to_owned).or(next) else {
            return Ok((draft, None));
        };
        let last = self.store.last_step(&print.process, &step)?;
        if let Some(last) = &last {
            draft = Draft::after(last, &self.store);
        } else {
            draft.typed.clear();
        }
        if let Some(Deed::PrintStep(last)) = &last {
            let baths = self.store.baths_in_use()?;
            let today = self.now().date_naive();
            let still = |id: &ThingId| {
                baths
                    .iter()
                    .find(|row| row.thing == *id && usable(row, today))
            };
            let rows: Option<Vec<&BathRow>> = last.baths.iter().map(still).collect();
            if let Some(rows) = rows {
                let names: Vec<&str> = rows.iter().map(|row| row.reference.as_str()).collect();
                draft.set("baths", names.join(" "));
            }
        }
        draft.set("print", life.reference.clone());
        as_counted(&mut draft, print, &step);
        draft.set("step", step);
        Ok((draft, last))
    }

    /// An entry in words, with the number people use for it.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn line_of(&self, entry: EntryId) -> Result<Option<Line>, StoreError> {
        match self.store.row_of(entry)? {
            Some(row) => self.store.entry_line(row, &self.reference),
            None => Ok(None),
        }
    }

    /// The thing with this id and kind, with its life.
    pub fn life(&self, thing: Thing) -> Option<Life> {
        self.store.life_of(thing.id)
    }
}

/// What was said when the exposure was begun need not be said again when it is closed.
fn as_begun(draft: &mut Draft, lives: [Option<&Life>; 2]) {
    let sheets = lives.into_iter().flatten().filter_map(Life::sheet);
    let Some(begun) = sheets.filter_map(|sheet| sheet.begun).next() else {
        return;
    };
    if let Some(aperture) = begun.aperture {
        draft.set("aperture", aperture.to_string());
    }
    if let Some(time) = begun.time {
        draft.set("time", time.to_string());
    }
    if begun.again {
        draft.set("again", "yes");
    }
}

/// What was counted in the developer is the time given, unless something else is said.
fn developed(draft: &mut Draft, life: &Life) {
    let steps = life.run().map(|run| run.steps.all()).unwrap_or_default();
    let step = steps.iter().rfind(|step| step.step == "develop");
    let given = step.and_then(|step| Seconds::new(step.given?.value().round()).ok());
    if let Some(given) = given {
        draft.set("time", given.to_string());
    }
    if let Some(temperature) = step.and_then(|step| step.temperature) {
        draft.set("temperature", temperature.to_string());
    }
}

/// What was counted of a step that is not logged yet need not be typed.
fn as_counted(draft: &mut Draft, print: &PrintLife, step: &str) {
    let Some(counted) = print.timed.last().filter(|counted| counted.step == step) else {
        return;
    };
    let done = print.steps.iter().rev().find(|done| done.step == step);
    if done.is_some_and(|done| done.at >= counted.begun) {
        return;
    }
    let given = counted
        .given
        .and_then(|given| Seconds::new(given.value().round()).ok());
    if let Some(given) = given {
        draft.set("time", given.to_string());
    }
    if let Some(temperature) = counted.temperature {
        draft.set("temperature", temperature.to_string());
    }
}

/// Whether an exposure was given the time that was reckoned for it.
fn as_planned(exposed: &Exposed) -> bool {
    let planned = exposed.reckoning.as_ref().and_then(|it| it.planned_time);
    planned.is_some() && planned == exposed.time
}

/// Whether something can still go through a bath.
fn usable(row: &BathRow, today: NaiveDate) -> bool {
    matches!(row.state.as_str(), "fresh" | "in use") && row.wear().is_good(today)
}

/// A strip on a sheet was developed as the sheet was, one from a bath in that bath: what the last strip
/// was developed in says nothing of it.
fn strip_at_hand(draft: &mut Draft, life: &Life) {
    let known: &[&str] = match life.thing.kind {
        ThingKind::Sheet => &["film", "bath", "developer", "dilution", "temperature"],
        ThingKind::Bath => &["developer", "dilution"],
        _ => &[],
    };
    for key in known {
        draft.typed.remove(*key);
    }
}

/// Whether an entry of this kind begins at another thing than this one.
const fn done_elsewhere(kind: Kind, thing: ThingKind) -> bool {
    match thing {
        ThingKind::Box => matches!(kind, Kind::Unloaded),
        ThingKind::Bath => matches!(kind, Kind::PrintStep | Kind::StepBegun),
        ThingKind::Lens | ThingKind::Camera => matches!(kind, Kind::Exposed),
        _ => false,
    }
}

/// Whether an entry of this kind moves a sheet and the side it is in together.
const fn moves_both(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::ExposureBegun
            | Kind::ExposureDropped
            | Kind::Exposed
            | Kind::Unloaded
            | Kind::Fogged
            | Kind::Lost
            | Kind::Discarded
            | Kind::RunBegun
            | Kind::Loaded
    )
}

/// Whether a field of this kind can name a thing of that kind.
fn takes(field: FieldKind, thing: ThingKind) -> bool {
    match field {
        FieldKind::Thing(kind) | FieldKind::Things(kind) => kind == thing,
        FieldKind::AnyOf(kinds) => kinds.contains(&thing),
        FieldKind::RunSheets => thing == ThingKind::Sheet,
        _ => false,
    }
}

/// The field for loading a sheet again is filled only for a sheet that can be.
fn is_only_for_again(kind: Kind, key: &str, life: &Life) -> bool {
    kind == Kind::Loaded && key == "sheet" && life.state_word() != "in box"
}
