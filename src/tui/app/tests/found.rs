//! What was found out is offered and reckoned with from then on.

use crate::logbook::Kind;
use crate::tui::app::stand::Stand;

/// Goes from field to field until the one with this label has the focus, and types into it.
#[track_caller]
fn fill(stand: &mut Stand, label: &str, text: &str) {
    for _ in 0..40 {
        let screen = stand.text();
        let mut marked = screen.lines().filter_map(|line| line.split_once('▸'));
        if marked.any(|(_, it)| it.trim_start().starts_with(label)) {
            return stand.type_text(text);
        }
        stand.press("tab");
    }
    panic!("no field {label:?} in\n{}", stand.text());
}

#[test]
fn a_film_of_ones_own_is_logged_and_then_known_in_the_pane_of_a_box() {
    let mut stand = Stand::empty();
    stand.press("n a");
    fill(&mut stand, "film", "Plain Pan");
    fill(&mut stand, "speed", "64");
    fill(&mut stand, "maker", "Northlight");
    stand.press("enter");
    stand.shows("Plain Pan");
    stand.shows("speed 64, Northlight");
    stand.press("n b");
    fill(&mut stand, "film", "plain pan");
    stand.shows("Northlight Plain Pan");
    stand.shows("ISO 64");
    stand.shows("own");
    stand.press("esc");
}

#[test]
fn own_figures_of_a_known_film_stand_beside_the_box_and_a_strike_takes_them_away() {
    let mut stand = Stand::empty();
    stand.log(Kind::FilmFound, &[("film", "FP4"), ("speed", "80")]);
    stand.press("n b");
    fill(&mut stand, "film", "FP4 Plus");
    stand.shows("ISO 80");
    stand.press("esc");
    let retired = [("thing", "n1"), ("reason", "misread")];
    stand.log(Kind::Retired, &retired);
    stand.press("n b");
    fill(&mut stand, "film", "FP4 Plus");
    stand.shows("ISO 125");
}

#[test]
fn a_format_of_ones_own_is_offered_where_film_has_a_size_and_in_figures() {
    let mut stand = Stand::empty();
    let plate = [
        ("size", "6.5x8.5"),
        ("name", "whole plate"),
        ("image", "157x208 mm"),
    ];
    stand.log(Kind::FormatFound, &plate);
    stand.press("n b");
    fill(&mut stand, "size", "");
    let mut seen = false;
    for _ in 0..40 {
        stand.press("right");
        seen |= stand.text().contains("whole plate");
    }
    assert!(seen, "{}", stand.text());
    stand.press("esc");
    stand.press("r");
    stand.type_text("holder");
    stand.press("enter");
    fill(&mut stand, "format", "6.5x8");
    stand.shows("157 x 208 mm");
    stand.shows("own");
}
