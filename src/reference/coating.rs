//! How far sensitizer goes, as others have told it.
//!
//! What is told differs by several times, so none of these is the coverage: they stand beside the
//! user's own figure.

use serde::Deserialize;
use toml::Spanned;

use super::Reference;
use super::error::{Fault, ReferenceError};
use super::naming::Named;
use super::page::{Cite, Page};
use super::standing::{Origin, Standing};
use crate::craft::Grounds;

/// Drops to a millilitre where a text counts in drops and says no more.
const DROPS_PER_ML: f64 = 20.0;

/// What one text says that an area takes.
#[derive(Debug, Clone, PartialEq)]
pub struct Coverage {
    /// Name in files.
    pub id: String,
    /// Which process and tool, in a few words.
    pub name: String,
    /// What was coated, in square inches.
    pub area: f64,
    /// All that was mixed for it, in millilitres.
    pub ml: f64,
    /// Set if the text counts in drops, so that the millilitres follow from 20 to one.
    pub from_drops: bool,
    /// In how many coats.
    pub coats: u32,
    /// Where it was read.
    pub source: String,
    /// What that source is worth.
    pub standing: Standing,
    /// A remark; empty if there is none.
    pub note: String,
    /// Where the record was read.
    pub origin: Origin,
}

impl Coverage {
    /// Square inches that a millilitre covers.
    pub fn per_ml(&self) -> f64 {
        self.area / self.ml
    }

    /// What it rests on.
    pub fn grounds(&self) -> Grounds {
        Grounds::new(self.standing, self.source.clone())
    }
}

impl Reference {
    /// How far sensitizer goes, as others have told it; the user's own records last.
    pub fn coverages(&self) -> &[Coverage] {
        &self.whole().coverages
    }
}

impl Named for Coverage {
    fn id(&self) -> &str {
        &self.id
    }

    fn names(&self) -> Vec<String> {
        vec![self.name.clone()]
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct CoveragesFile {
    #[serde(default)]
    coverage: Vec<CoverageFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct CoverageFile {
    id: Spanned<String>,
    name: Spanned<String>,
    area: f64,
    ml: Option<f64>,
    drops: Option<f64>,
    #[serde(default = "one")]
    coats: u32,
    source: Option<String>,
    standing: Option<Standing>,
    #[serde(default)]
    note: String,
}

const fn one() -> u32 {
    1
}

/// Reads and checks a list of coverages.
pub(super) fn read(page: &Page<'_>) -> Result<Vec<Coverage>, ReferenceError> {
    let file: CoveragesFile = page.read()?;
    let mut coverages: Vec<Coverage> = Vec::with_capacity(file.coverage.len());
    for written in file.coverage {
        page.once("coverage", &written.id, coverages.iter().map(|it| &it.id))?;
        let name = page.text("name", &written.name)?;
        let span = written.name.span();
        let shape = |message: &str| {
            let message = message.to_owned();
            page.fault(span.clone(), Fault::Shape { message })
        };
        let (ml, from_drops) = match (written.ml, written.drops) {
            (Some(ml), None) => (ml, false),
            (None, Some(drops)) => (drops / DROPS_PER_ML, true),
            _ => return Err(shape("a coverage has ml or drops, one of the two")),
        };
        let sound = |value: f64| value > 0.0 && value <= 100_000.0;
        if !sound(written.area) || !sound(ml) || written.coats == 0 {
            return Err(shape("area, ml, drops and coats are more than nothing"));
        }
        let cite = Cite {
            source: written.source,
            standing: written.standing,
        };
        let (source, standing) = page.cited(&name, span.clone(), cite)?;
        coverages.push(Coverage {
            id: page.id(&written.id)?,
            name,
            area: written.area,
            ml,
            from_drops,
            coats: written.coats,
            source,
            standing,
            note: written.note,
            origin: page.origin.clone(),
        });
    }
    Ok(coverages)
}
