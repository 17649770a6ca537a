//! An entry as the strip tells it: a short word of the trade, the figures that matter, and the rest
//! with labels.
//!
//! Promises: nothing that is logged is left out where the entry is unfolded; what the heading says
//! already is not said again.

use crate::logbook::{Kind, Life, ThingKind};
use crate::store::rows::Line;
use crate::tui::theme::Role;
use crate::tui::widgets::strip::Happening;

/// The word for what happened, as short as the trade says it.
pub const fn word(kind: Kind) -> &'static str {
    match kind {
        Kind::BoxAdded => "box",
        Kind::HolderAdded => "holder",
        Kind::LensAdded => "lens",
        Kind::CameraAdded => "camera",
        Kind::ShutterTested => "timed",
        Kind::FilterFound => "filter",
        Kind::TimeFound => "reciprocity",
        Kind::FilmFound => "film",
        Kind::FormatFound => "format",
        Kind::DevelopmentFound => "own time",
        Kind::LightFound => "light",
        Kind::MeterSet => "meter",
        Kind::PlaceKept => "place",
        Kind::StripRead => "strip",
        Kind::TabletFound => "tablet",
        Kind::LimitsSet => "limits",
        Kind::PaperAdded => "paper",
        Kind::BathMixed => "mixed",
        Kind::BathReplenished => "replenished",
        Kind::BathSplit => "split",
        Kind::ClearingTested => "clearing",
        Kind::BathsRotated => "rotated",
        Kind::Counted => "counted",
        Kind::UsedUp => "used up",
        Kind::Retired => "out of use",
        Kind::ExposureBegun => "shutter",
        Kind::ExposureDropped => "no exposure",
        Kind::SlideSeen => "slide",
        Kind::SlideRighted => "slide right",
        Kind::Companions => "paired",
        Kind::RunBegun => "run",
        Kind::RunEnded => "run ended",
        Kind::StepBegun => "begins",
        Kind::StepChanged => "changes",
        Kind::StepEnded => "ends",
        Kind::PrintBegun => "print",
        Kind::PrintStep => "step",
        Kind::Discarded => "thrown out",
        Kind::Noted => "note",
        Kind::Struck => "strikes",
        Kind::Amended => "amends",
        other => other.name(),
    }
}

/// The entry on the timeline of a thing.
pub(super) fn happening(line: &Line, own: &Life) -> Happening {
    let told = Told::of(line, own);
    let mut one = Happening::new(line.happened.naive_local(), told.word);
    one.figures = told.figures;
    one.struck = line.struck.as_ref().map(|remark| remark.reason.clone());
    if let Some((word, role)) = mark(line) {
        one.mark = Some(word.to_owned());
        one.mark_role = role;
    }
    if let Some(over) = &line.over {
        one.details.push(("because".to_owned(), vec![over.clone()]));
    }
    if let Some(was) = &line.was {
        let why = line.amended.last().map(|remark| remark.reason.as_str());
        let before = match why {
            Some(why) if !why.is_empty() => format!("{}: {why}", was.headline),
            _ => was.headline.clone(),
        };
        one.details.push(("before".to_owned(), pieces(&before)));
    }
    if let Some(note) = &line.note {
        one.details.push(("note".to_owned(), vec![note.clone()]));
    }
    one.more = told.more;
    one.foot = foot(line);
    one
}

/// What an entry says that one has to know at a glance.
fn mark(line: &Line) -> Option<(&'static str, Role)> {
    if line.elsewhere {
        Some(("amended, counts elsewhere", Role::Warn))
    } else if line.over.is_some() {
        Some(("override", Role::Warn))
    } else if !line.amended.is_empty() {
        Some(("amended", Role::Warn))
    } else if line.outcome.as_ref().is_some_and(|it| under_way(it)) {
        Some(("under way", Role::Accent))
    } else if line.late {
        Some(("late", Role::Quiet))
    } else {
        None
    }
}

fn under_way(outcome: &str) -> bool {
    outcome.contains("under way")
}

/// The number of the entry, and when it was written if that was not at once.
fn foot(line: &Line) -> String {
    let waited = line.written - line.happened;
    let written = if waited.num_minutes().abs() < 2 {
        String::new()
    } else if line.written.date_naive() == line.happened.date_naive() {
        line.written.format(", written %H:%M").to_string()
    } else {
        line.written.format(", written %-d %b %Y %H:%M").to_string()
    };
    format!("entry #{}{written}", line.row)
}

/// A line of figures in pieces that stay together.
fn pieces(text: &str) -> Vec<String> {
    text.split(", ").map(str::to_owned).collect()
}

/// What is told of an entry, before it is laid out.
struct Told {
    word: String,
    figures: Vec<String>,
    more: Vec<(String, String)>,
}

