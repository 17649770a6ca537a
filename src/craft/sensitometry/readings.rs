//! Densities of a step tablet as people write them down: a list, pairs of step and density, or CSV.
//!
//! For: fields and flags that take a whole strip, or several, as one text. Promises: every density is
//! taken or named as unreadable; a strip that was read from its other end is turned and says so; a list
//! that leaves steps out is refused, because which ones is not known. Leaves to others: files.

use crate::craft::{Concern, Density, Impossible, Remark, Seconds, number};

mod rows;
#[cfg(test)]
mod tests;

use rows::{Row, rows};

const MINUTE: f64 = 60.0;

/// One density on the film.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// The step of the tablet above it, from 1, the clearest.
    pub step: usize,
    /// The density.
    pub density: Density,
}

/// The readings of one strip of film.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Strip {
    /// How long it was developed, where its column says so.
    pub time: Option<Seconds>,
    /// Its readings.
    pub readings: Vec<Reading>,
}

/// What one text holds.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Sheet {
    /// The strips, in the order in which they are written.
    pub strips: Vec<Strip>,
    /// The densities of the tablet itself, where a column holds them.
    pub tablet: Vec<Density>,
    /// What was understood otherwise than it was written.
    pub remarks: Vec<Remark>,
}

/// A time of development: a bare number is minutes, anything else a time as written: `8`, `5.5`, `7m30`.
///
/// # Errors
/// If it is no time.
pub fn minutes(text: &str) -> Result<Seconds, crate::craft::Unreadable> {
    match number(text) {
        Ok(minutes) => Seconds::new(minutes * MINUTE),
        Err(_) => Seconds::parse(text),
    }
}

/// Reads the strips of a tablet of so many steps. Several strips stand one a line (or parted by
/// semicolons), or one a column under a head like `step,t4,t5.5,t8`.
///
/// # Errors
/// If something in the text is no density, or steps are missing without being named.
pub fn read(text: &str, steps: usize) -> Result<Sheet, Impossible> {
    let rows = rows(text);
    let Some(first) = rows.first() else {
        return Err(Impossible::new(
            "there are no readings: write the densities from step 1 on, such as 1.61 1.51 1.42, or steps \
             with their densities, 1 1.61 2 1.51",
        ));
    };
    let mut sheet = if first.is_head() {
        under_heads(first, rows.get(1..).unwrap_or_default())?
    } else {
        plain(&rows, steps)?
    };
    for strip in &mut sheet.strips {
        if let Some(odd) = strip
            .readings
            .iter()
            .find(|it| !(1..=steps).contains(&it.step))
        {
            return Err(Impossible::new(format!(
                "there is no step {} on a tablet of {steps} steps",
                odd.step
            )));
        }
        strip.readings.sort_by_key(|it| it.step);
        let twice = strip.readings.windows(2).find_map(|pair| match pair {
            [one, next] if one.step == next.step => Some(one.step),
            _ => None,
        });
        if let Some(step) = twice {
            return Err(Impossible::new(format!("step {step} is there twice")));
        }
        if turned(strip, steps) {
            let words = "the densities rise with the step, so they were read from the dark end of the \
                         tablet: the first is taken as the last step";
            let remark = Remark {
                concern: Concern::Note,
                words: words.into(),
            };
            if !sheet.remarks.contains(&remark) {
                sheet.remarks.push(remark);
            }
        }
    }
    Ok(sheet)
}

/// Turns a strip that was read from its other end; says whether it did.
fn turned(strip: &mut Strip, steps: usize) -> bool {
    let rises = match (strip.readings.first(), strip.readings.last()) {
        (Some(first), Some(last)) => last.density.value() > first.density.value(),
        _ => false,
    };
    if rises {
        for reading in &mut strip.readings {
            reading.step = steps + 1 - reading.step;
        }
        strip.readings.reverse();
    }
    rises
}

fn density(text: &str) -> Result<Density, Impossible> {
    Ok(Density::parse(text)?)
}

/// The step a text names, if it is a whole number.
fn step(text: &str) -> Option<usize> {
    text.parse().ok().filter(|step| (1..=1000).contains(step))
}

/// Rows without heads.
fn plain(rows: &[Row], steps: usize) -> Result<Sheet, Impossible> {
    let width = rows.first().map_or(0, |row| row.cells.len());
    let even = rows.iter().all(|row| row.cells.len() == width);
    let each_a_step = rows.len() > 1 && rows.iter().all(|row| row.first_step().is_some());
    let strips = if even && width >= 2 && width != steps && each_a_step {
        table(rows, width)?
    } else if rows.len() > 1 && rows.iter().all(|row| row.cells.len() == 1) {
        let cells: Vec<&str> = rows.iter().flat_map(Row::texts).collect();
        vec![list(&cells, steps)?]
    } else {
        let strips = rows.iter().map(|row| {
            let cells: Vec<&str> = row.texts().collect();
            match pairs(&cells) {
                Some(pairs) => of_pairs(&pairs),
                None => list(&cells, steps),
            }
        });
        strips.collect::<Result<_, _>>()?
    };
    Ok(Sheet {
        strips,
        ..Sheet::default()
    })
}

