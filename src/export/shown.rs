//! The one filter between stored text and any output.
//!
//! For: text that a person typed, pasted, imported or merged may hold escape sequences, direction
//! overrides, zero-width and private characters. Written raw to a terminal they can move the
//! cursor, set the clipboard, hide words or make two different names look the same. Here each of
//! them becomes visible text.
//!
//! Promises: the result holds no C0 or C1 control, no DEL, no bidirectional control, no zero-width
//! or default-ignorable character outside an emoji sequence, no line or paragraph separator, no
//! tag, private-use or noncharacter, and no more than four combining marks on one base. Applying
//! the filter twice changes nothing more. Ordinary text is returned borrowed.
//!
//! Leaves to others: the stored bytes, which are never changed, and the layout, for which
//! [`width`], [`fit`], [`pad`] and [`pad_start`] measure in terminal cells as the screen draws
//! them.

use std::borrow::Cow;
use std::fmt::Write as _;

use unicode_segmentation::UnicodeSegmentation;
use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

/// Combining marks kept on one base; more of them are counted instead of drawn.
pub const MARKS_PER_BASE: usize = 4;

/// Joiners kept in one emoji sequence. The longest recommended ones (a family of four, a couple
/// with skin tones) need three.
const JOINS_PER_SEQUENCE: usize = 4;

/// Stands for a line break where only one line is shown.
pub const NEWLINE_MARK: char = '↵';

/// Stands for what was cut off by [`fit`].
pub const CUT_MARK: char = '…';

const ZERO_WIDTH_JOINER: char = '\u{200D}';
const EMOJI_PRESENTATION: char = '\u{FE0F}';
const ENCLOSING_KEYCAP: char = '\u{20E3}';

/// Makes every character that a terminal would obey or hide visible; line breaks stay.
///
/// Controls appear in caret form (`^[`), other unseen characters as `<U+202E>`, a tab as one
/// space.
///
/// ```
/// use notchbook::export::shown;
/// assert_eq!(shown("north wall, thaw"), "north wall, thaw");
/// assert_eq!(shown("a\u{1b}[31mb\tc"), "a^[[31mb c");
/// assert_eq!(shown("two\nlines"), "two\nlines");
/// ```
pub fn shown(text: &str) -> Cow<'_, str> {
    filter(text, Breaks::Kept)
}

/// Like [`shown`], for places with a single line: a line break becomes `↵`.
///
/// ```
/// use notchbook::export::shown_line;
/// assert_eq!(shown_line("two\nlines"), "two↵lines");
/// ```
pub fn shown_line(text: &str) -> Cow<'_, str> {
    filter(text, Breaks::Marked)
}

/// Terminal cells that `text` takes when drawn, counted grapheme by grapheme as ratatui does.
///
/// Give it text that went through [`shown_line`]; control characters count nothing.
pub fn width(text: &str) -> usize {
    if is_plain(text, Breaks::Marked) {
        return text.len();
    }
    text.graphemes(true).map(grapheme_width).sum()
}

/// `text` cut to at most `cells` terminal cells, the last of them `…` if something was cut.
///
/// A grapheme is never split, so the result may be a cell narrower than asked.
///
/// ```
/// use notchbook::export::shown::fit;
/// assert_eq!(fit("winter quarry", 8), "winter …");
/// assert_eq!(fit("winter", 8), "winter");
/// ```
pub fn fit(text: &str, cells: usize) -> Cow<'_, str> {
    if width(text) <= cells {
        return Cow::Borrowed(text);
    }
    let Some(room) = cells.checked_sub(1) else {
        return Cow::Borrowed("");
    };
    let mut out = take(text, room).to_owned();
    out.push(CUT_MARK);
    Cow::Owned(out)
}

/// The longest beginning of `text` that fits into `cells`, without a mark.
pub fn take(text: &str, cells: usize) -> &str {
    let mut used = 0;
    let mut end = 0;
    for (at, grapheme) in text.grapheme_indices(true) {
        used += grapheme_width(grapheme);
        if used > cells {
            break;
        }
        end = at + grapheme.len();
    }
    text.get(..end).unwrap_or(text)
}

