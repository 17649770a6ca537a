//! The things a logbook follows, and how people call them.
//!
//! A thing is known for ever by its [`ThingId`] and called by its reference: `S-0042` for a sheet,
//! `H-07 A` for a side of a holder. Ids are for links, references for people and labels; two
//! machines can give the same reference to different things, so nothing in the program links by
//! reference. This module knows the kinds, their letters and how a reference is written and read.
//! Which references are taken is the store's to know.

use std::fmt;

use serde::{Deserialize, Serialize};
use uuid::Uuid;

/// Declares an id that is a UUID and nothing else.
macro_rules! id {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $name(pub Uuid);

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                self.0.fmt(f)
            }
        }

        impl fmt::Debug for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "{}({})", stringify!($name), self.0)
            }
        }
    };
}

id!(
    /// The lasting identity of a thing: a box, a side, a sheet, a print.
    ThingId
);
id!(
    /// The lasting identity of an entry.
    EntryId
);
id!(
    /// The identity of one act of the user, which may write several entries.
    ActId
);
id!(
    /// The identity of the machine an entry was written on.
    MachineId
);

/// The most characters a reference may have, so that it fits a label.
const LONGEST_REFERENCE: usize = 24;

/// What kind of thing something is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ThingKind {
    /// A box of sheet film.
    Box,
    /// A film holder or magazine.
    Holder,
    /// One side of a holder, or one septum or frame of a magazine.
    Side,
    /// A sheet of film, from box to negative.
    Sheet,
    /// Sheets of one subject that belong together.
    Set,
    /// One development of one or more sheets.
    Run,
    /// A mixed solution.
    Bath,
    /// A stock of printing paper.
    Paper,
    /// A print.
    Print,
    /// A lens.
    Lens,
    /// A camera.
    Camera,
    /// Something the user has found out.
    Finding,
}

impl ThingKind {
    /// Every kind, in the order a picture meets them.
    pub const ALL: [ThingKind; 12] = [
        ThingKind::Box,
        ThingKind::Holder,
        ThingKind::Side,
        ThingKind::Lens,
        ThingKind::Camera,
        ThingKind::Finding,
        ThingKind::Sheet,
        ThingKind::Set,
        ThingKind::Bath,
        ThingKind::Run,
        ThingKind::Paper,
        ThingKind::Print,
    ];

    /// The name used in the logbook file and in `--json` output.
    pub const fn name(self) -> &'static str {
        match self {
            ThingKind::Box => "box",
            ThingKind::Holder => "holder",
            ThingKind::Side => "side",
            ThingKind::Sheet => "sheet",
            ThingKind::Set => "set",
            ThingKind::Run => "run",
            ThingKind::Bath => "bath",
            ThingKind::Paper => "paper",
            ThingKind::Print => "print",
            ThingKind::Lens => "lens",
            ThingKind::Camera => "camera",
            ThingKind::Finding => "finding",
        }
    }

    /// The kind with this name, if there is one.
    pub fn named(name: &str) -> Option<ThingKind> {
        ThingKind::ALL.into_iter().find(|kind| kind.name() == name)
    }

    /// The letter its references begin with, and how many digits follow at least. A side has none
    /// of its own: it is called by its holder and its label.
    pub const fn letter(self) -> Option<(char, usize)> {
        match self {
            ThingKind::Box => Some(('F', 2)),
            ThingKind::Holder => Some(('H', 2)),
            ThingKind::Side => None,
            ThingKind::Sheet => Some(('S', 4)),
            ThingKind::Set => Some(('G', 4)),
            ThingKind::Run => Some(('R', 4)),
            ThingKind::Bath => Some(('B', 4)),
            ThingKind::Paper => Some(('Q', 4)),
            ThingKind::Print => Some(('P', 4)),
            ThingKind::Lens => Some(('L', 2)),
            ThingKind::Camera => Some(('C', 2)),
            ThingKind::Finding => Some(('N', 4)),
        }
    }

    /// The reference with this number, or `None` for a side.
    ///
    /// ```
    /// use notchbook::logbook::ThingKind;
    /// assert_eq!(ThingKind::Sheet.reference(42).as_deref(), Some("S-0042"));
    /// ```
    pub fn reference(self, number: u32) -> Option<String> {
        self.letter()
            .map(|(letter, digits)| format!("{letter}-{number:0digits$}"))
    }

    /// Whether a thing of this kind may have this tidy reference: letters, digits and a few marks
    /// that no list of references is parted by, and not what a thing of another kind is called.
    ///
    /// ```
    /// use notchbook::logbook::ThingKind;
    /// assert!(ThingKind::Holder.may_be_called("BLUE HOLDER"));
    /// assert!(!ThingKind::Sheet.may_be_called("H-07 A"));
    /// ```
    pub fn may_be_called(self, reference: &str) -> bool {
        let marks = ['-', ' ', '.', '/', '_', '\'', '&', '#'];
        let plain = |c: char| c.is_alphanumeric() || marks.contains(&c);
        let length = reference.chars().count();
        (1..=LONGEST_REFERENCE).contains(&length)
            && reference.chars().all(plain)
            && reference.trim() == reference
            && tidy_usual(reference).is_none_or(|_| self.number(reference).is_some())
    }

    /// The number in a reference of this kind, if it is written the usual way.
    pub fn number(self, reference: &str) -> Option<u32> {
        let (letter, _) = self.letter()?;
        reference
            .strip_prefix(letter)?
            .strip_prefix('-')?
            .parse()
            .ok()
    }
}

