//! Dilutions, chains and three parts.

use notchbook::craft::solutions::thinning::{chain, in_so_many, thin, written_with_a_colon};

use super::{ml, near, parts};

/// HC-110 dilution B: 1:7 of a stock that is 1:3 (B. Garrett, second-hand; the stock remembered), and
/// 1:31 of the concentrate (J. Burton, second-hand); exact. Read as one part in so many, the two do
/// not agree: 1/3 of 1/7 is 1/21.
#[test]
fn one_to_seven_of_one_to_three_is_one_to_thirty_one() {
    let share = chain(&[parts("1:3"), parts("1:7")]).unwrap().value;
    near(share, 1.0 / 32.0, 1e-12);
    near(share, thin(parts("1:31"), ml(1000.0)).value.share, 1e-12);
    let other = chain(&[
        in_so_many(parts("1:3")).unwrap(),
        in_so_many(parts("1:7")).unwrap(),
    ]);
    near(other.unwrap().value, 1.0 / 21.0, 1e-12);
}

/// HC-110 for a litre. A from stock 1:3 (second-hand); B second-hand; C to F and H remembered; millilitres
/// derived, within 0.01.
#[test]
fn concentrate_and_stock_for_a_litre_of_each_letter() {
    for (from_stock, from_concentrate, concentrate, stock) in [
        ("1:3", "1:15", 62.5, 250.0),
        ("1:7", "1:31", 31.25, 125.0),
        ("1:4", "1:19", 50.0, 200.0),
        ("1:9", "1:39", 25.0, 100.0),
        ("1:11", "1:47", 20.833, 83.333),
        ("1:19", "1:79", 12.5, 50.0),
        ("1:15", "1:63", 15.625, 62.5),
    ] {
        let litre = ml(1000.0);
        near(thin(parts(from_stock), litre).value.parts[0], stock, 0.01);
        near(
            thin(parts(from_concentrate), litre).value.parts[0],
            concentrate,
            0.01,
        );
        let chained = chain(&[parts("1:3"), parts(from_stock)]).unwrap().value;
        near(chained * 1000.0, concentrate, 0.01);
    }
}

/// TF-3 is used 1+4: lostlabours.co.uk (second-hand); exact.
#[test]
fn a_litre_of_tf_3_is_two_hundred_and_eight_hundred() {
    let portions = thin(parts("1+4"), ml(1000.0)).value.parts;
    assert_eq!(portions, [200.0, 800.0]);
}

/// Three parts, derived, within 0.01.
#[test]
fn one_and_one_and_a_hundred() {
    let portions = thin(parts("1+1+100"), ml(1000.0)).value.parts;
    near(portions[0], 9.80, 0.01);
    near(portions[1], 9.80, 0.01);
    near(portions[2], 980.39, 0.01);
}

/// A colon is noticed, so that 1:7 is never taken for one in seven without a word; and the plus is
/// taken as it stands.
#[test]
fn a_colon_is_noticed() {
    assert!(written_with_a_colon("1:7"));
    assert!(!written_with_a_colon("1+7"));
    near(thin(parts("1:7"), ml(800.0)).value.parts[0], 100.0, 1e-9);
    assert_eq!(in_so_many(parts("1:7")).unwrap().to_string(), "1+6");
}

/// Exact by definition: 29.5735295625 ml in a US fluid ounce, so 250 ml are 8.45 oz; within 0.01. Anchell
/// p. 329 has 8 oz, by a table of 31.25 ml an ounce, which is not reproduced.
#[test]
fn two_hundred_and_fifty_millilitres_are_not_eight_ounces() {
    let eight = notchbook::craft::Millilitres::parse("8 us fl oz").unwrap();
    let ounces = 250.0 / (eight.value() / 8.0);
    near(ounces, 8.45, 0.01);
    assert!((ounces - 8.0).abs() > 0.4);
}
