//! Many small things on one page, in columns, each with parts.
//!
//! For: the rack of holders, where each thing is a holder and its parts are its sides. Things run
//! down the first column, then down the next.
//!
//! Promises: as many columns as fit; the cursor is always on a part of a thing in view; up and down
//! go through the things in their order, left and right through the parts and then to the thing
//! beside.
//!
//! Leaves to others: drawing the things, into the places it gives.

use ratatui::layout::{Position, Rect};

use crate::tui::ink::cells;

/// Cursor over the things.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Grid {
    count: usize,
    parts: usize,
    item: usize,
    part: usize,
    offset: usize,
}

/// How the things stand in an area.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Shape {
    /// Columns.
    pub columns: usize,
    /// Things in a column, in view or not.
    pub rows: usize,
    /// Rows in view.
    pub in_view: usize,
    /// Cells of a column, the gap not counted.
    pub cells: u16,
}

/// Where the cursor goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// To the thing before.
    Up,
    /// To the thing after.
    Down,
    /// To the part before, or to the last part of the thing at the left.
    Left,
    /// To the part after, or to the first part of the thing at the right.
    Right,
    /// One view up.
    PageUp,
    /// One view down.
    PageDown,
    /// To the first thing.
    First,
    /// To the last thing.
    Last,
}

/// Cells between two columns.
const GAP: u16 = 2;

impl Grid {
    /// So many things, each of so many parts; the cursor on the first.
    pub fn new(count: usize, parts: usize) -> Self {
        Self {
            count,
            parts: parts.max(1),
            ..Self::default()
        }
    }

    /// Thing and part under the cursor; none if there are no things.
    pub fn cursor(&self) -> Option<(usize, usize)> {
        (self.count > 0).then_some((self.item, self.part))
    }

    /// Tells how many things there are now.
    pub fn set_count(&mut self, count: usize) {
        self.count = count;
        self.item = self.item.min(count.saturating_sub(1));
    }

    /// Puts the cursor on a part of a thing, if there is such a thing.
    pub fn select(&mut self, item: usize, part: usize) {
        if item < self.count {
            self.item = item;
            self.part = part.min(self.parts.saturating_sub(1));
        }
    }

    /// How the things stand in an area, each at least `least` cells wide.
    pub fn shape(&self, area: Rect, least: u16) -> Shape {
        let least = least.max(1);
        let fit = usize::from(area.width.saturating_add(GAP) / least.saturating_add(GAP)).max(1);
        let in_view = usize::from(area.height);
        // No more columns than are needed, so that few things stand as one list.
        let needed = self.count.div_ceil(in_view.max(1)).max(1);
        let columns = fit.min(needed);
        let gaps = GAP.saturating_mul(cells(columns - 1));
        Shape {
            columns,
            rows: self.count.div_ceil(columns),
            in_view,
            cells: area.width.saturating_sub(gaps) / cells(columns).max(1),
        }
    }

    /// Moves the cursor; returns whether it moved.
    pub fn step(&mut self, shape: Shape, way: Way) -> bool {
        let before = (self.item, self.part);
        let last = self.count.saturating_sub(1);
        let rows = shape.rows.max(1);
        let page = shape.in_view.saturating_sub(1).max(1);
        match way {
            Way::Up => self.item = self.item.saturating_sub(1),
            Way::Down => self.item = (self.item + 1).min(last),
            Way::Left if self.part > 0 => self.part -= 1,
            Way::Left if self.item >= rows => {
                self.item -= rows;
                self.part = self.parts.saturating_sub(1);
            }
            Way::Right if self.part + 1 < self.parts => self.part += 1,
            Way::Right if self.item + rows <= last => {
                self.item += rows;
                self.part = 0;
            }
            Way::Left | Way::Right => {}
            Way::PageUp => self.item = self.item.saturating_sub(page),
            Way::PageDown => self.item = (self.item + page).min(last),
            Way::First => (self.item, self.part) = (0, 0),
            Way::Last => self.item = last,
        }
        self.settle(shape);
        (self.item, self.part) != before
    }

    /// Moves the view so that the cursor is in it; call it when the size or the count changed.
    pub fn settle(&mut self, shape: Shape) {
        self.offset = self.first_row(shape);
    }

    fn first_row(&self, shape: Shape) -> usize {
        let row = self.item % shape.rows.max(1);
        self.offset
            .min(shape.rows.saturating_sub(shape.in_view))
            .max((row + 1).saturating_sub(shape.in_view.max(1)))
            .min(row)
    }

