//! Crossing two strengths to a third between them, by Pearson's square.
//!
//! Parts of the strong are what the target lies above the weak, parts of the weak what it lies below
//! the strong. The parts are of the kind the strengths are of: by volume, or by weight.

use super::{four, some};
use crate::craft::{Amount, Figure, Grounds, Impossible, Step};

/// The square.
const SQUARE: Grounds =
    Grounds::published("US Army Signal Center, subcourse SS0513, chemical mixing");

/// What is taken of two solutions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crossed {
    /// Parts of the first.
    pub first_parts: f64,
    /// Parts of the second.
    pub second_parts: f64,
    /// The first, in the unit of the whole.
    pub first: f64,
    /// The second, in the unit of the whole.
    pub second: f64,
}

/// So much of `first` and `second`, in percent, that `whole` has the strength `target`. Which of the
/// two is the stronger does not matter; water is 0.
///
/// # Errors
/// If the target does not lie between the two, or a number cannot be.
pub fn cross(
    first: f64,
    second: f64,
    target: f64,
    whole: f64,
) -> Result<Figure<Crossed>, Impossible> {
    for strength in [first, second, target] {
        if !(0.0..=250.0).contains(&strength) {
            return Err(Impossible::new(format!(
                "a strength of {strength} % cannot be: it is 0 (water) to 250"
            )));
        }
    }
    let whole = some("a mixture", whole, "ml")?;
    let (low, high) = (first.min(second), first.max(second));
    if low >= high {
        return Err(Impossible::new(format!(
            "two solutions of {first} % mix to {first} % and to nothing else: give two strengths"
        )));
    }
    if !(low..=high).contains(&target) {
        return Err(Impossible::new(format!(
            "{target} % does not lie between {low} % and {high} %, and mixing two gives only what lies \
             between"
        )));
    }
    let (first_parts, second_parts) = ((target - second).abs(), (target - first).abs());
    let total = first_parts + second_parts;
    let value = Crossed {
        first_parts,
        second_parts,
        first: whole * first_parts / total,
        second: whole * second_parts / total,
    };
    let of = |strength: f64, other: f64, parts: f64| {
        Step::new(
            format!("of the {} %", four(strength)),
            Amount::number(parts, "parts", 3),
        )
        .working(format!("{} and {} differ", four(target), four(other)))
        .on(SQUARE)
    };
    Ok(Figure::new(value, SQUARE)
        .step(of(first, second, first_parts))
        .step(of(second, first, second_parts)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_target_outside_the_two_is_refused() {
        for (first, second, target) in [
            (10.0, 5.0, 11.0),
            (10.0, 5.0, 4.0),
            (5.0, 5.0, 5.0),
            (5.0, -1.0, 2.0),
            (f64::NAN, 1.0, 1.0),
        ] {
            assert!(
                cross(first, second, target, 100.0).is_err(),
                "{first} {second} {target}"
            );
        }
        assert!(cross(10.0, 0.0, 5.0, 0.0).is_err());
    }

    proptest! {
        #[test]
        fn crossing_is_symmetric_and_loses_no_solute(
            one in 0.0..100.0_f64, other in 0.0..100.0_f64, at in 0.0..=1.0_f64, ml in 1.0..5000.0_f64,
        ) {
            prop_assume!((one - other).abs() > 0.01);
            let (low, high) = (one.min(other), one.max(other));
            let target = (low + at * (high - low)).clamp(low, high);
            let there = cross(one, other, target, ml).unwrap().value;
            let back = cross(other, one, target, ml).unwrap().value;
            prop_assert!((there.first - back.second).abs() < 1e-6 * ml);
            prop_assert!((there.first + there.second - ml).abs() < 1e-6 * ml);
            let solute = there.first * one + there.second * other;
            prop_assert!((solute - ml * target).abs() < 1e-5 * ml);
        }
    }
}
