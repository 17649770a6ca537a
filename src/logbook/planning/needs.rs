//! The solutions that planned runs take, against what stands on the shelf.
//!
//! A thinned developer is used once and poured away, stock may be used again; stop bath and fixer serve
//! every run. What a bath is for and how far it is thinned decides whether it counts; a bath of unknown
//! volume is named and not counted.

use chrono::NaiveDate;

use super::{Bath, Group, Wanted};
use crate::craft::solutions::volume::{UNIT_SQ_IN, units, working};
use crate::craft::{Amount, Area, Dilution, Grounds, Impossible, Step};
use crate::figures;
use crate::logbook::Purpose;
use crate::logbook::developing::developer_named;
use crate::reference::{Reference, Usual};

/// The least a fixer is made up to beside the vessel, by the area that goes through it.
const FILM_CAPACITY: &str = "capacity for film";

/// What is needed of one solution.
#[derive(Clone, Debug)]
pub struct Need {
    /// What the bath is for.
    pub purpose: Purpose,
    /// What it is called.
    pub name: String,
    /// How far it is thinned.
    pub dilution: Option<Dilution>,
    /// Working solution for all runs, in millilitres.
    pub needed: f64,
    /// What the shelf has of it, as working solution, in millilitres.
    pub have: f64,
    /// What has to be mixed, in millilitres; 0 if there is enough.
    pub lacks: f64,
    /// Stock or concentrate in what lacks, in millilitres, where the dilution is known.
    pub stock: Option<f64>,
    /// How it was reckoned.
    pub steps: Vec<Step>,
    /// What there is to know.
    pub notes: Vec<String>,
}

/// What all runs need of developer, stop bath and fixer; nothing without a run.
pub fn needs(
    groups: &[Group],
    wanted: &Wanted,
    shelf: &[Bath],
    desk: &figures::Desk<'_>,
) -> Vec<Need> {
    if groups.iter().all(|group| group.runs.is_empty()) {
        return Vec::new();
    }
    let all = Evening {
        groups,
        wanted,
        shelf,
        reference: desk.reference,
        today: desk.now.date_naive(),
    };
    let developer = all.developer().unwrap_or_else(|why| Need {
        notes: vec![why.to_string()],
        ..Need::new(
            Purpose::Developer,
            wanted.developer.clone(),
            wanted.dilution,
        )
    });
    vec![
        developer,
        all.served(Purpose::Stop, "stop bath", None),
        all.served(Purpose::Fixer, "fixer", capacity(desk.reference)),
    ]
}

impl Need {
    fn new(purpose: Purpose, name: String, dilution: Option<Dilution>) -> Need {
        Need {
            purpose,
            name,
            dilution,
            needed: 0.0,
            have: 0.0,
            lacks: 0.0,
            stock: None,
            steps: Vec::new(),
            notes: Vec::new(),
        }
    }

    /// Holds what is needed against what there is.
    fn settle(&mut self) {
        let have = self.have.min(1e9);
        self.lacks = (self.needed - have).max(0.0);
        self.steps
            .push(Step::new("needed", millilitres(self.needed)));
        self.steps
            .push(Step::new("on the shelf", millilitres(have)));
        self.steps
            .push(Step::new("to mix", millilitres(self.lacks)));
        if let Some(dilution) = self.dilution.filter(|it| *it != Dilution::STOCK) {
            let total = parts(dilution);
            self.stock = Some(self.lacks / total);
            if self.lacks > 0.0 {
                self.steps.push(
                    Step::new(
                        "stock or concentrate in it",
                        millilitres(self.lacks / total),
                    )
                    .working(format!("{:.0} ml / {total}, {dilution}", self.lacks)),
                );
            }
        }
    }
}

fn millilitres(value: f64) -> Amount {
    Amount::number(value, "ml", 0)
}

/// Working solution that one part of stock makes.
fn parts(dilution: Dilution) -> f64 {
    let parts = dilution.parts();
    parts.iter().sum::<f64>() / parts.first().copied().unwrap_or(1.0)
}

/// Sheets of each run with their area in units of 80 square inches.
fn areas(groups: &[Group]) -> Result<Vec<f64>, Impossible> {
    let mut areas = Vec::new();
    for group in groups {
        let Some(size) = group.size else {
            continue;
        };
        for run in &group.runs {
            areas.push(units(size, run.len() as f64)?.value);
        }
    }
    Ok(areas)
}

/// What bears on the solutions of all runs.
struct Evening<'a> {
    groups: &'a [Group],
    wanted: &'a Wanted,
    shelf: &'a [Bath],
    reference: &'a Reference,
    today: NaiveDate,
}

