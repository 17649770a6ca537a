//! Filters, and what they take on which film in which light.
//!
//! A factor depends on the film and on the light, so a filter here holds a list of what it takes,
//! each with the films or the maker it was printed for, the light, its source and its standing.
//! Promises: [`Reference::taken`] puts the number that comes nearest to the film and is trusted most
//! first, and keeps the others, because makers disagree and the reader shall see it; a contrast
//! factor for panchromatic film is never given for film that is blind to some colours. What was
//! written beside the filter, and what the user found out, go before all of this and are not here.

use super::Reference;
use super::film::FilmKind;
use super::naming::{self, Named};
use super::standing::{Origin, Standing};
use crate::craft::{Grounds, Stops};
use crate::words::words;

/// A filter.
#[derive(Debug, Clone, PartialEq)]
pub struct Filter {
    /// Name in links and files, such as `red-25`.
    pub id: String,
    /// Name for people: `red 25`.
    pub name: String,
    /// Other ways in which people write its name.
    pub also: Vec<String>,
    /// What it is for.
    pub kind: FilterKind,
    /// What it takes, film by film and light by light.
    pub takes: Vec<Taken>,
    /// A remark; empty if there is none.
    pub note: String,
    /// Where the record was read.
    pub origin: Origin,
}

words! {
    /// What a filter is for.
    FilterKind {
        /// Lighter and darker greys of colours, on black and white film.
        Contrast = "contrast",
        /// The colour of light, on colour film.
        Conversion = "conversion",
        /// Reflections and the sky.
        Polariser = "polariser",
        /// Haze, or a glass before the lens.
        Clear = "clear",
    }
}

words! {
    /// The light a factor holds in.
    LightKind {
        /// Daylight and flash.
        Daylight = "daylight",
        /// Tungsten and halogen lamps.
        Tungsten = "tungsten",
    }
}

impl LightKind {
    /// The light that a person's words tell of: tungsten if they name a lamp, otherwise daylight.
    pub fn told(text: &str) -> LightKind {
        const LAMPS: [&str; 8] = [
            "tungsten",
            "lamp",
            "halogen",
            "incandescent",
            "bulb",
            "photoflood",
            "3200",
            "3400",
        ];
        let text = text.to_lowercase();
        if LAMPS.iter().any(|lamp| text.contains(lamp)) {
            LightKind::Tungsten
        } else {
            LightKind::Daylight
        }
    }
}

/// What a filter takes, by one source.
#[derive(Debug, Clone, PartialEq)]
pub struct Taken {
    /// The films it was printed for; any film if there are none and no maker.
    pub films: Vec<String>,
    /// The maker of those films; all films of that maker if there are no films. Empty if not given.
    pub maker: String,
    /// The light it holds in; any light if nothing is said.
    pub light: Option<LightKind>,
    /// The stops: as printed, or from the factor; of a range, the middle to a third.
    pub stops: Stops,
    /// The factor as printed, and the upper end where a range is printed.
    pub factor: Option<(f64, Option<f64>)>,
    /// Where it was read, and what that is worth.
    pub grounds: Grounds,
    /// A remark; empty if there is none.
    pub note: String,
}

/// How near a printed number comes to the film at hand, nearest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Reach {
    /// For this film.
    ThisFilm,
    /// For another film of the same maker, or all of that maker's.
    SameMaker,
    /// For any film.
    AnyFilm,
    /// For another maker's film, or for a film when it is not said which is at hand.
    OtherFilm,
}

impl Named for Filter {
    fn id(&self) -> &str {
        &self.id
    }

    fn names(&self) -> Vec<String> {
        let mut names = vec![self.name.clone()];
        names.extend(self.also.iter().cloned());
        names
    }
}

impl Filter {
    /// Whether `wanted`, already folded, is one of its names.
    fn is_called(&self, wanted: &str) -> bool {
        folded(&self.id) == wanted || self.names().iter().any(|name| folded(name) == wanted)
    }
}

impl Reference {
    /// All filters.
    pub fn filters(&self) -> &[Filter] {
        &self.whole().filters
    }

    /// The filter that a typed name means: `25`, `No. 25`, `red`, `Wratten 25`, `25 red`; `None` also
    /// if it could mean more than one.
    pub fn filter(&self, typed: &str) -> Option<&Filter> {
        let wanted = folded(typed);
        if wanted.is_empty() {
            return None;
        }
        let exact = self.filters().iter().find(|it| it.is_called(&wanted));
        exact.or_else(|| {
            // A number is never completed: 4 is not 47.
            if wanted.len() < 3 || !wanted.chars().all(char::is_alphabetic) {
                return None;
            }
            let begins = |it: &&Filter| it.names().iter().any(|n| folded(n).starts_with(&wanted));
            let mut fitting = self.filters().iter().filter(begins);
            let first = fitting.next();
            if fitting.next().is_some() {
                None
            } else {
                first
            }
        })
    }

    /// Whether two typed names mean the same filter.
    pub fn same_filter(&self, one: &str, other: &str) -> bool {
        match (self.filter(one), self.filter(other)) {
            (Some(one), Some(other)) => one.id == other.id,
            (None, None) => folded(one) == folded(other),
            _ => false,
        }
    }

    /// Whether two typed names mean the same film.
    pub fn same_film(&self, one: &str, other: &str) -> bool {
        match (self.film(one), self.film(other)) {
            (Some(one), Some(other)) => one.id == other.id,
            (None, None) => naming::folded(one) == naming::folded(other),
            _ => false,
        }
    }