/// `text` fitted into exactly `cells`: cut or filled with spaces behind.
pub fn pad(text: &str, cells: usize) -> String {
    let mut out = fit(text, cells).into_owned();
    out.extend(std::iter::repeat_n(' ', cells.saturating_sub(width(&out))));
    out
}

/// `text` fitted into exactly `cells`: cut or filled with spaces in front.
pub fn pad_start(text: &str, cells: usize) -> String {
    let cut = fit(text, cells);
    let mut out = " ".repeat(cells.saturating_sub(width(&cut)));
    out.push_str(&cut);
    out
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Breaks {
    Kept,
    Marked,
}

fn is_plain(text: &str, breaks: Breaks) -> bool {
    text.bytes()
        .all(|b| matches!(b, 0x20..=0x7e) || (b == b'\n' && breaks == Breaks::Kept))
}

fn filter(text: &str, breaks: Breaks) -> Cow<'_, str> {
    if is_plain(text, breaks) {
        return Cow::Borrowed(text);
    }
    let mut sieve = Sieve::new(text.len());
    let mut chars = text.chars().peekable();
    while let Some(c) = chars.next() {
        sieve.take(c, chars.peek().copied(), breaks);
    }
    let out = sieve.finish();
    if out == text {
        Cow::Borrowed(text)
    } else {
        Cow::Owned(out)
    }
}

/// What the filter remembers between two characters.
struct Sieve {
    out: String,
    /// The last character, if it was written as it is; marks attach to nothing else.
    last: Option<char>,
    /// The sequence so far is a pictograph with its modifiers, so a joiner may follow.
    pictograph: bool,
    marks: usize,
    joins: usize,
    /// Marks over the limit, not written yet.
    excess: usize,
}

impl Sieve {
    fn new(bytes: usize) -> Self {
        Self {
            out: String::with_capacity(bytes + bytes / 8),
            last: None,
            pictograph: false,
            marks: 0,
            joins: 0,
            excess: 0,
        }
    }

    fn take(&mut self, c: char, next: Option<char>, breaks: Breaks) {
        match c {
            '\n' => match breaks {
                Breaks::Kept => self.separate(|out| out.push('\n')),
                Breaks::Marked => self.separate(|out| out.push(NEWLINE_MARK)),
            },
            '\t' => self.base(' '),
            '\0'..='\x1f' | '\x7f' => self.separate(|out| {
                out.push('^');
                out.push(char::from(c as u8 ^ 0x40));
            }),
            ZERO_WIDTH_JOINER => {
                let joins_pictographs = self.pictograph
                    && self.excess == 0
                    && self.joins < JOINS_PER_SEQUENCE
                    && next.is_some_and(is_pictograph);
                if joins_pictographs {
                    self.out.push(c);
                    self.last = Some(c);
                    self.joins += 1;
                    self.marks = 0;
                } else {
                    self.escape(c);
                }
            }
            EMOJI_PRESENTATION => {
                let asked_for = self.last.is_some_and(|last| {
                    is_pictograph(last) || (is_keycap_base(last) && next == Some(ENCLOSING_KEYCAP))
                });
                if asked_for {
                    self.out.push(c);
                    self.last = Some(c);
                } else {
                    self.escape(c);
                }
            }
            _ if is_hidden(c) => self.escape(c),
            _ if is_mark(c) => self.mark(c),
            _ => {
                let joined = self.last == Some(ZERO_WIDTH_JOINER);
                let joins = if joined { self.joins } else { 0 };
                self.base(c);
                self.joins = joins;
                self.pictograph = c > '\u{a8}' && is_pictograph(c);
            }
        }
    }

    /// A character that stands by itself.
    fn base(&mut self, c: char) {
        self.settle();
        self.out.push(c);
        self.last = Some(c);
    }

