//! The lists: pages by key, newest first, and finding as one types.

use notchbook::craft::Capacity;
use notchbook::logbook::Kind;
use notchbook::logbook::life::{PrintState, SheetState};
use notchbook::store::rows::{BathRow, PrintQuery, SheetQuery};

use crate::darkroom::Darkroom;

fn sheets(room: &Darkroom, query: &SheetQuery<'_>) -> Vec<String> {
    let rows = room.store.sheets(query).expect("a list");
    rows.into_iter().map(|row| row.reference).collect()
}

fn found(room: &Darkroom, find: &str) -> Vec<String> {
    sheets(
        room,
        &SheetQuery {
            find,
            ..SheetQuery::default()
        },
    )
}

fn found_prints(room: &Darkroom, find: &str) -> Vec<String> {
    let query = PrintQuery {
        find,
        ..PrintQuery::default()
    };
    let rows = room.store.prints(&query).expect("a list");
    rows.into_iter().map(|row| row.reference).collect()
}

#[test]
fn a_row_of_sheets_says_where_it_stands() {
    let room = Darkroom::winter_quarry();
    let rows = room.store.sheets(&SheetQuery::default()).expect("a list");
    let row = rows.last().expect("a row");
    assert_eq!(
        (row.reference.as_str(), row.state.as_str()),
        ("S-0001", "filed")
    );
    assert_eq!(
        (row.film.as_str(), row.prints, row.exposures),
        ("FP4 Plus", 1, 1)
    );
    assert_eq!(row.speed.map(|speed| speed.value()), Some(80));
    assert_eq!(
        row.size.map(|size| size.to_string()).as_deref(),
        Some("8x10 in")
    );
    assert_eq!(row.film_box.as_deref(), Some("F-01"));
    assert_eq!(row.run.as_deref(), Some("R-0001"));
    assert_eq!(row.set.as_deref(), Some("G-0001"));
    assert_eq!(row.subject.as_deref(), Some("north wall, thaw"));
    assert_eq!(row.file_place.as_deref(), Some("binder 4, page 11"));
    assert_eq!(
        row.range().map(|range| format!("{range:.2}")).as_deref(),
        Some("1.55")
    );
    assert_eq!((&row.side, row.doubt), (&None, false));
    assert_eq!(
        room.store
            .sheet(room.id("S-0001"))
            .expect("an answer")
            .as_ref(),
        Some(row)
    );
}

#[test]
fn a_row_of_prints_says_where_it_stands() {
    let room = Darkroom::winter_quarry();
    let rows = room.store.prints(&PrintQuery::default()).expect("a list");
    let row = &rows[0];
    assert_eq!(
        (row.reference.as_str(), row.state.as_str()),
        ("P-0001", "matted")
    );
    assert_eq!((row.process.as_str(), row.steps), ("palladium", 9));
    assert_eq!(row.negatives, ["S-0001"]);
    assert_eq!(row.title.as_deref(), Some("North Wall"));
    assert_eq!(row.subject.as_deref(), Some("north wall, thaw"));
    assert_eq!(row.paper.as_deref(), Some("Cotton rag, unbuffered"));
    assert_eq!(row.number.as_deref(), Some("1/12"));
    assert_eq!(row.place.as_deref(), Some("stairwell, second landing"));
    assert!(!row.is_away());
    assert_eq!(
        room.store
            .print(room.id("P-0001"))
            .expect("an answer")
            .as_ref(),
        Some(row)
    );
}

#[test]
fn pages_follow_each_other_without_gap_or_repeat() {
    let mut room = Darkroom::new();
    room.log(
        Kind::BoxAdded,
        &[("film", "FP4 Plus"), ("size", "4x5"), ("sheets", "50")],
    );
    for number in 1..=23 {
        room.log(Kind::HolderAdded, &[("size", "4x5"), ("sides", "1")]);
        let side = format!("H-{number:02} A");
        room.log(Kind::Loaded, &[("side", &side), ("film_box", "F-01")]);
        if number % 2 == 0 {
            room.log(Kind::Exposed, &[("side", &side), ("subject", "ferry")]);
        }
    }
    for (find, state, expected) in [
        ("", None, 23),
        ("ferry", None, 11),
        ("", Some(SheetState::Exposed), 11),
        ("h-1 fp4", Some(SheetState::Loaded), 5),
    ] {
        let mut all: Vec<String> = Vec::new();
        let mut before = None;
        loop {
            let query = SheetQuery {
                find,
                state,
                before,
                limit: 4,
            };
            let page = room.store.sheets(&query).expect("a page");
            let Some(last) = page.last() else { break };
            before = Some(last.thing);
            all.extend(page.into_iter().map(|row| row.reference));
        }
        assert_eq!(all.len(), expected, "{find:?} {state:?}");
        assert!(all.is_sorted_by(|one, other| one > other), "newest first");
    }
}

#[test]
fn sheets_are_found_by_every_kind_of_word() {
    let mut room = Darkroom::winter_quarry();
    room.log(Kind::Loaded, &[("side", "H-01 A"), ("film_box", "F-01")]);
    for (find, expected) in [
        ("s-0001", &["S-0001"][..]),
        ("FILED", &["S-0001"]),
        ("Thaw", &["S-0002", "S-0001"]),
        ("ledge", &["S-0002", "S-0001"]),
        ("page 11", &["S-0001"]),
        ("h-01 a", &["S-0003"]),
        ("r-0001", &["S-0002", "S-0001"]),
        ("fp4 wall filed", &["S-0001"]),
        ("loaded f-01", &["S-0003"]),
        ("fp4 nothing-like-it", &[]),
        ("%", &[]),
        ("_", &[]),
        ("  ", &["S-0003", "S-0002", "S-0001"]),
    ] {
        assert_eq!(found(&room, find), expected, "finding {find:?}");
    }
    room.log(Kind::SlideSeen, &[("side", "H-01 A"), ("shows", "dark")]);
    assert_eq!(found(&room, "in doubt"), ["S-0003"]);
}

