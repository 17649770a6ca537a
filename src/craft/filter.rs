//! What filters take from the light: factors, stops and densities, and stacks of them.
//!
//! Factors multiply, stops and densities add, and all three say the same thing: `factor = 2^stops =
//! 10^density`. A neutral filter is sold under any of the three, and [`Strength::neutral`] tells them
//! apart. Promises: a filter never gives light; a number that could mean two things is asked about
//! and not guessed. Reading what people write in one field is in [`stack`](fn@stack); which filter
//! takes how much on which film is left to the reference.

use std::fmt;

use super::numeral::{Cursor, exact_u32, trimmed};
use super::{Amount, Concern, Figure, FilmSpeed, Grounds, Impossible, Step, Stops};

mod written;

pub use written::{Worn, stack};

/// Density of one stop: the decimal logarithm of 2.
const STOP: f64 = std::f64::consts::LOG10_2;

/// Densities and names of neutral filters in whole and third stops.
const NEUTRAL: Grounds = Grounds::published(
    "opticalglasscn.com, neutral density table (second-hand); thirds as in Kodak's Wratten 2 No. 96 \
     list, dealer page (second-hand)",
);
/// Adding stops and multiplying factors.
const STACKED: Grounds = Grounds::published(
    "\"Filter factor\", liquisearch.com, calculating exposure increase; Shutterbug, \"Photo Filters\"",
);
/// The meter set to the speed over the factor.
const AT_THE_METER: Grounds = Grounds::published("US Army subcourse SS0508, p. 38");

/// How strong a filter is, in the way it was written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Strength {
    /// A factor of the exposure, 1 or more.
    Factor(f64),
    /// Stops, 0 or more.
    Stops(Stops),
    /// A density, 0 or more.
    Density(f64),
}

impl Strength {
    /// A factor of the exposure.
    ///
    /// # Errors
    /// If it is below 1, for a filter gives no light, or beyond what can be reckoned.
    pub fn factor(factor: f64) -> Result<Strength, Impossible> {
        if factor >= 1.0 && factor <= 80_f64.exp2() {
            return Ok(Strength::Factor(factor));
        }
        Err(Impossible::new(format!(
            "a filter factor of {factor} is none: a filter takes light, so its factor is 1 or more, \
             such as x4"
        )))
    }

    /// So many stops.
    ///
    /// # Errors
    /// If they are below 0, for a filter gives no light.
    pub fn stops(stops: Stops) -> Result<Strength, Impossible> {
        if stops.value() >= 0.0 {
            return Ok(Strength::Stops(stops));
        }
        Err(Impossible::new(format!(
            "a filter takes light and gives none: {stops} should be more exposure, such as +1"
        )))
    }

    /// A density.
    ///
    /// # Errors
    /// If it is below 0, or above 20, beyond every filter.
    pub fn density(density: f64) -> Result<Strength, Impossible> {
        if (0.0..=20.0).contains(&density) {
            return Ok(Strength::Density(density));
        }
        Err(Impossible::new(format!(
            "a filter density of {density} is none: write one from 0 to 20, such as 0.9"
        )))
    }

    /// The strength a neutral filter's name means: `0.6` a density, `8` a factor, `103` three stops.
    ///
    /// A number with a decimal mark is a density; 101 to 120 are the names that end in the number of
    /// stops; 2, 4, 8 and every whole number from 12 up are factors.
    ///
    /// # Errors
    /// If the number could mean two things, or none.
    pub fn neutral(number: &str) -> Result<Strength, Impossible> {
        let plain = super::numeral::plain(number);
        let mut cursor = Cursor::new(&plain);
        let Some(value) = cursor.decimal().filter(|_| cursor.at_end()) else {
            return Err(Impossible::new(format!(
                "\"ND {}\" is no neutral filter: write ND 0.9, ND8 or ND 3 stops",
                number.trim()
            )));
        };
        if plain.contains(['.', ',']) {
            return Strength::density(value);
        }
        match exact_u32(value) {
            Some(name @ 101..=120) => Strength::stops(Stops::reckoned(f64::from(name) - 100.0)),
            Some(factor @ (2 | 4 | 8 | 12..)) => Strength::factor(f64::from(factor)),
            _ => Err(Impossible::new(format!(
                "ND {plain} could be a density, a factor or stops: write ND {plain}.0, ND x{plain} \
                 or ND {plain} stops"
            ))),
        }
    }

