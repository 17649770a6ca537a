//! Filters as people write them in one field: `Wratten 25 + polariser`, `ND 0.9`, `yellow +1`.
//!
//! Promises: a plus sign before a blank or a letter joins two filters, a plus sign at a number gives
//! stops; a bare decimal is asked about, because it may be a factor or stops. Nothing here panics,
//! whatever the text. Which filter a name means is left to the reference.

use super::{Impossible, Stops, Strength};
use crate::craft::numeral::{Cursor, plain};

/// Words for no filter at all.
const NONE: [&str; 6] = ["none", "no", "no filter", "without", "nothing", "-"];

/// Words that stand beside a filter's name and say nothing.
const IDLE: [&str; 2] = ["filter", "filters"];

/// One filter as it was written.
#[derive(Debug, Clone, PartialEq)]
pub struct Worn {
    /// Its name in lower case; empty if only its strength was written.
    pub name: String,
    /// Its strength, if it was written.
    pub strength: Option<Strength>,
    /// Whether that strength is its name, as of a neutral filter: ND 0.9 is sold as such, and may take
    /// something else.
    pub by_name: bool,
}

/// The filters of one field, in the order they were written; none for an empty field or `none`.
///
/// ```
/// use notchbook::craft::filter::stack;
/// let worn = stack("Wratten 25 + polariser x2.5").unwrap();
/// assert_eq!(worn[0].name, "wratten 25");
/// assert_eq!(worn[1].strength.unwrap().to_string(), "x2.5");
/// assert!(stack("centre 1.5").is_err());
/// ```
///
/// # Errors
/// If a number could mean two things, or a filter would give light.
pub fn stack(text: &str) -> Result<Vec<Worn>, Impossible> {
    let plain = plain(text).replace("b+w", "bw").replace("b + w", "bw");
    let mut worn = Vec::new();
    for piece in pieces(&plain) {
        let piece = piece.trim();
        if !piece.is_empty() && !NONE.contains(&piece) {
            worn.push(one(piece)?);
        }
    }
    Ok(worn)
}

/// The text cut where one filter ends and another begins.
fn pieces(plain: &str) -> Vec<&str> {
    let mut pieces = Vec::new();
    let mut start = 0;
    for (at, c) in plain.char_indices() {
        let (before, after) = (&plain[..at], &plain[at + c.len_utf8()..]);
        let digit_before = before.ends_with(|c: char| c.is_ascii_digit());
        let digit_after = after.starts_with(|c: char| c.is_ascii_digit() || c == '.');
        let cuts = match c {
            ';' | '&' => true,
            ',' => !(digit_before && digit_after),
            // "25+8" are two filters; "+1+1/3" and "orange+1" are stops.
            '+' if digit_after && digit_before => !of_stops(&plain[start..at], after),
            '+' => !digit_after,
            _ => false,
        };
        if cuts {
            pieces.push(&plain[start..at]);
            start = at + c.len_utf8();
        }
    }
    pieces.push(&plain[start..]);
    pieces
        .into_iter()
        .flat_map(|piece| piece.split(" and "))
        .flat_map(|piece| piece.split(" with "))
        .collect()
}

/// Whether the plus sign between these two stands inside or before a number of stops.
fn of_stops(before: &str, after: &str) -> bool {
    let mut cursor = Cursor::new(after);
    before.contains('+') || cursor.number().is_some_and(|part| part < 1.0)
}

/// One filter.
fn one(piece: &str) -> Result<Worn, Impossible> {
    let (name, strength) = match amount_at_end(piece) {
        Some((name, strength)) => (name, Some(strength?)),
        None => (piece, None),
    };
    let name = named(name);
    let (stem, rest) = split_stem(&name);
    if stem == "nd" || stem == "96" {
        let label = format!("nd {rest}").trim().to_owned();
        return match (strength, rest) {
            (Some(strength), _) => Ok(Worn {
                name: label,
                strength: Some(strength),
                by_name: rest.is_empty(),
            }),
            (None, "") => Err(Impossible::new(
                "how strong is the neutral filter: write ND 0.9, ND8 or ND 3 stops",
            )),
            (None, number) => {
                let number = number.trim_start_matches('x').trim_end_matches('x').trim();
                let strength = if rest.contains('x') {
                    Strength::factor(Cursor::new(number).decimal().unwrap_or(0.0))?
                } else {
                    Strength::neutral(number)?
                };
                Ok(Worn {
                    name: label,
                    strength: Some(strength),
                    by_name: true,
                })
            }
        };
    }
    if strength.is_none() {
        refuse_bare(&name)?;
    }
    Ok(Worn {
        name,
        strength,
        by_name: false,
    })
}