    /// A character that sits on the one before it.
    fn mark(&mut self, c: char) {
        match self.last {
            None if is_skin_tone(c) => self.base(c),
            None => self.escape(c),
            Some(_) if self.marks >= MARKS_PER_BASE => self.excess += 1,
            Some(_) => {
                self.marks += 1;
                self.out.push(c);
                self.last = Some(c);
            }
        }
    }

    fn escape(&mut self, c: char) {
        self.separate(|out| {
            // Writing into a String cannot fail.
            let _ = write!(out, "<U+{:04X}>", u32::from(c));
        });
    }

    /// Writes something that no mark may sit on.
    fn separate(&mut self, write: impl FnOnce(&mut String)) {
        self.settle();
        write(&mut self.out);
        self.last = None;
    }

    /// Ends the sequence so far.
    fn settle(&mut self) {
        if self.excess > 0 {
            let _ = write!(self.out, "<+{} marks>", self.excess);
        }
        self.excess = 0;
        self.marks = 0;
        self.joins = 0;
        self.pictograph = false;
    }

    fn finish(mut self) -> String {
        self.settle();
        self.out
    }
}

/// Whether a mark is drawn on the character before it. The two halfwidth katakana sound marks
/// extend a grapheme in theory and take a cell of their own in terminals.
fn is_mark(c: char) -> bool {
    is_skin_tone(c) || (c.width() == Some(0) && !is_halfwidth_sound_mark(c))
}

fn is_skin_tone(c: char) -> bool {
    ('\u{1F3FB}'..='\u{1F3FF}').contains(&c)
}

fn is_halfwidth_sound_mark(c: char) -> bool {
    matches!(c, '\u{FF9E}' | '\u{FF9F}')
}

fn is_keycap_base(c: char) -> bool {
    matches!(c, '0'..='9' | '#' | '*')
}

/// Asks the segmentation tables: only a pictograph, a joiner and another pictograph make a single
/// grapheme, so the tables are kept in one place.
fn is_pictograph(c: char) -> bool {
    let mut sequence = String::with_capacity(12);
    sequence.push(c);
    sequence.push(ZERO_WIDTH_JOINER);
    sequence.push('\u{1F469}');
    c > '\u{a8}' && sequence.graphemes(true).count() == 1
}

/// Characters that draw nothing, or change how others are drawn, wherever they stand.
fn is_hidden(c: char) -> bool {
    let code = u32::from(c);
    let noncharacter = code & 0xFFFE == 0xFFFE || (0xFDD0..=0xFDEF).contains(&code);
    noncharacter
        || matches!(code,
            0x80..=0x9F                 // C1 controls
            | 0xAD                      // soft hyphen
            | 0x034F                    // grapheme joiner
            | 0x061C                    // Arabic letter mark
            | 0x115F..=0x1160           // Hangul fillers
            | 0x17B4..=0x17B5           // Khmer inherent vowels
            | 0x180B..=0x180F           // Mongolian selectors and separator
            | 0x200B..=0x200F           // zero-width space to right-to-left mark
            | 0x2028..=0x202E           // separators, embeddings, overrides
            | 0x2060..=0x206F           // word joiner, isolates, deprecated format controls
            | 0x3164 | 0xFFA0           // Hangul fillers
            | 0xE000..=0xF8FF           // private use
            | 0xFE00..=0xFE0F           // variation selectors
            | 0xFEFF                    // byte order mark
            | 0xFFF0..=0xFFFB           // unassigned ignorables, interlinear annotation
            | 0x13430..=0x1343F         // Egyptian format controls
            | 0x1BCA0..=0x1BCA3         // shorthand format controls
            | 0x1D173..=0x1D17A         // musical format controls
            | 0xE0000..=0xE0FFF         // tags, further variation selectors
            | 0xF0000..=0x10FFFF        // private use planes
        )
}

fn grapheme_width(grapheme: &str) -> usize {
    if grapheme.contains(char::is_control) {
        return 0;
    }
    grapheme.width()
        + grapheme
            .chars()
            .filter(|c| is_halfwidth_sound_mark(*c))
            .count()
}

#[cfg(test)]
mod tests;
