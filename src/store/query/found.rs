//! Finding rows of a list as the user types: every word must be somewhere in what the row says.
//!
//! The words are looked for twice. The database passes over what cannot match, with patterns that
//! know the case of plain letters only and let any other character stand for any; what it lets
//! through is compared here with the case of every script taken into account. So an `Ä` finds an
//! `ä`, and the far greater part of the rows never leaves the database. What a row says of other
//! things, such as its film, is looked for among those, which are few, and not row by row.

/// How many words of what was typed are looked for; more would only repeat themselves.
const MOST_WORDS: usize = 8;

/// How much of a word goes into a pattern; the database refuses patterns without end.
const PATTERN_LETTERS: usize = 64;

/// What is looked for in a list.
pub(super) struct Wanted {
    words: Vec<String>,
}

impl Wanted {
    /// Reads what was typed.
    pub(super) fn new(typed: &str) -> Wanted {
        let words = typed
            .split_whitespace()
            .take(MOST_WORDS)
            .map(str::to_lowercase)
            .collect();
        Wanted { words }
    }

    /// What a row says as a column of the answer: `text`, or nothing when nothing is looked for.
    pub(super) fn column<'t>(&self, text: &'t str) -> &'t str {
        if self.words.is_empty() { "NULL" } else { text }
    }

    /// The patterns for the database, one for each word, with `\` as the escape character.
    pub(super) fn patterns(&self) -> Vec<String> {
        self.words.iter().map(|word| pattern(word)).collect()
    }

    /// The conditions for the database: `may_hold` once for each word, with every `LIKE word` in it
    /// made to ask for the pattern of that word. The first pattern is the parameter with the number
    /// `first`.
    pub(super) fn conditions(&self, may_hold: &str, first: usize) -> String {
        (first..)
            .zip(&self.words)
            .map(|(number, _)| {
                let asked = may_hold.replace("LIKE word", &format!("LIKE ?{number} ESCAPE '\\'"));
                format!(" AND ({asked})")
            })
            .collect()
    }

    /// Whether every word is in one of the texts.
    pub(super) fn is_in(&self, text: &str) -> bool {
        if self.words.is_empty() {
            return true;
        }
        let text = text.to_lowercase();
        self.words.iter().all(|word| text.contains(word.as_str()))
    }
}

fn pattern(word: &str) -> String {
    let mut pattern = String::from("%");
    for letter in word.chars().take(PATTERN_LETTERS) {
        match letter {
            // A NUL would end the pattern.
            '\0' => pattern.push('%'),
            '%' | '_' | '\\' => {
                pattern.push('\\');
                pattern.push(letter);
            }
            letter if letter.is_ascii() => pattern.push(letter),
            // One letter may be several in the other case.
            _ => pattern.push('%'),
        }
    }
    pattern.push('%');
    pattern
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_must_be_somewhere() {
        let wanted = Wanted::new("  Wall  thaw ");
        assert!(wanted.is_in("S-0042\nnorth wall, thaw"));
        assert!(!wanted.is_in("S-0042\nnorth wall"));
        assert!(Wanted::new("").is_in("anything"));
    }

    #[test]
    fn each_word_has_its_own_condition() {
        let wanted = Wanted::new("north wall");
        assert_eq!(
            wanted.conditions("a LIKE word OR b LIKE word", 2),
            " AND (a LIKE ?2 ESCAPE '\\' OR b LIKE ?2 ESCAPE '\\') \
             AND (a LIKE ?3 ESCAPE '\\' OR b LIKE ?3 ESCAPE '\\')"
        );
        assert_eq!(Wanted::new(" ").conditions("a LIKE word", 1), "");
    }

    #[test]
    fn case_is_ignored_in_every_script() {
        assert!(Wanted::new("ÄRZEN").is_in("märzen"));
        assert!(Wanted::new("ατη").is_in("ΚΑΤΗ"));
    }

    #[test]
    fn patterns_take_nothing_typed_as_a_sign() {
        assert_eq!(Wanted::new("50%_a\\").patterns(), ["%50\\%\\_a\\\\%"]);
        assert_eq!(Wanted::new("märz").patterns(), ["%m%rz%"]);
    }
}
