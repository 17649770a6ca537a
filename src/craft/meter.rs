//! From what a meter sees to what is set: the constants of meters, and light in its units against
//! exposure values.
//!
//! A reflected-light meter is built so that `N²/t = L S / K`, an incident-light meter so that
//! `N²/t = E S / C`. K and C were never fixed: the standard leaves them to be chosen by what pictures
//! people accept, so they are arguments here ([`Constants`]) and the user's own go before all others.
//! Nothing in this file knows a zone; placing readings is for [`super::zones`].

use super::brightness::{Brightness, Illuminance, Luminance};
use super::exposure::{at_speed, speed_value};
use super::exposure_value::ExposureValue;
use super::figure::{Amount, Concern, Figure, Impossible, Remark, Step};
use super::film_speed::FilmSpeed;
use super::grounds::Grounds;
use super::numeral::trimmed;
use super::seconds::Seconds;
use super::unreadable::Unreadable;

/// What K of a reflected-light meter may be, in cd/m2; anything else is a slip of the pen.
const K_POSSIBLE: (f64, f64) = (5.0, 30.0);
/// What C of an incident-light meter may be, in lux.
const C_POSSIBLE: (f64, f64) = (100.0, 1000.0);
/// K by ISO 2720:1974.
const K_STANDARD: (f64, f64) = (10.6, 13.4);
/// C of a flat receptor by the same standard.
const C_FLAT: (f64, f64) = (240.0, 400.0);

/// What meters of three makers are built to.
const K_GROUNDS: Grounds = Grounds::published(
    "\"Exposure Meter Calibration\", basiccamera.blogspot.com, 2008 (second-hand): K 12.5 in use by \
     Canon, Nikon and Sekonic",
);
const C_GROUNDS: Grounds = Grounds::published(
    "S. Yedlin, \"Exposure Equation and Light Meter Calibration\": C 250 for a flat receptor",
);
const DOME_GROUNDS: Grounds = Grounds::published(
    "S. Yedlin, \"Exposure Equation and Light Meter Calibration\": C 340 for a dome, from a meter's \
     manual (second-hand)",
);
/// The two meter formulas.
const FORMULA: Grounds = Grounds::published(
    "\"Exposure Meter Calibration\", basiccamera.blogspot.com, 2008: N²/t = L S / K and E S / C",
);

/// The constants of a meter, each with what it rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct Constants {
    reflected: f64,
    reflected_on: Grounds,
    incident: f64,
    incident_on: Grounds,
}

impl Default for Constants {
    /// K 12.5 and C 250, a flat receptor.
    fn default() -> Constants {
        Constants {
            reflected: 12.5,
            reflected_on: K_GROUNDS,
            incident: 250.0,
            incident_on: C_GROUNDS,
        }
    }
}

impl Constants {
    /// The same for a meter with a dome: C 340.
    #[must_use]
    pub fn with_dome(self) -> Constants {
        Constants {
            incident: 340.0,
            incident_on: DOME_GROUNDS,
            ..self
        }
    }

    /// The same with another K, in cd/m2.
    ///
    /// # Errors
    /// If no meter could have it: it lies between 5 and 30.
    pub fn with_reflected(self, k: f64, on: Grounds) -> Result<Constants, Impossible> {
        within(k, K_POSSIBLE, "K of a reflected-light meter", "12.5")?;
        Ok(Constants {
            reflected: k,
            reflected_on: on,
            ..self
        })
    }

    /// The same with another C, in lux.
    ///
    /// # Errors
    /// If no meter could have it: it lies between 100 and 1000.
    pub fn with_incident(self, c: f64, on: Grounds) -> Result<Constants, Impossible> {
        within(c, C_POSSIBLE, "C of an incident-light meter", "250")?;
        Ok(Constants {
            incident: c,
            incident_on: on,
            ..self
        })
    }

    /// K, in cd/m2.
    #[must_use]
    pub const fn reflected(&self) -> f64 {
        self.reflected
    }

    /// What K rests on.
    #[must_use]
    pub const fn reflected_on(&self) -> &Grounds {
        &self.reflected_on
    }

    /// C, in lux.
    #[must_use]
    pub const fn incident(&self) -> f64 {
        self.incident
    }

    /// What C rests on.
    #[must_use]
    pub const fn incident_on(&self) -> &Grounds {
        &self.incident_on
    }

    /// The reflectance of the card on which a flat incident reading and a reflected reading agree,
    /// `pi K / C`: 0.157 for 12.5 and 250, and not 0.18.
    ///
    /// S. Yedlin, "Exposure Equation and Light Meter Calibration"; holds for a matt card.
    #[must_use]
    pub fn agreeing_reflectance(&self) -> f64 {
        std::f64::consts::PI * self.reflected / self.incident
    }

