//! What an act leaves in the file, and what a refused one does not.

use chrono::{DateTime, FixedOffset};
use rusqlite::Connection;

use super::super::{NewAct, NewEntry};
use super::{AppendError, Darkroom, assert_same};
use crate::logbook::draft::{HAPPENED, NOTE};
use crate::logbook::{ActId, Deed, EntryId, Kind, Noted, Refusal, Thing, ThingKind};
use crate::store::StoreError;
use crate::store::records::called;
use crate::world::World;

/// One box, one double holder, one lens.
pub(super) fn shelf(room: &mut Darkroom) {
    room.log(
        Kind::BoxAdded,
        &[("film", "FP4 Plus"), ("size", "8x10"), ("sheets", "25")],
    );
    room.log(Kind::HolderAdded, &[("size", "8x10"), ("sides", "2")]);
    room.log(Kind::LensAdded, &[("name", "the long one")]);
}

fn note(room: &mut Darkroom, text: &str) -> NewAct {
    let film_box = called(&room.store.db, ThingKind::Box, "F-01").expect("readable");
    NewAct {
        id: ActId(room.world.fresh_id()),
        written: room.world.now(),
        entries: vec![NewEntry {
            id: EntryId(room.world.fresh_id()),
            happened: room.world.now(),
            deed: Deed::Noted(Noted {
                thing: film_box.expect("the box"),
                text: text.to_owned(),
            }),
            over: None,
            note: None,
        }],
    }
}

#[test]
fn an_entry_is_there_with_all_that_is_made_from_it() {
    let mut room = Darkroom::new();
    shelf(&mut room);
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    let row = room.log(
        Kind::Exposed,
        &[
            ("side", "h1a"),
            ("lens", "L1"),
            ("aperture", "f/22"),
            ("time", "6s"),
            ("subject", "north wall, thaw"),
        ],
    );
    assert_eq!(row, 5);
    assert_eq!(
        room.text("SELECT state FROM sheet WHERE reference = 'S-0001'"),
        "exposed"
    );
    assert_eq!(
        room.text("SELECT subject FROM exposure"),
        "north wall, thaw"
    );
    assert_eq!(room.count("SELECT remaining FROM film_box"), 24);
    let lens_of_sheet = "SELECT count(*) FROM link JOIN sheet ON sheet.id = link.child \
                         JOIN lens ON lens.id = link.parent WHERE link.role = 'lens'";
    assert_eq!(room.count(lens_of_sheet), 1);
    assert_eq!(
        room.count("SELECT rowid FROM words WHERE words MATCH '\"thaw\"'"),
        5
    );
    let checked = room.store.check(&room.reference).expect("a check");
    assert_eq!(checked.findings, Vec::new());
    assert_eq!(checked.entries, 5);
}

