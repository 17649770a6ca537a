//! Which table of times is meant: every row that is told of a film in a developer, and the choice among
//! them by what was said of dilution, exposure index, size, agitation and contrast.

use super::chain::Situation;
use super::own;
use crate::craft::development::agitation::Agitation;
use crate::craft::development::contrast::{Expansion, Grain};
use crate::craft::{Amount, Concern, Dilution, FilmSpeed, Remark};
use crate::figures::kit::OwnDevelopment;
use crate::figures::{Given, Problem, Table};
use crate::reference::{Developer, Film, PublishedTimes, Reference, TimesRow};

/// A row with the table it stands in.
#[derive(Clone, Copy)]
pub(super) struct Told<'r> {
    pub(super) table: &'r PublishedTimes,
    pub(super) row: &'r TimesRow,
}

impl Told<'_> {
    /// The change of contrast a row is told for; N where it does not say one.
    pub(super) fn change(&self) -> Expansion {
        Expansion::parse(&self.row.contrast).unwrap_or(Expansion::NORMAL)
    }

    fn can_be(&self, wanted: Option<Agitation>) -> bool {
        wanted != Some(Agitation::Intermittent)
            || self.table.agitation != Some(Agitation::Continuous)
    }
}

/// Every row that a test on film and developer lets through; the user's own first, sheets before rolls.
pub(super) fn rows<'r>(
    reference: &'r Reference,
    wanted: impl Fn(Option<&Film>, Option<&Developer>) -> bool,
) -> Vec<Told<'r>> {
    let mut told: Vec<Told<'r>> = reference
        .times()
        .iter()
        .flat_map(of_table)
        .filter(|told| {
            let film = reference.film(&told.row.film);
            wanted(film, reference.developer(&told.row.developer))
        })
        .collect();
    sort(&mut told);
    told
}

/// The rows of one table.
pub(super) fn of_table(table: &PublishedTimes) -> impl Iterator<Item = Told<'_>> {
    table.rows.iter().map(move |row| Told { table, row })
}

pub(super) fn sort(told: &mut [Told<'_>]) {
    told.sort_by_key(|told| (!told.table.origin.is_own(), told.row.size != "sheets"));
}

/// The film and the developer that are meant, by the reference or by the user's own times alone.
pub(super) struct Meant<'a> {
    pub(super) film: Option<&'a Film>,
    pub(super) film_name: String,
    pub(super) developer: Option<&'a Developer>,
    pub(super) developer_name: String,
}

impl<'a> Meant<'a> {
    /// Reads film and developer. A name the reference does not have will do if there is a time of the
    /// user's own for it.
    pub(super) fn of(given: &Given<'a>, found: &[OwnDevelopment]) -> Result<Meant<'a>, Problem> {
        let reference = given.desk().reference;
        let film_name = given.text("film").ok_or_else(|| given.missing("film"))?;
        let developer_name = given
            .text("developer")
            .ok_or_else(|| given.missing("developer"))?;
        let (film, developer) = (
            reference.film(film_name),
            reference.developer(developer_name),
        );
        let meant = Meant {
            film,
            film_name: film.map_or_else(|| film_name.to_owned(), Film::full_name),
            developer,
            developer_name: developer
                .map_or_else(|| developer_name.to_owned(), Developer::full_name),
        };
        if film.is_none() && !found.iter().any(|one| own::is_film(one, &meant, reference)) {
            let says = format!(
                "no film {film_name} in the reference, or more than one: write its whole name, add it to \
                 the logbook with find-film, or log your own time for it"
            );
            return Err(given.problem("film", says));
        }
        if developer.is_none() && !found.iter().any(|one| own::is_of(one, &meant, reference)) {
            let names: Vec<&str> = reference
                .developers()
                .iter()
                .map(|it| it.name.as_str())
                .collect();
            let says = format!(
                "no developer {developer_name} in the reference, or more than one; there are {}; add \
                 others to developers.toml in the folder of your own reference data, or log your own time",
                names.join(", ")
            );
            return Err(given.problem("developer", says));
        }
        Ok(meant)
    }

    pub(super) fn grain(&self) -> Grain {
        self.film.map_or(Grain::Classic, |film| film.grain)
    }

    pub(super) fn box_speed(&self) -> Option<FilmSpeed> {
        self.film
            .and_then(|film| film.rated())
            .map(|(speed, _)| speed)
    }
}

/// The row that is meant, with what has to be said of it.
pub(super) struct Chosen<'r> {
    pub(super) told: Told<'r>,
    pub(super) remarks: Vec<Remark>,
}

