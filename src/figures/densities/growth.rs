//! A time from two runs.

use crate::craft::sensitometry::Growth;
use crate::craft::sensitometry::readings::minutes;
use crate::craft::{Amount, Seconds};
use crate::figures::{Answer, Chart, Given, Line, Mark, Problem, Series};

const MINUTE: f64 = 60.0;
const DRAWN: usize = 60;

pub(super) fn answer(given: &Given<'_>) -> Result<Answer, Problem> {
    let gradient = |key| given.number(key)?.ok_or_else(|| given.missing(key));
    let one = (given.must("time1", minutes)?, gradient("gradient1")?);
    let other = (given.must("time2", minutes)?, gradient("gradient2")?);
    let wanted = given.number("wanted")?;
    let law = Growth::through(one, other)?;
    let found = law.value;
    let mut answer = Answer::of(law, |law| {
        vec![
            Line::new("contrast ends at", Amount::number(law.limit, "", 2)),
            Line::new("rate", Amount::number(law.rate, "1/min", 3)),
        ]
    });
    let mut marks = Vec::new();
    let mut longest = one.0.value().max(other.0.value());
    if let Some(wanted) = wanted {
        let time = found
            .time_for(wanted, Some((one.0, other.0)))
            .map_err(|why| given.problem("wanted", why.to_string()))?;
        let whole = Seconds::new(time.value.value().round()).unwrap_or(time.value);
        let line = Line::new(format!("time for {wanted:.2}"), Amount::Time(whole));
        answer.results.insert(0, line);
        answer.steps.extend(time.steps);
        answer.remarks.extend(time.remarks);
        longest = longest.max(time.value.value());
        marks.push(Mark {
            x: time.value.value() / MINUTE,
            name: format!("{wanted:.2}").into(),
        });
    }
    let drawn = (1..=DRAWN).filter_map(|at| {
        let time = Seconds::new(1.2 * longest * at as f64 / DRAWN as f64).ok()?;
        Some((time.value() / MINUTE, found.gradient(time)))
    });
    Ok(answer.chart(Chart {
        x: "minutes".into(),
        y: "gradient".into(),
        series: vec![
            Series {
                name: "runs".into(),
                points: runs(one, other),
            },
            Series {
                name: "law".into(),
                points: drawn.collect(),
            },
        ],
        marks,
    }))
}

/// The two runs in order of time, in minutes.
fn runs(one: (Seconds, f64), other: (Seconds, f64)) -> Vec<(f64, f64)> {
    let mut runs = vec![
        (one.0.value() / MINUTE, one.1),
        (other.0.value() / MINUTE, other.1),
    ];
    runs.sort_by(|one, other| one.0.total_cmp(&other.0));
    runs
}
