//! Light at the corners, and centre filters.

use notchbook::craft::Stops;
use notchbook::craft::optics::conjugates::number_at_film;
use notchbook::craft::optics::falloff::{
    across, angle_of, density, filter_by_factor, left_at, stops_at,
};

use super::{frame, mm, near};

/// visns.neocities.org, large format lens illumination. Published: the corner of a normal lens, at
/// 26.565 deg, keeps cos 0.894 and cos⁴ 0.64, a little under 2/3 stop.
#[test]
fn the_corner_of_a_normal_lens_loses_a_little_under_two_thirds() {
    near(26.565_f64.to_radians().cos(), 0.894, 0.0005);
    near(left_at(26.565), 0.64, 0.0005);
    let stops = stops_at(26.565);
    assert!(stops < 2.0 / 3.0 && stops > 0.6, "{stops}");
}

/// From cos⁴ (the same text): a quarter and two stops at 45 deg, exact.
#[test]
fn at_45_degrees_two_stops_are_lost() {
    near(left_at(45.0), 0.25, 1e-12);
    near(stops_at(45.0), 2.0, 1e-12);
}

/// Computed from cos⁴ for the extreme corner at infinity: focal length, diagonal, angle, what is left,
/// stops. The last four lines are 6x17 and 8x10.
#[test]
fn falloff_at_the_extreme_corner_follows_the_table() {
    let table = [
        (47.0, 153.67, 58.55, 0.0741, 3.75),
        (58.0, 153.67, 52.95, 0.1318, 2.92),
        (65.0, 153.67, 49.77, 0.174, 2.52),
        (72.0, 153.67, 46.86, 0.2186, 2.19),
        (75.0, 153.67, 45.69, 0.2381, 2.07),
        (90.0, 153.67, 40.49, 0.3346, 1.58),
        (110.0, 153.67, 34.93, 0.4517, 1.15),
        (120.0, 153.67, 32.63, 0.503, 0.99),
        (150.0, 153.67, 27.12, 0.6275, 0.67),
        (210.0, 153.67, 20.1, 0.7778, 0.36),
        (90.0, 177.1, 44.53, 0.2582, 1.95),
        (150.0, 312.5, 46.17, 0.23, 2.12),
        (210.0, 312.5, 36.65, 0.4143, 1.27),
        (300.0, 312.5, 27.51, 0.6188, 0.69),
    ];
    for (f, diagonal, angle, left, stops) in table {
        let found = angle_of(diagonal / 2.0, f);
        near(found, angle, 0.0051);
        near(left_at(found), left, 0.000_051);
        near(stops_at(found), stops, 0.0051);
    }
}

/// Derived: a 90 mm lens on 4x5 lying on its side, 20 mm of rise: 2.022 stops at the far corner, 1.248
/// at the near one; within 0.002.
#[test]
fn rise_darkens_one_pair_of_corners() {
    let found = across(frame(120.0, 96.0), mm(90.0), 0.0, 20.0, 0.0)
        .unwrap()
        .value;
    near(found.angle, 45.22, 0.005);
    near(found.far, 2.022, 0.002);
    near(found.near, 1.248, 0.002);
}

/// ALPA engraves centre filters with the exposure factor ("1.5", "2.5"; published); other literature
/// means stops. Derived: 1.5 stops are a factor of 2.828 and a density of 0.452; a factor of 1.5 is
/// 0.585 stop, one of 2.5 is 1.322. They must not be taken for each other.
#[test]
fn a_centre_filter_of_1_5_stops_is_not_one_of_factor_1_5() {
    let stops = Stops::parse("1.5").unwrap();
    near(stops.factor(), 2.828, 0.001);
    near(density(stops), 0.452, 0.001);
    near(filter_by_factor(1.5).unwrap().value(), 0.585, 0.001);
    near(filter_by_factor(2.5).unwrap().value(), 1.322, 0.001);
}

/// B+W and Schneider, exposure table. Published: density 0.3 is one stop and a factor of 2, 0.6 is 4,
/// 0.9 is 8; 70 percent transmission is half a stop.
#[test]
fn density_stops_and_factor_go_together() {
    for (factor, printed) in [(2.0, 0.3), (4.0, 0.6), (8.0, 0.9)] {
        near(density(Stops::from_factor(factor).unwrap()), printed, 0.005);
    }
    near(Stops::from_factor(1.0 / 0.7).unwrap().value(), 0.5, 0.02);
}

/// Derived: bellows at a quarter of life size and a centre filter of 1.5 stops are 2.144 stops
/// together, a factor of 4.419. Stops add, factors multiply.
#[test]
fn bellows_and_centre_filter_add_up_in_stops() {
    let bellows = number_at_film(1.0, 0.25, 1.0).powi(2);
    let total = bellows.log2() + 1.5;
    near(total, 2.144, 0.001);
    near(total.exp2(), 4.419, 0.001);
    near(bellows * 1.5_f64.exp2(), 4.419, 0.001);
}
