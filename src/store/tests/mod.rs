//! The store driven as a person drives it: typed drafts in, and what the file then says.

mod appending;
mod damage;
mod files;
mod processes;
mod random;
mod rebuilding;
mod upgrading;

use std::path::{Path, PathBuf};
use std::time::Duration;

use chrono::{DateTime, FixedOffset};
use rusqlite::Connection;
use tempfile::TempDir;

use super::entries;
use super::{AppendError, Receipt, Store, write_down};
use crate::craft::moment;
use crate::logbook::amending::amended;
use crate::logbook::draft::{Desk, Drafted, HAPPENED, NOTE, OVER};
use crate::logbook::{Amended, Deed, Draft, EntryId, FieldProblem, Kind, Struck};
use crate::reference::Reference;
use crate::world::{Scripted, System, World};

/// When the tests take place.
fn now() -> DateTime<FixedOffset> {
    DateTime::parse_from_rfc3339("2026-03-04T16:02:11.5+01:00").expect("a time")
}

/// A world that can be made to wait.
trait TestWorld: World {
    fn pass(&mut self, by: Duration);
}

impl TestWorld for Scripted {
    fn pass(&mut self, by: Duration) {
        self.wait(by);
    }
}

impl TestWorld for System {
    fn pass(&mut self, _by: Duration) {}
}

/// A darkroom with a logbook.
struct Darkroom<W: TestWorld = Scripted> {
    store: Store,
    world: W,
    reference: Reference,
    /// A folder of its own for the logbook, which goes when the darkroom does.
    folder: TempDir,
}

impl Darkroom {
    fn new() -> Darkroom {
        let mut world = Scripted::new(now());
        let folder = tempfile::tempdir().expect("a folder");
        let store = Store::create(&folder.path().join("own.notchbook"), &mut world);
        Darkroom {
            folder,
            ..Darkroom::in_world(store.expect("a new logbook"), world)
        }
    }

    /// With a new logbook somewhere else.
    fn at(path: &Path) -> Darkroom {
        let mut world = Scripted::new(now());
        let store = Store::create(path, &mut world);
        Darkroom::in_world(store.expect("a new logbook"), world)
    }

    /// With a logbook that is there.
    fn of(store: Store) -> Darkroom {
        Darkroom::in_world(store, Scripted::new(now()))
    }
}

impl<W: TestWorld> Darkroom<W> {
    fn in_world(store: Store, world: W) -> Darkroom<W> {
        Darkroom {
            store,
            world,
            reference: Reference::built_in().expect("the reference data"),
            folder: tempfile::tempdir().expect("a folder"),
        }
    }

    fn path(&self) -> PathBuf {
        self.store.path().to_owned()
    }

    fn draft(&mut self, kind: Kind, typed: &[(&str, &str)]) -> Drafted {
        self.read(kind, typed).expect("a draft that can be read")
    }

    /// Reads a draft; keys that begin with `figures.` are figures of a step.
    fn read(&mut self, kind: Kind, typed: &[(&str, &str)]) -> Result<Drafted, Vec<FieldProblem>> {
        let mut draft = Draft::new(kind);
        for (key, text) in typed {
            draft.set(key, *text);
        }
        let known = kind.fields();
        for (key, _) in typed {
            assert!(
                key.starts_with("figures.")
                    || [HAPPENED, OVER, NOTE].contains(key)
                    || known.iter().any(|field| field.key == *key),
                "{kind} has no field {key}"
            );
        }
        let (now, zone) = (self.world.now(), self.world.zone());
        let world = &mut self.world;
        let mut desk = Desk {
            names: &self.store,
            reference: &self.reference,
            now,
            zone,
            ids: &mut || world.fresh_id(),
        };
        draft.read(&mut desk)
    }

    fn write(&mut self, drafted: Vec<Drafted>) -> Result<Receipt, AppendError> {
        self.world.pass(Duration::from_secs(60));
        write_down(&mut self.store, &mut self.world, &self.reference, drafted)
    }

    fn try_log(&mut self, kind: Kind, typed: &[(&str, &str)]) -> Result<Receipt, AppendError> {
        let drafted = self.draft(kind, typed);
        self.write(vec![drafted])
    }

    /// Logs one entry that must be taken, and gives its row.
    fn log(&mut self, kind: Kind, typed: &[(&str, &str)]) -> i64 {
        match self.try_log(kind, typed) {
            Ok(receipt) => receipt.entries[0].row,
            Err(problem) => panic!("{kind} {typed:?}: {problem}"),
        }
    }

    /// Does to the file what only another program can do.
    fn damage(&self, sql: &str) {
        Connection::open(self.path())
            .and_then(|db| db.execute_batch(sql))
            .expect("damage done");
    }

