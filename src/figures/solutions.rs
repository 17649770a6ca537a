//! Figures of mixing: dilution, percent, crossing, the temperature of a mixture.

use super::{Answer, Ask, Book, Chapter, Given, Line, Problem, Recipe, Table};
use crate::craft::solutions::percent::{Kind, holding, to_make, weaken};
use crate::craft::solutions::thinning::{self, COLON, chain, in_so_many, made_of, thin};
use crate::craft::solutions::warmth::{mixed, of_two_taps, to_bring};
use crate::craft::solutions::{crossing, millilitres};
use crate::craft::{Amount, Celsius, Concern, Dilution, Millilitres, Remark, Unreadable, number};
use crate::reference::{Caution, Chemical, Reference};

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "dilute",
        title: "parts of a dilution",
        chapter: Chapter::Solutions,
        about: "So many parts of stock and so many of water, in millilitres. 1+9 is one part and nine \
                parts, ten in all. A colon, 1:9, is read by some as the same and by some as one part in \
                nine: say which, or both are shown. A second dilution is one of the first.",
        asks: &[
            Ask::typed("dilution", "dilution", "parts of stock and water, 1+31 or 1+1+100"),
            Ask::typed("volume", "volume", "how much of the finished solution, 1 l"),
            Ask::typed(
                "stock",
                "stock at hand",
                "all the stock there is, to find what it makes, 60 ml",
            ),
            Ask::typed("then", "then", "a further dilution of what that gives, 1+7"),
            Ask::typed(
                "colon",
                "a colon means",
                "what 1:9 means to whoever wrote it: plus for 1+9, as with Kodak, or in-all for one \
                 part in nine, plus",
            )
            .from(Book::Choice(&["plus", "in-all"])),
        ],
        example: &[("dilution", "1+31"), ("volume", "1 l")],
        answer: dilute,
    },
    Recipe {
        word: "percent",
        title: "percent solutions",
        chapter: Chapter::Solutions,
        about: "What goes into a percent solution, how much of one holds so many grams, or how a \
                stronger one is weakened with water. Solids count in grams to 100 ml of the finished \
                solution (w/v), liquids in millilitres (v/v); w/w is weighed throughout. Dissolve in \
                less water, then make up to the volume.",
        asks: &[
            Ask::typed("percent", "percent", "the strength wanted, or of the solution used, 10"),
            Ask::typed(
                "volume",
                "volume",
                "how much of it to make, in grams if by weight, 500 ml",
            ),
            Ask::typed(
                "amount",
                "amount",
                "grams of the solute wanted (ml if by volume), to find how much of the solution holds \
                 them, 1.9",
            ),
            Ask::typed("have", "on hand", "strength of a stronger solution on hand, 99.5"),
            Ask::typed("kind", "kind", "what the percent is a share of, w/v").from(Book::Choice(&[
                "w/v", "v/v", "w/w",
            ])),
            SUBSTANCE,
        ],
        example: &[
            ("percent", "28"),
            ("volume", "1 l"),
            ("have", "99.5"),
            ("kind", "v/v"),
            ("substance", "glacial acetic acid"),
        ],
        answer: percent,
    },
    Recipe {
        word: "cross",
        title: "two strengths crossed to a third",
        chapter: Chapter::Solutions,
        about: "Two solutions of the same thing mixed to a strength between them, by the square: parts \
                of each are what the other differs from the target. Water is 0. Both strengths have to \
                be of the same kind, by volume or by weight.",
        asks: &[
            Ask::typed("strong", "one strength", "strength of one solution in percent, 28"),
            Ask::typed("weak", "the other", "strength of the other, 0 for water, 5"),
            Ask::typed("target", "wanted", "strength wanted, between the two, 10"),
            Ask::typed("volume", "volume", "how much of the mixture, 1 l"),
            SUBSTANCE,
        ],
        example: &[("strong", "28"), ("weak", "5"), ("target", "10"), ("volume", "1 l")],
        answer: cross,
    },
    Recipe {
        word: "mix-temperature",
        title: "temperature of a mixture",
        chapter: Chapter::Solutions,
        about: "Two volumes poured together, the water that brings a bath to its temperature, or how \
                much hot and how much cold make a volume of the right temperature. Give both volumes; or \
                one volume and a target; or the whole and a target.",
        asks: &[
            Ask::typed("first", "first volume", "volume of the bath, 800 ml"),
            Ask::typed("first_at", "at", "its temperature, 18 C"),
            Ask::typed(
                "second",
                "second volume",
                "volume of what is added, where it is known, 200 ml",
            ),
            Ask::typed("second_at", "at", "temperature of what is added, 40 C"),
            Ask::typed("target", "wanted", "temperature wanted, 24 C"),
            Ask::typed(
                "whole",
                "in all",
                "finished volume to be made of the two temperatures, 1 l",
            ),
        ],
        example: &[
            ("first", "800ml"),
            ("first_at", "18C"),
            ("second_at", "40C"),
            ("target", "20C"),
        ],
        answer: mix_temperature,
    },
];

