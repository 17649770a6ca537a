//! Light, aperture, time and film speed: any one of them from the other three, and the settings that
//! serve one exposure value.
//!
//! For: the question that comes up whichever of the four is fixed. The arithmetic is that of the
//! additive system, `Av + Tv = Bv + Sv`, and the steps show its terms. What takes light on its way to
//! the film (bellows, filters, long times) is not here.

use super::aperture::Aperture;
use super::exposure::{
    Setting, aperture_for, exposure_value, speed_value, stops_of_speed, time_for, time_value,
};
use super::exposure_value::ExposureValue;
use super::figure::{Amount, Figure, Impossible, Step};
use super::film_speed::FilmSpeed;
use super::grounds::Grounds;
use super::meter::brightness_value;
use super::numeral::trimmed;
use super::seconds::Seconds;
use super::series::{Rounded, Scale, apertures, settable_time};

const ADDITIVE: Grounds = Grounds::published(
    "\"Additive System of Photographic Exposure\", German encyclopedia in translation, after \
     ASA PH2.5-1960 and ANSI PH3.49-1971: Av + Tv = Bv + Sv",
);

/// What is known of an exposure.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Known {
    /// The light, as an exposure value at ISO 100.
    pub light: Option<ExposureValue>,
    /// The aperture.
    pub aperture: Option<Aperture>,
    /// The time.
    pub time: Option<Seconds>,
    /// The speed of the film.
    pub speed: Option<FilmSpeed>,
}

/// The one that was not known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Found {
    /// The light, as an exposure value at ISO 100.
    Light(ExposureValue),
    /// The aperture to the nearest third of a stop, and the stops by which it gives more exposure
    /// than the other three ask for.
    Aperture(Aperture, f64),
    /// The time.
    Time(Seconds),
    /// The speed, to the nearest whole number.
    Speed(FilmSpeed),
}

/// The one of light, aperture, time and speed that is missing.
///
/// ```
/// use notchbook::craft::{Aperture, ExposureValue, FilmSpeed, Seconds};
/// use notchbook::craft::solve::{Found, Known, missing};
/// let found = missing(Known {
///     light: Some(ExposureValue::parse("12")?),
///     aperture: None,
///     time: Some(Seconds::parse("1/250")?),
///     speed: Some(FilmSpeed::parse("400")?),
/// })
/// .unwrap();
/// assert_eq!(found.value, Found::Aperture(Aperture::parse("f/8")?, 0.0));
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
///
/// # Errors
/// If not exactly one is missing, or the result is one that cannot be.
pub fn missing(known: Known) -> Result<Figure<Found>, Impossible> {
    let steps = terms(&known);
    let found = match (known.light, known.aperture, known.time, known.speed) {
        (None, Some(aperture), Some(time), Some(speed)) => {
            let set = exposure_value(Setting { aperture, time });
            let faster = stops_of_speed(FilmSpeed::ISO_100, speed).value();
            Found::Light(ExposureValue::new(set.value() - faster)?)
        }
        (Some(light), None, Some(time), Some(speed)) => {
            let set = for_speed(light, speed)?;
            let aperture = aperture_for(set, time)?;
            let wanted = set.value() - time_value(time);
            let error = wanted - aperture.stops();
            Found::Aperture(aperture, if error.abs() < 1e-9 { 0.0 } else { error })
        }
        (Some(light), Some(aperture), None, Some(speed)) => {
            Found::Time(time_for(for_speed(light, speed)?, aperture)?)
        }
        (Some(light), Some(aperture), Some(time), None) => {
            let set = exposure_value(Setting { aperture, time });
            Found::Speed(speed_for(set.value() - light.value())?)
        }
        (Some(_), Some(_), Some(_), Some(_)) => {
            return Err(Impossible::new(
                "light, aperture, time and speed are all given: leave out the one that is asked for",
            ));
        }
        _ => {
            return Err(Impossible::new(
                "three of light, aperture, time and film speed are needed to find the fourth",
            ));
        }
    };
    let figure = Figure {
        steps,
        ..Figure::new(found, ADDITIVE)
    };
    Ok(figure.step(sum(found)))
}

