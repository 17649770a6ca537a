//! Figures on the command line: the list, the help of each, its example, and what cannot be reckoned.

use std::process::{Command, Stdio};

use super::bench::{Bench, says};
use notchbook::figures::{self, Book, Recipe};

/// Runs a line as a person copies it into a shell, with no logbook anywhere.
fn in_a_shell(bench: &Bench, line: &str) -> (Option<i32>, String, String) {
    let program = std::path::Path::new(env!("CARGO_BIN_EXE_notchbook"));
    let folder = program.parent().expect("a folder");
    let path = format!("{}:/usr/bin:/bin", folder.display());
    let output = Command::new("sh")
        .args(["-c", line])
        .env_clear()
        .env("HOME", bench.path("."))
        .env("PATH", path)
        .env("TZ", "UTC")
        .stdin(Stdio::null())
        .output()
        .expect("a shell");
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    (
        output.status.code(),
        text(&output.stdout),
        text(&output.stderr),
    )
}

/// The example of a figure as its help shows it. A long list of readings goes on in the next line,
/// inside its quotation marks, where a shell takes the break for a blank.
fn example(bench: &Bench, recipe: &Recipe) -> String {
    let help = bench.ok(&["reckon", recipe.word, "-h"]);
    let shown = help.split_once("Example:\n").map(|(_, shown)| shown.trim());
    let shown = shown.unwrap_or_else(|| panic!("no example in\n{help}"));
    let shown = shown.split("\n\n").next().unwrap_or_default();
    assert!(shown.starts_with("notchbook reckon "), "{shown}");
    shown.to_owned()
}

#[test]
fn without_a_word_every_figure_is_listed_under_its_chapter() {
    let bench = Bench::empty();
    let list = bench.ok(&["reckon"]);
    for recipe in figures::all() {
        says(&list, &[recipe.chapter.word(), recipe.word, recipe.title]);
    }
    let json = bench.json(&["reckon"]);
    let figures = json["figures"].as_array().expect("figures");
    assert_eq!(figures.len(), figures::all().count());
    assert!(figures.iter().all(|one| one["asks"].is_array()));
    assert!(!bench.logbook().exists());
}

#[test]
fn the_help_of_every_figure_teaches_what_it_asks_and_shows_what_its_example_gives() {
    let bench = Bench::empty();
    for recipe in figures::all() {
        let help = bench.ok(&["reckon", recipe.word, "--help"]);
        // The help is broken into lines as wide as the terminal.
        let words = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        let help_words = words(&help);
        says(&help_words, &[&words(recipe.about)]);
        for ask in recipe.asks {
            says(&help, &[&format!("--{}", ask.flag())]);
            if let Book::Choice(choices) = ask.book {
                says(&help_words, choices);
            }
        }
        let line = example(&bench, recipe);
        let (_, after) = help.split_once(&line).expect("the example");
        assert!(!after.trim().is_empty(), "{}: no output", recipe.word);
    }
}

#[test]
fn every_example_works_when_it_is_copied_into_a_shell_and_no_logbook_is_needed() {
    let bench = Bench::empty();
    for recipe in figures::all() {
        let line = example(&bench, recipe);
        let (code, out, err) = in_a_shell(&bench, &line);
        assert_eq!(code, Some(0), "{line}\n{err}");
        let json = bench.parsed(&in_a_shell(&bench, &format!("{line} --json")).1);
        assert_eq!(json["figure"], recipe.word);
        for key in ["results", "steps", "remarks"] {
            assert!(json[key].is_array(), "{line}: {key}");
        }
        for key in ["grounds", "domain", "table", "chart", "standing", "given"] {
            assert!(json.get(key).is_some(), "{line}: {key}");
        }
        for result in json["results"].as_array().into_iter().flatten() {
            let name = result["name"].as_str().unwrap_or_default();
            let amount = result["amount"]["text"].as_str().unwrap_or_default();
            let said = out
                .lines()
                .find(|said| said.starts_with(name) && said.contains(amount));
            let said = said.unwrap_or_else(|| panic!("{line}: no {name} {amount} in\n{out}"));
            if json["standing"] == "remembered" && result.get("grounds").is_none() {
                assert!(said.contains("remembered"), "{line}: {said}");
            }
        }
        if !json["chart"].is_null() {
            let widest = out.lines().map(|line| line.chars().count()).max();
            assert!(out.contains('└'), "{line}: no chart in\n{out}");
            assert!(widest <= Some(200), "{line}: {widest:?}");
        }
    }
}

