//! What shall be developed next, in what, for how long, and whether there is enough for it.
//!
//! For: the screen on which an evening in the darkroom is planned, and the command of the same name.
//! [`plan`] puts the sheets that wait into groups that can go together, reckons the time of each, counts
//! the runs the vessel needs and the time on the clock, and holds the solutions they take against the
//! shelf. It knows no store: sheets and baths are handed in. Promises: sheets that cannot be planned are
//! named with the reason; every volume comes with its steps and what they rest on; a number that is not
//! known leaves out its step and says so. Leaves to others: the single time (`developing`), logging.

use super::developing::{Run, Waiting, developer_named};
use super::life::{BathState, SheetState, Wear};
use super::{Life, Names, Purpose, RunBegun, tidy_reference};
use crate::craft::development::asked::Asked;
use crate::craft::development::vessel::Vessel;
use crate::craft::{
    Amount, Dilution, Figure, FilmSpeed, Grounds, Impossible, Millilitres, Seconds, Size, Step,
};
use crate::figures;
use crate::figures::development::Reckoned;
use crate::reference::Reference;

mod needs;

pub use needs::{Need, needs};

/// Times that differ by less than this part may go together.
const TOGETHER: f64 = 0.03;
/// One large sheet in a tank from start to finish, in seconds: common practice, no source.
const START_TO_FINISH: f64 = 1800.0;
/// The developing time that is in it, in seconds.
const WITH_DEVELOPMENT: f64 = 600.0;

/// A sheet that waits for development.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// Its film, its index and what it asks for.
    pub waiting: Waiting,
    /// Its size.
    pub size: Option<Size>,
    /// The side it is in, if it is in one.
    pub side: Option<String>,
    /// What is in the picture.
    pub subject: Option<String>,
    /// Whether the side it is in is in doubt.
    pub doubt: bool,
}

impl Sheet {
    /// What is known of a sheet; nothing if it does not wait for development.
    pub fn of(life: &Life, names: &dyn Names, reference: &Reference) -> Option<Sheet> {
        let sheet = life.sheet()?;
        if !matches!(sheet.state, SheetState::Exposed | SheetState::Held) {
            return None;
        }
        let film_box = sheet.film_box.and_then(|it| names.life_of(it));
        let size = film_box
            .as_ref()
            .and_then(Life::film_box)
            .and_then(|it| it.size);
        let side = sheet.side.and_then(|it| names.life_of(it));
        let mut exposures = sheet.exposures.iter().rev();
        Some(Sheet {
            waiting: Waiting::of(life, names, reference)?,
            size,
            doubt: side
                .as_ref()
                .and_then(Life::side)
                .is_some_and(|side| side.doubt.is_some()),
            side: side.map(|side| side.reference),
            subject: exposures.find_map(|one| one.subject.clone()),
        })
    }

    /// Its reference.
    pub fn reference(&self) -> &str {
        &self.waiting.reference
    }
}

/// A bath on the shelf.
#[derive(Clone, Debug)]
pub struct Bath {
    /// Its reference.
    pub reference: String,
    /// What is in it.
    pub name: String,
    /// What it is for.
    pub purpose: Option<Purpose>,
    /// How far it was diluted; undiluted if nothing is said.
    pub dilution: Option<Dilution>,
    /// How much of it there is.
    pub volume: Option<Millilitres>,
    /// The least stock of it that develops 80 square inches, if it was noted.
    pub least: Option<Millilitres>,
    /// How far it is worn.
    pub wear: Wear,
}

impl Bath {
    /// What is known of a bath; nothing if it is used up or thrown away.
    pub fn of(life: &Life) -> Option<Bath> {
        let bath = life.bath()?;
        matches!(bath.state, BathState::Fresh | BathState::InUse).then(|| Bath {
            reference: life.reference.clone(),
            name: bath.name.clone(),
            purpose: bath.purpose,
            dilution: bath.dilution,
            volume: bath.volume,
            least: bath.least,
            wear: bath.wear(),
        })
    }
}

