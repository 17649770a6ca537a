//! Where the film must be for a subject so far off, and how large the subject becomes.
//!
//! For: focusing, copying, choosing a lens, and the draw a bellows must give. Promises: subject,
//! film and magnification of a [`Conjugates`] satisfy the lens equation. Distances count from the two
//! principal planes, taken as one; for a telephoto lens only the extra draw beyond infinity is right,
//! and [`draw_on_rail`] counts it from the flange. Leaves to others: what the draw takes from the light
//! ([`bellows`](crate::craft::bellows)).

use super::{Distance, focal, mm};
use crate::craft::numeral::trimmed;
use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Millimetres, Step};

/// The lens equation.
pub const LENS_EQUATION: Grounds =
    Grounds::published("D. M. Jacobson, Photographic Lenses FAQ, 1995-1997");

/// Image and object distance by magnification.
pub(super) const BY_SIZE: Grounds = Grounds::published(
    "US Navy NAVEDTRA 14209, Photography (Basic), pp. 1-26 to 1-30; US Army subcourse SS0511",
);

/// The whole span, solved for the place of the lens.
const BY_SPAN: Grounds = Grounds::published(
    "derived from the lens equation (D. M. Jacobson, Photographic Lenses FAQ, 1995-1997)",
);

/// The greatest magnification any figure here is asked for.
const LARGEST: f64 = 100.0;

/// Subject, lens and film in focus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conjugates {
    /// Focal length, millimetres.
    pub focal_length: f64,
    /// From the lens to the subject.
    pub subject: Distance,
    /// From the lens to the film, millimetres.
    pub image: f64,
    /// Size on the film over size of the subject.
    pub magnification: f64,
}

impl Conjugates {
    fn at(f: f64, magnification: f64) -> Conjugates {
        let subject = match magnification {
            m if m > 0.0 => Distance::reckoned(f * (1.0 + 1.0 / m)),
            _ => Distance::INFINITY,
        };
        Conjugates {
            focal_length: f,
            subject,
            image: f * (1.0 + magnification),
            magnification,
        }
    }

    /// Draw beyond that for infinity, `f m`, in millimetres.
    #[must_use]
    pub fn extension(self) -> f64 {
        self.focal_length * self.magnification
    }

    /// From the subject to the film, `f (2 + m + 1/m)`, for a thin lens; a real one is longer by the
    /// distance between its principal planes.
    #[must_use]
    pub fn object_to_film(self) -> Distance {
        match self.subject.millimetres() {
            Some(subject) => Distance::reckoned(subject + self.image),
            None => Distance::INFINITY,
        }
    }
}

/// `v = f / (1 - f/u)`: the image distance of a subject, in millimetres, without guards.
pub(super) fn image_of(f: f64, subject: Distance) -> f64 {
    f / (1.0 - f * subject.inverse())
}

/// Whether a subject lies outside the focal length, so that it forms an image.
pub(super) fn outside(f: f64, subject: Distance) -> Result<(), Impossible> {
    if subject.inverse() * f < 1.0 {
        return Ok(());
    }
    Err(Impossible::new(format!(
        "a subject at {subject} lies inside the focal length of {} mm and forms no image on film: \
         give its distance from the lens, such as 3 m",
        trimmed(f, 1)
    )))
}

/// In focus for a subject so far from the lens, `1/u + 1/v = 1/f`.
///
/// # Errors
/// If the lens has no focal length or the subject is not outside it.
pub fn from_distance(
    focal_length: Millimetres,
    subject: Distance,
) -> Result<Figure<Conjugates>, Impossible> {
    let f = focal(focal_length)?;
    outside(f, subject)?;
    let image = image_of(f, subject);
    let found = Conjugates {
        subject,
        ..Conjugates::at(f, magnified(image / f - 1.0)?)
    };
    let working = match subject.millimetres() {
        Some(u) => format!("1 / (1/{} - 1/{})", trimmed(f, 1), trimmed(u, 0)),
        None => "the focal length, at infinity".to_owned(),
    };
    Ok(told(found, LENS_EQUATION, working))
}

/// In focus at a magnification, `v = f (1 + m)` and `u = f (1 + 1/m)`.
///
/// # Errors
/// If the lens has no focal length or the magnification is negative or above 100.
pub fn from_magnification(
    focal_length: Millimetres,
    magnification: f64,
) -> Result<Figure<Conjugates>, Impossible> {
    let f = focal(focal_length)?;
    let m = magnified(magnification)?;
    let working = format!("{} x (1 + {})", trimmed(f, 1), trimmed(m, 4));
    Ok(told(Conjugates::at(f, m), BY_SIZE, working))
}

