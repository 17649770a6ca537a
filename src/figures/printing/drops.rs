//! A sensitizer counted out, and small additions moved to another strength.

use super::super::{Answer, Ask, Chapter, Given, Line, Problem, Recipe, Table};
use super::coating::DROPPER;
use super::contrast::{process, typed_table};
use super::{UNCALIBRATED, dropper, need, with_unit};
use crate::craft::printing::contrast::{Between, Contrasts};
use crate::craft::printing::dropper::lost_with_one_drop;
use crate::craft::printing::mixing::{Mix, Part, count_out, read_parts};
use crate::craft::printing::strength::moved;
use crate::craft::solutions::millilitres;
use crate::craft::{Amount, Concern, Grounds, Millilitres};

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "parts",
        title: "the parts of a sensitizer in drops",
        chapter: Chapter::Coating,
        about: "The solutions of a sensitizer by their shares, counted out in whole drops for a volume or \
                for so many drops in all. Whole drops bend the shares a little: the table says by how \
                much for each part, and, where you give the exposure scale of the plain and of the strong \
                iron solution, what that means in contrast. Count with the dropper of each solution.",
        asks: &[
            Ask::typed(
                "parts",
                "parts",
                "shares of each, A 3, B 4, metal 7; a dropper of its own behind @, metal 7 @22",
            ),
            Ask::typed(
                "process",
                "or process",
                "or a process whose recipe is taken, palladium",
            ),
            Ask::typed("recipe", "its recipe", "which of its recipes, brushed"),
            Ask::typed("volume", "volume", "how much sensitizer, 2 ml"),
            Ask::typed("drops", "or drops", "or how many drops in all, 40"),
            DROPPER,
            Ask::typed(
                "scales",
                "scales",
                "exposure scale by percent of B in the iron (A and B), 0 1.9, 50 1.6, 100 1.3",
            ),
            Ask::typed(
                "scale",
                "scale wanted",
                "exposure scale to be met by the share of B, instead of the shares of A and B, 1.5",
            ),
        ],
        example: &[
            ("parts", "A 3, B 4, metal 7"),
            ("drops", "40"),
            ("scales", "0 1.9, 100 1.3"),
        ],
        answer: parts,
    },
    Recipe {
        word: "addition",
        title: "a small addition in another strength",
        chapter: Chapter::Coating,
        about: "So many drops of an agent moved to a solution of another strength, and to another amount \
                of sensitizer. Drops times percent stay in proportion to the volume: one drop of 5 % is \
                two of 2.5 %. Take a weaker solution where less than a drop is wanted.",
        asks: &[
            Ask::typed("drops", "drops", "drops that were right, 2"),
            Ask::typed("strength", "strength", "percent of that solution, 5"),
            Ask::typed("to", "to strength", "percent of the solution at hand, 2.5"),
            Ask::typed("volume", "in", "sensitizer they were right for, 1.2 ml"),
            Ask::typed("to_volume", "to", "sensitizer they are wanted for, 2.4 ml"),
            Ask::typed(
                "agent",
                "agent",
                "what it is, for its cautions, sodium chloroplatinate",
            ),
        ],
        example: &[
            ("drops", "2"),
            ("strength", "5"),
            ("to", "2.5"),
            ("agent", "chloroplatinate"),
        ],
        answer: addition,
    },
];

fn parts(given: &Given<'_>) -> Result<Answer, Problem> {
    let (per_ml, calibrated) = dropper(given)?;
    let text = given.text("parts").unwrap_or_default();
    let (mut parts, told) = shares_of(given, per_ml)?;
    let table = typed_table(given, "scales", Between::Straight)?;
    let wanted = given.number("scale")?;
    let mut set = None;
    if let Some(wanted) = wanted {
        let table = table.as_ref().ok_or_else(|| given.missing("scales"))?;
        let figure = table.find_setting(wanted, "% of B")?;
        set = Some(figure.value);
        share_out(given, &mut parts, figure.value)?;
    }
    let volume = volume(given, &parts)?;
    let mut figure = count_out(&parts, volume)?;
    if let Some(told) = told {
        figure.grounds = Grounds::new(told.standing, told.source.clone());
        figure = figure.remark(Concern::Note, format!("{}: {told}", told.name));
    }
    let mix = figure.value.clone();
    let mut answer = Answer::of(figure, |mix| {
        let portions = mix.portions.iter();
        portions
            .map(|it| {
                let drops = Amount::number(f64::from(it.drops), "drops", 0);
                Line::new(it.name.clone(), drops)
            })
            .collect()
    });
    answer = answer
        .result(Line::new(
            "in all",
            Amount::number(f64::from(mix.drops()), "drops", 0),
        ))
        .result(Line::new("which are", millilitres(mix.ml)));
    if let Some(set) = set {
        answer = answer.result(Line::new("B in the iron", Amount::number(set, "%", 1)));
    }
    answer = judged(answer, &mix, table.as_ref());
    if !calibrated && !text.contains('@') {
        answer = answer.remark(Concern::Note, UNCALIBRATED);
    }
    Ok(answer.table(shares(&mix)))
}