/// What the evening is planned with.
#[derive(Clone, Debug)]
pub struct Wanted {
    /// What the sheets are developed in.
    pub vessel: Vessel,
    /// What its numbers rest on.
    pub vessel_on: Grounds,
    /// The developer.
    pub developer: String,
    /// Its dilution; as the only table has it if nothing is said.
    pub dilution: Option<Dilution>,
    /// The temperature as it was typed; empty for that of the room.
    pub temperature: String,
}

impl Wanted {
    /// Reads a vessel by its name in the reference, or as it is written out.
    ///
    /// # Errors
    /// That it is neither.
    pub fn vessel(text: &str, reference: &Reference) -> Result<(Vessel, Grounds), String> {
        if let Some(listed) = reference.vessel(text) {
            return Ok((listed.vessel.clone(), listed.grounds.clone()));
        }
        match Vessel::parse(text) {
            Ok(vessel) => Ok((vessel, Grounds::own("as typed"))),
            Err(why) => Err(why.to_string()),
        }
    }

    /// Reads a developer: a bath of the shelf by its reference, or a name with or without its dilution,
    /// `DD-X 1+4`.
    pub fn developer(text: &str, shelf: &[Bath]) -> (String, Option<Dilution>) {
        let text = text.trim();
        if let Some(bath) = shelf
            .iter()
            .find(|bath| bath.reference == tidy_reference(text))
        {
            return (bath.name.clone(), bath.dilution);
        }
        match text.rsplit_once(' ') {
            Some((name, last)) => match Dilution::parse(last) {
                Ok(dilution) => (name.trim().to_owned(), Some(dilution)),
                Err(_) => (text.to_owned(), None),
            },
            None => (text.to_owned(), None),
        }
    }
}

/// The developer of a run as one plans with it again: its bath while that stands on the shelf, else what
/// was in it, for a developer that was used once is mixed anew.
pub fn developer_of(run: &RunBegun, shelf: &[Bath], names: &dyn Names) -> Option<String> {
    let life = names.life_of(run.developer?)?;
    if shelf.iter().any(|bath| bath.reference == life.reference) {
        return Some(life.reference);
    }
    let bath = life.bath()?;
    let name = bath.name.clone();
    Some(match run.dilution.or(bath.dilution) {
        Some(dilution) => format!("{name} {dilution}"),
        None => name,
    })
}

/// Sheets that can be developed for one time.
#[derive(Clone, Debug)]
pub struct Group {
    /// The film.
    pub film: String,
    /// The size of the sheets.
    pub size: Option<Size>,
    /// What they ask for; nothing if it is no change a rule goes with.
    pub asked: Option<Asked>,
    /// The sheets.
    pub sheets: Vec<Sheet>,
    /// Their time, or why none could be reckoned.
    pub time: Result<Reckoned, String>,
    /// The sheets of each run; none if the vessel does not take them.
    pub runs: Vec<Vec<String>>,
    /// The time on the clock of one run from start to finish.
    pub clock: Option<Seconds>,
    /// What there is to know.
    pub notes: Vec<String>,
}

/// A plan.
#[derive(Clone, Debug)]
pub struct Plan {
    /// What it was made with.
    pub wanted: Wanted,
    /// The groups, in the order their first sheets came.
    pub groups: Vec<Group>,
    /// Sheets that are not planned, with the reason.
    pub left_out: Vec<(String, String)>,
    /// Runs in all.
    pub runs: usize,
    /// The time on the clock, one run after another, with its steps; nothing without a run.
    pub clock: Option<Figure<Seconds>>,
    /// What is needed of each solution, and what lacks.
    pub needs: Vec<Need>,
}

/// What belongs into one group at first: the same film and size, wish and index.
#[derive(PartialEq)]
struct Class {
    film: String,
    size: Option<String>,
    asked: Option<Asked>,
    speed: Option<FilmSpeed>,
}