    /// What is to be said about constants outside what the standard names.
    #[must_use]
    pub fn remarks(&self) -> Vec<Remark> {
        let outside = |value: f64, (low, high): (f64, f64)| !(low..=high).contains(&value);
        let mut remarks = Vec::new();
        if outside(self.reflected, K_STANDARD) {
            remarks.push(Remark {
                concern: Concern::Note,
                words: format!(
                    "K {} lies outside the 10.6 to 13.4 of ISO 2720:1974 (second-hand); some makers \
                     do use 14",
                    trimmed(self.reflected, 2)
                ),
            });
        }
        if outside(self.incident, C_FLAT) {
            remarks.push(Remark {
                concern: Concern::Note,
                words: format!(
                    "C {} lies outside the 240 to 400 of a flat receptor (second-hand)",
                    trimmed(self.incident, 1)
                ),
            });
        }
        remarks
    }
}

fn within(
    value: f64,
    (low, high): (f64, f64),
    what: &str,
    such_as: &str,
) -> Result<(), Impossible> {
    if (low..=high).contains(&value) {
        return Ok(());
    }
    Err(Impossible::new(format!(
        "{} cannot be {what}: it lies between {low} and {high}, usually {such_as}",
        trimmed(value, 3)
    )))
}

/// The exposure value that a surface of this luminance asks for as a middle tone, `log2(L S / K)`.
///
/// # Errors
/// If the result is outside the range of exposure values.
pub fn from_luminance(
    luminance: Luminance,
    speed: FilmSpeed,
    meter: &Constants,
) -> Result<ExposureValue, Unreadable> {
    let speed = f64::from(speed.value());
    ExposureValue::new((luminance.value() * speed / meter.reflected).log2())
}

/// The exposure value that this much light on the subject asks for, `log2(E S / C)`.
///
/// # Errors
/// If the result is outside the range of exposure values.
pub fn from_illuminance(
    illuminance: Illuminance,
    speed: FilmSpeed,
    meter: &Constants,
) -> Result<ExposureValue, Unreadable> {
    let speed = f64::from(speed.value());
    ExposureValue::new((illuminance.value() * speed / meter.incident).log2())
}

/// The luminance that a reflected-light meter saw at this exposure value, `(K / S) 2^EV`.
///
/// # Errors
/// If it is outside the range of luminances.
pub fn luminance(
    value: ExposureValue,
    speed: FilmSpeed,
    meter: &Constants,
) -> Result<Luminance, Unreadable> {
    let speed = f64::from(speed.value());
    Luminance::new(meter.reflected / speed * value.value().exp2())
}

/// The light that fell on an incident-light meter at this exposure value, `(C / S) 2^EV`.
///
/// # Errors
/// If it is outside the range of illuminances.
pub fn illuminance(
    value: ExposureValue,
    speed: FilmSpeed,
    meter: &Constants,
) -> Result<Illuminance, Unreadable> {
    let speed = f64::from(speed.value());
    Illuminance::new(meter.incident / speed * value.value().exp2())
}

/// The term of the light in the additive system, `Bv = Ev - Sv`.
#[must_use]
pub fn brightness_value(value: ExposureValue, speed: FilmSpeed) -> f64 {
    value.value() - speed_value(speed)
}

/// Bv of a luminance by the older constant of the additive system, `log2(L / (0.3 K))` with K 11.4;
/// it gives 0.23 stop more than the formula with K 12.5.
///
/// "APEX", French encyclopedia in translation, speedylook.com.
#[must_use]
pub fn older_brightness_value(luminance: Luminance) -> f64 {
    (luminance.value() / (0.3 * 11.4)).log2()
}

/// The mean exposure that a meter of K 12.5 gives the film for a middle tone, in lux seconds:
/// `8.12 / S`.
///
/// Photrio thread 135325, post 1770208, quoting the American meter standard (second-hand).
#[must_use]
pub fn exposure_on_film(speed: FilmSpeed) -> f64 {
    8.12 / f64::from(speed.value())
}

/// The f-number at which the time for a middle tone is one over its luminance in candela per square
/// foot: the square root of the film speed.
///
/// Photrio thread 77228, p. 2, quoting A. Adams, The Negative, p. 66 (second-hand). Derived: it is the
/// reflected formula with K 10.76.
#[must_use]
pub fn key_stop(speed: FilmSpeed) -> f64 {
    f64::from(speed.value()).sqrt()
}

