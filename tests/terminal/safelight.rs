//! The safelight theme on real screens: nothing but dim red, from the first byte to the last.

use vt100::{Color, Parser, Screen};

use crate::hand::Home;
use crate::session::Session;

/// What has to be dark does not show: every cell is dim red on black, and no cursor blinks.
fn assert_dim(screen: &Screen, when: &str) {
    let (rows, columns) = screen.size();
    for row in 0..rows.get() {
        for column in 0..columns.get() {
            let cell = screen.cell(row, column).expect("a cell");
            let (fore, back) = (cell.fgcolor(), cell.bgcolor());
            let dim = matches!(back, Color::Idx(0 | 16))
                && matches!(fore, Color::Idx(1 | 52 | 88))
                && !cell.inverse();
            assert!(
                dim,
                "{when}: {:?} at {row} {column} is {fore:?} on {back:?}",
                cell.contents()
            );
        }
    }
    assert!(screen.hide_cursor(), "{when}: the cursor is shown");
}

/// Plays everything the program has sent again and looks at it after every sequence that draws a
/// frame to its end or clears the screen.
fn assert_dim_all_along(session: &Session, least: usize) {
    let sent = session.sent();
    let mut parser = Parser::new(
        24.try_into().expect("rows"),
        80.try_into().expect("columns"),
        0,
    );
    let mut looked = 0;
    let mut from = 0;
    for at in 0..sent.len() {
        let so_far = &sent[..=at];
        let drawn = so_far.ends_with(b"\x1b[?2026l");
        let cleared = so_far.ends_with(b"\x1b[2J") || so_far.ends_with(b"\x1b[J");
        if !drawn && !cleared {
            continue;
        }
        parser.process(&sent[from..=at]);
        from = at + 1;
        if parser.screen().alternate_screen() {
            assert_dim(parser.screen(), &format!("after byte {at}"));
            looked += 1;
        }
    }
    assert!(looked >= least, "only {looked} frames were looked at");
    parser.process(&sent[from..]);
    // Nothing is written on the shell's own screen, before or after.
    assert_eq!(parser.screen().contents(), "");
}

#[test]
fn a_terminal_of_sixteen_colours_stays_dim_through_a_pause() {
    let home = Home::with_holders().with_settings("theme = \"safelight\"\n");
    let mut session = home.open_in(&[("TERM", "linux")]);
    session.wait_for("H-01");
    session.opens("n", "something new");
    session.signal("TSTP");
    session.wait_until("the main screen", |session| {
        session.with_terminal(|terminal| !terminal.alternate_screen())
    });
    session.signal("CONT");
    session.wait_for("something new");
    session.with_terminal(|terminal| assert_dim(terminal, "after the pause"));
    session.closes("something new");
    session.press("q");
    assert!(session.wait_exit().success());
    assert_dim_all_along(&session, 4);
}

#[test]
fn a_room_that_goes_dark_while_the_program_runs_stays_dark() {
    let mut session = Home::with_holders().open();
    session.wait_for("H-01");
    for _ in 0..3 {
        session.press("T");
        session.wait_for("theme:");
        if session.screen().contains("safelight") {
            break;
        }
    }
    session.wait_for("theme: safelight");
    for keys in ["?", "esc", "n", "esc", "1", "2", "down"] {
        let before = session.sent().len();
        session.press(keys);
        session.wait_until("a picture", |session| session.sent().len() > before);
        session.with_terminal(|terminal| assert_dim(terminal, keys));
    }
    session.leave();
}

#[test]
fn the_safelight_theme_shows_dim_red_from_start_to_exit() {
    let home = Home::with_holders().with_settings("theme = \"safelight\"\n");
    home.does("log load h1a --box f1");
    home.does("log load h1b --box f1");
    home.does("log expose h1a --aperture f/32 --time 6s");
    home.does("log see-slide h1b --shows dark");
    let mut session = home.open();
    session.wait_for("S-0001");
    session.goes_to(2);
    session.wait_for("IN DOUBT");
    session.opens("e", "movements");
    session.press("enter");
    session.wait_prose("was already exposed");
    session.closes("movements");
    session.opens("e", "movements");
    session.opens("ctrl-t", "any other  starts");
    session.press("-");
    session.press("-");
    session.opens("-", "no lead-in");
    session.opens("c", "few cells lit");
    session.opens("space", "the shutter is open");
    session.opens("esc", "Drop this exposure?");
    session.opens("x", "given");
    session.opens("enter", "movements");
    session.closes("movements");
    session.press("right");
    session.opens("v", "nobody logged it");
    session.closes("nobody logged it");
    session.goes_to(1);
    session.press("right");
    session.opens("x", "why");
    session.closes("why");
    session.opens("t", "road");
    session.closes("road");
    session.opens("s", "search");
    session.type_text("f/3");
    session.wait_for("f/32 at 6 s");
    session.closes("search");
    session.opens("?", "type to find a key");
    session.closes("type to find a key");
    session.opens("n", "something new");
    session.closes("something new");
    session.goes_to(4);
    session.wait_for("No print yet");
    session.goes_to(5);
    session.wait_for("F-01");
    session.press("q");
    assert!(session.wait_exit().success());
    assert_dim_all_along(&session, 20);
}
