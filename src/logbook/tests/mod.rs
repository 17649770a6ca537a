//! The domain driven as a person drives it: what is typed goes in, and the lives are looked at.
//!
//! Each file is one part of the trade. [`Darkroom`] holds a logbook in memory, a clock and ids.

mod baths;
mod begun;
mod developing;
mod doubt;
mod exposing;
mod fields;
mod findings;
mod follows;
mod late;
mod ledger;
mod naming;
mod negatives;
mod offers;
mod planning;
mod prints;
mod refusals;
mod runs;
mod steps;
mod stock;
mod strips;
mod words;

use chrono::{DateTime, FixedOffset, TimeDelta};
use uuid::Uuid;

use super::draft::{Desk, Drafted, HAPPENED, OVER};
use super::follows::{Follow, what_follows};
use super::life::Life;
use super::{
    ActId, Amended, Deed, Draft, Entry, EntryId, Exposed, FieldProblem, Kind, MachineId, Names,
    Refusal, Struck, ThingKind, amended, tidy_reference,
};
use crate::craft::TimeZone;
use crate::reference::Reference;
use ledger::Ledger;

/// A darkroom with a logbook in memory, on 4 March 2026.
struct Darkroom {
    ledger: Ledger,
    reference: Reference,
    now: DateTime<FixedOffset>,
    last_id: u128,
}

impl Darkroom {
    /// An empty logbook at eight in the morning.
    fn new() -> Darkroom {
        let now = DateTime::parse_from_rfc3339("2026-03-04T08:00:00+01:00");
        Darkroom {
            ledger: Ledger::default(),
            reference: Reference::built_in().expect("the built-in reference"),
            now: now.expect("a time"),
            last_id: 0,
        }
    }

    /// A shelf: F-01 (8x10, three sheets), F-02 (4x5), holders H-01 and H-02 with two sides and H-03
    /// with one, L-01, C-01, developer B-0001 and fixer B-0002.
    fn with_a_shelf() -> Darkroom {
        let mut room = Darkroom::new();
        for (size, sheets) in [("8x10", "3"), ("4x5", "10")] {
            let typed = [("film", "FP4 Plus"), ("size", size), ("sheets", sheets)];
            room.log(Kind::BoxAdded, &typed);
        }
        for sides in ["2", "2", "1"] {
            room.log(Kind::HolderAdded, &[("size", "8x10"), ("sides", sides)]);
        }
        room.log(Kind::LensAdded, &[("name", "240 mm, front board")]);
        room.log(Kind::CameraAdded, &[("name", "field camera, cherry")]);
        room.log(
            Kind::BathMixed,
            &[("name", "metol, fresh"), ("purpose", "developer")],
        );
        room.log(
            Kind::BathMixed,
            &[("name", "plain hypo"), ("purpose", "fixer")],
        );
        room
    }

    /// The shelf, and S-0001 and S-0002 developed.
    fn with_negatives() -> Darkroom {
        let mut room = Darkroom::with_a_shelf();
        for side in ["h1a", "h1b"] {
            room.log(Kind::Loaded, &[("side", side), ("film_box", "f1")]);
            room.log(Kind::Exposed, &[("side", side)]);
        }
        room.log(
            Kind::RunBegun,
            &[("sheets", "h1a h1b"), ("developer", "b1")],
        );
        room.log(Kind::RunEnded, &[("run", "r1")]);
        room
    }

    /// Sets the clock to a time of the day.
    fn at(&mut self, time: &str) -> &mut Darkroom {
        let day = self.now.format("%Y-%m-%d");
        let at = DateTime::parse_from_rfc3339(&format!("{day}T{time}:00+01:00"));
        self.now = at.expect("a time of the day");
        self
    }

    fn id(&mut self) -> Uuid {
        self.last_id += 1;
        Uuid::from_u128(self.last_id)
    }

