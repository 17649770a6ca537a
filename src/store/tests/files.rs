//! What kinds of files there are to open, and what is said of those that cannot be.

use std::fs::{self, Permissions};
use std::os::unix::fs::{PermissionsExt, symlink};
use std::path::Path;
use std::process::Command;

use rusqlite::Connection;
use tempfile::TempDir;

use super::appending::shelf;
use super::processes::{folder_of_child, in_another_process, without_privileges};
use super::{AppendError, Darkroom, assert_same, now};
use crate::logbook::Kind;
use crate::store::settings::OLDEST_SQLITE;
use crate::store::{Store, StoreError};
use crate::world::Scripted;

fn open(path: &Path) -> Result<Store, StoreError> {
    Store::open(path, &mut Scripted::new(now()))
}

fn create(path: &Path) -> Result<Store, StoreError> {
    Store::create(path, &mut Scripted::new(now()))
}

fn mode(path: &Path) -> u32 {
    let about = fs::metadata(path).expect("it is there");
    about.permissions().mode() & 0o777
}

#[test]
fn sqlite_is_new_enough_not_to_lose_entries() {
    assert!(rusqlite::version_number() >= OLDEST_SQLITE.0);
}

#[test]
fn what_was_written_is_there_after_closing_and_opening() {
    let mut room = Darkroom::new();
    shelf(&mut room);
    let before = room.everything();
    let path = room.path();
    let machine = room.store.machine();
    let Darkroom { folder, store, .. } = room;
    store.close().expect("closed");
    let names = fs::read_dir(folder.path()).expect("the folder").flatten();
    let names: Vec<_> = names.map(|file| file.file_name()).collect();
    assert_eq!(names, ["own.notchbook"], "one file at rest");
    let store = open(&path).expect("opened");
    assert_same(&super::everything(&store.db), &before);
    assert_eq!(store.machine(), machine);
    assert!(!store.is_read_only());
}

#[test]
fn a_connection_is_set_up_to_lose_nothing() {
    let room = Darkroom::new();
    for (pragma, wanted) in [
        ("synchronous", "2"),
        ("fullfsync", "1"),
        ("checkpoint_fullfsync", "1"),
        ("wal_autocheckpoint", "1000"),
        ("busy_timeout", "5000"),
        ("foreign_keys", "1"),
        ("trusted_schema", "0"),
        ("cell_size_check", "1"),
        ("temp_store", "2"),
        ("auto_vacuum", "0"),
    ] {
        let value = room
            .store
            .db
            .pragma_query_value(None, pragma, |row| row.get::<_, i64>(0));
        assert_eq!(value.expect(pragma).to_string(), wanted, "{pragma}");
    }
    let journal = room
        .store
        .db
        .pragma_query_value(None, "journal_mode", |row| row.get::<_, String>(0));
    assert_eq!(journal.expect("journal_mode"), "wal");
    let outside = room.store.db.execute("DELETE FROM words_docsize", []);
    outside.expect_err("the inner tables of the search index are guarded");
}

#[test]
fn files_belong_to_their_user_alone_whatever_the_umask() {
    if let Some(folder) = folder_of_child() {
        let mut room = Darkroom::at(&folder.join("inner").join("own.notchbook"));
        shelf(&mut room);
        for name in ["own.notchbook", "own.notchbook-wal", "own.notchbook-shm"] {
            assert_eq!(mode(&folder.join("inner").join(name)), 0o600, "{name}");
        }
        assert_eq!(mode(&folder.join("inner")), 0o700);
        return;
    }
    for umask in ["000", "022"] {
        let folder = tempfile::tempdir().expect("a folder");
        let shell = Command::new("sh");
        let test = "store::tests::files::files_belong_to_their_user_alone_whatever_the_umask";
        let status = in_another_process(shell, test, folder.path(), |shell, exe| {
            shell
                .arg("-c")
                .arg(format!("umask {umask}; exec \"$0\" \"$@\""))
                .arg(exe);
        })
        .status();
        assert!(status.expect("it ran").success(), "umask {umask}");
        assert!(folder.path().join("inner/own.notchbook").exists());
    }
}

