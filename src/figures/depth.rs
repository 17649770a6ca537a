//! Figures of sharpness: circle of confusion, depth, hyperfocal distance, focus spread, blur.

use super::rig::{
    APERTURE, CAMERA, CIRCLE, FOCAL_LENGTH, FORMAT, LENS, MAGNIFICATION, PUPIL_RATIO, Rig,
};
use super::{Answer, Ask, Chapter, Given, Line, Problem, Recipe, Table};
use crate::craft::optics::Distance;
use crate::craft::optics::blur::{diffraction as diffracted, of_point};
use crate::craft::optics::circle::{
    self as confusion_by, BY_1500, BY_1730, by_diagonal, for_print,
};
use crate::craft::optics::depth::{
    Sharpness, consecutive, focus_between, hyperfocal as hyperfocal_of, limits as limits_of,
    of_focus,
};
use crate::craft::optics::spread::{
    Working, for_distances, for_travel, mark_at_least, nearest_mark,
};
use crate::craft::{
    Amount, Aperture, Concern, Figure, Grounds, LengthUnit, Millimetres, Step, Stops,
};

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "depth",
        title: "depth of field: what is sharp about a distance",
        chapter: Chapter::Focus,
        about: "From where to where things are sharp when the lens is focused on one distance. Sharp \
                means: no blur on the film larger than the circle of confusion, which follows from \
                the format unless you give your own.",
        asks: &[
            LENS,
            FOCAL_LENGTH,
            APERTURE,
            Ask::typed("distance", "focused at", "distance that is focused on, 3 m"),
            FORMAT,
            CIRCLE,
            PUPIL_RATIO,
            CAMERA,
        ],
        example: &[
            ("focal_length", "210 mm"),
            ("aperture", "f/32"),
            ("distance", "3 m"),
            ("format", "4x5"),
        ],
        answer: depth,
    },
    Recipe {
        word: "hyperfocal",
        title: "nearest focus that keeps infinity sharp",
        chapter: Chapter::Focus,
        about: "Focused at the hyperfocal distance everything from half of it to infinity is sharp. \
                The lens then stands only the f-number times the circle of confusion beyond infinity, \
                which can be read off the rail. The table tells what is sharp when focusing at a \
                half, a third and so on of it.",
        asks: &[LENS, FOCAL_LENGTH, APERTURE, FORMAT, CIRCLE, CAMERA],
        example: &[
            ("focal_length", "150 mm"),
            ("aperture", "f/22"),
            ("circle", "0.1 mm"),
        ],
        answer: hyperfocal,
    },
    Recipe {
        word: "limits",
        title: "focus and aperture for a near and a far limit",
        chapter: Chapter::Focus,
        about: "Where to focus so that a near and a far thing are equally sharp and, with the lens \
                known, how far to stop down and where the standard then stands.",
        asks: &[
            Ask::typed(
                "near",
                "near limit",
                "nearest thing that must be sharp, 3 m",
            ),
            Ask::typed(
                "far",
                "far limit",
                "furthest thing that must be sharp, 20 m or infinity",
            ),
            LENS,
            FOCAL_LENGTH,
            FORMAT,
            CIRCLE,
            CAMERA,
        ],
        example: &[
            ("near", "3 m"),
            ("far", "infinity"),
            ("focal_length", "150 mm"),
            ("circle", "0.1 mm"),
        ],
        answer: limits,
    },
    Recipe {
        word: "spread",
        title: "aperture from the focus spread",
        chapter: Chapter::Focus,
        about: "Set the movements, focus the far point with the back and read the rail, focus the near \
                point and read again: the travel between the two is the spread. It gives the least \
                f-number that keeps both points within the circle of confusion, and the one at which \
                defocus and diffraction are in balance, which is sharper if the time allows. Then set \
                the standard halfway.",
        asks: &[
            Ask::typed(
                "travel",
                "travel",
                "of the standard between far and near focus, 4 mm",
            ),
            MAGNIFICATION,
            FORMAT,
            CIRCLE,
            LENS,
            CAMERA,
        ],
        example: &[("travel", "4 mm"), ("format", "4x5")],
        answer: spread,
    },
    Recipe {
        word: "blur",
        title: "blur of a point that is out of focus",
        chapter: Chapter::Focus,
        about: "How large a point becomes on the film while the lens is focused elsewhere: how soft a \
                background will be, or whether a twig in front still passes for sharp.",
        asks: &[
            LENS,
            FOCAL_LENGTH,
            APERTURE,
            Ask::typed("distance", "focused at", "distance that is focused on, 5 m"),
            Ask::typed(
                "point",
                "point at",
                "distance of the point, 3 m or infinity",
            ),
            FORMAT,
            CIRCLE,
            CAMERA,
        ],
        example: &[
            ("focal_length", "150 mm"),
            ("aperture", "f/22"),
            ("distance", "5 m"),
            ("point", "3 m"),
        ],
        answer: blur,
    },
    Recipe {
        word: "diffraction",
        title: "what a small stop costs in sharpness",
        chapter: Chapter::Focus,
        about: "Stopped down far, a perfect lens draws every point as a disc. This tells how large \
                that disc is and how many line pairs a millimetre are left on the film.",
        asks: &[APERTURE, MAGNIFICATION],
        example: &[("aperture", "f/45")],
        answer: diffraction,
    },
    Recipe {
        word: "confusion",
        title: "circle of confusion by format and by print",
        chapter: Chapter::Focus,
        about: "How large a blur on the film may be. The rules go by the diagonal of the format, or by \
                the print: how much it is enlarged and from how far it is seen. They differ, because \
                what passes for sharp is a choice.",
        asks: &[
            FORMAT,
            Ask::typed(
                "enlargement",
                "enlargement",
                "how many times the negative is enlarged, 1 for a contact print, 2.5",
            ),
            Ask::typed(
                "seen_from",
                "seen from",
                "distance of the eye from the print, 250 mm",
            ),
            Ask::typed(
                "pairs",
                "line pairs",
                "line pairs a millimetre the eye tells apart at 250 mm, 5",
            ),
        ],
        example: &[("format", "4x5"), ("enlargement", "2.5")],
        answer: confusion,
    },
    Recipe {
        word: "tolerance",
        title: "depth of focus: how far the film may be out",
        chapter: Chapter::Focus,
        about: "How far film and ground glass may disagree before a blur grows beyond the circle of \
                confusion, beside what holders of the format may differ by.",
        asks: &[APERTURE, FORMAT, CIRCLE, MAGNIFICATION],
        example: &[("aperture", "f/5.6"), ("format", "4x5")],
        answer: tolerance,
    },
];

