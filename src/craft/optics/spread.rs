//! The aperture from the focus spread: how far a standard travels between the far and the near point
//! that must be sharp.
//!
//! For: stopping down by what was measured on the rail. Promises: two f-numbers, the least that
//! keeps the blur within a circle and the one at which defocus and diffraction are in balance, with
//! both blurs in the steps; where to set the standard. Leaves to others: the exposure that follows.
//!
//! The travel is taken at the back, along the normal of the film; at the front it is the same only for
//! subjects some way off.

use super::blur::DISC;
use super::circle::allowed;
use super::conjugates::{image_of, outside};
use super::depth::focus_between;
use super::{Distance, focal, mm};
use crate::craft::numeral::trimmed;
use crate::craft::{Amount, Aperture, Concern, Figure, Grounds, Impossible, Millimetres, Step};

/// From the depth of focus `2 N c`.
pub const ADMISSIBLE: Grounds = Grounds::published(
    "derived from the depth of focus 2 N c (S. F. Ray, Applied Photographic Optics, 3rd ed., p. \
     221, second-hand)",
);

/// Defocus and diffraction in balance.
pub const OPTIMUM: Grounds = Grounds::published(
    "P. Hansma, 1996, as Q.-T. Luong's How to select the f-stop reprints him (second-hand); the 375 \
     follows from the diffraction disc of N / 750 mm",
);

/// Half of [`DISC`]: where `spread / (2 N)` is `N / 750`.
const BALANCE: f64 = DISC / 2.0;

/// Where the standard goes.
const MIDWAY: Grounds = Grounds::published(
    "Q.-T. Luong, How to select the f-stop, The Large Format Page; carboncameras.com, Focus and \
     Focus Spread",
);

/// The f-number below which the faults of most lenses are worse than their diffraction.
pub const FLOOR: f64 = 16.0;

/// The f-numbers for a spread.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Working {
    /// The travel between near and far focus, millimetres.
    pub travel: f64,
    /// The least f-number that keeps the blur at both ends within the circle.
    pub admissible: f64,
    /// The f-number at which defocus and diffraction are in balance.
    pub optimum: f64,
    /// The blur by defocus at the optimum, millimetres; that by diffraction is as large.
    pub defocus: f64,
    /// Both together, by the root of the sum of squares, millimetres.
    pub total: f64,
}

/// The balanced f-number, `√(375 dv) / (1 + m)`.
#[must_use]
pub fn optimum(travel: f64, magnification: f64) -> f64 {
    (BALANCE * travel).sqrt() / (1.0 + magnification)
}

/// The same with the round constant that is remembered, `20 √dv / (1 + m)`.
#[must_use]
pub fn round_optimum(travel: f64, magnification: f64) -> f64 {
    20.0 * travel.sqrt() / (1.0 + magnification)
}

/// The least f-number by the simple form, `dv / (2 c (1 + m))`.
#[must_use]
pub fn admissible(travel: f64, circle: f64, magnification: f64) -> f64 {
    travel / (2.0 * circle * (1.0 + magnification))
}

/// The least f-number by the exact form, `f (vn - vf) / (c (vn + vf))`, for a pupil ratio of 1.
#[must_use]
pub fn admissible_exact(focal_length: f64, near: f64, far: f64, circle: f64) -> f64 {
    focal_length * (near - far) / (circle * (near + far))
}

/// Where the standard divides the blur evenly: the harmonic mean of both positions, from the lens.
#[must_use]
pub fn best_place(near: f64, far: f64) -> f64 {
    2.0 * near * far / (near + far)
}

/// The f-numbers for a travel that was measured on the rail.
///
/// # Errors
/// If the travel is not above zero, the circle impossible or the magnification negative.
pub fn for_travel(
    travel: Millimetres,
    circle: f64,
    magnification: f64,
) -> Result<Figure<Working>, Impossible> {
    let (dv, c) = (travel.value(), allowed(circle)?);
    if dv <= 0.0 {
        return Err(Impossible::new(
            "without a travel between near and far focus there is nothing to stop down for: focus \
             the far point, read the rail, focus the near one and read again, such as 4 mm",
        ));
    }
    if !(0.0..=100.0).contains(&magnification) {
        return Err(Impossible::new(
            "a magnification lies between 0, for infinity, and 100: write 0.25 or 1/4",
        ));
    }
    let m = magnification;
    let least = admissible(dv, c, m);
    let near_part = if m > 0.0 {
        format!(" x (1 + {})", trimmed(m, 3))
    } else {
        String::new()
    };
    let working = format!("{travel} / (2 x {} mm{near_part})", trimmed(c, 4));
    Ok(balanced(dv, least, m, working).step(
        Step::new("standard between the two", mm(dv / 2.0, 2))
            .working(format!("{travel} / 2 back from the near focus"))
            .on(MIDWAY),
    ))
}

