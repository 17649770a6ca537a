//! What there is and in which state, written down a second time from what the trade does with it.
//!
//! One world holds everything, and an entry happens in it to all that it is about at once. It either
//! can happen or cannot; where it could only for a reason the user gives, the reason is asked for.
//! Nothing here calls the lives or looks at their tables.

use std::collections::{BTreeMap, BTreeSet};

use chrono::{DateTime, Days, FixedOffset, NaiveDate};
use notchbook::craft::{Area, Capacity, Keeping, Size};
use notchbook::logbook::{Clearing, Deed, Thing, ThingId, ThingKind};
use notchbook::reference::{Process, Reference};

mod baths;
mod film;
mod prints;
mod steps;

pub(crate) use steps::Timed;

/// Why not, for whoever reads a failure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct No(pub &'static str);

pub(crate) type Can = Result<(), No>;

/// A stock of sheets: a box of film or a packet of paper.
#[derive(Clone, Debug)]
pub(crate) struct Stock {
    pub(crate) size: Size,
    pub(crate) left: u32,
    pub(crate) used_up: bool,
}

#[derive(Clone, Debug)]
pub(crate) struct Holder {
    pub(crate) sides: Vec<ThingId>,
    pub(crate) retired: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum SideIs {
    Empty,
    Loaded,
    Open,
    Exposed,
    Fogged,
    Retired,
}

#[derive(Clone, Debug)]
pub(crate) struct Side {
    pub(crate) is: SideIs,
    pub(crate) takes: Size,
    pub(crate) sheet: Option<ThingId>,
    pub(crate) had_light: bool,
    pub(crate) in_doubt: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum SheetIs {
    InBox,
    Loaded,
    Open,
    Exposed,
    Held,
    Developing,
    Negative,
    Filed,
    Fogged,
    Lost,
    Discarded,
}

#[derive(Clone, Debug)]
pub(crate) struct Sheet {
    pub(crate) is: SheetIs,
    pub(crate) film_box: ThingId,
    pub(crate) side: Option<ThingId>,
    pub(crate) exposures: u32,
    pub(crate) run: Option<ThingId>,
    pub(crate) in_run: Option<ThingId>,
    pub(crate) set: Option<ThingId>,
    pub(crate) prints: u32,
}

#[derive(Clone, Debug)]
pub(crate) struct Run {
    pub(crate) sheets: Vec<ThingId>,
    pub(crate) developer: Option<ThingId>,
    pub(crate) ended: bool,
    pub(crate) baths: Vec<ThingId>,
    pub(crate) area: Option<Area>,
    pub(crate) timed: Timed,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum BathIs {
    Fresh,
    InUse,
    UsedUp,
    Discarded,
}

#[derive(Clone, Debug)]
pub(crate) struct Bath {
    pub(crate) is: BathIs,
    pub(crate) capacity: Option<Capacity>,
    pub(crate) uses: u32,
    /// Square inches that went through it, and sheets of no known size.
    pub(crate) area: f64,
    pub(crate) unmeasured: u32,
    /// The last day on which it is good.
    pub(crate) last_day: Option<NaiveDate>,
    /// Millilitres in it, and the least that 80 square inches take.
    pub(crate) volume: Option<f64>,
    pub(crate) least: Option<f64>,
    pub(crate) keeps: Option<Keeping>,
    pub(crate) mixed: Option<DateTime<FixedOffset>>,
    pub(crate) total_uses: u32,
    pub(crate) total_area: f64,
    /// Seconds in which film cleared, those of the fresh bath marked.
    pub(crate) clearings: Vec<Clearing>,
    pub(crate) second: Option<ThingId>,
    pub(crate) changes: u32,
}

/// What goes through a bath at once.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Load {
    pub(crate) sheets: u32,
    pub(crate) area: Option<f64>,
    pub(crate) develops: bool,
}

#[derive(Clone, Debug)]
pub(crate) struct Tool {
    pub(crate) retired: bool,
    pub(crate) exposures: u32,
    pub(crate) tests: u32,
}

/// Something that was found out.
#[derive(Clone, Debug)]
pub(crate) struct Finding {
    pub(crate) retired: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum PrintIs {
    InProcess,
    Dry,
    Pressed,
    Mounted,
    Matted,
    Framed,
    Spoiled,
    Lost,
    Discarded,
}

#[derive(Clone, Debug)]
pub(crate) struct Print {
    pub(crate) is: PrintIs,
    pub(crate) process: String,
    pub(crate) size: Option<Size>,
    pub(crate) paper: Option<ThingId>,
    pub(crate) paper_sheets: u32,
    pub(crate) steps: Vec<String>,
    pub(crate) away: bool,
    pub(crate) was_before_frame: PrintIs,
    pub(crate) timed: Timed,
}

/// Everything there is.
#[derive(Clone)]
pub(crate) struct World<'a> {
    pub(crate) reference: &'a Reference,
    /// When the last thing happened, and on which day.
    pub(crate) now: DateTime<FixedOffset>,
    pub(crate) today: NaiveDate,
    pub(crate) boxes: BTreeMap<ThingId, Stock>,
    pub(crate) papers: BTreeMap<ThingId, Stock>,
    pub(crate) holders: BTreeMap<ThingId, Holder>,
    pub(crate) sides: BTreeMap<ThingId, Side>,
    pub(crate) lenses: BTreeMap<ThingId, Tool>,
    pub(crate) cameras: BTreeMap<ThingId, Tool>,
    pub(crate) findings: BTreeMap<ThingId, Finding>,
    pub(crate) sheets: BTreeMap<ThingId, Sheet>,
    pub(crate) sets: BTreeSet<ThingId>,
    pub(crate) runs: BTreeMap<ThingId, Run>,
    pub(crate) baths: BTreeMap<ThingId, Bath>,
    pub(crate) prints: BTreeMap<ThingId, Print>,
}

/// What cannot be, whatever reason is given.
fn must(is_so: bool, why: &'static str) -> Can {
    if is_so { Ok(()) } else { Err(No(why)) }
}

fn there<T>(all: &mut BTreeMap<ThingId, T>, id: ThingId) -> Result<&mut T, No> {
    all.get_mut(&id).ok_or(No("it is not there"))
}

fn comes_in<T>(all: &mut BTreeMap<ThingId, T>, id: ThingId, thing: T) -> Can {
    must(all.insert(id, thing).is_none(), "it is there already")
}

impl<'a> World<'a> {
    pub(crate) fn empty(reference: &'a Reference) -> World<'a> {
        World {
            reference,
            now: DateTime::UNIX_EPOCH.fixed_offset(),
            today: NaiveDate::MIN,
            boxes: BTreeMap::new(),
            papers: BTreeMap::new(),
            holders: BTreeMap::new(),
            sides: BTreeMap::new(),
            lenses: BTreeMap::new(),
            cameras: BTreeMap::new(),
            findings: BTreeMap::new(),
            sheets: BTreeMap::new(),
            sets: BTreeSet::new(),
            runs: BTreeMap::new(),
            baths: BTreeMap::new(),
            prints: BTreeMap::new(),
        }
    }

    pub(crate) fn process(&self, print: &Print) -> &'a Process {
        let known = self.reference.process(&print.process);
        known.expect("the acts name built-in processes")
    }

