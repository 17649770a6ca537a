//! The exact series of apertures and times, the marks they go by, and what a lens can be set to.
//!
//! For: whoever has reckoned an aperture or a time and must set a ring. Apertures go in whole, half or
//! third stops, times by the marks of a leaf shutter and above a second by counting. Promises: what is
//! rounded comes with its error in stops, and an aperture is never more than half a step off; what no
//! lens can be set to is refused. Whether the shutter keeps its marks is for the shutter's own test.

use super::aperture::Aperture;
use super::exposure::time_value;
use super::figure::Impossible;
use super::numeral::trimmed;
use super::seconds::Seconds;
use super::stops::Stops;
use crate::words::words;

words! {
    /// How finely a ring is divided.
    Scale {
        /// Whole stops.
        Whole = "whole",
        /// Half stops.
        Half = "half",
        /// Third stops.
        Third = "third",
    }
}

impl Scale {
    /// Steps in a stop.
    #[must_use]
    pub const fn steps(self) -> u32 {
        match self {
            Scale::Whole => 1,
            Scale::Half => 2,
            Scale::Third => 3,
        }
    }
}

/// What can be set, and how far it is from what was wanted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rounded<T> {
    /// What to set.
    pub value: T,
    /// How much more exposure it gives than was wanted; less is negative.
    pub error: Stops,
}

/// The marks of the usual leaf shutter below a second, as what stands under the bar.
const LEAF_SHUTTER: [f64; 10] = [1.0, 2.0, 4.0, 8.0, 15.0, 30.0, 60.0, 125.0, 250.0, 500.0];

/// From here on only whole seconds are counted.
const HALF_SECONDS_END: f64 = 10.0;

/// Arithmetic noise that is not taken for an error of setting.
const NOISE: f64 = 1e-9;

/// The nearest time a leaf shutter or a count can give: a mark from 1 s to 1/500 s, half seconds to
/// 10 s, whole seconds beyond.
///
/// The error is at most half a stop for every time of 1/724 s or longer; shorter ones get 1/500 s and
/// the error says by how much that is too long.
///
/// ```
/// use notchbook::craft::Seconds;
/// use notchbook::craft::series::settable_time;
/// let set = settable_time(Seconds::parse("1/50")?);
/// assert_eq!(set.value.to_string(), "1/60 s");
/// assert_eq!(set.error.to_string(), "-0.36 stop");
/// assert_eq!(settable_time(Seconds::parse("4.9 s")?).value.to_string(), "5 s");
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
#[must_use]
pub fn settable_time(wanted: Seconds) -> Rounded<Seconds> {
    let seconds = wanted.value();
    let step = if seconds < HALF_SECONDS_END { 0.5 } else { 1.0 };
    let below = (seconds / step).floor() * step;
    let counted = [below, below + step].into_iter().filter(|time| *time > 1.0);
    let marks = LEAF_SHUTTER.into_iter().map(|below| 1.0 / below);
    let error = |set: Seconds| time_value(wanted) - time_value(set);
    let nearest = marks
        .chain(counted)
        .filter_map(|time| Seconds::new(time).ok())
        .min_by(|one, other| error(*one).abs().total_cmp(&error(*other).abs()))
        .unwrap_or(wanted);
    Rounded {
        value: nearest,
        error: Stops::reckoned(quiet(error(nearest))),
    }
}

