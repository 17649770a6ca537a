//! From a table of times to the time of one run: temperature, agitation, the contrast that is asked for
//! and what a long exposure changes, in that order.
//!
//! For: the figure of the same name, the pane of a run, and what an entry keeps of how its time came
//! about. Promises: a time of the user's own goes before every published one and says its date; each
//! step says what it multiplies and what that rests on; beyond a table nothing is told, and an estimate
//! has to be asked for. Leaves to others: which rows there are (`rows`, `own`), the logbook, the clock.

use super::rows::{Chosen, Meant, Told, chosen};
use super::{contrast, own, rows, to_the_second};
use crate::craft::development::agitation::{Agitation, continuous};
use crate::craft::development::asked::Asked;
use crate::craft::development::temperature::{Rate, estimate, general_grounds};
use crate::craft::{Amount, Celsius, Concern, Figure, FilmSpeed, Grounds, Remark, Seconds, Step};
use crate::figures::{Answer, Given, Line, Problem};
use crate::reference::PublishedTimes;

/// Development shorter than this becomes uneven, in seconds.
const EVEN_FROM: f64 = 300.0;
/// The temperature if nothing is said, in degrees Celsius.
const ROOM: f64 = 20.0;
/// The most other tables that are told beside the one that was taken.
const OTHERS: usize = 3;

/// Everything that bears on the time of one run, as far as it is known.
pub struct Situation<'a> {
    /// What was typed, by the questions of the figure.
    pub given: Given<'a>,
    /// The index the film was exposed at, where the logbook knows it: a time told for it is taken before
    /// one for the speed on the box, but is not insisted on.
    pub exposed_at: Option<FilmSpeed>,
    /// Whether sheets are developed: a table told for sheets goes before the others.
    pub sheets: bool,
    /// What the change for a long exposure rests on.
    pub long: Option<Grounds>,
}

impl<'a> Situation<'a> {
    /// The situation as it was typed.
    pub const fn typed(given: Given<'a>) -> Situation<'a> {
        Situation {
            given,
            exposed_at: None,
            sheets: false,
            long: None,
        }
    }
}

/// What a reckoning came to.
#[derive(Debug, Clone, PartialEq)]
pub struct Reckoned {
    /// Results, steps and remarks, to be shown.
    pub answer: Answer,
    /// The time, to the second.
    pub time: Seconds,
    /// What was asked of the development.
    pub asked: Asked,
}

/// The tables a time may come from, those of the user's own among them.
pub(super) struct Tables<'a> {
    pub(super) meant: Meant<'a>,
    own: Vec<PublishedTimes>,
}

impl<'a> Tables<'a> {
    pub(super) fn of(given: &Given<'a>) -> Result<Tables<'a>, Problem> {
        let found = given.desk().kit.findings().developments;
        let meant = Meant::of(given, &found)?;
        let own = own::tables(&found, &meant, given.desk().reference);
        Ok(Tables { meant, own })
    }

    /// Every row, the user's own first.
    pub(super) fn rows<'s>(&'s self, given: &Given<'s>) -> Vec<Told<'s>> {
        let (film, developer) = (self.meant.film, self.meant.developer);
        let mut all: Vec<Told<'s>> = self.own.iter().flat_map(rows::of_table).collect();
        all.extend(rows::rows(given.desk().reference, |of, by| {
            let same = |one: Option<&str>, other: Option<&str>| one.is_some() && one == other;
            same(of.map(|it| it.id.as_str()), film.map(|it| it.id.as_str()))
                && same(
                    by.map(|it| it.id.as_str()),
                    developer.map(|it| it.id.as_str()),
                )
        }));
        rows::sort(&mut all);
        all
    }
}

/// The time on its way, and how it came about.
pub(super) struct Walk {
    pub(super) time: Seconds,
    pub(super) grounds: Grounds,
    pub(super) steps: Vec<Step>,
    pub(super) remarks: Vec<Remark>,
}

impl Walk {
    pub(super) fn begin(figure: Figure<Seconds>) -> Walk {
        Walk {
            time: figure.value,
            grounds: figure.grounds,
            steps: figure.steps,
            remarks: figure.remarks,
        }
    }

