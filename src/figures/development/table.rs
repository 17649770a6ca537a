//! The time for a film in a developer as a figure of its own: the chain, what it rests on, and every row
//! there is beside it.

use super::chain::{Reckoned, Situation, Tables, reckon_by, temperature};
use super::rows::{Told, listed};
use crate::craft::{Amount, Celsius};
use crate::figures::{Answer, Chart, Given, Line, Mark, Problem, Series};

pub(super) fn answer(given: &Given<'_>) -> Result<Answer, Problem> {
    let at = Situation::typed(*given);
    let tables = Tables::of(given)?;
    let (Reckoned { answer, .. }, told) = reckon_by(&at, &tables)?;
    let mut answer = answer;
    let others = answer.results.split_off(2);
    answer.results.extend(results(told, &tables));
    answer.results.extend(others);
    let answer = answer.table(listed(&tables.rows(given)));
    Ok(match chart(told, temperature(given)?) {
        Some(chart) => answer.chart(chart),
        None => answer,
    })
}

/// What the row says besides its time.
fn results(told: Told<'_>, tables: &Tables<'_>) -> Vec<Line> {
    let dilution = match told.row.dilution {
        Some(dilution) => format!(" {dilution}"),
        None => String::new(),
    };
    let what = format!(
        "{} in {}{dilution}",
        tables.meant.film_name, tables.meant.developer_name
    );
    let mut lines = vec![Line::new("film and developer", Amount::words(what))];
    let mut said = |name: &'static str, words: String| {
        if !words.is_empty() {
            lines.push(Line::new(name, Amount::words(words)).on(told.table.grounds.clone()));
        }
    };
    said(
        "exposed at",
        told.row.speed.map(|it| it.to_string()).unwrap_or_default(),
    );
    said("contrast", told.row.contrast.clone());
    said("told for", told.table.vessel.clone());
    if let Some(fit) = told.row.times.fit() {
        let percent = 100.0 * (1.0 - fit.rate.factor(1.0));
        let line = Line::new("a degree warmer takes off", Amount::number(percent, "%", 1));
        lines.push(line.on(told.table.grounds.clone()));
    }
    lines
}

/// The cells of a row against temperature.
fn chart(told: Told<'_>, temperature: Celsius) -> Option<Chart> {
    let points: Vec<(f64, f64)> = told
        .row
        .times
        .cells()
        .map(|cell| (cell.at.value(), cell.time.value() / 60.0))
        .collect();
    (points.len() > 1).then(|| Chart {
        x: "temperature, C".into(),
        y: "time, min".into(),
        series: vec![Series {
            name: "told".into(),
            points,
        }],
        marks: vec![Mark {
            x: temperature.value(),
            name: temperature.to_string().into(),
        }],
    })
}
