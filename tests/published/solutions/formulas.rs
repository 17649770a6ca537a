//! Formulas as they are told.

use notchbook::craft::solutions::weighing::Measure;
use notchbook::reference::{Reference, Standing};

use super::near;

fn grams(formula: &str) -> Vec<(String, f64)> {
    let reference = Reference::built_in().unwrap_or_else(|why| panic!("{why}"));
    let formula = reference.formula(formula);
    let formula = formula.unwrap_or_else(|| panic!("the formula is not there"));
    let ingredients = formula.ingredients.iter();
    ingredients
        .map(|one| (one.chemical.clone(), one.amount))
        .collect()
}

/// D-76: ora.it.com (second-hand, weak). ID-11: b-wtechnik.pp7.uk (second-hand). The two agree; exact.
#[test]
fn d_76_and_id_11_hold_the_same() {
    let sorted = |formula: &str| {
        let mut all = grams(formula);
        all.sort_by(|one, other| one.0.cmp(&other.0));
        all
    };
    assert_eq!(sorted("D-76"), sorted("ID-11"));
    assert_eq!(grams("D-76")[1], ("sodium-sulfite".to_owned(), 100.0));
}

/// D-72: metol, sulfite and hydroquinone from chestofbooks.com, Handicraft (second-hand), carbonate and bromide
/// remembered, and told so. The page's avoirdupois column has 2 1/4 oz of hydroquinone (64 g), a misprint that is not reproduced.
#[test]
fn d_72_says_which_of_its_numbers_are_from_memory() {
    let reference = Reference::built_in().unwrap();
    let formula = reference.formula("D-72").unwrap();
    let of = |id: &str| {
        formula
            .ingredients
            .iter()
            .find(|one| one.chemical == id)
            .unwrap()
    };
    assert_eq!(of("metol").standing, Standing::Published);
    assert_eq!(of("hydroquinone").amount, 12.0);
    assert_eq!(
        of("sodium-carbonate-anhydrous").standing,
        Standing::Remembered
    );
    assert_eq!(of("potassium-bromide").standing, Standing::Remembered);
}

/// Misprint: S. Anchell, The Darkroom Cookbook, 3rd ed., p. 268 (published), prints the sodium sulfate of SB-5 as
/// 45.0 ml. It is a powder and is weighed.
#[test]
fn the_sulfate_of_sb_5_is_weighed() {
    let reference = Reference::built_in().unwrap();
    let formula = reference.formula("SB-5").unwrap();
    let sulfate = &formula.ingredients[1];
    assert_eq!((sulfate.amount, sulfate.measure), (45.0, Measure::Grams));
}

/// P. N. Hasluck, The Book of Photography (published): ferricyanide 20 grains to the ounce, hypo 1 oz to 20 oz. Derived with imperial
/// ounces: 45.6 and 49.9 g a litre; within 0.1.
#[test]
fn farmers_reducer_in_grams_a_litre() {
    let (grain, ounce, fluid) = (0.064_798_91, 28.349_523, 28.413_062_5);
    near(
        20.0 * grain / fluid * 1000.0,
        grams("Farmer's reducer 1")[0].1,
        0.1,
    );
    near(
        ounce / (20.0 * fluid) * 1000.0,
        grams("Farmer's reducer 2")[0].1,
        0.1,
    );
}

/// What is from memory alone says so: D-23, Pyrocat-HD, PMK, SB-1, F-5, F-6.
#[test]
fn formulas_from_memory_are_marked() {
    let reference = Reference::built_in().unwrap();
    for name in [
        "D-23",
        "Pyrocat-HD A",
        "Pyrocat-HD B",
        "PMK A",
        "PMK B",
        "SB-1",
        "F-5",
        "F-6",
    ] {
        let formula = reference.formula(name).unwrap_or_else(|| panic!("{name}"));
        assert_eq!(formula.standing, Standing::Remembered, "{name}");
    }
}