#[test]
fn a_refused_act_writes_nothing() {
    let mut room = Darkroom::new();
    shelf(&mut room);
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    let before = room.everything();
    let again = room.try_log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    assert!(matches!(again, Err(AppendError::Refused(_))), "{again:?}");
    // The first entry of this act is fine, the second is not.
    let exposed = room.draft(Kind::Exposed, &[("side", "h1a")]);
    let loaded = room.draft(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    let both = room.write(vec![exposed, loaded]);
    assert!(matches!(both, Err(AppendError::Refused(_))), "{both:?}");
    assert_same(&room.everything(), &before);
}

#[test]
fn no_sql_changes_removes_or_replaces_an_entry() {
    let mut room = Darkroom::new();
    shelf(&mut room);
    let before = room.everything();
    for forbidden in [
        "UPDATE entry SET note = 'never said' WHERE row = 1",
        "DELETE FROM entry WHERE row = 1",
        "INSERT OR REPLACE INTO entry SELECT * FROM entry WHERE row = 1",
        "INSERT OR REPLACE INTO entry SELECT row + 100, id, act, machine, seq + 100, happened_us, \
         happened_offset, written_us, written_offset, kind, v, body, strikes, amends, over, note, \
         hash FROM entry WHERE row = 1",
    ] {
        // Neither by this program nor by another.
        room.store.db.execute(forbidden, []).expect_err(forbidden);
        let another = Connection::open(room.path()).expect("opened");
        let refused = another.execute(forbidden, []);
        let problem = refused.expect_err(forbidden).to_string();
        assert!(problem.contains("an entry is never"), "{problem}");
    }
    for forbidden in ["DROP TABLE entry", "DROP TRIGGER entry_is_never_changed"] {
        room.store.db.execute(forbidden, []).expect_err(forbidden);
    }
    assert_same(&room.everything(), &before);
}

#[test]
fn an_act_that_is_offered_again_is_not_written_twice() {
    let mut room = Darkroom::new();
    shelf(&mut room);
    let act = note(&mut room, "a dent at one corner");
    let first = room.store.append(act.clone(), &room.reference);
    let before = room.everything();
    let second = room.store.append(act, &room.reference);
    assert_eq!(
        first.expect("written"),
        second.expect("known to be written")
    );
    assert_same(&room.everything(), &before);
}

#[test]
fn an_id_that_is_taken_is_refused_with_what_was_there_left_as_it_is() {
    let mut room = Darkroom::new();
    shelf(&mut room);
    let first = note(&mut room, "a dent at one corner");
    let mut other = note(&mut room, "no dent");
    other.entries[0].id = first.entries[0].id;
    room.store.append(first, &room.reference).expect("written");
    let before = room.everything();
    let refused = room.store.append(other, &room.reference);
    assert!(
        matches!(refused, Err(AppendError::Store(StoreError::IdTaken { .. }))),
        "{refused:?}"
    );
    assert_same(&room.everything(), &before);
}

#[test]
fn an_entry_that_is_too_long_is_refused_and_one_that_is_just_short_enough_is_kept() {
    let mut room = Darkroom::new();
    shelf(&mut room);
    let before = room.everything();
    let act = note(&mut room, &"long ".repeat(13_200));
    let refused = room.store.append(act, &room.reference);
    let problem = refused.expect_err("too long").to_string();
    assert!(problem.contains("shorten the note"), "{problem}");
    assert_same(&room.everything(), &before);
    let act = note(&mut room, &"long ".repeat(13_000));
    room.store.append(act, &room.reference).expect("written");
}

#[test]
fn a_time_finer_than_the_logbook_keeps_reads_back_as_it_was_written() {
    let mut room = Darkroom::new();
    shelf(&mut room);
    let seconds_off = FixedOffset::east_opt(28 * 60 + 17).expect("an old local time");
    let odd = DateTime::from_timestamp_nanos(1_772_636_711_123_456_789).with_timezone(&seconds_off);
    let mut act = note(&mut room, "by the old clock");
    act.entries[0].happened = odd;
    room.store.append(act, &room.reference).expect("written");
    let checked = room.store.check(&room.reference).expect("a check");
    assert_eq!(checked.findings, Vec::new());
    assert_eq!(
        room.count("SELECT happened_us FROM entry WHERE row = 4"),
        1_772_636_711_123_456
    );
}

#[test]
fn a_number_is_never_given_twice() {
    let mut room = Darkroom::new();
    shelf(&mut room);
    let loaded = room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    room.strike(loaded);
    assert_eq!(room.count("SELECT count(*) FROM sheet"), 0);
    let drafted = room.draft(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    let receipt = room.write(vec![drafted]).expect("written");
    let created = receipt.entries[0].created.clone();
    assert_eq!(created.expect("a sheet").1, "S-0002");
}

#[test]
fn a_reference_beyond_all_counting_does_not_end_the_counting() {
    let mut room = Darkroom::new();
    let holder = [("size", "8x10"), ("sides", "2")];
    let largest = [holder[0], holder[1], ("reference", "H-4294967295")];
    room.log(Kind::HolderAdded, &largest);
    room.log(Kind::HolderAdded, &holder);
    assert_eq!(
        room.text("SELECT max(reference) FROM holder WHERE reference < 'H-4'"),
        "H-01"
    );
}

#[test]
fn a_struck_entry_stays_findable_and_what_it_left_behind_goes() {
    let mut room = Darkroom::new();
    shelf(&mut room);
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    let exposed = room.log(
        Kind::Exposed,
        &[("side", "h1a"), ("lens", "L1"), ("subject", "mill race")],
    );
    let found = "SELECT count(*) FROM words WHERE words MATCH '\"mill ra\"*'";
    let strike = room.strike(exposed);
    assert_eq!(room.count(found), 1);
    assert_eq!(room.count("SELECT count(*) FROM exposure"), 0);
    assert_eq!(
        room.count("SELECT count(*) FROM link WHERE role = 'lens'"),
        0
    );
    assert_eq!(room.text("SELECT state FROM sheet"), "loaded");
    room.strike(strike);
    assert_eq!(room.count("SELECT count(*) FROM exposure"), 1);
    assert_eq!(
        room.count("SELECT count(*) FROM link WHERE role = 'lens'"),
        1
    );
    assert_eq!(room.text("SELECT state FROM sheet"), "exposed");
}

#[test]
fn an_amended_reference_is_found_in_earlier_entries_too() {
    let mut room = Darkroom::new();
    shelf(&mut room);
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    let found = "SELECT count(*) FROM words WHERE words MATCH '\"H-09\"'";
    assert_eq!(room.count(found), 0);
    let amendment = room.amend(2, &[("reference", "h9")]);
    // The holder as it came, its loading, and the amendment.
    assert_eq!(room.count(found), 3);
    room.strike(amendment);
    // What the amendment said stays its own; the strike tells the references as they are again.
    assert_eq!(room.count(found), 1);
    let checked = room.store.check(&room.reference).expect("a check");
    assert_eq!(checked.findings, Vec::new());
}

#[test]
fn a_damaged_body_is_named_and_nothing_is_written_on_it() {
    let mut room = Darkroom::new();
    shelf(&mut room);
    room.damage(
        "DROP TRIGGER entry_is_never_changed; \
         UPDATE entry SET body = replace(body, 'the long one', 'the short one') WHERE row = 3",
    );
    let checked = room.store.check(&room.reference).expect("a check");
    let named: Vec<String> = checked.findings.iter().map(ToString::to_string).collect();
    assert!(named[0].contains("entry #3 does not say"), "{named:?}");
    room.damage("UPDATE entry SET body = '{' WHERE row = 3");
    let checked = room.store.check(&room.reference).expect("a check");
    assert_eq!(checked.findings.len(), 1, "{:?}", checked.findings);
}

#[test]
fn refusals_that_name_nothing_known_write_nothing() {
    let mut room = Darkroom::new();
    let before = room.everything();
    let nobody = Thing::new(
        ThingKind::Sheet,
        crate::logbook::ThingId(room.world.fresh_id()),
    );
    let act = NewAct {
        id: ActId(room.world.fresh_id()),
        written: room.world.now(),
        entries: vec![NewEntry {
            id: EntryId(room.world.fresh_id()),
            happened: room.world.now(),
            deed: Deed::Noted(Noted {
                thing: nobody,
                text: "whose?".to_owned(),
            }),
            over: None,
            note: None,
        }],
    };
    let refused = room.store.append(act, &room.reference);
    assert!(
        matches!(refused, Err(AppendError::Refused(Refusal::Unknown { .. }))),
        "{refused:?}"
    );
    assert_same(&room.everything(), &before);
}

#[test]
fn an_act_of_several_entries_may_strike_what_it_has_just_said() {
    let mut room = Darkroom::new();
    shelf(&mut room);
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    let mut act = note(&mut room, "in one breath");
    let exposed = room.draft(
        Kind::Exposed,
        &[("side", "h1a"), (NOTE, "too soon"), (HAPPENED, "now")],
    );
    let id = EntryId(room.world.fresh_id());
    act.entries.push(NewEntry {
        id,
        happened: exposed.happened,
        deed: exposed.deed,
        over: None,
        note: exposed.note,
    });
    act.entries.push(NewEntry {
        id: EntryId(room.world.fresh_id()),
        happened: exposed.happened,
        deed: Deed::Struck(crate::logbook::Struck {
            entry: id,
            reason: "the shutter did not open".to_owned(),
            touches: Vec::new(),
        }),
        over: None,
        note: None,
    });
    room.store.append(act, &room.reference).expect("written");
    assert_eq!(room.count("SELECT count(*) FROM exposure"), 0);
    assert_eq!(room.text("SELECT state FROM sheet"), "loaded");
    let checked = room.store.check(&room.reference).expect("a check");
    assert_eq!(checked.findings, Vec::new());
}
