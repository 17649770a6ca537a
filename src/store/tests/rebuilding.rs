//! What is made from the entries act by act is what a rebuild makes of all of them.

use std::time::Duration;

use super::appending::shelf;
use super::{Darkroom, TestWorld as _, assert_same};
use crate::craft::Seconds;
use crate::logbook::draft::{HAPPENED, NOTE, OVER};
use crate::logbook::{Deed, Kind, Reckoning};
use crate::store::{AppendError, Finding};

/// Makes sure that a check finds nothing and that a rebuild changes nothing.
fn assert_rebuilds_to_itself(room: &mut Darkroom) {
    let checked = room.store.check(&room.reference).expect("a check");
    assert_eq!(checked.findings, Vec::new());
    let before = room.everything();
    let mut reports = Vec::new();
    let rebuilt = room
        .store
        .rebuild(&room.reference, &mut |done, total| {
            reports.push((done, total))
        })
        .expect("rebuilt");
    assert_eq!(rebuilt.misfits, 0);
    assert_eq!(rebuilt.entries, checked.entries);
    assert_same(&room.everything(), &before);
    let (done, total) = reports.last().copied().expect("a report");
    assert_eq!(done, total);
}

/// Two boxes, three holders, tools, paper and baths.
pub(super) fn stock(room: &mut Darkroom) {
    shelf(room);
    for (kind, typed) in [
        (
            Kind::BoxAdded,
            &[
                ("film", "HP5 Plus"),
                ("size", "4x5"),
                ("sheets", "6"),
                ("speed", "320"),
            ][..],
        ),
        (Kind::HolderAdded, &[("size", "8x10"), ("sides", "2")]),
        (
            Kind::HolderAdded,
            &[("size", "4x5"), ("sides", "6"), ("reference", "h30")],
        ),
        (
            Kind::LensAdded,
            &[("name", "the short one"), ("focal_length", "150 mm")],
        ),
        (
            Kind::CameraAdded,
            &[("name", "field camera, cherry"), ("size", "8x10")],
        ),
        (
            Kind::PaperAdded,
            &[
                ("name", "cotton, unbuffered"),
                ("size", "11x14"),
                ("sheets", "10"),
            ],
        ),
        (
            Kind::BathMixed,
            &[
                ("name", "pyro stock"),
                ("purpose", "developer"),
                ("volume", "1 l"),
            ],
        ),
        (
            Kind::BathMixed,
            &[
                ("name", "pyro"),
                ("purpose", "developer"),
                ("dilution", "1+1+100"),
                ("stock", "b1"),
                ("capacity", "4"),
            ],
        ),
        (Kind::BathMixed, &[("name", "fixer"), ("purpose", "fixer")]),
    ] {
        room.log(kind, typed);
    }
}

