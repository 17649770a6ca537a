//! Search over every word of every entry, as the user types, newest first.
//!
//! What is typed is cut into words, each of which becomes a quoted phrase that may go on: no sign in
//! it means anything to the index, and `S-004` finds `S-0042`. A word without a letter or digit
//! finds nothing and is passed over.

use rusqlite::Connection;

use super::entry::{by_row, settled};
use super::names::Cached;
use crate::logbook::Names;
use crate::logbook::telling::tell;
use crate::reference::Reference;
use crate::store::error::Fault;
use crate::store::rows::{Hit, Named};
use crate::store::{Store, StoreError};

/// How many words of what was typed are searched for.
const MOST_WORDS: usize = 12;

impl Store {
    /// A page of the entries in which every typed word is found, newest written first. `before` is
    /// the number of the last hit of the page before. Nothing typed finds nothing.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn search(
        &self,
        typed: &str,
        before: Option<i64>,
        limit: usize,
        reference: &Reference,
    ) -> Result<Vec<Hit>, StoreError> {
        let Some(expression) = expression(typed) else {
            return Ok(Vec::new());
        };
        self.ask_at_once(|db| {
            let names = Cached::new(db);
            let mut hits = Vec::new();
            for row in found(db, &expression, before, limit)? {
                hits.extend(hit(db, row, &names, reference)?);
            }
            names.finish(hits)
        })
    }
}

/// What was typed as an expression of the index, or `None` when there is no word in it.
fn expression(typed: &str) -> Option<String> {
    let phrases: Vec<String> = typed
        .split(|c: char| c.is_whitespace() || c.is_control())
        .filter(|word| word.chars().any(char::is_alphanumeric))
        .take(MOST_WORDS)
        .map(|word| format!("\"{}\"*", word.replace('"', "\"\"")))
        .collect();
    (!phrases.is_empty()).then(|| phrases.join(" "))
}

fn found(
    db: &Connection,
    expression: &str,
    before: Option<i64>,
    limit: usize,
) -> Result<Vec<i64>, Fault> {
    let mut select = db.prepare_cached(
        "SELECT rowid FROM words WHERE words MATCH ?1 AND rowid < ?2 ORDER BY rowid DESC LIMIT ?3",
    )?;
    let limit = i64::try_from(limit).unwrap_or(i64::MAX);
    let rows = select.query_map((expression, before.unwrap_or(i64::MAX), limit), |row| {
        row.get(0)
    })?;
    Ok(rows.collect::<rusqlite::Result<Vec<i64>>>()?)
}

fn hit(
    db: &Connection,
    row: i64,
    names: &Cached<'_>,
    reference: &Reference,
) -> Result<Option<Hit>, Fault> {
    let Some(entry) = by_row(db, row)? else {
        return Ok(None);
    };
    let (one, _) = settled(db, row, entry)?;
    Ok(Some(Hit {
        row,
        happened: one.happened,
        kind: one.deed.kind(),
        headline: tell(&one.deed, names, reference).headline,
        struck: one.struck.is_some(),
        things: one
            .deed
            .touches()
            .into_iter()
            .map(|thing| Named {
                thing,
                reference: names.reference_of(thing.id),
            })
            .collect(),
        note: one.entry.note,
    }))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_becomes_a_phrase_that_may_go_on() {
        assert_eq!(
            expression("S-004 north").as_deref(),
            Some("\"S-004\"* \"north\"*")
        );
    }

    #[test]
    fn no_sign_means_anything() {
        assert_eq!(
            expression("a\"b OR* NEAR(").as_deref(),
            Some("\"a\"\"b\"* \"OR*\"* \"NEAR(\"*")
        );
        assert_eq!(expression("\" ' - ( * \0"), None);
        assert_eq!(expression("  "), None);
    }
}
