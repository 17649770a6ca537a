//! Figures without a meter: the light of a scene by name, and the sunny rule.

use super::answer::Table;
use super::light::{constants, likely, long_times, rated_film, settings, speed_or_film};
use super::{Answer, Ask, Book, Chapter, Given, Line, Problem, Recipe};
use crate::craft::exposure::{Setting, exposure_value, time_for};
use crate::craft::series::settable_time;
use crate::craft::solve::for_speed;
use crate::craft::{
    Amount, Aperture, Concern, ExposureValue, Figure, FilmSpeed, Grounds, Seconds, Step, Stops,
};
use crate::figures::OwnScene;
use crate::reference::{FilmLight, LightRule, Scene, Turn};

const SUN: &str = "the sun blinds: never look at it on the ground glass, through the lens or through \
                   a spot meter";

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "scene",
        title: "the usual light of a scene, and what to set for it",
        chapter: Chapter::Light,
        about: "Exposure values at ISO 100 that tables give for scenes from sunlit snow to starlight; \
                what you found yourself goes first. Without a scene it lists them. Direct sun is given \
                for light from the front, from two hours after sunrise to two hours before sunset.",
        asks: &[
            Ask::typed("scene", "scene", "what the light falls on, open shade").from(Book::Scenes),
            Ask::typed("side", "light from", "where direct sun comes from, side")
                .from(Book::Choice(&["front", "side", "back"])),
            Ask::typed("speed", "film speed", "speed the film is exposed at, 320"),
            Ask::typed(
                "film",
                "film",
                "the film, for its speed when that is not given, FP4 Plus",
            )
            .from(Book::Films),
            super::light::C,
        ],
        example: &[("scene", "open shade"), ("speed", "320")],
        answer: scene,
    },
    Recipe {
        word: "sunny",
        title: "daylight without a meter: the sunny rule, and what makers print for a film",
        chapter: Chapter::Light,
        about: "In full sun set f/16 and one over the film speed; open a stop for each step the light \
                gets weaker. Where a maker prints a table for the film, that comes first.",
        asks: &[
            Ask::typed(
                "light",
                "light",
                "snow, sun, weak sun, cloudy, shade, backlit, sunset or moon, sun",
            ),
            Ask::typed("speed", "film speed", "speed the film is exposed at, 100"),
            Ask::typed(
                "film",
                "film",
                "the film, for its speed and its own table, Tri-X 320",
            )
            .from(Book::Films),
        ],
        example: &[("light", "sun"), ("film", "Tri-X 320")],
        answer: sunny,
    },
];

/// The light of a scene, from the darker to the brighter end, at ISO 100.
struct Light {
    name: String,
    from: ExposureValue,
    to: ExposureValue,
    grounds: Grounds,
    note: String,
    direct_sun: bool,
}

fn scene(given: &Given<'_>) -> Result<Answer, Problem> {
    let speed = speed_or_film(given)?;
    let Some(typed) = given.text("scene") else {
        return list(given);
    };
    let mut light = named(given, typed)?;
    let mut steps = vec![
        Step::new(
            light.name.clone(),
            Amount::words(between(light.from, light.to)),
        )
        .on(light.grounds.clone()),
    ];
    steps.extend(rated_film(given));
    let turn = given.choice("side")?.filter(|side| *side != "front");
    let turn = turn.and_then(|side| given.desk().reference.turn(side));
    let mut says = Vec::new();
    if let Some(turn) = turn {
        if light.direct_sun {
            light = turned(light, turn)?;
            steps.push(
                Step::new(
                    turn.name.clone(),
                    Amount::number(turn.value.value(), "EV", 1),
                )
                .brings(Amount::words(between(light.from, light.to)))
                .on(turn.grounds.clone()),
            );
        } else {
            says.push(format!(
                "{} matters in direct sun only, and changes nothing here",
                turn.name
            ));
        }
    }
    let film = speed.unwrap_or(FilmSpeed::ISO_100);
    let (from, to) = (for_speed(light.from, film)?, for_speed(light.to, film)?);
    let middle = ExposureValue::new((from.value() + to.value()) / 2.0)?;
    if film != FilmSpeed::ISO_100 {
        steps.push(
            Step::new(
                format!("film of ISO {film}"),
                Amount::words(between(from, to)),
            )
            .working(format!("+ log2({film} / 100)")),
        );
    }
    let mut lines = vec![
        Line::new(
            "light, at ISO 100",
            Amount::words(between(light.from, light.to)),
        )
        .on(light.grounds.clone()),
    ];
    lines.extend(likely(middle));
    let figure = Figure {
        steps,
        ..Figure::new((), light.grounds)
    };
    let mut answer = Answer::of(figure, |()| lines).table(settings(middle));
    if to > from {
        says.push(format!(
            "the settings are for the middle of the range; its ends lie {} to either side",
            Stops::new((to.value() - from.value()) / 2.0)?
                .to_string()
                .trim_start_matches('+')
        ));
    }
    if !light.note.is_empty() {
        says.push(light.note);
    }
    for words in says {
        answer = answer.remark(Concern::Note, words);
    }
    if light.direct_sun && turn.is_some_and(|turn| turn.id == "back") {
        answer = answer.remark(Concern::Warning, SUN);
    }
    Ok(long_times(answer))
}

