//! Washing: the steps with their times, what cold water takes, and what fills and drains leave.
//!
//! Water that is poured out takes with it what it holds; a film of it stays behind. `n` fills leave
//! `c^n` of what was there, with `c` the share that stays on the sheet and in the tank. That is the
//! water; what has to come out of the gelatin takes its own time and sets the end.

use super::four;
use crate::craft::{Amount, Celsius, Concern, Figure, Grounds, Impossible, Seconds, Step};

/// Times of washing film.
const ARMY: Grounds = Grounds::published(
    "US Army Signal Center, Laboratory Procedures, subcourse SS0509-8, 1988, pp. 18, 20, 24",
);
/// What cold water takes.
const COLD: Grounds = Grounds::published(
    "US Army TM 11-2323: twice the time at 50 F, four times at 35 F, for prints; a line through the two",
);
/// The rule of fills.
const FILLS: Grounds = Grounds::usual();

/// The steps after the fixer with a washing aid, in seconds.
const WITH_AID: [(&str, f64); 4] = [
    ("rinse", 30.0),
    ("washing aid", 120.0),
    ("running water", 300.0),
    ("wetting agent", 60.0),
];
/// The same without.
const WITHOUT: [(&str, f64); 2] = [("running water", 1800.0), ("wetting agent", 60.0)];

/// The whole time of washing film, its steps in order; in cold water the running wash is longer.
///
/// # Errors
/// If the water is outside the rule for the cold.
pub fn washing(aid: bool, at: Option<Celsius>) -> Result<Figure<Seconds>, Impossible> {
    let cold = match at {
        Some(at) => Some(cold_factor(at)?),
        None => None,
    };
    let factor = cold.as_ref().map_or(1.0, |figure| figure.value);
    let steps: &[(&str, f64)] = if aid { &WITH_AID } else { &WITHOUT };
    let (mut sum, mut told) = (0.0, Vec::new());
    for (name, seconds) in steps {
        let running = *name == "running water" && factor > 1.0;
        let time = if running { seconds * factor } else { *seconds };
        sum += time;
        let mut step = Step::new(*name, Amount::Time(Seconds::new(time)?)).on(ARMY);
        if running {
            step = step.working(format!("{} s x {}", four(*seconds), four(factor)));
        }
        told.push(step.brings(Amount::Time(Seconds::new(sum)?)));
    }
    let mut figure = Figure::new(Seconds::new(sum)?, ARMY);
    if let Some(cold) = cold {
        figure.steps.extend(cold.steps);
    }
    figure.steps.extend(told);
    if !aid {
        figure = figure.remark(
            Concern::Note,
            "emptying the vessel every three minutes makes running water do more",
        );
    }
    Ok(figure)
}

/// How much longer cold water washes: `2^((65 - F) / 15)`, 1 from 65 F up.
///
/// # Errors
/// If the water is below 35 F, where the source ends, or hotter than film stands.
pub fn cold_factor(at: Celsius) -> Result<Figure<f64>, Impossible> {
    let fahrenheit = at.fahrenheit();
    if !(35.0 - 1e-9..=90.0).contains(&fahrenheit) {
        return Err(Impossible::new(format!(
            "the rule for cold water goes from 35 F (1.7 C) up, and film is not washed above 90 F \
             (32 C): {at} is outside"
        )));
    }
    let factor = ((65.0 - fahrenheit) / 15.0).exp2().max(1.0);
    let working = if factor > 1.0 {
        format!("2^((65 - {}) / 15)", four(fahrenheit))
    } else {
        "not below 65 F".to_owned()
    };
    Ok(Figure::new(factor, COLD).within("35 F to 65 F").step(
        Step::new("in cold water", Amount::Factor(factor))
            .working(working)
            .on(COLD),
    ))
}

/// The share of what the water held that `fills` leave, where `stays` of it stays after each drain.
///
/// # Errors
/// If the share that stays is none, or the fills are no whole number from 1 to 100.
pub fn residue(stays: f64, fills: f64) -> Result<Figure<f64>, Impossible> {
    if !(stays > 0.0 && stays < 1.0) {
        return Err(Impossible::new(format!(
            "a share of {stays} that stays after draining cannot be: it lies between 0 and 1, and 0.05 \
             is a well drained tank"
        )));
    }
    if !(fills.fract() == 0.0 && (1.0..=100.0).contains(&fills)) {
        return Err(Impossible::new(format!(
            "{fills} fills cannot be: it is a whole number from 1 to 100"
        )));
    }
    let value = stays.powf(fills);
    let working = format!("{}^{fills}", four(stays));
    Ok(Figure::new(value, FILLS)
        .step(Step::new("left in the water", Amount::measured(value, "")).working(working))
        .remark(
            Concern::Note,
            "this is the water alone: what comes out of the gelatin needs its time in each fill",
        ))
}

/// What a test of residual thiosulfate may find on microfilm, in micrograms on a square centimetre, and
/// where that was read.
pub const MICROFILM: (f64, Grounds) = (
    1.4,
    Grounds::published("Gosford Micrographics, methylene blue test, on ISO 18917"),
);

/// Micrograms on a square centimetre as grams on a square metre.
#[must_use]
pub fn grams_on_a_square_metre(micrograms_on_a_square_centimetre: f64) -> f64 {
    micrograms_on_a_square_centimetre / 100.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_cannot_be_washed_is_refused() {
        for none in [0.0, 1.0, -0.5, f64::NAN] {
            assert!(residue(none, 3.0).is_err(), "{none}");
        }
        assert!(residue(0.05, 0.0).is_err());
        assert!(residue(0.05, 2.5).is_err());
        assert!(cold_factor(Celsius::new(0.0).unwrap()).is_err());
        assert!(washing(true, Celsius::new(60.0).ok()).is_err());
    }

    proptest! {
        #[test]
        fn another_fill_always_leaves_less_and_colder_is_never_shorter(
            stays in 0.01..0.99_f64, fills in 1..50_u8, at in 2.0..25.0_f64,
        ) {
            prop_assert!(residue(stays, f64::from(fills) + 1.0).unwrap().value < residue(stays, f64::from(fills)).unwrap().value);
            let wash = |at: f64| washing(false, Celsius::new(at).ok()).unwrap().value;
            prop_assert!(wash(at) >= wash(at + 1.0));
        }
    }
}
