//! Whether a process still does what it did: one measure of control strips over time, with limits.
//!
//! A strip of one stock, exposed alike and developed with the work, tells whether the developer is as
//! vigorous as it was. Here a list of one measure, oldest first, is put between an upper and a lower
//! limit. Promises: the rule that made a limit is said in a sentence with its numbers; a limit that was
//! set by hand counts before one that is reckoned; nothing is said of a trend that is too short for one.
//! Leaves to others: days and names of strips.

use crate::craft::{Grounds, Impossible};

/// Strips from which a middle is taken where no number of them was said.
pub const FIRST: usize = 5;
/// Fewest strips that give a middle and a spread.
const FEWEST: usize = 3;
/// The mean range of two values of a normal process over its standard deviation: 2/√π.
const RANGE_OF_TWO: f64 = std::f64::consts::FRAC_2_SQRT_PI;
/// How many standard deviations the limits lie from the middle.
const WIDE: f64 = 3.0;
/// Plots in one direction that make a trend.
const TREND: usize = 5;

/// Where limits from the strips themselves come from.
const BY_RANGES: Grounds = Grounds::published(
    "chart of individual measurements: mean ± 3 mean moving range / 1.128, as in the documentation of \
     SAS/QC (the SHEWHART procedure) and JMP (control limits for individual measurement charts); that \
     2/√π is 1.128 is derived",
);
/// What counts as a trend.
const BY_FIVE: Grounds = Grounds::published(
    "US Army Signal Center, subcourse SS0513, p. 71: five plots or more in one direction are a trend",
);

/// Limits a person set for one measure. What is left out is taken from the strips.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Set {
    /// What the measure is meant to be.
    pub aim: Option<f64>,
    /// How far it may be off.
    pub within: Option<f64>,
    /// From how many of the first strips the rest is taken.
    pub first: Option<usize>,
}

/// Limits with the rule that made them.
#[derive(Debug, Clone, PartialEq)]
pub struct Limits {
    /// The middle.
    pub aim: f64,
    /// How far below and above it the limits lie.
    pub within: f64,
    /// The rule, in a sentence with its numbers.
    pub rule: String,
    /// What the rule rests on.
    pub grounds: Grounds,
}

impl Limits {
    /// The lower limit.
    #[must_use]
    pub fn lower(&self) -> f64 {
        self.aim - self.within
    }

    /// The upper limit.
    #[must_use]
    pub fn upper(&self) -> f64 {
        self.aim + self.within
    }

    /// How far a value lies outside, under the lower limit below zero; nothing within.
    #[must_use]
    pub fn outside(&self, value: f64) -> Option<f64> {
        // What is equal when it is read is not outside by the last bit of a float.
        let off = value - self.aim;
        let beyond = off.abs() - self.within;
        (beyond > 1e-9).then(|| beyond.copysign(off))
    }
}

/// The limits for these values, oldest first. `least` is how far the measure may be off by reading alone:
/// strips that agree better by chance make no narrower limits than that. `places` is with how many decimals
/// the rule is told.
///
/// # Errors
/// If there are too few strips for what was not set, or something set is no limit.
pub fn limits(values: &[f64], set: Set, least: f64, places: usize) -> Result<Limits, Impossible> {
    if set
        .within
        .is_some_and(|within| !(within.is_finite() && within > 0.0))
    {
        return Err(Impossible::new(
            "a limit lies some way from the middle: write 0.05",
        ));
    }
    let count = set.first.unwrap_or(FIRST);
    if let (Some(aim), Some(within)) = (set.aim, set.within) {
        return Ok(Limits {
            aim,
            within,
            rule: format!("set to {aim:.places$} ± {within:.places$}"),
            grounds: Grounds::own("limits set for this series"),
        });
    }
    let first = values.get(..count).unwrap_or(values);
    let needed = if set.within.is_some() { 1 } else { FEWEST };
    if first.len() < needed.min(count.max(1)) || (set.within.is_none() && first.len() < FEWEST) {
        let says = format!(
            "{} of the strips tell it, and limits are taken from {FEWEST} at least: read more, or set limits",
            first.len()
        );
        return Err(Impossible::new(says));
    }
    // Some dozens of strips, which a float counts exactly.
    let many = first.len() as f64;
    let mean = first.iter().sum::<f64>() / many;
    let aim = set.aim.unwrap_or(mean);
    let middle = match set.aim {
        Some(_) => format!("set to {aim:.places$}"),
        None if first.len() == 1 => format!("the first strip, {aim:.places$},"),
        None => format!("mean of the first {}, {aim:.places$},", first.len()),
    };
    if let Some(within) = set.within {
        return Ok(Limits {
            aim,
            within,
            rule: format!("{middle} ± {within:.places$} as set"),
            grounds: Grounds::own("limits set for this series"),
        });
    }
    let ranges = first.windows(2).filter_map(|pair| match pair {
        [one, next] => Some((next - one).abs()),
        _ => None,
    });
    let range = ranges.sum::<f64>() / (many - 1.0);
    let spread = WIDE * range / RANGE_OF_TWO;
    let within = spread.max(least);
    let how = if spread >= least {
        format!("3 x mean moving range {range:.3} / 1.128")
    } else {
        "no less than reading alone may be off".to_owned()
    };
    Ok(Limits {
        aim,
        within,
        rule: format!("{middle} ± {within:.places$}: {how}"),
        grounds: BY_RANGES,
    })
}

