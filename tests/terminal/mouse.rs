//! The mouse, where it helps.

use crate::hand::Home;
use crate::session::Session;

/// Presses and releases the left button on a text that is on the screen.
fn click(session: &mut Session, text: &str) {
    session.wait_for(text);
    let rows = session.rows();
    let (row, column) = rows
        .iter()
        .enumerate()
        .find_map(|(row, line)| Some((row, line.find(text)?)))
        .map(|(row, at)| (row, rows[row][..at].chars().count()))
        .expect("it is on the screen");
    let at = format!("{};{}", column + 1, row + 1);
    session.send(format!("\x1b[<0;{at}M\x1b[<0;{at}m").as_bytes());
}

#[test]
fn screens_sides_fields_and_choices_are_reached_with_the_mouse() {
    let home = Home::with_holders();
    home.does("log load h1a --box f1");
    home.does("log load h2b --box f1");
    let mut session = home.open();
    session.wait_for("S-0001");
    click(&mut session, "2 Rack");
    session.wait_for("▸2 ");
    // The side that is clicked is at hand, and clicked again it shows what comes next.
    click(&mut session, "B FP4 Plus");
    session.wait_for("S-0002");
    click(&mut session, "B FP4 Plus");
    session.wait_for("/ find");
    click(&mut session, "expose  ");
    session.wait_for("movements");
    click(&mut session, "weather");
    session.wait_until("the hand in the field", |session| {
        session.field().as_deref() == Some("weather")
    });
    session.type_text("thaw");
    session.logs("exposed");
    click(&mut session, "1 Sheets");
    session.wait_for("▸1 ");
    click(&mut session, "S-0001");
    session.wait_prose("H-01 A, F-01");
    let home = session.leave();
    let sheet = home.asks("list sheets");
    assert_eq!(sheet["rows"][0]["state"], "exposed");
}

#[test]
fn the_mouse_is_left_to_the_terminal_when_that_is_wished() {
    let session = Home::with_holders().with_settings("mouse = false\n").open();
    session.wait_for("H-01");
    let mode = session.with_terminal(vt100::Screen::mouse_protocol_mode);
    assert_eq!(mode, vt100::MouseProtocolMode::None);
}
