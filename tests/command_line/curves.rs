//! Strips of steps: read by hand or from a file, put beside each other, and written out.

use super::bench::{Bench, says};

/// Five times of the same film behind 21 steps. CONSTRUCTED from a formula, not measured.
const FAMILY: &str = "step,tablet_D,logH,t4,t5.5,t8,t11,t16
1,0.05,0.30,0.95,1.22,1.61,1.99,2.45
2,0.20,0.15,0.89,1.15,1.51,1.87,2.31
3,0.35,0.00,0.83,1.07,1.42,1.75,2.17
4,0.50,-0.15,0.78,1.00,1.32,1.64,2.02
5,0.65,-0.30,0.72,0.93,1.23,1.52,1.88
6,0.80,-0.45,0.66,0.85,1.13,1.40,1.74
7,0.95,-0.60,0.61,0.78,1.04,1.29,1.60
8,1.10,-0.75,0.55,0.71,0.94,1.17,1.46
9,1.25,-0.90,0.49,0.64,0.84,1.05,1.32
10,1.40,-1.05,0.44,0.56,0.75,0.94,1.18
11,1.55,-1.20,0.38,0.49,0.65,0.82,1.04
12,1.70,-1.35,0.33,0.42,0.56,0.71,0.90
13,1.85,-1.50,0.27,0.35,0.47,0.59,0.76
14,2.00,-1.65,0.22,0.28,0.38,0.48,0.63
15,2.15,-1.80,0.18,0.23,0.30,0.38,0.50
16,2.30,-1.95,0.15,0.18,0.23,0.30,0.39
17,2.45,-2.10,0.13,0.15,0.19,0.23,0.30
18,2.60,-2.25,0.12,0.14,0.16,0.19,0.24
19,2.75,-2.40,0.12,0.13,0.14,0.16,0.20
20,2.90,-2.55,0.12,0.13,0.14,0.15,0.18
21,3.05,-2.70,0.12,0.12,0.13,0.15,0.17
";

/// A logbook with the family read from a file.
fn with_a_family() -> Bench {
    let bench = Bench::begun();
    let file = bench.write("family.csv", FAMILY.as_bytes());
    let read = bench.ok(&[
        "log",
        "read-strip",
        "--film",
        "FP4 Plus",
        "--developer",
        "plain metol",
        "--dilution",
        "1+1",
        "--bare",
        "0.35",
        "--readings-file",
        &file.display().to_string(),
    ]);
    says(&read, &["N-0001", "N-0005", "16 min"]);
    bench
}

#[test]
fn five_strips_of_a_file_are_five_entries_of_one_act() {
    let bench = with_a_family();
    let list = bench.ok(&["list", "findings"]);
    says(&list, &["N-0001", "N-0005", "plain metol 1+1, 5 min 30 s"]);
    let show = bench.ok(&["show", "n3"]);
    says(&show, &["strip", "FP4 Plus"]);
    bench.ok(&["undo"]);
    says(&bench.ok(&["list", "findings"]), &["no findings yet"]);
}

#[test]
fn a_file_that_cannot_be_read_and_readings_given_twice_are_refused() {
    let bench = Bench::begun();
    let ran = bench.run(&[
        "log",
        "read-strip",
        "--film",
        "x",
        "--readings-file",
        "none.csv",
    ]);
    assert_ne!(ran.code, 0);
    says(&ran.err, &["none.csv could not be read"]);
    let file = bench.write("strip.csv", b"density\n1.2\n");
    let file = file.display().to_string();
    let twice = [
        "log",
        "read-strip",
        "--readings",
        "1.2",
        "--readings-file",
        &file,
    ];
    says(&bench.run(&twice).err, &["give one"]);
    let short = ["log", "read-strip", "--film", "x", "--readings-file", &file];
    says(&bench.run(&short).err, &["fewer than four"]);
}

#[test]
fn strips_are_listed_and_drawn_and_told_as_a_document() {
    let bench = with_a_family();
    says(
        &bench.ok(&["curves"]),
        &["N-0001", "plain metol 1+1", "0.60"],
    );
    let drawn = bench.ok(&["curves", "n3", "n4"]);
    says(
        &drawn,
        &[
            "N-0003 8 min",
            "average gradient",
            "density",
            "x N-0004 11 min",
        ],
    );
    let json = bench.json(&["curves", "n3"]);
    let gradient = json["strips"][0]["average_gradient"]
        .as_f64()
        .expect("a gradient");
    assert!((gradient - 0.60).abs() < 0.005, "{gradient}");
    assert_eq!(json["view"], "curve");
    let ran = bench.run(&["curves", "n9"]);
    assert_eq!(ran.code, 5, "{}", ran.err);
}

