//! `curves`: strips of steps beside each other, in words, as a document, as a picture and as a table.

use std::path::{Path, PathBuf};

use clap::{Arg, ArgMatches, Command};
use serde_json::{Value, json};

use super::answer::Answer;
use super::open::{Desk, Open};
use super::reckon;
use super::table::Table;
use super::trouble::Trouble;
use crate::export::curves::{
    NamedStrip, Picture, View, control_csv, control_picture, curve_picture, family_csv,
    family_picture, overlay, readings_csv, svg,
};
use crate::export::plot::{Pens, plot};
use crate::export::{FileError, write_new_file};
use crate::figures::densities::{Aims, family as family_answer, strip as strip_answer};
use crate::figures::{self, Chart};
use crate::logbook::strips::{KeptStrip, Stock, controlled, family, limits_of};
use crate::logbook::{Names, tidy_reference};
use crate::store::rows::StripRow;

/// Cells of a line, and lines of the field of a chart.
const PLOT: (usize, usize) = (78, 16);
/// Points of a curve that is drawn with signs.
const POINTS: usize = 16;

/// The flags that say what a family is asked, with what they mean.
const AIMS: [(&str, &str); 5] = [
    (
        "wanted",
        "With the family: one gradient whose time is wanted, 0.58",
    ),
    (
        "range",
        "With the family: the density range the print wants, 1.05",
    ),
    (
        "subject",
        "With the family: log luminance range of a subject that gets N, 2.20",
    ),
    ("flare", "With the family: log range that flare takes, 0.40"),
    (
        "read-to",
        "With the family: how far a single density may be off, 0.01",
    ),
];

/// `curves`
pub(super) fn command() -> Command {
    let command = Command::new("curves")
        .about("Show strips of steps beside each other: curves, families, control strips")
        .long_about(
            "Show strips of steps beside each other. Without a reference all strips are listed; with some, \
             their curves are drawn over each other. --view family takes the strips of one film and \
             developer and tells the times for N-2 to N+2; --view control takes a series of control strips, \
             by its name or by a strip of it, and tells whether it lies within its limits. Strips are read \
             with \"notchbook log read-strip\".",
        )
        .arg(
            Arg::new("strips")
                .value_name("STRIP")
                .num_args(0..)
                .help("Strips, such as N-0008 N-0009; or the name of a control series"),
        )
        .arg(
            Arg::new("view")
                .long("view")
                .value_name("VIEW")
                .value_parser(View::WORDS.to_vec())
                .help("What is shown [usually curve; control where a series is named]"),
        )
        .arg(file("svg", "Write what is shown as a picture, to a new file"))
        .arg(file("csv", "Write what is shown as a table, to a new file"));
    AIMS.iter().fold(command, |command, (flag, help)| {
        command.arg(
            Arg::new(*flag)
                .long(*flag)
                .value_name("NUMBER")
                .value_parser(clap::value_parser!(f64))
                .help(*help),
        )
    })
}

fn file(name: &'static str, help: &'static str) -> Arg {
    Arg::new(name)
        .long(name)
        .value_name("FILE")
        .value_parser(clap::value_parser!(PathBuf))
        .help(help)
}

/// What was asked for.
struct Asked<'m> {
    view: View,
    svg: Option<&'m PathBuf>,
    csv: Option<&'m PathBuf>,
    matches: &'m ArgMatches,
}

/// What is shown: its words, its document, and what goes into files.
struct Shown {
    words: String,
    document: serde_json::Map<String, Value>,
    picture: Picture,
    table: Vec<u8>,
}

/// Shows strips.
pub(super) fn run(desk: &mut Desk<'_>, matches: &ArgMatches) -> Result<Answer, Trouble> {
    let typed: Vec<&str> = matches
        .get_many::<String>("strips")
        .map(|all| all.map(String::as_str).collect())
        .unwrap_or_default();
    let view = matches.get_one::<String>("view");
    let view = view.and_then(|word| View::worded(word));
    desk.with_logbook(|open| {
        let rows = open.store.strips()?;
        let (strips, series) = named(&rows, &typed)?;
        let usual = if series.is_some() {
            View::Control
        } else {
            View::Curve
        };
        let asked = Asked {
            view: view.unwrap_or(usual),
            svg: matches.get_one("svg"),
            csv: matches.get_one("csv"),
            matches,
        };
        let nothing_named = strips.is_empty() && series.is_none();
        let to_files = asked.svg.is_some() || asked.csv.is_some();
        if nothing_named && asked.view == View::Curve && !to_files {
            return listed(&rows);
        }
        let shown = match asked.view {
            View::Curve => curves(&if nothing_named {
                rows.iter().collect()
            } else {
                strips
            })?,
            View::Family => families(&rows, &strips, &asked)?,
            View::Control => series_of(&open, &rows, &strips, series)?,
        };
        written(shown, &asked)
    })
}

