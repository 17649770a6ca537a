//! Printing lamps: another distance, another lamp, an old lamp, an integrator.
//!
//! What counts is light times time. Promises: the square of the distance is used for a lamp that is
//! small against the distance and for no other; near a bank of tubes light falls off less, how much
//! nobody can say without a strip, and the figure is declined with its two ends. Units of an
//! integrator are kept with one lamp at one place.

use super::{four, within};
use crate::craft::{
    Amount, Concern, Figure, Grounds, Impossible, Millimetres, Seconds, Step, Stops,
};

/// A source counts as a point from this many times its longest side on.
///
/// A disc that shines evenly falls off as `1 / (d^2 + r^2)`: at five times its width that is one percent
/// from the square (derived).
const FAR: f64 = 5.0;

/// The law of the square, for a point.
const SQUARE: Grounds = Grounds::usual();

/// Light times time.
const DOSE: Grounds = Grounds::published(
    "Bunsen and Roscoe's law, as told in a Boston University thesis of 1957 (abstract): the effect depends \
     on the total energy",
);

/// Tubes at the end of their life.
const AGEING: Grounds = Grounds::published(
    "Journal of the Illuminating Engineering Institute of Japan 46(12), copying fluorescent lamps \
     (abstract): about 80 % of the first output after 1000 h and more",
);

/// What an integrator counts.
const UNITS: Grounds = Grounds::published(
    "RFD Packaging, Control the exposure with the integrating light meter: light times time, whatever the \
     voltage, age and distance of the lamp",
);

/// The time at another distance: `t (d2 / d1)^2`.
///
/// # Errors
/// If a distance is nothing, or the source is too broad for the square to hold.
pub fn distance(
    time: Seconds,
    from: Millimetres,
    to: Millimetres,
    widest: Option<Millimetres>,
) -> Result<Figure<Seconds>, Impossible> {
    let (near, far) = (from.value(), to.value());
    for distance in [near, far] {
        within("a distance", distance, 1.0..=100_000.0, "mm")?;
    }
    let factor = (far / near).powi(2);
    let moved = Seconds::new(time.value() * factor)?;
    let working = format!("({} / {})\u{b2} = {}", four(far), four(near), four(factor));
    let Some(widest) = widest.filter(|widest| widest.value() > 0.0) else {
        return Ok(Figure::new(moved, SQUARE)
            .step(Step::new("distance", Amount::Factor(factor)).working(working))
            .within("a lamp that is small against the distance, without a reflector")
            .remark(
                Concern::Warning,
                "holds for a point of light only: a bank of tubes, a panel of diodes or a reflector falls \
                 off less, so make a strip; say how wide the light is and it is judged here",
            ));
    };
    let needed = FAR * widest.value();
    if near.min(far) < needed {
        let (low, high) = (
            time.value().min(moved.value()),
            time.value().max(moved.value()),
        );
        return Err(Impossible::new(format!(
            "a light {} wide is no point at {}: the square of the distance holds from {} on. The time \
             lies somewhere between {} and {}; make a strip at the new distance",
            widest,
            if near < far { from } else { to },
            Millimetres::new(needed)?,
            Seconds::new(low)?,
            Seconds::new(high)?,
        )));
    }
    Ok(Figure::new(moved, SQUARE)
        .step(Step::new("distance", Amount::Factor(factor)).working(working))
        .within("a lamp five times its own width away, or further"))
}

/// The time with a lamp that gives so many percent of what it gave: `t 100 / p`.
///
/// # Errors
/// If the percentage cannot be.
pub fn output(time: Seconds, percent: f64) -> Result<Figure<Seconds>, Impossible> {
    let percent = within("an output", percent, 1.0..=1000.0, "%")?;
    let lasts = Seconds::new(time.value() * 100.0 / percent)?;
    Ok(Figure::new(lasts, AGEING)
        .step(
            Step::new("output", Amount::Factor(100.0 / percent))
                .working(format!("100 / {}", four(percent)))
                .on(DOSE),
        )
        .within("the same kind of lamp; the loss in the ultraviolet is its own, so measure that"))
}

/// The time under another lamp, from two times that printed one step alike: `t b / a`.
///
/// # Errors
/// If a time cannot be.
pub fn other_lamp(
    time: Seconds,
    here: Seconds,
    there: Seconds,
) -> Result<Figure<Seconds>, Impossible> {
    let factor = there.value() / here.value();
    let lasts = Seconds::new(time.value() * factor)?;
    let stops = Stops::from_factor(factor)?;
    Ok(Figure::new(lasts, DOSE)
        .step(
            Step::new("other lamp", Amount::Factor(factor))
                .working(format!("{there} / {here}"))
                .brings(Amount::Stops(stops)),
        )
        .within("one process; lamps of another colour can print another scale"))
}

/// Seconds that an integrator takes for so many units, from a run that was timed: `t2 = u2 t1 / u1`.
///
/// # Errors
/// If a number cannot be.
pub fn of_units(units: f64, counted: f64, in_time: Seconds) -> Result<Figure<Seconds>, Impossible> {
    let units = within("an exposure", units, 0.001..=1e9, "units")?;
    let counted = within("a count", counted, 0.001..=1e9, "units")?;
    let lasts = Seconds::new(units * in_time.value() / counted)?;
    Ok(Figure::new(lasts, UNITS)
        .step(
            Step::new("lasts", Amount::Time(lasts)).working(format!(
                "{} x {in_time} / {}",
                four(units),
                four(counted)
            )),
        )
        .within("this integrator, its sensor in its place, this kind of lamp")
        .remark(
            Concern::Note,
            "units have no size of their own: write down with them the lamp, its distance and where the \
             sensor sits",
        ))
}

/// Units for a time, from a run that was timed: `u2 = u1 t2 / t1`.
///
/// # Errors
/// If a number cannot be.
pub fn to_units(time: Seconds, counted: f64, in_time: Seconds) -> Result<Figure<f64>, Impossible> {
    let counted = within("a count", counted, 0.001..=1e9, "units")?;
    let units = counted * time.value() / in_time.value();
    Ok(Figure::new(units, UNITS)
        .step(
            Step::new("units", Amount::measured(units, ""))
                .working(format!("{} x {time} / {in_time}", four(counted))),
        )
        .within("this integrator, its sensor in its place, this kind of lamp"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(text: &str) -> Millimetres {
        Millimetres::parse(text).unwrap()
    }

    fn time(text: &str) -> Seconds {
        Seconds::parse(text).unwrap()
    }

    #[test]
    fn a_broad_light_is_not_taken_for_a_point() {
        let bank = distance(time("8 min"), mm("80 mm"), mm("160 mm"), Some(mm("320 mm")));
        let why = bank.unwrap_err().to_string();
        assert!(why.contains("between 8 min and 32 min"), "{why}");
        let small = distance(time("8 min"), mm("60 cm"), mm("90 cm"), Some(mm("10 cm"))).unwrap();
        assert!((small.value.value() - 1080.0).abs() < 1e-6);
        let unsaid = distance(time("8 min"), mm("60 cm"), mm("90 cm"), None).unwrap();
        assert_eq!(unsaid.remarks[0].concern, Concern::Warning);
        assert!(distance(time("8 min"), mm("0"), mm("90 cm"), None).is_err());
    }
}
