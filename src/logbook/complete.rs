//! What an entry need not say because the logbook knows it.
//!
//! A person says "expose H-07 A"; the log knows which sheet is in it. What is filled in is what was
//! true just before the entry happened, so a late entry names the sheet that was there then. What is
//! said is never overwritten.

use super::counting::steps_of;
use super::life::Steps;
use super::propose::{Bench, Records, Stop};
use super::{Deed, Entry, Life, RunBegun, SheetInRun, Thing, ThingId, ThingKind};
use crate::craft::{Area, Seconds};

/// Fills in what the logbook knows.
pub(super) fn complete<R: Records>(
    bench: &Bench<'_, R>,
    entry: &mut Entry,
) -> Result<(), Stop<R::Error>> {
    complete_as_of(bench, entry, false)
}

/// Fills in what was known just before the entry; `stands` says that it is an entry of the logbook
/// with other figures or at another time.
fn complete_as_of<R: Records>(
    bench: &Bench<'_, R>,
    entry: &mut Entry,
    stands: bool,
) -> Result<(), Stop<R::Error>> {
    let as_it_was = entry.clone();
    let at = |thing: Thing| bench.life_before(thing, &as_it_was, stands);
    let sheet_in = |side: ThingId| -> Result<Option<ThingId>, Stop<R::Error>> {
        let life = at(Thing::new(ThingKind::Side, side))?;
        Ok(life.side().and_then(|side| side.sheet))
    };
    let side_of = |sheet: ThingId| -> Result<Option<ThingId>, Stop<R::Error>> {
        let life = at(Thing::new(ThingKind::Sheet, sheet))?;
        Ok(life.sheet().and_then(|sheet| sheet.side))
    };
    match &mut entry.deed {
        Deed::Loaded(loaded) => {
            if loaded.size.is_none() {
                let film_box = at(Thing::new(ThingKind::Box, loaded.film_box))?;
                loaded.size = film_box.film_box().and_then(|film_box| film_box.size);
            }
            if loaded.again && loaded.reference.is_empty() {
                loaded.reference = at(Thing::new(ThingKind::Sheet, loaded.sheet))?.reference;
            }
        }
        Deed::Unloaded(unloaded) => {
            if unloaded.sheet.is_none() {
                unloaded.sheet = sheet_in(unloaded.side)?;
            }
            if let (None, Some(sheet)) = (unloaded.film_box, unloaded.sheet) {
                let life = at(Thing::new(ThingKind::Sheet, sheet))?;
                unloaded.film_box = life
                    .sheet()
                    .filter(|sheet| sheet.state == super::life::SheetState::Loaded)
                    .and_then(|sheet| sheet.film_box);
            }
        }
        Deed::Exposed(exposed) => match (exposed.side, exposed.sheet) {
            (Some(side), None) => exposed.sheet = sheet_in(side)?,
            (None, Some(sheet)) => exposed.side = side_of(sheet)?,
            _ => {}
        },
        Deed::ExposureBegun(begun) if begun.sheet.is_none() => {
            begun.sheet = sheet_in(begun.side)?;
        }
        Deed::ExposureDropped(dropped) if dropped.sheet.is_none() => {
            dropped.sheet = sheet_in(dropped.side)?;
        }
        Deed::Fogged(fogged) if fogged.side.is_none() => fogged.side = side_of(fogged.sheet)?,
        Deed::Lost(lost) if lost.side.is_none() && lost.thing.kind == ThingKind::Sheet => {
            lost.side = side_of(lost.thing.id)?;
        }
        Deed::Discarded(discarded)
            if discarded.side.is_none() && discarded.thing.kind == ThingKind::Sheet =>
        {
            discarded.side = side_of(discarded.thing.id)?;
        }
        Deed::RunBegun(run) => {
            for each in &mut run.sheets {
                if each.side.is_none() {
                    each.side = side_of(each.sheet)?;
                }
            }
            if run.area.is_none() {
                run.area = area_of(&run.sheets, &at)?;
            }
        }
        Deed::BathSplit(split) if split.poured.is_none() => {
            let life = at(Thing::new(ThingKind::Bath, split.bath))?;
            if let Some(bath) = life.bath()
                && let Some(volume) = bath.volume
            {
                let share = split.volume.value() / volume.value();
                split.poured = Some(bath.pour(share));
            }
        }
        Deed::BathsRotated(rotated) => {
            let life = at(Thing::new(ThingKind::Bath, rotated.first))?;
            if let Some(bath) = life.bath() {
                rotated.second = rotated.second.or(bath.second);
                let now = bath.changes.saturating_add(1);
                rotated.changes = rotated.changes.or(Some(now));
            }
        }
        Deed::PrintStep(step) if step.area.is_none() && !step.baths.is_empty() => {
            let life = at(Thing::new(ThingKind::Print, step.print))?;
            if let Some(print) = life.print() {
                let paper = match (print.size, print.paper) {
                    (None, Some(paper)) => Some(at(Thing::new(ThingKind::Paper, paper))?),
                    _ => None,
                };
                let paper = paper.as_ref().and_then(Life::paper);
                let size = print.size.or_else(|| paper.and_then(|paper| paper.size));
                step.area =
                    size.and_then(|size| Area::of(size, f64::from(print.paper_sheets)).ok());
            }
        }
        Deed::StripRead(strip) => {
            if let Some(sheet) = strip.sheet {
                let life = at(Thing::new(ThingKind::Sheet, sheet))?;
                let (film_box, run) = life
                    .sheet()
                    .map_or((None, None), |it| (it.film_box, it.run));
                if let (None, Some(film_box)) = (&strip.film, film_box) {
                    let life = at(Thing::new(ThingKind::Box, film_box))?;
                    strip.film = life.film_box().map(|it| it.film.clone());
                }
                strip.run = strip.run.or(run);
            }
            if let Some(run) = strip.run {
                let life = at(Thing::new(ThingKind::Run, run))?;
                if let Some(run) = life.run() {
                    strip.bath = strip.bath.or(run.developer);
                    strip.time = strip.time.or(run.time);
                    strip.temperature = strip.temperature.or(run.temperature);
                    strip.dilution = strip.dilution.or(run.dilution);
                }
            }
            if let Some(bath) = strip.bath {
                let life = at(Thing::new(ThingKind::Bath, bath))?;
                if let Some(bath) = life.bath() {
                    strip.developer.get_or_insert_with(|| bath.name.clone());
                    strip.dilution = strip.dilution.or(bath.dilution);
                }
            }
        }
        Deed::StepBegun(begun) if begun.uses.is_none() => {
            if let (Some(bath), ThingKind::Run) = (begun.bath, begun.thing.kind) {
                let life = at(begun.thing)?;
                let new = life.run().filter(|run| !run.baths.contains(&bath));
                begun.uses = new.map(|run| u32::try_from(run.sheets.len()).unwrap_or(u32::MAX));
                begun.area = begun.area.or(new.and_then(|run| run.area));
            }
        }
        Deed::StepEnded(ended) if ended.time.is_none() => {
            let life = at(ended.thing)?;
            let step = steps_of(&life).and_then(Steps::current);
            let given = step.map(|step| step.given_at(as_it_was.happened));
            ended.time = given.and_then(|given| Seconds::new(given.round()).ok());
        }
        Deed::RunEnded(ended) if ended.sheets.is_empty() => {
            let life = at(Thing::new(ThingKind::Run, ended.run))?;
            let begun_with = life.run().map(|run| run.sheets.clone()).unwrap_or_default();
            for sheet in begun_with {
                let life = at(Thing::new(ThingKind::Sheet, sheet))?;
                if life.sheet().and_then(|sheet| sheet.in_run) == Some(ended.run) {
                    ended.sheets.push(sheet);
                }
            }
        }
        Deed::Retired(retired)
            if retired.sides.is_empty() && retired.thing.kind == ThingKind::Holder =>
        {
            let life = at(retired.thing)?;
            retired.sides = life
                .holder()
                .map(|holder| holder.sides.clone())
                .unwrap_or_default();
        }
        Deed::Struck(struck) => {
            if let Some(about) = bench.entry(struck.entry)? {
                struck.touches = joined(&struck.touches, bench.all_touched(&about)?);
            }
        }
        Deed::Amended(amended) => {
            if let Some(about) = bench.entry(amended.entry)?
                && let Some(was) = bench.settled(&about)?
            {
                let happened = amended.happened.unwrap_or(was.happened);
                let mut replaced = Entry {
                    deed: (*amended.deed).clone(),
                    happened,
                    ..about.clone()
                };
                // What follows from the amended figures is filled in as if it had been said so at
                // the time.
                let moved = happened != was.happened;
                forget_what_was_known(&mut replaced.deed, &was.deed, moved);
                complete_as_of(bench, &mut replaced, true)?;
                *amended.deed = replaced.deed;
                amended.touches = joined(&amended.touches, bench.all_touched(&about)?);
            }
        }
        _ => {}
    }
    Ok(())
}

