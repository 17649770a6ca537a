//! Average gradient and density range of a curve.

use super::curve::Curve;
use crate::craft::{Amount, Figure, Grounds, Impossible, Step};

/// The density above base plus fog from which speed and gradient are counted.
pub const DENSITY_ABOVE: f64 = 0.10;
/// Over how much log exposure the average gradient is taken.
const SPAN: f64 = 1.50;

const BY_SPAN: Grounds = Grounds::published(
    "S. Benskin, apug.org, average gradient methods: from 0.10 above base plus fog over 1.50 log H \
     (second-hand)",
);

/// The foot of the curve: the log exposure at 0.10 above base plus fog.
///
/// # Errors
/// If the curve begins above it or stays below it.
pub(super) fn foot(curve: &Curve) -> Result<f64, Impossible> {
    curve.exposure_above(DENSITY_ABOVE).ok_or_else(|| {
        let aim = curve.base_fog + DENSITY_ABOVE;
        let begins = curve.points.first().map_or(0.0, |point| point.density);
        Impossible::new(if begins > aim {
            format!(
                "the least exposed step reads {begins:.2}, more than {aim:.2} (0.10 above base plus \
                 fog): expose a strip with less light"
            )
        } else {
            format!(
                "no step reads {aim:.2}, which is 0.10 above base plus fog: expose a strip with more \
                 light"
            )
        })
    })
}

/// Average gradient: the slope of the straight line from 0.10 above base plus fog to the curve 1.50
/// further on in log exposure.
///
/// # Errors
/// If the readings do not reach that far.
pub fn gradient(curve: &Curve) -> Result<Figure<f64>, Impossible> {
    let from = foot(curve)?;
    let low = curve.base_fog + DENSITY_ABOVE;
    let Some(high) = curve.density(from + SPAN) else {
        return Err(Impossible::new(format!(
            "the readings end {:.2} after 0.10 above base plus fog, and the average gradient is taken \
             over {SPAN:.2}: expose a strip with more light",
            curve.ends().1 - from
        )));
    };
    let value = (high - low) / SPAN;
    Ok(Figure::new(value, BY_SPAN).step(
        Step::new("average gradient", Amount::number(value, "", 3))
            .working(format!("({high:.2} - {low:.2}) / {SPAN:.2}"))
            .on(BY_SPAN),
    ))
}

/// Density range: the densest reading less base plus fog.
#[must_use]
pub fn range(curve: &Curve) -> f64 {
    curve.densest() - curve.base_fog
}
