//! What the filters in front of a lens take, from what was typed in one field.
//!
//! For: the exposure chain and the figure of filters. Promises: a strength that was written beside a
//! name is taken at its word; otherwise the user's own finding goes first, that for this film and light
//! before a general one, for neutral filters also before the strength in their name, then what the reference puts first ([`Reference::taken`]); where sources disagree the
//! others stand in the working. A filter nobody has a number for is a [`Problem`] that says how to
//! write its factor.
//!
//! [`Reference::taken`]: crate::reference::Reference::taken

use super::{Desk, OwnFilter, Problem};
use crate::craft::filter::{Worn, stack as read_stack};
use crate::craft::{Amount, Grounds, Standing, Step, Stops};
use crate::reference::filter::{Filter, LightKind, Reach, Taken};

/// Sources that lie closer than this say the same, in stops.
const SAME: f64 = 0.1;
/// The most other sources named in a working.
const OTHERS: usize = 3;

/// The filters of one field as steps, each with the stops it takes, its working and what that rests
/// on; no steps for an empty field or `none`.
///
/// `film` and `light` are as the user calls them; a light that names a lamp is tungsten, any other
/// daylight.
///
/// # Errors
/// If a filter cannot be read, could mean two things, or has no number for this film and light.
pub fn stack(
    text: &str,
    film: Option<&str>,
    light: Option<&str>,
    desk: &Desk<'_>,
) -> Result<Vec<Step>, Problem> {
    let light = light.map_or(LightKind::Daylight, LightKind::told);
    let worn = read_stack(text)?;
    let own = if worn.iter().any(asks_for_a_finding) {
        desk.kit.findings().filters
    } else {
        Vec::new()
    };
    let film = film.map(str::trim).filter(|film| !film.is_empty());
    let at = At {
        film,
        light,
        desk,
        own: &own,
    };
    worn.iter().map(|one| at.step(one)).collect()
}

/// Whether what a filter takes may have been found out, because it was not written beside its name.
fn asks_for_a_finding(worn: &Worn) -> bool {
    worn.strength.is_none() || worn.by_name
}

/// What a filter is looked up for.
struct At<'a> {
    film: Option<&'a str>,
    light: LightKind,
    desk: &'a Desk<'a>,
    own: &'a [OwnFilter],
}

