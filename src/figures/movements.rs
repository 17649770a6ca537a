//! Figures of rise, fall and shift: what the image circle allows, rise by the rail, moved viewpoints.

use super::rig::{CAMERA, FOCAL_LENGTH, FORMAT, LENS, MAGNIFICATION, Rig, WAY};
use super::{Answer, Ask, Chapter, Given, Line, Problem, Recipe};
use crate::craft::optics::Distance;
use crate::craft::optics::coverage::{GEOMETRY, circle_asked, corner_needs};
use crate::craft::optics::displacement::{angle_for, keeping_draw, keeping_rail, slip};
use crate::craft::optics::movements::parse_movements;
use crate::craft::optics::room::{room_in, turned_room};
use crate::craft::{Amount, Concern, Figure, Millimetres, Step};

/// The movements, in one field.
pub(super) const MOVEMENTS: Ask = Ask::typed(
    "movements",
    "movements",
    "rise, fall, shift in millimetres, tilt and swing in degrees, of the front unless the back is \
     named, front rise 12 mm, shift 10 left, tilt 5",
);

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "coverage",
        title: "whether the image circle reaches the corners",
        chapter: Chapter::Focus,
        about: "A lens draws a circle; the film must lie inside it wherever the movements put it. The \
                answer is the circle that these movements ask for and, with the circle of the lens, \
                how far it lets you go. Circles are quoted for infinity and a small aperture, and \
                grow as the lens is racked out. Store the circle of a lens and not its angle: the two \
                do not always agree.",
        asks: &[
            FORMAT,
            WAY,
            Ask::typed(
                "image_circle",
                "image circle",
                "diameter of the image circle of the lens at infinity, 220 mm",
            ),
            MOVEMENTS,
            LENS,
            FOCAL_LENGTH,
            MAGNIFICATION,
            Ask::typed(
                "distance",
                "distance",
                "from the lens to the subject, for the magnification if that is not given, 3 m",
            ),
            CAMERA,
        ],
        example: &[
            ("format", "4x5"),
            ("image_circle", "220 mm"),
            ("movements", "front rise 20"),
        ],
        answer: coverage,
    },
    Recipe {
        word: "rise",
        title: "rise or shift by pointing the rail",
        chapter: Chapter::Focus,
        about: "Where the direct rise runs out, point the rail up and bring both standards back \
                upright: that is a rise. The standards must go apart to keep the draw. Turned sideways \
                it is a shift. Direct and indirect movements add up against the image circle.",
        asks: &[
            Ask::typed("draw", "draw", "from lens to film, 150 mm"),
            Ask::typed(
                "angle",
                "angle",
                "how far the rail is pointed, in degrees, 10",
            ),
            Ask::typed("rise", "rise wanted", "instead of the angle, 40 mm"),
        ],
        example: &[("draw", "150 mm"), ("angle", "10")],
        answer: rise,
    },
    Recipe {
        word: "parallax",
        title: "near against far when the lens moves",
        chapter: Chapter::Focus,
        about: "Rise, fall or shift of the lens moves the viewpoint, so near things move against far \
                ones; the same movement of the back does not. This tells by how much on the film.",
        asks: &[
            LENS,
            FOCAL_LENGTH,
            Ask::typed("moved", "moved", "rise, fall or shift of the lens, 30 mm"),
            Ask::typed("near", "near thing", "distance of the near thing, 1.5 m"),
            Ask::typed(
                "far",
                "far thing",
                "distance of what lies behind it, infinity",
            ),
        ],
        example: &[
            ("focal_length", "150 mm"),
            ("moved", "30 mm"),
            ("near", "1.5 m"),
            ("far", "infinity"),
        ],
        answer: parallax,
    },
];