/// The exposure value to set for film of this speed, in light given for ISO 100.
///
/// # Errors
/// If it is outside the range of exposure values.
pub fn for_speed(light: ExposureValue, speed: FilmSpeed) -> Result<ExposureValue, Impossible> {
    let faster = stops_of_speed(FilmSpeed::ISO_100, speed).value();
    Ok(ExposureValue::new(light.value() + faster)?)
}

/// The film speed so many stops above ISO 100.
fn speed_for(stops: f64) -> Result<FilmSpeed, Impossible> {
    let speed = (100.0 * stops.exp2()).round();
    // The test makes the cast exact.
    let whole = (1.0..=409_600.0).contains(&speed).then_some(speed as u32);
    whole
        .and_then(|speed| FilmSpeed::new(speed).ok())
        .ok_or_else(|| {
            Impossible::new(format!(
                "this setting in this light wants a film {} stops from ISO 100, and there is none: \
                 change aperture or time",
                trimmed(stops, 1)
            ))
        })
}

/// The terms of what is known.
fn terms(known: &Known) -> Vec<Step> {
    let term = |name: String, value: f64| Step::new(name, Amount::number(value, "", 2));
    let light = known.light.map(|light| {
        let value = brightness_value(light, FilmSpeed::ISO_100);
        term(format!("light, Bv of {light}"), value)
            .working(format!("{} - 5", trimmed(light.value(), 2)))
    });
    let speed = known.speed.map(|speed| {
        term(format!("film, Sv of ISO {speed}"), speed_value(speed))
            .working(format!("log2({speed} / 3.125)"))
    });
    let aperture = known.aperture.map(|aperture| {
        term(format!("aperture, Av of {aperture}"), aperture.stops())
            .working(format!("2 log2({})", trimmed(aperture.number(), 3)))
    });
    let time = known.time.map(|time| {
        term(format!("time, Tv of {time}"), time_value(time)).working(format!("-log2({time})"))
    });
    [light, speed, aperture, time]
        .into_iter()
        .flatten()
        .collect()
}

/// How the missing term comes out of the others.
fn sum(found: Found) -> Step {
    match found {
        Found::Light(light) => Step::new("light", Amount::Ev(light)).working("Av + Tv - Sv + 5"),
        Found::Aperture(aperture, _) => Step::new("Av", Amount::number(aperture.stops(), "", 2))
            .working("Bv + Sv - Tv, to the nearest third")
            .brings(Amount::Aperture(aperture)),
        Found::Time(time) => Step::new("Tv", Amount::number(time_value(time), "", 2))
            .working("Bv + Sv - Av")
            .brings(Amount::Time(time)),
        Found::Speed(speed) => Step::new("Sv", Amount::number(speed_value(speed), "", 2))
            .working("Av + Tv - Bv")
            .brings(Amount::Speed(speed)),
    }
}

/// One setting that gives a wanted exposure value.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Offer {
    /// The aperture.
    pub aperture: Aperture,
    /// The time that is wanted there.
    pub wanted: Seconds,
    /// The time that can be set.
    pub set: Rounded<Seconds>,
}

/// From the widest to the smallest aperture that lenses for sheet film are used at, in stops from f/1:
/// f/5.6 to f/64.
const USED: std::ops::RangeInclusive<f64> = 5.0..=12.0;

/// The settings at whole stops from f/5.6 to f/64 that give this exposure value; those for which no
/// time is short or long enough are left out.
#[must_use]
pub fn offers(value: ExposureValue) -> Vec<Offer> {
    apertures(Scale::Whole)
        .filter(|mark| USED.contains(&mark.mark.stops()))
        .filter_map(|mark| offer(value, mark.mark).ok())
        .filter(|offer| offer.set.error.value() <= 0.5)
        .collect()
}

