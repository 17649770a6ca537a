//! What the program says of itself, and `--json` everywhere.

use super::bench::{Bench, says};
use notchbook::logbook::Kind;

fn log_words() -> impl Iterator<Item = &'static str> {
    let kinds = Kind::ALL.iter().filter(|kind| !kind.fields().is_empty());
    kinds.map(|kind| kind.word())
}

#[test]
fn completions_and_manual_name_every_log_word() {
    let bench = Bench::empty();
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let out = bench.ok(&["completions", shell]);
        for word in log_words() {
            assert!(out.contains(word), "{shell}: {word}");
        }
    }
    let manual = bench.ok(&["manual"]);
    assert!(manual.contains(".TH notchbook"), "{}", &manual[..200]);
    for word in log_words() {
        // A hyphen is written with a backslash there.
        let heading = format!(".SH \"NOTCHBOOK LOG {}\"", word.to_uppercase());
        assert!(manual.contains(&heading), "{heading}");
    }
    says(
        &manual,
        &["Exit codes", "NOTCHBOOK_LOGBOOK", "the logbook refuses"],
    );
}

#[test]
fn every_command_answers_with_one_json_object() {
    let bench = Bench::loaded();
    bench.ok(&["log", "expose", "h1a", "--time", "6s"]);
    bench.ok(&["log", "develop", "h1a", "--done"]);
    bench.ok(&["log", "print", "s1", "--process", "palladium"]);
    let commands: &[&[&str]] = &[
        &["log", "note", "s1", "a line"],
        &["undo"],
        &["strike", "7", "--why", "x", "--dry-run"],
        &["amend", "4", "time=8s", "--why", "misread"],
        &["list", "sheets"],
        &["list", "prints"],
        &["list", "holders"],
        &["list", "boxes"],
        &["list", "papers"],
        &["list", "baths"],
        &["list", "runs"],
        &["list", "sets"],
        &["list", "lenses"],
        &["list", "cameras"],
        &["rack"],
        &["show", "s1"],
        &["show", "h1"],
        &["show", "h1a"],
        &["show", "f1"],
        &["show", "r1"],
        &["show", "p1"],
        &["entry", "4"],
        &["next", "p1"],
        &["trace", "p1"],
        &["trace", "f1", "--down"],
        &["search", "palladium"],
        &["export"],
        &["export", "out.jsonl"],
        &["import", "out.jsonl"],
        &["rebuild"],
        &["check"],
        &["reckon"],
        &["processes"],
        &["processes", "van", "dyke"],
        &["keys"],
        &["paths"],
        &["completions", "bash"],
        &["manual"],
        &[
            "--logbook",
            "new.notchbook",
            "begin",
            "--size",
            "4x5",
            "--holders",
            "1",
        ],
        &["demo", "--path-only"],
    ];
    for words in commands {
        let answer = bench.json(words);
        assert!(
            !answer.as_object().expect("an object").is_empty(),
            "{words:?}"
        );
    }
    assert_eq!(bench.json_error(2, &[])["kind"], "usage");
}

#[test]
fn help_names_the_exit_codes() {
    let bench = Bench::empty();
    for words in [&["--help"][..], &["-h"]] {
        let help = bench.ok(words);
        says(
            &help,
            &[
                "Exit codes:",
                "3  the logbook refuses",
                "log",
                "trace",
                "--json",
            ],
        );
    }
    says(&bench.ok(&["--version"]), &[env!("CARGO_PKG_VERSION")]);
}

