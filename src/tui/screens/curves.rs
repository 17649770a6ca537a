//! Curves: strips of steps by film and developer, and what they tell beside each other.
//!
//! For: reading a film test at a glance, and seeing a developer die before a negative does. The list stands
//! at the left; at the right the chosen strip with the marked ones over it, the family of its film and
//! developer, or its series of control strips between limits.
//!
//! Promises: the cursor is on a strip as long as there is one; what is shown is reckoned by the same figures
//! as everywhere else; strips are told apart by sign and name.

use std::collections::BTreeSet;

use ratatui::layout::{Position, Rect};

use crate::craft::sensitometry::control::Ending;
use crate::export::curves::{
    NamedStrip, Picture, View, control_picture, curve_picture, family_picture,
};
use crate::figures::Answer;
use crate::figures::densities::{Aims, Control, family as family_answer};
use crate::logbook::strips::{KeptStrip, Stock, StripFamily, controlled, family, limits_of};
use crate::logbook::{Life, Names, Thing, ThingId, ThingKind};
use crate::store::StoreError;
use crate::store::rows::StripRow;
use crate::tui::bench::Bench;
use crate::tui::widgets::listing::Step;

mod draw;

/// How far the cursor on a curve goes at once, in log exposure: a sixth of a stop.
const A_LITTLE: f64 = 0.05;
/// Lines for a page of the list.
const PAGE: usize = 10;

/// One line of the list.
#[derive(Debug, Clone, PartialEq)]
enum Line {
    /// A film and developer, or a series.
    Heading(String),
    /// A strip, by its place.
    Strip(usize),
}

/// The strips, which of them is chosen and which are marked.
#[derive(Debug, Default)]
pub struct Curves {
    rows: Vec<StripRow>,
    /// The curve of each, where it makes one.
    strips: Vec<Option<NamedStrip>>,
    /// Findings, among which are the limits that were set.
    findings: Vec<Life>,
    lines: Vec<Line>,
    /// The line of the chosen strip.
    cursor: usize,
    marked: BTreeSet<ThingId>,
    view: Option<View>,
    /// Where the cursor is on the curve, in log exposure.
    here: Option<f64>,
    /// Which chart of a view is shown.
    which: usize,
    /// The first line in view.
    from: usize,
}

