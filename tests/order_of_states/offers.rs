//! Whether what a life offers next can be logged, and what it does not offer cannot.
//!
//! For each kind a deed is made that is about the thing, with whatever else it needs taken from the
//! world, in a state that does not stand in its way. Where the world has no such thing, nothing is
//! asked.

use chrono::Days;
use notchbook::craft::Capacity;
use notchbook::logbook::*;

use super::deeds::{self, begin_print, begin_run, end_run, expose, reason, step};
use super::dice::Ids;
use super::steps::{Says, may_follow};
use super::world::{Bath, BathIs, PrintIs, SheetIs, SideIs, World};

/// A deed of `kind` about `thing` to which nothing else in the world is an obstacle.
pub(crate) fn deed_about(
    thing: Thing,
    kind: Kind,
    world: &World<'_>,
    ids: &mut Ids,
) -> Option<Deed> {
    let id = thing.id;
    let deed = match (kind, thing.kind) {
        (Kind::Noted, _) => Deed::Noted(Noted {
            thing,
            text: "a dark line".to_owned(),
        }),
        (Kind::Counted, ThingKind::Box | ThingKind::Paper) => {
            Deed::Counted(Counted { thing, sheets: 3 })
        }
        (Kind::UsedUp, ThingKind::Box | ThingKind::Paper | ThingKind::Bath) => {
            Deed::UsedUp(UsedUp {
                thing,
                reason: None,
            })
        }
        (Kind::Retired, ThingKind::Lens | ThingKind::Camera | ThingKind::Finding) => {
            deeds::retire(thing)
        }
        (Kind::ShutterTested, ThingKind::Lens) => Deed::ShutterTested(deeds::test_shutter(id)),
        (Kind::Retired, ThingKind::Holder) => {
            let holder = world.holders.get(&id)?;
            let empty = |side| {
                let side = world.sides.get(side);
                side.is_some_and(|side| matches!(side.is, SideIs::Empty | SideIs::Retired))
            };
            holder
                .sides
                .iter()
                .all(empty)
                .then(|| deeds::retire(thing))?
        }
        (Kind::Lost, ThingKind::Print) => deeds::lose(thing),
        (Kind::Discarded, ThingKind::Print | ThingKind::Bath) => deeds::discard(thing),
        (Kind::BathReplenished, ThingKind::Bath) => Deed::BathReplenished(BathReplenished {
            bath: id,
            volume: None,
            bleed: None,
            with: None,
        }),
        (Kind::BathSplit, ThingKind::Bath) => {
            let holds = world.baths.get(&id)?.volume.unwrap_or(100.0);
            deeds::split(id, ids.thing(), "", holds / 2.0)
        }
        (Kind::ClearingTested, ThingKind::Bath) => deeds::clear(id, 30.0),
        (Kind::BathsRotated, ThingKind::Bath) => {
            let second = world.baths.get(&id)?.second;
            let second = second.and_then(|second| world.baths.get(&second));
            let usable = |bath: &Bath| matches!(bath.is, BathIs::Fresh | BathIs::InUse);
            if !second.is_none_or(usable) {
                return None;
            }
            deeds::rotate(id, None, None)
        }
        (Kind::BathMixed | Kind::PrintStep | Kind::RunBegun, ThingKind::Bath)
            if depends(world.baths.get(&id)?, world) =>
        {
            return None;
        }
        (Kind::BathMixed, ThingKind::Bath) => deeds::bath(ids.thing(), "", Some(id), None),
        (Kind::PrintStep, ThingKind::Bath) => {
            let waits = |print: &super::world::Print| print.is == PrintIs::InProcess && !print.away;
            let (print, life) = world.prints.iter().find(|(_, print)| waits(print))?;
            step(*print, &next_step(life, world)?, vec![id])
        }
        (Kind::StripRead, ThingKind::Bath) => {
            let mut strip = deeds::strip(ids.thing(), "");
            strip.film = Some(deeds::FILM.to_owned());
            strip.bath = Some(id);
            Deed::StripRead(strip)
        }
        (Kind::RunBegun, ThingKind::Bath) => {
            let (sheet, _) = world
                .sheets
                .iter()
                .find(|(_, sheet)| sheet.is == SheetIs::Held)?;
            Deed::RunBegun(begin_run(ids.thing(), &[*sheet], Some(id)))
        }
        (Kind::StepBegun, ThingKind::Bath) => {
            let (run, _) = world.runs.iter().find(|(_, run)| !run.ended)?;
            let run = Thing::new(ThingKind::Run, *run);
            let mut begun = deeds::begin_step(run, "fix", Some(id));
            // How many go through it is another question.
            begun.uses = Some(0);
            Deed::StepBegun(begun)
        }
        (Kind::StepBegun, ThingKind::Run) => {
            Deed::StepBegun(deeds::begin_step(thing, "stop", None))
        }
        (Kind::StepBegun, ThingKind::Print) => {
            let print = world.prints.get(&id)?;
            let next = if print.is == PrintIs::Mounted {
                "spot".to_owned()
            } else {
                next_step(print, world)?
            };
            (may_follow(world.process(print), &print.steps, &next) == Says::Fine)
                .then(|| Deed::StepBegun(deeds::begin_step(thing, &next, None)))?
        }
        (Kind::StepChanged, ThingKind::Run | ThingKind::Print) => {
            Deed::StepChanged(deeds::change_step(thing, Change::MoreTime))
        }
        (Kind::StepEnded, ThingKind::Run | ThingKind::Print) => deeds::end_step(thing),
        (_, ThingKind::Side) => return about_side(thing, kind, world, ids),
        (_, ThingKind::Sheet) => return about_sheet(thing, kind, world, ids),
        (Kind::RunEnded, ThingKind::Run) => Deed::RunEnded(end_run(id)),
        (Kind::Loaded, ThingKind::Box) => {
            let film_box = world.boxes.get(&id)?;
            let (side, _) = world
                .sides
                .iter()
                .find(|(_, side)| side.is == SideIs::Empty && side.takes == film_box.size)?;
            deeds::load(ids.thing(), "", id, *side)
        }
        (Kind::Exposed, ThingKind::Lens) => {
            let mut exposed = expose(loaded_side(world)?, false);
            exposed.lens = Some(id);
            Deed::Exposed(exposed)
        }
        (Kind::Exposed, ThingKind::Camera) => {
            let mut exposed = expose(loaded_side(world)?, false);
            exposed.camera = Some(id);
            Deed::Exposed(exposed)
        }
        (Kind::PrintBegun, ThingKind::Paper) => {
            let (negative, _) = world.sheets.iter().find(|(_, sheet)| sheet.is_negative())?;
            let mut begun = begin_print(ids.thing(), vec![*negative], "cyanotype");
            begun.paper = Some(id);
            Deed::PrintBegun(begun)
        }
        (Kind::PrintStep, ThingKind::Print) => {
            let print = world.prints.get(&id)?;
            // On a mounted print only the finishing of the dry surface goes on.
            let next = if print.is == PrintIs::Mounted {
                "spot".to_owned()
            } else {
                next_step(print, world)?
            };
            (may_follow(world.process(print), &print.steps, &next) == Says::Fine)
                .then(|| step(id, &next, Vec::new()))?
        }
        (Kind::Placed, ThingKind::Print) => deeds::place(id, Whereabouts::Drawer),
        (
            Kind::Spoiled
            | Kind::Pressed
            | Kind::Mounted
            | Kind::Matted
            | Kind::Attached
            | Kind::Signed
            | Kind::Framed
            | Kind::Unframed
            | Kind::Labelled,
            ThingKind::Print,
        ) => deeds::finish(kind, id),
        _ => return None,
    };
    Some(deed)
}

