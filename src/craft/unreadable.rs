//! The one error of everything that reads what a person wrote.
//!
//! It keeps the text exactly as it was typed, so that a field can go on showing it, and says in
//! one sentence what was wanted instead. Making hostile characters in the text visible is left to
//! whatever prints the sentence.

use std::fmt;

use super::numeral;

/// Text (or a number) that is not the quantity asked for.
///
/// ```
/// use notchbook::craft::Aperture;
/// let why = Aperture::parse("abc").unwrap_err();
/// assert_eq!(why.typed, "abc");
/// assert_eq!(why.to_string(), "\"abc\" is not an aperture: write f/22, f/22+1/3 or 5.6");
/// ```
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unreadable {
    /// What was typed, untouched.
    pub typed: String,
    /// What was wanted; it completes the sentence `"..." is not`.
    pub wanted: &'static str,
}

/// Shown instead of the usual text when a comma may have been meant to group thousands.
const UNCLEAR_COMMA: &str =
    "a clear number, because a comma is read as a decimal mark: write 1500 or 1.5, not 1,500";

impl Unreadable {
    /// The error for `typed` where `wanted` was asked for.
    pub(crate) fn new(typed: &str, wanted: &'static str) -> Self {
        let wanted = if numeral::groups_thousands(typed) {
            UNCLEAR_COMMA
        } else {
            wanted
        };
        Self {
            typed: typed.to_owned(),
            wanted,
        }
    }
}

impl fmt::Display for Unreadable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.typed.trim().is_empty() {
            write!(f, "an empty field is not {}", self.wanted)
        } else {
            write!(f, "\"{}\" is not {}", self.typed, self.wanted)
        }
    }
}

impl std::error::Error for Unreadable {}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::craft::{
        Aperture, Celsius, Density, Dilution, ExposureValue, FilmSpeed, Millilitres, Millimetres,
        Seconds, Size, Stops, TimeZone, moment,
    };

    #[test]
    fn an_empty_field_is_named_as_such() {
        let why = Seconds::parse("  ").unwrap_err();
        assert!(
            why.to_string().starts_with("an empty field is not a time"),
            "{why}"
        );
    }

    #[test]
    fn a_comma_that_may_group_thousands_is_asked_about_and_not_guessed() {
        for typed in ["1,500 ml", "12,000", "1,000,000"] {
            let why = Millilitres::parse(typed).unwrap_err();
            assert_eq!(why.wanted, UNCLEAR_COMMA, "{typed}");
        }
        assert_eq!(Millilitres::parse("1,5 l").unwrap().value(), 1500.0);
        assert_eq!(Seconds::parse("0,125").unwrap().value(), 0.125);
    }

    #[test]
    fn the_typed_text_is_kept_as_it_was() {
        let why = Unreadable::new("  F/Ab\u{1b} ", "an aperture");
        assert_eq!(why.typed, "  F/Ab\u{1b} ");
    }

    #[test]
    fn a_page_of_nonsense_is_refused_by_every_reader_and_kept_whole() {
        let now = chrono::DateTime::parse_from_rfc3339("2026-03-05T09:30:12+01:00").unwrap();
        for bit in [
            "1", ",", "1 ", "1/", "1,1", "'", "½", "1+", "1:", "x", "-", "a ", "1h",
        ] {
            let page = bit.repeat(20_000);
            let errors = [
                Aperture::parse(&page).err(),
                Celsius::parse(&page).err(),
                Density::parse(&page).err(),
                Dilution::parse(&page).err(),
                ExposureValue::parse(&page).err(),
                FilmSpeed::parse(&page).err(),
                Millilitres::parse(&page).err(),
                Millimetres::parse(&page).err(),
                Seconds::parse(&page).err(),
                Size::parse(&page).err(),
                Stops::parse(&page).err(),
                moment::parse(&page, now, TimeZone::Fixed(*now.offset())).err(),
            ];
            for why in errors {
                assert_eq!(why.map(|why| why.typed).as_ref(), Some(&page), "{bit}");
            }
        }
    }
}
