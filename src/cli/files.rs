//! `export`, `import`, `rebuild` and `check`: the logbook as a whole.

use std::fs::File;
use std::io::{self, BufReader, BufWriter, IsTerminal, Write};
use std::path::{Path, PathBuf};

use clap::{Arg, ArgAction, ArgMatches, Command};
use serde_json::{Value, json};

use super::answer::Answer;
use super::open::Desk;
use super::trouble::Trouble;
use crate::export::jsonl::{ExportError, Exported, ImportError, read_lines, write_lines};
use crate::export::{FileError, shown, write_new_file};
use crate::store::{Manner, NotTaken, Store};

/// How many lines that were not taken in are told in words.
const MOST_TOLD: usize = 20;

/// `export`
pub(super) fn export_command() -> Command {
    Command::new("export")
        .about("Write the whole logbook as JSON lines, to standard output or to a file")
        .arg(
            Arg::new("file")
                .value_name("FILE")
                .value_parser(clap::value_parser!(PathBuf))
                .help("A new file"),
        )
        .arg(
            Arg::new("replace")
                .long("replace")
                .action(ArgAction::SetTrue)
                .requires("file")
                .help("Replace the file if it is there already"),
        )
}

/// `import`
pub(super) fn import_command() -> Command {
    Command::new("import")
        .about("Take in entries from a file of JSON lines")
        .long_about(
            "Take in entries from a file of JSON lines, as \"notchbook export\" writes them. Entries \
             that are here already are passed over; if one does not fit, none is taken.",
        )
        .arg(
            Arg::new("file")
                .value_name("FILE")
                .required(true)
                .value_parser(clap::value_parser!(PathBuf))
                .help("The file; - is standard input"),
        )
        .arg(
            Arg::new("keep-going")
                .long("keep-going")
                .action(ArgAction::SetTrue)
                .help("Take what fits and list the rest"),
        )
        .arg(
            Arg::new("dry-run")
                .long("dry-run")
                .action(ArgAction::SetTrue)
                .help("Only say what would be taken in"),
        )
}

/// `rebuild`
pub(super) fn rebuild_command() -> Command {
    Command::new("rebuild").about("Make everything again that is made from the entries")
}

/// `check`
pub(super) fn check_command() -> Command {
    Command::new("check").about("Check that the logbook says what was written into it")
}

/// Writes the logbook out.
pub(super) fn export(
    desk: &mut Desk<'_>,
    matches: &ArgMatches,
    as_document: bool,
) -> Result<Answer, Trouble> {
    let file = matches.get_one::<PathBuf>("file");
    if let Some(path) = file {
        not_the_logbook(path, &desk.places.logbook)?;
    }
    let replace = matches.get_flag("replace");
    desk.with_logbook(|open| {
        let store: &Store = open.store;
        match file {
            Some(path) => {
                let exported = write_new_file(path, replace, |out| {
                    write_lines(store, out).map_err(OutError::from)
                })?;
                let path = path.display();
                let many = exported.entries;
                let words = format!("{many} entries are written to {path}\n");
                let answer = Answer::said(words)
                    .with("file", path.to_string())
                    .with("entries", many);
                Ok(answer.preceded("damaged", damage(&exported)))
            }
            None if as_document => {
                let mut lines = Vec::new();
                let exported = write_lines(store, &mut lines).map_err(OutError::from)?;
                let lines: Result<Vec<Value>, _> = lines
                    .split(|byte| *byte == b'\n')
                    .filter(|line| !line.is_empty())
                    .map(serde_json::from_slice)
                    .collect();
                let lines = lines.map_err(|error| Trouble::Other(error.to_string()))?;
                let answer = Answer::default().with("lines", lines);
                Ok(answer.preceded("damaged", damage(&exported)))
            }
            None => {
                let stdout = io::stdout();
                let exported = if stdout.is_terminal() {
                    write_lines(store, &mut Visible::new(stdout.lock()))
                } else {
                    write_lines(store, &mut BufWriter::new(stdout.lock()))
                };
                let exported = exported.map_err(to_stdout)?;
                Ok(Answer::default().preceded("damaged", damage(&exported)))
            }
        }
    })
}

fn damage(exported: &Exported) -> Vec<String> {
    let each = exported.damaged.iter();
    each.map(|row| format!("entry #{row} is not as it was written: run \"notchbook check\""))
        .collect()
}

/// Lines for a person to look at: what a terminal would obey is made visible.
struct Visible<W: Write> {
    out: W,
    line: Vec<u8>,
}

impl<W: Write> Visible<W> {
    fn new(out: W) -> Visible<W> {
        Visible {
            out,
            line: Vec::new(),
        }
    }
}

impl<W: Write> Write for Visible<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.line.extend_from_slice(bytes);
        if self.line.ends_with(b"\n") {
            let text = String::from_utf8_lossy(&self.line);
            self.out.write_all(shown(&text).as_bytes())?;
            self.line.clear();
        }
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        self.out.flush()
    }
}

/// An export to a file that failed.
enum OutError {
    Export(ExportError),
    File(FileError),
}

impl From<ExportError> for OutError {
    fn from(error: ExportError) -> OutError {
        OutError::Export(error)
    }
}

impl From<FileError> for OutError {
    fn from(error: FileError) -> OutError {
        OutError::File(error)
    }
}

impl From<OutError> for Trouble {
    fn from(error: OutError) -> Trouble {
        match error {
            OutError::Export(ExportError::Store(error)) => error.into(),
            OutError::Export(error) => Trouble::File(error.to_string()),
            OutError::File(error) => Trouble::File(error.to_string()),
        }
    }
}

