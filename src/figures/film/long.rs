//! Long and very short exposures of one film, by every law that is told of it.

use crate::craft::reciprocity::Corrected;
use crate::craft::{Amount, Concern, Figure, Impossible, Seconds};
use crate::figures::reciprocity::{NamedLaw, apart, laws_for, laws_for_any_film, nothing_known};
use crate::figures::{Answer, Chart, Given, Line, Mark, Problem, Series, Table};

/// Laws that lie no further apart than this are said to agree.
const AGREES: f64 = 1.0 / 3.0;
/// Points along each line of the chart.
const ALONG: i32 = 24;

pub(super) fn answer(given: &Given<'_>) -> Result<Answer, Problem> {
    let film = given.text("film").ok_or_else(|| given.missing("film"))?;
    let metered = given.must("time", Seconds::parse)?;
    let laws = laws_for(film, given.desk());
    let (law, figure, declined) = match given.text("model") {
        Some(model) => {
            let law = chosen(model, &laws, given)?;
            let figure = law.correct(metered);
            let figure = figure.map_err(|why| given.problem("time", why.to_string()))?;
            (law, figure, None)
        }
        None => first_to_answer(film, &laws, metered, given)?,
    };
    let mut answer = Answer::of(figure, |corrected| results(&law, &corrected));
    let by = law.name;
    if let Some(why) = declined {
        answer = answer.remark(Concern::Warning, why.to_string());
    }
    if laws.is_empty() {
        let words = format!(
            "{}; this is a rough guide to films in general",
            nothing_known(film, given.desk())
        );
        return Ok(answer.remark(Concern::Warning, words));
    }
    let told: Vec<_> = laws.iter().map(|law| (law, law.correct(metered))).collect();
    let answered = |(_, figure): &(&NamedLaw, Result<Figure<Corrected>, Impossible>)| {
        figure.as_ref().ok().map(|figure| figure.value.clone())
    };
    let all: Vec<Corrected> = told.iter().filter_map(answered).collect();
    if let Some(far) = apart(&all).filter(|far| far.value() > AGREES) {
        let words = format!(
            "what is told of this film at {metered} lies {:.2} stop apart: all of it is in the table",
            far.value()
        );
        answer = answer.remark(Concern::Warning, words);
    }
    for (other, figure) in told.iter().filter(|(other, _)| other.name != by) {
        if let Ok(figure) = figure {
            answer = answer.result(in_short(other, &figure.value));
        }
    }
    let rows = told
        .iter()
        .enumerate()
        .map(|(at, (law, figure))| row(at + 1, law, figure))
        .collect();
    let heads = [
        "",
        "law",
        "time",
        "or lens",
        "comes to",
        "development",
        "rests on",
    ];
    answer = answer.table(Table {
        heads: heads.into_iter().map(Into::into).collect(),
        rows,
    });
    Ok(match chart(&laws, metered) {
        Some(chart) => answer.chart(chart),
        None => answer,
    })
}

/// The first law that says something of this time, and why the ones before it do not.
fn first_to_answer(
    film: &str,
    laws: &[NamedLaw],
    metered: Seconds,
    given: &Given<'_>,
) -> Result<(NamedLaw, Figure<Corrected>, Option<Impossible>), Problem> {
    let mut declined = None;
    for law in laws {
        match law.correct(metered) {
            Ok(figure) => return Ok((law.clone(), figure, declined)),
            Err(why) => declined = declined.or(Some(why)),
        }
    }
    Err(match declined {
        Some(why) => given.problem("time", why.to_string()),
        None => {
            let why = nothing_known(film, given.desk());
            given.problem(
                "film",
                format!("{why}; or name a rough guide as the law to use"),
            )
        }
    })
}

/// The law that was asked for, among those of the film and the rough guides.
fn chosen(model: &str, laws: &[NamedLaw], given: &Given<'_>) -> Result<NamedLaw, Problem> {
    let all: Vec<NamedLaw> = laws
        .iter()
        .cloned()
        .chain(laws_for_any_film(given.desk()))
        .collect();
    let number = model.parse::<usize>().ok().and_then(|n| n.checked_sub(1));
    if let Some(law) = number.and_then(|at| all.get(at)) {
        return Ok(law.clone());
    }
    let wanted = model.to_lowercase();
    let is_it = |law: &&NamedLaw| law.name.to_lowercase().contains(&wanted);
    if let Some(law) = all.iter().find(is_it) {
        return Ok(law.clone());
    }
    let names: Vec<&str> = all.iter().map(|law| law.name.as_str()).collect();
    let says = format!("\"{model}\" is none of: {}", names.join("; "));
    Err(given.problem("model", says))
}

