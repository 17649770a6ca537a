//! The store driven as a person drives it: typed drafts in, and what the file then says.

mod appending;

use std::path::PathBuf;
use std::time::Duration;

use chrono::DateTime;
use tempfile::TempDir;

use super::entries;
use super::{AppendError, Receipt, Store, write_down};
use crate::logbook::draft::{Desk, Drafted, HAPPENED, NOTE, OVER};
use crate::logbook::{Amended, Deed, Draft, EntryId, Kind, Struck};
use crate::reference::Reference;
use crate::world::{Scripted, World};

/// A darkroom with a logbook in a folder of its own.
struct Darkroom {
    folder: TempDir,
    world: Scripted,
    reference: Reference,
    store: Store,
}

impl Darkroom {
    fn new() -> Darkroom {
        Darkroom::on(tempfile::tempdir().expect("a folder"))
    }

    fn on(folder: TempDir) -> Darkroom {
        let now = DateTime::parse_from_rfc3339("2026-03-04T16:02:11.5+01:00").expect("a time");
        let mut world = Scripted::new(now);
        let path = folder.path().join("own.notchbook");
        let store = Store::create(&path, &mut world).expect("a new logbook");
        Darkroom {
            folder,
            world,
            reference: Reference::built_in().expect("the reference data"),
            store,
        }
    }

    fn path(&self) -> PathBuf {
        self.folder.path().join("own.notchbook")
    }

    /// Reads a draft; keys that begin with `figures.` are figures of a step.
    fn draft(&mut self, kind: Kind, typed: &[(&str, &str)]) -> Drafted {
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
        let now = self.world.now();
        let world = &mut self.world;
        let mut desk = Desk {
            names: &self.store,
            reference: &self.reference,
            now,
            ids: &mut || world.fresh_id(),
        };
        draft.read(&mut desk).expect("a draft that can be read")
    }

    fn write(&mut self, drafted: Vec<Drafted>) -> Result<Receipt, AppendError> {
        self.world.wait(Duration::from_secs(60));
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

    /// Amends an entry: the fields named are typed anew, the others stay.
    fn amend(&mut self, row: i64, typed: &[(&str, &str)]) -> i64 {
        let entry = self.entry_id(row);
        let now = self.world.now();
        let before = self.deed(row);
        let mut draft = Draft::of(&before, &self.store);
        for (key, text) in typed {
            draft.set(key, *text);
        }
        let world = &mut self.world;
        let mut desk = Desk {
            names: &self.store,
            reference: &self.reference,
            now,
            ids: &mut || world.fresh_id(),
        };
        let drafted = draft.read(&mut desk).expect("a draft that can be read");
        let happened = typed
            .iter()
            .any(|(key, _)| *key == HAPPENED)
            .then_some(drafted.happened);
        let deed = same_things(drafted.deed, &before);
        match self.remark(Deed::Amended(Amended {
            entry,
            deed: Box::new(deed),
            happened,
            reason: "misread".to_owned(),
            touches: Vec::new(),
        })) {
            Ok(receipt) => receipt.entries[0].row,
            Err(problem) => panic!("amend #{row} {typed:?}: {problem}"),
        }
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

/// An amendment is about the thing that came into being then, so the new ids a draft brings are
/// replaced by the old ones.
fn same_things(mut amended: Deed, before: &Deed) -> Deed {
    match (&mut amended, before) {
        (Deed::BoxAdded(new), Deed::BoxAdded(old)) => new.film_box = old.film_box,
        (Deed::HolderAdded(new), Deed::HolderAdded(old)) => {
            new.holder = old.holder;
            new.side_ids.clone_from(&old.side_ids);
        }
        (Deed::Loaded(new), Deed::Loaded(old)) => new.sheet = old.sheet,
        (Deed::RunBegun(new), Deed::RunBegun(old)) => new.run = old.run,
        (Deed::PrintBegun(new), Deed::PrintBegun(old)) => new.print = old.print,
        _ => {}
    }
    amended
}
