//! Creating, opening and closing a logbook file.
//!
//! A new file belongs to its user alone (mode 0600, in a folder of mode 0700). A file is looked at
//! before anything in it is changed: what is not a logbook, or is one of a newer version, is left
//! exactly as it was. A logbook on a medium that cannot be written opens for reading.

use std::fs::{DirBuilder, File, OpenOptions};
use std::os::unix::fs::{DirBuilderExt, OpenOptionsExt};
use std::path::{Path, PathBuf};
use std::time::Duration;

use rusqlite::config::DbConfig;
use rusqlite::{Connection, ErrorCode, OpenFlags, OptionalExtension};
use uuid::Uuid;

use super::error::{Fault, StoreError};
use super::settings::{self, Identity, OLDEST_SQLITE, Wait};
use super::{Store, migrate};
use crate::logbook::MachineId;
use crate::world::World;

impl Store {
    /// Creates a new logbook, and the folder it lies in if need be.
    ///
    /// # Errors
    /// When the file is there already, the folder cannot be written, or the disk is full. What was
    /// begun is removed again.
    pub fn create(path: &Path, world: &mut dyn World) -> Result<Store, StoreError> {
        if let Some(folder) = path
            .parent()
            .filter(|folder| !folder.as_os_str().is_empty())
        {
            DirBuilder::new()
                .recursive(true)
                .mode(0o700)
                .create(folder)
                .map_err(|source| StoreError::from_io(folder, source))?;
        }
        let path = real_path(path)?;
        drop(create_private(&path)?);
        let begun = open_for_writing(&path, world).and_then(|store| {
            sync_folder(&path)?;
            Ok(store)
        });
        if begun.is_err() {
            for tail in ["", "-wal", "-shm"] {
                let mut name = path.clone().into_os_string();
                name.push(tail);
                // It was created a moment ago and holds nothing; if it cannot be removed, the
                // error that is reported matters more.
                let _ = std::fs::remove_file(name);
            }
        }
        begun
    }

    /// Opens a logbook, for reading only if its medium cannot be written. A file of an older
    /// version is backed up beside itself and brought up to date.
    ///
    /// # Errors
    /// When there is no such file, it is not a logbook, it is of a newer version, or it cannot be
    /// read. Nothing is changed then.
    pub fn open(path: &Path, world: &mut dyn World) -> Result<Store, StoreError> {
        let path = existing(path)?;
        match open_for_writing(&path, world) {
            Err(StoreError::ReadOnly { .. } | StoreError::NoPermission { .. }) => {
                open_for_reading(&path)
            }
            Err(StoreError::Disk { source, .. }) if cannot_open(&source) => open_for_reading(&path),
            opened => opened,
        }
    }

    /// Opens a logbook for reading only. A newer version's logbook can be opened so.
    ///
    /// # Errors
    /// When there is no such file, it is not a logbook, or it cannot be read.
    pub fn open_read_only(path: &Path) -> Result<Store, StoreError> {
        open_for_reading(&existing(path)?)
    }

    /// Lets `work` write many acts without waiting for the disk after each, and hands everything to
    /// the disk at the end. A power cut meanwhile may leave a damaged file: only for a new file
    /// that can be made again, as the demo is.
    ///
    /// # Errors
    /// When the file cannot be written.
    pub(crate) fn without_waiting<T>(
        &mut self,
        work: impl FnOnce(&mut Store) -> T,
    ) -> Result<T, StoreError> {
        self.read(|db| Ok(settings::commits_wait(db, Wait::Nothing)?))?;
        let done = work(self);
        self.read(|db| {
            settings::commits_wait(db, Wait::Disk)?;
            Ok(db.query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(()))?)
        })?;
        Ok(done)
    }

    /// Closes the logbook and leaves one file behind, without a write-ahead log beside it.
    ///
    /// # Errors
    /// When what was written cannot be brought from the write-ahead log into the file. It is safe
    /// there, and the next opening brings it in.
    pub fn close(self) -> Result<(), StoreError> {
        let Store {
            db,
            path,
            read_only,
            ..
        } = self;
        let sorted = |source| StoreError::sorted(&path, source);
        if !read_only {
            // Whoever else has the file open brings in the rest; leaving does not wait for that.
            db.busy_timeout(Duration::ZERO)
                .and_then(|()| db.query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(())))
                .map_err(sorted)?;
        }
        db.close().map_err(|(_, source)| sorted(source))
    }
}

