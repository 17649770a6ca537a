//! The clock of a long exposure in real time: counted, paused, killed and closed afterwards.

use std::time::{Duration, Instant};

use notchbook::craft::Seconds;

use crate::hand::Home;
use crate::session::Session;

/// How far what was logged may be from the time between the keys, in seconds.
const CLOSE: f64 = 0.2;

/// The exposure pane of a loaded side, 5 s at f/32, and a clock without a lead-in and a bell.
fn at_the_clock() -> Session {
    let home = Home::with_holders().with_settings("[clock]\nlead_in = 0\nbell = \"seconds\"\n");
    home.does("log load h1a --box f1");
    let mut session = home.open();
    session.wait_for("S-0001");
    session.goes_to(2);
    session.opens("e", "movements");
    session.fill("aperture", "f/32");
    session.fill("time", "5s");
    session.wait_for("f/32 at 5 s");
    session.opens("ctrl-t", "any other  starts");
    session
}

/// Presses a key, and returns when.
fn press(session: &mut Session, key: &str) -> Instant {
    session.press(key);
    Instant::now()
}

fn rest_until(moment: Instant) {
    std::thread::sleep(moment.saturating_duration_since(Instant::now()));
}

/// Times in a detail of the exposure of the first sheet, in seconds.
fn logged(home: &Home, detail: &str) -> Vec<f64> {
    let shown = home.asks("show s1");
    let entries = shown["entries"].as_array().expect("entries");
    let exposed = entries.iter().rfind(|entry| entry["kind"] == "exposed");
    let told = &exposed.expect("an exposure")["telling"]["details"];
    let details = told.as_array().expect("details");
    let found = details.iter().find(|pair| pair[0] == detail);
    let text = found.and_then(|pair| pair[1].as_str()).unwrap_or_default();
    let times = text
        .split(", ")
        .map(|time| Seconds::parse(time).expect(text));
    times.map(Seconds::value).collect()
}

/// The state of the first sheet.
fn state(home: &Home) -> String {
    let sheets = home.asks("list sheets");
    let state = sheets["rows"][0]["state"].as_str();
    state.expect("a state").to_owned()
}

fn bells(sent: &[u8]) -> usize {
    sent.iter().filter(|byte| **byte == 7).count()
}

#[test]
fn an_exposure_of_five_seconds_is_counted_and_logged() {
    let mut session = at_the_clock();
    let before = session.sent().len();
    let opened = press(&mut session, "space");
    session.wait_for("the shutter is open");
    rest_until(opened + Duration::from_secs(5));
    let closed = press(&mut session, "x");
    session.wait_for("as planned");
    session.wait_for("given 5");
    // One ring as it opens, one each second, two at the plan; the hand closes at the plan, and a hair
    // before it the last second has not rung.
    let sent = session.sent().split_off(before);
    assert!((5..=8).contains(&bells(&sent)), "{} rings", bells(&sent));
    rest_until(closed + Duration::from_secs(1));
    session.opens("space", "movements");
    session.logs("exposed");
    let home = session.leave();
    let time = logged(&home, "time")[0];
    let truth = (closed - opened).as_secs_f64();
    assert!((time - truth).abs() < CLOSE, "{time} s for {truth} s");
    home.is_sound();
}

#[test]
fn a_closed_shutter_does_not_count() {
    let mut session = at_the_clock();
    let opened = press(&mut session, "space");
    session.wait_for("the shutter is open");
    rest_until(opened + Duration::from_secs(2));
    let closed = press(&mut session, "p");
    session.wait_for("to go");
    rest_until(closed + Duration::from_millis(2500));
    let again = press(&mut session, "p");
    session.wait_for("the shutter is open");
    rest_until(again + Duration::from_secs(3));
    let ended = press(&mut session, "enter");
    session.wait_for("in 2 openings");
    std::thread::sleep(Duration::from_millis(900));
    session.opens("enter", "movements");
    session.logs("exposed");
    let home = session.leave();
    let openings = logged(&home, "openings");
    assert_eq!(openings.len(), 2);
    let truth = [closed - opened, ended - again].map(|time| time.as_secs_f64());
    for (opening, truth) in openings.iter().zip(truth) {
        assert!((opening - truth).abs() < CLOSE, "{openings:?}, {truth}");
    }
    let time = logged(&home, "time")[0];
    assert!((time - openings.iter().sum::<f64>()).abs() < 1e-9, "{time}");
    home.is_sound();
}

#[test]
fn an_exposure_that_is_killed_is_closed_after_the_restart() {
    let mut session = at_the_clock();
    press(&mut session, "space");
    session.wait_for("the shutter is open");
    // That it began is in the log before the first second has passed.
    std::thread::sleep(Duration::from_millis(900));
    let home = Home::from(session.kill());
    home.is_sound();
    assert_eq!(state(&home), "being exposed");
    let mut session = home.open();
    session.wait_for("S-0001 in H-01 A is being exposed");
    session.wait_prose("planned for 5 s at f/32");
    session.opens("e", "brought back as you left it");
    session.wait_for("f/32");
    session.fill("time", "6s");
    session.logs("exposed");
    let home = session.leave();
    assert_eq!(logged(&home, "time"), [6.0]);
    home.is_sound();
}

#[test]
fn an_exposure_that_is_killed_is_counted_on_while_its_shutter_is_open() {
    let mut session = at_the_clock();
    let opened = press(&mut session, "space");
    session.wait_for("the shutter is open");
    std::thread::sleep(Duration::from_millis(700));
    let mut session = Home::from(session.kill()).open();
    session.wait_for("S-0001 in H-01 A is being exposed");
    session.opens("c", "the shutter is open");
    rest_until(opened + Duration::from_secs(8));
    let closed = press(&mut session, "space");
    session.wait_for("given 8");
    session.wait_for("over the plan");
    std::thread::sleep(Duration::from_millis(900));
    session.opens("space", "movements");
    session.logs("exposed");
    let home = session.leave();
    let time = logged(&home, "time")[0];
    let truth = (closed - opened).as_secs_f64();
    assert!((time - truth).abs() < CLOSE, "{time} s for {truth} s");
    home.is_sound();
}

#[test]
fn a_terminal_that_is_closed_leaves_the_beginning_in_the_log() {
    let mut session = at_the_clock();
    press(&mut session, "space");
    session.wait_for("the shutter is open");
    std::thread::sleep(Duration::from_millis(300));
    session.signal("HUP");
    session.wait_exit();
    let home = Home::from(session.into_home());
    assert_eq!(state(&home), "being exposed");
    home.does("log drop-exposure h1a --reason the_cap_was_on");
    assert_eq!(state(&home), "loaded");
    home.is_sound();
}
