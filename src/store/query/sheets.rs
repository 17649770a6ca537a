//! The list of sheets, newest first.

use rusqlite::Row;

use super::cells::{id, moment, quantity};
use super::listed::{Listed, Page};
use crate::logbook::ThingId;
use crate::logbook::life::State;
use crate::store::rows::{SheetQuery, SheetRow};
use crate::store::{Store, StoreError};

/// Whether a word may be in what a row of the list says.
const MAY_HOLD: &str = "s.subject LIKE word OR s.reference LIKE word OR s.state LIKE word
    OR s.file_place LIKE word OR s.place LIKE word OR s.ending LIKE word
    OR s.film_box IN (SELECT id FROM film_box WHERE film LIKE word OR reference LIKE word)
    OR s.side IN (SELECT id FROM side WHERE reference LIKE word
                  OR (doubt IS NOT NULL AND 'in doubt' LIKE word))
    OR s.run IN (SELECT id FROM run WHERE reference LIKE word)
    OR s.companion_set IN (SELECT id FROM companion_set WHERE reference LIKE word)";

/// What a row of the list says.
const TEXT: &str = "s.reference || char(10) || s.state
    || CASE WHEN side.doubt IS NULL THEN '' ELSE char(10) || 'in doubt' END
    || coalesce(char(10) || s.subject, '') || coalesce(char(10) || s.place, '')
    || coalesce(char(10) || s.file_place, '') || coalesce(char(10) || s.ending, '')
    || coalesce(char(10) || film_box.film || char(10) || film_box.reference, '')
    || coalesce(char(10) || side.reference, '') || coalesce(char(10) || run.reference, '')
    || coalesce(char(10) || companion_set.reference, '')";

const ROWS: &str = "FROM sheet AS s
    LEFT JOIN film_box ON film_box.id = s.film_box
    LEFT JOIN side ON side.id = s.side
    LEFT JOIN run ON run.id = s.run
    LEFT JOIN companion_set ON companion_set.id = s.companion_set";

const COLUMNS: &str = "s.id, s.reference, s.state, s.since, s.exposures, s.exposed, s.subject,
    s.place, s.low, s.high, s.file_place, s.prints, s.ending, film_box.film, film_box.size,
    film_box.reference AS film_box, side.reference AS side, side.doubt IS NOT NULL AS doubt,
    run.reference AS run, companion_set.reference AS companion_set,
    (SELECT overrides FROM life WHERE life.thing = s.id) AS overrides,
    coalesce((SELECT speed FROM exposure WHERE exposure.sheet = s.id AND speed IS NOT NULL
              ORDER BY entry DESC LIMIT 1), film_box.speed) AS speed";

const LIST: Listed<SheetRow> = Listed {
    of: "s",
    columns: COLUMNS,
    rows: ROWS,
    may_hold: MAY_HOLD,
    text: TEXT,
    read: sheet_row,
};

impl Store {
    /// A page of the sheets, newest first.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn sheets(&self, query: &SheetQuery<'_>) -> Result<Vec<SheetRow>, StoreError> {
        LIST.page(self, &page(query))
    }

    /// The row of one sheet.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn sheet(&self, sheet: ThingId) -> Result<Option<SheetRow>, StoreError> {
        LIST.one(self, sheet)
    }
}

fn page<'a>(query: &SheetQuery<'a>) -> Page<'a> {
    Page {
        find: query.find,
        state: query.state.map(State::word),
        before: query.before,
        limit: query.limit,
    }
}

fn sheet_row(row: &Row<'_>) -> rusqlite::Result<SheetRow> {
    Ok(SheetRow {
        thing: id(row, "id")?,
        reference: row.get("reference")?,
        state: row.get("state")?,
        since: moment(row, "since")?,
        film: row.get::<_, Option<String>>("film")?.unwrap_or_default(),
        size: quantity(row, "size")?,
        speed: quantity(row, "speed")?,
        film_box: row.get("film_box")?,
        side: row.get("side")?,
        exposed: moment(row, "exposed")?,
        exposures: row.get("exposures")?,
        subject: row.get("subject")?,
        place: row.get("place")?,
        run: row.get("run")?,
        set: row.get("companion_set")?,
        low: quantity(row, "low")?,
        high: quantity(row, "high")?,
        file_place: row.get("file_place")?,
        prints: row.get("prints")?,
        doubt: row.get("doubt")?,
        end: row.get("ending")?,
        overrides: row.get::<_, Option<u32>>("overrides")?.unwrap_or_default(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::logbook::life::SheetState;
    use crate::store::query::found::Wanted;
    use crate::store::query::plan;

    #[test]
    fn a_page_is_reached_by_key_and_needs_no_sorting() {
        let first = SheetQuery::default();
        let next = SheetQuery {
            before: Some(ThingId(uuid::Uuid::max())),
            ..first
        };
        let of_a_state = SheetQuery {
            state: Some(SheetState::Filed),
            ..next
        };
        for (query, way) in [
            (first, "SCAN s"),
            (next, "SEARCH s USING PRIMARY KEY (id<?)"),
            (
                of_a_state,
                "SEARCH s USING INDEX sheet_state (state=? AND id<?)",
            ),
        ] {
            let (sql, values) = LIST.statement(&page(&query), &Wanted::new(query.find));
            let plan = plan::of(&sql, values);
            assert!(plan.contains(way), "{plan}");
            assert!(!plan.contains("TEMP B-TREE FOR ORDER BY"), "{plan}");
        }
    }
}
