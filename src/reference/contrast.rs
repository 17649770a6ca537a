//! How a process is made harder or softer, and what range of densities it then takes.
//!
//! An exposure scale is the range of negative densities, in log, that a process prints from paper
//! white to its full black; it is the density range a negative should have. Promises: a table's
//! settings rise from row to row, a scale that is read is a range a negative can have, and each row
//! says what it rests on. What lies between two rows is left to the craft, and to the user's own step
//! tablet.

use std::fmt;

use serde::Deserialize;
use toml::{Spanned, Table};

use super::error::{Fault, ReferenceError};
use super::mix::Mix;
use super::page::{Cite, Page};
use super::paper::PaperKind;
use super::standing::Standing;
use crate::craft::trimmed;

/// The longest exposure scale that is taken for one, in log.
const LONGEST: f64 = 4.0;

/// An exposure scale: the range of negative densities that prints from white to full black.
#[derive(Debug, Clone, PartialEq)]
pub struct Scale {
    /// What it holds for, such as `washed out in water`; empty for the process as it is.
    pub of: String,
    /// Least and most, in log; both the same for a single figure.
    pub range: (f64, f64),
    /// Set if it holds for one kind of paper only.
    pub paper: Option<PaperKind>,
    /// Where it was read.
    pub source: String,
    /// What that source is worth.
    pub standing: Standing,
    /// A remark; empty if there is none.
    pub note: String,
}

/// `1.35 to 1.4`.
impl fmt::Display for Scale {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&in_log(self.range))
    }
}

/// A range in log as people write it.
fn in_log((least, most): (f64, f64)) -> String {
    if most > least {
        format!("{} to {}", trimmed(least, 2), trimmed(most, 2))
    } else {
        trimmed(least, 2)
    }
}

/// A control of contrast, with its table.
#[derive(Debug, Clone, PartialEq)]
pub struct Contrast {
    /// Name in files; unique in its process.
    pub id: String,
    /// What is varied, for people.
    pub label: String,
    /// Id of the step in which it is set.
    pub step: String,
    /// The figure of that step that says how it was set, if there is one.
    pub figure: Option<String>,
    /// What the settings are counted in; empty where they are words.
    pub unit: String,
    /// Id of the mix it was found with, if it was found with one.
    pub mix: Option<String>,
    /// The settings, in order.
    pub rows: Vec<ContrastRow>,
    /// Where it was read.
    pub source: String,
    /// What that source is worth.
    pub standing: Standing,
    /// A remark; empty if there is none.
    pub note: String,
}

impl Contrast {
    /// The settings that are numbers with an exposure scale, in rising order: what a table can be read
    /// between.
    pub fn points(&self) -> impl Iterator<Item = (f64, (f64, f64))> {
        self.rows
            .iter()
            .filter_map(|row| Some((row.at?, row.scale?)))
    }

    /// The setting with this name, such as a grade.
    pub fn named(&self, name: &str) -> Option<&ContrastRow> {
        self.rows.iter().find(|row| row.name == name)
    }
}

/// One setting of a control.
#[derive(Debug, Clone, PartialEq)]
pub struct ContrastRow {
    /// How much, in the unit of the control.
    pub at: Option<f64>,
    /// What it is called, such as `average` or `00`; empty if it is a number only.
    pub name: String,
    /// The exposure scale it gives, least and most, in log.
    pub scale: Option<(f64, f64)>,
    /// How much more exposure it takes, as a factor above nothing.
    pub exposure: Option<f64>,
    /// The shares it gives the parts of the mix, by their keys.
    pub shares: Vec<(String, f64)>,
    /// Set if it holds for one kind of paper only.
    pub paper: Option<PaperKind>,
    /// Where it was read.
    pub source: String,
    /// What that source is worth.
    pub standing: Standing,
    /// A remark; empty if there is none.
    pub note: String,
}