/// The strips that were named, or the series.
fn named<'r>(
    rows: &'r [StripRow],
    typed: &[&str],
) -> Result<(Vec<&'r StripRow>, Option<String>), Trouble> {
    let mut strips: Vec<&StripRow> = Vec::new();
    let mut others = Vec::new();
    for word in typed {
        let reference = tidy_reference(word);
        match rows.iter().find(|row| row.kept.reference == reference) {
            Some(row) if strips.iter().any(|other| other.thing == row.thing) => {}
            Some(row) => strips.push(row),
            None => others.push(*word),
        }
    }
    if others.is_empty() {
        return Ok((strips, None));
    }
    let series = others.join(" ");
    if strips.is_empty() && rows.iter().any(|row| row.kept.is_of_series(&series)) {
        return Ok((strips, Some(series)));
    }
    Err(Trouble::NotFound(format!(
        "there is no strip and no control series called \"{series}\": \"notchbook curves\" lists them"
    )))
}

/// A strip as a script finds it.
fn document(row: &StripRow) -> Value {
    let strip = &row.kept.strip;
    let whole = row.kept.whole().ok();
    let point = whole.as_ref().and_then(|whole| whole.speed_point());
    json!({
        "reference": row.kept.reference,
        "read": row.kept.at.to_rfc3339(),
        "film": strip.film,
        "developer": strip.developer,
        "dilution": strip.dilution.map(|dilution| dilution.to_string()),
        "seconds": strip.time.map(|time| time.value()),
        "temperature": strip.temperature.map(|it| it.value()),
        "series": strip.series,
        "sheet": row.sheet,
        "run": row.run,
        "bath": row.bath,
        "channel": strip.channel.map(|channel| channel.word()),
        "log_exposure_without_tablet": strip.bare,
        "readings": strip.readings,
        "base_fog": whole.as_ref().map(|whole| whole.base_fog),
        "average_gradient": whole.as_ref().and_then(|whole| whole.average_gradient()),
        "effective_speed": point.and_then(|point| point.speed),
        "as_iso": point.map(|point| point.as_iso),
        "range": whole.as_ref().map(|whole| whole.range),
    })
}

/// Every strip, a line each.
fn listed(rows: &[StripRow]) -> Result<Answer, Trouble> {
    let mut answer = Answer::default();
    if rows.is_empty() {
        answer.line("no strips yet: notchbook log read-strip --help");
    } else {
        let heads = [
            "strip",
            "read",
            "film",
            "developer",
            "time",
            "series",
            "gradient",
            "speed",
            "fog",
        ];
        let mut table = Table::new(&heads);
        for row in rows {
            let kept = &row.kept;
            let (gradient, speed, fog) = match NamedStrip::of(kept) {
                Ok(strip) => {
                    let (gradient, speed) = strip.in_short();
                    (gradient, speed, format!("{:.2}", strip.whole.base_fog))
                }
                Err(_) => ("no curve".to_owned(), String::new(), String::new()),
            };
            table.row(vec![
                kept.reference.clone(),
                kept.at.format("%Y-%m-%d").to_string(),
                kept.film().to_owned(),
                kept.developer(),
                kept.strip.time.map(|time| time.clock()).unwrap_or_default(),
                kept.strip.series.clone().unwrap_or_default(),
                gradient,
                speed,
                fog,
            ]);
        }
        answer.words = table.lines();
    }
    let rows: Vec<Value> = rows.iter().map(document).collect();
    Ok(answer.with("strips", rows))
}

fn impossible(why: impl ToString) -> Trouble {
    Trouble::Impossible(why.to_string())
}

fn drawn(chart: &Chart) -> String {
    let lines = plot(chart, PLOT.0, PLOT.1, Pens::Fine).into_iter();
    let lines = lines.map(|line| line.into_iter().map(|(text, _)| text).collect::<String>());
    lines.map(|line| line + "\n").collect()
}

