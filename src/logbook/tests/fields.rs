//! The field tables against the bodies they stand for.

use std::collections::BTreeSet;

use super::*;
use crate::logbook::draft::{FIGURE_PREFIX, body_of};
use crate::logbook::{FieldKind, Need};

/// A darkroom with a thing of every kind, so that every field has something to name.
fn well_stocked() -> Darkroom {
    let mut room = Darkroom::with_negatives();
    room.log(
        Kind::PaperAdded,
        &[("name", "Plain Rag"), ("size", "11x14"), ("sheets", "20")],
    );
    room.log(
        Kind::PrintBegun,
        &[("negatives", "s1"), ("process", "cyanotype")],
    );
    room.log(Kind::Companions, &[("sheets", "s1 s2"), ("bond", "spare")]);
    let fixer = [("name", "plain hypo, new"), ("purpose", "fixer")];
    room.log(Kind::BathMixed, &fixer);
    room
}

/// Something that can be typed into a field, in the form in which it is shown again.
fn example(kind: FieldKind) -> String {
    let text = match kind {
        FieldKind::Text
        | FieldKind::Film
        | FieldKind::Developer
        | FieldKind::Paper
        | FieldKind::Formula => "north wall, thaw",
        FieldKind::Count => "2",
        FieldKind::Duration => "2 min 30 s",
        FieldKind::Durations => "1/95 s, 1/97 s",
        FieldKind::Aperture => "f/22+1/3",
        FieldKind::Speed => "80",
        FieldKind::Length => "294 mm",
        FieldKind::Magnification => "1:4",
        FieldKind::Number => "0.95",
        FieldKind::Size => "8x10 in",
        FieldKind::Temperature => "20.5 C",
        FieldKind::Volume => "500 ml",
        FieldKind::Density => "0.31",
        FieldKind::Dilution => "1+31",
        FieldKind::Capacity => "24 of 4x5 in",
        FieldKind::Keeping => "60 days",
        FieldKind::Densities => "0.05 0.2 0.35 0.5",
        FieldKind::Readings => "3 1.42 4 1.32 20 0.14 21 0.13",
        FieldKind::Tablet => "21",
        FieldKind::LogExposure => "0.35",
        FieldKind::Contrast => "N-1",
        FieldKind::Development => "N-1; -10 %",
        FieldKind::Stops => "+2 1/3 stops",
        FieldKind::Ev => "EV 11.3",
        FieldKind::Coordinates => "46.5 N 8.2 E",
        FieldKind::Zone => "Europe/Oslo",
        FieldKind::Date => "2028-06-01",
        FieldKind::Choice(words) => words[0],
        FieldKind::YesNo => "yes",
        FieldKind::Thing(kind) => return called(kind),
        FieldKind::AnyOf(kinds) => return called(kinds[0]),
        FieldKind::Things(ThingKind::Sheet) => "S-0001, S-0002",
        FieldKind::Things(kind) => return called(kind),
        FieldKind::RunSheets => "S-0001, S-0002",
        FieldKind::Reference(_) => "BRASS",
        FieldKind::Process => "cyanotype",
        FieldKind::Sequence => "tray",
        FieldKind::Step => "coat",
        FieldKind::Patches => "III 0.35, V 0.72",
        FieldKind::Fault => "air bells",
        FieldKind::Cause => "not tapped",
    };
    text.to_owned()
}

fn called(kind: ThingKind) -> String {
    match kind {
        ThingKind::Side => "H-01 A".to_owned(),
        kind => kind.reference(1).expect("it has a letter"),
    }
}

