//! Strikes and amendments, of entries and of each other.

use super::*;

#[test]
fn a_struck_strike_brings_the_entry_back() {
    let mut room = Darkroom::with_a_shelf();
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    let exposed = room.log(Kind::Exposed, &[("side", "h1a")]);
    let strike = room.strike(exposed);
    assert_eq!(room.state("h1a"), "loaded");
    assert!(matches!(
        room.try_strike(exposed),
        Err(Refusal::AlreadyStruck)
    ));
    room.strike(strike);
    assert_eq!(room.state("h1a"), "exposed");
    room.strike(exposed);
    assert_eq!(room.state("h1a"), "loaded");
}

#[test]
fn what_others_rest_on_is_not_struck() {
    let mut room = Darkroom::with_a_shelf();
    let loaded = room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    let exposed = room.log(Kind::Exposed, &[("side", "h1a")]);
    let holder = room.ledger.entries[2].id;
    for resting in [loaded, holder] {
        let refusal = room.try_strike(resting).expect_err("others rest on it");
        assert!(refusal.to_string().contains("no longer fit"), "{refusal}");
        assert!(!refusal.can_be_overridden());
    }
    room.strike(exposed);
    room.strike(loaded);
    assert_eq!(left(&room), 3, "the sheet is back in its box");
    room.strike(holder);
    assert!(room.ledger.thing(ThingKind::Side, "H-01 A").is_none());
    let unused = room.ledger.entries[3].id;
    room.strike(unused);
}

fn left(room: &Darkroom) -> u32 {
    room.life("f1").film_box().expect("a box").left
}

#[test]
fn the_last_amendment_counts_and_leaves_unsaid_what_it_does_not_change() {
    let mut room = Darkroom::with_a_shelf();
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    room.at("12:00");
    let exposed = room.log(Kind::Exposed, &[("side", "h1a"), ("time", "6s")]);
    room.at("15:00");
    room.amend(exposed, &[("time", "8s"), ("happened", "11:30")]);
    let second = room.amend(exposed, &[("aperture", "f/22")]);
    let exposure = |room: &Darkroom| {
        let life = room.life("s1");
        let sheet = life.sheet().expect("a sheet");
        sheet.exposures[0].clone()
    };
    let now = exposure(&room);
    assert_eq!(
        now.at.format("%H:%M").to_string(),
        "11:30",
        "the time stays amended"
    );
    assert_eq!(
        now.time.map(|time| time.to_string()).as_deref(),
        Some("8 s")
    );
    assert!(now.aperture.is_some());
    room.strike(second);
    assert_eq!(exposure(&room).aperture, None);
    let settled = room.ledger.settled();
    let one = settled
        .iter()
        .find(|one| one.entry.id == exposed)
        .expect("it is there");
    assert_eq!(one.amended.len(), 1, "the struck one does not count");
}

#[test]
fn an_exposure_amended_to_another_side_and_back_leaves_both_as_they_were() {
    let mut room = Darkroom::with_a_shelf();
    for side in ["h1a", "h1b"] {
        room.log(Kind::Loaded, &[("side", side), ("film_box", "f1")]);
    }
    let exposed = room.log(Kind::Exposed, &[("side", "h1a")]);
    let amendment = room.amend(exposed, &[("side", "h1b")]);
    assert_eq!(
        (room.state("h1a"), room.state("h1b")),
        ("loaded", "exposed")
    );
    // The other side knows the exposure only by its amendment.
    let strike = room.strike(exposed);
    assert_eq!((room.state("h1a"), room.state("h1b")), ("loaded", "loaded"));
    room.strike(strike);
    assert_eq!(
        (room.state("h1a"), room.state("h1b")),
        ("loaded", "exposed")
    );
    room.strike(amendment);
    assert_eq!(
        (room.state("h1a"), room.state("h1b")),
        ("exposed", "loaded")
    );
}

#[test]
fn words_are_struck_in_any_order_and_every_side_hears_of_it() {
    let mut room = Darkroom::with_a_shelf();
    for side in ["h1a", "h1b", "h2a"] {
        room.log(Kind::Loaded, &[("side", side), ("film_box", "f1")]);
    }
    let exposed = room.log(Kind::Exposed, &[("side", "h1a")]);
    let strike = room.strike(exposed);
    let counter_strike = room.strike(strike);
    let first = room.amend(exposed, &[("side", "h1b")]);
    room.strike(first);
    let second = room.amend(exposed, &[("side", "h2a")]);
    let states = |room: &Darkroom| ["h1a", "h1b", "h2a"].map(|side| room.state(side));
    assert_eq!(states(&room), ["loaded", "loaded", "exposed"]);
    // The strike is older than the side it now reaches.
    let again = room.strike(counter_strike);
    assert_eq!(states(&room), ["loaded", "loaded", "loaded"]);
    room.strike(again);
    room.strike(second);
    assert_eq!(states(&room), ["exposed", "loaded", "loaded"]);
}

