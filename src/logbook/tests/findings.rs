//! What the user has found out: shutter tests of a lens, and findings with a life of their own.

use super::*;
use crate::craft::{Aperture, Millimetres, Seconds, Stops};
use crate::figures::Kit;
use crate::logbook::OwnKit;
use crate::logbook::sense::Nonsense;

fn seconds(text: &str) -> Seconds {
    Seconds::parse(text).expect("a time")
}

#[test]
fn a_lens_keeps_what_figures_need_and_the_tests_of_its_shutter_in_the_order_of_their_days() {
    let mut room = Darkroom::with_a_shelf();
    let added = [
        ("name", "300 mm, process"),
        ("focal_length", "300 mm"),
        ("widest", "f/9"),
        ("smallest", "f/128"),
        ("shutter", "leaf, size 3"),
        ("image_circle", "420 mm"),
        ("pupil_ratio", "0.98"),
        ("flange", "11.6 in"),
    ];
    room.log(Kind::LensAdded, &added);
    room.at("10:00");
    let later = [
        ("lens", "l2"),
        ("mark", "1/60"),
        ("timings", "1/52 1/55 1/54"),
        ("aperture", "f/9"),
        ("instrument", "photodiode"),
    ];
    room.log(Kind::ShutterTested, &later);
    // Written down afterwards, and made before.
    let earlier = [
        ("lens", "l2"),
        ("mark", "1/2"),
        ("timings", "0.54s, 0.55 s"),
        ("happened", "9:30"),
    ];
    room.log(Kind::ShutterTested, &earlier);
    let kit = OwnKit::new(&room.ledger);
    let lens = kit.lens("l2").expect("the lens");
    assert_eq!(lens.reference, "L-02");
    assert_eq!(lens.focal_length, Millimetres::new(300.0).ok());
    assert_eq!(lens.smallest, Aperture::parse("f/128").ok());
    assert_eq!(lens.image_circle, Millimetres::new(420.0).ok());
    assert_eq!(lens.pupil_ratio, Some(0.98));
    assert_eq!(lens.flange, Millimetres::parse("11.6 in").ok());
    let marks: Vec<Seconds> = lens.tests.iter().map(|test| test.mark).collect();
    assert_eq!(marks, [seconds("1/2"), seconds("1/60")]);
    assert_eq!(lens.tests[0].timings, [seconds("0.54"), seconds("0.55")]);
    assert_eq!(lens.tests[1].on, room.now.date_naive());
    assert!(kit.lens("l9").is_none());
}

#[test]
fn what_a_lens_is_said_to_be_can_be_said_better_later() {
    let mut room = Darkroom::with_a_shelf();
    let added = room.ledger.entries[5].id;
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    room.log(Kind::Exposed, &[("side", "h1a"), ("lens", "l1")]);
    let better = [
        ("focal_length", "240 mm"),
        ("image_circle", "330 mm"),
        ("pupil_ratio", "1"),
    ];
    room.amend(added, &better);
    let life = room.life("l1");
    let lens = life.lens().expect("a lens");
    assert_eq!(lens.focal_length, Millimetres::new(240.0).ok());
    assert_eq!((lens.exposures, lens.pupil_ratio), (1, Some(1.0)));
    assert_eq!(life.reference, "L-01", "its reference stays");
}

#[test]
fn a_lens_out_of_use_has_no_shutter_to_test() {
    let mut room = Darkroom::with_a_shelf();
    room.log(Kind::Retired, &[("thing", "l1"), ("reason", "sold")]);
    let test = [("lens", "l1"), ("mark", "1/8"), ("timings", "1/9")];
    let refusal = room.refusal(Kind::ShutterTested, &test).to_string();
    assert!(
        refusal.contains("so its shutter cannot be tested"),
        "{refusal}"
    );
}

