//! Figures of light and setting: exposure values, the one of four that is missing, meters.
//!
//! What other figures of light share stands here too: which constants the meter has, which speed the
//! film, and the settings that serve an exposure value.

use super::answer::Table;
use super::{Answer, Ask, Book, Chapter, Given, Line, Problem, Recipe};
use crate::craft::exposure::{Setting, exposure_value};
use crate::craft::meter::{
    Constants, Shown, at_100, brightness_value, exposure_on_film, illuminance, key_stop,
    key_stop_time, luminance, older_brightness_value,
};
use crate::craft::solve::{Found, Known, Offer, for_speed, missing, offers};
use crate::craft::{
    Amount, Aperture, Brightness, Concern, ExposureValue, Figure, FilmSpeed, Grounds, Seconds,
    Step, Unreadable,
};
use crate::reference::Film;

/// K and C are asked in the same words everywhere.
pub(super) const K: Ask = Ask::typed(
    "k",
    "K of the meter",
    "constant of a reflected-light meter in cd/m2, 12.5; some makers build to 14",
);
pub(super) const C: Ask = Ask::typed(
    "c",
    "C of the meter",
    "constant of an incident-light meter in lux, 250 for a flat receptor, 340 for a dome",
);
pub(super) const SPEED: Ask = Ask::typed(
    "speed",
    "film speed",
    "speed the film is exposed at, 400; ISO 100 if left out",
);

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "ev",
        title: "what a setting comes to as an exposure value, and in light",
        chapter: Chapter::Light,
        about: "One number for an aperture and a time: EV 0 is f/1 at 1 s, and each step halves the \
                exposure. With the film speed it says how bright a surface the setting renders as a \
                middle tone, and how much light falls there.",
        asks: &[
            Ask::typed("aperture", "aperture", "aperture that is set, f/22+1/3"),
            Ask::typed("time", "time", "time that is set, 1/15 or 4 s"),
            SPEED,
            K,
            C,
        ],
        example: &[("aperture", "f/22"), ("time", "1/15"), ("speed", "400")],
        answer: ev,
    },
    Recipe {
        word: "solve",
        title: "the missing one of light, aperture, time and film speed",
        chapter: Chapter::Light,
        about: "Give any three of the four and it finds the fourth; with the light alone, or the light \
                and the film speed, it lists the settings. Light is an exposure value at ISO 100, or \
                what a meter reads in lux or candela.",
        asks: &[
            Ask::typed(
                "light",
                "light",
                "exposure value at ISO 100, or a reading with its unit, 12.3 or 400 lx or 64 cd/m2",
            ),
            Ask::typed("aperture", "aperture", "aperture, f/22"),
            Ask::typed("time", "time", "time, 1/15"),
            Ask::typed("speed", "film speed", "speed the film is exposed at, 400"),
            K,
            C,
        ],
        example: &[("light", "12"), ("aperture", "f/22"), ("speed", "320")],
        answer: solve,
    },
    Recipe {
        word: "meter",
        title: "a meter reading in all its units",
        chapter: Chapter::Light,
        about: "Turns an exposure value into candela and lux and back, by the constants K and C of the \
                meter. They differ from maker to maker; a reflected and an incident meter agree on a \
                card of pi K / C, which is seldom the 18 % of the grey card.",
        asks: &[
            Ask::typed(
                "reading",
                "reading",
                "what the meter shows, 12.3 or 400 lx or 37 fc or 64 cd/m2 or 3.5 fL",
            ),
            Ask::typed(
                "speed",
                "film speed",
                "speed the meter is set to when it shows EV, 400; ISO 100 if left out",
            ),
            Ask::typed("k", K.label, K.hint),
            C,
            Ask::typed(
                "receptor",
                "receptor",
                "flat disc or dome of an incident meter when C is not given, dome",
            )
            .from(Book::Choice(&["flat", "dome"])),
        ],
        example: &[("reading", "64 cd/m2"), ("speed", "400")],
        answer: meter,
    },
];

