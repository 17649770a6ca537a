//! A side in words: as short as its place in the rack asks for, and in full.

use chrono::{DateTime, FixedOffset};

use crate::export::shown::{shown_line, width};
use crate::logbook::follows::{ago, since};
use crate::store::rows::{HolderRow, SideRow};
use crate::tui::browse::KeyNames;
use crate::tui::theme::Role;

type Moment = DateTime<FixedOffset>;

/// Cells from which a side says what it is in whole words, and what its picture is of.
const ROOMY: usize = 30;

/// What a side holds, in so many cells.
pub(super) fn in_words(side: &SideRow, now: Moment, room: usize) -> (String, Role) {
    if side.doubt.is_some() {
        let film = film_forms(side);
        let film = film.first().map(String::as_str).unwrap_or_default();
        let long = format!("IN DOUBT  {} {film}", side.state);
        return (fitting([long, "IN DOUBT".to_owned()], room), Role::Doubt);
    }
    match side.state.as_str() {
        "loaded" => {
            let films = film_forms(side);
            let long = films.first().map(|film| format!("loaded  {film}"));
            let forms = long.filter(|_| room >= ROOMY).into_iter().chain(films);
            (fitting(forms, room), Role::Text)
        }
        "being exposed" => (being_exposed(side, now, room), Role::Warn),
        "exposed" => (exposed(side, now, room), Role::Accent),
        "fogged" => {
            let film = film_forms(side).into_iter().next().unwrap_or_default();
            let long = format!("fogged  {film}");
            let long = Some(long).filter(|_| room >= ROOMY);
            let forms = long.into_iter().chain(["fogged".to_owned()]);
            (fitting(forms, room), Role::Warn)
        }
        other => (other.to_owned(), Role::Quiet),
    }
}

/// A shutter that was opened and is not closed by the log stands out until it is.
fn being_exposed(side: &SideRow, now: Moment, room: usize) -> String {
    let age = side.since.map(|at| ago(at, now)).unwrap_or_default();
    let film = film_forms(side).into_iter().next().unwrap_or_default();
    let roomy = Some(format!("BEING EXPOSED  {age}  {film}")).filter(|_| room >= ROOMY);
    let forms = [
        format!("BEING EXPOSED {age}"),
        "BEING EXPOSED".to_owned(),
        format!("OPEN {}", short_age(&age)),
        "OPEN".to_owned(),
    ];
    fitting(roomy.into_iter().chain(forms), room)
}

fn exposed(side: &SideRow, now: Moment, room: usize) -> String {
    let age = side.exposed.map(|at| ago(at, now)).unwrap_or_default();
    let short = short_age(&age);
    let times = match side.exposures {
        0 | 1 => String::new(),
        more => format!(" x{more}"),
    };
    let mut forms = Vec::new();
    if room >= ROOMY {
        let film = film_forms(side).into_iter().next().unwrap_or_default();
        let subject = side.subject.as_deref().unwrap_or_default();
        let said = [film.as_str(), subject]
            .into_iter()
            .filter(|it| !it.is_empty());
        for count in [2, 1] {
            let said: Vec<&str> = said.clone().take(count).collect();
            forms.push(format!("exposed{times}  {age}  {}", said.join("  ")));
        }
    }
    forms.push(format!("exposed{times} {age}"));
    forms.push(format!("exposed{times} {short}"));
    forms.push(format!("exp.{times} {short}"));
    fitting(forms, room)
}

/// The first form that fits, else the last.
fn fitting(forms: impl IntoIterator<Item = String>, room: usize) -> String {
    let mut last = String::new();
    for form in forms {
        let form = form.trim_end().to_owned();
        if width(&shown_line(&form)) <= room {
            return form;
        }
        last = form;
    }
    last
}

/// An age with its unit as short as it is still read: `12 d`.
fn short_age(age: &str) -> String {
    age.replace(" days", " d").replace(" day", " d")
}

/// The film with the speed it is used at, from the longest form to the shortest.
fn film_forms(side: &SideRow) -> Vec<String> {
    let film = side.film.as_deref().unwrap_or_default();
    let Some(speed) = side.speed else {
        return vec![film.to_owned(), short_film(film)];
    };
    let short = short_film(film);
    vec![
        format!("{film} @{speed}"),
        format!("{short} @{speed}"),
        short.clone(),
    ]
}

