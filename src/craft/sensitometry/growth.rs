//! How contrast grows with time, from two runs.
//!
//! Development slows down as it nears its end: the rate is proportional to what is still missing, so
//! `G(t) = G∞ (1 - exp(-K t))`. Two gradients at two times give both numbers. Promises: no time for a
//! gradient the film does not come to; two runs that do not fit the law are refused with the reason.

use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Seconds, Step};

const LAW: Grounds = Grounds::published(
    "C. E. K. Mees, \"Zeitentwicklung\", Jahrbuch für Photographie 25 (1911), pp. 167 and 170: development \
     goes on in proportion to what is still missing; the integrated form is derived",
);
const HALVINGS: usize = 200;
const MINUTE: f64 = 60.0;

/// The law of growth of one film in one developer at one temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Growth {
    /// The gradient it comes to in endless development.
    pub limit: f64,
    /// The rate, per minute.
    pub rate: f64,
}

impl Growth {
    /// The law with this limit and rate per minute.
    ///
    /// # Errors
    /// If one of them is not above zero.
    pub fn new(limit: f64, rate: f64) -> Result<Growth, Impossible> {
        let above = |value: f64| value.is_finite() && value > 0.0;
        if above(limit) && above(rate) {
            return Ok(Growth { limit, rate });
        }
        Err(Impossible::new(
            "contrast grows towards a gradient above 0 at a rate above 0 per minute",
        ))
    }

    /// The law through two runs, each a time and the gradient it gave. Where one time is twice the other
    /// the limit is `G1² / (2 G1 - G2)`; else it is found by halving.
    ///
    /// # Errors
    /// If the two do not fit a growth that slows down.
    pub fn through(
        one: (Seconds, f64),
        other: (Seconds, f64),
    ) -> Result<Figure<Growth>, Impossible> {
        let (short, long) = if one.0.value() <= other.0.value() {
            (one, other)
        } else {
            (other, one)
        };
        let (t1, t2) = (short.0.value() / MINUTE, long.0.value() / MINUTE);
        if t2 - t1 < 1e-6 {
            return Err(Impossible::new(
                "two runs of the same time tell no growth: give one twice as long as the other",
            ));
        }
        for gradient in [short.1, long.1] {
            if !(gradient > 0.0 && gradient <= 10.0) {
                return Err(Impossible::new(format!(
                    "a gradient of {gradient} is none of a negative: give the average gradient of each \
                     run, such as 0.45"
                )));
            }
        }
        let part = short.1 / long.1;
        if part >= 1.0 {
            return Err(Impossible::new(format!(
                "{} gave no more contrast than {}: development had come to its end, or the two were mixed \
                 up",
                long.0, short.0
            )));
        }
        if part <= t1 / t2 {
            return Err(Impossible::new(format!(
                "contrast grew as fast as time or faster, from {:.2} at {} to {:.2} at {}: the law has no \
                 place for a slow start; measure a third run and read the time from the family",
                short.1, short.0, long.1, long.0
            )));
        }
        let rate = rate(part, t1, t2);
        let limit = long.1 / -(-rate * t2).exp_m1();
        let value = Growth::new(limit, rate).map_err(|_| {
            Impossible::new(
                "the two runs are too much alike to tell where contrast ends: give one twice as long as \
                 the other",
            )
        })?;
        Ok(Figure::new(value, LAW)
            .within("one film, one developer, one temperature and agitation; no slow start")
            .step(
                Step::new("rate", Amount::number(rate, "1/min", 4))
                    .working(format!("{:.3} / {:.3} = {part:.3}", short.1, long.1))
                    .on(LAW),
            )
            .step(Step::new("contrast ends at", Amount::number(limit, "", 2)).on(LAW)))
    }

    /// The gradient after a time.
    #[must_use]
    pub fn gradient(&self, time: Seconds) -> f64 {
        -self.limit * (-self.rate * time.value() / MINUTE).exp_m1()
    }

