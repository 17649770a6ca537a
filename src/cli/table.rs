//! Columns of text, aligned by the cells they take on a terminal.

use crate::export::shown::{pad, width};
use crate::export::shown_line;

/// Rows of cells under headings. Columns that are empty in every row are left out.
pub(super) struct Table {
    heads: Vec<&'static str>,
    rows: Vec<Vec<String>>,
}

impl Table {
    /// A table with these headings.
    pub(super) fn new(heads: &[&'static str]) -> Table {
        Table {
            heads: heads.to_vec(),
            rows: Vec::new(),
        }
    }

    /// Adds a row; its cells stand in the order of the headings.
    pub(super) fn row(&mut self, cells: impl IntoIterator<Item = String>) {
        let cells = cells.into_iter().map(|cell| shown_line(&cell).into_owned());
        self.rows.push(cells.collect());
    }

    /// Keeps the first rows.
    pub(super) fn truncate(&mut self, rows: usize) {
        self.rows.truncate(rows);
    }

    /// The table in lines, each without spaces at its end.
    pub(super) fn lines(&self) -> String {
        let heads: Vec<String> = self.heads.iter().map(|head| (*head).to_owned()).collect();
        self.told(Some(&heads))
    }

    /// The table without its headings.
    pub(super) fn body(&self) -> String {
        self.told(None)
    }

    fn told(&self, heads: Option<&[String]>) -> String {
        let cell = |row: &[String], column: usize| row.get(column).cloned().unwrap_or_default();
        let columns: Vec<(usize, usize)> = (0..self.heads.len())
            .map(|column| {
                let cells = self.rows.iter().map(|row| width(&cell(row, column)));
                (column, cells.max().unwrap_or(0))
            })
            .filter(|(_, widest)| *widest > 0)
            .map(|(column, widest)| {
                let head = heads.and_then(|heads| heads.get(column));
                let head = head.map_or(0, |head| width(head));
                (column, widest.max(head))
            })
            .collect();
        let line = |row: &[String]| {
            let padded = columns
                .iter()
                .map(|(column, widest)| pad(&cell(row, *column), *widest));
            let line: Vec<String> = padded.collect();
            format!("{}\n", line.join("  ").trim_end())
        };
        let mut text = heads.map(line).unwrap_or_default();
        for row in &self.rows {
            text.push_str(&line(row));
        }
        text
    }
}

/// Labels with their values, one a line, the values aligned.
pub(super) fn labelled<L: AsRef<str>, V: AsRef<str>>(indent: usize, pairs: &[(L, V)]) -> String {
    let label = |pair: &(L, V)| shown_line(pair.0.as_ref()).into_owned();
    let widest = pairs.iter().map(|pair| width(&label(pair))).max();
    let widest = widest.unwrap_or(0);
    let gap = " ".repeat(indent);
    pairs
        .iter()
        .map(|pair| {
            let value = shown_line(pair.1.as_ref());
            let line = format!("{gap}{}  {value}", pad(&label(pair), widest));
            format!("{}\n", line.trim_end())
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_align_by_cells_and_empty_ones_are_left_out() {
        let mut table = Table::new(&["side", "doubt", "holds"]);
        table.row(["H-07 A".into(), String::new(), "紙 80".into()]);
        table.row(["H-12 B".into(), String::new(), "a\u{1b}b".into()]);
        assert_eq!(
            table.lines(),
            "side    holds\nH-07 A  紙 80\nH-12 B  a^[b\n"
        );
    }

    #[test]
    fn labelled_values_stand_under_each_other() {
        let text = labelled(2, &[("film", "FP4 Plus"), ("use by", "")]);
        assert_eq!(text, "  film    FP4 Plus\n  use by\n");
    }
}
