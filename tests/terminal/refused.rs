//! What cannot happen in that order: refused in a sentence, and logged all the same with a reason.

use crate::hand::Home;

const REFUSED: &str = "H-01 A was already exposed on";

#[test]
fn a_second_exposure_is_refused_and_logged_when_it_is_meant_or_with_a_reason() {
    let home = Home::with_holders();
    home.does("log load h1a --box f1");
    home.does("log expose h1a --aperture f/32 --time 6s");
    let mut session = home.open();
    session.wait_for("S-0001");
    session.goes_to(2);
    session.opens("e", "aperture");
    session.fill("time", "7s");
    session.press("enter");
    session.wait_prose(REFUSED);
    session.wait_prose("for one more exposure on the same sheet, say so (again)");
    session.wait_prose("if it was another side, choose that");
    // What was typed is still there, and nothing was logged.
    assert!(session.screen().contains("7s"), "{}", session.screen());
    session.fill("one more on it", "yes");
    assert_eq!(session.logs("exposed"), 6);
    session.wait_for("x2");

    session.opens("e", "aperture");
    session.fill("time", "8s");
    session.press("enter");
    session.wait_prose(REFUSED);
    session.press("ctrl-o");
    session.wait_until("the field for the reason", |session| {
        session.field().as_deref() == Some("all the same")
    });
    session.fill("all the same", "the shutter fired by itself");
    assert_eq!(session.logs("exposed"), 7);
    session.wait_for("x3");

    session.goes_to(1);
    session.wait_for("override");
    session.wait_prose("the shutter fired by itself");
    let home = session.leave();
    let entry = home.asks("entry 7");
    assert_eq!(entry["entry"]["over"], "the shutter fired by itself");
    assert_eq!(
        home.asks("entry 6")["entry"]["over"],
        serde_json::Value::Null
    );
    home.is_sound();
}

#[test]
fn a_figure_that_cannot_be_read_is_told_beside_its_field_and_kept() {
    let home = Home::with_holders();
    home.does("log load h1a --box f1");
    let mut session = home.open();
    session.wait_for("S-0001");
    session.goes_to(2);
    session.opens("e", "aperture");
    session.fill("aperture", "wide open");
    session.fill("when", "31 feb 9:00");
    session.press("enter");
    session.wait_prose("is not an aperture");
    session.wait_for("wide open");
    assert_eq!(session.logged("exposed"), None);
    session.fill("aperture", "f/5.6");
    session.press("enter");
    session.wait_until("the hand at the other wrong field", |session| {
        session.field().as_deref() == Some("when")
    });
    session.wait_for("31 feb 9:00");
    assert_eq!(session.logged("exposed"), None);
    session.fill("when", "now");
    session.logs("exposed");
    session.leave().is_sound();
}
