//! What follows while a strip of steps is read: what it was developed in, what it tells, and how it stands
//! against the last one. A table of several strips tells what they give together.

use super::exposing::resting_on;
use super::{Follow, Weight, named};
use crate::craft::sensitometry::{Curve, Family, Joined, Tablet, Whole};
use crate::craft::{Density, Seconds};
use crate::figures::Answer;
use crate::figures::densities::{Aims, family, strip};
use crate::logbook::draft::{Desk, strips};
use crate::logbook::strips::{KeptStrip, Stock};
use crate::logbook::{Draft, StripRead, ThingKind};

/// Log exposure of one stop.
const STOP: f64 = std::f64::consts::LOG10_2;
/// What stands beside a strip: the room is for few.
const SHOWN: [&str; 8] = [
    "ISO speed",
    "effective speed",
    "speed point",
    "average gradient",
    "contrast index",
    "gamma",
    "base plus fog",
    "density range",
];

pub(super) fn reading(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let known = developed(draft, desk);
    let mut lines = known.lines(draft);
    if draft.get("readings").trim().is_empty() {
        return lines;
    }
    let (used, sheet) = match strips(draft, desk) {
        Ok(read) => read,
        Err(why) => {
            lines.push(Follow::warning(why));
            return lines;
        }
    };
    let Ok(tablet) = used.tablet() else {
        return lines;
    };
    lines.extend(sheet.remarks.iter().map(Follow::remark));
    let bare = crate::craft::sensitometry::log_exposure(draft.get("bare")).ok();
    let base_fog = Density::parse(draft.get("base_fog")).ok();
    let joined = Joined::worded(draft.get("joined").trim()).unwrap_or(Joined::Smooth);
    let curve = |readings| Curve::new(readings, &tablet, bare, base_fog, joined);
    if let [only] = sheet.strips.as_slice() {
        match curve(&only.readings) {
            Ok(curve) => {
                lines.extend(told(&strip(&curve, &tablet)));
                let time = known.strip.time.or(only.time);
                lines.extend(against(&known, time, &Whole::of(&curve), desk));
            }
            Err(why) => lines.push(Follow::warning(why.to_string())),
        }
        return lines;
    }
    lines.push(Follow::act(format!(
        "{} strips, each an entry of its own",
        sheet.strips.len()
    )));
    let timed: Option<Vec<(Seconds, Curve)>> = sheet
        .strips
        .iter()
        .map(|strip| Some((strip.time?, curve(&strip.readings).ok()?)))
        .collect();
    match timed {
        Some(curves) => lines.extend(together(&curves, &tablet)),
        None => lines.push(Follow::warning(
            "head each column with its time, t5.5 t8 t11, so that the strips tell times",
        )),
    }
    lines
}

/// What several strips give together.
fn together(curves: &[(Seconds, Curve)], tablet: &Tablet) -> Vec<Follow> {
    let answer = Family::of(curves).and_then(|found| family(&found, tablet, &Aims::default()));
    let answer = match answer {
        Ok(answer) => answer,
        Err(why) => return vec![Follow::warning(why.to_string())],
    };
    let mut lines = Vec::new();
    for line in &answer.results {
        let follow = Follow::result(&line.name, line.amount.to_string());
        lines.push(resting_on(follow, line.grounds.as_ref()));
    }
    lines.extend(answer.remarks.iter().map(Follow::remark));
    lines
}

/// The measures of one strip, and what to look at.
fn told(answer: &Answer) -> Vec<Follow> {
    let shown = answer
        .results
        .iter()
        .filter(|line| SHOWN.contains(&line.name.as_ref()));
    let lines = shown.map(|line| {
        let follow = Follow::result(&line.name, line.amount.to_string());
        resting_on(follow, line.grounds.as_ref())
    });
    lines
        .chain(answer.remarks.iter().map(Follow::remark))
        .collect()
}

/// What is known of the development of a strip: as typed, else as the logbook has it.
struct Developed {
    strip: StripRead,
    from_log: bool,
}

