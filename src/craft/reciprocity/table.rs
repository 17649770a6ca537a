//! Losses told row by row: at this metered time give that time, or open the lens by so much.
//!
//! Between two rows both columns run straight on logarithmic scales; no maker states a rule, and this
//! is the usual one. Beyond the last row they run on at the same slope, and it is said. A row without
//! a time, where the maker says to change the aperture, has no time form, and neither has anything
//! between it and the times at which nothing is lost.

use super::super::figure::{Concern, Impossible};
use super::super::numeral::trimmed;
use super::super::{Grounds, Seconds, Stops};
use super::{Found, Told, significant};

/// Kodak E-31, Reciprocity and Special Filter Data, July 2002: for most films nothing is lost from
/// about 1/1000 s to about 1/5 s. Where a table does not say where the loss begins, it begins here.
const USUAL_START: f64 = 0.2;

/// Two times that differ by no more than rounding errors.
fn same(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * b
}

/// A row: what to do at a metered time.
#[derive(Debug, Clone, PartialEq)]
pub struct Point {
    /// The metered time.
    pub metered: Seconds,
    /// The time to give; none where only the lens helps.
    pub time: Option<Told<Seconds>>,
    /// By how much to open the lens instead; none where it is not said.
    pub open: Option<Told<Stops>>,
    /// How to change the development; none where it is not said.
    pub development: Option<Told<String>>,
}

/// Rows in the order of metered times, and the times between which nothing is lost.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    none_from: Option<Seconds>,
    none_to: Option<Seconds>,
    /// Rows for times shorter than those at which nothing is lost.
    short: Vec<Point>,
    /// Rows for longer times.
    long: Vec<Point>,
}

impl Table {
    /// A table by which nothing is lost from `none_from` to `none_to`, with these rows before and
    /// behind. Without `none_to` the loss begins at 1/5 s.
    ///
    /// # Errors
    /// If it says nothing, its rows are not in the order of time, or one of them would shorten a time
    /// or give less than the one before it.
    pub fn new(
        none_from: Option<Seconds>,
        none_to: Option<Seconds>,
        points: Vec<Point>,
    ) -> Result<Table, Impossible> {
        if points.is_empty() && none_to.is_none() {
            return Err(Impossible::new(
                "the table is empty: give rows, or the time up to which nothing is lost",
            ));
        }
        if let (Some(from), Some(to)) = (none_from, none_to)
            && from >= to
        {
            return Err(Impossible::new(format!(
                "nothing is lost from {from} to {to}: the second has to be the longer time"
            )));
        }
        check(&points)?;
        let start = none_to.map_or(USUAL_START, Seconds::value);
        let is_short = |point: &Point| none_from.is_some_and(|from| point.metered < from);
        let (short, long): (Vec<Point>, Vec<Point>) = points.into_iter().partition(is_short);
        if let Some(point) = long.iter().find(|point| point.metered.value() <= start) {
            return Err(Impossible::new(format!(
                "the row for {} lies where nothing is lost: a row begins after {} s",
                point.metered,
                trimmed(start, 3)
            )));
        }
        Ok(Table {
            none_from,
            none_to,
            short,
            long,
        })
    }

    /// The longest time at which nothing is lost, where the table says one.
    pub(super) const fn none_to(&self) -> Option<Seconds> {
        self.none_to
    }

    /// How many rows there are.
    #[must_use]
    pub const fn rows(&self) -> usize {
        self.short.len() + self.long.len()
    }

    pub(super) fn find(&self, metered: Seconds, law: &Grounds) -> Result<Found, Impossible> {
        let start = self.none_to.map_or(USUAL_START, Seconds::value);
        if let Some(from) = self.none_from.filter(|from| metered < *from) {
            return Ok(self.short_of(from, metered, law));
        }
        if metered.value() <= start || same(metered.value(), start) {
            return Ok(Found::nothing_lost(metered, law, self.where_nothing()));
        }
        let Some(last) = self.long.last() else {
            return Err(Impossible::new(format!(
                "{}, and nothing is said of {metered}: test it, or log what you found",
                self.where_nothing()
            )));
        };
        let mut knots = vec![Knot::nothing(start, law)];
        knots.extend(self.long.iter().map(Knot::of));
        let mut found = drawn(&knots, metered.value());
        found.development = development(&knots, metered.value());
        if metered > last.metered && !same(metered.value(), last.metered.value()) {
            let words = format!(
                "beyond {}, the last row of the table: carried on at the same slope, test it",
                last.metered
            );
            found = found.remark(Concern::Beyond, words);
        }
        if self.none_to.is_none() && self.long.first().is_some_and(|row| metered < row.metered) {
            let words = "the table does not say where the loss begins: taken as 1/5 s, up to which \
                         most films lose nothing (Kodak E-31, 2002)";
            found = found.remark(Concern::Note, words);
        }
        Ok(found)
    }

