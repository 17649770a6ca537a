//! The picture of the curves: the list, and what the chosen strip tells.

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use super::{Curves, Line};
use crate::craft::{Concern, Remark};
use crate::export::columns::in_columns;
use crate::export::curves::{View, overlay, place_on};
use crate::export::plot::{Ink, Pens, plot};
use crate::export::shown::{fit, pad, pad_start, width};
use crate::figures::Chart;
use crate::figures::densities::speeds;
use crate::tui::browse::KeyNames;
use crate::tui::ink::{below, line_of, rest_of, rest_of_all, wrap};
use crate::tui::look::{Look, SymbolSet};
use crate::tui::theme::Role;
use crate::tui::widgets::ledger::{self, Figure, Line as Told};

/// Width from which the list stands beside the picture and not over it.
const BESIDE: u16 = 64;
/// Cells of the list beside the picture, and the most.
const LIST: (u16, u16) = (32, 46);
/// Lines above the picture: its name and a rule.
const HEAD: u16 = 2;
/// Lines of a plot that are not its field: what it counts, the axis, the names of places, the signs.
const AROUND: usize = 6;
/// Cells of the field for each sign of a line.
const APART: usize = 4;

/// Where the parts of the screen are.
pub(super) struct Parts {
    /// The strips.
    pub(super) list: Rect,
    /// What they tell.
    page: Rect,
    beside: bool,
}

/// Where the parts are in an area of this size.
pub(super) fn parts(area: Rect) -> Parts {
    if area.width >= BESIDE {
        let roomy = area.width.saturating_sub(80) / 4;
        let wide = (LIST.0 + roomy).min(LIST.1);
        let list = Rect {
            width: wide,
            ..area
        };
        return Parts {
            list,
            page: rest_of_all(area, wide),
            beside: true,
        };
    }
    let high = (area.height / 3).max(3).min(area.height);
    Parts {
        list: Rect {
            height: high,
            ..area
        },
        page: below(area, high),
        beside: false,
    }
}

/// The place of what the chosen strip tells, without the line that parts it from the list.
pub(super) fn inner(parts: &Parts) -> Rect {
    if parts.beside {
        rest_of_all(parts.page, 2)
    } else {
        below(parts.page, 1)
    }
}

impl Curves {
    /// Draws the screen and returns where the cursor belongs.
    pub fn render(
        &self,
        area: Rect,
        buf: &mut Buffer,
        look: &Look,
        keys: &KeyNames<'_>,
    ) -> Option<Position> {
        if self.rows.is_empty() {
            let words = format!(
                "No strip of steps was read yet: {new} reads one. Expose a sheet through a step tablet, develop \
                 it, and type the densities, or name a CSV file with them. Five times of one film and developer \
                 make a family; strips that name a series tell how a developer ages.",
                new = keys("curves.read")
            );
            let room = usize::from(area.width.saturating_sub(4));
            for (place, text) in below(area, 1).rows().zip(wrap(&words, room)) {
                look.put(buf, rest_of(place, 2), &text, Role::Text);
            }
            return None;
        }
        let parts = parts(area);
        let cursor = self.render_list(parts.list, buf, look);
        if parts.beside {
            look.put_upright(
                buf,
                Rect {
                    width: 1,
                    ..parts.page
                },
            );
        } else {
            look.put_rule(buf, line_of(parts.page, 0));
        }
        self.render_page(inner(&parts), buf, look);
        cursor
    }

    fn render_list(&self, area: Rect, buf: &mut Buffer, look: &Look) -> Option<Position> {
        let mut cursor = None;
        let lines = self.lines.iter().enumerate().skip(self.from);
        for (place, (at, line)) in area.rows().zip(lines) {
            match line {
                Line::Heading(words) => {
                    look.put(buf, rest_of(place, 1), words, Role::Quiet);
                }
                Line::Strip(strip) => {
                    let chosen = at == self.cursor;
                    let mark = if chosen { look.symbols.marker } else { "" };
                    look.put(buf, place, mark, Role::Accent);
                    let text = self.line_of(*strip, usize::from(area.width.saturating_sub(2)));
                    let role = if chosen { Role::Selected } else { Role::Text };
                    look.put(buf, rest_of(place, 1), &text, role);
                    if chosen {
                        cursor = Some(place.as_position());
                    }
                }
            }
        }
        cursor
    }

