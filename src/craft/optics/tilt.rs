//! The plane of sharpness of a tilted lens: film, lens and that plane meet in one line, and it turns
//! about a hinge that lies a fixed way from the lens.
//!
//! For: how far to tilt, from two points on the ground glass or from where the hinge shall lie.
//! Promises: the angle is that between lens and film, wherever the rail points; a plane that no tilt
//! reaches is a sentence. Swing is the same with sideways for up. Leaves to others: how deep the
//! sharpness is about the plane ([`wedge`](super::wedge)), whether the circle still reaches the corners
//! ([`coverage`](super::coverage)).

use super::{focal, mm, tan};
use crate::craft::numeral::trimmed;
use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Millimetres, Step};

/// The hinge, `J = f / sin(tilt)`.
pub const HINGE: Grounds = Grounds::published(
    "H. M. Merklinger, Principles of View Camera Focus, lensnotes.com; encyclopedia article \
     \"Scheimpflug principle\", after Merklinger, 1996",
);

/// The quick rule in feet.
const QUICK: Grounds = Grounds::published(
    "a re-telling of Merklinger's rule, kctd-cctv.com, 2026 (second-hand): f / (5 J in feet); it \
     reads about 6 % high",
);

/// Tilt from two points.
pub const TWO_POINTS: Grounds = Grounds::published(
    "derived from the lens equation and the hinge rule (Merklinger); exact for a thin lens",
);

/// When tilting pays.
const PAYS: Grounds = Grounds::published(
    "Large Format Photography Forum, thread 42125 (second-hand): the spread against height on the \
     glass times tilt",
);

/// The steepest tilt that is reckoned with, in degrees.
pub(super) const STEEPEST: f64 = 80.0;

const FOOT: f64 = 304.8;

/// A tilt, if it can be reckoned with: degrees, a thousandth at least.
pub(super) fn tilted(tilt: f64) -> Result<f64, Impossible> {
    if tilt.abs() < 1e-3 {
        return Err(Impossible::new(
            "without tilt there is no hinge: the plane of sharpness stays parallel to the film; \
             give a tilt, such as 5 degrees",
        ));
    }
    if tilt.abs() <= STEEPEST {
        return Ok(tilt);
    }
    Err(Impossible::new(format!(
        "no lens is tilted by {} degrees: it lies up to 80 either way",
        trimmed(tilt, 1)
    )))
}

/// From the lens to the hinge, measured parallel to the film, for a tilt in degrees:
/// `J = f / sin(tilt)`, in millimetres.
///
/// # Errors
/// If the lens has no focal length, or the tilt is zero or above 80 degrees.
pub fn hinge(focal_length: Millimetres, tilt: f64) -> Result<Figure<f64>, Impossible> {
    let (f, tilt) = (focal(focal_length)?, tilted(tilt)?);
    let j = f / tilt.to_radians().sin().abs();
    Ok(Figure::new(j, HINGE)
        .within("thin lens, tilted about its middle; the angle is that between lens and film")
        .step(
            Step::new("lens to hinge", Amount::number(j / 1000.0, "m", 3))
                .working(format!("{focal_length} / sin {} deg", trimmed(tilt, 2)))
                .on(HINGE),
        ))
}

/// The tilt in degrees that puts the hinge so far from the lens, `asin(f / J)`: for ground that shall
/// be sharp, the height of the lens above it.
///
/// # Errors
/// If the lens has no focal length, or the hinge lies nearer than it.
pub fn for_hinge(focal_length: Millimetres, hinge: Millimetres) -> Result<Figure<f64>, Impossible> {
    let (f, j) = (focal(focal_length)?, hinge.value());
    // Above 80 degrees lens and film stand across each other.
    if j * STEEPEST.to_radians().sin() < f {
        return Err(Impossible::new(format!(
            "no tilt brings the hinge {hinge} from a lens of {focal_length}: it cannot lie nearer \
             than the focal length; take a shorter lens or stand further from the plane"
        )));
    }
    let tilt = (f / j).asin().to_degrees();
    Ok(Figure::new(tilt, HINGE)
        .within("thin lens, tilted about its middle; the distance is measured parallel to the film")
        .step(
            Step::new("tilt", Amount::degrees(tilt))
                .working(format!("asin({focal_length} / {hinge})"))
                .on(HINGE),
        )
        .step(
            Step::new("quick rule, feet", Amount::degrees(quick_by_feet(f, j)))
                .working(format!(
                    "{} / (5 x {} ft)",
                    trimmed(f, 1),
                    trimmed(j / FOOT, 2)
                ))
                .on(QUICK),
        ))
}

