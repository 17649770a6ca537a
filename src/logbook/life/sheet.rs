//! The life of a sheet of film: from the box through holder and run to the files.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::{Happening, Row, State, Story, goes, stays};
use crate::craft::{Aperture, Density, FilmSpeed, Seconds};
use crate::logbook::{
    Channel, Deed, EntryId, Harm, Kind, Objection, ReckonedStep, Reckoning, ThingId,
};
use crate::reference::Reference;

/// The states of a sheet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SheetState {
    /// Still one of many in its box.
    #[default]
    New,
    /// Back in its box, unexposed.
    InBox,
    /// In a holder, unexposed.
    Loaded,
    /// In a holder, and the shutter was opened on it.
    Open,
    /// In a holder, exposed.
    Exposed,
    /// Out of the holder, exposed, waiting for development.
    Held,
    /// In a run.
    Developing,
    /// A negative.
    Negative,
    /// A negative in the files.
    Filed,
    /// Fogged.
    Fogged,
    /// Lost.
    Lost,
    /// Thrown away.
    Discarded,
}

use SheetState::{
    Developing, Discarded, Exposed, Filed, Fogged, Held, InBox, Loaded, Lost, Negative, New, Open,
};

impl State for SheetState {
    const NEW: Self = New;
    const TABLE: &'static [Row<Self>] = &[
        goes(New, Kind::Loaded, Loaded),
        goes(InBox, Kind::Loaded, Loaded),
        goes(Loaded, Kind::Exposed, Exposed),
        stays(Exposed, Kind::Exposed),
        goes(Open, Kind::Exposed, Exposed),
        goes(Open, Kind::ExposureDropped, Loaded),
        // One that had an exposure before.
        goes(Open, Kind::ExposureDropped, Exposed),
        goes(Loaded, Kind::ExposureBegun, Open),
        goes(Exposed, Kind::ExposureBegun, Open),
        goes(Exposed, Kind::RunBegun, Developing),
        goes(Held, Kind::RunBegun, Developing),
        goes(Exposed, Kind::Unloaded, Held),
        goes(Loaded, Kind::Unloaded, InBox),
        stays(Fogged, Kind::Unloaded),
        goes(Developing, Kind::RunEnded, Negative),
        stays(Fogged, Kind::RunEnded),
        stays(Lost, Kind::RunEnded),
        stays(Discarded, Kind::RunEnded),
        stays(Negative, Kind::Measured),
        stays(Negative, Kind::FaultSeen),
        stays(Negative, Kind::Scanned),
        goes(Negative, Kind::Filed, Filed),
        stays(Filed, Kind::Filed),
        stays(Filed, Kind::Measured),
        stays(Filed, Kind::FaultSeen),
        stays(Filed, Kind::Scanned),
        stays(Fogged, Kind::FaultSeen),
        stays(Negative, Kind::StripRead),
        stays(Filed, Kind::StripRead),
        stays(Negative, Kind::PrintBegun),
        stays(Filed, Kind::PrintBegun),
        stays(Loaded, Kind::Companions),
        stays(Open, Kind::Companions),
        stays(Exposed, Kind::Companions),
        stays(Held, Kind::Companions),
        stays(Developing, Kind::Companions),
        stays(Negative, Kind::Companions),
        stays(Filed, Kind::Companions),
        goes(Loaded, Kind::Fogged, Fogged),
        goes(Open, Kind::Fogged, Fogged),
        goes(Exposed, Kind::Fogged, Fogged),
        goes(Held, Kind::Fogged, Fogged),
        goes(InBox, Kind::Fogged, Fogged),
        goes(Developing, Kind::Fogged, Fogged),
        // It is often seen only when the run is over.
        goes(Negative, Kind::Fogged, Fogged),
        goes(Filed, Kind::Fogged, Fogged),
        goes(Loaded, Kind::Lost, Lost),
        goes(Open, Kind::Lost, Lost),
        goes(Exposed, Kind::Lost, Lost),
        goes(Held, Kind::Lost, Lost),
        goes(InBox, Kind::Lost, Lost),
        goes(Developing, Kind::Lost, Lost),
        goes(Negative, Kind::Lost, Lost),
        goes(Filed, Kind::Lost, Lost),
        goes(Fogged, Kind::Lost, Lost),
        goes(Loaded, Kind::Discarded, Discarded),
        goes(Open, Kind::Discarded, Discarded),
        goes(Exposed, Kind::Discarded, Discarded),
        goes(Held, Kind::Discarded, Discarded),
        goes(InBox, Kind::Discarded, Discarded),
        goes(Developing, Kind::Discarded, Discarded),
        goes(Negative, Kind::Discarded, Discarded),
        goes(Filed, Kind::Discarded, Discarded),
        goes(Fogged, Kind::Discarded, Discarded),
    ];
    fn word(self) -> &'static str {
        match self {
            New => "not there yet",
            InBox => "in box",
            Loaded => "loaded",
            Open => "being exposed",
            Exposed => "exposed",
            Held => "held exposed",
            Developing => "developing",
            Negative => "negative",
            Filed => "filed",
            Fogged => "fogged",
            Lost => "lost",
            Discarded => "thrown away",
        }
    }
}

