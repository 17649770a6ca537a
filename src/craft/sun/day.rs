//! What the sun does on a day: dawns, sunrise, noon, sunset, dusks.
//!
//! A day is one of the local calendar, from midnight to midnight of the clocks there. The sun is
//! followed over it and each passing found where it happens; what does not happen is not there. Tables
//! that go by days of universal time give the sunset of the day before for places far from Greenwich.

use chrono::{DateTime, FixedOffset, NaiveDate};

use super::bearing::Bearing;
use super::coordinates::Coordinates;
use super::path::Path;
use super::position::{METHOD, looked_at};
use crate::craft::{Amount, Figure, Grounds, Impossible, Step, TimeZone};
use crate::words::words;

words! {
    /// A height of the sun with a name.
    Level {
        /// Below it the sky is as dark as it gets.
        Astronomical = "astronomical twilight",
        /// Below it the horizon at sea is lost.
        Nautical = "nautical twilight",
        /// Below it one needs a lamp; the blue hour lies above it.
        Civil = "civil twilight",
        /// Between the blue hour and the golden one.
        Golden = "golden hour",
        /// Sunrise and sunset: the upper edge of the sun on a level horizon.
        Horizon = "sunrise and sunset",
        /// Above it the golden hour is over.
        High = "end of the golden hour",
    }
}

/// Between which elevations of the sun the light is called golden. There is no agreed definition.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bands {
    low: f64,
    high: f64,
}

/// The golden hour from -4 to +6 degrees and the blue hour from -6 to -4.
impl Default for Bands {
    fn default() -> Bands {
        Bands {
            low: -4.0,
            high: 6.0,
        }
    }
}

impl Bands {
    /// The golden hour between these elevations in degrees; the blue hour from -6 up to it.
    ///
    /// # Errors
    /// If they are no band around or above the horizon, from -6 to 30 degrees.
    pub fn golden(low: f64, high: f64) -> Result<Bands, Impossible> {
        if (-6.0..=30.0).contains(&low) && (-6.0..=30.0).contains(&high) && low < high {
            return Ok(Bands { low, high });
        }
        Err(Impossible::new(format!(
            "a golden hour from {low} to {high} degrees is none: it lies between -6 and 30, the lower \
             first, such as -4 to 6"
        )))
    }

    /// The elevation of a level, of the middle of the sun and without the lift of the air.
    #[must_use]
    pub const fn elevation(&self, level: Level) -> f64 {
        match level {
            Level::Astronomical => -18.0,
            Level::Nautical => -12.0,
            Level::Civil => -6.0,
            Level::Golden => self.low,
            // 34 minutes of arc for the air and 16 for half of the disc.
            Level::Horizon => -50.0 / 60.0,
            Level::High => self.high,
        }
    }

    /// What the elevation of a level rests on.
    #[must_use]
    pub fn grounds(&self, level: Level) -> Grounds {
        match level {
            Level::Astronomical | Level::Nautical => {
                Grounds::published("sundial mailing list, message 01757")
            }
            Level::Civil => Grounds::published(
                "US Naval Observatory, Rise, Set, and Twilight Definitions (second-hand)",
            ),
            Level::Horizon => Grounds::published(
                "NOAA, General Solar Position Calculations: 90.833 degrees from the zenith",
            ),
            Level::Golden | Level::High if *self == Bands::default() => Grounds::published(
                "documentation of the Python package astral 3.2; there is no agreed definition",
            ),
            Level::Golden | Level::High => Grounds::own("as typed"),
        }
    }
}

/// The sun passing a level.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pass {
    /// Which one.
    pub level: Level,
    /// Whether it rises.
    pub rising: bool,
    /// When, by the clocks of the place.
    pub at: DateTime<FixedOffset>,
    /// Where the sun stands then.
    pub azimuth: Bearing,
}

/// What the sun does on a day.
#[derive(Debug, Clone, PartialEq)]
pub struct Day {
    /// The first instant of the day.
    pub from: DateTime<FixedOffset>,
    /// The first instant of the next.
    pub to: DateTime<FixedOffset>,
    /// When the sun is due south, or due north, at its highest. Nothing on the rare day that has none,
    /// where the clocks are half a day from the sun.
    pub noon: Option<DateTime<FixedOffset>>,
    /// The highest true elevation of the day in degrees.
    pub highest: f64,
    /// The lowest true elevation of the day in degrees.
    pub lowest: f64,
    /// Every passing of a level, in the order of the day.
    pub passes: Vec<Pass>,
}

