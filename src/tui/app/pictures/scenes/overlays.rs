//! Scenes of what opens over a screen, but for panes and the clock.

use super::{Scene, demo, find};

pub(in super::super) const OVERLAYS: &[Scene] = &[
    demo("what comes next for an exposed side", |s| {
        s.press("2 . enter")
    }),
    demo("what comes next for a print", |s| {
        s.press("4");
        find(s, "Bread");
        s.press("enter");
    }),
    demo("something new", |s| s.press("n")),
    demo("a plan that asks in what", |s| s.press("1 P")),
    demo("what to develop next", |s| {
        s.press("1 P");
        s.type_text("tank, 1 of 8x10 or 4 of 4x5, 1500 ml");
        s.press("enter");
    }),
    demo("a run filled in by the plan", |s| {
        s.press("1 P");
        s.type_text("tank, 1 of 8x10 or 4 of 4x5, 1500 ml");
        s.press("enter enter");
    }),
    demo("what an entry touches", |s| {
        s.press("1");
        find(s, "S-0050");
        s.press("right up up enter");
    }),
    demo("a side in doubt: which entry was missed", |s| {
        s.press("2 ! v")
    }),
    demo("why an entry is struck", |s| s.press("1 x")),
    demo("a strike that others rest on", |s| {
        s.press("1");
        find(s, "S-0050");
        s.press("right up up x");
        s.type_text("another run");
        s.press("enter");
    }),
    demo("strike what was logged last", |s| s.press("z")),
    demo("the search before anything is typed", |s| s.press("s")),
    demo("the search", |s| {
        s.press("s");
        s.type_text("rope");
        s.press("down");
    }),
    demo("the road back from a print", |s| {
        s.press("4");
        find(s, "Bread");
        s.press("t");
    }),
    demo("further back", |s| {
        s.press("4");
        find(s, "Bread");
        s.press("t down down down down down");
    }),
    demo("what came of a box", |s| s.press("5 t tab")),
    demo("the keys of the rack", |s| s.press("2 ?")),
    demo("the keys, found by typing", |s| {
        s.press("1 ?");
        s.type_text("strike");
    }),
    demo("the keys of a pane", |s| s.press("2 . e f1")),
    demo("what was typed and not logged", |s| {
        s.press("2 . e");
        s.type_text("1/4");
        s.press("esc D");
    }),
    demo("leave, although something was typed", |s| {
        s.press("2 . e");
        s.type_text("1/4");
        s.press("esc q");
    }),
];