/// What is mixed, for its cautions.
const SUBSTANCE: Ask = Ask::typed(
    "substance",
    "substance",
    "what it is a solution of, for its cautions, glacial acetic acid",
);

/// Grams as people write them: `67.5`, `67.5 g`.
pub(super) fn read_grams(text: &str) -> Result<f64, Unreadable> {
    let trimmed = text.trim();
    let bare = ["grams", "gram", "g", "ml"]
        .into_iter()
        .find_map(|unit| trimmed.strip_suffix(unit))
        .unwrap_or(trimmed);
    number(bare)
}

/// Puts cautions before everything else that is remarked, each once, closed by the sentence that
/// defers to safety data sheets.
pub(super) fn cautioned<'a>(
    mut answer: Answer,
    reference: &Reference,
    cautions: impl Iterator<Item = &'a Caution>,
) -> Answer {
    let mut first: Vec<Remark> = Vec::new();
    for caution in cautions {
        let words = format!("{}: {}", caution.title, caution.words);
        if !first.iter().any(|remark| remark.words == words) {
            first.push(Remark {
                concern: Concern::Warning,
                words,
            });
        }
    }
    if !first.is_empty() {
        let words = reference.closing().to_owned();
        first.push(Remark {
            concern: Concern::Warning,
            words,
        });
        answer.remarks.splice(0..0, first);
    }
    answer
}

/// The chemical that is typed, if it is one that is known.
pub(super) fn chemical<'a>(given: &Given<'a>, key: &str) -> Option<&'a Chemical> {
    given.desk().reference.chemical(given.text(key)?)
}

/// The same answer with the cautions of the substance that was named, and with the rule for acids.
fn with_substance(given: &Given<'_>, answer: Answer) -> Answer {
    let Some(typed) = given.text("substance") else {
        return answer;
    };
    let reference = given.desk().reference;
    let mut ids: Vec<&str> = Vec::new();
    if typed.to_lowercase().contains("acid") {
        ids.push("acid-into-water");
    }
    let known = chemical(given, "substance");
    ids.extend(
        known
            .iter()
            .flat_map(|it| it.cautions.iter().map(String::as_str)),
    );
    if known.is_none() {
        let slug = typed.to_lowercase().replace(' ', "-");
        ids.extend(reference.caution(&slug).map(|it| it.id.as_str()));
    }
    let cautions: Vec<&Caution> = ids.iter().filter_map(|id| reference.caution(id)).collect();
    if cautions.is_empty() {
        return answer.remark(
            Concern::Note,
            format!(
                "nothing is noted here on \"{typed}\": read its safety data sheet before mixing"
            ),
        );
    }
    cautioned(answer, reference, cautions.into_iter())
}

