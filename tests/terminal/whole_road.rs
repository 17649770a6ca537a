//! One picture from the box to the wall, at the screen alone, and the road back.

use std::time::{Duration, Instant};

use crate::hand::Home;
use crate::session::Session;

/// Mixes a bath, some time ago.
fn mix(session: &mut Session, solution: &str, purpose: &str, when: &str) {
    session.opens("n", "something new");
    session.pick("mix", "mix a bath");
    session.fill_all(&[
        ("solution", solution),
        ("for", purpose),
        ("volume", "1 l"),
        ("when", when),
    ]);
    session.logs("mixed");
}

/// Sets up what the work is done with.
fn set_up(mut session: Session) -> Home {
    session.wait_for("welcome");
    session.fill_all(&[
        ("format", "8x10"),
        ("double holders", "2"),
        ("film", "FP4 Plus"),
        ("sheets in the box", "25"),
        ("exposed at", "80"),
        ("emulsion number", "4417"),
    ]);
    session.press("enter");
    session.wait_for("H-02");
    session.opens("n", "something new");
    session.pick("lens", "a new lens");
    session.fill_all(&[("name", "240 mm, front board"), ("focal length", "240 mm")]);
    session.logs("lens");
    session.opens("n", "something new");
    session.pick("paper", "a new stock of paper");
    session.fill_all(&[
        ("paper", "COT 320"),
        ("size", "11x14"),
        ("sheets", "10"),
        ("batch", "K 31"),
    ]);
    session.logs("paper");
    for (solution, purpose, when) in [
        ("borax developer", "developer", "2024-02-01 09:00"),
        ("citric stop", "stop", "2024-02-02 09:00"),
        ("neutral fixer", "fixer", "2024-02-03 09:00"),
        ("potassium oxalate", "developer", "2024-02-04 09:00"),
        ("first clearing", "clearing", "2024-02-05 09:00"),
        ("second clearing", "clearing", "2024-02-06 09:00"),
        ("third clearing", "clearing", "2024-02-07 09:00"),
    ] {
        mix(&mut session, solution, purpose, when);
    }
    session.goes_to(2);
    session.does_log("l", "load a sheet", &[("box", "F-01")], "loaded");
    session.wait_for("S-0001");
    session.leave()
}

/// Takes the sheet from the holder to the files.
fn make_the_negative(mut session: Session) -> Home {
    session.wait_for("S-0001");
    session.goes_to(2);
    session.does_log(
        "e",
        "aperture",
        &[
            ("aperture", "f/32"),
            ("time", "6s"),
            ("readings", "III 8.7"),
            ("subject", "north wall, thaw"),
            ("lens", "L-01"),
        ],
        "exposed",
    );
    session.does_log(
        "d",
        "agitation",
        &[
            ("developer", "B-0001"),
            ("time", "11m30"),
            ("temperature", "20.5"),
            ("stop bath", "B-0002"),
            ("fixer", "B-0003"),
        ],
        "run",
    );
    session.wait_for("R-0001");
    session.does_log(
        "E",
        "time given",
        &[("seen", "even, no marks")],
        "run ended",
    );
    session.goes_to(1);
    session.does_log(
        "m",
        "densest",
        &[
            ("thinnest", "0.31"),
            ("densest", "1.86"),
            ("base and fog", "0.08"),
        ],
        "measured",
    );
    session.does_log("f", "scan", &[("place", "binder 4, page 11")], "filed");
    session.leave()
}