/// Whether it depends on the day, or on the size of a sheet, what a bath takes.
fn depends(bath: &Bath, world: &World<'_>) -> bool {
    let tomorrow = world.today + Days::new(1);
    let by_area = !matches!(bath.capacity, None | Some(Capacity::Sheets(_)));
    bath.last_day.is_some_and(|last| last < tomorrow)
        || bath.least.is_some()
        || (by_area && !bath.is_exhausted(0.0))
}

fn about_side(thing: Thing, kind: Kind, world: &World<'_>, ids: &mut Ids) -> Option<Deed> {
    let side = world.sides.get(&thing.id)?;
    let inside = side.sheet;
    // What the sheet in it has to say, after an override, is asked of the sheet.
    let as_usual = match inside.and_then(|sheet| world.sheets.get(&sheet)) {
        Some(sheet) => sheet.side == Some(thing.id) && is_as(side.is, sheet.is),
        None => inside.is_none(),
    };
    let about_the_sheet = !matches!(kind, Kind::SlideSeen | Kind::SlideRighted | Kind::Retired);
    if !as_usual && about_the_sheet {
        return None;
    }
    let deed = match kind {
        Kind::Loaded => {
            let (film_box, _) = world.boxes.iter().find(|(_, film_box)| {
                film_box.left > 0 && !film_box.used_up && film_box.size == side.takes
            })?;
            deeds::load(ids.thing(), "", *film_box, thing.id)
        }
        Kind::Unloaded => deeds::unload(thing.id),
        Kind::Exposed => Deed::Exposed(expose(thing.id, side.is == SideIs::Exposed)),
        Kind::ExposureBegun => {
            Deed::ExposureBegun(deeds::begin_exposure(thing.id, side.is == SideIs::Exposed))
        }
        Kind::ExposureDropped => Deed::ExposureDropped(deeds::drop_exposure(thing.id)),
        Kind::SlideSeen => Deed::SlideSeen(SlideSeen {
            side: thing.id,
            shows: Slide::Dark,
        }),
        Kind::SlideRighted => Deed::SlideRighted(SlideRighted {
            side: thing.id,
            reason: reason(),
        }),
        Kind::RunBegun => Deed::RunBegun(begin_run(ids.thing(), &[inside?], None)),
        Kind::Fogged | Kind::Lost | Kind::Discarded => {
            let sheet = Thing::new(ThingKind::Sheet, inside?);
            return deed_about(sheet, kind, world, ids);
        }
        Kind::Retired => deeds::retire(thing),
        _ => return None,
    };
    Some(deed)
}

