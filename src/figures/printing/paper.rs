//! Paper: grade and filter for a negative, speed and range, and what another filter does to the time.

use super::super::densities::CHANNEL;
use super::super::{Answer, Ask, Book, Chapter, Given, Line, Problem, Recipe, Table};
use crate::craft::printing::enlarging::Change;
use crate::craft::printing::paper::{Head, filter_said, filters, range, range_of, speed, wanted};
use crate::craft::{Amount, Concern, Density, Grounds, Standing};
use crate::reference::grade::filter_at;
use crate::reference::{FilteredPaper, Grade};

/// Log exposure of one stop.
const STOP: f64 = std::f64::consts::LOG10_2;

/// The condenser factor if nothing is said of it.
const USUAL_Q: f64 = 1.3;

/// Papers under filters, as several figures ask.
pub(super) const FILTERED: Ask = Ask::typed(
    "paper",
    "paper",
    "a paper of which filters are told, MGIV RC; or a matched set of filters, multigrade",
);

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "paper-grade",
        title: "grade and filter for a negative",
        chapter: Chapter::Printing,
        about: "The log exposure range of paper that a negative wants is its density range under a \
                diffuser, and more under a condenser. From it follow ISO(R), the grade of the old scale, \
                and on a paper whose filters are told the filter between two rows. Filters differ from \
                what is printed on them: a table of your own for your paper goes first.",
        asks: &[
            Ask::typed(
                "thin",
                "shadows",
                "density where there is the first detail, 0.35",
            ),
            Ask::typed(
                "dense",
                "highlights",
                "density of the brightest tone with detail, 1.40",
            ),
            Ask::typed("range", "or range", "the density range itself, 1.05"),
            Ask::typed(
                "head",
                "head",
                "diffuser for cold light and colour heads, or condenser, diffuser",
            )
            .from(Book::Choice(&["diffuser", "condenser"])),
            Ask::typed(
                "factor",
                "its factor",
                "how much a condenser adds to contrast, 1.3",
            ),
            FILTERED,
            CHANNEL,
        ],
        example: &[("thin", "0.35"), ("dense", "1.40"), ("paper", "MGIV RC")],
        answer: grade,
    },
    Recipe {
        word: "paper-speed",
        title: "speed and range of a paper from a strip",
        chapter: Chapter::Printing,
        about: "From the densities of a strip on paper: the exposure that gives 0.60 above the paper makes \
                ISO(P), and the two ends, 0.04 above the paper and nine tenths of the deepest black, make \
                the log exposure range and ISO(R). Logs are to base ten; lux seconds are light times time \
                at the paper.",
        asks: &[
            Ask::typed(
                "light",
                "light end",
                "log exposure at 0.04 above the paper, -1.20",
            ),
            Ask::typed(
                "dark",
                "dark end",
                "log exposure at 90 % of the deepest black, -0.13",
            ),
            Ask::typed(
                "middle",
                "middle",
                "lux seconds that give 0.60 above the paper, 5",
            ),
        ],
        example: &[("light", "-1.20"), ("dark", "-0.13"), ("middle", "5")],
        answer: paper_speed,
    },
];

fn negative_range(given: &Given<'_>) -> Result<f64, Problem> {
    let thin = given.may("thin", Density::parse)?;
    let dense = given.may("dense", Density::parse)?;
    match (given.number("range")?, thin, dense) {
        (Some(range), None, None) => Ok(range),
        (None, Some(thin), Some(dense)) => Ok(range_of(thin, dense)?),
        (Some(_), _, _) => Err(given.problem(
            "range",
            "the range and the two densities each settle the other: give one or the other",
        )),
        (None, None, Some(_)) => Err(given.missing("thin")),
        (None, Some(_), None) => Err(given.missing("dense")),
        (None, None, None) => Err(given.missing("range")),
    }
}

