//! When the program itself is at fault.
//!
//! For: a panic gives the terminal back first, so that the message can be read, then writes a
//! report that can be sent to who keeps the program.
//!
//! Promises: the message says that what was shown as saved is saved, and where the report is. If
//! the report cannot be written, it is printed instead. The report can be read only by its owner.

use std::backtrace::Backtrace;
use std::fmt::Write as _;
use std::fs::{self, File, OpenOptions};
use std::io::{self, Write as _};
use std::panic::PanicHookInfo;
use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};

use crate::export::shown;

use super::terminal::restore;

/// From now on a panic gives the terminal back and leaves a report in `folder`.
pub fn watch(folder: PathBuf) {
    std::panic::set_hook(Box::new(move |info| {
        restore();
        let report = report(info);
        // Nothing can be done about an error output that is closed.
        let mut out = io::stderr().lock();
        let _ = writeln!(
            out,
            "notchbook had to stop because of a mistake in it: {}",
            what(info)
        );
        let _ = writeln!(out, "Everything that was shown as saved is saved.");
        let _ = match keep(&folder, &report) {
            Ok(path) => {
                let path = path.display().to_string();
                writeln!(out, "A report is in {}", shown(&path))
            }
            Err(error) => {
                writeln!(
                    out,
                    "The report could not be kept ({error}), so it follows.\n{report}"
                )
            }
        };
    }));
}

fn what(info: &PanicHookInfo<'_>) -> String {
    let payload = info.payload();
    let message = payload
        .downcast_ref::<&str>()
        .map(|text| (*text).to_owned())
        .or_else(|| payload.downcast_ref::<String>().cloned())
        .unwrap_or_else(|| "no reason is known".to_owned());
    shown(&message).into_owned()
}

fn report(info: &PanicHookInfo<'_>) -> String {
    let mut report = String::new();
    let place = info
        .location()
        .map_or_else(|| "unknown".to_owned(), ToString::to_string);
    // Writing into a String cannot fail.
    let _ = writeln!(report, "notchbook {}", env!("CARGO_PKG_VERSION"));
    let _ = writeln!(
        report,
        "on {} {}",
        std::env::consts::OS,
        std::env::consts::ARCH
    );
    let _ = writeln!(report, "at {place}");
    let _ = writeln!(report, "{}\n", what(info));
    let _ = writeln!(report, "{}", Backtrace::force_capture());
    report
}

/// Writes the report into a new file and returns its path.
fn keep(folder: &Path, report: &str) -> io::Result<PathBuf> {
    fs::create_dir_all(folder)?;
    let since = SystemTime::now().duration_since(UNIX_EPOCH);
    let seconds = since.map_or(0, |time| time.as_secs());
    let path = folder.join(format!("report-{seconds}-{}.txt", std::process::id()));
    let mut file = create(&path)?;
    file.write_all(report.as_bytes())?;
    file.sync_all()?;
    Ok(path)
}

#[cfg(unix)]
fn create(path: &Path) -> io::Result<File> {
    use std::os::unix::fs::OpenOptionsExt;
    OpenOptions::new()
        .write(true)
        .create_new(true)
        .mode(0o600)
        .open(path)
}

#[cfg(not(unix))]
fn create(path: &Path) -> io::Result<File> {
    OpenOptions::new().write(true).create_new(true).open(path)
}