fn depth(given: &Given<'_>) -> Result<Answer, Problem> {
    let mut rig = Rig::of(given)?;
    let f = rig.focal_length()?;
    let sharp = Sharpness::new(f, rig.number()?, rig.circle()?)?;
    let distance = given.must("distance", Distance::parse)?;
    let pupils = rig.pupil_ratio()?;
    let figure = limits_of(sharp, distance, pupils)?;
    let answer = Answer::of(figure, |found| {
        let mut lines = vec![
            Line::new("sharp from", found.near.amount()),
            Line::new("sharp to", found.far.amount()),
        ];
        if let (Some(near), Some(far)) = (found.near.millimetres(), found.far.millimetres()) {
            lines.push(Line::new(
                "depth",
                Amount::number((far - near) / 1000.0, "m", 3),
            ));
        }
        lines
    });
    let m = rig.magnification(Some(f))?;
    let answer = rig.on_the_rail(answer, f, m)?;
    Ok(rig.tell(answer))
}

fn hyperfocal(given: &Given<'_>) -> Result<Answer, Problem> {
    let mut rig = Rig::of(given)?;
    let f = rig.focal_length()?;
    let sharp = Sharpness::new(f, rig.number()?, rig.circle()?)?;
    let answer = Answer::of(hyperfocal_of(sharp), |found| {
        vec![
            Line::new("hyperfocal distance", found.exact.amount()),
            Line::new("sharp from", found.near.amount()),
            Line::new("beyond infinity", Amount::number(found.extension, "mm", 2)),
        ]
    });
    let rows = (1..=6).map(|count| {
        let (focus, depth) = consecutive(sharp.hyperfocal(), count);
        vec![focus.amount(), depth.near.amount(), depth.far.amount()]
    });
    Ok(rig.tell(answer.table(Table {
        heads: ["focused at", "sharp from", "to"].map(Into::into).into(),
        rows: rows.collect(),
    })))
}

