//! The sentences of the "no", one of each, to be read as somebody reads them in the dark.

use std::collections::BTreeMap;

use super::*;
use crate::logbook::Objection;

/// Collects one sentence of each sort.
#[derive(Default)]
struct Sentences {
    by_sort: BTreeMap<String, String>,
}

impl Sentences {
    fn add(&mut self, refusal: &Refusal) {
        self.add_as(&sort_of(refusal), refusal);
    }

    fn add_as(&mut self, sort: &str, refusal: &Refusal) {
        let before = self.by_sort.insert(sort.to_owned(), refusal.to_string());
        assert_eq!(before, None, "{sort} twice");
    }

    fn refused(&mut self, room: &mut Darkroom, kind: Kind, typed: &[(&str, &str)]) {
        self.add(&room.refusal(kind, typed));
    }
}

/// The name of the variant, that of the objection if it is one.
fn sort_of(refusal: &Refusal) -> String {
    let told = match refusal {
        Refusal::Order(order) if order.rests => return "what rests on it".to_owned(),
        Refusal::Order(order) => match &order.objection {
            Objection::Step(problem) => format!("step {problem:?}"),
            objection => format!("{objection:?}"),
        },
        refusal => format!("{refusal:?}"),
    };
    let end = told.find([' ', '{', '(']).unwrap_or(told.len());
    match told.strip_prefix("step ") {
        Some(problem) => {
            let end = problem.find([' ', '{']).unwrap_or(problem.len());
            format!("Step::{}", &problem[..end])
        }
        None => told[..end].to_owned(),
    }
}

/// Every sort there is; a new variant has to be added here and given a sentence below.
const SORTS: [&str; 37] = [
    "AlreadyExposed",
    "AlreadyLinked",
    "AlreadyStruck",
    "AmendedRemark",
    "Away",
    "Exhausted",
    "Future",
    "InDoubt",
    "NoDoubt",
    "NoReason",
    "NoReference",
    "NoSuchEntry",
    "NoneLeft",
    "NoneLeft of paper",
    "Nonsense",
    "NotAway",
    "NotBegun",
    "NotNext",
    "NotNext at its end",
    "NotYet",
    "NothingInIt",
    "OtherBox",
    "OtherKind",
    "OtherRun",
    "OtherSheet",
    "OtherSide",
    "OtherSide, in none",
    "OtherSides",
    "Step::Forbidden",
    "Step::Missing",
    "Step::Repeated",
    "Step::Unknown",
    "Taken",
    "Twice",
    "Unknown",
    "WrongSize",
    "WrongThing",
];

#[test]
fn every_refusal_is_a_sentence_that_says_what_is_since_when_and_what_to_do() {
    let mut all = Sentences::default();
    at_the_camera(&mut all);
    in_the_film_darkroom(&mut all);
    at_the_printing_bench(&mut all);
    about_entries(&mut all);
    let sorts: Vec<&str> = all.by_sort.keys().map(String::as_str).collect();
    let mut expected = SORTS.to_vec();
    expected.push("what rests on it");
    expected.push("what rests on it, gone");
    expected.sort_unstable();
    assert_eq!(sorts, expected);
    let sentences: Vec<String> = all
        .by_sort
        .iter()
        .map(|(sort, sentence)| format!("{sort}\n  {sentence}"))
        .collect();
    insta::assert_snapshot!("sentences", sentences.join("\n"));
}

