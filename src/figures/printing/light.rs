//! Lamps, the sun and the air: how a time changes with them.

use super::super::{Answer, Ask, Book, Chapter, Given, Line, Problem, Recipe};
use super::{need, warned};
use crate::craft::printing::air::{by_humidity, by_index, dark_reaction};
use crate::craft::printing::lamp::{distance, of_units, other_lamp, output, to_units};
use crate::craft::printing::ultraviolet::{daily_limit, time_to_limit};
use crate::craft::{Amount, Concern, Grounds, Millimetres, Seconds, Standing, Stops};

/// What can hurt about every printing lamp.
const LAMP: &[&str] = &["ultraviolet"];

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "lamp",
        title: "a printing time under another lamp or distance",
        chapter: Chapter::Printing,
        about: "A time moved to another distance, to a lamp that has aged, or to another lamp of which you \
                know two times that print one step alike. The square of the distance holds for a point of \
                light; say how wide the light is, and where it is too broad for that the figure is \
                declined with its two ends.",
        asks: &[
            Ask::typed("time", "time", "the time that was right, 8 min"),
            Ask::typed("from", "distance", "distance of the lamp then, 60 cm"),
            Ask::typed("to", "to", "distance now, 90 cm"),
            Ask::typed(
                "wide",
                "width of light",
                "the longest side of lamp and reflector, 10 cm",
            ),
            Ask::typed(
                "output",
                "output",
                "what the lamp gives now in percent of then, 80",
            ),
            Ask::typed(
                "here",
                "lamp then",
                "time that printed a step with the lamp then, 4 min",
            ),
            Ask::typed(
                "there",
                "lamp now",
                "time that prints it alike with the lamp now, 6 min",
            ),
        ],
        example: &[
            ("time", "8 min"),
            ("from", "60 cm"),
            ("to", "90 cm"),
            ("wide", "10 cm"),
        ],
        answer: lamp,
    },
    Recipe {
        word: "integrator",
        title: "units of an integrator and time",
        chapter: Chapter::Printing,
        about: "An integrator counts light times time, so that a lamp that flickers, warms up or ages gives \
                the same exposure. From one run that was timed, how long so many units last, or how many \
                units a time is. Units have no size of their own: they belong to one lamp at one place.",
        asks: &[
            Ask::typed("counted", "counted", "units in a run that was timed, 120"),
            Ask::typed("in_time", "in", "how long that run took, 6 min"),
            Ask::typed("units", "units", "units wanted, 200"),
            Ask::typed("time", "or time", "or a time, to find its units, 10 min"),
        ],
        example: &[("counted", "120"), ("in_time", "6 min"), ("units", "200")],
        answer: integrator,
    },
    Recipe {
        word: "sun-time",
        title: "a first guess at a time in the sun",
        chapter: Chapter::Printing,
        about: "A time that was right in the sun, moved to another ultraviolet index. It is a first guess \
                and no more: the index counts the short waves that burn skin, and coatings print by longer \
                ones, which change less over day and year. Print a strip, or a process that shows itself.",
        asks: &[
            Ask::typed("time", "time", "the time that was right, 10 min"),
            Ask::typed("from", "index then", "ultraviolet index of that hour, 6"),
            Ask::typed("to", "index now", "ultraviolet index now, 8"),
        ],
        example: &[("time", "10 min"), ("from", "6"), ("to", "8")],
        answer: sun_time,
    },
    Recipe {
        word: "humidity",
        title: "what damp air and warmth do to a coating",
        chapter: Chapter::Printing,
        about: "Gum, carbon and other dichromated colloids print faster in damp air, and go off in the dark \
                the faster the warmer they are kept. For iron and silver coatings humidity changes speed, \
                contrast and colour too, and no number is told for them: keep the paper at one humidity \
                and print a tablet at each.",
        asks: &[
            Ask::typed(
                "coating",
                "coating",
                "dichromate for gum and carbon, iron or silver, dichromate",
            )
            .from(Book::Choice(&["dichromate", "iron", "silver"])),
            Ask::typed("time", "time", "the time that was right, 4 min"),
            Ask::typed("from", "humidity then", "relative humidity in percent, 40"),
            Ask::typed("to", "humidity now", "relative humidity now, 55"),
            Ask::typed(
                "kept_from",
                "kept at",
                "a temperature coatings were kept at in C, 20",
            ),
            Ask::typed("kept_to", "or at", "another temperature, 30"),
        ],
        example: &[("time", "4 min"), ("from", "40"), ("to", "55")],
        answer: humidity,
    },
    Recipe {
        word: "lamp-limit",
        title: "how long bare eyes may stay by a lamp",
        chapter: Chapter::Printing,
        about: "The time in which the ultraviolet A of a lamp comes to the daily limit for an unprotected \
                eye, from what a meter reads where the eye is. Limits are no licence: close the box, wear \
                glasses made for ultraviolet light, and switch off before you open.",
        asks: &[Ask::typed(
            "irradiance",
            "irradiance",
            "ultraviolet A where the eye is, in W/m2, 10",
        )],
        example: &[("irradiance", "10")],
        answer: lamp_limit,
    },
];

