//! Sheet film formats: the name, the size it stands for, and the size the film is cut to.
//!
//! The nominal size is the name itself (a 4x5 is four inches by five); the film is cut a little
//! smaller so that it slides into its holder, and only that smaller size is a figure with a source.

use serde::Deserialize;
use toml::Spanned;

use super::error::{Fault, ReferenceError};
use super::naming::Named;
use super::page::{Cite, Page, UsualFile};
use super::standing::{Origin, Standing, Usual};
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
    pub cut: Option<CutSize>,
    /// Other figures of the format, such as the depth of its holders.
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
}

impl Named for Format {
    fn id(&self) -> &str {
        &self.id
    }

    fn names(&self) -> Vec<String> {
        vec![self.name.clone()]
    }
}

/// The size a film is cut to.
#[derive(Debug, Clone, PartialEq)]
pub struct CutSize {
    /// Short side, millimetres.
    pub width_mm: f64,
    /// Long side, millimetres.
    pub height_mm: f64,
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
    #[serde(default)]
    usual: Vec<UsualFile>,
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
            Some(sides) => {
                let span = sides.span();
                let (width_mm, height_mm) = sides.into_inner();
                positive(page, "cut_mm", width_mm, span.clone())?;
                positive(page, "cut_mm", height_mm, span.clone())?;
                let (source, standing) = page.cited("cut_mm", span, cite)?;
                Some(CutSize {
                    width_mm,
                    height_mm,
                    source,
                    standing,
                })
            }
        };
        formats.push(Format {
            name: written.name.unwrap_or_else(|| id.clone()),
            id,
            width: written.width,
            height: written.height,
            unit: written.unit,
            cut,
            usual: page.usual(written.usual)?,
            origin: page.origin.clone(),
        });
    }
    Ok(formats)
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
