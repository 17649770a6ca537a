//! Directions over the ground.

use std::fmt;

use crate::craft::Unreadable;
use crate::craft::numeral::{Cursor, plain, trimmed};

const WANTED: &str = "a direction: write 240, 240 deg or WSW";

/// The 32 points of the compass from north by east; `b` is by.
const POINTS: [&str; 32] = [
    "n", "nbe", "nne", "nebn", "ne", "nebe", "ene", "ebn", "e", "ebs", "ese", "sebe", "se", "sebs",
    "sse", "sbe", "s", "sbw", "ssw", "swbs", "sw", "swbw", "wsw", "wbs", "w", "wbn", "wnw", "nwbw",
    "nw", "nwbn", "nnw", "nbw",
];

/// A direction over the ground in degrees from true north by east, from 0 to just below 360.
///
/// ```
/// use notchbook::craft::sun::Bearing;
/// assert_eq!(Bearing::parse("WSW")?.degrees(), 247.5);
/// assert_eq!(Bearing::parse("240 deg")?.to_string(), "240 deg (WSW)");
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bearing(f64);

impl Bearing {
    /// The direction so many degrees from north, whole turns taken off. North for what is no number.
    pub(super) fn turned(degrees: f64) -> Bearing {
        let turned = degrees.rem_euclid(360.0);
        // A tiny negative angle rounds to a whole turn.
        Bearing(if turned < 360.0 { turned + 0.0 } else { 0.0 })
    }

    /// Reads `240`, `240 deg`, `240.5°`, `WSW`, `south-west`, `SW by W`; degrees from 0 to 360.
    ///
    /// # Errors
    /// If the text is no direction.
    pub fn parse(text: &str) -> Result<Bearing, Unreadable> {
        let plain = plain(text);
        by_degrees(&plain)
            .or_else(|| by_point(&plain))
            .ok_or_else(|| Unreadable::new(text, WANTED))
    }

    /// Degrees from true north by east.
    #[must_use]
    pub const fn degrees(self) -> f64 {
        self.0
    }

    /// The direction behind.
    #[must_use]
    pub fn opposite(self) -> Bearing {
        Bearing::turned(self.0 + 180.0)
    }

    /// The direction so many degrees further right.
    #[must_use]
    pub fn right_by(self, degrees: f64) -> Bearing {
        Bearing::turned(self.0 + degrees)
    }

    /// How many degrees `other` lies to the right of this direction, -180 to 180.
    #[must_use]
    pub fn to(self, other: Bearing) -> f64 {
        (other.0 - self.0 + 180.0).rem_euclid(360.0) - 180.0
    }

    /// The nearest of the sixteen points that people name: `WSW`.
    #[must_use]
    pub fn point(self) -> String {
        let nearest = (self.0 / 22.5).round() as usize % 16;
        let point = POINTS.iter().step_by(2).nth(nearest);
        point.map(|point| point.to_uppercase()).unwrap_or_default()
    }
}

fn by_degrees(plain: &str) -> Option<Bearing> {
    let mut cursor = Cursor::new(plain);
    let degrees = cursor.decimal()?;
    let is_unit = matches!(cursor.word(), "" | "deg" | "degrees" | "\u{b0}");
    let fits = is_unit && cursor.at_end() && degrees <= 360.0;
    fits.then(|| Bearing::turned(degrees))
}

fn by_point(plain: &str) -> Option<Bearing> {
    let mut point = plain.replace([' ', '-'], "").replace("by", "b");
    for (word, letter) in [("north", "n"), ("south", "s"), ("east", "e"), ("west", "w")] {
        point = point.replace(word, letter);
    }
    let at = POINTS.iter().position(|known| *known == point)?;
    Some(Bearing::turned(at as f64 * 11.25))
}

impl fmt::Display for Bearing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} deg ({})", trimmed(self.0, 1), self.point())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn directions_are_read_in_degrees_and_in_points() {
        for (text, degrees) in [
            ("240", 240.0),
            ("240 deg", 240.0),
            ("240.5°", 240.5),
            ("0", 0.0),
            ("360", 0.0),
            ("WSW", 247.5),
            ("n", 0.0),
            ("West", 270.0),
            ("south-west", 225.0),
            ("south southeast", 157.5),
            ("SW by W", 236.25),
            ("n by e", 11.25),
        ] {
            assert_eq!(Bearing::parse(text).unwrap().degrees(), degrees, "{text}");
        }
        for text in ["", "361", "-10", "up", "nsew", "240 m", "nan", "WSW 240"] {
            assert!(Bearing::parse(text).is_err(), "{text}");
        }
    }

    #[test]
    fn a_direction_is_shown_with_its_nearest_point() {
        assert_eq!(Bearing::turned(194.34).to_string(), "194.3 deg (SSW)");
        assert_eq!(Bearing::turned(359.0).to_string(), "359 deg (N)");
        assert_eq!(Bearing::turned(-1e-20).degrees(), 0.0);
    }

    proptest! {
        #[test]
        fn the_way_to_another_direction_leads_there(one in 0.0..360.0_f64, other in 0.0..360.0_f64) {
            let (one, other) = (Bearing::turned(one), Bearing::turned(other));
            let there = one.right_by(one.to(other));
            prop_assert!(there.to(other).abs() < 1e-9);
        }

        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            if let Ok(bearing) = Bearing::parse(&text) {
                prop_assert!((0.0..360.0).contains(&bearing.degrees()));
            }
        }
    }
}
