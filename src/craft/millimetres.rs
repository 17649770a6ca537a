//! A length: a focal length, a bellows draw, a board's thickness, a border.

use std::fmt;

use super::measure::measure;
use super::numeral::{Cursor, plain, trimmed, without_noise};
use super::unreadable::Unreadable;

const WANTED: &str = "a length: write 240, 240 mm, 24 cm, 9.5 in or 13 1/2 in";

measure! {
    /// A length in millimetres, from 0 to 1 km.
    ///
    /// ```
    /// use notchbook::craft::Millimetres;
    /// assert_eq!(Millimetres::parse("240")?.value(), 240.0);
    /// assert_eq!(Millimetres::parse("13 1/2 in")?.to_string(), "342.9 mm");
    /// assert!(Millimetres::parse("-5 mm").is_err());
    /// # Ok::<(), notchbook::craft::Unreadable>(())
    /// ```
    Millimetres, 0.0..=1_000_000.0, "a length from 0 mm to 1 km"
}

/// Millimetres in an inch, exact by definition.
pub(super) const INCH: f64 = 25.4;

impl Millimetres {
    /// Reads `240`, `240mm`, `24 cm`, `1.2 m`, `9.5in`, `13 1/2"`, `13-1/2 in`, `5' 6"`, `12 ft`.
    ///
    /// A bare number is millimetres.
    ///
    /// # Errors
    /// If the text is no length, or a length outside the range of the type.
    pub fn parse(text: &str) -> Result<Self, Unreadable> {
        let plain = plain(text);
        let length = read(&join_mixed(&plain)).ok_or_else(|| Unreadable::new(text, WANTED))?;
        Self::read(without_noise(length), text)
    }
}

/// Joins whole number and fraction where rulers' notation puts a dash: `13-1/2` is `13 1/2`.
pub(super) fn join_mixed(plain: &str) -> String {
    let mut joined = String::with_capacity(plain.len());
    for c in plain.chars() {
        let after_digit = joined.ends_with(|c: char| c.is_ascii_digit());
        joined.push(if c == '-' && after_digit { ' ' } else { c });
    }
    joined
}

fn read(plain: &str) -> Option<f64> {
    let mut cursor = Cursor::new(plain);
    let amount = cursor.number()?;
    let unit = match cursor.word() {
        "" => 1.0,
        word => in_millimetres(word)?,
    };
    if cursor.at_end() {
        return Some(amount * unit);
    }
    // Feet may be followed by inches, and by nothing else.
    let inches = cursor.number()?;
    let fits = unit == 12.0 * INCH
        && inches < 12.0
        && in_millimetres(cursor.word()) == Some(INCH)
        && cursor.at_end();
    fits.then_some(amount * unit + inches * INCH)
}

fn in_millimetres(word: &str) -> Option<f64> {
    Some(match word {
        "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => 1.0,
        "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => 10.0,
        "m" | "metre" | "metres" | "meter" | "meters" => 1000.0,
        "in" | "inch" | "inches" | "\"" => INCH,
        "ft" | "foot" | "feet" | "'" => 12.0 * INCH,
        _ => return None,
    })
}

impl fmt::Display for Millimetres {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} mm", trimmed(self.0, 3))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn lengths_are_read_as_people_write_them() {
        for (text, length) in [
            ("240", 240.0),
            ("240mm", 240.0),
            ("240 MM", 240.0),
            ("24cm", 240.0),
            ("1,2 m", 1200.0),
            ("9.5in", 241.3),
            ("13 1/2 in", 342.9),
            ("13-1/2 in", 342.9),
            ("13½\"", 342.9),
            ("13 ½″", 342.9),
            ("1/16 inch", 1.5875),
            ("12 ft", 3657.6),
            ("5' 6\"", 1676.4),
            ("5ft 6in", 1676.4),
            ("0", 0.0),
        ] {
            let read = Millimetres::parse(text).unwrap().value();
            assert!((read - length).abs() < 1e-9, "{text}: {read}");
        }
    }

    #[test]
    fn what_is_no_length_is_refused() {
        for text in [
            "",
            "mm",
            "-5",
            "240 kg",
            "24 cm 3",
            "5 in 6 in",
            "5 ft 13 in",
            "5 ft 6",
            "8x10",
            "1-2",
            "-1/2 in",
            "2 km",
            "1000001",
            "nan",
        ] {
            assert!(Millimetres::parse(text).is_err(), "{text}");
        }
        assert!(Millimetres::new(f64::NAN).is_err());
    }

    #[test]
    fn json_holds_a_number_and_is_checked_on_the_way_in() {
        let length = Millimetres::parse("9.5 in").unwrap();
        let json = serde_json::to_string(&length).unwrap();
        assert_eq!(json, "241.3");
        assert_eq!(serde_json::from_str::<Millimetres>(&json).unwrap(), length);
        let why = serde_json::from_str::<Millimetres>("-1")
            .unwrap_err()
            .to_string();
        assert!(
            why.contains("\"-1\" is not a length from 0 mm to 1 km"),
            "{why}"
        );
    }

    proptest! {
        #[test]
        fn what_is_shown_can_be_read_back(value in 0.0..=1e6_f64) {
            let length = Millimetres::new(value).unwrap();
            let back = Millimetres::parse(&length.to_string()).unwrap();
            prop_assert!((back.value() - value).abs() <= 0.000_501);
        }

        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            if let Ok(length) = Millimetres::parse(&text) {
                prop_assert!(length.value() >= 0.0);
            }
        }
    }
}