/// A time as far as a count can follow it: three significant digits, no parts of a second from a
/// minute on.
fn shown(time: Seconds) -> Seconds {
    let value = time.value();
    if value < 1.0 {
        return time;
    }
    let digit = 10_f64.powi(value.log10().floor() as i32 - 2);
    let digit = if value < 60.0 { digit } else { digit.max(1.0) };
    Seconds::new((value / digit).round() * digit).unwrap_or(time)
}

fn results(law: &NamedLaw, corrected: &Corrected) -> Vec<Line> {
    let rests = &corrected.rests;
    let mut lines = Vec::new();
    if let Some(time) = corrected.time {
        lines.push(Line::new("give", Amount::Time(shown(time))).on(rests.time.clone()));
    }
    if let Some(open) = corrected.open {
        let name = if corrected.time.is_some() {
            "or open the lens instead"
        } else {
            "open the lens"
        };
        lines.push(Line::new(name, Amount::Stops(open)).on(rests.open.clone()));
    }
    let stops = Line::new("comes to", Amount::Stops(corrected.stops));
    lines.push(if corrected.time.is_some() {
        stops.on(rests.time.clone())
    } else {
        stops.on(rests.open.clone())
    });
    if let Some(development) = &corrected.development {
        let line = Line::new("development", Amount::words(development.clone()));
        lines.push(line.on(rests.development.clone()));
    }
    lines.push(Line::new("by", Amount::words(law.name.clone())).on(law.grounds.clone()));
    lines
}

/// What another law says, in one line.
fn in_short(law: &NamedLaw, corrected: &Corrected) -> Line {
    let (amount, grounds) = match (corrected.time, corrected.open) {
        (Some(time), _) => (Amount::Time(shown(time)), &corrected.rests.time),
        (None, Some(open)) => (Amount::Stops(open), &corrected.rests.open),
        (None, None) => (Amount::Stops(corrected.stops), &law.grounds),
    };
    Line::new(format!("by {}", law.name), amount).on(grounds.clone())
}

fn row(
    number: usize,
    law: &NamedLaw,
    figure: &Result<Figure<Corrected>, Impossible>,
) -> Vec<Amount> {
    let none = || Amount::words("-");
    let number = Amount::words(number.to_string());
    let name = Amount::words(law.name.clone());
    let Ok(figure) = figure else {
        let standing = Amount::words(law.grounds.standing.word());
        let nothing = Amount::words("nothing said");
        return vec![number, name, nothing, none(), none(), none(), standing];
    };
    let corrected = &figure.value;
    let mut standing = figure.grounds.standing.word().to_owned();
    if corrected.beyond {
        standing.push_str(", beyond");
    }
    vec![
        number,
        name,
        corrected
            .time
            .map_or_else(none, |time| Amount::Time(shown(time))),
        corrected.open.map_or_else(none, Amount::Stops),
        Amount::Stops(corrected.stops),
        corrected
            .development
            .clone()
            .map_or_else(none, Amount::words),
        Amount::words(standing),
    ]
}

/// The laws that give a time, from a tenth of the metered one to twice it.
fn chart(laws: &[NamedLaw], metered: Seconds) -> Option<Chart> {
    if metered.value() < 1.0 {
        return None;
    }
    let at = |step: i32| metered.value() * (0.1 + 1.9 * f64::from(step) / f64::from(ALONG));
    let series: Vec<Series> = laws
        .iter()
        .map(|law| Series {
            name: law.name.clone().into(),
            points: (0..=ALONG)
                .filter_map(|step| {
                    let x = at(step);
                    let time = law.correct(Seconds::new(x).ok()?).ok()?.value.time?;
                    Some((x, time.value()))
                })
                .collect(),
        })
        .filter(|series| series.points.len() > 1)
        .collect();
    (!series.is_empty()).then(|| Chart {
        x: "metered, s".into(),
        y: "given, s".into(),
        series,
        marks: vec![Mark {
            x: metered.value(),
            name: metered.to_string().into(),
        }],
    })
}