    /// One strip in a line: its mark, what it is called, its time or day, gradient and speed.
    fn line_of(&self, at: usize, room: usize) -> String {
        let Some(row) = self.rows.get(at) else {
            return String::new();
        };
        let marked = if self.marked.contains(&row.thing) {
            "*"
        } else {
            " "
        };
        let kept = &row.kept;
        let when = match (&kept.strip.series, kept.strip.time) {
            (None, Some(time)) => time.clock(),
            _ => kept.at.format("%-d %b").to_string(),
        };
        let (gradient, speed) = match self.strips.get(at).and_then(Option::as_ref) {
            Some(strip) => strip.in_short(),
            None => ("no curve".to_owned(), String::new()),
        };
        let text = format!(
            "{marked}{} {} {} {}",
            pad(&kept.reference, 7),
            pad_start(&when, 6),
            pad_start(&gradient, 5),
            pad_start(&speed, 8),
        );
        fit(&text, room).into_owned()
    }

    fn render_page(&self, area: Rect, buf: &mut Buffer, look: &Look) {
        let name = self.view().word();
        let line = line_of(area, 0);
        let line = look.put_end(buf, line, &format!("  {name}"), Role::Quiet);
        look.put(buf, line, &self.title(), Role::Heading);
        look.put_rule(buf, line_of(area, 1));
        let page = below(area, HEAD);
        let lines = match self.view() {
            View::Curve => self.curve_page(page, look),
            View::Family => self.family_page(page, look),
            View::Control => self.control_page(page, look),
        };
        ledger::render(&lines, 0, page, buf, look);
    }

    fn title(&self) -> String {
        let Some(row) = self.row() else {
            return String::new();
        };
        let kept = &row.kept;
        match self.view() {
            View::Curve => {
                let on = row.sheet.as_deref().map(|sheet| format!(" on {sheet}"));
                let day = kept.at.format("%-d %b %Y");
                format!("{}{}, {day}", kept.reference, on.unwrap_or_default())
            }
            View::Family => format!("{}, {}", kept.film(), kept.developer()),
            View::Control => match self.control() {
                Ok((series, _)) => format!("control strips: {series}"),
                Err(_) => "control strips".to_owned(),
            },
        }
    }

    fn curve_page(&self, area: Rect, look: &Look) -> Vec<Told> {
        let shown = self.shown();
        let Some(chosen) = shown.first() else {
            return vec![said("this strip makes no curve", Role::Warn)];
        };
        let mut under = Vec::new();
        let room = usize::from(area.width.saturating_sub(2));
        match self.here.and_then(|here| place_on(chosen, here)) {
            Some(told) => {
                let parts = told.iter().map(|(name, value)| format!("{name} {value}"));
                under.extend(in_lines(parts, room, Role::Accent));
            }
            None => {
                let (gradient, speed) = chosen.in_short();
                let index = chosen.whole.index.as_ref().ok();
                let parts = [
                    Some(format!("gradient {gradient}")),
                    Some(format!("speed {speed}")),
                    index.map(|index| format!("index {:.2}", index.value)),
                    Some(format!("fog {:.2}", chosen.whole.base_fog)),
                    Some(format!("range {:.2}", chosen.whole.range)),
                ];
                under.extend(in_lines(parts.into_iter().flatten(), room, Role::Text));
            }
        }
        for (name, why) in [
            ("speed", chosen.whole.speed.as_ref().err()),
            ("gradient", chosen.whole.gradient.as_ref().err()),
        ] {
            if let Some(why) = why {
                under.push(said(format!("no {name}: {why}"), Role::Warn));
            }
        }
        under.extend(chosen.curve.remarks.iter().map(remark));
        let points = (room / APART).clamp(8, 24);
        let chart = overlay(&shown, points, self.here);
        with_plot(&chart, under, area, look)
    }

