//! An evening in the darkroom, planned: groups of sheets that can go together on the left, what they need
//! and what lacks on the right, vessel and developer above.
//!
//! Promises: what is typed above is reckoned with on every key; what cannot be read stays and says beside
//! it what is wrong, and the plan stays as it was. Nothing is written here: the pane of a run and that of
//! a bath are opened filled in.

use crate::craft::Celsius;
use crate::figures;
use crate::logbook::planning::{Bath, Group, Plan, Wanted, developer_of, plan};
use crate::logbook::{Deed, Draft, Kind, Names, OwnKit, Purpose, ThingKind};
use crate::store::StoreError;
use crate::tui::bench::Bench;
use crate::tui::widgets::Reaction;
use crate::tui::widgets::choice::{Choice, Pick};
use crate::tui::widgets::field::Field;
use crate::tui::widgets::form::Form;
use crate::tui::widgets::listing::Step;
use crossterm::event::KeyEvent;

mod draw;
mod told;

const VESSEL: &str = "vessel";
const DEVELOPER: &str = "developer";
const TEMPERATURE: &str = "temperature";

/// The plan that is open.
#[derive(Debug)]
pub struct Planning {
    form: Form,
    /// Whether the fields have the focus instead of the groups.
    asking: bool,
    plan: Option<Plan>,
    shelf: Vec<Bath>,
    /// The group under the cursor.
    cursor: usize,
    /// First line in view of what stands at the right.
    from: usize,
    /// Whether that is longer than its place.
    pub too_long: bool,
}