/// The nearest aperture on this scale between the widest and the smallest of the lens.
///
/// `wanted` is counted in stops from f/1, as [`Aperture::stops`] counts. The two ends of the lens can
/// be set even where they lie between the marks, as f/6.8 does.
///
/// ```
/// use notchbook::craft::Aperture;
/// use notchbook::craft::series::{Scale, settable_aperture};
/// let set = settable_aperture(9.4, Scale::Third, None, None).unwrap();
/// assert_eq!(set.value.to_string(), "f/22+1/3");
/// assert_eq!(set.error.to_string(), "+0.07 stop");
/// let widest = Aperture::parse("f/5.6").ok();
/// assert!(settable_aperture(3.0, Scale::Third, widest, None).is_err());
/// ```
///
/// # Errors
/// If the lens does not open or close so far, or there is no such aperture at all.
pub fn settable_aperture(
    wanted: f64,
    scale: Scale,
    widest: Option<Aperture>,
    smallest: Option<Aperture>,
) -> Result<Rounded<Aperture>, Impossible> {
    if let (Some(widest), Some(smallest)) = (widest, smallest)
        && widest.stops() > smallest.stops()
    {
        return Err(Impossible::new(format!(
            "a lens cannot open to {widest} and close to {smallest}: the widest aperture has the \
             smaller number"
        )));
    }
    let on_the_lens = |aperture: &Aperture| {
        widest.is_none_or(|widest| aperture.stops() >= widest.stops() - NOISE)
            && smallest.is_none_or(|smallest| aperture.stops() <= smallest.stops() + NOISE)
    };
    let error = |set: Aperture| wanted - set.stops();
    let step = 1.0 / f64::from(scale.steps());
    let nearest = [wanted - step, wanted, wanted + step]
        .into_iter()
        .filter_map(|stops| Aperture::nearest_part(stops, scale.steps()).ok())
        .filter(on_the_lens)
        .chain(widest)
        .chain(smallest)
        .filter(|aperture| error(*aperture).abs() <= step / 2.0 + NOISE)
        .min_by(|one, other| error(*one).abs().total_cmp(&error(*other).abs()));
    match nearest {
        Some(value) => Ok(Rounded {
            value,
            error: Stops::reckoned(quiet(error(value))),
        }),
        None => Err(beyond(wanted, widest, smallest)),
    }
}

/// Why no aperture is near enough.
fn beyond(wanted: f64, widest: Option<Aperture>, smallest: Option<Aperture>) -> Impossible {
    let number = trimmed((wanted / 2.0).exp2(), 1);
    let wanted_is = |side: fn(&f64, &f64) -> bool, end: Option<Aperture>| {
        end.filter(|end| side(&wanted, &end.stops()))
    };
    if !wanted.is_finite() {
        Impossible::new("no aperture comes out of this: look at what was given")
    } else if let Some(widest) = wanted_is(f64::lt, widest) {
        Impossible::new(format!(
            "this wants f/{number}, and the lens opens to {widest}: give more time"
        ))
    } else if let Some(smallest) = wanted_is(f64::gt, smallest) {
        Impossible::new(format!(
            "this wants f/{number}, and the lens closes to {smallest}: give less time, or put a \
             neutral filter before it"
        ))
    } else {
        Impossible::new(format!(
            "this wants f/{number}, and apertures go from f/0.5 to f/1024: change the time"
        ))
    }
}

/// `stops` without the noise of arithmetic.
fn quiet(stops: f64) -> f64 {
    if stops.abs() < NOISE { 0.0 } else { stops }
}

/// One mark of a series.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Marked<T> {
    /// The mark people set.
    pub mark: T,
    /// The exact number it stands for: an f-number, or seconds.
    pub exact: f64,
    /// How much more exposure the mark would give if it were taken at its word.
    pub off: Stops,
}

/// The apertures of a scale from f/1 to f/128: 2^(k/2), 2^(k/4) or 2^(k/6).
///
/// Large Format Photography Forum, thread 8513, prints the exact halves and thirds.
pub fn apertures(scale: Scale) -> impl Iterator<Item = Marked<Aperture>> {
    let steps = scale.steps();
    (0..=14 * steps).filter_map(move |step| {
        let stops = f64::from(step) / f64::from(steps);
        let named = Aperture::marked(stops);
        // Where no mark has a name of its own, the part of a stop is said and nothing is rounded.
        let off = named.map_or(0.0, |mark| stops - 2.0 * mark.mark().log2());
        Some(Marked {
            mark: named.or_else(|| Aperture::nearest_part(stops, steps).ok())?,
            exact: (stops / 2.0).exp2(),
            off: Stops::reckoned(quiet(off)),
        })
    })
}

