//! What sheets are developed in, as far as planning asks for it: how many of which size it takes at once
//! and how much solution it works with at least.

use std::fmt;

use super::agitation::Agitation;
use crate::craft::numeral::{Cursor, plain};
use crate::craft::{Millilitres, Size, Unreadable};

const WANTED: &str =
    "a vessel: name one of the list, or write what it takes and its volume, 4 of 4x5, 1000 ml";

/// The most sheets a vessel takes at once.
const MOST: u32 = 100;
/// Sides that differ by less than this are of one nominal size, in millimetres.
const SAME: f64 = 1.5;

/// A tray, a tank or a drum.
#[derive(Debug, Clone, PartialEq)]
pub struct Vessel {
    /// What it is called.
    pub name: String,
    /// How many sheets of which size it takes at once; one size or several.
    pub takes: Vec<(Size, u32)>,
    /// The least solution it works with.
    pub least: Millilitres,
    /// How the film is moved in it, if it is known.
    pub agitation: Option<Agitation>,
}

impl Vessel {
    /// Reads a vessel of one's own: `4 of 4x5, 1000 ml`, `holds 2 of 5x7 or 1 of 8x10, 1.5 l`, `tray, 1 of
    /// 8x10, 700 ml`. A word before says how the film is moved, as in [`Agitation::told`].
    ///
    /// ```
    /// use notchbook::craft::Size;
    /// use notchbook::craft::development::vessel::Vessel;
    /// let tank = Vessel::parse("tank, 4 of 4x5, 1000 ml")?;
    /// assert_eq!(tank.holds(Size::parse("5x4")?), Some(4));
    /// assert_eq!(tank.holds(Size::parse("8x10")?), None);
    /// # Ok::<(), notchbook::craft::Unreadable>(())
    /// ```
    ///
    /// # Errors
    /// If it does not say both, or says what no vessel does.
    pub fn parse(text: &str) -> Result<Vessel, Unreadable> {
        let unreadable = || Unreadable::new(text, WANTED);
        let plain = plain(text);
        let (before, least) = plain.rsplit_once([',', ';']).ok_or_else(unreadable)?;
        let least = Millilitres::parse(least)?;
        if least.value() < 1.0 {
            return Err(unreadable());
        }
        let mut takes = Vec::new();
        let mut words = Vec::new();
        let before = before.replace(" and ", ",").replace(" or ", ",");
        for part in before.split([',', ';']) {
            let part = part.trim();
            let part = part.strip_prefix("holds ").unwrap_or(part).trim();
            match part.split_once(" of ") {
                Some((count, size)) => takes.push((Size::parse(size)?, count_of(count, text)?)),
                None if part.chars().any(|c| c.is_ascii_digit()) => return Err(unreadable()),
                None if part.is_empty() => {}
                None => words.push(part.to_owned()),
            }
        }
        if takes.is_empty() {
            return Err(unreadable());
        }
        let name = match words.is_empty() {
            true => text.trim().to_owned(),
            false => words.join(", "),
        };
        Ok(Vessel {
            agitation: Agitation::told(&plain),
            name,
            takes,
            least,
        })
    }

    /// How many sheets of a size it takes at once, either way round; nothing if it takes none.
    #[must_use]
    pub fn holds(&self, size: Size) -> Option<u32> {
        let (width, height) = size.mm();
        let same = |other: &Size| {
            let (w, h) = other.mm();
            let near = |one: f64, other: f64| (one - other).abs() < SAME;
            (near(w, width) && near(h, height)) || (near(w, height) && near(h, width))
        };
        let found = self.takes.iter().find(|(other, _)| same(other));
        found.map(|(_, count)| *count)
    }
}

fn count_of(text: &str, whole: &str) -> Result<u32, Unreadable> {
    let wanted = "a number of sheets from 1 to 100: write 4 of 4x5";
    let mut cursor = Cursor::new(text.trim());
    let count = cursor.decimal().filter(|_| cursor.at_end());
    count
        .filter(|count| (1.0..=f64::from(MOST)).contains(count) && count.fract() == 0.0)
        .map(|count| count as u32)
        .ok_or_else(|| Unreadable::new(whole, wanted))
}

impl fmt::Display for Vessel {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.name)?;
        for (at, (size, count)) in self.takes.iter().enumerate() {
            f.write_str(if at == 0 { ": " } else { " or " })?;
            write!(f, "{count} of {size}")?;
        }
        write!(f, ", {}", self.least)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn size(text: &str) -> Size {
        Size::parse(text).unwrap()
    }

    #[test]
    fn a_vessel_of_ones_own_is_read() {
        let tank = Vessel::parse("4 of 4x5, 1000 ml").unwrap();
        assert_eq!((tank.holds(size("4x5")), tank.agitation), (Some(4), None));
        let drum = Vessel::parse("drum, holds 2 of 5x7 or 1 of 8x10, 0.25 l").unwrap();
        assert_eq!(drum.holds(size("7x5")), Some(2));
        assert_eq!(drum.holds(size("8x10")), Some(1));
        assert_eq!(drum.least.value(), 250.0);
        assert_eq!(drum.agitation, Some(Agitation::Continuous));
        assert_eq!(drum.name, "drum");
    }

    #[test]
    fn what_says_too_little_or_too_much_is_a_sentence() {
        for text in [
            "",
            "tank",
            "4 of 4x5",
            "1000 ml",
            "0 of 4x5, 1 l",
            "1.5 of 4x5, 1 l",
            "4 of 4x5, 0 ml",
            "101 of 4x5, 9 l",
            "4x5, 1000 ml",
            "4 of big, 1 l",
        ] {
            assert!(Vessel::parse(text).is_err(), "{text}");
        }
    }

    proptest! {
        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            if let Ok(vessel) = Vessel::parse(&text) {
                prop_assert!(vessel.least.value() >= 1.0 && !vessel.takes.is_empty());
            }
        }
    }
}