/// The steps both ways share.
fn balanced(dv: f64, least: f64, m: f64, working: String) -> Figure<Working> {
    let best = optimum(dv, m);
    let defocus = dv / (2.0 * best * (1.0 + m));
    let found = Working {
        travel: dv,
        admissible: least,
        optimum: best,
        defocus,
        total: std::f64::consts::SQRT_2 * defocus,
    };
    let near_part = if m > 0.0 {
        format!(" / (1 + {})", trimmed(m, 3))
    } else {
        String::new()
    };
    let mut figure = Figure::new(found, OPTIMUM)
        .within("travel along the normal of the film, measured at the back; aperture of a lens that is good there")
        .step(Step::new("at least", number(least)).working(working).on(ADMISSIBLE))
        .step(
            Step::new("f-number, in balance", number(best))
                .working(format!("√(375 x {}){near_part}", trimmed(dv, 3)))
                .on(OPTIMUM),
        )
        .step(Step::new("blur by defocus there", mm(defocus, 4)).working(format!(
            "{} / (2 x {})",
            trimmed(dv, 3),
            trimmed(best * (1.0 + m), 2)
        )))
        .step(Step::new("blur by diffraction there", mm(defocus, 4)).working(format!(
            "{} / 750",
            trimmed(best * (1.0 + m), 2)
        )))
        .step(Step::new("both together", mm(found.total, 4)).working("root of the sum of squares, a convention"));
    if m > 0.1 {
        figure = figure.remark(
            Concern::Note,
            format!(
                "with 400 for 375, as Q.-T. Luong's close-up form is remembered, the balance lies at \
                 f/{:.1}",
                round_optimum(dv, m)
            ),
        );
    }
    if least.max(best) < FLOOR {
        figure = figure.remark(
            Concern::Note,
            "for so small a travel the faults of the lens count for more than the formula: f/16 is a \
             usual floor",
        );
    }
    figure
}

/// What two distances ask.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Between {
    /// The f-numbers, the least one by the exact form.
    pub working: Working,
    /// Where the film is sharp for the near distance, millimetres from the lens.
    pub near: f64,
    /// Where it is for the far one.
    pub far: f64,
    /// Halfway.
    pub midpoint: f64,
    /// Where both are equally blurred.
    pub best: f64,
    /// What is then in focus.
    pub focus: Distance,
}

/// The f-numbers and the place of the standard for two distances.
///
/// # Errors
/// If a distance lies inside the focal length, the far one is not the further, or the circle is
/// impossible.
pub fn for_distances(
    focal_length: Millimetres,
    near: Distance,
    far: Distance,
    circle: f64,
) -> Result<Figure<Between>, Impossible> {
    let (f, c) = (focal(focal_length)?, allowed(circle)?);
    outside(f, near)?;
    let focus = focus_between(near, far)?;
    let (vn, vf) = (image_of(f, near), image_of(f, far));
    let dv = vn - vf;
    if dv <= 1e-9 {
        return Err(Impossible::new(
            "near and far are the same distance: nothing need be stopped down for; give the nearest \
             and the furthest thing that must be sharp",
        ));
    }
    let best = best_place(vn, vf);
    let m = best / f - 1.0;
    let least = admissible_exact(f, vn, vf, c);
    let working = format!(
        "{} x {} / ({} x ({} + {}))",
        trimmed(f, 1),
        trimmed(dv, 3),
        trimmed(c, 4),
        trimmed(vn, 2),
        trimmed(vf, 2)
    );
    let figure = balanced(dv, least, m, working);
    let midpoint = f64::midpoint(vn, vf);
    let found = Between {
        working: figure.value,
        near: vn,
        far: vf,
        midpoint,
        best,
        focus: focus.value,
    };
    let mut figure = figure.map(|_| found);
    let before = [
        Step::new("film for the near point", mm(vn, 2)),
        Step::new("film for the far point", mm(vf, 2)),
        Step::new("travel", mm(dv, 2)).working(format!("{} - {}", trimmed(vn, 2), trimmed(vf, 2))),
    ];
    figure.steps.splice(0..0, before);
    Ok(figure
        .step(
            Step::new("set the standard to", mm(best, 2))
                .working(format!(
                    "2 x {n} x {f} / ({n} + {f}); halfway would be {} mm",
                    trimmed(midpoint, 2),
                    n = trimmed(vn, 2),
                    f = trimmed(vf, 2)
                ))
                .on(MIDWAY),
        )
        .step(Step::new("in focus then", focus.value.amount())))
}

