//! A constructed family of curves, its measures and its times.

use notchbook::craft::Seconds;
use notchbook::craft::sensitometry::{
    Curve, Family, Joined, aim, gradient, index, nominal_speed, speed,
};

use super::{MINUTES, curves, minutes, near};

fn family(joined: Joined) -> Family {
    let times = MINUTES.iter().map(|it| minutes(*it));
    let curves: Vec<(Seconds, Curve)> = times.zip(curves(joined)).collect();
    Family::of(&curves).unwrap_or_else(|why| panic!("{why}"))
}

/// Constructed and derived: measures of the rounded table with its readings joined by straight lines. Log H
/// at the speed point to 0.001, speed to 0.5, gradients and contrast index to 0.005.
#[test]
fn measures_of_the_rounded_table_joined_by_straight_lines() {
    for (curve, (fog, log_h, iso, rise, bar, ci)) in curves(Joined::Straight).iter().zip([
        (0.12, -1.650, 35.7, 0.480, 0.373, 0.365),
        (0.12, -1.830, 54.1, 0.593, 0.463, 0.461),
        (0.13, -1.950, 71.3, 0.777, 0.600, 0.606),
        (0.15, -2.057, 91.2, 0.914, 0.714, 0.724),
        (0.17, -2.175, 119.7, 1.073, 0.840, 0.868),
    ]) {
        near(curve.base_fog, fog, 1e-12);
        let found = speed(curve).unwrap().value;
        near(found.log_h, log_h, 0.001);
        near(found.speed.unwrap(), iso, 0.5);
        near(found.rise.unwrap(), rise, 0.005);
        near(gradient(curve).unwrap().value, bar, 0.005);
        near(index(curve).unwrap().value, ci, 0.005);
    }
}

/// Constructed and derived: the same measures of the formula before it was rounded. Two places in the
/// readings cost up to 0.03 in log H (0.1 stop) and 0.01 in gradient, so no more is asked of the smooth
/// curve.
#[test]
fn the_smooth_curve_comes_as_near_to_the_formula_as_the_readings_allow() {
    for (curve, (log_h, rise, bar, ci)) in curves(Joined::Smooth).iter().zip([
        (-1.679, 0.475, 0.367, 0.363),
        (-1.815, 0.601, 0.466, 0.465),
        (-1.956, 0.768, 0.597, 0.604),
        (-2.063, 0.917, 0.715, 0.729),
        (-2.173, 1.083, 0.847, 0.869),
    ]) {
        let found = speed(curve).unwrap().value;
        near(found.log_h, log_h, 0.03);
        near(found.rise.unwrap(), rise, 0.015);
        near(gradient(curve).unwrap().value, bar, 0.01);
        near(index(curve).unwrap().value, ci, 0.01);
    }
}

/// ISO 6:1993 as three texts quote it (second-hand): 0.80 over 1.30; that 0.05 is allowed is from memory. Of
/// the constructed strips that of 8 minutes alone meets it; the others are told in words.
#[test]
fn a_speed_is_an_iso_speed_only_at_the_contrast_of_the_standard() {
    let as_iso: Vec<bool> = curves(Joined::Smooth)
        .iter()
        .map(|curve| speed(curve).unwrap().value.as_iso)
        .collect();
    assert_eq!(as_iso, [false, false, true, false, false]);
    for (curve, says) in curves(Joined::Smooth)
        .iter()
        .zip(["more", "more", "", "less", "less"])
    {
        let figure = speed(curve).unwrap();
        match figure.remarks.first() {
            None => assert_eq!(says, ""),
            Some(remark) => {
                let wanted = format!("so {says} development gives the ISO speed");
                assert!(remark.words.contains(&wanted), "{}", remark.words);
            }
        }
    }
}

/// Constructed and derived: targets for a density range of 1.05 and a flare of 0.40 over subjects of 2.5,
/// 2.2 and 1.9, and the times and speeds read from the family. Targets to 0.001, times to 0.05 min, speeds
/// to 1.
#[test]
fn times_for_n_minus_and_n_plus_are_read_from_the_family() {
    let family = family(Joined::Straight);
    for (zones, target, minutes, effective) in [
        (-1, 0.500, 6.09, 58.0),
        (0, 0.583, 7.64, 69.0),
        (1, 0.700, 10.57, 88.0),
    ] {
        let aim = aim(zones, 1.05, 2.20, 0.40).unwrap().value;
        near(aim.gradient, target, 0.001);
        let reached = family.time_for(aim.gradient, 0.01).unwrap().value;
        near(reached.time.value() / 60.0, minutes, 0.05);
        near(reached.speed.unwrap(), effective, 1.0);
        assert!(reached.from.value() < reached.time.value());
        assert!(reached.to.value() > reached.time.value());
    }
}

/// Derived from range / (subject - flare): the whole table for subjects of 2.8 to 1.6. 1.05 and 2.20 are S.
/// Benskin's on apug.org (second-hand), flare of 0.40 is remembered. Tolerance 0.001.
#[test]
fn target_gradients_for_five_subjects_and_six_ranges() {
    for (zones, targets) in [
        (-2, [0.438, 0.375, 0.429, 0.333, 0.571, 0.643]),
        (-1, [0.500, 0.420, 0.480, 0.381, 0.640, 0.720]),
        (0, [0.583, 0.477, 0.545, 0.444, 0.727, 0.818]),
        (1, [0.700, 0.553, 0.632, 0.533, 0.842, 0.947]),
        (2, [0.875, 0.656, 0.750, 0.667, 1.000, 1.125]),
    ] {
        let parts = [
            (1.05, 0.40),
            (1.05, 0.0),
            (1.20, 0.0),
            (0.80, 0.40),
            (1.60, 0.0),
            (1.80, 0.0),
        ];
        for ((range, flare), target) in parts.into_iter().zip(targets) {
            near(
                aim(zones, range, 2.20, flare).unwrap().value.gradient,
                target,
                0.001,
            );
        }
    }
}

/// Constructed and derived: the family has the contrast of ISO 6 at 8.44 minutes with a speed of 74, whose
/// nearest nominal speed is 80 and not 64. Tolerances 0.05 min and 1.
#[test]
fn the_contrast_of_the_standard_is_read_from_the_family() {
    let reached = family(Joined::Straight).iso(0.01).unwrap().value;
    near(reached.time.value() / 60.0, 8.44, 0.05);
    let found = reached.speed.unwrap();
    near(found, 74.0, 1.0);
    assert_eq!(nominal_speed(found).unwrap().value(), 80);
}

/// Constructed: N+2 (0.875) lies beyond 16 minutes, and a gradient of 0.30 below 4; neither gets a time.
/// N-2 (0.438) lies between 4 and 5.5 minutes and gets one.
#[test]
fn no_time_is_guessed_beyond_the_family() {
    for joined in [Joined::Straight, Joined::Smooth] {
        let family = family(joined);
        let why = family.time_for(0.875, 0.01).unwrap_err().to_string();
        assert!(why.contains("needs a longer time than any"), "{why}");
        let why = family.time_for(0.30, 0.01).unwrap_err().to_string();
        assert!(why.contains("needs a shorter time than any"), "{why}");
        let short = family.time_for(0.438, 0.01).unwrap().value.time.value() / 60.0;
        assert!((4.0..5.5).contains(&short), "{short}");
    }
}
