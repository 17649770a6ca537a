//! Width by height: a sheet of film, a sheet of paper, a mat board, a window.
//!
//! The unit stays the one it was written in, because 8x10 in is a name as well as a measure. What
//! size a holder really takes or a mat really shows is left to the figures that use it.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::millimetres::{INCH, join_mixed};
use super::numeral::{Cursor, plain, trimmed};
use super::unreadable::Unreadable;

const WANTED: &str = "a size: write 8x10, 8x10 in, 13 1/2 x 10 in, 20x25 cm or 180x240 mm";
const RANGE: &str = "a size with sides from 1 mm to 10 m";

/// The unit in which a size is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LengthUnit {
    /// `mm`
    Millimetre,
    /// `cm`, 10 mm
    Centimetre,
    /// `in`, 25.4 mm
    Inch,
}

impl LengthUnit {
    /// How many millimetres one of it is.
    #[must_use]
    pub const fn in_mm(self) -> f64 {
        match self {
            Self::Millimetre => 1.0,
            Self::Centimetre => 10.0,
            Self::Inch => INCH,
        }
    }

    /// The short form written after a number.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Centimetre => "cm",
            Self::Inch => "in",
        }
    }

    fn named(word: &str) -> Option<Self> {
        Some(match word {
            "mm" | "millimetres" | "millimeters" => Self::Millimetre,
            "cm" | "centimetres" | "centimeters" => Self::Centimetre,
            "in" | "inch" | "inches" | "\"" => Self::Inch,
            _ => return None,
        })
    }
}

/// Width by height in one unit, each side from 1 mm to 10 m; kept to a millionth of the unit.
///
/// Width comes first and stays first: 10x8 is not turned into 8x10.
///
/// ```
/// use notchbook::craft::Size;
/// let size = Size::parse("8x10")?;
/// assert_eq!(size.to_string(), "8x10 in");
/// assert_eq!(size.mm(), (203.2, 254.0));
/// assert_eq!(Size::parse("13 1/2 x 10 in")?.to_string(), "13.5x10 in");
/// assert_eq!(Size::parse("20 × 25 cm")?.to_string(), "20x25 cm");
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Size {
    w: f64,
    h: f64,
    unit: LengthUnit,
}

impl Size {
    /// The size with these sides.
    ///
    /// # Errors
    /// If a side is outside 1 mm to 10 m, or no number at all.
    pub fn new(w: f64, h: f64, unit: LengthUnit) -> Result<Self, Unreadable> {
        Self::within(w, h, unit)
            .ok_or_else(|| Unreadable::new(&format!("{w}x{h} {}", unit.symbol()), RANGE))
    }

    fn within(w: f64, h: f64, unit: LengthUnit) -> Option<Self> {
        let kept = |side: f64| (side * 1e6).round() / 1e6;
        let fits = |side: f64| (1.0..=10_000.0).contains(&(side * unit.in_mm()));
        (fits(w) && fits(h)).then(|| Self {
            w: kept(w),
            h: kept(h),
            unit,
        })
    }

    /// Reads `8x10`, `8x10in`, `8 by 10`, `8"x10"`, `13 1/2 x 10 in`, `20x25cm`, `180x240 mm`.
    ///
    /// Without a unit the sides are inches.
    ///
    /// # Errors
    /// If the text is no size, its sides have different units, or a side is outside the range.
    pub fn parse(text: &str) -> Result<Self, Unreadable> {
        let plain = join_mixed(&plain(text));
        let (w, h, unit) = read(&plain).ok_or_else(|| Unreadable::new(text, WANTED))?;
        Self::within(w, h, unit).ok_or_else(|| Unreadable::new(text, RANGE))
    }

    /// The width in [`Self::unit`].
    #[must_use]
    pub const fn width(self) -> f64 {
        self.w
    }

    /// The height in [`Self::unit`].
    #[must_use]
    pub const fn height(self) -> f64 {
        self.h
    }

    /// The unit of both sides.
    #[must_use]
    pub const fn unit(self) -> LengthUnit {
        self.unit
    }

    /// Width and height in millimetres.
    #[must_use]
    pub fn mm(self) -> (f64, f64) {
        let unit = self.unit.in_mm();
        (self.w * unit, self.h * unit)
    }

    /// The area in square inches, by which capacity and coating are reckoned.
    #[must_use]
    pub fn area_sq_in(self) -> f64 {
        let inches = self.unit.in_mm() / INCH;
        self.w * inches * (self.h * inches)
    }
}

