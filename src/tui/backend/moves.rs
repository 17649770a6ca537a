//! Shorter ways for the cursor.
//!
//! For: a frame in which few cells change. Between two strokes of a digit the cursor goes down a line
//! and back a cell or two; where it is known where the cursor stands, saying that takes half the bytes
//! of naming the place. Promises: the cursor comes to the same places; where it could stand elsewhere
//! than is thought, at the end of a line or behind a sign whose width terminals disagree on, the place
//! is named as before.

/// Back by one cell: every terminal knows this control character, and it is one byte.
const BACK: u8 = 0x08;

/// A frame with shorter moves.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Shortened {
    /// Its bytes.
    pub(super) bytes: Vec<u8>,
    /// Whether nothing in it changes colours or weight, so that there is nothing to take back.
    pub(super) plain: bool,
}

/// The bytes of a drawn frame with shorter moves. `last_column` is a column that is known to be there:
/// behind a sign in it or further right it is not known where the cursor waits.
pub(super) fn shortened(bytes: &[u8], last_column: u16) -> Shortened {
    let mut out = Vec::with_capacity(bytes.len());
    let mut plain = true;
    let mut at: Option<(u16, u16)> = None;
    let mut rest = bytes;
    while let Some((first, behind)) = rest.split_first() {
        if let Some((parameters, last, behind)) = sequence(rest) {
            let taken = rest.len() - behind.len();
            let to = if last == b'H' {
                place(parameters)
            } else {
                None
            };
            match (to, last) {
                (Some(to), _) => {
                    way(at, to, &mut out);
                    at = Some(to);
                }
                (None, b'm') => {
                    out.extend(rest.iter().take(taken));
                    plain = false;
                }
                (None, _) => {
                    out.extend(rest.iter().take(taken));
                    at = None;
                }
            }
            rest = behind;
            continue;
        }
        let long = if *first < 0x80 {
            1
        } else {
            1 + behind
                .iter()
                .take_while(|byte| **byte & 0xc0 == 0x80)
                .count()
        };
        let (sign, behind) = rest.split_at(long.min(rest.len()));
        out.extend_from_slice(sign);
        at = at
            .filter(|(column, _)| *column < last_column && is_one_cell(sign))
            .map(|(column, line)| (column + 1, line));
        rest = behind;
    }
    Shortened { bytes: out, plain }
}

/// A control sequence at the beginning: its parameters, its last byte, and what stands behind it.
fn sequence(bytes: &[u8]) -> Option<(&[u8], u8, &[u8])> {
    let body = bytes.strip_prefix(b"\x1b[")?;
    let long = body.iter().position(|byte| (0x40..=0x7e).contains(byte))?;
    let (parameters, rest) = body.split_at(long);
    let (last, behind) = rest.split_first()?;
    Some((parameters, *last, behind))
}

/// The column and line, counted from 0, that the parameters of a move name.
fn place(parameters: &[u8]) -> Option<(u16, u16)> {
    let text = std::str::from_utf8(parameters).ok()?;
    let (line, column) = text.split_once(';')?;
    let from_one = |number: &str| number.parse::<u16>().ok()?.checked_sub(1);
    Some((from_one(column)?, from_one(line)?))
}

/// Whether a sign takes one cell on every terminal: ASCII, and lines and blocks to draw with.
fn is_one_cell(sign: &[u8]) -> bool {
    let mut signs = std::str::from_utf8(sign).unwrap_or_default().chars();
    let fits = |sign: char| matches!(sign, ' '..='~' | '\u{2500}'..='\u{259f}');
    signs.next().is_some_and(fits) && signs.next().is_none()
}

/// Adds the shortest way from where the cursor stands, if that is known.
fn way(from: Option<(u16, u16)>, to: (u16, u16), out: &mut Vec<u8>) {
    let named = format!("\x1b[{};{}H", to.1 + 1, to.0 + 1).into_bytes();
    let short = from.and_then(|from| steps(from, to));
    match short {
        Some(short) if short.len() < named.len() => out.extend(short),
        _ => out.extend(named),
    }
}

/// The way down and to the side; nothing where it leads up, which no frame does.
fn steps(from: (u16, u16), to: (u16, u16)) -> Option<Vec<u8>> {
    let mut steps = Vec::new();
    let down = to.1.checked_sub(from.1)?;
    sequence_of(down, b'B', &mut steps);
    match to.0.checked_sub(from.0) {
        Some(right) => sequence_of(right, b'C', &mut steps),
        None => {
            let left = from.0 - to.0;
            if left <= 3 {
                steps.extend(std::iter::repeat_n(BACK, usize::from(left)));
            } else {
                sequence_of(left, b'D', &mut steps);
            }
        }
    }
    Some(steps)
}

fn sequence_of(count: u16, last: u8, out: &mut Vec<u8>) {
    match count {
        0 => return,
        1 => out.extend_from_slice(b"\x1b["),
        _ => out.extend(format!("\x1b[{count}").into_bytes()),
    }
    out.push(last);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn short(bytes: &str) -> String {
        String::from_utf8(shortened(bytes.as_bytes(), 79).bytes).unwrap()
    }

    #[test]
    fn a_stroke_goes_down_a_line_and_back() {
        assert_eq!(
            short("\x1b[5;30H██\x1b[6;30H██\x1b[7;30H  \x1b[0m"),
            "\x1b[5;30H██\x1b[B\x08\x08██\x1b[B\x08\x08  \x1b[0m"
        );
        assert_eq!(
            short("\x1b[5;30Hx\x1b[5;38Hy\x1b[10;38H "),
            "\x1b[5;30Hx\x1b[7Cy\x1b[5B\x08 "
        );
        // Colours move nothing.
        assert_eq!(
            short("\x1b[5;30H\x1b[1mx\x1b[6;31Hy"),
            "\x1b[5;30H\x1b[1mx\x1b[By"
        );
        assert!(shortened(b"\x1b[5;30Hx", 79).plain);
        assert!(!shortened(b"\x1b[5;30H\x1b[1mx", 79).plain);
    }

    #[test]
    fn where_it_is_not_known_where_the_cursor_stands_its_place_is_named() {
        for bytes in [
            "\x1b[5;80Hx\x1b[6;80Hx",
            "\x1b[5;30H中\x1b[6;30Hx",
            "\x1b[5;30He\u{301}\x1b[6;30Hx",
            "\x1b[5;30Hx\x1b[2J\x1b[6;30Hx",
            "\x1b[5;30Hx\x1b[4;30Hx",
        ] {
            assert_eq!(short(bytes), bytes, "{bytes:?}");
        }
    }
}
