//! When film is moved in a bath: so long all the time at first, then so long every so often.
//!
//! For: the cues of a clock. Promises: whatever the figures, the next cue lies ahead; a rhythm without
//! rests has no cues. Which rhythm is told of which vessel is for the reference.

use crate::craft::numeral::plain;
use crate::craft::{Impossible, Seconds};

/// How film is moved.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rhythm {
    /// All the time for so many seconds at first.
    first: f64,
    /// Then so long each time; 0 for a turn that takes no time worth counting.
    each: f64,
    /// From one beginning to the next; nothing if it never rests.
    every: Option<f64>,
}

/// What the hand does at a moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Moves {
    /// It moves the film all the time, to the end.
    Always,
    /// It moves the film until so many seconds after the beginning.
    Until(f64),
    /// It rests until so many seconds after the beginning.
    RestsUntil(f64),
}

/// The shortest and the longest from one beginning to the next, in seconds.
const EVERY: std::ops::RangeInclusive<f64> = 1.0..=3600.0;

impl Rhythm {
    /// Moved all the time, as in a tray or a rotary tube.
    pub const ALWAYS: Rhythm = Rhythm {
        first: 0.0,
        each: 0.0,
        every: None,
    };

    /// All the time for `first` seconds, then for `each` seconds every `every` seconds.
    ///
    /// # Errors
    /// If the film would have to be moved longer than there is time between two beginnings, or there
    /// is less than a second or more than an hour between them.
    pub fn new(first: f64, each: f64, every: f64) -> Result<Rhythm, Impossible> {
        if !EVERY.contains(&every) {
            return Err(Impossible::new(format!(
                "every {every} s is no rhythm: from 1 s to 1 h can be counted"
            )));
        }
        if !(0.0..=3600.0).contains(&first) || !(0.0..=every).contains(&each) {
            return Err(Impossible::new(format!(
                "{each} s cannot be given every {every} s, after {first} s at first: write what is \
                 done as so many seconds in each so many"
            )));
        }
        Ok(Rhythm {
            first,
            each,
            every: Some(every),
        })
    }

    /// Reads what people write about agitation: `turn every 30 s`, `constant`, `first 30 s, then 5 s
    /// every minute`. Nothing if it says no rhythm.
    ///
    /// ```
    /// use notchbook::craft::development::rhythm::{Moves, Rhythm};
    /// let rhythm = Rhythm::parse("first 30 s, then 5 s every minute").unwrap();
    /// assert_eq!(rhythm.at(12.0), Moves::Until(30.0));
    /// assert_eq!(rhythm.at(62.0), Moves::Until(65.0));
    /// assert_eq!(Rhythm::parse("gently"), None);
    /// ```
    pub fn parse(text: &str) -> Option<Rhythm> {
        let plain = plain(text);
        let always = ["constant", "continuous", "all the time", "rotary"];
        let (before, after) = match ["every", "each"].into_iter().find_map(|it| {
            let at = plain.find(it)?;
            Some((plain.get(..at)?, plain.get(at + it.len()..)?))
        }) {
            Some(halves) => halves,
            None if always.iter().any(|word| plain.contains(word)) => {
                return Some(Rhythm::ALWAYS);
            }
            None => return None,
        };
        let every = times_in(after).next().or_else(|| {
            let word = after.split_whitespace().next()?;
            match word.trim_end_matches(['.', ',']) {
                "minute" | "min" => Some(60.0),
                "half" => Some(30.0),
                _ => None,
            }
        })?;
        let mut told = times_in(before);
        let (first, each) = match (told.next(), told.next()) {
            (Some(first), Some(each)) => (first, each),
            (Some(one), None) if plain.starts_with("first") => (one, 0.0),
            (Some(one), None) => (0.0, one),
            (None, _) => (0.0, 0.0),
        };
        Rhythm::new(first, each, every).ok()
    }

    /// Whether the film never rests.
    #[must_use]
    pub const fn never_rests(self) -> bool {
        self.every.is_none()
    }

    /// What the hand does so many seconds after the beginning.
    #[must_use]
    pub fn at(self, elapsed: f64) -> Moves {
        let Some(every) = self.every else {
            return Moves::Always;
        };
        if elapsed < self.first {
            return Moves::Until(self.first);
        }
        let turn = (elapsed / every).floor() * every;
        // The first beginning is the one of the first seconds.
        if turn > 0.0 && elapsed < turn + self.each {
            return Moves::Until(turn + self.each);
        }
        Moves::RestsUntil(self.next(elapsed).unwrap_or(turn + every))
    }

