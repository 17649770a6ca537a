//! What follows from what the user has found out: what a timed mark comes to, and what is published of
//! the same filter, film, scene, meter or place, with how far the user's own number is from it.
//!
//! Promises: what is compared with is never the finding itself or an earlier one of the user's, but for
//! the shutter, whose last test says how it moved. A number that nobody published is said to be missing.

use super::exposing::counted;
use super::{Follow, named};
use crate::craft::exposure::stands_for;
use crate::craft::meter::Constants;
use crate::craft::shutter::{self, in_fractions};
use crate::craft::sun::{Bands, Coordinates, day};
use crate::craft::{
    Amount, Aperture, ExposureValue, Grounds, Seconds, Stops, TimeZone, timings, trimmed,
};
use crate::figures::filters::stack;
use crate::figures::reciprocity::{laws_for, nothing_known};
use crate::figures::{self, Kit, NoKit};
use crate::logbook::draft::Desk;
use crate::logbook::{Draft, ThingKind};

/// What is published, without anything of the user's own.
fn published<'a>(desk: &Desk<'a>) -> figures::Desk<'a> {
    figures::Desk::new(desk.reference, &NoKit, desk.now).in_zone(desk.zone)
}

/// Stops to the hundredth, with their sign and unit.
fn in_stops(stops: f64) -> String {
    match trimmed(stops.abs(), 2).as_str() {
        "0" => "0 stops".to_owned(),
        _ => format!(
            "{stops:+.2} stop{}",
            if stops.abs() > 1.0 { "s" } else { "" }
        ),
    }
}

/// How far the user's number is from the published one, in stops of exposure.
fn yours(stops: f64) -> Follow {
    let words = match trimmed(stops.abs(), 2).as_str() {
        "0" => "the same".to_owned(),
        _ => format!("{} from that", in_stops(stops)),
    };
    Follow::result("yours", words)
}

/// What a mark really gives, as far as it was timed.
pub(super) fn shutter(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let mut lines = Vec::new();
    let Ok(mark) = Seconds::parse(draft.get("mark")) else {
        return lines;
    };
    let exact = stands_for(mark);
    if exact != mark {
        let words = format!("{} in the series", in_fractions(exact));
        lines.push(Follow::fact(&format!("{mark} stands for"), words));
    }
    let typed = timings::read(draft.get("timings")).unwrap_or_default();
    if let Ok(figure) = shutter::test(mark, &typed) {
        let tested = figure.value;
        let shots = match tested.count {
            1 => "of 1 shot".to_owned(),
            count => format!("of {count} shots"),
        };
        lines.push(Follow {
            note: shots,
            ..Follow::fact("mean", in_fractions(tested.mean))
        });
        if let (Some(spread), Some(percent)) = (tested.spread, tested.spread_in_percent()) {
            let words = format!(
                "{} %, {} stop",
                trimmed(percent, 1),
                trimmed(spread.value(), 2)
            );
            lines.push(Follow::fact("spread", words));
        }
        let error = Follow::result("error", in_stops(tested.error.value()));
        lines.push(error.on(&figure.grounds));
        let means = match tested.error.value() {
            error if error.abs() < 0.05 => "as marked",
            error if error > 0.0 => "more light than marked",
            _ => "less light than marked",
        };
        lines.push(Follow::fact("that is", means).also());
        lines.extend(figure.remarks.iter().map(Follow::remark));
        // An aperture small enough adds to every leaf shutter, and a test at it shows that too.
        if let Ok(aperture) = Aperture::parse(draft.get("aperture"))
            && let Some((stops, grounds)) = shutter::efficiency(aperture, mark)
        {
            let words = in_stops(stops.value());
            let usual = Follow::fact(&format!("usual at {aperture}"), words);
            lines.push(usual.also().on(&grounds));
        }
    }
    if let Some(lens) = named(draft, "lens", ThingKind::Lens, desk)
        && let Some(record) = desk.kit().lens(&lens.reference)
        && let Some(step) = figures::shutter::of_lens(&record, mark)
    {
        let mut before = Follow::fact("last test", step.amount.to_string());
        before.note.clone_from(&step.working);
        if let Some(grounds) = &step.grounds {
            before = before.on(grounds);
        }
        lines.push(before.also());
    }
    lines
}

