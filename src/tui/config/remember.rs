//! Remembering in the settings file what was changed while the program ran.
//!
//! For: the habits of the clock. The file is a person's own: their lines, their order and their
//! remarks stay as they are; a line of the table that names one of the settings gets the new value,
//! and what is missing is put below the head of its table.
//!
//! Promises: the file is only written when what comes out reads as meant and everything else in it
//! reads as before; it is replaced as a whole, so that a crash leaves the old or the new one.

use std::io::{self, Write};
use std::path::Path;

use toml::{Table, Value};

/// Puts settings into a table of the file.
///
/// # Errors
/// In a sentence, when the file cannot be read or written, or is written in a way in which the
/// settings cannot be put.
pub fn remember(path: &Path, table: &str, settings: &[(&str, String)]) -> Result<(), String> {
    let before = match std::fs::read_to_string(path) {
        Ok(text) => text,
        Err(error) if error.kind() == io::ErrorKind::NotFound => String::new(),
        Err(error) => return Err(format!("{} cannot be read ({error})", path.display())),
    };
    let Some(after) = with(&before, table, settings) else {
        let lines: Vec<String> = settings
            .iter()
            .map(|(name, value)| format!("{name} = {value}"))
            .collect();
        return Err(format!(
            "{} is not written as expected: put under [{table}] there: {}",
            path.display(),
            lines.join(", ")
        ));
    };
    if after == before {
        return Ok(());
    }
    replace(path, &after).map_err(|error| format!("{} cannot be written ({error})", path.display()))
}

fn replace(path: &Path, text: &str) -> io::Result<()> {
    let folder = path.parent().unwrap_or(Path::new("."));
    std::fs::create_dir_all(folder)?;
    // A link is followed, so that it stays one.
    let path = path.canonicalize().unwrap_or_else(|_| path.to_owned());
    let folder = path.parent().unwrap_or(folder);
    let mut file = tempfile::NamedTempFile::new_in(folder)?;
    file.write_all(text.as_bytes())?;
    if let Ok(kept) = std::fs::metadata(&path) {
        file.as_file().set_permissions(kept.permissions())?;
    }
    file.persist(&path)?;
    Ok(())
}

/// The text with these settings in this table; none if they cannot be put there.
fn with(text: &str, table: &str, settings: &[(&str, String)]) -> Option<String> {
    let old: Table = text.parse().ok()?;
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    let head = format!("[{table}]");
    let is_head = |line: &String| uncommented(line) == head;
    let at = match lines.iter().position(is_head) {
        Some(at) => at,
        None => {
            if lines.last().is_some_and(|line| !line.trim().is_empty()) {
                lines.push(String::new());
            }
            lines.push(head.clone());
            lines.len() - 1
        }
    };
    for (name, value) in settings {
        let end = lines
            .iter()
            .skip(at + 1)
            .position(|line| line.trim_start().starts_with('['))
            .map_or(lines.len(), |count| at + 1 + count);
        let named = |line: &String| {
            let (key, _) = line.split_once('=')?;
            (key.trim() == *name).then_some(())
        };
        let found = (at + 1..end).find(|at| lines.get(*at).and_then(named).is_some());
        match found.and_then(|at| lines.get_mut(at)) {
            Some(line) => *line = format!("{name} = {value}{}", remark(line)),
            None => lines.insert(at + 1, format!("{name} = {value}")),
        }
    }
    let mut out = lines.join("\n");
    out.push('\n');
    let new: Table = out.parse().ok()?;
    reads_as_meant(&old, &new, table, settings).then_some(out)
}

/// A line without the remark behind it. The lines meant here have no `#` in a value.
fn uncommented(line: &str) -> &str {
    line.split('#').next().unwrap_or_default().trim()
}

fn remark(line: &str) -> String {
    line.split_once('#')
        .map(|(_, remark)| format!("  #{remark}"))
        .unwrap_or_default()
}

fn reads_as_meant(old: &Table, new: &Table, table: &str, settings: &[(&str, String)]) -> bool {
    let mut wanted = old.clone();
    let inner = wanted
        .entry(table)
        .or_insert_with(|| Value::Table(Table::new()));
    let Value::Table(inner) = inner else {
        return false;
    };
    for (name, value) in settings {
        let Ok(mut parsed) = format!("v = {value}").parse::<Table>() else {
            return false;
        };
        let Some(value) = parsed.remove("v") else {
            return false;
        };
        inner.insert((*name).to_owned(), value);
    }
    wanted == *new
}

#[cfg(test)]
mod tests {
    use super::*;

    fn kept(text: &str) -> Option<String> {
        with(
            text,
            "clock",
            &[("bell", "\"off\"".to_owned()), ("lead_in", "0".to_owned())],
        )
    }

    #[test]
    fn a_file_of_ones_own_keeps_its_lines_and_remarks() {
        let text = "# mine\ntheme = \"dark\"   # evenings\n\n[clock]\nbell = \"marks\" # loud\n\n[keys]\n\"app.undo\" = \"y\"\n";
        assert_eq!(
            kept(text).as_deref(),
            Some(
                "# mine\ntheme = \"dark\"   # evenings\n\n[clock]\nlead_in = 0\nbell = \"off\"  # loud\n\n[keys]\n\"app.undo\" = \"y\"\n"
            )
        );
    }

    #[test]
    fn a_table_that_is_not_there_is_put_at_the_end() {
        assert_eq!(
            kept("").as_deref(),
            Some("[clock]\nlead_in = 0\nbell = \"off\"\n")
        );
        assert_eq!(
            kept("[keys]\na = \"x\"").as_deref(),
            Some("[keys]\na = \"x\"\n\n[clock]\nlead_in = 0\nbell = \"off\"\n")
        );
    }

    #[test]
    fn what_cannot_be_put_in_safely_is_left_alone() {
        for text in [
            "clock = { bell = \"marks\" }\n",
            "clock.bell = \"marks\"\n",
            "clock = 3\n",
            "theme = \n",
            "note = \"\"\"\n[clock]\n\"\"\"\n",
        ] {
            assert_eq!(kept(text), None, "{text}");
        }
    }

    #[test]
    fn the_file_is_made_where_there_is_none_and_told_of_where_it_cannot_be() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("deep/settings.toml");
        let settings = [("bell", "\"off\"".to_owned())];
        remember(&path, "clock", &settings).unwrap();
        assert_eq!(
            std::fs::read_to_string(&path).unwrap(),
            "[clock]\nbell = \"off\"\n"
        );
        let said = remember(folder.path(), "clock", &settings).unwrap_err();
        assert!(said.contains("cannot be read"), "{said}");
        std::fs::write(&path, "clock = 3\n").unwrap();
        let said = remember(&path, "clock", &settings).unwrap_err();
        assert!(
            said.contains("put under [clock] there: bell = \"off\""),
            "{said}"
        );
        assert_eq!(std::fs::read_to_string(&path).unwrap(), "clock = 3\n");
    }
}
