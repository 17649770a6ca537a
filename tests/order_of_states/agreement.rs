//! Whether the lives say of each thing what the model says of it.

use notchbook::logbook::life::{Life, Steps};
use notchbook::logbook::{Thing, ThingId, ThingKind};

use super::ledger::Ledger;
use super::world::{BathIs, PrintIs, SheetIs, SideIs, Stock, Timed, World};

/// The first thing of which they say something else.
pub(crate) fn first_difference(ledger: &Ledger, world: &World<'_>) -> Option<String> {
    ledger.lives.values().find_map(|life| {
        let thing = life.thing;
        let said = of_life(life);
        let meant = of_world(world, thing);
        (said != meant).then(|| format!("{}: {said} but {meant}", life.reference))
    })
}

fn of_life(life: &Life) -> String {
    let state = life.state_word();
    if life.is_new() {
        return state.to_owned();
    }
    let more = if let Some(film_box) = life.film_box() {
        format!("{} left", film_box.left)
    } else if let Some(paper) = life.paper() {
        format!("{} left", paper.left)
    } else if let Some(side) = life.side() {
        format!("{} {}", called(side.sheet), side.doubt.is_some())
    } else if let Some(sheet) = life.sheet() {
        format!(
            "{} {} {} {} {} {}",
            called(sheet.film_box),
            called(sheet.side),
            called(sheet.in_run),
            called(sheet.set),
            sheet.exposures.len(),
            sheet.prints,
        )
    } else if let Some(bath) = life.bath() {
        format!("{} used, {:.1} sq in", bath.uses, bath.area.value())
    } else if let Some(run) = life.run() {
        format!("{:?} {}", run.sheets, timed(&run.steps))
    } else if let Some(print) = life.print() {
        let steps = timed(&print.timed);
        format!("{} {} {steps}", print.done().join(" "), print.is_away())
    } else if let Some(lens) = life.lens() {
        format!("{} exposures {} tests", lens.exposures, lens.tests.len())
    } else if let Some(camera) = life.camera() {
        format!("{} exposures 0 tests", camera.exposures)
    } else {
        String::new()
    };
    format!("{state}, {more}")
}

fn timed(steps: &Steps) -> String {
    let current = steps.current();
    let under_way = current.map(|step| step.step.clone());
    let still = current.is_some_and(|step| step.paused.is_some());
    Timed::in_words(steps.all().len(), under_way.as_deref(), still)
}

fn called(id: Option<ThingId>) -> String {
    id.map_or_else(|| "nothing".to_owned(), |id| id.to_string())
}

fn of_world(world: &World<'_>, thing: Thing) -> String {
    const NOT_THERE: &str = "not there yet";
    let id = &thing.id;
    let told = match thing.kind {
        ThingKind::Box => world.boxes.get(id).map(stock),
        ThingKind::Paper => world.papers.get(id).map(stock),
        ThingKind::Holder => world
            .holders
            .get(id)
            .map(|holder| format!("{}, ", in_use(!holder.retired))),
        ThingKind::Side => world.sides.get(id).map(|side| {
            let state = match side.is {
                SideIs::Empty => "empty",
                SideIs::Loaded => "loaded",
                SideIs::Open => "being exposed",
                SideIs::Exposed => "exposed",
                SideIs::Fogged => "fogged",
                SideIs::Retired => "out of use",
            };
            format!("{state}, {} {}", called(side.sheet), side.in_doubt)
        }),
        ThingKind::Sheet => world.sheets.get(id).map(|sheet| {
            let state = match sheet.is {
                SheetIs::InBox => "in box",
                SheetIs::Loaded => "loaded",
                SheetIs::Open => "being exposed",
                SheetIs::Exposed => "exposed",
                SheetIs::Held => "held exposed",
                SheetIs::Developing => "developing",
                SheetIs::Negative => "negative",
                SheetIs::Filed => "filed",
                SheetIs::Fogged => "fogged",
                SheetIs::Lost => "lost",
                SheetIs::Discarded => "thrown away",
            };
            format!(
                "{state}, {} {} {} {} {} {}",
                called(Some(sheet.film_box)),
                called(sheet.side),
                called(sheet.in_run),
                called(sheet.set),
                sheet.exposures,
                sheet.prints,
            )
        }),
        ThingKind::Set => world.sets.get(id).map(|_| "linked, ".to_owned()),
        ThingKind::Run => world.runs.get(id).map(|run| {
            let state = if run.ended { "ended" } else { "under way" };
            format!("{state}, {:?} {}", run.sheets, run.timed.told())
        }),
        ThingKind::Bath => world.baths.get(id).map(|bath| {
            let state = match bath.is {
                BathIs::Fresh => "fresh",
                BathIs::InUse => "in use",
                BathIs::UsedUp => "used up",
                BathIs::Discarded => "thrown away",
            };
            format!("{state}, {} used, {:.1} sq in", bath.uses, bath.area)
        }),
        ThingKind::Print => world.prints.get(id).map(|print| {
            let state = match print.is {
                PrintIs::InProcess => "in process",
                PrintIs::Dry => "dry",
                PrintIs::Pressed => "pressed",
                PrintIs::Mounted => "mounted",
                PrintIs::Matted => "matted",
                PrintIs::Framed => "framed",
                PrintIs::Spoiled => "spoiled",
                PrintIs::Lost => "lost",
                PrintIs::Discarded => "thrown away",
            };
            let steps = print.timed.told();
            format!("{state}, {} {} {steps}", print.steps.join(" "), print.away)
        }),
        ThingKind::Lens => world.lenses.get(id).map(tool),
        ThingKind::Camera => world.cameras.get(id).map(tool),
        ThingKind::Finding => world.findings.get(id).map(|finding| {
            let state = if finding.retired {
                "out of use"
            } else {
                "kept"
            };
            format!("{state}, ")
        }),
    };
    told.unwrap_or_else(|| NOT_THERE.to_owned())
}

fn stock(stock: &Stock) -> String {
    let state = if stock.used_up { "used up" } else { "in stock" };
    format!("{state}, {} left", stock.left)
}

fn tool(tool: &super::world::Tool) -> String {
    format!(
        "{}, {} exposures {} tests",
        in_use(!tool.retired),
        tool.exposures,
        tool.tests
    )
}

const fn in_use(is: bool) -> &'static str {
    if is { "in use" } else { "out of use" }
}
