//! How much of the world a lens takes in, and which lens takes in as much on another format.
//!
//! For: choosing a lens. Promises: an "equivalent" focal length always says by which side. Leaves to
//! others: how large the image circle is ([`coverage`](super::coverage)); an angle a maker quotes is
//! no substitute for it.

use super::{Frame, focal, mm, tan};
use crate::craft::numeral::trimmed;
use crate::craft::{Amount, Figure, Grounds, Impossible, Millimetres, Step};
use crate::words::words;

/// Angle of view with the draw.
pub const OF_VIEW: Grounds =
    Grounds::published("D. M. Jacobson, Photographic Lenses FAQ, 1995-1997, question 6");

words! {
    /// The side by which two formats are compared.
    Side {
        /// Corner to corner.
        Diagonal = "diagonal",
        /// The longer side.
        Long = "long",
        /// The shorter side.
        Short = "short",
    }
}

impl Side {
    /// This side of a frame, millimetres.
    #[must_use]
    pub fn of(self, frame: Frame) -> f64 {
        match self {
            Side::Diagonal => frame.diagonal(),
            Side::Long => frame.long(),
            Side::Short => frame.short(),
        }
    }
}

/// The angle a length on the film takes in, in degrees: `2 atan(d / (2 f (1 + m)))`.
#[must_use]
pub fn of_side(side: f64, focal_length: f64, magnification: f64) -> f64 {
    2.0 * (side / (2.0 * focal_length * (1.0 + magnification)))
        .atan()
        .to_degrees()
}

/// Angles of view in degrees.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Views {
    /// Along the longer side.
    pub long: f64,
    /// Along the shorter side.
    pub short: f64,
    /// Corner to corner.
    pub diagonal: f64,
}

/// The angles of view of a lens on a frame, at a magnification.
///
/// # Errors
/// If the lens has no focal length or the magnification is negative.
pub fn of_view(
    frame: Frame,
    focal_length: Millimetres,
    magnification: f64,
) -> Result<Figure<Views>, Impossible> {
    let f = focal(focal_length)?;
    if !(0.0..=100.0).contains(&magnification) {
        return Err(Impossible::new(
            "a magnification lies between 0, for infinity, and 100: write 0.25 or 1/4",
        ));
    }
    let at = |side: Side| of_side(side.of(frame), f, magnification);
    let views = Views {
        long: at(Side::Long),
        short: at(Side::Short),
        diagonal: at(Side::Diagonal),
    };
    let draw = f * (1.0 + magnification);
    let step = |name: &'static str, side: Side, angle: f64| {
        Step::new(name, Amount::number(angle, "deg", 1)).working(format!(
            "2 atan({} / (2 x {}))",
            trimmed(side.of(frame), 1),
            trimmed(draw, 1)
        ))
    };
    Ok(Figure::new(views, OF_VIEW)
        .step(step("along the long side", Side::Long, views.long))
        .step(step("along the short side", Side::Short, views.short))
        .step(step("corner to corner", Side::Diagonal, views.diagonal)))
}

/// The focal length that takes in as much on another frame by one side, millimetres:
/// `f × its side / this side`.
///
/// # Errors
/// If the lens has no focal length.
pub fn equivalent(
    focal_length: Millimetres,
    frame: Frame,
    other: Frame,
    side: Side,
) -> Result<Figure<f64>, Impossible> {
    let f = focal(focal_length)?;
    let (here, there) = (side.of(frame), side.of(other));
    let found = f * there / here;
    Ok(Figure::new(found, Grounds::usual()).step(
        Step::new(format!("by the {side}"), mm(found, 1))
            .working(format!(
                "{focal_length} x {} / {}",
                trimmed(there, 2),
                trimmed(here, 2)
            ))
            .on(Grounds::usual()),
    ))
}

/// The circle an angle of coverage would make at infinity, `2 f tan(angle / 2)`, millimetres; what
/// makers print can differ, so a printed circle goes before it.
///
/// # Errors
/// If the lens has no focal length or the angle lies outside 0 to 170 degrees.
pub fn circle_of(focal_length: Millimetres, angle: f64) -> Result<Figure<f64>, Impossible> {
    let f = focal(focal_length)?;
    if !(angle > 0.0 && angle <= 170.0) {
        return Err(Impossible::new(
            "an angle of coverage lies above 0 and up to 170 degrees: write 72",
        ));
    }
    let circle = 2.0 * f * tan(angle / 2.0);
    let half = trimmed(angle / 2.0, 2);
    Ok(Figure::new(circle, Grounds::usual())
        .within("a lens without distortion, at infinity")
        .step(
            Step::new("circle at infinity", mm(circle, 1))
                .working(format!("2 x {focal_length} x tan {half} deg")),
        )
        .remark(
            crate::craft::Concern::Note,
            "quoted angles and quoted circles do not always agree (85 degrees and 170 mm stand \
             beside each other for one 90 mm lens, where the angle gives 165 mm): keep the circle",
        ))
}

/// The angle of coverage of a circle at infinity, `2 atan(D / (2 f))`, degrees.
#[must_use]
pub fn of_circle(circle: f64, focal_length: f64) -> f64 {
    of_side(circle, focal_length, 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn length(value: f64) -> Millimetres {
        Millimetres::new(value).unwrap()
    }

    #[test]
    fn what_takes_in_nothing_is_a_sentence() {
        let frame = Frame::new(96.0, 120.0).unwrap();
        assert!(of_view(frame, length(0.0), 0.0).is_err());
        assert!(of_view(frame, length(150.0), -0.5).is_err());
        assert!(equivalent(length(0.0), frame, frame, Side::Long).is_err());
        assert!(circle_of(length(90.0), 180.0).is_err());
        assert!(circle_of(length(90.0), f64::NAN).is_err());
    }

    proptest! {
        #[test]
        fn circle_and_angle_lead_back_to_each_other(f in 40.0..800.0_f64, angle in 1.0..120.0_f64) {
            let circle = circle_of(length(f), angle).unwrap().value;
            prop_assert!((of_circle(circle, f) - angle).abs() < 1e-6);
        }

        #[test]
        fn the_equivalent_lens_takes_in_as_much_by_its_side(f in 40.0..800.0_f64) {
            let (frame, other) = (Frame::new(96.0, 120.0).unwrap(), Frame::new(36.0, 24.0).unwrap());
            for side in Side::ALL {
                let there = equivalent(length(f), frame, other, *side).unwrap().value;
                let difference = of_side(side.of(other), there, 0.0) - of_side(side.of(frame), f, 0.0);
                prop_assert!(difference.abs() < 1e-9);
            }
        }
    }
}