#[test]
fn case_is_ignored_in_every_script() {
    let mut room = Darkroom::winter_quarry();
    room.log(Kind::Loaded, &[("side", "H-01 A"), ("film_box", "F-01")]);
    room.log(
        Kind::Exposed,
        &[
            ("side", "H-01 A"),
            ("subject", "Übergang am Märzenbach"),
            ("place", "Ÿ 100%"),
        ],
    );
    for find in ["übergang", "ÜBERGANG", "märz", "MÄRZEN", "ÿ", "100%"] {
        assert_eq!(found(&room, find), ["S-0003"], "finding {find:?}");
    }
    assert_eq!(found(&room, "marzen"), Vec::<String>::new());
}

#[test]
fn prints_are_found_by_every_kind_of_word() {
    let mut room = Darkroom::winter_quarry();
    room.log(
        Kind::PrintBegun,
        &[
            ("negatives", "S-0002"),
            ("process", "cyanotype"),
            ("title", "Blue Wall"),
        ],
    );
    for (find, expected) in [
        ("p-0001", &["P-0001"][..]),
        ("north wall palladium", &["P-0001"]),
        ("wall", &["P-0002", "P-0001"]),
        ("CYANO", &["P-0002"]),
        ("in process", &["P-0002"]),
        ("matted stairwell", &["P-0001"]),
        ("cotton", &["P-0001"]),
        ("s-0002", &["P-0002"]),
        ("fp4", &["P-0002", "P-0001"]),
        ("1/12", &["P-0001"]),
    ] {
        assert_eq!(found_prints(&room, find), expected, "finding {find:?}");
    }
    let query = PrintQuery {
        state: Some(PrintState::Matted),
        ..PrintQuery::default()
    };
    assert_eq!(room.store.prints(&query).expect("a list").len(), 1);
}

#[test]
fn the_shelf_shows_what_is_left_and_what_was_used() {
    let room = Darkroom::winter_quarry();
    let boxes = room.store.boxes().expect("boxes");
    assert_eq!(
        (boxes[0].reference.as_str(), boxes[0].left, boxes[0].sheets),
        ("F-01", 23, 25)
    );
    assert_eq!(boxes[0].emulsion.as_deref(), Some("4417"));
    assert_eq!(
        boxes[0].expiry.map(|day| day.to_string()).as_deref(),
        Some("2028-06-01")
    );
    let papers = room.store.papers().expect("papers");
    assert_eq!(
        (papers[0].left, papers[0].batch.as_deref()),
        (24, Some("lot 77"))
    );
    let baths = room.store.baths().expect("baths");
    let bath = |reference: &str| baths.iter().find(|row| row.reference == reference);
    let working = bath("B-0002").expect("a bath");
    assert_eq!(
        (working.uses, working.stock.as_deref()),
        (2, Some("B-0001"))
    );
    assert_eq!(
        working.dilution.map(|it| it.to_string()).as_deref(),
        Some("1+100")
    );
    assert_eq!(
        bath("B-0003").expect("a bath").capacity,
        Some(Capacity::Sheets(40))
    );
    let lenses = room.store.lenses().expect("lenses");
    assert_eq!(
        (lenses[0].name.as_str(), lenses[0].exposures),
        ("Brass Meniscus 240", 2)
    );
    assert_eq!(room.store.cameras().expect("cameras")[0].exposures, 2);
    let runs = room.store.runs().expect("runs");
    assert_eq!(runs[0].sheets, ["S-0001", "S-0002"]);
    assert_eq!(runs[0].developer.as_deref(), Some("B-0002"));
    assert_eq!(
        runs[0].time.map(|time| time.to_string()).as_deref(),
        Some("11 min 40 s")
    );
    assert!(runs[0].ended > runs[0].begun);
    assert_eq!(
        room.store.sets().expect("sets")[0].sheets,
        ["S-0001", "S-0002"]
    );
}

#[test]
fn what_becomes_long_is_had_by_pages_and_what_is_in_use_alone() {
    let mut room = Darkroom::winter_quarry();
    let references =
        |rows: Vec<BathRow>| -> Vec<String> { rows.into_iter().map(|row| row.reference).collect() };
    let whole = references(room.store.baths().expect("baths"));
    assert_eq!(whole.len(), 6);
    let mut paged = Vec::new();
    let mut before = None;
    loop {
        let page = room.store.baths_before(before, 4).expect("a page");
        let Some(last) = page.last() else {
            break;
        };
        before = Some(last.thing);
        paged.extend(references(page));
    }
    assert_eq!(paged, whole);
    room.log(Kind::UsedUp, &[("thing", "B-0004")]);
    room.log(
        Kind::Discarded,
        &[("thing", "B-0005"), ("reason", "it went brown")],
    );
    let usable = references(room.store.baths_in_use().expect("baths"));
    assert_eq!(usable, ["B-0006", "B-0003", "B-0002", "B-0001"]);

    let run = room.id("R-0001");
    assert_eq!(room.store.runs_before(None, 9).expect("runs").len(), 1);
    assert!(
        room.store
            .runs_before(Some(run), 9)
            .expect("runs")
            .is_empty()
    );
    assert!(room.store.runs_under_way().expect("runs").is_empty());
    assert_eq!(room.store.sets_before(None, 9).expect("sets").len(), 1);
}