    /// The time that gives a gradient: `-ln(1 - G / G∞) / K`. `measured` are the times the law was found
    /// from; a time outside them is said to be.
    ///
    /// # Errors
    /// If the film never comes to that gradient, or the time is beyond all times.
    pub fn time_for(
        &self,
        gradient: f64,
        measured: Option<(Seconds, Seconds)>,
    ) -> Result<Figure<Seconds>, Impossible> {
        if !(gradient.is_finite() && gradient > 0.0) {
            return Err(Impossible::new(
                "a wanted gradient is above 0: write 0.58 for a diffusion enlarger and grade 2",
            ));
        }
        if gradient >= self.limit {
            return Err(Impossible::new(format!(
                "a gradient of {gradient:.2} is never reached: contrast ends at {:.2}; take a more \
                 vigorous developer, or a paper of higher grade",
                self.limit
            )));
        }
        let minutes = -(-gradient / self.limit).ln_1p() / self.rate;
        let time = Seconds::new(minutes * MINUTE)?;
        let figure = Figure::new(time, LAW).step(
            Step::new("time", Amount::Time(time))
                .working(format!(
                    "-ln(1 - {gradient:.3} / {:.3}) / {:.4} per min = {minutes:.2} min",
                    self.limit, self.rate
                ))
                .on(LAW),
        );
        let Some((one, other)) = measured else {
            return Ok(figure);
        };
        let shortest = one.value().min(other.value());
        let longest = one.value().max(other.value());
        let outside = time.value() < shortest - 0.5 || time.value() > longest + 0.5;
        Ok(if outside {
            figure.remark(
                Concern::Beyond,
                "this time lies outside the two runs: take it as a start, measure it and reckon again",
            )
        } else {
            figure
        })
    }
}

/// The rate per minute at which the gradients at two times stand as `part` to one; it lies between none
/// (where they stand as the times) and endless (where they are equal).
fn rate(part: f64, t1: f64, t2: f64) -> f64 {
    let stands = |rate: f64| (-rate * t1).exp_m1() / (-rate * t2).exp_m1();
    let (mut low, mut high) = (1e-9 / t2, 700.0 / t1);
    for _ in 0..HALVINGS {
        let middle = (low * high).sqrt();
        if stands(middle) < part {
            low = middle;
        } else {
            high = middle;
        }
    }
    (low * high).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn minutes(value: f64) -> Seconds {
        Seconds::new(value * 60.0).unwrap()
    }

    #[test]
    fn two_runs_that_fit_no_slowing_growth_are_refused() {
        for (one, other, says) in [
            ((5.0, 0.4), (5.0, 0.5), "the same time"),
            ((5.0, 0.5), (10.0, 0.5), "no more contrast"),
            ((5.0, 0.3), (10.0, 0.7), "as fast as time or faster"),
            ((5.0, 0.3), (10.0, 0.6), "as fast as time or faster"),
            ((5.0, 0.0), (10.0, 0.6), "a gradient of 0 is none"),
            ((5.0, f64::NAN), (10.0, 0.6), "a gradient of NaN is none"),
        ] {
            let why = Growth::through((minutes(one.0), one.1), (minutes(other.0), other.1));
            let why = why.unwrap_err().to_string();
            assert!(why.contains(says), "{why}");
        }
    }

    proptest! {
        #[test]
        fn the_law_found_from_two_runs_gives_both_back(
            limit in 0.4..3.0_f64,
            rate in 0.02..0.4_f64,
            t1 in 2.0..10.0_f64,
            longer in 1.2..3.0_f64,
        ) {
            let law = Growth::new(limit, rate).unwrap();
            let (one, other) = (minutes(t1), minutes(t1 * longer));
            let runs = ((one, law.gradient(one)), (other, law.gradient(other)));
            prop_assume!(runs.1.1 - runs.0.1 > 1e-3);
            let found = Growth::through(runs.0, runs.1).unwrap().value;
            prop_assert!((found.gradient(one) - runs.0.1).abs() < 1e-6);
            prop_assert!((found.gradient(other) - runs.1.1).abs() < 1e-6);
            let back = found.time_for(runs.0.1, None).unwrap().value;
            prop_assert!((back.value() - one.value()).abs() < 0.01);
        }

        #[test]
        fn more_time_is_never_less_contrast(
            limit in 0.4..3.0_f64, rate in 0.02..0.4_f64, a in 1.0..60.0_f64, b in 1.0..60.0_f64,
        ) {
            let law = Growth::new(limit, rate).unwrap();
            prop_assert!(law.gradient(minutes(a.max(b))) >= law.gradient(minutes(a.min(b))));
        }
    }
}
