//! Timelines: order, strikes, amendments, late entries, outcomes; and what undo and prefilling ask.

use notchbook::logbook::{Deed, Kind};
use notchbook::store::rows::Line;

use crate::darkroom::{Darkroom, moment};

fn timeline(room: &Darkroom, reference: &str) -> Vec<Line> {
    room.store
        .timeline(room.id(reference), &room.reference)
        .expect("a timeline")
}

fn line(lines: &[Line], kind: Kind) -> &Line {
    lines
        .iter()
        .find(|line| line.kind == kind)
        .unwrap_or_else(|| panic!("no {kind} in the timeline"))
}

#[test]
fn a_sheets_timeline_runs_from_the_box_to_its_print() {
    let room = Darkroom::winter_quarry();
    let lines = timeline(&room, "S-0001");
    let kinds: Vec<Kind> = lines.iter().map(|line| line.kind).collect();
    assert_eq!(
        kinds,
        [
            Kind::Loaded,
            Kind::Exposed,
            Kind::Companions,
            Kind::RunBegun,
            Kind::RunEnded,
            Kind::Measured,
            Kind::Filed,
            Kind::PrintBegun,
        ]
    );
    assert!(lines.iter().all(|line| !line.late && !line.is_remark));
    let exposed = line(&lines, Kind::Exposed);
    let things: Vec<&str> = exposed
        .things
        .iter()
        .map(|it| it.reference.as_str())
        .collect();
    assert_eq!(things, ["H-01 A", "L-01", "C-01"]);
    assert!(exposed.telling.headline.starts_with("f/32 at 6 s"));
}

#[test]
fn the_line_of_a_print_or_a_run_tells_what_became_of_it() {
    let mut room = Darkroom::winter_quarry();
    let lines = timeline(&room, "S-0001");
    assert_eq!(
        line(&lines, Kind::PrintBegun).outcome.as_deref(),
        Some("P-0001 palladium, matted, on the wall, stairwell, second landing")
    );
    assert_eq!(
        line(&lines, Kind::RunBegun).outcome.as_deref(),
        Some("R-0001 ended, 11 min 40 s")
    );
    room.log(
        Kind::PrintBegun,
        &[("negatives", "S-0001"), ("process", "cyanotype")],
    );
    room.log(
        Kind::Spoiled,
        &[("print", "P-0002"), ("reason", "torn in the wash")],
    );
    let lines = timeline(&room, "S-0001");
    assert_eq!(
        lines.last().expect("a line").outcome.as_deref(),
        Some("P-0002 cyanotype, spoiled: torn in the wash")
    );
    let own = timeline(&room, "P-0002");
    assert_eq!(line(&own, Kind::PrintBegun).outcome, None);
}

#[test]
fn struck_and_amended_lines_stay_legible() {
    let mut room = Darkroom::winter_quarry();
    let measured = line(&timeline(&room, "S-0001"), Kind::Measured).row;
    let filed = line(&timeline(&room, "S-0001"), Kind::Filed).row;
    let amendment = room.amend(measured, "read through the sleeve", |deed| {
        if let Deed::Measured(measured) = deed {
            measured.low = notchbook::craft::Density::new(0.29).expect("a density");
        }
    });
    let note = room.log(
        Kind::Noted,
        &[
            ("thing", "S-0001"),
            ("text", "a dark line at the left edge"),
        ],
    );
    let strike = room.strike(note, "it was on the sleeve");
    let lines = timeline(&room, "S-0001");
    let find = |row| lines.iter().find(|line| line.row == row).expect("a line");

    let measured = find(measured);
    assert!(measured.telling.headline.starts_with("0.29"));
    let was = measured.was.as_ref().expect("what it said before");
    assert!(was.headline.starts_with("0.31"));
    assert_eq!(measured.amended.len(), 1);
    assert_eq!(measured.amended[0].reason, "read through the sleeve");
    assert_eq!(measured.struck, None);

    let struck = find(note);
    assert_eq!(struck.telling.headline, "a dark line at the left edge");
    let remark = struck.struck.as_ref().expect("it is struck");
    assert_eq!(remark.reason, "it was on the sleeve");

    for (row, about) in [(amendment, measured.row), (strike, note)] {
        let remark = find(row);
        assert!(remark.is_remark);
        assert_eq!(remark.about, Some(about));
    }
    assert_eq!(find(filed).amended, []);
}

