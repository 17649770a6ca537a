//! Two sequences counted beside each other in real time, killed, and found again where they must be.

use std::time::{Duration, Instant};

use crate::hand::Home;

/// How far a clock may be from the time between the keys, in seconds.
const CLOSE: f64 = 1.0;

/// Seconds given to the steps of both runs, as the bench tells them at one moment.
fn given(home: &Home) -> [f64; 2] {
    let told = home.asks("bench");
    let clocks = told["clocks"].as_array().expect("clocks");
    ["R-0001", "R-0002"].map(|run| {
        let clock = clocks.iter().find(|clock| clock["reference"] == run);
        let given = clock.expect("the run is counted")["given"].as_f64();
        given.expect("a time")
    })
}

#[test]
fn two_sequences_that_are_killed_go_on_where_they_must_be() {
    let home = Home::with_holders().with_settings("[clock]\nbell = \"marks\"\n");
    for side in ["h1a", "h1b"] {
        home.does(&format!("log load {side} --box f1"));
        home.does(&format!("log expose {side} --time 1s"));
    }
    home.does("log develop h1a --time 10m --vessel tray");
    home.does("log develop h1b --time 6m --vessel drum");
    let mut session = home.open();
    session.goes_to(3);
    // The newest run stands first.
    session.wait_for("next presoak, 5 min");
    session.press("space");
    session.wait_for("presoak, 1 of 9");
    session.press("down");
    session.wait_for("▸R-0001");
    session.opens("space", "2:00 left");
    session.press("space");
    let developed = Instant::now();
    session.wait_for("develop, 2 of 9");
    session.wait_for("then stop, 30 s");
    std::thread::sleep(Duration::from_millis(2500));
    let home = Home::from(session.kill());
    home.is_sound();
    let [one, other] = given(&home);
    let apart = one - developed.elapsed().as_secs_f64();
    assert!(apart.abs() < CLOSE, "{apart}");
    assert!(other > one, "{other} s are more than {one} s");
    let mut session = home.open();
    session.wait_for("◷ 2");
    session.goes_to(3);
    session.wait_for("develop, 2 of 9");
    session.wait_for("9:5");
    session.press("down");
    session.wait_for("▸R-0001");
    session.opens("p", "paused");
    let paused = developed.elapsed().as_secs_f64();
    std::thread::sleep(Duration::from_millis(1500));
    session.opens("p", "left");
    let home = session.leave();
    let [now, _] = given(&home);
    assert!(
        now >= paused - CLOSE && now < developed.elapsed().as_secs_f64(),
        "{now}"
    );
    home.does("log end-step r1");
    let told = home.asks("show r1");
    let entries = told["entries"].as_array().expect("entries");
    let ended = entries.iter().rfind(|entry| entry["kind"] == "step-ended");
    let headline = ended.expect("an end")["telling"]["headline"].as_str();
    assert!(headline.is_some_and(|it| it.contains(" s")), "{headline:?}");
    home.is_sound();
}