/// A range of exposure values in words.
pub(super) fn between(from: ExposureValue, to: ExposureValue) -> String {
    if to > from {
        format!("{from} to {}", to.to_string().trim_start_matches("EV "))
    } else {
        from.to_string()
    }
}

fn turned(light: Light, turn: &Turn) -> Result<Light, Problem> {
    let by = |value: ExposureValue| ExposureValue::new(value.value() + turn.value.value());
    Ok(Light {
        from: by(light.from)?,
        to: by(light.to)?,
        ..light
    })
}

/// The scene that was typed: the user's own first.
fn named(given: &Given<'_>, typed: &str) -> Result<Light, Problem> {
    if let Some(own) = own_scene(given, typed) {
        return Ok(Light {
            from: own.value,
            to: own.value,
            grounds: Grounds::own(format!("own finding, {}", own.on)),
            note: String::new(),
            direct_sun: false,
            name: own.scene,
        });
    }
    let scene = given.desk().reference.scene(typed).ok_or_else(|| {
        given.problem(
            "scene",
            format!(
                "no one scene is called \"{typed}\": write more of its name, such as open shade, or \
                 leave it out to see the list"
            ),
        )
    })?;
    let (from, to) = scene.light.values(&constants(given)?)?;
    Ok(Light {
        name: scene.name.clone(),
        from,
        to,
        grounds: Grounds::new(scene.standing, scene.source.clone()),
        note: scene.note.clone(),
        direct_sun: scene.direct_sun,
    })
}

/// The latest finding of the user's for a scene that is called so.
fn own_scene(given: &Given<'_>, typed: &str) -> Option<OwnScene> {
    let wanted = typed.to_lowercase();
    let mut scenes = given.desk().kit.findings().scenes;
    scenes.reverse();
    scenes
        .into_iter()
        .find(|own| own.scene.to_lowercase() == wanted)
}

/// Every scene, the user's own first.
fn list(given: &Given<'_>) -> Result<Answer, Problem> {
    let meter = constants(given)?;
    let own = given.desk().kit.findings().scenes;
    let own = own.iter().rev().map(|own| {
        vec![
            Amount::words(own.scene.clone()),
            Amount::words(own.value.to_string()),
            Amount::words(format!("own, {}", own.on)),
        ]
    });
    let row = |scene: &Scene| {
        let (from, to) = scene.light.values(&meter)?;
        Ok(vec![
            Amount::words(scene.name.clone()),
            Amount::words(between(from, to)),
            Amount::words(scene.standing.word()),
        ])
    };
    let scenes: Result<Vec<_>, Problem> = given.desk().reference.scenes().iter().map(row).collect();
    let rows: Vec<Vec<Amount>> = own.chain(scenes?).collect();
    let count = Line::new("scenes", Amount::number(rows.len() as f64, "", 0));
    let grounds =
        Grounds::published("exposure guides as tabulated; each scene names its own source");
    Ok(
        Answer::of(Figure::new((), grounds), |()| vec![count]).table(Table {
            heads: vec!["scene".into(), "at ISO 100".into(), "standing".into()],
            rows,
        }),
    )
}

