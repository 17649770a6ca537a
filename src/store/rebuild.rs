//! Making everything again that is made from the entries.
//!
//! The entries are read in the order they happened and folded once; what is said about entries is
//! read first, so that each is taken as it now counts. The result is the same as that of writing the
//! entries one act at a time, which is what [`check`](super::check) relies on.

use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};

use rusqlite::{Connection, TransactionBehavior};

use super::entries::{self, Found, columns};
use super::error::{Fault, StoreError};
use super::{Store, lives, settings, traces, words};
use crate::logbook::history::{fold_in, is_remark, target};
use crate::logbook::{Entry, EntryId, Life, Names, OrderKey, Settled, Thing, ThingId, ThingKind};
use crate::logbook::{settle, tidy_reference};
use crate::reference::Reference;

/// What a rebuild found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rebuilt {
    /// How many entries there are.
    pub entries: u64,
    /// How many things they touch.
    pub things: u64,
    /// How many times an entry does not fit the life of a thing it touches.
    pub misfits: u64,
}

/// How many entries are read between two reports of progress.
const STRIDE: u64 = 1000;

/// The tables that are made from the entries, but for the words, each with its key.
pub(crate) const PROJECTIONS: &[(&str, &str)] = &[
    ("touch", "thing, entry"),
    ("link", "child, parent, role, entry"),
    ("life", "thing"),
    ("counter", "kind"),
    ("film_box", "id"),
    ("holder", "id"),
    ("side", "id"),
    ("sheet", "id"),
    ("exposure", "entry"),
    ("companion_set", "id"),
    ("run", "id"),
    ("run_sheet", "run, nth"),
    ("timed_step", "thing, nth"),
    ("bath", "id"),
    ("paper", "id"),
    ("print", "id"),
    ("print_step", "entry"),
    ("lens", "id"),
    ("camera", "id"),
    ("shutter_test", "entry"),
    ("fault", "entry"),
    ("finding", "id"),
    ("strip", "id"),
];

impl Store {
    /// Throws away everything that is made from the entries and makes it again. `progress` is told
    /// now and then how much of how much is done.
    ///
    /// # Errors
    /// When an entry cannot be read or the file cannot be written. Then all is left as it was.
    pub fn rebuild(
        &mut self,
        reference: &Reference,
        progress: &mut dyn FnMut(u64, u64),
    ) -> Result<Rebuilt, StoreError> {
        self.writable()?;
        self.read(|db| Ok(settings::room_for_pages(db, settings::WHOLE)?))?;
        let rebuilt = self.rebuild_in_one(reference, progress);
        self.read(|db| Ok(settings::room_for_pages(db, settings::SESSION)?))?;
        rebuilt
    }

    /// Makes again what is made from the entries, if the file comes from an older version that knew
    /// less of it. To be called once a logbook is open, before anything is asked of it.
    ///
    /// # Errors
    /// As [`Store::rebuild`]. The logbook can be read all the same, but for what is missing.
    pub fn make_what_is_missing(
        &mut self,
        reference: &Reference,
    ) -> Result<Option<Rebuilt>, StoreError> {
        if self.read_only || !self.read(|db| Ok(is_asked_for(db)?))? {
            return Ok(None);
        }
        self.rebuild(reference, &mut |_, _| {}).map(Some)
    }

    fn rebuild_in_one(
        &mut self,
        reference: &Reference,
        progress: &mut dyn FnMut(u64, u64),
    ) -> Result<Rebuilt, StoreError> {
        let path = &self.path;
        let sorted = |source| StoreError::sorted(path, source);
        let change = self
            .db
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(sorted)?;
        let rebuilt = clear(&change)
            .and_then(|()| make(&change, &change, reference, progress))
            .map_err(|fault| fault.at(path))?;
        change
            .execute("DELETE FROM settings WHERE name = 'projections'", [])
            .map_err(sorted)?;
        change.commit().map_err(sorted)?;
        Ok(rebuilt)
    }
}

/// How many entries there are.
pub(crate) fn count(db: &Connection) -> Result<u64, Fault> {
    let count: i64 = db.query_row("SELECT count(*) FROM entry", [], |row| row.get(0))?;
    Ok(count.unsigned_abs())
}

