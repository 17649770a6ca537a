//! One of several, picked with a letter or by typing.
//!
//! For: "what can come next for this sheet" (a few items, each with its letter) and "which lens"
//! (many items, found by typing).
//!
//! Promises: an item that cannot be picked now is shown with the reason, and picking it tells the
//! reason; the cursor is always on an item in view.

use crossterm::event::{KeyCode, KeyEvent};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use crate::export::shown::{shown_line, width};
use crate::tui::ink::{below, cells, line_of, rest_of, wrap};
use crate::tui::keys::Chord;
use crate::tui::look::Look;
use crate::tui::theme::Role;

use super::find::find;
use super::input::TextInput;
use super::listing::{Listing, Step};
use super::overlay::Overlay;

/// One thing that can be picked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Item {
    /// What the application picks by.
    pub id: String,
    /// What is shown and searched.
    pub label: String,
    /// A few quiet words behind it, which are searched as well.
    pub note: String,
    /// The letter that picks it at once.
    pub letter: Option<char>,
    /// Why it cannot be picked now.
    pub closed: Option<String>,
}

impl Item {
    /// An item that is picked by this id.
    pub fn new(id: impl Into<String>, label: impl Into<String>) -> Self {
        Self {
            id: id.into(),
            label: label.into(),
            note: String::new(),
            letter: None,
            closed: None,
        }
    }

    /// The same item with a letter.
    pub fn with_letter(mut self, letter: char) -> Self {
        self.letter = Some(letter);
        self
    }

    /// The same item with a note.
    pub fn with_note(mut self, note: impl Into<String>) -> Self {
        self.note = note.into();
        self
    }
}

/// How letters are meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Letters {
    /// They pick; `/` begins to find.
    Pick,
    /// They find.
    Find,
}

/// What a key did.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Picked {
    /// Nothing; the key is for somebody else. Esc comes back this way.
    Ignored,
    /// The menu looks different now.
    Moved,
    /// This item was picked.
    Item(String),
    /// An item was meant that cannot be picked, for this reason.
    Closed(String),
}

/// Items, what was typed to find one, and the cursor.
#[derive(Debug, Clone)]
pub struct Menu {
    title: String,
    /// What is asked, over the items.
    lead: String,
    items: Vec<Item>,
    letters: Letters,
    typed: TextInput,
    found: Vec<usize>,
    listing: Listing,
}

impl Menu {
    /// A menu, the cursor on its first item.
    pub fn new(title: impl Into<String>, items: Vec<Item>, letters: Letters) -> Self {
        let mut menu = Self {
            title: title.into(),
            lead: String::new(),
            found: Vec::new(),
            listing: Listing::default(),
            items,
            letters,
            typed: TextInput::default(),
        };
        menu.search();
        menu
    }

    /// The same menu with a question over its items.
    pub fn asking(mut self, question: impl Into<String>) -> Self {
        self.lead = question.into();
        self
    }

    /// Whether letters find now instead of picking.
    pub fn finds(&self) -> bool {
        self.letters == Letters::Find
    }

    /// Takes the letters away that find; returns whether there were any.
    pub fn clear(&mut self) -> bool {
        if self.typed.is_empty() {
            return false;
        }
        self.typed = TextInput::default();
        self.search();
        true
    }

    /// From now on letters find.
    pub const fn find_by_letters(&mut self) {
        self.letters = Letters::Find;
    }

    /// Moves the cursor.
    pub fn step(&mut self, step: Step) {
        self.listing.step(step);
    }

    /// The item under the cursor.
    pub fn current(&self) -> Option<&Item> {
        let at = self.listing.cursor()?;
        self.items.get(*self.found.get(at)?)
    }

    /// Puts the cursor on the item with this id, if it is shown.
    pub fn select(&mut self, id: &str) {
        let at = self
            .found
            .iter()
            .position(|at| self.items.get(*at).is_some_and(|item| item.id == id));
        if let Some(at) = at {
            self.listing.step(Step::To(at));
        }
    }

    /// Takes a key.
    pub fn key(&mut self, key: &KeyEvent) -> Picked {
        let chord = Chord::of(key);
        if chord.code() == KeyCode::Esc && self.clear() {
            return Picked::Moved;
        }
        self.letter(key, chord)
    }

    fn letter(&mut self, key: &KeyEvent, chord: Chord) -> Picked {
        if self.letters == Letters::Pick {
            let Some(typed) = chord.typed() else {
                return Picked::Ignored;
            };
            let meant = self.items.iter().find(|item| item.letter == Some(typed));
            return match (meant, typed) {
                (Some(item), _) => outcome(item),
                (None, '/') => {
                    self.letters = Letters::Find;
                    Picked::Moved
                }
                (None, _) => Picked::Ignored,
            };
        }
        if !self.typed.key(key).is_taken() {
            return Picked::Ignored;
        }
        self.search();
        Picked::Moved
    }

