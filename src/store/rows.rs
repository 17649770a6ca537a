//! What the lists, the timeline, the trace and the search hand out.
//!
//! Plain data, one struct for each kind of row, holding what a screen or a table shows of it and
//! nothing that has to be looked up again: references stand beside ids, states are words. They all
//! serialize, and that form is what the command line prints as JSON. They promise no order; the
//! queries do. Texts are as the user wrote them, and go through [`shown`](crate::export::shown())
//! before they reach an output.

use chrono::{DateTime, FixedOffset, NaiveDate};
use serde::Serialize;

use crate::craft::{
    Area, Capacity, Celsius, Density, Dilution, FilmSpeed, Millilitres, Seconds, Size,
};
use crate::logbook::life::{PrintState, SheetState, Wear};
use crate::logbook::strips::KeptStrip;
use crate::logbook::{Bond, Purpose, Slide, Thing, ThingId, Whereabouts};

mod told;

pub use told::{ActEntry, ActSummary, Fact, Hit, Line, TraceStep};

/// A thing with what it is called.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Named {
    /// The thing.
    #[serde(flatten)]
    pub thing: Thing,
    /// What people call it.
    pub reference: String,
}

/// Which sheets a list shows.
#[derive(Clone, Copy, Debug)]
pub struct SheetQuery<'a> {
    /// Words that must all be found in what the row says; empty for every sheet.
    pub find: &'a str,
    /// Only sheets in this state.
    pub state: Option<SheetState>,
    /// Only sheets older than this one: the last row of the page before.
    pub before: Option<ThingId>,
    /// How many rows at most.
    pub limit: usize,
}

impl Default for SheetQuery<'_> {
    fn default() -> Self {
        SheetQuery {
            find: "",
            state: None,
            before: None,
            limit: PAGE,
        }
    }
}

/// Which prints a list shows.
#[derive(Clone, Copy, Debug)]
pub struct PrintQuery<'a> {
    /// Words that must all be found in what the row says; empty for every print.
    pub find: &'a str,
    /// Only prints in this state.
    pub state: Option<PrintState>,
    /// Only prints older than this one: the last row of the page before.
    pub before: Option<ThingId>,
    /// How many rows at most.
    pub limit: usize,
}

impl Default for PrintQuery<'_> {
    fn default() -> Self {
        PrintQuery {
            find: "",
            state: None,
            before: None,
            limit: PAGE,
        }
    }
}

/// How many rows a page has unless another number is asked for.
pub const PAGE: usize = 100;

/// A sheet in a list.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SheetRow {
    /// Which sheet.
    pub thing: ThingId,
    /// What it is called.
    pub reference: String,
    /// The word for its state.
    pub state: String,
    /// Since when it is in that state.
    pub since: Option<DateTime<FixedOffset>>,
    /// The film.
    pub film: String,
    /// Its size.
    pub size: Option<Size>,
    /// The speed it was exposed at, or is to be exposed at by its box.
    pub speed: Option<FilmSpeed>,
    /// The box it came from.
    pub film_box: Option<String>,
    /// The side it is in now.
    pub side: Option<String>,
    /// When it was last exposed.
    pub exposed: Option<DateTime<FixedOffset>>,
    /// How many exposures it was given.
    pub exposures: u32,
    /// What is in the picture, by the last exposure that says so.
    pub subject: Option<String>,
    /// Where it was taken, by the last exposure that says so.
    pub place: Option<String>,
    /// The run it was developed in.
    pub run: Option<String>,
    /// The set of companions it belongs to.
    pub set: Option<String>,
    /// The thinnest density that is to print.
    pub low: Option<Density>,
    /// The densest density that is to print.
    pub high: Option<Density>,
    /// Where it lies.
    pub file_place: Option<String>,
    /// How many prints were begun from it.
    pub prints: u32,
    /// Whether the side it is in is in doubt.
    pub doubt: bool,
    /// How it came to an end, if it did.
    pub end: Option<String>,
    /// How many of its entries were logged against the order.
    pub overrides: u32,
}

impl SheetRow {
    /// The density range that is to print, once it was measured.
    pub fn range(&self) -> Option<f64> {
        Some(self.high?.value() - self.low?.value())
    }
}

