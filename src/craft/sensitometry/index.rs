//! Contrast index: the slope between two arcs about a point on the level of base plus fog.
//!
//! A gauge with arcs of radius 0.2 and 2.2 slides along that level until its origin and the two places
//! where the arcs meet the curve lie in one line; the slope of that line is the contrast index. Radii
//! are measured with equal scales for density and log exposure.

use super::curve::Curve;
use crate::craft::{Amount, Figure, Grounds, Impossible, Step};

const INNER: f64 = 0.2;
const OUTER: f64 = 2.2;
const HALVINGS: usize = 60;
/// How far a distance may be off by rounding alone.
const ROUNDING: f64 = 1e-7;

const BY_ARCS: Grounds = Grounds::remembered(
    "arcs of 0.2 and 2.2 about a point on base plus fog; that the gauge slides along that level is in US \
     Navy, Photography (Advanced), that the arcs are 2.0 apart in S. Benskin, apug.org (second-hand)",
);

/// Contrast index of a curve.
///
/// # Errors
/// If the readings are too short for the gauge.
pub fn index(curve: &Curve) -> Result<Figure<f64>, Impossible> {
    let (start, end) = curve.ends();
    let height = |x: f64| curve.density(x).map(|it| (it - curve.base_fog).max(0.0));
    // The curve met by an arc about `origin`, by halving the stretch in which its distance grows.
    let met = |origin: f64, radius: f64| -> Option<(f64, f64)> {
        let far = |x: f64| Some((x - origin).hypot(height(x)?) - radius);
        let (mut near, mut beyond) = (origin.max(start), (origin + radius).min(end));
        if far(near)? > ROUNDING || far(beyond)? < -ROUNDING {
            return None;
        }
        for _ in 0..HALVINGS {
            let middle = 0.5 * (near + beyond);
            if far(middle)? < 0.0 {
                near = middle;
            } else {
                beyond = middle;
            }
        }
        Some((beyond, height(beyond)?))
    };
    let slope = |origin: f64, radius: f64| -> Option<f64> {
        let (x, y) = met(origin, radius)?;
        // Where the curve stands right above the origin the slope is beyond all numbers, not wrong.
        Some((y / radius).min(1.0).asin().tan()).filter(|it| it.is_finite() && x >= origin)
    };
    // Too far to the left the inner arc meets the flat foot; too far to the right it meets the rise
    // above the line to the outer one.
    let tilt = |origin: f64| Some(slope(origin, INNER)? - slope(origin, OUTER)?);
    let short = || {
        Impossible::new(
            "the readings do not reach far enough for the contrast index, which spans 2.2 from the foot \
             of the curve: expose a strip with more light, or take the average gradient",
        )
    };
    let last = furthest(curve, start, end).ok_or_else(short)?;
    let (mut left, mut right) = (start, last);
    let begins = tilt(left).ok_or_else(short)?;
    let ends = tilt(right).ok_or_else(short)?;
    if begins > 0.0 {
        return Err(Impossible::new(
            "the readings begin on the rise of the curve, so the contrast index has no foot to stand on: \
             expose a strip with less light",
        ));
    }
    if ends < 0.0 {
        return Err(short());
    }
    for _ in 0..HALVINGS {
        let middle = 0.5 * (left + right);
        match tilt(middle) {
            Some(tilt) if tilt < 0.0 => left = middle,
            _ => right = middle,
        }
    }
    let value = slope(right, OUTER).ok_or_else(short)?;
    let (a, b) = (met(right, INNER), met(right, OUTER));
    let working = match (a, b) {
        (Some((xa, ya)), Some((xb, yb))) => format!(
            "({:.2} - {:.2}) / ({xb:.2} - {xa:.2})",
            yb + curve.base_fog,
            ya + curve.base_fog
        )
        .replace("- -", "+ "),
        _ => String::new(),
    };
    Ok(Figure::new(value, BY_ARCS).step(
        Step::new("contrast index", Amount::number(value, "", 3))
            .working(working)
            .on(BY_ARCS),
    ))
}

/// The origin furthest to the right: its outer arc still meets the readings, and its inner arc is not
/// below the curve above it. Nothing if the curve stays lower than the inner arc.
fn furthest(curve: &Curve, start: f64, end: f64) -> Option<f64> {
    let top = curve.density(end)? - curve.base_fog;
    let along = (OUTER * OUTER - top * top).max(0.0).sqrt();
    let above = curve.exposure_above(INNER)?;
    // A hair inside, so that rounding does not put an arc beyond the curve.
    Some(((end - along).min(above) - 1e-9).max(start))
}
