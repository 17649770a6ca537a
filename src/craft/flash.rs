//! Flash: guide numbers, distance, power, pops, and flash with daylight.
//!
//! A guide number is aperture times distance, for one film speed and one unit of length. It grows with
//! the square root of speed, power and the number of pops, because the light does and the aperture
//! counts by its square. [`Flash::parse`] reads a flash from one line of text, [`flash`] gives the
//! aperture it asks for, [`reach`] the distance at which an aperture is right. More pops, daylight
//! beside the flash and ratios of lights are in [`pops`]; where guide numbers come from in [`guide`].
//! A flash is over before reciprocity failure begins, so what film needs for long times is never
//! added to the flash's part; what the bellows takes is.

use std::borrow::Cow;

use super::numeral::trimmed;
use super::{
    Amount, Aperture, Concern, Figure, FilmSpeed, Grounds, Impossible, Millimetres, Standing, Step,
    Stops,
};

pub mod guide;
pub mod pops;
mod written;

pub use guide::{Guide, GuideUnit};

/// Aperture = guide number / distance.
const GUIDE: Grounds = Grounds::published(
    "Yashica Contax RTS manual, p. 67; speed and power as in the Pentax AF160FC manual, p. 33",
);
/// What a flash meter read.
const METERED: Grounds = Grounds {
    standing: Standing::Own,
    source: Cow::Borrowed("read with a flash meter"),
};
/// Pops of one flash add.
pub(crate) const POPS: Grounds = Grounds::published(
    "US Navy photography course, p. 144: exposures add; log2(n) stops for n pops derived from it",
);

/// A flash, as it stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flash {
    /// How its light is known.
    pub basis: Basis,
    /// The part of its full power, above 0 and at most 1; a metered reading holds it already.
    pub power: f64,
    /// How many times it is fired on one sheet.
    pub pops: u32,
}

/// How the light of a flash is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Basis {
    /// By its guide number and how far it is from the subject.
    Guide {
        /// At full power.
        guide: Guide,
        /// From the flash to the subject.
        distance: Option<Millimetres>,
    },
    /// By the aperture a flash meter read for one pop at the film's speed.
    Metered(Aperture),
}

/// What a flash asks for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lit {
    /// The aperture to set, to the nearest third of a stop.
    pub aperture: Aperture,
    /// The exact f-number.
    pub number: f64,
}

/// The aperture a flash asks for on film of this speed: `GN / distance`, with the guide number grown
/// by the square roots of speed, power and pops.
///
/// ```
/// use notchbook::craft::FilmSpeed;
/// use notchbook::craft::flash::{Flash, flash};
/// let typed = Flash::parse("GN 32 m, 4 m, 1/4 power, 4 pops").unwrap();
/// let lit = flash(&typed, FilmSpeed::new(100)?).unwrap();
/// assert_eq!(lit.value.aperture.to_string(), "f/8");
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
///
/// # Errors
/// If the distance is missing or nothing, the power is none, or no aperture would do.
pub fn flash(flash: &Flash, speed: FilmSpeed) -> Result<Figure<Lit>, Impossible> {
    let power = checked_power(flash.power)?;
    let mut figure = match flash.basis {
        Basis::Metered(aperture) => Figure::new(aperture.number(), METERED)
            .step(Step::new("flash as metered", Amount::Aperture(aperture)).on(METERED)),
        Basis::Guide { guide, distance } => {
            let Some(distance) = distance else {
                return Err(Impossible::new(
                    "how far is the flash from the subject? Write the distance beside the guide \
                     number: GN 32 m, 4 m",
                ));
            };
            let away = guide.unit.from(distance);
            if away <= 0.0 {
                return Err(Impossible::new(
                    "a flash at no distance lights nothing that can be reckoned: measure from the \
                     flash to the subject, such as 4 m",
                ));
            }
            let (gn, figure) = grown(guide, speed, power);
            let number = gn / away;
            let working = format!("{} / {}", trimmed(gn, 1), guide.unit.told(away));
            figure
                .map(|_| number)
                .step(Step::new("one pop", at(number)?).working(working).on(GUIDE))
        }
    };
    let mut number = figure.value;
    if flash.pops != 1 {
        let added = pops::alone(flash.pops)?;
        number *= f64::from(flash.pops).sqrt();
        figure = figure.step(
            Step::new(format!("{} pops", flash.pops), Amount::Stops(added))
                .working(format!("log2({})", flash.pops))
                .brings(at(number)?)
                .on(POPS),
        );
        figure = figure.remark(
            Concern::Note,
            "let the flash charge fully before each pop, and keep other light off the open lens",
        );
    }
    let aperture = nearest(number)?;
    let lit = Lit { aperture, number };
    Ok(cautioned(figure.map(|_| lit), flash.basis))
}

