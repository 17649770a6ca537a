//! The life of one side of a holder: empty, loaded, exposed, empty again, for years.
//!
//! A side also carries what its dark slide shows. Loading sets the bright side outwards, an exposure
//! turns it. When someone reports a slide that contradicts the log, the side is in doubt: nothing
//! may be exposed in it, taken out of it or developed from it until the missing entry is logged
//! late, a wrong one is struck or amended, or the log is confirmed. The doubt is part of the fold,
//! so it vanishes by itself once the entries explain what was seen.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::{Happening, Row, State, Story, goes, stays};
use crate::craft::Size;
use crate::logbook::{
    Deed, EntryId, Exposed, ExposureBegun, Kind, Loaded, Objection, Retired, Slide, ThingId,
};
use crate::reference::Reference;

/// The states of a side.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SideState {
    /// Not there yet.
    #[default]
    New,
    /// Nothing in it.
    Empty,
    /// An unexposed sheet in it.
    Loaded,
    /// A sheet in it on which the shutter was opened.
    Open,
    /// An exposed sheet in it.
    Exposed,
    /// A fogged sheet in it.
    Fogged,
    /// Out of use.
    Retired,
}

impl State for SideState {
    const NEW: Self = SideState::New;
    const TABLE: &'static [Row<Self>] = &[
        goes(SideState::New, Kind::HolderAdded, SideState::Empty),
        goes(SideState::Empty, Kind::Loaded, SideState::Loaded),
        goes(SideState::Loaded, Kind::Exposed, SideState::Exposed),
        stays(SideState::Exposed, Kind::Exposed),
        goes(SideState::Open, Kind::Exposed, SideState::Exposed),
        goes(SideState::Open, Kind::ExposureDropped, SideState::Loaded),
        // One whose sheet had an exposure before.
        goes(SideState::Open, Kind::ExposureDropped, SideState::Exposed),
        goes(SideState::Loaded, Kind::ExposureBegun, SideState::Open),
        goes(SideState::Exposed, Kind::ExposureBegun, SideState::Open),
        goes(SideState::Exposed, Kind::RunBegun, SideState::Empty),
        goes(SideState::Exposed, Kind::Unloaded, SideState::Empty),
        goes(SideState::Loaded, Kind::Unloaded, SideState::Empty),
        goes(SideState::Fogged, Kind::Unloaded, SideState::Empty),
        goes(SideState::Loaded, Kind::Fogged, SideState::Fogged),
        goes(SideState::Open, Kind::Fogged, SideState::Fogged),
        goes(SideState::Exposed, Kind::Fogged, SideState::Fogged),
        goes(SideState::Loaded, Kind::Lost, SideState::Empty),
        goes(SideState::Open, Kind::Lost, SideState::Empty),
        goes(SideState::Exposed, Kind::Lost, SideState::Empty),
        goes(SideState::Fogged, Kind::Lost, SideState::Empty),
        goes(SideState::Loaded, Kind::Discarded, SideState::Empty),
        goes(SideState::Open, Kind::Discarded, SideState::Empty),
        goes(SideState::Exposed, Kind::Discarded, SideState::Empty),
        goes(SideState::Fogged, Kind::Discarded, SideState::Empty),
        stays(SideState::Empty, Kind::SlideSeen),
        stays(SideState::Loaded, Kind::SlideSeen),
        stays(SideState::Open, Kind::SlideSeen),
        stays(SideState::Exposed, Kind::SlideSeen),
        stays(SideState::Fogged, Kind::SlideSeen),
        stays(SideState::Loaded, Kind::SlideRighted),
        stays(SideState::Exposed, Kind::SlideRighted),
        goes(SideState::Empty, Kind::Retired, SideState::Retired),
        // One that is out of use goes along with its holder.
        stays(SideState::Retired, Kind::Retired),
    ];
    fn word(self) -> &'static str {
        match self {
            SideState::New => "not there yet",
            SideState::Empty => "empty",
            SideState::Loaded => "loaded",
            SideState::Open => "being exposed",
            SideState::Exposed => "exposed",
            SideState::Fogged => "fogged",
            SideState::Retired => "out of use",
        }
    }
}

