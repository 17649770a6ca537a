//! The rack: what is in every side of every holder, at one glance.

use notchbook::logbook::{Kind, Slide};

use crate::darkroom::Darkroom;

#[test]
fn forty_holders_stand_in_order_with_all_their_sides() {
    let mut room = Darkroom::new();
    room.log(
        Kind::BoxAdded,
        &[
            ("film", "HP5 Plus"),
            ("size", "4x5"),
            ("sheets", "100"),
            ("speed", "320"),
        ],
    );
    for _ in 0..39 {
        room.log(Kind::HolderAdded, &[("size", "4x5"), ("sides", "2")]);
    }
    room.log(
        Kind::HolderAdded,
        &[("size", "4x5"), ("sides", "6"), ("make", "magazine")],
    );
    for side in ["H-01 A", "H-01 B", "H-02 A", "H-03 B", "H-40 6"] {
        room.log(Kind::Loaded, &[("side", side), ("film_box", "F-01")]);
    }
    room.log(
        Kind::Exposed,
        &[
            ("side", "H-01 B"),
            ("subject", "ferry landing"),
            ("speed", "200"),
        ],
    );
    room.log(
        Kind::Exposed,
        &[
            ("side", "H-01 B"),
            ("again", "yes"),
            ("subject", "lamp over it"),
        ],
    );
    room.log(Kind::SlideSeen, &[("side", "H-02 A"), ("shows", "dark")]);
    room.log(
        Kind::Fogged,
        &[("sheet", "S-0004"), ("reason", "slide pulled in the light")],
    );

    let rack = room.store.rack().expect("a rack");
    let order: Vec<&str> = rack
        .iter()
        .map(|holder| holder.reference.as_str())
        .collect();
    let expected: Vec<String> = (1..=40).map(|number| format!("H-{number:02}")).collect();
    assert_eq!(order, expected);
    assert!(rack[..39].iter().all(|holder| holder.sides.len() == 2));
    let labels: Vec<&str> = rack[39]
        .sides
        .iter()
        .map(|side| side.label.as_str())
        .collect();
    assert_eq!(labels, ["1", "2", "3", "4", "5", "6"]);

    let loaded = &rack[0].sides[0];
    assert_eq!(
        (loaded.state.as_str(), loaded.slide),
        ("loaded", Some(Slide::Bright))
    );
    assert_eq!(loaded.film.as_deref(), Some("HP5 Plus"));
    assert_eq!(loaded.speed.map(|speed| speed.value()), Some(320));
    assert_eq!(loaded.sheet_reference.as_deref(), Some("S-0001"));

    let exposed = &rack[0].sides[1];
    assert_eq!(
        (exposed.state.as_str(), exposed.slide),
        ("exposed", Some(Slide::Dark))
    );
    assert_eq!(exposed.exposures, 2, "one picture on another");
    assert_eq!(exposed.speed.map(|speed| speed.value()), Some(200));
    assert_eq!(exposed.subject.as_deref(), Some("lamp over it"));
    assert_eq!(
        exposed.exposed, exposed.since,
        "it waits since the first exposure"
    );

    let doubted = &rack[1].sides[0];
    let doubt = doubted.doubt.expect("a doubt");
    assert_eq!(
        (doubted.state.as_str(), doubt.seen),
        ("loaded", Slide::Dark)
    );

    let fogged = &rack[2].sides[1];
    assert!(fogged.fogged);
    assert_eq!(fogged.state, "fogged");

    let empty = &rack[1].sides[1];
    assert_eq!(
        (empty.state.as_str(), &empty.sheet, empty.exposures),
        ("empty", &None, 0)
    );

    let counts = room.store.counts().expect("counts");
    assert_eq!(counts.in_doubt, 1);
    assert_eq!(counts.sides["loaded"], 3);
    assert_eq!(counts.sides["empty"], 84 - 5);
    assert_eq!(counts.oldest_exposed, exposed.exposed);
    assert_eq!(counts.sheets["exposed"], 1);
}

#[test]
fn a_holder_that_was_struck_is_not_in_the_rack() {
    let mut room = Darkroom::new();
    let row = room.log(Kind::HolderAdded, &[("size", "4x5"), ("sides", "2")]);
    room.log(Kind::HolderAdded, &[("size", "5x7"), ("sides", "1")]);
    room.strike(row, "it went back to the shop");
    let rack = room.store.rack().expect("a rack");
    let references: Vec<&str> = rack
        .iter()
        .map(|holder| holder.reference.as_str())
        .collect();
    assert_eq!(references, ["H-02"]);
}
