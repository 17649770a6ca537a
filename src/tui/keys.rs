//! Keys as a person writes them.
//!
//! For: one key with its modifiers is a [`Chord`], one or two of them after each other are
//! [`Keys`]. Both are read from text (`ctrl-z`, `G`, `g g`, `enter`, `f1`) and printed the same
//! way in hints, help and error messages.
//!
//! Promises: whatever a terminal reports for a key, the chord is the same: an upper-case letter
//! carries no shift, a letter with ctrl is lower case. What is printed can be read again.
//!
//! Leaves to others: what a key does, see [`super::actions`].

use std::fmt;
use std::str::FromStr;

use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};

/// One key, with the modifiers that were held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Chord {
    code: KeyCode,
    mods: KeyModifiers,
}

/// Names of keys that are not a character; the first name of each is the one printed.
const NAMES: &[(&str, KeyCode)] = &[
    ("enter", KeyCode::Enter),
    ("return", KeyCode::Enter),
    ("esc", KeyCode::Esc),
    ("escape", KeyCode::Esc),
    ("tab", KeyCode::Tab),
    ("backtab", KeyCode::BackTab),
    ("backspace", KeyCode::Backspace),
    ("delete", KeyCode::Delete),
    ("del", KeyCode::Delete),
    ("insert", KeyCode::Insert),
    ("home", KeyCode::Home),
    ("end", KeyCode::End),
    ("pgup", KeyCode::PageUp),
    ("pageup", KeyCode::PageUp),
    ("pgdn", KeyCode::PageDown),
    ("pagedown", KeyCode::PageDown),
    ("up", KeyCode::Up),
    ("down", KeyCode::Down),
    ("left", KeyCode::Left),
    ("right", KeyCode::Right),
    ("space", KeyCode::Char(' ')),
];

/// Keys that send the same byte as another one in most terminals.
const SAME_BYTE: &[(char, &str)] = &[
    ('i', "tab"),
    ('m', "enter"),
    ('[', "esc"),
    ('h', "backspace"),
];

/// A key that cannot be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum KeyError {
    /// Nothing was written.
    #[error("a key is missing: write for example \"x\", \"ctrl-z\" or \"g g\"")]
    Empty,
    /// The name of a key is not known.
    #[error(
        "\"{0}\" is not a key: write for example \"x\", \"G\", \"ctrl-z\", \"enter\", \"pgdn\" or \"f1\""
    )]
    Unknown(String),
    /// More keys after each other than are waited for.
    #[error("\"{0}\" has more than two keys after each other: write one or two")]
    TooLong(String),
    /// A terminal reports this key as another one.
    #[error("\"{0}\" arrives as {1} in most terminals: choose another key")]
    SameByte(String, &'static str),
}

impl Chord {
    /// The chord of a key event, whatever way the terminal reported it.
    pub fn of(event: &KeyEvent) -> Self {
        Self::new(event.code, event.modifiers)
    }

    /// A chord from its parts, brought into the one form.
    pub fn new(code: KeyCode, mods: KeyModifiers) -> Self {
        let held = mods & (KeyModifiers::CONTROL | KeyModifiers::ALT);
        let shift = mods & KeyModifiers::SHIFT;
        match code {
            KeyCode::Char(c) if held.contains(KeyModifiers::CONTROL) => Self {
                code: KeyCode::Char(c.to_ascii_lowercase()),
                mods: held,
            },
            KeyCode::Char(c) => {
                let mut upper = c.to_uppercase();
                let c = match (shift.is_empty(), upper.next(), upper.next()) {
                    (false, Some(upper), None) => upper,
                    _ => c,
                };
                Self {
                    code: KeyCode::Char(c),
                    mods: held,
                }
            }
            KeyCode::BackTab => Self { code, mods: held },
            KeyCode::Tab if !shift.is_empty() => Self {
                code: KeyCode::BackTab,
                mods: held,
            },
            _ => Self {
                code,
                mods: held | shift,
            },
        }
    }

    /// A character key without modifiers.
    pub const fn char(c: char) -> Self {
        Self {
            code: KeyCode::Char(c),
            mods: KeyModifiers::NONE,
        }
    }

    /// Which key.
    pub const fn code(self) -> KeyCode {
        self.code
    }

    /// What was held with it.
    pub const fn mods(self) -> KeyModifiers {
        self.mods
    }

    /// Whether the key writes a character into a text field.
    pub const fn is_printable(self) -> bool {
        matches!(self.code, KeyCode::Char(_)) && self.mods.is_empty()
    }

    /// The character that the key writes, if it writes one.
    pub const fn typed(self) -> Option<char> {
        match self.code {
            KeyCode::Char(c) if self.mods.is_empty() => Some(c),
            _ => None,
        }
    }

    /// Whether some terminals or keyboards cannot send this chord: Alt, or Ctrl with Shift.
    pub const fn is_unsure(self) -> bool {
        self.mods.contains(KeyModifiers::ALT)
            || self
                .mods
                .contains(KeyModifiers::CONTROL.union(KeyModifiers::SHIFT))
    }
}

impl FromStr for Chord {
    type Err = KeyError;

    fn from_str(text: &str) -> Result<Self, KeyError> {
        let unknown = || KeyError::Unknown(text.to_owned());
        let mut rest = text;
        let mut mods = KeyModifiers::NONE;
        while let Some((prefix, after)) = rest.split_once('-') {
            let modifier = match prefix.to_ascii_lowercase().as_str() {
                "ctrl" => KeyModifiers::CONTROL,
                "alt" => KeyModifiers::ALT,
                "shift" => KeyModifiers::SHIFT,
                _ => break,
            };
            mods |= modifier;
            rest = after;
        }
        let code = key_code(rest).ok_or_else(unknown)?;
        let chord = Self::new(code, mods);
        if let (KeyCode::Char(c), KeyModifiers::CONTROL) = (chord.code, chord.mods)
            && let Some((_, same)) = SAME_BYTE.iter().find(|(letter, _)| *letter == c)
        {
            return Err(KeyError::SameByte(text.to_owned(), same));
        }
        Ok(chord)
    }
}

