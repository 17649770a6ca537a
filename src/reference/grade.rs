//! Contrast of silver gelatin paper: filters on papers, grades, sets of filters matched in speed.
//!
//! Promises: along the filters of one paper the range falls, so that it can be interpolated; grades do
//! not overlap. Which filter a negative needs is left to the craft.

use serde::Deserialize;
use toml::Spanned;

use super::Reference;
use super::error::{Fault, ReferenceError};
use super::naming::{Named, find, slug};
use super::page::{Cite, Page};
use super::standing::{Origin, Standing};
use crate::craft::Grounds;

/// A paper under the filters of a set.
#[derive(Debug, Clone, PartialEq)]
pub struct FilteredPaper {
    /// Id of the paper.
    pub paper: String,
    /// Its name for people.
    pub name: String,
    /// Other ways in which people write it.
    pub also: Vec<String>,
    /// Its filters, softest first.
    pub filters: Vec<FilterRow>,
    /// What the ranges rest on.
    pub ranges: Grounds,
    /// What the speeds rest on.
    pub speeds: Grounds,
    /// Where the record was read.
    pub origin: Origin,
}

/// One filter on one paper.
#[derive(Debug, Clone, PartialEq)]
pub struct FilterRow {
    /// The filter as it is marked: `00`, `2`, `3.5`.
    pub filter: String,
    /// Where it stands on the axis: -1 for 00.
    pub at: f64,
    /// ISO(R), a hundred times the useful log exposure range.
    pub range: f64,
    /// ISO(P), where it is known.
    pub speed: Option<f64>,
}

/// Where a grade begins and ends.
#[derive(Debug, Clone, PartialEq)]
pub struct Grade {
    /// Its number.
    pub grade: u8,
    /// The shortest log exposure range of it.
    pub from: f64,
    /// The longest.
    pub to: f64,
    /// What the bounds rest on.
    pub grounds: Grounds,
}

/// A set of filters matched in speed.
#[derive(Debug, Clone, PartialEq)]
pub struct Matched {
    /// Name in files.
    pub id: String,
    /// Its name.
    pub name: String,
    /// From this filter on, on the axis of filters, the time is `factor` times as long.
    pub from: f64,
    /// That factor.
    pub factor: f64,
    /// What it rests on.
    pub grounds: Grounds,
    /// A remark; empty if there is none.
    pub note: String,
}

impl Reference {
    /// Papers of which it is known what filters give on them.
    pub fn filtered_papers(&self) -> &[FilteredPaper] {
        &self.whole().paper_contrast.papers
    }

    /// The paper under filters that a typed name means; `None` also if it could mean more than one.
    pub fn filtered_paper(&self, typed: &str) -> Option<&FilteredPaper> {
        find(&self.whole().paper_contrast.papers, typed)
    }

    /// The grades of paper.
    pub fn grades(&self) -> &[Grade] {
        &self.whole().paper_contrast.grades
    }

    /// Sets of filters that are matched in speed.
    pub fn matched_filters(&self) -> &[Matched] {
        &self.whole().paper_contrast.matched
    }
}

impl Named for FilteredPaper {
    fn id(&self) -> &str {
        &self.paper
    }

    fn names(&self) -> Vec<String> {
        let mut names = vec![self.name.clone()];
        names.extend(self.also.iter().cloned());
        names
    }
}

impl Named for Matched {
    fn id(&self) -> &str {
        &self.id
    }

    fn names(&self) -> Vec<String> {
        vec![self.name.clone()]
    }
}

/// Everything that is told of paper contrast.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Grades {
    pub(super) papers: Vec<FilteredPaper>,
    pub(super) grades: Vec<Grade>,
    pub(super) matched: Vec<Matched>,
}

