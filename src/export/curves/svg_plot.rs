//! Charts as a picture that can be printed: SVG with axes, units and names.
//!
//! Promises: lines are told apart by dashes and signs, so that the picture can be read without colour;
//! words are made harmless as on a screen; the same charts give the same picture.

use plotters::coord::Shift;
use plotters::element::{Circle, Cross, PathElement, Text, TriangleMarker};
use plotters::prelude::{
    BLACK, ChartBuilder, Color, DashedLineSeries, DrawingArea, IntoDrawingArea, LineSeries,
    RGBColor, Rectangle, SVGBackend, ShapeStyle, WHITE,
};
use plotters::style::{IntoFont, TextStyle};

use super::super::shown::shown_line;
use crate::figures::{Chart, Series};

/// Width of a picture, and height of each chart on it.
const WIDE: u32 = 900;
const HIGH: u32 = 480;
/// Height of a line of words.
const LINE: u32 = 22;
const FONT: &str = "sans-serif";
/// Most points of a line that are signed one by one.
const FEW: usize = 40;
const GREY: RGBColor = RGBColor(150, 150, 150);

/// A picture: a title, charts under each other, and lines of words under them.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// What it is of.
    pub title: String,
    /// The charts.
    pub charts: Vec<Chart>,
    /// What stands under them.
    pub words: Vec<String>,
}

/// A picture could not be drawn.
#[derive(Debug, thiserror::Error)]
#[error("the picture could not be drawn: {0}")]
pub struct SvgError(String);

fn failed(why: impl std::fmt::Display) -> SvgError {
    SvgError(why.to_string())
}

type Area<'a> = DrawingArea<SVGBackend<'a>, Shift>;

/// Draws a picture as SVG.
///
/// # Errors
/// If there is nothing in it to draw.
pub fn svg(picture: &Picture) -> Result<String, SvgError> {
    let charts: Vec<&Chart> = picture
        .charts
        .iter()
        .filter(|chart| bounds(chart).is_some())
        .collect();
    if charts.is_empty() {
        return Err(SvgError("there is nothing to draw".to_owned()));
    }
    let legends: u32 = charts.iter().map(|chart| legend_lines(chart)).sum();
    let count = u32::try_from(charts.len()).unwrap_or(u32::MAX);
    let lines = u32::try_from(picture.words.len()).unwrap_or(0) + 2;
    let high = HIGH
        .saturating_mul(count)
        .saturating_add((legends + lines).saturating_mul(LINE))
        .saturating_add(LINE);
    let mut text = String::new();
    {
        let root = SVGBackend::with_string(&mut text, (WIDE, high)).into_drawing_area();
        root.fill(&WHITE).map_err(failed)?;
        let title = shown_line(&picture.title).into_owned();
        put(&root, &title, (20, 12), 20)?;
        let mut top = LINE * 2;
        for chart in charts {
            let high = HIGH + legend_lines(chart) * LINE;
            let (_, rest) = root.split_vertically(top);
            let (area, _) = rest.split_vertically(high);
            draw(chart, &area)?;
            top += high;
        }
        for words in &picture.words {
            let words = shown_line(words).into_owned();
            put(&root, &words, (20, i32::try_from(top).unwrap_or(0)), 14)?;
            top += LINE;
        }
        root.present().map_err(failed)?;
    }
    Ok(text)
}

fn style(size: u32) -> TextStyle<'static> {
    TextStyle::from((FONT, size).into_font()).color(&BLACK)
}

fn put(area: &Area<'_>, words: &str, at: (i32, i32), size: u32) -> Result<(), SvgError> {
    let text = Text::new(words.to_owned(), at, style(size));
    area.draw(&text).map_err(failed)
}

/// The ends of both axes, with a little room; nothing where there is nothing to draw.
fn bounds(chart: &Chart) -> Option<((f64, f64), (f64, f64))> {
    let points = chart.series.iter().flat_map(|series| &series.points);
    let finite: Vec<(f64, f64)> = points
        .filter(|(x, y)| x.is_finite() && y.is_finite())
        .copied()
        .collect();
    let ends = |values: &mut dyn Iterator<Item = f64>| {
        let (low, high) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), it| {
            (low.min(it), high.max(it))
        });
        let room = if high > low {
            (high - low) * 0.05
        } else {
            low.abs().max(1.0) * 0.1
        };
        (low.is_finite() && high.is_finite()).then_some((low - room, high + room))
    };
    let marks = chart
        .marks
        .iter()
        .map(|mark| mark.x)
        .filter(|x| x.is_finite());
    let x = ends(&mut finite.iter().map(|(x, _)| *x).chain(marks))?;
    let y = ends(&mut finite.iter().map(|(_, y)| *y))?;
    // A scale that begins near zero begins there.
    let low = if y.0 < 0.0 && y.0 > -(y.1 - y.0) * 0.1 {
        0.0
    } else {
        y.0
    };
    Some((x, (low, y.1)))
}

