//! How far off a subject is, which may be without end.

use std::fmt;

use crate::craft::numeral::{Cursor, plain, trimmed, without_noise};
use crate::craft::{Amount, Millimetres, Unreadable};

/// The distance from which on everything counts as infinity: 1000 km.
const ENDLESS: f64 = 1e9;

/// A distance in front of the lens: above zero, or infinity.
///
/// ```
/// use notchbook::craft::optics::Distance;
/// assert_eq!(Distance::parse("2.5 m")?.to_string(), "2.5 m");
/// assert_eq!(Distance::parse("horizon")?, Distance::INFINITY);
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Distance(
    /// Millimetres; infinity is the number of that name.
    f64,
);

impl Distance {
    /// Without end.
    pub const INFINITY: Distance = Distance(f64::INFINITY);

    /// So many millimetres off; 1000 km and more is infinity.
    ///
    /// # Errors
    /// If it is not above zero, or no number at all.
    pub fn new(millimetres: f64) -> Result<Distance, Unreadable> {
        Distance::within(millimetres)
            .ok_or_else(|| Unreadable::new(&trimmed(millimetres, 3), "a distance above 0 mm"))
    }

    fn within(millimetres: f64) -> Option<Distance> {
        if millimetres >= ENDLESS {
            Some(Distance::INFINITY)
        } else {
            (millimetres > 0.0).then_some(Distance(millimetres))
        }
    }

    /// A distance that a formula gave: what is not above zero lies beyond infinity, as far limits do.
    pub(super) fn reckoned(millimetres: f64) -> Distance {
        Distance::within(millimetres).unwrap_or(Distance::INFINITY)
    }

    /// Reads a length (`3 m`, `12 ft`, `850 mm`), `5 km`, `infinity`, `inf`, `∞` or `horizon`.
    ///
    /// # Errors
    /// If the text is none of them, or a distance of zero.
    pub fn parse(text: &str) -> Result<Distance, Unreadable> {
        const WANTED: &str = "a distance: write 3 m, 12 ft, 850 mm or infinity";
        let plain = plain(text);
        if matches!(plain.as_str(), "infinity" | "inf" | "\u{221e}" | "horizon") {
            return Ok(Distance::INFINITY);
        }
        let mut cursor = Cursor::new(&plain);
        let kilometres = cursor
            .number()
            .filter(|_| cursor.word() == "km" && cursor.at_end());
        let length = match kilometres {
            Some(kilometres) => kilometres * 1e6,
            None => Millimetres::parse(text)
                .map_err(|_| Unreadable::new(text, WANTED))?
                .value(),
        };
        Distance::within(without_noise(length)).ok_or_else(|| Unreadable::new(text, WANTED))
    }

    /// In millimetres; nothing for infinity.
    #[must_use]
    pub fn millimetres(self) -> Option<f64> {
        self.0.is_finite().then_some(self.0)
    }

    /// Whether it has no end.
    #[must_use]
    pub const fn is_infinite(self) -> bool {
        self.0.is_infinite()
    }

    /// One over it, per millimetre: nothing for infinity. Formulas in it hold at infinity too.
    pub(super) fn inverse(self) -> f64 {
        1.0 / self.0
    }

    /// As a result shows it: metres, or the word infinity.
    #[must_use]
    pub fn amount(self) -> Amount {
        match self.millimetres() {
            None => Amount::words("infinity"),
            Some(length) => {
                let metres = length / 1000.0;
                Amount::number(metres, "m", places(metres))
            }
        }
    }
}

/// Decimals that mean something for a distance in metres.
const fn places(metres: f64) -> usize {
    if metres < 10.0 {
        3
    } else if metres < 100.0 {
        2
    } else {
        1
    }
}

impl From<Distance> for Amount {
    fn from(distance: Distance) -> Amount {
        distance.amount()
    }
}

impl fmt::Display for Distance {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.amount().fmt(f)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn distances_are_read_as_people_write_them() {
        for (text, millimetres) in [
            ("3 m", 3000.0),
            ("12 ft", 3657.6),
            ("850", 850.0),
            ("5 km", 5e6),
            ("1,5 m", 1500.0),
        ] {
            let read = Distance::parse(text).unwrap().millimetres().unwrap();
            assert!((read - millimetres).abs() < 1e-6, "{text}: {read}");
        }
        for text in ["infinity", "Inf", "∞", "horizon", "2000 km"] {
            assert!(Distance::parse(text).unwrap().is_infinite(), "{text}");
        }
        for text in ["", "0", "-3 m", "far", "nan", "3 kg"] {
            assert!(Distance::parse(text).is_err(), "{text}");
        }
        assert!(Distance::new(f64::NAN).is_err());
    }

    #[test]
    fn infinity_is_said_in_words() {
        assert_eq!(Distance::INFINITY.to_string(), "infinity");
        assert_eq!(Distance::new(f64::INFINITY).unwrap(), Distance::INFINITY);
        assert_eq!(Distance::new(12_345.6).unwrap().to_string(), "12.35 m");
    }

    proptest! {
        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            if let Ok(distance) = Distance::parse(&text) {
                prop_assert!(distance.inverse() >= 0.0);
            }
        }
    }
}