/// What may not be logged on a side in doubt without an override: it could expose a sheet twice, put
/// an exposed one among unexposed film, or develop another sheet than the log says.
const RISKY_IN_DOUBT: &[Kind] = &[
    Kind::ExposureBegun,
    Kind::Exposed,
    Kind::Unloaded,
    Kind::RunBegun,
];

/// A dark slide that contradicts the log.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Doubt {
    /// The report that raised it.
    pub entry: EntryId,
    /// What the slide showed.
    pub seen: Slide,
    /// When it was seen.
    pub at: DateTime<FixedOffset>,
}

/// Whether a holder of one size takes a sheet of another: the same, either way up, to the
/// millimetre by which inches and their writing in centimetres differ. 13x18 cm film does not go
/// into a 5x7 in holder.
fn takes_sheet(takes: Size, sheet: Size) -> bool {
    let ((w, h), (x, y)) = (takes.mm(), sheet.mm());
    let near = |a: f64, b: f64| (a - b).abs() < 1.5;
    (near(w, x) && near(h, y)) || (near(w, y) && near(h, x))
}

/// What is known of a side.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct SideLife {
    /// The state it is in.
    pub state: SideState,
    /// The holder it belongs to.
    pub holder: Option<ThingId>,
    /// What it is called on its holder: A, B, or a number.
    pub label: String,
    /// Where it stands among the sides of its holder, from 0.
    pub index: u32,
    /// The size of sheet it takes.
    pub size: Option<Size>,
    /// The sheet in it.
    pub sheet: Option<ThingId>,
    /// What its slide shows, as far as is known.
    pub slide: Option<Slide>,
    /// When the sheet in it was exposed, first.
    pub exposed: Option<DateTime<FixedOffset>>,
    /// Whether the slide contradicts the log.
    pub doubt: Option<Doubt>,
}

impl SideLife {
    /// What the slide must show by the log, where the log says anything. While the sheet is being
    /// exposed the slide is out.
    pub fn slide_by_the_log(&self) -> Option<Slide> {
        match self.state {
            SideState::Loaded => Some(Slide::Bright),
            SideState::Exposed => Some(Slide::Dark),
            SideState::New
            | SideState::Empty
            | SideState::Open
            | SideState::Fogged
            | SideState::Retired => None,
        }
    }

    fn guard_sheet(&self, sheet: Option<ThingId>) -> Result<(), Objection> {
        match (self.sheet, sheet) {
            (Some(inside), Some(named)) if inside != named => Err(Objection::OtherSheet { inside }),
            (None, _) => Err(Objection::NothingInIt),
            _ => Ok(()),
        }
    }
}

impl SideLife {
    /// A side goes out of use by itself, or with the holder it belongs to.
    fn guard_retired(&self, me: ThingId, retired: &Retired) -> Result<(), Objection> {
        let alone = retired.thing.id == me && retired.sides.is_empty();
        let with_holder = Some(retired.thing.id) == self.holder;
        match (alone, with_holder) {
            (true, _) if self.state == SideState::Retired => Err(Objection::NotNext),
            (true, _) | (_, true) => Ok(()),
            (false, false) => Err(Objection::OtherSides),
        }
    }
}

impl Story for SideLife {
    type S = SideState;

    fn state(&self) -> SideState {
        self.state
    }

    fn rules_out(&self, kind: Kind) -> bool {
        match kind {
            Kind::SlideRighted => self.doubt.is_none(),
            // It does not go out of use a second time by itself.
            Kind::Retired => self.state == SideState::Retired,
            kind => self.doubt.is_some() && RISKY_IN_DOUBT.contains(&kind),
        }
    }

    fn comes_by(me: ThingId, deed: &Deed) -> bool {
        matches!(deed, Deed::HolderAdded(added) if added.side_ids.contains(&me))
    }

    fn named_by(me: ThingId, deed: &Deed) -> Option<String> {
        let Deed::HolderAdded(added) = deed else {
            return None;
        };
        let index = added.side_ids.iter().position(|side| *side == me)?;
        Some(format!("{} {}", added.reference, added.label(index)))
    }

