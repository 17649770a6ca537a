//! Everything one strip tells, each measure or the reason why it cannot be taken.
//!
//! For: whoever shows a strip beside others, in a list, a chart or a file. The measures are those of
//! [`speed`], [`gradient`], [`index`] and [`straight`]; nothing is reckoned here a second time.

use super::{Curve, Speed, Straight, gradient, index, range, speed, straight};
use crate::craft::{Figure, Impossible};

/// What one curve tells.
#[derive(Debug, Clone, PartialEq)]
pub struct Whole {
    /// Base plus fog.
    pub base_fog: f64,
    /// Speed point and speed.
    pub speed: Result<Figure<Speed>, Impossible>,
    /// Average gradient.
    pub gradient: Result<Figure<f64>, Impossible>,
    /// Contrast index.
    pub index: Result<Figure<f64>, Impossible>,
    /// Gamma, with where the straight part lies.
    pub gamma: Result<Figure<Straight>, Impossible>,
    /// Densest reading less base plus fog.
    pub range: f64,
}

impl Whole {
    /// What a curve tells.
    #[must_use]
    pub fn of(curve: &Curve) -> Whole {
        Whole {
            base_fog: curve.base_fog,
            speed: speed(curve),
            gradient: gradient(curve),
            index: index(curve),
            gamma: straight(curve),
            range: range(curve),
        }
    }

    /// The average gradient, where one can be taken.
    #[must_use]
    pub fn average_gradient(&self) -> Option<f64> {
        self.gradient.as_ref().ok().map(|figure| figure.value)
    }

    /// The speed point, where there is one.
    #[must_use]
    pub fn speed_point(&self) -> Option<Speed> {
        self.speed.as_ref().ok().map(|figure| figure.value)
    }
}
