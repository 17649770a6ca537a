//! Developing time against temperature.
//!
//! A time between two columns of a table is reckoned as if its logarithm ran straight; beyond the table
//! nothing is told. There is no one law for all developers: published tables give from 3.5 to 11 % for
//! a degree. The general law is a way out where there is no table, and says that it is an estimate.

use crate::craft::numeral::trimmed;
use crate::craft::{Amount, Celsius, Concern, Figure, Grounds, Impossible, Seconds, Step};

/// Temperatures nearer than this are one column, in degrees Celsius.
const SAME: f64 = 0.02;
/// The coldest and warmest film is developed at with times of such tables, in degrees Celsius.
const COLUMNS: std::ops::RangeInclusive<f64> = 5.0..=45.0;
/// Where the general law is used at all, in degrees Celsius.
const CARRIED: std::ops::RangeInclusive<f64> = 16.0..=27.0;
/// Where it is used without a further word: 65 to 75 F.
const USUAL: std::ops::RangeInclusive<f64> = 18.0..=24.0;
/// The steepest law there is: a factor of more than seven for ten degrees.
const STEEPEST: f64 = 0.2;

const USUAL_WORDS: &str = "18 to 24 C (65 to 75 F)";

const LAW: Grounds = Grounds::published(
    "E. J. Wall, Thermo-Entwicklung, Jahrbuch für Photographie 24 (1910), p. 44: the logarithm of the \
     time runs straight against temperature",
);

const GENERAL: &str = "chosen between the middle of twelve rows of Kodak F-32 (0.082) and Wall's example \
                       of 1910 (0.086); no published constant";

/// One cell of a table: the time at one temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cell {
    /// The temperature.
    pub at: Celsius,
    /// The time there.
    pub time: Seconds,
}

/// The times of one film in one developer at one or more temperatures.
#[derive(Debug, Clone, PartialEq)]
pub struct TimeTable {
    /// The coldest cell.
    first: Cell,
    /// The others, coldest first.
    rest: Vec<Cell>,
}

impl TimeTable {
    /// A table of these cells, in any order.
    ///
    /// Two neighbours may have one time: makers round to a quarter or half of a minute.
    ///
    /// # Errors
    /// If there is no cell, a temperature is there twice or is none film is developed at, or a warmer
    /// cell has the longer time.
    pub fn new(mut cells: Vec<Cell>) -> Result<TimeTable, Impossible> {
        cells.sort_by(|one, other| one.at.value().total_cmp(&other.at.value()));
        for (cold, warm) in cells.iter().zip(cells.iter().skip(1)) {
            if warm.at.value() - cold.at.value() < SAME {
                return Err(Impossible::new(format!(
                    "{} is there twice: keep one of the two times",
                    warm.at
                )));
            }
            if warm.time > cold.time {
                return Err(Impossible::new(format!(
                    "{} at {} is longer than {} at {}: warmer developer never needs longer, so look \
                     at both cells again",
                    warm.time, warm.at, cold.time, cold.at
                )));
            }
        }
        if let Some(odd) = cells.iter().find(|it| !COLUMNS.contains(&it.at.value())) {
            return Err(Impossible::new(format!(
                "film is not developed at {}: give a temperature from 5 to 45 C",
                odd.at
            )));
        }
        let mut cells = cells.into_iter();
        match cells.next() {
            Some(first) => Ok(TimeTable {
                first,
                rest: cells.collect(),
            }),
            None => Err(Impossible::new(
                "a table of times needs at least one temperature with its time",
            )),
        }
    }

