//! Time spent: a shutter time, a count aloud, minutes in a tray, an hour in the wash.
//!
//! The value is what was typed: a mark such as 1/125 stays 1/125 here. That a shutter marked so
//! belongs to a series of exact halvings is the business of [`super::exposure`].

use std::fmt;

use super::measure::measure;
use super::numeral::{Cursor, plain, trimmed};
use super::unreadable::Unreadable;

const WANTED: &str = "a time: write 1/15, 4.5 s, 2m30, 2:30 or 1h05";

measure! {
    /// A length of time in seconds, from 1/100000 s to 30 days.
    ///
    /// ```
    /// use notchbook::craft::Seconds;
    /// assert_eq!(Seconds::parse("2m30")?.value(), 150.0);
    /// assert_eq!(Seconds::parse("1/15")?.to_string(), "1/15 s");
    /// assert_eq!(Seconds::parse("0.5")?.to_string(), "1/2 s");
    /// assert_eq!(Seconds::parse("90 min")?.to_string(), "1 h 30 min");
    /// assert!(Seconds::parse("0").is_err());
    /// # Ok::<(), notchbook::craft::Unreadable>(())
    /// ```
    Seconds, 0.000_01..=2_592_000.0, "a time from 1/100000 s to 30 days"
}

const SECOND: f64 = 1.0;
const MINUTE: f64 = 60.0;
const HOUR: f64 = 3600.0;
const DAY: f64 = 86_400.0;

impl Seconds {
    /// Reads `1/15`, `4.5s`, `4.5`, `2m30`, `2'30"`, `2:30`, `1h`, `1h05`, `1:05:00`, `90 min`.
    ///
    /// A bare number is seconds; a bare number after minutes is seconds, after hours minutes.
    ///
    /// # Errors
    /// If the text is no time, or a time outside the range of the type.
    pub fn parse(text: &str) -> Result<Self, Unreadable> {
        let plain = plain(text);
        let seconds = if plain.contains(':') {
            read_clock(&plain)
        } else {
            read_units(&plain)
        };
        Self::read(seconds.ok_or_else(|| Unreadable::new(text, WANTED))?, text)
    }

    /// The time as a clock shows it, to the nearest second: `2:30`, `1:05:00`, `0:04`.
    ///
    /// ```
    /// use notchbook::craft::Seconds;
    /// assert_eq!(Seconds::new(150.0)?.clock(), "2:30");
    /// assert_eq!(Seconds::new(3900.0)?.clock(), "1:05:00");
    /// # Ok::<(), notchbook::craft::Unreadable>(())
    /// ```
    #[must_use]
    pub fn clock(self) -> String {
        // The range of the type keeps this far inside u64.
        let total = self.0.round() as u64;
        let (hours, minutes, seconds) = (total / 3600, total / 60 % 60, total % 60);
        if hours > 0 {
            format!("{hours}:{minutes:02}:{seconds:02}")
        } else {
            format!("{minutes}:{seconds:02}")
        }
    }
}

/// `2:30` and `1:05:00`.
fn read_clock(plain: &str) -> Option<f64> {
    let parts: Vec<&str> = plain.split(':').collect();
    let (hours, minutes, seconds) = match parts[..] {
        [minutes, seconds] => (0, minutes, seconds),
        [hours, minutes, seconds] => (all_digits(hours)?, minutes, seconds),
        _ => return None,
    };
    let minutes = all_digits(minutes)?;
    let mut cursor = Cursor::new(seconds);
    let seconds = cursor.decimal()?;
    let fits = seconds < MINUTE && (parts.len() == 2 || minutes < 60);
    (fits && cursor.at_end())
        .then(|| f64::from(hours) * HOUR + f64::from(minutes) * MINUTE + seconds)
}

fn all_digits(text: &str) -> Option<u32> {
    let mut cursor = Cursor::new(text);
    cursor.whole().filter(|_| cursor.at_end())
}