    /// The stops it takes.
    #[must_use]
    pub fn in_stops(self) -> Stops {
        match self {
            Strength::Factor(factor) => Stops::reckoned(factor.log2()),
            Strength::Stops(stops) => stops,
            Strength::Density(density) => Stops::reckoned(density / STOP),
        }
    }

    /// The factor it multiplies an exposure by.
    #[must_use]
    pub fn as_factor(self) -> f64 {
        match self {
            Strength::Factor(factor) => factor,
            Strength::Stops(stops) => stops.factor(),
            Strength::Density(density) => 10_f64.powf(density),
        }
    }

    /// Its density.
    #[must_use]
    pub fn as_density(self) -> f64 {
        match self {
            Strength::Density(density) => density,
            other => other.in_stops().value() * STOP,
        }
    }

    /// How it comes to its stops: `10^0.9 = x7.943 = +2.99 stops`, `x4 = +2 stops`.
    #[must_use]
    pub fn working(self) -> String {
        let stops = self.in_stops();
        match self {
            Strength::Factor(_) => format!("{self} = {stops}"),
            Strength::Stops(_) => format!("{stops} = {}", Amount::Factor(self.as_factor())),
            Strength::Density(density) => format!(
                "10^{} = {} = {stops}",
                trimmed(density, 3),
                Amount::Factor(self.as_factor())
            ),
        }
    }
}

impl fmt::Display for Strength {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Strength::Factor(factor) => Amount::Factor(*factor).fmt(f),
            Strength::Stops(stops) => stops.fmt(f),
            Strength::Density(density) => write!(f, "density {}", trimmed(*density, 3)),
        }
    }
}

/// Stops as scales and tables print them, to the nearest third.
#[must_use]
pub fn nominal(stops: Stops) -> Stops {
    Stops::reckoned((stops.value() * 3.0).round() / 3.0)
}

/// What one filter takes, in all three ways.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Density {
    /// Exact stops.
    pub stops: Stops,
    /// Stops to the nearest third, as the filter is sold.
    pub nominal: Stops,
    /// The factor.
    pub factor: f64,
    /// The density.
    pub density: f64,
    /// The part of the light that passes, 0 to 1.
    pub passes: f64,
}

/// One strength in all three ways: `factor = 2^stops = 10^density`.
#[must_use]
pub fn convert(strength: Strength) -> Figure<Density> {
    let stops = strength.in_stops();
    let factor = strength.as_factor();
    let value = Density {
        stops,
        nominal: nominal(stops),
        factor,
        density: strength.as_density(),
        passes: 1.0 / factor,
    };
    Figure::new(value, NEUTRAL)
        .step(Step::new("stops", Amount::Stops(stops)).working(strength.working()))
        .step(
            Step::new("to the nearest third", Amount::Stops(value.nominal))
                .working("as filters are sold"),
        )
}

/// What filters in front of each other take together: their stops added.
///
/// # Errors
/// If together they are beyond what can be reckoned.
pub fn together(stops: &[Stops]) -> Result<Figure<Stops>, Impossible> {
    let sum: f64 = stops.iter().map(|stops| stops.value()).sum();
    let sum = Stops::new(sum)?;
    let working: Vec<String> = stops
        .iter()
        .map(|stops| trimmed(stops.value(), 2))
        .collect();
    let mut figure = Figure::new(sum, STACKED);
    if stops.len() > 1 {
        let working = format!("{} = {}", working.join(" + "), trimmed(sum.value(), 2));
        let added = Step::new("together", Amount::Stops(sum));
        figure = figure.step(added.working(working).on(STACKED));
    }
    Ok(figure)
}

