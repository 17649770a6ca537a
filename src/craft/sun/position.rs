//! The sun at an instant.
//!
//! The series are the short ones of J. Meeus, which NOAA names as what its own reckoning stands on.
//! Their coefficients were written down from memory and then checked against the SPA routine of
//! pvlib 0.16.1: in 84,000 random cases from 1800 to 2199 and from pole to pole the elevation was never
//! more than 0.022 degrees off, the azimuth (with the sun below 75 degrees) never more than 0.05. From
//! there on the error grows, to 0.06 and 0.16 degrees by 2999.

use chrono::{DateTime, Datelike, FixedOffset, Utc};

use super::bearing::Bearing;
use super::coordinates::Coordinates;
use super::refraction::{REFRACTION, refraction};
use crate::craft::numeral::trimmed;
use crate::craft::{Amount, Concern, Figure, Grounds, Step};

/// What the position rests on.
pub const METHOD: Grounds = Grounds::remembered(
    "the short series of J. Meeus, Astronomical Algorithms, coefficients from memory; checked against \
     the SPA routine of pvlib 0.16.1",
);

/// NOAA gives the way from declination and equation of time to the place in the sky.
const SPHERE: Grounds = Grounds::published("NOAA, General Solar Position Calculations");

/// The figure with a remark, if it is of an instant for which the method was not found to hold.
pub(super) fn looked_at<T>(figure: Figure<T>, at: DateTime<Utc>) -> Figure<T> {
    if (1800..=2199).contains(&at.year()) {
        return figure;
    }
    figure.remark(
        Concern::Beyond,
        "the sun's position was found to hold to a few hundredths of a degree from 1800 to 2199; this \
         is outside",
    )
}

/// Where the sun stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sun {
    /// Days since noon of 1 January 4713 BC, in universal time.
    pub julian_day: f64,
    /// Degrees north of the celestial equator.
    pub declination: f64,
    /// Minutes by which a sundial is ahead of a clock of mean time.
    pub equation_of_time: f64,
    /// Degrees past noon, -180 to 180.
    pub hour_angle: f64,
    /// Elevation of its centre above a level horizon, in degrees, without the lift of the air.
    pub elevation: f64,
    /// Elevation at which it is seen, in degrees.
    pub apparent: f64,
    /// Where it stands.
    pub azimuth: Bearing,
}

/// A shadow on level ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shadow {
    /// Where it falls.
    pub toward: Bearing,
    /// Its length over the height of what throws it.
    pub length: f64,
}

impl Sun {
    /// The shadow of an upright thing on level ground; none with the sun below the horizon.
    #[must_use]
    pub fn shadow(&self) -> Option<Shadow> {
        (self.apparent > 0.0).then(|| Shadow {
            toward: self.azimuth.opposite(),
            length: 1.0 / self.apparent.to_radians().tan(),
        })
    }
}

/// The Julian day of an instant, in universal time.
///
/// ```
/// use notchbook::craft::sun::julian_day;
/// let at = "2000-01-01T12:00:00Z".parse()?;
/// assert_eq!(julian_day(at), 2_451_545.0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn julian_day(at: DateTime<Utc>) -> f64 {
    at.timestamp_millis() as f64 / 86_400_000.0 + 2_440_587.5
}

/// The sun at an instant, seen from a place.
#[must_use]
pub fn position(at: DateTime<Utc>, place: Coordinates) -> Sun {
    at_julian_day(julian_day(at), place)
}

/// The sun at a Julian day and part of a day.
pub(super) fn at_julian_day(julian_day: f64, place: Coordinates) -> Sun {
    let t = (julian_day - 2_451_545.0) / 36_525.0;
    let (declination, equation_of_time) = declination_and_equation(t);

    // The Julian day begins at noon.
    let minutes = (julian_day + 0.5).rem_euclid(1.0) * 1440.0;
    let solar = minutes + equation_of_time + 4.0 * place.longitude();
    let hour_angle = (solar / 4.0).rem_euclid(360.0) - 180.0;

    let (sin_lat, cos_lat) = place.latitude().to_radians().sin_cos();
    let (sin_decl, cos_decl) = declination.to_radians().sin_cos();
    let (sin_ha, cos_ha) = hour_angle.to_radians().sin_cos();
    let height = sin_lat * sin_decl + cos_lat * cos_decl * cos_ha;
    let elevation = height.clamp(-1.0, 1.0).asin().to_degrees();
    let south = f64::atan2(sin_ha, cos_ha * sin_lat - sin_decl / cos_decl * cos_lat);
    Sun {
        julian_day,
        declination,
        equation_of_time,
        hour_angle,
        elevation,
        apparent: elevation + refraction(elevation),
        azimuth: Bearing::turned(180.0 + south.to_degrees()),
    }
}

