//! What is left to develop when the developer has become warmer or cooler on the way.
//!
//! At each temperature a whole time is told. In a second of it one part of that time is done, so what is
//! left is a share of the whole, and the same share of the whole time at the new temperature. What is
//! between the two readings counts at the first of them: who reads more often comes nearer.

use super::temperature::{Cell, Rate, TimeTable, estimate, general_grounds};
use crate::craft::numeral::trimmed;
use crate::craft::{
    Amount, Celsius, Concern, Figure, Grounds, Impossible, Seconds, Standing, Step,
};

/// How the time runs against temperature.
#[derive(Debug, Clone, Copy)]
pub enum Course<'t> {
    /// As a table tells it; beyond its columns as an estimate along its own line.
    Told {
        /// The times.
        times: &'t TimeTable,
        /// What they rest on.
        grounds: &'t Grounds,
    },
    /// By the general law, as an estimate.
    General,
}

/// A development that is under way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UnderWay {
    /// The temperature it was planned at and the whole time there.
    pub planned: Cell,
    /// What is left at the temperature it had so far.
    pub left: Seconds,
    /// That temperature.
    pub was: Celsius,
    /// The temperature from now on.
    pub now: Celsius,
}

/// What is left at the temperature from now on.
///
/// # Errors
/// If no time is told for one of the temperatures and no estimate goes there, or the result is no time.
pub fn left(under_way: UnderWay, course: Course<'_>) -> Result<Figure<Seconds>, Impossible> {
    let UnderWay {
        planned,
        left,
        was,
        now,
    } = under_way;
    let before = whole(planned, was, course)?;
    let after = whole(planned, now, course)?;
    let share = left.value() / before.value.value();
    let rest = Seconds::new(share * after.value.value())?;
    // An estimate on either side makes an estimate of the whole.
    let estimated = [&before, &after].into_iter().find(|figure| {
        figure
            .remarks
            .iter()
            .any(|it| it.concern == Concern::Beyond)
    });
    let grounds = estimated.unwrap_or(&after).grounds.clone();
    let percent = |share: f64| Amount::number(100.0 * share, "%", 1);
    let mut figure = Figure::new(rest, grounds.clone())
        .within("what was given counts at the temperature read before, the rest at the new one")
        .step(
            Step::new(format!("whole time at {was}"), Amount::Time(before.value))
                .on(before.grounds.clone()),
        )
        .step(Step::new("still to do", percent(share)).working(format!(
            "{} of {}",
            left.clock(),
            before.value.clock()
        )))
        .step(
            Step::new(format!("whole time at {now}"), Amount::Time(after.value))
                .on(after.grounds.clone()),
        )
        .step(
            Step::new(format!("left at {now}"), Amount::Time(rest)).working(format!(
                "{} % of {}",
                trimmed(100.0 * share, 1),
                after.value.clock()
            )),
        );
    for told in [before, after] {
        for remark in told.remarks {
            if !figure.remarks.contains(&remark) {
                figure.remarks.push(remark);
            }
        }
    }
    Ok(figure)
}

/// The whole time at a temperature.
fn whole(planned: Cell, at: Celsius, course: Course<'_>) -> Result<Figure<Seconds>, Impossible> {
    if planned.at == at {
        return Ok(Figure::new(planned.time, Grounds::own("as planned")));
    }
    let (rate, rests) = match course {
        Course::General => (Rate::GENERAL, general_grounds()),
        Course::Told { times, grounds } => {
            if let (Ok(there), Ok(here)) = (times.at(planned.at, grounds), times.at(at, grounds)) {
                // The plan may be another time than the table's; the course is the table's.
                let factor = here.value.value() / there.value.value();
                let time = Seconds::new(planned.time.value() * factor)?;
                return Ok(Figure::new(time, grounds.clone()));
            }
            match times.fit() {
                Some(fit) => {
                    let source = format!("beyond its columns along the line of {}", grounds.source);
                    (fit.rate, Grounds::new(Standing::Usual, source))
                }
                None => (Rate::GENERAL, general_grounds()),
            }
        }
    };
    let mut figure = estimate(planned, at, rate, rests.clone())?;
    figure.grounds = rests;
    Ok(figure)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn at(text: &str) -> Celsius {
        Celsius::parse(text).unwrap()
    }

    fn seconds(value: f64) -> Seconds {
        Seconds::new(value).unwrap()
    }

    fn ten_minutes(left: f64, was: &str, now: &str) -> UnderWay {
        UnderWay {
            planned: Cell {
                at: at("20"),
                time: seconds(600.0),
            },
            left: seconds(left),
            was: at(was),
            now: at(now),
        }
    }

    #[test]
    fn an_unchanged_temperature_changes_nothing() {
        let figure = left(ten_minutes(250.0, "20", "20"), Course::General).unwrap();
        assert_eq!(figure.value, seconds(250.0));
        assert!(figure.remarks.is_empty());
    }

    #[test]
    fn without_a_table_it_is_an_estimate_and_far_away_nothing() {
        let figure = left(ten_minutes(300.0, "20", "21"), Course::General).unwrap();
        assert!((figure.value.value() - 300.0 * (-0.08_f64).exp()).abs() < 1e-9);
        assert!(
            figure
                .remarks
                .iter()
                .any(|it| it.concern == Concern::Beyond)
        );
        let why = left(ten_minutes(300.0, "20", "35"), Course::General).unwrap_err();
        assert!(why.to_string().contains("no estimate"), "{why}");
    }

    #[test]
    fn beyond_its_columns_a_table_gives_an_estimate_along_its_own_line() {
        let cells = [("20", 600.0), ("22", 500.0)];
        let cells = cells.map(|(text, time)| Cell {
            at: at(text),
            time: seconds(time),
        });
        let times = TimeTable::new(cells.to_vec()).unwrap();
        let grounds = Grounds::published("a table");
        let told = Course::Told {
            times: &times,
            grounds: &grounds,
        };
        let inside = left(ten_minutes(300.0, "20", "22"), told).unwrap();
        assert!((inside.value.value() - 250.0).abs() < 1e-9);
        assert!(inside.remarks.is_empty());
        let beyond = left(ten_minutes(300.0, "20", "24"), told).unwrap();
        assert!((beyond.value.value() - 300.0 * (5.0_f64 / 6.0).powi(2)).abs() < 1e-6);
        assert!(
            beyond
                .remarks
                .iter()
                .any(|it| it.concern == Concern::Beyond)
        );
    }

    proptest! {
        #[test]
        fn warmer_is_never_longer_and_there_and_back_is_nothing(
            rest in 1.0..2000.0_f64, one in 18.0..24.0_f64, other in 18.0..24.0_f64,
        ) {
            let was = Celsius::new(one).unwrap();
            let now = Celsius::new(other).unwrap();
            let there = UnderWay { was, now, ..ten_minutes(rest, "20", "20") };
            let changed = left(there, Course::General).unwrap().value;
            prop_assert_eq!(changed.value() <= rest + 1e-9, other >= one - 1e-9);
            let back = UnderWay { left: changed, was: now, now: was, ..there };
            let back = left(back, Course::General).unwrap().value;
            prop_assert!((back.value() - rest).abs() < 1e-6);
        }
    }
}
