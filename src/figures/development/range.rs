//! The gradient that a subject and a way of printing want.

use crate::craft::development::contrast::Expansion;
use crate::craft::development::gradient::{
    AVERAGE, AVERAGE_RANGE, FLARE, USUAL_FLARE, Wanted, in_stops, of_stops, range_for, target,
};
use crate::craft::{Amount, Concern, Density, Grounds, Step};
use crate::figures::{Answer, Given, Line, Problem, Table};
use crate::reference::{self, Process};

use super::whole_changes;

/// What a print wants.
struct Scale {
    least: f64,
    most: f64,
    what: String,
    grounds: Grounds,
}

pub(super) fn answer(given: &Given<'_>) -> Result<Answer, Problem> {
    let scale = scale(given)?;
    let (flare, flare_grounds) = match given.number("flare")? {
        Some(flare) => (flare, None),
        None => (FLARE, Some(USUAL_FLARE)),
    };
    let (subject_range, subject) = subject(given)?;
    let at = |density_range: f64, subject_range: f64| {
        target(Wanted {
            density_range,
            subject_range,
            flare,
        })
    };
    let figure = at((scale.least + scale.most) / 2.0, subject_range)?;
    let gradient = |value: f64| Amount::number(value, "", 2);
    let mut results = vec![
        Line::new("gradient", gradient(figure.value)),
        Line::new("density range", range(&scale)).on(scale.grounds.clone()),
        Line::new(
            "subject range",
            Amount::number(in_stops(subject_range), "stops", 2),
        ),
    ];
    if scale.most > scale.least {
        let (least, most) = (
            at(scale.least, subject_range)?,
            at(scale.most, subject_range)?,
        );
        results.insert(1, Line::new("from", gradient(least.value)));
        results.insert(2, Line::new("to", gradient(most.value)));
    }
    let mut flare_step = Step::new("flare", Amount::number(flare, "", 2));
    flare_step.grounds = flare_grounds;
    let mut answer = Answer::of(figure, |_| results);
    let density_step = Step::new(scale.what.clone(), range(&scale)).on(scale.grounds.clone());
    answer
        .steps
        .splice(0..0, [density_step, subject, flare_step]);
    let rows: Vec<Vec<Amount>> = whole_changes()
        .filter_map(|by| {
            let subject_range = range_for(by);
            let (least, most) = (
                at(scale.least, subject_range),
                at(scale.most, subject_range),
            );
            Some(vec![
                Amount::words(by.to_string()),
                Amount::number(in_stops(subject_range), "stops", 1),
                gradient(least.ok()?.value),
                gradient(most.ok()?.value),
            ])
        })
        .collect();
    if scale.most > scale.least {
        answer = answer.remark(
            Concern::Note,
            "the way of printing is told with a range: the gradient is that of its middle",
        );
    }
    Ok(answer.table(Table {
        heads: vec![
            "change".into(),
            "subject".into(),
            "from".into(),
            "to".into(),
        ],
        rows,
    }))
}

fn range(scale: &Scale) -> Amount {
    if scale.most > scale.least {
        return Amount::words(format!("{:.2} to {:.2}", scale.least, scale.most));
    }
    Amount::number(scale.least, "", 2)
}

/// The density range that is wanted: as typed, else that of the way of printing.
fn scale(given: &Given<'_>) -> Result<Scale, Problem> {
    if let Some(typed) = given.may("density_range", Density::parse)? {
        return Ok(Scale {
            least: typed.value(),
            most: typed.value(),
            what: "density range wanted".to_owned(),
            grounds: Grounds::own("as typed"),
        });
    }
    let Some(typed) = given.text("process") else {
        let says = "name a way of printing, such as cyanotype, or give a density range";
        return Err(given.problem("process", says));
    };
    let (what, (least, most), grounds) = told_range(typed, given)?;
    Ok(Scale {
        least,
        most,
        what,
        grounds,
    })
}

/// The density range that a way of printing wants, what it is told of and what that rests on.
pub(super) fn told_range(
    typed: &str,
    given: &Given<'_>,
) -> Result<(String, (f64, f64), Grounds), Problem> {
    let reference = given.desk().reference;
    let Some(process) = reference.process_named(typed) else {
        let names: Vec<&str> = reference
            .processes()
            .iter()
            .map(|it| it.id.as_str())
            .collect();
        let says = format!(
            "no way of printing {typed}, or more than one; there are {}; or give a density range",
            names.join(", ")
        );
        return Err(given.problem("process", says));
    };
    let Some(told) = told(process) else {
        let says = format!(
            "no exposure scale is told for {}: give a density range",
            process.name
        );
        return Err(given.problem("process", says));
    };
    let what = format!("{}, exposure scale {}", process.name, told.of);
    let grounds = Grounds::new(told.standing, told.source.clone());
    Ok((what.trim_end().to_owned(), told.range, grounds))
}

/// The most trusted exposure scale of a process; of equals the first.
fn told(process: &Process) -> Option<&reference::Scale> {
    let scales = process.scales().iter();
    scales.rev().max_by_key(|scale| scale.standing)
}

/// The subject's range, and the step that says where it comes from.
fn subject(given: &Given<'_>) -> Result<(f64, Step), Problem> {
    let stops = given.number("stops")?;
    let by = given.may("by", Expansion::parse)?;
    let shown = |range: f64| Amount::number(range, "", 2);
    Ok(match (stops, by) {
        (Some(_), Some(_)) => {
            let says =
                "the subject is given twice, in stops and as a change: leave one of them out";
            return Err(given.problem("by", says));
        }
        (Some(stops), None) => {
            let range = of_stops(stops);
            let step = Step::new("subject range", shown(range));
            (range, step.working(format!("{stops} stops x 0.301")))
        }
        (None, Some(by)) => {
            let range = range_for(by);
            let step = Step::new(format!("subject for {by}"), shown(range));
            let working = format!("2.20 less 0.30 a zone, {by}");
            (range, step.working(working).on(AVERAGE))
        }
        (None, None) => {
            let step = Step::new("average subject", shown(AVERAGE_RANGE));
            (AVERAGE_RANGE, step.on(AVERAGE))
        }
    })
}
