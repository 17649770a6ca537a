//! Which laws of reciprocity there are for a film, the one to trust first.
//!
//! For: the chain from meter to shutter and the recipe of the same name. The order is that of trust:
//! what the user found out, what the maker published, what others published, what is usual, what is
//! remembered. Laws that disagree are all given; choosing silently would hide that they do.

use crate::craft::reciprocity::{Corrected, Form, Law, Point, Table, Told, correct};
use crate::craft::{Figure, Grounds, Impossible, Seconds, Stops};
use crate::reference::{Film, FilmLaw};

use super::ask::Desk;
use super::kit::OwnTime;

/// A law with its name.
#[derive(Debug, Clone, PartialEq)]
pub struct NamedLaw {
    /// Who says it, and its form: `Ilford, t^1.31`, `own, 3 findings`.
    pub name: String,
    /// The law.
    pub law: Law,
    /// What it rests on as a whole; single rows of a table may rest on less.
    pub grounds: Grounds,
    /// Whether the maker of the film says it.
    pub by_maker: bool,
}

impl NamedLaw {
    fn of(told: &FilmLaw) -> NamedLaw {
        NamedLaw {
            name: told.name.clone(),
            law: told.law.clone(),
            grounds: told.law.grounds.clone(),
            by_maker: told.by_maker,
        }
    }

    /// What makes up for the loss at `metered` by this law.
    ///
    /// # Errors
    /// Those of [`correct`], with the name of the law before them.
    pub fn correct(&self, metered: Seconds) -> Result<Figure<Corrected>, Impossible> {
        let named = |why: Impossible| Impossible::new(format!("{}: {why}", self.name));
        correct(&self.law, metered).map_err(named)
    }
}

/// The laws of a film, the one to trust first; none where nothing is known.
///
/// `film` is a name as it stands on a box or is typed; the film need not be in the reference to have
/// findings of the user's own.
pub fn laws_for(film: &str, desk: &Desk<'_>) -> Vec<NamedLaw> {
    let known = desk.reference.film(film);
    let mut laws: Vec<NamedLaw> = known
        .map(|film| desk.reference.laws_of(film).map(NamedLaw::of).collect())
        .unwrap_or_default();
    // Stable: within one rank the order is that of the files.
    laws.sort_by_key(|law| std::cmp::Reverse((law.grounds.standing, law.by_maker)));
    let start = laws.iter().find_map(|law| law.law.starts());
    if let Some(own) = own_law(film, known, start, desk) {
        laws.insert(0, own);
    }
    laws
}

/// Rough guides to any film, for whoever asks for one.
pub fn laws_for_any_film(desk: &Desk<'_>) -> Vec<NamedLaw> {
    desk.reference
        .laws_of_any_film()
        .map(NamedLaw::of)
        .collect()
}

/// Why nothing can be reckoned for a film, and what would do.
pub fn nothing_known(film: &str, desk: &Desk<'_>) -> Impossible {
    let known = desk.reference.film(film);
    if known.is_none() {
        let names: Vec<String> = desk
            .reference
            .films_like(film)
            .iter()
            .map(|it| it.full_name())
            .collect();
        if !names.is_empty() {
            let names = names.join(" or ");
            return Impossible::new(format!("{film} could be {names}: write which"));
        }
    }
    let note = known.map_or("", |film| &film.note);
    let note = if note.is_empty() {
        String::new()
    } else {
        format!(" ({})", note.trim_end_matches('.'))
    };
    Impossible::new(format!(
        "no reciprocity data for {film}{note}: test it, or log what you found"
    ))
}

/// How far apart several corrections of one metered time lie, from the least to the most.
pub fn apart<'c>(corrections: impl IntoIterator<Item = &'c Corrected>) -> Option<Stops> {
    let gains = corrections.into_iter().map(|c| c.stops.value());
    let (least, most) = gains.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), gain| {
        (least.min(gain), most.max(gain))
    });
    Stops::new(most - least).ok()
}

