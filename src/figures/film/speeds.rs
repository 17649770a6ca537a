//! Film speeds, and what age takes from them.

use chrono::{Months, NaiveDate};

use crate::craft::exposure::stops_of_speed;
use crate::craft::sheet_film::{lost_with_age, speed_of_degrees};
use crate::craft::{Amount, Concern, Figure, FilmSpeed, Grounds, Step, Unreadable};
use crate::figures::{Answer, Given, Line, Problem};
use crate::reference::{Practice, PracticeSubject};

/// Days in a year, on the average.
const YEAR: f64 = 365.25;

pub(super) fn compared(given: &Given<'_>) -> Result<Answer, Problem> {
    let whole = |text: &str| {
        let plain = text.trim_end_matches('\u{b0}').trim();
        let wanted = "a speed in degrees: write it from 7 to 57, such as 27 for ISO 400";
        let degrees = plain.parse().map_err(|_| Unreadable::new(text, wanted))?;
        speed_of_degrees(degrees)
    };
    let typed = given.may("speed", FilmSpeed::parse)?;
    let speed = match typed {
        Some(speed) => speed,
        None => match given.may("degrees", whole)? {
            Some(speed) => speed,
            None => return Err(given.missing("speed")),
        },
    };
    if let Some(other) = given.may("degrees", whole)?
        && other.degrees() != speed.degrees()
    {
        let says = format!(
            "ISO {speed} is {} degrees: leave one of the two out",
            speed.degrees()
        );
        return Err(given.problem("degrees", says));
    }
    let degrees = speed.degrees();
    let scale = Grounds::remembered(
        "1 + 10 log10 S, from memory; agrees with the pairs printed for six speeds",
    );
    let step = Step::new("degrees", Amount::degrees(f64::from(degrees)))
        .working(format!("1 + 10 log10({speed}), rounded"))
        .on(scale.clone());
    // What was typed is the user's own; the other scale follows from it by the formula.
    let own = Grounds::own("as typed");
    let (of_speed, of_degrees) = match typed {
        Some(_) => (own, scale),
        None => (scale, own),
    };
    let mut lines = vec![
        Line::new("speed", Amount::Speed(speed)).on(of_speed),
        Line::new("in degrees", Amount::degrees(f64::from(degrees))).on(of_degrees),
    ];
    let mut figure = Figure::new((), Grounds::usual()).step(step);
    if let Some(other) = given.may("other", FilmSpeed::parse)? {
        let stops = stops_of_speed(other, speed);
        let step = Step::new("more speed than the other", Amount::Stops(stops))
            .working(format!("log2({speed} / {other})"));
        figure = figure.step(step);
        let needs = stops_of_speed(speed, other);
        let words = format!("where ISO {other} is right, ISO {speed} takes {needs}");
        lines.insert(
            0,
            Line::new("stops faster", Amount::Stops(stops)).on(Grounds::usual()),
        );
        figure = figure.remark(Concern::Note, words);
    }
    Ok(Answer::of(figure, |()| lines))
}

pub(super) fn expired(given: &Given<'_>) -> Result<Answer, Problem> {
    let years = match given.number("years")? {
        Some(years) => years,
        None => {
            let today = given.desk().now.date_naive();
            let Some(date) = given.may("expiry", date)? else {
                return Err(given.missing("years"));
            };
            (today - date).num_days() as f64 / YEAR
        }
    };
    if years < 0.0 {
        let key = given.text("years").map_or("expiry", |_| "years");
        return Err(given.problem(key, "the film is not past its date yet: expose it as it is"));
    }
    let speed = given.may("speed", FilmSpeed::parse)?;
    let mut rules: Vec<Rule> = Vec::new();
    if let Some(factor) = given.number("factor")? {
        rules.push(Rule {
            name: "by your own factor".to_owned(),
            years: (factor, factor),
            grounds: Grounds::own("as typed"),
        });
    }
    let known = given.desk().reference.practices(PracticeSubject::Expired);
    rules.extend(known.filter_map(Rule::of));
    let mut answer: Option<Answer> = None;
    for rule in rules {
        let (fast, slow) = rule.years;
        let most = lost_with_age(years, fast, rule.grounds.clone())?;
        let least = lost_with_age(years, slow, rule.grounds.clone())?.value;
        let words = if least == most.value {
            format!("{least}")
        } else {
            let least = least.to_string();
            let bare = least.split(" stop").next().unwrap_or(&least);
            format!("{bare} to {}", most.value)
        };
        let mut lines = vec![Line::new(rule.name, Amount::words(words)).on(rule.grounds.clone())];
        if let Some(speed) = speed {
            let index = |stops: f64| (f64::from(speed.value()) / stops.exp2()).round().max(1.0);
            let (low, high) = (index(most.value.value()), index(least.value()));
            let words = if low == high {
                format!("{low}")
            } else {
                format!("{low} to {high}")
            };
            let line = Line::new(format!("index for ISO {speed}"), Amount::words(words));
            lines.push(line.on(rule.grounds));
        }
        match &mut answer {
            None => answer = Some(Answer::of(most, |_| lines)),
            Some(answer) => {
                answer.results.extend(lines);
                answer.steps.extend(most.steps);
            }
        }
    }
    let mut answer = answer.ok_or_else(|| Problem::of_all("no rule is known"))?;
    for practice in given.desk().reference.practices(PracticeSubject::Expired) {
        let note = &practice.figure.note;
        if !note.is_empty() {
            answer = answer.remark(Concern::Note, note.clone());
        }
    }
    Ok(answer)
}

/// A rule that counts years to a stop.
struct Rule {
    name: String,
    years: (f64, f64),
    grounds: Grounds,
}

impl Rule {
    fn of(practice: &Practice) -> Option<Rule> {
        let figure = &practice.figure;
        Some(Rule {
            name: figure.what.clone(),
            years: figure.range?,
            grounds: Grounds::new(figure.standing, figure.source.clone()),
        })
    }
}

/// A date on a box: `2006`, `2006-05`, `2006-05-31`; a month or a year counts to its end.
fn date(text: &str) -> Result<NaiveDate, Unreadable> {
    let none = || Unreadable::new(text, "a date on a box: write 2006, 2006-05 or 2006-05-31");
    let parts: Vec<u32> = text
        .split('-')
        .map(|part| part.trim().parse().map_err(|_| none()))
        .collect::<Result<_, _>>()?;
    let first = |year: u32, month: u32, day: u32| {
        let year = i32::try_from(year)
            .ok()
            .filter(|year| (1850..2200).contains(year))?;
        NaiveDate::from_ymd_opt(year, month, day)
    };
    let found = match parts[..] {
        [year] => first(year, 12, 31),
        [year, month] => first(year, month, 1)
            .and_then(|date| date.checked_add_months(Months::new(1)))
            .and_then(|date| date.pred_opt()),
        [year, month, day] => first(year, month, day),
        _ => None,
    };
    found.ok_or_else(none)
}
