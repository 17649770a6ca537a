//! Metal and iron solutions: strengths, moles, how much iron for the metal, and what a stock is made of.

use super::super::{Answer, Ask, Chapter, Given, Line, Problem, Recipe, Table};
use super::{measured, need, warned};
use crate::craft::printing::metals::{
    Solution, as_strong, balance, from_chloride, matched, metal_held,
};
use crate::craft::solutions::{grams, millilitres, molar};
use crate::craft::{Amount, Concern, Millilitres};

/// Atoms of iron for one of metal where one ferric oxalate goes with one metal salt.
const TWO_TO_ONE: f64 = 2.0;

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "iron",
        title: "iron against metal in a sensitizer",
        chapter: Chapter::Coating,
        about: "Strengths in grams to 100 ml turned into moles, and how much iron there is for the metal \
                when the two are mixed by their shares. One ferric oxalate holds two of iron, one \
                ammonium ferric oxalate one; from 1.8 to 3.0 of iron for one of platinum or palladium are \
                told. Without a strength of the metal, the one that matches the iron is found. Salts are \
                written by name or as chemical formulas.",
        asks: &[
            Ask::typed("metal", "metal salt", "sodium chloropalladite, or K2PtCl4"),
            Ask::typed(
                "metal_percent",
                "its strength",
                "percent of the metal solution; left out, the one that matches the iron, 15",
            ),
            Ask::typed(
                "iron",
                "iron salt",
                "with its water where it has some, ferric oxalate hexahydrate",
            ),
            Ask::typed(
                "iron_percent",
                "its strength",
                "percent of the iron solution, 27",
            ),
            Ask::typed("shares", "shares", "volumes of metal and iron, 1+1"),
            Ask::typed(
                "ratio",
                "iron for one",
                "iron wanted for one of metal where the strength is to be found, 2",
            ),
        ],
        example: &[
            ("metal", "Na2PdCl4"),
            ("iron", "Fe2(C2O4)3.6H2O"),
            ("iron_percent", "27"),
        ],
        answer: iron,
    },
    Recipe {
        word: "as-strong",
        title: "one metal salt as strong as another",
        chapter: Chapter::Coating,
        about: "The strength at which another salt holds as much metal in a millilitre, counted in \
                atoms: a 20 % solution of potassium chloroplatinite and one of 14 % sodium \
                chloropalladite print alike, because palladium is lighter. Says too how much metal a \
                volume or a drop holds.",
        asks: &[
            Ask::typed("metal", "metal salt", "the salt of the recipe, K2PtCl4"),
            Ask::typed("percent", "strength", "its percent, 20"),
            Ask::typed("to", "to", "the salt at hand, Na2PdCl4"),
            Ask::typed(
                "volume",
                "volume",
                "a volume, to know the metal in it, 0.05 ml",
            ),
        ],
        example: &[("metal", "K2PtCl4"), ("percent", "20"), ("to", "Na2PdCl4")],
        answer: strong,
    },
    Recipe {
        word: "double-salt",
        title: "a palladium stock from its chlorides",
        chapter: Chapter::Coating,
        about: "Palladium chloride hardly dissolves alone: with two of an alkali chloride it becomes the \
                double salt that prints. How much of both makes a stock of a strength. Look at the bottle \
                for the water of the palladium chloride. Salts can be named or written as formulas.",
        asks: &[
            Ask::typed("percent", "strength", "percent of the double salt, 15"),
            Ask::typed("volume", "volume", "how much stock, 25 ml"),
            Ask::typed(
                "alkali",
                "alkali",
                "chloride of the alkali, sodium chloride or LiCl, NaCl",
            ),
            Ask::typed(
                "chloride",
                "palladium salt",
                "the palladium chloride on the shelf, dry or dihydrate, PdCl2",
            ),
        ],
        example: &[
            ("percent", "15"),
            ("volume", "25 ml"),
            ("alkali", "sodium chloride"),
        ],
        answer: double_salt,
    },
];

