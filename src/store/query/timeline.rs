//! The timeline of a thing: every entry that touches it, in the order it happened.
//!
//! Struck and amended entries stay in their place and say what became of them; strikes and
//! amendments are lines of their own. The words are those of
//! [`telling`](crate::logbook::telling), with what the entry set going told beside it: the fate of
//! a print on the timeline of its negative, the end of a run on that of its sheets.

use std::collections::HashMap;

use chrono::TimeDelta;

use super::entry::{by_row, newest_history, numbered_history, settled};
use super::names::Cached;
use super::words;
use crate::logbook::history::{is_remark, target};
use crate::logbook::telling::tell;
use crate::logbook::{Deed, EntryId, Names, Settled, Thing, ThingId, ThingKind, settle};
use crate::reference::Reference;
use crate::store::rows::{Line, Named};
use crate::store::{Store, StoreError};

/// An entry written longer than this after it happened is marked as late.
const SOON_ENOUGH: TimeDelta = TimeDelta::hours(1);

/// Entries of one evening are not always logged in the order they happened; only when this much
/// lies between two of them is the later-written one marked as late.
const OUT_OF_TURN: TimeDelta = TimeDelta::minutes(10);

impl Store {
    /// Every entry that touches a thing, in words, in the order it happened. Empty for a thing that
    /// is not in this logbook.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn timeline(&self, thing: ThingId, reference: &Reference) -> Result<Vec<Line>, StoreError> {
        self.ask_at_once(|db| {
            let (entries, rows) = numbered_history(db, thing)?;
            let names = Cached::new(db);
            let lines = tell_all(settle(entries), &rows, Some(thing), &names, reference);
            names.finish(lines)
        })
    }

    /// Of the timeline of a thing the entries that were written last, in the order they happened; and
    /// whether there are more than these. What is shown of a lens is no longer than what is shown of
    /// a sheet, whatever it has seen.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn end_of_timeline(
        &self,
        thing: ThingId,
        limit: usize,
        reference: &Reference,
    ) -> Result<(Vec<Line>, bool), StoreError> {
        self.ask_at_once(|db| {
            let (entries, rows, more) = newest_history(db, thing, limit)?;
            let names = Cached::new(db);
            let lines = tell_all(settle(entries), &rows, Some(thing), &names, reference);
            names.finish((lines, more))
        })
    }

    /// One entry in words, with all it touches, by the number people use for it.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn entry_line(&self, row: i64, reference: &Reference) -> Result<Option<Line>, StoreError> {
        self.ask_at_once(|db| {
            let Some(entry) = by_row(db, row)? else {
                return Ok(None);
            };
            let id = entry.id;
            let names = Cached::new(db);
            // Whether it is late depends on its neighbours, and the first thing that has few of
            // them is as good as any.
            let neighbourhood = entry.deed.touches().into_iter().find(|thing| {
                !matches!(
                    thing.kind,
                    ThingKind::Lens | ThingKind::Camera | ThingKind::Box | ThingKind::Paper
                )
            });
            let (entries, rows) = match neighbourhood {
                Some(thing) => numbered_history(db, thing.id)?,
                None => (Vec::new(), HashMap::new()),
            };
            if !rows.contains_key(&id) {
                let (alone, numbers) = settled(db, row, entry)?;
                let lines = tell_all(vec![alone], &numbers, None, &names, reference);
                return names.finish(lines.into_iter().next());
            }
            let settled = settle(entries);
            let late = late(&settled);
            let mut all = settled.into_iter().zip(late);
            let line = all
                .find(|(one, _)| one.entry.id == id)
                .map(|(one, late)| tell_one(one, late, &rows, None, &names, reference));
            names.finish(line)
        })
    }
}

/// Tells settled entries. `about` is the thing whose timeline it is, which is not named again among
/// the things of each line.
fn tell_all(
    settled: Vec<Settled>,
    rows: &HashMap<EntryId, i64>,
    about: Option<ThingId>,
    names: &Cached<'_>,
    reference: &Reference,
) -> Vec<Line> {
    let late = late(&settled);
    settled
        .into_iter()
        .zip(late)
        .map(|(one, late)| tell_one(one, late, rows, about, names, reference))
        .collect()
}

