//! How much light a negative or a print holds back, as the logarithm of one over what passes.

use std::fmt;

use super::measure::measure;
use super::numeral::{Cursor, plain};
use super::unreadable::Unreadable;

const WANTED: &str = "a density: write 1.05";

measure! {
    /// A density in log10 units, from 0 to 6; shown with two places.
    ///
    /// ```
    /// use notchbook::craft::Density;
    /// assert_eq!(Density::parse("1,1")?.to_string(), "1.10");
    /// assert_eq!(Density::parse("D 0.35")?.value(), 0.35);
    /// assert!(Density::parse("40").is_err());
    /// # Ok::<(), notchbook::craft::Unreadable>(())
    /// ```
    Density, 0.0..=6.0, "a density from 0 to 6"
}

impl Density {
    /// Reads `1.05`, `1,05`, `.35`, `D 1.05`, `log D 1.05`, `1.05 D`.
    ///
    /// # Errors
    /// If the text is no density, or one outside the range of the type.
    pub fn parse(text: &str) -> Result<Self, Unreadable> {
        let plain = plain(text);
        let density = read(&plain).ok_or_else(|| Unreadable::new(text, WANTED))?;
        Self::read(density, text)
    }
}

fn read(plain: &str) -> Option<f64> {
    let mut cursor = Cursor::new(plain);
    let before = cursor.words();
    if before == "d" || before == "logd" || before == "density" {
        cursor.take('=');
    } else if !before.is_empty() {
        return None;
    }
    let density = cursor.decimal()?;
    let after = cursor.words();
    ((after.is_empty() || after == "d") && cursor.at_end()).then_some(density)
}

impl fmt::Display for Density {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:.2}", self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn densities_are_read_as_people_write_them() {
        for (text, shown) in [
            ("1.05", "1.05"),
            ("1,05", "1.05"),
            (".35", "0.35"),
            ("D1.05", "1.05"),
            ("d = 1.05", "1.05"),
            ("log D 1.05", "1.05"),
            ("1.05 D", "1.05"),
            ("0", "0.00"),
            ("6", "6.00"),
        ] {
            assert_eq!(Density::parse(text).unwrap().to_string(), shown, "{text}");
        }
    }

    #[test]
    fn what_is_no_density_is_refused() {
        for text in ["", "D", "-0.1", "1.0.5", "1/2", "x 1.05", "1.05 1.1", "nan"] {
            assert!(Density::parse(text).is_err(), "{text}");
        }
        let why = Density::parse("6.01").unwrap_err().to_string();
        assert_eq!(why, "\"6.01\" is not a density from 0 to 6");
        assert!(Density::new(-0.01).is_err());
        assert!(Density::new(f64::NAN).is_err());
    }

    #[test]
    fn a_negative_zero_is_an_ordinary_zero() {
        assert_eq!(Density::new(-0.0).unwrap().to_string(), "0.00");
    }

    #[test]
    fn json_holds_a_number_and_is_checked_on_the_way_in() {
        let density = Density::parse("1.05").unwrap();
        assert_eq!(serde_json::to_string(&density).unwrap(), "1.05");
        assert_eq!(serde_json::from_str::<Density>("1.05").unwrap(), density);
        let why = serde_json::from_str::<Density>("7")
            .unwrap_err()
            .to_string();
        assert!(why.contains("\"7\" is not a density from 0 to 6"), "{why}");
    }

    proptest! {
        #[test]
        fn what_is_shown_can_be_read_back(value in 0.0..=6.0_f64) {
            let density = Density::new(value).unwrap();
            let back = Density::parse(&density.to_string()).unwrap();
            prop_assert!((back.value() - value).abs() <= 0.005_001);
        }

        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            if let Ok(density) = Density::parse(&text) {
                prop_assert!((0.0..=6.0).contains(&density.value()));
            }
        }
    }
}