    /// Lets a deed happen. With `over`, what a reason can make good is passed.
    pub(crate) fn happen(&mut self, deed: &Deed, over: bool) -> Can {
        self.try_it(deed, over)?;
        // A sheet that somebody says is elsewhere is in no run.
        for sheet in self.sheets.values_mut() {
            if !matches!(
                sheet.is,
                SheetIs::Developing | SheetIs::Fogged | SheetIs::Lost | SheetIs::Discarded
            ) {
                sheet.in_run = None;
            }
        }
        // A print that goes into no bath any more is not timed.
        for print in self.prints.values_mut() {
            if !print.is.can_be_wet() {
                print.timed.end();
            }
        }
        Ok(())
    }

    fn try_it(&mut self, deed: &Deed, over: bool) -> Can {
        let need = |is_so: bool, why: &'static str| must(is_so || over, why);
        let today = self.today;
        match deed {
            Deed::BoxAdded(new) => {
                let stock = Stock {
                    size: new.size,
                    left: new.sheets,
                    used_up: false,
                };
                comes_in(&mut self.boxes, new.film_box, stock)
            }
            Deed::PaperAdded(new) => {
                let stock = Stock {
                    size: new.size,
                    left: new.sheets,
                    used_up: false,
                };
                comes_in(&mut self.papers, new.paper, stock)
            }
            Deed::HolderAdded(new) => {
                for side in &new.side_ids {
                    let empty = Side {
                        is: SideIs::Empty,
                        takes: new.size,
                        sheet: None,
                        had_light: false,
                        in_doubt: false,
                    };
                    comes_in(&mut self.sides, *side, empty)?;
                }
                let holder = Holder {
                    sides: new.side_ids.clone(),
                    retired: false,
                };
                comes_in(&mut self.holders, new.holder, holder)
            }
            Deed::LensAdded(new) => comes_in(&mut self.lenses, new.lens, Tool::new()),
            Deed::CameraAdded(new) => comes_in(&mut self.cameras, new.camera, Tool::new()),
            Deed::FilterFound(new) => self.found(new.finding),
            Deed::TimeFound(new) => self.found(new.finding),
            Deed::FilmFound(new) => self.found(new.finding),
            Deed::FormatFound(new) => self.found(new.finding),
            Deed::DevelopmentFound(new) => self.found(new.finding),
            Deed::LightFound(new) => self.found(new.finding),
            Deed::MeterSet(new) => self.found(new.finding),
            Deed::PlaceKept(new) => self.found(new.finding),
            Deed::TabletFound(new) => self.found(new.finding),
            Deed::LimitsSet(new) => self.found(new.finding),
            Deed::StripRead(new) => {
                if let Some(sheet) = new.sheet {
                    let sheet = there(&mut self.sheets, sheet)?;
                    need(sheet.is_negative(), "it is no negative")?;
                }
                if let Some(bath) = new.bath {
                    there(&mut self.baths, bath)?;
                }
                self.found(new.finding)
            }
            Deed::ShutterTested(what) => {
                let lens = there(&mut self.lenses, what.lens)?;
                need(!lens.retired, "it is out of use")?;
                lens.tests += 1;
                Ok(())
            }
            Deed::BathMixed(new) => {
                if let Some(stock) = new.stock {
                    let stock = there(&mut self.baths, stock)?;
                    let usable = matches!(stock.is, BathIs::Fresh | BathIs::InUse);
                    need(usable, "the stock is gone")?;
                    need(!stock.is_too_old(today), "the stock is too old")?;
                    // Undiluted, as all baths here are.
                    if let (Some(holds), Some(drawn)) = (stock.volume, new.volume) {
                        let left = holds - drawn.value();
                        stock.volume = (left >= 0.001).then_some(left);
                    }
                }
                let last_day = new.keeps.map(|keeps| match keeps {
                    Keeping::Days(days) => today + Days::new(u64::from(days)),
                    Keeping::Until(day) => day,
                });
                if let Some(first) = new.behind {
                    let first = there(&mut self.baths, first)?;
                    let usable = matches!(first.is, BathIs::Fresh | BathIs::InUse);
                    need(usable, "the first is gone")?;
                    first.second = Some(new.bath);
                }
                let now = self.now;
                let bath = Bath {
                    keeps: new.keeps,
                    mixed: Some(now),
                    total_uses: 0,
                    total_area: 0.0,
                    clearings: Vec::new(),
                    second: None,
                    changes: 0,
                    is: BathIs::Fresh,
                    capacity: new.capacity,
                    uses: 0,
                    area: 0.0,
                    unmeasured: 0,
                    last_day,
                    volume: new.volume.map(|volume| volume.value()),
                    least: new.least.map(|least| least.value()),
                };
                comes_in(&mut self.baths, new.bath, bath)
            }
            Deed::BathReplenished(what) => {
                let bath = there(&mut self.baths, what.bath)?;
                need(bath.is != BathIs::Discarded, "it was thrown away")?;
                if let (Some(holds), Some(bleed)) = (bath.volume, what.bleed)
                    && bath.is != BathIs::Discarded
                {
                    must(bleed.value() < holds, "there is not so much of it")?;
                }
                if let (Some(holds), Some(bleed)) = (bath.volume, what.bleed) {
                    let added = what.volume.map_or(0.0, |volume| volume.value());
                    if holds > bleed.value() {
                        bath.volume = Some(holds - bleed.value() + added);
                    }
                }
                bath.is = BathIs::InUse;
                bath.uses = 0;
                bath.area = 0.0;
                bath.unmeasured = 0;
                Ok(())
            }
            Deed::BathSplit(_) | Deed::ClearingTested(_) | Deed::BathsRotated(_) => {
                self.bath_happens(deed, over)
            }
            Deed::Counted(what) => {
                let stock = self.stock(what.thing)?;
                stock.left = what.sheets;
                stock.used_up = false;
                Ok(())
            }
            Deed::UsedUp(what) if what.thing.kind == ThingKind::Bath => {
                let bath = there(&mut self.baths, what.thing.id)?;
                let usable = matches!(bath.is, BathIs::Fresh | BathIs::InUse);
                need(usable, "the bath is gone")?;
                bath.is = BathIs::UsedUp;
                Ok(())
            }
            Deed::UsedUp(what) => {
                let stock = self.stock(what.thing)?;
                need(!stock.used_up, "it is used up")?;
                stock.used_up = true;
                stock.left = 0;
                Ok(())
            }
            Deed::Retired(what) => self.retire(what.thing, &what.sides, over),
            Deed::Loaded(_)
            | Deed::Unloaded(_)
            | Deed::ExposureBegun(_)
            | Deed::ExposureDropped(_)
            | Deed::Exposed(_)
            | Deed::SlideSeen(_)
            | Deed::SlideRighted(_)
            | Deed::Fogged(_)
            | Deed::Companions(_)
            | Deed::RunBegun(_)
            | Deed::RunEnded(_)
            | Deed::Measured(_)
            | Deed::FaultSeen(_)
            | Deed::Scanned(_)
            | Deed::Filed(_) => self.film_happens(deed, over),
            Deed::StepBegun(_) | Deed::StepChanged(_) | Deed::StepEnded(_) => {
                self.step_happens(deed, over)
            }
            Deed::Lost(what) if what.thing.kind == ThingKind::Sheet => {
                self.sheet_ends(what.thing.id, what.side, SheetIs::Lost, over)
            }
            Deed::Discarded(what) if what.thing.kind == ThingKind::Sheet => {
                self.sheet_ends(what.thing.id, what.side, SheetIs::Discarded, over)
            }
            Deed::Discarded(what) if what.thing.kind == ThingKind::Bath => {
                must(what.side.is_none(), "a bath is in no side")?;
                let bath = there(&mut self.baths, what.thing.id)?;
                need(bath.is != BathIs::Discarded, "it was thrown away")?;
                bath.is = BathIs::Discarded;
                Ok(())
            }
            Deed::PrintBegun(_)
            | Deed::PrintStep(_)
            | Deed::Spoiled(_)
            | Deed::Pressed(_)
            | Deed::Mounted(_)
            | Deed::Matted(_)
            | Deed::Attached(_)
            | Deed::Signed(_)
            | Deed::Framed(_)
            | Deed::Unframed(_)
            | Deed::Labelled(_)
            | Deed::Placed(_) => self.print_happens(deed, over),
            Deed::Lost(what) => {
                must(what.thing.kind == ThingKind::Print, "it cannot be lost")?;
                must(what.side.is_none(), "a print is in no side")?;
                self.print_ends(what.thing.id, PrintIs::Lost, over)
            }
            Deed::Discarded(what) => {
                let can = what.thing.kind == ThingKind::Print;
                must(can, "it cannot be thrown away")?;
                must(what.side.is_none(), "a print is in no side")?;
                self.print_ends(what.thing.id, PrintIs::Discarded, over)
            }
            Deed::Noted(what) => must(self.is_there(what.thing), "it is not there"),
            Deed::Struck(_) | Deed::Amended(_) => Err(No("words about entries do not happen")),
        }
    }

