//! A folder of its own for each test, and the program run in it.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use serde_json::Value;
use tempfile::TempDir;

/// A home folder with a logbook in it.
pub(crate) struct Bench {
    home: TempDir,
}

/// What a run of the program gave.
pub(crate) struct Ran {
    pub(crate) code: i32,
    pub(crate) out: String,
    pub(crate) err: String,
}

impl Bench {
    /// An empty home folder.
    pub(crate) fn empty() -> Bench {
        Bench {
            home: TempDir::new().expect("a folder"),
        }
    }

    /// A home folder in which a logbook was begun.
    pub(crate) fn begun() -> Bench {
        let bench = Bench::empty();
        bench.ok(&["begin"]);
        bench
    }

    /// A logbook with one holder, one box, and a sheet in side A.
    pub(crate) fn loaded() -> Bench {
        let bench = Bench::begun();
        bench.ok(&["log", "add-holder", "8x10", "--sides", "2"]);
        bench.ok(&[
            "log", "add-box", "FP4 Plus", "--size", "8x10", "--sheets", "25",
        ]);
        bench.ok(&["log", "load", "h1a", "--box", "f1"]);
        bench
    }

    /// The same, all of it five days ago.
    pub(crate) fn loaded_days_ago() -> Bench {
        let bench = Bench::begun();
        let ago = ["--when", "5 days ago"];
        bench.ok(&[&["log", "add-holder", "8x10", "--sides", "2"], &ago[..]].concat());
        bench.ok(&[
            &[
                "log", "add-box", "FP4 Plus", "--size", "8x10", "--sheets", "25",
            ],
            &ago[..],
        ]
        .concat());
        bench.ok(&[&["log", "load", "h1a", "--box", "f1"], &ago[..]].concat());
        bench
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.home.path().join(name)
    }

    pub(crate) fn logbook(&self) -> PathBuf {
        self.path("data/notchbook/logbook.notchbook")
    }

    pub(crate) fn write(&self, name: &str, bytes: &[u8]) -> PathBuf {
        let path = self.path(name);
        if let Some(folder) = path.parent() {
            fs::create_dir_all(folder).expect("a folder");
        }
        fs::write(&path, bytes).expect("a file");
        path
    }

    pub(crate) fn command(&self, words: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_notchbook"));
        command
            .args(words)
            .env_clear()
            .env("HOME", self.home.path())
            .env("XDG_DATA_HOME", self.path("data"))
            .env("XDG_CONFIG_HOME", self.path("config"))
            .env("TMPDIR", self.home.path())
            .env("TZ", "UTC")
            .current_dir(self.home.path())
            .stdin(Stdio::null());
        command
    }

    /// Runs the program.
    pub(crate) fn run(&self, words: &[&str]) -> Ran {
        Ran::of(&self.command(words).output().expect("it runs"))
    }

    /// Runs the program, which must succeed, and gives its standard output.
    pub(crate) fn ok(&self, words: &[&str]) -> String {
        let ran = self.run(words);
        assert_eq!(ran.code, 0, "{words:?}\n{}\n{}", ran.out, ran.err);
        ran.out
    }

    /// Runs the program, which must end with this code and say nothing on standard output, and
    /// gives what it said on standard error.
    pub(crate) fn fails(&self, code: i32, words: &[&str]) -> String {
        let ran = self.run(words);
        assert_eq!(ran.code, code, "{words:?}\n{}\n{}", ran.out, ran.err);
        assert_eq!(ran.out, "", "{words:?}");
        ran.err
    }

    /// Runs the program with `--json`, which must succeed with one JSON object.
    pub(crate) fn json(&self, words: &[&str]) -> Value {
        let mut all = words.to_vec();
        all.push("--json");
        self.parsed(&self.ok(&all))
    }

    /// The JSON object that the program printed.
    pub(crate) fn parsed(&self, out: &str) -> Value {
        let value: Value =
            serde_json::from_str(out).unwrap_or_else(|error| panic!("{error}\n{out}"));
        assert!(value.is_object(), "{out}");
        value
    }

    /// The error object of a run with `--json` that must end with this code.
    pub(crate) fn json_error(&self, code: i32, words: &[&str]) -> Value {
        let mut all = words.to_vec();
        all.push("--json");
        let err = self.fails(code, &all);
        let value: Value = serde_json::from_str(&err).unwrap_or_else(|error| {
            panic!("{words:?}: {error}\n{err}");
        });
        assert_eq!(value["error"]["exit"], code);
        value["error"].clone()
    }
}

impl Ran {
    pub(crate) fn of(output: &Output) -> Ran {
        Ran {
            code: output.status.code().unwrap_or(-1),
            out: String::from_utf8(output.stdout.clone()).expect("UTF-8"),
            err: String::from_utf8(output.stderr.clone()).expect("UTF-8"),
        }
    }
}

/// Everything in a folder with its bytes, to see that nothing changed.
pub(crate) fn bytes_of(path: &Path) -> Vec<u8> {
    fs::read(path).expect("it can be read")
}

/// Fails unless `text` holds every one of `parts`.
pub(crate) fn says(text: &str, parts: &[&str]) {
    for part in parts {
        assert!(text.contains(part), "{part:?} is not in:\n{text}");
    }
}
