//! How an entry is told: a short line of figures, and every figure with its label.
//!
//! The timeline, the command line's output and the search text are drawn from here, so an entry
//! reads the same wherever it is met. References are the logbook's; numbers carry their units.

use serde::Serialize;

use super::counting::sequence_of;
use super::draft::{body_of, in_words};
use super::fields::FieldKind;
use super::life::{Found, limits_in_words, shutter_in_words, strip_in_words, tablet_in_words};
use super::{Change, Deed, Kind, Names, ReckonedStep, Reckoning, RunEnded, StepChanged, ThingId};
use crate::craft::Seconds;
use crate::reference::{FigureKind, Reference};

/// An entry in words.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Telling {
    /// The figures that matter most, on one line.
    pub headline: String,
    /// Every figure with its label, in the order of the pane.
    pub details: Vec<(String, String)>,
    /// How its figures came about, step by step, where it was reckoned.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub steps: Vec<(String, String)>,
}

/// Tells a deed.
pub fn tell(deed: &Deed, names: &dyn Names, reference: &Reference) -> Telling {
    let body = body_of(deed);
    let mut details: Vec<(String, String)> = deed
        .kind()
        .fields()
        .iter()
        .filter_map(|field| {
            let value = body.get(field.key.as_ref())?;
            let text = match field.kind {
                FieldKind::Process => value.as_str().map(|id| {
                    let process = reference.process(id);
                    process.map_or_else(|| id.to_owned(), |process| process.name.clone())
                }),
                FieldKind::Sequence => value.as_str().map(|id| {
                    let sequence = reference.sequences().iter().find(|it| it.id == id);
                    sequence.map_or_else(|| id.to_owned(), |sequence| sequence.title.clone())
                }),
                _ => in_words(field.kind, value, names),
            }?;
            (!text.is_empty()).then(|| (field.label.to_string(), text))
        })
        .collect();
    if let Deed::PrintStep(step) = deed {
        details.extend(
            step.figures
                .iter()
                .map(|(key, text)| figure_in_words(deed, key, text, names, reference)),
        );
    }
    // The sheet that was filled in is worth telling although nobody typed it.
    let filled = match deed {
        Deed::ExposureBegun(begun) => begun.sheet,
        Deed::ExposureDropped(dropped) => dropped.sheet,
        Deed::Exposed(exposed) => exposed.sheet,
        Deed::Unloaded(unloaded) => unloaded.sheet,
        Deed::Loaded(loaded) if !loaded.again => Some(loaded.sheet),
        _ => None,
    };
    if let Some(sheet) = filled {
        details.retain(|(label, _)| label != "loaded again");
        details.push(("sheet".to_owned(), names.reference_of(sheet)));
    }
    if let Deed::StripRead(strip) = deed
        && let Some(run) = strip.run
    {
        details.push(("run".to_owned(), names.reference_of(run)));
    }
    let mut steps = Vec::new();
    let reckoning = match deed {
        Deed::Exposed(exposed) => exposed.reckoning.as_ref(),
        Deed::RunBegun(run) => run.reckoning.as_ref(),
        _ => None,
    };
    if let Some(reckoning) = reckoning {
        details.extend(planned(reckoning));
        steps = reckoned(reckoning);
    }
    if let Deed::StepChanged(changed) = deed {
        steps = reckoned_steps(&changed.steps);
    }
    if let Deed::RunEnded(ended) = deed {
        details.extend(against_the_plan(ended, names));
    }
    if let Deed::Amended(amended) = deed {
        let told = tell(&amended.deed, names, reference);
        details = told.details;
        steps = told.steps;
        details.push(("why".to_owned(), amended.reason.clone()));
    }
    if let Deed::Struck(struck) = deed {
        details.push(("why".to_owned(), struck.reason.clone()));
    }
    Telling {
        headline: headline(deed, &details, names, reference),
        details,
        steps,
    }
}

/// What the reckoning asked for.
fn planned(reckoning: &Reckoning) -> Option<(String, String)> {
    match (reckoning.planned_aperture, reckoning.planned_time) {
        (Some(aperture), Some(time)) => {
            Some(("planned".to_owned(), format!("{aperture} at {time}")))
        }
        (None, Some(time)) => Some(("reckoned".to_owned(), time.to_string())),
        _ => None,
    }
}

