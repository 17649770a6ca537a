//! The whole logbook as lines of JSON, out and in.

mod refused;

use notchbook::craft::{ExposureValue, Standing};
use notchbook::export::jsonl::{read_lines, write_lines};
use notchbook::logbook::{Deed, Kind, ReckonedStep, Reckoning};
use notchbook::store::{Manner, Store, StoreError, Stored, TakenIn};
use notchbook::world::Scripted;
use serde_json::Value;

use crate::darkroom::{Darkroom, moment};

/// A logbook with something of everything: late entries, overrides, strikes, amendments, notes.
pub(super) fn eventful() -> Darkroom {
    let mut room = Darkroom::winter_quarry();
    let measured = room.log(
        Kind::Measured,
        &[
            ("sheet", "S-0002"),
            ("low", "0.30"),
            ("high", "1.7"),
            ("note", "ünïcödé \"q\" \\ \u{1F4F7}"),
        ],
    );
    room.amend(measured, "read again\nin daylight", |deed| {
        if let Deed::Measured(measured) = deed {
            measured.high = notchbook::craft::Density::new(1.75).expect("a density");
        }
    });
    let note = room.log(
        Kind::Noted,
        &[("thing", "L-01"), ("text", "haze\ton the rear cell")],
    );
    let strike = room.strike(note, "it was the loupe");
    room.strike(strike, "no, it is haze");
    room.log(
        Kind::Noted,
        &[
            ("thing", "S-0001"),
            ("text", "late"),
            ("happened", "2026-03-04 16:30"),
        ],
    );
    room.at("2026-07-01T10:00:00.123456-04:00");
    for (kind, typed) in [
        (
            Kind::ShutterTested,
            [
                ("lens", "L-01"),
                ("mark", "1/60"),
                ("timings", "1/52 10.5 ms"),
            ]
            .as_slice(),
        ),
        (
            Kind::FilterFound,
            &[("filter", "orange"), ("stops", "x5"), ("film", "FP4 Plus")],
        ),
        (
            Kind::TimeFound,
            &[
                ("film", "FP4 Plus"),
                ("metered", "10s"),
                ("needed", "22.5s"),
            ],
        ),
        (
            Kind::DevelopmentFound,
            &[
                ("film", "FP4 Plus"),
                ("developer", "metol, own"),
                ("dilution", "1+2"),
                ("temperature", "68F"),
                ("time", "9m20"),
                ("agitation", "intermittent"),
                ("speed", "64"),
                ("contrast", "N-1/3"),
                ("gradient", "0.55"),
            ],
        ),
        (
            Kind::LightFound,
            &[("scene", "ledge, thaw"), ("value", "11.37")],
        ),
        (
            Kind::FilmFound,
            &[
                ("film", "Plain Pan"),
                ("speed", "64"),
                ("maker", "Northlight"),
                ("kind", "blue-sensitive"),
            ],
        ),
        (
            Kind::FormatFound,
            &[
                ("size", "6 1/2 x 8 1/2 in"),
                ("name", "whole plate"),
                ("image", "157.3x207.9 mm"),
                ("cut", "164x215 mm"),
                ("depth", "0.2275 in"),
                ("tolerance", "0.07 mm"),
            ],
        ),
        (Kind::MeterSet, &[("reflected", "12.57")]),
        (
            Kind::PlaceKept,
            &[
                ("name", "ledge"),
                ("coordinates", "58.123457 N 9.3 E"),
                ("zone", "oslo"),
            ],
        ),
        (
            Kind::TabletFound,
            &[
                ("name", "in the drawer"),
                ("densities", "0.051 0.352 0.648 0.9573 1.25"),
            ],
        ),
        (
            Kind::StripRead,
            &[
                ("film", "FP4 Plus"),
                ("developer", "metol"),
                ("time", "8m"),
                ("tablet", "in the drawer"),
                ("readings", "1 1.2345 2 0.9 4 0.31 5 0.1"),
                ("bare", "2.24 lx s"),
                ("series", "tank line"),
                ("joined", "straight"),
            ],
        ),
        (
            Kind::LimitsSet,
            &[
                ("series", "tank line"),
                ("gradient", "0.583"),
                ("speed_within", "1/3"),
            ],
        ),
        (
            Kind::Retired,
            &[("thing", "N-0003"), ("reason", "scaffolded")],
        ),
    ] {
        room.log(kind, typed);
    }
    room.log(Kind::Loaded, &[("side", "H-01 B"), ("film_box", "F-01")]);
    let begun = [
        ("side", "H-01 B"),
        ("planned_aperture", "f/32"),
        ("planned_time", "6s"),
    ];
    room.log(Kind::ExposureBegun, &begun);
    room.log(
        Kind::ExposureDropped,
        &[("side", "H-01 B"), ("reason", "wind")],
    );
    room.log(Kind::ExposureBegun, &begun);
    let mut exposed = room.read(
        Kind::Exposed,
        &[
            ("side", "H-01 B"),
            ("time", "6.3s"),
            ("openings", "3.1s 3.2s"),
            ("magnification", "1:3.7"),
            ("distance", "1.19 m"),
            ("facing", "SW"),
            ("flash", "one head"),
        ],
    );
    if let Deed::Exposed(exposed) = &mut exposed.deed {
        exposed.reckoning = Some(Reckoning {
            planned_aperture: exposed.aperture,
            planned_time: exposed.time,
            value: ExposureValue::new(10.37).ok(),
            steps: vec![ReckonedStep {
                name: "orange \"filter\"".to_owned(),
                amount: "+2.32 stops".to_owned(),
                stops: Some(2.321_928_094_887_362),
                seconds: Some(6.3),
                standing: Some(Standing::Own),
                source: "found 1 Jul 2026".to_owned(),
            }],
            remarks: vec!["beyond the table".to_owned()],
        });
    }
    room.act(vec![exposed.deed]).expect("it fits");
    room.log(Kind::Loaded, &[("side", "H-01 A"), ("film_box", "F-01")]);
    room.log(
        Kind::RunBegun,
        &[("sheets", "H-01 A"), ("over", "to see the fog")],
    );
    room
}