/// The name and the chemical formula of what was typed, and the ids of its cautions.
fn salt<'a>(
    given: &Given<'a>,
    key: &'static str,
    typed: &'a str,
) -> Result<(&'a str, &'a str, &'a [String]), Problem> {
    let reference = given.desk().reference;
    if let Some(known) = reference.chemical(typed) {
        return Ok((&known.name, &known.formula, &known.cautions));
    }
    let Ok(mass) = molar::mass(typed) else {
        return Err(given.problem(
            key,
            format!(
                "\"{typed}\" is no salt here, or could be more than one: say its water (ferric oxalate \
                 hexahydrate) or write its chemical formula, Na2PdCl4"
            ),
        ));
    };
    // A formula that is in the list brings its cautions.
    let same = reference
        .chemicals()
        .iter()
        .find(|it| molar::mass(&it.formula).is_ok_and(|other| (other - mass).abs() < 1e-6));
    Ok((typed, typed, same.map_or(&[], |it| &it.cautions)))
}

/// The same answer with the cautions of the chemicals that were named under these keys.
pub(super) fn with_cautions(given: &Given<'_>, answer: Answer, keys: &[&'static str]) -> Answer {
    let reference = given.desk().reference;
    let mut ids: Vec<&str> = Vec::new();
    let mut unknown = Vec::new();
    for typed in keys.iter().filter_map(|key| given.text(key)) {
        let before = ids.len();
        if let Some(chemical) = reference.chemical(typed) {
            ids.extend(chemical.cautions.iter().map(String::as_str));
        }
        let wanted = typed.to_lowercase();
        let titled = reference.cautions().iter().filter(|it| {
            it.kind == crate::reference::CautionKind::Substance
                && it.title.to_lowercase().contains(&wanted)
        });
        ids.extend(titled.map(|it| it.id.as_str()));
        if ids.len() == before {
            unknown.push(typed);
        }
    }
    let mut answer = warned(given, answer, &ids);
    for typed in unknown {
        answer = answer.remark(
            Concern::Note,
            format!("nothing is noted here on \"{typed}\": read its safety data sheet first"),
        );
    }
    answer
}

fn iron(given: &Given<'_>) -> Result<Answer, Problem> {
    let metal = given.text("metal").ok_or_else(|| given.missing("metal"))?;
    let typed = given.text("iron").ok_or_else(|| given.missing("iron"))?;
    let metal = salt(given, "metal", metal)?;
    let salt_of_iron = salt(given, "iron", typed)?;
    let (metals, irons) = shares(given)?;
    let iron = Solution {
        name: salt_of_iron.0,
        formula: salt_of_iron.1,
        percent: need(given, "iron_percent")?,
        volumes: irons,
    };
    let ratio = given.number("ratio")?;
    let percent = given.number("metal_percent")?;
    if percent.is_some() && ratio.is_some() {
        return Err(given.problem(
            "ratio",
            "the ratio is found from both strengths: leave out the strength of the metal, or this",
        ));
    }
    let answer = match percent {
        Some(percent) => {
            let metal = Solution {
                name: metal.0,
                formula: metal.1,
                percent,
                volumes: metals,
            };
            Answer::of(balance(metal, iron)?, |found| {
                vec![
                    measured("iron for one of metal", found.iron_per_metal, ""),
                    measured("metal solution", 1000.0 * found.metal, "mmol/l"),
                    measured("iron solution", 1000.0 * found.iron, "mmol/l"),
                ]
            })
        }
        None => {
            let per_metal = ratio.unwrap_or(TWO_TO_ONE);
            let figure = matched((metal.0, metal.1), iron, per_metal * metals / irons)?;
            Answer::of(figure, |percent| {
                vec![measured("strength of the metal", percent, "%")]
            })
            .table(strengths(given, iron, per_metal * metals / irons))
        }
    };
    let ids: Vec<&str> = metal
        .2
        .iter()
        .chain(salt_of_iron.2)
        .map(String::as_str)
        .collect();
    Ok(warned(given, answer, &ids))
}

/// Every metal salt of the list at the strength that matches the iron.
fn strengths(given: &Given<'_>, iron: Solution<'_>, per_metal: f64) -> Table {
    let rows = given.desk().reference.chemicals().iter().filter_map(|it| {
        let percent = matched((&it.name, &it.formula), iron, per_metal)
            .ok()?
            .value;
        Some(vec![
            Amount::words(it.name.clone()),
            Amount::number(percent, "%", 2),
        ])
    });
    Table {
        heads: vec!["metal salt".into(), "matches at".into()],
        rows: rows.collect(),
    }
}

