//! Developers and schemes of agitation, side by side.

use crate::craft::development::agitation::{Agitation, continuous};
use crate::craft::{Amount, Concern, Grounds, Remark, Seconds};
use crate::figures::{Answer, Given, Line, Problem, Table};
use crate::reference::{Developer, Usual};

use super::rows::{Told, listed, rows};
use super::to_the_second;

/// What a list rests on: as far as its least trusted row may be trusted.
fn all_of(told: &[Told<'_>]) -> Grounds {
    let standing = told.iter().map(|it| it.table.grounds.standing).min();
    standing.map_or_else(Grounds::usual, |standing| {
        Grounds::new(standing, "each row rests on its own table")
    })
}

fn note(words: &str) -> Remark {
    Remark {
        concern: Concern::Note,
        words: words.to_owned(),
    }
}

pub(super) fn developers(given: &Given<'_>) -> Result<Answer, Problem> {
    let reference = given.desk().reference;
    let Some(typed) = given.text("developer") else {
        return Ok(every(given));
    };
    let Some(developer) = reference.developer(typed) else {
        let says = format!(
            "no developer {typed} in the reference, or more than one: leave it out to see all, or add \
             it to developers.toml in the folder of your own reference data"
        );
        return Err(given.problem("developer", says));
    };
    Ok(one(developer, given))
}

fn of_usual(usual: &Usual) -> Grounds {
    Grounds::new(usual.standing, usual.source.clone())
}

fn one(developer: &Developer, given: &Given<'_>) -> Answer {
    let told = rows(given.desk().reference, |_, by| {
        by.is_some_and(|by| by.id == developer.id)
    });
    let mut results = vec![Line::new("developer", Amount::words(developer.full_name()))];
    let count = Amount::number(told.len() as f64, "", 0);
    results.push(Line::new("rows of times", count));
    let mut answer = Answer::listing(Vec::new(), all_of(&told));
    for usual in &developer.usual {
        let line = Line::new(usual.what.clone(), Amount::words(usual.value()));
        results.push(line.on(of_usual(usual)));
        if !usual.note.is_empty() {
            answer
                .remarks
                .push(note(&format!("{}: {}", usual.what, usual.note)));
        }
    }
    answer.results = results;
    if !developer.note.is_empty() {
        answer.remarks.push(note(&developer.note));
    }
    let mut notes: Vec<&str> = Vec::new();
    for words in told.iter().map(|it| it.table.note.as_str()) {
        if !words.is_empty() && !notes.contains(&words) {
            notes.push(words);
        }
    }
    answer.remarks.extend(notes.into_iter().map(note));
    if told.is_empty() {
        return answer.remark(
            Concern::Warning,
            "no time is told for any film in it: add your own to developers.toml",
        );
    }
    answer.table(listed(&told))
}

fn every(given: &Given<'_>) -> Answer {
    let reference = given.desk().reference;
    let all = rows(reference, |_, by| by.is_some());
    let row = |developer: &Developer| {
        let told = rows(reference, |_, by| {
            by.is_some_and(|by| by.id == developer.id)
        });
        let mut films: Vec<&str> = Vec::new();
        for told in &told {
            let film = reference.film(&told.row.film);
            let name = film.map_or(told.row.film.as_str(), |film| film.name.as_str());
            if !films.contains(&name) {
                films.push(name);
            }
        }
        let films = if films.is_empty() {
            "-".to_owned()
        } else {
            films.join(", ")
        };
        let standing = told.iter().map(|it| it.table.grounds.standing).min();
        vec![
            Amount::words(developer.full_name()),
            Amount::words(films),
            Amount::words(standing.map_or("-", |standing| standing.word())),
        ]
    };
    let table = Table {
        heads: vec!["developer".into(), "times for".into(), "rests on".into()],
        rows: reference.developers().iter().map(row).collect(),
    };
    let count = Amount::number(table.rows.len() as f64, "", 0);
    Answer::listing(vec![Line::new("developers", count)], all_of(&all)).table(table)
}

pub(super) fn agitation(given: &Given<'_>) -> Result<Answer, Problem> {
    let schemes = given.desk().reference.agitation_schemes();
    let time = given.may("time", Seconds::parse)?;
    let answer = match time {
        Some(time) => {
            let figure = continuous(time, Agitation::Intermittent)?;
            Answer::of(figure, |shorter| {
                let time = Amount::Time(to_the_second(shorter));
                vec![Line::new("moved all the time", time)]
            })
        }
        None => {
            let count = Amount::number(schemes.len() as f64, "", 0);
            let standing = schemes.iter().map(|it| it.figure.standing).min();
            let grounds = standing.map_or_else(Grounds::usual, |standing| {
                Grounds::new(standing, "each scheme rests on its own source")
            });
            Answer::listing(vec![Line::new("schemes", count)], grounds)
        }
    };
    let row = |usual: &Usual| {
        let words = if usual.range.is_some() && !usual.note.is_empty() {
            format!("{}. {}", usual.value(), usual.note)
        } else {
            usual.value()
        };
        vec![
            Amount::words(usual.what.clone()),
            Amount::words(words),
            Amount::words(usual.standing.word()),
            Amount::words(usual.source.clone()),
        ]
    };
    Ok(answer.table(Table {
        heads: vec![
            "where".into(),
            "how".into(),
            "rests on".into(),
            "source".into(),
        ],
        rows: schemes.iter().map(|it| row(&it.figure)).collect(),
    }))
}