/// The marks of times from 1 s to 1/1000 s, as what stands under the bar; whole, half and third
/// stops. The whole stops are those of the additive system, the others usual on meters.
const WHOLE_TIMES: [f64; 11] = [
    1.0, 2.0, 4.0, 8.0, 15.0, 30.0, 60.0, 125.0, 250.0, 500.0, 1000.0,
];
const HALF_TIMES: [f64; 21] = [
    1.0, 1.5, 2.0, 3.0, 4.0, 6.0, 8.0, 10.0, 15.0, 20.0, 30.0, 45.0, 60.0, 90.0, 125.0, 180.0,
    250.0, 350.0, 500.0, 750.0, 1000.0,
];
const THIRD_TIMES: [f64; 31] = [
    1.0, 1.25, 1.6, 2.0, 2.5, 3.2, 4.0, 5.0, 6.0, 8.0, 10.0, 13.0, 15.0, 20.0, 25.0, 30.0, 40.0,
    50.0, 60.0, 80.0, 100.0, 125.0, 160.0, 200.0, 250.0, 320.0, 400.0, 500.0, 640.0, 800.0, 1000.0,
];
/// Long times on a meter in half stops, 2 s to 120 s: forum answer of 2000-09-14 on shutter
/// sequences, greenspun.com (second-hand). They are counted, and lie up to 0.2 stop off the series.
const LONG_TIMES: [f64; 14] = [
    1.5, 2.0, 3.0, 4.0, 6.0, 8.0, 10.0, 15.0, 20.0, 30.0, 45.0, 60.0, 90.0, 120.0,
];

