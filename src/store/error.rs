//! What can go wrong with a logbook file, and what to do then.
//!
//! Every variant names the file and a next step. SQLite's own errors are sorted into these by
//! [`StoreError::sorted`]; its words are kept as the source, for those who look deeper.

use std::path::{Path, PathBuf};

use crate::logbook::Refusal;

/// A logbook file could not be read or written.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum StoreError {
    /// There is no such file.
    #[error("there is no logbook at {}: check the name, or create one there", .path.display())]
    Missing {
        /// The file.
        path: PathBuf,
    },
    /// A file that would be created is there already.
    #[error("{} is there already and is left as it is: open it, or choose another name", .path.display())]
    Exists {
        /// The file.
        path: PathBuf,
    },
    /// The file is something else.
    #[error("{} is not a logbook: choose another file; nothing in it was changed", .path.display())]
    NotALogbook {
        /// The file.
        path: PathBuf,
    },
    /// The file was written by a newer version of the program.
    #[error(
        "{} is of form {found} and this version knows forms up to {known}: use a newer version, or open it read-only; nothing in it was changed",
        .path.display()
    )]
    Newer {
        /// The file.
        path: PathBuf,
        /// Its schema number.
        found: i64,
        /// The highest number this version knows.
        known: i64,
    },
    /// The file was written by an older version and cannot be brought up to date where it is.
    #[error(
        "{} was written by an older version and is on a medium that cannot be written: copy it to a folder you may write to and open it there",
        .path.display()
    )]
    OlderReadOnly {
        /// The file.
        path: PathBuf,
    },
    /// The file is a symbolic link.
    #[error("{} is a link to another file: open the file it points to by its own name", .path.display())]
    Link {
        /// The link.
        path: PathBuf,
    },
    /// Something was to be written to a logbook that is open for reading only.
    #[error(
        "{} is open for reading only: nothing was written; copy it to a folder you may write to, or remove the write protection",
        .path.display()
    )]
    ReadOnly {
        /// The file.
        path: PathBuf,
    },
    /// The last writer was cut off, and the medium does not allow what it left behind to be put in
    /// order.
    #[error(
        "{} was not closed properly and is on a medium that cannot be written: copy it together with {}-wal to a folder you may write to and open it there",
        .path.display(),
        .path.display()
    )]
    UnfinishedReadOnly {
        /// The file.
        path: PathBuf,
    },
    /// Rights are missing.
    #[error("no permission for {}: ask for the rights to it, or choose another place", .path.display())]
    NoPermission {
        /// The file or folder.
        path: PathBuf,
        /// What the system said.
        source: std::io::Error,
    },
    /// The disk is full.
    #[error(
        "the disk is full and {} could not grow: nothing was written; free some space and try again",
        .path.display()
    )]
    DiskFull {
        /// The file.
        path: PathBuf,
    },
    /// Another program holds the file.
    #[error(
        "{} is in use by another program that does not let go: finish what it is doing (a merge, a back-up) and try again; nothing was written",
        .path.display()
    )]
    Locked {
        /// The file.
        path: PathBuf,
    },
    /// The file is damaged.
    #[error(
        "{} is damaged ({what}): make a copy of it now, run check on it, and go on with the newest back-up",
        .path.display()
    )]
    Damaged {
        /// The file.
        path: PathBuf,
        /// Where.
        what: String,
    },
    /// What was written did not read back the same.
    #[error(
        "an entry did not read back from {} as it was written, so nothing was written: try again, and if it happens again check the disk and the memory of this machine",
        .path.display()
    )]
    NotReadBack {
        /// The file.
        path: PathBuf,
    },
    /// An entry is too long.
    #[error(
        "that is {length} characters long and an entry in {} may have {most}: shorten the note, or say it in two entries",
        .path.display()
    )]
    TooLong {
        /// The file.
        path: PathBuf,
        /// How long it is.
        length: usize,
        /// How long it may be.
        most: usize,
    },
    /// An id is taken by an entry that says something else.
    #[error(
        "{} already has another entry with the id {id}: nothing was written; try again with a new entry",
        .path.display()
    )]
    IdTaken {
        /// The file.
        path: PathBuf,
        /// The id.
        id: uuid::Uuid,
    },
    /// The system failed to read or write.
    #[error("{} could not be read or written ({source}): check the disk and its connection, then open the logbook again", .path.display())]
    Io {
        /// The file or folder.
        path: PathBuf,
        /// What the system said.
        source: std::io::Error,
    },
    /// SQLite failed to read or write.
    #[error("{} could not be read or written ({source}): check the disk and its connection, then open the logbook again", .path.display())]
    Disk {
        /// The file.
        path: PathBuf,
        /// What SQLite said.
        source: rusqlite::Error,
    },
    /// Something nobody foresaw.
    #[error("{} could not be used ({source}): open the logbook again; if it happens again, run check on it", .path.display())]
    Unforeseen {
        /// The file.
        path: PathBuf,
        /// What SQLite said.
        source: rusqlite::Error,
    },
    /// The SQLite the program runs with has a known fault.
    #[error("{} was not opened: the program was built with SQLite {found}, which can lose entries; build it with {wanted} or newer", .path.display())]
    OldSqlite {
        /// The file.
        path: PathBuf,
        /// The version found.
        found: &'static str,
        /// The version wanted.
        wanted: &'static str,
    },
}