#[test]
fn an_exposure_amended_to_another_side_counts_there_and_stays_legible_here() {
    let mut room = Darkroom::winter_quarry();
    room.log(Kind::Loaded, &[("side", "H-01 A"), ("film_box", "F-01")]);
    room.log(Kind::Loaded, &[("side", "H-01 B"), ("film_box", "F-01")]);
    let row = room.log(Kind::Exposed, &[("side", "H-01 A"), ("time", "2 s")]);
    let other = room.id("H-01 B");
    room.amend(row, "it was the other side", |deed| {
        if let Deed::Exposed(exposed) = deed {
            exposed.side = Some(other);
        }
    });
    let rack = room.store.rack().expect("a rack");
    let states: Vec<&str> = rack[0]
        .sides
        .iter()
        .map(|side| side.state.as_str())
        .collect();
    assert_eq!(states, ["loaded", "exposed"]);
    let here = timeline(&room, "S-0003");
    assert!(here.iter().any(|line| line.row == row && line.elsewhere));
    let there = timeline(&room, "S-0004");
    assert!(there.iter().any(|line| line.row == row && !line.elsewhere));
}

#[test]
fn late_entries_and_overrides_are_marked() {
    let mut room = Darkroom::winter_quarry();
    room.at("2026-03-20T10:00:00+01:00");
    let late = room.log(
        Kind::Noted,
        &[
            ("thing", "S-0001"),
            ("text", "wind had dropped by then"),
            ("happened", "2026-03-04 16:30"),
        ],
    );
    let soon = room.log(
        Kind::Noted,
        &[
            ("thing", "S-0001"),
            ("text", "looked at again"),
            ("happened", "-20m"),
        ],
    );
    let over = room.log(
        Kind::Loaded,
        &[
            ("side", "H-01 A"),
            ("film_box", "F-01"),
            ("note", "by feel"),
        ],
    );
    let forced = room.log(
        Kind::RunBegun,
        &[
            ("sheets", "H-01 A"),
            ("over", "developed unexposed, to see the fog"),
        ],
    );
    let lines = timeline(&room, "S-0001");
    let find = |row| lines.iter().find(|line| line.row == row).expect("a line");
    assert!(find(late).late);
    assert!(!find(soon).late);
    let position = lines
        .iter()
        .position(|line| line.row == late)
        .expect("a line");
    assert_eq!(
        lines[position - 1].kind,
        Kind::Companions,
        "it stands where it happened"
    );

    let lines = timeline(&room, "S-0003");
    let find = |row| lines.iter().find(|line| line.row == row).expect("a line");
    assert_eq!(find(over).note.as_deref(), Some("by feel"));
    assert_eq!(
        find(forced).over.as_deref(),
        Some("developed unexposed, to see the fog")
    );
    for row in [late, soon, over, forced] {
        let alone = room
            .store
            .entry_line(row, &room.reference)
            .expect("an answer");
        let alone = alone.expect("a line");
        assert_eq!((alone.row, alone.late), (row, row == late));
    }
}

#[test]
fn one_line_is_told_as_the_timeline_tells_it() {
    let mut room = Darkroom::winter_quarry();
    let measured = line(&timeline(&room, "S-0001"), Kind::Measured).row;
    room.strike(measured, "another negative");
    for expected in timeline(&room, "S-0001") {
        let alone = room
            .store
            .entry_line(expected.row, &room.reference)
            .expect("an answer")
            .expect("a line");
        assert_eq!(alone.telling, expected.telling);
        assert_eq!(alone.struck, expected.struck);
        assert_eq!(alone.late, expected.late);
        assert!(
            alone.things.len() > expected.things.len(),
            "the sheet is named as well"
        );
    }
    assert_eq!(
        room.store
            .entry_line(9999, &room.reference)
            .expect("an answer"),
        None
    );
}

#[test]
fn the_last_similar_deed_is_the_newest_that_counts() {
    let mut room = Darkroom::winter_quarry();
    let exposed = |room: &Darkroom, about: Option<&str>| {
        let about = about.map(|reference| room.id(reference));
        match room
            .store
            .last_similar(Kind::Exposed, about)
            .expect("an answer")
        {
            Some(Deed::Exposed(exposed)) => exposed.in_front,
            other => panic!("{other:?}"),
        }
    };
    assert_eq!(
        exposed(&room, Some("H-01 A")).as_deref(),
        Some("diffusion screen")
    );
    let second = line(&timeline(&room, "S-0002"), Kind::Exposed).row;
    let companions = line(&timeline(&room, "S-0002"), Kind::Companions).row;
    room.strike(companions, "not companions");
    let run = line(&timeline(&room, "S-0002"), Kind::RunBegun).row;
    assert!(second < run);
    room.log(Kind::Loaded, &[("side", "H-01 A"), ("film_box", "F-01")]);
    let third = room.log(
        Kind::Exposed,
        &[("side", "H-01 A"), ("in_front", "stocking")],
    );
    assert_eq!(exposed(&room, None).as_deref(), Some("stocking"));
    room.strike(third, "the slide was in");
    assert_eq!(exposed(&room, None).as_deref(), Some("diffusion screen"));
    let never = room
        .store
        .last_similar(Kind::Framed, None)
        .expect("an answer");
    assert_eq!(never, None);
    let filed = room
        .store
        .last_similar(Kind::Filed, Some(room.id("S-0002")))
        .expect("an answer");
    assert!(
        matches!(filed, Some(Deed::Filed(_))),
        "any sheet's, if it has none itself"
    );
}

