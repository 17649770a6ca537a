//! What a mark on a negative may mean: the vocabulary of faults, and one of them in full.

use super::{Answer, Ask, Chapter, Given, Line, Problem, Recipe, Table};
use crate::craft::{Amount, Grounds};
use crate::reference::NegativeFault;

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[Recipe {
    word: "fault",
    title: "what a mark on a negative may mean",
    chapter: Chapter::Development,
    about: "How a fault of a negative looks, what may have caused it, and what to do another time. Without \
            a name every fault is listed by its look. Which of the causes it was, only the sheet and the \
            log of its holder, run and baths can say.",
    asks: &[Ask::typed(
        "fault",
        "fault",
        "the fault by its name, or nothing to look through all of them, air bells",
    )],
    example: &[("fault", "air bells")],
    answer,
}];

fn grounds(fault: &NegativeFault) -> Grounds {
    Grounds::new(fault.standing, fault.source.clone())
}

fn answer(given: &Given<'_>) -> Result<Answer, Problem> {
    let reference = given.desk().reference;
    let Some(typed) = given.text("fault") else {
        return Ok(every(reference.faults()));
    };
    match reference.fault(typed) {
        Some(fault) => Ok(one(fault)),
        None => {
            let names: Vec<&str> = reference
                .faults()
                .iter()
                .map(|it| it.name.as_str())
                .collect();
            let says = format!(
                "no fault \"{typed}\" in the vocabulary, or more than one: there are {}; add others to \
                 faults.toml in the folder of your own reference data",
                names.join(", ")
            );
            Err(given.problem("fault", says))
        }
    }
}

fn one(fault: &NegativeFault) -> Answer {
    let said = |name: &'static str, words: &str| Line::new(name, Amount::words(words.to_owned()));
    let mut results = vec![
        said("fault", &fault.name),
        said("looks", &fault.looks),
        said("it comes from", fault.when.word()),
    ];
    results.extend(fault.causes.iter().map(|cause| said("may be", cause)));
    results.push(said("another time", &fault.instead).on(Grounds::usual()));
    Answer::listing(results, grounds(fault))
}

fn every(faults: &[NegativeFault]) -> Answer {
    let least = faults.iter().map(|fault| fault.standing).min();
    let on = least.map_or_else(Grounds::usual, |standing| {
        Grounds::new(standing, "each fault rests on its own text")
    });
    let row = |fault: &NegativeFault| {
        [&fault.name, fault.when.word(), &fault.looks]
            .map(|words| Amount::words(words.to_owned()))
            .to_vec()
    };
    let count = Amount::number(faults.len() as f64, "faults", 0);
    Answer::listing(vec![Line::new("known", count)], on).table(Table {
        heads: vec!["fault".into(), "comes from".into(), "looks".into()],
        rows: faults.iter().map(row).collect(),
    })
}
