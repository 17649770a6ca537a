//! The area of film and paper that goes through a bath, and what a bath is trusted with.
//!
//! A bath is used up by area and not by the number of sheets, so what went through it is added up in
//! square inches and said in the unit of the trade, one 8x10 sheet. A capacity keeps the words it was
//! told in: sheets of any size, sheets of one size, or an area. Whether a bath is exhausted is left to
//! whoever knows what went through it.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::measure::measure;
use super::numeral::{number, plain, trimmed};
use super::size::Size;
use super::solutions::volume::UNIT_SQ_IN;
use super::unreadable::Unreadable;

const WANTED: &str = "an area: write 3.5 of 8x10, 12 4x5, 280 sq in or 1800 cm2";
const GOOD_FOR: &str = "a capacity: write 12, 12 8x10, 24 of 4x5 or 960 sq in";
const COUNT: &str = "a number of sheets above 0 and up to 10000";

/// Square centimetres in a square inch, exact.
const SQ_CM: f64 = 6.4516;
/// The most sheets a capacity may name.
const MOST_SHEETS: u32 = 10_000;

measure! {
    /// An area in square inches, from nothing to ten million.
    ///
    /// ```
    /// use notchbook::craft::Area;
    /// assert_eq!(Area::parse("14 4x5")?.to_string(), "3.5 of 8x10");
    /// assert_eq!(Area::parse("3.5 of 8x10")?.value(), 280.0);
    /// assert_eq!(Area::parse("516.128 cm2")?.units(), 1.0);
    /// # Ok::<(), notchbook::craft::Unreadable>(())
    /// ```
    Area, 0.0..=10_000_000.0, "an area up to 10000000 sq in"
}

impl Default for Area {
    fn default() -> Self {
        Self::NONE
    }
}

impl Area {
    /// No area at all.
    pub const NONE: Self = Self(0.0);

    /// The area of so many sheets of a size.
    ///
    /// # Errors
    /// If it is less than nothing, or beyond the range of the type.
    pub fn of(size: Size, sheets: f64) -> Result<Self, Unreadable> {
        Self::new(kept(size.area_sq_in() * sheets))
    }

    /// Reads `3.5 of 8x10`, `12 4x5`, `280 sq in`, `1800 cm2`, `0.2 m2`.
    ///
    /// # Errors
    /// If the text is no area, or one outside the range of the type.
    pub fn parse(text: &str) -> Result<Self, Unreadable> {
        let area = match Told::read(text) {
            Some(Told::Of(count, size)) => count * size.area_sq_in(),
            Some(Told::Area(area)) => area,
            Some(Told::Sheets(_)) | None => return Err(Unreadable::new(text, WANTED)),
        };
        Self::read(kept(area), text)
    }

    /// In 8x10 sheets, the unit of the trade: 80 square inches.
    #[must_use]
    pub fn units(self) -> f64 {
        self.0 / UNIT_SQ_IN
    }

    /// In square centimetres.
    #[must_use]
    pub fn square_centimetres(self) -> f64 {
        self.0 * SQ_CM
    }

    /// Both together; the most there is when the sum is more.
    #[must_use]
    pub fn and(self, more: Self) -> Self {
        Self(kept(self.0 + more.0).min(Self::HIGHEST))
    }

    /// What stays when `less` is taken away; never less than nothing.
    #[must_use]
    pub fn without(self, less: Self) -> Self {
        Self(kept(self.0 - less.0).max(0.0))
    }

    /// A share of it, from 0 to 1.
    #[must_use]
    pub fn share(self, share: f64) -> Self {
        Self(kept(self.0 * share.clamp(0.0, 1.0)))
    }
}

/// Sums and shares are kept to a millionth, so that what is added one by one is what is added at once.
fn kept(area: f64) -> f64 {
    (area * 1e6).round() / 1e6
}

/// `3.5 of 8x10`
impl fmt::Display for Area {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} of 8x10", trimmed(self.units(), 2))
    }
}

/// An area as people tell it.
enum Told {
    /// Sheets of no matter what size.
    Sheets(f64),
    /// Sheets of one size.
    Of(f64, Size),
    /// Square inches.
    Area(f64),
}

