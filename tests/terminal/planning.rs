//! An evening is planned, what lacks is mixed, and a run is begun as planned.

use crate::hand::Home;

#[test]
fn two_runs_are_planned_a_bath_is_mixed_a_run_is_counted_step_by_step_and_its_negative_is_measured()
{
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
    session.goes_to(3);
    session.wait_for("next presoak");
    session.press("space");
    session.wait_for("presoak, 1 of");
    session.press("space");
    session.wait_for("develop, 2 of");
    session.press("space");
    session.wait_for("stop, 3 of");
    session.opens("E", "end the run");
    session.logs("run ended");
    session.opens("m", "measure densities");
    session.type_text("0.31");
    session.press("tab");
    session.type_text("1.62");
    session.logs("measured");
    let home = session.leave();
    let run = home.asks("show r1").to_string();
    assert!(run.contains("8 min"), "{run}");
    assert!(run.contains("S-0001 asks for"), "{run}");
    // What was planned for each step and what it got stands in the timeline of the sheet, too.
    let sheet = home.asks("show s1").to_string();
    for step in ["presoak", "develop", "stop"] {
        assert!(sheet.contains(&format!("; {step} ")), "{step}: {sheet}");
    }
    assert!(sheet.contains("30 s planned"), "{sheet}");
    assert!(sheet.contains("range 1.31"), "{sheet}");
    home.is_sound();
}