/// The speed to set on a meter, so that it allows for the filters: the film's speed over the factor.
///
/// # Errors
/// If no meter could be set so low.
pub fn meter_setting(speed: FilmSpeed, stops: Stops) -> Result<Figure<FilmSpeed>, Impossible> {
    let exact = f64::from(speed.value()) / stops.factor();
    let whole = exact_u32(exact.round()).filter(|whole| *whole >= 1);
    let Some(set) = whole.and_then(|whole| FilmSpeed::new(whole).ok()) else {
        return Err(Impossible::new(format!(
            "ISO {speed} over {} is below 1, and no meter goes there: add the stops to the reading",
            Amount::Factor(stops.factor())
        )));
    };
    let working = format!("{speed} / {}", trimmed(stops.factor(), 2));
    let figure = Figure::new(set, AT_THE_METER).step(
        Step::new("meter set to", Amount::Speed(set))
            .working(working)
            .on(AT_THE_METER),
    );
    Ok(figure.remark(
        Concern::Note,
        "set the meter so, or add the stops to its reading, not both",
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_neutral_name_is_a_density_a_factor_or_stops() {
        for (name, stops) in [
            ("0.6", 1.993),
            ("8", 3.0),
            ("0,9", 2.99),
            ("103", 3.0),
            ("400", 8.644),
        ] {
            let strength = Strength::neutral(name).unwrap();
            assert!(
                (strength.in_stops().value() - stops).abs() < 0.001,
                "{name}"
            );
        }
    }

    #[test]
    fn a_neutral_name_that_could_mean_two_things_is_asked_about() {
        for name in ["1", "3", "5", "6", "9", "10", "11"] {
            let why = Strength::neutral(name).unwrap_err().to_string();
            assert!(why.contains("could be a density"), "{why}");
        }
        for name in ["", "x", "0", "0.6 0.6", "99.0"] {
            assert!(Strength::neutral(name).is_err(), "{name}");
        }
    }

    #[test]
    fn a_filter_gives_no_light() {
        assert!(Strength::factor(0.5).is_err());
        assert!(Strength::factor(f64::NAN).is_err());
        assert!(Strength::factor(f64::INFINITY).is_err());
        assert!(Strength::stops(Stops::new(-1.0).unwrap()).is_err());
        assert!(Strength::density(-0.3).is_err());
        assert!(Strength::density(f64::NAN).is_err());
    }

    #[test]
    fn no_meter_is_set_below_one() {
        let speed = FilmSpeed::new(25).unwrap();
        assert!(meter_setting(speed, Stops::new(10.0).unwrap()).is_err());
    }

    proptest! {
        #[test]
        fn factor_stops_and_density_invert(stops in 0.0..40.0_f64) {
            let one = Strength::Stops(Stops::new(stops).unwrap());
            let by_factor = Strength::factor(one.as_factor()).unwrap();
            prop_assert!((by_factor.in_stops().value() - stops).abs() < 1e-9);
            let by_density = Strength::density(one.as_density()).unwrap();
            prop_assert!((by_density.in_stops().value() - stops).abs() < 1e-9);
        }

        #[test]
        fn stacks_add_in_stops_and_multiply_in_factors(
            taken in proptest::collection::vec(0.0..10.0_f64, 0..6),
        ) {
            let stops: Vec<Stops> = taken.iter().map(|one| Stops::new(*one).unwrap()).collect();
            let sum = together(&stops).unwrap().value;
            let product: f64 = stops.iter().map(|stops| stops.factor()).product();
            prop_assert!((sum.factor() / product - 1.0).abs() < 1e-9);
            let turned: Vec<Stops> = stops.iter().rev().copied().collect();
            prop_assert!((together(&turned).unwrap().value.value() - sum.value()).abs() < 1e-9);
        }

        #[test]
        fn a_nominal_third_is_within_a_sixth_of_a_stop(stops in 0.0..40.0_f64) {
            let exact = Stops::new(stops).unwrap();
            prop_assert!((nominal(exact).value() - stops).abs() <= 1.0 / 6.0 + 1e-9);
        }
    }
}