/// The quick rule, `f / (5 J)` with the focal length in millimetres and the hinge in feet: degrees,
/// about 6 % too many. Both lengths here in millimetres.
#[must_use]
pub fn quick_by_feet(focal_length: f64, hinge: f64) -> f64 {
    focal_length / (5.0 * hinge / FOOT)
}

/// The rule for small angles, `57.3 f / J`, in degrees; both lengths in one unit.
#[must_use]
pub fn quick(focal_length: f64, hinge: f64) -> f64 {
    (focal_length / hinge).to_degrees()
}

/// From the film to the lens along the normal of the film, so that the plane of sharpness stands
/// square to the film: `f / cos(tilt)`, in millimetres. Level ground with an upright back.
#[must_use]
pub fn level_draw(focal_length: f64, tilt: f64) -> f64 {
    focal_length / tilt.to_radians().cos()
}

/// The angle between the plane of sharpness and the film in degrees, from 0 to 180, for a draw along
/// the normal of the film: `tan psi = v sin(tilt) / (v cos(tilt) - f)`.
#[must_use]
pub fn plane_angle(focal_length: f64, tilt: f64, draw: f64) -> f64 {
    let tilt = tilt.to_radians();
    (draw * tilt.sin())
        .atan2(draw * tilt.cos() - focal_length)
        .to_degrees()
}

/// The draw along the normal of the film that turns the plane of sharpness to an angle with the film,
/// `f / (cos(tilt) - sin(tilt) / tan psi)`, in millimetres.
///
/// # Errors
/// If no draw does: the angle is out of reach at this tilt.
pub fn draw_for_angle(
    focal_length: Millimetres,
    tilt: f64,
    plane: f64,
) -> Result<Figure<f64>, Impossible> {
    let (f, tilt) = (focal(focal_length)?, tilted(tilt)?);
    if !(plane > 0.0 && plane < 180.0) {
        return Err(Impossible::new(
            "the angle between the plane of sharpness and the film lies between 0 and 180 degrees: \
             90 for level ground before an upright back",
        ));
    }
    let (sin, cos) = tilt.to_radians().sin_cos();
    let below = cos - sin / tan(plane);
    if below <= f / Millimetres::HIGHEST {
        return Err(Impossible::new(format!(
            "a tilt of {} degrees does not reach a plane at {} degrees to the film: tilt less, or \
             turn the plane further",
            trimmed(tilt, 2),
            trimmed(plane, 1)
        )));
    }
    let draw = f / below;
    Ok(Figure::new(draw, HINGE).step(
        Step::new("film to lens", mm(draw, 2))
            .working(format!(
                "{} / (cos {a} - sin {a} / tan {})",
                trimmed(f, 1),
                trimmed(plane, 2),
                a = trimmed(tilt, 3)
            ))
            .on(HINGE),
    ))
}

/// A point as it was focused with the lens upright.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sighted {
    /// From the lens to the film when it was sharp, millimetres.
    pub draw: f64,
    /// How high it stood on the ground glass above the axis of the lens, millimetres.
    pub height: f64,
}

/// The tilt two points ask for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Asked {
    /// If the back is tilted instead of the lens, degrees.
    pub back: f64,
    /// If the lens is tilted, degrees; the top forward is positive.
    pub front: f64,
    /// From the lens to the hinge, millimetres; nothing if no tilt is asked.
    pub hinge: Option<f64>,
    /// Where the plane crosses the axis it is sharp at this draw, millimetres.
    pub on_axis: f64,
}

