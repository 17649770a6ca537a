//! The time of a run, as it is reckoned from what the logbook knows of its sheets and baths.

use super::*;
use crate::craft::development::asked::Asked;
use crate::logbook::RunBegun;
use crate::logbook::developing::{asked_by, sheets_of, wish_of};
use crate::logbook::telling::tell;

/// A developer with times that are told for FP4 Plus, B-0003, and two exposed sheets of it.
fn exposed(exposures: [&[(&str, &str)]; 2]) -> Darkroom {
    let mut room = Darkroom::with_a_shelf();
    room.log(
        Kind::BathMixed,
        &[
            ("name", "Ilfotec DD-X"),
            ("purpose", "developer"),
            ("dilution", "1+4"),
        ],
    );
    for (side, exposure) in ["h1a", "h1b"].into_iter().zip(exposures) {
        room.log(Kind::Loaded, &[("side", side), ("film_box", "f1")]);
        let mut typed = vec![("side", side)];
        typed.extend(exposure);
        room.log(Kind::Exposed, &typed);
    }
    room
}

fn begun(room: &Darkroom) -> RunBegun {
    match room.ledger.entries.last().map(|entry| entry.deed.clone()) {
        Some(Deed::RunBegun(run)) => run,
        other => panic!("{other:?}"),
    }
}

const N_1: &[(&str, &str)] = &[("development", "N-1")];

#[test]
fn a_time_that_is_left_empty_is_the_one_the_sheets_ask_for() {
    let mut room = exposed([N_1, N_1]);
    room.log(
        Kind::RunBegun,
        &[
            ("sheets", "s1 s2"),
            ("developer", "b3"),
            ("temperature", "22 C"),
        ],
    );
    let run = begun(&room);
    // 8 min 55 s between the columns, and a fifth less for N-1.
    assert_eq!(run.time.expect("a time").to_string(), "7 min 8 s");
    assert_eq!(run.contrast, Asked::parse("N-1").ok());
    let told = tell(&Deed::RunBegun(run), &room.ledger, &room.reference);
    let step = |name: &str| told.steps.iter().find(|(step, _)| step == name);
    assert_eq!(
        step("S-0001 asks for").map(|(_, said)| said.as_str()),
        Some("N-1")
    );
    let (_, said) = step("N-1").expect("the step of contrast");
    assert_eq!(said, "x0.8, then 7 min 8 s, usual");
    assert!(
        told.details
            .contains(&("reckoned".into(), "7 min 8 s".into()))
    );
}

#[test]
fn the_range_of_the_readings_and_the_long_exposure_come_into_the_time() {
    let mut room = exposed([&[], &[]]);
    room.log(
        Kind::BoxAdded,
        &[("film", "Tri-X 400"), ("size", "8x10"), ("sheets", "5")],
    );
    room.log(Kind::Loaded, &[("side", "h2a"), ("film_box", "f3")]);
    room.log(
        Kind::Exposed,
        &[
            ("side", "h2a"),
            ("readings", "III 2 VIII 8"),
            ("aperture", "f/16"),
            ("speed", "400"),
        ],
    );
    let sheet = room.life("s3").sheet().cloned().expect("a sheet");
    let asks = sheet.exposures[0]
        .asks
        .clone()
        .expect("it asks for something");
    room.log(
        Kind::RunBegun,
        &[
            ("sheets", "s3"),
            ("developer", "b3"),
            ("temperature", "20 C"),
        ],
    );
    let run = begun(&room);
    let asked = run.contrast.clone().expect("what was asked for");
    assert_eq!(asked.change().to_string(), "N-1", "{asks:?}");
    let percent = asked.percent.expect("a change for the long exposure");
    assert!(percent < 0.0, "{asks:?}");
    let wanted = 480.0 * 0.8 * (1.0 + percent / 100.0);
    let time = run.time.expect("a time").value();
    assert!((time - wanted).abs() <= 0.5, "{time} is not {wanted}");
    let steps = run.reckoning.expect("how it came about").steps;
    let long = steps.iter().find(|step| step.name == "long exposure");
    assert!(long.expect("its own step").standing.is_some());
}

