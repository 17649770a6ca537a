//! Finding a thing of the reference by the name someone typed.
//!
//! Case, spaces, hyphens and the maker's name do not matter, `+` is `plus`, and the beginning of a
//! name is enough if only one thing begins so. A name that could mean two things finds none: the
//! caller shall ask, not guess.

/// A thing with an id and names.
pub(super) trait Named {
    /// Its id.
    fn id(&self) -> &str;
    /// The ways in which people write its name.
    fn names(&self) -> Vec<String>;
}

/// The thing that `typed` names, if it names exactly one.
pub(super) fn find<'a, T: Named>(things: &'a [T], typed: &str) -> Option<&'a T> {
    if let Some(exact) = things.iter().find(|thing| thing.id() == typed) {
        return Some(exact);
    }
    let wanted = folded(typed);
    if wanted.is_empty() {
        return None;
    }
    let whole = |name: &str| name == wanted;
    let begins = |name: &str| name.starts_with(&wanted);
    only(things, whole).or_else(|| only(things, begins))
}

/// The thing one of whose whole names is `typed`, to be changed; nothing if there are two.
pub(super) fn whole<'a, T: Named>(things: &'a mut [T], typed: &str) -> Option<&'a mut T> {
    let wanted = folded(typed);
    let fits = |thing: &T| {
        folded(thing.id()) == wanted || thing.names().iter().any(|name| folded(name) == wanted)
    };
    let mut fitting = things.iter_mut().filter(|thing| fits(thing));
    let first = fitting.next();
    if fitting.next().is_some() {
        None
    } else {
        first
    }
}

/// The things that `typed` could mean, when it is the beginning of names.
pub(super) fn could_be<'a, T: Named>(things: &'a [T], typed: &str) -> Vec<&'a T> {
    let wanted = folded(typed);
    if wanted.is_empty() {
        return Vec::new();
    }
    let begins = |name: &str| folded(name).starts_with(&wanted);
    let fits = |thing: &&T| begins(thing.id()) || thing.names().iter().any(|name| begins(name));
    things.iter().filter(fits).collect()
}

/// The one thing with a name that fits.
fn only<T: Named>(things: &[T], fits: impl Fn(&str) -> bool) -> Option<&T> {
    let mut fitting = things.iter().filter(|thing| {
        fits(&folded(thing.id())) || thing.names().iter().any(|name| fits(&folded(name)))
    });
    let first = fitting.next();
    if fitting.next().is_some() {
        None
    } else {
        first
    }
}

/// Letters and digits in lower case; `+` as `plus`.
pub(super) fn folded(name: &str) -> String {
    name.replace('+', "plus")
        .chars()
        .filter(|c| c.is_alphanumeric())
        .flat_map(char::to_lowercase)
        .collect()
}

/// An id made from a name: `FP4 Plus` gives `fp4-plus`. May be empty, and is then no id.
pub(super) fn slug(name: &str) -> String {
    let lower = name.replace('+', " plus ").to_lowercase();
    let words = lower.split(|c: char| !c.is_ascii_alphanumeric());
    let words: Vec<&str> = words.filter(|word| !word.is_empty()).collect();
    words.join("-")
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Thing(&'static str, &'static [&'static str]);

    impl Named for Thing {
        fn id(&self) -> &str {
            self.0
        }

        fn names(&self) -> Vec<String> {
            self.1.iter().map(|name| (*name).to_owned()).collect()
        }
    }

    const THINGS: [Thing; 3] = [
        Thing("fp4-plus", &["FP4 Plus", "Ilford FP4 Plus"]),
        Thing("t-max-100", &["T-MAX 100", "Kodak T-MAX 100"]),
        Thing("t-max-400", &["T-MAX 400", "Kodak T-MAX 400"]),
    ];

    fn found(typed: &str) -> Option<&'static str> {
        find(&THINGS, typed).map(|thing| thing.0)
    }

    #[test]
    fn a_name_is_found_however_it_is_written() {
        for typed in [
            "fp4-plus",
            "FP4+",
            "fp4 plus",
            "Ilford FP4+",
            "FP4",
            "ilford",
        ] {
            assert_eq!(found(typed), Some("fp4-plus"), "{typed}");
        }
        assert_eq!(found("tmax100"), Some("t-max-100"));
    }

    #[test]
    fn a_name_that_could_mean_two_things_finds_none() {
        assert_eq!(found("T-MAX"), None);
        assert_eq!(found("kodak"), None);
        assert_eq!(found(""), None);
        assert_eq!(found("  -"), None);
        assert_eq!(found("no such film"), None);
    }

    #[test]
    fn an_id_is_made_from_a_name() {
        assert_eq!(slug("FP4+"), "fp4-plus");
        assert_eq!(slug("  T-MAX 100 "), "t-max-100");
        assert_eq!(slug("--"), "");
    }
}
