//! Silver gelatin under the enlarger: a time carried over, parts burned and dodged, two filters.

use super::super::{Answer, Ask, Chapter, Given, Line, Problem, Recipe, Table};
use super::paper::{FILTERED, filter_change};
use super::with_unit;
use crate::craft::printing::burning::{Exposure, Split, plan, read_parts, split};
use crate::craft::printing::enlarging::{
    Change, changed, dry_down_percent, dry_down_stops, enlargement,
};
use crate::craft::{Amount, Aperture, Concern, Density, Seconds, Size, Stops, magnification};

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "reprint",
        title: "an enlarging time carried over from another print",
        chapter: Chapter::Printing,
        about: "The time of one print carried to another: a larger image, another aperture, filter or \
                paper, another negative whose same tone has another density, a decision in stops, the \
                darkening of drying. Each change is told in stops. Give only what changed. Enlargement is \
                the image against the negative, not the sheet of paper; light spreads by the distance it \
                goes, which is less than the areas would have it.",
        asks: &[
            Ask::typed("time", "time", "the time that was right, 12.5 s"),
            Ask::typed(
                "from",
                "enlargement",
                "enlargement then, 2x; or the image, 8x10, with the negative",
            ),
            Ask::typed("to", "to", "enlargement now, 4x; or the image, 16x20"),
            Ask::typed(
                "negative",
                "negative",
                "size of the negative where images are given, 4x5",
            ),
            Ask::typed("aperture", "aperture", "aperture then, f/8"),
            Ask::typed("to_aperture", "to", "aperture now, f/11"),
            Ask::typed("filter", "filter", "filter then, 2"),
            Ask::typed("to_filter", "to", "filter now, 4"),
            FILTERED,
            Ask::typed("speed", "paper speed", "ISO(P) of the paper then, 200"),
            Ask::typed("to_speed", "to", "ISO(P) of the paper now, 100"),
            Ask::typed(
                "density",
                "density",
                "density of the first negative in a tone that shall print alike, 1.10",
            ),
            Ask::typed(
                "to_density",
                "to",
                "density of this negative in that tone, 1.25",
            ),
            Ask::typed("stops", "by eye", "a change as decided, +1/3"),
            Ask::typed(
                "dry_down",
                "dry-down",
                "how much darker the paper dries, 8 % of the time, or 1/4 stop",
            ),
        ],
        example: &[
            ("time", "10 s"),
            ("from", "2x"),
            ("to", "4x"),
            ("aperture", "f/8"),
            ("to_aperture", "f/5.6"),
        ],
        answer: reprint,
    },
    Recipe {
        word: "burn",
        title: "burning and dodging in stops",
        chapter: Chapter::Printing,
        about: "Seconds for each part of a print that gets more or less than the rest, from stops: a half \
                stop looks the same at every base time, five seconds do not. In a split print each part \
                belongs to the soft or to the hard exposure. Write the stops down and the print can be \
                made again at any size.",
        asks: &[
            Ask::typed(
                "time",
                "time",
                "the base exposure; the soft one in a split print, 16 s",
            ),
            Ask::typed(
                "hard",
                "hard exposure",
                "time of the hard exposure of a split print, 9 s",
            ),
            Ask::typed(
                "parts",
                "parts",
                "parts with their stops, sky +1/2, face -1/3; in a split print sky soft +1/2",
            ),
            Ask::typed(
                "timer",
                "timer",
                "what the timer can be set to, in seconds, 0.1",
            ),
        ],
        example: &[
            ("time", "16 s"),
            ("parts", "sky +1/2, face -1/3"),
            ("timer", "0.1"),
        ],
        answer: burn,
    },
    Recipe {
        word: "split",
        title: "a print through two filters",
        chapter: Chapter::Printing,
        about: "Soft filter for the highlights, hard for the blacks, in one sheet. Two strips find the two \
                times: highlights on the soft one first, then blacks on top of the chosen soft time. From \
                there the whole is made darker or lighter, or one of the two alone, which turns contrast. \
                It gives no tones that one filter between could not.",
        asks: &[
            Ask::typed("soft", "soft", "time through the soft filter, 12 s"),
            Ask::typed("hard", "hard", "time through the hard filter, 8 s"),
            Ask::typed("stops", "both", "stops for both, +1/3"),
            Ask::typed(
                "soft_stops",
                "soft alone",
                "stops for the soft one alone, -1/6",
            ),
            Ask::typed(
                "hard_stops",
                "hard alone",
                "stops for the hard one alone, +1/4",
            ),
        ],
        example: &[("soft", "12 s"), ("hard", "8 s"), ("hard_stops", "+1/4")],
        answer: two_filters,
    },
];

