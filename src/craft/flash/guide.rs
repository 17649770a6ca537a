//! Guide numbers: what they are counted in, how they grow, and where they come from.
//!
//! A guide number is printed by the maker, found with one sheet of film or a flash meter, or read from
//! the beam candle-power seconds of an old unit. Promises: between two lines of the printed table and
//! beyond them a number is marked as reckoned.

use std::borrow::Cow;

use crate::craft::numeral::trimmed;
use crate::craft::{
    Amount, Aperture, Concern, ExposureValue, Figure, FilmSpeed, Grounds, Impossible, Millimetres,
    Standing, Step,
};

/// The table of beam candle-power seconds.
const TABLE: Grounds = Grounds::published("Kodak E-4L, Pro Image 100 Film, p. 2 (ISO 100)");
/// A curve through that table, good to 6 %.
const FIT: Grounds = Grounds {
    standing: Standing::Usual,
    source: Cow::Borrowed("derived: a curve through Kodak's table, GN in feet = √(0.05 BCPS S)"),
};
/// Guide number from a flash meter. What it read is the user's own; the text is that of the formula.
const BY_METER: Grounds = Grounds {
    standing: Standing::Own,
    source: Cow::Borrowed(
        "your own reading; GN = 1.14 L 2^(Ev/2) by the Minolta Flash Meter IV operation manual, p. 39",
    ),
};
/// Guide number from one sheet, likewise.
const BY_FILM: Grounds = Grounds {
    standing: Standing::Own,
    source: Cow::Borrowed(
        "your own best exposure; aperture x distance as in the US Navy photography course, p. 139, \
         where f/8 at 10 ft is GN 80",
    ),
};

/// Beam candle-power seconds, and the guide number at ISO 100 in metres and in feet.
const CANDLE_SECONDS: [(f64, f64, f64); 10] = [
    (350.0, 12.0, 40.0),
    (500.0, 15.0, 50.0),
    (700.0, 18.0, 60.0),
    (1000.0, 21.0, 70.0),
    (1400.0, 26.0, 85.0),
    (2000.0, 30.0, 100.0),
    (2800.0, 36.0, 120.0),
    (4000.0, 42.0, 140.0),
    (5600.0, 50.0, 170.0),
    (8000.0, 60.0, 200.0),
];

/// Millimetres in a foot, exact by definition.
const FOOT: f64 = 304.8;

/// The unit of length of a guide number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GuideUnit {
    /// Metres.
    Metres,
    /// Feet.
    Feet,
}

impl GuideUnit {
    /// The unit with this name: `m`, `ft`, `feet`.
    #[must_use]
    pub fn named(word: &str) -> Option<GuideUnit> {
        match word.trim() {
            "m" | "metre" | "metres" | "meter" | "meters" => Some(GuideUnit::Metres),
            "ft" | "foot" | "feet" | "'" => Some(GuideUnit::Feet),
            _ => None,
        }
    }

    /// `m` or `ft`.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            GuideUnit::Metres => "m",
            GuideUnit::Feet => "ft",
        }
    }

    const fn millimetres(self) -> f64 {
        match self {
            GuideUnit::Metres => 1000.0,
            GuideUnit::Feet => FOOT,
        }
    }

    pub(super) fn from(self, length: Millimetres) -> f64 {
        length.value() / self.millimetres()
    }

    pub(super) fn in_millimetres(self, length: f64) -> f64 {
        length * self.millimetres()
    }

    pub(super) fn amount(self, length: f64) -> Amount {
        Amount::number(length, self.symbol(), 2)
    }

    pub(super) fn told(self, length: f64) -> String {
        self.amount(length).to_string()
    }
}

/// A guide number: aperture times distance at full power.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Guide {
    /// The number.
    pub number: f64,
    /// The unit of its distance.
    pub unit: GuideUnit,
    /// The film speed it holds for.
    pub speed: FilmSpeed,
}

