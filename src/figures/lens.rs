//! Figures of what lens and filters take: bellows, filters, density.

use super::filters::stack;
use super::{Answer, Ask, Book, Chapter, Given, Line, Problem, Recipe};
use crate::craft::bellows::{self, Bellows, By, Draw, conjugates, effective};
use crate::craft::exposure::time_changed;
use crate::craft::filter::{self, Strength, meter_setting, together};
use crate::craft::{
    Amount, Aperture, Concern, FilmSpeed, Millimetres, Seconds, Step, Stops, number,
};

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "bellows",
        title: "what the bellows takes",
        chapter: Chapter::Exposure,
        about: "A lens racked out for something near needs more exposure, because its light is spread \
                over more film. Give one of: the draw, the magnification, the distance from lens to \
                subject, or a target (a ruler at the subject) with its size measured on the ground \
                glass. With the metered time or the aperture the answer goes on to what they become.",
        asks: &[
            Ask::typed(
                "focal_length",
                "focal length",
                "focal length of the lens, 240 mm",
            ),
            Ask::typed("draw", "draw", "from lens board to ground glass, 294 mm"),
            Ask::typed(
                "lens",
                "lens",
                "a lens of the logbook, for its focal length, pupil ratio and flange distance, L-02",
            )
            .from(Book::Lenses),
            Ask::typed(
                "magnification",
                "magnification",
                "size on the ground glass over real size, 0.5 or 1/2",
            ),
            Ask::typed("distance", "distance", "from the lens to the subject, 1.2 m"),
            Ask::typed("target", "target", "real size of a target at the subject, 100 mm"),
            Ask::typed(
                "image",
                "its image",
                "size of the target on the ground glass, 22 mm",
            ),
            Ask::typed(
                "pupil_ratio",
                "pupil ratio",
                "width of the opening seen from behind over its width from the front, 0.8; 1 for most \
                 view-camera lenses",
            ),
            Ask::typed(
                "flange",
                "flange distance",
                "from lens board to film at infinity, for telephoto and retrofocus lenses, 205 mm",
            ),
            Ask::typed(
                "reversed",
                "reversed",
                "whether the rear of the lens faces the subject, no",
            )
            .from(Book::Choice(&["no", "yes"])),
            Ask::typed("time", "metered time", "time before the bellows is allowed for, 2 s"),
            Ask::typed("aperture", "aperture", "aperture that is set, f/22"),
        ],
        example: &[("focal_length", "240 mm"), ("draw", "294 mm"), ("time", "2 s")],
        answer: bellows,
    },
    Recipe {
        word: "filters",
        title: "what the filters take",
        chapter: Chapter::Exposure,
        about: "What one filter or several together take, on this film and in this light where a \
                number is known for them. Your own findings go first, then what the maker of the film \
                published; where sources disagree all are shown. A strength written beside a filter \
                is taken at its word: orange x4, ND 0.9, yellow +1.",
        asks: &[
            Ask::typed(
                "filters",
                "filters",
                "what is in front of the lens, by name, number or strength, joined by plus signs, 25 + \
                 polariser",
            )
            .from(Book::Filters),
            Ask::typed("film", "film", "film in the holder, for which factors differ, T-MAX 100")
                .from(Book::Films),
            Ask::typed(
                "light",
                "light",
                "the light, daylight unless a lamp is named, tungsten",
            ),
            Ask::typed(
                "speed",
                "film speed",
                "speed the film is exposed at, to set the meter for the filters, 400",
            ),
            Ask::typed("time", "metered time", "time before the filters are allowed for, 1/15"),
        ],
        example: &[
            ("filters", "25 + polariser"),
            ("film", "T-MAX 100"),
            ("speed", "100"),
        ],
        answer: filters,
    },
    Recipe {
        word: "density",
        title: "neutral filters by density, factor and stops",
        chapter: Chapter::Exposure,
        about: "Neutral filters are sold by density (0.9), by factor (ND8) and by stops (103 is 3 \
                stops), and all three say the same. A number with a decimal mark is a density.",
        asks: &[
            Ask::typed(
                "strength",
                "strength",
                "how strong the filter is, as a density 0.9, a factor x8 or ND8, or as 3 stops",
            ),
            Ask::typed("time", "metered time", "time without the filter, 1/60"),
        ],
        example: &[("strength", "ND8"), ("time", "1/60")],
        answer: density,
    },
];