fn read(plain: &str) -> Option<(f64, f64, LengthUnit)> {
    let (w, h) = plain.split_once('x').or_else(|| plain.split_once(" by "))?;
    let ((w, first), (h, second)) = (side(w)?, side(h)?);
    let unit = match (first, second) {
        (Some(first), Some(second)) if first != second => return None,
        (first, second) => second.or(first).unwrap_or(LengthUnit::Inch),
    };
    Some((w, h, unit))
}

fn side(plain: &str) -> Option<(f64, Option<LengthUnit>)> {
    let mut cursor = Cursor::new(plain);
    let length = cursor.number()?;
    let unit = match cursor.word() {
        "" => None,
        word => Some(LengthUnit::named(word)?),
    };
    cursor.at_end().then_some((length, unit))
}

impl fmt::Display for Size {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (w, h) = (trimmed(self.w, 6), trimmed(self.h, 6));
        write!(f, "{w}x{h} {}", self.unit.symbol())
    }
}

impl FromStr for Size {
    type Err = Unreadable;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        Self::parse(text)
    }
}

impl TryFrom<String> for Size {
    type Error = Unreadable;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        Self::parse(&text)
    }
}

impl From<Size> for String {
    fn from(size: Size) -> Self {
        size.to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn sizes_are_read_as_people_write_them() {
        for (text, shown) in [
            ("8x10", "8x10 in"),
            ("8X10IN", "8x10 in"),
            ("8 x 10 in", "8x10 in"),
            ("8 by 10", "8x10 in"),
            ("8\"x10\"", "8x10 in"),
            ("8″ × 10″", "8x10 in"),
            ("8 in x 10", "8x10 in"),
            ("8½x11", "8.5x11 in"),
            ("8-1/2 x 11 in", "8.5x11 in"),
            ("13 1/2 x 10 in", "13.5x10 in"),
            ("20x25cm", "20x25 cm"),
            ("9,5x12 cm", "9.5x12 cm"),
            ("180x240 mm", "180x240 mm"),
            ("10x8", "10x8 in"),
        ] {
            assert_eq!(Size::parse(text).unwrap().to_string(), shown, "{text}");
        }
    }

    #[test]
    fn what_is_no_size_is_refused() {
        for text in [
            "",
            "8",
            "x",
            "8x",
            "x10",
            "8x10x12",
            "8 in x 10 cm",
            "8x10 kg",
            "0x10",
            "-8x10",
            "8x-10",
            "8x10 in in",
            "nanxnan",
            "0.01x5 mm",
            "500x500",
            "8/10",
            "1,000x1,000 mm",
        ] {
            assert!(Size::parse(text).is_err(), "{text}");
        }
        let why = Size::parse("500x500").unwrap_err().to_string();
        assert_eq!(
            why,
            "\"500x500\" is not a size with sides from 1 mm to 10 m"
        );
        assert!(Size::new(f64::NAN, 10.0, LengthUnit::Inch).is_err());
    }

    #[test]
    fn area_is_in_square_inches_whatever_the_unit() {
        assert!((Size::parse("8x10").unwrap().area_sq_in() - 80.0).abs() < 1e-9);
        assert!((Size::parse("25.4x50.8 mm").unwrap().area_sq_in() - 2.0).abs() < 1e-9);
    }

    #[test]
    fn json_holds_a_short_text_and_is_checked_on_the_way_in() {
        let size = Size::parse("8 1/16 x 10").unwrap();
        let json = serde_json::to_string(&size).unwrap();
        assert_eq!(json, "\"8.0625x10 in\"");
        assert_eq!(serde_json::from_str::<Size>(&json).unwrap(), size);
        let why = serde_json::from_str::<Size>("\"0x0\"")
            .unwrap_err()
            .to_string();
        assert!(why.contains("\"0x0\" is not a size with sides"), "{why}");
    }

    proptest! {
        #[test]
        fn what_is_shown_is_read_back_the_same(w in 0.1..390.0_f64, h in 0.1..390.0_f64, unit in 0..3) {
            let unit = [LengthUnit::Inch, LengthUnit::Centimetre, LengthUnit::Millimetre][unit as usize];
            prop_assume!(w * unit.in_mm() >= 1.0 && h * unit.in_mm() >= 1.0);
            let size = Size::new(w, h, unit).unwrap();
            prop_assert_eq!(Size::parse(&size.to_string()).unwrap(), size);
        }

        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            if let Ok(size) = Size::parse(&text) {
                prop_assert!(size.area_sq_in() > 0.0);
                prop_assert_eq!(Size::parse(&size.to_string()).unwrap(), size);
            }
        }
    }
}
