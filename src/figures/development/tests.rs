//! What the figures of development say, and what they refuse to say.

use std::collections::BTreeMap;

use chrono::DateTime;

use crate::craft::{Concern, Standing};
use crate::figures::{Answer, Desk, Given, NoKit, Problem, named};
use crate::reference::Reference;

fn ask(word: &str, typed: &[(&str, &str)]) -> Result<Answer, Problem> {
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

fn first(answer: &Answer) -> String {
    answer.results[0].amount.to_string()
}

#[test]
fn a_time_between_two_columns_names_both_rows() {
    let answer = ask(
        "develop",
        &[
            ("film", "FP4+"),
            ("developer", "ddx"),
            ("temperature", "22 C"),
        ],
    )
    .unwrap();
    assert_eq!(first(&answer), "8 min 55 s");
    let steps: Vec<&str> = answer.steps.iter().map(|it| it.name.as_ref()).collect();
    assert_eq!(steps[0], "told at 20.0 C (68 F)");
    assert_eq!(steps[1], "told at 23.89 C (75 F)");
    assert_eq!(
        answer.results[0].grounds.as_ref().unwrap().standing,
        Standing::Published
    );
    // The dilution is from memory, and so the answer as a whole is.
    assert_eq!(answer.standing(), Standing::Remembered);
}

#[test]
fn the_box_speed_is_meant_and_another_can_be_asked_for() {
    let at = |speed: &[(&str, &str)]| {
        let mut typed = vec![("film", "HP5 Plus"), ("developer", "DD-X")];
        typed.extend(speed);
        ask("develop", &typed)
    };
    assert_eq!(first(&at(&[]).unwrap()), "9 min");
    assert_eq!(first(&at(&[("speed", "3200")]).unwrap()), "20 min");
    let why = at(&[("speed", "6400")]).unwrap_err().to_string();
    assert!(why.contains("there is 400, 800, 1600, 3200"), "{why}");
}

#[test]
fn what_is_left_open_is_asked_and_not_guessed() {
    let typed = [("film", "HP5 Plus"), ("developer", "ID-11")];
    let why = ask("develop", &typed).unwrap_err();
    assert_eq!(why.key, Some("dilution"));
    assert!(why.says.contains("stock, 1+1, 1+3"), "{why}");
    let typed = [
        ("film", "T-MAX 100"),
        ("developer", "XTOL"),
        ("dilution", "stock"),
    ];
    let why = ask("develop", &typed).unwrap_err();
    assert_eq!(why.key, Some("size"));
}

#[test]
fn nothing_is_told_beyond_a_table_and_an_estimate_says_that_it_is_one() {
    let typed = [
        ("film", "FP4+"),
        ("developer", "DD-X"),
        ("temperature", "18 C"),
    ];
    let why = ask("develop", &typed).unwrap_err();
    assert_eq!(why.key, Some("temperature"));
    assert!(why.says.contains("ask for an estimate"), "{why}");
    let mut typed = typed.to_vec();
    typed.push(("estimate", "yes"));
    let answer = ask("develop", &typed).unwrap();
    assert!(
        answer
            .remarks
            .iter()
            .any(|it| it.concern == Concern::Beyond)
    );
    assert_eq!(
        answer.results[0].grounds.as_ref().unwrap().standing,
        Standing::Usual
    );
}

#[test]
fn a_film_without_a_table_gets_a_sentence() {
    let why = ask("develop", &[("film", "Ortho Plus"), ("developer", "D-76")]).unwrap_err();
    assert!(why.says.contains("no time is told"), "{why}");
    let why = ask("develop", &[("film", "FP4+"), ("developer", "tea")]).unwrap_err();
    assert!(why.says.contains("no developer tea"), "{why}");
}

#[test]
fn a_table_for_rotary_tubes_is_not_shortened_again() {
    let rotary = [
        ("film", "T-MAX 100"),
        ("developer", "D-76"),
        ("agitation", "continuous"),
    ];
    assert_eq!(first(&ask("develop", &rotary).unwrap()), "6 min 30 s");
    let tank = [
        ("film", "T-MAX 100"),
        ("developer", "D-76"),
        ("agitation", "intermittent"),
    ];
    assert_eq!(ask("develop", &tank).unwrap_err().key, Some("agitation"));
    let shortened = [
        ("film", "FP4+"),
        ("developer", "DD-X"),
        ("agitation", "continuous"),
    ];
    let answer = ask("develop", &shortened).unwrap();
    assert_eq!(first(&answer), "8 min 30 s");
    assert!(
        answer
            .remarks
            .iter()
            .any(|it| it.words.contains("does not say"))
    );
}

#[test]
fn two_known_times_need_no_general_law() {
    let known = [("time", "10:00"), ("at", "68F"), ("to", "22 C")];
    let general = ask("temperature", &known).unwrap();
    assert!(
        general
            .remarks
            .iter()
            .any(|it| it.concern == Concern::Beyond)
    );
    let mut both = known.to_vec();
    both.extend([("other_time", "8:00"), ("other_at", "75F")]);
    let between = ask("temperature", &both).unwrap();
    assert_eq!(first(&between), "8 min 55 s");
    assert!(between.remarks.is_empty());
    both.push(("ten_degrees", "2"));
    assert_eq!(
        ask("temperature", &both).unwrap_err().key,
        Some("ten_degrees")
    );
}

#[test]
fn a_way_of_printing_brings_its_own_range() {
    let answer = ask("gradient", &[("process", "silver-gelatin-contact")]).unwrap();
    assert_eq!(first(&answer), "0.58");
    let answer = ask("gradient", &[("process", "cyanotype"), ("by", "N-1")]).unwrap();
    assert!(answer.results.iter().any(|it| it.name == "from"));
    let why = ask(
        "gradient",
        &[("density_range", "1.05"), ("stops", "1"), ("flare", "0.4")],
    );
    assert!(why.unwrap_err().says.contains("leaves nothing"));
}

#[test]
fn every_developer_can_be_listed_and_named() {
    let all = ask("developers", &[]).unwrap();
    let rows = all.table.unwrap().rows;
    assert!(rows.len() >= 9);
    let one = ask("developers", &[("developer", "rodinal")]).unwrap();
    assert!(one.remarks.iter().any(|it| it.concern == Concern::Warning));
}