/// What was planned for a run that was given a time.
fn against_the_plan(ended: &RunEnded, names: &dyn Names) -> Option<(String, String)> {
    let given = ended.time?;
    let planned = names.life_of(ended.run)?.run()?.planned?;
    let said = format!("{planned}, {}", percent_off(given, planned));
    Some(("planned".to_owned(), said))
}

/// How far a time is from the one that was planned: `+4 %`.
pub(super) fn percent_off(given: Seconds, planned: Seconds) -> String {
    let percent = 100.0 * (given.value() / planned.value() - 1.0);
    if percent.abs() < 0.5 {
        "as planned".to_owned()
    } else {
        format!("{percent:+.0} %")
    }
}

/// The steps of a reckoning, each with what it came to and what that rests on.
fn reckoned(reckoning: &Reckoning) -> Vec<(String, String)> {
    let mut told = reckoned_steps(&reckoning.steps);
    let remarks = reckoning.remarks.iter();
    told.extend(remarks.map(|words| ("warned".to_owned(), words.clone())));
    told
}

fn reckoned_steps(steps: &[ReckonedStep]) -> Vec<(String, String)> {
    let steps = steps.iter().map(|step| {
        let seconds = step.seconds.and_then(|time| Seconds::new(time).ok());
        let seconds = seconds.map(|time| format!("then {time}"));
        let standing = step.standing.map(|standing| standing.word().to_owned());
        let parts: Vec<String> = [Some(step.amount.clone()), seconds, standing]
            .into_iter()
            .flatten()
            .collect();
        (step.name.clone(), parts.join(", "))
    });
    steps.collect()
}

/// A figure of a step: its label, and what was written with its unit.
fn figure_in_words(
    deed: &Deed,
    key: &str,
    text: &str,
    names: &dyn Names,
    reference: &Reference,
) -> (String, String) {
    let unknown = || (key.to_owned(), text.to_owned());
    let Deed::PrintStep(step) = deed else {
        return unknown();
    };
    let figure = names.life_of(step.print).and_then(|life| {
        let process = reference.process(&life.print()?.process)?;
        process.step(&step.step)?.figure(key).cloned()
    });
    let Some(figure) = figure else {
        return unknown();
    };
    let unit = match figure.kind {
        FigureKind::Percent => "%",
        FigureKind::Drops => "drops",
        FigureKind::Stops => "stops",
        _ => &figure.unit,
    };
    // Who wrote a unit meant that one.
    let bare = text
        .trim()
        .chars()
        .all(|c| c.is_ascii_digit() || "+-.,/ ".contains(c));
    let told = if bare && !unit.is_empty() {
        format!("{} {unit}", text.trim())
    } else {
        text.to_owned()
    };
    (figure.label, told)
}

/// What a step is called in the sequence or process of what it is a step of.
pub fn step_in_words(
    thing: ThingId,
    step: &str,
    names: &dyn Names,
    reference: &Reference,
) -> String {
    let label = names.life_of(thing).and_then(|life| {
        if let Some(run) = life.run() {
            let sequence = sequence_of(run, reference)?;
            return Some(sequence.step_named(step)?.label.clone());
        }
        let process = reference.process(&life.print()?.process)?;
        Some(process.step(step)?.label.clone())
    });
    label.unwrap_or_else(|| step.to_owned())
}

fn change_in_words(changed: &StepChanged) -> String {
    let whole = changed.time.map(|time| format!("{time} in all"));
    let what = match changed.change {
        Change::MoreTime => changed.more.map(|more| format!("{more} more")),
        Change::Pause => Some("its time stands still".to_owned()),
        Change::GoOn => Some("its time goes on".to_owned()),
        Change::Temperature => changed.temperature.map(|now| format!("{now} now")),
    };
    let parts: Vec<String> = [what, whole].into_iter().flatten().collect();
    parts.join(", ")
}

