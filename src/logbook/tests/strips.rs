//! Strips of steps: read on a sheet, in a bath or without either, and put beside each other.

use super::*;
use crate::craft::sensitometry::Joined;
use crate::craft::{Celsius, Dilution, Seconds};
use crate::logbook::strips::{KeptStrip, controlled, family, limits_of};
use crate::logbook::{StripRead, TabletUsed};

/// A strip of 11 steps, 8 minutes of the constructed family.
const EIGHT: &str = "1.61 1.42 1.23 1.04 0.84 0.65 0.47 0.30 0.19 0.14 0.13";
/// Several, each under its time, with the tablet beside them. Constructed, not measured.
const TABLE: &str = "step,tablet,t5.5,t8,t11; 1,0.05,1.22,1.61,1.99; 2,0.35,1.07,1.42,1.75; \
                     3,0.65,0.93,1.23,1.52; 4,0.95,0.78,1.04,1.29; 5,1.25,0.64,0.84,1.05; \
                     6,1.55,0.49,0.65,0.82; 7,1.85,0.35,0.47,0.59; 8,2.15,0.23,0.30,0.38; \
                     9,2.45,0.15,0.19,0.23; 10,2.75,0.13,0.14,0.16; 11,3.05,0.12,0.13,0.15";

fn strip_of(room: &Darkroom, reference: &str) -> StripRead {
    let life = room.life(reference);
    KeptStrip::of(&life).expect("a strip").strip
}

fn each(room: &mut Darkroom, typed: &[(&str, &str)]) -> Vec<Draft> {
    let draft = draft(Kind::StripRead, typed);
    let mut ids = Uuid::nil;
    draft.each_strip(&Desk {
        names: &room.ledger,
        reference: &room.reference,
        now: room.now,
        zone: TimeZone::Fixed(*room.now.offset()),
        ids: &mut ids,
    })
}

#[test]
fn a_strip_on_a_sheet_is_completed_with_what_the_logbook_knows() {
    let mut room = Darkroom::with_a_shelf();
    for side in ["h1a", "h1b"] {
        room.log(Kind::Loaded, &[("side", side), ("film_box", "f1")]);
        room.log(Kind::Exposed, &[("side", side)]);
    }
    let run = [
        ("sheets", "h1a h1b"),
        ("developer", "b1"),
        ("dilution", "1+31"),
        ("time", "8m"),
        ("temperature", "20.5"),
    ];
    room.log(Kind::RunBegun, &run);
    room.log(Kind::RunEnded, &[("run", "r1"), ("time", "8m30")]);
    let typed = [
        ("sheet", "s1"),
        ("readings", EIGHT),
        ("tablet", "11"),
        ("bare", "0.35"),
        ("joined", "straight"),
    ];
    let entry = room.log(Kind::StripRead, &typed);
    let strip = strip_of(&room, "n1");
    assert_eq!(strip.film.as_deref(), Some("FP4 Plus"));
    assert_eq!(strip.developer.as_deref(), Some("metol, fresh"));
    assert_eq!(strip.dilution, Dilution::parse("1+31").ok());
    assert_eq!(
        strip.time,
        Seconds::new(510.0).ok(),
        "the time that was given"
    );
    assert_eq!(strip.temperature, Celsius::new(20.5).ok());
    assert_eq!(
        strip.run,
        room.ledger
            .find(&[ThingKind::Run], "R-0001")
            .map(|it| it.id)
    );
    assert_eq!(strip.joined, Some(Joined::Straight));
    let told =
        crate::logbook::telling::tell(&Deed::StripRead(strip), &room.ledger, &room.reference);
    assert!(
        told.headline
            .starts_with("FP4 Plus, metol, fresh 1+31, 8 min 30 s at 20.5 C"),
        "{}",
        told.headline
    );
    assert!(
        told.details
            .contains(&("run".to_owned(), "R-0001".to_owned()))
    );
    // On the other sheet after all, and what was read otherwise is kept to the last digit.
    room.amend(entry, &[("sheet", "s2"), ("base_fog", "0.12")]);
    let strip = strip_of(&room, "n1");
    assert_eq!(
        Some(strip.sheet),
        Some(
            room.ledger
                .find(&[ThingKind::Sheet], "S-0002")
                .map(|it| it.id)
        )
    );
    assert_eq!(strip.readings.iter().flatten().count(), 11);
    assert_eq!(room.life("s1").entries + 1, room.life("s2").entries);
}

