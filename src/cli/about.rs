//! What the program says of itself: processes, keys, places, shell completions, the manual.

use clap::{Arg, ArgMatches, Command};
use clap_complete::Shell;
use serde_json::{Value, json};

use super::answer::Answer;
use super::open::Desk;
use super::table::{Table, labelled};
use super::trouble::Trouble;
use super::words::typed;
use super::{FrontEnd, tree};
use crate::reference::{Caution, Need, Process, Reference, Step, Usual};

/// `processes`
pub(super) fn processes_command() -> Command {
    Command::new("processes")
        .about("List the printing processes, or show one with its steps and cautions")
        .arg(
            Arg::new("process")
                .value_name("PROCESS")
                .num_args(0..)
                .help("Such as palladium or pt/pd"),
        )
}

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

/// Lists the processes, or shows one.
pub(super) fn processes(desk: &Desk<'_>, matches: &ArgMatches) -> Result<Answer, Trouble> {
    let (reference, warnings) = desk.places.reference();
    let asked = typed(matches, "process").filter(|name| !name.trim().is_empty());
    let answer = match asked {
        None => all_processes(&reference),
        Some(name) => {
            let process = reference.process_named(&name).ok_or_else(|| {
                let known: Vec<&str> = ids(&reference).collect();
                Trouble::NotFound(format!("\"{name}\" is not a process: {}", known.join(", ")))
            })?;
            one_process(process, &reference)
        }
    };
    Ok(answer.preceded("warnings", warnings))
}

fn ids(reference: &Reference) -> impl Iterator<Item = &str> {
    reference
        .processes()
        .iter()
        .map(|process| process.id.as_str())
}

fn all_processes(reference: &Reference) -> Answer {
    let mut table = Table::new(&["process", "name", "light", "steps", ""]);
    let mut documents = Vec::new();
    for process in reference.processes() {
        let own = if process.origin.is_own() { "own" } else { "" };
        table.row([
            process.id.clone(),
            process.name.clone(),
            process.light.word().to_owned(),
            process.steps.len().to_string(),
            own.to_owned(),
        ]);
        documents.push(json!({
            "id": process.id,
            "name": process.name,
            "light": process.light,
            "steps": process.steps.len(),
            "own": process.origin.is_own(),
        }));
    }
    Answer::said(table.lines()).with("processes", documents)
}

fn one_process(process: &Process, reference: &Reference) -> Answer {
    let mut answer = Answer::default();
    answer.line(format!("{} ({})", process.name, process.id));
    answer.line(&process.summary);
    let all: Vec<String> = process
        .all_cautions()
        .into_iter()
        .map(str::to_owned)
        .collect();
    let cautions: Vec<&Caution> = reference.cautions_of(&all).collect();
    if !cautions.is_empty() {
        answer.line("\ncautions");
        for caution in &cautions {
            answer.line(format!("  {}: {}", caution.title, caution.words));
        }
        answer.line(format!("  {}", reference.closing()));
    }
    answer
        .words
        .push_str(&usual_lines("\nusual", 2, &process.usual));
    answer.line("\nsteps");
    for step in &process.steps {
        answer.words.push_str(&step_lines(step));
    }
    let cautions = cautions.iter().map(|caution| {
        json!({
            "id": caution.id,
            "title": caution.title,
            "words": caution.words,
            "source": caution.source,
            "standing": caution.standing,
        })
    });
    let document = json!({
        "id": process.id,
        "name": process.name,
        "summary": process.summary,
        "light": process.light,
        "own": process.origin.is_own(),
        "cautions": cautions.collect::<Value>(),
        "closing": reference.closing(),
        "usual": process.usual.iter().map(usual_document).collect::<Value>(),
        "steps": process.steps.iter().map(step_document).collect::<Value>(),
    });
    answer.with("process", document)
}

fn step_lines(step: &Step) -> String {
    let mut about = vec![step.work.word().to_owned()];
    if step.need == Need::Optional {
        about.push("if wished".to_owned());
    }
    if step.repeat {
        about.push("may be done again".to_owned());
    }
    if !step.after.is_empty() {
        about.push(format!("after {}", step.after.join(", ")));
    }
    if !step.not_after.is_empty() {
        about.push(format!("not once {} is done", step.not_after.join(", ")));
    }
    if !step.reopens.is_empty() {
        about.push(format!("then again {}", step.reopens.join(", ")));
    }
    if let Some(bath) = step.bath {
        about.push(format!("in a bath: {bath}"));
    }
    let mut text = format!("  {}  {} ({})\n", step.id, step.label, about.join("; "));
    let figures: Vec<(String, String)> = step
        .figures
        .iter()
        .map(|figure| {
            let mut says = vec![figure.label.clone(), figure.kind.word().to_owned()];
            for more in [&figure.unit, &figure.hint] {
                if !more.is_empty() {
                    says.push(more.clone());
                }
            }
            if !figure.choices.is_empty() {
                says.push(figure.choices.join(" or "));
            }
            (format!("--figure {}=", figure.key), says.join("; "))
        })
        .collect();
    text.push_str(&labelled(6, &figures));
    text.push_str(&usual_lines("", 6, &step.usual));
    text
}

fn usual_lines(head: &str, indent: usize, usual: &[Usual]) -> String {
    if usual.is_empty() {
        return String::new();
    }
    let gap = " ".repeat(indent);
    let mut text = if head.is_empty() {
        String::new()
    } else {
        format!("{head}\n")
    };
    for one in usual {
        let note = if one.note.is_empty() || one.range.is_none() {
            String::new()
        } else {
            format!(" {}", one.note)
        };
        let paper = one
            .paper
            .map(|paper| format!(" ({paper} paper)"))
            .unwrap_or_default();
        let source = if one.source.is_empty() {
            String::new()
        } else {
            format!(": {}", one.source)
        };
        text.push_str(&format!(
            "{gap}{} {}{paper}{note} [{}{source}]\n",
            one.what,
            one.value(),
            one.standing
        ));
    }
    text
}

fn usual_document(usual: &Usual) -> Value {
    json!({
        "what": usual.what,
        "from": usual.range.map(|(from, _)| from),
        "to": usual.range.map(|(_, to)| to),
        "unit": usual.unit,
        "paper": usual.paper,
        "note": usual.note,
        "source": usual.source,
        "standing": usual.standing,
    })
}

fn step_document(step: &Step) -> Value {
    let figures = step.figures.iter().map(|figure| {
        json!({
            "key": figure.key,
            "label": figure.label,
            "kind": figure.kind,
            "unit": figure.unit,
            "hint": figure.hint,
            "choices": figure.choices,
        })
    });
    json!({
        "id": step.id,
        "label": step.label,
        "work": step.work,
        "need": step.need,
        "repeat": step.repeat,
        "after": step.after,
        "not_after": step.not_after,
        "reopens": step.reopens,
        "bath": step.bath,
        "cautions": step.cautions,
        "figures": figures.collect::<Value>(),
        "usual": step.usual.iter().map(usual_document).collect::<Value>(),
    })
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
