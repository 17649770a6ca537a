//! Sensitometry: what a film gives back for the light it was given.
//!
//! For: readings of a step tablet that was printed on film, and what they tell of speed and contrast.
//! Exposures are kept as log10 of lux seconds (log H), densities as log10, so every gradient here is a
//! plain ratio of the two. Promises: nothing is reckoned beyond what was read, and where a measure
//! cannot be taken from a curve the sentence says which readings are missing; a curve passes through
//! its readings and never swings between them. Leaves to others: where readings are kept, and what
//! temperature does to a time.
//!
//! A [`Tablet`] and [`readings`] make a [`Curve`]; [`speed`], [`gradient`], [`index`] and [`straight`]
//! measure one curve ([`Whole`] takes all of them), [`Family`] several of the same film at different times,
//! [`Growth`] two; [`control`] sets limits to one measure over many.

pub mod control;
mod curve;
mod family;
mod growth;
mod index;
mod measures;
mod monotone;
pub mod readings;
mod speed;
mod straight;
mod tablet;
mod whole;
mod written;

pub use curve::{Curve, Point};
pub use family::{Aim, Family, Measured, Reached, aim, possible_error};
pub use growth::Growth;
pub use index::index;
pub use measures::{DENSITY_ABOVE, gradient, range};
pub use monotone::{Joined, Through};
pub use speed::{Speed, degrees, nominal_speed, of_exposure, speed};
pub use straight::{Straight, straight};
pub use tablet::{Tablet, transmission};
pub use whole::Whole;
pub use written::{densities, log_exposure, said_densities, steps, tablet};

use crate::words::words;

words! {
    /// The light in which a density was read.
    Channel {
        /// As the eye sees it.
        Visual = "visual",
        /// In blue light, near to what silver papers see.
        Blue = "blue",
        /// In ultraviolet light, what the printing-out and iron processes see.
        Ultraviolet = "ultraviolet",
    }
}