impl Evening<'_> {
    fn developer(&self) -> Result<Need, Impossible> {
        let (wanted, reference) = (self.wanted, self.reference);
        let name = developer_named(&wanted.developer, reference);
        let dilution = wanted.dilution.unwrap_or(Dilution::STOCK);
        let once = dilution != Dilution::STOCK;
        let mut need = Need::new(Purpose::Developer, name.clone(), wanted.dilution);
        let is_it = |bath: &&Bath| {
            bath.purpose == Some(Purpose::Developer)
                && developer_named(&bath.name, reference) == name
        };
        let areas = areas(self.groups)?;
        let vessel = Step::new("the vessel needs", millilitres(wanted.vessel.least.value()));
        need.steps.push(vessel.on(wanted.vessel_on.clone()));
        let noted = self
            .shelf
            .iter()
            .filter(is_it)
            .find_map(|bath| Some((bath, bath.least?)));
        let per_unit = match (noted, reference.usage(&name)) {
            (Some((bath, least)), _) => {
                let grounds = Grounds::own(format!("as noted with {}", bath.reference));
                let step = Step::new("least stock for an 8x10", millilitres(least.value()));
                need.steps.push(step.on(grounds));
                least.value()
            }
            (None, Some(usage)) => {
                let name = format!("least {} for an 8x10", usage.of);
                let step = Step::new(name, millilitres(usage.least));
                need.steps.push(step.on(usage.grounds()));
                usage.least
            }
            (None, None) => {
                need.notes.push(format!(
                    "no least amount is known of {name}: only the vessel was looked at, so look at its \
                     packet"
                ));
                0.0
            }
        };
        let mut by_run = 0.0;
        let mut largest: f64 = 0.0;
        for area in &areas {
            let figure = working(*area, per_unit, dilution, Some(wanted.vessel.least))?;
            by_run += figure.value.working;
            largest = largest.max(figure.value.working);
        }
        if largest > wanted.vessel.least.value() + 0.5 {
            need.notes.push(format!(
                "{} filled to its least does not hold stock enough for a full run: fill more, or develop \
                 fewer sheets at once",
                wanted.vessel.name
            ));
        }
        let runs = areas.len();
        let working = if once {
            need.needed = by_run;
            format!("{runs} runs, thinned developer is used once")
        } else {
            let by_area = areas.iter().sum::<f64>() * per_unit;
            need.needed = largest.max(by_area);
            format!("stock serves {runs} runs, {by_area:.0} ml by area at least")
        };
        need.steps.push(
            Step::new("for all runs", millilitres(need.needed))
                .working(working)
                .on(Grounds::usual()),
        );
        for bath in self.shelf.iter().filter(is_it) {
            let own = bath.dilution.unwrap_or(Dilution::STOCK);
            if own == dilution && once && bath.wear.uses > 0 {
                let words = format!(
                    "{} is thinned and was used; what is left of it unused is not known, so it is not counted",
                    bath.reference
                );
                need.notes.push(words);
            } else if own == dilution {
                self.count(&mut need, bath, 1.0);
            } else if own == Dilution::STOCK {
                self.count(&mut need, bath, parts(dilution));
            }
        }
        need.settle();
        Ok(need)
    }

    /// A bath that serves every run: as much as the vessel needs, and as the area asks for.
    fn served(&self, purpose: Purpose, name: &str, capacity: Option<(f64, &Usual)>) -> Need {
        let vessel = self.wanted.vessel.least.value();
        let mut need = Need::new(purpose, name.to_owned(), None);
        let step = Step::new("the vessel needs", millilitres(vessel));
        need.steps.push(step.on(self.wanted.vessel_on.clone()));
        need.needed = vessel;
        let area: f64 = areas(self.groups).unwrap_or_default().iter().sum();
        if let Some((per_litre, usual)) = capacity.filter(|(per_litre, _)| *per_litre > 0.0) {
            let by_area = 1000.0 * area / per_litre;
            need.needed = vessel.max(by_area);
            let working = format!(
                "{area:.2} 8x10 sheets, {per_litre:.0} a litre: {}",
                usual.what
            );
            need.steps.push(
                Step::new("by the area of the film", millilitres(by_area))
                    .working(working)
                    .on(Grounds::new(usual.standing, usual.source.clone())),
            );
        }
        let runs = self.groups.iter().flat_map(|group| &group.runs);
        let sheets: usize = runs.map(Vec::len).sum();
        for bath in self
            .shelf
            .iter()
            .filter(|bath| bath.purpose == Some(purpose))
        {
            let mut after = bath.wear;
            after.uses = after
                .uses
                .saturating_add(u32::try_from(sheets).unwrap_or(u32::MAX));
            after.area = after
                .area
                .and(Area::new(area * UNIT_SQ_IN).unwrap_or(Area::NONE));
            let too_much = after.share().is_some_and(|share| share > 1.0 + 1e-9);
            if let Some(left) = bath
                .wear
                .left()
                .filter(|_| too_much && !bath.wear.is_exhausted())
            {
                let words = format!("{}: {left}, and {sheets} sheets wait", bath.reference);
                need.notes.push(words);
            }
            self.count(&mut need, bath, 1.0);
        }
        need.settle();
        need
    }

    /// Counts what a bath makes of the solution.
    fn count(&self, need: &mut Need, bath: &Bath, makes: f64) {
        let why = match bath.volume {
            _ if bath.wear.is_exhausted() => "it is exhausted",
            _ if bath.wear.is_too_old(self.today) => "it is past its keeping",
            None => "how much there is of it is not known",
            Some(_) => "",
        };
        let Some(volume) = bath.volume.filter(|_| why.is_empty()) else {
            need.notes
                .push(format!("{} is not counted: {why}", bath.reference));
            return;
        };
        need.have += volume.value() * makes;
        let left = bath.wear.left().map(|left| format!(", {left}"));
        let more = (makes > 1.0).then(|| format!(", makes {:.0} ml", volume.value() * makes));
        let words = format!(
            "{volume}{}{}",
            more.unwrap_or_default(),
            left.unwrap_or_default()
        );
        let step = Step::new(bath.reference.clone(), Amount::words(words));
        need.steps.push(step);
    }
}

/// The capacity of a fixer for film, in 8x10 sheets a litre.
fn capacity(reference: &Reference) -> Option<(f64, &Usual)> {
    let fixer = reference.bath(crate::reference::Purpose::Fixer)?;
    let usual = fixer
        .usual
        .iter()
        .find(|it| it.what.starts_with(FILM_CAPACITY))?;
    usual.range.map(|(least, _)| (least, usual))
}
