//! Figures of the shutter: tested marks, drift, and what small stops add.
//!
//! For: the exposure chain, which asks [`of_lens`] what a lens's own shutter gives at a mark, and the
//! figures of tests. Promises: of several sessions the latest counts, and the older ones stay in sight
//! as drift.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use super::{
    Answer, Ask, Book, Chapter, Chart, Given, LensRecord, Line, Mark, Problem, Recipe, Series,
    ShutterTest, Table,
};
use crate::craft::shutter::{
    self, SMALL_STOPS, TESTED, Tested, between_marks, drift, efficiency, in_fractions,
};
use crate::craft::{Amount, Aperture, Concern, Figure, Grounds, Seconds, Step, Stops, Unreadable};

/// How far two times may differ and be the same mark, as a part of it.
const SAME_MARK: f64 = 0.001;

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "shutter",
        title: "what a shutter really gives",
        chapter: Chapter::Exposure,
        about: "The error of a mark from times measured with a tester, in stops from the time the mark \
                stands for, 1/256 s for 1/250: plus is more light than the mark says. Time each mark several times; the spread tells how far a single \
                exposure may be off. With a lens of the logbook all its tested marks are shown, with \
                how they moved from session to session.",
        asks: &[
            Ask::typed(
                "lens",
                "lens",
                "a lens of the logbook whose tests are shown, L-02",
            )
            .from(Book::Lenses),
            Ask::typed("mark", "mark", "time on the shutter's ring, 1/250"),
            Ask::typed(
                "timings",
                "timings",
                "times a tester measured at that mark, with blanks between, 1/160 1/165 6.3ms",
            ),
        ],
        example: &[("mark", "1/250"), ("timings", "1/160 1/165 1/155")],
        answer: tests,
    },
    Recipe {
        word: "efficiency",
        title: "what a leaf shutter adds at small stops",
        chapter: Chapter::Exposure,
        about: "The blades of a leaf shutter uncover a small stop sooner and cover it later than the \
                full opening, so at fast marks and f/16 or smaller the film gets more than the mark \
                says. A rule gives it for three marks; between them a curve helps out. Nothing of this \
                holds for focal-plane shutters.",
        asks: &[
            Ask::typed("aperture", "aperture", "aperture that is set, f/22"),
            Ask::typed("time", "time", "mark that is set, 1/250"),
            Ask::typed(
                "blades",
                "blades",
                "time the blades take to open and close, for the curve, 2ms",
            ),
        ],
        example: &[("aperture", "f/22"), ("time", "1/250")],
        answer: small_stops,
    },
];

/// What the shutter of a lens gives at a mark, as a step in stops, by the latest session in which that
/// mark was timed; nothing if it never was.
///
/// Plus is more exposure than the mark says, so whoever reckons a setting takes it off.
#[must_use]
pub fn of_lens(lens: &LensRecord, mark: Seconds) -> Option<Step> {
    let (on, figure) = sessions(lens, mark).pop()?;
    let tested = figure.value;
    let spread = tested.spread.map_or_else(String::new, |spread| {
        format!(", spread {}", unsigned(spread))
    });
    let shots = match tested.count {
        1 => "1 shot".to_owned(),
        count => format!("{count} shots"),
    };
    Some(
        Step::new(format!("shutter at {mark}"), Amount::Stops(tested.error))
            .working(format!(
                "gives {} (mean of {shots}{spread})",
                in_fractions(tested.mean)
            ))
            .on(Grounds::own(format!("tested on {on}, {shots}"))),
    )
}

/// Stops without their sign, for a spread.
fn unsigned(stops: Stops) -> Amount {
    Amount::number(stops.value(), "stop", 2)
}

/// What one mark gave on one day.
type Session = (NaiveDate, Figure<Tested>);

