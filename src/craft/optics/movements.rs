//! Camera movements as they are jotted down: `front rise 12 mm`, `rise 20, shift 10 left, tilt 5`.
//!
//! For: the one field of an exposure in which movements are written, and the figures that need them
//! as numbers. Promises: every text is read; what means nothing here is kept as it was written and
//! reckoned as nothing. Leaves to others: whether the lens covers it ([`coverage`](super::coverage)).

use crate::craft::numeral::{Cursor, plain};

/// The furthest a standard is believed to move, in millimetres.
const FURTHEST: f64 = 500.0;

/// The most a standard is believed to turn, in degrees.
const STEEPEST: f64 = 80.0;

/// How one standard stands.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Standard {
    /// Millimetres up; a fall is negative.
    pub rise: f64,
    /// Millimetres to the right, seen from behind the camera; to the left is negative.
    pub shift: f64,
    /// Degrees about a level axis, the top towards the subject; backwards is negative.
    pub tilt: f64,
    /// Degrees about an upright axis, to the right; to the left is negative.
    pub swing: f64,
}

/// The movements of both standards.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Movements {
    /// The lens.
    pub front: Standard,
    /// The film.
    pub back: Standard,
    /// Words and numbers that mean no movement, in order, as they were written.
    pub other: Vec<String>,
}

impl Movements {
    /// By how many millimetres the lens stands above the middle of the film: front rise and back
    /// fall together.
    #[must_use]
    pub fn rise(&self) -> f64 {
        self.front.rise - self.back.rise
    }

    /// By how many millimetres the lens stands to the right of the middle of the film.
    #[must_use]
    pub fn shift(&self) -> f64 {
        self.front.shift - self.back.shift
    }

    /// The angle between lens and film about a level axis, in degrees, the lens further forward
    /// positive. It is this angle that turns the plane of sharpness.
    #[must_use]
    pub fn tilt(&self) -> f64 {
        self.front.tilt - self.back.tilt
    }

    /// The angle between lens and film about an upright axis, in degrees.
    #[must_use]
    pub fn swing(&self) -> f64 {
        self.front.swing - self.back.swing
    }

    /// Whether nothing is moved, as far as could be read.
    #[must_use]
    pub fn is_none(&self) -> bool {
        self.front == Standard::default() && self.back == Standard::default()
    }
}

/// A movement by its word.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Kind {
    Rise,
    Fall,
    Shift,
    Tilt,
    Swing,
}

impl Kind {
    fn named(word: &str) -> Option<Kind> {
        Some(match word {
            "rise" | "raise" | "raised" => Kind::Rise,
            "fall" | "drop" | "lowered" => Kind::Fall,
            "shift" | "shifted" => Kind::Shift,
            "tilt" | "tilted" => Kind::Tilt,
            "swing" | "swung" => Kind::Swing,
            _ => return None,
        })
    }

    const fn is_angle(self) -> bool {
        matches!(self, Kind::Tilt | Kind::Swing)
    }

    /// The sign a word of direction after the amount gives it.
    fn direction(self, word: &str) -> Option<f64> {
        match (self, word) {
            (Kind::Rise | Kind::Fall, "up")
            | (Kind::Shift | Kind::Swing, "right" | "r")
            | (Kind::Tilt, "forward" | "forwards" | "fwd") => Some(1.0),
            (Kind::Rise | Kind::Fall, "down")
            | (Kind::Shift | Kind::Swing, "left" | "l")
            | (Kind::Tilt, "back" | "backward" | "backwards" | "rearward") => Some(-1.0),
            _ => None,
        }
    }

    /// How many millimetres or degrees one unit of this name is.
    fn unit(self, word: &str) -> Option<f64> {
        match (self.is_angle(), word) {
            (false, "mm") | (true, "deg" | "degree" | "degrees" | "\u{b0}") => Some(1.0),
            (false, "cm") => Some(10.0),
            (false, "in" | "inch" | "inches" | "\"") => Some(25.4),
            _ => None,
        }
    }
}

/// One bit of what was written.
#[derive(Debug, Clone, PartialEq)]
enum Bit {
    Number(f64),
    Word(String),
}

/// Reads what was jotted down. Nothing is refused: what is no movement is kept in
/// [`Movements::other`].
///
/// The front is meant unless `back` or `rear` stands before the word; millimetres and degrees are
/// meant unless a unit says otherwise; the amount may stand before or after its word. `back` after
/// the amount of a tilt is its direction, unless another movement follows it.
///
/// ```
/// use notchbook::craft::optics::movements::parse_movements;
/// let moved = parse_movements("front rise 12 mm, shift 10 left, tilt 5");
/// assert_eq!((moved.rise(), moved.shift(), moved.tilt()), (12.0, -10.0, 5.0));
/// let moved = parse_movements("fall 8mm swing 3");
/// assert_eq!((moved.rise(), moved.swing()), (-8.0, 3.0));
/// ```
#[must_use]
pub fn parse_movements(text: &str) -> Movements {
    let mut movements = Movements::default();
    for clause in clauses(&plain(text)) {
        let bits = bits(&clause);
        let first_word = bits.iter().position(|bit| kind(bit).is_some());
        let first_number = bits.iter().position(|bit| matches!(bit, Bit::Number(_)));
        let amount_first = matches!((first_number, first_word), (Some(n), Some(w)) if n < w);
        Reader {
            bits: &bits,
            at: 0,
            movements: &mut movements,
        }
        .read(amount_first);
    }
    movements
}

