//! The speed at which film is rated: what the box says, or what experience says.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::numeral::{Cursor, plain};
use super::unreadable::Unreadable;

const WANTED: &str = "a film speed: write 400, ISO 400, EI 320 or @80";
const RANGE: &str = "a film speed from 1 to 409600";

/// A film speed on the arithmetic scale, a whole number from 1 to 409600.
///
/// Shown as the bare number, because the same figure is an ISO speed on a box and an exposure
/// index in a person's notes.
///
/// ```
/// use notchbook::craft::FilmSpeed;
/// assert_eq!(FilmSpeed::parse("ISO 400/27°")?.value(), 400);
/// assert_eq!(FilmSpeed::parse("@80")?.to_string(), "80");
/// assert!(FilmSpeed::parse("0").is_err());
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "u32", into = "u32")]
pub struct FilmSpeed(u32);

impl FilmSpeed {
    /// ISO 100, for which exposure values of light are given.
    pub const ISO_100: FilmSpeed = FilmSpeed(100);

    /// The speed with this arithmetic value.
    ///
    /// # Errors
    /// If the value is outside 1 to 409600.
    pub fn new(value: u32) -> Result<Self, Unreadable> {
        Self::within(value).ok_or_else(|| Unreadable::new(&value.to_string(), RANGE))
    }

    fn within(value: u32) -> Option<Self> {
        (1..=409_600).contains(&value).then_some(Self(value))
    }

    /// Reads `400`, `ISO 400`, `EI 320`, `E.I. 320`, `ASA 100`, `@80`, `at 80`, `400/27°`.
    ///
    /// # Errors
    /// If the text is no film speed, its two scales disagree, or it is outside the range.
    pub fn parse(text: &str) -> Result<Self, Unreadable> {
        let plain = plain(text);
        let value = read(&plain).ok_or_else(|| Unreadable::new(text, WANTED))?;
        Self::within(value).ok_or_else(|| Unreadable::new(text, RANGE))
    }

    /// The arithmetic value.
    #[must_use]
    pub const fn value(self) -> u32 {
        self.0
    }

    /// The same speed on the logarithmic scale, to the nearest degree: 27 for 400.
    ///
    /// Derived from 1 + 10 log10 of the arithmetic value.
    #[must_use]
    pub fn degrees(self) -> u32 {
        // From 1 to 57 over the whole range, so the cast loses nothing.
        (1.0 + 10.0 * f64::from(self.0).log10()).round() as u32
    }
}

fn read(plain: &str) -> Option<u32> {
    let mut cursor = Cursor::new(plain);
    if !cursor.take('@') && !matches!(cursor.words().as_str(), "" | "iso" | "ei" | "asa" | "at") {
        return None;
    }
    let value = cursor.whole()?;
    if cursor.take('/') {
        let degrees = cursor.whole()?;
        if FilmSpeed::within(value)?.degrees() != degrees {
            return None;
        }
    }
    let after = cursor.words();
    (matches!(after.as_str(), "" | "\u{b0}" | "iso" | "asa" | "ei") && cursor.at_end())
        .then_some(value)
}

impl fmt::Display for FilmSpeed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

impl FromStr for FilmSpeed {
    type Err = Unreadable;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        Self::parse(text)
    }
}

impl TryFrom<u32> for FilmSpeed {
    type Error = Unreadable;

    fn try_from(value: u32) -> Result<Self, Self::Error> {
        Self::new(value)
    }
}

impl From<FilmSpeed> for u32 {
    fn from(speed: FilmSpeed) -> Self {
        speed.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn speeds_are_read_as_people_write_them() {
        for (text, value) in [
            ("400", 400),
            ("ISO 400", 400),
            ("iso400", 400),
            ("EI 320", 320),
            ("E.I. 320", 320),
            ("ASA 100", 100),
            ("100 asa", 100),
            ("@80", 80),
            ("@ 80", 80),
            ("at 80", 80),
            ("ISO 400/27°", 400),
            ("125/22", 125),
        ] {
            assert_eq!(FilmSpeed::parse(text).unwrap().value(), value, "{text}");
        }
    }

    #[test]
    fn what_is_no_speed_is_refused() {
        for text in [
            "", "ISO", "-400", "400.5", "400/24", "400 ml", "@", "1/400", "@@80", "nan", "1,600",
        ] {
            assert!(FilmSpeed::parse(text).is_err(), "{text}");
        }
        for text in ["0", "409601", "4000000000"] {
            let why = FilmSpeed::parse(text).unwrap_err().to_string();
            assert!(
                why.ends_with("is not a film speed from 1 to 409600"),
                "{why}"
            );
        }
    }

    #[test]
    fn json_holds_a_whole_number_and_is_checked_on_the_way_in() {
        let speed = FilmSpeed::parse("EI 320").unwrap();
        assert_eq!(serde_json::to_string(&speed).unwrap(), "320");
        assert_eq!(serde_json::from_str::<FilmSpeed>("320").unwrap(), speed);
        let why = serde_json::from_str::<FilmSpeed>("0")
            .unwrap_err()
            .to_string();
        assert!(why.contains("\"0\" is not a film speed from 1"), "{why}");
        assert!(serde_json::from_str::<FilmSpeed>("-1").is_err());
    }

    proptest! {
        #[test]
        fn what_is_shown_is_read_back_the_same(value in 1_u32..=409_600) {
            let speed = FilmSpeed::new(value).unwrap();
            prop_assert_eq!(FilmSpeed::parse(&speed.to_string()).unwrap(), speed);
            let both = format!("ISO {value}/{}°", speed.degrees());
            prop_assert_eq!(FilmSpeed::parse(&both).unwrap(), speed);
        }

        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            if let Ok(speed) = FilmSpeed::parse(&text) {
                prop_assert!(speed.value() > 0);
            }
        }
    }
}
