//! A logbook in memory: the least that the domain needs to be asked and to be believed.
//!
//! The unit tests of the domain use it, and so do the tests that drive the domain with random acts.

use std::collections::BTreeMap;
use std::convert::Infallible;

use notchbook::logbook::{
    ActId, Deed, Entry, EntryId, Life, MachineId, Names, Records, Refusal, Settled, Stop, Thing,
    ThingId, ThingKind, Verdict, history::fold_in, propose, settle,
};
use notchbook::reference::Reference;
use uuid::Uuid;

/// A logbook in memory.
#[derive(Clone, Default)]
pub(crate) struct Ledger {
    pub(crate) entries: Vec<Entry>,
    pub(crate) lives: BTreeMap<ThingId, Life>,
    touching: BTreeMap<ThingId, Vec<usize>>,
    numbers: BTreeMap<ThingKind, u32>,
    acts: u128,
}

impl Ledger {
    /// The machine that writes it.
    pub(crate) fn machine() -> MachineId {
        MachineId(Uuid::from_u128(0xAC))
    }

    /// Proposes an act and writes it down when it is taken. The entries get their act, their machine
    /// and their numbers here, and are otherwise as they are given.
    pub(crate) fn write(
        &mut self,
        mut act: Vec<Entry>,
        reference: &Reference,
    ) -> Result<Verdict, Refusal> {
        self.acts += 1;
        for (entry, seq) in act.iter_mut().zip(self.entries.len() as u64 + 1..) {
            entry.act = ActId(Uuid::from_u128(self.acts));
            entry.machine = Ledger::machine();
            entry.seq = seq;
        }
        let verdict = match propose(self, act, reference) {
            Ok(verdict) => verdict,
            Err(Stop::Refused(refusal)) => return Err(refusal),
            Err(Stop::Records(never)) => match never {},
        };
        for entry in &verdict.entries {
            for thing in entry.deed.touches() {
                let touching = self.touching.entry(thing.id).or_default();
                touching.push(self.entries.len());
            }
            let named = match &entry.deed {
                Deed::Amended(amended) => amended.deed.creates(),
                deed => deed.creates(),
            };
            if let Some((thing, reference)) = named
                && let Some(number) = thing.kind.number(reference)
            {
                let highest = self.numbers.entry(thing.kind).or_default();
                *highest = (*highest).max(number);
            }
            self.entries.push(entry.clone());
        }
        for life in &verdict.lives {
            self.lives.insert(life.thing.id, life.clone());
        }
        Ok(verdict)
    }

    /// Every entry with what later entries say of it.
    pub(crate) fn settled(&self) -> Vec<Settled> {
        settle(self.entries.clone())
    }

    /// The first thing whose life is not what a fold of all entries makes of it.
    pub(crate) fn first_astray(&self, reference: &Reference) -> Option<String> {
        let mut folded: BTreeMap<ThingId, Life> = BTreeMap::new();
        for one in self.settled().iter().filter(|one| one.counts()) {
            for thing in one.deed.touches() {
                let life = folded.entry(thing.id).or_insert_with(|| Life::new(thing));
                if let Err(objection) = fold_in(life, one, reference) {
                    return Some(format!("{objection:?}: {one:#?} does not fit {life:#?}"));
                }
            }
        }
        self.lives.values().find_map(|life| {
            let folded = folded
                .remove(&life.thing.id)
                .unwrap_or_else(|| Life::new(life.thing));
            (folded != *life).then(|| format!("as it stands: {life:#?}\nfolded: {folded:#?}"))
        })
    }

    /// What a thing is called.
    pub(crate) fn thing(&self, kind: ThingKind, reference: &str) -> Option<ThingId> {
        self.lives
            .values()
            .find(|life| life.thing.kind == kind && life.reference == reference)
            .map(|life| life.thing.id)
    }
}

impl Records for Ledger {
    type Error = Infallible;

    fn life(&self, thing: ThingId) -> Result<Option<Life>, Infallible> {
        Ok(self.lives.get(&thing).cloned())
    }

    fn history(&self, thing: ThingId) -> Result<Vec<Entry>, Infallible> {
        let touching = self.touching.get(&thing).map_or(&[][..], Vec::as_slice);
        Ok(touching
            .iter()
            .map(|index| self.entries[*index].clone())
            .collect())
    }

    fn entry(&self, id: EntryId) -> Result<Option<Entry>, Infallible> {
        Ok(self.entries.iter().find(|entry| entry.id == id).cloned())
    }

    fn called(&self, kind: ThingKind, reference: &str) -> Result<Option<ThingId>, Infallible> {
        Ok(self.thing(kind, reference))
    }

    fn next_number(&self, kind: ThingKind) -> Result<u32, Infallible> {
        Ok(self.numbers.get(&kind).copied().unwrap_or(0) + 1)
    }
}

impl Names for Ledger {
    fn find(&self, kinds: &[ThingKind], reference: &str) -> Option<Thing> {
        kinds
            .iter()
            .find_map(|kind| self.thing(*kind, reference).map(|id| Thing::new(*kind, id)))
    }

    fn findings(&self) -> Vec<Life> {
        let lives = self.lives.values();
        lives
            .filter(|life| life.finding().is_some())
            .cloned()
            .collect()
    }

    fn life_of(&self, thing: ThingId) -> Option<Life> {
        self.lives.get(&thing).cloned()
    }
}
