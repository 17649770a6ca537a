//! The characteristic curve of one strip: density over log exposure.
//!
//! Promises: a curve holds every reading it was made of, in order of exposure; what looks like a slip
//! of the reading is said and not mended.

use super::monotone::{Joined, Through};
use super::readings::Reading;
use super::tablet::Tablet;
use crate::craft::{Concern, Density, Impossible, Remark};

/// Fewest readings that make a curve.
const FEWEST: usize = 4;
/// How far a density may fall with more exposure before it looks like a slip, in log10.
const SLIP: f64 = 0.02;
/// How far the two least exposed steps may differ where the film is still clear, in log10.
const CLEAR: f64 = 0.015;

/// One reading with the exposure that made it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// The step of the tablet, from 1.
    pub step: usize,
    /// Log exposure, in log10 lux seconds, or against the bare light where that is not known.
    pub log_h: f64,
    /// The density on the film.
    pub density: f64,
}

/// A characteristic curve.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// The readings, least exposure first.
    pub points: Vec<Point>,
    /// Base plus fog.
    pub base_fog: f64,
    /// Whether exposures are in lux seconds; else they count from the bare light.
    pub absolute: bool,
    /// What to look at in the readings.
    pub remarks: Vec<Remark>,
    through: Through,
}

impl Curve {
    /// The curve of readings through a tablet. `bare` is the log exposure without the tablet, in log10
    /// lux seconds; without it exposures count from the bare light. `base_fog` was read on film that
    /// got no light; without it the least exposed step stands for it.
    ///
    /// # Errors
    /// If there are too few readings, a step the tablet does not have, or a base plus fog above them all.
    pub fn new(
        readings: &[Reading],
        tablet: &Tablet,
        bare: Option<f64>,
        base_fog: Option<Density>,
        joined: Joined,
    ) -> Result<Curve, Impossible> {
        if readings.len() < FEWEST {
            return Err(Impossible::new(format!(
                "{} readings make no curve: read four steps at least, and better all of them",
                readings.len()
            )));
        }
        if bare.is_some_and(|bare| !(-10.0..=10.0).contains(&bare)) {
            return Err(Impossible::new(
                "that log exposure is beyond any lamp: give log10 of the lux seconds without the \
                 tablet, such as 0.35 for 2.2 lux seconds",
            ));
        }
        let mut points = Vec::new();
        for reading in readings {
            let log_h = tablet.log_exposure(reading.step, bare.unwrap_or(0.0));
            let log_h = log_h.ok_or_else(|| {
                Impossible::new(format!(
                    "there is no step {} on a tablet of {} steps",
                    reading.step,
                    tablet.count()
                ))
            })?;
            points.push(Point {
                step: reading.step,
                log_h,
                density: reading.density.value(),
            });
        }
        points.sort_by(|one, other| one.log_h.total_cmp(&other.log_h));
        let plain: Vec<(f64, f64)> = points.iter().map(|it| (it.log_h, it.density)).collect();
        let through = Through::new(&plain, joined)?;
        let least = points.first().map_or(0.0, |point| point.density);
        let most = points.iter().map(|it| it.density).fold(0.0, f64::max);
        let given = base_fog.map(|density| density.value());
        if let Some(fog) = given.filter(|fog| *fog >= most) {
            return Err(Impossible::new(format!(
                "a base plus fog of {fog:.2} is not below the densest step, {most:.2}: read it on film \
                 that got no light"
            )));
        }
        let remarks = remarks(&points, given);
        Ok(Curve {
            base_fog: given.unwrap_or(least),
            absolute: bare.is_some(),
            remarks,
            through,
            points,
        })
    }

    /// The density at a log exposure; nothing outside the readings.
    #[must_use]
    pub fn density(&self, log_h: f64) -> Option<f64> {
        self.through.at(log_h)
    }

    /// How steep the curve is between the two readings around a log exposure; nothing outside them.
    #[must_use]
    pub fn slope(&self, log_h: f64) -> Option<f64> {
        self.through.rise_at(log_h)
    }