pub(super) fn export(store: &Store) -> String {
    let mut out = Vec::new();
    let exported = write_lines(store, &mut out).expect("an export");
    assert_eq!(exported.damaged, [0; 0]);
    String::from_utf8(out).expect("text")
}

/// An empty logbook of another machine.
pub(super) fn elsewhere() -> Darkroom {
    Darkroom::with_world(Scripted::new(moment("2031-01-01T08:00:00+09:00")))
}

pub(super) fn import(room: &mut Darkroom, text: &str, manner: Manner) -> TakenIn {
    read_lines(
        &mut room.store,
        &mut text.as_bytes(),
        manner,
        &room.reference,
    )
    .expect("an import")
}

pub(super) fn stored(store: &Store) -> Vec<Stored> {
    let mut all = Vec::new();
    store
        .walk::<StoreError>(
            |_| Ok(()),
            |_, stored| {
                all.push(stored);
                Ok(())
            },
        )
        .expect("a walk");
    all
}

/// Every row of every table that is made from the entries.
pub(super) fn projections(room: &Darkroom) -> Vec<String> {
    let db = rusqlite::Connection::open(room.store.path()).expect("a connection");
    let mut tables = db
        .prepare(
            "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'words%'
             AND name NOT IN ('settings', 'draft') ORDER BY name",
        )
        .expect("a statement");
    let names: Vec<String> = tables
        .query_map([], |row| row.get(0))
        .expect("rows")
        .collect::<Result<_, _>>()
        .expect("names");
    let mut all = Vec::new();
    for name in names {
        let mut select = db
            .prepare(&format!("SELECT * FROM {name}"))
            .expect("a statement");
        let columns = select.column_count();
        let mut rows = select.query([]).expect("rows");
        while let Some(row) = rows.next().expect("a row") {
            let cells: Vec<String> = (0..columns)
                .map(|index| format!("{:?}", row.get_ref(index).expect("a cell")))
                .collect();
            all.push(format!("{name}: {}", cells.join(" | ")));
        }
    }
    all.sort();
    all
}

