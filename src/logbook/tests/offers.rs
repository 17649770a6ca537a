//! What a life offers next.

use super::*;

#[test]
fn every_thing_offers_a_note_last_once_it_is_there() {
    let mut room = Darkroom::with_negatives();
    room.log(
        Kind::PrintBegun,
        &[("negatives", "s1"), ("process", "cyanotype")],
    );
    for life in room.ledger.lives.values() {
        assert_eq!(
            life.possible().last(),
            Some(&Kind::Noted),
            "{}",
            life.reference
        );
    }
    for kind in ThingKind::ALL {
        let unborn = Life::new(crate::logbook::Thing::new(
            kind,
            crate::logbook::ThingId(Uuid::nil()),
        ));
        assert!(!unborn.possible().contains(&Kind::Noted), "{kind}");
        assert!(!unborn.possible().is_empty(), "{kind}");
    }
}

#[test]
fn what_has_ended_offers_no_more_than_a_note() {
    let mut room = Darkroom::with_negatives();
    room.log(Kind::Discarded, &[("thing", "s1"), ("reason", "scratched")]);
    assert_eq!(room.life("s1").possible(), [Kind::Noted]);
    room.log(Kind::Retired, &[("thing", "c1"), ("reason", "sold")]);
    assert_eq!(room.life("c1").possible(), [Kind::Noted]);
    assert_eq!(room.life("r1").possible(), [Kind::Noted]);
}

#[test]
fn a_sheet_in_a_holder_offers_what_is_done_to_it_there() {
    let mut room = Darkroom::with_a_shelf();
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    let offered = room.life("s1").possible();
    assert!(offered.contains(&Kind::Unloaded) && offered.contains(&Kind::Exposed));
    room.log(Kind::Fogged, &[("sheet", "s1"), ("reason", "slide out")]);
    assert!(room.life("s1").possible().contains(&Kind::Unloaded));
    room.log(Kind::Unloaded, &[("side", "h1a")]);
    let offered = room.life("s1").possible();
    assert!(
        !offered.contains(&Kind::Unloaded),
        "it is in no holder any more"
    );
    assert!(!offered.contains(&Kind::RunEnded), "it is in no run");
}