    /// The things in view, and where they stand.
    pub fn places(&self, area: Rect, shape: Shape) -> Vec<(usize, Rect)> {
        let first = self.first_row(shape);
        let mut places = Vec::new();
        for column in 0..shape.columns {
            let start = cells(column).saturating_mul(shape.cells.saturating_add(GAP));
            for row in 0..shape.in_view.min(shape.rows.saturating_sub(first)) {
                let item = column * shape.rows + first + row;
                let place = Rect {
                    x: area.x.saturating_add(start),
                    y: area.y.saturating_add(cells(row)),
                    width: shape.cells,
                    height: 1,
                };
                if item < self.count && !place.is_empty() {
                    places.push((item, place.intersection(area)));
                }
            }
        }
        places
    }

    /// Puts the cursor on the thing drawn at `at`, and on the part that `part_at` finds for the
    /// cell within the thing's place. Returns whether there is a thing.
    pub fn click(
        &mut self,
        area: Rect,
        shape: Shape,
        at: Position,
        part_at: impl Fn(Rect, u16) -> usize,
    ) -> bool {
        let hit = self
            .places(area, shape)
            .into_iter()
            .find(|(_, place)| place.contains(at));
        match hit {
            Some((item, place)) => {
                self.select(item, part_at(place, at.x - place.x));
                true
            }
            None => false,
        }
    }

    /// How many things are out of view above and below, counted in rows.
    pub fn out_of_view(&self, shape: Shape) -> (usize, usize) {
        let first = self.first_row(shape);
        (first, shape.rows.saturating_sub(first + shape.in_view))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const AREA: Rect = Rect::new(0, 0, 80, 20);

    #[test]
    fn forty_holders_stand_on_one_page_and_few_in_one_column() {
        let grid = Grid::new(40, 2);
        let shape = grid.shape(AREA, 36);
        assert_eq!((shape.columns, shape.rows, shape.cells), (2, 20, 39));
        assert_eq!(grid.places(AREA, shape).len(), 40);
        let (last, place) = grid.places(AREA, shape)[39];
        assert_eq!((last, place), (39, Rect::new(41, 19, 39, 1)));
        assert_eq!(Grid::new(12, 2).shape(AREA, 36).columns, 1);
    }

    #[test]
    fn left_and_right_go_through_the_sides_and_then_to_the_holder_beside() {
        let mut grid = Grid::new(40, 2);
        let shape = grid.shape(AREA, 36);
        assert!(grid.step(shape, Way::Right));
        assert_eq!(grid.cursor(), Some((0, 1)));
        grid.step(shape, Way::Right);
        assert_eq!(grid.cursor(), Some((20, 0)));
        grid.step(shape, Way::Left);
        assert_eq!(grid.cursor(), Some((0, 1)));
        grid.step(shape, Way::Down);
        assert_eq!(grid.cursor(), Some((1, 1)));
        grid.step(shape, Way::Last);
        assert!(!grid.step(shape, Way::Right) && !grid.step(shape, Way::Down));
    }

    #[test]
    fn more_than_a_page_scrolls_with_the_cursor() {
        let mut grid = Grid::new(100, 2);
        let shape = grid.shape(AREA, 36);
        assert_eq!((shape.columns, shape.rows), (2, 50));
        assert_eq!(grid.out_of_view(shape), (0, 30));
        for _ in 0..25 {
            grid.step(shape, Way::Down);
        }
        assert_eq!(grid.out_of_view(shape), (6, 24));
        assert_eq!(grid.places(AREA, shape)[0].0, 6);
    }

    #[test]
    fn a_click_finds_holder_and_side() {
        let mut grid = Grid::new(40, 2);
        let shape = grid.shape(AREA, 36);
        let half = |place: Rect, x: u16| usize::from(x >= place.width / 2);
        assert!(grid.click(AREA, shape, Position::new(65, 3), half));
        assert_eq!(grid.cursor(), Some((23, 1)));
        assert!(!grid.click(AREA, shape, Position::new(40, 3), half));
    }

    proptest! {
        #[test]
        fn the_cursor_is_always_on_a_thing_in_view(
            count in 0usize..60,
            size in (0u16..120, 0u16..30),
            ways in proptest::collection::vec(0u8..8, 0..40),
        ) {
            let area = Rect::new(1, 1, size.0, size.1);
            let mut grid = Grid::new(count, 2);
            let shape = grid.shape(area, 20);
            for way in ways {
                let way = [
                    Way::Up, Way::Down, Way::Left, Way::Right, Way::PageUp, Way::PageDown,
                    Way::First, Way::Last,
                ][usize::from(way)];
                grid.step(shape, way);
                let places = grid.places(area, shape);
                prop_assert!(places.iter().all(|(_, place)| area.intersection(*place) == *place));
                if let Some((item, part)) = grid.cursor() {
                    prop_assert!(item < count && part < 2);
                    let seen = places.iter().any(|(at, _)| *at == item);
                    prop_assert!(seen || area.is_empty(), "{item} of {count} in {shape:?}");
                }
            }
        }
    }
}
