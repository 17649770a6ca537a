//! Every way in and out of the terminal.

use std::time::{Duration, Instant};

use vt100::{Color, MouseProtocolMode};

use crate::session::{Session, Start};
use crate::stage::{self, LAST_WORD};

/// The terminal as the shell wants it back.
pub(crate) fn assert_given_back(session: &Session) {
    session.with_terminal(|terminal| {
        assert!(!terminal.alternate_screen(), "still on the other screen");
        assert!(!terminal.hide_cursor(), "the cursor is hidden");
        assert!(!terminal.bracketed_paste(), "pastes are still bracketed");
        assert_eq!(terminal.mouse_protocol_mode(), MouseProtocolMode::None);
        assert_eq!(
            (terminal.fgcolor(), terminal.bgcolor()),
            (Color::Default, Color::Default)
        );
    });
}

#[test]
fn the_program_itself_can_be_run_in_a_session() {
    let mut session = Start::notchbook(&["--version"]).in_size(80, 24);
    assert!(session.wait_exit().success());
}

#[test]
fn quitting_gives_the_terminal_back() {
    let before = Start::program("sleep", &["5"])
        .in_size(60, 16)
        .line_settings();
    let mut session = stage::open();
    session.with_terminal(|terminal| {
        assert!(terminal.alternate_screen() && terminal.bracketed_paste());
        assert_ne!(terminal.mouse_protocol_mode(), MouseProtocolMode::None);
    });
    assert!(format!("{:?}", session.line_settings()) != format!("{before:?}"));
    session.press("ctrl-q");
    assert_eq!(session.wait_exit().exit_code(), 0);
    assert_given_back(&session);
    assert_eq!(
        format!("{:?}", session.line_settings()),
        format!("{before:?}")
    );
}

#[test]
fn signals_end_the_program_at_once_and_give_the_terminal_back() {
    for (signal, number) in [("TERM", 15), ("HUP", 1), ("INT", 2), ("QUIT", 3)] {
        let mut session = stage::open();
        let began = Instant::now();
        session.signal(signal);
        assert_eq!(session.wait_exit().exit_code(), 128 + number, "{signal}");
        // The loop waits for up to a second; a signal wakes it.
        assert!(
            began.elapsed() < Duration::from_millis(900),
            "{:?}",
            began.elapsed()
        );
        assert_given_back(&session);
    }
}

#[test]
fn a_panic_gives_the_terminal_back_and_leaves_a_report() {
    let mut session = stage::open();
    session.type_text("a long line of text");
    session.wait_for("a long line");
    session.press("ctrl-p");
    assert!(!session.wait_exit().success());
    assert_given_back(&session);
    let screen = session.screen();
    assert!(
        screen.contains("Everything that was shown as saved is saved."),
        "{screen}"
    );
    assert!(screen.contains("A report is in"), "{screen}");
    let reports = session.home().join("reports");
    let report = std::fs::read_dir(&reports)
        .unwrap()
        .next()
        .unwrap()
        .unwrap();
    let text = std::fs::read_to_string(report.path()).unwrap();
    assert!(
        text.contains("the sampler was told to ^[[31mpanic"),
        "{text}"
    );
    assert!(text.contains("stage.rs"), "{text}");
    use std::os::unix::fs::PermissionsExt;
    assert_eq!(
        report.metadata().unwrap().permissions().mode() & 0o777,
        0o600
    );
}

#[test]
fn a_closed_window_ends_the_program() {
    let session = stage::open();
    // It may notice by itself before it is told.
    let word = last_word(session);
    assert!(["Signal(1)", "HangUp"].contains(&word.as_str()), "{word}");
}

#[test]
fn a_closed_window_ends_the_program_even_when_nobody_tells_it() {
    // In a session of its own the program gets no signal when the terminal goes away.
    let this = std::env::current_exe().unwrap();
    let line = format!(
        "exec setsid --wait {} stage::the_loop_runs_from_start_to_end --exact --nocapture",
        this.display()
    );
    let session = Start::program("sh", &["-c", &line])
        .env("NOTCHBOOK_TEST_STAGE", "1")
        .in_size(60, 16);
    session.wait_for("ready");
    assert_eq!(last_word(session), "HangUp");
}

/// Closes the window and waits for what the program has to say about it.
fn last_word(session: Session) -> String {
    let left = session.hang_up("x");
    let began = Instant::now();
    loop {
        if let Ok(word) = std::fs::read_to_string(left.home().join(LAST_WORD))
            && !word.is_empty()
        {
            return word;
        }
        assert!(
            began.elapsed() < Duration::from_secs(10),
            "the program goes on"
        );
        std::thread::sleep(Duration::from_millis(20));
    }
}

#[test]
fn a_paused_program_gives_the_terminal_back_and_draws_again() {
    let mut session = stage::open();
    session.type_text("kept");
    session.wait_for("kept");
    session.signal("TSTP");
    session.wait_until("the main screen", |session| {
        session.with_terminal(|terminal| !terminal.alternate_screen())
    });
    assert_given_back(&session);
    session.signal("CONT");
    session.wait_for("kept");
    session.press("ctrl-b");
    session.wait_until("the main screen", |session| {
        session.with_terminal(|terminal| !terminal.alternate_screen())
    });
    session.signal("CONT");
    session.wait_for("kept");
    session.press("ctrl-q");
    assert!(session.wait_exit().success());
    assert_given_back(&session);
}

