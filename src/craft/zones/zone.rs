//! A zone: a step of one stop on the scale from bare film to paper white.

use std::fmt;

use crate::craft::measure::measure;
use crate::craft::numeral::{Cursor, plain, trimmed};
use crate::craft::unreadable::Unreadable;

const WANTED: &str = "a zone: write III, V 1/2, VII+1/3 or 3";
const ROMAN: [&str; 11] = [
    "0", "I", "II", "III", "IV", "V", "VI", "VII", "VIII", "IX", "X",
];

measure! {
    /// A zone from 0 to X, kept as a number; between zones it has a part.
    ///
    /// ```
    /// use notchbook::craft::zones::Zone;
    /// assert_eq!(Zone::parse("iii")?.value(), 3.0);
    /// assert_eq!(Zone::parse("7")?.to_string(), "VII");
    /// assert_eq!(Zone::parse("V½")?.to_string(), "V+1/2");
    /// # Ok::<(), notchbook::craft::Unreadable>(())
    /// ```
    Zone, 0.0..=10.0, "a zone from 0 to X"
}

impl Zone {
    /// Zone V, on which a meter puts whatever it reads.
    pub const MIDDLE: Zone = Zone(5.0);

    /// Reads `III`, `iii`, `3`, `zone III`, `V 1/2`, `VII+1/3`, `VII-1/3`, `5.5`.
    ///
    /// # Errors
    /// If the text is no zone, or one outside 0 to X.
    pub fn parse(text: &str) -> Result<Self, Unreadable> {
        let zone = read(&plain(text)).ok_or_else(|| Unreadable::new(text, WANTED))?;
        Self::read(zone, text)
    }
}

/// The whole zone that a word in Roman numerals names; `0` is not a word.
pub(super) fn roman(word: &str) -> Option<f64> {
    let at = ROMAN
        .iter()
        .skip(1)
        .position(|one| one.eq_ignore_ascii_case(word))?;
    // Ten at most, so the cast loses nothing.
    Some((at + 1) as f64)
}

fn read(plain: &str) -> Option<f64> {
    let mut cursor = Cursor::new(plain);
    let mut word = cursor.word();
    if word == "zone" {
        word = cursor.word();
    }
    let whole = if word.is_empty() {
        cursor.number()?
    } else {
        roman(word)?
    };
    if cursor.at_end() {
        return Some(whole);
    }
    let below = cursor.take('-');
    if !below {
        cursor.take('+');
    }
    let part = cursor.number()?;
    let fits = whole.fract() == 0.0 && part < 1.0 && cursor.at_end();
    fits.then_some(if below { whole - part } else { whole + part })
}

/// The numeral of a zone, with the part beyond it: `III`, `VII+1/3`, `V+0.4`; what lies outside the
/// scale says so.
pub fn zone_name(zone: f64) -> String {
    let zone = (zone * 1e6).round() / 1e6 + 0.0;
    if zone < 0.0 {
        return format!("{} below 0", trimmed(-zone, 1));
    }
    if zone > 10.0 {
        return format!("{} above X", trimmed(zone - 10.0, 1));
    }
    // Rounded before it is split, so that 6.96 is VII and not VI+1.
    let parts = [2.0, 3.0, 4.0]
        .into_iter()
        .find(|many| ((zone * many).round() / many - zone).abs() < 1e-5);
    let zone = if parts.is_some() {
        zone
    } else {
        (zone * 10.0).round() / 10.0
    };
    // From 0 to 10, so the cast loses nothing.
    let name = ROMAN.get(zone.floor() as usize).unwrap_or(&"X");
    let part = zone - zone.floor();
    if part.abs() < 1e-6 {
        return (*name).to_owned();
    }
    match parts {
        Some(many) => format!("{name}+{}/{many}", (part * many).round()),
        None => format!("{name}+{}", trimmed(part, 1)),
    }
}

/// How each zone looks in the print, 0 to X: "Zone system placement / EV system", jackspcs.com, in short.
const LOOKS: [&str; 11] = [
    "bare film, black",
    "first tone, no texture",
    "first hint of texture",
    "dark with full texture",
    "dark foliage, landscape shadow",
    "middle grey",
    "light skin, light stone",
    "very light, textured",
    "white with delicate texture",
    "white without texture",
    "paper white",
];

/// How what falls on a zone looks in the print, by the nearest whole zone: `dark with full texture`.
pub fn zone_look(zone: f64) -> &'static str {
    // Kept from 0 to 10, so the cast loses nothing.
    let nearest = zone.round().clamp(0.0, 10.0) as usize;
    LOOKS.get(nearest).copied().unwrap_or_default()
}

impl fmt::Display for Zone {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&zone_name(self.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn zones_are_read_as_people_write_them() {
        for (text, value, shown) in [
            ("III", 3.0, "III"),
            ("iii", 3.0, "III"),
            ("3", 3.0, "III"),
            ("0", 0.0, "0"),
            ("X", 10.0, "X"),
            ("Zone VIII", 8.0, "VIII"),
            ("V 1/2", 5.5, "V+1/2"),
            ("V½", 5.5, "V+1/2"),
            ("5 1/2", 5.5, "V+1/2"),
            ("5.5", 5.5, "V+1/2"),
            ("VII+1/3", 7.0 + 1.0 / 3.0, "VII+1/3"),
            ("VII-1/3", 7.0 - 1.0 / 3.0, "VI+2/3"),
            ("III+1/4", 3.25, "III+1/4"),
            ("VI+0.4", 6.4, "VI+0.4"),
        ] {
            let zone = Zone::parse(text).unwrap();
            assert!((zone.value() - value).abs() < 1e-12, "{text}");
            assert_eq!(zone.to_string(), shown, "{text}");
        }
    }

    #[test]
    fn what_is_no_zone_is_refused() {
        for text in [
            "",
            "zone",
            "XI",
            "11",
            "-1",
            "X+1/3",
            "IIII",
            "V+1",
            "V 1/2 1/2",
            "five",
            "V x",
            "nan",
        ] {
            assert!(Zone::parse(text).is_err(), "{text}");
        }
    }

    #[test]
    fn outside_the_scale_says_how_far() {
        assert_eq!(zone_name(-1.26), "1.3 below 0");
        assert_eq!(zone_name(10.5), "0.5 above X");
        assert_eq!(zone_name(6.96), "VII");
        assert_eq!(zone_name(-0.0), "0");
    }

    #[test]
    fn a_zone_looks_like_the_nearest_whole_one() {
        assert_eq!(zone_look(3.2), "dark with full texture");
        assert_eq!(zone_look(-4.0), "bare film, black");
        assert_eq!(zone_look(12.0), "paper white");
        assert_eq!(zone_look(f64::NAN), "bare film, black");
    }

    proptest! {
        #[test]
        fn what_is_shown_can_be_read_back(value in 0.0..=10.0_f64) {
            let zone = Zone::new(value).unwrap();
            let back = Zone::parse(&zone.to_string()).unwrap();
            prop_assert!((back.value() - value).abs() <= 0.050_01, "{zone}");
        }

        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            if let Ok(zone) = Zone::parse(&text) {
                prop_assert!((0.0..=10.0).contains(&zone.value()));
            }
        }
    }
}
