//! Control strips between limits.

use notchbook::craft::Standing;
use notchbook::craft::sensitometry::control::{Ending, Set, ending, limits, trend_grounds};

/// US Army Signal Center, subcourse SS0513, p. 71: five plots or more in one direction, high or low, are a
/// trend, even while all of them lie within the limits. Published; exact.
#[test]
fn five_plots_in_one_direction_are_a_trend_and_four_are_not() {
    let wide = Set {
        aim: Some(0.60),
        within: Some(0.10),
        first: None,
    };
    let limits = limits(&[], wide, 0.0, 2).expect("limits");
    let falling = [0.64, 0.63, 0.62, 0.61, 0.60];
    let trend = Ending::Trend {
        rising: false,
        since: 0,
    };
    assert_eq!(ending(&falling, &limits), Some(trend));
    assert_eq!(ending(&falling[1..], &limits), Some(Ending::Within));
    assert_eq!(trend_grounds().standing, Standing::Published);
}

/// Chart of individual measurements: mean ± 3 sigma, sigma being the mean moving range of two over d2, as in
/// the documentation of SAS/QC (SHEWHART) and JMP. d2 = 2/√π = 1.1284 is derived, so the limits lie 2.6587
/// mean moving ranges from the mean. Derived; tolerance 0.0001.
#[test]
fn limits_from_the_strips_lie_three_sigma_of_their_moving_range_from_the_mean() {
    let values = [0.60, 0.62, 0.59, 0.61, 0.60];
    let found = limits(&values, Set::default(), 0.0, 3).expect("limits");
    // Moving ranges 0.02, 0.03, 0.02, 0.01: 0.02 on the average.
    assert!((found.aim - 0.604).abs() < 1e-9);
    assert!((found.within - 2.6587 * 0.02).abs() < 1e-4);
}
