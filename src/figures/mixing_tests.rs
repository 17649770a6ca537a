//! What the figures of mixing say first, ask back and refuse.

use std::collections::BTreeMap;

use chrono::DateTime;

use super::{Answer, Desk, Given, NoKit, Problem, named};
use crate::craft::Concern;
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

#[test]
fn a_formula_is_scaled_and_converted_in_the_order_of_mixing() {
    let typed = [
        ("formula", "D-72"),
        ("volume", "500 ml"),
        ("have", "carbonate monohydrate"),
    ];
    let answer = reckon("weigh", &typed).unwrap();
    let names: Vec<&str> = answer
        .results
        .iter()
        .map(|line| line.name.as_ref())
        .collect();
    assert_eq!(
        names,
        [
            "metol",
            "sodium sulfite, anhydrous",
            "hydroquinone",
            "sodium carbonate, monohydrate",
            "potassium bromide",
            "made up to",
        ]
    );
    assert_eq!(told(&answer, "metol"), "1.55 g");
    assert_eq!(told(&answer, "sodium carbonate, monohydrate"), "39.49 g");
    assert_eq!(answer.steps[0].name, "begin with water");
}

#[test]
fn what_can_hurt_stands_first_and_defers_to_the_data_sheets() {
    let acid = reckon("weigh", &[("formula", "SB-1")]).unwrap();
    assert!(
        acid.remarks[0].words.starts_with("Acid into water"),
        "{:?}",
        acid.remarks
    );
    let powder = reckon("weigh", &[("formula", "D-76")]).unwrap();
    let glacial = [
        ("percent", "28"),
        ("volume", "1 l"),
        ("have", "99.5"),
        ("kind", "v/v"),
        ("substance", "glacial acetic acid"),
    ];
    let glacial = reckon("percent", &glacial).unwrap();
    assert!(glacial.remarks[0].words.starts_with("Acid into water"));
    assert_eq!(glacial.results[0].name, "water first");
    for answer in [&acid, &powder, &glacial] {
        let first_note = answer
            .remarks
            .iter()
            .position(|it| it.concern == Concern::Note);
        let closing = answer
            .remarks
            .iter()
            .position(|it| it.words.contains("safety data sheet"));
        assert!(closing.unwrap() < first_note.unwrap());
    }
    assert!(
        powder
            .remarks
            .iter()
            .any(|it| it.words.starts_with("Powders"))
    );
    let gas = reckon("weigh", &[("formula", "IF-15")]).unwrap();
    assert!(
        gas.remarks
            .iter()
            .any(|it| it.words.contains("sulfur dioxide"))
    );
}

#[test]
fn a_colon_is_shown_both_ways_until_it_is_said_what_it_means() {
    let open = reckon("dilute", &[("dilution", "1:7"), ("volume", "800 ml")]).unwrap();
    assert_eq!(told(&open, "stock"), "100 ml");
    assert_eq!(open.remarks[0].concern, Concern::Warning);
    assert_eq!(open.table.as_ref().map(|table| table.rows.len()), Some(2));
    let typed = [
        ("dilution", "1:7"),
        ("volume", "700 ml"),
        ("colon", "in-all"),
    ];
    let said = reckon("dilute", &typed).unwrap();
    assert_eq!(told(&said, "stock"), "100 ml");
    assert!(said.remarks.is_empty() && said.table.is_none());
    let plus = reckon("dilute", &[("dilution", "1+7"), ("volume", "800 ml")]).unwrap();
    assert!(plus.remarks.is_empty());
}

#[test]
fn a_chain_is_told_as_one_dilution() {
    let typed = [("dilution", "1+3"), ("then", "1+7"), ("volume", "1 l")];
    let answer = reckon("dilute", &typed).unwrap();
    assert_eq!(told(&answer, "at once"), "1+31");
    assert_eq!(told(&answer, "of the concentrate"), "31.25 ml");
    assert_eq!(told(&answer, "or of the first dilution"), "125 ml");
}

#[test]
fn salts_that_do_not_do_the_same_work_are_refused() {
    let ask = |specified, have| {
        reckon(
            "hydrate",
            &[("specified", specified), ("have", have), ("grams", "10 g")],
        )
    };
    let why = ask("potassium bromide", "borax").unwrap_err().to_string();
    assert!(why.contains("does not stand in for"), "{why}");
    let why = ask("sodium carbonate", "carbonate monohydrate")
        .unwrap_err()
        .to_string();
    assert!(why.contains("say its water"), "{why}");
    let typed = ask("Na2CO3", "Na2CO3.H2O").unwrap();
    assert_eq!(told(&typed, "Na2CO3.H2O"), "11.7 g");
    let lye = ask("potassium hydroxide", "sodium hydroxide").unwrap();
    assert_eq!(told(&lye, "sodium hydroxide"), "7.13 g");
    assert_eq!(lye.remarks[0].concern, Concern::Warning);
    let why = reckon("weigh", &[("formula", "D-23"), ("have", "borax")]).unwrap_err();
    assert!(why.to_string().contains("stands in for nothing"), "{why}");
}

#[test]
fn the_least_stock_is_asked_for_where_only_the_vessel_is_known() {
    let typed = [("format", "4x5"), ("sheets", "4"), ("vessel", "500 ml")];
    let answer = reckon("volume", &typed).unwrap();
    assert!(
        answer
            .remarks
            .iter()
            .any(|it| it.words.contains("no least amount"))
    );
    let tray = reckon("volume", &[("tray", "8x10 in")]).unwrap();
    assert_eq!(told(&tray, "fill with"), "655.5 ml");
}

#[test]
fn a_formula_of_the_users_own_takes_the_place_of_one_that_is_built_in() {
    let folder = tempfile::tempdir().unwrap();
    let own = "[[formula]]\nid = \"d-23\"\nname = \"D-23\"\npurpose = \"developer\"\nmakes = 1000\n\
               ingredients = [{ chemical = \"metol\", g = 5 }]\n";
    std::fs::write(folder.path().join("formulas.toml"), own).unwrap();
    let (reference, problems) = Reference::built_in().unwrap().with_folder(folder.path());
    assert!(problems.is_empty(), "{problems:?}");
    let formula = reference.formula("D-23").unwrap();
    assert!(formula.origin.is_own());
    assert_eq!(formula.ingredients.len(), 1);
    assert!(reference.formula("D-76").is_some());
}
