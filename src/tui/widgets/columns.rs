//! Sharing the width of a line among columns.
//!
//! For: lists whose lines show more figures the wider the terminal is. A column with a high rank
//! number goes first when room is short; the one with the lowest always stays.
//!
//! Promises: columns never overlap and never reach beyond the width given.

pub use crate::export::columns::DecimalRoom;

/// How text stands in its column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Align {
    /// At the left.
    Left,
    /// At the right.
    Right,
    /// With the decimal marks under each other.
    Decimal,
}

/// One column of a list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Column {
    /// What stands over it; nothing over any column leaves the line out.
    pub heading: &'static str,
    /// Cells it needs.
    pub cells: u16,
    /// Share of the cells that are left over; 0 keeps it as it is.
    pub grow: u16,
    /// How text stands in it.
    pub align: Align,
    /// The lower, the longer it stays when room is short.
    pub rank: u8,
}

impl Column {
    /// A column of fixed width, text at the left, that always stays.
    pub const fn new(heading: &'static str, cells: u16) -> Self {
        Self {
            heading,
            cells,
            grow: 0,
            align: Align::Left,
            rank: 0,
        }
    }

    /// The same column, which takes a share of what is left over.
    pub const fn growing(self, grow: u16) -> Self {
        Self { grow, ..self }
    }

    /// The same column with text standing otherwise.
    pub const fn aligned(self, align: Align) -> Self {
        Self { align, ..self }
    }

    /// The same column, which gives way sooner.
    pub const fn ranked(self, rank: u8) -> Self {
        Self { rank, ..self }
    }
}

/// Where a column stands in the line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Span {
    /// First cell, from the left end of the line.
    pub start: u16,
    /// Cells.
    pub cells: u16,
}

/// Cells between two columns.
pub const GAP: u16 = 2;

/// Shares `room` cells; a column that finds no room is `None`.
pub fn spread(columns: &[Column], room: u16) -> Vec<Option<Span>> {
    let mut kept: Vec<bool> = vec![true; columns.len()];
    let needed = |kept: &[bool]| -> u32 {
        let cells = columns
            .iter()
            .zip(kept)
            .filter(|(_, kept)| **kept)
            .map(|(column, _)| u32::from(column.cells) + u32::from(GAP));
        cells.sum::<u32>().saturating_sub(u32::from(GAP))
    };
    while needed(&kept) > u32::from(room) && kept.iter().filter(|kept| **kept).count() > 1 {
        // Of equal rank, the last one gives way.
        let goes = columns
            .iter()
            .enumerate()
            .filter(|(at, _)| kept.get(*at) == Some(&true))
            .max_by_key(|(at, column)| (column.rank, *at))
            .map(|(at, _)| at);
        match goes.and_then(|at| kept.get_mut(at)) {
            Some(kept) => *kept = false,
            None => break,
        }
    }
    let spare = u32::from(room).saturating_sub(needed(&kept));
    let shares: u32 = columns
        .iter()
        .zip(&kept)
        .filter(|(_, kept)| **kept)
        .map(|(column, _)| u32::from(column.grow))
        .sum();
    let mut start: u16 = 0;
    let mut shared = 0;
    let mut given = 0;
    columns
        .iter()
        .zip(&kept)
        .map(|(column, kept)| {
            if !*kept {
                return None;
            }
            // Counting up what was given keeps rounding from losing cells.
            shared += u32::from(column.grow);
            let upto = (spare * shared).checked_div(shares).unwrap_or(0);
            let extra = u16::try_from(upto - given).unwrap_or(0);
            given = upto;
            let left = room.saturating_sub(start);
            let span = Span {
                start,
                cells: column.cells.saturating_add(extra).min(left),
            };
            start = start.saturating_add(span.cells).saturating_add(GAP);
            Some(span)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn spans(columns: &[Column], room: u16) -> Vec<Option<(u16, u16)>> {
        spread(columns, room)
            .into_iter()
            .map(|span| span.map(|span| (span.start, span.cells)))
            .collect()
    }

    #[test]
    fn growing_columns_share_what_is_left() {
        let columns = [
            Column::new("", 6),
            Column::new("", 4).growing(1),
            Column::new("", 4).growing(2),
        ];
        assert_eq!(
            spans(&columns, 18),
            [Some((0, 6)), Some((8, 4)), Some((14, 4))]
        );
        assert_eq!(
            spans(&columns, 28),
            [Some((0, 6)), Some((8, 7)), Some((17, 11))]
        );
    }

    #[test]
    fn columns_of_high_rank_give_way_first() {
        let columns = [
            Column::new("", 6).ranked(1),
            Column::new("", 6).ranked(3),
            Column::new("", 6).ranked(2),
        ];
        assert_eq!(spans(&columns, 14), [Some((0, 6)), None, Some((8, 6))]);
        assert_eq!(spans(&columns, 4), [Some((0, 4)), None, None]);
    }

    proptest! {
        #[test]
        fn columns_never_overlap_nor_reach_beyond(
            sizes in proptest::collection::vec((0u16..30, 0u16..4, 0u8..4), 1..7),
            room in 0u16..200,
        ) {
            let columns: Vec<Column> = sizes
                .iter()
                .map(|(cells, grow, rank)| Column::new("", *cells).growing(*grow).ranked(*rank))
                .collect();
            let mut end = 0;
            for span in spread(&columns, room).into_iter().flatten() {
                prop_assert!(span.start >= end || span.cells == 0);
                prop_assert!(span.cells == 0 || span.start + span.cells <= room);
                end = span.start + span.cells;
            }
        }
    }
}