/// The constants of the meter: as typed, else the user's own, else the usual ones.
pub(super) fn constants(given: &Given<'_>) -> Result<Constants, Problem> {
    let mut meter = Constants::default();
    if given.choice("receptor")? == Some("dome") {
        meter = meter.with_dome();
    }
    if let Some(own) = given.desk().kit.findings().meter {
        let on = || Grounds::own(format!("own meter, {}", own.on));
        if let Some(k) = own.reflected {
            meter = meter.with_reflected(k, on())?;
        }
        if let Some(c) = own.incident {
            meter = meter.with_incident(c, on())?;
        }
    }
    let typed = || Grounds::own("as given");
    if let Some(k) = given.number("k")? {
        let with = meter.with_reflected(k, typed());
        meter = with.map_err(|why| given.problem("k", why.to_string()))?;
    }
    if let Some(c) = given.number("c")? {
        let with = meter.with_incident(c, typed());
        meter = with.map_err(|why| given.problem("c", why.to_string()))?;
    }
    Ok(meter)
}

/// The speed that was given, or else that of the film that was named.
pub(super) fn speed_or_film(given: &Given<'_>) -> Result<Option<FilmSpeed>, Problem> {
    if let Some(speed) = given.may("speed", FilmSpeed::parse)? {
        return Ok(Some(speed));
    }
    let Some(typed) = given.text("film") else {
        return Ok(None);
    };
    let film = given.desk().reference.film(typed);
    match film.and_then(Film::rated) {
        Some((speed, _)) => Ok(Some(speed)),
        None => Err(given.problem(
            "film",
            format!("the speed of \"{typed}\" is not known here: give the film speed itself, 400"),
        )),
    }
}

/// The speed of the film that was named, where it is reckoned with, and what it rests on.
pub(super) fn rated_film(given: &Given<'_>) -> Option<Step> {
    if given.text("speed").is_some() {
        return None;
    }
    let film = given.desk().reference.film(given.text("film")?)?;
    let (speed, rests) = film.rated()?;
    let name = format!("speed of {}", film.full_name());
    Some(Step::new(name, Amount::Speed(speed)).on(rests))
}

/// The settings that were offered, with what each misses of what is wanted.
pub(super) fn settings(value: ExposureValue) -> Table {
    let row = |offer: &Offer| {
        vec![
            Amount::Aperture(offer.aperture),
            Amount::Time(offer.wanted),
            Amount::Time(offer.set.value),
            Amount::Stops(offer.set.error),
        ]
    };
    Table {
        heads: vec![
            "aperture".into(),
            "time".into(),
            "set".into(),
            "off by".into(),
        ],
        rows: offers(value).iter().map(row).collect(),
    }
}

/// Two or three settings for a view camera: f/16, f/22 and f/32, as far as the shutter has a time; in
/// light too bright for those, the first aperture at which it has one.
pub(super) fn likely(value: ExposureValue) -> Vec<Line> {
    let line = |offer: &Offer| {
        Line::new(
            format!("at {}", offer.aperture),
            Amount::Time(offer.set.value),
        )
    };
    let offers = offers(value);
    let usual = |offer: &&Offer| (8.0..=10.0).contains(&offer.aperture.stops());
    let lines: Vec<Line> = offers.iter().filter(usual).map(line).collect();
    if lines.is_empty() {
        offers.first().map(line).into_iter().collect()
    } else {
        lines
    }
}

/// The answer with what is to be said where it shows times at which film needs more.
pub(super) fn long_times(answer: Answer) -> Answer {
    let lines = answer.results.iter().map(|line| &line.amount);
    let rows = answer
        .table
        .iter()
        .flat_map(|table| table.rows.iter().flatten());
    let long = |amount: &Amount| matches!(amount, Amount::Time(time) if time.value() > 1.0);
    if lines.chain(rows).any(long) {
        answer.remark(
            Concern::Note,
            "times above a second are as the meter wants them; film needs longer then, by its \
             reciprocity",
        )
    } else {
        answer
    }
}