/// The path with every link in its folder followed, so that only a link of the file itself is left
/// to be refused.
fn real_path(path: &Path) -> Result<PathBuf, StoreError> {
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let name = path.file_name().ok_or_else(|| StoreError::NotALogbook {
        path: path.to_owned(),
    })?;
    let folder = folder
        .canonicalize()
        .map_err(|source| StoreError::from_io(path, source))?;
    Ok(folder.join(name))
}

/// The real path of a file that must be there already.
fn existing(path: &Path) -> Result<PathBuf, StoreError> {
    let path = real_path(path)?;
    let about = path
        .symlink_metadata()
        .map_err(|source| StoreError::from_io(&path, source))?;
    if about.is_symlink() {
        return Err(StoreError::Link { path });
    }
    if !about.is_file() {
        return Err(StoreError::NotALogbook { path });
    }
    Ok(path)
}

/// Creates an empty file that only its user can read, and fails if anything has its name.
pub(crate) fn create_private(path: &Path) -> Result<File, StoreError> {
    OpenOptions::new()
        .write(true)
        .create_new(true)
        .mode(0o600)
        .open(path)
        .map_err(|source| StoreError::from_io(path, source))
}

/// Makes sure that a new file's name survives a power cut.
pub(super) fn sync_folder(path: &Path) -> Result<(), StoreError> {
    let folder = path.parent().unwrap_or(Path::new("/"));
    File::open(folder)
        .and_then(|folder| folder.sync_all())
        .map_err(|source| StoreError::from_io(folder, source))
}

/// A connection to a file that is there, without following a link.
pub(crate) fn connect(path: &Path, access: OpenFlags) -> Result<Connection, StoreError> {
    if rusqlite::version_number() < OLDEST_SQLITE.0 {
        return Err(StoreError::OldSqlite {
            path: path.to_owned(),
            found: rusqlite::version(),
            wanted: OLDEST_SQLITE.1,
        });
    }
    let flags = access | OpenFlags::SQLITE_OPEN_NOFOLLOW | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let name = if access.contains(OpenFlags::SQLITE_OPEN_URI) {
        immutable_uri(path)
    } else {
        path.to_owned()
    };
    Connection::open_with_flags(name, flags).map_err(|source| {
        let denied = File::open(path)
            .err()
            .filter(|error| error.kind() == std::io::ErrorKind::PermissionDenied);
        match denied {
            Some(source) => StoreError::from_io(path, source),
            None => StoreError::sorted(path, source),
        }
    })
}

fn open_for_writing(path: &Path, world: &mut dyn World) -> Result<Store, StoreError> {
    let sorted = |source| StoreError::sorted(path, source);
    let mut db = connect(path, OpenFlags::SQLITE_OPEN_READ_WRITE)?;
    // Until it is known to be ours, closing it must not even tidy up.
    db.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, true)
        .and_then(|_| settings::secure(&db))
        .map_err(sorted)?;
    match settings::identity(&db).map_err(sorted)? {
        Identity::Logbook(found) if found > migrate::NEWEST => {
            return Err(newer(path, found));
        }
        Identity::Other => {
            return Err(StoreError::NotALogbook {
                path: path.to_owned(),
            });
        }
        Identity::Blank | Identity::Logbook(_) => {}
    }
    if db.is_readonly("main").map_err(sorted)? {
        return Err(StoreError::ReadOnly {
            path: path.to_owned(),
        });
    }
    db.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, false)
        .and_then(|_| settings::for_writing(&db))
        .map_err(sorted)?;
    migrate::bring_up_to_date(&mut db, path, migrate::STEPS)?;
    settings::guard(&mut db).map_err(sorted)?;
    let machine = own_machine(&db, world).map_err(|fault| fault.at(path))?;
    Ok(Store {
        db,
        path: path.to_owned(),
        machine,
        read_only: false,
    })
}