impl ContrastRow {
    /// The setting as people write it: `4 ml`, `average`, `00`.
    pub fn value(&self, unit: &str) -> String {
        let number = self.at.map(|at| format!("{} {unit}", trimmed(at, 3)));
        let number = number.map(|number| number.trim_end().to_owned());
        match (number, self.name.as_str()) {
            (None, name) => name.to_owned(),
            (Some(number), "") => number,
            (Some(number), name) => format!("{number}, {name}"),
        }
    }

    /// What it gives: `scale 1.5`, `exposure x2`, `a 22 b 0 c 24`, the note.
    pub fn gives(&self) -> String {
        let mut says = Vec::new();
        if let Some(scale) = self.scale {
            says.push(format!("scale {}", in_log(scale)));
        }
        if let Some(factor) = self.exposure {
            says.push(format!("exposure x{}", trimmed(factor, 2)));
        }
        if !self.shares.is_empty() {
            let one = |(key, share): &(String, f64)| format!("{key} {}", trimmed(*share, 3));
            let each: Vec<String> = self.shares.iter().map(one).collect();
            says.push(each.join(" : "));
        }
        if !self.note.is_empty() {
            says.push(self.note.clone());
        }
        says.join("; ")
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ScaleFile {
    of: Option<Spanned<String>>,
    from: Spanned<f64>,
    to: Option<f64>,
    paper: Option<PaperKind>,
    source: Option<String>,
    standing: Option<Standing>,
    #[serde(default)]
    note: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ContrastFile {
    pub(super) id: Spanned<String>,
    label: Spanned<String>,
    pub(super) step: Spanned<String>,
    pub(super) figure: Option<Spanned<String>>,
    #[serde(default)]
    unit: String,
    mix: Option<Spanned<String>>,
    row: Vec<Spanned<RowFile>>,
    source: Option<String>,
    standing: Option<Standing>,
    #[serde(default)]
    note: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RowFile {
    at: Option<f64>,
    #[serde(default)]
    name: String,
    from: Option<f64>,
    to: Option<f64>,
    exposure: Option<f64>,
    #[serde(default)]
    shares: Table,
    paper: Option<PaperKind>,
    source: Option<String>,
    standing: Option<Standing>,
    #[serde(default)]
    note: String,
}

/// Reads and checks the exposure scales of a process.
pub(super) fn scales(
    page: &Page<'_>,
    written: Vec<ScaleFile>,
) -> Result<Vec<Scale>, ReferenceError> {
    let mut read = Vec::with_capacity(written.len());
    for one in written {
        let span = one.from.span();
        let of = match &one.of {
            Some(of) => page.text("of", of)?,
            None => String::new(),
        };
        let what = "exposure scale";
        let range = page.range(what, span.clone(), Some(*one.from.get_ref()), one.to)?;
        let Some(range) = range.filter(is_a_scale) else {
            let what = what.to_owned();
            return Err(page.fault(span, Fault::NoScale { what }));
        };
        let cite = Cite {
            source: one.source,
            standing: one.standing,
        };
        let (source, standing) = page.cited(what, span, cite)?;
        read.push(Scale {
            of,
            range,
            paper: one.paper,
            source,
            standing,
            note: one.note,
        });
    }
    Ok(read)
}

fn is_a_scale(&(least, most): &(f64, f64)) -> bool {
    least > 0.0 && most <= LONGEST
}

/// Reads and checks a control of contrast; `mixes` are those of the process.
pub(super) fn contrast(
    page: &Page<'_>,
    written: ContrastFile,
    mixes: &[Mix],
) -> Result<Contrast, ReferenceError> {
    let id = page.id(&written.id)?;
    let label = page.text("label", &written.label)?;
    let cite = Cite {
        source: written.source,
        standing: written.standing,
    };
    let ground = page.cited(&label, written.label.span(), cite)?;
    let mix = match &written.mix {
        None => None,
        Some(named) => {
            let found = mixes.iter().find(|mix| mix.id == *named.get_ref());
            let fault = || Fault::NotThere {
                of: format!("contrast {id:?}"),
                key: "mix",
                other: named.get_ref().clone(),
            };
            Some(found.ok_or_else(|| page.fault(named.span(), fault()))?)
        }
    };
    let mut rows: Vec<ContrastRow> = Vec::with_capacity(written.row.len());
    for row in written.row {
        let span = row.span();
        let bad = |why: String| {
            let id = id.clone();
            page.fault(span.clone(), Fault::BadContrast { id, why })
        };
        let row = one_row(page, &label, row, &ground, &bad, mix)?;
        let last = rows.iter().rev().find_map(|row| row.at);
        if let (Some(at), Some(last)) = (row.at, last)
            && at <= last
        {
            let why = format!("{at} stands below {last}: put the rows in rising order");
            return Err(bad(why));
        }
        rows.push(row);
    }
    if rows.is_empty() {
        let why = "it has no row: write at least one".to_owned();
        let fault = Fault::BadContrast { id, why };
        return Err(page.fault(written.id.span(), fault));
    }
    let (source, standing) = ground;
    Ok(Contrast {
        id,
        label,
        step: written.step.into_inner(),
        figure: written.figure.map(Spanned::into_inner),
        unit: written.unit,
        mix: written.mix.map(Spanned::into_inner),
        rows,
        source,
        standing,
        note: written.note,
    })
}

fn one_row(
    page: &Page<'_>,
    label: &str,
    row: Spanned<RowFile>,
    ground: &(String, Standing),
    bad: &dyn Fn(String) -> ReferenceError,
    mix: Option<&Mix>,
) -> Result<ContrastRow, ReferenceError> {
    let span = row.span();
    let row = row.into_inner();
    let name = row.name.trim().to_owned();
    if row.at.is_none() && name.is_empty() {
        return Err(bad("a row has no setting: give it at or a name".into()));
    }
    if row.at.is_some_and(|at| !(at.is_finite() && at >= 0.0)) {
        return Err(bad("at must be a plain number, nothing or more".into()));
    }
    let scale = page.range(label, span.clone(), row.from, row.to)?;
    if scale.is_some_and(|scale| !is_a_scale(&scale)) {
        let what = label.to_owned();
        return Err(page.fault(span, Fault::NoScale { what }));
    }
    if row.exposure.is_some_and(|it| !(it.is_finite() && it > 0.0)) {
        return Err(bad("exposure is a factor above nothing".into()));
    }
    let shares = shares(&row.shares, mix).map_err(bad)?;
    let silent = scale.is_none() && row.exposure.is_none() && shares.is_empty();
    if silent && row.note.trim().is_empty() {
        let why = "a row says nothing: give it from (and to), exposure, shares or a note";
        return Err(bad(why.into()));
    }
    let cite = Cite {
        source: row.source,
        standing: row.standing,
    };
    let (source, standing) = page.cited_or(label, span, cite, ground)?;
    Ok(ContrastRow {
        at: row.at,
        name,
        scale,
        exposure: row.exposure,
        shares,
        paper: row.paper,
        source,
        standing,
        note: row.note,
    })
}

/// The shares of a row, in the order of the parts of its mix.
fn shares(written: &Table, mix: Option<&Mix>) -> Result<Vec<(String, f64)>, String> {
    let parts = mix.map(|mix| mix.parts.as_slice()).unwrap_or_default();
    let is_part = |key: &str| parts.iter().any(|part| part.key == key);
    if let Some(key) = written.keys().find(|key| !is_part(key)) {
        return Err(format!(
            "it shares out {key:?}, which is no part of its mix"
        ));
    }
    let mut shares = Vec::with_capacity(written.len());
    for part in parts {
        let Some(share) = written.get(&part.key) else {
            continue;
        };
        let whole = || share.as_integer().and_then(|it| i32::try_from(it).ok());
        let number = share.as_float().or_else(|| whole().map(f64::from));
        match number.filter(|share| share.is_finite() && *share >= 0.0) {
            Some(number) => shares.push((part.key.clone(), number)),
            None => {
                let key = &part.key;
                return Err(format!(
                    "the share of {key:?} must be a plain number, nothing or more"
                ));
            }
        }
    }
    Ok(shares)
}
