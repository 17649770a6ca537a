//! What is coated and what it takes; a dropper calibrated.

use super::super::{Answer, Ask, Chapter, Given, Line, Problem, Recipe, Table};
use super::{UNCALIBRATED, dropper, measured, with_unit};
use crate::craft::printing::coating::{
    BRUSH, Coated, Field, coated, inches, read_coverage, volume,
};
use crate::craft::printing::dropper::{Calibrated, OFFICIAL, drops_per_ml};
use crate::craft::solutions::millilitres;
use crate::craft::{Amount, Concern, Grounds, Millilitres, Millimetres, Size, Standing};
use crate::figures::solutions::read_grams;

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "coat",
        title: "coated area and the sensitizer it takes",
        chapter: Chapter::Coating,
        about: "The area under the brush, with margins round the negative or smaller than it, and how \
                much sensitizer it takes by your own coverage. What others have told of coverage differs \
                by several times, so it stands in the table and decides nothing: keep count, and type \
                how far a millilitre goes on your paper with your brush.",
        asks: &[
            Ask::typed("negative", "negative", "size of the negative, 8x10"),
            Ask::typed(
                "margin",
                "margin",
                "how far the coating goes beyond it on every side, 1/4 in",
            ),
            Ask::typed(
                "coated",
                "coated size",
                "the size that is coated, instead of a margin; smaller than the negative for a crop, 5x7",
            ),
            Ask::typed(
                "coverage",
                "coverage",
                "square inches that one millilitre covers on your paper, 20 sq in (or cm2)",
            ),
            Ask::typed("coats", "coats", "coats that share it, 1"),
            DROPPER,
        ],
        example: &[
            ("negative", "8x10"),
            ("margin", "1/4 in"),
            ("coverage", "20 sq in"),
        ],
        answer: coat,
    },
    Recipe {
        word: "dropper",
        title: "drops to a millilitre",
        chapter: Chapter::Coating,
        about: "Every dropper has its own drop, and every solution another in the same dropper. Count \
                drops into a small measure, or weigh fifty and more; a metal solution is denser than \
                water, so a weight needs the density of the solution itself. Hold it upright and drop \
                slowly, as you do when you coat.",
        asks: &[
            Ask::typed("drops", "drops", "how many were counted, 35"),
            Ask::typed("fills", "fill", "the volume they filled, 2 ml"),
            Ask::typed("weigh", "weigh", "or what they weighed, 3.1 g"),
            Ask::typed(
                "density",
                "density",
                "density of the solution where drops were weighed, 1 for water, 1.15",
            ),
            Ask::typed("wanted", "wanted", "a volume to be counted with it, 2.4 ml"),
        ],
        example: &[("drops", "35"), ("fills", "2 ml"), ("wanted", "1.2 ml")],
        answer: calibrate,
    },
];

/// Drops to a millilitre, as several figures ask.
pub(super) const DROPPER: Ask = Ask::typed(
    "dropper",
    "dropper",
    "drops a millilitre of your dropper, 20 if nothing is known",
);

fn coat(given: &Given<'_>) -> Result<Answer, Problem> {
    let negative = given.must("negative", Size::parse)?;
    let margin = given.may("margin", Millimetres::parse)?;
    let size = given.may("coated", Size::parse)?;
    let field = match (margin, size) {
        (Some(_), Some(_)) => {
            return Err(Problem::of_all(
                "a margin and a coated size each settle the other: give one of them",
            ));
        }
        (_, Some(size)) => Field::Coated(size),
        (margin, None) => Field::Margin(match margin {
            Some(margin) => margin,
            None => Millimetres::new(0.0)?,
        }),
    };
    let figure = coated(negative, field)?;
    let area = figure.value;
    let coats = given.number("coats")?.unwrap_or(1.0);
    if !(1.0..=20.0).contains(&coats) || coats.fract() != 0.0 {
        return Err(given.problem("coats", "coats are counted: from 1 to 20"));
    }
    let unit = negative.unit();
    let side = |mm: f64| Amount::number(mm / unit.in_mm(), "", 2);
    let mut answer = Answer::of(figure, |area| {
        let sides = format!(
            "{} x {} {}",
            side(area.sides.0),
            side(area.sides.1),
            unit.symbol()
        );
        vec![
            Line::new("coated", Amount::words(sides)),
            Line::new("area", Amount::number(area.area, "sq in", 2)),
            Line::new("area, metric", Amount::number(area.area_cm2(), "cm2", 1)),
        ]
    });
    answer = cropped(answer, &area, unit);
    let (per_ml, calibrated) = dropper(given)?;
    if let Some(coverage) = given.may("coverage", read_coverage)? {
        let figure = volume(area.area, coverage)?;
        let ml = figure.value;
        answer.steps.extend(figure.steps);
        answer.results.splice(
            0..0,
            [
                Line::new("sensitizer", millilitres(ml)).on(Grounds::own("your coverage")),
                Line::new(
                    "in drops",
                    Amount::number((ml * per_ml).round(), "drops", 0),
                ),
            ],
        );
        if coats > 1.0 {
            answer = answer.result(Line::new("each coat", millilitres(ml / coats)));
        }
        if !calibrated {
            answer = answer.remark(Concern::Note, UNCALIBRATED);
        }
    } else {
        answer = answer.remark(
            Concern::Note,
            "no volume without your own coverage: begin with one of the table, write down what was left \
             over or fell short, and type your own next time",
        );
    }
    answer = answer
        .result(Line::new("widest brush", inches(area.widest_brush())).on(BRUSH))
        .remark(
            Concern::Note,
            "too heavy a coat wastes material, too weak a one spoils the print; with a rod the count of \
             the next smaller size will do, 5x7 for 8x10 (leaflet of a maker of rods)",
        );
    Ok(answer.table(told(given, &area, per_ml)))
}