/// Numbers with units, from the largest unit down.
fn read_units(plain: &str) -> Option<f64> {
    let mut cursor = Cursor::new(plain);
    let mut total = 0.0;
    let mut above = None;
    loop {
        let amount = cursor.number()?;
        let word = cursor.word();
        let unit = if word.is_empty() {
            match above {
                None | Some(MINUTE) => SECOND,
                Some(HOUR) => MINUTE,
                Some(_) => return None,
            }
        } else {
            unit(word)?
        };
        // "2m 90s" and "5s 2m" are slips, not times.
        if above.is_some_and(|above| amount * unit >= above) {
            return None;
        }
        total += amount * unit;
        if cursor.at_end() {
            return Some(total);
        }
        if word.is_empty() {
            return None;
        }
        above = Some(unit);
    }
}

fn unit(word: &str) -> Option<f64> {
    Some(match word {
        "s" | "sec" | "secs" | "second" | "seconds" | "\"" => SECOND,
        "m" | "min" | "mins" | "minute" | "minutes" | "'" => MINUTE,
        "h" | "hr" | "hrs" | "hour" | "hours" => HOUR,
        "d" | "day" | "days" => DAY,
        "ms" | "msec" | "millisecond" | "milliseconds" => 0.001,
        _ => return None,
    })
}

impl fmt::Display for Seconds {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let time = self.0;
        let below = (1.0 / time).round();
        if time < 0.75 && (time * below - 1.0).abs() < 1e-9 {
            return write!(f, "1/{below} s");
        }
        if time < 1.0 {
            let places = match time {
                t if t >= 0.1 => 4,
                t if t >= 0.01 => 5,
                t if t >= 0.001 => 6,
                _ => 8,
            };
            return write!(f, "{} s", trimmed(time, places));
        }
        // Rounded before it is split, so that no part ever reads 60.
        let short = trimmed(time, 3);
        if time < MINUTE && short != "60" {
            return write!(f, "{short} s");
        }
        let tenths = (time * 10.0).round();
        let (minutes, seconds) = if tenths < HOUR * 10.0 {
            ((tenths / 600.0).floor(), tenths % 600.0 / 10.0)
        } else {
            let whole = time.round();
            ((whole / MINUTE).floor(), whole % MINUTE)
        };
        let (hours, minutes) = ((minutes / 60.0).floor(), minutes % 60.0);
        let parts: Vec<String> = [(hours, "h"), (minutes, "min"), (seconds, "s")]
            .into_iter()
            .filter(|(amount, _)| *amount > 0.0)
            .map(|(amount, unit)| format!("{} {unit}", trimmed(amount, 1)))
            .collect();
        f.write_str(&parts.join(" "))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn value(text: &str) -> f64 {
        Seconds::parse(text).map(Seconds::value).unwrap()
    }

    #[test]
    fn times_are_read_as_people_write_them() {
        for (text, seconds) in [
            ("1/15", 1.0 / 15.0),
            ("1/15s", 1.0 / 15.0),
            ("1/15 SEC.", 1.0 / 15.0),
            ("½", 0.5),
            ("4.5", 4.5),
            ("4,5 s", 4.5),
            ("4\"", 4.0),
            ("8 ms", 0.008),
            ("1 1/2", 1.5),
            ("2m30", 150.0),
            ("2m30s", 150.0),
            ("2 min 30 sec", 150.0),
            ("2'30\"", 150.0),
            ("2′ 30″", 150.0),
            ("2''", 2.0),
            ("2:30", 150.0),
            ("0:04.5", 4.5),
            ("90:00", 5400.0),
            ("1:05:00", 3900.0),
            ("1h", 3600.0),
            ("1h05", 3900.0),
            ("1H 5M 7", 3907.0),
            ("1½ hours", 5400.0),
            ("90 min", 5400.0),
            ("2 days", 172_800.0),
        ] {
            assert!((value(text) - seconds).abs() < 1e-9, "{text}");
        }
    }

