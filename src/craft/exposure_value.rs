//! An exposure value: what a meter reads, and what aperture and time come to.

use std::fmt;

use super::measure::measure;
use super::numeral::{Cursor, in_thirds, plain};
use super::unreadable::Unreadable;

const WANTED: &str = "an exposure value: write EV 11.3, 11.3 or 11 1/3";

measure! {
    /// An exposure value in stops, from -30 to 50; EV 0 is f/1 at 1 s.
    ///
    /// It says nothing about film speed; a reading is kept beside the speed it was taken for.
    ///
    /// ```
    /// use notchbook::craft::ExposureValue;
    /// assert_eq!(ExposureValue::parse("EV 11.3")?.to_string(), "EV 11.3");
    /// assert_eq!(ExposureValue::parse("11 1/3")?.to_string(), "EV 11 1/3");
    /// assert_eq!(ExposureValue::parse("-2")?.value(), -2.0);
    /// # Ok::<(), notchbook::craft::Unreadable>(())
    /// ```
    ExposureValue, -30.0..=50.0, "an exposure value from EV -30 to EV 50"
}

impl ExposureValue {
    /// Reads `EV 11.3`, `11.3`, `11,3`, `11 1/3`, `11+1/3`, `EV-2`, `LV 12`, `12 EV`.
    ///
    /// # Errors
    /// If the text is no exposure value, or one outside the range of the type.
    pub fn parse(text: &str) -> Result<Self, Unreadable> {
        let plain = plain(text);
        let value = read(&plain).ok_or_else(|| Unreadable::new(text, WANTED))?;
        Self::read(value, text)
    }

    /// A value that the ranges of the quantities it was made from keep inside this one.
    pub(super) fn reckoned(value: f64) -> Self {
        Self(value.clamp(Self::LOWEST, Self::HIGHEST) + 0.0)
    }
}

fn read(plain: &str) -> Option<f64> {
    let mut cursor = Cursor::new(plain);
    if !is_name(cursor.word()) {
        return None;
    }
    let sign = cursor.sign();
    let mut value = cursor.number()?;
    if cursor.take('+') {
        let part = cursor.number()?;
        if value.fract() != 0.0 || part >= 1.0 || sign < 0.0 {
            return None;
        }
        value += part;
    }
    (is_name(cursor.word()) && cursor.at_end()).then_some(sign * value)
}

fn is_name(word: &str) -> bool {
    matches!(word, "" | "ev" | "lv")
}

impl fmt::Display for ExposureValue {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "EV {}", in_thirds(self.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn values_are_read_as_people_write_them() {
        for (text, shown) in [
            ("EV 11.3", "EV 11.3"),
            ("ev11,3", "EV 11.3"),
            ("11.3", "EV 11.3"),
            ("11 1/3", "EV 11 1/3"),
            ("11⅓", "EV 11 1/3"),
            ("11+1/3", "EV 11 1/3"),
            ("11 + 0.3", "EV 11.3"),
            ("12 EV", "EV 12"),
            ("LV 12", "EV 12"),
            ("-2", "EV -2"),
            ("EV−2 1/3", "EV -2 1/3"),
            ("+3", "EV 3"),
            ("2/3", "EV 2/3"),
            ("0", "EV 0"),
        ] {
            assert_eq!(
                ExposureValue::parse(text).unwrap().to_string(),
                shown,
                "{text}"
            );
        }
    }

    #[test]
    fn what_is_no_exposure_value_is_refused() {
        for text in [
            "", "EV", "EV 11 12", "EV100 12", "11.3+1/3", "-2+1/3", "11+2", "11-1/3", "f/11",
            "nan", "12 lx",
        ] {
            assert!(ExposureValue::parse(text).is_err(), "{text}");
        }
        let why = ExposureValue::parse("EV 51").unwrap_err().to_string();
        assert_eq!(
            why,
            "\"EV 51\" is not an exposure value from EV -30 to EV 50"
        );
        assert!(ExposureValue::new(f64::NAN).is_err());
    }

    #[test]
    fn json_holds_a_number_and_is_checked_on_the_way_in() {
        let reading = ExposureValue::parse("11 1/3").unwrap();
        let json = serde_json::to_string(&reading).unwrap();
        assert_eq!(
            serde_json::from_str::<ExposureValue>(&json).unwrap(),
            reading
        );
        let why = serde_json::from_str::<ExposureValue>("99")
            .unwrap_err()
            .to_string();
        assert!(
            why.contains("\"99\" is not an exposure value from"),
            "{why}"
        );
    }

    proptest! {
        #[test]
        fn what_is_shown_can_be_read_back(value in -30.0..=50.0_f64) {
            let reading = ExposureValue::new(value).unwrap();
            let back = ExposureValue::parse(&reading.to_string()).unwrap();
            prop_assert!((back.value() - value).abs() <= 0.005_001);
        }

        #[test]
        fn thirds_come_back_as_thirds(thirds in -90..=150) {
            let reading = ExposureValue::new(f64::from(thirds) / 3.0).unwrap();
            let back = ExposureValue::parse(&reading.to_string()).unwrap();
            prop_assert!((back.value() - reading.value()).abs() < 1e-12);
        }

        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            if let Ok(reading) = ExposureValue::parse(&text) {
                prop_assert!(reading.value().is_finite());
            }
        }
    }
}