fn dilute(given: &Given<'_>) -> Result<Answer, Problem> {
    let typed = given.must("dilution", Dilution::parse)?;
    let colon = given.choice("colon")?;
    let written = given.text("dilution").unwrap_or_default();
    let has_colon = thinning::written_with_a_colon(written);
    let dilution = if colon == Some("in-all") && has_colon {
        in_so_many(typed).map_err(|why| given.problem("colon", why.to_string()))?
    } else {
        typed
    };
    let mut chained = vec![dilution];
    chained.extend(given.may("then", Dilution::parse)?);
    let stock = given.may("stock", Millilitres::parse)?;
    let volume = match (given.may("volume", Millilitres::parse)?, stock) {
        (Some(volume), None) => volume,
        (None, Some(stock)) => {
            let share = made_of(stock.value(), dilution)?;
            Millilitres::new(share)?
        }
        (None, None) => return Err(given.missing("volume")),
        (Some(_), Some(_)) => {
            return Err(Problem::of_all(
                "the volume wanted and the stock at hand each settle the other: give one of them",
            ));
        }
    };
    let mut answer = if chained.len() > 1 {
        if stock.is_some() {
            return Err(given.problem(
                "stock",
                "a chain is reckoned from the volume wanted: give that",
            ));
        }
        chained_answer(&chained, volume)?
    } else {
        let figure = thin(dilution, volume);
        let names: Vec<String> = figure
            .steps
            .iter()
            .map(|step| step.name.to_string())
            .collect();
        Answer::of(figure, |portions| {
            let parts = names.into_iter().zip(portions.parts);
            parts
                .map(|(name, ml)| Line::new(name, millilitres(ml)))
                .collect()
        })
    };
    if stock.is_some() {
        answer = answer.result(Line::new("makes in all", millilitres(volume.value())));
    }
    if has_colon && colon.is_none() {
        answer = both_readings(answer, dilution, volume);
    }
    Ok(answer)
}

/// Concentrate, stock in between and water of one dilution upon another.
fn chained_answer(dilutions: &[Dilution], volume: Millilitres) -> Result<Answer, Problem> {
    let figure = chain(dilutions)?;
    let share = figure.value;
    let last = dilutions.last().map(|last| thin(*last, volume));
    Ok(Answer::of(figure, |share| {
        let mut lines = vec![Line::new(
            "of the concentrate",
            millilitres(volume.value() * share),
        )];
        let between = last.and_then(|last| last.value.parts.first().copied());
        if let Some(between) = between {
            lines.push(Line::new("or of the first dilution", millilitres(between)));
        }
        lines
    })
    .result(Line::new(
        "at once",
        Amount::words(format!("1+{}", Amount::number(1.0 / share - 1.0, "", 3))),
    )))
}

/// The same answer with what a colon would mean to others.
fn both_readings(answer: Answer, dilution: Dilution, volume: Millilitres) -> Answer {
    let row = |dilution: Dilution| {
        let parts = thin(dilution, volume).value.parts;
        let first = parts.first().copied().unwrap_or_default();
        vec![
            Amount::words(dilution.to_string()),
            millilitres(first),
            millilitres(volume.value() - first),
        ]
    };
    let Ok(in_all) = in_so_many(dilution) else {
        return answer;
    };
    let told = format!(
        "a colon can mean {dilution} or {in_all}: reckoned as {dilution}, as Kodak means it; say \
         what it means to whoever wrote it"
    );
    let mut answer = answer.remark(Concern::Warning, told).table(Table {
        heads: vec!["read as".into(), "stock".into(), "water".into()],
        rows: vec![row(dilution), row(in_all)],
    });
    if let Some(step) = answer.steps.first_mut() {
        step.grounds = Some(COLON);
    }
    answer
}