impl Told {
    fn read(text: &str) -> Option<Told> {
        let plain = plain(&text.replace('\u{b2}', "2"));
        let tokens: Vec<&str> = plain.split(' ').collect();
        // The size is what can be read as one at the end; what stands before it counts the sheets.
        for at in 1..tokens.len() {
            let (count, size) = tokens.split_at(at);
            let of = size.join(" ");
            if (of.contains('x') || of.contains(" by "))
                && let Ok(size) = Size::parse(&of)
            {
                return Some(Told::Of(count_of(&count.join(" "))?, size));
            }
        }
        match unit(&plain) {
            Some((amount, in_sq_in)) => Some(Told::Area(number(amount).ok()? * in_sq_in)),
            None => count_of(&plain).map(Told::Sheets),
        }
    }
}

/// `12`, `12 sheets of`, `12 x`.
fn count_of(text: &str) -> Option<f64> {
    let mut rest = text.trim();
    for word in ["x", "of", "sheets", "sheet"] {
        rest = rest.strip_suffix(word).unwrap_or(rest).trim_end();
    }
    number(rest).ok()
}

/// The number before a unit of area, and that unit in square inches.
fn unit(plain: &str) -> Option<(&str, f64)> {
    const UNITS: &[(&str, f64)] = &[
        ("square inches", 1.0),
        ("square inch", 1.0),
        ("sq.in.", 1.0),
        ("sq. in.", 1.0),
        ("sq in", 1.0),
        ("sqin", 1.0),
        ("in2", 1.0),
        ("square centimetres", 1.0 / SQ_CM),
        ("square centimeters", 1.0 / SQ_CM),
        ("sq cm", 1.0 / SQ_CM),
        ("sqcm", 1.0 / SQ_CM),
        ("cm2", 1.0 / SQ_CM),
        ("sq m", 10_000.0 / SQ_CM),
        ("m2", 10_000.0 / SQ_CM),
    ];
    UNITS
        .iter()
        .find_map(|(word, unit)| Some((plain.strip_suffix(word)?.trim_end(), *unit)))
}

/// What a bath is trusted with.
///
/// ```
/// use notchbook::craft::{Area, Capacity};
/// let film = Capacity::parse("24 4x5")?;
/// assert_eq!(film.to_string(), "24 of 4x5 in");
/// assert_eq!(film.area(), Area::parse("6 of 8x10").ok());
/// assert_eq!(Capacity::parse("12 sheets")?, Capacity::Sheets(12));
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Written", into = "Written")]
pub enum Capacity {
    /// So many sheets or prints, of whatever size.
    Sheets(u32),
    /// The area of so many sheets of one size.
    Of {
        /// How many, above 0.
        sheets: f64,
        /// Of which size.
        size: Size,
    },
    /// An area.
    Area(Area),
}

/// How a capacity is kept: a whole number of sheets, or its words.
#[derive(Serialize, Deserialize)]
#[serde(untagged)]
enum Written {
    Sheets(u32),
    Words(String),
}

impl Capacity {
    /// Reads `12`, `12 sheets`, `12 8x10`, `24 of 4x5`, `960 sq in`, `0.5 m2`.
    ///
    /// # Errors
    /// If the text is no capacity, or one of nothing.
    pub fn parse(text: &str) -> Result<Self, Unreadable> {
        let most = f64::from(MOST_SHEETS);
        match Told::read(text).ok_or_else(|| Unreadable::new(text, GOOD_FOR))? {
            Told::Sheets(count) if count >= 1.0 && count <= most && count.fract() == 0.0 => {
                let whole = super::numeral::exact_u32(count);
                let whole = whole.ok_or_else(|| Unreadable::new(text, COUNT))?;
                Ok(Self::Sheets(whole))
            }
            Told::Sheets(_) => Err(Unreadable::new(
                text,
                "a whole number of sheets from 1 to 10000",
            )),
            Told::Of(sheets, size) if sheets > 0.0 && sheets <= most => {
                let sheets = (sheets * 1000.0).round() / 1000.0;
                if sheets <= 0.0 || Area::of(size, sheets).is_err() {
                    return Err(Unreadable::new(text, COUNT));
                }
                Ok(Self::Of { sheets, size })
            }
            Told::Of(..) => Err(Unreadable::new(text, COUNT)),
            Told::Area(area) => match Area::new((area * 1000.0).round() / 1000.0) {
                Ok(area) if area > Area::NONE => Ok(Self::Area(area)),
                _ => Err(Unreadable::new(text, "a capacity above 0 sq in")),
            },
        }
    }

