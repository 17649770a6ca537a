//! What a hand does at the front end, and what the command line says beside it.

use std::path::Path;
use std::process::Command;

use serde_json::Value;
use tempfile::TempDir;

use crate::session::{NOTCHBOOK, Session, Start, surroundings};

/// Fields a form may have, and so the most steps from one to another.
const MOST_FIELDS: usize = 40;

/// A home with a logbook in it, or none yet.
pub(crate) struct Home(TempDir);

impl Home {
    /// An empty home.
    pub(crate) fn empty() -> Home {
        Home(TempDir::new().expect("a folder for a home"))
    }

    /// A home with a logbook of two double holders (#1, #2) and a box of film (#3), since the
    /// beginning of 2024.
    pub(crate) fn with_holders() -> Home {
        let home = Home::empty();
        home.does("begin");
        for _ in 0..2 {
            home.does("log add-holder --size 8x10 --sides 2 --when 2024-01-01");
        }
        home.does(
            "log add-box --film FP4_Plus --size 8x10 --sheets 25 --speed 80 --emulsion 4417 \
             --when 2024-01-01",
        );
        home
    }

    /// Where it is.
    pub(crate) fn path(&self) -> &Path {
        self.0.path()
    }

    /// Writes the settings.
    pub(crate) fn with_settings(self, settings: &str) -> Home {
        let folder = self.path().join("config/notchbook");
        std::fs::create_dir_all(&folder).expect("a folder for the settings");
        std::fs::write(folder.join("settings.toml"), settings).expect("settings");
        self
    }

    /// Opens the front end at 80 by 24.
    pub(crate) fn open(self) -> Session {
        self.open_with(&[])
    }

    /// Opens the front end at 80 by 24, with arguments.
    pub(crate) fn open_with(self, args: &[&str]) -> Session {
        Start::in_home(self.0, NOTCHBOOK, args).in_size(80, 24)
    }

    /// Opens the front end at 80 by 24, with some variables of the environment.
    pub(crate) fn open_in(self, variables: &[(&str, &str)]) -> Session {
        let mut start = Start::in_home(self.0, NOTCHBOOK, &[]);
        for (name, value) in variables {
            start = start.env(name, value);
        }
        start.in_size(80, 24)
    }

    /// Runs a command that has to succeed; see [`does`].
    pub(crate) fn does(&self, line: &str) -> String {
        does(self.path(), line)
    }

    /// What a command answers as JSON; see [`asks`].
    pub(crate) fn asks(&self, line: &str) -> Value {
        asks(self.path(), line)
    }

    /// Fails unless the logbook is sound.
    #[track_caller]
    pub(crate) fn is_sound(&self) {
        let said = self.asks("check");
        assert_eq!(said["sound"], Value::Bool(true), "{said}");
        assert_eq!(said["findings"], Value::Array(Vec::new()), "{said}");
    }
}

impl From<TempDir> for Home {
    fn from(home: TempDir) -> Home {
        Home(home)
    }
}

/// Runs a command in a home and returns what it says. Words are parted by spaces; a `_` stands for
/// a space within a word.
#[track_caller]
pub(crate) fn does(home: &Path, line: &str) -> String {
    let args = line.split(' ').map(|word| word.replace('_', " "));
    let output = Command::new(NOTCHBOOK)
        .args(args)
        .env_clear()
        .envs(surroundings(home))
        .current_dir(home)
        .output()
        .expect("the program runs");
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(
        output.status.success(),
        "{line}: {said}{}",
        String::from_utf8_lossy(&output.stderr)
    );
    said
}

/// What a command answers as JSON; the line is written as in [`does`].
#[track_caller]
pub(crate) fn asks(home: &Path, line: &str) -> Value {
    let said = does(home, &format!("--json {line}"));
    serde_json::from_str(&said).unwrap_or_else(|error| panic!("{line}: {error}: {said}"))
}

impl Session {
    /// The lines of the screen.
    pub(crate) fn rows(&self) -> Vec<String> {
        self.with_terminal(|terminal| terminal.rows(0, terminal.size().1.get()).collect())
    }

    /// What is on the screen as running text: lines joined, frames taken away, so that a sentence
    /// is found wherever it is broken. Of a line with a box on it only the inside of the box counts.
    pub(crate) fn prose(&self) -> String {
        let mut words = Vec::new();
        for row in self.rows() {
            let parts: Vec<&str> = row.split('│').collect();
            let inside = match parts.as_slice() {
                [_, inside @ .., _] if !inside.is_empty() => inside.join(" "),
                _ => row.replace('│', " "),
            };
            words.extend(inside.split_whitespace().map(str::to_owned));
        }
        words.join(" ")
    }

    /// Waits until a sentence is on the screen, however it is broken into lines.
    pub(crate) fn wait_prose(&self, sentence: &str) {
        self.wait_until(&format!("the sentence \"{sentence}\""), |session| {
            session.prose().contains(sentence)
        });
    }

