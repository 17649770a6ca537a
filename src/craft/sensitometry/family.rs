//! Curves of one film at several times of development, and the times that give a wanted gradient.
//!
//! Between two measured times the gradient is taken as linear in the logarithm of the time, the
//! logarithm of the speed likewise. Promises: no time outside the measured ones; every time comes with
//! how far it may be off when densities were read to so and so much.

use super::curve::Curve;
use super::monotone::{Joined, Through};
use super::{gradient, index, speed};
use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Remark, Seconds, Standing, Step};

/// The average gradient is a difference of two densities over so much log exposure.
const SPAN: f64 = 1.50;
/// The rise over 1.30 that ISO 6 asks for.
const ISO_RISE: f64 = 0.80;
/// Log exposure of one zone as the trade rounds it.
const ZONE: f64 = 0.30;

const BETWEEN: Grounds = Grounds {
    standing: Standing::Own,
    source: std::borrow::Cow::Borrowed("read from the family of curves, linear in the log of time"),
};

/// What one time of development gave.
#[derive(Debug, Clone, PartialEq)]
pub struct Measured {
    /// The time.
    pub time: Seconds,
    /// Base plus fog.
    pub base_fog: f64,
    /// Average gradient.
    pub gradient: f64,
    /// Contrast index, where the readings reach far enough.
    pub index: Option<f64>,
    /// Log exposure at the speed point.
    pub log_h: f64,
    /// Effective speed, where exposures are in lux seconds.
    pub speed: Option<f64>,
    /// Rise over 1.30 from the speed point, where the readings reach far enough.
    pub rise: Option<f64>,
}

/// Several times of development of one film.
#[derive(Debug, Clone, PartialEq)]
pub struct Family {
    /// What each time gave, shortest first.
    pub measured: Vec<Measured>,
    /// What to look at.
    pub remarks: Vec<Remark>,
    gradients: Through,
    exposures: Through,
    rises: Option<Through>,
}

/// A time read from a family.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reached {
    /// The time.
    pub time: Seconds,
    /// The shortest it may be.
    pub from: Seconds,
    /// The longest it may be.
    pub to: Seconds,
    /// The effective speed there, where exposures are in lux seconds.
    pub speed: Option<f64>,
}

impl Family {
    /// The family of these curves.
    ///
    /// # Errors
    /// If there are fewer than two, two of one time, one from which no gradient can be taken, or one
    /// that gave less contrast than a shorter time.
    pub fn of(curves: &[(Seconds, Curve)]) -> Result<Family, Impossible> {
        if curves.len() < 2 {
            return Err(Impossible::new(
                "one time tells nothing of others: give strips of two times at least, and better five, \
                 each about 1.4 times the one before",
            ));
        }
        let mut measured = Vec::new();
        let mut remarks = Vec::new();
        for (time, curve) in curves {
            let named = |why: Impossible| Impossible::new(format!("{time}: {why}"));
            let found = speed(curve).map_err(named)?.value;
            measured.push(Measured {
                time: *time,
                base_fog: curve.base_fog,
                gradient: gradient(curve).map_err(named)?.value,
                index: index(curve).ok().map(|figure| figure.value),
                log_h: found.log_h,
                speed: found.speed,
                rise: found.rise,
            });
            remarks.extend(curve.remarks.iter().map(|remark| Remark {
                concern: remark.concern,
                words: format!("{time}: {}", remark.words),
            }));
        }
        measured.sort_by(|one, other| one.time.value().total_cmp(&other.time.value()));
        for pair in measured.windows(2) {
            if let [short, long] = pair {
                if long.time.value() - short.time.value() < 0.5 {
                    return Err(Impossible::new(format!(
                        "{} is there twice: give each time once",
                        short.time
                    )));
                }
                if long.gradient <= short.gradient {
                    return Err(Impossible::new(format!(
                        "{} gave a gradient of {:.3} and {} no more than {:.3}: check whether strips were \
                         mixed up, or leave one out",
                        short.time, short.gradient, long.time, long.gradient
                    )));
                }
            }
        }
        let over = |value: fn(&Measured) -> f64| -> Result<Through, Impossible> {
            let points: Vec<(f64, f64)> = measured
                .iter()
                .map(|it| (it.time.value().ln(), value(it)))
                .collect();
            Through::new(&points, Joined::Straight)
        };
        let gradients = over(|it| it.gradient)?;
        let exposures = over(|it| it.log_h)?;
        let all_rise = measured.iter().all(|it| it.rise.is_some());
        let rises = if all_rise {
            Some(over(|it| it.rise.unwrap_or(0.0))?)
        } else {
            None
        };
        Ok(Family {
            gradients,
            exposures,
            rises,
            remarks,
            measured,
        })
    }

    /// The average gradient at a time; nothing outside the measured times.
    #[must_use]
    pub fn gradient_at(&self, time: Seconds) -> Option<f64> {
        self.gradients.at(time.value().ln())
    }

    /// The time that gives an average gradient. `read_to` is how far a single density may be off; two
    /// of them make the gradient, so it is off by `√2 read_to / 1.50`.
    ///
    /// # Errors
    /// If the gradient lies outside those that were measured: nothing is guessed there.
    pub fn time_for(&self, wanted: f64, read_to: f64) -> Result<Figure<Reached>, Impossible> {
        if !(wanted.is_finite() && wanted > 0.0) {
            return Err(Impossible::new(
                "a wanted gradient is above 0, such as 0.58",
            ));
        }
        let off = std::f64::consts::SQRT_2 * possible_error(read_to)? / SPAN;
        let at = self
            .gradients
            .first_reaching(wanted)
            .ok_or_else(|| self.outside(wanted))?;
        let value = self.reached(at, off / self.gradients.rise_at(at).unwrap_or(f64::NAN))?;
        Ok(Figure::new(value, BETWEEN).step(
            Step::new(format!("gradient {wanted:.3}"), Amount::Time(value.time))
                .working(within(off, &value))
                .on(BETWEEN),
        ))
    }