impl fmt::Display for ThingKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// One thing: what it is and which one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Thing {
    /// What kind of thing.
    pub kind: ThingKind,
    /// Which one.
    pub id: ThingId,
}

impl Thing {
    /// The thing of `kind` with `id`.
    pub const fn new(kind: ThingKind, id: ThingId) -> Thing {
        Thing { kind, id }
    }
}

/// Brings a typed reference into the form it is stored in: `s42`, `S 42` and `S-0042` are one
/// sheet, `h7a`, `H-07 A` and `h07/a` one side. What does not look like a reference comes back
/// trimmed, in capitals, so that names of the user's own (`H-BLUE`) work too.
///
/// ```
/// use notchbook::logbook::tidy_reference;
/// assert_eq!(tidy_reference("s42"), "S-0042");
/// assert_eq!(tidy_reference("h7a"), "H-07 A");
/// assert_eq!(tidy_reference("H-12 6"), "H-12 6");
/// ```
pub fn tidy_reference(typed: &str) -> String {
    let plain = typed.trim().to_uppercase();
    tidy_usual(&plain).unwrap_or(plain)
}

fn tidy_usual(plain: &str) -> Option<String> {
    let letter = plain.chars().next()?;
    let kind = ThingKind::ALL
        .into_iter()
        .find(|kind| kind.letter().is_some_and(|(first, _)| first == letter))?;
    let rest = plain
        .get(letter.len_utf8()..)?
        .trim_start_matches(['-', ' ']);
    let digits = rest
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(rest.len());
    let number: u32 = rest.get(..digits)?.parse().ok()?;
    let tail = rest.get(digits..)?.trim_matches([' ', '/', '-']);
    let base = kind.reference(number)?;
    match (kind, tail) {
        (_, "") => Some(base),
        (ThingKind::Holder, label) if label.chars().all(char::is_alphanumeric) => {
            Some(format!("{base} {label}"))
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn references_are_read_as_people_write_them() {
        for (typed, stored) in [
            ("s-42", "S-0042"),
            (" S 0042 ", "S-0042"),
            ("f3", "F-03"),
            ("h-07b", "H-07 B"),
            ("H7 b", "H-07 B"),
            ("h07/a", "H-07 A"),
            ("h-112 a", "H-112 A"),
            ("p12345", "P-12345"),
            ("blue holder", "BLUE HOLDER"),
            ("S-12X", "S-12X"),
            ("", ""),
        ] {
            assert_eq!(tidy_reference(typed), stored, "typed {typed:?}");
        }
    }

    #[test]
    fn every_kind_but_a_side_has_its_own_letter() {
        let mut letters: Vec<char> = ThingKind::ALL
            .into_iter()
            .filter_map(|kind| kind.letter().map(|(letter, _)| letter))
            .collect();
        letters.sort_unstable();
        letters.dedup();
        assert_eq!(letters.len(), ThingKind::ALL.len() - 1);
    }

    #[test]
    fn a_number_is_read_back_from_its_reference() {
        for kind in ThingKind::ALL {
            if let Some(reference) = kind.reference(7) {
                assert_eq!(kind.number(&reference), Some(7));
            }
        }
    }
}
