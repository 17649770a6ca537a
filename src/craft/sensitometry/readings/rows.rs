//! A text parted into rows and cells, with the decimal mark and the separator told apart.

/// The cells of one row.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Row {
    /// Its cells without blanks and quotes around them.
    pub(super) cells: Vec<String>,
}

impl Row {
    /// The texts of the cells.
    pub(super) fn texts(&self) -> impl Iterator<Item = &str> {
        self.cells.iter().map(String::as_str)
    }

    /// Whether it names columns: it has letters, and no cell of it is a number with a point.
    pub(super) fn is_head(&self) -> bool {
        let lettered = self.texts().any(|it| it.chars().any(char::is_alphabetic));
        lettered
            && self
                .texts()
                .next()
                .is_some_and(|it| it.parse::<f64>().is_err())
    }

    /// The step it begins with, if it does.
    pub(super) fn first_step(&self) -> Option<usize> {
        super::step(self.texts().next()?)
    }
}

/// The rows of a text: its lines, or where it is one line what stands between semicolons. Blank rows and
/// rows that begin with # are left out.
pub(super) fn rows(text: &str) -> Vec<Row> {
    // A semicolon with a blank after it ends a strip; between the columns of a file it has none. Where
    // strips end so, a line that was broken to fit a screen is one line still.
    let ends_strips = text.match_indices(';').any(|(at, _)| {
        text.get(at + 1..)
            .is_some_and(|rest| rest.starts_with(char::is_whitespace))
    });
    let by_line = !ends_strips && text.trim().contains(['\n', '\r']);
    let parted: Vec<&str> = if by_line {
        text.split(['\n', '\r']).collect()
    } else {
        text.split(';').collect()
    };
    let kept = parted.into_iter().map(str::trim);
    let kept: Vec<&str> = kept
        .filter(|row| !row.is_empty() && !row.starts_with('#'))
        .collect();
    let headed = kept
        .first()
        .is_some_and(|row| row.contains(char::is_alphabetic));
    let mark = kept
        .first()
        .and_then(|row| [';', '\t', ','].into_iter().find(|it| row.contains(*it)));
    let cells = kept.into_iter().map(|row| match mark.filter(|_| headed) {
        Some(mark) => row.split(mark).map(cell).collect(),
        None => loose(row),
    });
    cells
        .map(|cells| Row { cells })
        .filter(|row| !row.cells.is_empty())
        .collect()
}

fn cell(text: &str) -> String {
    text.trim().trim_matches('"').trim().to_owned()
}

/// Cells of a row without heads. A comma parts them where the row has points, where a blank follows it, or
/// where several commas stand in a row without blanks; else it is a decimal mark.
fn loose(row: &str) -> Vec<String> {
    let blanks = row.contains([' ', '\t', ';']);
    let parts =
        row.contains('.') || row.contains(", ") || (!blanks && row.matches(',').count() > 1);
    let row = row.replace(',', if parts { " " } else { "." });
    let row = row.replace([':', '=', ';', '|'], " ");
    row.split_whitespace()
        .map(cell)
        .filter(|it| !it.is_empty())
        .collect()
}