/// The tilt that makes two points sharp together, from the draw and the height on the glass at which
/// each was sharp with an upright lens: `tan(back) = dv / dy`, `sin(front) = (f / v0) dv / dy`.
///
/// # Errors
/// If both points stand equally high on the glass, a draw is shorter than the focal length, or the
/// tilt would be out of reach.
pub fn from_points(
    focal_length: Millimetres,
    far: Sighted,
    near: Sighted,
) -> Result<Figure<Asked>, Impossible> {
    let f = focal(focal_length)?;
    let reach = |it: f64| it.abs() <= Millimetres::HIGHEST;
    if ![far.draw, far.height, near.draw, near.height]
        .into_iter()
        .all(reach)
    {
        return Err(Impossible::new(
            "a ground glass is not so large: give draws and heights in millimetres",
        ));
    }
    // A reading may be off by a little; a draw well short of the focal length is a slip.
    if far.draw.min(near.draw) < 0.98 * f {
        return Err(Impossible::new(format!(
            "a draw of {} mm is shorter than the focal length of {focal_length}: measure from the \
             lens to the film",
            trimmed(far.draw.min(near.draw), 2)
        )));
    }
    let (dv, dy) = (near.draw - far.draw, near.height - far.height);
    if dy.abs() < 0.5 {
        return Err(Impossible::new(
            "both points stand equally high on the ground glass, so no tilt brings them together: \
             take two at different heights, or a swing for two side by side",
        ));
    }
    let slope = dv / dy;
    let on_axis = far.draw - far.height * slope;
    let sine = f / on_axis * slope;
    let back = slope.atan().to_degrees();
    if on_axis < 0.5 * f || sine.abs() > STEEPEST.to_radians().sin() {
        return Err(Impossible::new(
            "no tilt brings these two points together: the plane through them passes too near the \
             lens; check the heights on the glass, in millimetres",
        ));
    }
    let front = sine.asin().to_degrees();
    let found = Asked {
        back,
        front,
        hinge: (slope != 0.0).then(|| (f / sine).abs()),
        on_axis,
    };
    let shown = trimmed(slope, 4);
    let mut figure = Figure::new(found, TWO_POINTS)
        .within("heights from the axis of the lens, each taken while that point was sharp")
        .step(
            Step::new("travel over height", Amount::number(slope, "", 4)).working(format!(
                "{} / {}",
                trimmed(dv, 3),
                trimmed(dy, 2)
            )),
        )
        .step(
            Step::new("draw on the axis", mm(on_axis, 2)).working(format!(
                "{} - {} x {shown}",
                trimmed(far.draw, 2),
                trimmed(far.height, 2)
            )),
        )
        .step(
            Step::new("tilt of the lens", Amount::degrees(front)).working(format!(
                "asin({} / {} x {shown})",
                trimmed(f, 1),
                trimmed(on_axis, 2)
            )),
        )
        .step(Step::new("or of the back", Amount::degrees(back)).working(format!("atan({shown})")));
    if let Some(hinge) = found.hinge {
        figure = figure.step(
            Step::new("lens to hinge", Amount::number(hinge / 1000.0, "m", 3))
                .working(format!("{} / {shown}", trimmed(on_axis, 2)))
                .on(HINGE),
        );
    }
    Ok(figure.remark(
        Concern::Note,
        "a lens that tilts at its base also moves along the rail and down: focus and frame again",
    ))
}

/// The angle between lens axis and film normal when tilt and swing are both set, in degrees:
/// `cos = cos(tilt) cos(swing)`.
#[must_use]
pub fn combined(tilt: f64, swing: f64) -> f64 {
    (tilt.to_radians().cos() * swing.to_radians().cos())
        .clamp(-1.0, 1.0)
        .acos()
        .to_degrees()
}

