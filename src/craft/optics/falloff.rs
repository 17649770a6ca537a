//! Light at the corners, and the centre filter that gives some of it back.
//!
//! For: wide lenses and large movements. Promises: stops below the middle of the image circle, by the
//! fourth power of the cosine. Leaves to others: what the barrel of the lens cuts off on top of it.

use super::coverage::{far_corner, near_corner};
use super::{Frame, focal, mm};
use crate::craft::numeral::trimmed;
use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Millimetres, Step, Stops};

/// The fourth power of the cosine.
pub const COSINE: Grounds = Grounds::published(
    "visns.neocities.org, large format lens illumination; photogrammetry congress paper, TIB, p. 413",
);

/// What is engraved on a centre filter.
pub const ENGRAVED: Grounds = Grounds::published(
    "ALPA, centre filters: the number is an exposure factor, such as 1.5 or 2.5",
);

/// What is left of the light at an angle from the axis, in degrees: `cos⁴`.
#[must_use]
pub fn left_at(angle: f64) -> f64 {
    angle.to_radians().cos().powi(4)
}

/// How many stops darker it is at an angle from the axis, in degrees: `-4 log2 cos`.
#[must_use]
pub fn stops_at(angle: f64) -> f64 {
    -4.0 * angle.to_radians().cos().log2()
}

/// The angle from the axis of a point on the film, in degrees.
#[must_use]
pub fn angle_of(radius: f64, draw: f64) -> f64 {
    radius.atan2(draw).to_degrees()
}

/// The light across a frame, in stops below the middle of the circle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Falloff {
    /// At the corner furthest from the axis.
    pub far: f64,
    /// At the corner nearest to it.
    pub near: f64,
    /// In the middle of the frame.
    pub middle: f64,
    /// The angle of the far corner, degrees.
    pub angle: f64,
}

/// How the light falls off over a frame with rise and shift (millimetres), at a magnification.
///
/// # Errors
/// If the lens has no focal length or the magnification is negative.
pub fn across(
    frame: Frame,
    focal_length: Millimetres,
    magnification: f64,
    rise: f64,
    shift: f64,
) -> Result<Figure<Falloff>, Impossible> {
    let f = focal(focal_length)?;
    if !(0.0..=100.0).contains(&magnification) {
        return Err(Impossible::new(
            "a magnification lies between 0, for infinity, and 100: write 0.25 or 1/4",
        ));
    }
    let draw = f * (1.0 + magnification);
    let (far, near) = (
        far_corner(frame, rise, shift),
        near_corner(frame, rise, shift),
    );
    let angle = angle_of(far, draw);
    let found = Falloff {
        far: stops_at(angle),
        near: stops_at(angle_of(near, draw)),
        middle: stops_at(angle_of(rise.hypot(shift), draw)),
        angle,
    };
    let stops = |value: f64| Amount::number(-value, "stops", 2);
    let corner = |name, radius: f64, value| {
        Step::new(name, stops(value))
            .working(format!(
                "4 log2 cos atan({} / {})",
                trimmed(radius, 1),
                trimmed(draw, 1)
            ))
            .on(COSINE)
    };
    let mut figure = Figure::new(found, COSINE)
        .within("strictly a stop ahead of the lens; wide lenses do better, vignetting does worse")
        .step(Step::new("furthest corner from the axis", mm(far, 1)))
        .step(Step::new("its angle", Amount::degrees(angle)))
        .step(corner("furthest corner", far, found.far));
    if rise != 0.0 || shift != 0.0 {
        figure = figure
            .step(corner("nearest corner", near, found.near))
            .step(corner(
                "middle of the film",
                rise.hypot(shift),
                found.middle,
            ));
    }
    if angle > 45.0 {
        figure = figure.remark(
            Concern::Note,
            "wide lenses whose pupils grow towards the side keep more light than this",
        );
    }
    Ok(figure)
}

/// The stops of a centre filter by its factor.
///
/// # Errors
/// If the factor is below 1: a filter adds no light.
pub fn filter_by_factor(factor: f64) -> Result<Stops, Impossible> {
    if factor >= 1.0 {
        return Ok(Stops::from_factor(factor)?);
    }
    Err(Impossible::new(
        "a centre filter takes light, so its factor is 1 or more: write 2.5, or give its stops",
    ))
}

/// The density of so many stops, `0.30103 × stops`.
#[must_use]
pub fn density(stops: Stops) -> f64 {
    stops.value() * std::f64::consts::LOG10_2
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_has_no_light_to_lose_is_a_sentence() {
        let frame = Frame::new(120.0, 96.0).unwrap();
        assert!(across(frame, Millimetres::new(0.0).unwrap(), 0.0, 0.0, 0.0).is_err());
        assert!(across(frame, Millimetres::new(90.0).unwrap(), -1.0, 0.0, 0.0).is_err());
        assert!(filter_by_factor(0.5).is_err() && filter_by_factor(f64::NAN).is_err());
    }

    proptest! {
        #[test]
        fn movement_darkens_the_far_corner_and_focusing_nearer_lightens_it(
            f in 47.0..400.0_f64, rise in 0.0..60.0_f64, shift in 0.0..60.0_f64, m in 0.01..1.0_f64,
        ) {
            let frame = Frame::new(120.0, 96.0).unwrap();
            let lens = Millimetres::new(f).unwrap();
            let at = |m, rise, shift| across(frame, lens, m, rise, shift).unwrap().value.far;
            prop_assert!(at(0.0, rise, shift) >= at(0.0, 0.0, 0.0));
            prop_assert!(at(m, rise, shift) < at(0.0, rise, shift));
            let angle = across(frame, lens, 0.0, rise, shift).unwrap().value.angle;
            prop_assert!((left_at(angle).log2() + stops_at(angle)).abs() < 1e-9);
        }
    }
}