/// The times of a scale, longest first: down to 1/1000 s, and in whole and half stops the long ones
/// up to two minutes.
pub fn times(scale: Scale) -> impl Iterator<Item = Marked<Seconds>> {
    let short: &[f64] = match scale {
        Scale::Whole => &WHOLE_TIMES,
        Scale::Half => &HALF_TIMES,
        Scale::Third => &THIRD_TIMES,
    };
    let long = (1_u32..)
        .zip(LONG_TIMES)
        .filter(move |(halves, _)| match scale {
            Scale::Whole => halves % 2 == 0,
            Scale::Half => true,
            Scale::Third => false,
        })
        .map(|(halves, time)| (time, f64::from(halves) / 2.0));
    let long: Vec<_> = long.collect();
    let steps = f64::from(scale.steps());
    let short = (0_u32..)
        .zip(short)
        .map(move |(step, below)| (1.0 / below, -f64::from(step) / steps));
    long.into_iter()
        .rev()
        .chain(short)
        .filter_map(|(time, stops)| {
            Some(Marked {
                mark: Seconds::new(time).ok()?,
                exact: stops.exp2(),
                off: Stops::reckoned(quiet(time.log2() - stops)),
            })
        })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn aperture(text: &str) -> Option<Aperture> {
        Some(Aperture::parse(text).unwrap())
    }

    #[test]
    fn a_mark_is_set_as_it_is() {
        for text in ["1", "1/2", "1/15", "1/500", "1.5 s", "7 s", "2m30"] {
            let wanted = Seconds::parse(text).unwrap();
            let set = settable_time(wanted);
            assert_eq!(set.value, wanted);
            assert_eq!(set.error.value(), 0.0, "{text}");
        }
    }

    #[test]
    fn a_time_between_the_marks_goes_to_the_nearer_in_stops() {
        for (text, set, error) in [
            ("0.6", "1/2 s", "-0.26 stop"),
            ("0.8", "1 s", "+0.32 stop"),
            ("1.2", "1 s", "-0.26 stop"),
            ("1.3", "1.5 s", "+0.21 stop"),
            ("51.6", "52 s", "+0.01 stop"),
            ("1/2000", "1/500 s", "+2 stops"),
        ] {
            let rounded = settable_time(Seconds::parse(text).unwrap());
            assert_eq!(rounded.value.to_string(), set, "{text}");
            assert_eq!(rounded.error.to_string(), error, "{text}");
        }
    }

    #[test]
    fn the_ends_of_the_lens_can_be_set_between_the_marks() {
        let widest = aperture("f/6.8");
        let set = settable_aperture(5.4, Scale::Whole, widest, None).unwrap();
        assert_eq!(set.value.to_string(), "f/6.8");
        let set = settable_aperture(6.1, Scale::Whole, widest, None).unwrap();
        assert_eq!(set.value.to_string(), "f/8");
    }

    #[test]
    fn what_the_lens_cannot_do_is_a_sentence() {
        let (widest, smallest) = (aperture("f/5.6"), aperture("f/45"));
        let why = settable_aperture(3.0, Scale::Third, widest, smallest).unwrap_err();
        assert_eq!(
            why.to_string(),
            "this wants f/2.8, and the lens opens to f/5.6: give more time"
        );
        let why = settable_aperture(13.0, Scale::Third, widest, smallest).unwrap_err();
        assert!(why.to_string().contains("closes to f/45"), "{why}");
        assert!(settable_aperture(8.0, Scale::Third, smallest, widest).is_err());
        for odd in [f64::NAN, f64::INFINITY, -40.0, 1e300] {
            assert!(settable_aperture(odd, Scale::Half, None, None).is_err());
        }
    }

    #[test]
    fn half_stops_are_written_as_half_stops() {
        let set = settable_aperture(9.45, Scale::Half, None, None).unwrap();
        assert_eq!(set.value.to_string(), "f/22+1/2");
    }

    #[test]
    fn every_scale_runs_without_a_gap() {
        for scale in Scale::ALL {
            let marks: Vec<_> = apertures(*scale).collect();
            assert_eq!(marks.len(), 14 * scale.steps() as usize + 1);
            for mark in marks {
                assert!((mark.mark.number() - mark.exact).abs() < 1e-9, "{mark:?}");
                assert!(mark.off.value().abs() < 0.085, "{mark:?}");
            }
            for mark in times(*scale) {
                assert!(mark.off.value().abs() < 0.22, "{mark:?}");
            }
        }
    }

    proptest! {
        #[test]
        fn a_time_is_at_most_half_a_step_off(stops in -9.49..21.0_f64) {
            let wanted = Seconds::new(stops.exp2()).unwrap();
            let set = settable_time(wanted);
            prop_assert!(set.error.value().abs() <= 0.5 + 1e-9, "{set:?}");
            let given = time_value(wanted) - time_value(set.value);
            prop_assert!((given - set.error.value()).abs() < 1e-8);
        }

        #[test]
        fn an_aperture_is_at_most_half_a_step_off(
            stops in -2.0..20.0_f64, scale in proptest::sample::select(Scale::ALL.to_vec()),
        ) {
            let set = settable_aperture(stops, scale, None, None).unwrap();
            prop_assert!(set.error.value().abs() <= 0.5 / f64::from(scale.steps()) + 1e-9);
            prop_assert!((set.value.stops() + set.error.value() - stops).abs() < 1e-8);
        }

        #[test]
        fn an_aperture_that_is_set_is_on_the_lens(
            stops in 0.0..18.0_f64, wide in 2.0..10.0_f64, more in 0.0..8.0_f64,
        ) {
            let widest = Aperture::nearest(wide).unwrap();
            let smallest = Aperture::nearest(wide + more).unwrap();
            if let Ok(set) = settable_aperture(stops, Scale::Third, Some(widest), Some(smallest)) {
                prop_assert!(set.value.stops() >= widest.stops() - 1e-9);
                prop_assert!(set.value.stops() <= smallest.stops() + 1e-9);
            }
        }
    }
}
