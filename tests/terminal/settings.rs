//! The user's own settings.

use crate::hand::Home;

#[test]
fn own_keys_work_and_a_clash_is_told() {
    let home = Home::with_holders().with_settings(
        "symbols = \"ascii\"\n[keys]\n\"log.load\" = [\"ctrl-l\", \"f5\"]\n\"log.expose\" = [\"f5\", \"ctrl-e\"]\n",
    );
    let told = home.does("keys");
    assert!(told.contains("ctrl-l"), "{told}");
    let mut session = home.open();
    session.wait_for("H-01");
    session.wait_prose("\"f5\" is wanted by \"log.load\" and by \"log.expose\"");
    session.wait_prose("\"log.load\" has it");
    // The default key was given up, the own one works.
    session.press("l");
    session.opens("ctrl-l", "load a sheet");
    session.logs("loaded");
    session.opens("ctrl-e", "aperture");
    session.logs("exposed");
    // The signs are plain ones.
    assert!(session.screen().is_ascii(), "{}", session.screen());
    session.leave().is_sound();
}

#[test]
fn settings_that_cannot_be_read_are_told_and_the_program_opens() {
    let home =
        Home::with_holders().with_settings("theme = \"blue\"\n[keys]\n\"log.lod\" = \"f5\"\n");
    let mut session = home.open();
    session.wait_for("H-01");
    session.wait_prose("theme = \"blue\" is not understood");
    session.press("down");
    session.wait_gone("blue");
    session.leave();
    let home = Home::with_holders().with_settings("theme = \n");
    let session = home.open();
    session.wait_for("H-01");
    session.wait_prose("the settings are not readable in line 1");
    session.leave();
}