/// The sessions of one mark in the order of their days; tests of one day are one session.
fn sessions(lens: &LensRecord, mark: Seconds) -> Vec<Session> {
    let mut days: BTreeMap<NaiveDate, Vec<Seconds>> = BTreeMap::new();
    for test in lens.tests.iter().filter(|test| same(test.mark, mark)) {
        days.entry(test.on).or_default().extend(&test.timings);
    }
    days.into_iter()
        .filter_map(|(on, timings)| Some((on, shutter::test(mark, &timings).ok()?)))
        .collect()
}

fn same(one: Seconds, other: Seconds) -> bool {
    (one.value() / other.value() - 1.0).abs() < SAME_MARK
}

/// The marks that were tested, slowest first.
fn marks(tests: &[ShutterTest]) -> Vec<Seconds> {
    let mut marks: Vec<Seconds> = Vec::new();
    for test in tests {
        if !marks.iter().any(|mark| same(*mark, test.mark)) {
            marks.push(test.mark);
        }
    }
    marks.sort_by(|one, other| other.value().total_cmp(&one.value()));
    marks
}

fn tests(given: &Given<'_>) -> Result<Answer, Problem> {
    let mark = given.may("mark", Seconds::parse)?;
    let timings = given.may("timings", timings)?;
    let Some(lens) = given.lens()? else {
        let mark = mark.ok_or_else(|| given.missing("mark"))?;
        let timings = timings.ok_or_else(|| given.missing("timings"))?;
        let figure = shutter::test(mark, &timings)?;
        return Ok(Answer::of(figure, |tested| {
            let mut lines = vec![
                Line::new("error", Amount::Stops(tested.error)),
                Line::new("really gives", Amount::words(in_fractions(tested.mean))),
            ];
            if let Some(spread) = tested.spread {
                lines.push(Line::new("spread", unsigned(spread)));
            }
            lines
        }));
    };
    if timings.is_some() {
        return Err(given.problem(
            "timings",
            "the tests of a lens are in the logbook already: leave the lens out to reckon new timings, \
             or log them as a test of the lens",
        ));
    }
    let marks: Vec<Seconds> = marks(&lens.tests)
        .into_iter()
        .filter(|it| mark.is_none_or(|mark| same(*it, mark)))
        .collect();
    let tested: Vec<(Seconds, Vec<Session>)> = marks
        .into_iter()
        .map(|mark| (mark, sessions(&lens, mark)))
        .filter(|(_, sessions)| !sessions.is_empty())
        .collect();
    if tested.is_empty() {
        let which = mark.map_or_else(String::new, |mark| format!(" at {mark}"));
        let says = format!(
            "{} was never tested{which}: log a test of its shutter first",
            lens.reference
        );
        return Err(given.problem("lens", says));
    }
    of_marks(&lens, &tested)
}

/// The answer for the tested marks of a lens: latest errors, every session, and how they moved.
fn of_marks(lens: &LensRecord, tested: &[(Seconds, Vec<Session>)]) -> Result<Answer, Problem> {
    let mut answer = Answer::of(Figure::new((), TESTED), |()| Vec::new());
    let mut rows = Vec::new();
    for (mark, sessions) in tested {
        answer.steps.extend(of_lens(lens, *mark));
        if let Some((on, latest)) = sessions.last() {
            let line = Line::new(mark.to_string(), Amount::Stops(latest.value.error));
            answer = answer.result(line.on(Grounds::own(format!("tested on {on}"))));
            for remark in &latest.remarks {
                answer = answer.remark(remark.concern, format!("{mark}: {}", remark.words));
            }
        }
        for (on, figure) in sessions {
            rows.push(row(*mark, *on, &figure.value));
        }
        let errors: Vec<(NaiveDate, Stops)> = sessions
            .iter()
            .map(|(on, figure)| (*on, figure.value.error))
            .collect();
        if let Some(moved) = drift(&errors)? {
            for remark in moved.remarks {
                answer = answer.remark(remark.concern, format!("{mark}: {}", remark.words));
            }
        }
    }
    let heads = ["mark", "on", "gives", "error", "spread", "shots"];
    answer = answer.table(Table {
        heads: heads.map(Into::into).into(),
        rows,
    });
    Ok(match chart(tested) {
        Some(chart) => answer.chart(chart),
        None => answer,
    })
}

