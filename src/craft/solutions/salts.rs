//! One salt for another: dry for crystals, potassium for sodium, by molar mass.
//!
//! `grams to weigh = grams in the formula x M(have) / M(specified)`, each mass for as much of what
//! works as the other holds. Tables of factors in books have misprints that matter (one gives twice
//! the hydroxide), so every factor is reckoned. Whether two salts stand in for each other at all is
//! said by the caller; two hydrates of one salt always do.

use super::molar::{WEIGHTS, mass, without_water};
use super::{four, grams, some};
use crate::craft::{Amount, Figure, Impossible, Step};

/// A salt as it is weighed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Salt<'a> {
    /// What it is called.
    pub name: &'a str,
    /// Its chemical formula.
    pub formula: &'a str,
    /// How much of what works one molecule holds: 2 for a metabisulfite, which is two of bisulfite.
    pub works: f64,
}

impl Salt<'_> {
    /// Grams for one measure of what works.
    fn mass(self) -> Result<f64, Impossible> {
        if !(self.works > 0.0 && self.works <= 100.0) {
            return Err(Impossible::new(format!(
                "{} cannot hold {} of what works: it is more than 0",
                self.name, self.works
            )));
        }
        Ok(mass(self.formula)? / self.works)
    }
}

/// Whether two formulas are the same salt with more or less water.
#[must_use]
pub fn same_but_for_water(one: &str, other: &str) -> bool {
    without_water(one).0 == without_water(other).0
}

/// What the grams of a formula are multiplied by.
///
/// # Errors
/// If a formula cannot be read.
pub fn factor(specified: Salt<'_>, have: Salt<'_>) -> Result<f64, Impossible> {
    Ok(have.mass()? / specified.mass()?)
}

/// The grams of `have` that do what `specified_grams` of `specified` do.
///
/// # Errors
/// If a formula cannot be read, or the grams cannot be.
pub fn convert(
    specified: Salt<'_>,
    have: Salt<'_>,
    specified_grams: f64,
) -> Result<Figure<f64>, Impossible> {
    let wanted = some("an amount", specified_grams, "g")?;
    let (from, to) = (specified.mass()?, have.mass()?);
    let factor = to / from;
    let value = wanted * factor;
    let molar = |salt: Salt<'_>, each: f64| {
        let working = if (salt.works - 1.0).abs() > f64::EPSILON {
            format!("{}, over {} that work", salt.formula, four(salt.works))
        } else {
            salt.formula.to_owned()
        };
        Step::new(salt.name.to_owned(), Amount::number(each, "g/mol", 3))
            .working(working)
            .on(WEIGHTS)
    };
    Ok(Figure::new(value, WEIGHTS)
        .step(molar(specified, from))
        .step(molar(have, to))
        .step(
            Step::new("factor", Amount::number(factor, "", 4))
                .working(format!("{to:.3} / {from:.3}")),
        )
        .step(
            Step::new("to weigh", grams(value))
                .working(format!("{} g x {factor:.4}", four(wanted))),
        ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const SALTS: [&str; 4] = ["Na2CO3", "Na2CO3.H2O", "Na2CO3.7H2O", "Na2CO3.10H2O"];

    fn salt(formula: &str) -> Salt<'_> {
        Salt {
            name: formula,
            formula,
            works: 1.0,
        }
    }

    #[test]
    fn hydrates_of_one_salt_are_known_and_other_salts_are_not() {
        assert!(same_but_for_water("Na2CO3", "Na2CO3.10H2O"));
        assert!(!same_but_for_water("Na2CO3", "K2CO3"));
    }

    #[test]
    fn what_cannot_be_weighed_is_refused() {
        for none in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(convert(salt("Na2CO3"), salt("Na2CO3.H2O"), none).is_err());
        }
        let idle = Salt {
            works: 0.0,
            ..salt("Na2CO3")
        };
        assert!(factor(idle, salt("Na2CO3")).is_err());
    }

    proptest! {
        #[test]
        fn there_and_back_is_the_same_and_more_water_weighs_more(
            from in 0..4_usize, to in 0..4_usize, weight in 0.01..1000.0_f64,
        ) {
            let (from, to) = (salt(SALTS[from]), salt(SALTS[to]));
            let there = convert(from, to, weight).unwrap().value;
            let back = convert(to, from, there).unwrap().value;
            prop_assert!((back - weight).abs() < 1e-9 * weight);
            let wetter = without_water(to.formula).1 > without_water(from.formula).1;
            prop_assert_eq!(there > weight * (1.0 + 1e-9), wetter);
        }
    }
}
