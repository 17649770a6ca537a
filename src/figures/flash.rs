//! Figures of flash: aperture and distance, pops, ratio, and where guide numbers come from.

use super::{Answer, Ask, Chapter, Given, Line, Problem, Recipe};
use crate::craft::flash::guide::{by_candle_seconds, by_film, by_meter};
use crate::craft::flash::pops::{
    alone, needed, needed_beside, of_lamps, ratio_of, stops_of_ratio, with_ambient,
};
use crate::craft::flash::{Basis, Flash, Guide, GuideUnit, flash as lit, reach};
use crate::craft::{
    Amount, Aperture, Concern, ExposureValue, Figure, FilmSpeed, Grounds, Millimetres, Step, Stops,
    Unreadable, number,
};

/// What bellows and filters take from a flash is opened up like daylight.
const OPENED: Grounds = Grounds::usual();

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "flash",
        title: "aperture or distance for a flash",
        chapter: Chapter::Flash,
        about: "The aperture a flash asks for, from its guide number, distance, power and number of \
                pops, or from what a flash meter read for one pop. With an aperture given, the \
                distance at which it is right. Other light at the same time adds to the flash; bellows \
                and filters take from it as they do from daylight, reciprocity does not.",
        asks: &[
            Ask::typed(
                "flash",
                "flash",
                "the flash, as metered (meter f/22, 2 pops) or by guide number, distance, power and pops, \
                 GN 32 m, 4 m, 1/4 power, 2 pops",
            ),
            Ask::typed("speed", "film speed", "speed the film is exposed at, 400"),
            Ask::typed(
                "aperture",
                "aperture",
                "aperture to find the distance for, f/16",
            ),
            Ask::typed(
                "ambient",
                "other light",
                "aperture the other light asks for at the time the shutter is open, f/8",
            ),
            Ask::typed(
                "taken",
                "bellows, filters",
                "stops that bellows and filters take together, +1 1/3",
            ),
        ],
        example: &[
            ("flash", "GN 32 m, 4 m, 1/4 power, 2 pops"),
            ("speed", "400"),
        ],
        answer: flash,
    },
    Recipe {
        word: "pops",
        title: "how often to fire a flash",
        chapter: Chapter::Flash,
        about: "How many equal pops it takes to reach an aperture from what one pop gives, or how many \
                stops a number of pops adds: two are one stop, four are two. Other light at the same \
                time saves pops.",
        asks: &[
            Ask::typed(
                "metered",
                "one pop gives",
                "aperture metered for one pop, f/22",
            ),
            Ask::typed("wanted", "wanted", "aperture to be set, f/45"),
            Ask::typed("stops", "stops", "stops more than one pop gives, +2"),
            Ask::typed("pops", "pops", "number of pops, to learn what they add, 4"),
            Ask::typed(
                "ambient",
                "other light",
                "aperture the other light asks for at the time the shutter is open, f/16",
            ),
        ],
        example: &[("metered", "f/22"), ("wanted", "f/45")],
        answer: pops,
    },
    Recipe {
        word: "ratio",
        title: "ratio of two lights",
        chapter: Chapter::Flash,
        about: "How much stronger one light is than the other: from the two apertures metered for each \
                alone, from the stops between them, from the distances of two equal lamps, or the stops \
                for a ratio you want. One stop is 2 to 1, two stops 4 to 1.",
        asks: &[
            Ask::typed(
                "key",
                "stronger light",
                "aperture metered for the stronger light, f/16",
            ),
            Ask::typed(
                "fill",
                "weaker light",
                "aperture metered for the weaker light, f/8",
            ),
            Ask::typed("stops", "stops apart", "stops between the two lights, 1.6"),
            Ask::typed("ratio", "ratio", "the ratio wanted, 4:1"),
            Ask::typed(
                "near",
                "nearer lamp",
                "distance of the nearer of two equal lamps, 1 m",
            ),
            Ask::typed(
                "far",
                "farther lamp",
                "distance of the farther of two equal lamps, 2 m",
            ),
        ],
        example: &[("key", "f/16"), ("fill", "f/8")],
        answer: ratio,
    },
    Recipe {
        word: "flash-calibrate",
        title: "your own guide number",
        chapter: Chapter::Flash,
        about: "Makers tend to overrate guide numbers, so find your own: expose a row of sheets at \
                apertures a half stop apart from a measured distance, and give the aperture of the best; \
                or give the exposure value a flash meter shows at a distance.",
        asks: &[
            Ask::typed(
                "aperture",
                "best aperture",
                "aperture of the best exposure, f/8",
            ),
            Ask::typed(
                "value",
                "flash meter",
                "exposure value the flash meter shows, EV 10",
            ),
            Ask::typed(
                "distance",
                "distance",
                "from the flash to the subject or meter, 10 ft",
            ),
            Ask::typed(
                "speed",
                "film speed",
                "speed of film or meter, 100 if not given, 100",
            ),
        ],
        example: &[("aperture", "f/8"), ("distance", "10 ft")],
        answer: calibrate,
    },
    Recipe {
        word: "candle-seconds",
        title: "guide number from beam candle-power seconds",
        chapter: Chapter::Flash,
        about: "Old flash units are rated in beam candle-power seconds. Their guide number stands in a \
                table printed for film of ISO 100 and grows with the square root of the speed.",
        asks: &[
            Ask::typed(
                "candle_seconds",
                "candle-power seconds",
                "beam candle-power seconds of the unit, 2000",
            ),
            Ask::typed(
                "speed",
                "film speed",
                "speed of the film, 100 if not given, 400",
            ),
        ],
        example: &[("candle_seconds", "2000"), ("speed", "400")],
        answer: candle_seconds,
    },
];

