//! One reference file while it is being read: its name, its text, and where things stand in it.
//!
//! Everything that is read twice or more is read here: ids, cited figures, errors with their line.
//! What a record means is left to the file of its own noun.

use std::ops::Range;

use serde::Deserialize;
use serde::de::DeserializeOwned;
use toml::Spanned;

use super::error::{Fault, ReferenceError};
use super::paper::PaperKind;
use super::standing::{Origin, Standing, Usual};

/// A file being read.
pub(super) struct Page<'a> {
    /// Its name for errors.
    pub(super) file: String,
    /// What it holds.
    pub(super) text: &'a str,
    /// Whose it is.
    pub(super) origin: Origin,
}

impl<'a> Page<'a> {
    /// A file that is compiled in.
    pub(super) fn built_in(file: &str, text: &'a str) -> Self {
        Page {
            file: format!("assets/{file}"),
            text,
            origin: Origin::BuiltIn,
        }
    }

    /// Reads the whole page in one shape.
    pub(super) fn read<T: DeserializeOwned>(&self) -> Result<T, ReferenceError> {
        toml::from_str(self.text).map_err(|error| {
            let message = error.message().replace('\n', ", ");
            self.fault(error.span().unwrap_or(0..0), Fault::Shape { message })
        })
    }

    /// The error for a fault at a place in the text.
    pub(super) fn fault(&self, span: Range<usize>, fault: Fault) -> ReferenceError {
        let before = self.text.get(..span.start).unwrap_or(self.text);
        ReferenceError::Faulty {
            file: self.file.clone(),
            line: 1 + before.matches('\n').count(),
            fault,
        }
    }

    /// An id, if it is one.
    pub(super) fn id(&self, written: &Spanned<String>) -> Result<String, ReferenceError> {
        let id = written.get_ref();
        let letters = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
        let words = id.split('-').all(|word| !word.is_empty());
        if id.len() > 60 || !words || !id.chars().all(letters) {
            let id = id.clone();
            return Err(self.fault(written.span(), Fault::BadId { id }));
        }
        Ok(id.clone())
    }

    /// A text that must say something.
    pub(super) fn text(
        &self,
        key: &'static str,
        written: &Spanned<String>,
    ) -> Result<String, ReferenceError> {
        let text = written.get_ref().trim();
        if text.is_empty() {
            return Err(self.fault(written.span(), Fault::Empty { key }));
        }
        Ok(text.to_owned())
    }

    /// Refuses a second thing with the same id.
    pub(super) fn once<'i>(
        &self,
        what: &'static str,
        id: &Spanned<String>,
        mut seen: impl Iterator<Item = &'i String>,
    ) -> Result<(), ReferenceError> {
        if seen.any(|other| other == id.get_ref()) {
            let id_text = id.get_ref().clone();
            return Err(self.fault(id.span(), Fault::Twice { what, id: id_text }));
        }
        Ok(())
    }

    /// Source and standing of something called `what`, which stands at `span`.
    ///
    /// A built-in record says what it rests on, and names the text if it is published. In the
    /// user's own files what is not said is the user's own.
    pub(super) fn cited(
        &self,
        what: &str,
        span: Range<usize>,
        cite: Cite,
    ) -> Result<(String, Standing), ReferenceError> {
        let what = what.to_owned();
        let source = cite.source.filter(|source| !source.trim().is_empty());
        let standing = match (cite.standing, self.origin.is_own()) {
            (Some(Standing::Own), false) => return Err(self.fault(span, Fault::NotOwn { what })),
            (Some(standing), _) => standing,
            (None, true) if source.is_some() => Standing::Published,
            (None, true) => Standing::Own,
            (None, false) => return Err(self.fault(span, Fault::NoStanding { what })),
        };
        let source = match (source, standing) {
            (Some(source), _) => source,
            (None, Standing::Published) => return Err(self.fault(span, Fault::NoSource { what })),
            (None, Standing::Usual) => "common practice, no source".to_owned(),
            (None, Standing::Remembered) => "from memory, to be confirmed".to_owned(),
            (None, Standing::Own) => "own".to_owned(),
        };
        Ok((source, standing))
    }

    /// Ids of cautions, each of which `is_caution` must know.
    pub(super) fn known_cautions(
        &self,
        ids: Vec<Spanned<String>>,
        is_caution: &impl Fn(&str) -> bool,
    ) -> Result<Vec<String>, ReferenceError> {
        for id in &ids {
            if !is_caution(id.get_ref()) {
                let fault = Fault::UnknownCaution {
                    id: id.get_ref().clone(),
                };
                return Err(self.fault(id.span(), fault));
            }
        }
        Ok(plain(ids))
    }

    /// The range from `from` to `to` of something called `what`, which stands at `span`; `None` if
    /// there is neither.
    pub(super) fn range(
        &self,
        what: &str,
        span: Range<usize>,
        from: Option<f64>,
        to: Option<f64>,
    ) -> Result<Option<(f64, f64)>, ReferenceError> {
        let range = match (from, to) {
            (None, None) => return Ok(None),
            (Some(from), to) => (from, to.unwrap_or(from)),
            (None, Some(_)) => (f64::NAN, f64::NAN),
        };
        if range.0.is_finite() && range.1.is_finite() && range.0 <= range.1 {
            return Ok(Some(range));
        }
        let what = what.to_owned();
        Err(self.fault(span, Fault::BadRange { what }))
    }

    /// Source and standing of a part of something: its own, or those of the whole where it says
    /// nothing.
    pub(super) fn cited_or(
        &self,
        what: &str,
        span: Range<usize>,
        cite: Cite,
        whole: &(String, Standing),
    ) -> Result<(String, Standing), ReferenceError> {
        if cite.source.is_none() && cite.standing.is_none() {
            return Ok(whole.clone());
        }
        self.cited(what, span, cite)
    }

    /// Usual figures, checked.
    pub(super) fn usual(&self, written: Vec<UsualFile>) -> Result<Vec<Usual>, ReferenceError> {
        written.into_iter().map(|one| self.one_usual(one)).collect()
    }

    /// One usual figure, checked.
    pub(super) fn one_usual(&self, written: UsualFile) -> Result<Usual, ReferenceError> {
        let what = self.text("what", &written.what)?;
        let span = written.what.span();
        let range = self.range(&what, span.clone(), written.from, written.to)?;
        if range.is_none() && written.note.trim().is_empty() {
            return Err(self.fault(span, Fault::SaysNothing { what }));
        }
        let cite = Cite {
            source: written.source,
            standing: written.standing,
        };
        let (source, standing) = self.cited(&what, span, cite)?;
        Ok(Usual {
            what,
            range,
            unit: written.unit,
            source,
            standing,
            note: written.note,
            paper: written.paper,
        })
    }
}

/// Ids without their places.
pub(super) fn plain(ids: Vec<Spanned<String>>) -> Vec<String> {
    ids.into_iter().map(Spanned::into_inner).collect()
}

/// Source and standing as written.
pub(super) struct Cite {
    pub(super) source: Option<String>,
    pub(super) standing: Option<Standing>,
}

/// A usual figure as written.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct UsualFile {
    what: Spanned<String>,
    from: Option<f64>,
    to: Option<f64>,
    #[serde(default)]
    unit: String,
    source: Option<String>,
    standing: Option<Standing>,
    #[serde(default)]
    note: String,
    paper: Option<PaperKind>,
}