/// The same answer with what a coating smaller than the negative leaves of it.
fn cropped(answer: Answer, area: &Coated, unit: crate::craft::LengthUnit) -> Answer {
    let (across, up) = area.margins();
    if area.used > 1.0 - 1e-9 {
        return answer;
    }
    let cut = |mm: f64| Amount::number((-mm).max(0.0) / unit.in_mm(), unit.symbol(), 2);
    answer
        .result(Line::new(
            "of the negative",
            Amount::number(100.0 * area.used, "%", 1),
        ))
        .result(Line::new("cropped left and right", cut(across)))
        .result(Line::new("cropped top and foot", cut(up)))
}

/// What others have told, and what it would come to here.
fn told(given: &Given<'_>, area: &Coated, per_ml: f64) -> Table {
    let row = |it: &crate::reference::Coverage| {
        let ml = area.area / it.per_ml();
        let mut source = it.source.clone();
        if it.standing != Standing::Published {
            source = format!("{} ({})", source, it.standing.word());
        }
        vec![
            Amount::words(it.name.clone()),
            Amount::number(it.per_ml(), "sq in/ml", 0),
            millilitres(ml),
            Amount::number((ml * per_ml).round(), "drops", 0),
            Amount::words(source),
        ]
    };
    let coverages = given.desk().reference.coverages();
    Table {
        heads: ["told of", "1 ml covers", "here", "in drops", "by"]
            .map(Into::into)
            .to_vec(),
        rows: coverages.iter().map(row).collect(),
    }
}

fn calibrate(given: &Given<'_>) -> Result<Answer, Problem> {
    let drops = given.must("drops", |text| with_unit(text, &["drops", "drop"]))?;
    if !(1.0..=100_000.0).contains(&drops) || drops.fract() != 0.0 {
        return Err(given.problem("drops", "drops are counted: a whole number, such as 35"));
    }
    // Whole and at most a hundred thousand.
    let drops = drops as u32;
    let fills = given.may("fills", Millilitres::parse)?;
    let grams = given.may("weigh", read_grams)?;
    let density = given.number("density")?;
    let done = match (fills, grams) {
        (Some(fills), None) => Calibrated::Count {
            drops,
            ml: fills.value(),
        },
        (None, Some(grams)) => Calibrated::Weight {
            drops,
            grams,
            density: density.unwrap_or(1.0),
        },
        (None, None) => return Err(given.missing("fills")),
        (Some(_), Some(_)) => {
            return Err(Problem::of_all(
                "the volume filled and the weight each tell the drop: give one of them",
            ));
        }
    };
    let wanted = given.may("wanted", Millilitres::parse)?;
    let mut answer = Answer::of(drops_per_ml(done)?, |per_ml| {
        let mut lines = vec![
            measured("drops a millilitre", per_ml, ""),
            measured("one drop", 1.0 / per_ml, "ml"),
        ];
        if let Some(wanted) = wanted {
            let drops = wanted.value() * per_ml;
            lines.push(Line::new(
                format!("for {wanted}"),
                Amount::number(drops.round(), "drops", 0),
            ));
        }
        lines.push(Line::new("by convention", Amount::number(20.0, "", 0)).on(OFFICIAL));
        lines
    });
    if grams.is_some() && density.is_none() {
        answer = answer.remark(
            Concern::Warning,
            "reckoned with the density of water: metal and iron solutions are denser, which makes more \
             drops to the millilitre",
        );
    }
    Ok(answer)
}
