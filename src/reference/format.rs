//! Sheet film formats: the name, the size it stands for, the size the film is cut to, the part of it
//! that a picture falls on, and how deep it lies in its holder.
//!
//! The nominal size is the name itself (a 4x5 is four inches by five); the film is cut a little
//! smaller so that it slides into its holder, and the rails of the holder cover its edges. Only these
//! smaller sizes and the depth are figures with a source.

use serde::Deserialize;
use toml::Spanned;

use super::error::{Fault, ReferenceError};
use super::naming::Named;
use super::page::{Cite, Page, UsualFile};
use super::standing::{Origin, Standing, Usual};
use crate::craft::{Grounds, LengthUnit, Size};
use crate::words::words;

/// Millimetres in an inch, exactly.
const MM_PER_INCH: f64 = 25.4;

/// A film format.
#[derive(Debug, Clone, PartialEq)]
pub struct Format {
    /// Name in links and files, such as `4x5` or `9x12cm`.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Nominal short side in [`Format::unit`].
    pub width: f64,
    /// Nominal long side in [`Format::unit`].
    pub height: f64,
    /// Unit of the nominal size.
    pub unit: FormatUnit,
    /// Size of the film as cut, short side first, in millimetres, with its source.
    pub cut: Option<Sides>,
    /// The part of the film that the holder leaves open, with its source.
    pub image: Option<Sides>,
    /// How deep the film lies in its holder.
    pub holder: Option<HolderDepth>,
    /// Other figures of the format, such as where its emulsion lies.
    pub usual: Vec<Usual>,
    /// Where the format was read.
    pub origin: Origin,
}

impl Format {
    /// The nominal size in millimetres, short side first.
    pub fn nominal_mm(&self) -> (f64, f64) {
        let factor = match self.unit {
            FormatUnit::Inch => MM_PER_INCH,
            FormatUnit::Centimetre => 10.0,
        };
        (self.width * factor, self.height * factor)
    }

    /// The nominal size in the unit of its name, short side first; nothing if a side is longer or
    /// shorter than a sheet can be.
    pub fn size(&self) -> Option<Size> {
        let unit = match self.unit {
            FormatUnit::Inch => LengthUnit::Inch,
            FormatUnit::Centimetre => LengthUnit::Centimetre,
        };
        Size::new(self.width, self.height, unit).ok()
    }

    /// The part of the film a picture falls on: what the holder leaves open, where that is not known
    /// the film as it is cut, and where that is not known either the size of its name.
    pub fn picture(&self) -> Picture {
        let read = |sides: &Sides, taken| Picture {
            width_mm: sides.width_mm,
            height_mm: sides.height_mm,
            taken,
            grounds: Grounds::new(sides.standing, sides.source.clone()),
        };
        match (&self.image, &self.cut) {
            (Some(image), _) => read(image, "image area"),
            (None, Some(cut)) => read(cut, "cut size"),
            (None, None) => {
                let (width_mm, height_mm) = self.nominal_mm();
                Picture {
                    width_mm,
                    height_mm,
                    taken: "nominal size",
                    grounds: Grounds::new(Standing::Usual, "the name of the format"),
                }
            }
        }
    }
}

/// The part of a film that a picture falls on, as well as it is known.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// Short side, millimetres.
    pub width_mm: f64,
    /// Long side, millimetres.
    pub height_mm: f64,
    /// Which of the sizes of the format it is: `image area`.
    pub taken: &'static str,
    /// What the size rests on.
    pub grounds: Grounds,
}

impl Named for Format {
    fn id(&self) -> &str {
        &self.id
    }

    fn names(&self) -> Vec<String> {
        vec![self.name.clone()]
    }
}

/// Two sides that were measured or printed somewhere.
#[derive(Debug, Clone, PartialEq)]
pub struct Sides {
    /// Short side, millimetres.
    pub width_mm: f64,
    /// Long side, millimetres.
    pub height_mm: f64,
    /// Where it was read.
    pub source: String,
    /// What that source is worth.
    pub standing: Standing,
}

