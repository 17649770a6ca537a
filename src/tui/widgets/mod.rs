//! The pieces that screens are made of.
//!
//! Each is plain data with functions that change it and one that draws it. Drawing takes the data
//! by shared reference, an area and a [`Look`](super::look::Look), and works at any size, down to
//! nothing. What needs the text cursor returns where it belongs.
//!
//! - [`input`], [`choice`], [`field`], [`form`]: typing and choosing values.
//! - [`columns`], [`listing`]: windowed lists.
//! - [`strip`]: the life of one thing, line by line.
//! - [`grid`]: many small things on one page.
//! - [`ledger`]: a result with its working.
//! - [`bar`], [`hints`], [`message`]: the lines around a screen.
//! - [`overlay`], [`menu`], [`help`]: what opens over it.

pub mod bar;
pub mod choice;
pub mod columns;
pub mod field;
pub mod find;
pub mod form;
pub mod grid;
pub mod help;
pub mod hints;
pub mod input;
pub mod ledger;
pub mod listing;
pub mod menu;
pub mod message;
pub mod overlay;
pub mod strip;

/// What a piece did with a key.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reaction {
    /// Nothing; the key is for somebody else.
    Ignored,
    /// Took the key; at most the cursor moved.
    Moved,
    /// Took the key, and the value is another one now.
    Changed,
}

impl Reaction {
    /// Whether the key was taken.
    pub const fn is_taken(self) -> bool {
        !matches!(self, Reaction::Ignored)
    }
}

#[cfg(test)]
mod sizes;
