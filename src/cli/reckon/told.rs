//! The answer of a figure in words and as a document.
//!
//! In words the results come first, then how they came about, then what to look at and what all of it
//! rests on. Promises: what was remembered says so beside its number, and over a table or a chart.

use serde_json::Value;

use super::Typed;
use crate::cli::answer::Answer;
use crate::craft::{Amount, Concern, Remark, Standing, Step};
use crate::export::columns::in_columns;
use crate::export::plot::{Pens, plot};
use crate::export::{shown_line, wrap};
use crate::figures::{self, Recipe};

/// Cells of a line.
const WIDE: usize = 78;
/// Lines of the field of a chart.
const HIGH: usize = 14;

/// The answer with its document, which has all its members whether or not there is something in them.
pub(super) fn answer(recipe: &Recipe, given: &Typed, figure: &figures::Answer) -> Answer {
    let mut answer = Answer::said(words(figure))
        .with("figure", recipe.word)
        .with("title", recipe.title)
        .with("given", serde_json::json!(given))
        .with("standing", figure.standing().word())
        .with("domain", figure.domain)
        .with("table", Value::Null)
        .with("chart", Value::Null);
    if let Ok(Value::Object(said)) = serde_json::to_value(figure) {
        answer.document.extend(said);
    }
    answer
}

/// The answer in words.
pub(super) fn words(figure: &figures::Answer) -> String {
    let mut parts = vec![results(figure)];
    if !figure.steps.is_empty() {
        parts.push(steps(&figure.steps));
    }
    let remarks = figure.remarks.iter().map(remark);
    parts.push(remarks.collect());
    let standing = figure.standing();
    if let Some(table) = &figure.table {
        parts.push(warned(standing, "table", tabled(table)));
    }
    if let Some(chart) = &figure.chart {
        let lines = plot(chart, WIDE, HIGH, Pens::Fine).into_iter();
        let lines = lines.map(|line| line.into_iter().map(|(text, _)| text).collect());
        parts.push(warned(standing, "chart", lines.collect()));
    }
    parts.push(grounds(figure));
    parts.retain(|part| !part.is_empty());
    parts.join("\n")
}

/// Lines, and over them that some of the numbers are remembered, if they are.
fn warned(standing: Standing, what: &str, lines: Vec<String>) -> String {
    let mut text = String::new();
    if standing == Standing::Remembered {
        text.push_str(&format!(
            "this {what} rests on remembered numbers, still to be confirmed\n"
        ));
    }
    for line in lines {
        text.push_str(&line);
        text.push('\n');
    }
    text
}

fn results(figure: &figures::Answer) -> String {
    let rows: Vec<Vec<String>> = figure
        .results
        .iter()
        .map(|line| {
            vec![
                line.name.to_string(),
                line.amount.to_string(),
                figure.standing_of(line).word().to_owned(),
            ]
        })
        .collect();
    lines_of(in_columns(&[], &rows, usize::MAX))
}

/// The steps in columns; where the working makes the lines too long, it goes under each step.
fn steps(steps: &[Step]) -> String {
    let text = |amount: &Amount| amount.to_string();
    let row = |step: &Step| {
        vec![
            step.name.to_string(),
            text(&step.amount),
            step.brings.as_ref().map(text).unwrap_or_default(),
            match &step.grounds {
                Some(grounds) => grounds.standing.word().to_owned(),
                None => String::new(),
            },
            step.working.clone(),
        ]
    };
    let heads = ["step", "amount", "so far", "", "working"].map(str::to_owned);
    let rows: Vec<Vec<String>> = steps.iter().map(row).collect();
    let lines = in_columns(&heads, &rows, usize::MAX);
    if lines
        .iter()
        .all(|line| crate::export::shown::width(line) <= WIDE)
    {
        return lines_of(lines);
    }
    let mut rows = rows;
    for row in &mut rows {
        row.truncate(4);
    }
    let lines = in_columns(heads.get(..4).unwrap_or(&heads), &rows, usize::MAX);
    let mut out = Vec::new();
    let mut lines = lines.into_iter();
    out.extend(lines.next());
    for (line, step) in lines.zip(steps) {
        out.push(line);
        if !step.working.is_empty() {
            let working = wrap(&step.working, WIDE - 4).into_iter();
            out.extend(working.map(|line| format!("    {line}")));
        }
    }
    lines_of(out)
}