    /// Goes on by a factor. What follows rests on no more than the factor does.
    pub(super) fn times(
        &mut self,
        factor: f64,
        step: impl FnOnce(Seconds) -> Step,
        grounds: Option<&Grounds>,
    ) -> Result<(), Problem> {
        self.time = Seconds::new(self.time.value() * factor)?;
        let step = step(self.time);
        self.steps.push(match grounds {
            Some(grounds) => step.on(grounds.clone()),
            None => step,
        });
        if let Some(grounds) = grounds.filter(|it| it.standing < self.grounds.standing) {
            self.grounds = grounds.clone();
        }
        Ok(())
    }
}

/// Reckons the time of a run.
///
/// # Errors
/// What is missing or cannot be read, beside its question; and that nothing is told for it.
pub fn reckon(at: &Situation<'_>) -> Result<Reckoned, Problem> {
    let tables = Tables::of(&at.given)?;
    reckon_by(at, &tables).map(|(reckoned, _)| reckoned)
}

/// The same, with the row it was taken from.
pub(super) fn reckon_by<'t>(
    at: &Situation<'t>,
    tables: &'t Tables<'t>,
) -> Result<(Reckoned, Told<'t>), Problem> {
    let given = &at.given;
    let all = tables.rows(given);
    let asked = given.may("contrast", Asked::parse)?.unwrap_or_default();
    let wish = contrast::Wish::of(&asked, given)?;
    let temperature = temperature(given)?;
    let chosen: Chosen<'t> = chosen(&all, &tables.meant, at, wish.by)?;
    let told = chosen.told;
    let way = Way {
        at,
        tables,
        all: &all,
        temperature,
        wish: &wish,
        asked: &asked,
    };
    let mut walk = way.walk(told)?;
    walk.remarks.extend(chosen.remarks);
    let time = to_the_second(walk.time);
    let mut results = vec![
        Line::new("develop", Amount::Time(time)).on(walk.grounds.clone()),
        Line::new("at", Amount::number(temperature.value(), "C", 1)),
    ];
    results.extend(way.others(told));
    let answer = Answer {
        results,
        grounds: walk
            .steps
            .first()
            .and_then(|it| it.grounds.clone())
            .unwrap_or(walk.grounds),
        steps: walk.steps,
        remarks: walk.remarks,
        domain: "",
        table: None,
        chart: None,
    };
    let reckoned = Reckoned {
        answer,
        time,
        asked,
    };
    Ok((reckoned, told))
}

/// The temperature that is meant.
pub(super) fn temperature(given: &Given<'_>) -> Result<Celsius, Problem> {
    match given.may("temperature", Celsius::parse)? {
        Some(temperature) => Ok(temperature),
        None => Ok(Celsius::new(ROOM)?),
    }
}

/// The way from a row to the time.
pub(super) struct Way<'w, 't> {
    pub(super) at: &'w Situation<'t>,
    pub(super) tables: &'w Tables<'t>,
    pub(super) all: &'w [Told<'t>],
    pub(super) temperature: Celsius,
    pub(super) wish: &'w contrast::Wish,
    pub(super) asked: &'w Asked,
}

impl Way<'_, '_> {
    fn walk(&self, told: Told<'_>) -> Result<Walk, Problem> {
        let mut walk = match contrast::by_own_gradients(self)? {
            Some(walk) => walk,
            None => {
                let mut walk = Walk::begin(self.timed(told)?);
                self.agitated(&mut walk, told)?;
                contrast::changed(self, &mut walk, told)?;
                walk
            }
        };
        if let Some(percent) = self.asked.percent {
            let factor = 1.0 + percent / 100.0;
            let name = "long exposure";
            let step = |time| {
                Step::new(name, Amount::Factor(factor))
                    .working(format!("{percent:+} % of the time"))
                    .brings(Amount::Time(time))
            };
            walk.times(factor, step, self.at.long.as_ref())?;
        }
        self.remarked(&mut walk, told);
        Ok(walk)
    }

    /// The time at the temperature: from the table, carried by the slope of another one, or as an
    /// estimate if one was asked for.
    pub(super) fn timed(&self, told: Told<'_>) -> Result<Figure<Seconds>, Problem> {
        let given = &self.at.given;
        let times = &told.row.times;
        let wrong = |why: crate::craft::Impossible| given.problem("temperature", why.to_string());
        let mut figure = match times.at(self.temperature, &told.table.grounds) {
            Ok(figure) => figure,
            Err(why) => {
                let nearest = times.nearest(self.temperature);
                let slope = self.slope(told);
                let estimated = given.choice("estimate")? == Some("yes");
                let (rate, grounds) = match slope {
                    Some((rate, grounds)) => (rate, grounds),
                    None if estimated => (Rate::GENERAL, general_grounds()),
                    None => return Err(wrong(why)),
                };
                let mut figure =
                    estimate(nearest, self.temperature, rate, grounds.clone()).map_err(wrong)?;
                if let Some(first) = figure.steps.first_mut() {
                    first.grounds = Some(told.table.grounds.clone());
                }
                // The time is no better than the law that carried it.
                figure.grounds = grounds;
                figure
            }
        };
        if told.table.origin == crate::reference::Origin::Logbook {
            for step in &mut figure.steps {
                for word in ["told at ", "known at "] {
                    if let Some(rest) = step.name.strip_prefix(word) {
                        step.name = format!("own at {rest}").into();
                    }
                }
            }
        }
        Ok(figure)
    }