#[test]
fn an_amendment_is_judged_like_the_entry_it_replaces() {
    let mut room = Darkroom::with_a_shelf();
    for side in ["h1a", "h1b"] {
        room.log(Kind::Loaded, &[("side", side), ("film_box", "f1")]);
    }
    room.log(Kind::Exposed, &[("side", "h1b")]);
    let second = room.log(Kind::Exposed, &[("side", "h1a")]);
    let refusal = room.try_amend(second, &[("side", "h1b")]);
    let refusal = refusal.expect_err("that side was exposed");
    assert!(
        refusal
            .to_string()
            .starts_with("H-01 B was already exposed"),
        "{refusal}"
    );
    assert!(refusal.can_be_overridden());
    // The reason is said with the amendment.
    room.amend(
        second,
        &[("side", "h1b"), ("over", "both on one sheet, by mistake")],
    );
    assert_eq!(room.life("h1b").overrides, 1);
    assert_eq!(room.life("s2").sheet().expect("a sheet").exposures.len(), 2);
}

#[test]
fn an_amendment_changes_figures_and_nothing_else() {
    let mut room = Darkroom::with_a_shelf();
    let loaded = room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    let amend_to = |room: &mut Darkroom, deed: Deed, entry: EntryId| {
        room.write_deed(Deed::Amended(Amended {
            entry,
            deed: Box::new(deed),
            happened: None,
            reason: "wrong".to_owned(),
            touches: Vec::new(),
        }))
    };
    let other = room.read(Kind::Unloaded, &[("side", "h1a")]);
    let other = other.expect("it can be read").deed;
    let refusal = amend_to(&mut room, other, loaded).expect_err("another kind");
    assert!(matches!(refusal, Refusal::OtherKind { .. }));
    let afresh = room.read(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    let afresh = afresh.expect("it can be read").deed;
    let refusal = amend_to(&mut room, afresh, loaded).expect_err("another sheet");
    assert!(matches!(refusal, Refusal::OtherKind { .. }));
    let amendment = room.amend(loaded, &[("side", "h1b")]);
    let again = room.amendment(loaded, &[]);
    let refusal = amend_to(&mut room, again, amendment).expect_err("a word");
    assert!(matches!(refusal, Refusal::AmendedRemark));
    let tomorrow = room.try_amend(loaded, &[("happened", "23:00")]);
    assert!(
        matches!(tomorrow, Err(Refusal::Future { .. })),
        "{tomorrow:?}"
    );
}

#[test]
fn every_word_has_its_reason_and_its_entry() {
    let mut room = Darkroom::with_a_shelf();
    let loaded = room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    let strike = |entry: EntryId, reason: &str| {
        Deed::Struck(Struck {
            entry,
            reason: reason.to_owned(),
            touches: Vec::new(),
        })
    };
    let refusal = room.write_deed(strike(loaded, " "));
    assert!(matches!(refusal, Err(Refusal::NoReason)));
    let unknown = EntryId(Uuid::from_u128(0xDEAD));
    let refusal = room.write_deed(strike(unknown, "wrong"));
    assert!(matches!(refusal, Err(Refusal::NoSuchEntry)));
    let drafted = room.read(Kind::Unloaded, &[("side", "h1a")]);
    let mut drafted = drafted.expect("it can be read");
    drafted.over = Some("  ".to_owned());
    assert!(matches!(room.write(vec![drafted]), Err(Refusal::NoReason)));
}

#[test]
fn an_act_counts_as_a_whole_or_not_at_all() {
    let mut room = Darkroom::with_a_shelf();
    let loaded = room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    let now = room.now;
    let plain = |deed: Deed| Drafted {
        deed,
        happened: now,
        over: None,
        note: None,
    };
    let strike = Deed::Struck(Struck {
        entry: loaded,
        reason: "it was the other side".to_owned(),
        touches: Vec::new(),
    });
    let anew = room.read(Kind::Loaded, &[("side", "h1b"), ("film_box", "f1")]);
    let anew = anew.expect("it can be read");
    let exposed = room
        .read(Kind::Exposed, &[("side", "h1b")])
        .expect("it can be read");
    let wrong = room
        .read(Kind::Exposed, &[("side", "h2a")])
        .expect("it can be read");
    let before = room.ledger.entries.len();
    let refused = room.write(vec![plain(strike.clone()), anew.clone(), wrong]);
    assert!(refused.is_err());
    assert_eq!(room.ledger.entries.len(), before);
    assert_eq!(room.state("h1a"), "loaded");
    room.write(vec![plain(strike), anew, exposed])
        .expect("it fits");
    assert_eq!((room.state("h1a"), room.state("h1b")), ("empty", "exposed"));
}
