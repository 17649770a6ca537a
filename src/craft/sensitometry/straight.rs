//! Gamma: the slope of the straight part of a curve.
//!
//! Where a curve is straight is a matter of judgement. Here it is the run of neighbouring readings that
//! covers the most density while none is further than 0.02 from their own least-squares line.

use super::curve::{Curve, Point};
use crate::craft::{Amount, Figure, Grounds, Impossible, Step};

/// Fewest readings in a straight part.
const FEWEST: usize = 4;
/// How far a reading may lie from the line, in density.
const WITHIN: f64 = 0.02;

const GAMMA: Grounds = Grounds::published(
    "G. Sharma, PT, March/April 2002: gamma is the rise of density over log exposure on the straight part",
);

/// The straight part of a curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Straight {
    /// Its slope.
    pub gamma: f64,
    /// Log exposure where it begins.
    pub from: f64,
    /// Log exposure where it ends.
    pub to: f64,
    /// How many readings lie on it.
    pub readings: usize,
}

/// Gamma of a curve.
///
/// # Errors
/// If no four neighbouring readings lie on a rising line.
pub fn straight(curve: &Curve) -> Result<Figure<Straight>, Impossible> {
    let points = curve.points.as_slice();
    let mut best: Option<(f64, Straight)> = None;
    for first in 0..points.len() {
        for last in (first + FEWEST)..=points.len() {
            let run = points.get(first..last).unwrap_or_default();
            let Some(found) = line(run) else { continue };
            let covers = found.gamma * (found.to - found.from);
            if best.is_none_or(|(most, _)| covers > most) {
                best = Some((covers, found));
            }
        }
    }
    let Some((_, value)) = best else {
        return Err(Impossible::new(
            "no four neighbouring steps lie on a rising straight line within 0.02, so the curve has no \
             gamma: take the average gradient",
        ));
    };
    Ok(Figure::new(value, GAMMA).step(
        Step::new("gamma", Amount::number(value.gamma, "", 3))
            .working(format!(
                "least squares through {} steps, log H {:.2} to {:.2}",
                value.readings, value.from, value.to
            ))
            .on(GAMMA),
    ))
}

/// The least-squares line through a run of readings, if it rises and they keep close to it.
fn line(run: &[Point]) -> Option<Straight> {
    // At most some hundreds of readings, which a float counts exactly.
    let count = run.len() as f64;
    let mean_x = run.iter().map(|it| it.log_h).sum::<f64>() / count;
    let mean_y = run.iter().map(|it| it.density).sum::<f64>() / count;
    let across: f64 = run.iter().map(|it| (it.log_h - mean_x).powi(2)).sum();
    let along = run
        .iter()
        .map(|it| (it.log_h - mean_x) * (it.density - mean_y));
    let gamma = along.sum::<f64>() / across;
    let close = run
        .iter()
        .all(|it| (it.density - mean_y - gamma * (it.log_h - mean_x)).abs() <= WITHIN);
    let (from, to) = (run.first()?.log_h, run.last()?.log_h);
    (gamma.is_finite() && gamma > 0.0 && close).then_some(Straight {
        gamma,
        from,
        to,
        readings: run.len(),
    })
}
