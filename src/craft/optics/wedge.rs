//! What is sharp about the plane of sharpness of a tilted lens: a wedge with its edge in the hinge.
//!
//! For: how high above the ground things may stand, and the aperture they ask for. Promises: blur is
//! exactly the circle at both faces of the wedge, for a thin lens tilted about its middle. Leaves to
//! others: the tilt itself ([`tilt`](super::tilt)).

use super::depth::Sharpness;
use super::tilt::{level_draw, plane_angle, tilted};
use super::{Distance, mm};
use crate::craft::numeral::trimmed;
use crate::craft::{Amount, Figure, Grounds, Impossible, Step};

/// The depth at the hyperfocal distance is the hinge distance.
pub const WEDGE: Grounds = Grounds::published(
    "H. M. Merklinger, View Camera Focus and Depth of Field, Part II, View Camera, Sep/Oct 1996, \
     pp. 56-58; exact form derived from it",
);

/// The height of the band, from the two faces.
const BAND: Grounds =
    Grounds::published("derived from the wedge (H. M. Merklinger, 1996): 2 N c / sin(tilt)");

/// A wedge of sharpness.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wedge {
    /// From the lens to the edge of the wedge, millimetres.
    pub hinge: f64,
    /// From the lens to the film along the normal of the film, millimetres.
    pub draw: f64,
    /// The plane of sharpness against the film, degrees.
    pub plane: f64,
    /// The face that drawing the back out reaches, degrees against the film; the upper one when the
    /// lens is tilted forward.
    pub upper: f64,
    /// The other face.
    pub lower: f64,
    /// How high the sharp band is on the ground glass, millimetres, at every distance alike.
    pub band: f64,
}

/// The wedge of a tilted lens, the film at `draw` millimetres along its normal, or where the plane of
/// sharpness stands square to it.
///
/// # Errors
/// If the tilt is zero or above 80 degrees, or the draw is not above zero.
pub fn about(sharp: Sharpness, tilt: f64, draw: Option<f64>) -> Result<Figure<Wedge>, Impossible> {
    let tilt = tilted(tilt)?.abs();
    let f = sharp.focal_length();
    let draw = draw.unwrap_or_else(|| level_draw(f, tilt));
    if !(draw > 0.0 && draw <= 1e6) {
        return Err(Impossible::new(
            "the film stands some way behind the lens: give the draw in millimetres, such as 152",
        ));
    }
    let sine = tilt.to_radians().sin();
    let hinge = f / sine;
    let (n, c) = (sharp.number(), sharp.circle());
    let plane = plane_angle(f, tilt, draw);
    let cot = 1.0 / plane.to_radians().tan();
    let off = hinge * n * c / (f * draw);
    let face = |cot: f64| 1.0_f64.atan2(cot).to_degrees();
    let found = Wedge {
        hinge,
        draw,
        plane,
        upper: face(cot + off),
        lower: face(cot - off),
        band: 2.0 * n * c / sine,
    };
    Ok(Figure::new(found, WEDGE)
        .within("thin lens, tilted about its middle; blur reckoned without diffraction")
        .step(
            Step::new("lens to hinge", Amount::number(hinge / 1000.0, "m", 3)).working(format!(
                "{} / sin {} deg",
                trimmed(f, 1),
                trimmed(tilt, 2)
            )),
        )
        .step(Step::new("film to lens", mm(draw, 2)))
        .step(Step::new(
            "plane of sharpness to film",
            Amount::degrees(plane),
        ))
        .step(
            Step::new("half the wedge", Amount::number(off, "", 4)).working(format!(
                "{} x {} x {} / ({} x {}), of the cotangent",
                trimmed(hinge, 0),
                trimmed(n, 2),
                trimmed(c, 4),
                trimmed(f, 1),
                trimmed(draw, 2)
            )),
        )
        .step(
            Step::new("sharp band on the glass", mm(found.band, 1))
                .working(format!(
                    "2 x {} x {} / sin {} deg",
                    trimmed(n, 2),
                    trimmed(c, 4),
                    trimmed(tilt, 2)
                ))
                .on(BAND),
        ))
}

