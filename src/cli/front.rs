//! `notchbook` alone and `demo`: a logbook is opened and handed to the front end.
//!
//! The command line does not know the front end; whoever starts the program hands it in as a
//! [`FrontEnd`].

use std::path::{Path, PathBuf};

use clap::{Arg, ArgAction, ArgMatches, Command};

use super::answer::Answer;
use super::open::{Desk, Places};
use super::trouble::Trouble;
use crate::demo;
use crate::reference::Reference;
use crate::store::Store;

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
    /// Shows a logbook until the user leaves; gives back the exit code, or what went wrong, in a
    /// sentence.
    pub open: fn(Opening) -> Result<u8, String>,
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

/// `demo`
pub(super) fn demo_command() -> Command {
    Command::new("demo")
        .about("Build a logbook of invented work and look around in it")
        .long_about(
            "Build a logbook of invented work and look around in it. It lies in a folder of its own, \
             which goes away when the front end is left, unless --here says where it is to stay.",
        )
        .arg(
            Arg::new("here")
                .long("here")
                .value_name("FOLDER")
                .value_parser(clap::value_parser!(PathBuf))
                .help("Build it in this folder, and leave it there"),
        )
        .arg(
            Arg::new("path-only")
                .long("path-only")
                .action(ArgAction::SetTrue)
                .help("Only build it and say where it is"),
        )
}

/// Opens the user's own logbook.
pub(super) fn own(desk: &mut Desk<'_>, front: &FrontEnd) -> Result<Answer, Trouble> {
    let fresh = desk.places.usual && !desk.read_only && !desk.places.has_logbook();
    let (reference, warnings) = desk.places.reference();
    let store = if fresh {
        Store::create(&desk.places.logbook, desk.world)?
    } else {
        desk.open(&reference)?
    };
    let opening = Opening {
        store,
        reference,
        places: desk.places.clone(),
        warnings,
        fresh,
    };
    hand_over(opening, front)
}

/// Shows a logbook until the user leaves. There is nothing more to say then.
fn hand_over(opening: Opening, front: &FrontEnd) -> Result<Answer, Trouble> {
    let code = (front.open)(opening).map_err(Trouble::Other)?;
    Ok(Answer {
        code,
        ..Answer::default()
    })
}

/// Builds the demo, and opens it unless only its path is wanted.
pub(super) fn demo(
    desk: &mut Desk<'_>,
    matches: &ArgMatches,
    front: &FrontEnd,
) -> Result<Answer, Trouble> {
    let (reference, warnings) = desk.places.reference();
    let here = matches.get_one::<PathBuf>("here");
    let path_only = matches.get_flag("path-only");
    let passing = match here {
        Some(_) => None,
        None => Some(
            tempfile::Builder::new()
                .prefix("notchbook-demo-")
                .tempdir()
                .map_err(|error| {
                    Trouble::file(
                        &std::env::temp_dir(),
                        "written",
                        &error,
                        "name another folder with --here",
                    )
                })?,
        ),
    };
    let folder = match (here, &passing) {
        (Some(here), _) => here.as_path(),
        (None, Some(passing)) => passing.path(),
        (None, None) => Path::new(""),
    };
    let path = folder.join("demo.notchbook");
    let store = demo::build(&path, desk.world.now(), &reference).map_err(|error| match error {
        demo::DemoError::Store(error) => Trouble::from(error),
        other => Trouble::Other(other.to_string()),
    })?;
    if path_only {
        store.close()?;
        if let Some(passing) = passing {
            let _ = passing.keep();
        }
        let path = path.display().to_string();
        return Ok(Answer::said(format!("{path}\n"))
            .with("logbook", path)
            .preceded("warnings", warnings));
    }
    let mut places = desk.places.clone();
    places.logbook = path;
    places.usual = false;
    let opening = Opening {
        store,
        reference,
        places,
        warnings,
        fresh: false,
    };
    hand_over(opening, front)
}