fn to_stdout(error: ExportError) -> Trouble {
    match error {
        ExportError::Write(error) => Trouble::from_output(error),
        other => OutError::from(other).into(),
    }
}

/// The logbook itself is never written over, nor read past its own locks.
fn not_the_logbook(path: &Path, logbook: &Path) -> Result<(), Trouble> {
    let same = match (path.canonicalize(), logbook.canonicalize()) {
        (Ok(one), Ok(other)) => {
            let beside = |tail: &str| {
                let mut name = other.clone().into_os_string();
                name.push(tail);
                PathBuf::from(name)
            };
            one == other || one == beside("-wal") || one == beside("-shm")
        }
        _ => false,
    };
    if same {
        return Err(Trouble::Usage(format!(
            "{} is the logbook itself: choose another file",
            path.display()
        )));
    }
    Ok(())
}

/// Takes entries in.
pub(super) fn import(desk: &mut Desk<'_>, matches: &ArgMatches) -> Result<Answer, Trouble> {
    let Some(path) = matches.get_one::<PathBuf>("file") else {
        return Err(Trouble::Usage("name a file".to_owned()));
    };
    let dry_run = matches.get_flag("dry-run");
    let keep_going = matches.get_flag("keep-going");
    let manner = match (dry_run, keep_going) {
        (true, _) => Manner::OnlyJudge,
        (false, true) => Manner::KeepWhatFits,
        (false, false) => Manner::AllOrNothing,
    };
    not_the_logbook(path, &desk.places.logbook)?;
    desk.with_logbook(|open| {
        let taken = if path.as_os_str() == "-" {
            read_lines(open.store, &mut io::stdin().lock(), manner, open.reference)
        } else {
            let file = File::open(path).map_err(|error| {
                Trouble::file(
                    path,
                    "read",
                    &error,
                    "check its name and that you may read it",
                )
            })?;
            read_lines(
                open.store,
                &mut BufReader::new(file),
                manner,
                open.reference,
            )
        };
        let taken = taken.map_err(|error| match error {
            ImportError::Store(error) => error.into(),
            other => Trouble::File(format!("{}: {other}", path.display())),
        })?;
        if manner == Manner::AllOrNothing && !taken.not_taken.is_empty() {
            return Err(Trouble::NotTaken(lines_told(&taken.not_taken)));
        }
        let verb = if dry_run { "would be" } else { "were" };
        let mut answer = Answer::default();
        answer.line(format!(
            "{} entries {verb} taken in, {} are here already, {} not taken",
            taken.taken,
            taken.known,
            taken.not_taken.len()
        ));
        for line in lines_told(&taken.not_taken) {
            answer.line(format!("  {line}"));
        }
        let not_taken = taken.not_taken.iter();
        let not_taken = not_taken.map(|one| json!({ "line": one.line, "why": one.why }));
        Ok(answer
            .with("written", !dry_run)
            .with("taken", taken.taken)
            .with("known", taken.known)
            .with("not_taken", not_taken.collect::<Value>()))
    })
}

fn lines_told(not_taken: &[NotTaken]) -> Vec<String> {
    let told = not_taken.iter().take(MOST_TOLD);
    let mut lines: Vec<String> = told
        .map(|one| format!("line {}: {}", one.line, one.why))
        .collect();
    let more = not_taken.len().saturating_sub(MOST_TOLD);
    if more > 0 {
        lines.push(format!("and {more} more"));
    }
    lines
}

/// Makes again what is made from the entries.
pub(super) fn rebuild(desk: &mut Desk<'_>) -> Result<Answer, Trouble> {
    desk.with_logbook(|open| {
        let mut shows = Progress::new();
        let rebuilt = open
            .store
            .rebuild(open.reference, &mut |done, of| shows.step(done, of));
        shows.end();
        let rebuilt = rebuilt?;
        let mut answer = Answer::default();
        answer.line(format!(
            "{} things were made again from {} entries",
            rebuilt.things, rebuilt.entries
        ));
        if rebuilt.misfits > 0 {
            answer.line(format!(
                "{} entries do not fit the order: they are kept and left out of the lives",
                rebuilt.misfits
            ));
        }
        Ok(answer
            .with("entries", rebuilt.entries)
            .with("things", rebuilt.things)
            .with("misfits", rebuilt.misfits))
    })
}

/// How far a rebuild is, on a terminal.
struct Progress {
    on: bool,
}

impl Progress {
    fn new() -> Progress {
        Progress {
            on: io::stderr().is_terminal(),
        }
    }

    fn step(&mut self, done: u64, of: u64) {
        if self.on {
            let _ = write!(io::stderr(), "\r{done} of {of} entries");
        }
    }

    fn end(&mut self) {
        if self.on {
            let _ = write!(io::stderr(), "\r\u{1b}[K");
        }
    }
}

/// Checks the logbook.
pub(super) fn check(desk: &mut Desk<'_>) -> Result<Answer, Trouble> {
    desk.with_logbook(|open| {
        let checked = open.store.check(open.reference)?;
        let findings: Vec<String> = checked.findings.iter().map(ToString::to_string).collect();
        let mut answer = Answer::default();
        if findings.is_empty() {
            answer.line(format!(
                "{} entries, all as they were written",
                checked.entries
            ));
        } else {
            answer.line(format!(
                "{} entries, and this is not as it should be:",
                checked.entries
            ));
            for finding in &findings {
                answer.line(format!("  {finding}"));
            }
            answer.line("make a copy of the file before anything else is done with it");
            answer.code = 6;
        }
        Ok(answer
            .with("entries", checked.entries)
            .with("sound", findings.is_empty())
            .with("findings", findings))
    })
}