/// What the reference says of a filter on that film in that light.
pub(super) fn filter(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let name = draft.get("filter").trim();
    if name.is_empty() {
        return Vec::new();
    }
    let some = |key| Some(draft.get(key)).filter(|text: &&str| !text.trim().is_empty());
    let Ok(steps) = stack(name, some("film"), some("light"), &published(desk)) else {
        let words = format!("no number is known here for {name}: yours will stand alone");
        return vec![Follow::fact("", words)];
    };
    let mut lines = Vec::new();
    let mut all = 0.0;
    for step in &steps {
        let Amount::Stops(stops) = step.amount else {
            continue;
        };
        all += stops.value();
        let mut line = Follow::fact(&step.name, in_stops(stops.value()));
        if let Some(grounds) = &step.grounds {
            line = line.on(grounds);
        }
        lines.push(line);
        lines.push(Follow::fact("", step.working.clone()));
    }
    if !steps.is_empty()
        && let Ok(own) = Stops::parse(draft.get("stops"))
    {
        lines.push(yours(own.value() - all));
    }
    lines
}

/// What is published of the same film for the same metered time.
pub(super) fn reciprocity(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let film = draft.get("film").trim();
    let Ok(metered) = Seconds::parse(draft.get("metered")) else {
        return Vec::new();
    };
    let needed = Seconds::parse(draft.get("needed")).ok();
    let mut lines = Vec::new();
    if film.is_empty() {
        return lines;
    }
    let at = published(desk);
    let laws = laws_for(film, &at);
    if laws.is_empty() {
        lines.push(Follow::fact("", nothing_known(film, &at).to_string()));
    }
    let mut first = None;
    for law in laws {
        let figure = match law.correct(metered) {
            Ok(figure) => figure,
            Err(why) => {
                lines.push(Follow::fact("", why.to_string()));
                continue;
            }
        };
        let says = figure.value;
        let stops = in_stops(says.stops.value());
        let (value, grounds) = match (says.time, says.open) {
            (Some(time), _) => (format!("{}, {stops}", counted(time)), says.rests.time),
            (None, Some(_)) => (format!("open the lens, {stops}"), says.rests.open),
            (None, None) => continue,
        };
        first = first.or(Some(says.stops.value()));
        let who = law.name.split(',').next().unwrap_or_default();
        lines.push(Follow::fact(&format!("by {who}"), value).on(&grounds));
        if says.beyond {
            let words = format!("{metered} is beyond what that text covers");
            lines.push(Follow::fact("", words));
        }
    }
    if let Some(needed) = needed {
        let loss = (needed.value() / metered.value()).log2();
        if let Some(said) = first {
            lines.push(yours(loss - said));
        }
        lines.push(Follow::fact("the loss", in_stops(loss)).also());
        if loss < -0.05 {
            let words = "less time than was metered: look whether the two are in the right fields";
            lines.push(Follow::warning(words));
        }
    }
    lines
}

/// What the table says of the light of a scene.
pub(super) fn light(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let typed = draft.get("scene").trim();
    if typed.is_empty() {
        return Vec::new();
    }
    let known = desk.reference.scene(typed);
    let range = known.and_then(|scene| scene.light.values(&Constants::default()).ok());
    let (Some(scene), Some((from, to))) = (known, range) else {
        return vec![Follow::fact("", "no table names this scene")];
    };
    let value = match (to.value() - from.value()).abs() < 0.05 {
        true => from.to_string(),
        false => format!("{from} to {}", trimmed(to.value(), 1)),
    };
    let mut lines = vec![
        Follow::fact("", scene.name.clone()),
        Follow {
            standing: Some(scene.standing),
            source: scene.source.clone(),
            ..Follow::fact("by the table", value)
        },
    ];
    if !scene.note.is_empty() {
        lines.push(Follow::fact("", scene.note.clone()));
    }
    if let Ok(own) = ExposureValue::parse(draft.get("value")) {
        let own = own.value();
        let words = match own {
            own if own < from.value() => format!("{} darker", in_ev(from.value() - own)),
            own if own > to.value() => format!("{} brighter", in_ev(own - to.value())),
            _ => "as the table says".to_owned(),
        };
        lines.push(Follow::result("yours", words));
    }
    lines
}

