//! The mouse: tabs, boards, rows, entries, sides, items, fields, the wheel.

use crate::tui::app::stand::Stand;

#[test]
fn a_click_opens_a_screen_and_a_board_of_the_shelf() {
    let mut stand = Stand::demo();
    for (name, wanted) in [
        ("2 Rack", "▸2 Rack"),
        ("3 Bench", "▸3 Bench"),
        ("4 Prints", "▸4 Prints"),
        ("5 Shelf", "▸5 Shelf"),
        ("baths", "80 baths"),
        ("lenses", "▸lenses"),
        ("1 Sheets", "68 sheets"),
    ] {
        stand.click_on(name);
        stand.shows(wanted);
    }
}

#[test]
fn a_click_chooses_a_row_and_a_second_one_opens_what_comes_next() {
    let mut stand = Stand::demo();
    stand.press("1");
    stand.click_on(" S-0063  exposed");
    stand.shows("▸S-0063");
    stand.click_on("▸S-0063  exposed");
    stand.shows("S-0063 is exposed");
    // On the shelf the rows begin a line lower.
    let mut stand = Stand::demo();
    stand.press("5");
    stand.click_on(" F-03   Delta");
    stand.shows("▸F-03");
}

#[test]
fn a_click_on_an_entry_takes_the_hand_there_and_a_second_one_follows_it() {
    let mut stand = Stand::demo();
    stand.resize(160, 50);
    stand.press("1");
    stand.press("/");
    stand.type_text("S-0050");
    stand.press("enter");
    stand.click_on("14 Nov 18:55");
    stand.shows("▸14 Nov 18:55");
    stand.shows("enter follow");
    stand.click_on("14 Nov 18:55");
    stand.shows("touches");
    stand.click_on("R-0018  run");
    stand.shows("▸R-0018");
}

#[test]
fn a_click_chooses_a_side_and_a_second_one_opens_what_comes_next() {
    let mut stand = Stand::demo();
    stand.press("2");
    stand.click_on("B IN DOUBT");
    stand.shows("H-04 B  IN DOUBT");
    stand.click_on("B IN DOUBT");
    stand.shows("H-04 B is exposed");
    // Septums of a magazine stand in lines of their own.
    let mut stand = Stand::demo();
    stand.press("2");
    stand.click_on("5 Delta 100 @100");
    stand.shows("H-13 5  loaded");
}

#[test]
fn a_click_picks_an_item_and_puts_the_hand_into_a_field() {
    let mut stand = Stand::demo();
    stand.press("2 n");
    stand.click_on("mix a bath");
    stand.shows("solution");
    stand.click_on("volume");
    stand.type_text("2 l");
    stand.shows("▸ volume       2 l");
    stand.click_on("solution");
    stand.type_text("borax");
    stand.shows("▸ solution     borax");
}

#[test]
fn clicks_work_in_the_search_the_road_and_the_welcome() {
    let mut stand = Stand::demo();
    stand.press("s");
    stand.type_text("rope");
    stand.click_on("31 May 2025");
    stand.shows("▸31 May 2025");
    stand.click_on("31 May 2025");
    stand.shows("▸4 Prints");
    stand.shows("▸P-0014");
    let mut stand = Stand::demo();
    stand.press("1 t");
    stand.click_on("holder  H-10");
    stand.shows("▸    holder  H-10");
    stand.click_on("holder  H-10");
    stand.shows("▸2 Rack");
    let mut stand = Stand::empty();
    stand.app.welcome();
    stand.click_on("emulsion number");
    stand.type_text("4417");
    stand.shows("▸ emulsion number    4417");
}

#[test]
fn the_wheel_moves_what_is_under_it() {
    let mut stand = Stand::demo();
    stand.press("1");
    // The list: the window moves and takes the cursor along.
    stand.wheel(5, 10, false);
    let text = stand.text();
    assert!(!text.contains("S-0068"), "{text}");
    stand.wheel(5, 10, true);
    stand.shows("S-0068");
    // The timeline: its own cursor.
    stand.press("/");
    stand.type_text("S-0050");
    stand.press("enter");
    stand.wheel(60, 10, true);
    stand.shows("▸15 Nov 18:10");
    // The rack, a menu, the help page, a pane.
    stand.press("esc 2");
    stand.wheel(20, 5, false);
    stand.shows("H-02 A  empty");
    stand.press("n");
    stand.wheel(40, 12, false);
    stand.shows("▸ h  a new holder");
    stand.press("esc ?");
    stand.wheel(40, 12, false);
    let text = stand.text();
    assert!(!text.contains("from film to print"), "{text}");
    stand.press("esc . d");
    let before = stand.text();
    stand.wheel(70, 10, false);
    assert_ne!(stand.text(), before);
    stand.wheel(70, 10, true);
    assert_eq!(stand.text(), before);
    stand.wheel(20, 10, false);
    stand.shows("▸ dilution");
}

#[test]
fn a_click_beside_everything_does_nothing() {
    let mut stand = Stand::demo();
    stand.press("2");
    let before = stand.text();
    for at in [(79, 22), (0, 0), (200, 90)] {
        stand.click(at.0, at.1);
        assert_eq!(stand.text(), before, "{at:?}");
    }
    stand.press("enter");
    let before = stand.text();
    stand.click(1, 1);
    assert_eq!(stand.text(), before);
}