#[test]
fn a_camera_keeps_the_range_of_its_bellows() {
    let mut room = Darkroom::with_a_shelf();
    room.log(
        Kind::CameraAdded,
        &[
            ("name", "flatbed"),
            ("size", "8x10"),
            ("shortest_draw", "120"),
            ("longest_draw", "810 mm"),
        ],
    );
    let camera = OwnKit::new(&room.ledger).camera("c2").expect("the camera");
    assert_eq!(camera.longest_draw, Millimetres::new(810.0).ok());
    assert_eq!(
        camera.size.map(|size| size.to_string()).as_deref(),
        Some("8x10 in")
    );
}

/// One finding of each sort.
fn found(room: &mut Darkroom) {
    for (kind, typed) in [
        (
            Kind::FilterFound,
            [("filter", "orange"), ("stops", "x4"), ("film", "FP4 Plus")].as_slice(),
        ),
        (
            Kind::TimeFound,
            &[("film", "FP4 Plus"), ("metered", "10s"), ("needed", "22s")],
        ),
        (
            Kind::LightFound,
            &[("scene", "the weir, open shade"), ("value", "11.3")],
        ),
        (Kind::MeterSet, &[("reflected", "12.7")]),
        (
            Kind::PlaceKept,
            &[
                ("name", "the ford"),
                ("coordinates", "46 30 N, 8 12 E"),
                ("zone", "oslo"),
            ],
        ),
    ] {
        room.log(kind, typed);
    }
}

#[test]
fn what_was_found_out_is_handed_to_figures_with_its_day() {
    let mut room = Darkroom::new();
    found(&mut room);
    let findings = OwnKit::new(&room.ledger).findings();
    let today = room.now.date_naive();
    let filter = &findings.filters[0];
    assert_eq!(filter.stops, Stops::new(2.0).expect("stops"));
    assert_eq!(
        (filter.film.as_deref(), filter.on),
        (Some("FP4 Plus"), today)
    );
    assert_eq!(findings.times[0].needed, seconds("22s"));
    assert_eq!(findings.scenes[0].scene, "the weir, open shade");
    let meter = findings.meter.expect("a meter");
    assert_eq!((meter.reflected, meter.incident), (Some(12.7), None));
    let place = &findings.places[0];
    assert_eq!((place.latitude, place.longitude), (46.5, 8.2));
    assert_eq!(place.zone.as_deref(), Some("Europe/Oslo"));
    assert_eq!(room.state("n-1"), "kept");
    assert_eq!(room.life("n5").reference, "N-0005");
}

/// Lays what stands in the logbook over the reference, as it is done when a logbook is opened.
fn lay_over(room: &mut Darkroom) {
    let findings = OwnKit::new(&room.ledger).findings();
    findings.lay_over(&mut room.reference);
}

#[test]
fn an_own_film_and_format_are_asked_first_until_they_are_out_of_use() {
    let mut room = Darkroom::new();
    let film = [
        ("film", "FP4+"),
        ("speed", "80"),
        ("kind", "orthochromatic"),
    ];
    room.log(Kind::FilmFound, &film);
    let format = [
        ("size", "4x5"),
        ("image", "97x121 mm"),
        ("depth", "0.195 in"),
        ("tolerance", "0.05 mm"),
    ];
    room.log(Kind::FormatFound, &format);
    let own = [
        ("film", "Plain Pan"),
        ("maker", "Northlight"),
        ("speed", "25"),
    ];
    room.log(Kind::FilmFound, &own);
    lay_over(&mut room);
    let day = format!("found on {}", room.now.date_naive());
    let film = room.reference.film("Ilford FP4 Plus").expect("the film");
    assert_eq!((film.speed, film.source.as_str()), (Some(80), day.as_str()));
    let format = room.reference.format("4x5").expect("the format");
    assert_eq!(format.picture().width_mm, 97.0);
    assert_eq!(format.picture().grounds.source, day);
    let holder = format.holder.as_ref().expect("a depth");
    assert!((holder.depth_in - 0.195).abs() < 1e-9);
    assert!(room.reference.film("northlight plain pan").is_some());

    let telling = |room: &Darkroom, reference: &str| {
        let life = room.life(reference);
        let found = life.finding().and_then(|one| one.found.clone());
        let found = found.expect("it was found out");
        format!("{}: {}: {}", found.sort(), found.about(), found.says())
    };
    assert_eq!(telling(&room, "n1"), "film: FP4+: speed 80, orthochromatic");
    assert_eq!(
        telling(&room, "n2"),
        "format: 4x5 in: image 97x121 mm, 4.953 mm deep, 0.05 mm either way"
    );
    room.log(Kind::Retired, &[("thing", "n1"), ("reason", "misread")]);
    room.log(Kind::Retired, &[("thing", "n3"), ("reason", "all used")]);
    lay_over(&mut room);
    let speed = room.reference.film("FP4").and_then(|film| film.speed);
    assert_eq!(speed, Some(125));
    assert!(room.reference.film("Plain Pan").is_none());
}