/// The time at the [`key_stop`] for a surface that shall be a middle tone, 1 / L with L in candela
/// per square foot.
///
/// # Errors
/// If it is outside the range of times.
pub fn key_stop_time(luminance: Luminance) -> Result<Seconds, Unreadable> {
    Seconds::new(1.0 / luminance.candela_per_square_foot())
}

/// What a meter showed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shown {
    /// An exposure value for film of this speed.
    Value(ExposureValue, FilmSpeed),
    /// Light in its own unit.
    Light(Brightness),
}

/// The exposure value at ISO 100 that a meter's reading comes to.
///
/// # Errors
/// If the result is outside the range of exposure values.
pub fn at_100(shown: Shown, meter: &Constants) -> Result<Figure<ExposureValue>, Impossible> {
    let (value, step) = match shown {
        Shown::Value(value, speed) => {
            let at_100 = at_speed(value, speed, FilmSpeed::ISO_100)?;
            if speed == FilmSpeed::ISO_100 {
                return Ok(Figure::new(at_100, FORMULA));
            }
            let step = Step::new("as for ISO 100", Amount::Ev(at_100))
                .working(format!("{value} - log2({speed} / 100)"));
            (at_100, step)
        }
        Shown::Light(Brightness::Reflected(light)) => {
            let value = from_luminance(light, FilmSpeed::ISO_100, meter)?;
            let k = trimmed(meter.reflected, 2);
            let step = Step::new("reflected reading", Amount::Ev(value))
                .working(format!("log2({light} x 100 / {k})"))
                .on(meter.reflected_on.clone());
            (value, step)
        }
        Shown::Light(Brightness::Incident(light)) => {
            let value = from_illuminance(light, FilmSpeed::ISO_100, meter)?;
            let c = trimmed(meter.incident, 1);
            let step = Step::new("incident reading", Amount::Ev(value))
                .working(format!("log2({light} x 100 / {c})"))
                .on(meter.incident_on.clone());
            (value, step)
        }
    };
    Ok(Figure::new(value, FORMULA).step(step))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn constants_no_meter_has_are_refused_with_what_would_do() {
        let why = Constants::default()
            .with_reflected(0.0, Grounds::own("typed"))
            .unwrap_err();
        assert_eq!(
            why.to_string(),
            "0 cannot be K of a reflected-light meter: it lies between 5 and 30, usually 12.5"
        );
        for c in [f64::NAN, -250.0, 2.5, 1e9] {
            assert!(
                Constants::default()
                    .with_incident(c, Grounds::own("typed"))
                    .is_err()
            );
        }
    }

    #[test]
    fn a_constant_outside_the_standard_is_remarked_on() {
        assert!(Constants::default().remarks().is_empty());
        assert!(Constants::default().with_dome().remarks().is_empty());
        let own = Constants::default()
            .with_reflected(14.0, Grounds::own("typed"))
            .unwrap();
        assert_eq!(own.remarks().len(), 1);
    }

    #[test]
    fn a_value_beyond_all_light_has_no_luminance() {
        let value = ExposureValue::new(50.0).unwrap();
        assert!(luminance(value, FilmSpeed::ISO_100, &Constants::default()).is_err());
        assert!(illuminance(value, FilmSpeed::ISO_100, &Constants::default()).is_err());
    }

    proptest! {
        #[test]
        fn light_goes_to_an_exposure_value_and_back(
            value in -20.0..25.0_f64, speed in 1_u32..=6400, k in 5.0..30.0_f64, c in 100.0..1000.0_f64,
        ) {
            let meter = Constants::default()
                .with_reflected(k, Grounds::own("typed")).unwrap()
                .with_incident(c, Grounds::own("typed")).unwrap();
            let (ev, speed) = (ExposureValue::new(value).unwrap(), FilmSpeed::new(speed).unwrap());
            let seen = luminance(ev, speed, &meter).unwrap();
            prop_assert!((from_luminance(seen, speed, &meter).unwrap().value() - value).abs() < 1e-9);
            let fell = illuminance(ev, speed, &meter).unwrap();
            prop_assert!((from_illuminance(fell, speed, &meter).unwrap().value() - value).abs() < 1e-9);
        }

        #[test]
        fn brighter_light_never_asks_for_a_lower_value(one in 1e-6..1e6_f64, other in 1e-6..1e6_f64) {
            let value = |light| {
                let light = Luminance::new(light).unwrap();
                from_luminance(light, FilmSpeed::ISO_100, &Constants::default()).unwrap().value()
            };
            prop_assert_eq!(one > other, value(one) > value(other));
        }
    }
}
