//! Rise and shift by pointing the rail, and what happens to the viewpoint when the lens moves.
//!
//! For: going beyond the direct movements, and keeping near things before far ones. Promises: both
//! standards upright again and parallel. Leaves to others: whether the circle reaches so far
//! ([`coverage`](super::coverage)), to which direct and indirect movements go together.

use super::conjugates::{image_of, outside};
use super::{Distance, focal, mm, tan};
use crate::craft::numeral::trimmed;
use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Millimetres, Step};

/// The practice is described in words; the lengths are geometry.
pub const INDIRECT: Grounds = Grounds::published(
    "US Army subcourse SS0516 and Linhof M 679cs manual describe it in words; lengths derived",
);

/// Geometry of two magnifications.
const PARALLAX: Grounds =
    Grounds::published("derived from the lens equation (D. M. Jacobson, Photographic Lenses FAQ)");

/// Standards on a pointed rail, upright again.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pointed {
    /// Between the axes of the standards along the rail, millimetres.
    pub along: f64,
    /// Rise, or shift if the rail is turned sideways, millimetres.
    pub rise: f64,
    /// From lens to film, square to both, millimetres.
    pub draw: f64,
}

fn pointing(angle: f64) -> Result<f64, Impossible> {
    if (-75.0..=75.0).contains(&angle) {
        return Ok(angle);
    }
    Err(Impossible::new(
        "a rail is pointed up to 75 degrees from the level: write 10, or -10 for down",
    ))
}

fn drawn(draw: Millimetres) -> Result<f64, Impossible> {
    focal(draw).map_err(|_| {
        Impossible::new("lens and film stand some way apart: give the draw, such as 150 mm")
    })
}

/// Rise by pointing the rail while the draw is kept: the standards go apart to `v / cos`, and the rise
/// is `v tan`.
///
/// # Errors
/// If the draw is zero or the angle above 75 degrees.
pub fn keeping_draw(draw: Millimetres, angle: f64) -> Result<Figure<Pointed>, Impossible> {
    let (v, angle) = (drawn(draw)?, pointing(angle)?);
    let found = Pointed {
        along: v / angle.to_radians().cos(),
        rise: v * tan(angle),
        draw: v,
    };
    let shown = trimmed(angle, 2);
    Ok(Figure::new(found, INDIRECT)
        .within("tilt axes through the middle of lens and film")
        .step(Step::new("rise", mm(found.rise, 1)).working(format!("{draw} x tan {shown} deg")))
        .step(
            Step::new("standards apart on the rail", mm(found.along, 1))
                .working(format!("{draw} / cos {shown} deg")),
        )
        .remark(
            Concern::Note,
            "bring both standards back upright; with the swing under the tilt they stay parallel, \
             with the swing above it they do not (usual)",
        ))
}

/// Rise by pointing the rail while the standards stay where they are on it: `L sin`, and the draw
/// shrinks to `L cos`.
///
/// # Errors
/// If the length is zero or the angle above 75 degrees.
pub fn keeping_rail(along: Millimetres, angle: f64) -> Result<Figure<Pointed>, Impossible> {
    let (l, angle) = (drawn(along)?, pointing(angle)?);
    let (sin, cos) = angle.to_radians().sin_cos();
    let found = Pointed {
        along: l,
        rise: l * sin,
        draw: l * cos,
    };
    let shown = trimmed(angle, 2);
    Ok(Figure::new(found, INDIRECT)
        .within("tilt axes through the middle of lens and film")
        .step(Step::new("rise", mm(found.rise, 1)).working(format!("{along} x sin {shown} deg")))
        .step(
            Step::new("draw left", mm(found.draw, 1)).working(format!("{along} x cos {shown} deg")),
        ))
}

/// The angle to point the rail for a rise at a draw, degrees: `atan(r / v)`.
///
/// # Errors
/// If the draw is zero or the rise out of reach.
pub fn angle_for(draw: Millimetres, rise: Millimetres) -> Result<f64, Impossible> {
    pointing(rise.value().atan2(drawn(draw)?).to_degrees())
}

/// By how much a near thing moves against a far one on the film when the lens moves so far (rise, fall
/// or shift), millimetres: `r (m near - m far)`. Moving the back instead moves nothing.
///
/// # Errors
/// If a distance lies inside the focal length.
pub fn slip(
    moved: Millimetres,
    focal_length: Millimetres,
    near: Distance,
    far: Distance,
) -> Result<Figure<f64>, Impossible> {
    let f = focal(focal_length)?;
    outside(f, near)?;
    outside(f, far)?;
    let m = |distance| image_of(f, distance) / f - 1.0;
    let (m_near, m_far) = (m(near), m(far));
    let slip = moved.value() * (m_near - m_far);
    Ok(Figure::new(slip, PARALLAX)
        .step(Step::new(
            "magnification of the near thing",
            Amount::number(m_near, "", 4),
        ))
        .step(Step::new("of the far thing", Amount::number(m_far, "", 4)))
        .step(Step::new("slip on the film", mm(slip, 3)).working(format!(
            "{moved} x ({} - {})",
            trimmed(m_near, 4),
            trimmed(m_far, 4)
        )))
        .remark(
            Concern::Note,
            "moving the back moves no viewpoint: where near must stay before far, as in copying or \
             before a mirror, move the back",
        ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_cannot_be_pointed_is_a_sentence() {
        let mm = |value| Millimetres::new(value).unwrap();
        let off = |value| Distance::new(value).unwrap();
        assert!(keeping_draw(mm(0.0), 10.0).is_err());
        assert!(keeping_draw(mm(150.0), 90.0).is_err());
        assert!(keeping_rail(mm(150.0), f64::NAN).is_err());
        assert!(angle_for(mm(10.0), mm(9000.0)).is_err());
        assert!(slip(mm(30.0), mm(150.0), off(100.0), Distance::INFINITY).is_err());
    }

    proptest! {
        #[test]
        fn the_angle_for_a_rise_gives_the_rise(v in 60.0..600.0_f64, rise in 0.0..200.0_f64) {
            let draw = Millimetres::new(v).unwrap();
            let angle = angle_for(draw, Millimetres::new(rise).unwrap()).unwrap();
            let found = keeping_draw(draw, angle).unwrap().value;
            prop_assert!((found.rise - rise).abs() < 1e-9);
            let rail = Millimetres::new(found.along).unwrap();
            let again = keeping_rail(rail, angle).unwrap().value;
            prop_assert!((again.rise - rise).abs() < 1e-9 && (again.draw - v).abs() < 1e-9);
        }
    }
}
