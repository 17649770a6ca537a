//! Processes against the range of a negative.

use notchbook::craft::Density;
use notchbook::craft::printing::fit::{Negative, Placed, Verdict, place, verdict};
use notchbook::reference::Reference;

use super::near;

fn scales(process: &str) -> Vec<(f64, f64)> {
    let reference = Reference::built_in().unwrap_or_else(|why| panic!("{why}"));
    let process = reference
        .process(process)
        .unwrap_or_else(|| panic!("{process}"));
    process.scales().iter().map(|scale| scale.range).collect()
}

/// The exposure scale equals the density range that is wanted: S. King (published), with scales of palladium from 1.10 to
/// 1.80 by dichromate. A range of 1.50 fits.
#[test]
fn a_range_of_one_and_a_half_fits_palladium_with_dichromate() {
    let dichromate = scales("palladium")
        .into_iter()
        .find(|it| (it.0 - 1.1).abs() < 1e-9);
    assert_eq!(verdict(1.5, dichromate.unwrap()).unwrap(), Verdict::Fits);
}

/// Decisive Momentum, Cyanotype: an overview, 2011 (published): 1.35 to 1.4 washed out in water. A negative of 1.90 loses 0.50
/// (derived), exact, in the highlights if it is exposed for the shadows.
#[test]
fn a_negative_for_palladium_is_too_long_for_cyanotype() {
    let water = scales("cyanotype")[0];
    let Verdict::Lost(lost) = verdict(1.9, water).unwrap() else {
        panic!("it fits");
    };
    near(lost, 0.5, 1e-9);
    let density = |value| Density::new(value).unwrap();
    let negative = Negative::new(density(0.30), density(2.20)).unwrap();
    let placing = place(negative, water.1, Placed::Shadows).unwrap();
    near(placing.lost_in_white, 0.5, 1e-9);
    near(placing.lost_in_black, 0.0, 1e-9);
}

/// Decisive Momentum, Albumen prints: an overview, 2008 (published): 2.0 to 2.5. A negative of 1.20 prints flat by 0.80
/// (derived), exact.
#[test]
fn a_negative_for_silver_is_too_short_for_albumen() {
    let Verdict::Flat(flat) = verdict(1.2, scales("albumen")[0]).unwrap() else {
        panic!("it fits");
    };
    near(flat, 0.8, 1e-9);
}
