//! Files of other versions: older ones are backed up and brought up to date, newer ones left alone.

use std::fs;

use rusqlite::Connection;

use super::super::migrate::{NEWEST, STEPS, bring_up_to_date};
use super::appending::shelf;
use super::{Darkroom, assert_same, everything};
use crate::craft::{Capacity, Millimetres, Seconds};
use crate::logbook::{Kind, Names, ThingKind};
use crate::reference::Reference;
use crate::store::settings::{Identity, identity};
use crate::store::{Store, StoreError};
use crate::world::Scripted;

/// A logbook as form 1 had it: loaded, exposed twice, amended, developed, printed, a side in doubt.
const FORM_1: &[u8] = include_bytes!("../../../tests/forms/1.notchbook");

/// A logbook as form 2 had it: a lens with a tested shutter, findings, an exposure that was reckoned, one
/// that was begun and closed, a run, a bath that was replenished.
const FORM_2: &[u8] = include_bytes!("../../../tests/forms/2.notchbook");

/// A logbook of an older form, lying in a folder of its own.
fn older(bytes: &[u8]) -> (tempfile::TempDir, std::path::PathBuf) {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("own.notchbook");
    fs::write(&path, bytes).expect("a file");
    (folder, path)
}

#[test]
fn a_logbook_of_form_1_is_opened_brought_up_to_date_and_checks() {
    let (_folder, path) = older(FORM_1);
    let reference = Reference::built_in().expect("the built-in reference");
    let mut world = Scripted::new(super::now());
    let mut store = Store::open(&path, &mut world).expect("it is brought up to date");
    let known = |store: &Store| {
        let sql = "SELECT count(*) || ' ' || count(focal_length) FROM lens";
        let text = store.db.query_row(sql, [], |row| row.get::<_, String>(0));
        text.expect("readable")
    };
    assert_eq!(
        known(&store),
        "1 0",
        "what form 1 did not keep is not there"
    );
    let rebuilt = store.make_what_is_missing(&reference).expect("it is made");
    let rebuilt = rebuilt.expect("something was missing");
    assert_eq!((rebuilt.entries, rebuilt.misfits), (27, 0));
    assert_eq!(known(&store), "1 1");
    assert_eq!(
        store
            .make_what_is_missing(&reference)
            .expect("nothing to do"),
        None
    );
    let checked = store.check(&reference).expect("a check");
    assert_eq!((checked.entries, checked.findings), (27, Vec::new()));
    let lens = store.find(&[ThingKind::Lens], "L-01").expect("the lens");
    let lens = store.life_of(lens.id).expect("its life");
    let lens = lens.lens().expect("a lens");
    assert_eq!(lens.exposures, 3);
    assert_eq!(lens.focal_length, Millimetres::parse("240 mm").ok());
    // The amendment of an exposure was struck again, so the first figures count.
    let sheet = store
        .find(&[ThingKind::Sheet], "S-0002")
        .expect("the sheet");
    let sheet = store.life_of(sheet.id).expect("its life");
    let exposure = sheet.sheet().expect("a sheet").exposures[0].clone();
    assert_eq!(exposure.time, Seconds::parse("12 s").ok());
    let side = store.find(&[ThingKind::Side], "H-02 B").expect("the side");
    let side = store.life_of(side.id).expect("its life");
    assert!(side.side().expect("a side").doubt.is_some());
}

#[test]
fn a_logbook_of_form_1_that_may_only_be_read_is_left_alone() {
    let (_folder, path) = older(FORM_1);
    let refused = Store::open_read_only(&path).expect_err("it would have to be changed");
    assert!(
        matches!(refused, StoreError::OlderReadOnly { .. }),
        "{refused}"
    );
    assert!(fs::read(&path).expect("the file") == FORM_1);
}

#[test]
fn a_logbook_of_form_2_is_opened_brought_up_to_date_and_checks() {
    let (_folder, path) = older(FORM_2);
    let reference = Reference::built_in().expect("the built-in reference");
    let mut world = Scripted::new(super::now());
    let mut store = Store::open(&path, &mut world).expect("it is brought up to date");
    let rebuilt = store.make_what_is_missing(&reference).expect("it is made");
    let rebuilt = rebuilt.expect("something was missing");
    assert_eq!((rebuilt.entries, rebuilt.misfits), (22, 0));
    let checked = store.check(&reference).expect("a check");
    assert_eq!((checked.entries, checked.findings), (22, Vec::new()));
    let of = |kind, reference: &str| {
        let thing = store.find(&[kind], reference).expect("it is there");
        store.life_of(thing.id).expect("its life")
    };
    let lens = of(ThingKind::Lens, "L-01");
    assert_eq!(lens.lens().expect("a lens").tests.len(), 1);
    let bath = of(ThingKind::Bath, "B-0001");
    let bath = bath.bath().expect("a bath");
    assert_eq!((bath.uses, bath.capacity), (0, Some(Capacity::Sheets(8))));
    let sheet = of(ThingKind::Sheet, "S-0002");
    let exposure = &sheet.sheet().expect("a sheet").exposures[0];
    assert_eq!(exposure.time, Seconds::parse("31 s").ok());
    let finding = of(ThingKind::Finding, "N-0002");
    assert!(finding.finding().expect("a finding").found.is_some());
}

