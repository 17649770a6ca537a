//! A formula weighed out for another volume than it is printed for.
//!
//! Every amount is multiplied by the same factor, so the ratios stay what they were. What is measured
//! in millilitres stays so.

use super::{four, grams, millilitres, some};
use crate::craft::{Amount, Figure, Grounds, Impossible, Millilitres, Step};

/// In what an ingredient is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// Weighed.
    Grams,
    /// Measured as a liquid.
    Millilitres,
}

impl Measure {
    /// So much of it.
    #[must_use]
    pub fn amount(self, value: f64) -> Amount {
        match self {
            Measure::Grams => grams(value),
            Measure::Millilitres => millilitres(value),
        }
    }
}

/// `amount` of a formula that makes `makes`, for `volume`.
///
/// # Errors
/// If the amount is nothing, or comes to more than is reckoned.
pub fn scaled(
    name: &str,
    amount: f64,
    measure: Measure,
    makes: Millilitres,
    volume: Millilitres,
    grounds: Grounds,
) -> Result<Figure<f64>, Impossible> {
    let printed = some(name, amount, unit(measure))?;
    let value = some(
        name,
        printed * volume.value() / makes.value(),
        unit(measure),
    )?;
    let working = format!(
        "{} {} x {} / {} ml",
        four(printed),
        unit(measure),
        four(volume.value()),
        four(makes.value())
    );
    let step = Step::new(name.to_owned(), measure.amount(value))
        .working(working)
        .on(grounds.clone());
    Ok(Figure::new(value, grounds).step(step))
}

const fn unit(measure: Measure) -> &'static str {
    match measure {
        Measure::Grams => "g",
        Measure::Millilitres => "ml",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn scaling_keeps_ratios(
            one in 0.1..500.0_f64, other in 0.1..500.0_f64, ml in 10.0..10_000.0_f64,
        ) {
            let litre = Millilitres::new(1000.0).unwrap();
            let volume = Millilitres::new(ml).unwrap();
            let of = |amount: f64| {
                scaled("salt", amount, Measure::Grams, litre, volume, Grounds::usual()).unwrap().value
            };
            prop_assert!((of(one) / of(other) - one / other).abs() < 1e-9 * one / other);
            prop_assert!((of(one) - one * ml / 1000.0).abs() < 1e-9 * one * ml);
        }
    }
}
