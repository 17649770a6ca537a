//! How far an image circle lets the film move.
//!
//! For: planning rise and shift. Promises: a limit counts from the middle, beside the movements that
//! are set already; where the frame is not covered at all there is no limit but a warning. Leaves to
//! others: which circle given movements ask for ([`coverage`](super::coverage)).

use super::coverage::{GEOMETRY, GROWTH, circle_at, known, worst};
use super::movements::Movements;
use super::{Frame, focal, mm};
use crate::craft::numeral::trimmed;
use crate::craft::{Amount, Concern, Figure, Impossible, Millimetres, Step};

/// The furthest a limit is looked for, in millimetres.
const FURTHEST: f64 = 1000.0;

/// How far the lens may go one way when it stands `across` the other way, in millimetres; negative
/// or nothing if the circle does not reach so far.
fn room(circle: f64, along: f64, across: f64, already: f64) -> Option<f64> {
    let radius = circle / 2.0;
    let side = across / 2.0 + already.abs();
    (radius >= side)
        .then(|| (radius * radius - side * side).sqrt() - along / 2.0)
        .filter(|room| *room >= 0.0)
}

/// The most rise or fall a circle allows beside a shift, in millimetres; nothing if the circle does
/// not cover the frame there.
#[must_use]
pub fn rise_limit(circle: f64, frame: Frame, shift: f64) -> Option<f64> {
    room(circle, frame.height(), frame.width(), shift)
}

/// The most shift a circle allows beside a rise, in millimetres; nothing if the circle does not cover
/// the frame there.
#[must_use]
pub fn shift_limit(circle: f64, frame: Frame, rise: f64) -> Option<f64> {
    room(circle, frame.width(), frame.height(), rise)
}

/// What a circle leaves for a frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Room {
    /// The circle on the film at this magnification, in millimetres.
    pub circle: f64,
    /// The most rise or fall beside the shift that is set, in millimetres; nothing if the frame is not
    /// covered.
    pub rise: Option<f64>,
    /// The most shift beside the rise that is set, in millimetres; nothing if the frame is not covered.
    pub shift: Option<f64>,
}

/// How far the circle of an upright lens lets a frame move beside a rise and a shift that are set
/// (millimetres), at a magnification.
///
/// # Errors
/// If the circle has no width or the magnification is negative.
pub fn room_in(
    circle: Millimetres,
    frame: Frame,
    magnification: f64,
    rise: f64,
    shift: f64,
) -> Result<Figure<Room>, Impossible> {
    let there = circle_at(some(circle)?, known(magnification)?);
    let room = Room {
        circle: there,
        rise: rise_limit(there, frame, shift),
        shift: shift_limit(there, frame, rise),
    };
    let (w, h) = (trimmed(frame.width(), 1), trimmed(frame.height(), 1));
    let shown = trimmed(there, 1);
    let mut figure = Figure::new(room, GEOMETRY);
    if magnification > 0.0 {
        figure = figure.step(
            Step::new("circle on the film", mm(there, 1))
                .working(format!("{circle} x (1 + {})", trimmed(magnification, 3)))
                .on(GROWTH),
        );
    }
    if there < frame.diagonal() {
        return Ok(figure
            .step(Step::new("the frame needs", mm(frame.diagonal(), 1)))
            .remark(
                Concern::Warning,
                format!(
                    "a circle of {shown} mm does not cover {w} x {h} mm: the corners stay dark"
                ),
            ));
    }
    let limit = |name, room: Option<f64>, along: &str, across: &str, already: f64| {
        let amount = room.map_or_else(|| Amount::words("none"), |room| mm(room, 1));
        let already = if already == 0.0 {
            String::new()
        } else {
            format!(" + {}", trimmed(already.abs(), 1))
        };
        Step::new(name, amount).working(format!(
            "√(({shown} / 2)² - ({across} / 2{already})²) - {along} / 2"
        ))
    };
    Ok(figure
        .step(limit("rise or fall at most", room.rise, &h, &w, shift))
        .step(limit("shift at most", room.shift, &w, &h, rise)))
}

fn some(circle: Millimetres) -> Result<f64, Impossible> {
    if circle.value() > 0.0 {
        return Ok(circle.value());
    }
    Err(Impossible::new(
        "an image circle of 0 mm covers nothing: give its diameter, such as 220 mm",
    ))
}

