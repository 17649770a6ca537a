//! What was given against what was planned: in stops, and what can still be done about it.
//!
//! The stops are reckoned from the two times; what to do about them is usual practice with negative
//! film, and is said to be that. No film is thought of here: one that answers long exposures weakly
//! answers a difference in time weakly as well.

use std::time::Duration;

use super::in_words;
use crate::craft::Stops;

/// A time given, beside the time that was planned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AgainstPlan {
    given: Duration,
    plan: Duration,
}

impl AgainstPlan {
    /// The comparison; none without a plan, nor before anything was given.
    pub fn new(given: Duration, plan: Option<Duration>) -> Option<AgainstPlan> {
        let plan = plan.filter(|plan| !plan.is_zero())?;
        (!given.is_zero()).then_some(AgainstPlan { given, plan })
    }

    /// Stops over the plan, below it negative, to the nearest third.
    pub fn thirds(self) -> i32 {
        let factor = self.given.as_secs_f64() / self.plan.as_secs_f64();
        // Times of this clock lie within a few dozen stops of each other.
        (factor.log2() * 3.0).round() as i32
    }

    /// The difference in words: "+1/3 stop over the plan".
    pub fn in_words(self) -> String {
        let thirds = self.thirds();
        if thirds == 0 {
            return "as planned, to the nearest third of a stop".to_owned();
        }
        let amount = Stops::new(f64::from(thirds) / 3.0)
            .map_or_else(|_| String::new(), |off| off.to_string());
        if thirds > 0 {
            format!("{amount} over the plan")
        } else {
            format!("{amount}, short of the plan")
        }
    }

    /// The same, in as few words as can be read from afar while it changes.
    pub fn in_short(self) -> String {
        match self.thirds() {
            0 => "on the plan".to_owned(),
            ..=-13 => String::new(),
            thirds => {
                let off = Stops::new(f64::from(thirds) / 3.0);
                off.map_or_else(|_| String::new(), |off| off.to_string())
            }
        }
    }

    /// What development or printing can do about it, as is usual with negative film.
    pub fn advice(self) -> String {
        match self.thirds() {
            0 => "nothing has to be done about it".to_owned(),
            1 => "the negative comes out a little denser: print longer".to_owned(),
            2..=4 => "the negative comes out denser: print longer; if the highlights matter, \
                      consider N-1"
                .to_owned(),
            5.. => "the negative comes out much denser: print longer, and develop N-1 or less to \
                    keep the highlights"
                .to_owned(),
            -1 => "the shadows come out a little thinner: print shorter".to_owned(),
            _ => format!(
                "the shadows lose detail, which development does not bring back (N+1 lifts the \
                 highlights only): if nothing has moved, open again for {}",
                in_words(self.plan.saturating_sub(self.given))
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn off(given: f64, plan: f64) -> AgainstPlan {
        let of = Duration::from_secs_f64;
        AgainstPlan::new(of(given), Some(of(plan))).expect("a comparison")
    }

    #[test]
    fn the_difference_is_told_in_thirds_of_a_stop() {
        for (given, plan, words, short) in [
            (
                5.2,
                5.0,
                "as planned, to the nearest third of a stop",
                "on the plan",
            ),
            (44.0, 35.0, "+1/3 stop over the plan", "+1/3 stop"),
            (70.0, 35.0, "+1 stop over the plan", "+1 stop"),
            (22.0, 35.0, "-2/3 stop, short of the plan", "-2/3 stop"),
            (88.0, 35.0, "+1 1/3 stops over the plan", "+1 1/3 stops"),
            (0.5, 35.0, "-6 stops, short of the plan", ""),
        ] {
            assert_eq!(off(given, plan).in_words(), words);
            assert_eq!(off(given, plan).in_short(), short);
        }
    }

    #[test]
    fn what_can_be_done_depends_on_how_far_it_is_off() {
        for (given, says) in [
            (10.0, "nothing has to be done"),
            (12.6, "print longer"),
            (16.0, "consider N-1"),
            (40.0, "N-1 or less"),
            (8.0, "print shorter"),
            (5.0, "open again for 5 s"),
        ] {
            let advice = off(given, 10.0).advice();
            assert!(advice.contains(says), "{given}: {advice}");
        }
        assert!(!off(12.6, 10.0).advice().contains("N-1"));
    }

    #[test]
    fn without_a_plan_or_an_opening_there_is_nothing_to_compare() {
        let second = Duration::from_secs(1);
        assert_eq!(AgainstPlan::new(second, None), None);
        assert_eq!(AgainstPlan::new(second, Some(Duration::ZERO)), None);
        assert_eq!(AgainstPlan::new(Duration::ZERO, Some(second)), None);
    }
}
