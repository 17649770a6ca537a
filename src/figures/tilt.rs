//! Figures of the tilted lens: how far to tilt, where the hinge lies, what is sharp about the plane.

use super::rig::{APERTURE, CAMERA, CIRCLE, FOCAL_LENGTH, FORMAT, LENS, Rig};
use super::{Answer, Ask, Chapter, Given, Line, Problem, Recipe, Table};
use crate::craft::optics::Distance;
use crate::craft::optics::depth::Sharpness;
use crate::craft::optics::spread::mark_at_least;
use crate::craft::optics::tilt::{
    Sighted, combined, for_hinge, from_points, hinge as hinge_of, level_draw, pays, quick,
};
use crate::craft::optics::wedge::{Wedge, about, half_depth, number_for_band};
use crate::craft::{Amount, Concern, Millimetres, Step, Unreadable, number};

const TILT: Ask = Ask::typed("tilt", "tilt", "angle between lens and film in degrees, 5");

const PLANE: Ask = Ask::typed(
    "hinge",
    "hinge",
    "how far below the lens the plane of sharpness shall pass, measured parallel to the film: for \
     ground that shall be sharp the height of the lens above it, 1.5 m",
);

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "tilt",
        title: "tilt from two points on the ground glass",
        chapter: Chapter::Focus,
        about: "With the lens upright focus the far point and read the rail, then the near point. How \
                far the standard travelled and how far apart the two stand on the glass give the tilt \
                that makes both sharp at once. Something that rises from the plane asks for stopping \
                down; with its height on the glass the answer tells how far, and whether tilting \
                pays. For a swing, read sideways for up.",
        asks: &[
            LENS,
            FOCAL_LENGTH,
            Ask::typed(
                "travel",
                "travel",
                "how much further from the lens the film is for the near point than for the far one, \
                 7.9 mm",
            ),
            Ask::typed(
                "height",
                "height",
                "how much higher on the glass the near point stands than the far one, each where it \
                 was sharp; ground near by stands high; lower is negative, 79 mm",
            ),
            Ask::typed(
                "far_draw",
                "far draw",
                "from lens to film for the far point; the focal length if it is far off, 150 mm",
            ),
            Ask::typed(
                "far_height",
                "far height",
                "how high the far point stands on the glass above the axis of the lens; below is \
                 negative; 0 if it is left out, -7.5 mm",
            ),
            Ask::typed(
                "band",
                "height that rises",
                "how high on the glass the tallest thing stands up from the plane and must stay \
                 sharp, 30 mm",
            ),
            FORMAT,
            CIRCLE,
            CAMERA,
        ],
        example: &[
            ("focal_length", "150 mm"),
            ("travel", "7.9 mm"),
            ("height", "79 mm"),
        ],
        answer: tilt,
    },
    Recipe {
        word: "hinge",
        title: "tilt for a plane, and where a tilt puts it",
        chapter: Chapter::Focus,
        about: "The plane of sharpness of a tilted lens turns about a hinge under the lens, however the \
                back is focused. Give how far below the lens the plane shall pass to get the tilt, or \
                the tilt to get that distance. With a swing as well, both angles make one.",
        asks: &[
            LENS,
            FOCAL_LENGTH,
            PLANE,
            TILT,
            Ask::typed(
                "swing",
                "swing",
                "swing set together with the tilt, in degrees, 3",
            ),
        ],
        example: &[("focal_length", "150 mm"), ("hinge", "1.5 m")],
        answer: hinge,
    },
    Recipe {
        word: "wedge",
        title: "what is sharp above and below a tilted plane",
        chapter: Chapter::Focus,
        about: "About the plane of sharpness of a tilted lens things are sharp in a wedge that begins \
                at the hinge and widens with the distance: at the hyperfocal distance it reaches as far \
                above and below the plane as the hinge lies under the lens. The answer is for level \
                ground and an upright back.",
        asks: &[
            LENS,
            FOCAL_LENGTH,
            APERTURE,
            PLANE,
            TILT,
            Ask::typed(
                "distance",
                "distance",
                "where the height of the wedge is asked, 10 m",
            ),
            FORMAT,
            CIRCLE,
            CAMERA,
        ],
        example: &[
            ("focal_length", "150"),
            ("aperture", "f/22"),
            ("hinge", "1.5 m"),
            ("circle", "0.1"),
        ],
        answer: wedge,
    },
];

