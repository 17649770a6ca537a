//! Figures of focusing: where the film goes, how large the subject becomes, what a bellows reaches.

use super::rig::{CAMERA, FOCAL_LENGTH, LENS, Rig};
use super::{Answer, Ask, Chapter, Given, Line, Problem, Recipe};
use crate::craft::optics::Distance;
use crate::craft::optics::conjugates::{
    Conjugates, from_distance, from_draw, from_magnification, from_object_to_film, from_sizes,
};
use crate::craft::optics::image::{focal_length_for, image_size};
use crate::craft::{Amount, Figure, Millimetres};

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "focus",
        title: "where lens and film go for a subject",
        chapter: Chapter::Focus,
        about: "A subject nearer than infinity is sharp further behind the lens, and larger. Give one \
                of: the distance from the lens, the span from subject to film (as over a copying \
                stand), the magnification, the size of the subject with its size on the film, or the \
                draw. With a camera and none of these, what its longest draw reaches is told.",
        asks: &[
            LENS,
            CAMERA,
            FOCAL_LENGTH,
            Ask::typed("distance", "distance", "from the lens to the subject, 1 m"),
            Ask::typed("span", "span", "from the subject to the film, 2.4 m"),
            Ask::typed(
                "magnification",
                "magnification",
                "size on the film over real size, 1/4",
            ),
            Ask::typed(
                "subject",
                "size of the subject",
                "how large it really is, 400 mm",
            ),
            Ask::typed(
                "image",
                "size on the film",
                "how large it shall become, 100 mm",
            ),
            Ask::typed("draw", "draw", "from the lens to the film, 176 mm"),
            Ask::typed(
                "flange",
                "flange distance",
                "from lens board to film at infinity, for telephoto and retrofocus lenses, 205 mm",
            ),
        ],
        example: &[("focal_length", "150 mm"), ("distance", "1 m")],
        answer: focus,
    },
    Recipe {
        word: "image",
        title: "size on the film, and the lens for it",
        chapter: Chapter::Focus,
        about: "How large something becomes on the film, or which focal length makes it as large as \
                wanted. Give its real size and its distance, and either the lens or the size on the \
                film.",
        asks: &[
            LENS,
            FOCAL_LENGTH,
            Ask::typed(
                "subject",
                "size of the subject",
                "how high or wide it really is, 12 m",
            ),
            Ask::typed("distance", "distance", "from the lens to it, 40 m"),
            Ask::typed(
                "image",
                "size on the film",
                "how large it shall become, 90 mm",
            ),
        ],
        example: &[
            ("subject", "12 m"),
            ("distance", "40 m"),
            ("image", "90 mm"),
        ],
        answer: image,
    },
];

fn focus(given: &Given<'_>) -> Result<Answer, Problem> {
    let mut rig = Rig::of(given)?;
    let f = rig.focal_length()?;
    let figure = in_focus(given, &mut rig, f)?;
    let m = figure.value.magnification;
    let answer = Answer::of(figure, |found| {
        vec![
            Line::new("lens to film", Amount::number(found.image, "mm", 1)),
            Line::new(
                "beyond infinity",
                Amount::number(found.extension(), "mm", 1),
            ),
            Line::new("magnification", Amount::number(m, "", 4)),
            Line::new("lens to subject", found.subject.amount()),
            Line::new("subject to film", found.object_to_film().amount()),
        ]
    });
    let answer = rig.on_the_rail(answer, f, m)?;
    Ok(rig.tell(answer))
}

/// By the one way that was given.
fn in_focus(
    given: &Given<'_>,
    rig: &mut Rig<'_>,
    f: Millimetres,
) -> Result<Figure<Conjugates>, Problem> {
    const WAYS: [&str; 5] = ["distance", "span", "magnification", "subject", "draw"];
    let mut ways = WAYS.into_iter().filter(|key| given.text(key).is_some());
    let way = ways.next();
    if let Some(second) = ways.next() {
        return Err(given.problem(
            second,
            "one way into focus is enough: leave out this or the other",
        ));
    }
    let beside = |key| move |why: crate::craft::Impossible| given.problem(key, why.to_string());
    match way {
        Some("distance") => {
            let distance = given.must("distance", Distance::parse)?;
            from_distance(f, distance).map_err(beside("distance"))
        }
        Some("span") => {
            let span = given.must("span", Distance::parse)?;
            from_object_to_film(f, span).map_err(beside("span"))
        }
        Some("magnification") => {
            let m = given.number("magnification")?.unwrap_or_default();
            from_magnification(f, m).map_err(beside("magnification"))
        }
        Some("subject") => {
            let subject = given.must("subject", Millimetres::parse)?;
            let image = given.must("image", Millimetres::parse)?;
            from_sizes(f, subject, image).map_err(beside("subject"))
        }
        Some(_) => {
            let draw = given.must("draw", Millimetres::parse)?;
            at_draw(rig, f, draw).map_err(|why| given.problem("draw", why.says))
        }
        None => match rig.longest_draw() {
            Some(longest) => at_draw(rig, f, longest),
            None => Err(given.missing("distance")),
        },
    }
}

/// A draw counts from the flange where that is known.
fn at_draw(
    rig: &mut Rig<'_>,
    f: Millimetres,
    draw: Millimetres,
) -> Result<Figure<Conjugates>, Problem> {
    match rig.flange()? {
        Some(flange) if flange.value() <= draw.value() && f.value() > 0.0 => {
            let m = (draw.value() - flange.value()) / f.value();
            Ok(from_magnification(f, m)?)
        }
        Some(flange) => Err(Problem::of_all(format!(
            "a draw of {draw} is shorter than the flange distance of {flange}: nothing is in focus \
             there"
        ))),
        None => Ok(from_draw(f, draw)?),
    }
}

fn image(given: &Given<'_>) -> Result<Answer, Problem> {
    let mut rig = Rig::of(given)?;
    let subject = given.must("subject", Millimetres::parse)?;
    let wanted = given.may("image", Millimetres::parse)?;
    let distance = given.may("distance", Distance::parse)?;
    let answer = match (wanted, distance) {
        (Some(wanted), Some(distance)) => {
            let figure = focal_length_for(wanted, subject, distance)?;
            let answer = Answer::of(figure, |f| {
                vec![Line::new("focal length", Amount::number(f, "mm", 1))]
            });
            match rig.may_focal_length()? {
                Some(f) => {
                    let here = image_size(f, subject, distance)?.value;
                    answer.result(Line::new(
                        format!("with {f}"),
                        Amount::number(here, "mm", 1),
                    ))
                }
                None => answer,
            }
        }
        (Some(wanted), None) => {
            let figure = from_sizes(rig.focal_length()?, subject, wanted)?;
            Answer::of(figure, |found| {
                vec![
                    Line::new("lens to subject", found.subject.amount()),
                    Line::new("magnification", Amount::number(found.magnification, "", 4)),
                ]
            })
        }
        (None, Some(distance)) => {
            let Some(f) = rig.may_focal_length()? else {
                let says =
                    "this is needed, or the focal length: write 90 mm for the size on the film";
                return Err(given.problem("image", says));
            };
            let figure = image_size(f, subject, distance)?;
            Answer::of(figure, |size| {
                vec![Line::new("on the film", Amount::number(size, "mm", 1))]
            })
        }
        (None, None) => return Err(given.missing("distance")),
    };
    Ok(rig.tell(answer))
}
