//! Percent solutions: grams in a finished volume, one volume in another, one weight in another.
//!
//! The three are not the same and no figure mixes them: a strength always comes with its [`Kind`].

use std::fmt;

use super::{four, grams, millilitres, some};
use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Step};

/// Making up to the final volume, and weakening what is on hand.
const ARMY: Grounds =
    Grounds::published("US Army Signal Center, subcourse SS0513, chemical mixing");

/// What a percentage is a share of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Grams in 100 ml of the finished solution.
    WeightInVolume,
    /// Grams in 100 g of the finished solution.
    ByWeight,
    /// Millilitres in 100 ml of the finished solution.
    ByVolume,
}

impl Kind {
    /// The unit of the solute.
    const fn solute(self) -> &'static str {
        match self {
            Kind::ByVolume => "ml",
            Kind::WeightInVolume | Kind::ByWeight => "g",
        }
    }

    /// The unit of the solution.
    const fn solution(self) -> &'static str {
        match self {
            Kind::ByWeight => "g",
            Kind::WeightInVolume | Kind::ByVolume => "ml",
        }
    }

    /// What the percent is of, for the reader.
    const fn says(self) -> &'static str {
        match self {
            Kind::WeightInVolume => {
                "w/v: grams in 100 ml of the finished solution, made up with water at the end"
            }
            Kind::ByWeight => {
                "w/w: grams in 100 g of the finished solution; all amounts are weighed"
            }
            Kind::ByVolume => "v/v: millilitres in 100 ml of the finished solution",
        }
    }

    /// So much of the solution.
    #[must_use]
    pub fn of_solution(self, amount: f64) -> Amount {
        if self == Kind::ByWeight {
            grams(amount)
        } else {
            millilitres(amount)
        }
    }

    /// So much of the solute.
    #[must_use]
    pub fn of_solute(self, amount: f64) -> Amount {
        if self == Kind::ByVolume {
            millilitres(amount)
        } else {
            grams(amount)
        }
    }
}

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Kind::WeightInVolume => "w/v",
            Kind::ByWeight => "w/w",
            Kind::ByVolume => "v/v",
        })
    }
}

/// Checks a strength in percent.
fn strength(percent: f64, kind: Kind) -> Result<f64, Impossible> {
    // Very soluble salts hold more than 100 g in 100 ml of solution.
    let most = if kind == Kind::WeightInVolume {
        250.0
    } else {
        100.0
    };
    if percent > 0.0 && percent <= most {
        return Ok(percent);
    }
    Err(Impossible::new(format!(
        "a strength of {percent} % {kind} cannot be: it is more than 0 and at most {most}"
    )))
}

/// The solute in `solution` (millilitres, or grams by weight) of this strength.
///
/// # Errors
/// If the strength or the amount cannot be.
pub fn to_make(percent: f64, solution: f64, kind: Kind) -> Result<Figure<f64>, Impossible> {
    let percent = strength(percent, kind)?;
    let solution = some("a solution", solution, kind.solution())?;
    let solute = percent / 100.0 * solution;
    let working = format!(
        "{} % of {} {}",
        four(percent),
        four(solution),
        kind.solution()
    );
    let step = Step::new("solute", kind.of_solute(solute))
        .working(working)
        .on(ARMY);
    Ok(Figure::new(solute, ARMY)
        .step(step)
        .remark(Concern::Note, kind.says()))
}

/// How much of a solution of this strength holds `solute`: `100 m / percent`.
///
/// # Errors
/// If the strength or the amount cannot be.
pub fn holding(solute: f64, percent: f64, kind: Kind) -> Result<Figure<f64>, Impossible> {
    let percent = strength(percent, kind)?;
    let solute = some("a solute", solute, kind.solute())?;
    let solution = some("a solution", 100.0 * solute / percent, kind.solution())?;
    let working = format!("100 x {} / {}", four(solute), four(percent));
    let step = Step::new("solution", kind.of_solution(solution))
        .working(working)
        .on(ARMY);
    Ok(Figure::new(solution, ARMY)
        .step(step)
        .remark(Concern::Note, kind.says()))
}