/// A draft of `kind` with every field filled in, or only those that must be.
fn filled(room: &Darkroom, kind: Kind, all: bool) -> Draft {
    let mut draft = Draft::new(kind);
    // The fields of a step depend on the print and the step.
    for _ in 0..2 {
        for field in draft.fields(&room.ledger, &room.reference) {
            // A meter has two constants, and either is enough; so is one figure of a film or format.
            let enough = matches!(
                (kind, field.key.as_ref()),
                (Kind::MeterSet, "reflected")
                    | (Kind::FilmFound, "speed")
                    | (Kind::FormatFound, "image")
                    | (Kind::StripRead, "film")
                    | (Kind::LimitsSet, "gradient")
                    | (Kind::StepChanged, "more")
            );
            if all || enough || field.need == Need::Must {
                let text = match (kind, field.key.as_ref()) {
                    // A window is smaller than its mat.
                    (Kind::Matted, "outer") => "16x20 in".to_owned(),
                    // A film needs more than was metered.
                    (Kind::TimeFound, "needed") => "5 min".to_owned(),
                    // Of two baths and a new one each is another.
                    (Kind::BathsRotated, "second") => "B-0002".to_owned(),
                    (Kind::BathsRotated, "next") => "B-0003".to_owned(),
                    _ => example(field.kind),
                };
                draft.set(&field.key, text);
            }
        }
    }
    draft
}

fn kinds_with_fields() -> impl Iterator<Item = Kind> {
    let words = [Kind::Struck, Kind::Amended];
    Kind::ALL
        .iter()
        .copied()
        .filter(move |kind| !words.contains(kind))
}

#[test]
fn every_field_is_a_field_of_the_body_and_the_body_has_no_others() {
    let mut room = well_stocked();
    for kind in kinds_with_fields() {
        let draft = filled(&room, kind, true);
        let drafted = room.read_draft(&draft);
        let deed = drafted
            .unwrap_or_else(|problems| panic!("{kind}: {problems:?}"))
            .deed;
        let mut in_body: BTreeSet<String> = body_of(&deed).keys().cloned().collect();
        // How a setting was reckoned is no field: nobody types it.
        in_body.remove("reckoning");
        let mut asked: BTreeSet<String> = kind
            .fields()
            .iter()
            .map(|field| field.key.to_string())
            .collect();
        assert_eq!(
            asked.len(),
            kind.fields().len(),
            "{kind} asks for a field twice"
        );
        // What comes into being, and what follows from the fields.
        asked.extend(kind.creates().map(|(key, _)| key.to_owned()));
        let follows: &[&str] = match kind {
            Kind::HolderAdded => &["side_ids"],
            Kind::Loaded => &["again"],
            Kind::PrintStep => &["figures"],
            _ => &[],
        };
        asked.extend(follows.iter().map(|key| (*key).to_owned()));
        assert_eq!(in_body, asked, "{kind}");
    }
}

#[test]
fn a_field_that_must_be_filled_is_asked_for_and_no_other() {
    let mut room = well_stocked();
    for kind in kinds_with_fields() {
        let least = filled(&room, kind, false);
        let read = room.read_draft(&least);
        assert!(read.is_ok(), "{kind}: {read:?}");
        let needed = kind
            .fields()
            .iter()
            .filter(|field| field.need == Need::Must);
        for field in needed {
            let mut without = least.clone();
            without.set(&field.key, "  ");
            let problems = room.read_draft(&without).expect_err("a field is missing");
            let keys: Vec<&str> = problems.iter().map(|one| one.key.as_str()).collect();
            assert_eq!(keys, [field.key.as_ref()], "{kind}");
        }
    }
}

#[test]
fn a_deed_shown_as_it_would_be_typed_is_read_as_the_same_deed() {
    let mut room = well_stocked();
    for kind in kinds_with_fields() {
        for all in [true, false] {
            let draft = filled(&room, kind, all);
            let deed = room.read_draft(&draft).expect("it can be read").deed;
            // By its text alone, as if somebody had typed it.
            let shown = Draft::of(&deed, &room.ledger);
            let mut typed = Draft::new(kind);
            typed.typed.clone_from(&shown.typed);
            let again = room
                .read_draft(&typed)
                .expect("what is shown can be read")
                .deed;
            assert_eq!(without_new_ids(&again), without_new_ids(&deed), "{kind}");
            // As an amendment that changes nothing.
            let mut last = 0xF00D;
            let mut desk = Desk {
                names: &room.ledger,
                reference: &room.reference,
                now: room.now,
                zone: TimeZone::Fixed(*room.now.offset()),
                ids: &mut || {
                    last += 1;
                    Uuid::from_u128(last)
                },
            };
            assert_eq!(amended(&deed, &shown, &mut desk), Ok(deed), "{kind}");
        }
    }
}

