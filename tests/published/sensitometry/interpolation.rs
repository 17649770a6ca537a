//! The curve through readings and the least-squares line, against a general-purpose numerical library.

use notchbook::craft::sensitometry::{Joined, Through, straight};

use super::{curves, near};

/// Computed with PchipInterpolator of SciPy 1.17.1 through the constructed strip of 8 minutes. Tolerance
/// 1e-12.
#[test]
fn the_smooth_curve_is_that_of_scipy() {
    let curves = curves(Joined::Smooth);
    for (log_h, density) in [
        (-2.68, 0.131_988_148_148_148_16),
        (-2.5, 0.14),
        (-2.47, 0.14),
        (-2.0, 0.214_627_224_627_224_64),
        (-1.93, 0.237_349_512_906_846_25),
        (-1.7, 0.352_241_103_848_946_97),
        (-1.1, 0.717_056_530_214_424_8),
        (-0.33, 1.210_505_263_157_894_8),
        (0.0, 1.42),
        (0.29, 1.603_021_130_604_288_5),
    ] {
        near(curves[2].density(log_h).unwrap(), density, 1e-12);
    }
}

/// Computed with PchipInterpolator of SciPy 1.17.1 through points at uneven distances that also fall.
/// Tolerance 1e-12.
#[test]
fn uneven_and_falling_points_are_joined_as_by_scipy() {
    let points = [
        (0.0, 0.1),
        (0.1, 0.1),
        (0.35, 0.4),
        (0.5, 0.35),
        (1.1, 1.2),
        (1.2, 1.9),
    ];
    let curve = Through::new(&points, Joined::Smooth).unwrap();
    for (x, y) in [
        (0.05, 0.1),
        (0.2, 0.205_6),
        (0.3, 0.368_8),
        (0.4, 0.387_037_037_037_037),
        (0.45, 0.362_962_962_962_962_93),
        (0.7, 0.445_995_603_666_376_25),
        (1.0, 0.942_701_464_062_046_2),
        (1.15, 1.487_510_165_040_259_3),
        (1.19, 1.819_757_874_740_041),
    ] {
        near(curve.at(x).unwrap(), y, 1e-12);
    }
}

/// The slope of the least-squares line through the readings that were found straight, against linregress of
/// SciPy 1.17.1 through the 13 brightest steps, 0.635531; the straight part found may be a step or two
/// longer. Tolerance 0.01.
#[test]
fn gamma_is_the_slope_of_the_straight_part() {
    let found = straight(&curves(Joined::Smooth)[2]).unwrap().value;
    near(found.gamma, 0.635_531, 0.01);
    assert!(found.readings >= 13);
}
