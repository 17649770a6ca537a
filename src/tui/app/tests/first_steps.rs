//! The whole way of someone who has never seen the program, key by key: only keys are pressed that the
//! screen names at that moment.

use crate::tui::app::stand::Stand;

/// Presses a key that the line of hints, a sentence or a menu on the screen names.
#[track_caller]
fn press_what_is_named(stand: &mut Stand, key: &str, label: &str) {
    stand.shows(&format!("{key} {label}"));
    stand.press(key);
}

#[track_caller]
fn fill(stand: &mut Stand, fields: &[(&str, &str)]) {
    for (label, text) in fields {
        stand.fill(label, text);
    }
}

#[test]
fn a_person_who_never_saw_it_comes_from_an_empty_logbook_to_a_matted_print_and_its_road() {
    let mut stand = Stand::empty();
    stand.app.welcome();
    stand.shows("welcome to notchbook");
    fill(&mut stand, &[("format", "8x10"), ("double holders", "2")]);
    fill(&mut stand, &[("film", "FP4 Plus"), ("exposed at", "80")]);
    fill(&mut stand, &[("emulsion", "4417")]);
    press_what_is_named(&mut stand, "enter", "set up");
    stand.shows("choose a side with the arrows and load it (l)");
    stand.shows("every side is empty: l loads the one at the cursor");

    press_what_is_named(&mut stand, "l", "load");
    stand.shows("F-01  FP4 Plus");
    stand.shows("bright side of the dark slide");
    press_what_is_named(&mut stand, "enter", "log it");
    stand.shows("A FP4 Plus @80");

    press_what_is_named(&mut stand, "e", "expose");
    stand.shows("(f/22+1/3)");
    fill(&mut stand, &[("aperture", "f/32"), ("time", "6s")]);
    press_what_is_named(&mut stand, "enter", "log it");
    stand.shows("A exposed now");

    press_what_is_named(&mut stand, "d", "develop");
    stand.shows("no developer is mixed yet");
    fill(&mut stand, &[("time", "11m30")]);
    press_what_is_named(&mut stand, "enter", "log it");
    // The run is at hand, and how it ends is named first.
    stand.shows("▸R-0001");
    press_what_is_named(&mut stand, "E", "end run");
    press_what_is_named(&mut stand, "enter", "log it");
    stand.shows("S-0001  negative");

    press_what_is_named(&mut stand, "m", "measure");
    fill(&mut stand, &[("thinnest", "0.31"), ("densest", "1.86")]);
    stand.shows("1.55");
    press_what_is_named(&mut stand, "enter", "log it");
    press_what_is_named(&mut stand, "f", "file");
    fill(&mut stand, &[("place", "binder 4, page 11")]);
    press_what_is_named(&mut stand, "enter", "log it");
    stand.shows("filed");

    press_what_is_named(&mut stand, "p", "print");
    fill(
        &mut stand,
        &[("process", "platinum"), ("title", "North Wall")],
    );
    press_what_is_named(&mut stand, "enter", "log it");
    stand.shows("P-0001  pt/pd");

    // The step that comes next stands in the pane each time, until the print is dry.
    let mut steps = Vec::new();
    let state = |stand: &Stand| stand.app.at_hand().map(|life| life.state_word());
    while state(&stand) != Some("dry") {
        press_what_is_named(&mut stand, "c", "step");
        let title = stand.text();
        let title = title.lines().nth(1).unwrap_or_default();
        let step = title
            .split(": ")
            .nth(1)
            .and_then(|it| it.split("  ").next());
        steps.push(step.unwrap_or_default().to_owned());
        press_what_is_named(&mut stand, "enter", "log it");
        assert!(steps.len() < 20, "{steps:?}\n{}", stand.text());
    }
    assert_eq!(
        steps,
        [
            "coat",
            "dry-coating",
            "expose",
            "develop",
            "clear-1",
            "clear-2",
            "clear-3",
            "wash",
            "dry"
        ]
    );

    press_what_is_named(&mut stand, "M", "mat");
    fill(&mut stand, &[("outer size", "16x20"), ("window", "8x10")]);
    stand.shows("borders");
    press_what_is_named(&mut stand, "enter", "log it");
    stand.shows("matted");

    stand.resize(120, 50);
    press_what_is_named(&mut stand, "t", "trace");
    for wanted in [
        "negative  S-0001",
        "F-01",
        "emulsion 4417",
        "R-0001",
        "H-01 A",
        "16x20 in",
    ] {
        stand.shows(wanted);
    }
}

#[test]
fn every_empty_screen_names_the_key_that_leads_on() {
    let mut stand = Stand::empty();
    for (keys, wanted) in [
        ("1", "go to the rack (2)"),
        ("2", "n adds a holder"),
        ("3", "Nothing stands on the bench"),
        ("4", "choose one among the sheets (1)"),
        ("5", "n adds one"),
        ("]", "n adds a stock"),
        ("]", "n mixes one"),
        ("]", "n adds one"),
        ("]", "n adds one"),
        ("]", "n keeps what a filter takes"),
        ("]", "begin one (d)"),
        ("]", "linked from one of them"),
    ] {
        stand.press(keys);
        stand.shows(wanted);
        stand.shows("n new");
    }
}

#[test]
fn the_help_page_begins_with_the_way_from_film_to_print() {
    let mut stand = Stand::empty();
    stand.press("?");
    stand.shows("from film to print");
    stand.shows("load a side (l)");
    stand.press("esc");
    let text = stand.text();
    assert!(!text.contains("from film to print"), "{text}");
}
