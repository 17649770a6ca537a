//! A volume of liquid: drops of sensitizer, a tray of developer, a tank.
//!
//! Two ounces, two pints and two gallons are in use and differ by 4 to 20 per cent, so none of them
//! is read without `us` or `imp` before it.

use std::fmt;

use super::measure::measure;
use super::numeral::{Cursor, plain, trimmed, without_noise};
use super::unreadable::Unreadable;

const WANTED: &str = "a volume: write 500, 500 ml, 1.5 l or 16 us fl oz";
const WHICH_OUNCE: &str =
    "clear about the ounce: write us fl oz (29.57 ml each) or imp fl oz (28.41 ml each)";
const WHICH_PINT: &str =
    "clear about the measure: put us or imp before pint, quart or gallon, or write litres";

measure! {
    /// A volume in millilitres, from 0.001 ml to 1000 l.
    ///
    /// ```
    /// use notchbook::craft::Millilitres;
    /// assert_eq!(Millilitres::parse("1,5 l")?.value(), 1500.0);
    /// assert_eq!(Millilitres::parse("16 us fl oz")?.to_string(), "473.18 ml");
    /// let why = Millilitres::parse("16 oz").unwrap_err();
    /// assert!(why.to_string().starts_with("\"16 oz\" is not clear about the ounce"));
    /// # Ok::<(), notchbook::craft::Unreadable>(())
    /// ```
    Millilitres, 0.001..=1_000_000.0, "a volume from 0.001 ml to 1000 l"
}

/// Exact by definition: 231 cubic inches in 128 parts.
const US_FLUID_OUNCE: f64 = 29.573_529_562_5;
/// Exact by definition: 4.54609 l in 160 parts.
const IMPERIAL_FLUID_OUNCE: f64 = 28.413_062_5;

impl Millilitres {
    /// Reads `500`, `500ml`, `20 cc`, `20cl`, `1l`, `1.5 l`, `16 us fl oz`, `16 imp fl oz`,
    /// `1 us quart`, `1 imp gallon`. A bare number is millilitres.
    ///
    /// # Errors
    /// If the text is no volume, names an ounce, pint, quart or gallon without saying which, or is
    /// outside the range of the type.
    pub fn parse(text: &str) -> Result<Self, Unreadable> {
        let plain = plain(text);
        let volume = read(&plain).map_err(|wanted| Unreadable::new(text, wanted))?;
        Self::read(without_noise(volume), text)
    }
}

fn read(plain: &str) -> Result<f64, &'static str> {
    let mut cursor = Cursor::new(plain);
    let amount = cursor.number().ok_or(WANTED)?;
    let words = cursor.words();
    // "cm3" ends in a digit.
    if words == "cm" && cursor.whole() == Some(3) && cursor.at_end() {
        return Ok(amount);
    }
    if !cursor.at_end() {
        return Err(WANTED);
    }
    let country = [
        ("us", US_FLUID_OUNCE),
        ("uk", IMPERIAL_FLUID_OUNCE),
        ("imperial", IMPERIAL_FLUID_OUNCE),
        ("imp", IMPERIAL_FLUID_OUNCE),
    ]
    .into_iter()
    .find_map(|(country, ounce)| Some((words.strip_prefix(country)?, ounce)));
    let Some((name, ounce)) = country else {
        return metric(&words).map(|unit| amount * unit);
    };
    // A quart is two pints and a gallon eight, in both countries; the pint is not the same.
    let pint = if ounce == IMPERIAL_FLUID_OUNCE {
        20.0
    } else {
        16.0
    };
    let ounces = match name {
        "oz" | "floz" | "fluidounce" | "fluidounces" | "ounce" | "ounces" => 1.0,
        "pt" | "pint" | "pints" => pint,
        "qt" | "quart" | "quarts" => 2.0 * pint,
        "gal" | "gallon" | "gallons" => 8.0 * pint,
        _ => return Err(WANTED),
    };
    Ok(amount * ounces * ounce)
}

/// Millilitres in a unit that says no country.
fn metric(name: &str) -> Result<f64, &'static str> {
    match name {
        "" | "ml" | "cc" | "ccm" | "millilitre" | "millilitres" | "milliliter" | "milliliters" => {
            Ok(1.0)
        }
        "cl" | "centilitre" | "centilitres" | "centiliter" | "centiliters" => Ok(10.0),
        "dl" | "decilitre" | "decilitres" | "deciliter" | "deciliters" => Ok(100.0),
        "l" | "\u{2113}" | "lt" | "ltr" | "litre" | "litres" | "liter" | "liters" => Ok(1000.0),
        "oz" | "floz" | "fluidounce" | "fluidounces" | "ounce" | "ounces" => Err(WHICH_OUNCE),
        "pt" | "pint" | "pints" | "qt" | "quart" | "quarts" | "gal" | "gallon" | "gallons" => {
            Err(WHICH_PINT)
        }
        _ => Err(WANTED),
    }
}

