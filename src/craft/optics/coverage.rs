//! Whether the image circle of a lens reaches the corners of the film, and how much rise and shift
//! that leaves.
//!
//! For: planning movements, and the warning beside an exposure. Promises: a lens circle is always the
//! one at infinity; what focusing nearer adds is reckoned. A maker's angle and a maker's circle do not
//! always agree (2 x 90 mm x tan 42.5 deg is 165 mm where 170 mm is printed), so the circle is what
//! counts here. Leaves to others: how sharp and how bright the rim of the circle is.

use super::movements::Movements;
use super::{Frame, focal, mm, tan};
use crate::craft::numeral::trimmed;
use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Millimetres, Step};

/// The geometry is plain; it gives the movements printed for two circles.
pub const GEOMETRY: Grounds = Grounds::published(
    "geometry of the image circle; it gives the movements Rodenstock printed for the Geronar-WA 90 \
     (M. Cavina, Rodenstock Geronar e Geronar-WA, second-hand)",
);

/// Growth of the circle with the draw.
pub(super) const GROWTH: Grounds = Grounds::published(
    "Linhof M 679cs manual, ch. 3.2: a circle is quoted for infinity and larger at close range; \
     derived, in proportion to the draw",
);

/// The diameter of the circle on the film that reaches all corners when lens and film stand this far
/// apart sideways, all in millimetres: `2 √((W/2 + |s|)² + (H/2 + |r|)²)`. Lens and film parallel.
#[must_use]
pub fn corner_needs(frame: Frame, rise: f64, shift: f64) -> f64 {
    2.0 * far_corner(frame, rise, shift)
}

/// From the lens axis to the corner furthest from it, in millimetres.
#[must_use]
pub fn far_corner(frame: Frame, rise: f64, shift: f64) -> f64 {
    (frame.width() / 2.0 + shift.abs()).hypot(frame.height() / 2.0 + rise.abs())
}

/// From the lens axis to the corner nearest to it, in millimetres.
#[must_use]
pub fn near_corner(frame: Frame, rise: f64, shift: f64) -> f64 {
    (frame.width() / 2.0 - shift.abs()).hypot(frame.height() / 2.0 - rise.abs())
}

/// The image circle at a magnification, from the one at infinity: `D (1 + m)`.
#[must_use]
pub fn circle_at(circle: f64, magnification: f64) -> f64 {
    circle * (1.0 + magnification.max(0.0))
}

/// How far one corner is from the axis of the lens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Corner {
    /// Whether it is at the top of the ground glass; the picture there is upside down.
    pub top: bool,
    /// Whether it is at the right of the ground glass.
    pub right: bool,
    /// Degrees between the ray to it and the axis of the lens.
    pub angle: f64,
}

impl Corner {
    /// Where it is on the ground glass.
    #[must_use]
    pub const fn place(self) -> &'static str {
        match (self.top, self.right) {
            (true, true) => "upper right",
            (true, false) => "upper left",
            (false, true) => "lower right",
            (false, false) => "lower left",
        }
    }
}

/// The four corners with the lens `draw` millimetres from the film and all movements in place.
///
/// The lens turns about its middle, the film about its own; so a tilted lens points its circle
/// elsewhere on the film (by `draw × tan tilt` for the lens alone), a tilted back does not.
#[must_use]
pub fn corners(frame: Frame, moved: &Movements, draw: f64) -> [Corner; 4] {
    let (tilt, swing) = radians(moved.front.tilt, moved.front.swing);
    let axis = [
        swing.sin() * tilt.cos(),
        tilt.sin(),
        swing.cos() * tilt.cos(),
    ];
    let (lean, turn) = radians(moved.back.tilt, moved.back.swing);
    // The edges of the film: its width turned about the upright, its height leaned forward.
    let across = [turn.cos(), 0.0, -turn.sin()];
    let up = [
        -turn.sin() * lean.sin(),
        lean.cos(),
        -turn.cos() * lean.sin(),
    ];
    let middle = [-moved.shift(), -moved.rise(), draw];
    let corner = |top: bool, right: bool| {
        let half = |side: f64, far: bool| if far { side / 2.0 } else { -side / 2.0 };
        let (x, y) = (half(frame.width(), right), half(frame.height(), top));
        let [mx, my, mz] = middle;
        let [ax, ay, az] = across;
        let [ux, uy, uz] = up;
        let point = [
            mx + x * ax + y * ux,
            my + x * ay + y * uy,
            mz + x * az + y * uz,
        ];
        Corner {
            top,
            right,
            angle: between(point, axis),
        }
    };
    [
        corner(true, true),
        corner(true, false),
        corner(false, true),
        corner(false, false),
    ]
}

fn radians(first: f64, second: f64) -> (f64, f64) {
    (first.to_radians(), second.to_radians())
}

/// Degrees between two directions.
fn between(a: [f64; 3], b: [f64; 3]) -> f64 {
    let dot = |p: [f64; 3], q: [f64; 3]| p.iter().zip(q).map(|(p, q)| p * q).sum::<f64>();
    let lengths = (dot(a, a) * dot(b, b)).sqrt();
    (dot(a, b) / lengths).clamp(-1.0, 1.0).acos().to_degrees()
}

/// What a picture asks of the image circle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Asked {
    /// The circle at infinity the lens must have, in millimetres.
    pub circle: f64,
    /// The corner that asks for it.
    pub worst: Corner,
}