/// The body without the ids of what comes into being.
fn without_new_ids(deed: &Deed) -> serde_json::Map<String, serde_json::Value> {
    let mut body = body_of(deed);
    if deed.creates().is_some()
        && let Some((key, _)) = deed.kind().creates()
    {
        body.remove(key);
    }
    body.remove("side_ids");
    body
}

#[test]
fn every_entry_taken_is_shown_and_read_again() {
    let mut room = well_stocked();
    let entries = room.ledger.entries.clone();
    for entry in entries {
        let shown = Draft::of(&entry.deed, &room.ledger);
        let amended = room.amendment(entry.id, &[]);
        assert_eq!(amended, entry.deed, "{:?}", shown.typed);
    }
}

#[test]
fn what_a_deed_is_about_is_one_of_its_fields() {
    for kind in kinds_with_fields() {
        let Some(key) = kind.about() else {
            continue;
        };
        let field = kind.fields().iter().find(|field| field.key == key);
        assert!(field.is_some(), "{kind} is about {key}");
    }
    let creating = kinds_with_fields().filter(|kind| kind.creates().is_some());
    assert_eq!(creating.count(), 22);
}

#[test]
fn figures_of_a_step_are_kept_as_they_were_written() {
    let mut room = well_stocked();
    let typed = [
        ("print", "p1"),
        ("step", "coat"),
        ("figures.drops-a", "20"),
        ("figures.area", "9 x 11"),
        ("figures.mood", "calm"),
    ];
    let drafted = room.read(Kind::PrintStep, &typed).expect("it can be read");
    let Deed::PrintStep(step) = drafted.deed else {
        panic!("another deed");
    };
    let kept: Vec<(&str, &str)> = step
        .figures
        .iter()
        .map(|(key, text)| (key.as_str(), text.as_str()))
        .collect();
    assert_eq!(
        kept,
        [("area", "9 x 11"), ("drops-a", "20"), ("mood", "calm")]
    );
    let wrong = room.problem(
        Kind::PrintStep,
        &[("print", "p1"), ("step", "coat"), ("figures.area", "wide")],
    );
    assert!(
        wrong.starts_with(&format!("{FIGURE_PREFIX}area: ")),
        "{wrong}"
    );
}

#[test]
fn a_count_is_read_as_people_say_it() {
    let mut room = well_stocked();
    for (typed, count) in [("12 sheets", 12), ("1 sheet", 1), (" 25 ", 25)] {
        let drafted = room.read(Kind::Counted, &[("thing", "f1"), ("sheets", typed)]);
        let Ok(Deed::Counted(counted)) = drafted.map(|drafted| drafted.deed) else {
            panic!("{typed}");
        };
        assert_eq!(counted.sheets, count);
    }
    for typed in ["sheets", "-1", "1.5", "99999"] {
        let problem = room.problem(Kind::Counted, &[("thing", "f1"), ("sheets", typed)]);
        assert!(problem.contains("is not a count"), "{problem}");
    }
}

#[test]
fn a_reason_of_blanks_is_no_reason() {
    let mut room = well_stocked();
    let drafted = room.read(Kind::Lost, &[("thing", "s1"), ("reason", "rain")]);
    let mut drafted = drafted.expect("it can be read");
    if let Deed::Lost(lost) = &mut drafted.deed {
        lost.reason = "  ".to_owned();
    }
    assert!(matches!(
        room.write(vec![drafted]),
        Err(Refusal::Nonsense(_))
    ));
}
