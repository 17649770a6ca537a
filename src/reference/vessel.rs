//! Vessels that sheets are developed in.
//!
//! A record says how many sheets of which size go in at once and the least solution it works with. What
//! a run in it takes of time and solutions is planned elsewhere; a vessel that is typed and not listed is
//! read by the craft.

use serde::Deserialize;
use toml::Spanned;

use super::error::{Fault, ReferenceError};
use super::naming::Named;
use super::page::{Cite, Page};
use super::standing::{Origin, Standing};
use crate::craft::development::agitation::Agitation;
use crate::craft::development::vessel::Vessel;
use crate::craft::{Grounds, Millilitres, Size};

/// A vessel with where its numbers were read.
#[derive(Debug, Clone, PartialEq)]
pub struct ListedVessel {
    /// Name in links and files, such as `tray-8x10`.
    pub id: String,
    /// The vessel.
    pub vessel: Vessel,
    /// Other ways of writing its name.
    pub also: Vec<String>,
    /// Where its numbers were read, and what that is worth.
    pub grounds: Grounds,
    /// A remark; empty if there is none.
    pub note: String,
    /// Where the record was read.
    pub origin: Origin,
}

impl Named for ListedVessel {
    fn id(&self) -> &str {
        &self.id
    }

    fn names(&self) -> Vec<String> {
        let mut names = vec![self.vessel.name.clone()];
        names.extend(self.also.iter().cloned());
        names
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct VesselsFile {
    #[serde(default)]
    vessel: Vec<VesselFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct VesselFile {
    id: Spanned<String>,
    name: Spanned<String>,
    #[serde(default)]
    also: Vec<String>,
    agitation: Option<Agitation>,
    takes: Vec<TakesFile>,
    least: String,
    source: Option<String>,
    standing: Option<Standing>,
    #[serde(default)]
    note: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct TakesFile {
    size: String,
    sheets: u32,
}

/// Reads and checks a list of vessels.
pub(super) fn read(page: &Page<'_>) -> Result<Vec<ListedVessel>, ReferenceError> {
    let file: VesselsFile = page.read()?;
    let mut vessels: Vec<ListedVessel> = Vec::with_capacity(file.vessel.len());
    for written in file.vessel {
        page.once("vessel", &written.id, vessels.iter().map(|it| &it.id))?;
        let id = page.id(&written.id)?;
        let span = written.id.span();
        let wrong = |message: String| page.fault(span.clone(), Fault::Shape { message });
        let takes = written
            .takes
            .iter()
            .map(|it| {
                let size = Size::parse(&it.size).map_err(|why| why.to_string())?;
                match it.sheets {
                    0 => Err(format!("{id} takes no sheet of {size}: leave the size out")),
                    sheets => Ok((size, sheets)),
                }
            })
            .collect::<Result<Vec<_>, String>>()
            .map_err(wrong)?;
        if takes.is_empty() {
            return Err(wrong(format!(
                "{id} takes no sheets: say how many of which size"
            )));
        }
        let least = Millilitres::parse(&written.least).map_err(|why| wrong(why.to_string()))?;
        let cite = Cite {
            source: written.source,
            standing: written.standing,
        };
        let (source, standing) = page.cited(&id, span.clone(), cite)?;
        vessels.push(ListedVessel {
            id,
            vessel: Vessel {
                name: page.text("name", &written.name)?,
                takes,
                least,
                agitation: written.agitation,
            },
            also: written.also,
            grounds: Grounds::new(standing, source),
            note: written.note,
            origin: page.origin.clone(),
        });
    }
    Ok(vessels)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::craft::solutions::volume::{LEAST_DEPTH_IN, tray};
    use crate::reference::Reference;

    #[test]
    fn trays_hold_what_half_an_inch_gives() {
        let reference = Reference::built_in().unwrap();
        for (name, inside) in [
            ("tray 5x7", "5x7"),
            ("tray 8x10", "8x10"),
            ("tray 11x14", "11x14"),
        ] {
            let listed = reference.vessel(name).unwrap();
            let half_an_inch = tray(Size::parse(inside).unwrap(), LEAST_DEPTH_IN)
                .unwrap()
                .value;
            assert!(
                (listed.vessel.least.value() - half_an_inch).abs() < 1.0,
                "{name}"
            );
        }
    }

    #[test]
    fn a_vessel_that_cannot_be_is_refused_with_its_id() {
        for (rest, says) in [
            ("takes = []\nleast = \"1 l\"", "odd takes no sheets"),
            (
                "takes = [{ size = \"4x5\", sheets = 0 }]\nleast = \"1 l\"",
                "takes no sheet of 4x5",
            ),
            (
                "takes = [{ size = \"4x5\", sheets = 1 }]\nleast = \"much\"",
                "\"much\" is not",
            ),
        ] {
            let text =
                format!("[[vessel]]\nid = \"odd\"\nname = \"odd\"\nstanding = \"usual\"\n{rest}\n");
            let why = read(&Page::built_in("vessels.toml", &text))
                .unwrap_err()
                .to_string();
            assert!(why.contains(says), "{why}");
        }
    }
}
