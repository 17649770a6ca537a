//! The reference model: which entries a logbook should take, worked out anew from all of them every
//! time.
//!
//! It knows three things. Which entries count, with which figures and when: the last word on each.
//! What an entry need not say, because it follows from what was the case just before. And whether
//! everything that counts can have happened, one after the other, in one world.

use std::collections::BTreeSet;

use chrono::{DateTime, FixedOffset, TimeDelta};
use notchbook::craft::Area;
use notchbook::logbook::{Change, Deed, Entry, EntryId, Thing, ThingId, ThingKind};
use notchbook::reference::Reference;

use super::deeds;
use super::world::{No, SheetIs, World};

/// The logbook, as the model keeps it: every entry with all that it says.
#[derive(Clone)]
pub(crate) struct Model<'a> {
    pub(crate) reference: &'a Reference,
    pub(crate) entries: Vec<Entry>,
    /// What there is after all of them.
    pub(crate) now: World<'a>,
}

/// An entry that counts, as it counts.
pub(crate) struct Counting<'m> {
    pub(crate) id: EntryId,
    pub(crate) deed: &'m Deed,
    pub(crate) happened: DateTime<FixedOffset>,
    pub(crate) over: bool,
    written: DateTime<FixedOffset>,
    place: usize,
}

impl Counting<'_> {
    fn order(&self) -> (DateTime<FixedOffset>, DateTime<FixedOffset>, usize) {
        (self.happened, self.written, self.place)
    }
}

impl<'a> Model<'a> {
    pub(crate) fn new(reference: &'a Reference) -> Model<'a> {
        Model {
            reference,
            entries: Vec::new(),
            now: World::empty(reference),
        }
    }

    /// Takes one more entry, or says why not. The entry comes back with what it need not have said.
    pub(crate) fn take(&mut self, said: &Entry) -> Result<Entry, No> {
        let filled = self.fill_in(said)?;
        self.entries.push(filled.clone());
        let verdict = self.all_that_counts();
        match verdict {
            Ok(world) => self.now = world,
            Err(no) => {
                self.entries.pop();
                return Err(no);
            }
        }
        Ok(filled)
    }

    /// What there is after all that counts has happened, if it can have.
    fn all_that_counts(&self) -> Result<World<'a>, No> {
        let counting = self.counting();
        names_are_distinct(&counting)?;
        self.replay(&counting)
    }

