//! More and less contrast, and where a test of one's own begins.

use crate::craft::development::contrast::{
    Expansion, Grain, Span, changed, exposure_with, slightly, trial as first_times,
};
use crate::craft::{Amount, Figure, Grounds, Seconds};
use crate::figures::{Answer, Given, Line, Problem, Table};

use super::{to_the_second, whole_changes};

pub(super) fn answer(given: &Given<'_>) -> Result<Answer, Problem> {
    let time = given.must("time", Seconds::parse)?;
    let grain = given.choice("grain")?.and_then(Grain::worded);
    let grain = grain.unwrap_or(Grain::Classic);
    let answer = match given.text("by").map(str::to_lowercase).as_deref() {
        Some("less") => spanned(slightly(time, false)?)?,
        Some("more") => spanned(slightly(time, true)?)?,
        _ => {
            let by = given.may("by", Expansion::parse)?;
            let by = by.unwrap_or(Expansion::NORMAL);
            let answer = spanned(changed(time, by, grain)?)?;
            with_exposure(answer, by)
        }
    };
    let rows: Result<Vec<_>, Problem> = whole_changes().map(|by| row(time, by, grain)).collect();
    Ok(answer.table(Table {
        heads: vec![
            "change".into(),
            "from".into(),
            "to".into(),
            "exposure".into(),
        ],
        rows: rows?,
    }))
}

fn spanned(figure: Figure<Span>) -> Result<Answer, Problem> {
    let span = figure.value;
    let middle = to_the_second(span.middle()?);
    let grounds = figure.grounds.clone();
    Ok(Answer::of(figure, |span| {
        let time = |name, time| Line::new(name, Amount::Time(time)).on(grounds.clone());
        if span.least == span.most {
            return vec![time("develop", middle)];
        }
        vec![
            time("begin with", middle),
            time("from", to_the_second(span.least)),
            time("to", to_the_second(span.most)),
        ]
    }))
}

fn with_exposure(answer: Answer, by: Expansion) -> Answer {
    let Some(exposure) = exposure_with(by) else {
        return answer;
    };
    let mut answer = answer;
    let line = Line::new("exposure with it", Amount::Stops(exposure.value));
    answer.results.push(line.on(exposure.grounds));
    answer.steps.extend(exposure.steps);
    answer
}

fn row(time: Seconds, by: Expansion, grain: Grain) -> Result<Vec<Amount>, Problem> {
    let span = changed(time, by, grain)?.value;
    let exposure = exposure_with(by).map(|it| Amount::Stops(it.value));
    Ok(vec![
        Amount::words(by.to_string()),
        Amount::Time(to_the_second(span.least)),
        Amount::Time(to_the_second(span.most)),
        exposure.unwrap_or_else(|| Amount::words("-")),
    ])
}

pub(super) fn trial(given: &Given<'_>) -> Result<Answer, Problem> {
    let figure = first_times(given.must("time", Seconds::parse)?)?;
    let grounds: Grounds = figure.grounds.clone();
    Ok(Answer::of(figure, |trial| {
        let line =
            |name, time| Line::new(name, Amount::Time(to_the_second(time))).on(grounds.clone());
        vec![
            line("try first", trial.first),
            line("if Zone IX prints white", trial.next),
        ]
    }))
}
