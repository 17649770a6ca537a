//! A curve through points that never swings between them.
//!
//! For: characteristic curves, and anything else that is known at a few places only. Promises: the
//! curve passes through every point; between two points it stays between them, so where the points
//! rise it rises and where they are level it is level; nothing is given outside the points. The
//! smooth curve is a piecewise cubic in Hermite form (F. N. Fritsch and R. E. Carlson, "Monotone
//! Piecewise Cubic Interpolation", SIAM Journal on Numerical Analysis 17, 1980) with the slopes of F. N.
//! Fritsch and J. Butland (SIAM Journal on Scientific and Statistical Computing 5, 1984): the weighted
//! harmonic mean of the two neighbouring rises, level where they disagree in direction.

use crate::craft::Impossible;
use crate::words::words;

words! {
    /// How points are joined.
    Joined {
        /// By a smooth curve that never swings past a point.
        Smooth = "smooth",
        /// By straight lines, as with a ruler on graph paper.
        Straight = "straight",
    }
}

/// Halvings that bring a place within an interval down to the last bits of a float.
const HALVINGS: usize = 60;

#[derive(Debug, Clone, Copy, PartialEq)]
struct Knot {
    x: f64,
    y: f64,
    slope: f64,
}

/// A curve through points.
#[derive(Debug, Clone, PartialEq)]
pub struct Through {
    knots: Vec<Knot>,
    joined: Joined,
}

impl Through {
    /// Through these points, whose x must rise from one to the next.
    ///
    /// # Errors
    /// If there are fewer than two, one is not finite, or two stand at one x or out of order.
    pub fn new(points: &[(f64, f64)], joined: Joined) -> Result<Through, Impossible> {
        if points.len() < 2 {
            return Err(Impossible::new(
                "a curve needs two points at least: give more readings",
            ));
        }
        if points
            .iter()
            .any(|(x, y)| !(x.is_finite() && y.is_finite()))
        {
            return Err(Impossible::new("a point of a curve is no finite number"));
        }
        let in_order = points.windows(2).all(|pair| match pair {
            [(a, _), (b, _)] => b - a > 1e-9,
            _ => false,
        });
        if !in_order {
            return Err(Impossible::new(
                "two points of a curve stand at the same place: give each one once",
            ));
        }
        let slopes = slopes(points);
        let knots = points
            .iter()
            .zip(slopes)
            .map(|(&(x, y), slope)| Knot { x, y, slope })
            .collect();
        Ok(Through { knots, joined })
    }

    /// Where the curve begins.
    #[must_use]
    pub fn start(&self) -> f64 {
        self.knots.first().map_or(f64::NAN, |knot| knot.x)
    }

    /// Where the curve ends.
    #[must_use]
    pub fn end(&self) -> f64 {
        self.knots.last().map_or(f64::NAN, |knot| knot.x)
    }

    fn pairs(&self) -> impl Iterator<Item = (Knot, Knot)> {
        let ends = self.knots.iter().skip(1);
        self.knots.iter().copied().zip(ends.copied())
    }

    /// How high the curve is at `x`; nothing outside its points.
    #[must_use]
    pub fn at(&self, x: f64) -> Option<f64> {
        let (a, b) = self.pairs().find(|(a, b)| a.x <= x && x <= b.x)?;
        Some(self.between(a, b, x))
    }

    /// The rise of the straight line between the two points around `x`; nothing outside.
    #[must_use]
    pub fn rise_at(&self, x: f64) -> Option<f64> {
        let (a, b) = self.pairs().find(|(a, b)| a.x <= x && x <= b.x)?;
        Some((b.y - a.y) / (b.x - a.x))
    }

    /// The first place at which the curve comes up to `y`; nothing if it begins above or stays below.
    #[must_use]
    pub fn first_reaching(&self, y: f64) -> Option<f64> {
        let begins = self.knots.first()?;
        if begins.y > y || !y.is_finite() {
            return None;
        }
        if begins.y == y {
            return Some(begins.x);
        }
        let (a, b) = self.pairs().find(|(_, b)| b.y >= y)?;
        let (mut low, mut high) = (a.x, b.x);
        for _ in 0..HALVINGS {
            let middle = 0.5 * (low + high);
            if self.between(a, b, middle) < y {
                low = middle;
            } else {
                high = middle;
            }
        }
        Some(high)
    }

    fn between(&self, a: Knot, b: Knot, x: f64) -> f64 {
        let width = b.x - a.x;
        let t = ((x - a.x) / width).clamp(0.0, 1.0);
        let value = match self.joined {
            Joined::Straight => a.y + (b.y - a.y) * t,
            Joined::Smooth => {
                let (t2, t3) = (t * t, t * t * t);
                a.y * (2.0 * t3 - 3.0 * t2 + 1.0)
                    + a.slope * width * (t3 - 2.0 * t2 + t)
                    + b.y * (3.0 * t2 - 2.0 * t3)
                    + b.slope * width * (t3 - t2)
            }
        };
        // The curve stays between its points; what is left over is the noise of the last bits.
        value.clamp(a.y.min(b.y), a.y.max(b.y))
    }
}

