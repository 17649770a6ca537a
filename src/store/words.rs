//! The words by which an entry is found again.
//!
//! An entry is found by its kind, by every figure as it is told, by what the things it touches are
//! called, and by its note; struck or not. The words are told with the references things have now,
//! so when one changes, the entries that touch the thing are told anew.

use std::collections::HashMap;

use rusqlite::{Connection, params};

use super::append::Written;
use super::entries::{Found, columns};
use super::error::Fault;
use super::records::{Ledger, called};
use crate::logbook::telling::tell;
use crate::logbook::{Deed, Entry, Life, Names, Thing, ThingId, ThingKind, Verdict};
use crate::reference::Reference;

/// Names as they are once an act is written.
struct Now<'a> {
    db: &'a Connection,
    ledger: &'a Ledger<'a>,
    lives: HashMap<ThingId, &'a Life>,
}

impl Names for Now<'_> {
    fn find(&self, kinds: &[ThingKind], reference: &str) -> Option<Thing> {
        kinds
            .iter()
            .find_map(|kind| called(self.db, *kind, reference).ok().flatten())
    }

    fn life_of(&self, thing: ThingId) -> Option<Life> {
        match self.lives.get(&thing) {
            Some(life) => Some((*life).clone()),
            None => self.ledger.stored_life(thing).ok().flatten(),
        }
    }

    fn reference_of(&self, thing: ThingId) -> String {
        match self.lives.get(&thing) {
            Some(life) => life.reference.clone(),
            None => {
                let stored = self.ledger.stored_reference(thing);
                stored.ok().flatten().unwrap_or_default()
            }
        }
    }
}

/// Writes the words of the entries of an act, and anew those of earlier entries that are told
/// differently because of it.
pub(crate) fn write(
    db: &Connection,
    ledger: &Ledger<'_>,
    verdict: &Verdict,
    written: &[Written],
    reference: &Reference,
) -> Result<(), Fault> {
    let lives = verdict.lives.iter().map(|life| (life.thing.id, life));
    let now = Now {
        db,
        ledger,
        lives: lives.collect(),
    };
    for (entry, written) in verdict.entries.iter().zip(written) {
        insert(db, written.row, &text(entry, &now, reference))?;
    }
    let first = written.first().map_or(i64::MAX, |written| written.row);
    for life in &verdict.lives {
        let before = ledger.stored_life(life.thing.id)?;
        if before.is_some_and(|before| is_told_differently(&before, life)) {
            write_anew(db, life.thing.id, first, &now, reference)?;
        }
    }
    Ok(())
}

/// Writes the words of one entry that has none yet.
pub(crate) fn insert(db: &Connection, row: i64, text: &str) -> Result<(), Fault> {
    db.prepare_cached("INSERT INTO words (rowid, text) VALUES (?1, ?2)")?
        .execute(params![row, text])?;
    Ok(())
}

fn is_told_differently(before: &Life, now: &Life) -> bool {
    let process = |life: &Life| life.print().map(|print| print.process.clone());
    before.reference != now.reference || process(before) != process(now)
}

/// Writes anew the words of the entries before `first` that touch a thing.
fn write_anew(
    db: &Connection,
    thing: ThingId,
    first: i64,
    now: &Now<'_>,
    reference: &Reference,
) -> Result<(), Fault> {
    let mut select = db.prepare_cached(concat!(
        "SELECT ",
        columns!(),
        " FROM touch CROSS JOIN entry ON entry.row = touch.entry \
         WHERE touch.thing = ?1 AND touch.entry < ?2"
    ))?;
    let mut rows = select.query(params![thing.0.as_bytes(), first])?;
    while let Some(row) = rows.next()? {
        let found = Found::read(row)?;
        db.prepare_cached("DELETE FROM words WHERE rowid = ?1")?
            .execute([found.number])?;
        insert(db, found.number, &text(&found.row.entry()?, now, reference))?;
    }
    Ok(())
}

/// Every word of an entry.
pub(crate) fn text(entry: &Entry, names: &dyn Names, reference: &Reference) -> String {
    let telling = tell(&entry.deed, names, reference);
    let values = telling.details.into_iter().map(|(_, value)| value);
    // What the headline says already need not be looked for twice.
    let mut words: Vec<String> = values
        .filter(|value| !telling.headline.contains(value.as_str()))
        .collect();
    words.extend([
        entry.kind().name().to_owned(),
        entry.kind().title().to_owned(),
        telling.headline,
    ]);
    let touches = entry.deed.touches();
    words.extend(touches.iter().map(|thing| names.reference_of(thing.id)));
    // What an entry called a thing is in its words even when the entry is struck and the thing is
    // not there any more.
    let deed = match &entry.deed {
        Deed::Amended(amended) => &amended.deed,
        deed => deed,
    };
    if let Some((_, called)) = deed.creates() {
        words.push(called.to_owned());
    }
    words.extend(entry.over.clone());
    words.extend(entry.note.clone());
    words.join("\n")
}
