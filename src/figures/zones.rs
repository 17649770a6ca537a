//! Figures of spot readings: where they fall, what to set, how to develop.

use super::answer::Table;
use super::light::{C, K, constants, likely, long_times, rated_film, settings, speed_or_film};
use super::{Answer, Ask, Book, Chapter, Given, Line, Problem, Recipe};
use crate::craft::exposure::{aperture_for, time_value};
use crate::craft::solve::{for_speed, offer};
use crate::craft::zones::{
    BASE_RANGE, Fall, Placement, by_range, development_words, log_exposure, parse_readings, place,
    zone_look, zone_name,
};
use crate::craft::{
    Amount, Aperture, Concern, ExposureValue, FilmSpeed, Grounds, Seconds, Standing, Step,
};

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "zones",
        title: "spot readings placed on zones: the setting, and what to develop",
        chapter: Chapter::Light,
        about: "Write each reading with the zone you want it on; the darkest placed one decides, the \
                others fall where they fall. Readings are EV at ISO 100 unless they say otherwise: \
                incident 12.3, 400 lx, 12 cd/m2, or a setting read at the speed of the film, 1/15 f/22. \
                A range is the difference of the readings, so from f/11 to f/22 counts two.",
        asks: &[
            Ask::typed(
                "readings",
                "readings",
                "each with its zone in Roman numerals, EV at ISO 100, shadow III 8.7, sky VIII 13.9",
            ),
            Ask::typed("speed", "film speed", "speed the film is exposed at, 320"),
            Ask::typed(
                "film",
                "film",
                "the film, for its speed when that is not given, FP4 Plus",
            )
            .from(Book::Films),
            Ask::typed("aperture", "aperture", "aperture that shall be set, f/22"),
            Ask::typed("time", "time", "or the time that shall be set, 1/2"),
            K,
            C,
        ],
        example: &[
            ("readings", "shadow III 8.7, sky VIII 13.9"),
            ("speed", "320"),
            ("aperture", "f/22"),
        ],
        answer: zones,
    },
    Recipe {
        word: "range",
        title: "the development that two incident readings ask for",
        chapter: Chapter::Light,
        about: "Read the light in the shadow and the light in the sun with an incident meter. The \
                difference of the two and a base range make the range of the subject, and a table says \
                what to develop: 7 stops is normal, each stop more one N less.",
        asks: &[
            Ask::typed(
                "shadow",
                "in the shadow",
                "incident reading in the shadow, EV 10",
            ),
            Ask::typed(
                "light",
                "in the light",
                "incident reading in the light, EV 13",
            ),
            Ask::typed(
                "base",
                "base range",
                "range of a subject in even light, in stops, 5",
            ),
        ],
        example: &[("shadow", "EV 10"), ("light", "EV 13")],
        answer: range,
    },
];

fn zones(given: &Given<'_>) -> Result<Answer, Problem> {
    let meter = constants(given)?;
    let speed = speed_or_film(given)?;
    let aperture = given.may("aperture", Aperture::parse)?;
    let time = given.may("time", Seconds::parse)?;
    let readings = given.must("readings", |text| parse_readings(text, speed, &meter))?;
    let mut figure = place(&readings).map_err(|why| given.problem("readings", why.to_string()))?;
    figure.steps.extend(rated_film(given));
    let for_film = speed.unwrap_or(FilmSpeed::ISO_100);
    let set = for_speed(figure.value.set, for_film)?;
    if for_film != FilmSpeed::ISO_100 {
        figure.steps.push(
            Step::new(format!("film of ISO {for_film}"), Amount::Ev(set))
                .working(format!("{} + log2({for_film} / 100)", figure.value.set)),
        );
    }
    let mut lines = setting(set, aperture, time)?;
    lines.push(Line::new(
        match speed {
            Some(speed) => format!("exposure value to set, at ISO {speed}"),
            None => "exposure value to set, at ISO 100".to_owned(),
        },
        Amount::Ev(set),
    ));
    if readings.len() > 1 {
        lines.push(Line::new(
            "range of the readings",
            Amount::Stops(figure.value.range),
        ));
    }
    if let Some(n) = figure.value.development {
        lines.push(Line::new(
            "development",
            Amount::words(development_words(n)),
        ));
    }
    let table = if readings.len() > 1 {
        falls(&figure.value)
    } else {
        settings(set)
    };
    let answer = Answer::of(figure, |_| lines).table(table);
    let answer = if aperture.is_some() && time.is_some() {
        answer.remark(
            Concern::Note,
            "aperture and time are both given: the time is reckoned for the aperture",
        )
    } else {
        answer
    };
    Ok(long_times(answer))
}