    /// The time at which the film has the contrast ISO 6 asks for, with the speed there. `read_to` is how
    /// far a single density may be off.
    ///
    /// # Errors
    /// If none of the measured times comes to it, or the readings do not reach far enough.
    pub fn iso(&self, read_to: f64) -> Result<Figure<Reached>, Impossible> {
        let rises = self.rises.as_ref().ok_or_else(|| {
            Impossible::new(
                "some readings end before 1.30 above the speed point, so the time for the contrast of ISO \
                 6 cannot be told",
            )
        })?;
        let at = rises.first_reaching(ISO_RISE).ok_or_else(|| {
            Impossible::new(
                "no measured time lies at the contrast of ISO 6, 0.80 over 1.30, so the family tells \
                 effective speeds and no ISO speed",
            )
        })?;
        let off = std::f64::consts::SQRT_2 * possible_error(read_to)?;
        let value = self.reached(at, off / rises.rise_at(at).unwrap_or(f64::NAN))?;
        Ok(Figure::new(value, BETWEEN).step(
            Step::new("0.80 over 1.30", Amount::Time(value.time))
                .working(within(off, &value))
                .on(BETWEEN),
        ))
    }

    /// What stands at a place in the logarithm of time, which may be off by `around`.
    fn reached(&self, at: f64, around: f64) -> Result<Reached, Impossible> {
        let log_h = self.exposures.at(at).filter(|_| self.has_speed());
        Ok(Reached {
            time: Seconds::new(at.exp())?,
            from: Seconds::new((at - around).exp())?,
            to: Seconds::new((at + around).exp())?,
            speed: log_h.map(|log_h| super::of_exposure(10_f64.powf(log_h))),
        })
    }

    fn has_speed(&self) -> bool {
        self.measured.iter().all(|it| it.speed.is_some())
    }

    fn outside(&self, wanted: f64) -> Impossible {
        let below = self.measured.first().filter(|it| wanted < it.gradient);
        let (which, it) = match (below, self.measured.last()) {
            (Some(first), _) => ("shorter", first),
            (None, Some(last)) => ("longer", last),
            (None, None) => return Impossible::new("nothing was measured"),
        };
        Impossible::new(format!(
            "a gradient of {wanted:.3} needs a {which} time than any that was measured ({} gives {:.3}): \
             develop a strip for a {which} time and reckon again",
            it.time, it.gradient
        ))
    }
}

/// How far a time may be off, as the working of a step.
fn within(off: f64, reached: &Reached) -> String {
    let (from, to) = (reached.from.clock(), reached.to.clock());
    format!("± {off:.3} is {from} to {to}")
}

/// How far a density may be off, if that is a possible number.
///
/// # Errors
/// If it is not from 0 to 0.5.
pub fn possible_error(read_to: f64) -> Result<f64, Impossible> {
    if (0.0..=0.5).contains(&read_to) {
        return Ok(read_to);
    }
    Err(Impossible::new(
        "a density is read to 0.01 or 0.02 as a rule, and to no more than 0.5",
    ))
}

/// The gradient that is wanted for a subject.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Aim {
    /// How many zones the subject is to be expanded (+) or contracted (-).
    pub zones: i8,
    /// The gradient.
    pub gradient: f64,
}

/// The gradient that brings a subject of `subject` log luminance range, seen `zones` zones shorter or
/// longer, to a density range: `range / (subject - 0.30 zones - flare)`.
///
/// # Errors
/// If nothing is left of the subject, or a number is no range.
pub fn aim(zones: i8, range: f64, subject: f64, flare: f64) -> Result<Figure<Aim>, Impossible> {
    let possible = |value: f64, most: f64| value.is_finite() && (0.0..=most).contains(&value);
    if !(possible(range, 6.0) && range > 0.0) {
        return Err(Impossible::new(
            "the density range a print wants is above 0 and below 6: write 1.05 for grade 2",
        ));
    }
    if !(possible(subject, 6.0) && possible(flare, 3.0)) {
        return Err(Impossible::new(
            "subject range and flare are log10 units from 0 on: write 2.20 and 0.40",
        ));
    }
    let log = subject - ZONE * f64::from(zones);
    let left = log - flare;
    if left <= 0.05 {
        return Err(Impossible::new(format!(
            "flare of {flare:.2} leaves nothing of a subject range of {log:.2}: give log10 units, 2.20 for \
             a usual subject"
        )));
    }
    let gradient = range / left;
    let grounds = Grounds::usual();
    let figure = Figure::new(Aim { zones, gradient }, grounds.clone()).step(
        Step::new(named(zones), Amount::number(gradient, "", 3))
            .working(format!("{range:.2} / ({log:.2} - {flare:.2})"))
            .on(grounds),
    );
    Ok(if gradient > 2.0 {
        figure.remark(Concern::Warning, "few films come to a gradient above 2")
    } else {
        figure
    })
}

/// `N-2`, `N`, `N+1`.
pub(super) fn named(zones: i8) -> String {
    if zones == 0 {
        "N".to_owned()
    } else {
        format!("N{zones:+}")
    }
}

impl Aim {
    /// Its name: `N-2`, `N`, `N+1`.
    #[must_use]
    pub fn name(&self) -> String {
        named(self.zones)
    }
}
