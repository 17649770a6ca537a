//! What a command has to say, and the one place where it is printed.
//!
//! A command makes an [`Answer`]: a JSON document and the same in words. Which of the two goes to
//! standard output is decided here, so `--json` works for every command alike. Promises: words go
//! through [`shown`], and in a document every character that a terminal would obey or hide is
//! written as `\uXXXX`, which reads back as what was stored. A reader that has gone away ends the
//! program quietly.

use std::io::{self, Write};

use serde::Serialize;
use serde_json::Value;
use serde_json::ser::{Formatter, PrettyFormatter, Serializer};

use super::trouble::Trouble;
use crate::export::{shown, shown_line};

/// What a command has to say.
#[derive(Debug, Default)]
pub(super) struct Answer {
    /// Said on standard error before anything else: cautions, what was left out.
    pub(super) first: Vec<String>,
    /// The answer in words.
    pub(super) words: String,
    /// The answer as a JSON object.
    pub(super) document: serde_json::Map<String, Value>,
    /// The exit code, where the answer itself is bad news.
    pub(super) code: u8,
}

impl Answer {
    /// An answer with these words and no document yet.
    pub(super) fn said(words: impl Into<String>) -> Answer {
        Answer {
            words: words.into(),
            ..Answer::default()
        }
    }

    /// Adds a member to the document.
    pub(super) fn with(mut self, key: &str, value: impl Into<Value>) -> Answer {
        self.document.insert(key.to_owned(), value.into());
        self
    }

    /// Adds lines that are said on standard error before the answer. They stand in the document
    /// under `key`.
    pub(super) fn preceded(mut self, key: &str, lines: Vec<String>) -> Answer {
        if !lines.is_empty() {
            self.document.insert(key.to_owned(), lines.clone().into());
            self.first.extend(lines);
        }
        self
    }

    /// Adds a line to the words.
    pub(super) fn line(&mut self, line: impl AsRef<str>) {
        self.words.push_str(line.as_ref());
        self.words.push('\n');
    }
}

/// How answers and troubles are printed.
#[derive(Clone, Copy, Debug)]
pub(super) struct Voice {
    /// One JSON document instead of words.
    pub(super) json: bool,
}

impl Voice {
    /// Prints an answer.
    pub(super) fn answer(self, answer: &Answer) -> Result<(), Trouble> {
        let written = if self.json {
            document(&Value::Object(answer.document.clone())).and_then(|text| out(&text))
        } else {
            for line in &answer.first {
                aside(line);
            }
            out(&ended(&shown(&answer.words)))
        };
        written.map_err(Trouble::from_output)
    }

    /// Prints what went wrong, on standard error.
    pub(super) fn trouble(self, trouble: &Trouble) {
        if matches!(trouble, Trouble::ReaderGone) {
            return;
        }
        if self.json {
            let text = document(&trouble.document()).unwrap_or_default();
            let _ = io::stderr().write_all(text.as_bytes());
        } else {
            for (index, line) in trouble.words().lines().enumerate() {
                let name = if index == 0 { "notchbook: " } else { "" };
                aside(&format!("{name}{line}"));
            }
        }
    }
}

/// One line on standard error. There is nothing left to do when it cannot be written.
fn aside(line: &str) {
    let _ = writeln!(io::stderr(), "{}", shown_line(line));
}

fn out(text: &str) -> io::Result<()> {
    let mut out = io::stdout().lock();
    out.write_all(text.as_bytes())?;
    out.flush()
}

fn ended(text: &str) -> String {
    if text.is_empty() || text.ends_with('\n') {
        text.to_owned()
    } else {
        format!("{text}\n")
    }
}

fn document(value: &Value) -> io::Result<String> {
    let mut bytes = Vec::new();
    let mut serializer = Serializer::with_formatter(&mut bytes, Plain::default());
    value.serialize(&mut serializer)?;
    bytes.push(b'\n');
    String::from_utf8(bytes).map_err(io::Error::other)
}

/// Indented JSON in which no character can move the cursor, hide or turn the text around.
#[derive(Default)]
struct Plain<'a>(PrettyFormatter<'a>);

impl Formatter for Plain<'_> {
    fn write_string_fragment<W: ?Sized + Write>(
        &mut self,
        writer: &mut W,
        fragment: &str,
    ) -> io::Result<()> {
        if fragment.bytes().all(|byte| matches!(byte, 0x20..=0x7e)) {
            return writer.write_all(fragment.as_bytes());
        }
        let mut buffer = [0; 4];
        for c in fragment.chars() {
            let text: &str = c.encode_utf8(&mut buffer);
            if shown_line(text) == text {
                writer.write_all(text.as_bytes())?;
            } else {
                for unit in c.encode_utf16(&mut [0; 2]) {
                    write!(writer, "\\u{unit:04x}")?;
                }
            }
        }
        Ok(())
    }

    fn begin_array<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.0.begin_array(writer)
    }
    fn end_array<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.0.end_array(writer)
    }
    fn begin_array_value<W: ?Sized + Write>(
        &mut self,
        writer: &mut W,
        first: bool,
    ) -> io::Result<()> {
        self.0.begin_array_value(writer, first)
    }
    fn end_array_value<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.0.end_array_value(writer)
    }
    fn begin_object<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.0.begin_object(writer)
    }
    fn end_object<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.0.end_object(writer)
    }
    fn begin_object_key<W: ?Sized + Write>(
        &mut self,
        writer: &mut W,
        first: bool,
    ) -> io::Result<()> {
        self.0.begin_object_key(writer, first)
    }
    fn begin_object_value<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.0.begin_object_value(writer)
    }
    fn end_object_value<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.0.end_object_value(writer)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn a_document_reads_back_what_was_stored_and_holds_nothing_a_terminal_obeys() {
        let stored: String = (0..=0x0010_FFFF_u32)
            .step_by(7)
            .filter_map(char::from_u32)
            .chain("\u{1b}]52;c;x\u{7}\u{9b}31m\u{202e}\u{200b}e\u{301}👩\u{200d}🔬\0\t\n".chars())
            .collect();
        let text = document(&json!({ "note": stored })).expect("it is written");
        let bare = text.replace('\n', "");
        assert_eq!(shown_line(&bare), bare);
        let read: Value = serde_json::from_str(&text).expect("it is JSON");
        assert_eq!(read["note"], stored.as_str());
    }
}