    /// Takes a paste as letters to find.
    pub fn paste(&mut self, text: &str) {
        if self.letters == Letters::Find {
            self.typed.paste(text);
            self.search();
        }
    }

    /// Picks the item drawn at `at` in `area`.
    pub fn click(&mut self, area: Rect, at: Position) -> Picked {
        let list = self.list_area(self.overlay(area).inner(area));
        match self.listing.click(list, &[], at) {
            Some(_) => self.pick(),
            None => Picked::Ignored,
        }
    }

    /// Picks the item under the cursor.
    pub fn pick(&self) -> Picked {
        self.current().map_or(Picked::Moved, outcome)
    }

    fn search(&mut self) {
        let texts = self.items.iter();
        let texts: Vec<String> = texts
            .map(|item| format!("{} {}", item.label, item.note))
            .collect();
        self.found = find(self.typed.text(), texts.iter().map(String::as_str));
        // Whoever types the word an item is picked by means that item.
        let letters = self.typed.text().trim().to_lowercase();
        if !letters.is_empty() {
            let nearness = |at: &usize| match self.items.get(*at).map(|item| item.id.as_str()) {
                Some(id) if id == letters => 0,
                Some(id) if id.starts_with(&letters) => 1,
                _ => 2,
            };
            self.found.sort_by_key(nearness);
        }
        self.listing = Listing::new(self.found.len());
    }

    /// Draws the menu in the middle of `area` and returns where the cursor belongs.
    pub fn render(&self, area: Rect, buf: &mut Buffer, look: &Look) -> Option<Position> {
        let inner = self.overlay(area).render(area, buf, look);
        let mut cursor = None;
        let lead = self.lead_lines(inner.width);
        for (line, text) in inner.rows().zip(&lead) {
            look.put(buf, line, text, Role::Text);
        }
        if self.finds() {
            let line = line_of(inner, self.lead_height(inner.width));
            cursor = self.typed.render(line, buf, look, true, "type to find");
        }
        let list = self.list_area(inner);
        let letters = self.items.iter().any(|item| item.letter.is_some());
        let window = self.listing.window(list.height);
        for (line, number) in list.rows().zip(window) {
            let item = self.found.get(number).and_then(|at| self.items.get(*at));
            let Some(item) = item else { continue };
            self.draw_item(item, line, buf, look, letters);
            if self.listing.cursor() == Some(number) {
                look.put(buf, line, look.symbols.marker, Role::Accent);
                look.tint(buf, line, Role::Selected);
                cursor = cursor.or(Some(line.as_position()));
            }
        }
        if self.found.is_empty() {
            look.put(
                buf,
                line_of(list, 0),
                "nothing is called like that",
                Role::Quiet,
            );
        }
        cursor
    }

    fn draw_item(&self, item: &Item, line: Rect, buf: &mut Buffer, look: &Look, letters: bool) {
        let mut rest = rest_of(line, 2);
        if letters && self.letters == Letters::Pick {
            let letter = item.letter.map_or_else(String::new, String::from);
            look.put(buf, rest, &letter, Role::Key);
            rest = rest_of(rest, 3);
        }
        let (role, note) = match &item.closed {
            None => (Role::Text, item.note.as_str()),
            Some(reason) => (Role::Quiet, reason.as_str()),
        };
        let rest = look.put(buf, rest, &item.label, role);
        let rest = look.put(buf, rest, "   ", Role::Quiet);
        // A reason is told as far as it goes, a mere note only in full.
        if item.closed.is_some() || width(&shown_line(note)) <= usize::from(rest.width) {
            look.put_end(buf, rest, note, Role::Quiet);
        }
    }

    fn lead_lines(&self, wide: u16) -> Vec<String> {
        if self.lead.is_empty() {
            return Vec::new();
        }
        wrap(&self.lead, usize::from(wide))
    }

    /// Lines of the question, with the empty one under it.
    fn lead_height(&self, wide: u16) -> u16 {
        match self.lead_lines(wide).len() {
            0 => 0,
            lines => cells(lines) + 1,
        }
    }

    fn list_area(&self, inner: Rect) -> Rect {
        let find = if self.finds() { 2 } else { 0 };
        below(inner, self.lead_height(inner.width) + find)
    }