/// Whether a migration asked for everything to be made again.
fn is_asked_for(db: &Connection) -> rusqlite::Result<bool> {
    let sql = "SELECT EXISTS (SELECT 1 FROM settings WHERE name = 'projections')";
    db.query_row(sql, [], |row| row.get(0))
}

fn clear(db: &Connection) -> Result<(), Fault> {
    for (table, _) in PROJECTIONS {
        db.execute(&format!("DELETE FROM {table}"), [])?;
    }
    db.execute("INSERT INTO words (words) VALUES ('delete-all')", [])?;
    Ok(())
}

/// Makes everything from the entries of one file in the empty tables of another, or of the same.
pub(crate) fn make(
    from: &Connection,
    to: &Connection,
    reference: &Reference,
    progress: &mut dyn FnMut(u64, u64),
) -> Result<Rebuilt, Fault> {
    let total = count(from)?;
    let mut reported = |done: u64| {
        if done.is_multiple_of(STRIDE) {
            progress(done, total * 2);
        }
    };
    let mut fold = Fold::begin(from, to, reference)?;
    let mut select = from.prepare(concat!(
        "SELECT ",
        columns!(),
        " FROM entry ORDER BY happened_us, written_us, machine, seq"
    ))?;
    let mut rows = select.query([])?;
    let mut done = 0;
    while let Some(row) = rows.next()? {
        let found = Found::read(row)?;
        fold.take(found.number, found.row.entry()?)?;
        done += 1;
        reported(done);
    }
    let (lives, misfits) = fold.end()?;
    for life in lives.values() {
        lives::write(to, None, life)?;
    }
    let names = Folded { lives: &lives };
    let mut select = from.prepare(concat!(
        "SELECT ",
        columns!(),
        " FROM entry ORDER BY entry.row"
    ))?;
    let mut rows = select.query([])?;
    while let Some(row) = rows.next()? {
        let found = Found::read(row)?;
        let text = words::text(&found.row.entry()?, &names, reference);
        words::insert(to, found.number, &text)?;
        done += 1;
        reported(done);
    }
    progress(total * 2, total * 2);
    Ok(Rebuilt {
        entries: total,
        things: lives.len() as u64,
        misfits,
    })
}

/// An entry and all that is said about it.
#[derive(Default)]
struct Family {
    rows: Vec<i64>,
    touches: BTreeSet<Thing>,
}

/// The entries folded so far.
struct Fold<'a> {
    to: &'a Connection,
    reference: &'a Reference,
    lives: BTreeMap<ThingId, Life>,
    misfits: u64,
    /// The entries something is said about, as they now count.
    settled: HashMap<EntryId, Settled>,
    /// Those that count as having happened at another time, in the order they do.
    moved: BTreeMap<OrderKey, EntryId>,
    /// The rows of each entry something is said about and of all that is said about it, with what
    /// any of them touches.
    families: Vec<Family>,
}