/// The one row that is meant, or the question that is still open.
pub(super) fn chosen<'r>(
    all: &[Told<'r>],
    meant: &Meant<'_>,
    at: &Situation<'_>,
    change: Expansion,
) -> Result<Chosen<'r>, Problem> {
    let given = &at.given;
    if all.is_empty() {
        let says = format!(
            "no time is told for {} in {}: see what there is with the figure \"developers\", log your own \
             time, or add one to developers.toml",
            meant.film_name, meant.developer_name
        );
        return Err(given.problem("developer", says));
    }
    let mut remarks = Vec::new();
    let mut left = all.to_vec();
    if let Some(dilution) = given.may("dilution", Dilution::parse)? {
        left = kept(left, |told| told.row.dilution == Some(dilution))
            .map_err(|was| given.problem("dilution", none_for(dilution, &was, dilution_of)))?;
    }
    let speed = given.may("speed", FilmSpeed::parse)?;
    // A row that names no index is for the speed on the box.
    let boxed = meant.box_speed();
    let fits = |told: &Told<'_>, speed| told.row.speed.or(boxed) == Some(speed);
    if let Some(speed) = speed {
        left = kept(left, |told| fits(told, speed))
            .map_err(|was| given.problem("speed", none_for(speed, &was, speed_of)))?;
    }
    if let Some(size) = given.text("size") {
        let wanted = size.to_lowercase();
        let fits = |of: &str| of.is_empty() || of == wanted;
        left = kept(left, |told| fits(&told.row.size))
            .map_err(|was| given.problem("size", none_for(size, &was, size_of)))?;
    }
    // A time for a tray or a tube cannot be turned into one for a tank, so others go before it.
    let wanted = given.choice("agitation")?.and_then(Agitation::worded);
    prefer(&mut left, |told| told.can_be(wanted));
    prefer(&mut left, |told| told.table.origin.is_own());
    if left.iter().all(|told| told.table.origin.is_own()) {
        let same =
            |told: &Told<'_>, by: Expansion| (told.change().zones() - by.zones()).abs() < 0.05;
        if !prefer(&mut left, |told| same(told, change)) {
            prefer(&mut left, |told| same(told, Expansion::NORMAL));
        }
        prefer(&mut left, |told| {
            told.table.agitation == wanted || wanted.is_none()
        });
    }
    if speed.is_none() {
        let found = at
            .exposed_at
            .is_some_and(|speed| prefer(&mut left, |told| fits(told, speed)));
        if !found {
            // Without a word on exposure the speed on the box is meant.
            prefer(&mut left, |told| {
                told.row.speed.is_none() || told.row.speed == boxed
            });
            remarks.extend(
                at.exposed_at
                    .and_then(|speed| another_index(speed, &left, boxed)),
            );
        }
    }
    if at.sheets && given.text("size").is_none() {
        remarks.extend(for_sheets(&mut left));
    }
    for (key, of) in [
        ("dilution", dilution_of as fn(&Told<'_>) -> String),
        ("speed", speed_of),
        ("size", size_of),
    ] {
        if let Some(says) = open(&left, of) {
            return Err(given.problem(key, says));
        }
    }
    let told = left
        .first()
        .copied()
        .ok_or_else(|| given.problem("developer", "no row of the tables fits all that was said"))?;
    remarks.extend(pushed(told, boxed));
    Ok(Chosen { told, remarks })
}

/// Keeps the rows that fit, if there are any; whether there were.
fn prefer(told: &mut Vec<Told<'_>>, fits: impl Fn(&Told<'_>) -> bool) -> bool {
    let any = told.iter().any(&fits);
    if any {
        told.retain(fits);
    }
    any
}

fn remark(concern: Concern, words: String) -> Remark {
    Remark { concern, words }
}

