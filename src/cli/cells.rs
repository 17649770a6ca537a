//! What the lists show of each kind of row, cell by cell.

use chrono::{DateTime, FixedOffset};

use crate::craft::Area;
use crate::store::rows::{
    BathRow, BoxRow, FindingRow, HolderRow, PaperRow, PrintRow, RunRow, SetRow, SheetRow, SideRow,
    ToolRow,
};

/// A row that can stand in a list.
pub(super) trait Listed {
    /// The headings of its cells.
    const HEADS: &'static [&'static str];
    /// What it is called.
    fn reference(&self) -> &str;
    /// Its cells, in the order of the headings.
    fn cells(&self) -> Vec<String>;
}

/// A day and a time, in a form that sorts.
pub(super) fn moment(at: DateTime<FixedOffset>) -> String {
    at.format("%Y-%m-%d %H:%M").to_string()
}

/// A day, in a form that sorts.
pub(super) fn day(at: DateTime<FixedOffset>) -> String {
    at.format("%Y-%m-%d").to_string()
}

fn text<T: ToString>(value: &Option<T>) -> String {
    value.as_ref().map(T::to_string).unwrap_or_default()
}

fn when(at: Option<DateTime<FixedOffset>>) -> String {
    at.map(moment).unwrap_or_default()
}

fn number(many: u32) -> String {
    if many == 0 {
        String::new()
    } else {
        many.to_string()
    }
}

/// The film with the speed it is exposed at: `FP4 Plus @80`.
fn film(name: &str, speed: Option<impl ToString>) -> String {
    match speed {
        Some(speed) if !name.is_empty() => format!("{name} @{}", speed.to_string()),
        _ => name.to_owned(),
    }
}

/// One side as the rack shows it.
pub(super) fn side_line(side: &SideRow) -> String {
    let mut parts = vec![format!("{} {}", side.label, side.state)];
    if let Some(doubt) = &side.doubt {
        parts.push(format!("IN DOUBT ({} side out)", doubt.seen.word()));
    }
    if let Some(name) = &side.film {
        parts.push(film(name, side.speed));
    }
    parts.extend(side.sheet_reference.clone());
    if let Some(exposed) = side.exposed {
        parts.push(format!("since {}", day(exposed)));
    }
    if side.exposures > 1 {
        parts.push(format!("{} exposures", side.exposures));
    }
    parts.join("  ")
}

impl Listed for SheetRow {
    const HEADS: &'static [&'static str] = &[
        "sheet", "state", "since", "film", "size", "side", "exposed", "subject", "run", "range",
        "prints", "place", "",
    ];
    fn reference(&self) -> &str {
        &self.reference
    }
    fn cells(&self) -> Vec<String> {
        let mut marks = Vec::new();
        if self.doubt {
            marks.push("IN DOUBT".to_owned());
        }
        if self.exposures > 1 {
            marks.push(format!("{} exposures", self.exposures));
        }
        if self.overrides > 0 {
            marks.push("against the order".to_owned());
        }
        marks.extend(self.end.clone());
        vec![
            self.reference.clone(),
            self.state.clone(),
            when(self.since),
            film(&self.film, self.speed),
            text(&self.size),
            text(&self.side),
            when(self.exposed),
            text(&self.subject),
            text(&self.run),
            self.range()
                .map(|range| format!("{range:.2}"))
                .unwrap_or_default(),
            number(self.prints),
            text(&self.file_place),
            marks.join(", "),
        ]
    }
}

impl Listed for PrintRow {
    const HEADS: &'static [&'static str] = &[
        "print", "state", "since", "title", "negative", "process", "paper", "size", "number",
        "where", "",
    ];
    fn reference(&self) -> &str {
        &self.reference
    }
    fn cells(&self) -> Vec<String> {
        let mut place: Vec<String> = Vec::new();
        place.extend(self.whereabouts.map(|now| now.word().to_owned()));
        place.extend(self.place.clone());
        place.extend(self.due.map(|due| format!("due back {due}")));
        vec![
            self.reference.clone(),
            self.state.clone(),
            when(self.since),
            self.title
                .clone()
                .or_else(|| self.subject.clone())
                .unwrap_or_default(),
            self.negatives.join(" "),
            self.process.clone(),
            text(&self.paper),
            text(&self.size),
            text(&self.number),
            place.join(", "),
            text(&self.end),
        ]
    }
}

impl Listed for HolderRow {
    const HEADS: &'static [&'static str] = &["holder", "state", "size", "what it is", "sides"];
    fn reference(&self) -> &str {
        &self.reference
    }
    fn cells(&self) -> Vec<String> {
        let sides = self.sides.iter();
        let sides: Vec<String> = sides
            .map(|side| {
                let doubt = if side.doubt.is_some() {
                    " IN DOUBT"
                } else {
                    ""
                };
                format!("{} {}{doubt}", side.label, side.state)
            })
            .collect();
        vec![
            self.reference.clone(),
            self.state.clone(),
            text(&self.size),
            text(&self.make),
            sides.join(", "),
        ]
    }
}