impl fmt::Display for Millilitres {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // Rounded before the unit is chosen, so that "1000 ml" never stands beside "1 l".
        let short = match self.0 {
            ml if ml < 1.0 => trimmed(ml, 4),
            ml => trimmed(ml, 2),
        };
        if self.0 >= 1000.0 || short == "1000" {
            write!(f, "{} l", trimmed(self.0 / 1000.0, 4))
        } else {
            write!(f, "{short} ml")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn volumes_are_read_as_people_write_them() {
        for (text, shown) in [
            ("500", "500 ml"),
            ("500ml", "500 ml"),
            ("500 mL", "500 ml"),
            ("20 cc", "20 ml"),
            ("20 cm³", "20 ml"),
            ("20 cm3", "20 ml"),
            ("20cl", "200 ml"),
            ("5 dl", "500 ml"),
            ("1l", "1 l"),
            ("1.5 l", "1.5 l"),
            ("1½ litres", "1.5 l"),
            ("1234.5", "1.2345 l"),
            ("999.999", "1 l"),
            ("0,05 ml", "0.05 ml"),
            ("16 us fl oz", "473.18 ml"),
            ("16 US fl. oz.", "473.18 ml"),
            ("16 u.s. fl oz", "473.18 ml"),
            ("16 usoz", "473.18 ml"),
            ("16 imp fl oz", "454.61 ml"),
            ("16 uk fluid ounces", "454.61 ml"),
            ("1 us gal", "3.7854 l"),
            ("1 imperial gallon", "4.5461 l"),
            ("1 us quart", "946.35 ml"),
            ("1 imp pint", "568.26 ml"),
        ] {
            assert_eq!(
                Millilitres::parse(text).unwrap().to_string(),
                shown,
                "{text}"
            );
        }
    }

    #[test]
    fn an_ounce_or_a_pint_without_a_country_is_asked_about() {
        for text in ["16 oz", "16 fl oz", "1 ounce"] {
            assert_eq!(
                Millilitres::parse(text).unwrap_err().wanted,
                WHICH_OUNCE,
                "{text}"
            );
        }
        for text in ["1 pint", "2 quarts", "1 gal"] {
            assert_eq!(
                Millilitres::parse(text).unwrap_err().wanted,
                WHICH_PINT,
                "{text}"
            );
        }
    }

    #[test]
    fn what_is_no_volume_is_refused() {
        for text in [
            "", "ml", "-5", "5 kg", "5 ml 3", "us fl oz", "5 us", "5 us ml", "nan", "20 drops",
        ] {
            assert!(Millilitres::parse(text).is_err(), "{text}");
        }
        for text in ["0", "0 l", "0.0001", "1001 l"] {
            let why = Millilitres::parse(text).unwrap_err().to_string();
            assert!(
                why.ends_with("is not a volume from 0.001 ml to 1000 l"),
                "{why}"
            );
        }
        assert!(Millilitres::new(f64::INFINITY).is_err());
    }

    #[test]
    fn json_holds_a_number_and_is_checked_on_the_way_in() {
        let volume = Millilitres::parse("16 us fl oz").unwrap();
        let json = serde_json::to_string(&volume).unwrap();
        assert_eq!(serde_json::from_str::<Millilitres>(&json).unwrap(), volume);
        let why = serde_json::from_str::<Millilitres>("0")
            .unwrap_err()
            .to_string();
        assert!(why.contains("\"0\" is not a volume from"), "{why}");
    }

    proptest! {
        #[test]
        fn what_is_shown_can_be_read_back(exponent in -2.0..6.0_f64) {
            let volume = Millilitres::new(10_f64.powf(exponent)).unwrap();
            let back = Millilitres::parse(&volume.to_string()).unwrap();
            let precision = if volume.value() < 1.0 { 0.000_051 } else if volume.value() < 1000.0 { 0.005_1 } else { 0.051 };
            prop_assert!((back.value() - volume.value()).abs() <= precision, "{volume}");
        }

        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            if let Ok(volume) = Millilitres::parse(&text) {
                prop_assert!(volume.value() > 0.0);
            }
        }
    }
}