/// Both answers of a change, or none of them.
pub(super) fn both<T>(
    given: &Given<'_>,
    keys: (&'static str, &'static str),
    read: impl Fn(&str) -> Result<T, crate::craft::Unreadable>,
) -> Result<Option<(T, T)>, Problem> {
    match (given.may(keys.0, &read)?, given.may(keys.1, &read)?) {
        (Some(from), Some(to)) => Ok(Some((from, to))),
        (None, None) => Ok(None),
        (None, Some(_)) => Err(given.missing(keys.0)),
        (Some(_), None) => Err(given.missing(keys.1)),
    }
}

fn reprint(given: &Given<'_>) -> Result<Answer, Problem> {
    let time = given.must("time", Seconds::parse)?;
    let mut changes = Vec::new();
    let mut remarks = Vec::new();
    if let Some((from, to)) = both(given, ("density", "to_density"), Density::parse)? {
        changes.push(Change::Density { from, to });
        remarks.push(
            "the tone that had the first density prints alike; others follow the contrast"
                .to_owned(),
        );
    }
    if let Some((from, to)) = enlargements(given)? {
        changes.push(Change::Enlargement { from, to });
    }
    if let Some((from, to)) = both(given, ("aperture", "to_aperture"), Aperture::parse)? {
        changes.push(Change::Aperture { from, to });
    }
    let filtered = filter_change(given)?;
    let mut grounds = None;
    if let Some(change) = filtered {
        changes.push(change.change);
        remarks.extend(change.remark);
        grounds = Some(change.grounds);
    }
    if let Some((from, to)) = both(given, ("speed", "to_speed"), crate::craft::number)? {
        changes.push(Change::Speed { from, to });
    }
    if let Some(stops) = given.may("stops", Stops::parse)? {
        changes.push(Change::Stops(stops));
    }
    if let Some(percent) = dry_down(given)? {
        changes.push(Change::DryDown(percent));
        remarks.push(
            "the time for a print that was judged wet; resin coated paper hardly darkens at all"
                .to_owned(),
        );
    }
    let mut figure = changed(time, &changes)?;
    for step in &mut figure.steps {
        if let Some(grounds) = grounds
            .as_ref()
            .filter(|_| step.name == "filter" || step.name == "paper speed")
        {
            step.grounds = Some(grounds.clone());
        }
    }
    let stops = Stops::from_factor(figure.value.value() / time.value())?;
    let mut answer = Answer::of(figure, |time| {
        vec![
            Line::new("time", super::time::shown(time)),
            Line::new("more exposure", Amount::Stops(stops)),
        ]
    });
    for words in remarks {
        answer = answer.remark(Concern::Note, words);
    }
    Ok(answer)
}

