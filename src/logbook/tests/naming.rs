//! References: how things are named in what is typed, and how names are given.

use super::*;
use crate::logbook::draft::several;

fn sheets(room: &Darkroom, typed: &str) -> Result<Vec<String>, String> {
    let found = several(ThingKind::Sheet, typed, &room.ledger)?;
    Ok(found
        .into_iter()
        .map(|id| room.ledger.reference_of(id))
        .collect())
}

#[test]
fn sheets_are_named_beside_each_other_or_by_the_sides_they_are_in() {
    let mut room = Darkroom::with_a_shelf();
    for side in ["h1a", "h1b", "h3"] {
        room.log(Kind::Loaded, &[("side", side), ("film_box", "f1")]);
    }
    for (typed, named) in [
        ("h1a h1b", vec!["S-0001", "S-0002"]),
        ("H-01 A H-01 B", vec!["S-0001", "S-0002"]),
        ("S-0001, S-0002", vec!["S-0001", "S-0002"]),
        ("s1+s2", vec!["S-0001", "S-0002"]),
        ("h1 a, s 2", vec!["S-0001", "S-0002"]),
        ("s2 h1a; h3", vec!["S-0002", "S-0001", "S-0003"]),
        ("s1 h1a S-1", vec!["S-0001"]),
        (" ", vec![]),
    ] {
        assert_eq!(
            sheets(&room, typed).as_deref(),
            Ok(&named
                .iter()
                .map(|name| (*name).to_owned())
                .collect::<Vec<_>>()[..]),
            "{typed}"
        );
    }
    for (typed, problem) in [
        ("s1 s9", "there is no sheet called \"s9\" in this logbook"),
        ("h1a h2a", "there is no sheet in H-02 A now"),
        ("h1", "which side of H-01: H-01 A or H-01 B?"),
        ("f1", "there is no sheet called \"f1\" in this logbook"),
    ] {
        assert_eq!(sheets(&room, typed), Err(problem.to_owned()));
    }
}

#[test]
fn a_holder_with_one_side_is_as_good_as_its_side() {
    let mut room = Darkroom::with_a_shelf();
    room.log(Kind::Loaded, &[("side", "h3"), ("film_box", "f1")]);
    room.log(Kind::Exposed, &[("side", "h-03")]);
    assert_eq!(room.state("h3a"), "exposed");
    let which = room.problem(Kind::Exposed, &[("side", "h1")]);
    assert_eq!(which, "side: which side of H-01: H-01 A or H-01 B?");
    room.log(
        Kind::Lost,
        &[("thing", "h3"), ("reason", "left on the rock")],
    );
    assert_eq!(room.state("s1"), "lost");
}

#[test]
fn magazines_number_their_sides() {
    let mut room = Darkroom::new();
    room.log(Kind::HolderAdded, &[("size", "4x5"), ("sides", "6")]);
    assert_eq!(room.life("h1 6").side().expect("a side").index, 5);
    assert!(room.ledger.thing(ThingKind::Side, "H-01 A").is_none());
}

#[test]
fn what_comes_in_gets_the_next_free_reference_and_no_number_twice() {
    let mut room = Darkroom::with_a_shelf();
    let first = room.log(Kind::LensAdded, &[("name", "90 mm")]);
    assert_eq!(room.life("l2").reference, "L-02");
    room.strike(first);
    room.log(Kind::LensAdded, &[("name", "150 mm")]);
    assert!(room.ledger.thing(ThingKind::Lens, "L-02").is_none());
    assert_eq!(room.life("l3").lens().expect("a lens").name, "150 mm");
    room.log(
        Kind::LensAdded,
        &[("name", "450 mm"), ("reference", "l 20")],
    );
    room.log(Kind::LensAdded, &[("name", "600 mm")]);
    assert_eq!(room.life("l21").lens().expect("a lens").name, "600 mm");
}

#[test]
fn a_reference_names_one_thing() {
    let mut room = Darkroom::with_a_shelf();
    let typed = [("name", "second"), ("reference", "l1")];
    let refusal = room.refusal(Kind::LensAdded, &typed);
    assert!(matches!(refusal, Refusal::Taken { .. }));
    let second = room.log(Kind::LensAdded, &[("name", "second")]);
    let refusal = room.try_amend(second, &[("reference", "L-01")]);
    assert!(matches!(refusal, Err(Refusal::Taken { .. })), "{refusal:?}");
    // A camera may have what a lens has, in its own letters only.
    room.log(
        Kind::CameraAdded,
        &[("name", "box"), ("reference", "old faithful")],
    );
    room.log(
        Kind::LensAdded,
        &[("name", "brass"), ("reference", "Old Faithful")],
    );
    assert_eq!(room.life("OLD FAITHFUL").reference, "OLD FAITHFUL");
}

#[test]
fn a_reference_given_away_while_its_thing_was_struck_stays_given_away() {
    let mut room = Darkroom::with_a_shelf();
    let typed = [("name", "first"), ("reference", "brass")];
    let first = room.log(Kind::LensAdded, &typed);
    let strike = room.strike(first);
    room.log(
        Kind::LensAdded,
        &[("name", "second"), ("reference", "brass")],
    );
    let refusal = room.try_strike(strike).expect_err("the name is taken");
    assert!(matches!(refusal, Refusal::Taken { .. }), "{refusal}");
    assert_eq!(room.life("brass").lens().expect("a lens").name, "second");
}

#[test]
fn an_amendment_that_names_nothing_leaves_the_name() {
    let mut room = Darkroom::with_a_shelf();
    let holder = room.ledger.entries[2].id;
    room.amend(holder, &[("reference", ""), ("make", "wood")]);
    assert_eq!(
        room.life("h1").holder().expect("a holder").make.as_deref(),
        Some("wood")
    );
    room.amend(holder, &[("reference", "blue")]);
    assert_eq!(room.life("blue a").side().expect("a side").label, "A");
    assert!(room.ledger.thing(ThingKind::Side, "H-01 A").is_none());
    room.log(Kind::Loaded, &[("side", "blue b"), ("film_box", "f1")]);
}

#[test]
fn nothing_is_called_what_another_kind_of_thing_is_called() {
    let mut room = Darkroom::with_a_shelf();
    for reference in ["h7a", "f-3", "s1, s2", "a name much too long for any label"] {
        let typed = [("name", "brass"), ("reference", reference)];
        let refusal = room.refusal(Kind::LensAdded, &typed);
        assert!(
            matches!(refusal, Refusal::NoReference { .. }),
            "{reference}: {refusal}"
        );
    }
}