fn row(mark: Seconds, on: NaiveDate, tested: &Tested) -> Vec<Amount> {
    vec![
        Amount::Time(mark),
        Amount::words(on.to_string()),
        Amount::words(in_fractions(tested.mean)),
        Amount::Stops(tested.error),
        tested.spread.map_or(Amount::words("-"), unsigned),
        Amount::number(tested.count as f64, "", 0),
    ]
}

/// The error of each mark from session to session; nothing if all is of one day.
fn chart(tested: &[(Seconds, Vec<Session>)]) -> Option<Chart> {
    let days = || {
        tested
            .iter()
            .flat_map(|(_, sessions)| sessions.iter().map(|(on, _)| *on))
    };
    let (first, last) = (days().min()?, days().max()?);
    if first == last {
        return None;
    }
    // Some thousands of days at most, which a float holds exactly.
    let since = |on: NaiveDate| (on - first).num_days() as f64;
    let series = tested
        .iter()
        .map(|(mark, sessions)| Series {
            name: mark.to_string().into(),
            points: sessions
                .iter()
                .map(|(on, figure)| (since(*on), figure.value.error.value()))
                .collect(),
        })
        .collect();
    let named: std::collections::BTreeSet<NaiveDate> = days().collect();
    Some(Chart {
        x: format!("days since {first}").into(),
        y: "error, stops".into(),
        series,
        marks: named
            .into_iter()
            .map(|on| Mark {
                x: since(on),
                name: on.to_string().into(),
            })
            .collect(),
    })
}

/// Times with blanks, semicolons or commas between them: `1/160 1/165`, `6.3 ms, 6.1 ms`.
fn timings(text: &str) -> Result<Vec<Seconds>, Unreadable> {
    let mut parts: Vec<String> = Vec::new();
    for piece in text.split(|c: char| c.is_whitespace() || c == ';') {
        // A comma at the end of a piece stands between two times, one inside it is a decimal mark.
        let piece = piece.trim_end_matches(',');
        let unit = matches!(
            piece,
            "s" | "sec" | "secs" | "second" | "seconds" | "ms" | "msec" | "min" | "m" | "h"
        );
        match parts.last_mut().filter(|_| unit) {
            Some(number) => number.push_str(piece),
            None if piece.is_empty() => {}
            None => parts.push(piece.to_owned()),
        }
    }
    if parts.is_empty() {
        parts.push(text.to_owned());
    }
    parts.iter().map(|part| Seconds::parse(part)).collect()
}

fn small_stops(given: &Given<'_>) -> Result<Answer, Problem> {
    let aperture = given.must("aperture", Aperture::parse)?;
    let time = given.must("time", Seconds::parse)?;
    let blades = given.may("blades", Seconds::parse)?;
    let curve = between_marks(aperture, time, blades)?;
    let Some((stops, grounds)) = efficiency(aperture, time).filter(|_| blades.is_none()) else {
        return Ok(Answer::of(curve, |stops| {
            vec![Line::new("more than marked", Amount::Stops(stops))]
        }));
    };
    let figure = Figure::new(stops, SMALL_STOPS)
        .within("leaf shutters at f/16 and smaller; not focal-plane shutters")
        .step(
            Step::new("small stop", Amount::Stops(stops))
                .working(format!("{time} at f/16 or smaller, by the rule"))
                .on(grounds),
        )
        .remark(
            Concern::Note,
            "close down by as much, or time your own shutter at a small stop, which is better",
        );
    Ok(Answer::of(figure, |stops| {
        vec![Line::new("more than marked", Amount::Stops(stops))]
    }))
}

#[cfg(test)]
mod tests_of_lenses {
    use super::*;
    use crate::figures::{CameraRecord, Desk, Findings, Kit};
    use crate::reference::Reference;

    struct OneLens;

    fn test(mark: &str, on: &str, times: &[&str]) -> ShutterTest {
        ShutterTest {
            mark: Seconds::parse(mark).unwrap(),
            timings: times.iter().map(|it| Seconds::parse(it).unwrap()).collect(),
            aperture: None,
            on: on.parse().unwrap(),
        }
    }

