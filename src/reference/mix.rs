//! Sensitizers and baths as recipes: which substances, how strong, in what shares.
//!
//! For: reckoning drops and millilitres, and telling beside a step what its baths are. Published
//! recipes differ, so a process may have several. Promises: a share and a strength that are read are
//! above nothing, a chemical formula that is read has a molar mass, and every recipe says what it
//! rests on. How much of a sensitizer an area takes is left to the user's own measurement, and the
//! drops to the craft.

use std::fmt;

use serde::Deserialize;
use toml::Spanned;

use super::error::{Fault, ReferenceError};
use super::page::{Cite, Page};
use super::paper::PaperKind;
use super::standing::Standing;
use crate::craft::solutions::molar;
use crate::craft::{Size, trimmed};
use crate::words::words;

/// A substance in a solution.
#[derive(Debug, Clone, PartialEq)]
pub struct Substance {
    /// Its name, such as `ferric oxalate`.
    pub of: String,
    /// Its chemical formula, water of crystals included; empty where the text leaves it open.
    pub formula: String,
    /// How strong, least and most, in [`Substance::unit`]; both the same for a single figure, `None`
    /// where the text gives none.
    pub strength: Option<(f64, f64)>,
    /// What the strength is counted in.
    pub unit: Strength,
    /// A remark; empty if there is none.
    pub note: String,
    /// Where it was read.
    pub source: String,
    /// What that source is worth.
    pub standing: Standing,
}

impl Substance {
    /// Grams in 100 ml of the solution, least and most; `None` without a strength, or for one that
    /// is counted by volume.
    pub fn percent(&self) -> Option<(f64, f64)> {
        let (least, most) = self.strength?;
        match self.unit {
            Strength::Percent | Strength::GramsPerHundred => Some((least, most)),
            Strength::GramsPerLitre => Some((least / 10.0, most / 10.0)),
            Strength::MillilitresPerLitre => None,
        }
    }

    /// Moles in a litre of the solution, least and most; `None` where the percentage or the formula
    /// is not known.
    pub fn molar(&self) -> Option<(f64, f64)> {
        let (least, most) = self.percent()?;
        let mass = molar::mass(&self.formula).ok()?;
        Some((least * 10.0 / mass, most * 10.0 / mass))
    }
}

/// `ferric oxalate 27 %`, or the name alone.
impl fmt::Display for Substance {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.of)?;
        if let Some((least, most)) = self.strength {
            write!(f, " {}", trimmed(least, 4))?;
            if most > least {
                write!(f, " to {}", trimmed(most, 4))?;
            }
            write!(f, " {}", self.unit)?;
        }
        Ok(())
    }
}

words! {
    /// What the strength of a solution is counted in.
    Strength {
        /// Grams made up to 100 ml, written as a percentage.
        Percent = "%",
        /// Grams made up to 100 ml.
        GramsPerHundred = "g/100 ml",
        /// Grams made up to a litre.
        GramsPerLitre = "g/l",
        /// Millilitres of the concentrate made up to a litre.
        MillilitresPerLitre = "ml/l",
    }
}

words! {
    /// What a solution is there for in a sensitizer.
    Role {
        /// The salt of iron that light changes.
        Iron = "iron",
        /// The salt of platinum or palladium that becomes the image.
        Metal = "metal",
        /// The salt of silver that becomes the image.
        Silver = "silver",
        /// The chloride that makes the silver sensitive.
        Salt = "salt",
        /// The ferricyanide that makes the blue.
        Ferricyanide = "ferricyanide",
        /// The dichromate that hardens a colloid in the light.
        Dichromate = "dichromate",
        /// Gum, gelatin or egg white.
        Colloid = "colloid",
        /// The colour of the image.
        Pigment = "pigment",
        /// What makes the print harder or softer.
        Agent = "agent",
        /// A sensitizer that is one solution.
        Whole = "whole",
        /// Water to thin it.
        Water = "water",
        /// Anything else.
        Other = "other",
    }
}

words! {
    /// What the shares of a mix are counted in.
    Measure {
        /// Parts by volume, for any area.
        Parts = "parts",
        /// Drops for the area that is named.
        Drops = "drops",
        /// Millilitres for the area that is named.
        Millilitres = "ml",
    }
}

/// One solution of a sensitizer, with its share.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// Name in files, such as `a`; unique in its mix.
    pub key: String,
    /// Name for people; the key if there is no other.
    pub label: String,
    /// What it is there for.
    pub role: Role,
    /// Its share, in the measure of the mix; nothing or more.
    pub share: f64,
    /// The figure of the step that says how much of it was taken, if there is one.
    pub figure: Option<String>,
    /// What is dissolved in it, the chief substance first; empty for water.
    pub holds: Vec<Substance>,
    /// A remark; empty if there is none.
    pub note: String,
}

impl Part {
    /// What is dissolved in it: `ferric oxalate 27 % with oxalic acid 3 %`.
    pub fn contents(&self) -> String {
        let each: Vec<String> = self.holds.iter().map(Substance::to_string).collect();
        each.join(" with ")
    }
}