/// A length that may lie the other way: `-7.5 mm`.
fn signed(text: &str) -> Result<f64, Unreadable> {
    match text.trim_start().strip_prefix(['-', '\u{2212}']) {
        Some(rest) => Millimetres::parse(rest).map(|length| -length.value()),
        None => Millimetres::parse(text).map(Millimetres::value),
    }
}

/// An angle in degrees: `5`, `5 deg`, `5°`.
fn degrees(text: &str) -> Result<f64, Unreadable> {
    let bare = ["degrees", "degree", "deg", "°"]
        .into_iter()
        .find_map(|unit| text.trim_end().strip_suffix(unit));
    number(bare.unwrap_or(text))
}

fn tilt(given: &Given<'_>) -> Result<Answer, Problem> {
    let mut rig = Rig::of(given)?;
    let f = rig.focal_length()?;
    let travel = given.must("travel", signed)?;
    let height = given.must("height", signed)?;
    let far = Sighted {
        draw: given
            .may("far_draw", Millimetres::parse)?
            .unwrap_or(f)
            .value(),
        height: given.may("far_height", signed)?.unwrap_or(0.0),
    };
    let near = Sighted {
        draw: far.draw + travel,
        height: far.height + height,
    };
    let figure = from_points(f, far, near)?;
    let found = figure.value;
    let mut answer = Answer::of(figure, |found| {
        let mut lines = vec![
            Line::new("tilt of the lens", Amount::degrees(found.front)),
            Line::new("or of the back", Amount::degrees(found.back)),
        ];
        if let Some(hinge) = found.hinge {
            lines.push(Line::new(
                "lens to hinge",
                Amount::number(hinge / 1000.0, "m", 3),
            ));
        }
        lines
    });
    if found.front < 0.0 {
        answer = answer.remark(
            Concern::Note,
            "the tilt is negative: the lens leans back, or the back leans forward",
        );
    }
    if let Some(band) = given.may("band", Millimetres::parse)?
        && found.hinge.is_some()
    {
        answer = with_band(&mut rig, answer, travel, band, found.front)?;
    }
    Ok(rig.tell(answer))
}

/// What stands up from the plane asks for, against what an upright lens would.
fn with_band(
    rig: &mut Rig<'_>,
    answer: Answer,
    travel: f64,
    band: Millimetres,
    tilt: f64,
) -> Result<Answer, Problem> {
    let untilted =
        Millimetres::new(travel.abs()).map_err(|why| Problem::of_all(why.to_string()))?;
    let ratio = pays(untilted, band, tilt)?;
    let mut answer = answer.result(Line::new(
        "upright over tilted",
        Amount::Factor(ratio.value),
    ));
    answer.steps.extend(ratio.steps);
    if ratio.value <= 1.0 {
        answer = answer.remark(
            Concern::Note,
            "an upright lens gets along with a wider aperture than a tilted one here",
        );
    }
    if rig.has_circle() {
        let least = number_for_band(band.value(), tilt, rig.circle()?);
        let mark = mark_at_least(least.max(0.5))?;
        answer = answer.result(Line::new("at least, tilted", Amount::Aperture(mark)));
    }
    Ok(answer)
}

/// The tilt that was typed, or that of the hinge that was.
fn tilt_given(given: &Given<'_>, f: Millimetres) -> Result<f64, Problem> {
    match (
        given.may("tilt", degrees)?,
        given.may("hinge", Millimetres::parse)?,
    ) {
        (Some(_), Some(_)) => Err(given.problem("tilt", "give the tilt or the hinge, not both")),
        (Some(tilt), None) => Ok(tilt),
        (None, Some(hinge)) => {
            let found = for_hinge(f, hinge);
            Ok(found
                .map_err(|why| given.problem("hinge", why.to_string()))?
                .value)
        }
        (None, None) => Err(given.missing("hinge")),
    }
}