    #[test]
    fn slips_are_refused_and_not_guessed() {
        for text in [
            "",
            "s",
            "1/",
            "1/0",
            "5s 2m",
            "2m90",
            "2m 30s 10",
            "1:75",
            "1:75:00",
            "1:2:3:4",
            "2 30",
            "4 x",
            "-4",
            "1h h",
            "nan",
            "inf",
            "1 000 s",
            "2m2m",
            "0\"4",
        ] {
            assert!(Seconds::parse(text).is_err(), "{text}");
        }
    }

    #[test]
    fn nothing_outside_the_range_is_built() {
        for text in [
            "0",
            "0 s",
            "0:00",
            "0.000001",
            "31 days",
            "99999999999999999999",
        ] {
            let why = Seconds::parse(text).unwrap_err().to_string();
            assert!(
                why.ends_with("is not a time from 1/100000 s to 30 days"),
                "{why}"
            );
        }
        for number in [0.0, -1.0, f64::NAN, f64::INFINITY, 3e6] {
            assert!(Seconds::new(number).is_err(), "{number}");
        }
    }

    #[test]
    fn times_are_shown_as_people_read_them() {
        for (text, shown) in [
            ("1/15", "1/15 s"),
            ("0.5", "1/2 s"),
            ("0.3", "0.3 s"),
            ("0.004", "1/250 s"),
            ("0.99", "0.99 s"),
            ("1", "1 s"),
            ("4.5", "4.5 s"),
            ("60", "1 min"),
            ("59.9999", "1 min"),
            ("150", "2 min 30 s"),
            ("150.5", "2 min 30.5 s"),
            ("3599.99", "1 h"),
            ("3905", "1 h 5 min 5 s"),
            ("2 days", "48 h"),
        ] {
            assert_eq!(Seconds::parse(text).unwrap().to_string(), shown, "{text}");
        }
    }

    #[test]
    fn the_clock_carries_and_never_shows_sixty() {
        for (seconds, shown) in [
            (59.6, "1:00"),
            (3599.7, "1:00:00"),
            (4.4, "0:04"),
            (0.1, "0:00"),
        ] {
            assert_eq!(Seconds::new(seconds).unwrap().clock(), shown);
        }
    }

    #[test]
    fn json_holds_a_number_and_is_checked_on_the_way_in() {
        let time = Seconds::parse("2m30").unwrap();
        assert_eq!(serde_json::to_string(&time).unwrap(), "150.0");
        assert_eq!(serde_json::from_str::<Seconds>("150").unwrap(), time);
        let why = serde_json::from_str::<Seconds>("0")
            .unwrap_err()
            .to_string();
        assert!(
            why.contains("\"0\" is not a time from 1/100000 s to 30 days"),
            "{why}"
        );
    }

    proptest! {
        #[test]
        fn what_is_shown_can_be_read_back(exponent in -4.9..6.4_f64) {
            let time = Seconds::new(10_f64.powf(exponent)).unwrap();
            let back = value(&time.to_string());
            let precision = match time.value() {
                t if t < 1.0 => t * 1e-3,
                t if t < 60.0 => 0.001,
                t if t < 3600.0 => 0.051,
                _ => 0.51,
            };
            prop_assert!((back - time.value()).abs() <= precision, "{time} {back}");
        }

        #[test]
        fn marks_come_back_exactly(below in 2_u32..8000) {
            let time = Seconds::parse(&format!("1/{below}")).unwrap();
            prop_assert_eq!(Seconds::parse(&time.to_string()).unwrap(), time);
        }

        #[test]
        fn json_gives_back_the_very_same_time(exponent in -4.9..6.4_f64) {
            let time = Seconds::new(10_f64.powf(exponent)).unwrap();
            let json = serde_json::to_string(&time).unwrap();
            prop_assert_eq!(serde_json::from_str::<Seconds>(&json).unwrap(), time);
        }

        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            if let Ok(time) = Seconds::parse(&text) {
                prop_assert!(time.value() > 0.0);
                let _ = (time.to_string(), time.clock());
            }
        }
    }
}
