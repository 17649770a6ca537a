//! What one strip tells.

use super::typed::typed;
use super::{remarked, tablet};
use crate::craft::sensitometry::{Curve, Speed, Straight, Tablet, Whole, degrees, nominal_speed};
use crate::craft::{Amount, Concern, Density, Figure, Grounds, Impossible};
use crate::figures::{Answer, Chart, Given, Line, Mark, Problem, Series};

/// Points of a drawn curve between its ends.
const DRAWN: usize = 120;
/// From the speed point to the second point of ISO 6, in log exposure.
const TO_N: f64 = 1.30;

pub(super) fn answer(given: &Given<'_>) -> Result<Answer, Problem> {
    let typed = typed(given)?;
    let [strip] = typed.sheet.strips.as_slice() else {
        let says = format!(
            "there are {} strips: give one, or ask for gradients to compare several times",
            typed.sheet.strips.len()
        );
        return Err(given.problem("readings", says));
    };
    let curve = typed.curve(strip, given.may("base_fog", Density::parse)?, given)?;
    Ok(remarked(
        self::strip(&curve, &typed.tablet),
        &typed.sheet.remarks,
    ))
}

/// What the curve of one strip tells, read behind a tablet.
#[must_use]
pub fn strip(curve: &Curve, tablet: &Tablet) -> Answer {
    let own = Figure::new((), Grounds::own("readings of a step tablet"));
    let mut answer = Answer::of(own.step(tablet::step(tablet)), |()| Vec::new());
    let whole = Whole::of(curve);
    let speed = add(&mut answer, "speed", whole.speed, of_speed);
    let plain = |name: &'static str| {
        move |value: &f64| vec![Line::new(name, Amount::number(*value, "", 3))]
    };
    add(
        &mut answer,
        "average gradient",
        whole.gradient,
        plain("average gradient"),
    );
    add(
        &mut answer,
        "contrast index",
        whole.index,
        plain("contrast index"),
    );
    add(&mut answer, "gamma", whole.gamma, |it: &Straight| {
        vec![Line::new("gamma", Amount::number(it.gamma, "", 3))]
    });
    let own = || Grounds::own("read from the strip");
    answer = answer
        .result(Line::new("base plus fog", Amount::number(whole.base_fog, "", 2)).on(own()))
        .result(Line::new("density range", Amount::number(whole.range, "", 2)).on(own()));
    answer = remarked(answer, &curve.remarks);
    answer.chart(chart(curve, speed))
}

/// Puts the results and steps of a measure into the answer, or why there is none.
fn add<T>(
    answer: &mut Answer,
    name: &str,
    figure: Result<Figure<T>, Impossible>,
    lines: impl FnOnce(&T) -> Vec<Line>,
) -> Option<T> {
    match figure {
        Ok(figure) => {
            let last = figure.steps.last().and_then(|step| step.grounds.clone());
            let grounds = last.unwrap_or_else(|| figure.grounds.clone());
            let lines = lines(&figure.value).into_iter();
            answer
                .results
                .extend(lines.map(|line| line.on(grounds.clone())));
            answer.steps.extend(figure.steps);
            answer.remarks.extend(figure.remarks);
            Some(figure.value)
        }
        Err(why) => {
            answer.remarks.push(crate::craft::Remark {
                concern: Concern::Warning,
                words: format!("no {name}: {why}"),
            });
            None
        }
    }
}

fn of_speed(found: &Speed) -> Vec<Line> {
    let mut lines = Vec::new();
    if let Some(speed) = found.speed {
        let name = if found.as_iso {
            "ISO speed"
        } else {
            "effective speed"
        };
        let nominal = nominal_speed(speed);
        if let Some(nominal) = nominal {
            lines.push(Line::new(name, Amount::Speed(nominal)));
        }
        let exact = if nominal.is_some() {
            "before rounding"
        } else {
            name
        };
        lines.push(Line::new(exact, Amount::number(speed, "", 1)));
        lines.push(Line::new(
            "in degrees",
            Amount::number(degrees(speed), "°", 1),
        ));
    }
    lines.push(Line::new(
        "speed point",
        Amount::number(found.log_h, "log H", 2),
    ));
    if let Some(rise) = found.rise {
        lines.push(Line::new("over the next 1.30", Amount::number(rise, "", 2)));
    }
    lines
}

/// A curve as a line that is dense enough to be drawn.
#[must_use]
pub fn drawn(curve: &Curve) -> Vec<(f64, f64)> {
    let (start, end) = curve.ends();
    let along = (0..=DRAWN).map(|at| start + (end - start) * at as f64 / DRAWN as f64);
    along.filter_map(|x| Some((x, curve.density(x)?))).collect()
}

fn chart(curve: &Curve, speed: Option<Speed>) -> Chart {
    let read = curve
        .points
        .iter()
        .map(|point| (point.log_h, point.density));
    let marks = speed.into_iter().flat_map(|speed| {
        let mark = |x, name: &'static str| Mark {
            x,
            name: name.into(),
        };
        let second = speed.rise.map(|_| mark(speed.log_h + TO_N, "1.30 on"));
        std::iter::once(mark(speed.log_h, "speed point")).chain(second)
    });
    let x = if curve.absolute {
        "log exposure, lx s"
    } else {
        "log exposure against the bare light"
    };
    Chart {
        x: x.into(),
        y: "density".into(),
        series: vec![
            Series {
                name: "readings".into(),
                points: read.collect(),
            },
            Series {
                name: "curve".into(),
                points: drawn(curve),
            },
        ],
        marks: marks.collect(),
    }
}
