//! Processes of one's own: what they add, and which of them cannot be worked.

use std::path::Path;

use notchbook::reference::{Fault, Origin, Reference, ReferenceError, Standing};

use super::{BUILT_IN, folder, load};

pub(super) const SALT: &str = r#"
id = "salt"
name = "Salted paper"
short = "salt"
summary = "Silver chloride in paper, printed out."
light = "ultraviolet"
cautions = ["silver-nitrate"]

[[step]]
id = "coat"
label = "silver"
work = "coat"
figure = [{ key = "volume", label = "silver", kind = "volume", hint = "2 ml" }]
usual = [{ what = "silver nitrate", from = 12, unit = "%" }]

[[step]]
id = "expose"
label = "print out"
work = "expose"
after = ["coat"]

[[step]]
id = "fix"
label = "fix"
work = "fix"
after = ["expose"]
bath = "fixer"
"#;

/// The one problem with one process file.
fn problem_with(process: &str) -> ReferenceError {
    let folder = folder(&[("processes/mine.toml", process)]);
    let (reference, mut problems) = load(folder.path());
    assert_eq!(
        reference.processes().len(),
        BUILT_IN,
        "the built-in ones stay"
    );
    assert_eq!(problems.len(), 1, "{problems:?}");
    let problem = problems.remove(0);
    assert!(problem.file().ends_with("mine.toml"), "{problem}");
    assert!(problem.to_string().contains("mine.toml"), "{problem}");
    problem
}

fn fault_with(process: &str) -> (usize, Fault) {
    let problem = problem_with(process);
    let line = problem.line().expect("a line");
    let fault = problem.fault().expect("a fault in the content").clone();
    (line, fault)
}

#[test]
fn an_own_process_is_added_with_its_figures_as_own() {
    let folder = folder(&[("processes/salt.toml", SALT)]);
    let (reference, problems) = load(folder.path());
    assert!(problems.is_empty(), "{problems:?}");
    let salt = reference.process("salt").expect("added");
    assert_eq!(
        salt.origin,
        Origin::Own(folder.path().join("processes/salt.toml"))
    );
    let usual = &salt.step("coat").expect("its step").usual[0];
    assert_eq!(usual.standing, Standing::Own);
    assert_eq!(usual.value(), "12 %");
    assert!(salt.is_complete(&["coat", "expose", "fix"]));
    assert_eq!(reference.processes().len(), BUILT_IN + 1);
}

#[test]
fn an_own_process_takes_the_place_of_the_built_in_one_with_its_id() {
    let own = SALT.replace("id = \"salt\"", "id = \"cyanotype\"");
    let folder = folder(&[("processes/blue.toml", &own)]);
    let (reference, problems) = load(folder.path());
    assert!(problems.is_empty(), "{problems:?}");
    assert_eq!(reference.processes().len(), BUILT_IN);
    assert_eq!(
        reference
            .process("cyanotype")
            .map(|process| process.name.as_str()),
        Some("Salted paper")
    );
    let at = |reference: &Reference| {
        let mut processes = reference.processes().iter();
        processes.position(|process| process.id == "cyanotype")
    };
    let (built_in, _) = load(Path::new("/nowhere/at/all"));
    assert_eq!(at(&reference), at(&built_in), "in its old place");
}

#[test]
fn own_cautions_can_be_named_by_own_processes() {
    let hazards = r#"
[[caution]]
id = "ladder"
title = "Ladder"
kind = "situation"
words = "The drying line hangs high: stand on something that stands."
"#;
    let process = SALT.replace("[\"silver-nitrate\"]", "[\"silver-nitrate\", \"ladder\"]");
    let folder = folder(&[("hazards.toml", hazards), ("processes/salt.toml", &process)]);
    let (reference, problems) = load(folder.path());
    assert!(problems.is_empty(), "{problems:?}");
    let cautions = reference.process("salt").expect("added").cautions.clone();
    let titles: Vec<&str> = reference
        .cautions_of(&cautions)
        .map(|c| c.title.as_str())
        .collect();
    assert_eq!(titles, ["Silver nitrate", "Ladder"]);
    assert!(
        reference.closing().starts_with("Follow"),
        "kept from the built-in file"
    );
}

#[test]
fn the_same_process_in_two_own_files_is_a_problem() {
    let folder = folder(&[("processes/a.toml", SALT), ("processes/b.toml", SALT)]);
    let (_, problems) = load(folder.path());
    assert_eq!(problems.len(), 1, "{problems:?}");
    let sentence = problems[0].to_string();
    assert!(
        sentence.contains("b.toml") && sentence.contains("a.toml"),
        "{sentence}"
    );
}

