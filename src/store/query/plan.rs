//! How SQLite means to answer a statement, for tests of what a query costs.

use rusqlite::types::Value;
use rusqlite::{Connection, params_from_iter};

/// The plan of a statement on an empty logbook, a line for each part of its outermost loop.
pub(super) fn of(sql: &str, values: Vec<Value>) -> String {
    let db = Connection::open_in_memory().expect("a database");
    db.execute_batch(include_str!("../../../migrations/0001_logbook.sql"))
        .expect("the schema");
    let mut explain = db
        .prepare(&format!("EXPLAIN QUERY PLAN {sql}"))
        .expect("a statement");
    let parts = explain
        .query_map(params_from_iter(values), |row| {
            let parent: i64 = row.get("parent")?;
            let detail: String = row.get("detail")?;
            Ok((parent == 0).then_some(detail))
        })
        .expect("a plan");
    let parts: Result<Vec<Option<String>>, _> = parts.collect();
    let outermost: Vec<String> = parts.expect("a plan").into_iter().flatten().collect();
    outermost.join("\n")
}
