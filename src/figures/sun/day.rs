//! The sun over a day, with a table, a chart, and the times in which it strikes a wall.

use chrono::{DateTime, FixedOffset};

use super::{Spot, named};
use crate::craft::sun::{Bands, Bearing, Day, Level, Lit, day, on_wall, position};
use crate::craft::{Amount, Concern, Unreadable, number};
use crate::figures::{Answer, Chart, Given, Line, Mark, Problem, Series, Table};

/// Minutes between the points of the chart.
const APART: i64 = 15;

pub(super) fn answer(given: &Given<'_>) -> Result<Answer, Problem> {
    let spot = Spot::read(given)?;
    let date = spot.date(given)?;
    let bands = match given.may("golden", band)? {
        Some((low, high)) => {
            Bands::golden(low, high).map_err(|why| given.problem("golden", why.to_string()))?
        }
        None => Bands::default(),
    };
    let wall = given.may("wall", Bearing::parse)?;
    let figure = day(date, spot.zone, spot.place, bands)?;
    let found = figure.value.clone();
    let lit = wall.map(|facing| on_wall(facing, found.from, found.to, spot.zone, spot.place));
    let mut answer = Answer::of(figure, |day| results(&day))
        .table(table(&found))
        .chart(chart(spot, &found, lit.as_deref().unwrap_or_default()));
    if let Some(lit) = &lit {
        answer = on_the_wall(answer, &found, lit);
    }
    for words in oddities(&found, bands) {
        answer = answer.remark(Concern::Note, words);
    }
    answer = answer.remark(
        Concern::Note,
        "sunrise and sunset hold to about a minute in ordinary air, and to less in high latitudes",
    );
    Ok(spot.told(answer, found.noon.unwrap_or(found.from)))
}

fn clock(at: Option<DateTime<FixedOffset>>) -> Amount {
    at.map_or_else(|| Amount::words("none"), Amount::Clock)
}

fn results(day: &Day) -> Vec<Line> {
    let mut lines = vec![
        Line::new("sunrise", clock(day.sunrise())),
        Line::new("noon", clock(day.noon)),
        Line::new("sunset", clock(day.sunset())),
        Line::new("highest", Amount::number(day.highest, "deg", 1)),
    ];
    if let (Some(rise), Some(set)) = (day.sunrise(), day.sunset())
        && rise < set
    {
        let minutes = (set - rise).num_minutes();
        let words = format!("{} h {:02} min", minutes / 60, minutes % 60);
        lines.push(Line::new("from sunrise to sunset", Amount::words(words)));
    }
    lines
}

/// Every passing of the day, and noon among them.
fn table(day: &Day) -> Table {
    let mut rows: Vec<(DateTime<FixedOffset>, Vec<Amount>)> = Vec::new();
    for pass in &day.passes {
        let azimuth = Amount::words(pass.azimuth.to_string());
        let name = Amount::words(named(pass.level, pass.rising));
        rows.push((pass.at, vec![name, Amount::Clock(pass.at), azimuth]));
    }
    if let Some(noon) = day.noon {
        let words = format!("{:.1} deg high", day.highest);
        let name = Amount::words("noon");
        rows.push((noon, vec![name, Amount::Clock(noon), Amount::words(words)]));
    }
    rows.sort_by_key(|row| row.0);
    Table {
        heads: vec!["event".into(), "time".into(), "sun stands".into()],
        rows: rows.into_iter().map(|row| row.1).collect(),
    }
}

fn chart(spot: Spot, day: &Day, lit: &[Lit]) -> Chart {
    let hours = |at: DateTime<FixedOffset>| (at - day.from).as_seconds_f64() / 3600.0;
    let mut points = Vec::new();
    let mut at = day.from;
    while at <= day.to {
        points.push((hours(at), position(at.to_utc(), spot.place).elevation));
        let next = at.checked_add_signed(chrono::TimeDelta::minutes(APART));
        let Some(next) = next else { break };
        at = next;
    }
    let mut marks: Vec<Mark> = Vec::new();
    let mut mark = |at: DateTime<FixedOffset>, name: &'static str| {
        marks.push(Mark {
            x: hours(at),
            name: name.into(),
        });
    };
    for pass in day
        .passes
        .iter()
        .filter(|pass| pass.level == Level::Horizon)
    {
        mark(pass.at, named(pass.level, pass.rising));
    }
    if let Some(noon) = day.noon {
        mark(noon, "noon");
    }
    for lit in lit {
        if lit.from > day.from {
            mark(lit.from, "on the wall");
        }
        if lit.to < day.to {
            mark(lit.to, "off the wall");
        }
    }
    marks.sort_by(|one, other| one.x.total_cmp(&other.x));
    let even = day.from.offset() == day.to.offset();
    Chart {
        x: if even { "hour" } else { "hours since midnight" }.into(),
        y: "elevation, deg".into(),
        series: vec![Series {
            name: "sun".into(),
            points,
        }],
        marks,
    }
}

fn on_the_wall(mut answer: Answer, day: &Day, lit: &[Lit]) -> Answer {
    if lit.is_empty() {
        answer = answer.result(Line::new(
            "sun on the wall",
            Amount::words("not on this day"),
        ));
    }
    for lit in lit {
        let name = if lit.from > day.from {
            "sun comes to the wall"
        } else {
            "sun is on the wall from"
        };
        answer = answer.result(Line::new(name, Amount::Clock(lit.from)));
        if let Some(square) = lit.square {
            answer = answer.result(Line::new("stands square before it", Amount::Clock(square)));
        }
        if lit.to < day.to {
            answer = answer.result(Line::new("leaves the wall", Amount::Clock(lit.to)));
        } else {
            answer = answer.result(Line::new(
                "leaves the wall",
                Amount::words("not on this day"),
            ));
        }
    }
    answer.remark(
        Concern::Note,
        "on a wall the sun is reckoned when it is up and within 90 degrees of where the wall faces; what \
         stands between is not reckoned with",
    )
}

/// What is out of the ordinary on that day.
fn oddities(day: &Day, bands: Bands) -> Vec<String> {
    let mut says = Vec::new();
    let horizon = bands.elevation(Level::Horizon);
    let (low, high) = (bands.elevation(Level::Golden), bands.elevation(Level::High));
    if day.lowest > horizon {
        says.push("the sun does not set on this day".to_owned());
    } else if day.highest < horizon {
        says.push("the sun does not rise on this day".to_owned());
    }
    if (low..high).contains(&day.highest) {
        says.push(format!(
            "the sun never reaches {high} degrees: the golden hour lasts as long as it is above {low}"
        ));
    }
    if day.from.offset() != day.to.offset() {
        says.push(format!(
            "the clocks are changed on this day, from {} to {}",
            day.from.offset(),
            day.to.offset()
        ));
    }
    says
}

/// Reads `-4 to 6`, `-4..6`, `-4, 6`.
fn band(text: &str) -> Result<(f64, f64), Unreadable> {
    let parted = ["to", "..", ",", ";"].into_iter();
    let mut parts = parted.filter_map(|by| text.split_once(by));
    let read = parts.find_map(|(low, high)| number(low).ok().zip(number(high).ok()));
    read.ok_or_else(|| Unreadable {
        typed: text.to_owned(),
        wanted: "two elevations: write -4 to 6",
    })
}