fn as_json(value: &impl serde::Serialize) -> Result<Value, Trouble> {
    serde_json::to_value(value).map_err(|error| Trouble::Other(error.to_string()))
}

/// A table in memory: it is written to a file as a whole or not at all.
fn table_of(
    fill: impl FnOnce(&mut dyn std::io::Write) -> Result<(), csv::Error>,
) -> Result<Vec<u8>, Trouble> {
    let mut bytes = Vec::new();
    fill(&mut bytes).map_err(|why| Trouble::Other(why.to_string()))?;
    Ok(bytes)
}

/// Curves over each other.
fn curves(rows: &[&StripRow]) -> Result<Shown, Trouble> {
    let mut strips = Vec::new();
    let mut documents = Vec::new();
    let mut words = String::new();
    for row in rows {
        let strip = NamedStrip::of(&row.kept)
            .map_err(|why| impossible(format!("{}: {why}", row.kept.reference)))?;
        let mut told = strip_answer(&strip.curve, &strip.tablet);
        // All curves are drawn in one chart.
        told.chart = None;
        words.push_str(&format!(
            "{}: {}, {}\n{}\n",
            strip.name,
            row.kept.film(),
            row.kept.developer(),
            reckon::in_words(&told)
        ));
        let mut one = document(row);
        if let Value::Object(members) = &mut one {
            members.insert("answer".to_owned(), as_json(&told)?);
        }
        documents.push(one);
        strips.push(strip);
    }
    if strips.is_empty() {
        return Err(Trouble::NotFound("no strip was read yet".to_owned()));
    }
    let chart = overlay(&strips, POINTS, None);
    words.push_str(&drawn(&chart));
    let mut document = serde_json::Map::new();
    document.insert("strips".to_owned(), documents.into());
    document.insert(
        "chart".to_owned(),
        as_json(&overlay(&strips, usize::MAX, None))?,
    );
    Ok(Shown {
        words,
        document,
        picture: curve_picture(&strips),
        table: table_of(|out| readings_csv(&strips, out))?,
    })
}

/// The family of the strips that were named; of one, all of its film and developer.
fn families(rows: &[StripRow], named: &[&StripRow], asked: &Asked<'_>) -> Result<Shown, Trouble> {
    let free = |row: &&StripRow| row.kept.strip.series.is_none();
    let chosen: Vec<KeptStrip> = match named {
        [] | [_] => {
            let stocks: Vec<Stock> = match named {
                [one] => vec![one.kept.stock()],
                _ => {
                    let mut stocks: Vec<Stock> = rows
                        .iter()
                        .filter(free)
                        .map(|row| row.kept.stock())
                        .collect();
                    stocks.sort();
                    stocks.dedup();
                    stocks
                }
            };
            let [stock] = stocks.as_slice() else {
                let says = if stocks.is_empty() {
                    "no strip was read yet that is no control strip"
                } else {
                    "strips of several films or developers were read: name one of those that are meant"
                };
                return Err(Trouble::NotFound(says.to_owned()));
            };
            let alike = rows.iter().filter(|row| row.kept.stock() == *stock);
            alike.map(|row| row.kept.clone()).collect()
        }
        several => {
            let first = several.first().map(|row| row.kept.stock());
            if let Some(other) = several.iter().find(|row| Some(row.kept.stock()) != first) {
                return Err(impossible(format!(
                    "{} is of another film, developer or channel: a family is of one",
                    other.kept.reference
                )));
            }
            several.iter().map(|row| row.kept.clone()).collect()
        }
    };
    let number = |name: &str| asked.matches.get_one::<f64>(name).copied();
    let usual = Aims::default();
    let aims = Aims {
        wanted: number("wanted"),
        range: number("range"),
        subject: number("subject"),
        flare: number("flare"),
        read_to: number("read-to").unwrap_or(usual.read_to),
    };
    let found = family(&chosen).map_err(impossible)?;
    let mut answer = family_answer(&found.family, &found.tablet, &aims).map_err(impossible)?;
    answer.remarks.splice(0..0, found.remarks.iter().cloned());
    let of: Vec<&str> = found
        .strips
        .iter()
        .map(|kept| kept.reference.as_str())
        .collect();
    let mut document = serde_json::Map::new();
    document.insert("strips".to_owned(), of.clone().into());
    document.insert("answer".to_owned(), as_json(&answer)?);
    let heading = found
        .strips
        .first()
        .map(|kept| format!("{}, {}: {}\n", kept.film(), kept.developer(), of.join(", ")));
    Ok(Shown {
        words: heading.unwrap_or_default() + &reckon::in_words(&answer),
        document,
        picture: family_picture(&found, &answer),
        table: table_of(|out| family_csv(&found, out))?,
    })
}

