//! Molar masses, added up from the atoms that a chemical formula names.
//!
//! The weights are those that IUPAC publishes, abridged to five figures. Promises: a formula is read
//! whole or not at all; an element that is not in the table is named and no mass is guessed.

use crate::craft::{Grounds, Impossible};

/// The weights.
pub const WEIGHTS: Grounds = Grounds::published(
    "IUPAC Commission on Isotopic Abundances and Atomic Weights, abridged standard atomic weights",
);

/// Abridged standard atomic weights of the elements that photographers weigh.
const ATOMS: &[(&str, f64)] = &[
    ("H", 1.008),
    ("Li", 6.94),
    ("B", 10.81),
    ("C", 12.011),
    ("N", 14.007),
    ("O", 15.999),
    ("F", 18.998),
    ("Na", 22.990),
    ("Mg", 24.305),
    ("Al", 26.982),
    ("P", 30.974),
    ("S", 32.06),
    ("Cl", 35.45),
    ("K", 39.098),
    ("Ca", 40.078),
    ("Cr", 51.996),
    ("Mn", 54.938),
    ("Fe", 55.845),
    ("Cu", 63.546),
    ("Zn", 65.38),
    ("Se", 78.971),
    ("Br", 79.904),
    ("Pd", 106.42),
    ("Ag", 107.87),
    ("I", 126.90),
    ("Ce", 140.12),
    ("Pt", 195.08),
    ("Au", 196.97),
];

/// The longest formula that is read, in bytes.
const LONGEST: usize = 60;

/// The mass of a mole in grams: `Na2CO3.10H2O`, `(NH4)2S2O3`, `CH3COOH`.
///
/// # Errors
/// If the text is no chemical formula, or names an element that is not in the table.
pub fn mass(formula: &str) -> Result<f64, Impossible> {
    read(formula, None)
}

/// How many atoms of an element one molecule holds: 2 of iron in `Fe2(C2O4)3.6H2O`.
///
/// # Errors
/// If the text is no chemical formula, or names an element that is not in the table.
pub fn atoms(symbol: &str, formula: &str) -> Result<f64, Impossible> {
    read(formula, Some(symbol))
}

/// Adds up a formula: its weights, or the atoms of one element.
fn read(formula: &str, counted: Option<&str>) -> Result<f64, Impossible> {
    let unread = || {
        Impossible::new(format!(
            "\"{formula}\" is no chemical formula: write Na2CO3.H2O or (NH4)2S2O3"
        ))
    };
    let plain = formula.trim().replace(['\u{b7}', '\u{2022}', '*'], ".");
    if plain.is_empty() || plain.len() > LONGEST {
        return Err(unread());
    }
    let mut sum = 0.0;
    for part in plain.split('.') {
        let mut atoms = Atoms {
            rest: part,
            counted,
        };
        let times = atoms.count().ok_or_else(unread)?;
        let mass = atoms.group(0)?.ok_or_else(unread)?;
        if !atoms.rest.is_empty() {
            return Err(unread());
        }
        sum += times * mass;
    }
    Ok(sum)
}

/// Splits the water of crystals from a formula: `Na2CO3.10H2O` into `Na2CO3` and 10.
#[must_use]
pub fn without_water(formula: &str) -> (String, f64) {
    let plain = formula.trim().replace(['\u{b7}', '\u{2022}', '*'], ".");
    if let Some((salt, water)) = plain.rsplit_once('.')
        && let Some(count) = water.strip_suffix("H2O")
    {
        let molecules = if count.is_empty() {
            Ok(1.0)
        } else {
            count.parse::<f64>()
        };
        if let Ok(molecules) = molecules {
            return (salt.to_owned(), molecules);
        }
    }
    (plain, 0.0)
}

/// What is still to be read of a formula.
struct Atoms<'t> {
    rest: &'t str,
    /// The element whose atoms are counted; nothing to add up weights.
    counted: Option<&'t str>,
}

