//! Sentences broken into lines.

use super::shown::{shown, take, width};

/// Breaks `text` into lines of at most `room` cells, at spaces where that is possible.
///
/// Line breaks in the text are kept; hidden characters are made visible first, so that the lines
/// can be drawn as they come. A width of nothing gives no lines.
pub fn wrap(text: &str, room: usize) -> Vec<String> {
    if room == 0 {
        return Vec::new();
    }
    let text = shown(text);
    let mut lines = Vec::new();
    for paragraph in text.split('\n') {
        wrap_paragraph(paragraph, room, &mut lines);
    }
    lines
}

/// Units that stay on the line of their number.
const UNITS: [&str; 18] = [
    "s", "min", "h", "mm", "cm", "m", "ml", "l", "C", "in", "%", "g", "g/l", "stop", "stops",
    "day", "days", "drops",
];

/// The words of a paragraph; a number and its unit are one word.
fn words(paragraph: &str) -> impl Iterator<Item = &str> {
    let mut rest = Some(paragraph);
    std::iter::from_fn(move || {
        let text = rest?;
        let end = |from: usize| {
            let tail = text.get(from..).unwrap_or_default();
            tail.find(' ').map_or(text.len(), |at| from + at)
        };
        let mut upto = end(0);
        let number = text
            .get(..upto)
            .is_some_and(|word| word.ends_with(|c: char| c.is_ascii_digit()));
        if number && upto < text.len() {
            let next = end(upto + 1);
            let unit = text.get(upto + 1..next).unwrap_or_default();
            if UNITS.contains(&unit.trim_end_matches([',', ';', '.', ')', ':'])) {
                upto = next;
            }
        }
        rest = text.get(upto + 1..);
        text.get(..upto)
    })
}

fn wrap_paragraph(paragraph: &str, room: usize, lines: &mut Vec<String>) {
    let mut line = String::new();
    let mut used = 0;
    for word in words(paragraph) {
        let gap = usize::from(!line.is_empty());
        let mut word = word;
        let mut wide = width(word);
        if used + gap + wide <= room {
            if gap == 1 {
                line.push(' ');
            }
            line.push_str(word);
            used += gap + wide;
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        while wide > room {
            let head = take(word, room);
            // A sign wider than the whole room cannot be drawn; it is left out.
            let cut = if head.is_empty() {
                word.chars().next().map_or(word.len(), char::len_utf8)
            } else {
                lines.push(head.to_owned());
                head.len()
            };
            word = word.get(cut..).unwrap_or_default();
            wide = width(word);
        }
        line.push_str(word);
        used = wide;
    }
    lines.push(line);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wrapping_keeps_words_and_breaks_what_is_too_long() {
        assert_eq!(
            wrap("turn the sheet at 6:30", 10),
            ["turn the", "sheet at", "6:30"]
        );
        assert_eq!(wrap("abcdefgh ij", 3), ["abc", "def", "gh", "ij"]);
        assert_eq!(wrap("one\ntwo", 9), ["one", "two"]);
        assert_eq!(wrap("漢字漢字", 5), ["漢字", "漢字"]);
        assert_eq!(wrap("漢", 1), [""]);
        assert_eq!(
            wrap("expose f/16 at 30 s, washed 5 min", 18),
            ["expose f/16 at", "30 s, washed 5 min"]
        );
        assert_eq!(wrap("30 s", 2), ["30", " s"]);
        assert_eq!(wrap("x", 0), Vec::<String>::new());
        assert_eq!(wrap("", 5), [""]);
    }
}
