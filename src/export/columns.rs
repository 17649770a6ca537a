//! Figures and words in columns, for whatever is written in a fixed-width font.
//!
//! For: tables and ledgers of the front end and of the command line alike. Promises: figures of one
//! column stand with their decimal marks under each other, words begin under each other; where room is
//! short only words are cut, and the cut is marked.

use super::shown::{fit, pad, pad_start, shown_line, width};

/// Room for figures before and from the decimal mark on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct DecimalRoom {
    head: usize,
    tail: usize,
}

impl DecimalRoom {
    /// The room that all these figures need to stand under each other.
    pub fn of<'t>(figures: impl IntoIterator<Item = &'t str>) -> Self {
        figures.into_iter().fold(Self::default(), |room, figure| {
            let (head, tail) = at_decimal(figure);
            Self {
                head: room.head.max(width(head)),
                tail: room.tail.max(width(tail)),
            }
        })
    }

    /// The figure, its decimal mark in the place it has in all of them.
    pub fn place(self, figure: &str) -> String {
        let (head, tail) = at_decimal(figure);
        format!("{}{}", pad_start(head, self.head), pad(tail, self.tail))
    }
}

/// Splits before the decimal mark, or behind the first number if there is none.
fn at_decimal(figure: &str) -> (&str, &str) {
    let digits = figure.find(|c: char| c.is_ascii_digit()).unwrap_or(0);
    let end = figure
        .char_indices()
        .skip_while(|(at, _)| *at < digits)
        .find(|(_, c)| !c.is_ascii_digit())
        .map_or(figure.len(), |(at, _)| at);
    figure.split_at(end)
}

/// Whether a cell holds a figure: after its signs, and what stands before apertures and exposure
/// values, it begins with a digit.
pub fn is_figure(text: &str) -> bool {
    let bare = ["f/", "EV "]
        .iter()
        .find_map(|name| text.strip_prefix(name));
    let bare = bare.unwrap_or(text);
    let unsigned = bare.trim_start_matches(['+', '-', '−', '±', '<', '>', '≈', 'x']);
    unsigned.starts_with(|c: char| c.is_ascii_digit())
}

/// Cells between two columns.
const BETWEEN: usize = 2;

/// The fewest cells to which a column of words is cut.
const LEAST_WORDS: usize = 8;

/// Lines of a table: the heads first, unless all are empty, then the rows. Columns that are empty in
/// every row are left out. If the lines would be longer than `room`, columns of words are cut, the
/// widest first.
///
/// ```
/// use notchbook::export::columns::in_columns;
/// let row = |cells: [&str; 2]| cells.map(str::to_owned).to_vec();
/// let rows = [row(["FP4 Plus", "8.5 s"]), row(["HP5", "12.25 s"])];
/// assert_eq!(
///     in_columns(&row(["film", "time"]), &rows, 80),
///     ["film      time", "FP4 Plus   8.5 s", "HP5       12.25 s"],
/// );
/// ```
pub fn in_columns(heads: &[String], rows: &[Vec<String>], room: usize) -> Vec<String> {
    let cell = |row: &[String], at: usize| {
        let text = row.get(at).map(|text| shown_line(text).into_owned());
        text.unwrap_or_default()
    };
    let many = rows.iter().map(Vec::len).chain([heads.len()]).max();
    let mut columns: Vec<Column> = (0..many.unwrap_or(0))
        .map(|at| {
            Column::of(
                cell(heads, at),
                rows.iter().map(|row| cell(row, at)).collect(),
            )
        })
        .filter(|column| column.cells.iter().any(|cell| !cell.is_empty()))
        .collect();
    make_fit(&mut columns, room);
    let line = |texts: Vec<String>| texts.join("  ").trim_end().to_owned();
    let mut lines = Vec::new();
    if columns.iter().any(|column| !column.head.is_empty()) {
        let heads = columns.iter().map(|column| pad(&column.head, column.width));
        lines.push(line(heads.collect()));
    }
    for at in 0..rows.len() {
        let texts = columns.iter().map(|column| {
            let text = column.cells.get(at).map_or("", String::as_str);
            pad(text, column.width)
        });
        lines.push(line(texts.collect()));
    }
    lines
}

/// A column whose cells are placed already.
struct Column {
    head: String,
    cells: Vec<String>,
    width: usize,
    words: bool,
}

impl Column {
    fn of(head: String, cells: Vec<String>) -> Column {
        let filled = || cells.iter().filter(|cell| !cell.is_empty());
        let figures = filled().filter(|cell| is_figure(cell)).count();
        let words = figures * 2 < filled().count().max(1);
        let decimals = DecimalRoom::of(
            filled()
                .map(String::as_str)
                .filter(|cell| !words && is_figure(cell)),
        );
        let cells: Vec<String> = cells
            .into_iter()
            .map(|cell| match !words && is_figure(&cell) {
                true => decimals.place(&cell).trim_end().to_owned(),
                false => cell,
            })
            .collect();
        let widest = cells.iter().map(|cell| width(cell)).max().unwrap_or(0);
        let width = widest.max(width(&head));
        Column {
            head,
            cells,
            width,
            words,
        }
    }
}

fn make_fit(columns: &mut [Column], room: usize) {
    let needed = |columns: &[Column]| {
        let cells: usize = columns.iter().map(|column| column.width + BETWEEN).sum();
        cells.saturating_sub(BETWEEN)
    };
    loop {
        let over = needed(columns).saturating_sub(room);
        let widest = columns
            .iter_mut()
            .filter(|column| column.words && column.width > LEAST_WORDS)
            .max_by_key(|column| column.width);
        let Some(column) = widest.filter(|_| over > 0) else {
            return;
        };
        column.width = column.width.saturating_sub(over).max(LEAST_WORDS);
        for cell in column.cells.iter_mut().chain([&mut column.head]) {
            *cell = fit(cell, column.width).into_owned();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_stand_with_their_decimal_marks_under_each_other() {
        let figures = ["8.7", "13.9", "1.55", "12", "-0.11"];
        let room = DecimalRoom::of(figures);
        assert_eq!(
            figures.map(|figure| room.place(figure)),
            [" 8.7 ", "13.9 ", " 1.55", "12   ", "-0.11"]
        );
    }

    fn row(cells: &[&str]) -> Vec<String> {
        cells.iter().map(|cell| (*cell).to_owned()).collect()
    }

    #[test]
    fn a_table_aligns_figures_and_words_and_leaves_empty_columns_out() {
        let rows = [
            row(&["1/15 s", "", "+0.5 stops", "a word"]),
            row(&["2 s", "", "-12.25 stops", "infinity"]),
        ];
        assert_eq!(
            in_columns(&row(&["mark", "none", "error", "note"]), &rows, 80),
            [
                "mark    error         note",
                "1/15 s   +0.5 stops   a word",
                "2 s     -12.25 stops  infinity",
            ]
        );
        assert_eq!(in_columns(&[], &[], 80), Vec::<String>::new());
    }

    #[test]
    fn where_room_is_short_words_are_cut_and_figures_never() {
        let rows = [row(&[
            "a long name of a film",
            "12.5 s",
            "a source that is long",
        ])];
        let lines = in_columns(&[], &rows, 36);
        assert_eq!(lines, ["a long name of a …  12.5 s  a sourc…"]);
        assert!(in_columns(&[], &rows, 4)[0].contains("12.5 s"));
    }
}