    fn read_draft(&mut self, draft: &Draft) -> Result<Drafted, Vec<FieldProblem>> {
        let Darkroom {
            ledger,
            reference,
            now,
            last_id,
        } = self;
        let mut ids = || {
            *last_id += 1;
            Uuid::from_u128(*last_id)
        };
        draft.read(&mut Desk {
            names: ledger,
            reference,
            now: *now,
            zone: TimeZone::Fixed(*now.offset()),
            ids: &mut ids,
        })
    }

    /// The desk on which drafts are looked at.
    fn desk<'a>(&'a self, ids: &'a mut dyn FnMut() -> Uuid) -> Desk<'a> {
        Desk {
            names: &self.ledger,
            reference: &self.reference,
            now: self.now,
            zone: TimeZone::Fixed(*self.now.offset()),
            ids,
        }
    }

    /// Lets `look` look at the desk on which drafts are read.
    fn at_desk<T>(&mut self, look: impl FnOnce(&Desk<'_>) -> T) -> T {
        look(&self.desk(&mut Uuid::nil))
    }

    /// What stands beside a run or its end, a label before its value.
    fn beside(&mut self, draft: &Draft) -> Vec<String> {
        let lines = self.at_desk(|desk| what_follows(draft, desk, None, &Ok(None)));
        let said = |line: Follow| match line.label.as_str() {
            "" => line.value,
            label => format!("{label}: {}", line.value),
        };
        lines.into_iter().map(said).collect()
    }

    fn read(&mut self, kind: Kind, typed: &[(&str, &str)]) -> Result<Drafted, Vec<FieldProblem>> {
        self.read_draft(&draft(kind, typed))
    }

    /// The lines beside a pane with this typed in it.
    fn follows(&self, kind: Kind, typed: &[(&str, &str)]) -> Vec<Follow> {
        let mut no_ids = Uuid::nil;
        let desk = self.desk(&mut no_ids);
        what_follows(&draft(kind, typed), &desk, None, &Ok(None))
    }

    /// What is wrong with the one field that is wrong.
    fn problem(&mut self, kind: Kind, typed: &[(&str, &str)]) -> String {
        let problems = self.read(kind, typed).expect_err("it cannot be read");
        assert_eq!(problems.len(), 1, "{problems:?}");
        format!("{}: {}", problems[0].key, problems[0].problem)
    }

    fn entry(&mut self, drafted: Drafted) -> Entry {
        Entry {
            id: EntryId(self.id()),
            act: ActId(Uuid::nil()),
            machine: MachineId(Uuid::nil()),
            seq: 0,
            happened: drafted.happened,
            written: self.now,
            deed: drafted.deed,
            over: drafted.over,
            note: drafted.note,
        }
    }

    fn write(&mut self, act: Vec<Drafted>) -> Result<Vec<EntryId>, Refusal> {
        let act: Vec<Entry> = act.into_iter().map(|one| self.entry(one)).collect();
        let ids = act.iter().map(|entry| entry.id).collect();
        let verdict = self.ledger.write(act, &self.reference)?;
        self.now += TimeDelta::minutes(1);
        let astray = self.ledger.first_astray(&self.reference);
        assert_eq!(astray, None, "after {:?}", verdict.entries);
        Ok(ids)
    }

    /// Writes a deed that happens now.
    fn write_deed(&mut self, deed: Deed) -> Result<EntryId, Refusal> {
        let drafted = Drafted {
            deed,
            happened: self.now,
            over: None,
            note: None,
        };
        self.write(vec![drafted]).map(|ids| ids[0])
    }

    fn try_log(&mut self, kind: Kind, typed: &[(&str, &str)]) -> Result<EntryId, Refusal> {
        let drafted = self.read(kind, typed);
        let drafted = drafted.unwrap_or_else(|problems| panic!("{kind} {typed:?}: {problems:?}"));
        self.write(vec![drafted]).map(|ids| ids[0])
    }

    /// Logs one thing that must be taken, a minute after the one before.
    fn log(&mut self, kind: Kind, typed: &[(&str, &str)]) -> EntryId {
        let taken = self.try_log(kind, typed);
        taken.unwrap_or_else(|refusal| panic!("{kind} {typed:?}: {refusal}"))
    }

    /// The refusal of what must not be taken.
    fn refusal(&mut self, kind: Kind, typed: &[(&str, &str)]) -> Refusal {
        let before = self.ledger.lives.clone();
        let refusal = self.try_log(kind, typed).expect_err("it is refused");
        assert_eq!(self.ledger.lives, before, "a refusal changes nothing");
        refusal
    }

    fn try_strike(&mut self, entry: EntryId) -> Result<EntryId, Refusal> {
        self.write_deed(Deed::Struck(Struck {
            entry,
            reason: "logged by mistake".to_owned(),
            touches: Vec::new(),
        }))
    }

    fn strike(&mut self, entry: EntryId) -> EntryId {
        let taken = self.try_strike(entry);
        taken.unwrap_or_else(|refusal| panic!("{refusal}"))
    }

    /// What an amendment of the entry would say, with some of its fields typed anew.
    fn amendment(&mut self, entry: EntryId, typed: &[(&str, &str)]) -> Deed {
        let settled = self.ledger.settled();
        let was = settled.into_iter().find(|one| one.entry.id == entry);
        let was = was.expect("the entry is there").deed;
        let mut draft = Draft::of(&was, &self.ledger);
        for (key, text) in typed {
            draft.set(key, *text);
        }
        let Darkroom {
            ledger,
            reference,
            now,
            last_id,
        } = self;
        let mut ids = || {
            *last_id += 1;
            Uuid::from_u128(*last_id)
        };
        let mut desk = Desk {
            names: ledger,
            reference,
            now: *now,
            zone: TimeZone::Fixed(*now.offset()),
            ids: &mut ids,
        };
        let deed = amended(&was, &draft, &mut desk);
        deed.unwrap_or_else(|problems| panic!("{typed:?}: {problems:?}"))
    }

    /// Amends an entry; `happened` among what is typed moves it, `over` says why it holds.
    fn try_amend(&mut self, entry: EntryId, typed: &[(&str, &str)]) -> Result<EntryId, Refusal> {
        let deed = self.amendment(entry, typed);
        let moved = typed.iter().find(|(key, _)| *key == HAPPENED);
        let happened = moved.map(|(_, text)| {
            let zone = TimeZone::Fixed(*self.now.offset());
            let read = crate::craft::moment::parse(text, self.now, zone);
            read.expect("a time")
        });
        let over = typed.iter().find(|(key, _)| *key == OVER);
        let drafted = Drafted {
            deed: Deed::Amended(Amended {
                entry,
                deed: Box::new(deed),
                happened,
                reason: "written down wrong".to_owned(),
                touches: Vec::new(),
            }),
            happened: self.now,
            over: over.map(|(_, reason)| (*reason).to_owned()),
            note: None,
        };
        self.write(vec![drafted]).map(|ids| ids[0])
    }

    fn amend(&mut self, entry: EntryId, typed: &[(&str, &str)]) -> EntryId {
        let taken = self.try_amend(entry, typed);
        taken.unwrap_or_else(|refusal| panic!("{typed:?}: {refusal}"))
    }

    /// The life of what is called so.
    fn life(&self, reference: &str) -> Life {
        let thing = self
            .ledger
            .find(&ThingKind::ALL, &tidy_reference(reference));
        let thing = thing.unwrap_or_else(|| panic!("no {reference}"));
        self.ledger.lives[&thing.id].clone()
    }

    fn state(&self, reference: &str) -> &'static str {
        self.life(reference).state_word()
    }

    /// What the sheet in a side is called.
    fn sheet_in(&self, side: &str) -> Option<String> {
        let life = self.life(side);
        let sheet = life.side().expect("a side").sheet?;
        Some(self.ledger.reference_of(sheet))
    }

    /// Whether a side is in doubt.
    fn doubts(&self, side: &str) -> bool {
        self.life(side).side().expect("a side").doubt.is_some()
    }
}

fn draft(kind: Kind, typed: &[(&str, &str)]) -> Draft {
    let mut draft = Draft::new(kind);
    for (key, text) in typed {
        draft.set(key, *text);
    }
    draft
}
