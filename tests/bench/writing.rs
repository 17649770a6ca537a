//! One entry, from the act to the disk.

use std::fs::OpenOptions;
use std::path::Path;
use std::time::Duration;

use anyhow::Result;
use notchbook::logbook::Kind;
use notchbook::reference::Reference;
use notchbook::store::Store;

use super::measure::{Times, once};
use super::report::{Line, Report};
use super::season::Season;
use super::{Filled, bare, plain};

/// A body as long as most.
const BODY: &str = r#"{"side":"0195f0a1-2b3c-7d4e-8f5a-6b7c8d9e0f1a","sheet":"0195f0a1-2b3c-7d4e-8f5a-6b7c8d9e0f1b","subject":"north wall, thaw","lens":"0195f0a1-2b3c-7d4e-8f5a-6b7c8d9e0f1c","aperture":"f/32","time":6.0,"speed":80,"place":"upper ledge of the quarry"}"#;

/// What the entries of a season take.
pub(crate) struct Written {
    /// Entries about things.
    entries: Times,
    /// Strikes and amendments, which put the whole story of each thing together anew.
    words: Times,
}

/// Writes the next entries of the season one by one; acts of several entries are written as well
/// and not counted.
pub(crate) fn entries(
    store: &mut Store,
    season: &mut Season,
    reference: &Reference,
    count: usize,
    mut between: impl FnMut() -> Result<()>,
) -> Result<Written> {
    let mut taken = Vec::with_capacity(count);
    let mut words = Vec::new();
    while taken.len() < count || words.is_empty() {
        let act = season.next_act()?;
        let alone = act.entries.len() == 1;
        let first = act.entries.first().map(|entry| entry.deed.kind());
        let is_word = matches!(first, Some(Kind::Struck | Kind::Amended));
        let (took, receipt) = once(|| Ok(store.append(act, reference)?))?;
        anyhow::ensure!(!receipt.entries.is_empty(), "nothing was written");
        if is_word {
            words.push(took);
        } else if alone {
            taken.push(took);
            between()?;
        }
    }
    Ok(Written {
        entries: Times::of(taken)?,
        words: Times::of(words)?,
    })
}

/// What notchbook itself takes for an entry, where no disk is waited for.
pub(crate) fn software_part(
    report: &mut Report,
    filled: &mut Filled,
    path: &Path,
    reference: &Reference,
) -> Result<()> {
    if super::memory().is_none() {
        report.remark("no /dev/shm here: what an entry takes without a disk was not measured");
        return Ok(());
    }
    let mut store = Store::open(path, filled.season.world())?;
    let mut table = bare::OneTable::create(&path.with_extension("table"))?;
    let mut limits = Vec::new();
    let ours = entries(&mut store, &mut filled.season, reference, 500, || {
        limits.push(once(|| table.insert(BODY))?.0);
        Ok(())
    })?;
    let limits = Times::of(limits)?;
    report.add(
        Line::new(
            format!("an entry without the disk, at {} entries", filled.entries),
            ours.entries.median(),
        )
        .at_most(5.0, limits.median())
        .under(Duration::from_micros(80)),
    );
    report.add(Line::new("the same, p99", ours.entries.p99()).beside(limits.p99()));
    report.add(
        plain(
            "the longest amendment or strike of a note of them",
            ours.words.longest(),
        )
        .under(Duration::from_millis(100)),
    );
    let undone = undo(&mut store, &mut filled.season, reference)?;
    report.add(
        plain("undoing an exposure, and undoing that", undone).under(Duration::from_millis(100)),
    );
    Ok(store.close()?)
}

/// Strikes an exposure that was just made and strikes the strike, which leaves everything as it was;
/// the longer of the two. The whole story of camera and lens is put together anew for each.
fn undo(store: &mut Store, season: &mut Season, reference: &Reference) -> Result<Duration> {
    let mut undone = loop {
        let act = season.next_act()?;
        let exposed = act.entries.first();
        let exposed = exposed.filter(|entry| entry.deed.kind() == Kind::Exposed);
        let exposed = exposed.map(|entry| entry.id);
        store.append(act, reference)?;
        if let Some(exposed) = exposed {
            break exposed;
        }
    };
    let mut longest = Duration::ZERO;
    for _ in 0..2 {
        let act = season.strike(undone)?;
        if let Some(strike) = act.entries.first() {
            undone = strike.id;
        }
        longest = longest.max(once(|| Ok(store.append(act, reference)?))?.0);
    }
    Ok(longest)
}

/// What an entry takes until it is on the disk. It goes on from the season as
/// [`software_part`] left it, so it is given the file that one wrote to.
pub(crate) fn durable(
    report: &mut Report,
    filled: &mut Filled,
    written: &Path,
    disk: &Path,
    reference: &Reference,
) -> Result<()> {
    let path = disk.join("durable.notchbook");
    std::fs::copy(written, &path)?;
    let mut store = Store::open(&path, filled.season.world())?;
    let mut file = OpenOptions::new()
        .create(true)
        .append(true)
        .open(disk.join("raw"))?;
    let mut table = bare::OneTable::create(&disk.join("table"))?;
    let (mut raw, mut limits) = (Vec::new(), Vec::new());
    let ours = entries(&mut store, &mut filled.season, reference, 300, || {
        raw.push(once(|| bare::append(&mut file))?.0);
        limits.push(once(|| table.insert(BODY))?.0);
        Ok(())
    })?;
    let (raw, limits) = (Times::of(raw)?, Times::of(limits)?);
    report.add(
        Line::new(
            format!("an entry on the disk, at {} entries", filled.entries),
            ours.entries.median(),
        )
        .at_most(1.3, raw.median()),
    );
    report.add(Line::new("the same, p99", ours.entries.p99()).beside(raw.p99()));
    report.add(Line::new("bare SQLite, one row on the disk", limits.median()).beside(raw.median()));
    Ok(store.close()?)
}
