//! The time for a film in a developer, from the tables that are told of the two.

use crate::craft::development::agitation::{Agitation, continuous};
use crate::craft::development::temperature::{Rate, estimate, general_grounds};
use crate::craft::{Amount, Celsius, Concern, Dilution, Figure, FilmSpeed, Grounds, Seconds, Step};
use crate::figures::{Answer, Chart, Given, Line, Mark, Problem, Series, Table};
use crate::reference::{Developer, Film, PublishedTimes, Reference, TimesRow};

use super::to_the_second;

/// A row with the table it stands in.
#[derive(Clone, Copy)]
pub(super) struct Told<'r> {
    pub(super) table: &'r PublishedTimes,
    pub(super) row: &'r TimesRow,
}

/// Every row that a test on film and developer lets through; the user's own first, sheets before rolls.
pub(super) fn rows<'r>(
    reference: &'r Reference,
    wanted: impl Fn(Option<&Film>, Option<&Developer>) -> bool,
) -> Vec<Told<'r>> {
    let mut told: Vec<Told<'r>> = reference
        .times()
        .iter()
        .flat_map(|table| table.rows.iter().map(move |row| Told { table, row }))
        .filter(|told| {
            let film = reference.film(&told.row.film);
            wanted(film, reference.developer(&told.row.developer))
        })
        .collect();
    told.sort_by_key(|told| (!told.table.origin.is_own(), told.row.size != "sheets"));
    told
}

pub(super) fn answer(given: &Given<'_>) -> Result<Answer, Problem> {
    let (film, developer) = named(given)?;
    let all = rows(given.desk().reference, |of, by| {
        of.is_some_and(|of| of.id == film.id) && by.is_some_and(|by| by.id == developer.id)
    });
    let told = chosen(&all, film, developer, given)?;
    let temperature = given.may("temperature", Celsius::parse)?;
    let temperature = match temperature {
        Some(temperature) => temperature,
        None => Celsius::new(20.0)?,
    };
    let figure = timed(told, temperature, given)?;
    let figure = agitated(figure, told, given)?;
    let figure = remarked(figure, told);
    let (time, grounds) = (figure.value, figure.grounds.clone());
    let answer = Answer::of(figure, |_| {
        results(told, film, developer, time, temperature, &grounds)
    });
    let answer = answer.table(listed(&all));
    Ok(match chart(told, temperature) {
        Some(chart) => answer.chart(chart),
        None => answer,
    })
}

fn named<'a>(given: &Given<'a>) -> Result<(&'a Film, &'a Developer), Problem> {
    let reference = given.desk().reference;
    let film = given.text("film").ok_or_else(|| given.missing("film"))?;
    let film = reference.film(film).ok_or_else(|| {
        let says = format!(
            "no film {film} in the reference, or more than one: write its whole name, or add it to \
             the logbook with find-film"
        );
        given.problem("film", says)
    })?;
    let developer = given
        .text("developer")
        .ok_or_else(|| given.missing("developer"))?;
    let developer = reference.developer(developer).ok_or_else(|| {
        let names: Vec<&str> = reference.developers().iter().map(|it| it.name.as_str()).collect();
        let says = format!(
            "no developer {developer} in the reference, or more than one; there are {}; add others to \
             developers.toml in the folder of your own reference data",
            names.join(", ")
        );
        given.problem("developer", says)
    })?;
    Ok((film, developer))
}