#[test]
fn sheets_that_ask_for_different_things_are_never_averaged() {
    let mut room = exposed([N_1, &[]]);
    let typed = draft(Kind::RunBegun, &[("sheets", "s1 s2"), ("developer", "b3")]);
    let lines = room.beside(&typed);
    let warned = |lines: &[String], words: &str| lines.iter().any(|line| line.contains(words));
    assert!(
        warned(&lines, "different developments, S-0001 N-1, S-0002 N"),
        "{lines:?}"
    );
    room.log(Kind::RunBegun, &[("sheets", "s1 s2"), ("developer", "b3")]);
    assert_eq!(begun(&room).time, None, "nothing is guessed");
    let mut room = exposed([N_1, &[]]);
    let typed = [
        ("sheets", "s1 s2"),
        ("developer", "b3"),
        ("contrast", "N-1"),
    ];
    let lines = room.beside(&draft(Kind::RunBegun, &typed));
    assert!(
        warned(&lines, "this run is for N-1: S-0002 asks for N"),
        "{lines:?}"
    );
    room.log(Kind::RunBegun, &typed);
    assert_eq!(begun(&room).time.expect("a time").to_string(), "8 min");
}

#[test]
fn what_no_rule_goes_with_is_asked_back() {
    let mut room = exposed([&[("development", "pull it a bit")], &[]]);
    let typed = draft(Kind::RunBegun, &[("sheets", "s1"), ("developer", "b3")]);
    let lines = room.beside(&typed);
    let says = "S-0001 asks for \"pull it a bit\", which no rule goes with";
    assert!(lines.iter().any(|line| line.contains(says)), "{lines:?}");
    let problem = room.problem(
        Kind::RunBegun,
        &[("sheets", "s1"), ("contrast", "pull it a bit")],
    );
    assert!(
        problem.contains("neither a change of contrast"),
        "{problem}"
    );
}

#[test]
fn a_typed_time_stands_and_is_held_against_the_reckoned() {
    let mut room = exposed([&[], &[]]);
    let typed = [("sheets", "s1"), ("developer", "b3"), ("time", "11 min")];
    let lines = room.beside(&draft(Kind::RunBegun, &typed));
    assert!(
        lines
            .iter()
            .any(|line| line == "typed: +10 % of the reckoned"),
        "{lines:?}"
    );
    room.log(Kind::RunBegun, &typed);
    let run = begun(&room);
    assert_eq!(run.time.expect("a time").value(), 660.0);
    let planned = run.reckoning.and_then(|it| it.planned_time);
    assert_eq!(planned.expect("it was reckoned").value(), 600.0);
}

#[test]
fn the_end_of_a_run_says_how_far_it_is_from_the_plan_and_what_the_print_can_do() {
    let mut room = exposed([&[], &[]]);
    room.log(Kind::RunBegun, &[("sheets", "s1 s2"), ("developer", "b3")]);
    let over = draft(Kind::RunEnded, &[("run", "r1"), ("time", "13 min 15 s")]);
    let lines = room.beside(&over);
    let says = |words: &str| lines.iter().any(|line| line.contains(words));
    assert!(says("given: 13 min 15 s, +32 %"), "{lines:?}");
    assert!(says("about as N+1.0"), "{lines:?}");
    assert!(says("softer grade"), "{lines:?}");
    let nearly = draft(Kind::RunEnded, &[("run", "r1"), ("time", "10 min 10 s")]);
    let lines = room.beside(&nearly);
    assert!(
        !lines.iter().any(|line| line.contains("grade")),
        "{lines:?}"
    );
    room.log(Kind::RunEnded, &[("run", "r1"), ("time", "13 min 15 s")]);
    let ended = room.ledger.entries.last().expect("an entry").deed.clone();
    let told = tell(&ended, &room.ledger, &room.reference);
    let planned = ("planned".to_owned(), "10 min, +32 %".to_owned());
    assert!(told.details.contains(&planned), "{told:?}");
}