/// Makes a platinum/palladium print, finishes it, and hangs it.
fn make_the_print(session: &mut Session) {
    session.goes_to(1);
    session.does_log(
        "p",
        "printed on",
        &[
            ("process", "Platinum"),
            ("paper", "Q-0001"),
            ("title", "North Wall"),
        ],
        "print",
    );
    session.wait_for("P-0001");
    // Each time the next step that is required stands in the pane already, with its own figures.
    for figures in [
        &[("A, ferric oxalate", "22"), ("C, metal", "24")][..],
        &[("how", "cool fan"), ("time", "20 min")],
        &[("light", "tubes"), ("time", "12 min")],
        &[("baths", "B-0004"), ("temperature", "40")],
        &[("baths", "B-0005"), ("time", "5 min")],
        &[("baths", "B-0006"), ("time", "5 min")],
        &[("baths", "B-0007"), ("time", "5 min")],
        &[("time", "1 h")],
        &[("how", "screen")],
    ] {
        session.does_log("c", "a step of the process", figures, "step");
    }
    for (letters, fields, kind) in [
        (
            "press",
            &[("press at", "82"), ("for", "45 s")][..],
            "pressed",
        ),
        (
            "mat",
            &[("outer size", "16x20"), ("window", "7 1/2 x 9 1/2")],
            "matted",
        ),
        (
            "sign",
            &[("inscription", "M. Arrel 2024"), ("number", "1/12")],
            "signed",
        ),
    ] {
        session.press("enter");
        session.pick(letters, fields[0].0);
        session.fill_all(fields);
        session.logs(kind);
    }
    session.does_log(
        "w",
        "where, to whom",
        &[("now", "wall"), ("where, to whom", "north room")],
        "placed",
    );
}

/// Everything that the road from the thing at hand says, read from its beginning to its end.
pub(crate) fn read_the_road(session: &mut Session, things: usize) -> String {
    session.opens("t", "road");
    let mut read = session.prose();
    // A thing with much to tell is read in several steps, so the end is where nothing moves.
    for step in 0.. {
        let before = session.screen();
        session.press("down");
        let began = Instant::now();
        while session.screen() == before && began.elapsed() < Duration::from_millis(500) {
            std::thread::sleep(Duration::from_millis(5));
        }
        if session.screen() == before {
            assert!(step + 1 >= things, "{step} of {things} things");
            break;
        }
        read.push('\n');
        read.push_str(&session.prose());
    }
    session.closes("road");
    read
}

#[test]
fn a_picture_goes_from_the_box_to_the_wall_and_is_traced_back() {
    let home = set_up(Home::empty().open());
    let home = make_the_negative(home.open());
    let mut session = home.open();
    session.wait_for("S-0001");
    make_the_print(&mut session);
    let home = session.leave();

    let mut session = home.open();
    session.wait_for("S-0001");
    session.goes_to(4);
    session.wait_for("P-0001");
    let steps = crate::hand::asks(session.home(), "trace p1");
    let things = steps["steps"].as_array().expect("steps").len();
    let road = read_the_road(&mut session, things);
    for wanted in [
        // The negative and what it came from.
        "negative S-0001",
        "0.31 .. 1.86",
        "north wall, thaw",
        "f/32 at 6 s",
        "III 8.7",
        "R-0001",
        "11 min 30 s at 20.5 C",
        "B-0001 borax developer",
        "mixed 1 Feb 2024",
        "B-0002 citric stop",
        "mixed 2 Feb 2024",
        "B-0003 neutral fixer",
        "mixed 3 Feb 2024",
        "H-01 A",
        "L-01 240 mm, front board",
        "F-01 FP4 Plus",
        "emulsion 4417",
        "binder 4, page 11",
        // The print and what was done to it.
        "Q-0001 COT 320",
        "A, ferric oxalate 22",
        "12 min",
        "B-0004 potassium oxalate",
        "mixed 4 Feb 2024",
        "B-0005 first clearing",
        "mixed 5 Feb 2024",
        "B-0006 second clearing",
        "mixed 6 Feb 2024",
        "B-0007 third clearing",
        "mixed 7 Feb 2024",
        "82.0 C",
        "16x20 in",
        "1/12",
        "north room",
    ] {
        assert!(
            road.contains(wanted),
            "no \"{wanted}\" on the road:\n{road}"
        );
    }
    session.leave().is_sound();
}
