//! A table of densities that comes in from a file, as one line of text such as a person would type.
//!
//! For: the command line and the pane that reads a strip. Promises: every cell is taken as it stands, an
//! empty one stays empty; what is no text, or far too long for readings, is refused with the file's name.
//! Leaves to others: what the readings mean, which is the same as if they had been typed.

use std::fs::File;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// More than any table of readings holds, in bytes.
const MOST: u64 = 1_000_000;

/// A file of readings could not be taken in.
#[derive(Debug, thiserror::Error)]
pub enum ReadingsError {
    /// The system failed to read it.
    #[error("{} could not be read ({source}): check its name and its folder", .path.display())]
    File {
        /// The file.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// It is no text.
    #[error("{} is no text: save the table as CSV", .path.display())]
    NoText {
        /// The file.
        path: PathBuf,
    },
    /// It is too long.
    #[error("{} is longer than any table of readings: name the file with the densities", .path.display())]
    TooLong {
        /// The file.
        path: PathBuf,
    },
    /// Its lines are no table.
    #[error("{} is no table that can be read ({source}): save it as CSV", .path.display())]
    NoTable {
        /// The file.
        path: PathBuf,
        /// What is wrong.
        source: csv::Error,
    },
    /// It is empty.
    #[error("there is nothing in {}", .path.display())]
    Empty {
        /// The file.
        path: PathBuf,
    },
}

/// The readings in a file as one line: its rows parted by semicolons, the cells of a table with heads by
/// commas.
///
/// # Errors
/// If the file cannot be read, or is no table.
pub fn readings_of(path: &Path) -> Result<String, ReadingsError> {
    let failed = |source| ReadingsError::File {
        path: path.to_owned(),
        source,
    };
    let mut bytes = Vec::new();
    let file = File::open(path).map_err(failed)?;
    file.take(MOST + 1)
        .read_to_end(&mut bytes)
        .map_err(failed)?;
    if bytes.len() as u64 > MOST {
        return Err(ReadingsError::TooLong {
            path: path.to_owned(),
        });
    }
    let text = String::from_utf8(bytes).map_err(|_| ReadingsError::NoText {
        path: path.to_owned(),
    })?;
    let line = in_one_line(&text).map_err(|source| ReadingsError::NoTable {
        path: path.to_owned(),
        source,
    })?;
    if line.is_empty() {
        return Err(ReadingsError::Empty {
            path: path.to_owned(),
        });
    }
    Ok(line)
}

/// A table as one line.
fn in_one_line(text: &str) -> Result<String, csv::Error> {
    let text = text.trim_start_matches('\u{feff}');
    let kept = |line: &&str| !line.is_empty() && !line.starts_with('#');
    let first = text.lines().map(str::trim).find(kept).unwrap_or_default();
    let mark = [';', '\t', ',']
        .into_iter()
        .find(|mark| first.contains(*mark));
    let headed = first.chars().any(char::is_alphabetic);
    let Some(mark) = mark.filter(|_| headed) else {
        let rows: Vec<&str> = text.lines().map(str::trim).filter(kept).collect();
        return Ok(rows.join("; "));
    };
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(mark as u8)
        .has_headers(false)
        .flexible(true)
        .comment(Some(b'#'))
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes());
    let mut rows = Vec::new();
    for record in reader.records() {
        let record = record?;
        // Between commas a decimal mark is a point, and a semicolon ends a row.
        let cells = record.iter().map(|cell| match mark {
            ',' => cell.replace([';', ','], " "),
            _ => cell.replace(',', ".").replace(';', " "),
        });
        let cells: Vec<String> = cells.map(|cell| cell.replace(['\n', '\r'], " ")).collect();
        if cells.iter().any(|cell| !cell.is_empty()) {
            rows.push(cells.join(","));
        }
    }
    Ok(rows.join("; "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::craft::sensitometry::readings;

    fn strips(text: &str) -> Vec<Vec<(usize, f64)>> {
        let line = in_one_line(text).expect("a table");
        assert!(!line.contains('\n'), "{line}");
        let sheet = readings::read(&line, 11).unwrap_or_else(|why| panic!("{line}: {why}"));
        let each = sheet.strips.iter().map(|strip| {
            let read = strip.readings.iter();
            read.map(|it| (it.step, it.density.value())).collect()
        });
        each.collect()
    }

    #[test]
    fn a_table_is_the_same_from_a_file_as_if_it_had_been_typed() {
        let two = [
            vec![(1, 1.22), (2, 1.07), (4, 0.8)],
            vec![(1, 1.61), (3, 1.23), (4, 1.0)],
        ];
        for text in [
            "step,t5.5,t8\n1,1.22,1.61\n2,1.07,\n3,,1.23\n4,0.8,1.0\n",
            "\u{feff}# of 4 March\r\nstep;t5.5;t8\r\n1;1,22;1,61\r\n2;1,07;\r\n3;;1,23\r\n4;0,8;1\r\n",
            "\"step\"\t\"t5.5\"\t\"t8\"\n1\t1.22\t1.61\n2\t1.07\t\n\n3\t\t1.23\n4\t0.8\t1\n",
        ] {
            assert_eq!(strips(text), two, "{text}");
        }
    }

    #[test]
    fn a_bare_list_is_a_strip_one_step_a_line() {
        let read = strips("1.61\n1.42\n1.23\n1.04\n0.84\n0.65\n0.47\n0.30\n0.19\n0.14\n0.13\n");
        assert_eq!(read.len(), 1);
        assert_eq!(read[0][10], (11, 0.13));
    }

    #[test]
    fn a_file_that_holds_no_readings_is_refused_by_its_name() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("strip.csv");
        let says = |bytes: &[u8]| {
            std::fs::write(&path, bytes).expect("a file");
            readings_of(&path).expect_err("no readings").to_string()
        };
        assert!(says(b"").starts_with("there is nothing in"));
        assert!(says(&[0xff, 0xfe, 0x00]).contains("is no text"));
        assert!(says(&vec![b'1'; 1_000_001]).contains("longer than any"));
        let missing = readings_of(&folder.path().join("none.csv")).expect_err("not there");
        assert!(missing.to_string().contains("none.csv could not be read"));
    }
}
