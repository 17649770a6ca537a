//! New files that leave the program: whole or not at all, and readable by their owner only.
//!
//! What is written goes to a file without a name of its own in the same folder, is brought to the
//! disk, and only then takes its place. A name that is taken is left alone unless it was said that
//! it may be replaced, and a symbolic link at that name is never followed.

use std::fs::File;
use std::io::{self, BufWriter, Write};
use std::path::{Path, PathBuf};

/// A file could not be written.
#[derive(Debug, thiserror::Error)]
pub enum FileError {
    /// The name is taken.
    #[error("{} is there already and was left as it is: choose another name, or say that it may be replaced", .path.display())]
    Exists {
        /// The file.
        path: PathBuf,
    },
    /// The system failed to write it.
    #[error("{} could not be written ({source}): check the folder and the space on the disk; nothing was left behind", .path.display())]
    Write {
        /// The file.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
}

/// Writes a file with what `fill` writes.
///
/// # Errors
/// What `fill` came back with, or a [`FileError`]. No file is left behind then, and one that was to
/// be replaced is as it was.
pub fn write_new_file<T, E: From<FileError>>(
    path: &Path,
    replace: bool,
    fill: impl FnOnce(&mut dyn Write) -> Result<T, E>,
) -> Result<T, E> {
    let failed = |source| FileError::Write {
        path: path.to_owned(),
        source,
    };
    let exists = || FileError::Exists {
        path: path.to_owned(),
    };
    if !replace && path.symlink_metadata().is_ok() {
        return Err(exists().into());
    }
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let file = tempfile::Builder::new()
        .prefix(".unfinished-")
        .tempfile_in(folder)
        .map_err(failed)?;
    let mut out = BufWriter::new(file);
    let filled = fill(&mut out)?;
    let file = out
        .into_inner()
        .map_err(|error| failed(error.into_error()))?;
    file.as_file().sync_all().map_err(failed)?;
    let named = if replace {
        file.persist(path)
    } else {
        file.persist_noclobber(path)
    };
    if let Err(error) = named {
        return Err(match error.error.kind() {
            io::ErrorKind::AlreadyExists => exists().into(),
            _ => failed(error.error).into(),
        });
    }
    // The name is on the disk only when its folder is.
    if let Ok(folder) = File::open(folder) {
        folder.sync_all().map_err(failed)?;
    }
    Ok(filled)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn write(path: &Path, replace: bool, text: &str) -> Result<(), FileError> {
        write_new_file(path, replace, |out| {
            out.write_all(text.as_bytes())
                .map_err(|source| FileError::Write {
                    path: path.to_owned(),
                    source,
                })
        })
    }

    #[test]
    fn a_taken_name_is_left_alone_unless_it_may_be_replaced() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("log.jsonl");
        write(&path, false, "one").expect("a new file");
        let error = write(&path, false, "two").expect_err("the name is taken");
        assert!(matches!(error, FileError::Exists { .. }), "{error}");
        assert_eq!(std::fs::read_to_string(&path).expect("a file"), "one");
        write(&path, true, "two").expect("a replaced file");
        assert_eq!(std::fs::read_to_string(&path).expect("a file"), "two");
        assert_eq!(
            std::fs::read_dir(folder.path()).expect("a folder").count(),
            1
        );
    }

    #[test]
    fn nothing_is_left_behind_when_filling_fails() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("log.jsonl");
        let failed: Result<(), FileError> = write_new_file(&path, false, |_| {
            Err(FileError::Exists { path: path.clone() })
        });
        assert!(failed.is_err());
        assert_eq!(
            std::fs::read_dir(folder.path()).expect("a folder").count(),
            0
        );
    }

    #[cfg(unix)]
    #[test]
    fn only_the_owner_may_read_it_and_links_are_not_followed() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().expect("a folder");
        let elsewhere = folder.path().join("elsewhere");
        std::fs::write(&elsewhere, "kept").expect("a file");
        let path = folder.path().join("log.jsonl");
        std::os::unix::fs::symlink(&elsewhere, &path).expect("a link");
        assert!(write(&path, false, "new").is_err());
        write(&path, true, "new").expect("the link is replaced");
        assert_eq!(std::fs::read_to_string(&elsewhere).expect("a file"), "kept");
        let mode = path.metadata().expect("a file").permissions().mode();
        assert_eq!(mode & 0o777, 0o600);
    }
}
