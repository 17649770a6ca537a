//! Speed by the exposure at the speed point, and its degrees.

use notchbook::craft::sensitometry::{degrees, nominal_speed, of_exposure};

use super::near;

/// ISO 6:1993. The pairs 320/26 and 400/27 are in Kodak F-9 (published), 100/21 and 125/22 in texts that
/// quote the standard (second-hand); that speed is 0.8 lx s over the exposure is from memory. Exact after
/// rounding.
#[test]
fn an_exposure_gives_the_speed_on_the_box() {
    for (lux_seconds, speed, rounded) in [
        (0.0080, 100, 21),
        (0.0064, 125, 22),
        (0.0025, 320, 26),
        (0.0020, 400, 27),
        (0.0320, 25, 15),
        (0.0010, 800, 30),
    ] {
        let found = nominal_speed(of_exposure(lux_seconds)).unwrap();
        assert_eq!((found.value(), found.degrees()), (speed, rounded));
    }
}

/// Computed from 1 + 10 log10 S: nominal speeds are not exact thirds. Tolerance 0.01.
#[test]
fn degrees_before_rounding_show_that_nominal_speeds_are_no_exact_thirds() {
    for (speed, computed) in [
        (25.0, 14.98),
        (50.0, 17.99),
        (100.0, 21.00),
        (125.0, 21.97),
        (160.0, 23.04),
        (200.0, 24.01),
        (320.0, 26.05),
        (400.0, 27.02),
        (800.0, 30.03),
    ] {
        near(degrees(speed), computed, 0.01);
    }
}

/// D. Kerr, openphotographyforums.com, thread 18490 (second-hand): the nominal series goes 16, 32, 64, 125
/// and 320, 640, 1250, 2500, where halving and doubling alone would print 31, 62 or 1280.
#[test]
fn nominal_speeds_are_those_of_the_trade() {
    for (exact, nominal) in [
        (15.6, 16),
        (31.25, 32),
        (62.5, 64),
        (128.0, 125),
        (640.0, 640),
        (1280.0, 1250),
        (2560.0, 2500),
    ] {
        assert_eq!(nominal_speed(exact).unwrap().value(), nominal);
    }
    assert_eq!(nominal_speed(1.0), None);
    assert_eq!(nominal_speed(20_000.0), None);
    assert_eq!(nominal_speed(f64::NAN), None);
}
