//! Questions to a large logbook: traces, timelines, search. Beside each stands the least that has
//! to be asked of the file for it.

use anyhow::{Context as _, Result};
use notchbook::logbook::{Names as _, ThingId, ThingKind};
use notchbook::reference::Reference;
use notchbook::store::Store;
use notchbook::world::World as _;
use rusqlite::Connection;
use std::time::Duration;

use super::measure::{Times, each, once, side_by_side};
use super::report::{Line, Report};
use super::{Filled, bare, plain};

/// What a picture may take before it is felt.
const FELT: Duration = Duration::from_millis(16);
/// Hits on a page.
const HITS: usize = 50;

const UP: &str = "WITH RECURSIVE reach (thing) AS (
        SELECT ?1 UNION SELECT link.parent FROM reach JOIN link ON link.child = reach.thing
    ) SELECT count(*) FROM reach";
const DOWN: &str = "WITH RECURSIVE reach (thing) AS (
        SELECT ?1 UNION SELECT link.child FROM reach JOIN link ON link.parent = reach.thing
    ) SELECT count(*) FROM reach";
const STORY: &str = "SELECT sum(length(entry.body)) FROM touch \
    JOIN entry ON entry.row = touch.entry WHERE touch.thing = ?1";
const FOUND: &str = "SELECT count(*) FROM (SELECT rowid FROM words WHERE words MATCH ?1 \
    ORDER BY rowid DESC LIMIT 50)";

fn ask(db: &Connection, sql: &str, thing: ThingId) -> Result<i64> {
    let mut select = db.prepare_cached(sql)?;
    Ok(select.query_row([thing.0.as_bytes()], |row| row.get(0))?)
}

/// Measures them all.
pub(crate) fn all(report: &mut Report, large: &mut Filled, reference: &Reference) -> Result<()> {
    let mut world = notchbook::world::Scripted::new(large.season.world().now());
    let store = Store::open(&large.path, &mut world)?;
    let db = bare::open(&large.path)?;
    let thing = |kind, called: &str| -> Result<ThingId> {
        let found = store.find(&[kind], called);
        Ok(found.with_context(|| format!("no {called}"))?.id)
    };
    let print = thing(ThingKind::Print, "P-0010")?;
    let sheet = thing(ThingKind::Sheet, "S-0050")?;
    let film_box = thing(ThingKind::Box, "F-02")?;
    let side = thing(ThingKind::Side, "H-07 A")?;
    let lens = thing(ThingKind::Lens, "L-01")?;

    let (ours, limit) = side_by_side(
        60,
        || Ok(store.trace_up(print, reference)?.len()),
        || ask(&db, UP, print),
    )?;
    report.add(
        Line::new("trace of one print, up", ours.median())
            .beside(limit.median())
            .under(FELT),
    );
    let (ours, limit) = side_by_side(
        60,
        || Ok(store.trace_up(sheet, reference)?.len()),
        || ask(&db, UP, sheet),
    )?;
    report.add(
        Line::new("trace of one sheet, up", ours.median())
            .at_most(10.0, limit.median())
            .under(FELT),
    );
    let count = store.trace_down(film_box, reference)?.len();
    let (ours, limit) = side_by_side(
        30,
        || Ok(store.trace_down(film_box, reference)?.len()),
        || ask(&db, DOWN, film_box),
    )?;
    report.add(
        Line::new(
            format!("trace of a box, down, {count} things"),
            ours.median(),
        )
        .beside(limit.median())
        .under(FELT),
    );
    let (_, steps) = once(|| Ok(store.trace_down(lens, reference)?.len()))?;
    let (ours, limit) = side_by_side(
        3,
        || Ok(store.trace_down(lens, reference)?.len()),
        || ask(&db, DOWN, lens),
    )?;
    let steps = u64::try_from(steps)?;
    report.add(
        Line::new(
            format!("trace of a lens, down, {steps} things, per 100,000"),
            each(ours.median(), steps) * 100_000,
        )
        .at_most(1.5, each(limit.median(), steps) * 100_000)
        .under(Duration::from_millis(200)),
    );
    for (what, thing, times) in [("a sheet", sheet, 60), ("a side", side, 20)] {
        let lines = store.timeline(thing, reference)?.len();
        let (ours, limit) = side_by_side(
            times,
            || Ok(store.timeline(thing, reference)?.len()),
            || ask(&db, STORY, thing),
        )?;
        report.add(
            Line::new(
                format!("timeline of {what}, {lines} entries"),
                ours.median(),
            )
            .beside(limit.median())
            .under(FELT),
        );
    }
    // What a screen shows of a thing that has seen much, and all there is of it.
    const SHOWN: usize = 200;
    let (ours, whole) = side_by_side(
        10,
        || Ok(store.end_of_timeline(lens, SHOWN, reference)?.0.len()),
        || Ok(store.timeline(lens, reference)?.len()),
    )?;
    report.add(Line::new("the last 200 entries of a lens", ours.median()).under(FELT));
    report.add(plain(
        format!(
            "all {} entries of a lens",
            store.timeline(lens, reference)?.len()
        ),
        whole.median(),
    ));
    search(report, &store, &db, reference)?;
    drop(db);
    Ok(store.close()?)
}

fn search(
    report: &mut Report,
    store: &Store,
    db: &Connection,
    reference: &Reference,
) -> Result<()> {
    let (mut ours, mut limits) = (Vec::new(), Vec::new());
    for word in [
        "lichen",
        "sluice",
        "diffusion",
        "harnbeck",
        "S-0042",
        "palladium",
    ] {
        for end in 1..=word.len() {
            let typed = &word[..end];
            let (took, _) = once(|| Ok(store.search(typed, None, HITS, reference)?))?;
            ours.push(took);
            let expression = format!("\"{typed}\"*");
            let (took, _) = once(|| {
                let mut select = db.prepare_cached(FOUND)?;
                let count: i64 = select.query_row([expression], |row| row.get(0))?;
                Ok(count)
            })?;
            limits.push(took);
        }
    }
    let (ours, limits) = (Times::of(ours)?, Times::of(limits)?);
    report.add(
        Line::new("search at each key, median", ours.median())
            .beside(limits.median())
            .under(FELT),
    );
    report.add(
        Line::new("search at each key, p99", ours.p99())
            .at_most(20.0, limits.p99())
            .under(FELT),
    );
    Ok(())
}