#[test]
fn what_is_not_in_the_logbook_is_typed_and_a_bath_names_its_developer() {
    let mut room = Darkroom::with_a_shelf();
    let typed = [
        ("film", "HP5"),
        ("bath", "b1"),
        ("time", "8m"),
        ("readings", "1 1.61 14 0.38 15 0.30 16 0.23 21 0.13"),
        ("series", "tank line"),
    ];
    room.log(Kind::StripRead, &typed);
    let strip = strip_of(&room, "n1");
    assert_eq!(strip.developer.as_deref(), Some("metol, fresh"));
    assert_eq!(
        (
            strip.readings.len(),
            strip.readings.iter().flatten().count()
        ),
        (21, 5)
    );
    assert_eq!(strip.sheet, None);
    let bath = room.life("b1");
    assert!(bath.possible().contains(&Kind::StripRead));
    room.log(Kind::Discarded, &[("thing", "b1"), ("reason", "weak")]);
    room.log(Kind::StripRead, &typed);
    assert_eq!(
        room.state("b1"),
        "thrown away",
        "a strip of a bath is read long after"
    );
}

#[test]
fn a_tablet_that_was_kept_is_named_and_stays_what_it_was() {
    let mut room = Darkroom::new();
    let kept = [
        ("name", "the tablet in the drawer"),
        ("densities", "0.05 0.36 0.64 0.97 1.26"),
    ];
    room.log(Kind::TabletFound, &kept);
    let typed = [
        ("film", "HP5"),
        ("readings", "1.2 0.9 0.6 0.3 0.1"),
        ("tablet", "The tablet in the drawer"),
    ];
    let entry = room.log(Kind::StripRead, &typed);
    room.log(Kind::Retired, &[("thing", "n1"), ("reason", "scratched")]);
    room.amend(entry, &[("base_fog", "0.08")]);
    let strip = strip_of(&room, "n2");
    let Some(TabletUsed::Measured { name, densities }) = strip.tablet else {
        panic!("a measured tablet");
    };
    assert_eq!(name.as_deref(), Some("the tablet in the drawer"));
    assert_eq!(densities.len(), 5);
    let problem = room.problem(
        Kind::StripRead,
        &[
            ("film", "x"),
            ("readings", "1.2 0.9 0.6 0.3"),
            ("tablet", "0.1 0.2 0.3 0.4 0.5"),
        ],
    );
    assert!(
        problem.starts_with("readings: 4 readings for a tablet of 5 steps"),
        "{problem}"
    );
}

