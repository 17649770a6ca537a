//! Metal salts and iron salts against each other: strengths in percent and in moles, how much iron for
//! how much metal, and the salts a stock is made of.
//!
//! Percent is by weight in volume, grams in 100 ml. Promises: atoms are counted from the chemical
//! formula of each salt, so that a salt with its water and one without give the same metal for the
//! same moles; a salt without iron is not taken for an iron salt, nor one without metal for a metal
//! salt.

use super::{four, within};
use crate::craft::solutions::molar::{WEIGHTS, atoms, mass};
use crate::craft::solutions::{grams, millilitres};
use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Step};

/// The metals of printing.
const METALS: [&str; 4] = ["Pt", "Pd", "Ag", "Au"];

/// One metal salt for one ferric oxalate: two atoms of iron for one of metal.
pub const ONE_TO_ONE: Grounds = Grounds::published(
    "J. D. Mathias, Guide to Platinum Palladium Photographic Printmaking, Optimized Formulas for Metal \
     Solutions",
);

/// From 1.8 to 3.0 parts of iron for one of metal.
pub const IRON_RANGE: Grounds = Grounds::published(
    "Pizzighelli and Huebl 1886 as told by A. Gottlieb, Journal of the American Institute for \
     Conservation 34(1), 1995, pp. 11-32: 1.8 to 3.0 parts of iron for one of platinum or palladium \
     (second-hand)",
);

/// The range itself.
const IRON: std::ops::RangeInclusive<f64> = 1.8..=3.0;

/// A salt in solution.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Solution<'a> {
    /// What it is called.
    pub name: &'a str,
    /// The chemical formula of what was weighed.
    pub formula: &'a str,
    /// Grams in 100 ml.
    pub percent: f64,
    /// Volumes of it, in any unit both solutions have in common; more than nothing.
    pub volumes: f64,
}

/// Moles in a litre: `10 percent / M`.
///
/// # Errors
/// If the formula cannot be read or the strength cannot be.
pub fn molarity(formula: &str, percent: f64) -> Result<f64, Impossible> {
    let percent = within("a strength", percent, 0.001..=250.0, "%")?;
    Ok(10.0 * percent / mass(formula)?)
}

/// Atoms of printing metal in one of these, with the symbol.
fn metal_in(name: &str, formula: &str) -> Result<(&'static str, f64), Impossible> {
    for metal in METALS {
        let count = atoms(metal, formula)?;
        if count > 0.0 {
            return Ok((metal, count));
        }
    }
    Err(Impossible::new(format!(
        "{name} ({formula}) holds no platinum, palladium, silver or gold: name a metal salt"
    )))
}

fn iron_in(name: &str, formula: &str) -> Result<f64, Impossible> {
    let count = atoms("Fe", formula)?;
    if count > 0.0 {
        return Ok(count);
    }
    Err(Impossible::new(format!(
        "{name} ({formula}) holds no iron: name an iron salt"
    )))
}

/// What two solutions hold against each other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Balance {
    /// Moles of the metal salt in a litre.
    pub metal: f64,
    /// Moles of the iron salt in a litre.
    pub iron: f64,
    /// Atoms of iron for one of metal, in the volumes given.
    pub iron_per_metal: f64,
}

/// How much iron there is for the metal when two solutions are mixed by their volumes.
///
/// # Errors
/// If a formula cannot be read, one salt holds no metal or the other no iron, or a number cannot be.
pub fn balance(metal: Solution<'_>, iron: Solution<'_>) -> Result<Figure<Balance>, Impossible> {
    let (symbol, metals) = metal_in(metal.name, metal.formula)?;
    let irons = iron_in(iron.name, iron.formula)?;
    let of_metal = molarity(metal.formula, metal.percent)?;
    let of_iron = molarity(iron.formula, iron.percent)?;
    let volumes = |solution: &Solution<'_>| {
        within("a share of a solution", solution.volumes, 0.001..=1e6, "")
    };
    let metal_atoms = of_metal * metals * volumes(&metal)?;
    let iron_atoms = of_iron * irons * volumes(&iron)?;
    let value = Balance {
        metal: of_metal,
        iron: of_iron,
        iron_per_metal: iron_atoms / metal_atoms,
    };
    let figure = Figure::new(value, WEIGHTS)
        .step(in_moles(&metal, of_metal)?)
        .step(in_moles(&iron, of_iron)?)
        .step(
            Step::new(
                format!("iron for one {symbol}"),
                Amount::measured(value.iron_per_metal, ""),
            )
            .working(format!(
                "{} x {} x {} / ({} x {} x {})",
                four(of_iron),
                four(irons),
                four(iron.volumes),
                four(of_metal),
                four(metals),
                four(metal.volumes)
            )),
        );
    Ok(if ["Pt", "Pd"].contains(&symbol) {
        judged(figure)
    } else {
        figure
    })
}