    /// What `filter` takes on `film` in `light` by every source that says something about it, the one
    /// to reckon with first: the user's own, then published for this film, for its maker, for any
    /// film, then usual, then published for another film, then remembered.
    pub fn taken<'a>(
        &'a self,
        filter: &'a Filter,
        film: Option<&str>,
        light: LightKind,
    ) -> Vec<(Reach, &'a Taken)> {
        let known = film.and_then(|film| self.film(film));
        let maker = known.map_or("", |film| film.maker.as_str());
        let odd = known.is_some_and(|film| film.kind != FilmKind::Panchromatic);
        let mut found: Vec<(Reach, &Taken)> = filter
            .takes
            .iter()
            .filter(|taken| taken.light.is_none_or(|it| it == light))
            .map(|taken| (self.reach(taken, film, maker), taken))
            .filter(|(reach, taken)| {
                let own = taken.grounds.standing == Standing::Own && *reach == Reach::AnyFilm;
                let for_it = own || *reach == Reach::ThisFilm;
                for_it || !(odd && filter.kind == FilterKind::Contrast)
            })
            .collect();
        found.sort_by_key(|(reach, taken)| (rank(*reach, taken.grounds.standing), *reach));
        found
    }

    fn reach(&self, taken: &Taken, film: Option<&str>, maker: &str) -> Reach {
        if taken.films.is_empty() && taken.maker.is_empty() {
            return Reach::AnyFilm;
        }
        let Some(film) = film else {
            return Reach::OtherFilm;
        };
        if taken.films.iter().any(|name| self.same_film(name, film)) {
            return Reach::ThisFilm;
        }
        if !maker.is_empty() && taken.maker.eq_ignore_ascii_case(maker) {
            return Reach::SameMaker;
        }
        Reach::OtherFilm
    }
}

/// The place of a number in the order of preference, 0 first.
fn rank(reach: Reach, standing: Standing) -> u8 {
    match (standing, reach) {
        (Standing::Own, Reach::ThisFilm | Reach::AnyFilm) => 0,
        (Standing::Published, Reach::ThisFilm) => 1,
        (Standing::Own | Standing::Published, Reach::SameMaker) => 2,
        (Standing::Published, Reach::AnyFilm) => 3,
        (Standing::Usual, _) => 4,
        (Standing::Own | Standing::Published, Reach::OtherFilm) => 5,
        (Standing::Remembered, _) => 6,
    }
}

/// The words of a filter's name in a fixed order, without those that say nothing: `No. 25 red` and
/// `Red 25` are one name.
fn folded(name: &str) -> String {
    const IDLE: [&str; 8] = [
        "wratten", "kodak", "no", "nr", "number", "filter", "w", "the",
    ];
    let lower = name.to_lowercase().replace("b+w", "bw");
    let mut words: Vec<&str> = lower
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty() && !IDLE.contains(word))
        .collect();
    words.sort_unstable();
    words.concat()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn reference() -> Reference {
        Reference::built_in().unwrap()
    }

    fn first(filter: &str, film: Option<&str>, light: LightKind) -> (Reach, Stops, Standing) {
        let reference = reference();
        let filter = reference.filter(filter).unwrap();
        let (reach, taken) = reference.taken(filter, film, light)[0];
        (reach, taken.stops, taken.grounds.standing)
    }

    #[test]
    fn a_filter_is_found_however_it_is_written() {
        let reference = reference();
        for (typed, id) in [
            ("25", "red-25"),
            ("No. 25", "red-25"),
            ("#25", "red-25"),
            ("Red 25", "red-25"),
            ("25 red", "red-25"),
            ("25A", "red-25"),
            ("Wratten 25", "red-25"),
            ("red filter", "red-25"),
            ("K2", "yellow-8"),
            ("yellow green", "yellow-green-11"),
            ("orange", "orange-21"),
            ("polarizer", "polariser"),
            ("polar", "polariser"),
            ("80 A", "80a"),
            ("B+W 040", "bw-040"),
        ] {
            let found = reference.filter(typed).map(|it| it.id.as_str());
            assert_eq!(found, Some(id), "{typed}");
        }
        for typed in ["4", "2", "", "mauve", "no"] {
            assert_eq!(reference.filter(typed), None, "{typed}");
        }
    }

    #[test]
    fn no_name_means_two_filters() {
        let reference = reference();
        let mut seen = std::collections::BTreeMap::new();
        for filter in reference.filters() {
            for name in filter.names() {
                let before = seen.insert(folded(&name), &filter.id);
                assert!(before.is_none_or(|it| *it == filter.id), "{name}");
            }
        }
    }

    #[test]
    fn the_number_nearest_to_the_film_goes_first() {
        let day = LightKind::Daylight;
        let (reach, stops, standing) = first("25", Some("T-MAX 100"), day);
        assert_eq!((reach, standing), (Reach::ThisFilm, Standing::Published));
        assert_eq!(stops.value(), 3.0);
        assert_eq!(first("25", Some("Tri-X 320"), day).0, Reach::SameMaker);
        assert_eq!(first("25", Some("HP5 Plus"), day).0, Reach::OtherFilm);
        assert_eq!(first("25", None, day).0, Reach::OtherFilm);
        assert_eq!(first("orange", Some("FP4"), day).2, Standing::Remembered);
    }

    #[test]
    fn a_contrast_factor_is_not_given_for_film_blind_to_red() {
        let reference = reference();
        let red = reference.filter("25").unwrap();
        let ortho = reference.taken(red, Some("Ortho Plus"), LightKind::Daylight);
        assert!(ortho.is_empty());
    }

    #[test]
    fn the_light_is_told_from_a_persons_words() {
        for text in ["tungsten", "two halogen lamps", "Incandescent", "3200 K"] {
            assert_eq!(LightKind::told(text), LightKind::Tungsten, "{text}");
        }
        for text in ["", "overcast", "north window", "flash"] {
            assert_eq!(LightKind::told(text), LightKind::Daylight, "{text}");
        }
    }
}
