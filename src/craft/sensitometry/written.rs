//! What is written beside readings: the tablet they were read behind, and the light without it.
//!
//! For: fields and flags. Promises: what [`said_densities`] writes is read back as the same densities.

use super::Tablet;
use crate::craft::{Density, Impossible, Unreadable, number};

const LIGHT: &str =
    "a log exposure: write log10 of the lux seconds without the tablet, 0.35, or 2.24 lx s";
/// Beyond this no lamp and no film goes, in log10 lux seconds.
const FURTHEST: f64 = 10.0;

/// The log exposure without a tablet, in log10 lux seconds: `0.35`, `-1.2`, `2.24 lx s`.
///
/// ```
/// use notchbook::craft::sensitometry::log_exposure;
/// assert_eq!(log_exposure("0.35")?, 0.35);
/// assert!((log_exposure("10 lx s")? - 1.0).abs() < 1e-12);
/// assert!(log_exposure("bright").is_err());
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
///
/// # Errors
/// If it is no number, or beyond any lamp.
pub fn log_exposure(text: &str) -> Result<f64, Unreadable> {
    let plain = text.to_lowercase().replace([' ', '·'], "");
    let lux = ["lxs", "luxs", "luxseconds"]
        .iter()
        .find_map(|unit| plain.strip_suffix(unit));
    let log = match lux {
        Some(lux) => number(lux)?.log10(),
        None => number(text)?,
    };
    if (-FURTHEST..=FURTHEST).contains(&log) {
        // No zero with a sign, which would be another number in a file.
        Ok(log + 0.0)
    } else {
        Err(Unreadable::new(text, LIGHT))
    }
}

/// Several densities beside each other, parted by blanks, commas or semicolons.
///
/// # Errors
/// If one of them is no density.
pub fn densities(text: &str) -> Result<Vec<Density>, Unreadable> {
    let parts = text.split([' ', ';', '\n', '\t']);
    let parts = parts.map(|it| it.trim_end_matches(','));
    parts
        .filter(|it| !it.is_empty())
        .map(Density::parse)
        .collect()
}

/// Densities as they are typed, to the last digit.
#[must_use]
pub fn said_densities(densities: &[Density]) -> String {
    let each = densities.iter().map(|density| density.value().to_string());
    each.collect::<Vec<String>>().join(" ")
}

/// How many steps a usual tablet has, where a text says only that: `21`, `31 steps`.
#[must_use]
pub fn steps(text: &str) -> Option<usize> {
    text.trim().trim_end_matches("steps").trim().parse().ok()
}

/// A tablet as it is written: how many steps it has, or the density of each.
///
/// # Errors
/// If such a tablet has no usual densities, or what was measured is no tablet.
pub fn tablet(text: &str) -> Result<Tablet, Impossible> {
    match steps(text) {
        Some(steps) => Tablet::nominal(steps),
        None => Tablet::measured(&densities(text)?, "the tablet as it was measured"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_light_is_a_logarithm_or_has_its_unit() {
        for (text, log) in [
            ("0.35", 0.35),
            ("-1,2", -1.2),
            ("100 lx s", 2.0),
            ("0.01 lux s", -2.0),
        ] {
            assert!((log_exposure(text).unwrap() - log).abs() < 1e-9, "{text}");
        }
        for text in ["", "bright", "11", "-11", "0 lx s", "-1 lx s"] {
            assert!(log_exposure(text).is_err(), "{text}");
        }
    }

    #[test]
    fn densities_are_read_back_as_they_are_said() {
        let read = densities("0.05, 0.2012 0,35;0.5").unwrap();
        assert_eq!(said_densities(&read), "0.05 0.2012 0.35 0.5");
        assert_eq!(densities(&said_densities(&read)).unwrap(), read);
        assert!(densities("0.05 thick").is_err());
    }

    #[test]
    fn a_tablet_is_a_number_of_steps_or_the_density_of_each() {
        assert_eq!(tablet("31 steps").unwrap().count(), 31);
        assert!(tablet("0.05 0.21 0.34 0.50").unwrap().measured);
        assert!(tablet("7").is_err());
        assert!(tablet("0.5 0.4 0.3 0.2").is_err());
    }
}
