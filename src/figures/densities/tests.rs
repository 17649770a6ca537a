//! What is typed of strips, and what is said of them.

use std::collections::BTreeMap;

use chrono::DateTime;

use super::*;
use crate::craft::Concern;
use crate::figures::{Desk, Given, NoKit, Problem, named};
use crate::reference::Reference;

fn ask(word: &str, typed: &[(&str, &str)]) -> Result<Answer, Problem> {
    let reference = Reference::built_in().unwrap();
    let now = DateTime::parse_from_rfc3339("2026-03-04T16:02:00+01:00").unwrap();
    let desk = Desk::new(&reference, &NoKit, now);
    let recipe = named(word).unwrap();
    let typed: BTreeMap<String, String> = typed
        .iter()
        .map(|(key, text)| ((*key).to_owned(), (*text).to_owned()))
        .collect();
    (recipe.answer)(&Given::new(recipe.asks, &typed, &desk))
}

/// A strip behind all 21 steps.
const STRIP: &[(&str, &str)] = &[
    (
        "readings",
        "1.61 1.51 1.42 1.32 1.23 1.13 1.04 0.94 0.84 0.75 0.65 0.56 0.47 0.38 0.30 0.23 0.19 0.16 \
         0.14 0.14 0.13",
    ),
    ("bare", "0.35"),
];

fn example(word: &str, more: &[(&str, &str)]) -> Vec<(String, String)> {
    let example = match word {
        "curve" => STRIP,
        word => named(word).unwrap().example,
    };
    let given = example.iter().chain(more);
    let typed: BTreeMap<&str, &str> = given.copied().collect();
    let owned = typed.into_iter();
    owned
        .map(|(key, text)| (key.to_owned(), text.to_owned()))
        .collect()
}

fn with(word: &str, more: &[(&str, &str)]) -> Result<Answer, Problem> {
    let typed = example(word, more);
    let typed: Vec<(&str, &str)> = typed
        .iter()
        .map(|(k, t)| (k.as_str(), t.as_str()))
        .collect();
    ask(word, &typed)
}

fn results(answer: &Answer) -> Vec<(String, String)> {
    let lines = answer.results.iter();
    lines
        .map(|line| (line.name.to_string(), line.amount.to_string()))
        .collect()
}

fn result(answer: &Answer, name: &str) -> Option<String> {
    let found = results(answer).into_iter().find(|(it, _)| it == name);
    found.map(|(_, amount)| amount)
}

fn says(answer: &Answer, words: &str) -> bool {
    answer
        .remarks
        .iter()
        .any(|remark| remark.words.contains(words))
}

#[test]
fn one_strip_gives_speed_contrast_and_a_chart_with_the_speed_point() {
    let answer = with("curve", &[]).unwrap();
    assert_eq!(answer.results[0].name, "ISO speed");
    assert_eq!(result(&answer, "base plus fog").unwrap(), "0.13");
    assert_eq!(result(&answer, "density range").unwrap(), "1.48");
    let chart = answer.chart.unwrap();
    let marks: Vec<&str> = chart.marks.iter().map(|mark| mark.name.as_ref()).collect();
    assert_eq!(marks, ["speed point", "1.30 on"]);
    assert_eq!(chart.series[0].points.len(), 21);
}

#[test]
fn a_strip_of_more_contrast_has_an_effective_speed_and_no_iso_speed() {
    let strong = "2.45 2.31 2.17 2.02 1.88 1.74 1.60 1.46 1.32 1.18 1.04 0.90 0.76 0.63 0.50 0.39 0.30 \
                  0.24 0.20 0.18 0.17";
    let answer = with("curve", &[("readings", strong)]).unwrap();
    assert_eq!(answer.results[0].name, "effective speed");
    assert!(result(&answer, "ISO speed").is_none());
    assert!(says(&answer, "not developed as ISO 6 asks"));
}

#[test]
fn without_the_light_contrast_is_told_and_no_speed() {
    let answer = with("curve", &[("bare", "")]).unwrap();
    assert!(result(&answer, "ISO speed").is_none());
    assert!(result(&answer, "average gradient").is_some());
    assert!(says(&answer, "contrast but no speed"));
    let by_lux = with("curve", &[("bare", "2.2387 lx s")]).unwrap();
    let by_log = with("curve", &[("bare", "0.35")]).unwrap();
    assert_eq!(result(&by_lux, "ISO speed"), result(&by_log, "ISO speed"));
}

