//! The command line: everything the front end can do, for scripts and for hands that prefer it.
//!
//! Read in this order: `run` here, `tree` (the commands), `open` (where things are), `log`
//! with `words` (everything that can be logged, built from the fields of each deed), then a file
//! for each group: `mend`, `lists`, `clocks`, `show`, `trace`, `reckon`, `files`, `about`,
//! `begin`, `front`. Commands make an answer (`answer`) or a trouble (`trouble`) and print nothing
//! themselves, so `--json` and the exit codes hold for all of them.
//!
//! It promises that nothing typed and nothing stored reaches the terminal as a control character,
//! that an act which is not acknowledged with its number was not written, and that a broken pipe
//! ends it quietly. It leaves the front end to whoever starts the program ([`FrontEnd`]).

mod about;
mod answer;
mod begin;
mod cells;
mod clocks;
mod curves;
mod facts;
mod files;
mod front;
mod lists;
mod lives;
mod log;
mod mend;
mod open;
mod plan;
mod processes;
mod receipt;
mod reckon;
mod show;
mod table;
mod trace;
mod tree;
mod trouble;
mod words;

use std::ffi::OsString;
use std::path::PathBuf;
use std::process::ExitCode;

use clap::ArgMatches;
use clap::error::ErrorKind;

use crate::export::shown;
use crate::world::World;
use answer::{Answer, Voice};
use open::Desk;
use trouble::Trouble;

pub use front::{FrontEnd, KeyLine, KeyTable, Opening};
pub use open::Places;

/// Does what the arguments say and gives the exit code.
pub fn run(
    arguments: impl IntoIterator<Item = OsString>,
    world: &mut dyn World,
    front: &FrontEnd,
) -> ExitCode {
    let arguments: Vec<OsString> = arguments.into_iter().collect();
    let mut command = tree::command();
    if let Some(recipe) = reckon::helped(&arguments) {
        command = reckon::with_output(command, recipe, world.now());
    }
    let matches = match command.try_get_matches_from(&arguments) {
        Ok(matches) => matches,
        Err(error) => return unparsed(&error, &arguments),
    };
    let voice = Voice {
        json: matches.get_flag("json"),
    };
    let done =
        obey(&matches, world, front).and_then(|answer| voice.answer(&answer).map(|()| answer.code));
    match done {
        Ok(code) => ExitCode::from(code),
        Err(trouble) => {
            voice.trouble(&trouble);
            ExitCode::from(trouble.code())
        }
    }
}

fn obey(matches: &ArgMatches, world: &mut dyn World, front: &FrontEnd) -> Result<Answer, Trouble> {
    // These two need no logbook, nor a home folder to look for one.
    match matches.subcommand() {
        Some(("completions", flags)) => return Ok(about::completions(flags)),
        Some(("manual", _)) => return about::manual(),
        _ => {}
    }
    let json = matches.get_flag("json");
    let mut desk = Desk {
        places: Places::find(matches.get_one::<PathBuf>("logbook"))?,
        read_only: matches.get_flag("read-only"),
        world,
    };
    let desk = &mut desk;
    let Some((name, flags)) = matches.subcommand() else {
        if json {
            return Err(Trouble::Usage(
                "--json needs a command: the front end shows no document".to_owned(),
            ));
        }
        return front::own(desk, front);
    };
    match name {
        "begin" => begin::run(desk, flags),
        "log" => log::run(desk, flags),
        "undo" => mend::undo(desk, flags),
        "strike" => mend::strike(desk, flags),
        "amend" => mend::amend(desk, flags),
        "list" => lists::list(desk, flags),
        "rack" => lists::rack(desk),
        "bench" => clocks::bench(desk),
        "curves" => curves::run(desk, flags),
        "show" => show::show(desk, flags),
        "entry" => show::entry(desk, flags),
        "next" => show::next(desk, flags),
        "trace" => trace::trace(desk, flags),
        "search" => trace::search(desk, flags),
        "plan" => plan::run(desk, flags),
        "reckon" => reckon::run(desk, flags),
        "export" => files::export(desk, flags, json),
        "import" => files::import(desk, flags),
        "rebuild" => files::rebuild(desk),
        "check" => files::check(desk),
        "processes" => processes::processes(desk, flags),
        "lives" => Ok(lives::lives(flags)),
        "keys" => Ok(about::keys(desk, front)),
        "paths" => Ok(about::paths(desk)),
        "demo" if json && !flags.get_flag("path-only") => Err(Trouble::Usage(
            "--json needs --path-only here: the front end shows no document".to_owned(),
        )),
        "demo" => front::demo(desk, flags, front),
        other => Err(Trouble::Usage(format!("there is no command \"{other}\""))),
    }
}

/// Help and version go to standard output; what cannot be parsed is a trouble.
fn unparsed(error: &clap::Error, arguments: &[OsString]) -> ExitCode {
    let voice = Voice {
        json: arguments.iter().any(|argument| argument == "--json"),
    };
    let asked_for = matches!(
        error.kind(),
        ErrorKind::DisplayHelp | ErrorKind::DisplayVersion
    );
    // Broken pipes end it quietly, as everywhere.
    if asked_for {
        let _ = error.print();
        return ExitCode::SUCCESS;
    }
    if error.kind() == ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand && !voice.json {
        let _ = error.print();
        return ExitCode::from(Trouble::Usage(String::new()).code());
    }
    let text = error.render().to_string();
    let text = text.strip_prefix("error: ").unwrap_or(&text);
    let trouble = Trouble::Usage(shown(text.trim_end()).into_owned());
    voice.trouble(&trouble);
    ExitCode::from(trouble.code())
}
