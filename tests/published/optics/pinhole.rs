//! Pinholes.

use notchbook::craft::Seconds;
use notchbook::craft::optics::Distance;
use notchbook::craft::optics::pinhole::{GREEN, Rule, diameter, number, time};

use super::{INCH, mm, near, off};

fn hole(rule: Rule, draw: f64, nanometres: f64) -> f64 {
    let found = diameter(rule, mm(draw), Distance::INFINITY, nanometres);
    found.unwrap_or_else(|why| panic!("{why}")).value
}

/// T. Roelandts, tomroelandts.com. Published: 49 mm, 550 nm, Rayleigh's rule give 0.31 mm, and a hole
/// of 0.3 mm is f/163. 0.312 and 163.3: computed.
#[test]
fn the_printed_hole_for_49_mm_by_rayleighs_rule() {
    near(hole(Rule::Rayleigh, 49.0, GREEN), 0.312, 0.003);
    near(number(mm(49.0), mm(0.3)).unwrap(), 163.3, 0.5);
}

/// Sundial mailing list 3135. Published: 100 mm and 550 nm give .366 mm where the hole is as wide as
/// the disc it makes; within 0.0005 mm.
#[test]
fn the_printed_hole_for_100_mm_by_the_airy_rule() {
    near(hole(Rule::Airy, 100.0, GREEN), 0.3663, 0.0005);
}

/// G. Penate, pinhole discussion list, 11 March 2002. Published: 0.03679 √f for millimetres and
/// 0.0073 √f for inches at 555 nm; sundial mailing list 3135: .0000528 f for the square in inches at
/// 550 nm. Within 1e-5.
#[test]
fn the_printed_constants_are_those_of_the_airy_rule() {
    near(hole(Rule::Airy, 1.0, 555.0), 0.03679, 1e-5);
    near(hole(Rule::Airy, INCH, 555.0) / INCH, 0.0073, 1e-5);
    near(
        (hole(Rule::Airy, INCH, GREEN) / INCH).powi(2),
        0.000_052_8,
        1e-7,
    );
}

/// Computed at 550 nm: distance, then the hole in mm and the f-number by Petzval (remembered), Airy,
/// Rayleigh and Young.
#[test]
fn holes_and_f_numbers_follow_the_table() {
    let table = [
        (
            50.0,
            [0.235, 0.259, 0.315, 0.332],
            [213.0, 193.0, 159.0, 151.0],
        ),
        (
            75.0,
            [0.287, 0.317, 0.386, 0.406],
            [261.0, 236.0, 194.0, 185.0],
        ),
        (
            90.0,
            [0.315, 0.348, 0.423, 0.445],
            [286.0, 259.0, 213.0, 202.0],
        ),
        (
            100.0,
            [0.332, 0.366, 0.446, 0.469],
            [302.0, 273.0, 224.0, 213.0],
        ),
        (
            150.0,
            [0.406, 0.449, 0.546, 0.574],
            [369.0, 334.0, 275.0, 261.0],
        ),
        (
            200.0,
            [0.469, 0.518, 0.63, 0.663],
            [426.0, 386.0, 317.0, 302.0],
        ),
        (
            300.0,
            [0.574, 0.635, 0.772, 0.812],
            [522.0, 473.0, 389.0, 369.0],
        ),
    ];
    for (draw, holes, numbers) in table {
        for ((rule, expected), f_number) in Rule::ALL.iter().zip(holes).zip(numbers) {
            let found = hole(*rule, draw, GREEN);
            near(found, expected, 0.000_51);
            near(number(mm(draw), mm(found)).unwrap(), f_number, 0.51);
        }
    }
}

/// Derived from the zone condition: for a subject as near as the film the length is half.
#[test]
fn a_near_subject_asks_for_a_smaller_hole() {
    let near_one = diameter(Rule::Young, mm(100.0), off(100.0), GREEN)
        .unwrap()
        .value;
    near(near_one, hole(Rule::Young, 50.0, GREEN), 1e-12);
}

/// Common practice, no source: the time goes with the square of the f-number, so 1 s at f/22 (22.627
/// exactly) is 100 s at ten times the number.
#[test]
fn the_time_goes_with_the_square_of_the_f_number() {
    let found = time(Seconds::parse("1").unwrap(), 22.627, 226.27)
        .unwrap()
        .value;
    near(found.value(), 100.0, 1e-9);
}
