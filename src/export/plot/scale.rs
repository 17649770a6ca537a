//! One axis: which numbers it spans, and which of them are written on it.

use crate::craft::trimmed;

/// The most numbers written along one axis.
const MOST_TICKS: usize = 24;

/// The numbers from `low` to `high`, which are finite and differ.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Scale {
    low: f64,
    high: f64,
}

impl Scale {
    /// The scale that holds all these numbers; nothing where there is none.
    pub(super) fn over(numbers: impl Iterator<Item = f64>) -> Option<Scale> {
        let (low, high) = numbers.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), n| {
            (low.min(n), high.max(n))
        });
        if !(low.is_finite() && high.is_finite()) {
            return None;
        }
        // Numbers so far apart that their distance is none are squeezed.
        let (low, high) = (low.max(-1e300), high.min(1e300));
        if high - low > f64::MIN_POSITIVE && high > low + low.abs() * 1e-12 {
            return Some(Scale { low, high });
        }
        let room = (low.abs() / 10.0).max(0.5);
        Some(Scale {
            low: low.min(1e299) - room,
            high: high.max(-1e299) + room,
        })
    }

    /// The same scale with zero on it, if zero is near.
    pub(super) fn near_zero(self) -> Scale {
        let span = self.high - self.low;
        Scale {
            low: if self.low > 0.0 && self.low <= span {
                0.0
            } else {
                self.low
            },
            high: if self.high < 0.0 && -self.high <= span {
                0.0
            } else {
                self.high
            },
        }
    }

    /// The part of the way from the low end to the high one at which a number stands, 0 to 1.
    pub(super) fn part(&self, number: f64) -> f64 {
        let part = (number - self.low) / (self.high - self.low);
        if part.is_finite() {
            part.clamp(0.0, 1.0)
        } else {
            0.0
        }
    }

    /// Whether a number is on the scale.
    pub(super) fn holds(&self, number: f64) -> bool {
        (self.low..=self.high).contains(&number)
    }

    /// Round numbers on the scale, about `many` of them.
    pub(super) fn ticks(&self, many: usize) -> Vec<f64> {
        self.every(self.step(many))
    }

    /// Hours on the scale, about `many` of them, as a day is divided.
    pub(super) fn hours(&self, many: usize) -> Vec<f64> {
        let span = self.high - self.low;
        let fits = |step: &&f64| span / **step <= many.max(1) as f64;
        match [1.0, 2.0, 3.0, 4.0, 6.0, 12.0].iter().find(fits) {
            Some(step) => self.every(*step),
            None if span <= 48.0 => self.every(12.0),
            None => self.ticks(many),
        }
    }

    fn every(&self, step: f64) -> Vec<f64> {
        let first = (self.low / step - 1e-9).ceil();
        let ticks = (0..MOST_TICKS).map(|at| (first + at as f64) * step);
        let until = self.high + step * 1e-9;
        ticks.take_while(|tick| *tick <= until).collect()
    }

    /// A step of 1, 2 or 5 times a power of ten that divides the scale into about `many` parts.
    fn step(&self, many: usize) -> f64 {
        let wished = (self.high - self.low) / many.clamp(1, MOST_TICKS - 2) as f64;
        let power = 10f64.powf(wished.log10().floor());
        let step = [1.0, 2.0, 5.0, 10.0]
            .into_iter()
            .map(|times| times * power)
            .find(|step| *step >= wished * 0.999)
            .unwrap_or(wished);
        if step.is_finite() && step > 0.0 {
            step
        } else {
            wished
        }
    }
}

/// The place of a part of the way among `many` places.
pub(super) fn at(part: f64, many: usize) -> usize {
    let last = many.saturating_sub(1);
    // Parts lie between 0 and 1, so that this is at most `last`.
    ((part * last as f64).round() as usize).min(last)
}

/// A number of an axis in few characters.
pub(super) fn written(number: f64) -> String {
    if number == 0.0 {
        return "0".to_owned();
    }
    if !(1e-4..1e7).contains(&number.abs()) {
        return format!("{number:.1e}");
    }
    trimmed(number, 4)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_are_round_and_a_day_is_divided_by_hours() {
        let scale = Scale::over([-23.0, 41.0].into_iter()).unwrap();
        assert_eq!(scale.ticks(4), [-20.0, 0.0, 20.0, 40.0]);
        let day = Scale::over([0.0, 24.0].into_iter()).unwrap();
        assert_eq!(day.hours(5), [0.0, 6.0, 12.0, 18.0, 24.0]);
        assert_eq!(day.hours(1).len(), 3);
    }

    #[test]
    fn one_number_alone_has_room_around_it_and_zero_is_shown_where_it_is_near() {
        let one = Scale::over([4.0].into_iter()).unwrap();
        assert!(one.part(4.0) > 0.4 && one.part(4.0) < 0.6);
        let near = Scale::over([0.1, 0.4].into_iter()).unwrap().near_zero();
        assert!(near.holds(0.0));
        let far = Scale::over([100.0, 104.0].into_iter()).unwrap().near_zero();
        assert!(!far.holds(0.0));
        assert_eq!(Scale::over([f64::NAN].into_iter()), None);
    }

    #[test]
    fn numbers_are_written_short() {
        assert_eq!(written(-0.5), "-0.5");
        assert_eq!(written(20.0), "20");
        assert_eq!(written(1.0 / 3.0), "0.3333");
        assert_eq!(written(2e9), "2.0e9");
    }
}