fn flash(given: &Given<'_>) -> Result<Answer, Problem> {
    let text = given.text("flash").ok_or_else(|| given.missing("flash"))?;
    let flash = Flash::parse(text).map_err(|why| given.problem("flash", why.to_string()))?;
    let speed = match (given.may("speed", FilmSpeed::parse)?, flash.basis) {
        (Some(speed), _) => speed,
        (None, Basis::Guide { guide, .. }) => guide.speed,
        (None, Basis::Metered(_)) => hundred()?,
    };
    let ambient = given.may("ambient", Aperture::parse)?;
    let taken = given.may("taken", Stops::parse)?;
    let wanted = given.may("aperture", Aperture::parse)?;
    if let Some(taken) = taken.filter(|taken| taken.value() < 0.0) {
        let says = format!("bellows and filters take light, and {taken} would give it: write +1");
        return Err(given.problem("taken", says));
    }
    if let Some(aperture) = wanted {
        if ambient.is_some() {
            return Err(given.problem(
                "ambient",
                "a distance is found for the flash alone: leave the other light out",
            ));
        }
        let brought = taken.map_or(0.0, Stops::value);
        let closed = Aperture::nearest(aperture.stops() + brought);
        let set = match taken {
            Some(_) => closed.map_err(|why| given.problem("taken", why.to_string()))?,
            None => aperture,
        };
        let mut answer = Answer::of(reach(&flash, speed, set)?, in_both);
        if let Some(taken) = taken {
            answer.steps.insert(0, opened(taken, set));
        }
        return Ok(answer);
    }
    let mut figure = lit(&flash, speed)?.map(|lit| lit.aperture);
    let mut share = None;
    if let Some(ambient) = ambient {
        let both = with_ambient(ambient, figure.value, 1)?;
        share = Some(both.value.share);
        let value = both.value.aperture;
        figure.steps.extend(both.steps);
        figure.remarks.extend(both.remarks);
        figure = figure.map(|_| value);
    }
    if let Some(taken) = taken {
        let set = Aperture::nearest(figure.value.stops() - taken.value())
            .map_err(|why| given.problem("taken", why.to_string()))?;
        figure = figure.map(|_| set).step(opened(taken, set));
    }
    let mut answer = Answer::of(figure, |set| {
        vec![Line::new("aperture", Amount::Aperture(set))]
    });
    if let Some(share) = share {
        let share = Amount::number(share * 100.0, "%", 0);
        answer = answer.result(Line::new("flash's share", share));
    }
    Ok(answer)
}