/// Rows that begin with their step, one strip a column.
fn table(rows: &[Row], width: usize) -> Result<Vec<Strip>, Impossible> {
    let mut strips = vec![Strip::default(); width - 1];
    for row in rows {
        let Some(step) = row.first_step() else {
            continue;
        };
        for (strip, text) in strips.iter_mut().zip(row.texts().skip(1)) {
            let density = density(text)?;
            strip.readings.push(Reading { step, density });
        }
    }
    Ok(strips)
}

/// The steps and densities of `1 1.61 2 1.51 3 1.42`; nothing if the text is not written so.
fn pairs<'t>(cells: &[&'t str]) -> Option<Vec<(usize, &'t str)>> {
    let found: Vec<(usize, &str)> = cells
        .chunks(2)
        .map(|pair| match pair {
            [at, density] => Some((step(at)?, *density)),
            _ => None,
        })
        .collect::<Option<_>>()?;
    let one_way = |way: fn(&usize, &usize) -> bool| {
        found.windows(2).all(|two| match two {
            [(one, _), (next, _)] => way(one, next),
            _ => false,
        })
    };
    let ordered = one_way(|one, next| one < next) || one_way(|one, next| one > next);
    (ordered && found.len() > 1).then_some(found)
}

fn of_pairs(pairs: &[(usize, &str)]) -> Result<Strip, Impossible> {
    let readings = pairs.iter().map(|&(step, text)| {
        let density = density(text)?;
        Ok(Reading { step, density })
    });
    Ok(Strip {
        time: None,
        readings: readings.collect::<Result<_, Impossible>>()?,
    })
}

/// The densities of every step in order.
fn list(cells: &[&str], steps: usize) -> Result<Strip, Impossible> {
    let densities = cells.iter().map(|text| density(text));
    let densities: Vec<Density> = densities.collect::<Result<_, _>>()?;
    if densities.len() != steps {
        return Err(Impossible::new(format!(
            "{} readings for a tablet of {steps} steps: write one for every step, or each with its step, \
             such as 14 0.38 15 0.30",
            densities.len()
        )));
    }
    let readings = densities
        .into_iter()
        .enumerate()
        .map(|(at, density)| Reading {
            step: at + 1,
            density,
        });
    Ok(Strip {
        time: None,
        readings: readings.collect(),
    })
}

/// What a column holds.
enum Column {
    Step,
    Tablet,
    Strip(usize),
    LeftOut,
}

/// Rows under a head that says what each column is.
fn under_heads(head: &Row, rows: &[Row]) -> Result<Sheet, Impossible> {
    let mut sheet = Sheet::default();
    let mut columns = Vec::new();
    for text in head.texts() {
        let column = column(text, sheet.strips.len())?;
        match &column {
            Column::Strip(_) => sheet.strips.push(Strip {
                time: time_of(text),
                readings: Vec::new(),
            }),
            Column::LeftOut => sheet.remarks.push(Remark {
                concern: Concern::Note,
                words: format!(
                    "the column {text} is left out: exposures are reckoned from the tablet"
                ),
            }),
            Column::Step | Column::Tablet => {}
        }
        columns.push(column);
    }
    if sheet.strips.is_empty() {
        return Err(Impossible::new(
            "no column holds densities of film: head it density, or with its time of development, t8",
        ));
    }
    for (at, row) in rows.iter().enumerate() {
        if row.cells.len() > columns.len() {
            return Err(Impossible::new(format!(
                "line {} has {} cells under {} heads",
                at + 2,
                row.cells.len(),
                columns.len()
            )));
        }
        let named = columns.iter().zip(row.texts());
        let named = named
            .filter(|(column, _)| matches!(column, Column::Step))
            .map(|(_, it)| it);
        let step = match named.last() {
            None => at + 1,
            Some(text) => step(text).ok_or_else(|| {
                Impossible::new(format!(
                    "\"{text}\" on line {} is no step: write 1 to the last step of the tablet",
                    at + 2
                ))
            })?,
        };
        for (column, text) in columns.iter().zip(row.texts()) {
            match column {
                Column::Tablet if !text.is_empty() => sheet.tablet.push(density(text)?),
                Column::Strip(strip) if !text.is_empty() => {
                    let density = density(text)?;
                    if let Some(strip) = sheet.strips.get_mut(*strip) {
                        strip.readings.push(Reading { step, density });
                    }
                }
                _ => {}
            }
        }
    }
    Ok(sheet)
}

fn column(head: &str, strips: usize) -> Result<Column, Impossible> {
    let plain = head.to_lowercase();
    let begins = |word: &str| plain.starts_with(word);
    if begins("step") || plain == "no" || plain == "nr" || plain == "#" {
        Ok(Column::Step)
    } else if begins("tablet") {
        Ok(Column::Tablet)
    } else if begins("log") {
        Ok(Column::LeftOut)
    } else if plain == "d" || begins("dens") || time_of(head).is_some() {
        Ok(Column::Strip(strips))
    } else {
        Err(Impossible::new(format!(
            "the column \"{head}\" is none of step, tablet, density or a time of development such as t8"
        )))
    }
}

/// The time of development a head names: `t8`, `8`, `8 min`, `7m30`.
fn time_of(head: &str) -> Option<Seconds> {
    let plain = head.trim().to_lowercase();
    let bare = plain.strip_prefix('t').unwrap_or(&plain);
    minutes(bare.trim_start_matches(['=', ' '])).ok()
}
