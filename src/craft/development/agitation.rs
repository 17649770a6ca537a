//! What agitation all the time, as in a tray or a rotary tube, takes off the time for a tank.

use crate::craft::{Amount, Figure, Grounds, Impossible, Seconds, Step};
use crate::words::words;

words! {
    /// How the developer is kept moving.
    Agitation {
        /// Now and then, as in a tank.
        Intermittent = "intermittent",
        /// All the time, as in a rotary tube or a tray.
        Continuous = "continuous",
    }
}

/// What agitation all the time leaves of a time for agitation now and then. No text that could be
/// opened states it.
const CONTINUOUS: f64 = 0.85;

/// Words that say that film is moved all the time, in a run or in the name of a vessel.
const ALL_THE_TIME: &[&str] = &[
    "continuous",
    "constant",
    "all the time",
    "rotary",
    "rotat",
    "drum",
    "tube",
    "tray",
    "dish",
    "without a pause",
    "leaf",
    "shuffl",
];
/// Words that say that it is moved now and then.
const NOW_AND_THEN: &[&str] = &[
    "intermittent",
    "now and then",
    "every",
    "each min",
    "a minute",
    "per min",
    "invert",
    "inversion",
    "hanger",
    "tank",
];

impl Agitation {
    /// How film is moved by what a person wrote of it: `turn every 30 s`, `constant`, `tray`. Nothing where
    /// the words say neither, or both.
    ///
    /// ```
    /// use notchbook::craft::development::agitation::Agitation;
    /// assert_eq!(Agitation::told("turn every 30 s"), Some(Agitation::Intermittent));
    /// assert_eq!(Agitation::told("tray, leafing through"), Some(Agitation::Continuous));
    /// assert_eq!(Agitation::told("gently"), None);
    /// ```
    #[must_use]
    pub fn told(text: &str) -> Option<Agitation> {
        let text = text.to_lowercase();
        let says = |words: &[&str]| words.iter().any(|word| text.contains(word));
        match (says(ALL_THE_TIME), says(NOW_AND_THEN)) {
            (true, false) => Some(Agitation::Continuous),
            (false, true) => Some(Agitation::Intermittent),
            _ => None,
        }
    }
}

/// A time for `was` turned into one for agitation all the time.
///
/// # Errors
/// If the time is for agitation all the time already, or the result is no time.
pub fn continuous(time: Seconds, was: Agitation) -> Result<Figure<Seconds>, Impossible> {
    if was == Agitation::Continuous {
        return Err(Impossible::new(
            "the time is for agitation all the time already: take it as it is",
        ));
    }
    let shorter = Seconds::new(time.value() * CONTINUOUS)?;
    let step = Step::new("agitated all the time", Amount::Factor(CONTINUOUS))
        .working(format!("{time} x 0.85, 15 % less"))
        .brings(Amount::Time(shorter))
        .on(Grounds::usual());
    Ok(Figure::new(shorter, Grounds::usual())
        .within("times told for agitation now and then")
        .step(step))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_factor_is_never_taken_twice() {
        let time = Seconds::new(300.0).unwrap();
        let why = continuous(time, Agitation::Continuous).unwrap_err();
        assert!(why.to_string().contains("already"), "{why}");
    }

    proptest! {
        #[test]
        fn more_agitation_is_never_longer(seconds in 1.0..10_000.0_f64) {
            let time = Seconds::new(seconds).unwrap();
            let shorter = continuous(time, Agitation::Intermittent).unwrap().value;
            prop_assert!(shorter < time);
        }
    }
}
