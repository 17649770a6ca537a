//! Whole processes: from the start of the program to its first picture or its answer, the memory
//! it takes, the times it makes the disk sync, its size.
//!
//! For that this program calls itself, or the real one, as a child.

use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode, Stdio};
use std::time::Duration;

use anyhow::{Context as _, Result};
use chrono::DateTime;
use notchbook::reference::Reference;
use notchbook::store::Store;
use notchbook::world::World as _;

use super::measure::side_by_side;
use super::report::{Amount, Line, Report};
use super::season::Season;
use super::{Filled, bare, screen};

/// The first argument of a child.
const CHILD: &str = "--as-child";
/// The program itself.
const PROGRAM: &str = env!("CARGO_BIN_EXE_notchbook");

/// What this process is asked to be, if it is a child.
pub(crate) fn asked_for() -> Option<Vec<String>> {
    let mut arguments = std::env::args().skip(1);
    (arguments.next().as_deref() == Some(CHILD)).then(|| arguments.collect())
}

/// Is the child.
pub(crate) fn be(arguments: &[String]) -> ExitCode {
    match try_be(arguments) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error:#}");
            ExitCode::FAILURE
        }
    }
}

fn try_be(arguments: &[String]) -> Result<()> {
    let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
    match *words.as_slice() {
        ["picture", path, now] => {
            screen::one_picture(Path::new(path), DateTime::parse_from_rfc3339(now)?)?;
        }
        ["bare-picture", path] => {
            std::hint::black_box(bare::first_frame(Path::new(path), (80, 24))?);
        }
        ["bare-answer", path, called] => {
            let db = bare::open(Path::new(path))?;
            let state: String = db.query_row(
                "SELECT state FROM life WHERE reference = ?1",
                [called],
                |row| row.get(0),
            )?;
            println!("{state}");
        }
        ["append", path, count] => append(Path::new(path), count.parse()?)?,
        _ => anyhow::bail!("no such child: {arguments:?}"),
    }
    println!("{}", peak_memory().unwrap_or_default());
    Ok(())
}

/// Writes so many acts into a new logbook.
fn append(path: &Path, count: usize) -> Result<()> {
    let reference = Reference::built_in()?;
    let mut season = Season::begin()?;
    let mut store = Store::create(path, season.world())?;
    for _ in 0..count {
        store.append(season.next_act()?, &reference)?;
    }
    Ok(())
}

/// The most memory this process had at once, in bytes.
fn peak_memory() -> Option<u64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find(|line| line.starts_with("VmHWM:"))?;
    let kilobytes: u64 = line.split_whitespace().nth(1)?.parse().ok()?;
    Some(kilobytes * 1024)
}

/// A child with its arguments.
fn child(arguments: &[&str]) -> Result<Command> {
    let mut command = Command::new(std::env::current_exe()?);
    command.arg(CHILD).args(arguments);
    Ok(command)
}

/// Runs a program and gives the last line it printed.
fn last_line(command: &mut Command) -> Result<String> {
    let output = command.stderr(Stdio::piped()).output()?;
    anyhow::ensure!(
        output.status.success(),
        "{command:?}: {}",
        String::from_utf8_lossy(&output.stderr)
    );
    let text = String::from_utf8_lossy(&output.stdout);
    Ok(text.lines().last().unwrap_or_default().to_owned())
}

/// Measures them all.
pub(crate) fn all(report: &mut Report, small: &mut Filled, large: &mut Filled) -> Result<()> {
    for filled in [small, large] {
        let path = filled.path.to_string_lossy().into_owned();
        let now = filled.season.world().now().to_rfc3339();
        let picture = || last_line(&mut child(&["picture", &path, &now])?);
        let bare_picture = || last_line(&mut child(&["bare-picture", &path])?);
        let (ours, limit) = side_by_side(15, picture, bare_picture)?;
        report.add(
            Line::new(
                format!("process with first picture, {} entries", filled.entries),
                ours.median(),
            )
            .at_most(3.0, limit.median())
            .under(Duration::from_millis(50)),
        );
        match (picture()?.parse(), bare_picture()?.parse()) {
            (Ok(ours), Ok(limit)) if ours > 0 => report.add(
                Line::new(
                    format!("memory with first picture, {} entries", filled.entries),
                    Amount::Bytes(ours),
                )
                .at_most(4.0, Amount::Bytes(limit))
                .under(Amount::Bytes(40_000_000)),
            ),
            _ => report.remark("no /proc here: memory was not measured"),
        }
        let (ours, limit) = side_by_side(
            15,
            || {
                let words = ["--logbook", &path, "show", "S-0042"];
                last_line(Command::new(PROGRAM).args(words))
            },
            || last_line(&mut child(&["bare-answer", &path, "S-0042"])?),
        )?;
        report.add(
            Line::new(
                format!("notchbook show S-0042, {} entries", filled.entries),
                ours.median(),
            )
            .at_most(2.0, limit.median())
            .under(Duration::from_millis(20)),
        );
    }
    let size = std::fs::metadata(PROGRAM)?.len();
    report
        .add(Line::new("size of the program", Amount::Bytes(size)).under(Amount::Bytes(8_700_000)));
    syncs(report)
}

/// How often the disk is made to sync for an entry.
fn syncs(report: &mut Report) -> Result<()> {
    if Command::new("strace").arg("-V").output().is_err() {
        report.remark("no strace here: syncs of the disk were not counted");
        return Ok(());
    }
    let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR"))?;
    let mut counts = Vec::new();
    for acts in [10_u32, 30] {
        let path = folder.path().join(format!("{acts}.notchbook"));
        counts.push((acts, count_syncs(&path, folder.path(), acts)?));
    }
    if let [(few, first), (many, second)] = *counts.as_slice() {
        let more = f64::from(second.saturating_sub(first)) / f64::from(many - few);
        report.add(
            Line::new("syncs of the disk for an entry", Amount::Count(more))
                .under(Amount::Count(1.0)),
        );
    }
    Ok(())
}

fn count_syncs(path: &Path, folder: &Path, acts: u32) -> Result<u32> {
    let trace: PathBuf = folder.join("trace");
    let status = Command::new("strace")
        .args(["-f", "-e", "trace=fsync,fdatasync", "-o"])
        .arg(&trace)
        .arg(std::env::current_exe()?)
        .args([CHILD, "append"])
        .arg(path)
        .arg(acts.to_string())
        .stdout(Stdio::null())
        .status()
        .context("strace")?;
    anyhow::ensure!(status.success(), "strace failed");
    let calls = std::fs::read_to_string(&trace)?;
    let calls = calls.lines().filter(|line| line.contains("sync("));
    Ok(u32::try_from(calls.count())?)
}
