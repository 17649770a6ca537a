//! Search over every word of the logbook.

use std::sync::{Mutex, OnceLock};

use notchbook::logbook::Kind;
use proptest::prelude::*;

use crate::darkroom::Darkroom;

fn found(room: &Darkroom, typed: &str) -> Vec<(i64, Kind)> {
    let hits = room
        .store
        .search(typed, None, 100, &room.reference)
        .expect("an answer");
    hits.iter().map(|hit| (hit.row, hit.kind)).collect()
}

#[test]
fn every_kind_of_word_finds_its_entry() {
    let mut room = Darkroom::winter_quarry();
    room.log(
        Kind::Noted,
        &[
            ("thing", "S-0001"),
            ("text", "the thaw left a puddle"),
            ("note", "see the sketchbook"),
        ],
    );
    for (typed, kind) in [
        ("4417", Kind::BoxAdded),
        ("walnut", Kind::HolderAdded),
        ("meniscus", Kind::LensAdded),
        ("cherry", Kind::CameraAdded),
        ("orange ledge", Kind::Exposed),
        ("pyrocat", Kind::BathMixed),
        ("shuffled", Kind::RunBegun),
        ("even marks", Kind::RunEnded),
        ("1.86", Kind::Measured),
        ("binder", Kind::Filed),
        ("chloroplatinate", Kind::PrintStep),
        ("ivory", Kind::Matted),
        ("second landing", Kind::Placed),
        ("puddle", Kind::Noted),
        ("sketchbook", Kind::Noted),
        ("PUDDL", Kind::Noted),
        ("s-0001 binder", Kind::Filed),
    ] {
        let kinds: Vec<Kind> = found(&room, typed)
            .into_iter()
            .map(|(_, kind)| kind)
            .collect();
        assert!(kinds.contains(&kind), "{typed:?} finds {kinds:?}");
    }
    assert_eq!(found(&room, "submarine"), []);
    assert_eq!(found(&room, "   "), []);
    assert_eq!(found(&room, "* \" ("), []);
}

#[test]
fn hits_come_newest_first_and_by_pages() {
    let room = Darkroom::winter_quarry();
    let all = found(&room, "P-0001");
    assert!(all.len() > 10);
    assert!(all.is_sorted_by(|one, other| one.0 > other.0));
    let mut paged = Vec::new();
    let mut before = None;
    loop {
        let page = room
            .store
            .search("P-0001", before, 4, &room.reference)
            .expect("a page");
        let Some(last) = page.last() else { break };
        before = Some(last.row);
        paged.extend(page.iter().map(|hit| (hit.row, hit.kind)));
    }
    assert_eq!(paged, all);
}

#[test]
fn struck_entries_are_found_and_marked() {
    let mut room = Darkroom::winter_quarry();
    let row = room.log(Kind::Noted, &[("thing", "S-0001"), ("text", "a dark flaw")]);
    room.strike(row, "dust on the glass");
    let hits = room
        .store
        .search("flaw", None, 9, &room.reference)
        .expect("an answer");
    let hit = hits.iter().find(|hit| hit.row == row).expect("a hit");
    assert!(hit.struck);
    assert_eq!(hit.headline, "a dark flaw");
    assert_eq!(hit.things[0].reference, "S-0001");
    assert!(
        room.store
            .search("dust glass", None, 9, &room.reference)
            .expect("an answer")
            .iter()
            .any(|hit| hit.kind == Kind::Struck)
    );
}

fn shared() -> &'static Mutex<Darkroom> {
    static ROOM: OnceLock<Mutex<Darkroom>> = OnceLock::new();
    ROOM.get_or_init(|| Mutex::new(Darkroom::winter_quarry()))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn no_text_is_an_error(typed in ".{0,40}") {
        let room = shared().lock().expect("one at a time");
        room.store.search(&typed, None, 5, &room.reference).expect("an answer");
        let query = notchbook::store::rows::SheetQuery { find: &typed, ..Default::default() };
        room.store.sheets(&query).expect("a list");
        let query = notchbook::store::rows::PrintQuery { find: &typed, ..Default::default() };
        room.store.prints(&query).expect("a list");
    }

    #[test]
    fn no_expression_is_an_error(
        typed in "([a-z*\"'():^+{}\\-\\\\\0 %_]|AND|OR|NOT|NEAR|text:){0,12}"
    ) {
        let room = shared().lock().expect("one at a time");
        room.store.search(&typed, None, 5, &room.reference).expect("an answer");
    }
}