#[test]
fn a_family_tells_the_times_for_n_and_refuses_beyond() {
    let bench = with_a_family();
    let words = bench.ok(&["curves", "--view", "family", "--wanted", "0.583"]);
    says(
        &words,
        &[
            "N-0001, N-0002",
            "gradient 0.583",
            "N+2: a gradient of 0.875",
        ],
    );
    let json = bench.json(&["curves", "n1", "--view", "family"]);
    says(&json["answer"].to_string(), &["N+1", "contrast of ISO 6"]);
    let ran = bench.run(&["curves", "n1", "--view", "control"]);
    says(&ran.err, &["N-0001 is no control strip"]);
}

#[test]
fn pictures_and_tables_are_written_to_new_files_and_a_table_reads_back() {
    let bench = with_a_family();
    let (svg, csv) = (bench.path("family.svg"), bench.path("out.csv"));
    let (svg_text, csv_text) = (svg.display().to_string(), csv.display().to_string());
    let written = bench.ok(&[
        "curves", "n1", "n2", "n3", "n4", "n5", "--svg", &svg_text, "--csv", &csv_text,
    ]);
    says(
        &written,
        &["the picture is written to", "the table is written to"],
    );
    let picture = std::fs::read_to_string(&svg).expect("a picture");
    says(
        &picture,
        &["<svg", "</svg>", "log exposure, lx s", "N-0001 4 min"],
    );
    let again = bench.run(&["curves", "n1", "--svg", &svg_text]);
    assert_eq!(again.code, 7, "{}", again.err);
    assert_eq!(std::fs::read_to_string(&svg).expect("a picture"), picture);
    let table = std::fs::read_to_string(&csv).expect("a table");
    says(&table, &["step,tablet,log exposure,4 min,", "16 min"]);
    bench.ok(&[
        "log",
        "read-strip",
        "--film",
        "FP4 Plus",
        "--readings-file",
        &csv_text,
    ]);
    let strips = bench.json(&["curves"]);
    let read = |number: u32| {
        let reference = format!("N-{number:04}");
        let all = strips["strips"].as_array().expect("strips");
        let one = all
            .iter()
            .find(|it| it["reference"] == reference.as_str())
            .expect("it is there");
        (one["readings"].clone(), one["seconds"].clone())
    };
    for at in 1..=5 {
        assert_eq!(read(at), read(at + 5), "{at}");
    }
}

#[test]
fn a_series_is_told_with_the_rule_of_its_limits() {
    let bench = Bench::begun();
    for (day, readings) in [
        (
            "2026-02-01 10:00",
            "1.60 1.41 1.21 1.02 0.83 0.64 0.45 0.29 0.18 0.14 0.13",
        ),
        (
            "2026-02-08 10:00",
            "1.61 1.42 1.23 1.03 0.84 0.65 0.46 0.29 0.18 0.14 0.13",
        ),
        (
            "2026-02-15 10:00",
            "1.59 1.40 1.21 1.02 0.83 0.64 0.45 0.29 0.18 0.14 0.13",
        ),
        (
            "2026-02-22 10:00",
            "1.33 1.17 1.01 0.85 0.69 0.53 0.38 0.25 0.18 0.16 0.15",
        ),
    ] {
        bench.ok(&[
            "log",
            "read-strip",
            "--film",
            "=FP4",
            "--series",
            "tank line",
            "--tablet",
            "11",
            "--bare",
            "0.35",
            "--when",
            day,
            "--readings",
            readings,
        ]);
    }
    let words = bench.ok(&["curves", "tank", "line"]);
    says(
        &words,
        &[
            "control strips: tank line",
            "mean of the first 4",
            "lower limit",
        ],
    );
    bench.ok(&[
        "log",
        "set-limits",
        "tank line",
        "--gradient",
        "0.6",
        "--gradient-within",
        "0.04",
    ]);
    let words = bench.ok(&["curves", "tank line"]);
    says(
        &words,
        &[
            "under the lower limit since 22 Feb (N-0004)",
            "set to 0.600 ± 0.040",
        ],
    );
    let json = bench.json(&["curves", "n1", "--view", "control"]);
    assert_eq!(json["series"], "tank line");
    assert_eq!(json["measures"][0]["standing"], "own");
}
