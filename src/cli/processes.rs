//! `processes`: the ways of printing, and one of them with its cautions, recipes, tables and steps.
//!
//! Everything the reference holds of a process is told, with what it rests on beside it; cautions come
//! first. What follows from it for one print is left to the figures.

use clap::{Arg, ArgMatches, Command};
use serde_json::{Value, json};

use super::answer::Answer;
use super::open::Desk;
use super::table::{Table, labelled};
use super::trouble::Trouble;
use super::words::typed;
use crate::reference::{
    Caution, Contrast, Mix, Need, Process, Reference, Solution, Standing, Step, Usual,
};

mod documents;

/// `processes`
pub(super) fn command() -> Command {
    Command::new("processes")
        .about(
            "List the printing processes, or show one with its recipes, tables, steps and cautions",
        )
        .arg(
            Arg::new("process")
                .value_name("PROCESS")
                .num_args(0..)
                .help("Such as palladium or pt/pd"),
        )
}

/// Lists the processes, or shows one.
pub(super) fn processes(desk: &Desk<'_>, matches: &ArgMatches) -> Result<Answer, Trouble> {
    let (reference, warnings) = desk.places.reference();
    let asked = typed(matches, "process").filter(|name| !name.trim().is_empty());
    let answer = match asked {
        None => all(&reference),
        Some(name) => {
            let process = reference.process_named(&name).ok_or_else(|| {
                let known: Vec<&str> = ids(&reference).collect();
                Trouble::NotFound(format!("\"{name}\" is not a process: {}", known.join(", ")))
            })?;
            one(process, &reference)
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

fn all(reference: &Reference) -> Answer {
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
            "scales": process.scales().iter().map(documents::scale).collect::<Value>(),
            "steps": process.steps.len(),
            "own": process.origin.is_own(),
        }));
    }
    Answer::said(table.lines()).with("processes", documents)
}

fn one(process: &Process, reference: &Reference) -> Answer {
    let mut answer = Answer::default();
    answer.line(format!("{} ({})", process.name, process.id));
    answer.line(&process.summary);
    let ids: Vec<String> = process
        .all_cautions()
        .into_iter()
        .map(str::to_owned)
        .collect();
    let cautions: Vec<&Caution> = reference.cautions_of(&ids).collect();
    if !cautions.is_empty() {
        answer.line("\ncautions");
        for caution in &cautions {
            answer.line(format!("  {}: {}", caution.title, caution.words));
        }
        answer.line(format!("  {}", reference.closing()));
    }
    let says = &mut answer.words;
    section(
        says,
        "usual",
        process.usual.iter().map(|it| usual_line(2, it)),
    );
    let scales = process.scales().iter().map(|it| {
        let rests = rests_on(it.standing, &it.source);
        line(2, &[&it.to_string(), &it.of, &it.note], &rests)
    });
    section(says, "exposure scale, log", scales);
    section(says, "recipes", process.mixes().iter().map(mix_lines));
    section(
        says,
        "contrast",
        process.contrasts().iter().map(contrast_lines),
    );
    let keeping = process.keeping().iter().map(|it| {
        let rests = rests_on(it.standing, &it.source);
        line(2, &[&format!("{}:", it.what), &it.to_string()], &rests)
    });
    section(says, "keeping", keeping);
    let capacities = process.capacities().iter().map(|it| {
        let rests = rests_on(it.standing, &it.source);
        let what = format!("{}:", it.what);
        line(2, &[&what, &it.to_string(), &it.note], &rests)
    });
    section(says, "capacity", capacities);
    section(says, "steps", process.steps.iter().map(step_lines));
    answer.with(
        "process",
        documents::process(process, &cautions, reference.closing()),
    )
}

/// A heading with its lines; nothing where there are none.
fn section(says: &mut String, head: &str, lines: impl Iterator<Item = String>) {
    let lines: String = lines.collect();
    if !lines.is_empty() {
        says.push_str(&format!("\n{head}\n{lines}"));
    }
}

/// What a number rests on, in brackets.
fn rests_on(standing: Standing, source: &str) -> String {
    if source.is_empty() {
        format!("[{standing}]")
    } else {
        format!("[{standing}: {source}]")
    }
}

/// A line of words, of which empty ones are left out.
fn line(indent: usize, words: &[&str], rests: &str) -> String {
    let words = words.iter().chain([&rests]).filter(|word| !word.is_empty());
    let words: Vec<&str> = words.copied().collect();
    format!("{}{}\n", " ".repeat(indent), words.join(" "))
}

fn usual_line(indent: usize, usual: &Usual) -> String {
    let note = if usual.range.is_some() {
        usual.note.as_str()
    } else {
        ""
    };
    let paper = usual.paper.map(|paper| format!("({paper} paper)"));
    let paper = paper.unwrap_or_default();
    let rests = rests_on(usual.standing, &usual.source);
    line(indent, &[&usual.what, &usual.value(), &paper, note], &rests)
}

fn mix_lines(mix: &Mix) -> String {
    let rests = rests_on(mix.standing, &mix.source);
    let head = format!("{}  {} (for {})", mix.id, mix.name, mix.step);
    let mut text = line(2, &[&head], &rests);
    text.push_str(&line(6, &[&mix.shares()], ""));
    for part in &mix.parts {
        let what = format!("{}, {}:", part.label, part.role);
        if part.holds.is_empty() && part.note.is_empty() {
            continue;
        }
        let mut words = vec![what, part.contents()];
        words.extend(part.holds.iter().map(|held| held.note.clone()));
        words.push(part.note.clone());
        let words: Vec<&str> = words.iter().map(String::as_str).collect();
        let other = part.holds.iter().find(|held| held.standing != mix.standing);
        let rests = other.map(|held| rests_on(held.standing, &held.source));
        text.push_str(&line(6, &words, &rests.unwrap_or_default()));
    }
    if !mix.note.is_empty() {
        text.push_str(&line(6, &[&mix.note], ""));
    }
    text
}

fn contrast_lines(contrast: &Contrast) -> String {
    let rests = rests_on(contrast.standing, &contrast.source);
    let head = format!("{}  {} (in {})", contrast.id, contrast.label, contrast.step);
    let mut text = line(2, &[&head], &rests);
    let row = |row: &crate::reference::ContrastRow| {
        let mut gives = row.gives();
        if row.source != contrast.source {
            gives = format!("{gives} {}", rests_on(row.standing, &row.source));
        }
        (row.value(&contrast.unit), gives)
    };
    let rows: Vec<(String, String)> = contrast.rows.iter().map(row).collect();
    text.push_str(&labelled(6, &rows));
    if !contrast.note.is_empty() {
        text.push_str(&line(6, &[&contrast.note], ""));
    }
    text
}

fn bath_line(bath: &Solution) -> String {
    let paper = bath.paper.map(|paper| format!("({paper} paper)"));
    let paper = paper.unwrap_or_default();
    let contents = bath.contents();
    let note = if contents == bath.note {
        ""
    } else {
        bath.note.as_str()
    };
    let rests = rests_on(bath.standing, &bath.source);
    let head = format!("bath, {}:", bath.name);
    let words = [head.as_str(), &contents, &paper, note];
    line(6, &words, &rests)
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
    text.extend(step.solutions.iter().map(bath_line));
    text.extend(step.usual.iter().map(|usual| usual_line(6, usual)));
    text
}