/// How many times smaller an f-number a tilt allows: the travel with the lens upright against the
/// height on the glass that must stay sharp times the tilt. Above 1 the tilt pays.
///
/// # Errors
/// If the travel or the height is not above zero, or the tilt impossible.
pub fn pays(
    untilted: Millimetres,
    height: Millimetres,
    tilt: f64,
) -> Result<Figure<f64>, Impossible> {
    let tilt = tilted(tilt)?;
    if untilted.value() <= 0.0 || height.value() <= 0.0 {
        return Err(Impossible::new(
            "tilted and upright are compared by the travel with the lens upright and the height on \
             the glass of what rises from the plane: give both above 0 mm",
        ));
    }
    let with = height.value() * tilt.to_radians().sin().abs();
    let ratio = untilted.value() / with;
    Ok(Figure::new(ratio, PAYS).step(
        Step::new("upright over tilted", Amount::Factor(ratio))
            .working(format!(
                "{untilted} / ({height} x sin {} deg)",
                trimmed(tilt, 2)
            ))
            .on(PAYS),
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn length(value: f64) -> Millimetres {
        Millimetres::new(value).unwrap()
    }

    #[test]
    fn a_plane_out_of_reach_is_a_sentence() {
        let f = length(150.0);
        let at = |draw, height| Sighted { draw, height };
        for why in [
            hinge(f, 0.0).unwrap_err(),
            hinge(f, 90.0).unwrap_err(),
            hinge(f, f64::NAN).unwrap_err(),
            for_hinge(f, length(149.0)).unwrap_err(),
            for_hinge(f, length(0.0)).unwrap_err(),
            draw_for_angle(f, 5.0, 0.0).unwrap_err(),
            draw_for_angle(f, 5.0, 4.0).unwrap_err(),
            from_points(f, at(150.0, 0.0), at(160.0, 0.0)).unwrap_err(),
            from_points(f, at(50.0, 0.0), at(160.0, 40.0)).unwrap_err(),
            from_points(f, at(150.0, 0.0), at(350.0, 2.0)).unwrap_err(),
            from_points(f, at(f64::NAN, 0.0), at(350.0, 2.0)).unwrap_err(),
            pays(length(0.0), length(10.0), 5.0).unwrap_err(),
        ] {
            assert!(!why.to_string().is_empty());
        }
    }

    #[test]
    fn points_equally_far_ask_for_no_tilt() {
        let at = |draw, height| Sighted { draw, height };
        let found = from_points(length(150.0), at(155.0, -10.0), at(155.0, 60.0))
            .unwrap()
            .value;
        assert_eq!((found.front, found.back, found.hinge), (0.0, 0.0, None));
    }

    proptest! {
        #[test]
        fn tilt_and_hinge_lead_back_to_each_other(f in 50.0..800.0_f64, tilt in 0.1..79.0_f64) {
            let lens = length(f);
            let there = hinge(lens, tilt).unwrap().value;
            let back = for_hinge(lens, length(there)).unwrap().value;
            prop_assert!((back - tilt).abs() < 1e-6);
        }

        #[test]
        fn plane_angle_and_draw_lead_back_to_each_other(
            f in 50.0..800.0_f64, tilt in 0.5..20.0_f64, plane in 40.0..140.0_f64,
        ) {
            let draw = draw_for_angle(length(f), tilt, plane).unwrap().value;
            prop_assert!((plane_angle(f, tilt, draw) - plane).abs() < 1e-6);
            let level = draw_for_angle(length(f), tilt, 90.0).unwrap().value;
            prop_assert!((level - level_draw(f, tilt)).abs() < 1e-6);
        }

        #[test]
        fn two_points_of_one_plane_give_the_tilt_that_holds_them(
            f in 60.0..400.0_f64, below in 0.5..5.0_f64,
            rising in -0.2..0.2_f64, near in 8.0..30.0_f64, more in 1.5..50.0_f64,
        ) {
            // A plane that lies `below` metres under the lens there and rises away from it.
            let sighted = |z: f64| {
                let height = -below * 1000.0 + rising * z;
                let draw = f / (1.0 - f / z);
                Sighted { draw, height: -height * draw / z }
            };
            let (far, near) = (sighted(f * near * more), sighted(f * near));
            prop_assume!((near.height - far.height).abs() > 1.0);
            let found = from_points(length(f), far, near).unwrap().value;
            let hinge = found.hinge.unwrap();
            // The hinge lies under the lens in the plane, whatever the slope of it.
            prop_assert!((hinge / (below * 1000.0) - 1.0).abs() < 1e-6, "{hinge}");
            let tilt = for_hinge(length(f), length(hinge)).unwrap().value;
            prop_assert!((tilt - found.front).abs() < 1e-6);
        }
    }
}
