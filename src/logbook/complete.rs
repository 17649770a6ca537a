//! What an entry need not say because the logbook knows it.
//!
//! A person says "expose H-07 A"; the log knows which sheet is in it. What is filled in is what was
//! true just before the entry happened, so a late entry names the sheet that was there then. What is
//! said is never overwritten.

use super::propose::{Bench, Records, Stop};
use super::{Deed, Entry, Thing, ThingId, ThingKind};

/// Fills in what the logbook knows.
pub(super) fn complete<R: Records>(
    bench: &Bench<'_, R>,
    entry: &mut Entry,
) -> Result<(), Stop<R::Error>> {
    let as_it_was = entry.clone();
    let at = |thing: Thing| bench.life_before(thing, &as_it_was);
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
        }
        Deed::RunEnded(ended) if ended.sheets.is_empty() => {
            let life = at(Thing::new(ThingKind::Run, ended.run))?;
            ended.sheets = life.run().map(|run| run.sheets.clone()).unwrap_or_default();
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
                struck.touches = bench.all_touched(&about)?;
            }
        }
        Deed::Amended(amended) => {
            if let Some(about) = bench.entry(amended.entry)? {
                let mut replaced = Entry {
                    deed: (*amended.deed).clone(),
                    happened: amended.happened.unwrap_or(about.happened),
                    ..about.clone()
                };
                // What follows from the amended figures is filled in as if it had been said so at
                // the time.
                forget_what_was_known(&mut replaced.deed, &about.deed);
                complete(bench, &mut replaced)?;
                *amended.deed = replaced.deed;
                amended.touches = bench.all_touched(&about)?;
            }
        }
        _ => {}
    }
    Ok(())
}

/// Takes out of an amended deed what had been filled in for the original, when what it followed
/// from has changed: the sheet of an exposure that was really made in another side.
fn forget_what_was_known(amended: &mut Deed, original: &Deed) {
    match (amended, original) {
        (Deed::Exposed(new), Deed::Exposed(old)) if new.side != old.side && new.side.is_some() => {
            new.sheet = None;
        }
        (Deed::Unloaded(new), Deed::Unloaded(old)) if new.side != old.side => {
            new.sheet = None;
            new.film_box = None;
        }
        (Deed::Loaded(new), Deed::Loaded(old)) if new.film_box != old.film_box => new.size = None,
        _ => {}
    }
}
