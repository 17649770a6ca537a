//! Several pops, flash beside other light, and the ratio of two lights.
//!
//! Exposures add as light, not as stops: two equal pops are one stop more than one, and a flash as
//! strong as the daylight doubles it. Promises: more pops never give less, and the flash's share is
//! never more than the whole.

use super::{POPS, moved, nearest};
use crate::craft::numeral::trimmed;
use crate::craft::{
    Amount, Aperture, Concern, Figure, Grounds, Impossible, Millimetres, Step, Stops,
};

/// Lighting ratios against stops.
const RATIO: Grounds = Grounds::published("Minolta Flash Meter IV operation manual, p. 38");
/// More pops than anyone waits for, and more than film would add up.
const MOST_POPS: f64 = 1000.0;

/// A number of pops, as a step shows it.
fn counted(pops: u32) -> Amount {
    let unit = if pops == 1 { "pop" } else { "pops" };
    Amount::number(f64::from(pops), unit, 0)
}

/// What so many equal pops give beyond one: `log2(n)` stops.
///
/// # Errors
/// If there is no pop.
pub fn alone(pops: u32) -> Result<Stops, Impossible> {
    if pops == 0 {
        return Err(Impossible::new(
            "a flash that is not fired lights nothing: write 1 pop or more",
        ));
    }
    Ok(Stops::from_factor(f64::from(pops))?)
}

/// The pops that give so many stops more than one: 2 to the power of the stops, rounded up.
///
/// # Errors
/// If it would be more pops than anyone waits for.
pub fn needed(stops: Stops) -> Result<Figure<u32>, Impossible> {
    let exact = stops.factor();
    // A hair above a whole number is the noise of arithmetic.
    let whole = (exact - 1e-9).ceil().max(1.0);
    if whole > MOST_POPS {
        return Err(Impossible::new(format!(
            "{stops} would take {} pops: open the lens, or bring the flash nearer",
            trimmed(whole, 0)
        )));
    }
    // From 1 to 1000, so the cast loses nothing.
    let pops = whole as u32;
    let given = alone(pops)?;
    let left = given.value() - stops.value();
    let mut figure = Figure::new(pops, POPS).step(
        Step::new("pops", counted(pops))
            .working(format!(
                "2^{} = {}, rounded up",
                trimmed(stops.value(), 2),
                trimmed(exact, 2)
            ))
            .on(POPS),
    );
    if left > 1e-6 {
        let left = Stops::new(left)?;
        figure = figure.step(Step::new("more than asked for", Amount::Stops(left)));
    }
    if pops > 8 {
        figure = figure.remark(
            Concern::Warning,
            "many pops add what they say only if each is the same and nothing moves between them",
        );
    }
    Ok(figure)
}

/// The pops it takes beside other light: what the other light leaves of the aperture wanted, over what
/// one pop gives, `(wanted² - ambient²) / flash²`, rounded up.
///
/// # Errors
/// If the other light alone is enough, or it would be more pops than anyone waits for.
pub fn needed_beside(
    ambient: Aperture,
    flash: Aperture,
    wanted: Aperture,
) -> Result<Figure<u32>, Impossible> {
    let left = wanted.number().powi(2) - ambient.number().powi(2);
    if left <= 0.0 {
        return Err(Impossible::new(format!(
            "the other light alone asks for {ambient} already, so {wanted} needs no flash: shorten \
             the time if the flash shall count"
        )));
    }
    let part = left / flash.number().powi(2);
    let figure = needed(Stops::from_factor(part)?)?;
    let squares = [wanted, ambient, flash].map(|one| trimmed(one.number(), 1));
    let [wanted, ambient, flash] = squares;
    let step = Step::new("pops", counted(figure.value)).working(format!(
        "({wanted}² - {ambient}²) / {flash}² = {}, rounded up",
        trimmed(part, 2)
    ));
    Ok(Figure {
        steps: vec![step.on(POPS)],
        ..figure
    })
}

/// What flash and other light give together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Together {
    /// The aperture for both, to the nearest third of a stop.
    pub aperture: Aperture,
    /// The exact f-number.
    pub number: f64,
    /// The flash's share of the exposure, 0 to 1.
    pub share: f64,
}

/// Flash and other light on one sheet: both add, `N = √(ambient² + n flash²)`.
///
/// `ambient` is what the other light asks for at the time the shutter is open, `flash` what one pop
/// asks for.
///
/// # Errors
/// If there is no pop, or no aperture would do.
pub fn with_ambient(
    ambient: Aperture,
    flash: Aperture,
    pops: u32,
) -> Result<Figure<Together>, Impossible> {
    alone(pops)?;
    let around = ambient.number().powi(2);
    let lit = flash.number().powi(2) * f64::from(pops);
    let number = (around + lit).sqrt();
    let share = lit / (around + lit);
    let aperture = nearest(number)?;
    let value = Together {
        aperture,
        number,
        share,
    };
    let many = if pops == 1 {
        String::new()
    } else {
        format!("{pops} x ")
    };
    let working = format!(
        "√({}² + {many}{}²) = {}",
        trimmed(ambient.number(), 1),
        trimmed(flash.number(), 1),
        trimmed(number, 1)
    );
    Ok(Figure::new(value, POPS)
        .step(Step::new("together", Amount::Aperture(aperture)).working(working).on(POPS))
        .step(
            Step::new("flash's share", Amount::number(share * 100.0, "%", 0)).working(format!(
                "{} / {}",
                trimmed(lit, 0),
                trimmed(around + lit, 0)
            )),
        )
        .remark(
            Concern::Note,
            "the other light goes with the time, the flash does not: a longer time changes only its \
             part, and reciprocity failure touches only that part",
        ))
}