/// The labels whose values make the headline, in order, for deeds whose headline is a plain list.
const fn headline_labels(kind: Kind) -> &'static [&'static str] {
    match kind {
        Kind::BoxAdded => &["film", "size", "emulsion"],
        Kind::HolderAdded => &["size", "what it is"],
        Kind::LensAdded | Kind::CameraAdded => &["name"],
        Kind::FilterFound => &["filter", "takes", "on film", "in light"],
        Kind::LightFound => &["scene", "light at ISO 100"],
        Kind::PlaceKept => &["name", "where", "time zone"],
        Kind::TabletFound => &["name"],
        Kind::PaperAdded => &["paper", "size"],
        Kind::BathMixed => &["solution", "dilution", "volume"],
        Kind::BathReplenished => &["with how much", "with what"],
        Kind::BathSplit => &["pour off", "reference"],
        Kind::BathsRotated => &["first bath", "second bath", "new second"],
        Kind::UsedUp | Kind::Retired | Kind::Fogged | Kind::Lost | Kind::Discarded => &["why"],
        Kind::Spoiled | Kind::Unframed | Kind::SlideRighted | Kind::Struck => &["why"],
        Kind::ExposureDropped => &["why"],
        Kind::Loaded => &["side", "box"],
        Kind::Unloaded => &["side", "kept"],
        Kind::Companions => &["they are", "sheets"],
        Kind::StepEnded => &["time given", "at the end", "seen"],
        Kind::RunEnded => &["time given", "at the end", "washed", "seen"],
        Kind::FaultSeen => &["fault", "where", "put down to", "what it does"],
        Kind::Scanned => &["file"],
        Kind::Filed => &["place"],
        Kind::PrintBegun => &["process", "paper", "printed on"],
        Kind::Pressed => &["press at", "for", "between"],
        Kind::Mounted => &["board", "with", "press at"],
        Kind::Attached => &["held by", "of"],
        Kind::Signed => &["number", "inscription", "where"],
        Kind::Framed => &["frame", "glazing"],
        Kind::Labelled => &["label says"],
        Kind::Placed => &["now", "where, to whom", "due back", "price"],
        Kind::Noted => &["note"],
        Kind::ShutterTested
        | Kind::TimeFound
        | Kind::FilmFound
        | Kind::FormatFound
        | Kind::DevelopmentFound
        | Kind::MeterSet
        | Kind::StripRead
        | Kind::LimitsSet
        | Kind::ClearingTested
        | Kind::Counted
        | Kind::ExposureBegun
        | Kind::Exposed
        | Kind::SlideSeen
        | Kind::RunBegun
        | Kind::StepBegun
        | Kind::StepChanged
        | Kind::Measured
        | Kind::PrintStep
        | Kind::Matted
        | Kind::Amended => &[],
    }
}

