//! The user's own developing times in the form of tables, so that they are reckoned with as all others.

use super::rows::Meant;
use crate::craft::Grounds;
use crate::craft::development::temperature::{Cell, TimeTable};
use crate::figures::kit::OwnDevelopment;
use crate::reference::{Origin, PublishedTimes, Reference, TimesRow};

/// Whether a time was found with the film that is meant.
pub(super) fn is_film(found: &OwnDevelopment, meant: &Meant<'_>, reference: &Reference) -> bool {
    match (meant.film, reference.film(&found.film)) {
        (Some(film), Some(other)) => film.id == other.id,
        _ => alike(&found.film, &meant.film_name),
    }
}

/// Whether a time was found with the film and the developer that are meant.
pub(super) fn is_of(found: &OwnDevelopment, meant: &Meant<'_>, reference: &Reference) -> bool {
    let developer = match (meant.developer, reference.developer(&found.developer)) {
        (Some(developer), Some(other)) => developer.id == other.id,
        _ => alike(&found.developer, &meant.developer_name),
    };
    developer && is_film(found, meant, reference)
}

fn alike(one: &str, other: &str) -> bool {
    one.trim().to_lowercase() == other.trim().to_lowercase()
}

/// The user's own times of the film in the developer, a table for everything that was found alike but
/// for the temperature. The latest finding stands; an older one that contradicts it is left out.
pub(super) fn tables(
    found: &[OwnDevelopment],
    meant: &Meant<'_>,
    reference: &Reference,
) -> Vec<PublishedTimes> {
    let mut left: Vec<&OwnDevelopment> = found
        .iter()
        .rev()
        .filter(|one| is_of(one, meant, reference))
        .collect();
    let mut tables = Vec::new();
    while let Some(first) = left.first().copied() {
        let like = |other: &&OwnDevelopment| {
            other.dilution == first.dilution
                && other.agitation == first.agitation
                && other.speed == first.speed
                && other.contrast == first.contrast
        };
        let mut cells: Vec<Cell> = Vec::new();
        let mut times = None;
        for one in left.iter().filter(|it| like(it)) {
            let mut more = cells.clone();
            more.push(Cell {
                at: one.temperature,
                time: one.time,
            });
            if let Ok(table) = TimeTable::new(more.clone()) {
                cells = more;
                times = Some(table);
            }
        }
        tables.extend(times.map(|times| table(first, times)));
        left.retain(|other| !like(other));
    }
    tables
}

fn table(found: &OwnDevelopment, times: TimeTable) -> PublishedTimes {
    PublishedTimes {
        id: "own".to_owned(),
        agitation: found.agitation,
        vessel: String::new(),
        grounds: Grounds::own(format!("own time, found {}", found.on.format("%-d %b %Y"))),
        dilution_remembered: false,
        note: String::new(),
        rows: vec![TimesRow {
            developer: found.developer.clone(),
            film: found.film.clone(),
            dilution: found.dilution,
            speed: found.speed,
            size: String::new(),
            contrast: found.contrast.to_string(),
            times,
        }],
        origin: Origin::Logbook,
    }
}
