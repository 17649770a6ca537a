//! An aperture as it is set on a lens: the mark, and how far the ring stands beyond it.
//!
//! People set and remember marks (`f/22 and a third`), so the mark is what is kept and shown.
//! Marks are rounded names of an exact series: f/22 is 2^(9/2) = 22.627. [`Aperture::number`] and
//! [`Aperture::stops`] therefore answer from the exact series for the marks of the whole, half and
//! third stop scales, and take any other mark (f/6.8, a pinhole's f/280) at its word.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::numeral::{Cursor, exact_u32, plain, trimmed};
use super::unreadable::Unreadable;

mod marks;
use marks::{BETWEEN, WHOLE_STOPS, WIDEST};

const WANTED: &str = "an aperture: write f/22, f/22+1/3 or 5.6";
const RANGE: &str = "an aperture from f/0.5 to f/1024";

/// An aperture from f/0.5 to f/1024: a mark to three places, and a part of a stop beyond it.
///
/// ```
/// use notchbook::craft::Aperture;
/// let set = Aperture::parse("f22 1/3")?;
/// assert_eq!(set.to_string(), "f/22+1/3");
/// assert!((set.number() - 25.398).abs() < 0.001);
/// assert!((Aperture::parse("5,6")?.number() - 5.657).abs() < 0.001);
/// assert_eq!(Aperture::parse("f/6.8")?.number(), 6.8);
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Aperture {
    /// Thousandths of the f-number on the mark.
    mark: u32,
    /// The part of a stop beyond the mark, in lowest terms and between -1 and 1; 0/1 if none.
    above: i8,
    below: u8,
}

impl Aperture {
    /// The aperture at the mark with this f-number, kept to three places.
    ///
    /// # Errors
    /// If the mark is outside f/0.5 to f/1024, or no number at all.
    pub fn new(mark: f64) -> Result<Self, Unreadable> {
        Self::at_mark(mark).ok_or_else(|| Unreadable::new(&format!("f/{mark}"), RANGE))
    }

    fn at_mark(mark: f64) -> Option<Self> {
        if !(0.5..=1024.0).contains(&mark) {
            return None;
        }
        Some(Self {
            mark: exact_u32((mark * 1000.0).round())?,
            above: 0,
            below: 1,
        })
    }

    /// The whole-stop mark, with thirds beyond it, that is nearest to this many stops from f/1.
    ///
    /// ```
    /// use notchbook::craft::Aperture;
    /// assert_eq!(Aperture::nearest(9.3)?.to_string(), "f/22+1/3");
    /// # Ok::<(), notchbook::craft::Unreadable>(())
    /// ```
    ///
    /// # Errors
    /// If the aperture is outside f/0.5 to f/1024, or `stops` is no number at all.
    pub fn nearest(stops: f64) -> Result<Self, Unreadable> {
        Self::nearest_part(stops, 3)
    }

    /// The same with a stop divided into so many parts: whole stops by 1, halves by 2, thirds by 3.
    pub(super) fn nearest_part(stops: f64, parts: u32) -> Result<Self, Unreadable> {
        let many = f64::from(parts);
        let steps = (stops * many).round() - f64::from(WIDEST) * many;
        exact_u32(steps)
            .and_then(|steps| {
                let mark = *WHOLE_STOPS.get(usize::try_from(steps / parts).ok()?)?;
                let above = i8::try_from(steps % parts).ok()?;
                let below = if above == 0 {
                    1
                } else {
                    u8::try_from(parts).ok()?
                };
                // Nothing lies beyond the last mark.
                (mark < 1_024_000 || above == 0).then_some(Self { mark, above, below })
            })
            .ok_or_else(|| {
                let number = (stops / 2.0).exp2();
                Unreadable::new(&format!("f/{}", trimmed(number, 3)), RANGE)
            })
    }

    /// The mark that stands for exactly so many stops from f/1, if a scale has one: f/25 for 9 1/3.
    pub(super) fn marked(stops: f64) -> Option<Self> {
        let sixths = stops * 6.0;
        every_mark()
            .find(|(_, at)| (f64::from(*at) - sixths).abs() < 1e-6)
            .map(|(mark, _)| Self {
                mark,
                above: 0,
                below: 1,
            })
    }

    /// Reads `f/22`, `22`, `f22`, `f/5.6`, `5,6`, `f22 1/3`, `f/22+1/3`, `f/22-1/2`, `f/22+0.3`,
    /// `f/22⅔`. A part of a stop after `+`, or after a space, is closed further; after `-`, opened.
    ///
    /// # Errors
    /// If the text is no aperture, or one outside the range of the type.
    pub fn parse(text: &str) -> Result<Self, Unreadable> {
        let plain = plain(text);
        let (mark, above, below) = read(&plain).ok_or_else(|| Unreadable::new(text, WANTED))?;
        let at_mark = Self::at_mark(mark).ok_or_else(|| Unreadable::new(text, RANGE))?;
        Ok(Self {
            above,
            below,
            ..at_mark
        })
    }

