//! Film stocks: name, maker, speed.
//!
//! A film here is a stock as it is sold, not a box of it and not a sheet. Its speed is the maker's;
//! the index at which someone exposes it belongs to the box or the exposure.

use serde::Deserialize;
use toml::Spanned;

use super::error::{Fault, ReferenceError};
use super::naming::{Named, slug};
use super::page::{Cite, Page};
use super::standing::{Origin, Standing};
use crate::craft::development::contrast::Grain;
use crate::craft::{FilmSpeed, Grounds};
use crate::words::words;

/// A film stock.
#[derive(Debug, Clone, PartialEq)]
pub struct Film {
    /// Name in links and files, such as `fp4-plus`.
    pub id: String,
    /// Name as sold, without the maker.
    pub name: String,
    /// Maker; empty if not given.
    pub maker: String,
    /// Other ways in which people write its name.
    pub also: Vec<String>,
    /// To what colours it answers.
    pub kind: FilmKind,
    /// What its kind rests on, where that is another thing than its speed does.
    pub kind_rests: Option<Grounds>,
    /// The make of its emulsion: flat grain answers to development more sharply.
    pub grain: Grain,
    /// ISO speed (arithmetic), where known.
    pub speed: Option<u32>,
    /// Where the speed was read.
    pub source: String,
    /// What that source is worth.
    pub standing: Standing,
    /// A remark; empty if there is none.
    pub note: String,
    /// Where the film was read.
    pub origin: Origin,
}

impl Film {
    /// Maker and name: `Ilford FP4 Plus`.
    pub fn full_name(&self) -> String {
        format!("{} {}", self.maker, self.name).trim().to_owned()
    }

    /// Its speed with what that rests on, where it is known.
    pub fn rated(&self) -> Option<(FilmSpeed, Grounds)> {
        let speed = FilmSpeed::new(self.speed?).ok()?;
        Some((speed, Grounds::new(self.standing, self.source.clone())))
    }
}

impl Named for Film {
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
    /// To what colours a film answers.
    FilmKind {
        /// Black and white, all colours.
        Panchromatic = "panchromatic",
        /// Black and white, blind to red.
        Orthochromatic = "orthochromatic",
        /// Black and white, blue and ultraviolet only.
        BlueSensitive = "blue-sensitive",
        /// Black and white, reaching into the infrared.
        Infrared = "infrared",
        /// Colour negative.
        ColourNegative = "colour-negative",
        /// Colour reversal.
        ColourReversal = "colour-reversal",
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FilmsFile {
    #[serde(default)]
    film: Vec<FilmFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FilmFile {
    id: Option<Spanned<String>>,
    name: Spanned<String>,
    #[serde(default)]
    maker: String,
    #[serde(default)]
    also: Vec<String>,
    #[serde(default = "panchromatic")]
    kind: FilmKind,
    #[serde(default = "classic")]
    grain: Grain,
    speed: Option<Spanned<u32>>,
    source: Option<String>,
    standing: Option<Standing>,
    #[serde(default)]
    note: String,
}

fn panchromatic() -> FilmKind {
    FilmKind::Panchromatic
}

fn classic() -> Grain {
    Grain::Classic
}

/// Reads and checks a list of films.
pub(super) fn read(page: &Page<'_>) -> Result<Vec<Film>, ReferenceError> {
    let file: FilmsFile = page.read()?;
    let mut films: Vec<Film> = Vec::with_capacity(file.film.len());
    for written in file.film {
        let name = page.text("name", &written.name)?;
        let span = written.name.span();
        let id = written
            .id
            .unwrap_or_else(|| Spanned::new(span.clone(), slug(&name)));
        page.once("film", &id, films.iter().map(|film| &film.id))?;
        if let Some(speed) = &written.speed
            && *speed.get_ref() == 0
        {
            let fault = Fault::NotPositive {
                what: "speed",
                value: speed.get_ref().to_string(),
            };
            return Err(page.fault(speed.span(), fault));
        }
        let cite = Cite {
            source: written.source,
            standing: written.standing,
        };
        let (source, standing) = page.cited(&name, span, cite)?;
        films.push(Film {
            id: page.id(&id)?,
            name,
            maker: written.maker,
            also: written.also,
            kind: written.kind,
            kind_rests: None,
            grain: written.grain,
            speed: written.speed.map(Spanned::into_inner),
            source,
            standing,
            note: written.note,
            origin: page.origin.clone(),
        });
    }
    Ok(films)
}
