//! The scenes: which logbook, and which keys lead to the picture.

use crate::logbook::Kind;
use crate::tui::app::stand::Stand;
use crate::tui::theme::ThemeName;

/// A picture and how to come to it.
#[derive(Clone, Copy)]
pub(super) struct Scene {
    /// What the picture shows.
    pub(super) name: &'static str,
    begin: fn() -> Stand,
    play: fn(&mut Stand),
}

impl Scene {
    /// The front end with this picture, at a size and in a theme.
    pub(super) fn stand(&self, size: (u16, u16), theme: ThemeName) -> Stand {
        let mut stand = (self.begin)().in_theme(theme);
        stand.resize(size.0, size.1);
        (self.play)(&mut stand);
        stand
    }
}

const fn demo(name: &'static str, play: fn(&mut Stand)) -> Scene {
    Scene {
        name,
        begin: Stand::demo,
        play,
    }
}

const fn new(name: &'static str, play: fn(&mut Stand)) -> Scene {
    Scene {
        name,
        begin: Stand::empty,
        play,
    }
}

/// Narrows the open list to one thing and goes on there.
fn find(stand: &mut Stand, words: &str) {
    stand.press("/");
    stand.type_text(words);
    stand.press("enter");
}

/// A side loaded with HP5 Plus, a lens, and the pane of an exposure open on it.
fn at_the_camera(stand: &mut Stand, size: &str, lens: &str, focal_length: &str, circle: &str) {
    let size = ("size", size);
    let film = ("film", "HP5 Plus");
    stand.log(
        Kind::BoxAdded,
        &[film, size, ("sheets", "25"), ("speed", "200")],
    );
    stand.log(Kind::HolderAdded, &[size, ("sides", "2")]);
    let lens = [
        ("name", lens),
        ("focal_length", focal_length),
        ("image_circle", circle),
    ];
    stand.log(Kind::LensAdded, &lens);
    stand.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    stand.press("2 enter e");
    fill(stand, "lens", "L-01");
}

/// Types into the field with this label, going there from field to field.
fn fill(stand: &mut Stand, label: &str, text: &str) {
    for _ in 0..40 {
        let here = |line: &str| {
            let field = line.strip_prefix('▸');
            field.is_some_and(|field| field.trim_start().starts_with(label))
        };
        if stand.text().lines().any(here) {
            stand.type_text(text);
            return;
        }
        stand.press("tab");
    }
}

pub(super) const SCREENS: &[Scene] = &[
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
    demo("prints, one in its process", |s| s.press("3")),
    demo("prints, one finished", |s| {
        s.press("3");
        find(s, "Bread");
    }),
    demo("prints, one spoiled", |s| {
        s.press("3");
        find(s, "P-0004");
    }),
    demo("shelf, boxes", |s| s.press("4")),
    demo("shelf, papers", |s| s.press("4 ]")),
    demo("shelf, baths", |s| s.press("4 ] ]")),
    demo("shelf, lenses", |s| s.press("4 ] ] ]")),
    demo("shelf, cameras", |s| s.press("4 ] ] ] ]")),
    demo("shelf, findings", |s| s.press("4 ] ] ] ] ]")),
    demo("shelf, runs, one logged against the order", |s| {
        s.press("4 [ [")
    }),
    demo("shelf, sets", |s| s.press("4 [")),
    demo("a notice over a full list", |s| s.press("1 l")),
    Scene {
        name: "a logbook that may only be read",
        begin: Stand::demo_read_only,
        play: |s| s.press("2 . e"),
    },
];

pub(super) const OVERLAYS: &[Scene] = &[
    demo("what comes next for an exposed side", |s| {
        s.press("2 . enter")
    }),
    demo("what comes next for a print", |s| {
        s.press("3");
        find(s, "Bread");
        s.press("enter");
    }),
    demo("something new", |s| s.press("n")),
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
        s.press("3");
        find(s, "Bread");
        s.press("t");
    }),
    demo("further back", |s| {
        s.press("3");
        find(s, "Bread");
        s.press("t down down down down down");
    }),
    demo("what came of a box", |s| s.press("4 t tab")),
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

