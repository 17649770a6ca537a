//! Where a sequence begins: a shelf, with more or less work done.

use chrono::{DateTime, Days, FixedOffset, TimeDelta};
use notchbook::craft::{Capacity, Keeping};
use notchbook::logbook::{Change, Deed, Entry, Thing, ThingId, ThingKind};
use notchbook::reference::{Need, Reference};

use super::acts::entry;
use super::coverage::Coverage;
use super::deeds::{self, begin_print, begin_run, end_run, expose, step};
use super::dice::Ids;
use super::ledger::Ledger;
use super::model::Model;

/// A logbook, what the model has of it, and what time it is.
#[derive(Clone)]
pub(crate) struct Bench<'a> {
    pub(crate) ledger: Ledger,
    pub(crate) model: Model<'a>,
    pub(crate) ids: Ids,
    pub(crate) now: DateTime<FixedOffset>,
}

/// What stands on the shelf.
struct Shelf {
    film: ThingId,
    sides: Vec<ThingId>,
    developer: ThingId,
    paper: ThingId,
}

/// All places to begin from.
pub(crate) fn all(reference: &Reference) -> Vec<Bench<'_>> {
    let mut benches = Vec::new();
    let (shelf, _) = with_a_shelf(reference);
    benches.push(empty(reference));
    benches.push(shelf);
    benches.push(in_the_field(reference));
    let (negatives, _) = with_negatives(reference);
    benches.push(negatives);
    for _ in 0..6 {
        benches.push(with_worn_baths(reference));
    }
    for timed in [0, 1, 2, 3] {
        benches.push(at_the_sink(reference, timed));
    }
    for process in reference.processes() {
        let required = process
            .steps
            .iter()
            .filter(|step| step.need == Need::Required);
        let required: Vec<&str> = required.map(|step| step.id.as_str()).collect();
        for done in [required.len() / 2, required.len()] {
            let (mut bench, negatives) = with_negatives(reference);
            let print = bench.ids.thing();
            bench.log(Deed::PrintBegun(begin_print(print, negatives, &process.id)));
            for id in &required[..done] {
                bench.log(step(print, id, Vec::new()));
            }
            benches.push(bench);
        }
    }
    benches
}

fn empty(reference: &Reference) -> Bench<'_> {
    let now = DateTime::parse_from_rfc3339("2026-03-02T08:00:00+01:00");
    Bench {
        ledger: Ledger::default(),
        model: Model::new(reference),
        ids: Ids::default(),
        now: now.expect("a time"),
    }
}

fn with_a_shelf(reference: &Reference) -> (Bench<'_>, Shelf) {
    let mut bench = empty(reference);
    let film = bench.ids.thing();
    bench.log(deeds::film_box(film, "", "8x10", 6));
    let small = bench.ids.thing();
    bench.log(deeds::film_box(small, "", "4x5", 2));
    let sides: Vec<ThingId> = (0..4).map(|_| bench.ids.thing()).collect();
    for (own, of) in [
        (&sides[..2], "8x10"),
        (&sides[2..3], "8x10"),
        (&sides[3..], "4x5"),
    ] {
        let holder = bench.ids.thing();
        bench.log(deeds::holder(holder, "", of, own.to_vec()));
    }
    let lens = bench.ids.thing();
    bench.log(deeds::lens(lens, ""));
    let camera = bench.ids.thing();
    bench.log(deeds::camera(camera, ""));
    let developer = bench.ids.thing();
    bench.log(deeds::bath(developer, "", None, Some(Capacity::Sheets(3))));
    let fixer = bench.ids.thing();
    bench.log(deeds::bath(fixer, "", None, None));
    let paper = bench.ids.thing();
    bench.log(deeds::paper(paper, "", 3));
    let shelf = Shelf {
        film,
        sides,
        developer,
        paper,
    };
    (bench, shelf)
}

/// Sheets that wait, and baths of which each has another reason not to be used.
fn with_worn_baths(reference: &Reference) -> Bench<'_> {
    let mut bench = in_the_field(reference);
    let (four_by_five, yesterday) = (deeds::size("4x5"), deeds::first_day() - Days::new(1));
    let small = Capacity::Of {
        sheets: 2.0,
        size: four_by_five,
    };
    for worn in 0..4 {
        let capacity = (worn == 0).then_some(small);
        let bath = bench.ids.thing();
        let mut mixed = deeds::bath(bath, "", None, capacity);
        if let Deed::BathMixed(what) = &mut mixed {
            match worn {
                1 => what.keeps = Some(Keeping::Until(yesterday)),
                2 => {
                    what.volume = Some(deeds::ml(100.0));
                    what.least = Some(deeds::ml(250.0));
                }
                _ => {}
            }
        }
        bench.log(mixed);
        if worn == 3 {
            // Film clears twice as slowly in it as when it was fresh.
            for seconds in [30.0, 60.0] {
                bench.log(deeds::clear(bath, seconds));
            }
        }
    }
    two_fixers(&mut bench);
    bench
}

