//! The user's own settings.
//!
//! For: one TOML file that a person writes by hand:
//!
//! ```toml
//! theme = "safelight"      # plain, dark or safelight
//! mouse = true             # clicks and scrolling
//! still = false            # nothing blinks
//! symbols = "box"          # box or ascii
//!
//! [clock]
//! bell = "marks"           # off, marks or seconds
//! count = "down"           # up or down
//! lead_in = 3              # seconds before the shutter opens, 0 to 30
//! cloth = false            # few cells lit, for the dark cloth
//!
//! [keys]
//! "sheets.next" = ["j", "down"]
//! "app.undo" = "ctrl-z"
//! ```
//!
//! Promises: each setting is read by itself. One that cannot be read is reported, keeps its usual
//! value and never stops the program.
//!
//! Leaves to others: where the file is, and whether the named actions exist
//! ([`super::actions::KeyMap::new`]).

use std::io;
use std::path::Path;

use toml::{Table, Value};

use super::actions::Rebinding;
use super::clock::Count;
use super::clock::habits::{Bell, Habits};
use super::look::{Look, SymbolSet};
use super::nearest::nearest;
use super::theme::{Surroundings, Theme, ThemeName};

pub mod remember;

/// What a person can set.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Settings {
    /// The theme, if one was chosen.
    pub theme: Option<ThemeName>,
    /// Whether clicks and scrolling are listened to. Selecting text with the mouse then needs the
    /// terminal's own key for it, usually Shift.
    pub mouse: bool,
    /// Nothing blinks or moves by itself.
    pub still: bool,
    /// Signs for lines and marks.
    pub symbols: SymbolSet,
    /// How the clock is liked.
    pub clock: Habits,
    /// Own keys.
    pub keys: Vec<Rebinding>,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            theme: None,
            mouse: true,
            still: false,
            symbols: SymbolSet::default(),
            clock: Habits::default(),
            keys: Vec::new(),
        }
    }
}

/// Something in the settings that was not understood. Each says what is used instead.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum SettingProblem {
    /// The file is there and cannot be read.
    #[error("the settings in {path} cannot be read ({why}); the usual ones are used")]
    Unreadable {
        /// Path of the file.
        path: String,
        /// What the system said.
        why: String,
    },
    /// The file is not TOML.
    #[error("the settings are not readable in line {line}: {why}; the usual ones are used")]
    NotToml {
        /// Line of the file, from 1.
        line: usize,
        /// What is wrong there.
        why: String,
    },
    /// There is no such setting.
    #[error("there is no setting \"{name}\"{}; it is left out", meant(.nearest))]
    Unknown {
        /// The name as written.
        name: String,
        /// The name that may have been meant.
        nearest: Option<&'static str>,
    },
    /// A setting has a value it cannot have.
    #[error("{name} = {value} is not understood: write {wanted}; the usual value is used")]
    Value {
        /// Name of the setting.
        name: String,
        /// The value as written.
        value: String,
        /// What can be written.
        wanted: String,
    },
}

fn meant(nearest: &Option<&'static str>) -> String {
    nearest
        .map(|name| format!(", perhaps \"{name}\" was meant"))
        .unwrap_or_default()
}

const NAMES: [&str; 6] = ["theme", "mouse", "still", "symbols", "clock", "keys"];

/// What can be set under `[clock]`.
const CLOCK_NAMES: [&str; 4] = ["clock.bell", "clock.count", "clock.lead_in", "clock.cloth"];

impl Settings {
    /// Reads the settings file; a file that does not exist gives the usual settings.
    pub fn load(path: &Path) -> (Self, Vec<SettingProblem>) {
        match std::fs::read_to_string(path) {
            Ok(text) => Self::read(&text),
            Err(error) if error.kind() == io::ErrorKind::NotFound => (Self::default(), Vec::new()),
            Err(error) => {
                let problem = SettingProblem::Unreadable {
                    path: path.display().to_string(),
                    why: error.to_string(),
                };
                (Self::default(), vec![problem])
            }
        }
    }

    /// Reads settings from text.
    pub fn read(text: &str) -> (Self, Vec<SettingProblem>) {
        let mut settings = Self::default();
        let table: Table = match text.parse() {
            Ok(table) => table,
            Err(error) => return (settings, vec![not_toml(text, &error)]),
        };
        let mut problems = Vec::new();
        for (name, value) in &table {
            if let Err(problem) = settings.set(name, value, &mut problems) {
                problems.push(problem);
            }
        }
        // Two spellings of a name may mix; told in one order, whatever the file's.
        settings.keys.sort_by(|one, other| one.id.cmp(&other.id));
        (settings, problems)
    }