const LATER: &str = "CREATE TABLE later (id INTEGER PRIMARY KEY) STRICT";

fn with_one_more(step: &str) -> Vec<&str> {
    STEPS.iter().copied().chain([step]).collect()
}

#[test]
fn before_a_file_is_brought_up_to_date_a_whole_copy_is_put_beside_it() {
    let mut room = Darkroom::new();
    shelf(&mut room);
    let before = room.everything();
    let path = room.path();
    bring_up_to_date(&mut room.store.db, &path, &with_one_more(LATER)).expect("brought up to date");
    assert_eq!(
        identity(&room.store.db).expect("readable"),
        Identity::Logbook(NEWEST + 1)
    );
    let copy = path.with_file_name(format!("own.notchbook.form-{NEWEST}.backup"));
    let same = Connection::open(&copy).expect("the copy can be opened");
    assert_same(&everything(&same), &before);
    let copy = Store::open_read_only(&copy).expect("the copy is a logbook");
    let checked = copy.check(&room.reference).expect("a check");
    assert_eq!(checked.findings, Vec::new());
}

#[test]
fn an_upgrade_that_fails_leaves_the_file_as_it_was() {
    let mut room = Darkroom::new();
    shelf(&mut room);
    let before = room.everything();
    let path = room.path();
    let broken = "CREATE TABLE later (id INTEGER PRIMARY KEY); CREATE TABLE entry (id TEXT)";
    bring_up_to_date(&mut room.store.db, &path, &with_one_more(broken)).expect_err("it fails");
    assert_eq!(
        identity(&room.store.db).expect("readable"),
        Identity::Logbook(NEWEST)
    );
    assert_same(&room.everything(), &before);
    // Nor is an earlier copy ever written over.
    bring_up_to_date(&mut room.store.db, &path, &with_one_more(broken)).expect_err("it fails");
    let copies = fs::read_dir(room.folder.path()).expect("the folder");
    let copies = copies
        .flatten()
        .filter(|file| file.file_name().to_string_lossy().ends_with(".backup"));
    assert_eq!(copies.count(), 2);
}

#[test]
fn a_newer_file_is_refused_without_a_byte_changed_and_can_be_read() {
    let mut room = Darkroom::new();
    shelf(&mut room);
    room.store
        .db
        .pragma_update(None, "user_version", NEWEST + 1)
        .expect("a newer number");
    let path = room.path();
    let Darkroom {
        folder,
        mut world,
        store,
        ..
    } = room;
    store.close().expect("closed");
    let before = fs::read(&path).expect("the file");
    let refused = Store::open(&path, &mut world).expect_err("it is newer");
    assert!(
        matches!(refused, StoreError::Newer { found, .. } if found == NEWEST + 1),
        "{refused}"
    );
    assert!(refused.to_string().contains("use a newer version"));
    assert_eq!(fs::read(&path).expect("the file"), before);
    let store = Store::open_read_only(&path).expect("it can be read");
    assert!(store.is_read_only());
    let boxes = store.read(|db| {
        Ok(db.query_row("SELECT count(*) FROM film_box", [], |row| {
            row.get::<_, i64>(0)
        })?)
    });
    assert_eq!(boxes.expect("a number"), 1);
    drop(store);
    assert_eq!(fs::read(&path).expect("the file"), before);
    drop(folder);
}

#[test]
fn a_file_that_was_not_finished_being_made_is_finished() {
    let mut room = Darkroom::new();
    let path = room.folder.path().join("cut-off.notchbook");
    fs::write(&path, b"").expect("an empty file");
    let store = Store::open(&path, &mut room.world).expect("finished");
    drop(store);
    let store = Store::open(&path, &mut room.world).expect("opened");
    assert!(!store.is_read_only());
    room.log(
        Kind::BoxAdded,
        &[("film", "FP4 Plus"), ("size", "8x10"), ("sheets", "25")],
    );
}
