//! Damage to the file is noticed, whatever it hits, and an entry that is not stored as it was meant
//! is not written at all.

use std::fs;
use std::path::Path;

use super::super::append::read_back;
use super::super::error::Fault;
use super::random::Dice;
use super::rebuilding::stock;
use super::{Darkroom, everything, now};
use crate::logbook::Kind;
use crate::reference::Reference;
use crate::store::{Store, StoreError};
use crate::world::Scripted;

/// What a small logbook holds, closed, with what it says.
fn small_logbook() -> (Vec<u8>, Vec<String>, Reference) {
    let mut room = Darkroom::new();
    stock(&mut room);
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    room.log(
        Kind::Exposed,
        &[("side", "h1a"), ("lens", "l1"), ("time", "6s")],
    );
    let said = without_words(room.everything());
    let path = room.path();
    let Darkroom {
        folder,
        store,
        reference,
        ..
    } = room;
    store.close().expect("closed");
    let bytes = fs::read(&path).expect("the file");
    drop(folder);
    (bytes, said, reference)
}

/// The search index is laid out by SQLite and can be made again, so it is not looked at here.
fn without_words(mut lines: Vec<String>) -> Vec<String> {
    lines.retain(|line| !line.starts_with("temp.every_word"));
    lines
}

/// Opens and checks; whether anything was noticed.
fn is_noticed(path: &Path, reference: &Reference) -> bool {
    let store = match Store::open(path, &mut Scripted::new(now())) {
        Ok(store) => store,
        Err(
            StoreError::Damaged { .. } | StoreError::NotALogbook { .. } | StoreError::Newer { .. },
        ) => return true,
        Err(problem) => panic!("{problem:?}"),
    };
    match store.check(reference) {
        Ok(checked) => !checked.findings.is_empty(),
        Err(StoreError::Damaged { .. }) => true,
        Err(problem) => panic!("{problem:?}"),
    }
}

#[test]
fn a_lost_page_is_noticed_whichever_it_is() {
    let (bytes, _, reference) = small_logbook();
    let folder = tempfile::tempdir().expect("a folder");
    let pages = bytes.len() / 4096;
    assert!(pages > 30, "{pages}");
    for page in 0..pages {
        let mut damaged = bytes.clone();
        damaged[page * 4096..(page + 1) * 4096].fill(0);
        let path = folder.path().join(format!("{page}.notchbook"));
        fs::write(&path, damaged).expect("a file");
        assert!(is_noticed(&path, &reference), "page {}", page + 1);
        fs::remove_file(path).expect("removed");
    }
}

#[test]
fn no_flipped_bit_changes_what_the_logbook_says_without_being_noticed() {
    let (bytes, said, reference) = small_logbook();
    let folder = tempfile::tempdir().expect("a folder");
    let mut dice = Dice(0x5EED);
    let mut noticed = 0;
    for nth in 0..150 {
        let at = usize::try_from(dice.below(bytes.len() as u64)).expect("small");
        let mut damaged = bytes.clone();
        damaged[at] ^= 1 << dice.below(8);
        let path = folder.path().join(format!("{nth}.notchbook"));
        fs::write(&path, damaged).expect("a file");
        if is_noticed(&path, &reference) {
            noticed += 1;
        } else {
            let store = Store::open(&path, &mut Scripted::new(now())).expect("opened");
            let says = without_words(everything(&store.db));
            super::assert_same(&says, &said);
        }
        fs::remove_file(path).expect("removed");
    }
    assert!(
        noticed > 5,
        "only {noticed} flips hit anything, which tries little"
    );
}

#[test]
fn an_entry_that_does_not_read_back_is_a_fault() {
    let mut room = Darkroom::new();
    stock(&mut room);
    let id = room.entry_id(2);
    let meant = room
        .store
        .db
        .query_row("SELECT hash FROM entry WHERE row = 2", [], |row| row.get(0));
    let mut meant: [u8; 32] = meant.expect("its hash");
    read_back(&room.store.db, id, meant).expect("as it was written");
    meant[7] ^= 1;
    let other = read_back(&room.store.db, id, meant);
    assert!(matches!(other, Err(Fault::NotReadBack)), "{other:?}");
}

#[test]
fn a_file_that_changes_what_is_written_to_it_gets_nothing_written() {
    let mut room = Darkroom::new();
    stock(&mut room);
    // A file from elsewhere may hold triggers of its own.
    room.damage(
        "CREATE TRIGGER louder AFTER INSERT ON entry BEGIN \
         INSERT INTO draft VALUES (NEW.row, 'noted', NULL, '{}', ''); \
         UPDATE entry SET note = 'louder' WHERE row = NEW.row; END",
    );
    let before = room.everything();
    room.try_log(Kind::Noted, &[("thing", "f1"), ("text", "quiet")])
        .expect_err("it is not written as it was meant");
    super::assert_same(&room.everything(), &before);
}