impl Curves {
    /// Loads the strips anew; the cursor stays on its strip.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn reload(&mut self, bench: &Bench) -> Result<(), StoreError> {
        let on = self.selected();
        self.rows = bench.store.strips()?;
        self.findings = bench.store.findings();
        self.strips = self
            .rows
            .iter()
            .map(|row| NamedStrip::of(&row.kept).ok())
            .collect();
        self.marked
            .retain(|id| self.rows.iter().any(|row| row.thing == *id));
        self.lay_out();
        if !on.is_some_and(|thing| self.select(thing)) {
            self.cursor = self.nearest(self.cursor);
        }
        Ok(())
    }

    /// Puts the strips under headings: films with the newest strip first, shortest time first; then the
    /// series, oldest strip first.
    fn lay_out(&mut self) {
        let mut stocks: Vec<(Stock, Vec<usize>)> = Vec::new();
        let mut series: Vec<(String, Vec<usize>)> = Vec::new();
        for (at, row) in self.rows.iter().enumerate() {
            match &row.kept.strip.series {
                Some(name) => match series.iter_mut().find(|(own, _)| {
                    let first = own.as_str();
                    row.kept.is_of_series(first)
                }) {
                    Some((_, strips)) => strips.push(at),
                    None => series.push((name.clone(), vec![at])),
                },
                None => {
                    let stock = row.kept.stock();
                    match stocks.iter_mut().find(|(own, _)| *own == stock) {
                        Some((_, strips)) => strips.push(at),
                        None => stocks.push((stock, vec![at])),
                    }
                }
            }
        }
        let time = |at: &usize| {
            let time = self.rows.get(*at).and_then(|row| row.kept.strip.time);
            time.map_or(f64::INFINITY, |time| time.value())
        };
        self.lines.clear();
        for (_, mut strips) in stocks {
            strips.sort_by(|one, other| time(one).total_cmp(&time(other)));
            let first = strips.first().and_then(|at| self.rows.get(*at));
            let heading = first.map(|row| format!("{}, {}", row.kept.film(), row.kept.developer()));
            self.lines.push(Line::Heading(heading.unwrap_or_default()));
            self.lines.extend(strips.into_iter().map(Line::Strip));
        }
        for (name, strips) in series {
            self.lines
                .push(Line::Heading(format!("control strips: {name}")));
            // They come newest first.
            self.lines.extend(strips.into_iter().rev().map(Line::Strip));
        }
    }

    /// The line of a strip nearest to a line, downwards first.
    fn nearest(&self, line: usize) -> usize {
        let is_strip = |at: &usize| matches!(self.lines.get(*at), Some(Line::Strip(_)));
        let mut below = line..self.lines.len();
        let above = (0..line.min(self.lines.len())).rev();
        below
            .find(is_strip)
            .or_else(|| above.into_iter().find(is_strip))
            .unwrap_or(0)
    }

    fn chosen(&self) -> Option<usize> {
        match self.lines.get(self.cursor) {
            Some(Line::Strip(at)) => Some(*at),
            _ => None,
        }
    }

    fn row(&self) -> Option<&StripRow> {
        self.rows.get(self.chosen()?)
    }

    /// The strip under the cursor.
    pub fn selected(&self) -> Option<Thing> {
        self.row()
            .map(|row| Thing::new(ThingKind::Finding, row.thing))
    }

    /// Puts the cursor on a strip, if it is here.
    pub fn select(&mut self, thing: Thing) -> bool {
        let place = self.rows.iter().position(|row| row.thing == thing.id);
        let line = place.and_then(|at| self.lines.iter().position(|it| *it == Line::Strip(at)));
        if let Some(line) = line {
            self.cursor = line;
        }
        line.is_some()
    }

    /// Moves to another strip; says whether it did.
    pub fn step(&mut self, step: Step) -> bool {
        let strips: Vec<usize> = (0..self.lines.len())
            .filter(|at| matches!(self.lines.get(*at), Some(Line::Strip(_))))
            .collect();
        let on = strips
            .iter()
            .position(|line| *line == self.cursor)
            .unwrap_or(0);
        let last = strips.len().saturating_sub(1);
        let to = match step {
            Step::Up(lines) => on.saturating_sub(lines),
            Step::Down(lines) => on.saturating_add(lines).min(last),
            Step::PageUp => on.saturating_sub(PAGE),
            Step::PageDown => on.saturating_add(PAGE).min(last),
            Step::First => 0,
            Step::Last => last,
            Step::To(line) => line.min(last),
        };
        let Some(line) = strips.get(to) else {
            return false;
        };
        let moved = *line != self.cursor;
        self.cursor = *line;
        moved
    }

    /// The view that is shown.
    pub fn view(&self) -> View {
        self.view.unwrap_or(View::Curve)
    }

    /// Goes to the next view.
    pub fn next_view(&mut self) {
        self.view = Some(self.view().next());
        self.which = 0;
    }

    /// Marks the chosen strip, or takes its mark away; says which of the two was done.
    pub fn mark(&mut self) -> Option<bool> {
        let id = self.row()?.thing;
        let marked = self.marked.insert(id);
        if !marked {
            self.marked.remove(&id);
        }
        Some(marked)
    }

    /// Takes all marks away.
    pub fn mark_nothing(&mut self) {
        self.marked.clear();
    }

    /// Whether any strip is marked.
    pub fn has_marks(&self) -> bool {
        !self.marked.is_empty()
    }

    /// Moves the cursor on the curve, or in the other views to another chart.
    pub fn along(&mut self, right: bool) {
        if self.view() != View::Curve {
            let charts = self.charts();
            if charts > 0 {
                let by = if right { 1 } else { charts - 1 };
                self.which = (self.which + by) % charts;
            }
            return;
        }
        let Some(strip) = self.strip() else {
            return;
        };
        let (start, end) = strip.curve.ends();
        let speed_point = strip.whole.speed_point().map(|point| point.log_h);
        let here = match self.here {
            // It begins where one looks first.
            None => speed_point.unwrap_or(start),
            Some(here) if right => here + A_LITTLE,
            Some(here) => here - A_LITTLE,
        };
        self.here = Some(here.clamp(start, end));
    }

    /// Moves the cursor on the curve to the next reading.
    pub fn along_readings(&mut self, right: bool) {
        let Some(strip) = self.strip().filter(|_| self.view() == View::Curve) else {
            return;
        };
        let points = &strip.curve.points;
        let here = self.here;
        let next = match (here, right) {
            (None, _) => points.first(),
            (Some(here), true) => points.iter().find(|it| it.log_h > here + 1e-9),
            (Some(here), false) => points.iter().rev().find(|it| it.log_h < here - 1e-9),
        };
        let to = next.map(|point| point.log_h);
        self.here = to.or(here);
    }

    /// How many charts the view has.
    fn charts(&self) -> usize {
        match self.view() {
            View::Curve => 1,
            View::Family => 2,
            View::Control => 3,
        }
    }

    fn strip(&self) -> Option<&NamedStrip> {
        self.strips.get(self.chosen()?)?.as_ref()
    }

    /// The chosen strip, and the marked ones.
    fn shown(&self) -> Vec<NamedStrip> {
        let chosen = self.chosen();
        let marked = self
            .rows
            .iter()
            .enumerate()
            .filter(|(at, row)| Some(*at) != chosen && self.marked.contains(&row.thing));
        let places = chosen.into_iter().chain(marked.map(|(at, _)| at));
        places
            .filter_map(|at| self.strips.get(at)?.clone())
            .collect()
    }

    /// The family of the film and developer of the chosen strip, or why there is none.
    fn family(&self) -> Result<(StripFamily, Answer), String> {
        let stock = self.row().map(|row| row.kept.stock());
        let stock = stock.ok_or_else(|| "no strip was read yet".to_owned())?;
        let alike: Vec<KeptStrip> = self
            .rows
            .iter()
            .filter(|row| row.kept.stock() == stock)
            .map(|row| row.kept.clone())
            .collect();
        let found = family(&alike).map_err(|why| why.to_string())?;
        let answer = family_answer(&found.family, &found.tablet, &Aims::default());
        Ok((found, answer.map_err(|why| why.to_string())?))
    }

    /// The series of the chosen strip, or the only one; and how it stands.
    fn control(&self) -> Result<(String, Control), String> {
        let own = self.row().and_then(|row| row.kept.strip.series.clone());
        let all: BTreeSet<&str> = self
            .rows
            .iter()
            .filter_map(|row| row.kept.strip.series.as_deref())
            .collect();
        let only = match all.iter().collect::<Vec<_>>().as_slice() {
            [only] => Some((**only).to_owned()),
            _ => None,
        };
        let series = own.or(only).ok_or_else(|| {
            if all.is_empty() {
                "no control strip was read yet: a strip is one when it names its series".to_owned()
            } else {
                "this is no control strip: choose one below its series".to_owned()
            }
        })?;
        let kept: Vec<KeptStrip> = self.rows.iter().map(|row| row.kept.clone()).collect();
        let set = limits_of(&self.findings, &series);
        let found = controlled(&kept, &series, set.as_ref()).map_err(|why| why.to_string())?;
        Ok((series, found))
    }

    /// What is shown, as a picture for a file.
    ///
    /// # Errors
    /// Why there is nothing to draw.
    pub fn picture(&self) -> Result<Picture, String> {
        match self.view() {
            View::Curve => {
                let shown = self.shown();
                if shown.is_empty() {
                    return Err("there is no curve to draw".to_owned());
                }
                Ok(curve_picture(&shown))
            }
            View::Family => self
                .family()
                .map(|(found, answer)| family_picture(&found, &answer)),
            View::Control => self
                .control()
                .map(|(series, found)| control_picture(&series, &found)),
        }
    }

    /// Whether a measure of the strips that ended so wants looking at.
    fn wants_looking_at(ending: Option<Ending>) -> bool {
        matches!(ending, Some(Ending::Outside { .. } | Ending::Trend { .. }))
    }

    /// Where what the chosen strip tells stands in an area.
    pub fn page(area: Rect) -> Rect {
        draw::inner(&draw::parts(area))
    }

    /// Tells how large the screen is, so that the chosen line is in view.
    pub fn settle(&mut self, area: Rect) {
        let high = usize::from(draw::parts(area).list.height).max(1);
        // The heading over the first strip of a group stays with it.
        let first = match self.lines.get(self.cursor.saturating_sub(1)) {
            Some(Line::Heading(_)) => self.cursor.saturating_sub(1),
            _ => self.cursor,
        };
        self.from = self.from.min(first);
        if self.cursor >= self.from + high {
            self.from = self.cursor + 1 - high;
        }
    }

    /// Puts the cursor on the strip drawn at `at`; says whether there is one.
    pub fn click(&mut self, area: Rect, at: Position) -> bool {
        let list = draw::parts(area).list;
        if !list.contains(at) {
            return false;
        }
        let line = self.from + usize::from(at.y - list.y);
        let hit = matches!(self.lines.get(line), Some(Line::Strip(_)));
        if hit {
            self.cursor = line;
        }
        hit
    }
}
