//! How much the air lifts the sun.

use crate::craft::Grounds;

/// NOAA, "Solar Calculation Details", gives the four formulas.
pub const REFRACTION: Grounds = Grounds::published("NOAA, Solar Calculation Details");

/// How much higher the sun seems to stand than it does, in degrees, for its true elevation in degrees;
/// for air as it is on average at sea level.
///
/// ```
/// use notchbook::craft::sun::refraction;
/// assert!((refraction(0.0) - 0.48194).abs() < 1e-5);
/// assert_eq!(refraction(86.0), 0.0);
/// ```
#[must_use]
pub fn refraction(elevation: f64) -> f64 {
    let h = elevation;
    let tan = h.to_radians().tan();
    let seconds = if h > 85.0 {
        0.0
    } else if h > 5.0 {
        58.1 / tan - 0.07 / tan.powi(3) + 0.000_086 / tan.powi(5)
    } else if h > -0.575 {
        1735.0 + h * (-518.2 + h * (103.4 + h * (-12.79 + h * 0.711)))
    } else {
        -20.774 / tan
    };
    seconds / 3600.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_air_lifts_by_little_and_never_lowers(elevation in -90.0..=90.0_f64) {
            let lift = refraction(elevation);
            prop_assert!((-1e-9..0.6).contains(&lift), "{lift}");
        }
    }
}