impl Atoms<'_> {
    /// A count, 1 where none is written; nothing for a count of 0 or one without end.
    fn count(&mut self) -> Option<f64> {
        let digits = self.rest.bytes().take_while(u8::is_ascii_digit).count();
        let (number, rest) = self.rest.split_at_checked(digits)?;
        self.rest = rest;
        if digits == 0 {
            return Some(1.0);
        }
        let count: u16 = number.parse().ok()?;
        (count > 0).then_some(f64::from(count))
    }

    /// Everything up to the end or a closing bracket; nothing if that is no formula.
    fn group(&mut self, depth: u8) -> Result<Option<f64>, Impossible> {
        let (mut sum, mut any) = (0.0, false);
        while let Some(first) = self.rest.chars().next() {
            let mass = if first == '(' && depth < 4 {
                self.rest = self.rest.get(1..).unwrap_or("");
                let Some(inner) = self.group(depth + 1)? else {
                    return Ok(None);
                };
                let Some(rest) = self.rest.strip_prefix(')') else {
                    return Ok(None);
                };
                self.rest = rest;
                inner
            } else if first.is_ascii_uppercase() {
                self.atom()?
            } else {
                break;
            };
            let Some(count) = self.count() else {
                return Ok(None);
            };
            sum += mass * count;
            any = true;
        }
        Ok(any.then_some(sum))
    }

    /// The weight of the element that comes next.
    fn atom(&mut self) -> Result<f64, Impossible> {
        let small = self
            .rest
            .bytes()
            .skip(1)
            .take_while(u8::is_ascii_lowercase)
            .count();
        let (symbol, rest) = self
            .rest
            .split_at_checked(1 + small)
            .unwrap_or((self.rest, ""));
        let known = ATOMS.iter().find(|(element, _)| *element == symbol);
        let Some((_, weight)) = known else {
            return Err(Impossible::new(format!(
                "no atomic weight of \"{symbol}\" is at hand: check the formula, in which NaCO is \
                 sodium, carbon, oxygen"
            )));
        };
        self.rest = rest;
        Ok(match self.counted {
            Some(counted) if counted == symbol => 1.0,
            Some(_) => 0.0,
            None => *weight,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_is_no_formula_is_refused() {
        for text in [
            "",
            "soda",
            "Na2(CO3",
            "Na2CO3)",
            "Na0",
            "2",
            ".H2O",
            "H2O.",
            "na2co3",
            "Xx",
            "H99999",
            "((((((H))))))",
            "H2O3é",
        ] {
            assert!(mass(text).is_err(), "{text}");
        }
    }

    #[test]
    fn the_water_of_crystals_is_split_off() {
        assert_eq!(without_water("Na2CO3.10H2O"), ("Na2CO3".to_owned(), 10.0));
        assert_eq!(without_water("Na2CO3\u{b7}H2O"), ("Na2CO3".to_owned(), 1.0));
        assert_eq!(without_water("H2O"), ("H2O".to_owned(), 0.0));
    }

    #[test]
    fn atoms_are_counted_through_brackets_and_crystals() {
        for (symbol, formula, count) in [
            ("Fe", "Fe2(C2O4)3.6H2O", 2.0),
            ("C", "Fe2(C2O4)3.6H2O", 6.0),
            ("O", "Fe2(C2O4)3.6H2O", 18.0),
            ("Pd", "Na2PdCl4", 1.0),
            ("Pt", "Na2PdCl4", 0.0),
        ] {
            assert_eq!(atoms(symbol, formula).unwrap(), count, "{symbol} {formula}");
        }
    }

    proptest! {
        #[test]
        fn no_text_makes_the_reader_panic(text in "[A-Za-z0-9().é·]{0,30}") {
            if let Ok(mass) = mass(&text) {
                prop_assert!(mass.is_finite() && mass > 0.0);
                prop_assert!(atoms("Fe", &text).unwrap() >= 0.0);
            }
        }

        #[test]
        fn water_adds_its_own_mass(molecules in 1..20_u16) {
            let dry = mass("Na2CO3").unwrap();
            let wet = mass(&format!("Na2CO3.{molecules}H2O")).unwrap();
            prop_assert!((wet - dry - f64::from(molecules) * mass("H2O").unwrap()).abs() < 1e-9);
        }
    }
}
