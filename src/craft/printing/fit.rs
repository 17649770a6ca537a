//! A negative against the exposure scales of processes, and the tones it prints to.
//!
//! Promises: what is lost is told in density and at its end; a straight line between black and white
//! is called a sketch; a curve that was read from a print is followed and never drawn beyond its
//! readings.

use super::paper::range_of;
use super::within;
use crate::craft::sensitometry::{Joined, Through};
use crate::craft::{Density, Impossible};
use crate::words::words;

/// As near as a third of a stop counts as fitting: the choice is our own.
const NEAR: f64 = 0.10;

/// The part of the deepest black at which shadows still part: nine tenths.
const SHADOW: f64 = 0.9;

/// How far above the paper white the last tone stands.
const LIGHT: f64 = 0.04;

words! {
    /// Which end of the negative the exposure is set by.
    Placed {
        /// The thinnest part just prints black.
        Shadows = "shadows",
        /// The densest part just prints white.
        Highlights = "highlights",
        /// As much is lost, or wanting, at both ends.
        Middle = "middle",
    }
}

/// A negative, from its thinnest printing part to its densest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Negative {
    /// Density of the deepest shadow that shall show.
    pub thin: f64,
    /// Density of the brightest tone that shall show.
    pub dense: f64,
}

impl Negative {
    /// Between two densities.
    ///
    /// # Errors
    /// If the second is not denser.
    pub fn new(thin: Density, dense: Density) -> Result<Negative, Impossible> {
        range_of(thin, dense)?;
        Ok(Negative {
            thin: thin.value(),
            dense: dense.value(),
        })
    }

    /// Its density range.
    #[must_use]
    pub fn range(&self) -> f64 {
        self.dense - self.thin
    }
}

/// How a process takes a negative.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Verdict {
    /// It fits, within a third of a stop.
    Fits,
    /// The negative has so much more range than the process takes.
    Lost(f64),
    /// The negative has so much less: no full black, or no paper white.
    Flat(f64),
}

/// How a process whose exposure scale can be set from `least` to `most` takes a range.
///
/// # Errors
/// If the scales are none.
pub fn verdict(range: f64, (least, most): (f64, f64)) -> Result<Verdict, Impossible> {
    let range = within("a density range", range, 0.02..=6.0, "")?;
    let least = within("an exposure scale", least, 0.05..=4.0, "")?;
    let most = within("an exposure scale", most, 0.05..=4.0, "")?;
    Ok(if range > most + NEAR {
        Verdict::Lost(range - most)
    } else if range < least - NEAR {
        Verdict::Flat(least - range)
    } else {
        Verdict::Fits
    })
}

/// The densities of the negative that print from black to white, and what of it lies outside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Placing {
    /// Density that just prints as full black.
    pub black: f64,
    /// Density that just prints as paper white.
    pub white: f64,
    /// Range of the negative that drowns in black.
    pub lost_in_black: f64,
    /// Range of the negative that is lost in white.
    pub lost_in_white: f64,
}

/// Where the scale of a process lies on a negative.
///
/// # Errors
/// If the scale is none.
pub fn place(negative: Negative, scale: f64, placed: Placed) -> Result<Placing, Impossible> {
    let scale = within("an exposure scale", scale, 0.05..=4.0, "")?;
    let black = match placed {
        Placed::Shadows => negative.thin,
        Placed::Highlights => negative.dense - scale,
        Placed::Middle => 0.5 * (negative.thin + negative.dense - scale),
    };
    let white = black + scale;
    Ok(Placing {
        black,
        white,
        lost_in_black: (black - negative.thin).max(0.0),
        lost_in_white: (negative.dense - white).max(0.0),
    })
}

impl Placing {
    /// The tone of a density on a straight line, from 0 for black to 100 for white: a sketch.
    #[must_use]
    pub fn tone(&self, density: f64) -> f64 {
        (100.0 * (density - self.black) / (self.white - self.black)).clamp(0.0, 100.0)
    }
}

/// The curve of a paper as it was printed: through which density it had which density of its own.
#[derive(Debug, Clone, PartialEq)]
pub struct PaperCurve {
    points: Vec<(f64, f64)>,
    through: Through,
    /// Density of the negative at which the print is nine tenths of its black.
    pub shadow: f64,
    /// Density of the negative at which the print is 0.04 above its white.
    pub light: f64,
}