    /// The f-number on the mark itself, as people say it: 22 for `f/22+1/3`.
    #[must_use]
    pub fn mark(self) -> f64 {
        f64::from(self.mark) / 1000.0
    }

    /// The exact f-number, to reckon with: 22.627 for `f/22`, 6.8 for `f/6.8`.
    #[must_use]
    pub fn number(self) -> f64 {
        match (self.sixths(), self.above) {
            (None, 0) => self.mark(),
            _ => (self.stops() / 2.0).exp2(),
        }
    }

    /// Stops closed down from f/1, 2 log2 of the exact f-number: 9 for `f/22`. The Av of APEX.
    #[must_use]
    pub fn stops(self) -> f64 {
        let at_mark = match self.sixths() {
            Some(sixths) => f64::from(sixths) / 6.0,
            None => 2.0 * self.mark().log2(),
        };
        at_mark + f64::from(self.above) / f64::from(self.below)
    }

    /// Sixths of a stop from f/1, if the mark is one of the scales'.
    fn sixths(self) -> Option<i32> {
        every_mark()
            .find(|(mark, _)| *mark == self.mark)
            .map(|(_, sixths)| sixths)
    }
}

/// Every mark of the scales in thousandths, with its sixths of a stop from f/1.
fn every_mark() -> impl Iterator<Item = (u32, i32)> {
    let whole = (WIDEST..).zip(WHOLE_STOPS);
    whole.map(|(stops, mark)| (mark, stops * 6)).chain(BETWEEN)
}

/// The mark, and the part of a stop beyond it.
fn read(plain: &str) -> Option<(f64, i8, u8)> {
    let rest = match plain.strip_prefix('f') {
        Some(rest) => {
            let rest = rest.trim_start();
            rest.strip_prefix(['/', ':', '.']).unwrap_or(rest)
        }
        None => plain,
    };
    let mut cursor = Cursor::new(rest);
    let mark = cursor.decimal()?;
    if cursor.at_end() {
        return Some((mark, 0, 1));
    }
    // Without a gap, as in "5.6.1", it is a slip and no part of a stop.
    let gap = cursor.space();
    let opened = cursor.take('-');
    if !(opened || cursor.take('+') || gap) {
        return None;
    }
    let (above, below) = part_of_a_stop(&mut cursor)?;
    if !matches!(cursor.word(), "" | "stop" | "stops") || !cursor.at_end() {
        return None;
    }
    Some((mark, if opened { -above } else { above }, below))
}

/// `1/3` or `0.3`, in lowest terms.
fn part_of_a_stop(cursor: &mut Cursor<'_>) -> Option<(i8, u8)> {
    let first = cursor.decimal()?;
    let (above, below) = if cursor.take('/') {
        (exact_u32(first)?, cursor.whole()?)
    } else {
        (exact_u32((first * 100.0).round())?, 100)
    };
    if above == 0 || above >= below || below > 100 {
        return None;
    }
    let shared = (1..=above)
        .rev()
        .find(|n| above % n == 0 && below % n == 0)?;
    let above = i8::try_from(above / shared).ok()?;
    let below = u8::try_from(below / shared).ok()?;
    Some((above, below))
}

impl fmt::Display for Aperture {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "f/{}", trimmed(self.mark(), 3))?;
        if self.above != 0 {
            write!(f, "{:+}/{}", self.above, self.below)?;
        }
        Ok(())
    }
}

impl FromStr for Aperture {
    type Err = Unreadable;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        Self::parse(text)
    }
}

impl TryFrom<String> for Aperture {
    type Error = Unreadable;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        Self::parse(&text)
    }
}

