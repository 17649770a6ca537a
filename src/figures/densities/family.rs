//! Times for N-2 to N+2 from a family of curves.

use super::typed::typed;
use super::{remarked, tablet};
use crate::craft::sensitometry::readings::{Strip, minutes};
use crate::craft::sensitometry::{
    Aim, Curve, Family, Measured, Reached, Tablet, aim, possible_error,
};
use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Seconds, Step};
use crate::figures::{Answer, Chart, Given, Line, Mark, Problem, Series, Table};

const MINUTE: f64 = 60.0;
/// How far a density is off when it is read to two places.
const READ_TO: f64 = 0.01;

/// What the aims are reckoned from where nothing was typed.
const GRADE_2: (f64, Grounds) = (
    1.05,
    Grounds::published(
        "S. Benskin, apug.org, post 1396476: range of a grade 2 paper (second-hand)",
    ),
);
const SUBJECT: (f64, Grounds) = (
    2.20,
    Grounds::published("S. Benskin, apug.org, post 1396476: average subject range (second-hand)"),
);
const FLARE: (f64, Grounds) = (
    0.40,
    Grounds::remembered("practical flare as in Lambrecht and Woodhouse, Way Beyond Monochrome"),
);

pub(super) fn answer(given: &Given<'_>) -> Result<Answer, Problem> {
    let typed = typed(given)?;
    let times = times(given, &typed.sheet.strips)?;
    let curves: Vec<(Seconds, Curve)> = times
        .into_iter()
        .zip(&typed.sheet.strips)
        .map(|(time, strip)| Ok((time, typed.curve(strip, None, given)?)))
        .collect::<Result<_, Problem>>()?;
    let read_to = possible_error(given.number("read_to")?.unwrap_or(READ_TO))
        .map_err(|why| given.problem("read_to", why.to_string()))?;
    let aims = Aims {
        wanted: given.number("wanted")?,
        range: given.number("range")?,
        subject: given.number("subject")?,
        flare: given.number("flare")?,
        read_to,
    };
    let found = Family::of(&curves)?;
    if let Some(wanted) = aims.wanted {
        // A wish that cannot be met is told beside its question.
        let time = found.time_for(wanted, read_to);
        time.map_err(|why| given.problem("wanted", why.to_string()))?;
    }
    let answer = family(&found, &typed.tablet, &aims)?;
    Ok(remarked(answer, &typed.sheet.remarks))
}

/// What is asked of a family.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Aims {
    /// One gradient whose time is wanted.
    pub wanted: Option<f64>,
    /// The density range the print wants; that of grade 2 if nothing is said.
    pub range: Option<f64>,
    /// Log luminance range of a subject that gets N; the average one if nothing is said.
    pub subject: Option<f64>,
    /// What flare takes of it; the usual if nothing is said.
    pub flare: Option<f64>,
    /// How far a single density may be off.
    pub read_to: f64,
}

impl Default for Aims {
    fn default() -> Aims {
        Aims {
            wanted: None,
            range: None,
            subject: None,
            flare: None,
            read_to: READ_TO,
        }
    }
}

/// The times a family tells, for a wanted gradient and for N-2 to N+2, each with how far it may be off.
///
/// # Errors
/// If a number that was given is none of its kind. A gradient outside the family is remarked.
pub fn family(family: &Family, tablet: &Tablet, aims: &Aims) -> Result<Answer, Impossible> {
    let own = Figure::new((), Grounds::own("readings of a step tablet"));
    let mut answer = Answer::of(own.step(tablet::step(tablet)), |()| Vec::new());
    answer.steps.extend(family.measured.iter().map(told));
    let read_to = possible_error(aims.read_to)?;
    let mut found = Found::default();
    if let Some(wanted) = aims.wanted {
        let name = format!("gradient {wanted:.3}");
        match family.time_for(wanted, read_to) {
            Ok(time) => found.take(&mut answer, name, wanted, time),
            Err(why) => answer = answer.remark(Concern::Beyond, format!("{name}: {why}")),
        }
    }
    let (range, range_step) = part(aims.range, "density range", GRADE_2);
    let (subject, subject_step) = part(aims.subject, "subject range", SUBJECT);
    let (flare, flare_step) = part(aims.flare, "flare", FLARE);
    answer.steps.extend([range_step, subject_step, flare_step]);
    for zones in -2..=2 {
        let Figure {
            value,
            steps,
            remarks,
            ..
        } = match aim(zones, range, subject, flare) {
            Ok(figure) => figure,
            // The shortest subjects may have nothing left after flare, and the longer ones still do.
            Err(why) if zones > 0 => {
                answer = answer.remark(Concern::Note, format!("N{zones:+}: {why}"));
                continue;
            }
            Err(why) => return Err(why),
        };
        answer.steps.extend(steps);
        answer = remarked(answer, &remarks);
        match family.time_for(value.gradient, read_to) {
            Ok(time) => found.take(&mut answer, aimed(&value), value.gradient, time),
            Err(why) => {
                answer = answer.remark(Concern::Beyond, format!("{}: {why}", value.name()));
            }
        }
    }
    match family.iso(read_to) {
        Ok(time) => {
            let gradient = family.gradient_at(time.value.time).unwrap_or(0.0);
            found.take(&mut answer, "contrast of ISO 6".into(), gradient, time);
        }
        Err(why) => answer = answer.remark(Concern::Note, why.to_string()),
    }
    let measured = Line::new("gradients measured", Amount::words(span(family)));
    answer = answer.result(measured);
    answer = remarked(answer, &family.remarks);
    answer = answer.chart(chart(family, found.marks));
    Ok(if found.rows.is_empty() {
        answer
    } else {
        let heads = ["for", "gradient", "time", "from", "to", "speed"];
        answer.table(Table {
            heads: heads.map(Into::into).into(),
            rows: found.rows,
        })
    })
}

