//! What is asked of a development, as a person writes it and as an exposure leaves it behind.
//!
//! `N-1`, `N-1; -10 %` where the film gained contrast in a long exposure, `gradient 0.62`, or the way of
//! printing the negative is meant for. Promises: what cannot be read is told, never left out; several
//! changes of contrast add up. How long to develop for it is for the figures.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::contrast::Expansion;
use crate::craft::Unreadable;
use crate::craft::numeral::{Cursor, plain, trimmed};

const WANTED: &str =
    "what is asked of a development: write N, N-1, N-1; -10 %, gradient 0.62 or a way of printing";
const PERCENT: &str = "a change of the time from -60 % to +150 %: write -10 %";
const GRADIENT: &str = "a gradient from 0.2 to 2.5: write 0.62";
const TWICE: &str = "one thing: give one gradient or one way of printing, not two";

/// What a long exposure or a test may change of a time, in percent.
const CHANGES: std::ops::RangeInclusive<f64> = -60.0..=150.0;
/// Gradients of negatives.
const GRADIENTS: std::ops::RangeInclusive<f64> = 0.2..=2.5;

/// What is asked of a development. Nothing at all is normal development.
///
/// ```
/// use notchbook::craft::development::asked::Asked;
/// let asked = Asked::parse("less, N-1; N-1/2; -10 %")?;
/// assert_eq!(asked.to_string(), "N-1 1/2; -10 %");
/// assert_eq!(Asked::parse("normally")?, Asked::default());
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Asked {
    /// The change of contrast in zones; nothing is N.
    pub by: Option<Expansion>,
    /// A change of the time, in percent, as texts give it for long exposures.
    pub percent: Option<f64>,
    /// The average gradient that is wanted.
    pub gradient: Option<f64>,
    /// The way of printing whose range is wanted.
    pub printed_as: Option<String>,
}

impl Asked {
    /// Reads `N-1`, `less, N-1; -10 %`, `develop normally`, `gradient 0.62`, `0.62`, `cyanotype; N-1`.
    ///
    /// # Errors
    /// If a part of it is no such thing, or lies outside what can be.
    pub fn parse(text: &str) -> Result<Asked, Unreadable> {
        let mut asked = Asked::default();
        let (mut zones, mut said, mut way) = (None::<f64>, false, false);
        for part in parts(text) {
            let part = plain(part);
            let mut part = part.as_str();
            while let Some(rest) = part
                .strip_prefix("develop ")
                .or_else(|| part.strip_prefix("for "))
            {
                part = rest.trim_start();
            }
            match part {
                "" => {}
                "normal" | "normally" | "none" | "no change" => said = true,
                // The end of "-30 % at the last row, none given beyond".
                "none given beyond" => {}
                "less" | "more" | "a little less" | "a little more" | "much less" | "much more" => {
                    way = true;
                }
                _ => {
                    said = true;
                    if let Some((change, percent)) = amount(part)? {
                        zones = Some(zones.unwrap_or(0.0) + change);
                        if percent != 0.0 {
                            asked.percent = Some(together(asked.percent, percent));
                        }
                    } else if part.ends_with('%') {
                        return Err(Unreadable::new(text, PERCENT));
                    } else if let Some(gradient) = gradient(part) {
                        if !GRADIENTS.contains(&gradient) {
                            return Err(Unreadable::new(text, GRADIENT));
                        }
                        if asked.gradient.replace(gradient).is_some() {
                            return Err(Unreadable::new(text, TWICE));
                        }
                    } else if part.chars().all(|c| c.is_alphabetic() || " -/".contains(c)) {
                        if asked.printed_as.replace(part.to_owned()).is_some() {
                            return Err(Unreadable::new(text, TWICE));
                        }
                    } else {
                        return Err(Unreadable::new(text, WANTED));
                    }
                }
            }
        }
        if asked.gradient.is_some() && asked.printed_as.is_some() {
            return Err(Unreadable::new(text, TWICE));
        }
        if asked
            .percent
            .is_some_and(|percent| !CHANGES.contains(&percent))
        {
            return Err(Unreadable::new(text, PERCENT));
        }
        // "less" alone does not say how much, and nothing at all is nothing that was asked.
        if !said && (way || text.trim().is_empty()) {
            return Err(Unreadable::new(text, WANTED));
        }
        // What would be shown as nothing is nothing.
        if let Some(zones) = zones.filter(|zones| zones.abs() >= 0.005) {
            asked.by = Some(Expansion::new(zones)?);
        }
        asked.percent = asked.percent.filter(|percent| percent.abs() >= 0.0005);
        Ok(asked)
    }

