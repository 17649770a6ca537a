//! A chart drawn with characters, for the screen and the command line alike.
//!
//! Promises: nothing but finite points is drawn; lines that belong to different series are told apart
//! by signs and never by colour alone; every line of the picture is at most as wide as asked. Leaves to
//! others: how each kind of ink looks.

use crate::figures::Chart;

mod canvas;
mod scale;

use super::shown::{fit, shown_line, width};
use canvas::Canvas;
use scale::{Scale, written};

/// What a piece of a plot is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ink {
    /// A line or a point of the data.
    Data,
    /// Axes, the line at zero, the uprights of named places.
    Axis,
    /// Numbers and names.
    Word,
}

/// Which characters are drawn with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pens {
    /// Dots of braille and thin lines.
    Fine,
    /// ASCII only.
    Ascii,
}

/// One line of a plot: its pieces from the left.
pub type PlotLine = Vec<(String, Ink)>;

/// The fewest cells and lines of the field in which something can be seen.
const LEAST: (usize, usize) = (12, 4);

/// The signs that tell series apart, in their order.
const SIGNS: [&str; 8] = ["o", "x", "+", "#", "@", "%", "&", "="];

/// Draws a chart at most `wide` cells wide, its field `high` lines high. Under the field come the ends
/// of the x axis, the named places, and which sign means what.
///
/// A chart without points gives one line that says so.
pub fn plot(chart: &Chart, wide: usize, high: usize, pens: Pens) -> Vec<PlotLine> {
    let points = || {
        let all = chart.series.iter().flat_map(|series| &series.points);
        all.filter(|(x, y)| x.is_finite() && y.is_finite())
    };
    let high = high.max(LEAST.1);
    let marks = chart.marks.iter().map(|mark| mark.x);
    let x = Scale::over(
        points()
            .map(|(x, _)| *x)
            .chain(marks.filter(|x| x.is_finite())),
    );
    let y = Scale::over(points().map(|(_, y)| *y));
    let (Some(x), Some(y)) = (x, y) else {
        return vec![vec![("there is nothing to draw".to_owned(), Ink::Word)]];
    };
    let y = y.near_zero();
    let ticks_up = y.ticks((high / 3).max(4));
    let gutter = ticks_up.iter().map(|tick| width(&written(*tick))).max();
    let gutter = gutter.unwrap_or(0) + 1;
    let field = wide.saturating_sub(gutter + 1).max(LEAST.0);
    let frame = Frame {
        x,
        y,
        field,
        high,
        gutter,
        pens,
        by_hour: chart.x.starts_with("hour"),
    };
    let mut lines = vec![vec![(chart.y.to_string(), Ink::Word)]];
    lines.extend(frame.rows(chart, &ticks_up));
    lines.extend(frame.foot(chart));
    lines.extend(frame.names(chart));
    lines.extend(legend(chart, wide));
    lines.into_iter().map(|line| cut(line, wide)).collect()
}

/// Where everything stands.
struct Frame {
    x: Scale,
    y: Scale,
    /// Cells of the field.
    field: usize,
    /// Lines of the field.
    high: usize,
    /// Cells before the y axis.
    gutter: usize,
    pens: Pens,
    /// The x axis counts hours, of which twelve make half a day.
    by_hour: bool,
}

impl Frame {
    const fn pen<'p>(&self, fine: &'p str, ascii: &'p str) -> &'p str {
        match self.pens {
            Pens::Fine => fine,
            Pens::Ascii => ascii,
        }
    }

    fn column(&self, x: f64) -> usize {
        scale::at(self.x.part(x), self.field)
    }

    fn row(&self, y: f64) -> usize {
        scale::at(1.0 - self.y.part(y), self.high)
    }

    /// The field with its numbers at the left.
    fn rows(&self, chart: &Chart, ticks: &[f64]) -> Vec<PlotLine> {
        let canvas = self.drawn(chart);
        let zero = self.y.holds(0.0).then(|| self.row(0.0));
        let marks: Vec<usize> = chart
            .marks
            .iter()
            .filter(|mark| mark.x.is_finite())
            .map(|mark| self.column(mark.x))
            .collect();
        (0..self.high)
            .map(|row| {
                let tick = ticks.iter().find(|tick| self.row(**tick) == row);
                let number = tick.map(|tick| written(*tick)).unwrap_or_default();
                let axis = match tick {
                    Some(_) => self.pen("┤", "+"),
                    None => self.pen("│", "|"),
                };
                let before = self.gutter.saturating_sub(width(&number) + 1);
                let mut line = vec![
                    (format!("{}{number} ", " ".repeat(before)), Ink::Word),
                    (axis.to_owned(), Ink::Axis),
                ];
                for column in 0..self.field {
                    let (sign, ink) = match canvas.cell(column, row) {
                        Some(sign) => (sign, Ink::Data),
                        None if marks.contains(&column) => {
                            (self.pen("┊", ":").to_owned(), Ink::Axis)
                        }
                        None if zero == Some(row) => (self.pen("·", ".").to_owned(), Ink::Axis),
                        None => (" ".to_owned(), Ink::Axis),
                    };
                    add(&mut line, &sign, ink);
                }
                line
            })
            .collect()
    }

