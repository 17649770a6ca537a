//! What follows from what is typed: terms, figures, and where they come from.
//!
//! For: the right half of an entry pane, and any other place where a result stands with its
//! working.
//!
//! Promises: figures stand with their decimal marks under each other; nothing is cut, long text
//! goes on in the next line; what wants attention has a sign before it. If the area is too low, the
//! last line says that there is more.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use crate::export::shown::{shown_line, width};
use crate::tui::ink::{cells, line_of, rest_of, wrap};
use crate::tui::look::Look;
use crate::tui::theme::Role;

use super::columns::DecimalRoom;

/// One line of the ledger.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Line {
    /// A term with its figure.
    Figure(Figure),
    /// A thin line.
    Rule,
    /// A thin line, under which labels and figures stand in columns of their own.
    Part,
    /// A line that was laid out elsewhere, a row of a table or of a chart: its pieces from the left.
    Laid(Vec<(String, Role)>),
}

/// A term with its figure.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Figure {
    /// What it is; empty for a sentence, which then takes the whole width.
    pub label: String,
    /// The figure or the sentence.
    pub value: String,
    /// A quiet word behind it: what its source is worth, or the source.
    pub note: String,
    /// How it came about, in a quiet line under it.
    pub working: String,
    /// What it is; warnings get a sign, what is to be done a mark.
    pub role: Role,
}

impl Figure {
    /// An ordinary figure.
    pub fn new(label: impl Into<String>, value: impl Into<String>) -> Self {
        Self {
            label: label.into(),
            value: value.into(),
            note: String::new(),
            working: String::new(),
            role: Role::Text,
        }
    }

    /// The same figure with a word behind it.
    pub fn with_note(mut self, note: impl Into<String>) -> Self {
        self.note = note.into();
        self
    }

    /// The same figure with how it came about.
    pub fn with_working(mut self, working: impl Into<String>) -> Self {
        self.working = working.into();
        self
    }

    /// The same figure in another role.
    pub fn with_role(self, role: Role) -> Self {
        Self { role, ..self }
    }

    fn is_number(&self) -> bool {
        let unsigned = self
            .value
            .trim_start_matches(['+', '-', '−', '±', '<', '>', '≈', 'x']);
        unsigned.starts_with(|c: char| c.is_ascii_digit())
    }
}

/// Room before the text for a sign.
const MARGIN: u16 = 2;

/// Cells before a figure that stands under its label.
const HANGING: usize = 2;

/// A line ready to be drawn.
#[derive(Debug, Default)]
struct Drawn<'l> {
    /// Pieces that are drawn as they are, in place of all the rest.
    laid: Option<&'l [(String, Role)]>,
    sign: &'l str,
    label: &'l str,
    /// Cells before the value.
    indent: u16,
    value: String,
    note: String,
    role: Option<Role>,
}

/// Lines the ledger takes at this width.
pub fn height(lines: &[Line], wide: u16, look: &Look) -> u16 {
    cells(lay_out(lines, wide, look).len())
}

/// Draws the ledger from its line `from` on.
pub fn render(lines: &[Line], from: usize, area: Rect, buf: &mut Buffer, look: &Look) {
    let drawn = lay_out(lines, area.width, look);
    let drawn = drawn.get(from..).unwrap_or_default();
    let cut = drawn.len() > usize::from(area.height);
    for (place, line) in area.rows().zip(drawn) {
        if let Some(pieces) = line.laid {
            let pieces = pieces.iter().map(|(text, role)| (text.as_str(), *role));
            look.put_all(buf, rest_of(place, MARGIN), pieces);
            continue;
        }
        let Some(role) = line.role else {
            look.put_rule(buf, place);
            continue;
        };
        look.put(buf, place, line.sign, role);
        look.put(buf, rest_of(place, MARGIN), line.label, Role::Quiet);
        let rest = look.put(buf, rest_of(place, MARGIN + line.indent), &line.value, role);
        if !line.note.is_empty() {
            look.put(buf, rest_of(rest, 2), &line.note, Role::Quiet);
        }
    }
    for (more, at) in [(from > 0, 0), (cut, area.height.saturating_sub(1))] {
        if more && area.height > 0 {
            // A sign that stands there already keeps its place.
            let sign = drawn.get(usize::from(at)).map_or("", |line| line.sign);
            let place = rest_of(line_of(area, at), u16::from(!sign.is_empty()));
            look.put(buf, place, look.symbols.cut, Role::Accent);
        }
    }
}

