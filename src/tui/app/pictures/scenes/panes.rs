//! Scenes of the entry panes.

use super::{Scene, demo, find, new};
use crate::logbook::Kind;
use crate::tui::app::stand::Stand;

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
    stand.fill("lens", "L-01");
}

/// The pane of a finding that these keys open, with what is typed into its fields.
fn found(stand: &mut Stand, keys: &str, typed: &[(&str, &str)]) {
    stand.press(keys);
    for (label, text) in typed {
        stand.fill(label, text);
    }
}

pub(in super::super) const PANES: &[Scene] = &[
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
                s.fill(label, text);
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
                s.fill(label, text);
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
    demo("the next step of a print", |s| s.press("4 c")),
    demo("a step with its cautions, known from before", |s| {
        s.press("4 c");
        s.type_text("coat");
    }),
    demo("mix a bath, cautions first", |s| {
        s.press("n m");
        s.type_text("sepia bleach");
        s.press("tab");
        s.type_text("toner");
    }),
    demo("mat", |s| {
        s.press("4");
        find(s, "Bread");
        s.press("M");
    }),
    demo("where a print goes", |s| {
        s.press("4");
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
    demo("a shutter that is tested, mark by mark", |s| {
        let typed = [("mark", "1/60"), ("timings", "1/52 1/55 1/54 1/53")];
        found(s, "5 ] ] ] down enter t", &typed);
    }),
    demo("what a filter takes, against what is published", |s| {
        let typed = [
            ("filter", "red 25"),
            ("takes", "+2 2/3"),
            ("on film", "T-MAX 100"),
        ];
        found(s, "n f", &typed);
    }),
    demo(
        "what a long exposure needed, against the published laws",
        |s| {
            let typed = [
                ("film", "HP5 Plus"),
                ("metered time", "10s"),
                ("needed time", "25s"),
            ];
            found(s, "n r", &typed);
        },
    ),
    demo("the light of a scene, against the table", |s| {
        let typed = [("scene", "open shade"), ("light at ISO 100", "11 1/3")];
        found(s, "n i", &typed);
    }),
    demo("the constants of a meter, against the usual ones", |s| {
        found(s, "n s", &[("K, reflected", "14")]);
    }),
    demo("a place, with the sun over it today", |s| {
        let typed = [("name", "the ford"), ("where", "46.5 N 8.2 E")];
        found(s, "n k", &typed);
    }),
];