#[test]
fn an_unknown_key_names_file_and_line() {
    let problem = problem_with(&SALT.replace("bath = \"fixer\"", "bathe = \"fixer\""));
    assert_eq!(problem.line(), Some(27));
    let sentence = problem.to_string();
    assert!(sentence.contains("bathe"), "{sentence}");
    assert!(sentence.contains("line 27"), "{sentence}");
}

#[test]
fn relations_to_steps_that_are_not_there_are_refused() {
    let (line, fault) = fault_with(&SALT.replace("[\"expose\"]", "[\"exposed\"]"));
    assert_eq!(line, 26);
    let wanted = Fault::UnknownStep {
        step: "fix".into(),
        relation: "after",
        other: "exposed".into(),
    };
    assert_eq!(fault, wanted);
    for relation in ["not_after", "reopens"] {
        let text = SALT.replace("bath =", &format!("{relation} = [\"steam\"]\nbath ="));
        let (_, fault) = fault_with(&text);
        assert!(matches!(fault, Fault::UnknownStep { .. }), "{fault:?}");
    }
}

#[test]
fn steps_that_wait_for_each_other_are_refused() {
    let circle = SALT.replace("after = [\"coat\"]", "after = [\"fix\"]");
    let (_, fault) = fault_with(&circle);
    assert!(matches!(fault, Fault::NotAbove { .. }), "{fault:?}");
    let itself = SALT.replace("after = [\"coat\"]", "after = [\"expose\"]");
    let (_, fault) = fault_with(&itself);
    assert!(matches!(fault, Fault::NotAbove { .. }), "{fault:?}");
}

#[test]
fn a_process_that_cannot_be_worked_is_refused() {
    let never = SALT.replace("bath = \"fixer\"", "not_after = [\"coat\"]");
    let (_, fault) = fault_with(&never);
    assert!(matches!(fault, Fault::NeverPossible { .. }), "{fault:?}");

    let late = SALT.replace("after = [\"expose\"]", "not_after = [\"expose\"]");
    let (_, fault) = fault_with(&late);
    assert!(matches!(fault, Fault::NoStraightRun { .. }), "{fault:?}");

    let endless = SALT.replace("bath = \"fixer\"", "reopens = [\"expose\"]");
    let (_, fault) = fault_with(&endless);
    assert!(matches!(fault, Fault::NoStraightRun { .. }), "{fault:?}");

    let optional = SALT.replace(
        "work = \"expose\"",
        "work = \"expose\"\nneed = \"optional\"",
    );
    let (_, fault) = fault_with(&optional);
    assert!(matches!(fault, Fault::NeedsOptional { .. }), "{fault:?}");

    let head = SALT.split("[[step]]").next().expect("a head");
    let (_, fault) = fault_with(head);
    assert_eq!(fault, Fault::NothingRequired);
}

#[test]
fn ids_names_and_figures_are_checked() {
    for (from, to) in [
        ("id = \"salt\"", "id = \"Salt Print\""),
        ("id = \"salt\"", "id = \"\""),
        ("id = \"fix\"", "id = \"fix--1\""),
        ("key = \"volume\"", "key = \"Volume\""),
    ] {
        let (_, fault) = fault_with(&SALT.replace(from, to));
        assert!(matches!(fault, Fault::BadId { .. }), "{to}: {fault:?}");
    }
    let (_, fault) = fault_with(&SALT.replace("id = \"fix\"", "id = \"coat\""));
    assert!(
        matches!(fault, Fault::Twice { what: "step", .. }),
        "{fault:?}"
    );
    let (_, fault) = fault_with(&SALT.replace("name = \"Salted paper\"", "name = \"  \""));
    assert_eq!(fault, Fault::Empty { key: "name" });
    let (_, fault) =
        fault_with(&SALT.replace("short = \"salt\"", "short = \"salted paper print\""));
    assert!(matches!(fault, Fault::TooLong { .. }), "{fault:?}");
    for range in [
        "to = 12",
        "from = 12, to = 3",
        "from = nan",
        "from = 1, to = inf",
    ] {
        let (_, fault) = fault_with(&SALT.replace("from = 12", range));
        assert!(
            matches!(fault, Fault::BadRange { .. }),
            "{range}: {fault:?}"
        );
    }
    let (_, fault) = fault_with(&SALT.replace("from = 12, ", ""));
    assert!(matches!(fault, Fault::SaysNothing { .. }), "{fault:?}");
    let published = SALT.replace("unit = \"%\"", "unit = \"%\", standing = \"published\"");
    let (_, fault) = fault_with(&published);
    assert!(matches!(fault, Fault::NoSource { .. }), "{fault:?}");
    let (line, fault) = fault_with(&SALT.replace("\"silver-nitrate\"", "\"silver\""));
    assert_eq!(
        (line, fault),
        (
            7,
            Fault::UnknownCaution {
                id: "silver".into()
            }
        )
    );
}
