//! Acts that a person might log, and some that nobody could.
//!
//! The dice choose what, about which thing, and when. They lean towards what the world allows, so
//! that a sequence gets somewhere, and now and then take anything at all.

use chrono::{DateTime, FixedOffset, TimeDelta};
use notchbook::logbook::*;
use uuid::Uuid;

use super::deeds::{self, end_run, reason, step};
use super::dice::{Dice, Ids};
use super::model::Model;
use super::world::{PrintIs, SheetIs, SideIs, World};

mod film;
mod prints;
mod steps;
mod stock;
mod things;
mod words;

type Moment = DateTime<FixedOffset>;

/// The person at the logbook: what is drawn for the next act, and what the world is like then.
pub(crate) struct Hand<'h, 'd, 'a> {
    pub(crate) dice: &'h mut Dice<'d>,
    pub(crate) ids: &'h mut Ids,
    pub(crate) model: &'h Model<'a>,
    pub(crate) world: World<'a>,
}

/// The entries of one act, all written at `now`.
pub(crate) fn act(
    dice: &mut Dice<'_>,
    ids: &mut Ids,
    model: &Model<'_>,
    now: Moment,
) -> Vec<Entry> {
    let happened = when(dice, model, now);
    let world = if happened < now {
        model.world_before(happened)
    } else {
        model.now.clone()
    };
    let mut hand = Hand {
        dice,
        ids,
        model,
        world,
    };
    let deeds = hand.deeds(now);
    let mut over = hand.dice.percent(6).then(reason);
    if over.is_some() && hand.dice.percent(4) {
        over = Some(" ".to_owned());
    }
    deeds
        .into_iter()
        .map(|deed| entry(ids, deed, happened, now, over.clone()))
        .collect()
}

/// An entry that the ledger gives its place.
pub(crate) fn entry(
    ids: &mut Ids,
    deed: Deed,
    happened: Moment,
    written: Moment,
    over: Option<String>,
) -> Entry {
    Entry {
        id: ids.entry(),
        act: ActId(Uuid::nil()),
        machine: MachineId(Uuid::nil()),
        seq: 0,
        happened,
        written,
        deed,
        over,
        note: None,
    }
}

/// Mostly now; or late, by any time, or close to something that is logged already.
fn when(dice: &mut Dice<'_>, model: &Model<'_>, now: Moment) -> Moment {
    match dice.weighed(&[(78, 0), (7, 1), (12, 2), (2, 3), (1, 4)]) {
        0 => now,
        1 => now - TimeDelta::minutes(dice.below(2000) as i64),
        2 => {
            let near = model.entries.len().checked_sub(1 + dice.below(12));
            let near = near.map_or(now, |index| model.entries[index].happened);
            near + TimeDelta::minutes(dice.below(3) as i64 - 1)
        }
        3 => now + TimeDelta::minutes(8),
        _ => now + TimeDelta::minutes(30),
    }
}

impl<'a> Hand<'_, '_, 'a> {
    fn deeds(&mut self, now: Moment) -> Vec<Deed> {
        match self
            .dice
            .weighed(&[(80, 0), (6, 1), (6, 2), (5, 3), (3, 4)])
        {
            0 => vec![self.deed()],
            1 => vec![self.strike()],
            2 => vec![self.amendment(now)],
            3 => self.work_through(),
            _ => {
                let mut deeds = vec![self.deed(), self.deed()];
                if self.dice.percent(30) {
                    deeds[0] = self.strike();
                }
                deeds
            }
        }
    }

