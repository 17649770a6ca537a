//! Everything at once: rebuild, check, lines out, lines in. Times are for a million entries, scaled
//! from the large logbook.

use std::io::BufReader;
use std::path::Path;
use std::time::Duration;

use anyhow::Result;
use notchbook::export::jsonl::{read_lines, write_lines};
use notchbook::reference::Reference;
use notchbook::store::{Manner, Store};
use notchbook::world::{Scripted, World as _};

use super::measure::{a_million, once};
use super::report::{Line, Report};
use super::{Filled, bare};

/// Measures them all. `quick` is a folder that does not wait for a disk.
pub(crate) fn all(
    report: &mut Report,
    large: &mut Filled,
    quick: &Path,
    reference: &Reference,
) -> Result<()> {
    let mut world = Scripted::new(large.season.world().now());
    let count = large.entries;
    let mut store = Store::open(&large.path, &mut world)?;
    let bodies = bare::bodies(&large.path)?;

    let copy = quick.join("rewritten");
    let (limit, ()) = once(|| bare::rewrite_everything(&large.path, &copy))?;
    std::fs::remove_file(&copy)?;
    let (took, rebuilt) = once(|| Ok(store.rebuild(reference, &mut |_, _| {})?))?;
    anyhow::ensure!(rebuilt.entries == count, "the rebuild lost entries");
    report.add(
        Line::new("rebuild, per 1,000,000 entries", a_million(took, count))
            .at_most(3.0, a_million(limit, count))
            .under(Duration::from_secs(3)),
    );

    let (limit, _) = once(|| bare::hash_and_look(&large.path))?;
    let (took, checked) = once(|| Ok(store.check(reference)?))?;
    anyhow::ensure!(checked.findings.is_empty(), "{:?}", checked.findings);
    report.add(
        Line::new("check, per 1,000,000 entries", a_million(took, count))
            .at_most(1.5, a_million(limit, count))
            .under(Duration::from_secs(2)),
    );

    let mut out = Vec::new();
    let (limit, ()) = once(|| bare::lines(&large.path, &mut out))?;
    out.clear();
    let (took, _) = once(|| Ok(write_lines(&store, &mut out)?))?;
    report.add(
        Line::new("lines of JSON out, per 1,000,000", a_million(took, count))
            .at_most(2.0, a_million(limit, count)),
    );
    store.close()?;

    let mut table = bare::OneTable::create(&quick.join("one-table"))?;
    let (limit, ()) = once(|| table.insert_all(&bodies))?;
    let mut into = Store::create(&quick.join("taken-in.notchbook"), &mut world)?;
    let (took, taken) = once(|| {
        let mut lines = BufReader::new(out.as_slice());
        Ok(read_lines(
            &mut into,
            &mut lines,
            Manner::AllOrNothing,
            reference,
        )?)
    })?;
    anyhow::ensure!(taken.taken == count, "{:?}", taken.not_taken.first());
    report.add(
        Line::new("lines of JSON in, per 1,000,000", a_million(took, count))
            .at_most(2.0, a_million(limit, count)),
    );
    into.close()?;
    Ok(())
}
