//! Opening the front end on a logbook, and leaving it.

use std::path::PathBuf;

use super::actions::{KeyMap, Rebinding};
use super::app::App;
use super::app::deeds::ACTIONS;
use super::bench::Bench;
use super::config::Settings;
use super::event::{self, Ended};
use super::terminal::Console;
use super::theme::Surroundings;
use super::{crash, terminal};
use crate::reference::Reference;
use crate::store::Store;
use crate::world::World;

/// What the front end is opened with.
#[derive(Debug)]
pub struct Start {
    /// The logbook.
    pub store: Store,
    /// What the trade has published.
    pub reference: Reference,
    /// The settings file; it need not exist.
    pub settings: Option<PathBuf>,
    /// Where a report goes if the program itself fails.
    pub reports: PathBuf,
    /// What was left out of the user's own files, in sentences.
    pub warnings: Vec<String>,
    /// Whether the logbook was made just now.
    pub fresh: bool,
}

/// The settings in a file, and what in them was not understood, in sentences.
fn settings_of(path: Option<&PathBuf>) -> (Settings, Vec<String>) {
    let Some(path) = path else {
        return (Settings::default(), Vec::new());
    };
    let (settings, problems) = Settings::load(path);
    (settings, problems.iter().map(ToString::to_string).collect())
}

/// Shows the logbook until the user leaves.
///
/// # Errors
/// In a sentence, when the logbook cannot be read or the terminal cannot be used.
pub fn run(start: Start, world: Box<dyn World>) -> Result<Ended, String> {
    let (settings, problems) = settings_of(start.settings.as_ref());
    let look = settings.look(&Surroundings::from_env());
    let mut told = start.warnings;
    told.extend(problems);
    let bench = Bench::new(start.store, start.reference, world);
    let mut app = App::new(bench, look, &settings.keys, told).map_err(|error| error.to_string())?;
    app.like_the_clock(settings.clock, start.settings);
    if start.fresh {
        app.welcome();
    }
    crash::watch(start.reports);
    let mut console = Console::enter(look.theme, settings.mouse)
        .map_err(|error| format!("the terminal cannot be used: {error}"))?;
    let ended = event::run(&mut app, &mut console, |()| Vec::new());
    drop(console);
    terminal::restore();
    let closed = app.close_logbook();
    let ended = ended.map_err(|error| format!("the terminal failed: {error}"))?;
    closed.map_err(|error| error.to_string())?;
    Ok(ended)
}

/// One action with its keys.
#[derive(Debug, Clone)]
pub struct KeyLine {
    /// The name of the action in the settings.
    pub id: &'static str,
    /// The heading it stands under.
    pub group: &'static str,
    /// Its keys.
    pub keys: Vec<String>,
    /// What it does.
    pub sentence: &'static str,
}

/// Every action with its keys, the user's own among them, and what in the settings was not
/// understood.
pub fn key_table(settings: Option<&PathBuf>) -> (Vec<KeyLine>, Vec<String>) {
    let (settings, mut problems) = settings_of(settings);
    let own: &[Rebinding] = &settings.keys;
    let (map, key_problems) = KeyMap::<App, _>::new(ACTIONS, own);
    problems.extend(key_problems.iter().map(ToString::to_string));
    let lines = ACTIONS.iter().map(|action| KeyLine {
        id: action.id,
        group: action.group,
        keys: map.keys_of(action.id),
        sentence: action.sentence,
    });
    (lines.collect(), problems)
}