/// A print in a list.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PrintRow {
    /// Which print.
    pub thing: ThingId,
    /// What it is called.
    pub reference: String,
    /// The word for its state.
    pub state: String,
    /// Since when it is in that state.
    pub since: Option<DateTime<FixedOffset>>,
    /// When it was begun.
    pub begun: Option<DateTime<FixedOffset>>,
    /// What the picture is called.
    pub title: Option<String>,
    /// What is in the picture, by its first negative.
    pub subject: Option<String>,
    /// The id of its process.
    pub process: String,
    /// The negatives it is made from.
    pub negatives: Vec<String>,
    /// The paper, by name.
    pub paper: Option<String>,
    /// The size of the sheet it is printed on.
    pub size: Option<Size>,
    /// How many steps of its process were done, repeats counted.
    pub steps: u32,
    /// The id of the last step done.
    pub last_step: Option<String>,
    /// Its number in the edition, as written.
    pub number: Option<String>,
    /// What became of it.
    pub whereabouts: Option<Whereabouts>,
    /// Which drawer, which wall, with whom.
    pub place: Option<String>,
    /// When it is due back.
    pub due: Option<NaiveDate>,
    /// How it came to an end, if it did.
    pub end: Option<String>,
    /// How many of its entries were logged against the order.
    pub overrides: u32,
}

impl PrintRow {
    /// Whether it is out of one's hands.
    pub fn is_away(&self) -> bool {
        self.whereabouts.is_some_and(Whereabouts::is_away)
    }
}

/// A holder in the rack.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct HolderRow {
    /// Which holder.
    pub thing: ThingId,
    /// What it is called.
    pub reference: String,
    /// The word for its state.
    pub state: String,
    /// The size of sheet it takes.
    pub size: Option<Size>,
    /// What it is.
    pub make: Option<String>,
    /// Its sides, in order.
    pub sides: Vec<SideRow>,
}

/// A side of a holder in the rack.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SideRow {
    /// Which side.
    pub thing: ThingId,
    /// What it is called.
    pub reference: String,
    /// What it is called on its holder.
    pub label: String,
    /// The word for its state.
    pub state: String,
    /// Since when it is in that state.
    pub since: Option<DateTime<FixedOffset>>,
    /// What its slide shows, as far as is known.
    pub slide: Option<Slide>,
    /// Whether its slide contradicts the log: what was seen, and when.
    pub doubt: Option<SideDoubt>,
    /// The sheet in it.
    pub sheet: Option<ThingId>,
    /// What the sheet in it is called.
    pub sheet_reference: Option<String>,
    /// The film in it.
    pub film: Option<String>,
    /// The speed it was exposed at, or is to be exposed at by its box.
    pub speed: Option<FilmSpeed>,
    /// When the sheet in it was first exposed.
    pub exposed: Option<DateTime<FixedOffset>>,
    /// How many exposures the sheet in it was given; more than one is a picture on a picture.
    pub exposures: u32,
    /// What is in the picture, by the last exposure that says so.
    pub subject: Option<String>,
    /// Whether the sheet in it is fogged.
    pub fogged: bool,
}

/// A slide that contradicts the log.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SideDoubt {
    /// What the slide showed.
    pub seen: Slide,
    /// When it was seen.
    pub at: DateTime<FixedOffset>,
}

/// A box of film on the shelf.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BoxRow {
    /// Which box.
    pub thing: ThingId,
    /// What it is called.
    pub reference: String,
    /// The word for its state.
    pub state: String,
    /// When it came in.
    pub born: Option<DateTime<FixedOffset>>,
    /// The film.
    pub film: String,
    /// The size of its sheets.
    pub size: Option<Size>,
    /// The speed it is exposed at unless said otherwise.
    pub speed: Option<FilmSpeed>,
    /// The emulsion number.
    pub emulsion: Option<String>,
    /// The date to use it by.
    pub expiry: Option<NaiveDate>,
    /// Where it is kept.
    pub kept: Option<String>,
    /// How many sheets it held.
    pub sheets: u32,
    /// How many are left.
    pub left: u32,
}

/// A stock of paper on the shelf.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PaperRow {
    /// Which stock.
    pub thing: ThingId,
    /// What it is called.
    pub reference: String,
    /// The word for its state.
    pub state: String,
    /// When it came in.
    pub born: Option<DateTime<FixedOffset>>,
    /// The paper.
    pub name: String,
    /// What it is.
    pub sort: Option<String>,
    /// The size of its sheets.
    pub size: Option<Size>,
    /// The batch number.
    pub batch: Option<String>,
    /// How many sheets there were.
    pub sheets: u32,
    /// How many are left.
    pub left: u32,
}