/// A recipe for a sensitizer.
#[derive(Debug, Clone, PartialEq)]
pub struct Mix {
    /// Name in files; unique in its process.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Id of the step that takes it.
    pub step: String,
    /// What the shares are counted in.
    pub measure: Measure,
    /// The area that takes so many drops or millilitres; `None` for parts.
    pub area: Option<Size>,
    /// Its solutions, in the order of mixing; never empty, one of them with a share.
    pub parts: Vec<Part>,
    /// Where it was read.
    pub source: String,
    /// What that source is worth.
    pub standing: Standing,
    /// A remark; empty if there is none.
    pub note: String,
}

impl Mix {
    /// The part with this key.
    pub fn part(&self, key: &str) -> Option<&Part> {
        self.parts.iter().find(|part| part.key == key)
    }

    /// All shares together, in the measure of the mix; above nothing.
    pub fn total(&self) -> f64 {
        self.parts.iter().map(|part| part.share).sum()
    }

    /// The fraction of the whole that a part is, between 0 and 1; `None` for a key it does not have.
    pub fn fraction(&self, key: &str) -> Option<f64> {
        Some(self.part(key)?.share / self.total())
    }

    /// The shares in words: `A 10 drops, B 10 drops for 8x10 in`.
    pub fn shares(&self) -> String {
        let one = |part: &Part| format!("{} {}", part.label, trimmed(part.share, 3));
        let each: Vec<String> = self.parts.iter().map(one).collect();
        let area = self.area.map(|area| format!(" for {area}"));
        let measure = self.measure.word();
        format!("{} {measure}{}", each.join(" : "), area.unwrap_or_default())
    }
}

/// `A 1 : B 1 parts; A ferric ammonium citrate 25 g/100 ml, B potassium ferricyanide 10 g/100 ml`.
impl fmt::Display for Mix {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.shares())?;
        let parts = self.parts.iter().filter(|part| !part.holds.is_empty());
        for (place, part) in parts.enumerate() {
            let before = if place == 0 { "; " } else { ", " };
            write!(f, "{before}{} {}", part.label, part.contents())?;
        }
        Ok(())
    }
}

/// A bath of a step.
#[derive(Debug, Clone, PartialEq)]
pub struct Solution {
    /// Its name for people.
    pub name: String,
    /// Id of the formula in `formulas.toml` it is mixed by, if there is one.
    pub formula: Option<String>,
    /// What is dissolved in it.
    pub holds: Vec<Substance>,
    /// Set if it is for one kind of paper only.
    pub paper: Option<PaperKind>,
    /// Where it was read.
    pub source: String,
    /// What that source is worth.
    pub standing: Standing,
    /// A remark; empty if there is none.
    pub note: String,
}

