//! The answer of a figure, line by line.
//!
//! Promises: the results stand first, what to beware of right behind them; every number that rests on
//! something says on what, and a table or a chart with remembered numbers says so over it.

use super::{Reckoning, rows_of};
use crate::craft::{Concern, Remark, Standing, Step};
use crate::export::plot::{Ink, Pens, plot};
use crate::figures::{Answer, Problem};
use crate::tui::look::{Look, SymbolSet};
use crate::tui::theme::Role;
use crate::tui::widgets::ledger::{Figure, Line};

/// Width below which a standing goes under its number, so that the numbers stay in their column.
const NARROW: u16 = 56;
/// Most lines of the field of a chart.
const HIGHEST: u16 = 16;

impl Reckoning {
    /// What stands at the right, for a place of this size.
    pub(super) fn page(&self, size: (u16, u16), look: &Look) -> Vec<Line> {
        match &self.said {
            Ok(answer) => self.answered(answer, size, look),
            Err(problem) => self.asked_back(problem),
        }
    }

    /// What the figure is about, and what it still needs.
    fn asked_back(&self, problem: &Problem) -> Vec<Line> {
        let says = problem.says.as_str();
        let field = problem.key.and_then(|key| self.form.field(key));
        let line = match field {
            Some(field) if field.filled().trim().is_empty() => {
                Figure::new(problem.label, says).with_role(Role::Accent)
            }
            Some(_) => Figure::new(problem.label, says),
            None => Figure::new("", says).with_role(Role::Warn),
        };
        let mut lines = Vec::new();
        if !self.is_filled() {
            lines.push(Line::Figure(Figure::new("", self.recipe.about)));
            lines.push(Line::Part);
        }
        lines.push(Line::Figure(line));
        lines
    }

    fn answered(&self, answer: &Answer, size: (u16, u16), look: &Look) -> Vec<Line> {
        let narrow = size.0 < NARROW;
        let mut lines = results(answer, narrow);
        let grave = |remark: &&Remark| remark.concern != Concern::Note;
        lines.extend(answer.remarks.iter().filter(grave).map(remark));
        let laid = self.laid(answer, size, look);
        // A picture that was asked for comes before the arithmetic.
        let picture_first = answer.chart.is_some();
        if picture_first {
            lines.extend(laid.iter().cloned());
        }
        if !answer.steps.is_empty() {
            lines.push(Line::Part);
            lines.extend(answer.steps.iter().map(|one| step(one, narrow)));
        }
        let notes = answer.remarks.iter().filter(|remark| !grave(remark));
        lines.extend(notes.map(remark));
        if !picture_first {
            lines.extend(laid);
        }
        lines.push(Line::Part);
        lines.extend(grounds(answer));
        lines.push(Line::Figure(
            Figure::new("", self.recipe.about).with_role(Role::Quiet),
        ));
        lines
    }

    /// The chart and the table.
    fn laid(&self, answer: &Answer, size: (u16, u16), look: &Look) -> Vec<Line> {
        let room = usize::from(size.0.saturating_sub(2));
        let mut lines = Vec::new();
        let by_heart = answer.standing() == Standing::Remembered;
        let warned = |what: &str, lines: &mut Vec<Line>| {
            lines.push(Line::Part);
            if by_heart {
                let words = format!("this {what} rests on remembered numbers");
                lines.push(Line::Figure(Figure::new("", words).with_role(Role::Warn)));
            }
        };
        if let Some(chart) = &answer.chart {
            warned("chart", &mut lines);
            let pens = match look.symbols == SymbolSet::Ascii.symbols() {
                true => Pens::Ascii,
                false => Pens::Fine,
            };
            let high = size.1.saturating_sub(6).clamp(6, HIGHEST);
            let plotted = plot(chart, room, usize::from(high), pens).into_iter();
            lines.extend(plotted.map(|line| {
                let pieces = line.into_iter().map(|(text, ink)| (text, role_of(ink)));
                Line::Laid(pieces.collect())
            }));
        }
        if let Some(table) = &answer.table {
            warned("table", &mut lines);
            let rows = rows_of(table, room).into_iter().enumerate();
            lines.extend(rows.map(|(at, row)| {
                let role = if at == 0 { Role::Heading } else { Role::Text };
                Line::Laid(vec![(row, role)])
            }));
        }
        lines
    }
}

const fn role_of(ink: Ink) -> Role {
    match ink {
        Ink::Data => Role::Accent,
        Ink::Axis => Role::Rule,
        Ink::Word => Role::Text,
    }
}

/// The results, the one that is asked for marked, each with its standing: behind it, or where room is
/// short, under it.
fn results(answer: &Answer, narrow: bool) -> Vec<Line> {
    let standings: Vec<Standing> = answer
        .results
        .iter()
        .map(|line| answer.standing_of(line))
        .collect();
    let all = standings.first().copied().filter(|first| {
        narrow && standings.len() > 1 && standings.iter().all(|standing| standing == first)
    });
    let results = answer.results.iter().zip(standings).enumerate();
    let mut lines: Vec<Line> = results
        .map(|(at, (line, standing))| {
            let role = if at == 0 { Role::Heading } else { Role::Text };
            let figure = Figure::new(line.name.as_ref(), line.amount.to_string()).with_role(role);
            Line::Figure(match (all, narrow) {
                (Some(_), _) => figure,
                (None, true) => figure.with_working(standing.word()),
                (None, false) => figure.with_note(standing.word()),
            })
        })
        .collect();
    if let Some(standing) = all {
        let role = match standing {
            Standing::Remembered => Role::Warn,
            _ => Role::Quiet,
        };
        let words = format!("all {standing}");
        lines.push(Line::Figure(Figure::new("", words).with_role(role)));
    }
    lines
}

/// A step, with its working and what the figure has come to under it.
fn step(step: &Step, narrow: bool) -> Line {
    let standing = step.grounds.as_ref().map(|grounds| grounds.standing.word());
    let so_far = step
        .brings
        .as_ref()
        .map(|amount| format!("so far {amount}"));
    let under = standing.filter(|_| narrow).map(str::to_owned);
    let working = Some(step.working.clone()).filter(|working| !working.is_empty());
    let under: Vec<String> = [under, working, so_far].into_iter().flatten().collect();
    let note = standing.filter(|_| !narrow).unwrap_or_default();
    Line::Figure(
        Figure::new(step.name.as_ref(), step.amount.to_string())
            .with_note(note)
            .with_working(under.join("; ")),
    )
}

fn remark(remark: &Remark) -> Line {
    let (before, role) = match remark.concern {
        Concern::Note => ("", Role::Text),
        Concern::Warning => ("", Role::Warn),
        Concern::Beyond => ("beyond the source: ", Role::Warn),
    };
    let words = format!("{before}{}", remark.words);
    Line::Figure(Figure::new("", words).with_role(role))
}

/// Where it holds and what it rests on.
fn grounds(answer: &Answer) -> Vec<Line> {
    let quiet = |words: String| Line::Figure(Figure::new("", words).with_role(Role::Quiet));
    let mut lines = Vec::new();
    if !answer.domain.is_empty() {
        lines.push(quiet(format!("holds for: {}", answer.domain)));
    }
    for grounds in answer.sources() {
        match (grounds.standing, grounds.source.as_ref()) {
            (Standing::Usual, "") => lines.push(quiet("usual: common practice".to_owned())),
            (_, "") => {}
            (standing, source) => lines.push(quiet(format!("{standing}: {source}"))),
        }
    }
    lines
}
