//! One line of typed text.
//!
//! For: every place where a person types. Editing keys are those of tui-input (arrows, Home, End,
//! Ctrl with arrows by word, Ctrl-U, Ctrl-K, Ctrl-W); Ctrl-Z takes back what was typed here.
//!
//! Promises: what is typed or pasted is kept as it is, except that line breaks and tabs become
//! spaces; no more than [`LIMIT`] bytes are taken; the cursor is always in view and never inside a
//! grapheme.

use crossterm::event::{Event as TerminalEvent, KeyCode, KeyEvent};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use tui_input::backend::crossterm::to_input_request;
use tui_input::{Input, InputRequest};

use crate::export::shown::{shown_line, take, width};
use crate::tui::ink::{cells, rest_of};
use crate::tui::keys::Chord;
use crate::tui::look::Look;
use crate::tui::theme::Role;

use super::Reaction;

/// Most bytes in one line.
pub const LIMIT: usize = 64 * 1024;

/// Steps that can be taken back.
const STEPS: usize = 100;

/// A line of text with a cursor and a memory of what was typed.
#[derive(Debug, Clone, Default)]
pub struct TextInput {
    input: Input,
    earlier: Vec<(String, usize)>,
    /// The last change added a letter, so the next letter belongs to the same step.
    in_word: bool,
    /// The text was put in by the program and not touched yet: the first letter takes its place.
    fresh: bool,
}

/// What became of a paste.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pasted {
    /// All of it is in the line.
    Whole,
    /// Only the beginning; so many bytes found no room.
    Cut(usize),
}

impl TextInput {
    /// An input with text in it, the cursor behind it.
    pub fn new(text: impl Into<String>) -> Self {
        Self {
            input: Input::new(text.into()),
            ..Self::default()
        }
    }

    /// The same input, whose text gives way to the first letter that is typed, as a selected text
    /// does. Moving the cursor keeps it.
    pub fn giving_way(mut self) -> Self {
        self.fresh = !self.is_empty();
        self
    }

    /// What was typed.
    pub fn text(&self) -> &str {
        self.input.value()
    }

    /// Whether nothing was typed.
    pub fn is_empty(&self) -> bool {
        self.text().is_empty()
    }

    /// Puts other text in; the old one can be taken back.
    pub fn set(&mut self, text: impl Into<String>) {
        self.remember();
        self.input = Input::new(text.into());
    }

    /// Takes a key.
    pub fn key(&mut self, key: &KeyEvent) -> Reaction {
        if Chord::of(key) == Chord::new(KeyCode::Char('z'), crossterm::event::KeyModifiers::CONTROL)
        {
            return self.take_back();
        }
        let Some(request) = to_input_request(&TerminalEvent::Key(*key)) else {
            return Reaction::Ignored;
        };
        let letter = match request {
            InputRequest::InsertChar(c) => Some(c),
            _ => None,
        };
        let fresh = std::mem::take(&mut self.fresh);
        if fresh && letter.is_some() {
            self.set("");
        } else if fresh && matches!(request, InputRequest::DeletePrevChar) {
            self.set("");
            return Reaction::Changed;
        }
        if letter.is_some_and(|c| self.text().len() + c.len_utf8() > LIMIT) {
            return Reaction::Moved;
        }
        let before = (self.text().to_owned(), self.input.cursor());
        let changed = self.input.handle(request).is_some_and(|state| state.value);
        if changed {
            let goes_on = self.in_word && letter.is_some_and(|c| !c.is_whitespace());
            if !goes_on {
                self.push(before);
            }
            self.in_word = letter.is_some();
            Reaction::Changed
        } else {
            self.in_word = false;
            Reaction::Moved
        }
    }

    /// Puts pasted text in at the cursor, as one step.
    pub fn paste(&mut self, pasted: &str) -> Pasted {
        let room = LIMIT.saturating_sub(self.text().len());
        let line: String = pasted
            .replace("\r\n", " ")
            .replace(['\n', '\r', '\t', '\u{2028}', '\u{2029}'], " ");
        let mut end = line.len().min(room);
        while !line.is_char_boundary(end) {
            end -= 1;
        }
        let (kept, lost) = line.split_at(end);
        if std::mem::take(&mut self.fresh) {
            self.set("");
        }
        self.remember();
        let cursor = self.input.cursor();
        let before: String = self.text().chars().take(cursor).collect();
        let after: String = self.text().chars().skip(cursor).collect();
        let cursor = cursor + kept.chars().count();
        self.input = Input::new(format!("{before}{kept}{after}")).with_cursor(cursor);
        match lost.len() {
            0 => Pasted::Whole,
            lost => Pasted::Cut(lost),
        }
    }

