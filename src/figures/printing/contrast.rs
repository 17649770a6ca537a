//! Contrast by what is added to developer or sensitizer.

use super::super::{Answer, Ask, Book, Chapter, Given, Line, Problem, Recipe, Table};
use crate::craft::printing::contrast::{Between, Contrasts, read_rows};
use crate::craft::solutions::millilitres;
use crate::craft::{Amount, Grounds, Millilitres};
use crate::reference::{Contrast, Process};

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[Recipe {
    word: "agent",
    title: "contrast by an addition",
    chapter: Chapter::Coating,
    about: "How much of a contrast agent gives the exposure scale a negative wants, from a table of steps \
            that were printed: dichromate in a litre of developer, drops of chloroplatinate, percent of \
            the chlorate solution. Between two rows it is interpolated, beyond the last nothing is known. \
            Print a step tablet at each addition to make a table of your own.",
    asks: &[
        Ask::typed(
            "table",
            "table",
            "additions with the exposure scale each gave, 1 1.80, 2 1.65, 4 1.50",
        ),
        Ask::typed(
            "process",
            "or process",
            "or a process of which such a table is told, palladium",
        ),
        Ask::typed("scale", "scale wanted", "exposure scale wanted, 1.58"),
        Ask::typed(
            "amount",
            "or amount",
            "or an addition, to find its scale, 3",
        ),
        Ask::typed(
            "between",
            "between rows",
            "how it is read between rows: doublings for an agent, straight for shares, doublings",
        )
        .from(Book::Choice(Between::WORDS)),
        Ask::typed(
            "volume",
            "developer",
            "how much developer, where the table is ml for a litre, 2 l",
        ),
        Ask::typed(
            "agent",
            "agent",
            "what is added, for its cautions, potassium dichromate",
        ),
    ],
    example: &[
        ("process", "palladium"),
        ("scale", "1.58"),
        ("volume", "2 l"),
        ("agent", "dichromate"),
    ],
    answer: agent,
}];

/// A table that was typed.
pub(super) fn typed_table(
    given: &Given<'_>,
    key: &'static str,
    between: Between,
) -> Result<Option<Contrasts>, Problem> {
    let Some(text) = given.text(key) else {
        return Ok(None);
    };
    let unread = |why: crate::craft::Impossible| given.problem(key, why.to_string());
    let rows = read_rows(text).map_err(unread)?;
    let table = Contrasts::new(&rows, between, Grounds::own("the table as typed"));
    table.map(Some).map_err(unread)
}

/// The process that was named, if one was.
pub(super) fn process<'a>(given: &Given<'a>) -> Result<Option<&'a Process>, Problem> {
    let Some(typed) = given.text("process") else {
        return Ok(None);
    };
    let reference = given.desk().reference;
    let found = reference.process_named(typed);
    found.map(Some).ok_or_else(|| {
        let known = reference.processes().iter().map(|it| it.name.as_str());
        let known: Vec<&str> = known.collect();
        let known = known.join(", ");
        given.problem(
            "process",
            format!("\"{typed}\" is no process here, or could be more than one: {known}"),
        )
    })
}

/// A control of contrast as a table that can be read between its rows; nothing if its rows are words.
pub(super) fn readable(contrast: &Contrast) -> Option<Contrasts> {
    let rows: Vec<(f64, f64)> = contrast
        .points()
        .map(|(at, (least, most))| (at, 0.5 * (least + most)))
        .collect();
    // An agent works by its doublings, a share or a filter by itself.
    let by_volume = ["ml", "drops"].contains(&contrast.unit.as_str());
    let between = if by_volume && rows.iter().all(|(at, _)| *at > 0.0) {
        Between::Doublings
    } else {
        Between::Straight
    };
    let grounds = Grounds::new(contrast.standing, contrast.source.clone());
    Contrasts::new(&rows, between, grounds).ok()
}

/// The table that was typed, or the first that is told of the process, with what its settings are.
fn table<'a>(given: &Given<'a>) -> Result<(Contrasts, Option<&'a Contrast>), Problem> {
    let between = given.choice("between")?.and_then(Between::worded);
    let typed = typed_table(given, "table", between.unwrap_or(Between::Doublings))?;
    match (typed, process(given)?) {
        (Some(_), Some(_)) => Err(given.problem(
            "process",
            "a table of your own goes before what is told: give the table or the process",
        )),
        (Some(table), None) => Ok((table, None)),
        (None, None) => Err(given.missing("table")),
        (None, Some(process)) => {
            let mut told = process.contrasts().iter();
            let found = told.find_map(|it| Some((readable(it)?, Some(it))));
            found.ok_or_else(|| {
                given.problem(
                    "process",
                    format!(
                        "no table of exposure scales by settings is told of {}: print step tablets and \
                         type your own",
                        process.name
                    ),
                )
            })
        }
    }
}

fn agent(given: &Given<'_>) -> Result<Answer, Problem> {
    let (table, told) = table(given)?;
    let volume = given.may("volume", Millilitres::parse)?;
    let (scale, amount) = (given.number("scale")?, given.number("amount")?);
    let in_volume = |lines: &mut Vec<Line>, setting: f64| {
        if let Some(volume) = volume {
            let ml = setting * volume.value() / 1000.0;
            lines.push(Line::new(format!("in {volume}"), millilitres(ml)));
        }
    };
    let answer = match (scale, amount) {
        (Some(scale), None) => Answer::of(table.find_setting(scale, "")?, |setting| {
            let mut lines = vec![Line::new("add", Amount::measured(setting, ""))];
            in_volume(&mut lines, setting);
            lines
        }),
        (None, Some(amount)) => Answer::of(table.find_scale(amount)?, |scale| {
            let mut lines = vec![Line::new("exposure scale", Amount::number(scale, "", 2))];
            in_volume(&mut lines, amount);
            lines
        }),
        (None, None) => return Err(given.missing("scale")),
        (Some(_), Some(_)) => {
            return Err(Problem::of_all(
                "the scale and the amount each settle the other: give one of them",
            ));
        }
    };
    let row = |(setting, scale): &(f64, f64)| {
        vec![
            Amount::measured(*setting, ""),
            Amount::number(*scale, "", 2),
        ]
    };
    let head = told.map_or("addition".to_owned(), |it| it.label.clone());
    let answer = answer.table(Table {
        heads: vec![head.into(), "exposure scale".into()],
        rows: table.rows().iter().map(row).collect(),
    });
    Ok(super::metals::with_cautions(given, answer, &["agent"]))
}