/// In focus when a subject of one size becomes another on the film, as in copying.
///
/// # Errors
/// If a size is zero, the lens has no focal length, or the magnification is above 100.
pub fn from_sizes(
    focal_length: Millimetres,
    subject: Millimetres,
    image: Millimetres,
) -> Result<Figure<Conjugates>, Impossible> {
    if subject.value() <= 0.0 || image.value() <= 0.0 {
        return Err(Impossible::new(
            "something of no size has no magnification: give the size of the subject and its size \
             on the film, such as 400 mm and 100 mm",
        ));
    }
    let m = image.value() / subject.value();
    let mut figure = from_magnification(focal_length, m)?;
    let step = Step::new("magnification", Amount::number(m, "", 4))
        .working(format!("{image} / {subject}"));
    figure.steps.insert(0, step);
    Ok(figure)
}

/// In focus for whatever stands where this draw puts it, `m = v/f - 1`: the greatest magnification
/// and the nearest subject of a bellows.
///
/// # Errors
/// If the lens has no focal length, or the draw is shorter than it.
pub fn from_draw(
    focal_length: Millimetres,
    draw: Millimetres,
) -> Result<Figure<Conjugates>, Impossible> {
    let f = focal(focal_length)?;
    if draw.value() < f {
        return Err(Impossible::new(format!(
            "a draw of {draw} is shorter than the focal length of {focal_length}: nothing is in \
             focus there, not even infinity"
        )));
    }
    let m = magnified(draw.value() / f - 1.0)?;
    let mut figure = told(Conjugates::at(f, m), BY_SPAN, String::new());
    let step = Step::new("magnification", Amount::number(m, "", 4))
        .working(format!("{draw} / {focal_length} - 1"));
    figure.steps.insert(0, step);
    Ok(figure)
}

/// In focus for a subject so far from the film, `v = T/2 - √(T²/4 - f T)`: of the two places for the
/// lens, the one further from the subject.
///
/// # Errors
/// If the lens has no focal length, or the subject is nearer to the film than four of them.
pub fn from_object_to_film(
    focal_length: Millimetres,
    span: Distance,
) -> Result<Figure<Conjugates>, Impossible> {
    let f = focal(focal_length)?;
    let Some(t) = span.millimetres() else {
        return from_distance(focal_length, Distance::INFINITY);
    };
    if t < 4.0 * f {
        return Err(Impossible::new(format!(
            "a subject {span} from the film is nearer than four focal lengths, {} mm: no place of \
             this lens makes it sharp; move back or take a shorter lens",
            trimmed(4.0 * f, 1)
        )));
    }
    // The same as T/2 - √(T²/4 - f T), without the difference of two long lengths.
    let image = 2.0 * f / (1.0 + (1.0 - 4.0 * f / t).max(0.0).sqrt());
    let m = magnified(image / f - 1.0)?;
    let working = format!(
        "{t} / 2 - √({t}² / 4 - {f} x {t})",
        t = trimmed(t, 0),
        f = trimmed(f, 1)
    );
    let figure = told(Conjugates::at(f, m), BY_SPAN, working);
    if (1e-3..0.999).contains(&m) {
        return Ok(figure.remark(
            Concern::Note,
            format!(
                "the lens has a second place between the two, {} mm from the film, and magnifies \
                 x{} there",
                trimmed(f * (1.0 + 1.0 / m), 1),
                trimmed(1.0 / m, 2)
            ),
        ));
    }
    Ok(figure)
}

fn magnified(m: f64) -> Result<f64, Impossible> {
    if (0.0..=LARGEST).contains(&m) {
        return Ok(m);
    }
    Err(Impossible::new(format!(
        "a magnification of {} is out of reach: it lies between 0, for infinity, and 100; write \
         0.25 or 1/4",
        trimmed(m, 3)
    )))
}

/// The steps all ways into focus have in common.
fn told(found: Conjugates, grounds: Grounds, image: String) -> Figure<Conjugates> {
    let (f, m) = (
        trimmed(found.focal_length, 1),
        trimmed(found.magnification, 4),
    );
    let figure = Figure::new(found, grounds)
        .within("distances from the principal planes of the lens, taken as one")
        .step(Step::new("lens to film", mm(found.image, 2)).working(image))
        .step(
            Step::new("beyond infinity focus", mm(found.extension(), 2))
                .working(format!("{f} x {m}")),
        );
    if found.subject.is_infinite() {
        return figure;
    }
    figure
        .step(
            Step::new("lens to subject", found.subject.amount())
                .working(format!("{f} x (1 + 1/{m})")),
        )
        .step(
            Step::new("subject to film", found.object_to_film().amount())
                .working(format!("{f} x (2 + {m} + 1/{m})")),
        )
}