fn coverage(given: &Given<'_>) -> Result<Answer, Problem> {
    let mut rig = Rig::of(given)?;
    let frame = rig.must_frame()?;
    let circle = rig.image_circle()?;
    let f = rig.may_focal_length()?;
    let m = rig.magnification(f)?;
    let moved = parse_movements(given.text("movements").unwrap_or_default());
    if !moved.other.is_empty() {
        let says = format!(
            "\"{}\" is no movement: write front rise 12 mm, shift 10 left or tilt 5",
            moved.other.join(" ")
        );
        return Err(given.problem("movements", says));
    }
    let turned = moved.tilt() != 0.0 || moved.swing() != 0.0;
    if turned && f.is_none() {
        return Err(given.problem(
            "focal_length",
            "a tilted lens points its circle elsewhere, and how far goes by the focal length: 150 mm",
        ));
    }
    let on_film = corner_needs(frame, moved.rise(), moved.shift());
    let (needed, mut answer) = match f {
        Some(f) => {
            let figure = circle_asked(frame, &moved, f, m)?;
            (figure.value.circle, Answer::of(figure, |_| Vec::new()))
        }
        None => (
            on_film / (1.0 + m),
            Answer::of(plain(on_film, m), |_| Vec::new()),
        ),
    };
    answer
        .results
        .push(Line::new("circle needed", Amount::number(needed, "mm", 1)));
    let Some(circle) = circle else {
        return Ok(rig.tell(answer));
    };
    let room = match f.filter(|_| turned) {
        Some(f) => {
            answer.steps.push(Step::new(
                "most rise and shift",
                Amount::words("found by trying, with the tilt and swing as set"),
            ));
            turned_room(circle, frame, &moved, f, m)?
        }
        None => {
            let room = room_in(circle, frame, m, moved.rise(), moved.shift())?;
            answer.steps.extend(room.steps);
            answer.remarks.extend(room.remarks);
            room.value
        }
    };
    let (upward, aside) = (
        if moved.rise() < 0.0 { "fall" } else { "rise" },
        if moved.shift() < 0.0 {
            "shift to the left"
        } else {
            "shift"
        },
    );
    for (name, limit) in [(upward, room.rise), (aside, room.shift)] {
        let amount = limit.map_or_else(
            || Amount::words("none"),
            |limit| Amount::number(limit, "mm", 1),
        );
        answer
            .results
            .push(Line::new(format!("most {name}"), amount));
    }
    if needed > circle.value() {
        let short = Amount::number(needed - circle.value(), "mm", 1);
        answer = answer.remark(
            Concern::Warning,
            format!("the circle is {short} too small for these movements: a corner stays dark"),
        );
    }
    Ok(rig.tell(answer))
}

/// The circle at infinity for one that is needed on the film.
fn plain(on_film: f64, m: f64) -> Figure<f64> {
    let figure = Figure::new(on_film / (1.0 + m), GEOMETRY).step(Step::new(
        "through the furthest corner",
        Amount::number(on_film, "mm", 1),
    ));
    if m > 0.0 {
        let at_infinity = Amount::number(on_film / (1.0 + m), "mm", 1);
        return figure.step(
            Step::new("circle at infinity", at_infinity)
                .working(format!("{on_film:.1} / (1 + {})", Amount::number(m, "", 3))),
        );
    }
    figure
}

fn rise(given: &Given<'_>) -> Result<Answer, Problem> {
    let draw = given.must("draw", Millimetres::parse)?;
    let angle = match (
        given.number("angle")?,
        given.may("rise", Millimetres::parse)?,
    ) {
        (Some(_), Some(_)) => {
            return Err(given.problem("rise", "give the angle or the rise wanted, not both"));
        }
        (Some(angle), None) => angle,
        (None, Some(rise)) => angle_for(draw, rise)?,
        (None, None) => return Err(given.missing("angle")),
    };
    let left = keeping_rail(draw, angle)?.value;
    let answer = Answer::of(keeping_draw(draw, angle)?, |found| {
        vec![
            Line::new("rise", Amount::number(found.rise, "mm", 1)),
            Line::new("rail pointed by", Amount::degrees(angle)),
            Line::new("standards apart", Amount::number(found.along, "mm", 1)),
        ]
    });
    Ok(answer.remark(
        Concern::Note,
        format!(
            "left {draw} apart on the rail they would give {} of rise and only {} of draw",
            Amount::number(left.rise, "mm", 1),
            Amount::number(left.draw, "mm", 1)
        ),
    ))
}

fn parallax(given: &Given<'_>) -> Result<Answer, Problem> {
    let mut rig = Rig::of(given)?;
    let f = rig.focal_length()?;
    let moved = given.must("moved", Millimetres::parse)?;
    let near = given.must("near", Distance::parse)?;
    let far = given.must("far", Distance::parse)?;
    let answer = Answer::of(slip(moved, f, near, far)?, |slip| {
        vec![Line::new("slip on the film", Amount::number(slip, "mm", 2))]
    });
    Ok(rig.tell(answer))
}
