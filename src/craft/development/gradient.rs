//! The gradient that a subject and a way of printing want of a negative.
//!
//! The density range the print wants, over what the lens leaves of the subject's range after flare. All
//! of them are logarithms to base ten: a stop is 0.30.

use crate::craft::numeral::trimmed;
use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Step};

use super::contrast::Expansion;

/// The average range of subjects, 7 1/3 stops.
pub const AVERAGE_RANGE: f64 = 2.2;
/// What flare takes from a subject's range in the camera, as far as it is remembered.
pub const FLARE: f64 = 0.4;
/// A zone in logarithms, rounded as zones are counted.
const ZONE: f64 = 0.3;
/// Least range that is left to the film.
const LEAST_LEFT: f64 = 0.1;
/// From here on a gradient is that of high-contrast film.
const HIGH_CONTRAST: f64 = 2.0;

/// What the average subject rests on.
pub const AVERAGE: Grounds = Grounds::published(
    "average subject range 2.20, 7 1/3 stops: S. Benskin, post on APUG (second-hand)",
);
/// What the usual flare rests on.
pub const USUAL_FLARE: Grounds = Grounds::remembered("flare of 0.40, from memory");
const FORMULA: Grounds = Grounds::published(
    "Lambrecht and Woodhouse, Way Beyond Monochrome, 2nd ed., pp. 212-213, as quoted by S. Benskin \
     (second-hand): density range over subject range; flare taken off first",
);

/// What a negative shall do; logarithms to base ten.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wanted {
    /// The density range the print process wants, 0.05 to 4.
    pub density_range: f64,
    /// The range of the subject, from 0.3 to 5.
    pub subject_range: f64,
    /// What flare takes of it, 0 or more.
    pub flare: f64,
}

/// A range in stops as a logarithm.
#[must_use]
pub fn of_stops(stops: f64) -> f64 {
    stops * std::f64::consts::LOG10_2
}

/// A logarithm as a range in stops.
#[must_use]
pub fn in_stops(range: f64) -> f64 {
    range / std::f64::consts::LOG10_2
}

/// The range of the subject that a change from normal development is meant for: N-1 for one zone more.
#[must_use]
pub fn range_for(by: Expansion) -> f64 {
    range_for_zones(by.zones())
}

/// What silver paper of grade 2 wants, which is what N is counted for.
pub const GRADE_TWO: f64 = 1.05;
const SAME_AS: Grounds = Grounds::remembered(
    "derived from a range of 1.05 for grade 2, an average subject of 2.20, a zone of 0.30 and a flare of \
     0.40, the flare from memory",
);

/// The change from normal development that comes to an average gradient: as much contrast as N+1 gives a
/// flat subject on silver paper of grade 2.
///
/// # Errors
/// If no development between N-2 and N+2 comes to it.
pub fn as_change(gradient: f64) -> Result<Figure<Expansion>, Impossible> {
    let normal = GRADE_TWO / (AVERAGE_RANGE - FLARE);
    let subject = if gradient > 0.0 {
        GRADE_TWO / gradient + FLARE
    } else {
        f64::INFINITY
    };
    let zones = (AVERAGE_RANGE - subject) / ZONE;
    // N+2 itself is still told of, whatever the last digit of the gradient.
    let near_the_end = zones.abs() > 2.0 && zones.abs() < 2.005;
    let zones = if near_the_end {
        2.0_f64.copysign(zones)
    } else {
        zones
    };
    let by = Expansion::new(zones).map_err(|_| {
        Impossible::new(format!(
            "a gradient of {} is beyond what N-2 to N+2 come to, {} to {}: find your own times with the \
             gradients they give",
            trimmed(gradient, 2),
            trimmed(GRADE_TWO / (range_for_zones(-2.0) - FLARE), 2),
            trimmed(GRADE_TWO / (range_for_zones(2.0) - FLARE), 2),
        ))
    })?;
    let step = Step::new(
        format!("gradient {}", trimmed(gradient, 2)),
        Amount::words(format!("as N{:+.1}", by.zones())),
    )
    .working(format!("{} is N", trimmed(normal, 2)))
    .on(SAME_AS);
    Ok(Figure::new(by, SAME_AS).step(step))
}

fn range_for_zones(zones: f64) -> f64 {
    AVERAGE_RANGE - ZONE * zones
}

