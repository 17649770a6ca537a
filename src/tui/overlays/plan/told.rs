//! What stands beside the groups of a plan: what lacks first, then how the figures came about.

use super::Planning;
use crate::craft::{Concern, Step as Working};
use crate::logbook::planning::{Group, Need};
use crate::tui::theme::Role;
use crate::tui::widgets::ledger::{Figure, Line};

impl Planning {
    /// What stands at the right: what lacks, then how the time of the group came about.
    pub(super) fn lines(&self) -> Vec<Line> {
        let Some(plan) = &self.plan else {
            return Vec::new();
        };
        let mut lines: Vec<Line> = plan.needs.iter().map(need).collect();
        let notes = plan.needs.iter().flat_map(|need| &need.notes);
        lines.extend(notes.map(|note| warned(note)));
        lines.extend(
            plan.left_out
                .iter()
                .map(|(sheet, why)| warned(&format!("{sheet}: {why}"))),
        );
        if let Some(group) = self.group() {
            lines.push(Line::Part);
            lines.extend(told(group));
        }
        for need in &plan.needs {
            lines.push(Line::Part);
            lines.push(Line::Figure(
                Figure::new("", named(need)).with_role(Role::Heading),
            ));
            lines.extend(need.steps.iter().map(step));
        }
        if let Some(clock) = &plan.clock {
            lines.push(Line::Part);
            lines.push(Line::Figure(
                Figure::new("", "on the clock").with_role(Role::Heading),
            ));
            lines.extend(clock.steps.iter().map(step));
        }
        lines
    }
}

fn named(need: &Need) -> String {
    match need.dilution {
        Some(dilution) => format!("{} {dilution}", need.name),
        None => need.name.clone(),
    }
}

fn need(need: &Need) -> Line {
    let (words, role) = if need.lacks > 0.0 {
        let stock = need
            .stock
            .map(|stock| format!(", {stock:.0} ml of stock in it"));
        let words = format!("mix {:.0} ml{}", need.lacks, stock.unwrap_or_default());
        (words, Role::Accent)
    } else {
        (format!("enough, {:.0} ml needed", need.needed), Role::Text)
    };
    Line::Figure(Figure::new(named(need), words).with_role(role))
}

fn warned(words: &str) -> Line {
    Line::Figure(Figure::new("", words).with_role(Role::Warn))
}

/// How the time of a group came about.
fn told(group: &Group) -> Vec<Line> {
    let mut lines = vec![Line::Figure(
        Figure::new(
            "",
            format!("{} {}", group.film, group.asked.clone().unwrap_or_default()),
        )
        .with_role(Role::Heading),
    )];
    for sheet in &group.sheets {
        let parts = [
            sheet.side.clone(),
            sheet
                .waiting
                .wish
                .as_ref()
                .map(|wish| format!("asks for {}", wish.words)),
            sheet.subject.clone(),
        ];
        let parts: Vec<String> = parts.into_iter().flatten().collect();
        lines.push(Line::Figure(Figure::new(
            sheet.reference(),
            parts.join(", "),
        )));
    }
    match &group.time {
        Ok(reckoned) => {
            lines.extend(reckoned.answer.steps.iter().map(step));
            let develop = Figure::new("develop", reckoned.time.to_string());
            lines.push(Line::Figure(develop.with_role(Role::Heading)));
            let remarks = reckoned.answer.remarks.iter();
            lines.extend(remarks.map(|remark| match remark.concern {
                Concern::Note => Line::Figure(Figure::new("", &remark.words)),
                _ => warned(&remark.words),
            }));
        }
        Err(why) => lines.push(warned(&format!("not reckoned: {why}"))),
    }
    lines.extend(group.notes.iter().map(|note| warned(note)));
    lines
}

fn step(step: &Working) -> Line {
    let brings = step
        .brings
        .as_ref()
        .map(|it| format!("  {it}"))
        .unwrap_or_default();
    let standing = step
        .grounds
        .as_ref()
        .map(|it| it.standing.word())
        .unwrap_or_default();
    Line::Figure(
        Figure::new(step.name.as_ref(), format!("{}{brings}", step.amount))
            .with_note(standing)
            .with_working(step.working.clone()),
    )
}