impl Guide {
    /// The number at another speed and a part of the power: it grows with the square root of both.
    #[must_use]
    pub fn at(self, speed: FilmSpeed, power: f64) -> f64 {
        let faster = f64::from(speed.value()) / f64::from(self.speed.value());
        self.number * (faster * power).sqrt()
    }

    /// The number in the other unit, by 0.3048 m to the foot.
    #[must_use]
    pub fn in_unit(self, unit: GuideUnit) -> f64 {
        self.number * self.unit.millimetres() / unit.millimetres()
    }
}

/// The guide number that one best exposure shows: `N x distance`.
///
/// # Errors
/// If the distance is nothing.
pub fn by_film(
    aperture: Aperture,
    distance: Millimetres,
    unit: GuideUnit,
    speed: FilmSpeed,
) -> Result<Figure<Guide>, Impossible> {
    let away = measured(distance)?;
    let number = aperture.number() * unit.from(away);
    let working = format!(
        "{} x {}",
        trimmed(aperture.number(), 1),
        unit.told(unit.from(away))
    );
    Ok(given(
        Guide {
            number,
            unit,
            speed,
        },
        BY_FILM,
        working,
    ))
}

/// The guide number by a flash meter's exposure value at a distance, `1.14 L 2^(Ev/2)`, L in metres.
///
/// # Errors
/// If the distance is nothing.
pub fn by_meter(
    value: ExposureValue,
    distance: Millimetres,
    speed: FilmSpeed,
) -> Result<Figure<Guide>, Impossible> {
    let unit = GuideUnit::Metres;
    let away = unit.from(measured(distance)?);
    let number = 1.14 * away * (value.value() / 2.0).exp2();
    let working = format!(
        "1.14 x {} x 2^({} / 2)",
        unit.told(away),
        trimmed(value.value(), 2)
    );
    Ok(given(
        Guide {
            number,
            unit,
            speed,
        },
        BY_METER,
        working,
    ))
}

fn measured(distance: Millimetres) -> Result<Millimetres, Impossible> {
    if distance.value() > 0.0 {
        return Ok(distance);
    }
    Err(Impossible::new(
        "a guide number is found at a distance: measure from the flash to the subject, such as 10 ft",
    ))
}

fn given(guide: Guide, grounds: Grounds, working: String) -> Figure<Guide> {
    let amount = Amount::number(guide.number, guide.unit.symbol(), 1);
    let step = Step::new("guide number", amount).working(working);
    Figure::new(guide, grounds.clone()).step(step.on(grounds))
}

/// The guide number of a unit with so many beam candle-power seconds: Kodak's table for ISO 100,
/// between its lines by the slope from one to the next, and by the square root of speed.
///
/// # Errors
/// If the candle-power seconds are not above 0.
pub fn by_candle_seconds(
    candle_seconds: f64,
    speed: FilmSpeed,
    unit: GuideUnit,
) -> Result<Figure<Guide>, Impossible> {
    if !(candle_seconds.is_finite() && candle_seconds > 0.0) {
        return Err(Impossible::new(format!(
            "{candle_seconds} beam candle-power seconds are none: copy them from the flash, such as \
             2000"
        )));
    }
    let (number, how) = at_100(candle_seconds, unit);
    let hundred = FilmSpeed::new(100)?;
    let printed = Guide {
        number,
        unit,
        speed: hundred,
    };
    let guide = Guide {
        number: printed.at(speed, 1.0),
        unit,
        speed,
    };
    let named = |number: f64| Amount::number(number, unit.symbol(), 1);
    let grounds = if how == Read::Beyond { FIT } else { TABLE };
    let step = Step::new("at ISO 100", named(number)).working(how.words());
    let mut figure = Figure::new(guide, grounds.clone())
        .within("350 to 8000 beam candle-power seconds")
        .step(step.on(grounds));
    if speed != hundred {
        let working = format!("{} x √({speed} / 100)", trimmed(number, 1));
        figure =
            figure.step(Step::new(format!("at ISO {speed}"), named(guide.number)).working(working));
    }
    Ok(match how {
        Read::Printed => figure,
        Read::Between => figure.remark(
            Concern::Note,
            "between two lines of the table: reckoned, not printed",
        ),
        Read::Beyond => figure.remark(
            Concern::Beyond,
            "outside the table of 350 to 8000: by a curve that keeps within 6 % of it inside",
        ),
    })
}

