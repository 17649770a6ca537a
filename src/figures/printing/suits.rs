//! Which process suits a negative, what it would lose, and how its tones would print.

use super::super::densities::CHANNEL;
use super::super::{
    Answer, Ask, Book, Chapter, Chart, Given, Line, Mark, Problem, Recipe, Series, Table,
};
use super::contrast::{process, readable};
use crate::craft::printing::fit::{Negative, PaperCurve, Placed, Placing, Verdict, place, verdict};
use crate::craft::sensitometry::Channel;
use crate::craft::{Amount, Concern, Density, Figure, Grounds, Standing, Step};
use crate::reference::process::Light;
use crate::reference::{Process, Scale};

/// Points of a drawn line.
const DRAWN: u32 = 48;

/// Lines that can be told apart in one chart.
const MOST_DRAWN: usize = 3;

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "which-process",
        title: "which process suits a negative",
        chapter: Chapter::Printing,
        about: "The density range of a negative against the exposure scales that are told of each process: \
                which take it, with the setting of contrast where a table gives one, what the others would \
                lose and how flat it would print. Measure in the light of the process: ultraviolet for \
                coated papers, blue for silver. A step tablet of your own on your own paper tells better.",
        asks: &[
            THIN,
            DENSE,
            CHANNEL,
            Ask::typed(
                "process",
                "process",
                "one process alone, with all that is told of it, palladium",
            ),
            PLACED,
        ],
        example: &[
            ("thin", "0.35"),
            ("dense", "1.85"),
            ("channel", "ultraviolet"),
        ],
        answer: which,
    },
    Recipe {
        word: "print-tones",
        title: "from the densities of a negative to the tones of a print",
        chapter: Chapter::Printing,
        about: "A curve from the densities of a negative to those of the print. With readings of a step \
                tablet printed on your own paper it is that paper's curve; with an exposure scale alone it \
                is a straight line, which shows where black and white begin and nothing between. The \
                exposure is set by the shadows, the highlights or the middle.",
        asks: &[
            THIN,
            DENSE,
            Ask::typed(
                "curve",
                "paper curve",
                "density printed through and that of the print, 0.05 1.45, 0.5 1.2, 1.1 0.4, 1.7 0.07",
            ),
            Ask::typed("scale", "or scale", "or the exposure scale alone, 1.5"),
            PLACED,
        ],
        example: &[("thin", "0.35"), ("dense", "1.85"), ("scale", "1.4")],
        answer: tones,
    },
];

const THIN: Ask = Ask::typed(
    "thin",
    "shadows",
    "density of the deepest shadow that shall show, 0.35",
);
const DENSE: Ask = Ask::typed(
    "dense",
    "highlights",
    "density of the brightest tone that shall show, 1.85",
);
const PLACED: Ask = Ask::typed(
    "placed",
    "exposed for",
    "which end is held by the exposure: shadows, highlights or the middle, shadows",
)
.from(Book::Choice(Placed::WORDS));

fn negative(given: &Given<'_>) -> Result<Negative, Problem> {
    let thin = given.must("thin", Density::parse)?;
    let dense = given.must("dense", Density::parse)?;
    Negative::new(thin, dense).map_err(|why| given.problem("dense", why.to_string()))
}

fn placed(given: &Given<'_>) -> Result<Placed, Problem> {
    let word = given.choice("placed")?.and_then(Placed::worded);
    Ok(word.unwrap_or(Placed::Shadows))
}

/// A scale of a process with what it does to the negative.
struct Candidate<'a> {
    process: &'a Process,
    scale: &'a Scale,
    verdict: Verdict,
}

