//! Exposures that are begun before they are made, and closed or dropped afterwards.

use super::*;
use crate::craft::{Aperture, ExposureValue, Seconds, Standing};
use crate::logbook::{ReckonedStep, Reckoning, Slide};

/// One side loaded with S-0001.
fn loaded() -> Darkroom {
    let mut room = Darkroom::with_a_shelf();
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    room
}

fn sentence(refusal: &Refusal) -> String {
    refusal.to_string()
}

#[test]
fn a_begun_exposure_is_closed_by_the_exposure() {
    let mut room = loaded();
    let begun = [
        ("side", "h1a"),
        ("planned_aperture", "f/32"),
        ("planned_time", "2m30"),
    ];
    room.log(Kind::ExposureBegun, &begun);
    assert_eq!(room.state("h1a"), "being exposed");
    assert_eq!(room.state("s1"), "being exposed");
    let life = room.life("s1");
    let planned = life.sheet().and_then(|sheet| sheet.begun).expect("begun");
    assert_eq!(planned.time, Seconds::parse("2m30").ok());
    assert!(!planned.again);
    assert_eq!(life.sheet().map(|sheet| sheet.exposures.len()), Some(0));
    room.log(
        Kind::Exposed,
        &[
            ("side", "h1a"),
            ("time", "2m40"),
            ("openings", "1m20, 80 s"),
        ],
    );
    assert_eq!(
        (room.state("h1a"), room.state("s1")),
        ("exposed", "exposed")
    );
    let life = room.life("s1");
    let sheet = life.sheet().expect("a sheet");
    assert_eq!((sheet.exposures.len(), sheet.begun), (1, None));
    let side = room.life("h1a");
    assert_eq!(side.side().and_then(|side| side.slide), Some(Slide::Dark));
}

#[test]
fn one_more_exposure_is_begun_only_when_it_is_meant_and_closed_without_saying_so_again() {
    let mut room = loaded();
    room.log(Kind::Exposed, &[("side", "h1a")]);
    let refusal = room.refusal(Kind::ExposureBegun, &[("side", "h1a")]);
    assert!(
        sentence(&refusal).contains("was already exposed on"),
        "{refusal}"
    );
    room.log(Kind::ExposureBegun, &[("side", "h1a"), ("again", "yes")]);
    room.log(Kind::Exposed, &[("side", "h1a")]);
    let life = room.life("s1");
    assert_eq!(life.sheet().map(|sheet| sheet.exposures.len()), Some(2));
}

#[test]
fn a_dropped_exposure_leaves_everything_as_it_was() {
    let mut room = loaded();
    let was = (room.life("h1a"), room.life("s1"));
    let dropped = [("side", "h1a"), ("reason", "the cap was on the lens")];
    room.log(Kind::ExposureBegun, &[("side", "h1a")]);
    room.log(Kind::ExposureDropped, &dropped);
    assert_eq!(room.life("h1a").particulars, was.0.particulars);
    assert_eq!(room.life("s1").particulars, was.1.particulars);
    room.log(Kind::Exposed, &[("side", "h1a")]);
    room.log(Kind::ExposureBegun, &[("side", "h1a"), ("again", "yes")]);
    room.log(Kind::ExposureDropped, &dropped);
    assert_eq!(
        (room.state("h1a"), room.state("s1")),
        ("exposed", "exposed")
    );
    let life = room.life("s1");
    assert_eq!(life.sheet().map(|sheet| sheet.exposures.len()), Some(1));
}

#[test]
fn a_side_being_exposed_is_neither_loaded_nor_unloaded_nor_developed() {
    let mut room = loaded();
    room.log(Kind::ExposureBegun, &[("side", "h1a")]);
    for (kind, typed) in [
        (
            Kind::Loaded,
            [("side", "h1a"), ("film_box", "f1")].as_slice(),
        ),
        (Kind::Unloaded, &[("side", "h1a")]),
        (Kind::RunBegun, &[("sheets", "h1a")]),
        (Kind::ExposureBegun, &[("side", "h1a")]),
        (Kind::Retired, &[("thing", "h1a"), ("reason", "leaks")]),
    ] {
        let refusal = room.refusal(kind, typed);
        assert!(
            sentence(&refusal).contains("is being exposed, since 4 Mar 2026"),
            "{kind}: {refusal}"
        );
    }
    let life = room.life("h1a");
    assert_eq!(
        life.possible()[..2],
        [Kind::Exposed, Kind::ExposureDropped],
        "closing it comes first"
    );
}

