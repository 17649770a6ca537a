//! What can be wrong with a negative: how it looks, what may have caused it, what to do another time.
//!
//! For: whoever holds a faulty sheet to the light and looks for a word and a cause. The words are offered
//! where a fault is logged, so that the same fault is called the same for years and can be counted. Leaves
//! to the one who looks which of the causes it was: the list says what may be, never what is.

use serde::Deserialize;
use toml::Spanned;

use super::error::{Fault as Wrong, ReferenceError};
use super::naming::Named;
use super::page::{Cite, Page};
use super::standing::{Origin, Standing};
use crate::words::words;

words! {
    /// The stage in which the cause of a fault lies.
    Stage {
        /// Loading and the holder.
        Holder = "holder",
        /// Camera and lens.
        Camera = "camera",
        /// Metering and the shutter.
        Exposure = "exposure",
        /// In the developer.
        Development = "development",
        /// In the fixer.
        Fixing = "fixing",
        /// In the wash.
        Washing = "washing",
        /// Drying.
        Drying = "drying",
        /// Keeping and handling.
        Keeping = "keeping",
    }
}

/// A fault of negatives.
#[derive(Debug, Clone, PartialEq)]
pub struct Fault {
    /// Name in links and files, such as `air-bells`.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// What else it is called.
    pub also: Vec<String>,
    /// Where its cause lies.
    pub when: Stage,
    /// How it looks.
    pub looks: String,
    /// What may have caused it; never empty.
    pub causes: Vec<String>,
    /// What to do another time.
    pub instead: String,
    /// Where look and causes were read.
    pub source: String,
    /// How far that may be trusted.
    pub standing: Standing,
    /// Where the record was read.
    pub origin: Origin,
}

impl Named for Fault {
    fn id(&self) -> &str {
        &self.id
    }

    fn names(&self) -> Vec<String> {
        let mut names = vec![self.name.clone()];
        names.extend(self.also.iter().cloned());
        names
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FaultsFile {
    #[serde(default)]
    fault: Vec<FaultFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FaultFile {
    id: Spanned<String>,
    name: Spanned<String>,
    #[serde(default)]
    also: Vec<String>,
    when: Stage,
    looks: Spanned<String>,
    causes: Vec<Spanned<String>>,
    instead: Spanned<String>,
    source: Option<String>,
    standing: Option<Standing>,
}

/// Reads and checks a list of faults.
pub(super) fn read(page: &Page<'_>) -> Result<Vec<Fault>, ReferenceError> {
    let file: FaultsFile = page.read()?;
    let mut faults: Vec<Fault> = Vec::with_capacity(file.fault.len());
    for written in file.fault {
        page.once("fault", &written.id, faults.iter().map(|it| &it.id))?;
        let name = page.text("name", &written.name)?;
        let causes: Vec<String> = written
            .causes
            .iter()
            .map(|cause| page.text("causes", cause))
            .collect::<Result<_, _>>()?;
        if causes.is_empty() {
            return Err(page.fault(written.id.span(), Wrong::Empty { key: "causes" }));
        }
        let cite = Cite {
            source: written.source,
            standing: written.standing,
        };
        let (source, standing) = page.cited(&name, written.name.span(), cite)?;
        faults.push(Fault {
            id: page.id(&written.id)?,
            also: written.also,
            when: written.when,
            looks: page.text("looks", &written.looks)?,
            causes,
            instead: page.text("instead", &written.instead)?,
            source,
            standing,
            origin: page.origin.clone(),
            name,
        });
    }
    Ok(faults)
}

#[cfg(test)]
mod tests {
    use super::super::Reference;
    use super::*;

    #[test]
    fn every_fault_is_found_by_each_of_its_names_and_by_no_other_fault() {
        let reference = Reference::built_in().expect("the built-in reference");
        assert!(reference.faults().len() >= 15);
        for fault in reference.faults() {
            for name in fault.names() {
                let found = reference.fault(&name).map(|found| found.id.as_str());
                assert_eq!(found, Some(fault.id.as_str()), "{name}");
            }
        }
    }

    #[test]
    fn a_fault_without_a_cause_is_refused_with_its_line() {
        let text = "[[fault]]\nid = \"x\"\nname = \"x\"\nwhen = \"drying\"\nlooks = \"x\"\ncauses = []\n\
                    instead = \"x\"\nstanding = \"usual\"\n";
        let refused = read(&Page::built_in("faults.toml", text)).expect_err("no cause");
        assert!(refused.to_string().contains("line 2"), "{refused}");
    }
}
