//! The one way in: an act is proposed, and comes back complete and judged, or refused.
//!
//! [`propose`] takes the entries of one act of the user. Each is completed with what the logbook
//! knows (the sheet that is in a side, the sheets of a run, the next free reference), then put into
//! the history of everything it touches. An entry at the end of a life takes one step; a late
//! entry, a strike and an amendment fold the whole history again, and are refused when something
//! that fitted before would fit no longer. Nothing is written here: the store hands in what it
//! knows as [`Records`] and writes the [`Verdict`] in one transaction.

use std::collections::BTreeMap;

use chrono::{DateTime, FixedOffset, TimeDelta};
use thiserror::Error;

use super::complete::complete;
use super::history::{Misfit, Settled, follow, is_remark, settle, target};
use super::life::{Happening, Life};
use super::refusal::OutOfOrder;
use super::sense::check;
use super::{Deed, Entry, EntryId, Objection, Refusal, Thing, ThingId, ThingKind};
use crate::reference::Reference;

mod words;

/// What the domain may ask of whoever keeps the entries.
pub trait Records {
    /// What can go wrong in asking.
    type Error;

    /// The life of a thing as it stands, or `None` if nothing has happened to it.
    ///
    /// # Errors
    /// When the records cannot be read.
    fn life(&self, thing: ThingId) -> Result<Option<Life>, Self::Error>;

    /// Every entry that touches a thing, in any order, strikes and amendments among them. It may
    /// hold more: the entries these are about, and other words on those.
    ///
    /// # Errors
    /// When the records cannot be read.
    fn history(&self, thing: ThingId) -> Result<Vec<Entry>, Self::Error>;

    /// The entry with this id.
    ///
    /// # Errors
    /// When the records cannot be read.
    fn entry(&self, id: EntryId) -> Result<Option<Entry>, Self::Error>;

    /// The thing of a kind that has a reference.
    ///
    /// # Errors
    /// When the records cannot be read.
    fn called(&self, kind: ThingKind, reference: &str) -> Result<Option<ThingId>, Self::Error>;

    /// The number the next thing of a kind gets.
    ///
    /// # Errors
    /// When the records cannot be read.
    fn next_number(&self, kind: ThingKind) -> Result<u32, Self::Error>;
}

/// Why an act was not taken.
#[derive(Debug, Error)]
pub enum Stop<E> {
    /// The domain says no.
    #[error(transparent)]
    Refused(#[from] Refusal),
    /// The records could not be read.
    #[error("the logbook could not be read")]
    Records(#[source] E),
}

/// An act that was taken, ready to be written.
#[derive(Clone, Debug)]
pub struct Verdict {
    /// Its entries, complete.
    pub entries: Vec<Entry>,
    /// The lives of everything it touches, as they stand after it.
    pub lives: Vec<Life>,
    /// Entries that were there before and now count differently: struck, amended, brought back.
    pub resettled: Vec<Settled>,
}

/// How far ahead of the clock an entry may be said to have happened: clocks differ a little.
const CLOCKS_DIFFER: TimeDelta = TimeDelta::minutes(10);

/// How far ahead it may be once the clock was set back.
const CLOCK_SET_BACK: TimeDelta = TimeDelta::hours(24);

/// Completes and judges the entries of one act, in order.
///
/// # Errors
/// [`Stop::Refused`] when the logbook says no to any of them, and then none of them counts;
/// [`Stop::Records`] when the records could not be read.
pub fn propose<R: Records>(
    records: &R,
    entries: Vec<Entry>,
    reference: &Reference,
) -> Result<Verdict, Stop<R::Error>> {
    let mut bench = Bench {
        records,
        reference,
        lives: BTreeMap::new(),
        taken: Vec::new(),
        resettled: Vec::new(),
    };
    for entry in entries {
        bench.take(entry)?;
    }
    Ok(Verdict {
        entries: bench.taken,
        lives: bench.lives.into_values().collect(),
        resettled: bench.resettled,
    })
}

/// The records with the entries of this act that were taken so far.
pub(super) struct Bench<'a, R: Records> {
    records: &'a R,
    reference: &'a Reference,
    lives: BTreeMap<ThingId, Life>,
    taken: Vec<Entry>,
    resettled: Vec<Settled>,
}

impl<R: Records> Bench<'_, R> {
    fn take(&mut self, mut entry: Entry) -> Result<(), Stop<R::Error>> {
        if entry.happened > entry.written + self.may_be_ahead(&entry)? {
            let happened = entry.happened;
            return Err(Refusal::Future { happened }.into());
        }
        if entry.over.as_ref().is_some_and(|why| why.trim().is_empty()) {
            return Err(Refusal::NoReason.into());
        }
        self.check_target(&entry)?;
        complete(self, &mut entry)?;
        check(&entry.deed).map_err(Refusal::Nonsense)?;
        self.name_created(&mut entry)?;
        let touches = entry.deed.touches();
        self.check_known(&entry, &touches)?;
        let amended = match &entry.deed {
            Deed::Amended(amended) => self.settled_by_id(amended.entry)?,
            _ => None,
        };
        for thing in touches {
            self.place(thing, &entry, amended.as_ref())?;
        }
        self.note_resettled(&entry)?;
        self.taken.push(entry);
        Ok(())
    }

