//! The temperature of a mixture, and what brings a bath to the temperature it shall have.
//!
//! What the warmer gives the colder takes: volumes weigh the temperatures. That holds for water and
//! thin solutions, without the heat of dissolving and without the vessel.

use super::{four, millilitres, some};
use crate::craft::{Amount, Celsius, Concern, Figure, Grounds, Impossible, Millilitres, Step};

/// The mean weighed by volume.
const MEAN: Grounds = Grounds::usual();
/// Where it holds.
const DOMAIN: &str = "water and thin solutions that dissolve nothing while they are mixed";

/// A temperature at which a bath is liquid.
fn liquid(at: Celsius) -> Result<f64, Impossible> {
    if (0.0..=100.0).contains(&at.value()) {
        return Ok(at.value());
    }
    Err(Impossible::new(format!(
        "a bath of {at} is no liquid that can be poured: it is 0 C to 100 C"
    )))
}

fn degrees(value: f64) -> Amount {
    Amount::number(value, "C", 1)
}

/// The temperature of two volumes poured together.
///
/// # Errors
/// If one of them would be ice or steam.
pub fn mixed(
    one: (Millilitres, Celsius),
    other: (Millilitres, Celsius),
) -> Result<Figure<Celsius>, Impossible> {
    let (v, t) = (one.0.value(), liquid(one.1)?);
    let (w, u) = (other.0.value(), liquid(other.1)?);
    let value = Celsius::new((v * t + w * u) / (v + w))?;
    let working = format!(
        "({} x {} + {} x {}) / {}",
        four(v),
        four(t),
        four(w),
        four(u),
        four(v + w)
    );
    let step = Step::new("mixed", degrees(value.value())).working(working);
    Ok(shaken(Figure::new(value, MEAN).within(DOMAIN).step(step)))
}

/// How much water of `at` brings a bath to `target`, in millilitres.
///
/// # Errors
/// If that water cannot bring it there, or one of them would be ice or steam.
pub fn to_bring(
    bath: (Millilitres, Celsius),
    at: Celsius,
    target: Celsius,
) -> Result<Figure<f64>, Impossible> {
    let (v, t) = (bath.0.value(), liquid(bath.1)?);
    let (u, wanted) = (liquid(at)?, liquid(target)?);
    let (gained, given) = (wanted - t, u - wanted);
    // Water at the target itself never brings a bath all the way there.
    if gained != 0.0 && gained * given <= 0.0 {
        return Err(Impossible::new(format!(
            "water of {at} does not bring {} to {target}: it has to lie beyond {target}",
            bath.1
        )));
    }
    let water = if gained == 0.0 {
        0.0
    } else {
        v * gained / given
    };
    if water > super::MOST {
        return Err(Impossible::new(format!(
            "water of {at} is too near to {target} to bring the bath there: take warmer or colder"
        )));
    }
    let working = format!(
        "{} x ({} - {}) / ({} - {})",
        four(v),
        four(wanted),
        four(t),
        four(u),
        four(wanted)
    );
    let step = Step::new("water to add", millilitres(water)).working(working);
    Ok(shaken(Figure::new(water, MEAN).within(DOMAIN).step(step)))
}

/// How much of the finished volume is taken hot and how much cold, so that it has `target`: hot
/// first, in millilitres.
///
/// # Errors
/// If the target does not lie between the two.
pub fn of_two_taps(
    whole: Millilitres,
    hot: Celsius,
    cold: Celsius,
    target: Celsius,
) -> Result<Figure<(f64, f64)>, Impossible> {
    let (h, c, t) = (liquid(hot)?, liquid(cold)?, liquid(target)?);
    let (low, high) = (h.min(c), h.max(c));
    if low >= high || !(low..=high).contains(&t) {
        return Err(Impossible::new(format!(
            "{target} does not lie between {hot} and {cold}: mixing gives only what lies between"
        )));
    }
    let of_hot = some("a mixture", whole.value(), "ml")? * (t - c) / (h - c);
    let of_cold = whole.value() - of_hot;
    let working = format!(
        "{} x ({} - {}) / ({} - {})",
        four(whole.value()),
        four(t),
        four(c),
        four(h),
        four(c)
    );
    Ok(shaken(
        Figure::new((of_hot, of_cold), MEAN)
            .within(DOMAIN)
            .step(Step::new(format!("of {hot}"), millilitres(of_hot)).working(working))
            .step(Step::new(format!("of {cold}"), millilitres(of_cold)).working("the rest")),
    ))
}

/// The same figure with the word that a thermometer has the last one.
fn shaken<T>(figure: Figure<T>) -> Figure<T> {
    figure.remark(
        Concern::Note,
        "vessel and room take their share: stir, read the thermometer, then correct",
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn bath(ml: f64, at: f64) -> (Millilitres, Celsius) {
        (Millilitres::new(ml).unwrap(), Celsius::new(at).unwrap())
    }

    #[test]
    fn equal_volumes_meet_in_the_middle() {
        let figure = mixed(bath(500.0, 16.0), bath(500.0, 24.0)).unwrap();
        assert!((figure.value.value() - 20.0).abs() < 1e-9);
    }

    #[test]
    fn colder_water_warms_nothing_and_ice_is_no_bath() {
        let cold = Celsius::new(10.0).unwrap();
        let target = Celsius::new(24.0).unwrap();
        assert!(to_bring(bath(500.0, 20.0), cold, target).is_err());
        assert!(to_bring(bath(500.0, 20.0), target, target).is_err());
        assert!(mixed(bath(500.0, -1.0), bath(500.0, 20.0)).is_err());
        let volume = Millilitres::new(1000.0).unwrap();
        assert!(of_two_taps(volume, cold, cold, cold).is_err());
        assert!(of_two_taps(volume, target, target, cold).is_err());
    }

    proptest! {
        #[test]
        fn a_mixture_lies_between_and_the_order_does_not_matter(
            v in 1.0..5000.0_f64, t in 0.0..100.0_f64, w in 1.0..5000.0_f64, u in 0.0..100.0_f64,
        ) {
            let there = mixed(bath(v, t), bath(w, u)).unwrap().value.value();
            let back = mixed(bath(w, u), bath(v, t)).unwrap().value.value();
            prop_assert!((there - back).abs() < 1e-9);
            prop_assert!(there >= t.min(u) - 1e-9 && there <= t.max(u) + 1e-9);
        }

        #[test]
        fn what_is_added_brings_it_there(t in 10.0..30.0_f64, more in 0.5..5.0_f64) {
            let target = Celsius::new(t + more).unwrap();
            let hot = Celsius::new(60.0).unwrap();
            let water = to_bring(bath(1000.0, t), hot, target).unwrap().value;
            let met = mixed(bath(1000.0, t), (Millilitres::new(water).unwrap(), hot)).unwrap();
            prop_assert!((met.value.value() - target.value()).abs() < 1e-9);
        }
    }
}