#[test]
fn what_is_exported_comes_in_with_the_same_hashes_and_makes_the_same_things() {
    let room = eventful();
    let text = export(&room.store);
    let mut other = elsewhere();
    let outcome = import(&mut other, &text, Manner::AllOrNothing);
    assert_eq!(outcome.not_taken, []);
    assert_eq!(outcome.known, 0);
    assert_eq!(outcome.taken as usize, text.lines().count() - 1);
    assert_eq!(stored(&other.store), stored(&room.store));
    assert_eq!(projections(&other), projections(&room));
    let checked = other.store.check(&other.reference).expect("a check");
    assert!(checked.findings.is_empty(), "{:?}", checked.findings);
    let hits = |room: &Darkroom| {
        room.store
            .search("fog", None, 9, &room.reference)
            .expect("hits")
    };
    assert_eq!(hits(&other), hits(&room));

    let header = |text: &str| text.lines().next().map(str::to_owned).expect("a header");
    let again = export(&other.store);
    assert_ne!(
        header(&again),
        header(&text),
        "it is another machine's logbook"
    );
    assert!(again.lines().skip(1).eq(text.lines().skip(1)));
}

#[test]
fn a_line_holds_every_stored_field_in_plain_json() {
    let room = eventful();
    let text = export(&room.store);
    let header: Value = serde_json::from_str(text.lines().next().expect("a line")).expect("JSON");
    assert_eq!(header["notchbook"], 1);
    assert_eq!(header["machine"], room.store.machine().to_string());
    assert_eq!(header["entries"], text.lines().count() as u64 - 1);
    let lines: Vec<Value> = text
        .lines()
        .skip(1)
        .map(|line| serde_json::from_str(line).expect("JSON"))
        .collect();
    let loaded = lines
        .iter()
        .rfind(|line| line["kind"] == "loaded")
        .expect("a loading");
    // To the microsecond, in the zone it was written in.
    let happened = loaded["happened"].as_str().expect("a time");
    assert!(happened.starts_with("2026-07-01T10:"), "{happened}");
    assert!(happened.ends_with(":00.123456-04:00"), "{happened}");
    assert!(loaded["body"].is_object());
    assert_eq!(loaded["hash"].as_str().map(str::len), Some(64));
    let struck = lines
        .iter()
        .find(|line| line["kind"] == "struck")
        .expect("a strike");
    assert_eq!(struck["strikes"], struck["body"]["entry"]);
    assert!(lines.iter().any(|line| line["over"] == "to see the fog"));
}

#[test]
fn what_is_there_already_is_passed_over() {
    let mut room = eventful();
    let text = export(&room.store);
    let before = stored(&room.store);
    let outcome = import(&mut room, &text, Manner::AllOrNothing);
    assert_eq!((outcome.taken, outcome.known as usize), (0, before.len()));
    assert_eq!(outcome.not_taken, []);
    assert_eq!(stored(&room.store), before);
}

#[test]
fn a_logbook_that_went_on_brings_only_what_is_new() {
    let mut room = Darkroom::winter_quarry();
    let mut other = elsewhere();
    import(&mut other, &export(&room.store), Manner::AllOrNothing);
    room.at("2026-03-20T09:00:00+01:00");
    room.log(
        Kind::Noted,
        &[("thing", "P-0001"), ("text", "glass cleaned")],
    );
    let outcome = import(&mut other, &export(&room.store), Manner::AllOrNothing);
    assert_eq!((outcome.taken, outcome.not_taken), (1, vec![]));
    other.at("2031-01-02T08:00:00+09:00");
    other.log(
        Kind::Noted,
        &[("thing", "P-0001"), ("text", "written elsewhere")],
    );
    let outcome = import(&mut room, &export(&other.store), Manner::AllOrNothing);
    assert_eq!((outcome.taken, outcome.not_taken), (1, vec![]));
    assert_eq!(stored(&room.store).len(), stored(&other.store).len());
}
