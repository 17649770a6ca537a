//! A developing time at another temperature.

use crate::craft::development::temperature::{Cell, Rate, TimeTable, estimate, general_grounds};
use crate::craft::{Amount, Celsius, Figure, Grounds, Seconds};
use crate::figures::{Answer, Given, Line, Problem, Table};

use super::to_the_second;

pub(super) fn answer(given: &Given<'_>) -> Result<Answer, Problem> {
    let known = Cell {
        time: given.must("time", Seconds::parse)?,
        at: given.must("at", Celsius::parse)?,
    };
    let to = given.must("to", Celsius::parse)?;
    let other = match (
        given.may("other_time", Seconds::parse)?,
        given.may("other_at", Celsius::parse)?,
    ) {
        (Some(time), Some(at)) => Some(Cell { at, time }),
        (Some(_), None) => return Err(given.missing("other_at")),
        (None, Some(_)) => return Err(given.missing("other_time")),
        (None, None) => None,
    };
    let ten_degrees = given.number("ten_degrees")?;
    if other.is_some() && ten_degrees.is_some() {
        let says = "two known times say what ten degrees do: leave one of the two out";
        return Err(given.problem("ten_degrees", says));
    }
    let typed = Grounds::own("as typed");
    let (rate, grounds) = match (other, ten_degrees) {
        (Some(other), _) => {
            let rate = Rate::of_two(known, other)
                .map_err(|why| given.problem("other_time", why.to_string()))?;
            (rate, typed.clone())
        }
        (None, Some(factor)) => {
            let rate = Rate::of_ten_degrees(factor)
                .map_err(|why| given.problem("ten_degrees", why.to_string()))?;
            (rate, typed.clone())
        }
        (None, None) => (Rate::GENERAL, general_grounds()),
    };
    let carried = |to: Celsius| -> Result<Figure<Seconds>, Problem> {
        if let Some(other) = other {
            let table = TimeTable::new(vec![known, other])?;
            if let Ok(figure) = table.at(to, &typed) {
                return Ok(figure);
            }
        }
        estimate(known, to, rate, grounds.clone())
            .map_err(|why| given.problem("to", why.to_string()))
    };
    let figure = carried(to)?;
    let time = figure.value;
    let rests = figure.grounds.clone();
    let estimated = !figure.remarks.is_empty();
    let rests = if estimated { grounds.clone() } else { rests };
    let answer = Answer::of(figure, |_| {
        vec![
            Line::new("develop", Amount::Time(to_the_second(time))).on(rests.clone()),
            Line::new("a degree warmer takes off", percent(rate)).on(grounds.clone()),
            Line::new("ten degrees", Amount::Factor(rate.ten_degrees())).on(grounds.clone()),
        ]
    });
    let near = [-2.0, -1.0, 0.0, 1.0, 2.0].into_iter().filter_map(|more| {
        let at = Celsius::new(to.value() + more).ok()?;
        let time = carried(at).ok()?.value;
        let degrees = Amount::number(at.value(), "C", 1);
        Some(vec![degrees, Amount::Time(to_the_second(time))])
    });
    Ok(answer.table(Table {
        heads: vec!["temperature".into(), "time".into()],
        rows: near.collect(),
    }))
}

fn percent(rate: Rate) -> Amount {
    Amount::number(100.0 * (1.0 - rate.factor(1.0)), "%", 1)
}