fn limits(given: &Given<'_>) -> Result<Answer, Problem> {
    let mut rig = Rig::of(given)?;
    let near = given.must("near", Distance::parse)?;
    let far = given.must("far", Distance::parse)?;
    let Some(f) = rig.may_focal_length()?.filter(|_| rig.has_circle()) else {
        let answer = Answer::of(focus_between(near, far)?, |focus| {
            vec![Line::new("focus at", focus.amount())]
        });
        let says = "with the focal length and the format, the aperture follows as well";
        return Ok(rig.tell(answer.remark(Concern::Note, says)));
    };
    let figure = for_distances(f, near, far, rig.circle()?)?;
    let found = figure.value;
    let m = found.best / f.value() - 1.0;
    let answer = Answer::of(figure, |found| {
        vec![
            Line::new("focus at", found.focus.amount()),
            Line::new("lens to film", Amount::number(found.best, "mm", 1)),
        ]
    });
    let answer = stopped(answer, &rig, found.working, m)?;
    let answer = rig.on_the_rail(answer, f, m)?;
    Ok(rig.tell(answer))
}

fn spread(given: &Given<'_>) -> Result<Answer, Problem> {
    let mut rig = Rig::of(given)?;
    let travel = given.must("travel", Millimetres::parse)?;
    let m = rig.magnification(None)?;
    let figure = for_travel(travel, rig.circle()?, m)?;
    let found = figure.value;
    let halfway = Amount::number(found.travel / 2.0, "mm", 2);
    let answer = stopped(Answer::of(figure, |_| Vec::new()), &rig, found, m)?;
    Ok(rig.tell(answer.result(Line::new("set the standard back by", halfway))))
}

/// The answer with the two apertures, rounded to marks, and what the lens at hand makes of them.
fn stopped(mut answer: Answer, rig: &Rig<'_>, found: Working, m: f64) -> Result<Answer, Problem> {
    // Wider than any lens opens, every aperture does.
    let least = mark_at_least(found.admissible.max(0.5))?;
    let best = nearest_mark(found.optimum.max(0.5))?;
    for (name, wanted, mark) in [
        ("at least", found.admissible, least),
        ("in balance", found.optimum, best),
    ] {
        answer.results.push(Line::new(name, Amount::Aperture(mark)));
        if wanted >= 0.5 {
            let off = Stops::new(2.0 * (wanted / mark.number()).log2())
                .map_err(|why| Problem::of_all(why.to_string()))?;
            answer.steps.push(
                Step::new(format!("{name}, as set"), Amount::Aperture(mark)).working(format!(
                    "f/{wanted:.1} by the formula; the mark gives {off} of light"
                )),
            );
        }
    }
    let smallest = rig.lens().and_then(|lens| lens.smallest);
    if let Some(smallest) = smallest.filter(|it| it.number() < least.number() * 0.999) {
        let blur = found.travel / (2.0 * smallest.number() * (1.0 + m));
        answer = answer.remark(
            Concern::Warning,
            format!(
                "the lens closes only to {smallest}, which leaves a blur of {} at both ends: tilt, or \
                 stand further off",
                Amount::number(blur, "mm", 3)
            ),
        );
    }
    Ok(answer)
}

fn blur(given: &Given<'_>) -> Result<Answer, Problem> {
    let mut rig = Rig::of(given)?;
    let f = rig.focal_length()?;
    let focused = given.must("distance", Distance::parse)?;
    let point = given.must("point", Distance::parse)?;
    let figure = of_point(f, rig.number()?, focused, point)?;
    let found = figure.value;
    let answer = Answer::of(figure, |found| {
        vec![Line::new(
            "blur on the film",
            Amount::number(found.diameter, "mm", 4),
        )]
    });
    if !rig.has_circle() {
        return Ok(rig.tell(answer));
    }
    let times = found.diameter / rig.circle()?;
    if !times.is_finite() {
        return Err(given.problem("circle", "a circle above 0 mm is needed, such as 0.1 mm"));
    }
    let line = Line::new("in circles of confusion", Amount::number(times, "", 2));
    Ok(rig.tell(answer.result(line)))
}