/// The step that makes up for bellows and filters.
fn opened(taken: Stops, set: Aperture) -> Step {
    Step::new("bellows and filters", Amount::Stops(taken))
        .working("taken from flash as from daylight")
        .brings(Amount::Aperture(set))
        .on(OPENED)
}

/// A distance in metres and in feet.
fn in_both(distance: Millimetres) -> Vec<Line> {
    let metres = distance.value() / 1000.0;
    vec![
        Line::new("distance", Amount::number(metres, "m", 2)),
        Line::new("in feet", Amount::number(distance.value() / 304.8, "ft", 1)),
    ]
}

fn hundred() -> Result<FilmSpeed, Problem> {
    FilmSpeed::new(100).map_err(|why| Problem::of_all(why.to_string()))
}

fn pops(given: &Given<'_>) -> Result<Answer, Problem> {
    let metered = given.may("metered", Aperture::parse)?;
    let wanted = given.may("wanted", Aperture::parse)?;
    let stops = given.may("stops", Stops::parse)?;
    let count = given.may("pops", number)?;
    let ambient = given.may("ambient", Aperture::parse)?;
    let figure = match (metered, wanted, stops, count) {
        (None, None, None, Some(count)) => return added(given, count),
        (None, None, Some(stops), None) => needed(stops)?,
        (Some(metered), Some(wanted), None, None) => match ambient {
            Some(ambient) => needed_beside(ambient, metered, wanted)?,
            None => {
                let stops = Stops::new(wanted.stops() - metered.stops())
                    .map_err(|why| Problem::of_all(why.to_string()))?;
                let working = format!("from {metered} to {wanted}");
                let mut figure = needed(stops)?;
                let step = Step::new("stops", Amount::Stops(stops)).working(working);
                figure.steps.insert(0, step);
                figure
            }
        },
        (None, None, None, None) | (None, Some(_), None, None) => {
            return Err(given.missing("metered"));
        }
        (Some(_), None, None, None) => return Err(given.missing("wanted")),
        _ => {
            return Err(Problem::of_all(
                "give the two apertures, or the stops, or the number of pops: each asks something else",
            ));
        }
    };
    Ok(Answer::of(figure, |pops| {
        vec![Line::new("pops", Amount::number(f64::from(pops), "", 0))]
    }))
}

/// What a number of pops adds.
fn added(given: &Given<'_>, count: f64) -> Result<Answer, Problem> {
    let whole = count.fract() == 0.0 && (1.0..=1000.0).contains(&count);
    if !whole {
        return Err(given.problem(
            "pops",
            "a flash is fired a whole number of times, from 1 to 1000",
        ));
    }
    // Whole and from 1 to 1000, so the cast loses nothing.
    let stops = alone(count as u32)?;
    let step = Step::new("stops", Amount::Stops(stops)).working(format!("log2({count})"));
    let figure = Figure::new(stops, crate::craft::flash::POPS).step(step);
    Ok(Answer::of(figure, |stops| {
        vec![Line::new("more than one pop", Amount::Stops(stops))]
    }))
}

