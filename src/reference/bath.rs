//! Baths by purpose: what they are called, what they can hurt with, what is published about them.
//!
//! One record for each [`Purpose`], which is what the logbook writes down about a bath. The figures
//! say how much a bath does and how long it keeps, each in the words of its source; which of them
//! holds for the bath at hand, and when it is exhausted, is left to the one who mixes it.

use serde::Deserialize;
use toml::Spanned;

use super::error::{Fault, ReferenceError};
use super::naming::Named;
use super::page::{Page, UsualFile};
use super::process::Purpose;
use super::standing::{Origin, Usual};

/// What the reference knows about the baths of one purpose.
#[derive(Debug, Clone, PartialEq)]
pub struct BathKind {
    /// What the bath is for.
    pub purpose: Purpose,
    /// Name for people, in lower case.
    pub title: String,
    /// A few words beside the name; empty if none are needed.
    pub hint: String,
    /// Ids of the cautions to show before such a bath is mixed.
    pub cautions: Vec<String>,
    /// Strengths, capacities, keeping times, tests.
    pub usual: Vec<Usual>,
    /// Where the record was read.
    pub origin: Origin,
}

impl BathKind {
    /// The published and remembered capacities, in the units of their sources.
    pub fn capacities(&self) -> impl Iterator<Item = &Usual> {
        self.usual
            .iter()
            .filter(|usual| usual.what.starts_with("capacity"))
    }
}

impl Named for BathKind {
    fn id(&self) -> &str {
        self.purpose.word()
    }

    fn names(&self) -> Vec<String> {
        vec![self.title.clone()]
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct BathsFile {
    #[serde(default)]
    bath: Vec<BathFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct BathFile {
    purpose: Spanned<Purpose>,
    title: Spanned<String>,
    #[serde(default)]
    hint: String,
    #[serde(default)]
    cautions: Vec<Spanned<String>>,
    #[serde(default)]
    usual: Vec<UsualFile>,
}

/// Reads and checks a list of baths; `is_caution` knows the cautions.
pub(super) fn read(
    page: &Page<'_>,
    is_caution: impl Fn(&str) -> bool,
) -> Result<Vec<BathKind>, ReferenceError> {
    let file: BathsFile = page.read()?;
    let mut baths: Vec<BathKind> = Vec::with_capacity(file.bath.len());
    for written in file.bath {
        let purpose = *written.purpose.get_ref();
        if baths.iter().any(|bath| bath.purpose == purpose) {
            let fault = Fault::Twice {
                what: "bath",
                id: purpose.word().to_owned(),
            };
            return Err(page.fault(written.purpose.span(), fault));
        }
        baths.push(BathKind {
            purpose,
            title: page.text("title", &written.title)?,
            hint: written.hint,
            cautions: page.known_cautions(written.cautions, &is_caution)?,
            usual: page.usual(written.usual)?,
            origin: page.origin.clone(),
        });
    }
    Ok(baths)
}
