//! A dark slide that contradicts the log, led through to its end.

use crate::hand::Home;
use crate::session::Session;

fn see(session: &mut Session, shows: &str) {
    session.does_log("b", "slide shows", &[("slide shows", shows)], "slide");
    session.wait_for("IN DOUBT");
}

fn side(home: &Home, number: usize) -> serde_json::Value {
    home.asks("rack")["holders"][0]["sides"][number].clone()
}

#[test]
fn a_side_in_doubt_is_led_to_the_entry_that_was_missed() {
    let home = Home::with_holders();
    home.does("log load h1a --box f1 --when 2024-03-02");
    let mut session = home.open();
    session.wait_for("S-0001");
    session.goes_to(2);
    see(&mut session, "dark");
    // Shown so everywhere, and nothing risky is let through.
    session.press("e");
    session.wait_prose("H-01 A is in doubt");
    session.goes_to(1);
    session.wait_for("IN DOUBT");
    session.goes_to(2);
    session.wait_for("IN DOUBT");
    session.press("v");
    session.wait_for("it was exposed, and nobody logged it");
    session.chooses("it was exposed, and nobody logged it");
    session.wait_for("aperture");
    session.fill_all(&[
        ("aperture", "f/32"),
        ("time", "2s"),
        ("when", "2024-03-03 15:00"),
    ]);
    session.logs("exposed");
    session.wait_gone("IN DOUBT");
    let home = session.leave();
    let side = side(&home, 0);
    assert_eq!(side["state"], "exposed");
    assert_eq!(side["doubt"], serde_json::Value::Null);
    // The report is still there, between loading and now.
    let shown = home.does("show h1a");
    assert!(shown.contains("slide"), "{shown}");
    home.is_sound();
}

#[test]
fn an_exposure_that_was_never_made_is_struck_and_the_doubt_ends() {
    let home = Home::with_holders();
    home.does("log load h1a --box f1 --when 2024-03-02");
    home.does("log expose h1a --time 2s --when 2024-03-03");
    let mut session = home.open();
    session.wait_for("S-0001");
    session.goes_to(2);
    see(&mut session, "bright");
    session.press("v");
    session.wait_for("the exposure was never made");
    session.chooses("the exposure was never made");
    session.wait_for("why");
    session.type_text("the shutter was not cocked");
    session.wait_for("not cocked");
    session.press("enter");
    session.wait_gone("IN DOUBT");
    let home = session.leave();
    assert_eq!(side(&home, 0)["state"], "loaded");
    assert_eq!(side(&home, 0)["doubt"], serde_json::Value::Null);
    home.is_sound();
}