    pub(crate) fn is_there(&self, thing: Thing) -> bool {
        let id = &thing.id;
        match thing.kind {
            ThingKind::Box => self.boxes.contains_key(id),
            ThingKind::Holder => self.holders.contains_key(id),
            ThingKind::Side => self.sides.contains_key(id),
            ThingKind::Lens => self.lenses.contains_key(id),
            ThingKind::Camera => self.cameras.contains_key(id),
            ThingKind::Finding => self.findings.contains_key(id),
            ThingKind::Sheet => self.sheets.contains_key(id),
            ThingKind::Set => self.sets.contains(id),
            ThingKind::Run => self.runs.contains_key(id),
            ThingKind::Bath => self.baths.contains_key(id),
            ThingKind::Paper => self.papers.contains_key(id),
            ThingKind::Print => self.prints.contains_key(id),
        }
    }

    fn stock(&mut self, thing: Thing) -> Result<&mut Stock, No> {
        match thing.kind {
            ThingKind::Box => there(&mut self.boxes, thing.id),
            ThingKind::Paper => there(&mut self.papers, thing.id),
            _ => Err(No("it has no sheets to count")),
        }
    }

    fn retire(&mut self, thing: Thing, sides: &[ThingId], over: bool) -> Can {
        let need = |is_so: bool, why: &'static str| must(is_so || over, why);
        if thing.kind == ThingKind::Finding {
            must(sides.is_empty(), "it has no sides")?;
            let finding = there(&mut self.findings, thing.id)?;
            need(!finding.retired, "it is out of use")?;
            finding.retired = true;
            return Ok(());
        }
        let tool = match thing.kind {
            ThingKind::Lens => there(&mut self.lenses, thing.id)?,
            ThingKind::Camera => there(&mut self.cameras, thing.id)?,
            ThingKind::Holder => {
                let holder = there(&mut self.holders, thing.id)?;
                let (mut named, mut own) = (sides.to_vec(), holder.sides.clone());
                named.sort_unstable();
                own.sort_unstable();
                must(named == own, "it goes with all its sides")?;
                need(!holder.retired, "it is out of use")?;
                holder.retired = true;
                for side in sides {
                    let side = there(&mut self.sides, *side)?;
                    let nothing_in_it = matches!(side.is, SideIs::Empty | SideIs::Retired);
                    need(nothing_in_it, "there is a sheet in it")?;
                    side.is = SideIs::Retired;
                    side.in_doubt = false;
                }
                return Ok(());
            }
            ThingKind::Side => {
                must(sides.is_empty(), "a side has no sides")?;
                let side = there(&mut self.sides, thing.id)?;
                need(
                    side.is == SideIs::Empty,
                    "there is a sheet in it, or it is out of use",
                )?;
                side.is = SideIs::Retired;
                side.in_doubt = false;
                return Ok(());
            }
            _ => return Err(No("it cannot go out of use")),
        };
        must(sides.is_empty(), "it has no sides")?;
        need(!tool.retired, "it is out of use")?;
        tool.retired = true;
        Ok(())
    }