/// What was read from the family.
#[derive(Default)]
struct Found {
    rows: Vec<Vec<Amount>>,
    marks: Vec<Mark>,
}

impl Found {
    fn take(&mut self, answer: &mut Answer, name: String, gradient: f64, time: Figure<Reached>) {
        let grounds = time.grounds.clone();
        let reached = time.value;
        let speed = match reached.speed {
            Some(speed) => Amount::number(speed, "", 0),
            None => Amount::words("-"),
        };
        self.rows.push(vec![
            Amount::words(name.clone()),
            Amount::number(gradient, "", 3),
            Amount::words(reached.time.clock()),
            Amount::words(reached.from.clock()),
            Amount::words(reached.to.clock()),
            speed,
        ]);
        self.marks.push(Mark {
            x: reached.time.value() / MINUTE,
            name: name.split(',').next().unwrap_or_default().to_owned().into(),
        });
        let whole = Seconds::new(reached.time.value().round()).unwrap_or(reached.time);
        let line = Line::new(name, Amount::Time(whole)).on(grounds);
        answer.results.push(line);
        answer.steps.extend(time.steps);
        answer.remarks.extend(time.remarks);
    }
}

fn aimed(aim: &Aim) -> String {
    format!("{}, gradient {:.2}", aim.name(), aim.gradient)
}

/// One number the aims are reckoned from, with the step that says where it comes from.
fn part(given: Option<f64>, name: &'static str, (usual, grounds): (f64, Grounds)) -> (f64, Step) {
    let value = given.unwrap_or(usual);
    let step = Step::new(name, Amount::number(value, "", 2));
    match given {
        Some(_) => (value, step),
        None => (value, step.on(grounds)),
    }
}

/// The time of each strip: as typed, else as the heads of the columns say.
fn times(given: &Given<'_>, strips: &[Strip]) -> Result<Vec<Seconds>, Problem> {
    let Some(text) = given.text("times") else {
        let headed: Option<Vec<Seconds>> = strips.iter().map(|strip| strip.time).collect();
        return headed.ok_or_else(|| given.missing("times"));
    };
    let parts = text
        .split([' ', ';', '\n', '\t'])
        .map(|it| it.trim_end_matches(','));
    let times = parts.filter(|it| !matches!(*it, "" | "min" | "minutes"));
    let times: Vec<Seconds> = times
        .map(|it| minutes(it).map_err(|why| given.problem("times", why.to_string())))
        .collect::<Result<_, _>>()?;
    if times.len() == strips.len() {
        return Ok(times);
    }
    let says = format!(
        "{} times for {} strips: give the minutes of each strip in the order of the strips, such as 4 \
         5.5 8",
        times.len(),
        strips.len()
    );
    Err(given.problem("times", says))
}

/// One measured time as a step.
fn told(it: &Measured) -> Step {
    let mut working = format!("base plus fog {:.2}", it.base_fog);
    if let Some(speed) = it.speed {
        working.push_str(&format!(", effective speed {speed:.0}"));
    }
    if let Some(index) = it.index {
        working.push_str(&format!(", contrast index {index:.3}"));
    }
    if let Some(rise) = it.rise {
        working.push_str(&format!(", {rise:.2} over 1.30"));
    }
    Step::new(
        format!("gradient at {}", it.time),
        Amount::number(it.gradient, "", 3),
    )
    .working(working)
}

/// The least and the most gradient that was measured.
fn span(family: &Family) -> String {
    match (family.measured.first(), family.measured.last()) {
        (Some(first), Some(last)) => format!("{:.3} to {:.3}", first.gradient, last.gradient),
        _ => String::new(),
    }
}

fn chart(family: &Family, marks: Vec<Mark>) -> Chart {
    let points = family.measured.iter();
    let points = points.map(|it| (it.time.value() / MINUTE, it.gradient));
    Chart {
        x: "minutes".into(),
        y: "average gradient".into(),
        series: vec![Series {
            name: "measured".into(),
            points: points.collect(),
        }],
        marks,
    }
}

/// The effective speeds of a family over time; nothing where exposures are not in lux seconds.
#[must_use]
pub fn speeds(family: &Family) -> Option<Chart> {
    let points = family.measured.iter();
    let points = points.map(|it| Some((it.time.value() / MINUTE, it.speed?)));
    Some(Chart {
        x: "minutes".into(),
        y: "effective speed".into(),
        series: vec![Series {
            name: "measured".into(),
            points: points.collect::<Option<_>>()?,
        }],
        marks: Vec::new(),
    })
}