fn developed(draft: &Draft, desk: &Desk<'_>) -> Developed {
    let text = |key: &str| {
        let text = draft.get(key).trim();
        (!text.is_empty()).then(|| text.to_owned())
    };
    let mut strip = StripRead {
        finding: crate::logbook::ThingId(uuid::Uuid::nil()),
        reference: String::new(),
        sheet: None,
        film: text("film"),
        bath: None,
        run: None,
        developer: text("developer"),
        dilution: crate::craft::Dilution::parse(draft.get("dilution")).ok(),
        time: Seconds::parse(draft.get("time")).ok(),
        temperature: crate::craft::Celsius::parse(draft.get("temperature")).ok(),
        series: text("series"),
        tablet: None,
        bare: None,
        readings: Vec::new(),
        base_fog: None,
        channel: crate::logbook::Channel::worded(draft.get("channel").trim()),
        instrument: None,
        joined: None,
    };
    let life = named(draft, "sheet", ThingKind::Sheet, desk);
    let from_log = life.is_some();
    let sheet = life.as_ref().and_then(|life| life.sheet());
    if let Some(sheet) = sheet {
        let film = sheet.film_box.and_then(|id| desk.names.life_of(id));
        let film = film.and_then(|life| life.film_box().map(|it| it.film.clone()));
        strip.film = strip.film.or(film);
    }
    let run = sheet.and_then(|sheet| desk.names.life_of(sheet.run?));
    let run = run.as_ref().and_then(|life| life.run());
    if let Some(run) = run {
        strip.time = strip.time.or(run.time);
        strip.temperature = strip.temperature.or(run.temperature);
        strip.dilution = strip.dilution.or(run.dilution);
    }
    let bath =
        named(draft, "bath", ThingKind::Bath, desk).or_else(|| desk.names.life_of(run?.developer?));
    if let Some(bath) = bath.as_ref().and_then(|life| life.bath()) {
        strip.developer = strip.developer.or_else(|| Some(bath.name.clone()));
        strip.dilution = strip.dilution.or(bath.dilution);
    }
    Developed { strip, from_log }
}

impl Developed {
    /// What the logbook knows and nobody has to type.
    fn lines(&self, draft: &Draft) -> Vec<Follow> {
        if !self.from_log && draft.get("bath").trim().is_empty() {
            return Vec::new();
        }
        let strip = &self.strip;
        let mut lines = Vec::new();
        if let Some(film) = &strip.film {
            lines.push(Follow::fact("film", film.clone()));
        }
        let developer = match (&strip.developer, &strip.dilution) {
            (Some(developer), Some(dilution)) => Some(format!("{developer} {dilution}")),
            (developer, _) => developer.clone(),
        };
        if let Some(developer) = developer {
            lines.push(Follow::fact("developer", developer));
        }
        match (strip.time, strip.temperature) {
            (Some(time), Some(warm)) => {
                lines.push(Follow::fact("developed", format!("{time} at {warm}")));
            }
            (Some(time), None) => lines.push(Follow::fact("developed", time.to_string())),
            _ => {}
        }
        lines
    }
}

/// How a strip stands against the last one of the same film and developer.
fn against(
    known: &Developed,
    time: Option<Seconds>,
    whole: &Whole,
    desk: &Desk<'_>,
) -> Vec<Follow> {
    let stock = Stock::of(&known.strip);
    let all = desk.names.findings();
    let kept = all.iter().filter_map(KeptStrip::of);
    // A control strip is measured against its own series.
    let alike = kept.filter(|kept| {
        kept.stock() == stock
            && match &known.strip.series {
                Some(series) => kept.is_of_series(series),
                None => kept.strip.series.is_none(),
            }
    });
    let Some(last) = alike.max_by_key(|kept| kept.at) else {
        return Vec::new();
    };
    let Ok(before) = last.whole() else {
        return Vec::new();
    };
    let mut lines = vec![Follow {
        note: match last.strip.time {
            Some(then) if time.is_none_or(|now| now != then) => format!("of {then}"),
            _ => String::new(),
        },
        ..Follow::fact(
            "against",
            format!("{}, {}", last.reference, last.at.format("%-d %b %Y")),
        )
    }];
    let mut differs = |name: &str, by: Option<f64>, unit: &str| {
        if let Some(by) = by {
            // No minus before a zero.
            let rounded = (by * 100.0).round() / 100.0 + 0.0;
            lines.push(Follow {
                weight: Weight::Also,
                ..Follow::fact(name, format!("{rounded:+.2}{unit}"))
            });
        }
    };
    let gradient = whole.average_gradient().zip(before.average_gradient());
    differs("gradient", gradient.map(|(now, then)| now - then), "");
    let points = whole.speed_point().zip(before.speed_point());
    let points = points.filter(|(now, then)| now.speed.is_some() == then.speed.is_some());
    let speed = points.map(|(now, then)| (then.log_h - now.log_h) / STOP);
    differs("speed", speed, " stops");
    differs("base plus fog", Some(whole.base_fog - before.base_fog), "");
    lines
}
