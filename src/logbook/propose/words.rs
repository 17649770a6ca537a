//! Words about entries: strikes and amendments, and everything said of one entry.
//!
//! An entry, the words about it and the words about those words are a family. An amendment may bring
//! in things that the entry knew nothing of, so the history of a thing is whole only with the
//! families of all the words in it.

use std::collections::HashSet;

use super::{Bench, CLOCKS_DIFFER, Records, Stop};
use crate::logbook::history::{Settled, is_remark, settle, target};
use crate::logbook::{Deed, Entry, EntryId, Refusal, Thing};

/// The thing that is given a reference by a deed, or by the amendment of one.
pub(super) fn named(deed: &Deed) -> Option<(Thing, &str)> {
    match deed {
        Deed::Amended(amended) => amended.deed.creates(),
        deed => deed.creates(),
    }
}

impl<R: Records> Bench<'_, R> {
    /// What a strike or an amendment is about must be there and must bear it; what it touched is
    /// filled in by [`complete`].
    pub(super) fn check_target(&self, entry: &Entry) -> Result<(), Stop<R::Error>> {
        let Some(target) = target(&entry.deed) else {
            return Ok(());
        };
        let Some(about) = self.entry(target)? else {
            return Err(Refusal::NoSuchEntry.into());
        };
        let reason = match &entry.deed {
            Deed::Struck(struck) => &struck.reason,
            Deed::Amended(amended) => {
                if is_remark(&about.deed) {
                    return Err(Refusal::AmendedRemark.into());
                }
                let created = |deed: &Deed| deed.creates().map(|(thing, _)| thing);
                if amended.deed.kind() != about.deed.kind()
                    || created(&amended.deed) != created(&about.deed)
                {
                    let kind = about.deed.kind();
                    return Err(Refusal::OtherKind { kind }.into());
                }
                if let Some(happened) = amended.happened
                    && happened > entry.written + CLOCKS_DIFFER
                {
                    return Err(Refusal::Future { happened }.into());
                }
                &amended.reason
            }
            _ => return Ok(()),
        };
        if reason.trim().is_empty() {
            return Err(Refusal::NoReason.into());
        }
        let settled = self.settled(&about)?;
        if settled.is_some_and(|one| one.struck.is_some()) {
            return Err(Refusal::AlreadyStruck.into());
        }
        Ok(())
    }

    /// Remembers which earlier entry now counts differently. What is brought back may find that
    /// another thing has its reference by now.
    pub(super) fn note_resettled(&mut self, entry: &Entry) -> Result<(), Stop<R::Error>> {
        if target(&entry.deed).is_none() {
            return Ok(());
        }
        let Some(root) = self.root_of(entry)? else {
            return Ok(());
        };
        let mut family = self.family(&root)?;
        family.push(entry.clone());
        if let Some(settled) = settle(family)
            .into_iter()
            .find(|one| one.entry.id == root.id)
        {
            if settled.struck.is_none()
                && let Some((thing, reference)) = settled.deed.creates()
            {
                self.check_free(thing, reference)?;
            }
            self.resettled.retain(|one| one.entry.id != root.id);
            self.resettled.push(settled);
        }
        Ok(())
    }

    /// An entry with what is said of it so far.
    pub(in crate::logbook) fn settled(
        &self,
        about: &Entry,
    ) -> Result<Option<Settled>, Stop<R::Error>> {
        let Some(root) = self.root_of(about)? else {
            return Ok(None);
        };
        let settled = settle(self.family(&root)?);
        Ok(settled.into_iter().find(|one| one.entry.id == about.id))
    }

    pub(super) fn settled_by_id(&self, id: EntryId) -> Result<Option<Settled>, Stop<R::Error>> {
        match self.entry(id)? {
            Some(about) => self.settled(&about),
            None => Ok(None),
        }
    }

    /// Everything that an entry, or the entry it is a word about, was ever said to touch.
    pub(in crate::logbook) fn all_touched(
        &self,
        about: &Entry,
    ) -> Result<Vec<Thing>, Stop<R::Error>> {
        let mut touches = about.deed.touches();
        if let Some(root) = self.root_of(about)? {
            for one in self.family(&root)? {
                touches.extend(one.deed.touches());
            }
        }
        touches.sort_unstable();
        touches.dedup();
        Ok(touches)
    }

    /// The entry at the end of a chain of words about words; the entry itself if it is none.
    pub(super) fn root_of(&self, entry: &Entry) -> Result<Option<Entry>, Stop<R::Error>> {
        let mut root = entry.clone();
        let mut passed = vec![root.id];
        while let Some(about) = target(&root.deed) {
            // A circle is only in a damaged file.
            if passed.contains(&about) {
                return Ok(None);
            }
            passed.push(about);
            match self.entry(about)? {
                Some(next) => root = next,
                None => return Ok(None),
            }
        }
        Ok(Some(root))
    }

    /// An entry and every word about it or about such a word. They all touch what the entry touches
    /// as it was written, so they stand together in the history of any such thing.
    pub(super) fn family(&self, root: &Entry) -> Result<Vec<Entry>, Stop<R::Error>> {
        let Some(thing) = root.deed.touches().first().copied() else {
            return Ok(vec![root.clone()]);
        };
        let mut others = self.touching(thing.id)?;
        let mut family = vec![root.clone()];
        let mut members = HashSet::from([root.id]);
        loop {
            let is_member = |entry: &mut Entry| {
                target(&entry.deed).is_some_and(|about| members.contains(&about))
            };
            let found: Vec<Entry> = others.extract_if(.., is_member).collect();
            if found.is_empty() {
                return Ok(family);
            }
            members.extend(found.iter().map(|entry| entry.id));
            family.extend(found);
        }
    }

    /// The entries with the families of all strikes and amendments among them.
    pub(super) fn whole(&self, mut entries: Vec<Entry>) -> Result<Vec<Entry>, Stop<R::Error>> {
        let mut known: HashSet<EntryId> = entries.iter().map(|entry| entry.id).collect();
        let words: Vec<Entry> = entries
            .iter()
            .filter(|entry| target(&entry.deed).is_some_and(|about| !known.contains(&about)))
            .cloned()
            .collect();
        for word in words {
            if let Some(root) = self.root_of(&word)? {
                let family = self.family(&root)?;
                entries.extend(family.into_iter().filter(|one| known.insert(one.id)));
            }
        }
        Ok(entries)
    }
}