/// A series of control strips against its limits.
fn series_of(
    open: &Open<'_>,
    rows: &[StripRow],
    named: &[&StripRow],
    series: Option<String>,
) -> Result<Shown, Trouble> {
    let all = || rows.iter().filter_map(|row| row.kept.strip.series.clone());
    let only = || {
        let mut all: Vec<String> = all().collect();
        all.sort();
        all.dedup();
        match all.as_slice() {
            [only] => Some(only.clone()),
            _ => None,
        }
    };
    let of_strip = named.first().map(|row| row.kept.strip.series.clone());
    let series = match (series, of_strip) {
        (Some(series), _) => Some(series),
        (None, Some(own)) => own,
        (None, None) => only(),
    };
    let series = series.ok_or_else(|| {
        let says = match (named.first(), all().next()) {
            (Some(row), _) => format!(
                "{} is no control strip: it names no series",
                row.kept.reference
            ),
            (None, None) => "no control strip was read yet".to_owned(),
            (None, Some(_)) => "there are several control series: name one".to_owned(),
        };
        Trouble::NotFound(says)
    })?;
    let kept: Vec<KeptStrip> = rows.iter().map(|row| row.kept.clone()).collect();
    let set = limits_of(&open.store.findings(), &series);
    let found = controlled(&kept, &series, set.as_ref()).map_err(impossible)?;
    let measures: Vec<Value> = found
        .measures
        .iter()
        .map(|measure| {
            let grounds = measure.limits.as_ref().ok().map(|limits| &limits.grounds);
            json!({
                "name": measure.name,
                "says": measure.says,
                "rule": measure.rule_in_words(),
                "standing": grounds.map(|grounds| grounds.standing.word()),
                "source": grounds.map(|grounds| grounds.source.as_ref()),
                "limits": measure.told_limits(),
                "values": measure.told_values(),
                "outside": (0..found.strips.len()).map(|at| measure.outside(at)).collect::<Vec<_>>(),
            })
        })
        .collect();
    let mut words = format!("control strips: {series}\n");
    for measure in &found.measures {
        words.push_str(&format!(
            "{}\n  limits: {}\n",
            measure.says,
            measure.rule_in_words()
        ));
    }
    words.push('\n');
    for chart in found.charts() {
        words.push_str(&drawn(&chart));
        words.push('\n');
    }
    let mut answer: figures::Answer = found.answer();
    answer.chart = None;
    words.push_str(&reckon::in_words(&answer));
    let mut document = serde_json::Map::new();
    document.insert("series".to_owned(), series.clone().into());
    document.insert("measures".to_owned(), measures.into());
    document.insert("answer".to_owned(), as_json(&answer)?);
    document.insert("charts".to_owned(), as_json(&found.charts())?);
    Ok(Shown {
        words,
        document,
        picture: control_picture(&series, &found),
        table: table_of(|out| control_csv(&found, out))?,
    })
}

/// The answer, and the files that were asked for.
fn written(shown: Shown, asked: &Asked<'_>) -> Result<Answer, Trouble> {
    let mut answer = Answer::said(shown.words).with("view", asked.view.word());
    answer.document.extend(shown.document);
    if let Some(path) = asked.svg {
        let picture = svg(&shown.picture).map_err(impossible)?;
        write(path, picture.as_bytes())?;
        answer.line(format!("the picture is written to {}", path.display()));
        answer = answer.with("svg", path.display().to_string());
    }
    if let Some(path) = asked.csv {
        write(path, &shown.table)?;
        answer.line(format!("the table is written to {}", path.display()));
        answer = answer.with("csv", path.display().to_string());
    }
    Ok(answer)
}

fn write(path: &Path, bytes: &[u8]) -> Result<(), Trouble> {
    write_new_file(path, false, |out| {
        out.write_all(bytes).map_err(|source| FileError::Write {
            path: path.to_owned(),
            source,
        })
    })
    .map_err(|why: FileError| Trouble::File(why.to_string()))
}