/// Where a filter stands on the axis: 00 is -1, the others are their numbers.
///
/// `None` if it is no filter from 00 to 5.
pub fn filter_at(filter: &str) -> Option<f64> {
    let bare = filter.trim();
    if bare == "00" {
        return Some(-1.0);
    }
    let number = crate::craft::number(bare).ok()?;
    (-1.0..=5.0).contains(&number).then_some(number)
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct GradesFile {
    #[serde(default)]
    filtered: Vec<FilteredFile>,
    #[serde(default)]
    grade: Vec<GradeFile>,
    #[serde(default)]
    matched: Vec<MatchedFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FilteredFile {
    paper: Option<Spanned<String>>,
    name: Spanned<String>,
    #[serde(default)]
    also: Vec<String>,
    source: Option<String>,
    standing: Option<Standing>,
    speed_source: Option<String>,
    speed_standing: Option<Standing>,
    filters: Vec<RowFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RowFile {
    filter: Spanned<String>,
    range: f64,
    speed: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct GradeFile {
    grade: Spanned<u8>,
    from: f64,
    to: f64,
    source: Option<String>,
    standing: Option<Standing>,
    #[serde(default)]
    note: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct MatchedFile {
    id: Spanned<String>,
    name: Spanned<String>,
    from: Spanned<String>,
    factor: f64,
    source: Option<String>,
    standing: Option<Standing>,
    #[serde(default)]
    note: String,
}

/// Reads and checks what is told of paper contrast.
pub(super) fn read(page: &Page<'_>) -> Result<Grades, ReferenceError> {
    let file: GradesFile = page.read()?;
    let mut grades = Grades::default();
    for written in file.filtered {
        let paper = filtered(page, written, &grades.papers)?;
        grades.papers.push(paper);
    }
    for written in file.grade {
        let grade = grade(page, written, &grades.grades)?;
        grades.grades.push(grade);
    }
    for written in file.matched {
        let set = matched(page, written, &grades.matched)?;
        grades.matched.push(set);
    }
    Ok(grades)
}

fn filtered(
    page: &Page<'_>,
    written: FilteredFile,
    seen: &[FilteredPaper],
) -> Result<FilteredPaper, ReferenceError> {
    let name = page.text("name", &written.name)?;
    let span = written.name.span();
    let id = written
        .paper
        .unwrap_or_else(|| Spanned::new(span.clone(), slug(&name)));
    page.once("paper", &id, seen.iter().map(|it| &it.paper))?;
    let mut filters: Vec<FilterRow> = Vec::with_capacity(written.filters.len());
    for row in written.filters {
        let fault = |message: String| page.fault(row.filter.span(), Fault::Shape { message });
        let filter = row.filter.get_ref().clone();
        let at = filter_at(&filter)
            .ok_or_else(|| fault(format!("\"{filter}\" is no filter from 00 to 5")))?;
        if !(10.0..=300.0).contains(&row.range) {
            return Err(fault(
                "range is ISO(R) from 10 to 300, such as 110".to_owned(),
            ));
        }
        if row
            .speed
            .is_some_and(|speed| !(0.1..=10_000.0).contains(&speed))
        {
            return Err(fault("speed is ISO(P), such as 200".to_owned()));
        }
        if let Some(before) = filters.last()
            && (before.at >= at || before.range <= row.range)
        {
            return Err(fault(
                "filters go from soft to hard, each with a shorter range than the one before"
                    .to_owned(),
            ));
        }
        filters.push(FilterRow {
            filter,
            at,
            range: row.range,
            speed: row.speed,
        });
    }
    if filters.len() < 2 {
        let message = "a paper needs two filters at least".to_owned();
        return Err(page.fault(span, Fault::Shape { message }));
    }
    let cite = Cite {
        source: written.source,
        standing: written.standing,
    };
    let (source, standing) = page.cited(&name, span.clone(), cite)?;
    let (speed_source, speed_standing) = match (written.speed_source, written.speed_standing) {
        (None, None) => (source.clone(), standing),
        (source, standing) => page.cited(&name, span, Cite { source, standing })?,
    };
    Ok(FilteredPaper {
        paper: page.id(&id)?,
        name,
        also: written.also,
        filters,
        ranges: Grounds::new(standing, source),
        speeds: Grounds::new(speed_standing, speed_source),
        origin: page.origin.clone(),
    })
}

fn grade(page: &Page<'_>, written: GradeFile, seen: &[Grade]) -> Result<Grade, ReferenceError> {
    let grade = *written.grade.get_ref();
    let span = written.grade.span();
    let fault = |message: &str| {
        let message = message.to_owned();
        page.fault(span.clone(), Fault::Shape { message })
    };
    if !(0.0..written.to).contains(&written.from) || written.to > 4.0 {
        return Err(fault(
            "a grade goes from a shorter to a longer range, 0.95 to 1.15",
        ));
    }
    let apart = |other: &Grade| {
        other.grade != grade && (written.to <= other.from + 1e-9 || written.from >= other.to - 1e-9)
    };
    if !seen.iter().all(apart) {
        return Err(fault("this grade is there already, or overlaps another"));
    }
    let cite = Cite {
        source: written.source,
        standing: written.standing,
    };
    let (mut source, standing) = page.cited(&format!("grade {grade}"), span, cite)?;
    if !written.note.is_empty() {
        source = format!("{source}; {}", written.note);
    }
    Ok(Grade {
        grade,
        from: written.from,
        to: written.to,
        grounds: Grounds::new(standing, source),
    })
}

fn matched(
    page: &Page<'_>,
    written: MatchedFile,
    seen: &[Matched],
) -> Result<Matched, ReferenceError> {
    page.once("set of filters", &written.id, seen.iter().map(|it| &it.id))?;
    let name = page.text("name", &written.name)?;
    let fault = |message: &str| {
        let message = message.to_owned();
        page.fault(written.from.span(), Fault::Shape { message })
    };
    let from =
        filter_at(written.from.get_ref()).ok_or_else(|| fault("from is a filter from 00 to 5"))?;
    if !(0.1..=16.0).contains(&written.factor) {
        return Err(fault("factor is a factor of the time, such as 2"));
    }
    let cite = Cite {
        source: written.source,
        standing: written.standing,
    };
    let (source, standing) = page.cited(&name, written.name.span(), cite)?;
    Ok(Matched {
        id: page.id(&written.id)?,
        name,
        from,
        factor: written.factor,
        grounds: Grounds::new(standing, source),
        note: written.note,
    })
}