fn sunny(given: &Given<'_>) -> Result<Answer, Problem> {
    let reference = given.desk().reference;
    let speed = speed_or_film(given)?;
    let film = given.text("film").and_then(|typed| reference.film(typed));
    let printed = film.and_then(|film| reference.film_light(&film.id));
    let Some(speed) = speed else {
        return Err(given.missing("speed"));
    };
    let light = match given.text("light") {
        None => None,
        Some(typed) => Some(reference.light(typed).ok_or_else(|| {
            given.problem(
                "light",
                format!("no light is called \"{typed}\": write snow, sun, weak sun, cloudy, shade, backlit, sunset or moon"),
            )
        })?),
    };
    let by_rule = Seconds::new(1.0 / f64::from(speed.value()))?;
    let mut lines = Vec::new();
    let mut figure = Figure::new((), Grounds::usual());
    figure.steps.extend(rated_film(given));
    if let Some(light) = light {
        let own_table = printed.and_then(|table| Some((table, *table.apertures.get(&light.id)?)));
        if let Some((table, aperture)) = own_table {
            lines.push(
                Line::new(
                    format!("printed for the film, at {}", table.time),
                    Amount::Aperture(aperture),
                )
                .on(table.grounds.clone()),
            );
            figure.grounds = table.grounds.clone();
        }
        if let Some((aperture, on)) = &light.rule {
            let set = settable_time(by_rule);
            lines.push(
                Line::new(
                    format!("by the rule, at {by_rule}"),
                    Amount::Aperture(*aperture),
                )
                .on(on.clone()),
            );
            let value = exposure_value(Setting {
                aperture: *aperture,
                time: by_rule,
            });
            figure.steps.push(
                Step::new(light.name.clone(), Amount::Ev(value))
                    .working(format!(
                        "{aperture} at 1 / {speed} s; the nearest mark is {}",
                        set.value
                    ))
                    .on(on.clone()),
            );
            let f_22 = Aperture::new(22.0)?;
            lines.push(Line::new(
                "the same at f/22",
                Amount::Time(time_for(value, f_22)?),
            ));
            if own_table.is_none() {
                figure.grounds = on.clone();
            }
        }
        if lines.is_empty() {
            return Err(given.problem(
                "light",
                format!("for \"{}\" there is no general rule, only tables for single films: meter it, or name a film that has one, Tri-X 320", light.name),
            ));
        }
    } else {
        lines.push(Line::new("time for the rule", Amount::Time(by_rule)));
    }
    let table = rules(reference.lights(), printed, by_rule);
    let mut answer = Answer::of(figure, |()| lines).table(table);
    if light.is_none_or(|light| !matches!(light.id.as_str(), "moon" | "sunset")) {
        answer = answer.remark(
            Concern::Note,
            "for light from the front, from two hours after sunrise to two hours before sunset",
        );
    }
    if light.is_some_and(|light| light.id == "moon") {
        answer = answer.remark(
            Concern::Note,
            "exposure guides give the full moon 1.4 stops less than this rule",
        );
    }
    if light.is_some_and(|light| matches!(light.id.as_str(), "backlit" | "sunset")) {
        answer = answer.remark(Concern::Warning, SUN);
    }
    Ok(answer)
}

/// Every kind of light, by the rule and as printed for the film.
fn rules(lights: &[LightRule], printed: Option<&FilmLight>, by_rule: Seconds) -> Table {
    let cell =
        |aperture: Option<Aperture>| aperture.map_or_else(|| Amount::words(""), Amount::Aperture);
    let mut heads = vec!["light".into(), format!("at {by_rule}").into()];
    if let Some(table) = printed {
        heads.push(format!("printed, at {}", table.time).into());
    }
    let row = |light: &LightRule| {
        let rule = light.rule.as_ref().map(|(aperture, _)| *aperture);
        let mut row = vec![Amount::words(light.name.clone()), cell(rule)];
        if let Some(table) = printed {
            row.push(cell(table.apertures.get(&light.id).copied()));
        }
        row
    };
    Table {
        heads,
        rows: lights.iter().map(row).collect(),
    }
}
