//! A temperature: of a bath, of a room, of a press.

use std::fmt;

use super::measure::measure;
use super::numeral::{Cursor, plain, trimmed, without_noise};
use super::unreadable::Unreadable;

const WANTED: &str = "a temperature: write 20, 20.5 C or 68F";

measure! {
    /// A temperature in degrees Celsius, from -50 to 250.
    ///
    /// ```
    /// use notchbook::craft::Celsius;
    /// assert_eq!(Celsius::parse("68F")?.to_string(), "20.0 C");
    /// assert_eq!(Celsius::parse("20,5 °C")?.value(), 20.5);
    /// assert!(Celsius::parse("2000 C").is_err());
    /// # Ok::<(), notchbook::craft::Unreadable>(())
    /// ```
    Celsius, -50.0..=250.0, "a temperature from -50 C to 250 C (-58 F to 482 F)"
}

impl Celsius {
    /// Reads `20`, `20C`, `20.5 °C`, `68F`, `68 °F`, `-5 C`. A bare number is degrees Celsius.
    ///
    /// # Errors
    /// If the text is no temperature, or one outside the range of the type.
    pub fn parse(text: &str) -> Result<Self, Unreadable> {
        let plain = plain(text);
        let degrees = read(&plain).ok_or_else(|| Unreadable::new(text, WANTED))?;
        Self::read(without_noise(degrees), text)
    }

    /// The same temperature in degrees Fahrenheit.
    ///
    /// ```
    /// use notchbook::craft::Celsius;
    /// assert_eq!(Celsius::new(20.0)?.fahrenheit(), 68.0);
    /// # Ok::<(), notchbook::craft::Unreadable>(())
    /// ```
    #[must_use]
    pub fn fahrenheit(self) -> f64 {
        self.0 * 9.0 / 5.0 + 32.0
    }
}

fn read(plain: &str) -> Option<f64> {
    let mut cursor = Cursor::new(plain);
    let sign = cursor.sign();
    let degrees = sign * cursor.number()?;
    let unit = cursor.words().replace('\u{b0}', "");
    if !cursor.at_end() {
        return None;
    }
    let unit = ["degrees", "deg"]
        .into_iter()
        .find_map(|word| unit.strip_prefix(word))
        .unwrap_or(&unit);
    match unit {
        "" | "c" | "celsius" | "centigrade" => Some(degrees),
        "f" | "fahrenheit" => Some((degrees - 32.0) * 5.0 / 9.0),
        _ => None,
    }
}

impl fmt::Display for Celsius {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let degrees = trimmed(self.0, 2);
        // One place at least: 20.0 C says that tenths were looked at.
        let tenth = if degrees.contains('.') { "" } else { ".0" };
        write!(f, "{degrees}{tenth} C")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn temperatures_are_read_as_people_write_them() {
        for (text, shown) in [
            ("20", "20.0 C"),
            ("20C", "20.0 C"),
            ("20 c", "20.0 C"),
            ("20.5 °C", "20.5 C"),
            ("20,5ºC", "20.5 C"),
            ("20°", "20.0 C"),
            ("20 degrees", "20.0 C"),
            ("20 deg. C", "20.0 C"),
            ("68F", "20.0 C"),
            ("68 °f", "20.0 C"),
            ("68 1/2 F", "20.28 C"),
            ("-5", "-5.0 C"),
            ("−5 °C", "-5.0 C"),
            ("+5", "5.0 C"),
            ("-0", "0.0 C"),
            ("212 Fahrenheit", "100.0 C"),
        ] {
            assert_eq!(Celsius::parse(text).unwrap().to_string(), shown, "{text}");
        }
    }

    #[test]
    fn what_is_no_temperature_is_refused() {
        for text in [
            "", "C", "20 K", "20 C 3", "--5", "20 cc", "warm", "nan", "inf C",
        ] {
            assert!(Celsius::parse(text).is_err(), "{text}");
        }
        for text in ["251", "-51 C", "500 F", "-60F"] {
            let why = Celsius::parse(text).unwrap_err().to_string();
            assert!(
                why.contains("is not a temperature from -50 C to 250 C"),
                "{why}"
            );
        }
        assert!(Celsius::new(f64::NAN).is_err());
    }

    #[test]
    fn json_holds_a_number_and_is_checked_on_the_way_in() {
        let bath = Celsius::parse("68F").unwrap();
        assert_eq!(serde_json::to_string(&bath).unwrap(), "20.0");
        assert_eq!(serde_json::from_str::<Celsius>("20").unwrap(), bath);
        let why = serde_json::from_str::<Celsius>("999")
            .unwrap_err()
            .to_string();
        assert!(why.contains("\"999\" is not a temperature from"), "{why}");
    }

    proptest! {
        #[test]
        fn what_is_shown_can_be_read_back(value in -50.0..=250.0_f64) {
            let bath = Celsius::new(value).unwrap();
            let back = Celsius::parse(&bath.to_string()).unwrap();
            prop_assert!((back.value() - value).abs() <= 0.005_001);
        }

        #[test]
        fn fahrenheit_goes_there_and_back(value in -50.0..=250.0_f64) {
            let bath = Celsius::new(value).unwrap();
            let text = format!("{:.4} F", bath.fahrenheit());
            prop_assume!((-49.99..249.99).contains(&value));
            prop_assert!((Celsius::parse(&text).unwrap().value() - value).abs() < 1e-4);
        }

        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            if let Ok(bath) = Celsius::parse(&text) {
                prop_assert!(bath.value().is_finite());
            }
        }
    }
}
