//! Two programs on one logbook, and a logbook that may only be read.

use crate::hand::{Home, asks, does};

#[test]
fn what_the_command_line_logs_is_shown_with_the_next_key_and_the_other_way_round() {
    let home = Home::with_holders();
    home.does("log load h1a --box f1");
    let mut session = home.open();
    session.wait_for("S-0001");
    session.goes_to(2);
    session.wait_for("A FP4 Plus @80");
    assert!(!session.screen().contains("B FP4 Plus @80"));
    does(session.home(), "log load h1b --box f1");
    session.press("right");
    session.wait_for("B FP4 Plus @80");
    session.wait_for("S-0002");
    session.does_log("e", "aperture", &[("time", "6s")], "exposed");
    let rack = asks(session.home(), "rack");
    assert_eq!(rack["holders"][0]["sides"][1]["state"], "exposed");
    // And while a pane is open.
    session.opens("left", "S-0001");
    session.opens("e", "aperture");
    session.fill("time", "7s");
    does(session.home(), "log expose h1a --time 8s");
    session.press("enter");
    session.wait_prose("H-01 A was already exposed on");
    session.wait_for("7s");
    session.press("ctrl-x");
    session.closes("movements");
    session.leave().is_sound();
}

#[test]
fn two_front_ends_on_one_logbook_see_each_other_and_keep_what_is_typed_in_both() {
    let home = Home::with_holders();
    home.does("log load h1a --box f1");
    let path = home.path().join("data/notchbook/logbook.notchbook");
    let path = path.to_str().expect("a path").to_owned();
    let mut here = home.open();
    let mut there = Home::empty().open_with(&["--logbook", &path]);
    for session in [&mut here, &mut there] {
        session.wait_for("S-0001");
        session.goes_to(2);
        session.opens("e", "aperture");
    }
    here.fill("time", "6s");
    there.fill("time", "7s");
    assert_eq!(here.logs("exposed"), 5);
    there.press("enter");
    there.wait_prose("H-01 A was already exposed on");
    there.wait_for("7s");
    // It was the other side, and is said so without typing the figures again.
    does(here.home(), "log load h1b --box f1");
    there.fill("side", "h1b");
    assert_eq!(there.logs("exposed"), 7);
    there.leave();
    here.press("down");
    here.wait_for("B exposed");
    let home = here.leave();
    let sheets = home.asks("list sheets");
    assert_eq!(sheets["rows"].as_array().expect("rows").len(), 2);
    home.is_sound();
}

#[test]
fn a_logbook_that_may_only_be_read_says_so_and_takes_nothing() {
    let home = Home::with_holders();
    home.does("log load h1a --box f1");
    let before = home.does("export");
    let mut session = home.open_with(&["--read-only"]);
    session.wait_for("S-0001");
    session.wait_for("read only");
    let sentence = "the logbook is open read only";
    session.goes_to(2);
    session.press("e");
    session.wait_prose(sentence);
    assert!(!session.screen().contains("movements"));
    session.press("n");
    session.wait_prose(sentence);
    assert!(!session.screen().contains("something new"));
    session.press("z");
    session.wait_prose(sentence);
    session.goes_to(1);
    session.press("right");
    session.press("x");
    session.wait_prose(sentence);
    session.press("a");
    session.wait_prose(sentence);
    // Everything can still be looked at.
    session.opens("t", "road");
    session.wait_for("emulsion 4417");
    session.closes("road");
    let home = session.leave();
    assert_eq!(home.does("export"), before);
}
