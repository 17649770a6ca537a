//! Development: which sheets are in a run, and what becomes of them.

use super::*;

/// Three sheets exposed, in H-01 A, H-01 B and H-02 A.
fn exposed() -> Darkroom {
    let mut room = Darkroom::with_a_shelf();
    for side in ["h1a", "h1b", "h2a"] {
        room.log(Kind::Loaded, &[("side", side), ("film_box", "f1")]);
        room.log(Kind::Exposed, &[("side", side)]);
    }
    room
}

#[test]
fn a_run_empties_the_sides_and_ends_with_negatives() {
    let mut room = exposed();
    room.log(
        Kind::RunBegun,
        &[("sheets", "h1a h1b"), ("developer", "b1")],
    );
    assert_eq!(
        (room.state("h1a"), room.state("s1")),
        ("empty", "developing")
    );
    assert_eq!(room.state("b1"), "in use");
    assert_eq!(room.life("b1").bath().expect("a bath").uses, 2);
    room.log(Kind::RunEnded, &[("run", "r1"), ("wash", "20 min")]);
    assert_eq!(
        (room.state("s1"), room.state("s2")),
        ("negative", "negative")
    );
    assert_eq!(room.state("s3"), "exposed");
}

#[test]
fn a_run_ends_also_with_a_sheet_that_was_fogged_or_lost_in_it() {
    let mut room = exposed();
    room.log(Kind::RunBegun, &[("sheets", "s1 s2 s3")]);
    room.log(Kind::Fogged, &[("sheet", "s1"), ("reason", "lamp on")]);
    room.log(Kind::Lost, &[("thing", "s2"), ("reason", "down the sink")]);
    room.log(Kind::RunEnded, &[("run", "r1")]);
    let states = ["s1", "s2", "s3"].map(|sheet| room.state(sheet));
    assert_eq!(states, ["fogged", "lost", "negative"]);
    assert_eq!(room.state("r1"), "ended");
}

#[test]
fn a_run_has_a_sheet_and_has_it_once() {
    let mut room = exposed();
    let none = room.problem(Kind::RunBegun, &[("sheets", ",")]);
    assert_eq!(none, "sheets: a run develops a sheet or more: name them");
    let drafted = room.read(Kind::RunBegun, &[("sheets", "s1")]);
    let mut drafted = drafted.expect("it can be read");
    if let Deed::RunBegun(run) = &mut drafted.deed {
        run.sheets.push(run.sheets[0]);
    }
    let refusal = room.write(vec![drafted]).expect_err("it is named twice");
    assert_eq!(
        refusal.to_string(),
        "a sheet is named twice: name each once"
    );
    // Typed twice, it is meant once.
    room.log(Kind::RunBegun, &[("sheets", "s1 h1a")]);
    assert_eq!(room.life("r1").run().expect("a run").sheets.len(), 1);
}

#[test]
fn a_sheet_is_not_in_a_side_it_is_not_in() {
    let mut room = exposed();
    let drafted = room.read(Kind::RunBegun, &[("sheets", "s1"), ("over", "surely")]);
    let mut drafted = drafted.expect("it can be read");
    let other = room.life("h1b").thing.id;
    if let Deed::RunBegun(run) = &mut drafted.deed {
        run.sheets[0].side = Some(other);
    }
    let refusal = room.write(vec![drafted]).expect_err("it is elsewhere");
    assert!(!refusal.can_be_overridden(), "{refusal}");
}

#[test]
fn a_sheet_that_was_forgotten_in_a_run_is_amended_in_and_its_end_follows() {
    let mut room = exposed();
    let begun = room.log(Kind::RunBegun, &[("sheets", "s1 s2")]);
    let ended = room.log(Kind::RunEnded, &[("run", "r1")]);
    room.log(
        Kind::Measured,
        &[("sheet", "s1"), ("low", "0.3"), ("high", "1.8")],
    );
    room.amend(begun, &[("sheets", "s1 s2 s3")]);
    assert_eq!(room.state("s3"), "developing");
    assert_eq!(room.state("h2a"), "empty");
    room.amend(ended, &[("sheets", "")]);
    assert_eq!(room.state("s3"), "negative");
    assert_eq!(room.state("s1"), "negative");
}

#[test]
fn a_sheet_that_was_never_in_a_run_is_amended_out_end_first() {
    let mut room = exposed();
    let begun = room.log(Kind::RunBegun, &[("sheets", "s1 s2")]);
    let ended = room.log(Kind::RunEnded, &[("run", "r1")]);
    let refusal = room.try_amend(begun, &[("sheets", "s1")]);
    let refusal = refusal.expect_err("its end still names the other");
    assert!(refusal.to_string().contains("end the run"), "{refusal}");
    room.amend(ended, &[("sheets", "s1")]);
    room.amend(begun, &[("sheets", "s1")]);
    assert_eq!(
        (room.state("s1"), room.state("s2")),
        ("negative", "exposed")
    );
    assert_eq!(room.sheet_in("h1b").as_deref(), Some("S-0002"));
}

#[test]
fn a_run_does_not_end_the_development_of_sheets_of_another() {
    let mut room = exposed();
    room.log(Kind::RunBegun, &[("sheets", "s1")]);
    room.log(Kind::RunBegun, &[("sheets", "s2")]);
    let refusal = room.refusal(Kind::RunEnded, &[("run", "r1"), ("sheets", "s2")]);
    assert!(
        refusal.to_string().starts_with("S-0002 is in R-0002"),
        "{refusal}"
    );
}

#[test]
fn a_run_that_is_moved_to_another_time_still_empties_its_sides() {
    let mut room = exposed();
    room.at("12:00");
    let begun = room.log(Kind::RunBegun, &[("sheets", "s1")]);
    room.at("15:00");
    room.amend(begun, &[("happened", "14:00")]);
    assert_eq!(room.state("h1a"), "empty");
    assert_eq!(room.state("s1"), "developing");
    room.amend(begun, &[("happened", "11:00")]);
    assert_eq!(room.state("h1a"), "empty");
}

#[test]
fn a_bath_is_not_used_beyond_what_it_is_trusted_with() {
    let mut room = exposed();
    let mixed = room.log(
        Kind::BathMixed,
        &[
            ("name", "weak"),
            ("purpose", "developer"),
            ("capacity", "2 sheets"),
        ],
    );
    let too_many = [("sheets", "s1 s2 s3"), ("developer", "b3")];
    let refusal = room.refusal(Kind::RunBegun, &too_many);
    assert!(refusal.can_be_overridden());
    room.log(Kind::RunBegun, &[("sheets", "s1 s2"), ("developer", "b3")]);
    assert!(!room.life("b3").possible().contains(&Kind::RunBegun));
    room.amend(mixed, &[("capacity", "3")]);
    assert!(room.life("b3").possible().contains(&Kind::RunBegun));
    room.log(Kind::BathReplenished, &[("bath", "b3")]);
    assert_eq!(room.life("b3").bath().expect("a bath").uses, 0);
}