impl From<Aperture> for String {
    fn from(aperture: Aperture) -> Self {
        aperture.to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn aperture(text: &str) -> Aperture {
        Aperture::parse(text).unwrap()
    }

    #[test]
    fn apertures_are_read_as_people_write_them() {
        for (text, shown) in [
            ("f/22", "f/22"),
            ("F22", "f/22"),
            ("f 22", "f/22"),
            ("f:22", "f/22"),
            ("ƒ/22", "f/22"),
            ("22", "f/22"),
            ("5,6", "f/5.6"),
            ("f/6.8", "f/6.8"),
            ("f/.95", "f/0.95"),
            ("f22 1/3", "f/22+1/3"),
            ("f/22 + 1/3", "f/22+1/3"),
            ("f/22+1/3 stop", "f/22+1/3"),
            ("22⅔", "f/22+2/3"),
            ("f/22½", "f/22+1/2"),
            ("f/22+2/4", "f/22+1/2"),
            ("f/22+0.3", "f/22+3/10"),
            ("f/22-1/3", "f/22-1/3"),
            ("f/22−⅓", "f/22-1/3"),
            ("f/280", "f/280"),
            ("137.5", "f/137.5"),
        ] {
            assert_eq!(aperture(text).to_string(), shown, "{text}");
        }
    }

    #[test]
    fn what_is_no_aperture_is_refused() {
        for text in [
            "",
            "f",
            "f/",
            "abc",
            "-5.6",
            "f/-22",
            "f/22+",
            "f/22+1",
            "f/22+4/3",
            "f/22+0/3",
            "f/22+1/0",
            "f/22 1/3 1/3",
            "22 mm",
            "1/22",
            "f/22+1/101",
            "f/nan",
            "5.6.1",
            "t/4",
        ] {
            assert!(Aperture::parse(text).is_err(), "{text}");
        }
        for text in ["f/0", "0", "f/0.4", "f/1025", "f/99999999999999999999"] {
            let why = Aperture::parse(text).unwrap_err().to_string();
            assert!(
                why.ends_with("is not an aperture from f/0.5 to f/1024"),
                "{why}"
            );
        }
        assert!(Aperture::new(f64::NAN).is_err());
        assert!(Aperture::nearest(f64::NAN).is_err());
        assert!(Aperture::nearest(1e300).is_err());
        assert!(Aperture::nearest(20.4).is_err());
        assert!(Aperture::nearest(-2.4).is_err());
    }

    #[test]
    fn every_mark_of_a_scale_lies_close_to_the_stop_it_names() {
        for (mark, sixths) in BETWEEN {
            let literal = 2.0 * (f64::from(mark) / 1000.0).log2();
            let off = (literal - f64::from(sixths) / 6.0).abs();
            assert!(off < 0.085, "{mark}: {off}");
        }
        for (mark, stops) in WHOLE_STOPS.into_iter().zip(WIDEST..) {
            let literal = 2.0 * (f64::from(mark) / 1000.0).log2();
            assert!((literal - f64::from(stops)).abs() < 0.085, "{mark}");
        }
    }

    #[test]
    fn no_mark_is_named_twice() {
        let mut marks: Vec<u32> = WHOLE_STOPS.to_vec();
        marks.extend(BETWEEN.map(|(mark, _)| mark));
        marks.sort_unstable();
        assert!(marks.windows(2).all(|pair| pair[0] < pair[1]));
    }

    #[test]
    fn a_mark_off_the_scales_is_taken_at_its_word() {
        assert_eq!(aperture("f/6.8").number(), 6.8);
        let beyond = aperture("f/6.8+1/2").number();
        assert!((beyond - 6.8 * 2_f64.powf(0.25)).abs() < 1e-9);
        assert!((aperture("f/6.8").stops() - 2.0 * 6.8_f64.log2()).abs() < 1e-12);
    }

    #[test]
    fn the_same_light_has_the_same_stops_however_it_is_written() {
        for (one, other) in [
            ("f/25", "f/22+1/3"),
            ("f/20", "f/22-1/3"),
            ("f/27", "f/22+1/2"),
        ] {
            let difference = aperture(one).stops() - aperture(other).stops();
            assert!(difference.abs() < 1e-12, "{one} {other}");
        }
    }

    #[test]
    fn json_holds_a_short_text_and_is_checked_on_the_way_in() {
        let set = aperture("f22 1/3");
        assert_eq!(serde_json::to_string(&set).unwrap(), "\"f/22+1/3\"");
        assert_eq!(
            serde_json::from_str::<Aperture>("\"f/22+1/3\"").unwrap(),
            set
        );
        let why = serde_json::from_str::<Aperture>("\"f/0\"")
            .unwrap_err()
            .to_string();
        assert!(
            why.contains("\"f/0\" is not an aperture from f/0.5"),
            "{why}"
        );
    }

    proptest! {
        #[test]
        fn what_is_shown_is_read_back_the_same(
            mark in 500_u32..=1_024_000,
            (above, below) in (2_u8..=100).prop_flat_map(|below| (0..below, Just(below))),
            opened in any::<bool>(),
        ) {
            let sign = if opened { '-' } else { '+' };
            let mark = f64::from(mark) / 1000.0;
            let text = if above == 0 {
                format!("f/{mark}")
            } else {
                format!("f/{mark}{sign}{above}/{below}")
            };
            let set = aperture(&text);
            prop_assert_eq!(aperture(&set.to_string()), set);
            prop_assert!(set.number().is_finite() && set.number() > 0.0);
        }

        #[test]
        fn the_nearest_aperture_is_within_a_sixth_of_a_stop(stops in -2.0..=20.0_f64) {
            let set = Aperture::nearest(stops).unwrap();
            prop_assert!((set.stops() - stops).abs() <= 1.0 / 6.0 + 1e-9);
        }

        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            if let Ok(set) = Aperture::parse(&text) {
                prop_assert_eq!(aperture(&set.to_string()), set);
            }
        }
    }
}
