//! The scenes: which logbook, and which keys lead to the picture. They stand in files by what they show.

use crate::logbook::Kind;
use crate::tui::app::stand::Stand;
use crate::tui::theme::ThemeName;

mod clock;
mod figures;
mod first_steps;
mod overlays;
mod panes;
mod screens;

pub(super) use clock::CLOCK;
pub(super) use figures::FIGURES;
pub(super) use first_steps::FIRST_STEPS;
pub(super) use overlays::OVERLAYS;
pub(super) use panes::PANES;
pub(super) use screens::SCREENS;

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

/// Two runs that have just begun, on the bench.
fn at_the_sink(stand: &mut Stand) {
    let film = [("film", "FP4 Plus"), ("size", "8x10"), ("sheets", "25")];
    stand.log(Kind::BoxAdded, &film);
    stand.log(Kind::HolderAdded, &[("size", "8x10"), ("sides", "2")]);
    for side in ["h1a", "h1b"] {
        stand.log(Kind::Loaded, &[("side", side), ("film_box", "f1")]);
        stand.log(Kind::Exposed, &[("side", side)]);
        let run = [
            ("sheets", side),
            ("time", "10 min"),
            ("temperature", "20 C"),
            ("vessel", if side == "h1a" { "tray" } else { "drum" }),
            ("agitation", "turn the sheet every 30 s"),
        ];
        stand.log(Kind::RunBegun, &run);
    }
    stand.press("3 home");
}

/// Narrows the open list to one thing and goes on there.
fn find(stand: &mut Stand, words: &str) {
    stand.press("/");
    stand.type_text(words);
    stand.press("enter");
}