fn ratio(given: &Given<'_>) -> Result<Answer, Problem> {
    let key = given.may("key", Aperture::parse)?;
    let fill = given.may("fill", Aperture::parse)?;
    let stops = given.may("stops", Stops::parse)?;
    let ratio = given.may("ratio", to_one)?;
    let near = given.may("near", Millimetres::parse)?;
    let far = given.may("far", Millimetres::parse)?;
    let given_ways = [
        key.or(fill).is_some(),
        stops.is_some(),
        ratio.is_some(),
        near.or(far).is_some(),
    ];
    if given_ways.iter().filter(|way| **way).count() > 1 {
        return Err(Problem::of_all(
            "apertures, stops, ratio and distances each tell the same thing: give one of them",
        ));
    }
    let figure = match (key, fill, stops, ratio, near, far) {
        (Some(key), Some(fill), ..) => ratio_of(key, fill)?,
        (_, _, Some(stops), ..) => crate::craft::flash::pops::ratio_of_stops(stops),
        (_, _, _, Some(ratio), ..) => stops_of_ratio(ratio)?.map(|_| ratio),
        (_, _, _, _, Some(near), Some(far)) => of_lamps(near, far)?,
        (Some(_), None, ..) => return Err(given.missing("fill")),
        (.., Some(_), None) => return Err(given.missing("far")),
        (.., None, Some(_)) => return Err(given.missing("near")),
        _ => return Err(given.missing("key")),
    };
    let apart = Stops::from_factor(figure.value).map_err(|why| Problem::of_all(why.to_string()))?;
    Ok(Answer::of(figure, |ratio| {
        vec![
            Line::new(
                "ratio",
                Amount::words(format!("{}:1", Amount::number(ratio, "", 1))),
            ),
            Line::new("apart", Amount::Stops(apart)),
        ]
    }))
}

/// `4:1`, `4 to 1` or `4`.
fn to_one(text: &str) -> Result<f64, Unreadable> {
    let text = text.trim();
    let stronger = text
        .strip_suffix('1')
        .map(str::trim_end)
        .and_then(|rest| rest.strip_suffix(':').or_else(|| rest.strip_suffix(" to")));
    number(stronger.unwrap_or(text))
}

fn calibrate(given: &Given<'_>) -> Result<Answer, Problem> {
    let aperture = given.may("aperture", Aperture::parse)?;
    let value = given.may("value", ExposureValue::parse)?;
    let distance = given.must("distance", Millimetres::parse)?;
    let speed = match given.may("speed", FilmSpeed::parse)? {
        Some(speed) => speed,
        None => hundred()?,
    };
    let feet = given
        .text("distance")
        .is_some_and(|text| text.contains(['f', '\'']));
    let unit = if feet {
        GuideUnit::Feet
    } else {
        GuideUnit::Metres
    };
    let figure = match (aperture, value) {
        (Some(aperture), None) => by_film(aperture, distance, unit, speed)?,
        (None, Some(value)) => by_meter(value, distance, speed)?,
        (Some(_), Some(_)) => {
            return Err(Problem::of_all(
                "the best aperture and the flash meter each give a guide number: give one of them",
            ));
        }
        (None, None) => return Err(given.missing("aperture")),
    };
    Ok(guide_lines(figure, |guide| {
        [GuideUnit::Metres, GuideUnit::Feet].map(|unit| (unit, guide.in_unit(unit)))
    })
    .remark(
        Concern::Note,
        format!("for film of ISO {speed}, full power, and a room like this one"),
    ))
}

fn candle_seconds(given: &Given<'_>) -> Result<Answer, Problem> {
    let rated = given.must("candle_seconds", number)?;
    let speed = match given.may("speed", FilmSpeed::parse)? {
        Some(speed) => speed,
        None => hundred()?,
    };
    let metres = by_candle_seconds(rated, speed, GuideUnit::Metres)?;
    let feet = by_candle_seconds(rated, speed, GuideUnit::Feet)?
        .value
        .number;
    Ok(guide_lines(metres, |guide| {
        [(GuideUnit::Metres, guide.number), (GuideUnit::Feet, feet)]
    }))
}

/// A guide number in metres and in feet, the unit it was found in first.
fn guide_lines(
    figure: Figure<Guide>,
    numbers: impl FnOnce(Guide) -> [(GuideUnit, f64); 2],
) -> Answer {
    let found_in = figure.value.unit;
    Answer::of(figure, |guide| {
        let mut numbers = numbers(guide);
        if found_in == GuideUnit::Feet {
            numbers.reverse();
        }
        let named = numbers.into_iter().zip(["guide number", "the same"]);
        named
            .map(|((unit, number), name)| Line::new(name, Amount::number(number, unit.symbol(), 1)))
            .collect()
    })
}