#[test]
fn what_is_not_there_is_said_to_be_missing() {
    let folder = tempfile::tempdir().expect("a folder");
    for path in ["none.notchbook", "no/folder/none.notchbook"] {
        let path = folder.path().join(path);
        let problem = open(&path).expect_err("there is nothing");
        assert!(matches!(problem, StoreError::Missing { .. }), "{problem}");
        let problem = Store::open_read_only(&path).expect_err("there is nothing");
        assert!(matches!(problem, StoreError::Missing { .. }), "{problem}");
        assert!(problem.to_string().contains("none.notchbook"));
    }
    assert_eq!(fs::read_dir(folder.path()).expect("the folder").count(), 0);
}

#[test]
fn what_is_there_already_is_not_created_over() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("letter.txt");
    fs::write(&path, "dear friend").expect("a letter");
    let problem = create(&path).expect_err("it is there");
    assert!(matches!(problem, StoreError::Exists { .. }), "{problem}");
    assert_eq!(fs::read(&path).expect("the letter"), b"dear friend");
}

#[test]
fn what_is_something_else_is_left_as_it_is() {
    let folder = tempfile::tempdir().expect("a folder");
    let letter = folder.path().join("letter.txt");
    fs::write(&letter, "dear friend, ".repeat(100)).expect("a letter");
    let foreign = folder.path().join("foreign.db");
    Connection::open(&foreign)
        .and_then(|db| db.execute_batch("CREATE TABLE entry (id); PRAGMA user_version = 1"))
        .expect("another program's file");
    let half = folder.path().join("half.notchbook");
    let whole = fs::read(&foreign).expect("a file");
    fs::write(&half, &whole[..50]).expect("half a file");
    for path in [&letter, &foreign, &half] {
        let before = fs::read(path).expect("readable");
        for problem in [open(path), Store::open_read_only(path)] {
            let problem = problem.expect_err("not a logbook");
            // Of half a file nobody can say what it was.
            let as_expected = match problem {
                StoreError::NotALogbook { .. } => path != &half,
                StoreError::Damaged { .. } => path == &half,
                _ => false,
            };
            assert!(as_expected, "{}: {problem}", path.display());
        }
        assert_eq!(fs::read(path).expect("readable"), before);
    }
    let problem = open(folder.path()).expect_err("a folder");
    assert!(
        matches!(problem, StoreError::NotALogbook { .. }),
        "{problem}"
    );
}

#[test]
fn a_link_to_a_logbook_is_not_followed_but_one_to_its_folder_is() {
    let room = Darkroom::new();
    let link = room.folder.path().join("link.notchbook");
    symlink(room.path(), &link).expect("a link");
    let problem = open(&link).expect_err("a link");
    assert!(matches!(problem, StoreError::Link { .. }), "{problem}");
    let elsewhere = tempfile::tempdir().expect("a folder");
    let folder = elsewhere.path().join("logbooks");
    symlink(room.folder.path(), &folder).expect("a link");
    let store = open(&folder.join("own.notchbook")).expect("opened");
    assert!(!store.is_read_only());
    let nothing = room.folder.path().join("dangling.notchbook");
    symlink(room.folder.path().join("nowhere"), &nothing).expect("a link");
    create(&nothing).expect_err("nothing is created through a link");
    assert!(!room.folder.path().join("nowhere").exists());
}

#[test]
fn a_name_with_marks_in_it_is_only_a_name() {
    let folder = tempfile::tempdir().expect("a folder");
    for name in ["a?mode=memory", "100%41", "#1", "größe 1", "-x"] {
        let path = folder.path().join(name);
        let store = create(&path).expect(name);
        store.close().expect(name);
        assert!(path.is_file(), "{name}");
        let read_only = super::super::open::read_immutable(&path).expect(name);
        let boxes: i64 = read_only
            .query_row("SELECT count(*) FROM film_box", [], |row| row.get(0))
            .expect(name);
        assert_eq!(boxes, 0);
    }
}

/// A closed logbook in a folder in which nothing can be written.
fn protect(folder: &Path) {
    let path = folder.join("own.notchbook");
    for (path, mode) in [(path.as_path(), 0o444), (folder, 0o555)] {
        fs::set_permissions(path, Permissions::from_mode(mode)).expect("rights are changed");
    }
}