fn in_moles(solution: &Solution<'_>, moles: f64) -> Result<Step, Impossible> {
    let working = format!(
        "10 x {} / {} g/mol",
        four(solution.percent),
        four(mass(solution.formula)?)
    );
    let step = Step::new(
        solution.name.to_owned(),
        Amount::measured(1000.0 * moles, "mmol/l"),
    );
    Ok(step.working(working).on(WEIGHTS))
}

fn judged(figure: Figure<Balance>) -> Figure<Balance> {
    let found = figure.value.iron_per_metal;
    if IRON.contains(&found) {
        return figure.remark(
            Concern::Note,
            format!(
                "within 1.8 to 3.0 of iron for one of metal ({})",
                IRON_RANGE.source
            ),
        );
    }
    let which = if found < *IRON.start() {
        "little"
    } else {
        "much"
    };
    figure.remark(
        Concern::Warning,
        format!(
            "{which} iron for the metal: 1.8 to 3.0 for one is told ({})",
            IRON_RANGE.source
        ),
    )
}

/// The strength of a metal salt that has one molecule (of one atom of metal) for `per_metal` atoms of
/// iron in an equal volume of an iron solution; 2 for one ferric oxalate each.
///
/// # Errors
/// If a formula cannot be read or holds the wrong thing, or a number cannot be.
pub fn matched(
    metal: (&str, &str),
    iron: Solution<'_>,
    per_metal: f64,
) -> Result<Figure<f64>, Impossible> {
    let (name, formula) = metal;
    let (_, metals) = metal_in(name, formula)?;
    let irons = iron_in(iron.name, iron.formula)?;
    let per_metal = within("iron for one of metal", per_metal, 0.1..=20.0, "")?;
    let moles = molarity(iron.formula, iron.percent)? * irons / per_metal / metals;
    let percent = moles * mass(formula)? / 10.0;
    Ok(Figure::new(percent, ONE_TO_ONE)
        .step(in_moles(&iron, molarity(iron.formula, iron.percent)?)?)
        .step(
            Step::new(name.to_owned(), Amount::measured(percent, "%"))
                .working(format!(
                    "{} mmol/l x {} g/mol",
                    four(1000.0 * moles),
                    four(mass(formula)?)
                ))
                .on(WEIGHTS),
        )
        .within("equal volumes of the two solutions"))
}

/// A strength of one salt that holds as much metal as a strength of another.
///
/// # Errors
/// If a formula cannot be read or holds no metal, or a number cannot be.
pub fn as_strong(from: Solution<'_>, to: (&str, &str)) -> Result<Figure<f64>, Impossible> {
    let (_, of_from) = metal_in(from.name, from.formula)?;
    let (_, of_to) = metal_in(to.0, to.1)?;
    let moles = molarity(from.formula, from.percent)?;
    let percent = moles * of_from / of_to * mass(to.1)? / 10.0;
    Ok(Figure::new(percent, WEIGHTS)
        .step(in_moles(&from, moles)?)
        .step(
            Step::new(to.0.to_owned(), Amount::measured(percent, "%")).working(format!(
                "the same moles of metal, {} g/mol",
                four(mass(to.1)?)
            )),
        ))
}

