//! How large something is on the film against what it is: `1:4` or `0.25`.
//!
//! For: fields of an exposure of something near. Promises: a magnification is above zero, and what is
//! written is read back as the same number. What it takes from the light is the business of
//! [`super::bellows`].

use super::numeral::{number, trimmed};
use super::unreadable::Unreadable;

const WANTED: &str = "a magnification above zero: write 1:4, 0.25 or 2:1";

/// From one ten-thousandth to a thousandfold: beyond that something was mistyped.
const RANGE: std::ops::RangeInclusive<f64> = 0.0001..=1000.0;

/// Reads `1:4`, `1/4`, `0.25`, `2:1`, `x2`.
///
/// ```
/// use notchbook::craft::magnification;
/// assert_eq!(magnification::read("1:4")?, 0.25);
/// assert_eq!(magnification::said(0.25), "1:4");
/// assert!(magnification::read("0").is_err());
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
///
/// # Errors
/// If the text is no magnification, or one that is not above zero.
pub fn read(text: &str) -> Result<f64, Unreadable> {
    let unreadable = || Unreadable::new(text, WANTED);
    let plain = text.trim().trim_start_matches(['x', 'X']);
    let plain = plain.trim_end_matches(['x', 'X']).trim();
    let value = match plain.split_once(':') {
        Some((film, subject)) => number(film)
            .and_then(|film| Ok(film / number(subject)?))
            .map_err(|_| unreadable())?,
        None => number(plain).map_err(|_| unreadable())?,
    };
    if is_one(value) {
        Ok(value)
    } else {
        Err(unreadable())
    }
}

/// Whether a number can be a magnification.
#[must_use]
pub fn is_one(value: f64) -> bool {
    RANGE.contains(&value)
}

/// As people write it: `1:4`, `1:2.5`, `1:1`, `2:1`; as a plain number where that says it exactly and
/// a ratio does not.
#[must_use]
pub fn said(value: f64) -> String {
    let subject = trimmed(1.0 / value, 1);
    if value <= 1.0 && is_same(&format!("1:{subject}"), value) {
        return format!("1:{subject}");
    }
    let film = trimmed(value, 1);
    if value > 1.0 && is_same(&format!("{film}:1"), value) {
        return format!("{film}:1");
    }
    value.to_string()
}

fn is_same(text: &str, value: f64) -> bool {
    read(text).is_ok_and(|again| again == value)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_magnification_is_read_as_people_write_it() {
        for (text, value, said_as) in [
            ("1:4", 0.25, "1:4"),
            ("1 : 4", 0.25, "1:4"),
            ("1/4", 0.25, "1:4"),
            ("0,25", 0.25, "1:4"),
            ("x0.25", 0.25, "1:4"),
            ("1", 1.0, "1:1"),
            ("2:1", 2.0, "2:1"),
            ("2x", 2.0, "2:1"),
            ("1:2.5", 0.4, "1:2.5"),
            ("0.37", 0.37, "0.37"),
        ] {
            let read = read(text).unwrap();
            assert!((read - value).abs() < 1e-12, "{text}");
            assert_eq!(said(read), said_as, "{text}");
        }
        for text in [
            "0", "-1", "1:0", "0:1", "1:", ":4", "wide", "", "1e999", "5000",
        ] {
            assert!(read(text).is_err(), "{text}");
        }
    }

    proptest! {
        #[test]
        fn what_is_said_is_read_again(value in 0.0001..1000.0_f64) {
            prop_assert_eq!(read(&said(value)).unwrap(), value);
        }
    }
}
