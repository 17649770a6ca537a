//! Other processes: two that write to one file, one that is killed, and one without privileges.
//!
//! A test that needs another process runs itself again in it, with the folder to work in as a
//! variable of its environment.

use std::io::{BufRead, BufReader};
use std::os::unix::fs::{MetadataExt, PermissionsExt};
use std::os::unix::process::CommandExt;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Duration;

use rusqlite::Connection;

use super::appending::shelf;
use super::{Darkroom, now};
use crate::logbook::Kind;
use crate::store::{AppendError, Store, StoreError};
use crate::world::{Scripted, System};

const FOLDER: &str = "NOTCHBOOK_TEST_FOLDER";

/// The folder to work in, in a test's other process.
pub(super) fn folder_of_child() -> Option<PathBuf> {
    std::env::var_os(FOLDER).map(PathBuf::from)
}

/// A command that runs one test in another process.
pub(super) fn in_another_process(
    mut command: Command,
    test: &str,
    folder: &Path,
    before: impl FnOnce(&mut Command, &Path),
) -> Command {
    before(
        &mut command,
        &std::env::current_exe().expect("this program"),
    );
    command
        .args(["--exact", test, "--nocapture", "--test-threads=1"])
        .env(FOLDER, folder);
    command
}

fn child(test: &str, folder: &Path) -> Command {
    let exe = std::env::current_exe().expect("this program");
    in_another_process(Command::new(exe), test, folder, |_, _| {})
}

/// Runs one test in a process that may not do more than any user may, for the rights of files mean
/// nothing to the administrator.
pub(super) fn without_privileges(test: &str, folder: &Path) {
    const NOBODY: u32 = 65534;
    let me = tempfile::NamedTempFile::new().expect("a file");
    let me = me.as_file().metadata().expect("its owner").uid();
    if me != 0 {
        let status = child(test, folder).status().expect("it ran");
        assert!(status.success(), "{test}");
        return;
    }
    // The program may lie where nobody else may go, so it is copied.
    let place = tempfile::tempdir().expect("a folder");
    let copy = place.path().join("test");
    std::fs::copy(std::env::current_exe().expect("this program"), &copy).expect("a copy");
    for path in [place.path(), &copy] {
        let rights = std::fs::Permissions::from_mode(0o755);
        std::fs::set_permissions(path, rights).expect("rights are changed");
    }
    let mut command = Command::new(&copy);
    command.uid(NOBODY).gid(NOBODY).current_dir("/");
    let mut command = in_another_process(command, test, folder, |_, _| {});
    let status = command.status().expect("it ran");
    assert!(status.success(), "{test}");
}

#[test]
fn two_processes_that_write_at_once_refuse_and_lose_nothing() {
    const EACH: usize = 200;
    let remark = |room: &mut Darkroom<System>, who: &str| {
        for nth in 0..EACH {
            let text = format!("{who} {nth}");
            room.log(Kind::Noted, &[("thing", "f1"), ("text", &text)]);
        }
    };
    if let Some(folder) = folder_of_child() {
        let store = Store::open(&folder.join("own.notchbook"), &mut System);
        let mut room = Darkroom::in_world(store.expect("opened"), System);
        remark(&mut room, "the other");
        return;
    }
    let mut room = Darkroom::new();
    shelf(&mut room);
    let version = room.store.data_version().expect("a number");
    let test = "store::tests::processes::two_processes_that_write_at_once_refuse_and_lose_nothing";
    let mut other = child(test, room.folder.path()).spawn().expect("it runs");
    let store = Store::open(&room.path(), &mut System).expect("opened");
    remark(&mut Darkroom::in_world(store, System), "the one");
    assert!(other.wait().expect("it ran").success());
    assert_ne!(room.store.data_version().expect("a number"), version);
    let notes = "SELECT count(DISTINCT body) FROM entry WHERE kind = 'noted'";
    assert_eq!(room.count(notes), 2 * EACH as i64);
    let checked = room.store.check(&room.reference).expect("a check");
    assert_eq!(checked.findings, Vec::new());
}

#[test]
fn a_writer_that_does_not_let_go_is_named_and_afterwards_writing_goes_on() {
    let mut room = Darkroom::new();
    shelf(&mut room);
    let other = Connection::open(room.path()).expect("opened");
    other.execute_batch("BEGIN IMMEDIATE").expect("its turn");
    room.store
        .db
        .busy_timeout(Duration::from_millis(20))
        .expect("impatience");
    let refused = room.try_log(Kind::Noted, &[("thing", "f1"), ("text", "now")]);
    let Err(AppendError::Store(problem @ StoreError::Locked { .. })) = refused else {
        panic!("{refused:?}");
    };
    assert!(problem.to_string().contains("own.notchbook"), "{problem}");
    assert_eq!(room.count("SELECT count(*) FROM entry"), 3);
    other.execute_batch("ROLLBACK").expect("it lets go");
    room.log(Kind::Noted, &[("thing", "f1"), ("text", "now")]);
}

#[test]
fn a_process_killed_while_it_writes_loses_nothing_it_had_reported() {
    if let Some(folder) = folder_of_child() {
        let store = Store::open(&folder.join("own.notchbook"), &mut System);
        let mut room = Darkroom::in_world(store.expect("opened"), System);
        for nth in 0.. {
            let text = format!("remark {nth}");
            let row = room.log(Kind::Noted, &[("thing", "f1"), ("text", &text)]);
            println!("\nwrote {row} {text}");
        }
    }
    let mut room = Darkroom::new();
    shelf(&mut room);
    let test =
        "store::tests::processes::a_process_killed_while_it_writes_loses_nothing_it_had_reported";
    let mut reported = 3;
    for round in 1..=8 {
        let mut writer = child(test, room.folder.path())
            .stdout(Stdio::piped())
            .spawn()
            .expect("it runs");
        let mut output = BufReader::new(writer.stdout.take().expect("its output")).lines();
        let mut lines = Vec::new();
        while lines.len() < round * 3 {
            let line = output.next().expect("it goes on").expect("a line");
            lines.extend(line.strip_prefix("wrote ").map(str::to_owned));
        }
        writer.kill().expect("killed");
        writer.wait().expect("gone");
        lines.extend(
            output
                .map_while(Result::ok)
                .filter_map(|line| line.strip_prefix("wrote ").map(str::to_owned)),
        );
        let mut after = Store::open(&room.path(), &mut Scripted::new(now())).map(Darkroom::of);
        let after = after.as_mut().expect("opened");
        for line in lines {
            let (row, text) = line.split_once(' ').expect("a row and a text");
            let row: i64 = row.parse().expect("a number");
            let body = format!("SELECT body FROM entry WHERE row = {row}");
            assert!(after.text(&body).contains(text), "#{row} {text}");
            reported = reported.max(row);
        }
        // One more may have been written than was reported, never one less.
        let there = after.count("SELECT count(*) FROM entry");
        assert!(
            there == reported || there == reported + 1,
            "{there} of {reported}"
        );
        reported = there;
        let checked = after.store.check(&after.reference).expect("a check");
        assert_eq!(checked.findings, Vec::new());
    }
    assert_eq!(room.count("SELECT count(*) FROM entry"), reported);
}