/// The distance at which an aperture is right for a flash: `GN / N`.
///
/// # Errors
/// If the flash was metered, which holds its distance already, or the power or pops are none.
pub fn reach(
    flash: &Flash,
    speed: FilmSpeed,
    aperture: Aperture,
) -> Result<Figure<Millimetres>, Impossible> {
    let Basis::Guide { guide, .. } = flash.basis else {
        return Err(Impossible::new(
            "a metered flash is right where it was metered: give its guide number to ask for a \
             distance, GN 32 m",
        ));
    };
    let (gn, figure) = grown(guide, speed, checked_power(flash.power)?);
    let all = gn * (pops::alone(flash.pops)?.value() / 2.0).exp2();
    let away = all / aperture.number();
    let distance = Millimetres::new(guide.unit.in_millimetres(away))?;
    let working = match flash.pops {
        1 => format!("{} / {}", trimmed(gn, 1), trimmed(aperture.number(), 1)),
        n => format!(
            "{} x √{n} / {}",
            trimmed(gn, 1),
            trimmed(aperture.number(), 1)
        ),
    };
    let step = Step::new("distance", guide.unit.amount(away)).working(working);
    Ok(cautioned(
        figure.map(|_| distance).step(step.on(GUIDE)),
        flash.basis,
    ))
}

/// The guide number at a speed and a power, with the steps that lead to it.
fn grown(guide: Guide, speed: FilmSpeed, power: f64) -> (f64, Figure<()>) {
    let gn = guide.at(speed, power);
    let mut figure = Figure::new((), GUIDE)
        .within("direct flash in an average room; outdoors and in large rooms it gives less");
    let named = |number: f64| Amount::number(number, guide.unit.symbol(), 1);
    if speed != guide.speed || power >= 1.0 {
        let whole = guide.at(speed, 1.0);
        let working = if speed == guide.speed {
            format!("at ISO {speed}")
        } else {
            let number = trimmed(guide.number, 1);
            format!("{number} x √({speed} / {})", guide.speed)
        };
        figure = figure.step(
            Step::new("guide number", named(whole))
                .working(working)
                .on(GUIDE),
        );
    }
    if power < 1.0 {
        let working = format!("{} x √{}", trimmed(guide.at(speed, 1.0), 1), part(power));
        figure = figure.step(
            Step::new(format!("{} power", part(power)), named(gn))
                .working(working)
                .on(GUIDE),
        );
    }
    (gn, figure)
}

/// A part of the power as switches name it: `1/4`.
fn part(power: f64) -> String {
    let below = 1.0 / power;
    if (below - below.round()).abs() < 1e-6 {
        format!("1/{}", trimmed(below, 0))
    } else {
        trimmed(power, 3)
    }
}

fn cautioned<T>(figure: Figure<T>, basis: Basis) -> Figure<T> {
    let figure = figure.remark(
        Concern::Note,
        "a flash is over before reciprocity failure begins: add what the bellows and filters take, \
         but not what film needs for long times",
    );
    match basis {
        Basis::Metered(_) => figure,
        Basis::Guide { .. } => figure.remark(
            Concern::Note,
            "makers tend to overrate guide numbers (US Navy photography course, p. 139): expose one \
             sheet to find your own",
        ),
    }
}

fn checked_power(power: f64) -> Result<f64, Impossible> {
    if power > 0.0 && power <= 1.0 {
        return Ok(power);
    }
    Err(Impossible::new(format!(
        "a power of {power} is none: write full, 1/2 or 1/4 power"
    )))
}

/// The nearest third of a stop to an f-number.
fn nearest(number: f64) -> Result<Aperture, Impossible> {
    Ok(Aperture::nearest(2.0 * number.log2())?)
}

/// An f-number as a step shows it, to the nearest third of a stop.
fn at(number: f64) -> Result<Amount, Impossible> {
    nearest(number).map(Amount::Aperture)
}