    fn take_back(&mut self) -> Reaction {
        self.in_word = false;
        match self.earlier.pop() {
            Some((text, cursor)) => {
                self.input = Input::new(text).with_cursor(cursor);
                Reaction::Changed
            }
            None => Reaction::Moved,
        }
    }

    fn remember(&mut self) {
        self.in_word = false;
        self.push((self.text().to_owned(), self.input.cursor()));
    }

    fn push(&mut self, state: (String, usize)) {
        if self.earlier.len() == STEPS {
            self.earlier.remove(0);
        }
        self.earlier.push(state);
    }

    /// Draws the text into one line and returns where the terminal's cursor belongs.
    ///
    /// `empty` is written in place of text while there is none. In a theme that does not show the
    /// terminal's cursor a caret is drawn instead and nothing is returned.
    pub fn render(
        &self,
        line: Rect,
        buf: &mut Buffer,
        look: &Look,
        focused: bool,
        empty: &str,
    ) -> Option<Position> {
        let line = line.intersection(buf.area);
        if line.is_empty() {
            return None;
        }
        if !focused {
            let (text, role) = if self.is_empty() {
                (empty, Role::Quiet)
            } else {
                (self.text(), Role::Text)
            };
            look.put(buf, line, text, role);
            return None;
        }
        look.tint(buf, line, Role::FieldFocus);
        let role = if self.fresh {
            Role::Selected
        } else {
            Role::FieldFocus
        };
        let (before, after) = self.around_cursor();
        let drawn_caret = !look.theme.shows_cursor();
        // The cursor takes a cell of its own at the end of the text.
        let room = usize::from(line.width).saturating_sub(1);
        let hidden = width(&before).saturating_sub(room);
        let before = without_start(&before, hidden);
        let mut rest = look.put(buf, line, before, role);
        let cursor = Position::new(line.x + cells(width(before)).min(line.width - 1), line.y);
        if drawn_caret {
            rest = look.put(buf, rest, look.symbols.caret, Role::FieldFocus);
        }
        if self.is_empty() {
            let gap = u16::from(!drawn_caret && !empty.is_empty());
            look.put(buf, rest_of(rest, gap), empty, Role::Quiet);
        } else {
            look.put(buf, rest, &after, role);
        }
        (!drawn_caret).then_some(cursor)
    }

    /// The text before and behind the cursor, as it is drawn.
    fn around_cursor(&self) -> (String, String) {
        let at = self
            .text()
            .char_indices()
            .nth(self.input.cursor())
            .map_or(self.text().len(), |(at, _)| at);
        let (before, after) = self.text().split_at(at);
        (
            shown_line(before).into_owned(),
            shown_line(after).into_owned(),
        )
    }
}