impl Candidate<'_> {
    fn name(&self) -> String {
        if self.scale.of.is_empty() {
            self.process.name.clone()
        } else {
            format!("{}, {}", self.process.name, self.scale.of)
        }
    }

    fn grounds(&self) -> Grounds {
        Grounds::new(self.scale.standing, self.scale.source.clone())
    }

    /// The scale that comes nearest to a range.
    fn nearest(&self, range: f64) -> f64 {
        let (least, most) = self.scale.range;
        range.clamp(least, most.max(least))
    }

    fn said(&self) -> String {
        match self.verdict {
            Verdict::Fits => "fits".to_owned(),
            Verdict::Lost(lost) => format!("loses {lost:.2}"),
            Verdict::Flat(flat) => format!("flat by {flat:.2}"),
        }
    }

    /// How far it is from fitting, in which light it prints, and what it rests on: what prints by the
    /// light of the readings comes first among equals, and what was only remembered last.
    fn rank(&self, channel: Channel) -> (f64, bool, Standing) {
        let off = match self.verdict {
            Verdict::Fits => 0.0,
            Verdict::Lost(off) | Verdict::Flat(off) => off,
        };
        let coated = self.process.light == Light::Ultraviolet;
        (
            off,
            coated == (channel == Channel::Ultraviolet),
            self.scale.standing,
        )
    }
}

fn candidates<'a>(
    given: &Given<'a>,
    range: f64,
    channel: Channel,
) -> Result<Vec<Candidate<'a>>, Problem> {
    let reference = given.desk().reference;
    let processes: Vec<&Process> = match process(given)? {
        None => reference.processes().iter().collect(),
        Some(one) => vec![one],
    };
    let mut all = Vec::new();
    for process in processes {
        for scale in process.scales() {
            all.push(Candidate {
                process,
                scale,
                verdict: verdict(range, scale.range)?,
            });
        }
    }
    if all.is_empty() {
        return Err(given.problem(
            "process",
            "no exposure scale is told of it: print a step tablet and take \"reckon printing-time\"",
        ));
    }
    all.sort_by(|one, other| {
        let (one, other) = (one.rank(channel), other.rank(channel));
        let by_fit = one.0.total_cmp(&other.0);
        by_fit.then((other.1, other.2).cmp(&(one.1, one.2)))
    });
    Ok(all)
}

fn which(given: &Given<'_>) -> Result<Answer, Problem> {
    let negative = negative(given)?;
    let placed = placed(given)?;
    let range = negative.range();
    let channel = given.choice("channel")?.and_then(Channel::worded);
    let channel = channel.unwrap_or(Channel::Visual);
    let all = candidates(given, range, channel)?;
    let figure = Figure::new((), Grounds::own("the densities as typed"))
        .step(
            Step::new("density range", Amount::number(range, "", 2))
                .working(format!("{:.2} - {:.2}", negative.dense, negative.thin)),
        )
        .within("papers, solutions and lights like those the scales were found with");
    let mut answer = Answer::of(figure, |()| {
        vec![Line::new("density range", Amount::number(range, "", 2))]
    });
    for one in all.iter().filter(|it| it.verdict == Verdict::Fits) {
        let told = match setting(one.process, range)? {
            Some(setting) => format!("fits; {setting}"),
            None => "fits".to_owned(),
        };
        answer = answer.result(Line::new(one.name(), Amount::words(told)).on(one.grounds()));
    }
    if !all.iter().any(|it| it.verdict == Verdict::Fits) {
        answer = answer.remark(
            Concern::Beyond,
            "no scale that is told takes this range as it is: the nearest stand first in the table",
        );
    }
    if let Some(nearest) = all.first() {
        let placing = place(negative, nearest.nearest(range), placed)?;
        answer = lost(answer, &nearest.name(), &placing);
    }
    answer = in_its_light(answer, &all, channel);
    let drawn = drawn(&all, negative, placed)?;
    Ok(answer.table(table(&all, range)).chart(drawn))
}

/// The setting that gives a range, by the first table of a process that holds it.
fn setting(process: &Process, range: f64) -> Result<Option<String>, Problem> {
    for contrast in process.contrasts() {
        let Some(table) = readable(contrast) else {
            continue;
        };
        if let Some(at) = table.setting_for(range) {
            let at = Amount::measured(at, "").to_string();
            let unit = &contrast.unit;
            let space = if unit.is_empty() { "" } else { " " };
            return Ok(Some(format!("{}: {at}{space}{unit}", contrast.label)));
        }
    }
    Ok(None)
}