fn kind(bit: &Bit) -> Option<Kind> {
    match bit {
        Bit::Word(word) => Kind::named(word),
        Bit::Number(_) => None,
    }
}

/// Parts between commas, semicolons and the like; a comma between digits is a decimal mark.
fn clauses(plain: &str) -> Vec<String> {
    let chars: Vec<char> = plain.chars().collect();
    let is_digit = |at: Option<usize>| {
        at.and_then(|at| chars.get(at))
            .is_some_and(char::is_ascii_digit)
    };
    let spread: String = chars
        .iter()
        .enumerate()
        .map(|(at, c)| match c {
            ',' | '.' if is_digit(at.checked_sub(1)) && is_digit(Some(at + 1)) => *c,
            '.' if is_digit(Some(at + 1)) => *c,
            ',' | ';' | '&' | '(' | ')' => ';',
            '+' | '-' if is_digit(Some(at + 1)) => *c,
            '/' | '\'' | '"' | '\u{b0}' => *c,
            c if c.is_alphanumeric() => *c,
            _ => ' ',
        })
        .collect();
    spread.split(';').map(str::to_owned).collect()
}

fn bits(clause: &str) -> Vec<Bit> {
    let mut bits = Vec::new();
    let mut cursor = Cursor::new(clause);
    loop {
        let mut ahead = cursor.clone();
        let sign = ahead.sign();
        if let Some(number) = ahead.number() {
            cursor = ahead;
            bits.push(Bit::Number(sign * number));
            continue;
        }
        let word = cursor.word();
        if !word.is_empty() {
            bits.push(Bit::Word(word.to_owned()));
        } else if !['/', '.', ',', '+', '-', '\'', '"']
            .into_iter()
            .any(|c| cursor.take(c))
        {
            return bits;
        }
    }
}

struct Reader<'b> {
    bits: &'b [Bit],
    at: usize,
    movements: &'b mut Movements,
}

impl Reader<'_> {
    fn read(mut self, amount_first: bool) {
        let mut back = false;
        let mut amount: Option<f64> = None;
        while let Some(bit) = self.bits.get(self.at) {
            self.at += 1;
            match bit {
                Bit::Number(number) if amount_first => {
                    if let Some(unused) = amount.replace(*number) {
                        self.keep(&unused.to_string());
                    }
                }
                Bit::Number(number) => self.keep(&number.to_string()),
                Bit::Word(word) => match (word.as_str(), Kind::named(word)) {
                    ("front", _) => back = false,
                    ("back" | "rear", _) => back = true,
                    (_, Some(kind)) => {
                        let found = if amount_first {
                            amount.take().map(|amount| (amount, 1.0))
                        } else {
                            self.amount_after(kind)
                        };
                        let before = self.unit_before(kind).filter(|_| amount_first);
                        let moved = found.map(|(amount, unit)| amount * before.unwrap_or(unit));
                        let turned = self.direction_after(kind);
                        match moved {
                            Some(moved) if within(kind, moved) => {
                                self.set(back, kind, turned.map_or(moved, |to| moved.abs() * to));
                            }
                            _ => self.keep(word),
                        }
                        back = false;
                    }
                    (unit, None) if amount_first && amount.is_some() && is_unit(unit) => {}
                    (other, None) => self.keep(other),
                },
            }
        }
        if let Some(unused) = amount {
            self.keep(&unused.to_string());
        }
    }

    fn word(&self, at: usize) -> Option<&str> {
        match self.bits.get(at) {
            Some(Bit::Word(word)) => Some(word),
            _ => None,
        }
    }

    /// The number after a movement's word and what its unit makes of it.
    fn amount_after(&mut self, kind: Kind) -> Option<(f64, f64)> {
        // "shift left 10" and "rise of 12": one word may stand between.
        let between = self
            .word(self.at)
            .is_some_and(|word| kind.direction(word).is_some() || word == "of");
        let at = self.at + usize::from(between);
        let Some(Bit::Number(number)) = self.bits.get(at) else {
            return None;
        };
        let before = between
            .then(|| self.word(self.at).and_then(|word| kind.direction(word)))
            .flatten();
        self.at = at + 1;
        let unit = self.word(self.at).and_then(|word| kind.unit(word));
        self.at += usize::from(unit.is_some());
        let number = before.map_or(*number, |to| number.abs() * to);
        Some((number, unit.unwrap_or(1.0)))
    }

    /// The unit that stood before the movement's word: `1 cm rise`, `1 cm front rise`.
    fn unit_before(&self, kind: Kind) -> Option<f64> {
        (2..=3).find_map(|back| {
            let word = self.word(self.at.checked_sub(back)?)?;
            kind.unit(word)
        })
    }

    /// The direction after the amount, unless the word belongs to the movement that follows.
    fn direction_after(&mut self, kind: Kind) -> Option<f64> {
        let word = self.word(self.at)?;
        let to = kind.direction(word)?;
        let names_the_next = word == "back"
            && self
                .word(self.at + 1)
                .is_some_and(|next| Kind::named(next).is_some());
        if names_the_next {
            return None;
        }
        self.at += 1;
        Some(to)
    }

    fn set(&mut self, back: bool, kind: Kind, amount: f64) {
        let standard = if back {
            &mut self.movements.back
        } else {
            &mut self.movements.front
        };
        match kind {
            Kind::Rise => standard.rise = amount,
            Kind::Fall => standard.rise = -amount,
            Kind::Shift => standard.shift = amount,
            Kind::Tilt => standard.tilt = amount,
            Kind::Swing => standard.swing = amount,
        }
    }

    fn keep(&mut self, word: &str) {
        self.movements.other.push(word.to_owned());
    }
}

