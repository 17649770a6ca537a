//! The curves, by keys.

use crate::export::curves::View;
use crate::logbook::Kind;
use crate::tui::app::stand::Stand;

/// Two times of the constructed family behind 11 steps, and a series that dies. Not measurements.
fn stand() -> Stand {
    let mut stand = Stand::empty();
    for (time, readings) in [
        (
            "5m30",
            "1.22 1.07 0.93 0.78 0.64 0.49 0.35 0.23 0.15 0.13 0.12",
        ),
        (
            "8m",
            "1.61 1.42 1.23 1.04 0.84 0.65 0.47 0.30 0.19 0.14 0.13",
        ),
    ] {
        let strip = [
            ("film", "FP4 Plus"),
            ("developer", "metol"),
            ("time", time),
            ("tablet", "11"),
            ("bare", "0.35"),
            ("readings", readings),
        ];
        stand.log(Kind::StripRead, &strip);
    }
    let limits = [
        ("series", "tank line"),
        ("gradient", "0.60"),
        ("gradient_within", "0.04"),
        ("speed_within", "1/3"),
    ];
    stand.log(Kind::LimitsSet, &limits);
    for (day, readings) in [
        (
            "2026-02-01 10:00",
            "1.60 1.41 1.21 1.02 0.83 0.64 0.45 0.29 0.18 0.14 0.13",
        ),
        (
            "2026-02-08 10:00",
            "1.61 1.42 1.23 1.03 0.84 0.65 0.46 0.29 0.18 0.14 0.13",
        ),
        (
            "2026-02-15 10:00",
            "1.33 1.17 1.01 0.85 0.69 0.53 0.38 0.25 0.18 0.16 0.15",
        ),
    ] {
        let strip = [
            ("film", "FP4 Plus"),
            ("developer", "tank"),
            ("tablet", "11"),
            ("bare", "0.35"),
            ("series", "tank line"),
            ("happened", day),
            ("readings", readings),
        ];
        stand.log(Kind::StripRead, &strip);
    }
    stand.press("6");
    stand
}

#[test]
fn the_strips_stand_by_film_and_developer_and_by_series() {
    let stand = stand();
    for says in [
        "FP4 Plus, metol",
        "control strips: tank line",
        "N-0001",
        "5:30",
        "0.46",
        "N-0006",
    ] {
        stand.shows(says);
    }
    stand.shows("density");
    stand.shows("log exposure");
    stand.shows("speed point");
}

#[test]
fn a_cursor_on_the_curve_reads_out_density_gradient_and_zone() {
    let mut stand = stand();
    stand.press("down right");
    stand.shows("from the speed point +0.0 stops");
    stand.shows("about I, the speed point being I");
    stand.press("right right right right right right");
    stand.shows("from the speed point +1.0 stops");
    stand.press(".");
    stand.shows("gradient here");
    stand.press(",");
    stand.shows("here");
}

#[test]
fn marked_strips_lie_over_the_chosen_one_with_their_names() {
    let mut stand = stand();
    stand.press("space");
    stand.shows("marked");
    stand.press("down");
    stand.shows("o N-0002 8 min");
    stand.shows("x N-0001 5 min 30 s");
    stand.press("esc");
    assert!(!stand.text().contains("x N-0001"), "{}", stand.text());
}

#[test]
fn the_family_tells_times_and_what_lies_beyond_them() {
    let mut stand = stand();
    stand.press("v");
    stand.shows("family");
    stand.shows("N-1");
    stand.shows("needs a longer time");
    stand.press("right");
    stand.shows("effective speed");
}

#[test]
fn a_dying_developer_shows_with_how_much_and_since_when() {
    let mut stand = stand();
    stand.press("G v v");
    stand.shows("under the lower limit since 15");
    stand.shows("limits of gradient: set to 0.600");
    stand.press("right");
    stand.shows("limits of effective speed");
    stand.press("left left");
    stand.shows("limits of base plus fog");
}

#[test]
fn a_picture_is_written_beside_the_logbook_and_never_over_another() {
    let mut stand = stand();
    stand.press("w");
    stand.shows("written to");
    stand.press("w");
    let folder = stand
        .app
        .bench()
        .store
        .path()
        .parent()
        .expect("a folder")
        .to_owned();
    let svg: Vec<_> = std::fs::read_dir(folder)
        .expect("a folder")
        .filter_map(|entry| {
            let path = entry.ok()?.path();
            (path.extension()? == "svg").then_some(path)
        })
        .collect();
    assert_eq!(svg.len(), 2, "{svg:?}");
    let text = std::fs::read_to_string(&svg[0]).expect("a picture");
    assert!(text.starts_with("<svg") && text.contains("N-0001"));
    assert_eq!(View::Curve.next().next().next(), View::Curve);
}

#[test]
fn readings_come_from_a_file_that_is_named_in_the_pane() {
    let mut stand = stand();
    let path = stand.app.bench().store.path().with_file_name("strip.csv");
    let rows = "step,t11\n1,1.99\n3,1.52\n5,1.05\n7,0.59\n8,0.38\n9,0.23\n10,0.16\n11,0.15\n";
    std::fs::write(&path, rows).expect("a file");
    stand.press("i");
    stand.shows("read a strip of steps");
    for _ in 0..30 {
        if stand.text().lines().any(|line| {
            line.trim_start_matches('▸')
                .trim_start()
                .starts_with("from file")
                && line.starts_with('▸')
        }) {
            break;
        }
        stand.press("tab");
    }
    stand.type_text(&path.display().to_string());
    stand.press("enter");
    stand.shows("N-0007");
    let strips = stand.app.bench().store.strips().expect("strips");
    let read = &strips[0].kept.strip;
    assert_eq!(read.time.map(|time| time.value()), Some(660.0));
    assert_eq!(read.readings.iter().flatten().count(), 8);
}

#[test]
fn no_size_makes_the_curves_panic_and_the_signs_are_ascii_where_wished() {
    let mut stand = stand();
    for view in 0..3 {
        for (wide, high) in [(40, 10), (50, 14), (63, 24), (80, 24), (200, 60), (1, 1)] {
            stand.resize(wide, high);
            stand.text();
        }
        stand.resize(80, 24);
        stand.press("v");
        assert!(view < 3);
    }
    stand.app.look.symbols = crate::tui::look::SymbolSet::Ascii.symbols();
    let text = stand.text();
    assert!(text.is_ascii(), "{text}");
}
