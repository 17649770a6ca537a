//! Entries written later than they happened.

use super::*;

#[test]
fn a_late_exposure_names_the_sheet_that_was_in_the_side_then() {
    let mut room = Darkroom::with_a_shelf();
    room.at("10:00");
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    room.at("14:00");
    room.log(Kind::Unloaded, &[("side", "h1a")]);
    room.at("15:00");
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    room.at("16:00");
    room.log(Kind::Exposed, &[("side", "h1a"), ("happened", "12:00")]);
    assert_eq!(room.state("s1"), "held exposed");
    assert_eq!(room.state("s2"), "loaded");
    assert_eq!(room.state("h1a"), "loaded");
    assert_eq!(room.sheet_in("h1a").as_deref(), Some("S-0002"));
}

#[test]
fn a_late_entry_has_to_fit_what_comes_after_it() {
    let mut room = Darkroom::with_a_shelf();
    room.at("10:00");
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    room.at("14:00");
    let exposed = room.log(Kind::Exposed, &[("side", "h1a")]);
    room.at("15:00");
    let late = [("side", "h1a"), ("happened", "12:00")];
    let refusal = room.refusal(Kind::Unloaded, &late);
    assert!(!refusal.can_be_overridden(), "no reason makes up for it");
    assert!(refusal.possible().is_empty());
    room.strike(exposed);
    room.log(Kind::Unloaded, &late);
    assert_eq!(room.state("h1a"), "empty");
}

#[test]
fn entries_of_the_same_minute_stand_in_the_order_they_were_written() {
    let mut room = Darkroom::with_a_shelf();
    room.at("12:00");
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    room.log(Kind::Exposed, &[("side", "h1a"), ("happened", "12:00")]);
    room.log(Kind::Unloaded, &[("side", "h1a"), ("happened", "12:00")]);
    assert_eq!(room.state("s1"), "held exposed");
}

#[test]
fn nothing_is_logged_before_it_happens() {
    let mut room = Darkroom::with_a_shelf();
    room.at("12:00");
    let typed = [("side", "h1a"), ("film_box", "f1"), ("happened", "12:30")];
    let refusal = room.refusal(Kind::Loaded, &typed);
    assert!(matches!(refusal, Refusal::Future { .. }));
    // Clocks differ by some minutes.
    room.log(
        Kind::Loaded,
        &[("side", "h1a"), ("film_box", "f1"), ("happened", "12:08")],
    );
}

#[test]
fn a_thing_is_not_used_before_it_came() {
    let mut room = Darkroom::with_a_shelf();
    room.at("12:00");
    let typed = [("name", "stock"), ("purpose", "developer")];
    room.log(Kind::BathMixed, &typed);
    room.at("13:00");
    let drawn = [
        ("name", "working"),
        ("purpose", "developer"),
        ("stock", "b3"),
        ("happened", "11:00"),
    ];
    let refusal = room.refusal(Kind::BathMixed, &drawn);
    assert!(
        refusal
            .to_string()
            .starts_with("B-0003 is not in the logbook on"),
        "{refusal}"
    );
    room.log(Kind::BathMixed, &drawn[..3]);
    assert_eq!(
        room.state("b3"),
        "fresh",
        "drawing from a stock leaves it as it is"
    );
}

#[test]
fn a_run_logged_late_takes_its_sheets_out_of_the_sides_they_were_in_then() {
    let mut room = Darkroom::with_a_shelf();
    room.at("10:00");
    for side in ["h1a", "h1b"] {
        room.log(Kind::Loaded, &[("side", side), ("film_box", "f1")]);
        room.log(Kind::Exposed, &[("side", side)]);
    }
    room.at("14:00");
    room.log(Kind::Unloaded, &[("side", "h1b")]);
    room.at("16:00");
    room.log(
        Kind::RunBegun,
        &[("sheets", "s1 s2"), ("happened", "15:00")],
    );
    assert_eq!((room.state("h1a"), room.state("h1b")), ("empty", "empty"));
    assert_eq!(
        (room.state("s1"), room.state("s2")),
        ("developing", "developing")
    );
}

#[test]
fn a_late_run_that_exhausts_a_bath_too_early_waits_for_a_reason_with_the_later_one() {
    let mut room = Darkroom::with_a_shelf();
    for side in ["h1a", "h1b"] {
        room.log(Kind::Loaded, &[("side", side), ("film_box", "f1")]);
        room.log(Kind::Exposed, &[("side", side)]);
    }
    let mixed = [
        ("name", "weak"),
        ("purpose", "developer"),
        ("capacity", "1"),
    ];
    room.log(Kind::BathMixed, &mixed);
    room.at("12:00");
    let later = room.log(Kind::RunBegun, &[("sheets", "s1"), ("developer", "b3")]);
    room.at("14:00");
    let late = [("sheets", "s2"), ("developer", "b3"), ("happened", "11:00")];
    let refusal = room.refusal(Kind::RunBegun, &late);
    assert!(refusal.to_string().contains("with a reason"), "{refusal}");
    let over = [("over", "it still worked")];
    room.amend(later, &over);
    room.log(Kind::RunBegun, &late);
    let bath = room.life("b3");
    assert_eq!((bath.bath().expect("a bath").uses, bath.overrides), (2, 1));
}