    /// The log exposure at which the curve first comes to a density `above` base plus fog.
    #[must_use]
    pub fn exposure_above(&self, above: f64) -> Option<f64> {
        self.through.first_reaching(self.base_fog + above)
    }

    /// The ends of the readings, in log exposure.
    #[must_use]
    pub fn ends(&self) -> (f64, f64) {
        (self.through.start(), self.through.end())
    }

    /// The highest density that was read.
    #[must_use]
    pub fn densest(&self) -> f64 {
        self.points.iter().map(|it| it.density).fold(0.0, f64::max)
    }
}

/// What looks odd in the readings.
fn remarks(points: &[Point], given: Option<f64>) -> Vec<Remark> {
    let mut remarks = Vec::new();
    let mut say = |concern, words: String| remarks.push(Remark { concern, words });
    for pair in points.windows(2) {
        if let [less, more] = pair
            && less.density - more.density > SLIP
        {
            let words = format!(
                "step {} got more light than step {} and reads less ({:.2} after {:.2}): read both again",
                more.step, less.step, more.density, less.density
            );
            say(Concern::Warning, words);
        }
    }
    match (given, points) {
        (None, [first, second, ..]) if second.density - first.density > CLEAR => say(
            Concern::Warning,
            format!(
                "the least exposed step ({:.2}) may hold more than base plus fog, since the next reads \
                 {:.2}: read film that got no light",
                first.density, second.density
            ),
        ),
        (Some(fog), [first, ..]) if fog - first.density > SLIP => say(
            Concern::Warning,
            format!(
                "a base plus fog of {fog:.2} is more than step {} reads ({:.2}): read both again",
                first.step, first.density
            ),
        ),
        _ => {}
    }
    remarks
}

#[cfg(test)]
mod tests {
    use super::*;

    fn readings(densities: &[f64]) -> Vec<Reading> {
        let all = densities.iter().enumerate().map(|(at, value)| Reading {
            step: at + 1,
            density: Density::new(*value).unwrap(),
        });
        all.collect()
    }

    fn curve(densities: &[f64], fog: Option<f64>) -> Result<Curve, Impossible> {
        let tablet = Tablet::nominal(21)?;
        let fog = fog.map(|fog| Density::new(fog).unwrap());
        Curve::new(&readings(densities), &tablet, None, fog, Joined::Smooth)
    }

    #[test]
    fn a_slip_of_the_reading_is_said_and_kept() {
        let curve = curve(&[1.0, 0.8, 0.9, 0.3, 0.1, 0.1], None).unwrap();
        let words: Vec<&str> = curve.remarks.iter().map(|it| it.words.as_str()).collect();
        assert_eq!(words.len(), 1, "{words:?}");
        assert!(
            words[0].starts_with("step 2 got more light than step 3"),
            "{words:?}"
        );
        assert_eq!(curve.points.len(), 6);
        assert_eq!(curve.density(-0.20), Some(0.8));
    }

    #[test]
    fn base_plus_fog_is_the_least_exposed_step_unless_it_was_read() {
        let clear = curve(&[1.0, 0.7, 0.4, 0.12, 0.11], None).unwrap();
        assert!((clear.base_fog - 0.11).abs() < 1e-12);
        assert!(clear.remarks.is_empty());
        let toe = curve(&[1.0, 0.7, 0.4, 0.2], None).unwrap();
        assert!(
            toe.remarks[0]
                .words
                .contains("may hold more than base plus fog")
        );
        let read = curve(&[1.0, 0.7, 0.4, 0.2], Some(0.1)).unwrap();
        assert!((read.base_fog - 0.1).abs() < 1e-12);
        assert!(read.remarks.is_empty());
        let why = curve(&[1.0, 0.7, 0.4, 0.2], Some(1.2)).unwrap_err();
        assert!(
            why.to_string().contains("not below the densest step"),
            "{why}"
        );
        let why = curve(&[1.0, 0.7, 0.4], None).unwrap_err();
        assert!(
            why.to_string().starts_with("3 readings make no curve"),
            "{why}"
        );
    }
}
