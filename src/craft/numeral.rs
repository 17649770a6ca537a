//! How people write numbers: point or comma, fractions, mixed numbers, and the characters that
//! keyboards, telephones and word processors put in their place.
//!
//! [`plain`] brings a text to one spelling, [`Cursor`] walks over it, and [`trimmed`] and
//! [`in_thirds`] write numbers back. Nothing here knows a unit or a range, and nothing can panic,
//! whatever the text.

use super::unreadable::Unreadable;

/// One spelling for everything that means the same: lower case, `/` for every slash, `'` and `"`
/// for primes and curly quotes, `-` for every dash, `x` for the multiplication sign, single spaces,
/// and fraction characters written out (`13½` becomes `13 1/2`).
pub(crate) fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars().flat_map(char::to_lowercase) {
        if let Some(fraction) = fraction(c) {
            // Spaces keep the digits beside it apart: "13½" is not thirteen-and-eleven halves.
            out.push(' ');
            out.push_str(fraction);
            out.push(' ');
            continue;
        }
        match c {
            '\u{2044}' | '\u{2215}' | '\u{ff0f}' => out.push('/'),
            '\u{2032}' | '\u{2018}' | '\u{2019}' | '\u{02b9}' | '\u{00b4}' | '`' => out.push('\''),
            '\u{2033}' | '\u{201c}' | '\u{201d}' | '\u{201e}' | '\u{02ba}' => out.push('"'),
            '\u{00d7}' | '\u{2715}' | '\u{2716}' | '\u{2a2f}' => out.push('x'),
            '\u{2212}' | '\u{2010}'..='\u{2015}' => out.push('-'),
            '\u{00ba}' | '\u{02da}' => out.push('\u{00b0}'),
            '\u{0192}' => out.push('f'),
            '\u{00b3}' => out.push('3'),
            c if c.is_whitespace() => out.push(' '),
            c => out.push(c),
        }
    }
    let words: Vec<&str> = out.split(' ').filter(|word| !word.is_empty()).collect();
    words.join(" ").replace("''", "\"")
}

fn fraction(c: char) -> Option<&'static str> {
    Some(match c {
        '½' => "1/2",
        '⅓' => "1/3",
        '⅔' => "2/3",
        '¼' => "1/4",
        '¾' => "3/4",
        '⅕' => "1/5",
        '⅖' => "2/5",
        '⅗' => "3/5",
        '⅘' => "4/5",
        '⅙' => "1/6",
        '⅚' => "5/6",
        '⅛' => "1/8",
        '⅜' => "3/8",
        '⅝' => "5/8",
        '⅞' => "7/8",
        '⅒' => "1/10",
        _ => return None,
    })
}

/// Whether a comma stands where it may group thousands (`1,500`). Reading that as one and a half
/// would be a guess with consequences, so no number is read from it; `0,125` is a decimal.
pub(crate) fn groups_thousands(text: &str) -> bool {
    let mut rest = text;
    while let Some((before, after)) = rest.split_once(',') {
        let head = before
            .rsplit(|c: char| !c.is_ascii_digit())
            .next()
            .unwrap_or("");
        let tail = after.chars().take_while(char::is_ascii_digit).count();
        if (1..=3).contains(&head.len()) && !head.starts_with('0') && tail == 3 {
            return true;
        }
        rest = after;
    }
    false
}

/// A place in a text that was made [`plain`].
#[derive(Debug, Clone)]
pub(crate) struct Cursor<'t> {
    rest: &'t str,
}

/// A number as written, and whether it was written with digits alone.
#[derive(Debug, Clone, Copy)]
struct Digits {
    value: f64,
    whole: bool,
}

impl<'t> Cursor<'t> {
    /// The start of `plain`.
    pub(crate) fn new(plain: &'t str) -> Self {
        Self { rest: plain }
    }

    /// Whether nothing is left but spaces.
    pub(crate) fn at_end(&self) -> bool {
        self.rest.trim_start().is_empty()
    }

    /// Steps over `c`, after any spaces; says whether it was there.
    pub(crate) fn take(&mut self, c: char) -> bool {
        match self.rest.trim_start().strip_prefix(c) {
            Some(rest) => {
                self.rest = rest;
                true
            }
            None => false,
        }
    }

    /// Steps over spaces; says whether there were any.
    pub(crate) fn space(&mut self) -> bool {
        let before = self.rest.len();
        self.rest = self.rest.trim_start();
        self.rest.len() < before
    }

