//! Which process suits a negative, and its tones.

use super::{reckon, refused, says, told};
use crate::craft::Concern;

#[test]
fn what_fits_stands_first_with_its_setting() {
    let typed = [
        ("thin", "0.35"),
        ("dense", "1.93"),
        ("channel", "ultraviolet"),
    ];
    let answer = reckon("which-process", &typed).unwrap();
    let table = answer.table.clone().unwrap();
    assert_eq!(table.rows[0][2].to_string(), "fits");
    assert!(table.rows[0][0].to_string().starts_with("Palladium"));
    let palladium = answer
        .results
        .iter()
        .find(|line| line.name.contains("dichromate"))
        .unwrap();
    assert!(
        palladium.amount.to_string().contains("2.764 ml"),
        "{palladium:?}"
    );
    assert!(says(&answer, "silver papers print by blue"));
    let chart = answer.chart.unwrap();
    assert_eq!(chart.series.len(), 3);
    assert_eq!(chart.marks.len(), 2);
}

#[test]
fn what_fits_nowhere_says_so_and_tells_what_is_lost() {
    let long = [
        ("thin", "0.3"),
        ("dense", "3.9"),
        ("channel", "ultraviolet"),
    ];
    let answer = reckon("which-process", &long).unwrap();
    assert!(
        answer
            .remarks
            .iter()
            .any(|it| it.concern == Concern::Beyond)
    );
    assert!(says(&answer, "are lost in white"));
    let by_lights = [("thin", "0.3"), ("dense", "3.9"), ("placed", "highlights")];
    assert!(says(
        &reckon("which-process", &by_lights).unwrap(),
        "drown in black"
    ));
}

#[test]
fn one_process_is_asked_for_by_its_name() {
    let typed = [
        ("thin", "0.35"),
        ("dense", "1.75"),
        ("process", "cyanotype"),
    ];
    let answer = reckon("which-process", &typed).unwrap();
    assert!(says(&answer, "print by ultraviolet"));
    assert!(answer.table.unwrap().rows.len() >= 2);
}

#[test]
fn a_negative_that_is_none_is_refused() {
    for (typed, needed) in [
        (vec![("thin", "1.4"), ("dense", "0.3")], "thin parts"),
        (vec![("thin", "0.3")], "highlights"),
        (
            vec![("thin", "0.3"), ("dense", "1.4"), ("process", "elixir")],
            "no process here",
        ),
    ] {
        let why = refused("which-process", &typed);
        assert!(why.contains(needed), "{why}");
    }
}

#[test]
fn tones_follow_the_paper_or_are_called_a_sketch() {
    let straight = [("thin", "0.35"), ("dense", "1.85"), ("scale", "1.4")];
    let answer = reckon("print-tones", &straight).unwrap();
    assert_eq!(told(&answer, "white from"), "1.75");
    assert_eq!(told(&answer, "lost in white"), "0.1");
    assert!(says(&answer, "a sketch"));
    let curve = "0.05 1.45, 0.2 1.44, 0.5 1.2, 0.8 0.8, 1.1 0.42, 1.4 0.18, 1.7 0.08, 2.0 0.07";
    let own = [("thin", "0.35"), ("dense", "1.35"), ("curve", curve)];
    let answer = reckon("print-tones", &own).unwrap();
    assert!(!says(&answer, "a sketch"));
    assert_eq!(told(&answer, "print of the shadows"), "1.3");
    assert_eq!(answer.chart.unwrap().series.len(), 2);
    for (curve, needed) in [("0.05 1.45", "four readings"), ("0.05", "is no reading")] {
        let typed = [("thin", "0.35"), ("dense", "1.35"), ("curve", curve)];
        let why = refused("print-tones", &typed);
        assert!(why.contains(needed), "{why}");
    }
}