fn key_code(name: &str) -> Option<KeyCode> {
    let mut chars = name.chars();
    match (chars.next(), chars.next()) {
        (Some(c), None) => return (!c.is_control()).then_some(KeyCode::Char(c)),
        (None, _) => return None,
        _ => {}
    }
    let name = name.to_ascii_lowercase();
    if let Some((_, code)) = NAMES.iter().find(|(known, _)| *known == name) {
        return Some(*code);
    }
    let number: u8 = name.strip_prefix('f')?.parse().ok()?;
    (1..=24).contains(&number).then_some(KeyCode::F(number))
}

impl fmt::Display for Chord {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (modifier, word) in [
            (KeyModifiers::CONTROL, "ctrl-"),
            (KeyModifiers::ALT, "alt-"),
            (KeyModifiers::SHIFT, "shift-"),
        ] {
            if self.mods.contains(modifier) {
                f.write_str(word)?;
            }
        }
        if self.code == KeyCode::BackTab {
            return f.write_str("shift-tab");
        }
        if let Some((name, _)) = NAMES.iter().find(|(_, code)| *code == self.code) {
            return f.write_str(name);
        }
        match self.code {
            KeyCode::Char(c) => write!(f, "{c}"),
            KeyCode::F(number) => write!(f, "f{number}"),
            other => write!(f, "{other}"),
        }
    }
}

/// One key, or two pressed after each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Keys {
    /// The key that is pressed first.
    pub first: Chord,
    /// The key that is pressed after it, if there are two.
    pub second: Option<Chord>,
}

impl Keys {
    /// Whether one of them begins like the other, so that both cannot work in one place.
    pub fn collide(self, other: Self) -> bool {
        self.first == other.first
            && (self.second.is_none() || other.second.is_none() || self.second == other.second)
    }
}

impl From<Chord> for Keys {
    fn from(first: Chord) -> Self {
        Self {
            first,
            second: None,
        }
    }
}

impl FromStr for Keys {
    type Err = KeyError;

    fn from_str(text: &str) -> Result<Self, KeyError> {
        let mut words = text.split_whitespace();
        let first = words.next().ok_or(KeyError::Empty)?.parse()?;
        let second = words.next().map(str::parse).transpose()?;
        match words.next() {
            Some(_) => Err(KeyError::TooLong(text.to_owned())),
            None => Ok(Self { first, second }),
        }
    }
}

impl fmt::Display for Keys {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.first)?;
        self.second.map_or(Ok(()), |second| write!(f, " {second}"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn keys(text: &str) -> Keys {
        text.parse().unwrap()
    }

    #[test]
    fn what_is_printed_can_be_read_again() {
        for text in [
            "x",
            "G",
            "g g",
            "ctrl-z",
            "enter",
            "esc",
            "f1",
            "f12",
            "space",
            "shift-tab",
            "pgdn",
            "ctrl-left",
            "shift-up",
            "alt-x",
            "-",
            "ctrl--",
            "?",
            "/",
            "é",
            "ctrl-alt-delete",
        ] {
            assert_eq!(keys(text).to_string(), text);
        }
    }

    #[test]
    fn other_spellings_mean_the_same_key() {
        for (written, printed) in [
            ("Ctrl-Z", "ctrl-z"),
            ("shift-g", "G"),
            ("PageDown", "pgdn"),
            ("Return", "enter"),
            ("backtab", "shift-tab"),
            ("shift-backtab", "shift-tab"),
            (" g  g ", "g g"),
        ] {
            assert_eq!(keys(written).to_string(), printed);
        }
    }

    #[test]
    fn the_same_key_is_the_same_chord_however_the_terminal_reports_it() {
        let event = |code, mods| Chord::of(&KeyEvent::new(code, mods));
        let shift = KeyModifiers::SHIFT;
        assert_eq!(event(KeyCode::Char('G'), shift), Chord::char('G'));
        assert_eq!(event(KeyCode::Char('g'), shift), Chord::char('G'));
        assert_eq!(event(KeyCode::Char('?'), shift), Chord::char('?'));
        assert_eq!(event(KeyCode::BackTab, shift), keys("shift-tab").first);
        assert_eq!(
            event(KeyCode::Char('Z'), KeyModifiers::CONTROL | shift),
            keys("ctrl-z").first
        );
    }

    #[test]
    fn what_cannot_be_read_says_what_can() {
        let error = |text: &str| text.parse::<Keys>().unwrap_err().to_string();
        assert!(error("").starts_with("a key is missing"));
        assert!(error("entr").starts_with("\"entr\" is not a key"));
        assert!(error("ctrl-").starts_with("\"ctrl-\" is not a key"));
        assert!(error("f0").contains("is not a key"));
        assert!(error("a b c").contains("more than two keys"));
        assert!(error("ctrl-m").contains("arrives as enter"));
    }

    #[test]
    fn a_key_collides_with_a_sequence_that_begins_with_it() {
        assert!(keys("g").collide(keys("g g")));
        assert!(keys("g g").collide(keys("g g")));
        assert!(!keys("g g").collide(keys("g e")));
        assert!(!keys("g").collide(keys("G")));
    }
}
