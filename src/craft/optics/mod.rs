//! Focus and movements of a view camera: figures of the thin lens.
//!
//! A file an idea: [`coverage`] (does the image circle reach the corners) and [`movements`] (what was
//! jotted down, as numbers). Lengths are in millimetres and angles in degrees throughout; distances
//! count from the lens, whose two principal planes are taken as one unless a figure says otherwise.
//! Impossible input (a lens of no focal length, a subject inside it) is an
//! [`Impossible`](crate::craft::Impossible) and never a number.

pub mod coverage;
pub mod movements;

use crate::craft::{Amount, Impossible, Millimetres};

/// Tangents and sines are taken of degrees everywhere here.
fn tan(degrees: f64) -> f64 {
    degrees.to_radians().tan()
}

/// A length in millimetres as a step shows it.
const fn mm(value: f64, places: usize) -> Amount {
    Amount::number(value, "mm", places)
}

/// The focal length, if there can be such a lens.
fn focal(focal_length: Millimetres) -> Result<f64, Impossible> {
    let f = focal_length.value();
    if f > 0.0 {
        return Ok(f);
    }
    Err(Impossible::new(
        "a lens of no focal length forms no image: give its focal length, such as 150 mm",
    ))
}