/// What is taken of the stronger and of water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weakened {
    /// Of what is on hand, in the unit of the solution.
    pub strong: f64,
    /// Of water, in the same unit.
    pub water: f64,
}

/// `solution` of strength `want` out of one of strength `have` and water: `C1 V1 = C2 V2`.
///
/// # Errors
/// If water would have to make it stronger, or a number cannot be.
pub fn weaken(
    have: f64,
    want: f64,
    solution: f64,
    kind: Kind,
) -> Result<Figure<Weakened>, Impossible> {
    let (have, want) = (strength(have, kind)?, strength(want, kind)?);
    let solution = some("a solution", solution, kind.solution())?;
    if want > have {
        return Err(Impossible::new(format!(
            "{want} % cannot be made of {have} % with water: take a stronger solution, or add the \
             solute"
        )));
    }
    let strong = solution * want / have;
    let water = solution - strong;
    let working = format!("{} x {} / {}", four(solution), four(want), four(have));
    Ok(Figure::new(Weakened { strong, water }, ARMY)
        .step(
            Step::new("on hand", kind.of_solution(strong))
                .working(working)
                .on(ARMY),
        )
        .step(Step::new("water", kind.of_solution(water)).working("made up to the whole"))
        .remark(Concern::Note, kind.says()))
}

/// The strength of a liquid mixed with water by parts of volume, both ways.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BothWays {
    /// Percent by volume.
    pub by_volume: f64,
    /// Percent by weight.
    pub by_weight: f64,
}

/// The strength that `parts` of a liquid (percent, density in g/ml) and `water` parts come to. The
/// little that the mixture shrinks is left out.
///
/// # Errors
/// If a number cannot be.
pub fn of_parts(
    percent: f64,
    density: f64,
    parts: f64,
    water: f64,
) -> Result<BothWays, Impossible> {
    let percent = strength(percent, Kind::ByVolume)?;
    let (parts, water) = (
        some("a part", parts, "parts")?,
        some("water", water, "parts")?,
    );
    if !(0.5..=3.0).contains(&density) {
        return Err(Impossible::new(format!(
            "a density of {density} g/ml cannot be: liquids here have 0.5 to 3, water 1"
        )));
    }
    let weight = parts * density;
    Ok(BothWays {
        by_volume: percent * parts / (parts + water),
        by_weight: percent * weight / (weight + water),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn water_makes_nothing_stronger() {
        let why = weaken(10.0, 28.0, 100.0, Kind::ByVolume)
            .unwrap_err()
            .to_string();
        assert!(why.contains("stronger solution"), "{why}");
    }

    #[test]
    fn what_is_no_strength_is_refused() {
        for none in [0.0, -1.0, 101.0, f64::NAN, f64::INFINITY] {
            assert!(to_make(none, 100.0, Kind::ByVolume).is_err(), "{none}");
            assert!(holding(1.0, none, Kind::ByWeight).is_err(), "{none}");
        }
        assert!(to_make(10.0, 0.0, Kind::WeightInVolume).is_err());
        assert!(of_parts(99.5, 0.0, 3.0, 8.0).is_err());
    }

    proptest! {
        #[test]
        fn no_solute_is_lost(have in 1.0..100.0_f64, part in 0.01..1.0_f64, ml in 1.0..5000.0_f64) {
            let want = have * part;
            let taken = weaken(have, want, ml, Kind::ByVolume).unwrap().value;
            prop_assert!((taken.strong + taken.water - ml).abs() < 1e-6);
            prop_assert!((taken.strong * have - ml * want).abs() < 1e-6 * ml * have);
        }

        #[test]
        fn what_is_made_holds_what_was_weighed(percent in 0.1..100.0_f64, ml in 1.0..5000.0_f64) {
            let solute = to_make(percent, ml, Kind::WeightInVolume).unwrap().value;
            let back = holding(solute, percent, Kind::WeightInVolume).unwrap().value;
            prop_assert!((back - ml).abs() < 1e-6 * ml);
        }
    }
}
