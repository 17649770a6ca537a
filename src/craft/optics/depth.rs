//! How much is sharp before and behind what is focused on.
//!
//! For: hyperfocal distance, limits of sharpness, the place to focus for two limits, depth of focus.
//! Promises: a far limit beyond everything is [`Distance::INFINITY`], never a negative number; the
//! exact form is the value, the simple one stands beside it. Leaves to others: which blur passes for
//! sharp ([`circle`](super::circle)), and how far to stop down for a measured spread
//! ([`spread`](super::spread)).
//!
//! F-numbers are plain numbers here: the exact one of an aperture is
//! [`Aperture::number`](crate::craft::Aperture::number). Printed tables often reckon with the mark.

use super::circle::allowed;
use super::conjugates::{image_of, number_at_film, outside};
use super::{Distance, f_number, focal, mm, pupils};
use crate::craft::numeral::trimmed;
use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Millimetres, Step};

/// Hyperfocal distance and simple limits.
pub const SIMPLE: Grounds = Grounds::published(
    "US Navy NAVEDTRA 14209, Photography (Basic), ch. 1; The Sinclair Handbook of Photography, \
     \"Lens Facts\"",
);

/// Exact limits with the pupil ratio.
pub const EXACT: Grounds =
    Grounds::published("D. M. Jacobson, Photographic Lenses FAQ, 1995-1997, question 11");

/// Depth on the film's side.
const ON_FILM: Grounds = Grounds::published(
    "S. F. Ray, Applied Photographic Optics, 3rd ed., p. 221, as quoted on APUG (second-hand)",
);

/// A lens, how far it is stopped down, and the blur that passes for sharp.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sharpness {
    f: f64,
    n: f64,
    c: f64,
}

impl Sharpness {
    /// A lens at an f-number with a circle of confusion in millimetres.
    ///
    /// # Errors
    /// If the lens has no focal length, the f-number or the circle is impossible, or the circle is as
    /// wide as the opening of the lens.
    pub fn new(focal_length: Millimetres, number: f64, circle: f64) -> Result<Self, Impossible> {
        let (f, n, c) = (focal(focal_length)?, f_number(number)?, allowed(circle)?);
        if c >= f / n {
            return Err(Impossible::new(format!(
                "a circle of confusion of {} mm is as wide as the opening of the lens, {} mm: with \
                 that nothing is ever unsharp; give a smaller circle",
                trimmed(c, 3),
                trimmed(f / n, 3)
            )));
        }
        Ok(Sharpness { f, n, c })
    }

    /// Focal length, millimetres.
    #[must_use]
    pub const fn focal_length(self) -> f64 {
        self.f
    }

    /// The f-number.
    #[must_use]
    pub const fn number(self) -> f64 {
        self.n
    }

    /// Circle of confusion, millimetres.
    #[must_use]
    pub const fn circle(self) -> f64 {
        self.c
    }

    /// The simple hyperfocal distance, `f² / (N c)`, in millimetres.
    #[must_use]
    pub fn hyperfocal(self) -> f64 {
        self.f * self.f / (self.n * self.c)
    }

    /// How far beyond the infinity position the lens stands when focused at the hyperfocal distance:
    /// `N c` in millimetres, whatever the focal length.
    #[must_use]
    pub fn hyperfocal_extension(self) -> f64 {
        self.n * self.c
    }

    /// The circle in units of the lens opening.
    fn part(self) -> f64 {
        self.n * self.c / self.f
    }

    fn hyperfocal_step(self) -> Step {
        Step::new(
            "hyperfocal distance",
            Distance::reckoned(self.hyperfocal()).amount(),
        )
        .working(format!(
            "{}² / ({} x {})",
            trimmed(self.f, 1),
            trimmed(self.n, 2),
            trimmed(self.c, 4)
        ))
        .on(SIMPLE)
    }
}

/// The nearest distance to focus at so that infinity is still sharp.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hyperfocal {
    /// `f² / (N c)`.
    pub simple: Distance,
    /// `f² / (N c) + f`, from the front principal plane.
    pub exact: Distance,
    /// From where on it is sharp: half of the exact distance.
    pub near: Distance,
    /// How far the lens then stands beyond infinity focus, millimetres.
    pub extension: f64,
}

/// The hyperfocal distance.
#[must_use]
pub fn hyperfocal(sharp: Sharpness) -> Figure<Hyperfocal> {
    let simple = sharp.hyperfocal();
    let exact = simple + sharp.f;
    let found = Hyperfocal {
        simple: Distance::reckoned(simple),
        exact: Distance::reckoned(exact),
        near: Distance::reckoned(exact / 2.0),
        extension: sharp.hyperfocal_extension(),
    };
    Figure::new(found, SIMPLE)
        .step(sharp.hyperfocal_step())
        .step(
            Step::new("from the lens", found.exact.amount()).working(format!(
                "{} + {}",
                found.simple,
                trimmed(sharp.f, 1)
            )),
        )
        .step(Step::new("sharp from", found.near.amount()).working("half of it"))
        .step(
            Step::new("beyond infinity focus", mm(found.extension, 2))
                .working(format!("{} x {}", trimmed(sharp.n, 2), trimmed(sharp.c, 4)))
                .on(Grounds::published(
                    "E. Bigler, Large Format Photography Forum, thread 80266, 2011",
                )),
        )
}

