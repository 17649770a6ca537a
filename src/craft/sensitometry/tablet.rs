//! The step tablet through which a film is exposed.
//!
//! For: turning the number of a step into the light that reached the film there. Promises: a tablet
//! gets denser from step to step; what was measured counts before what the maker means it to have.

use std::borrow::Cow;

use crate::craft::{Density, Grounds, Impossible};

/// Density of the first step of the usual tablets.
const FIRST: f64 = 0.05;

/// The usual tablets: steps, density from one to the next, and where that is said.
const USUAL: [(usize, f64, Grounds); 3] = [
    (
        11,
        0.30,
        Grounds::published("US Navy, Photography (Basic), NAVEDTRA 14209, p. 10-40"),
    ),
    (
        21,
        0.15,
        Grounds::published("US Navy, Photography (Basic), NAVEDTRA 14209, p. 10-40"),
    ),
    (
        31,
        0.10,
        Grounds::remembered("31 steps of 0.10 from 0.05 on, as such tablets are sold"),
    ),
];

/// Fewest steps that make a curve.
const FEWEST: usize = 4;

/// A step tablet: the density of each of its steps, from the clearest on.
#[derive(Debug, Clone, PartialEq)]
pub struct Tablet {
    steps: Vec<f64>,
    /// Whether the densities were measured on this very tablet.
    pub measured: bool,
    /// What the densities rest on.
    pub grounds: Grounds,
}

impl Tablet {
    /// A tablet of 11, 21 or 31 steps as it is meant to be: from 0.05 on in equal steps to 3.05.
    ///
    /// # Errors
    /// If tablets of that many steps have no usual densities.
    pub fn nominal(steps: usize) -> Result<Tablet, Impossible> {
        let usual = USUAL.into_iter().find(|(count, _, _)| *count == steps);
        let Some((count, apart, grounds)) = usual else {
            return Err(Impossible::new(format!(
                "a tablet of {steps} steps has no usual densities: write 11, 21 or 31, or give the \
                 measured density of every step"
            )));
        };
        // At most 31 steps, which a float counts exactly.
        let steps = (0..count).map(|step| FIRST + apart * step as f64).collect();
        Ok(Tablet {
            steps,
            measured: false,
            grounds,
        })
    }

    /// A tablet whose steps were measured, from the clearest on.
    ///
    /// # Errors
    /// If there are fewer than four, or one is not denser than the one before.
    pub fn measured(
        densities: &[Density],
        source: impl Into<Cow<'static, str>>,
    ) -> Result<Tablet, Impossible> {
        if densities.len() < FEWEST {
            return Err(Impossible::new(format!(
                "a tablet of {} steps makes no curve: give the density of every step, four at least",
                densities.len()
            )));
        }
        for (step, pair) in densities.windows(2).enumerate() {
            if let [clear, dense] = pair
                && dense.value() <= clear.value()
            {
                return Err(Impossible::new(format!(
                    "step {} of the tablet ({dense}) is not denser than step {} ({clear}): give the \
                     steps from the clearest on",
                    step + 2,
                    step + 1
                )));
            }
        }
        Ok(Tablet {
            steps: densities.iter().map(|density| density.value()).collect(),
            measured: true,
            grounds: Grounds::own(source),
        })
    }

    /// How many steps it has.
    #[must_use]
    pub fn count(&self) -> usize {
        self.steps.len()
    }

    /// The density of a step, counted from 1; nothing if it has no such step.
    #[must_use]
    pub fn density(&self, step: usize) -> Option<f64> {
        self.steps.get(step.checked_sub(1)?).copied()
    }

    /// The log exposure behind a step in contact with the film: `log H = log H0 - D`, where `bare` is
    /// that without a tablet.
    #[must_use]
    pub fn log_exposure(&self, step: usize, bare: f64) -> Option<f64> {
        self.density(step).map(|density| bare - density)
    }
}

/// The part of the light that passes a density: `10^-D`, 0.5 for 0.30.
#[must_use]
pub fn transmission(density: Density) -> f64 {
    10_f64.powf(-density.value())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn densities(values: &[f64]) -> Vec<Density> {
        let all = values.iter().map(|value| Density::new(*value).unwrap());
        all.collect()
    }

    #[test]
    fn a_measured_tablet_must_get_denser() {
        let tablet = Tablet::measured(&densities(&[0.04, 0.21, 0.35, 0.52]), "read").unwrap();
        assert_eq!(tablet.density(2), Some(0.21));
        assert_eq!(tablet.density(0), None);
        assert_eq!(tablet.density(5), None);
        for (given, says) in [
            (vec![0.04, 0.21, 0.20, 0.52], "step 3 of the tablet (0.20)"),
            (vec![0.04, 0.21], "a tablet of 2 steps"),
        ] {
            let why = Tablet::measured(&densities(&given), "read").unwrap_err();
            assert!(why.to_string().contains(says), "{why}");
        }
        let why = Tablet::nominal(20).unwrap_err().to_string();
        assert!(why.contains("write 11, 21 or 31"), "{why}");
    }
}