/// The user's own findings of a film as a table, from where the published loss begins.
fn own_law(
    film: &str,
    known: Option<&Film>,
    start: Option<Seconds>,
    desk: &Desk<'_>,
) -> Option<NamedLaw> {
    let is_it = |found: &&OwnTime| match (known, desk.reference.film(&found.film)) {
        (Some(known), Some(other)) => known.id == other.id,
        _ => found.film.trim().eq_ignore_ascii_case(film.trim()),
    };
    let findings = desk.kit.findings().times;
    let found: Vec<&OwnTime> = findings.iter().filter(is_it).collect();
    let latest = found.iter().map(|found| found.on).max()?;
    let mut points: Vec<Point> = Vec::new();
    let mut table = None;
    // The latest finding stands; an older one that contradicts it is left out.
    for one in found.iter().rev() {
        let grounds = Grounds::own(format!("own, found {}", one.on));
        let point = Point {
            metered: one.metered,
            time: Some(Told::new(one.needed, grounds.clone())),
            open: None,
            development: one
                .development
                .clone()
                .map(|words| Told::new(words, grounds)),
        };
        let place = points.partition_point(|other| other.metered < point.metered);
        let mut with = points.clone();
        with.insert(place, point);
        // A loss that was found where the texts see none yet begins earlier than they say.
        let first = with.first().map(|point| point.metered);
        let start = start.filter(|start| first.is_some_and(|first| *start < first));
        if let Ok(fits) = Table::new(None, start, with.clone()) {
            (points, table) = (with, Some(fits));
        }
    }
    let table = table?;
    let count = table.rows();
    let findings = if count == 1 { "finding" } else { "findings" };
    let grounds = Grounds::own(format!("own, latest found {latest}"));
    Some(NamedLaw {
        name: format!("own, {count} {findings}"),
        law: Law::new(Form::Table(table), grounds.clone()),
        grounds,
        by_maker: false,
    })
}

#[cfg(test)]
mod tests {
    use chrono::{DateTime, NaiveDate};

    use super::*;
    use crate::craft::Standing;
    use crate::figures::{CameraRecord, Findings, Kit, LensRecord, NoKit};
    use crate::reference::Reference;

    fn s(text: &str) -> Seconds {
        Seconds::parse(text).unwrap()
    }

    struct Found(Vec<OwnTime>);

    impl Kit for Found {
        fn lens(&self, _reference: &str) -> Option<LensRecord> {
            None
        }
        fn camera(&self, _reference: &str) -> Option<CameraRecord> {
            None
        }
        fn findings(&self) -> Findings {
            Findings {
                times: self.0.clone(),
                ..Findings::default()
            }
        }
    }

    fn found(film: &str, metered: &str, needed: &str, day: u32) -> OwnTime {
        OwnTime {
            film: film.to_owned(),
            metered: s(metered),
            needed: s(needed),
            development: None,
            on: NaiveDate::from_ymd_opt(2026, 3, day).unwrap(),
        }
    }

    fn laws(film: &str, times: Vec<OwnTime>) -> Vec<NamedLaw> {
        let reference = Reference::built_in().unwrap();
        let now = DateTime::parse_from_rfc3339("2026-03-04T16:02:00+01:00").unwrap();
        laws_for(film, &Desk::new(&reference, &Found(times), now))
    }

    #[test]
    fn the_maker_comes_before_others_and_memory_last() {
        let names: Vec<String> = laws("HP5+", vec![]).into_iter().map(|l| l.name).collect();
        assert_eq!(
            names,
            ["Ilford, t^1.31", "Bond and Gainer, t + 0.101 t^1.62"]
        );
    }

