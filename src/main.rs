//! Arguments in, logbook open, hand over.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use notchbook::cli::{self, FrontEnd, KeyLine, KeyTable, Opening};
use notchbook::tui::event::Ended;
use notchbook::tui::run::{Start, key_table, run};
use notchbook::world::System;

fn main() -> ExitCode {
    let front = FrontEnd {
        open: front_end,
        keys,
    };
    cli::run(std::env::args_os(), &mut System, &front)
}

fn front_end(opening: Opening) -> Result<u8, String> {
    let start = Start {
        store: opening.store,
        reference: opening.reference,
        settings: opening.places.settings,
        reports: opening.places.reports,
        warnings: opening.warnings,
        fresh: opening.fresh,
    };
    Ok(match run(start, Box::new(System))? {
        Ended::Quit | Ended::HangUp => 0,
        // As shells report it.
        Ended::Signal(number) => 128 + u8::try_from(number).unwrap_or(0),
    })
}

fn keys(settings: Option<&Path>) -> KeyTable {
    let (lines, problems) = key_table(settings.map(PathBuf::from).as_ref());
    let lines = lines.into_iter().map(|line| KeyLine {
        id: line.id.to_owned(),
        group: line.group.to_owned(),
        keys: line.keys,
        sentence: line.sentence.to_owned(),
    });
    KeyTable {
        keys: lines.collect(),
        problems,
    }
}
