//! Nothing typed is lost: not by Esc, not by a kill.

use crate::hand::Home;
use crate::session::Session;

fn with_a_loaded_side() -> Home {
    let home = Home::with_holders();
    home.does("log load h1a --box f1");
    home
}

fn begin_typing(session: &mut Session) {
    session.wait_for("S-0001");
    session.goes_to(2);
    session.opens("e", "aperture");
    session.fill("aperture", "f/45");
    session.fill("subject", "the old weighbridge");
    // What has been seen has been kept.
    session.wait_for("weighbridge");
}

#[test]
fn what_is_typed_comes_back_after_esc() {
    let mut session = with_a_loaded_side().open();
    begin_typing(&mut session);
    session.closes("movements");
    session.wait_for("1 draft");
    session.opens("e", "aperture");
    session.wait_for("f/45");
    session.wait_for("weighbridge");
    session.logs("exposed");
    // What is logged is no draft any more.
    session.wait_gone("1 draft");
    session.goes_to(4);
    session.wait_for("No print yet");
    session.leave().is_sound();
}

#[test]
fn what_is_typed_is_offered_again_after_a_kill() {
    let mut session = with_a_loaded_side().open();
    begin_typing(&mut session);
    let mut session = Home::from(session.kill()).open();
    session.wait_for("S-0001");
    session.wait_for("1 draft");
    session.opens("D", "H-01 A");
    session.opens("enter", "aperture");
    session.wait_for("f/45");
    session.wait_for("weighbridge");
    session.fill("time", "2s");
    session.logs("exposed");
    let home = session.leave();
    let sheets = home.asks("list sheets");
    assert_eq!(sheets["rows"][0]["subject"], "the old weighbridge");
    home.is_sound();
}

#[test]
fn leaving_with_drafts_asks_first() {
    let mut session = with_a_loaded_side().open();
    begin_typing(&mut session);
    session.closes("movements");
    session.opens("q", "leave?");
    session.press("n");
    session.wait_gone("leave?");
    session.opens("q", "leave?");
    session.press("y");
    assert!(session.wait_exit().success());
    let session = Home::from(session.into_home()).open();
    session.wait_for("1 draft");
}
