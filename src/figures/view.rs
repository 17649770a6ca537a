//! Figures of the angle of view, light at the corners, and pinholes.

use super::movements::MOVEMENTS;
use super::rig::{CAMERA, FOCAL_LENGTH, FORMAT, LENS, MAGNIFICATION, Rig, WAY};
use super::{Answer, Ask, Chapter, Given, Line, Problem, Recipe, Table};
use crate::craft::optics::angle::{Side, circle_of, equivalent, of_circle, of_view};
use crate::craft::optics::conjugates::number_at_film;
use crate::craft::optics::falloff::{ENGRAVED, across, density, filter_by_factor};
use crate::craft::optics::movements::parse_movements;
use crate::craft::optics::pinhole::{GREEN, Rule, diameter, draw_for, number as number_of, time};
use crate::craft::optics::{Distance, Frame};
use crate::craft::{
    Amount, Aperture, Concern, Figure, Grounds, Millimetres, Seconds, Size, Step, Stops,
};

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "angle",
        title: "angle of view, and the lens that sees alike",
        chapter: Chapter::Focus,
        about: "How much a lens takes in on a format, along both sides and corner to corner, and which \
                focal length takes in as much on another. Formats differ in shape, so the answer says \
                by which side. A quoted angle of coverage is turned into a circle on request.",
        asks: &[
            LENS,
            FOCAL_LENGTH,
            FORMAT,
            MAGNIFICATION,
            Ask::typed(
                "against",
                "compared with",
                "image area of the other format, 36x24 mm if it is left out, 36x24 mm",
            ),
            Ask::typed(
                "coverage",
                "angle of coverage",
                "angle the maker quotes, to be turned into a circle, in degrees, 72",
            ),
            Ask::typed(
                "image_circle",
                "image circle",
                "circle of the lens at infinity, to be turned into an angle, 220 mm",
            ),
            CAMERA,
        ],
        example: &[("focal_length", "90 mm"), ("format", "4x5")],
        answer: angle,
    },
    Recipe {
        word: "falloff",
        title: "light lost at the corners",
        chapter: Chapter::Focus,
        about: "Light falls off with the fourth power of the cosine from the axis of the lens, so the \
                corner that rise and shift put furthest out is the darkest. A centre filter gives some \
                of it back and takes light itself: the number on it may be a factor or stops, so say \
                which. What the bellows takes is added.",
        asks: &[
            LENS,
            FOCAL_LENGTH,
            FORMAT,
            WAY,
            MOVEMENTS,
            MAGNIFICATION,
            Ask::typed(
                "filter_factor",
                "centre filter, factor",
                "what is engraved on it, if that is an exposure factor, 2.5",
            ),
            Ask::typed(
                "filter_stops",
                "centre filter, stops",
                "what it takes in stops, if that is what its maker says, 1.5",
            ),
            CAMERA,
        ],
        example: &[
            ("focal_length", "90 mm"),
            ("format", "4x5"),
            ("movements", "rise 20"),
        ],
        answer: falloff,
    },
    Recipe {
        word: "pinhole",
        title: "the best hole, its f-number and its time",
        chapter: Chapter::Focus,
        about: "The best hole for a distance to the film, by the rules of several authors; they differ \
                in what they call sharp. With a hole that was drilled and measured its own f-number is \
                told, and with a time metered at an aperture the time for the hole. What the film \
                loses in long exposures comes after that.",
        asks: &[
            Ask::typed("draw", "hole to film", "from the hole to the film, 100 mm"),
            Ask::typed("hole", "hole", "diameter of the hole that is used, 0.4 mm"),
            Ask::typed(
                "distance",
                "distance",
                "of a near subject from the hole; infinity if it is left out, 300 mm",
            ),
            Ask::typed(
                "wavelength",
                "wavelength",
                "of the light in nanometres, 550 if it is left out, 550",
            ),
            Ask::typed("time", "metered time", "time for another aperture, 1/30"),
            Ask::typed(
                "aperture",
                "metered at",
                "aperture that time belongs to, f/22",
            ),
        ],
        example: &[
            ("draw", "100 mm"),
            ("hole", "0.4 mm"),
            ("time", "1/30"),
            ("aperture", "f/22"),
        ],
        answer: pinhole,
    },
];