#[test]
fn a_long_and_varied_session_rebuilds_to_itself() {
    let mut room = Darkroom::new();
    stock(&mut room);
    for side in ["h1a", "h1b", "h2a", "h2b"] {
        room.log(
            Kind::Loaded,
            &[("side", side), ("film_box", "f1"), (NOTE, "in the dark")],
        );
    }
    for side in ["h30 1", "h30 2", "h30 3"] {
        room.log(Kind::Loaded, &[("side", side), ("film_box", "f2")]);
    }
    let first = room.log(
        Kind::Exposed,
        &[
            ("side", "h1a"),
            ("lens", "l1"),
            ("camera", "c1"),
            ("aperture", "f/22+1/3"),
            ("time", "6s"),
        ],
    );
    let second = room.log(
        Kind::Exposed,
        &[("side", "h1b"), ("lens", "l2"), ("time", "1/15")],
    );
    room.log(
        Kind::Exposed,
        &[
            ("side", "h1b"),
            ("again", "yes"),
            ("time", "1/8"),
            ("subject", "mill race"),
        ],
    );
    // Written late: it happened before the exposures of the other sides.
    room.log(
        Kind::Exposed,
        &[
            ("side", "h2a"),
            ("lens", "l1"),
            (HAPPENED, "-5m"),
            ("time", "30s"),
        ],
    );
    // Really made on the other sheet.
    let amended = room.amend(
        second,
        &[("lens", "l1"), ("time", "2s"), (NOTE, "read from the card")],
    );
    room.strike(amended);
    room.amend(first, &[("lens", "l2"), ("subject", "north wall")]);
    room.amend(first, &[("side", "h2b"), ("subject", "north wall, thaw")]);
    let strike = room.strike(first);
    room.strike(strike);
    room.log(Kind::SlideSeen, &[("side", "h2b"), ("shows", "bright")]);
    room.log(
        Kind::SlideRighted,
        &[("side", "h2b"), ("reason", "remembered it well")],
    );
    room.log(Kind::Companions, &[("sheets", "s2 s3"), ("bond", "spare")]);
    room.log(
        Kind::Exposed,
        &[
            ("side", "h30 1"),
            ("lens", "l2"),
            (OVER, "never mind"),
            ("development", "N-1"),
        ],
    );
    room.log(Kind::Unloaded, &[("side", "h30 2")]);
    let fogged = room.log(
        Kind::Fogged,
        &[("sheet", "s7"), ("reason", "the slide was pulled")],
    );
    room.strike(fogged);
    room.log(
        Kind::Lost,
        &[("thing", "s7"), ("reason", "blown into the river")],
    );
    let run = room.log(
        Kind::RunBegun,
        &[
            ("sheets", "s2 s3"),
            ("developer", "b2"),
            ("fixer", "b3"),
            ("time", "11m30"),
            ("temperature", "20 C"),
            ("vessel", "tray"),
        ],
    );
    room.log(
        Kind::RunEnded,
        &[("run", "r1"), ("time", "12m"), ("seen", "even")],
    );
    room.amend(run, &[("temperature", "20.5 C"), ("vessel", "drum")]);
    let measured = room.log(
        Kind::Measured,
        &[("sheet", "s2"), ("low", "0.31"), ("high", "1.86")],
    );
    room.amend(
        measured,
        &[
            ("high", "1.9"),
            ("base_fog", "0.08"),
            ("channel", "ultraviolet"),
        ],
    );
    room.log(
        Kind::Filed,
        &[("sheet", "s2"), ("file_place", "binder 4, page 11")],
    );
    let print = room.log(
        Kind::PrintBegun,
        &[
            ("negatives", "s2"),
            ("process", "palladium"),
            ("paper", "q1"),
            ("title", "Mill Race"),
        ],
    );
    room.log(
        Kind::PrintStep,
        &[("print", "p1"), ("step", "coat"), ("figures.drops-a", "12")],
    );
    room.amend(
        print,
        &[("process", "cyanotype"), ("title", "Mill Race, thaw")],
    );
    let coat = room.log(
        Kind::Noted,
        &[("thing", "p1"), ("text", "a streak at the left")],
    );
    room.strike(coat);
    room.log(Kind::Spoiled, &[("print", "p1"), ("reason", "torn")]);
    room.amend(2, &[("reference", "h9"), ("make", "wood, brass corners")]);
    room.amend(1, &[("film", "FP4+"), (HAPPENED, "3 mar 12:00")]);
    room.log(Kind::Counted, &[("thing", "f1"), ("sheets", "20")]);
    room.log(
        Kind::BathReplenished,
        &[("bath", "b2"), ("volume", "70 ml")],
    );
    room.log(Kind::UsedUp, &[("thing", "b2")]);
    room.log(Kind::Retired, &[("thing", "l1"), ("reason", "fungus")]);
    assert_eq!(room.count("SELECT count(*) FROM exposure WHERE again"), 1);
    assert_rebuilds_to_itself(&mut room);
}

