//! Film speed from the exposure that just leaves a mark.
//!
//! By ISO 6:1993 for black-and-white film: point m lies 0.10 above base plus fog, point n 1.30 to its
//! right, and the film is developed so that n is 0.80 denser than m; the speed is 0.8 over the exposure
//! at m in lux seconds. Promises: a speed read from a curve that was developed otherwise is told as an
//! effective speed and never as an ISO speed.

use super::curve::Curve;
use super::measures::DENSITY_ABOVE;
use crate::craft::{Amount, Concern, Figure, FilmSpeed, Grounds, Impossible, Step};

/// From m to n, in log exposure.
const TO_N: f64 = 1.30;
/// How much denser n is than m.
const RISE: f64 = 0.80;
/// How far it may be off.
const RISE_WITHIN: f64 = 0.05;
/// Speed times exposure at m, in lux seconds.
const CONSTANT: f64 = 0.8;

const TRIANGLE: Grounds = Grounds::published(
    "ISO 6:1993: 0.10 above base plus fog, and 0.80 over 1.30 (second-hand, filmaker.cn thread 14735)",
);
const BY_EXPOSURE: Grounds = Grounds::remembered(
    "S = 0.8 lx s / H; the constant and the tolerance of 0.05 were not read in ISO 6 itself, but the \
     constant follows from ISO 100 at 0.008 lx s",
);

/// The nominal speeds by thirds, from 7 degrees on; not exact thirds, as printed on boxes.
const NOMINAL: [u32; 33] = [
    4, 5, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50, 64, 80, 100, 125, 160, 200, 250, 320, 400, 500,
    640, 800, 1000, 1250, 1600, 2000, 2500, 3200, 4000, 5000, 6400,
];
const FIRST_DEGREE: f64 = 7.0;

/// What a curve tells of speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Speed {
    /// Log exposure at the speed point.
    pub log_h: f64,
    /// The speed by the exposure at the speed point; nothing where exposures are not in lux seconds.
    pub speed: Option<f64>,
    /// How much denser the film is 1.30 further on; nothing where the curve ends before.
    pub rise: Option<f64>,
    /// Whether that is the contrast ISO 6 asks for.
    pub as_iso: bool,
}

/// The speed for an exposure at the speed point: `0.8 / H`, in lux seconds.
#[must_use]
pub fn of_exposure(lux_seconds: f64) -> f64 {
    CONSTANT / lux_seconds
}

/// A speed in degrees, not rounded: `1 + 10 log10 S`.
#[must_use]
pub fn degrees(speed: f64) -> f64 {
    1.0 + 10.0 * speed.log10()
}

/// The nominal speed nearest to a speed, by thirds of a stop; nothing outside 4 to 6400.
#[must_use]
pub fn nominal_speed(speed: f64) -> Option<FilmSpeed> {
    let at = (degrees(speed) - FIRST_DEGREE).round();
    if !(0.0..NOMINAL.len() as f64).contains(&at) {
        return None;
    }
    // The check above keeps this cast inside the list.
    NOMINAL
        .get(at as usize)
        .and_then(|speed| FilmSpeed::new(*speed).ok())
}

/// Speed point, speed, and whether the curve has the contrast ISO 6 asks for.
///
/// # Errors
/// If the curve never comes to 0.10 above base plus fog, or begins above it.
pub fn speed(curve: &Curve) -> Result<Figure<Speed>, Impossible> {
    let log_h = super::measures::foot(curve)?;
    let rise = curve
        .density(log_h + TO_N)
        .map(|density| density - curve.base_fog - DENSITY_ABOVE);
    let as_iso = rise.is_some_and(|rise| (rise - RISE).abs() <= RISE_WITHIN + 1e-9);
    let exposure = 10_f64.powf(log_h);
    let found = curve.absolute.then(|| of_exposure(exposure));
    let value = Speed {
        log_h,
        speed: found,
        rise,
        as_iso,
    };
    let mut figure = Figure::new(value, TRIANGLE).step(
        Step::new("speed point", Amount::number(log_h, "log H", 2))
            .working(format!(
                "density {:.2} + {DENSITY_ABOVE:.2} = {:.2}",
                curve.base_fog,
                curve.base_fog + DENSITY_ABOVE
            ))
            .on(TRIANGLE),
    );
    if let Some(rise) = rise {
        figure = figure.step(
            Step::new("density over the next 1.30", Amount::number(rise, "", 2))
                .working(format!("ISO 6 asks for {RISE:.2} ± {RISE_WITHIN:.2}"))
                .on(TRIANGLE),
        );
    }
    if let Some(found) = found {
        figure = figure.step(
            Step::new("speed", Amount::number(found, "", 1))
                .working(format!("{CONSTANT} / {exposure:.5} lx s"))
                .on(BY_EXPOSURE),
        );
    } else {
        figure = figure.remark(
            Concern::Note,
            "exposures count from the bare light, so the curve tells contrast but no speed: give the log \
             exposure without the tablet in lux seconds",
        );
    }
    Ok(match rise {
        Some(_) if as_iso => figure,
        Some(rise) => figure.remark(
            Concern::Warning,
            format!(
                "not developed as ISO 6 asks: {rise:.2} over 1.30 instead of {RISE:.2}, so {} \
                 development gives the ISO speed, and this is an effective speed",
                if rise > RISE { "less" } else { "more" }
            ),
        ),
        None => figure.remark(
            Concern::Warning,
            "the readings end before 1.30 above the speed point, so whether the film was developed as \
             ISO 6 asks cannot be told: this is an effective speed; give the film more light",
        ),
    })
}