/// What went wrong inside the store, before anybody said with which file.
#[derive(Debug, thiserror::Error)]
pub(crate) enum Fault {
    /// SQLite failed.
    #[error(transparent)]
    Sql(#[from] rusqlite::Error),
    /// Something that was read makes no sense.
    #[error("{0}")]
    Damaged(String),
    /// What was written did not read back the same.
    #[error("an entry did not read back as it was written")]
    NotReadBack,
    /// An entry is too long.
    #[error("an entry is {0} characters long")]
    TooLong(usize),
    /// An id is taken by another entry.
    #[error("the id {0} is taken")]
    IdTaken(uuid::Uuid),
}

/// How many bytes the body and the note of an entry may have together.
pub(crate) const LONGEST_ENTRY: usize = 64 * 1024;

impl Fault {
    /// Says with which file it went wrong.
    pub(crate) fn at(self, path: &Path) -> StoreError {
        match self {
            Fault::Sql(source) => StoreError::sorted(path, source),
            Fault::Damaged(what) => StoreError::Damaged {
                path: path.to_owned(),
                what,
            },
            Fault::NotReadBack => StoreError::NotReadBack {
                path: path.to_owned(),
            },
            Fault::TooLong(length) => StoreError::TooLong {
                path: path.to_owned(),
                length,
                most: LONGEST_ENTRY,
            },
            Fault::IdTaken(id) => StoreError::IdTaken {
                path: path.to_owned(),
                id,
            },
        }
    }
}

/// An act could not be logged.
#[derive(Debug, thiserror::Error)]
pub enum AppendError {
    /// The logbook says no, and why.
    #[error(transparent)]
    Refused(#[from] Refusal),
    /// The file could not be read or written.
    #[error(transparent)]
    Store(#[from] StoreError),
}

impl StoreError {
    /// Sorts an error of SQLite that came up while `path` was in use.
    pub(crate) fn sorted(path: &Path, source: rusqlite::Error) -> StoreError {
        use rusqlite::ErrorCode as Code;
        let path = path.to_owned();
        if let rusqlite::Error::FromSqlConversionFailure(..)
        | rusqlite::Error::IntegralValueOutOfRange(..)
        | rusqlite::Error::InvalidColumnType(..)
        | rusqlite::Error::Utf8Error(..) = source
        {
            let what = source.to_string();
            return StoreError::Damaged { path, what };
        }
        let Some(failure) = source.sqlite_error() else {
            return StoreError::Unforeseen { path, source };
        };
        match failure.code {
            Code::DiskFull => StoreError::DiskFull { path },
            // The index of the write-ahead log could not grow.
            _ if failure.extended_code == rusqlite::ffi::SQLITE_IOERR_SHMSIZE => {
                StoreError::DiskFull { path }
            }
            Code::ReadOnly => StoreError::ReadOnly { path },
            Code::DatabaseBusy | Code::DatabaseLocked | Code::FileLockingProtocolFailed => {
                StoreError::Locked { path }
            }
            Code::NotADatabase => StoreError::NotALogbook { path },
            Code::DatabaseCorrupt => StoreError::Damaged {
                path,
                what: source.to_string(),
            },
            Code::PermissionDenied => StoreError::NoPermission {
                path,
                source: std::io::ErrorKind::PermissionDenied.into(),
            },
            Code::CannotOpen if failure.extended_code == rusqlite::ffi::SQLITE_CANTOPEN_SYMLINK => {
                StoreError::Link { path }
            }
            Code::CannotOpen if !path.exists() => StoreError::Missing { path },
            Code::CannotOpen | Code::SystemIoFailure | Code::OutOfMemory => {
                StoreError::Disk { path, source }
            }
            _ => StoreError::Unforeseen { path, source },
        }
    }

    /// Sorts an error of the system that came up while `path` was in use.
    pub(crate) fn from_io(path: &Path, source: std::io::Error) -> StoreError {
        use std::io::ErrorKind;
        let path = path.to_owned();
        match source.kind() {
            ErrorKind::NotFound => StoreError::Missing { path },
            ErrorKind::AlreadyExists => StoreError::Exists { path },
            ErrorKind::PermissionDenied => StoreError::NoPermission { path, source },
            ErrorKind::ReadOnlyFilesystem => StoreError::ReadOnly { path },
            ErrorKind::StorageFull | ErrorKind::QuotaExceeded => StoreError::DiskFull { path },
            _ => StoreError::Io { path, source },
        }
    }

    /// The file or folder it is about.
    pub fn path(&self) -> &Path {
        match self {
            StoreError::Missing { path }
            | StoreError::Exists { path }
            | StoreError::NotALogbook { path }
            | StoreError::Newer { path, .. }
            | StoreError::OlderReadOnly { path }
            | StoreError::Link { path }
            | StoreError::ReadOnly { path }
            | StoreError::UnfinishedReadOnly { path }
            | StoreError::NoPermission { path, .. }
            | StoreError::DiskFull { path }
            | StoreError::Locked { path }
            | StoreError::Damaged { path, .. }
            | StoreError::NotReadBack { path }
            | StoreError::TooLong { path, .. }
            | StoreError::IdTaken { path, .. }
            | StoreError::Io { path, .. }
            | StoreError::Disk { path, .. }
            | StoreError::Unforeseen { path, .. }
            | StoreError::OldSqlite { path, .. } => path,
        }
    }
}