fn grade(given: &Given<'_>) -> Result<Answer, Problem> {
    let negative = negative_range(given)?;
    let typed = given.number("factor")?;
    let head = match (given.choice("head")?, typed) {
        (Some("condenser"), q) => Head::Condenser(q.unwrap_or(USUAL_Q)),
        (_, Some(_)) => {
            return Err(given.problem(
                "factor",
                "a diffuser adds nothing: the factor is a condenser's",
            ));
        }
        _ => Head::Diffuser,
    };
    let figure = wanted(negative, head)?;
    let ler = figure.value;
    let mut answer = Answer::of(figure, |ler| {
        vec![
            Line::new("log exposure range", Amount::number(ler, "", 2)),
            Line::new("ISO(R) about", Amount::number(100.0 * ler, "", 0)),
            Line::new("in stops", Amount::number(ler / STOP, "stops", 1)),
        ]
    });
    answer = match of_grade(given, ler) {
        Some(grade) => answer.result(
            Line::new("grade", Amount::number(f64::from(grade.grade), "", 0)).on(grade.grounds.clone()),
        ),
        None => answer.remark(
            Concern::Beyond,
            "no grade has that range: grades go from 0.35 to 1.70, so the negative is for another paper or \
             process",
        ),
    };
    if let Some(word) = given.choice("channel")?.filter(|word| *word != "visual") {
        answer = answer.remark(
            Concern::Note,
            format!(
                "read in {word} light: silver paper sees blue, and green on variable contrast paper, so a \
                 stained negative prints by its blue density"
            ),
        );
    }
    match given.text("paper") {
        Some(_) => with_filters(given, answer, ler),
        None => Ok(answer),
    }
}

fn of_grade<'a>(given: &Given<'a>, ler: f64) -> Option<&'a Grade> {
    let grades = given.desk().reference.grades();
    // A bound belongs to the softer of its two grades, which comes first.
    let mut fitting = grades.iter().filter(|it| it.from <= ler && ler <= it.to);
    fitting.next()
}

fn unknown(given: &Given<'_>) -> Problem {
    let reference = given.desk().reference;
    let papers = reference
        .filtered_papers()
        .iter()
        .map(|it| it.name.as_str());
    let sets = reference
        .matched_filters()
        .iter()
        .map(|it| it.name.as_str());
    let known: Vec<&str> = papers.chain(sets).collect();
    given.problem(
        "paper",
        format!(
            "no filters are told of that paper or set, or it could be more than one: {}; your own go into \
             paper_grades.toml",
            known.join(", ")
        ),
    )
}

fn with_filters(given: &Given<'_>, mut answer: Answer, ler: f64) -> Result<Answer, Problem> {
    let typed = given.text("paper").unwrap_or_default();
    let paper = given
        .desk()
        .reference
        .filtered_paper(typed)
        .ok_or_else(|| unknown(given))?;
    let rows: Vec<(f64, f64)> = paper
        .filters
        .iter()
        .map(|row| (row.at, row.range))
        .collect();
    let table = filters(&rows, paper.ranges.clone())?;
    answer = match table.find_setting(ler, "") {
        Ok(figure) => {
            answer.steps.extend(figure.steps);
            answer.remarks.extend(figure.remarks);
            let said = filter_said(figure.value);
            answer.result(Line::new("filter", Amount::words(said)).on(paper.ranges.clone()))
        }
        Err(why) => answer.remark(
            Concern::Beyond,
            format!("no filter on {}: {why}", paper.name),
        ),
    };
    Ok(answer.table(of_paper(paper, ler)))
}

/// The filters of a paper, and how far each is from what is wanted.
fn of_paper(paper: &FilteredPaper, ler: f64) -> Table {
    let rows = paper.filters.iter().map(|row| {
        let range = row.range / 100.0;
        vec![
            Amount::words(row.filter.clone()),
            Amount::number(row.range, "", 0),
            Amount::number(range, "", 2),
            Amount::number(range - ler, "", 2),
            row.speed
                .map_or(Amount::words("-"), |speed| Amount::number(speed, "", 0)),
        ]
    });
    Table {
        heads: ["filter", "ISO(R)", "range", "against wanted", "ISO(P)"]
            .map(Into::into)
            .to_vec(),
        rows: rows.collect(),
    }
}

