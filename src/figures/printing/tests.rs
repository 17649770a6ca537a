//! What the figures of coating and printing say first, ask back and refuse.

use std::collections::BTreeMap;

use chrono::DateTime;

use crate::craft::Concern;
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

#[test]
fn a_coating_is_reckoned_by_the_own_coverage_and_others_stand_beside() {
    let answer = reckon(
        "coat",
        &[
            ("negative", "8x10"),
            ("margin", "1/4 in"),
            ("coverage", "20"),
        ],
    )
    .unwrap();
    assert_eq!(told(&answer, "sensitizer"), "4.46 ml");
    assert_eq!(told(&answer, "area"), "89.25 sq in");
    assert!(answer.table.unwrap().rows.len() >= 6);
    let bare = reckon("coat", &[("negative", "8x10")]).unwrap();
    assert_eq!(told(&bare, "sensitizer"), "");
    assert!(says(&bare, "no volume without your own coverage"));
}

#[test]
fn a_crop_says_what_it_takes_of_the_negative() {
    let typed = [("negative", "8x10"), ("coated", "5x7"), ("coverage", "20")];
    let answer = reckon("coat", &typed).unwrap();
    assert_eq!(told(&answer, "sensitizer"), "1.75 ml");
    assert_eq!(told(&answer, "of the negative"), "43.8 %");
    assert_eq!(told(&answer, "cropped left and right"), "1.5 in");
    let why = refused(
        "coat",
        &[("negative", "8x10"), ("coated", "5x7"), ("margin", "1 in")],
    );
    assert!(why.contains("give one of them"), "{why}");
}

#[test]
fn drops_keep_their_shares_and_say_what_rounding_means_in_contrast() {
    let typed = [
        ("parts", "A 3, B 4, metal 7"),
        ("drops", "40"),
        ("scales", "0 1.9, 100 1.3"),
    ];
    let answer = reckon("parts", &typed).unwrap();
    assert_eq!(told(&answer, "A"), "9 drops");
    assert_eq!(told(&answer, "B"), "11 drops");
    assert_eq!(told(&answer, "metal"), "20 drops");
    assert_eq!(told(&answer, "B of the iron, as counted"), "55 %");
    assert_eq!(told(&answer, "exposure scale"), "1.57");
    assert_eq!(told(&answer, "off by whole drops"), "0.01");
    let wanted = [
        ("parts", "A 1, B 1, metal 2"),
        ("volume", "2 ml"),
        ("scales", "0 1.9, 100 1.3"),
        ("scale", "1.6"),
    ];
    assert_eq!(
        told(&reckon("parts", &wanted).unwrap(), "B in the iron"),
        "50 %"
    );
}

#[test]
fn iron_that_is_not_as_much_as_the_metal_is_told() {
    let right = [("parts", "A 10, B 10, C 20"), ("drops", "40")];
    assert!(!says(&reckon("parts", &right).unwrap(), "A + B = C"));
    let wrong = [("parts", "A 10, B 5, C 20"), ("drops", "35")];
    assert!(says(&reckon("parts", &wrong).unwrap(), "A + B = C"));
}

#[test]
fn what_can_hurt_stands_first() {
    for (word, typed, title) in [
        (
            "agent",
            vec![
                ("table", "1 1.8, 2 1.65"),
                ("scale", "1.7"),
                ("agent", "dichromate"),
            ],
            "dichromate",
        ),
        (
            "iron",
            vec![
                ("metal", "K2PtCl4"),
                ("iron", "ferric oxalate hexahydrate"),
                ("iron_percent", "27"),
            ],
            "chloroplatinite",
        ),
        (
            "double-salt",
            vec![("percent", "15"), ("volume", "25 ml"), ("alkali", "LiCl")],
            "Palladium chloride",
        ),
        (
            "addition",
            vec![
                ("drops", "1"),
                ("strength", "5"),
                ("to", "2.5"),
                ("agent", "chloroplatinate"),
            ],
            "Sodium chloroplatinate",
        ),
    ] {
        let answer = reckon(word, &typed).unwrap();
        assert_eq!(answer.remarks[0].concern, Concern::Warning, "{word}");
        assert!(
            answer.remarks[0].words.contains(title),
            "{word}: {:?}",
            answer.remarks
        );
        assert!(says(&answer, "safety data sheet"), "{word}");
    }
}

#[test]
fn a_contrast_beyond_the_table_is_declined() {
    let typed = [("table", "1 1.80, 2 1.65, 4 1.50"), ("scale", "1.2")];
    assert!(refused("agent", &typed).contains("lies outside the table"));
    let typed = [
        ("table", "1 1.80, 2 1.65"),
        ("scale", "1.7"),
        ("amount", "1"),
    ];
    assert!(refused("agent", &typed).contains("give one of them"));
}

#[test]
fn the_metal_that_matches_is_found_for_every_salt() {
    let typed = [
        ("metal", "Na2PdCl4"),
        ("iron", "ferric oxalate hexahydrate"),
        ("iron_percent", "27"),
    ];
    let answer = reckon("iron", &typed).unwrap();
    assert_eq!(told(&answer, "strength of the metal"), "16.42 %");
    let table = answer.table.unwrap();
    assert!(
        table
            .rows
            .iter()
            .any(|row| row[0].to_string() == "potassium chloroplatinite"
                && row[1].to_string() == "23.16 %")
    );
    let why = refused(
        "iron",
        &[
            ("metal", "elixir"),
            ("iron", "ferric oxalate"),
            ("iron_percent", "27"),
        ],
    );
    assert!(why.contains("is no salt here"), "{why}");
}

