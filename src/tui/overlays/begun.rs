//! An exposure that was begun and that nothing says the end of: the program was ended, the machine
//! went off, or the pane was left.
//!
//! Each answer is an ordinary entry, or the clock that goes on. None has to be given now.

use std::time::Duration;

use chrono::{DateTime, FixedOffset};

use crate::logbook::follows::passed;
use crate::logbook::life::Begun as BegunLife;
use crate::logbook::{Life, Thing};
use crate::tui::widgets::menu::{Item, Letters, Menu};

/// A shutter that was opened longer ago than this was closed by somebody.
const LONGEST: Duration = Duration::from_secs(12 * 3600);

/// What became of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ending {
    /// It was made: log it.
    Exposed,
    /// The shutter is still open: count on.
    StillOpen,
    /// No light fell on the sheet: drop it.
    Dropped,
}

impl Ending {
    const ALL: [Ending; 3] = [Ending::Exposed, Ending::StillOpen, Ending::Dropped];

    const fn id(self) -> &'static str {
        match self {
            Ending::Exposed => "exposed",
            Ending::StillOpen => "still-open",
            Ending::Dropped => "dropped",
        }
    }

    fn item(self) -> Item {
        let (label, note, letter) = match self {
            Ending::Exposed => ("it was exposed", "log it", 'e'),
            Ending::StillOpen => ("the shutter is still open", "count on", 'c'),
            Ending::Dropped => ("no light fell on the sheet", "drop it, and say why", 'd'),
        };
        Item::new(self.id(), label)
            .with_note(note)
            .with_letter(letter)
    }
}

/// The question, with its answers.
#[derive(Debug)]
pub struct Begun {
    /// The choice.
    pub menu: Menu,
    /// The side in which it was begun.
    pub side: Thing,
}

impl Begun {
    /// The question about a sheet in a side.
    pub fn about(sheet: &Life, side: &Life, now: DateTime<FixedOffset>) -> Option<Begun> {
        let begun = sheet.sheet()?.begun?;
        let planned = match (begun.time, begun.aperture) {
            (Some(time), Some(aperture)) => format!(", planned for {time} at {aperture}"),
            (Some(time), None) => format!(", planned for {time}"),
            _ => String::new(),
        };
        let question = format!(
            "The shutter was opened on {}, {} ago{planned}, and nothing says how it ended. What \
             became of it? What you had typed is kept.",
            begun.at.format("%-d %b at %H:%M:%S"),
            passed(begun.at, now),
        );
        let can_go_on = since(&begun, now) <= LONGEST;
        let items = Ending::ALL
            .into_iter()
            .filter(|ending| can_go_on || *ending != Ending::StillOpen)
            .map(Ending::item)
            .collect();
        let title = format!("{} in {} is being exposed", sheet.reference, side.reference);
        Some(Begun {
            menu: Menu::new(title, items, Letters::Pick).asking(question),
            side: side.thing,
        })
    }

    /// The ending with this id.
    pub fn ending(id: &str) -> Option<Ending> {
        Ending::ALL.into_iter().find(|ending| ending.id() == id)
    }
}

/// How long ago an exposure was begun.
pub fn since(begun: &BegunLife, now: DateTime<FixedOffset>) -> Duration {
    (now - begun.at).to_std().unwrap_or_default()
}
