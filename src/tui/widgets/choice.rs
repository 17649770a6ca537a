//! A value chosen from a few, or from many by typing.
//!
//! For: fields whose values are known: a lens, a process, yes or no. Left and right step through
//! them, typed letters narrow them. An open choice also takes a text that is not among them; a choice
//! of things finds them by any of their words and takes another text only where none fits.
//!
//! Promises: what was typed is kept until something is chosen; with no options at all nothing can
//! be chosen and nothing breaks.

use crossterm::event::{KeyCode, KeyEvent};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use crate::export::shown::{shown_line, width};
use crate::tui::ink::{cells, rest_of};
use crate::tui::keys::Chord;
use crate::tui::look::Look;
use crate::tui::theme::Role;

use super::Reaction;
use super::find::find;
use super::input::{Pasted, TextInput};

/// One value that can be chosen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pick {
    /// What is stored.
    pub value: String,
    /// What is shown and searched.
    pub label: String,
}

impl Pick {
    /// A value shown by another text.
    pub fn new(value: impl Into<String>, label: impl Into<String>) -> Self {
        Self {
            value: value.into(),
            label: label.into(),
        }
    }

    /// A value that is shown as it is.
    pub fn word(value: &str) -> Self {
        Self::new(value, value)
    }
}

/// What a choice does with text that is not one of its options.
#[derive(Debug, Clone, Copy, Default)]
enum Other {
    /// It is no value.
    #[default]
    Refused,
    /// It is a new value, even where it resembles a known one.
    Taken,
    /// Letters find; what finds nothing is kept as it is. The function brings a text into the form
    /// in which values are written, so that one typed in full is found first.
    Kept(fn(&str) -> String),
}

/// A choice with its options and what was typed to find one.
#[derive(Debug, Clone, Default)]
pub struct Choice {
    picks: Vec<Pick>,
    chosen: Option<usize>,
    typed: TextInput,
    other: Other,
}

impl Choice {
    /// A choice among `picks`, nothing chosen yet.
    pub fn new(picks: Vec<Pick>) -> Self {
        Self {
            picks,
            ..Self::default()
        }
    }

    /// The same choice, which also takes text that is not among its options.
    pub fn open(mut self) -> Self {
        self.other = Other::Taken;
        self
    }

    /// The same choice, in which letters find by any word, a value that is typed as people write it
    /// (`f1`) is found first, and text that finds nothing is kept for the reader to judge.
    pub fn found_by(mut self, tidy: fn(&str) -> String) -> Self {
        self.other = Other::Kept(tidy);
        self
    }

    /// Whether one of the options is chosen.
    pub const fn is_chosen(&self) -> bool {
        self.chosen.is_some()
    }

    const fn takes_other(&self) -> bool {
        !matches!(self.other, Other::Refused)
    }

    /// What can be chosen.
    pub fn picks(&self) -> &[Pick] {
        &self.picks
    }

    /// Chooses by stored value; an open choice takes any text. Returns whether it was taken.
    pub fn choose(&mut self, value: &str) -> bool {
        self.chosen = self.picks.iter().position(|pick| pick.value == value);
        let free = self.takes_other() && self.chosen.is_none();
        // A text put in by the program gives way to the first letter, as an option does.
        self.typed = TextInput::new(if free { value } else { "" }).giving_way();
        free || self.chosen.is_some()
    }

    /// The stored value: of the option that is chosen, else the typed text if that is allowed,
    /// else nothing.
    pub fn value(&self) -> &str {
        match self.chosen.and_then(|at| self.picks.get(at)) {
            Some(pick) => &pick.value,
            None if self.takes_other() => self.typed.text(),
            None => "",
        }
    }

    /// Letters that were typed and chose nothing, so that a message can quote them.
    pub fn unmatched(&self) -> Option<&str> {
        (self.chosen.is_none() && !self.takes_other() && !self.typed.is_empty())
            .then(|| self.typed.text())
    }