impl Solution {
    /// What is dissolved in it: `potassium oxalate 10 % with potassium phosphate 5 %`; else its formula,
    /// else the note.
    pub fn contents(&self) -> String {
        if self.holds.is_empty() {
            let formula = self.formula.as_deref().map(|id| format!("formula {id}"));
            return formula.unwrap_or_else(|| self.note.clone());
        }
        let each: Vec<String> = self.holds.iter().map(Substance::to_string).collect();
        each.join(" with ")
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SubstanceFile {
    of: Spanned<String>,
    formula: Option<Spanned<String>>,
    from: Option<f64>,
    to: Option<f64>,
    unit: Option<Strength>,
    #[serde(default)]
    note: String,
    source: Option<String>,
    standing: Option<Standing>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PartFile {
    key: Spanned<String>,
    label: Option<Spanned<String>>,
    role: Role,
    share: f64,
    figure: Option<Spanned<String>>,
    #[serde(default)]
    holds: Vec<SubstanceFile>,
    #[serde(default)]
    note: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct MixFile {
    pub(super) id: Spanned<String>,
    name: Spanned<String>,
    pub(super) step: Spanned<String>,
    measure: Spanned<Measure>,
    area: Option<Spanned<String>>,
    part: Vec<PartFile>,
    source: Option<String>,
    standing: Option<Standing>,
    #[serde(default)]
    note: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SolutionFile {
    name: Spanned<String>,
    formula: Option<Spanned<String>>,
    #[serde(default)]
    holds: Vec<SubstanceFile>,
    paper: Option<PaperKind>,
    source: Option<String>,
    standing: Option<Standing>,
    #[serde(default)]
    note: String,
}

/// Reads and checks a mix. Whether its step and the figures it names are there is checked where the
/// steps are known, by what `figures` says of the figures of that step.
pub(super) fn mix(
    page: &Page<'_>,
    written: MixFile,
    is_figure: impl Fn(&str) -> bool,
) -> Result<Mix, ReferenceError> {
    let id = page.id(&written.id)?;
    let name = page.text("name", &written.name)?;
    let bad = |why: &str| {
        let (id, why) = (id.clone(), why.to_owned());
        page.fault(written.id.span(), Fault::BadMix { id, why })
    };
    let cite = Cite {
        source: written.source,
        standing: written.standing,
    };
    let ground = page.cited(&name, written.name.span(), cite)?;
    let measure = *written.measure.get_ref();
    let area = match (&written.area, measure) {
        (None, Measure::Parts) => None,
        (Some(_), Measure::Parts) => {
            return Err(bad("parts hold for any area: leave the area out"));
        }
        (None, _) => {
            return Err(bad(
                "drops and millilitres hold for one area: name it, such as area = \"8x10\"",
            ));
        }
        (Some(area), _) => Some(Size::parse(area.get_ref()).map_err(|why| {
            let message = why.to_string();
            page.fault(area.span(), Fault::Shape { message })
        })?),
    };
    let mut parts: Vec<Part> = Vec::with_capacity(written.part.len());
    for part in written.part {
        page.once("part", &part.key, parts.iter().map(|part| &part.key))?;
        if !(part.share.is_finite() && part.share >= 0.0) {
            let fault = Fault::NotPositive {
                what: "share",
                value: part.share.to_string(),
            };
            return Err(page.fault(part.key.span(), fault));
        }
        if let Some(figure) = &part.figure
            && !is_figure(figure.get_ref())
        {
            let fault = Fault::NotThere {
                of: format!("part {:?} of mix {id:?}", part.key.get_ref()),
                key: "figure",
                other: figure.get_ref().clone(),
            };
            return Err(page.fault(figure.span(), fault));
        }
        let key = page.id(&part.key)?;
        parts.push(Part {
            label: match &part.label {
                Some(label) => page.text("label", label)?,
                None => key.clone(),
            },
            key,
            role: part.role,
            share: part.share,
            figure: part.figure.map(Spanned::into_inner),
            holds: substances(page, part.holds, &ground)?,
            note: part.note,
        });
    }
    if !parts.iter().any(|part| part.share > 0.0) {
        return Err(bad("no part has a share: give it at least one"));
    }
    let (source, standing) = ground;
    Ok(Mix {
        id,
        name,
        step: written.step.into_inner(),
        measure,
        area,
        parts,
        source,
        standing,
        note: written.note,
    })
}

/// Reads and checks the baths of a step; `is_formula` knows the formulas.
pub(super) fn solutions(
    page: &Page<'_>,
    written: Vec<SolutionFile>,
    is_formula: &dyn Fn(&str) -> bool,
) -> Result<Vec<Solution>, ReferenceError> {
    let mut read: Vec<Solution> = Vec::with_capacity(written.len());
    for one in written {
        let name = page.text("name", &one.name)?;
        let cite = Cite {
            source: one.source,
            standing: one.standing,
        };
        let ground = page.cited(&name, one.name.span(), cite)?;
        if let Some(formula) = &one.formula
            && !is_formula(formula.get_ref())
        {
            let id = formula.get_ref().clone();
            return Err(page.fault(formula.span(), Fault::UnknownFormula { id }));
        }
        if one.formula.is_none() && one.holds.is_empty() && one.note.trim().is_empty() {
            let fault = Fault::EmptyBath { name };
            return Err(page.fault(one.name.span(), fault));
        }
        let holds = substances(page, one.holds, &ground)?;
        let (source, standing) = ground;
        read.push(Solution {
            name,
            formula: one.formula.map(Spanned::into_inner),
            holds,
            paper: one.paper,
            source,
            standing,
            note: one.note,
        });
    }
    Ok(read)
}

/// Reads and checks substances; what does not say what it rests on rests on `ground`.
fn substances(
    page: &Page<'_>,
    written: Vec<SubstanceFile>,
    ground: &(String, Standing),
) -> Result<Vec<Substance>, ReferenceError> {
    let one = |written: SubstanceFile| {
        let of = page.text("of", &written.of)?;
        let span = written.of.span();
        let strength = page.range(&of, span.clone(), written.from, written.to)?;
        if let Some((least, _)) = strength
            && least <= 0.0
        {
            let fault = Fault::NotPositive {
                what: "strength",
                value: least.to_string(),
            };
            return Err(page.fault(span, fault));
        }
        let unit = match (written.unit, strength) {
            (Some(unit), _) => unit,
            (None, None) => Strength::Percent,
            (None, Some(_)) => return Err(page.fault(span, Fault::NoUnit { what: of })),
        };
        let formula = match &written.formula {
            Some(formula) => {
                let read = page.text("formula", formula)?;
                molar::mass(&read).map_err(|why| {
                    let message = why.to_string();
                    page.fault(formula.span(), Fault::Shape { message })
                })?;
                read
            }
            None => String::new(),
        };
        let cite = Cite {
            source: written.source,
            standing: written.standing,
        };
        let (source, standing) = page.cited_or(&of, span, cite, ground)?;
        Ok(Substance {
            of,
            formula,
            strength,
            unit,
            note: written.note,
            source,
            standing,
        })
    };
    written.into_iter().map(one).collect()
}
