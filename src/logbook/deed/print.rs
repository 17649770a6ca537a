//! Deeds of a print, from the first coat of sensitizer to the wall.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::{Body, Descent, descend, touch};
use crate::craft::{Area, Celsius, Millimetres, Seconds, Size};
use crate::logbook::{Thing, ThingId, ThingKind};
use crate::words::words;

/// The body of [`Deed::PrintBegun`](super::Deed::PrintBegun).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PrintBegun {
    /// The print that came into being.
    pub print: ThingId,
    /// Its reference; empty for the next free one.
    #[serde(default)]
    pub reference: String,
    /// The negatives it is made from.
    pub negatives: Vec<ThingId>,
    /// The id of the process.
    pub process: String,
    /// The paper.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub paper: Option<ThingId>,
    /// How many sheets of the paper it takes.
    #[serde(default = "one", skip_serializing_if = "is_one")]
    pub paper_sheets: u32,
    /// The size of the sheet it is printed on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub size: Option<Size>,
    /// What the picture is called.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
}

const fn one() -> u32 {
    1
}

#[allow(clippy::trivially_copy_pass_by_ref)] // serde asks for a reference
const fn is_one(sheets: &u32) -> bool {
    *sheets == 1
}

/// The body of [`Deed::PrintStep`](super::Deed::PrintStep).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PrintStep {
    /// The print.
    pub print: ThingId,
    /// The id of the step in its process.
    pub step: String,
    /// The baths it went through, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub baths: Vec<ThingId>,
    /// The area that went through them; known from the print and its paper.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub area: Option<Area>,
    /// How long it took.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub time: Option<Seconds>,
    /// How warm it was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature: Option<Celsius>,
    /// The figures the process asks for at this step, by their keys there, as written.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub figures: BTreeMap<String, String>,
}

/// The body of [`Deed::Spoiled`](super::Deed::Spoiled).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Spoiled {
    /// The print.
    pub print: ThingId,
    /// How it came about.
    pub reason: String,
}

/// The body of [`Deed::Pressed`](super::Deed::Pressed).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Pressed {
    /// The print.
    pub print: ThingId,
    /// How hot the press was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature: Option<Celsius>,
    /// How long it was closed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dwell: Option<Seconds>,
    /// What it lay between.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub between: Option<String>,
}

/// The body of [`Deed::Mounted`](super::Deed::Mounted).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Mounted {
    /// The print.
    pub print: ThingId,
    /// The board.
    pub board: String,
    /// How: heat tissue, cold film, paste.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub adhesive: Option<String>,
    /// How hot the press was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature: Option<Celsius>,
    /// How long it was closed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dwell: Option<Seconds>,
}

/// The body of [`Deed::Matted`](super::Deed::Matted).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Matted {
    /// The print.
    pub print: ThingId,
    /// The outer size of the mat.
    pub outer: Size,
    /// The size of its window.
    pub window: Size,
    /// How far the window stands above the middle.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub raised: Option<Millimetres>,
    /// The board.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub board: Option<String>,
}

words! {
    /// How a print is held to its back mat.
    Hold {
        /// Hinges of paper and paste.
        Hinges = "hinges",
        /// Corners that hold without adhesive.
        Corners = "corners",
        /// Strips along the edges.
        Strips = "strips",
    }
}

/// The body of [`Deed::Attached`](super::Deed::Attached).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Attached {
    /// The print.
    pub print: ThingId,
    /// How it is held.
    pub hold: Hold,
    /// With what.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub material: Option<String>,
}

/// The body of [`Deed::Signed`](super::Deed::Signed).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Signed {
    /// The print.
    pub print: ThingId,
    /// What is written on it, literally.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub inscription: Option<String>,
    /// Its number in the edition, as written: 3/20, AP 1.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub number: Option<String>,
    /// Where on the print, and with what.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub written_on: Option<String>,
}

/// The body of [`Deed::Framed`](super::Deed::Framed).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Framed {
    /// The print.
    pub print: ThingId,
    /// The frame.
    pub frame: String,
    /// The glazing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub glazing: Option<String>,
}

/// The body of [`Deed::Unframed`](super::Deed::Unframed).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Unframed {
    /// The print.
    pub print: ThingId,
    /// Why.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
}

/// The body of [`Deed::Labelled`](super::Deed::Labelled).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Labelled {
    /// The print.
    pub print: ThingId,
    /// What the label says.
    pub text: String,
    /// Where it is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub written_on: Option<String>,
}

words! {
    /// What became of a print's whereabouts.
    Whereabouts {
        /// In a drawer or box of one's own.
        Drawer = "drawer",
        /// On a wall of one's own.
        Wall = "wall",
        /// On show elsewhere.
        Exhibited = "exhibited",
        /// Lent to somebody.
        Lent = "lent",
        /// Back from where it was.
        Returned = "returned",
        /// Given away.
        Given = "given",
        /// Sold.
        Sold = "sold",
    }
}

impl Whereabouts {
    /// Whether the print is out of one's hands there.
    pub const fn is_away(self) -> bool {
        matches!(
            self,
            Whereabouts::Exhibited | Whereabouts::Lent | Whereabouts::Given | Whereabouts::Sold
        )
    }
}

/// The body of [`Deed::Placed`](super::Deed::Placed).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Placed {
    /// The print.
    pub print: ThingId,
    /// What became of it.
    pub whereabouts: Whereabouts,
    /// Which drawer, which wall, to whom.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<String>,
    /// When it is due back.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub due: Option<NaiveDate>,
    /// What was paid, with its currency.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price: Option<String>,
}

const fn print(id: ThingId) -> Thing {
    Thing::new(ThingKind::Print, id)
}

impl Body for PrintBegun {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(print(self.print));
        out.extend(
            self.negatives
                .iter()
                .map(|id| Thing::new(ThingKind::Sheet, *id)),
        );
        touch(out, ThingKind::Paper, self.paper);
    }
    fn descents(&self, out: &mut Vec<Descent>) {
        for id in &self.negatives {
            descend(
                out,
                print(self.print),
                "negative",
                ThingKind::Sheet,
                Some(*id),
            );
        }
        descend(
            out,
            print(self.print),
            "paper",
            ThingKind::Paper,
            self.paper,
        );
    }
    fn creates(&self) -> Option<(Thing, &str)> {
        Some((print(self.print), &self.reference))
    }
    fn name_created(&mut self, reference: String) {
        self.reference = reference;
    }
}

impl Body for PrintStep {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(print(self.print));
        out.extend(self.baths.iter().map(|id| Thing::new(ThingKind::Bath, *id)));
    }
    fn descents(&self, out: &mut Vec<Descent>) {
        for id in &self.baths {
            descend(out, print(self.print), "bath", ThingKind::Bath, Some(*id));
        }
    }
}

/// Implements [`Body`] for deeds that are about one print and nothing else.
macro_rules! about_a_print {
    ($($body:ident),*) => {
        $(impl Body for $body {
            fn touches(&self, out: &mut Vec<Thing>) {
                out.push(print(self.print));
            }
        })*
    };
}

about_a_print!(
    Spoiled, Pressed, Mounted, Matted, Attached, Signed, Framed, Unframed, Labelled, Placed
);
