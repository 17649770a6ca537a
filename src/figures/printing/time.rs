//! Printing times: from a step tablet, and in strips.

use super::super::densities::{TABLET, typed::tablet};
use super::super::{Answer, Ask, Book, Chapter, Given, Line, Problem, Recipe, Table};
use super::with_unit;
use crate::craft::printing::scale::{Printed, moved_black, standard, through};
use crate::craft::printing::strips::{Covering, Strip, series};
use crate::craft::sensitometry::Tablet;
use crate::craft::{Amount, Concern, Density, Seconds, Stops};

/// Log exposure of one stop.
const STOP: f64 = std::f64::consts::LOG10_2;

/// Strips of a sheet if nothing is said.
const USUAL_STRIPS: f64 = 7.0;

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "printing-time",
        title: "standard printing time and exposure scale",
        chapter: Chapter::Printing,
        about: "Print a step tablet on the coated paper, under clear film of the kind the negatives are on, \
                and process and dry it. The last step that is as black as the one before gives the time; \
                the first that is as white as the paper gives the exposure scale, which is the density \
                range a negative wants. Steps are counted from 1, the clearest. Do it again when paper, \
                coating, dryness, sensitizer, developer or lamp change.",
        asks: &[
            Ask::typed("time", "time", "how long the tablet was exposed, 10 min"),
            Ask::typed(
                "black",
                "last black",
                "the last step as black as the one before, 3",
            ),
            Ask::typed(
                "white",
                "first white",
                "the first step as white as the paper, 15",
            ),
            Ask::typed(
                "tone",
                "or last tone",
                "or the last step that still shows a trace of tone, 14",
            ),
            TABLET,
            Ask::typed(
                "to",
                "black to step",
                "the step that shall be the last black one, 1",
            ),
            Ask::typed(
                "thinnest",
                "thinnest part",
                "density of a negative where it shall print black, in the light of the lamp, 0.25",
            ),
        ],
        example: &[("time", "10 min"), ("black", "3"), ("white", "13")],
        answer: printing_time,
    },
    Recipe {
        word: "strip",
        title: "a test strip in even stops",
        chapter: Chapter::Printing,
        about: "The times of a strip whose steps look alike: each longer than the last by the same part of \
                a stop. Cumulative, all strips lie open and one after another is covered, and the table \
                says how long the light is on between; separate, each is uncovered alone. Times are \
                rounded from the start, so that errors do not add up.",
        asks: &[
            Ask::typed("first", "first strip", "the shortest time, 8 s"),
            Ask::typed(
                "last",
                "or up to",
                "the longest time wanted, instead of a count, 32 s",
            ),
            Ask::typed("step", "step", "stops from one strip to the next, 1/3"),
            Ask::typed("strips", "strips", "how many, 7"),
            Ask::typed("covering", "covering", "cumulative or separate, cumulative")
                .from(Book::Choice(Covering::WORDS)),
            Ask::typed(
                "timer",
                "timer",
                "what the timer can be set to, in seconds, 0.1",
            ),
        ],
        example: &[
            ("first", "8 s"),
            ("step", "1/3"),
            ("strips", "7"),
            ("timer", "0.1"),
        ],
        answer: strip,
    },
];

/// A step of a tablet, counted from 1.
fn step(given: &Given<'_>, key: &'static str) -> Result<Option<usize>, Problem> {
    given
        .text(key)
        .map(|text| {
            let bare = text.trim_start_matches("step").trim();
            let step = bare.parse::<usize>().ok().filter(|step| *step > 0);
            step.ok_or_else(|| {
                let says =
                    "steps are counted from 1, the clearest: write a whole number, such as 3";
                given.problem(key, says)
            })
        })
        .transpose()
}