/// The light at an exposure value, in the units of both kinds of meter.
fn light_lines(at_100: ExposureValue, meter: &Constants) -> Result<Vec<Line>, Problem> {
    let speed = FilmSpeed::ISO_100;
    let out = |why: Unreadable| Problem::of_all(why.to_string());
    let seen = luminance(at_100, speed, meter).map_err(out)?;
    let fell = illuminance(at_100, speed, meter).map_err(out)?;
    Ok(vec![
        Line::new("middle tone", Amount::measured(seen.value(), "cd/m2"))
            .on(meter.reflected_on().clone()),
        Line::new(
            "middle tone, in fL",
            Amount::measured(seen.foot_lamberts(), "fL"),
        ),
        Line::new("light falling on it", Amount::measured(fell.value(), "lx"))
            .on(meter.incident_on().clone()),
        Line::new(
            "light falling, in fc",
            Amount::measured(fell.foot_candles(), "fc"),
        ),
    ])
}

fn ev(given: &Given<'_>) -> Result<Answer, Problem> {
    let aperture = given.must("aperture", Aperture::parse)?;
    let time = given.must("time", Seconds::parse)?;
    let speed = given.may("speed", FilmSpeed::parse)?;
    let meter = constants(given)?;
    let set = exposure_value(Setting { aperture, time });
    let found = missing(Known {
        light: None,
        aperture: Some(aperture),
        time: Some(time),
        speed: Some(speed.unwrap_or(FilmSpeed::ISO_100)),
    })?;
    let Found::Light(light) = found.value else {
        return Err(Problem::of_all("the light was not found"));
    };
    let mut lines = vec![Line::new("exposure value", Amount::Ev(set))];
    if speed.is_some_and(|speed| speed != FilmSpeed::ISO_100) {
        lines.push(Line::new("light, at ISO 100", Amount::Ev(light)));
    }
    lines.extend(light_lines(light, &meter)?);
    Ok(with_remarks(Answer::of(found, |_| lines), &meter))
}

fn with_remarks(mut answer: Answer, meter: &Constants) -> Answer {
    answer.remarks.extend(meter.remarks());
    answer
}

/// What was typed as light, at ISO 100.
fn light(
    given: &Given<'_>,
    key: &'static str,
    meter: &Constants,
) -> Result<Option<Figure<ExposureValue>>, Problem> {
    given
        .may(key, |text| shown(text, FilmSpeed::ISO_100))?
        .map(|shown| at_100(shown, meter).map_err(|why| given.problem(key, why.to_string())))
        .transpose()
}

/// A reading with its unit, or an exposure value for film of this speed.
fn shown(text: &str, speed: FilmSpeed) -> Result<Shown, Unreadable> {
    Brightness::parse(text)
        .map(Shown::Light)
        .or_else(|_| ExposureValue::parse(text).map(|value| Shown::Value(value, speed)))
        .map_err(|why| Unreadable {
            wanted: "a reading: write 12.3, EV 12.3, 400 lx, 37 fc, 64 cd/m2 or 3.5 fL",
            ..why
        })
}

