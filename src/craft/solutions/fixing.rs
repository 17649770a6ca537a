//! Fixing: the time out of the clearing time, and when the fixer is done.
//!
//! A scrap of undeveloped film of the same kind is moved in the fixer until no milkiness is left: that
//! is the clearing time. What the fixer takes beyond it is not seen, so the time is a multiple of it.

use super::four;
use crate::craft::{Amount, Celsius, Concern, Figure, Grounds, Impossible, Seconds, Step};

/// Twice the clearing time, and the sign of exhaustion.
const NAVY: Grounds =
    Grounds::published("US Navy, Photography (Basic) NAVEDTRA 14209, life of a fixing bath");
/// Three times, in an alkaline fixer.
const ALKALINE: Grounds = Grounds::published("lostlabours.co.uk, fixer TF-3 (second-hand)");
/// What cold takes.
const COLD: Grounds =
    Grounds::published("US Army TM 11-2323, photographic printer, written with prints in mind");

/// How many times as long as in the fresh fixer film clears in one that is thrown away.
pub const EXHAUSTED: f64 = 2.0;
/// How many times as long it clears in one that is to be watched.
pub const SLOW: f64 = 1.5;
/// How many times a pair of fixing baths is changed before both are thrown away: S. Anchell, The
/// Darkroom Cookbook, 3rd ed., Focal Press 2008, p. 107, on Kodak's method.
pub const MOST_CHANGES: u32 = 3;

/// What a clearing test says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fixing {
    /// How long to fix.
    pub time: Seconds,
    /// The clearing time at which the fixer is thrown away, where the fresh one is known.
    pub exhausted_at: Option<Seconds>,
    /// Whether that has come.
    pub exhausted: bool,
}

/// The fixing time from a clearing time, twice it, or three times in an alkaline fixer; with the
/// clearing time of the fresh fixer also whether it is exhausted.
///
/// # Errors
/// If a time cannot be.
pub fn fixing(
    clearing: Seconds,
    fresh: Option<Seconds>,
    alkaline: bool,
) -> Result<Figure<Fixing>, Impossible> {
    let (times, grounds) = if alkaline {
        (3.0, ALKALINE)
    } else {
        (2.0, NAVY)
    };
    let time = Seconds::new(clearing.value() * times)?;
    let exhausted_at = match fresh {
        Some(fresh) => Some(Seconds::new(fresh.value() * EXHAUSTED)?),
        None => None,
    };
    let exhausted = exhausted_at.is_some_and(|end| clearing >= end);
    let value = Fixing {
        time,
        exhausted_at,
        exhausted,
    };
    let mut figure = Figure::new(value, grounds.clone()).step(
        Step::new("fix", Amount::Time(time))
            .working(format!("{times} x {clearing}"))
            .on(grounds),
    );
    if let (Some(end), Some(fresh)) = (exhausted_at, fresh) {
        let step = Step::new("exhausted at a clearing time of", Amount::Time(end));
        figure = figure.step(step.working(format!("2 x {fresh}")).on(NAVY));
    }
    if exhausted {
        figure = figure.remark(
            Concern::Warning,
            "the clearing time has doubled since the fixer was fresh: it is exhausted; mix a new one, \
             and collect this one for its silver",
        );
    }
    Ok(figure)
}

/// How much longer a cold bath fixes: `2^((68 - F) / 18)`, for 68 F and below.
///
/// # Errors
/// If the bath is warmer, or frozen.
pub fn cold_factor(at: Celsius) -> Result<Figure<f64>, Impossible> {
    let fahrenheit = at.fahrenheit();
    if !(32.0..=68.0 + 1e-9).contains(&fahrenheit) {
        return Err(Impossible::new(format!(
            "the rule for a cold fixer goes from 32 F to 68 F (0 C to 20 C), not to {at}: time the \
             clearing at that temperature"
        )));
    }
    let factor = ((68.0 - fahrenheit) / 18.0).exp2();
    let working = format!("2^((68 - {}) / 18)", four(fahrenheit));
    Ok(Figure::new(factor, COLD)
        .within("32 F to 68 F, the clearing timed at 68 F")
        .step(
            Step::new("in the cold", Amount::Factor(factor))
                .working(working)
                .on(COLD),
        ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_rule_for_the_cold_goes_no_warmer_and_not_below_ice() {
        assert!(cold_factor(Celsius::new(24.0).unwrap()).is_err());
        assert!(cold_factor(Celsius::new(-5.0).unwrap()).is_err());
        let same = cold_factor(Celsius::new(20.0).unwrap()).unwrap().value;
        assert!((same - 1.0).abs() < 1e-12);
    }

    proptest! {
        #[test]
        fn colder_is_never_shorter_and_alkaline_never_less(
            clearing in 5.0..300.0_f64, at in 0.0..19.0_f64,
        ) {
            let time = Seconds::new(clearing).unwrap();
            let plain = fixing(time, None, false).unwrap().value.time;
            prop_assert!(fixing(time, None, true).unwrap().value.time > plain);
            let colder = cold_factor(Celsius::new(at).unwrap()).unwrap().value;
            prop_assert!(colder >= cold_factor(Celsius::new(at + 1.0).unwrap()).unwrap().value);
        }
    }
}