#[test]
fn a_strip_that_cannot_be_meant_is_asked_back_beside_its_field() {
    let mut room = Darkroom::with_negatives();
    for (typed, problem) in [
        (
            [("film", ""), ("tablet", "11"), ("readings", EIGHT)],
            "film: name the film",
        ),
        (
            [("film", "x"), ("tablet", "12"), ("readings", EIGHT)],
            "tablet: ",
        ),
        (
            [("film", "x"), ("tablet", "drawer"), ("readings", EIGHT)],
            "tablet: no tablet called",
        ),
        (
            [("film", "x"), ("tablet", "21"), ("readings", EIGHT)],
            "readings: 11 readings for",
        ),
        (
            [
                ("film", "x"),
                ("tablet", "11"),
                ("readings", "1 1.2 2 1.0 3 0.5"),
            ],
            "readings: fewer than four",
        ),
        (
            [("film", "x"), ("tablet", "11"), ("readings", TABLE)],
            "readings: there are 3 strips",
        ),
    ] {
        let problems = room
            .read(Kind::StripRead, &typed)
            .expect_err("it cannot be read");
        let said: Vec<String> = problems
            .iter()
            .map(|one| format!("{}: {}", one.key, one.problem))
            .collect();
        assert!(
            said.iter().any(|one| one.starts_with(problem)),
            "{problem}: {said:?}"
        );
    }
    let fog = [
        ("film", "x"),
        ("tablet", "11"),
        ("readings", EIGHT),
        ("base_fog", "1.7"),
    ];
    assert!(
        room.problem(Kind::StripRead, &fog)
            .starts_with("base_fog: ")
    );
    let bare = [
        ("film", "x"),
        ("tablet", "11"),
        ("readings", EIGHT),
        ("bare", "12"),
    ];
    assert!(room.problem(Kind::StripRead, &bare).starts_with("bare: "));
    let none = [("series", "tank line")];
    assert!(
        room.problem(Kind::LimitsSet, &none)
            .starts_with("gradient: limits say")
    );
    let named = [("name", "21"), ("densities", "0.05 0.2 0.35 0.5")];
    assert!(
        room.problem(Kind::TabletFound, &named)
            .starts_with("name: a tablet is called by a word")
    );
    let late = [
        ("sheet", "s1"),
        ("readings", EIGHT),
        ("tablet", "11"),
        ("happened", "7:00"),
    ];
    assert!(room.try_log(Kind::StripRead, &late).is_err());
}

#[test]
fn a_table_of_several_strips_becomes_one_entry_each_with_its_time_and_tablet() {
    let mut room = Darkroom::new();
    let drafts = each(
        &mut room,
        &[("film", "HP5"), ("readings", TABLE), ("bare", "0.35")],
    );
    assert_eq!(drafts.len(), 3);
    for draft in &drafts {
        let drafted = room.read_draft(draft).expect("it can be read");
        room.write(vec![drafted]).expect("it fits");
    }
    let strip = strip_of(&room, "n2");
    assert_eq!(strip.time, Seconds::new(480.0).ok());
    assert_eq!(strip.through().expect("a tablet").count(), 11);
    assert!(strip.through().expect("a tablet").measured);
    let lives = room.ledger.findings();
    let kept: Vec<KeptStrip> = lives.iter().filter_map(KeptStrip::of).collect();
    let found = family(&kept).expect("a family");
    let at = found
        .family
        .time_for(0.583, 0.01)
        .expect("a time")
        .value
        .time;
    assert!((at.value() / 60.0 - 7.64).abs() < 0.1, "{at}");
    assert!(found.remarks.is_empty());
    let single = each(&mut room, &[("film", "HP5"), ("readings", EIGHT)]);
    assert_eq!(single.len(), 1);
}

#[test]
fn of_two_strips_of_one_time_the_newer_counts_and_control_strips_make_no_family() {
    let mut room = Darkroom::new();
    for (time, readings, series) in [
        ("8m", EIGHT, ""),
        ("8m", EIGHT, ""),
        (
            "11m",
            "1.99 1.75 1.52 1.29 1.05 0.82 0.59 0.38 0.23 0.16 0.15",
            "",
        ),
        ("11m", EIGHT, "tank line"),
    ] {
        let typed = [
            ("film", "HP5"),
            ("time", time),
            ("readings", readings),
            ("tablet", "11"),
            ("series", series),
        ];
        room.log(Kind::StripRead, &typed);
    }
    let lives = room.ledger.findings();
    let kept: Vec<KeptStrip> = lives.iter().filter_map(KeptStrip::of).collect();
    let found = family(&kept).expect("a family");
    let names: Vec<&str> = found
        .strips
        .iter()
        .map(|kept| kept.reference.as_str())
        .collect();
    assert_eq!(names, ["N-0002", "N-0003"]);
    assert!(
        found.remarks[0]
            .words
            .contains("N-0001 is older than N-0002")
    );
}