/// The ratio of two lights that many stops apart, `2^stops`: 4 for two stops.
#[must_use]
pub fn ratio(stops: Stops) -> f64 {
    stops.value().abs().exp2()
}

/// The ratio of two lights that many stops apart, with its step.
#[must_use]
pub fn ratio_of_stops(stops: Stops) -> Figure<f64> {
    let value = ratio(stops);
    let step = Step::new("ratio to 1", Amount::number(value, "", 2))
        .working(format!("2^{}", trimmed(stops.value().abs(), 2)));
    Figure::new(value, RATIO).step(step.on(RATIO))
}

/// The ratio of two equal lamps at two distances, `(far / near)²`.
///
/// # Errors
/// If a distance is nothing.
pub fn of_lamps(near: Millimetres, far: Millimetres) -> Result<Figure<f64>, Impossible> {
    let moved = moved(far, near)?;
    let value = ratio(moved.value);
    let step = Step::new("ratio to 1", Amount::number(value, "", 2))
        .working(format!("2^{}", trimmed(moved.value.value().abs(), 2)));
    Ok(moved.map(|_| value).step(step))
}

/// The stops between two lights of a ratio: `log2(ratio)`.
///
/// # Errors
/// If the ratio is below 1 to 1, or none.
pub fn stops_of_ratio(ratio: f64) -> Result<Figure<Stops>, Impossible> {
    if !(ratio.is_finite() && ratio >= 1.0) {
        return Err(Impossible::new(format!(
            "a ratio of {ratio} to 1 is none: write the stronger light over the weaker, such as 4 or \
             4:1"
        )));
    }
    let stops = Stops::from_factor(ratio)?;
    let step = Step::new("apart", Amount::Stops(stops)).working(format!("log2({ratio})"));
    Ok(Figure::new(stops, RATIO).step(step.on(RATIO)))
}

/// The ratio of two lights, each metered alone: `(N1 / N2)²`.
///
/// # Errors
/// If they lie too far apart to be reckoned.
pub fn ratio_of(one: Aperture, other: Aperture) -> Result<Figure<f64>, Impossible> {
    let stops = Stops::new((one.stops() - other.stops()).abs())?;
    let value = ratio(stops);
    Ok(Figure::new(value, RATIO)
        .step(Step::new("apart", Amount::Stops(stops)).working(format!("{one} and {other}")))
        .step(
            Step::new("ratio to 1", Amount::number(value, "", 1))
                .working(format!("2^{}", trimmed(stops.value(), 2)))
                .on(RATIO),
        ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn f(text: &str) -> Aperture {
        Aperture::parse(text).unwrap()
    }

    #[test]
    fn a_flash_as_strong_as_the_daylight_doubles_it() {
        let both = with_ambient(f("f/8"), f("f/8"), 1).unwrap().value;
        assert_eq!(both.aperture.to_string(), "f/11");
        assert!((both.share - 0.5).abs() < 1e-12);
        let three = with_ambient(f("f/8"), f("f/8"), 3).unwrap().value;
        assert_eq!(three.aperture.to_string(), "f/16");
        assert!((three.share - 0.75).abs() < 1e-12);
    }

    #[test]
    fn what_no_flash_does_is_refused() {
        assert!(alone(0).is_err());
        assert!(with_ambient(f("f/8"), f("f/8"), 0).is_err());
        assert!(needed(Stops::new(12.0).unwrap()).is_err());
        for odd in [0.5, 0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(stops_of_ratio(odd).is_err(), "{odd}");
        }
    }

    #[test]
    fn less_light_wanted_is_still_one_pop() {
        assert_eq!(needed(Stops::new(-2.0).unwrap()).unwrap().value, 1);
        assert_eq!(needed(Stops::new(0.0).unwrap()).unwrap().value, 1);
    }

    #[test]
    fn other_light_saves_pops() {
        let beside = needed_beside(f("f/16"), f("f/16"), f("f/32")).unwrap();
        assert_eq!(beside.value, 3);
        let alone = needed(Stops::new(2.0).unwrap()).unwrap();
        assert_eq!(alone.value, 4);
        let why = needed_beside(f("f/22"), f("f/16"), f("f/16")).unwrap_err();
        assert!(why.to_string().contains("needs no flash"), "{why}");
    }

    proptest! {
        #[test]
        fn the_pops_needed_are_enough_and_one_less_is_not(stops in 0.0..9.0_f64) {
            let wanted = Stops::new(stops).unwrap();
            let pops = needed(wanted).unwrap().value;
            prop_assert!(alone(pops).unwrap().value() >= stops - 1e-6);
            if pops > 1 {
                prop_assert!(alone(pops - 1).unwrap().value() < stops);
            }
        }

        #[test]
        fn more_pops_give_more_and_a_larger_share(n in 1_u32..50) {
            let one = with_ambient(f("f/11"), f("f/8"), n).unwrap().value;
            let more = with_ambient(f("f/11"), f("f/8"), n + 1).unwrap().value;
            prop_assert!(more.number > one.number && more.share > one.share);
            prop_assert!((0.0..=1.0).contains(&more.share));
        }

        #[test]
        fn ratio_and_stops_invert(stops in 0.0..10.0_f64) {
            let back = stops_of_ratio(ratio(Stops::new(stops).unwrap())).unwrap().value;
            prop_assert!((back.value() - stops).abs() < 1e-9);
        }
    }
}