#[test]
fn a_program_that_was_stopped_without_asking_draws_again() {
    let mut session = stage::open();
    session.signal("STOP");
    session.signal("CONT");
    session.type_text("on");
    session.wait_for("on");
    session.press("ctrl-q");
    assert!(session.wait_exit().success());
}

#[test]
fn a_paste_fills_the_field_and_presses_no_key() {
    let mut session = stage::open();
    session.paste("q\x11\nenter\n");
    session.wait_for("q^Q enter");
    assert!(!session.screen().contains("ticks 0  enter"));
    session.paste(&"x".repeat(1_000_000));
    session.wait_for("xxxxxxxx");
    session.press("ctrl-q");
    assert!(session.wait_exit().success());
}

#[test]
fn a_new_size_is_drawn_at_once_down_to_nothing() {
    let mut session = stage::open();
    for (columns, rows) in [(100, 30), (20, 3), (1, 1), (160, 50)] {
        session.resize(columns, rows);
        session.wait_until("a picture", |session| !session.screen().is_empty());
    }
    session.wait_for("160 by 50");
    session.press("ctrl-q");
    assert!(session.wait_exit().success());
}

#[test]
fn a_terminal_without_a_size_draws_nothing_and_waits() {
    let mut session = stage::start().in_size(0, 0);
    session.wait_until("the other screen", |session| {
        session.with_terminal(vt100::Screen::alternate_screen)
    });
    session.resize(60, 16);
    session.wait_for("ready");
    session.press("ctrl-q");
    assert!(session.wait_exit().success());
}

#[test]
fn nothing_is_sent_while_nothing_changes() {
    let mut session = stage::open();
    std::thread::sleep(Duration::from_millis(300));
    let before = session.sent().len();
    std::thread::sleep(Duration::from_millis(2500));
    assert_eq!(session.sent().len(), before);
    session.press("ctrl-t");
    session.wait_for("ticks 3");
    session.press("ctrl-q");
    assert!(session.wait_exit().success());
}

#[test]
fn a_changed_figure_costs_few_bytes() {
    let mut session = stage::open();
    session.press("ctrl-t");
    session.wait_for("ticks 2");
    session.press("ctrl-t");
    let sent = String::from_utf8_lossy(&session.sent()).into_owned();
    let frames: Vec<&str> = sent.split("\x1b[?2026h").collect();
    let tick = frames
        .last()
        .map_or(0, |frame| frame.len() + "\x1b[?2026h".len());
    assert!(tick <= 128, "{tick} bytes: {:?}", frames.last());
    session.press("ctrl-q");
    assert!(session.wait_exit().success());
}

#[test]
fn safelight_shows_no_bright_cell_and_no_cursor_and_never_clears_to_white() {
    let mut session = stage::start()
        .env("THEME", "safelight")
        .env("NO_COLOR", "1")
        .env("COLORTERM", "truecolor")
        .in_size(60, 16);
    session.wait_for("ready");
    session.resize(50, 12);
    session.wait_for("50 by 12");
    session.with_terminal(|terminal| {
        assert!(terminal.hide_cursor());
        for row in 0..12 {
            for column in 0..50 {
                let cell = terminal.cell(row, column).unwrap();
                assert!(
                    matches!(cell.bgcolor(), Color::Idx(0 | 16)),
                    "{row} {column} {:?}",
                    cell.bgcolor()
                );
                assert!(
                    matches!(cell.fgcolor(), Color::Idx(1 | 52 | 88)),
                    "{row} {column} {:?}",
                    cell.fgcolor()
                );
                assert!(!cell.inverse());
            }
        }
    });
    session.press("ctrl-q");
    assert!(session.wait_exit().success());
    let sent = String::from_utf8_lossy(&session.sent()).into_owned();
    let (shown, _) = sent.split_once("\x1b[?1049l").unwrap();
    for (at, _) in shown.match_indices("\x1b[2J") {
        // The colours set last before clearing are the theme's.
        let colours = shown[..at].rfind("\x1b[38;5;").unwrap();
        assert!(
            !shown[colours..at].contains("\x1b[0m"),
            "{:?}",
            &shown[colours..at]
        );
        assert!(
            !shown[colours..at].contains("\x1b[49m"),
            "{:?}",
            &shown[colours..at]
        );
    }
    assert!(shown.matches("\x1b[2J").count() >= 2);
}

#[test]
fn without_colour_the_selection_is_still_seen() {
    let mut session = stage::start().env("NO_COLOR", "1").in_size(60, 16);
    session.wait_for("ready");
    session.with_terminal(|terminal| {
        let cell = terminal.cell(2, 0).unwrap();
        assert_eq!(cell.contents(), "s");
        assert!(cell.inverse());
        assert_eq!(cell.fgcolor(), Color::Default);
    });
    session.press("ctrl-q");
    assert!(session.wait_exit().success());
}

#[test]
fn the_terminal_is_never_asked_where_its_cursor_is() {
    let mut session = stage::open();
    session.resize(50, 10);
    session.wait_for("50 by 10");
    session.press("ctrl-q");
    session.wait_exit();
    let sent = session.sent();
    assert!(!sent.windows(4).any(|bytes| bytes == b"\x1b[6n"));
}

#[test]
fn copying_goes_by_way_of_the_terminal() {
    let mut session = stage::open();
    session.press("ctrl-y");
    session.wait_until("the clipboard sequence", |session| {
        String::from_utf8_lossy(&session.sent()).contains("\x1b]52;c;Uy0wMDQy")
    });
    session.press("ctrl-q");
    assert!(session.wait_exit().success());
}