impl At<'_> {
    fn step(&self, worn: &Worn) -> Result<Step, Problem> {
        let known = self.desk.reference.filter(&worn.name);
        let name = match known {
            Some(filter) => filter.name.clone(),
            None if worn.name.is_empty() => "filter".to_owned(),
            None => match worn.name.strip_prefix("nd") {
                Some(rest) => format!("ND{rest}"),
                None => worn.name.clone(),
            },
        };
        let found = if asks_for_a_finding(worn) {
            self.own_finding(worn)
        } else {
            None
        };
        if let Some(found) = found {
            return Ok(own_step(name, found));
        }
        if let Some(strength) = worn.strength {
            return Ok(Step::new(name, Amount::Stops(strength.in_stops()))
                .working(format!("as written, {}", strength.working())));
        }
        let Some(filter) = known else {
            return Err(self.unknown(&worn.name));
        };
        let sources = self.desk.reference.taken(filter, self.film, self.light);
        let Some((first, others)) = sources.split_first() else {
            return Err(self.without_number(filter));
        };
        let (reach, taken) = *first;
        let mut working = self.told(taken, reach);
        let others = differing(taken, reach, others);
        if !others.is_empty() {
            let others: Vec<String> = others
                .iter()
                .map(|(reach, taken)| {
                    let source = match taken.grounds.standing {
                        Standing::Published => taken.grounds.source.as_ref(),
                        standing => standing.word(),
                    };
                    format!("{} ({source})", self.told(taken, *reach))
                })
                .collect();
            working = format!("{working}; others say {}", others.join("; "));
        }
        Ok(Step::new(name, Amount::Stops(taken.stops))
            .working(working)
            .on(grounds_here(taken, reach)))
    }

    /// The user's own finding that comes nearest: film and light, film, light, any; of several the
    /// latest.
    fn own_finding(&self, worn: &Worn) -> Option<&OwnFilter> {
        let reference = self.desk.reference;
        let same_name = |own: &OwnFilter| reference.same_filter(&own.filter, &worn.name);
        let fits = |own: &&OwnFilter| {
            let film = match (&own.film, self.film) {
                (None, _) => true,
                (Some(own), Some(film)) => reference.same_film(own, film),
                (Some(_), None) => false,
            };
            let light = own.light.as_deref().map(LightKind::told);
            film && light.is_none_or(|it| it == self.light)
                && (same_name(own) || same_neutral(&own.filter, worn))
        };
        // The glass that goes by this very name goes before another one as dark.
        let special = |own: &&OwnFilter| {
            let named = same_name(own);
            (named, own.film.is_some(), own.light.is_some(), own.on)
        };
        self.own.iter().filter(fits).max_by_key(special)
    }

    /// What a source says and for what: `x8 for T-MAX 100 and T-MAX 400 in daylight`.
    fn told(&self, taken: &Taken, reach: Reach) -> String {
        let mut told = match taken.factor {
            Some((low, Some(high))) => format!(
                "{} to {}, the middle {}",
                Amount::Factor(low),
                Amount::Factor(high),
                taken.stops
            ),
            Some((factor, None)) => Amount::Factor(factor).to_string(),
            None => taken.stops.to_string(),
        };
        let films = match (reach, self.film, taken.films.as_slice()) {
            (Reach::ThisFilm, Some(film), _) => film.to_owned(),
            (_, _, []) if taken.maker.is_empty() => String::new(),
            (_, _, []) => format!("{} films", taken.maker),
            (_, _, films) => films.join(" and "),
        };
        if !films.is_empty() {
            told = format!("{told} for {films}");
        }
        if let Some(light) = taken.light {
            told = match light {
                LightKind::Daylight => format!("{told} in daylight"),
                LightKind::Tungsten => format!("{told} in tungsten light"),
            };
        }
        if !taken.note.is_empty() {
            let note = taken.note.trim_end_matches('.');
            told = format!("{told} ({note})");
        }
        told
    }

    fn unknown(&self, name: &str) -> Problem {
        let example = if name.is_empty() { "amber" } else { name };
        Problem::of_all(format!(
            "no number is known for the filter \"{name}\": write its factor or its stops beside it, \
             {example} x3 or {example} +1 1/2"
        ))
    }

    /// The filter is known, but not for this film and light.
    fn without_number(&self, filter: &Filter) -> Problem {
        let other = match self.light {
            LightKind::Daylight => LightKind::Tungsten,
            LightKind::Tungsten => LightKind::Daylight,
        };
        let name = &filter.name;
        let write = format!("write the factor you found beside it, {name} x3");
        let in_other = self.desk.reference.taken(filter, self.film, other);
        if let Some((reach, taken)) = in_other.first() {
            return Problem::of_all(format!(
                "{name} is known only as {}, not in {} light: {write}",
                self.told(taken, *reach),
                self.light
            ));
        }
        match self.film {
            Some(film) if !filter.takes.is_empty() => Problem::of_all(format!(
                "the numbers known for {name} are for panchromatic film, and {film} does not see all \
                 colours: {write}"
            )),
            _ => Problem::of_all(format!("no number is known for {name}: {write}")),
        }
    }
}

/// Whether a finding is of a neutral filter that is sold as dark as this one: ND 0.9 and ND8.
fn same_neutral(found: &str, worn: &Worn) -> bool {
    let found = read_stack(found).unwrap_or_default();
    let [own] = found.as_slice() else {
        return false;
    };
    let sold_as = |worn: &Worn| Some(worn.strength.filter(|_| worn.by_name)?.in_stops().value());
    match (sold_as(own), sold_as(worn)) {
        (Some(one), Some(other)) => (one - other).abs() < SAME,
        _ => false,
    }
}

/// What a number rests on for the film at hand: one that was printed for another film is no published
/// number of this one, since factors differ from film to film; to take it all the same is usual.
fn grounds_here(taken: &Taken, reach: Reach) -> Grounds {
    let grounds = &taken.grounds;
    let elsewhere = matches!(reach, Reach::SameMaker | Reach::OtherFilm) && !taken.films.is_empty();
    if elsewhere && grounds.standing > Standing::Usual {
        let films = taken.films.join(" and ");
        let source = format!("{}, for {films} and no other film", grounds.source);
        return Grounds::new(Standing::Usual, source);
    }
    grounds.clone()
}

