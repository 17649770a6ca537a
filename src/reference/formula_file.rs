//! Reads `formulas.toml`, whose shape stands at the head of the built-in file.
//!
//! Everything is checked on the way in: amounts above nothing, chemicals that are known, formulas whose
//! molar mass can be reckoned. A formula that cannot be weighed out never reaches the scales.

use std::ops::Range;

use serde::Deserialize;
use toml::Spanned;

use super::error::{Fault, ReferenceError};
use super::formula::{Chemical, Formula, Ingredient, Mixing, Usage, Warm};
use super::naming::slug;
use super::page::{Cite, Page, UsualFile};
use super::process::Purpose;
use super::standing::Standing;
use crate::craft::Millilitres;
use crate::craft::solutions::molar;
use crate::craft::solutions::weighing::Measure;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct MixingFile {
    #[serde(default)]
    chemical: Vec<ChemicalFile>,
    #[serde(default)]
    formula: Vec<FormulaFile>,
    #[serde(default)]
    usage: Vec<UsageFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ChemicalFile {
    id: Option<Spanned<String>>,
    name: Spanned<String>,
    #[serde(default)]
    also: Vec<String>,
    formula: Spanned<String>,
    family: Spanned<String>,
    works: Option<f64>,
    #[serde(default)]
    cautions: Vec<Spanned<String>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FormulaFile {
    id: Option<Spanned<String>>,
    name: Spanned<String>,
    #[serde(default)]
    also: Vec<String>,
    purpose: Purpose,
    makes: f64,
    start: Option<f64>,
    warm: Option<WarmFile>,
    ingredients: Vec<IngredientFile>,
    #[serde(default, rename = "use")]
    how: String,
    #[serde(default)]
    usual: Vec<UsualFile>,
    #[serde(default)]
    cautions: Vec<Spanned<String>>,
    source: Option<String>,
    standing: Option<Standing>,
    #[serde(default)]
    note: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WarmFile {
    from: f64,
    to: Option<f64>,
    source: Option<String>,
    standing: Option<Standing>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct IngredientFile {
    chemical: Spanned<String>,
    g: Option<f64>,
    ml: Option<f64>,
    #[serde(default)]
    note: String,
    source: Option<String>,
    standing: Option<Standing>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct UsageFile {
    id: Option<Spanned<String>>,
    name: Spanned<String>,
    #[serde(default)]
    also: Vec<String>,
    least: f64,
    of: Spanned<String>,
    replenish: Option<f64>,
    #[serde(default)]
    note: String,
    source: Option<String>,
    standing: Option<Standing>,
}

/// Reads and checks a file of formulas; `known` are chemicals read before, `is_caution` knows the
/// cautions.
pub(super) fn read(
    page: &Page<'_>,
    known: &[Chemical],
    is_caution: impl Fn(&str) -> bool,
) -> Result<Mixing, ReferenceError> {
    let file: MixingFile = page.read()?;
    let mut mixing = Mixing::default();
    for written in file.chemical {
        let chemical = chemical(page, written, &mixing.chemicals, &is_caution)?;
        mixing.chemicals.push(chemical);
    }
    for written in file.formula {
        let knows = |id: &str| {
            let mut all = mixing.chemicals.iter().chain(known);
            all.any(|chemical| chemical.id == id)
        };
        let formula = formula(page, written, &mixing.formulas, &knows, &is_caution)?;
        mixing.formulas.push(formula);
    }
    for written in file.usage {
        let usage = usage(page, written, &mixing.usages)?;
        mixing.usages.push(usage);
    }
    Ok(mixing)
}

/// The id of a record, made from its name where none is written.
fn id_of(id: Option<Spanned<String>>, name: &str, span: Range<usize>) -> Spanned<String> {
    id.unwrap_or_else(|| Spanned::new(span, slug(name)))
}

/// A number above nothing.
fn above_nothing(
    page: &Page<'_>,
    span: Range<usize>,
    what: &'static str,
    value: f64,
) -> Result<f64, ReferenceError> {
    if value > 0.0 && value <= 1e6 {
        return Ok(value);
    }
    let value = value.to_string();
    Err(page.fault(span, Fault::NotPositive { what, value }))
}

fn chemical(
    page: &Page<'_>,
    written: ChemicalFile,
    before: &[Chemical],
    is_caution: &impl Fn(&str) -> bool,
) -> Result<Chemical, ReferenceError> {
    let span = written.name.span();
    let name = page.text("name", &written.name)?;
    let id = id_of(written.id, &name, span.clone());
    page.once("chemical", &id, before.iter().map(|one| &one.id))?;
    let formula = page.text("formula", &written.formula)?;
    if let Err(why) = molar::mass(&formula) {
        let message = why.to_string();
        return Err(page.fault(written.formula.span(), Fault::Shape { message }));
    }
    Ok(Chemical {
        id: page.id(&id)?,
        name,
        also: written.also,
        formula,
        family: page.text("family", &written.family)?,
        works: above_nothing(page, span, "works", written.works.unwrap_or(1.0))?,
        cautions: page.known_cautions(written.cautions, is_caution)?,
        origin: page.origin.clone(),
    })
}

fn formula(
    page: &Page<'_>,
    written: FormulaFile,
    before: &[Formula],
    knows: &impl Fn(&str) -> bool,
    is_caution: &impl Fn(&str) -> bool,
) -> Result<Formula, ReferenceError> {
    let span = written.name.span();
    let name = page.text("name", &written.name)?;
    let id = id_of(written.id, &name, span.clone());
    page.once("formula", &id, before.iter().map(|one| &one.id))?;
    let cite = Cite {
        source: written.source,
        standing: written.standing,
    };
    let (source, standing) = page.cited(&name, span.clone(), cite)?;
    let makes = above_nothing(page, span.clone(), "makes", written.makes)?;
    if Millilitres::new(makes).is_err() {
        let value = makes.to_string();
        let what = "makes";
        return Err(page.fault(span, Fault::NotPositive { what, value }));
    }
    let of_all = (source.as_str(), standing);
    let start = match written.start {
        Some(start) => Some(above_nothing(page, span.clone(), "start", start)?),
        None => None,
    };
    let warm = match written.warm {
        Some(warm) => Some(warmth(page, span.clone(), warm, of_all)?),
        None => None,
    };
    if written.ingredients.is_empty() {
        return Err(page.fault(span, Fault::Empty { key: "ingredients" }));
    }
    let ingredients = written
        .ingredients
        .into_iter()
        .map(|one| ingredient(page, one, of_all, knows))
        .collect::<Result<Vec<Ingredient>, ReferenceError>>()?;
    Ok(Formula {
        id: page.id(&id)?,
        name,
        also: written.also,
        purpose: written.purpose,
        makes,
        start,
        warm,
        ingredients,
        how: written.how,
        usual: page.usual(written.usual)?,
        cautions: page.known_cautions(written.cautions, is_caution)?,
        source,
        standing,
        note: written.note,
        origin: page.origin.clone(),
    })
}

/// Source and standing of a number in a formula: its own, else those of the formula.
fn cited(
    page: &Page<'_>,
    what: &str,
    span: Range<usize>,
    cite: Cite,
    of_all: (&str, Standing),
) -> Result<(String, Standing), ReferenceError> {
    if cite.source.is_none() && cite.standing.is_none() {
        return Ok((of_all.0.to_owned(), of_all.1));
    }
    page.cited(what, span, cite)
}

fn warmth(
    page: &Page<'_>,
    span: Range<usize>,
    written: WarmFile,
    of_all: (&str, Standing),
) -> Result<Warm, ReferenceError> {
    let to = written.to.unwrap_or(written.from);
    let liquid = 32.0..=212.0;
    if !(liquid.contains(&written.from) && liquid.contains(&to) && written.from <= to) {
        let what = "warm".to_owned();
        return Err(page.fault(span, Fault::BadRange { what }));
    }
    let cite = Cite {
        source: written.source,
        standing: written.standing,
    };
    let (source, standing) = cited(page, "warm", span, cite, of_all)?;
    Ok(Warm {
        fahrenheit: (written.from, to),
        source,
        standing,
    })
}

fn ingredient(
    page: &Page<'_>,
    written: IngredientFile,
    of_all: (&str, Standing),
    knows: &impl Fn(&str) -> bool,
) -> Result<Ingredient, ReferenceError> {
    let span = written.chemical.span();
    let chemical = written.chemical.into_inner();
    if !knows(&chemical) {
        return Err(page.fault(span, Fault::UnknownChemical { id: chemical }));
    }
    let (amount, measure) = match (written.g, written.ml) {
        (Some(grams), None) => (grams, Measure::Grams),
        (None, Some(ml)) => (ml, Measure::Millilitres),
        _ => {
            let message = format!("{chemical} has g or ml, one of the two");
            return Err(page.fault(span, Fault::Shape { message }));
        }
    };
    let amount = above_nothing(page, span.clone(), "an amount", amount)?;
    let cite = Cite {
        source: written.source,
        standing: written.standing,
    };
    let (source, standing) = cited(page, &chemical, span, cite, of_all)?;
    Ok(Ingredient {
        chemical,
        amount,
        measure,
        note: written.note,
        source,
        standing,
    })
}

fn usage(page: &Page<'_>, written: UsageFile, before: &[Usage]) -> Result<Usage, ReferenceError> {
    let span = written.name.span();
    let name = page.text("name", &written.name)?;
    let id = id_of(written.id, &name, span.clone());
    page.once("usage", &id, before.iter().map(|one| &one.id))?;
    let cite = Cite {
        source: written.source,
        standing: written.standing,
    };
    let (source, standing) = page.cited(&name, span.clone(), cite)?;
    let replenish = match written.replenish {
        Some(rate) => Some(above_nothing(page, span.clone(), "replenish", rate)?),
        None => None,
    };
    Ok(Usage {
        id: page.id(&id)?,
        name,
        also: written.also,
        least: above_nothing(page, span, "least", written.least)?,
        of: page.text("of", &written.of)?,
        replenish,
        note: written.note,
        source,
        standing,
        origin: page.origin.clone(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reference::Reference;
    use crate::reference::standing::Origin;

    fn own(text: &str) -> Result<Mixing, String> {
        let page = Page {
            file: "formulas.toml".to_owned(),
            text,
            origin: Origin::Own("formulas.toml".into()),
        };
        let built_in = Reference::built_in().unwrap();
        let knows = |id: &str| built_in.caution(id).is_some();
        read(&page, built_in.chemicals(), knows).map_err(|why| why.to_string())
    }

    #[test]
    fn an_own_formula_may_use_built_in_chemicals_and_is_own() {
        let mixing = own(
            "[[formula]]\nname = \"Soft\"\npurpose = \"developer\"\nmakes = 500\n\
             ingredients = [{ chemical = \"metol\", g = 3 }]\n",
        )
        .unwrap();
        assert_eq!(mixing.formulas[0].id, "soft");
        assert_eq!(mixing.formulas[0].ingredients[0].standing, Standing::Own);
    }

    #[test]
    fn what_cannot_be_weighed_out_is_refused_with_its_line() {
        let formula = |ingredient: &str| {
            own(&format!(
                "[[formula]]\nname = \"Soft\"\npurpose = \"developer\"\nmakes = 500\n\
                 ingredients = [{ingredient}]\n"
            ))
            .unwrap_err()
        };
        for (ingredient, says) in [
            ("{ chemical = \"elixir\", g = 1 }", "no chemical \"elixir\""),
            ("{ chemical = \"metol\", g = 0 }", "greater than nothing"),
            ("{ chemical = \"metol\", g = 1, ml = 1 }", "g or ml"),
            ("{ chemical = \"metol\" }", "g or ml"),
            ("", "ingredients is empty"),
        ] {
            let why = formula(ingredient);
            assert!(why.contains(says), "{why}");
            assert!(why.contains("line "), "{why}");
        }
        let why =
            own("[[chemical]]\nname = \"x\"\nformula = \"Xx2\"\nfamily = \"x\"\n").unwrap_err();
        assert!(why.contains("line 3") && why.contains("Xx"), "{why}");
        let caution =
            "[[chemical]]\nname = \"x\"\nformula = \"KBr\"\nfamily = \"x\"\ncautions = [\"y\"]\n";
        assert!(
            own(caution).unwrap_err().contains("no caution"),
            "a caution that is not there"
        );
    }

    #[test]
    fn every_built_in_formula_can_be_found_by_its_name_and_its_chemicals_are_there() {
        let reference = Reference::built_in().unwrap();
        assert!(reference.formulas().len() >= 20);
        for formula in reference.formulas() {
            let found = reference.formula(&formula.name).map(|it| it.id.as_str());
            assert_eq!(found, Some(formula.id.as_str()));
            for one in &formula.ingredients {
                assert!(
                    reference.chemical(&one.chemical).is_some(),
                    "{}",
                    one.chemical
                );
            }
        }
        for chemical in reference.chemicals() {
            for name in std::iter::once(&chemical.name).chain(&chemical.also) {
                let found = reference.chemical(name).map(|it| it.id.as_str());
                assert_eq!(found, Some(chemical.id.as_str()), "{name}");
            }
        }
    }

    #[test]
    fn a_salt_sold_with_more_or_less_water_is_asked_about() {
        let reference = Reference::built_in().unwrap();
        assert!(reference.chemical("sodium carbonate").is_none());
        assert!(reference.chemical("washing soda").is_none());
    }
}
