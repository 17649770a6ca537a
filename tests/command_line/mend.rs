//! Undo, strike and amend.

use super::bench::{Bench, says};

fn exposed() -> Bench {
    let bench = Bench::loaded();
    bench.ok(&["log", "expose", "h1a", "--aperture", "f/32", "--time", "6s"]);
    bench
}

#[test]
fn undo_strikes_the_newest_act_and_leaves_it_legible() {
    let bench = exposed();
    let out = bench.ok(&["undo"]);
    assert_eq!(
        out,
        "#5 struck #4 exposed H-01 A: f/32 at 6 s (S-0001): undone\n"
    );
    assert_eq!(bench.json(&["show", "s1"])["thing"]["state"], "loaded");
    let show = bench.ok(&["show", "s1"]);
    says(&show, &["x  #4", "f/32 at 6 s", "struck on", "undone"]);
    // The next undo takes the act before.
    says(
        &bench.ok(&["undo", "--why", "wrong box"]),
        &["struck #3 loaded", "wrong box"],
    );
    assert_eq!(
        bench.json(&["rack"])["holders"][0]["sides"][0]["state"],
        "empty"
    );
}

#[test]
fn there_is_an_end_to_what_can_be_undone() {
    let bench = Bench::begun();
    bench.ok(&["log", "add-lens", "a lens"]);
    bench.ok(&["undo"]);
    says(&bench.fails(5, &["undo"]), &["nothing to undo"]);
}

#[test]
fn a_strike_of_a_strike_brings_the_entry_back() {
    let bench = exposed();
    bench.ok(&["strike", "#4", "--why", "it was side B"]);
    bench.ok(&["strike", "5", "--why", "it was side A after all"]);
    assert_eq!(bench.json(&["show", "s1"])["thing"]["state"], "exposed");
    says(
        &bench.fails(3, &["strike", "5", "--why", "x"]),
        &["struck already"],
    );
}

#[test]
fn a_strike_on_which_something_rests_is_refused() {
    let bench = exposed();
    let err = bench.fails(3, &["strike", "3", "--why", "x"]);
    says(
        &err,
        &[
            "would no longer fit",
            "\"expose\" of",
            "strike that entry first",
        ],
    );
}

#[test]
fn an_amendment_replaces_figures_and_keeps_the_old_ones() {
    let bench = exposed();
    let out = bench.ok(&[
        "amend",
        "4",
        "time=8s",
        "filter=orange",
        "--why",
        "misread the shutter",
    ]);
    says(
        &out,
        &[
            "#5 amended #4 exposed H-01 A: f/32 at 8 s, orange (S-0001)",
            "misread the shutter",
        ],
    );
    let show = bench.ok(&["show", "s1"]);
    says(
        &show,
        &[
            "~  #4",
            "f/32 at 8 s",
            "before: f/32 at 6 s",
            "misread the shutter",
        ],
    );
    // A second amendment starts from the first.
    bench.ok(&[
        "amend",
        "4",
        "aperture=f/45",
        "filter=",
        "--why",
        "and the aperture",
    ]);
    let entry = bench.ok(&["entry", "4"]);
    says(&entry, &["f/45 at 8 s", "amended on"]);
    assert_eq!(
        bench.json(&["entry", "4"])["entry"]["telling"]["headline"],
        "f/45 at 8 s"
    );
}

#[test]
fn an_amendment_can_correct_the_time_and_keeps_a_time_corrected_before() {
    let bench = Bench::begun();
    bench.ok(&[
        "log",
        "add-holder",
        "8x10",
        "--sides",
        "2",
        "--when",
        "5 days ago",
    ]);
    bench.ok(&[
        "log",
        "add-box",
        "FP4 Plus",
        "--size",
        "8x10",
        "--sheets",
        "25",
        "--when",
        "5 days ago",
    ]);
    bench.ok(&["log", "load", "h1a", "--box", "f1", "--when", "4 days ago"]);
    bench.ok(&["log", "expose", "h1a", "--time", "6s"]);
    bench.ok(&["amend", "4", "--when", "2 days ago", "--why", "logged late"]);
    let first = bench.json(&["entry", "4"])["entry"]["happened"].clone();
    bench.ok(&["amend", "4", "time=8s", "--why", "misread"]);
    let second = bench.json(&["entry", "4"])["entry"]["happened"].clone();
    assert_eq!(first, second);
    let err = bench.fails(3, &["amend", "4", "--when", "10 days ago", "--why", "x"]);
    says(&err, &["not in the logbook on"]);
}

#[test]
fn a_loading_can_be_amended_to_another_box_and_the_sheet_stays_the_same() {
    let bench = Bench::loaded_days_ago();
    bench.ok(&[
        "log",
        "add-box",
        "HP5 Plus",
        "--size",
        "8x10",
        "--sheets",
        "10",
        "--when",
        "6 days ago",
    ]);
    bench.ok(&["amend", "3", "box=f2", "--why", "it was the other box"]);
    let sheet = bench.json(&["list", "sheets"]);
    assert_eq!(sheet["rows"].as_array().map(Vec::len), Some(1));
    assert_eq!(sheet["rows"][0]["film"], "HP5 Plus");
    assert_eq!(sheet["rows"][0]["reference"], "S-0001");
    says(&bench.ok(&["list", "boxes"]), &["25    25", "9     10"]);
}

#[test]
fn keys_and_values_that_cannot_be_are_told() {
    let bench = exposed();
    let err = bench.fails(4, &["amend", "4", "shuter=8s", "--why", "x"]);
    says(&err, &["shuter=", "has no \"shuter\"", "aperture", "time"]);
    let err = bench.fails(
        4,
        &["amend", "4", "time=long", "--when", "soon", "--why", "x"],
    );
    says(&err, &["time="]);
    bench.ok(&["undo"]);
    let err = bench.fails(4, &["amend", "5", "why=x", "--why", "x"]);
    says(&err, &["is struck, not amended"]);
}

#[test]
fn a_rehearsed_strike_changes_nothing() {
    let bench = exposed();
    let out = bench.ok(&["undo", "--dry-run"]);
    says(
        &out,
        &[
            "would be logged: struck #4 exposed H-01 A",
            "nothing was written",
        ],
    );
    assert_eq!(bench.json(&["show", "s1"])["thing"]["state"], "exposed");
}
