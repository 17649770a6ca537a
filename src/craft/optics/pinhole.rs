//! The best hole for a camera without a lens, and how long it takes.
//!
//! For: making a pinhole, and exposing with one. Promises: the rules of different authors stand side
//! by side under their names; one that is only remembered says so. Leaves to others: the film's
//! failure at long times, which comes after.

use super::{Distance, focal, mm};
use crate::craft::numeral::trimmed;
use crate::craft::{Amount, Figure, Grounds, Impossible, Millimetres, Seconds, Step};
use crate::words::words;

/// The wavelength reckoned with where none is given, in nanometres: green.
pub const GREEN: f64 = 550.0;

words! {
    /// Whose rule the diameter follows.
    Rule {
        /// √(2 f λ).
        Petzval = "petzval",
        /// The hole is as wide as the disc it makes, √(2.44 f λ).
        Airy = "airy",
        /// 1.9 √(f λ).
        Rayleigh = "rayleigh",
        /// One zone of Fresnel's, 2 √(f λ).
        Young = "young",
    }
}

impl Rule {
    /// Whose rule it is, as it is shown: `Rayleigh`; the second is no person's.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Rule::Petzval => "Petzval",
            Rule::Airy => "hole as wide as its disc",
            Rule::Rayleigh => "Rayleigh",
            Rule::Young => "Young",
        }
    }

    /// What stands before √(f λ).
    #[must_use]
    pub fn constant(self) -> f64 {
        match self {
            Rule::Petzval => 2.0_f64.sqrt(),
            Rule::Airy => 2.44_f64.sqrt(),
            Rule::Rayleigh => 1.9,
            Rule::Young => 2.0,
        }
    }

    /// What the rule rests on.
    #[must_use]
    pub const fn grounds(self) -> Grounds {
        match self {
            Rule::Petzval => Grounds::remembered("Petzval, 1857; the formula from memory"),
            Rule::Airy => Grounds::published(
                "G. Penate, pinhole discussion list, 11 March 2002; sundial mailing list 3135",
            ),
            Rule::Rayleigh => Grounds::published("T. Roelandts, tomroelandts.com, pinhole details"),
            Rule::Young => Grounds::published(
                "derived from M. Young's criterion of one Fresnel zone, as the encyclopedia article \
                 \"Pinhole camera\" gives it (second-hand)",
            ),
        }
    }
}

fn wavelength(nanometres: f64) -> Result<f64, Impossible> {
    if (200.0..=2000.0).contains(&nanometres) {
        return Ok(nanometres * 1e-6);
    }
    Err(Impossible::new(
        "a wavelength lies between 200 and 2000 nm: write 550 for green light",
    ))
}

/// The length that goes into the rules: for a near subject `u f / (u + f)`.
fn working_length(draw: f64, subject: Distance) -> f64 {
    draw / (1.0 + draw * subject.inverse())
}

/// The diameter of the best hole by a rule, in millimetres, so far from the film, for a subject so far
/// off and light of a wavelength in nanometres.
///
/// # Errors
/// If the hole is no way from the film or the wavelength is not light.
pub fn diameter(
    rule: Rule,
    draw: Millimetres,
    subject: Distance,
    nanometres: f64,
) -> Result<Figure<f64>, Impossible> {
    let (f, lambda) = (from_film(draw)?, wavelength(nanometres)?);
    let length = working_length(f, subject);
    let d = rule.constant() * (length * lambda).sqrt();
    let mut figure = Figure::new(d, rule.grounds())
        .within("a round clean hole in thin metal; distance from hole to film");
    if !subject.is_infinite() {
        figure = figure.step(
            Step::new("length for a near subject", mm(length, 1))
                .working(format!("{draw} x {subject} / ({draw} + {subject})")),
        );
    }
    Ok(figure.step(
        Step::new(format!("hole by {}", rule.name()), mm(d, 3))
            .working(format!(
                "{} x √({} x {})",
                trimmed(rule.constant(), 3),
                trimmed(length, 1),
                trimmed(lambda, 6)
            ))
            .on(rule.grounds()),
    ))
}

