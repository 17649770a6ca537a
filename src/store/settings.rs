//! How a connection is set up, and what marks a file as a logbook.
//!
//! The journal is a write-ahead log and every commit waits for the disk, so that an entry shown as
//! saved survives a power cut; writers wait for each other instead of failing; the schema in a file
//! is trusted with nothing.

use std::time::Duration;

use rusqlite::Connection;
use rusqlite::config::DbConfig;
use rusqlite::hooks::{AuthAction, AuthContext, Authorization};

/// What stands in the file's header to mark it as a logbook: "Ntch".
pub(crate) const APPLICATION_ID: i32 = 0x4E74_6368;

/// The oldest SQLite that does not lose entries when a write-ahead log is reset.
pub(crate) const OLDEST_SQLITE: (i32, &str) = (3_051_003, "3.51.3");

/// How long a writer waits for another one.
pub(super) const PATIENCE: Duration = Duration::from_secs(5);

/// How many statements are kept ready: all that the acts of a day need.
const STATEMENTS: usize = 256;

/// Room for the pages that a session writes and lists, in kilobytes.
pub(crate) const SESSION: i64 = 8_000;

/// Room for the pages of a whole logbook that is made again or taken in: without it, what does not
/// fit is written and read back over and over.
pub(crate) const WHOLE: i64 = 64_000;

/// Sets how many kilobytes of pages are held in memory.
pub(crate) fn room_for_pages(db: &Connection, kilobytes: i64) -> rusqlite::Result<()> {
    db.pragma_update(None, "cache_size", -kilobytes)
}

/// What holds for every connection, for reading or writing.
pub(crate) fn secure(db: &Connection) -> rusqlite::Result<()> {
    db.set_db_config(DbConfig::SQLITE_DBCONFIG_DEFENSIVE, true)?;
    db.set_db_config(DbConfig::SQLITE_DBCONFIG_TRUSTED_SCHEMA, false)?;
    db.set_db_config(DbConfig::SQLITE_DBCONFIG_DQS_DML, false)?;
    db.set_db_config(DbConfig::SQLITE_DBCONFIG_DQS_DDL, false)?;
    db.set_db_config(DbConfig::SQLITE_DBCONFIG_WRITABLE_SCHEMA, false)?;
    // One plan for each statement, whatever it is asked for: nothing is planned twice.
    db.set_db_config(DbConfig::SQLITE_DBCONFIG_ENABLE_QPSG, true)?;
    db.busy_timeout(PATIENCE)?;
    db.set_prepared_statement_cache_capacity(STATEMENTS);
    db.pragma_update(None, "foreign_keys", true)?;
    db.pragma_update(None, "cell_size_check", true)?;
    db.pragma_update(None, "mmap_size", 0)?;
    room_for_pages(db, SESSION)?;
    db.pragma_update(None, "temp_store", "MEMORY")
}

/// What holds for a connection that writes.
pub(crate) fn for_writing(db: &Connection) -> rusqlite::Result<()> {
    db.pragma_update(None, "journal_mode", "WAL")?;
    commits_wait(db, Wait::Disk)?;
    db.pragma_update(None, "fullfsync", true)?;
    db.pragma_update(None, "checkpoint_fullfsync", true)?;
    db.pragma_update(None, "wal_autocheckpoint", 1000)
}

/// What a commit waits for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Wait {
    /// Until the disk has it: it survives a power cut.
    Disk,
    /// For nothing, but the order of what reaches the disk is kept: a power cut may take the last
    /// commits of this kind, and only these.
    Order,
    /// For nothing at all: a power cut may damage the file.
    Nothing,
}

/// Says what commits wait for from now on. Set outside a transaction.
pub(crate) fn commits_wait(db: &Connection, wait: Wait) -> rusqlite::Result<()> {
    let synchronous = match wait {
        Wait::Disk => "FULL",
        Wait::Order => "NORMAL",
        Wait::Nothing => "OFF",
    };
    db.pragma_update(None, "synchronous", synchronous)
}

/// Forbids a connection that writes to change or remove an entry or what protects it, or to reach
/// for another file. To be set once the file is of the newest form.
pub(crate) fn guard(db: &mut Connection) -> rusqlite::Result<()> {
    db.authorizer(Some(|asked: AuthContext<'_>| match asked.action {
        AuthAction::Update { table_name, .. } | AuthAction::Delete { table_name }
            if table_name == "entry" =>
        {
            Authorization::Deny
        }
        AuthAction::DropTable { .. }
        | AuthAction::DropTrigger { .. }
        | AuthAction::AlterTable { .. }
        | AuthAction::Attach { .. } => Authorization::Deny,
        _ => Authorization::Allow,
    }))
}

/// What holds for a connection that only reads: no trigger or view of the file is ever run.
pub(crate) fn for_reading(db: &Connection) -> rusqlite::Result<()> {
    db.set_db_config(DbConfig::SQLITE_DBCONFIG_ENABLE_TRIGGER, false)?;
    db.set_db_config(DbConfig::SQLITE_DBCONFIG_ENABLE_VIEW, false)?;
    db.pragma_update(None, "query_only", true)
}

/// What a file says it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Identity {
    /// Nothing has been written to it yet.
    Blank,
    /// A logbook of this schema number.
    Logbook(i64),
    /// Something else.
    Other,
}

/// Reads what a file says it is.
pub(crate) fn identity(db: &Connection) -> rusqlite::Result<Identity> {
    let tables: i64 = db.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))?;
    let application: i32 = db.pragma_query_value(None, "application_id", |row| row.get(0))?;
    let version: i64 = db.pragma_query_value(None, "user_version", |row| row.get(0))?;
    Ok(match (application, tables, version) {
        (APPLICATION_ID, _, version) => Identity::Logbook(version),
        (0, 0, 0) => Identity::Blank,
        _ => Identity::Other,
    })
}
