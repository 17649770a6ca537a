//! What an entry should have said: the deed of an amendment, from the old deed and a draft.
//!
//! The draft is that of the old deed with some of its fields typed anew. What the fields do not say
//! stays as it was: the identity of what came into being, and what the logbook filled in, as long
//! as the entry is still about the same thing.

use serde_json::{Map, Value};

use super::draft::{Desk, Draft, FieldProblem, body_of};
use super::{Deed, Kind, reckoning};

/// The key of how an exposure was reckoned: no field of its own.
const RECKONING: &str = "reckoning";

/// Reads the deed that takes the place of `old`.
///
/// # Errors
/// As [`Draft::read`]: every field that cannot be read.
pub fn amended(old: &Deed, draft: &Draft, desk: &mut Desk<'_>) -> Result<Deed, Vec<FieldProblem>> {
    let kind = old.kind();
    let was = body_of(old);
    let mut body = body_of(&draft.read(desk)?.deed);
    let about = kind.about();
    let same_subject = about.is_none_or(|key| subject(&was, key) == subject(&body, key));
    let created = match old.creates() {
        Some(_) => kind.creates().map(|(key, _)| key),
        None => None,
    };
    for (key, value) in &was {
        let asked_for = kind.fields().iter().any(|field| field.key == *key);
        if created == Some(key.as_str()) {
            body.insert(key.clone(), value.clone());
        } else if matches!(kind, Kind::Exposed | Kind::RunBegun) && key == RECKONING {
            // Published figures change with the years: what was reckoned then stays, unless what it
            // was reckoned from is amended.
            let same = |input: &&str| subject(&was, input) == subject(&body, input);
            let anew: &[&str] = match kind {
                Kind::Exposed => &["readings", "flash"],
                _ => reckoning::inputs(kind),
            };
            let reckoned_anew = body.contains_key(key) || anew.iter().any(|input| !same(input));
            if reckoning::inputs(kind).iter().all(same) || !reckoned_anew {
                body.insert(key.clone(), value.clone());
            }
        } else if key == "side_ids" {
            keep_sides(value, &mut body);
        } else if key == RECKONING {
            // How a setting came about stays true wherever it was used.
            body.entry(key.clone()).or_insert_with(|| value.clone());
        } else if !asked_for && same_subject && !said_by_the_draft(kind, key) {
            body.insert(key.clone(), value.clone());
        }
    }
    serde_json::to_string(&body)
        .map_err(|error| error.to_string())
        .and_then(|json| Deed::from_json(kind, &json).map_err(|error| error.to_string()))
        .map_err(|problem| {
            vec![FieldProblem {
                key: String::new(),
                label: kind.title().to_owned(),
                problem,
            }]
        })
}

/// The sheets of a run are stored with the sides they came out of; only the sheets are the subject.
fn subject(body: &Map<String, Value>, key: &str) -> Option<Value> {
    let value = body.get(key)?;
    let Some(list) = value.as_array() else {
        return Some(value.clone());
    };
    let each = list.iter().map(|one| one.get("sheet").unwrap_or(one));
    Some(each.cloned().collect())
}

/// Whether a draft says it although no field has its key.
fn said_by_the_draft(kind: Kind, key: &str) -> bool {
    matches!(
        (kind, key),
        (Kind::PrintStep, "figures") | (Kind::Loaded, "again")
    )
}

