use super::*;

fn now() -> DateTime<FixedOffset> {
    "2026-11-25T10:30:00+01:00".parse().expect("a time")
}

/// Replays lines of one day, given as they stand in the list of that day.
fn replay(lines: &str) -> Result<Store, DemoError> {
    let text = format!("[[day]]\ndate = \"2025-02-03\"\nlog = [\n{lines}\n]\n");
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("demo.notchbook");
    let reference = Reference::built_in().expect("the built-in reference");
    replayed(&[("day.toml", &text)], &path, now(), &reference)
}

fn complaint(lines: &str) -> String {
    match replay(lines) {
        Ok(_) => panic!("this should not be taken: {lines}"),
        Err(error) => error.to_string(),
    }
}

const HOLDER: &str =
    r#"{ at = "10:00", log = "add-holder", size = "4x5", sides = 2, makes = "H-01" },"#;
const FILM: &str = r#"{ at = "10:05", log = "add-box", film = "FP4 Plus", size = "4x5", sheets = 25, expiry = "2027-03-01", makes = "F-01" },"#;
const LOADED: &str = r#"{ at = "10:10", log = "load", side = ["H-01 A", "H-01 B"], film_box = "F-01", note = "dusted", makes = ["S-0001", "S-0002"] },"#;

fn loaded_and(line: &str) -> String {
    format!("{HOLDER}\n{FILM}\n{LOADED}\n{line}")
}

#[test]
fn a_wrong_line_is_named_with_its_file_and_line() {
    for (line, problem) in [
        (
            r#"{ at = "10:20", log = "shoot", side = "H-01 A" }"#,
            "\"shoot\" is not something that can be logged",
        ),
        (r#"{ log = "note" }"#, "\"at\" is missing"),
        (
            r#"{ at = "25:00", log = "note", thing = "H-01", text = "late" }"#,
            "\"25:00\" is not a time: write 16:40 or 2025-02-02 16:40",
        ),
        (
            r#"{ at = "09:00", log = "note", thing = "H-01", text = "early" }"#,
            "it lies before the line above",
        ),
        (
            r#"{ at = "10:20", log = "expose", side = "H-01 A", stop = "f/22" }"#,
            "\"expose\" has no field \"stop\"",
        ),
        (
            r#"{ at = "10:20", log = "expose", side = "H-01 A", time = "soon" }"#,
            "time: \"soon\" is not",
        ),
        (
            r#"{ at = "10:20", log = "expose", side = ["H-01 A", "H-01 B"], time = ["1"] }"#,
            "\"time\" lists 1, another key of this line 2",
        ),
        (
            r#"{ at = "10:20", log = "end-run", run = "R-0001" }"#,
            "there is no run called \"R-0001\"",
        ),
        (
            r#"{ at = "10:20", log = "load", side = "H-01 A", film_box = "F-01" }"#,
            "refused: H-01 A",
        ),
        (
            r#"{ at = "10:20", log = "expose", side = "H-01 A", refused = true }"#,
            "this was to be refused, and was taken",
        ),
        (
            r#"{ at = "10:20", log = "add-camera", name = "field", makes = "C-02" }"#,
            "this makes C-01, not C-02",
        ),
        (
            r#"{ at = "10:20", log = "add-camera", name = "field" }"#,
            "this makes C-01, not nothing",
        ),
        (
            r#"{ at = "10:20", log = "strike", entry = "that", reason = "wrong" }"#,
            "no line above is called \"that\"",
        ),
        (
            r#"{ at = "10:20", log = "strike", reason = "wrong" }"#,
            "\"entry\" is missing",
        ),
        (
            r#"{ at = 10:20:00, log = "note", thing = "H-01", text = "x" }"#,
            "\"at\" is neither text",
        ),
        (
            r#"{ at = "10:20", log = "expose", side = [] }"#,
            "\"side\" is neither text",
        ),
    ] {
        let said = complaint(&loaded_and(line));
        assert!(said.starts_with("day.toml, line 7: "), "{said}");
        assert!(said.contains(problem), "{said} should say {problem}");
    }
    let torn = complaint("{ at = ");
    assert!(torn.starts_with("day.toml, line "), "{torn}");
}

#[test]
fn a_list_makes_several_entries_of_one_act_and_the_note_goes_with_the_first() {
    let store = replay(&loaded_and("")).expect("taken");
    let acts: (i64, i64, i64) = store
        .read(|db| {
            Ok(db.query_row(
                "SELECT count(*), count(DISTINCT act), count(note) FROM entry WHERE kind = 'loaded'",
                [],
                |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)),
            )?)
        })
        .expect("read");
    assert_eq!(acts, (2, 1, 1));
}

#[test]
fn dates_move_with_the_lines_and_a_first_of_the_month_stays_one() {
    let store = replay(&loaded_and("")).expect("taken");
    let expiry: String = store
        .read(|db| Ok(db.query_row("SELECT expiry FROM film_box", [], |row| row.get(0))?))
        .expect("read");
    // From 3 February 2025 to 24 November 2026 it is 659 days, and that far beyond 1 March 2027
    // lies 19 December 2028.
    assert_eq!(expiry, "2028-12-01");
}

#[test]
fn a_line_that_is_called_something_can_be_amended_and_struck() {
    let store = replay(&loaded_and(
        r#"
        { at = "11:00", log = "expose", side = "H-01 B", time = "1/4", subject = "wall", call = "wall" },
        { at = "11:05", log = "amend", entry = "wall", side = "H-01 A", happened = "10:50", reason = "other side" },
        { at = "11:10", log = "expose", side = "H-01 B", time = "1/2", call = "gate" },
        { at = "11:15", log = "strike", entry = "gate", reason = "cap on" }
        "#,
    ))
    .expect("taken");
    let state = |side: &str| {
        use crate::logbook::{Names, ThingKind};
        let thing = store.find(&[ThingKind::Side], side).expect("a side");
        let life = store.life_of(thing.id).expect("a life");
        let side = life.side().expect("of a side").clone();
        let exposed = side.exposed.map(|at| at.format("%H:%M").to_string());
        (life.state_word(), exposed)
    };
    assert_eq!(state("H-01 A"), ("exposed", Some("10:50".to_owned())));
    assert_eq!(state("H-01 B"), ("loaded", None));
}

#[test]
fn an_empty_scenario_is_no_logbook() {
    let said = complaint("");
    assert_eq!(said, "the demo scenario is empty");
}

#[test]
fn once_built_every_entry_waits_for_the_disk_again() {
    let store = replay(&loaded_and("")).expect("taken");
    let full = 2;
    let synchronous: i64 = store
        .read(|db| Ok(db.query_row("PRAGMA synchronous", [], |row| row.get(0))?))
        .expect("read");
    assert_eq!(synchronous, full);
}