#[test]
fn a_process_is_told_with_cautions_sources_and_standing() {
    let bench = Bench::empty();
    let out = bench.ok(&["processes", "pt/pd"]);
    says(
        &out,
        &[
            "Platinum/palladium",
            "cautions",
            "Follow the supplier's safety data sheet",
            "coat",
            "--figure ",
            "[published: ",
        ],
    );
    let first_caution = out.find("cautions").expect("cautions");
    assert!(first_caution < out.find("steps").expect("steps"));
    let recipes = out.find("\nrecipes\n").expect("recipes");
    let contrast = out.find("\ncontrast\n").expect("tables of contrast");
    assert!(first_caution < recipes && recipes < contrast);
    says(
        &bench.ok(&["processes", "palladium"]),
        &[
            "ferric oxalate 3 : palladium 3 ml for 8x10 in",
            "sodium chloropalladite 15 %",
            "potassium dichromate 5 % in a litre of developer",
            "16 ml",
            "scale 1.26",
            "exposure scale, log\n  1.1 to 1.8 with dichromate in the developer [published: ",
            "keeping",
            "bath, EDTA: tetrasodium EDTA 1.5 to 3 %",
            "[remembered",
        ],
    );
    let json = bench.json(&["processes", "palladium"]);
    let rows = &json["process"]["contrasts"][0]["rows"];
    assert_eq!(
        (&rows[2]["at"], &rows[2]["from"]),
        (&4.0.into(), &1.5.into())
    );
    let mix = &json["process"]["mixes"][0];
    assert_eq!(mix["area"], "8x10 in");
    assert_eq!(mix["parts"][1]["holds"][0]["from"], 15.0);
    let json = bench.json(&["processes", "cyanotype"]);
    assert_eq!(json["process"]["id"], "cyanotype");
    assert!(
        json["process"]["steps"]
            .as_array()
            .is_some_and(|steps| steps.len() > 5)
    );
    let listed = bench.json(&["processes"]);
    assert!(
        listed["processes"]
            .as_array()
            .is_some_and(|all| all.len() >= 13)
    );
}

#[test]
fn lists_come_in_pages() {
    let bench = Bench::loaded();
    for _ in 0..4 {
        bench.ok(&["log", "load", "h1b", "--box", "f1"]);
        bench.ok(&["log", "fog", "h1b", "--why", "a leak"]);
        bench.ok(&["log", "unload", "h1b"]);
    }
    let first = bench.json(&["list", "sheets", "--limit", "2"]);
    let references = |page: &serde_json::Value| -> Vec<String> {
        let rows = page["rows"].as_array().expect("rows").iter();
        rows.filter_map(|row| row["reference"].as_str().map(str::to_owned))
            .collect()
    };
    assert_eq!(references(&first), ["S-0005", "S-0004"]);
    assert_eq!(first["next"], "S-0004");
    let second = bench.json(&["list", "sheets", "--limit", "3", "--after", "s4"]);
    assert_eq!(references(&second), ["S-0003", "S-0002", "S-0001"]);
    assert_eq!(second["next"], serde_json::Value::Null);
    let found = bench.json(&["list", "sheets", "--find", "loaded"]);
    assert_eq!(references(&found), ["S-0001"]);
    let hits = bench.json(&["search", "leak", "--limit", "3"]);
    assert_eq!(hits["hits"].as_array().map(Vec::len), Some(3));
    let next = hits["next"].as_i64().expect("a number").to_string();
    let rest = bench.json(&["search", "leak", "--after", &next]);
    assert_eq!(rest["hits"].as_array().map(Vec::len), Some(1));
    says(&bench.ok(&["list", "prints"]), &["no prints yet"]);
    says(
        &bench.ok(&["search", "nowhere"]),
        &["no entry says \"nowhere\""],
    );
}

#[test]
fn the_lives_are_told_from_the_tables_that_judge() {
    let bench = Bench::empty();
    let sheet = bench.ok(&["lives", "sheet"]);
    let row = sheet
        .lines()
        .find(|line| line.contains("loaded") && line.contains("exposed (expose)"))
        .unwrap_or_else(|| panic!("no such row in\n{sheet}"));
    assert!(row.ends_with("exposed"), "{row}");
    let all = bench.ok(&["lives"]);
    for kind in notchbook::logbook::ThingKind::ALL {
        assert!(
            all.lines().any(|line| line.starts_with(kind.name())),
            "{kind}"
        );
    }
}