/// The setting at one aperture that gives this exposure value.
///
/// # Errors
/// If no time within the range of times does.
pub fn offer(value: ExposureValue, aperture: Aperture) -> Result<Offer, Impossible> {
    let wanted = time_for(value, aperture)?;
    Ok(Offer {
        aperture,
        wanted,
        set: settable_time(wanted),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn known(light: &str, aperture: &str, time: &str, speed: &str) -> Known {
        Known {
            light: ExposureValue::parse(light).ok(),
            aperture: Aperture::parse(aperture).ok(),
            time: Seconds::parse(time).ok(),
            speed: FilmSpeed::parse(speed).ok(),
        }
    }

    #[test]
    fn each_of_the_four_comes_out_of_the_other_three() {
        let found = |known| missing(known).unwrap().value;
        let Found::Light(light) = found(known("", "f/22", "1/15", "400")) else {
            panic!()
        };
        assert_eq!(light.to_string(), "EV 11");
        let Found::Aperture(aperture, error) = found(known("11", "", "1/15", "400")) else {
            panic!()
        };
        assert_eq!((aperture.to_string().as_str(), error), ("f/22", 0.0));
        let Found::Time(time) = found(known("11", "f/22", "", "400")) else {
            panic!()
        };
        assert_eq!(time.to_string(), "1/15 s");
        let Found::Speed(speed) = found(known("11", "f/22", "1/15", "")) else {
            panic!()
        };
        assert_eq!(speed.value(), 400);
    }

    #[test]
    fn the_steps_are_the_terms_of_the_additive_system() {
        let figure = missing(known("11", "f/22", "", "400")).unwrap();
        let terms: Vec<String> = figure
            .steps
            .iter()
            .map(|step| format!("{} {}", step.name, step.amount))
            .collect();
        assert_eq!(
            terms,
            [
                "light, Bv of EV 11 6",
                "film, Sv of ISO 400 7",
                "aperture, Av of f/22 9",
                "Tv 4"
            ]
        );
    }

    #[test]
    fn what_cannot_be_found_is_a_sentence() {
        assert!(missing(known("11", "f/22", "1/15", "400")).is_err());
        assert!(missing(known("11", "f/22", "", "")).is_err());
        assert!(missing(Known::default()).is_err());
        let why = missing(known("20", "f/1", "1 h", ""))
            .unwrap_err()
            .to_string();
        assert!(
            why.contains("there is none: change aperture or time"),
            "{why}"
        );
        let why = missing(known("-20", "", "1/1000", "1"))
            .unwrap_err()
            .to_string();
        assert!(why.contains("is not an aperture from"), "{why}");
    }

    #[test]
    fn settings_too_fast_for_the_shutter_are_not_offered() {
        let all: Vec<String> = offers(ExposureValue::new(17.0).unwrap())
            .iter()
            .map(|offer| format!("{} {}", offer.aperture, offer.set.value))
            .collect();
        assert_eq!(all[0], "f/16 1/500 s");
        assert_eq!(all.len(), 5);
    }

    proptest! {
        #[test]
        fn the_one_that_is_left_out_comes_back(
            light in -3.0..16.0_f64, thirds in 15..42_i32, speed in 6_u32..=3200,
        ) {
            let full = Known {
                light: ExposureValue::new(light).ok(),
                aperture: Aperture::nearest(f64::from(thirds) / 3.0).ok(),
                time: None,
                speed: FilmSpeed::new(speed).ok(),
            };
            let Found::Time(time) = missing(full).unwrap().value else { panic!() };
            let with_time = Known { time: Some(time), ..full };
            let Found::Light(back) = missing(Known { light: None, ..with_time }).unwrap().value else { panic!() };
            prop_assert!((back.value() - light).abs() < 1e-5);
            let Found::Aperture(aperture, error) = missing(Known { aperture: None, ..with_time }).unwrap().value else { panic!() };
            prop_assert!(error.abs() <= 1.0 / 6.0 + 1e-5);
            prop_assert!((aperture.stops() - f64::from(thirds) / 3.0).abs() < 1e-5);
            let Found::Speed(back) = missing(Known { speed: None, ..with_time }).unwrap().value else { panic!() };
            prop_assert_eq!(back.value(), speed);
        }
    }
}
