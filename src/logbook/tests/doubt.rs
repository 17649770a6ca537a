//! A dark slide that contradicts the log: the doubt, and every way out of it.

use super::*;

/// H-01 A holds an unexposed sheet by the log, and its slide was seen dark side out at noon.
fn in_doubt() -> Darkroom {
    let mut room = Darkroom::with_a_shelf();
    room.at("10:00");
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    room.at("12:00");
    room.log(Kind::SlideSeen, &[("side", "h1a"), ("shows", "dark")]);
    room
}

#[test]
fn a_slide_that_agrees_raises_no_doubt() {
    let mut room = Darkroom::with_a_shelf();
    room.log(Kind::SlideSeen, &[("side", "h1a"), ("shows", "dark")]);
    assert!(!room.doubts("h1a"), "an empty side says nothing");
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    room.log(Kind::SlideSeen, &[("side", "h1a"), ("shows", "bright")]);
    assert!(!room.doubts("h1a"));
    room.log(Kind::Exposed, &[("side", "h1a")]);
    room.log(Kind::SlideSeen, &[("side", "h1a"), ("shows", "dark")]);
    assert!(!room.doubts("h1a"));
}

#[test]
fn a_slide_that_contradicts_puts_the_side_in_doubt() {
    let mut room = in_doubt();
    let side = room.life("h1a").side().cloned().expect("a side");
    let doubt = side.doubt.expect("it is in doubt");
    assert_eq!(doubt.at.format("%H:%M").to_string(), "12:00");
    assert_eq!(side.slide, Some(doubt.seen));
    assert!(!room.doubts("h1b"), "the other side is not");
    for kind in [Kind::Exposed, Kind::Unloaded] {
        let refusal = room.refusal(kind, &[("side", "h1a")]);
        assert!(refusal.can_be_overridden(), "{refusal}");
        assert!(!refusal.possible().contains(&kind));
        assert!(refusal.possible().contains(&Kind::SlideRighted));
    }
}

#[test]
fn nothing_is_developed_from_a_side_in_doubt_without_a_reason() {
    let mut room = Darkroom::with_a_shelf();
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    room.log(Kind::Exposed, &[("side", "h1a")]);
    room.log(Kind::SlideSeen, &[("side", "h1a"), ("shows", "bright")]);
    let refusal = room.refusal(Kind::RunBegun, &[("sheets", "h1a")]);
    assert!(refusal.to_string().contains("bright side out"), "{refusal}");
    room.log(
        Kind::RunBegun,
        &[
            ("sheets", "h1a"),
            ("over", "held up to the lamp, it was exposed"),
        ],
    );
    assert_eq!(room.state("h1a"), "empty");
    assert_eq!(room.life("h1a").overrides, 1);
}

#[test]
fn a_late_exposure_clears_it() {
    let mut room = in_doubt();
    room.log(Kind::Exposed, &[("side", "h1a"), ("happened", "11:00")]);
    assert!(!room.doubts("h1a"));
    assert_eq!(room.state("h1a"), "exposed");
}

#[test]
fn an_exposure_that_was_logged_for_the_other_side_clears_it_when_amended() {
    let mut room = Darkroom::with_a_shelf();
    for side in ["h1a", "h1b"] {
        room.log(Kind::Loaded, &[("side", side), ("film_box", "f1")]);
    }
    let wrong = room.log(Kind::Exposed, &[("side", "h1b"), ("time", "6s")]);
    room.log(Kind::SlideSeen, &[("side", "h1a"), ("shows", "dark")]);
    room.log(Kind::SlideSeen, &[("side", "h1b"), ("shows", "bright")]);
    assert!(room.doubts("h1a") && room.doubts("h1b"));
    room.amend(wrong, &[("side", "h1a")]);
    assert!(!room.doubts("h1a") && !room.doubts("h1b"));
    assert_eq!(
        (room.state("h1a"), room.state("h1b")),
        ("exposed", "loaded")
    );
    assert_eq!((room.state("s1"), room.state("s2")), ("exposed", "loaded"));
    let exposures = room.life("s1").sheet().expect("a sheet").exposures.clone();
    assert_eq!(exposures.len(), 1);
    assert!(exposures[0].time.is_some(), "its figures go with it");
}

