//! Deeds of what stands on the shelf: boxes, holders, lenses, cameras and papers.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::{Body, Descent, descend};
use crate::craft::{Aperture, FilmSpeed, Millimetres, Size};
use crate::logbook::{Thing, ThingId, ThingKind};

/// The body of [`Deed::BoxAdded`](super::Deed::BoxAdded).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BoxAdded {
    /// The box that came into being.
    pub film_box: ThingId,
    /// Its reference; empty for the next free one.
    #[serde(default)]
    pub reference: String,
    /// The film, as its maker names it.
    pub film: String,
    /// The size of its sheets.
    pub size: Size,
    /// How many sheets it held.
    pub sheets: u32,
    /// The speed it is exposed at unless said otherwise.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub speed: Option<FilmSpeed>,
    /// The emulsion number on the box.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub emulsion: Option<String>,
    /// The date to use it by.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub expiry: Option<NaiveDate>,
    /// Where it is kept.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kept: Option<String>,
}

/// The body of [`Deed::HolderAdded`](super::Deed::HolderAdded).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct HolderAdded {
    /// The holder that came into being.
    pub holder: ThingId,
    /// Its reference; empty for the next free one.
    #[serde(default)]
    pub reference: String,
    /// The size of sheet it takes.
    pub size: Size,
    /// How many sides, septums or frames it has.
    pub sides: u32,
    /// The sides that came into being with it, in order.
    pub side_ids: Vec<ThingId>,
    /// What it is: make, material, mark.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub make: Option<String>,
}

impl HolderAdded {
    /// What the side with this index is called: A and B on a holder of up to two sides, numbers on
    /// a magazine.
    pub fn label(&self, index: usize) -> String {
        match (self.side_ids.len(), index) {
            (..=2, 0) => "A".to_owned(),
            (..=2, 1) => "B".to_owned(),
            _ => (index + 1).to_string(),
        }
    }
}

/// The body of [`Deed::LensAdded`](super::Deed::LensAdded).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LensAdded {
    /// The lens that came into being.
    pub lens: ThingId,
    /// Its reference; empty for the next free one.
    #[serde(default)]
    pub reference: String,
    /// What it is called.
    pub name: String,
    /// Its focal length.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub focal_length: Option<Millimetres>,
    /// Its widest aperture.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub widest: Option<Aperture>,
    /// Its smallest aperture.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub smallest: Option<Aperture>,
    /// Its shutter.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shutter: Option<String>,
    /// The diameter of its image circle, focused at infinity.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub image_circle: Option<Millimetres>,
    /// Diameter of the exit pupil over that of the entrance pupil, above zero.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pupil_ratio: Option<f64>,
    /// From its flange to the film, focused at infinity.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub flange: Option<Millimetres>,
    /// Its serial number.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub serial: Option<String>,
}

/// The body of [`Deed::CameraAdded`](super::Deed::CameraAdded).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CameraAdded {
    /// The camera that came into being.
    pub camera: ThingId,
    /// Its reference; empty for the next free one.
    #[serde(default)]
    pub reference: String,
    /// What it is called.
    pub name: String,
    /// The size of sheet it takes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub size: Option<Size>,
    /// The shortest draw of its bellows.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shortest_draw: Option<Millimetres>,
    /// The longest draw of its bellows.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub longest_draw: Option<Millimetres>,
}

/// The body of [`Deed::PaperAdded`](super::Deed::PaperAdded).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PaperAdded {
    /// The stock that came into being.
    pub paper: ThingId,
    /// Its reference; empty for the next free one.
    #[serde(default)]
    pub reference: String,
    /// The paper, as its maker names it.
    pub name: String,
    /// The size of its sheets.
    pub size: Size,
    /// How many sheets there were.
    pub sheets: u32,
    /// What it is: fibre, resin coated, cotton, weight, surface.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sort: Option<String>,
    /// The batch or emulsion number on the packet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub batch: Option<String>,
}

/// The body of [`Deed::Counted`](super::Deed::Counted).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Counted {
    /// The box or the paper.
    pub thing: Thing,
    /// How many sheets are left.
    pub sheets: u32,
}

/// The body of [`Deed::UsedUp`](super::Deed::UsedUp).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct UsedUp {
    /// The box, paper or bath.
    pub thing: Thing,
    /// Why, if it is not plain.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
}

/// The body of [`Deed::Retired`](super::Deed::Retired).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Retired {
    /// The holder, one side of a holder, the lens, the camera or the finding.
    pub thing: Thing,
    /// The sides that go out of use with a holder.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub sides: Vec<ThingId>,
    /// Why.
    pub reason: String,
}

/// Implements [`Body`] for a deed whose whole effect is that a thing comes into being.
macro_rules! comes_into_being {
    ($body:ident, $field:ident, $kind:ident) => {
        impl Body for $body {
            fn touches(&self, out: &mut Vec<Thing>) {
                out.push(Thing::new(ThingKind::$kind, self.$field));
            }
            fn creates(&self) -> Option<(Thing, &str)> {
                Some((Thing::new(ThingKind::$kind, self.$field), &self.reference))
            }
            fn name_created(&mut self, reference: String) {
                self.reference = reference;
            }
        }
    };
}

comes_into_being!(BoxAdded, film_box, Box);
comes_into_being!(LensAdded, lens, Lens);
comes_into_being!(CameraAdded, camera, Camera);
comes_into_being!(PaperAdded, paper, Paper);

impl Body for HolderAdded {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(Thing::new(ThingKind::Holder, self.holder));
        out.extend(
            self.side_ids
                .iter()
                .map(|side| Thing::new(ThingKind::Side, *side)),
        );
    }
    fn descents(&self, out: &mut Vec<Descent>) {
        for side in &self.side_ids {
            let child = Thing::new(ThingKind::Side, *side);
            descend(out, child, "holder", ThingKind::Holder, Some(self.holder));
        }
    }
    fn creates(&self) -> Option<(Thing, &str)> {
        Some((Thing::new(ThingKind::Holder, self.holder), &self.reference))
    }
    fn name_created(&mut self, reference: String) {
        self.reference = reference;
    }
}

impl Body for Counted {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(self.thing);
    }
}

impl Body for UsedUp {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(self.thing);
    }
}

impl Body for Retired {
    fn touches(&self, out: &mut Vec<Thing>) {
        out.push(self.thing);
        out.extend(
            self.sides
                .iter()
                .map(|side| Thing::new(ThingKind::Side, *side)),
        );
    }
}
