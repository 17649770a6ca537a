//! Contrast by what is added to developer or sensitizer.

use super::super::{Answer, Ask, Book, Chapter, Given, Line, Problem, Recipe, Table};
use crate::craft::printing::contrast::{Between, Contrasts, read_rows};
use crate::craft::solutions::millilitres;
use crate::craft::{Amount, Grounds, Millilitres};

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
        ("table", "1 1.80, 2 1.65, 4 1.50"),
        ("scale", "1.58"),
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

fn agent(given: &Given<'_>) -> Result<Answer, Problem> {
    let between = given.choice("between")?.and_then(Between::worded);
    let between = between.unwrap_or(Between::Doublings);
    let table = typed_table(given, "table", between)?.ok_or_else(|| given.missing("table"))?;
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
    let answer = answer.table(Table {
        heads: vec!["addition".into(), "exposure scale".into()],
        rows: table.rows().iter().map(row).collect(),
    });
    Ok(super::metals::with_cautions(given, answer, &["agent"]))
}