#[test]
fn an_own_time_is_taken_and_a_later_amendment_keeps_what_was_reckoned() {
    let mut room = exposed([&[], &[]]);
    let typed = [
        ("film", "FP4 Plus"),
        ("developer", "DD-X"),
        ("dilution", "1+4"),
        ("temperature", "20 C"),
        ("time", "8 min"),
    ];
    room.log(Kind::DevelopmentFound, &typed);
    let run = room.log(Kind::RunBegun, &[("sheets", "s1"), ("developer", "b3")]);
    let before = begun(&room);
    assert_eq!(before.time.expect("a time").to_string(), "8 min");
    let kept = before.reckoning.expect("how it came about");
    assert_eq!(kept.steps[0].source, "own time, found 4 Mar 2026");
    room.log(
        Kind::Retired,
        &[("thing", "n1"), ("reason", "measured wrong")],
    );
    let reckoning = |deed: Deed| match deed {
        Deed::RunBegun(run) => run.reckoning.expect("it was reckoned"),
        other => panic!("{other:?}"),
    };
    let amended = room.amendment(run, &[("stop", "b2")]);
    assert_eq!(reckoning(amended), kept);
    let warmer = reckoning(room.amendment(run, &[("temperature", "22 C")]));
    assert_eq!(
        warmer.planned_time.expect("a time").to_string(),
        "8 min 55 s"
    );
}

#[test]
fn two_films_have_two_times() {
    let mut room = exposed([&[], &[]]);
    room.log(
        Kind::BoxAdded,
        &[("film", "HP5 Plus"), ("size", "8x10"), ("sheets", "5")],
    );
    room.log(Kind::Loaded, &[("side", "h2a"), ("film_box", "f3")]);
    room.log(Kind::Exposed, &[("side", "h2a")]);
    let typed = draft(Kind::RunBegun, &[("sheets", "s1 s3"), ("developer", "b3")]);
    let lines = room.beside(&typed);
    let says = "several films, FP4 Plus and HP5 Plus";
    assert!(lines.iter().any(|line| line.contains(says)), "{lines:?}");
}

#[test]
fn outside_the_table_the_pane_declines_and_shows_a_marked_estimate() {
    let mut room = exposed([&[], &[]]);
    let typed = [
        ("sheets", "s1"),
        ("developer", "b3"),
        ("temperature", "18 C"),
    ];
    let lines = room.beside(&draft(Kind::RunBegun, &typed));
    let says = |words: &str| lines.iter().any(|line| line.contains(words));
    assert!(says("not reckoned"), "{lines:?}");
    assert!(says("an estimate: 11 min 44 s"), "{lines:?}");
    room.log(Kind::RunBegun, &typed);
    assert_eq!(
        begun(&room).time,
        None,
        "an estimate is typed by whoever takes it"
    );
}

#[test]
fn the_wishes_of_sheets_are_read_from_a_draft() {
    let mut room = exposed([N_1, N_1]);
    let typed = draft(Kind::RunBegun, &[("sheets", "h1a h1b")]);
    let sheets = room.at_desk(|desk| sheets_of(&typed, desk));
    assert_eq!(sheets.len(), 2);
    assert_eq!(
        asked_by(&sheets).map(|asked| asked.to_string()),
        Ok("N-1".to_owned())
    );
}

#[test]
fn a_change_stands_although_the_way_of_printing_beside_it_is_not_known() {
    let room = exposed([
        &[("development", "N+1, for platinum")],
        &[("development", "N-1, for enamel")],
    ]);
    let asks = |sheet: &str| {
        let life = room.life(sheet);
        let wish = wish_of(life.sheet().expect("a sheet"), &room.reference);
        wish.and_then(|wish| wish.asked)
            .map(|asked| asked.to_string())
    };
    assert_eq!(asks("s1").as_deref(), Some("platinum; N+1"));
    assert_eq!(asks("s2").as_deref(), Some("N-1"));
}
