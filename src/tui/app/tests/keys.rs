//! The table of actions against the screens: everything can be reached, everything is explained.

use std::collections::BTreeSet;

use crate::tui::actions::Place;
use crate::tui::app::deeds::{self, ACTIONS};
use crate::tui::app::stand::Stand;

/// Every place that can have the focus, with what stands around it.
fn ways_to_be() -> Vec<Vec<Place>> {
    let screens = [
        deeds::SHEETS,
        deeds::RACK,
        deeds::BENCH,
        deeds::PRINTS,
        deeds::SHELF,
        deeds::CURVES,
    ];
    let mut ways: Vec<Vec<Place>> = Vec::new();
    for screen in screens {
        ways.push(vec![screen, Place::GLOBAL]);
        ways.push(vec![deeds::STRIP, screen, Place::GLOBAL]);
    }
    let over = [
        deeds::FIND,
        deeds::PANE,
        deeds::RECKON,
        deeds::REASON,
        deeds::SEARCH,
        deeds::PLAN,
        deeds::PLAN_ASKS,
        deeds::ROAD,
        deeds::CHOICE,
        deeds::LIST,
        deeds::HELP,
        deeds::LEAVE,
        deeds::WELCOME,
        deeds::STEP_CLOCK,
        deeds::CLOCK_READY,
        deeds::CLOCK_RUNS,
        deeds::CLOCK_ENDED,
        deeds::CLOCK_ASKS,
    ];
    ways.extend(over.map(|place| vec![place]));
    ways
}

#[test]
fn every_action_has_a_place_that_is_reached_and_a_key_that_arrives_there() {
    let reached: BTreeSet<Place> = ways_to_be().concat().into_iter().collect();
    for action in ACTIONS {
        assert!(
            action.places.iter().any(|place| reached.contains(place)),
            "{} is offered nowhere",
            action.id
        );
        assert!(!action.keys.is_empty(), "{} has no key", action.id);
        for place in action.places.iter().filter(|place| place.typing) {
            let arrives = action.keys.iter().any(|key| {
                let chord: crate::tui::keys::Chord = key.parse().expect("a key");
                !chord.is_printable()
            });
            assert!(arrives, "{} cannot be pressed in {}", action.id, place.word);
        }
    }
}

/// What the help page lists at a moment, by the sentences of the table.
fn listed(stand: &mut Stand) -> BTreeSet<&'static str> {
    let text = stand.text();
    let lines: Vec<Vec<char>> = text.lines().map(|line| line.chars().collect()).collect();
    let edge = |line: &&Vec<char>| line.contains(&'┌');
    let top = lines.iter().find(edge).expect("the frame of the page");
    let at = |corner: char| top.iter().position(|c| *c == corner).unwrap_or(0);
    let inside = |line: &Vec<char>| -> String {
        let inside = line.iter().skip(at('┌') + 1);
        inside.take(at('┐') - at('┌') - 1).collect()
    };
    let page: String = lines.iter().map(inside).collect::<Vec<_>>().join("\n");
    let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
    ACTIONS
        .iter()
        .filter(|action| page.contains(action.sentence))
        .map(|action| action.id)
        .collect()
}

#[test]
fn the_help_pages_of_all_places_explain_every_action() {
    let mut seen = BTreeSet::new();
    for keys in [
        "1 ?",
        "1 right ?",
        "2 ?",
        "2 tab ?",
        "2 ! ?",
        "3 ?",
        "4 ?",
        "5 ?",
        "6 ?",
        "1 / f1",
        "2 . e f1",
        "1 x f1",
        "s f1",
        "1 t ?",
        "1 P ?",
        "1 P tab f1",
        "n ?",
        "n / f1",
        "r f1",
        "r enter f1",
        "r enter ctrl-e f1",
        "1 right up up enter f1",
    ] {
        let mut stand = Stand::demo();
        // High enough for the whole page at once.
        stand.resize(200, 400);
        stand.press(keys);
        seen.append(&mut listed(&mut stand));
    }
    let mut stand = Stand::empty();
    stand.resize(200, 400);
    stand.app.welcome();
    stand.press("f1");
    seen.append(&mut listed(&mut stand));
    // A draft, a refusal, something followed, a question: they bring what is offered only then.
    let mut stand = Stand::demo();
    stand.resize(200, 400);
    stand.press("2 . e");
    stand.type_text("1/2");
    stand.press("enter f1");
    seen.append(&mut listed(&mut stand));
    stand.press("esc esc ?");
    seen.append(&mut listed(&mut stand));
    stand.press("esc q ?");
    seen.append(&mut listed(&mut stand));
    stand.press("esc n s");
    stand.type_text("rope");
    stand.press("enter ?");
    seen.append(&mut listed(&mut stand));
    // An exposure that comes to more than one setting.
    let mut stand = Stand::demo();
    stand.resize(200, 400);
    stand.press("2 down down down down e f1");
    seen.append(&mut listed(&mut stand));
    // A step that is being counted, and its clock in large digits.
    let mut stand = super::bench::two_runs();
    stand.resize(200, 400);
    stand.press("space ?");
    seen.append(&mut listed(&mut stand));
    stand.press("esc l ?");
    seen.append(&mut listed(&mut stand));
    // The clock, before, after, and when it asks.
    let mut stand = Stand::demo();
    stand.resize(200, 400);
    stand.press("2 down down down down e ctrl-t ?");
    seen.append(&mut listed(&mut stand));
    stand.press("esc - - - space");
    stand.pass(3.0);
    stand.press("esc ?");
    seen.append(&mut listed(&mut stand));
    stand.press("esc x ?");
    seen.append(&mut listed(&mut stand));
    // What only the help page itself offers.
    for id in [
        "over.close",
        "help.close",
        "help.more",
        "over.up",
        "over.down",
        "over.page-up",
        "over.page-down",
    ] {
        seen.insert(id);
    }
    // Reading on in a pane is offered where a pane is longer than its place.
    let mut stand = Stand::demo();
    stand.press("2 . d");
    stand.shows("pgdn read on");
    seen.extend(["pane.more", "pane.less"]);
    let missing: Vec<&str> = ACTIONS
        .iter()
        .map(|action| action.id)
        .filter(|id| !seen.contains(id))
        .collect();
    assert!(missing.is_empty(), "{missing:?}");
}

#[test]
fn a_hint_is_shown_once_and_movement_never_pushes_it_out() {
    for keys in ["1", "2", "3", "4", "5", "1 right", "1 t", "n", "s"] {
        let mut stand = Stand::demo();
        stand.press(keys);
        let text = stand.text();
        let hints = text.lines().last().unwrap_or_default();
        let labels: Vec<&str> = hints.trim().split("   ").collect();
        let distinct: BTreeSet<&str> = labels.iter().copied().collect();
        assert_eq!(labels.len(), distinct.len(), "{hints}");
        for moving in ["up up", "down down", "pgup", "pgdn page"] {
            assert!(!hints.contains(moving), "{hints}");
        }
    }
}
