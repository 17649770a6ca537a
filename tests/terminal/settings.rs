//! The user's own settings.

use crate::hand::Home;

/// The settings that the README shows.
fn of_the_readme() -> String {
    let readme = include_str!("../../README.md");
    let (_, settings) = readme
        .split_once("in `settings.toml`:\n")
        .expect("the README shows settings");
    let indented = settings
        .lines()
        .skip_while(|line| line.is_empty())
        .take_while(|line| line.is_empty() || line.starts_with("    "));
    indented
        .map(|line| format!("{}\n", line.trim_start()))
        .collect()
}

#[test]
fn the_settings_of_the_readme_are_taken_without_a_word() {
    let settings = of_the_readme();
    assert!(settings.contains("\"log.expose\""), "{settings}");
    let home = Home::with_holders().with_settings(&settings);
    let keys = home.asks("keys");
    let told: Vec<&String> = keys.as_object().expect("an object").keys().collect();
    assert_eq!(told, ["keys"], "{keys}");
    home.does("log load h1a --box f1");
    let mut session = home.open();
    session.wait_for("S-0001");
    session.opens("y", "movements");
}

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