/// The strength written at the end of a filter, and the name before it.
fn amount_at_end(piece: &str) -> Option<(&str, Result<Strength, Impossible>)> {
    by_word(piece)
        .or_else(|| by_sign(piece))
        .or_else(|| by_factor(piece))
}

/// `1 1/2 stops`, `factor 4`, `density 0.6`, `d 0.6`, `0.6 nd`.
fn by_word(piece: &str) -> Option<(&str, Result<Strength, Impossible>)> {
    for word in ["stops", "stop"] {
        if let Some(before) = piece.strip_suffix(word) {
            let (name, number) = number_at_end(before)?;
            return Some((name.trim_end_matches('+'), stops(number)));
        }
    }
    let words: Vec<&str> = piece.split(' ').collect();
    let (number, before) = words.split_last()?;
    // "d0.6" and "density 0.6", but not "deep yellow".
    let (word, number) = match number.strip_prefix('d').filter(|rest| is_number(rest)) {
        Some(rest) => ("d", rest),
        None => (*before.last()?, *number),
    };
    let value = read(number)?;
    let strength = match word {
        "factor" => Strength::factor(value),
        "d" | "density" => Strength::density(value),
        _ => return None,
    };
    let name = piece.strip_suffix(number)?.trim_end();
    Some((name.strip_suffix(word)?, strength))
}

/// `+1 1/3`, `+2/3`, `-1`.
fn by_sign(piece: &str) -> Option<(&str, Result<Strength, Impossible>)> {
    let minus = || match piece.starts_with('-') {
        true => Some(0),
        false => piece.rfind(" -").map(|at| at + 1),
    };
    let (name, number) = piece.split_at(piece.find('+').or_else(minus)?);
    let stops = Stops::parse(number).ok()?;
    Some((name, Strength::stops(stops)))
}

/// `x4`, `x 2.5`, `4x`.
fn by_factor(piece: &str) -> Option<(&str, Result<Strength, Impossible>)> {
    if let Some(before) = piece.strip_suffix('x')
        && let Some((name, number)) = number_at_end(before)
    {
        return Some((name, Strength::factor(number)));
    }
    let (name, number) = piece.rsplit_once('x')?;
    // "ndx8" and "red x8", but not the letter inside a word.
    let stands_alone = name.is_empty() || name.ends_with(' ') || name.trim_end() == "nd";
    let value = read(number).filter(|_| stands_alone)?;
    Some((name, Strength::factor(value)))
}

fn stops(number: f64) -> Result<Strength, Impossible> {
    Strength::stops(Stops::new(number)?)
}

/// A whole text as a number without sign.
fn read(text: &str) -> Option<f64> {
    let mut cursor = Cursor::new(text);
    cursor.number().filter(|_| cursor.at_end())
}

fn is_number(text: &str) -> bool {
    read(text).is_some()
}

/// The number at the end of a text, mixed with a fraction or not, and what stands before it.
fn number_at_end(text: &str) -> Option<(&str, f64)> {
    let text = text.trim_end();
    let part = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '/');
    let digits = text.trim_end_matches(part);
    let last = &text[digits.len()..];
    if last.contains('/') {
        let before = digits.trim_end();
        let whole = before.trim_end_matches(|c: char| c.is_ascii_digit());
        let mixed = &text[whole.len()..];
        if whole.len() < before.len()
            && let Some(value) = read(mixed)
        {
            return Some((whole, value));
        }
    }
    read(last).map(|value| (digits, value))
}

/// A name without the words that say nothing.
fn named(name: &str) -> String {
    let words = name.split(' ').filter(|word| !word.is_empty());
    let words: Vec<&str> = words.filter(|word| !IDLE.contains(word)).collect();
    words.join(" ")
}

/// Takes a neutral filter's name apart: `nd8` into `nd` and `8`, `0.6 nd` into `nd` and `0.6`.
fn split_stem(name: &str) -> (&str, &str) {
    let name = name
        .trim_start_matches("kodak ")
        .trim_start_matches("wratten ")
        .trim_start_matches("no. ");
    for word in ["neutral density", "neutral", "nd"] {
        if let Some(rest) = name.strip_prefix(word)
            && !rest.starts_with(|c: char| c.is_alphabetic() && c != 'x')
        {
            return ("nd", rest.trim());
        }
        if let Some(rest) = name.strip_suffix(word)
            && is_number(rest)
        {
            return ("nd", rest.trim());
        }
    }
    match name.split_once(' ') {
        Some(("96", rest)) if is_number(rest) => ("96", rest),
        _ => (name, ""),
    }
}