#[test]
fn an_exposure_is_reckoned_with_the_speed_that_was_found_out_where_the_box_says_none() {
    let mut room = Darkroom::with_a_shelf();
    let bare = [("film", "Plain Pan"), ("size", "8x10"), ("sheets", "5")];
    room.log(Kind::BoxAdded, &bare);
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f3")]);
    room.log(Kind::FilmFound, &[("film", "plain pan"), ("speed", "25")]);
    lay_over(&mut room);
    let exposed = [("side", "h1a"), ("readings", "V 12"), ("aperture", "f/16")];
    let drafted = room.read(Kind::Exposed, &exposed).expect("it can be read");
    let Deed::Exposed(exposed) = drafted.deed else {
        panic!("another deed");
    };
    let reckoning = exposed.reckoning.expect("it was reckoned");
    let film = reckoning
        .steps
        .iter()
        .find(|step| step.name == "film at 25");
    let film = film.expect("the step of the film");
    assert_eq!(film.standing, Some(crate::craft::Standing::Own));
    assert_eq!(film.source, format!("found on {}", room.now.date_naive()));
}

#[test]
fn a_later_finding_stands_last_and_one_out_of_use_is_not_reckoned_with() {
    let mut room = Darkroom::new();
    found(&mut room);
    room.log(
        Kind::FilterFound,
        &[("filter", "orange"), ("stops", "+2 1/3")],
    );
    // Found on an earlier day and written down now.
    room.log(
        Kind::FilterFound,
        &[
            ("filter", "orange"),
            ("stops", "+1"),
            ("happened", "2026-02-01 10:00"),
        ],
    );
    room.log(Kind::MeterSet, &[("incident", "250")]);
    let stops = |room: &Darkroom| -> Vec<String> {
        let findings = OwnKit::new(&room.ledger).findings();
        let filters = findings.filters.iter();
        filters.map(|filter| filter.stops.to_string()).collect()
    };
    assert_eq!(stops(&room), ["+1 stop", "+2 stops", "+2 1/3 stops"]);
    let meter = OwnKit::new(&room.ledger).findings().meter.expect("a meter");
    assert_eq!((meter.reflected, meter.incident), (Some(12.7), Some(250.0)));
    room.log(
        Kind::Retired,
        &[("thing", "n6"), ("reason", "another glass")],
    );
    assert_eq!(stops(&room), ["+1 stop", "+2 stops"]);
    assert_eq!(room.state("n6"), "out of use");
    let again = [("thing", "n6"), ("reason", "another glass")];
    assert!(room.refusal(Kind::Retired, &again).can_be_overridden());
}

