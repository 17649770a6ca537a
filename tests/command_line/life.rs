//! A whole life, from the film box to the wall, by commands.

use super::bench::{Bench, says};

/// Everything that is needed to print, logged yesterday.
fn matted_print() -> Bench {
    let bench = Bench::empty();
    bench.ok(&[
        "begin",
        "--size",
        "8x10",
        "--holders",
        "2",
        "--film",
        "FP4 Plus",
        "--sheets",
        "25",
        "--speed",
        "80",
        "--emulsion",
        "4417",
    ]);
    let acts: &[&[&str]] = &[
        &["add-lens", "240 mm, front board", "--focal-length", "240mm"],
        &["add-camera", "field camera, cherry", "--size", "8x10"],
        &["load", "h1a", "--box", "f1"],
        &[
            "expose",
            "h1a",
            "--subject",
            "north wall, thaw",
            "--lens",
            "l1",
            "--camera",
            "c1",
            "--aperture",
            "f/32",
            "--time",
            "6s",
            "--filter",
            "orange",
            "--readings",
            "III 8.7  V 10.3",
        ],
        &[
            "mix",
            "pyro, two parts",
            "--for",
            "developer",
            "--dilution",
            "1+1+100",
            "--volume",
            "1 l",
        ],
        &[
            "mix",
            "neutral fixer",
            "--for",
            "fixer",
            "--volume",
            "1 l",
            "--capacity",
            "20",
        ],
        &[
            "develop",
            "h1a",
            "--developer",
            "b1",
            "--fixer",
            "b2",
            "--time",
            "11m30",
            "--temperature",
            "20.5",
            "--vessel",
            "tray",
            "--done",
            "--time-given",
            "11m30",
            "--washed",
            "20 min",
            "--seen",
            "even, no marks",
        ],
        &["measure", "s1", "--low", "0.31", "--high", "1.86"],
        &["file", "s1", "binder 4, page 11"],
        &[
            "add-paper",
            "cotton rag, natural",
            "--size",
            "11x14",
            "--sheets",
            "20",
        ],
        &[
            "print",
            "s1",
            "--process",
            "palladium",
            "--paper",
            "q1",
            "--title",
            "North Wall",
        ],
    ];
    for act in acts {
        let words: Vec<&str> = std::iter::once("log").chain(act.iter().copied()).collect();
        bench.ok(&words);
    }
    // The process says which step comes next; each is logged until none is required any more.
    let clearing = "mix";
    for name in ["clearing one", "clearing two"] {
        bench.ok(&[
            "log", clearing, name, "--for", "clearing", "--volume", "1 l",
        ]);
    }
    for _ in 0..40 {
        let next = bench.json(&["next", "p1"]);
        if next["thing"]["state"] != "in process" {
            break;
        }
        let step = next["next"]
            .as_array()
            .and_then(|all| all.iter().find_map(|one| one["step"].as_str()))
            .expect("a step comes next")
            .to_owned();
        let mut words = vec!["log", "step", "p1", step.as_str()];
        if step == "coat" {
            words.extend(["--figure", "drops-a=12"]);
        }
        if step.starts_with("clear") {
            words.extend(["--baths", if step.ends_with('1') { "b3" } else { "b4" }]);
        }
        bench.ok(&words);
    }
    for act in [
        &["press", "p1", "--temperature", "82C", "--for", "45s"][..],
        &[
            "mat",
            "p1",
            "--outer",
            "16x20",
            "--window",
            "7 1/2 x 9 1/2 in",
            "--board",
            "4-ply cotton",
        ],
        &["sign", "p1", "--number", "1/10"],
        &["frame", "p1", "ash, 16x20"],
        &["place", "p1", "wall", "--place", "hall, north side"],
    ] {
        let words: Vec<&str> = std::iter::once("log").chain(act.iter().copied()).collect();
        bench.ok(&words);
    }
    bench
}

