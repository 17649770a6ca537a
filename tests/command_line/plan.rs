//! What to develop next, by command.

use super::bench::{Bench, says};

/// Three sheets of FP4 in 4x5 that wait, one of which asks for N-1.
fn waiting() -> Bench {
    let bench = Bench::empty();
    bench.ok(&["begin"]);
    bench.ok(&[
        "log", "add-box", "FP4 Plus", "--size", "4x5", "--sheets", "25",
    ]);
    for (side, wish) in [("h1a", None), ("h2a", Some("N-1")), ("h3a", None)] {
        bench.ok(&["log", "add-holder", "4x5", "--sides", "1"]);
        bench.ok(&["log", "load", side, "--box", "f1"]);
        let mut words = vec!["log", "expose", side];
        if let Some(wish) = wish {
            words.extend(["--development", wish]);
        }
        bench.ok(&words);
    }
    bench
}

const IN: &[&str] = &[
    "plan",
    "--vessel",
    "tank, 2 of 4x5, 1000 ml",
    "--developer",
    "DD-X 1+4",
    "--temperature",
    "20C",
];

#[test]
fn groups_runs_times_and_what_lacks_are_told_with_their_steps() {
    let bench = waiting();
    let told = bench.ok(IN);
    says(
        &told,
        &[
            "FP4 Plus 4x5 in, N: 10 min, 1 run",
            "FP4 Plus 4x5 in, N-1: 8 min, 1 run",
            "asks for N-1",
            "2 runs in all, 58 min on the clock",
            "usual",
            "2000 ml",
            "stop bath",
        ],
    );
    let plan = bench.json(IN);
    assert_eq!(plan["runs"], 2);
    assert_eq!(plan["groups"][1]["contrast"], "N-1");
    assert_eq!(plan["groups"][1]["seconds"], 480.0);
    assert_eq!(plan["needs"][0]["to_mix"], 2000.0);
    assert_eq!(plan["needs"][0]["of_stock"], 400.0);
    assert!(plan["groups"][0]["answer"]["steps"].is_array());
}

#[test]
fn what_cannot_be_read_is_told_beside_its_flag_and_nothing_said_is_asked_for() {
    let bench = waiting();
    let why = bench.fails(4, &["plan"]);
    says(&why, &["--vessel", "tray 8x10"]);
    let why = bench.fails(4, &["plan", "--vessel", "bucket", "--developer", "DD-X"]);
    says(&why, &["--vessel", "bucket"]);
    let mut odd = IN.to_vec();
    odd[6] = "warm";
    says(&bench.fails(4, &odd), &["--temperature", "warm"]);
}

#[test]
fn vessel_and_developer_of_the_last_run_are_taken_and_its_time_is_kept_with_its_steps() {
    let bench = waiting();
    bench.ok(&[
        "log",
        "mix",
        "Ilfotec DD-X",
        "--purpose",
        "developer",
        "--dilution",
        "1+4",
        "--volume",
        "3 l",
    ]);
    let begun = bench.json(&[
        "log",
        "develop",
        "s2",
        "--developer",
        "b1",
        "--vessel",
        "tray 5x7",
        "--temperature",
        "20C",
    ]);
    let text = begun.to_string();
    assert!(text.contains("N-1"), "{text}");
    let shown = bench.json(&["show", "r1"]).to_string();
    says(
        &shown,
        &["agitated all the time", "6 min 48 s", "S-0002 asks for"],
    );
    let plan = bench.json(&["plan"]);
    assert_eq!(plan["runs"], 1);
    assert!(
        plan["vessel"]
            .as_str()
            .is_some_and(|it| it.starts_with("tray 5x7"))
    );
    // In a tray the film is moved all the time: 10 min x 0.85.
    assert_eq!(plan["groups"][0]["time"], "8 min 30 s");
}

#[test]
fn an_own_time_goes_before_the_table() {
    let bench = waiting();
    bench.ok(&[
        "log",
        "find-development",
        "FP4 Plus",
        "--developer",
        "DD-X",
        "--dilution",
        "1+4",
        "--temperature",
        "20C",
        "--time",
        "9m",
        "--agitation",
        "intermittent",
    ]);
    let told = bench.ok(IN);
    says(&told, &["FP4 Plus 4x5 in, N: 9 min", "own"]);
    let figure = bench.ok(&[
        "reckon",
        "develop",
        "--film",
        "FP4 Plus",
        "--developer",
        "DD-X",
    ]);
    says(&figure, &["9 min", "own time, found"]);
}