fn lay_out<'l>(lines: &'l [Line], wide: u16, look: &Look) -> Vec<Drawn<'l>> {
    let mut drawn = Vec::new();
    for part in lines.split_inclusive(|line| *line == Line::Part) {
        lay_out_part(&mut drawn, part, wide, look);
    }
    drawn
}

/// Lays out lines that share their columns.
fn lay_out_part<'l>(drawn: &mut Vec<Drawn<'l>>, lines: &'l [Line], wide: u16, look: &Look) {
    let room = usize::from(wide.saturating_sub(MARGIN));
    let figures = || {
        lines.iter().filter_map(|line| match line {
            Line::Figure(figure) => Some(figure),
            Line::Rule | Line::Part | Line::Laid(_) => None,
        })
    };
    // A label that has a line of its own in any case widens the column of the others for nothing, and
    // so does one whose figure fills more than a line.
    let most = room * 3 / 5;
    let cells = |text: &str| width(&shown_line(text));
    let fits = |figure: &&Figure| {
        let note = match cells(&figure.note) {
            0 => 0,
            note => note + 2,
        };
        cells(&figure.label) + 2 + cells(&figure.value) + note <= room
    };
    let labels = |figures: &mut dyn Iterator<Item = &Figure>| {
        figures
            .map(|figure| cells(&figure.label))
            .filter(|cells| *cells < most)
            .max()
            .unwrap_or(0)
    };
    let longest = match labels(&mut figures().filter(fits)) {
        0 => labels(&mut figures()),
        longest => longest,
    };
    let gap = if longest + 2 <= room / 2 { 2 } else { 1 };
    let labels = (longest + gap).min(most);
    let numbers = figures().filter(|figure| figure.is_number());
    let decimals = DecimalRoom::of(numbers.map(|figure| figure.value.as_str()));
    for line in lines {
        match line {
            Line::Rule | Line::Part => drawn.push(Drawn::default()),
            Line::Laid(pieces) => drawn.push(Drawn {
                laid: Some(pieces),
                ..Drawn::default()
            }),
            Line::Figure(figure) => push(drawn, figure, look, labels, room, decimals),
        }
    }
}

fn push<'l>(
    drawn: &mut Vec<Drawn<'l>>,
    figure: &'l Figure,
    look: &Look,
    labels: usize,
    room: usize,
    decimals: DecimalRoom,
) {
    let sign = match figure.role {
        Role::Warn | Role::Error | Role::Doubt => "!",
        Role::Accent => look.symbols.marker,
        _ => "",
    };
    // A label that is longer than its column has a line of its own, and so has one whose figure
    // would find no room for its note beside it.
    let label_cells = width(&shown_line(&figure.label));
    let note_cells = match width(&shown_line(&figure.note)) {
        0 => 0,
        cells => cells + 2,
    };
    let value_cells = width(&shown_line(&figure.value)) + note_cells;
    let alone = !figure.label.is_empty()
        && labels < room
        && (label_cells + 1 > labels
            || (note_cells > 0 && labels + value_cells > room && value_cells + HANGING <= room));
    let indent = match (figure.label.is_empty(), alone) {
        (true, _) => 0,
        (_, true) => HANGING,
        (_, false) => labels,
    };
    let value_room = room.saturating_sub(indent);
    let value = if figure.is_number() && !alone {
        decimals.place(&figure.value).trim_end().to_owned()
    } else {
        figure.value.clone()
    };
    let fits = width(&shown_line(&value)) <= value_room && !value.contains('\n');
    let values = if fits {
        vec![value]
    } else {
        wrap(&figure.value, value_room)
    };
    let first = drawn.len();
    let mut label = figure.label.as_str();
    if alone {
        drawn.push(Drawn {
            label,
            role: Some(figure.role),
            ..Drawn::default()
        });
        label = "";
    }
    for value in values {
        drawn.push(Drawn {
            label: std::mem::take(&mut label),
            indent: cells(indent),
            value,
            role: Some(figure.role),
            ..Drawn::default()
        });
    }
    if let Some(line) = drawn.get_mut(first) {
        line.sign = sign;
    }
    push_note(drawn, &figure.note, indent, value_room);
    for working in wrap(&figure.working, room.saturating_sub(HANGING)) {
        if !working.is_empty() {
            drawn.push(Drawn {
                note: working,
                role: Some(Role::Quiet),
                ..Drawn::default()
            });
        }
    }
}