    /// At a time shorter than those at which nothing is lost.
    fn short_of(&self, from: Seconds, metered: Seconds, law: &Grounds) -> Found {
        let Some(shortest) = self.short.first() else {
            let words = format!("nothing is said of times shorter than {from}");
            let why = self.where_nothing();
            return Found::nothing_lost(metered, law, why).remark(Concern::Beyond, words);
        };
        let mut knots: Vec<Knot<'_>> = self.short.iter().map(Knot::of).collect();
        knots.push(Knot::nothing(from.value(), law));
        let found = drawn(&knots, metered.value());
        if metered < shortest.metered && !same(metered.value(), shortest.metered.value()) {
            let words = format!(
                "shorter than {}, the first row of the table: carried on at the same slope",
                shortest.metered
            );
            return found.remark(Concern::Beyond, words);
        }
        found
    }

    fn where_nothing(&self) -> String {
        match (self.none_from, self.none_to) {
            (Some(from), Some(to)) => format!("no correction from {from} to {to}"),
            (_, Some(to)) => format!("no correction up to {to}"),
            (_, None) => "no correction up to 1/5 s, as on most films".to_owned(),
        }
    }
}

/// Refuses rows that would shorten a time or fall back.
fn check(points: &[Point]) -> Result<(), Impossible> {
    let mut before: Option<Seconds> = None;
    let (mut longest, mut most) = (0.0, f64::NEG_INFINITY);
    for point in points {
        let at = point.metered;
        let refuse = |says: &str| Err(Impossible::new(format!("the row for {at} {says}")));
        if before.is_some_and(|before| before >= at) {
            return refuse("does not come after the one before it: put them in order of time");
        }
        before = Some(at);
        if point.time.is_none() && point.open.is_none() {
            return refuse("says neither a time nor a lens opening: give one of them");
        }
        if let Some(time) = &point.time {
            if time.value < at {
                return refuse("shortens the time: film never needs less than was reckoned");
            }
            if time.value.value() <= longest {
                return refuse("gives no more time than an earlier one");
            }
            longest = time.value.value();
        }
        if let Some(open) = &point.open {
            if open.value.value() < 0.0 {
                return refuse("closes the lens: film never needs less than was reckoned");
            }
            let exposure = at.value().log2() + open.value.value();
            if exposure < most {
                return refuse("gives less exposure than an earlier one");
            }
            most = exposure;
        }
    }
    Ok(())
}

/// What is gained at one time, in stops, by one of the two ways.
struct Cell<'t> {
    gain: f64,
    grounds: &'t Grounds,
}

/// One place through which the two columns are drawn.
struct Knot<'t> {
    at: f64,
    time: Option<Cell<'t>>,
    open: Option<Cell<'t>>,
    /// The change of development; `None` inside where nothing is lost.
    development: Option<Option<&'t Told<String>>>,
}