/// A bath on the shelf.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BathRow {
    /// Which bath.
    pub thing: ThingId,
    /// What it is called.
    pub reference: String,
    /// The word for its state.
    pub state: String,
    /// Since when it is in that state.
    pub since: Option<DateTime<FixedOffset>>,
    /// What is in it.
    pub name: String,
    /// What it is for.
    pub purpose: Option<Purpose>,
    /// How far it was diluted.
    pub dilution: Option<Dilution>,
    /// How much was mixed.
    pub volume: Option<Millilitres>,
    /// The stock it was drawn from.
    pub stock: Option<String>,
    /// When it was mixed.
    pub mixed: Option<DateTime<FixedOffset>>,
    /// How many sheets and prints went through it since it was mixed or last replenished.
    pub uses: u32,
    /// What it is trusted with.
    pub capacity: Option<Capacity>,
    /// The formula it was mixed from.
    pub formula: Option<String>,
    /// The concentrate it was mixed from.
    pub concentrate: Option<String>,
    /// The area that went through it since it was mixed or last replenished, in square inches.
    pub area: Area,
    /// How many of the sheets are of a size that is not known.
    pub unmeasured: u32,
    /// The last day on which it is good.
    pub last_day: Option<NaiveDate>,
    /// How long film took to clear in it when it was fresh.
    pub fresh_clearing: Option<Seconds>,
    /// How long the same film took last.
    pub clearing: Option<Seconds>,
    /// Which of two fixing baths it is, `first` or `second`, if it is one of two.
    pub of_two: Option<&'static str>,
}

impl BathRow {
    /// How far it is worn.
    pub fn wear(&self) -> Wear {
        Wear {
            capacity: self.capacity,
            uses: self.uses,
            area: self.area,
            unmeasured: self.unmeasured,
            last_day: self.last_day,
            clearing: self.fresh_clearing.zip(self.clearing),
        }
    }
}

/// A lens or a camera on the shelf.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ToolRow {
    /// Which lens or camera.
    pub thing: ThingId,
    /// What it is called.
    pub reference: String,
    /// The word for its state.
    pub state: String,
    /// Its name.
    pub name: String,
    /// How many exposures were made with it.
    pub exposures: u32,
    /// When the last one was made.
    pub used: Option<DateTime<FixedOffset>>,
}

/// Something the user has found out.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FindingRow {
    /// Which finding.
    pub thing: ThingId,
    /// What it is called.
    pub reference: String,
    /// The word for its state.
    pub state: String,
    /// What sort of finding it is: filter, reciprocity, film, format, light, meter, place.
    pub sort: String,
    /// What it is about: the filter, the film, the format, the scene, the place.
    pub about: String,
    /// What was found, in words.
    pub says: String,
    /// When it was found.
    pub found: Option<DateTime<FixedOffset>>,
}

/// A strip of steps that was read.
#[derive(Clone, Debug, PartialEq)]
pub struct StripRow {
    /// Which finding.
    pub thing: ThingId,
    /// The word for its state.
    pub state: String,
    /// The strip itself.
    pub kept: KeptStrip,
    /// The sheet it is on.
    pub sheet: Option<String>,
    /// The run it was developed in.
    pub run: Option<String>,
    /// The bath it was developed in.
    pub bath: Option<String>,
}

/// A development run.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RunRow {
    /// Which run.
    pub thing: ThingId,
    /// What it is called.
    pub reference: String,
    /// The word for its state.
    pub state: String,
    /// When it began.
    pub begun: Option<DateTime<FixedOffset>>,
    /// When it ended.
    pub ended: Option<DateTime<FixedOffset>>,
    /// The sheets in it.
    pub sheets: Vec<String>,
    /// The developer.
    pub developer: Option<String>,
    /// The time given, or planned while it is under way.
    pub time: Option<Seconds>,
    /// The temperature at the start.
    pub temperature: Option<Celsius>,
    /// Tray, tank, drum, ...
    pub vessel: Option<String>,
}

/// A set of companion sheets.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SetRow {
    /// Which set.
    pub thing: ThingId,
    /// What it is called.
    pub reference: String,
    /// When the sheets were linked.
    pub born: Option<DateTime<FixedOffset>>,
    /// What they are to each other.
    pub bond: Option<Bond>,
    /// The sheets in it.
    pub sheets: Vec<String>,
}

/// How much there is in the logbook.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Counts {
    /// Entries, strikes and amendments among them.
    pub entries: u32,
    /// Boxes of film.
    pub boxes: u32,
    /// Holders.
    pub holders: u32,
    /// Sides in each state, by its word.
    pub sides: std::collections::BTreeMap<String, u32>,
    /// Sides in doubt.
    pub in_doubt: u32,
    /// When the sheet that has waited longest in a holder was exposed.
    pub oldest_exposed: Option<DateTime<FixedOffset>>,
    /// Sheets in each state, by its word.
    pub sheets: std::collections::BTreeMap<String, u32>,
    /// Prints in each state, by its word.
    pub prints: std::collections::BTreeMap<String, u32>,
    /// Runs.
    pub runs: u32,
    /// Baths.
    pub baths: u32,
    /// Stocks of paper.
    pub papers: u32,
    /// Lenses.
    pub lenses: u32,
    /// Cameras.
    pub cameras: u32,
    /// Findings of the user's own.
    pub findings: u32,
    /// Sets of companion sheets.
    pub sets: u32,
}
