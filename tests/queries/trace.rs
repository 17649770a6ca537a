//! The road of a print, up to everything behind it and down to everything that came of it.

use notchbook::logbook::{Deed, Kind};
use notchbook::store::rows::TraceStep;

use crate::darkroom::Darkroom;

fn step<'a>(steps: &'a [TraceStep], reference: &str) -> &'a TraceStep {
    steps
        .iter()
        .find(|step| step.reference == reference)
        .unwrap_or_else(|| panic!("no {reference} in the trace"))
}

fn fact<'a>(step: &'a TraceStep, label: &str) -> &'a str {
    step.facts
        .iter()
        .find(|fact| fact.label == label)
        .map(|fact| fact.value.as_str())
        .unwrap_or_else(|| panic!("{} has no \"{label}\": {:?}", step.reference, step.facts))
}

#[track_caller]
fn says(text: &str, wanted: &[&str]) {
    for word in wanted {
        assert!(text.contains(word), "\"{word}\" is not in \"{text}\"");
    }
}

#[test]
fn the_trace_of_a_matted_print_names_everything_behind_it() {
    let room = Darkroom::winter_quarry();
    let steps = room
        .store
        .trace_up(room.id("P-0001"), &room.reference)
        .expect("a trace");

    let print = &steps[0];
    assert_eq!((print.depth, print.reference.as_str()), (0, "P-0001"));
    says(
        &print.summary,
        &["North Wall", "matted", "1/12", "stairwell"],
    );
    says(fact(print, "print-begun"), &["Q-0001", "11x14 in"]);
    says(
        fact(print, "coat"),
        &[
            "ferric oxalate 15",
            "palladium 14",
            "sodium chloroplatinate",
        ],
    );
    says(fact(print, "expose"), &["12 min", "tubes"]);
    says(
        fact(print, "develop"),
        &["B-0004", "Potassium oxalate", "mixed 9 Mar 2026", "40.0 C"],
    );
    says(
        fact(print, "clear, first bath"),
        &["B-0005", "EDTA, first", "mixed 9 Mar 2026"],
    );
    says(
        fact(print, "clear, third bath"),
        &["B-0006", "EDTA, second", "mixed 9 Mar 2026"],
    );
    says(fact(print, "pressed"), &["82.0 C", "45 s"]);
    says(fact(print, "matted"), &["16x20 in", "4-ply cotton, ivory"]);

    let negative = step(&steps, "S-0001");
    assert_eq!((negative.depth, negative.role.as_str()), (1, "negative"));
    assert_eq!(negative.via, print.thing.id);
    says(
        &negative.summary,
        &[
            "FP4 Plus 8x10 in",
            "f/32 at 6 s",
            "0.31 .. 1.86 range 1.55",
            "binder 4, page 11",
        ],
    );
    says(
        fact(negative, "exposed"),
        &[
            "L-01", "C-01", "f/32", "6 s", "orange", "III 8.7", "294 mm", "N-1", "H-01 A",
        ],
    );
    says(
        fact(negative, "measured"),
        &["0.31", "1.86", "0.08", "visual"],
    );

    let run = step(&steps, "R-0001");
    assert_eq!((run.role.as_str(), run.via), ("run", negative.thing.id));
    says(
        &run.summary,
        &["6 Mar 2026", "11 min 40 s at 20.6 C", "tray", "2 sheets"],
    );
    says(fact(run, "run-ended"), &["even, no marks"]);
    let developer = step(&steps, "B-0002");
    assert_eq!(
        (developer.role.as_str(), developer.via),
        ("developer", run.thing.id)
    );
    says(
        &developer.summary,
        &["Pyrocatechin working 1+100", "mixed 6 Mar 2026"],
    );
    let stock = step(&steps, "B-0001");
    assert_eq!(
        (stock.role.as_str(), stock.via),
        ("stock bath", developer.thing.id)
    );
    says(&stock.summary, &["mixed 6 Mar 2026"]);
    says(fact(stock, "bath-mixed"), &["bottle 9"]);
    assert_eq!(step(&steps, "B-0003").role, "fixer");

    let side = step(&steps, "H-01 A");
    assert_eq!(side.role, "holder side");
    let holder = step(&steps, "H-01");
    assert_eq!(
        (holder.role.as_str(), holder.via),
        ("holder", side.thing.id)
    );
    says(&step(&steps, "L-01").summary, &["Brass Meniscus 240"]);
    says(&step(&steps, "C-01").summary, &["cherry field camera"]);
    let film_box = step(&steps, "F-01");
    assert_eq!(film_box.role, "film box");
    says(
        &film_box.summary,
        &["FP4 Plus", "emulsion 4417", "2028-06-01"],
    );

    says(
        &step(&steps, "Q-0001").summary,
        &["Cotton rag, unbuffered", "lot 77"],
    );
    let bath = step(&steps, "B-0006");
    says(
        &bath.summary,
        &["EDTA, second", "for clear, second bath; clear, third bath"],
    );

    assert!(
        !steps.iter().any(|step| step.reference == "S-0002"),
        "the companion is not behind the print"
    );
}

