//! How bright a surface is, and how much light falls on it.
//!
//! For: meters that read in these units, and tables of light levels. [`Luminance`] is what a spot
//! meter sees, [`Illuminance`] what falls on an incident meter. Both are kept in the units of the
//! metric system and read in the older ones as well. What a reading asks of the film is for
//! [`super::meter`].

use std::fmt;

use super::measure::measure;
use super::numeral::{Cursor, four_figures, plain, trimmed};
use super::unreadable::Unreadable;

/// Lux in a foot-candle, and candela per square metre in a candela per square foot: the square feet
/// in a square metre.
const SQUARE_FEET: f64 = 10.763_910_416_709_72;

const LUMINANCE: &str = "a luminance: write 400 cd/m2, 120 fL or 40 c/ft2";
const ILLUMINANCE: &str = "an illuminance: write 400 lx, 110 klx or 37 fc";

measure! {
    /// The luminance of a surface in candela per square metre.
    ///
    /// ```
    /// use notchbook::craft::Luminance;
    /// assert_eq!(Luminance::parse("4096 cd/m²")?.to_string(), "4096 cd/m2");
    /// assert!((Luminance::parse("1195 fL")?.value() - 4094.4).abs() < 0.1);
    /// assert!(Luminance::parse("400 lx").is_err());
    /// # Ok::<(), notchbook::craft::Unreadable>(())
    /// ```
    Luminance, 1e-10..=1e10, "a luminance from 1e-10 to 1e10 cd/m2"
}

measure! {
    /// The illuminance on a surface in lux.
    ///
    /// ```
    /// use notchbook::craft::Illuminance;
    /// assert_eq!(Illuminance::parse("110 klx")?.to_string(), "110000 lx");
    /// assert!((Illuminance::parse("40 fc")?.value() - 430.6).abs() < 0.1);
    /// # Ok::<(), notchbook::craft::Unreadable>(())
    /// ```
    Illuminance, 1e-9..=1e10, "an illuminance from 1e-9 to 1e10 lx"
}

/// One of the two, told apart by its unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Brightness {
    /// Of a surface.
    Reflected(Luminance),
    /// Falling on a surface.
    Incident(Illuminance),
}

impl Brightness {
    /// Reads either kind; here the unit must be there, since nothing else tells them apart.
    ///
    /// # Errors
    /// If the text is neither, or out of range.
    pub fn parse(text: &str) -> Result<Brightness, Unreadable> {
        match read(text) {
            Some((value, Unit::CandelaPerSquareMetre(factor))) => {
                Luminance::read(value * factor, text).map(Brightness::Reflected)
            }
            Some((value, Unit::Lux(factor))) => {
                Illuminance::read(value * factor, text).map(Brightness::Incident)
            }
            Some((_, Unit::None)) | None => Err(Unreadable::new(
                text,
                "a brightness with its unit: write 400 lx, 37 fc, 12 cd/m2 or 3.5 fL",
            )),
        }
    }
}

impl Luminance {
    /// Reads `400 cd/m2`, `400 nit`, `120 fL`, `40 c/ft2`, `14 mcd/m2`; a bare number is cd/m2.
    ///
    /// # Errors
    /// If the text is no luminance, or one outside the range of the type.
    pub fn parse(text: &str) -> Result<Self, Unreadable> {
        match read(text) {
            Some((value, Unit::CandelaPerSquareMetre(factor))) => Self::read(value * factor, text),
            Some((value, Unit::None)) => Self::read(value, text),
            Some((_, Unit::Lux(_))) | None => Err(Unreadable::new(text, LUMINANCE)),
        }
    }

    /// The same in foot-lamberts.
    #[must_use]
    pub fn foot_lamberts(self) -> f64 {
        self.0 * std::f64::consts::PI / SQUARE_FEET
    }

    /// The same in candela per square foot.
    #[must_use]
    pub fn candela_per_square_foot(self) -> f64 {
        self.0 / SQUARE_FEET
    }
}

impl Illuminance {
    /// Lux in a foot-candle.
    pub const FOOT_CANDLE: f64 = SQUARE_FEET;

    /// Reads `400 lx`, `110 klx`, `37 fc`, `37 foot-candles`; a bare number is lux.
    ///
    /// # Errors
    /// If the text is no illuminance, or one outside the range of the type.
    pub fn parse(text: &str) -> Result<Self, Unreadable> {
        match read(text) {
            Some((value, Unit::Lux(factor))) => Self::read(value * factor, text),
            Some((value, Unit::None)) => Self::read(value, text),
            Some((_, Unit::CandelaPerSquareMetre(_))) | None => {
                Err(Unreadable::new(text, ILLUMINANCE))
            }
        }
    }

    /// The same in foot-candles.
    #[must_use]
    pub fn foot_candles(self) -> f64 {
        self.0 / SQUARE_FEET
    }
}

impl fmt::Display for Luminance {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // Four figures are more than any meter gives.
        write!(f, "{} cd/m2", trimmed(self.0, four_figures(self.0)))
    }
}

impl fmt::Display for Illuminance {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} lx", trimmed(self.0, four_figures(self.0)))
    }
}

/// The unit a number was written with, and what it comes to in the unit of its kind.
#[derive(Clone, Copy)]
enum Unit {
    CandelaPerSquareMetre(f64),
    Lux(f64),
    None,
}