    /// The cells, coldest first; never none.
    pub fn cells(&self) -> impl Iterator<Item = Cell> + '_ {
        std::iter::once(self.first).chain(self.rest.iter().copied())
    }

    /// The time at a temperature, which rests on `grounds`.
    ///
    /// # Errors
    /// If the temperature lies outside the table.
    pub fn at(
        &self,
        temperature: Celsius,
        grounds: &Grounds,
    ) -> Result<Figure<Seconds>, Impossible> {
        let cells: Vec<Cell> = self.cells().collect();
        let told = |cell: &Cell| {
            Step::new(
                format!("told at {}", both(cell.at)),
                Amount::Time(cell.time),
            )
            .on(grounds.clone())
        };
        let is_here = |cell: &&Cell| (cell.at.value() - temperature.value()).abs() < SAME;
        if let Some(cell) = cells.iter().find(is_here) {
            return Ok(Figure::new(cell.time, grounds.clone()).step(told(cell)));
        }
        let pairs = cells.iter().zip(cells.iter().skip(1));
        let around = |(cold, warm): &(&Cell, &Cell)| {
            (cold.at.value()..=warm.at.value()).contains(&temperature.value())
        };
        let Some((cold, warm)) = pairs.clone().find(around) else {
            return Err(self.outside(temperature));
        };
        let part = (temperature.value() - cold.at.value()) / (warm.at.value() - cold.at.value());
        let ratio = warm.time.value() / cold.time.value();
        let time = Seconds::new(cold.time.value() * ratio.powf(part))?;
        let between = Step::new(
            format!("between, at {}", both(temperature)),
            Amount::Time(time),
        )
        .working(format!(
            "{} x ({} / {})^{}",
            cold.time,
            warm.time,
            cold.time,
            trimmed(part, 3)
        ));
        Ok(Figure::new(time, grounds.clone())
            .within("between the columns of the table, on a straight line of its logarithms")
            .step(told(cold))
            .step(told(warm))
            .step(between))
    }

    fn outside(&self, temperature: Celsius) -> Impossible {
        let last = self.rest.last().unwrap_or(&self.first);
        let told = if self.rest.is_empty() {
            format!("at {} alone", both(self.first.at))
        } else {
            format!("from {} to {}", both(self.first.at), both(last.at))
        };
        Impossible::new(format!(
            "times are told {told}, and nothing for {}: bring the developer there, or ask for an \
             estimate",
            both(temperature)
        ))
    }

    /// The cell nearest to a temperature.
    pub fn nearest(&self, temperature: Celsius) -> Cell {
        let far = |cell: &Cell| (cell.at.value() - temperature.value()).abs();
        self.rest.iter().fold(self.first, |best, cell| {
            if far(cell) < far(&best) { *cell } else { best }
        })
    }

    /// The straight line of logarithms through all cells, by least squares; nothing for one cell.
    pub fn fit(&self) -> Option<Fit> {
        if self.rest.is_empty() {
            return None;
        }
        let points: Vec<(f64, f64)> = self
            .cells()
            .map(|cell| (cell.at.value() - 20.0, cell.time.value().ln()))
            .collect();
        let count = points.len() as f64;
        let mean_x = points.iter().map(|(x, _)| x).sum::<f64>() / count;
        let mean_y = points.iter().map(|(_, y)| y).sum::<f64>() / count;
        let spread = points
            .iter()
            .map(|(x, _)| (x - mean_x).powi(2))
            .sum::<f64>();
        let along = |(x, y): &(f64, f64)| (x - mean_x) * (y - mean_y);
        let slope = points.iter().map(along).sum::<f64>() / spread;
        let rate = Rate::new(-slope).ok()?;
        let at_20 = Seconds::new((mean_y - slope * mean_x).exp()).ok()?;
        Some(Fit { rate, at_20 })
    }
}

/// A temperature on both scales.
fn both(at: Celsius) -> String {
    format!("{at} ({} F)", trimmed(at.fahrenheit(), 1))
}

/// A line through a table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit {
    /// How steep it is.
    pub rate: Rate,
    /// The time on it at 20 C.
    pub at_20: Seconds,
}

/// How much quicker developer works when it is warmer, as the natural logarithm of the factor for one
/// degree Celsius; from 0 to 0.2.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Rate(f64);

impl Rate {
    /// For a film and developer of which no more than one time is known.
    pub const GENERAL: Rate = Rate(0.08);

    /// The rate with this value.
    ///
    /// # Errors
    /// If it is outside 0 to 0.2.
    pub fn new(per_degree: f64) -> Result<Rate, Impossible> {
        // Two equal times leave the noise of their logarithms behind.
        let per_degree = if per_degree.abs() < 1e-12 {
            0.0
        } else {
            per_degree
        };
        if !(0.0..=STEEPEST).contains(&per_degree) {
            return Err(Impossible::new(format!(
                "no developer changes by a factor of {} for ten degrees: from 1 to 7.4 can be, and 2 \
                 to 3 is usual",
                Amount::measured((10.0 * per_degree).exp().min(1e6), "")
            )));
        }
        Ok(Rate(per_degree))
    }