fn angle(given: &Given<'_>) -> Result<Answer, Problem> {
    let mut rig = Rig::of(given)?;
    let f = rig.focal_length()?;
    let frame = rig.must_frame()?;
    let (name, other) = match given.may("against", Size::parse)? {
        Some(size) => {
            let (width, height) = size.mm();
            let frame = Frame::new(width, height);
            (
                size.to_string(),
                frame.map_err(|why| given.problem("against", why.to_string()))?,
            )
        }
        None => ("36x24 mm".to_owned(), Frame::new(36.0, 24.0)?),
    };
    let figure = of_view(frame, f, rig.magnification(None)?)?;
    let mut answer = Answer::of(figure, |views| {
        [
            ("along the long side", views.long),
            ("along the short side", views.short),
            ("corner to corner", views.diagonal),
        ]
        .map(|(name, angle)| Line::new(name, Amount::number(angle, "deg", 1)))
        .into()
    });
    for side in Side::ALL {
        let alike = equivalent(f, frame, other, *side)?;
        let line = Line::new(
            format!("on {name}, by {}", by(*side)),
            Amount::number(alike.value, "mm", 1),
        );
        answer = answer.result(line.on(alike.grounds));
        answer.steps.extend(alike.steps);
    }
    if let Some(quoted) = given.number("coverage")? {
        let circle =
            circle_of(f, quoted).map_err(|why| given.problem("coverage", why.to_string()))?;
        let line = Line::new("circle by the angle", Amount::number(circle.value, "mm", 1));
        answer = answer.result(line);
        answer.steps.extend(circle.steps);
        answer.remarks.extend(circle.remarks);
    }
    if let Some(circle) = rig.image_circle()? {
        let covered = of_circle(circle.value(), f.value());
        answer = answer.result(Line::new(
            "angle of coverage",
            Amount::number(covered, "deg", 1),
        ));
    }
    Ok(rig.tell(answer))
}

const fn by(side: Side) -> &'static str {
    match side {
        Side::Diagonal => "the diagonal",
        Side::Long => "the long side",
        Side::Short => "the short side",
    }
}

fn falloff(given: &Given<'_>) -> Result<Answer, Problem> {
    let mut rig = Rig::of(given)?;
    let f = rig.focal_length()?;
    let frame = rig.must_frame()?;
    let m = rig.magnification(None)?;
    let moved = parse_movements(given.text("movements").unwrap_or_default());
    let figure = across(frame, f, m, moved.rise(), moved.shift())?;
    let straight = moved.rise() == 0.0 && moved.shift() == 0.0;
    let mut answer = Answer::of(figure, |found| {
        let stops = |value: f64| Amount::number(-value, "stops", 2);
        let mut lines = vec![Line::new("furthest corner", stops(found.far))];
        if !straight {
            lines.push(Line::new("nearest corner", stops(found.near)));
            lines.push(Line::new("middle of the film", stops(found.middle)));
        }
        lines
    });
    if moved.tilt() != 0.0 || moved.swing() != 0.0 {
        let says = "tilt and swing are not in this figure, only rise, fall and shift";
        answer = answer.remark(Concern::Note, says);
    }
    let filter = centre_filter(given)?;
    if let Some((stops, step)) = filter {
        let bellows = Stops::from_factor(number_at_film(1.0, m, 1.0).powi(2))
            .map_err(|why| Problem::of_all(why.to_string()))?;
        answer.steps.push(step);
        answer = answer
            .result(Line::new("centre filter takes", Amount::Stops(stops)))
            .result(Line::new(
                "its density",
                Amount::number(density(stops), "", 2),
            ));
        if m > 0.0 {
            let total = Stops::new(stops.value() + bellows.value())
                .map_err(|why| Problem::of_all(why.to_string()))?;
            answer
                .steps
                .push(Step::new("bellows", Amount::Stops(bellows)));
            answer = answer.result(Line::new("filter and bellows", Amount::Stops(total)));
        }
    }
    Ok(rig.tell(answer))
}

