//! Pointed rails and moved viewpoints. All derived; US Army subcourse SS0516 and the Linhof M 679cs
//! manual describe the practice in words.

use notchbook::craft::optics::Distance;
use notchbook::craft::optics::displacement::{keeping_draw, keeping_rail, slip};

use super::{mm, near, off};

/// Derived: 150 mm of draw and 10 deg give 26.449 mm of rise with the standards 152.314 mm apart.
#[test]
fn pointing_the_rail_by_10_degrees() {
    let found = keeping_draw(mm(150.0), 10.0).unwrap().value;
    near(found.rise, 26.449, 0.001);
    near(found.along, 152.314, 0.001);
}

/// Derived: standards left 210 mm apart, 15 deg: 54.352 mm of rise and 202.844 mm of draw.
#[test]
fn pointing_the_rail_without_moving_the_standards() {
    let found = keeping_rail(mm(210.0), 15.0).unwrap().value;
    near(found.rise, 54.352, 0.001);
    near(found.draw, 202.844, 0.001);
}

/// Derived, to a hundredth: draw, angle, length on the rail, rise; then rise and draw if the length
/// stays what the draw was.
#[test]
fn rise_by_the_rail_follows_the_table() {
    let table = [
        (150.0, 10.0, 152.31, 26.45, 26.05, 147.72),
        (150.0, 20.0, 159.63, 54.6, 51.3, 140.95),
        (210.0, 15.0, 217.41, 56.27, 54.35, 202.84),
        (180.0, 25.0, 198.61, 83.94, 76.07, 163.14),
    ];
    for (draw, angle, along, rise, rise_left, draw_left) in table {
        let kept = keeping_draw(mm(draw), angle).unwrap().value;
        near(kept.along, along, 0.0051);
        near(kept.rise, rise, 0.0051);
        let left = keeping_rail(mm(draw), angle).unwrap().value;
        near(left.rise, rise_left, 0.0051);
        near(left.draw, draw_left, 0.0051);
    }
}

/// Derived: 30 mm of front rise, 150 mm lens, something at 1.5 m against infinity slips 3.333 mm on
/// the film, against 10 m 2.876 mm. A back that falls instead moves no viewpoint.
#[test]
fn front_rise_moves_near_things_against_far_ones() {
    let at = |far| slip(mm(30.0), mm(150.0), off(1500.0), far).unwrap().value;
    near(at(Distance::INFINITY), 3.333, 0.001);
    near(at(off(10_000.0)), 2.876, 0.001);
    near(
        slip(mm(0.0), mm(150.0), off(1500.0), off(10_000.0))
            .unwrap()
            .value,
        0.0,
        1e-12,
    );
}
