//! Strips as CSV: what was read, what it tells, and how a series stands.
//!
//! Promises: numbers stand to the last digit and are read back as the same; no cell that holds words begins
//! a formula, for it gets an apostrophe in front where it would; a table of readings can be taken in again
//! as it is.

use std::io::Write;

use super::overlay::NamedStrip;
use crate::figures::densities::Control;
use crate::logbook::strips::StripFamily;

/// Words as a cell: what a spreadsheet would reckon with or hide gets an apostrophe in front. A cell that
/// begins with apostrophes gets one more, so that taking one away always gives the words back.
#[must_use]
pub fn safe_cell(words: &str) -> String {
    let risky = words.starts_with(['=', '+', '-', '@', '\t', '\r', '\n', '\'', '|', '%']);
    if risky {
        format!("'{words}")
    } else {
        words.to_owned()
    }
}

fn number(value: Option<f64>) -> String {
    value.map_or_else(String::new, |value| value.to_string())
}

/// A table of the readings of strips: a line a step, a column a strip. Where every strip has a time of its
/// own its column is headed by that, so that the table can be read again with its times. Strips read behind
/// different tablets follow each other, each in a table of its own with a blank line between.
///
/// # Errors
/// If it cannot be written.
pub fn readings_csv(strips: &[NamedStrip], out: &mut dyn Write) -> Result<(), csv::Error> {
    let mut left: Vec<&NamedStrip> = strips.iter().collect();
    let mut first = true;
    while let Some(one) = left.first().copied() {
        let (alike, others): (Vec<&NamedStrip>, Vec<&NamedStrip>) =
            left.iter().partition(|strip| strip.tablet == one.tablet);
        if !first {
            out.write_all(b"\n")?;
        }
        first = false;
        one_tablet(&alike, out)?;
        left = others;
    }
    Ok(())
}

fn one_tablet(strips: &[&NamedStrip], out: &mut dyn Write) -> Result<(), csv::Error> {
    let Some(one) = strips.first() else {
        return Ok(());
    };
    let times: Vec<_> = strips.iter().map(|strip| strip.kept.strip.time).collect();
    let timed = times
        .iter()
        .enumerate()
        .all(|(at, time)| time.is_some() && times.iter().skip(at + 1).all(|other| other != time));
    let bare = one.kept.strip.bare;
    let lit = strips.iter().all(|strip| strip.kept.strip.bare == bare);
    let mut table = csv::Writer::from_writer(out);
    let mut heads = vec!["step".to_owned(), "tablet".to_owned()];
    if lit && bare.is_some() {
        heads.push("log exposure".to_owned());
    }
    heads.extend(strips.iter().zip(&times).map(|(strip, time)| match time {
        Some(time) if timed => safe_cell(&time.to_string()),
        _ => safe_cell(&format!("density {}", strip.kept.reference)),
    }));
    table.write_record(&heads)?;
    for step in 1..=one.tablet.count() {
        let mut row = vec![step.to_string(), number(one.tablet.density(step))];
        if let (true, Some(bare)) = (lit, bare) {
            row.push(number(one.tablet.log_exposure(step, bare)));
        }
        for strip in strips {
            let read = strip.kept.strip.readings.get(step - 1).copied().flatten();
            row.push(number(read.map(|density| density.value())));
        }
        table.write_record(&row)?;
    }
    table.flush()?;
    Ok(())
}

/// What each time of a family gave, a line a time.
///
/// # Errors
/// If it cannot be written.
pub fn family_csv(found: &StripFamily, out: &mut dyn Write) -> Result<(), csv::Error> {
    let mut table = csv::Writer::from_writer(out);
    table.write_record([
        "strip",
        "read",
        "film",
        "developer",
        "seconds",
        "base plus fog",
        "average gradient",
        "contrast index",
        "log H at speed point",
        "effective speed",
        "rise over 1.30",
    ])?;
    for (kept, it) in found.strips.iter().zip(&found.family.measured) {
        table.write_record([
            safe_cell(&kept.reference),
            kept.at.to_rfc3339(),
            safe_cell(kept.film()),
            safe_cell(&kept.developer()),
            it.time.value().to_string(),
            it.base_fog.to_string(),
            it.gradient.to_string(),
            number(it.index),
            it.log_h.to_string(),
            number(it.speed),
            number(it.rise),
        ])?;
    }
    table.flush()?;
    Ok(())
}

/// The strips of a series, a line a strip, with the limits of each measure at the end of its columns.
///
/// # Errors
/// If it cannot be written.
pub fn control_csv(control: &Control, out: &mut dyn Write) -> Result<(), csv::Error> {
    let mut table = csv::Writer::from_writer(out);
    let mut heads = vec!["strip".to_owned(), "day".to_owned()];
    for measure in &control.measures {
        let name = measure.name;
        heads.extend([
            name.to_owned(),
            format!("{name} outside by"),
            format!("{name} lower limit"),
            format!("{name} middle"),
            format!("{name} upper limit"),
        ]);
    }
    table.write_record(&heads)?;
    for (at, strip) in control.strips.iter().enumerate() {
        let mut row = vec![safe_cell(&strip.name), strip.on.to_string()];
        for measure in &control.measures {
            let value = measure.told_values().get(at).copied().flatten();
            row.push(number(value));
            row.push(number(measure.outside(at)));
            let limits = measure.told_limits();
            row.extend((0..3).map(|it| number(limits.and_then(|all| all.get(it).copied()))));
        }
        table.write_record(&row)?;
    }
    table.flush()?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_cell_of_words_begins_a_formula_and_its_words_come_back() {
        for words in [
            "=1+1", "+49", "-x", "@SUM(A1)", "\tx", "'=1", "''", "FP4 Plus", "", "1+1",
        ] {
            let cell = safe_cell(words);
            assert!(
                !cell.starts_with(['=', '+', '-', '@', '\t', '\r']),
                "{cell}"
            );
            let back = cell.strip_prefix('\'').unwrap_or(&cell);
            assert_eq!(back, words);
        }
    }
}
