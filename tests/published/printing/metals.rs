//! Metal and iron solutions by percent and by moles.

use notchbook::craft::printing::metals::{
    Solution, as_strong, balance, from_chloride, matched, metal_held, molarity,
};
use notchbook::craft::solutions::molar::mass;

use super::near;

const OXALATE: &str = "Fe2(C2O4)3.6H2O";

const fn solution(formula: &'static str, percent: f64, volumes: f64) -> Solution<'static> {
    Solution {
        name: formula,
        formula,
        percent,
        volumes,
    }
}

/// IUPAC abridged standard atomic weights added up (derived), within 0.01; where a dictionary or a data sheet prints a mass, it
/// stands beside (published), within 0.02.
#[test]
fn the_masses_of_what_printers_weigh() {
    for (formula, added, printed) in [
        ("K2PtCl4", 415.08, None),
        ("K2PdCl4", 326.42, None),
        ("Na2PdCl4", 294.20, None),
        ("(NH4)2PdCl4", 284.30, None),
        ("Li2PdCl4", 262.10, None),
        ("(NH4)2PtCl4", 372.96, None),
        ("Na2PtCl6", 453.76, None),
        ("Na2PtCl6.6H2O", 561.85, None),
        ("K2PtCl6", 485.98, Some(485.99)),
        ("PdCl2", 177.32, Some(177.33)),
        ("PdCl2.2H2O", 213.35, None),
        ("Fe2(C2O4)3", 375.74, None),
        ("Fe2(C2O4)3.5H2O", 465.82, None),
        (OXALATE, 483.83, None),
        ("(NH4)3Fe(C2O4)3", 374.02, Some(374.02)),
        ("(NH4)3Fe(C2O4)3.3H2O", 428.06, None),
        ("AgNO3", 169.87, Some(169.87)),
        ("K3Fe(CN)6", 329.25, Some(329.25)),
        ("K2Cr2O7", 294.18, None),
        ("(NH4)2Cr2O7", 252.06, Some(252.07)),
        ("H2C2O4.2H2O", 126.06, Some(126.07)),
        ("KClO3", 122.55, None),
        ("NaCl", 58.44, None),
        ("LiCl", 42.39, None),
        ("NH4Cl", 53.49, None),
        ("KCl", 74.55, None),
        ("HAuCl4.3H2O", 393.82, Some(393.83)),
        ("K2C2O4.H2O", 184.23, None),
    ] {
        let reckoned = mass(formula).unwrap_or_else(|why| panic!("{why}"));
        near(reckoned, added, 0.011);
        if let Some(printed) = printed {
            near(reckoned, printed, 0.02);
        }
    }
}

/// J. D. Mathias, Optimized Formulas for Metal Solutions (published): one metal salt for one ferric oxalate. Strengths
/// derived from the masses, ferric oxalate with six of water; within 0.05.
#[test]
fn metal_solutions_that_match_a_ferric_oxalate() {
    for (iron, sodium, platinum, potassium, lithium) in [
        (20.0, 12.16, 17.16, 13.49, 10.83),
        (24.0, 14.59, 20.59, 16.19, 13.00),
        (27.0, 16.42, 23.16, 18.22, 14.63),
    ] {
        for (formula, expected) in [
            ("Na2PdCl4", sodium),
            ("K2PtCl4", platinum),
            ("K2PdCl4", potassium),
            ("Li2PdCl4", lithium),
        ] {
            let found = matched((formula, formula), solution(OXALATE, iron, 1.0), 2.0);
            near(found.unwrap().value, expected, 0.05);
        }
    }
}

/// Pizzighelli and Huebl's soft mix as printed in the "Photo" handbook (published): 240 grains of potassium
/// chloroplatinite in 3.5 ounces of water with 2.75 ounces of A, 120 grains of ferric oxalate to the ounce. Iron for one of
/// platinum derived, 2.36 within 0.05, the salt taken without its water of crystals; inside the
/// 1.8 to 3.0 that A. Gottlieb, 1995, quotes of them (second-hand).
#[test]
fn the_old_soft_mix_lies_inside_the_range_of_its_authors() {
    let grain = 0.064_798_91;
    let ounce = 28.4131;
    let platinum = 240.0 * grain / (3.5 * ounce) * 100.0;
    let iron = 120.0 * grain / ounce * 100.0;
    near(iron, 27.4, 0.1);
    let found = balance(
        solution("K2PtCl4", platinum, 3.5),
        solution(OXALATE, iron, 2.75),
    );
    near(found.unwrap().value.iron_per_metal, 2.36, 0.05);
}

/// A. Gottlieb, Journal of the American Institute for Conservation 34(1), 1995 (published): 9.5 g of palladium chloride
/// dihydrate with 8.3 g of sodium chloride. 3.19 molecules of one for the other (derived), within 0.02, and more
/// than the two that are needed.
#[test]
fn a_palladium_solution_has_salt_to_spare() {
    let ratio = 8.3 / mass("NaCl").unwrap() / (9.5 / mass("PdCl2.2H2O").unwrap());
    near(ratio, 3.19, 0.02);
    assert!(ratio > 2.0);
}

/// Two sodium chloride for one palladium chloride (derived): 12.05 and 7.95 g for 100 ml of 20 %, within 0.02;
/// 2.26 and 1.49 g for 25 ml of 15 %, 6.03 and 3.97 g for 100 ml of 10 %, within 0.01.
#[test]
fn palladium_stocks_from_their_chlorides() {
    for (percent, ml, palladium, salt, tolerance) in [
        (20.0, 100.0, 12.05, 7.95, 0.02),
        (15.0, 25.0, 2.26, 1.49, 0.01),
        (10.0, 100.0, 6.03, 3.97, 0.01),
    ] {
        let weighed = from_chloride(("Na2PdCl4", percent), "PdCl2", "NaCl", ml);
        let weighed = weighed.unwrap_or_else(|why| panic!("{why}")).value;
        near(weighed.chloride, palladium, tolerance);
        near(weighed.alkali, salt, tolerance);
    }
}

/// R. Sullivan, alt-photo-process list, 1998 (published): 23 ml of 10 % palladium chloride, 2.3 g, for 25 ml with lithium
/// chloride. 519 mmol/l, 13.6 % of the double salt, 1.10 g of lithium chloride (derived), within 1 mmol, 0.05 % and
/// 0.02 g.
#[test]
fn a_lithium_palladium_solution_of_a_supplier() {
    near(
        1000.0 * molarity("PdCl2", 2.3 / 25.0 * 100.0).unwrap(),
        519.0,
        1.0,
    );
    let weighed = from_chloride(("Li2PdCl4", 13.6), "PdCl2", "LiCl", 25.0).unwrap();
    near(weighed.value.chloride, 2.3, 0.02);
    near(weighed.value.alkali, 1.10, 0.02);
}

/// Derived: 20 % of potassium chloroplatinite is 481.8 mmol/l and as strong as 14.18 % of sodium chloropalladite; it holds
/// 9.40 g of platinum in 100 ml. Within 0.1, 0.01 and 0.01.
#[test]
fn palladium_stocks_stand_near_fifteen_percent_because_platinum_stands_at_twenty() {
    let platinum = solution("K2PtCl4", 20.0, 1.0);
    near(1000.0 * molarity("K2PtCl4", 20.0).unwrap(), 481.8, 0.1);
    near(
        as_strong(platinum, ("Na2PdCl4", "Na2PdCl4")).unwrap().value,
        14.18,
        0.01,
    );
    near(metal_held(platinum, 100.0).unwrap().1, 9.40, 0.01);
}

/// Derived: a drop of 0.05 ml of 5 % sodium chloroplatinate (without water) carries 1.07 mg of platinum, one of 20 %
/// 4.30 mg; within 0.05 mg.
#[test]
fn a_drop_of_chloroplatinate_carries_a_milligram_of_platinum() {
    for (percent, mg) in [(5.0, 1.07), (20.0, 4.30)] {
        let (symbol, grams) = metal_held(solution("Na2PtCl6", percent, 1.0), 0.05).unwrap();
        assert_eq!(symbol, "Pt");
        near(1000.0 * grams, mg, 0.05);
    }
}

/// Derived: ammonium ferric oxalate of 35 % is 818 mmol/l, of 40 % 934; within 1.
#[test]
fn ammonium_ferric_oxalate_in_moles() {
    for (percent, expected) in [(35.0, 818.0), (40.0, 934.0)] {
        near(
            1000.0 * molarity("(NH4)3Fe(C2O4)3.3H2O", percent).unwrap(),
            expected,
            1.0,
        );
    }
}

/// Derived from the masses: equal volumes of 3 % salt and 12 % silver nitrate leave 1.38 of silver for one of chloride, 2 % leave
/// 2.06; within 0.02. That 2.5 % of salt goes with 10 % of silver nitrate is E. Buffaloe's rule after
/// Reilly (published).
#[test]
fn silver_is_in_excess_of_the_salt() {
    let excess = |salt: f64, silver: f64| {
        molarity("AgNO3", silver).unwrap() / molarity("NaCl", salt).unwrap()
    };
    near(excess(3.0, 12.0), 1.38, 0.02);
    near(excess(2.0, 12.0), 2.06, 0.02);
    assert!(excess(2.5, 10.0) > 1.0);
}