/// One exposure a sheet was given, as far as other entries need to know of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Exposure {
    /// The entry that logged it.
    pub entry: EntryId,
    /// When.
    pub at: DateTime<FixedOffset>,
    /// The side it was given in.
    pub side: Option<ThingId>,
    /// The lens.
    pub lens: Option<ThingId>,
    /// The camera.
    pub camera: Option<ThingId>,
    /// The aperture.
    pub aperture: Option<Aperture>,
    /// The time.
    pub time: Option<Seconds>,
    /// What is in the picture.
    pub subject: Option<String>,
    /// Where.
    pub place: Option<String>,
    /// The film speed reckoned with.
    #[serde(default)]
    pub speed: Option<FilmSpeed>,
    /// The development it asks for, in the words of whoever logged it.
    #[serde(default)]
    pub development: Option<String>,
    /// The development its reckoning asks for, by its readings and for a long exposure, with what the
    /// latter rests on.
    #[serde(default)]
    pub asks: Option<ReckonedStep>,
}

/// An exposure that was begun and not closed yet.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Begun {
    /// The entry that logged its beginning.
    pub entry: EntryId,
    /// When.
    pub at: DateTime<FixedOffset>,
    /// Whether it is one more on a sheet that has one.
    pub again: bool,
    /// The aperture that is set.
    pub aperture: Option<Aperture>,
    /// The time that is planned.
    pub time: Option<Seconds>,
}

/// The densities of a negative, as last measured.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Densities {
    /// The thinnest that is to print.
    pub low: Density,
    /// The densest that is to print.
    pub high: Density,
    /// Base plus fog.
    pub base_fog: Option<Density>,
    /// The light they were read with.
    pub channel: Option<Channel>,
}

/// A fault that was seen on a sheet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Fault {
    /// What it is called.
    pub fault: String,
    /// What it is put down to.
    pub cause: Option<String>,
    /// Where on the sheet.
    pub place: Option<String>,
    /// What it does to the picture.
    pub harm: Option<Harm>,
}

/// What is known of a sheet.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct SheetLife {
    /// The state it is in.
    pub state: SheetState,
    /// The box it came from.
    pub film_box: Option<ThingId>,
    /// The side it is in now.
    pub side: Option<ThingId>,
    /// Its exposures, in the order they were given.
    pub exposures: Vec<Exposure>,
    /// The exposure that is being made.
    #[serde(default)]
    pub begun: Option<Begun>,
    /// The run it was developed in.
    pub run: Option<ThingId>,
    /// The run it is in now, until that ends.
    #[serde(default)]
    pub in_run: Option<ThingId>,
    /// The set of companions it belongs to.
    pub set: Option<ThingId>,
    /// Its densities, as last measured.
    pub densities: Option<Densities>,
    /// Its densities as last measured in each light.
    #[serde(default)]
    pub measured: Vec<Densities>,
    /// The faults that were seen on it.
    #[serde(default)]
    pub faults: Vec<Fault>,
    /// Where the file of its latest scan is.
    #[serde(default)]
    pub scan: Option<String>,
    /// Where it lies.
    pub file_place: Option<String>,
    /// How many prints were begun from it.
    pub prints: u32,
    /// How it came to an end, if it did.
    pub end: Option<String>,
}

impl SheetLife {
    /// A side that is named must be the one the sheet is in, and the side it is in must be named.
    fn guard_side(&self, named: Option<ThingId>) -> Result<(), Objection> {
        if named == self.side {
            Ok(())
        } else {
            Err(Objection::OtherSide { side: self.side })
        }
    }
}

impl SheetLife {
    /// One more exposure on a sheet that has one must be meant. Whoever began one meant it.
    fn guard_again(&self, again: bool) -> Result<(), Objection> {
        match self.exposures.first() {
            Some(first) if self.state == Exposed && !again => {
                Err(Objection::AlreadyExposed { at: first.at })
            }
            _ => Ok(()),
        }
    }
}

impl Story for SheetLife {
    type S = SheetState;

    fn state(&self) -> SheetState {
        self.state
    }

    fn rules_out(&self, kind: Kind) -> bool {
        match kind {
            Kind::RunEnded => self.in_run.is_none(),
            // Only in a holder: against the order it can be exposed in none.
            Kind::Unloaded | Kind::ExposureBegun | Kind::ExposureDropped => self.side.is_none(),
            Kind::Companions => self.set.is_some(),
            _ => false,
        }
    }