impl<'a> Fold<'a> {
    fn begin(
        from: &'a Connection,
        to: &'a Connection,
        reference: &'a Reference,
    ) -> Result<Fold<'a>, Fault> {
        let mut members: Vec<(i64, Entry)> = Vec::new();
        let mut targets = HashSet::new();
        let mut select = from.prepare(concat!(
            "SELECT ",
            columns!(),
            " FROM entry WHERE strikes IS NOT NULL UNION ALL SELECT ",
            columns!(),
            " FROM entry WHERE amends IS NOT NULL"
        ))?;
        let mut rows = select.query([])?;
        while let Some(row) = rows.next()? {
            let found = Found::read(row)?;
            let entry = found.row.entry()?;
            targets.extend(target(&entry.deed));
            members.push((found.number, entry));
        }
        for (_, remark) in &members {
            targets.remove(&remark.id);
        }
        for target in targets {
            if let Some(found) = entries::by_id(from, target)? {
                members.push((found.number, found.row.entry()?));
            }
        }
        let families = families(&members);
        let family: Vec<Entry> = members.into_iter().map(|(_, entry)| entry).collect();
        let settled: HashMap<EntryId, Settled> = settle(family)
            .into_iter()
            .filter(|one| !is_remark(&one.entry.deed))
            .map(|one| (one.entry.id, one))
            .collect();
        let moved = settled
            .values()
            .filter(|one| one.happened != one.entry.happened)
            .map(|one| (one.order(), one.entry.id))
            .collect();
        Ok(Fold {
            to,
            reference,
            lives: BTreeMap::new(),
            misfits: 0,
            settled,
            moved,
            families,
        })
    }

    /// Takes the next entry in the order they were logged to have happened.
    fn take(&mut self, row: i64, entry: Entry) -> Result<(), Fault> {
        self.take_moved(Some(entry.order_at(entry.happened)));
        let touches = entry.deed.touches();
        traces::write_touches_of(self.to, row, &touches)?;
        traces::write_count(self.to, &entry)?;
        for thing in touches {
            self.lives
                .entry(thing.id)
                .or_insert_with(|| Life::new(thing));
        }
        if is_remark(&entry.deed) {
            return Ok(());
        }
        let settled = match self.settled.get(&entry.id) {
            Some(settled) => settled.clone(),
            None => Settled::plain(entry),
        };
        if !settled.counts() {
            return Ok(());
        }
        let id = settled.entry.id;
        traces::write_effects(self.to, row, id, &settled.deed, settled.happened)?;
        if settled.happened == settled.entry.happened {
            self.step(&settled);
        }
        Ok(())
    }

    /// Takes the entries that count as having happened before `order`.
    fn take_moved(&mut self, order: Option<OrderKey>) {
        while let Some(first) = self.moved.first_entry() {
            if order.is_some_and(|order| *first.key() > order) {
                return;
            }
            let id = first.remove();
            if let Some(settled) = self.settled.get(&id).cloned()
                && settled.counts()
            {
                self.step(&settled);
            }
        }
    }

    fn step(&mut self, settled: &Settled) {
        for thing in settled.deed.touches() {
            let life = self
                .lives
                .entry(thing.id)
                .or_insert_with(|| Life::new(thing));
            if fold_in(life, settled, self.reference).is_err() {
                self.misfits += 1;
            }
        }
    }

    fn end(mut self) -> Result<(BTreeMap<ThingId, Life>, u64), Fault> {
        self.take_moved(None);
        for family in &self.families {
            for row in &family.rows {
                traces::write_touches_of(self.to, *row, &family.touches)?;
            }
        }
        Ok((self.lives, self.misfits))
    }
}

/// Puts together what belongs to one entry.
fn families(members: &[(i64, Entry)]) -> Vec<Family> {
    let about: HashMap<EntryId, EntryId> = members
        .iter()
        .filter_map(|(_, entry)| Some((entry.id, target(&entry.deed)?)))
        .collect();
    let mut families: BTreeMap<EntryId, Family> = BTreeMap::new();
    for (row, entry) in members {
        let mut root = entry.id;
        // A circle, which only a damaged file can hold, is left after one turn.
        for _ in members {
            match about.get(&root) {
                Some(next) => root = *next,
                None => break,
            }
        }
        let family = families.entry(root).or_default();
        family.rows.push(*row);
        family.touches.extend(entry.deed.touches());
    }
    families.into_values().collect()
}

/// Names out of the lives that were folded.
struct Folded<'a> {
    lives: &'a BTreeMap<ThingId, Life>,
}

impl Names for Folded<'_> {
    fn find(&self, kinds: &[ThingKind], reference: &str) -> Option<Thing> {
        let reference = tidy_reference(reference);
        self.lives
            .values()
            .find(|life| life.reference == reference && kinds.contains(&life.thing.kind))
            .map(|life| life.thing)
    }

    fn life_of(&self, thing: ThingId) -> Option<Life> {
        self.lives.get(&thing).cloned()
    }

    fn reference_of(&self, thing: ThingId) -> String {
        let life = self.lives.get(&thing);
        life.map(|life| life.reference.clone()).unwrap_or_default()
    }
}
