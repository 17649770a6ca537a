//! The rack with more in it than a shelf holds.

use crate::logbook::Kind;
use crate::tui::app::stand::Stand;

/// Forty double holders; of five in a row one is loaded, one exposed, one in doubt, one fogged.
fn forty() -> Stand {
    let mut stand = Stand::empty();
    let size = ("size", "8x10");
    let early = ("happened", "2026-03-01 08:00");
    for (film, speed) in [("FP4 Plus", "80"), ("HP5 Plus", "250")] {
        let sheets = ("sheets", "100");
        stand.log(
            Kind::BoxAdded,
            &[("film", film), size, sheets, ("speed", speed), early],
        );
    }
    for number in 0..40 {
        stand.log(Kind::HolderAdded, &[size, ("sides", "2"), early]);
        let holder = number + 1;
        let (a, b) = (format!("h{holder}a"), format!("h{holder}b"));
        let film_box = if number % 2 == 0 { "f1" } else { "f2" };
        let load = |stand: &mut Stand, side: &str| {
            let at = ("happened", "2026-03-01 09:00");
            stand.log(Kind::Loaded, &[("side", side), ("film_box", film_box), at]);
        };
        match number % 5 {
            0 => load(&mut stand, &a),
            1 => {
                load(&mut stand, &a);
                load(&mut stand, &b);
                let at = ("happened", "2026-03-02 10:00");
                stand.log(Kind::Exposed, &[("side", &a), ("time", "6s"), at]);
            }
            2 => {
                load(&mut stand, &b);
                let at = ("happened", "2026-03-02 11:00");
                stand.log(Kind::SlideSeen, &[("side", &b), ("shows", "dark"), at]);
            }
            3 => {
                load(&mut stand, &a);
                let why = ("reason", "the bag was open");
                stand.log(Kind::Fogged, &[("sheet", &a), why]);
            }
            _ => {}
        }
    }
    stand.press("2");
    stand
}

#[test]
fn forty_double_holders_stand_on_one_page_of_80_by_24_with_every_state_in_words() {
    let stand = forty();
    let text = stand.text();
    for number in 1..=40 {
        assert!(
            text.contains(&format!("H-{number:02} ")),
            "{number}\n{text}"
        );
    }
    for words in [
        "A FP4 Plus @80",
        "A HP5 Plus @250",
        "A exposed 2 d",
        "B IN DOUBT",
        "A fogged",
        "B empty",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
    assert!(!text.contains('…'), "{text}");
    stand.shows("16 loaded");
    stand.shows("8 exposed, oldest 2 days");
    stand.shows("8 fogged");
    stand.shows("8 IN DOUBT");
    insta::with_settings!({
        prepend_module_to_snapshot => false,
        snapshot_path => "../pictures",
        omit_expression => true,
    }, {
        insta::assert_snapshot!("forty_holders_80x24", stand.text());
    });
}

#[test]
fn a_notice_leaves_every_holder_in_view() {
    let mut stand = forty();
    stand.press("l");
    stand.shows("what can come next is under enter");
    let text = stand.text();
    for number in 1..=40 {
        assert!(
            text.contains(&format!("H-{number:02} ")),
            "{number}\n{text}"
        );
    }
}

#[test]
fn the_keys_of_the_rack_jump_to_what_waits_is_empty_or_in_doubt() {
    let mut stand = forty();
    stand.press(".");
    stand.shows("H-02 A  exposed 2 days ago");
    stand.press(".");
    stand.shows("H-07 A  exposed 2 days ago");
    stand.press("!");
    stand.shows("H-08 B  IN DOUBT: the log says loaded, the slide was seen dark side out");
    stand.press(",");
    stand.shows("H-09 B  empty");
}

#[test]
fn words_narrow_the_rack_and_a_number_finds_its_holder() {
    let mut stand = forty();
    stand.press("/");
    stand.type_text("17");
    stand.shows("H-17");
    let text = stand.text();
    assert!(!text.contains("H-07") && !text.contains("H-18"), "{text}");
    stand.press("enter");
    stand.shows("H-17 A  exposed");
    stand.press("esc");
    stand.shows("H-40");
    // The hand stays where it was.
    stand.shows("H-17 A  exposed");
    stand.press("/");
    stand.type_text("in doubt hp5");
    let text = stand.text();
    assert!(text.contains("IN DOUBT") && !text.contains("FP4"), "{text}");
    stand.press("esc /");
    stand.type_text("nothing of the kind");
    stand.shows("No holder here has all these words");
}

#[test]
fn sides_are_gone_through_with_left_and_right_and_holders_beside_with_them_too() {
    let mut stand = forty();
    stand.press("home right");
    stand.shows("H-01 B  empty");
    stand.press("right");
    stand.shows("H-21 A  loaded");
    stand.press("left down");
    stand.shows("H-02 B  loaded");
    stand.press("end");
    stand.shows("H-40 B  empty");
}

#[test]
fn single_holders_and_magazines_stand_among_the_others() {
    let mut stand = Stand::empty();
    for sides in ["1", "6", "2"] {
        stand.log(Kind::HolderAdded, &[("size", "4x5"), ("sides", sides)]);
    }
    stand.press("2");
    let text = stand.text();
    assert!(
        text.contains("5 empty") && text.contains("6 empty"),
        "{text}"
    );
    // The single holder has one side, and the hand never leaves it for one that is not there.
    stand.press("right");
    stand.shows("H-01 ");
    stand.press("down right");
    stand.shows("H-02 2  empty");
    stand.press("down down");
    stand.shows("H-02 6  empty");
    stand.press("down");
    stand.shows("H-03 B  empty");
    stand.press("up up up up");
    stand.shows("H-01 ");
}

#[test]
fn the_timeline_of_a_side_is_reached_with_the_tabulator_and_its_entries_are_mended_there() {
    let mut stand = forty();
    stand.press("! tab");
    stand.shows("dark side out");
    stand.shows("left list");
    stand.press("x");
    stand.type_text("misread");
    stand.press("enter");
    stand.shows("struck: misread");
    stand.press("tab");
    stand.shows("H-03 B  loaded");
}
