//! Deeds of a sheet of film, from the holder to the files.

use serde::{Deserialize, Serialize};

use super::{Body, Descent, Reckoning, descend, touch};
use crate::craft::development::asked::Asked;
use crate::craft::patches::Patch;
use crate::craft::{Area, Celsius, Density, Dilution, Seconds, Size};
use crate::logbook::{Thing, ThingId, ThingKind};
use crate::words::words;

/// The body of [`Deed::Loaded`](super::Deed::Loaded).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Loaded {
    /// The side it went into.
    pub side: ThingId,
    /// The sheet, which comes into being here unless `again` is set.
    pub sheet: ThingId,
    /// Its reference; empty for the next free one.
    #[serde(default)]
    pub reference: String,
    /// The box it came from.
    pub film_box: ThingId,
    /// Whether the sheet had been in a holder before and gone back to its box.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub again: bool,
    /// The size of the sheet; known from the box.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub size: Option<Size>,
}

/// The body of [`Deed::Unloaded`](super::Deed::Unloaded).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Unloaded {
    /// The side it came out of.
    pub side: ThingId,
    /// The sheet; known from the side.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sheet: Option<ThingId>,
    /// The box it went back to, when it did; known from the sheet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub film_box: Option<ThingId>,
    /// Where the sheet is kept now.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kept: Option<String>,
}

words! {
    /// What a dark slide shows on its outside.
    Slide {
        /// The bright side is outwards: the sheet behind it is unexposed.
        Bright = "bright",
        /// The dark side is outwards: the sheet behind it is exposed.
        Dark = "dark",
    }
}

/// The body of [`Deed::SlideSeen`](super::Deed::SlideSeen).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SlideSeen {
    /// The side.
    pub side: ThingId,
    /// What its slide shows.
    pub shows: Slide,
}

/// The body of [`Deed::SlideRighted`](super::Deed::SlideRighted).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SlideRighted {
    /// The side.
    pub side: ThingId,
    /// How it is known that the log is right.
    pub reason: String,
}

words! {
    /// What companion sheets are to each other.
    Bond {
        /// One plain, the others with an effect in front of the lens.
        Effect = "effect",
        /// Duplicates for different developments.
        Development = "development",
        /// A spare of the same picture.
        Spare = "spare",
        /// Parts of one picture: a panorama, separations.
        Parts = "parts",
    }
}

/// The body of [`Deed::Companions`](super::Deed::Companions). A sheet has one set of companions: to
/// add a sheet to a set, its entry is amended. Linked anew with an override, the newest set counts
/// for the sheet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Companions {
    /// The set that came into being.
    pub set: ThingId,
    /// Its reference; empty for the next free one.
    #[serde(default)]
    pub reference: String,
    /// The sheets in it, two or more.
    pub sheets: Vec<ThingId>,
    /// What they are to each other.
    pub bond: Bond,
}

/// The body of [`Deed::Fogged`](super::Deed::Fogged).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Fogged {
    /// The sheet.
    pub sheet: ThingId,
    /// The side it is in, if it is in one; known from the sheet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side: Option<ThingId>,
    /// How it came about.
    pub reason: String,
}

/// A sheet in a run, and the side it came out of for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SheetInRun {
    /// The sheet.
    pub sheet: ThingId,
    /// The side it came straight out of, if it did; known from the sheet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side: Option<ThingId>,
}

/// The body of [`Deed::RunBegun`](super::Deed::RunBegun).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RunBegun {
    /// The run that came into being.
    pub run: ThingId,
    /// Its reference; empty for the next free one.
    #[serde(default)]
    pub reference: String,
    /// The sheets developed together.
    pub sheets: Vec<SheetInRun>,
    /// Tray, tank, drum, ...
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub vessel: Option<String>,
    /// The developer.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub developer: Option<ThingId>,
    /// How far it was diluted for this run, if not as mixed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dilution: Option<Dilution>,
    /// What is asked of the development, such as N-1.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub contrast: Option<Asked>,
    /// The time planned.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub time: Option<Seconds>,
    /// The temperature at the start.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature: Option<Celsius>,
    /// The sequence of steps it follows, by its id.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sequence: Option<String>,
    /// How it is agitated.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub agitation: Option<String>,
    /// The stop bath.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stop: Option<ThingId>,
    /// The fixing bath.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fixer: Option<ThingId>,
    /// Other baths, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub other_baths: Vec<ThingId>,
    /// The area of all its sheets; known from their boxes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub area: Option<Area>,
    /// How the time was reckoned, if it was reckoned here. Nobody types it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reckoning: Option<Reckoning>,
}

/// The body of [`Deed::RunEnded`](super::Deed::RunEnded).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RunEnded {
    /// The run.
    pub run: ThingId,
    /// The sheets that were in it; without a word, all that are in it then.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub sheets: Vec<ThingId>,
    /// The time really given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub time: Option<Seconds>,
    /// The temperature at the end.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature: Option<Celsius>,
    /// How long they were washed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wash: Option<Seconds>,
    /// What was seen.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seen: Option<String>,
}