    /// The look that was set, as far as the terminal can show it.
    pub fn look(&self, around: &Surroundings) -> Look {
        Look {
            theme: Theme::choose(self.theme, around),
            symbols: self.symbols.symbols(),
            still: self.still,
        }
    }

    fn set(
        &mut self,
        name: &str,
        value: &Value,
        problems: &mut Vec<SettingProblem>,
    ) -> Result<(), SettingProblem> {
        match name {
            "theme" => {
                let theme = value.as_str().and_then(ThemeName::from_word);
                self.theme = Some(theme.ok_or_else(|| {
                    let words = ThemeName::ALL.map(|name| format!("\"{}\"", name.word()));
                    wrong(name, value, &words.join(" or "))
                })?);
            }
            "mouse" => self.mouse = switch(name, value)?,
            "still" => self.still = switch(name, value)?,
            "symbols" => {
                let set = value.as_str().and_then(SymbolSet::from_word);
                self.symbols = set.ok_or_else(|| wrong(name, value, "\"box\" or \"ascii\""))?;
            }
            "clock" => {
                let wanted = "a table of settings under [clock]";
                let table = value.as_table().ok_or_else(|| wrong(name, value, wanted))?;
                for (inner, value) in table {
                    if let Err(problem) = self.set_clock(&format!("clock.{inner}"), value) {
                        problems.push(problem);
                    }
                }
            }
            "keys" => {
                let wanted = "a table of actions and keys under [keys]";
                let table = value.as_table().ok_or_else(|| wrong(name, value, wanted))?;
                self.read_keys("", table, problems);
            }
            _ => {
                return Err(unknown(name, &NAMES));
            }
        }
        Ok(())
    }

    fn set_clock(&mut self, name: &str, value: &Value) -> Result<(), SettingProblem> {
        let word = value.as_str();
        match name {
            "clock.bell" => {
                let bell = Bell::ALL.into_iter().find(|it| Some(it.word()) == word);
                self.clock.bell =
                    bell.ok_or_else(|| wrong(name, value, "\"off\" or \"marks\" or \"seconds\""))?;
            }
            "clock.count" => {
                let count = Count::ALL.into_iter().find(|it| Some(it.word()) == word);
                self.clock.count = count.ok_or_else(|| wrong(name, value, "\"up\" or \"down\""))?;
            }
            "clock.lead_in" => {
                let seconds = value
                    .as_integer()
                    .and_then(|number| u8::try_from(number).ok());
                self.clock.lead_in = seconds
                    .filter(|seconds| *seconds <= Habits::LONGEST_LEAD_IN)
                    .ok_or_else(|| wrong(name, value, "whole seconds from 0 to 30"))?;
            }
            "clock.cloth" => self.clock.cloth = switch(name, value)?,
            _ => return Err(unknown(name, &CLOCK_NAMES)),
        }
        Ok(())
    }

    /// Without quotes TOML takes `sheets.next` for a table within a table; both spellings count.
    fn read_keys(&mut self, prefix: &str, table: &Table, problems: &mut Vec<SettingProblem>) {
        for (name, value) in table {
            let id = if prefix.is_empty() {
                name.clone()
            } else {
                format!("{prefix}.{name}")
            };
            let keys = match value {
                Value::Table(inner) => {
                    self.read_keys(&id, inner, problems);
                    continue;
                }
                Value::String(key) => Some(vec![key.clone()]),
                Value::Array(list) => list
                    .iter()
                    .map(|key| key.as_str().map(str::to_owned))
                    .collect(),
                _ => None,
            };
            match keys {
                Some(keys) => self.keys.push(Rebinding { id, keys }),
                None => problems.push(wrong(
                    &format!("\"{id}\""),
                    value,
                    "a key as \"x\" or several as [\"x\", \"ctrl-z\"]",
                )),
            }
        }
    }
}