    fn entry_id(&self, row: i64) -> EntryId {
        let id = self
            .store
            .db
            .query_row("SELECT id FROM entry WHERE row = ?1", [row], |found| {
                found.get(0)
            });
        EntryId(uuid::Uuid::from_bytes(id.expect("the entry is there")))
    }

    fn deed(&self, row: i64) -> Deed {
        let found = entries::by_id(&self.store.db, self.entry_id(row)).expect("readable");
        let entry = found.expect("the entry is there").row.entry();
        entry.expect("readable").deed
    }

    fn remark(&mut self, deed: Deed) -> Result<Receipt, AppendError> {
        let happened = self.world.now();
        self.write(vec![Drafted {
            deed,
            happened,
            over: None,
            note: None,
        }])
    }

    fn try_strike(&mut self, row: i64) -> Result<Receipt, AppendError> {
        let entry = self.entry_id(row);
        self.remark(Deed::Struck(Struck {
            entry,
            reason: "it was not so".to_owned(),
            touches: Vec::new(),
        }))
    }

    fn strike(&mut self, row: i64) -> i64 {
        match self.try_strike(row) {
            Ok(receipt) => receipt.entries[0].row,
            Err(problem) => panic!("strike #{row}: {problem}"),
        }
    }

    /// What an entry should have said: the fields named are typed anew, the others stay.
    fn said_anew(
        &mut self,
        row: i64,
        typed: &[(&str, &str)],
    ) -> Result<Amended, Vec<FieldProblem>> {
        let entry = self.entry_id(row);
        let (now, zone) = (self.world.now(), self.world.zone());
        let before = self.deed(row);
        let mut draft = Draft::of(&before, &self.store);
        for (key, text) in typed {
            draft.set(key, *text);
        }
        let happened = (!draft.get(HAPPENED).is_empty())
            .then(|| moment::parse(draft.get(HAPPENED), now, zone).expect("a time"));
        let world = &mut self.world;
        let mut desk = Desk {
            names: &self.store,
            reference: &self.reference,
            now,
            zone,
            ids: &mut || world.fresh_id(),
        };
        Ok(Amended {
            entry,
            deed: Box::new(amended(&before, &draft, &mut desk)?),
            happened,
            reason: "misread".to_owned(),
            touches: Vec::new(),
        })
    }

    fn amend(&mut self, row: i64, typed: &[(&str, &str)]) -> i64 {
        let amended = self.said_anew(row, typed);
        match self.remark(Deed::Amended(amended.expect("a draft that can be read"))) {
            Ok(receipt) => receipt.entries[0].row,
            Err(problem) => panic!("amend #{row} {typed:?}: {problem}"),
        }
    }

    /// Everything in the file, line by line, but for the inner layout of the search index.
    fn everything(&self) -> Vec<String> {
        everything(&self.store.db)
    }

    fn count(&self, query: &str) -> i64 {
        let count = self.store.db.query_row(query, [], |row| row.get(0));
        count.expect("a number")
    }

    fn text(&self, query: &str) -> String {
        let text = self.store.db.query_row(query, [], |row| row.get(0));
        text.expect("a text")
    }
}

/// Makes sure that two files say the same, and shows only what differs.
fn assert_same(now: &[String], before: &[String]) {
    let only = |these: &[String], those: &[String]| -> Vec<String> {
        let lines = these.iter().filter(|line| !those.contains(line));
        lines.cloned().collect()
    };
    assert_eq!(only(now, before), only(before, now));
    assert_eq!(now.len(), before.len());
}

fn everything(db: &Connection) -> Vec<String> {
    let mut tables = db
        .prepare(
            "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'words%' \
             AND name NOT LIKE 'sqlite_%' ORDER BY name",
        )
        .expect("a query");
    let tables = tables.query_map([], |row| row.get::<_, String>(0));
    let mut lines = Vec::new();
    db.execute_batch(
        "CREATE VIRTUAL TABLE IF NOT EXISTS temp.every_word USING fts5vocab ('main', 'words', 'instance')",
    )
    .expect("the words");
    let words = "temp.every_word".to_owned();
    for table in tables.expect("the tables").flatten().chain([words]) {
        let mut rows = db
            .prepare(&format!("SELECT * FROM {table}"))
            .expect("a query");
        let columns = rows.column_count();
        let read = rows.query_map([], |row| {
            let values: Result<Vec<String>, _> = (0..columns)
                .map(|column| row.get_ref(column).map(|value| format!("{value:?}")))
                .collect();
            Ok(format!("{table}: {}", values?.join(" | ")))
        });
        lines.extend(read.expect("the rows").map(|line| line.expect("a row")));
    }
    lines.sort();
    lines
}