fn headline(
    deed: &Deed,
    details: &[(String, String)],
    names: &dyn Names,
    reference: &Reference,
) -> String {
    let value = |wanted: &str| {
        details
            .iter()
            .find(|(label, _)| label == wanted)
            .map(|(_, text)| text.as_str())
    };
    let list = |labels: &[&str]| {
        let parts: Vec<&str> = labels.iter().filter_map(|label| value(label)).collect();
        parts.join(", ")
    };
    match deed {
        Deed::Exposed(_) => {
            let setting = match (value("aperture"), value("time")) {
                (Some(aperture), Some(time)) => format!("{aperture} at {time}"),
                (Some(one), None) | (None, Some(one)) => one.to_owned(),
                (None, None) => "settings not known".to_owned(),
            };
            let rest = list(&["subject", "filter", "in front"]);
            let again = if value("one more on it") == Some("yes") {
                ", once more"
            } else {
                ""
            };
            if rest.is_empty() {
                format!("{setting}{again}")
            } else {
                format!("{setting}{again}, {rest}")
            }
        }
        Deed::ExposureBegun(begun) => {
            let planned = match (value("aperture"), value("planned time")) {
                (Some(aperture), Some(time)) => format!("{aperture} for {time}"),
                (Some(one), None) | (None, Some(one)) => one.to_owned(),
                (None, None) => "the shutter opens".to_owned(),
            };
            let again = if begun.again { ", once more" } else { "" };
            format!("{planned}{again}")
        }
        Deed::ShutterTested(tested) => shutter_in_words(tested.mark, &tested.timings),
        Deed::TimeFound(found) => {
            let film = &found.film;
            let told = format!("{film}: {} needs {}", found.metered, found.needed);
            match &found.development {
                Some(development) => format!("{told}, {development}"),
                None => told,
            }
        }
        Deed::FilmFound(_) | Deed::FormatFound(_) => Found::by(deed)
            .map(|found| format!("{}: {}", found.about(), found.says()))
            .unwrap_or_default(),
        Deed::DevelopmentFound(found) => {
            let bath = match found.dilution {
                Some(dilution) => format!("{} {dilution}", found.developer),
                None => found.developer.clone(),
            };
            let contrast = found
                .contrast
                .map(|it| format!(", {it}"))
                .unwrap_or_default();
            format!(
                "{} in {bath}: {} at {}{contrast}",
                found.film, found.time, found.temperature
            )
        }
        Deed::MeterSet(set) => {
            let named = |name: &str, number: Option<f64>| number.map(|it| format!("{name} {it}"));
            let parts = [named("K", set.reflected), named("C", set.incident)];
            let parts: Vec<String> = parts.into_iter().flatten().collect();
            parts.join(", ")
        }
        Deed::StripRead(strip) => {
            let film = strip.film.as_deref().unwrap_or("an unknown film");
            format!("{film}, {}", strip_in_words(strip))
        }
        Deed::TabletFound(tablet) => format!("{}, {}", tablet.name, tablet_in_words(tablet)),
        Deed::LimitsSet(set) => format!("{}: {}", set.series, limits_in_words(set)),
        Deed::ClearingTested(tested) => {
            let film = tested.film.as_ref().map(|film| format!("{film} "));
            let fresh = match tested.fresh {
                Some(true) => ", fresh",
                _ => "",
            };
            format!(
                "{}clear in {}{fresh}",
                film.unwrap_or_default(),
                tested.time
            )
        }
        Deed::SlideSeen(seen) => format!("{} side out", seen.shows.word()),
        Deed::Counted(counted) => format!("{} left", counted.sheets),
        Deed::RunBegun(run) => {
            let mut parts = vec![names.reference_of(run.run)];
            let setting = match (value("time"), value("temperature")) {
                (Some(time), Some(temperature)) => Some(format!("{time} at {temperature}")),
                (one, other) => one.or(other).map(str::to_owned),
            };
            parts.extend(setting);
            parts.extend(value("contrast").map(str::to_owned));
            let bath = list(&["developer", "dilution"]);
            if !bath.is_empty() {
                parts.push(bath);
            }
            parts.join(", ")
        }
        Deed::StepBegun(begun) => {
            let label = step_in_words(begun.thing.id, &begun.step, names, reference);
            let mut parts = vec![label];
            let told = ["time", "temperature", "bath"]
                .into_iter()
                .filter_map(value);
            parts.extend(told.map(str::to_owned));
            parts.join(", ")
        }
        Deed::StepChanged(changed) => change_in_words(changed),
        Deed::Measured(measured) => format!(
            "{} .. {}  range {:.2}",
            measured.low,
            measured.high,
            measured.range()
        ),
        Deed::PrintStep(step) => {
            let label = names.life_of(step.print).and_then(|life| {
                let process = reference.process(&life.print()?.process)?;
                Some(process.step(&step.step)?.label.clone())
            });
            let mut parts = vec![label.unwrap_or_else(|| step.step.clone())];
            parts.extend(
                ["time", "temperature", "baths"]
                    .iter()
                    .filter_map(|label| value(label).map(str::to_owned)),
            );
            parts.extend(step.figures.iter().map(|(key, text)| {
                let (label, told) = figure_in_words(deed, key, text, names, reference);
                format!("{label} {told}")
            }));
            parts.join(", ")
        }
        Deed::Matted(_) => {
            let sizes = match (value("window"), value("outer size")) {
                (Some(window), Some(outer)) => format!("window {window} in {outer}"),
                _ => list(&["window", "outer size"]),
            };
            match value("board") {
                Some(board) => format!("{sizes}, {board}"),
                None => sizes,
            }
        }
        Deed::Amended(amended) => {
            let now = tell(&amended.deed, names, reference).headline;
            format!(
                "{} now {now}: {}",
                amended.deed.kind().name(),
                amended.reason
            )
        }
        deed => list(headline_labels(deed.kind())),
    }
}
