//! Weighing: one salt for another, and a formula scaled, converted to the salts on the shelf, in the
//! order of mixing.

use super::solutions::{cautioned, chemical, read_grams};
use super::{Answer, Ask, Chapter, Given, Line, Problem, Recipe};
use crate::craft::solutions::weighing::{Measure, scaled};
use crate::craft::solutions::{grams, millilitres, salts};
use crate::craft::{Amount, Celsius, Concern, Figure, Grounds, Impossible, Millilitres, Step};
use crate::reference::{Caution, Chemical, Formula, Ingredient, Reference};

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "weigh",
        title: "a formula weighed out",
        chapter: Chapter::Solutions,
        about: "A formula for the volume you need, in the order of mixing: begin with warm water, dissolve \
            each thing fully before the next, then make up to the volume. Where another form of a salt \
            is on the shelf, name it and the grams are converted. Own formulas in formulas.toml go \
            before those here. Read the cautions first.",
        asks: &[
            Ask::typed("formula", "formula", "name of the formula, D-76"),
            Ask::typed(
                "volume",
                "volume",
                "how much to make; as printed if left out, 500 ml",
            ),
            Ask::typed(
                "have",
                "on the shelf",
                "salts on the shelf in another form than the formula's, several with commas, carbonate \
             monohydrate",
            ),
        ],
        example: &[
            ("formula", "D-72"),
            ("volume", "500 ml"),
            ("have", "carbonate monohydrate"),
        ],
        answer: weigh,
    },
    Recipe {
        word: "hydrate",
        title: "one salt weighed for another",
        chapter: Chapter::Solutions,
        about: "A formula names one form of a salt and another is on the shelf: dry for crystals, \
                potassium for sodium. The grams follow from the molar masses. Salts are written by name \
                with their water, or by chemical formula; what is sold as washing soda may hold one or \
                ten parts of water, so look at the packet.",
        asks: &[
            Ask::typed(
                "specified",
                "formula says",
                "the salt named there, carbonate anhydrous",
            ),
            Ask::typed(
                "have",
                "on hand",
                "the salt on the shelf, carbonate monohydrate",
            ),
            Ask::typed("grams", "grams", "how much the formula asks for, 67.5 g"),
        ],
        example: &[
            ("specified", "carbonate anhydrous"),
            ("have", "carbonate crystals"),
            ("grams", "45"),
        ],
        answer: hydrate,
    },
];

/// How much of the volume to begin with, and that each thing dissolves before the next.
const BEGIN: Grounds = Grounds::published("US Navy, photography training, mixing solutions");

/// What an ingredient becomes on the scales.
struct Weighed<'a> {
    chemical: &'a Chemical,
    instead_of: Option<&'a Chemical>,
    ingredient: &'a Ingredient,
    amount: f64,
    steps: Vec<Step>,
}

fn weigh(given: &Given<'_>) -> Result<Answer, Problem> {
    let reference = given.desk().reference;
    let typed = given
        .text("formula")
        .ok_or_else(|| given.missing("formula"))?;
    let formula = reference.formula(typed).ok_or_else(|| {
        let names: Vec<&str> = reference
            .formulas()
            .iter()
            .map(|it| it.name.as_str())
            .collect();
        given.problem(
            "formula",
            format!(
                "\"{typed}\" is no formula here, or could be more than one: {}",
                names.join(", ")
            ),
        )
    })?;
    let makes = Millilitres::new(formula.makes)?;
    let volume = given.may("volume", Millilitres::parse)?.unwrap_or(makes);
    let shelf = on_the_shelf(given, reference, formula)?;
    let mut weighed = Vec::new();
    for ingredient in &formula.ingredients {
        weighed.push(one(reference, ingredient, &shelf, makes, volume)?);
    }
    let mut figure = Figure::new((), formula.grounds());
    figure.steps = steps(formula, &weighed, makes, volume)?;
    let mut answer = Answer::of(figure, |()| lines(&weighed));
    answer = answer.result(Line::new("made up to", millilitres(volume.value())));
    answer = remarked(answer, formula, &weighed);
    let ids = weighed.iter().flat_map(|one| one.chemical.cautions.iter());
    let mut cautions: Vec<&Caution> = ids
        .chain(&formula.cautions)
        .filter_map(|id| reference.caution(id))
        .collect();
    // What can go wrong in the mixing is read before what is in the bottle.
    cautions.sort_by_key(|caution| caution.id != "acid-into-water");
    Ok(cautioned(answer, reference, cautions.into_iter()))
}