fn hinge(given: &Given<'_>) -> Result<Answer, Problem> {
    let mut rig = Rig::of(given)?;
    let f = rig.focal_length()?;
    let tilt = tilt_given(given, f)?;
    let swing = given.may("swing", degrees)?.unwrap_or(0.0);
    if swing.abs() > 80.0 {
        return Err(given.problem("swing", "no lens is swung so far: it lies up to 80 degrees"));
    }
    let both = combined(tilt, swing);
    let figure = hinge_of(f, if swing == 0.0 { tilt } else { both })?;
    let j = figure.value;
    let mut answer = Answer::of(figure, |j| {
        vec![Line::new(
            "lens to hinge",
            Amount::number(j / 1000.0, "m", 3),
        )]
    });
    if given.text("tilt").is_none() {
        let hinge = given.must("hinge", Millimetres::parse)?;
        let found = for_hinge(f, hinge)?;
        answer.steps = found.steps;
        answer.results.clear();
        answer = answer.result(Line::new("tilt", Amount::degrees(tilt)));
    }
    if swing != 0.0 {
        answer = answer
            .result(Line::new("both angles together", Amount::degrees(both)))
            .result(Line::new("hinge then", Amount::number(j / 1000.0, "m", 3)))
            .remark(
                Concern::Note,
                "with a swing the hinge is measured along the slope both angles make together",
            );
    }
    answer.steps.push(
        Step::new(
            "rule for small angles",
            Amount::degrees(quick(f.value(), j)),
        )
        .working(format!("57.3 x {f} / {}", Amount::number(j, "mm", 0))),
    );
    let draw = Amount::number(level_draw(f.value(), tilt), "mm", 1);
    Ok(rig.tell(answer.result(Line::new("film to lens, level plane", draw))))
}

fn wedge(given: &Given<'_>) -> Result<Answer, Problem> {
    let mut rig = Rig::of(given)?;
    let f = rig.focal_length()?;
    let sharp = Sharpness::new(f, rig.number()?, rig.circle()?)?;
    let tilt = tilt_given(given, f)?;
    let figure = about(sharp, tilt, None)?;
    let found = figure.value;
    let mut answer = Answer::of(figure, |found| {
        vec![
            Line::new("tilt", Amount::degrees(tilt)),
            Line::new(
                "lens to hinge",
                Amount::number(found.hinge / 1000.0, "m", 3),
            ),
            Line::new(
                "sharp band on the glass",
                Amount::number(found.band, "mm", 1),
            ),
        ]
    });
    if let Some(distance) = given.may("distance", Distance::parse)? {
        let half = half_depth(sharp, found, distance).amount();
        answer
            .results
            .insert(0, Line::new("sharp above and below", half));
    }
    answer
        .results
        .push(Line::new("hyperfocal distance", hyperfocal(sharp)?));
    Ok(rig.tell(answer.table(heights(sharp, found))))
}

fn hyperfocal(sharp: Sharpness) -> Result<Amount, Problem> {
    Distance::new(sharp.hyperfocal())
        .map(Distance::amount)
        .map_err(|why| Problem::of_all(why.to_string()))
}

/// How high the wedge is at some distances.
fn heights(sharp: Sharpness, wedge: Wedge) -> Table {
    let rows = [2.0, 5.0, 10.0, 20.0, 50.0, 100.0]
        .into_iter()
        .filter_map(|metres| Distance::new(metres * 1000.0).ok())
        .map(|distance| {
            let half = half_depth(sharp, wedge, distance);
            vec![distance.amount(), half.amount()]
        });
    Table {
        heads: ["distance", "sharp above and below"].map(Into::into).into(),
        rows: rows.collect(),
    }
}