    /// How far ahead of the clock an entry may happen: no more than clocks differ, unless the logbook
    /// holds a later time of what it is about already. Then the clock was set back, and what is counted
    /// by another one goes on from there.
    fn may_be_ahead(&self, entry: &Entry) -> Result<TimeDelta, Stop<R::Error>> {
        if entry.happened <= entry.written + CLOCKS_DIFFER {
            return Ok(CLOCKS_DIFFER);
        }
        for thing in entry.deed.touches() {
            let last = self.life(thing)?.last;
            if last.is_some_and(|(happened, ..)| happened > entry.written.timestamp_micros()) {
                return Ok(CLOCK_SET_BACK);
            }
        }
        Ok(CLOCKS_DIFFER)
    }

    /// Puts an entry into the history of one thing. `amended` is what the entry amends, as it
    /// counted so far.
    fn place(
        &mut self,
        thing: Thing,
        entry: &Entry,
        amended: Option<&Settled>,
    ) -> Result<(), Stop<R::Error>> {
        let mut life = self.life(thing)?;
        let order = entry.order_at(entry.happened);
        let happening = Happening {
            entry: entry.id,
            deed: &entry.deed,
            happened: entry.happened,
            order,
            over: entry.over.as_deref(),
        };
        let is_newest = life.last.is_none_or(|last| last < order);
        if !is_remark(&entry.deed) && (is_newest || life.takes_late(&happening)) {
            if let Err(objection) = life.step(&happening, self.reference) {
                let kind = entry.kind();
                return Err(self
                    .refuse(life, kind, entry.happened, objection, false)
                    .into());
            }
            self.lives.insert(thing.id, life);
            return Ok(());
        }
        if amended.is_some_and(|was| is_all_the_same(&life, was, entry)) {
            self.lives.insert(thing.id, life);
            return Ok(());
        }
        let mut entries = self.touching(thing.id)?;
        entries.push(entry.clone());
        let entries = self.whole(entries)?;
        let (after, misfits) = follow(thing, &settle(entries), self.reference);
        let misfits_before = match misfits.as_slice() {
            // What did not fit before is no matter when everything fits now, which is as good as
            // always.
            [] => Vec::new(),
            _ => {
                let before = settle(self.whole(self.touching(thing.id)?)?);
                follow(thing, &before, self.reference).1
            }
        };
        let mut misfits = misfits.into_iter();
        if let Some(new) = misfits.find(|misfit| is_new(misfit, &misfits_before)) {
            // An amendment is judged by what it puts in the place of its target.
            let own = new.settled.entry.id == entry.id
                || (matches!(entry.deed, Deed::Amended(_))
                    && target(&entry.deed) == Some(new.settled.entry.id));
            let Misfit {
                settled,
                life,
                objection,
            } = new;
            let (kind, happened) = (settled.deed.kind(), settled.happened);
            return Err(self.refuse(life, kind, happened, objection, !own).into());
        }
        self.lives.insert(thing.id, after);
        Ok(())
    }