fn own_step(name: String, found: &OwnFilter) -> Step {
    let film = found.film.as_deref().map(|film| format!(" on {film}"));
    let light = found.light.as_deref().map(|light| format!(" in {light}"));
    let working = format!(
        "own finding{}{}",
        film.unwrap_or_default(),
        light.unwrap_or_default()
    );
    let grounds = Grounds::own(format!("found on {}", found.on));
    Step::new(name, Amount::Stops(found.stops))
        .working(working)
        .on(grounds)
}

/// The other sources a reader shall see: as near to the film and as trusted as the one reckoned with,
/// or for this very film, and saying something else.
fn differing<'a>(
    taken: &Taken,
    reach: Reach,
    others: &[(Reach, &'a Taken)],
) -> Vec<(Reach, &'a Taken)> {
    let apart = |one: Stops, two: Stops| (one.value() - two.value()).abs() > SAME;
    let mut shown: Vec<(Reach, &Taken)> = Vec::new();
    for (other_reach, other) in others {
        let equal = *other_reach == reach && other.grounds.standing == taken.grounds.standing;
        let said = shown.iter().any(|(_, it)| !apart(it.stops, other.stops));
        if (equal || *other_reach == Reach::ThisFilm)
            && apart(other.stops, taken.stops)
            && !said
            && shown.len() < OTHERS
        {
            shown.push((*other_reach, other));
        }
    }
    shown
}

#[cfg(test)]
mod tests {
    use chrono::{DateTime, FixedOffset, NaiveDate};

    use super::*;
    use crate::figures::{CameraRecord, Findings, Kit, LensRecord, NoKit};
    use crate::reference::Reference;

    struct Shelf(Vec<OwnFilter>);

    impl Kit for Shelf {
        fn lens(&self, _: &str) -> Option<LensRecord> {
            None
        }
        fn camera(&self, _: &str) -> Option<CameraRecord> {
            None
        }
        fn findings(&self) -> Findings {
            Findings {
                filters: self.0.clone(),
                ..Findings::default()
            }
        }
    }

    fn now() -> DateTime<FixedOffset> {
        "2026-03-04T16:02:00+01:00".parse().unwrap()
    }

    fn own(film: Option<&str>, light: Option<&str>, stops: f64, on: &str) -> OwnFilter {
        OwnFilter {
            filter: "Orange".to_owned(),
            film: film.map(str::to_owned),
            light: light.map(str::to_owned),
            stops: Stops::new(stops).unwrap(),
            on: on.parse::<NaiveDate>().unwrap(),
        }
    }

    fn taken(
        kit: &dyn Kit,
        text: &str,
        film: Option<&str>,
        light: Option<&str>,
    ) -> Result<Vec<Step>, Problem> {
        let reference = Reference::built_in().unwrap();
        stack(text, film, light, &Desk::new(&reference, kit, now()))
    }

    fn told(step: &Step) -> String {
        let standing = step.grounds.as_ref().map_or("", |it| it.standing.word());
        format!(
            "{}: {} = {} {standing}",
            step.name, step.working, step.amount
        )
    }

    #[test]
    fn the_films_own_number_goes_first_and_the_light_counts() {
        let day = taken(&NoKit, "25", Some("TMX"), None).unwrap();
        assert_eq!(
            told(&day[0]),
            "red 25: x8 for TMX in daylight = +3 stops published"
        );
        let lamp = taken(&NoKit, "25", Some("TMX"), Some("two halogen lamps")).unwrap();
        assert_eq!(
            told(&lamp[0]),
            "red 25: x4 for TMX in tungsten light = +2 stops published"
        );
    }

    #[test]
    fn sources_that_disagree_are_all_shown() {
        let steps = taken(&NoKit, "polariser", Some("FP4"), None).unwrap();
        let shown = told(&steps[0]);
        assert!(
            shown.starts_with("polariser: x4; others say x2.3 to x2.8"),
            "{shown}"
        );
        let steps = taken(&NoKit, "25", Some("Tri-X 320"), None).unwrap();
        assert!(steps[0].working.contains("x3 for Tri-X Aerographic 2403"));
        let steps = taken(&NoKit, "8", Some("Tri-X 320"), None).unwrap();
        assert!(
            steps[0]
                .working
                .contains("x2 for Tri-X 320 in daylight (remembered)")
        );
    }

    #[test]
    fn what_was_written_is_taken_at_its_word() {
        let steps = taken(&NoKit, "orange x4 + ND 0.9", Some("TMX"), None).unwrap();
        let shown: Vec<String> = steps.iter().map(told).collect();
        assert_eq!(
            shown,
            [
                "orange 21: as written, x4 = +2 stops = +2 stops ",
                "ND 0.9: as written, 10^0.9 = x7.943 = +2.99 stops = +2.99 stops ",
            ]
        );
        assert!(taken(&NoKit, "none", None, None).unwrap().is_empty());
        assert!(taken(&NoKit, " ", None, None).unwrap().is_empty());
    }

    #[test]
    fn an_own_finding_for_film_and_light_goes_before_a_general_one_and_before_print() {
        let shelf = Shelf(vec![
            own(Some("FP4"), Some("tungsten"), 1.0, "2025-01-01"),
            own(Some("FP4 Plus"), None, 2.5, "2025-02-01"),
            own(Some("FP4 Plus"), None, 2.3, "2025-03-01"),
            own(None, None, 1.9, "2026-01-01"),
        ]);
        let of = |film, light| {
            let steps = taken(&shelf, "21", film, light).unwrap();
            (steps[0].amount.clone(), steps[0].grounds.clone().unwrap())
        };
        let stops = |value| Amount::Stops(Stops::new(value).unwrap());
        assert_eq!(of(Some("FP4+"), None).0, stops(2.3));
        assert_eq!(of(Some("FP4+"), None).1.source, "found on 2025-03-01");
        assert_eq!(of(Some("FP4+"), Some("lamps")).0, stops(1.0));
        assert_eq!(of(Some("HP5"), None).0, stops(1.9));
        assert_eq!(of(None, None).0, stops(1.9));
    }

    #[test]
    fn what_was_found_of_a_neutral_filter_goes_before_the_strength_in_its_name() {
        let found = |filter: &str, stops| OwnFilter {
            filter: filter.to_owned(),
            ..own(None, None, stops, "2026-01-01")
        };
        let shelf = Shelf(vec![found("ND 1.8", 6.3), found("ND1000", 10.4)]);
        for (text, expected) in [
            ("ND 1.8", "ND 1.8: own finding = +6.3 stops own"),
            ("nd1.8", "ND 1.8: own finding = +6.3 stops own"),
            ("neutral 1.8", "ND 1.8: own finding = +6.3 stops own"),
            ("ND64", "ND 64: own finding = +6.3 stops own"),
            ("ND 3.0", "ND 3.0: own finding = +10.4 stops own"),
        ] {
            assert_eq!(told(&taken(&shelf, text, None, None).unwrap()[0]), expected);
        }
        for (text, stops) in [
            ("ND 1.8 x80", 6.32),
            ("ND 0.9", 2.99),
            ("density 1.8", 5.98),
        ] {
            let steps = taken(&shelf, text, None, None).unwrap();
            assert!(steps[0].working.starts_with("as written"), "{text}");
            let Amount::Stops(taken) = steps[0].amount else {
                panic!("{text}: no stops");
            };
            assert!((taken.value() - stops).abs() < 0.01, "{text}: {taken}");
        }
    }

    #[test]
    fn of_two_neutral_filters_as_dark_the_one_that_was_named_counts() {
        let found = |filter: &str, stops, on| OwnFilter {
            filter: filter.to_owned(),
            ..own(None, None, stops, on)
        };
        let shelf = Shelf(vec![
            found("ND 1.8", 6.3, "2025-01-01"),
            found("ND64", 5.7, "2026-01-01"),
        ]);
        let stops = |text| {
            taken(&shelf, text, None, None).unwrap()[0]
                .amount
                .to_string()
        };
        assert_eq!(stops("ND 1.8"), "+6.3 stops");
        assert_eq!(stops("ND64"), "+5.7 stops");
    }

    #[test]
    fn a_filter_without_a_number_says_how_to_write_one() {
        for (text, film, light, says) in [
            ("amber", None, None, "amber x3"),
            ("centre filter", None, None, "centre x3"),
            ("Y48 + mauve", None, None, "mauve x3"),
            ("O56", None, None, "not in daylight light"),
            ("25", Some("Ortho Plus"), None, "does not see all colours"),
            ("centre 1.5", None, None, "a factor or stops?"),
        ] {
            let why = taken(&NoKit, text, film, light).unwrap_err().to_string();
            assert!(why.contains(says), "{text}: {why}");
        }
    }
}
