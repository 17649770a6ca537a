//! Dilution: so many parts of stock and so many of water.
//!
//! Written with a plus, 1+9 is one part and nine parts, ten in all. A colon is read by some as the same
//! and by some as one part in nine; [`written_with_a_colon`] notices it, so that the caller can ask or
//! show both. Kodak's colon means a plus: HC-110 dilution B is told as 1:7 of a stock that is 1:3, and
//! as 1:31 of the concentrate, and 1/4 of 1/8 is 1/32.

use super::{four, millilitres, some};
use crate::craft::{Dilution, Figure, Grounds, Impossible, Millilitres, Step};

/// What the parts of a dilution are.
const PARTS: Grounds = Grounds::usual();
/// Why a colon is a plus.
pub const COLON: Grounds = Grounds::published(
    "HC-110 dilution B as 1:7 from stock (B. Garrett, brucegarrett.com/brucelog/11326, second-hand) \
     and 1:31 from concentrate (J. Burton, Development Hardware and Chemistry, 2017, second-hand)",
);

/// The parts of a dilution in a volume.
#[derive(Debug, Clone, PartialEq)]
pub struct Portions {
    /// Millilitres of each part in the order written, the last of them water; one alone for stock.
    pub parts: Vec<f64>,
    /// The share that the first part has in the whole, 0 to 1.
    pub share: f64,
}

/// Whether a dilution was typed with a colon, which two people can read in two ways.
#[must_use]
pub fn written_with_a_colon(text: &str) -> bool {
    text.contains([':', '\u{ff1a}', '\u{2236}'])
}

/// What each part of `dilution` comes to in `volume` in all: `V part / sum of parts`.
#[must_use]
pub fn thin(dilution: Dilution, volume: Millilitres) -> Figure<Portions> {
    let written = dilution.parts();
    let total: f64 = written.iter().sum();
    let parts: Vec<f64> = written
        .iter()
        .map(|part| volume.value() * part / total)
        .collect();
    let share = written.first().map_or(1.0, |first| first / total);
    let last = parts.len().saturating_sub(1);
    let mut figure = Figure::new(Portions { parts, share }, PARTS);
    for (at, part) in written.iter().enumerate() {
        let ml = volume.value() * part / total;
        let name = if at == last && last > 0 {
            "water".to_owned()
        } else if last > 1 {
            format!("part {}", at + 1)
        } else {
            "stock".to_owned()
        };
        let working = format!(
            "{} ml x {} / {}",
            four(volume.value()),
            four(*part),
            four(total)
        );
        figure = figure.step(Step::new(name, millilitres(ml)).working(working));
    }
    figure
}

/// The same dilution read as one part in so many: 1:9 as 1+8.
///
/// # Errors
/// If it has not two parts, or the second is not larger than the first.
pub fn in_so_many(dilution: Dilution) -> Result<Dilution, Impossible> {
    match dilution.parts().as_slice() {
        [stock, whole] if whole > stock => {
            let text = format!("{}+{}", four(*stock), four(whole - stock));
            Ok(Dilution::parse(&text)?)
        }
        _ => Err(Impossible::new(format!(
            "{dilution} cannot be one part in so many: that needs two numbers, the second the larger"
        ))),
    }
}

/// What is left of the concentrate after one dilution upon another: the shares multiplied, from 0
/// to 1. `1+3` and then `1+7` of that is 1/32, as `1+31` at once.
///
/// # Errors
/// If one of them has more than two parts, or none is given.
pub fn chain(dilutions: &[Dilution]) -> Result<Figure<f64>, Impossible> {
    let mut share = 1.0;
    let mut steps = Vec::new();
    for dilution in dilutions {
        let parts = dilution.parts();
        let total: f64 = parts.iter().sum();
        let (Some(first), 1..=2) = (parts.first(), parts.len()) else {
            return Err(Impossible::new(format!(
                "{dilution} has more than two parts and cannot be one of a chain: give one part and \
                 water, such as 1+7"
            )));
        };
        share *= first / total;
        let working = format!("x {} / {}", four(*first), four(total));
        let so_far = crate::craft::Amount::number(1.0 / share, "parts in all", 3);
        steps.push(Step::new(dilution.to_string(), so_far).working(working));
    }
    if steps.is_empty() {
        return Err(Impossible::new(
            "a chain needs at least one dilution, such as 1+3",
        ));
    }
    let mut figure = Figure::new(share, PARTS);
    figure.steps = steps;
    Ok(figure)
}

/// The volume that so much stock makes at a dilution, in millilitres.
///
/// # Errors
/// If the stock is nothing or beyond what is reckoned.
pub fn made_of(stock_ml: f64, dilution: Dilution) -> Result<f64, Impossible> {
    let parts = dilution.parts();
    let total: f64 = parts.iter().sum();
    let first = parts.first().copied().unwrap_or(1.0);
    some(
        "a volume",
        some("stock", stock_ml, "ml")? * total / first,
        "ml",
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn stock_is_not_thinned() {
        let portions = thin(Dilution::STOCK, Millilitres::new(500.0).unwrap()).value;
        assert_eq!(portions.parts, [500.0]);
        assert!((portions.share - 1.0).abs() < 1e-12);
    }

    #[test]
    fn one_in_ten_is_one_and_nine() {
        let read = in_so_many(Dilution::parse("1:10").unwrap()).unwrap();
        assert_eq!(read.to_string(), "1+9");
        for none in ["1:1", "2:1", "1+1+100", "stock"] {
            assert!(
                in_so_many(Dilution::parse(none).unwrap()).is_err(),
                "{none}"
            );
        }
    }

    #[test]
    fn a_chain_of_three_parts_is_refused() {
        assert!(chain(&[Dilution::parse("1+1+100").unwrap()]).is_err());
        assert!(chain(&[]).is_err());
    }

    proptest! {
        #[test]
        fn parts_add_up_to_the_whole(
            parts in proptest::collection::vec(1..=200_u32, 2..=4), volume in 1.0..5000.0_f64,
        ) {
            let text: Vec<String> = parts.iter().map(u32::to_string).collect();
            let dilution = Dilution::parse(&text.join("+")).unwrap();
            let portions = thin(dilution, Millilitres::new(volume).unwrap()).value;
            let sum: f64 = portions.parts.iter().sum();
            prop_assert!((sum - volume).abs() < volume * 1e-9);
            let back = made_of(portions.parts[0], dilution).unwrap();
            prop_assert!((back - volume).abs() < volume * 1e-9);
        }

        #[test]
        fn two_dilutions_are_the_same_in_either_order(one in 1..100_u32, other in 1..100_u32) {
            let read = |n: u32| Dilution::parse(&format!("1+{n}")).unwrap();
            let there = chain(&[read(one), read(other)]).unwrap().value;
            let back = chain(&[read(other), read(one)]).unwrap().value;
            prop_assert!((there - back).abs() < 1e-15);
        }
    }
}