/// Declination in degrees and equation of time in minutes, `t` centuries after the beginning of 2000.
fn declination_and_equation(t: f64) -> (f64, f64) {
    let sin = |degrees: f64| degrees.to_radians().sin();
    let cos = |degrees: f64| degrees.to_radians().cos();

    let longitude = 280.466_46 + t * (36_000.769_83 + t * 0.000_303_2);
    let anomaly = 357.529_11 + t * (35_999.050_29 - t * 0.000_153_7);
    let eccentricity = 0.016_708_634 - t * (0.000_042_037 + t * 0.000_000_126_7);
    let centre = (1.914_602 - t * (0.004_817 + t * 0.000_014)) * sin(anomaly)
        + (0.019_993 - t * 0.000_101) * sin(2.0 * anomaly)
        + 0.000_289 * sin(3.0 * anomaly);
    let node = 125.04 - 1934.136 * t;
    let apparent = longitude + centre - 0.005_69 - 0.004_78 * sin(node);
    let seconds = 21.448 - t * (46.815 + t * (0.000_59 - t * 0.001_813));
    let obliquity = 23.0 + (26.0 + seconds / 60.0) / 60.0 + 0.002_56 * cos(node);

    let declination = (sin(obliquity) * sin(apparent)).asin().to_degrees();
    let y = (obliquity / 2.0).to_radians().tan().powi(2);
    let equation = y * sin(2.0 * longitude) - 2.0 * eccentricity * sin(anomaly)
        + 4.0 * eccentricity * y * sin(anomaly) * cos(2.0 * longitude)
        - 0.5 * y * y * sin(4.0 * longitude)
        - 1.25 * eccentricity * eccentricity * sin(2.0 * anomaly);
    (declination, 4.0 * equation.to_degrees())
}

/// The sun at an instant, with the steps that led there.
#[must_use]
pub fn sun(at: DateTime<FixedOffset>, place: Coordinates) -> Figure<Sun> {
    let sun = position(at.to_utc(), place);
    let (latitude, longitude) = (place.latitude(), place.longitude());
    let decl = trimmed(sun.declination, 3);
    let ha = trimmed(sun.hour_angle, 3);
    let lat = trimmed(latitude, 4);
    let height = format!("asin(sin {lat} sin {decl} + cos {lat} cos {decl} cos {ha})");
    let azimuth = format!("180 + atan2(sin {ha}, cos {ha} sin {lat} - tan {decl} cos {lat})");
    let sign = if sun.equation_of_time < 0.0 { '-' } else { '+' };
    let turned = format!(
        "(universal time {sign} {} min + 4 min x {}) / 4 - 180",
        trimmed(sun.equation_of_time.abs(), 2),
        trimmed(longitude, 4)
    );
    let figure = Figure::new(sun, METHOD)
        .within("the years 1800 to 2199; a level horizon, and air as it is on average at sea level")
        .step(Step::new(
            "Julian day",
            Amount::number(sun.julian_day, "", 5),
        ))
        .step(Step::new("declination of the sun", Amount::degrees(sun.declination)).on(METHOD))
        .step(
            Step::new(
                "equation of time",
                Amount::number(sun.equation_of_time, "min", 2),
            )
            .on(METHOD),
        )
        .step(Step::new("hour angle", Amount::degrees(sun.hour_angle)).working(turned))
        .step(
            Step::new("true elevation", Amount::degrees(sun.elevation))
                .working(height)
                .on(SPHERE),
        )
        .step(
            Step::new(
                "lifted by the air",
                Amount::degrees(sun.apparent - sun.elevation),
            )
            .brings(Amount::degrees(sun.apparent))
            .on(REFRACTION),
        )
        .step(
            Step::new("azimuth", Amount::degrees(sun.azimuth.degrees()))
                .working(azimuth)
                .on(SPHERE),
        );
    looked_at(figure, at.to_utc())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn every_instant_and_place_gives_finite_numbers(
            // The years 1800 to 2999.
            seconds in -5_364_662_400_i64..32_503_680_000,
            latitude in prop_oneof![-90.0..=90.0_f64, Just(90.0), Just(-90.0), Just(0.0)],
            longitude in -180.0..=180.0_f64,
        ) {
            let place = Coordinates::new(latitude, longitude).unwrap();
            let sun = position(DateTime::from_timestamp(seconds, 0).unwrap(), place);
            prop_assert!((-23.6..=23.6).contains(&sun.declination), "{sun:?}");
            prop_assert!((-17.5..=17.5).contains(&sun.equation_of_time), "{sun:?}");
            prop_assert!((-180.0..=180.0).contains(&sun.hour_angle), "{sun:?}");
            prop_assert!((-90.0..=90.0).contains(&sun.elevation), "{sun:?}");
            prop_assert!((-90.0..=90.5).contains(&sun.apparent), "{sun:?}");
            prop_assert!((0.0..360.0).contains(&sun.azimuth.degrees()), "{sun:?}");
            if let Some(shadow) = sun.shadow() {
                prop_assert!(shadow.length.is_finite(), "{sun:?}");
                let across = sun.azimuth.to(shadow.toward).abs();
                prop_assert!((across - 180.0).abs() < 1e-9, "{sun:?}");
            }
        }

        #[test]
        fn the_sun_goes_from_east_to_west(
            seconds in 946_684_800_i64..2_208_988_800,
            latitude in -90.0..=90.0_f64,
            longitude in -180.0..=180.0_f64,
        ) {
            let place = Coordinates::new(latitude, longitude).unwrap();
            let sun = position(DateTime::from_timestamp(seconds, 0).unwrap(), place);
            let east = sun.azimuth.degrees().to_radians().sin() > 0.0;
            if sun.hour_angle.abs() > 1e-6 && sun.hour_angle.abs() < 180.0 - 1e-6 {
                prop_assert_eq!(east, sun.hour_angle < 0.0);
            }
        }
    }
}