    /// Takes a key.
    pub fn key(&mut self, key: &KeyEvent) -> Reaction {
        let chord = Chord::of(key);
        match chord.code() {
            KeyCode::Left => self.step(|at, len| (at + len - 1) % len, |len| len - 1),
            KeyCode::Right => self.step(|at, len| (at + 1) % len, |_| 0),
            KeyCode::Delete => self.clear(),
            KeyCode::Home | KeyCode::End => Reaction::Ignored,
            KeyCode::Backspace if self.typed.is_empty() => self.clear(),
            // A space steps on as long as nothing is being typed.
            KeyCode::Char(' ') if self.typed.is_empty() => {
                self.step(|at, len| (at + 1) % len, |_| 0)
            }
            _ => {
                let reaction = self.typed.key(key);
                if reaction == Reaction::Changed {
                    self.choose_by_letters();
                }
                reaction
            }
        }
    }

    /// Takes a paste as typed letters.
    pub fn paste(&mut self, text: &str) -> Pasted {
        let pasted = self.typed.paste(text);
        self.choose_by_letters();
        pasted
    }

    fn choose_by_letters(&mut self) {
        let typed = self.typed.text();
        self.chosen = match self.other {
            _ if typed.is_empty() => None,
            // A new name must be possible even where it resembles a known one.
            Other::Taken => self.picks.iter().position(|pick| pick.label == typed),
            Other::Kept(tidy) => {
                let tidied = tidy(typed);
                let exact = self.picks.iter().position(|pick| pick.value == tidied);
                exact.or_else(|| self.matching().first().copied())
            }
            Other::Refused => self.matching().first().copied(),
        };
    }

    /// Options that the typed letters allow.
    fn matching(&self) -> Vec<usize> {
        find(
            self.typed.text(),
            self.picks.iter().map(|pick| pick.label.as_str()),
        )
    }

    fn step(
        &mut self,
        next: impl Fn(usize, usize) -> usize,
        first: impl Fn(usize) -> usize,
    ) -> Reaction {
        let among = self.matching();
        if among.is_empty() {
            return Reaction::Moved;
        }
        let at = self
            .chosen
            .and_then(|chosen| among.iter().position(|at| *at == chosen))
            .map_or_else(|| first(among.len()), |at| next(at, among.len()));
        let chosen = among.get(at).copied();
        if chosen == self.chosen {
            return Reaction::Moved;
        }
        self.chosen = chosen;
        Reaction::Changed
    }

    fn clear(&mut self) -> Reaction {
        if self.chosen.is_none() && self.typed.is_empty() {
            return Reaction::Moved;
        }
        self.chosen = None;
        self.typed = TextInput::default();
        Reaction::Changed
    }

    /// Draws the choice into one line and returns where the cursor belongs.
    ///
    /// All options stand side by side where they fit; else the chosen one stands between arrows
    /// with its number. `empty` is written while nothing is chosen.
    pub fn render(
        &self,
        line: Rect,
        buf: &mut Buffer,
        look: &Look,
        focused: bool,
        empty: &str,
    ) -> Option<Position> {
        if line.is_empty() {
            return None;
        }
        let typing =
            focused && (!self.typed.is_empty() || (self.takes_other() && self.chosen.is_none()));
        if typing {
            return self.render_typing(line, buf, look, empty);
        }
        let side_by_side = self.picks.len() <= 6
            && self
                .picks
                .iter()
                .map(|pick| width(&shown_line(&pick.label)) + 4)
                .sum::<usize>()
                <= usize::from(line.width) + 3;
        match self.chosen.and_then(|at| Some((at, self.picks.get(at)?))) {
            _ if focused && side_by_side && !self.picks.is_empty() => {
                self.render_all(line, buf, look)
            }
            Some((at, pick)) if focused => {
                let [left, right] = look.symbols.arrows;
                let count = format!("  {} of {}", at + 1, self.picks.len());
                let room = rest_of(line, 0)
                    .width
                    .saturating_sub(4 + cells(width(&count)));
                let rest = look.put_all(buf, line, [(left, Role::Accent), (" ", Role::Text)]);
                let name = Rect {
                    width: room.min(rest.width),
                    ..rest
                };
                // Where next to nothing of the words would be seen, the value alone is shown.
                let short = usize::from(name.width) < width(&shown_line(&pick.value)) + 6;
                let short = short && width(&shown_line(&pick.label)) > usize::from(name.width);
                let text = if short { &pick.value } else { &pick.label };
                let used = name.width - look.put(buf, name, text, Role::FieldFocus).width;
                let rest = rest_of(rest, used);
                look.put_all(
                    buf,
                    rest,
                    [
                        (" ", Role::Text),
                        (right, Role::Accent),
                        (&count, Role::Quiet),
                    ],
                );
                Some(Position::new(name.x.min(line.right() - 1), line.y))
            }
            Some((_, pick)) => {
                look.put(buf, line, &pick.label, Role::Text);
                None
            }
            None if self.typed.is_empty() && focused && !self.picks.is_empty() => {
                let [left, right] = look.symbols.arrows;
                let count = format!("  {}", self.picks.len());
                let room = cells(width(&count) + 4);
                let rest = look.put_all(buf, line, [(left, Role::Accent), (" ", Role::Text)]);
                let name = Rect {
                    width: rest.width.saturating_sub(room),
                    ..rest
                };
                let used = name.width - look.put(buf, name, empty, Role::FieldFocus).width;
                let rest = rest_of(rest, used);
                look.put_all(
                    buf,
                    rest,
                    [
                        (" ", Role::Text),
                        (right, Role::Accent),
                        (&count, Role::Quiet),
                    ],
                );
                Some(Position::new(name.x.min(line.right() - 1), line.y))
            }
            None if self.typed.is_empty() => {
                let role = if focused {
                    Role::FieldFocus
                } else {
                    Role::Quiet
                };
                look.put(buf, line, empty, role);
                focused.then_some(line.as_position())
            }
            None => {
                look.put(buf, line, self.typed.text(), Role::Text);
                None
            }
        }
        .filter(|_| look.theme.shows_cursor())
    }

