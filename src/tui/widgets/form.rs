//! Fields under each other, one of which has the focus.
//!
//! For: the left half of an entry pane.
//!
//! Promises: the focused field is in view with what is wrong with it; up, down and tab move
//! between fields and everything else goes to the field. Enter and Esc are left to the pane.

use crossterm::event::{KeyCode, KeyEvent};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use crate::export::shown::{shown_line, width};
use crate::tui::ink::{below, cells, line_of};
use crate::tui::keys::Chord;
use crate::tui::look::Look;
use crate::tui::theme::Role;

use super::Reaction;
use super::field::Field;
use super::input::Pasted;

/// Fields and which of them has the focus.
#[derive(Debug, Clone, Default)]
pub struct Form {
    fields: Vec<Field>,
    focus: usize,
}

impl Form {
    /// A form, its first field focused.
    pub fn new(fields: Vec<Field>) -> Self {
        Self { fields, focus: 0 }
    }

    /// The fields.
    pub fn fields(&self) -> &[Field] {
        &self.fields
    }

    /// The fields, to fill them or to tell what is wrong with them.
    pub fn fields_mut(&mut self) -> &mut [Field] {
        &mut self.fields
    }

    /// The field with this key.
    pub fn field(&self, key: &str) -> Option<&Field> {
        self.fields.iter().find(|field| field.key == key)
    }

    /// The field with this key, to change it.
    pub fn field_mut(&mut self, key: &str) -> Option<&mut Field> {
        self.fields.iter_mut().find(|field| field.key == key)
    }

    /// The focused field.
    pub fn focused(&self) -> Option<&Field> {
        self.fields.get(self.focus)
    }

    /// Moves the focus to the field with this key; returns whether there is one.
    pub fn focus(&mut self, key: &str) -> bool {
        match self.fields.iter().position(|field| field.key == key) {
            Some(at) => {
                self.focus = at;
                true
            }
            None => false,
        }
    }

    /// Moves the focus to the next field, behind the last one to the first.
    pub fn next(&mut self) {
        self.focus = match self.fields.len() {
            0 => 0,
            len => (self.focus + 1) % len,
        };
    }

    /// Moves the focus to the field before.
    pub fn previous(&mut self) {
        self.focus = match self.fields.len() {
            0 => 0,
            len => (self.focus + len - 1) % len,
        };
    }

    /// Moves the focus to the first field with a problem; returns whether there is one.
    pub fn focus_problem(&mut self) -> bool {
        match self.fields.iter().position(|field| field.problem.is_some()) {
            Some(at) => {
                self.focus = at;
                true
            }
            None => false,
        }
    }

    /// Takes a key.
    pub fn key(&mut self, key: &KeyEvent) -> Reaction {
        if self.fields.is_empty() {
            return Reaction::Ignored;
        }
        let chord = Chord::of(key);
        match chord.code() {
            KeyCode::Tab | KeyCode::Down => self.next(),
            KeyCode::BackTab | KeyCode::Up => self.previous(),
            KeyCode::Enter | KeyCode::Esc => return Reaction::Ignored,
            _ => {
                return match self.fields.get_mut(self.focus) {
                    Some(field) => field.key(key),
                    None => Reaction::Ignored,
                };
            }
        }
        Reaction::Moved
    }

    /// Takes a paste into the focused field.
    pub fn paste(&mut self, text: &str) -> Option<Pasted> {
        self.fields
            .get_mut(self.focus)
            .map(|field| field.paste(text))
    }

    /// Focuses the field drawn at `at` in `area`; returns whether there is one.
    pub fn click(&mut self, area: Rect, at: Position) -> bool {
        let hit = self
            .layout(area)
            .into_iter()
            .find(|(_, place)| place.contains(at));
        match hit {
            Some((index, _)) => {
                self.focus = index;
                true
            }
            None => false,
        }
    }

    /// Cells that the labels take, with a space behind them: at most half of the width.
    pub fn label_cells(&self, wide: u16) -> u16 {
        let longest = self
            .fields
            .iter()
            .map(|field| width(&shown_line(&field.label)))
            .max();
        cells(longest.unwrap_or(0) + 2).min((wide / 2).max(12))
    }