    impl Kit for OneLens {
        fn lens(&self, reference: &str) -> Option<LensRecord> {
            (reference == "L-02").then(|| LensRecord {
                reference: "L-02".to_owned(),
                tests: vec![
                    test("1/250", "2025-03-01", &["1/200", "1/210"]),
                    test("1/60", "2025-03-01", &["1/60", "1/61", "1/60"]),
                    test("1/250", "2026-03-01", &["1/160", "1/160", "1/160"]),
                ],
                ..LensRecord::default()
            })
        }
        fn camera(&self, _: &str) -> Option<CameraRecord> {
            None
        }
        fn findings(&self) -> Findings {
            Findings::default()
        }
    }

    fn asked(typed: &[(&str, &str)]) -> Result<Answer, Problem> {
        let reference = Reference::on_demand();
        let now = "2026-03-04T16:02:00+01:00".parse().unwrap();
        let desk = Desk::new(&reference, &OneLens, now);
        let typed = typed
            .iter()
            .map(|(key, text)| ((*key).to_owned(), (*text).to_owned()))
            .collect();
        let recipe = &RECIPES[0];
        (recipe.answer)(&Given::new(recipe.asks, &typed, &desk))
    }

    #[test]
    fn the_latest_session_of_a_mark_counts_and_names_its_day_and_shots() {
        let lens = OneLens.lens("L-02").unwrap();
        let step = of_lens(&lens, Seconds::parse("1/250").unwrap()).unwrap();
        assert_eq!(step.name, "shutter at 1/250 s");
        assert_eq!(step.amount.to_string(), "+0.68 stop");
        assert_eq!(
            step.working,
            "gives 1/160 s (mean of 3 shots, spread 0 stop)"
        );
        assert_eq!(
            step.grounds,
            Some(Grounds::own("tested on 2026-03-01, 3 shots"))
        );
        assert_eq!(of_lens(&lens, Seconds::parse("1/125").unwrap()), None);
    }

    #[test]
    fn a_lens_shows_all_its_marks_and_how_they_moved() {
        let answer = asked(&[("lens", "L-02")]).unwrap();
        let shown: Vec<String> = answer
            .results
            .iter()
            .map(|line| format!("{} {}", line.name, line.amount))
            .collect();
        assert_eq!(shown, ["1/60 s +0.09 stop", "1/250 s +0.68 stop"]);
        assert_eq!(answer.table.as_ref().map(|table| table.rows.len()), Some(3));
        let chart = answer.chart.unwrap();
        assert_eq!(chart.series.len(), 2);
        assert_eq!(chart.marks.len(), 2);
        assert_eq!(chart.series[1].points[1].0, 365.0);
        assert!(
            answer
                .remarks
                .iter()
                .any(|it| it.words.contains("slower than on 2025-03-01")),
            "{:?}",
            answer.remarks
        );
    }

    #[test]
    fn a_lens_without_tests_and_a_lens_that_is_not_there_say_so() {
        let why = asked(&[("lens", "L-02"), ("mark", "1/125")])
            .unwrap_err()
            .to_string();
        assert!(why.contains("never tested at 1/125 s"), "{why}");
        let why = asked(&[("lens", "L-09")]).unwrap_err().to_string();
        assert!(why.contains("no lens \"L-09\""), "{why}");
    }

    #[test]
    fn timings_are_read_as_testers_show_them() {
        let read = |text| -> Vec<String> {
            let times: Vec<Seconds> = timings(text).unwrap();
            times.iter().map(ToString::to_string).collect()
        };
        assert_eq!(read("1/160 1/165"), ["1/160 s", "1/165 s"]);
        assert_eq!(read("5 ms, 8ms"), ["1/200 s", "1/125 s"]);
        assert_eq!(read("0,5; 1.1 s"), ["1/2 s", "1.1 s"]);
        assert!(timings("1/160 odd").is_err());
    }
}