/// Plans the sheets that wait.
pub fn plan(sheets: Vec<Sheet>, shelf: &[Bath], wanted: Wanted, desk: &figures::Desk<'_>) -> Plan {
    let (in_doubt, sheets): (Vec<Sheet>, Vec<Sheet>) = sheets.into_iter().partition(|it| it.doubt);
    let left_out = in_doubt
        .into_iter()
        .map(|sheet| {
            let side = sheet.side.clone().unwrap_or_default();
            let why = format!("{side} is in doubt: find out first what happened");
            (sheet.waiting.reference, why)
        })
        .collect();
    let mut groups = grouped(sheets, desk.reference);
    for group in &mut groups {
        reckon(group, &wanted, desk);
    }
    let mut groups = together(groups);
    for group in &mut groups {
        into_runs(group, &wanted);
    }
    across_films(&mut groups);
    let runs = groups.iter().map(|group| group.runs.len()).sum();
    let needs = needs(&groups, &wanted, shelf, desk);
    Plan {
        clock: clock(&groups),
        wanted,
        groups,
        left_out,
        runs,
        needs,
    }
}

/// Groups of sheets that are alike in all that bears on their time.
fn grouped(sheets: Vec<Sheet>, reference: &Reference) -> Vec<Group> {
    let mut groups: Vec<(Class, Group)> = Vec::new();
    for sheet in sheets {
        let film = sheet.waiting.film.clone().unwrap_or_default();
        let class = Class {
            film: reference
                .film(&film)
                .map_or_else(|| film.to_lowercase(), |it| it.id.clone()),
            size: sheet.size.map(|size| size.to_string()),
            asked: sheet.waiting.asked(),
            speed: sheet.waiting.speed,
        };
        match groups.iter_mut().find(|(other, _)| *other == class) {
            Some((_, group)) => group.sheets.push(sheet),
            None => groups.push((
                class,
                Group {
                    film,
                    size: sheet.size,
                    asked: sheet.waiting.asked(),
                    sheets: vec![sheet],
                    time: Err(String::new()),
                    runs: Vec::new(),
                    clock: None,
                    notes: Vec::new(),
                },
            )),
        }
    }
    groups.into_iter().map(|(_, group)| group).collect()
}

fn reckon(group: &mut Group, wanted: &Wanted, desk: &figures::Desk<'_>) {
    let sheets: Vec<Waiting> = group
        .sheets
        .iter()
        .map(|sheet| sheet.waiting.clone())
        .collect();
    let Some(asked) = &group.asked else {
        let words = sheets.first().and_then(|sheet| sheet.wish.as_ref());
        let words = words.map(|wish| wish.words.clone()).unwrap_or_default();
        group.time = Err(format!("\"{words}\" is no change a rule goes with"));
        return;
    };
    let run = Run {
        sheets: &sheets,
        developer: wanted.developer.clone(),
        dilution: wanted.dilution.map(|it| it.to_string()),
        contrast: asked.to_string(),
        temperature: wanted.temperature.clone(),
        agitation: wanted.vessel.agitation,
        estimate: false,
    };
    group.time = run.reckon(desk).map_err(|problem| problem.to_string());
}

/// Puts sheets of one film and size together whose times are nearly the same: those with the most sheets
/// keep their time.
fn together(groups: Vec<Group>) -> Vec<Group> {
    let mut kept: Vec<Group> = Vec::new();
    for group in groups {
        let near = |other: &&mut Group| {
            let (Ok(one), Ok(two)) = (&other.time, &group.time) else {
                return false;
            };
            other.film == group.film
                && other.size == group.size
                && (one.time.value() / two.time.value() - 1.0).abs() < TOGETHER
        };
        match kept.iter_mut().find(near) {
            Some(other) => {
                let (mut more, mut fewer) = (std::mem::replace(other, group.clone()), group);
                if fewer.sheets.len() > more.sheets.len() {
                    std::mem::swap(&mut more, &mut fewer);
                }
                let names: Vec<&str> = fewer.sheets.iter().map(Sheet::reference).collect();
                if let (Ok(own), Ok(time)) = (&fewer.time, &more.time)
                    && own.time != time.time
                {
                    let percent = 100.0 * (time.time.value() / own.time.value() - 1.0);
                    more.notes.push(format!(
                        "{} would have {} alone and goes along, {percent:+.0} %",
                        names.join(", "),
                        own.time
                    ));
                }
                more.notes.extend(fewer.notes);
                more.sheets.extend(fewer.sheets);
                *other = more;
            }
            None => kept.push(group),
        }
    }
    kept
}