    /// Waits until a text is no longer on the screen.
    pub(crate) fn wait_gone(&self, text: &str) {
        self.wait_until(&format!("\"{text}\" to go"), |session| {
            !session.screen().contains(text)
        });
    }

    /// The line the cursor is on, and which one it is.
    pub(crate) fn line_at_cursor(&self) -> (u16, String) {
        self.with_terminal(|terminal| {
            let (row, _) = terminal.cursor_position();
            let line = terminal
                .rows(0, terminal.size().1.get())
                .nth(usize::from(row))
                .unwrap_or_default();
            (row, line)
        })
    }

    /// The label of the field that has the focus.
    pub(crate) fn field(&self) -> Option<String> {
        let (_, line) = self.line_at_cursor();
        let (_, line) = line.split_once('▸')?;
        let label = line.trim_start().split("  ").next()?;
        Some(label.trim_end().to_owned())
    }

    /// Goes to the field with this label, from field to field as with the tabulator.
    #[track_caller]
    pub(crate) fn go_to_field(&mut self, label: &str) {
        self.wait_until("a field", |session| session.field().is_some());
        for _ in 0..MOST_FIELDS {
            let on = self.field();
            if on.as_deref() == Some(label) {
                return;
            }
            self.press("tab");
            self.wait_until("the next field", |session| {
                session.field().is_some() && session.field() != on
            });
        }
        panic!("there is no field \"{label}\" in\n{}", self.screen());
    }

    /// Fills the field with this label.
    #[track_caller]
    pub(crate) fn fill(&mut self, label: &str, text: &str) {
        self.go_to_field(label);
        self.press("ctrl-u");
        self.type_text(text);
    }

    /// Fills several fields.
    #[track_caller]
    pub(crate) fn fill_all(&mut self, fields: &[(&str, &str)]) {
        for (label, text) in fields {
            self.fill(label, text);
        }
    }

    /// Presses a key and waits for what it opens.
    #[track_caller]
    pub(crate) fn opens(&mut self, key: &str, text: &str) {
        self.press(key);
        self.wait_for(text);
    }

    /// Goes to one of the screens by its number.
    #[track_caller]
    pub(crate) fn goes_to(&mut self, number: u8) {
        self.press(&number.to_string());
        self.wait_until(&format!("screen {number}"), |session| {
            session.rows()[0].contains(&format!("▸{number} "))
        });
    }

    /// Picks from the open menu the entry that is found by these letters, and waits for its pane.
    #[track_caller]
    pub(crate) fn pick(&mut self, letters: &str, title: &str) {
        self.wait_for("/ find");
        self.press("/");
        self.type_text(letters);
        self.wait_until("the letters", |session| {
            let (_, line) = session.line_at_cursor();
            line.contains(letters)
        });
        self.opens("enter", title);
    }

    /// Goes down the open menu to the line with this text and takes it.
    #[track_caller]
    pub(crate) fn chooses(&mut self, text: &str) {
        for _ in 0..MOST_FIELDS {
            let on = self.line_at_cursor();
            if on.1.contains(text) {
                self.press("enter");
                return;
            }
            self.press("down");
            self.wait_until("the next line", |session| session.line_at_cursor() != on);
        }
        panic!("there is no \"{text}\" in\n{}", self.screen());
    }

    /// The number of the entry that the screen says was logged, if it says so of this kind.
    pub(crate) fn logged(&self, kind: &str) -> Option<i64> {
        self.rows().iter().find_map(|row| {
            let (_, after) = row.split_once('#')?;
            let (number, after) = after.split_once(' ')?;
            let rest = after.strip_prefix(kind)?;
            let whole_word = rest.is_empty() || rest.starts_with(' ');
            whole_word.then(|| number.parse().ok()).flatten()
        })
    }

    /// Confirms the pane and waits until the screen says that an entry of this kind was logged.
    #[track_caller]
    pub(crate) fn logs(&mut self, kind: &str) -> i64 {
        self.press("enter");
        self.wait_until(&format!("\"#… {kind}\""), |session| {
            session.logged(kind).is_some()
        });
        self.logged(kind).expect("it was there a moment ago")
    }

    /// Opens a pane by its key, fills it, and logs it.
    #[track_caller]
    pub(crate) fn does_log(
        &mut self,
        key: &str,
        title: &str,
        fields: &[(&str, &str)],
        kind: &str,
    ) -> i64 {
        self.opens(key, title);
        self.fill_all(fields);
        self.logs(kind)
    }

    /// Closes what lies over the screen and waits until this text of it is gone.
    #[track_caller]
    pub(crate) fn closes(&mut self, text: &str) {
        assert!(self.screen().contains(text), "{}", self.screen());
        self.press("esc");
        self.wait_gone(text);
    }

    /// Leaves the program and gives back its home.
    #[track_caller]
    pub(crate) fn leave(mut self) -> Home {
        self.press("q");
        let status = self.wait_exit();
        assert!(status.success(), "{status:?}");
        self.into_home().into()
    }
}