fn read(text: &str) -> Option<(f64, Unit)> {
    let plain = plain(text).replace('\u{b2}', "2");
    let mut cursor = Cursor::new(&plain);
    let value = cursor.number()?;
    let unit = unit(&mut cursor)?;
    cursor.at_end().then_some((value, unit))
}

fn unit(cursor: &mut Cursor<'_>) -> Option<Unit> {
    let per_square_foot = std::f64::consts::FRAC_1_PI * SQUARE_FEET;
    Some(match cursor.word() {
        "" => Unit::None,
        "lx" | "lux" => Unit::Lux(1.0),
        "klx" | "klux" => Unit::Lux(1000.0),
        "mlx" => Unit::Lux(0.001),
        "fc" | "ftc" | "footcandle" | "footcandles" => Unit::Lux(SQUARE_FEET),
        "fl" | "ftl" | "footlambert" | "footlamberts" => {
            Unit::CandelaPerSquareMetre(per_square_foot)
        }
        "nit" | "nits" => Unit::CandelaPerSquareMetre(1.0),
        "foot" | "ft" => {
            cursor.take('-');
            match cursor.word() {
                "candle" | "candles" | "c" => Unit::Lux(SQUARE_FEET),
                "lambert" | "lamberts" | "l" => Unit::CandelaPerSquareMetre(per_square_foot),
                _ => return None,
            }
        }
        candela @ ("cd" | "c" | "mcd" | "kcd") => {
            let many = match candela {
                "mcd" => 0.001,
                "kcd" => 1000.0,
                _ => 1.0,
            };
            if !cursor.take('/') {
                return None;
            }
            let area = match cursor.word() {
                "m" => 1.0,
                "ft" => SQUARE_FEET,
                _ => return None,
            };
            cursor.take('^');
            if cursor.whole() != Some(2) {
                return None;
            }
            Unit::CandelaPerSquareMetre(many * area)
        }
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn luminances_are_read_in_the_units_meters_use() {
        for (text, value) in [
            ("4096 cd/m2", 4096.0),
            ("4096cd/m²", 4096.0),
            ("12 cd/m^2", 12.0),
            ("12 nits", 12.0),
            ("12", 12.0),
            ("1 fL", 3.426_259),
            ("2 foot-lamberts", 6.852_518),
            ("100 c/ft2", 1076.391),
            ("14 mcd/m2", 0.014),
            ("1,5 kcd/m2", 1500.0),
        ] {
            let read = Luminance::parse(text).unwrap().value();
            assert!((read / value - 1.0).abs() < 1e-6, "{text}: {read}");
        }
    }

    #[test]
    fn illuminances_are_read_in_the_units_meters_use() {
        for (text, value) in [
            ("400 lx", 400.0),
            ("400lux", 400.0),
            ("110 klx", 110_000.0),
            ("0.25", 0.25),
            ("1 fc", 10.763_91),
            ("40 foot candles", 430.556_4),
        ] {
            let read = Illuminance::parse(text).unwrap().value();
            assert!((read / value - 1.0).abs() < 1e-6, "{text}: {read}");
        }
    }

    #[test]
    fn what_is_no_brightness_is_refused() {
        for text in [
            "",
            "lx",
            "-4 lx",
            "0 lx",
            "12 cd",
            "12 cd/m",
            "12 cd/m3",
            "1e5 lx",
            "12,000 lx",
            "nan",
            "12 lx lx",
            "foot",
        ] {
            assert!(Luminance::parse(text).is_err(), "{text}");
            assert!(Illuminance::parse(text).is_err(), "{text}");
            assert!(Brightness::parse(text).is_err(), "{text}");
        }
        assert!(Illuminance::parse("12 cd/m2").is_err());
        assert!(Luminance::parse("12 fc").is_err());
        assert!(Brightness::parse("12").is_err());
    }

    #[test]
    fn the_unit_tells_the_two_kinds_apart() {
        assert!(matches!(
            Brightness::parse("400 lx"),
            Ok(Brightness::Incident(_))
        ));
        assert!(matches!(
            Brightness::parse("3 fL"),
            Ok(Brightness::Reflected(_))
        ));
    }

    #[test]
    fn four_figures_are_shown() {
        for (value, shown) in [
            (81_920.0, "81920 lx"),
            (0.156_27, "0.1563 lx"),
            (2.5, "2.5 lx"),
            (1.25e-9, "0.00000000125 lx"),
        ] {
            assert_eq!(Illuminance::new(value).unwrap().to_string(), shown);
        }
    }

    proptest! {
        #[test]
        fn what_is_shown_can_be_read_back(exponent in -9.0..9.9_f64) {
            let value = 10_f64.powf(exponent);
            let luminance = Luminance::new(value).unwrap();
            let back = Luminance::parse(&luminance.to_string()).unwrap();
            prop_assert!((back.value() / value - 1.0).abs() < 6e-4);
            let illuminance = Illuminance::new(value).unwrap();
            let back = Illuminance::parse(&illuminance.to_string()).unwrap();
            prop_assert!((back.value() / value - 1.0).abs() < 6e-4);
        }

        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            if let Ok(Brightness::Reflected(read)) = Brightness::parse(&text) {
                prop_assert!(read.value() > 0.0);
            }
        }
    }
}
