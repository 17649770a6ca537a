//! The replay: each line of the scenario goes the way of any entry.

use std::collections::HashMap;

use chrono::{DateTime, Datelike, FixedOffset};

use super::error::Problem;
use super::scenario::{Act, Shift, Typed};
use crate::craft::TimeZone;
use crate::logbook::draft::{Desk, Drafted, HAPPENED, NOTE, OVER};
use crate::logbook::{Amended, Deed, Draft, EntryId, FieldKind, Kind, Struck, amended};
use crate::reference::Reference;
use crate::store::{AppendError, Store, write_down};
use crate::world::{Scripted, World};

/// The logbook while the scenario is written into it.
pub(super) struct Replay<'a> {
    store: &'a mut Store,
    world: Scripted,
    reference: &'a Reference,
    shift: Shift,
    /// Entries a later line may speak of, with what was said in them.
    marked: HashMap<String, (EntryId, Deed)>,
}

impl<'a> Replay<'a> {
    /// Begins to write into a logbook.
    pub(super) fn new(
        store: &'a mut Store,
        world: Scripted,
        reference: &'a Reference,
        shift: Shift,
    ) -> Replay<'a> {
        Replay {
            store,
            world,
            reference,
            shift,
            marked: HashMap::new(),
        }
    }

    /// Writes one line down, or sees it refused if that is what the scenario says.
    pub(super) fn act(&mut self, act: &Act) -> Result<(), Problem> {
        let now = self.shift.moment(act.at);
        self.world.set(now);
        let kind = Kind::worded(&act.log).ok_or_else(|| Problem::Deed(act.log.clone()))?;
        let mut drafted = Vec::with_capacity(act.entries.len());
        for typed in &act.entries {
            drafted.push(match kind {
                Kind::Struck => self.strike(typed, now),
                Kind::Amended => self.amend(typed, now),
                kind => {
                    let draft = self.fill(Draft::new(kind), typed, now)?;
                    self.at_desk(now, |desk| draft.read(desk))
                        .map_err(Problem::Fields)
                }
            }?);
        }
        let deeds: Vec<Deed> = drafted.iter().map(|one| one.deed.clone()).collect();
        let written = write_down(self.store, &mut self.world, self.reference, drafted);
        let receipt = match (written, act.refused) {
            (Ok(receipt), false) => receipt,
            (Ok(_), true) => return Err(Problem::Taken),
            (Err(AppendError::Refused(_)), true) => return Ok(()),
            (Err(AppendError::Refused(refusal)), false) => {
                return Err(Problem::Refused(Box::new(refusal)));
            }
            (Err(AppendError::Store(error)), _) => return Err(error.into()),
        };
        for ((typed, deed), written) in act.entries.iter().zip(deeds).zip(&receipt.entries) {
            if let Some(mark) = &typed.mark {
                self.marked.insert(mark.clone(), (written.id, deed));
            }
            let got = written.created.as_ref().map(|(_, reference)| reference);
            if typed.makes.as_ref() != got {
                let nothing = || "nothing".to_owned();
                return Err(Problem::OtherReference {
                    wanted: typed.makes.clone().unwrap_or_else(nothing),
                    got: got.cloned().unwrap_or_else(nothing),
                });
            }
        }
        Ok(())
    }

    /// Types the fields into a draft.
    fn fill(
        &self,
        mut draft: Draft,
        typed: &Typed,
        now: DateTime<FixedOffset>,
    ) -> Result<Draft, Problem> {
        for (key, text) in &typed.fields {
            draft.set(key, text.replace("{year}", &now.year().to_string()));
        }
        // Which fields there are depends on the step that was typed.
        let fields = draft.fields(&*self.store, self.reference);
        for (key, text) in &typed.fields {
            match fields.iter().find(|field| field.key == *key) {
                Some(field) if field.kind == FieldKind::Date => {
                    draft.set(key, self.shift.date(text)?);
                }
                Some(_) => {}
                None if key == OVER || key == NOTE => {}
                None => return Err(no_field(draft.kind, key)),
            }
        }
        if let Some(happened) = typed.happened {
            draft.set(HAPPENED, self.shift.moment(happened).to_rfc3339());
        }
        Ok(draft)
    }

    fn strike(&self, typed: &Typed, now: DateTime<FixedOffset>) -> Result<Drafted, Problem> {
        let (entry, _) = self.about(typed)?;
        let (reason, rest) = reason_and_rest(typed)?;
        if let Some(key) = rest.fields.keys().next() {
            return Err(no_field(Kind::Struck, key));
        }
        Ok(Drafted {
            deed: Deed::Struck(Struck {
                entry,
                reason,
                touches: Vec::new(),
            }),
            happened: now,
            over: None,
            note: None,
        })
    }

    /// An amendment is typed over what the entry said: what is not named stays as it was, and
    /// `happened` is when it really happened.
    fn amend(&mut self, typed: &Typed, now: DateTime<FixedOffset>) -> Result<Drafted, Problem> {
        let (entry, deed) = self.about(typed)?;
        let (reason, rest) = reason_and_rest(typed)?;
        let draft = self.fill(Draft::of(&deed, &*self.store), &rest, now)?;
        let deed = self
            .at_desk(now, |desk| amended(&deed, &draft, desk))
            .map_err(Problem::Fields)?;
        Ok(Drafted {
            deed: Deed::Amended(Amended {
                entry,
                deed: Box::new(deed),
                happened: typed.happened.map(|at| self.shift.moment(at)),
                reason,
                touches: Vec::new(),
            }),
            happened: now,
            over: rest.fields.get(OVER).cloned(),
            note: rest.fields.get(NOTE).cloned(),
        })
    }

    /// The entry a strike or an amendment is about, and what was said in it.
    fn about(&self, typed: &Typed) -> Result<(EntryId, Deed), Problem> {
        let mark = typed.entry.as_ref().ok_or(Problem::Missing("entry"))?;
        let found = self.marked.get(mark);
        found.cloned().ok_or_else(|| Problem::NoMark(mark.clone()))
    }

    fn at_desk<T>(
        &mut self,
        now: DateTime<FixedOffset>,
        work: impl FnOnce(&mut Desk<'_>) -> T,
    ) -> T {
        let world = &mut self.world;
        work(&mut Desk {
            names: &*self.store,
            reference: self.reference,
            now,
            zone: TimeZone::Fixed(*now.offset()),
            ids: &mut || world.fresh_id(),
        })
    }
}

/// The reason of a strike or an amendment, and what else was typed.
fn reason_and_rest(typed: &Typed) -> Result<(String, Typed), Problem> {
    let mut rest = typed.clone();
    let reason = rest.fields.remove("reason");
    Ok((reason.ok_or(Problem::Missing("reason"))?, rest))
}

fn no_field(kind: Kind, key: &str) -> Problem {
    Problem::NoField {
        deed: kind.word(),
        key: key.to_owned(),
    }
}
