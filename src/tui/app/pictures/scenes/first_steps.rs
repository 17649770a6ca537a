//! Scenes of a new logbook, up to the first print.

use super::{Scene, new};
use crate::logbook::Kind;
use crate::tui::app::stand::Stand;

/// A box and a holder, so that a sheet can be loaded.
fn set_up(stand: &mut Stand) {
    let size = ("size", "8x10");
    stand.log(Kind::HolderAdded, &[size, ("sides", "2")]);
    stand.log(
        Kind::BoxAdded,
        &[
            ("film", "FP4 Plus"),
            size,
            ("sheets", "25"),
            ("speed", "80"),
        ],
    );
}

pub(in super::super) const FIRST_STEPS: &[Scene] = &[
    new("welcome", |s| s.app.welcome()),
    new("welcome, with a number that is none", |s| {
        s.app.welcome();
        s.press("tab");
        s.type_text("many");
        s.press("enter");
    }),
    new("the empty rack", |s| s.press("2")),
    new("no sheets", |s| s.press("1")),
    new("no prints", |s| s.press("4")),
    new("no boxes", |s| s.press("5")),
    new("no runs", |s| s.press("5 [ [")),
    new("a first box", |s| s.press("n b")),
    new("nothing loaded yet", |s| {
        set_up(s);
        s.press("2");
    }),
    new("the first load", |s| {
        set_up(s);
        s.press("2 l");
    }),
    new("the first exposure", |s| {
        set_up(s);
        s.press("2 l enter e");
    }),
    new("the first run", |s| {
        set_up(s);
        s.press("2 l enter e");
        s.type_text("f/22");
        s.press("enter d");
    }),
    new("the run is at hand", |s| {
        set_up(s);
        s.press("2 l enter e");
        s.type_text("f/22");
        s.press("enter d enter");
    }),
    new("the first step of a print, cautions in full", |s| {
        set_up(s);
        s.press("2 l enter e");
        s.type_text("f/22");
        s.press("enter d enter E enter p");
        s.type_text("platinum");
        s.press("enter c");
    }),
];
