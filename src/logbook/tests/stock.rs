//! Boxes, papers, holders and baths: how many are left, and what goes out of use.

use super::*;

fn left(room: &Darkroom, reference: &str) -> u32 {
    let life = room.life(reference);
    match (life.film_box(), life.paper()) {
        (Some(film_box), _) => film_box.left,
        (_, Some(paper)) => paper.left,
        _ => panic!("{reference} is no stock of sheets"),
    }
}

#[test]
fn a_box_counts_what_leaves_it_and_comes_back() {
    let mut room = Darkroom::with_a_shelf();
    assert_eq!(left(&room, "f1"), 3);
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    room.log(Kind::Loaded, &[("side", "h1b"), ("film_box", "f1")]);
    assert_eq!(left(&room, "f1"), 1);
    room.log(Kind::Unloaded, &[("side", "h1a")]);
    assert_eq!(left(&room, "f1"), 2, "unexposed, it goes back");
    room.log(Kind::Exposed, &[("side", "h1b")]);
    room.log(Kind::Unloaded, &[("side", "h1b")]);
    assert_eq!(left(&room, "f1"), 2, "exposed, it does not");
}

#[test]
fn an_empty_box_gives_no_sheet_until_it_is_counted() {
    let mut room = Darkroom::with_a_shelf();
    room.log(Kind::Counted, &[("thing", "f1"), ("sheets", "0")]);
    assert!(!room.life("f1").possible().contains(&Kind::Loaded));
    let typed = [("side", "h1a"), ("film_box", "f1")];
    let refusal = room.refusal(Kind::Loaded, &typed);
    assert!(
        refusal.to_string().starts_with("no sheet is left of F-01"),
        "{refusal}"
    );
    // A count may be larger than the one before: somebody miscounted.
    room.log(Kind::Counted, &[("thing", "f1"), ("sheets", "30")]);
    room.log(Kind::Loaded, &typed);
    assert_eq!(left(&room, "f1"), 29);
    room.log(Kind::UsedUp, &[("thing", "f1")]);
    room.log(Kind::Unloaded, &[("side", "h1a")]);
    assert_eq!((room.state("f1"), left(&room, "f1")), ("in stock", 1));
}

#[test]
fn a_sheet_goes_only_where_it_fits() {
    let mut room = Darkroom::with_a_shelf();
    let typed = [("side", "h1a"), ("film_box", "f2")];
    let refusal = room.refusal(Kind::Loaded, &typed);
    assert!(
        refusal
            .to_string()
            .starts_with("H-01 A takes 8x10 in, and the sheet is 4x5 in")
    );
    for (holder, film, fits) in [
        ("20.3x25.4 cm", "10x8", true),
        ("5x7", "13x18 cm", false),
        ("9x12 cm", "12x9 cm", true),
        ("9x12 cm", "4x5", false),
    ] {
        let mut room = Darkroom::new();
        room.log(
            Kind::BoxAdded,
            &[("film", "any"), ("size", film), ("sheets", "5")],
        );
        room.log(Kind::HolderAdded, &[("size", holder), ("sides", "1")]);
        let loaded = room.try_log(Kind::Loaded, &[("side", "h1"), ("film_box", "f1")]);
        assert_eq!(loaded.is_ok(), fits, "{film} in {holder}");
    }
}