    /// One deed, of a kind for which there is something at hand.
    fn deed(&mut self) -> Deed {
        let world = &self.world;
        let sides = |is: SideIs| world.sides.values().filter(|side| side.is == is).count();
        let sheets = |is: SheetIs| world.sheets.values().filter(|sheet| sheet.is == is).count();
        let prints = |is: PrintIs| world.prints.values().filter(|print| print.is == is).count();
        let doubts = world.sides.values().filter(|side| side.in_doubt).count();
        let waiting = sheets(SheetIs::Exposed) + sheets(SheetIs::Held);
        let negatives = sheets(SheetIs::Negative) + sheets(SheetIs::Filed);
        let finished = prints(PrintIs::Dry) + prints(PrintIs::Pressed);
        let shown = prints(PrintIs::Mounted) + prints(PrintIs::Matted);
        let running = world.runs.values().filter(|run| !run.ended).count();
        let timed = world.timed().count();
        let much = |there: usize, weight: usize| if there > 0 { 4 * weight } else { 1 };
        let kind = self.dice.weighed(&[
            (8, Kind::BoxAdded),
            (8, Kind::HolderAdded),
            (8, Kind::LensAdded),
            (8, Kind::CameraAdded),
            (much(world.lenses.len(), 2), Kind::ShutterTested),
            (5, Kind::FilterFound),
            (5, Kind::TimeFound),
            (5, Kind::FilmFound),
            (5, Kind::FormatFound),
            (5, Kind::DevelopmentFound),
            (5, Kind::LightFound),
            (5, Kind::MeterSet),
            (5, Kind::PlaceKept),
            (much(negatives, 3), Kind::StripRead),
            (5, Kind::TabletFound),
            (5, Kind::LimitsSet),
            (8, Kind::PaperAdded),
            (12, Kind::BathMixed),
            (8, Kind::BathReplenished),
            (much(world.baths.len(), 2), Kind::BathSplit),
            (much(world.baths.len(), 2), Kind::ClearingTested),
            (much(world.baths.len(), 2), Kind::BathsRotated),
            (8, Kind::Counted),
            (8, Kind::UsedUp),
            (8, Kind::Retired),
            (much(sides(SideIs::Empty), 12), Kind::Loaded),
            (
                much(sides(SideIs::Loaded) + sides(SideIs::Exposed), 5),
                Kind::Unloaded,
            ),
            (much(sides(SideIs::Loaded), 5), Kind::ExposureBegun),
            (much(sides(SideIs::Open), 5), Kind::ExposureDropped),
            (
                much(sides(SideIs::Loaded) + sides(SideIs::Open), 12),
                Kind::Exposed,
            ),
            (
                much(sides(SideIs::Loaded) + sides(SideIs::Exposed), 8),
                Kind::SlideSeen,
            ),
            (much(doubts, 14), Kind::SlideRighted),
            (much(world.sheets.len(), 3), Kind::Companions),
            (much(world.sheets.len(), 2), Kind::Fogged),
            (much(waiting, 8), Kind::RunBegun),
            (much(running, 8), Kind::StepBegun),
            (much(timed, 16), Kind::StepChanged),
            (much(timed, 8), Kind::StepEnded),
            (much(running, 10), Kind::RunEnded),
            (much(negatives, 4), Kind::Measured),
            (much(negatives, 3), Kind::FaultSeen),
            (much(negatives, 3), Kind::Scanned),
            (much(negatives, 4), Kind::Filed),
            (much(negatives, 5), Kind::PrintBegun),
            (much(prints(PrintIs::InProcess), 16), Kind::PrintStep),
            (much(finished, 3), Kind::Pressed),
            (much(finished, 3), Kind::Mounted),
            (much(finished, 4), Kind::Matted),
            (much(finished, 2), Kind::Attached),
            (much(finished + shown, 2), Kind::Signed),
            (much(shown, 5), Kind::Framed),
            (much(prints(PrintIs::Framed), 6), Kind::Unframed),
            (much(finished + shown, 2), Kind::Labelled),
            (much(finished + shown, 6), Kind::Placed),
            (much(world.prints.len(), 2), Kind::Spoiled),
            (8, Kind::Lost),
            (8, Kind::Discarded),
            (8, Kind::Noted),
        ]);
        self.deed_of(kind)
    }