impl Planning {
    /// A plan with vessel, developer and temperature of the last run.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn new(bench: &Bench) -> Result<Planning, StoreError> {
        let last = match bench.store.last_similar(Kind::RunBegun, None)? {
            Some(Deed::RunBegun(run)) => Some(run),
            _ => None,
        };
        let vessel = last.as_ref().and_then(|run| run.vessel.clone());
        let vessel = vessel.filter(|it| Wanted::vessel(it, &bench.reference).is_ok());
        let shelf = bench.store.shelf()?;
        let developer = last
            .as_ref()
            .and_then(|run| developer_of(run, &shelf, &bench.store));
        let temperature = last
            .and_then(|run| run.temperature)
            .map(|it| it.to_string());
        let vessels = bench.reference.vessels().iter();
        let vessels = vessels.map(|it| Pick::new(&it.vessel.name, it.vessel.to_string()));
        let mut planning = Planning {
            form: Form::new(vec![
                Field::choice(VESSEL, "in", Choice::new(vessels.collect()).open())
                    .with_empty("tray 8x10, or 4 of 4x5, 1000 ml")
                    .with(vessel.as_deref().unwrap_or_default()),
                Field::choice(
                    DEVELOPER,
                    "developer",
                    Choice::new(developers(&shelf, bench)).open(),
                )
                .with_empty("a bath, or DD-X 1+4")
                .with(developer.as_deref().unwrap_or_default()),
                Field::text(TEMPERATURE, "at")
                    .with_empty("20 C")
                    .with(temperature.as_deref().unwrap_or_default()),
            ]),
            asking: false,
            plan: None,
            shelf,
            cursor: 0,
            from: 0,
            too_long: false,
        };
        planning.look_again(bench)?;
        planning.asking = planning.plan.is_none();
        Ok(planning)
    }

    /// Whether the fields have the focus.
    pub const fn is_asking(&self) -> bool {
        self.asking
    }

    fn typed(&self, key: &str) -> String {
        let field = self.form.field(key);
        field
            .map(|field| field.filled().trim().to_owned())
            .unwrap_or_default()
    }

    /// Plans anew with what is typed and what the logbook has now.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn look_again(&mut self, bench: &Bench) -> Result<(), StoreError> {
        self.shelf = bench.store.shelf()?;
        let (vessel, developer) = (self.typed(VESSEL), self.typed(DEVELOPER));
        let temperature = self.typed(TEMPERATURE);
        let vessel_read = Wanted::vessel(&vessel, &bench.reference);
        let warm = match temperature.as_str() {
            "" => Ok(()),
            text => Celsius::parse(text)
                .map(|_| ())
                .map_err(|why| why.to_string()),
        };
        let problem_of = |key: &str| match key {
            VESSEL if !vessel.is_empty() => vessel_read.as_ref().err().cloned(),
            TEMPERATURE => warm.as_ref().err().cloned(),
            _ => None,
        };
        let focused = self.form.focused().map(|field| field.key.clone());
        for field in self.form.fields_mut() {
            // While something is typed it is not found fault with.
            let typing = self.asking && focused.as_deref() == Some(field.key.as_str());
            field.problem = problem_of(&field.key).filter(|_| !typing);
        }
        if let (Ok((vessel, vessel_on)), Ok(()), false) = (vessel_read, warm, developer.is_empty())
        {
            let (developer, dilution) = Wanted::developer(&developer, &self.shelf);
            let wanted = Wanted {
                vessel,
                vessel_on,
                developer,
                dilution,
                temperature,
            };
            let sheets = bench.store.waiting(&bench.reference)?;
            let kit = OwnKit::new(&bench.store);
            let desk = figures::Desk::new(&bench.reference, &kit, bench.now());
            self.plan = Some(plan(sheets, &self.shelf, wanted, &desk));
        }
        let last = self.groups().len().saturating_sub(1);
        self.cursor = self.cursor.min(last);
        Ok(())
    }

    fn groups(&self) -> &[Group] {
        self.plan.as_ref().map_or(&[], |plan| &plan.groups)
    }

    fn group(&self) -> Option<&Group> {
        self.groups().get(self.cursor)
    }

    /// Goes from the groups through the fields and back.
    pub fn go_on(&mut self, forwards: bool) {
        let keys = [VESSEL, DEVELOPER, TEMPERATURE];
        let at = self
            .form
            .focused()
            .and_then(|field| keys.iter().position(|key| *key == field.key));
        let at = at.filter(|_| self.asking);
        let to = match (at, forwards) {
            (None, true) => Some(0),
            (None, false) => Some(keys.len() - 1),
            (Some(at), true) => Some(at + 1),
            (Some(at), false) => at.checked_sub(1),
        };
        match to.and_then(|to| keys.get(to)) {
            Some(key) => {
                self.asking = true;
                self.form.focus(key);
            }
            None => self.asking = false,
        }
    }

    /// Leaves the fields for the groups; whether it was in the fields.
    pub fn leave_fields(&mut self) -> bool {
        std::mem::replace(&mut self.asking, false)
    }

    /// Takes a key that is no action.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn key(&mut self, key: &KeyEvent, bench: &Bench) -> Result<(), StoreError> {
        if self.asking && self.form.key(key) == Reaction::Changed {
            self.from = 0;
            return self.look_again(bench);
        }
        Ok(())
    }

    /// Takes a paste into the focused field.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn paste(&mut self, text: &str, bench: &Bench) -> Result<(), StoreError> {
        if self.asking && self.form.paste(text).is_some() {
            return self.look_again(bench);
        }
        Ok(())
    }

    /// Moves the cursor by groups, or reads on at the right.
    pub fn step(&mut self, step: Step) {
        let last = self.groups().len().saturating_sub(1);
        let cursor = match step {
            Step::PageUp => return self.from = self.from.saturating_sub(8),
            Step::PageDown => return self.from = self.from.saturating_add(8),
            Step::Up(by) => self.cursor.saturating_sub(by),
            Step::Down(by) => self.cursor.saturating_add(by),
            Step::First => 0,
            Step::Last => last,
            Step::To(to) => to,
        };
        if self.cursor != cursor.min(last) {
            self.cursor = cursor.min(last);
            self.from = 0;
        }
    }

    /// The draft of a run for the group under the cursor: as many sheets as fit, and the time left to the
    /// reckoning; or why there is none.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn run(&self, bench: &Bench) -> Result<Result<(Draft, Option<Deed>), String>, StoreError> {
        let (Some(plan), Some(group)) = (&self.plan, self.group()) else {
            return Ok(Err("no sheet waits for development".to_owned()));
        };
        let Some(sheets) = group.runs.first() else {
            let why = group.notes.first().cloned();
            return Ok(Err(why.unwrap_or_else(|| {
                "no run is planned for these sheets".to_owned()
            })));
        };
        let first = group
            .sheets
            .iter()
            .find(|sheet| Some(sheet.reference()) == sheets.first().map(String::as_str));
        let life = first.and_then(|sheet| {
            let kinds = [ThingKind::Sheet];
            bench.life(bench.store.find(&kinds, sheet.reference())?)
        });
        let (mut draft, last) = bench.draft_for(Kind::RunBegun, life.as_ref())?;
        draft.set("sheets", sheets.join(", "));
        draft.set("vessel", plan.wanted.vessel.name.clone());
        draft.set("temperature", self.typed(TEMPERATURE));
        for key in ["time", "dilution", "contrast", "developer"] {
            draft.typed.remove(key);
        }
        if let Some(asked) = group
            .asked
            .as_ref()
            .filter(|asked| asked.to_string() != "N")
        {
            draft.set("contrast", asked.to_string());
        }
        if let Some(bath) = plan.developer_on(&self.shelf, &bench.reference) {
            draft.set("developer", bath.reference.clone());
            if let Some(dilution) = plan.wanted.dilution.filter(|it| bath.dilution != Some(*it)) {
                draft.set("dilution", dilution.to_string());
            }
        }
        Ok(Ok((draft, last)))
    }

    /// The draft of the first bath that lacks; or why there is none.
    pub fn mix(&self) -> Result<Draft, String> {
        let Some(plan) = &self.plan else {
            return Err("say first in what the sheets are developed".to_owned());
        };
        let Some(need) = plan.needs.iter().find(|need| need.lacks > 0.0) else {
            return Err("nothing lacks: the shelf has enough".to_owned());
        };
        let mut draft = Draft::new(Kind::BathMixed);
        draft.set("name", need.name.clone());
        draft.set("purpose", need.purpose.word());
        if let Some(dilution) = need.dilution {
            draft.set("dilution", dilution.to_string());
        }
        draft.set("volume", format!("{:.0} ml", need.lacks));
        Ok(draft)
    }
}

/// The developers that can be offered: baths of the shelf first, then those a time is told for.
fn developers(shelf: &[Bath], bench: &Bench) -> Vec<Pick> {
    let mixed = shelf
        .iter()
        .filter(|bath| bath.purpose == Some(Purpose::Developer))
        .map(|bath| {
            let dilution = bath.dilution.map(|it| format!(" {it}")).unwrap_or_default();
            Pick::new(
                &bath.reference,
                format!("{}  {}{dilution}", bath.reference, bath.name),
            )
        });
    let mut picks: Vec<Pick> = mixed.collect();
    let mut words: Vec<String> = Vec::new();
    for row in bench.reference.times().iter().flat_map(|table| &table.rows) {
        let Some(developer) = bench.reference.developer(&row.developer) else {
            continue;
        };
        let word = match row.dilution {
            Some(dilution) => format!("{} {dilution}", developer.name),
            None => developer.name.clone(),
        };
        if !words.contains(&word) {
            words.push(word);
        }
    }
    picks.extend(words.iter().map(|word| Pick::word(word)));
    picks
}