/// Enlargement then and now, typed as such or as images of a negative.
fn enlargements(given: &Given<'_>) -> Result<Option<(f64, f64)>, Problem> {
    let one = |key: &'static str| -> Result<Option<f64>, Problem> {
        let Some(text) = given.text(key) else {
            return Ok(None);
        };
        if let Ok(value) = magnification::read(text) {
            return Ok(Some(value));
        }
        let Ok(image) = Size::parse(text) else {
            return Err(given.problem(
                key,
                "write an enlargement, 2x, or the size of the image, 8x10",
            ));
        };
        let negative = given.must("negative", Size::parse)?;
        let long = |size: Size| size.mm().0.max(size.mm().1);
        let short = |size: Size| size.mm().0.min(size.mm().1);
        // The side that is filled first decides; the other is cropped.
        let larger = enlargement(long(image), long(negative))?;
        Ok(Some(
            larger.max(enlargement(short(image), short(negative))?),
        ))
    };
    match (one("from")?, one("to")?) {
        (Some(from), Some(to)) => Ok(Some((from, to))),
        (None, None) => Ok(None),
        (None, Some(_)) => Err(given.missing("from")),
        (Some(_), None) => Err(given.missing("to")),
    }
}

/// Percent of the time, typed as such or in stops.
fn dry_down(given: &Given<'_>) -> Result<Option<f64>, Problem> {
    let Some(text) = given.text("dry_down") else {
        return Ok(None);
    };
    if text.contains("stop") {
        let stops = given.must("dry_down", Stops::parse)?;
        return Ok(Some(dry_down_percent(stops.value())?));
    }
    let percent = given.must("dry_down", |text| with_unit(text, &["%", "percent"]))?;
    dry_down_stops(percent)?;
    Ok(Some(percent))
}

fn timer(given: &Given<'_>) -> Result<Option<f64>, Problem> {
    given.may("timer", |text| with_unit(text, &["seconds", "sec", "s"]))
}

fn burn(given: &Given<'_>) -> Result<Answer, Problem> {
    let time = given.must("time", Seconds::parse)?;
    let hard = given.may("hard", Seconds::parse)?;
    let text = given.text("parts").ok_or_else(|| given.missing("parts"))?;
    let parts = read_parts(text).map_err(|why| given.problem("parts", why.to_string()))?;
    let figure = plan(time, hard, &parts, timer(given)?)?;
    let rows = parts.iter().zip(&figure.value).map(|(part, seen)| {
        let mut row = vec![
            Amount::words(part.name.clone()),
            Amount::Stops(part.stops),
            Amount::number(seen.seconds, "s", 1),
            Amount::number(seen.whole, "s", 1),
        ];
        if hard.is_some() {
            row.insert(1, Amount::words(part.filter.map_or("", Exposure::word)));
        }
        row
    });
    let mut heads = vec!["part", "stops", "more or less", "in all"];
    if hard.is_some() {
        heads.insert(1, "exposure");
    }
    let table = Table {
        heads: heads.into_iter().map(Into::into).collect(),
        rows: rows.collect(),
    };
    let answer = Answer::of(figure, |seen| {
        let lines = parts.iter().zip(seen).map(|(part, seen)| {
            let name = if seen.seconds < 0.0 {
                format!("{}, hold back", part.name)
            } else {
                format!("{}, burn", part.name)
            };
            Line::new(name, Amount::number(seen.seconds.abs(), "s", 1))
        });
        lines.collect()
    });
    Ok(answer.table(table))
}

fn two_filters(given: &Given<'_>) -> Result<Answer, Problem> {
    let from = Split {
        soft: given.must("soft", Seconds::parse)?,
        hard: given.must("hard", Seconds::parse)?,
    };
    let stops = |key: &'static str| -> Result<Stops, Problem> {
        Ok(given.may(key, Stops::parse)?.unwrap_or(Stops::new(0.0)?))
    };
    let figure = split(
        from,
        stops("stops")?,
        stops("soft_stops")?,
        stops("hard_stops")?,
    )?;
    let share = |split: Split| {
        let whole = split.soft.value() + split.hard.value();
        Amount::number(100.0 * split.hard.value() / whole, "%", 0)
    };
    let answer = Answer::of(figure, |split| {
        vec![
            Line::new("soft", super::time::shown(split.soft)),
            Line::new("hard", super::time::shown(split.hard)),
            Line::new("hard of the whole", share(split)),
        ]
    });
    Ok(answer.remark(
        Concern::Note,
        "write down the order, filter and seconds of each, and which of the two a burned or dodged part \
         belongs to",
    ))
}