#[test]
fn what_was_not_begun_cannot_be_dropped_whatever_is_said() {
    let mut room = loaded();
    let refusal = room.refusal(
        Kind::ExposureDropped,
        &[("side", "h1a"), ("reason", "the cap was on")],
    );
    assert_eq!(
        sentence(&refusal),
        "H-01 A has been loaded since 4 Mar 2026 at 08:09, and no exposure was begun on it: \
         nothing has to be dropped; if an exposure was logged that was not made, strike it"
    );
    assert!(!refusal.can_be_overridden());
}

#[test]
fn a_sheet_can_come_to_harm_while_it_is_being_exposed() {
    for (kind, key, then) in [
        (Kind::Fogged, "sheet", "fogged"),
        (Kind::Lost, "thing", "empty"),
        (Kind::Discarded, "thing", "empty"),
    ] {
        let mut room = loaded();
        room.log(Kind::ExposureBegun, &[("side", "h1a")]);
        room.log(kind, &[(key, "s1"), ("reason", "the tripod fell")]);
        assert_eq!(room.state("h1a"), then, "{kind}");
        assert_eq!(room.life("s1").sheet().and_then(|sheet| sheet.begun), None);
    }
}

#[test]
fn a_slide_seen_while_the_shutter_is_open_raises_no_doubt() {
    let mut room = loaded();
    room.log(Kind::ExposureBegun, &[("side", "h1a")]);
    for shows in ["dark", "bright"] {
        room.log(Kind::SlideSeen, &[("side", "h1a"), ("shows", shows)]);
        assert!(!room.doubts("h1a"), "{shows}");
    }
}

#[test]
fn nothing_is_begun_on_a_side_in_doubt() {
    let mut room = loaded();
    room.log(Kind::SlideSeen, &[("side", "h1a"), ("shows", "dark")]);
    let refusal = room.refusal(Kind::ExposureBegun, &[("side", "h1a")]);
    assert!(sentence(&refusal).contains("in doubt"), "{refusal}");
    assert!(!room.life("h1a").possible().contains(&Kind::ExposureBegun));
}

#[test]
fn an_exposure_keeps_how_it_was_reckoned_when_its_figures_are_amended() {
    let mut room = loaded();
    room.log(Kind::Loaded, &[("side", "h1b"), ("film_box", "f1")]);
    let mut drafted = room
        .read(Kind::Exposed, &[("side", "h1a"), ("time", "6s")])
        .expect("it can be read");
    let reckoning = Reckoning {
        planned_aperture: Aperture::parse("f/32").ok(),
        planned_time: Seconds::parse("5s").ok(),
        value: ExposureValue::new(10.3).ok(),
        steps: vec![ReckonedStep {
            name: "orange filter".to_owned(),
            amount: "+2 stops".to_owned(),
            stops: Some(2.0),
            seconds: None,
            standing: Some(Standing::Usual),
            source: String::new(),
        }],
        remarks: vec!["beyond the table".to_owned()],
    };
    let Deed::Exposed(exposed) = &mut drafted.deed else {
        panic!("another deed");
    };
    exposed.reckoning = Some(reckoning.clone());
    let entry = room.write(vec![drafted]).expect("it fits")[0];
    for typed in [("time", "7s"), ("side", "h1b")] {
        let Deed::Exposed(amended) = room.amendment(entry, &[typed]) else {
            panic!("another deed");
        };
        assert_eq!(amended.reckoning.as_ref(), Some(&reckoning), "{typed:?}");
    }
    let json = Deed::Exposed(Exposed {
        reckoning: Some(reckoning.clone()),
        ..Exposed::default()
    })
    .to_json()
    .expect("it has a JSON form");
    let Ok(Deed::Exposed(again)) = Deed::from_json(Kind::Exposed, &json) else {
        panic!("it is read back: {json}");
    };
    assert_eq!(again.reckoning, Some(reckoning));
}
