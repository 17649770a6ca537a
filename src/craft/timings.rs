//! Several times in one line: the shots of a shutter test, the openings of one exposure.
//!
//! For: fields that take a list of times. Promises: what [`said`] writes is read back as the same
//! times, as far as a time is read back from its own text. A comma between two digits is a decimal
//! mark if the times can be read so. Which of the times counts, and whether they are added up, is
//! left to whoever asks.

use super::{Seconds, Unreadable};

const WANTED: &str = "a list of times: write 1/95 1/97 1/93, or 2m30, 6s";

/// Reads times that stand beside each other, parted by blanks, commas or semicolons: `1/95 1/97
/// 1/93`, `10.5 ms, 11 ms`, `2m30; 6s`.
///
/// ```
/// use notchbook::craft::timings;
/// let times = timings::read("1/95 1/97, 10.5 ms")?;
/// assert_eq!(timings::said(&times), "1/95 s, 1/97 s, 0.0105 s");
/// assert!(timings::read("1/95 often").is_err());
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
///
/// # Errors
/// If there is no time in the text, or anything in it that is none.
pub fn read(text: &str) -> Result<Vec<Seconds>, Unreadable> {
    let unreadable = || Unreadable::new(text, WANTED);
    let mut times = Vec::new();
    for part in text.replace(", ", ";").split([';', '\n']) {
        let words: Vec<&str> = part.split_whitespace().collect();
        let mut rest = words.as_slice();
        while !rest.is_empty() {
            let (found, after) = first(rest).ok_or_else(unreadable)?;
            times.extend(found);
            rest = after;
        }
    }
    if times.is_empty() {
        return Err(unreadable());
    }
    Ok(times)
}

/// The time at the beginning, and the words behind it. Words belong together when the second is the
/// unit of the first, or when minutes or hours come before seconds; `1 1/2` and `1.5 s 0.5 s` are two
/// times.
fn first<'w, 't>(words: &'w [&'t str]) -> Option<(Vec<Seconds>, &'w [&'t str])> {
    const LONGEST: usize = 6;
    for length in (2..=words.len().min(LONGEST)).rev() {
        let (together, after) = words.split_at(length);
        if belong_together(together)
            && let Ok(time) = Seconds::parse(&together.join(" "))
        {
            return Some((vec![time], after));
        }
    }
    let (word, after) = words.split_first()?;
    if let Ok(time) = Seconds::parse(word) {
        return Some((vec![time], after));
    }
    // "1/95,1/97" is not one number with a decimal comma, so it is two.
    let parts = word.split(',').filter(|part| !part.is_empty());
    let times: Option<Vec<Seconds>> = parts.map(|part| Seconds::parse(part).ok()).collect();
    Some((times.filter(|times| !times.is_empty())?, after))
}

fn belong_together(words: &[&str]) -> bool {
    if let [_, unit] = words
        && unit.chars().all(char::is_alphabetic)
    {
        return true;
    }
    let joined = words.concat().to_lowercase();
    let unit = joined.trim_start_matches(|c: char| !c.is_alphabetic() && c != '\'');
    let seconds = unit.starts_with("ms") || unit.starts_with('s');
    !unit.is_empty() && !seconds
}

/// Writes times beside each other: `1/95 s, 1/97 s`.
#[must_use]
pub fn said(times: &[Seconds]) -> String {
    let each: Vec<String> = times.iter().map(Seconds::to_string).collect();
    each.join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn values(text: &str) -> Vec<f64> {
        let times = read(text).unwrap_or_else(|why| panic!("{why}"));
        times.into_iter().map(Seconds::value).collect()
    }

    #[test]
    fn times_are_parted_by_blanks_commas_or_semicolons() {
        let shots = [1.0 / 95.0, 1.0 / 97.0];
        for text in [
            "1/95 1/97",
            "1/95, 1/97",
            "1/95,1/97",
            " 1/95 ; 1/97;",
            "1/95s 1/97 s",
            "1/95 s 1/97 s",
        ] {
            assert_eq!(values(text), shots, "{text}");
        }
        assert_eq!(values("10.5 ms 11 ms"), [0.0105, 0.011]);
        assert_eq!(values("1,5 1,6"), [1.5, 1.6]);
        assert_eq!(values("1 1/2"), [1.0, 0.5]);
        assert_eq!(values("1.5 s 0.5 s"), [1.5, 0.5]);
        assert_eq!(values("6 7 8"), [6.0, 7.0, 8.0]);
    }

    #[test]
    fn a_time_with_its_units_is_one_time() {
        assert_eq!(values("2 min 30 s"), [150.0]);
        assert_eq!(values("2 min 30 s, 6 s"), [150.0, 6.0]);
        assert_eq!(values("2 min 30 s 1 min"), [150.0, 60.0]);
        assert_eq!(values("2m30 6s"), [150.0, 6.0]);
        assert_eq!(values("2' 30\""), [150.0]);
    }

    #[test]
    fn what_is_no_time_is_asked_back() {
        for text in ["", " , ", "1/95 often", "0 0", "often", "1/0"] {
            assert!(read(text).is_err(), "{text}");
        }
    }

    proptest! {
        #[test]
        fn any_text_is_read_or_refused(text in "\\PC{0,40}") {
            if let Ok(times) = read(&text) {
                prop_assert!(!times.is_empty());
            }
        }

        #[test]
        fn what_is_said_is_read_again(marks in prop::collection::vec(1_u32..2000, 1..6)) {
            let times: Vec<Seconds> = marks
                .iter()
                .map(|mark| Seconds::new(1.0 / f64::from(*mark)).unwrap())
                .collect();
            prop_assert_eq!(read(&said(&times)).unwrap(), times);
        }
    }
}
