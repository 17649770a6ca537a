//! What the program says of itself: keys, places, shell completions, the manual.

use clap::{Arg, ArgMatches, Command};
use clap_complete::Shell;
use serde_json::json;

use super::answer::Answer;
use super::open::Desk;
use super::table::{Table, labelled};
use super::trouble::Trouble;
use super::{FrontEnd, tree};

/// `keys`
pub(super) fn keys_command() -> Command {
    Command::new("keys").about("List the keys of the front end, with the user's own changes")
}

/// `paths`
pub(super) fn paths_command() -> Command {
    Command::new("paths").about("Say where the logbook, the settings and own reference files are")
}

/// `completions`
pub(super) fn completions_command() -> Command {
    Command::new("completions")
        .about("Print the completions for a shell")
        .arg(
            Arg::new("shell")
                .value_name("SHELL")
                .required(true)
                .value_parser(clap::value_parser!(Shell))
                .help("Which shell"),
        )
}

/// `manual`
pub(super) fn manual_command() -> Command {
    Command::new("manual").about("Print the manual page: notchbook manual > notchbook.1")
}

/// Lists the keys, each group once, in the order of the table.
pub(super) fn keys(desk: &Desk<'_>, front: &FrontEnd) -> Answer {
    let table = (front.keys)(desk.places.settings.as_deref());
    let mut groups: Vec<&str> = Vec::new();
    for line in &table.keys {
        if !groups.contains(&line.group.as_str()) {
            groups.push(&line.group);
        }
    }
    let mut answer = Answer::default();
    let mut documents = Vec::new();
    for group in groups {
        let mut rows = Table::new(&["", "", ""]);
        for line in table.keys.iter().filter(|line| line.group == group) {
            rows.row([line.keys.join(", "), line.id.clone(), line.sentence.clone()]);
            documents.push(json!({
                "action": line.id,
                "group": line.group,
                "keys": line.keys,
                "sentence": line.sentence,
            }));
        }
        answer.line(group);
        answer.line(rows.body());
    }
    answer
        .with("keys", documents)
        .preceded("warnings", table.problems)
}

/// Says where everything is.
pub(super) fn paths(desk: &Desk<'_>) -> Answer {
    let places = &desk.places;
    let is_there = |path: &std::path::Path| if path.exists() { "" } else { "  (not there)" };
    let line = |path: Option<&std::path::Path>| match path {
        Some(path) => format!("{}{}", path.display(), is_there(path)),
        None => "none: there is no home folder".to_owned(),
    };
    let logbook = Some(places.logbook.as_path());
    let (settings, own) = (places.settings.as_deref(), places.own.as_deref());
    let pairs = [
        ("logbook", line(logbook)),
        ("settings", line(settings)),
        ("own reference files", line(own)),
        ("reports of failures", line(Some(&places.reports))),
    ];
    let text = |path: Option<&std::path::Path>| path.map(|path| path.display().to_string());
    Answer::said(labelled(0, &pairs))
        .with("logbook", text(logbook))
        .with("settings", text(settings))
        .with("reference", text(own))
        .with("reports", text(Some(&places.reports)))
        .with("logbook_exists", places.logbook.exists())
}

/// Prints the completions for a shell.
pub(super) fn completions(matches: &ArgMatches) -> Answer {
    let Some(shell) = matches.get_one::<Shell>("shell").copied() else {
        return Answer::default();
    };
    let mut bytes = Vec::new();
    clap_complete::generate(shell, &mut tree::command(), "notchbook", &mut bytes);
    let text = String::from_utf8_lossy(&bytes).into_owned();
    Answer::said(text.clone())
        .with("shell", shell.to_string())
        .with("text", text)
}

/// Prints the manual.
pub(super) fn manual() -> Result<Answer, Trouble> {
    let mut page = Vec::new();
    let mut command = tree::command().disable_help_subcommand(true);
    command.build();
    write_manual(&mut page, &command).map_err(|error| Trouble::Other(error.to_string()))?;
    let text = String::from_utf8_lossy(&page).into_owned();
    Ok(Answer::said(text.clone()).with("text", text))
}

/// One page holds all commands, each under its own heading.
fn write_manual(page: &mut Vec<u8>, command: &Command) -> std::io::Result<()> {
    let man = clap_mangen::Man::new(command.clone()).manual("notchbook");
    man.render_title(page)?;
    man.render_name_section(page)?;
    man.render_synopsis_section(page)?;
    man.render_description_section(page)?;
    man.render_options_section(page)?;
    for sub in command.get_subcommands() {
        write_section(page, sub, &format!("notchbook {}", sub.get_name()))?;
    }
    man.render_extra_section(page)
}

fn write_section(page: &mut Vec<u8>, command: &Command, name: &str) -> std::io::Result<()> {
    // What holds for every command is said once, at the top.
    let own = command.clone().mut_args(|arg| {
        let said = arg.is_global_set() || arg.get_id() == "help";
        arg.hide(said)
    });
    let mut section = Vec::new();
    let man = clap_mangen::Man::new(own);
    man.render_synopsis_section(&mut section)?;
    man.render_description_section(&mut section)?;
    man.render_options_section(&mut section)?;
    man.render_extra_section(&mut section)?;
    page.extend_from_slice(format!(".SH \"{}\"\n", name.to_uppercase()).as_bytes());
    for line in String::from_utf8_lossy(&section).lines() {
        // The page has its heading and its definitions already.
        if line.starts_with(".ie ") || line.starts_with(".el ") {
            continue;
        }
        let line = line
            .strip_prefix(".SH ")
            .map_or_else(|| line.to_owned(), |heading| format!(".SS {heading}"))
            .replace(".SS EXTRA", ".SS NOTES");
        page.extend_from_slice(line.as_bytes());
        page.push(b'\n');
    }
    for sub in command.get_subcommands() {
        write_section(page, sub, &format!("{name} {}", sub.get_name()))?;
    }
    Ok(())
}