fn tell_one(
    one: Settled,
    late: bool,
    rows: &HashMap<EntryId, i64>,
    about: Option<ThingId>,
    names: &Cached<'_>,
    reference: &Reference,
) -> Line {
    let mut telling = tell(&one.deed, names, reference);
    if let Deed::RunBegun(begun) = &one.deed
        && let Some(life) = names.life_of(begun.run)
        && let Some(run) = life.run()
    {
        telling.details.extend(words::steps_taken(run));
    }
    let was = (!one.amended.is_empty()).then(|| tell(&one.entry.deed, names, reference));
    let things: Vec<Thing> = one
        .deed
        .touches()
        .into_iter()
        .filter(|thing| Some(thing.id) != about)
        .collect();
    let outcome = if one.struck.is_some() {
        None
    } else {
        outcome(&one, about, names, reference)
    };
    Line {
        row: rows.get(&one.entry.id).copied().unwrap_or_default(),
        entry: one.entry.id,
        act: one.entry.act,
        machine: one.entry.machine,
        kind: one.deed.kind(),
        happened: one.happened,
        written: one.entry.written,
        late,
        telling,
        was,
        struck: one.struck,
        amended: one.amended,
        over: one.entry.over,
        note: one.entry.note,
        elsewhere: about.is_some_and(|thing| !one.deed.is_about(thing)),
        things: things
            .into_iter()
            .map(|thing| Named {
                thing,
                reference: names.reference_of(thing.id),
            })
            .collect(),
        is_remark: is_remark(&one.deed),
        about: target(&one.deed).and_then(|id| rows.get(&id).copied()),
        outcome,
    }
}

/// Which entries were written late: long after they happened, or when later things had been logged.
fn late(settled: &[Settled]) -> Vec<bool> {
    let mut late = Vec::with_capacity(settled.len());
    // The earliest writing of anything that happened later, walking backwards in time.
    let mut soonest_after = None;
    for one in settled.iter().rev() {
        let written = one.entry.written;
        let out_of_turn = soonest_after.is_some_and(|soonest| written - soonest > OUT_OF_TURN);
        late.push(written - one.happened > SOON_ENOUGH || out_of_turn);
        if !is_remark(&one.deed) {
            soonest_after = Some(soonest_after.map_or(written, |soonest| written.min(soonest)));
        }
    }
    late.reverse();
    late
}

/// What became of what was begun by an entry, for the timelines of the things it was begun from; of a step,
/// what was given of its time.
fn outcome(
    one: &Settled,
    about: Option<ThingId>,
    names: &Cached<'_>,
    reference: &Reference,
) -> Option<String> {
    let begun = match &one.deed {
        Deed::PrintBegun(begun) => begun.print,
        Deed::RunBegun(begun) => begun.run,
        Deed::StepBegun(begun) => {
            let life = names.life_of(begun.thing.id)?;
            let steps = match (life.run(), life.print()) {
                (Some(run), _) => &run.steps,
                (_, Some(print)) => &print.timed,
                _ => return None,
            };
            let mut taken = steps.all().iter().filter(|step| step.ended.is_some());
            return taken
                .find(|step| step.entry == one.entry.id)
                .map(words::step_taken);
        }
        _ => return None,
    };
    if about == Some(begun) {
        return None;
    }
    let life = names.life_of(begun)?;
    let fate = if let Some(print) = life.print() {
        format!(
            "{}, {}",
            words::process(&print.process, reference),
            words::fate(print)
        )
    } else {
        let run = life.run()?;
        let steps = words::steps_taken(run).into_iter();
        let steps = steps.map(|(step, told)| format!("; {step} {told}"));
        words::run_so_far(run) + &steps.collect::<String>()
    };
    Some(format!("{} {fate}", life.reference))
}