    /// Steps over a `-` or `+`: -1 for the first, 1 for the second or for none.
    pub(crate) fn sign(&mut self) -> f64 {
        if self.take('-') {
            -1.0
        } else {
            self.take('+');
            1.0
        }
    }

    /// The next unit or name: one quote mark, or a run of letters and degree signs. A full stop
    /// that ends an abbreviation is stepped over. Empty if something else comes next.
    pub(crate) fn word(&mut self) -> &'t str {
        let text = self.rest.trim_start();
        let length = match text.chars().next() {
            Some('\'' | '"') => 1,
            _ => text
                .find(|c: char| !(c.is_alphabetic() || c == '\u{b0}'))
                .unwrap_or(text.len()),
        };
        if length == 0 {
            return "";
        }
        let (word, rest) = text.split_at(length);
        let stop = rest
            .strip_prefix('.')
            .filter(|after| !after.starts_with(|c: char| c.is_ascii_digit()));
        self.rest = stop.unwrap_or(rest);
        word
    }

    /// All the words up to the next thing that is none, run together: `us fl. oz` is `usfloz`.
    pub(crate) fn words(&mut self) -> String {
        let mut all = String::new();
        loop {
            let word = self.word();
            if word.is_empty() {
                return all;
            }
            all.push_str(word);
        }
    }

    /// A number without sign or fraction: `4`, `4.5`, `4,5`, `.5`.
    pub(crate) fn decimal(&mut self) -> Option<f64> {
        self.digits().map(|digits| digits.value)
    }

    /// A whole number without sign, small enough for any count.
    pub(crate) fn whole(&mut self) -> Option<u32> {
        let mut ahead = self.clone();
        let digits = ahead.digits()?;
        let value = exact_u32(digits.value).filter(|_| digits.whole)?;
        *self = ahead;
        Some(value)
    }

    /// A number without sign: a decimal, a fraction `1/15`, or a mixed number `13 1/2`.
    pub(crate) fn number(&mut self) -> Option<f64> {
        let first = self.digits()?;
        if self.take('/') {
            let below = self.digits()?.value;
            return (below > 0.0).then_some(first.value / below);
        }
        let mut ahead = self.clone();
        if first.whole
            && let Some(part) = ahead.proper_fraction()
        {
            *self = ahead;
            return Some(first.value + part);
        }
        Some(first.value)
    }

    /// A fraction below one between whole numbers: `1/3`.
    fn proper_fraction(&mut self) -> Option<f64> {
        let above = self.whole()?;
        if !self.take('/') {
            return None;
        }
        let below = self.whole()?;
        (above < below).then(|| f64::from(above) / f64::from(below))
    }

    fn digits(&mut self) -> Option<Digits> {
        let text = self.rest.trim_start();
        let whole = text.len() - text.trim_start_matches(|c: char| c.is_ascii_digit()).len();
        let (head, rest) = text.split_at(whole);
        let (tail, rest, comma) = match rest.strip_prefix(['.', ',']) {
            Some(after) if after.starts_with(|c: char| c.is_ascii_digit()) => {
                let tail =
                    after.len() - after.trim_start_matches(|c: char| c.is_ascii_digit()).len();
                let (tail, after) = after.split_at(tail);
                (tail, after, rest.starts_with(','))
            }
            _ => ("", rest, false),
        };
        if head.is_empty() && tail.is_empty() {
            return None;
        }
        if comma && groups_thousands(&format!("{head},{tail}")) {
            return None;
        }
        self.rest = rest;
        let value = format!("{head}.{tail}0").parse().ok()?;
        Some(Digits {
            value,
            whole: tail.is_empty(),
        })
    }
}

/// `value` as a whole number from 0 to the largest `u32`, if it is one.
pub(crate) fn exact_u32(value: f64) -> Option<u32> {
    let fits = value.fract() == 0.0 && (0.0..=f64::from(u32::MAX)).contains(&value);
    // The check above makes this cast exact.
    fits.then_some(value as u32)
}

/// `value` without the noise that a change of units leaves behind: 9.5 in is 241.3 mm and not
/// 241.29999999999998. Nine places are kept.
pub(crate) fn without_noise(value: f64) -> f64 {
    (value * 1e9).round() / 1e9
}

/// `value` with at most `decimals` places and no idle zeros; zero never carries a minus sign.
pub(crate) fn trimmed(value: f64, decimals: usize) -> String {
    let fixed = format!("{value:.decimals$}");
    let short = if fixed.contains('.') {
        fixed.trim_end_matches('0').trim_end_matches('.')
    } else {
        &fixed
    };
    if short == "-0" { "0" } else { short }.to_owned()
}