fn solve(given: &Given<'_>) -> Result<Answer, Problem> {
    let meter = constants(given)?;
    let light = light(given, "light", &meter)?;
    let known = Known {
        light: light.as_ref().map(|light| light.value),
        aperture: given.may("aperture", Aperture::parse)?,
        time: given.may("time", Seconds::parse)?,
        speed: given.may("speed", FilmSpeed::parse)?,
    };
    if let (Some(light), None, None) = (&light, known.aperture, known.time) {
        let speed = known.speed.unwrap_or(FilmSpeed::ISO_100);
        let set = for_speed(light.value, speed)?;
        let mut figure = light.clone();
        if speed != FilmSpeed::ISO_100 {
            figure.steps.push(
                Step::new(format!("film of ISO {speed}"), Amount::Ev(set))
                    .working(format!("{} + log2({speed} / 100)", light.value)),
            );
        }
        let mut lines = vec![Line::new("exposure value to set", Amount::Ev(set))];
        lines.extend(likely(set));
        let answer = Answer::of(figure, |_| lines).table(settings(set));
        return Ok(long_times(answer));
    }
    let mut found = missing(known)?;
    if let Some(light) = light {
        found.steps.splice(0..0, light.steps);
    }
    let lines = match found.value {
        Found::Light(light) => vec![Line::new("light, at ISO 100", Amount::Ev(light))],
        Found::Aperture(aperture, error) => vec![
            Line::new("aperture", Amount::Aperture(aperture)),
            Line::new("off by", Amount::number(error, "stops", 2)),
        ],
        Found::Time(time) => {
            let set = crate::craft::series::settable_time(time);
            vec![
                Line::new("time", Amount::Time(time)),
                Line::new("to set", Amount::Time(set.value)),
                Line::new("off by", Amount::Stops(set.error)),
            ]
        }
        Found::Speed(speed) => vec![Line::new("film speed", Amount::Speed(speed))],
    };
    Ok(Answer::of(found, |_| lines))
}

fn meter(given: &Given<'_>) -> Result<Answer, Problem> {
    let meter = constants(given)?;
    let speed = given.may("speed", FilmSpeed::parse)?;
    let for_speed_of = speed.unwrap_or(FilmSpeed::ISO_100);
    let shown = given.must("reading", |text| shown(text, for_speed_of))?;
    let mut figure =
        at_100(shown, &meter).map_err(|why| given.problem("reading", why.to_string()))?;
    let light = figure.value;
    let seen = luminance(light, FilmSpeed::ISO_100, &meter)
        .map_err(|why| given.problem("reading", why.to_string()))?;
    let mut lines = vec![Line::new("light, at ISO 100", Amount::Ev(light))];
    if let Some(speed) = speed {
        lines.push(Line::new(
            format!("to set, at ISO {speed}"),
            Amount::Ev(for_speed(light, speed)?),
        ));
    }
    lines.extend(light_lines(light, &meter)?);
    let card = meter.agreeing_reflectance() * 100.0;
    lines.push(Line::new(
        "card on which both kinds agree",
        Amount::number(card, "%", 1),
    ));
    if given
        .text("reading")
        .is_some_and(|text| text.contains("/ft"))
    {
        lines.push(Line::new(
            "key stop",
            Amount::words(format!("f/{:.1}", key_stop(for_speed_of))),
        ));
        lines.push(Line::new(
            "time at the key stop",
            Amount::Time(key_stop_time(seen)?),
        ));
    }
    figure.steps.push(
        Step::new(
            "Bv",
            Amount::number(brightness_value(light, FilmSpeed::ISO_100), "", 2),
        )
        .working("Ev - Sv, with Sv 5 for ISO 100"),
    );
    figure.steps.push(
        Step::new(
            "Bv by the older constant",
            Amount::number(older_brightness_value(seen), "", 2),
        )
        .working("log2(L / (0.3 x 11.4))")
        .on(Grounds::published(
            "\"APEX\", French encyclopedia in translation",
        )),
    );
    figure.steps.push(
        Step::new(
            "middle tone on the film",
            Amount::measured(exposure_on_film(for_speed_of), "lx s"),
        )
        .working(format!("8.12 / {for_speed_of}, for K 12.5"))
        .on(Grounds::published(
            "Photrio thread 135325, quoting the American meter standard (second-hand)",
        )),
    );
    Ok(with_remarks(Answer::of(figure, |_| lines), &meter))
}

#[cfg(test)]
mod tests;