fn legend_lines(chart: &Chart) -> u32 {
    if chart.series.len() < 2 {
        return 0;
    }
    u32::try_from(chart.series.len().div_ceil(2)).unwrap_or(0)
}

/// How the line at a place in the list is drawn: its dash and gap, nothing where it is unbroken.
const DASHES: [Option<(u32, u32)>; 4] = [None, Some((10, 5)), Some((3, 4)), Some((16, 6))];

fn draw(chart: &Chart, area: &Area<'_>) -> Result<(), SvgError> {
    let Some(((x0, x1), (y0, y1))) = bounds(chart) else {
        return Ok(());
    };
    let legend = legend_lines(chart) * LINE;
    let (field, names) = area.split_vertically(area.dim_in_pixel().1.saturating_sub(legend));
    let mut builder = ChartBuilder::on(&field);
    let mut plane = builder
        .margin(16)
        .margin_right(30)
        .x_label_area_size(46)
        .y_label_area_size(64)
        .build_cartesian_2d(x0..x1, y0..y1)
        .map_err(failed)?;
    let (across, up) = (
        shown_line(&chart.x).into_owned(),
        shown_line(&chart.y).into_owned(),
    );
    plane
        .configure_mesh()
        .x_desc(across)
        .y_desc(up)
        .axis_desc_style((FONT, 16))
        .label_style((FONT, 13))
        .light_line_style(WHITE)
        .bold_line_style(RGBColor(225, 225, 225))
        .draw()
        .map_err(failed)?;
    for mark in chart.marks.iter().filter(|mark| mark.x.is_finite()) {
        let upright = vec![(mark.x, y0), (mark.x, y1)];
        let line = DashedLineSeries::new(upright, 2, 4, thin(GREY));
        plane.draw_series(line).map_err(failed)?;
        let name = shown_line(&mark.name).into_owned();
        let text = Text::new(name, (mark.x, y1), style(13));
        plane.draw_series([text]).map_err(failed)?;
    }
    for (at, series) in chart.series.iter().enumerate() {
        let points: Vec<(f64, f64)> = finite(series);
        let dash = DASHES.get(at % DASHES.len()).copied().flatten();
        match dash {
            None => {
                let line = LineSeries::new(points.clone(), thin(BLACK));
                plane.draw_series(line).map_err(failed)?;
            }
            Some((dash, gap)) => {
                let line = DashedLineSeries::new(points.clone(), dash, gap, thin(BLACK));
                plane.draw_series(line).map_err(failed)?;
            }
        }
        for point in signed(&points) {
            // Signs are drawn in pixels, wherever the point lies.
            let place = plane.backend_coord(&point);
            sign(area, place, at)?;
        }
    }
    drop(plane);
    if legend > 0 {
        for (at, series) in chart.series.iter().enumerate() {
            let (row, column) = (at / 2, at % 2);
            let left = 80 + i32::try_from(column).unwrap_or(0) * 400;
            let top = i32::try_from(row).unwrap_or(0) * i32::try_from(LINE).unwrap_or(22) + 8;
            legend_of(&names, series, at, (left, top))?;
        }
    }
    Ok(())
}

fn thin(color: RGBColor) -> ShapeStyle {
    color.stroke_width(1)
}

fn finite(series: &Series) -> Vec<(f64, f64)> {
    let points = series.points.iter().copied();
    points
        .filter(|(x, y)| x.is_finite() && y.is_finite())
        .collect()
}

/// The points that get a sign: all of few, some of many.
fn signed(points: &[(f64, f64)]) -> Vec<(f64, f64)> {
    if points.len() <= FEW {
        return points.to_vec();
    }
    let every = points.len().div_ceil(FEW / 4).max(1);
    points.iter().step_by(every).copied().collect()
}

/// The sign of a line: which one, by its place in the list, and whether it is filled.
fn sign(area: &Area<'_>, at: (i32, i32), which: usize) -> Result<(), SvgError> {
    // Coordinates of a plane count from the picture, those of an area from itself.
    let (x, y) = area.get_base_pixel();
    let at = (at.0 - x, at.1 - y);
    let open = thin(BLACK);
    let full = BLACK.filled();
    match which % 6 {
        0 => area.draw(&Circle::new(at, 4, open)),
        1 => area.draw(&Cross::new(at, 4, open)),
        2 => area.draw(&TriangleMarker::new(at, 5, full)),
        3 => {
            let corners = [(at.0 - 4, at.1 - 4), (at.0 + 4, at.1 + 4)];
            area.draw(&Rectangle::new(corners, open))
        }
        4 => area.draw(&Circle::new(at, 3, full)),
        _ => {
            let upright = vec![(at.0, at.1 - 5), (at.0, at.1 + 5)];
            area.draw(&PathElement::new(upright, open))
        }
    }
    .map_err(failed)
}