fn printing_time(given: &Given<'_>) -> Result<Answer, Problem> {
    let time = given.must("time", Seconds::parse)?;
    let black = step(given, "black")?.ok_or_else(|| given.missing("black"))?;
    let white = match (step(given, "white")?, step(given, "tone")?) {
        (Some(_), Some(_)) => {
            return Err(given.problem(
                "tone",
                "the first white step and the last with a tone each settle the other: give one of them",
            ));
        }
        (white, tone) => white.or(tone.map(|tone| tone.saturating_add(1))),
    };
    let tablet = match tablet(given)? {
        Some(tablet) => tablet,
        None => Tablet::nominal(21)?,
    };
    let printed = Printed { time, black, white };
    let figure = standard(&tablet, printed)?;
    let found = figure.value;
    let mut answer = Answer::of(figure, |found| {
        let mut lines = vec![Line::new(
            "standard printing time",
            Amount::Time(found.clear),
        )];
        if let Some(scale) = found.scale {
            lines.push(Line::new("exposure scale", Amount::number(scale, "", 2)));
            lines.push(Line::new(
                "in stops",
                Amount::number(scale / STOP, "stops", 1),
            ));
        }
        lines
    });
    if let Some(to) = step(given, "to")? {
        let figure = moved_black(&tablet, time, black, to)?;
        let name = format!("black to step {to}");
        answer = answer.result(Line::new(name, Amount::Time(figure.value)));
        answer.steps.extend(figure.steps);
    }
    if let Some(thinnest) = given.may("thinnest", Density::parse)? {
        let figure = through(&found, thinnest)?;
        answer = answer.result(Line::new("for this negative", Amount::Time(figure.value)));
        answer.steps.extend(figure.steps);
        answer = answer.remark(
            Concern::Note,
            "density as the lamp sees it: a stained negative is denser in ultraviolet light than to the eye",
        );
    }
    Ok(answer)
}

fn strip(given: &Given<'_>) -> Result<Answer, Problem> {
    let first = given.must("first", Seconds::parse)?;
    let step = given.may("step", Stops::parse)?;
    let step = match step {
        Some(step) => step,
        None => Stops::new(1.0 / 3.0)?,
    };
    let covering = given.choice("covering")?.and_then(Covering::worded);
    let covering = covering.unwrap_or(Covering::Cumulative);
    let count = count(given, first, step)?;
    let timer = given.may("timer", |text| with_unit(text, &["seconds", "sec", "s"]))?;
    let figure = series(first, step, count, covering, timer)?;
    let rows = figure
        .value
        .iter()
        .zip(1..)
        .map(|(strip, at)| row(strip, f64::from(at)));
    let table = Table {
        heads: ["strip", "stops", "in all", "light on"]
            .map(Into::into)
            .to_vec(),
        rows: rows.collect(),
    };
    let answer = Answer::of(figure, |strips| {
        let last = strips.last().map_or(first, |strip| strip.whole);
        let lit: f64 = strips.iter().map(|strip| strip.on.value()).sum();
        vec![
            Line::new("strips", Amount::number(strips.len() as f64, "", 0)),
            Line::new("longest", Amount::Time(last)),
            Line::new("light on in all", Amount::number(lit, "s", 1)),
        ]
    });
    Ok(answer.table(table))
}

/// A strip as a line of the table; minutes as a clock shows them.
fn row(strip: &Strip, at: f64) -> Vec<Amount> {
    vec![
        Amount::number(at, "", 0),
        Amount::number(strip.stops, "", 2),
        shown(strip.whole),
        shown(strip.on),
    ]
}

/// A time as a printer sets it: tenths of a second below two minutes, minutes and seconds from there.
pub(super) fn shown(time: Seconds) -> Amount {
    if time.value() < 120.0 {
        Amount::number(time.value(), "s", 1)
    } else {
        Amount::words(time.clock())
    }
}

/// How many strips: as typed, or as many as reach the longest time.
fn count(given: &Given<'_>, first: Seconds, step: Stops) -> Result<usize, Problem> {
    let strips = given.number("strips")?;
    let last = given.may("last", Seconds::parse)?;
    let wanted = match (strips, last) {
        (Some(_), Some(_)) => {
            return Err(given.problem(
                "last",
                "a count and a longest time each settle the other: give one of them",
            ));
        }
        (None, Some(last)) => {
            let stops = (last.value() / first.value()).log2();
            (stops / step.value() - 1e-6).ceil() + 1.0
        }
        (strips, None) => strips.unwrap_or(USUAL_STRIPS),
    };
    if wanted.fract() == 0.0 && (2.0..=60.0).contains(&wanted) {
        // Whole and at most sixty.
        Ok(wanted as usize)
    } else {
        let key = if last.is_some() { "last" } else { "strips" };
        Err(given.problem(key, "that makes no strip: from 2 to 60 steps, such as 7"))
    }
}
