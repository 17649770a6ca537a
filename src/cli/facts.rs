//! What is known of one thing, label by label, from its life.

use chrono::{DateTime, FixedOffset};

use super::cells::{day, moment};
use crate::logbook::life::{
    BathLife, BoxLife, CameraLife, LensLife, PaperLife, PrintLife, RunLife, SheetLife, SideLife,
};
use crate::logbook::{Life, Names, Particulars, ThingId};
use crate::reference::Reference;

/// Labels with what is known.
pub(super) type Facts = Vec<(String, String)>;

struct Collected<'a> {
    facts: Facts,
    names: &'a dyn Names,
}

impl Collected<'_> {
    fn add(&mut self, label: &str, value: impl ToString) {
        let value = value.to_string();
        if !value.is_empty() {
            self.facts.push((label.to_owned(), value));
        }
    }

    fn some<T: ToString>(&mut self, label: &str, value: &Option<T>) {
        if let Some(value) = value {
            self.add(label, value.to_string());
        }
    }

    fn time(&mut self, label: &str, at: Option<DateTime<FixedOffset>>) {
        if let Some(at) = at {
            self.add(label, moment(at));
        }
    }

    fn thing(&mut self, label: &str, id: Option<ThingId>) {
        if let Some(id) = id {
            self.add(label, self.names.reference_of(id));
        }
    }

    fn things(&mut self, label: &str, ids: &[ThingId]) {
        let names: Vec<String> = ids.iter().map(|id| self.names.reference_of(*id)).collect();
        self.add(label, names.join(", "));
    }
}

/// What is known of a thing.
pub(super) fn facts(life: &Life, names: &dyn Names, reference: &Reference) -> Facts {
    let mut known = Collected {
        facts: Vec::new(),
        names,
    };
    match &life.particulars {
        Particulars::Box(one) => of_box(&mut known, one),
        Particulars::Holder(holder) => {
            known.some("size", &holder.size);
            known.some("what it is", &holder.make);
            for side in &holder.sides {
                let life = names.life_of(*side);
                let state = life.map(|life| in_words(&life)).unwrap_or_default();
                known.add(&names.reference_of(*side), state);
            }
        }
        Particulars::Side(side) => of_side(&mut known, side),
        Particulars::Sheet(sheet) => of_sheet(&mut known, sheet),
        Particulars::Set(set) => known.things("sheets", &set.sheets),
        Particulars::Run(run) => of_run(&mut known, run),
        Particulars::Bath(bath) => of_bath(&mut known, bath),
        Particulars::Paper(paper) => of_paper(&mut known, paper),
        Particulars::Print(print) => of_print(&mut known, print, reference),
        Particulars::Lens(lens) => of_lens(&mut known, lens),
        Particulars::Camera(camera) => of_camera(&mut known, camera),
        Particulars::Finding(finding) => {
            if let Some(found) = &finding.found {
                known.add(found.sort(), found.about());
                known.add("says", found.says());
            }
            known.time("found", finding.at);
        }
    }
    if life.overrides > 0 {
        known.add("against the order", format!("{} entries", life.overrides));
    }
    known.facts
}

/// The state of a thing, a doubt included.
pub(super) fn in_words(life: &Life) -> String {
    let doubt = life.side().and_then(|side| side.doubt);
    match doubt {
        Some(doubt) => format!(
            "{}, IN DOUBT: its slide was seen {} side out on {}",
            life.state_word(),
            doubt.seen.word(),
            moment(doubt.at)
        ),
        None => life.state_word().to_owned(),
    }
}

fn of_box(known: &mut Collected<'_>, one: &BoxLife) {
    known.add("film", &one.film);
    known.some("size", &one.size);
    known.some("exposed at", &one.speed);
    known.some("emulsion", &one.emulsion);
    known.some("use by", &one.expiry);
    known.some("kept", &one.kept);
    known.add("left", format!("{} of {}", one.left, one.sheets));
}

fn of_side(known: &mut Collected<'_>, side: &SideLife) {
    known.thing("holder", side.holder);
    known.some("size", &side.size);
    known.thing("sheet", side.sheet);
    known.time("exposed", side.exposed);
    if let Some(slide) = side.slide {
        known.add("slide", format!("{} side out", slide.word()));
    }
}

