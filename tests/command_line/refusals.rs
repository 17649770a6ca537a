//! What the logbook refuses, what cannot be read, and the exit code of each.

use super::bench::{Bench, says};

#[test]
fn a_refusal_is_a_sentence_on_standard_error_with_what_can_be_logged() {
    let bench = Bench::loaded();
    bench.ok(&["log", "expose", "h1a"]);
    let err = bench.fails(3, &["log", "expose", "h1a"]);
    says(
        &err,
        &[
            "notchbook: H-01 A was already exposed on",
            "again",
            "--override",
        ],
    );
    let err = bench.fails(3, &["log", "load", "h1a", "--box", "f1"]);
    says(
        &err,
        &[
            "H-01 A has been exposed since",
            "no sheet can be loaded into it",
            "unload",
        ],
    );
    let error = bench.json_error(3, &["log", "load", "h1a", "--box", "f1"]);
    assert_eq!(error["kind"], "refused");
    assert_eq!(error["can_be_overridden"], true);
    let possible = error["possible"].as_array().expect("what is possible");
    assert!(possible.iter().any(|word| word == "unload"), "{possible:?}");
    // The number of entries has not changed.
    assert_eq!(bench.json(&["check"])["entries"], 4);
}

#[test]
fn an_override_needs_a_reason_and_is_shown_with_it() {
    let bench = Bench::loaded();
    bench.ok(&["log", "expose", "h1a"]);
    says(
        &bench.fails(4, &["log", "expose", "h1a", "--override", " "]),
        &["--override", "say why"],
    );
    bench.ok(&[
        "log",
        "expose",
        "h1a",
        "--override",
        "the shutter was tripped twice",
    ]);
    says(
        &bench.ok(&["show", "s1"]),
        &["!", "against the order: the shutter was tripped twice"],
    );
}

#[test]
fn an_amendment_against_the_order_is_kept_with_its_own_reason() {
    let bench = Bench::loaded();
    bench.ok(&["log", "load", "h1b", "--box", "f1"]);
    bench.ok(&["log", "expose", "h1a"]);
    let logged = bench.json(&["log", "expose", "h1b"]);
    let row = logged["entries"][0]["row"].to_string();
    let amend = ["amend", &row, "side=h1a", "--why", "the other side"];
    says(
        &bench.fails(3, &amend),
        &["H-01 A was already exposed on", "--override"],
    );
    let mut over = amend.to_vec();
    over.extend(["--override", "both on one sheet"]);
    bench.ok(&over);
    says(
        &bench.ok(&["show", "s1"]),
        &["amended on", "against the order: both on one sheet"],
    );
}

#[test]
fn everything_that_cannot_be_read_is_told_at_once_beside_its_flag() {
    let bench = Bench::loaded();
    let words = [
        "log",
        "expose",
        "h1a",
        "--aperture",
        "wide",
        "--time",
        "long",
        "--draw",
        "5 parsec",
        "--when",
        "31 feb 2026",
    ];
    let err = bench.fails(4, &words);
    says(
        &err,
        &[
            "4 things are missing or cannot be read:",
            "--aperture  \"wide\" is not an aperture",
            "--time      \"long\" is not a time",
            "--draw ",
            "--when ",
            "is not a day of the calendar",
        ],
    );
    let error = bench.json_error(4, &words);
    assert_eq!(error["kind"], "unreadable");
    let flags: Vec<&str> = error["flags"]
        .as_array()
        .expect("flags")
        .iter()
        .filter_map(|flag| flag["flag"].as_str())
        .collect();
    assert_eq!(flags, ["--draw", "--aperture", "--time", "--when"]);
    assert_eq!(bench.json(&["check"])["entries"], 3);
}

#[test]
fn odd_figures_and_times_are_refused_with_how_to_write_them() {
    let bench = Bench::loaded();
    for (words, part) in [
        (&["log", "expose", "h1a", "--time", "0"][..], "--time"),
        (
            &["log", "expose", "h1a", "--when", "24:61"],
            "is not a time of day",
        ),
        (&["log", "expose", "h1a", "--when", "3/4"], "day and month"),
        (
            &["log", "mix", "d", "--for", "developer", "--volume", "16 oz"],
            "--volume",
        ),
        (&["log", "mix", "d", "--for", "soup"], "none of: developer"),
        (
            &["log", "add-box", "x", "--size", "8x10", "--sheets", "-3"],
            "--sheets",
        ),
        (
            &["log", "add-box", "x", "--size", "big", "--sheets", "3"],
            "--size",
        ),
        (&["log", "see-slide", "h1a", "blue"], "--"),
        (&["log", "add-box"], "this is needed"),
        (&["entry", "fifty"], "is not the number of an entry"),
    ] {
        let err = bench.fails(4, words);
        says(&err, &[part]);
    }
    let err = bench.fails(3, &["log", "expose", "h1a", "--when", "2150-01-01"]);
    says(&err, &["is still to come"]);
}

#[test]
fn what_is_not_there_is_not_found() {
    let bench = Bench::loaded();
    for words in [
        &["show", "s99"][..],
        &["next", "p1"],
        &["trace", "the", "moon"],
        &["entry", "99"],
        &["strike", "99", "--why", "x"],
        &["amend", "99", "time=1s", "--why", "x"],
        &["list", "sheets", "--after", "s99"],
        &["processes", "daguerreotype"],
        &["log", "expose", "h9a"],
        &["log", "load", "h1b", "--box", "f9"],
        &["log", "develop", "s1", "s9"],
        &["log", "note", "s9", "x"],
    ] {
        let err = bench.fails(5, words);
        assert!(err.starts_with("notchbook: "), "{err}");
        let error = bench.json_error(5, words);
        assert_eq!(error["kind"], "not-found", "{words:?}");
    }
    says(
        &bench.fails(5, &["log", "expose", "h9a"]),
        &["h9a", "notchbook list"],
    );
}

#[test]
fn a_wrong_command_line_ends_with_two() {
    let bench = Bench::loaded();
    for words in [
        &["lgo"][..],
        &["log"],
        &["log", "levitate"],
        &["log", "expose", "h1a", "--shutter", "1s"],
        &["strike", "3"],
        &["amend", "3", "--why", "x"],
        &["amend", "3", "time", "--why", "x"],
        &["log", "expose", "h1a", "--side", "h1b"],
        &["list", "dreams"],
        &["list", "sheets", "--limit", "0"],
    ] {
        bench.fails(2, words);
        assert_eq!(bench.json_error(2, words)["kind"], "usage", "{words:?}");
    }
}

#[test]
fn what_cannot_be_a_bath_or_holder_of_that_kind_is_told_apart() {
    let bench = Bench::loaded();
    // A holder where a side is meant: which one?
    let err = bench.fails(4, &["log", "expose", "h1"]);
    says(&err, &["which side of H-01: H-01 A or H-01 B?"]);
    let err = bench.fails(4, &["log", "develop", "h1b"]);
    says(&err, &["there is no sheet in H-01 B now"]);
}