/// The decimals that show four figures of `value`; none from 1000 on, fourteen at most.
pub(crate) fn four_figures(value: f64) -> usize {
    let places = 3.0 - value.abs().log10().floor();
    // A cast of what is no number gives 0.
    places.clamp(0.0, 14.0) as usize
}

/// Reads a plain number as people write it: `2.25`, `1/4`, `1 1/2`, `0,5`, `-3`.
///
/// # Errors
/// If the text is no number, or one that is not finite.
pub fn number(text: &str) -> Result<f64, Unreadable> {
    let plain = plain(text);
    let mut cursor = Cursor::new(&plain);
    let sign = cursor.sign();
    cursor
        .number()
        .filter(|value| value.is_finite() && cursor.at_end())
        .map(|value| sign * value)
        .ok_or_else(|| Unreadable::new(text, "a number: write 2.25, 1/4 or -3"))
}

/// `value` as scales divide a stop: whole numbers and thirds as fractions (`11 1/3`, `-2/3`),
/// anything else with at most two places.
pub(crate) fn in_thirds(value: f64) -> String {
    let thirds = (value.abs() * 3.0).round();
    let is_third = (value.abs() * 3.0 - thirds).abs() < 1e-6;
    let (whole, part) = ((thirds / 3.0).floor(), thirds % 3.0);
    if !is_third || part == 0.0 {
        return trimmed(value, 2);
    }
    let sign = if value < 0.0 { "-" } else { "" };
    if whole == 0.0 {
        format!("{sign}{part}/3")
    } else {
        format!("{sign}{whole} {part}/3")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn number(text: &str) -> Option<f64> {
        let plain = plain(text);
        let mut cursor = Cursor::new(&plain);
        let value = cursor.number()?;
        cursor.at_end().then_some(value)
    }

    #[test]
    fn numbers_are_read_as_people_write_them() {
        for (text, value) in [
            ("4", 4.0),
            ("4.5", 4.5),
            ("4,5", 4.5),
            (".5", 0.5),
            ("1/4", 0.25),
            ("1 / 4", 0.25),
            ("1⁄4", 0.25),
            ("13 1/2", 13.5),
            ("13½", 13.5),
            ("13 ½", 13.5),
            ("¾", 0.75),
            ("0,125", 0.125),
        ] {
            assert_eq!(number(text), Some(value), "{text}");
        }
    }

    #[test]
    fn what_is_no_number_gives_none() {
        for text in [
            "", "x", "1/0", "1/", "/2", "13 3/2", "1½5", "1.2.3", "1,5,2", "1,500", "1e3", "nan",
            "inf", "-1", "1 2", "1.5 1/2", "٣", "²",
        ] {
            assert_eq!(number(text), None, "{text}");
        }
    }

    #[test]
    fn a_word_ends_before_a_quote_mark_and_drops_its_full_stop() {
        let mut cursor = Cursor::new("fl. oz. '30\"");
        assert_eq!(cursor.words(), "floz'");
        assert_eq!(cursor.decimal(), Some(30.0));
        assert_eq!(cursor.word(), "\"");
        assert!(cursor.at_end());
    }

    #[test]
    fn numbers_are_written_without_idle_zeros() {
        assert_eq!(trimmed(240.0, 3), "240");
        assert_eq!(trimmed(342.90, 3), "342.9");
        assert_eq!(trimmed(-0.0001, 2), "0");
        assert_eq!(trimmed(100.0, 0), "100");
    }

    #[test]
    fn thirds_are_written_as_fractions() {
        assert_eq!(in_thirds(11.0 + 1.0 / 3.0), "11 1/3");
        assert_eq!(in_thirds(-2.0 / 3.0), "-2/3");
        assert_eq!(in_thirds(11.3), "11.3");
        assert_eq!(in_thirds(12.0), "12");
        assert_eq!(in_thirds(-0.0), "0");
    }

    proptest! {
        #[test]
        fn any_text_is_walked_to_an_end_without_a_panic(text in crate::craft::scribble::text()) {
            let plain = plain(&text);
            let mut cursor = Cursor::new(&plain);
            let mut steps = 0;
            while cursor.number().is_some() || !cursor.word().is_empty() {
                steps += 1;
                prop_assert!(steps <= plain.len());
            }
            let _ = groups_thousands(&text);
        }

        #[test]
        fn plain_text_stays_as_it_is(text in crate::craft::scribble::text()) {
            let once = plain(&text);
            prop_assert_eq!(plain(&once), once);
        }
    }
}
