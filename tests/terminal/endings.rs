//! The program is ended from outside while something is being typed.

use std::time::{Duration, Instant};

use crate::guard::assert_given_back;
use crate::hand::Home;
use crate::session::{NOTCHBOOK, Session, Start};

fn typing() -> Session {
    let home = Home::with_holders();
    home.does("log load h1a --box f1");
    let mut session = home.open();
    session.wait_for("S-0001");
    session.goes_to(2);
    session.opens("e", "aperture");
    session.fill("subject", "the old weighbridge");
    session.wait_for("weighbridge");
    session
}

fn is_kept(home: Home) {
    home.is_sound();
    let mut session = home.open();
    session.wait_for("1 draft");
    session.goes_to(2);
    session.opens("e", "aperture");
    session.wait_for("weighbridge");
}

#[test]
fn a_request_to_end_gives_the_terminal_back_and_keeps_the_draft() {
    for (signal, number) in [("TERM", 15), ("HUP", 1)] {
        let mut session = typing();
        let began = Instant::now();
        session.signal(signal);
        assert_eq!(session.wait_exit().exit_code(), 128 + number, "{signal}");
        assert!(began.elapsed() < Duration::from_secs(5));
        assert_given_back(&session);
        is_kept(session.into_home().into());
    }
}

#[test]
fn a_closed_window_ends_the_program_and_keeps_the_draft() {
    let left = typing().hang_up("s");
    is_kept(left.wait_exit().into());
}

#[test]
fn a_logbook_that_cannot_be_opened_is_told_before_the_terminal_is_touched() {
    let home = Home::empty();
    let folder = home.path().join("data/notchbook");
    std::fs::create_dir_all(&folder).expect("a folder");
    std::fs::write(folder.join("logbook.notchbook"), "film, paper, milk").expect("a file");
    let mut session = home.open();
    assert_eq!(session.wait_exit().exit_code(), 6);
    session.wait_for("is not a logbook: choose another file; nothing in it was changed");
    assert!(!session.sent().contains(&0x1b));

    // And where none can be made.
    let home = Home::empty();
    std::fs::write(home.path().join("data"), "in the way").expect("a file");
    let mut session = home.open();
    assert_eq!(session.wait_exit().exit_code(), 6);
    assert!(!session.sent().contains(&0x1b));

    // And where nothing can be drawn.
    let line = format!("{NOTCHBOOK} | cat");
    let mut session = Start::program("sh", &["-c", &line]).in_size(80, 24);
    session.wait_exit();
    session.wait_for("the front end needs a terminal to draw on");
    assert!(!session.sent().contains(&0x1b));
}

#[test]
fn a_paused_program_comes_back_to_the_open_pane() {
    let mut session = typing();
    session.signal("TSTP");
    session.wait_until("the main screen", |session| {
        session.with_terminal(|terminal| !terminal.alternate_screen())
    });
    assert_given_back(&session);
    session.signal("CONT");
    session.wait_for("weighbridge");
    session.type_text(", again");
    session.wait_for("weighbridge, again");
    session.logs("exposed");
    session.leave().is_sound();
}