fn is_unit(word: &str) -> bool {
    Kind::Rise.unit(word).or(Kind::Tilt.unit(word)).is_some()
}

fn within(kind: Kind, amount: f64) -> bool {
    let most = if kind.is_angle() { STEEPEST } else { FURTHEST };
    amount.abs() <= most
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn front(rise: f64, shift: f64, tilt: f64, swing: f64) -> Standard {
        Standard {
            rise,
            shift,
            tilt,
            swing,
        }
    }

    #[test]
    fn movements_are_read_as_people_jot_them_down() {
        for (text, expected) in [
            ("front rise 12 mm", front(12.0, 0.0, 0.0, 0.0)),
            (
                "rise 20, shift 10 left, front tilt 5",
                front(20.0, -10.0, 5.0, 0.0),
            ),
            ("fall 8mm swing 3", front(-8.0, 0.0, 0.0, 3.0)),
            ("Rise: 1,5 cm; Tilt 3½°", front(15.0, 0.0, 3.5, 0.0)),
            ("12 mm rise, 10 left shift", front(12.0, 10.0, 0.0, 0.0)),
            ("12 rise 5 tilt", front(12.0, 0.0, 5.0, 0.0)),
            ("1 cm front rise", front(10.0, 0.0, 0.0, 0.0)),
            ("rise 1/2 in", front(12.7, 0.0, 0.0, 0.0)),
            ("shift left 10 mm", front(0.0, -10.0, 0.0, 0.0)),
            ("tilt 5 back", front(0.0, 0.0, -5.0, 0.0)),
            ("tilt 5 deg forward", front(0.0, 0.0, 5.0, 0.0)),
            ("shift -10", front(0.0, -10.0, 0.0, 0.0)),
            ("rise 10 down", front(-10.0, 0.0, 0.0, 0.0)),
            ("rise=12+tilt=4", front(12.0, 0.0, 4.0, 0.0)),
        ] {
            let moved = parse_movements(text);
            assert_eq!(moved.front, expected, "{text}: {moved:?}");
            assert_eq!(moved.back, Standard::default(), "{text}");
        }
    }

    #[test]
    fn the_back_moves_against_the_front() {
        let moved = parse_movements("front rise 12, back fall 10, rear tilt 3");
        assert_eq!(moved.rise(), 22.0);
        assert_eq!(moved.tilt(), -3.0);
        let moved = parse_movements("tilt 5 back swing 3");
        assert_eq!((moved.front.tilt, moved.back.swing), (5.0, 3.0));
    }

    #[test]
    fn what_is_no_movement_is_kept_and_reckoned_as_nothing() {
        let moved = parse_movements("rise, base tilt 4, rail level, 99");
        assert_eq!(moved.front, front(0.0, 0.0, 4.0, 0.0));
        assert_eq!(moved.other, ["rise", "base", "rail", "level", "99"]);
        assert!(parse_movements("none").is_none());
        assert!(parse_movements("rise 99999").is_none());
        assert!(!parse_movements("rise 1").is_none());
    }

    proptest! {
        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            let moved = parse_movements(&text);
            prop_assert!(moved.rise().is_finite() && moved.tilt().is_finite());
        }

        #[test]
        fn any_order_of_the_words_is_read(words in proptest::collection::vec(
            prop_oneof!["rise", "fall", "back", "front", "tilt", "left", "5", "3 mm", ",", "/", "-"],
            0..12,
        )) {
            let moved = parse_movements(&words.join(" "));
            prop_assert!(moved.rise().abs() <= 2.0 * FURTHEST);
        }
    }
}