/// Grams of metal in so many millilitres, with the symbol of the metal.
///
/// # Errors
/// If the formula cannot be read or holds no metal, or a number cannot be.
pub fn metal_held(solution: Solution<'_>, ml: f64) -> Result<(&'static str, f64), Impossible> {
    let (symbol, count) = metal_in(solution.name, solution.formula)?;
    let ml = within("a volume", ml, 0.001..=1e6, "ml")?;
    let moles = molarity(solution.formula, solution.percent)? * ml / 1000.0;
    Ok((symbol, moles * count * mass(symbol)?))
}

/// What a stock of a palladium double salt is weighed from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FromChloride {
    /// Grams of palladium chloride.
    pub chloride: f64,
    /// Grams of the alkali chloride, two molecules for one.
    pub alkali: f64,
}

/// The chlorides for `ml` of a palladium double salt of a strength in percent: one palladium chloride
/// and two of the alkali chloride make one of `salt`, as `PdCl2 + 2 NaCl = Na2PdCl4`.
///
/// # Errors
/// If a formula cannot be read, the chlorides do not add up to the salt, or a number cannot be.
pub fn from_chloride(
    salt: (&str, f64),
    chloride: &str,
    alkali: &str,
    ml: f64,
) -> Result<Figure<FromChloride>, Impossible> {
    let (formula, percent) = salt;
    let ml = within("a volume", ml, 0.1..=1e6, "ml")?;
    let moles = molarity(formula, percent)? * ml / 1000.0;
    let dry = crate::craft::solutions::molar::without_water(chloride).0;
    let sum = mass(&dry)? + 2.0 * mass(alkali)?;
    if (sum - mass(formula)?).abs() > 0.05 {
        return Err(Impossible::new(format!(
            "{chloride} and two of {alkali} do not make {formula}: name the chloride of the same alkali"
        )));
    }
    let value = FromChloride {
        chloride: moles * mass(chloride)?,
        alkali: 2.0 * moles * mass(alkali)?,
    };
    Ok(Figure::new(value, WEIGHTS)
        .step(
            Step::new("in the stock", Amount::measured(1000.0 * moles, "mmol")).working(format!(
                "{} % of {} ml, {} g/mol",
                four(percent),
                four(ml),
                four(mass(formula)?)
            )),
        )
        .step(Step::new(chloride.to_owned(), grams(value.chloride)).on(WEIGHTS))
        .step(
            Step::new(alkali.to_owned(), grams(value.alkali))
                .working("two for one")
                .on(ONE_TO_ONE),
        )
        .step(Step::new("water to", millilitres(ml))))
}

#[cfg(test)]
mod tests {
    use super::*;

    const fn solution(
        name: &'static str,
        formula: &'static str,
        percent: f64,
    ) -> Solution<'static> {
        Solution {
            name,
            formula,
            percent,
            volumes: 1.0,
        }
    }

    #[test]
    fn a_salt_that_holds_the_wrong_thing_is_refused() {
        let salt = solution("salt", "NaCl", 5.0);
        let iron = solution("ferric oxalate", "Fe2(C2O4)3", 27.0);
        let why = balance(salt, iron).unwrap_err().to_string();
        assert!(why.contains("holds no platinum"), "{why}");
        let metal = solution("palladium", "Na2PdCl4", 15.0);
        let why = balance(metal, salt).unwrap_err().to_string();
        assert!(why.contains("holds no iron"), "{why}");
        assert!(balance(solution("palladium", "Na2PdCl4", 0.0), iron).is_err());
        assert!(from_chloride(("K2PdCl4", 15.0), "PdCl2", "NaCl", 100.0).is_err());
    }

    #[test]
    fn water_of_crystals_is_weighed_and_counts_for_nothing() {
        let dry = from_chloride(("Na2PdCl4", 20.0), "PdCl2", "NaCl", 100.0).unwrap();
        let wet = from_chloride(("Na2PdCl4", 20.0), "PdCl2.2H2O", "NaCl", 100.0).unwrap();
        assert!((dry.value.alkali - wet.value.alkali).abs() < 1e-9);
        assert!(wet.value.chloride > dry.value.chloride);
    }
}