/// A film's name without what every one of its makers writes behind it.
fn short_film(film: &str) -> String {
    let words: Vec<&str> = film
        .split_whitespace()
        .filter(|word| !matches!(*word, "Plus" | "Professional" | "Film"))
        .collect();
    if words.is_empty() {
        film.to_owned()
    } else {
        words.join(" ")
    }
}

/// Everything known of a side: what contradicts the log first, then what is in it, then the holder.
pub(super) fn in_full(side: &SideRow, holder: [&str; 2], now: Moment) -> String {
    let mut words = Vec::new();
    if let Some(doubt) = &side.doubt {
        words.push(format!(
            "IN DOUBT: the log says {}, the slide was seen {} side out {}",
            side.state,
            doubt.seen.word(),
            since(doubt.at, now)
        ));
    } else {
        words.push(match side.exposed {
            _ if side.state == "being exposed" => match side.since {
                Some(begun) => format!("being exposed, the shutter opened {}", since(begun, now)),
                None => side.state.clone(),
            },
            Some(exposed) if side.exposures > 1 => {
                format!(
                    "exposed {} times, first {}",
                    side.exposures,
                    since(exposed, now)
                )
            }
            Some(exposed) if side.state == "exposed" => {
                format!("exposed {}", since(exposed, now))
            }
            _ => side.state.clone(),
        });
    }
    words.extend(side.sheet_reference.clone());
    if side.film.is_some() {
        words.extend(film_forms(side).into_iter().next());
    }
    words.extend(side.subject.clone());
    if let (None, Some(slide)) = (&side.doubt, side.slide) {
        words.push(format!("slide {} out", slide.word()));
    }
    words.extend(holder.iter().map(|word| (*word).to_owned()));
    words.retain(|word| !word.is_empty());
    words.join(", ")
}

/// How many sides there are in each state; where nothing is loaded yet, what to do.
pub(super) fn counts<'s>(
    sides: impl Iterator<Item = &'s SideRow>,
    now: Moment,
    keys: &KeyNames<'_>,
) -> String {
    let sides: Vec<&SideRow> = sides.collect();
    // A side in doubt is counted as that alone.
    let count = |state: &str| {
        let sure = sides.iter().filter(|side| side.doubt.is_none());
        sure.filter(|side| side.state == state).count()
    };
    if count("empty") == sides.len() {
        return format!(
            "every side is empty: {} loads the one at the cursor",
            keys("log.load")
        );
    }
    let oldest = sides.iter().filter_map(|side| side.exposed).min();
    let doubtful = sides.iter().filter(|side| side.doubt.is_some()).count();
    let mut words = vec![format!("{} loaded", count("loaded"))];
    words.push(match oldest {
        Some(oldest) if count("exposed") > 0 => {
            format!("{} exposed, oldest {}", count("exposed"), ago(oldest, now))
        }
        _ => format!("{} exposed", count("exposed")),
    });
    if count("being exposed") > 0 {
        words.insert(0, format!("{} BEING EXPOSED", count("being exposed")));
    }
    if count("fogged") > 0 {
        words.push(format!("{} fogged", count("fogged")));
    }
    if doubtful > 0 {
        words.push(format!("{doubtful} IN DOUBT"));
    }
    words.push(format!("{} empty", count("empty")));
    words.join("   ")
}

/// Whether a holder or one of its sides has every one of the words. A bare number means the holder
/// with that number.
pub(super) fn is_meant(holder: &HolderRow, words: &str) -> bool {
    let mut text = format!(
        "{} {} {}",
        holder.reference,
        holder.size.map(|size| size.to_string()).unwrap_or_default(),
        holder.make.as_deref().unwrap_or_default(),
    );
    for side in &holder.sides {
        for part in [
            Some(side.reference.as_str()),
            Some(side.state.as_str()),
            side.doubt.map(|_| "in doubt"),
            side.film.as_deref(),
            side.sheet_reference.as_deref(),
            side.subject.as_deref(),
        ] {
            text.push(' ');
            text.push_str(part.unwrap_or_default());
        }
    }
    let text = text.to_lowercase();
    let number = holder
        .reference
        .trim_start_matches(|c: char| !c.is_ascii_digit())
        .trim_start_matches('0');
    words.split_whitespace().all(|word| {
        let bare = !word.is_empty() && word.chars().all(|c| c.is_ascii_digit());
        if bare {
            return number.starts_with(word.trim_start_matches('0'));
        }
        text.contains(word)
    })
}