fn lost(mut answer: Answer, name: &str, placing: &Placing) -> Answer {
    if placing.lost_in_black > 0.005 {
        answer = answer.remark(
            Concern::Warning,
            format!(
                "on {name} the thinnest {:.2} of the negative drown in black",
                placing.lost_in_black
            ),
        );
    }
    if placing.lost_in_white > 0.005 {
        answer = answer.remark(
            Concern::Warning,
            format!(
                "on {name} the densest {:.2} of the negative are lost in white",
                placing.lost_in_white
            ),
        );
    }
    answer
}

/// The same answer, warned where a process sees another light than the densities were read in.
fn in_its_light(answer: Answer, all: &[Candidate<'_>], channel: Channel) -> Answer {
    let ultraviolet = all.iter().any(|it| it.process.light == Light::Ultraviolet);
    let silver = all.iter().any(|it| it.process.light != Light::Ultraviolet);
    let mut answer = answer;
    if ultraviolet && channel != Channel::Ultraviolet {
        answer = answer.remark(
            Concern::Note,
            format!(
                "read in {channel} light: coated papers print by ultraviolet, in which a stained negative has \
                 more range than this"
            ),
        );
    }
    if silver && channel == Channel::Ultraviolet {
        answer = answer.remark(
            Concern::Note,
            "read in ultraviolet light: silver papers print by blue, in which a stained negative has less range \
             than this",
        );
    }
    answer
}

fn table(all: &[Candidate<'_>], range: f64) -> Table {
    let row = |one: &Candidate<'_>| {
        let setting = setting(one.process, range).ok().flatten();
        let setting = setting.unwrap_or_else(|| "-".to_owned());
        vec![
            Amount::words(one.name()),
            Amount::words(one.scale.to_string()),
            Amount::words(one.said()),
            Amount::words(setting),
            Amount::words(one.scale.standing.word()),
        ]
    };
    Table {
        heads: ["process", "scale", "this negative", "setting", "standing"]
            .map(Into::into)
            .to_vec(),
        rows: all.iter().map(row).collect(),
    }
}

/// The first few processes as straight lines from black to white.
fn drawn(all: &[Candidate<'_>], negative: Negative, placed: Placed) -> Result<Chart, Problem> {
    let mut lines = Vec::new();
    for one in all.iter().take(MOST_DRAWN) {
        let placing = place(negative, one.nearest(negative.range()), placed)?;
        lines.push(Series {
            name: one.name().into(),
            points: along(negative, |density| Some(placing.tone(density))),
        });
    }
    Ok(chart("print tone, 0 black to 100 white", lines, negative))
}

/// Points from somewhat below the thinnest to somewhat above the densest part.
fn along(negative: Negative, at: impl Fn(f64) -> Option<f64>) -> Vec<(f64, f64)> {
    let beyond = 0.1 * negative.range();
    let (from, to) = (negative.thin - beyond, negative.dense + beyond);
    let each = (0..=DRAWN).map(|step| from + (to - from) * f64::from(step) / f64::from(DRAWN));
    each.filter_map(|x| Some((x, at(x)?))).collect()
}

fn chart(y: &'static str, series: Vec<Series>, negative: Negative) -> Chart {
    let mark = |x, name: &'static str| Mark {
        x,
        name: name.into(),
    };
    Chart {
        x: "negative density".into(),
        y: y.into(),
        series,
        marks: vec![
            mark(negative.thin, "shadows"),
            mark(negative.dense, "highlights"),
        ],
    }
}

fn tones(given: &Given<'_>) -> Result<Answer, Problem> {
    let negative = negative(given)?;
    let placed = placed(given)?;
    match (curve(given)?, given.number("scale")?) {
        (Some(curve), None) => by_curve(negative, placed, &curve),
        (None, Some(scale)) => by_scale(negative, placed, scale),
        (None, None) => Err(given.missing("curve")),
        (Some(_), Some(_)) => Err(given.problem(
            "scale",
            "the curve has a scale of its own: give the curve or the scale",
        )),
    }
}

fn curve(given: &Given<'_>) -> Result<Option<PaperCurve>, Problem> {
    let Some(text) = given.text("curve") else {
        return Ok(None);
    };
    let wrong = |says: String| given.problem("curve", says);
    let pairs = text.split([',', ';', '\n']).map(str::trim);
    let readings: Result<Vec<(f64, f64)>, Problem> = pairs
        .filter(|pair| !pair.is_empty())
        .map(|pair| {
            let mut both = pair.split_whitespace().map(crate::craft::number);
            match (both.next(), both.next(), both.next()) {
                (Some(Ok(through)), Some(Ok(print)), None) => Ok((through, print)),
                _ => Err(wrong(format!(
                    "\"{pair}\" is no reading: write the density printed through and that of the print, \
                     0.50 1.20"
                ))),
            }
        })
        .collect();
    PaperCurve::new(&readings?)
        .map(Some)
        .map_err(|why| wrong(why.to_string()))
}

/// The lines that both ways have in common.
fn placing_lines(placing: &Placing, scale: f64) -> Vec<Line> {
    let line = |name: &'static str, value| Line::new(name, Amount::number(value, "", 2));
    vec![
        line("exposure scale", scale),
        line("black up to", placing.black),
        line("white from", placing.white),
        line("lost in black", placing.lost_in_black),
        line("lost in white", placing.lost_in_white),
    ]
}

fn range_step(negative: Negative, scale: f64) -> Step {
    Step::new(
        "negative less scale",
        Amount::number(negative.range() - scale, "", 2),
    )
    .working(format!(
        "({:.2} - {:.2}) - {scale:.2}",
        negative.dense, negative.thin
    ))
}

fn by_scale(negative: Negative, placed: Placed, scale: f64) -> Result<Answer, Problem> {
    let placing = place(negative, scale, placed)?;
    let figure =
        Figure::new((), Grounds::own("the scale as typed")).step(range_step(negative, scale));
    let answer = Answer::of(figure, |()| placing_lines(&placing, scale));
    let line = Series {
        name: "straight".into(),
        points: along(negative, |density| Some(placing.tone(density))),
    };
    Ok(answer
        .remark(
            Concern::Note,
            "a straight line is a sketch: it shows where black and white begin, and papers bend at both ends; \
             readings of your own tablet draw the curve",
        )
        .chart(chart("print tone, 0 black to 100 white", vec![line], negative)))
}

fn by_curve(negative: Negative, placed: Placed, curve: &PaperCurve) -> Result<Answer, Problem> {
    let scale = curve.scale();
    let placing = place(negative, scale, placed)?;
    let figure = Figure::new((), Grounds::own("the curve as typed"))
        .step(range_step(negative, scale))
        .within("the paper, light and process of the curve; the ends are 90 % of black and 0.04 above white");
    let mut answer = Answer::of(figure, |()| placing_lines(&placing, scale));
    for (name, density) in [
        ("print of the shadows", negative.thin),
        ("print of the highlights", negative.dense),
    ] {
        answer = match curve.print(density, placing.black) {
            Some(print) => answer.result(Line::new(name, Amount::number(print, "", 2))),
            None => answer.remark(
                Concern::Beyond,
                format!("no {name}: it lies beyond the readings of the curve"),
            ),
        };
    }
    let drawn = Series {
        name: "print".into(),
        points: along(negative, |density| curve.print(density, placing.black)),
    };
    let shift = placing.black - curve.shadow;
    let read = Series {
        name: "readings".into(),
        points: curve
            .points()
            .iter()
            .map(|(x, y)| (x + shift, *y))
            .collect(),
    };
    Ok(answer.chart(chart("print density", vec![read, drawn], negative)))
}