    fn guard(
        &self,
        me: ThingId,
        happening: &Happening<'_>,
        _reference: &Reference,
    ) -> Result<(), Objection> {
        match happening.deed {
            Deed::Loaded(loaded) if self.state == InBox => match self.film_box {
                Some(film_box) if film_box != loaded.film_box => {
                    Err(Objection::OtherBox { film_box })
                }
                _ => Ok(()),
            },
            Deed::Exposed(exposed) => {
                self.guard_side(exposed.side)?;
                self.guard_again(exposed.again)
            }
            Deed::ExposureBegun(begun) => {
                self.guard_side(Some(begun.side))?;
                self.guard_again(begun.again)
            }
            Deed::ExposureDropped(dropped) => {
                self.guard_side(Some(dropped.side))?;
                match self.state {
                    Open => Ok(()),
                    _ => Err(Objection::NotBegun),
                }
            }
            Deed::Unloaded(unloaded) => self.guard_side(Some(unloaded.side)),
            Deed::RunBegun(run) => {
                let in_run = run.sheets.iter().find(|each| each.sheet == me);
                self.guard_side(in_run.and_then(|each| each.side))
            }
            Deed::Fogged(fogged) => self.guard_side(fogged.side),
            Deed::Lost(lost) => self.guard_side(lost.side),
            Deed::Discarded(discarded) => self.guard_side(discarded.side),
            Deed::RunEnded(ended) if self.in_run != Some(ended.run) => {
                Err(Objection::OtherRun { run: self.in_run })
            }
            Deed::Companions(companions) => match self.set {
                Some(set) if set != companions.set => Err(Objection::AlreadyLinked { set }),
                _ => Ok(()),
            },
            _ => Ok(()),
        }
    }

    fn take_in(&mut self, _me: ThingId, happening: &Happening<'_>, to: SheetState, _: &Reference) {
        self.state = to;
        match happening.deed {
            Deed::Loaded(loaded) => {
                self.film_box = Some(loaded.film_box);
                self.side = Some(loaded.side);
                // Loaded once more against the order, it is still an exposed sheet.
                if !self.exposures.is_empty() {
                    self.state = Exposed;
                }
            }
            Deed::ExposureBegun(begun) => {
                self.begun = Some(Begun {
                    entry: happening.entry,
                    at: happening.happened,
                    again: begun.again,
                    aperture: begun.planned_aperture,
                    time: begun.planned_time,
                });
            }
            Deed::ExposureDropped(_) if !self.exposures.is_empty() => self.state = Exposed,
            Deed::Exposed(exposed) => self.exposures.push(Exposure {
                entry: happening.entry,
                at: happening.happened,
                side: exposed.side,
                lens: exposed.lens,
                camera: exposed.camera,
                aperture: exposed.aperture,
                time: exposed.time,
                subject: exposed.subject.clone(),
                place: exposed.place.clone(),
                speed: exposed.speed,
                development: exposed.development.clone(),
                asks: exposed
                    .reckoning
                    .as_ref()
                    .and_then(Reckoning::asks)
                    .cloned(),
            }),
            Deed::Unloaded(unloaded) => {
                self.side = None;
                self.film_box = unloaded.film_box.or(self.film_box);
            }
            Deed::RunBegun(run) => {
                self.run = Some(run.run);
                self.in_run = Some(run.run);
                self.side = None;
            }
            Deed::RunEnded(_) => self.in_run = None,
            Deed::Measured(measured) => {
                let densities = Densities {
                    low: measured.low,
                    high: measured.high,
                    base_fog: measured.base_fog,
                    channel: measured.channel,
                };
                self.densities = Some(densities);
                self.measured.retain(|one| one.channel != measured.channel);
                self.measured.push(densities);
            }
            Deed::FaultSeen(seen) => self.faults.push(Fault {
                fault: seen.fault.clone(),
                cause: seen.cause.clone(),
                place: seen.place.clone(),
                harm: seen.harm,
            }),
            Deed::Scanned(scanned) => self.scan = Some(scanned.scan.clone()),
            Deed::Filed(filed) => {
                self.file_place = Some(filed.file_place.clone());
                self.scan = filed.scan.clone().or(self.scan.take());
            }
            Deed::PrintBegun(_) => self.prints += 1,
            Deed::Companions(companions) => self.set = Some(companions.set),
            Deed::Fogged(fogged) => self.end = Some(fogged.reason.clone()),
            Deed::Lost(lost) => {
                self.side = None;
                self.end = Some(lost.reason.clone());
            }
            Deed::Discarded(discarded) => {
                self.side = None;
                self.end = Some(discarded.reason.clone());
            }
            _ => {}
        }
        self.begun = self.begun.filter(|_| self.state == Open);
        if !matches!(self.state, Fogged | Lost | Discarded) {
            self.end = None;
            // Whatever brought it out of its run, it is not in there any more.
            self.in_run = self.in_run.filter(|_| self.state == Developing);
        }
    }
}