fn at_the_camera(all: &mut Sentences) {
    let mut room = Darkroom::with_a_shelf();
    room.at("16:00");
    room.log(Kind::Loaded, &[("side", "h1b"), ("film_box", "f1")]);
    all.refused(
        &mut room,
        Kind::Loaded,
        &[("side", "h1b"), ("film_box", "f1")],
    );
    all.refused(
        &mut room,
        Kind::Loaded,
        &[("side", "h2a"), ("film_box", "f2")],
    );
    all.refused(&mut room, Kind::Exposed, &[("side", "h1a")]);
    let late = [
        ("side", "h2a"),
        ("film_box", "f1"),
        ("happened", "2026-03-01 10:00"),
    ];
    all.refused(&mut room, Kind::Loaded, &late);
    let ahead = [("side", "h2a"), ("film_box", "f1"), ("happened", "17:30")];
    all.refused(&mut room, Kind::Loaded, &ahead);
    room.at("16:02");
    room.log(Kind::Exposed, &[("side", "h1b")]);
    all.refused(&mut room, Kind::Exposed, &[("side", "h1b")]);
    let righted = [("side", "h1b"), ("reason", "turned in the bag")];
    all.refused(&mut room, Kind::SlideRighted, &righted);
    let dropped = [("side", "h1b"), ("reason", "the cap was on the lens")];
    all.refused(&mut room, Kind::ExposureDropped, &dropped);
    room.at("18:00");
    room.log(Kind::SlideSeen, &[("side", "h1b"), ("shows", "bright")]);
    all.refused(&mut room, Kind::Unloaded, &[("side", "h1b")]);
    room.log(Kind::Loaded, &[("side", "h2a"), ("film_box", "f1")]);
    let drafted = room.read(Kind::Exposed, &[("side", "h2a")]);
    let mut drafted = drafted.expect("it can be read");
    if let Deed::Exposed(exposed) = &mut drafted.deed {
        exposed.sheet = Some(room.life("s1").thing.id);
    }
    all.add(&room.write(vec![drafted]).expect_err("another sheet"));
    room.log(Kind::Loaded, &[("side", "h2b"), ("film_box", "f1")]);
    all.refused(
        &mut room,
        Kind::Loaded,
        &[("side", "h3"), ("film_box", "f1")],
    );
    room.log(Kind::Unloaded, &[("side", "h2b")]);
    room.log(
        Kind::BoxAdded,
        &[("film", "HP5 Plus"), ("size", "8x10"), ("sheets", "9")],
    );
    let again = [("side", "h2b"), ("film_box", "f3"), ("sheet", "s3")];
    all.refused(&mut room, Kind::Loaded, &again);
    let part = room.read(Kind::Retired, &[("thing", "l1"), ("reason", "sold")]);
    let mut part = part.expect("it can be read");
    if let Deed::Retired(retired) = &mut part.deed {
        retired.sides = vec![room.life("h1a").thing.id];
    }
    all.add(&room.write(vec![part]).expect_err("a lens has no sides"));
    let twice = room.read(Kind::Loaded, &[("side", "h3"), ("film_box", "f1")]);
    let mut twice = twice.expect("it can be read");
    if let Deed::Loaded(loaded) = &mut twice.deed {
        loaded.sheet = room.life("s3").thing.id;
    }
    all.add(&room.write(vec![twice]).expect_err("it is there"));
}

fn in_the_film_darkroom(all: &mut Sentences) {
    let mut room = Darkroom::with_a_shelf();
    for side in ["h1a", "h1b", "h2a"] {
        room.log(Kind::Loaded, &[("side", side), ("film_box", "f1")]);
        room.log(Kind::Exposed, &[("side", side)]);
    }
    // Logged against the order, S-0001 is in two holders; only one of them can be right.
    let again = [
        ("side", "h3"),
        ("film_box", "f1"),
        ("sheet", "s1"),
        ("over", "moved it in the dark"),
    ];
    room.log(Kind::Loaded, &again);
    all.refused(&mut room, Kind::Unloaded, &[("side", "h1a")]);
    room.log(Kind::Unloaded, &[("side", "h3")]);
    let gone = room.refusal(Kind::Unloaded, &[("side", "h1a")]);
    all.add_as("OtherSide, in none", &gone);
    room.log(Kind::Unloaded, &[("side", "h1b")]);
    room.log(
        Kind::BathMixed,
        &[
            ("name", "weak"),
            ("purpose", "developer"),
            ("capacity", "1"),
        ],
    );
    room.log(Kind::RunBegun, &[("sheets", "s2"), ("developer", "b3")]);
    let more = [("sheets", "h2a"), ("developer", "b3")];
    all.refused(&mut room, Kind::RunBegun, &more);
    room.log(Kind::RunBegun, &[("sheets", "h2a")]);
    let other = [("run", "r1"), ("sheets", "s3")];
    all.refused(&mut room, Kind::RunEnded, &other);
    room.log(Kind::RunEnded, &[("run", "r1")]);
    room.log(Kind::Discarded, &[("thing", "s2"), ("reason", "scratched")]);
    let ended = room.refusal(Kind::Filed, &[("sheet", "s2"), ("file_place", "binder")]);
    all.add_as("NotNext at its end", &ended);
}

