//! Another program that writes into the logbook for long, an import or a rebuild.

use rusqlite::Connection;

use crate::hand::Home;
use crate::session::Session;

/// The sentence, in part.
const IN_USE: &str = "is in use by another program";

/// An open pane, and a connection that has begun to write and does not let go.
fn pane_and_writer() -> (Session, Connection) {
    let home = Home::with_holders();
    home.does("log load h1a --box f1");
    let path = home.path().join("data/notchbook/logbook.notchbook");
    let mut session = home.open();
    session.wait_for("S-0001");
    session.goes_to(2);
    session.opens("e", "movements");
    let writer = Connection::open(path).expect("a connection");
    writer.execute_batch("BEGIN IMMEDIATE").expect("it is free");
    (session, writer)
}

fn let_go(writer: &Connection) {
    writer.execute_batch("ROLLBACK").expect("it was begun");
}

#[test]
fn the_hand_types_on_while_another_program_writes_and_the_draft_is_kept_afterwards() {
    let (mut session, writer) = pane_and_writer();
    session.go_to_field("subject");
    for letter in "the old weighbridge".chars() {
        session.type_text(&letter.to_string());
    }
    session.wait_for("weighbridge");
    assert!(!session.prose().contains(IN_USE), "{}", session.screen());
    // Closed now, it would be lost.
    session.press("esc");
    session.wait_prose(IN_USE);
    session.wait_for("weighbridge");
    let_go(&writer);
    // It is kept without another key.
    session.wait_until("the draft in the logbook", |_| {
        let typed = writer.query_row("SELECT typed FROM draft", [], |row| row.get(0));
        typed.is_ok_and(|typed: String| typed.contains("the old weighbridge"))
    });
    let session = Home::from(session.kill()).open();
    session.wait_for("1 draft");
}

#[test]
fn an_entry_that_finds_the_logbook_in_use_is_logged_once_when_it_is_free() {
    let (mut session, writer) = pane_and_writer();
    session.fill("time", "6s");
    session.press("enter");
    session.wait_prose(IN_USE);
    assert_eq!(session.logged("exposed"), None);
    session.wait_for("6s");
    let_go(&writer);
    assert_eq!(session.logs("exposed"), 5);
    let home = session.leave();
    let shown = home.asks("show s1");
    assert_eq!(shown["entries"].as_array().expect("entries").len(), 2);
    home.is_sound();
}