    /// What there was just before a time.
    pub(crate) fn world_before(&self, happened: DateTime<FixedOffset>) -> World<'a> {
        let mut counting = self.counting();
        counting.retain(|one| one.happened < happened);
        self.replay(&counting)
            .expect("the beginning of what can happen can happen")
    }

    fn replay(&self, counting: &[Counting<'_>]) -> Result<World<'a>, No> {
        let mut world = World::empty(self.reference);
        for one in counting {
            world.now = one.happened;
            world.today = one.happened.date_naive();
            world.happen(one.deed, one.over)?;
        }
        Ok(world)
    }

    fn is_struck(&self, id: EntryId) -> bool {
        self.entries.iter().any(|later| match &later.deed {
            Deed::Struck(strike) => strike.entry == id && !self.is_struck(later.id),
            _ => false,
        })
    }

    /// The entries that count, in the order in which they happened.
    pub(crate) fn counting(&self) -> Vec<Counting<'_>> {
        let struck: BTreeSet<EntryId> = self
            .entries
            .iter()
            .filter_map(|later| match &later.deed {
                Deed::Struck(strike) if !self.is_struck(later.id) => Some(strike.entry),
                _ => None,
            })
            .collect();
        let mut counting: Vec<Counting<'_>> = Vec::new();
        for (place, entry) in self.entries.iter().enumerate() {
            match &entry.deed {
                Deed::Struck(_) => {}
                Deed::Amended(word) => {
                    let amended = counting.iter_mut().find(|one| one.id == word.entry);
                    if let Some(one) = amended
                        && !struck.contains(&entry.id)
                    {
                        one.deed = &word.deed;
                        one.happened = word.happened.unwrap_or(one.happened);
                        one.over |= entry.over.is_some();
                    }
                }
                deed => counting.push(Counting {
                    id: entry.id,
                    deed,
                    happened: entry.happened,
                    over: entry.over.is_some(),
                    written: entry.written,
                    place,
                }),
            }
        }
        counting.retain(|one| !struck.contains(&one.id));
        counting.sort_by_key(Counting::order);
        counting
    }

    /// One more than the highest number any thing of the kind was ever given.
    fn next_name(&self, kind: ThingKind) -> String {
        let names = self.entries.iter().filter_map(|entry| named(&entry.deed));
        let numbers = names
            .filter(|(thing, _)| thing.kind == kind)
            .filter_map(|(_, name)| name.get(2..)?.parse::<u32>().ok());
        let next = numbers.max().unwrap_or(0) + 1;
        kind.reference(next).unwrap_or_default()
    }

    fn fill_in(&self, said: &Entry) -> Result<Entry, No> {
        let latest = said.written + TimeDelta::minutes(10);
        let blank = |text: &str| text.trim().is_empty();
        if said.happened > latest && !self.was_set_back(said) {
            return Err(No("it is still to come"));
        }
        if said.over.as_deref().is_some_and(blank) {
            return Err(No("an override needs its reason"));
        }
        let mut entry = said.clone();
        match &mut entry.deed {
            Deed::Struck(strike) => {
                let known = self.entries.iter().any(|one| one.id == strike.entry);
                if !known || self.is_struck(strike.entry) || blank(&strike.reason) {
                    return Err(No("not there, struck already, or without a reason"));
                }
            }
            Deed::Amended(word) => {
                let known = self.entries.iter().find(|one| one.id == word.entry);
                let was = known.ok_or(No("not there"))?;
                if matches!(was.deed, Deed::Struck(_) | Deed::Amended(_)) {
                    return Err(No("a word cannot be amended"));
                }
                let made = |deed: &Deed| deed.creates().map(|(thing, _)| thing);
                let same =
                    word.deed.kind() == was.deed.kind() && made(&word.deed) == made(&was.deed);
                if !same || self.is_struck(was.id) || blank(&word.reason) {
                    return Err(No("another deed, struck already, or without a reason"));
                }
                if word.happened.is_some_and(|happened| happened > latest) {
                    return Err(No("it is still to come"));
                }
                let counting = self.counting();
                let now = counting.iter().find(|one| one.id == was.id);
                let now = now.expect("what is not struck counts");
                let happened = word.happened.unwrap_or(now.happened);
                let place = Counting { happened, ..*now };
                let name = now.deed.creates().map(|(_, name)| name.to_owned());
                self.fill_in_deed(&mut word.deed, &place)?;
                if let (Some((_, "")), Some(name)) = (word.deed.creates(), name) {
                    word.deed.name_created(name);
                }
            }
            deed => {
                let mut filled = deed.clone();
                let place = Counting {
                    id: said.id,
                    deed,
                    happened: said.happened,
                    over: false,
                    written: said.written,
                    place: self.entries.len(),
                };
                self.fill_in_deed(&mut filled, &place)?;
                *deed = filled;
            }
        }
        if let Some((thing, "")) = entry.deed.creates() {
            entry.deed.name_created(self.next_name(thing.kind));
        }
        if named(&entry.deed).is_some_and(|(thing, name)| !may_be_called(thing.kind, name)) {
            return Err(No("it cannot be called that"));
        }
        Ok(entry)
    }

    /// Whether the logbook holds a later time than the clock of something an entry is about: then the
    /// clock was set back, and the entry may be up to a day ahead of it.
    fn was_set_back(&self, said: &Entry) -> bool {
        let touches = said.deed.touches();
        let is_about = |one: &Counting<'_>| touches.iter().any(|it| one.deed.is_about(it.id));
        let counting = self.counting();
        let mut later = counting.iter().filter(|one| one.happened > said.written);
        said.happened <= said.written + TimeDelta::hours(24) && later.any(is_about)
    }

    /// Fills in what was the case just before, the entry itself left out.
    fn fill_in_deed(&self, deed: &mut Deed, place: &Counting<'_>) -> Result<(), No> {
        makes_sense(deed)?;
        self.is_what_it_is(deed)?;
        let mut before = self.counting();
        before.retain(|one| one.order() < place.order() && one.id != place.id);
        let world = self.replay(&before)?;
        let side_of = |sheet: ThingId| world.sheets.get(&sheet).and_then(|sheet| sheet.side);
        let sheet_in = |side: ThingId| world.sides.get(&side).and_then(|side| side.sheet);
        match deed {
            Deed::Loaded(what) => {
                let film_box = world.boxes.get(&what.film_box);
                what.size = what.size.or(film_box.map(|film_box| film_box.size));
            }
            Deed::Unloaded(what) => {
                what.sheet = what.sheet.or_else(|| sheet_in(what.side));
                let sheet = what.sheet.and_then(|id| world.sheets.get(&id));
                let unexposed = sheet.filter(|sheet| sheet.is == SheetIs::Loaded);
                what.film_box = what.film_box.or(unexposed.map(|sheet| sheet.film_box));
            }
            Deed::Exposed(what) => match (what.side, what.sheet) {
                (Some(side), None) => what.sheet = sheet_in(side),
                (None, Some(sheet)) => what.side = side_of(sheet),
                _ => {}
            },
            Deed::ExposureBegun(what) => what.sheet = what.sheet.or_else(|| sheet_in(what.side)),
            Deed::ExposureDropped(what) => what.sheet = what.sheet.or_else(|| sheet_in(what.side)),
            Deed::Fogged(what) => what.side = what.side.or_else(|| side_of(what.sheet)),
            Deed::Lost(what) if what.thing.kind == ThingKind::Sheet => {
                what.side = what.side.or_else(|| side_of(what.thing.id));
            }
            Deed::Discarded(what) if what.thing.kind == ThingKind::Sheet => {
                what.side = what.side.or_else(|| side_of(what.thing.id));
            }
            Deed::RunBegun(what) => {
                for each in &mut what.sheets {
                    each.side = each.side.or_else(|| side_of(each.sheet));
                }
                what.area = what.area.or_else(|| {
                    let each = what.sheets.iter().map(|each| {
                        let sheet = world.sheets.get(&each.sheet)?;
                        Some(world.boxes.get(&sheet.film_box)?.size.area_sq_in())
                    });
                    Area::new(each.sum::<Option<f64>>()?).ok()
                });
            }
            Deed::BathSplit(what) => {
                let bath = world.baths.get(&what.bath);
                let poured = bath.and_then(|bath| bath.pour(what.volume.value()));
                what.poured = what.poured.take().or(poured);
            }
            Deed::BathsRotated(what) => {
                if let Some(first) = world.baths.get(&what.first) {
                    what.second = what.second.or(first.second);
                    what.changes = what.changes.or(Some(first.changes + 1));
                }
            }
            Deed::PrintStep(what) if !what.baths.is_empty() => {
                what.area = what.area.or_else(|| {
                    let print = world.prints.get(&what.print)?;
                    let paper = print.paper.and_then(|paper| world.papers.get(&paper));
                    let size = print.size.or_else(|| Some(paper?.size))?;
                    Area::of(size, f64::from(print.paper_sheets)).ok()
                });
            }
            Deed::StripRead(what) => {
                let sheet = what.sheet.and_then(|id| world.sheets.get(&id));
                if let Some(sheet) = sheet {
                    // Every box in these acts holds the same film, every bath the same developer.
                    what.film.get_or_insert_with(|| deeds::FILM.to_owned());
                    what.run = what.run.or(sheet.run);
                }
                let run = what.run.and_then(|id| world.runs.get(&id));
                what.bath = what.bath.or(run.and_then(|run| run.developer));
                if what.bath.is_some_and(|id| world.baths.contains_key(&id)) {
                    what.developer
                        .get_or_insert_with(|| deeds::DEVELOPER.to_owned());
                }
            }
            Deed::StepBegun(what) if what.thing.kind == ThingKind::Run => {
                // A bath that the run knows is counted already.
                let run = world.runs.get(&what.thing.id);
                let new = what.bath.and_then(|bath| {
                    let run = run.filter(|run| !run.baths.contains(&bath))?;
                    u32::try_from(run.sheets.len()).ok()
                });
                if what.uses.is_none() && new.is_some() {
                    what.area = what.area.or(run.and_then(|run| run.area));
                }
                what.uses = what.uses.or(new);
            }
            Deed::RunEnded(what) if what.sheets.is_empty() => {
                let run = world.runs.get(&what.run);
                what.sheets = run.map(|run| run.sheets.clone()).unwrap_or_default();
                let is_in = |id: &ThingId| {
                    let sheet = world.sheets.get(id);
                    sheet.is_some_and(|sheet| sheet.in_run == Some(what.run))
                };
                what.sheets.retain(is_in);
            }
            Deed::Retired(what) if what.sides.is_empty() => {
                let holder = world.holders.get(&what.thing.id);
                what.sides = holder
                    .map(|holder| holder.sides.clone())
                    .unwrap_or_default();
            }
            _ => {}
        }
        makes_sense(deed)
    }

    /// What comes into being keeps its kind for ever: an id is not used for two kinds of things.
    fn is_what_it_is(&self, deed: &Deed) -> Result<(), No> {
        let touches = deed.touches();
        for entry in &self.entries {
            let was = match &entry.deed {
                Deed::Amended(word) => &word.deed,
                deed => deed,
            };
            let made = was.creates().into_iter().map(|(thing, _)| thing);
            for thing in made.chain(sides_made_by(was)) {
                let other = |touched: &Thing| touched.id == thing.id && touched.kind != thing.kind;
                if touches.iter().any(other) {
                    return Err(No("it is something else"));
                }
            }
        }
        Ok(())
    }
}

