//! What is known of films.

use crate::craft::{Amount, Concern, FilmSpeed, Grounds, Remark};
use crate::figures::reciprocity::{NamedLaw, laws_for, nothing_known};
use crate::figures::{Answer, Given, Line, Problem, Table};
use crate::reference::{Film, Origin, PracticeSubject};

use super::remarked;

pub(super) fn answer(given: &Given<'_>) -> Result<Answer, Problem> {
    match given.text("film") {
        None => Ok(all(given)),
        Some(typed) => match given.desk().reference.film(typed) {
            Some(film) => Ok(one(film, given)),
            None => beginning(typed, given),
        },
    }
}

fn said(film: &Film) -> Grounds {
    Grounds::new(film.standing, film.source.clone())
}

fn one(film: &Film, given: &Given<'_>) -> Answer {
    let desk = given.desk();
    let laws = laws_for(&film.id, desk);
    let by_record = |line: Line| match &film.kind_rests {
        Some(rests) => line.on(rests.clone()),
        None => line,
    };
    let name = Line::new("film", Amount::words(film.full_name()));
    let mut results = vec![match film.origin {
        Origin::Logbook => name,
        Origin::BuiltIn | Origin::Own(_) => by_record(name),
    }];
    if let Some((speed, rests)) = film.rated() {
        results.push(Line::new("speed", Amount::Speed(speed)).on(rests.clone()));
        let degrees = Amount::degrees(f64::from(speed.degrees()));
        results.push(Line::new("the same in degrees", degrees).on(rests));
    }
    let kind = Line::new("kind", Amount::words(film.kind.word()));
    results.push(by_record(kind));
    for law in &laws {
        let line = Line::new("long exposures", Amount::words(law.name.clone()));
        results.push(line.on(law.grounds.clone()));
    }
    let mut remarks = Vec::new();
    if laws.is_empty() {
        let words = nothing_known(&film.full_name(), desk).to_string();
        let concern = Concern::Warning;
        remarks.push(Remark { concern, words });
    }
    let mut note = |words: &str| {
        remarks.push(Remark {
            concern: Concern::Note,
            words: words.to_owned(),
        });
    };
    if !film.note.is_empty() {
        note(&film.note);
    }
    for law in laws.iter().filter(|law| !law.law.advice.is_empty()) {
        note(&law.law.advice);
    }
    for keeping in desk.reference.practices(PracticeSubject::Keeping) {
        // Advice for one film stands under its name; the rest is for any.
        let about = &keeping.figure.what;
        let whose = desk.reference.film(about);
        if whose.is_none_or(|whose| whose.id == film.id) {
            note(&format!("keeping, {about}: {}", keeping.figure.note));
        }
    }
    remarked(Answer::listing(results, said(film)), remarks)
}

/// All films whose name begins or goes on so.
fn beginning(typed: &str, given: &Given<'_>) -> Result<Answer, Problem> {
    let wanted = typed.to_lowercase();
    let films: Vec<&Film> = given
        .desk()
        .reference
        .films()
        .iter()
        .filter(|film| film.full_name().to_lowercase().contains(&wanted))
        .collect();
    if films.is_empty() {
        let says = format!(
            "no film {typed} in the reference: leave it out to see all, or log it with find-film"
        );
        return Err(given.problem("film", says));
    }
    Ok(listed(&films, given))
}

fn all(given: &Given<'_>) -> Answer {
    let films: Vec<&Film> = given.desk().reference.films().iter().collect();
    listed(&films, given)
}

fn listed(films: &[&Film], given: &Given<'_>) -> Answer {
    let heads = [
        "film",
        "speed",
        "degrees",
        "speed is",
        "kind",
        "long exposures",
    ];
    let none = || Amount::words("-");
    let best = |laws: Vec<NamedLaw>| match laws.first() {
        None => Amount::words("nothing known"),
        Some(law) => Amount::words(format!("{} ({})", law.name, law.grounds.standing)),
    };
    let rows = films
        .iter()
        .map(|film| {
            let speed = film.rated().map(|(speed, _)| speed);
            let degrees = |speed: FilmSpeed| Amount::degrees(f64::from(speed.degrees()));
            vec![
                Amount::words(film.full_name()),
                speed.map_or_else(none, Amount::Speed),
                speed.map_or_else(none, degrees),
                Amount::words(film.standing.word()),
                Amount::words(film.kind.word()),
                best(laws_for(&film.id, given.desk())),
            ]
        })
        .collect();
    // The whole is trusted as far as the least trusted film in it.
    let standing = films.iter().map(|film| film.standing).min();
    let grounds = standing.map_or_else(Grounds::usual, |standing| {
        Grounds::new(
            standing,
            "each film rests on its own source; name it to see",
        )
    });
    let count = Amount::number(films.len() as f64, "", 0);
    Answer::listing(vec![Line::new("films", count)], grounds).table(Table {
        heads: heads.into_iter().map(Into::into).collect(),
        rows,
    })
}