/// The f-number at the film, `N (1 + m / p)`, for a pupil ratio p: what diffraction and exposure go
/// by, exposure with its square.
#[must_use]
pub fn number_at_film(number: f64, magnification: f64, pupil_ratio: f64) -> f64 {
    number * (1.0 + magnification / pupil_ratio)
}

/// The draw as a rail shows it, in millimetres: flange focal distance at infinity and `f m`. Right
/// for telephoto and retrofocus lenses too.
#[must_use]
pub fn draw_on_rail(flange: f64, focal_length: f64, magnification: f64) -> f64 {
    flange + focal_length * magnification
}

/// Whether a bellows gives a draw.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reach {
    /// It does.
    Within,
    /// It ends so many millimetres before.
    TooShort(f64),
    /// It cannot be pressed together so far, by so many millimetres.
    TooLong(f64),
}

/// Whether a bellows from `shortest` to `longest` gives a draw, all in millimetres; a limit that is
/// not known does not bind.
#[must_use]
pub fn reach(draw: f64, shortest: Option<f64>, longest: Option<f64>) -> Reach {
    match (shortest, longest) {
        (_, Some(longest)) if draw > longest => Reach::TooShort(draw - longest),
        (Some(shortest), _) if draw < shortest => Reach::TooLong(shortest - draw),
        _ => Reach::Within,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn length(value: f64) -> Millimetres {
        Millimetres::new(value).unwrap()
    }

    fn off(value: f64) -> Distance {
        Distance::new(value).unwrap()
    }

    #[test]
    fn what_forms_no_image_is_a_sentence() {
        for why in [
            from_distance(length(0.0), off(1000.0)).unwrap_err(),
            from_distance(length(150.0), off(150.0)).unwrap_err(),
            from_magnification(length(150.0), -0.1).unwrap_err(),
            from_magnification(length(150.0), f64::NAN).unwrap_err(),
            from_sizes(length(150.0), length(0.0), length(10.0)).unwrap_err(),
            from_draw(length(150.0), length(149.0)).unwrap_err(),
            from_object_to_film(length(150.0), off(599.0)).unwrap_err(),
        ] {
            assert!(!why.to_string().is_empty());
        }
    }

    #[test]
    fn four_focal_lengths_apart_is_life_size() {
        let found = from_object_to_film(length(150.0), off(600.0))
            .unwrap()
            .value;
        assert!((found.magnification - 1.0).abs() < 1e-9);
    }

    #[test]
    fn a_bellows_ends_on_both_sides() {
        assert_eq!(reach(300.0, Some(100.0), Some(400.0)), Reach::Within);
        assert_eq!(
            reach(450.0, Some(100.0), Some(400.0)),
            Reach::TooShort(50.0)
        );
        assert_eq!(reach(65.0, Some(100.0), None), Reach::TooLong(35.0));
        assert_eq!(reach(9000.0, None, None), Reach::Within);
    }

    proptest! {
        #[test]
        fn every_way_into_focus_satisfies_the_lens_equation(
            f in 40.0..900.0_f64, times in 1.02..400.0_f64,
        ) {
            let found = from_distance(length(f), off(f * times)).unwrap().value;
            let u = found.subject.millimetres().unwrap();
            prop_assert!((1.0 / u + 1.0 / found.image - 1.0 / f).abs() < 1e-9);
            let again = from_magnification(length(f), found.magnification).unwrap().value;
            prop_assert!((again.image / found.image - 1.0).abs() < 1e-9);
            let again = from_draw(length(f), length(found.image)).unwrap().value;
            prop_assert!((again.subject.millimetres().unwrap() / u - 1.0).abs() < 1e-6);
            if times > 2.0 {
                let again = from_object_to_film(length(f), found.object_to_film()).unwrap().value;
                prop_assert!((again.image / found.image - 1.0).abs() < 1e-6);
            }
        }

        #[test]
        fn nearer_is_larger_and_needs_more_draw(f in 40.0..900.0_f64, times in 1.1..300.0_f64) {
            let near = from_distance(length(f), off(f * times)).unwrap().value;
            let far = from_distance(length(f), off(f * times * 1.1)).unwrap().value;
            prop_assert!(near.image > far.image && near.magnification > far.magnification);
            let infinity = from_distance(length(f), Distance::INFINITY).unwrap().value;
            prop_assert_eq!(infinity.image, f);
            prop_assert!(far.image > f);
        }
    }
}