fn bellows(given: &Given<'_>) -> Result<Answer, Problem> {
    let lens = given.lens()?.unwrap_or_default();
    let typed = given.may("focal_length", Millimetres::parse)?;
    let focal_length = typed.or(lens.focal_length);
    let draw = Draw {
        focal_length,
        by: magnified_by(given)?,
        pupil_ratio: given.number("pupil_ratio")?.or(lens.pupil_ratio),
        flange: given.may("flange", Millimetres::parse)?.or(lens.flange),
        reversed: given.choice("reversed")? == Some("yes"),
    };
    let time = given.may("time", Seconds::parse)?;
    let aperture = given.may("aperture", Aperture::parse)?;
    if draw.focal_length.is_none() && matches!(draw.by, By::Draw(_) | By::Distance(_)) {
        return Err(given.missing("focal_length"));
    }
    let figure = bellows::bellows(&draw)?;
    let taken = figure.value;
    let mut answer = Answer::of(figure, |taken| results(&draw, &taken));
    if let Some(time) = time {
        answer = with_time(answer, time, taken.stops)?;
    }
    if let Some(aperture) = aperture {
        let effective = effective(aperture, &taken)?;
        answer = answer.result(Line::new(
            "effective aperture",
            Amount::Aperture(effective.value),
        ));
        answer.steps.extend(effective.steps);
    }
    Ok(answer)
}

/// The one way in which the magnification was given.
fn magnified_by(given: &Given<'_>) -> Result<By, Problem> {
    let draw = given.may("draw", Millimetres::parse)?.map(By::Draw);
    let magnification = given.number("magnification")?.map(By::Magnification);
    let distance = given.may("distance", Millimetres::parse)?.map(By::Distance);
    let real = given.may("target", Millimetres::parse)?;
    let image = given.may("image", Millimetres::parse)?;
    let target = match (real, image) {
        (Some(real), Some(image)) => Some(By::Target { real, image }),
        (None, None) => None,
        (None, Some(_)) => return Err(given.missing("target")),
        (Some(_), None) => return Err(given.missing("image")),
    };
    let mut ways = [draw, magnification, distance, target]
        .into_iter()
        .flatten();
    match (ways.next(), ways.next()) {
        (Some(by), None) => Ok(by),
        (Some(_), Some(_)) => Err(Problem::of_all(
            "draw, magnification, distance and target each tell the same thing: give one of them",
        )),
        (None, _) => Err(given.missing("draw")),
    }
}

fn results(draw: &Draw, taken: &Bellows) -> Vec<Line> {
    let mut lines = vec![
        Line::new("more exposure", Amount::Stops(taken.stops)),
        Line::new("factor", Amount::Factor(taken.factor)),
        Line::new("magnification", Amount::number(taken.magnification, "", 3)),
    ];
    let found = draw
        .focal_length
        .map(|f| conjugates(f, taken.magnification));
    let (length, distance) = found.unwrap_or((None, None));
    if let Some(length) =
        length.filter(|_| !matches!(draw.by, By::Draw(_)) && draw.flange.is_none())
    {
        lines.push(Line::new("draw", tenths(length)));
    }
    if let Some(distance) = distance.filter(|_| !matches!(draw.by, By::Distance(_))) {
        lines.push(Line::new("from lens to subject", tenths(distance)));
    }
    lines
}

/// A reckoned length to a tenth of a millimetre.
fn tenths(length: Millimetres) -> Amount {
    Amount::number(length.value(), "mm", 1)
}