    /// How a degree changes the time by a table that is told of the same film, developer and dilution,
    /// for a time of the user's own at one temperature alone.
    fn slope(&self, told: Told<'_>) -> Option<(Rate, Grounds)> {
        if !told.table.origin.is_own() {
            return None;
        }
        let nearest = told.row.times.nearest(self.temperature).at.value();
        let covers = |other: &&Told<'_>| {
            let mut cells = other.row.times.cells();
            let Some(first) = cells.next() else {
                return false;
            };
            let last = cells.last().unwrap_or(first);
            let within = first.at.value() - 0.05..=last.at.value() + 0.05;
            within.contains(&nearest) && within.contains(&self.temperature.value())
        };
        let same = |other: &&Told<'_>| {
            !other.table.origin.is_own()
                && told
                    .row
                    .dilution
                    .is_none_or(|it| other.row.dilution == Some(it))
        };
        let others = || self.all.iter().filter(same).filter(covers);
        let other = others().find(|other| self.same_index(told, **other));
        let other = other.or_else(|| others().next())?;
        let fit = other.row.times.fit()?;
        let words = format!("the slope of another table: {}", other.table.grounds.source);
        Some((fit.rate, Grounds::new(other.table.grounds.standing, words)))
    }

    /// Whether two rows are for film exposed alike; a row that names no index is for the speed on the box.
    fn same_index(&self, one: Told<'_>, other: Told<'_>) -> bool {
        let boxed = self.tables.meant.box_speed();
        let of = |told: Told<'_>| told.row.speed.or(boxed);
        of(one).is_none() || of(other).is_none() || of(one) == of(other)
    }

    /// The same time for the agitation that is meant.
    pub(super) fn agitated(&self, walk: &mut Walk, told: Told<'_>) -> Result<(), Problem> {
        let given = &self.at.given;
        let wanted = given.choice("agitation")?.and_then(Agitation::worded);
        match (wanted, told.table.agitation) {
            (Some(Agitation::Intermittent), Some(Agitation::Continuous)) => {
                let says = "the table is for agitation all the time, and nothing is told for a tank: \
                            take the time as it is for a tray or rotary tube, or look for another table";
                Err(given.problem("agitation", says))
            }
            (Some(Agitation::Continuous), was @ (None | Some(Agitation::Intermittent))) => {
                let shorter = continuous(walk.time, Agitation::Intermittent)?;
                walk.time = shorter.value;
                walk.steps.extend(shorter.steps);
                if Grounds::usual().standing < walk.grounds.standing {
                    walk.grounds = Grounds::usual();
                }
                if was.is_none() {
                    let words = "the table does not say how film is agitated: agitation now and then is \
                                 assumed";
                    walk.remarks.push(remark(Concern::Warning, words));
                }
                Ok(())
            }
            _ => Ok(()),
        }
    }

    fn remarked(&self, walk: &mut Walk, told: Told<'_>) {
        if let Some(dilution) = told.row.dilution
            && told.table.dilution_remembered
        {
            let step = Step::new("dilution", Amount::words(dilution.to_string()));
            let grounds = Grounds::remembered("dilution of the table, from memory");
            walk.steps.push(step.on(grounds));
        }
        if !told.table.note.is_empty() {
            walk.remarks.push(remark(Concern::Note, &told.table.note));
        }
        if walk.time.value() < EVEN_FROM {
            let words = "shorter than 5 min development becomes uneven: dilute further or work cooler \
                         where a time is told for it";
            walk.remarks.push(remark(Concern::Warning, words));
        }
    }

    /// What the other tables say of the same run.
    fn others(&self, told: Told<'_>) -> Vec<Line> {
        let same = |other: &&Told<'_>| {
            !std::ptr::eq(other.table, told.table)
                && (other.row.dilution == told.row.dilution || told.row.dilution.is_none())
                && self.same_index(told, **other)
        };
        let mut others = Vec::new();
        for other in self.all.iter().filter(same) {
            let Ok(walk) = self.walk(*other) else {
                continue;
            };
            let source = other.table.grounds.source.split(',').next().unwrap_or("");
            let name = match (source, other.row.size.as_str()) {
                ("", _) => format!("or, {}", other.table.grounds.standing),
                (source, "") => format!("or, {source}"),
                (source, size) => format!("or, {source}, {size}"),
            };
            let line = Line::new(name, Amount::Time(to_the_second(walk.time)));
            others.push(line.on(walk.grounds));
            if others.len() == OTHERS {
                break;
            }
        }
        others
    }
}

pub(super) fn remark(concern: Concern, words: &str) -> Remark {
    Remark {
        concern,
        words: words.to_owned(),
    }
}