    /// From the factor for ten degrees, 2.25.
    ///
    /// # Errors
    /// If it is outside 1 to 7.4.
    pub fn of_ten_degrees(factor: f64) -> Result<Rate, Impossible> {
        if !(factor.is_finite() && factor > 0.0) {
            return Err(Impossible::new(
                "the factor for ten degrees is a number from 1 to 7.4, such as 2.25",
            ));
        }
        Rate::new(factor.ln() / 10.0)
    }

    /// From two times of one film in one developer.
    ///
    /// # Errors
    /// If both are at one temperature, or the warmer one is the longer.
    pub fn of_two(one: Cell, other: Cell) -> Result<Rate, Impossible> {
        let (cold, warm) = if one.at <= other.at {
            (one, other)
        } else {
            (other, one)
        };
        let degrees = warm.at.value() - cold.at.value();
        if degrees < SAME {
            return Err(Impossible::new(format!(
                "both times are at {}: two temperatures are needed to see what a degree does",
                one.at
            )));
        }
        if warm.time > cold.time {
            return Err(Impossible::new(format!(
                "{} at {} is longer than {} at {}: warmer developer never needs longer",
                warm.time, warm.at, cold.time, cold.at
            )));
        }
        Rate::new((cold.time.value() / warm.time.value()).ln() / degrees)
    }

    /// The natural logarithm of the factor for one degree.
    #[must_use]
    pub const fn per_degree(self) -> f64 {
        self.0
    }

    /// The factor for ten degrees.
    #[must_use]
    pub fn ten_degrees(self) -> f64 {
        (10.0 * self.0).exp()
    }

    /// What a time is multiplied by for so many degrees more.
    #[must_use]
    pub fn factor(self, degrees: f64) -> f64 {
        (-self.0 * degrees).exp()
    }
}

/// What the general rate rests on.
#[must_use]
pub fn general_grounds() -> Grounds {
    Grounds::new(crate::craft::Standing::Usual, GENERAL)
}

/// A time at another temperature, by a rate that rests on `grounds`: an estimate, and marked as one.
///
/// # Errors
/// If a temperature is colder than 16 C or warmer than 27 C, or the result is no time.
pub fn estimate(
    from: Cell,
    to: Celsius,
    rate: Rate,
    grounds: Grounds,
) -> Result<Figure<Seconds>, Impossible> {
    for at in [from.at, to] {
        if !CARRIED.contains(&at.value()) {
            return Err(Impossible::new(format!(
                "no estimate goes to {}: the law is carried from 16 to 27 C (61 to 81 F); bring the \
                 developer near {USUAL_WORDS}",
                both(at)
            )));
        }
    }
    let degrees = to.value() - from.at.value();
    let factor = rate.factor(degrees);
    let time = Seconds::new(from.time.value() * factor)?;
    let figure = Figure::new(time, LAW)
        .within("18 to 24 C (65 to 75 F); an estimate, within about 20 %")
        .step(Step::new(
            format!("known at {}", both(from.at)),
            Amount::Time(from.time),
        ))
        .step(
            Step::new("a degree", Amount::Factor(rate.factor(1.0)))
                .working(format!(
                    "e^-{}, that is {} for ten degrees",
                    trimmed(rate.0, 4),
                    trimmed(rate.ten_degrees(), 2)
                ))
                .on(grounds),
        )
        .step(
            Step::new(
                format!("{} degrees", trimmed(degrees, 2)),
                Amount::Factor(factor),
            )
            .working(format!(
                "e^(-{} x {})",
                trimmed(rate.0, 4),
                trimmed(degrees, 2)
            ))
            .brings(Amount::Time(time)),
        )
        .remark(
            Concern::Beyond,
            "an estimate, within about 20 %: developers differ, and a published table or a test of \
             your own goes before it",
        );
    let far = [from.at, to]
        .into_iter()
        .find(|at| !USUAL.contains(&at.value()));
    Ok(match far {
        None => figure,
        Some(at) => figure.remark(
            Concern::Warning,
            format!(
                "{} is outside {USUAL_WORDS}: colder developer works slowly and not to the end, and \
                 warmer one asks for special care",
                both(at)
            ),
        ),
    })
}

#[cfg(test)]
mod tests;