/// The area of the sheets of a run, from the boxes they came out of; `None` when a size is not known.
fn area_of<E>(
    sheets: &[SheetInRun],
    at: &impl Fn(Thing) -> Result<Life, Stop<E>>,
) -> Result<Option<Area>, Stop<E>> {
    let mut all = Area::NONE;
    for each in sheets {
        let life = at(Thing::new(ThingKind::Sheet, each.sheet))?;
        let Some(film_box) = life.sheet().and_then(|sheet| sheet.film_box) else {
            return Ok(None);
        };
        let film_box = at(Thing::new(ThingKind::Box, film_box))?;
        let size = film_box.film_box().and_then(|film_box| film_box.size);
        match size.and_then(|size| Area::of(size, 1.0).ok()) {
            Some(area) => all = all.and(area),
            None => return Ok(None),
        }
    }
    Ok(Some(all))
}

fn joined(named: &[Thing], mut known: Vec<Thing>) -> Vec<Thing> {
    known.extend_from_slice(named);
    known.sort_unstable();
    known.dedup();
    known
}

/// Takes out of an amended deed what had been filled in for the entry as it counted before, when
/// what it followed from has changed: the sheet of an exposure that was really made in another side,
/// or at a time when another sheet was in it. What the amendment itself says is left alone.
fn forget_what_was_known(amended: &mut Deed, was: &Deed, moved: bool) {
    fn forget<T: PartialEq>(new: &mut Option<T>, old: &Option<T>) {
        if new == old {
            *new = None;
        }
    }
    match (amended, was) {
        (Deed::Exposed(new), Deed::Exposed(old))
            if new.side.is_some() && (moved || new.side != old.side) =>
        {
            forget(&mut new.sheet, &old.sheet);
        }
        (Deed::ExposureBegun(new), Deed::ExposureBegun(old)) if moved || new.side != old.side => {
            forget(&mut new.sheet, &old.sheet);
        }
        (Deed::ExposureDropped(new), Deed::ExposureDropped(old))
            if moved || new.side != old.side =>
        {
            forget(&mut new.sheet, &old.sheet);
        }
        (Deed::Unloaded(new), Deed::Unloaded(old)) if moved || new.side != old.side => {
            forget(&mut new.sheet, &old.sheet);
            forget(&mut new.film_box, &old.film_box);
        }
        (Deed::Loaded(new), Deed::Loaded(old)) if moved || new.film_box != old.film_box => {
            forget(&mut new.size, &old.size);
        }
        (Deed::Fogged(new), Deed::Fogged(old)) if moved || new.sheet != old.sheet => {
            forget(&mut new.side, &old.side);
        }
        (Deed::Lost(new), Deed::Lost(old)) if moved || new.thing != old.thing => {
            forget(&mut new.side, &old.side);
        }
        (Deed::Discarded(new), Deed::Discarded(old)) if moved || new.thing != old.thing => {
            forget(&mut new.side, &old.side);
        }
        (Deed::RunBegun(new), Deed::RunBegun(old)) => {
            let sheets = |run: &RunBegun| -> Vec<ThingId> {
                run.sheets.iter().map(|each| each.sheet).collect()
            };
            if moved || sheets(new) != sheets(old) {
                forget(&mut new.area, &old.area);
            }
            if moved {
                for each in &mut new.sheets {
                    if old.sheets.contains(each) {
                        each.side = None;
                    }
                }
            }
        }
        (Deed::BathSplit(new), Deed::BathSplit(old))
            if moved || new.bath != old.bath || new.volume != old.volume =>
        {
            forget(&mut new.poured, &old.poured);
        }
        (Deed::BathsRotated(new), Deed::BathsRotated(old)) if moved || new.first != old.first => {
            forget(&mut new.second, &old.second);
            forget(&mut new.changes, &old.changes);
        }
        (Deed::PrintStep(new), Deed::PrintStep(old)) if moved || new.print != old.print => {
            forget(&mut new.area, &old.area);
        }
        (Deed::StripRead(new), Deed::StripRead(old)) => {
            let other_sheet = new.sheet != old.sheet || (moved && new.sheet.is_some());
            if other_sheet && old.sheet.is_some() {
                forget(&mut new.film, &old.film);
                forget(&mut new.run, &old.run);
                forget(&mut new.time, &old.time);
                forget(&mut new.temperature, &old.temperature);
                forget(&mut new.bath, &old.bath);
                forget(&mut new.dilution, &old.dilution);
            }
            // Where no bath was named, its developer was typed.
            if new.bath != old.bath && old.bath.is_some() {
                forget(&mut new.developer, &old.developer);
                forget(&mut new.dilution, &old.dilution);
            }
        }
        (Deed::StepBegun(new), Deed::StepBegun(old))
            if moved || new.bath != old.bath || new.thing != old.thing =>
        {
            forget(&mut new.uses, &old.uses);
            forget(&mut new.area, &old.area);
        }
        (Deed::StepEnded(new), Deed::StepEnded(old)) if moved || new.thing != old.thing => {
            forget(&mut new.time, &old.time);
        }
        (Deed::RunEnded(new), Deed::RunEnded(old))
            if new.run != old.run && new.sheets == old.sheets =>
        {
            new.sheets.clear();
        }
        (Deed::Retired(new), Deed::Retired(old))
            if new.thing != old.thing && new.sides == old.sides =>
        {
            new.sides.clear();
        }
        _ => {}
    }
}
