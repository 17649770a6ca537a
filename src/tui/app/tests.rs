//! What a person does at the screen, key by key.

use std::time::Duration;

use super::stand::Stand;
use crate::logbook::Kind;

mod bench;
mod clock;
mod curves;
mod exposing;
mod first_steps;
mod found;
mod going;
mod keys;
mod mouse;
mod planning;
mod printing;
mod rack;
mod reckoning;

/// Two holders, a box, a lens.
fn with_holders() -> Stand {
    let mut stand = Stand::empty();
    stand.log(
        Kind::BoxAdded,
        &[
            ("film", "FP4 Plus"),
            ("size", "8x10"),
            ("sheets", "25"),
            ("speed", "80"),
            ("emulsion", "4417"),
            ("happened", "08:00"),
        ],
    );
    for _ in 0..2 {
        stand.log(
            Kind::HolderAdded,
            &[("size", "8x10"), ("sides", "2"), ("happened", "08:00")],
        );
    }
    stand.log(
        Kind::LensAdded,
        &[
            ("name", "240 mm"),
            ("focal_length", "240 mm"),
            ("happened", "08:00"),
        ],
    );
    stand
}

#[test]
fn a_side_is_loaded_and_exposed_from_the_rack() {
    let mut stand = with_holders();
    stand.press("2");
    stand.shows("H-01");
    stand.press("l");
    stand.shows("load a sheet  H-01 A");
    stand.type_text("f1");
    stand.press("enter");
    stand.shows("S-0001");
    stand.shows("FP4 Plus @80");
    stand.press("e");
    stand.type_text("f/32");
    stand.press("tab");
    stand.type_text("6s");
    stand.press("enter");
    stand.shows("exposed");
    let text = stand.text();
    assert!(text.contains("f/32 at 6 s"), "{text}");
}

#[test]
fn a_further_exposure_that_differs_in_its_time_takes_at_most_eight_keys() {
    let mut stand = with_holders();
    for side in ["h1a", "h1b"] {
        stand.log(Kind::Loaded, &[("side", side), ("film_box", "f1")]);
    }
    stand.log(
        Kind::Exposed,
        &[
            ("side", "h1a"),
            ("aperture", "f/22"),
            ("time", "1/4"),
            ("lens", "l1"),
        ],
    );
    stand.press("2 right");
    // From here on every key counts: open, 1/8, log.
    stand.press("e 1 / 8 enter");
    stand.shows("f/22 at 1/8 s");
}

#[test]
fn what_a_lens_is_said_to_be_is_made_better_from_the_shelf() {
    let mut stand = with_holders();
    stand.press("5 ] ] ] tab");
    stand.shows("240 mm");
    // The one entry of its timeline is amended: the circle was measured since.
    stand.press("a");
    stand.shows("amend #");
    for key in ["image circle", "pupil ratio", "flange to film"] {
        stand.shows(key);
    }
    stand.press("tab tab tab tab tab");
    stand.type_text("330 mm");
    stand.press("enter");
    stand.shows("why");
    stand.type_text("measured on the ground glass");
    stand.press("enter");
    stand.shows("circle 330 mm");
}

#[test]
fn a_shutter_that_was_opened_stands_out_until_it_is_closed() {
    let mut stand = with_holders();
    stand.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    let begun = [
        ("side", "h1a"),
        ("planned_aperture", "f/32"),
        ("planned_time", "2m30"),
    ];
    stand.log(Kind::ExposureBegun, &begun);
    stand.press("2");
    stand.shows("BEING EXPOSED");
    stand.press("enter");
    stand.shows("no exposure was made after all");
    stand.press("esc e");
    // What was planned is what was given, until somebody says otherwise.
    stand.press("enter");
    stand.shows("f/32 at 2 min 30 s");
    let text = stand.text();
    assert!(!text.contains("BEING EXPOSED"), "{text}");
}

#[test]
fn a_refusal_says_why_and_keeps_what_was_typed() {
    let mut stand = with_holders();
    stand.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    stand.log(
        Kind::Exposed,
        &[("side", "h1a"), ("aperture", "f/22"), ("time", "1/4")],
    );
    stand.press("2 e");
    stand.type_text("1/2");
    stand.press("enter");
    stand.shows("already exposed on");
    stand.shows("1/2");
    // The same sheet once more, because it was meant.
    stand.press("ctrl-o");
    stand.type_text("meant for the second figure");
    stand.press("enter");
    stand.shows("exposed x2");
}

#[test]
fn what_is_typed_comes_back_after_esc_and_after_a_restart() {
    let mut stand = with_holders();
    stand.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    stand.press("2 e");
    stand.type_text("f/45");
    stand.press("esc");
    stand.shows("what you typed is kept");
    stand.press("e");
    stand.shows("f/45");
    stand.press("esc q");
    stand.shows("leave?");
    stand.press("n");
    assert!(!stand.quit);
    let mut stand = stand.again(Duration::from_secs(3600));
    stand.shows("typed and not logged");
    stand.press("D enter");
    stand.shows("f/45");
}

#[test]
fn the_last_act_is_undone_and_stays_legible() {
    let mut stand = with_holders();
    stand.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    stand.press("2 z");
    stand.shows("strike what was logged last");
    stand.press("enter");
    stand.shows("A empty");
}

#[test]
fn a_side_in_doubt_is_led_through_to_its_end() {
    let mut stand = with_holders();
    stand.log(
        Kind::Loaded,
        &[("side", "h1a"), ("film_box", "f1"), ("happened", "14:00")],
    );
    stand.press("2 b");
    stand.type_text("dark");
    stand.press("enter");
    stand.shows("IN DOUBT");
    stand.press("e");
    stand.shows("in doubt");
    stand.press("v");
    stand.shows("nobody logged it");
    stand.press("1");
    stand.type_text("f/32");
    stand.press("tab");
    stand.type_text("2s");
    for _ in 0..14 {
        stand.press("tab");
    }
    stand.type_text("15:00");
    stand.press("enter");
    let text = stand.text();
    assert!(!text.contains("IN DOUBT"), "{text}");
    assert!(text.contains("exposed"), "{text}");
}

#[test]
fn every_size_can_be_drawn_in_every_state() {
    let mut stand = with_holders();
    stand.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    for keys in [
        "1",
        "2",
        "3",
        "4",
        "5",
        "2 e",
        "esc ?",
        "esc s",
        "esc n",
        "esc enter",
        "esc t",
    ] {
        stand.press(keys);
        for (columns, rows) in [
            (0, 0),
            (1, 1),
            (20, 5),
            (39, 9),
            (40, 10),
            (80, 24),
            (200, 60),
        ] {
            stand.resize(columns, rows);
            stand.buffer();
        }
        stand.resize(80, 24);
    }
}

#[test]
fn a_paste_never_does_a_deed() {
    let mut stand = with_holders();
    stand.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    stand.press("2");
    let before = stand.text();
    stand.paste("q\ny\nz\n");
    assert_eq!(stand.text(), before);
    assert!(!stand.quit);
}

#[test]
fn a_pane_keeps_one_draft_whatever_is_typed_into_it() {
    let mut stand = with_holders();
    stand.press("2 l");
    stand.press("backtab");
    stand.type_text("h2b");
    stand.press("tab");
    stand.type_text("f1");
    stand.press("esc");
    let drafts = stand.app.bench().store.drafts().expect("the drafts");
    assert_eq!(drafts.len(), 1, "{drafts:?}");
}