/// The parts as typed, or those of a recipe of the process.
fn shares_of<'a>(
    given: &Given<'a>,
    per_ml: f64,
) -> Result<(Vec<Part>, Option<&'a crate::reference::Mix>), Problem> {
    let process = process(given)?;
    match (given.text("parts"), process) {
        (Some(_), Some(_)) => Err(given.problem(
            "process",
            "the parts and a recipe each settle the other: give one of them",
        )),
        (None, None) => Err(given.missing("parts")),
        (Some(text), None) => {
            let parts = read_parts(text, per_ml);
            let parts = parts.map_err(|why| given.problem("parts", why.to_string()))?;
            Ok((parts, None))
        }
        (None, Some(process)) => {
            let known: Vec<&str> = process.mixes().iter().map(|it| it.id.as_str()).collect();
            let found = match (given.text("recipe"), process.mixes()) {
                (Some(id), _) => process.mix(id),
                (None, [only]) => Some(only),
                (None, _) => None,
            };
            let mix = found.ok_or_else(|| {
                let says = if known.is_empty() {
                    format!("no recipe is told of {}: type the parts", process.name)
                } else {
                    format!("which recipe of {}: {}", process.name, known.join(", "))
                };
                given.problem("recipe", says)
            })?;
            let parts = mix.parts.iter().filter(|it| it.share > 0.0).map(|it| Part {
                name: it.label.clone(),
                share: it.share,
                drops_per_ml: per_ml,
            });
            Ok((parts.collect(), Some(mix)))
        }
    }
}

/// The shares of A and B, changed so that B is so many percent of them both.
fn share_out(given: &Given<'_>, parts: &mut [Part], percent: f64) -> Result<(), Problem> {
    let iron: f64 = {
        let both = parts.iter().filter(|it| is(it, "A") || is(it, "B"));
        both.map(|it| it.share).sum()
    };
    let known = |name: &str| parts.iter().any(|it| is(it, name));
    if !known("A") || !known("B") || !(0.0..=100.0).contains(&percent) {
        return Err(given.problem(
            "scale",
            "a scale is met by the share of B in the iron: name parts A and B, and scales by percent of \
             B from 0 to 100",
        ));
    }
    for part in parts.iter_mut() {
        if is(part, "A") {
            part.share = iron * (1.0 - percent / 100.0);
        } else if is(part, "B") {
            part.share = iron * percent / 100.0;
        }
    }
    Ok(())
}

fn is(part: &Part, name: &str) -> bool {
    part.name.eq_ignore_ascii_case(name)
}

/// The volume to be mixed: typed, or that of so many drops shared out by volume.
fn volume(given: &Given<'_>, parts: &[Part]) -> Result<f64, Problem> {
    let volume = given.may("volume", Millilitres::parse)?;
    let drops = given.may("drops", |text| with_unit(text, &["drops", "drop"]))?;
    match (volume, drops) {
        (Some(volume), None) => Ok(volume.value()),
        (None, Some(drops)) if (1.0..=100_000.0).contains(&drops) => {
            let shares: f64 = parts.iter().map(|it| it.share).sum();
            let weighed: f64 = parts.iter().map(|it| it.share * it.drops_per_ml).sum();
            Ok(if weighed > 0.0 {
                drops * shares / weighed
            } else {
                drops / 20.0
            })
        }
        (None, Some(_)) => {
            Err(given.problem("drops", "drops in all: from 1 to 100000, such as 40"))
        }
        (None, None) => Err(given.missing("volume")),
        (Some(_), Some(_)) => Err(Problem::of_all(
            "the volume and the drops in all each settle the other: give one of them",
        )),
    }
}