impl Told {
    fn of(line: &Line, own: &Life) -> Told {
        let mut told = Told {
            word: word(line.kind).to_owned(),
            figures: Vec::new(),
            more: Vec::new(),
        };
        let detail = |wanted: &str| detail(line, wanted);
        let said = |labels: &[(&str, &str)]| -> Vec<String> {
            let said = labels.iter().filter_map(|(label, before)| {
                detail(label).map(|value| format!("{before}{value}"))
            });
            said.collect()
        };
        match line.kind {
            Kind::Struck | Kind::Amended => {
                let about = line.about.map(|row| format!("#{row}"));
                let why = detail("why").map(str::to_owned);
                let parts: Vec<String> = [about, why].into_iter().flatten().collect();
                told.figures.push(parts.join(": "));
                return told;
            }
            Kind::PrintStep => {
                told.word = detail("step").unwrap_or("step").to_owned();
                told.figures = said(&[("time", ""), ("temperature", ""), ("baths", "")]);
                if told.figures.is_empty() {
                    told.figures = first_figure(line).into_iter().collect();
                }
            }
            Kind::PrintBegun => match &line.outcome {
                Some(outcome) => told.figures = pieces(outcome),
                None => {
                    told.figures = said(&[
                        ("process", ""),
                        ("negative", "from "),
                        ("paper", "on "),
                        ("printed on", ""),
                    ]);
                }
            },
            Kind::RunEnded => {
                told.figures = said(&[
                    ("time given", ""),
                    ("at the end", "ended at "),
                    ("washed", "washed "),
                    ("seen", ""),
                ]);
            }
            _ => told.figures = pieces(&line.telling.headline),
        }
        told.figures.retain(|piece| !piece.is_empty());
        if told.figures.len() > 1 {
            told.figures.retain(|piece| *piece != own.reference);
        }
        if let Some(subject) = subject(line, own) {
            told.figures.insert(0, subject);
        }
        let head = told.figures.join(", ");
        told.more = line
            .telling
            .details
            .iter()
            .filter(|(label, value)| {
                let plain = line.kind == Kind::PrintStep && label == "step"
                    || own.print().is_some() && label == "title";
                let mut parts = value.split(", ");
                let told = says(&head, value)
                    || parts.all(|part| part == own.reference || says(&head, part));
                !plain && !told
            })
            .cloned()
            .chain(line.telling.steps.iter().cloned())
            .collect();
        told
    }
}

/// Whether a text says a value, as words of their own. A bare number says nothing without its label.
fn says(text: &str, value: &str) -> bool {
    if value.is_empty() || value.chars().all(|c| c.is_ascii_digit()) {
        return value.is_empty();
    }
    let part_of_word = |c: char| c.is_alphanumeric() || c == '.';
    text.match_indices(value).any(|(at, _)| {
        let before = text.get(..at).and_then(|head| head.chars().next_back());
        let after = text
            .get(at + value.len()..)
            .and_then(|tail| tail.chars().next());
        !before.is_some_and(part_of_word) && !after.is_some_and(part_of_word)
    })
}

fn detail<'l>(line: &'l Line, wanted: &str) -> Option<&'l str> {
    line.telling
        .details
        .iter()
        .find(|(label, _)| label == wanted)
        .map(|(_, value)| value.as_str())
}

/// The first figure that a step asks for, with its label.
fn first_figure(line: &Line) -> Option<String> {
    line.telling
        .details
        .iter()
        .find(|(label, _)| label != "print" && label != "step")
        .map(|(label, value)| format!("{label} {value}"))
}

/// Which sheet or print the entry is about, where that is not the thing whose timeline it is.
fn subject(line: &Line, own: &Life) -> Option<String> {
    let kind = match line.kind {
        Kind::Loaded
        | Kind::Unloaded
        | Kind::ExposureBegun
        | Kind::ExposureDropped
        | Kind::Exposed
        | Kind::Fogged
        | Kind::Measured
        | Kind::FaultSeen
        | Kind::Scanned
        | Kind::Filed => ThingKind::Sheet,
        Kind::PrintBegun if line.outcome.is_some() => return None,
        Kind::PrintBegun
        | Kind::PrintStep
        | Kind::Pressed
        | Kind::Mounted
        | Kind::Matted
        | Kind::Placed => ThingKind::Print,
        _ => return None,
    };
    if own.thing.kind == kind {
        return None;
    }
    let mut named = line.things.iter().filter(|named| named.thing.kind == kind);
    named.next().map(|named| named.reference.clone())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_value_is_said_where_it_stands_as_a_word_of_its_own() {
        assert!(says("f/32 at 6 s, north wall", "f/32"));
        assert!(says("f/32 at 6 s, north wall", "6 s"));
        assert!(!says("f/32 at 16 s", "6 s"));
        assert!(!says("12 min", "1"));
        assert!(!says("20.0 C", "0 C"));
    }

    #[test]
    fn every_word_fits_its_column() {
        for kind in Kind::ALL {
            let word = word(*kind);
            assert!(word.len() <= 11, "{word}");
        }
    }
}