/// The sides a holder had keep their identity; more of them come behind, fewer end earlier.
fn keep_sides(was: &Value, body: &mut Map<String, Value>) {
    let (Some(was), Some(now)) = (
        was.as_array(),
        body.get_mut("side_ids").and_then(Value::as_array_mut),
    ) else {
        return;
    };
    for (new, old) in now.iter_mut().zip(was) {
        *new = old.clone();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::craft::{Size, TimeZone};
    use crate::logbook::{
        HolderAdded, Life, Loaded, Names, Particulars, PrintStep, Thing, ThingId, ThingKind,
    };
    use crate::reference::Reference;
    use chrono::DateTime;
    use std::collections::BTreeMap;
    use uuid::Uuid;

    /// A logbook in which every reference is known and its number is the id.
    struct All;

    impl Names for All {
        fn find(&self, kinds: &[ThingKind], reference: &str) -> Option<Thing> {
            let kind = kinds.first()?;
            let digits: String = reference.chars().filter(char::is_ascii_digit).collect();
            let number = u128::from_str_radix(&digits, 16).ok()?;
            Some(Thing::new(*kind, ThingId(Uuid::from_u128(number))))
        }
        fn life_of(&self, thing: ThingId) -> Option<Life> {
            let mut life = Life::new(Thing::new(ThingKind::Print, thing));
            life.reference = format!("P-{:x}", thing.0.as_u128());
            if let Particulars::Print(print) = &mut life.particulars {
                print.process = "cyanotype".to_owned();
            }
            Some(life)
        }
    }

    fn id(number: u128) -> ThingId {
        ThingId(Uuid::from_u128(number))
    }

    fn size(text: &str) -> Size {
        Size::parse(text).expect("a size")
    }

    fn amend(old: &Deed, changes: &[(&str, &str)]) -> Deed {
        let reference = Reference::built_in().expect("the built-in reference");
        let mut draft = Draft::of(old, &All);
        for (key, text) in changes {
            draft.set(key, *text);
        }
        let mut next = 0x1000;
        let mut ids = || {
            next += 1;
            Uuid::from_u128(next)
        };
        let mut desk = Desk {
            names: &All,
            reference: &reference,
            now: DateTime::parse_from_rfc3339("2026-03-04T16:02:00+01:00").expect("a time"),
            zone: TimeZone::parse("+01:00").expect("a zone"),
            ids: &mut ids,
        };
        amended(old, &draft, &mut desk).expect("it can be read")
    }

    #[test]
    fn what_came_into_being_stays_what_it_is() {
        let old = Deed::Loaded(Loaded {
            side: id(0x7),
            sheet: id(0x42),
            reference: "S-0042".to_owned(),
            film_box: id(0x3),
            again: false,
            size: Some(size("8x10")),
        });
        let Deed::Loaded(new) = amend(&old, &[("film_box", "F-04")]) else {
            panic!("another kind");
        };
        assert_eq!(new.sheet, id(0x42));
        assert_eq!(new.film_box, id(0x4));
        assert_eq!(new.reference, "S-0042");
        assert!(!new.again);
        assert_eq!(amend(&old, &[]), old);
    }

    #[test]
    fn a_holder_keeps_its_sides_when_one_more_is_found() {
        let old = Deed::HolderAdded(HolderAdded {
            holder: id(0x1),
            reference: "H-01".to_owned(),
            size: size("8x10"),
            sides: 2,
            side_ids: vec![id(0x2), id(0x3)],
            make: None,
        });
        let Deed::HolderAdded(new) = amend(&old, &[("sides", "3")]) else {
            panic!("another kind");
        };
        assert_eq!(new.holder, id(0x1));
        assert_eq!(new.side_ids.len(), 3);
        assert_eq!(new.side_ids[..2], [id(0x2), id(0x3)]);
        let Deed::HolderAdded(fewer) = amend(&old, &[("sides", "1")]) else {
            panic!("another kind");
        };
        assert_eq!(fewer.side_ids, [id(0x2)]);
    }

    #[test]
    fn figures_of_a_step_are_replaced_and_can_be_taken_out() {
        let figures = [("drops-a", "10"), ("drops-b", "10")]
            .map(|(key, text)| (key.to_owned(), text.to_owned()));
        let old = Deed::PrintStep(PrintStep {
            print: id(0x31),
            step: "coat".to_owned(),
            baths: Vec::new(),
            area: None,
            time: None,
            temperature: None,
            figures: BTreeMap::from(figures),
        });
        let Deed::PrintStep(new) =
            amend(&old, &[("figures.drops-a", "12"), ("figures.drops-b", "")])
        else {
            panic!("another kind");
        };
        let figures: Vec<(&str, &str)> = new
            .figures
            .iter()
            .map(|(key, text)| (key.as_str(), text.as_str()))
            .collect();
        assert_eq!(figures, [("drops-a", "12")]);
    }
}