/// What a centre filter takes, by its factor or by its stops.
fn centre_filter(given: &Given<'_>) -> Result<Option<(Stops, Step)>, Problem> {
    let factor = given.number("filter_factor")?;
    let stops = given.may("filter_stops", Stops::parse)?;
    match (factor, stops) {
        (Some(_), Some(_)) => Err(given.problem(
            "filter_stops",
            "a centre filter has one strength: give its factor or its stops, not both",
        )),
        (Some(factor), None) => {
            let stops = filter_by_factor(factor)
                .map_err(|why| given.problem("filter_factor", why.to_string()))?;
            let step = Step::new("centre filter", Amount::Factor(factor))
                .working(format!("log2 {} = {stops}", Amount::number(factor, "", 2)))
                .on(ENGRAVED);
            Ok(Some((stops, step)))
        }
        (None, Some(stops)) if stops.value() < 0.0 => {
            Err(given.problem("filter_stops", "a centre filter takes light: write 1.5"))
        }
        (None, Some(stops)) => {
            let step = Step::new("centre filter", Amount::Stops(stops))
                .working(format!("a factor of {:.2}", stops.factor()));
            Ok(Some((stops, step)))
        }
        (None, None) => Ok(None),
    }
}

fn pinhole(given: &Given<'_>) -> Result<Answer, Problem> {
    let draw = given.must("draw", Millimetres::parse)?;
    let distance = given
        .may("distance", Distance::parse)?
        .unwrap_or(Distance::INFINITY);
    let wavelength = given.number("wavelength")?.unwrap_or(GREEN);
    let hole = given.may("hole", Millimetres::parse)?;
    let best = diameter(Rule::Rayleigh, draw, distance, wavelength)?;
    let table = rules(draw, distance, wavelength)?;
    let used = hole.map_or(best.value, Millimetres::value);
    let used = Millimetres::new(used).map_err(|why| Problem::of_all(why.to_string()))?;
    let number = number_of(draw, used)?;
    let mut answer = match hole {
        None => Answer::of(best, |hole| {
            vec![Line::new("hole by Rayleigh", Amount::number(hole, "mm", 3))]
        }),
        Some(hole) => {
            let fits = draw_for(Rule::Rayleigh, hole, wavelength)?;
            Answer::of(Figure::new((), Grounds::usual()), |()| Vec::new()).remark(
                Concern::Note,
                format!(
                    "by Rayleigh's rule this hole is the best {} from the film",
                    Amount::number(fits, "mm", 0)
                ),
            )
        }
    };
    let step =
        Step::new("f-number", Amount::number(number, "f", 0)).working(format!("{draw} / {used}"));
    answer = answer.result(Line::new("f-number", step.amount.clone()));
    answer.steps.push(step);
    match (
        given.may("time", Seconds::parse)?,
        given.may("aperture", Aperture::parse)?,
    ) {
        (Some(metered), Some(at)) => {
            let longer = time(metered, at.number(), number)?;
            answer
                .results
                .insert(0, Line::new("time", Amount::Time(longer.value)));
            answer.steps.extend(longer.steps);
            if longer.value.value() >= 1.0 {
                answer = answer.remark(
                    Concern::Warning,
                    "what the film loses in long exposures comes on top of this",
                );
            }
        }
        (Some(_), None) => return Err(given.missing("aperture")),
        (None, Some(_)) => return Err(given.missing("time")),
        (None, None) => {}
    }
    Ok(answer.table(table))
}

/// The hole by every rule, with what each rests on.
fn rules(draw: Millimetres, distance: Distance, wavelength: f64) -> Result<Table, Problem> {
    let mut rows = Vec::new();
    for rule in Rule::ALL {
        let hole = diameter(*rule, draw, distance, wavelength)?.value;
        rows.push(vec![
            Amount::words(rule.name()),
            Amount::number(hole, "mm", 3),
            Amount::number(draw.value() / hole, "", 0),
            Amount::words(rule.grounds().standing.word()),
        ]);
    }
    Ok(Table {
        heads: ["rule", "hole", "f-number", "standing"]
            .map(Into::into)
            .into(),
        rows,
    })
}
