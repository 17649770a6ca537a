//! How long an unprotected eye may stay by a printing lamp.
//!
//! Promises: the limit is for ultraviolet A alone and for a day's eight hours; a lamp that gives
//! shorter waves has a limit of its own, which is not reckoned here.

use super::{four, within};
use crate::craft::{Amount, Figure, Grounds, Impossible, Seconds, Step};

/// The limit.
const LIMIT: Grounds = Grounds::published(
    "ICNIRP limits for ultraviolet radiation as quoted by UV Light Technology, manual UV3W-LED, p. 7 \
     (second-hand): 10 000 J/m2 of UV-A on the unprotected eye in 8 h",
);

/// Joules to the square metre in a day.
const DOSE: f64 = 10_000.0;

/// Seconds in the eight hours of the limit.
const DAY: f64 = 8.0 * 3600.0;

/// The irradiance that comes to the limit in eight hours, in watts to the square metre.
#[must_use]
pub fn daily_limit() -> f64 {
    DOSE / DAY
}

/// How long until the limit is reached: `10000 / E`.
///
/// # Errors
/// If the irradiance is not from 0.01 to 10000 W/m2.
pub fn time_to_limit(irradiance: f64) -> Result<Figure<Seconds>, Impossible> {
    let irradiance = within("an irradiance", irradiance, 0.01..=10_000.0, "W/m2")?;
    let time = Seconds::new(DOSE / irradiance)?;
    Ok(Figure::new(time, LIMIT)
        .step(
            Step::new("limit", Amount::Time(time))
                .working(format!("10000 J/m2 / {} W/m2", four(irradiance))),
        )
        .within("ultraviolet A from 315 to 400 nm, eyes without glasses"))
}
