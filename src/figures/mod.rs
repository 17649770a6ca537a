//! The figures a person can ask for by name, and the questions each one asks back.
//!
//! For: panes that reckon while one types, the `reckon` command, and the entry pane of an exposure. A
//! [`Recipe`] names a figure, says what it needs ([`Ask`]) with an example that works, and turns what
//! was typed into an [`Answer`]: results, steps, remarks, sometimes a table or a chart. One table of
//! recipes serves the command line and the front end alike, so a figure cannot be in one and not in
//! the other. Promises: an answer depends on nothing but what was typed, the reference, the user's own
//! records ([`Kit`]) and the moment handed in; what cannot be read is a [`Problem`] beside its
//! question. Leaves to others: the formulas (`craft`), the published numbers (`reference`), where own
//! records come from (`logbook` and `store`).

use crate::craft::{Impossible, Unreadable};
use crate::words::words;

mod answer;
mod ask;
mod baths;
pub mod densities;
mod depth;
pub mod development;
pub mod exposure;
mod faults;
mod film;
pub mod filters;
mod flash;
mod focus;
mod kit;
mod lens;
mod light;
#[cfg(test)]
mod mixing_tests;
mod movements;
mod printing;
pub mod reciprocity;
mod rig;
mod scene;
mod series;
pub mod shutter;
mod solutions;
mod sun;
mod tilt;
mod view;
mod weigh;
mod zones;

pub use answer::{Answer, Chart, Line, Mark, Series, Table};
pub use ask::{Ask, Book, Desk, Given, Problem};
pub use kit::{
    CameraRecord, Findings, Kit, LensRecord, NoKit, OwnDevelopment, OwnFilm, OwnFilter, OwnFormat,
    OwnMeter, OwnScene, OwnTime, Place, ShutterTest,
};

words! {
    /// The groups in which figures are listed, in the order a picture meets them.
    Chapter {
        /// From the light to the setting.
        Light = "light",
        /// What lens, filters, film and shutter take from the light.
        Exposure = "exposure",
        /// Flash.
        Flash = "flash",
        /// Focus, depth, movements, angle of view.
        Focus = "focus",
        /// Sun and place.
        Sun = "sun",
        /// Film and holders.
        Film = "film",
        /// Developing film.
        Development = "development",
        /// What readings of densities tell of a film and its development.
        Densities = "densities",
        /// Solutions: mixing, strengths, capacity, fixing and washing.
        Solutions = "solutions",
        /// What is coated on paper by hand: areas, drops, metals, cost.
        Coating = "coating",
        /// From the negative to the print: times, lamps, contrast, paper.
        Printing = "printing",
    }
}

/// A figure that can be asked for.
#[derive(Debug)]
pub struct Recipe {
    /// Its word on the command line and in lists.
    pub word: &'static str,
    /// What it is, in a few words.
    pub title: &'static str,
    /// The group it is listed in.
    pub chapter: Chapter,
    /// What it does and how its questions are meant: two or three sentences that teach.
    pub about: &'static str,
    /// What it asks.
    pub asks: &'static [Ask],
    /// Answers to its questions that work, by key: the example of the help, and a test.
    pub example: &'static [(&'static str, &'static str)],
    /// Reckons.
    pub answer: fn(&Given<'_>) -> Result<Answer, Problem>,
}

/// The recipes of each chapter, in the order lists show them.
const BY_CHAPTER: &[&[Recipe]] = &[
    light::RECIPES,
    scene::RECIPES,
    zones::RECIPES,
    series::RECIPES,
    exposure::RECIPES,
    lens::RECIPES,
    shutter::RECIPES,
    flash::RECIPES,
    focus::RECIPES,
    depth::RECIPES,
    tilt::RECIPES,
    movements::RECIPES,
    view::RECIPES,
    sun::RECIPES,
    film::RECIPES,
    development::RECIPES,
    faults::RECIPES,
    densities::RECIPES,
    solutions::RECIPES,
    baths::RECIPES,
    weigh::RECIPES,
    printing::AREAS,
    printing::DROPS,
    printing::AGENTS,
    printing::METALS,
    printing::COSTS,
    printing::SUITS,
    printing::TIMES,
    printing::LIGHT,
    printing::ENLARGER,
    printing::CONTACT,
    printing::PAPER,
];

/// Every figure there is.
pub fn all() -> impl Iterator<Item = &'static Recipe> {
    BY_CHAPTER.iter().flat_map(|recipes| recipes.iter())
}

