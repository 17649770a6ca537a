//! Where the film lies in its holder.

use std::fmt::Write as _;

use crate::craft::sheet_film::{emulsion_plane, focus_tolerance};
use crate::craft::{Amount, Concern, Figure, Grounds, Millimetres};
use crate::figures::{Answer, Given, Line, Problem};
use crate::reference::{Format, HolderDepth, PracticeSubject, Sides};

/// Millimetres in an inch, exactly.
const INCH: f64 = 25.4;

pub(super) fn answer(given: &Given<'_>) -> Result<Answer, Problem> {
    let reference = given.desk().reference;
    let typed = given
        .text("format")
        .ok_or_else(|| given.missing("format"))?;
    let format = reference.format(typed).ok_or_else(|| {
        let names: Vec<&str> = reference
            .formats()
            .iter()
            .map(|it| it.id.as_str())
            .collect();
        let says = format!(
            "no format {typed} here: {}; log another with find-format",
            names.join(", ")
        );
        given.problem("format", says)
    })?;
    let base = base(given)?;
    let mut lines = Vec::new();
    if let Some(image) = &format.image {
        lines.push(sides("image area", image));
        let diagonal = image.width_mm.hypot(image.height_mm);
        let line = Line::new("its diagonal", Amount::number(diagonal, "mm", 1));
        lines.push(line.on(rests(image)));
    }
    if let Some(cut) = &format.cut {
        lines.push(sides("cut sheet", cut));
    }
    let (width, height) = format.nominal_mm();
    let nominal = format!("{} x {} mm", tenths(width), tenths(height));
    lines.push(Line::new("size by its name", Amount::words(nominal)).on(Grounds::usual()));
    let mut answer = match &format.holder {
        Some(depth) => deep(depth, base, lines, given)?,
        None => flat(format, lines),
    };
    for usual in &format.usual {
        answer = answer.remark(Concern::Note, format!("{usual}"));
    }
    for practice in reference.practices(PracticeSubject::Holder) {
        let figure = &practice.figure;
        let words = match (figure.range.is_some(), figure.note.is_empty()) {
            (true, _) => format!("{}: {}", figure.what, figure.value()),
            (false, false) => format!("{}: {}", figure.what, figure.note),
            (false, true) => continue,
        };
        answer = answer.remark(Concern::Note, words);
    }
    Ok(answer)
}

/// How thick the film is: as measured, or as the reference has it.
fn base(given: &Given<'_>) -> Result<Option<(Millimetres, Grounds)>, Problem> {
    if let Some(measured) = given.may("base", Millimetres::parse)? {
        return Ok(Some((measured, Grounds::own("as typed"))));
    }
    let mut known = given.desk().reference.practices(PracticeSubject::Base);
    Ok(known.find_map(|practice| {
        let figure = &practice.figure;
        let (from, to) = figure.range?;
        let factor = if figure.unit == "in" { INCH } else { 1.0 };
        let thick = Millimetres::new((from + to) / 2.0 * factor).ok()?;
        Some((thick, Grounds::new(figure.standing, figure.source.clone())))
    }))
}

fn rests(sides: &Sides) -> Grounds {
    Grounds::new(sides.standing, sides.source.clone())
}

fn tenths(value: f64) -> String {
    let text = format!("{value:.1}");
    text.trim_end_matches(".0").to_owned()
}

fn sides(name: &'static str, sides: &Sides) -> Line {
    let words = format!(
        "{} x {} mm",
        tenths(sides.width_mm),
        tenths(sides.height_mm)
    );
    Line::new(name, Amount::words(words)).on(rests(sides))
}

/// A format whose holders are known.
fn deep(
    depth: &HolderDepth,
    base: Option<(Millimetres, Grounds)>,
    lines: Vec<Line>,
    given: &Given<'_>,
) -> Result<Answer, Problem> {
    let rests = Grounds::new(depth.standing, depth.source.clone());
    let septum = Millimetres::new(depth.depth_in * INCH);
    let septum = septum.map_err(|why| given.problem("format", why.to_string()))?;
    let said = match depth.tolerance_in {
        Some(tolerance) => format!(
            "{:.2} mm, {:.2} mm either way ({:.3} in, {tolerance:.3} in)",
            septum.value(),
            tolerance * INCH,
            depth.depth_in,
        ),
        None => format!("{:.2} mm ({:.3} in)", septum.value(), depth.depth_in),
    };
    let mut results =
        vec![Line::new("holder, face to septum", Amount::words(said)).on(rests.clone())];
    let mut answer = match base {
        Some((base, thick)) => {
            let figure = emulsion_plane(septum, base);
            let mut figure = figure.map_err(|why| given.problem("base", why.to_string()))?;
            let weaker = if thick.standing < rests.standing {
                thick
            } else {
                rests.clone()
            };
            for step in &mut figure.steps {
                step.grounds = Some(weaker.clone());
            }
            let inches = figure.value.value() / INCH;
            let words = format!("{:.2} mm ({inches:.3} in)", figure.value.value());
            let plane = Line::new("holder, face to emulsion", Amount::words(words)).on(weaker);
            let mut answer = Answer::of(figure, |_| Vec::new());
            results.push(plane);
            answer.grounds = rests;
            answer
        }
        None => Answer::of(Figure::new((), rests), |()| Vec::new()),
    };
    results.extend(lines);
    answer.results = results;
    let within = focus_tolerance(5.6, 0.1);
    let mut words = format!(
        "at f/5.6 and for a circle of 0.1 mm the film may lie {within:.2} mm off either way"
    );
    if let Some(tolerance) = depth.tolerance_in {
        let _ = write!(
            words,
            "; the holder alone may take {:.2} mm of it",
            tolerance * INCH
        );
    }
    Ok(answer.remark(Concern::Note, words))
}

/// A format of whose holders no depth is known.
fn flat(format: &Format, lines: Vec<Line>) -> Answer {
    let first = lines.iter().find_map(|line| line.grounds.clone());
    let figure = Figure::new(lines, first.unwrap_or_else(Grounds::usual));
    Answer::of(figure, |lines| lines).remark(
        Concern::Warning,
        format!(
            "no depth of holders is known for {}: measure a holder of your own from its face to the \
             septum, and log its depth with find-format",
            format.name
        ),
    )
}