/// The image circle at infinity that a lens must have for these movements, `2 f tan(angle)` of the
/// corner furthest from its axis, focused at a magnification.
///
/// A swing may have been written down either way round, so the worse way is taken.
///
/// # Errors
/// If the lens has no focal length, the magnification is negative, or a corner lies beside the lens.
pub fn circle_asked(
    frame: Frame,
    moved: &Movements,
    focal_length: Millimetres,
    magnification: f64,
) -> Result<Figure<Asked>, Impossible> {
    let f = focal(focal_length)?;
    let draw = f * (1.0 + known(magnification)?);
    let worst = worst(frame, moved, draw).ok_or_else(|| {
        Impossible::new(
            "with these movements a corner of the film lies beside the lens: check the tilts, in \
             degrees, and the rise, in millimetres",
        )
    })?;
    let circle = 2.0 * f * tan(worst.angle);
    let angle = trimmed(worst.angle, 2);
    let mut figure = Figure::new(Asked { circle, worst }, GEOMETRY)
        .within("thin lens, turned about its middle; circle as quoted for infinity")
        .step(
            Step::new(
                "rise and shift",
                mm(corner_needs(frame, moved.rise(), moved.shift()), 1),
            )
            .working(format!(
                "2 √(({} / 2 + {})² + ({} / 2 + {})²), on the film",
                trimmed(frame.width(), 1),
                trimmed(moved.shift().abs(), 1),
                trimmed(frame.height(), 1),
                trimmed(moved.rise().abs(), 1)
            )),
        );
    if moved.front.tilt != 0.0 {
        let drift = draw * tan(moved.front.tilt);
        figure = figure.step(
            Step::new("tilt moves the circle", mm(drift, 1)).working(format!(
                "{} mm x tan {} deg, on the film",
                trimmed(draw, 1),
                trimmed(moved.front.tilt, 2)
            )),
        );
    }
    figure = figure
        .step(Step::new(
            format!("{} corner of the glass", worst.place()),
            Amount::degrees(worst.angle),
        ))
        .step(
            Step::new("circle at infinity", mm(circle, 1))
                .working(format!("2 x {focal_length} x tan {angle} deg"))
                .on(GROWTH),
        );
    if moved.front.swing != 0.0 || moved.back.swing != 0.0 {
        figure = figure.remark(
            Concern::Note,
            "the swing was reckoned both ways round and the worse taken",
        );
    }
    Ok(figure)
}

/// The corner furthest from the axis, a swing taken the worse way round; none if one lies beside the
/// lens.
pub(super) fn worst(frame: Frame, moved: &Movements, draw: f64) -> Option<Corner> {
    let mut other_way = moved.clone();
    other_way.front.swing = -other_way.front.swing;
    other_way.back.swing = -other_way.back.swing;
    let all = corners(frame, moved, draw).into_iter();
    all.chain(corners(frame, &other_way, draw))
        .reduce(|worst, corner| {
            if corner.angle > worst.angle {
                corner
            } else {
                worst
            }
        })
        .filter(|corner| corner.angle < 89.0)
}

pub(super) fn known(magnification: f64) -> Result<f64, Impossible> {
    if (0.0..=100.0).contains(&magnification) {
        return Ok(magnification);
    }
    Err(Impossible::new(
        "a magnification lies between 0, for infinity, and 100: write 0.25 or 1/4",
    ))
}

#[cfg(test)]
mod tests {
    use super::super::movements::parse_movements;
    use super::*;
    use proptest::prelude::*;

    fn length(value: f64) -> Millimetres {
        Millimetres::new(value).unwrap()
    }

    #[test]
    fn without_tilt_the_corner_test_is_the_plain_circle() {
        let frame = Frame::new(120.0, 96.0).unwrap();
        let moved = parse_movements("rise 20, back shift 10");
        let asked = circle_asked(frame, &moved, length(150.0), 0.0).unwrap();
        assert!((asked.value.circle - corner_needs(frame, 20.0, 10.0)).abs() < 1e-9);
        assert!(!asked.value.worst.top, "front rise uses the lower edge up");
    }

    #[test]
    fn a_tilted_back_does_not_move_the_circle() {
        let frame = Frame::new(120.0, 96.0).unwrap();
        let level = circle_asked(frame, &Movements::default(), length(150.0), 0.0);
        let front = circle_asked(frame, &parse_movements("tilt 6"), length(150.0), 0.0);
        let back = circle_asked(frame, &parse_movements("back tilt 6"), length(150.0), 0.0);
        let [level, front, back] = [level, front, back].map(|asked| asked.unwrap().value.circle);
        assert!(front > level + 20.0);
        assert!(back < level + 10.0);
    }

    #[test]
    fn what_cannot_be_is_a_sentence() {
        assert!(Frame::new(0.0, 96.0).is_err());
        assert!(Frame::new(f64::NAN, 96.0).is_err());
        let frame = Frame::new(120.0, 96.0).unwrap();
        let none = Movements::default();
        assert!(circle_asked(frame, &none, length(0.0), 0.0).is_err());
        assert!(circle_asked(frame, &none, length(150.0), -0.1).is_err());
        assert!(circle_asked(frame, &parse_movements("tilt 80"), length(90.0), 0.0).is_err());
    }

    proptest! {
        #[test]
        fn focusing_nearer_asks_for_no_larger_circle(
            m in 0.0..1.0_f64, rise in -60.0..60.0_f64,
        ) {
            let frame = Frame::new(120.0, 96.0).unwrap();
            let moved = Movements {
                front: super::super::movements::Standard { rise, ..Default::default() },
                ..Movements::default()
            };
            let asked = |m| circle_asked(frame, &moved, length(150.0), m).unwrap().value.circle;
            prop_assert!(asked(m) <= asked(0.0) + 1e-9);
        }
    }
}