/// Whether iron and metal are in step, what the drop left in the vessel costs, and what rounding means
/// in contrast.
fn judged(mut answer: Answer, mix: &Mix, table: Option<&Contrasts>) -> Answer {
    let names: Vec<&str> = mix.portions.iter().map(|it| it.name.as_str()).collect();
    let named = |wanted: &str| names.iter().find(|it| it.eq_ignore_ascii_case(wanted));
    let of = |name: &str| {
        let found = mix.portions.iter().find(|it| it.name == name);
        found.map_or(0.0, |it| it.wanted)
    };
    if let (Some(a), Some(b)) = (named("A"), named("B")) {
        if let Some(metal) = named("C").or_else(|| named("metal")) {
            let (iron, metal) = (of(a) + of(b), of(metal));
            if (iron - metal).abs() > 0.01 * metal.max(iron) {
                answer = answer.remark(
                    Concern::Warning,
                    "A and B together are usually as much as the metal (D. Gregory, class transcript: \
                     A + B = C), and here they are not",
                );
            }
        }
        if let Some((wanted, counted)) = mix.percent_of(b, &[a, b]) {
            answer = answer.result(Line::new(
                "B of the iron, as counted",
                Amount::number(counted, "%", 1),
            ));
            if let Some(table) = table {
                answer = in_contrast(answer, table, wanted, counted);
            }
        }
    }
    let lost = 100.0 * lost_with_one_drop(f64::from(mix.drops()));
    answer.remark(
        Concern::Note,
        format!(
            "one drop left in the vessel is {} of this mix",
            Amount::number(lost, "%", 1)
        ),
    )
}

fn in_contrast(answer: Answer, table: &Contrasts, wanted: f64, counted: f64) -> Answer {
    let (Some(meant), Some(comes)) = (table.scale_at(wanted), table.scale_at(counted)) else {
        return answer.remark(
            Concern::Beyond,
            "the share of B lies outside the scales typed: what it means in contrast is not known",
        );
    };
    let line = |name: &'static str, value| {
        Line::new(name, Amount::number(value, "", 2)).on(table.grounds().clone())
    };
    answer
        .result(line("exposure scale", comes))
        .result(line("off by whole drops", comes - meant))
}

fn shares(mix: &Mix) -> Table {
    let row = |it: &crate::craft::printing::mixing::Portion| {
        vec![
            Amount::words(it.name.clone()),
            Amount::number(it.exact, "", 2),
            Amount::number(f64::from(it.drops), "", 0),
            millilitres(it.ml),
            Amount::number(it.error, "%", 1),
        ]
    };
    Table {
        heads: ["part", "exact drops", "drops", "volume", "off its share"]
            .map(Into::into)
            .to_vec(),
        rows: mix.portions.iter().map(row).collect(),
    }
}

fn addition(given: &Given<'_>) -> Result<Answer, Problem> {
    let drops = given.must("drops", |text| with_unit(text, &["drops", "drop"]))?;
    let from = need(given, "strength")?;
    let to = given.number("to")?.unwrap_or(from);
    let volume = given.may("volume", Millilitres::parse)?;
    let to_volume = given.may("to_volume", Millilitres::parse)?;
    let scale = match (volume, to_volume) {
        (Some(volume), Some(to)) => to.value() / volume.value(),
        (None, None) => 1.0,
        (None, Some(_)) => return Err(given.missing("volume")),
        (Some(_), None) => return Err(given.missing("to_volume")),
    };
    let figure = moved(drops, from, to, scale)?;
    let answer = Answer::of(figure, |moved| {
        vec![
            Line::new(
                format!("drops of {} %", Amount::number(to, "", 3)),
                Amount::measured(moved.drops, "drops"),
            ),
            Line::new("drop-percent", Amount::measured(moved.drop_percent, ""))
                .on(Grounds::own("what was typed")),
        ]
    });
    Ok(super::metals::with_cautions(given, answer, &["agent"]))
}