fn unprotect(folder: &TempDir) {
    fs::set_permissions(folder.path(), Permissions::from_mode(0o700)).expect("rights are changed");
}

#[test]
fn a_logbook_that_cannot_be_written_opens_for_reading() {
    if let Some(folder) = folder_of_child() {
        let path = folder.join("own.notchbook");
        let mut room = Darkroom::of(open(&path).expect("it can be read"));
        assert!(room.store.is_read_only());
        assert_eq!(room.count("SELECT count(*) FROM entry"), 3);
        let refused = room.try_log(Kind::HolderAdded, &[("size", "8x10"), ("sides", "2")]);
        let Err(AppendError::Store(problem @ StoreError::ReadOnly { .. })) = refused else {
            panic!("{refused:?}");
        };
        assert!(problem.to_string().contains("own.notchbook"));
        let checked = room.store.check(&room.reference).expect("a check");
        assert_eq!(checked.findings, Vec::new());
        let read_only = Store::open_read_only(&path).expect("it can be read");
        assert!(read_only.is_read_only());
        return;
    }
    let mut room = Darkroom::new();
    shelf(&mut room);
    let Darkroom { folder, store, .. } = room;
    store.close().expect("closed");
    protect(folder.path());
    without_privileges(
        "store::tests::files::a_logbook_that_cannot_be_written_opens_for_reading",
        folder.path(),
    );
    unprotect(&folder);
}

#[test]
fn a_logbook_cut_off_in_writing_on_a_medium_that_cannot_be_written_is_not_misread() {
    if let Some(folder) = folder_of_child() {
        let path = folder.join("own.notchbook");
        let problem = open(&path).expect_err("its last entries are not in the file yet");
        assert!(
            matches!(problem, StoreError::UnfinishedReadOnly { .. }),
            "{problem}"
        );
        assert!(problem.to_string().contains("-wal"), "{problem}");
        return;
    }
    let mut room = Darkroom::new();
    shelf(&mut room);
    // What a power cut leaves: the file and its write-ahead log.
    let folder = tempfile::tempdir().expect("a folder");
    for name in ["own.notchbook", "own.notchbook-wal"] {
        let copy = folder.path().join(name);
        fs::copy(room.folder.path().join(name), &copy).expect("a copy");
        fs::set_permissions(&copy, Permissions::from_mode(0o444)).expect("rights are changed");
    }
    protect(folder.path());
    without_privileges(
        "store::tests::files::a_logbook_cut_off_in_writing_on_a_medium_that_cannot_be_written_is_not_misread",
        folder.path(),
    );
    unprotect(&folder);
    // Where it can be written, nothing is lost.
    fs::set_permissions(
        folder.path().join("own.notchbook"),
        Permissions::from_mode(0o600),
    )
    .and_then(|()| {
        fs::set_permissions(
            folder.path().join("own.notchbook-wal"),
            Permissions::from_mode(0o600),
        )
    })
    .expect("rights are changed");
    let store = open(&folder.path().join("own.notchbook")).expect("opened");
    assert_same(&super::everything(&store.db), &room.everything());
}

#[test]
fn a_file_without_rights_to_it_says_so() {
    if let Some(folder) = folder_of_child() {
        let path = folder.join("own.notchbook");
        for problem in [
            open(&path),
            Store::open_read_only(&path),
            create(&folder.join("new")),
        ] {
            let problem = problem.expect_err("no rights");
            assert!(
                matches!(problem, StoreError::NoPermission { .. }),
                "{problem}"
            );
        }
        return;
    }
    let room = Darkroom::new();
    let Darkroom { folder, store, .. } = room;
    store.close().expect("closed");
    fs::set_permissions(
        folder.path().join("own.notchbook"),
        Permissions::from_mode(0o000),
    )
    .expect("rights are changed");
    fs::set_permissions(folder.path(), Permissions::from_mode(0o555)).expect("rights are changed");
    without_privileges(
        "store::tests::files::a_file_without_rights_to_it_says_so",
        folder.path(),
    );
    unprotect(&folder);
}

/// A small disk of its own, or nothing where none can be had.
struct SmallDisk(TempDir);

