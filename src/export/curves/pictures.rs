//! What each view of strips shows, as a picture for paper.

use super::overlay::{NamedStrip, names, overlay};
use super::svg_plot::Picture;
use crate::figures::Answer;
use crate::figures::densities::{Control, speeds};
use crate::logbook::strips::StripFamily;

/// Points of each curve on paper.
const POINTS: usize = 121;

/// The curves of strips over each other, with what each of them tells.
#[must_use]
pub fn curve_picture(strips: &[NamedStrip]) -> Picture {
    let words = strips.iter().map(|strip| {
        let (gradient, speed) = strip.in_short();
        format!(
            "{}: {}, {}; average gradient {gradient}, speed {speed}, {}",
            strip.name,
            strip.kept.film(),
            strip.kept.developer(),
            strip.levels()
        )
    });
    Picture {
        title: format!("Characteristic curves: {}", names(strips)),
        charts: vec![overlay(strips, POINTS, None)],
        words: words.collect(),
    }
}

/// The gradients and the speeds of a family over time, with the times for N-2 to N+2.
#[must_use]
pub fn family_picture(found: &StripFamily, answer: &Answer) -> Picture {
    let of = found
        .strips
        .first()
        .map(|kept| format!("{}, {}", kept.film(), kept.developer()));
    let charts = answer.chart.iter().cloned().chain(speeds(&found.family));
    let rows = answer
        .table
        .iter()
        .flat_map(|table| &table.rows)
        .map(|row| {
            let cells: Vec<String> = row.iter().map(ToString::to_string).collect();
            match cells.as_slice() {
                [name, _, time, from, to, speed] => {
                    format!("{name}: {time} ({from} to {to}), effective speed {speed}")
                }
                cells => cells.join("  "),
            }
        });
    let remarks = found
        .remarks
        .iter()
        .chain(&answer.remarks)
        .map(|remark| remark.words.clone());
    Picture {
        title: format!("Times of development: {}", of.unwrap_or_default()),
        charts: charts.collect(),
        words: rows.chain(remarks).collect(),
    }
}

/// Gradient, speed and base plus fog of a series over its days, with the rule of every limit.
#[must_use]
pub fn control_picture(series: &str, control: &Control) -> Picture {
    let words = control.measures.iter().flat_map(|measure| {
        [
            measure.says.clone(),
            format!("limits of {}: {}", measure.name, measure.rule_in_words()),
        ]
    });
    Picture {
        title: format!("Control strips: {series}"),
        charts: control.charts(),
        words: words.collect(),
    }
}