    fn drawn(&self, chart: &Chart) -> Canvas {
        let mut canvas = Canvas::new(self.field, self.high, self.pens);
        let several = chart.series.len() > 1;
        for (series, sign) in chart.series.iter().zip(SIGNS.iter().cycle()) {
            let places: Vec<(f64, f64)> = series
                .points
                .iter()
                .filter(|(x, y)| x.is_finite() && y.is_finite())
                .map(|(x, y)| (self.x.part(*x), 1.0 - self.y.part(*y)))
                .collect();
            for pair in places.windows(2) {
                if let [from, to] = pair {
                    canvas.line(*from, *to);
                }
            }
            // Few points are measurements and are seen as such; a dense line is signed at its end.
            let few = places.len() * 3 <= self.field;
            let signed = places
                .iter()
                .enumerate()
                .filter(|(at, _)| few || (several && *at + 1 == places.len()));
            for (_, place) in signed {
                canvas.sign(*place, sign);
            }
        }
        canvas
    }

    /// The x axis, its numbers, and what it counts.
    fn foot(&self, chart: &Chart) -> Vec<PlotLine> {
        let ticks = match self.by_hour {
            true => self.x.hours(self.field / 8),
            false => self.x.ticks(self.field / 10),
        };
        let columns: Vec<usize> = ticks.iter().map(|tick| self.column(*tick)).collect();
        let axis: String = (0..self.field)
            .map(|column| match columns.contains(&column) {
                true => self.pen("┬", "+"),
                false => self.pen("─", "-"),
            })
            .collect();
        let before = " ".repeat(self.gutter);
        let corner = self.pen("└", "+");
        let mut numbers = Row::default();
        for (tick, column) in ticks.iter().zip(columns) {
            let number = written(*tick);
            let half = width(&number) / 2;
            numbers.put((self.gutter + 1 + column).saturating_sub(half), &number);
        }
        let room = self.gutter + 1 + self.field;
        let mut foot = vec![
            vec![(format!("{before}{corner}{axis}"), Ink::Axis)],
            vec![(numbers.text.clone(), Ink::Word)],
        ];
        let name = shown_line(&chart.x).into_owned();
        match room.checked_sub(width(&name)) {
            Some(start) if numbers.ends_before(start) => {
                numbers.put(start, &name);
                foot.truncate(1);
                foot.push(vec![(numbers.text, Ink::Word)]);
            }
            start => {
                let before = " ".repeat(start.unwrap_or(0));
                foot.push(vec![(format!("{before}{name}"), Ink::Word)]);
            }
        }
        foot
    }

    /// The names of places on the x axis, each beginning under its place, or ending there where there
    /// is no room at the right.
    fn names(&self, chart: &Chart) -> Vec<PlotLine> {
        let room = self.gutter + 1 + self.field;
        let mut marks: Vec<(usize, String)> = chart
            .marks
            .iter()
            .filter(|mark| mark.x.is_finite())
            .map(|mark| {
                let at = self.gutter + 1 + self.column(mark.x);
                (at, shown_line(&mark.name).into_owned())
            })
            .collect();
        marks.sort_by_key(|(at, _)| *at);
        let mut rows: Vec<Row> = Vec::new();
        for (at, name) in marks {
            let wide = width(&name);
            let start = match at + wide <= room {
                true => at,
                false => (at + 1).saturating_sub(wide),
            };
            match rows.iter_mut().find(|row| row.ends_before(start)) {
                Some(row) => row.put(start, &name),
                None => {
                    let mut row = Row::default();
                    row.put(start, &name);
                    rows.push(row);
                }
            }
        }
        let words = |row: Row| vec![(row.text, Ink::Word)];
        rows.into_iter().map(words).collect()
    }
}

/// A line that is filled from the left.
#[derive(Default)]
struct Row {
    text: String,
}

impl Row {
    /// Whether there is room from `start` on, with a space before it.
    fn ends_before(&self, start: usize) -> bool {
        self.text.is_empty() || width(&self.text) < start
    }

    /// Puts text at `start`, where there is room for it.
    fn put(&mut self, start: usize, text: &str) {
        if self.ends_before(start) {
            let gap = start.saturating_sub(width(&self.text));
            self.text.push_str(&" ".repeat(gap));
            self.text.push_str(text);
        }
    }
}

/// Which sign means what, where there is more than one line.
fn legend(chart: &Chart, wide: usize) -> Vec<PlotLine> {
    if chart.series.len() < 2 {
        return Vec::new();
    }
    let mut lines: Vec<PlotLine> = Vec::new();
    let mut used = wide;
    for (series, sign) in chart.series.iter().zip(SIGNS.iter().cycle()) {
        let name = shown_line(&series.name);
        let cells = width(&name) + 5;
        if used + cells > wide {
            lines.push(Vec::new());
            used = 0;
        }
        if let Some(line) = lines.last_mut() {
            line.push(((*sign).to_owned(), Ink::Data));
            line.push((format!(" {name}   "), Ink::Word));
        }
        used += cells;
    }
    lines
}

