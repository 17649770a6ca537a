//! What a number rests on: how far it may be trusted, and where it was read.
//!
//! For: every figure of the craft and every number of the reference. Promises: a standing is never
//! raised on the way; what was remembered is shown as remembered. Which of two numbers to take is left
//! to the caller, who finds the more trusted one by comparing their standings.

use std::borrow::Cow;
use std::fmt;

use serde::{Deserialize, Serialize};

/// What a number rests on.
///
/// The order is that of trust, least first, so that the larger of two is the one to prefer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Standing {
    /// From memory, still to be confirmed.
    Remembered,
    /// Common practice, no source.
    Usual,
    /// Read in a text that is named; a second-hand reading says so in its source.
    Published,
    /// Measured or set by the user.
    Own,
}

impl Standing {
    /// Every standing, most trusted first.
    pub const ALL: [Standing; 4] = [
        Standing::Own,
        Standing::Published,
        Standing::Usual,
        Standing::Remembered,
    ];

    /// The one word shown beside a number.
    pub fn word(self) -> &'static str {
        match self {
            Standing::Remembered => "remembered",
            Standing::Usual => "usual",
            Standing::Published => "published",
            Standing::Own => "own",
        }
    }
}

impl fmt::Display for Standing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.word())
    }
}

/// The standing of a number or a formula, with the text it was read in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Grounds {
    /// How far it may be trusted.
    pub standing: Standing,
    /// Where it was read or when it was measured; empty for common practice.
    #[serde(default, skip_serializing_if = "str::is_empty")]
    pub source: Cow<'static, str>,
}

impl Grounds {
    /// Read in the text named.
    #[must_use]
    pub const fn published(source: &'static str) -> Grounds {
        Grounds {
            standing: Standing::Published,
            source: Cow::Borrowed(source),
        }
    }

    /// Common practice, no source.
    #[must_use]
    pub const fn usual() -> Grounds {
        Grounds {
            standing: Standing::Usual,
            source: Cow::Borrowed(""),
        }
    }

    /// From memory, still to be confirmed.
    #[must_use]
    pub const fn remembered(what: &'static str) -> Grounds {
        Grounds {
            standing: Standing::Remembered,
            source: Cow::Borrowed(what),
        }
    }

    /// Measured or set by the user.
    #[must_use]
    pub fn own(source: impl Into<Cow<'static, str>>) -> Grounds {
        Grounds {
            standing: Standing::Own,
            source: source.into(),
        }
    }

    /// With this standing, read there.
    #[must_use]
    pub fn new(standing: Standing, source: impl Into<Cow<'static, str>>) -> Grounds {
        Grounds {
            standing,
            source: source.into(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn own_measurements_rank_above_published_and_memory_ranks_last() {
        assert!(Standing::Own > Standing::Published);
        assert!(Standing::Published > Standing::Usual);
        assert!(Standing::Usual > Standing::Remembered);
        assert_eq!(Standing::Published.to_string(), "published");
    }

    #[test]
    fn grounds_go_to_json_and_back() {
        let read = Grounds::published("a data sheet, 2016");
        let json = serde_json::to_string(&read).unwrap();
        assert_eq!(
            json,
            r#"{"standing":"published","source":"a data sheet, 2016"}"#
        );
        assert_eq!(serde_json::from_str::<Grounds>(&json).unwrap(), read);
        let usual = serde_json::to_string(&Grounds::usual()).unwrap();
        assert_eq!(usual, r#"{"standing":"usual"}"#);
    }
}