/// The same answer with what a metered time becomes.
pub(super) fn with_time(answer: Answer, time: Seconds, stops: Stops) -> Result<Answer, Problem> {
    let becomes = time_changed(time, stops).map_err(|why| Problem::of_all(why.to_string()))?;
    let line = Line::new("time", Amount::Time(becomes));
    let mut answer = answer.result(line);
    answer
        .steps
        .push(Step::new("time", Amount::Time(becomes)).working(format!(
            "{time} x {}",
            Amount::number(stops.factor(), "", 3)
        )));
    Ok(answer.remark(
        Concern::Note,
        "before reciprocity: what film needs for long times comes after everything else",
    ))
}

fn filters(given: &Given<'_>) -> Result<Answer, Problem> {
    let text = given
        .text("filters")
        .ok_or_else(|| given.missing("filters"))?;
    let film = given.text("film");
    let speed = given.may("speed", FilmSpeed::parse)?;
    let time = given.may("time", Seconds::parse)?;
    let steps = stack(text, film, given.text("light"), given.desk()).map_err(|why| Problem {
        key: Some("filters"),
        label: "filters",
        says: why.says,
    })?;
    let taken: Vec<Stops> = steps
        .iter()
        .filter_map(|step| match step.amount {
            Amount::Stops(stops) => Some(stops),
            _ => None,
        })
        .collect();
    let sum = together(&taken)?;
    let stops = sum.value;
    let mut answer = Answer::of(sum, |stops| {
        vec![
            Line::new("more exposure", Amount::Stops(stops)),
            Line::new("factor", Amount::Factor(stops.factor())),
        ]
    });
    answer.steps.splice(0..0, steps);
    if let Some(speed) = speed {
        let set = meter_setting(speed, stops)?;
        answer = answer.result(Line::new("meter set to ISO", Amount::Speed(set.value)));
        answer.steps.extend(set.steps);
        answer.remarks.extend(set.remarks);
    }
    if let Some(time) = time {
        answer = with_time(answer, time, stops)?;
    }
    for worn in filter::stack(text)? {
        let known = given.desk().reference.filter(&worn.name);
        if let Some(filter) = known.filter(|it| !it.note.is_empty()) {
            answer = answer.remark(Concern::Note, format!("{}: {}", filter.name, filter.note));
        }
    }
    Ok(answer)
}

fn density(given: &Given<'_>) -> Result<Answer, Problem> {
    let text = given
        .text("strength")
        .ok_or_else(|| given.missing("strength"))?;
    let strength = strength(text).map_err(|why| given.problem("strength", why.to_string()))?;
    let time = given.may("time", Seconds::parse)?;
    let figure = filter::convert(strength);
    let stops = figure.value.stops;
    let mut answer = Answer::of(figure, |all| {
        vec![
            Line::new("stops", Amount::Stops(all.stops)),
            Line::new("sold as", Amount::Stops(all.nominal)),
            Line::new("factor", Amount::Factor(all.factor)),
            Line::new("density", Amount::number(all.density, "", 3)),
            Line::new("passes", Amount::measured(all.passes * 100.0, "%")),
        ]
    });
    if strength == Strength::Factor(400.0) || strength == Strength::Factor(1000.0) {
        answer = answer.remark(
            Concern::Note,
            "names of dark filters are rounded: the density on its rim is the surer number",
        );
    }
    if let Some(time) = time {
        answer = with_time(answer, time, stops)?;
    }
    Ok(answer)
}

/// The strength of one neutral filter, as it is sold.
fn strength(text: &str) -> Result<Strength, crate::craft::Impossible> {
    if number(text).is_ok() {
        return Strength::neutral(text);
    }
    let mut worn = filter::stack(text)?.into_iter();
    match (worn.next().and_then(|one| one.strength), worn.next()) {
        (Some(strength), None) => Ok(strength),
        _ => Strength::neutral(text),
    }
}
