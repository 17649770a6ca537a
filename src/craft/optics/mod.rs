//! Focus and movements of a view camera: figures of the thin lens.
//!
//! A file an idea. Lengths are in millimetres and angles in degrees throughout; distances count from
//! the lens, whose two principal planes are taken as one unless a figure says otherwise. Impossible
//! input (a lens of no focal length, a subject inside it) is an
//! [`Impossible`] and never a number.
//!
//! | file | what it answers |
//! |---|---|
//! | [`conjugates`] | where the film goes, how large the subject becomes, what a bellows reaches |
//! | [`image`] | how large something becomes on the film, and with which lens |
//! | [`circle`] | which blur passes for a point |
//! | [`depth`] | what is sharp about a distance |
//! | [`blur`] | how large a point becomes, out of focus and by diffraction |
//! | [`spread`] | the aperture from the travel between near and far focus |
//! | [`tilt`], [`wedge`] | the plane of sharpness of a tilted lens, and what is sharp about it |
//! | [`coverage`], [`movements`] | whether the circle reaches the corners; movements as jotted down |
//! | [`room`] | how far the circle lets the film move |
//! | [`angle`] | angle of view, and what would look alike on another format |
//! | [`falloff`] | light at the corners, and centre filters |
//! | [`pinhole`] | the best hole, and its exposure |
//! | [`displacement`] | rise by a pointed rail; the viewpoint moving with the lens |

pub mod angle;
pub mod blur;
pub mod circle;
pub mod conjugates;
pub mod coverage;
pub mod depth;
pub mod displacement;
mod distance;
pub mod falloff;
mod frame;
pub mod image;
pub mod movements;
pub mod pinhole;
pub mod room;
pub mod spread;
pub mod tilt;
pub mod wedge;

pub use distance::Distance;
pub use frame::Frame;

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

/// The f-number, if a lens can have it.
fn f_number(number: f64) -> Result<f64, Impossible> {
    if number > 0.0 && number <= 10_000.0 {
        return Ok(number);
    }
    Err(Impossible::new(
        "an f-number lies above 0 and up to 10000: write f/22",
    ))
}

/// The pupil ratio, if a lens can have it.
fn pupils(ratio: f64) -> Result<f64, Impossible> {
    if (0.05..=20.0).contains(&ratio) {
        return Ok(ratio);
    }
    Err(Impossible::new(
        "a pupil ratio, exit over entrance pupil, lies between 0.05 and 20; it is near 1 for most \
         lenses of view cameras",
    ))
}