fn percent(given: &Given<'_>) -> Result<Answer, Problem> {
    let kind = match given.choice("kind")? {
        Some("v/v") => Kind::ByVolume,
        Some("w/w") => Kind::ByWeight,
        _ => Kind::WeightInVolume,
    };
    let percent = given
        .number("percent")?
        .ok_or_else(|| given.missing("percent"))?;
    let have = given.number("have")?;
    let amount = given.may("amount", read_grams)?;
    let solution = if kind == Kind::ByWeight {
        given.may("volume", read_grams)?
    } else {
        given
            .may("volume", Millilitres::parse)?
            .map(Millilitres::value)
    };
    let answer = match (have, amount, solution) {
        (Some(have), None, Some(solution)) => {
            let figure = weaken(have, percent, solution, kind)?;
            Answer::of(figure, |taken| {
                vec![
                    Line::new("water first", kind.of_solution(taken.water)),
                    Line::new("then of what is on hand", kind.of_solution(taken.strong)),
                ]
            })
        }
        (None, Some(amount), None) => Answer::of(holding(amount, percent, kind)?, |solution| {
            vec![Line::new(
                "take of the solution",
                kind.of_solution(solution),
            )]
        }),
        (None, None, Some(solution)) => Answer::of(to_make(percent, solution, kind)?, |solute| {
            vec![
                Line::new("solute", kind.of_solute(solute)),
                Line::new("made up to", kind.of_solution(solution)),
            ]
        }),
        (_, None, None) => return Err(given.missing("volume")),
        _ => {
            return Err(Problem::of_all(
                "an amount asks how much of the solution holds it: leave out volume and on hand, or \
                 leave out the amount",
            ));
        }
    };
    Ok(with_substance(given, answer))
}

fn cross(given: &Given<'_>) -> Result<Answer, Problem> {
    let need = |key: &'static str| given.number(key)?.ok_or_else(|| given.missing(key));
    let (strong, weak, target) = (need("strong")?, need("weak")?, need("target")?);
    let volume = given.must("volume", Millilitres::parse)?;
    let figure = crossing::cross(strong, weak, target, volume.value())?;
    let name = |strength: f64| {
        if strength == 0.0 {
            "water".to_owned()
        } else {
            format!("of the {}", Amount::number(strength, "%", 3))
        }
    };
    let answer = Answer::of(figure, |crossed| {
        vec![
            Line::new(name(strong), millilitres(crossed.first)),
            Line::new(name(weak), millilitres(crossed.second)),
        ]
    });
    Ok(with_substance(given, answer))
}

fn mix_temperature(given: &Given<'_>) -> Result<Answer, Problem> {
    let first_at = given.must("first_at", Celsius::parse)?;
    let second_at = given.must("second_at", Celsius::parse)?;
    let first = given.may("first", Millilitres::parse)?;
    let second = given.may("second", Millilitres::parse)?;
    let target = given.may("target", Celsius::parse)?;
    let whole = given.may("whole", Millilitres::parse)?;
    match (first, second, target, whole) {
        (Some(first), Some(second), None, None) => {
            let figure = mixed((first, first_at), (second, second_at))?;
            Ok(Answer::of(figure, |at| {
                vec![Line::new("mixed", degrees(at))]
            }))
        }
        (Some(first), None, Some(target), None) => {
            let figure = to_bring((first, first_at), second_at, target)?;
            Ok(Answer::of(figure, |water| {
                vec![
                    Line::new("add", millilitres(water)),
                    Line::new("in all", millilitres(first.value() + water)),
                ]
            }))
        }
        (None, None, Some(target), Some(whole)) => {
            let figure = of_two_taps(whole, first_at, second_at, target)?;
            Ok(Answer::of(figure, |(one, other)| {
                vec![
                    Line::new(format!("of {first_at}"), millilitres(one)),
                    Line::new(format!("of {second_at}"), millilitres(other)),
                ]
            }))
        }
        _ => Err(Problem::of_all(
            "give both volumes; or the first volume and the temperature wanted; or the volume in all \
             and the temperature wanted",
        )),
    }
}

fn degrees(at: Celsius) -> Amount {
    Amount::number(at.value(), "C", 1)
}
