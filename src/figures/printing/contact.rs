//! Contact prints under the enlarger, and the safelight over both.

use super::super::{Answer, Ask, Chapter, Given, Line, Problem, Recipe};
use super::enlarger::both;
use crate::craft::printing::enlarging::{Change, changed};
use crate::craft::printing::lamp::distance;
use crate::craft::printing::paper::{by_lux, safe_time, time_under};
use crate::craft::{
    Amount, Aperture, Concern, Density, Figure, Grounds, Illuminance, Millimetres, Seconds,
};

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "contact",
        title: "a contact print under the enlarger",
        chapter: Chapter::Printing,
        about: "A contact print depends on the light on the baseboard and on nothing of the negative but \
                its density. A time moves with the lux that are measured there, or with the height of the \
                lens, the lens being focused alike; or a first time follows from lux and paper speed. \
                Clear rebate that is just short of black is the old test of a proof sheet.",
        asks: &[
            Ask::typed("time", "time", "the time that was right, 6 s"),
            Ask::typed(
                "lux",
                "lux then",
                "light on the baseboard without negative, 4 lx",
            ),
            Ask::typed(
                "to_lux",
                "lux now",
                "the same now; alone with a paper speed for a first time, 2.5 lx",
            ),
            Ask::typed("height", "height", "from lens to paper then, 60 cm"),
            Ask::typed("to_height", "to", "from lens to paper now, 90 cm"),
            Ask::typed("aperture", "aperture", "aperture then, f/8"),
            Ask::typed("to_aperture", "to", "aperture now, f/11"),
            Ask::typed(
                "speed",
                "paper speed",
                "ISO(P) of the paper, for a first time, 200",
            ),
            Ask::typed(
                "density",
                "density",
                "density that shall print as a middle tone, for a first time, 0.8",
            ),
        ],
        example: &[("time", "6 s"), ("height", "60 cm"), ("to_height", "90 cm")],
        answer: contact,
    },
    Recipe {
        word: "safelight",
        title: "how long paper may lie under a safelight",
        chapter: Chapter::Printing,
        about: "Expose a sheet to a light gray, cover part of it, and leave it under the safelight for \
                steps of some minutes, before the exposure on one sheet and after it on another. The \
                shortest step that shows and the longest that does not give the safe time. Before and \
                after differ: take the shorter, and count both together.",
        asks: &[
            Ask::typed(
                "shows",
                "shows",
                "the shortest time that shows a change, 7 min",
            ),
            Ask::typed(
                "clean",
                "shows nothing",
                "the longest time that shows none, 5 min",
            ),
        ],
        example: &[("shows", "7 min"), ("clean", "5 min")],
        answer: safelight,
    },
];

fn contact(given: &Given<'_>) -> Result<Answer, Problem> {
    if let Some(speed) = given.number("speed")? {
        let lux = given.must("to_lux", Illuminance::parse)?;
        let density = given.must("density", Density::parse)?;
        let figure = time_under(lux.value(), speed, density)?;
        return Ok(Answer::of(figure, |time| {
            vec![Line::new("first time", super::time::shown(time))]
        }));
    }
    let time = given.must("time", Seconds::parse)?;
    let mut at = time;
    let mut answer: Option<Answer> = None;
    let mut add = |figure: Figure<Seconds>| {
        let now = figure.value;
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
    let lux = both(given, ("lux", "to_lux"), Illuminance::parse)?;
    let heights = both(given, ("height", "to_height"), Millimetres::parse)?;
    if lux.is_some() && heights.is_some() {
        return Err(given.problem(
            "height",
            "lux measured at both heights already hold what the height does: give one of them",
        ));
    }
    if let Some((from, to)) = lux {
        at = add(by_lux(at, from.value(), to.value())?);
    }
    if let Some((from, to)) = heights {
        // The lens is a small opening against its height.
        at = add(distance(at, from, to, Some(Millimetres::new(1.0)?))?);
    }
    if let Some((from, to)) = both(given, ("aperture", "to_aperture"), Aperture::parse)? {
        at = add(changed(at, &[Change::Aperture { from, to }])?);
    }
    let answer = answer.ok_or_else(|| {
        Problem::of_all(
            "give what changed: lux then and now, heights, or apertures; or lux, paper speed and density \
             for a first time",
        )
    })?;
    let mut answer = answer.result(Line::new("time", super::time::shown(at)));
    answer.domain = "the lens where it was on its column and focused alike, the carrier empty";
    Ok(answer)
}

fn safelight(given: &Given<'_>) -> Result<Answer, Problem> {
    let shows = given.may("shows", Seconds::parse)?;
    let clean = given.must("clean", Seconds::parse)?;
    let Some(shows) = shows else {
        let said = format!("at least {clean}");
        let figure = Figure::new(
            clean,
            Grounds::published(
                "Kodak K-4, How Safe Is Your Safelight?, October 2006: no change anywhere",
            ),
        );
        return Ok(Answer::of(figure, |_| {
            vec![Line::new("safe", Amount::words(said))]
        }));
    };
    let answer = Answer::of(safe_time(shows, clean)?, |safe| {
        vec![Line::new("safe", Amount::Time(safe))]
    });
    Ok(answer.remark(
        Concern::Note,
        "before and after the exposure differ: the shorter is that of the room, and both count together",
    ))
}