/// How deep a film lies: from the face of the holder to the septum, that is to the back of the film.
#[derive(Debug, Clone, PartialEq)]
pub struct HolderDepth {
    /// The depth, inches.
    pub depth_in: f64,
    /// By how much a holder may differ either way, inches, where it is known.
    pub tolerance_in: Option<f64>,
    /// Where it was read.
    pub source: String,
    /// What that source is worth.
    pub standing: Standing,
}

words! {
    /// The unit in which a format is named.
    FormatUnit {
        /// Inches.
        Inch = "in",
        /// Centimetres.
        Centimetre = "cm",
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FormatsFile {
    #[serde(default)]
    format: Vec<FormatFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FormatFile {
    id: Spanned<String>,
    name: Option<String>,
    width: f64,
    height: f64,
    #[serde(default = "inch")]
    unit: FormatUnit,
    cut_mm: Option<Spanned<(f64, f64)>>,
    source: Option<String>,
    standing: Option<Standing>,
    image: Option<ImageFile>,
    holder: Option<HolderFile>,
    #[serde(default)]
    usual: Vec<UsualFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ImageFile {
    mm: Spanned<(f64, f64)>,
    source: Option<String>,
    standing: Option<Standing>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct HolderFile {
    depth_in: Spanned<f64>,
    tolerance_in: Spanned<f64>,
    source: Option<String>,
    standing: Option<Standing>,
}

fn inch() -> FormatUnit {
    FormatUnit::Inch
}

/// Reads and checks a list of formats.
pub(super) fn read(page: &Page<'_>) -> Result<Vec<Format>, ReferenceError> {
    let file: FormatsFile = page.read()?;
    let mut formats: Vec<Format> = Vec::with_capacity(file.format.len());
    for written in file.format {
        page.once(
            "format",
            &written.id,
            formats.iter().map(|format| &format.id),
        )?;
        let id = page.id(&written.id)?;
        let span = written.id.span();
        positive(page, "width", written.width, span.clone())?;
        positive(page, "height", written.height, span)?;
        let cite = Cite {
            source: written.source,
            standing: written.standing,
        };
        let cut = match written.cut_mm {
            None => None,
            Some(mm) => Some(sides(page, "cut_mm", mm, cite)?),
        };
        let image = match written.image {
            None => None,
            Some(ImageFile {
                mm,
                source,
                standing,
            }) => Some(sides(page, "image", mm, Cite { source, standing })?),
        };
        let holder = match written.holder {
            None => None,
            Some(depth) => Some(holder(page, depth)?),
        };
        formats.push(Format {
            name: written.name.unwrap_or_else(|| id.clone()),
            id,
            width: written.width,
            height: written.height,
            unit: written.unit,
            cut,
            image,
            holder,
            usual: page.usual(written.usual)?,
            origin: page.origin.clone(),
        });
    }
    Ok(formats)
}

fn sides(
    page: &Page<'_>,
    what: &'static str,
    mm: Spanned<(f64, f64)>,
    cite: Cite,
) -> Result<Sides, ReferenceError> {
    let span = mm.span();
    let (width_mm, height_mm) = mm.into_inner();
    positive(page, what, width_mm, span.clone())?;
    positive(page, what, height_mm, span.clone())?;
    let (source, standing) = page.cited(what, span, cite)?;
    Ok(Sides {
        width_mm,
        height_mm,
        source,
        standing,
    })
}

fn holder(page: &Page<'_>, written: HolderFile) -> Result<HolderDepth, ReferenceError> {
    let (depth, tolerance) = (&written.depth_in, &written.tolerance_in);
    positive(page, "depth_in", *depth.get_ref(), depth.span())?;
    positive(page, "tolerance_in", *tolerance.get_ref(), tolerance.span())?;
    let cite = Cite {
        source: written.source,
        standing: written.standing,
    };
    let (source, standing) = page.cited("holder", depth.span(), cite)?;
    Ok(HolderDepth {
        depth_in: written.depth_in.into_inner(),
        tolerance_in: Some(written.tolerance_in.into_inner()),
        source,
        standing,
    })
}

fn positive(
    page: &Page<'_>,
    what: &'static str,
    value: f64,
    span: std::ops::Range<usize>,
) -> Result<(), ReferenceError> {
    if value.is_finite() && value > 0.0 {
        return Ok(());
    }
    let value = value.to_string();
    Err(page.fault(span, Fault::NotPositive { what, value }))
}
