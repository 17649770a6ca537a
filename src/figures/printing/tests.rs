//! What the figures of coating and printing say first, ask back and refuse.

mod coating;
mod exposing;
mod silver;
mod suits;

use std::collections::BTreeMap;

use chrono::DateTime;

use crate::figures::{Answer, Chapter, Desk, Given, NoKit, Problem, all, named};
use crate::reference::Reference;

fn reckon(word: &str, typed: &[(&str, &str)]) -> Result<Answer, Problem> {
    let reference = Reference::built_in().unwrap();
    let now = DateTime::parse_from_rfc3339("2026-03-04T16:02:00+01:00").unwrap();
    let desk = Desk::new(&reference, &NoKit, now);
    let typed: BTreeMap<String, String> = typed
        .iter()
        .map(|(key, text)| ((*key).to_owned(), (*text).to_owned()))
        .collect();
    let recipe = named(word).unwrap();
    (recipe.answer)(&Given::new(recipe.asks, &typed, &desk))
}

fn told(answer: &Answer, name: &str) -> String {
    let line = answer.results.iter().find(|line| line.name == name);
    line.map_or_else(String::new, |line| line.amount.to_string())
}

fn says(answer: &Answer, words: &str) -> bool {
    answer.remarks.iter().any(|it| it.words.contains(words))
}

fn refused(word: &str, typed: &[(&str, &str)]) -> String {
    reckon(word, typed).unwrap_err().to_string()
}

#[test]
fn an_example_fits_the_line_of_the_help() {
    let own = [Chapter::Coating, Chapter::Printing];
    for recipe in all().filter(|it| own.contains(&it.chapter)) {
        let mut line = format!("notchbook reckon {}", recipe.word);
        for (key, text) in recipe.example {
            let plain = |c: char| c.is_ascii_alphanumeric() || "-+./:,_@%=".contains(c);
            let quotes = if text.chars().all(plain) { "" } else { "\"" };
            line.push_str(&format!(
                " --{} {quotes}{text}{quotes}",
                key.replace('_', "-")
            ));
        }
        assert!(line.len() <= 98, "{}: {line}", line.len());
    }
}
