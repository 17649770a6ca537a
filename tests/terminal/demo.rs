//! The demonstration logbook, as the README opens it.

use crate::hand::Home;
use crate::session::{Session, Start};
use crate::whole_road::read_the_road;

fn open() -> Session {
    let session = Start::notchbook(&["demo"]).in_size(80, 24);
    session.wait_for("S-00");
    session
}

#[test]
fn the_cursor_stays_in_view_in_a_list_that_is_longer_than_the_screen() {
    let mut session = open();
    session.goes_to(1);
    session.wait_for("▸S-0068");
    for row in (30..68).rev() {
        session.press("down");
        session.wait_for(&format!("▸S-00{row}"));
    }
    session.press("end");
    session.wait_for("▸S-0001");
    session.press("pgup");
    session.wait_gone("▸S-0001");
    session.press("g g");
    session.wait_for("▸S-0068");
    session.press("pgdn");
    session.wait_gone("▸S-0068");
    session.leave();
}

#[test]
fn the_road_of_a_print_tells_everything_that_is_known_of_it() {
    let home = Home::empty();
    home.does("demo --here . --path-only");
    let logbook = ["--logbook", "demo.notchbook"];
    let trace = home.asks("--logbook demo.notchbook trace p29");
    let mut session = home.open_with(&logbook);
    session.wait_for("S-00");
    session.goes_to(4);
    session.wait_for("P-0030");
    session.press("down");
    session.wait_for("Threshing Floor");
    let steps = trace["steps"].as_array().expect("steps");
    let road = read_the_road(&mut session, steps.len());
    for step in steps {
        let reference = step["reference"].as_str().expect("a reference");
        assert!(
            road.contains(reference),
            "no {reference} on the road:\n{road}"
        );
        if step["depth"] != 0 {
            continue;
        }
        // Every figure of the print itself, up to where a line may break in two pictures.
        for fact in step["facts"].as_array().expect("facts") {
            let value = fact["value"].as_str().expect("a value");
            for figure in value.split("; ") {
                let start: String = figure.chars().take(20).collect();
                let start = start.trim_end();
                assert!(road.contains(start), "no \"{start}\" on the road:\n{road}");
            }
        }
    }
    session.leave();
}

#[test]
fn the_demo_opens_shows_every_screen_and_goes_away() {
    let mut session = open();
    session.goes_to(2);
    session.wait_for("H-14");
    session.wait_for("IN DOUBT");
    session.goes_to(4);
    session.wait_for("P-0030");
    session.press("down");
    session.wait_for("Threshing Floor");
    session.opens("t", "road");
    session.wait_for("S-0043");
    session.closes("road");
    session.goes_to(5);
    session.wait_for("F-0");
    session.press("]");
    session.wait_for("Q-0");
    session.press("]");
    session.wait_for("B-00");
    session.press("q");
    assert_eq!(session.wait_exit().exit_code(), 0);
    // The folder it lay in went with it.
    let left: Vec<_> = std::fs::read_dir(session.home())
        .expect("the home")
        .filter_map(Result::ok)
        .map(|entry| entry.file_name())
        .filter(|name| name.to_string_lossy().contains("demo"))
        .collect();
    assert!(left.is_empty(), "{left:?}");
}