    fn render_typing(
        &self,
        line: Rect,
        buf: &mut Buffer,
        look: &Look,
        empty: &str,
    ) -> Option<Position> {
        let among = self.matching();
        let outcome = match self.chosen.and_then(|at| self.picks.get(at)) {
            // Typed in full, it need not be said twice.
            Some(pick) if pick.label == self.typed.text() => String::new(),
            Some(pick) => format!("{} {}", look.symbols.marker, pick.label),
            None if self.typed.is_empty() => String::new(),
            None => match self.other {
                Other::Taken => "new".to_owned(),
                Other::Kept(_) => String::new(),
                Other::Refused => "not among them".to_owned(),
            },
        };
        let count = match among.len() {
            0 | 1 => String::new(),
            more if self.typed.is_empty() => format!("{} {more}", look.symbols.arrows[1]),
            more => format!("  1 of {more}"),
        };
        let told = format!("{outcome}{count}");
        // Letters keep at least a third of the room.
        let share = line.width - line.width / 3;
        let room = cells(width(&shown_line(&told)) + 1).min(share);
        let letters = Rect {
            width: line.width - room,
            ..line
        };
        let cursor = self.typed.render(letters, buf, look, true, empty);
        look.put(buf, rest_of(line, letters.width + 1), &told, Role::Text);
        cursor
    }