#[test]
fn the_last_step_is_that_of_the_same_process() {
    let mut room = Darkroom::winter_quarry();
    room.log(
        Kind::PrintBegun,
        &[("negatives", "S-0001"), ("process", "cyanotype")],
    );
    room.log(
        Kind::PrintStep,
        &[
            ("print", "P-0002"),
            ("step", "coat"),
            ("figures.tool", "rod"),
        ],
    );
    let coat = |process: &str| match room.store.last_step(process, "coat").expect("an answer") {
        Some(Deed::PrintStep(step)) => step.figures,
        other => panic!("{other:?}"),
    };
    assert_eq!(
        coat("palladium").get("drops-metal").map(String::as_str),
        Some("14")
    );
    assert_eq!(
        coat("cyanotype").get("tool").map(String::as_str),
        Some("rod")
    );
    assert_eq!(
        coat("van-dyke").get("tool").map(String::as_str),
        Some("rod")
    );
    assert_eq!(
        room.store
            .last_step("palladium", "gild")
            .expect("an answer"),
        None
    );
}

#[test]
fn undo_finds_the_newest_act_that_still_counts() {
    let mut room = Darkroom::winter_quarry();
    let last = |room: &Darkroom| {
        let act = room.store.last_act(&room.reference).expect("an answer");
        act.map(|act| {
            let rows: Vec<i64> = act.entries.iter().map(|entry| entry.row).collect();
            (act.entries[0].kind, rows)
        })
    };
    let (kind, rows) = last(&room).expect("an act");
    assert_eq!((kind, rows.len()), (Kind::Placed, 1));
    room.strike(rows[0], "not yet");
    let (kind, rows) = last(&room).expect("an act");
    assert_eq!(
        kind,
        Kind::Signed,
        "a strike is no act to undo, and what it struck neither"
    );
    room.amend(rows[0], "the number is wrong", |deed| {
        if let Deed::Signed(signed) = deed {
            signed.number = Some("2/12".to_owned());
        }
    });
    let (kind, rows) = last(&room).expect("an act");
    assert_eq!(kind, Kind::Amended);
    room.strike(rows[0], "it was right");
    assert_eq!(last(&room).expect("an act").0, Kind::Signed);
    assert_eq!(last(&Darkroom::new()), None);
}

#[test]
fn entries_are_found_by_their_number() {
    let room = Darkroom::winter_quarry();
    let entry = room
        .store
        .entry_by_row(1)
        .expect("an answer")
        .expect("an entry");
    assert_eq!(entry.kind(), Kind::BoxAdded);
    assert_eq!(entry.happened, moment("2026-03-03T20:01:00+01:00"));
    assert_eq!(room.store.row_of(entry.id).expect("an answer"), Some(1));
    assert_eq!(room.store.entry_by_row(0).expect("an answer"), None);
}

#[test]
fn the_end_of_a_timeline_is_what_was_written_last() {
    let mut room = Darkroom::winter_quarry();
    let sheet = room.id("S-0001");
    let whole = timeline(&room, "S-0001");
    let end = |room: &Darkroom, limit: usize| {
        let end = room.store.end_of_timeline(sheet, limit, &room.reference);
        end.expect("the end of a timeline")
    };
    assert_eq!(end(&room, whole.len()), (whole.clone(), false));
    let (last, older) = end(&room, 3);
    assert!(older);
    assert_eq!(last, whole[whole.len() - 3..]);
    // A word on an entry that is not among the last stands there without it.
    let exposed = line(&whole, Kind::Exposed).row;
    let amendment = room.amend(exposed, "read from the card", |deed| {
        if let Deed::Exposed(exposed) = deed {
            exposed.subject = Some("north wall".to_owned());
        }
    });
    let (last, older) = end(&room, 1);
    assert!(older);
    let [last] = last.as_slice() else {
        panic!("{last:?}");
    };
    assert_eq!(last.row, amendment);
    assert!(last.is_remark);
}