/// The simple near limit, `H s / (H + s)`; all lengths in one unit.
#[must_use]
pub fn simple_near(hyperfocal: f64, focused: f64) -> f64 {
    hyperfocal * focused / (hyperfocal + focused)
}

/// The simple far limit, `H s / (H - s)`, in the unit of both; nothing for infinity.
#[must_use]
pub fn simple_far(hyperfocal: f64, focused: f64) -> Option<f64> {
    (focused < hyperfocal).then(|| hyperfocal * focused / (hyperfocal - focused))
}

/// Near and far limit of what is sharp.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Depth {
    /// Sharp from here,
    pub near: Distance,
    /// to here.
    pub far: Distance,
}

/// The limits of sharpness about a distance, exact, with the pupil ratio (1 if it is not known).
///
/// # Errors
/// If the distance lies inside the focal length or the pupil ratio is impossible.
pub fn limits(
    sharp: Sharpness,
    focused: Distance,
    pupil_ratio: f64,
) -> Result<Figure<Depth>, Impossible> {
    let (f, p) = (sharp.f, pupils(pupil_ratio)?);
    outside(f, focused)?;
    let m = image_of(f, focused) / f - 1.0;
    let k = sharp.part();
    // Jacobson's Ne c / (m² (1 ± N c / (f m))), taken from s and freed of m² so that it holds at
    // infinity as well.
    let near = f + f * (1.0 - k / p) / (m + k);
    if near <= 0.0 {
        return Err(Impossible::new(
            "with this pupil ratio and circle the near limit lies behind the lens: check both",
        ));
    }
    let far = if m > k {
        Distance::reckoned(f + f * (1.0 + k / p) / (m - k))
    } else {
        Distance::INFINITY
    };
    let found = Depth {
        near: Distance::reckoned(near),
        far,
    };
    let (h, ne) = (sharp.hyperfocal(), number_at_film(sharp.n, m, p));
    let simple = focused.millimetres().map_or_else(
        || "H".to_owned(),
        |s| {
            let far = simple_far(h, s).map_or(Distance::INFINITY, Distance::reckoned);
            format!("{} to {far}", Distance::reckoned(simple_near(h, s)))
        },
    );
    let mut figure = Figure::new(found, EXACT)
        .within("distances from the front principal plane; blur reckoned without diffraction")
        .step(sharp.hyperfocal_step())
        .step(Step::new("magnification", Amount::number(m, "", 4)))
        .step(
            Step::new("f-number at the film", Amount::number(ne, "", 2)).working(format!(
                "{} x (1 + {} / {})",
                trimmed(sharp.n, 2),
                trimmed(m, 4),
                trimmed(p, 2)
            )),
        )
        .step(Step::new("sharp from", found.near.amount()))
        .step(Step::new("sharp to", found.far.amount()));
    if focused.is_infinite() {
        return Ok(figure);
    }
    figure = figure.step(Step::new("by the simple rule", Amount::words(simple)).on(SIMPLE));
    if m > 0.1 {
        figure = figure.remark(
            Concern::Note,
            "this near, the simple rule no longer holds and the pupil ratio of the lens matters",
        );
    }
    Ok(figure)
}

/// Where to focus so that two limits are equally sharp, `2 D d / (D + d)`; twice the near one if the
/// far one is infinity.
///
/// # Errors
/// If both are at infinity, or the first is not the nearer.
pub fn focus_between(near: Distance, far: Distance) -> Result<Figure<Distance>, Impossible> {
    if near.is_infinite() {
        return Err(Impossible::new(
            "a near limit at infinity leaves nothing to divide: focus at infinity, or give the \
             distance of the nearest thing that must be sharp",
        ));
    }
    if near > far {
        return Err(Impossible::new(format!(
            "the near limit of {near} lies behind the far one of {far}: change them about"
        )));
    }
    let focus = Distance::reckoned(2.0 / (near.inverse() + far.inverse()));
    let working = if far.is_infinite() {
        format!("2 x {near}")
    } else {
        format!("2 x {near} x {far} / ({near} + {far})")
    };
    Ok(Figure::new(focus, SIMPLE).step(
        Step::new("focus at", focus.amount())
            .working(working)
            .on(SIMPLE),
    ))
}

