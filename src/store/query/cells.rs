//! How the cells of the projections are read: ids, times and quantities in their own types.
//!
//! A cell that does not hold what its column promises is an error of the database, not a panic and
//! not an empty value: someone wrote to the file by other means, and a rebuild repairs it.

use chrono::{DateTime, FixedOffset};
use rusqlite::Row;
use rusqlite::types::{FromSql, FromSqlError, FromSqlResult, ValueRef};
use serde::de::DeserializeOwned;
use serde_json::Value;
use uuid::Uuid;

use crate::logbook::ThingId;

struct Id(ThingId);

impl FromSql for Id {
    fn column_result(value: ValueRef<'_>) -> FromSqlResult<Id> {
        Uuid::from_slice(value.as_blob()?)
            .map(|id| Id(ThingId(id)))
            .map_err(|error| FromSqlError::Other(Box::new(error)))
    }
}

struct Moment(DateTime<FixedOffset>);

impl FromSql for Moment {
    fn column_result(value: ValueRef<'_>) -> FromSqlResult<Moment> {
        DateTime::parse_from_rfc3339(value.as_str()?)
            .map(Moment)
            .map_err(|error| FromSqlError::Other(Box::new(error)))
    }
}

struct Quantity<T>(T);

impl<T: DeserializeOwned> FromSql for Quantity<T> {
    fn column_result(value: ValueRef<'_>) -> FromSqlResult<Quantity<T>> {
        let json = match value {
            ValueRef::Integer(number) => Value::from(number),
            ValueRef::Real(number) => Value::from(number),
            ValueRef::Text(_) => Value::from(value.as_str()?),
            ValueRef::Null | ValueRef::Blob(_) => return Err(FromSqlError::InvalidType),
        };
        serde_json::from_value(json)
            .map(Quantity)
            .map_err(|error| FromSqlError::Other(Box::new(error)))
    }
}

/// A thing that must be there.
pub(super) fn id(row: &Row<'_>, column: &str) -> rusqlite::Result<ThingId> {
    row.get::<_, Id>(column).map(|id| id.0)
}

/// A thing that may be there.
pub(super) fn maybe_id(row: &Row<'_>, column: &str) -> rusqlite::Result<Option<ThingId>> {
    Ok(row.get::<_, Option<Id>>(column)?.map(|id| id.0))
}

/// A time, in the zone it was written in.
pub(super) fn moment(
    row: &Row<'_>,
    column: &str,
) -> rusqlite::Result<Option<DateTime<FixedOffset>>> {
    Ok(row.get::<_, Option<Moment>>(column)?.map(|at| at.0))
}

/// A quantity, a day, or one of a few words, in the form it is serialized in.
pub(super) fn quantity<T: DeserializeOwned>(
    row: &Row<'_>,
    column: &str,
) -> rusqlite::Result<Option<T>> {
    Ok(row.get::<_, Option<Quantity<T>>>(column)?.map(|it| it.0))
}
