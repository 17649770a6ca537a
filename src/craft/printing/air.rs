//! Sun and air: the first guess at a time in the sun, and what damp and warmth do to a coating.
//!
//! Promises: what is only a first guess says so in its result; a rule that was found for dichromated
//! colloids is given for no other coating.

use super::{four, within};
use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Seconds, Step};

/// The index is linear in the irradiance that burns skin.
const INDEX: Grounds = Grounds::published(
    "\"Ultraviolet index\", encyclopedia article: the index is linear, 12 for half the time is the dose of 6",
);

/// Skin and coatings do not see the same light.
const GUESS: Grounds = Grounds::usual();

/// Sensitivity against humidity.
const HUMIDITY: Grounds = Grounds::published(
    "J. Kosar, Light-Sensitive Systems, 1965, as summarized by C. Z. Anderson, alt-photo-process list, \
     2006 (second-hand): the sensitivity of dichromated colloids doubles for 30 % more relative humidity",
);

/// Dark reaction against temperature.
const DARK: Grounds = Grounds::published(
    "J. Kosar, Light-Sensitive Systems, 1965, as summarized by C. Z. Anderson, alt-photo-process list, \
     2006 (second-hand): the dark reaction is three times as fast for 10 C more",
);

/// Relative humidity that doubles the sensitivity, in percent.
const DOUBLING: f64 = 30.0;

/// A time in the sun under another ultraviolet index: `t i1 / i2`. A first guess and no more.
///
/// # Errors
/// If an index is not from 0.5 to 20.
pub fn by_index(time: Seconds, from: f64, to: f64) -> Result<Figure<Seconds>, Impossible> {
    let range = 0.5..=20.0;
    let from = within("an ultraviolet index", from, range.clone(), "")?;
    let to = within("an ultraviolet index", to, range, "")?;
    let guess = Seconds::new(time.value() * from / to)?;
    Ok(Figure::new(guess, GUESS)
        .step(
            Step::new("index", Amount::Factor(from / to))
                .working(format!("{} / {}", four(from), four(to)))
                .on(INDEX),
        )
        .within("a first guess, clear sky to clear sky, the frame turned to the sun alike")
        .remark(
            Concern::Warning,
            "an estimate: the index counts what burns skin, coatings print by longer waves, which change \
             less over the day and the year. Print a strip",
        ))
}

/// The irradiance that burns skin for an index, in milliwatts to the square metre: 25 for each.
#[must_use]
pub fn irradiance_of_index(index: f64) -> f64 {
    25.0 * index
}

/// The time of a dichromated colloid (gum, carbon) in other air: `t 2^-((h2 - h1) / 30)`.
///
/// # Errors
/// If a humidity is not one in which such coatings work.
pub fn by_humidity(time: Seconds, from: f64, to: f64) -> Result<Figure<Seconds>, Impossible> {
    for humidity in [from, to] {
        within("a relative humidity", humidity, 10.0..=90.0, "%")?;
    }
    let factor = (-(to - from) / DOUBLING).exp2();
    let moved = Seconds::new(time.value() * factor)?;
    Ok(Figure::new(moved, HUMIDITY)
        .step(
            Step::new("humidity", Amount::Factor(factor))
                .working(format!("2^(({} - {}) / 30)", four(from), four(to)))
                .on(HUMIDITY),
        )
        .within("gum, carbon and other dichromated colloids, neither bone dry nor swollen")
        .remark(
            Concern::Note,
            "with the exposure changed so, contrast stays as it was (alt-photo-process list, October 2006)",
        ))
}

/// How many times as fast a dichromated coating goes off at another temperature: `3^((t2 - t1) / 10)`.
///
/// # Errors
/// If a temperature is not from -20 to 50 C.
pub fn dark_reaction(from: f64, to: f64) -> Result<Figure<f64>, Impossible> {
    for celsius in [from, to] {
        within("a temperature", celsius, -20.0..=50.0, "C")?;
    }
    let factor = 3_f64.powf((to - from) / 10.0);
    Ok(Figure::new(factor, DARK)
        .step(
            Step::new("dark reaction", Amount::Factor(factor))
                .working(format!("3^(({} - {}) / 10)", four(to), four(from)))
                .on(DARK),
        )
        .within("dichromated coatings waiting in the dark"))
}