fn legend_of(
    area: &Area<'_>,
    series: &Series,
    which: usize,
    (left, top): (i32, i32),
) -> Result<(), SvgError> {
    let middle = top + 6;
    let dash = DASHES.get(which % DASHES.len()).copied().flatten();
    let (on, off) = dash.unwrap_or((40, 0));
    let (on, off) = (
        i32::try_from(on).unwrap_or(40),
        i32::try_from(off).unwrap_or(0),
    );
    let mut x = left;
    while x < left + 40 {
        let piece = vec![(x, middle), ((x + on).min(left + 40), middle)];
        area.draw(&PathElement::new(piece, thin(BLACK)))
            .map_err(failed)?;
        x += (on + off).max(1);
    }
    let (base_x, base_y) = area.get_base_pixel();
    sign(area, (left + 20 + base_x, middle + base_y), which)?;
    put(area, &shown_line(&series.name), (left + 52, top), 14)
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::figures::Mark;

    /// Checks that a text is one well-formed element with nothing that a browser would run.
    pub(crate) fn assert_well_formed(text: &str) {
        let mut open: Vec<String> = Vec::new();
        let mut rest = text.trim();
        let mut roots = 0;
        while let Some(start) = rest.find('<') {
            let words = &rest[..start];
            assert!(!words.contains('>'), "a bare mark in {words}");
            for part in words.split('&').skip(1) {
                let end = part.find(';').expect("an entity ends");
                let name = &part[..end];
                assert!(
                    ["amp", "lt", "gt", "quot", "apos"].contains(&name) || name.starts_with('#'),
                    "{name}"
                );
            }
            let end = rest[start..].find('>').expect("a tag ends") + start;
            let tag = &rest[start + 1..end];
            rest = &rest[end + 1..];
            if tag.starts_with('?') || tag.starts_with('!') {
                continue;
            }
            assert_eq!(tag.matches('"').count() % 2, 0, "{tag}");
            let name = tag
                .trim_start_matches('/')
                .split([' ', '\n', '/'])
                .next()
                .expect("a name");
            assert!(!name.eq_ignore_ascii_case("script"), "{tag}");
            if tag.starts_with('/') {
                assert_eq!(open.pop().as_deref(), Some(name));
            } else if !tag.ends_with('/') {
                roots += usize::from(open.is_empty());
                open.push(name.to_owned());
            }
        }
        assert!(open.is_empty() && roots == 1, "{open:?}");
        assert!(rest.trim().is_empty(), "{rest}");
    }

    fn picture() -> Picture {
        let series = |name: &str, by: f64| Series {
            name: name.to_owned().into(),
            points: (0..50).map(|x| (f64::from(x), by * f64::from(x))).collect(),
        };
        Picture {
            title: "curves of <N-0001> & \"N-0002\" \u{1b}[2J".to_owned(),
            charts: vec![Chart {
                x: "log exposure, lx s".into(),
                y: "density".into(),
                series: vec![
                    series("N-0001 8 min", 0.02),
                    series("<script>x</script>", 0.03),
                ],
                marks: vec![Mark {
                    x: 12.0,
                    name: "speed point".into(),
                }],
            }],
            words: vec!["read behind 21 steps".to_owned()],
        }
    }

    #[test]
    fn a_picture_is_well_formed_whatever_its_names_are() {
        let text = svg(&picture()).expect("a picture");
        assert_well_formed(&text);
        for says in [
            "log exposure, lx s",
            "density",
            "N-0001 8 min",
            "speed point",
            "21 steps",
        ] {
            assert!(text.contains(says), "{says}");
        }
        assert!(!text.contains('\u{1b}'));
        assert_eq!(svg(&picture()).expect("a picture"), text, "the same again");
    }

    #[test]
    fn lines_are_told_apart_without_colour() {
        let text = svg(&picture()).expect("a picture");
        let colours: std::collections::BTreeSet<&str> = text
            .split("stroke=\"")
            .skip(1)
            .filter_map(|rest| rest.split('"').next())
            .collect();
        for colour in colours {
            let grey = colour == "none"
                || (colour.len() == 7
                    && colour[1..3] == colour[3..5]
                    && colour[3..5] == colour[5..7]);
            assert!(grey, "{colour}");
        }
        assert!(text.contains("<circle"), "the first is signed by circles");
    }

    #[test]
    fn nothing_to_draw_is_said_and_odd_numbers_are_left_out() {
        let mut picture = picture();
        picture.charts[0].series[0]
            .points
            .push((f64::NAN, f64::INFINITY));
        assert_well_formed(&svg(&picture).expect("a picture"));
        picture.charts[0].series.clear();
        assert!(svg(&picture).is_err());
    }
}