/// The chemicals that were named as being on the shelf, each of which the formula can use.
fn on_the_shelf<'a>(
    given: &Given<'a>,
    reference: &'a Reference,
    formula: &Formula,
) -> Result<Vec<&'a Chemical>, Problem> {
    let Some(typed) = given.text("have") else {
        return Ok(Vec::new());
    };
    let mut shelf = Vec::new();
    for name in typed
        .split([',', ';'])
        .map(str::trim)
        .filter(|name| !name.is_empty())
    {
        let chemical = reference.chemical(name).ok_or_else(|| {
            given.problem(
                "have",
                format!(
                    "\"{name}\" is no chemical here, or could be more than one: say its water, such as \
                     carbonate monohydrate"
                ),
            )
        })?;
        let mut used = formula
            .ingredients
            .iter()
            .filter_map(|it| reference.chemical(&it.chemical));
        if !used.any(|it| it.family == chemical.family) {
            return Err(given.problem(
                "have",
                format!(
                    "{} stands in for nothing in {}",
                    chemical.name, formula.name
                ),
            ));
        }
        shelf.push(chemical);
    }
    Ok(shelf)
}

fn one<'a>(
    reference: &'a Reference,
    ingredient: &'a Ingredient,
    shelf: &[&'a Chemical],
    makes: Millilitres,
    volume: Millilitres,
) -> Result<Weighed<'a>, Impossible> {
    let said = reference.chemical(&ingredient.chemical).ok_or_else(|| {
        Impossible::new(format!(
            "the chemical \"{}\" is not known",
            ingredient.chemical
        ))
    })?;
    let figure = scaled(
        &said.name,
        ingredient.amount,
        ingredient.measure,
        makes,
        volume,
        ingredient.grounds(),
    )?;
    let mut steps = figure.steps;
    let there = shelf
        .iter()
        .find(|it| it.family == said.family && it.id != said.id);
    let (chemical, amount, instead_of) = match there {
        Some(there) if ingredient.measure == Measure::Grams => {
            let converted = salts::convert(said.salt(), there.salt(), figure.value)?;
            steps.extend(converted.steps);
            (*there, converted.value, Some(said))
        }
        _ => (said, figure.value, None),
    };
    Ok(Weighed {
        chemical,
        instead_of,
        ingredient,
        amount,
        steps,
    })
}

fn lines(weighed: &[Weighed<'_>]) -> Vec<Line> {
    let line = |one: &Weighed<'_>| {
        let amount = one.ingredient.measure.amount(one.amount);
        Line::new(one.chemical.name.clone(), amount).on(one.ingredient.grounds())
    };
    weighed.iter().map(line).collect()
}