/// The figure with this word.
pub fn named(word: &str) -> Option<&'static Recipe> {
    all().find(|recipe| recipe.word == word)
}

impl From<Unreadable> for Problem {
    fn from(why: Unreadable) -> Problem {
        Problem::of_all(why.to_string())
    }
}

impl From<Impossible> for Problem {
    fn from(why: Impossible) -> Problem {
        Problem::of_all(why.to_string())
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use chrono::DateTime;

    use super::*;
    use crate::reference::Reference;

    #[test]
    fn every_example_gives_an_answer_with_results_and_every_key_of_it_is_asked() {
        let reference = Reference::built_in().unwrap();
        let now = DateTime::parse_from_rfc3339("2026-03-04T16:02:00+01:00").unwrap();
        let desk = Desk::new(&reference, &NoKit, now);
        for recipe in all() {
            let typed: BTreeMap<String, String> = recipe
                .example
                .iter()
                .map(|(key, text)| ((*key).to_owned(), (*text).to_owned()))
                .collect();
            for key in typed.keys() {
                assert!(
                    recipe.asks.iter().any(|ask| ask.key == key),
                    "{}: {key} is not asked",
                    recipe.word
                );
            }
            let answer = (recipe.answer)(&Given::new(recipe.asks, &typed, &desk))
                .unwrap_or_else(|problem| panic!("{}: {problem}", recipe.word));
            assert!(!answer.results.is_empty(), "{}", recipe.word);
        }
    }

    fn asked(word: &str, typed: &[(&str, &str)]) -> Result<Answer, Problem> {
        let reference = Reference::built_in().unwrap();
        let now = DateTime::parse_from_rfc3339("2026-03-04T16:02:00+01:00").unwrap();
        let desk = Desk::new(&reference, &NoKit, now);
        let recipe = named(word).unwrap();
        let typed: BTreeMap<String, String> = typed
            .iter()
            .map(|(key, text)| ((*key).to_owned(), (*text).to_owned()))
            .collect();
        (recipe.answer)(&Given::new(recipe.asks, &typed, &desk))
    }

    fn standing(answer: &Answer, name: &str) -> crate::craft::Standing {
        let line = answer.results.iter().find(|line| line.name == name);
        answer.standing_of(line.unwrap())
    }

    #[test]
    fn no_result_is_trusted_more_than_the_number_it_follows_from() {
        use crate::craft::Standing::{Own, Published, Remembered, Usual};
        // The image area of 8x10 is from memory, that of 4x5 is not.
        for (format, wanted) in [("8x10", Remembered), ("4x5", Published), ("8x20", Usual)] {
            let answer = asked("confusion", &[("format", format)]).unwrap();
            assert_eq!(standing(&answer, "diagonal / 1500"), wanted, "{format}");
            let answer = asked("spread", &[("travel", "4"), ("format", format)]).unwrap();
            let circle = answer
                .steps
                .iter()
                .find(|it| it.name == "circle of confusion");
            let grounds = circle.unwrap().grounds.as_ref().unwrap();
            assert_eq!(grounds.standing, wanted, "{format}");
        }
        // What follows from degrees by a formula from memory is from memory.
        let answer = asked("speed", &[("degrees", "27")]).unwrap();
        assert_eq!(standing(&answer, "speed"), Remembered);
        assert_eq!(standing(&answer, "in degrees"), Own);
        let answer = asked("speed", &[("speed", "400")]).unwrap();
        assert_eq!(standing(&answer, "speed"), Own);
        // A factor printed for one film is no published number of another.
        for (film, wanted) in [
            ("T-MAX 100", Published),
            ("Tri-X 320", Usual),
            ("FP4", Usual),
        ] {
            let answer = asked("filters", &[("filters", "25"), ("film", film)]).unwrap();
            assert_eq!(standing(&answer, "more exposure"), wanted, "{film}");
        }
    }

    #[test]
    fn what_was_not_understood_is_named_and_gets_no_number() {
        for (word, typed, says) in [
            (
                "coverage",
                vec![("format", "4x5"), ("movements", "up 20")],
                "\"up 20\" is no movement",
            ),
            (
                "shutter",
                vec![("mark", "1/250"), ("timings", "1/160 foo")],
                "\"foo\" is not a time",
            ),
            (
                "reciprocity",
                vec![("film", "Tri-X"), ("time", "30 s")],
                "Tri-X could be Kodak Tri-X 320 or Kodak Tri-X 400",
            ),
            (
                "image",
                vec![("subject", "12 m"), ("distance", "40 m")],
                "or the focal length",
            ),
            (
                "pops",
                vec![("metered", "f/22"), ("pops", "4")],
                "each asks something else",
            ),
        ] {
            let why = asked(word, &typed).unwrap_err().to_string();
            assert!(why.contains(says), "{word}: {why}");
        }
        let spaced = [("mark", "1/250"), ("timings", "6.3 ms 6.1 ms")];
        assert!(asked("shutter", &spaced).is_ok());
    }

    #[test]
    fn numbers_are_written_as_the_trade_writes_them() {
        let told = |answer: &Answer| {
            let steps = answer.steps.iter().map(|it| it.amount.to_string());
            let results = answer.results.iter().map(|it| it.amount.to_string());
            results.chain(steps).collect::<Vec<_>>()
        };
        let hole = asked("pinhole", &[("draw", "49"), ("hole", "0.3")]).unwrap();
        assert!(told(&hole).contains(&"f/163".to_owned()), "{hole:?}");
        let pops = asked("pops", &[("metered", "f/45"), ("wanted", "f/22")]).unwrap();
        assert!(told(&pops).contains(&"1 pop".to_owned()), "{pops:?}");
        let dark = asked("density", &[("strength", "1.5")]).unwrap();
        assert!(told(&dark).contains(&"x31.62".to_owned()), "{dark:?}");
    }

    #[test]
    fn words_and_keys_are_there_once_and_fit_a_command_line() {
        let mut seen = std::collections::BTreeSet::new();
        for recipe in all() {
            assert!(seen.insert(recipe.word), "{} twice", recipe.word);
            let mut keys = std::collections::BTreeSet::new();
            for ask in recipe.asks {
                assert!(keys.insert(ask.key), "{}: {} twice", recipe.word, ask.key);
                let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_';
                assert!(ask.key.chars().all(plain), "{}: {}", recipe.word, ask.key);
            }
            assert!(recipe.about.ends_with('.'), "{}", recipe.word);
        }
    }

    #[test]
    fn nothing_typed_is_a_question_back_or_an_answer_and_never_a_panic() {
        let reference = Reference::built_in().unwrap();
        let now = DateTime::parse_from_rfc3339("2026-03-04T16:02:00+01:00").unwrap();
        let desk = Desk::new(&reference, &NoKit, now);
        for recipe in all() {
            for odd in [
                "",
                "0",
                "-1",
                "f/0",
                "abc",
                "1e309",
                "∞",
                "1/0",
                "999999999",
            ] {
                let typed: BTreeMap<String, String> = recipe
                    .asks
                    .iter()
                    .map(|ask| (ask.key.to_owned(), odd.to_owned()))
                    .collect();
                if let Err(problem) = (recipe.answer)(&Given::new(recipe.asks, &typed, &desk)) {
                    assert!(!problem.to_string().is_empty());
                }
            }
        }
    }
}