#[test]
fn bottles_and_prices_are_told_apart_from_what_is_none() {
    let typed = [
        ("bottles", "A 50, palladium 25"),
        ("print", "a 24, Palladium 24"),
        ("prints", "5"),
    ];
    assert_eq!(
        told(&reckon("bottles", &typed).unwrap(), "makes"),
        "15 prints"
    );
    let why = refused("bottles", &[("bottles", "A 50"), ("print", "B 3")]);
    assert!(why.contains("no bottle called B"), "{why}");
    let typed = [("parts", "paper 1 at 200 per 25"), ("good", "2 of 3")];
    let answer = reckon("print-cost", &typed).unwrap();
    assert_eq!(told(&answer, "a print"), "8");
    assert_eq!(told(&answer, "a good print"), "12");
    assert!(refused("print-cost", &[("parts", "paper")]).contains("no part with a price"));
}

#[test]
fn a_tablet_gives_time_and_scale_and_a_time_for_the_negative() {
    let typed = [
        ("time", "10 min"),
        ("black", "3"),
        ("tone", "12"),
        ("to", "1"),
        ("thinnest", "0.35"),
    ];
    let answer = reckon("printing-time", &typed).unwrap();
    assert_eq!(told(&answer, "exposure scale"), "1.5");
    assert!(told(&answer, "standard printing time").starts_with("5 min"));
    assert!(told(&answer, "for this negative").starts_with("10 min"));
    let both = [
        ("time", "10 min"),
        ("black", "3"),
        ("white", "13"),
        ("tone", "12"),
    ];
    assert!(refused("printing-time", &both).contains("give one of them"));
    for (key, text) in [
        ("black", "0"),
        ("black", "three"),
        ("white", "2"),
        ("to", "40"),
    ] {
        let mut typed = vec![("time", "10 min"), ("black", "3")];
        typed.retain(|it| it.0 != key);
        typed.push((key, text));
        assert!(reckon("printing-time", &typed).is_err(), "{key} {text}");
    }
}

#[test]
fn a_strip_is_counted_or_reaches_a_time() {
    let counted = reckon(
        "strip",
        &[("first", "8 s"), ("step", "1/3"), ("strips", "7")],
    )
    .unwrap();
    let reached = reckon(
        "strip",
        &[("first", "8 s"), ("step", "1/3"), ("last", "32 s")],
    )
    .unwrap();
    assert_eq!(counted.table, reached.table);
    let long = reckon("strip", &[("first", "4 min"), ("strips", "10")]).unwrap();
    let rows = long.table.unwrap().rows;
    assert_eq!(rows[5][2].to_string(), "12:42");
    let typed = [
        ("first", "8 s"),
        ("covering", "separate"),
        ("step", "1/2"),
        ("strips", "5"),
    ];
    let separate = reckon("strip", &typed).unwrap().table.unwrap();
    assert!(separate.rows.iter().all(|row| row[2] == row[3]));
    for odd in [
        ("strips", "1"),
        ("strips", "2.5"),
        ("step", "0"),
        ("last", "8 s"),
    ] {
        assert!(
            reckon("strip", &[("first", "8 s"), odd]).is_err(),
            "{odd:?}"
        );
    }
}

#[test]
fn what_burns_stands_before_every_time_under_a_lamp() {
    for (word, typed) in [
        ("lamp", vec![("time", "8 min"), ("output", "80")]),
        (
            "sun-time",
            vec![("time", "10 min"), ("from", "6"), ("to", "12")],
        ),
        (
            "integrator",
            vec![("counted", "120"), ("in_time", "6 min"), ("time", "10 min")],
        ),
        ("lamp-limit", vec![("irradiance", "10")]),
    ] {
        let answer = reckon(word, &typed).unwrap();
        assert!(
            answer.remarks[0].words.starts_with("Ultraviolet light"),
            "{word}"
        );
    }
    let sun = reckon(
        "sun-time",
        &[("time", "10 min"), ("from", "6"), ("to", "12")],
    )
    .unwrap();
    assert_eq!(told(&sun, "first guess"), "5 min");
    assert!(says(&sun, "an estimate"));
}

#[test]
fn what_changed_about_a_lamp_can_be_several_things() {
    let typed = [
        ("time", "8 min"),
        ("from", "60 cm"),
        ("to", "90 cm"),
        ("wide", "10 cm"),
        ("output", "90"),
        ("here", "4 min"),
        ("there", "2 min"),
    ];
    let answer = reckon("lamp", &typed).unwrap();
    assert_eq!(told(&answer, "time"), "10 min");
    let bank = [
        ("time", "8 min"),
        ("from", "8 cm"),
        ("to", "16 cm"),
        ("wide", "32 cm"),
    ];
    assert!(refused("lamp", &bank).contains("make a strip"));
    assert!(refused("lamp", &[("time", "8 min")]).contains("give what changed"));
}

#[test]
fn humidity_is_told_for_dichromate_and_declined_for_iron() {
    let typed = [("time", "4 min"), ("from", "40"), ("to", "70")];
    assert_eq!(told(&reckon("humidity", &typed).unwrap(), "time"), "2 min");
    let iron = [
        ("coating", "iron"),
        ("time", "4 min"),
        ("from", "40"),
        ("to", "70"),
    ];
    assert!(refused("humidity", &iron).contains("no number is told"));
    let kept = [("kept_from", "20"), ("kept_to", "30")];
    assert_eq!(told(&reckon("humidity", &kept).unwrap(), "goes off"), "x3");
}
