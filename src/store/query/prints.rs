//! The list of prints, newest first.

use rusqlite::Row;

use super::cells::{id, moment, quantity};
use super::listed::{Listed, Page};
use crate::logbook::ThingId;
use crate::logbook::life::State;
use crate::store::rows::{PrintQuery, PrintRow};
use crate::store::{Store, StoreError};

/// Whether a word may be in what a row of the list says.
const MAY_HOLD: &str = "p.title LIKE word OR p.reference LIKE word OR p.state LIKE word
    OR p.process LIKE word OR p.place LIKE word OR p.whereabouts LIKE word OR p.number LIKE word
    OR p.ending LIKE word OR p.last_step LIKE word
    OR p.paper IN (SELECT id FROM paper WHERE name LIKE word OR reference LIKE word)
    OR n.reference LIKE word OR n.subject LIKE word OR n.place LIKE word
    OR n.film_box IN (SELECT id FROM film_box WHERE film LIKE word)";

/// What a row of the list says.
const TEXT: &str = "p.reference || char(10) || p.state || char(10) || p.process
    || coalesce(char(10) || p.title, '') || coalesce(char(10) || p.place, '')
    || coalesce(char(10) || p.whereabouts, '') || coalesce(char(10) || p.number, '')
    || coalesce(char(10) || p.ending, '') || coalesce(char(10) || p.last_step, '')
    || coalesce(char(10) || paper.name || char(10) || paper.reference, '')
    || coalesce(char(10) || n.reference, '') || coalesce(char(10) || n.subject, '')
    || coalesce(char(10) || n.place, '') || coalesce(char(10) || film_box.film, '')";

const ROWS: &str = "FROM print AS p
    LEFT JOIN paper ON paper.id = p.paper
    LEFT JOIN sheet AS n ON n.id = p.negative
    LEFT JOIN film_box ON film_box.id = n.film_box";

const COLUMNS: &str = "p.id, p.reference, p.state, p.since, p.born, p.title, n.subject, p.process,
    paper.name AS paper, p.size, p.steps, p.last_step, p.number, p.whereabouts, p.place, p.due,
    p.ending, (SELECT overrides FROM life WHERE life.thing = p.id) AS overrides,
    (SELECT group_concat(called, char(10)) FROM
        (SELECT life.reference AS called FROM link JOIN life ON life.thing = link.parent
         WHERE link.child = p.id AND link.role = 'negative'
         GROUP BY link.parent ORDER BY min(link.entry), life.reference)) AS negatives";

const LIST: Listed<PrintRow> = Listed {
    of: "p",
    columns: COLUMNS,
    rows: ROWS,
    may_hold: MAY_HOLD,
    text: TEXT,
    read: print_row,
};

impl Store {
    /// A page of the prints, newest first.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn prints(&self, query: &PrintQuery<'_>) -> Result<Vec<PrintRow>, StoreError> {
        LIST.page(self, &page(query))
    }

    /// The row of one print.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn print(&self, print: ThingId) -> Result<Option<PrintRow>, StoreError> {
        LIST.one(self, print)
    }
}

fn page<'a>(query: &PrintQuery<'a>) -> Page<'a> {
    Page {
        find: query.find,
        state: query.state.map(State::word),
        before: query.before,
        limit: query.limit,
    }
}

fn print_row(row: &Row<'_>) -> rusqlite::Result<PrintRow> {
    let negatives: Option<String> = row.get("negatives")?;
    Ok(PrintRow {
        thing: id(row, "id")?,
        reference: row.get("reference")?,
        state: row.get("state")?,
        since: moment(row, "since")?,
        begun: moment(row, "born")?,
        title: row.get("title")?,
        subject: row.get("subject")?,
        process: row.get("process")?,
        negatives: negatives
            .map(|all| all.lines().map(str::to_owned).collect())
            .unwrap_or_default(),
        paper: row.get("paper")?,
        size: quantity(row, "size")?,
        steps: row.get("steps")?,
        last_step: row.get("last_step")?,
        number: row.get("number")?,
        whereabouts: quantity(row, "whereabouts")?,
        place: row.get("place")?,
        due: quantity(row, "due")?,
        end: row.get("ending")?,
        overrides: row.get::<_, Option<u32>>("overrides")?.unwrap_or_default(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::logbook::life::PrintState;
    use crate::store::query::found::Wanted;
    use crate::store::query::plan;

    #[test]
    fn a_page_is_reached_by_key_and_needs_no_sorting() {
        let first = PrintQuery::default();
        let next = PrintQuery {
            before: Some(ThingId(uuid::Uuid::max())),
            ..first
        };
        let of_a_state = PrintQuery {
            state: Some(PrintState::Dry),
            ..next
        };
        for (query, way) in [
            (first, "SCAN p"),
            (next, "SEARCH p USING PRIMARY KEY (id<?)"),
            (
                of_a_state,
                "SEARCH p USING INDEX print_state (state=? AND id<?)",
            ),
        ] {
            let (sql, values) = LIST.statement(&page(&query), &Wanted::new(query.find));
            let plan = plan::of(&sql, values);
            assert!(plan.contains(way), "{plan}");
            assert!(!plan.contains("TEMP B-TREE FOR ORDER BY"), "{plan}");
        }
    }
}