/// The distance from the film for which a hole is the best one by a rule, millimetres, for a far
/// subject.
///
/// # Errors
/// If the hole has no width or the wavelength is not light.
pub fn draw_for(rule: Rule, hole: Millimetres, nanometres: f64) -> Result<f64, Impossible> {
    let lambda = wavelength(nanometres)?;
    Ok((open(hole)? / rule.constant()).powi(2) / lambda)
}

/// The f-number of a hole, distance over diameter.
///
/// # Errors
/// If the hole has no width or is no way from the film.
pub fn number(draw: Millimetres, hole: Millimetres) -> Result<f64, Impossible> {
    Ok(from_film(draw)? / open(hole)?)
}

fn from_film(draw: Millimetres) -> Result<f64, Impossible> {
    focal(draw).map_err(|_| {
        Impossible::new(
            "a hole that lies on the film makes no picture: give its distance from the film, such \
             as 100 mm",
        )
    })
}

fn open(hole: Millimetres) -> Result<f64, Impossible> {
    if hole.value() > 0.0 {
        return Ok(hole.value());
    }
    Err(Impossible::new(
        "a hole of no width lets no light through: give its diameter, such as 0.4 mm",
    ))
}

/// The time at one f-number from the time at another, `t2 = t1 (N2 / N1)²`.
///
/// # Errors
/// If an f-number is not above zero or no such time can be kept.
pub fn time(metered: Seconds, at: f64, pinhole: f64) -> Result<Figure<Seconds>, Impossible> {
    let (n1, n2) = (super::f_number(at)?, super::f_number(pinhole)?);
    let factor = (n2 / n1).powi(2);
    let time = Seconds::new(metered.value() * factor)?;
    Ok(Figure::new(time, Grounds::usual())
        .step(
            Step::new("smaller hole", Amount::Factor(factor)).working(format!(
                "({} / {})²",
                trimmed(n2, 1),
                trimmed(n1, 2)
            )),
        )
        .step(
            Step::new("time", Amount::Time(time))
                .working(format!("{metered} x {}", trimmed(factor, 1))),
        ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn length(value: f64) -> Millimetres {
        Millimetres::new(value).unwrap()
    }

    #[test]
    fn what_makes_no_picture_is_a_sentence() {
        let far = Distance::INFINITY;
        assert!(diameter(Rule::Young, length(0.0), far, GREEN).is_err());
        assert!(diameter(Rule::Young, length(100.0), far, 0.0).is_err());
        assert!(number(length(100.0), length(0.0)).is_err());
        assert!(draw_for(Rule::Airy, length(0.0), GREEN).is_err());
        let second = Seconds::parse("1").unwrap();
        assert!(time(second, 0.0, 200.0).is_err());
        assert!(time(second, 1e-3, 9000.0).is_err());
    }

    #[test]
    fn a_remembered_rule_says_so() {
        use crate::craft::Standing;
        for rule in Rule::ALL {
            let remembered = rule.grounds().standing == Standing::Remembered;
            assert_eq!(remembered, *rule == Rule::Petzval);
        }
    }

    proptest! {
        #[test]
        fn hole_and_distance_lead_back_to_each_other(draw in 10.0..1000.0_f64, near in 1.0..90.0_f64) {
            for rule in Rule::ALL {
                let hole = diameter(*rule, length(draw), Distance::INFINITY, GREEN).unwrap().value;
                let back = draw_for(*rule, length(hole), GREEN).unwrap();
                prop_assert!((back / draw - 1.0).abs() < 1e-9);
                let subject = Distance::new(draw * near).unwrap();
                let closer = diameter(*rule, length(draw), subject, GREEN).unwrap().value;
                prop_assert!(closer < hole);
            }
        }
    }
}
