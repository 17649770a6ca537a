//! An exposure from the rack: what was metered goes in, what is to be given comes out, and the
//! timeline shows how.

use crate::logbook::{Deed, Kind};
use crate::tui::app::stand::Stand;
use crate::tui::look::SymbolSet;

/// A side loaded with HP5 Plus, a lens of 240 mm, and the cursor on the side in the rack.
fn at_the_camera() -> Stand {
    let mut stand = Stand::empty();
    let size = ("size", "8x10");
    stand.log(
        Kind::BoxAdded,
        &[
            ("film", "HP5 Plus"),
            size,
            ("sheets", "25"),
            ("speed", "200"),
        ],
    );
    stand.log(Kind::HolderAdded, &[size, ("sides", "2")]);
    stand.log(
        Kind::LensAdded,
        &[
            ("name", "240 mm, front board"),
            ("focal_length", "240"),
            ("widest", "f/5.6"),
            ("smallest", "f/45"),
        ],
    );
    stand.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    stand.press("2 enter e");
    stand
}

/// Three readings, an orange filter, a long draw and a corrected time of several seconds.
#[test]
fn a_metered_scene_is_entered_understood_and_logged_from_the_rack() {
    let mut stand = at_the_camera();
    let mut keys = 3;
    for (label, text) in [
        ("lens", "L-01"),
        ("readings", "III 8.7 V 10.3 VIII 13.9"),
        ("filter", "orange x4"),
        ("draw", "294"),
        ("aperture", "f/32"),
    ] {
        keys += stand.fill(label, text);
    }
    // Two to three keys a second make a minute.
    assert!(keys < 120, "{keys} keys");
    // EV 10.7 at ISO 100 is 11.7 at 200: 0.31 s at f/32; x4 makes 1.2 s, the draw 1.8 s, the film 2.2 s.
    for shown in [
        "EV 8.7 on III",
        "-2.00",
        "orange",
        "+2.00",
        "draw 294 mm",
        "+0.59",
        "long exposure",
        "published",
        "give",
        "2 s  f/32",
        "a little less, N-0.2",
        "2 s as reckoned",
    ] {
        stand.shows(shown);
    }
    stand.press("enter");
    stand.shows("exposed");
    // What was reckoned is kept with what was given.
    let deed = stand
        .app
        .bench()
        .store
        .last_similar(Kind::Exposed, None)
        .unwrap();
    let Some(Deed::Exposed(exposed)) = deed else {
        panic!("{deed:?}");
    };
    let reckoning = exposed.reckoning.expect("how it was reckoned");
    assert_eq!(exposed.time, reckoning.planned_time);
    assert_eq!(exposed.time.unwrap().to_string(), "2 s");
    let names: Vec<&str> = reckoning.steps.iter().map(|step| &*step.name).collect();
    assert!(names.contains(&"orange 21"), "{names:?}");
    // And the timeline of the sheet tells it, step by step.
    stand.resize(100, 40);
    stand.press("1 right");
    for told in ["f/32 at 2 s", "orange", "draw 294 mm", "long exposure"] {
        stand.shows(told);
    }
}

#[test]
fn the_settings_beside_the_plan_are_a_key_away() {
    let mut stand = at_the_camera();
    stand.fill("readings", "V 10.7");
    stand.fill("aperture", "f/16");
    stand.shows("1/15 s  f/16");
    stand.press("f8");
    stand.shows("1/8 s  f/22");
    stand.press("f7 f7");
    stand.shows("1/30 s  f/11");
    stand.shows("1/30 s as reckoned");
}

#[test]
fn what_is_typed_stands_beside_the_plan_in_stops_and_is_what_is_logged() {
    let mut stand = at_the_camera();
    stand.fill("readings", "V 10.7");
    stand.fill("aperture", "f/16");
    stand.fill("time", "1/8");
    stand.shows("0.7 stop over the plan");
    stand.press("enter");
    let deed = stand.app.bench().store.last_similar(Kind::Exposed, None);
    let Some(Deed::Exposed(exposed)) = deed.unwrap() else {
        panic!("no exposure");
    };
    assert_eq!(exposed.time.unwrap().to_string(), "1/8 s");
    let planned = exposed.reckoning.unwrap().planned_time.unwrap();
    assert_eq!(planned.to_string(), "1/15 s");
}

#[test]
fn readings_that_say_nothing_are_told_so_and_logged_as_they_stand() {
    let mut stand = at_the_camera();
    stand.fill("readings", "bright");
    stand.fill("aperture", "f/16");
    stand.fill("time", "1/8");
    stand.shows("not reckoned");
    stand.press("enter");
    let deed = stand.app.bench().store.last_similar(Kind::Exposed, None);
    let Some(Deed::Exposed(exposed)) = deed.unwrap() else {
        panic!("no exposure");
    };
    assert_eq!(exposed.readings.as_deref(), Some("bright"));
    assert_eq!(exposed.reckoning, None);
}

#[test]
fn a_long_time_on_a_film_without_data_is_a_sentence_and_no_time() {
    let mut stand = at_the_camera();
    let size = ("size", "8x10");
    let film = ("film", "Grandfather's plates");
    stand.press("esc");
    stand.log(
        Kind::BoxAdded,
        &[film, size, ("sheets", "5"), ("speed", "25")],
    );
    stand.log(Kind::Loaded, &[("side", "h1b"), ("film_box", "f2")]);
    stand.press("2 right enter e");
    stand.fill("readings", "V 5");
    stand.fill("aperture", "f/32");
    stand.shows("reciprocity data for");
    assert!(!stand.text().contains("as reckoned"), "{}", stand.text());
}

#[test]
fn a_setting_that_rests_on_a_number_from_memory_says_so() {
    let mut stand = at_the_camera();
    stand.fill("readings", "V 10.7");
    stand.fill("filter", "orange");
    stand.fill("aperture", "f/16");
    let remembered = |stand: &Stand| {
        let text = stand.text();
        let mut lines = text.lines().skip_while(|line| !line.contains("give"));
        lines
            .by_ref()
            .take(3)
            .any(|line| line.contains("remembered"))
    };
    assert!(remembered(&stand), "{}", stand.text());
    // With the factor written beside it, it rests on what was written.
    let mut stand = at_the_camera();
    stand.fill("readings", "V 10.7");
    stand.fill("filter", "orange x4");
    stand.fill("aperture", "f/16");
    assert!(!remembered(&stand), "{}", stand.text());
}

#[test]
fn a_field_is_found_by_its_label_whatever_sign_marks_it_and_however_small_the_screen_is() {
    let mut stand = at_the_camera();
    stand.app.look.symbols = SymbolSet::Ascii.symbols();
    stand.fill("readings", "V 10.7");
    stand.resize(30, 8);
    stand.fill("aperture", "f/16");
    stand.resize(80, 24);
    stand.shows("1/15 s  f/16");
}

#[test]
#[should_panic(expected = "no field \"shutter speed\" among [\"side\"")]
fn a_field_that_is_not_there_is_asked_for_in_vain_and_not_in_silence() {
    at_the_camera().fill("shutter speed", "1/15");
}