#[test]
fn findings_and_shutter_tests_are_rows_as_long_as_they_count() {
    let mut room = Darkroom::new();
    stock(&mut room);
    let test = [("lens", "l1"), ("mark", "1/60"), ("timings", "1/50 1/40")];
    let tested = room.log(Kind::ShutterTested, &test);
    let found = [("filter", "orange"), ("stops", "x4"), ("film", "FP4 Plus")];
    let found = room.log(Kind::FilterFound, &found);
    let place = [("name", "the ford"), ("coordinates", "46.5 N 8.2 W")];
    room.log(Kind::PlaceKept, &place);
    let film = [
        ("film", "FP4 Plus"),
        ("speed", "80"),
        ("kind", "orthochromatic"),
    ];
    room.log(Kind::FilmFound, &film);
    let format = [
        ("size", "4x5"),
        ("name", "brass"),
        ("image", "96x120 mm"),
        ("depth", "5 mm"),
        ("tolerance", "0.1 mm"),
    ];
    let format = room.log(Kind::FormatFound, &format);
    assert_eq!(
        room.text("SELECT about || speed || kind || film FROM finding WHERE sort = 'film'"),
        "FP4 Plus80orthochromaticFP4 Plus"
    );
    assert_eq!(
        room.text(
            "SELECT about || size || image || depth || tolerance FROM finding WHERE sort = 'format'"
        ),
        "brass4x5 in96x120 mm5.00.1"
    );
    room.strike(format);
    let tests = "SELECT count(*) || ' ' || coalesce(max(shots), 0) FROM shutter_test";
    assert_eq!(room.text(tests), "1 2");
    assert_eq!(
        room.text("SELECT sort || about || stops || film FROM finding WHERE reference = 'N-0001'"),
        "filterorange2.0FP4 Plus"
    );
    assert_eq!(
        room.text("SELECT says || ' ' || longitude FROM finding WHERE reference = 'N-0002'"),
        "46.5 N 8.2 W -8.2"
    );
    assert_rebuilds_to_itself(&mut room);
    room.amend(tested, &[("timings", "1/50 1/40 1/45")]);
    room.amend(found, &[("stops", "+3"), ("film", "")]);
    assert_eq!(room.text(tests), "1 3");
    assert_eq!(
        room.text("SELECT stops || coalesce(film, ' any') FROM finding WHERE sort = 'filter'"),
        "3.0 any"
    );
    assert_rebuilds_to_itself(&mut room);
    room.strike(tested);
    room.strike(found);
    assert_eq!(room.text(tests), "0 0");
    assert_eq!(room.text("SELECT count(*) || '' FROM finding"), "2");
    assert_rebuilds_to_itself(&mut room);
}

#[test]
fn a_strip_is_a_row_that_any_reader_of_sql_finds_as_long_as_it_counts() {
    let mut room = Darkroom::new();
    stock(&mut room);
    let readings = "1 1.61 2 1.42 9 0.19 10 0.14 11 0.13";
    let typed = [
        ("film", "FP4 Plus"),
        ("bath", "b1"),
        ("time", "8m"),
        ("tablet", "11"),
        ("bare", "0.35"),
        ("readings", readings),
        ("series", "tank line"),
    ];
    let read = room.log(Kind::StripRead, &typed);
    room.log(
        Kind::LimitsSet,
        &[("series", "tank line"), ("gradient", "0.58")],
    );
    let row = "SELECT film || seconds || tablet || bare || readings || series FROM strip";
    let all = "FP4 Plus480.0{\"steps\":11}0.35\
               [1.61,1.42,null,null,null,null,null,null,0.19,0.14,0.13]tank line";
    assert_eq!(room.text(row), all);
    let rows = room.store.strips().expect("the strips");
    assert_eq!(rows[0].kept.strip.readings.iter().flatten().count(), 5);
    assert_eq!(rows[0].bath.as_deref(), Some("B-0001"));
    assert_eq!(
        rows[0].kept.strip.developer.as_deref(),
        room.store
            .baths()
            .expect("baths")
            .last()
            .map(|row| row.name.as_str())
    );
    let sorts = "SELECT group_concat(sort, ' ') FROM (SELECT sort FROM finding ORDER BY reference)";
    assert_eq!(room.text(sorts), "strip limits");
    assert_rebuilds_to_itself(&mut room);
    // The bath was mixed a moment before.
    room.amend(read, &[("time", "9m"), (HAPPENED, "4 mar 16:12")]);
    assert_eq!(
        room.text("SELECT seconds || ' ' || substr(read, 1, 16) FROM strip"),
        "540.0 2026-03-04T16:12"
    );
    assert_rebuilds_to_itself(&mut room);
    room.log(Kind::Retired, &[("thing", "n1"), ("reason", "misread")]);
    assert!(room.store.strips().expect("the strips").is_empty());
    room.strike(read + 3);
    room.strike(read);
    assert_eq!(room.text("SELECT count(*) || '' FROM strip"), "0");
    assert_rebuilds_to_itself(&mut room);
}