impl Day {
    /// The first time on this day that the sun passes a level rising, or sinking.
    #[must_use]
    pub fn first(&self, level: Level, rising: bool) -> Option<DateTime<FixedOffset>> {
        let mut passes = self.passes.iter();
        let found = passes.find(|pass| pass.level == level && pass.rising == rising);
        found.map(|pass| pass.at)
    }

    /// Sunrise.
    #[must_use]
    pub fn sunrise(&self) -> Option<DateTime<FixedOffset>> {
        self.first(Level::Horizon, true)
    }

    /// Sunset.
    #[must_use]
    pub fn sunset(&self) -> Option<DateTime<FixedOffset>> {
        self.first(Level::Horizon, false)
    }
}

/// What the sun does on a day of the calendar at a place, by the clocks of `zone`.
///
/// ```
/// use notchbook::craft::TimeZone;
/// use notchbook::craft::sun::{Bands, Coordinates, day};
/// let place = Coordinates::parse("36.25 N 116.825 W")?;
/// let zone = TimeZone::parse("-08:00")?;
/// let day = day("2024-03-20".parse()?, zone, place, Bands::default())?.value;
/// let sunrise = day.sunrise().map(|at| at.format("%H:%M").to_string());
/// assert_eq!(sunrise.as_deref(), Some("05:49"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// If the clocks of the zone left the day out, or the calendar does not reach so far.
pub fn day(
    date: NaiveDate,
    zone: TimeZone,
    place: Coordinates,
    bands: Bands,
) -> Result<Figure<Day>, Impossible> {
    let (from, to) = zone.day(date).ok_or_else(|| {
        Impossible::new(format!(
            "{date} was not a day of the calendar in {zone}: give the day before or after"
        ))
    })?;
    let path = Path::new(from, to, zone, place);
    let mut passes: Vec<Pass> = Vec::new();
    for level in Level::ALL {
        for (at, rising) in path.passes(bands.elevation(*level)) {
            passes.push(Pass {
                level: *level,
                rising,
                at: path.at(at),
                azimuth: path.sun(at).azimuth,
            });
        }
    }
    passes.sort_by_key(|pass| pass.at);
    let noon = path.noons().first().copied();
    let (highest, lowest) = path.extremes();
    let value = Day {
        from,
        to,
        noon: noon.map(|at| path.at(at)),
        highest,
        lowest,
        passes,
    };
    let mut figure = Figure::new(value, METHOD).within(
        "level horizon at the height of the eye; hills and trees shorten the day, a high standpoint \
         lengthens it",
    );
    if let Some(noon) = noon {
        let sun = path.sun(noon);
        let equation = Amount::number(sun.equation_of_time, "min", 2);
        figure = figure
            .step(
                Step::new(
                    "declination of the sun at noon",
                    Amount::degrees(sun.declination),
                )
                .on(METHOD),
            )
            .step(Step::new("equation of time at noon", equation).on(METHOD))
            .step(
                Step::new("noon, hour angle 0", Amount::Clock(path.at(noon)))
                    .working("12:00 - equation of time - 4 min x longitude, in universal time"),
            );
    }
    for level in Level::ALL {
        let elevation = Amount::degrees(bands.elevation(*level));
        figure = figure.step(Step::new(level.word(), elevation).on(bands.grounds(*level)));
    }
    Ok(looked_at(figure, from.to_utc()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use chrono::{Datelike, FixedOffset};
    use proptest::prelude::*;

    fn of(place: &str, date: &str, zone: &str) -> Day {
        let place = Coordinates::parse(place).unwrap();
        let zone = TimeZone::parse(zone).unwrap();
        let date = date.parse().unwrap();
        day(date, zone, place, Bands::default()).unwrap().value
    }

    #[test]
    fn a_day_of_the_polar_winter_has_no_sunrise_and_one_of_its_summer_no_sunset() {
        let winter = of("70 N 25 E", "2025-12-21", "Europe/Oslo");
        assert_eq!((winter.sunrise(), winter.sunset()), (None, None));
        assert!(winter.noon.is_some() && winter.highest < -0.8333);
        assert!(winter.first(Level::Civil, true).is_some());
        let summer = of("70 N 25 E", "2025-06-21", "Europe/Oslo");
        assert_eq!((summer.sunrise(), summer.sunset()), (None, None));
        assert!(summer.lowest > 0.0);
    }

    #[test]
    fn at_the_pole_the_sun_keeps_its_height_all_day() {
        let day = of("90 N 0 E", "2025-06-21", "UTC");
        assert!(day.passes.is_empty());
        assert!(day.highest - day.lowest < 0.01);
        let day = of("90 S 0 E", "2025-06-21", "UTC");
        assert!(day.passes.is_empty() && day.highest < -23.0);
    }

    #[test]
    fn a_short_stay_above_a_level_is_not_missed() {
        // The highest point of the day lies between two looks of ten minutes.
        let place = Coordinates::new(64.0, -20.0).unwrap();
        let zone = TimeZone::parse("UTC").unwrap();
        let date = "2025-01-15".parse().unwrap();
        let high = day(date, zone, place, Bands::default())
            .unwrap()
            .value
            .highest;
        let bands = Bands::golden(-4.0, high - 1e-5).unwrap();
        let day = day(date, zone, place, bands).unwrap().value;
        let up = day.first(Level::High, true).unwrap();
        let down = day.first(Level::High, false).unwrap();
        assert!(up < down && (down - up).num_minutes() < 5, "{up} {down}");
    }

    #[test]
    fn a_change_of_the_clocks_is_in_the_times() {
        let day = of("59.9 N 10.7 E", "2026-03-29", "Europe/Oslo");
        let sunrise = day.sunrise().unwrap();
        assert_eq!(sunrise.offset().local_minus_utc(), 2 * 3600);
        assert_eq!((day.to - day.from).num_hours(), 23);
    }

    #[test]
    fn a_golden_hour_of_ones_own_is_checked() {
        assert!(Bands::golden(-6.0, 6.0).is_ok());
        for (low, high) in [
            (6.0, -4.0),
            (-7.0, 6.0),
            (0.0, 31.0),
            (f64::NAN, 6.0),
            (1.0, 1.0),
        ] {
            assert!(Bands::golden(low, high).is_err(), "{low} {high}");
        }
    }

    #[test]
    fn a_day_that_was_left_out_is_refused_with_a_sentence() {
        let place = Coordinates::new(-13.8, -171.8).unwrap();
        let zone = TimeZone::parse("Pacific/Apia").unwrap();
        let date = "2011-12-30".parse().unwrap();
        let why = day(date, zone, place, Bands::default()).unwrap_err();
        assert!(why.to_string().contains("was not a day of the calendar"));
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(64))]
        #[test]
        fn every_day_has_its_passings_in_order(
            days in -62_000..376_000_i32,
            latitude in prop_oneof![-90.0..=90.0_f64, Just(90.0), Just(-90.0), 64.0..=72.0_f64],
            longitude in -180.0..=180.0_f64,
        ) {
            let date = NaiveDate::from_epoch_days(days).unwrap();
            let place = Coordinates::new(latitude, longitude).unwrap();
            // Clocks that go by the sun, to a quarter of an hour.
            let quarters = (longitude / 3.75).round() as i32;
            let zone = TimeZone::Fixed(FixedOffset::east_opt(quarters * 900).unwrap());
            let day = day(date, zone, place, Bands::default()).unwrap().value;
            prop_assert!(day.highest.is_finite() && day.lowest.is_finite());
            prop_assert!(day.highest >= day.lowest);
            let noon = day.noon.unwrap();
            prop_assert_eq!(noon.day(), date.day());
            for pass in &day.passes {
                prop_assert!(day.from <= pass.at && pass.at < day.to);
            }
            if latitude.abs() < 60.0 {
                let (rise, set) = (day.sunrise().unwrap(), day.sunset().unwrap());
                prop_assert!(rise < noon && noon < set);
                let morning: Vec<_> = day.passes.iter().filter(|p| p.rising && p.at < noon).collect();
                for pair in morning.windows(2) {
                    prop_assert!(Bands::default().elevation(pair[0].level)
                        < Bands::default().elevation(pair[1].level));
                }
            }
        }
    }
}
