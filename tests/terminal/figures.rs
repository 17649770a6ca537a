//! Figures are reckoned at the screen, over an entry as well, and nothing of that is written.

use crate::hand::Home;

#[test]
fn a_figure_is_found_reckoned_copied_and_left_over_an_entry_that_is_then_logged() {
    let home = Home::with_holders();
    home.does("log load h1a --box f1");
    let mut session = home.open();
    session.wait_for("S-0001");
    session.goes_to(2);
    session.opens("e", "aperture");
    session.fill("aperture", "f/32");
    session.opens("f2", "reckon a figure");
    session.type_text("bell");
    session.wait_for("▸ bellows");
    session.press("enter");
    session.wait_for("this is needed");
    session.fill("focal length", "240");
    session.fill("draw", "294");
    session.wait_for("+0.59 stop");
    session.press("ctrl-y");
    session.wait_for("copied: +0.59 stop");
    // The clipboard of the terminal is asked for, in base64, so that it works from afar.
    let sent = String::from_utf8_lossy(&session.sent()).into_owned();
    assert!(sent.contains("KzAuNTkgc3RvcA=="), "no copy was sent");
    session.press("esc");
    session.wait_gone("bellows");
    session.fill("time", "6s");
    session.logs("exposed");
    let home = session.leave();
    let sheet = home.asks("show s1");
    assert_eq!(sheet["entries"].as_array().map(Vec::len), Some(2));
    home.is_sound();
}

#[test]
fn a_chart_is_read_at_any_size_and_what_was_typed_comes_back_in_the_same_session() {
    let mut session = Home::with_holders().open();
    session.wait_for("H-01");
    session.opens("r", "reckon a figure");
    session.type_text("day");
    session.press("enter");
    session.wait_for("the sun over a day");
    session.press("ctrl-e");
    session.wait_for("15 h 49 min");
    session.press("pgdn");
    session.wait_for("┬");
    session.resize(150, 50);
    session.wait_for("astronomical dawn");
    session.resize(30, 8);
    session.wait_gone("astronomical dawn");
    session.resize(80, 24);
    session.wait_for("┬");
    session.press("pgup pgup pgup");
    session.wait_for("15 h 49 min");
    session.press("esc");
    session.wait_gone("15 h 49 min");
    session.opens("r", "▸ day");
    session.press("enter");
    session.wait_for("15 h 49 min");
    session.press("esc");
    session.leave().is_sound();
}