    fn render_all(&self, line: Rect, buf: &mut Buffer, look: &Look) -> Option<Position> {
        let mut rest = line;
        let mut cursor = line.as_position();
        let between = format!(" {} ", look.symbols.dot);
        for (at, pick) in self.picks.iter().enumerate() {
            if at > 0 {
                rest = look.put(buf, rest, &between, Role::Quiet);
            }
            if self.chosen == Some(at) {
                rest = look.put(buf, rest, look.symbols.marker, Role::Accent);
                cursor = Position::new(rest.x.min(line.right() - 1), line.y);
                rest = look.put(buf, rest, &pick.label, Role::FieldFocus);
            } else {
                rest = look.put(buf, rest, &pick.label, Role::Quiet);
            }
        }
        Some(cursor)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crossterm::event::KeyModifiers;

    fn choice() -> Choice {
        Choice::new(vec![
            Pick::word("plain"),
            Pick::new("diffusion", "diffusion screen"),
            Pick::word("grid"),
        ])
    }

    fn press(choice: &mut Choice, code: KeyCode) -> Reaction {
        choice.key(&KeyEvent::new(code, KeyModifiers::NONE))
    }

    fn drawn(choice: &Choice, wide: u16, focused: bool) -> String {
        let area = Rect::new(0, 0, wide, 1);
        let mut buf = Buffer::empty(area);
        choice.render(area, &mut buf, &Look::plain(), focused, "choose");
        let text: String = buf.content().iter().map(|cell| cell.symbol()).collect();
        text.trim_end().to_owned()
    }

    #[test]
    fn arrows_step_around_the_options() {
        let mut choice = choice();
        assert_eq!(choice.value(), "");
        press(&mut choice, KeyCode::Right);
        assert_eq!(choice.value(), "plain");
        press(&mut choice, KeyCode::Left);
        assert_eq!(choice.value(), "grid");
        press(&mut choice, KeyCode::Char(' '));
        assert_eq!(choice.value(), "plain");
    }

    #[test]
    fn letters_choose_and_arrows_then_stay_among_the_matches() {
        let mut choice = choice();
        press(&mut choice, KeyCode::Char('d'));
        assert_eq!(choice.value(), "diffusion");
        press(&mut choice, KeyCode::Right);
        assert_eq!(choice.value(), "grid");
        press(&mut choice, KeyCode::Char('q'));
        assert_eq!((choice.value(), choice.unmatched()), ("", Some("dq")));
        press(&mut choice, KeyCode::Backspace);
        assert_eq!(choice.value(), "diffusion");
        press(&mut choice, KeyCode::Delete);
        assert_eq!((choice.value(), choice.unmatched()), ("", None));
    }

    #[test]
    fn an_open_choice_keeps_a_new_word_and_knows_an_old_one() {
        let mut choice = choice().open();
        for c in "gri".chars() {
            press(&mut choice, KeyCode::Char(c));
        }
        assert_eq!(choice.value(), "gri");
        press(&mut choice, KeyCode::Char('d'));
        assert_eq!(choice.value(), "grid");
        assert!(choice.choose("net curtain"));
        assert_eq!(choice.value(), "net curtain");
        assert!(!self::choice().choose("net curtain"));
    }

    #[test]
    fn a_thing_is_found_by_its_reference_first_and_else_by_any_word() {
        let tidy = |text: &str| text.to_uppercase().replace('F', "F-0");
        let mut choice = Choice::new(vec![
            Pick::new("F-01", "F-01  HP5 Plus"),
            Pick::new("F-02", "F-02  FP4 Plus"),
        ])
        .found_by(tidy);
        for c in "fp4".chars() {
            press(&mut choice, KeyCode::Char(c));
        }
        assert_eq!(choice.value(), "F-02");
        press(&mut choice, KeyCode::Delete);
        for c in "f1".chars() {
            press(&mut choice, KeyCode::Char(c));
        }
        assert_eq!(choice.value(), "F-01");
        for c in "xyz".chars() {
            press(&mut choice, KeyCode::Char(c));
        }
        assert_eq!(choice.value(), "f1xyz");
        assert!(choice.choose("F-01, F-02"));
        assert_eq!(choice.value(), "F-01, F-02");
    }

    #[test]
    fn options_stand_side_by_side_where_they_fit() {
        let mut choice = choice();
        choice.choose("diffusion");
        assert_eq!(drawn(&choice, 40, true), "plain · ▸diffusion screen · grid");
        assert_eq!(drawn(&choice, 30, true), "◂ diffusion screen ▸  2 of 3");
        assert_eq!(drawn(&choice, 22, true), "◂ diffusion ▸  2 of 3");
        assert_eq!(drawn(&choice, 40, false), "diffusion screen");
    }

    #[test]
    fn letters_are_shown_beside_what_they_choose() {
        let mut choice = choice();
        press(&mut choice, KeyCode::Char('d'));
        assert_eq!(
            drawn(&choice, 40, true),
            "d             ▸ diffusion screen  1 of 2"
        );
        press(&mut choice, KeyCode::Char('q'));
        assert!(drawn(&choice, 40, true).ends_with("not among them"));
    }

    #[test]
    fn without_options_nothing_happens() {
        let mut choice = Choice::new(Vec::new());
        assert_eq!(press(&mut choice, KeyCode::Right), Reaction::Moved);
        assert_eq!(choice.value(), "");
        assert_eq!(drawn(&choice, 20, true), "choose");
    }
}