#[test]
fn the_trace_of_a_framed_print_names_everything_behind_it() {
    let bench = matted_print();
    let trace = bench.ok(&["trace", "p1"]);
    says(
        &trace,
        &[
            // the print
            "P-0001",
            "coat",
            "12",
            "press",
            "82",
            "16x20",
            "cotton rag, natural",
            "Q-0001",
            // its baths, with the day they were mixed
            "B-0003",
            "clearing one",
            "B-0004",
            // the negative
            "S-0001",
            "0.31",
            "1.86",
            "f/32 at 6 s",
            "north wall, thaw",
            "240 mm, front board",
            "L-01",
            "C-01",
            "H-01 A",
            // run, developer, box
            "R-0001",
            "11 min 30 s",
            "B-0001",
            "pyro, two parts",
            "F-01",
            "FP4 Plus",
            "4417",
        ],
    );
    let down = bench.ok(&["trace", "f1", "--down"]);
    says(&down, &["F-01", "S-0001", "P-0001"]);
    let steps = bench.json(&["trace", "p1"]);
    let steps = steps["steps"].as_array().expect("steps").clone();
    for (reference, role) in [
        ("S-0001", "negative"),
        ("Q-0001", "paper"),
        ("R-0001", "run"),
        ("B-0001", "developer"),
        ("B-0002", "fixer"),
        ("L-01", "lens"),
        ("C-01", "camera"),
        ("F-01", "film box"),
        ("H-01 A", "holder side"),
    ] {
        assert!(
            steps
                .iter()
                .any(|step| step["reference"] == reference && step["role"] == role),
            "{role} {reference} is not in the trace"
        );
    }
}

#[test]
fn lists_and_timelines_tell_the_whole_story() {
    let bench = matted_print();
    says(
        &bench.ok(&["list", "sheets"]),
        &[
            "S-0001",
            "filed",
            "north wall, thaw",
            "1.55",
            "binder 4, page 11",
            "R-0001",
        ],
    );
    says(
        &bench.ok(&["list", "prints"]),
        &[
            "P-0001",
            "framed",
            "North Wall",
            "palladium",
            "wall, hall, north side",
            "1/10",
        ],
    );
    says(&bench.ok(&["list", "boxes"]), &["F-01", "24", "25", "4417"]);
    says(
        &bench.ok(&["list", "runs"]),
        &["R-0001", "ended", "S-0001", "tray"],
    );
    says(
        &bench.ok(&["rack"]),
        &["H-01", "A empty", "H-02", "4 empty"],
    );
    let show = bench.ok(&["show", "s1"]);
    says(
        &show,
        &[
            "S-0001  sheet",
            "filed",
            "exposed",
            "f/32 at 6 s",
            "measured",
            "P-0001",
            "print-begun",
        ],
    );
    says(&show, &["notchbook log print S-0001"]);
    says(
        &bench.ok(&["show", "H-01", "A"]),
        &["H-01 A  side", "loaded", "exposed", "empty"],
    );
    says(
        &bench.ok(&["show", "h1"]),
        &["H-01  holder", "H-01 A", "H-01 B", "empty"],
    );
    says(
        &bench.ok(&["search", "thaw"]),
        &["exposed", "S-0001", "north wall, thaw"],
    );
    assert_eq!(bench.json(&["check"])["sound"], true);
    let rebuilt = bench.json(&["rebuild"]);
    assert_eq!(rebuilt["misfits"], 0);
    assert_eq!(bench.json(&["check"])["sound"], true);
}

#[test]
fn the_receipt_is_one_line_with_the_number_of_the_entry() {
    let bench = Bench::loaded();
    let out = bench.ok(&["log", "expose", "h1a", "--aperture", "f/32", "--time", "6s"]);
    assert_eq!(out, "#4 exposed H-01 A: f/32 at 6 s (S-0001)\n");
    let out = bench.ok(&["log", "load", "H-01", "B", "--box", "F-01"]);
    assert_eq!(out, "#5 loaded H-01 B: F-01 (S-0002)\n");
}

