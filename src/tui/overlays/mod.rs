//! What opens over a screen.
//!
//! Each is plain data that takes keys and says what it wants; [`super::app`] does it. An overlay
//! never calls back.

use super::pane::Pane;
use super::reckoning::Reckoning;
#[cfg(test)]
use super::widgets::form::Form;
use super::widgets::help::Help;
use super::widgets::menu::Menu;
use super::widgets::message::Question;
use crate::logbook::Thing;

pub mod begun;
pub mod clock;
pub mod doubt;
pub mod plan;
pub mod reason;
pub mod road;
pub mod search;
pub mod step_clock;
pub mod welcome;

/// An overlay that is open.
#[derive(Debug)]
pub enum Overlay {
    /// Something is being logged.
    Pane(Box<Pane>),
    /// A long exposure is being counted.
    Clock(Box<clock::Clock>),
    /// The clock of a step fills the screen, or nothing is lit.
    StepClock(step_clock::StepClock),
    /// What can come next for a thing, or what can be new.
    Next {
        /// The choice.
        menu: Menu,
        /// The thing; none when something new is chosen.
        thing: Option<Thing>,
    },
    /// Where an entry leads to.
    Links(Menu),
    /// What was typed and not logged.
    Drafts(Menu),
    /// Which entry was missed, for a side in doubt.
    Doubt(doubt::Doubt),
    /// How an exposure ended that was begun.
    Begun(begun::Begun),
    /// Why an entry is struck.
    Reason(reason::Reason),
    /// The whole logbook, searched as you type.
    Search(search::Search),
    /// The road from a thing to where it came from, or to what became of it.
    Road(road::Road),
    /// What to develop next.
    Plan(Box<plan::Planning>),
    /// The keys.
    Help(Help),
    /// Whether to leave although something was typed.
    Leave(Question),
    /// Every figure that can be reckoned.
    Figures(Menu),
    /// A figure is being reckoned.
    Reckon(Box<Reckoning>),
    /// The first words on a new logbook.
    Welcome(welcome::Welcome),
}

impl Overlay {
    /// The fields in it, if it has any, for tests that fill them.
    #[cfg(test)]
    pub(in crate::tui) const fn form(&self) -> Option<&Form> {
        match self {
            Overlay::Pane(pane) => Some(pane.form()),
            Overlay::Reckon(reckoning) => Some(reckoning.form()),
            Overlay::Welcome(welcome) => Some(welcome.form()),
            _ => None,
        }
    }

    /// The menu in it, if it is one.
    pub const fn menu(&self) -> Option<&Menu> {
        match self {
            Overlay::Next { menu, .. }
            | Overlay::Links(menu)
            | Overlay::Drafts(menu)
            | Overlay::Figures(menu) => Some(menu),
            Overlay::Doubt(doubt) => Some(&doubt.menu),
            Overlay::Begun(begun) => Some(&begun.menu),
            _ => None,
        }
    }

    /// The menu in it, to be changed.
    pub const fn menu_mut(&mut self) -> Option<&mut Menu> {
        match self {
            Overlay::Next { menu, .. }
            | Overlay::Links(menu)
            | Overlay::Drafts(menu)
            | Overlay::Figures(menu) => Some(menu),
            Overlay::Doubt(doubt) => Some(&mut doubt.menu),
            Overlay::Begun(begun) => Some(&mut begun.menu),
            _ => None,
        }
    }
}