#[test]
fn a_finding_that_cannot_be_meant_is_asked_back_beside_its_field() {
    let mut room = Darkroom::with_a_shelf();
    for (kind, typed, problem) in [
        (
            Kind::FilterFound,
            [("filter", "orange"), ("stops", "-1")].as_slice(),
            "stops: a filter takes light and gives none",
        ),
        (
            Kind::FilterFound,
            &[("filter", "orange"), ("stops", "x0")],
            "stops: ",
        ),
        (
            Kind::TimeFound,
            &[("film", "FP4 Plus"), ("metered", "10s"), ("needed", "5s")],
            "needed: a film never needs less",
        ),
        (
            Kind::FilmFound,
            &[("film", "***"), ("speed", "80")],
            "film: a film has a name with letters",
        ),
        (
            Kind::FilmFound,
            &[("film", "FP4 Plus")],
            "speed: something was found out about the film",
        ),
        (
            Kind::FilmFound,
            &[("film", "FP4 Plus"), ("kind", "green")],
            "kind: \"green\" is none of: panchromatic",
        ),
        (
            Kind::FormatFound,
            &[("size", "4x5"), ("name", "the brass one")],
            "image: something was measured",
        ),
        (
            Kind::FormatFound,
            &[("size", "4x5"), ("image", "96x120")],
            "image: the picture is not larger than its sheet",
        ),
        (
            Kind::FormatFound,
            &[("size", "4x5"), ("cut", "101x136 mm")],
            "cut: a sheet is not cut larger",
        ),
        (
            Kind::FormatFound,
            &[("size", "4x5"), ("cut", "4x5"), ("name", "--")],
            "name: a name has letters",
        ),
        (
            Kind::FormatFound,
            &[("size", "4x5"), ("depth", "0 mm")],
            "depth: from face to septum",
        ),
        (
            Kind::FormatFound,
            &[("size", "4x5"), ("cut", "4x5"), ("tolerance", "0.1 mm")],
            "depth: holders differ from a depth",
        ),
        (
            Kind::FormatFound,
            &[("size", "4x5"), ("depth", "0.2 mm"), ("tolerance", "5 mm")],
            "tolerance: holders do not differ",
        ),
        (Kind::MeterSet, &[], "reflected: a meter is set by one"),
        (
            Kind::MeterSet,
            &[("incident", "0")],
            "incident: \"0\" is not",
        ),
        (
            Kind::PlaceKept,
            &[("name", "nowhere"), ("coordinates", "95 N 8 E")],
            "coordinates: \"95 N 8 E\" is not a place on the earth",
        ),
        (
            Kind::PlaceKept,
            &[
                ("name", "x"),
                ("coordinates", "46, 8"),
                ("zone", "Mars/Dome"),
            ],
            "zone: \"Mars/Dome\" is not a time zone",
        ),
        (
            Kind::LightFound,
            &[("scene", "the weir"), ("value", "bright")],
            "value: ",
        ),
        (
            Kind::ShutterTested,
            &[("lens", "l1"), ("mark", "1/8"), ("timings", "quick")],
            "timings: \"quick\" is not a list of times",
        ),
        (
            Kind::LensAdded,
            &[("name", "x"), ("pupil_ratio", "-1")],
            "pupil_ratio: \"-1\" is not a number above zero",
        ),
        (
            Kind::LensAdded,
            &[("name", "x"), ("image_circle", "0")],
            "image_circle: an image circle is above zero",
        ),
        (
            Kind::Exposed,
            &[("side", "h1a"), ("magnification", "0:1")],
            "magnification: \"0:1\" is not a magnification",
        ),
    ] {
        let asked_back = room.problem(kind, typed);
        assert!(asked_back.starts_with(problem), "{asked_back}");
    }
}

#[test]
fn a_test_without_a_timing_is_refused_where_entries_come_in() {
    let mut room = Darkroom::with_a_shelf();
    let test = [("lens", "l1"), ("mark", "1/8"), ("timings", "1/9")];
    let mut drafted = room
        .read(Kind::ShutterTested, &test)
        .expect("it can be read");
    if let Deed::ShutterTested(tested) = &mut drafted.deed {
        tested.timings.clear();
    }
    let refusal = room.write(vec![drafted]).expect_err("nothing was timed");
    assert!(
        matches!(refusal, Refusal::Nonsense(Nonsense { key: "timings", .. })),
        "{refusal}"
    );
}

#[test]
fn a_place_that_is_not_on_the_earth_is_not_read_from_a_file() {
    let place = r#"{"finding":"00000000-0000-0000-0000-000000000001","name":"nowhere",
        "coordinates":{"latitude":95.0,"longitude":8.2}}"#;
    let read = Deed::from_json(Kind::PlaceKept, place);
    let why = read.expect_err("it is off the earth").to_string();
    assert!(why.contains("on the earth"), "{why}");
}
