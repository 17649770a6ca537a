//! What stands beside the panes of findings and of shutter tests.

use super::*;

/// The lines beside a draft: label, value and standing, as they are read.
fn beside(room: &Darkroom, kind: Kind, typed: &[(&str, &str)]) -> Vec<String> {
    let lines = room.follows(kind, typed);
    let told = lines.into_iter().map(|line| {
        let standing = line.standing.map_or("", |standing| standing.word());
        let words = [line.label.as_str(), &line.value, standing, &line.note];
        let words = words.into_iter().filter(|word| !word.is_empty());
        words.collect::<Vec<&str>>().join(" | ")
    });
    told.collect()
}

#[test]
fn a_timed_mark_is_held_against_the_time_it_stands_for_and_against_the_last_test() {
    let mut room = Darkroom::with_a_shelf();
    let typed = [
        ("lens", "l1"),
        ("mark", "1/60"),
        ("timings", "1/52 1/55 1/54 1/53"),
    ];
    let first = beside(&room, Kind::ShutterTested, &typed);
    assert_eq!(
        first,
        [
            "1/60 s stands for | 1/64 s in the series",
            "mean | 1/53 s | of 4 shots",
            "spread | 2.4 %, 0.03 stop",
            "error | +0.26 stop | own",
            "that is | more light than marked",
        ]
    );
    room.log(
        Kind::ShutterTested,
        &[typed[0], typed[1], ("timings", "1/64")],
    );
    let second = beside(&room, Kind::ShutterTested, &typed);
    let last = second.last().map(String::as_str);
    assert_eq!(
        last,
        Some("last test | 0 stops | own | gives 1/64 s (mean of 1 shot)")
    );
    // Nothing is said before there is something to say.
    assert!(beside(&room, Kind::ShutterTested, &[("mark", "soon")]).is_empty());
}

#[test]
fn a_filter_stands_beside_what_is_published_for_that_film_and_not_beside_an_earlier_finding() {
    let mut room = Darkroom::with_a_shelf();
    let typed = [
        ("filter", "red 25"),
        ("stops", "+2 2/3"),
        ("film", "T-MAX 100"),
    ];
    let wanted = [
        "red 25 | +3.00 stops | published",
        "x8 for T-MAX 100 in daylight",
        "yours | -0.33 stop from that",
    ];
    assert_eq!(beside(&room, Kind::FilterFound, &typed), wanted);
    room.log(Kind::FilterFound, &[typed[0], ("stops", "+1")]);
    assert_eq!(beside(&room, Kind::FilterFound, &typed), wanted);
    assert_eq!(
        beside(&room, Kind::FilterFound, &[("filter", "amber")]),
        ["no number is known here for amber: yours will stand alone"]
    );
}

#[test]
fn the_time_a_film_needed_stands_beside_the_published_laws_for_the_same_light() {
    let room = Darkroom::with_a_shelf();
    let typed = [("film", "HP5 Plus"), ("metered", "10s"), ("needed", "25s")];
    assert_eq!(
        beside(&room, Kind::TimeFound, &typed),
        [
            "by Ilford | 20 s, +1.03 stops | published",
            "by Bond and Gainer | 14 s, +0.51 stop | published",
            "yours | +0.29 stop from that",
            "the loss | +1.32 stops",
        ]
    );
    let unknown = [("film", "Quarry Ortho"), ("metered", "10s")];
    let lines = beside(&room, Kind::TimeFound, &unknown);
    assert!(
        lines[0].starts_with("no reciprocity data for Quarry Ortho"),
        "{lines:?}"
    );
    let odd = beside(
        &room,
        Kind::TimeFound,
        &[typed[0], typed[1], ("needed", "5s")],
    );
    assert!(
        odd.iter().any(|line| line.contains("right fields")),
        "{odd:?}"
    );
}

#[test]
fn the_light_of_a_scene_stands_beside_the_table() {
    let room = Darkroom::with_a_shelf();
    let typed = [("scene", "open shade"), ("value", "11 1/3")];
    let lines = beside(&room, Kind::LightFound, &typed);
    assert_eq!(
        lines,
        [
            "open shade under a clear sky",
            "by the table | EV 12 | published",
            "yours | 0.7 EV darker",
        ]
    );
    let lines = beside(&room, Kind::LightFound, &[("scene", "the weir, noon")]);
    assert_eq!(lines, ["no table names this scene"]);
}

#[test]
fn the_constants_of_a_meter_stand_beside_the_usual_ones() {
    let room = Darkroom::with_a_shelf();
    let lines = beside(&room, Kind::MeterSet, &[("reflected", "14")]);
    assert_eq!(
        lines,
        [
            "K, usual | 12.5 cd/m2 | published",
            "C, flat | 250 lx | published",
            "C, dome | 340 lx | published",
            "your K | +0.16 stop of exposure",
            "K 14 lies outside the 10.6 to 13.4 of ISO 2720:1974 (second-hand); some makers do use 14",
            "both agree on a card of | 17.6 %",
        ]
    );
    let lines = beside(&room, Kind::MeterSet, &[("incident", "3")]);
    assert!(
        lines.last().is_some_and(|line| line.contains("cannot be")),
        "{lines:?}"
    );
}

#[test]
fn a_place_says_when_the_sun_rises_and_sets_there_today_by_its_own_clocks() {
    let room = Darkroom::with_a_shelf();
    let here = beside(&room, Kind::PlaceKept, &[("coordinates", "46.5 N 8.2 E")]);
    assert_eq!(
        here,
        [
            "there | 46.5 N 8.2 E",
            "clocks of | +01:00",
            "now | 4 Mar 08:09",
            "sunrise | 07:01 | remembered",
            "sunset | 18:17 | remembered",
            "noon | 12:39, 37 deg high",
        ]
    );
    let typed = [("coordinates", "46.5 N 8.2 E"), ("zone", "UTC")];
    let there = beside(&room, Kind::PlaceKept, &typed);
    assert!(
        there.contains(&"sunrise | 06:01 | remembered".to_owned()),
        "{there:?}"
    );
    assert!(beside(&room, Kind::PlaceKept, &[("coordinates", "somewhere")]).is_empty());
    let north = beside(&room, Kind::PlaceKept, &[("coordinates", "89 N 0 E")]);
    assert!(
        north.contains(&"the sun does not rise today".to_owned()),
        "{north:?}"
    );
}