    /// Draws the form and returns where the cursor belongs.
    pub fn render(
        &self,
        area: Rect,
        buf: &mut Buffer,
        look: &Look,
        focused: bool,
    ) -> Option<Position> {
        let labels = self.label_cells(area.width);
        let mut cursor = None;
        let places = self.layout(area);
        for (at, place) in &places {
            if let Some(field) = self.fields.get(*at) {
                let has_focus = focused && *at == self.focus;
                cursor = cursor.or(field.render(*place, buf, look, labels, has_focus));
            }
        }
        // Fields out of view are told by a sign at the edge.
        let first = places.first().map_or(0, |(at, _)| *at);
        let last = places.last().map_or(0, |(at, _)| *at);
        for (more, line) in [
            (first > 0 && first != self.focus, 0),
            (
                last + 1 < self.fields.len() && last != self.focus,
                area.height.saturating_sub(1),
            ),
        ] {
            if more {
                look.put(buf, line_of(area, line), look.symbols.cut, Role::Accent);
            }
        }
        cursor
    }

    /// Which fields are in view, and where: the first ones, unless the focused one would then be
    /// out of view.
    fn layout(&self, area: Rect) -> Vec<(usize, Rect)> {
        let labels = self.label_cells(area.width);
        let heights: Vec<u16> = self
            .fields
            .iter()
            .map(|field| field.height(area.width, labels))
            .collect();
        let mut first = 0;
        let taken = |first: usize, last: usize| -> u16 {
            heights.get(first..=last).map_or(0, |heights| {
                heights.iter().fold(0, |sum, h| sum.saturating_add(*h))
            })
        };
        while first < self.focus && taken(first, self.focus) > area.height {
            first += 1;
        }
        // The field after the focused one is in view as well, if that is possible.
        let next = (self.focus + 1).min(heights.len().saturating_sub(1));
        let mut roomy = first;
        while roomy < self.focus && taken(roomy, next) > area.height {
            roomy += 1;
        }
        if taken(roomy, next) <= area.height {
            first = roomy;
        }
        let mut rest = area;
        let mut places = Vec::new();
        for (at, height) in heights.iter().enumerate().skip(first) {
            if rest.is_empty() {
                break;
            }
            let place = Rect {
                height: (*height).min(rest.height),
                ..rest
            };
            places.push((at, place));
            rest = below(rest, *height);
        }
        places
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crossterm::event::KeyModifiers;

    fn form() -> Form {
        Form::new(
            ["lens", "aperture", "time", "note"]
                .map(|key| Field::text(key, key))
                .to_vec(),
        )
    }

    fn press(form: &mut Form, code: KeyCode) -> Reaction {
        form.key(&KeyEvent::new(code, KeyModifiers::NONE))
    }

    #[test]
    fn keys_move_between_fields_or_go_into_the_focused_one() {
        let mut form = form();
        press(&mut form, KeyCode::Down);
        assert_eq!(press(&mut form, KeyCode::Char('8')), Reaction::Changed);
        assert_eq!(form.field("aperture").unwrap().filled(), "8");
        press(&mut form, KeyCode::Up);
        press(&mut form, KeyCode::BackTab);
        assert_eq!(form.focused().unwrap().key, "note");
        press(&mut form, KeyCode::Tab);
        assert_eq!(form.focused().unwrap().key, "lens");
        assert_eq!(press(&mut form, KeyCode::Enter), Reaction::Ignored);
    }

    #[test]
    fn a_paste_fills_only_the_focused_field() {
        let mut form = form();
        form.focus("note");
        form.paste("q\ny\n");
        let values: Vec<_> = form.fields().iter().map(Field::filled).collect();
        assert_eq!(values, ["", "", "", "q y "]);
    }

    #[test]
    fn the_focused_field_is_in_view_with_its_problem() {
        let mut form = form();
        form.focus("note");
        form.field_mut("note").unwrap().problem = Some("too long".into());
        let area = Rect::new(0, 0, 30, 3);
        let places: Vec<_> = form
            .layout(area)
            .into_iter()
            .map(|(at, p)| (at, p.height))
            .collect();
        assert_eq!(places, [(2, 1), (3, 2)]);
        assert!(form.click(area, Position::new(3, 0)));
        assert_eq!(form.focused().unwrap().key, "time");
        assert!(form.focus_problem());
    }
}