/// The runs the vessel needs, and how long one takes.
fn into_runs(group: &mut Group, wanted: &Wanted) {
    let vessel = &wanted.vessel;
    let Some(size) = group.size else {
        group
            .notes
            .push("the size of the sheets is not known, so no run is planned".to_owned());
        return;
    };
    let Some(holds) = vessel.holds(size) else {
        group.notes.push(format!(
            "{} takes no {size}: choose another vessel",
            vessel.name
        ));
        return;
    };
    let names: Vec<String> = group
        .sheets
        .iter()
        .map(|it| it.waiting.reference.clone())
        .collect();
    let holds = usize::try_from(holds).unwrap_or(1).max(1);
    group.runs = names.chunks(holds).map(<[String]>::to_vec).collect();
    group.clock = group.time.as_ref().ok().and_then(|reckoned| {
        let longer = reckoned.time.value() - WITH_DEVELOPMENT;
        Seconds::new(START_TO_FINISH + longer).ok()
    });
}

/// Says where two films have nearly the same time.
fn across_films(groups: &mut [Group]) {
    let times: Vec<(String, Option<f64>)> = groups
        .iter()
        .map(|group| {
            (
                group.film.clone(),
                group.time.as_ref().ok().map(|it| it.time.value()),
            )
        })
        .collect();
    for (at, group) in groups.iter_mut().enumerate() {
        let Some(own) = times.get(at).and_then(|(_, time)| *time) else {
            continue;
        };
        let near = |(film, time): &&(String, Option<f64>)| {
            *film != group.film && time.is_some_and(|it| (it / own - 1.0).abs() < TOGETHER)
        };
        if let Some((film, _)) = times.iter().find(near) {
            let words =
                format!("{film} has nearly the same time and may go along, if the size fits");
            group.notes.push(words);
        }
    }
}

/// The time on the clock, one run after another.
fn clock(groups: &[Group]) -> Option<Figure<Seconds>> {
    let mut total = 0.0;
    let mut steps = vec![
        Step::new("a run, start to finish", time(START_TO_FINISH).ok()?)
            .working("with 10 min of development; a longer or shorter one adds or takes off the difference")
            .on(Grounds::usual()),
    ];
    for group in groups {
        let Some(clock) = group.clock else {
            continue;
        };
        let runs = group.runs.len();
        total += clock.value() * runs as f64;
        let name = format!("{} {}", group.film, group.asked.clone().unwrap_or_default());
        let working = format!("{runs} x {clock}");
        steps.push(Step::new(name, time(clock.value() * runs as f64).ok()?).working(working));
    }
    if total <= 0.0 {
        return None;
    }
    let mut figure = Figure::new(Seconds::new(total).ok()?, Grounds::usual());
    figure.steps = steps;
    Some(figure)
}

fn time(seconds: f64) -> Result<Amount, Impossible> {
    Ok(Amount::Time(Seconds::new(seconds)?))
}

impl Plan {
    /// The bath of the shelf that a run of this plan is developed in, if one stands there: of the dilution
    /// that is wanted, else the stock it is thinned from.
    pub fn developer_on<'b>(&self, shelf: &'b [Bath], reference: &Reference) -> Option<&'b Bath> {
        let name = developer_named(&self.wanted.developer, reference);
        let usable = |bath: &&Bath| {
            bath.purpose == Some(Purpose::Developer)
                && developer_named(&bath.name, reference) == name
                && !bath.wear.is_exhausted()
        };
        let stock = |dilution: Option<Dilution>| dilution.unwrap_or(Dilution::STOCK);
        let wanted = stock(self.wanted.dilution);
        let fresh = |bath: &&Bath| bath.wear.uses == 0 || wanted == Dilution::STOCK;
        let of = |dilution: Dilution| {
            shelf
                .iter()
                .filter(usable)
                .filter(move |bath| stock(bath.dilution) == dilution)
        };
        of(wanted)
            .find(fresh)
            .or_else(|| of(Dilution::STOCK).next())
            .or_else(|| of(wanted).next())
    }
}
