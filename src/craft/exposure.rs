//! Aperture, time and film speed against each other.
//!
//! Everything here counts in stops on the exact series: apertures by [`Aperture::stops`], times by
//! [`time_value`], which takes the shutter marks 1/15, 1/30, 1/60, 1/125 and so on for the halvings
//! they stand for (1/16, 1/32, 1/64, 1/128). A time of a second or more was counted, and is taken
//! at its word; so is every other fraction. Meter constants, zones, bellows, filters and reciprocity
//! are not here.
//!
//! The terms are those of the additive system: `Ev = Av + Tv`, `Av = 2 log2 N`, `Tv = -log2 t`,
//! `Sv = log2(S / 3.125)` (APEX, as the German and French encyclopedias give it).

use super::aperture::Aperture;
use super::exposure_value::ExposureValue;
use super::film_speed::FilmSpeed;
use super::seconds::Seconds;
use super::stops::Stops;
use super::unreadable::Unreadable;

/// What is under the bar of each shutter mark that is not an exact halving, and the stops it stands
/// for. Marks to 1/1000: the Tv scale of APEX; the shorter ones are usual.
const SHUTTER_MARKS: [(f64, f64); 10] = [
    (15.0, 4.0),
    (30.0, 5.0),
    (60.0, 6.0),
    (125.0, 7.0),
    (250.0, 8.0),
    (500.0, 9.0),
    (1000.0, 10.0),
    (2000.0, 11.0),
    (4000.0, 12.0),
    (8000.0, 13.0),
];

/// Differences below this are the noise of arithmetic, not of a shutter.
const NOISE: f64 = 1e-6;

/// What an aperture ring and a shutter are set to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Setting {
    /// The aperture as marked.
    pub aperture: Aperture,
    /// The time as marked or counted.
    pub time: Seconds,
}

/// Stops shorter than one second, Tv: 4 for 1/15 s, -3 for 8 s.
#[must_use]
pub fn time_value(time: Seconds) -> f64 {
    let below = 1.0 / time.value();
    SHUTTER_MARKS
        .into_iter()
        .find(|(mark, _)| (below / mark - 1.0).abs() < NOISE)
        .map_or(below.log2(), |(_, stops)| stops)
}

/// The time a shutter mark stands for: 1/64 s for 1/60, 1/256 s for 1/250. Every other time stands for
/// itself.
///
/// ```
/// use notchbook::craft::Seconds;
/// use notchbook::craft::exposure::stands_for;
/// assert_eq!(stands_for(Seconds::parse("1/250")?), Seconds::parse("1/256")?);
/// assert_eq!(stands_for(Seconds::parse("1/8")?), Seconds::parse("1/8")?);
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
#[must_use]
pub fn stands_for(mark: Seconds) -> Seconds {
    let exact = (-time_value(mark)).exp2();
    if (exact / mark.value() - 1.0).abs() < NOISE {
        return mark;
    }
    Seconds::new(exact).unwrap_or(mark)
}

/// Stops of film speed, Sv: 5 for ISO 100.
#[must_use]
pub fn speed_value(speed: FilmSpeed) -> f64 {
    (f64::from(speed.value()) / 3.125).log2()
}

/// The exposure value of a setting, `log2(N² / t)`.
///
/// ```
/// use notchbook::craft::exposure::{Setting, exposure_value};
/// use notchbook::craft::{Aperture, Seconds};
/// let setting = Setting {
///     aperture: Aperture::parse("f/22")?,
///     time: Seconds::parse("1/2")?,
/// };
/// assert_eq!(exposure_value(setting).to_string(), "EV 10");
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
#[must_use]
pub fn exposure_value(setting: Setting) -> ExposureValue {
    ExposureValue::reckoned(setting.aperture.stops() + time_value(setting.time))
}

/// What an exposure value for film of one speed becomes for another in the same light,
/// `EV + log2(to / from)`: faster film takes a higher value.
///
/// # Errors
/// If the result is outside the range of exposure values.
pub fn at_speed(
    value: ExposureValue,
    from: FilmSpeed,
    to: FilmSpeed,
) -> Result<ExposureValue, Unreadable> {
    // The difference first, so that the same speed changes nothing at all.
    ExposureValue::new(value.value() + (speed_value(to) - speed_value(from)))
}

/// How much more light the second setting gives than the first; less is negative.
///
/// ```
/// use notchbook::craft::exposure::{Setting, stops_between};
/// use notchbook::craft::{Aperture, Seconds};
/// let first = Setting { aperture: Aperture::parse("f/11")?, time: Seconds::parse("1/30")? };
/// let second = Setting { aperture: Aperture::parse("f/22")?, ..first };
/// assert_eq!(stops_between(first, second).to_string(), "-2 stops");
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
#[must_use]
pub fn stops_between(from: Setting, to: Setting) -> Stops {
    Stops::reckoned(exposure_value(from).value() - exposure_value(to).value())
}

/// How much faster the second film is; slower is negative.
#[must_use]
pub fn stops_of_speed(from: FilmSpeed, to: FilmSpeed) -> Stops {
    Stops::reckoned(speed_value(to) - speed_value(from))
}

/// The time that gives this exposure value at this aperture, `N² / 2^EV`, by its shutter mark where
/// it falls on one.
///
/// # Errors
/// If no time within the range of [`Seconds`] does.
pub fn time_for(value: ExposureValue, aperture: Aperture) -> Result<Seconds, Unreadable> {
    time_from_value(value.value() - aperture.stops())
}

