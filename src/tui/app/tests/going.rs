//! Going about: links, the way back, halves, words that narrow, the search.

use crate::logbook::Kind;
use crate::tui::app::stand::Stand;

fn find(stand: &mut Stand, words: &str) {
    stand.press("/");
    stand.type_text(words);
    stand.press("enter");
}

#[test]
fn an_entry_leads_to_what_it_touches_and_backspace_leads_back() {
    let mut stand = Stand::demo();
    stand.press("1");
    find(&mut stand, "S-0050");
    // The line of the run: sheets and the run itself.
    stand.press("right up up enter");
    stand.shows("touches");
    stand.type_text("R-0018");
    stand.press("enter");
    stand.shows("▸runs");
    stand.shows("▸R-0018");
    stand.shows("backspace go back");
    // From the run to its developer.
    stand.press("right home enter");
    stand.type_text("B-0072");
    stand.press("enter");
    stand.shows("▸baths");
    stand.shows("▸B-0072");
    stand.press("backspace");
    stand.shows("▸R-0018");
    stand.shows("enter follow");
    stand.press("backspace");
    stand.shows("▸S-0050");
    stand.shows("enter follow");
    let text = stand.text();
    assert!(!text.contains("go back"), "{text}");
}

#[test]
fn from_a_bath_a_print_is_reached_and_from_a_box_a_holder() {
    let mut stand = Stand::demo();
    stand.press("5 ] ]");
    find(&mut stand, "B-0022");
    // An entry that touches one other thing leads there at once.
    stand.press("right enter");
    stand.shows("▸4 Prints");
    stand.press("backspace");
    stand.shows("▸B-0022");
    stand.press("[ [ right enter");
    stand.type_text("H-14");
    stand.press("enter");
    stand.shows("▸2 Rack");
    stand.shows("H-14 A  fogged");
}

#[test]
fn a_new_print_is_gone_to_and_backspace_leads_to_its_negative() {
    let mut stand = Stand::demo();
    stand.press("1");
    find(&mut stand, "S-0051");
    stand.press("p enter");
    stand.shows("▸P-0031");
    stand.press("backspace");
    stand.shows("▸S-0051");
}

#[test]
fn a_hit_of_the_search_leads_to_the_line_it_was_found_in() {
    let mut stand = Stand::demo();
    stand.press("1 s");
    stand.type_text("brushed");
    stand.press("enter");
    stand.shows("▸26 Feb 21:05  loaded");
    stand.shows("brushed the holders");
}

#[test]
fn esc_leads_from_the_timeline_to_the_list_and_then_to_the_whole_list() {
    let mut stand = Stand::demo();
    stand.press("1");
    find(&mut stand, "S-0050");
    stand.press("right");
    stand.shows("enter follow");
    stand.press("esc");
    stand.shows("enter next entry");
    stand.shows("find S-0050");
    stand.press("esc");
    stand.shows("68 sheets");
    let before = stand.text();
    stand.press("esc");
    assert_eq!(stand.text(), before);
}

#[test]
fn esc_while_words_are_typed_shows_everything_again() {
    let mut stand = Stand::demo();
    for (screen, all) in [("1", "68 sheets"), ("4", "30 prints"), ("5", "6 boxes")] {
        stand.press(&format!("{screen} /"));
        stand.type_text("zzz");
        stand.shows("Nothing here has all these words: esc shows everything again.");
        stand.press("esc");
        stand.shows(all);
    }
}

#[test]
fn the_hand_on_the_timeline_gives_it_the_room() {
    let mut stand = Stand::demo();
    stand.press("1");
    let wide_strip = |stand: &Stand| {
        let text = stand.text();
        let line = text.lines().nth(2).unwrap_or_default();
        line.chars().position(|c| c == '│')
    };
    assert_eq!(wide_strip(&stand), Some(32));
    stand.press("right");
    assert_eq!(wide_strip(&stand), Some(20));
    stand.press("left");
    assert_eq!(wide_strip(&stand), Some(32));
    stand.resize(160, 50);
    stand.press("right");
    assert_eq!(wide_strip(&stand), Some(64));
}

#[test]
fn the_road_of_a_long_print_can_be_read_to_its_end() {
    let mut stand = Stand::demo();
    stand.press("4");
    find(&mut stand, "Bread");
    stand.press("t");
    stand.shows("the road back from P-0024");
    let mut read = stand.text();
    for _ in 0..200 {
        let before = stand.text();
        stand.press("down");
        if stand.text() == before {
            break;
        }
        read.push_str(&stand.text());
    }
    for wanted in [
        "clear, first bath",
        "drawer 4, editions",
        "negative",
        "lens",
        "developer",
        "F-01",
    ] {
        assert!(read.contains(wanted), "no {wanted}");
    }
    // What only says again how a thing came in is left out behind the head of the road.
    for word in ["bath-mixed", "box-added", "holder-added", "lens-added"] {
        assert!(!read.contains(word), "{word}");
    }
    stand.press("home pgup pgup pgup pgup pgup pgup pgup pgup pgup pgup tab");
    stand.shows("what came of P-0024");
    stand.press("esc");
    stand.shows("Bread");
}

#[test]
fn a_thing_of_another_screen_that_a_second_program_logged_is_seen_with_the_next_key() {
    let mut stand = Stand::demo();
    stand.press("5");
    stand.log(
        Kind::BoxAdded,
        &[("film", "Ektar"), ("size", "4x5"), ("sheets", "10")],
    );
    stand.press("1 5");
    stand.shows("7 boxes");
}

#[test]
fn the_hand_reaches_back_to_the_first_entry_of_a_lens_that_has_seen_much() {
    let mut stand = super::with_holders();
    for nth in 1..=230 {
        let text = format!("cleaned, {nth} times now");
        stand.log(Kind::Noted, &[("thing", "L-01"), ("text", &text)]);
    }
    stand.press("5 ] ] ]");
    stand.shows("L-01");
    stand.press("right");
    stand.shows("cleaned, 230 times now");
    // Further than what is read at first, one page after another.
    for _ in 0..26 {
        stand.press("pgup");
    }
    stand.shows("cleaned, 22 times now");
    stand.press("home");
    stand.shows("▸04 Mar 08:00  lens");
    stand.press("end");
    stand.shows("cleaned, 230 times now");
}
