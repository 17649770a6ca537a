//! What makers and practitioners say films lose in long exposures: which law is told of which film.
//!
//! A law belongs to the films it names, or, if it names none, to any film; a law for any film is a
//! rough guide and is never taken without being asked for. Several laws of one film stand side by
//! side, because published ones disagree. How a law is reckoned with is for the craft.

use serde::Deserialize;
use toml::Spanned;

use super::error::{Fault, ReferenceError};
use super::naming::Named;
use super::page::{Cite, Page};
use super::standing::{Origin, Standing};
use crate::craft::reciprocity::{Band, Bands, Form, Gain, Law, Point, Table, Told};
use crate::craft::{Grounds, Impossible, Seconds, Stops};

/// A law of reciprocity, as one text tells it of some films.
#[derive(Debug, Clone, PartialEq)]
pub struct FilmLaw {
    /// Name in links and files, such as `ilford-hp5-plus`.
    pub id: String,
    /// Name for people: who says it, and its form: `Ilford, t^1.31`.
    pub name: String,
    /// Ids or names of the films it is told of; none for a rough guide to any film.
    pub films: Vec<String>,
    /// Whether the maker of the film says it.
    pub by_maker: bool,
    /// What it says.
    pub law: Law,
    /// Where it was read.
    pub origin: Origin,
}

impl Named for FilmLaw {
    fn id(&self) -> &str {
        &self.id
    }