const fn is_as(side: SideIs, sheet: SheetIs) -> bool {
    matches!(
        (side, sheet),
        (SideIs::Loaded, SheetIs::Loaded)
            | (SideIs::Open, SheetIs::Open)
            | (SideIs::Exposed, SheetIs::Exposed)
            | (SideIs::Fogged, SheetIs::Fogged)
    )
}

fn about_sheet(thing: Thing, kind: Kind, world: &World<'_>, ids: &mut Ids) -> Option<Deed> {
    let id = thing.id;
    let sheet = world.sheets.get(&id)?;
    // What the side it is in has to say is asked of the side.
    let side =
        match sheet.side {
            Some(side) => Some(world.sides.get(&side).filter(|side| {
                side.sheet == Some(id) && !side.in_doubt && is_as(side.is, sheet.is)
            })?),
            None => None,
        };
    let deed = match kind {
        Kind::Loaded => {
            let own = world.boxes.get(&sheet.film_box)?;
            let (side, _) = world
                .sides
                .iter()
                .find(|(_, side)| side.is == SideIs::Empty && side.takes == own.size)?;
            (own.left > 0).then(|| deeds::load_again(id, sheet.film_box, *side))?
        }
        Kind::Unloaded => {
            let side = sheet.side.or_else(|| world.sides.keys().next().copied())?;
            let mut unloaded = deeds::unload(side);
            if let Deed::Unloaded(what) = &mut unloaded {
                what.sheet = Some(id);
            }
            unloaded
        }
        Kind::Exposed => {
            let mut exposed = expose(id, sheet.is == SheetIs::Exposed);
            exposed.side = None;
            exposed.sheet = Some(id);
            side.is_none_or(|side| (side.is == SideIs::Exposed) == (sheet.is == SheetIs::Exposed))
                .then_some(Deed::Exposed(exposed))?
        }
        Kind::ExposureBegun => {
            let side = sheet.side.or_else(|| world.sides.keys().next().copied())?;
            let mut begun = deeds::begin_exposure(side, sheet.is == SheetIs::Exposed);
            begun.sheet = Some(id);
            Deed::ExposureBegun(begun)
        }
        Kind::ExposureDropped => {
            let side = sheet.side.or_else(|| world.sides.keys().next().copied())?;
            let mut dropped = deeds::drop_exposure(side);
            dropped.sheet = Some(id);
            Deed::ExposureDropped(dropped)
        }
        Kind::RunBegun => side
            .is_none_or(|side| (side.is == SideIs::Exposed) == (sheet.is == SheetIs::Exposed))
            .then(|| Deed::RunBegun(begin_run(ids.thing(), &[id], None)))?,
        Kind::RunEnded => {
            let run = sheet.in_run.or_else(|| world.runs.keys().next().copied())?;
            if world.runs.get(&run).is_none_or(|run| run.ended) {
                return None;
            }
            let mut ended = end_run(run);
            ended.sheets = vec![id];
            Deed::RunEnded(ended)
        }
        Kind::Fogged => side
            .is_none_or(|side| matches!(side.is, SideIs::Loaded | SideIs::Open | SideIs::Exposed))
            .then(|| {
                Deed::Fogged(Fogged {
                    sheet: id,
                    side: None,
                    reason: reason(),
                })
            })?,
        Kind::Lost => deeds::lose(thing),
        Kind::Discarded => deeds::discard(thing),
        Kind::Measured => deeds::measure(id, 0.3, 1.8),
        Kind::FaultSeen => deeds::see_fault(id),
        Kind::Scanned => deeds::scan(id),
        Kind::StripRead => {
            let mut strip = deeds::strip(ids.thing(), "");
            strip.sheet = Some(id);
            Deed::StripRead(strip)
        }
        Kind::Filed => deeds::file(id),
        Kind::PrintBegun => Deed::PrintBegun(begin_print(ids.thing(), vec![id], "cyanotype")),
        Kind::Companions => {
            let (other, _) = world.sheets.iter().find(|(other, sheet)| {
                **other != id && sheet.set.is_none() && sheet.is_negative()
            })?;
            Deed::Companions(Companions {
                set: ids.thing(),
                reference: String::new(),
                sheets: vec![id, *other],
                bond: Bond::Spare,
            })
        }
        _ => return None,
    };
    Some(deed)
}

fn loaded_side(world: &World<'_>) -> Option<ThingId> {
    world
        .sides
        .iter()
        .find(|(id, side)| {
            let sheet = side.sheet.and_then(|sheet| world.sheets.get(&sheet));
            let in_it =
                sheet.is_some_and(|sheet| sheet.is == SheetIs::Loaded && sheet.side == Some(**id));
            side.is == SideIs::Loaded && !side.in_doubt && in_it
        })
        .map(|(id, _)| *id)
}

/// A step that may follow, in the order of work.
fn next_step(print: &super::world::Print, world: &World<'_>) -> Option<String> {
    let steps = &world.process(print).steps;
    steps
        .iter()
        .find(|step| may_follow(world.process(print), &print.steps, &step.id) == Says::Fine)
        .map(|step| step.id.clone())
}
