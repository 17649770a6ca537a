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
        "1/60 s gives 1/50 s, +0.26 stop, 3 shots",
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
    assert_eq!(sorts, ["place", "meter", "light", "reciprocity", "filter"]);
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
