//! A window that changes its size while the program runs.

use crate::hand::Home;
use crate::session::Session;

/// Makes the window wide, tiny, and as it was; nothing may be lost and everything redrawn.
fn through_the_sizes(session: &mut Session, seen: &str) {
    session.wait_for(seen);
    let before = session.screen();
    session.resize(160, 50);
    session.wait_until("a picture of the whole window", |session| {
        let rows = session.rows();
        rows.last().is_some_and(|hints| !hints.trim().is_empty()) && session.screen().contains(seen)
    });
    session.resize(30, 8);
    session.wait_until("the word that the window is too small", |session| {
        let screen = session.screen();
        !screen.trim().is_empty() && !screen.contains(seen)
    });
    session.resize(80, 24);
    session.wait_until(
        &format!("the picture from before:\n{before}\n"),
        |session| session.screen() == before,
    );
}

#[test]
fn a_window_of_any_size_shows_list_rack_and_pane_and_loses_nothing() {
    let home = Home::with_holders();
    for (side, day) in [("h1a", "02"), ("h1b", "03"), ("h2a", "04")] {
        home.does(&format!("log load {side} --box f1 --when 2024-03-{day}"));
    }
    home.does("log expose h1a --aperture f/32 --time 6s --subject weighbridge --when 2024-03-05");
    let mut session = home.open();
    session.wait_for("S-0003");
    session.press("end");
    through_the_sizes(&mut session, "f/32 at 6 s");
    session.opens("right", "enter follow");
    through_the_sizes(&mut session, "f/32 at 6 s");
    session.goes_to(2);
    session.press("down");
    through_the_sizes(&mut session, "H-02 A");
    session.opens("e", "aperture");
    session.fill("time", "2m30");
    session.fill("note", "typed before the window changed");
    through_the_sizes(&mut session, "window changed");
    // The hand is where it was.
    session.type_text(", and after");
    session.wait_for("changed, and after");
    session.logs("exposed");
    let home = session.leave();
    let sheets = home.asks("show s3");
    let entries = sheets["entries"].as_array().expect("entries");
    let last = entries.last().expect("an entry");
    assert_eq!(last["note"], "typed before the window changed, and after");
    home.is_sound();
}

#[test]
fn what_lies_over_a_screen_stays_open_through_all_sizes() {
    let home = Home::with_holders();
    home.does("log load h1a --box f1 --when 2024-03-02");
    home.does("log expose h1a --time 6s --subject weighbridge --when 2024-03-05");
    let mut session = home.open();
    session.wait_for("S-0001");
    session.opens("t", "road");
    through_the_sizes(&mut session, "emulsion 4417");
    session.closes("road");
    session.opens("s", "search");
    session.type_text("weigh");
    session.wait_until("the letters in their field", |session| {
        session.line_at_cursor().1.contains("weigh")
    });
    through_the_sizes(&mut session, "weighbridge");
    session.closes("search");
    session.opens("?", "type to find a key");
    session.closes("type to find a key");
    session.leave();
}
