//! How a solution is thinned: one part and thirty-one parts of water.
//!
//! Written with a plus, so that it cannot be taken for a share of the whole: 1+9 is one part in
//! ten. What the parts come to in a given volume is left to the figures for solutions.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::numeral::{Cursor, exact_u32, plain, trimmed};
use super::unreadable::Unreadable;

const WANTED: &str = "a dilution: write 1+31, 1+1+100 or stock";
const RANGE: &str = "a dilution of two to four parts, each from 0.001 to 10000";

/// The most parts a dilution can name.
const MOST: usize = 4;

/// Stock as it is, or two to four parts by volume, the last of them as a rule water; each part from
/// 0.001 to 10000, kept to three places.
///
/// ```
/// use notchbook::craft::Dilution;
/// assert_eq!(Dilution::parse("1:31")?.to_string(), "1+31");
/// assert_eq!(Dilution::parse("2 + 1 + 100")?.parts(), vec![2.0, 1.0, 100.0]);
/// assert_eq!(Dilution::parse("Stock")?, Dilution::STOCK);
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Dilution {
    /// Thousandths of a part; unused places at the end are 0. All are 0 for stock.
    parts: [u32; MOST],
}

impl Dilution {
    /// Undiluted.
    pub const STOCK: Self = Self { parts: [0; MOST] };

    /// Reads `1+31`, `1:31`, `1+1+100`, `1,5+1,5+100`, `stock`, `undiluted`.
    ///
    /// # Errors
    /// If the text is no dilution, or a part is outside its range.
    pub fn parse(text: &str) -> Result<Self, Unreadable> {
        let plain = plain(text);
        if matches!(
            plain.as_str(),
            "stock" | "undiluted" | "neat" | "straight" | "full strength"
        ) {
            return Ok(Self::STOCK);
        }
        let parts = read(&plain).ok_or_else(|| Unreadable::new(text, WANTED))?;
        Self::from_parts(&parts).ok_or_else(|| Unreadable::new(text, RANGE))
    }

    fn from_parts(written: &[f64]) -> Option<Self> {
        if !(2..=MOST).contains(&written.len()) {
            return None;
        }
        let mut parts = [0; MOST];
        for (part, written) in parts.iter_mut().zip(written) {
            if !(0.001..=10_000.0).contains(written) {
                return None;
            }
            *part = exact_u32((written * 1000.0).round())?;
        }
        Some(Self { parts })
    }

    /// The parts in the order written; a single part for stock.
    #[must_use]
    pub fn parts(self) -> Vec<f64> {
        if self == Self::STOCK {
            return vec![1.0];
        }
        self.parts
            .into_iter()
            .filter(|part| *part > 0)
            .map(|part| f64::from(part) / 1000.0)
            .collect()
    }
}

fn read(plain: &str) -> Option<Vec<f64>> {
    let mut cursor = Cursor::new(plain);
    let mut parts = vec![cursor.decimal()?];
    while cursor.take('+') || cursor.take(':') {
        parts.push(cursor.decimal()?);
    }
    cursor.at_end().then_some(parts)
}

impl fmt::Display for Dilution {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if *self == Self::STOCK {
            return f.write_str("stock");
        }
        let parts: Vec<String> = self
            .parts()
            .into_iter()
            .map(|part| trimmed(part, 3))
            .collect();
        f.write_str(&parts.join("+"))
    }
}

impl FromStr for Dilution {
    type Err = Unreadable;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        Self::parse(text)
    }
}

impl TryFrom<String> for Dilution {
    type Error = Unreadable;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        Self::parse(&text)
    }
}

impl From<Dilution> for String {
    fn from(dilution: Dilution) -> Self {
        dilution.to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn dilutions_are_read_as_people_write_them() {
        for (text, shown) in [
            ("1+31", "1+31"),
            ("1:31", "1+31"),
            ("1 + 31", "1+31"),
            ("1+1+100", "1+1+100"),
            ("1,5+1,5+100", "1.5+1.5+100"),
            ("stock", "stock"),
            (" STOCK ", "stock"),
            ("undiluted", "stock"),
            ("Full strength", "stock"),
        ] {
            assert_eq!(Dilution::parse(text).unwrap().to_string(), shown, "{text}");
        }
    }

    #[test]
    fn what_is_no_dilution_is_refused() {
        for text in [
            "", "1", "1+", "+31", "1/31", "1-31", "1+x", "b", "1 31", "nan+1",
        ] {
            assert!(Dilution::parse(text).is_err(), "{text}");
        }
        for text in ["1+0", "0+31", "1+1+1+1+1", "1+10001", "1+0.0001"] {
            let why = Dilution::parse(text).unwrap_err().to_string();
            assert!(
                why.contains("is not a dilution of two to four parts"),
                "{why}"
            );
        }
    }

    #[test]
    fn json_holds_a_short_text_and_is_checked_on_the_way_in() {
        let dilution = Dilution::parse("1:31").unwrap();
        assert_eq!(serde_json::to_string(&dilution).unwrap(), "\"1+31\"");
        assert_eq!(
            serde_json::from_str::<Dilution>("\"1+31\"").unwrap(),
            dilution
        );
        let why = serde_json::from_str::<Dilution>("\"1+0\"")
            .unwrap_err()
            .to_string();
        assert!(why.contains("\"1+0\" is not a dilution of"), "{why}");
    }

    proptest! {
        #[test]
        fn what_is_shown_is_read_back_the_same(
            parts in proptest::collection::vec(1_u32..=10_000_000, 2..=4)
        ) {
            let written: Vec<f64> = parts.iter().map(|part| f64::from(*part) / 1000.0).collect();
            let dilution = Dilution::from_parts(&written).unwrap();
            prop_assert_eq!(Dilution::parse(&dilution.to_string()).unwrap(), dilution);
            prop_assert_eq!(dilution.parts(), written);
        }

        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            if let Ok(dilution) = Dilution::parse(&text) {
                prop_assert_eq!(Dilution::parse(&dilution.to_string()).unwrap(), dilution);
            }
        }
    }
}