/// Refuses a number that may be a factor or stops.
fn refuse_bare(name: &str) -> Result<(), Impossible> {
    let Some((stem, _)) = number_at_end(name) else {
        return Ok(());
    };
    let number = name.strip_prefix(stem).unwrap_or(name).trim();
    let centre = stem.starts_with("centre") || stem.starts_with("center");
    let bare = number.contains(['.', ',', '/']) || centre;
    if !bare {
        return Ok(());
    }
    let before = if stem.is_empty() {
        ""
    } else {
        &format!("{} ", stem.trim())
    };
    Err(Impossible::new(format!(
        "is {number} a factor or stops? Makers print both: write {before}x{number} or \
         {before}{number} stops"
    )))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn told(text: &str) -> Vec<String> {
        let worn = stack(text).unwrap_or_else(|why| panic!("{text}: {why}"));
        worn.into_iter()
            .map(|one| match one.strength {
                Some(strength) => format!("{} [{strength}]", one.name).trim().to_owned(),
                None => one.name,
            })
            .collect()
    }

    #[test]
    fn filters_are_read_as_people_write_them() {
        for (text, read) in [
            ("", vec![]),
            ("none", vec![]),
            ("No filter", vec![]),
            ("orange", vec!["orange"]),
            ("Orange filter", vec!["orange"]),
            ("25", vec!["25"]),
            ("No. 8", vec!["no. 8"]),
            ("#25", vec!["#25"]),
            ("85B", vec!["85b"]),
            ("Wratten 25 + polariser", vec!["wratten 25", "polariser"]),
            ("25+8", vec!["25", "8"]),
            ("25, 8", vec!["25", "8"]),
            ("red and polariser", vec!["red", "polariser"]),
            ("B+W 040", vec!["bw 040"]),
            ("ND 0.9", vec!["nd 0.9 [density 0.9]"]),
            ("0.6 ND", vec!["nd 0.6 [density 0.6]"]),
            ("ND8", vec!["nd 8 [x8]"]),
            ("NDx4", vec!["nd [x4]"]),
            ("nd 3 stops", vec!["nd [+3 stops]"]),
            ("ND 106", vec!["nd 106 [+6 stops]"]),
            ("Wratten 96 0.6", vec!["nd 0.6 [density 0.6]"]),
            ("orange x4", vec!["orange [x4]"]),
            ("orange ×4", vec!["orange [x4]"]),
            ("25 4x", vec!["25 [x4]"]),
            ("amber x 3", vec!["amber [x3]"]),
            ("orange factor 4", vec!["orange [x4]"]),
            ("yellow +1", vec!["yellow [+1 stop]"]),
            ("orange+1", vec!["orange [+1 stop]"]),
            (
                "yellow +1 + polariser",
                vec!["yellow [+1 stop]", "polariser"],
            ),
            ("x2.5", vec!["[x2.5]"]),
            ("+1 1/3", vec!["[+1 1/3 stops]"]),
            ("+1+1/3", vec!["[+1 1/3 stops]"]),
            ("+1⅓", vec!["[+1 1/3 stops]"]),
            ("1 1/3 stops", vec!["[+1 1/3 stops]"]),
            ("polariser 2 stops", vec!["polariser [+2 stops]"]),
            ("centre 1.5 stops", vec!["centre [+1.5 stops]"]),
            ("centre filter x1.5", vec!["centre [x1.5]"]),
            ("center 2.5x", vec!["center [x2.5]"]),
            ("density 0.6", vec!["[density 0.6]"]),
            ("grey d 0.6", vec!["grey [density 0.6]"]),
            ("deep yellow", vec!["deep yellow"]),
        ] {
            assert_eq!(told(text), read, "{text}");
        }
    }

    #[test]
    fn a_number_that_may_be_a_factor_or_stops_is_asked_about() {
        for text in [
            "centre 1.5",
            "center filter 1.5",
            "1.5",
            "centre 2",
            "polariser 1.5",
        ] {
            let why = stack(text).unwrap_err().to_string();
            assert!(why.contains("a factor or stops?"), "{text}: {why}");
        }
        for text in ["ND", "ND 3", "neutral"] {
            assert!(stack(text).is_err(), "{text}");
        }
    }

    #[test]
    fn a_filter_that_would_give_light_is_refused() {
        for text in [
            "orange -1",
            "x0.5",
            "-1",
            "orange x0",
            "density 99",
            "ND x0",
        ] {
            assert!(stack(text).is_err(), "{text}");
        }
    }

    proptest! {
        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            if let Ok(worn) = stack(&text) {
                for one in worn {
                    prop_assert!(one.strength.is_none_or(|it| it.in_stops().value() >= 0.0));
                }
            }
        }
    }
}