fn diffraction(given: &Given<'_>) -> Result<Answer, Problem> {
    let rig = Rig::of(given)?;
    let figure = diffracted(rig.number()?, rig.magnification(None)?)?;
    let answer = Answer::of(figure, |found| {
        vec![
            Line::new("resolution", Amount::number(found.resolution, "lp/mm", 0)),
            Line::new("disc of a point", Amount::number(found.disc, "mm", 3)),
        ]
    });
    let rows = ["f/11", "f/16", "f/22", "f/32", "f/45", "f/64"]
        .into_iter()
        .filter_map(|mark| Aperture::parse(mark).ok())
        .filter_map(|mark| {
            let found = diffracted(mark.number(), 0.0).ok()?.value;
            Some(vec![
                Amount::Aperture(mark),
                Amount::number(found.resolution, "lp/mm", 0),
                Amount::number(found.disc, "mm", 3),
            ])
        });
    Ok(rig.tell(
        answer.table(Table {
            heads: ["far subject at", "resolution", "disc"]
                .map(Into::into)
                .into(),
            rows: rows.collect(),
        }),
    ))
}

fn confusion(given: &Given<'_>) -> Result<Answer, Problem> {
    let mut rig = Rig::of(given)?;
    let seen_from = given.may("seen_from", Millimetres::parse)?;
    let enlargement = given.number("enlargement")?;
    let pairs = given.number("pairs")?.unwrap_or(confusion_by::EYE);
    let by_print = match (enlargement, seen_from) {
        (None, None) => None,
        (enlargement, seen_from) => {
            let seen_from = match seen_from {
                Some(typed) => typed,
                None => Millimetres::new(confusion_by::READING)
                    .map_err(|why| Problem::of_all(why.to_string()))?,
            };
            Some(for_print(seen_from, pairs, enlargement.unwrap_or(1.0))?)
        }
    };
    let frame = rig.frame()?;
    let diagonals = frame.map(|frame| {
        [(1500.0, BY_1500), (1730.0, BY_1730)].map(|(parts, grounds)| {
            let circle = Amount::number(by_diagonal(frame, parts), "mm", 4);
            let diagonal = Amount::number(frame.diagonal(), "mm", 2);
            let grounds = rig.of_the_frame(grounds);
            Step::new(format!("diagonal / {parts}"), circle)
                .working(format!("{diagonal} / {parts}"))
                .on(grounds)
        })
    });
    let mut answer = match by_print {
        Some(figure) => Answer::of(figure, |circle| {
            vec![Line::new("for the print", Amount::number(circle, "mm", 4))]
        }),
        None if frame.is_none() => return Err(given.missing("format")),
        None => Answer::of(Figure::new((), BY_1500), |()| Vec::new()),
    };
    for step in diagonals.into_iter().flatten() {
        let line = Line::new(step.name.clone(), step.amount.clone());
        answer.results.push(match &step.grounds {
            Some(grounds) => line.on(grounds.clone()),
            None => line,
        });
        answer.steps.push(step);
    }
    Ok(rig.tell(answer))
}

fn tolerance(given: &Given<'_>) -> Result<Answer, Problem> {
    let mut rig = Rig::of(given)?;
    let figure = of_focus(rig.number()?, rig.circle()?, rig.magnification(None)?)?;
    let either_way = figure.value / 2.0;
    let mut answer = Answer::of(figure, |depth| {
        vec![
            Line::new("depth of focus", Amount::number(depth, "mm", 2)),
            Line::new("either way", Amount::number(depth / 2.0, "mm", 2)),
        ]
    });
    let format = given
        .text("format")
        .and_then(|text| given.desk().reference.format(text));
    if let Some(holder) = format.and_then(|format| format.holder.as_ref())
        && let Some(tolerance) = holder.tolerance_in
    {
        let off = tolerance * LengthUnit::Inch.in_mm();
        let grounds = Grounds::new(holder.standing, holder.source.clone());
        let line = Line::new("holders may differ by", Amount::number(off, "mm", 2));
        answer = answer.result(line.on(grounds));
        if off > either_way {
            answer = answer.remark(
                Concern::Warning,
                "a holder at the edge of its tolerance is already out of focus at this aperture: \
                 measure your holders, or stop down",
            );
        }
    }
    Ok(rig.tell(answer))
}