    fn refuse(
        &self,
        life: Life,
        kind: super::Kind,
        happened: DateTime<FixedOffset>,
        objection: Objection,
        rests: bool,
    ) -> Refusal {
        let now = |id: ThingId| {
            let pending = self.lives.get(&id).cloned();
            pending.or_else(|| self.records.life(id).ok().flatten())
        };
        let called = |id: ThingId| {
            now(id)
                .map(|life| life.reference)
                .filter(|reference| !reference.is_empty())
        };
        let reference = Some(life.reference.clone())
            .filter(|reference| !reference.is_empty())
            .or_else(|| called(life.thing.id))
            .unwrap_or_else(|| format!("this {}", life.thing.kind));
        let comes = match objection {
            Objection::NotYet => now(life.thing.id)
                .filter(|now| !now.is_new())
                .and_then(|now| now.born),
            _ => None,
        };
        Refusal::Order(Box::new(OutOfOrder {
            other: objection.mentions().and_then(called),
            life,
            reference,
            kind,
            happened,
            objection,
            comes,
            rests,
        }))
    }

    /// Gives what comes into being the next free reference, or checks that the one it was given is
    /// free. An amendment that gives none leaves it the one it has.
    fn name_created(&self, entry: &mut Entry) -> Result<(), Stop<R::Error>> {
        let has = match target(&entry.deed) {
            Some(target) => self.settled_by_id(target)?.and_then(|one| {
                let named = one.deed.creates();
                named.map(|(_, reference)| reference.to_owned())
            }),
            None => None,
        };
        let deed = match &mut entry.deed {
            Deed::Amended(amended) => amended.deed.as_mut(),
            deed => deed,
        };
        let Some((thing, reference)) = deed.creates() else {
            return Ok(());
        };
        let given = super::tidy_reference(reference);
        let reference = match (given.is_empty(), has) {
            (false, _) => given,
            (true, Some(has)) => has,
            (true, None) => self.next_reference(thing.kind)?,
        };
        if !thing.kind.may_be_called(&reference) {
            let kind = thing.kind;
            return Err(Refusal::NoReference { reference, kind }.into());
        }
        self.check_free(thing, &reference)?;
        deed.name_created(reference);
        Ok(())
    }

    /// Checks that no other thing of the kind has the reference, with this very act reckoned in.
    fn check_free(&self, thing: Thing, reference: &str) -> Result<(), Stop<R::Error>> {
        let pending = self.lives.values().any(|life| {
            life.thing.kind == thing.kind
                && life.thing.id != thing.id
                && life.reference == reference
        });
        let stored = self
            .records
            .called(thing.kind, reference)
            .map_err(Stop::Records)?
            .is_some_and(|id| id != thing.id && !self.lives.contains_key(&id));
        if pending || stored {
            let (reference, kind) = (reference.to_owned(), thing.kind);
            return Err(Refusal::Taken { reference, kind }.into());
        }
        Ok(())
    }

    fn next_reference(&self, kind: ThingKind) -> Result<String, Stop<R::Error>> {
        let stored = self.records.next_number(kind).map_err(Stop::Records)?;
        let pending = self
            .taken
            .iter()
            .filter_map(|entry| words::named(&entry.deed))
            .filter(|(thing, _)| thing.kind == kind)
            .filter_map(|(_, reference)| kind.number(reference))
            .map(|number| number.saturating_add(1))
            .max();
        let number = stored.max(pending.unwrap_or(0)).max(1);
        Ok(kind.reference(number).unwrap_or_default())
    }

