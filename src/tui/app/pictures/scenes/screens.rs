//! Scenes of the screens.

use super::{Scene, at_the_sink, demo, find, new};
use crate::tui::app::stand::Stand;

pub(in super::super) const SCREENS: &[Scene] = &[
    demo("sheets, the newest loaded", |s| s.press("1")),
    demo("sheets, one in doubt", |s| s.press("1 down down down down")),
    demo("sheets, a negative with a print, narrowed by words", |s| {
        s.press("1");
        find(s, "S-0005");
    }),
    demo("sheets, words being typed", |s| {
        s.press("1 /");
        s.type_text("rope");
    }),
    demo("sheets, no words found", |s| {
        s.press("1");
        find(s, "nowhere");
    }),
    demo(
        "a timeline with the hand on it: amended and counted elsewhere",
        |s| {
            s.press("1");
            find(s, "stacked blocks, early");
            s.press("right up up up");
        },
    ),
    demo("a timeline with a struck line", |s| {
        s.press("1");
        find(s, "S-0012");
        s.press("right up up");
    }),
    demo("the rack", |s| s.press("2")),
    demo("the rack, on a side in doubt", |s| s.press("2 !")),
    demo("the rack, narrowed to what waits", |s| {
        s.press("2");
        find(s, "exposed hp5");
    }),
    demo("the timeline of a side", |s| s.press("2 ! tab")),
    demo("the bench, prints that wait", |s| s.press("3")),
    new("the bench, one counted and one over", |s| {
        at_the_sink(s);
        s.press("space down space");
        s.pass(200.0);
        s.press("home");
    }),
    demo("prints, one in its process", |s| s.press("4")),
    demo("prints, one finished", |s| {
        s.press("4");
        find(s, "Bread");
    }),
    demo("prints, one spoiled", |s| {
        s.press("4");
        find(s, "P-0004");
    }),
    demo("shelf, boxes", |s| s.press("5")),
    demo("shelf, papers", |s| s.press("5 ]")),
    demo("shelf, baths", |s| s.press("5 ] ]")),
    demo("shelf, lenses", |s| s.press("5 ] ] ]")),
    demo("shelf, cameras", |s| s.press("5 ] ] ] ]")),
    demo("shelf, findings", |s| s.press("5 ] ] ] ] ]")),
    demo("shelf, runs, one logged against the order", |s| {
        s.press("5 [ [")
    }),
    demo("shelf, sets", |s| s.press("5 [")),
    demo("curves, one over another with a readout", |s| {
        s.press("6 down down space down right right right")
    }),
    demo("curves, a family", |s| s.press("6 down v")),
    demo("curves, a series that dies", |s| s.press("6 G v v")),
    new("curves, none yet", |s| s.press("6")),
    demo("a notice over a full list", |s| s.press("1 l")),
    Scene {
        name: "a logbook that may only be read",
        begin: Stand::demo_read_only,
        play: |s| s.press("2 . e"),
    },
];