const fn number(n: f64) -> Amount {
    Amount::number(n, "", 1)
}

/// The third-stop mark that is nearest to an f-number.
///
/// # Errors
/// If no lens has such an aperture: they run from f/0.5 to f/1024.
pub fn nearest_mark(number: f64) -> Result<Aperture, Impossible> {
    Ok(Aperture::nearest(2.0 * number.log2())?)
}

/// The first third-stop mark that is closed at least as far as an f-number.
///
/// # Errors
/// If no lens has such an aperture: they run from f/0.5 to f/1024.
pub fn mark_at_least(number: f64) -> Result<Aperture, Impossible> {
    // A thousandth of a third is no reason to close the lens by a whole one.
    let thirds = (6.0 * number.log2() - 1e-3).ceil();
    Ok(Aperture::nearest(thirds / 3.0)?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn off(value: f64) -> Distance {
        Distance::new(value).unwrap()
    }

    #[test]
    fn what_cannot_be_stopped_down_for_is_a_sentence() {
        let mm = |value| Millimetres::new(value).unwrap();
        assert!(for_travel(mm(0.0), 0.1, 0.0).is_err());
        assert!(for_travel(mm(4.0), 0.0, 0.0).is_err());
        assert!(for_travel(mm(4.0), 0.1, -1.0).is_err());
        assert!(for_distances(mm(150.0), off(100.0), off(5000.0), 0.1).is_err());
        assert!(for_distances(mm(150.0), off(5000.0), off(5000.0), 0.1).is_err());
        assert!(for_distances(mm(150.0), off(6000.0), off(5000.0), 0.1).is_err());
        assert!(nearest_mark(0.0).is_err() && mark_at_least(f64::NAN).is_err());
    }

    #[test]
    fn a_small_travel_names_the_floor() {
        let figure = for_travel(Millimetres::new(0.3).unwrap(), 0.1, 0.0).unwrap();
        assert_eq!(figure.remarks.len(), 1);
    }

    #[test]
    fn marks_close_and_never_open_what_must_be_kept() {
        assert_eq!(mark_at_least(20.0).unwrap().to_string(), "f/16+2/3");
        assert_eq!(mark_at_least(16.0).unwrap().to_string(), "f/16");
        assert_eq!(mark_at_least(16.1).unwrap().to_string(), "f/16+1/3");
        assert_eq!(nearest_mark(38.73).unwrap().to_string(), "f/32+2/3");
    }

    proptest! {
        #[test]
        fn defocus_and_diffraction_are_in_balance(travel in 0.1..60.0_f64, m in 0.0..1.0_f64) {
            let found = for_travel(Millimetres::new(travel).unwrap(), 0.1, m).unwrap().value;
            let diffraction = found.optimum * (1.0 + m) / DISC;
            prop_assert!((found.defocus / diffraction - 1.0).abs() < 1e-9);
        }

        #[test]
        fn exact_and_simple_forms_agree_for_distant_subjects(
            f in 60.0..600.0_f64, near in 150.0..2000.0_f64, more in 1.1..50.0_f64,
        ) {
            let lens = Millimetres::new(f).unwrap();
            let found = for_distances(lens, off(f * near), off(f * near * more), 0.1).unwrap().value;
            let simple = admissible(found.working.travel, 0.1, 0.0);
            prop_assert!((found.working.admissible / simple - 1.0).abs() < 0.01);
            prop_assert!(found.far < found.best && found.best <= found.midpoint);
        }

        #[test]
        fn a_mark_is_within_a_third_of_a_stop(n in 1.0..900.0_f64) {
            let closed = mark_at_least(n).unwrap().number();
            prop_assert!(closed >= n * 0.9998 && closed <= n * 2_f64.powf(1.0 / 6.0) * 1.0001);
        }
    }
}
