//! Formulas to mix from raw chemicals, the chemicals themselves, and how much of a developer an area
//! takes.
//!
//! A formula keeps its ingredients in the order of mixing, each with its own source where it differs
//! from that of the formula. Promises: every ingredient names a chemical that is known, every chemical
//! has a formula whose molar mass can be reckoned, every caution is there. Scaling and converting is
//! left to the craft, the shape of the file to its reader.

use std::borrow::Cow;

use super::naming::Named;
use super::process::Purpose;
use super::standing::{Origin, Standing, Usual};
use crate::craft::Grounds;
use crate::craft::solutions::salts::Salt;
use crate::craft::solutions::weighing::Measure;

/// A chemical as it is sold.
#[derive(Debug, Clone, PartialEq)]
pub struct Chemical {
    /// Name in files, such as `sodium-sulfite`.
    pub id: String,
    /// Name for people, with its water where it matters.
    pub name: String,
    /// Other ways in which people write its name.
    pub also: Vec<String>,
    /// Its chemical formula, such as `Na2CO3.H2O`.
    pub formula: String,
    /// What it stands in for others of: chemicals of one family convert by molar mass.
    pub family: String,
    /// How much of what works one molecule holds.
    pub works: f64,
    /// Ids of its cautions.
    pub cautions: Vec<String>,
    /// Where the record was read.
    pub origin: Origin,
}

impl Chemical {
    /// The chemical as the craft converts it.
    pub fn salt(&self) -> Salt<'_> {
        Salt {
            name: &self.name,
            formula: &self.formula,
            works: self.works,
        }
    }
}

impl Named for Chemical {
    fn id(&self) -> &str {
        &self.id
    }

    fn names(&self) -> Vec<String> {
        let mut names = vec![self.name.clone()];
        names.extend(self.also.iter().cloned());
        names
    }
}

/// One ingredient of a formula.
#[derive(Debug, Clone, PartialEq)]
pub struct Ingredient {
    /// Id of the chemical.
    pub chemical: String,
    /// How much of it, in `measure`, for what the formula makes.
    pub amount: f64,
    /// Grams or millilitres.
    pub measure: Measure,
    /// A remark; empty if there is none.
    pub note: String,
    /// Where the amount was read.
    pub source: String,
    /// What that source is worth.
    pub standing: Standing,
}

/// The temperature of the water a formula begins with.
#[derive(Debug, Clone, PartialEq)]
pub struct Warm {
    /// Lower and upper end in degrees Fahrenheit, as the texts give it.
    pub fahrenheit: (f64, f64),
    /// Where it was read.
    pub source: String,
    /// What that source is worth.
    pub standing: Standing,
}

/// A formula.
#[derive(Debug, Clone, PartialEq)]
pub struct Formula {
    /// Name in files, such as `d-76`.
    pub id: String,
    /// Its name.
    pub name: String,
    /// Other ways in which people write it.
    pub also: Vec<String>,
    /// What it is for.
    pub purpose: Purpose,
    /// Millilitres of finished solution it makes.
    pub makes: f64,
    /// Millilitres of water to begin with, where the text says.
    pub start: Option<f64>,
    /// How warm that water is, where a text says.
    pub warm: Option<Warm>,
    /// What goes in, in the order of mixing.
    pub ingredients: Vec<Ingredient>,
    /// How it is used, in words: the dilution above all.
    pub how: String,
    /// Keeping times and capacities.
    pub usual: Vec<Usual>,
    /// Ids of cautions beyond those of its ingredients.
    pub cautions: Vec<String>,
    /// Where it was read.
    pub source: String,
    /// What that source is worth.
    pub standing: Standing,
    /// A remark; empty if there is none.
    pub note: String,
    /// Where the record was read.
    pub origin: Origin,
}

impl Formula {
    /// What the formula rests on.
    pub fn grounds(&self) -> Grounds {
        grounds(self.standing, &self.source)
    }
}

impl Ingredient {
    /// What its amount rests on.
    pub fn grounds(&self) -> Grounds {
        grounds(self.standing, &self.source)
    }
}

impl Warm {
    /// What the temperature rests on.
    pub fn grounds(&self) -> Grounds {
        grounds(self.standing, &self.source)
    }
}

impl Named for Formula {
    fn id(&self) -> &str {
        &self.id
    }

    fn names(&self) -> Vec<String> {
        let mut names = vec![self.name.clone()];
        names.extend(self.also.iter().cloned());
        names
    }
}

/// How much of a developer 80 square inches take.
#[derive(Debug, Clone, PartialEq)]
pub struct Usage {
    /// Name in files.
    pub id: String,
    /// Name of the developer.
    pub name: String,
    /// Other developers of which the same is told, and other names.
    pub also: Vec<String>,
    /// The least, in millilitres.
    pub least: f64,
    /// Of what: `stock`, `concentrate`.
    pub of: String,
    /// Replenisher, in millilitres, where it is told.
    pub replenish: Option<f64>,
    /// A remark; empty if there is none.
    pub note: String,
    /// Where it was read.
    pub source: String,
    /// What that source is worth.
    pub standing: Standing,
    /// Where the record was read.
    pub origin: Origin,
}

impl Usage {
    /// What its numbers rest on.
    pub fn grounds(&self) -> Grounds {
        grounds(self.standing, &self.source)
    }
}

impl Named for Usage {
    fn id(&self) -> &str {
        &self.id
    }

    fn names(&self) -> Vec<String> {
        let mut names = vec![self.name.clone()];
        names.extend(self.also.iter().cloned());
        names
    }
}

fn grounds(standing: Standing, source: &str) -> Grounds {
    Grounds::new(standing, Cow::Owned(source.to_owned()))
}

/// All that is mixed with.
#[derive(Debug, Clone, Default)]
pub(super) struct Mixing {
    pub(super) chemicals: Vec<Chemical>,
    pub(super) formulas: Vec<Formula>,
    pub(super) usages: Vec<Usage>,
}