fn remark(remark: &Remark) -> String {
    let sign = match remark.concern {
        Concern::Note => "note: ",
        Concern::Warning => "warning: ",
        Concern::Beyond => "beyond the source: ",
    };
    hanging(&format!("{sign}{}", remark.words))
}

fn tabled(table: &figures::Table) -> Vec<String> {
    let heads: Vec<String> = table.heads.iter().map(ToString::to_string).collect();
    let rows = table.rows.iter();
    let rows: Vec<Vec<String>> = rows
        .map(|row| row.iter().map(ToString::to_string).collect())
        .collect();
    in_columns(&heads, &rows, usize::MAX)
}

/// Where it holds and what it rests on.
fn grounds(figure: &figures::Answer) -> String {
    let mut text = String::new();
    if !figure.domain.is_empty() {
        text.push_str(&hanging(&format!("holds for: {}", figure.domain)));
    }
    for grounds in figure.sources() {
        let source = match (grounds.standing, grounds.source.is_empty()) {
            (_, false) => grounds.source.as_ref(),
            (Standing::Usual, true) => "common practice",
            (_, true) => continue,
        };
        text.push_str(&hanging(&format!("{}: {source}", grounds.standing)));
    }
    text
}

/// A sentence over as many lines as it takes, the later ones a little to the right.
fn hanging(sentence: &str) -> String {
    let lines = wrap(&shown_line(sentence), WIDE - 2);
    let lines = lines.into_iter().enumerate();
    lines_of(lines.map(|(at, line)| match at {
        0 => line,
        _ => format!("  {line}"),
    }))
}

fn lines_of(lines: impl IntoIterator<Item = String>) -> String {
    let mut text = String::new();
    for line in lines {
        text.push_str(&line);
        text.push('\n');
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::craft::{Figure, Grounds};
    use crate::figures::{Chart, Line, Series, Table};

    fn full() -> figures::Answer {
        let figure = Figure::new(2.0, Grounds::published("a data sheet, 2016"))
            .within("sheets of one size")
            .step(Step::new("metered", Amount::number(1.25, "s", 2)).working(
                "a reading that takes a good many words to tell where it came from, in full",
            ))
            .step(
                Step::new("filter", Amount::Factor(2.0))
                    .on(Grounds::remembered("an old table"))
                    .brings(Amount::number(2.5, "s", 2)),
            )
            .remark(Concern::Beyond, "the table ends at 100 s")
            .remark(Concern::Warning, "the sheet may move");
        let series = vec![Series {
            name: "1/4 s".into(),
            points: vec![(0.0, 0.1), (30.0, 0.2)],
        }];
        figures::Answer::of(figure, |value| {
            vec![Line::new("give", Amount::number(value, "s", 1))]
        })
        .table(Table {
            heads: vec!["film".into(), "time".into()],
            rows: vec![vec![Amount::words("FP4 Plus"), Amount::number(1.5, "s", 1)]],
        })
        .chart(Chart {
            x: "day".into(),
            y: "error, stops".into(),
            series,
            marks: Vec::new(),
        })
    }

    #[test]
    fn an_answer_is_told_in_full_and_what_is_remembered_says_so_everywhere() {
        let told = words(&full());
        let upto = told.find("error, stops").unwrap();
        assert_eq!(
            &told[..upto],
            "give  2 s  remembered

step     amount   so far
metered   1.25 s
    a reading that takes a good many words to tell where it came from, in full
filter   x2       2.5 s   remembered

beyond the source: the table ends at 100 s
warning: the sheet may move

this table rests on remembered numbers, still to be confirmed
film      time
FP4 Plus  1.5 s

this chart rests on remembered numbers, still to be confirmed
"
        );
        assert!(told.ends_with(
            "holds for: sheets of one size\npublished: a data sheet, 2016\nremembered: an old table\n"
        ));
    }

    #[test]
    fn a_document_has_all_its_members() {
        let recipe = figures::named("bellows").unwrap();
        let plain = figures::Answer::of(Figure::new(1.0, Grounds::usual()), |value| {
            vec![Line::new("factor", Amount::Factor(value))]
        });
        let document = answer(recipe, &Typed::new(), &plain).document;
        for key in [
            "figure", "given", "standing", "results", "steps", "remarks", "grounds", "domain",
            "table", "chart",
        ] {
            assert!(document.contains_key(key), "{key}");
        }
        let document = answer(recipe, &Typed::new(), &full()).document;
        assert_eq!(document["standing"], "remembered");
        assert!(document["chart"]["series"].is_array() && document["table"]["rows"].is_array());
    }
}
