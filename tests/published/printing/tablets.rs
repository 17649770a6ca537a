//! Step tablets on paper.

use notchbook::craft::printing::scale::{Printed, moved_black, standard};
use notchbook::craft::sensitometry::Tablet;

use super::{near, time};

fn factor(from: usize, to: usize) -> f64 {
    let tablet = Tablet::nominal(21).unwrap_or_else(|why| panic!("{why}"));
    let moved = moved_black(&tablet, time("10 min"), from, to);
    moved.unwrap_or_else(|why| panic!("{why}")).value.value() / 600.0
}

/// Ulano, Exposure math for Stouffer transmission gray scale (published): one step more takes 1.414 times as long, two
/// 2.00, three 2.83 ("about 3"), four 4.00, printed 3.99758; within 0.01, 0.01, 0.02, 0.02. Steps of 0.15 exactly give 1.4125 to
/// 3.981 (derived).
#[test]
fn more_black_steps_take_longer() {
    near(factor(3, 4), 1.414, 0.01);
    near(factor(3, 5), 2.00, 0.01);
    near(factor(3, 6), 2.83, 0.02);
    near(factor(3, 7), 4.00, 0.02);
    for (steps, strict) in [(1, 1.4125), (2, 1.9953), (3, 2.8184), (4, 3.9811)] {
        near(factor(3, 3 + steps), strict, 0.0001);
    }
}

/// Derived: six steps fewer take an eighth; within 1 %.
#[test]
fn six_steps_fewer_take_an_eighth() {
    near(factor(9, 3), 0.125, 0.001_25);
}

/// Derived: ten minutes that print step 3 black are five minutes for step 1, where two steps are a stop;
/// within 1 s of steps of 0.15.
#[test]
fn the_standard_printing_time_of_a_third_black_step_is_half() {
    let tablet = Tablet::nominal(21).unwrap();
    let printed = Printed {
        time: time("10 min"),
        black: 3,
        white: Some(13),
    };
    let found = standard(&tablet, printed).unwrap().value;
    near(found.clear.value(), 300.0, 1.0);
    near(found.scale.unwrap(), 1.50, 1e-9);
}

/// US Navy, Photography (Basic) NAVEDTRA 14209, p. 10-40 (published): 0.05 to 3.05 in 21 steps of half a stop,
/// 11 of a stop. Twenty intervals (derived), exact. A tablet of 31 steps of 0.10 is from memory.
#[test]
fn tablets_go_from_five_hundredths_to_three_and_five() {
    for (steps, apart) in [(21, 0.15), (11, 0.30), (31, 0.10)] {
        let tablet = Tablet::nominal(steps).unwrap();
        near(tablet.density(1).unwrap(), 0.05, 1e-9);
        near(tablet.density(steps).unwrap(), 3.05, 1e-9);
        near((3.05 - 0.05) / apart, (steps - 1) as f64, 1e-9);
    }
}

/// Derived: a scale of 1.50 is ten steps of 0.15 from the last black to the first white, exact.
#[test]
fn a_scale_is_counted_in_steps() {
    let tablet = Tablet::nominal(21).unwrap();
    for black in 1..=11 {
        let printed = Printed {
            time: time("6 min"),
            black,
            white: Some(black + 10),
        };
        near(
            standard(&tablet, printed).unwrap().value.scale.unwrap(),
            1.5,
            1e-9,
        );
    }
}