impl PaperCurve {
    /// Through readings of density printed through, and density of the print.
    ///
    /// # Errors
    /// If there are fewer than four, the print gets darker through more density, or the readings end
    /// before black or white.
    pub fn new(readings: &[(f64, f64)]) -> Result<PaperCurve, Impossible> {
        let mut points = readings.to_vec();
        points.sort_by(|one, other| one.0.total_cmp(&other.0));
        if points.len() < 4 {
            return Err(Impossible::new(
                "a paper curve needs four readings at least: the density printed through and that of the \
                 print, 0.05 1.42, 0.35 1.20, 0.95 0.45, 1.55 0.08",
            ));
        }
        for (through, print) in &points {
            within("a density printed through", *through, 0.0..=6.0, "")?;
            within("a density of a print", *print, 0.0..=4.0, "")?;
        }
        let darker = points
            .iter()
            .zip(points.iter().skip(1))
            .find(|(one, other)| other.1 > one.1 + 0.03);
        if let Some((one, other)) = darker {
            return Err(Impossible::new(format!(
                "the print is darker through {:.2} ({:.2}) than through {:.2} ({:.2}): look at these \
                 readings",
                other.0, other.1, one.0, one.1
            )));
        }
        let ends = (
            points.iter().map(|it| it.1).fold(0.0, f64::max),
            points.iter().map(|it| it.1).fold(f64::INFINITY, f64::min),
        );
        // Turned over, so that it rises.
        let turned: Vec<(f64, f64)> = points.iter().map(|(x, y)| (*x, -y)).collect();
        let through = Through::new(&turned, Joined::Smooth)?;
        let ends_at = |print: f64| {
            let found = through.first_reaching(-print);
            found.ok_or_else(|| {
                Impossible::new(
                    "the readings do not reach from black to white: read steps that are full black and as \
                     white as the paper too",
                )
            })
        };
        let (black, white) = ends;
        let (shadow, light) = (ends_at(SHADOW * black)?, ends_at(white + LIGHT)?);
        if light - shadow < 0.05 {
            return Err(Impossible::new(
                "the readings fall from black to white at once: read the steps between too",
            ));
        }
        Ok(PaperCurve {
            points,
            through,
            shadow,
            light,
        })
    }

    /// The exposure scale from its shadow to its light end.
    #[must_use]
    pub fn scale(&self) -> f64 {
        self.light - self.shadow
    }

    /// The readings, by density printed through.
    #[must_use]
    pub fn points(&self) -> &[(f64, f64)] {
        &self.points
    }

    /// The density of the print through a density of the negative, where the shadow end of the curve lies
    /// at `black` of the negative; nothing beyond the readings.
    #[must_use]
    pub fn print(&self, density: f64, black: f64) -> Option<f64> {
        self.through
            .at(density - black + self.shadow)
            .map(|turned| -turned)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const CURVE: [(f64, f64); 8] = [
        (0.05, 1.45),
        (0.20, 1.44),
        (0.50, 1.20),
        (0.80, 0.80),
        (1.10, 0.42),
        (1.40, 0.18),
        (1.70, 0.08),
        (2.00, 0.07),
    ];

    fn negative(thin: f64, dense: f64) -> Negative {
        Negative::new(Density::new(thin).unwrap(), Density::new(dense).unwrap()).unwrap()
    }

    #[test]
    fn what_is_lost_lies_at_the_end_that_was_not_placed() {
        let long = negative(0.3, 2.1);
        let by_shadows = place(long, 1.4, Placed::Shadows).unwrap();
        assert_eq!(by_shadows.lost_in_black, 0.0);
        assert!((by_shadows.lost_in_white - 0.4).abs() < 1e-9);
        let by_lights = place(long, 1.4, Placed::Highlights).unwrap();
        assert!((by_lights.lost_in_black - 0.4).abs() < 1e-9);
        let middle = place(long, 1.4, Placed::Middle).unwrap();
        assert!(
            (middle.lost_in_black - 0.2).abs() < 1e-9 && (middle.lost_in_white - 0.2).abs() < 1e-9
        );
    }

    #[test]
    fn a_verdict_is_given_by_what_the_scale_can_be_set_to() {
        for (range, verdict_wanted) in [
            (1.5, Verdict::Fits),
            (1.85, Verdict::Fits),
            (1.0, Verdict::Fits),
        ] {
            assert_eq!(
                verdict(range, (1.1, 1.8)).unwrap(),
                verdict_wanted,
                "{range}"
            );
        }
        assert!(
            matches!(verdict(2.2, (1.1, 1.8)).unwrap(), Verdict::Lost(lost) if (lost - 0.4).abs() < 1e-9)
        );
        assert!(
            matches!(verdict(0.8, (1.1, 1.8)).unwrap(), Verdict::Flat(flat) if (flat - 0.3).abs() < 1e-9)
        );
        assert!(verdict(f64::NAN, (1.1, 1.8)).is_err());
    }

    #[test]
    fn a_printed_curve_is_followed_and_not_drawn_beyond_its_readings() {
        let curve = PaperCurve::new(&CURVE).unwrap();
        assert!(
            curve.scale() > 0.9 && curve.scale() < 1.6,
            "{}",
            curve.scale()
        );
        let shadow = curve.print(0.4, 0.4).unwrap();
        assert!((shadow - 0.9 * 1.45).abs() < 1e-6);
        assert_eq!(curve.print(5.0, 0.4), None);
        let mut wrong = CURVE;
        wrong[3].1 = 1.3;
        assert!(PaperCurve::new(&wrong).is_err());
        assert!(PaperCurve::new(&CURVE[..3]).is_err());
    }

    proptest! {
        #[test]
        fn tones_rise_with_density_and_stay_between_black_and_white(
            thin in 0.0..1.0_f64, range in 0.1..3.0_f64, scale in 0.3..3.0_f64, at in 0..3_usize,
        ) {
            let placing = place(negative(thin, thin + range), scale, Placed::ALL[at]).unwrap();
            let mut before = 0.0;
            for step in 0..=20 {
                let tone = placing.tone(thin + range * f64::from(step) / 20.0);
                prop_assert!((0.0..=100.0).contains(&tone) && tone >= before);
                before = tone;
            }
            prop_assert!((placing.white - placing.black - scale).abs() < 1e-9);
        }
    }
}