fn lamp(given: &Given<'_>) -> Result<Answer, Problem> {
    let time = given.must("time", Seconds::parse)?;
    let pair = |from: &'static str, to: &'static str| match (given.text(from), given.text(to)) {
        (None, None) => Ok(false),
        (Some(_), Some(_)) => Ok(true),
        (None, Some(_)) => Err(given.missing(from)),
        (Some(_), None) => Err(given.missing(to)),
    };
    let mut answer: Option<Answer> = None;
    let mut now = time;
    let mut add = |figure: crate::craft::Figure<Seconds>| {
        now = figure.value;
        let more = Answer::of(figure, |_| Vec::new());
        match &mut answer {
            None => answer = Some(more),
            Some(answer) => {
                answer.steps.extend(more.steps);
                answer.remarks.extend(more.remarks);
            }
        }
        now
    };
    let mut at = time;
    if pair("from", "to")? {
        let from = given.must("from", Millimetres::parse)?;
        let to = given.must("to", Millimetres::parse)?;
        let wide = given.may("wide", Millimetres::parse)?;
        at = add(distance(at, from, to, wide)?);
    }
    if pair("here", "there")? {
        let here = given.must("here", Seconds::parse)?;
        let there = given.must("there", Seconds::parse)?;
        at = add(other_lamp(at, here, there)?);
    }
    if let Some(percent) = given.number("output")? {
        at = add(output(at, percent)?);
    }
    let Some(answer) = answer else {
        return Err(Problem::of_all(
            "give what changed: two distances, the output of the lamp in percent, or two times that print \
             alike",
        ));
    };
    let stops = Stops::from_factor(at.value() / time.value())?;
    let answer = answer
        .result(Line::new("time", Amount::Time(at)))
        .result(Line::new("more exposure", Amount::Stops(stops)));
    Ok(warned(given, answer, LAMP))
}

fn integrator(given: &Given<'_>) -> Result<Answer, Problem> {
    let counted = need(given, "counted")?;
    let in_time = given.must("in_time", Seconds::parse)?;
    let answer = match (given.number("units")?, given.may("time", Seconds::parse)?) {
        (Some(units), None) => Answer::of(of_units(units, counted, in_time)?, |time| {
            vec![Line::new("lasts about", Amount::Time(time))]
        }),
        (None, Some(time)) => Answer::of(to_units(time, counted, in_time)?, |units| {
            vec![Line::new("units", Amount::measured(units, ""))]
        }),
        (None, None) => return Err(given.missing("units")),
        (Some(_), Some(_)) => {
            return Err(Problem::of_all(
                "units and a time each settle the other: give one of them",
            ));
        }
    };
    Ok(warned(given, answer, LAMP))
}

fn sun_time(given: &Given<'_>) -> Result<Answer, Problem> {
    let time = given.must("time", Seconds::parse)?;
    let (from, to) = (need(given, "from")?, need(given, "to")?);
    let answer = Answer::of(by_index(time, from, to)?, |guess| {
        vec![
            Line::new("first guess", Amount::Time(guess)).on(Grounds::new(
                Standing::Usual,
                "an estimate by the ultraviolet index",
            )),
        ]
    });
    Ok(warned(given, answer, LAMP))
}

fn humidity(given: &Given<'_>) -> Result<Answer, Problem> {
    let coating = given.choice("coating")?.unwrap_or("dichromate");
    if coating != "dichromate" {
        return Err(given.problem(
            "coating",
            format!(
                "no number is told for {coating} coatings: keep paper and coating at one humidity (a box \
                 with a salt or a humidifier), write it down with each print, and print a step tablet when \
                 it changes"
            ),
        ));
    }
    let kept = match (given.number("kept_from")?, given.number("kept_to")?) {
        (Some(from), Some(to)) => Some(dark_reaction(from, to)?),
        (None, None) => None,
        (Some(_), None) => return Err(given.missing("kept_to")),
        (None, Some(_)) => return Err(given.missing("kept_from")),
    };
    let mut answer = if given.text("time").is_none() && kept.is_some() {
        None
    } else {
        let time = given.must("time", Seconds::parse)?;
        let (from, to) = (need(given, "from")?, need(given, "to")?);
        Some(Answer::of(by_humidity(time, from, to)?, |time| {
            vec![Line::new("time", Amount::Time(time))]
        }))
    };
    if let Some(kept) = kept {
        let line = Line::new("goes off", Amount::Factor(kept.value));
        answer = Some(match answer {
            None => Answer::of(kept, |_| vec![line]),
            Some(mut answer) => {
                answer.steps.extend(kept.steps);
                answer.result(line)
            }
        });
    }
    let answer = answer.ok_or_else(|| given.missing("time"))?;
    Ok(warned(
        given,
        answer,
        &["ammonium-dichromate", "ultraviolet"],
    ))
}

fn lamp_limit(given: &Given<'_>) -> Result<Answer, Problem> {
    let irradiance = need(given, "irradiance")?;
    let answer = Answer::of(time_to_limit(irradiance)?, |time| {
        vec![
            Line::new("limit reached in", Amount::Time(time)),
            Line::new(
                "safe all day below",
                Amount::measured(daily_limit(), "W/m2"),
            ),
        ]
    })
    .remark(
        Concern::Warning,
        "ultraviolet A alone; a lamp with shorter waves reaches its limit far sooner",
    );
    Ok(warned(given, answer, LAMP))
}