#[test]
fn a_dying_developer_shows_against_the_limits_that_were_set_last() {
    let mut room = Darkroom::new();
    for gradient in ["0.55", "0.58"] {
        let limits = [
            ("series", "Tank line"),
            ("gradient", gradient),
            ("gradient_within", "0.04"),
        ];
        room.log(Kind::LimitsSet, &limits);
    }
    for (day, readings) in [
        ("2026-02-01", EIGHT),
        (
            "2026-02-08",
            "1.55 1.37 1.19 1.00 0.81 0.63 0.46 0.29 0.18 0.14 0.13",
        ),
        (
            "2026-02-15",
            "1.40 1.23 1.07 0.90 0.73 0.57 0.41 0.27 0.17 0.13 0.12",
        ),
        (
            "2026-02-22",
            "1.30 1.14 0.99 0.83 0.68 0.52 0.38 0.25 0.16 0.13 0.12",
        ),
    ] {
        let at = format!("{day} 10:00");
        let typed = [
            ("film", "HP5"),
            ("readings", readings),
            ("tablet", "11"),
            ("series", "tank  line"),
            ("happened", &at),
        ];
        room.log(Kind::StripRead, &typed);
    }
    let lives = room.ledger.findings();
    let kept: Vec<KeptStrip> = lives.iter().filter_map(KeptStrip::of).collect();
    let set = limits_of(&lives, "TANK LINE").expect("limits");
    assert_eq!(set.gradient, Some(0.58));
    let found = controlled(&kept, "tank line", Some(&set)).expect("a series");
    let gradient = &found.measures[0];
    assert!(
        gradient
            .says
            .contains("under the lower limit since 15 Feb (N-0005)"),
        "{}",
        gradient.says
    );
    assert_eq!(gradient.rule_in_words(), "set to 0.580 ± 0.040");
    assert!(controlled(&kept, "tray line", None).is_err());
}

#[test]
fn what_follows_tells_the_measures_and_how_the_strip_stands_against_the_last() {
    let mut room = Darkroom::new();
    let last = [
        ("film", "HP5"),
        ("developer", "pyro"),
        ("time", "5m30"),
        ("tablet", "11"),
        ("bare", "0.35"),
        (
            "readings",
            "1.22 1.07 0.93 0.78 0.64 0.49 0.35 0.23 0.15 0.13 0.12",
        ),
    ];
    room.log(Kind::StripRead, &last);
    let follow = |typed: &[(&str, &str)]| {
        let lines = room.follows(Kind::StripRead, typed);
        let said = lines
            .iter()
            .map(|line| format!("{}: {} {}", line.label, line.value, line.note));
        said.collect::<Vec<String>>()
    };
    let mut typed = last.to_vec();
    typed[2].1 = "8m";
    typed[5].1 = EIGHT;
    let lines = follow(&typed);
    let says = |lines: &[String], words: &str| lines.iter().any(|line| line.contains(words));
    assert!(says(&lines, "average gradient: 0.59"), "{lines:#?}");
    assert!(
        says(&lines, "ISO speed: ") && says(&lines, "against: N-0001, 4 Mar 2026 of 5 min 30 s")
    );
    assert!(
        says(&lines, "gradient: +0.1") && says(&lines, "speed: "),
        "{lines:#?}"
    );
    typed[5].1 = TABLE;
    typed[3].1 = "";
    let lines = follow(&typed);
    assert!(
        says(&lines, "3 strips, each an entry of its own"),
        "{lines:#?}"
    );
    assert!(says(&lines, "N, gradient 0.58: 7 min"), "{lines:#?}");
    assert!(
        follow(&[("readings", "1.2 thick")])
            .iter()
            .any(|line| line.contains("thick"))
    );
    assert!(follow(&[]).is_empty());
}