/// The average gradient that is wanted.
///
/// # Errors
/// If a range is none, or flare leaves nothing of it.
pub fn target(wanted: Wanted) -> Result<Figure<f64>, Impossible> {
    let Wanted {
        density_range,
        subject_range,
        flare,
    } = wanted;
    if !(0.05..=4.0).contains(&density_range) {
        return Err(Impossible::new(
            "the density range of a negative lies between 0.05 and 4: write 1.05 for silver paper",
        ));
    }
    if !(0.3..=5.0).contains(&subject_range) {
        return Err(Impossible::new(
            "a subject has from 1 stop to 16 stops (0.3 to 5 in logarithms): the average is 7 1/3",
        ));
    }
    if !(flare.is_finite() && flare >= 0.0) {
        return Err(Impossible::new(
            "flare takes 0 or more from the subject's range: write 0.40",
        ));
    }
    let left = subject_range - flare;
    if left < LEAST_LEFT {
        return Err(Impossible::new(format!(
            "flare of {} leaves nothing of a subject range of {}: give the longer range or the \
             smaller flare",
            trimmed(flare, 2),
            trimmed(subject_range, 2)
        )));
    }
    let gradient = density_range / left;
    let figure = Figure::new(gradient, FORMULA)
        .step(
            Step::new("range left to the film", Amount::number(left, "", 2)).working(format!(
                "{} - {}",
                trimmed(subject_range, 2),
                trimmed(flare, 2)
            )),
        )
        .step(
            Step::new("gradient", Amount::number(gradient, "", 3)).working(format!(
                "{} / {}",
                trimmed(density_range, 2),
                trimmed(left, 2)
            )),
        );
    Ok(if gradient < HIGH_CONTRAST {
        figure
    } else {
        figure.remark(
            Concern::Beyond,
            "a gradient of 2 and more is that of high-contrast film: general film does not get there",
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn of(density_range: f64, subject_range: f64, flare: f64) -> Result<Figure<f64>, Impossible> {
        target(Wanted {
            density_range,
            subject_range,
            flare,
        })
    }

    #[test]
    fn what_cannot_be_is_a_sentence() {
        for (density, subject, flare, says) in [
            (0.0, 2.2, 0.4, "density range"),
            (f64::NAN, 2.2, 0.4, "density range"),
            (1.05, -1.0, 0.4, "1 stop to 16"),
            (1.05, f64::INFINITY, 0.4, "1 stop to 16"),
            (1.05, 2.2, -0.1, "0 or more"),
            (1.05, 2.2, f64::NAN, "0 or more"),
            (1.05, 0.4, 0.4, "leaves nothing"),
        ] {
            let why = of(density, subject, flare).unwrap_err().to_string();
            assert!(why.contains(says), "{why}");
        }
    }

    #[test]
    fn a_gradient_no_general_film_reaches_says_so() {
        let figure = of(1.8, 1.0, 0.4).unwrap();
        assert_eq!(figure.remarks.len(), 1);
    }

    #[test]
    fn a_gradient_is_as_much_as_a_change_of_zones() {
        let zones = |gradient| as_change(gradient).map(|it| it.value.zones());
        // The table of gradients for 1.05 and a flare of 0.40, read backwards.
        for (gradient, wanted) in [
            (0.4375, -2.0),
            (0.5, -1.0),
            (0.58333, 0.0),
            (0.7, 1.0),
            (0.875, 2.0),
        ] {
            assert!(
                (zones(gradient).unwrap() - wanted).abs() < 0.001,
                "{gradient}"
            );
        }
        for gradient in [0.0, -1.0, 0.3, 1.4, f64::NAN, f64::INFINITY] {
            let why = as_change(gradient).unwrap_err().to_string();
            assert!(why.contains("beyond what N-2 to N+2"), "{why}");
        }
    }

    proptest! {
        #[test]
        fn a_longer_subject_wants_less_and_a_longer_print_scale_more(
            density in 0.5..2.0_f64, subject in 1.2..3.0_f64, more in 0.01..1.0_f64,
        ) {
            let here = of(density, subject, 0.4).unwrap().value;
            prop_assert!(of(density, subject + more, 0.4).unwrap().value < here);
            prop_assert!(of(density + more, subject, 0.4).unwrap().value > here);
            prop_assert!(of(density, subject, 0.5).unwrap().value > here);
        }

        #[test]
        fn stops_and_logarithms_turn_into_each_other(stops in 0.1..16.0_f64) {
            prop_assert!((in_stops(of_stops(stops)) - stops).abs() < 1e-9);
        }
    }
}