/// The one row that is meant, or the question that is still open.
fn chosen<'r>(
    all: &[Told<'r>],
    film: &Film,
    developer: &Developer,
    given: &Given<'_>,
) -> Result<Told<'r>, Problem> {
    if all.is_empty() {
        let says = format!(
            "no time is told for {} in {}: see what there is with the figure \"developers\", or add \
             your own to developers.toml",
            film.full_name(),
            developer.full_name()
        );
        return Err(given.problem("developer", says));
    }
    let mut left = all.to_vec();
    if let Some(dilution) = given.may("dilution", Dilution::parse)? {
        left = kept(left, |told| told.row.dilution == Some(dilution))
            .map_err(|was| given.problem("dilution", none_for(dilution, &was, dilution_of)))?;
    }
    let speed = given.may("speed", FilmSpeed::parse)?;
    if let Some(speed) = speed {
        // A row that names no index is for the speed on the box.
        let fits = |of: Option<FilmSpeed>| of.or(box_speed(film)) == Some(speed);
        left = kept(left, |told| fits(told.row.speed))
            .map_err(|was| given.problem("speed", none_for(speed, &was, speed_of)))?;
    }
    if let Some(size) = given.text("size") {
        let wanted = size.to_lowercase();
        let fits = |of: &str| of.is_empty() || of == wanted;
        left = kept(left, |told| fits(&told.row.size))
            .map_err(|was| given.problem("size", none_for(size, &was, size_of)))?;
    }
    if let Some(first) = left.first()
        && first.table.origin.is_own()
    {
        left.retain(|told| told.table.origin.is_own());
    }
    if speed.is_none() {
        // Without a word on exposure the speed on the box is meant.
        let boxed = |told: &Told<'_>| told.row.speed.is_none() || told.row.speed == box_speed(film);
        if left.iter().any(boxed) {
            left.retain(boxed);
        }
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
    left.first()
        .copied()
        .ok_or_else(|| given.problem("developer", "no row of the tables fits all that was said"))
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

fn box_speed(film: &Film) -> Option<FilmSpeed> {
    film.rated().map(|(speed, _)| speed)
}

fn dilution_of(told: &Told<'_>) -> String {
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

/// The time at the temperature: from the table, or as an estimate if one was asked for.
fn timed(
    told: Told<'_>,
    temperature: Celsius,
    given: &Given<'_>,
) -> Result<Figure<Seconds>, Problem> {
    let times = &told.row.times;
    match times.at(temperature, &told.table.grounds) {
        Ok(figure) => Ok(figure),
        Err(_) if given.choice("estimate")? == Some("yes") => {
            let nearest = times.nearest(temperature);
            let mut figure = estimate(nearest, temperature, Rate::GENERAL, general_grounds())
                .map_err(|why| given.problem("temperature", why.to_string()))?;
            if let Some(first) = figure.steps.first_mut() {
                first.grounds = Some(told.table.grounds.clone());
            }
            // The time is no better than the law that carried it.
            figure.grounds = general_grounds();
            Ok(figure)
        }
        Err(why) => Err(given.problem("temperature", why.to_string())),
    }
}

/// The same time for the agitation that is meant.
fn agitated(
    figure: Figure<Seconds>,
    told: Told<'_>,
    given: &Given<'_>,
) -> Result<Figure<Seconds>, Problem> {
    let wanted = given.choice("agitation")?.and_then(Agitation::worded);
    let Some(wanted) = wanted else {
        return Ok(figure);
    };
    match (wanted, told.table.agitation) {
        (Agitation::Intermittent, Some(Agitation::Continuous)) => {
            let says = "the table is for agitation all the time, and nothing is told for a tank: take \
                        the time as it is for a tray or rotary tube, or look for another table";
            Err(given.problem("agitation", says))
        }
        (Agitation::Continuous, was @ (None | Some(Agitation::Intermittent))) => {
            let shorter = continuous(figure.value, Agitation::Intermittent)?;
            let mut figure = Figure {
                value: shorter.value,
                grounds: Grounds::usual(),
                steps: figure.steps.into_iter().chain(shorter.steps).collect(),
                ..figure
            };
            if was.is_none() {
                figure = figure.remark(
                    Concern::Warning,
                    "the table does not say how film is agitated: agitation now and then is assumed",
                );
            }
            Ok(figure)
        }
        _ => Ok(figure),
    }
}

fn remarked(figure: Figure<Seconds>, told: Told<'_>) -> Figure<Seconds> {
    let mut figure = figure;
    if let Some(dilution) = told.row.dilution
        && told.table.dilution_remembered
    {
        let step = Step::new("dilution", Amount::words(dilution.to_string()));
        figure = figure.step(step.on(Grounds::remembered("dilution of the table, from memory")));
    }
    if !told.table.note.is_empty() {
        figure = figure.remark(Concern::Note, told.table.note.clone());
    }
    if figure.value.value() < 300.0 {
        let words = "shorter than 5 min development becomes uneven: dilute further or work cooler where \
                     a time is told for it";
        figure = figure.remark(Concern::Warning, words);
    }
    figure
}

fn results(
    told: Told<'_>,
    film: &Film,
    developer: &Developer,
    time: Seconds,
    temperature: Celsius,
    grounds: &Grounds,
) -> Vec<Line> {
    let dilution = match told.row.dilution {
        Some(dilution) => format!(" {dilution}"),
        None => String::new(),
    };
    let what = format!(
        "{} in {}{dilution}",
        film.full_name(),
        developer.full_name()
    );
    let mut lines = vec![
        Line::new("develop", Amount::Time(to_the_second(time))).on(grounds.clone()),
        Line::new("at", Amount::number(temperature.value(), "C", 1)),
        Line::new("film and developer", Amount::words(what)),
    ];
    let mut said = |name: &'static str, words: String| {
        if !words.is_empty() {
            lines.push(Line::new(name, Amount::words(words)).on(told.table.grounds.clone()));
        }
    };
    said(
        "exposed at",
        told.row.speed.map(|it| it.to_string()).unwrap_or_default(),
    );
    said("contrast", told.row.contrast.clone());
    said("told for", told.table.vessel.clone());
    if let Some(fit) = told.row.times.fit() {
        let percent = 100.0 * (1.0 - fit.rate.factor(1.0));
        let line = Line::new("a degree warmer takes off", Amount::number(percent, "%", 1));
        lines.push(line.on(told.table.grounds.clone()));
    }
    lines
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

/// The cells of a row against temperature.
fn chart(told: Told<'_>, temperature: Celsius) -> Option<Chart> {
    let points: Vec<(f64, f64)> = told
        .row
        .times
        .cells()
        .map(|cell| (cell.at.value(), cell.time.value() / 60.0))
        .collect();
    (points.len() > 1).then(|| Chart {
        x: "temperature, C".into(),
        y: "time, min".into(),
        series: vec![Series {
            name: "told".into(),
            points,
        }],
        marks: vec![Mark {
            x: temperature.value(),
            name: temperature.to_string().into(),
        }],
    })
}