    /// When the hand begins to move next, in seconds after the beginning; nothing if it never rests.
    #[must_use]
    pub fn next(self, elapsed: f64) -> Option<f64> {
        let every = self.every?;
        let begun = elapsed.max(self.first);
        Some(((begun / every).floor() + 1.0) * every)
    }
}

/// Every time that is written in a text, in seconds.
fn times_in(text: &str) -> impl Iterator<Item = f64> {
    let words: Vec<&str> = text.split([' ', ',', ';']).collect();
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(word) = words.get(at) {
        let unit = words.get(at + 1).copied().unwrap_or("");
        let is_number = word.chars().all(|c| c.is_ascii_digit() || c == '.');
        let both = format!("{word} {unit}");
        let read = if word.is_empty() {
            None
        } else if let Ok(time) = Seconds::parse(&both)
            && is_number
        {
            at += 1;
            Some(time)
        } else {
            Seconds::parse(word).ok()
        };
        found.extend(read.map(Seconds::value));
        at += 1;
    }
    found.into_iter()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_tank_is_moved_at_first_and_then_each_minute() {
        let tank = Rhythm::new(30.0, 5.0, 60.0).unwrap();
        for (at, moves) in [
            (0.0, Moves::Until(30.0)),
            (29.9, Moves::Until(30.0)),
            (30.0, Moves::RestsUntil(60.0)),
            (60.0, Moves::Until(65.0)),
            (65.0, Moves::RestsUntil(120.0)),
            (599.0, Moves::RestsUntil(600.0)),
        ] {
            assert_eq!(tank.at(at), moves, "{at}");
        }
        assert_eq!(tank.next(60.0), Some(120.0));
        assert_eq!(Rhythm::ALWAYS.at(90.0), Moves::Always);
        assert_eq!(Rhythm::ALWAYS.next(90.0), None);
    }

    #[test]
    fn first_seconds_longer_than_the_turn_leave_out_what_they_cover() {
        let long = Rhythm::new(90.0, 5.0, 30.0).unwrap();
        assert_eq!(long.at(60.0), Moves::Until(90.0));
        assert_eq!(long.next(0.0), Some(120.0));
    }

    #[test]
    fn what_people_write_is_read() {
        let rhythm = |first, each, every| Rhythm::new(first, each, every).ok();
        for (text, read) in [
            ("turn every 30 s", rhythm(0.0, 0.0, 30.0)),
            ("every 30 s", rhythm(0.0, 0.0, 30.0)),
            ("5 s each minute", rhythm(0.0, 5.0, 60.0)),
            ("first 30 s, then 5 s every minute", rhythm(30.0, 5.0, 60.0)),
            ("30s at first, 10s every 60s", rhythm(30.0, 10.0, 60.0)),
            ("constant", Some(Rhythm::ALWAYS)),
            ("all the time, bottom to top", Some(Rhythm::ALWAYS)),
            ("gently", None),
            ("every now and then", None),
            ("", None),
            ("90 s every 10 s", None),
        ] {
            assert_eq!(Rhythm::parse(text), read, "{text}");
        }
    }

    #[test]
    fn what_cannot_be_done_is_refused() {
        for (first, each, every) in [
            (0.0, 5.0, 0.0),
            (0.0, 61.0, 60.0),
            (-1.0, 5.0, 60.0),
            (0.0, 5.0, f64::NAN),
            (f64::INFINITY, 5.0, 60.0),
        ] {
            assert!(Rhythm::new(first, each, every).is_err());
        }
    }

    proptest! {
        #[test]
        fn the_next_cue_lies_ahead_and_is_met(
            first in 0.0..200.0_f64, every in 1.0..300.0_f64, part in 0.0..1.0_f64,
            elapsed in 0.0..5000.0_f64,
        ) {
            let rhythm = Rhythm::new(first, part * every, every).unwrap();
            let next = rhythm.next(elapsed).unwrap();
            prop_assert!(next > elapsed);
            prop_assert!(next - elapsed.max(first) <= every + 1e-6);
            match rhythm.at(elapsed) {
                Moves::Until(until) | Moves::RestsUntil(until) => prop_assert!(until > elapsed),
                Moves::Always => prop_assert!(false),
            }
        }

        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            if let Some(rhythm) = Rhythm::parse(&text) {
                let _ = rhythm.at(10.0);
            }
        }
    }
}
