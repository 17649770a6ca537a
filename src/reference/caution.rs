//! Cautions: what can hurt, said before the work begins.
//!
//! A caution names the hazard in our own words and defers to those who know the case: its text is
//! always followed by the closing sentence of the file. It is no instruction for handling a
//! substance and replaces no safety data sheet.

use serde::Deserialize;
use toml::Spanned;

use super::error::ReferenceError;
use super::naming::Named;
use super::page::{Cite, Page};
use super::standing::{Origin, Standing};
use crate::words::words;

/// A caution.
#[derive(Debug, Clone, PartialEq)]
pub struct Caution {
    /// Name in links and files, such as `silver-nitrate`.
    pub id: String,
    /// Name of the hazard for people.
    pub title: String,
    /// Whether it is about a substance or a situation.
    pub kind: CautionKind,
    /// The caution itself, in one to four sentences.
    pub words: String,
    /// Where it was read.
    pub source: String,
    /// What that source is worth.
    pub standing: Standing,
    /// Where the caution was read.
    pub origin: Origin,
}

impl Named for Caution {
    fn id(&self) -> &str {
        &self.id
    }

    fn names(&self) -> Vec<String> {
        vec![self.title.clone()]
    }
}

words! {
    /// What a caution is about.
    CautionKind {
        /// A chemical.
        Substance = "substance",
        /// Something one does, or a tool one does it with.
        Situation = "situation",
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct CautionsFile {
    closing: Option<Spanned<String>>,
    #[serde(default)]
    caution: Vec<CautionFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct CautionFile {
    id: Spanned<String>,
    title: Spanned<String>,
    kind: CautionKind,
    words: Spanned<String>,
    source: Option<String>,
    standing: Option<Standing>,
}

/// Reads and checks a list of cautions; the closing sentence too, where the file has one.
pub(super) fn read(page: &Page<'_>) -> Result<(Vec<Caution>, Option<String>), ReferenceError> {
    let file: CautionsFile = page.read()?;
    let closing = match &file.closing {
        Some(written) => Some(page.text("closing", written)?),
        None => None,
    };
    let mut cautions: Vec<Caution> = Vec::with_capacity(file.caution.len());
    for written in file.caution {
        page.once("caution", &written.id, cautions.iter().map(|one| &one.id))?;
        let title = page.text("title", &written.title)?;
        let cite = Cite {
            source: written.source,
            standing: written.standing,
        };
        let (source, standing) = page.cited(&title, written.title.span(), cite)?;
        cautions.push(Caution {
            id: page.id(&written.id)?,
            title,
            kind: written.kind,
            words: page.text("words", &written.words)?,
            source,
            standing,
            origin: page.origin.clone(),
        });
    }
    Ok((cautions, closing))
}