/// Depth of focus, front to back, in millimetres: how far the film may be out and the blur still pass,
/// `2 N c (1 + m)`.
///
/// # Errors
/// If the f-number or the circle is impossible, or the magnification negative.
pub fn of_focus(number: f64, circle: f64, magnification: f64) -> Result<Figure<f64>, Impossible> {
    let (n, c) = (f_number(number)?, allowed(circle)?);
    if !(0.0..=100.0).contains(&magnification) {
        return Err(Impossible::new(
            "a magnification lies between 0, for infinity, and 100: write 0.25 or 1/4",
        ));
    }
    let depth = 2.0 * n * c * (1.0 + magnification);
    Ok(Figure::new(depth, ON_FILM).step(
        Step::new("depth of focus", mm(depth, 2))
            .working(format!(
                "2 x {} x {} x (1 + {})",
                trimmed(n, 2),
                trimmed(c, 4),
                trimmed(magnification, 3)
            ))
            .on(ON_FILM),
    ))
}

/// The `count`th of the consecutive depths: focused at `H / n` it is sharp from `H / (n + 1)` to
/// `H / (n - 1)`, so that the fields of 1, 3, 5 join. `H` in millimetres.
#[must_use]
pub fn consecutive(hyperfocal: f64, count: u32) -> (Distance, Depth) {
    let part = |n: u32| match n {
        0 => Distance::INFINITY,
        n => Distance::reckoned(hyperfocal / f64::from(n)),
    };
    let depth = Depth {
        near: part(count.saturating_add(1)),
        far: part(count.saturating_sub(1)),
    };
    (part(count), depth)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn sharp(f: f64, n: f64, c: f64) -> Sharpness {
        Sharpness::new(Millimetres::new(f).unwrap(), n, c).unwrap()
    }

    fn off(value: f64) -> Distance {
        Distance::new(value).unwrap()
    }

    #[test]
    fn what_cannot_be_sharp_is_a_sentence() {
        let f = Millimetres::new(150.0).unwrap();
        assert!(Sharpness::new(f, 0.0, 0.1).is_err());
        assert!(Sharpness::new(f, 22.0, 0.0).is_err());
        assert!(Sharpness::new(f, 22.0, 9.0).is_err());
        assert!(limits(sharp(150.0, 22.0, 0.1), off(100.0), 1.0).is_err());
        assert!(limits(sharp(150.0, 22.0, 0.1), off(1000.0), 0.0).is_err());
        assert!(focus_between(off(5000.0), off(2000.0)).is_err());
        assert!(focus_between(Distance::INFINITY, Distance::INFINITY).is_err());
        assert!(of_focus(22.0, 0.1, -1.0).is_err());
    }

    #[test]
    fn focused_at_the_exact_hyperfocal_distance_infinity_is_just_sharp() {
        let sharp = sharp(150.0, 22.0, 0.1);
        let found = hyperfocal(sharp).value;
        let depth = limits(sharp, found.exact, 1.0).unwrap().value;
        let near = depth.near.millimetres().unwrap();
        assert!((near - found.near.millimetres().unwrap()).abs() < 1e-6);
        let nearer = off(found.exact.millimetres().unwrap() * 0.999);
        let depth = limits(sharp, nearer, 1.0).unwrap().value;
        assert!(depth.far.millimetres().unwrap() > 1e6);
        let at_infinity = limits(sharp, Distance::INFINITY, 1.0).unwrap().value;
        assert!((at_infinity.near.millimetres().unwrap() / sharp.hyperfocal() - 1.0).abs() < 1e-9);
        assert!(at_infinity.far.is_infinite());
    }

    proptest! {
        #[test]
        fn what_is_focused_on_lies_within_its_limits(
            f in 50.0..800.0_f64, n in 2.8..90.0_f64, c in 0.02..0.3_f64,
            times in 1.2..2000.0_f64, p in 0.5..2.0_f64,
        ) {
            let focused = off(f * times);
            let depth = limits(sharp(f, n, c), focused, p).unwrap().value;
            prop_assert!(depth.near < focused && focused < depth.far);
        }

        #[test]
        fn far_off_the_exact_limits_tend_to_the_simple_ones(
            f in 50.0..800.0_f64, n in 2.8..90.0_f64, times in 200.0..1000.0_f64,
        ) {
            // The circle keeps the distance at a third of the hyperfocal one.
            let c = f / (3.0 * n * times);
            let sharp = sharp(f, n, c);
            let depth = limits(sharp, off(f * times), 1.0).unwrap().value;
            let (h, s) = (sharp.hyperfocal(), f * times);
            let (near, far) = (simple_near(h, s), simple_far(h, s).unwrap());
            prop_assert!((depth.near.millimetres().unwrap() / near - 1.0).abs() < 0.01);
            prop_assert!((depth.far.millimetres().unwrap() / far - 1.0).abs() < 0.01);
        }

        #[test]
        fn focus_for_two_limits_lies_between_them(
            near in 200.0..90_000.0_f64, more in 1.0..90.0_f64,
        ) {
            let (near, far) = (off(near), off(near * more));
            let focus = focus_between(near, far).unwrap().value;
            prop_assert!(focus.millimetres().unwrap() >= near.millimetres().unwrap() - 1e-6);
            prop_assert!(focus.millimetres().unwrap() <= far.millimetres().unwrap() + 1e-6);
        }
    }
}