fn in_ev(value: f64) -> String {
    format!("{} EV", trimmed(value, 1))
}

/// What constants are published, and what the user's change in exposure.
pub(super) fn meter(draft: &Draft) -> Vec<Follow> {
    let usual = Constants::default();
    let dome = Constants::default().with_dome();
    let constant = |label: &str, value: f64, unit: &str, grounds: &Grounds| {
        let value = format!("{} {unit}", trimmed(value, 1));
        Follow::fact(label, value).on(grounds)
    };
    let mut lines = vec![
        constant("K, usual", usual.reflected(), "cd/m2", usual.reflected_on()),
        constant("C, flat", usual.incident(), "lx", usual.incident_on()),
        constant("C, dome", dome.incident(), "lx", dome.incident_on()),
    ];
    let own = || Grounds::own("as typed");
    let mut meter = usual.clone();
    for (key, label) in [("reflected", "your K"), ("incident", "your C")] {
        let Ok(number) = crate::craft::number(draft.get(key)) else {
            continue;
        };
        let (with, from) = match key {
            "reflected" => (
                meter.clone().with_reflected(number, own()),
                usual.reflected(),
            ),
            _ => (meter.clone().with_incident(number, own()), usual.incident()),
        };
        match with {
            Ok(with) => {
                // A larger constant asks for more exposure in the same light.
                let words = format!("{} of exposure", in_stops((number / from).log2()));
                lines.push(Follow::result(label, words));
                meter = with;
            }
            Err(why) => lines.push(Follow::warning(why.to_string())),
        }
    }
    if meter != usual {
        lines.extend(meter.remarks().iter().map(Follow::remark));
        let card = format!("{} %", trimmed(meter.agreeing_reflectance() * 100.0, 1));
        lines.push(Follow::fact("both agree on a card of", card).also());
    }
    lines
}

/// When the sun rises and sets there today.
pub(super) fn place(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let Ok(coordinates) = Coordinates::parse(draft.get("coordinates")) else {
        return Vec::new();
    };
    let zone = TimeZone::parse(draft.get("zone")).unwrap_or(desk.zone);
    let now = zone.of(desk.now);
    let figure = match day(now.date_naive(), zone, coordinates, Bands::default()) {
        Ok(figure) => figure,
        Err(why) => return vec![Follow::warning(why.to_string())],
    };
    let today = figure.value;
    let mut lines = vec![
        Follow::fact("there", coordinates.to_string()),
        Follow::fact("clocks of", zone.to_string()),
        Follow::fact("now", now.format("%-d %b %H:%M").to_string()),
    ];
    let (rises, sets) = (today.sunrise(), today.sunset());
    if rises.is_none() && sets.is_none() {
        let words = match today.highest > 0.0 {
            true => "the sun does not set today",
            false => "the sun does not rise today",
        };
        lines.push(Follow::result("", words));
    }
    for (label, at) in [("sunrise", rises), ("sunset", sets)] {
        if let Some(at) = at {
            let line = Follow::result(label, Amount::Clock(at).to_string());
            lines.push(line.on(&figure.grounds));
        }
    }
    if let Some(noon) = today.noon {
        let words = format!("{}, {:.0} deg high", Amount::Clock(noon), today.highest);
        lines.push(Follow::fact("noon", words).also());
    }
    lines
}
