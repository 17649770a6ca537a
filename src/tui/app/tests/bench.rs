//! The bench: begun by a key, counted by the logbook, rung on every screen.

use std::time::Duration;

use chrono::TimeDelta;

use crate::logbook::Kind;
use crate::tui::app::stand::Stand;
use crate::tui::event::Application;
use crate::tui::theme::ThemeName;
use crate::world::World;

/// Two runs just begun: R-0001 in trays, ten minutes and a turn every minute; R-0002 in a drum, six minutes.
pub(super) fn two_runs() -> Stand {
    let mut stand = Stand::empty();
    let film = [("film", "FP4 Plus"), ("size", "8x10"), ("sheets", "25")];
    stand.log(Kind::BoxAdded, &film);
    stand.log(Kind::HolderAdded, &[("size", "8x10"), ("sides", "2")]);
    for side in ["h1a", "h1b"] {
        stand.log(Kind::Loaded, &[("side", side), ("film_box", "f1")]);
        stand.log(Kind::Exposed, &[("side", side)]);
    }
    let tray = [
        ("sheets", "h1a"),
        ("time", "10 min"),
        ("temperature", "20 C"),
        ("vessel", "tray"),
        ("agitation", "turn the sheet every minute"),
    ];
    stand.log(Kind::RunBegun, &tray);
    let drum = [("sheets", "h1b"), ("time", "6 min"), ("vessel", "drum")];
    stand.log(Kind::RunBegun, &drum);
    stand.press("3");
    stand
}

/// The tray in the developer, the cursor on it.
fn developing() -> Stand {
    let mut stand = two_runs();
    choose(&mut stand, "R-0001");
    stand.press("space space");
    stand.shows("develop, 2 of 9");
    stand
}

/// Puts the cursor of the bench on a run.
fn choose(stand: &mut Stand, run: &str) {
    for _ in 0..4 {
        let text = stand.text();
        if text
            .lines()
            .any(|line| line.starts_with(&format!("▸{run}")))
        {
            return;
        }
        stand.press("down");
        if stand.text() == text {
            stand.press("home");
        }
    }
    stand.shows(&format!("▸{run}"));
}

#[test]
fn two_sequences_are_counted_beside_each_other_with_the_next_act_in_words() {
    let mut stand = two_runs();
    stand.shows("waiting for the next step");
    stand.shows("next presoak, 2 min");
    choose(&mut stand, "R-0001");
    stand.press("space");
    stand.shows("presoak, 1 of 9");
    stand.shows("2:00 left");
    stand.shows("then develop, 10 min");
    stand.shows("◷ 1");
    stand.pass(30.0);
    stand.shows("1:30 left");
    choose(&mut stand, "R-0002");
    stand.press("enter");
    stand.shows("presoak");
    stand.press("enter");
    stand.shows("◷ 2");
    stand.pass(95.0);
    stand.shows("! 0:05 over");
    stand.shows("now develop, 10 min");
    stand.shows("1 over!");
    choose(&mut stand, "R-0001");
    stand.press("space");
    stand.shows("turn the sheet at 9:00");
    stand.pass(61.0);
    stand.shows("8:59 left");
    stand.shows("turn the sheet at 8:00");
}

#[test]
fn a_cue_rings_once_on_any_screen_and_the_end_twice() {
    let mut stand = developing();
    stand.press("1");
    let before = stand.text();
    stand.pass(59.0);
    assert_eq!(stand.rings, 0);
    assert_eq!(stand.text(), before, "nothing is drawn meanwhile");
    stand.pass(2.0);
    assert_eq!(stand.rings, 1);
    stand.pass(5.0);
    assert_eq!(stand.rings, 1);
    stand.pass(600.0 - 66.5);
    // Nine turns, and the end.
    let rings = stand.rings;
    stand.pass(1.0);
    assert_eq!(stand.rings, rings + 2);
    stand.shows("1 over!");
}

