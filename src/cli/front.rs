//! `notchbook` alone: the logbook is opened and handed to the front end.
//!
//! The command line does not know the front end; whoever starts the program hands it in as a
//! [`FrontEnd`].

use std::path::Path;

use super::open::{Desk, Places};
use super::trouble::Trouble;
use crate::reference::Reference;
use crate::store::Store;
use crate::world::World;

/// A logbook on its way to the front end.
#[derive(Debug)]
pub struct Opening {
    /// The logbook.
    pub store: Store,
    /// What the trade has published, with the user's own additions.
    pub reference: Reference,
    /// Where things are.
    pub places: Places,
    /// What was left out of the user's own files, in sentences.
    pub warnings: Vec<String>,
    /// Whether the logbook was made just now.
    pub fresh: bool,
}

/// What the front end can be asked for.
#[derive(Clone, Copy, Debug)]
pub struct FrontEnd {
    /// Shows a logbook until the user leaves; gives back what went wrong, in a sentence.
    pub open: fn(Opening, &mut dyn World) -> Result<(), String>,
    /// Lists the keys, with the changes in the settings file.
    pub keys: fn(Option<&Path>) -> KeyTable,
}

/// The keys of the front end.
#[derive(Clone, Debug, Default)]
pub struct KeyTable {
    /// What can be pressed, in groups.
    pub keys: Vec<KeyLine>,
    /// What in the settings was not understood, in sentences.
    pub problems: Vec<String>,
}

/// The keys of one action.
#[derive(Clone, Debug)]
pub struct KeyLine {
    /// The name of the action in the settings.
    pub id: String,
    /// The heading it stands under.
    pub group: String,
    /// Its keys.
    pub keys: Vec<String>,
    /// What it does, in a sentence.
    pub sentence: String,
}

/// Opens the user's own logbook.
pub(super) fn own(desk: &mut Desk<'_>, front: &FrontEnd) -> Result<(), Trouble> {
    let fresh = desk.places.usual && !desk.read_only && !desk.places.has_logbook();
    let (reference, warnings) = desk.places.reference()?;
    let store = if fresh {
        Store::create(&desk.places.logbook, desk.world)?
    } else {
        desk.open()?
    };
    let opening = Opening {
        store,
        reference,
        places: desk.places.clone(),
        warnings,
        fresh,
    };
    (front.open)(opening, desk.world).map_err(Trouble::Other)
}