    /// Its area; `None` where only the sheets are counted.
    #[must_use]
    pub fn area(self) -> Option<Area> {
        match self {
            Self::Sheets(_) => None,
            Self::Of { sheets, size } => Area::of(size, sheets).ok(),
            Self::Area(area) => Some(area),
        }
    }

    /// A share of it, from 0 to 1; whole sheets are rounded down.
    #[must_use]
    pub fn share(self, share: f64) -> Self {
        let share = share.clamp(0.0, 1.0);
        match self {
            Self::Sheets(sheets) => {
                let part = (f64::from(sheets) * share + 1e-9).floor();
                Self::Sheets(super::numeral::exact_u32(part).unwrap_or(0))
            }
            Self::Of { sheets, size } => Self::Of {
                sheets: (sheets * share * 1000.0).round() / 1000.0,
                size,
            },
            Self::Area(area) => Self::Area(area.share(share)),
        }
    }

    /// What stays of it when a part is taken away.
    #[must_use]
    pub fn without(self, part: Self) -> Self {
        match (self, part) {
            (Self::Sheets(all), Self::Sheets(part)) => Self::Sheets(all.saturating_sub(part)),
            (Self::Of { sheets, size }, Self::Of { sheets: part, .. }) => Self::Of {
                sheets: (((sheets - part) * 1000.0).round() / 1000.0).max(0.0),
                size,
            },
            (Self::Area(all), Self::Area(part)) => Self::Area(all.without(part)),
            (all, _) => all,
        }
    }
}

impl fmt::Display for Capacity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Sheets(sheets) => write!(f, "{sheets}"),
            Self::Of { sheets, size } => write!(f, "{} of {size}", trimmed(*sheets, 3)),
            Self::Area(area) => write!(f, "{} sq in", trimmed(area.value(), 3)),
        }
    }
}

impl FromStr for Capacity {
    type Err = Unreadable;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        Self::parse(text)
    }
}

impl TryFrom<Written> for Capacity {
    type Error = Unreadable;

    fn try_from(written: Written) -> Result<Self, Self::Error> {
        match written {
            Written::Sheets(sheets) => Ok(Self::Sheets(sheets)),
            Written::Words(words) => from_words(&words),
        }
    }
}

/// What was kept may have come to nothing, when all of a bath was poured into others.
fn from_words(words: &str) -> Result<Capacity, Unreadable> {
    match Told::read(words) {
        Some(Told::Sheets(0.0)) => Ok(Capacity::Sheets(0)),
        Some(Told::Of(0.0, size)) => Ok(Capacity::Of { sheets: 0.0, size }),
        Some(Told::Area(0.0)) => Ok(Capacity::Area(Area::NONE)),
        _ => Capacity::parse(words),
    }
}

