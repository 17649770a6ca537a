//! Brings a file from the form an older version wrote to the form of this one.
//!
//! The forms are numbered SQL files; the number of the last one applied stands in the file's
//! header. All steps are taken in one transaction, so a file is of the old form or of the new one
//! and never between. Before the first step a verified copy of the old file is put beside it.

use std::path::{Path, PathBuf};

use rusqlite::backup::{Backup, StepResult};
use rusqlite::{Connection, OpenFlags, TransactionBehavior};

use super::error::StoreError;
use super::open::{connect, create_private, sync_folder};
use super::settings::{self, APPLICATION_ID};

/// The SQL that leads from each form to the next; the first one makes a new file.
pub(crate) const STEPS: &[&str] = &[
    include_str!("../../migrations/0001_logbook.sql"),
    include_str!("../../migrations/0002_figures.sql"),
    include_str!("../../migrations/0003_darkroom.sql"),
];

/// The form this version writes.
pub(crate) const NEWEST: i64 = STEPS.len() as i64;

/// How much is copied in one step.
const PAGES_AT_A_TIME: i32 = 1024;

/// Takes every step that has not been taken yet.
pub(crate) fn bring_up_to_date(
    db: &mut Connection,
    path: &Path,
    steps: &[&str],
) -> Result<(), StoreError> {
    let sorted = |source| StoreError::sorted(path, source);
    let form_of = |db: &Connection| -> Result<i64, StoreError> {
        db.pragma_query_value(None, "user_version", |row| row.get(0))
            .map_err(sorted)
    };
    // A file that is up to date is opened without waiting for whoever writes to it.
    if usize::try_from(form_of(db)?).is_ok_and(|form| form >= steps.len()) {
        return Ok(());
    }
    let change = db
        .transaction_with_behavior(TransactionBehavior::Immediate)
        .map_err(sorted)?;
    let form = form_of(&change)?;
    let taken = usize::try_from(form).unwrap_or(0);
    let Some(missing @ [_, ..]) = steps.get(taken..) else {
        return Ok(());
    };
    if taken > 0 {
        back_up(path, form)?;
    }
    for step in missing {
        change.execute_batch(step).map_err(sorted)?;
    }
    change
        .pragma_update(None, "application_id", APPLICATION_ID)
        .and_then(|()| change.pragma_update(None, "user_version", steps.len() as i64))
        .and_then(|()| change.commit())
        .map_err(sorted)
}

/// Copies the file to a new one beside it and makes sure that the copy is whole. The caller holds
/// the right to write, so nothing changes meanwhile; a connection that is about to write cannot be
/// copied from, so another one reads.
fn back_up(path: &Path, form: i64) -> Result<(), StoreError> {
    let (copy, file) = create_beside(path, form)?;
    let sorted = |source| StoreError::sorted(&copy, source);
    let from = connect(path, OpenFlags::SQLITE_OPEN_READ_ONLY)?;
    let mut to = connect(&copy, OpenFlags::SQLITE_OPEN_READ_WRITE)?;
    settings::secure(&from)
        .map_err(|source| StoreError::sorted(path, source))
        .and_then(|()| settings::secure(&to).map_err(sorted))?;
    let backup = Backup::new(&from, &mut to).map_err(sorted)?;
    loop {
        match backup.step(PAGES_AT_A_TIME).map_err(sorted)? {
            StepResult::Done => break,
            StepResult::More => {}
            _ => {
                let path = path.to_owned();
                return Err(StoreError::Locked { path });
            }
        }
    }
    drop(backup);
    let count = |db: &Connection| -> rusqlite::Result<i64> {
        db.query_row("SELECT count(*) FROM entry", [], |row| row.get(0))
    };
    let wanted = count(&from).map_err(|source| StoreError::sorted(path, source))?;
    let found = count(&to).map_err(sorted)?;
    let mut problems = super::check::structure(&to).map_err(|fault| fault.at(&copy))?;
    problems.extend(super::check::hashes(&to).map_err(|fault| fault.at(&copy))?);
    if wanted != found || !problems.is_empty() {
        let what = match problems.first() {
            Some(problem) => problem.to_string(),
            None => format!("{found} of {wanted} entries"),
        };
        return Err(StoreError::Damaged { path: copy, what });
    }
    to.close().map_err(|(_, source)| sorted(source))?;
    file.sync_all()
        .map_err(|source| StoreError::from_io(&copy, source))?;
    sync_folder(&copy)
}

/// Creates an empty file beside the logbook for its copy, under the first free name.
fn create_beside(path: &Path, form: i64) -> Result<(PathBuf, std::fs::File), StoreError> {
    for attempt in 1.. {
        let mut name = path.file_name().unwrap_or_default().to_owned();
        name.push(if attempt == 1 {
            format!(".form-{form}.backup")
        } else {
            format!(".form-{form}-{attempt}.backup")
        });
        let copy = path.with_file_name(name);
        match create_private(&copy) {
            Err(StoreError::Exists { .. }) => {}
            created => return created.map(|file| (copy, file)),
        }
    }
    Err(StoreError::Exists {
        path: path.to_owned(),
    })
}