fn unknown(name: &str, known: &[&'static str]) -> SettingProblem {
    let near = nearest(name, known.iter().copied());
    SettingProblem::Unknown {
        name: name.to_owned(),
        nearest: near.and_then(|near| known.iter().copied().find(|known| *known == near)),
    }
}

fn switch(name: &str, value: &Value) -> Result<bool, SettingProblem> {
    value
        .as_bool()
        .ok_or_else(|| wrong(name, value, "true or false"))
}

fn wrong(name: &str, value: &Value, wanted: &str) -> SettingProblem {
    SettingProblem::Value {
        name: name.to_owned(),
        value: value.to_string(),
        wanted: wanted.to_owned(),
    }
}

fn not_toml(text: &str, error: &toml::de::Error) -> SettingProblem {
    let start = error.span().map_or(0, |span| span.start);
    let before = text.get(..start).unwrap_or(text);
    SettingProblem::NotToml {
        line: before.matches('\n').count() + 1,
        why: error.message().replace('\n', ", "),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn problems(text: &str) -> Vec<String> {
        let (_, problems) = Settings::read(text);
        problems.iter().map(SettingProblem::to_string).collect()
    }

    #[test]
    fn every_setting_is_read() {
        let text = "theme = \"safelight\"\nmouse = false\nstill = true\nsymbols = \"ascii\"\n\
                    [keys]\n\"sheets.next\" = [\"n\", \"down\"]\nsheets.previous = \"p\"\n";
        let (settings, problems) = Settings::read(text);
        assert_eq!(problems, []);
        assert_eq!(settings.theme, Some(ThemeName::Safelight));
        assert!(!settings.mouse && settings.still);
        assert_eq!(settings.symbols, SymbolSet::Ascii);
        let keys: Vec<_> = settings
            .keys
            .iter()
            .map(|r| (r.id.as_str(), r.keys.len()))
            .collect();
        assert_eq!(keys, [("sheets.next", 2), ("sheets.previous", 1)]);
    }

    #[test]
    fn the_habits_of_the_clock_are_read_each_by_itself() {
        let text = "[clock]\nbell = \"seconds\"\ncount = \"sideways\"\nlead_in = 0\ncloth = true\n";
        let (settings, told) = Settings::read(text);
        assert_eq!(
            settings.clock,
            Habits {
                count: Count::Down,
                bell: Bell::Seconds,
                lead_in: 0,
                cloth: true
            }
        );
        assert_eq!(told.len(), 1);
        assert_eq!(
            problems("[clock]\nlead_in = 31"),
            [
                "clock.lead_in = 31 is not understood: write whole seconds from 0 to 30; the usual value is used"
            ]
        );
        assert_eq!(
            problems("[clock]\nbel = 1"),
            ["there is no setting \"clock.bel\", perhaps \"clock.bell\" was meant; it is left out"]
        );
        // What is remembered is what is read.
        let lines = settings
            .clock
            .settings()
            .map(|(name, value)| format!("{name} = {value}"));
        let (again, _) = Settings::read(&format!("[clock]\n{}", lines.join("\n")));
        assert_eq!(again.clock, settings.clock);
    }

    #[test]
    fn one_wrong_setting_does_not_spoil_the_others() {
        let (settings, _) = Settings::read("theme = \"blue\"\nstill = true\n");
        assert_eq!(settings.theme, None);
        assert!(settings.still);
    }

    #[test]
    fn what_is_not_understood_is_told_with_what_can_be_written() {
        assert_eq!(
            problems("theme = \"blue\""),
            [
                "theme = \"blue\" is not understood: write \"plain\" or \"dark\" or \"safelight\"; \
              the usual value is used"
            ]
        );
        assert_eq!(
            problems("mouse = 1"),
            ["mouse = 1 is not understood: write true or false; the usual value is used"]
        );
        assert_eq!(
            problems("moose = true"),
            ["there is no setting \"moose\", perhaps \"mouse\" was meant; it is left out"]
        );
        assert!(problems("[keys]\n\"a.b\" = 3")[0].starts_with("\"a.b\" = 3 is not understood"));
    }

    #[test]
    fn a_file_that_is_not_toml_is_told_with_its_line() {
        let told = problems("mouse = true\ntheme = \n");
        assert!(
            told[0].starts_with("the settings are not readable in line 2: "),
            "{told:?}"
        );
    }

    #[test]
    fn a_missing_file_is_no_problem_and_an_unreadable_one_is_told() {
        let folder = tempfile::tempdir().unwrap();
        let (settings, problems) = Settings::load(&folder.path().join("none.toml"));
        assert_eq!((settings, problems), (Settings::default(), Vec::new()));
        let (_, problems) = Settings::load(folder.path());
        assert!(
            problems[0].to_string().contains("cannot be read"),
            "{problems:?}"
        );
    }
}