fn paper_speed(given: &Given<'_>) -> Result<Answer, Problem> {
    let ends = super::enlarger::both(given, ("light", "dark"), crate::craft::number)?;
    let middle = given.may("middle", |text| {
        super::with_unit(text, &["lx s", "lxs", "lux s"])
    })?;
    let mut answer: Option<Answer> = None;
    if let Some((light, dark)) = ends {
        let figure = range(light, dark)?;
        let ler = figure.value.0;
        let found = Answer::of(figure, |(ler, iso)| {
            vec![
                Line::new("log exposure range", Amount::number(ler, "", 2)),
                Line::new("ISO(R)", Amount::number(iso, "", 0)),
                Line::new("in stops", Amount::number(ler / STOP, "stops", 1)),
            ]
        });
        answer = Some(match of_grade(given, ler) {
            Some(grade) => found.result(
                Line::new("grade", Amount::number(f64::from(grade.grade), "", 0))
                    .on(grade.grounds.clone()),
            ),
            None => found,
        });
    }
    if let Some(exposure) = middle {
        let figure = speed(exposure)?;
        let line = Line::new("ISO(P) before rounding", Amount::measured(figure.value, ""))
            .on(figure.grounds.clone());
        answer = Some(match answer {
            Some(mut answer) => {
                answer.steps.extend(figure.steps);
                answer.result(line)
            }
            None => Answer::of(figure, |_| vec![line]),
        });
    }
    answer.ok_or_else(|| given.missing("light"))
}

/// Another filter as a change of the time.
pub(super) struct FilterChange {
    pub(super) change: Change,
    pub(super) remark: Option<String>,
    pub(super) grounds: Grounds,
}

/// What the filters that were typed do to the time: by the speeds of a paper, or by a matched set.
pub(super) fn filter_change(given: &Given<'_>) -> Result<Option<FilterChange>, Problem> {
    let read = |key: &'static str| -> Result<Option<f64>, Problem> {
        let Some(text) = given.text(key) else {
            return Ok(None);
        };
        let at = filter_at(text);
        at.map(Some)
            .ok_or_else(|| given.problem(key, "write a filter from 00 to 5, such as 2 or 3.5"))
    };
    let (from, to) = match (read("filter")?, read("to_filter")?) {
        (None, None) => return Ok(None),
        (Some(from), Some(to)) => (from, to),
        (None, Some(_)) => return Err(given.missing("filter")),
        (Some(_), None) => return Err(given.missing("to_filter")),
    };
    let reference = given.desk().reference;
    let typed = given.text("paper");
    if let Some(paper) = typed.and_then(|typed| reference.filtered_paper(typed)) {
        let of = |at: f64, key: &'static str| {
            let row = paper.filters.iter().find(|row| (row.at - at).abs() < 1e-9);
            row.and_then(|row| row.speed).ok_or_else(|| {
                given.problem(
                    key,
                    format!(
                        "the speed of {} under that filter is not told: take a whole filter, or type both \
                         speeds",
                        paper.name
                    ),
                )
            })
        };
        let (from, to) = (of(from, "filter")?, of(to, "to_filter")?);
        return Ok(Some(FilterChange {
            change: Change::Speed { from, to },
            remark: None,
            grounds: paper.speeds.clone(),
        }));
    }
    let sets = reference.matched_filters();
    let set = match typed {
        Some(typed) => sets
            .iter()
            .find(|it| it.id == typed || it.name.to_lowercase().contains(&typed.to_lowercase())),
        None => sets.first(),
    };
    let set = set.ok_or_else(|| unknown(given))?;
    let factor = |at: f64| {
        if at >= set.from - 1e-9 {
            set.factor
        } else {
            1.0
        }
    };
    let mut remark = format!(
        "by the set {}: a middle tone keeps its time from filter to filter, highlights and shadows move",
        set.name
    );
    if !set.note.is_empty() {
        remark.push_str(". ");
        remark.push_str(&set.note);
    }
    let standing = if typed.is_none() {
        set.grounds.standing.min(Standing::Usual)
    } else {
        set.grounds.standing
    };
    Ok(Some(FilterChange {
        change: Change::Filter {
            from: factor(from),
            to: factor(to),
        },
        remark: Some(remark),
        grounds: Grounds::new(standing, set.grounds.source.clone()),
    }))
}
