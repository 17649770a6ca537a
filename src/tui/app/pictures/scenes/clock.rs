//! Scenes of the clocks: of a long exposure, and of a step over the whole screen.

use super::{Scene, at_the_sink, demo, new};
use crate::tui::app::stand::Stand;

/// The clock over the pane of a loaded side, 35 s planned, without a lead-in.
fn at_the_clock(stand: &mut Stand) {
    stand.press("2 down down down down e");
    stand.type_text("35s");
    stand.press("ctrl-t - - -");
}

/// The same, with the shutter open for so long.
fn open_for(stand: &mut Stand, seconds: f64) {
    at_the_clock(stand);
    stand.press("space");
    stand.pass(seconds);
}

pub(in super::super) const CLOCK: &[Scene] = &[
    demo("the clock before the start", |s| {
        s.press("2 down down down down e");
        s.type_text("35s");
        s.press("ctrl-t");
    }),
    demo("without a plan", |s| {
        s.press("2 down down down down e ctrl-u ctrl-t d b c");
    }),
    demo("the lead-in", |s| {
        at_the_clock(s);
        s.press("+ + + + + space");
        s.pass(1.5);
    }),
    demo("the shutter is open", |s| open_for(s, 12.3)),
    demo("beyond the plan", |s| open_for(s, 47.0)),
    demo("minutes, counting up", |s| {
        s.press("2 down down down down e");
        s.type_text("4m30");
        s.press("ctrl-t - - - d space");
        s.pass(105.5);
    }),
    demo("closed for a while", |s| {
        open_for(s, 12.3);
        s.press("p");
        s.pass(20.0);
    }),
    demo("given, a third over", |s| {
        open_for(s, 20.0);
        s.press("p");
        s.pass(8.0);
        s.press("p");
        s.pass(25.0);
        s.press("space");
    }),
    demo("given, too little", |s| {
        open_for(s, 12.0);
        s.press("x");
    }),
    demo("asked whether to drop it", |s| {
        open_for(s, 4.0);
        s.press("esc");
        s.pass(1.0);
    }),
    demo("after ten minutes of sleep", |s| {
        open_for(s, 4.0);
        s.world
            .borrow_mut()
            .sleep(std::time::Duration::from_secs(600));
        s.pass(1.0);
    }),
    demo("under the dark cloth", |s| {
        at_the_clock(s);
        s.press("c space");
        s.pass(12.3);
    }),
    demo("under the dark cloth, given", |s| {
        at_the_clock(s);
        s.press("c space");
        s.pass(40.0);
        s.press("space");
    }),
    demo("after a crash: how did it end", |s| {
        open_for(s, 12.3);
        s.press("esc d esc esc");
        s.world
            .borrow_mut()
            .wait(std::time::Duration::from_secs(20));
        s.press("v");
    }),
    demo("the pane of an exposure that was begun", |s| {
        open_for(s, 36.0);
        s.press("x");
        s.pass(1.0);
        s.press("x");
    }),
    demo("in signs that every font has", |s| {
        s.app.look.symbols = crate::tui::look::SymbolSet::Ascii.symbols();
        open_for(s, 12.3);
    }),
    new("the clock of a step in large digits", |s| {
        at_the_sink(s);
        s.press("space space");
        s.pass(200.0);
        s.press("l");
    }),
    new("darkness", |s| {
        at_the_sink(s);
        s.press("space d");
    }),
];
