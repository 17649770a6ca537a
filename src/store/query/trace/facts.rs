//! What was done to a thing, or with it, as far as the trace tells of it.
//!
//! A print tells every step of its process and its finish, a sheet its exposures and densities, a
//! bath how it was mixed. What merely used a thing, such as the thousand exposures of a lens, is no
//! part of its own story here.

use rusqlite::Connection;

use crate::logbook::telling::{Telling, tell};
use crate::logbook::{Deed, Kind, Names, Settled, Thing, ThingId, ThingKind, settle};
use crate::reference::Reference;
use crate::store::error::Fault;
use crate::store::query::entry::{first_of, history_of};
use crate::store::query::names::Cached;
use crate::store::query::words;
use crate::store::rows::Fact;

/// The kinds of entries that are a thing's own story.
const fn own_kinds(thing: ThingKind) -> &'static [Kind] {
    match thing {
        ThingKind::Box => &[Kind::BoxAdded],
        ThingKind::Holder => &[Kind::HolderAdded],
        ThingKind::Lens => &[Kind::LensAdded, Kind::ShutterTested],
        ThingKind::Finding => &[
            Kind::FilterFound,
            Kind::TimeFound,
            Kind::FilmFound,
            Kind::FormatFound,
            Kind::DevelopmentFound,
            Kind::LightFound,
            Kind::MeterSet,
            Kind::PlaceKept,
            Kind::StripRead,
            Kind::TabletFound,
            Kind::LimitsSet,
        ],
        ThingKind::Camera => &[Kind::CameraAdded],
        ThingKind::Paper => &[Kind::PaperAdded],
        ThingKind::Set => &[Kind::Companions],
        ThingKind::Bath => &[Kind::BathMixed, Kind::BathReplenished],
        ThingKind::Run => &[Kind::RunBegun, Kind::RunEnded],
        ThingKind::Side => &[],
        ThingKind::Sheet => &[
            Kind::Loaded,
            Kind::Unloaded,
            Kind::ExposureBegun,
            Kind::ExposureDropped,
            Kind::Exposed,
            Kind::Companions,
            Kind::Fogged,
            Kind::Measured,
            Kind::Filed,
            Kind::Lost,
            Kind::Discarded,
            Kind::Noted,
        ],
        ThingKind::Print => Kind::ALL,
    }
}

/// What was done to a thing, in the order it happened.
pub(super) fn facts(
    db: &Connection,
    thing: Thing,
    names: &Cached<'_>,
    reference: &Reference,
) -> Result<Vec<Fact>, Fault> {
    let facts = own_story(db, thing)?
        .iter()
        .map(|one| fact(one, thing, names, reference))
        .collect();
    Ok(facts)
}

/// The entries of a thing's own story that count.
fn own_story(db: &Connection, thing: Thing) -> Result<Vec<Settled>, Fault> {
    let mut story = match own_kinds(thing.kind) {
        [] => return Ok(Vec::new()),
        // How it came into being; nothing of the thousand entries that touch it since.
        [kind] => first_of(db, thing.id, *kind)?.into_iter().collect(),
        kinds => settle(history_of(db, thing.id, kinds)?),
    };
    story.retain(|one| {
        // A bath that was drawn from this one has its own story.
        let made = one.deed.creates().map(|(made, _)| made);
        let of_another = made.is_some_and(|it| it.kind == thing.kind && it.id != thing.id);
        one.counts() && one.deed.is_about(thing.id) && !of_another
    });
    Ok(story)
}

fn fact(one: &Settled, thing: Thing, names: &Cached<'_>, reference: &Reference) -> Fact {
    let telling = tell(&one.deed, names, reference);
    let own = names.reference_of(thing.id);
    let label = match &one.deed {
        Deed::PrintStep(step) => step_label(thing.id, &step.step, names, reference),
        deed => deed.kind().name().to_owned(),
    };
    let mut value = figures(&telling, &one.deed, &own);
    if let Deed::PrintStep(step) = &one.deed {
        let mixed: Vec<String> = step
            .baths
            .iter()
            .filter_map(|bath| names.life_of(*bath))
            .map(|life| {
                let bath = words::summary(&life, names, reference);
                format!("{} is {bath}", life.reference)
            })
            .collect();
        if !mixed.is_empty() {
            value = format!("{value} ({})", mixed.join("; "));
        }
    }
    if let Some(note) = &one.entry.note {
        value = format!("{value}; {note}");
    }
    Fact {
        label,
        value,
        happened: one.happened,
    }
}

/// Every figure of a deed on one line, but for what is plain from where it stands.
fn figures(telling: &Telling, deed: &Deed, own: &str) -> String {
    let parts: Vec<String> = telling
        .details
        .iter()
        .filter(|(label, text)| {
            let plain = match label.as_str() {
                "reference" => true,
                "step" => deed.kind() == Kind::PrintStep,
                _ => text == own,
            };
            !plain
        })
        .map(|(label, text)| format!("{label} {text}"))
        .collect();
    parts.join("; ")
}

fn step_label(print: ThingId, step: &str, names: &Cached<'_>, reference: &Reference) -> String {
    names
        .life_of(print)
        .and_then(|life| {
            let process = reference.process(&life.print()?.process)?;
            Some(process.step(step)?.label.clone())
        })
        .unwrap_or_else(|| step.to_owned())
}

/// The steps of a print for which a bath was used, by their labels, in order.
pub(super) fn steps_with(
    db: &Connection,
    print: ThingId,
    bath: ThingId,
    names: &Cached<'_>,
    reference: &Reference,
) -> Result<Vec<String>, Fault> {
    let print = Thing::new(ThingKind::Print, print);
    let mut labels = Vec::new();
    for one in own_story(db, print)? {
        if let Deed::PrintStep(step) = &one.deed
            && step.baths.contains(&bath)
        {
            let label = step_label(print.id, &step.step, names, reference);
            if !labels.contains(&label) {
                labels.push(label);
            }
        }
    }
    Ok(labels)
}