#[test]
fn a_run_that_is_over_is_begun_and_ended_in_one_act() {
    let bench = Bench::loaded_days_ago();
    bench.ok(&["log", "expose", "h1a", "--when", "-3h"]);
    let done = bench.json(&[
        "log",
        "develop",
        "h1a",
        "--time",
        "10m",
        "--when",
        "-2h",
        "--done",
        "--time-given",
        "11m",
    ]);
    let entries = done["entries"].as_array().expect("entries").clone();
    assert_eq!(entries.len(), 2);
    assert_eq!(entries[0]["kind"], "run-begun");
    assert_eq!(entries[1]["kind"], "run-ended");
    let time = |at: usize| {
        let text = entries[at]["happened"].as_str().expect("a time");
        chrono::DateTime::parse_from_rfc3339(text).expect("a time")
    };
    assert_eq!((time(1) - time(0)).num_minutes(), 11);
    assert_eq!(bench.json(&["show", "s1"])["thing"]["state"], "negative");
    // One act: one undo takes both back.
    bench.ok(&["undo"]);
    assert_eq!(bench.json(&["show", "s1"])["thing"]["state"], "exposed");
    let err = bench.fails(2, &["log", "develop", "h1a", "--seen", "even"]);
    says(&err, &["--done"]);
}

#[test]
fn the_last_similar_entry_can_be_taken_over() {
    let bench = Bench::loaded();
    let ran = bench.run(&["log", "add-lens", "a lens", "--like-last"]);
    says(&ran.err, &["no similar entry yet"]);
    bench.ok(&["log", "load", "h1b", "--like-last"]);
    bench.ok(&[
        "log",
        "expose",
        "h1a",
        "--subject",
        "north wall",
        "--aperture",
        "f/32",
        "--time",
        "6s",
    ]);
    let out = bench.ok(&["log", "expose", "h1b", "--like-last", "--time", "12s"]);
    says(&out, &["H-01 B", "f/32 at 12 s", "north wall", "S-0002"]);
}

#[test]
fn a_rehearsal_says_what_would_be_logged_and_writes_nothing() {
    let bench = Bench::loaded();
    let out = bench.ok(&["log", "load", "h1b", "--box", "f1", "--dry-run"]);
    assert_eq!(
        out,
        "would be logged: loaded H-01 B: F-01 (S-0002)\nnothing was written\n"
    );
    let json = bench.json(&["log", "load", "h1b", "--box", "f1", "--dry-run"]);
    assert_eq!(json["written"], false);
    assert_eq!(json["entries"][0]["created"]["reference"], "S-0002");
    says(
        &bench.fails(3, &["log", "load", "h1a", "--box", "f1", "--dry-run"]),
        &["H-01 A has been loaded since"],
    );
    assert_eq!(
        bench.json(&["list", "sheets"])["rows"]
            .as_array()
            .map(Vec::len),
        Some(1)
    );
}

#[test]
fn a_negative_tells_its_faults_its_scan_and_its_densities_in_each_light() {
    let bench = Bench::loaded();
    for act in [
        &["expose", "h1a", "--time", "6s"][..],
        &["develop", "h1a", "--done"],
        &[
            "measure",
            "s1",
            "--low",
            "0.3",
            "--high",
            "1.4",
            "--channel",
            "visual",
        ],
        &[
            "measure",
            "s1",
            "--low",
            "0.3",
            "--high",
            "1.9",
            "--channel",
            "ultraviolet",
        ],
        &[
            "see-fault",
            "s1",
            "--fault",
            "bubbles",
            "--where",
            "upper left",
            "--harm",
            "can be mended",
        ],
        &["scan", "s1", "scans/one.tif", "--resolution", "2400"],
    ] {
        let words: Vec<&str> = std::iter::once("log").chain(act.iter().copied()).collect();
        bench.ok(&words);
    }
    let shown = bench.ok(&["show", "s1"]);
    says(
        &shown,
        &[
            "0.30 .. 1.40, visual",
            "0.30 .. 1.90, ultraviolet",
            "air bells, upper left",
            "scans/one.tif",
        ],
    );
    says(&bench.ok(&["search", "air bells"]), &["S-0001"]);
    says(&bench.ok(&["reckon", "fault"]), &["reticulation"]);
}
