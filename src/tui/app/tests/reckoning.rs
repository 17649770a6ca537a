//! Figures are found, reckoned while one types, and remembered for the session.

use crate::figures;
use crate::logbook::Kind;
use crate::tui::app::stand::Stand;
use crate::tui::event::{Application, Effect, Event};

/// The pane of a figure, opened by its word.
fn opened(word: &str) -> Stand {
    let mut stand = Stand::demo();
    open(&mut stand, word);
    stand
}

fn open(stand: &mut Stand, word: &str) {
    stand.press("r");
    stand.type_text(word);
    stand.press("enter");
}

#[test]
fn every_figure_can_be_opened_from_every_screen_and_its_example_gives_an_answer() {
    let mut stand = Stand::demo();
    for (at, recipe) in figures::all().enumerate() {
        stand.press(["1", "2", "3", "4", "5"][at % 5]);
        stand.press("r");
        stand.shows("reckon a figure");
        let title = format!("{}  {}", recipe.word, recipe.title);
        stand.app.open_reckoning(recipe.word);
        let text = stand.text();
        let shown: String = title.chars().take(60).collect();
        assert!(text.contains(&shown), "no {shown:?} in\n{text}");
        stand.press("ctrl-e");
        for (wide, high) in [(80, 24), (160, 50), (40, 10)] {
            stand.resize(wide, high);
            let text = stand.text();
            assert!(!text.contains("this is needed"), "{}\n{text}", recipe.word);
        }
        stand.resize(80, 24);
        stand.press("esc esc");
    }
}

#[test]
fn the_answer_follows_every_key_and_a_missing_answer_is_asked_for_gently() {
    let mut stand = opened("bellows");
    stand.shows("this is needed");
    stand.fill("focal length", "240");
    stand.fill("draw", "294");
    stand.shows("more exposure");
    stand.shows("+0.59 stop");
    stand.shows("published");
    stand.type_text("0");
    let text = stand.text();
    assert!(!text.contains("+0.59 stop"), "{text}");
}

#[test]
fn a_text_that_cannot_be_read_is_told_beside_its_field_once_it_is_left() {
    let mut stand = opened("bellows");
    stand.press("ctrl-e");
    stand.fill("focal length", "long");
    let text = stand.text();
    assert!(!text.contains("! \"long\""), "{text}");
    stand.press("tab");
    stand.shows("! \"long\" is not");
    // In full at the right.
    stand.shows("24 cm");
    stand.press("backtab");
    stand.press("ctrl-u");
    stand.type_text("240");
    stand.shows("+0.59 stop");
}

#[test]
fn what_cannot_be_is_told_in_a_sentence() {
    let mut stand = opened("bellows");
    stand.fill("focal length", "240");
    stand.fill("draw", "29");
    stand.shows("! ");
    stand.shows("nothing is");
}

#[test]
fn what_was_typed_is_there_again_for_the_same_figure_and_the_finder_stands_on_it() {
    let mut stand = opened("bellows");
    stand.fill("focal length", "240");
    stand.fill("draw", "294");
    stand.press("esc");
    let text = stand.text();
    assert!(!text.contains("more exposure"), "{text}");
    stand.press("r enter");
    stand.shows("+0.59 stop");
    stand.press("ctrl-x");
    stand.shows("this is needed");
    stand.press("esc r enter");
    stand.shows("this is needed");
}

#[test]
fn a_figure_can_be_reckoned_over_an_entry_that_is_being_typed() {
    let mut stand = Stand::demo();
    stand.press("2 . e");
    stand.type_text("1/4");
    stand.press("f2");
    stand.type_text("bellows");
    stand.press("enter ctrl-e");
    stand.shows("+0.59 stop");
    stand.press("f2");
    stand.shows("reckon a figure");
    stand.press("esc");
    stand.shows("+0.59 stop");
    stand.press("esc");
    stand.shows("1/4");
    stand.shows("aperture");
}

#[test]
fn the_main_result_can_be_copied_and_nothing_is_where_there_is_none() {
    let mut stand = opened("bellows");
    let copy = crossterm::event::KeyEvent::new(
        crossterm::event::KeyCode::Char('y'),
        crossterm::event::KeyModifiers::CONTROL,
    );
    let nothing = stand.app.handle(Event::Key(copy));
    assert!(nothing.is_empty(), "{nothing:?}");
    stand.press("ctrl-e");
    let effects = stand.app.handle(Event::Key(copy));
    assert_eq!(effects, [Effect::Copy("+0.59 stop".to_owned())]);
    stand.shows("copied: +0.59 stop");
}

#[test]
fn the_mouse_goes_to_a_field_and_the_wheel_reads_on_in_the_answer() {
    let mut stand = opened("bellows");
    stand.press("ctrl-e");
    stand.resize(80, 12);
    stand.wheel(60, 5, false);
    let text = stand.text();
    assert!(!text.contains("more exposure"), "{text}");
    stand.wheel(60, 5, true);
    stand.shows("more exposure");
    stand.click_on("294 mm");
    stand.type_text("480");
    stand.shows("+2 stops");
    stand.press("pgdn");
    let text = stand.text();
    assert!(!text.contains("more exposure"), "{text}");
}

#[test]
fn a_figure_is_reckoned_in_a_logbook_that_may_only_be_read() {
    let mut stand = Stand::demo_read_only();
    open(&mut stand, "bellows");
    stand.press("ctrl-e");
    stand.shows("+0.59 stop");
}

#[test]
fn a_lens_of_the_logbook_is_offered_and_its_shutter_tests_are_plotted_and_listed_in_full() {
    let mut stand = Stand::empty();
    stand.log(
        Kind::LensAdded,
        &[
            ("name", "240 mm, five elements"),
            ("focal_length", "240 mm"),
            ("happened", "2025-01-02"),
        ],
    );
    for (timings, day) in [("1/100 1/102", "2025-01-10"), ("1/80 1/82", "2025-10-01")] {
        stand.log(
            Kind::ShutterTested,
            &[
                ("lens", "l1"),
                ("mark", "1/125"),
                ("timings", timings),
                ("happened", day),
            ],
        );
    }
    open(&mut stand, "shutter");
    stand.fill("lens", "five");
    stand.shows("L-01");
    stand.shows("1/125 s");
    stand.shows("own");
    stand.shows("error, stops");
    stand.press("pgdn pgdn");
    // The table keeps all its columns, because the answer has moved under the questions.
    stand.shows("shots");
    let text = stand.text();
    assert!(!text.contains("stop…"), "{text}");
    open_twice(&mut stand);
}

/// Opens the finder over the pane and closes it again: the cursor is on the open figure.
fn open_twice(stand: &mut Stand) {
    stand.press("f2");
    stand.shows("▸ shutter");
    stand.press("esc");
    stand.shows("shutter  what a shutter really gives");
}