/// What a deed, or the amendment of one, names.
fn named(deed: &Deed) -> Option<(Thing, &str)> {
    match deed {
        Deed::Amended(word) => word.deed.creates(),
        deed => deed.creates(),
    }
}

/// No two things of a kind that are there may be called the same.
fn names_are_distinct(counting: &[Counting<'_>]) -> Result<(), No> {
    let mut names = BTreeSet::new();
    for (thing, name) in counting.iter().filter_map(|one| one.deed.creates()) {
        if !names.insert((thing.kind, name)) {
            return Err(No("two things would be called the same"));
        }
    }
    Ok(())
}

/// A name is no list, and not what a thing of another kind, or a side, is called.
fn may_be_called(kind: ThingKind, name: &str) -> bool {
    let number = name.get(2..).unwrap_or("");
    let like_a_reference = name.get(1..2) == Some("-") && number.starts_with(char::is_numeric);
    let own = kind
        .letter()
        .is_some_and(|(letter, _)| name.starts_with(letter));
    !name.contains(',') && (!like_a_reference || (own && number.chars().all(char::is_numeric)))
}

fn sides_made_by(deed: &Deed) -> Vec<Thing> {
    match deed {
        Deed::HolderAdded(new) => new
            .side_ids
            .iter()
            .map(|id| Thing::new(ThingKind::Side, *id))
            .collect(),
        _ => Vec::new(),
    }
}

const fn is_timed(thing: Thing) -> bool {
    matches!(thing.kind, ThingKind::Run | ThingKind::Print)
}

/// What cannot be meant, whatever has happened.
fn makes_sense(deed: &Deed) -> Result<(), No> {
    fn distinct(ids: impl Iterator<Item = ThingId>) -> bool {
        let mut seen = BTreeSet::new();
        ids.into_iter().all(|id| seen.insert(id))
    }
    let reason = match deed {
        Deed::Retired(what) => &what.reason,
        Deed::SlideRighted(what) => &what.reason,
        Deed::ExposureDropped(what) => &what.reason,
        Deed::Fogged(what) => &what.reason,
        Deed::Spoiled(what) => &what.reason,
        Deed::Lost(what) => &what.reason,
        Deed::Discarded(what) => &what.reason,
        _ => "none is needed",
    };
    let sense = match deed {
        Deed::HolderAdded(new) => {
            let sides = new.side_ids.len();
            sides > 0
                && sides == new.sides as usize
                && distinct(new.side_ids.iter().copied().chain([new.holder]))
        }
        Deed::BathMixed(new) => new.stock != Some(new.bath) && new.behind != Some(new.bath),
        Deed::BathSplit(what) => what.bath != what.part,
        Deed::BathsRotated(what) => {
            let named = [Some(what.first), what.second, what.next];
            distinct(named.into_iter().flatten())
        }
        Deed::ShutterTested(what) => !what.timings.is_empty(),
        Deed::FilterFound(new) => new.stops.value() >= 0.0,
        Deed::TimeFound(new) => new.needed.value() >= new.metered.value(),
        Deed::FilmFound(new) => new.speed.is_some() || new.maker.is_some() || new.kind.is_some(),
        Deed::FormatFound(new) => new.image.is_some() || new.cut.is_some() || new.depth.is_some(),
        Deed::DevelopmentFound(new) => new.gradient.is_none_or(|it| (0.1..=4.0).contains(&it)),
        Deed::MeterSet(new) => new.reflected.is_some() || new.incident.is_some(),
        Deed::Exposed(what) => what.side.is_some() || what.sheet.is_some(),
        Deed::StripRead(new) => {
            (new.film.is_some() || new.sheet.is_some())
                && new.readings.iter().flatten().count() >= 4
        }
        Deed::TabletFound(new) => new.densities.len() >= 4,
        Deed::LimitsSet(new) => new.gradient.is_some() || new.speed.is_some(),
        Deed::Companions(what) => distinct(what.sheets.iter().copied()),
        Deed::RunBegun(what) => {
            !what.sheets.is_empty()
                && distinct(what.sheets.iter().map(|each| each.sheet))
                && distinct(what.sheets.iter().filter_map(|each| each.side))
        }
        Deed::StepBegun(what) => is_timed(what.thing) && !what.step.trim().is_empty(),
        Deed::StepChanged(what) => {
            is_timed(what.thing)
                && match what.change {
                    Change::MoreTime => what.more.is_some() || what.time.is_some(),
                    Change::Temperature => what.temperature.is_some(),
                    Change::Pause | Change::GoOn => true,
                }
        }
        Deed::StepEnded(what) => is_timed(what.thing),
        Deed::RunEnded(what) => distinct(what.sheets.iter().copied()),
        Deed::Measured(what) => what.low.value() <= what.high.value(),
        Deed::PrintBegun(what) => what.paper_sheets > 0 && distinct(what.negatives.iter().copied()),
        Deed::Matted(what) => {
            let ((w, h), (x, y)) = (what.window.mm(), what.outer.mm());
            w < x && h < y
        }
        _ => true,
    };
    if sense && !reason.trim().is_empty() {
        Ok(())
    } else {
        Err(No("it cannot be meant"))
    }
}
