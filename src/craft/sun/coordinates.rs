//! Places on the earth as people write them.

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::craft::numeral::{Cursor, plain, trimmed};
use crate::craft::{Impossible, Unreadable};

const WANTED: &str = "a place: write 46.5 N 8.2 E, or 46.5, 8.2 with south and west negative";
const OFF_THE_EARTH: &str =
    "a place on the earth: latitude goes to 90 north and south, longitude to 180 east and west";

/// A place on the earth.
///
/// ```
/// use notchbook::craft::sun::Coordinates;
/// let place = Coordinates::parse("46 30 N, 8 12 E")?;
/// assert_eq!((place.latitude(), place.longitude()), (46.5, 8.2));
/// assert_eq!(Coordinates::parse("-44.67 167.92")?.to_string(), "44.67 S 167.92 E");
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Written")]
pub struct Coordinates {
    latitude: f64,
    longitude: f64,
}

/// As it stands in a file, before it is known to be on the earth.
#[derive(Deserialize)]
struct Written {
    latitude: f64,
    longitude: f64,
}

impl TryFrom<Written> for Coordinates {
    type Error = Impossible;

    fn try_from(written: Written) -> Result<Coordinates, Impossible> {
        Coordinates::new(written.latitude, written.longitude)
    }
}

impl Coordinates {
    /// A place by degrees north (south negative) and degrees east (west negative).
    ///
    /// # Errors
    /// If there is no such place on the earth.
    pub fn new(latitude: f64, longitude: f64) -> Result<Coordinates, Impossible> {
        Coordinates::within(latitude, longitude).ok_or_else(|| {
            Impossible::new(format!(
                "latitude {latitude}, longitude {longitude} is not {OFF_THE_EARTH}"
            ))
        })
    }

    fn within(latitude: f64, longitude: f64) -> Option<Coordinates> {
        let on_earth = latitude.abs() <= 90.0 && longitude.abs() <= 180.0;
        on_earth.then_some(Coordinates {
            latitude,
            longitude,
        })
    }

    /// Reads `46.5 N 8.2 E`, `46.5, 8.2`, `-44.67 167.92`, `46 30 N, 8 12 E`, `46°30'N 8°12'15"E`.
    /// Latitude comes first unless letters say otherwise; without letters south and west are negative.
    ///
    /// # Errors
    /// If the text is no place, or none on the earth.
    pub fn parse(text: &str) -> Result<Coordinates, Unreadable> {
        let plain = plain(text);
        // "46 30 N, 8 12 E" has minutes; in "46 8" the second number is the longitude; what
        // "46 30 8 12" means is not clear.
        let told_apart = plain.contains(", ") || plain.contains(['n', 's', 'e', 'w']);
        let (one, other) = [true, false]
            .into_iter()
            .filter(|minutes| told_apart || !minutes)
            .find_map(|minutes| both(&plain, minutes))
            .ok_or_else(|| Unreadable::new(text, WANTED))?;
        let (latitude, longitude) = match (one.axis, other.axis) {
            (Some(Axis::East), _) | (_, Some(Axis::North)) => (other.degrees, one.degrees),
            _ => (one.degrees, other.degrees),
        };
        Coordinates::within(latitude, longitude).ok_or_else(|| Unreadable::new(text, OFF_THE_EARTH))
    }

    /// Degrees north of the equator, south negative.
    #[must_use]
    pub const fn latitude(self) -> f64 {
        self.latitude
    }

