//! What is known of lenses, and what the user has found out, by commands.

use super::bench::{Bench, says};

fn with_records() -> Bench {
    let bench = Bench::begun();
    let acts: &[&[&str]] = &[
        &[
            "add-lens",
            "300 mm, process",
            "--focal-length",
            "300mm",
            "--widest",
            "f/9",
            "--image-circle",
            "425 mm",
            "--pupil-ratio",
            "0.98",
            "--flange",
            "294 mm",
        ],
        &[
            "test-shutter",
            "l1",
            "--mark",
            "1/60",
            "--timings",
            "1/50 1/48 1/52",
        ],
        &[
            "find-filter",
            "orange",
            "--stops",
            "x5",
            "--film",
            "FP4 Plus",
        ],
        &[
            "find-reciprocity",
            "FP4 Plus",
            "--metered",
            "10s",
            "--needed",
            "22s",
        ],
        &["find-light", "the weir, noon", "--value", "EV 11"],
        &["find-film", "Plain Pan", "--speed", "64", "--kind", "ortho"],
        &["find-film", "HP5 Plus", "--speed", "250"],
        &[
            "find-format",
            "6.5x8.5",
            "--name",
            "whole plate",
            "--image",
            "157x208 mm",
            "--depth",
            "5.8 mm",
        ],
        &["set-meter", "--reflected", "12.5"],
        &[
            "keep-place",
            "the ford",
            "--coordinates",
            "46.5 N 8.2 E",
            "--zone",
            "oslo",
        ],
    ];
    for act in acts {
        bench.ok(&[&["log"], *act].concat());
    }
    bench
}

#[test]
fn what_is_known_of_a_lens_is_shown_with_the_tests_of_its_shutter() {
    let bench = with_records();
    let shown = bench.ok(&["show", "l1"]);
    for wanted in [
        "focal length    300 mm",
        "image circle    425 mm",
        "pupil ratio     0.98",
        "flange to film  294 mm",
        "1/60 s gives 1/50 s, +0.36 stop, 3 shots",
    ] {
        says(&shown, &[wanted]);
    }
    bench.ok(&[
        "amend",
        "1",
        "pupil-ratio=1",
        "--why",
        "looked at the pupils again",
    ]);
    assert_eq!(bench.json(&["show", "l1"])["facts"]["pupil ratio"], "1");
}

#[test]
fn findings_are_listed_shown_searched_and_taken_out_of_use() {
    let bench = with_records();
    let listed = bench.json(&["list", "findings"]);
    let rows = listed["rows"].as_array().expect("rows");
    let sorts: Vec<&str> = rows.iter().filter_map(|row| row["sort"].as_str()).collect();
    assert_eq!(
        sorts,
        [
            "place",
            "meter",
            "format",
            "film",
            "film",
            "light",
            "reciprocity",
            "filter"
        ]
    );
    says(
        &bench.ok(&["list", "findings", "--find", "orange"]),
        &[
            "N-0001",
            "kept",
            "filter",
            "orange",
            "+2.32 stops, on FP4 Plus",
        ],
    );
    let found = bench.json(&["search", "weir"]);
    assert_eq!(found["hits"][0]["kind"], "light-found");
    bench.ok(&["log", "retire", "n1", "another glass"]);
    assert_eq!(bench.json(&["show", "n1"])["thing"]["state"], "out of use");
    let lives = bench.ok(&["lives", "finding"]);
    says(
        &lives,
        &["finding", "kept", "retired (retire)", "out of use"],
    );
}

#[test]
fn figures_go_by_what_stands_in_the_logbook() {
    let bench = with_records();
    let reckoned = bench.json(&["reckon", "bellows", "--lens", "l1", "--draw", "400 mm"]);
    let text = reckoned.to_string();
    assert!(text.contains("294 mm"), "by its own flange: {text}");
}

#[test]
fn own_films_and_formats_are_asked_before_what_is_published() {
    let bench = with_records();
    let known = bench.ok(&["reckon", "films", "--film", "HP5 Plus"]);
    says(&known, &["250", "own", "found on", "panchromatic"]);
    let own = bench.ok(&["reckon", "films", "--film", "plain pan"]);
    says(&own, &["64", "own", "orthochromatic"]);
    let holder = bench.ok(&["reckon", "holder", "--format", "whole plate"]);
    says(&holder, &["5.80 mm (0.228 in)", "157 x 208 mm", "own"]);
    let angle = bench.ok(&[
        "reckon",
        "angle",
        "--format",
        "6.5x8.5",
        "--focal-length",
        "240",
    ]);
    says(
        &angle,
        &["image area of whole plate", "157 x 208 mm", "own"],
    );
    let exposed = bench.ok(&[
        "reckon",
        "exposure",
        "--readings",
        "V 12",
        "--film",
        "Plain Pan",
        "--aperture",
        "f/16",
    ]);
    says(&exposed, &["film at 64", "own"]);
    bench.ok(&["log", "retire", "n5", "another emulsion"]);
    let known = bench.ok(&["reckon", "films", "--film", "HP5 Plus"]);
    says(&known, &["400", "published"]);
    assert!(!known.contains("found on"), "{known}");
}

#[test]
fn an_own_finding_of_a_neutral_filter_is_reckoned_with() {
    let bench = with_records();
    bench.ok(&["log", "find-filter", "ND 1.8", "--stops", "6.3"]);
    let taken = bench.ok(&["reckon", "filters", "--filters", "ND1.8"]);
    says(&taken, &["ND 1.8", "+6.3 stops", "own finding", "own"]);
    let chain = bench.ok(&[
        "reckon",
        "exposure",
        "--readings",
        "V 12",
        "--speed",
        "100",
        "--filter",
        "ND 1.8",
        "--aperture",
        "f/16",
    ]);
    says(&chain, &["ND 1.8", "+6.3 stops", "own"]);
}
