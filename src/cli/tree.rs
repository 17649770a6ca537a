//! The command tree. Each group of commands describes itself; here they are put under one roof with
//! the options that hold everywhere.

use std::path::PathBuf;

use clap::{Arg, ArgAction, Command};

use super::trouble::EXIT_CODES;
use super::{
    about, begin, clocks, curves, files, front, lists, lives, log, mend, plan, processes, reckon,
    show, trace,
};

/// The environment variable that names the logbook.
pub(super) const LOGBOOK_VARIABLE: &str = "NOTCHBOOK_LOGBOOK";

/// The whole command line.
pub(super) fn command() -> Command {
    Command::new("notchbook")
        .version(env!("CARGO_PKG_VERSION"))
        .about("A logbook for sheet film and the prints made from it")
        .long_about(
            "A logbook for sheet film and the prints made from it: every sheet from the box to the \
             wall, in order, traced, kept for ever.\n\nWithout a command the logbook is opened in \
             the front end.",
        )
        .after_help(exit_codes())
        .propagate_version(false)
        .subcommand_value_name("COMMAND")
        .subcommand_help_heading("Commands")
        .disable_help_subcommand(true)
        .arg(
            Arg::new("logbook")
                .long("logbook")
                .value_name("FILE")
                .env(LOGBOOK_VARIABLE)
                .hide_env(true)
                .value_parser(clap::value_parser!(PathBuf))
                .global(true)
                .help_heading(EVERYWHERE)
                .help("The logbook, if not the usual one"),
        )
        .arg(
            Arg::new("json")
                .long("json")
                .action(ArgAction::SetTrue)
                .global(true)
                .help_heading(EVERYWHERE)
                .help("Answer with one JSON document"),
        )
        .arg(
            Arg::new("read-only")
                .long("read-only")
                .action(ArgAction::SetTrue)
                .global(true)
                .help_heading(EVERYWHERE)
                .help("Open the logbook for reading only"),
        )
        .subcommand(begin::command())
        .subcommand(log::command())
        .subcommand(mend::undo_command())
        .subcommand(mend::strike_command())
        .subcommand(mend::amend_command())
        .subcommand(lists::list_command())
        .subcommand(lists::rack_command())
        .subcommand(clocks::command())
        .subcommand(curves::command())
        .subcommand(show::show_command())
        .subcommand(show::entry_command())
        .subcommand(show::next_command())
        .subcommand(trace::trace_command())
        .subcommand(trace::search_command())
        .subcommand(plan::command())
        .subcommand(reckon::command())
        .subcommand(files::export_command())
        .subcommand(files::import_command())
        .subcommand(files::rebuild_command())
        .subcommand(files::check_command())
        .subcommand(processes::command())
        .subcommand(lives::command())
        .subcommand(about::keys_command())
        .subcommand(about::paths_command())
        .subcommand(about::completions_command())
        .subcommand(about::manual_command())
        .subcommand(front::demo_command())
}

/// The heading of the options that hold for every command.
const EVERYWHERE: &str = "Everywhere";

fn exit_codes() -> String {
    let codes = EXIT_CODES.iter();
    let lines: Vec<String> = codes
        .map(|(code, means)| format!("  {code}  {means}"))
        .collect();
    format!(
        "Exit codes:\n{}\n\nEnvironment:\n  {LOGBOOK_VARIABLE}  the logbook, if --logbook does not name one",
        lines.join("\n")
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_whole_tree_is_sound() {
        command().debug_assert();
    }
}