fn of_sheet(known: &mut Collected<'_>, sheet: &SheetLife) {
    known.thing("box", sheet.film_box);
    known.thing("side", sheet.side);
    known.time("being exposed since", sheet.begun.map(|begun| begun.at));
    for exposure in &sheet.exposures {
        known.time("exposed", Some(exposure.at));
        known.some("subject", &exposure.subject);
        known.thing("lens", exposure.lens);
    }
    known.thing("run", sheet.run);
    known.thing("set", sheet.set);
    for read in &sheet.measured {
        let channel = read.channel.map(|channel| format!(", {}", channel.word()));
        let words = format!("{} .. {}", read.low, read.high);
        known.add("densities", words + &channel.unwrap_or_default());
    }
    for seen in &sheet.faults {
        let place = seen.place.as_ref().map(|place| format!(", {place}"));
        let cause = seen.cause.as_ref().map(|cause| format!(": {cause}"));
        let parts = [Some(seen.fault.clone()), place, cause];
        known.add("fault", parts.into_iter().flatten().collect::<String>());
    }
    known.some("place", &sheet.file_place);
    known.some("scan", &sheet.scan);
    if sheet.prints > 0 {
        known.add("prints", sheet.prints);
    }
    known.some("end", &sheet.end);
}

fn of_run(known: &mut Collected<'_>, run: &RunLife) {
    known.things("sheets", &run.sheets);
    known.thing("developer", run.developer);
    known.some("vessel", &run.vessel);
    known.some("time", &run.time);
    known.some("temperature", &run.temperature);
    known.time("ended", run.ended);
}

fn of_bath(known: &mut Collected<'_>, bath: &BathLife) {
    known.add("solution", &bath.name);
    if let Some(purpose) = bath.purpose {
        known.add("for", purpose.word());
    }
    known.some("formula", &bath.formula);
    known.some("dilution", &bath.dilution);
    known.some("concentrate", &bath.concentrate);
    known.some("volume", &bath.volume);
    known.thing("drawn from", bath.stock);
    known.time("mixed", bath.mixed);
    let wear = bath.wear();
    known.add("used", wear.gone_through());
    let left = wear.left();
    known.some(
        "left",
        &left.as_deref().map(|left| left.trim_end_matches(" left")),
    );
    if bath.total_uses != bath.uses {
        known.add("since it was mixed", bath.total_uses);
    }
    known.some("good until", &wear.last_day);
    for test in &bath.clearings {
        let film = test.film.as_ref().map(|film| format!(", {film}"));
        let fresh = if test.fresh { ", fresh" } else { "" };
        let film = film.unwrap_or_default();
        known.add(
            "film clears in",
            format!("{}{film}{fresh} ({})", test.time, day(test.at)),
        );
    }
    known.thing("second bath", bath.second);
    known.thing("second to", bath.first);
    if bath.changes > 0 {
        known.add("changes of the two", bath.changes);
    }
    known.some("least stock for one 8x10", &bath.least);
}

fn of_paper(known: &mut Collected<'_>, paper: &PaperLife) {
    known.add("paper", &paper.name);
    known.some("what it is", &paper.sort);
    known.some("size", &paper.size);
    known.some("batch", &paper.batch);
    known.add("left", format!("{} of {}", paper.left, paper.sheets));
}

fn of_lens(known: &mut Collected<'_>, lens: &LensLife) {
    known.add("name", &lens.name);
    known.some("focal length", &lens.focal_length);
    known.some("widest", &lens.widest);
    known.some("smallest", &lens.smallest);
    known.some("shutter", &lens.shutter);
    known.some("serial number", &lens.serial);
    known.some("image circle", &lens.image_circle);
    known.some("pupil ratio", &lens.pupil_ratio);
    known.some("flange to film", &lens.flange);
    for test in &lens.tests {
        known.add(
            "shutter test",
            format!("{} ({})", test.in_words(), day(test.at)),
        );
    }
    known.add("exposures", lens.exposures);
    known.time("last used", lens.used);
}

fn of_camera(known: &mut Collected<'_>, camera: &CameraLife) {
    known.add("name", &camera.name);
    known.some("size", &camera.size);
    known.some("shortest draw", &camera.shortest_draw);
    known.some("longest draw", &camera.longest_draw);
    known.add("exposures", camera.exposures);
    known.time("last used", camera.used);
}

fn of_print(known: &mut Collected<'_>, print: &PrintLife, reference: &Reference) {
    known.some("title", &print.title);
    let process = reference.process(&print.process);
    known.add(
        "process",
        process.map_or(&print.process, |process| &process.name),
    );
    known.things("negative", &print.negatives);
    known.thing("paper", print.paper);
    known.some("printed on", &print.size);
    known.add("steps done", print.done().join(", "));
    known.some("number", &print.number);
    if let Some(placement) = &print.placement {
        known.add("now", placement.whereabouts.word());
        known.some("where, to whom", &placement.place);
        known.some("due back", &placement.due);
    }
    known.some("end", &print.end);
}