    #[test]
    fn what_is_remembered_of_a_maker_comes_after_what_others_published() {
        let folder = tempfile::TempDir::new().unwrap();
        let law = |id: &str, standing: &str, maker: bool| {
            format!(
                "[[law]]\nid = \"{id}\"\nname = \"{id}\"\nfilms = [\"hp5+\"]\nby_maker = {maker}\n\
                 power = 1.2\nsource = \"a text\"\nstanding = \"{standing}\"\n"
            )
        };
        let text = law("memory", "remembered", true) + &law("habit", "usual", false);
        let mine = law("mine", "own", false);
        std::fs::write(folder.path().join("reciprocity.toml"), text + &mine).unwrap();
        let reference = Reference::built_in().unwrap();
        let (reference, problems) = reference.with_folder(folder.path());
        assert!(problems.is_empty(), "{problems:?}");
        let now = DateTime::parse_from_rfc3339("2026-03-04T16:02:00+01:00").unwrap();
        let laws = laws_for("HP5 Plus", &Desk::new(&reference, &NoKit, now));
        let names: Vec<&str> = laws.iter().map(|law| law.name.as_str()).collect();
        let wanted = [
            "mine",
            "Ilford, t^1.31",
            "Bond and Gainer, t + 0.101 t^1.62",
            "habit",
            "memory",
        ];
        assert_eq!(names, wanted);
    }

    #[test]
    fn a_film_nobody_has_written_about_has_no_law_and_gets_a_sentence() {
        assert!(laws("CHS 100 II", vec![]).is_empty());
        assert!(laws("Quarry Ortho", vec![]).is_empty());
        let reference = Reference::built_in().unwrap();
        let now = DateTime::parse_from_rfc3339("2026-03-04T16:02:00+01:00").unwrap();
        let desk = Desk::new(&reference, &NoKit, now);
        assert_eq!(
            nothing_known("Quarry Ortho", &desk).to_string(),
            "no reciprocity data for Quarry Ortho: test it, or log what you found"
        );
        let portra = nothing_known("Portra 400", &desk).to_string();
        assert!(portra.contains("Kodak gives no figures"), "{portra}");
    }

    #[test]
    fn own_findings_go_first_and_are_drawn_straight_between() {
        let times = vec![
            found("HP5 Plus", "10", "16", 1),
            found("fp4", "10", "12", 1),
            found("hp5+", "100", "250", 2),
        ];
        let laws = laws("HP5+", times);
        assert_eq!(laws[0].name, "own, 2 findings");
        assert_eq!(laws[0].grounds.standing, Standing::Own);
        let at = |metered| laws[0].correct(s(metered)).unwrap().value.time.unwrap();
        assert!((at("10").value() - 16.0).abs() < 1e-9);
        let middle = at("31.6228").value();
        assert!(
            (middle - (16.0_f64 * 250.0).sqrt()).abs() < 0.01,
            "{middle}"
        );
        assert_eq!(at("1"), s("1"), "where the maker sees no loss yet");
        assert_eq!(laws.len(), 3);
    }

    #[test]
    fn a_film_out_of_no_list_is_reckoned_from_own_findings_alone() {
        let times = vec![found("Quarry Ortho", "8", "20", 1)];
        let laws = laws("quarry ortho", times);
        assert_eq!(laws.len(), 1);
        assert!((laws[0].correct(s("8")).unwrap().value.time.unwrap().value() - 20.0).abs() < 1e-9);
        assert!(laws[0].correct(s("30")).unwrap().value.beyond);
    }

    #[test]
    fn the_latest_finding_stands_and_what_contradicts_it_is_left_out() {
        let times = vec![
            found("HP5+", "10", "40", 1),
            found("HP5+", "20", "30", 2),
            found("HP5+", "5", "4", 3),
            found("HP5+", "10", "18", 4),
        ];
        let laws = laws("HP5+", times);
        assert_eq!(laws[0].name, "own, 2 findings");
        let at = |metered| laws[0].correct(s(metered)).unwrap().value.time.unwrap();
        assert!((at("10").value() - 18.0).abs() < 1e-9);
        assert!((at("20").value() - 30.0).abs() < 1e-9);
    }

    #[test]
    fn how_far_laws_lie_apart_is_the_span_of_their_stops() {
        let laws = laws("HP5+", vec![]);
        let at: Vec<Corrected> = laws
            .iter()
            .map(|law| law.correct(s("30")).unwrap().value)
            .collect();
        assert!((apart(&at).unwrap().value() - 0.65).abs() < 0.01);
        assert_eq!(apart([]), None);
    }
}
