//! Test strips in even stops.
//!
//! A strip whose times grow by a factor shows steps that look alike; one that grows by seconds does
//! not. Promises: the times rise strictly; they are rounded to what the clock can do as whole times
//! from the start, never as single exposures, so that the errors do not add up.

use super::{four, within};
use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Seconds, Step, Stops};
use crate::words::words;

/// Times in even parts of a stop.
const EVEN: Grounds =
    Grounds::published("R. W. Lambrecht, f/stop Timing: base times in even parts of a stop");

/// The most strips on one sheet.
const MOST: usize = 60;

words! {
    /// How the strips get their times.
    Covering {
        /// The light goes on; each strip is covered when its time is reached.
        Cumulative = "cumulative",
        /// Each strip alone is uncovered for its own whole time.
        Separate = "separate",
    }
}

/// One strip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strip {
    /// What it has got in all.
    pub whole: Seconds,
    /// How long the light is on for this step: the rest since the last, or the whole.
    pub on: Seconds,
    /// Its distance from the first in stops, before rounding.
    pub stops: f64,
}

/// A strip series: `t 2^(k s)`, rounded to `timer` seconds where that is given.
///
/// ```
/// use notchbook::craft::printing::strips::{Covering, series};
/// use notchbook::craft::{Seconds, Stops};
/// let strips = series(Seconds::new(2.0)?, Stops::new(1.0)?, 4, Covering::Cumulative, None).unwrap();
/// let on: Vec<f64> = strips.value.iter().map(|strip| strip.on.value()).collect();
/// assert_eq!(on, [2.0, 2.0, 4.0, 8.0]);
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
///
/// # Errors
/// If the step is not more than nothing, there are fewer than two strips or too many, a time cannot be,
/// or rounding would make two strips alike.
pub fn series(
    first: Seconds,
    step: Stops,
    count: usize,
    covering: Covering,
    timer: Option<f64>,
) -> Result<Figure<Vec<Strip>>, Impossible> {
    within("a step", step.value(), 1.0 / 24.0..=5.0, "stops")?;
    if !(2..=MOST).contains(&count) {
        return Err(Impossible::new(format!(
            "{count} strips make no series: from 2 to {MOST}, such as 7"
        )));
    }
    let timer = timer
        .map(|timer| within("a step of the timer", timer, 0.001..=3600.0, "s"))
        .transpose()?;
    let mut strips: Vec<Strip> = Vec::with_capacity(count);
    for at in 0..count {
        // At most sixty, which a float counts exactly.
        let stops = at as f64 * step.value();
        let exact = first.value() * stops.exp2();
        let whole = timer.map_or(exact, |timer| (exact / timer).round() * timer);
        let before = strips
            .last()
            .map_or(0.0, |strip: &Strip| strip.whole.value());
        if whole - before < 1e-9 {
            return Err(Impossible::new(format!(
                "rounded to {} s, strip {} would be like the one before: take larger steps, a longer \
                 first time or a finer timer",
                four(timer.unwrap_or(0.0)),
                at + 1
            )));
        }
        let on = match covering {
            Covering::Cumulative => whole - before,
            Covering::Separate => whole,
        };
        strips.push(Strip {
            whole: Seconds::new(whole)?,
            on: Seconds::new(on)?,
            stops,
        });
    }
    Ok(told(strips, first, step, covering))
}

fn told(strips: Vec<Strip>, first: Seconds, step: Stops, covering: Covering) -> Figure<Vec<Strip>> {
    let last = strips.last().map_or(first, |strip| strip.whole);
    let lit: f64 = strips.iter().map(|strip| strip.on.value()).sum();
    let working = format!(
        "{first} x 2^({} x {})",
        strips.len() - 1,
        four(step.value())
    );
    let figure = Figure::new(strips, EVEN)
        .step(Step::new("last strip", Amount::Time(last)).working(working))
        .step(Step::new("light on in all", Amount::number(lit, "s", 1)));
    match covering {
        Covering::Cumulative => figure.remark(
            Concern::Note,
            "nothing is moved but the card: all strips lie open at first, and each is covered when its \
             time is reached",
        ),
        Covering::Separate => figure.remark(
            Concern::Note,
            "one strip at a time lies open for its whole time: a lamp that is slow to light adds its \
             start to every one",
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn strips(
        first: f64,
        step: f64,
        count: usize,
        timer: Option<f64>,
    ) -> Result<Vec<Strip>, Impossible> {
        let (first, step) = (Seconds::new(first).unwrap(), Stops::new(step).unwrap());
        series(first, step, count, Covering::Cumulative, timer).map(|figure| figure.value)
    }

    #[test]
    fn a_timer_too_coarse_for_the_strip_is_told() {
        let why = strips(2.0, 1.0 / 6.0, 4, Some(1.0))
            .unwrap_err()
            .to_string();
        assert!(
            why.contains("strip 2 would be like the one before"),
            "{why}"
        );
        for (first, step, count) in [(8.0, 0.0, 5), (8.0, -1.0, 5), (8.0, 1.0, 1), (8.0, 5.0, 60)] {
            assert!(
                strips(first, step, count, None).is_err(),
                "{first} {step} {count}"
            );
        }
    }

    proptest! {
        #[test]
        fn times_rise_strictly_and_the_light_adds_up(
            first in 1.0..600.0_f64, step in 0.05..1.5_f64, count in 2..9_usize, round in proptest::bool::ANY,
        ) {
            let timer = round.then_some(0.1);
            if let Ok(strips) = strips(first, step, count, timer) {
                for pair in strips.windows(2) {
                    prop_assert!(pair[1].whole.value() > pair[0].whole.value());
                }
                let on: f64 = strips.iter().map(|strip| strip.on.value()).sum();
                let last = strips.last().unwrap().whole.value();
                prop_assert!((on - last).abs() < 1e-6 * last);
            }
        }
    }
}