    /// Every thing an entry touches must be there already, but for what it brings into being. What
    /// is there must be what it is taken for.
    fn check_known(&self, entry: &Entry, touches: &[Thing]) -> Result<(), Stop<R::Error>> {
        let deed = match &entry.deed {
            Deed::Amended(amended) => amended.deed.as_ref(),
            deed => deed,
        };
        let made: &[ThingId] = match deed {
            Deed::HolderAdded(added) => &added.side_ids,
            _ => &[],
        };
        let created = deed.creates().map(|(thing, _)| thing.id);
        for thing in touches {
            let known = match self.lives.get(&thing.id) {
                Some(life) => Some(life.thing),
                None => self
                    .records
                    .life(thing.id)
                    .map_err(Stop::Records)?
                    .map(|life| life.thing),
            };
            match known {
                None if made.contains(&thing.id) || created == Some(thing.id) => {}
                None => {
                    return Err(Refusal::Unknown {
                        kind: thing.kind,
                        called: thing.id.to_string(),
                    }
                    .into());
                }
                Some(known) if known.kind != thing.kind => {
                    let reference = self.life(known)?.reference;
                    return Err(Refusal::WrongThing {
                        reference,
                        kind: known.kind,
                        deed: entry.kind(),
                    }
                    .into());
                }
                Some(_) => {}
            }
        }
        Ok(())
    }

    pub(super) fn entry(&self, id: EntryId) -> Result<Option<Entry>, Stop<R::Error>> {
        if let Some(entry) = self.taken.iter().find(|entry| entry.id == id) {
            return Ok(Some(entry.clone()));
        }
        self.records.entry(id).map_err(Stop::Records)
    }

    /// The life of a thing with everything taken so far.
    pub(super) fn life(&self, thing: Thing) -> Result<Life, Stop<R::Error>> {
        if let Some(life) = self.lives.get(&thing.id) {
            return Ok(life.clone());
        }
        let stored = self.records.life(thing.id).map_err(Stop::Records)?;
        Ok(stored
            .filter(|life| life.thing.kind == thing.kind)
            .unwrap_or_else(|| Life::new(thing)))
    }

    /// The life of a thing as it was just before `entry`, which may be an entry of the logbook at
    /// another time or with other figures: then it is left out where it stands.
    pub(super) fn life_before(
        &self,
        thing: Thing,
        entry: &Entry,
        stands: bool,
    ) -> Result<Life, Stop<R::Error>> {
        let now = self.life(thing)?;
        let order = entry.order_at(entry.happened);
        if !stands && now.last.is_none_or(|last| last < order) {
            return Ok(now);
        }
        let mut settled = settle(self.whole(self.touching(thing.id)?)?);
        settled.retain(|one| one.order() < order && one.entry.id != entry.id);
        Ok(follow(thing, &settled, self.reference).0)
    }

    fn touching(&self, thing: ThingId) -> Result<Vec<Entry>, Stop<R::Error>> {
        let mut entries = self.records.history(thing).map_err(Stop::Records)?;
        entries.extend(
            self.taken
                .iter()
                .filter(|entry| entry.deed.is_about(thing))
                .cloned(),
        );
        Ok(entries)
    }
}

/// Whether an amendment changes nothing in a life: it is the newest word on what it amends, leaves it
/// at its time, and what it changes is nothing that this life takes note of.
fn is_all_the_same(life: &Life, was: &Settled, amendment: &Entry) -> bool {
    let Deed::Amended(amended) = &amendment.deed else {
        return false;
    };
    let is_newest = was
        .amended
        .iter()
        .all(|word| word.written < amendment.written);
    let over = amendment.over.as_ref().or(was.over.as_ref());
    is_newest
        && amended.happened.unwrap_or(was.happened) == was.happened
        && over == was.over.as_ref()
        && life.is_the_same_with(&was.deed, &amended.deed)
}

fn is_new(misfit: &Misfit, before: &[Misfit]) -> bool {
    !before
        .iter()
        .any(|old| old.settled.entry.id == misfit.settled.entry.id)
}