/// How far the circle of a lens that is tilted or swung, or before a back that is, lets a frame move
/// the way it moves already (up and to the right if it does not), beside all other movements. Found by
/// halving, because the corners have no formula together.
///
/// # Errors
/// If the circle has no width, the lens no focal length, or the magnification is negative.
pub fn turned_room(
    circle: Millimetres,
    frame: Frame,
    moved: &Movements,
    focal_length: Millimetres,
    magnification: f64,
) -> Result<Room, Impossible> {
    let f = focal(focal_length)?;
    let draw = f * (1.0 + known(magnification)?);
    let reach = (some(circle)? / 2.0).atan2(f).to_degrees();
    let covered = |moved: &Movements| worst(frame, moved, draw).is_some_and(|it| it.angle <= reach);
    let risen = |rise: f64| {
        let mut moved = moved.clone();
        moved.front.rise = rise;
        moved.back.rise = 0.0;
        moved
    };
    let shifted = |shift: f64| {
        let mut moved = moved.clone();
        moved.front.shift = shift;
        moved.back.shift = 0.0;
        moved
    };
    Ok(Room {
        circle: circle_at(circle.value(), magnification),
        rise: furthest(moved.rise(), |rise| covered(&risen(rise))),
        shift: furthest(moved.shift(), |shift| covered(&shifted(shift))),
    })
}

/// The furthest movement that is still covered, from the one that is set or from none.
fn furthest(set: f64, covered: impl Fn(f64) -> bool) -> Option<f64> {
    let way = if set < 0.0 { -1.0 } else { 1.0 };
    let mut within = [set.abs(), 0.0].into_iter().find(|by| covered(way * by))?;
    let mut beyond = FURTHEST;
    while beyond - within > 1e-3 {
        let middle = f64::midpoint(within, beyond);
        if covered(way * middle) {
            within = middle;
        } else {
            beyond = middle;
        }
    }
    Some(within)
}

#[cfg(test)]
mod tests {
    use super::super::coverage::{circle_asked, corner_needs, far_corner, near_corner};
    use super::super::movements::parse_movements;
    use super::*;
    use proptest::prelude::*;

    fn length(value: f64) -> Millimetres {
        Millimetres::new(value).unwrap()
    }

    #[test]
    fn what_covers_nothing_is_a_sentence_and_too_small_a_circle_a_warning() {
        let frame = Frame::new(120.0, 96.0).unwrap();
        assert!(room_in(length(0.0), frame, 0.0, 0.0, 0.0).is_err());
        assert!(room_in(length(220.0), frame, -0.5, 0.0, 0.0).is_err());
        let moved = parse_movements("tilt 5");
        assert!(turned_room(length(220.0), frame, &moved, length(0.0), 0.0).is_err());
        let dark = room_in(length(120.0), frame, 0.0, 0.0, 0.0).unwrap();
        assert_eq!((dark.value.rise, dark.value.shift), (None, None));
        assert_eq!(dark.remarks.len(), 1);
        let dark = turned_room(length(120.0), frame, &moved, length(150.0), 0.0).unwrap();
        assert_eq!(dark.rise, None);
    }

    #[test]
    fn a_forward_tilt_leaves_less_rise_and_more_fall() {
        let frame = Frame::new(120.0, 96.0).unwrap();
        let room = |text| {
            turned_room(
                length(220.0),
                frame,
                &parse_movements(text),
                length(150.0),
                0.0,
            )
            .unwrap()
        };
        let upright = rise_limit(220.0, frame, 0.0).unwrap();
        assert!(room("tilt 5").rise.unwrap() < upright);
        assert!(room("tilt 5, fall 1").rise.unwrap() > upright);
    }

    proptest! {
        #[test]
        fn the_limit_of_rise_just_fills_the_circle(
            circle in 155.0..400.0_f64, shift in 0.0..100.0_f64,
        ) {
            let frame = Frame::new(120.0, 96.0).unwrap();
            if let Some(rise) = rise_limit(circle, frame, shift) {
                prop_assert!((corner_needs(frame, rise, shift) - circle).abs() < 1e-6);
                prop_assert!(near_corner(frame, rise, shift) <= far_corner(frame, rise, shift));
            }
        }

        #[test]
        fn upright_both_ways_give_the_same_limits(circle in 155.0..400.0_f64, m in 0.0..1.0_f64) {
            let frame = Frame::new(120.0, 96.0).unwrap();
            let none = Movements::default();
            let turned = turned_room(length(circle), frame, &none, length(150.0), m).unwrap();
            let plain = room_in(length(circle), frame, m, 0.0, 0.0).unwrap().value;
            prop_assert!((turned.rise.unwrap() - plain.rise.unwrap()).abs() < 0.01);
            prop_assert!((turned.shift.unwrap() - plain.shift.unwrap()).abs() < 0.01);
        }

        #[test]
        fn at_its_limit_a_tilted_lens_needs_the_whole_circle(
            tilt in 0.5..12.0_f64, circle in 260.0..400.0_f64,
        ) {
            let frame = Frame::new(120.0, 96.0).unwrap();
            let mut moved = parse_movements("rise 0");
            moved.front.tilt = tilt;
            let room = turned_room(length(circle), frame, &moved, length(150.0), 0.0).unwrap();
            if let Some(rise) = room.rise {
                moved.front.rise = rise;
                let asked = circle_asked(frame, &moved, length(150.0), 0.0).unwrap().value.circle;
                prop_assert!((asked - circle).abs() < 0.1, "{asked}");
            }
        }
    }
}