    fn names(&self) -> Vec<String> {
        vec![self.name.clone()]
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LawsFile {
    #[serde(default)]
    law: Vec<LawFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LawFile {
    id: Spanned<String>,
    name: Spanned<String>,
    #[serde(default)]
    films: Vec<String>,
    #[serde(default)]
    by_maker: bool,
    power: Option<f64>,
    add: Option<f64>,
    from: Option<String>,
    none_from: Option<String>,
    none_to: Option<String>,
    #[serde(default)]
    rows: Vec<RowFile>,
    #[serde(default)]
    bands: Vec<BandFile>,
    ends: Option<String>,
    #[serde(default)]
    advice: String,
    source: Option<String>,
    standing: Option<Standing>,
}

/// A row of a table. `remembered` names the cells that are from memory in a row that is not.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RowFile {
    at: String,
    time: Option<String>,
    factor: Option<f64>,
    open: Option<String>,
    development: Option<String>,
    #[serde(default)]
    remembered: Vec<CellName>,
    source: Option<String>,
    standing: Option<Standing>,
}

#[derive(Deserialize, PartialEq, Clone, Copy)]
#[serde(rename_all = "lowercase")]
enum CellName {
    Time,
    Open,
    Development,
}

/// A band, which begins at `from` or just over `over`.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct BandFile {
    from: Option<String>,
    over: Option<String>,
    factor: Option<f64>,
    open: Option<String>,
}

/// Reads and checks a list of laws.
pub(super) fn read(page: &Page<'_>) -> Result<Vec<FilmLaw>, ReferenceError> {
    let file: LawsFile = page.read()?;
    let mut laws: Vec<FilmLaw> = Vec::with_capacity(file.law.len());
    for written in file.law {
        page.once("law", &written.id, laws.iter().map(|law| &law.id))?;
        let id = page.id(&written.id)?;
        let name = page.text("name", &written.name)?;
        let span = written.id.span();
        let cite = Cite {
            source: written.source.clone(),
            standing: written.standing,
        };
        let (source, standing) = page.cited(&name, span.clone(), cite)?;
        let grounds = Grounds::new(standing, source);
        let form = form(page, &written, &grounds)?.map_err(|why| {
            let why = why.to_string();
            let id = id.clone();
            page.fault(span, Fault::BadLaw { id, why })
        })?;
        laws.push(FilmLaw {
            id,
            name,
            films: written.films,
            by_maker: written.by_maker,
            law: Law::new(form, grounds).advising(written.advice),
            origin: page.origin.clone(),
        });
    }
    Ok(laws)
}

/// The form a law is written in: its citations are checked by the page, its numbers by the craft.
fn form(
    page: &Page<'_>,
    written: &LawFile,
    grounds: &Grounds,
) -> Result<Result<Form, Impossible>, ReferenceError> {
    let is_table = !written.rows.is_empty() || written.none_to.is_some();
    let is_bands = !written.bands.is_empty();
    Ok(match (is_table, is_bands, written.power, written.add) {
        (true, false, None, None) => table(page, written, grounds)?,
        (false, true, None, None) => bands(written, grounds),
        (false, false, Some(power), None) => exponent(power, written.from.as_deref()),
        (false, false, Some(power), Some(a)) => Ok(Form::Additive { a, power }),
        _ => Err(Impossible::new(
            "give one of: power; power and add; rows or none_to; bands",
        )),
    })
}

fn exponent(power: f64, from: Option<&str>) -> Result<Form, Impossible> {
    let from = Seconds::parse(from.unwrap_or("1 s"))?;
    if !(1.0..=3.0).contains(&power) {
        return Err(Impossible::new(format!(
            "a power of {power} cannot be: it lies between 1 and 3"
        )));
    }
    Ok(Form::Exponent { power, from })
}

fn table(
    page: &Page<'_>,
    written: &LawFile,
    grounds: &Grounds,
) -> Result<Result<Form, Impossible>, ReferenceError> {
    let mut points = Vec::with_capacity(written.rows.len());
    for row in &written.rows {
        let grounds = if row.source.is_some() || row.standing.is_some() {
            let cite = Cite {
                source: row.source.clone(),
                standing: row.standing.or(Some(grounds.standing)),
            };
            let (source, standing) = page.cited(&row.at, written.id.span(), cite)?;
            Grounds::new(standing, source)
        } else {
            grounds.clone()
        };
        match point(row, &grounds) {
            Ok(point) => points.push(point),
            Err(why) => return Ok(Err(why)),
        }
    }
    let time = |text: &Option<String>| text.as_deref().map(Seconds::parse).transpose();
    Ok(time(&written.none_from)
        .and_then(|from| Ok((from, time(&written.none_to)?)))
        .map_err(Impossible::from)
        .and_then(|(from, to)| Table::new(from, to, points))
        .map(Form::Table))
}

fn point(row: &RowFile, grounds: &Grounds) -> Result<Point, Impossible> {
    let metered = Seconds::parse(&row.at)?;
    let time = match (&row.time, row.factor) {
        (Some(_), Some(_)) => {
            return Err(Impossible::new(format!(
                "the row for {metered} gives a time and a factor: keep one of them"
            )));
        }
        (Some(time), None) => Some(Seconds::parse(time)?),
        (None, Some(factor)) => Some(Seconds::new(metered.value() * factor)?),
        (None, None) => None,
    };
    let open = row.open.as_deref().map(Stops::parse).transpose()?;
    let of = |cell: CellName| {
        if row.remembered.contains(&cell) {
            Grounds::remembered("from memory, to be confirmed")
        } else {
            grounds.clone()
        }
    };
    Ok(Point {
        metered,
        time: time.map(|time| Told::new(time, of(CellName::Time))),
        open: open.map(|open| Told::new(open, of(CellName::Open))),
        development: row
            .development
            .clone()
            .map(|words| Told::new(words, of(CellName::Development))),
    })
}

fn bands(written: &LawFile, grounds: &Grounds) -> Result<Form, Impossible> {
    let mut bands = Vec::with_capacity(written.bands.len());
    for band in &written.bands {
        let (start, including) = match (&band.from, &band.over) {
            (Some(from), None) => (Seconds::parse(from)?, true),
            (None, Some(over)) => (Seconds::parse(over)?, false),
            _ => return Err(Impossible::new("a band begins at from or over a time")),
        };
        let gain = match (band.factor, &band.open) {
            (Some(factor), None) => Gain::Factor(factor),
            (None, Some(open)) => Gain::Open(Stops::parse(open)?),
            _ => return Err(Impossible::new("a band gives a factor or a lens opening")),
        };
        bands.push(Band {
            start,
            including,
            gain: Told::new(gain, grounds.clone()),
        });
    }
    let ends = written.ends.as_deref().map(Seconds::parse).transpose()?;
    Bands::new(bands, ends).map(Form::Bands)
}