#[test]
fn an_exposure_keeps_its_plan_in_columns_that_any_reader_of_sql_finds() {
    let mut room = Darkroom::new();
    stock(&mut room);
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    let exposed = [
        ("side", "h1a"),
        ("openings", "20s 25s"),
        ("magnification", "1:4"),
        ("distance", "1.2 m"),
        ("facing", "SW"),
        ("flash", "one head"),
    ];
    let mut drafted = room.draft(Kind::Exposed, &exposed);
    if let Deed::Exposed(exposed) = &mut drafted.deed {
        exposed.reckoning = Some(Reckoning {
            planned_time: Seconds::new(40.0).ok(),
            ..Reckoning::default()
        });
    }
    room.write(vec![drafted]).expect("it fits");
    assert_eq!(
        room.text("SELECT openings || magnification || distance || facing || flash FROM exposure"),
        "[20.0,25.0]0.251200.0SWone head"
    );
    assert_eq!(
        room.text("SELECT planned_seconds || reckoning FROM exposure"),
        "40.0{\"planned_time\":40.0}"
    );
    assert_rebuilds_to_itself(&mut room);
}

#[test]
fn a_lens_is_the_same_whenever_its_exposures_were_logged_and_however_they_were_amended() {
    let mut room = Darkroom::new();
    stock(&mut room);
    for side in ["h1a", "h1b", "h2a", "h2b"] {
        room.log(Kind::Loaded, &[("side", side), ("film_box", "f1")]);
    }
    room.world.pass(Duration::from_secs(7200));
    let exposed = |room: &mut Darkroom, side: &str, happened: &str| {
        room.log(
            Kind::Exposed,
            &[
                ("side", side),
                ("lens", "l1"),
                ("camera", "c1"),
                ("time", "6s"),
                (HAPPENED, happened),
            ],
        )
    };
    let used = |room: &Darkroom| room.text("SELECT used FROM lens WHERE reference = 'L-01'");
    let first = exposed(&mut room, "h1a", "-1m");
    let last_used = used(&room);
    // Late, and of no matter to what the lens was last used for.
    let late = exposed(&mut room, "h1b", "-20m");
    exposed(&mut room, "h2a", "-30m");
    assert_eq!(used(&room), last_used);
    assert_eq!(
        room.count("SELECT exposures FROM lens WHERE reference = 'L-01'"),
        3
    );
    assert_rebuilds_to_itself(&mut room);
    // Nothing that a lens takes note of.
    room.amend(first, &[("time", "4s"), ("subject", "north wall")]);
    room.amend(late, &[("aperture", "f/45")]);
    assert_eq!(used(&room), last_used);
    assert_rebuilds_to_itself(&mut room);
    // Another time, another lens, and neither any more.
    let moved = room.amend(first, &[(HAPPENED, "-10m")]);
    assert_ne!(used(&room), last_used);
    room.amend(late, &[("lens", "l2")]);
    assert_rebuilds_to_itself(&mut room);
    room.strike(moved);
    assert_eq!(used(&room), last_used);
    room.strike(late);
    assert_rebuilds_to_itself(&mut room);
    room.log(Kind::Retired, &[("thing", "l1"), ("reason", "fungus")]);
    room.amend(first, &[("time", "5s")]);
    let after_its_end = [
        ("side", "h2b"),
        ("lens", "l1"),
        ("time", "1s"),
        (HAPPENED, "now"),
    ];
    let refused = room.try_log(Kind::Exposed, &after_its_end);
    assert!(
        matches!(refused, Err(AppendError::Refused(_))),
        "{refused:?}"
    );
    assert_rebuilds_to_itself(&mut room);
}