#[test]
fn a_strip_that_is_too_short_says_what_is_missing_and_gives_the_rest() {
    let short = "14 0.63 15 0.50 16 0.39 17 0.30 18 0.24 19 0.20 20 0.18 21 0.17";
    let answer = with("curve", &[("readings", short)]).unwrap();
    assert!(
        says(&answer, "no average gradient: the readings end"),
        "{:?}",
        answer.remarks
    );
    assert!(says(&answer, "no contrast index"));
    assert!(result(&answer, "gamma").is_some());
    assert_eq!(result(&answer, "base plus fog").unwrap(), "0.17");
}

#[test]
fn stained_negatives_are_told_by_their_channel() {
    let answer = with("curve", &[("channel", "ultra")]).unwrap();
    assert!(says(&answer, "read in ultraviolet light"));
}

#[test]
fn a_family_gives_times_with_their_doubt_and_refuses_what_lies_outside() {
    let answer = with("gradients", &[("wanted", "0.58")]).unwrap();
    assert_eq!(answer.results[0].name, "gradient 0.580");
    let table = answer.table.clone().unwrap();
    let names: Vec<String> = table.rows.iter().map(|row| row[0].to_string()).collect();
    let wanted = [
        "gradient 0.580",
        "N-1, gradient 0.50",
        "N, gradient 0.58",
        "N+1, gradient 0.70",
        "contrast of ISO 6",
    ];
    assert_eq!(names, wanted);
    for outside in ["N-2: a gradient", "N+2: a gradient of 0.875"] {
        let remark = answer
            .remarks
            .iter()
            .find(|it| it.words.starts_with(outside));
        assert_eq!(remark.unwrap().concern, Concern::Beyond);
    }
}

#[test]
fn times_are_typed_or_stand_over_their_columns() {
    let columns = "step t5.5 t8; 1 1.22 1.61; 3 0.93 1.23; 5 0.64 0.84; 7 0.35 0.47; 8 0.23 0.30; \
                   9 0.15 0.19; 10 0.13 0.14; 11 0.12 0.13";
    let headed = with("gradients", &[("readings", columns), ("times", "")]).unwrap();
    assert!(
        headed
            .steps
            .iter()
            .any(|step| step.name == "gradient at 5 min 30 s")
    );
    for (typed, says) in [
        (vec![("times", "")], "times: this is needed"),
        (vec![("times", "4 5")], "2 times for 3 strips"),
        (vec![("times", "4 5 x")], "\"x\" is not a time"),
        (vec![("times", "4 5 5")], "5 min is there twice"),
        (vec![("times", "11 8 5.5")], "no more than"),
        (vec![("wanted", "2")], "needs a longer time"),
        (vec![("read_to", "3")], "0.01 or 0.02"),
        (vec![("tablet", "12")], "write 11, 21 or 31"),
        (vec![("range", "0")], "above 0 and below 6"),
        (vec![("bare", "-1 lx s")], "is not a log exposure"),
    ] {
        let why = with("gradients", &typed).unwrap_err().to_string();
        assert!(why.contains(says), "{why}");
    }
}

#[test]
fn two_runs_give_a_time_and_say_when_it_lies_outside_them() {
    let inside = with("growth", &[]).unwrap();
    assert_eq!(inside.results[0].name, "time for 0.58");
    assert!(inside.remarks.is_empty());
    let outside = with("growth", &[("wanted", "0.80")]).unwrap();
    assert_eq!(outside.remarks[0].concern, Concern::Beyond);
    let why = with("growth", &[("wanted", "1.25")])
        .unwrap_err()
        .to_string();
    assert!(why.contains("is never reached"), "{why}");
}

#[test]
fn a_measured_tablet_counts_before_the_usual_one() {
    let answer = ask("tablet", &[("tablet", "0.04 0.21 0.35 0.52")]).unwrap();
    assert_eq!(result(&answer, "density range").unwrap(), "0.48");
    assert_eq!(answer.table.unwrap().heads.len(), 3);
}
