//! What a print costs, and what the bottles still make.

use super::super::{Answer, Ask, Chapter, Given, Line, Problem, Recipe, Table};
use super::coating::DROPPER;
use super::{UNCALIBRATED, dropper};
use crate::craft::printing::cost::{Stock, left_after, of_a_print, read_items};
use crate::craft::printing::mixing::read_parts;
use crate::craft::solutions::millilitres;
use crate::craft::{Amount, Concern};

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "print-cost",
        title: "what a print costs",
        chapter: Chapter::Coating,
        about: "The sum of what goes into one print, each part with the price you paid: so many drops of \
                a bottle, a sheet or a part of a sheet of paper. Prices are yours in any currency; none \
                is known here. Count the prints that failed too, if you want to know what a good one \
                costs.",
        asks: &[
            Ask::typed(
                "parts",
                "parts",
                "each with its price, palladium 24 drops at 90 per 25 ml, paper 1/4 at 8",
            ),
            DROPPER,
            Ask::typed(
                "good",
                "good prints",
                "how many of how many prints were good, 2 of 3",
            ),
        ],
        example: &[(
            "parts",
            "palladium 24 drops at 90 per 25 ml, paper 1/4 at 8",
        )],
        answer: print_cost,
    },
    Recipe {
        word: "bottles",
        title: "prints that are left in the bottles",
        chapter: Chapter::Coating,
        about: "What some prints take out of the bottles, how many more prints each one makes, and which \
                runs out first. Bottles in millilitres, what a print takes in drops, by the same names.",
        asks: &[
            Ask::typed(
                "bottles",
                "bottles",
                "millilitres in each, A 50, B 50, palladium 25",
            ),
            Ask::typed(
                "print",
                "a print takes",
                "drops of each, A 14, B 10, palladium 24",
            ),
            Ask::typed(
                "prints",
                "prints",
                "prints made of them so far or planned, 5",
            ),
            DROPPER,
        ],
        example: &[
            ("bottles", "A 50, palladium 25"),
            ("print", "A 24, palladium 24"),
            ("prints", "5"),
        ],
        answer: bottles,
    },
];

fn print_cost(given: &Given<'_>) -> Result<Answer, Problem> {
    let (per_ml, calibrated) = dropper(given)?;
    let text = given.text("parts").ok_or_else(|| given.missing("parts"))?;
    let unread = |why: crate::craft::Impossible| given.problem("parts", why.to_string());
    let items = read_items(text, per_ml).map_err(unread)?;
    let figure = of_a_print(&items).map_err(unread)?;
    let sum = figure.value;
    let mut answer = Answer::of(figure, |sum| {
        vec![Line::new("a print", Amount::number(sum, "", 2))]
    });
    if let Some((good, made)) = good(given)? {
        let each = sum * made / good;
        answer = answer.result(Line::new("a good print", Amount::number(each, "", 2)));
    }
    if !calibrated && text.contains("drop") {
        answer = answer.remark(Concern::Note, UNCALIBRATED);
    }
    Ok(answer)
}

/// `2 of 3`.
fn good(given: &Given<'_>) -> Result<Option<(f64, f64)>, Problem> {
    let Some(text) = given.text("good") else {
        return Ok(None);
    };
    let parted = text.split_once("of").or_else(|| text.split_once('/'));
    let read = parted.and_then(|(good, made)| {
        let good = crate::craft::number(good).ok()?;
        Some((good, crate::craft::number(made).ok()?))
    });
    read.filter(|(good, made)| *good > 0.0 && made >= good && *made <= 1e6)
        .map(Some)
        .ok_or_else(|| given.problem("good", "write how many of how many were good, 2 of 3"))
}

fn bottles(given: &Given<'_>) -> Result<Answer, Problem> {
    let (per_ml, calibrated) = dropper(given)?;
    let list = |key: &'static str, such_as: &str| {
        let text = given.text(key).ok_or_else(|| given.missing(key))?;
        read_parts(text, per_ml).map_err(|_| {
            let says = format!("write a name and a number for each: {such_as}");
            given.problem(key, says)
        })
    };
    let bottles = list("bottles", "A 50, B 50, palladium 25")?;
    let print = list("print", "A 14, B 10, palladium 24")?;
    let mut stocks = Vec::new();
    for taken in &print {
        let bottle = bottles
            .iter()
            .find(|it| it.name.eq_ignore_ascii_case(&taken.name));
        let bottle = bottle.ok_or_else(|| {
            let says = format!(
                "there is no bottle called {}: name it there too",
                taken.name
            );
            given.problem("bottles", says)
        })?;
        stocks.push(Stock {
            name: bottle.name.clone(),
            ml: bottle.share,
            takes: taken.share / taken.drops_per_ml,
        });
    }
    let prints = given.number("prints")?.unwrap_or(0.0);
    let figure = left_after(&stocks, prints)?;
    let rows = figure.value.bottles.iter().map(|(name, left, more)| {
        vec![
            Amount::words(name.clone()),
            millilitres(*left),
            Amount::number(*more, "prints", 0),
        ]
    });
    let table = Table {
        heads: ["bottle", "left", "makes"].map(Into::into).to_vec(),
        rows: rows.collect(),
    };
    let mut answer = Answer::of(figure, |left| {
        vec![Line::new("makes", Amount::number(left.prints, "prints", 0))]
    });
    if !calibrated {
        answer = answer.remark(Concern::Note, UNCALIBRATED);
    }
    Ok(answer.table(table))
}
