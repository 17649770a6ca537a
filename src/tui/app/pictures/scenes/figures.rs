//! Scenes of the reckoning panes.

use super::{Scene, demo};
use crate::tui::app::stand::Stand;

/// Opens the pane of a figure.
fn figure(stand: &mut Stand, word: &str) {
    stand.press("r");
    stand.type_text(word);
    stand.press("enter");
}

pub(in super::super) const FIGURES: &[Scene] = &[
    demo("every figure", |s| s.press("r")),
    demo("a figure being found", |s| {
        s.press("r");
        s.type_text("bell");
    }),
    demo("a figure, nothing typed", |s| figure(s, "bellows")),
    demo("a figure with its example", |s| {
        figure(s, "bellows");
        s.press("ctrl-e");
    }),
    demo("a figure that cannot be read", |s| {
        figure(s, "bellows");
        s.press("ctrl-e tab");
        s.type_text("long");
        s.press("tab");
    }),
    demo("a figure that cannot be", |s| {
        figure(s, "bellows");
        s.press("ctrl-e tab");
        s.type_text("29");
    }),
    demo("a figure with a table", |s| {
        figure(s, "zones");
        s.press("ctrl-e pgdn");
    }),
    demo("a figure with a chart", |s| {
        figure(s, "day");
        s.press("ctrl-e");
    }),
    demo("a figure with a chart, further down", |s| {
        figure(s, "day");
        s.press("ctrl-e pgdn");
    }),
    demo("from the meter to the shutter", |s| {
        figure(s, "exposure");
        s.press("ctrl-e");
    }),
    demo("a film being found for a figure", |s| {
        figure(s, "reciprocity");
        s.type_text("hp");
    }),
    demo("remembered numbers", |s| {
        figure(s, "range");
        s.press("ctrl-e");
    }),
    demo("the keys of a figure", |s| {
        figure(s, "bellows");
        s.press("ctrl-e f1");
    }),
];