    /// The change of contrast, N where none is asked for.
    #[must_use]
    pub fn change(&self) -> Expansion {
        self.by.unwrap_or(Expansion::NORMAL)
    }

    /// Both together: changes of contrast and of the time add up; of two gradients or ways of printing
    /// this one stands.
    ///
    /// # Errors
    /// If together they go further than any rule.
    pub fn and(&self, other: &Asked) -> Result<Asked, Unreadable> {
        let zones = self.change().zones() + other.change().zones();
        let percent = match (self.percent, other.percent) {
            (Some(one), Some(more)) => Some(together(Some(one), more)),
            (one, more) => one.or(more),
        };
        Ok(Asked {
            by: (zones != 0.0).then(|| Expansion::new(zones)).transpose()?,
            percent,
            gradient: self.gradient.or(other.gradient),
            printed_as: self.printed_as.clone().or_else(|| other.printed_as.clone()),
        })
    }
}

/// The parts between semicolons and commas; a comma between two digits is a decimal mark.
fn parts(text: &str) -> Vec<&str> {
    let mut parts = Vec::new();
    let mut rest = text;
    let mut from = 0;
    while let Some(at) = rest.get(from..).and_then(|it| it.find([';', ','])) {
        let (before, after) = rest.split_at(from + at);
        let decimal = after.starts_with(',')
            && before.ends_with(|c: char| c.is_ascii_digit())
            && after.chars().nth(1).is_some_and(|c| c.is_ascii_digit());
        if decimal {
            from += at + 1;
        } else {
            parts.push(before);
            rest = after.get(1..).unwrap_or("");
            from = 0;
        }
    }
    parts.push(rest);
    parts
}

/// One change in percent after another.
fn together(one: Option<f64>, more: f64) -> f64 {
    let after = (1.0 + one.unwrap_or(0.0) / 100.0) * (1.0 + more / 100.0);
    // Thousandths of a percent are noise of the arithmetic.
    ((after - 1.0) * 1e5).round() / 1e3
}

/// A change in zones and in percent: `N-1`, `-10 %`, and between two rows of a table of long exposures
/// `between -20 % and -30 %`, whose middle is meant, or `at most -20 %`, of which half is meant.
fn amount(part: &str) -> Result<Option<(f64, f64)>, Unreadable> {
    if let Some(last) = part.strip_suffix("at the last row") {
        return amount(last.trim());
    }
    if let Some(most) = part.strip_prefix("at most ") {
        return Ok(amount(most.trim())?.map(|(zones, percent)| (zones / 2.0, percent / 2.0)));
    }
    if let Some((one, other)) = part
        .strip_prefix("between ")
        .and_then(|pair| pair.split_once(" and "))
    {
        let both = (amount(one.trim())?, amount(other.trim())?);
        return Ok(match both {
            (Some(one), Some(other)) => Some(((one.0 + other.0) / 2.0, (one.1 + other.1) / 2.0)),
            _ => None,
        });
    }
    if let Some(percent) = part.strip_suffix('%') {
        return Ok(in_percent(percent).map(|percent| (0.0, percent)));
    }
    if is_change(part) {
        return Expansion::parse(part).map(|by| Some((by.zones(), 0.0)));
    }
    Ok(None)
}

fn in_percent(text: &str) -> Option<f64> {
    let mut cursor = Cursor::new(text.trim());
    let sign = cursor.sign();
    let size = cursor.number()?;
    cursor.at_end().then_some(sign * size)
}

