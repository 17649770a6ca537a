//! Coating: areas, drops, metals, cost.

use super::{reckon, refused, says, told};
use crate::craft::Concern;

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
fn a_recipe_and_a_table_of_a_process_are_taken_by_name() {
    let typed = [
        ("process", "palladium"),
        ("recipe", "brushed"),
        ("drops", "31"),
    ];
    let answer = reckon("parts", &typed).unwrap();
    assert_eq!(told(&answer, "palladium"), "15 drops");
    assert_eq!(told(&answer, "chloroplatinate"), "1 drops");
    assert_eq!(answer.standing(), crate::craft::Standing::Published);
    assert!(refused("parts", &[("process", "palladium"), ("drops", "31")]).contains("brushed"));
    let typed = [
        ("process", "palladium"),
        ("scale", "1.50"),
        ("volume", "2 l"),
    ];
    let answer = reckon("agent", &typed).unwrap();
    assert_eq!(told(&answer, "in 2 l"), "8 ml");
    let silent = [("process", "van dyke"), ("scale", "1.50")];
    assert!(refused("agent", &silent).contains("no table"));
}
