//! Whether a logbook says what was written into it.
//!
//! Three questions: are the pages of the file sound, does every entry still have the hash it was
//! written with, and is everything that is made from the entries what a rebuild would make. Nothing
//! is changed; the answer is a list of findings.

use std::fmt;

use rusqlite::Connection;
use rusqlite::types::ValueRef;

use super::entries::{Found, columns};
use super::error::{Fault, StoreError};
use super::rebuild::{self, PROJECTIONS};
use super::{Store, migrate};
use crate::logbook::{EntryId, MachineId};
use crate::reference::Reference;

/// What a check found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Checked {
    /// How many entries there are.
    pub entries: u64,
    /// What is not as it should be; empty when all is well.
    pub findings: Vec<Finding>,
}

/// Something that is not as it should be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Finding {
    /// A page of the file is damaged.
    Structure(String),
    /// An entry does not say what it said when it was written.
    Changed {
        /// The number people use.
        row: i64,
        /// Its id, if that can still be read.
        id: EntryId,
    },
    /// An entry cannot be read.
    Unreadable {
        /// The number people use.
        row: i64,
        /// Why.
        why: String,
    },
    /// Entries of a machine are missing between those that are there.
    Missing {
        /// The machine.
        machine: MachineId,
        /// How many.
        entries: u64,
    },
    /// A table made from the entries is not what a rebuild would make.
    Projection {
        /// The table.
        table: &'static str,
    },
}

impl Finding {
    /// Whether every entry that is there still says what it said.
    const fn leaves_entries_whole(&self) -> bool {
        matches!(self, Finding::Missing { .. } | Finding::Projection { .. })
    }
}

impl fmt::Display for Finding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Finding::Structure(what) => write!(
                f,
                "the file is damaged: {what}: make a copy of it now and go on with the newest back-up"
            ),
            Finding::Changed { row, .. } => write!(
                f,
                "entry #{row} does not say what it said when it was written: compare it with a back-up"
            ),
            Finding::Unreadable { row, why } => write!(
                f,
                "entry #{row} cannot be read ({why}): compare it with a back-up"
            ),
            Finding::Missing { machine, entries } => write!(
                f,
                "{entries} of the entries written on the machine {machine} are not here: merge a back-up or that machine's logbook"
            ),
            Finding::Projection { table } => write!(
                f,
                "the table {table} is not what the entries say: rebuild it; the entries are not touched by that"
            ),
        }
    }
}

impl Store {
    /// Checks the file, every entry, and everything made from them.
    ///
    /// # Errors
    /// When the file cannot be read at all; damage that was found is not an error but a finding.
    pub fn check(&self, reference: &Reference) -> Result<Checked, StoreError> {
        self.read(|db| {
            // One view of the file for all questions, whoever writes meanwhile.
            let view = db.unchecked_transaction()?;
            let entries = rebuild::count(&view)?;
            let mut findings = structure(&view)?;
            findings.extend(hashes(&view)?);
            findings.extend(gaps(&view)?);
            // What is made from the entries can only be judged by entries that are as they were.
            if findings.iter().all(Finding::leaves_entries_whole) {
                findings.extend(projections(&view, reference)?);
            }
            Ok(Checked { entries, findings })
        })
    }
}

/// What SQLite says of the pages, and whether every index says what its table says. The latter finds what
/// no comparison of rows can: a column that stands in an index is read from there, and its row is not
/// looked at.
pub(crate) fn structure(db: &Connection) -> Result<Vec<Finding>, Fault> {
    let mut select = db.prepare("PRAGMA integrity_check")?;
    let mut rows = select.query([])?;
    let mut findings = Vec::new();
    while let Some(row) = rows.next()? {
        let what: String = row.get(0)?;
        if what != "ok" {
            findings.push(Finding::Structure(what));
        }
    }
    Ok(findings)
}