/// Volumes of metal and of iron: `1+1`, `2:3`.
fn shares(given: &Given<'_>) -> Result<(f64, f64), Problem> {
    let Some(text) = given.text("shares") else {
        return Ok((1.0, 1.0));
    };
    let parted = text.split_once(['+', ':']);
    let read = parted.and_then(|(metal, iron)| {
        let metal = crate::craft::number(metal).ok()?;
        Some((metal, crate::craft::number(iron).ok()?))
    });
    let sound = |share: f64| (0.001..=1e6).contains(&share);
    read.filter(|(metal, iron)| sound(*metal) && sound(*iron))
        .ok_or_else(|| {
            given.problem(
                "shares",
                "write the volumes of metal and of iron, 1+1 or 2:3",
            )
        })
}

fn strong(given: &Given<'_>) -> Result<Answer, Problem> {
    let metal = given.text("metal").ok_or_else(|| given.missing("metal"))?;
    let to = given.text("to").ok_or_else(|| given.missing("to"))?;
    let from = salt(given, "metal", metal)?;
    let to = salt(given, "to", to)?;
    let solution = Solution {
        name: from.0,
        formula: from.1,
        percent: need(given, "percent")?,
        volumes: 1.0,
    };
    let mut answer = Answer::of(as_strong(solution, (to.0, to.1))?, |percent| {
        vec![measured("as strong at", percent, "%")]
    });
    let volume = given.may("volume", Millilitres::parse)?;
    let ml = volume.map_or(100.0, Millilitres::value);
    let (symbol, held) = metal_held(solution, ml)?;
    let name = format!("{symbol} in {}", millilitres(ml));
    answer = answer.result(Line::new(name, grams(held)));
    if metal_symbol_changes(solution, (to.0, to.1), symbol) {
        answer = answer.remark(
            Concern::Note,
            "as many atoms of another metal: colour, contrast and speed are its own, so print a step \
             tablet",
        );
    }
    let ids: Vec<&str> = from.2.iter().chain(to.2).map(String::as_str).collect();
    Ok(warned(given, answer, &ids))
}

/// Whether the other salt holds another metal.
fn metal_symbol_changes(from: Solution<'_>, to: (&str, &str), symbol: &str) -> bool {
    let other = Solution {
        name: to.0,
        formula: to.1,
        ..from
    };
    metal_held(other, 1.0).is_ok_and(|(it, _)| it != symbol)
}

fn double_salt(given: &Given<'_>) -> Result<Answer, Problem> {
    let percent = need(given, "percent")?;
    let volume = given.must("volume", Millilitres::parse)?;
    let alkali = salt(given, "alkali", given.text("alkali").unwrap_or("NaCl"))?;
    let chloride = salt(given, "chloride", given.text("chloride").unwrap_or("PdCl2"))?;
    // Two of the alkali beside one palladium and four of chlorine, in brackets where it is no element.
    let Some(base) = alkali.1.strip_suffix("Cl") else {
        return Err(given.problem(
            "alkali",
            "name the chloride of an alkali: sodium, lithium, potassium or ammonium chloride",
        ));
    };
    let double = if base.len() > 2 {
        format!("({base})2PdCl4")
    } else {
        format!("{base}2PdCl4")
    };
    let figure = from_chloride((&double, percent), chloride.1, alkali.1, volume.value())?;
    let answer = Answer::of(figure, |weighed| {
        vec![
            Line::new(chloride.0.to_owned(), grams(weighed.chloride)),
            Line::new(alkali.0.to_owned(), grams(weighed.alkali)),
            Line::new("made up to", millilitres(volume.value())),
            Line::new("gives", Amount::words(double.clone())),
        ]
    });
    let ids: Vec<&str> = chloride
        .2
        .iter()
        .chain(alkali.2)
        .map(String::as_str)
        .chain(["palladium-chloride"])
        .collect();
    Ok(warned(given, answer, &ids))
}