#[test]
fn the_trace_down_reaches_the_prints() {
    let room = Darkroom::winter_quarry();
    for start in ["F-01", "B-0001", "L-01", "H-01", "S-0001"] {
        let steps = room
            .store
            .trace_down(room.id(start), &room.reference)
            .expect("a trace");
        assert_eq!(steps[0].reference, start);
        assert_eq!(
            step(&steps, "P-0001").thing,
            room.thing("P-0001"),
            "from {start}"
        );
    }
    let steps = room
        .store
        .trace_down(room.id("B-0001"), &room.reference)
        .expect("a trace");
    let road: Vec<(u32, &str)> = steps
        .iter()
        .map(|step| (step.depth, step.reference.as_str()))
        .collect();
    assert_eq!(
        road,
        [
            (0, "B-0001"),
            (1, "B-0002"),
            (2, "R-0001"),
            (3, "S-0001"),
            (4, "P-0001"),
            (3, "S-0002"),
        ]
    );
}

#[test]
fn a_struck_entry_leaves_the_trace_and_an_amended_one_moves_it() {
    let mut room = Darkroom::winter_quarry();
    room.log(
        Kind::LensAdded,
        &[
            ("name", "Long Portrait 420"),
            ("happened", "2026-03-01 12:00"),
        ],
    );
    let exposure = room
        .store
        .timeline(room.id("S-0001"), &room.reference)
        .expect("a timeline")
        .into_iter()
        .find(|line| line.kind == Kind::Exposed)
        .expect("an exposure");
    let other = room.id("L-02");
    room.amend(exposure.row, "it was the long one", |deed| {
        if let Deed::Exposed(exposed) = deed {
            exposed.lens = Some(other);
        }
    });
    let up = |room: &Darkroom| {
        room.store
            .trace_up(room.id("P-0001"), &room.reference)
            .expect("a trace")
    };
    let steps = up(&room);
    assert_eq!(step(&steps, "L-02").role, "lens");
    assert!(!steps.iter().any(|step| step.reference == "L-01"));

    let last = room
        .store
        .timeline(room.id("P-0001"), &room.reference)
        .expect("a timeline")
        .into_iter()
        .find(|line| line.kind == Kind::Pressed)
        .expect("a pressing");
    room.strike(last.row, "it was another print");
    assert!(
        up(&room)[0]
            .facts
            .iter()
            .all(|fact| fact.label != "pressed"),
        "what is struck was not done"
    );
}

#[test]
fn a_stock_behind_two_baths_is_told_once() {
    let mut room = Darkroom::winter_quarry();
    room.log(
        Kind::BathMixed,
        &[
            ("name", "Weak working"),
            ("purpose", "developer"),
            ("stock", "B-0001"),
        ],
    );
    for side in ["H-01 A", "H-01 B"] {
        room.log(Kind::Loaded, &[("side", side), ("film_box", "F-01")]);
        room.log(Kind::Exposed, &[("side", side)]);
    }
    room.log(
        Kind::RunBegun,
        &[
            ("sheets", "S-0003 S-0004"),
            ("developer", "B-0002"),
            ("other_baths", "B-0007"),
        ],
    );
    let steps = room
        .store
        .trace_up(room.id("S-0003"), &room.reference)
        .expect("a trace");
    let stock: Vec<bool> = steps
        .iter()
        .filter(|step| step.reference == "B-0001")
        .map(|step| step.repeated)
        .collect();
    assert_eq!(stock, [false, true]);
}

#[test]
fn a_thing_that_is_not_there_has_no_road() {
    let room = Darkroom::new();
    let nobody = notchbook::logbook::ThingId(uuid::Uuid::nil());
    let steps = room
        .store
        .trace_up(nobody, &room.reference)
        .expect("an answer");
    assert_eq!(steps, []);
}