    /// Degrees east of Greenwich, west negative.
    #[must_use]
    pub const fn longitude(self) -> f64 {
        self.longitude
    }
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Axis {
    North,
    East,
}

#[derive(Debug, Clone, Copy)]
struct Angle {
    degrees: f64,
    axis: Option<Axis>,
}

fn both(plain: &str, minutes: bool) -> Option<(Angle, Angle)> {
    let mut cursor = Cursor::new(plain);
    let one = angle(&mut cursor, minutes)?;
    cursor.take(',');
    let other = angle(&mut cursor, minutes)?;
    let same = one.axis.is_some() && one.axis == other.axis;
    (cursor.at_end() && !same).then_some((one, other))
}

/// One angle, with its letter before or behind it; with bare numbers as minutes and seconds behind
/// whole degrees if `minutes`.
fn angle(cursor: &mut Cursor<'_>, minutes: bool) -> Option<Angle> {
    let mut side = letter(cursor);
    let mut ahead = cursor.clone();
    let signed = ahead.take('-') || ahead.take('+');
    let sign = cursor.sign();
    let mut degrees = cursor.decimal()?;
    let marked = unit(cursor, &["\u{b0}", "deg"]);
    let (mut last, mut smaller) = (degrees, 60.0);
    for marks in [["'", "min"], ["\"", "sec"]] {
        let mut ahead = cursor.clone();
        let Some(part) = ahead.decimal() else { break };
        let named = unit(&mut ahead, &marks);
        if !(named || minutes) || part >= 60.0 || last.fract() != 0.0 {
            break;
        }
        // A number behind "46.5" or "46°" that is not marked as minutes is the other angle's.
        if marked && !named {
            break;
        }
        last = part;
        degrees += part / smaller;
        smaller *= 60.0;
        *cursor = ahead;
    }
    if side.is_none() {
        side = letter(cursor);
    }
    match side {
        // "-46 S" says it twice, or says two things.
        Some(_) if signed => None,
        Some((axis, way)) => Some(Angle {
            degrees: way * degrees,
            axis: Some(axis),
        }),
        None => Some(Angle {
            degrees: sign * degrees,
            axis: None,
        }),
    }
}

/// Steps over one of these units; says whether it was there.
fn unit(cursor: &mut Cursor<'_>, units: &[&str]) -> bool {
    let mut ahead = cursor.clone();
    let word = ahead.word();
    if units.contains(&word) {
        *cursor = ahead;
        return true;
    }
    // "46°n": the sign and the letter are written as one.
    word.starts_with('\u{b0}') && units.contains(&"\u{b0}") && cursor.take('\u{b0}')
}

/// Steps over the name of a quarter: its axis, and 1 or -1.
fn letter(cursor: &mut Cursor<'_>) -> Option<(Axis, f64)> {
    let mut ahead = cursor.clone();
    let side = match ahead.word() {
        "n" | "north" => (Axis::North, 1.0),
        "s" | "south" => (Axis::North, -1.0),
        "e" | "east" => (Axis::East, 1.0),
        "w" | "west" => (Axis::East, -1.0),
        _ => return None,
    };
    *cursor = ahead;
    Some(side)
}

impl fmt::Display for Coordinates {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (lat, lon) = (self.latitude, self.longitude);
        let north = if lat < 0.0 { 'S' } else { 'N' };
        let east = if lon < 0.0 { 'W' } else { 'E' };
        let (lat, lon) = (trimmed(lat.abs(), 5), trimmed(lon.abs(), 5));
        write!(f, "{lat} {north} {lon} {east}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn places_are_read_as_people_write_them() {
        for (text, latitude, longitude) in [
            ("46.5 N 8.2 E", 46.5, 8.2),
            ("46.5N 8.2E", 46.5, 8.2),
            ("46.5N, 8.2E", 46.5, 8.2),
            ("46.5, 8.2", 46.5, 8.2),
            ("46.5,8.2", 46.5, 8.2),
            ("46.5 8.2", 46.5, 8.2),
            ("46,5 8,2", 46.5, 8.2),
            ("46 8", 46.0, 8.0),
            ("46, 8", 46.0, 8.0),
            ("46 30 N, 8 12 E", 46.5, 8.2),
            ("46 30, 8 12", 46.5, 8.2),
            ("46°30'N 8°12'E", 46.5, 8.2),
            ("46° 30′ 0″ N, 8° 12′ 0″ E", 46.5, 8.2),
            ("46°N 8°E", 46.0, 8.0),
            ("46° 8°", 46.0, 8.0),
            ("46 deg 30 min N 8 deg 12 min E", 46.5, 8.2),
            ("N 46.5 E 8.2", 46.5, 8.2),
            ("8.2 E 46.5 N", 46.5, 8.2),
            ("-44.67 167.92", -44.67, 167.92),
            ("-44.67, 167.92", -44.67, 167.92),
            ("44.67 S 167.92 E", -44.67, 167.92),
            ("36.25 north, 116.825 west", 36.25, -116.825),
            ("36 15 N 116 49 30 W", 36.25, -116.825),
            ("−0.5, −50", -0.5, -50.0),
            ("-0 30, 8 12", -0.5, 8.2),
        ] {
            let place = Coordinates::parse(text).unwrap_or_else(|why| panic!("{why}"));
            let off = (place.latitude() - latitude).abs() + (place.longitude() - longitude).abs();
            assert!(off < 1e-9, "{text}: {place}");
        }
    }

    #[test]
    fn what_is_no_place_is_refused() {
        for text in [
            "",
            "46.5",
            "46.5 N",
            "46.5 N 8.2 N",
            "46.5 E 8.2 E",
            "-46.5 S 8.2 E",
            "here",
            "46 30 15",
            "46 30 8 12",
            "46 70 N 8 12 E",
            "46.5 30 N 8 E",
            "1 2 3 4 5 6 7",
            "nan, 8",
            "46.5 / 8.2",
        ] {
            assert!(Coordinates::parse(text).is_err(), "{text}");
        }
        for text in ["90.1 N 8 E", "46 N 180.5 E", "167.92 -44.67"] {
            let why = Coordinates::parse(text).unwrap_err().to_string();
            assert!(why.contains("is not a place on the earth"), "{why}");
        }
        assert!(Coordinates::new(f64::NAN, 0.0).is_err());
        assert!(Coordinates::new(0.0, f64::INFINITY).is_err());
    }

    proptest! {
        #[test]
        fn what_is_shown_can_be_read_back(lat in -90.0..=90.0_f64, lon in -180.0..=180.0_f64) {
            let place = Coordinates::new(lat, lon).unwrap();
            let back = Coordinates::parse(&place.to_string()).unwrap();
            prop_assert!((back.latitude() - lat).abs() < 1e-5);
            prop_assert!((back.longitude() - lon).abs() < 1e-5);
        }

        #[test]
        fn no_text_makes_the_reader_panic(
            text in prop_oneof![crate::craft::scribble::text(), "[0-9., nsew°'\"-]{0,24}"],
        ) {
            if let Ok(place) = Coordinates::parse(&text) {
                prop_assert!(place.latitude().abs() <= 90.0 && place.longitude().abs() <= 180.0);
            }
        }
    }
}