    fn guard(
        &self,
        me: ThingId,
        happening: &Happening<'_>,
        _reference: &Reference,
    ) -> Result<(), Objection> {
        // What no reason can make possible comes before what one can.
        match happening.deed {
            Deed::ExposureBegun(begun) => self.guard_sheet(begun.sheet)?,
            Deed::ExposureDropped(dropped) => {
                self.guard_sheet(dropped.sheet)?;
                if self.state != SideState::Open {
                    return Err(Objection::NotBegun);
                }
            }
            Deed::Exposed(exposed) => self.guard_sheet(exposed.sheet)?,
            Deed::Unloaded(unloaded) => self.guard_sheet(unloaded.sheet)?,
            Deed::RunBegun(run) => {
                let out_of_it = run.sheets.iter().find(|each| each.side == Some(me));
                self.guard_sheet(out_of_it.map(|each| each.sheet))?;
            }
            Deed::Fogged(fogged) => self.guard_sheet(Some(fogged.sheet))?,
            Deed::Lost(lost) => self.guard_sheet(Some(lost.thing.id))?,
            Deed::Discarded(discarded) => self.guard_sheet(Some(discarded.thing.id))?,
            Deed::SlideRighted(_) if self.doubt.is_none() => return Err(Objection::NoDoubt),
            Deed::Retired(retired) => self.guard_retired(me, retired)?,
            _ => {}
        }
        if let Some(doubt) = self.doubt
            && RISKY_IN_DOUBT.contains(&happening.deed.kind())
        {
            return Err(Objection::InDoubt {
                seen: doubt.seen,
                at: doubt.at,
            });
        }
        match (happening.deed, self.size, self.exposed) {
            (
                Deed::Loaded(Loaded {
                    size: Some(sheet), ..
                }),
                Some(takes),
                _,
            ) if !takes_sheet(takes, *sheet) => {
                let sheet = *sheet;
                Err(Objection::WrongSize { takes, sheet })
            }
            (
                Deed::Exposed(Exposed { again: false, .. })
                | Deed::ExposureBegun(ExposureBegun { again: false, .. }),
                _,
                Some(at),
            ) if self.state == SideState::Exposed => Err(Objection::AlreadyExposed { at }),
            _ => Ok(()),
        }
    }

    fn take_in(&mut self, me: ThingId, happening: &Happening<'_>, to: SideState, _: &Reference) {
        self.state = to;
        match happening.deed {
            Deed::HolderAdded(added) => {
                let index = added.side_ids.iter().position(|side| *side == me);
                self.holder = Some(added.holder);
                self.size = Some(added.size);
                if let Some(index) = index {
                    self.label = added.label(index);
                    self.index = u32::try_from(index).unwrap_or(u32::MAX);
                }
            }
            Deed::Loaded(loaded) => {
                self.sheet = Some(loaded.sheet);
                self.slide = Some(Slide::Bright);
                self.exposed = None;
                self.doubt = None;
            }
            // The slide is pulled, and goes back as it was when nothing came of it.
            Deed::ExposureBegun(_) => self.slide = None,
            Deed::ExposureDropped(_) => {
                if self.exposed.is_some() {
                    self.state = SideState::Exposed;
                }
                self.slide = self.slide_by_the_log();
            }
            Deed::Exposed(_) => {
                self.slide = Some(Slide::Dark);
                self.exposed = self.exposed.or(Some(happening.happened));
                self.doubt = None;
            }
            Deed::SlideSeen(seen) => {
                self.slide = Some(seen.shows);
                let contradicts = self
                    .slide_by_the_log()
                    .is_some_and(|expected| expected != seen.shows);
                self.doubt = contradicts.then_some(Doubt {
                    entry: happening.entry,
                    seen: seen.shows,
                    at: happening.happened,
                });
            }
            Deed::SlideRighted(_) => {
                self.slide = self.slide_by_the_log();
                self.doubt = None;
            }
            _ => {}
        }
        // Where the slide says nothing, it cannot contradict.
        if self.slide_by_the_log().is_none() {
            self.doubt = None;
        }
        if self.state == SideState::Empty {
            self.sheet = None;
            self.exposed = None;
            if happening.deed.kind() != Kind::SlideSeen {
                self.slide = None;
            }
        }
    }
}