impl Listed for BoxRow {
    const HEADS: &'static [&'static str] = &[
        "box", "state", "film", "size", "left", "of", "emulsion", "use by", "kept",
    ];
    fn reference(&self) -> &str {
        &self.reference
    }
    fn cells(&self) -> Vec<String> {
        vec![
            self.reference.clone(),
            self.state.clone(),
            film(&self.film, self.speed),
            text(&self.size),
            self.left.to_string(),
            self.sheets.to_string(),
            text(&self.emulsion),
            text(&self.expiry),
            text(&self.kept),
        ]
    }
}

impl Listed for PaperRow {
    const HEADS: &'static [&'static str] = &[
        "paper",
        "state",
        "name",
        "what it is",
        "size",
        "left",
        "of",
        "batch",
    ];
    fn reference(&self) -> &str {
        &self.reference
    }
    fn cells(&self) -> Vec<String> {
        vec![
            self.reference.clone(),
            self.state.clone(),
            self.name.clone(),
            text(&self.sort),
            text(&self.size),
            self.left.to_string(),
            self.sheets.to_string(),
            text(&self.batch),
        ]
    }
}

impl Listed for BathRow {
    const HEADS: &'static [&'static str] = &[
        "bath",
        "state",
        "name",
        "for",
        "dilution",
        "volume",
        "mixed",
        "used",
        "good for",
        "good until",
        "clears in",
        "of two",
        "from",
    ];
    fn reference(&self) -> &str {
        &self.reference
    }
    fn cells(&self) -> Vec<String> {
        vec![
            self.reference.clone(),
            self.state.clone(),
            self.name.clone(),
            self.purpose
                .map(|purpose| purpose.word().to_owned())
                .unwrap_or_default(),
            text(&self.dilution),
            text(&self.volume),
            when(self.mixed),
            used(self),
            text(&self.capacity),
            text(&self.last_day),
            clears(self),
            self.of_two.unwrap_or_default().to_owned(),
            text(&self.stock),
        ]
    }
}

/// How long film took to clear last, beside what it took in the fresh bath.
fn clears(row: &BathRow) -> String {
    match (row.clearing, row.fresh_clearing) {
        (Some(last), Some(fresh)) => format!("{last} (fresh {fresh})"),
        _ => String::new(),
    }
}

/// How many sheets, and their area where it is known.
fn used(row: &BathRow) -> String {
    match row.area > Area::NONE {
        true => format!("{} ({})", row.uses, row.area),
        false => row.uses.to_string(),
    }
}

impl Listed for RunRow {
    const HEADS: &'static [&'static str] = &[
        "run",
        "state",
        "begun",
        "sheets",
        "developer",
        "time",
        "temperature",
        "in",
    ];
    fn reference(&self) -> &str {
        &self.reference
    }
    fn cells(&self) -> Vec<String> {
        vec![
            self.reference.clone(),
            self.state.clone(),
            when(self.begun),
            self.sheets.join(" "),
            text(&self.developer),
            text(&self.time),
            text(&self.temperature),
            text(&self.vessel),
        ]
    }
}

impl Listed for SetRow {
    const HEADS: &'static [&'static str] = &["set", "linked", "they are", "sheets"];
    fn reference(&self) -> &str {
        &self.reference
    }
    fn cells(&self) -> Vec<String> {
        vec![
            self.reference.clone(),
            when(self.born),
            self.bond
                .map(|bond| bond.word().to_owned())
                .unwrap_or_default(),
            self.sheets.join(" "),
        ]
    }
}

impl Listed for FindingRow {
    const HEADS: &'static [&'static str] =
        &["reference", "state", "sort", "about", "says", "found"];
    fn reference(&self) -> &str {
        &self.reference
    }
    fn cells(&self) -> Vec<String> {
        vec![
            self.reference.clone(),
            self.state.clone(),
            self.sort.clone(),
            self.about.clone(),
            self.says.clone(),
            self.found.map(day).unwrap_or_default(),
        ]
    }
}

impl Listed for ToolRow {
    const HEADS: &'static [&'static str] =
        &["reference", "state", "name", "exposures", "last used"];
    fn reference(&self) -> &str {
        &self.reference
    }
    fn cells(&self) -> Vec<String> {
        vec![
            self.reference.clone(),
            self.state.clone(),
            self.name.clone(),
            self.exposures.to_string(),
            when(self.used),
        ]
    }
}