/// `gradient 0.62`, `g 0.62`, or a bare number without a sign.
fn gradient(part: &str) -> Option<f64> {
    let rest = ["gradient", "g-bar", "g"]
        .into_iter()
        .find_map(|word| part.strip_prefix(word));
    let number = rest.unwrap_or(part).trim();
    let mut cursor = Cursor::new(number);
    let value = cursor.decimal()?;
    cursor.at_end().then_some(value)
}

/// Whether a part begins as a change of contrast does.
fn is_change(part: &str) -> bool {
    let rest = part.strip_prefix('n').unwrap_or(part).trim_start();
    rest.is_empty() || rest.starts_with(['+', '-', '\u{2212}'])
}

impl fmt::Display for Asked {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut parts: Vec<String> = Vec::new();
        parts.extend(self.printed_as.clone());
        parts.extend(
            self.gradient
                .map(|it| format!("gradient {}", trimmed(it, 3))),
        );
        parts.extend(self.by.map(|by| by.to_string()));
        if let Some(percent) = self.percent {
            let sign = if percent > 0.0 { "+" } else { "" };
            parts.push(format!("{sign}{} %", trimmed(percent, 3)));
        }
        if parts.is_empty() {
            return f.write_str("N");
        }
        f.write_str(&parts.join("; "))
    }
}

impl FromStr for Asked {
    type Err = Unreadable;

    fn from_str(text: &str) -> Result<Asked, Unreadable> {
        Asked::parse(text)
    }
}

impl TryFrom<String> for Asked {
    type Error = Unreadable;

    fn try_from(text: String) -> Result<Asked, Unreadable> {
        Asked::parse(&text)
    }
}

impl From<Asked> for String {
    fn from(asked: Asked) -> String {
        asked.to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_people_and_exposures_write_is_read() {
        for (text, shown) in [
            ("N", "N"),
            ("normally", "N"),
            ("develop normally", "N"),
            ("n-1", "N-1"),
            ("a little less, N-0.4", "N-0.4"),
            ("less, N-1; -10 %", "N-1; -10 %"),
            ("normally; N-1/2", "N-1/2"),
            ("N-1; N-1/2", "N-1 1/2"),
            ("-20%", "-20 %"),
            ("-10 %; -10 %", "-19 %"),
            ("none", "N"),
            ("0.62", "gradient 0.62"),
            ("G 0,58; N+1", "gradient 0.58; N+1"),
            ("Cyanotype, N-1", "cyanotype; N-1"),
            ("at most -20 %", "-10 %"),
            ("between -20 % and -30 %", "-25 %"),
            ("normally; between N-1/2 and N-1", "N-0.75"),
            ("-30 % at the last row, none given beyond", "-30 %"),
        ] {
            let asked = Asked::parse(text).unwrap_or_else(|why| panic!("{text}: {why}"));
            assert_eq!(asked.to_string(), shown, "{text}");
        }
    }

    #[test]
    fn what_says_nothing_or_too_much_is_a_sentence() {
        for text in [
            "",
            "less",
            "N-3",
            "N-1; N-1; N-1",
            "-80 %",
            "12 %%",
            "0.1",
            "0.6; 0.7",
            "N1",
            "%",
            "cyanotype; salt",
            "x0.8",
        ] {
            assert!(Asked::parse(text).is_err(), "{text}");
        }
    }

    #[test]
    fn two_wishes_add_up() {
        let of = |text: &str| Asked::parse(text).unwrap();
        let both = of("N-1").and(&of("N-1/2; -10 %")).unwrap();
        assert_eq!(both, of("N-1 1/2; -10 %"));
        assert!(of("N-2").and(&of("N-1")).is_err());
    }

    proptest! {
        #[test]
        fn no_text_makes_the_reader_panic_and_what_is_shown_is_read_again(
            text in crate::craft::scribble::text(),
        ) {
            if let Ok(asked) = Asked::parse(&text) {
                let again = Asked::parse(&asked.to_string()).unwrap();
                prop_assert_eq!(again.to_string(), asked.to_string());
            }
        }
    }
}