#[test]
fn an_amendment_to_another_side_moves_the_exposure_there_and_its_strike_moves_it_back() {
    let mut room = Darkroom::new();
    stock(&mut room);
    for side in ["h1a", "h1b", "h2a"] {
        room.log(Kind::Loaded, &[("side", side), ("film_box", "f1")]);
    }
    let exposed = room.log(Kind::Exposed, &[("side", "h1a"), ("time", "6s")]);
    let state = |room: &Darkroom| {
        ["H-01 A", "H-01 B", "H-02 A"].map(|side| {
            room.text(&format!(
                "SELECT state FROM side WHERE reference = '{side}'"
            ))
        })
    };
    assert_eq!(state(&room), ["exposed", "loaded", "loaded"]);
    let first = room.amend(exposed, &[("side", "h1b")]);
    assert_eq!(state(&room), ["loaded", "exposed", "loaded"]);
    let strike = room.strike(first);
    assert_eq!(state(&room), ["exposed", "loaded", "loaded"]);
    let second = room.amend(exposed, &[("side", "h2a")]);
    assert_eq!(state(&room), ["loaded", "loaded", "exposed"]);
    room.strike(strike);
    assert_eq!(
        state(&room),
        ["loaded", "loaded", "exposed"],
        "the later amendment counts"
    );
    assert_rebuilds_to_itself(&mut room);
    room.strike(second);
    assert_eq!(state(&room), ["loaded", "exposed", "loaded"]);
    assert_rebuilds_to_itself(&mut room);
}

#[test]
fn a_table_that_was_tampered_with_is_named_and_made_again() {
    let mut room = Darkroom::new();
    stock(&mut room);
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    let before = room.everything();
    room.damage(
        "UPDATE sheet SET state = 'filed'; DELETE FROM link; DELETE FROM words WHERE rowid = 3",
    );
    let checked = room.store.check(&room.reference).expect("a check");
    assert_eq!(
        checked.findings,
        ["link", "sheet", "words"].map(|table| Finding::Projection { table })
    );
    room.store
        .rebuild(&room.reference, &mut |_, _| {})
        .expect("rebuilt");
    assert_same(&room.everything(), &before);
}

#[test]
fn a_rebuild_that_meets_an_entry_it_cannot_read_changes_nothing() {
    let mut room = Darkroom::new();
    stock(&mut room);
    room.damage(
        "DROP TRIGGER entry_is_never_changed; UPDATE entry SET kind = 'dreamt' WHERE row = 3",
    );
    let before = room.everything();
    let problem = room.store.rebuild(&room.reference, &mut |_, _| {});
    let problem = problem.expect_err("it cannot be read").to_string();
    assert!(
        problem.contains("dreamt") && problem.contains("own.notchbook"),
        "{problem}"
    );
    assert_same(&room.everything(), &before);
}

#[test]
fn entries_missing_between_others_are_counted() {
    let mut room = Darkroom::new();
    stock(&mut room);
    room.log(Kind::Noted, &[("thing", "f1"), ("text", "one")]);
    room.log(Kind::Noted, &[("thing", "f1"), ("text", "two")]);
    room.damage("DROP TRIGGER entry_is_never_removed; DELETE FROM entry WHERE row = 13");
    let checked = room.store.check(&room.reference).expect("a check");
    assert!(
        checked.findings.contains(&Finding::Missing {
            machine: room.store.machine(),
            entries: 1
        }),
        "{:?}",
        checked.findings
    );
}