/// The setting for an exposure value: at the aperture or the time that was asked for, or a few.
fn setting(
    set: ExposureValue,
    aperture: Option<Aperture>,
    time: Option<Seconds>,
) -> Result<Vec<Line>, Problem> {
    if let Some(aperture) = aperture {
        let offer = offer(set, aperture)?;
        return Ok(vec![
            Line::new(format!("time at {aperture}"), Amount::Time(offer.wanted)),
            Line::new("to set", Amount::Time(offer.set.value)),
            Line::new("off by", Amount::Stops(offer.set.error)),
        ]);
    }
    if let Some(time) = time {
        let aperture = aperture_for(set, time)?;
        let error = set.value() - time_value(time) - aperture.stops();
        return Ok(vec![
            Line::new(format!("aperture at {time}"), Amount::Aperture(aperture)),
            Line::new("off by", Amount::number(error, "stops", 2)),
        ]);
    }
    Ok(likely(set))
}

/// Where each reading falls.
fn falls(placement: &Placement) -> Table {
    let row = |fall: &Fall| {
        let name = fall.reading.name.clone();
        let kind = if fall.reading.incident {
            "incident"
        } else {
            "spot"
        };
        let wanted = fall
            .reading
            .zone
            .map_or_else(String::new, |zone| zone.to_string());
        vec![
            Amount::words(name.unwrap_or_else(|| kind.to_owned())),
            Amount::Ev(fall.reading.value),
            Amount::words(wanted),
            Amount::words(zone_name(fall.zone)),
            Amount::words(zone_look(fall.zone)),
            Amount::number(log_exposure(fall.zone), "", 2),
        ]
    };
    Table {
        heads: vec![
            "reading".into(),
            "at ISO 100".into(),
            "wanted on".into(),
            "falls on".into(),
            "looks".into(),
            "log from V".into(),
        ],
        rows: placement.falls.iter().map(row).collect(),
    }
}

fn range(given: &Given<'_>) -> Result<Answer, Problem> {
    let shadow = given.must("shadow", ExposureValue::parse)?;
    let light = given.must("light", ExposureValue::parse)?;
    let base = given.number("base")?;
    if base.is_some_and(|base| !(1.0..=9.0).contains(&base)) {
        return Err(given.problem("base", "a base range lies between 1 and 9 stops, usually 5"));
    }
    let mut figure = by_range(shadow, light, base.unwrap_or(BASE_RANGE))?;
    let on = match base {
        Some(_) => Grounds::own("as given"),
        None => {
            // The table was read; with a base from memory what comes out of it is no better than that.
            let source = format!("{}, with the base from memory", figure.grounds.source);
            figure.grounds = Grounds::new(Standing::Remembered, source);
            Grounds::remembered("base range 5 stops, from memory")
        }
    };
    let base = Line::new(
        "base range",
        Amount::number(base.unwrap_or(BASE_RANGE), "stops", 1),
    )
    .on(on);
    Ok(Answer::of(figure, |n| {
        vec![
            Line::new("development", Amount::words(development_words(n))),
            Line::new("N", Amount::number(n, "zones", 1)),
            base,
        ]
    }))
}
