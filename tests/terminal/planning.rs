//! An evening is planned, what lacks is mixed, and a run is begun as planned.

use crate::hand::Home;

#[test]
fn two_runs_are_planned_a_bath_is_mixed_and_a_run_is_begun_as_reckoned() {
    let home = Home::with_holders();
    for line in [
        "log load h1a --box f1",
        "log expose h1a --development N-1",
        "log load h1b --box f1",
        "log expose h1b",
    ] {
        home.does(line);
    }
    let mut session = home.open();
    session.wait_for("S-0001");
    session.opens("P", "what to develop next");
    session.type_text("tank, 1 of 8x10, 1000 ml");
    session.press("tab");
    session.type_text("DD-X 1+4");
    session.press("enter");
    session.wait_for("2 runs");
    session.wait_for("mix 2000 ml");
    session.opens("m", "mix a bath");
    session.wait_for("Ilfotec DD-X");
    session.logs("mixed");
    session.wait_for("enough");
    session.opens("enter", "developer");
    session.wait_for("S-0001");
    session.logs("run");
    session.wait_for("1 run");
    session.press("esc");
    let home = session.leave();
    let run = home.asks("show r1").to_string();
    assert!(run.contains("8 min"), "{run}");
    assert!(run.contains("S-0001 asks for"), "{run}");
    home.is_sound();
}
