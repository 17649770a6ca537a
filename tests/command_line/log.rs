//! What the log words ask for, say and show.

use super::bench::{Bench, Ran, says};

#[test]
fn every_log_word_has_help_with_its_flags() {
    let bench = Bench::empty();
    let help = bench.ok(&["log", "--help"]);
    for kind in notchbook::logbook::Kind::ALL {
        if kind.fields().is_empty() {
            continue;
        }
        assert!(help.contains(kind.word()), "{}", kind.word());
        let help = bench.ok(&["log", kind.word(), "--help"]);
        for field in kind.fields() {
            let flag = format!("--{}", field.flag());
            says(&help, &[&flag, field.label.as_ref()]);
        }
        says(
            &help,
            &["--when", "--override", "--like-last", "--dry-run", "--note"],
        );
    }
}

#[test]
fn a_step_that_can_hurt_is_preceded_by_its_caution() {
    let bench = printing("cyanotype");
    let ran = bench.run(&["log", "step", "p1", "coat", "--figure", "drops-a=20"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    says(
        &ran.err,
        &[
            "caution: Potassium ferricyanide: ",
            "caution: Ferricyanide and acid: ",
            "Follow the supplier's safety data sheet and your local rules; where a licensed or trained person is required, ask one.",
        ],
    );
    says(&ran.out, &["print-step P-0001: coat", "20"]);
    let json = bench.json(&["log", "step", "p1", "dry-coating"]);
    assert!(json.get("cautions").is_none(), "{json}");
    let json = bench.json(&["log", "step", "p1", "expose"]);
    let cautions = json["cautions"].to_string();
    says(
        &cautions,
        &[
            "Ultraviolet light",
            "Follow the supplier's safety data sheet",
        ],
    );
}

/// A print that has been begun.
fn printing(process: &str) -> Bench {
    let bench = Bench::loaded();
    bench.ok(&["log", "expose", "h1a"]);
    bench.ok(&["log", "develop", "h1a", "--done"]);
    bench.ok(&["log", "print", "s1", "--process", process]);
    bench
}

#[test]
fn figures_of_a_step_are_checked_and_unknown_ones_are_named() {
    let bench = printing("cyanotype");
    let ran = bench.run(&[
        "log",
        "step",
        "p1",
        "coat",
        "--figure",
        "drop-a=20",
        "--figure",
        "area=9x11",
    ]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    says(
        &ran.err,
        &["\"drop-a\" is kept as it is written", "drops-a"],
    );
    let err = bench.fails(
        4,
        &["log", "step", "p1", "coat", "--figure", "volume=16 oz"],
    );
    says(&err, &["--figure volume"]);
    let err = bench.fails(3, &["log", "step", "p1", "wash"]);
    says(&err, &["P-0001", "wash", "comes after"]);
    let err = bench.fails(4, &["log", "step", "p1", "polish"]);
    says(&err, &["has no step \"polish\"", "coat"]);
}

#[test]
fn the_slide_that_contradicts_the_log_puts_the_side_in_doubt_until_it_is_resolved() {
    let bench = Bench::loaded();
    bench.ok(&["log", "see-slide", "h1a", "dark", "--note", "in the bag"]);
    says(
        &bench.ok(&["rack"]),
        &["A loaded", "IN DOUBT (dark side out)", "1 IN DOUBT"],
    );
    says(
        &bench.fails(3, &["log", "expose", "h1a"]),
        &["in doubt", "right-slide"],
    );
    says(&bench.ok(&["list", "sheets"]), &["IN DOUBT"]);
    says(
        &bench.ok(&["next", "h1a"]),
        &["IN DOUBT", "log right-slide \"H-01 A\""],
    );
    bench.ok(&["log", "right-slide", "h1a", "--why", "turned by mistake"]);
    assert_eq!(bench.json(&["rack"])["in_doubt"], 0);
}

#[test]
fn what_comes_next_is_told_as_commands_that_work() {
    let bench = Bench::loaded();
    let next = bench.json(&["next", "s1"]);
    let commands: Vec<String> = next["next"]
        .as_array()
        .expect("a list")
        .iter()
        .filter_map(|one| one["command"].as_str().map(str::to_owned))
        .collect();
    assert!(
        commands.contains(&"notchbook log expose \"H-01 A\"".to_owned()),
        "{commands:?}"
    );
    for command in &commands {
        let words: Vec<&str> = command
            .split('"')
            .enumerate()
            .flat_map(|(at, part)| {
                if at % 2 == 1 {
                    vec![part]
                } else {
                    part.split_whitespace().collect()
                }
            })
            .skip(1)
            .chain(["--dry-run"])
            .collect();
        let ran = bench.run(&words);
        // Some ask for a reason or a second sheet; none is about the wrong thing.
        assert!(
            [0, 4].contains(&ran.code) || words[1] == "pair",
            "{command}: {}",
            ran.err
        );
    }
}

#[test]
fn notes_with_control_characters_are_shown_and_kept() {
    let bench = Bench::loaded();
    let hostile = "a\u{1b}]52;c;eA==\u{7}b\u{202e}c\u{9b}31m\u{200b}d\ttab\nline";
    bench.ok(&["log", "note", "s1", hostile]);
    bench.ok(&[
        "log",
        "expose",
        "h1a",
        "--subject",
        hostile,
        "--note",
        hostile,
    ]);
    for words in [
        &["show", "s1"][..],
        &["show", "h1a"],
        &["list", "sheets"],
        &["rack"],
        &["entry", "4"],
        &["entry", "5"],
        &["search", "tab"],
        &["trace", "s1"],
        &[
            "log",
            "expose",
            "h1a",
            "--again",
            "--subject",
            hostile,
            "--dry-run",
        ],
        &["undo", "--why", hostile, "--dry-run"],
    ] {
        let out = bench.ok(words);
        assert!(is_harmless(&out), "{words:?}: {out:?}");
        let mut with_json = words.to_vec();
        with_json.push("--json");
        let json = bench.ok(&with_json);
        assert!(is_harmless(&json), "{words:?}: {json:?}");
    }
    says(
        &bench.ok(&["entry", "4"]),
        &["a^[]52;c;eA==^Gb<U+202E>c<U+009B>31m<U+200B>d tab↵line"],
    );
    let entry = bench.json(&["entry", "5"]);
    assert_eq!(entry["entry"]["note"], hostile);
    // What is typed wrong comes back visibly too.
    let err = bench.fails(4, &["log", "expose", "h1a", "--time", hostile]);
    assert!(is_harmless(&err), "{err:?}");
    let err = bench.fails(5, &["show", hostile]);
    assert!(is_harmless(&err), "{err:?}");
    let err = bench.fails(2, &[hostile]);
    assert!(is_harmless(&err), "{err:?}");
}

/// Whether nothing is left in it that a terminal would obey or hide.
fn is_harmless(text: &str) -> bool {
    notchbook::export::shown(text) == text
}

#[test]
fn every_character_comes_back_from_json_and_none_reaches_the_terminal_raw() {
    let bench = Bench::loaded();
    let plain: String = ('\u{1}'..'\u{3000}').collect();
    let odd: String = ('\u{d000}'..='\u{10ffff}').step_by(97).collect();
    for (row, text) in [(4, plain), (5, odd)] {
        bench.ok(&["log", "note", "s1", &format!("{row} {text}.")]);
        let row = row.to_string();
        for words in [
            &["entry", row.as_str()][..],
            &["show", "s1"],
            &["search", "s-0001"],
        ] {
            let out = bench.ok(words);
            assert!(
                out.chars().count() > 10_000 && is_harmless(&out),
                "{words:?}"
            );
        }
        let json = bench.ok(&["entry", &row, "--json"]);
        assert!(is_harmless(&json));
        let entry: serde_json::Value = serde_json::from_str(&json).expect("JSON");
        let told = entry["entry"]["telling"]["headline"]
            .as_str()
            .expect("text");
        assert_eq!(told, format!("{row} {text}."));
    }
}

/// The rule of central Europe, so that no table of zones is needed.
const SUMMER_TIME: &str = "CET-1CEST,M3.5.0,M10.5.0/3";

#[test]
fn a_time_that_is_typed_has_the_offset_its_own_day_had_and_not_the_one_of_now() {
    let bench = Bench::empty();
    let run = |words: &[&str]| {
        let output = bench.command(words).env("TZ", SUMMER_TIME).output();
        let ran = Ran::of(&output.expect("it runs"));
        assert_eq!(ran.code, 0, "{words:?}\n{}", ran.err);
        ran.out
    };
    run(&["begin"]);
    for (row, when, offset) in [
        ("1", "2024-01-10 16:02", "+01:00"),
        ("2", "2024-07-10 16:02", "+02:00"),
        ("3", "2024-10-27 04:02", "+01:00"),
    ] {
        run(&["log", "add-holder", "8x10", "--sides", "2", "--when", when]);
        let shown = run(&["entry", row, "--json"]);
        let shown: serde_json::Value = serde_json::from_str(&shown).expect("JSON");
        let happened = shown["entry"]["happened"].as_str().expect("a time");
        assert!(happened.ends_with(offset), "{when}: {happened}");
        assert!(
            happened.contains("T16:02") || happened.contains("T04:02"),
            "{happened}"
        );
    }
    let skipped = ["log", "add-lens", "240 mm", "--when", "2024-03-31 02:30"];
    let output = bench.command(&skipped).env("TZ", SUMMER_TIME).output();
    let ran = Ran::of(&output.expect("it runs"));
    assert_ne!(ran.code, 0);
    says(&ran.err, &["put forward over it", "02:30 +01:00"]);
}