/// The aperture that gives this exposure value in this time, to the nearest third of a stop.
///
/// # Errors
/// If no aperture within the range of [`Aperture`] does.
pub fn aperture_for(value: ExposureValue, time: Seconds) -> Result<Aperture, Unreadable> {
    Aperture::nearest(value.value() - time_value(time))
}

/// The time that gives so many stops more (or less) than `time`, by its shutter mark where it falls
/// on one. Film that needs longer for dim light is not thought of.
///
/// ```
/// use notchbook::craft::exposure::time_changed;
/// use notchbook::craft::{Seconds, Stops};
/// let time = time_changed(Seconds::parse("1/15")?, Stops::parse("-2")?)?;
/// assert_eq!(time.to_string(), "1/60 s");
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
///
/// # Errors
/// If the result is outside the range of [`Seconds`].
pub fn time_changed(time: Seconds, by: Stops) -> Result<Seconds, Unreadable> {
    time_from_value(time_value(time) - by.value())
}

fn time_from_value(stops: f64) -> Result<Seconds, Unreadable> {
    let marked = SHUTTER_MARKS
        .into_iter()
        .find(|(_, at)| (stops - at).abs() < NOISE)
        .map(|(mark, _)| 1.0 / mark);
    // Twelve places: what is beyond them is noise, as in 39.99999999999999 s.
    Seconds::new(marked.unwrap_or_else(|| ((-stops).exp2() * 1e12).round() / 1e12))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn setting(aperture: &str, time: &str) -> Setting {
        Setting {
            aperture: Aperture::parse(aperture).unwrap(),
            time: Seconds::parse(time).unwrap(),
        }
    }

    #[test]
    fn settings_a_stop_apart_on_the_marks_are_exactly_a_stop_apart() {
        let marks = [
            "8", "4", "2", "1", "1/2", "1/4", "1/8", "1/15", "1/30", "1/60", "1/125", "1/250",
            "1/500", "1/1000",
        ];
        for pair in marks.windows(2) {
            let change = stops_between(setting("f/16", pair[0]), setting("f/16", pair[1]));
            assert_eq!(change.value(), -1.0, "{pair:?}");
        }
    }

    #[test]
    fn a_mark_off_the_series_keeps_its_own_time() {
        let change = stops_between(setting("f/16", "1/50"), setting("f/16", "1/100"));
        assert_eq!(change.value(), -1.0);
        assert!((time_value(Seconds::parse("1/50").unwrap()) - 50_f64.log2()).abs() < 1e-12);
        assert!((time_value(Seconds::parse("30").unwrap()) + 30_f64.log2()).abs() < 1e-12);
    }

    #[test]
    fn more_light_is_positive_whether_from_time_or_from_aperture() {
        assert_eq!(
            stops_between(setting("f/22", "1"), setting("f/16", "1")).to_string(),
            "+1 stop"
        );
        assert_eq!(
            stops_between(setting("f/22", "1"), setting("f/22", "2")).to_string(),
            "+1 stop"
        );
        assert_eq!(
            stops_between(setting("f/22+1/3", "1"), setting("f/22", "1")).to_string(),
            "+1/3 stop"
        );
    }

    #[test]
    fn a_time_beyond_reason_is_refused_with_its_range() {
        let why = time_for(
            ExposureValue::new(-30.0).unwrap(),
            Aperture::parse("f/64").unwrap(),
        )
        .unwrap_err();
        assert!(
            why.to_string()
                .ends_with("is not a time from 1/100000 s to 30 days"),
            "{why}"
        );
        let dark = ExposureValue::new(-30.0).unwrap();
        assert!(aperture_for(dark, Seconds::parse("1").unwrap()).is_err());
        let bright = ExposureValue::new(50.0).unwrap();
        let (slow, fast) = (FilmSpeed::new(1).unwrap(), FilmSpeed::new(409_600).unwrap());
        assert!(at_speed(bright, slow, fast).is_err());
    }

    proptest! {
        #[test]
        fn time_and_aperture_found_for_a_value_give_that_value(
            mark in 500_u32..=1_024_000,
            value in 0.0..10.0_f64,
        ) {
            let aperture = Aperture::new(f64::from(mark) / 1000.0).unwrap();
            let value = ExposureValue::new(value).unwrap();
            let time = time_for(value, aperture).unwrap();
            let back = exposure_value(Setting { aperture, time });
            prop_assert!((back.value() - value.value()).abs() < 1e-5, "{time} {back}");
        }

        #[test]
        fn there_and_back_is_no_change(
            one in (500_u32..=1_024_000, -4.9..6.4_f64),
            other in (500_u32..=1_024_000, -4.9..6.4_f64),
        ) {
            let [one, other] = [one, other].map(|(mark, exponent)| Setting {
                aperture: Aperture::new(f64::from(mark) / 1000.0).unwrap(),
                time: Seconds::new(10_f64.powf(exponent)).unwrap(),
            });
            let sum = stops_between(one, other).value() + stops_between(other, one).value();
            prop_assert!(sum.abs() < 1e-9);
        }

        #[test]
        fn film_speed_goes_there_and_back(value in -10.0..20.0_f64, from in 1_u32..=6400, to in 1_u32..=6400) {
            let value = ExposureValue::new(value).unwrap();
            let (from, to) = (FilmSpeed::new(from).unwrap(), FilmSpeed::new(to).unwrap());
            let back = at_speed(at_speed(value, from, to).unwrap(), to, from).unwrap();
            prop_assert!((back.value() - value.value()).abs() < 1e-9);
        }
    }
}