/// The stops between two distances of a flash, `2 log2(from / to)`: half the distance is two stops
/// more.
///
/// # Errors
/// If a distance is nothing.
pub fn moved(from: Millimetres, to: Millimetres) -> Result<Figure<Stops>, Impossible> {
    if from.value() <= 0.0 || to.value() <= 0.0 {
        return Err(Impossible::new(
            "a light at no distance cannot be reckoned: measure from the light to the subject",
        ));
    }
    let stops = Stops::new(2.0 * (from.value() / to.value()).log2())?;
    let step = Step::new("moved", Amount::Stops(stops)).working(format!("2 log2({from} / {to})"));
    Ok(Figure::new(stops, GUIDE).step(step))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn iso(value: u32) -> FilmSpeed {
        FilmSpeed::new(value).unwrap()
    }

    fn lit(text: &str, speed: u32) -> Figure<Lit> {
        flash(&Flash::parse(text).unwrap(), iso(speed)).unwrap()
    }

    #[test]
    fn each_step_towards_the_aperture_is_shown() {
        let figure = lit("GN 32 m, 4 m, 1/4 power, 2 pops", 400);
        let told: Vec<_> = figure
            .steps
            .iter()
            .map(|step| format!("{}: {} = {}", step.name, step.working, step.amount))
            .collect();
        assert_eq!(
            told,
            [
                "guide number: 32 x √(400 / 100) = 64 m",
                "1/4 power: 64 x √1/4 = 32 m",
                "one pop: 32 / 4 m = f/8",
                "2 pops: log2(2) = +1 stop",
            ]
        );
        assert_eq!(figure.value.aperture.to_string(), "f/11");
        assert!(
            figure
                .remarks
                .iter()
                .any(|it| it.words.contains("reciprocity"))
        );
    }

    #[test]
    fn a_metered_flash_needs_only_its_pops() {
        assert_eq!(
            lit("meter f/22, 4 pops", 100).value.aperture.to_string(),
            "f/45"
        );
    }

    #[test]
    fn what_cannot_be_lit_is_refused() {
        let typed = Flash::parse("GN 32 m").unwrap();
        let why = flash(&typed, iso(100)).unwrap_err().to_string();
        assert!(why.contains("how far"), "{why}");
        let metered = Flash::parse("f/22").unwrap();
        assert!(reach(&metered, iso(100), Aperture::parse("f/8").unwrap()).is_err());
        let zero = Flash {
            power: 0.0,
            ..typed
        };
        assert!(reach(&zero, iso(100), Aperture::parse("f/8").unwrap()).is_err());
        let near = Flash::parse("GN 32 m, 0 mm").unwrap();
        assert!(flash(&near, iso(100)).is_err());
        assert!(flash(&Flash::parse("GN 32 m, 900 m").unwrap(), iso(100)).is_err());
        let mm = |value| Millimetres::new(value).unwrap();
        assert!(moved(mm(0.0), mm(5.0)).is_err());
    }

    proptest! {
        #[test]
        fn aperture_and_distance_invert(gn in 10.0..100.0_f64, metres in 1.0..15.0_f64, n in 1_u32..9) {
            let text = format!("GN {gn:.1} m, {metres:.2} m, {n} pops");
            let typed = Flash::parse(&text).unwrap();
            let figure = flash(&typed, iso(100)).unwrap();
            let exact = Aperture::new(figure.value.number).unwrap();
            // The aperture holds three places, so the way back is only as fine.
            if exact.number() == exact.mark() {
                let back = reach(&typed, iso(100), exact).unwrap().value.value();
                let there = (metres * 100.0).round() * 10.0;
                prop_assert!((back / there - 1.0).abs() < 0.001, "{back} {there}");
            }
        }

        #[test]
        fn more_pops_more_speed_and_less_distance_never_ask_for_a_larger_stop(
            n in 1_u32..20, speed in 50_u32..3200, metres in 2.0..9.0_f64,
        ) {
            let of = |n: u32, speed: u32, metres: f64| {
                lit(&format!("GN 40 m, {metres:.3} m, {n} pops"), speed).value.number
            };
            prop_assert!(of(n + 1, speed, metres) >= of(n, speed, metres));
            prop_assert!(of(n, speed * 2, metres) >= of(n, speed, metres));
            prop_assert!(of(n, speed, metres / 2.0) >= of(n, speed, metres));
        }
    }
}