pub(super) const PANES: &[Scene] = &[
    demo("load", |s| s.press("2 l")),
    demo("expose, prefilled from the last one", |s| {
        s.press("2 down down down down e")
    }),
    new(
        "expose, the film's loss last: 2 s, a filter of x4, a draw of x2.25, HP5 Plus",
        |s| {
            at_the_camera(s, "8x10", "240 mm", "240", "300");
            for (label, text) in [
                ("readings", "9"),
                ("filter", "x4"),
                ("draw", "360"),
                ("aperture", "f/32"),
                ("exposed at", "100"),
            ] {
                fill(s, label, text);
            }
        },
    ),
    new(
        "expose, the corners go dark: a circle of 170 mm on 4x5, 20 mm of rise",
        |s| {
            at_the_camera(s, "4x5", "90 mm wide angle", "90", "170");
            for (label, text) in [
                ("readings", "III 9.3 VII 13"),
                ("aperture", "f/22"),
                ("movements", "front rise 20 mm"),
            ] {
                fill(s, label, text);
            }
        },
    ),
    demo("an exposure refused, with the way on", |s| {
        s.press("2 . e");
        s.type_text("1/2");
        s.press("enter");
    }),
    demo("logged all the same, with a reason", |s| {
        s.press("2 . e");
        s.type_text("1/2");
        s.press("enter ctrl-o");
        s.type_text("the shutter fired by itself");
    }),
    demo("figures that cannot be read", |s| {
        s.press("2 down down down down e");
        s.type_text("soon");
        s.press("enter");
    }),
    demo("what a slide shows, against the log", |s| {
        s.press("2 down down down down b");
        s.type_text("dark");
    }),
    demo("develop, with what waits", |s| s.press("2 . d")),
    demo("a developer being found", |s| {
        s.press("2 . d");
        s.type_text("id");
    }),
    demo("measure", |s| {
        s.press("1");
        find(s, "S-0051");
        s.press("m");
        s.type_text("0.31");
        s.press("tab");
        s.type_text("1.94");
    }),
    demo("begin a print", |s| {
        s.press("1");
        find(s, "S-0051");
        s.press("p");
    }),
    demo("the next step of a print", |s| s.press("3 c")),
    demo("a step with its cautions, known from before", |s| {
        s.press("3 c");
        s.type_text("coat");
    }),
    demo("mix a bath, cautions first", |s| {
        s.press("n m");
        s.type_text("sepia bleach");
        s.press("tab");
        s.type_text("toner");
    }),
    demo("mat", |s| {
        s.press("3");
        find(s, "Bread");
        s.press("M");
    }),
    demo("where a print goes", |s| {
        s.press("3");
        find(s, "Bread");
        s.press("w");
    }),
    demo("amend", |s| {
        s.press("1");
        find(s, "S-0050");
        s.press("right up up a");
        s.type_text("16m");
        s.press("enter");
    }),
    demo("brought back after esc", |s| {
        s.press("2 . e");
        s.type_text("1/4");
        s.press("esc e");
    }),
];

/// Opens the pane of a figure.
fn figure(stand: &mut Stand, word: &str) {
    stand.press("r");
    stand.type_text(word);
    stand.press("enter");
}

pub(super) const FIGURES: &[Scene] = &[
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

pub(super) const FIRST_STEPS: &[Scene] = &[
    new("welcome", |s| s.app.welcome()),
    new("welcome, with a number that is none", |s| {
        s.app.welcome();
        s.press("tab");
        s.type_text("many");
        s.press("enter");
    }),
    new("the empty rack", |s| s.press("2")),
    new("no sheets", |s| s.press("1")),
    new("no prints", |s| s.press("3")),
    new("no boxes", |s| s.press("4")),
    new("no runs", |s| s.press("4 [ [")),
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

pub(super) const CLOCK: &[Scene] = &[
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
];