    fn found(&mut self, id: ThingId) -> Can {
        comes_in(&mut self.findings, id, Finding { retired: false })
    }

    fn goes_through(&mut self, bath: ThingId, load: Load, over: bool) -> Can {
        let today = self.today;
        let bath = there(&mut self.baths, bath)?;
        let usable = matches!(bath.is, BathIs::Fresh | BathIs::InUse);
        must(over || usable, "the bath is gone")?;
        must(over || !bath.is_too_old(today), "the bath is too old")?;
        must(over || !bath.is_slow(), "film clears too slowly in it")?;
        let was_exhausted = bath.is_exhausted(0.0);
        bath.is = BathIs::InUse;
        bath.uses += load.sheets;
        bath.total_uses += load.sheets;
        bath.total_area += load.area.unwrap_or(0.0);
        match load.area {
            Some(area) => bath.area += area,
            None => bath.unmeasured += load.sheets,
        }
        let good = match bath.capacity {
            Some(Capacity::Sheets(most)) => bath.uses <= most,
            Some(_) => !was_exhausted && !bath.is_exhausted(0.01),
            None => true,
        };
        must(over || good, "the bath is exhausted")?;
        let rich = match (bath.volume, bath.least, load.area) {
            (Some(volume), Some(least), Some(area)) if load.develops => {
                volume >= least * area / 80.0
            }
            _ => true,
        };
        must(over || rich, "it holds too little")
    }
}

impl Bath {
    pub(crate) fn is_too_old(&self, today: NaiveDate) -> bool {
        self.last_day.is_some_and(|last| last < today)
    }

    /// Whether it has had all it is trusted with, and `more` square inches.
    pub(crate) fn is_exhausted(&self, more: f64) -> bool {
        let guessed = f64::from(self.unmeasured);
        match self.capacity {
            None => false,
            Some(Capacity::Sheets(most)) => self.uses >= most,
            Some(Capacity::Of { sheets, size }) => {
                let each = size.area_sq_in();
                self.area + guessed * each >= sheets * each + more - 0.001
            }
            Some(Capacity::Area(area)) => self.area >= area.value() + more - 0.001,
        }
    }
}

impl Tool {
    const fn new() -> Tool {
        Tool {
            retired: false,
            exposures: 0,
            tests: 0,
        }
    }
}

impl Sheet {
    pub(crate) fn is_negative(&self) -> bool {
        matches!(self.is, SheetIs::Negative | SheetIs::Filed)
    }
}
