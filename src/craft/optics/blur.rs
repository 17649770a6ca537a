//! How large a point becomes on the film: by being out of focus, and by the wave nature of light.
//!
//! For: judging what an aperture does to a thing that is not quite in focus, and what stopping down
//! costs. Promises: diameters in millimetres on the film. Leaves to others: the aperture at which both
//! are in balance ([`spread`](super::spread)).

use super::conjugates::{number_at_film, outside};
use super::{Distance, f_number, focal, mm};
use crate::craft::numeral::trimmed;
use crate::craft::{Amount, Figure, Grounds, Impossible, Millimetres, Step};

/// Blur of a point.
pub const OF_A_POINT: Grounds =
    Grounds::published("D. M. Jacobson, Photographic Lenses Tutorial, ch. 4");

/// What diffraction leaves.
pub const DIFFRACTION: Grounds = Grounds::published(
    "Q.-T. Luong, How to select the f-stop, table, as quoted in Large Format Photography Forum, \
     thread 14459, 2005 (second-hand)",
);

/// Line pairs a millimetre at f/1.
const RESOLUTION: f64 = 1500.0;

/// The f-number at which the disc is one millimetre wide.
pub(super) const DISC: f64 = 750.0;

/// A point out of focus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Blur {
    /// Its diameter on the film, millimetres.
    pub diameter: f64,
    /// Whether it lies nearer than what is focused on.
    pub nearer: bool,
}

/// The blur of a point while the lens is focused elsewhere, for a pupil ratio of 1:
/// `f² (1/point - 1/focused) / (N (1 - f/focused))`.
///
/// # Errors
/// If the lens or the f-number is impossible, or what is focused on lies inside the focal length.
pub fn of_point(
    focal_length: Millimetres,
    number: f64,
    focused: Distance,
    point: Distance,
) -> Result<Figure<Blur>, Impossible> {
    let (f, n) = (focal(focal_length)?, f_number(number)?);
    outside(f, focused)?;
    outside(f, point)?;
    let (there, here) = (focused.inverse(), point.inverse());
    let signed = f * f * (here - there) / (n * (1.0 - f * there));
    let blur = Blur {
        diameter: signed.abs(),
        nearer: signed > 0.0,
    };
    let working = format!(
        "{f}² x (1 / {point} - 1 / {focused}) / ({} x (1 - {f} / {focused}))",
        trimmed(n, 2),
        f = trimmed(f, 1),
    );
    Ok(Figure::new(blur, OF_A_POINT)
        .within("a lens with a pupil ratio near 1; diffraction not counted")
        .step(Step::new("blur on the film", mm(blur.diameter, 4)).working(working)))
}

/// What diffraction does to a point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Diffraction {
    /// Line pairs a millimetre that are left, `1500 / N`.
    pub resolution: f64,
    /// The diameter of the disc, `N / 750` in millimetres.
    pub disc: f64,
}

/// What diffraction leaves at an f-number; the f-number at the film for near subjects,
/// `N (1 + m)`.
///
/// # Errors
/// If the f-number is impossible, or the magnification negative.
pub fn diffraction(number: f64, magnification: f64) -> Result<Figure<Diffraction>, Impossible> {
    let n = f_number(number)?;
    if !(0.0..=100.0).contains(&magnification) {
        return Err(Impossible::new(
            "a magnification lies between 0, for infinity, and 100: write 0.25 or 1/4",
        ));
    }
    let at_film = number_at_film(n, magnification, 1.0);
    let found = Diffraction {
        resolution: RESOLUTION / at_film,
        disc: at_film / DISC,
    };
    let shown = trimmed(at_film, 2);
    let mut figure =
        Figure::new(found, DIFFRACTION).within("green light, a lens without faults of its own");
    if magnification > 0.0 {
        figure = figure.step(
            Step::new("f-number at the film", Amount::number(at_film, "", 2)).working(format!(
                "{} x (1 + {})",
                trimmed(n, 2),
                trimmed(magnification, 3)
            )),
        );
    }
    Ok(figure
        .step(
            Step::new("resolution", Amount::number(found.resolution, "lp/mm", 1))
                .working(format!("1500 / {shown}"))
                .on(DIFFRACTION),
        )
        .step(
            Step::new("disc of a point", mm(found.disc, 4))
                .working(format!("{shown} / 750"))
                .on(DIFFRACTION),
        ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn off(value: f64) -> Distance {
        Distance::new(value).unwrap()
    }

    #[test]
    fn what_forms_no_image_is_a_sentence() {
        let f = Millimetres::new(150.0).unwrap();
        assert!(of_point(f, 22.0, off(100.0), off(2000.0)).is_err());
        assert!(of_point(f, 22.0, off(5000.0), off(100.0)).is_err());
        assert!(of_point(f, f64::NAN, off(5000.0), off(1000.0)).is_err());
        assert!(diffraction(0.0, 0.0).is_err());
        assert!(diffraction(22.0, -1.0).is_err());
    }

    proptest! {
        #[test]
        fn what_is_focused_on_has_no_blur_and_stopping_down_halves_it(
            f in 50.0..800.0_f64, times in 1.2..500.0_f64, other in 1.2..500.0_f64,
        ) {
            let lens = Millimetres::new(f).unwrap();
            let (focused, point) = (off(f * times), off(f * other));
            let at = |n: f64, point| of_point(lens, n, focused, point).unwrap().value.diameter;
            prop_assert!(at(16.0, focused) < 1e-9);
            prop_assert!((at(16.0, point) - 2.0 * at(32.0, point)).abs() < 1e-9);
        }
    }
}
