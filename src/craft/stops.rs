//! A difference in exposure: what a filter takes, what a bellows takes, what lies between two
//! settings. A plus sign is more light on the film, a minus sign less.

use std::fmt;

use super::measure::measure;
use super::numeral::{Cursor, in_thirds, plain};
use super::unreadable::Unreadable;

const WANTED: &str = "a number of stops: write +1, -2/3, +1 1/3 or 0.5";

measure! {
    /// A signed number of stops, from -80 to 80; one stop doubles the exposure.
    ///
    /// ```
    /// use notchbook::craft::Stops;
    /// assert_eq!(Stops::parse("+1 1/3")?.to_string(), "+1 1/3 stops");
    /// assert_eq!(Stops::parse("-2/3 stop")?.to_string(), "-2/3 stop");
    /// assert_eq!(Stops::parse("2")?.factor(), 4.0);
    /// # Ok::<(), notchbook::craft::Unreadable>(())
    /// ```
    Stops, -80.0..=80.0, "a number of stops from -80 to +80"
}

impl Stops {
    /// Reads `+1`, `-2/3`, `1 1/3`, `+1+1/3`, `0.5 stop`. Without a sign it is more exposure.
    ///
    /// # Errors
    /// If the text is no number of stops, or one outside the range of the type.
    pub fn parse(text: &str) -> Result<Self, Unreadable> {
        let plain = plain(text);
        let stops = read(&plain).ok_or_else(|| Unreadable::new(text, WANTED))?;
        Self::read(stops, text)
    }

    /// The stops that multiply an exposure by `factor`: the base 2 logarithm of it.
    ///
    /// ```
    /// use notchbook::craft::Stops;
    /// assert_eq!(Stops::from_factor(8.0)?.to_string(), "+3 stops");
    /// assert!(Stops::from_factor(0.0).is_err());
    /// # Ok::<(), notchbook::craft::Unreadable>(())
    /// ```
    ///
    /// # Errors
    /// If the factor is not above zero, or further from 1 than the range of the type.
    pub fn from_factor(factor: f64) -> Result<Self, Unreadable> {
        Self::within(factor.log2()).ok_or_else(|| {
            Unreadable::new(
                &factor.to_string(),
                "a factor of exposure: it is above zero and within 80 stops of 1",
            )
        })
    }

    /// By how much the exposure is multiplied: 2 for one stop more, 1/2 for one less.
    #[must_use]
    pub fn factor(self) -> f64 {
        self.0.exp2()
    }

    /// A difference that the ranges of the quantities it was made from keep inside this one.
    pub(super) fn reckoned(stops: f64) -> Self {
        Self(stops.clamp(Self::LOWEST, Self::HIGHEST) + 0.0)
    }
}

fn read(plain: &str) -> Option<f64> {
    let mut cursor = Cursor::new(plain);
    let sign = cursor.sign();
    let mut stops = cursor.number()?;
    if cursor.take('+') {
        let part = cursor.number()?;
        if stops.fract() != 0.0 || part >= 1.0 || sign < 0.0 {
            return None;
        }
        stops += part;
    }
    (matches!(cursor.word(), "" | "stop" | "stops") && cursor.at_end()).then_some(sign * stops)
}

impl fmt::Display for Stops {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let amount = in_thirds(self.0);
        let sign = if amount == "0" || amount.starts_with('-') {
            ""
        } else {
            "+"
        };
        let one_at_most = self.0.abs() <= 1.0 && amount != "0";
        let name = if one_at_most { "stop" } else { "stops" };
        write!(f, "{sign}{amount} {name}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn stops_are_read_as_people_write_them() {
        for (text, shown) in [
            ("+1", "+1 stop"),
            ("1 stop", "+1 stop"),
            ("-2/3", "-2/3 stop"),
            ("−⅔", "-2/3 stop"),
            ("1⅓", "+1 1/3 stops"),
            ("+1+1/3", "+1 1/3 stops"),
            ("0,5", "+0.5 stop"),
            ("-10 STOPS", "-10 stops"),
            ("0", "0 stops"),
        ] {
            assert_eq!(Stops::parse(text).unwrap().to_string(), shown, "{text}");
        }
    }

    #[test]
    fn what_is_no_number_of_stops_is_refused() {
        for text in [
            "", "+", "+-1", "1 ev", "-1+1/3", "1+1", "x2", "nan", "81", "-81",
        ] {
            assert!(Stops::parse(text).is_err(), "{text}");
        }
        for factor in [0.0, -2.0, f64::NAN, f64::INFINITY] {
            assert!(Stops::from_factor(factor).is_err(), "{factor}");
        }
    }

    #[test]
    fn json_holds_a_number_and_is_checked_on_the_way_in() {
        let stops = Stops::parse("-0.5").unwrap();
        assert_eq!(serde_json::to_string(&stops).unwrap(), "-0.5");
        assert_eq!(serde_json::from_str::<Stops>("-0.5").unwrap(), stops);
        assert!(serde_json::from_str::<Stops>("1000").is_err());
    }

    proptest! {
        #[test]
        fn what_is_shown_can_be_read_back(value in -80.0..=80.0_f64) {
            let stops = Stops::new(value).unwrap();
            let back = Stops::parse(&stops.to_string()).unwrap();
            prop_assert!((back.value() - value).abs() <= 0.005_001);
        }

        #[test]
        fn a_factor_goes_there_and_back(value in -80.0..=80.0_f64) {
            let stops = Stops::new(value).unwrap();
            let back = Stops::from_factor(stops.factor()).unwrap();
            prop_assert!((back.value() - value).abs() < 1e-9);
        }

        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            if let Ok(stops) = Stops::parse(&text) {
                prop_assert!(stops.value().is_finite());
            }
        }
    }
}
