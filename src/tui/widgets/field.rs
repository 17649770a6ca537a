//! A named value that a person fills in.
//!
//! For: one line of a form: the label, the value being typed or chosen, a word about its unit, and
//! under it what is wrong with it, if something is.
//!
//! Promises: a problem never takes the typed text away; it is told with a sign as well as by
//! colour.
//!
//! Leaves to others: reading the text as a quantity.

use crossterm::event::KeyEvent;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use crate::export::shown::width;
use crate::tui::ink::{below, cells, line_of, rest_of, wrap};
use crate::tui::look::Look;
use crate::tui::theme::Role;

use super::Reaction;
use super::choice::Choice;
use super::input::{Pasted, TextInput};

/// How the value is given.
#[derive(Debug, Clone)]
pub enum Value {
    /// Typed.
    Text(TextInput),
    /// Chosen.
    Choice(Choice),
}

/// A label with a value.
#[derive(Debug, Clone)]
pub struct Field {
    /// Name under which the value is used.
    pub key: String,
    /// Name shown.
    pub label: String,
    /// The value.
    pub value: Value,
    /// What is written in its place while there is none: an example, or "needed".
    pub empty: String,
    /// A word behind the value: its unit, or where it was taken from.
    pub unit: String,
    /// Whether it has to be filled.
    pub needed: bool,
    /// What is wrong with the value.
    pub problem: Option<String>,
}

/// What stands behind an empty field that has to be filled.
const NEEDED: &str = "needed";

/// Room at the left for the mark of the focused field.
const MARGIN: u16 = 2;

impl Field {
    /// A field for typed text.
    pub fn text(key: impl Into<String>, label: impl Into<String>) -> Self {
        Self::new(key, label, Value::Text(TextInput::default()))
    }

    /// A field for a choice.
    pub fn choice(key: impl Into<String>, label: impl Into<String>, choice: Choice) -> Self {
        Self::new(key, label, Value::Choice(choice))
    }

    fn new(key: impl Into<String>, label: impl Into<String>, value: Value) -> Self {
        Self {
            key: key.into(),
            label: label.into(),
            value,
            empty: String::new(),
            unit: String::new(),
            needed: false,
            problem: None,
        }
    }

    /// The same field with an example shown while it is empty.
    pub fn with_empty(mut self, empty: impl Into<String>) -> Self {
        self.empty = empty.into();
        self
    }

    /// The same field with a word behind its value.
    pub fn with_unit(mut self, unit: impl Into<String>) -> Self {
        self.unit = unit.into();
        self
    }

    /// The same field, which has to be filled or not.
    pub fn needed(mut self, needed: bool) -> Self {
        self.needed = needed;
        self
    }

    /// The same field, filled.
    pub fn with(mut self, value: &str) -> Self {
        self.fill(value);
        self
    }

    /// The same field, whose text gives way to the first letter typed into it.
    pub fn giving_way(mut self) -> Self {
        if let Value::Text(input) = self.value {
            self.value = Value::Text(input.giving_way());
        }
        self
    }

    /// Puts a value in; what a choice does not know stays out of it.
    pub fn fill(&mut self, value: &str) {
        match &mut self.value {
            Value::Text(input) => input.set(value),
            Value::Choice(choice) => {
                choice.choose(value);
            }
        }
    }

    /// The value as text, empty if there is none.
    pub fn filled(&self) -> &str {
        match &self.value {
            Value::Text(input) => input.text(),
            Value::Choice(choice) => choice.value(),
        }
    }

    /// Takes a key.
    pub fn key(&mut self, key: &KeyEvent) -> Reaction {
        match &mut self.value {
            Value::Text(input) => input.key(key),
            Value::Choice(choice) => choice.key(key),
        }
    }

    /// Takes a paste.
    pub fn paste(&mut self, text: &str) -> Pasted {
        match &mut self.value {
            Value::Text(input) => input.paste(text),
            Value::Choice(choice) => choice.paste(text),
        }
    }

    /// Lines the field takes in an area of this width.
    pub fn height(&self, wide: u16, label_cells: u16) -> u16 {
        cells(1 + self.problem_lines(wide, label_cells).len())
    }

    fn problem_lines(&self, wide: u16, label_cells: u16) -> Vec<String> {
        let Some(problem) = &self.problem else {
            return Vec::new();
        };
        let room = usize::from(rest_of(Rect::new(0, 0, wide, 1), MARGIN + label_cells).width);
        let mut lines = wrap(&format!("! {problem}"), room);
        lines.truncate(3);
        lines
    }

    /// Draws the field from the top of `area` and returns where the cursor belongs. Labels of
    /// fields that stand under each other share `label_cells`.
    pub fn render(
        &self,
        area: Rect,
        buf: &mut Buffer,
        look: &Look,
        label_cells: u16,
        focused: bool,
    ) -> Option<Position> {
        let line = line_of(area, 0);
        if focused {
            look.put(buf, line, look.symbols.marker, Role::Accent);
        }
        let rest = rest_of(line, MARGIN);
        let role = if focused { Role::Heading } else { Role::Quiet };
        let label = Rect {
            width: label_cells.saturating_sub(1).min(rest.width),
            ..rest
        };
        look.put(buf, label, &self.label, role);
        let rest = rest_of(rest, label_cells);
        let missing = self.needed && self.filled().trim().is_empty();
        let (unit, unit_role) = if missing && !focused {
            (NEEDED, Role::Accent)
        } else {
            (self.unit.as_str(), Role::Quiet)
        };
        let unit_cells = cells(width(unit));
        let value = if unit.is_empty() || rest.width < unit_cells + 8 {
            rest
        } else {
            let line = look.put_end(buf, rest, unit, unit_role);
            Rect {
                width: line.width.saturating_sub(1),
                ..line
            }
        };
        // The example is shown where it is needed, and so that it does not look like a value.
        let example = match missing {
            true => format!("({NEEDED}: {})", self.empty),
            false => format!("({})", self.empty),
        };
        let empty = match (focused, self.empty.is_empty()) {
            (true, false) => example.as_str(),
            (true, true) => "",
            (false, _) => look.symbols.dot,
        };
        let cursor = match &self.value {
            Value::Text(input) => input.render(value, buf, look, focused, empty),
            Value::Choice(choice) => choice.render(value, buf, look, focused, empty),
        };
        let under = below(area, 1);
        let problem = self.problem_lines(area.width, label_cells);
        for (line, text) in under.rows().zip(problem) {
            look.put(buf, rest_of(line, MARGIN + label_cells), &text, Role::Error);
        }
        cursor
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_field_shows_label_value_unit_and_what_is_wrong() {
        let mut field = Field::text("aperture", "aperture")
            .with("f/abc")
            .with_unit("stop");
        field.problem = Some("\"f/abc\" is not an aperture: write f/22 or 5.6".into());
        let area = Rect::new(0, 0, 40, 3);
        let mut buf = Buffer::empty(area);
        let cursor = field.render(area, &mut buf, &Look::plain(), 12, true);
        let rows: Vec<String> = area
            .rows()
            .map(|row| {
                row.columns()
                    .map(|at| buf[at.as_position()].symbol())
                    .collect()
            })
            .collect();
        assert_eq!(rows[0], "▸ aperture    f/abc                 stop");
        assert_eq!(rows[1].trim_end(), "              ! \"f/abc\" is not an");
        assert_eq!(rows[2].trim_end(), "              aperture: write f/22 or");
        assert_eq!(cursor, Some(Position::new(19, 0)));
        assert_eq!(field.height(40, 12), 4);
        assert_eq!(field.filled(), "f/abc");
    }
}