/// How far the sharpness reaches above and below the plane at a distance, measured parallel to the
/// film, in millimetres: `(f / v) (u / H) J`.
#[must_use]
pub fn half_depth(sharp: Sharpness, wedge: Wedge, distance: Distance) -> Distance {
    let u = distance.millimetres().unwrap_or(f64::INFINITY);
    Distance::reckoned(sharp.focal_length() / wedge.draw * u / sharp.hyperfocal() * wedge.hinge)
}

/// The draw along the normal of the film, in millimetres, at which a tilted lens makes a point sharp:
/// so far off and so high above the axis of the lens, both in millimetres.
///
/// # Errors
/// If the tilt is impossible, the point lies at infinity, or no draw reaches it.
pub fn draw_for_point(
    focal_length: f64,
    tilt: f64,
    distance: Distance,
    height: f64,
) -> Result<f64, Impossible> {
    let (sin, cos) = tilted(tilt)?.to_radians().sin_cos();
    // cot psi = (height + J) / u, so that sin(tilt) cot psi = (height sin(tilt) + f) / u.
    let below = cos - (height * sin + focal_length) * distance.inverse();
    let draw = focal_length / below;
    if below > 0.0 && draw.is_finite() && draw <= 1e6 {
        return Ok(draw);
    }
    Err(Impossible::new(
        "no draw makes this point sharp with the lens tilted so: it lies too near or too high",
    ))
}

/// The f-number for a band of so many millimetres on the glass, `h sin(tilt) / (2 c)`.
#[must_use]
pub fn number_for_band(band: f64, tilt: f64, circle: f64) -> f64 {
    band * tilt.to_radians().sin().abs() / (2.0 * circle)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::craft::Millimetres;
    use proptest::prelude::*;

    fn sharp(f: f64, n: f64, c: f64) -> Sharpness {
        Sharpness::new(Millimetres::new(f).unwrap(), n, c).unwrap()
    }

    #[test]
    fn what_has_no_wedge_is_a_sentence() {
        let it = sharp(150.0, 22.0, 0.1);
        assert!(about(it, 0.0, None).is_err());
        assert!(about(it, 5.0, Some(0.0)).is_err());
        assert!(about(it, 5.0, Some(f64::NAN)).is_err());
        let near = Distance::new(150.0).unwrap();
        assert!(draw_for_point(150.0, 5.0, near, 0.0).is_err());
    }

    proptest! {
        #[test]
        fn the_blur_at_both_faces_is_the_circle(
            f in 60.0..400.0_f64, tilt in 1.0..15.0_f64, n in 5.6..64.0_f64, z in 20.0..200.0_f64,
        ) {
            let it = sharp(f, n, 0.1);
            let wedge = about(it, tilt, None).unwrap().value;
            let distance = Distance::new(z * f).unwrap();
            let half = half_depth(it, wedge, distance).millimetres().unwrap();
            for height in [half, -half] {
                // The plane of level ground lies J below the lens.
                let draw = draw_for_point(f, tilt, distance, height - wedge.hinge);
                // A point below the lower face may be out of reach altogether.
                let Ok(draw) = draw else { continue };
                let blur = f / n * (draw - wedge.draw).abs() / draw;
                prop_assert!((blur - 0.1).abs() < 1e-6, "{blur}");
            }
        }

        #[test]
        fn the_band_and_its_f_number_lead_back_to_each_other(
            tilt in 1.0..15.0_f64, n in 5.6..64.0_f64,
        ) {
            let wedge = about(sharp(150.0, n, 0.1), tilt, None).unwrap().value;
            prop_assert!((number_for_band(wedge.band, tilt, 0.1) - n).abs() < 1e-9);
            prop_assert!(wedge.upper < wedge.plane && wedge.plane < wedge.lower);
        }
    }
}
