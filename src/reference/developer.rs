//! Developers of film, the times that texts tell for them, and how film is agitated.
//!
//! A table of times is one table of one text, and stands as that text has it: what it does not say is
//! not filled in. Several tables of one film and developer stand side by side; the user's own come
//! first. How a time between two columns is reckoned is for the craft. What the solutions are mixed of
//! is another matter.

use std::collections::BTreeMap;

use serde::Deserialize;
use toml::Spanned;

use super::error::{Fault, ReferenceError};
use super::naming::Named;
use super::page::{Cite, Page, UsualFile};
use super::standing::{Origin, Standing, Usual};
use crate::craft::development::agitation::Agitation;
use crate::craft::development::rhythm::Rhythm;
use crate::craft::development::temperature::{Cell, TimeTable};
use crate::craft::{Celsius, Dilution, FilmSpeed, Grounds, Impossible, Seconds};

/// A developer.
#[derive(Debug, Clone, PartialEq)]
pub struct Developer {
    /// Name in links and files, such as `d-76`.
    pub id: String,
    /// Name on the packet.
    pub name: String,
    /// Who makes it; empty where several do.
    pub maker: String,
    /// Other ways of writing the name.
    pub also: Vec<String>,
    /// Figures of it, such as what a sheet uses up at least.
    pub usual: Vec<Usual>,
    /// Whether it leaves a stain that holds back more ultraviolet and blue than the eye sees.
    pub stains: bool,
    /// A remark; empty if there is none.
    pub note: String,
    /// Where it was read.
    pub origin: Origin,
}

impl Developer {
    /// Maker and name: `Ilford ID-11`.
    pub fn full_name(&self) -> String {
        format!("{} {}", self.maker, self.name).trim().to_owned()
    }
}

impl Named for Developer {
    fn id(&self) -> &str {
        &self.id
    }

    fn names(&self) -> Vec<String> {
        let mut names = vec![self.name.clone(), self.full_name()];
        names.extend(self.also.iter().cloned());
        names
    }
}

/// One table of times of one text.
#[derive(Debug, Clone, PartialEq)]
pub struct PublishedTimes {
    /// Name in links and files, such as `kodak-f-32-rotary-rolls`.
    pub id: String,
    /// How the film is agitated, if the text says it.
    pub agitation: Option<Agitation>,
    /// What it is developed in: `rotary tube, sheets`; empty if the text does not say it.
    pub vessel: String,
    /// Where it was read, and what that is worth.
    pub grounds: Grounds,
    /// Whether the dilutions are from memory although the times are not.
    pub dilution_remembered: bool,
    /// A remark; empty if there is none.
    pub note: String,
    /// Its rows, at least one.
    pub rows: Vec<TimesRow>,
    /// Where it was read.
    pub origin: Origin,
}

impl Named for PublishedTimes {
    fn id(&self) -> &str {
        &self.id
    }

    fn names(&self) -> Vec<String> {
        Vec::new()
    }
}

/// One film in one developer.
#[derive(Debug, Clone, PartialEq)]
pub struct TimesRow {
    /// Id or name of the developer.
    pub developer: String,
    /// Id or name of the film.
    pub film: String,
    /// The dilution, if it is said.
    pub dilution: Option<Dilution>,
    /// The exposure index the time is for, if it is said.
    pub speed: Option<FilmSpeed>,
    /// The size of film: `sheets`, `120`; empty if it is not said.
    pub size: String,
    /// The contrast that is aimed at, in the words of the text; empty if it is not said.
    pub contrast: String,
    /// The times.
    pub times: TimeTable,
}

/// A way of agitating film.
#[derive(Debug, Clone, PartialEq)]
pub struct AgitationScheme {
    /// Name in links and files, such as `tray`.
    pub id: String,
    /// What is done, with its source.
    pub figure: Usual,
    /// The same as a rhythm that a clock can follow, if it is one.
    pub rhythm: Option<Rhythm>,
    /// What the hand does at each cue: `turn the tank over`; empty if nothing else is said.
    pub cue: String,
    /// Where it was read.
    pub origin: Origin,
}

impl Named for AgitationScheme {
    fn id(&self) -> &str {
        &self.id
    }

    fn names(&self) -> Vec<String> {
        vec![self.figure.what.clone()]
    }
}

