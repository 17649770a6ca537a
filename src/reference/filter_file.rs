//! Reading a list of filters.
//!
//! Promises: a number is in stops, as a factor or as a range of factors, takes light, and stops and
//! factor beside each other say the same. What a filter is, and which of its numbers goes first,
//! stands in `filter.rs`.

use serde::Deserialize;
use toml::Spanned;

use super::error::{Fault, ReferenceError};
use super::filter::{Filter, FilterKind, LightKind, Taken};
use super::naming::slug;
use super::page::{Cite, Page};
use super::standing::Standing;
use crate::craft::{Grounds, Stops, filter::nominal};

/// How far printed stops and the printed factor beside them may lie apart, in stops: tables round
/// both.
const ROUNDED: f64 = 0.2;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FiltersFile {
    #[serde(default)]
    filter: Vec<FilterFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FilterFile {
    id: Option<Spanned<String>>,
    name: Spanned<String>,
    #[serde(default)]
    also: Vec<String>,
    #[serde(default = "contrast")]
    kind: FilterKind,
    #[serde(default)]
    takes: Vec<Spanned<TakenFile>>,
    #[serde(default)]
    note: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct TakenFile {
    #[serde(default)]
    films: Vec<String>,
    #[serde(default)]
    maker: String,
    light: Option<LightKind>,
    /// As people write it: `1 1/3`.
    stops: Option<String>,
    factor: Option<f64>,
    /// The upper end, where a range of factors is printed.
    to: Option<f64>,
    source: Option<String>,
    standing: Option<Standing>,
    #[serde(default)]
    note: String,
}

fn contrast() -> FilterKind {
    FilterKind::Contrast
}

/// Reads and checks a list of filters.
pub(super) fn read(page: &Page<'_>) -> Result<Vec<Filter>, ReferenceError> {
    let file: FiltersFile = page.read()?;
    let mut filters: Vec<Filter> = Vec::with_capacity(file.filter.len());
    for written in file.filter {
        let name = page.text("name", &written.name)?;
        let span = written.name.span();
        let id = written
            .id
            .unwrap_or_else(|| Spanned::new(span, slug(&name)));
        page.once("filter", &id, filters.iter().map(|filter| &filter.id))?;
        let takes = written.takes.into_iter();
        filters.push(Filter {
            id: page.id(&id)?,
            takes: takes
                .map(|taken| read_taken(page, &name, taken))
                .collect::<Result<_, _>>()?,
            name,
            also: written.also,
            kind: written.kind,
            note: written.note,
            origin: page.origin.clone(),
        });
    }
    Ok(filters)
}

fn read_taken(
    page: &Page<'_>,
    name: &str,
    written: Spanned<TakenFile>,
) -> Result<Taken, ReferenceError> {
    let span = written.span();
    let written = written.into_inner();
    let what = || name.to_owned();
    let fault = |fault: Fault| page.fault(span.clone(), fault);
    let printed = match &written.stops {
        Some(text) => Some(Stops::parse(text).map_err(|why| {
            let message = why.to_string();
            fault(Fault::Shape { message })
        })?),
        None => None,
    };
    let in_stops = |factor: f64| match Stops::from_factor(factor) {
        Ok(stops) if factor >= 1.0 => Ok(stops),
        _ => Err(fault(Fault::NoFactor {
            what: what(),
            factor: factor.to_string(),
        })),
    };
    let low = written.factor.map(in_stops).transpose()?;
    let high = written.to.map(in_stops).transpose()?;
    let stops = match (printed, low, high) {
        (Some(stops), low, None) => {
            if low.is_some_and(|low| (low.value() - stops.value()).abs() > ROUNDED) {
                return Err(fault(Fault::Disagree { what: what() }));
            }
            stops
        }
        (None, Some(low), None) => low,
        (None, Some(low), Some(high)) if low <= high => {
            let middle = Stops::new((low.value() + high.value()) / 2.0);
            nominal(middle.unwrap_or(low))
        }
        (None, None, None) => return Err(fault(Fault::SaysNothing { what: what() })),
        _ => return Err(fault(Fault::BadRange { what: what() })),
    };
    if stops.value() < 0.0 {
        let factor = stops.factor().to_string();
        return Err(fault(Fault::NoFactor {
            what: what(),
            factor,
        }));
    }
    let cite = Cite {
        source: written.source,
        standing: written.standing,
    };
    let (source, standing) = page.cited(name, span.clone(), cite)?;
    Ok(Taken {
        films: written.films,
        maker: written.maker,
        light: written.light,
        stops,
        factor: written.factor.map(|factor| (factor, written.to)),
        grounds: Grounds::new(standing, source),
        note: written.note,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fault(takes: &str) -> String {
        let text = format!("[[filter]]\nname = \"red\"\ntakes = [\n  {{ {takes} }},\n]\n");
        let page = Page::built_in("filters.toml", &text);
        read(&page).unwrap_err().to_string()
    }

    #[test]
    fn a_number_that_cannot_be_is_named_with_its_line() {
        for (takes, says) in [
            (
                r#"stops = "1 2/3", factor = 2.5, standing = "usual""#,
                "say two things",
            ),
            (
                r#"factor = 0.5, standing = "usual""#,
                "cannot have the factor 0.5",
            ),
            (
                r#"stops = "-1", standing = "usual""#,
                "cannot have the factor 0.5",
            ),
            (
                r#"factor = 4, to = 3, standing = "usual""#,
                "is not a range",
            ),
            (
                r#"stops = "1", to = 3, standing = "usual""#,
                "is not a range",
            ),
            (r#"standing = "usual""#, "says nothing"),
            (
                r#"stops = "one", standing = "usual""#,
                "is not a number of stops",
            ),
            (r#"factor = 4, standing = "published""#, "names no source"),
            (r#"factor = 4"#, "has no standing"),
        ] {
            let why = fault(takes);
            assert!(
                why.contains(says) && why.contains("line 4"),
                "{takes}: {why}"
            );
        }
    }

    #[test]
    fn of_a_range_the_middle_to_a_third_is_reckoned_with() {
        let text = "[[filter]]\nname = \"orange\"\ntakes = [{ factor = 3, to = 5, standing = \"remembered\" }]";
        let page = Page::built_in("filters.toml", text);
        let filters = read(&page).unwrap();
        assert_eq!(filters[0].takes[0].stops.value(), 2.0);
        assert_eq!(filters[0].takes[0].factor, Some((3.0, Some(5.0))));
    }
}
