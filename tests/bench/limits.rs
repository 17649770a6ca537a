//! How fast notchbook is, as ratios to what bare code takes on the same machine in the same run.
//!
//! `cargo bench --bench limits` fills a logbook of 1,000 and one of 100,000 entries, act by act
//! through the one way in, and prints one table: what was measured, the limit, the ratio, the goal
//! and whether it is met. It never fails because of a clock. What is measured is in the modules:
//! [`screen`] (first picture, key to paint), [`writing`] (one entry, durable), [`asking`] (traces,
//! timelines, search), [`whole`] (everything at once), [`program`] (whole processes, memory). The
//! limits are in [`bare`].

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use anyhow::{Context as _, Result};
use notchbook::reference::Reference;
use notchbook::store::Store;

mod asking;
mod bare;
mod measure;
mod program;
mod report;
mod screen;
mod season;
mod whole;
mod words;
mod writing;

use report::{Line, Report};
use season::Season;

/// Entries of the small logbook.
const SMALL: u64 = 1_000;
/// Entries of the large one, unless another number is given: `cargo bench --bench limits -- 5000`.
const LARGE: u64 = 100_000;

/// A filled logbook, closed, and the season that goes on from it.
pub(crate) struct Filled {
    pub(crate) path: PathBuf,
    pub(crate) entries: u64,
    pub(crate) season: Season,
    /// How long it took to fill.
    took: std::time::Duration,
}

/// Fills a logbook act by act until it has so many entries and its newest sheets are loaded and
/// not exposed yet.
fn fill(path: &Path, entries: u64, reference: &Reference) -> Result<Filled> {
    let mut season = Season::begin()?;
    let mut store = Store::create(path, season.world())?;
    let mut written = 0;
    let (took, ()) = measure::once(|| {
        while written < entries || !season.has_just_loaded() {
            let act = season.next_act()?;
            let receipt = store.append(act, reference)?;
            written += receipt.entries.len() as u64;
        }
        Ok(())
    })?;
    store.close()?;
    season.world().wait(std::time::Duration::from_secs(3600));
    Ok(Filled {
        path: path.to_owned(),
        entries: written,
        season,
        took,
    })
}

/// Where files do not wait for a disk, if there is such a place.
fn memory() -> Option<PathBuf> {
    let shm = Path::new("/dev/shm");
    shm.is_dir().then(|| shm.to_owned())
}

fn measure_all(report: &mut Report) -> Result<()> {
    let reference = Reference::built_in()?;
    let disk = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR"))?;
    let quick = match memory() {
        Some(folder) => tempfile::tempdir_in(folder)?,
        None => tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR"))?,
    };
    let mut books = Vec::new();
    let given = std::env::args().find_map(|argument| argument.parse().ok());
    for (name, entries) in [("small", SMALL), ("large", given.unwrap_or(LARGE))] {
        let on_quick = quick.path().join(name).with_extension("notchbook");
        let mut filled = fill(&on_quick, entries, &reference)
            .with_context(|| format!("filling the {name} logbook"))?;
        report.remark(format!(
            "{} entries were filled act by act in {:.1} s",
            filled.entries,
            filled.took.as_secs_f64()
        ));
        let on_disk = disk.path().join(name).with_extension("notchbook");
        std::fs::copy(&on_quick, &on_disk)?;
        filled.path = on_disk;
        books.push((filled, on_quick));
    }
    let [(small, small_quick), (large, large_quick)] = books.as_mut_slice() else {
        anyhow::bail!("two logbooks were to be filled");
    };
    screen::first_frames(report, small, large)?;
    screen::keys(report, large)?;
    asking::all(report, large, &reference)?;
    whole::all(report, large, quick.path(), &reference)?;
    program::all(report, small, large)?;
    writing::software_part(report, small, small_quick, &reference)?;
    writing::software_part(report, large, large_quick, &reference)?;
    writing::durable(report, large, large_quick, disk.path(), &reference)?;
    Ok(())
}

fn main() -> ExitCode {
    if let Some(child) = program::asked_for() {
        return program::be(&child);
    }
    // Tests may build and start every target; they have not asked for a minute of measuring.
    if !std::env::args().any(|argument| argument == "--bench") {
        println!("nothing was measured: run it with cargo bench --bench limits");
        return ExitCode::SUCCESS;
    }
    let mut report = Report::default();
    let done = measure_all(&mut report);
    report.print();
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("not everything was measured: {error:#}");
            ExitCode::FAILURE
        }
    }
}

/// A line that has no limit beside it.
pub(crate) fn plain(what: impl Into<String>, value: impl Into<report::Amount>) -> Line {
    Line::new(what, value)
}