#[test]
fn a_pause_more_time_and_a_temperature_move_the_end() {
    let mut stand = developing();
    stand.pass(60.0);
    stand.press("p");
    stand.shows("9:00 paused");
    assert_eq!(stand.app.until_tick(), None, "nothing is counted");
    stand.pass(120.0);
    stand.shows("9:00 paused");
    stand.press("p +");
    stand.shows("9:30 left");
    stand.press("t");
    stand.shows("temperature now");
    stand.type_text("temperature");
    stand.press("tab tab");
    stand.type_text("21 C");
    stand.shows("still to do");
    stand.shows("an estimate");
    stand.press("enter");
    // 570 s by the general law: 8 % for a degree.
    stand.shows("8:4");
    stand.press("e");
    stand.shows("next stop, 30 s");
    stand.shows("1 min");
}

#[test]
fn large_digits_and_darkness_come_and_go_and_the_bell_speaks() {
    let mut stand = developing();
    stand.press("l");
    let large = stand.text();
    assert!(large.contains('█'), "{large}");
    stand.shows("turn the sheet at 9:00");
    stand.shows("then stop, 30 s");
    stand.press("d");
    assert_eq!(stand.text().trim(), "");
    assert_eq!(stand.app.look().theme.name(), ThemeName::Safelight);
    stand.pass(61.0);
    assert_eq!(stand.text().trim(), "");
    assert_eq!(stand.rings, 1);
    stand.press("x");
    assert_eq!(stand.app.look().theme.name(), ThemeName::Plain);
    stand.shows("turn the sheet at 8:00");
    stand.press("esc");
    stand.shows("develop, 2 of 9");
    stand.press("b b");
    stand.shows("no bell");
    stand.pass(60.0);
    assert_eq!(stand.rings, 1);
}

#[test]
fn setting_the_clock_changes_no_time_and_sleep_counts() {
    let mut stand = developing();
    stand.pass(60.0);
    let now = stand.world.borrow().now();
    stand.world.borrow_mut().set(now - TimeDelta::hours(2));
    stand.pass(60.0);
    stand.shows("8:00 left");
    stand.press("p");
    stand.shows("8:00 paused");
    stand.press("p");
    stand.world.borrow_mut().set(now + TimeDelta::hours(5));
    stand.pass(30.0);
    stand.shows("7:30 left");
    stand.world.borrow_mut().sleep(Duration::from_secs(90));
    stand.pass(0.0);
    stand.shows("6:00 left");
    stand.press("space");
    stand.shows("stop, 3 of 9");
}

#[test]
fn another_session_on_the_same_logbook_shows_every_clock_where_it_must_be() {
    let mut stand = developing();
    stand.pass(100.0);
    let mut stand = stand.again(Duration::from_secs(20));
    stand.shows("◷ 1");
    stand.press("3");
    stand.shows("8:00 left");
    stand.shows("turn the sheet at 7:00");
}

#[test]
fn a_step_of_a_print_ends_in_the_pane_of_its_process() {
    let mut stand = two_runs();
    for run in ["r1", "r2"] {
        stand.log(Kind::RunEnded, &[("run", run)]);
    }
    stand.log(
        Kind::PrintBegun,
        &[
            ("negatives", "s1"),
            ("process", "cyanotype"),
            ("title", "Weir"),
        ],
    );
    stand.press("1 3");
    stand.shows("P-0001");
    stand.press("space");
    stand.shows("coat");
    stand.pass(125.0);
    stand.press("e");
    stand.shows("2 min 5 s");
    stand.press("enter");
    stand.shows("nothing is being counted");
}

#[test]
fn a_run_that_was_just_begun_stands_on_the_bench_with_its_first_step_ready() {
    let mut stand = two_runs();
    stand.log(Kind::RunEnded, &[("run", "r1")]);
    stand.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    stand.log(Kind::Exposed, &[("side", "h1a")]);
    stand.press("2 home d");
    stand.shows("develop");
    stand.press("enter");
    stand.shows("▸3 Bench");
    stand.shows("▸R-0003");
    stand.shows("next presoak, 2 min");
}
