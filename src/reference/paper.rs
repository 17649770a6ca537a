//! Papers: what they are made of, and what they are made for.
//!
//! A paper here is a paper as it is sold, not a packet of it. What matters most for hand-coated
//! prints is whether it holds chalk; for silver gelatin, whether water can get into its base.

use serde::Deserialize;
use toml::Spanned;

use super::error::ReferenceError;
use super::naming::{Named, slug};
use super::page::{Cite, Page, UsualFile};
use super::standing::{Origin, Standing, Usual};
use crate::words::words;

/// A paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Paper {
    /// Name in links and files, such as `platine`.
    pub id: String,
    /// Name as sold, without the maker.
    pub name: String,
    /// Maker; empty if not given.
    pub maker: String,
    /// Other ways in which people write its name.
    pub also: Vec<String>,
    /// What it is made of.
    pub kind: PaperKind,
    /// Its figures, such as the weight of a square metre.
    pub usual: Vec<Usual>,
    /// Where it was read.
    pub source: String,
    /// What that source is worth.
    pub standing: Standing,
    /// A remark; empty if there is none.
    pub note: String,
    /// Where the paper was read.
    pub origin: Origin,
}

impl Paper {
    /// Maker and name: `Arches Platine`.
    pub fn full_name(&self) -> String {
        format!("{} {}", self.maker, self.name).trim().to_owned()
    }
}

impl Named for Paper {
    fn id(&self) -> &str {
        &self.id
    }

    fn names(&self) -> Vec<String> {
        let mut names = vec![self.name.clone(), self.full_name()];
        names.extend(self.also.iter().cloned());
        names
    }
}

words! {
    /// What a paper is made of.
    PaperKind {
        /// Silver gelatin on a fibre base.
        Fibre = "fibre",
        /// Silver gelatin on a base sealed with plastic.
        ResinCoated = "resin-coated",
        /// Cotton without chalk.
        CottonUnbuffered = "cotton-unbuffered",
        /// Cotton with chalk, or not known to be without.
        CottonBuffered = "cotton-buffered",
        /// Wood cellulose without chalk.
        CelluloseUnbuffered = "cellulose-unbuffered",
        /// Wood cellulose with chalk, or not known to be without.
        CelluloseBuffered = "cellulose-buffered",
        /// Thin paper of long plant fibres.
        Washi = "washi",
        /// Anything else: vellum, film, cloth, glass.
        Other = "other",
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PapersFile {
    #[serde(default)]
    paper: Vec<PaperFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PaperFile {
    id: Option<Spanned<String>>,
    name: Spanned<String>,
    #[serde(default)]
    maker: String,
    #[serde(default)]
    also: Vec<String>,
    kind: PaperKind,
    #[serde(default)]
    usual: Vec<UsualFile>,
    source: Option<String>,
    standing: Option<Standing>,
    #[serde(default)]
    note: String,
}

/// Reads and checks a list of papers.
pub(super) fn read(page: &Page<'_>) -> Result<Vec<Paper>, ReferenceError> {
    let file: PapersFile = page.read()?;
    let mut papers: Vec<Paper> = Vec::with_capacity(file.paper.len());
    for written in file.paper {
        let name = page.text("name", &written.name)?;
        let span = written.name.span();
        let id = written
            .id
            .unwrap_or_else(|| Spanned::new(span.clone(), slug(&name)));
        page.once("paper", &id, papers.iter().map(|paper| &paper.id))?;
        let cite = Cite {
            source: written.source,
            standing: written.standing,
        };
        let (source, standing) = page.cited(&name, span, cite)?;
        papers.push(Paper {
            id: page.id(&id)?,
            name,
            maker: written.maker,
            also: written.also,
            kind: written.kind,
            usual: page.usual(written.usual)?,
            source,
            standing,
            note: written.note,
            origin: page.origin.clone(),
        });
    }
    Ok(papers)
}
