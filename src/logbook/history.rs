//! The history of a thing: its entries with strikes and amendments taken into account.
//!
//! [`settle`] says of every entry whether it still counts and with which figures. A strike may be
//! struck itself, which brings the entry back; an amendment may be struck, which brings the old
//! figures back. [`follow`] then folds what counts into a life and lists what does not fit, so a
//! logbook that was merged or edited by hand always opens.

use std::collections::{HashMap, HashSet};

use chrono::{DateTime, FixedOffset};
use serde::Serialize;

use super::life::{Happening, Life};
use super::{Deed, Entry, EntryId, Objection, OrderKey, Thing};
use crate::reference::Reference;

/// A later word on an entry: a strike or an amendment that still counts.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Remark {
    /// The entry that says so.
    pub by: EntryId,
    /// When it was written.
    pub written: DateTime<FixedOffset>,
    /// Why.
    pub reason: String,
}

/// An entry with what later entries say of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Settled {
    /// The entry as it was written.
    pub entry: Entry,
    /// What counts: its own deed, or that of its last amendment.
    pub deed: Deed,
    /// When it counts as having happened.
    pub happened: DateTime<FixedOffset>,
    /// Why the usual order does not hold here: said with the entry, or with an amendment of it.
    pub over: Option<String>,
    /// Whether it is crossed out.
    pub struck: Option<Remark>,
    /// Its amendments, in the order they were written; the last one counts.
    pub amended: Vec<Remark>,
}

impl Settled {
    /// An entry nothing has been said of.
    pub fn plain(entry: Entry) -> Settled {
        Settled {
            deed: entry.deed.clone(),
            happened: entry.happened,
            over: entry.over.clone(),
            struck: None,
            amended: Vec::new(),
            entry,
        }
    }

    /// Whether the entry counts in the lives of what it touches. Strikes and amendments are words
    /// about entries and move no life themselves.
    pub fn counts(&self) -> bool {
        self.struck.is_none() && !is_remark(&self.deed)
    }

    /// Where it stands among others.
    pub fn order(&self) -> OrderKey {
        self.entry.order_at(self.happened)
    }

    /// Takes in a word about it that counts.
    fn hear(&mut self, word: &Entry) {
        let remark = |reason: &String| Remark {
            by: word.id,
            written: word.written,
            reason: reason.clone(),
        };
        match &word.deed {
            Deed::Struck(struck) => self.struck = Some(remark(&struck.reason)),
            Deed::Amended(amended) => {
                self.deed = (*amended.deed).clone();
                self.happened = amended.happened.unwrap_or(self.happened);
                self.over = word.over.clone().or(self.over.take());
                self.amended.push(remark(&amended.reason));
            }
            _ => {}
        }
    }

    /// As a life sees it.
    pub fn happening(&self) -> Happening<'_> {
        Happening {
            entry: self.entry.id,
            deed: &self.deed,
            happened: self.happened,
            order: self.order(),
            over: self.over.as_deref(),
        }
    }
}

/// Whether a deed is a word about another entry.
pub fn is_remark(deed: &Deed) -> bool {
    matches!(deed, Deed::Struck(_) | Deed::Amended(_))
}

/// The entry a strike or an amendment is about.
pub fn target(deed: &Deed) -> Option<EntryId> {
    match deed {
        Deed::Struck(struck) => Some(struck.entry),
        Deed::Amended(amended) => Some(amended.entry),
        _ => None,
    }
}

/// Says of every entry whether it still counts and with which figures, in the order they happened.
/// Give it every entry that touches a thing, and with each strike or amendment the entry it is about
/// and every other word on that entry: an amendment may bring in things that the entry it amends
/// knew nothing of.
pub fn settle(entries: Vec<Entry>) -> Vec<Settled> {
    let words = entries.iter().filter(|entry| is_remark(&entry.deed));
    let mut words: Vec<Entry> = words.cloned().collect();
    words.sort_by_key(|word| (word.written.timestamp_micros(), word.machine, word.seq));
    let struck = struck_entries(&words);
    let mut about: HashMap<EntryId, Vec<&Entry>> = HashMap::new();
    for word in words.iter().filter(|word| !struck.contains(&word.id)) {
        if let Some(target) = target(&word.deed) {
            about.entry(target).or_default().push(word);
        }
    }
    let mut settled: Vec<Settled> = entries.into_iter().map(Settled::plain).collect();
    if !about.is_empty() {
        for one in &mut settled {
            for word in about.get(&one.entry.id).into_iter().flatten() {
                one.hear(word);
            }
        }
    }
    settled.sort_by_key(Settled::order);
    settled
}

/// The entries that are crossed out by a strike that is not crossed out itself. The last word of a
/// chain of strikes counts; a circle of strikes, which only a damaged file can hold, strikes
/// nothing.
fn struck_entries(words: &[Entry]) -> HashSet<EntryId> {
    let mut strikes: HashMap<EntryId, EntryId> = HashMap::new();
    let mut waiting: HashMap<EntryId, usize> = HashMap::new();
    for word in words {
        if let Deed::Struck(strike) = &word.deed {
            strikes.insert(word.id, strike.entry);
            *waiting.entry(strike.entry).or_default() += 1;
        }
    }
    // A strike can be judged when every strike of it has been: work from the ends of the chains.
    let ends = strikes.keys().filter(|id| !waiting.contains_key(*id));
    let mut ready: Vec<EntryId> = ends.copied().collect();
    let mut struck = HashSet::new();
    while let Some(strike) = ready.pop() {
        let Some(target) = strikes.get(&strike) else {
            continue;
        };
        if !struck.contains(&strike) {
            struck.insert(*target);
        }
        if let Some(left) = waiting.get_mut(target) {
            *left = left.saturating_sub(1);
            if *left == 0 {
                ready.push(*target);
            }
        }
    }
    struck
}

/// An entry that counts but does not fit the life of a thing it touches.
#[derive(Clone, Debug, PartialEq)]
pub struct Misfit {
    /// The entry.
    pub settled: Settled,
    /// The life up to it.
    pub life: Life,
    /// Why it does not fit.
    pub objection: Objection,
}

/// Folds one settled entry that counts into a life it is part of.
///
/// # Errors
/// When it does not fit. The life then only remembers that it stands there.
pub fn fold_in(life: &mut Life, one: &Settled, reference: &Reference) -> Result<(), Objection> {
    life.step(&one.happening(), reference).inspect_err(|_| {
        // What comes before it could still make it fit, and so has to fold it again.
        life.last = life.last.max(Some(one.order()));
    })
}

/// Folds what counts of a thing's settled entries into its life, and lists what does not fit.
pub fn follow(thing: Thing, settled: &[Settled], reference: &Reference) -> (Life, Vec<Misfit>) {
    let mut life = Life::new(thing);
    let mut misfits = Vec::new();
    for one in settled {
        if !one.counts() || !one.deed.is_about(thing.id) {
            continue;
        }
        if let Err(objection) = fold_in(&mut life, one, reference) {
            misfits.push(Misfit {
                settled: one.clone(),
                life: life.clone(),
                objection,
            });
        }
    }
    (life, misfits)
}
