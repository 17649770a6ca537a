//! Arguments in, logbook open, hand over.

use std::path::Path;
use std::process::ExitCode;

use notchbook::cli::{self, FrontEnd, KeyTable, Opening};
use notchbook::world::{System, World};

fn main() -> ExitCode {
    let front = FrontEnd {
        open: |_: Opening, _: &mut dyn World| {
            Err("the front end is not part of this version: see notchbook --help".to_owned())
        },
        keys: |_: Option<&Path>| KeyTable::default(),
    };
    cli::run(std::env::args_os(), &mut System, &front)
}