/// All that a file of developers holds.
#[derive(Debug, Clone, Default)]
pub(super) struct DeveloperLists {
    pub(super) developers: Vec<Developer>,
    pub(super) times: Vec<PublishedTimes>,
    pub(super) schemes: Vec<AgitationScheme>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ListsFile {
    #[serde(default)]
    developer: Vec<DeveloperFile>,
    #[serde(default)]
    times: Vec<TimesFile>,
    #[serde(default)]
    agitation: Vec<SchemeFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct DeveloperFile {
    id: Spanned<String>,
    name: Spanned<String>,
    #[serde(default)]
    maker: String,
    #[serde(default)]
    also: Vec<String>,
    #[serde(default)]
    usual: Vec<UsualFile>,
    #[serde(default)]
    stains: bool,
    #[serde(default)]
    note: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct TimesFile {
    id: Spanned<String>,
    agitation: Option<Agitation>,
    #[serde(default)]
    vessel: String,
    source: Option<String>,
    standing: Option<Standing>,
    #[serde(default)]
    remembered: Vec<Unsaid>,
    #[serde(default)]
    note: String,
    rows: Vec<RowFile>,
}

/// What may be from memory in a table that is not.
#[derive(Deserialize, PartialEq)]
#[serde(rename_all = "lowercase")]
enum Unsaid {
    Dilution,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RowFile {
    developer: String,
    film: String,
    dilution: Option<String>,
    speed: Option<u32>,
    #[serde(default)]
    size: String,
    #[serde(default)]
    contrast: String,
    at: BTreeMap<String, String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SchemeFile {
    id: Spanned<String>,
    figure: UsualFile,
    rhythm: Option<RhythmFile>,
    #[serde(default)]
    cue: String,
}

/// Seconds all the time at first, then so many every so many; with nothing of that, all the time.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RhythmFile {
    #[serde(default)]
    first: f64,
    #[serde(default)]
    each: f64,
    every: Option<f64>,
}

/// Reads and checks the lists of one file.
pub(super) fn read(page: &Page<'_>) -> Result<DeveloperLists, ReferenceError> {
    let file: ListsFile = page.read()?;
    let mut lists = DeveloperLists::default();
    for written in file.developer {
        let seen = lists.developers.iter().map(|it| &it.id);
        page.once("developer", &written.id, seen)?;
        lists.developers.push(Developer {
            id: page.id(&written.id)?,
            name: page.text("name", &written.name)?,
            maker: written.maker,
            also: written.also,
            usual: page.usual(written.usual)?,
            stains: written.stains,
            note: written.note,
            origin: page.origin.clone(),
        });
    }
    for written in file.times {
        let seen = lists.times.iter().map(|it| &it.id);
        page.once("table of times", &written.id, seen)?;
        lists.times.push(table(page, written)?);
    }
    for written in file.agitation {
        let seen = lists.schemes.iter().map(|it| &it.id);
        page.once("agitation", &written.id, seen)?;
        let rhythm = match written.rhythm {
            None => None,
            Some(RhythmFile { every: None, .. }) => Some(Rhythm::ALWAYS),
            Some(RhythmFile {
                first,
                each,
                every: Some(every),
            }) => Some(Rhythm::new(first, each, every).map_err(|why| {
                let message = why.to_string();
                page.fault(written.id.span(), Fault::Shape { message })
            })?),
        };
        lists.schemes.push(AgitationScheme {
            id: page.id(&written.id)?,
            rhythm,
            cue: written.cue,
            figure: page.one_usual(written.figure)?,
            origin: page.origin.clone(),
        });
    }
    Ok(lists)
}

fn table(page: &Page<'_>, written: TimesFile) -> Result<PublishedTimes, ReferenceError> {
    let id = page.id(&written.id)?;
    let cite = Cite {
        source: written.source,
        standing: written.standing,
    };
    let (source, standing) = page.cited(&id, written.id.span(), cite)?;
    let rows = rows(written.rows).map_err(|why| {
        let why = why.to_string();
        let id = id.clone();
        page.fault(written.id.span(), Fault::BadTimes { id, why })
    })?;
    Ok(PublishedTimes {
        id,
        agitation: written.agitation,
        vessel: written.vessel,
        grounds: Grounds::new(standing, source),
        dilution_remembered: written.remembered.contains(&Unsaid::Dilution),
        note: written.note,
        rows,
        origin: page.origin.clone(),
    })
}

fn rows(written: Vec<RowFile>) -> Result<Vec<TimesRow>, Impossible> {
    if written.is_empty() {
        return Err(Impossible::new("it has no row: give one film and its time"));
    }
    written.into_iter().map(row).collect()
}

fn row(written: RowFile) -> Result<TimesRow, Impossible> {
    let cell = |(at, time): (&String, &String)| {
        Ok(Cell {
            at: Celsius::parse(at)?,
            time: Seconds::parse(time)?,
        })
    };
    let cells: Result<Vec<Cell>, Impossible> = written.at.iter().map(cell).collect();
    let within = |why: Impossible| {
        Impossible::new(format!("{} in {}: {why}", written.film, written.developer))
    };
    let times = cells.and_then(TimeTable::new).map_err(within)?;
    let dilution = written.dilution.as_deref().map(Dilution::parse);
    let speed = written.speed.map(FilmSpeed::new);
    Ok(TimesRow {
        dilution: dilution.transpose()?,
        speed: speed.transpose()?,
        developer: written.developer,
        film: written.film,
        size: written.size,
        contrast: written.contrast,
        times,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reference::Reference;

    #[test]
    fn every_row_names_a_film_and_a_developer_that_are_there() {
        let reference = Reference::built_in().unwrap();
        assert!(reference.times().len() >= 4);
        for table in reference.times() {
            for row in &table.rows {
                assert!(reference.film(&row.film).is_some(), "{}", row.film);
                assert!(
                    reference.developer(&row.developer).is_some(),
                    "{}",
                    row.developer
                );
            }
        }
    }

    #[test]
    fn a_table_that_cannot_be_is_refused_with_its_id() {
        for (rows, says) in [
            ("[]", "no row"),
            (
                r#"[{ developer = "d-76", film = "x", at = {} }]"#,
                "x in d-76",
            ),
            (
                r#"[{ developer = "d-76", film = "x", at = { 68F = "5:00", 75F = "6:00" } }]"#,
                "never needs longer",
            ),
            (
                r#"[{ developer = "d-76", film = "x", at = { warm = "5:00" } }]"#,
                "a temperature",
            ),
        ] {
            let text = format!("[[times]]\nid = \"odd\"\nstanding = \"usual\"\nrows = {rows}\n");
            let why = read(&Page::built_in("developers.toml", &text)).unwrap_err();
            let why = why.to_string();
            assert!(why.contains("odd") && why.contains(says), "{why}");
        }
    }

    #[test]
    fn what_memory_fills_in_is_marked() {
        let reference = Reference::built_in().unwrap();
        let table = |id: &str| reference.times().iter().find(|it| it.id == id).cloned();
        assert!(table("ilford-dd-x").unwrap().dilution_remembered);
        let by_heart = table("ilford-id-11").unwrap();
        assert_eq!(by_heart.grounds.standing, Standing::Remembered);
    }
}