fn at_the_printing_bench(all: &mut Sentences) {
    let mut room = Darkroom::with_negatives();
    room.log(
        Kind::PaperAdded,
        &[("name", "Plain Rag"), ("size", "11x14"), ("sheets", "1")],
    );
    let two = [
        ("negatives", "s1"),
        ("process", "cyanotype"),
        ("paper", "q1"),
        ("paper_sheets", "2"),
    ];
    let refusal = room.refusal(Kind::PrintBegun, &two);
    all.add_as("NoneLeft of paper", &refusal);
    room.log(Kind::PrintBegun, &two[..3]);
    let step = |step| [("print", "p1"), ("step", step)];
    all.refused(&mut room, Kind::PrintStep, &step("expose"));
    for done in ["coat", "dry-coating", "expose", "develop"] {
        room.log(Kind::PrintStep, &step(done));
    }
    all.refused(&mut room, Kind::PrintStep, &step("coat"));
    all.refused(&mut room, Kind::PrintStep, &step("develop"));
    let drafted = room.read(Kind::PrintStep, &step("wash"));
    let mut drafted = drafted.expect("it can be read");
    if let Deed::PrintStep(step) = &mut drafted.deed {
        step.step = "polish".to_owned();
    }
    all.add(&room.write(vec![drafted]).expect_err("no such step"));
    for done in ["wash", "dry"] {
        room.log(Kind::PrintStep, &step(done));
    }
    let back = [("print", "p1"), ("whereabouts", "returned")];
    all.refused(&mut room, Kind::Placed, &back);
    room.at("19:30");
    room.log(
        Kind::Placed,
        &[
            ("print", "p1"),
            ("whereabouts", "lent"),
            ("place", "town hall"),
        ],
    );
    all.refused(&mut room, Kind::Pressed, &[("print", "p1")]);
    let pair = [("sheets", "s1 s2"), ("bond", "effect")];
    room.log(Kind::Companions, &pair);
    all.refused(&mut room, Kind::Companions, &pair);
    let measured = room.read(
        Kind::Measured,
        &[("sheet", "s1"), ("low", "0.3"), ("high", "1.8")],
    );
    let mut measured = measured.expect("it can be read");
    if let Deed::Measured(what) = &mut measured.deed {
        (what.low, what.high) = (what.high, what.low);
    }
    all.add(&room.write(vec![measured]).expect_err("turned round"));
    let print = room.life("p1").thing.id;
    let filed = room.read(Kind::Filed, &[("sheet", "s1"), ("file_place", "binder")]);
    let mut filed = filed.expect("it can be read");
    if let Deed::Filed(what) = &mut filed.deed {
        what.sheet = print;
    }
    all.add(&room.write(vec![filed]).expect_err("a print is no negative"));
}

fn about_entries(all: &mut Sentences) {
    let mut room = Darkroom::with_a_shelf();
    let taken = [("name", "300 mm"), ("reference", "L-01")];
    all.refused(&mut room, Kind::LensAdded, &taken);
    let odd = [("name", "300 mm"), ("reference", "h7a")];
    all.refused(&mut room, Kind::LensAdded, &odd);
    let drafted = room.read(Kind::Unloaded, &[("side", "h1a")]);
    let mut drafted = drafted.expect("it can be read");
    if let Deed::Unloaded(unloaded) = &mut drafted.deed {
        unloaded.side = crate::logbook::ThingId(Uuid::from_u128(0xDEAD));
    }
    all.add(
        &room
            .write(vec![drafted.clone()])
            .expect_err("nobody knows it"),
    );
    drafted.over = Some(" ".to_owned());
    all.add(&room.write(vec![drafted]).expect_err("no reason"));
    room.at("10:00");
    let loaded = room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    room.at("11:00");
    let exposed = room.log(Kind::Exposed, &[("side", "h1a")]);
    all.add(
        &room
            .try_strike(loaded)
            .expect_err("the exposure rests on it"),
    );
    let holder = room.ledger.entries[2].id;
    let gone = room
        .try_strike(holder)
        .expect_err("the loading rests on it");
    all.add_as("what rests on it, gone", &gone);
    all.add(
        &room
            .try_strike(EntryId(Uuid::from_u128(0xDEAD)))
            .expect_err("unknown"),
    );
    let strike = room.strike(exposed);
    all.add(&room.try_strike(exposed).expect_err("struck"));
    let deed = room.amendment(loaded, &[]);
    let amend = |entry: EntryId, deed: Deed| {
        Deed::Amended(Amended {
            entry,
            deed: Box::new(deed),
            happened: None,
            reason: "wrong".to_owned(),
            touches: Vec::new(),
        })
    };
    all.add(&room.write_deed(amend(strike, deed)).expect_err("a word"));
    let other = room.read(Kind::Unloaded, &[("side", "h1a")]);
    let other = other.expect("it can be read").deed;
    all.add(
        &room
            .write_deed(amend(loaded, other))
            .expect_err("another kind"),
    );
}

#[test]
fn a_refusal_names_the_thing_as_it_was_then_and_not_as_it_is_called_now() {
    let mut room = Darkroom::with_a_shelf();
    let refusal = room.refusal(
        Kind::Loaded,
        &[
            ("side", "h1a"),
            ("film_box", "f1"),
            ("happened", "2026-03-01 10:00"),
        ],
    );
    assert!(
        refusal
            .to_string()
            .starts_with("F-01 is not in the logbook on 1 Mar 2026")
    );
}