/// Nothing is told for the index the sheets were exposed at.
fn another_index(speed: FilmSpeed, left: &[Told<'_>], boxed: Option<FilmSpeed>) -> Option<Remark> {
    let row = left.first()?.row.speed.or(boxed)?;
    (row != speed).then(|| {
        let words = format!(
            "nothing is told for an index of {speed}: the time is the one for {row}; an index of your own \
             belongs to a time of your own"
        );
        remark(Concern::Note, words)
    })
}

/// Tables for sheets go before those that say no size, and these before those for rolls.
fn for_sheets(left: &mut Vec<Told<'_>>) -> Option<Remark> {
    if prefer(left, |told| told.row.size == "sheets")
        || prefer(left, |told| told.row.size.is_empty())
    {
        return None;
    }
    let sizes = each(left, size_of).join(" and ");
    // Sheets hang as rolls of 120 do; of one left over it is no matter which is taken.
    prefer(left, |told| told.row.size == "120");
    let words = format!("the table is told for {sizes} and not for sheets: begin with a test");
    Some(remark(Concern::Warning, words))
}

/// An index far from the speed on the box.
fn pushed(told: Told<'_>, boxed: Option<FilmSpeed>) -> Option<Remark> {
    let (speed, boxed) = (told.row.speed?, boxed?);
    let stops = (f64::from(speed.value()) / f64::from(boxed.value())).log2();
    if stops < 0.5 {
        return None;
    }
    let words = format!(
        "pushed: exposed at {speed}, {} over the {boxed} on the box; longer development lifts the lights \
         and the middle, and leaves the shadows where they are",
        crate::craft::Stops::new(stops).map_or_else(|_| "far".to_owned(), |it| it.to_string())
    );
    Some(remark(Concern::Warning, words))
}

/// Those that fit, or all of them back if none does.
fn kept<'r>(
    told: Vec<Told<'r>>,
    fits: impl Fn(&Told<'r>) -> bool,
) -> Result<Vec<Told<'r>>, Vec<Told<'r>>> {
    let left: Vec<Told<'r>> = told.iter().copied().filter(|it| fits(it)).collect();
    if left.is_empty() { Err(told) } else { Ok(left) }
}

fn none_for(
    wanted: impl std::fmt::Display,
    told: &[Told<'_>],
    of: fn(&Told<'_>) -> String,
) -> String {
    format!(
        "no time is told for {wanted}: there is {}",
        each(told, of).join(", ")
    )
}

/// The question that more than one row leaves, if their times are not the same.
fn open(told: &[Told<'_>], of: fn(&Told<'_>) -> String) -> Option<String> {
    let each = each(told, of);
    let first = told.first()?;
    let alike = told.iter().all(|it| it.row.times == first.row.times);
    (each.len() > 1 && !alike).then(|| {
        format!(
            "times are told for more than one: give one of {}",
            each.join(", ")
        )
    })
}

/// What rows say of one thing, each once.
fn each(told: &[Told<'_>], of: fn(&Told<'_>) -> String) -> Vec<String> {
    let mut each: Vec<String> = Vec::new();
    for said in told.iter().map(of) {
        if !each.contains(&said) {
            each.push(said);
        }
    }
    each
}

pub(super) fn dilution_of(told: &Told<'_>) -> String {
    told.row.dilution.map_or_else(not_said, |it| it.to_string())
}

fn speed_of(told: &Told<'_>) -> String {
    told.row.speed.map_or_else(not_said, |it| it.to_string())
}

fn size_of(told: &Told<'_>) -> String {
    let size = &told.row.size;
    if size.is_empty() {
        not_said()
    } else {
        size.clone()
    }
}

fn not_said() -> String {
    "not said".to_owned()
}

/// Rows side by side, one cell a column of temperature in words.
pub(super) fn listed(all: &[Told<'_>]) -> Table {
    let heads = [
        "film",
        "dilution",
        "exposed at",
        "size",
        "times",
        "rests on",
    ];
    let row = |told: &Told<'_>| {
        let times: Vec<String> = told
            .row
            .times
            .cells()
            .map(|cell| format!("{} {}", cell.at, cell.time.clock()))
            .collect();
        vec![
            Amount::words(told.row.film.clone()),
            Amount::words(dilution_of(told)),
            Amount::words(speed_of(told)),
            Amount::words(size_of(told)),
            Amount::words(times.join("  ")),
            Amount::words(told.table.grounds.standing.word()),
        ]
    };
    Table {
        heads: heads.into_iter().map(Into::into).collect(),
        rows: all.iter().map(row).collect(),
    }
}