/// How a number was had from the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Read {
    Printed,
    Between,
    Beyond,
}

impl Read {
    const fn words(self) -> &'static str {
        match self {
            Read::Printed => "as printed",
            Read::Between => "between two lines of the table, by its slope",
            Read::Beyond => "√(0.05 x candle-power seconds x 100), in feet",
        }
    }
}

fn at_100(candle_seconds: f64, unit: GuideUnit) -> (f64, Read) {
    let of = |line: &(f64, f64, f64)| match unit {
        GuideUnit::Metres => line.1,
        GuideUnit::Feet => line.2,
    };
    let lines = CANDLE_SECONDS.iter().zip(CANDLE_SECONDS.iter().skip(1));
    for (low, high) in lines {
        for line in [low, high] {
            if (candle_seconds / line.0 - 1.0).abs() < 1e-9 {
                return (of(line), Read::Printed);
            }
        }
        if (low.0..high.0).contains(&candle_seconds) {
            let along = (candle_seconds / low.0).ln() / (high.0 / low.0).ln();
            let number = of(low) * (of(high) / of(low)).powf(along);
            return (number, Read::Between);
        }
    }
    let feet = (0.05 * candle_seconds * 100.0).sqrt();
    let number = match unit {
        GuideUnit::Feet => feet,
        GuideUnit::Metres => feet * FOOT / 1000.0,
    };
    (number, Read::Beyond)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn iso(value: u32) -> FilmSpeed {
        FilmSpeed::new(value).unwrap()
    }

    fn feet(candle_seconds: f64) -> f64 {
        let figure = by_candle_seconds(candle_seconds, iso(100), GuideUnit::Feet).unwrap();
        figure.value.number
    }

    #[test]
    fn nothing_is_found_from_no_distance_and_no_light() {
        let none = Millimetres::new(0.0).unwrap();
        let f8 = Aperture::parse("f/8").unwrap();
        assert!(by_film(f8, none, GuideUnit::Feet, iso(100)).is_err());
        assert!(by_meter(ExposureValue::new(10.0).unwrap(), none, iso(100)).is_err());
        for odd in [0.0, -5.0, f64::NAN, f64::INFINITY] {
            assert!(by_candle_seconds(odd, iso(100), GuideUnit::Feet).is_err());
        }
    }

    #[test]
    fn a_number_that_was_not_printed_says_so() {
        let of = |value| by_candle_seconds(value, iso(100), GuideUnit::Metres).unwrap();
        assert!(of(2000.0).remarks.is_empty());
        assert_eq!(of(2400.0).remarks[0].concern, Concern::Note);
        assert_eq!(of(100.0).remarks[0].concern, Concern::Beyond);
        assert_eq!(of(9000.0).remarks[0].concern, Concern::Beyond);
    }

    #[test]
    fn metres_and_feet_are_the_same_light() {
        let guide = Guide {
            number: 32.0,
            unit: GuideUnit::Metres,
            speed: iso(100),
        };
        assert!((guide.in_unit(GuideUnit::Feet) - 104.99).abs() < 0.01);
        assert_eq!(guide.in_unit(GuideUnit::Metres), 32.0);
    }

    proptest! {
        #[test]
        fn more_light_never_has_a_smaller_number(low in 350.0..8000.0_f64, high in 350.0..8000.0_f64) {
            prop_assert!(feet(low.max(high)) >= feet(low.min(high)) - 1e-9);
        }
    }
}