fn open_for_reading(path: &Path) -> Result<Store, StoreError> {
    let db = match read(path) {
        Err(StoreError::ReadOnly { .. }) => read_immutable(path),
        Err(StoreError::Disk { source, .. }) if cannot_open(&source) => read_immutable(path),
        opened => opened,
    }?;
    let sorted = |source| StoreError::sorted(path, source);
    settings::for_reading(&db).map_err(sorted)?;
    match settings::identity(&db).map_err(sorted)? {
        Identity::Logbook(form) if form < migrate::NEWEST => {
            return Err(StoreError::OlderReadOnly {
                path: path.to_owned(),
            });
        }
        Identity::Logbook(_) => {}
        Identity::Blank | Identity::Other => {
            return Err(StoreError::NotALogbook {
                path: path.to_owned(),
            });
        }
    }
    let machine = machine(&db).map_err(|fault| fault.at(path))?;
    Ok(Store {
        db,
        path: path.to_owned(),
        machine: machine.unwrap_or(MachineId(Uuid::nil())),
        read_only: true,
    })
}

/// Reads through the write-ahead log, as long as the medium lets its index be made.
fn read(path: &Path) -> Result<Connection, StoreError> {
    let db = connect(path, OpenFlags::SQLITE_OPEN_READ_ONLY)?;
    settings::secure(&db)
        .and_then(|()| settings::identity(&db))
        .map_err(|source| StoreError::sorted(path, source))?;
    Ok(db)
}

/// Reads a file that nobody can change, which is right only if nothing is left in its write-ahead
/// log.
pub(super) fn read_immutable(path: &Path) -> Result<Connection, StoreError> {
    let mut log = path.as_os_str().to_owned();
    log.push("-wal");
    if std::fs::symlink_metadata(&log).is_ok_and(|about| about.len() > 0) {
        return Err(StoreError::UnfinishedReadOnly {
            path: path.to_owned(),
        });
    }
    let db = connect(
        path,
        OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_URI,
    )?;
    settings::secure(&db).map_err(|source| StoreError::sorted(path, source))?;
    Ok(db)
}

/// The name under which SQLite opens a file that nobody can change. Every byte that could mean
/// something in such a name is written as its number.
fn immutable_uri(path: &Path) -> PathBuf {
    use std::fmt::Write as _;
    use std::os::unix::ffi::OsStrExt;
    let mut uri = String::from("file://");
    for byte in path.as_os_str().as_bytes() {
        match byte {
            b'/' | b'-' | b'_' | b'.' | b'~' => uri.push(char::from(*byte)),
            byte if byte.is_ascii_alphanumeric() => uri.push(char::from(*byte)),
            byte => {
                // Writing to a string cannot fail.
                let _ = write!(uri, "%{byte:02X}");
            }
        }
    }
    uri.push_str("?immutable=1");
    PathBuf::from(uri)
}

fn cannot_open(source: &rusqlite::Error) -> bool {
    source.sqlite_error_code() == Some(ErrorCode::CannotOpen)
}

fn newer(path: &Path, found: i64) -> StoreError {
    StoreError::Newer {
        path: path.to_owned(),
        found,
        known: migrate::NEWEST,
    }
}

const MACHINE: &str = "machine";

fn machine(db: &Connection) -> Result<Option<MachineId>, Fault> {
    let text: Option<String> = db
        .query_row(
            "SELECT value FROM settings WHERE name = ?1",
            [MACHINE],
            |row| row.get(0),
        )
        .optional()?;
    text.map(|text| {
        Uuid::parse_str(&text)
            .map(MachineId)
            .map_err(|_| Fault::Damaged(format!("\"{text}\" is not the id of a machine")))
    })
    .transpose()
}

/// The machine entries are written under, made when the file is new.
fn own_machine(db: &Connection, world: &mut dyn World) -> Result<MachineId, Fault> {
    if let Some(machine) = machine(db)? {
        return Ok(machine);
    }
    db.execute(
        "INSERT INTO settings (name, value) VALUES (?1, ?2) ON CONFLICT DO NOTHING",
        [MACHINE, &world.fresh_id().to_string()],
    )?;
    machine(db)?.ok_or_else(|| Fault::Damaged("it has no machine id".to_owned()))
}