impl SmallDisk {
    fn new() -> Option<SmallDisk> {
        let folder = tempfile::tempdir().expect("a folder");
        let mounted = Command::new("mount")
            .args(["-t", "tmpfs", "-o", "size=1m", "tmpfs"])
            .arg(folder.path())
            .output();
        mounted
            .is_ok_and(|output| output.status.success())
            .then_some(SmallDisk(folder))
    }
}

impl Drop for SmallDisk {
    fn drop(&mut self) {
        let _ = Command::new("umount").arg(self.0.path()).status();
    }
}

#[test]
fn a_full_disk_is_told_at_once_and_writing_goes_on_when_there_is_space() {
    let disk = SmallDisk::new();
    let mut room = match &disk {
        Some(disk) => Darkroom::at(&disk.0.path().join("own.notchbook")),
        None => Darkroom::new(),
    };
    shelf(&mut room);
    if disk.is_none() {
        let pages = room.count("SELECT page_count FROM pragma_page_count");
        room.store
            .db
            .pragma_update(None, "max_page_count", pages + 20)
            .expect("a limit");
    }
    let long = "a long remark ".repeat(1000);
    let mut written = room.count("SELECT count(*) FROM entry");
    let problem = loop {
        match room.try_log(Kind::Noted, &[("thing", "f1"), ("text", &long)]) {
            Ok(_) => written += 1,
            Err(problem) => break problem,
        }
        assert!(written < 1000, "a disk of 1 MB is never full");
    };
    assert!(
        matches!(problem, AppendError::Store(StoreError::DiskFull { .. })),
        "{problem:?}"
    );
    assert_eq!(room.count("SELECT count(*) FROM entry"), written);
    let checked = room.store.check(&room.reference).expect("a check");
    assert_eq!(checked.findings, Vec::new());
    match &disk {
        Some(disk) => {
            let more = Command::new("mount")
                .args(["-o", "remount,size=8m"])
                .arg(disk.0.path())
                .status();
            assert!(more.expect("it ran").success());
        }
        None => room
            .store
            .db
            .pragma_update(None, "max_page_count", 1_000_000)
            .expect("no limit"),
    }
    room.log(Kind::Noted, &[("thing", "f1"), ("text", &long)]);
    assert_eq!(room.count("SELECT count(*) FROM entry"), written + 1);
    drop(room);
}

#[test]
fn creating_on_a_full_disk_leaves_nothing_behind() {
    let Some(disk) = SmallDisk::new() else {
        // Without a disk of its own, a folder that is a file stands for a place where nothing can
        // be created.
        let folder = tempfile::tempdir().expect("a folder");
        let file = folder.path().join("file");
        fs::write(&file, "x").expect("a file");
        create(&file.join("own.notchbook")).expect_err("no place");
        return;
    };
    let filler = vec![0_u8; 1_040_000];
    let _ = fs::write(disk.0.path().join("filler"), filler);
    let path = disk.0.path().join("own.notchbook");
    let problem = create(&path).expect_err("no space");
    assert!(
        matches!(problem, StoreError::DiskFull { .. }),
        "{problem:?}"
    );
    assert!(!path.exists());
}

#[test]
fn drafts_are_kept_in_the_place_of_the_one_with_the_same_name_and_dropped() {
    let mut room = Darkroom::new();
    let mut draft = crate::logbook::Draft::new(Kind::Exposed);
    draft.set("time", "4.5 s, or was it 6");
    let mut saved = crate::store::SavedDraft {
        name: "expose h1a".to_owned(),
        about: Some("H-01 A".to_owned()),
        draft,
        changed: now(),
    };
    room.store.save_draft(&saved).expect("kept");
    saved.draft.set("time", "6 s");
    saved.changed += chrono::TimeDelta::minutes(1);
    room.store.save_draft(&saved).expect("kept");
    let mut other = saved.clone();
    other.name = "load".to_owned();
    other.changed += chrono::TimeDelta::minutes(1);
    room.store.save_draft(&other).expect("kept");
    assert_eq!(
        room.store.drafts().expect("readable"),
        [other, saved.clone()]
    );
    room.store.drop_draft("load").expect("dropped");
    room.store.drop_draft("load").expect("dropped already");
    assert_eq!(room.store.drafts().expect("readable"), [saved]);
}