#[test]
fn what_cannot_be_read_is_told_beside_its_flag_and_what_cannot_be_is_told_in_a_sentence() {
    let bench = Bench::empty();
    let err = bench.fails(
        4,
        &["reckon", "bellows", "--focal-length", "long", "--draw", "1"],
    );
    says(
        &err,
        &["notchbook: --focal-length: \"long\" is not a length"],
    );
    let bad = [
        "reckon",
        "bellows",
        "--focal-length",
        "240",
        "--draw",
        "five",
    ];
    let error = bench.json_error(4, &bad);
    assert_eq!(error["kind"], "unreadable");
    assert_eq!(error["flags"][0]["flag"], "--draw");
    let short = ["reckon", "bellows", "--focal-length", "240", "--draw", "29"];
    says(&bench.fails(4, &short), &["nothing is in focus there"]);
    assert_eq!(bench.json_error(4, &short)["kind"], "impossible");
    says(
        &bench.fails(4, &["reckon", "bellows"]),
        &["--draw: this is needed", "reckon bellows --help"],
    );
    says(
        &bench.fails(2, &["reckon", "bellows", "--focal-length", "--draw"]),
        &["--focal-length has no value: it is followed by --draw"],
    );
}

#[test]
fn an_unknown_figure_or_flag_is_answered_with_the_nearest_one() {
    let bench = Bench::empty();
    says(
        &bench.fails(2, &["reckon", "belows"]),
        &["'belows'", "'bellows'"],
    );
    says(
        &bench.fails(2, &["reckon", "bellows", "--drw", "294"]),
        &["'--drw'", "'--draw'"],
    );
}

#[test]
fn completions_and_manual_know_every_figure() {
    let bench = Bench::empty();
    let completions = bench.ok(&["completions", "bash"]);
    let manual = bench.ok(&["manual"]);
    for recipe in figures::all() {
        assert!(completions.contains(recipe.word), "{}", recipe.word);
        let heading = format!(".SH \"NOTCHBOOK RECKON {}\"", recipe.word.to_uppercase());
        says(&manual, &[&heading]);
    }
    says(&manual, &["Example:"]);
}

#[test]
fn a_logbook_that_is_named_and_not_there_is_told() {
    let bench = Bench::empty();
    let named = [
        "--logbook",
        "nowhere.notchbook",
        "reckon",
        "bellows",
        "--focal-length",
        "240",
        "--draw",
        "294",
    ];
    says(&bench.fails(6, &named), &["there is no logbook at"]);
}

#[test]
fn what_the_logbook_knows_of_a_lens_is_reckoned_with_and_says_that_it_is_ones_own() {
    let bench = Bench::begun();
    let tested = |mark: &str, timings: &str, when: &str| {
        bench.ok(&[
            "log",
            "test-shutter",
            "l1",
            "--mark",
            mark,
            "--timings",
            timings,
            "--when",
            when,
        ]);
    };
    let lens = [
        "log",
        "add-lens",
        "240 mm, five elements",
        "--focal-length",
        "240",
    ];
    bench.ok(&[&lens[..], &["--when", "2025-01-02"]].concat());
    tested("1/125", "1/100 1/102 1/98", "2025-01-10");
    tested("1/125", "1/80 1/82 1/84", "2025-10-01");
    let out = bench.ok(&["reckon", "shutter", "--lens", "l1"]);
    says(
        &out,
        &[
            "1/125 s",
            "+0.64 stop",
            "own",
            "error, stops",
            "2025-10-01",
            "└",
        ],
    );
    let out = bench.ok(&["reckon", "bellows", "--lens", "l1", "--draw", "294"]);
    says(&out, &["+0.59 stop"]);
    // Reckoning writes nothing.
    assert_eq!(bench.json(&["check"])["entries"], 3);
}

#[test]
fn a_logbook_that_cannot_be_opened_is_told_and_keeps_nobody_from_reckoning() {
    let bench = Bench::empty();
    bench.write(
        "data/notchbook/logbook.notchbook",
        b"no logbook at all, but long enough to be read",
    );
    let words = [
        "reckon",
        "bellows",
        "--focal-length",
        "240",
        "--draw",
        "294",
    ];
    let ran = bench.run(&words);
    assert_eq!(ran.code, 0, "{}", ran.err);
    says(&ran.out, &["+0.59 stop"]);
    says(&ran.err, &["your own lenses and measurements are left out"]);
    let path = bench.logbook().display().to_string();
    bench.fails(6, &[&["--logbook", &path], &words[..]].concat());
}

#[test]
fn the_figures_of_the_readme_can_be_copied_and_answer_as_it_says() {
    let bench = Bench::empty();
    let readme = include_str!("../../README.md");
    let (_, figures) = readme.split_once("## Figures").expect("the chapter");
    let (figures, _) = figures.split_once("\n## ").expect("the next chapter");
    let (commands, answer) = figures.split_once("answers\n").expect("an answer");
    let quoted = |text: &'static str| text.lines().filter_map(|line| line.strip_prefix("    "));
    let outputs: Vec<String> = quoted(commands)
        .map(|line| {
            let (code, out, err) = in_a_shell(&bench, line);
            assert_eq!(code, Some(0), "{line}\n{err}");
            out
        })
        .collect();
    assert!(outputs.len() >= 3, "{commands}");
    let said: Vec<&str> = quoted(answer).collect();
    assert!(outputs[0].starts_with(&said.join("\n")), "{}", outputs[0]);
}
