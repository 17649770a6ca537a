//! Growth of contrast with time.

use notchbook::craft::sensitometry::Growth;

use super::{minutes, near};

/// C. E. K. Mees, "Zeitentwicklung", Jahrbuch für Photographie 25 (1911), pp. 167 and 170 (published law),
/// integrated (derived), with constructed numbers: contrast that ends at 1.20 and a rate of 0.095 per
/// minute give 0.639 in 8 minutes, and 0.60 in 7.30. Tolerances 0.002 and 0.01.
#[test]
fn contrast_grows_towards_its_end() {
    let law = Growth::new(1.20, 0.095).unwrap();
    near(law.gradient(minutes(8.0)), 0.639, 0.002);
    let time = law.time_for(0.60, None).unwrap().value;
    near(time.value() / 60.0, 7.30, 0.01);
}

/// The same law: a gradient of 1.25 lies beyond the end, and there is no time for it.
#[test]
fn a_gradient_beyond_the_end_has_no_time() {
    let law = Growth::new(1.20, 0.095).unwrap();
    for beyond in [1.20, 1.25] {
        let why = law.time_for(beyond, None).unwrap_err().to_string();
        assert!(why.contains("is never reached"), "{why}");
    }
}

/// Derived from the same law: gradients at a time and at twice the time give the end as
/// G1² / (2 G1 - G2). Tolerance 1e-6.
#[test]
fn two_runs_of_which_one_is_twice_the_other_give_the_end() {
    let (g1, g2) = (0.46, 0.71);
    let law = Growth::through((minutes(5.5), g1), (minutes(11.0), g2)).unwrap();
    near(law.value.limit, g1 * g1 / (2.0 * g1 - g2), 1e-6);
}