    fn deed_of(&mut self, kind: Kind) -> Deed {
        match kind {
            Kind::BoxAdded
            | Kind::HolderAdded
            | Kind::LensAdded
            | Kind::CameraAdded
            | Kind::PaperAdded
            | Kind::FilterFound
            | Kind::TimeFound
            | Kind::FilmFound
            | Kind::FormatFound
            | Kind::DevelopmentFound
            | Kind::LightFound
            | Kind::MeterSet
            | Kind::PlaceKept
            | Kind::TabletFound
            | Kind::LimitsSet
            | Kind::BathMixed => self.comes_in(kind),
            Kind::StripRead => self.strip(),
            Kind::ShutterTested => {
                let mut tested = deeds::test_shutter(self.any(ThingKind::Lens));
                if self.dice.percent(8) {
                    tested.timings.clear();
                }
                Deed::ShutterTested(tested)
            }
            Kind::BathSplit | Kind::ClearingTested | Kind::BathsRotated => self.at_baths(kind),
            Kind::BathReplenished => Deed::BathReplenished(BathReplenished {
                bath: self.any(ThingKind::Bath),
                volume: None,
                bleed: self.dice.percent(30).then(|| deeds::ml(40.0)),
                with: None,
            }),
            Kind::Counted => {
                let kind = self.kind(&[ThingKind::Box, ThingKind::Paper], ThingKind::Bath);
                Deed::Counted(Counted {
                    thing: Thing::new(kind, self.any(kind)),
                    sheets: u32::try_from(self.dice.below(4)).expect("few"),
                })
            }
            Kind::UsedUp => {
                let usual = [ThingKind::Box, ThingKind::Paper, ThingKind::Bath];
                let kind = self.kind(&usual, ThingKind::Lens);
                Deed::UsedUp(UsedUp {
                    thing: Thing::new(kind, self.any(kind)),
                    reason: None,
                })
            }
            Kind::Retired => {
                let usual = [
                    ThingKind::Lens,
                    ThingKind::Camera,
                    ThingKind::Holder,
                    ThingKind::Side,
                    ThingKind::Finding,
                ];
                let kind = self.kind(&usual, ThingKind::Box);
                let mut retired = deeds::retire(Thing::new(kind, self.any(kind)));
                if self.dice.percent(8)
                    && let Deed::Retired(what) = &mut retired
                {
                    what.sides.push(self.any(ThingKind::Side));
                }
                retired
            }
            Kind::Loaded
            | Kind::Unloaded
            | Kind::ExposureBegun
            | Kind::ExposureDropped
            | Kind::Exposed
            | Kind::SlideSeen
            | Kind::SlideRighted => self.at_a_side(kind),
            Kind::Companions => {
                let mut sheets = vec![self.any(ThingKind::Sheet), self.any(ThingKind::Sheet)];
                if sheets[0] == sheets[1] && !self.dice.percent(10) {
                    sheets.pop();
                    let others = self.of_kind(ThingKind::Sheet);
                    sheets.extend(others.into_iter().find(|id| *id != sheets[0]));
                }
                Deed::Companions(Companions {
                    set: self.ids.thing(),
                    reference: self.name(ThingKind::Set),
                    sheets,
                    bond: Bond::Spare,
                })
            }
            Kind::Fogged => Deed::Fogged(Fogged {
                sheet: self.sheet(|is| {
                    matches!(
                        is,
                        SheetIs::Loaded | SheetIs::Exposed | SheetIs::Held | SheetIs::Developing
                    )
                }),
                side: self.dice.percent(6).then(|| self.any(ThingKind::Side)),
                reason: self.reason(),
            }),
            Kind::RunBegun => self.run(),
            Kind::StepBegun | Kind::StepChanged | Kind::StepEnded => self.at_the_clock(kind),
            Kind::RunEnded => {
                let running = self.world.runs.iter().filter(|(_, run)| !run.ended);
                let running: Vec<ThingId> = running.map(|(id, _)| *id).collect();
                let mut ended = end_run(self.pick(&running, ThingKind::Run));
                if self.dice.percent(10) {
                    ended.sheets = vec![self.sheet(|is| is == SheetIs::Developing)];
                }
                Deed::RunEnded(ended)
            }
            Kind::Measured => {
                let high = if self.dice.percent(5) { 0.1 } else { 1.8 };
                deeds::measure(self.sheet(is_negative), 0.3, high)
            }
            Kind::FaultSeen => deeds::see_fault(self.sheet(is_negative)),
            Kind::Scanned => deeds::scan(self.sheet(is_negative)),
            Kind::Filed => deeds::file(self.sheet(is_negative)),
            Kind::PrintBegun => self.print_begun(),
            Kind::PrintStep => {
                let print = self.print(&[PrintIs::InProcess, PrintIs::Dry]);
                let next = self.next_step(print);
                step(print, &next, self.baths())
            }
            Kind::Placed => {
                let usual = [
                    PrintIs::Dry,
                    PrintIs::Pressed,
                    PrintIs::Matted,
                    PrintIs::Framed,
                ];
                let print = self.print(&usual);
                let places = [
                    Whereabouts::Drawer,
                    Whereabouts::Lent,
                    Whereabouts::Returned,
                    Whereabouts::Sold,
                    Whereabouts::Wall,
                ];
                deeds::place(print, self.dice.one_of(&places).expect("some"))
            }
            Kind::Lost => {
                let kind = self.kind(&[ThingKind::Sheet, ThingKind::Print], ThingKind::Bath);
                deeds::lose(Thing::new(kind, self.any(kind)))
            }
            Kind::Discarded => {
                let usual = [ThingKind::Sheet, ThingKind::Print, ThingKind::Bath];
                let kind = self.kind(&usual, ThingKind::Lens);
                deeds::discard(Thing::new(kind, self.any(kind)))
            }
            Kind::Noted => {
                let kind = self.kind(&ThingKind::ALL, ThingKind::Side);
                Deed::Noted(Noted {
                    thing: Thing::new(kind, self.any(kind)),
                    text: "a dark line".to_owned(),
                })
            }
            finish => {
                let usual: &[PrintIs] = match finish {
                    Kind::Framed => &[PrintIs::Mounted, PrintIs::Matted],
                    Kind::Unframed => &[PrintIs::Framed],
                    Kind::Spoiled => &[PrintIs::InProcess, PrintIs::Dry, PrintIs::Matted],
                    _ => &[
                        PrintIs::Dry,
                        PrintIs::Pressed,
                        PrintIs::Mounted,
                        PrintIs::Matted,
                    ],
                };
                deeds::finish(finish, self.print(usual))
            }
        }
    }
}

fn is_negative(is: SheetIs) -> bool {
    matches!(is, SheetIs::Negative | SheetIs::Filed)
}