    fn family_page(&self, area: Rect, look: &Look) -> Vec<Told> {
        let (found, answer) = match self.family() {
            Ok(found) => found,
            Err(why) => return vec![said(why, Role::Warn)],
        };
        let room = usize::from(area.width.saturating_sub(2));
        let mut under = Vec::new();
        if let Some(table) = &answer.table {
            let heads: Vec<String> = table.heads.iter().map(ToString::to_string).collect();
            let rows: Vec<Vec<String>> = table
                .rows
                .iter()
                .map(|row| {
                    let mut cells: Vec<String> = row.iter().map(ToString::to_string).collect();
                    // The gradient stands in a column of its own.
                    if let Some(name) = cells.first_mut() {
                        *name = name.split(',').next().unwrap_or_default().to_owned();
                    }
                    cells
                })
                .collect();
            let lines = in_columns(&heads, &rows, room).into_iter().enumerate();
            under.extend(lines.map(|(at, line)| {
                let role = if at == 0 { Role::Quiet } else { Role::Text };
                Told::Laid(vec![(line, role)])
            }));
        }
        under.extend(found.remarks.iter().map(remark));
        under.extend(answer.remarks.iter().map(remark));
        let speeds = speeds(&found.family).filter(|_| self.which == 1);
        match speeds.as_ref().or(answer.chart.as_ref()) {
            Some(chart) => with_plot(chart, under, area, look),
            None => under,
        }
    }

    fn control_page(&self, area: Rect, look: &Look) -> Vec<Told> {
        let (_, found) = match self.control() {
            Ok(found) => found,
            Err(why) => return vec![said(why, Role::Warn)],
        };
        let mut under: Vec<Told> = found
            .measures
            .iter()
            .map(|measure| {
                let role = if Curves::wants_looking_at(measure.ending) {
                    Role::Warn
                } else {
                    Role::Text
                };
                said(measure.says.clone(), role)
            })
            .collect();
        if let Some(measure) = found.measures.get(self.which) {
            let rule = format!("limits of {}: {}", measure.name, measure.rule_in_words());
            under.push(said(rule, Role::Quiet));
            if let Ok(limits) = &measure.limits {
                let grounds = &limits.grounds;
                under.push(said(
                    format!("{}: {}", grounds.standing, grounds.source),
                    Role::Quiet,
                ));
            }
        }
        let told = |words: &str| found.measures.iter().any(|measure| measure.says == words);
        let others = found.remarks.iter().filter(|it| !told(&it.words));
        under.extend(others.map(remark));
        match found.charts().get(self.which) {
            Some(chart) => with_plot(chart, under, area, look),
            None => under,
        }
    }
}

/// A plot with lines under it: the field gets what they leave, and half of the place at least.
fn with_plot(chart: &Chart, under: Vec<Told>, area: Rect, look: &Look) -> Vec<Told> {
    let pens = if look.symbols == SymbolSet::Ascii.symbols() {
        Pens::Ascii
    } else {
        Pens::Fine
    };
    let room = usize::from(area.width.saturating_sub(2));
    let high = usize::from(area.height);
    let below = usize::from(ledger::height(&under, area.width, look));
    let field = high
        .saturating_sub(below + AROUND)
        .max(high.saturating_sub(AROUND) / 2)
        .clamp(4, 30);
    let plotted = plot(chart, room, field, pens).into_iter();
    let mut lines: Vec<Told> = plotted
        .map(|line| {
            let pieces = line.into_iter().map(|(text, ink)| {
                let role = match ink {
                    Ink::Data => Role::Accent,
                    Ink::Axis => Role::Rule,
                    Ink::Word => Role::Text,
                };
                (text, role)
            });
            Told::Laid(pieces.collect())
        })
        .collect();
    lines.extend(under);
    lines
}

fn said(words: impl Into<String>, role: Role) -> Told {
    Told::Figure(Figure::new("", words).with_role(role))
}

fn remark(remark: &Remark) -> Told {
    let role = match remark.concern {
        Concern::Note => Role::Text,
        Concern::Warning | Concern::Beyond => Role::Warn,
    };
    said(remark.words.clone(), role)
}

/// Parts beside each other, in as many lines as they need; none is broken.
fn in_lines(parts: impl Iterator<Item = String>, room: usize, role: Role) -> Vec<Told> {
    let mut lines: Vec<String> = Vec::new();
    for part in parts {
        match lines.last_mut() {
            Some(line) if width(line) + 2 + width(&part) <= room => {
                line.push_str("  ");
                line.push_str(&part);
            }
            _ => lines.push(part),
        }
    }
    let told = lines.into_iter().map(|line| Told::Laid(vec![(line, role)]));
    told.collect()
}