    fn overlay(&self, area: Rect) -> Overlay<'_> {
        let widest = self.items.iter().map(|item| {
            let note = item.closed.as_ref().unwrap_or(&item.note);
            width(&shown_line(&item.label)) + width(&shown_line(note)) + 10
        });
        let wide = widest
            .max()
            .unwrap_or(0)
            .max(width(&shown_line(&self.title)) + 6)
            .max(if self.lead.is_empty() { 30 } else { 50 });
        let wide = cells(wide).min(100).min(area.width.saturating_sub(4));
        let head = if self.finds() { 2 } else { 0 };
        let lead = self.lead_height(wide);
        Overlay {
            title: &self.title,
            foot: "",
            inner: (wide, cells(self.items.len().max(1)) + head + lead),
        }
    }
}

fn outcome(item: &Item) -> Picked {
    match &item.closed {
        None => Picked::Item(item.id.clone()),
        Some(reason) => Picked::Closed(reason.clone()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crossterm::event::KeyModifiers;

    fn menu(letters: Letters) -> Menu {
        let mut develop = Item::new("develop", "develop").with_letter('d');
        develop.closed = Some("it is not exposed yet".into());
        let items = vec![
            Item::new("expose", "expose")
                .with_letter('e')
                .with_note("H-07 A"),
            develop,
            Item::new("note", "write a note").with_letter('n'),
        ];
        Menu::new("S-0042", items, letters)
    }

    fn press(menu: &mut Menu, code: KeyCode) -> Picked {
        menu.key(&KeyEvent::new(code, KeyModifiers::NONE))
    }

    fn rows(menu: &Menu) -> Vec<String> {
        let area = Rect::new(0, 0, 42, 7);
        let mut buf = Buffer::empty(area);
        menu.render(area, &mut buf, &Look::plain());
        area.rows()
            .map(|row| {
                row.columns()
                    .map(|at| buf[at.as_position()].symbol())
                    .collect()
            })
            .collect()
    }

    #[test]
    fn a_letter_picks_at_once_and_a_closed_item_says_why() {
        let mut menu = menu(Letters::Pick);
        assert_eq!(
            press(&mut menu, KeyCode::Char('n')),
            Picked::Item("note".into())
        );
        assert_eq!(
            press(&mut menu, KeyCode::Char('d')),
            Picked::Closed("it is not exposed yet".into())
        );
        assert_eq!(press(&mut menu, KeyCode::Char('q')), Picked::Ignored);
        assert_eq!(press(&mut menu, KeyCode::Esc), Picked::Ignored);
        menu.step(Step::Down(2));
        assert_eq!(menu.pick(), Picked::Item("note".into()));
    }

    #[test]
    fn typing_finds_and_esc_first_clears_what_was_typed() {
        let mut menu = menu(Letters::Find);
        for c in "not".chars() {
            press(&mut menu, KeyCode::Char(c));
        }
        assert_eq!(menu.current().unwrap().id, "note");
        assert_eq!(press(&mut menu, KeyCode::Esc), Picked::Moved);
        assert_eq!(menu.current().unwrap().id, "expose");
        assert_eq!(press(&mut menu, KeyCode::Esc), Picked::Ignored);
        press(&mut menu, KeyCode::Char('q'));
        assert_eq!(menu.pick(), Picked::Moved);
    }

    #[test]
    fn the_word_of_an_item_finds_it_before_others_that_hold_the_letters() {
        let items = vec![
            Item::new("sunny", "sunny  daylight without a meter"),
            Item::new("day", "day    the sun over a day").with_note("sun"),
        ];
        let mut menu = Menu::new("figures", items, Letters::Find);
        for (letters, found) in [("day", "day"), ("daylight", "sunny"), ("sun day", "sunny")] {
            menu.clear();
            for c in letters.chars() {
                press(&mut menu, KeyCode::Char(c));
            }
            assert_eq!(menu.current().unwrap().id, found, "{letters}");
        }
    }

    #[test]
    fn items_are_drawn_with_letters_notes_and_reasons() {
        let rows = rows(&menu(Letters::Pick));
        assert!(rows[1].contains("┌─ S-0042 ─"), "{rows:?}");
        assert!(rows[2].contains("▸ e  expose") && rows[2].contains("H-07 A"));
        assert!(rows[3].contains("d  develop") && rows[3].contains("it is not exposed yet"));
    }

    #[test]
    fn a_click_picks_the_item_under_it() {
        let mut menu = menu(Letters::Pick);
        let area = Rect::new(0, 0, 42, 7);
        assert_eq!(
            menu.click(area, Position::new(10, 4)),
            Picked::Item("note".into())
        );
        assert_eq!(menu.click(area, Position::new(10, 6)), Picked::Ignored);
    }
}