/// Water first, then each ingredient in its turn, then water to the volume.
fn steps(
    formula: &Formula,
    weighed: &[Weighed<'_>],
    makes: Millilitres,
    volume: Millilitres,
) -> Result<Vec<Step>, Impossible> {
    let scale = volume.value() / makes.value();
    let mut steps = vec![match formula.start {
        Some(start) => Step::new("begin with water", millilitres(start * scale))
            .working(format!("{start} ml x {}", Amount::number(scale, "", 3)))
            .on(formula.grounds()),
        None => Step::new("begin with water", millilitres(volume.value() * 0.75))
            .working("half to three quarters of the volume")
            .on(BEGIN),
    }];
    if let Some(warm) = &formula.warm {
        let (from, to) = warm.fahrenheit;
        let celsius = |fahrenheit: f64| (fahrenheit - 32.0) / 1.8;
        let low = Celsius::new(celsius(from))?;
        let told = if to > from {
            format!(
                "{from:.0} to {to:.0} F ({:.0} to {:.0} C)",
                celsius(from),
                celsius(to)
            )
        } else {
            format!("{from:.0} F ({:.0} C)", low.value())
        };
        steps.push(Step::new("as warm as", Amount::words(told)).on(warm.grounds()));
    }
    for one in weighed {
        steps.extend(one.steps.iter().cloned());
    }
    steps.push(
        Step::new("water to the volume", millilitres(volume.value()))
            .working("each thing dissolved before the next")
            .on(BEGIN),
    );
    Ok(steps)
}

fn remarked(mut answer: Answer, formula: &Formula, weighed: &[Weighed<'_>]) -> Answer {
    answer = answer.remark(
        Concern::Note,
        "the lines stand in the order of mixing: dissolve each fully before the next goes in",
    );
    for one in weighed {
        if let Some(said) = one.instead_of {
            let words = format!("{} in place of {}", one.chemical.name, said.name);
            answer = answer.remark(Concern::Note, words);
        }
        if !one.ingredient.note.is_empty() {
            let words = format!("{}: {}", one.chemical.name, one.ingredient.note);
            answer = answer.remark(Concern::Note, words);
        }
    }
    if !formula.how.is_empty() {
        answer = answer.remark(Concern::Note, format!("use: {}", formula.how));
    }
    for usual in &formula.usual {
        answer = answer.remark(Concern::Note, usual.to_string());
    }
    if formula.note.is_empty() {
        answer
    } else {
        answer.remark(Concern::Note, formula.note.clone())
    }
}

fn hydrate(given: &Given<'_>) -> Result<Answer, Problem> {
    let wanted = given.must("grams", read_grams)?;
    let specified = given
        .text("specified")
        .ok_or_else(|| given.missing("specified"))?;
    let have = given.text("have").ok_or_else(|| given.missing("have"))?;
    let (from, to) = (chemical(given, "specified"), chemical(given, "have"));
    let known = |key: &'static str, typed: &str, found: Option<&Chemical>| {
        if found.is_some() || crate::craft::solutions::molar::mass(typed).is_ok() {
            return Ok(());
        }
        Err(given.problem(
            key,
            format!(
                "\"{typed}\" is no salt here, or could be more than one: say its water (carbonate \
                 anhydrous, carbonate monohydrate) or write its chemical formula, Na2CO3.H2O"
            ),
        ))
    };
    known("specified", specified, from)?;
    known("have", have, to)?;
    let plain = |formula| salts::Salt {
        name: formula,
        formula,
        works: 1.0,
    };
    let (one, other) = (
        from.map_or_else(|| plain(specified), Chemical::salt),
        to.map_or_else(|| plain(have), Chemical::salt),
    );
    let family = from
        .zip(to)
        .is_some_and(|(from, to)| from.family == to.family);
    if !family && !salts::same_but_for_water(one.formula, other.formula) {
        return Err(Problem::of_all(format!(
            "{} does not stand in for {}: only salts that do the same work are weighed for each other",
            other.name, one.name
        )));
    }
    let figure = salts::convert(one, other, wanted)?;
    let name = other.name.to_owned();
    let factor = salts::factor(one, other)?;
    let answer = Answer::of(figure, |weighed| {
        vec![
            Line::new(name, grams(weighed)),
            Line::new("factor", Amount::number(factor, "", 4)),
        ]
    });
    let reference = given.desk().reference;
    let cautions = to.map(|to| to.cautions.as_slice()).unwrap_or_default();
    Ok(cautioned(
        answer,
        reference,
        reference.cautions_of(cautions),
    ))
}
