//! What to develop next: groups, needs, and the panes that open filled in.

use crate::logbook::Kind;
use crate::tui::app::stand::Stand;

/// Three exposed sheets of FP4 in 4x5, one of which asks for N-1, and no developer mixed.
fn waiting() -> Stand {
    let mut stand = Stand::empty();
    stand.press("esc");
    stand.log(
        Kind::BoxAdded,
        &[("film", "FP4 Plus"), ("size", "4x5"), ("sheets", "25")],
    );
    for (side, wish) in [("h1a", ""), ("h2a", "N-1"), ("h3a", "")] {
        stand.log(Kind::HolderAdded, &[("size", "4x5"), ("sides", "1")]);
        stand.log(Kind::Loaded, &[("side", side), ("film_box", "f1")]);
        let mut typed = vec![("side", side)];
        if !wish.is_empty() {
            typed.push(("development", wish));
        }
        stand.log(Kind::Exposed, &typed);
    }
    stand.press("1");
    stand
}

/// The plan in a tank of one's own, with DD-X.
fn planned() -> Stand {
    let mut stand = waiting();
    stand.press("P");
    stand.type_text("tank, 2 of 4x5, 1000 ml");
    stand.press("tab");
    stand.type_text("DD-X 1+4");
    stand.press("enter");
    stand
}

#[test]
fn the_plan_asks_in_what_and_shows_groups_runs_and_what_lacks() {
    let mut stand = waiting();
    stand.press("P");
    stand.shows("what to develop next");
    stand.shows("say above in what");
    stand.press("esc esc");
    let stand = planned();
    stand.shows("FP4 Plus 4x5 in  N");
    stand.shows("10 min, 1 run");
    stand.shows("8 min, 1 run");
    stand.shows("2 runs");
    stand.shows("mix 2000 ml, 400 ml of stock in it");
}

#[test]
fn enter_opens_the_run_of_the_group_filled_in_and_the_plan_is_there_again_afterwards() {
    let mut stand = planned();
    stand.press("m");
    stand.shows("mix a bath");
    stand.shows("Ilfotec DD-X");
    stand.shows("2000 ml");
    stand.press("enter");
    stand.shows("what to develop next");
    stand.shows("enough");
    stand.press("down enter");
    stand.shows("S-0002");
    stand.shows("N-1");
    stand.resize(120, 45);
    stand.shows("8 min");
    stand.press("enter");
    stand.shows("what to develop next");
    let text = stand.text();
    assert!(
        !text.contains("8 min, 1 run"),
        "it does not wait any more\n{text}"
    );
}

#[test]
fn what_is_typed_wrong_is_said_and_the_plan_stays() {
    let mut stand = planned();
    stand.press("tab");
    stand.type_text("bucket");
    stand.press("tab");
    stand.shows("bucket");
    stand.shows("is not");
    stand.shows("10 min, 1 run");
    // From the fields Esc leads to the groups, and only then out.
    stand.press("esc");
    stand.shows("what to develop next");
    stand.press("esc");
    let text = stand.text();
    assert!(!text.contains("what to develop next"), "{text}");
}

#[test]
fn the_plan_fits_every_size() {
    let mut stand = planned();
    for (wide, high) in [(40, 10), (60, 20), (80, 24), (160, 50)] {
        stand.resize(wide, high);
        stand.shows("plan");
        stand.press("pgdn pgup down up");
    }
}