words! {
    /// The light a density was read with.
    Channel {
        /// Visual density.
        Visual = "visual",
        /// Blue density.
        Blue = "blue",
        /// Ultraviolet density.
        Ultraviolet = "ultraviolet",
    }
}

/// The body of [`Deed::Measured`](super::Deed::Measured).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Measured {
    /// The sheet.
    pub sheet: ThingId,
    /// The thinnest density that is to print.
    pub low: Density,
    /// The densest density that is to print.
    pub high: Density,
    /// Base plus fog.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub base_fog: Option<Density>,
    /// Single patches, each with what it is.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub patches: Vec<Patch>,
    /// The light it was read with.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub channel: Option<Channel>,
    /// The densitometer.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub instrument: Option<String>,
}

impl Measured {
    /// The density range that is to print.
    pub fn range(&self) -> f64 {
        self.high.value() - self.low.value()
    }
}

/// The body of [`Deed::Filed`](super::Deed::Filed).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Filed {
    /// The sheet.
    pub sheet: ThingId,
    /// Where it lies: binder and page, box and sleeve.
    pub file_place: String,
    /// Where a scan of it is, if there is one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub scan: Option<String>,
}

pub(super) const fn sheet(id: ThingId) -> Thing {
    Thing::new(ThingKind::Sheet, id)
}

pub(super) const fn side(id: ThingId) -> Thing {
    Thing::new(ThingKind::Side, id)
}

impl Body for Loaded {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(side(self.side));
        out.push(sheet(self.sheet));
        out.push(Thing::new(ThingKind::Box, self.film_box));
    }
    fn descents(&self, out: &mut Vec<Descent>) {
        let child = sheet(self.sheet);
        descend(out, child, "film box", ThingKind::Box, Some(self.film_box));
        descend(out, child, "holder side", ThingKind::Side, Some(self.side));
    }
    fn creates(&self) -> Option<(Thing, &str)> {
        (!self.again).then_some((sheet(self.sheet), self.reference.as_str()))
    }
    fn name_created(&mut self, reference: String) {
        self.reference = reference;
    }
}

impl Body for Unloaded {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(side(self.side));
        touch(out, ThingKind::Sheet, self.sheet);
        touch(out, ThingKind::Box, self.film_box);
    }
}

impl Body for SlideSeen {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(side(self.side));
    }
}

impl Body for SlideRighted {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(side(self.side));
    }
}

impl Body for Companions {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(Thing::new(ThingKind::Set, self.set));
        out.extend(self.sheets.iter().map(|id| sheet(*id)));
    }
    fn creates(&self) -> Option<(Thing, &str)> {
        Some((Thing::new(ThingKind::Set, self.set), &self.reference))
    }
    fn name_created(&mut self, reference: String) {
        self.reference = reference;
    }
}

impl Body for Fogged {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(sheet(self.sheet));
        touch(out, ThingKind::Side, self.side);
    }
}

impl RunBegun {
    /// Its baths in the order they are used, each with its role.
    pub fn baths(&self) -> impl Iterator<Item = (&'static str, ThingId)> + '_ {
        [
            ("developer", self.developer),
            ("stop bath", self.stop),
            ("fixer", self.fixer),
        ]
        .into_iter()
        .filter_map(|(role, bath)| bath.map(|id| (role, id)))
        .chain(self.other_baths.iter().map(|id| ("bath", *id)))
    }
}

impl Body for RunBegun {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(Thing::new(ThingKind::Run, self.run));
        for each in &self.sheets {
            out.push(sheet(each.sheet));
            touch(out, ThingKind::Side, each.side);
        }
        out.extend(self.baths().map(|(_, id)| Thing::new(ThingKind::Bath, id)));
    }
    fn descents(&self, out: &mut Vec<Descent>) {
        let run = Thing::new(ThingKind::Run, self.run);
        for each in &self.sheets {
            descend(
                out,
                sheet(each.sheet),
                "run",
                ThingKind::Run,
                Some(self.run),
            );
        }
        for (role, bath) in self.baths() {
            descend(out, run, role, ThingKind::Bath, Some(bath));
        }
    }
    fn creates(&self) -> Option<(Thing, &str)> {
        Some((Thing::new(ThingKind::Run, self.run), &self.reference))
    }
    fn name_created(&mut self, reference: String) {
        self.reference = reference;
    }
}

impl Body for RunEnded {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(Thing::new(ThingKind::Run, self.run));
        out.extend(self.sheets.iter().map(|id| sheet(*id)));
    }
}

impl Body for Measured {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(sheet(self.sheet));
    }
}

impl Body for Filed {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(sheet(self.sheet));
    }
}
