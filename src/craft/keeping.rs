//! How long a solution keeps: so many days from the mixing, or until a day that stands on the bottle.

use std::fmt;

use chrono::{Days, NaiveDate};
use serde::{Deserialize, Serialize};

use super::numeral::{Cursor, plain};
use super::unreadable::Unreadable;

const WANTED: &str = "a keeping time: write 60 days, 8 weeks, 2 months or the last day, 2027-03-01";
const RANGE: &str = "a keeping time from a day to 36500 days";
/// A hundred years.
const MOST_DAYS: u32 = 36_500;

/// How long a solution keeps.
///
/// ```
/// use notchbook::craft::Keeping;
/// assert_eq!(Keeping::parse("2 months")?, Keeping::Days(60));
/// assert_eq!(Keeping::parse("8 weeks")?.to_string(), "56 days");
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(untagged)]
pub enum Keeping {
    /// So many days from the mixing.
    Days(u32),
    /// Until this day, and on it.
    Until(NaiveDate),
}

impl Keeping {
    /// Reads `60`, `60 days`, `24 h`, `8 weeks`, `2 months` (of 30 days), `1 year` (of 365), and a date
    /// as `2027-03-01`.
    ///
    /// # Errors
    /// If the text is neither a span nor a date, or no day at all.
    pub fn parse(text: &str) -> Result<Self, Unreadable> {
        if let Ok(day) = NaiveDate::parse_from_str(text.trim(), "%Y-%m-%d") {
            return Ok(Self::Until(day));
        }
        let plain = plain(text);
        let mut cursor = Cursor::new(&plain);
        let (count, unit) = match (cursor.number(), cursor.word()) {
            (Some(count), unit) if cursor.at_end() => (count, unit),
            _ => return Err(Unreadable::new(text, WANTED)),
        };
        let days = match unit {
            "" | "d" | "day" | "days" => count,
            "h" | "hour" | "hours" => count / 24.0,
            "w" | "week" | "weeks" => count * 7.0,
            "month" | "months" => count * 30.0,
            "y" | "year" | "years" => count * 365.0,
            _ => return Err(Unreadable::new(text, WANTED)),
        };
        let whole = super::numeral::exact_u32((days - 1e-9).ceil());
        match whole {
            Some(days) if (1..=MOST_DAYS).contains(&days) => Ok(Self::Days(days)),
            _ => Err(Unreadable::new(text, RANGE)),
        }
    }

    /// The last day on which it is still good, for what was mixed on a day.
    #[must_use]
    pub fn last_day(self, mixed: NaiveDate) -> NaiveDate {
        match self {
            Self::Days(days) => mixed
                .checked_add_days(Days::new(u64::from(days)))
                .unwrap_or(NaiveDate::MAX),
            Self::Until(day) => day,
        }
    }
}

impl fmt::Display for Keeping {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Days(1) => f.write_str("1 day"),
            Self::Days(days) => write!(f, "{days} days"),
            Self::Until(day) => write!(f, "{day}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn day(text: &str) -> NaiveDate {
        text.parse().expect("a day")
    }

    #[test]
    fn spans_are_read_in_days_and_a_day_stays_a_day() {
        for (text, shown) in [
            ("60", "60 days"),
            ("1 day", "1 day"),
            ("24 h", "1 day"),
            ("36 h", "2 days"),
            ("8 weeks", "56 days"),
            ("2 months", "60 days"),
            ("1/2 year", "183 days"),
            ("2027-03-01", "2027-03-01"),
        ] {
            let keeping = Keeping::parse(text).unwrap_or_else(|why| panic!("{why}"));
            assert_eq!(keeping.to_string(), shown, "{text}");
            let json = serde_json::to_string(&keeping).unwrap();
            assert_eq!(serde_json::from_str::<Keeping>(&json).unwrap(), keeping);
        }
        for text in [
            "",
            "0",
            "-3 days",
            "for ever",
            "2 m",
            "2027-02-30",
            "nan",
            "101 years",
        ] {
            assert!(Keeping::parse(text).is_err(), "{text}");
        }
    }

    #[test]
    fn it_is_good_on_its_last_day() {
        let mixed = day("2026-03-01");
        assert_eq!(Keeping::Days(60).last_day(mixed), day("2026-04-30"));
        let until = Keeping::Until(day("2026-03-09"));
        assert_eq!(until.last_day(mixed), day("2026-03-09"));
        assert_eq!(
            Keeping::Days(u32::MAX).last_day(NaiveDate::MAX),
            NaiveDate::MAX
        );
    }

    proptest! {
        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            if let Ok(keeping) = Keeping::parse(&text) {
                prop_assert_eq!(Keeping::parse(&keeping.to_string()).unwrap(), keeping);
            }
        }
    }
}