/// How a list of values ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Ending {
    /// Within the limits, and no trend.
    Within,
    /// Outside since a place in the list.
    Outside {
        /// By how much the last value lies outside; below zero under the lower limit.
        by: f64,
        /// Where the strips that lie outside on this side without a break begin.
        since: usize,
    },
    /// Within, but each of the last ones went the same way.
    Trend {
        /// Whether they rise.
        rising: bool,
        /// The first of them.
        since: usize,
    },
}

/// How a list of values, oldest first, ends between its limits; nothing if it is empty.
#[must_use]
pub fn ending(values: &[f64], limits: &Limits) -> Option<Ending> {
    let last = *values.last()?;
    if let Some(by) = limits.outside(last) {
        let same_side = |value: &f64| {
            limits
                .outside(*value)
                .is_some_and(|off| (off < 0.0) == (by < 0.0))
        };
        let run = values
            .iter()
            .rev()
            .take_while(|value| same_side(value))
            .count();
        let since = values.len() - run;
        return Some(Ending::Outside { by, since });
    }
    for rising in [true, false] {
        let on = values.windows(2).rev().take_while(|pair| match pair {
            [one, next] if rising => next > one,
            [one, next] => next < one,
            _ => false,
        });
        // Five plots are four steps from one to the next.
        let plots = on.count() + 1;
        if plots >= TREND {
            let since = values.len() - plots;
            return Some(Ending::Trend { rising, since });
        }
    }
    Some(Ending::Within)
}

/// What says that five plots in one direction are a trend.
#[must_use]
pub const fn trend_grounds() -> Grounds {
    BY_FIVE
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::craft::Standing;
    use proptest::prelude::*;

    const SET: Set = Set {
        aim: Some(0.60),
        within: Some(0.04),
        first: None,
    };

    #[test]
    fn limits_that_were_set_need_no_strips() {
        let limits = limits(&[], SET, 0.01, 2).unwrap();
        assert_eq!(limits.rule, "set to 0.60 ± 0.04");
        assert_eq!(limits.grounds.standing, Standing::Own);
        assert_eq!(limits.outside(0.64), None);
        assert!((limits.outside(0.52).unwrap() + 0.04).abs() < 1e-12);
    }

    #[test]
    fn without_any_the_first_strips_make_them_and_the_rule_is_said() {
        let values = [0.60, 0.62, 0.59, 0.61, 0.60, 0.30];
        let found = limits(&values, Set::default(), 0.01, 3).unwrap();
        // Moving ranges 0.02 0.03 0.02 0.01, mean 0.02; 3 x 0.02 / 1.1284.
        assert!((found.aim - 0.604).abs() < 1e-9 && (found.within - 0.053_17).abs() < 1e-4);
        assert_eq!(
            found.rule,
            "mean of the first 5, 0.604, ± 0.053: 3 x mean moving range 0.020 / 1.128"
        );
        assert_eq!(found.grounds.standing, Standing::Published);
        let alike = limits(&[0.6, 0.6, 0.6], Set::default(), 0.01, 2).unwrap();
        assert!(
            alike.within == 0.01 && alike.rule.contains("reading alone"),
            "{}",
            alike.rule
        );
    }

    #[test]
    fn too_few_strips_make_no_limits() {
        let why = limits(&[0.6, 0.6], Set::default(), 0.01, 2).unwrap_err();
        assert!(
            why.to_string().starts_with("2 of the strips tell it"),
            "{why}"
        );
        let within = Set {
            within: Some(0.05),
            ..Set::default()
        };
        assert_eq!(
            limits(&[0.6], within, 0.01, 2).unwrap().rule,
            "the first strip, 0.60, ± 0.05 as set"
        );
        assert!(limits(&[], within, 0.01, 2).is_err());
        let none = Set {
            within: Some(0.0),
            ..SET
        };
        assert!(limits(&[0.6], none, 0.01, 2).is_err());
    }

    #[test]
    fn what_lies_outside_is_told_with_the_strip_where_it_began() {
        let limits = limits(&[], SET, 0.01, 2).unwrap();
        let values = [0.60, 0.55, 0.60, 0.55, 0.54, 0.52];
        let Some(Ending::Outside { by, since }) = ending(&values, &limits) else {
            panic!("it is outside");
        };
        assert!((by + 0.04).abs() < 1e-9 && since == 3);
        assert_eq!(ending(&[], &limits), None);
        assert_eq!(ending(&[0.6, 0.61], &limits), Some(Ending::Within));
    }

    #[test]
    fn five_plots_in_one_direction_are_a_trend_and_four_are_none() {
        let limits = limits(&[], SET, 0.01, 2).unwrap();
        let falling = [0.60, 0.63, 0.62, 0.61, 0.60, 0.59];
        let since = Ending::Trend {
            rising: false,
            since: 1,
        };
        assert_eq!(ending(&falling, &limits), Some(since));
        assert_eq!(ending(&falling[2..], &limits), Some(Ending::Within));
    }

    proptest! {
        #[test]
        fn limits_are_finite_and_hold_their_middle(
            values in proptest::collection::vec(0.0..3.0_f64, 0..12), first in 1_usize..9,
        ) {
            let set = Set { first: Some(first), ..Set::default() };
            if let Ok(limits) = limits(&values, set, 0.01, 2) {
                prop_assert!(limits.lower().is_finite() && limits.upper() > limits.lower());
                prop_assert_eq!(limits.outside(limits.aim), None);
                prop_assert!(ending(&values, &limits).is_some());
            }
        }
    }
}