/// Two fixing baths that were changed as often as they may be.
fn two_fixers(bench: &mut Bench<'_>) {
    let baths: Vec<ThingId> = (0..5).map(|_| bench.ids.thing()).collect();
    bench.log(deeds::bath(baths[0], "", None, None));
    for (before, bath) in baths.iter().zip(&baths[1..]) {
        let mut mixed = deeds::bath(*bath, "", None, None);
        if let Deed::BathMixed(what) = &mut mixed
            && *before == baths[0]
        {
            what.behind = Some(*before);
        }
        bench.log(mixed);
    }
    for (first, next) in baths.iter().zip(&baths[2..]) {
        bench.log(deeds::rotate(*first, None, Some(*next)));
    }
}

/// One sheet loaded, one exposed, one out of its holder.
fn in_the_field(reference: &Reference) -> Bench<'_> {
    let (mut bench, shelf) = with_a_shelf(reference);
    let sheets: Vec<ThingId> = (0..3).map(|_| bench.ids.thing()).collect();
    bench.log(deeds::load(sheets[0], "", shelf.film, shelf.sides[0]));
    bench.log(Deed::Exposed(expose(shelf.sides[0], false)));
    bench.log(deeds::unload(shelf.sides[0]));
    bench.log(deeds::load(sheets[1], "", shelf.film, shelf.sides[0]));
    bench.log(Deed::Exposed(expose(shelf.sides[0], false)));
    bench.log(deeds::load(sheets[2], "", shelf.film, shelf.sides[1]));
    bench
}

/// A run under way, and so many of it and of a print being timed.
fn at_the_sink(reference: &Reference, timed: usize) -> Bench<'_> {
    let (mut bench, negatives) = with_negatives(reference);
    let shelf: Vec<ThingId> = bench.model.now.sides.keys().copied().collect();
    let boxes: Vec<ThingId> = bench.model.now.boxes.keys().copied().collect();
    let (sheet, run, print) = (bench.ids.thing(), bench.ids.thing(), bench.ids.thing());
    bench.log(deeds::load(sheet, "", boxes[0], shelf[0]));
    bench.log(Deed::Exposed(expose(shelf[0], false)));
    bench.log(Deed::RunBegun(begin_run(run, &[sheet], None)));
    bench.log(Deed::PrintBegun(begin_print(print, negatives, "cyanotype")));
    let things = [
        (Thing::new(ThingKind::Run, run), "develop"),
        (Thing::new(ThingKind::Print, print), "coat"),
    ];
    for (thing, step) in things.into_iter().take(timed) {
        bench.log(Deed::StepBegun(deeds::begin_step(thing, step, None)));
    }
    if timed > things.len() {
        for (thing, _) in things {
            bench.log(Deed::StepChanged(deeds::change_step(thing, Change::Pause)));
        }
    }
    bench
}

/// Two negatives, and a sheet still in a holder.
fn with_negatives(reference: &Reference) -> (Bench<'_>, Vec<ThingId>) {
    let (mut bench, shelf) = with_a_shelf(reference);
    let sheets: Vec<ThingId> = (0..2).map(|_| bench.ids.thing()).collect();
    for (sheet, side) in sheets.iter().zip(&shelf.sides) {
        bench.log(deeds::load(*sheet, "", shelf.film, *side));
        bench.log(Deed::Exposed(expose(*side, false)));
    }
    let run = bench.ids.thing();
    bench.log(Deed::RunBegun(begin_run(
        run,
        &sheets,
        Some(shelf.developer),
    )));
    bench.log(Deed::RunEnded(end_run(run)));
    let paper = notchbook::logbook::Thing::new(notchbook::logbook::ThingKind::Paper, shelf.paper);
    bench.log(Deed::Counted(notchbook::logbook::Counted {
        thing: paper,
        sheets: 3,
    }));
    (bench, sheets)
}

impl Bench<'_> {
    fn log(&mut self, deed: Deed) {
        self.now += TimeDelta::minutes(7);
        let entry: Entry = entry(&mut self.ids, deed, self.now, self.now, None);
        match self.put(&[entry], &mut Coverage::default()) {
            Ok(None) => {}
            Ok(Some(refusal)) => panic!("a bench begins in order: {refusal}"),
            Err(why) => panic!("a bench begins in order: {why}"),
        }
    }
}