/// The entries that do not have the hash they were written with, or cannot be read.
pub(crate) fn hashes(db: &Connection) -> Result<Vec<Finding>, Fault> {
    let mut select = db.prepare(concat!(
        "SELECT ",
        columns!(),
        " FROM entry ORDER BY entry.row"
    ))?;
    let mut rows = select.query([])?;
    let mut findings = Vec::new();
    while let Some(row) = rows.next()? {
        let number = row.get(0)?;
        let unreadable = |why: String| Finding::Unreadable { row: number, why };
        match Found::read(row) {
            Err(source) => findings.push(unreadable(source.to_string())),
            Ok(found) if !found.is_intact() => findings.push(Finding::Changed {
                row: number,
                id: EntryId(found.row.uuid()),
            }),
            Ok(found) => {
                if let Err(fault) = found.row.entry() {
                    findings.push(unreadable(fault.to_string()));
                }
            }
        }
    }
    Ok(findings)
}

/// The machines some of whose entries are missing.
fn gaps(db: &Connection) -> Result<Vec<Finding>, Fault> {
    let mut select = db.prepare(
        "SELECT machine, max(seq) - count(*) FROM entry GROUP BY machine HAVING count(*) < max(seq)",
    )?;
    let mut rows = select.query([])?;
    let mut findings = Vec::new();
    while let Some(row) = rows.next()? {
        findings.push(Finding::Missing {
            machine: MachineId(uuid::Uuid::from_bytes(row.get(0)?)),
            entries: row.get::<_, i64>(1)?.unsigned_abs(),
        });
    }
    Ok(findings)
}

/// What is read of a table by an index alone.
const COVERED: &[(&str, &str)] = &[
    (
        "touch",
        "SELECT entry, thing, kind FROM touch INDEXED BY touch_entry ORDER BY entry, thing, kind",
    ),
    (
        "link",
        "SELECT parent, child, role, entry FROM link INDEXED BY link_down \
         ORDER BY parent, child, role, entry",
    ),
];

/// The tables that are not what a rebuild makes.
fn projections(db: &Connection, reference: &Reference) -> Result<Vec<Finding>, Fault> {
    let fresh = Connection::open_in_memory()?;
    for step in migrate::STEPS {
        fresh.execute_batch(step)?;
    }
    fresh.execute_batch("BEGIN")?;
    rebuild::make(db, &fresh, reference, &mut |_, _| {})?;
    let mut findings = Vec::new();
    for (table, key) in PROJECTIONS {
        // An index that holds every column is read in place of its table, so it has to say the same.
        let indexes = COVERED.iter().filter(|(covered, _)| covered == table);
        let whole = format!("SELECT * FROM {table} ORDER BY {key}");
        for query in std::iter::once(whole.as_str()).chain(indexes.map(|(_, query)| *query)) {
            if !same(db, &fresh, query)? {
                findings.push(Finding::Projection { table });
                break;
            }
        }
    }
    // The index of the words is laid out by how it grew; how many words each entry has is not.
    if !same(db, &fresh, "SELECT id, sz FROM words_docsize ORDER BY id")? {
        findings.push(Finding::Projection { table: "words" });
    }
    Ok(findings)
}

/// Whether a query has the same answer in two files.
fn same(one: &Connection, other: &Connection, query: &str) -> Result<bool, Fault> {
    let (mut one, mut other) = (one.prepare(query)?, other.prepare(query)?);
    let columns = one.column_count();
    let (mut one, mut other) = (one.query([])?, other.query([])?);
    loop {
        match (one.next()?, other.next()?) {
            (None, None) => return Ok(true),
            (Some(row), Some(wanted)) => {
                for column in 0..columns {
                    let (here, there): (ValueRef<'_>, ValueRef<'_>) =
                        (row.get_ref(column)?, wanted.get_ref(column)?);
                    if here != there {
                        return Ok(false);
                    }
                }
            }
            _ => return Ok(false),
        }
    }
}
