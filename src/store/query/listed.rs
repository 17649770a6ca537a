//! What the long lists have in common: a page of rows, newest first, reached by key, narrowed by
//! words. Where the rows come from and what they say is the list's own.

use rusqlite::types::Value;
use rusqlite::{OptionalExtension, Row, params_from_iter};

use super::found::Wanted;
use crate::logbook::ThingId;
use crate::store::{Store, StoreError};

/// A list: where its rows come from and what they say.
pub(super) struct Listed<T> {
    /// What the table of the listed things is called in the pieces below.
    pub(super) of: &'static str,
    /// The columns of a row.
    pub(super) columns: &'static str,
    /// The tables they come from, from `FROM` on.
    pub(super) rows: &'static str,
    /// Whether a word may be in what a row says.
    pub(super) may_hold: &'static str,
    /// What a row says.
    pub(super) text: &'static str,
    /// Reads a row.
    pub(super) read: fn(&Row<'_>) -> rusqlite::Result<T>,
}

/// Which page of a list is asked for.
pub(super) struct Page<'a> {
    /// Words that must all be found.
    pub(super) find: &'a str,
    /// Only things in this state.
    pub(super) state: Option<&'static str>,
    /// Only things older than this one.
    pub(super) before: Option<ThingId>,
    /// How many rows at most.
    pub(super) limit: usize,
}

impl<T> Listed<T> {
    /// A page of the list.
    pub(super) fn page(&self, store: &Store, page: &Page<'_>) -> Result<Vec<T>, StoreError> {
        let wanted = Wanted::new(page.find);
        let (sql, values) = self.statement(page, &wanted);
        store.read(|db| {
            let mut statement = db.prepare_cached(&sql)?;
            let mut rows = statement.query(params_from_iter(values))?;
            let mut found = Vec::new();
            while found.len() < page.limit
                && let Some(row) = rows.next()?
            {
                if wanted.is_in(row.get_ref("words")?.as_str().unwrap_or_default()) {
                    found.push((self.read)(row)?);
                }
            }
            Ok(found)
        })
    }

    /// The row of one thing.
    pub(super) fn one(&self, store: &Store, thing: ThingId) -> Result<Option<T>, StoreError> {
        let Listed {
            of, columns, rows, ..
        } = self;
        let sql = format!("SELECT {columns} {rows} WHERE {of}.id = ?1");
        store.read(|db| {
            let mut statement = db.prepare_cached(&sql)?;
            let row = statement.query_row([thing.0.as_bytes()], self.read);
            Ok(row.optional()?)
        })
    }

    /// The statement for a page, and its parameters.
    pub(super) fn statement(&self, page: &Page<'_>, wanted: &Wanted) -> (String, Vec<Value>) {
        let Listed {
            of, columns, rows, ..
        } = self;
        let mut values: Vec<Value> = Vec::new();
        let mut conditions = String::new();
        if let Some(before) = page.before {
            values.push(Value::Blob(before.0.into_bytes().to_vec()));
            conditions += &format!(" AND {of}.id < ?1");
        }
        if let Some(state) = page.state {
            values.push(Value::Text(state.to_owned()));
            conditions += &format!(" AND {of}.state = ?{}", values.len());
        }
        conditions += &wanted.conditions(self.may_hold, values.len() + 1);
        values.extend(wanted.patterns().into_iter().map(Value::Text));
        let words = wanted.column(self.text);
        let sql = format!(
            "SELECT {columns}, {words} AS words {rows} WHERE 1{conditions} ORDER BY {of}.id DESC"
        );
        (sql, values)
    }
}