fn add(line: &mut PlotLine, sign: &str, ink: Ink) {
    match line.last_mut() {
        Some((text, last)) if *last == ink => text.push_str(sign),
        _ => line.push((sign.to_owned(), ink)),
    }
}

/// A line without blanks at its end, and no longer than `wide`.
fn cut(mut line: PlotLine, wide: usize) -> PlotLine {
    while let Some((text, _)) = line.last_mut() {
        text.truncate(text.trim_end().len());
        if !text.is_empty() {
            break;
        }
        line.pop();
    }
    let mut left = wide;
    for (text, _) in &mut line {
        *text = fit(text, left).into_owned();
        left -= width(text).min(left);
    }
    line.retain(|(text, _)| !text.is_empty());
    line
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figures::{Mark, Series};
    use proptest::prelude::*;

    fn text(lines: &[PlotLine]) -> Vec<String> {
        lines
            .iter()
            .map(|line| line.iter().map(|(text, _)| text.as_str()).collect())
            .collect()
    }

    fn chart(series: &[(&'static str, &[(f64, f64)])]) -> Chart {
        let series = series.iter().map(|(name, points)| Series {
            name: (*name).into(),
            points: points.to_vec(),
        });
        Chart {
            x: "hour".into(),
            y: "elevation, deg".into(),
            series: series.collect(),
            marks: Vec::new(),
        }
    }

    #[test]
    fn a_line_is_drawn_between_axes_with_numbers() {
        let mut one = chart(&[("sun", &[(0.0, -20.0), (12.0, 40.0), (24.0, -20.0)])]);
        one.marks.push(Mark {
            x: 4.0,
            name: "rise 04:00".into(),
        });
        one.marks.push(Mark {
            x: 20.0,
            name: "set 20:00".into(),
        });
        assert_eq!(
            text(&plot(&one, 40, 9, Pens::Fine)),
            [
                "elevation, deg",
                " 40 ┤      ┊         ⡠o⢄         ┊",
                "    │      ┊       ⡠⠊   ⠑⢄       ┊",
                "    │      ┊     ⡠⠊       ⠑⢄     ┊",
                " 20 ┤      ┊   ⡠⠊           ⠑⢄   ┊",
                "    │      ┊ ⡠⠊               ⠑⢄ ┊",
                "  0 ┤······⡠⠊···················⠑⢄······",
                "    │    ⡠⠊┊                     ┊⠑⢄",
                "    │  ⡠⠊  ┊                     ┊  ⠑⢄",
                "-20 ┤o⠊    ┊                     ┊    ⠑o",
                "    └┬────────┬───────┬────────┬───────┬",
                "     0        6      12       18      24",
                "                                    hour",
                "           rise 04:00    set 20:00",
            ]
        );
    }

    #[test]
    fn several_lines_are_told_apart_by_signs_with_a_legend() {
        let two = chart(&[
            ("1/4 s", &[(0.0, 0.1), (6.0, 0.2), (12.0, 0.35)]),
            ("1/15 s", &[(0.0, -0.05), (6.0, 0.0)]),
        ]);
        assert_eq!(
            text(&plot(&two, 40, 7, Pens::Ascii)),
            [
                "elevation, deg",
                "    |                            ******o",
                "0.3 +                      *******",
                "0.2 +              ***o****",
                "    |    **********",
                "0.1 +o***",
                "  0 +.................x.................",
                "    |x*****************",
                "    ++--------+-------+--------+-------+",
                "     0        3       6        9      12",
                "                                    hour",
                "o 1/4 s   x 1/15 s",
            ]
        );
    }

    #[test]
    fn a_chart_of_nothing_says_so() {
        let none = chart(&[("sun", &[(f64::NAN, 1.0), (1.0, f64::INFINITY)])]);
        assert_eq!(
            text(&plot(&none, 40, 9, Pens::Fine)),
            ["there is nothing to draw"]
        );
        assert_eq!(
            text(&plot(&chart(&[]), 40, 9, Pens::Fine)),
            ["there is nothing to draw"]
        );
    }

    proptest! {
        #[test]
        fn any_chart_can_be_drawn_and_no_line_is_too_wide(
            points in proptest::collection::vec((any::<f64>(), any::<f64>()), 0..40),
            marks in proptest::collection::vec(any::<f64>(), 0..6),
            wide in 0usize..120,
            high in 0usize..30,
        ) {
            let mut any = chart(&[("a", points.as_slice()), ("b", &[(1.0, 1.0)])]);
            any.marks = marks.into_iter().map(|x| Mark { x, name: "a place".into() }).collect();
            for pens in [Pens::Fine, Pens::Ascii] {
                for line in text(&plot(&any, wide, high, pens)) {
                    prop_assert!(width(&line) <= wide, "{line}");
                    prop_assert!(pens == Pens::Fine || line.is_ascii() || line.contains('…'));
                }
            }
        }
    }
}