/// `text` without its first `cells` cells, at the next grapheme.
fn without_start(text: &str, cells: usize) -> &str {
    if cells == 0 {
        return text;
    }
    let mut head = take(text, cells);
    if width(head) < cells {
        head = take(text, cells + 1);
    }
    text.get(head.len()..).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn letter(input: &mut TextInput, code: KeyCode) {
        input.key(&KeyEvent::new(code, crossterm::event::KeyModifiers::NONE));
    }

    #[test]
    fn a_text_that_gives_way_is_replaced_by_the_first_letter_and_comes_back_with_undo() {
        let mut input = TextInput::new("1/4 s").giving_way();
        letter(&mut input, KeyCode::Char('2'));
        letter(&mut input, KeyCode::Char('s'));
        assert_eq!(input.text(), "2s");
        let undo = KeyEvent::new(KeyCode::Char('z'), crossterm::event::KeyModifiers::CONTROL);
        while input.key(&undo) == Reaction::Changed {
            if input.text() == "1/4 s" {
                return;
            }
        }
        panic!("what gave way did not come back: {}", input.text());
    }

    #[test]
    fn a_text_that_gives_way_is_kept_once_the_cursor_moves_in_it() {
        let mut input = TextInput::new("f/22").giving_way();
        letter(&mut input, KeyCode::End);
        letter(&mut input, KeyCode::Char('+'));
        assert_eq!(input.text(), "f/22+");
        let mut input = TextInput::new("f/22").giving_way();
        letter(&mut input, KeyCode::Backspace);
        assert_eq!(input.text(), "");
    }
    use crate::tui::theme::{Depth, Theme, ThemeName};
    use crossterm::event::KeyModifiers;

    fn press(input: &mut TextInput, keys: &str) {
        for key in keys.split(' ') {
            let chord: Chord = key.parse().unwrap();
            let mods = if key.starts_with("ctrl-") {
                KeyModifiers::CONTROL
            } else {
                KeyModifiers::NONE
            };
            input.key(&KeyEvent::new(chord.code(), mods));
        }
    }

    fn drawn(input: &TextInput, look: &Look, wide: u16, empty: &str) -> (String, Option<Position>) {
        let area = Rect::new(0, 0, wide, 1);
        let mut buf = Buffer::empty(area);
        let cursor = input.render(area, &mut buf, look, true, empty);
        let text = buf.content().iter().map(|cell| cell.symbol()).collect();
        (text, cursor)
    }

    #[test]
    fn typing_moves_on_and_can_be_taken_back_by_the_word() {
        let mut input = TextInput::new("");
        press(&mut input, "t h a w space n o");
        assert_eq!(input.text(), "thaw no");
        press(&mut input, "ctrl-z");
        assert_eq!(input.text(), "thaw");
        press(&mut input, "ctrl-z ctrl-z");
        assert_eq!(input.text(), "");
    }

    #[test]
    fn other_keys_are_left_to_others() {
        let mut input = TextInput::new("a");
        for code in [
            KeyCode::Enter,
            KeyCode::Tab,
            KeyCode::Up,
            KeyCode::Esc,
            KeyCode::F(1),
        ] {
            let key = KeyEvent::new(code, KeyModifiers::NONE);
            assert_eq!(input.key(&key), Reaction::Ignored, "{code:?}");
        }
    }

    #[test]
    fn a_paste_is_one_line_at_the_cursor_and_one_step() {
        let mut input = TextInput::new("ac");
        press(&mut input, "left");
        assert_eq!(input.paste("1\r\n2\n3\t4"), Pasted::Whole);
        assert_eq!(input.text(), "a1 2 3 4c");
        press(&mut input, "x ctrl-z ctrl-z");
        assert_eq!(input.text(), "ac");
    }

    #[test]
    fn a_paste_that_is_too_long_is_cut_at_a_character_and_told() {
        let mut input = TextInput::new("");
        let pasted = "é".repeat(600_000);
        assert_eq!(input.paste(&pasted), Pasted::Cut(pasted.len() - LIMIT));
        assert_eq!(input.text().len(), LIMIT);
        press(&mut input, "x");
        assert_eq!(input.text().len(), LIMIT);
    }

    #[test]
    fn the_cursor_stays_in_view() {
        let look = Look::plain();
        let mut input = TextInput::new("a long note");
        assert_eq!(drawn(&input, &look, 20, "").1, Some(Position::new(11, 0)));
        let (text, cursor) = drawn(&input, &look, 6, "");
        assert_eq!(
            (text.as_str(), cursor),
            (" note ", Some(Position::new(5, 0)))
        );
        press(&mut input, "home");
        let (text, cursor) = drawn(&input, &look, 6, "");
        assert_eq!(
            (text.as_str(), cursor),
            ("a lon…", Some(Position::new(0, 0)))
        );
        let wide = TextInput::new("漢字漢字");
        let (text, cursor) = drawn(&wide, &look, 6, "");
        assert_eq!(
            (text.as_str(), cursor),
            ("漢 字   ", Some(Position::new(4, 0)))
        );
    }

    #[test]
    fn the_safelight_shows_a_caret_and_no_white_cursor() {
        let look = Look::new(Theme::new(ThemeName::Safelight, Depth::Many));
        let mut input = TextInput::new("thaw");
        press(&mut input, "left");
        let (text, cursor) = drawn(&input, &look, 8, "");
        assert_eq!((text.as_str(), cursor), ("tha│w   ", None));
    }

    #[test]
    fn an_empty_input_tells_what_can_be_written() {
        let look = Look::plain();
        let (text, cursor) = drawn(&TextInput::new(""), &look, 12, "f/22+1/3");
        assert_eq!(
            (text.as_str(), cursor),
            (" f/22+1/3   ", Some(Position::new(0, 0)))
        );
    }

    #[test]
    fn hidden_characters_are_seen_while_they_are_edited() {
        let look = Look::plain();
        let (text, cursor) = drawn(&TextInput::new("a\u{202e}"), &look, 12, "");
        assert_eq!(
            (text.as_str(), cursor),
            ("a<U+202E>   ", Some(Position::new(9, 0)))
        );
    }
}
