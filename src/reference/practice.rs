//! How film and holders are handled and kept, in sentences and figures with their sources.
//!
//! What is here is habit that was written down: which side of the dark slide means what, where the
//! notches are, how cool film is kept, what people give film past its date. It holds for every film
//! and format; what belongs to one stands with it.

use serde::Deserialize;
use toml::Spanned;

use super::error::ReferenceError;
use super::naming::Named;
use super::page::{Page, UsualFile};
use super::standing::{Origin, Usual};
use crate::words::words;

/// A habit or a figure of handling.
#[derive(Debug, Clone, PartialEq)]
pub struct Practice {
    /// Name in links and files, such as `notch-code`.
    pub id: String,
    /// What it is about.
    pub subject: PracticeSubject,
    /// What is done, with its source.
    pub figure: Usual,
    /// Where it was read.
    pub origin: Origin,
}

impl Named for Practice {
    fn id(&self) -> &str {
        &self.id
    }

    fn names(&self) -> Vec<String> {
        vec![self.figure.what.clone()]
    }
}

words! {
    /// What a habit is about.
    PracticeSubject {
        /// Holders, dark slides, notches.
        Holder = "holder",
        /// The base of sheet film.
        Base = "base",
        /// Keeping film.
        Keeping = "keeping",
        /// Film past its date.
        Expired = "expired",
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PracticesFile {
    #[serde(default)]
    practice: Vec<PracticeFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PracticeFile {
    id: Spanned<String>,
    subject: PracticeSubject,
    figure: UsualFile,
}

/// Reads and checks a list of habits.
pub(super) fn read(page: &Page<'_>) -> Result<Vec<Practice>, ReferenceError> {
    let file: PracticesFile = page.read()?;
    let mut practices: Vec<Practice> = Vec::with_capacity(file.practice.len());
    for written in file.practice {
        page.once("practice", &written.id, practices.iter().map(|it| &it.id))?;
        practices.push(Practice {
            id: page.id(&written.id)?,
            subject: written.subject,
            figure: page.one_usual(written.figure)?,
            origin: page.origin.clone(),
        });
    }
    Ok(practices)
}