/// The slope of the smooth curve at each point.
fn slopes(points: &[(f64, f64)]) -> Vec<f64> {
    let ends = points.iter().skip(1);
    let pieces: Vec<(f64, f64)> = points
        .iter()
        .zip(ends)
        .map(|((x0, y0), (x1, y1))| (x1 - x0, (y1 - y0) / (x1 - x0)))
        .collect();
    let (Some(&first), Some(&last)) = (pieces.first(), pieces.last()) else {
        return vec![0.0; points.len()];
    };
    let second = pieces.get(1).copied();
    let last_but_one = pieces.len().checked_sub(2).and_then(|at| pieces.get(at));
    let mut slopes = vec![at_the_end(first, second)];
    slopes.extend(pieces.windows(2).map(|pair| match pair {
        [before, after] => inside(*before, *after),
        _ => 0.0,
    }));
    slopes.push(at_the_end(last, last_but_one.copied()));
    slopes
}

/// The slope between two pieces of a width and a rise each.
fn inside((wide, rise): (f64, f64), (next_wide, next_rise): (f64, f64)) -> f64 {
    if rise * next_rise <= 0.0 {
        return 0.0;
    }
    let (one, other) = (2.0 * next_wide + wide, next_wide + 2.0 * wide);
    (one + other) / (one / rise + other / next_rise)
}

/// The slope at an end, from the piece there and the one beside it.
fn at_the_end((wide, rise): (f64, f64), beside: Option<(f64, f64)>) -> f64 {
    let Some((next_wide, next_rise)) = beside else {
        return rise;
    };
    let slope = ((2.0 * wide + next_wide) * rise - wide * next_rise) / (wide + next_wide);
    if slope * rise <= 0.0 {
        0.0
    } else if rise * next_rise <= 0.0 && slope.abs() > 3.0 * rise.abs() {
        3.0 * rise
    } else {
        slope
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn points() -> impl Strategy<Value = Vec<(f64, f64)>> {
        prop::collection::vec((0.02..0.6_f64, 0.0..4.0_f64), 2..40).prop_map(|steps| {
            let mut x = -3.0;
            let along = steps.into_iter().map(|(wide, y)| {
                x += wide;
                (x, y)
            });
            along.collect()
        })
    }

    fn joined() -> impl Strategy<Value = Joined> {
        prop_oneof![Just(Joined::Smooth), Just(Joined::Straight)]
    }

    #[test]
    fn what_is_no_curve_is_refused() {
        for (points, says) in [
            (vec![], "two points at least"),
            (vec![(0.0, 1.0)], "two points at least"),
            (vec![(0.0, 1.0), (0.0, 2.0)], "the same place"),
            (vec![(1.0, 1.0), (0.0, 2.0)], "the same place"),
            (vec![(0.0, f64::NAN), (1.0, 2.0)], "no finite number"),
        ] {
            let why = Through::new(&points, Joined::Smooth).unwrap_err();
            assert!(why.to_string().contains(says), "{why}");
        }
    }

    #[test]
    fn nothing_is_given_outside_the_points() {
        let curve = Through::new(&[(0.0, 1.0), (1.0, 2.0)], Joined::Smooth).unwrap();
        assert_eq!(curve.at(-0.01), None);
        assert_eq!(curve.at(1.01), None);
        assert_eq!(curve.at(f64::NAN), None);
        assert_eq!(curve.first_reaching(0.9), None);
        assert_eq!(curve.first_reaching(2.1), None);
        assert_eq!(curve.first_reaching(f64::NAN), None);
        assert_eq!(curve.at(0.5), Some(1.5));
    }

    proptest! {
        #[test]
        fn the_curve_passes_through_its_points(points in points(), joined in joined()) {
            let curve = Through::new(&points, joined).unwrap();
            for (x, y) in points {
                prop_assert!((curve.at(x).unwrap() - y).abs() < 1e-9);
            }
        }

        #[test]
        fn between_two_points_the_curve_goes_one_way(points in points(), joined in joined()) {
            let curve = Through::new(&points, joined).unwrap();
            for pair in points.windows(2) {
                let ((x0, y0), (x1, y1)) = (pair[0], pair[1]);
                let along = (0..=50).map(|i| x0 + (x1 - x0) * f64::from(i) / 50.0);
                let heights: Vec<f64> = along.map(|x| curve.at(x.min(x1)).unwrap()).collect();
                for two in heights.windows(2) {
                    prop_assert!((two[1] - two[0]) * (y1 - y0).signum() >= -1e-9, "{heights:?}");
                }
            }
        }

        #[test]
        fn the_place_of_a_height_has_that_height(
            points in points(),
            joined in joined(),
            part in 0.0..1.0_f64,
        ) {
            let curve = Through::new(&points, joined).unwrap();
            let highest = points.iter().map(|(_, y)| *y).fold(f64::MIN, f64::max);
            let y = points[0].1 + (highest - points[0].1) * part;
            let x = curve.first_reaching(y).unwrap();
            prop_assert!((curve.at(x).unwrap() - y).abs() < 1e-6);
        }
    }
}