impl<'t> Knot<'t> {
    /// Where nothing is lost.
    const fn nothing(at: f64, grounds: &'t Grounds) -> Knot<'t> {
        let gain = 0.0;
        Knot {
            at,
            time: Some(Cell { gain, grounds }),
            open: Some(Cell { gain, grounds }),
            development: Some(None),
        }
    }

    fn of(point: &'t Point) -> Knot<'t> {
        let at = point.metered.value();
        Knot {
            at,
            time: point.time.as_ref().map(|time| Cell {
                gain: (time.value.value() / at).log2(),
                grounds: &time.grounds,
            }),
            open: point.open.as_ref().map(|open| Cell {
                gain: open.value.value(),
                grounds: &open.grounds,
            }),
            development: point.development.as_ref().map(Some),
        }
    }
}

/// How a value was come by.
enum Way {
    /// It stands in a row.
    Row,
    /// It was drawn on from a knot at this time, with this gain there, at this slope in stops for a
    /// doubling of the time.
    Slope { at: f64, gain: f64, slope: f64 },
}

/// A column at one time.
struct Drawn {
    gain: f64,
    grounds: Grounds,
    way: Way,
}

/// The less trusted of two.
fn weaker<'g>(a: &'g Grounds, b: &'g Grounds) -> &'g Grounds {
    if a.standing < b.standing { a } else { b }
}

/// One column at one time.
fn column<'t>(
    knots: &[Knot<'t>],
    at: f64,
    cell: impl Fn(&Knot<'t>) -> Option<(f64, &'t Grounds)>,
) -> Option<Drawn> {
    let cells = |range: &[Knot<'t>]| -> Vec<(f64, f64, &'t Grounds)> {
        let told = |knot: &Knot<'t>| cell(knot).map(|(gain, grounds)| (knot.at, gain, grounds));
        range.iter().filter_map(told).collect()
    };
    let upper = knots
        .iter()
        .position(|knot| at <= knot.at || same(at, knot.at));
    // The two places the line goes through, the nearer one first.
    let (near, far) = match upper {
        Some(index) => {
            let knot = knots.get(index)?;
            let (gain, grounds) = cell(knot)?;
            if same(at, knot.at) {
                let (grounds, way) = (grounds.clone(), Way::Row);
                return Some(Drawn { gain, grounds, way });
            }
            let here = (knot.at, gain, grounds);
            let below = cells(knots.get(..index)?).last().copied();
            match below {
                Some(below) => (below, here),
                // Before the first row: along the line through the first two.
                None if index == 0 => (here, cells(knots).get(1).copied()?),
                None => return None,
            }
        }
        None => {
            cell(knots.last()?)?;
            let all = cells(knots);
            let last = all.last().copied()?;
            (last, all.iter().rev().nth(1).copied()?)
        }
    };
    let slope = (far.1 - near.1) / (far.0 / near.0).log2();
    let between = (near.0.min(far.0)..=near.0.max(far.0)).contains(&at);
    // Drawn on outside the rows, a loss never shrinks: towards longer times with the long rows,
    // towards shorter times with the short ones.
    let slope = match (between, at > near.0) {
        (true, _) => slope,
        (false, true) => slope.max(0.0),
        (false, false) => slope.min(0.0),
    };
    let (at_near, gain) = (near.0, near.1);
    Some(Drawn {
        gain: gain + slope * (at / at_near).log2(),
        grounds: weaker(near.2, far.2).clone(),
        way: Way::Slope {
            at: at_near,
            gain,
            slope,
        },
    })
}

fn drawn(knots: &[Knot<'_>], at: f64) -> Found {
    let time = column(knots, at, |knot| {
        knot.time.as_ref().map(|cell| (cell.gain, cell.grounds))
    });
    let open = column(knots, at, |knot| {
        knot.open.as_ref().map(|cell| (cell.gain, cell.grounds))
    });
    let working = match (&time, &open) {
        (Some(time), _) => {
            let given = at * time.gain.exp2();
            match time.way {
                Way::Row => format!("row for {} s", trimmed(at, 3)),
                Way::Slope {
                    at: near,
                    gain,
                    slope,
                } => format!(
                    "{} s x ({} / {})^{} = {} s",
                    significant(near * gain.exp2()),
                    trimmed(at, 3),
                    trimmed(near, 3),
                    trimmed(1.0 + slope, 3),
                    significant(given)
                ),
            }
        }
        (None, Some(open)) => match open.way {
            Way::Row => format!("row for {} s", trimmed(at, 4)),
            Way::Slope {
                at: near,
                gain,
                slope,
            } => format!(
                "{} at {} s, {} for each doubling",
                trimmed(gain, 2),
                trimmed(near, 4),
                trimmed(slope, 2)
            ),
        },
        (None, None) => String::new(),
    };
    Found {
        time: time.map(|time| Told::new(at * time.gain.exp2(), time.grounds)),
        open: open.map(|open| Told::new(open.gain, open.grounds)),
        development: None,
        working,
        remarks: Vec::new(),
    }
}

/// The change of development at one time, in the words of the rows beside it.
fn development(knots: &[Knot<'_>], at: f64) -> Option<Told<String>> {
    let row = knots.iter().find(|knot| same(at, knot.at));
    if let Some(row) = row {
        return row.development.flatten().cloned();
    }
    let below = knots.iter().rev().find(|knot| knot.at < at)?.development?;
    let Some(above) = knots.iter().find(|knot| knot.at > at) else {
        let last = below?;
        let words = format!("{} at the last row, none given beyond", last.value);
        return Some(Told::new(words, last.grounds.clone()));
    };
    let above = above.development??;
    let Some(below) = below else {
        return Some(Told::new(
            format!("at most {}", above.value),
            above.grounds.clone(),
        ));
    };
    let words = if below.value == above.value {
        above.value.clone()
    } else {
        format!("between {} and {}", below.value, above.value)
    };
    let grounds = weaker(&below.grounds, &above.grounds).clone();
    Some(Told::new(words, grounds))
}
