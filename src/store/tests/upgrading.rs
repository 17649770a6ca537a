//! Files of other versions: older ones are backed up and brought up to date, newer ones left alone.

use std::fs;

use rusqlite::Connection;

use super::super::migrate::{NEWEST, STEPS, bring_up_to_date};
use super::appending::shelf;
use super::{Darkroom, assert_same, everything};
use crate::logbook::Kind;
use crate::store::settings::{Identity, identity};
use crate::store::{Store, StoreError};

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
