//! Strikes, strikes of strikes, undo.

use crate::hand::Home;
use crate::session::Session;

/// A logbook in which one sheet was loaded (#4) and exposed (#5).
fn with_an_exposure() -> Session {
    let home = Home::with_holders();
    home.does("log load h1a --box f1");
    home.does("log expose h1a --aperture f/32 --time 6s");
    let mut session = home.open();
    session.wait_for("S-0001");
    session.wait_for("f/32 at 6 s");
    session.press("right");
    session
}

/// Types a reason and strikes.
fn strike(session: &mut Session, key: &str, reason: &str) {
    session.opens(key, "why");
    session.press("ctrl-u");
    session.type_text(reason);
    session.wait_for(reason);
    session.press("enter");
}

fn state(session: &Session) -> String {
    let sheet = crate::hand::asks(session.home(), "list sheets");
    sheet["rows"][0]["state"]
        .as_str()
        .unwrap_or_default()
        .to_owned()
}

#[test]
fn a_struck_entry_stays_legible_and_striking_the_strike_brings_it_back() {
    let mut session = with_an_exposure();
    strike(&mut session, "x", "another sheet");
    session.wait_for("struck: the line stays legible");
    session.wait_for("another sheet");
    let screen = session.screen();
    assert!(screen.contains("f/32 at 6 s"), "{screen}");
    assert_eq!(state(&session), "loaded");
    // The strike is an entry of its own, the last one.
    session.press("end");
    session.wait_for("#6");
    strike(&mut session, "x", "it was this one");
    session.wait_for("struck: the line stays legible");
    session.wait_for("it was this one");
    assert_eq!(state(&session), "exposed");
    session.leave().is_sound();
}

#[test]
fn an_amended_figure_counts_and_the_old_one_stays_legible() {
    let mut session = with_an_exposure();
    session.opens("a", "amend #");
    session.fill("time", "8s");
    // A reason is asked for beside its field.
    session.press("enter");
    session.wait_until("the hand at the reason", |session| {
        session.field().as_deref() == Some("why amended")
    });
    session.fill("why amended", "misread the shutter");
    session.press("enter");
    session.wait_gone("why amended");
    session.wait_for("f/32 at 8 s");
    session.wait_prose("misread the shutter");
    session.wait_for("f/32 at 6 s");
    // What it counts as is what is taken over for the next one.
    session.press("left");
    let home = session.leave();
    let entry = home.asks("entry 5");
    assert_eq!(entry["entry"]["telling"]["headline"], "f/32 at 8 s");
    assert_eq!(entry["entry"]["was"]["headline"], "f/32 at 6 s");
    home.is_sound();
}

#[test]
fn what_was_logged_last_is_undone() {
    let mut session = with_an_exposure();
    session.opens("z", "#5 exposed");
    session.press("enter");
    session.wait_for("struck: the line stays legible");
    assert_eq!(state(&session), "loaded");
    session.wait_for("f/32 at 6 s");
    // Then what was logged before it.
    session.opens("z", "#4 loaded");
    session.press("enter");
    session.wait_for("struck: the line stays legible");
    let rack = crate::hand::asks(session.home(), "rack");
    assert_eq!(rack["holders"][0]["sides"][0]["state"], "empty");
    session.leave().is_sound();
}

#[test]
fn a_sheet_whose_loading_is_struck_comes_back_from_the_timeline_of_its_side() {
    let home = Home::with_holders();
    home.does("log load h1a --box f1");
    let mut session = home.open();
    session.wait_for("S-0001");
    session.press("right");
    strike(&mut session, "x", "it was the other holder");
    session.wait_for("struck: the line stays legible");
    session.wait_for("No sheet yet");
    session.goes_to(2);
    session.wait_for("A empty");
    // The side remembers both lines.
    session.opens("tab", "it was the other holder");
    session.wait_for("S-0001");
    session.press("end");
    session.wait_for("#5");
    strike(&mut session, "x", "no, this one");
    session.wait_for("struck: the line stays legible");
    session.press("esc");
    session.wait_for("A FP4 Plus");
    let home = session.leave();
    assert_eq!(home.asks("list sheets")["rows"][0]["reference"], "S-0001");
    home.is_sound();
}

#[test]
fn an_entry_on_which_others_rest_is_not_struck_and_the_screen_says_why() {
    let mut session = with_an_exposure();
    session.press("home");
    session.wait_for("#4");
    strike(&mut session, "x", "never loaded");
    session.wait_prose("which is logged already, would no longer fit");
    session.wait_prose("amend or strike that entry first");
    // The reason is still there.
    session.wait_for("never loaded");
    session.closes("never loaded");
    assert_eq!(state(&session), "exposed");
    session.leave().is_sound();
}
