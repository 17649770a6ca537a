//! Everything that decides how a picture looks and is not the picture's own data.
//!
//! A [`Look`] is handed to every function that draws. It is plain data and copies freely, so the
//! same screen can be drawn in each theme by a test.

use ratatui::style::Style;

use super::theme::{Depth, Role, Theme, ThemeName};

/// The signs used for lines and marks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Symbols {
    /// Horizontal line.
    pub rule: &'static str,
    /// Vertical line.
    pub upright: &'static str,
    /// Corners: top left, top right, bottom left, bottom right.
    pub corners: [&'static str; 4],
    /// Before the selected item.
    pub marker: &'static str,
    /// Around a choice that can be changed with the arrow keys.
    pub arrows: [&'static str; 2],
    /// Between items on one line.
    pub dot: &'static str,
    /// Stands for what was cut off.
    pub cut: &'static str,
    /// The part of a scroll line that is in view.
    pub thumb: &'static str,
    /// The caret, where the terminal's cursor is not used.
    pub caret: &'static str,
    /// A running clock.
    pub clock: &'static str,
    /// What large digits are made of.
    pub block: &'static str,
}

/// Which set of signs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum SymbolSet {
    /// Line-drawing signs, all of them one cell wide everywhere.
    #[default]
    Box,
    /// Only ASCII, for screen readers and poor fonts.
    Ascii,
}

impl SymbolSet {
    /// The word used in the settings.
    pub const fn word(self) -> &'static str {
        match self {
            SymbolSet::Box => "box",
            SymbolSet::Ascii => "ascii",
        }
    }

    /// The set with this word.
    pub fn from_word(word: &str) -> Option<Self> {
        [SymbolSet::Box, SymbolSet::Ascii]
            .into_iter()
            .find(|set| set.word() == word)
    }

    /// The signs of this set.
    pub const fn symbols(self) -> &'static Symbols {
        match self {
            SymbolSet::Box => &BOX,
            SymbolSet::Ascii => &ASCII,
        }
    }
}

static BOX: Symbols = Symbols {
    rule: "─",
    upright: "│",
    corners: ["┌", "┐", "└", "┘"],
    marker: "▸",
    arrows: ["◂", "▸"],
    dot: "·",
    cut: "…",
    thumb: "┃",
    caret: "│",
    clock: "◷",
    block: "█",
};

static ASCII: Symbols = Symbols {
    rule: "-",
    upright: "|",
    corners: ["+", "+", "+", "+"],
    marker: ">",
    arrows: ["<", ">"],
    dot: "-",
    cut: "~",
    thumb: "#",
    caret: "|",
    clock: "@",
    block: "#",
};

/// Theme, signs and habits of the picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Look {
    /// How each role looks.
    pub theme: Theme,
    /// The signs for lines and marks.
    pub symbols: &'static Symbols,
    /// Nothing blinks or moves by itself.
    pub still: bool,
}

impl Look {
    /// A look with the usual signs.
    pub const fn new(theme: Theme) -> Self {
        Self {
            theme,
            symbols: SymbolSet::Box.symbols(),
            still: false,
        }
    }

    /// The look without any colour, as tests and dumb terminals want it.
    pub const fn plain() -> Self {
        Self::new(Theme::new(ThemeName::Plain, Depth::Mono))
    }

    /// How text of this role looks.
    pub const fn style(&self, role: Role) -> Style {
        self.theme.style(role)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::export::shown::{shown, width};

    #[test]
    fn every_sign_is_one_cell_wide_and_harmless() {
        for set in [SymbolSet::Box, SymbolSet::Ascii] {
            let s = set.symbols();
            let signs = [
                s.rule, s.upright, s.marker, s.dot, s.cut, s.thumb, s.caret, s.clock, s.block,
            ];
            for sign in signs.into_iter().chain(s.corners).chain(s.arrows) {
                assert_eq!(width(sign), 1, "{sign}");
                assert_eq!(shown(sign), sign);
                assert!(set == SymbolSet::Box || sign.is_ascii(), "{sign}");
            }
        }
    }
}