#[test]
fn a_holder_goes_out_of_use_with_all_its_sides_when_they_are_empty() {
    let mut room = Darkroom::with_a_shelf();
    room.log(Kind::Loaded, &[("side", "h1b"), ("film_box", "f1")]);
    let typed = [("thing", "h1"), ("reason", "the trap leaks")];
    let refusal = room.refusal(Kind::Retired, &typed);
    assert!(
        refusal
            .to_string()
            .starts_with("H-01 B has been loaded since"),
        "{refusal}"
    );
    room.log(Kind::Unloaded, &[("side", "h1b")]);
    let one_side = room.life("h1a").thing.id;
    let drafted = room.read(Kind::Retired, &typed);
    let mut drafted = drafted.expect("it can be read");
    if let Deed::Retired(retired) = &mut drafted.deed {
        retired.sides = vec![one_side];
    }
    assert!(
        room.write(vec![drafted]).is_err(),
        "not with one of its sides only"
    );
    room.log(Kind::Retired, &typed);
    let states = ["h1", "h1a", "h1b"].map(|thing| room.state(thing));
    assert_eq!(states, ["out of use"; 3]);
    let refusal = room.refusal(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    assert!(refusal.can_be_overridden());
}

#[test]
fn one_side_goes_out_of_use_and_the_other_stays() {
    let mut room = Darkroom::with_a_shelf();
    let typed = [("thing", "h1b"), ("reason", "its slide leaks light")];
    room.log(Kind::Retired, &typed);
    assert_eq!(room.state("h1b"), "out of use");
    assert_eq!((room.state("h1"), room.state("h1a")), ("in use", "empty"));
    assert!(!room.life("h1b").possible().contains(&Kind::Retired));
    room.refusal(Kind::Retired, &typed);
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    room.log(Kind::Unloaded, &[("side", "h1a")]);
    room.log(Kind::Retired, &[("thing", "h1"), ("reason", "rotten")]);
    assert_eq!(room.state("h1a"), "out of use");
}

#[test]
fn a_bath_is_not_drawn_from_itself_or_mixed_twice() {
    let mut room = Darkroom::with_a_shelf();
    let drafted = room.read(
        Kind::BathMixed,
        &[("name", "working"), ("purpose", "developer")],
    );
    let mut drafted = drafted.expect("it can be read");
    if let Deed::BathMixed(mixed) = &mut drafted.deed {
        mixed.stock = Some(mixed.bath);
    }
    let refusal = room.write(vec![drafted.clone()]).expect_err("from itself");
    assert!(matches!(refusal, Refusal::Nonsense(_)), "{refusal}");
    let known = room.life("b1").thing.id;
    if let Deed::BathMixed(mixed) = &mut drafted.deed {
        mixed.stock = None;
        mixed.bath = known;
    }
    drafted.over = Some("mixed it again".to_owned());
    let refusal = room.write(vec![drafted]).expect_err("it is there");
    assert!(
        refusal
            .to_string()
            .starts_with("B-0001 came into the logbook"),
        "{refusal}"
    );
}

#[test]
fn no_thing_becomes_another_kind_of_thing() {
    let mut room = Darkroom::with_a_shelf();
    let drafted = room.read(Kind::CameraAdded, &[("name", "box")]);
    let mut drafted = drafted.expect("it can be read");
    let lens = room.life("l1").thing.id;
    if let Deed::CameraAdded(added) = &mut drafted.deed {
        added.camera = lens;
    }
    let refusal = room.write(vec![drafted]).expect_err("it is a lens");
    assert!(matches!(refusal, Refusal::WrongThing { .. }), "{refusal}");
    assert!(room.life("l1").lens().is_some());
}

#[test]
fn a_side_belongs_to_one_holder() {
    let mut room = Darkroom::with_a_shelf();
    let taken = room.life("h1a").thing.id;
    let drafted = room.read(Kind::HolderAdded, &[("size", "8x10"), ("sides", "2")]);
    let mut drafted = drafted.expect("it can be read");
    let Deed::HolderAdded(added) = &mut drafted.deed else {
        panic!("another deed");
    };
    let own = added.side_ids[0];
    added.side_ids[1] = taken;
    let refusal = room.write(vec![drafted.clone()]).expect_err("it is taken");
    assert!(
        refusal
            .to_string()
            .starts_with("H-01 A came into the logbook"),
        "{refusal}"
    );
    if let Deed::HolderAdded(added) = &mut drafted.deed {
        added.side_ids[1] = own;
    }
    assert!(matches!(
        room.write(vec![drafted]),
        Err(Refusal::Nonsense(_))
    ));
}

#[test]
fn what_is_drawn_from_a_stock_is_not_left_in_it() {
    let mut room = Darkroom::with_a_shelf();
    let stock = [
        ("name", "D-76"),
        ("purpose", "developer"),
        ("volume", "1 l"),
    ];
    room.log(Kind::BathMixed, &stock);
    let left = |room: &Darkroom| {
        let life = room.life("b3");
        life.bath()
            .and_then(|bath| bath.volume)
            .map(|it| it.value())
    };
    let thinned = [
        ("name", "D-76"),
        ("purpose", "developer"),
        ("stock", "b3"),
        ("dilution", "1+1"),
        ("volume", "500 ml"),
    ];
    let drawn = room.log(Kind::BathMixed, &thinned);
    assert_eq!(left(&room), Some(750.0));
    room.log(
        Kind::BathMixed,
        &[
            ("name", "D-76"),
            ("purpose", "developer"),
            ("stock", "b3"),
            ("volume", "900 ml"),
        ],
    );
    assert_eq!(left(&room), None, "more than there should be");
    room.strike(drawn);
    assert_eq!(left(&room), Some(100.0));
}
