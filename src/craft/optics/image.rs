//! How large something becomes on the film, and which lens makes it so large.
//!
//! For: choosing a lens before it is on the camera. Promises: the exact form is the value; the rule
//! `I A = F G` of the old manuals stands beside it, with what it leaves out.

use super::conjugates::{BY_SIZE, LENS_EQUATION, from_distance};
use super::{Distance, mm};
use crate::craft::numeral::trimmed;
use crate::craft::{Amount, Figure, Grounds, Impossible, Millimetres, Step};

/// The size of a far subject.
const FAR_RULE: Grounds =
    Grounds::published("US Navy NAVEDTRA 14209, Photography (Basic), p. 1-30: I A = F G");

/// The image of a far subject by the rule `I A = F G`: `F G / A`, all lengths in one unit. It is
/// too small by the factor `A / (A - F)`.
#[must_use]
pub fn far_image(focal_length: f64, subject: f64, distance: f64) -> f64 {
    focal_length * subject / distance
}

/// How large a subject becomes on the film, `G f / (u - f)`; the step with the rule `I A = F G`
/// shows what the rule leaves out.
///
/// # Errors
/// If the lens has no focal length, the subject no size, or it is not outside the focal length.
pub fn image_size(
    focal_length: Millimetres,
    subject: Millimetres,
    distance: Distance,
) -> Result<Figure<f64>, Impossible> {
    let found = from_distance(focal_length, distance)?;
    let Some(u) = distance.millimetres() else {
        return Err(Impossible::new(
            "a subject at infinity has no size on the film: give its distance, such as 40 m",
        ));
    };
    if subject.value() <= 0.0 {
        return Err(Impossible::new(
            "a subject of no size leaves no image: give its height or width, such as 2 m",
        ));
    }
    let (f, g) = (focal_length.value(), subject.value());
    let image = g * found.value.magnification;
    let rule = far_image(f, g, u);
    Ok(Figure::new(image, LENS_EQUATION)
        .step(Step::new("on the film", mm(image, 2)).working(format!(
            "{} x {f} / ({u} - {f})",
            trimmed(g, 0),
            f = trimmed(f, 1),
            u = trimmed(u, 0)
        )))
        .step(
            Step::new("by I A = F G", mm(rule, 2))
                .working(format!(
                    "{} x {} / {}",
                    trimmed(f, 1),
                    trimmed(g, 0),
                    trimmed(u, 0)
                ))
                .on(FAR_RULE),
        ))
}

/// The focal length that brings a subject at a distance to a size on the film, `u m / (1 + m)`.
///
/// # Errors
/// If a size is zero or the subject at infinity.
pub fn focal_length_for(
    image: Millimetres,
    subject: Millimetres,
    distance: Distance,
) -> Result<Figure<f64>, Impossible> {
    let Some(u) = distance.millimetres() else {
        return Err(Impossible::new(
            "a subject at infinity fills no part of the film: give its distance, such as 40 m",
        ));
    };
    if image.value() <= 0.0 || subject.value() <= 0.0 {
        return Err(Impossible::new(
            "something of no size has no magnification: give both sizes, such as 100 mm and 2 m",
        ));
    }
    let m = image.value() / subject.value();
    let f = u * m / (1.0 + m);
    let rule = image.value() * u / subject.value();
    Ok(Figure::new(f, BY_SIZE)
        .step(
            Step::new("magnification", Amount::number(m, "", 4))
                .working(format!("{image} / {subject}")),
        )
        .step(Step::new("focal length", mm(f, 1)).working(format!(
            "{} x {m} / (1 + {m})",
            trimmed(u, 0),
            m = trimmed(m, 4)
        )))
        .step(
            Step::new("by I A = F G", mm(rule, 1))
                .working(format!("{image} x {distance} / {subject}"))
                .on(FAR_RULE),
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
    fn what_leaves_no_image_is_a_sentence() {
        let off = Distance::new(5000.0).unwrap();
        assert!(image_size(length(150.0), length(2000.0), Distance::INFINITY).is_err());
        assert!(image_size(length(150.0), length(0.0), off).is_err());
        assert!(focal_length_for(length(0.0), length(2000.0), off).is_err());
        assert!(focal_length_for(length(90.0), length(2000.0), Distance::INFINITY).is_err());
    }

    proptest! {
        #[test]
        fn the_lens_for_a_size_makes_that_size(f in 40.0..800.0_f64, times in 1.1..300.0_f64) {
            let off = Distance::new(f * times).unwrap();
            let image = image_size(length(f), length(2000.0), off).unwrap().value;
            let lens = focal_length_for(length(image), length(2000.0), off).unwrap().value;
            prop_assert!((lens / f - 1.0).abs() < 1e-9);
            // The rule says less, and less wrong the further off.
            let rule = far_image(f, 2000.0, f * times);
            prop_assert!((image / rule - times / (times - 1.0)).abs() < 1e-6);
        }
    }
}