#[test]
fn an_exposure_that_never_was_clears_it_when_struck() {
    let mut room = Darkroom::with_a_shelf();
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    let never = room.log(Kind::Exposed, &[("side", "h1a")]);
    room.log(Kind::SlideSeen, &[("side", "h1a"), ("shows", "bright")]);
    assert!(room.doubts("h1a"));
    room.strike(never);
    assert!(!room.doubts("h1a"));
    assert_eq!(room.state("h1a"), "loaded");
}

#[test]
fn a_report_that_was_wrong_clears_it_when_struck() {
    let mut room = in_doubt();
    let report = room.life("h1a").side().and_then(|side| side.doubt);
    room.strike(report.expect("it is in doubt").entry);
    assert!(!room.doubts("h1a"));
}

#[test]
fn turning_the_slide_clears_it_and_leaves_the_state() {
    let mut room = in_doubt();
    room.log(
        Kind::SlideRighted,
        &[("side", "h1a"), ("reason", "turned in the bag")],
    );
    assert!(!room.doubts("h1a"));
    assert_eq!(room.state("h1a"), "loaded");
    let refusal = room.refusal(
        Kind::SlideRighted,
        &[("side", "h1a"), ("reason", "once more")],
    );
    assert!(!refusal.can_be_overridden());
    room.log(Kind::Exposed, &[("side", "h1a")]);
}

#[test]
fn a_change_of_sheets_that_was_not_logged_clears_it_when_logged_late() {
    let mut room = Darkroom::with_a_shelf();
    room.at("10:00");
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    room.log(Kind::Exposed, &[("side", "h1a")]);
    room.at("18:00");
    room.log(Kind::SlideSeen, &[("side", "h1a"), ("shows", "bright")]);
    assert!(room.doubts("h1a"));
    room.log(Kind::Unloaded, &[("side", "h1a"), ("happened", "15:00")]);
    assert!(
        !room.doubts("h1a"),
        "an empty side has nothing to contradict"
    );
    room.log(
        Kind::Loaded,
        &[("side", "h1a"), ("film_box", "f1"), ("happened", "15:05")],
    );
    assert!(!room.doubts("h1a"));
    assert_eq!(room.state("h1a"), "loaded");
    assert_eq!(room.sheet_in("h1a").as_deref(), Some("S-0002"));
    assert_eq!(room.state("s1"), "held exposed");
}

#[test]
fn a_fogged_sheet_leaves_nothing_to_doubt() {
    let mut room = in_doubt();
    room.log(
        Kind::Fogged,
        &[("sheet", "h1a"), ("reason", "the slide was out")],
    );
    assert!(!room.doubts("h1a"));
    room.log(Kind::Unloaded, &[("side", "h1a")]);
    assert_eq!(room.state("s1"), "fogged");
}

#[test]
fn a_reason_for_one_thing_does_not_make_another_possible() {
    let mut room = in_doubt();
    room.log(Kind::Loaded, &[("side", "h2a"), ("film_box", "f1")]);
    let mut elsewhere = room.read(Kind::Exposed, &[("side", "h1a"), ("over", "I am sure")]);
    let other = room.life("s2").thing.id;
    if let Ok(drafted) = &mut elsewhere
        && let Deed::Exposed(exposed) = &mut drafted.deed
    {
        exposed.sheet = Some(other);
    }
    let refusal = room.write(vec![elsewhere.expect("it can be read")]);
    let refusal = refusal.expect_err("the sheet is in another holder");
    assert!(!refusal.can_be_overridden(), "{refusal}");
}