/// Puts the note behind the last line of the value, or under it.
fn push_note(drawn: &mut Vec<Drawn<'_>>, note: &str, indent: usize, room: usize) {
    if note.is_empty() {
        return;
    }
    let note_cells = width(&shown_line(note));
    match drawn.last_mut() {
        Some(last) if width(&shown_line(&last.value)) + 2 + note_cells <= room => {
            last.note = note.to_owned();
        }
        _ => {
            for note in wrap(note, room.saturating_sub(2)) {
                drawn.push(Drawn {
                    indent: cells(indent),
                    note,
                    role: Some(Role::Quiet),
                    ..Drawn::default()
                });
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn drawn(lines: &[Line], size: (u16, u16)) -> Vec<String> {
        let area = Rect::new(0, 0, size.0, size.1);
        let mut buf = Buffer::empty(area);
        render(lines, 0, area, &mut buf, &Look::plain());
        area.rows()
            .map(|row| {
                let text: String = row
                    .columns()
                    .map(|at| buf[at.as_position()].symbol())
                    .collect();
                text.trim_end().to_owned()
            })
            .collect()
    }

    fn figure(label: &str, value: &str, note: &str) -> Line {
        Line::Figure(Figure::new(label, value).with_note(note))
    }

    #[test]
    fn figures_stand_under_each_other_with_their_notes() {
        let lines = [
            figure("from the meter", "2.0 s  f/32", ""),
            figure("orange filter", "+2.00", "published"),
            figure("lens shutter", "-0.11", "own"),
            Line::Rule,
            Line::Figure(Figure::new("give", "8.5 s  f/32").with_role(Role::Heading)),
            Line::Figure(Figure::new("", "turn the slide dark side out").with_role(Role::Accent)),
        ];
        assert_eq!(
            drawn(&lines, (40, 7)),
            [
                "  from the meter   2.0 s  f/32",
                "  orange filter   +2.00  published",
                "  lens shutter    -0.11  own",
                "────────────────────────────────────────",
                "  give             8.5 s  f/32",
                "▸ turn the slide dark side out",
                "",
            ]
        );
        assert_eq!(height(&lines, 40, &Look::plain()), 6);
    }

    #[test]
    fn working_stands_under_its_figure_and_a_laid_line_is_drawn_as_it_is() {
        let step = Figure::new("bellows", "x1.5")
            .with_note("published")
            .with_working("(294 mm / 240 mm)²");
        let lines = [
            figure("more", "+0.59 stop", ""),
            Line::Part,
            figure("focal length", "240 mm", ""),
            Line::Figure(step),
            Line::Laid(vec![
                ("0 ┤".to_owned(), Role::Rule),
                (" o o".to_owned(), Role::Accent),
            ]),
        ];
        assert_eq!(
            drawn(&lines, (36, 7)),
            [
                "  more  +0.59 stop",
                "────────────────────────────────────",
                "  focal length  240 mm",
                "  bellows        x1.5  published",
                "    (294 mm / 240 mm)²",
                "  0 ┤ o o",
                "",
            ]
        );
        assert_eq!(height(&lines, 36, &Look::plain()), 6);
    }

    #[test]
    fn long_text_goes_on_and_a_low_area_says_that_there_is_more() {
        let caution = Figure::new(
            "pyro",
            "is poisonous; wear gloves and do not breathe the dust",
        )
        .with_note("supplier's sheet")
        .with_role(Role::Warn);
        let lines = [Line::Figure(caution)];
        assert_eq!(
            drawn(&lines, (32, 4)),
            [
                "! pyro  is poisonous; wear",
                "        gloves and do not",
                "        breathe the dust",
                "          supplier's sheet",
            ]
        );
        assert!(drawn(&lines, (32, 2))[1].starts_with("…"));
    }
}