impl From<Capacity> for Written {
    fn from(capacity: Capacity) -> Self {
        match capacity {
            Capacity::Sheets(sheets) => Self::Sheets(sheets),
            told => Self::Words(told.to_string()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn areas_are_read_as_people_write_them() {
        for (text, sq_in) in [
            ("3.5 of 8x10", 280.0),
            ("3,5 of 8x10", 280.0),
            ("3 1/2 8x10", 280.0),
            ("12 4x5", 240.0),
            ("12 sheets of 4x5", 240.0),
            ("1 sheet of 4 x 5 in", 20.0),
            ("12 x 4x5", 240.0),
            ("2 of 13x18 cm", 2.0 * 13.0 * 18.0 / 6.4516),
            ("280 sq in", 280.0),
            ("280 in2", 280.0),
            ("280 in\u{b2}", 280.0),
            ("645.16 cm2", 100.0),
            ("0.064516 m\u{b2}", 100.0),
        ] {
            let read = Area::parse(text).unwrap_or_else(|why| panic!("{why}"));
            assert!((read.value() - sq_in).abs() < 1e-4, "{text}: {read:?}");
        }
        for text in [
            "",
            "12",
            "12 sheets",
            "8x10",
            "of 8x10",
            "-3 of 8x10",
            "3 of",
            "x x x",
            "9999999 of 8x10",
        ] {
            assert!(Area::parse(text).is_err(), "{text}");
        }
    }

    #[test]
    fn a_capacity_keeps_the_words_it_was_told_in() {
        for (text, shown) in [
            ("12", "12"),
            ("12 sheets", "12"),
            ("12 8x10", "12 of 8x10 in"),
            ("24 of 4x5", "24 of 4x5 in"),
            ("2.5 of 13x18cm", "2.5 of 13x18 cm"),
            ("960 sq in", "960 sq in"),
        ] {
            let capacity = Capacity::parse(text).unwrap_or_else(|why| panic!("{why}"));
            assert_eq!(capacity.to_string(), shown, "{text}");
            let json = serde_json::to_string(&capacity).unwrap();
            assert_eq!(serde_json::from_str::<Capacity>(&json).unwrap(), capacity);
        }
        let json = serde_json::to_string(&Capacity::Sheets(12)).unwrap();
        assert_eq!(json, "12", "as older logbooks keep it");
        for text in [
            "0", "12.5", "0 8x10", "-1 4x5", "0 sq in", "some", "20000", "8x10",
        ] {
            let why = Capacity::parse(text).map(|it| it.to_string()).unwrap_err();
            assert!(why.to_string().contains("is not"), "{text}: {why}");
        }
    }

    #[test]
    fn a_capacity_that_was_poured_away_can_be_kept_and_read_again() {
        let all = Capacity::parse("24 4x5").unwrap();
        let none = all.without(all);
        let json = serde_json::to_string(&none).unwrap();
        assert_eq!(serde_json::from_str::<Capacity>(&json).unwrap(), none);
        assert_eq!(none.area(), Some(Area::NONE));
        let none: Capacity = serde_json::from_str("\"0\"").unwrap();
        assert_eq!(none, Capacity::Sheets(0));
    }

    proptest! {
        #[test]
        fn parts_and_rest_are_the_whole(share in 0.0..=1.0_f64, sheets in 1..500_u32) {
            for whole in [
                Capacity::Sheets(sheets),
                Capacity::Of { sheets: f64::from(sheets), size: Size::parse("4x5").unwrap() },
                Capacity::Area(Area::new(f64::from(sheets) * 20.0).unwrap()),
            ] {
                let part = whole.share(share);
                let rest = whole.without(part);
                match (whole, part, rest) {
                    (Capacity::Sheets(all), Capacity::Sheets(part), Capacity::Sheets(rest)) => {
                        prop_assert_eq!(part + rest, all);
                    }
                    _ => {
                        let sum = part.area().unwrap().and(rest.area().unwrap());
                        prop_assert!((sum.value() - whole.area().unwrap().value()).abs() < 1e-3);
                    }
                }
            }
        }

        #[test]
        fn what_is_shown_can_be_read_back(sq_in in 1.0..100_000.0_f64) {
            let area = Area::new(sq_in).unwrap();
            let back = Area::parse(&area.to_string()).unwrap();
            prop_assert!((back.value() - sq_in).abs() <= 0.41, "{area}");
        }

        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            if let Ok(capacity) = Capacity::parse(&text) {
                prop_assert!(capacity.area().is_none_or(|area| area > Area::NONE));
                prop_assert_eq!(Capacity::parse(&capacity.to_string()).unwrap(), capacity);
            }
            if let Ok(area) = Area::parse(&text) {
                prop_assert!(area >= Area::NONE);
            }
        }
    }
}
