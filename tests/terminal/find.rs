//! Searching everything, and narrowing a list.

use crate::hand::Home;

fn with_four_sheets() -> Home {
    let home = Home::with_holders();
    for (side, subject) in [
        ("h1a", "weighbridge"),
        ("h1b", "north_wall,_thaw"),
        ("h2a", "slipway"),
        ("h2b", "weighbridge,_closer"),
    ] {
        home.does(&format!("log load {side} --box f1"));
        home.does(&format!("log expose {side} --time 6s --subject {subject}"));
    }
    home.does("log note s2 --text a_quartz_vein_runs_through_the_lower_third");
    home
}

#[test]
fn letters_of_a_note_find_it_and_enter_goes_to_its_thing() {
    let mut session = with_four_sheets().open();
    session.wait_for("S-0004");
    session.press("s");
    for letters in ["qu", "ar"] {
        session.type_text(letters);
        session.wait_for("a quartz vein");
    }
    session.type_text(" low");
    session.wait_for("a quartz vein");
    session.type_text("er vain");
    session.wait_gone("a quartz vein");
    session.press("ctrl-u");
    session.type_text("QUARTZ");
    session.wait_for("a quartz vein");
    session.press("enter");
    session.wait_gone("QUARTZ");
    // Its timeline is open, whatever the list stood on before.
    session.wait_prose("S-0002");
    session.wait_prose("runs through the lower third");
    session.leave();
}

#[test]
fn words_narrow_the_list_until_they_are_taken_away() {
    let mut session = with_four_sheets().open();
    session.wait_for("S-0004");
    let all = ["S-0001", "S-0002", "S-0003", "S-0004"];
    let listed = |session: &crate::session::Session| -> Vec<&str> {
        let rows = session.rows();
        let starts: Vec<&str> = rows
            .iter()
            .filter_map(|row| row.trim_start_matches(['▸', ' ']).get(..6))
            .collect();
        all.into_iter().filter(|one| starts.contains(one)).collect()
    };
    session.wait_until("four sheets", |session| listed(session) == all);
    session.press("/");
    session.type_text("weigh");
    session.wait_until("two sheets", |session| {
        listed(session) == ["S-0001", "S-0004"]
    });
    session.type_text(" clo");
    session.wait_until("one sheet", |session| listed(session) == ["S-0004"]);
    session.press("enter");
    session.wait_until("one sheet still", |session| listed(session) == ["S-0004"]);
    session.press("/");
    session.press("esc");
    session.wait_until("four sheets again", |session| listed(session) == all);
    session.leave();
}
